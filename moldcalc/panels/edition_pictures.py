"""Pictures of what touches what, keys and strips in section, rubber stretched over a neck, and the chain of sizes."""

from math import pi, tan
from typing import TYPE_CHECKING

from moldcalc.panels.svg import BLUE, GREEN, GREY, INK, ORANGE, SKY, VERMILION, Axes, Hatches, cut, dot, drawing, line, path, rect, text, ticks
from moldcalc.plan import Plan
from moldcalc.units import show

if TYPE_CHECKING:
    from moldcalc.plan.keys import Strip

__all__ = ["draw_keys", "draw_neck", "draw_sizes", "draw_touch"]

#: state of a meeting -> hatch, colour, its sign
SIGNS = {"settled": ("level", GREEN, "✓"), "open": ("rise", ORANGE, "?"), "stop": ("steep", VERMILION, "✗")}
MOST_TOUCHES = 24
MOST_STATIONS = 40
Point = tuple[float, float]


def draw_touch(plan: Plan) -> str:
    """The touch map as a list: a hatched sign, the two that meet, and what is said of them."""
    rows = plan.rows_of("materials.touch")
    if not rows:
        return ""
    hatches = Hatches("touch")
    parts, said, y = [], [], 6.0
    for row in rows[:MOST_TOUCHES]:
        hatch, colour, sign = SIGNS[row["state"]]
        parts += [
            rect(8, y, 26, 26, fill=hatches.fill(hatch, colour)),
            rect(13, y + 5, 16, 16, fill="#fdfcf9", stroke="none"),
            text(21, y + 18, sign, anchor="middle", size=14, bold=True),
            text(42, y + 11, cut(row["name"], 44), bold=True),
            text(42, y + 25, cut(f"{row['of_first']}: {row['verdict']}", 52), size=11, fill=GREY),
        ]
        said.append(f"{row['name']}: {row['verdict']}")
        y += 34
    if len(rows) > MOST_TOUCHES:
        parts.append(text(8, y + 10, f"and {len(rows) - MOST_TOUCHES} more, in the table", size=11, fill=GREY))
        y += 20
    return drawing(y, f"What touches what, in order. {'; '.join(said)}.", hatches.defs(), *parts)


def draw_keys(plan: Plan) -> str:
    """A strip with its slot and shim, and a flange key under its section, both to one scale."""
    from moldcalc.plan.keys import strip_of

    said = plan.job.keys
    if "keys.key_top" not in plan:
        return ""
    base, tall = float(said.key_base), float(said.key_height)
    top, system = plan.value("keys.key_top"), plan.system
    strip = strip_of(plan.job, plan.values) if "keys.slot_width" in plan else None
    depth = float(said.slot_depth)
    widest = max(base, strip.base if strip else 0.0)
    highest = max(tall, (strip.height + 1.2 * depth) if strip else 0.0)
    scale = min(112 / widest, 104 / highest)
    hatches = Hatches("keys")
    ground = 24 + highest * scale + 12
    parts, words = [], []
    if strip:
        parts.append(_strip(plan, hatches, (84.0, ground), scale, strip))
        words.append(
            f"A strip {show(strip.base, 'mm', system)} wide at its foot, {show(strip.top, 'mm', system)} at its top, "
            f"{show(strip.height, 'mm', system)} high, "
            f"with a slot of {plan.say('{keys.slot_width}')} for a shim of {show(said.shim, 'mm', system)}"
        )
    middle = 250.0 if strip else 170.0
    parts.append(_key(plan, hatches, (middle, ground), scale, base, top, tall))
    words.append(
        f"A key {show(base, 'mm', system)} wide at its foot, {show(top, 'mm', system)} at its top, {show(tall, 'mm', system)} high; "
        f"{plan.say('{keys.key_left}')} of draft are left "
        f"against the pull: {plan.value('keys.key_said')}"
    )
    bar = next((size for size in (0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001) if size * scale <= 90), 0.001)
    foot = ground + 92
    parts += [
        line(10, foot, 10 + bar * scale, foot, width=2),
        line(10, foot - 4, 10, foot + 4, width=2),
        line(10 + bar * scale, foot - 4, 10 + bar * scale, foot + 4, width=2),
        text(16 + bar * scale, foot + 4, show(bar, "mm", system), size=11),
    ]
    return drawing(foot + 12, f"{'. '.join(words)}.", hatches.defs(), *parts)


def _strip(plan: Plan, hatches: Hatches, foot: Point, scale: float, strip: "Strip") -> str:
    """The strip's section on the skin, its shim standing in the slot."""
    said = plan.job.keys
    x, y = foot
    base, top, tall = strip.base * scale / 2, strip.top * scale / 2, strip.height * scale
    slot, depth, shim = plan.value("keys.slot_width") * scale / 2, float(said.slot_depth) * scale, float(said.shim) * scale
    over = max(14.0, 1.2 * depth)
    outline = [
        (x - base, y),
        (x - top, y - tall),
        (x - slot, y - tall),
        (x - slot, y - tall + depth),
        (x + slot, y - tall + depth),
        (x + slot, y - tall),
        (x + top, y - tall),
        (x + base, y),
    ]
    return "".join(
        (
            rect(x - 70, y, 140, 14, fill=hatches.fill("level", SKY)),
            text(x - 64, y + 28, "rubber skin", size=11),
            path(outline, fill=hatches.fill("rise", SKY), closed=True),
            rect(x - shim / 2, y - tall + depth - over - depth, shim, over + depth, fill=INK),
            text(x + shim / 2 + 5, max(12.0, y - tall - over + 8), f"shim {show(said.shim, 'mm', plan.system)}", size=11),
            text(x - 70, y + 44, f"strip: foot {show(strip.base, 'mm', plan.system)}", size=11),
            text(x - 70, y + 58, f"top {show(strip.top, 'mm', plan.system)}, high {show(strip.height, 'mm', plan.system)}", size=11),
            text(x - 70, y + 72, f"slot {plan.say('{keys.slot_width}')}, deep {show(said.slot_depth, 'mm', plan.system)}", size=11),
        )
    )


def _key(plan: Plan, hatches: Hatches, foot: Point, scale: float, base: float, top: float, tall: float) -> str:
    said = plan.job.keys
    x, y = foot
    half, crown, high = base * scale / 2, top * scale / 2, tall * scale
    lean = float(said.key_lean)
    away = min(70.0, 50 * tan(min(lean, 1.0)))
    tip = (x + away, y - high - 26)
    parts = [
        rect(x - 75, y, 150, 14, fill=hatches.fill("level", SKY)),
        path([(x - half, y), (x - crown, y - high), (x + crown, y - high), (x + half, y)], fill=hatches.fill("fall", BLUE), closed=True),
        line(x - half, y, x - half, y - high - 6, dash="3 3", stroke=GREY),
        line(x, y - high / 2, *tip, stroke=VERMILION, width=2),
        path([(tip[0] - 5, tip[1] + 7), tip, (tip[0] + 5, tip[1] + 6)], stroke=VERMILION, width=2),
        text(tip[0] + 8, max(12.0, tip[1] + 8), "pull", size=11),
        text(x - 75, y + 28, "flange", size=11),
        text(x - 75, y + 44, f"key: foot {show(base, 'mm', plan.system)}, high {show(tall, 'mm', plan.system)}", size=11),
        text(x - 75, y + 58, f"sides {show(said.key_draft, '°')}, top {show(top, 'mm', plan.system)}", size=11),
        text(x - 75, y + 72, cut(f"{plan.say('{keys.key_left}')} left: {plan.value('keys.key_said')}", 28), size=11, bold=True),
    ]
    return "".join(parts)


def draw_neck(plan: Plan) -> str:
    """Girths as a turned body, the opening below, and the rubber at its worst neck as it is and as it must stretch."""
    if "keys.worst_stretch" not in plan:
        return ""
    neck, bulge = plan.value("keys.worst_neck") / 2 / pi, plan.value("keys.worst_bulge") / 2 / pi
    stations = sorted(plan.job.keys.station, key=lambda station: station.height)[:MOST_STATIONS]
    rows = plan.rows_of("keys.neck")
    if len(stations) < 2:
        heights, radii, at = [0.0, 1.0, 2.0], [bulge * 0.9, neck, bulge], 1.0
    else:
        heights, radii = [float(s.height) for s in stations], [float(s.girth) / 2 / pi for s in stations]
        at = float(max(rows, key=lambda row: row["stretch"])["height"]) if rows else heights[0]
    tall = heights[-1] - heights[0] or 1.0
    across = min(120 / max(*radii, bulge), 1e9)
    up = 170 / tall
    if len(stations) > 1:
        across = up = min(across, up)
    ground = 24 + tall * up
    middle = 130.0

    def height_of(height: float) -> float:
        return ground - (height - heights[0]) * up

    left = [(middle - radius * across, height_of(height)) for height, radius in zip(heights, radii, strict=True)]
    right = [(middle + radius * across, height_of(height)) for height, radius in zip(heights, radii, strict=True)]
    hatches = Hatches("neck")
    y = height_of(at)
    stretch, allowed = plan.value("keys.worst_stretch"), plan.value("keys.allowed_stretch")
    over = stretch > allowed
    parts = [
        path([*left, *reversed(right)], fill=hatches.fill("wide", SKY), stroke=INK, closed=True),
        line(middle - neck * across, y, middle + neck * across, y, width=3, stroke=BLUE),
        line(middle - bulge * across, y, middle + bulge * across, y, width=2, stroke=VERMILION, dash="5 4"),
    ]
    for side in (-1, 1):
        parts.append(line(middle + side * bulge * across, y - 6, middle + side * bulge * across, y + 6, stroke=VERMILION, width=2))
    beside = 260.0
    parts += [
        text(beside - 6, max(16.0, y - 16), f"neck {plan.say('{keys.worst_neck}')}", size=11),
        text(beside - 6, max(30.0, y - 2), f"to {plan.say('{keys.worst_bulge}')}", size=11),
        text(beside - 6, max(44.0, y + 12), f"+{show(stretch, '%')}{',' if over else ''}", size=12, bold=True),
    ]
    if over:
        parts.append(text(beside - 6, max(58.0, y + 26), "too much", size=12, bold=True))
    if "keys.cut_runs" in plan and plan.value("keys.cut_runs") > 0 and len(stations) > 1:
        end = height_of(min(heights[0] + plan.value("keys.cut_runs"), heights[-1]))
        parts += [
            path(_zigzag(middle, ground, end), stroke=VERMILION, width=2),
            text(middle + 12, min(ground - 8, (ground + end) / 2 + 30), f"cut {plan.say('{keys.cut_runs}')}", size=11, bold=True),
        ]
    parts += [
        line(10, ground + 4, 250, ground + 4, width=2),
        text(10, ground + 20, "opening" if len(stations) > 1 else "opening; shape not known, neck and bulge only", size=11),
        text(
            10,
            ground + 36,
            cut(f"allowed {show(allowed, '%')}; open it as: {plan.value('keys.way') if 'keys.way' in plan else 'not known'}", 56),
            size=11,
        ),
    ]
    words = (
        f"The original as a turned body over its opening. The rubber at the neck, {plan.say('{keys.worst_neck}')} round, "
        f"must reach {plan.say('{keys.worst_bulge}')}: "
        f"{show(stretch, '%')} of stretch, {show(allowed, '%')} allowed."
    )
    return drawing(ground + 46, words, hatches.defs(), *parts)


def _zigzag(x: float, low: float, high: float) -> list[Point]:
    steps = max(2, min(60, int((low - high) / 7)))
    return [(x + (0 if place in (0, steps) else 4 if place % 2 else -4), low + (high - low) * place / steps) for place in range(steps + 1)]


def draw_sizes(plan: Plan) -> str:
    """Each step from original to cast as a bar from its least to its most length, the likely one marked; the axis does not begin at nothing."""
    rows = plan.rows_of("casting.size")
    if not rows:
        return ""
    start = float(plan.job.original.length)
    wanted = plan.job.casting.wanted_length
    ends = [row[name] for row in rows for name in ("low", "high")] + [start] + ([float(wanted)] if wanted is not None else [])
    low, high = min(ends), max(ends)
    if wanted is not None and not 0.9 < wanted / start < 1.1:  # too far to share an axis with steps of a hundredth
        low, high, wanted = min(ends[:-1]), max(ends[:-1]), None
    room = max(high - low, 1e-3 * start)
    axes = Axes((14, 30, 326, 46 + 44 * (len(rows) + 1)), ((low - 0.08 * room) * 1e3, (high + 0.08 * room) * 1e3), (0, 1))
    hatches = Hatches("sizes")
    parts, said, y = [], [], 22.0
    parts += [
        text(14, y, f"original {start * 1e3:.1f} mm" if plan.system == "metric" else f"original {show(start, 'mm', 'us', 4)}"),
        dot(axes.x(start * 1e3), y + 4),
    ]
    for place, row in enumerate(rows):
        y += 44
        left, right = axes.x(row["low"] * 1e3), axes.x(row["high"] * 1e3)
        parts += [
            text(14, y, cut(f"{row['name']}: {row['said']}", 52)),
            rect(
                left,
                y + 8,
                max(right - left, 1.5),
                14,
                fill=hatches.fill(("rise", "fall", "wide", "steep")[place % 4], (SKY, ORANGE, GREEN, BLUE)[place % 4]),
            ),
            line(axes.x(row["likely"] * 1e3), y + 4, axes.x(row["likely"] * 1e3), y + 26, width=3),
        ]
        said.append(f"{row['name']} {row['said']}")
    y += 36
    parts.append(line(14, y, 326, y))
    for value in ticks(*axes.x_ends, most=5):
        told = f"{value:g}" if plan.system == "metric" else f"{value / 25.4:.2f}"
        parts += [line(axes.x(value), y, axes.x(value), y + 4), text(axes.x(value), y + 17, told, anchor="middle", size=11)]
    parts.append(text(14, y + 32, f"{'mm' if plan.system == 'metric' else 'in'}; the axis does not begin at nothing", size=11, fill=GREY))
    if wanted is not None:
        at = axes.x(float(wanted) * 1e3)
        parts += [
            line(at, 30, at, y, dash="4 4", stroke=VERMILION, width=1.5),
            text(at - 6 if at > 90 else at + 6, 41, "wanted", anchor="end" if at > 90 else "start", size=11),
        ]
    return drawing(y + 40, f"Lengths from the original on: {'; '.join(said)}.", hatches.defs(), *parts)
