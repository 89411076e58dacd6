"""The sheets of what touches what, of strips and keys, of the opening, of the casts, and the label on the mold. Picks from the plan."""

from typing import Any

from moldcalc.errors import clipped
from moldcalc.packet.saying import cell, tight
from moldcalc.plan.results import Plan
from moldcalc.units import show

Sheet = dict[str, Any]
Fact = tuple[str, str]

SIGNS = {"settled": "✓", "open": "to do", "stop": "NEVER"}
#: most lines of a log of casts on one sheet
MOST_CASTS = 24
#: the longest name that stands on a label
LONG = 34


def _facts(plan: Plan, names: tuple[str, ...]) -> list[Fact]:
    """Label and value of the results that the plan has."""
    found = [plan.result(name) for name in names if name in plan and plan.value(name) is not None]
    return [(result.label, tight(result.say(plan.system))) for result in found]


# materials ----------------------------------------------------------------------------------------------------------
def touching(plan: Plan) -> Sheet:
    """The touch map, the patch tests with room to write, the labels to cut out."""
    rows = [
        {
            "both": f"{row['first']} + {row['second']}",
            "of": row["of_first"],
            "verdict": row["verdict"],
            "sign": SIGNS[row["state"]],
            "advice": row["verdict_why"],
        }
        for row in plan.rows_of("materials.touch")
    ]
    tests = [{"both": f"{row['first']} + {row['second']}", "result": row["result"], "wait": row["holds"]} for row in plan.rows_of("materials.patch")]
    labels = [{"name": clipped(row["name"], LONG), "line": row["line"]} for row in plan.rows_of("materials.label")]
    return {
        "rows": rows,
        "tests": tests,
        "labels": labels,
        "next": plan.say("{materials.next}") if "materials.next" in plan else "",
        "full": tight(plan.say("{cure.demold_time}")),
    }


# keys ---------------------------------------------------------------------------------------------------------------
def keys(plan: Plan) -> Sheet | None:
    """Strips casting by casting, shims strip by strip, keys and buttons. None where there is neither strip nor key."""
    if "keys.key_top" not in plan and "keys.strip_length" not in plan:
        return None
    said = plan.job.keys
    castings = [
        {"name": row["name"], "pieces": _pieces(plan, row["pieces"]), "left": cell(plan, row, "left", "m")} for row in plan.rows_of("keys.casting")
    ]
    shims = [{"name": row["name"], "pieces": _pieces(plan, row["pieces"])} for row in plan.rows_of("keys.shim")]
    section = _facts(plan, ("keys.strip_length", "keys.strip_mass", "keys.castings", "keys.casting_mass", "keys.slot_width", "keys.pins"))
    section.append(("Slot, deep", tight(show(said.slot_depth, "mm", plan.system))))
    window = tight(plan.say("{keys.window_from} to {keys.window_to}")) if "keys.window_from" in plan else ""
    key = [
        ("Key: foot, high", tight(f"{show(said.key_base, 'mm', plan.system)}, {show(said.key_height, 'mm', plan.system)}")),
        ("Slant of its sides", tight(show(said.key_draft, "°"))),
        *_facts(
            plan,
            (
                "keys.key_top",
                "keys.flange_keys",
                "keys.flange_spacing",
                "keys.key_left",
                "keys.key_said",
                "keys.joint_half_angle",
                "keys.buttons",
                "keys.buttons_apart",
            ),
        ),
    ]
    return {
        "section": section if castings else [],
        "castings": castings,
        "window": window,
        "key": key,
        "shim": _facts(plan, ("keys.shim_height", "keys.shim_sheets", "keys.shim_strips", "keys.shim_release")),
        "shims": shims,
        "sheet": tight(f"{show(said.sheet_length, 'mm', plan.system)} × {show(said.sheet_width, 'mm', plan.system)}"),
        "thick": tight(show(said.shim, "mm", plan.system)),
    }


def _pieces(plan: Plan, pieces: list[tuple[str, float]]) -> list[str]:
    return [f"{clipped(name, LONG)} {tight(show(length, 'm', plan.system))}" for name, length in pieces]


# opening ------------------------------------------------------------------------------------------------------------
def opening(plan: Plan) -> Sheet:
    """In which order the sections come off, where the knife goes, and what hands must pull."""
    sections = list(plan.job.layup.section)
    ordered = all(section.order is not None for section in sections) and bool(sections)
    listed = sorted(sections, key=lambda section: section.order or 0) if ordered else list(reversed(sections))
    return {
        "ordered": ordered,
        "sections": [{"name": section.name, "round": section.order if ordered else "", "way": section.pull or "–"} for section in listed],
        "wait": tight(plan.say("{cure.demold_time}")),
        "way": plan.say("{keys.way}") if "keys.way" in plan else "",
        "cut": _facts(plan, ("keys.cut_runs", "keys.worst_stretch", "keys.allowed_stretch", "keys.left_stretch")),
        "knife": _facts(plan, ("keys.seam_length", "keys.band_thick", "keys.cut_outer", "keys.zigzag_depth", "keys.cut_last", "keys.cut_side")),
        "zigzag": tight(plan.say("{keys.pitch}, {keys.swing}")) if "keys.zigzag_depth" in plan else "",
        "pull": _facts(plan, ("keys.opening_force", "keys.flat_force", "keys.neck_force", "keys.patch_wait")),
        "vent": tight(plan.say("{casting.vent_hours}")),
    }


# casting ------------------------------------------------------------------------------------------------------------
def casting(plan: Plan) -> Sheet:
    """The card that hangs by the mold: what is weighed for a batch, how long it stays, and a line for each cast."""
    made, wanted = plan.job.casting.made, plan.job.start.casts
    lines = list(range(made + 1, made + min(wanted, MOST_CASTS) + 1))
    return {
        "facts": [
            ("Method", plan.job.casting.method),
            ("Wall", tight(plan.say("{casting.wall}"))),
            *_facts(plan, ("casting.cast_mass", "casting.with_fixings", "casting.batches", "casting.batch", "casting.powder", "casting.water")),
        ],
        "material": plan.job.cards.cast.label,
        "caution": plan.job.cards.cast.caution,
        "stays": tight(plan.say("{casting.hours}")),
        "sizes": [{"name": row["name"], "said": row["said"]} for row in plan.rows_of("casting.size")],
        "wanted": _facts(plan, ("casting.final_ends", "casting.original_for", "casting.original_ends")),
        "life": plan.say("{casting.life_low} to {casting.life_high}") if "casting.life_low" in plan else "not known",
        "lines": lines,
        "more": wanted > MOST_CASTS,
        "released": plan.job.casting.released,
    }


def label(plan: Plan) -> Sheet:
    """What stands on the mold in store."""
    chemistry = {"tin": "tin-cure silicone", "addition": "addition-cure silicone"}[plan.job.cards.rubber.chemistry]
    return {
        "title": clipped(plan.job.start.title, 60),
        "rubber": chemistry,
        "card": plan.job.cards.rubber.label,
        "mass": tight(plan.say("{handling.mold_mass}")),
        "full": tight(plan.say("{handling.mold_with_cast}")),
        "sections": plan.say("{layup.sections}"),
        "cast": plan.job.cards.cast.label,
        "made": plan.job.casting.made,
        "life": plan.say("{casting.life_low} to {casting.life_high}") if "casting.life_low" in plan else "not known",
        "length": tight(plan.say("{casting.final}, {casting.final_ends}")) if "casting.final" in plan else "",
    }
