"""Stages cure, coats, paste and mixing: the rubber, from the day's temperature to the grams in each cup."""

import math
from functools import lru_cache
from operator import itemgetter
from typing import Any, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.job.job import Job
from moldcalc.job.tables import Coat, Fill
from moldcalc.stages import coats as c
from moldcalc.stages import cure as k
from moldcalc.stages import mixing as m
from moldcalc.stages import paste as p
from moldcalc.stages.mixing.counting import count_up
from moldcalc.stages.original import coat_volume
from moldcalc.units import Q, read_ratio, show

Values = dict[str, Any]
Row = dict[str, Any]

UPRIGHT = math.pi / 2


class Ratio(NamedTuple):
    """Parts of the other component to one part of base, by weight."""

    weight: float
    volume: float


@lru_cache(maxsize=64)
def mix_ratio(text: str, base_density: float, part_density: float) -> Ratio:
    """The ratio on a card, by weight and by volume, whichever it was given by."""
    parts, basis = read_ratio(text)
    ratio = sum(parts[1:]) / parts[0]
    if basis == "volume":
        return Ratio(m.weight_ratio_from_volume.si(volume_ratio=ratio, base_density=base_density, part_density=part_density), ratio)
    return Ratio(ratio, m.volume_ratio_from_weight.si(weight_ratio=ratio, base_density=base_density, part_density=part_density))


def cure(job: Job, v: Values) -> None:
    """Every time on the rubber's and the resin's card, moved to the day's temperature and the night's."""
    said, card, resin = job.cure, job.cards.rubber, job.cards.laminating_resin
    reference = card.reference_temperature
    working = job.resolved("cure.working_time")
    energy = job.resolved("cure.activation_energy")
    if said.second_temperature is not None and said.second_working_time is not None:
        energy = k.activation_energy_from_times(
            time_1=Q(working, "s"), temperature_1=Q(reference, "K"), time_2=Q(said.second_working_time, "s"),
            temperature_2=Q(said.second_temperature, "K")).magnitude
    v["cure.activation_energy"] = energy
    factor = v["cure.factor"] = k.arrhenius_factor.si(temperature=said.temperature, reference=reference, activation_energy=energy)
    v["cure.working_time"] = k.time_at.si(time_reference=working, factor=factor)
    v["cure.demold_time"] = k.time_at.si(time_reference=job.resolved("cure.demold_time"), factor=factor)
    earliest, latest = job.resolved("cure.earliest_recoat"), job.resolved("cure.latest_recoat")
    if latest <= earliest:
        raise EntryError(Fault("Next coat not after", show(latest, "h"), f"it must be later than the earliest, {show(earliest, 'h')}"))
    window = k.recoat_window.si(earliest=earliest, latest=latest, factor=factor)
    v["cure.earliest_recoat"], v["cure.latest_recoat"] = window.earliest, window.latest
    v["cure.night_factor"] = k.arrhenius_factor.si(temperature=said.night_temperature, reference=reference, activation_energy=energy)
    of_resin = {"reference": resin.reference_temperature, "activation_energy": resin.activation_energy}
    shell = k.arrhenius_factor.si(temperature=said.night_temperature, **of_resin)
    v["cure.shell_worth"] = said.shell_hours * shell
    v["cure.shell_ready"] = k.time_at.si(time_reference=resin.demold_time, factor=shell)
    day = k.arrhenius_factor.si(temperature=said.temperature, **of_resin)
    v["cure.pot_life"] = k.time_at.si(time_reference=resin.pot_life, factor=day)
    v["cure.absolute_humidity"] = k.absolute_humidity.si(temperature=said.temperature, relative_humidity=said.humidity)
    v["cure.dew_point"] = k.dew_point.si(temperature=said.temperature, relative_humidity=said.humidity)


def clocks(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """The day's clock for the first coat, and when the rubber may come off."""
    said, card = job.cure, job.cards.rubber
    coats = rows["coats.coat"]
    finished = v["cure.finished_clock"] = said.started + (coats[0]["brushing_time"] if coats else 0.0)
    v["cure.earliest_clock"] = finished + v["cure.earliest_recoat"]
    v["cure.latest_clock"] = finished + v["cure.latest_recoat"]
    last = said.started + (coats[-1]["brushing_time"] if coats else 0.0)
    wait = k.ready_with_nights.si(needed=job.resolved("cure.demold_time"), start_of_day=last % 86400, day_temperature=said.temperature,
                                  night_temperature=said.night_temperature, night_from=said.night_from, night_to=said.night_to,
                                  reference=card.reference_temperature, activation_energy=v["cure.activation_energy"])
    v["cure.ready_clock"] = last + wait


# the stack of coats ----------------------------------------------------------------------------------------------------
def stack(job: Job) -> list[tuple[Coat, float]]:
    """The coats and their films. Build coats are scaled to reach the wall; when they grow too thick, there are more of them."""
    said = job.coats
    first = [(coat, float(coat.thickness)) for coat in said.coat if coat.kind != "build"]
    builds = [coat for coat in said.coat if coat.kind == "build"]
    left = said.wall - sum(film for _, film in first)
    if left <= 1e-9 or not builds:
        return first
    films = [float(coat.thickness) for coat in builds]
    given = sum(films)
    if abs(left - given) >= 1e-9:
        films = [film * left / given for film in films]
    if max(films) > said.most_build * (1 + 1e-9):
        count = count_up(left / said.most_build, "number of build coats")
        if count > 100:
            raise EntryError(Fault("Most in one build coat", show(said.most_build, "mm"),
                                   f"a wall of {show(said.wall, 'mm')} would need {count} coats; at most 100"))
        pattern = [builds[i] if i < len(builds) else builds[-1 - (i - len(builds)) % min(2, len(builds))] for i in range(count)]
        return first + [(coat if coat.name == f"build {i}" else coat.model_copy(update={"name": f"build {i}"}), left / count)
                        for i, coat in enumerate(pattern, 1)]
    return first + list(zip(builds, films, strict=True))


class Hang(NamedTuple):
    """What the hang tests say."""

    loading_1: float
    stress_1: float
    loading_2: float
    stress_2: float

    def stress_at(self, loading: float) -> float:
        """Yield stress at a loading, in Pa."""
        return p.yield_stress_at_loading.si(loading=loading, first_loading=self.loading_1, first_stress=self.stress_1,
                                            second_loading=self.loading_2, second_stress=self.stress_2)


def hang_tests(job: Job) -> Hang:
    """The two hang tests as yield stresses; with one test only, stress is taken in proportion to the loading (a guess, said so)."""
    said, density = job.paste, job.cards.rubber.density
    one = p.yield_stress_from_hang.si(thickness=said.hang_thickness_1, density=density)
    if said.hang_loading_2 is None or said.hang_thickness_2 is None:
        return Hang(said.hang_loading_1, one, 2 * said.hang_loading_1, 2 * one)
    if abs(said.hang_loading_2 - said.hang_loading_1) < 1e-9:
        raise EntryError(Fault("Hang test 2: thickener", show(said.hang_loading_2, "%"), "it must differ from test 1, else leave it out"))
    return Hang(said.hang_loading_1, one, said.hang_loading_2, p.yield_stress_from_hang.si(thickness=said.hang_thickness_2, density=density))


class Loss(NamedTuple):
    """What stays in a cup and its brush: a share of what is mixed, and a fixed mass a cup."""

    share: float
    fixed: float


def _loss(job: Job, own_share: float, net: float) -> Loss:
    said = job.mixing
    if said.losses == "my own shares":
        return Loss(own_share, 0.0)
    cup = {"film": said.cup_film, "cup_diameter": said.cup_diameter, "density": job.cards.rubber.density, "brush": said.brush}
    # What stays is a straight line over what is mixed (wall and bottom of the cup, brush): two points give it.
    large = max(net, said.cup_volume * job.cards.rubber.density)
    once, twice = m.batch_loss.si(mass=large, **cup), m.batch_loss.si(mass=2 * large, **cup)
    share = (twice - once) / large
    fixed = once - share * large
    return Loss(share, fixed)


def _cups(job: Job, row: Row, net: float, usable: float, rate: float, loss: Loss, ratio: Ratio, paste_most: float | None = None) -> None:
    """Cut what a coat needs into equal cups that can be brushed out in time and fit the cup; fill the row in."""
    said, density = job.mixing, job.cards.rubber.density
    kept, fixed, weight = 1 - loss.share, loss.fixed, ratio.weight
    parts = 1 + weight
    if paste_most is None:
        limit, most = "size of the cup", said.cup_volume * said.cup_fill * density * kept - fixed
        by_time = m.most_by_time.si(rate=rate, people_per_cup=said.people_per_cup, usable=usable, thickness=row["thickness"],
                                    density=density, loss_share=0.0)
        if by_time <= most:
            limit, most = "working time", by_time
    else:
        limit, most = "batch of paste", paste_most * kept - fixed
    if most <= 0:
        raise EntryError(Fault("Left in cups and brushes", "more than a cup holds", f"the {limit} must leave something to brush"))
    count = m.cut_batches.si(total=net, most=most, least=0.0).count
    each = (net / count + fixed) / kept if count else 0.0
    mixed = count * each
    row |= {"net": net, "loss": 1 - net / mixed if mixed else 0.0, "mixed": mixed, "cups": count, "each": each, "limit": limit,
            "most_per_cup": (most + fixed) / kept, "use_up_within": usable,
            "base": mixed / parts, "part": mixed * weight / parts,
            "each_base": each / parts, "each_part": each * weight / parts}


def coats(job: Job, v: Values, rows: dict[str, list[Row]], ratio: Ratio, hang: Hang) -> None:
    """Each coat: film, what holds, mass, losses, cups and times; and what they add up to."""
    said, card, mix = job.coats, job.cards.rubber, job.mixing
    area, curvature, density, working = v["original.area_to_coat"], v["original.mean_curvature"], card.density, v["cure.working_time"]
    slowed = working * job.cards.thickener.working_time_factor
    made: list[Row] = []
    growth = inner = 0.0
    for coat, film in stack(job):
        loading = coat.thickener
        time, stress = (slowed, hang.stress_at(loading)) if loading > 0 else (working, card.yield_stress)
        grown = coat_volume.si(area=area, mean_curvature=curvature, inner=inner, outer=inner + film, euler_number=2.0)
        extra = density * (grown - area * film)
        net = c.coat_mass.si(thickness=film, area=area, density=density) + (extra if said.count_growth else 0.0)
        held = c.held_thickness.si(applied=film, yield_stress=stress, viscosity=card.viscosity, density=density, slope=said.slope,
                                   below_edge=said.below_edge, time=time)
        row: Row = {"name": coat.name, "kind": coat.kind, "tint": coat.tint, "mesh": coat.mesh, "thickness": film, "area": area, "held": held}
        _cups(job, row, net, _usable(job, time), coat.rate, _loss(job, coat.loss, net), ratio)
        cups = row["cups"]
        row["thickener"], row["each_thickener"] = loading * row["mixed"], loading * row["each"]
        row["covers"] = area / cups if cups else area
        row["brushing_time"] = m.brushing_time.si(area=area, rate=coat.rate, batches=cups, mixing_time=mix.mixing_time, people=mix.people)
        made.append(row)
        growth += extra
        inner += film
    rows["coats.coat"] = made
    v["coats.count"], v["coats.wall"], v["coats.growth"] = len(made), inner, growth
    for name in ("net", "mixed", "cups"):
        v[f"coats.{name}"] = sum(map(itemgetter(name), made))
    v["coats.hold"] = min((row["held"] / row["thickness"] for row in made), default=1.0)


def _usable(job: Job, working: float) -> float:
    share, mixing = job.mixing.usable_share, job.mixing.mixing_time
    if working * share <= mixing:
        raise EntryError(Fault("Working time", f"{show(working, 'min')} at {show(job.cure.temperature, '°C')}",
                               f"{show(share, '%')} of it must be longer than mixing a cup, {show(mixing, 'min')}"))
    return float(m.usable_time.si(working_time=working, usable_share=share, mixing_time=mixing))


# paste -----------------------------------------------------------------------------------------------------------------
_NEEDS = {"fillet": ("radius", "length"), "band": ("length", "width", "thickness"), "strip": ("length", "width_top", "width", "thickness"),
          "patch": ("area", "thickness"), "pocket": ("area", "thickness"), "volume": ("volume",)}


#: results of the paste, and the column of its cups that each is
_OF_PASTE = tuple((f"paste.{column}", column) for column in (
    "net", "mixed", "cups", "each", "each_base", "each_part", "base", "part", "loss", "use_up_within"))


def fill_volume(fill: Fill) -> float:
    """Volume of a place that paste fills, from the sizes that its kind needs."""
    kind = fill.kind
    missing = [name for name in _NEEDS[kind] if getattr(fill, name) is None]
    if missing:
        raise EntryError(Fault(f"{fill.name} ({kind})", f"without {', '.join(missing).replace('_', ' ')}",
                               f"a {kind} needs {', '.join(_NEEDS[kind]).replace('_', ' ')}"))
    match kind:
        case "fillet":
            return p.fillet_volume.si(radius=fill.radius, length=fill.length)
        case "band":
            return p.band_volume.si(length=fill.length, width=fill.width, thickness=fill.thickness)
        case "strip":
            return p.strip_volume.si(length=fill.length, width_top=fill.width_top, width_base=fill.width, height=fill.thickness)
        case "patch":
            return p.patch_volume.si(area=fill.area, thickness=fill.thickness)
        case "pocket":
            return p.pocket_volume.si(area=fill.area, mean_depth=fill.thickness)
    assert fill.volume is not None
    return fill.volume


def paste(job: Job, v: Values, rows: dict[str, list[Row]], ratio: Ratio, hang: Hang) -> None:
    """Litres and kilograms of paste, how thick it holds, and the light dough."""
    said, card, thickener = job.paste, job.cards.rubber, job.cards.thickener
    fills: list[Row] = []
    for fill in said.fill:
        litres = fill_volume(fill)
        fills.append({"name": fill.name, "use": fill.use, "volume": litres, "mass": litres * card.density})
    rows["paste.fill"] = fills
    volume = v["paste.volume"] = sum(fill["volume"] for fill in fills)
    slow = thickener.working_time_factor if said.loading > 0 else 1.0
    row: Row = {"name": "paste", "thickness": 0.0}
    net = volume * card.density
    _cups(job, row, net, _usable(job, v["cure.working_time"] * slow), 0.0, Loss(said.loss, 0.0), ratio, said.batch)
    v |= {name: row[column] for name, column in _OF_PASTE}
    v["paste.each_thickener"] = said.loading * row["each"]
    stress = v["paste.yield_stress"] = hang.stress_at(said.loading) if said.loading > 0 else card.yield_stress
    v["paste.sag_thickness"] = c.hanging_thickness.si(yield_stress=stress, density=card.density, slope=UPRIGHT)
    v["paste.loading_wanted"] = p.loading_to_hold.si(
        thickness=said.wanted, density=card.density, slope=UPRIGHT, first_loading=hang.loading_1, first_stress=hang.stress_1,
        second_loading=hang.loading_2, second_stress=hang.stress_2)
    mixture = {"base_density": card.density, "thickener_density": thickener.density, "loading": said.loading}
    v["paste.density"], v["paste.volume_gain"] = p.thickened_density.si(**mixture), p.volume_gain.si(**mixture)
    dough = {"base_density": job.cards.laminating_resin.density, "thickener_density": job.cards.filler.density, "loading": said.filler_loading}
    v["paste.dough_density"], v["paste.dough_volume_gain"] = p.thickened_density.si(**dough), p.volume_gain.si(**dough)
    v["paste.dough_filler"] = p.filler_volume_fraction.si(**dough)
    keeps = job.coats.high_points_keep
    added = max((float(fill.thickness) for fill in said.fill if fill.use == "high points" and fill.thickness is not None), default=0.0)
    v["coats.at_high_points"] = c.film_at_high_points.si(wall=v["coats.wall"], kept_share=keeps, added=added)


# what it adds up to ----------------------------------------------------------------------------------------------------
_LINES = {"fillets": "coats.line_fillets", "seam band": "coats.line_seam", "strips": "coats.line_strips",
          "high points": "coats.line_high_points", "pockets": "coats.line_pockets", "peaks": "coats.line_peaks"}


def lines(job: Job, v: Values, rows: dict[str, list[Row]], ratio: Ratio) -> None:
    """The rubber line by line, both parts of it, and what the scale makes of the ratio."""
    share = v["original.flange_area"] / v["original.area_to_coat"]
    v["coats.line_wall"], v["coats.line_flange"] = v["coats.net"] * (1 - share), v["coats.net"] * share
    for name in _LINES.values():
        v[name] = 0
    for fill in rows["paste.fill"]:
        v[_LINES[fill["use"]]] += fill["mass"]
    net = v["mixing.net"] = v["coats.net"] + v["paste.net"]
    rubber = v["mixing.rubber"] = v["coats.mixed"] + v["paste.mixed"]
    v["coats.line_losses"], v["coats.line_reserve"] = rubber - net, rubber * job.mixing.reserve
    v["mixing.have"] = rubber * (1 + job.mixing.reserve)
    v["mixing.loss_share"] = 1 - net / rubber if rubber else 0.0
    v["mixing.cups"] = v["coats.cups"] + v["paste.cups"]
    v["mixing.base"], v["mixing.part"] = rubber / (1 + ratio.weight), rubber * ratio.weight / (1 + ratio.weight)
    v["mixing.base_with_reserve"] = v["mixing.base"] * (1 + job.mixing.reserve)
    v["mixing.part_with_reserve"] = v["mixing.part"] * (1 + job.mixing.reserve)
    v["mixing.thickener"] = sum(row["thickener"] for row in rows["coats.coat"]) + job.paste.loading * v["paste.mixed"]
    v["coats.per_area"] = net / v["original.area"]
    v["coats.mean_thickness"] = c.mean_thickness_from_cups.si(
        mass_mixed=net, mass_left=0.0, area=v["original.area_to_coat"], density=job.cards.rubber.density)
    v["mixing.weight_ratio"], v["mixing.volume_ratio"] = ratio.weight, ratio.volume
    card = job.cards.rubber
    v["mixing.volume_for_weight_error"] = m.volume_read_as_weight_error.si(base_density=card.base_density, part_density=card.part_density)
    v["mixing.usable_time"] = _usable(job, v["cure.working_time"])
    said = job.mixing
    v["mixing.smallest_base"] = m.smallest_batch.si(ratio=ratio.weight, readability=said.readability, tolerance=said.tolerance, coverage=2.0)
    v["mixing.smallest_batch"] = m.least_by_scale.si(ratio=ratio.weight, readability=said.readability, tolerance=said.tolerance, coverage=2.0)
    cups = [row["each"] for row in rows["coats.coat"] if row["cups"]] + ([v["paste.each"]] if v["paste.cups"] else [])
    if cups:
        u = m.readability_uncertainty.si(readability=said.readability, readings=2.0)
        base = min(cups) / (1 + ratio.weight)
        v["mixing.smallest_cup"] = min(cups)
        v["mixing.ratio_error"] = 2 * m.ratio_uncertainty.si(base_mass=base, part_mass=base * ratio.weight, base_uncertainty=u, part_uncertainty=u)
    if said.poured_base is not None:
        v["mixing.part_for_poured"] = m.part_for.si(base_mass=said.poured_base, base_parts=1.0, part_parts=ratio.weight)
        if said.poured_part is not None:
            mend = m.rescue.si(base_poured=said.poured_base, part_poured=said.poured_part, base_parts=1.0, part_parts=ratio.weight)
            v["mixing.add_base"], v["mixing.add_part"] = mend.add_base, mend.add_part
