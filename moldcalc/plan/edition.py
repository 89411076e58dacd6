"""Stage casting: batches before they set, the chain of sizes, what one mold gives, and what a cast costs."""

from typing import Any

from moldcalc.errors import EntryError
from moldcalc.job.job import Job
from moldcalc.plan.keys import modulus_of
from moldcalc.plan.saying import cast_family
from moldcalc.stages import casting as c
from moldcalc.units import show

Values = dict[str, Any]
Rows = dict[str, list[dict[str, Any]]]
Band = tuple[float, float, float]

#: of hemihydrate that sets, from memory; of the wet mix: as most_warming's example has it
GYPSUM_HEAT, WET_HEAT_CAPACITY = 118e3, 2100.0
#: in the table of shrinkage gypsum is said by its kinds
GYPSUM = "hard gypsum"


def batches(job: Job, v: Values, rows: Rows) -> None:
    """Each way of casting, with what is mixed for it; batches where the setting time is known."""
    said, card = job.casting, job.cards.cast
    area, density = v["original.area"], card.density
    found = []
    if said.setting_time is not None:
        found.append(_tried("laid up", lambda: _laid(job, area, density)))
    slush = c.slush_fillings.si(area=area, wall=said.wall, each=said.filling, density=density, poured_share=said.poured_over)
    found.append({"name": "slushed", "batches": slush.fillings, "each": slush.poured, "note": "fillings; what is poured out is used for the next"})
    turned = c.slush_fillings.si(area=area, wall=said.wall, each=said.wall, density=density, poured_share=1.0)
    found.append({"name": "rotated", "batches": 1, "each": turned.poured, "note": "one filling of just what stays; the mold turns until it has set"})
    if said.setting_time is not None and v.get("casting.solid_mass"):
        found.append(_tried("poured solid", lambda: _poured(job, v)))
    rows["casting.way"] = found
    for row in rows["casting.way"]:
        row["each_why"] = row["note"]
    mine = next((row for row in found if row["name"] == said.method), None)
    if mine is None or mine["batches"] is None:
        return
    v["casting.batches"], v["casting.batch"] = mine["batches"], mine["each"]
    if said.water_ratio is not None:
        mix = c.mixing_water.si(mixed=mine["each"], water_ratio=said.water_ratio)
        v["casting.powder"], v["casting.water"] = mix


def _tried(name: str, work: Any) -> dict[str, Any]:
    """A way that can't be is said as a row, and the others stand."""
    try:
        made: dict[str, Any] = work()
    except EntryError as error:
        return {"name": name, "batches": None, "each": None, "note": str(error).replace("{", "(").replace("}", ")")}
    return {"name": name, **made}


def _laid(job: Job, area: float, density: float) -> dict[str, Any]:
    said = job.casting
    cut = c.lay_up_batches.si(
        area=area,
        wall=said.wall,
        density=density,
        loss_share=said.loss,
        setting_time=said.setting_time,
        usable_share=job.mixing.usable_share,
        mixing_time=said.mixing_time,
        rate=said.rate,
        people_per_cup=float(said.people),
    )
    return {"batches": cut.count, "each": cut.each, "note": "each placed before it stiffens"}


def _poured(job: Job, v: Values) -> dict[str, Any]:
    said = job.casting
    pour = c.pour_plan.si(
        mixed=v["casting.solid_mass"] / (1 - said.loss),
        most=said.mixer,
        mixing_time=said.mixing_time,
        pouring_time=said.pouring_time,
        setting_time=said.setting_time,
        usable_share=job.mixing.usable_share,
    )
    mixers = f"{pour.mixers} mixer{'s' if pour.mixers != 1 else ''} at once"
    return {"batches": pour.batches, "each": pour.each, "note": f"{mixers}; all in before the first stiffens"}


def airing(job: Job, v: Values, rows: Rows) -> None:
    """How much of its by-product the rubber has given off, and how long half of it takes."""
    said = job.casting
    sheet = {"diffusivity": said.diffusivity, "thickness": v["coats.mean_thickness"], "open_faces": 2.0 if said.vent_both else 1.0}
    v["casting.vented"] = c.share_vented.si(**sheet, time=said.vent_hours)
    v["casting.vent_half"] = c.venting_time.si(**sheet, share=0.5)
    v["casting.shrunk_then"] = c.shrinkage_so_far.si(final_shrinkage=float(job.cards.rubber.linear_shrinkage), vented=v["casting.vented"])


def family_for_sizes(job: Job) -> str:
    """The casting material's name in the table of shrinkage."""
    family = cast_family(job.cards.cast)
    return GYPSUM if family == "gypsum" else family


def sizes(job: Job, v: Values, rows: Rows) -> None:
    """A length from the original to the last cast, each step a band; and how big the original should be. The sentence says where nothing is known."""
    said = job.casting
    rubber = job.cards.rubber.linear_shrinkage
    skin: Band = (getattr(rubber, "low", float(rubber)), float(rubber), getattr(rubber, "high", float(rubber)))
    steps: list[tuple[str, Band]] = [("rubber", skin)]
    if said.master != "no master":
        steps += [("master", _band(said.master)), ("rubber of the master", skin)]
    steps.append(("cast", _band(family_for_sizes(job))))
    low, likely, high = ([step[1][at] for step in steps] for at in range(3))
    chain = c.size_chain.si(length=job.original.length, low=low, likely=likely, high=high)
    rows["casting.size"] = [
        {"name": name, "low": at[0], "likely": at[1], "high": at[2], "said": f"{_ends(job, at[0], at[2])}, likely {_exact(job, at[1])}"}
        for (name, _), at in zip(steps, chain.steps, strict=True)
    ]
    v["casting.final"], v["casting.final_ends"] = chain.likely, _ends(job, chain.low, chain.high)
    wanted = job.original.length if said.wanted_length is None else said.wanted_length
    made = c.original_for.si(wanted=wanted, low=low, likely=likely, high=high)
    v["casting.original_for"], v["casting.oversize"] = made.original, made.likely - 1
    v["casting.original_ends"] = _ends(job, made.low * wanted, made.high * wanted)


def _ends(job: Job, low: float, high: float) -> str:
    """Both ends, to the millimetre or sixteenth: the widest that is said of each material, all to one side."""
    if job.start.units == "us":
        return f"{show(low, 'mm', 'us', 4)} to {show(high, 'mm', 'us', 4)}"
    return f"{low * 1e3:.0f} to {high * 1e3:.0f} mm" if low >= 0.1 else f"{low * 1e3:.1f} to {high * 1e3:.1f} mm"


def _exact(job: Job, length: float) -> str:
    """A length to a tenth of a millimetre: the steps differ by no more."""
    return show(length, "mm", "us", 4) if job.start.units == "us" else f"{length * 1e3:.1f} mm"


def _band(material: str) -> Band:
    known = c.shrinkage_band(material)
    return known.low, (known.low + known.high) / 2, known.high


def life(job: Job, v: Values, rows: Rows) -> None:
    """Casts that one mold may give, by its material and the log's count; molds for all of them."""
    said = job.casting
    known = c.casts_per_mold(cast_family(job.cards.cast), released=said.released)
    v["casting.life_low"], v["casting.life_high"] = known.fewest, known.most
    v["casting.left_low"], v["casting.left_high"] = max(0, known.fewest - said.made), max(0, known.most - said.made)
    molds = c.molds_needed.si(casts=float(job.start.casts), made=float(said.made), fewest=float(known.fewest), most=float(known.most))
    v["casting.molds_low"], v["casting.molds_high"] = molds


def cost(job: Job, v: Values, rows: Rows) -> None:
    """What one cast costs, where prices are given."""
    said = job.casting
    pay = said.hour_price if said.hour_price is not None else job.split.hour_price
    if said.mold_price is None or said.material_price is None or said.work is None or pay is None:
        return
    material = v["casting.edition_mixed"] / job.start.casts * said.material_price
    found = c.cost_of_cast.si(
        mold=said.mold_price, casts=float(job.start.casts + said.made), material=material, hours=said.work / 3600, pay_of_hour=pay
    )
    v["casting.cost_mold"], v["casting.cost_itself"], v["casting.cost"] = found


def head(job: Job, v: Values, rows: Rows) -> None:
    """How far the rubber moves out under a cast that is poured solid, held by its shell. A bound on the heat of gypsum."""
    said = job.casting
    if cast_family(job.cards.cast) == "gypsum":
        ratio = 0.6 if said.water_ratio is None else float(said.water_ratio)
        v["casting.warming"] = c.most_warming.si(heat=GYPSUM_HEAT, reacting_share=1 / (1 + ratio), heat_capacity=WET_HEAT_CAPACITY)
    stiff = modulus_of(job).likely
    radius = min(float(job.original.width), float(job.original.height)) / 2
    found = c.head_stretch.si(pressure=v["casting.head_pressure"], radius=radius, thickness=v["coats.mean_thickness"], modulus=stiff, gap=said.gap)
    v["casting.head_moves"], v["casting.head_strain"] = found.moves, found.strain
