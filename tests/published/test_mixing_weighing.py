"""What a scale resolves, against measurement guides, legal metrology and the uncertainties package."""

from math import hypot, sqrt

import pytest
from uncertainties import ufloat

from moldcalc.stages import mixing
from moldcalc.units import Q
from tests.tables import printed, within

JCGM = "JCGM 100:2008, F.2.2.1 (from memory); 0.29 d in NISTIR 6969, SOP 29 (verified); computed"


@pytest.mark.parametrize(("readings", "grams", "source"), [(1, 0.2886751, JCGM), (2, 0.4082483, JCGM)])
def test_readability(readings, grams, source):
    found = mixing.readability_uncertainty(readability=Q(1, "g"), readings=readings)
    assert found.m_as("g") == within(grams, 1e-6), source
    if readings == 1:
        assert found.m_as("g") == printed("0.29"), source


def test_a_published_budget():
    """University of Tartu, simple weighing: repeatability 0.00017 g, drift 0.0002 g and readability 0.00005 g (half widths)
    give 2.07525e-4 g, tolerance 1e-9 g (verified and recomputed)."""
    readability = mixing.readability_uncertainty(readability=Q(0.0001, "g"), readings=1).m_as("g")
    assert hypot(0.00017, 0.0002 / sqrt(3), readability) == within(2.07525e-4, absolute=1e-9)


EACH = Q(1 / sqrt(6), "g")


def test_ratio():
    """500 g and 25 g on a scale of 1 g, both tared: 1.63503 %, with k = 2 3.27007 %; tolerance 1e-4; computed."""
    found = mixing.ratio_uncertainty(base_mass=Q(500, "g"), part_mass=Q(25, "g"), base_uncertainty=EACH, part_uncertainty=EACH)
    assert 100 * found == within(1.63503, 1e-4)
    assert 200 * found == within(3.27007, 1e-4)


@pytest.mark.parametrize(("base", "part", "of_base", "of_part"), [(500, 25, 0.4, 0.4), (80, 8, 0.3, 0.02), (1000, 1000, 3, 1)])
def test_ratio_against_error_propagation(base, part, of_base, of_part):
    """The uncertainties package, linear propagation."""
    ratio = ufloat(part, of_part) / ufloat(base, of_base)
    found = mixing.ratio_uncertainty(base_mass=Q(base, "g"), part_mass=Q(part, "g"), base_uncertainty=Q(of_base, "g"),
                                     part_uncertainty=Q(of_part, "g"))
    assert found == within(ratio.std_dev / ratio.nominal_value, 1e-12)


def test_smallest_batch():
    """5 % at k = 2, ratio 0.05, 1 g, both tared: 327.007 g of base and 16.350 g of catalyst, tolerance 0.01 g; computed."""
    base = mixing.smallest_batch(ratio=0.05, readability=Q(1, "g"), tolerance=0.05)
    assert base.m_as("g") == within(327.007, absolute=0.01)
    part = mixing.part_for(base_mass=base, base_parts=1, part_parts=0.05)
    assert part.m_as("g") == within(16.350, absolute=0.01)
    back = mixing.ratio_uncertainty(base_mass=base, part_mass=part, base_uncertainty=EACH, part_uncertainty=EACH)
    assert 2 * back == within(0.05, 1e-12)
    assert mixing.least_by_scale(ratio=0.05, readability=Q(1, "g"), tolerance=0.05).m_as("g") == within(327.007 + 16.350, absolute=0.02)


def test_catalyst_on_a_scale_of_one_gram():
    """5 g by two readings: 0.82 g either way with k = 2, 16 %; computed."""
    u = mixing.readability_uncertainty(readability=Q(1, "g"), readings=2).m_as("g")
    assert 2 * u == printed("0.82")
    assert 100 * 2 * u / 5 == printed("16")


def test_worst_case():
    """One error of 1 g (class III, e = 1 g, in service, up to 500 e) at most 5 % of the catalyst, ratio 0.05: 20 g and 400 g; computed."""
    error = mixing.oiml_r76_error(divisions=20, accuracy_class="III", in_service=True)
    part = mixing.worst_case_smallest_part(error=Q(error, "g"), tolerance=0.05)
    assert part.m_as("g") == within(20, 1e-12)
    assert mixing.base_for_part(part_mass=part, base_parts=1, part_parts=0.05).m_as("g") == within(400, 1e-12)
    assert not mixing.below_minimum_load(load=part, verification_interval=Q(1, "g"))


R76 = "OIML R 76-1, table 6 (verified); the boundary belongs to the lower step"
CLASSES = [
    ("III", 0, 0.5, R76), ("III", 500, 0.5, R76), ("III", 501, 1.0, R76), ("III", 2000, 1.0, R76), ("III", 2001, 1.5, R76),
    ("III", 10_000, 1.5, R76), ("II", 5_000, 0.5, R76), ("II", 20_000, 1.0, R76), ("II", 100_000, 1.5, R76),
    ("IIII", 50, 0.5, R76), ("IIII", 200, 1.0, R76), ("IIII", 1_000, 1.5, R76),
]


@pytest.mark.parametrize(("name", "divisions", "error", "source"), CLASSES)
def test_errors_of_verified_scales(name, divisions, error, source):
    assert mixing.oiml_r76_error(divisions=divisions, accuracy_class=name) == error, source


HB44 = "NIST Handbook 44, scales, class III maintenance (last two rows and break points verified, first two twice the acceptance)"


@pytest.mark.parametrize(("divisions", "error", "source"), [
    (500, 1, HB44), (501, 2, HB44), (2000, 2, HB44), (2001, 3, HB44), (4000, 3, HB44), (4001, 5, HB44), (10_000, 5, HB44),
])
def test_errors_in_use(divisions, error, source):
    assert mixing.hb44_maintenance_error(divisions=divisions) == error, source


def test_the_handbooks_own_example():
    """150 lb on 0.05 lb, so n = 3000: 3 d = 0.15 lb (verified and recomputed)."""
    assert 0.05 * mixing.hb44_maintenance_error(divisions=round(150 / 0.05)) == within(0.15, 1e-12)


@pytest.mark.parametrize(("load", "below", "source"), [(19.9, True, "OIML R 76-1, table 3: 20 e (verified)"), (20, False, "the same")])
def test_least_load(load, below, source):
    assert mixing.below_minimum_load(load=Q(load, "g"), verification_interval=Q(1, "g")) is below, source
