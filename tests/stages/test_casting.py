"""Casts: a worked example whose figures are invented, published shrinkages, laws and wording."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import casting, handling
from moldcalc.units import Q
from tests.tables import printed, within

EXAMPLE = "worked example, invented"


def test_edition():
    """3 + 9 mm of fibre-cement at 2.0 kg/L on 1.68 m²: 40 kg; six 242 kg in place, 257 kg mixed at 6 %."""
    one = casting.cast_mass(area=Q(1.68, "m^2"), wall="12 mm", density=Q(2.0, "kg/L"))
    assert one.m_as("kg") == printed("40"), EXAMPLE
    assert casting.edition_mass(cast_mass=one, casts=6, loss_share=0).m_as("kg") == printed("242"), EXAMPLE
    assert casting.edition_mass(cast_mass=one, casts=6, loss_share=0.06).m_as("kg") == printed("257"), EXAMPLE


def test_poured_solid():
    """84 L at 2050 kg/m³, 525 mm high: 172 kg, 10.6 kPa, 1.9 kN on a flank of 0.39 m², 80 N for each of 24 bolts."""
    density = Q(2050, "kg/m^3")
    assert casting.solid_cast_mass(volume="84 L", density=density).m_as("kg") == printed("172"), EXAMPLE
    assert handling.head_pressure(density=density, depth="525 mm").m_as("kPa") == printed("10.6"), EXAMPLE
    thrust = handling.side_thrust(density=density, area=Q(0.39, "m^2"), mean_depth="245 mm")
    assert thrust.m_as("kN") == printed("1.9"), EXAMPLE
    assert thrust.m_as("N") / 24 == printed("80"), EXAMPLE


def test_gypsum_shell():
    """20 mm of gypsum at 1100 kg/m³ over 1.78 m²: 39 kg; computed."""
    assert casting.cast_mass(area=Q(1.78, "m^2"), wall="20 mm", density=Q(1100, "kg/m^3")).m_as("kg") == printed("39")


def test_head_of_concrete():
    """30 kPa is 1.27 m of 2400 kg/m³; computed."""
    assert handling.head_pressure(density=Q(2400, "kg/m^3"), depth="1.27 m").m_as("kPa") == printed("30")


JOINTS = [
    (0.70, 6, EXAMPLE), (1.25, 10, EXAMPLE), (1.05, 8, "the same: 1.05/0.15 is 7.000000000000001 in floats"),
]


@pytest.mark.parametrize(("length", "bolts", "source"), JOINTS)
def test_bolts_along(length, bolts, source):
    assert handling.bolts_along(length=Q(length, "m"), spacing="150 mm") == bolts, source


def test_bolts_in_all():
    assert sum(handling.bolts_along.si(length=length, spacing=0.15) for length, _, _ in JOINTS) == 24, EXAMPLE
    assert handling.bolts_round(length="2.7 m", spacing="200 mm") == 14, EXAMPLE


SHRUNK = [
    # mm   share   mm       source
    (1090, 0.003, "1086.7", EXAMPLE),
    (1090, 0.001, "1089", EXAMPLE),
    (1090, 0.010, "1079", EXAMPLE),
]


@pytest.mark.parametrize(("length", "share", "left", "source"), SHRUNK)
def test_shrunk_length(length, share, left, source):
    assert casting.shrunk_length(length=Q(length, "mm"), linear_shrinkage=share).m_as("mm") == printed(left), source


def test_mold_shrinks_and_plaster_grows():
    """1800 mm, mold 0.5 % smaller, plaster 0.2 % larger: 1794.582 mm, 1e-3 mm; computed."""
    mold = casting.shrunk_length(length="1800 mm", linear_shrinkage=0.005)
    assert casting.shrunk_length(length=mold, linear_shrinkage=-0.002).m_as("mm") == within(1794.582, absolute=1e-3)


@pytest.mark.parametrize(("volume", "linear", "tolerance", "source"), [
    (8, 2.74112, 1e-5, "geometry; computed"), (1, 0.3344507, 1e-6, "the same"), (0.1, 0.03334445, 1e-6, "the same"),
])
def test_linear_from_volume(volume, linear, tolerance, source):
    assert 100 * casting.linear_from_volume_shrinkage(volume_shrinkage=volume / 100) == within(linear, tolerance), source


def test_oversize():
    """0.5 % and 0.3 %: 1.0080493, 1e-7; computed."""
    assert casting.oversize(shrinkages=[0.005, 0.003]) == within(1.0080493, 1e-7)


def test_oversize_undoes_shrinkage():
    length = 1.5 * casting.oversize(shrinkages=[0.004, -0.002, 0.01])
    for share in (0.004, -0.002, 0.01):
        length = casting.shrunk_length.si(length=length, linear_shrinkage=share)
    assert length == within(1.5, 1e-12)


@given(length=st.floats(0.01, 50), spacing=st.floats(0.02, 0.5))
def test_no_two_bolts_are_further_apart(length, spacing):
    along = handling.bolts_along.si(length=length, spacing=spacing)
    assert length / (along - 1) <= spacing * (1 + 1e-8)
    assert along == 2 or length / (along - 2) > spacing * (1 - 1e-8)
    assert handling.bolts_round.si(length=length, spacing=spacing) == along - 1


@given(parts=st.integers(1, 5000), spacing=st.floats(0.001, 10))
def test_whole_parts_are_counted_whole(parts, spacing):
    assert handling.bolts_round.si(length=parts * spacing, spacing=spacing) == parts


@pytest.mark.parametrize(("call", "says"), [
    (lambda: handling.bolts_along(length="10000 m", spacing="1 mm"), "number of bolts is 1e+07; it must be at most 100000; check the sizes."),
    (lambda: casting.cast_mass(area="2 m", wall="12 mm", density=Q(2, "kg/L")), "area is 2 m; write an area"),
    (lambda: casting.edition_mass(cast_mass="40 kg", casts=6, loss_share=1), "loss share is 1; it must be at least 0 and below 1."),
    (lambda: casting.shrunk_length(length="1 m", linear_shrinkage=math.nan), "linear shrinkage is nan; it must be above -1 and below 1."),
])
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)
