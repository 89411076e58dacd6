"""Heat of setting as a bound, against worked figures."""

from moldcalc.stages import casting
from moldcalc.units import Q
from tests.tables import within


def test_epoxy_that_keeps_its_heat():
    """DETA 20.6 with an EEW of 190 at 105 kJ for each equivalent: 498.576 J/g of mix (0.01); at 1.9 J/g/K 262.41 K (0.01); computed."""
    heat = casting.heat_of_mix(heat="105 kJ/mol", equivalents=[Q(190, "g/mol"), Q(20.6, "g/mol")])
    assert heat.m_as("J/g") == within(498.576, absolute=0.01)
    warming = casting.most_warming(heat=heat, reacting_share=1, heat_capacity=Q(1.9, "J/g/K"))
    assert warming.m_as("K") == within(262.41, absolute=0.01)


def test_a_filled_resin():
    """Fibre 52 % of volume, resin 1272 kg/m³ and 473.6 kJ/kg, composite 1578 kg/m³ and 862 J/kg/K: 212.58 K (0.01); set verified, computed."""
    warming = casting.most_warming(heat=Q(473.6, "kJ/kg"), reacting_share=(1 - 0.52) * 1272 / 1578, heat_capacity=Q(862, "J/kg/K"))
    assert warming.m_as("K") == within(212.58, absolute=0.01)
