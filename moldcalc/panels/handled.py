"""Pictures of a shell that is loaded, closed and stood on its legs, drawn from a plan. Nothing here works out a result."""

from math import cos, pi, sin
from typing import Any

from moldcalc.panels.svg import BLUE, GREEN, GREY, INK, ORANGE, PINK, SKY, VERMILION, Hatches, cut, dot, drawing, line, path, rect, text
from moldcalc.plan import Plan
from moldcalc.units import show

__all__ = ["draw_bolts", "draw_bowed", "draw_legs"]

MOST_JOINTS = 4
MOST_HOLES = 160
SMALL: dict[str, Any] = {"size": 11.5}
FAINT: dict[str, Any] = {"size": 11.5, "fill": GREY}
STRONG: dict[str, Any] = {"bold": True, "fill": VERMILION}
#: width of the drawn wall, and of a bar's room over the bolt line
WALL, TALL = 46.0, 46.0


def draw_bowed(plan: Plan) -> str:
    """The flattest panel cut through: the wall to scale as it stands, and beside it how it bows, enlarged."""
    if "layup.deflection" not in plan:
        return ""
    said, system = plan.job.layup, plan.system
    gives, accepted = (show(length, "mm", system) for length in (plan.value("layup.deflection"), said.allowed_deflection))
    facing = said.facing_plies * plan.value("layup.ply_thickness")
    core = float(said.core_thickness) if "layup.core_stress" in plan else 0.0
    thick = show(2 * facing + core, "mm", system)
    high, wide = show(said.flat_height or 0.0, "mm", system), show(said.flat_width or 0.0, "mm", system)
    top, foot, hatches = 34.0, 232.0, Hatches("bowed")
    parts = [text(10, 16, "liquid", **FAINT), *_arrows(top, foot)]
    layers = [(facing, "rise", SKY), (core, "wide", ORANGE), (facing, "rise", SKY)]
    x = 58.0
    for thickness, hatch, colour in layers:
        if thickness:
            breadth = WALL * thickness / (2 * facing + core)
            parts.append(rect(x, top, breadth, foot - top, fill=hatches.fill(hatch, colour)))
            x += breadth
    x, middle = x + 8, (top + foot) / 2
    bow = min(70.0, max(8.0, 60.0 * plan.value("layup.deflection_share")))
    curve = [(x + bow * sin(pi * step / 24), foot - (foot - top) * step / 24) for step in range(25)]
    words = "outside linear theory" if plan.value("layup.over_limit") > 1 else "within linear theory"
    parts += [path(curve, stroke=VERMILION, width=2.5), line(x, top, x, foot, stroke=GREY, dash="4 3"),
              line(x, middle, x + bow, middle, stroke=VERMILION, width=1.5), text(x + bow + 8, middle + 4, f"gives {gives}", **STRONG),
              text(x + bow + 8, middle + 20, f"you accept {accepted}", **FAINT),
              text(58, foot + 18, f"wall {thick}, to scale; bow enlarged", **FAINT),
              text(178, 30, f"{high} high", **SMALL), text(178, 46, f"{wide} wide", **SMALL),
              text(178, 62, f"{show(plan.value('layup.panel_pressure'), 'kPa', system)} at its foot", **SMALL),
              text(178, foot - 4, words, bold=words.startswith("outside"), **SMALL)]
    label = f"A panel {high} by {wide}, wall {thick}: gives {gives} of {accepted} accepted, {words}."
    return drawing(foot + 26, label, hatches.defs(), *parts)


def _arrows(top: float, foot: float) -> list[str]:
    """The liquid's pressure on the wall, more below than above."""
    parts = []
    for step in range(11):
        y, reach = foot - (foot - top) * step / 10, 40.0 * (1 - step / 10) + 4
        parts += [line(56 - reach, y, 54, y, stroke=BLUE, width=1.2), path([(50, y - 3), (55, y), (50, y + 3)], stroke=BLUE, width=1.2)]
    return parts


def draw_bolts(plan: Plan) -> str:
    """Every joint a line from its low end: a tick for each hole, a bar for its load, triangles for the pins."""
    rows = [row for row in plan.rows_of("handling.drilling") if row["holes"]]
    if not 1 <= len(rows) <= MOST_JOINTS or sum(len(row["holes"]) for row in rows) > MOST_HOLES:
        return ""
    counts_on, system, hatches = show(plan.value("handling.bolt_counts_on"), "N", plan.system), plan.system, Hatches("bolts")
    fill = hatches.fill("rise", SKY)
    most = max(hole.load for row in rows for hole in row["holes"])
    y, parts, said = 8.0, [], []
    for row in rows:
        holes = row["holes"]
        head = f"{row['name']}: {len(holes)} × {plan.job.handling.bolt}, {show(row['length'], 'm', system)}"
        base = y + 22 + (TALL if most else 8)
        load = show(row.get("load", 0.0), "N", system)
        apart = f", then {show(row['closest'], 'mm', system)} to {show(row['widest'], 'mm', system)} apart" if "closest" in row else ""
        parts += [text(10, y + 10, cut(head, 50), bold=True), *_bolt_line(row, base, most, fill), text(14, base + 22, "low end", size=11, fill=GREY),
                  text(326, base + 22, f"first at {show(holes[0].position, 'mm', system)}{apart}", size=11, fill=GREY, anchor="end")]
        if most and "load" in row:
            parts.append(text(326, base - TALL - 2, load, size=11, anchor="end"))
        said.append(f"{row['name']}: {len(holes)} bolts, most {load}")
        y = base + 32
    parts.append(text(10, y + 6, f"bars: loads; {counts_on} is counted on; triangles: pins", size=11, fill=GREY))
    label = f"Bolt lines from their low ends: {'; '.join(said)}. Each bolt may be counted on for {counts_on}."
    return drawing(y + 14, label, hatches.defs(), *parts)


def _bolt_line(row: dict[str, Any], base: float, most: float, fill: str) -> list[str]:
    """One joint's line with its bars, ticks and pins."""
    scale, breadth = 312 / row["length"], 6.0 if len(row["holes"]) <= 30 else 2.0
    parts = [line(14, base, 326, base, width=2)]
    for hole in row["holes"]:
        x = 14 + hole.position * scale
        if most:
            high = TALL * hole.load / most
            parts.append(rect(x - breadth / 2, base - high, breadth, high, fill=fill))
        parts.append(line(x, base, x, base + 6, width=1.5))
    for pin in (row[name] for name in ("pin_low", "pin_high") if name in row):
        x = 14 + pin * scale
        parts.append(path([(x - 4, base + 10), (x, base + 3), (x + 4, base + 10)], fill=PINK, stroke=INK, width=1, closed=True))
    return parts


def draw_legs(plan: Plan) -> str:
    """The mold on its legs from the side: centre of mass, the foot it tips over, the lean at which it does."""
    if "handling.centre" not in plan:
        return ""
    said, original, system = plan.job.handling, plan.job.original, plan.system
    centre, radius, leg, tall = plan.value("handling.centre"), float(said.leg_radius), float(said.leg_height), float(original.height)
    lever = max((row["x"] for row in plan.rows_of("handling.leg")), default=radius)
    half = min(float(original.length), float(original.width)) / 2
    scale = min(196 / (leg + tall), 108 / max(radius, half))
    floor, middle, hatches = 226.0, 122.0, Hatches("legs")

    def at(x: float, z: float) -> tuple[float, float]:
        return middle + x * scale, floor - z * scale

    mass = at(float(said.off_centre), centre)
    body = [at(-half, leg), at(half, leg), at(half, leg + tall), at(-half, leg + tall)]
    legs = [line(*at(x, 0), *at(max(-half, min(half, x * 0.9)), leg), width=4) for x in (-lever, lever)]
    parts = [line(10, floor, 232, floor, width=2), path(body, fill=hatches.fill("wide", GREEN), stroke=INK, closed=True), *legs,
             line(*mass, mass[0], floor, stroke=GREY, dash="4 3"), line(*mass, *at(lever, 0.0), stroke=VERMILION, width=2),
             line(mass[0] + 7, mass[1], 236, mass[1], stroke=GREY), dot(*mass, fill=VERMILION, radius=6),
             text(240, mass[1] + 4, "centre of mass", **SMALL), text(240, mass[1] + 19, show(centre, "mm", system), **FAINT),
             text(10, floor + 18, f"{said.casting_position}; with a cast {show(plan.value('handling.mold_with_cast'), 'kg', system)}", **FAINT),
             text(10, floor + 35, f"{said.legs} legs, {show(radius, 'mm', system)} from the middle", **SMALL), *_lean(plan, mass, floor)]
    tips = f"tips at a lean of {show(plan.value('handling.tip_angle'), '°')}" if "handling.tip_angle" in plan else "does not stand on them"
    label = f"The mold on {said.legs} legs: centre of mass {show(centre, 'mm', system)} over the floor, {tips}."
    return drawing(floor + 59, label, hatches.defs(), *parts)


def _lean(plan: Plan, mass: tuple[float, float], floor: float) -> list[str]:
    """The angle at which it tips, and what a leg carries; or that it does not stand."""
    if "handling.tip_angle" not in plan:
        return [text(240, floor - 34, "does not stand", **STRONG)]
    angle, most, worst = (plan.value(f"handling.{name}") for name in ("tip_angle", "leg_load", "leg_worst"))
    swing = [(mass[0] + 40 * sin(angle * step / 8), mass[1] + 40 * cos(angle * step / 8)) for step in range(9)]
    rocks = f", {show(worst, 'N', plan.system)} when it rocks" if worst > most * (1 + 1e-9) else ""
    return [path(swing, stroke=VERMILION), text(240, floor - 34, f"tips at {show(angle, '°')}", **STRONG),
            text(240, floor - 18, f"asked {show(plan.job.handling.least_lean, '°')}", **FAINT),
            text(10, floor + 51, f"{show(most, 'N', plan.system)} on one leg{rocks}", **SMALL)]
