"""Choose for me: against trying everything, and the wording of what is refused."""

import random
from itertools import product
from math import ceil, inf, nan, pi

import pytest

from moldcalc.errors import EntryError
from moldcalc.stages import layup
from moldcalc.stages.layup import Core, Reinforcement, RibOffer, choose_stack
from tests.tables import within

MAT = Reinforcement("mat 450", 0.45, 0.30, 1.088825e-3, 6.35e9, 6.4e9, 8.68e9, 6.0)
CLOTH = Reinforcement("cloth 300", 0.30, 0.50, 0.378057e-3, 7.4e9, 12.5e9, 16.2e9, 9.0)
FOAM = Core("foam 10", 0.010, 75.0, 55e6, 22e6, 0.8, 14.0)
RIB = RibOffer("rib 200", 0.200, 0.015, 2, 30.0)
PANEL = {"height": 0.6, "width": 0.4, "bottom_pressure": 9000.0, "top_pressure": 1000.0, "allowed_deflection": 0.002, "poisson_ratio": 0.3}


def deflection_of(one, core, rib, run, plies, panel, edges, modulus):
    """One stack through the public doors: what its bay gives, and all of it."""
    t, c = one.ply_thickness, core.thickness if core else 0.0
    outer = plies // 2 if core else 0
    inner = plies - outer
    facings = {"facing_modulus": modulus, "facing_thickness": inner * t, "core_thickness": c, "core_modulus": core.modulus if core else 0.0}
    if outer:
        facings["other_facing_thickness"] = outer * t
    elif not core:  # one solid laminate, as two halves without a core
        facings["facing_thickness"] = plies * t / 2
    plate = layup.sandwich_plate_stiffness.si(**facings, facing_poisson_ratio=0.3, core_poisson_ratio=0.3)
    shear = layup.sandwich_shear_stiffness.si(core_shear_modulus=core.shear_modulus, core_thickness=c, facing_thickness=inner * t,
                                              other_facing_thickness=outer * t) if core else None
    load = {name: panel[name] for name in ("height", "width", "bottom_pressure", "top_pressure")}
    thickness = plies * t + c
    if rib is None:
        held = layup.clamped_panel if edges == "clamped" else layup.supported_panel
        found = held.si(**load, stiffness=plate, thickness=thickness, poisson_ratio=0.3, shear_stiffness=shear)
        return found.deflection, found.deflection
    beam = layup.sandwich_stiffness.si(**facings)
    glass = rib.plies * t
    made = layup.rib_section.si(spacing=rib.spacing, radius=rib.radius, glass_thickness=glass, glass_modulus=modulus, former_modulus=0.0,
                                wall_stiffness=beam, wall_stretch=modulus * plies * t, wall_thickness=thickness,
                                strip_width=2 * (rib.radius + glass) + 20 * thickness)
    if run == "across":
        load |= {"height": load["width"], "bottom_pressure": max(load["bottom_pressure"], load["top_pressure"])}
        load["top_pressure"] = load["bottom_pressure"]
    bays = {"height": load["height"], "spacing": rib.spacing, "bottom_pressure": load["bottom_pressure"], "top_pressure": load["top_pressure"],
            "stiffness": plate, "smeared": made.smeared}
    bent, sheared = layup.ribbed_panel.si(**bays), layup.ribbed_panel.si(**bays, shear_stiffness=shear)
    outermost = 384 / 184.6  # a strip held fast along one side only: q L⁴/184.6, textbook
    bay = outermost * bent.bay + sheared.bay - bent.bay
    return bay, bay + bent.rib


def mass_of(one, core, rib, plies):
    """By hand: plies, core and its bond, glass and former of a rib over its spacing."""
    mass = plies * one.areal_weight / one.fibre_mass_fraction + (core.thickness * core.density + core.bond if core else 0.0)
    if rib:
        glass = rib.plies * one.ply_thickness
        density = one.areal_weight / one.fibre_mass_fraction / one.ply_thickness
        mass += pi / 2 * ((rib.radius + glass) ** 2 - rib.radius**2) * density / rib.spacing
        mass += pi / 2 * rib.radius**2 * rib.former_density / rib.spacing
    return mass


def by_trying_all(reinforcements, cores, ribs, panel, edges, rules):
    """Lightest stack of every kind that does, lightest first: every number of plies of every kind tried."""
    runs = [("up", panel["width"]), ("across", panel["height"])]
    held = [(None, None), *((rib, run) for rib in ribs for run, side in runs if rib.spacing < side)]
    found = []
    for one, core, (rib, run) in product(reinforcements, [None, *cores], held):
        each = max(1, ceil(rules["least_facing"] / one.areal_weight - 1e-9))
        for plies in range(2 * each if core else each, rules["most_plies"] + 1):
            modulus = one.modulus_low if rules["with_low_modulus"] else one.modulus
            bay, total = deflection_of(one, core, rib, run, plies, panel, edges, modulus)
            linear = bay <= (plies * one.ply_thickness + (core.thickness if core else 0.0)) / 2
            if total <= panel["allowed_deflection"] and (linear or not rules["only_linear"]):
                found.append((mass_of(one, core, rib, plies), (one, core, rib, run, plies)))
                break
    return sorted(found, key=lambda entry: entry[0])


def cards(seed):
    """A handful of made-up offers and a panel."""
    dice = random.Random(seed)
    reinforcements = [MAT._replace(name=f"r{i}", areal_weight=w, ply_thickness=2.4e-3 * w * dice.uniform(0.5, 1.1),
                                   modulus=(e := dice.uniform(5e9, 15e9)), modulus_low=0.7 * e, modulus_high=1.3 * e)
                      for i, w in enumerate(dice.sample([0.16, 0.3, 0.45, 0.6], 2))]
    cores = [FOAM._replace(name=f"c{t}", thickness=t * 1e-3, density=dice.uniform(50, 120), shear_modulus=dice.uniform(8e6, 30e6))
             for t in dice.sample([3, 5, 8, 12, 20], 2)]
    ribs = [RIB._replace(name=f"b{s}", spacing=s * 1e-3, radius=dice.uniform(0.008, 0.025)) for s in dice.sample([120, 180, 260, 400], 2)]
    panel = PANEL | {"height": dice.uniform(0.3, 1.2), "width": dice.uniform(0.3, 0.8), "bottom_pressure": dice.uniform(2e3, 2e4),
                     "top_pressure": dice.choice([0.0, 1e3, 5e3]), "allowed_deflection": dice.choice([0.0005, 0.001, 0.003, 0.01])}
    rules = {"least_facing": dice.choice([0.0, 0.4]), "most_plies": dice.choice([4, 10, 16]), "only_linear": dice.random() < 0.5,
             "with_low_modulus": dice.random() < 0.5}
    return reinforcements, cores, ribs, panel, rules


@pytest.mark.parametrize("seed", range(12))
def test_against_trying_everything(seed):
    reinforcements, cores, ribs, panel, rules = cards(seed)
    edges = "supported"
    choice = choose_stack(**panel, reinforcements=reinforcements, cores=cores, ribs=ribs, edges=edges, **rules)
    every = by_trying_all(reinforcements, cores, ribs, panel, edges, rules)
    found = [one for one in (choice.best, *choice.others) if one]
    assert [one.mass for one in found] == [within(mass, 1e-9) for mass, _ in every[:4]]
    for one in found:
        plies = one.inner_plies + one.outer_plies
        deflected = deflection_of(one.reinforcement, one.core, one.rib, one.run, plies, panel, edges, one.reinforcement.modulus)[1]
        assert one.deflection == within(deflected, 1e-6)
        assert any(made == (one.reinforcement, one.core, one.rib, one.run, plies) for _, made in every)
    assert (choice.stiffest is None) == bool(found)
    assert choice.looked_at <= 6 * choice.kinds, "halving, not every number of plies"


def test_clamped_against_trying_everything():
    choice = choose_stack(**PANEL, reinforcements=[MAT, CLOTH], cores=[FOAM], edges="clamped")
    every = by_trying_all([MAT, CLOTH], [FOAM], [], PANEL, "clamped",
                          {"least_facing": 0.0, "most_plies": 16, "only_linear": True, "with_low_modulus": False})
    assert [one.mass for one in (choice.best, *choice.others)] == [within(mass, 1e-9) for mass, _ in every[:4]]


def test_more_cards_never_make_it_heavier():
    few = choose_stack(**PANEL, reinforcements=[MAT])
    more = choose_stack(**PANEL, reinforcements=[MAT, CLOTH], cores=[FOAM], ribs=[RIB])
    assert more.best.mass <= few.best.mass
    assert few.best.core is None and few.best.outer_plies == 0


def test_the_spread_is_carried_into_the_deflection():
    best = choose_stack(**PANEL, reinforcements=[MAT], cores=[FOAM]).best
    assert best.deflection_low < best.deflection < best.deflection_high
    solid = choose_stack(**PANEL, reinforcements=[MAT]).best
    assert (solid.deflection_low, solid.deflection_high) == (within(solid.deflection * 6.4 / 8.68, 1e-9), within(solid.deflection * 6.4 / 6.35, 1e-9))
    cautious = choose_stack(**PANEL, reinforcements=[CLOTH], cores=[FOAM], with_low_modulus=True).best
    assert cautious.deflection_high <= PANEL["allowed_deflection"]


def test_what_it_costs():
    """By hand: 3 plies of mat at 6 a kg, their resin and 0.8 kg of bond at 15, 0.75 kg of foam at 14."""
    best = choose_stack(**PANEL, reinforcements=[MAT], cores=[FOAM], resin_price=15.0).best
    plies = best.inner_plies + best.outer_plies
    assert best.core == FOAM and best.cost == within(plies * (0.45 * 6 + 1.05 * 15) + 0.8 * 15 + 0.75 * 14, 1e-9)
    assert choose_stack(**PANEL, reinforcements=[MAT], cores=[FOAM]).best.cost is None
    assert choose_stack(**PANEL, reinforcements=[MAT._replace(price=None)], cores=[FOAM], resin_price=15.0).best.cost is None


def test_a_core_of_nothing_is_a_solid_wall():
    bare = choose_stack(**PANEL, reinforcements=[MAT], cores=[FOAM._replace(thickness=0.0)])
    assert bare.best == choose_stack(**PANEL, reinforcements=[MAT]).best


def test_none_does():
    choice = choose_stack(**PANEL | {"allowed_deflection": 1e-7}, reinforcements=[MAT, CLOTH], cores=[FOAM], ribs=[RIB])
    assert choice.best is None and choice.others == ()
    assert choice.stiffest.deflection > 1e-7


def test_a_thin_core_is_marked():
    thin = choose_stack(**PANEL, reinforcements=[MAT], cores=[FOAM._replace(thickness=0.003)], least_facing=0.9)
    assert any(one.thin_core for one in (thin.best, *thin.others) if one and one.core)


REFUSED = [
    ({"height": 0.0}, "height is 0; it must be above 0."),
    ({"width": nan}, "width is nan; it must be above 0."),
    ({"bottom_pressure": inf}, "bottom pressure is inf; it must be at least 0."),
    ({"allowed_deflection": -1.0}, "allowed deflection is -1; it must be above 0."),
    ({"poisson_ratio": 0.7}, "poisson ratio is 0.7; it must be above -1 and at most 0.5."),
    ({"reinforcements": [MAT._replace(areal_weight=nan)]}, "areal weight of mat 450 is nan; it must be above 0."),
    ({"reinforcements": [MAT._replace(fibre_mass_fraction=30.0)]}, "fibre mass fraction of mat 450 is 30; it must be above 0 and below 1."),
    ({"reinforcements": [MAT._replace(modulus=9e9)]}, "modulus of mat 450 is 9e+09; it must lie from 6.35e+09 to 8.68e+09."),
    ({"cores": [FOAM._replace(shear_modulus=0.0)]}, "shear modulus of foam 10 is 0; it must be above 0."),
    ({"cores": [FOAM._replace(price=-1.0)]}, "price of foam 10 is -1; it must be at least 0."),
    ({"ribs": [RIB._replace(spacing=inf)]}, "spacing of rib 200 is inf; it must be above 0."),
    ({"reinforcements": []}, "kinds of wall is 0; the cards must offer from 1 to 5000."),
    ({"edges": "glued"}, "edges is glued; they must be supported or clamped."),
    ({"most_plies": 1000}, "most plies is 1000; it must be from 2 to 200."),
    ({"height": 1e-300, "width": 1e-300}, "height is 1e-300; together these entries give no number; check their sizes."),
]


@pytest.mark.parametrize(("entries", "says"), REFUSED)
def test_what_is_refused(entries, says):
    with pytest.raises(EntryError) as error:
        choose_stack(**{**PANEL, "reinforcements": [MAT], "cores": [FOAM], "ribs": [RIB]} | entries)
    assert says in str(error.value)


def test_all_that_is_wrong_is_said_at_once():
    with pytest.raises(EntryError) as error:
        choose_stack(**PANEL | {"height": nan}, reinforcements=[MAT._replace(areal_weight=0.0)], cores=[FOAM._replace(density=-1.0)])
    assert [fault.entry for fault in error.value.faults] == ["height", "areal weight of mat 450", "density of foam 10"]
