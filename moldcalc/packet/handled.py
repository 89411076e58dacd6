"""The sheets for closing, lifting and turning: holes along each joint, who lifts what from where to where, what holds the mold when it turns."""

from math import ceil
from typing import Any

from moldcalc.errors import clipped
from moldcalc.packet.saying import cell, tight
from moldcalc.plan.results import Plan
from moldcalc.units import show

Sheet = dict[str, Any]

#: holes that stand side by side in one column of a page
COLUMN = 22


def _said(plan: Plan, *names: tuple[str, str]) -> list[tuple[str, str]]:
    """Label and value of the results that the plan has."""
    return [(label, tight(plan.result(name).say(plan.system))) for label, name in names if name in plan]


def drilling(plan: Plan) -> list[Sheet]:
    """One sheet a joint: its bolt, and every hole from its low end."""
    made = []
    for row in plan.rows_of("handling.drilling"):
        common = [("Bolt", plan.job.handling.bolt), *_said(plan, ("Hole", "handling.bolt_hole"), ("Washer", "handling.bolt_washer"),
                                                           ("Tighten to", "handling.bolt_torque"))]
        holes = [{"number": hole.number, "at": tight(show(hole.position, "mm", plan.system)),
                  "next": tight(show(hole.to_next, "mm", plan.system)) if hole.to_next is not None else "–"} for hole in row["holes"]]
        pages = [[holes[at : at + COLUMN], holes[at + COLUMN : at + 2 * COLUMN]] for at in range(0, len(holes), 2 * COLUMN)]
        if pages and len(pages[-1][0]) + len(pages[-1][1]) <= COLUMN:  # a short list is divided evenly
            rest = [*pages[-1][0], *pages[-1][1]]
            pages[-1] = [rest[: ceil(len(rest) / 2)], rest[ceil(len(rest) / 2) :]]
        made.append({"name": clipped(row["name"]), "pages": pages,
                     "line": [("Joint", cell(plan, row, "length", "m")), ("Holes", str(len(holes))), *common],
                     "refused": row["refused"], "load": cell(plan, row, "load", "N") if row.get("load") else "",
                     "counts_on": plan.say("{handling.bolt_counts_on}"), "edge": plan.say("{handling.bolt_line}"),
                     "pins": [cell(plan, row, name, "mm") for name in ("pin_low", "pin_high") if name in row]})
    return made


def lifts(plan: Plan) -> list[Sheet]:
    """Every lift: what, who, from where to where, and what the equation says of it."""
    made = []
    for row in plan.rows_of("handling.lift"):
        index = row.get("index")
        made.append({"name": clipped(row["name"]), "what": clipped(row["what"]), "mass": cell(plan, row, "mass", "kg"),
                     "people": row["people"], "from": cell(plan, row, "from", "mm"), "to": cell(plan, row, "to", "mm"),
                     "reach": cell(plan, row, "reach", "mm"), "may": cell(plan, row, "team", "kg"),
                     "index": f"{index:.2g}" if index is not None else "none", "over": index is None or index > 1,
                     "way": row["way"], "costs": row["costs"]})
    return made


def turning(plan: Plan) -> Sheet | None:
    """What holds the closed mold when it is turned and while it stands; None where it is neither turned nor on legs."""
    rows = [row for row in plan.rows_of("handling.lift") if row["turned"] or row["falls"]]
    if not rows and plan.job.handling.casting_position != "upside down" and "handling.centre" not in plan:
        return None
    line = _said(plan, ("Closed mold", "handling.mold_mass"), ("With a cast", "handling.mold_with_cast"),
                 ("Centre over the floor", "handling.centre"), ("Tips at", "handling.tip_angle"), ("On one leg, at most", "handling.leg_worst"))
    more = _said(plan, ("Handles from the end", "handling.handle_first"), ("and", "handling.handle_second"),
                 ("Each sling leg pulls with", "handling.sling_pull"), ("A push at its top tips it with", "handling.tip_push"))
    return {"line": line, "more": more, "position": plan.job.handling.casting_position, "legs": plan.job.handling.legs or 0,
            "lifts": [{"name": clipped(row["name"]), "mass": cell(plan, row, "mass", "kg"), "half": tight(show(row["mass"] / 2, "kg", plan.system)),
                       "way": row["way"], "falls": row["falls"]} for row in rows]}


def trimming(plan: Plan) -> Sheet:
    """Edges to be trimmed, and what the usual guidance says on dust, discs and noise."""
    from moldcalc.stages.handling import advice_for

    line = _said(plan, ("Edge to trim", "handling.trim_length"), ("Dust from it", "handling.trim_dust"),
                 ("Grinder's action value after", "handling.vibration_time"), ("Noise of the day, dB(A)", "handling.noise"))
    subjects = ("edges", "sanding", "foam core", "dust, extraction", "dust, masks", "disc", "noise")
    return {"line": line, "advice": [advice.says for advice in advice_for(*subjects)]}


def uplift(plan: Plan) -> str:
    """The uplift of an open base in one sentence, '' where there is none."""
    if "handling.uplift" not in plan:
        return ""
    return plan.say("Poured solid as it stands, the liquid lifts the mold with {handling.uplift}. Weights and straps must hold "
                    "{handling.uplift_missing} more than is on it now, with plenty to spare.", html=True)
