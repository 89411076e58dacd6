"""Stages lay-up, handling and casting: the shell's plies and kilograms, who lifts what, what the casts weigh."""

import math
from functools import cache
from operator import itemgetter
from typing import Any, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.job.job import Job
from moldcalc.job.tables import Section
from moldcalc.plan.rubber import mix_ratio
from moldcalc.stages import casting as g
from moldcalc.stages import layup as y
from moldcalc.stages import mixing as m
from moldcalc.units import show

Values = dict[str, Any]
Row = dict[str, Any]

#: Twenty millimetres of gypsum and scrim, the shell that people know: common practice, no source.
GYPSUM = {"thickness": 0.020, "density": 1100.0}
BY_MASS = itemgetter("mass")
#: sums over the sections, and the column that each is of
_SUMS = tuple((f"layup.{name}", itemgetter(column)) for name, column in (
    ("face_area", "face"), ("flange_area", "flange_area"), ("bare_mass", "mass"), ("glass", "glass"), ("resin", "resin"), ("core_area", "core_area")))


class Makeup(NamedTuple):
    """What the wall of the shell is made of, in the words of the lay-up's formulas."""

    fraction: float
    cored: bool
    overlap: float
    one_facing: float
    core: float
    bond: float
    core_share: float
    flange_fibre: float
    plies: str


class Lamination(NamedTuple):
    """What is laid in one go, the same on every section: its resin, and the most of it that goes into one tray."""

    name: str
    areal_mass: float
    most: float
    resin: str
    ratio: float


def _makeup(job: Job) -> Makeup:
    said, glass = job.layup, job.cards.reinforcement
    fraction = job.resolved("layup.fibre_mass_fraction")
    cored = said.construction == "sandwich" and said.core_thickness > 0 and said.core_share > 0
    overlap = y.strip_overlap_factor.si(width=said.strip_width, overlap=said.overlap) if said.count_overlap else 1.0
    fibre = glass.areal_weight * overlap
    return Makeup(fraction, cored, overlap, said.facing_plies * fibre, core=said.core_thickness if cored else 0.0,
                  bond=said.bond if cored else 0.0, core_share=said.core_share if cored else 0.0, flange_fibre=said.flange_plies * glass.areal_weight,
                  plies=f"{said.facing_plies} + {said.facing_plies}, flanges {said.flange_plies}")


def layup(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """Thickness, kilograms, glass, resin and core: a square metre, each section, the whole shell."""
    said, glass, resin, coat = job.layup, job.cards.reinforcement, job.cards.laminating_resin, job.cards.surface_coat
    made = _makeup(job)
    x, facings = made.fraction, 2 * made.one_facing
    one = {"areal_weight": glass.areal_weight, "fibre_mass_fraction": x}
    v["layup.ply_thickness"] = ply = y.ply_thickness.si(fibre_density=glass.fibre_density, resin_density=resin.density, **one)
    v["layup.overlap_factor"] = made.overlap
    v["layup.areal_mass"] = y.sandwich_areal_mass.si(
        surface_coat_thickness=said.surface_thickness, surface_coat_density=coat.density, facing_fibre=facings, fibre_mass_fraction=x,
        core_thickness=made.core, core_density=job.cards.core.density, core_share=made.core_share, bond=made.bond)
    v["layup.thickness"] = y.sandwich_thickness.si(
        surface_coat_thickness=said.surface_thickness, facing_fibre=facings, fibre_mass_fraction=x,
        fibre_density=glass.fibre_density, resin_density=resin.density, core_thickness=made.core)
    v["layup.flange_areal_mass"] = y.flange_areal_mass.si(plies=said.flange_plies, **one)
    v["layup.flange_thickness"] = said.flange_plies * ply
    laminations = _laminations(job, v, made)
    sections = said.section or (_whole(job, v),)
    rows["layup.section"] = [_section(job, v, section, made, laminations) for section in sections]
    _totals(job, v, rows["layup.section"])
    _stiffness(job, v, made, ply)


def _whole(job: Job, v: Values) -> Section:
    """The shell as one section, where the maker has not said how it comes apart."""
    # Values here are in SI already, so the row is made without reading them as a maker's text.
    sizes = {"name": "shell", "face": v["original.area"] * job.layup.face_factor, "joint": 0.0, "foot": job.original.base_outline}
    return Section().model_copy(update=sizes)


def _laminations(job: Job, v: Values, made: Makeup) -> tuple[Lamination, Lamination, Lamination, Lamination]:
    """Surface coat, inner facing, outer facing with the core's bond, flanges."""
    said, resin, coat = job.layup, job.cards.laminating_resin, job.cards.surface_coat
    usable = _usable(job, v)
    facing = y.resin_areal_mass.si(areal_weight=made.one_facing, fibre_mass_fraction=made.fraction)
    flange = y.resin_areal_mass.si(areal_weight=made.flange_fibre, fibre_mass_fraction=made.fraction)

    def laid(name: str, areal_mass: float, which: str, ratio: float) -> Lamination:
        """Its trays neither heat themselves nor stiffen before they are laid."""
        by_time = math.inf
        if areal_mass > 0:
            by_time = y.most_by_laminating.si(rate=said.rate, people=1.0, usable=usable, resin_areal_mass=areal_mass)
        return Lamination(name, areal_mass, y.largest_mix.si(by_time=by_time, by_tray=said.tray), which, ratio)

    of_resin = _ratio(resin)
    return (laid("surface coat", said.surface_thickness * coat.density, "surface_coat", _ratio(coat)),
            laid("inner facing", facing, "laminating_resin", of_resin),
            laid("core bond and outer facing" if made.cored else "outer facing", made.bond + facing, "laminating_resin", of_resin),
            laid("flanges", flange, "laminating_resin", of_resin))


def _section(job: Job, v: Values, section: Section, made: Makeup, laminations: tuple[Lamination, Lamination, Lamination, Lamination]) -> Row:
    said, waste = job.layup, job.layup.resin_waste
    face, joint, foot = float(section.face), float(section.joint), float(section.foot)
    flange = (joint + foot) * said.flange_width
    surface, inner, outer, edge = laminations
    steps = [_step(surface, face, waste), _step(inner, face, waste), _step(outer, face, waste), _step(edge, flange, waste)]
    largest = max(steps, key=BY_MASS)
    return {
        "name": section.name, "face": face, "joint": joint, "foot": foot, "touches": section.touches,
        "pull": section.pull, "flange_area": flange, "plies": made.plies,
        "mass": y.section_mass.si(face_area=face, face_areal_mass=v["layup.areal_mass"], flange_area=flange,
                                  flange_areal_mass=v["layup.flange_areal_mass"]),
        "glass": face * 2 * made.one_facing + flange * made.flange_fibre,
        "resin": face * (surface.areal_mass + 2 * inner.areal_mass + made.bond) + flange * edge.areal_mass,
        "core_area": face * made.core_share,
        "strips": y.strips_needed.si(area=face, strip_width=said.strip_width, strip_length=said.strip_length, overlap=said.overlap),
        "strip_sets": 2 * said.facing_plies, "largest_mix": largest["mass"], "trays": largest["trays"], "tray_each": largest["each"],
        "tray_base": largest["base"], "tray_part": largest["part"], "steps": steps,
    }


def _usable(job: Job, v: Values) -> float:
    """Seconds in which a tray can be laid."""
    mixing, pot_life = job.mixing, v["cure.pot_life"]
    if pot_life * mixing.usable_share <= mixing.mixing_time:
        raise EntryError(Fault("Pot life of the resin", f"{show(pot_life, 'min')} at {show(job.cure.temperature, '°C')}",
                               f"{show(mixing.usable_share, '%')} of it must be longer than mixing a cup, {show(mixing.mixing_time, 'min')}"))
    return float(m.usable_time.si(working_time=pot_life, usable_share=mixing.usable_share, mixing_time=mixing.mixing_time))


def _ratio(card: Any) -> float:
    return mix_ratio(card.mix_ratio, card.base_density, card.part_density).weight


def _step(laid: Lamination, area: float, waste: float) -> Row:
    """One lamination of a section: its resin, cut into trays."""
    name, areal_mass, most, resin, ratio = laid
    total = y.resin_to_mix.si(area=area, areal_mass=areal_mass, waste=waste)
    cut = m.cut_batches.si(total=total, most=most, least=0.0)
    each = cut.each
    base = each / (1 + ratio)
    return {"name": name, "mass": total, "trays": cut.count, "each": each, "base": base, "part": each - base, "resin": resin}


def _totals(job: Job, v: Values, sections: list[Row]) -> None:
    said = job.layup
    for name, column in _SUMS:
        v[name] = sum(map(column, sections))
    v["layup.trays_in_all"] = sum(step["trays"] for row in sections for step in row["steps"])
    v["layup.sections"] = len(sections)
    v["layup.mass"] = v["layup.bare_mass"] + said.hardware
    v["layup.heaviest"] = max(map(BY_MASS, sections))
    v["layup.glass_to_buy"] = v["layup.glass"] * (1 + said.glass_waste)
    v["layup.resin_to_buy"] = v["layup.resin"] * (1 + said.resin_waste)
    v["layup.core_to_buy"] = v["layup.core_area"] * (1 + said.core_waste)
    largest = max(sections, key=itemgetter("largest_mix"))
    v["layup.largest_mix"], v["layup.trays"], v["layup.tray_each"] = largest["largest_mix"], largest["trays"], largest["tray_each"]
    v["layup.gypsum_mass"] = v["layup.face_area"] * GYPSUM["thickness"] * GYPSUM["density"]
    glass = job.cards.reinforcement
    v["layup.roll_length"] = y.roll_length.si(area_of_ply=v["layup.glass"] / glass.areal_weight, roll_width=glass.roll_width, overlap=0.0,
                                              waste=said.glass_waste)


def _stiffness(job: Job, v: Values, made: Makeup, ply: float) -> None:
    said, glass, resin = job.layup, job.cards.reinforcement, job.cards.laminating_resin
    facing, modulus = said.facing_plies * ply, float(glass.modulus)
    if made.cored:
        stiffness = y.thin_face_stiffness.si(facing_modulus=modulus, facing_thickness=facing, core_thickness=made.core)
    else:
        stiffness = y.solid_stiffness.si(modulus=modulus, thickness=2 * facing)
    v["layup.stiffness"] = stiffness
    solid = v["layup.solid_equal_thickness"] = y.solid_thickness_for.si(stiffness=stiffness, modulus=modulus)
    density = y.laminate_density.si(fibre_mass_fraction=made.fraction, fibre_density=glass.fibre_density, resin_density=resin.density)
    v["layup.solid_equal_mass"] = solid * density
    v["layup.plies_for_thickness"] = y.plies_for_thickness.si(thickness=said.plies_wanted_thickness, ply_thickness=ply)


@cache
def _handling() -> Any:
    """The stage's formulas, of which the chain's first links take four; imported with the first plan."""
    from moldcalc.stages import handling

    return handling


def handling(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """Bolts, what the board and the people carry."""
    said, h = job.handling, _handling()
    joints = [{"name": joint.name, "length": float(joint.length), "bolts": h.bolts_along.si(length=joint.length, spacing=said.bolt_spacing)}
              for joint in said.joint]
    rows["handling.joint"] = joints
    v["handling.bolts"] = sum(joint["bolts"] for joint in joints)
    foot = sum(row["foot"] for row in rows["layup.section"])
    v["handling.foot_bolts"] = h.bolts_round.si(length=foot, spacing=said.foot_spacing) if foot > 0 else 0
    v["handling.mold_mass"] = v["layup.mass"] + v["mixing.net"]
    v["original.board_load"] = job.original.mass + v["handling.mold_mass"]
    casting(job, v)
    v["handling.mold_with_cast"] = v["handling.mold_mass"] + v["casting.with_fixings"]
    v["handling.share_cast"] = v["casting.with_fixings"] / said.people_lifting
    v["handling.share_section"] = v["layup.heaviest"] / said.people_lifting


def casting(job: Job, v: Values) -> None:
    """What a cast and the edition weigh, and what pouring it solid would mean."""
    said, card, original, h = job.casting, job.cards.cast, job.original, _handling()
    v["casting.cast_mass"] = g.cast_mass.si(area=v["original.area"], wall=said.wall, density=card.density)
    v["casting.with_fixings"] = v["casting.cast_mass"] + said.fixings
    v["casting.edition"] = g.edition_mass.si(cast_mass=v["casting.cast_mass"], casts=job.start.casts, loss_share=0.0)
    v["casting.edition_mixed"] = g.edition_mass.si(cast_mass=v["casting.cast_mass"], casts=job.start.casts, loss_share=said.loss)
    v["casting.head_pressure"] = h.head_pressure.si(density=card.solid_density, depth=original.height)
    v["casting.length_after_shrinkage"] = g.shrunk_length.si(length=original.length, linear_shrinkage=job.cards.rubber.linear_shrinkage)
    if v["original.volume"] is not None:
        v["casting.solid_mass"] = g.solid_cast_mass.si(volume=v["original.volume"], density=card.solid_density)
    if original.silhouette_side is not None:
        depth = original.silhouette_depth if original.silhouette_depth is not None else original.height / 2
        v["casting.side_thrust"] = h.side_thrust.si(density=card.solid_density, area=original.silhouette_side, mean_depth=depth)


