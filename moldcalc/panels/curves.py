"""Pictures with an axis: working time against temperature, the recoat window on the clock, what paste holds."""

from collections.abc import Callable

from moldcalc.job.entry import clock
from moldcalc.panels.svg import BLUE, GREEN, GREY, INK, ORANGE, PALE, SKY, VERMILION, Axes, Hatches, dot, drawing, line, path, rect, text
from moldcalc.plan import Plan
from moldcalc.stages.cure import arrhenius_factor
from moldcalc.stages.paste import yield_stress_at_loading, yield_stress_from_hang
from moldcalc.units import Span, show, shown, unit_in

DAY = 86400.0
COLD, WARM = 283.15, 308.15


def _sampled(curve: Callable[[float], float], low: float, high: float, steps: int = 25) -> list[tuple[float, float]]:
    return [(x, curve(x)) for x in (low + (high - low) * place / steps for place in range(steps + 1))]


def draw_working_time(plan: Plan) -> str:
    """Working time from 10 to 35 °C, likely and between low and high activation energy, with today's point."""
    if "cure.working_time" not in plan or "cure.factor" not in plan:
        return ""
    job, now = plan.job, plan.value("cure.working_time")
    energy = plan.value("cure.activation_energy") if "cure.activation_energy" in plan else float(job.resolved("cure.activation_energy"))
    given = job.resolved("cure.activation_energy")
    ends = (given.low, given.high) if isinstance(given, Span) and given.low <= energy <= given.high else (energy, energy)
    reference, stated = float(job.cards.rubber.reference_temperature), now * plan.value("cure.factor")

    def curve(activation_energy: float) -> list[tuple[float, float]]:
        return [(shown(kelvin, "°C", plan.system), stated / factor / 60) for kelvin, factor in _sampled(
            lambda kelvin: arrhenius_factor.si(temperature=kelvin, reference=reference, activation_energy=activation_energy), COLD, WARM)]

    likely, one, other = curve(float(energy)), curve(ends[0]), curve(ends[1])
    low = [(a, min(b, c)) for (a, b), (_, c) in zip(one, other, strict=True)]
    high = [(a, max(b, c)) for (a, b), (_, c) in zip(one, other, strict=True)]
    x_ends = (shown(COLD, "°C", plan.system), shown(WARM, "°C", plan.system))
    top = max(minutes for _, minutes in high) * 1.05
    axes = Axes((42, 30, 328, 190), x_ends, (0, top))
    today = shown(float(job.cure.temperature), "°C", plan.system)
    parts = []
    if high != low:
        parts = [path(axes.points(high + low[::-1]), fill=PALE[SKY], stroke="none", closed=True),
                 path(axes.points(high), stroke=BLUE, dash="4 3", width=1), path(axes.points(low), stroke=BLUE, dash="4 3", width=1),
                 text(axes.left + 8, axes.bottom - 10, "dashed: low and high", size=11, fill=GREY)]
    parts += [path(axes.points(likely), stroke=BLUE, width=2.2), axes.drawn(f"room, {unit_in('°C', plan.system)}", "working time, min")]
    words = f"now {show(float(job.cure.temperature), '°C', plan.system)}: {show(now, 'min', plan.system)}"
    x, y = axes.x(today), axes.y(now / 60)
    left = x > 200
    parts += [line(x, y, x, axes.bottom, stroke=VERMILION, dash="2 3"), dot(x, y, fill=VERMILION),
              text(min(x, 326) + (2 if left else 8), max(y - 12, 40), words, bold=True, anchor="end" if x > 235 else "start")]
    return drawing(228, f"Working time against room temperature, falling as it gets warmer; {words}.", *parts)


def draw_recoat(plan: Plan) -> str:
    """The window for the next coat on the clock, with the hours when the doors are closed."""
    if "cure.earliest_clock" not in plan or "cure.latest_clock" not in plan:
        return ""
    cure, hatches = plan.job.cure, Hatches("recoat")
    earliest, latest = plan.value("cure.earliest_clock"), plan.value("cure.latest_clock")
    start, end = min(cure.started, earliest), max(latest, earliest) + 3600.0
    step = next((hours * 3600.0 for hours in (1, 2, 3, 4, 6, 12, 24, 48, 96) if (end - start) / (hours * 3600.0) <= 5), DAY * 14)
    axes = Axes((22, 30, 322, 108), (start, start + step * -(-(end - start) // step)), (0, 1))
    left, right = axes.x(earliest), axes.x(latest)
    parts = [rect(left, 34, right - left, 34, fill=hatches.fill("wide", GREEN), stroke=GREEN),
             text(min(max(left, 22), 160), 26, f"{clock(earliest)} earliest", size=11.5, bold=True)]
    inside = right - left > 156
    parts.append(text(max(min(right, 322), 170), 83, f"{clock(latest)} latest", size=11.5, bold=True, anchor="end"))
    if inside:
        parts += [rect(left + 6, 42, 144, 18, fill="#ffffff", stroke="none"), text(left + 10, 55, "next coat may go on")]
    parts += _closed_hours(axes, cure.closing, cure.started)
    parts.append(line(22, 108, 322, 108))
    for place in range(int(-(-(axes.x_ends[1] - start) // step)) + 1):
        at = start + place * step
        parts += [line(axes.x(at), 104, axes.x(at), 112), text(axes.x(at), 126, clock(at % DAY), anchor="middle", size=11)]
    closed = f"doors closed {clock(cure.closing)} to {clock(cure.started)}"
    parts.append(text(172, 146, closed, anchor="middle", size=11.5))
    label = f"The next coat may go on from {clock(earliest)} to {clock(latest)}; {closed}."
    return drawing(154, label, hatches.defs(), *parts)


def _closed_hours(axes: Axes, closing: float, opening: float) -> list[str]:
    """A dashed box for every night on the picture."""
    start, end = axes.x_ends
    length = (opening - closing) % DAY
    nights = [closing + day * DAY for day in range(-1, int((end - start) // DAY) + 3)]
    shown_nights = [(max(night, start), min(night + length, end)) for night in nights if night < end and night + length > start]
    return [rect(axes.x(a), 92, axes.x(b) - axes.x(a), 12, stroke=INK, dash="4 2") for a, b in shown_nights[:40]]


def draw_paste(plan: Plan) -> str:
    """How thick a dab holds, by its loading, through the hang tests; the wanted thickness as a line."""
    paste = plan.job.paste
    tests = [(float(paste.hang_loading_1), float(paste.hang_thickness_1))]
    if paste.hang_loading_2 is not None and paste.hang_thickness_2 is not None:
        tests.append((float(paste.hang_loading_2), float(paste.hang_thickness_2)))
    most = 1.25 * max([loading for loading, _ in tests] + [float(paste.loading), plan.values.get("paste.loading_wanted") or 0.0])
    tall = 1.25 * max([thick for _, thick in tests] + [float(paste.wanted), plan.values.get("paste.sag_thickness") or 0.0])
    axes = Axes((42, 30, 328, 190), (0, shown(most, "%")), (0, shown(tall, "mm", plan.system)))

    def at(loading: float, thick: float) -> tuple[float, float]:
        return axes.x(shown(loading, "%")), axes.y(shown(thick, "mm", plan.system))

    parts = []
    if curve := _held(plan, tests, most):
        parts.append(path([at(*point) for point in curve if point[1] <= tall], stroke=BLUE, width=2.2))
    _, wanted = at(0, float(paste.wanted))
    words = f"wanted: {show(float(paste.wanted), 'mm', plan.system)}"
    parts += [line(42, wanted, 328, wanted, stroke=VERMILION, dash="6 3", width=1.5), text(48, wanted - 5, words, size=11.5, bold=True)]
    for place, (loading, thick) in enumerate(tests, 1):
        x, y = at(loading, thick)
        parts += [dot(x, y, fill=ORANGE), text(min(x + 8, 326), y + 14, f"test {place}", size=11, anchor="end" if x > 290 else "start")]
    said = ""
    if (held := plan.values.get("paste.sag_thickness")) is not None:
        x, y = at(float(paste.loading), held)
        said = f"now {show(float(paste.loading), '%', plan.system)}: holds {show(held, 'mm', plan.system)}"
        parts += [line(x, y, x, axes.bottom, stroke=INK, dash="2 3"), dot(x, y, fill=INK), text(328, 14, said, bold=True, anchor="end")]
    parts.append(axes.drawn("thickener, %", f"holds, {unit_in('mm', plan.system)}"))
    return drawing(228, f"What paste holds on an upright face, rising with its thickener; {words}{'; ' if said else ''}{said}.", *parts)


def _held(plan: Plan, tests: list[tuple[float, float]], most: float) -> list[tuple[float, float]]:
    """The curve through two tests that agree with each other; thickness goes with yield stress at one density."""
    if len(tests) < 2 or "paste.density" not in plan:
        return []
    (first, thin), (second, thick) = tests
    if first == second or (second > first) != (thick > thin) or thin == thick:
        return []
    density = plan.value("paste.density")
    stresses = [yield_stress_from_hang.si(thickness=value, density=density) for value in (thin, thick)]
    one = yield_stress_from_hang.si(thickness=1.0, density=density)
    return _sampled(lambda loading: yield_stress_at_loading.si(loading=loading, first_loading=first, first_stress=stresses[0],
                                                               second_loading=second, second_stress=stresses[1]) / one, most / 50, most, 40)


