"""Mix ratios, stoichiometry and losses, against a handbook, the chemicals package and worked examples."""

import pytest
from chemicals import MW, CAS_from_any

from moldcalc.stages import mixing
from moldcalc.units import Q
from tests.tables import printed, within

HANDBOOK = "adhesive technology handbook, text (verified)"

PHR = [
    # AHEW   EEW  phr      tolerance  source
    (20.6, 190, 10.8421, 1e-4, "computed"),
    (24.4, 190, 12.8421, 1e-4, "computed"),
    (20.6, 200, 10.3, 1e-9, HANDBOOK),
]


@pytest.mark.parametrize(("amine", "epoxide", "phr", "tolerance", "source"), PHR)
def test_parts_per_hundred(amine, epoxide, phr, tolerance, source):
    found = mixing.parts_per_hundred_resin(amine_equivalent=Q(amine, "g/mol"), epoxide_equivalent=Q(epoxide, "g/mol"))
    assert found == within(phr, tolerance), source


def test_a_filled_blend():
    """80 parts at 189, 10 at 183, 10 of filler; the handbook prints 209 and, with an amine of 43, 20.6 (verified and recomputed)."""
    blend = mixing.blend_epoxide_equivalent(masses=[Q(80, "g"), Q(10, "g")], equivalents=[Q(189, "g/mol"), Q(183, "g/mol")], inert_mass=Q(10, "g"))
    assert blend.m_as("g/mol") == within(209.2377, 1e-3)
    assert blend.m_as("g/mol") == printed("209")
    phr = mixing.parts_per_hundred_resin(amine_equivalent=Q(43, "g/mol"), epoxide_equivalent=blend)
    assert phr == within(20.5508, 1e-3)
    rounded = mixing.parts_per_hundred_resin(amine_equivalent=Q(43, "g/mol"), epoxide_equivalent=Q(209, "g/mol"))
    assert rounded == printed("20.6"), "the book goes on from its rounded 209"


MOLECULES = [
    # name                  H   g/mol each  source
    ("diethylenetriamine", 5, 20.6332, "molar mass by the chemicals package; computed"),
    ("triethylenetetramine", 6, 24.3723, "the same"),
    ("bisphenol A diglycidyl ether", 2, 170.206, "the same: two epoxides on a pure molecule"),
]


@pytest.mark.parametrize(("name", "groups", "each", "source"), MOLECULES)
def test_equivalents_from_molar_mass(name, groups, each, source):
    found = mixing.amine_equivalent_weight(molar_mass=Q(MW(CAS_from_any(name)), "g/mol"), active_hydrogens=groups)
    assert found.m_as("g/mol") == within(each, 1e-4), source


def test_the_handbook_rounds_the_molar_mass():
    found = mixing.amine_equivalent_weight(molar_mass=Q(103, "g/mol"), active_hydrogens=5)
    assert found.m_as("g/mol") == printed("20.6"), HANDBOOK


def test_volume_from_weight():
    """100:10 by weight of 1.15 and 0.98 kg/L is 100:11.7347 by volume; computed, 1e-4."""
    densities = {"base_density": Q(1.15, "kg/L"), "part_density": Q(0.98, "kg/L")}
    volume = mixing.volume_ratio_from_weight(weight_ratio=0.10, **densities)
    assert 100 * volume == within(11.7347, 1e-4)
    assert mixing.weight_ratio_from_volume(volume_ratio=volume, **densities) == within(0.10, 1e-12)


BY_VOLUME = [
    # parts  kg/L A  kg/L B  parts by weight really  per cent short  source
    (5, 1.20, 0.98, "4.08", "18", "a ratio by weight measured by volume; computed"),
    (30, 1.15, 0.98, "25.6", "15", "the same; computed"),
]


@pytest.mark.parametrize(("parts", "base", "part", "really", "short", "source"), BY_VOLUME)
def test_weight_read_as_volume(parts, base, part, really, short, source):
    densities = {"base_density": Q(base, "kg/L"), "part_density": Q(part, "kg/L")}
    assert 100 * mixing.weight_ratio_from_volume(volume_ratio=parts / 100, **densities) == printed(really), source
    assert -100 * mixing.volume_read_as_weight_error(**densities) == printed(short), source


def test_the_usual_ratio():
    """100:10 by weight: common practice, no source."""
    assert mixing.part_for(base_mass="500 g", base_parts=100, part_parts=10).m_as("g") == within(50, 1e-12)
    assert mixing.base_for_part(part_mass="50 g", base_parts=100, part_parts=10).m_as("g") == within(500, 1e-12)


CUPS = [
    # kg    mm   0.3 mm   1.0 mm  source
    (0.5, 67, "2.0", "6.8", "film of 0.3 to 1.0 mm in a straight cup, rubber of 1.18 kg/L: common practice, no source; computed"),
    (1.0, 90, "1.6", "5.2", "the same"),
    (2.5, 140, "1.1", "3.6", "the same"),
    (8.0, 220, "0.7", "2.4", "the same"),
]


@pytest.mark.parametrize(("mass", "width", "thin", "thick", "source"), CUPS)
def test_what_a_cup_keeps(mass, width, thin, thick, source):
    for film, share in ((0.3, thin), (1.0, thick)):
        left = mixing.cup_film_mass(film=Q(film, "mm"), cup_diameter=Q(width, "mm"), mass=Q(mass, "kg"), density=Q(1.18, "kg/L"))
        assert 100 * mixing.loss_share(left=left, mixed=Q(mass, "kg")) == printed(share), source


def test_what_cup_and_brush_keep():
    """Plus 20 to 40 g in the brush: common practice, no source."""
    cup = {"film": Q(0.3, "mm"), "cup_diameter": Q(67, "mm"), "mass": Q(0.5, "kg"), "density": Q(1.18, "kg/L")}
    left = mixing.batch_loss(**cup, brush=Q(20, "g"))
    assert left.m_as("g") == within(mixing.cup_film_mass(**cup).m_as("g") + 20, 1e-12)


def test_share_of_the_mixed_mass():
    """18.7 kg on the mold of 20.2 kg mixed, coats and paste, is 7.8 % lost: worked example, invented (18.66 of 20.24 unrounded)."""
    assert 100 * mixing.loss_share(left=Q(20.24 - 18.66, "kg"), mixed=Q(20.24, "kg")) == printed("7.8")
