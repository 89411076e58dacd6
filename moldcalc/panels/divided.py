"""The sections of a shell drawn as what touches what."""

from moldcalc.panels.svg import BLUE, GREEN, GREY, ORANGE, PINK, SKY, VERMILION, Hatches, cut, drawing, line, rect, text
from moldcalc.plan import Plan
from moldcalc.units import show

__all__ = ["draw_divided"]

PAIRS = (("fall", ORANGE), ("rise", SKY), ("upright", GREEN), ("level", PINK), ("steep", VERMILION), ("wide", BLUE))
MOST = 14
BOX = (124.0, 54.0)


def draw_divided(plan: Plan) -> str:
    """Every section a box with its face, weight and round; a line where two share a joint. '' where there are none."""
    rows = plan.rows.get("layup.section", [])
    if not 2 <= len(rows) <= MOST:
        return ""
    hatches = Hatches("divided")
    places = _places(len(rows))
    names = [section.name for section in plan.job.layup.section]
    joined = sorted({tuple(sorted((one, names.index(other)))) for one, section in enumerate(plan.job.layup.section)
                     for other in (name.strip() for name in section.touches.split(",")) if other in names and names.index(other) != one})
    lines = [line(*places[one], *places[other], stroke=GREY, width=3) for one, other in joined]
    boxes, said = [], []
    for place, (row, section, (x, y)) in enumerate(zip(rows, plan.job.layup.section, places, strict=True)):
        left, top = x - BOX[0] / 2, y - BOX[1] / 2
        off = f"round {section.order}" if section.order is not None else "round not known"
        size = f"{show(row['face'], 'm²', plan.system)}, {show(row['mass'], 'kg', plan.system)}"
        boxes += [rect(left, top, *BOX, fill="#fdfcf9"), rect(left, top, 8, BOX[1], fill=hatches.fill(*PAIRS[place % len(PAIRS)])),
                  text(left + 13, top + 16, f"{place + 1} {cut(section.name, 14)}", bold=True), text(left + 13, top + 32, size, size=11.5),
                  text(left + 13, top + 47, off, size=11.5, fill=GREY)]
        touching = [names[other if one == place else one] for one, other in joined if place in (one, other)]
        said.append(f"{place + 1} {section.name}, {size}, {off}, touches {' and '.join(touching) or 'none'}")
    height = max(y for _, y in places) + BOX[1] / 2 + 8
    return drawing(height, f"Sections: {'; '.join(said)}.", hatches.defs(), *lines, *boxes)


def _places(count: int) -> list[tuple[float, float]]:
    """Middles of the boxes: four and fewer on a ring, more of them in two columns."""
    if count <= 4:
        ring = {2: ((272.0, 34.0), (68.0, 34.0)), 3: ((272.0, 126.0), (170.0, 34.0), (68.0, 126.0)),
                4: ((272.0, 126.0), (170.0, 34.0), (68.0, 126.0), (170.0, 218.0))}
        return list(ring[count])
    return [(70.0 if place % 2 == 0 else 270.0, 36.0 + 38 * place) for place in range(count)]
