"""How a mix thickens, against computed values of the published formulas."""

import pytest
from scipy.optimize import brentq

from moldcalc.stages import cure
from moldcalc.units import Q
from tests.tables import within

CM = "Castro and Macosko, AIChE J. 28 (1982) 250-260, a fast urethane: gel 0.65, A 1.5, B 1.0 (from memory); computed"
URETHANE = {"gel_conversion": 0.65, "a": 1.5, "b": 1.0}


@pytest.mark.parametrize(("conversion", "ratio", "source"), [(0.1, 1.306415, CM), (0.3, 3.047345, CM), (0.5, 18.777778, CM)])
def test_castro_macosko(conversion, ratio, source):
    assert cure.castro_macosko(conversion=conversion, **URETHANE) == within(ratio, 1e-6), source


@pytest.mark.parametrize(("ratio", "conversion", "source"), [(2, 0.2160016, CM), (10, 0.4503846, CM)])
def test_conversion_at_viscosity_ratio(ratio, conversion, source):
    assert cure.conversion_at_viscosity_ratio(viscosity_ratio=ratio, **URETHANE) == within(conversion, 1e-6), source


@pytest.mark.parametrize(("a", "b"), [(1.0, -1.2), (3.0, -3.0), (1.0, 3.0), (2.0, 0.0)])
@pytest.mark.parametrize("ratio", [1.5, 4.0, 100.0])
def test_conversion_against_a_root_finder(ratio, a, b):
    """scipy.optimize.brentq, where the curve rises all the way."""
    expected = brentq(lambda x: (0.6 / (0.6 - x)) ** (a + b * x) - ratio, 0, 0.6 - 1e-12, xtol=1e-15)
    found = cure.conversion_at_viscosity_ratio(viscosity_ratio=ratio, gel_conversion=0.6, a=a, b=b)
    assert found == within(expected, 1e-9)


@pytest.mark.parametrize(("celsius", "viscosity", "source"), [(40, 0.797450, CM), (25, 1.771268, CM)])
def test_initial_viscosity(celsius, viscosity, source):
    found = cure.initial_viscosity(temperature=Q(celsius, "degC"), prefactor=Q(10.3e-8, "Pa*s"), flow_energy=Q(41.3, "kJ/mol"))
    assert found.m_as("Pa*s") == within(viscosity, 1e-5), source


def test_time_to_viscosity():
    """Doubling in 30 min, from 25 to 60 Pa s: 37.891 min, tolerance 1e-3; computed."""
    found = cure.time_to_viscosity(doubling_time="30 min", initial_viscosity=Q(25, "Pa*s"), limit_viscosity=Q(60, "Pa*s"))
    assert found.m_as("min") == within(37.891, 1e-3)
