"""Pictures of stacks, areas and cups, drawn from a plan. Nothing here works out a result."""

from moldcalc.panels.curves import draw_paste, draw_recoat, draw_working_time
from moldcalc.panels.svg import BLUE, GREEN, GREY, INK, ORANGE, PINK, SKY, VERMILION, Hatches, cut, drawing, line, rect, text
from moldcalc.plan import Plan
from moldcalc.units import show

__all__ = ["draw_coats", "draw_cups", "draw_layup", "draw_paste", "draw_recoat", "draw_size", "draw_working_time"]

PAIRS = (("fall", ORANGE), ("rise", SKY), ("upright", GREEN), ("level", PINK), ("steep", VERMILION), ("wide", BLUE))
TALL = 150.0
WIDE = 112.0


def _dimension(x: float, top: float, bottom: float, words: str) -> str:
    """A measure beside a stack, from its top to its bottom."""
    ends = line(x - 4, top, x + 4, top) + line(x - 4, bottom, x + 4, bottom)
    return line(x, top, x, bottom) + ends + text(x - 4, top - 8, words, bold=True)


def _apart(wanted: list[float], least: float, low: float) -> list[float]:
    """Heights of labels, from the lowest up, pushed apart so that none lies on another."""
    placed: list[float] = []
    for y in wanted:
        placed.append(min(y, (placed[-1] if placed else low + least) - least))
    return placed


def _stack(layers: list[tuple[float, str, str]], hatches: Hatches, foot: str, whole: str, height: float) -> tuple[str, float]:
    """Layers (share of the height, words, fill) from the lowest up, with a measure and labels; and the drawing's height."""
    least = 15.0
    top = max(34.0, 30.0 + least * len(layers) - height)
    bottom = top + height
    parts = [rect(24, bottom, WIDE, 26, fill="#e9e7df", stroke=GREY), text(32, bottom + 17, foot)]
    y = bottom
    middles: list[float] = []
    for share, _, fill in layers:
        tall = share * height
        y -= tall
        parts.append(rect(24, y, WIDE, tall, fill=fill))
        middles.append(y + tall / 2 + 4)
    for (_, words, _), middle, place in zip(layers, middles, _apart(middles, least, bottom + 8), strict=True):
        parts += [line(24 + WIDE, middle - 4, 31 + WIDE, place - 4, stroke=GREY), text(35 + WIDE, place, cut(words, 31), size=11.5)]
    parts.append(_dimension(13, bottom - height, bottom, whole))
    return hatches.defs() + "".join(parts), bottom + 30


def draw_coats(plan: Plan) -> str:
    """The stack of coats to scale, the print coat against the original."""
    rows = [row for row in plan.rows.get("coats.coat", []) if row.get("thickness")]
    whole = sum(row["thickness"] for row in rows)
    if not rows or len(rows) > 14:
        return ""
    hatches = Hatches("coats")
    layers, said = [], []
    for place, row in enumerate(rows):
        words = f"{place + 1} {cut(row['name'], 12)} {show(row['thickness'], 'mm', plan.system)}"
        words += "".join(f", {extra}" for extra in (row.get("tint"), "mesh" if row.get("mesh") else "") if extra)
        layers.append((row["thickness"] / whole, words, hatches.fill(*PAIRS[place % len(PAIRS)])))
        said.append(words)
    body, height = _stack(layers, hatches, "original", show(whole, "mm", plan.system), TALL)
    return drawing(height, f"Coats from the original outwards: {'; '.join(said)}. Together {show(whole, 'mm', plan.system)}.", body)


def draw_layup(plan: Plan) -> str:
    """The shell's lay-up to scale, from the mold face outwards."""
    if "layup.ply_thickness" not in plan or "layup.thickness" not in plan:
        return ""
    layup, ply = plan.job.layup, plan.value("layup.ply_thickness")
    plies = layup.facing_plies
    hatches = Hatches("layup")
    facing = f"{plies} pl{'y' if plies == 1 else 'ies'} of glass"
    wanted: list[tuple[float, str, tuple[str, str]]] = [(layup.surface_thickness, "surface coat", ("steep", VERMILION)),
                                                        (plies * ply, facing, ("rise", SKY))]
    if layup.construction == "sandwich" and layup.core_thickness > 0:
        wanted += [(layup.core_thickness, "core", ("wide", ORANGE)), (plies * ply, facing, ("rise", SKY))]
    wanted = [layer for layer in wanted if layer[0] > 0]
    whole = sum(thick for thick, _, _ in wanted)
    if not whole:
        return ""
    layers, said = [], []
    for thick, words, hatch in wanted:
        label = f"{words} {show(thick, 'mm', plan.system)}"
        layers.append((thick / whole, label, hatches.fill(*hatch)))
        said.append(label)
    measure = plan.say("{layup.thickness}")
    body, height = _stack(layers, hatches, "rubber", measure, TALL)
    return drawing(height, f"The shell from the rubber outwards: {'; '.join(said)}. Together {measure}.", body)


def draw_size(plan: Plan) -> str:
    """The area to coat as a bar with its low and high, its parts, and the box round it for comparison."""
    if "original.area_to_coat" not in plan:
        return ""
    hatches = Hatches("size")
    whole = plan.result("original.area_to_coat")
    bars: list[tuple[str, float, str, str]] = [("to coat", whole.value, hatches.fill("rise", SKY), "")]
    for name, words, hatch in (("original.area", "of it original", ("fall", ORANGE)), ("original.flange_area", "of it flange", ("upright", GREEN))):
        if name in plan:
            bars.append((words, plan.value(name), hatches.fill(*hatch), ""))
    if "original.box_area" in plan:
        bars.append(("a box round it", plan.value("original.box_area"), "#fdfcf9", "5 3"))
    most = max([value for _, value, _, _ in bars] + [whole.high or 0]) or 1
    parts, said, y = [], [], 8.0
    for words, value, fill, dash in bars:
        wide = 300 * value / most
        label = f"{words} {show(value, 'm²', plan.system)}"
        parts += [text(10, y + 11, label), rect(10, y + 17, wide, 16, fill=fill, dash=dash)]
        said.append(label)
        if words == "to coat" and whole.low is not None and whole.high is not None and whole.high > whole.low:
            low, high = (10 + 300 * end / most for end in (whole.low, whole.high))
            parts += [line(low, y + 42, high, y + 42, width=2), line(low, y + 37, low, y + 47, width=2), line(high, y + 37, high, y + 47, width=2),
                      text(10, y + 62, f"low to high: {whole.say_band(plan.system)}", size=11.5, fill=GREY)]
            said.append(f"low to high {whole.say_band(plan.system)}")
            y += 32
        y += 44
    return drawing(y, f"Areas: {'; '.join(said)}.", hatches.defs(), *parts)


def draw_cups(plan: Plan) -> str:
    """Every coat a line, every cup a box as wide as it takes to brush it out."""
    rows = [row for row in plan.rows.get("coats.coat", []) if row.get("cups") and row.get("brushing_time")]
    if not rows or len(rows) > 14:
        return ""
    hatches = Hatches("cups")
    longest = max(row["brushing_time"] for row in rows)
    parts, said, y = [], [], 4.0
    for place, row in enumerate(rows):
        cups, each = int(row["cups"]), show(row["each"], "kg", plan.system) if row.get("each") else ""
        label = (f"{place + 1} {cut(row['name'], 16)}: {cups} cup{'s' if cups != 1 else ''}{f' of {each}' if each else ''}, "
                 f"{show(row['brushing_time'], 'min', plan.system)}")
        wide = 318 * row["brushing_time"] / longest
        fill = hatches.fill(*PAIRS[place % len(PAIRS)])
        parts.append(text(10, y + 12, label, size=11.5))
        parts.append(rect(10, y + 18, wide, 22, fill=fill))
        if cups <= 40:
            parts += [line(10 + wide * cup / cups, y + 18, 10 + wide * cup / cups, y + 40, stroke=INK, width=1.5) for cup in range(1, cups)]
        said.append(label)
        y += 50
    parts += [line(10, y, 328, y), text(10, y + 16, "0", size=11), text(328, y + 16, show(longest, "min", plan.system), anchor="end", size=11),
              text(169, y + 16, "brushing", anchor="middle", size=11, fill=GREY)]
    return drawing(y + 22, f"Cups for each coat: {'; '.join(said)}.", hatches.defs(), *parts)


