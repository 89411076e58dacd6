"""The trade drawn: litres of paste against sections, each point with its joints."""

from collections.abc import Mapping, Sequence
from typing import Any

from moldcalc.panels.svg import BLUE, GREY, ORANGE, Axes, dot, drawing, path, text
from moldcalc.units import System, show, shown, unit_in


def draw_trade(rows: Sequence[Mapping[str, Any]], system: System) -> str:
    """Paste over the number of sections; the line joins the least paste for each. '' for fewer than two points."""
    if len(rows) < 2:
        return ""
    counts = [row["sections"] for row in rows]
    most = max(shown(row["paste"], "L", system) for row in rows) or 1.0
    axes = Axes((46, 30, 328, 170), (min(counts) - 1, max(counts) + 1), (0, 1.2 * most))
    # of several ways with as many sections the line goes through the one with the least paste
    least = {count: min((row for row in rows if row["sections"] == count), key=lambda row: float(row["paste"])) for count in sorted(set(counts))}
    parts = [path([_place(axes, row, system) for row in least.values()], stroke=BLUE, width=2)]
    said = []
    for row in rows:
        x, y = _place(axes, row, system)
        best = row is least[row["sections"]]
        parts.append(dot(x, y, fill=BLUE if best else ORANGE))
        if best:
            parts.append(text(x, y - 9, show(row["joint"], "m", system), anchor="middle", size=11, fill=GREY))
        said.append(f"{row['sections']} sections: {show(row['paste'], 'L', system)} of paste, {show(row['joint'], 'm', system)} of joint")
    parts.append(axes.drawn("sections", f"paste, {unit_in('L', system)}"))
    return drawing(210, f"Paste against sections. {'; '.join(said)}.", *parts)


def _place(axes: Axes, row: Mapping[str, Any], system: System) -> tuple[float, float]:
    return axes.x(row["sections"]), axes.y(shown(row["paste"], "L", system))
