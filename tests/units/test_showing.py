"""How values are said: as people at the bench say them. Conversions as in test_reading; wording is our own."""

import math

import pytest

from moldcalc.units import digits, editable, from_shown, show, shown, si_of, unit_in
from moldcalc.units.showing import UNITS
from tests.tables import within

IN, LB = 0.0254, 0.45359237

SAID = [
    # SI value        unit   metric          US customary
    (0.0047625, "mm", "4.8 mm", "3/16 in"),
    (0.005, "mm", "5 mm", "0.2 in"),  # 5 mm is not 3/16 in: it is 5 % more
    (0.003175, "mm", "3.2 mm", "1/8 in"),
    (0.006, "mm", "6 mm", "0.24 in"),
    (3.5 * IN, "mm", "88.9 mm", "3 1/2 in"),
    (2 * IN, "mm", "50.8 mm", "2 in"),
    (0.0001, "mm", "0.1 mm", "0.0039 in"),
    (0, "mm", "0 mm", "0 in"),
    (1.09, "mm", "1.09 m", "3.58 ft"),
    (0.9994, "m", "999 mm", "3.28 ft"),
    (0.00085, "kg", "0.850 g", "0.0300 oz"),
    (0.85, "kg", "850 g", "1 lb 14 oz"),
    (1.362, "kg", "1.36 kg", "3 lb"),
    (1.125 * LB, "kg", "510 g", "1 lb 2 oz"),
    (0.0996, "g", "99.6 g", "3.51 oz"),
    (16 / 16 * LB, "g", "454 g", "1 lb"),
    (45.0, "kg", "45.0 kg", "99.2 lb"),
    (30, "min", "30 s", "30 s"),
    (240, "min", "4 min", "4 min"),
    (2400, "min", "40 min", "40 min"),
    (9240, "min", "2 h 34 min", "2 h 34 min"),
    (7200, "h", "2 h", "2 h"),
    (57600, "h", "16 h", "16 h"),
    (4 * 86400, "h", "4.00 days", "4.00 days"),
    (292.15, "°C", "19 °C", "66.2 °F"),
    (305.372222222222, "°C", "32.2 °C", "90 °F"),
    (0.3, "%", "30 %", "30 %"),
    (math.pi / 4, "°", "45°", "45°"),
    (1.68, "m²", "1.68 m²", "18.1 ft²"),
    (0.45, "g/m²", "450 g/m²", "13.3 oz/yd²"),
    (1180, "kg/L", "1.18 kg/L", "73.7 lb/ft³"),
    (4, "", "4", "4"),
    (1.12, "", "1.12", "1.12"),
]


@pytest.mark.parametrize(("value", "unit", "metric", "us"), SAID)
def test_how_it_is_said(value, unit, metric, us):
    assert (show(value, unit), show(value, unit, "us")) == (metric, us)


@pytest.mark.parametrize(("value", "unit", "metric", "us"), [row for row in SAID if row[0] and row[1] in ("mm", "m", "kg", "g", "min", "h")])
def test_less_than_nothing_is_said_with_a_sign(value, unit, metric, us):
    assert (show(-value, unit), show(-value, unit, "us")) == (f"-{metric}", f"-{us}")


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("unit", UNITS)
def test_what_is_no_number_is_said_so(unit, system, value):
    assert "no number" in show(value, unit, system)


@pytest.mark.parametrize(("number", "places", "text"), [
    (1234.5, 3, "1234"), (0.012345, 3, "0.0123"), (9.996, 3, "10.0"), (0, 3, "0"), (5.0, 2, "5"), (-2.345, 3, "-2.35"), (math.nan, 3, "no number"),
])
def test_digits(number, places, text):
    assert digits(number, places) == text


@pytest.mark.parametrize(("value", "unit", "system", "text"), [
    (0.0047625, "mm", "us", "3/16 in"), (0.0889, "mm", "us", "3 1/2 in"), (0.005, "mm", "us", "0.19685 in"), (0.005, "mm", "metric", "5 mm"),
    (0.3, "%", "metric", "30 %"), (math.pi / 2, "°", "metric", "90°"), (292.15, "°C", "metric", "19 °C"), (1.06, "", "metric", "1.06"),
])
def test_text_for_a_field(value, unit, system, text):
    assert editable(value, unit, system) == text


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("unit", UNITS)
def test_shown_there_and_back(unit, system):
    assert from_shown(shown(1.7, unit, system), unit, system) == within(1.7, 1e-12)
    assert isinstance(si_of(unit), str) and isinstance(unit_in(unit, system), str)


@pytest.mark.parametrize(("value", "unit", "number", "source"), [
    (0.3048, "m", 1, "foot, 1959, exact"), (0.45359237, "kg", 1, "pound, 1959, exact"), (0.09290304, "m²", 1, "square foot, exact"),
    (231 * 0.0254**3, "L", 4, "gallon of 231 in³: four quarts"), (231 * 0.0254**3, "mL", 128, "and 128 fluid ounces"),
    (0.45359237 / 0.09290304, "kg/m²", 1, "lb/ft², exact"), (0.45359237 / 16 / 0.83612736, "g/m²", 1, "oz/yd², exact"),
    (0.45359237 * 9.80665, "N", 1, "pound-force at standard gravity, exact"),
    (0.45359237 * 9.80665 / 0.0254**2 * 1e6, "GPa", 1, "a million psi"), (273.15, "°C", 32, "freezing water"),
])
def test_us_customary_numbers(value, unit, number, source):
    assert shown(value, unit, "us") == within(number, 1e-9), source
