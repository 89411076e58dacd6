"""Loads of a poured cast: mixes, heads, the pull on joints, and the lift under an open base, against closed forms."""

from math import cos, pi

import pytest

from moldcalc.stages import handling
from moldcalc.units import Q
from tests.tables import printed, within

PLASTER = "1600 kg/m^3"
G = 9.80665

SLURRIES = [
    # water  kg/L      source
    (0.40, 1.83160, "volumes of plaster 2.75 and water 0.9982 kg/L, computed"),
    (0.70, 1.59640, "the same"),
    (0.90, 1.50167, "the same"),
]


@pytest.mark.parametrize(("ratio", "density", "source"), SLURRIES)
def test_slurry(ratio, density, source):
    found = handling.slurry_density(water_ratio=ratio, powder_density="2.75 kg/L", water_density="0.9982 kg/L")
    assert found.m_as("kg/L") == within(density, 1e-5), source


HEADS = [
    # m   kg/m³  Pa       source
    (1.0, 1600, 15690.6, "hydrostatics with g 9.80665, computed"),
    (2.0, 1600, 31381.3, "the same"),
    (1.0, 1100, 10787.3, "the same"),
]


@pytest.mark.parametrize(("depth", "density", "pressure", "source"), HEADS)
def test_head(depth, density, pressure, source):
    """Tolerance 1e-5."""
    entries = {"density": Q(density, "kg/m^3"), "height": "0 m"}
    assert handling.head_now(**entries, liquid_level=Q(depth, "m")).m_as("Pa") == within(pressure, 1e-5), source
    assert handling.greatest_head(**entries, full_height=Q(depth, "m")).m_as("Pa") == within(pressure, 1e-5), source


def test_side_wall():
    """b 0.6 m, H 1.8 m, 1600: 15 251.3 N at 0.6 m, 7625.65 N for each flange, 8472.95 N/m at the foot, 1e-5; computed."""
    wall = handling.side_wall(density=PLASTER, width="0.6 m", depth="1.8 m")
    assert wall.force.m_as("N") == within(15251.3, 1e-5)
    assert wall.centre.m_as("m") == within(0.6, 1e-5)
    assert wall.each_flange.m_as("N") == within(7625.65, 1e-5)
    assert wall.foot_line_load.m_as("N/m") == within(8472.95, 1e-5)
    joint = handling.separating_force(density=PLASTER, width="0.6 m", top_depth="0 m", bottom_depth="1.8 m")
    assert joint.each_flange.m_as("N") == within(7625.65, 1e-5)
    assert joint.centre_depth.m_as("m") == within(1.2, 1e-12)


def test_twelve_bolts():
    """The same wall, 12 bolts from the foot: 1217.986, 1112.074, 1006.162 ... 52.956 N, in all 7625.651, 1e-6; computed."""
    loads = [load.m_as("N") for load in handling.band_loads(density=PLASTER, width="0.6 m", depth="1.8 m", bolts=12)]
    assert loads[:3] == [within(1217.986, 1e-6), within(1112.074, 1e-6), within(1006.162, 1e-6)]
    assert loads[-1] == printed("52.956")
    assert sum(loads) == within(7625.651, 1e-6)
    assert loads[0] / (sum(loads) / 12) == printed("1.92")


ZONES = [0, 0.73485, 1.03923, 1.27279, 1.46969, 1.64317, 1.8]


def test_zones_of_equal_load():
    """6 zones over 1.8 m, 1e-5; computed."""
    depths = [depth.m_as("m") for depth in handling.equal_load_depths(depth="1.8 m", zones=6)]
    assert depths == [within(depth, 1e-5) for depth in ZONES]
    centres = [depth.m_as("m") for depth in handling.equal_load_centres(depth="1.8 m", zones=6)]
    for top, centre, bottom in zip(depths, centres, depths[1:], strict=False):
        joint = handling.separating_force.si(density=1600, width=0.6, top_depth=top, bottom_depth=bottom)
        assert joint.centre_depth == within(centre, 1e-12)
        assert joint.each_flange == within(7625.651 / 6, 1e-6)


def test_barrel():
    """D 0.8, H 1.5, 1100: 9708.58 N pull it apart, 6472.39 N/m round it at the foot, 1e-6; computed."""
    joint = handling.separating_by_widths(density="1100 kg/m^3", depths=["0 m", "1.5 m"], widths=["0.8 m", "0.8 m"])
    assert joint.force.m_as("N") == within(9708.58, 1e-6)
    wall = handling.side_wall(density="1100 kg/m^3", width="0.8 m", depth="1.5 m")
    assert wall.foot_line_load.m_as("N/m") == within(6472.39, 1e-6), "p R: the line load of the two seams"


def test_ball():
    """R 0.4, 1600, full to the pole: 3154.79 N on an upright cut, uplift of the upper half 1051.60, on the lower 5257.98, weight 4206.39;
    1e-6; computed, closed form rho g pi R³ (1, 1/3, 5/3, 4/3). The cut by 20 000 slices."""
    turns = [pi * i / 20000 for i in range(20001)]
    depths = [0.4 * (1 - cos(turn)) for turn in turns]
    widths = [2 * max(0.0, 0.16 - (0.4 - depth) ** 2) ** 0.5 for depth in depths]
    cut = handling.separating_by_widths.si(density=1600, depths=depths, widths=widths)
    assert cut.force == within(3154.79, 1e-6)
    upper = handling.uplift(density=PLASTER, base_area=Q(pi * 0.16, "m^2"), head="0.4 m", volume=Q(2 / 3 * pi * 0.064, "m^3"))
    weight = 1600 * G * 4 / 3 * pi * 0.064
    assert upper.force.m_as("N") == within(1051.60, 1e-6) or upper.force.m_as("N") == printed("1051.60")
    assert weight == within(4206.39, 1e-6)
    assert upper.force.m_as("N") + weight == within(5257.98, 1e-6)


def test_bell():
    """R 0.5, r 0.2, H 0.8 m, 1600, open base: V 0.326726 m³, 4732.19 N, as much as 483 kg, 1e-5; computed."""
    volume = handling.frustum_volume(base_radius="0.5 m", top_radius="0.2 m", height="0.8 m")
    assert volume.m_as("m^3") == within(0.326726, 1e-5)
    lift = handling.uplift(density=PLASTER, base_area=Q(pi * 0.25, "m^2"), head="0.8 m", volume=volume, held_down="20 kg")
    assert lift.force.m_as("N") == within(4732.19, 1e-5)
    assert lift.as_mass.m_as("kg") == printed("483")
    assert lift.missing_mass.m_as("kg") == printed("463")


def test_two_supports():
    """0.2071068 L, 0.0214466 w L², 1e-6; closed form."""
    best = handling.two_supports(length="1 m", line_load="1 N/m")
    assert best.overhang.m_as("m") == within(0.2071068, 1e-6)
    assert best.moment.m_as("N*m") == within(0.0214466, 1e-6) or best.moment.m_as("N*m") == printed("0.0214466")


def test_hare_poured_solid():
    """84 L over a plan of 0.32 m², 525 mm high, 2050 kg/m³, upright: lifted by what 172 kg under 344 kg leave; invented example, computed."""
    lift = handling.uplift(density="2050 kg/m^3", base_area="0.32 m^2", head="525 mm", volume="84 L", held_down="31 kg")
    assert lift.as_mass.m_as("kg") == within(2050 * (0.32 * 0.525 - 0.084), 1e-12)
    assert lift.as_mass.m_as("kg") == printed("172")
