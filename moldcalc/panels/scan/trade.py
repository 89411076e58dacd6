"""The trade drawn: litres of paste against sections, each point with its joints."""

from collections.abc import Mapping, Sequence
from math import ceil
from typing import Any

from moldcalc.panels.svg import BLUE, GREY, ORANGE, Axes, dot, drawing, path, text
from moldcalc.units import System, show, shown, unit_in


def draw_trade(rows: Sequence[Mapping[str, Any]], system: System) -> str:
    """Paste over the number of sections; a ring for a count that is not proven the fewest leftovers. '' for fewer than two points."""
    if len(rows) < 2:
        return ""
    counts = [row["sections"] for row in rows]
    most = max(shown(row["paste"], "L", system) for row in rows) or 1.0
    axes = Axes((46, 30, 328, 170), (min(counts) - 1, max(counts) + 1), (0, 1.2 * most))
    places = [(axes.x(row["sections"]), axes.y(shown(row["paste"], "L", system))) for row in rows]
    parts = [path(places, stroke=BLUE, width=2)]
    said = []
    for place, (row, (x, y)) in enumerate(zip(rows, places, strict=True)):
        parts.append(dot(x, y, fill=BLUE if row["proven"] else ORANGE))
        if place % ceil(len(rows) / 6) == 0:
            parts.append(text(x, y - 9, show(row["joint"], "m", system), anchor="middle", size=11, fill=GREY))
        said.append(f"{row['sections']} sections: {show(row['paste'], 'L', system)} of paste, {show(row['joint'], 'm', system)} of joint")
    parts.append(axes.drawn("sections", f"paste, {unit_in('L', system)}"))
    return drawing(210, f"Paste against sections. {'; '.join(said)}.", *parts)
