"""Stage split: what the sections' joints and ways off come to, and how outlines divide where there is no scan."""

from functools import lru_cache
from typing import Any

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.job.job import Job
from moldcalc.job.tables import Outline
from moldcalc.stages import split as s
from moldcalc.stages.split.outline import outline
from moldcalc.stages.split.profile import OutlineSplit, split_outline

Values = dict[str, Any]
Row = dict[str, Any]


def split(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """Joints, rounds, the least draft; the work and the paste that this way of dividing takes; every outline divided."""
    said, sections = job.split, job.layup.section
    v["split.sections"] = len(sections) or 1
    v["split.joint"] = sum(section.joint for section in sections) / 2
    v["split.work"] = s.split_time.si(joint_length=v["split.joint"], flange_time=said.joint_hours, section_time=said.section_hours,
                                      sections=v["split.sections"])
    drafts = [section.draft for section in sections if section.draft is not None]
    if drafts:
        v["split.section_draft"] = min(drafts)
    rounds = {section.order for section in sections if section.order is not None}
    if rounds:
        v["split.rounds"] = len(rounds)
    if said.rubber_price is not None:
        v["split.paste_price"] = v["coats.line_pockets"] * said.rubber_price
        if said.hour_price is not None:
            v["split.price"] = v["split.paste_price"] + v["split.work"] / 3600 * said.hour_price
    if said.outline:
        _outlines(job, v, rows)


def _outlines(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """A notch narrower than twice the wall is closed by the rubber; the width is rounded, so that draws of the wall find what was worked out."""
    narrowest = round(2 * float(job.coats.wall), 3)
    made = [(entry, divided(entry, float(job.split.least_draft), narrowest)) for entry in job.split.outline]
    rows["split.outline"] = [{"name": entry.name, "sections": len(found.arcs), "draft": min(arc.draft for arc in found.arcs),
                              "filled": found.fill_area, "rounds": len(found.rounds)} for entry, found in made]
    v["split.outline_sections"] = max(row["sections"] for row in rows["split.outline"])


def divided(entry: Outline, least_draft: float, narrowest: float) -> OutlineSplit:
    """One outline of the job, divided into the fewest arcs."""
    return _divided(entry.name, entry.points, float(entry.square), entry.board, least_draft, narrowest)


@lru_cache(maxsize=64)
def _divided(name: str, points: str, square: float, board: bool, least_draft: float, narrowest: float) -> OutlineSplit:
    return split_outline(outline(points_of(points, square, name), standing=board, name=name), draft=least_draft, narrowest=narrowest)


def points_of(text: str, square: float, name: str) -> list[tuple[float, float]]:
    """Points as they stand in the job ('0 0, 12 0, 12 5'), in metres.

    Raises
    ------
    EntryError
        A point that is not two numbers.
    """
    made = []
    for place, pair in enumerate(filter(None, (part.strip() for part in text.split(","))), 1):
        try:
            across, up = (float(number) for number in pair.split())
        except ValueError:
            raise EntryError(Fault(f"Point {place} of {name}", clipped(pair),
                                   "write squares across and up, like 12 5, and a comma before the next")) from None
        made.append((across * square, up * square))
    return made
