"""A kind of wall, all but its number of plies: what it weighs, costs and gives."""

from collections.abc import Iterator, Sequence
from math import ceil, inf
from typing import Literal, NamedTuple

from moldcalc.stages.layup.clamped import FEW, clamped_shape
from moldcalc.stages.layup.offers import Core, Reinforcement, RibOffer, Run, Stack
from moldcalc.stages.layup.panels import LINEAR
from moldcalc.stages.layup.ply import resin_areal_mass
from moldcalc.stages.layup.ribs import bay_shape, fast_rib_shape, rib_section, rib_shape
from moldcalc.stages.layup.sandwich import section, shear_give
from moldcalc.stages.layup.shape import Shape, supported_shape
from moldcalc.stages.layup.shell import sandwich_areal_mass

Edges = Literal["supported", "clamped"]
#: masses closer than this are the same
CLOSE = 1e-9
#: strip of wall that works with a rib: its foot and so many thicknesses of the wall (common practice, no source)
STRIP = 20.0
#: the outermost bay, free to turn along the panel's edge: q L⁴/184.6 for the q L⁴/384 of one between two ribs (strips, textbook)
OUTER_BAY = 384 / 184.6
#: a core thinner than so many facings is better laid solid (common practice, no source)
THIN_CORE = 3.0


class Span(NamedTuple):
    """The panel to be held: height and width [m], pressure along its lower and upper edge [Pa], how its edges are held."""

    height: float
    width: float
    bottom_pressure: float
    top_pressure: float
    edges: Edges


class Held(NamedTuple):
    """Outline of what bends between holds, and of the ribs themselves, if there are any."""

    bay: Shape
    beam: Shape | None


class Wall(NamedTuple):
    """One kind of wall: all but the number of plies."""

    reinforcement: Reinforcement
    core: Core | None
    rib: RibOffer | None
    run: Run | None
    held: Held


class Common(NamedTuple):
    """What all walls share: Poisson's ratio [-], surface coat [kg/m²], resin's price of a kilogram and the coat's of a square metre."""

    poisson_ratio: float
    surface_coat: float
    resin_price: float | None
    coat_price: float


def held(span: Span, rib: RibOffer | None, run: Run | None) -> Held:
    """The outlines that a panel falls into: itself, or bays and ribs."""
    height, width, bottom, top, edges = span
    if rib is None:
        if edges == "clamped":
            return Held(clamped_shape(height, width, bottom, top, 0.0, FEW), None)
        return Held(supported_shape(height, width, bottom, top, 0.0, moments=False), None)
    if run == "across":  # the lowest bay and rib decide; the greatest pressure over all of it is an upper bound
        height, bottom = width, max(bottom, top)
        top = bottom
    bay = bay_shape(height, rib.spacing, bottom, top)
    if edges == "clamped":
        return Held(bay, fast_rib_shape(height, bottom, top))
    return Held(bay._replace(bending=OUTER_BAY * bay.bending), rib_shape(height, bottom, top))


def deflections(wall: Wall, inner: int, outer: int, modulus: float, poisson_ratio: float, enough: float = inf) -> tuple[float, float]:
    """What a wall gives between its ribs, and in all [m]; the ribs are left out once the bay alone is beyond enough."""
    reinforcement, core, rib, _, (bay, beam) = wall
    t, c = reinforcement.ply_thickness, core.thickness if core else 0.0
    facings, middle, _ = section(modulus, inner * t, outer * t, c, core.modulus if core else 0.0)
    plate = 1 - poisson_ratio * poisson_ratio
    within = bay.bending * plate / (facings + middle)
    if core and c:
        within += bay.shear * shear_give(core.shear_modulus, c, inner * t, outer * t)
    if rib is None or beam is None or within > enough:
        return within, within
    thickness = (inner + outer) * t + c
    glass = rib.plies * t
    made = rib_section.si(spacing=rib.spacing, radius=rib.radius, glass_thickness=glass, glass_modulus=modulus, former_modulus=0.0,
                          wall_stiffness=facings + middle, wall_stretch=modulus * (inner + outer) * t, wall_thickness=thickness,
                          strip_width=2 * (rib.radius + glass) + STRIP * thickness)
    return within, within + beam.bending / made.smeared


class Weight(NamedTuple):
    """Mass of a square metre without plies, and what each ply adds [kg/m²]; the same for cost, where prices are known."""

    fixed: float
    ply: float
    fixed_cost: float | None
    ply_cost: float | None


def weight(wall: Wall, common: Common) -> Weight:
    """What a kind of wall weighs and costs, apart from its number of plies."""
    reinforcement, core, rib, *_ = wall
    areal, fraction, t = reinforcement.areal_weight, reinforcement.fibre_mass_fraction, reinforcement.ply_thickness
    resin = float(resin_areal_mass.si(areal_weight=areal, fibre_mass_fraction=fraction))
    bond = core.bond if core else 0.0
    fixed = float(sandwich_areal_mass.si(
        surface_coat_thickness=1.0, surface_coat_density=common.surface_coat, facing_fibre=0.0, fibre_mass_fraction=fraction,
        core_thickness=core.thickness if core else 0.0, core_density=core.density if core else 1.0, core_share=1.0, bond=bond))
    over = 0.0
    if rib:  # glass over a rib, as plies over the whole wall
        made = rib_section.si(spacing=rib.spacing, radius=rib.radius, glass_thickness=rib.plies * t, glass_modulus=1.0, former_modulus=0.0,
                              wall_stiffness=1.0, wall_stretch=1.0, wall_thickness=t, strip_width=rib.spacing)
        over = made.glass_area / t / rib.spacing
        fixed += over * (areal + resin) + made.former_area * rib.former_density / rib.spacing
    if reinforcement.price is None or common.resin_price is None or (core and core.price is None):
        return Weight(fixed, areal + resin, None, None)
    ply_cost = areal * reinforcement.price + resin * common.resin_price
    of_core = core.thickness * core.density * (core.price or 0.0) if core else 0.0
    return Weight(fixed, areal + resin, common.coat_price + bond * common.resin_price + of_core + over * ply_cost, ply_cost)


def stack(wall: Wall, plies: int, common: Common, weighs: Weight) -> Stack:
    """One wall, worked out in full."""
    r, core = wall.reinforcement, wall.core
    inner, outer = split(plies, core)
    bay, total = deflections(wall, inner, outer, r.modulus, common.poisson_ratio)
    low, high = (deflections(wall, inner, outer, modulus, common.poisson_ratio)[1] for modulus in (r.modulus_high, r.modulus_low))
    thickness = thickness_of(wall, plies)
    over = bay / (LINEAR * thickness)
    cost = None if weighs.fixed_cost is None or weighs.ply_cost is None else weighs.fixed_cost + plies * weighs.ply_cost
    thin = core is not None and core.thickness < THIN_CORE * inner * r.ply_thickness
    mass = weighs.fixed + plies * weighs.ply
    return Stack(r, inner, outer, core, wall.rib, wall.run, mass, thickness, total, low, high, cost, over, over <= 1, thin)


def thickness_of(wall: Wall, plies: int) -> float:
    """Of plies and core. [m]"""
    return plies * wall.reinforcement.ply_thickness + (wall.core.thickness if wall.core else 0.0)


def split(plies: int, core: Core | None) -> tuple[int, int]:
    """Plies against the rubber and outside the core, as even as can be; an odd one lies against the rubber."""
    outer = plies // 2 if core else 0
    return plies - outer, outer


def walls(span: Span, reinforcements: Sequence[Reinforcement], cores: Sequence[Core], ribs: Sequence[RibOffer]) -> Iterator[Wall]:
    """Every kind of wall that the offers allow: solid or with each core, plain or with each rib, up or across."""
    plain: list[tuple[RibOffer | None, Run | None]] = [(None, None)]
    runs: list[tuple[Run, float]] = [("up", span.width), ("across", span.height)]
    kinds = plain + [(rib, run) for rib in ribs for run, side in runs if rib.spacing < side]
    known = {(rib and rib.spacing, run): held(span, rib, run) for rib, run in kinds}
    outlines = [(rib, run, known[rib and rib.spacing, run]) for rib, run in kinds]
    for reinforcement in reinforcements:
        for core in [None, *(core for core in cores if core.thickness)]:
            for rib, run, outline in outlines:
                yield Wall(reinforcement, core, rib, run, outline)


def least(wall: Wall, least_facing: float) -> int:
    """Fewest plies that can be laid: each side of a core, or a solid wall, has at least so much dry glass, and one ply."""
    each = max(1, ceil(least_facing / wall.reinforcement.areal_weight - CLOSE))
    return 2 * each if wall.core else each
