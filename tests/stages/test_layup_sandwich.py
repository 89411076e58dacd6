"""Sandwich: scaling laws, a core of nothing, and the wording of what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import layup
from moldcalc.units import Q
from tests.tables import within

SI = {"facing_modulus": 6.4e9, "facing_thickness": 0.002, "core_thickness": 0.015, "core_modulus": 55e6}
FACTOR = st.floats(0.2, 5)


@given(factor=FACTOR)
def test_all_thicknesses_scaled(factor):
    bigger = SI | {"facing_thickness": factor * 0.002, "core_thickness": factor * 0.015}
    assert layup.sandwich_stiffness.si(**bigger) == within(factor**3 * layup.sandwich_stiffness.si(**SI), 1e-9)
    assert layup.thin_face_error.si(**bigger) == within(layup.thin_face_error.si(**SI), 1e-9)


@given(other=st.floats(1e-4, 0.01), core=st.floats(0, 0.05))
def test_the_facings_may_change_places(other, core):
    one = layup.sandwich_stiffness.si(**SI | {"core_thickness": core}, other_facing_thickness=other)
    turned = layup.sandwich_stiffness.si(**SI | {"core_thickness": core, "facing_thickness": other}, other_facing_thickness=0.002)
    assert one == within(turned, 1e-9)


def test_equal_facings_said_twice():
    assert layup.sandwich_stiffness.si(**SI, other_facing_thickness=0.002) == within(layup.sandwich_stiffness.si(**SI), 1e-12)


@given(share=st.floats(0.05, 0.95))
def test_uneven_facings_are_softer(share):
    """The same glass split unevenly is never stiffer, without a core's own stiffness."""
    even = SI | {"core_modulus": 0.0}
    uneven = layup.sandwich_stiffness.si(**even | {"facing_thickness": 0.004 * share}, other_facing_thickness=0.004 * (1 - share))
    assert uneven <= layup.sandwich_stiffness.si(**even) * (1 + 1e-9)


@given(core=st.floats(1e-6, 0.05))
def test_more_core_is_stiffer(core):
    def stiff(thickness):
        return layup.sandwich_stiffness.si(**SI | {"core_thickness": thickness})

    assert stiff(0.0) < stiff(core) < stiff(1.1 * core)


@given(stiffness=st.floats(50, 1e5))
def test_core_there_and_back(stiffness):
    core = layup.core_for_stiffness.si(stiffness=stiffness, facing_modulus=6.4e9, facing_thickness=0.002)
    found = layup.sandwich_stiffness.si(**SI | {"core_thickness": core, "core_modulus": 0.0})
    assert found == within(stiffness, 1e-9)


def test_no_core_needed():
    assert layup.core_for_stiffness.si(stiffness=1.0, facing_modulus=6.4e9, facing_thickness=0.002) == 0


@given(factor=FACTOR)
def test_deflections_scale(factor):
    load = {"span": 0.6, "stiffness": 1873.6, "shear_stiffness": 423_866.7}
    for strip in (layup.supported_strip.si, layup.clamped_strip.si):
        one, more, longer = strip(pressure=1e4, **load), strip(pressure=factor * 1e4, **load), strip(pressure=1e4, **load | {"span": factor * 0.6})
        assert more.total == within(factor * one.total, 1e-9)
        assert (longer.bending, longer.shear) == (within(factor**4 * one.bending, 1e-9), within(factor**2 * one.shear, 1e-9))
        assert strip(pressure=1e4, span=0.6, stiffness=1873.6).shear == 0


REFUSED = [
    (lambda: layup.sandwich_stiffness(facing_modulus=Q(6.4, "GPa"), facing_thickness=Q(0, "mm"), core_thickness=Q(1, "mm"), core_modulus=Q(0, "Pa")),
     "facing thickness is 0 millimeter; it must be above 0."),
    (lambda: layup.sandwich_stiffness(facing_modulus=Q(6.4, "GPa"), facing_thickness=Q(1, "mm"), core_thickness=Q(-1, "mm"), core_modulus=Q(0, "Pa")),
     "core thickness is -1 millimeter; it must be at least 0."),
    (lambda: layup.supported_strip(pressure=Q(1, "kPa"), span=Q(0, "m"), stiffness=Q(1, "N*m")), "span is 0 meter; it must be above 0."),
    (lambda: layup.supported_strip(pressure=Q(float("inf"), "kPa"), span=Q(1, "m"), stiffness=Q(1, "N*m")), "pressure is inf"),
    (lambda: layup.wrinkling_stress(facing_modulus=Q(6.4, "GPa"), core_modulus=Q(55, "MPa"), core_shear_modulus=Q(0, "MPa"), factor=0.5),
     "core shear modulus is 0 megapascal; it must be above 0."),
]


@pytest.mark.parametrize(("call", "says"), REFUSED)
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)
