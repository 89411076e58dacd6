"""What each sheet shows, picked from the plan and from the entries of its job."""

import re
from dataclasses import fields
from typing import Any

from moldcalc.errors import clipped
from moldcalc.job.cards import Card
from moldcalc.job.job import TABLES, row_kind
from moldcalc.packet.saying import cell, on_the_scale, tight
from moldcalc.plan.results import Plan

Sheet = dict[str, Any]

#: more cups than this in one coat, and one ticket stands for all of them
MOST_TICKETS = 60
#: more trays than this, and the number stands in place of boxes
MOST_BOXES = 12
#: the longest log of cups that are alike
MOST_LINES = 500
#: an entry's text longer than this stands under its label
LONG = 26
#: with more places than this, the paste's list has a sheet to itself
MOST_PLACES = 8

#: heading -> the results under it on the first sheet; those that a plan does not have are left out
SUMMARY: dict[str, tuple[str, ...]] = {
    "Rubber": ("mixing.have", "mixing.rubber", "mixing.base_with_reserve", "mixing.part_with_reserve", "mixing.thickener", "mixing.cups",
               "coats.count", "coats.wall", "coats.at_high_points", "original.area_to_coat", "paste.volume"),
    "Shell": ("layup.mass", "layup.sections", "layup.thickness", "layup.glass_to_buy", "layup.roll_length", "layup.resin_to_buy",
              "layup.core_to_buy", "layup.deflection", "handling.drilled", "handling.foot_bolts"),
    "Lifting and casting": ("handling.uplift_missing", "handling.largest_index", "handling.tip_angle", "handling.mold_mass",
                            "original.board_load", "casting.cast_mass", "handling.mold_with_cast", "handling.share_cast", "casting.edition_mixed"),
}


def summary(plan: Plan) -> list[Sheet]:
    """The answer, group by group: likely, low to high, why."""
    groups = []
    for heading, names in SUMMARY.items():
        results = [plan.result(name) for name in names if name in plan and plan.value(name)]
        lines = [{"label": r.label, "value": tight(r.say(plan.system)), "band": tight(r.say_band(plan.system)), "why": r.why} for r in results]
        if lines:
            groups.append({"heading": heading, "lines": lines})
    return groups


# you said ---------------------------------------------------------------------------------------------------------------
def entries(plan: Plan) -> list[Sheet]:
    """Every entry, table by table: label, value, where it is from; rows as one line each."""
    return [_table(plan, name) for name in TABLES]


def _table(plan: Plan, name: str) -> Sheet:
    table, job = getattr(plan.job, name), plan.job
    lines, missing = [], []
    for key, entry in TABLES[name].entries().items():
        path = f"{name}.{key}"
        value, given = job.resolved(path), getattr(table, key) is not None
        if value is None or value == "":
            missing.append(entry.label)
            continue
        origin = "the card's" if not given else "" if key in table.model_fields_set else "default"
        text = getattr(job.cards, key).label if entry.kind == "card" else entry.say(value, plan.system)
        lines.append({"label": entry.label, "value": text if len(text) > LONG else tight(text), "origin": origin, "long": len(text) > LONG})
    return {"stage": name, "lines": lines, "missing": missing, "rows": _rows(plan, name, table)}


def _rows(plan: Plan, name: str, table: Any) -> list[Sheet]:
    made = []
    for key in TABLES[name].model_fields:
        kind = row_kind(TABLES[name], key)
        if kind is None:
            continue
        for place, row in enumerate(getattr(table, key), 1):
            parts = [f"{entry.label.lower()} {entry.say(getattr(row, field), plan.system)}" for field, entry in kind.entries().items()
                     if field != "name" and getattr(row, field) not in (None, "")]
            called = getattr(row, "name", "")
            made.append({"head": f"{key} {place}" + (f": {called}" if called else ""), "text": "; ".join(parts)})
    return made


def cards(plan: Plan) -> list[Sheet]:
    """The material cards in use, each value with its status."""
    made = []
    for field in fields(plan.job.cards):
        card: Card = getattr(plan.job.cards, field.name)
        values = [{"label": entry.label, "value": tight(entry.say(getattr(card, key), plan.system)), "status": card.status.get(key, "default")}
                  for key, entry in type(card).entries().items()
                  if entry.kind in ("quantity", "ratio", "choice") and getattr(card, key) is not None]
        made.append({"use": plan.job.entry(f"materials.{field.name}").label, "label": card.label, "advice": card.advice, "source": card.source,
                     "caution": card.caution, "lines": values})
    return made


# tickets ----------------------------------------------------------------------------------------------------------------
def coats(plan: Plan) -> list[Sheet]:
    """One sheet a coat: its line, and its tickets two by two."""
    rows = plan.rows.get("coats.coat", [])
    return [_coat(plan, row, number, len(rows)) for number, row in enumerate(rows, 1)]


def _coat(plan: Plan, row: dict[str, Any], number: int, of: int) -> Sheet:
    window = tight(plan.say("{cure.earliest_recoat} to {cure.latest_recoat}"))
    name, tint = clipped(row["name"], LONG), clipped(row.get("tint") or "", LONG)
    words = [text for text in (name if name.startswith(row["kind"]) else f"{name} ({row['kind']})", tint) if text]
    line = [("Film", cell(plan, row, "thickness", "mm")), ("Area", cell(plan, row, "area", "m²")), ("Rubber mixed", cell(plan, row, "mixed", "kg")),
            ("Brushing takes", cell(plan, row, "brushing_time", "min")), ("Next coat from, to", window)]
    facts = [("Use up within", cell(plan, row, "use_up_within", "min")), ("It should cover", cell(plan, row, "covers", "m²")),
             _after(plan, number, of, window)]
    common = {"title": f"Coat {number} of {of}: {', '.join(words)}", "cups": row["cups"], "tint": tint or "none", "mesh": row.get("mesh"),
              "weigh": _weigh(plan, row["each_base"], row["each_part"], row.get("each_thickener")), "facts": facts}
    return {"title": common["title"], "line": line, "mesh": row.get("mesh"), "pages": _pages(common, row["cups"])}


def answer(plan: Plan) -> str:
    """The answer in sentences that can be read aloud; its values stand in bold."""
    parts = ["Have {mixing.have} of rubber ready: {mixing.base_with_reserve} of base and {mixing.part_with_reserve} of the other part.",
             "Mix {mixing.cups} cups.", "The shell weighs {layup.mass}; buy {layup.resin_to_buy} of resin and {layup.glass_to_buy} of glass."]
    return plan.say(" ".join(parts), html=True)


def cares(plan: Plan) -> list[Sheet]:
    """What can hurt someone, stage by stage; a sentence that stands there already is not said again."""
    seen: set[str] = set()
    made = []
    for caution in plan.cautions:
        if caution.kind != "care":
            continue
        fresh = [sentence for sentence in re.split(r"(?<=[.!?])\s+", caution.text) if sentence not in seen]
        seen.update(fresh)
        if fresh:
            made.append({"stage": caution.stage, "text": " ".join(fresh)})
    return made


def card_cautions(plan: Plan) -> list[Sheet]:
    """What the cards warn of, where the plan's cautions do not say it already."""
    said_already = " ".join(caution.text for caution in plan.cautions)
    found: list[Sheet] = []
    for card in cards(plan):
        if card["caution"] and card["caution"] not in said_already and all(card["caution"] != other["caution"] for other in found):
            found.append(card)
    return found


def _after(plan: Plan, number: int, of: int, window: str) -> tuple[str, str]:
    if number < of:
        return "Next coat from, to", window
    if plan.values.get("paste.cups"):
        return "Paste or coat from, to", window
    return "Ready to open after", tight(plan.say("{cure.demold_time}"))


def paste(plan: Plan) -> Sheet | None:
    """The paste's sheet: where it goes, and its tickets; none where no paste is needed."""
    v = plan.values
    if not v.get("paste.cups"):
        return None
    row = {name: v.get(f"paste.{name}") for name in ("each_base", "each_part", "each_thickener", "use_up_within", "volume", "mixed")}
    window = tight(plan.say("{cure.earliest_recoat} to {cure.latest_recoat}"))
    line = [("Paste", cell(plan, row, "volume", "L")), ("Mixed", cell(plan, row, "mixed", "kg")),
            ("Thickener", plan.say("{paste.loading}")), ("Next coat from, to", window)]
    common = {"title": "Paste", "cups": v["paste.cups"], "tint": "as you choose", "mesh": False,
              "weigh": _weigh(plan, row["each_base"], row["each_part"], row["each_thickener"]),
              "facts": [("Use up within", cell(plan, row, "use_up_within", "min")), ("It holds, upright", tight(plan.say("{paste.sag_thickness}"))),
                        ("Next coat from, to", window)]}
    places = [{"name": fill["name"], "use": fill["use"], "volume": cell(plan, fill, "volume", "L"), "mass": cell(plan, fill, "mass", "kg")}
              for fill in plan.rows.get("paste.fill", [])]
    pages = _pages(common, v["paste.cups"], first=1 if len(places) <= MOST_PLACES else 0)
    return {"title": "Paste", "line": line, "places": places, "pages": pages}


def _weigh(plan: Plan, base: Any, part: Any, thickener: Any) -> list[Sheet]:
    made = []
    for label, mass in (("Base", base), ("Other part", part), ("Thickener", thickener)):
        big, small = on_the_scale(mass, plan.system) if mass else ("none", "")
        made.append({"label": label, "big": big, "small": small})
    return made


def _pages(common: Sheet, cups: int, first: int | None = None) -> list[list[Sheet]]:
    """Tickets two a page, or another number on the first; one for all of them where there would be too many sheets to carry."""
    if cups > MOST_TICKETS:
        alike = [{**common, "number": f"1 to {cups}", "alike": True, "log": min(cups, MOST_LINES)}]
        return [[], alike] if first == 0 else [alike]
    tickets = [{**common, "number": str(number), "alike": False} for number in range(1, cups + 1)]
    start = 0 if first is None else first
    return ([] if first is None else [tickets[:first]]) + [tickets[at:at + 2] for at in range(start, cups, 2)]


# lay-up -----------------------------------------------------------------------------------------------------------------
def sections(plan: Plan) -> list[Sheet]:
    """One sheet a section of the shell."""
    rows = plan.rows.get("layup.section", [])
    return [_section(plan, row, number, len(rows)) for number, row in enumerate(rows, 1)]


def _section(plan: Plan, row: dict[str, Any], number: int, of: int) -> Sheet:
    told = (("Face", "face", "m²"), ("Flange", "flange_area", "m²"), ("Weighs", "mass", "kg"), ("Glass", "glass", "kg"), ("Resin", "resin", "kg"),
            ("Core", "core_area", "m²"))
    line = [(label, cell(plan, row, key, unit)) for label, key, unit in told if row.get(key)]
    steps = []
    for step in row.get("steps", ()):
        if not step["mass"]:
            continue
        steps.append({"name": step["name"], "mass": cell(plan, step, "mass", "kg"), "trays": step["trays"],
                      "boxes": step["trays"] if step["trays"] <= MOST_BOXES else 0, "base": on_the_scale(step["base"], plan.system),
                      "part": on_the_scale(step["part"], plan.system), "resin": getattr(plan.job.cards, step["resin"]).label})
    return {"title": f"Shell section {number} of {of}: {clipped(row['name'])}", "line": line, "steps": steps, "stack": _stack(plan, row),
            "strips": row.get("strips"), "sets": row.get("strip_sets"), "touches": row.get("touches") or "–", "pull": row.get("pull") or "–"}


def _stack(plan: Plan, row: dict[str, Any]) -> list[str]:
    """Plies in the order they are laid, from the rubber outwards."""
    cored = any("core" in step["name"] for step in row.get("steps", ()))
    glass = plan.job.cards.reinforcement.label
    facing = f"{{layup.facing_plies}} × {glass.replace('{', '(').replace('}', ')')}"
    lines = ["surface coat, {layup.surface_thickness}", f"inner facing, {facing}"]
    if cored:
        lines.append("core, {layup.core_thickness}, over {layup.core_share} of the face, bonded with {layup.bond}")
    lines.append(f"outer facing, {facing}")
    if row.get("flange_area"):
        lines.append("flanges and foot, {layup.flange_plies} × the same, no core, {layup.flange_width} wide")
    return [plan.say(line) for line in lines]


def bolts(plan: Plan) -> list[Sheet]:
    """Each bolted joint: length and bolts; the foot last."""
    spacing = plan.say("{handling.bolt_spacing}")
    drilled = plan.rows_of("handling.drilling") or plan.rows.get("handling.joint", [])
    made = [{"name": row["name"], "length": cell(plan, row, "length", "m"), "bolts": cell(plan, row, "bolts", "count"),
             "apart": cell(plan, row, "widest", "mm") if "widest" in row else spacing} for row in drilled]
    if plan.values.get("handling.foot_bolts"):
        made.append({"name": "foot, on the board", "length": "–", "bolts": cell(plan, plan.values, "handling.foot_bolts", "count"),
                     "apart": plan.say("{handling.foot_spacing}")})
    return made
