"""Laws and refusals of the coats."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import coats
from moldcalc.units import Q
from tests.tables import within

STRESSES = st.floats(1e-3, 200)
DENSITIES = st.floats(900, 1500)
SLOPES = st.floats(0.05, math.pi / 2)
THICKNESSES = st.floats(1e-4, 0.02)
FILM = {"applied": 0.002, "viscosity": 30.0, "density": 1200.0, "slope": math.pi / 2, "below_edge": 0.5, "time": 1800.0}


@given(stress=STRESSES, density=DENSITIES, slope=SLOPES)
def test_hanging_and_holding_are_inverse(stress, density, slope):
    film = {"density": density, "slope": slope}
    held = coats.hanging_thickness.si(yield_stress=stress, **film)
    assert coats.yield_stress_to_hold.si(thickness=held, **film) == within(stress, 1e-12)
    assert coats.hanging_thickness.si(yield_stress=2 * stress, **film) == within(2 * held, 1e-12)
    assert coats.hanging_thickness.si(yield_stress=stress, density=density, slope=math.pi / 2) <= held * (1 + 1e-12)


def test_drained_film_thins_with_the_root_of_time():
    film = {"viscosity": 30.0, "density": 1200.0, "slope": 1.0}
    once = coats.drained_thickness.si(below_edge=0.3, time=600, **film)
    assert coats.drained_thickness.si(below_edge=0.3, time=2400, **film) == within(once / 2, 1e-12)
    assert coats.drained_thickness.si(below_edge=1.2, time=600, **film) == within(once * 2, 1e-12)


@given(applied=THICKNESSES, stress=STRESSES, viscosity=st.floats(0.1, 1000), slope=st.floats(0, math.pi / 2), time=st.floats(0, 1e5))
def test_what_is_held(applied, stress, viscosity, slope, time):
    film = {"viscosity": viscosity, "density": 1200.0, "slope": slope, "below_edge": 0.5}
    held = coats.held_thickness.si(applied=applied, yield_stress=stress, time=time, **film)
    assert 0 < held <= applied
    assert held >= min(applied, coats.hanging_thickness.si(yield_stress=stress, density=1200.0, slope=max(slope, 1e-6))) * (1 - 1e-12)
    assert coats.held_thickness.si(applied=applied, yield_stress=stress, time=2 * time, **film) <= held


def test_held_on_the_flat_with_no_time_and_without_yield_stress():
    assert coats.held_thickness.si(**FILM | {"slope": 0.0}, yield_stress=0.0) == 0.002
    assert coats.held_thickness.si(**FILM | {"slope": math.pi}, yield_stress=0.0) == within(0.002, 1e-12)
    assert coats.held_thickness.si(**FILM | {"time": 0.0}, yield_stress=0.0) == 0.002
    drained = coats.drained_thickness.si(**{name: value for name, value in FILM.items() if name != "applied"})
    assert coats.held_thickness.si(**FILM, yield_stress=0.0) == within(drained, 1e-12)
    assert coats.held_thickness.si(**FILM, yield_stress=15.0) == within(15 / 1200 / coats.GRAVITY, 1e-12)
    assert coats.held_thickness.si(**FILM, yield_stress=100.0) == 0.002


def test_an_overhang_is_beyond_these_formulas():
    assert [stray.entry for stray in coats.held_thickness.strays(**FILM | {"slope": 2.0})] == ["slope"]
    assert coats.hanging_thickness.strays(yield_stress=30.0, density=1200.0, slope=math.pi / 2) == []


def test_a_film_that_holds_does_not_flow():
    paste = {"yield_stress": 30.0, "consistency": 40.0, "flow_index": 0.6, "density": 1200.0, "slope": math.pi / 2}
    assert coats.plug_speed.si(thickness=0.0025, **paste) == 0
    assert coats.film_flow.si(thickness=0.0025, **paste) == 0
    assert coats.plug_speed.si(thickness=0.0026, **paste) > 0


@given(thickness=st.floats(1e-4, 5e-3), viscosity=st.floats(1, 100))
def test_ceilings_drip_with_the_cube_of_thickness(thickness, viscosity):
    liquid = {"viscosity": viscosity, "surface_tension": 0.0205, "density": 1200.0}
    once = coats.drip_growth_time.si(thickness=thickness, **liquid)
    assert coats.drip_growth_time.si(thickness=2 * thickness, **liquid) == within(once / 8, 1e-12)


@given(wall=st.floats(1e-3, 0.03), print_thickness=st.floats(0, 2e-3), tie=st.floats(0, 2e-3), most=st.floats(1e-3, 8e-3))
def test_build_coats_fill_the_wall(wall, print_thickness, tie, most):
    made = coats.build_coats.si(wall=wall, print_thickness=print_thickness, tie_thickness=tie, most_per_coat=most)
    left = wall - print_thickness - tie
    if left <= 1e-9 * wall:
        assert made == []
    else:
        assert sum(made) == within(left, 1e-9)
        assert max(made) <= most * (1 + 1e-8)
        assert max(made) == min(made)
        assert len(made) == 1 or left / (len(made) - 1) > most  # one coat fewer would not do


@pytest.mark.parametrize(("wall", "most", "count"), [
    ("6 mm", "2.1 mm", 2), ("6 mm", "2.2 mm", 2), ("6 mm", "4.2 mm", 1), ("6 mm", "2 mm", 3), ("1.8 mm", "1 mm", 0),
])
def test_how_many_build_coats(wall, most, count):
    made = coats.build_coats(wall=wall, print_thickness="0.6 mm", tie_thickness="1.2 mm", most_per_coat=most)
    assert len(made) == count


@given(thickness=THICKNESSES, area=st.floats(0.1, 10), density=DENSITIES)
def test_mass_and_cups_are_inverse(thickness, area, density):
    mass = coats.coat_mass.si(thickness=thickness, area=area, density=density)
    assert coats.mean_thickness_from_cups.si(mass_mixed=mass + 0.25, mass_left=0.25, area=area, density=density) == within(thickness, 1e-9)
    assert coats.covers.si(mass=mass, thickness=thickness, density=density) == within(area, 1e-12)
    assert coats.rubber_per_area.si(mass=mass, area=area) == within(thickness * density, 1e-12)


def test_high_points():
    assert coats.film_at_high_points.si(wall=0.006, kept_share=1.0, added=0.0) == 0.006
    assert coats.film_at_high_points.si(wall=0.006, kept_share=0.0, added=0.003) == 0.003


WRONG = [
    ("mean_thickness_from_cups", {"mass_mixed": "1 kg", "mass_left": "1.2 kg", "area": "1 m²", "density": "1.18 kg/L"},
     "mass left is 1.20 kg; it can't be above the 1.00 kg that were mixed."),
    ("build_coats", {"wall": "6 mm", "print_thickness": "0 mm", "tie_thickness": "0 mm", "most_per_coat": "0.01 mm"},
     "most per coat is 0.01 mm; for 6 mm that is more than 100 coats; give a larger one."),
    ("hanging_thickness", {"yield_stress": "30 Pa", "density": "1.2 kg/L", "slope": "0°"},
     "slope is 0°; it must be above 0 and below 3.14159 radian."),
    ("film_at_high_points", {"wall": "6 mm", "kept_share": 1.5, "added": "0 mm"}, "kept share is 1.5; it must be at least 0 and at most 1."),
    ("covers", {"mass": "1 kg", "thickness": "6", "density": "1.18 kg/L"}, "thickness is 6; "),
]


@pytest.mark.parametrize(("what", "entries", "says"), WRONG)
def test_an_impossible_entry_is_named(what, entries, says):
    with pytest.raises(EntryError) as refused:
        getattr(coats, what)(**entries)
    assert str(refused.value).startswith(says)


def test_both_systems_of_units_agree():
    metric = coats.coat_mass(thickness=Q(6.35, "mm"), area=Q(1.858060800, "m^2"), density=Q(1.18, "kg/L"))
    us = coats.coat_mass(thickness="1/4 in", area="20 ft²", density=Q(1.18, "kg/L"))
    assert us.m_as("lb") == within(metric.m_as("lb"), 1e-8)
