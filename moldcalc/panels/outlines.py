"""The job's outlines drawn as they divide: every arc numbered, its pull as an arrow, what is to fill hatched."""

from math import cos, hypot, pi, sin

from moldcalc.panels.svg import BLUE, GREEN, GREY, INK, ORANGE, PINK, SKY, VERMILION, Hatches, cut, drawing, line, path, text
from moldcalc.plan import Plan
from moldcalc.plan.split import OutlineSplit, divided
from moldcalc.units import show

__all__ = ["draw_outlines"]

STROKES = ((BLUE, ""), (VERMILION, "9 4"), (GREEN, "2 4"), (PINK, "12 3 2 3"), (ORANGE, ""), (SKY, "9 4"))
WIDE, TALL, ARROW = 150.0, 150.0, 24.0
Point = tuple[float, float]


def draw_outlines(plan: Plan) -> str:
    """Two outlines beside each other, more below. '' where the job has none."""
    made = [(entry, row) for entry, row in zip(plan.job.split.outline, plan.rows_of("split.outline"), strict=False)]
    if not made:
        return ""
    narrowest = round(2 * float(plan.job.coats.wall), 3)
    hatches = Hatches("outlines")
    parts, said = [], []
    for place, (entry, _) in enumerate(made):
        found = divided(entry, float(plan.job.split.least_draft), narrowest)
        parts.append(_one(found, 10 + 170 * (place % 2), 14 + 200 * (place // 2), hatches))
        said.append(found.said)
    height = 200 * ((len(made) + 1) // 2) + 6
    return drawing(height, f"Outlines. {' '.join(said)}", hatches.defs(), *parts)


def _one(found: OutlineSplit, left: float, top: float, hatches: Hatches) -> str:
    """One outline, fitted to its place, the board under it."""
    corners = [piece.start for piece in found.pieces]
    low = [min(corner[axis] for corner in corners) for axis in (0, 1)]
    high = [max(corner[axis] for corner in corners) for axis in (0, 1)]
    scale = min((WIDE - 2 * ARROW) / max(high[0] - low[0], 1e-9), (TALL - 2 * ARROW) / max(high[1] - low[1], 1e-9))

    def at(point: Point) -> Point:
        return left + ARROW + (point[0] - low[0]) * scale, top + TALL - ARROW - (point[1] - low[1]) * scale

    parts = [text(left, top + 2, cut(found.name, 22), bold=True)]
    for notch in found.notches:
        parts.append(path([at(notch.start), at(notch.end)], stroke=GREY, width=6))
    for number, arc in enumerate(found.arcs):
        colour, dash = STROKES[number % len(STROKES)]
        run = _run(found, arc.start, arc.end)
        parts.append(path([at(point) for point in run], stroke=colour, width=3, dash=dash))
        parts.append(_arrow(at(run[len(run) // 2]), arc.pull, number + 1, colour))
    if any(piece.board for piece in found.pieces):
        ground = at((low[0], low[1]))[1]
        parts.append(line(left, ground + 3, left + WIDE, ground + 3, stroke=INK, width=2))
    least = show(min(arc.draft for arc in found.arcs), "°")
    fill = f", fill {show(found.fill_area, 'cm²')}" if found.notches else ""
    parts.append(text(left, top + TALL + 14, f"{len(found.arcs)} section{'s' * (len(found.arcs) != 1)}, least draft {least}", size=11.5))
    parts.append(text(left, top + TALL + 28, fill.removeprefix(", "), size=11.5, fill=GREY))
    return "".join(parts)


def _run(found: OutlineSplit, start: Point, end: Point) -> list[Point]:
    """Points of an arc, from its first to its last."""
    pieces = found.pieces
    first = next(place for place, piece in enumerate(pieces) if piece.start == start)
    run = [start]
    for step in range(len(pieces)):
        piece = pieces[(first + step) % len(pieces)]
        run.append(piece.end)
        if piece.end == end:
            break
    return run


def _arrow(foot: Point, pull: float, number: int, colour: str) -> str:
    """A pull, its number at the tip."""
    x, y = cos(pull), -sin(pull)
    tip = (foot[0] + ARROW * 0.75 * x, foot[1] + ARROW * 0.75 * y)
    sides = [(tip[0] + 6 * cos(pull + turn), tip[1] - 6 * sin(pull + turn)) for turn in (pi - 0.45, pi + 0.45)]
    away = hypot(x, y) or 1.0
    label = text(tip[0] + 8 * x / away, tip[1] + 8 * y / away + 4, str(number), anchor="middle", bold=True)
    return line(*foot, *tip, stroke=colour, width=1.5) + path([sides[0], tip, sides[1]], stroke=colour) + label
