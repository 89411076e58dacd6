"""The sheets that a scan adds to the packet: the pockets that are filled, and where the shell comes apart, drawn from four sides."""

from pathlib import Path
from typing import Any

from moldcalc.packet.saying import tight
from moldcalc.plan.results import Plan
from moldcalc.units import show

Sheet = dict[str, Any]
NOTHING: Sheet = {"split": None, "pockets": None}


def surveyed(plan: Plan, home: Path | None) -> Sheet:
    """What was found on the job's scan, as far as the job uses it. Nothing for a job without a survey beside it.

    Raises
    ------
    FileError
        The survey is damaged.
    """
    if home is None or not home.with_suffix(".survey").is_file():
        return dict(NOTHING)
    from moldcalc.survey.kept import read_survey, survey_path
    from moldcalc.survey.names import POCKET

    survey = read_survey(survey_path(home))
    made: Sheet = dict(NOTHING)
    if (facts := survey.facts.get("sections")) and "shell" in survey.shapes and _used(plan, facts):
        made["split"] = _split(plan, facts, survey.shapes["shell"])
    ticked = {row.name for row in plan.job.paste.fill if row.name.startswith(POCKET)}
    if (facts := survey.facts.get("pockets")) and "rubber" in survey.shapes and ticked:
        made["pockets"] = _pockets(plan, facts, survey.shapes["rubber"], ticked)
    return made


def _used(plan: Plan, facts: dict[str, Any]) -> bool:
    """Whether the job's sections are the ones that were found: as many, with the same areas."""
    sections = plan.job.layup.section
    return len(sections) == len(facts["sections"]) and all(abs(section.face - row["area"]) <= 1e-3 * row["area"]
                                                            for section, row in zip(sections, facts["sections"], strict=True))


def _changed(plan: Plan, chapter: str, facts: dict[str, Any]) -> list[str]:
    from moldcalc.survey.facts import changed_since

    return changed_since(plan.job, chapter, facts)


def _split(plan: Plan, facts: dict[str, Any], shape: Any) -> Sheet:
    from markupsafe import Markup

    from moldcalc.scan.views import views_sheet, way

    pieces: Any = [{"number": row["number"], "name": section.name, "pull": row["pull"], "order": row["order"] or row["number"], "place": row["place"]}
                   for row, section in zip(facts["sections"], plan.job.layup.section, strict=True)]
    names = {row["number"]: section.name for row, section in zip(facts["sections"], plan.job.layup.section, strict=True)}
    rows = [{"number": row["number"], "name": names[row["number"]], "round": row["order"] or "–", "way": way(row["pull"]),
             "draft": tight(show(row["draft"], "°", plan.system)), "fill": tight(show(row["fill"], "L", plan.system)),
             "touches": ", ".join(f"{other} ({tight(show(length, 'm', plan.system))})" for other, length in row["touches"].items())}
            for row in facts["sections"]]
    return {"views": Markup(views_sheet((shape.vertices, shape.faces), shape.labels, pieces=pieces, system=plan.system)), "rows": rows,
            "order": facts["order"], "ways_out": facts["ways_out"], "changed": _changed(plan, "sections", facts)}


def _pockets(plan: Plan, facts: dict[str, Any], shape: Any, ticked: set[str]) -> Sheet:
    from markupsafe import Markup

    from moldcalc.scan.views import views_sheet

    rows = [{"number": row["number"], "volume": tight(show(row["likely"], "L", plan.system)), "depth": tight(show(row["depth"], "mm", plan.system)),
             "neck": tight(show(row["neck"], "mm", plan.system)), "fill": f"pocket {row['number']}" in ticked} for row in facts["pockets"]]
    pieces: Any = [{"number": row["number"], "name": f"pocket {row['number']}", "pull": None, "order": 0, "place": row["place"]}
                   for row in facts["pockets"]]
    views = views_sheet((shape.vertices, shape.faces), shape.labels, pieces=pieces, mode="pockets", system=plan.system)
    return {"views": Markup(views), "rows": rows, "changed": _changed(plan, "pockets", facts)}
