"""What to look at again, and what can hurt someone. Each stands with its stage; figures come from the plan."""

from collections.abc import Iterator
from typing import Any, Literal, NamedTuple

from moldcalc.job.job import Job
from moldcalc.stages.cure import arrhenius_factor
from moldcalc.stages.layup import ply_thickness
from moldcalc.units import System, show

Values = dict[str, Any]

#: Absolute humidity of 23 °C and 50 %, halved: below it tin-cure rubber is slow. A caution band, not a formula.
DRY = 0.0103 / 2
#: Ideal-lift figure of the revised lifting equation, as public health pages give it (verified there).
IDEAL_LIFT = 23.0
#: Sections may differ so much from the original's own estimate before it is asked about: our judgement, no source.
FACES_AGREE = 0.05
#: Share of a coat that must stay up before it is called thin: our judgement, no source.
HOLDS = 0.98
#: Rubber on a square metre, 9 to 14 kg by common practice, with a little room at both ends so that the edge does not flicker.
USUAL_RUBBER = (8.5, 15.0)


class Caution(NamedTuple):
    """A sentence that stands beside what it concerns. ``kind``: 'check' (look again) or 'care' (it can hurt someone)."""

    stage: str
    text: str
    kind: Literal["check", "care"] = "check"


def cautions(job: Job, v: Values, rows: dict[str, list[dict[str, Any]]]) -> Iterator[Caution]:
    """All cautions of a plan, stage by stage."""
    system: System = "us" if job.start.units == "us" else "metric"
    yield from _original(job, v, system)
    yield from _cure(job, v, system)
    yield from _rubber(job, v, rows, system)
    yield from _paste(job, v, system)
    yield from _split(job, v, system)
    yield from _shell(job, v, rows, system)
    yield from _care(job)


def _original(job: Job, v: Values, system: System) -> Iterator[Caution]:
    if v["original.box_excess"] < 0:
        yield Caution("original", "The area is larger than five faces of the box: right for thin limbs or drapery, else look at the entries again.")
    if job.original.method == "girths" and any(station.width is None for station in job.original.station):
        yield Caution("original", "Girths without the greatest width: the volume is an upper bound, 10 to 50 % too high on most shapes.")
    if v["original.volume"] is not None:
        box = job.original.length * job.original.width * job.original.height
        if v["original.volume"] > box * (1 + 1e-9):
            yield Caution("original", f"A volume of {show(v['original.volume'], 'L', system)} does not fit into the box of the three sizes "
                                      f"({show(box, 'L', system)}).")


def _cure(job: Job, v: Values, system: System) -> Iterator[Caution]:
    for card, temperature, when in ((job.cards.rubber, job.cure.temperature, "by day"), (job.cards.rubber, job.cure.night_temperature, "at night"),
                                    (job.cards.laminating_resin, job.cure.night_temperature, "at night")):
        what = "rubber's" if card is job.cards.rubber else "resin's"
        degrees = "°F" if system == "us" else "°C"
        step = 1.8 if system == "us" else 1.0
        if temperature < card.coldest:
            yield Caution("cure", f"{show(temperature, '°C', system)} {when} is {(card.coldest - temperature) * step:.0f} {degrees} below the {what} data sheet "
                                  f"(from {show(card.coldest, '°C', system)}): the times are a guess, and it may hang or not cure.")
        if temperature > card.warmest:
            yield Caution("cure", f"{show(temperature, '°C', system)} {when} is {(temperature - card.warmest) * step:.0f} {degrees} above the {what} data sheet "
                                  f"(to {show(card.warmest, '°C', system)}): the times are a guess.")
    for stray in arrhenius_factor.strays(temperature=job.cure.temperature):
        yield Caution("cure", f"Below 10 or above 40 °C the law behind these times no longer holds: {show(stray.value, '°C', system)} is outside it.")
    if job.cards.rubber.chemistry == "tin" and v["cure.absolute_humidity"] < DRY:
        yield Caution("cure", f"Dry air ({show(v['cure.absolute_humidity'], 'g/m³', system)}): tin-cure rubber needs moisture and may take far longer. Make a cup test.")
    if v["cure.finished_clock"] > job.cure.closing:
        yield Caution("cure", f"The first coat would end after closing time. Start {show(v['cure.finished_clock'] - job.cure.closing, 'min', system)} earlier.")
    elif v["cure.earliest_clock"] > job.cure.closing and v["cure.latest_clock"] < 86400 + job.cure.started:
        yield Caution("cure", "The next coat may not go on before the shop closes, and tomorrow morning is too late: start earlier, or clean, abrade and test the bond.")
    if v["cure.shell_worth"] < job.cards.laminating_resin.demold_time * (1 - 1e-9):
        yield Caution("cure", f"A night of {show(job.cure.shell_hours, 'h', system)} at {show(job.cure.night_temperature, '°C', system)} is worth "
                              f"{show(v['cure.shell_worth'], 'h', system)} of the {show(job.cards.laminating_resin.demold_time, 'h', system)} the resin needs: "
                              f"heat the room, or open after {show(v['cure.shell_ready'], 'h', system)}.")


def _rubber(job: Job, v: Values, rows: dict[str, list[dict[str, Any]]], system: System) -> Iterator[Caution]:
    said = job.coats
    if abs(v["coats.wall"] - said.wall) > 1e-6:
        yield Caution("coats", f"The coats make {show(v['coats.wall'], 'mm', system)}, not the {show(said.wall, 'mm', system)} asked for: "
                               "print and tie coats are not scaled; add or take away a build coat.")
    for row in rows["coats.coat"]:
        if row["held"] < row["thickness"] * HOLDS:
            yield Caution("coats", f"{row['name']}: of {show(row['thickness'], 'mm', system)} about {show(row['held'], 'mm', system)} stays on the steepest face. "
                                   "Thicken it, or put it on in two passes.")
        if row["kind"] == "print" and row["thickness"] > 0.6e-3 * 1.001:
            yield Caution("coats", f"{row['name']}: a print coat over {show(0.6e-3, 'mm', system)} bridges detail and traps air (common practice).")
        if row["cups"] and row["each"] < v["mixing.smallest_batch"]:
            yield Caution("mixing", f"{row['name']}: a cup of {show(row['each'], 'kg', system)} is under the {show(v['mixing.smallest_batch'], 'kg', system)} that the scale "
                                    f"can serve within {show(job.mixing.tolerance, '%')}. Use a finer scale.")
    least = max(said.least_high_points, 0.003)
    low = v["coats.at_high_points"] if v["coats.at_high_points"] < least else None
    if low is not None:
        yield Caution("coats", f"At high points {show(low, 'mm', system)} is likely, under {show(least, 'mm', system)}: put paste on ridges, ears and edges first.")
    if not USUAL_RUBBER[0] <= v["coats.per_area"] <= USUAL_RUBBER[1]:
        yield Caution("coats", f"{show(v['coats.per_area'], 'kg/m²', system)} of rubber is outside the usual "
                               f"{show(9, 'kg/m²', system)} to {show(14, 'kg/m²', system)} (common practice): look at wall and paste again.")


def _paste(job: Job, v: Values, system: System) -> Iterator[Caution]:
    thickener = job.cards.thickener
    highest = getattr(thickener.paste, "high", thickener.paste)
    if job.paste.loading > highest:
        yield Caution("paste", f"{show(job.paste.loading, '%')} of thickener is above the card's {show(highest, '%')}: stiffer, weaker in tear.")
    if v["paste.volume"] > 0 and v["paste.sag_thickness"] < job.paste.wanted * (1 - 1e-9):
        yield Caution("paste", f"At {show(job.paste.loading, '%')} it holds {show(v['paste.sag_thickness'], 'mm', system)} on an upright face, less than the "
                               f"{show(job.paste.wanted, 'mm', system)} wanted: about {show(v['paste.loading_wanted'], '%')} is needed, or two passes.")
    if job.paste.hang_loading_2 is None:
        yield Caution("paste", "One hang test only: how it stiffens with more thickener is taken in proportion, a guess. Make a second.")
    if v["paste.dough_filler"] > job.cards.filler.most_volume:
        yield Caution("paste", f"{show(v['paste.dough_filler'], '%')} of microspheres by volume is above the {show(job.cards.filler.most_volume, '%')} that resin can wet.")


def _split(job: Job, v: Values, system: System) -> Iterator[Caution]:
    said, sections = job.split, job.layup.section
    for section in sections:
        if section.draft is not None and section.draft < said.least_draft - 1e-6:
            more = "it locks there" if section.draft < 0 else "it will drag"
            yield Caution("split", f"{section.name}: the least draft is {show(section.draft, '°', system)}, under the {show(said.least_draft, '°', system)} "
                                   f"asked for; {more}. Fill that place, turn the pull, or give it a section of its own.")
    if sections and all(section.draft is None for section in sections):
        yield Caution("split", "No section's draft is known: they are as you named them, and nothing here says that they come off.")
    if said.outline:
        yield Caution("split", "Outlines show only what stands out against the light: a fold inside one is not seen and may lock; each outline is divided by itself.")


def _shell(job: Job, v: Values, rows: dict[str, list[dict[str, Any]]], system: System) -> Iterator[Caution]:
    expected = v["original.area"] * job.layup.face_factor
    if job.layup.section and abs(v["layup.face_area"] / expected - 1) > FACES_AGREE:
        yield Caution("layup", f"The sections' faces add up to {show(v['layup.face_area'], 'm²', system)}; the original suggests {show(expected, 'm²', system)}.")
    fraction = job.resolved("layup.fibre_mass_fraction")
    for stray in ply_thickness.strays(fibre_mass_fraction=fraction):
        yield Caution("layup", f"A fibre content of {show(stray.value, '%')} by mass is outside hand lay-up (20 to 60 %).")
    grams = job.cards.reinforcement.areal_weight
    if job.cards.reinforcement.form == "mat" and grams < 0.15:
        yield Caution("layup", f"A mat of {show(grams, 'g/m²')} is very light: an ounce of mat is on a square foot, not a square yard.")
    names = {section.name for section in job.layup.section}
    for section in job.layup.section:
        for other in filter(None, (name.strip() for name in section.touches.split(","))):
            if other not in names:
                yield Caution("layup", f"{section.name} is said to touch '{other}', which is no section of this shell.")
    if v["handling.share_cast"] > IDEAL_LIFT:
        yield Caution("handling", f"{show(v['handling.share_cast'], 'kg', system)} a person is over the ideal-lift figure of {show(IDEAL_LIFT, 'kg', system)}: trolley, hoist or more people.")


def _care(job: Job) -> Iterator[Caution]:
    cards = job.cards
    sheet = "Local codes and licensed practice come before this sheet."
    yield Caution("mixing", f"{cards.rubber.caution} {cards.thickener.caution}", "care")
    yield Caution("coats", f"{cards.rubber.caution} Silicone on the floor is slippery.", "care")
    yield Caution("paste", f"{cards.thickener.caution} {cards.filler.caution}", "care")
    yield Caution("cure", "Heaters and solvents do not go together; heat of cure: a deep mass of resin can boil and smoke. Read the safety data sheets. " + sheet, "care")
    yield Caution("layup", f"{cards.laminating_resin.caution} {cards.reinforcement.caution} {sheet}", "care")
    yield Caution("handling", "No law fixes a lifting weight that suits everyone: assess each lift, turn the mold on a cradle, keep hands from under it. " + sheet, "care")
    yield Caution("casting", cards.cast.caution, "care")
    yield Caution("split", "A section that locks is not forced: hammering breaks shells, originals and hands. " + sheet, "care")
    yield Caution("original", "Dust from stone, plaster and ceramics holds silica: wet work or extraction. A heavy original can tip: chock it. " + sheet, "care")
