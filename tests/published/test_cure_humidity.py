"""Water in the air, against CoolProp and published values."""

import pytest
from CoolProp.CoolProp import PropsSI
from CoolProp.HumidAirProp import HAPropsSI

from moldcalc.stages import cure
from moldcalc.units import Q
from tests.tables import printed, within

ROOM = {"temperature": Q(23, "degC"), "relative_humidity": 0.50}


def test_the_standard_room():
    """23 °C, 50 %, 101.325 kPa: real moist air (ASHRAE RP-1485 by CoolProp) 10.330 g/m³, 1411.4 Pa, 12.03 °C; a plain
    formula may be 1 % off, and Magnus' gives 10.25; computed."""
    assert cure.absolute_humidity(**ROOM).m_as("g/m^3") == within(10.330, 0.01)
    assert cure.absolute_humidity(**ROOM).m_as("g/m^3") == printed("10.25")
    assert cure.vapour_pressure(**ROOM).m_as("Pa") == within(1411.4, 0.01)
    assert cure.dew_point(**ROOM).m_as("degC") == within(12.03, absolute=0.05)


@pytest.mark.parametrize("celsius", [0.1, 5, 10, 15, 20, 25, 30, 35, 40])
def test_saturation_against_the_steam_tables(celsius):
    """CoolProp's water (IAPWS-95); a plain formula may be 1 % off. Magnus' reads up to 0.32 % low here, at 30 °C."""
    expected = PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water")
    assert cure.saturation_pressure(temperature=Q(celsius, "degC")).m_as("Pa") == within(expected, 0.01)


@pytest.mark.parametrize("celsius", [5, 15, 23, 35])
@pytest.mark.parametrize("humidity", [0.2, 0.5, 0.9])
def test_moist_air_against_coolprop(celsius, humidity):
    """HAPropsSI at 101.325 kPa: 1 % for a plain saturation formula, 0.05 °C for the dew point."""
    state = ("T", celsius + 273.15, "R", humidity, "P", 101325)
    water = HAPropsSI("W", *state) / HAPropsSI("Vda", *state)
    air = {"temperature": Q(celsius, "degC"), "relative_humidity": humidity}
    assert cure.absolute_humidity(**air).m_as("kg/m^3") == within(water, 0.01)
    dew = HAPropsSI("Tdp", *state)
    if dew > 273.15:  # below it CoolProp gives the frost point
        assert cure.dew_point(**air).m_as("K") == within(dew, absolute=0.05)
