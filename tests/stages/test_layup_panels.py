"""Panels: scaling laws, softer and stiffer edges, curvature and ribs rewarded, and the wording of what is refused."""

from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import layup
from moldcalc.stages.layup.clamped import FEW, clamped_shape
from moldcalc.stages.layup.ribs import fast_rib_shape
from moldcalc.stages.layup.shape import supported_shape
from moldcalc.units import Q
from tests.tables import within

PANEL = {"height": 0.8, "width": 0.5, "bottom_pressure": 12e3, "top_pressure": 2e3, "stiffness": 2000.0, "thickness": 0.015,
         "poisson_ratio": 0.3, "shear_stiffness": 4e5}
FACTOR = st.floats(0.2, 5)
SIDE = st.floats(0.1, 3)


@pytest.mark.parametrize("panel", [layup.supported_panel.si, layup.clamped_panel.si])
@settings(max_examples=15, deadline=None)
@given(factor=FACTOR)
def test_panels_scale(panel, factor):
    one = panel(**PANEL)
    pushed = panel(**PANEL | {"bottom_pressure": factor * 12e3, "top_pressure": factor * 2e3})
    assert (pushed.deflection, pushed.moment) == (within(factor * one.deflection, 1e-9), within(factor * one.moment, 1e-9))
    bigger = panel(**PANEL | {"height": factor * 0.8, "width": factor * 0.5})
    assert (bigger.bending, bigger.shear) == (within(factor**4 * one.bending, 1e-9), within(factor**2 * one.shear, 1e-9))
    assert bigger.at == within(factor * one.at, 1e-6)
    solid = panel(**{name: value for name, value in PANEL.items() if name != "shear_stiffness"})
    assert (solid.bending, solid.shear) == (one.bending, 0)


@settings(max_examples=25, deadline=None)
@given(height=SIDE, width=SIDE, bottom=st.floats(0, 1), top=st.floats(0.01, 1))
def test_holding_it_faster_stiffens(height, width, bottom, top):
    free, sides, fast = (supported_shape(height, width, bottom, top, 0.3), supported_shape(height, width, bottom, top, 0.3, fast_sides=True),
                         clamped_shape(height, width, bottom, top, 0.3))
    assert fast.bending < sides.bending < free.bending
    assert 0 < free.at < height


@settings(max_examples=25, deadline=None)
@given(height=SIDE, width=SIDE, bottom=st.floats(0, 1), top=st.floats(0, 1))
def test_head_upside_down(height, width, bottom, top):
    """Turned over, the panel gives the same, as far from its other edge."""
    for shape in (supported_shape, clamped_shape):
        one, other = shape(height, width, bottom, top, 0.3), shape(height, width, top, bottom, 0.3)
        assert other.bending == within(one.bending, 1e-6, 1e-300)
        if abs(top - bottom) > 1e-3:
            assert other.at == within(height - one.at, absolute=1e-4 * height)


@settings(max_examples=10, deadline=None)
@given(aspect=st.floats(1, 4))
def test_few_shapes_are_enough_for_the_deflection(aspect):
    assert clamped_shape(1, aspect, 1, 0, 0.0, FEW).bending == within(clamped_shape(1, aspect, 1, 0, 0.0).bending, 1e-5)


@pytest.mark.parametrize(("bottom", "top"), [(1, 1), (1, 0), (0, 1), (1, 0.9)])
def test_endless_panels_are_strips(bottom, top):
    """An endless width is a beam; a height beyond twenty widths decides at its heavier end, under the pressure there."""
    assert supported_shape(1, 1000, bottom, top, 0.3).bending == within(supported_shape(1, inf, bottom, top, 0.3).bending, 1e-6)
    assert clamped_shape(1, 1000, bottom, top, 0.3).bending == within(fast_rib_shape(1, bottom, top).bending, 1e-4)
    tall = supported_shape(200, 1, bottom, top, 0.3)
    assert tall.bending == within(5 / 384, 0.02)
    assert tall.at == within(100 if bottom == top else (0 if bottom > top else 200), absolute=5)


def test_even_load_on_a_beam_held_fast():
    """q L⁴/384; one that rises from 0 gives q L⁴/764 at most (0.00131, textbook, from memory)."""
    assert fast_rib_shape(1, 1, 1).bending == within(1 / 384, 1e-12)
    assert fast_rib_shape(1, 1, 0).bending == within(0.00131, 2e-3)


def test_linear_theory_ends_at_half_the_thickness():
    assert layup.linear_theory.si(deflection=0.0025, thickness=0.005).linear
    over = layup.linear_theory.si(deflection=0.0026, thickness=0.005)
    assert (over.linear, over.over_limit) == (False, within(1.04, 1e-12))
    stiff = layup.supported_panel.si(**PANEL | {"stiffness": 2e5, "shear_stiffness": 4e7})
    assert stiff.linear and stiff.over_limit < 1
    soft = layup.supported_panel.si(**PANEL | {"stiffness": 200.0})
    assert not soft.linear and soft.over_limit == within(soft.deflection / 0.0075, 1e-12)


BARREL = {"height": 0.5, "width": 0.5, "bottom_pressure": 15690.6, "top_pressure": 15690.6, "stiffness": 73.26, "stretch_stiffness": 3.2e7,
          "thickness": 0.005}


def test_curvature_is_rewarded():
    given_ = [layup.curved_panel.si(**BARREL, radius_across=radius).deflection for radius in (None, 10.0, 3.0, 1.0, 0.5)]
    assert given_ == sorted(given_, reverse=True) and given_[0] > 40 * given_[-1]
    flat = layup.supported_panel.si(**{name: value for name, value in BARREL.items() if name != "stretch_stiffness"}, poisson_ratio=0.3)
    assert given_[0] == within(flat.deflection, 1e-6), "flat, it is the flat panel"
    assert layup.curved_panel.si(**BARREL).gain == within(1, 1e-9)


def test_which_way_it_curves_does_not_matter():
    one, other = layup.curved_panel.si(**BARREL, radius_across=0.7), layup.curved_panel.si(**BARREL, radius_up=0.7)
    assert (one.deflection, one.middle) == (within(other.deflection, 1e-6), within(other.middle, 1e-6))
    assert layup.curved_panel.si(**BARREL, radius_across=-0.7).deflection == within(one.deflection, 1e-9)


def test_far_from_its_edges_a_ball_stretches():
    """The middle of a large ball-like panel: q R²/(E t), from one equation of shallow shells without bending; 1 %."""
    large = layup.curved_panel.si(**BARREL | {"height": 3.0, "width": 3.0}, radius_across=2.0, radius_up=2.0)
    assert large.middle == within(15690.6 * 2.0**2 / 3.2e7, 0.01)
    assert large.shallow and large.rise == within(3 / 16, 1e-12)


def test_soft_core_gives_more():
    """Flat or nearly. Of a strongly curved panel only the mean must rise: its greatest may fall a little."""
    for radius in (None, 50.0):
        solid, soft = (layup.curved_panel.si(**BARREL, radius_across=radius, shear_stiffness=shear) for shear in (None, 2e5))
        assert soft.deflection > solid.deflection and soft.flat > solid.flat


RIB = {"spacing": 0.3, "radius": 0.02, "glass_thickness": 0.002, "glass_modulus": 6.4e9, "former_modulus": 0.0, "wall_stiffness": 66.67,
       "wall_stretch": 3.2e7, "wall_thickness": 0.005, "strip_width": 0.144}


@given(factor=st.floats(1.01, 3))
def test_a_bigger_rib_is_stiffer(factor):
    one = layup.rib_section.si(**RIB)
    for entry in ("radius", "glass_thickness", "glass_modulus", "strip_width"):
        assert layup.rib_section.si(**RIB | {entry: factor * RIB[entry]}).stiffness > one.stiffness
    assert layup.rib_section.si(**RIB | {"former_modulus": 1e8}).stiffness > one.stiffness
    assert layup.rib_section.si(**RIB | {"strip_width": 9.0}) == layup.rib_section.si(**RIB | {"strip_width": 0.3}), "never more than the spacing"


@given(factor=FACTOR)
def test_rib_scales(factor):
    """All lengths: EI with the fourth power (a wall's stiffness with the third, its stretch with the first)."""
    lengths = {name: factor * RIB[name] for name in ("spacing", "radius", "glass_thickness", "wall_thickness", "strip_width")}
    scaled = layup.rib_section.si(**RIB | lengths | {"wall_stiffness": factor**3 * 66.67, "wall_stretch": factor * 3.2e7})
    assert scaled.stiffness == within(factor**4 * layup.rib_section.si(**RIB).stiffness, 1e-9)


def test_rib_by_hand():
    """131.95 mm² of glass 15.88 mm up and 4.608 MN of wall: axis 2.46 mm, 225 N m²; by hand."""
    rib = layup.rib_section.si(**RIB)
    assert rib.glass_area == within(131.95e-6, 1e-4)
    assert rib.axis == within(2.46e-3, absolute=0.005e-3)
    assert rib.stiffness == within(224.9, 1e-3)
    assert rib.smeared == within(rib.stiffness / 0.3, 1e-12)


def test_ribs_pay():
    """The flat panel of 500 mm with ribs every 150 mm gives a fraction of what it gave."""
    plain = layup.supported_panel.si(height=0.5, width=0.5, bottom_pressure=8e3, top_pressure=8e3, stiffness=73.26, thickness=0.005,
                                     poisson_ratio=0.3)
    smeared = layup.rib_section.si(**RIB | {"spacing": 0.15}).smeared
    ribbed = layup.ribbed_panel.si(height=0.5, spacing=0.15, bottom_pressure=8e3, top_pressure=8e3, stiffness=73.26, smeared=smeared)
    assert ribbed.deflection < plain.deflection / 4
    assert ribbed.deflection == ribbed.bay + ribbed.rib


def test_smeared_ribs_against_ribs_as_beams():
    """A wide panel, far from its sides: the smeared plate's middle is the ribs' own deflection, within 2 %."""
    smeared = layup.two_way_panel.si(height=1.0, width=4.0, bottom_pressure=1e4, top_pressure=1e4, stiffness_up=5000.0, stiffness_across=73.0,
                                     twist_stiffness=73.0)
    beams = layup.ribbed_panel.si(height=1.0, spacing=0.1, bottom_pressure=1e4, top_pressure=1e4, stiffness=73.0, smeared=5000.0)
    assert smeared.middle == within(beams.rib, 0.02)


FLAT = {"height": Q(0.8, "m"), "width": Q(0.5, "m"), "bottom_pressure": Q(1, "kPa"), "top_pressure": Q(0, "Pa"), "stiffness": Q(70, "N*m"),
        "thickness": Q(5, "mm"), "poisson_ratio": 0.3}
CURVED = {name: FLAT[name] for name in FLAT if name != "poisson_ratio"} | {"stretch_stiffness": Q(3e7, "N/m")}
REFUSED = [
    (lambda: layup.supported_panel(**FLAT | {"width": Q(0, "m")}), "width is 0 meter; it must be above 0."),
    (lambda: layup.clamped_panel(**FLAT | {"height": Q(float("nan"), "m")}), "height is nan"),
    (lambda: layup.supported_panel(**FLAT | {"bottom_pressure": Q(-1, "kPa")}), "bottom pressure is -1 kilopascal; it must be at least 0."),
    (lambda: layup.supported_panel(**FLAT | {"poisson_ratio": 0.6}), "poisson ratio is 0.6; it must be above -1 and at most 0.5."),
    (lambda: layup.clamped_coefficients(aspect=0.5, poisson_ratio=0.3), "aspect is 0.5; it must be at least 1 and at most 1000."),
    (lambda: layup.curved_panel(**CURVED, radius_across=Q(0, "m")), "radius across is 0 m; leave it out for a wall that is flat that way."),
    (lambda: layup.curved_panel(**CURVED | {"stiffness": Q(1e-6, "N*m")}, radius_up=Q(1, "mm")),
     "height is 800 mm; the wall is so thin for it that the edges are out of reach; take it as a ring or a ball."),
]


@pytest.mark.parametrize(("call", "says"), REFUSED)
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)
