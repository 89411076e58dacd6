"""Laws and refusals of the original's size."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import original
from moldcalc.units import Q
from tests.tables import within

LENGTHS = st.floats(1e-3, 10)
FACTORS = st.floats(0.1, 10)
BY_LENGTH = {
    # what -> (entries that are lengths, power of length in the answer, other entries)
    "ellipsoid_area": (("a", "b", "c"), 2, {}), "ellipsoid_volume": (("a", "b", "c"), 3, {}),
    "box_area": (("length", "width", "height"), 2, {}), "box_five_faces_area": (("length", "width", "height"), 2, {}),
    "box_volume": (("length", "width", "height"), 3, {}),
    "cylinder_lateral_area": (("radius", "height"), 2, {}), "cylinder_area": (("radius", "height"), 2, {}),
    "cylinder_volume": (("radius", "height"), 3, {}), "capsule_area": (("radius", "length"), 2, {}),
    "capsule_volume": (("radius", "length"), 3, {}), "frustum_lateral_area": (("radius_low", "radius_high", "height"), 2, {}),
    "frustum_volume": (("radius_low", "radius_high", "height"), 3, {}), "ellipse_perimeter": (("a", "b"), 1, {}),
    "superellipsoid_area": (("a", "b", "c"), 2, {"power": 3.0}),
    "superellipsoid_volume": (("a", "b", "c"), 3, {"exponent_north_south": 0.7, "exponent_waist": 1.2}),
    "mean_curvature_ellipsoid": (("a", "b", "c"), 1, {}), "mean_curvature_box": (("length", "width", "height"), 1, {}),
    "mean_curvature_cylinder": (("radius", "height"), 1, {}), "mean_curvature_cone": (("radius", "height"), 1, {}),
    "mean_curvature_frustum": (("radius_low", "radius_high", "height"), 1, {}), "mean_curvature_capsule": (("radius", "length"), 1, {}),
    "mean_curvature_superellipsoid": (("a", "b", "c"), 1, {"power": 3.0}),
    "ring_area": (("girth", "centroid_length"), 2, {}), "flange_area": (("outline", "width"), 2, {}),
    "end_disc_area": (("girth",), 2, {}),
}


@pytest.mark.parametrize("what", BY_LENGTH)
@given(lengths=st.tuples(LENGTHS, LENGTHS, LENGTHS), factor=FACTORS)
def test_larger_by_a_factor(what, lengths, factor):
    names, power, others = BY_LENGTH[what]
    calculation = getattr(original, what).si
    small = dict(zip(names, lengths, strict=False))
    large = {name: length * factor for name, length in small.items()}
    assert calculation(**large, **others) == within(calculation(**small, **others) * factor**power, 1e-9)


@given(a=LENGTHS, b=LENGTHS, c=LENGTHS)
def test_an_ellipsoid_has_more_area_than_the_sphere_of_its_volume(a, b, c):
    volume = original.ellipsoid_volume.si(a=a, b=b, c=c)
    radius = (3 * volume / (4 * math.pi)) ** (1 / 3)
    area, curvature = original.ellipsoid_area.si(a=a, b=b, c=c), original.mean_curvature_ellipsoid.si(a=a, b=b, c=c)
    assert area >= 4 * math.pi * radius**2 * (1 - 1e-12)
    # Minkowski's inequalities of a convex body
    assert area**2 >= 3 * volume * curvature * (1 - 1e-9)
    assert curvature**2 >= 4 * math.pi * area * (1 - 1e-9)


@given(low=LENGTHS, high=LENGTHS, height=LENGTHS)
def test_one_frustum_is_what_two_girths_give(low, high, height):
    taped = {"heights": [0.0, height], "girths": [2 * math.pi * low, 2 * math.pi * high]}
    frustum = {"radius_low": low, "radius_high": high, "height": height}
    assert original.girth_area.si(**taped) == within(original.frustum_lateral_area.si(**frustum), 1e-12)
    assert original.girth_volume.si(**taped) == within(original.frustum_volume.si(**frustum), 1e-12)


def test_a_flat_step_counts():
    """A disc between two stations at one height is area but no volume: a cone with its base."""
    taped = {"heights": [0.0, 0.0, 4.0], "girths": [0.0, 6 * math.pi, 0.0]}
    assert original.girth_area.si(**taped) == within(24 * math.pi, 1e-12)
    assert original.girth_volume.si(**taped) == within(12 * math.pi, 1e-12)


@given(girth=LENGTHS, share=st.floats(1 / math.pi, 0.4999), step=LENGTHS)
def test_a_stadium_has_its_girth_and_width(girth, share, step):
    width = girth * share
    section = original.stadium_section.si(girth=girth, width=width)
    assert 2 * math.pi * section.radius + 4 * section.straight == within(girth, 1e-9)
    assert 2 * section.radius + 2 * section.straight == within(width, 1e-9)
    assert section.area <= original.end_disc_area.si(girth=girth) * (1 + 1e-9)
    column = original.stadium_volume.si(heights=[0.0, step], girths=[girth, girth], widths=[width, width])
    assert column == within(section.area * step, 1e-9)


def test_a_round_section_is_a_stadium_without_straight_sides():
    section = original.stadium_section.si(girth=1.0, width=1 / math.pi)
    assert section.straight == within(0, absolute=1e-12)
    tip = original.stadium_volume.si(heights=[0.0, 4.0], girths=[6 * math.pi, 0.0], widths=[6.0, 0.0])
    assert tip == within(12 * math.pi, 1e-9)


@given(a=LENGTHS, b=LENGTHS, c=LENGTHS, inner=st.floats(0, 0.02), middle=st.floats(0, 0.02), outer=st.floats(0, 0.02))
def test_coats_add_up(a, b, c, inner, middle, outer):
    first, second, third = sorted((inner, middle, outer))
    body = {"area": original.ellipsoid_area.si(a=a, b=b, c=c), "mean_curvature": original.mean_curvature_ellipsoid.si(a=a, b=b, c=c)}
    coat = original.coat_volume.si
    whole = coat(**body, inner=first, outer=third)
    assert coat(**body, inner=first, outer=second) + coat(**body, inner=second, outer=third) == within(whole, 1e-9, 1e-18)
    assert whole >= body["area"] * (third - first) * (1 - 1e-12)
    grown = [original.grown_volume.si(volume=1.0, **body, thickness=t) for t in (first, third)]
    assert grown[1] - grown[0] == within(whole, 1e-6, 1e-12)


@given(a=st.floats(0.05, 1), b=st.floats(0.05, 1), c=st.floats(0.05, 1), t=st.floats(1e-3, 0.05))
def test_grown_area_is_the_slope_of_grown_volume(a, b, c, t):
    body = {"area": original.ellipsoid_area.si(a=a, b=b, c=c), "mean_curvature": original.mean_curvature_ellipsoid.si(a=a, b=b, c=c)}
    slope = original.coat_volume.si(**body, inner=t - 1e-5, outer=t + 1e-5) / 2e-5
    assert original.grown_area.si(**body, thickness=t) == within(slope, 1e-6)


def test_bodies_that_pass_into_each_other():
    cone = original.mean_curvature_cone.si(radius=0.3, height=0.4)
    assert original.mean_curvature_frustum.si(radius_low=0.3, radius_high=0.0, height=0.4) == cone
    assert original.mean_curvature_cylinder.si(radius=0.0, height=2.0) == within(2 * math.pi, 1e-12)
    disc = original.mean_curvature_cylinder.si(radius=0.3, height=0.0)
    assert original.mean_curvature_cone.si(radius=0.3, height=0.0) == within(disc, 1e-12)
    powers = [original.superellipsoid_area.si(a=1, b=0.5, c=0.3, power=power) for power in (1, 1.5, 2, 4, 20, 200)]
    box = original.box_area.si(length=2, width=1, height=0.6)
    assert all(less < more for less, more in pairwise([*powers, box]))
    assert powers[-1] == within(box, 0.02)


@given(mass=st.floats(0.01, 1), weight=st.floats(0.02, 0.2), overlap=st.floats(0, 0.3), u=st.floats(0, 0.05))
def test_foil(mass, weight, overlap, u):
    area = original.foil_area.si(mass=mass, areal_weight=weight, overlap=overlap)
    assert original.foil_area.si(mass=2 * mass, areal_weight=weight, overlap=overlap) == within(2 * area, 1e-12)
    only_mass = original.foil_area_uncertainty.si(mass=mass, areal_weight=weight, overlap=overlap, mass_u=mass * u, areal_weight_u=0, overlap_u=0)
    assert only_mass == within(area * u, 1e-9, 1e-15)


@pytest.mark.parametrize("formula", ["mosteller", "du_bois", "haycock", "gehan_george", "boyd"])
def test_body_formulas_know_where_they_hold(formula):
    calculation = getattr(original, f"body_surface_{formula}")
    assert calculation.si(height=1.75, mass=70) == within(1.84, 0.02)
    assert [stray.entry for stray in calculation.strays(height=4.0, mass=70)] == ["height"]


def test_tape_band_is_wide():
    band = original.tape_band(area=Q(2, "m^2"))
    assert [side.m_as("m^2") for side in band] == [within(1.7, 1e-12), 2.0, within(2.3, 1e-12)]


def test_size_band_trusts_the_first_and_forgets_nobody():
    band = original.size_band.si(lows=[1.6, 1.3], likelies=[1.7, 1.5], highs=[1.8, 1.7])
    assert band == (1.3, 1.7, 1.8, True)
    assert not original.size_band.si(lows=[1.6, 1.3], likelies=[1.7, 1.4], highs=[1.8, 1.5]).agree


def metres(*values):
    return [Q(value, "m") for value in values]


WRONG = [
    ("ellipsoid_area", {"a": "55 cm", "b": "20 cm", "c": "0 cm"}, "c is 0 cm; it must be above 0."),
    ("torus_area", {"ring_radius": "0.1 m", "tube_radius": "0.2 m"},
     "tube radius is 200 mm; it must be below the ring radius of 100 mm, or the ring has no hole."),
    ("cap_volume", {"sphere_radius": "0.5 m", "height": "1.2 m"}, "height is 1.2 m; it must be at most twice the sphere radius of 500 mm."),
    ("girth_area", {"heights": metres(0, 1, 2), "girths": metres(1, 1)}, "list of girths is 2 long; give one for each of the 3 heights."),
    ("girth_volume", {"heights": metres(0), "girths": metres(1)}, "list of heights is 1 long; give at least two stations."),
    ("girth_area", {"heights": metres(0, 0.5, 0.2), "girths": metres(1, 1, 1)},
     "height of a station is 200 mm after 500 mm; give the stations in rising order."),
    ("stadium_section", {"girth": "1 m", "width": "30 cm"},
     "width is 300 mm with a girth of 1 m; no section is that slim all round; its greatest width is at least 318 mm."),
    ("stadium_section", {"girth": "1 m", "width": "50 cm"},
     "width is 500 mm with a girth of 1 m; the tape goes there and back, so it must be below 500 mm."),
    ("stadium_volume", {"heights": metres(0, 1), "girths": metres(1, 1), "widths": metres(0.4)},
     "list of widths is 1 long; give one for each of the 2 heights."),
    ("coat_volume", {"area": "1 m²", "mean_curvature": "1 m", "inner": "3 mm", "outer": "2 mm"},
     "outer is 2 mm; it must be at least the inner 3 mm."),
    ("grown_area", {"area": "1 m²", "mean_curvature": "-20 m", "thickness": "50 mm"},
     "thickness is 50 mm; with a mean curvature of -20 m the hollows are full before that; give a smaller one."),
    ("mean_curvature_edges", {"lengths": metres(1, 1), "turns": ["90°"]}, "list of turns is 1 long; give one for each of the 2 lengths."),
    ("with_detail", {"smooth_area": "1 m²", "detail_factor": 0.9}, "detail factor is 0.9; it must be at least 1."),
    ("size_band", {"lows": ["1 m²"], "likelies": ["3 m²"], "highs": ["2 m²"]},
     "likely size is 3.00 m², between 1.00 m² and 2.00 m²; give low, likely and high in rising order."),
    ("size_band", {"lows": ["1 m²"], "likelies": ["1 m²"], "highs": ["2 m²", "3 m²"]}, "list of highs is 2 long; give one for each of the 1 lows."),
]


@pytest.mark.parametrize(("what", "entries", "says"), WRONG)
def test_an_impossible_entry_is_named(what, entries, says):
    with pytest.raises(EntryError) as refused:
        getattr(original, what)(**entries)
    assert str(refused.value) == says


def test_carlsons_integral_refuses_what_has_no_root():
    for three in ((-1, 1, 1), (1, 1, math.nan), (1, 1, math.inf)):
        with pytest.raises(ValueError, match="none below 0"):
            original.elliprg(*three)


def test_gauss_legendre_sums_powers():
    """Exact up to the power 2n - 1."""
    for order in (1, 2, 5, 24):
        rule = original.gauss_legendre(order)
        for power in range(2 * order):
            assert sum(weight * node**power for node, weight in rule) == within(1 / (power + 1), 1e-13)
