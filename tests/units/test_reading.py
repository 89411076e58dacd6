"""What makers type, and the quantity it is.

Conversions: the international yard and pound agreement of 1959 (1 in = 25.4 mm, 1 lb = 453.59237 g, both exact)
and the US gallon of 231 cubic inches (NIST Handbook 44, Appendix C), both from memory; the rest is arithmetic on them.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.job.entry import Entry
from moldcalc.units import Span, parse, read, read_clock, read_ratio, read_span, si_of
from moldcalc.units.reading import LONGEST, NotAQuantity
from moldcalc.units.showing import UNITS, editable
from tests.tables import within

EXACT = 1e-12  # relative: exact but for the last bits of a float
INCH, POUND, GALLON = 25.4, 453.59237, 231 * 2.54**3  # mm, g, mL

TYPED = [
    # typed               in       value                         source
    ("3/16 in", "mm", 4.7625, "3/16 of 25.4, exact"),
    ("½ in", "mm", 12.7, "exact"),
    ("3½ in", "mm", 88.9, "exact"),
    ("3 1/2 in", "mm", 88.9, "exact"),
    ("3-1/2 in", "mm", 88.9, "exact"),
    ('3 1/2"', "mm", 88.9, "exact"),
    ("1⁄4 in", "mm", 6.35, "exact; with the fraction slash"),
    ("30 mil", "mm", 0.762, "a thousandth of an inch, exact"),
    ("5 ft 4 in", "mm", 64 * INCH, "64 inches"),
    ("5' 4\"", "mm", 64 * INCH, "64 inches"),
    ("5′ 4″", "mm", 64 * INCH, "64 inches, with primes"),
    ("-5 ft 4 in", "mm", -64 * INCH, "the sign is of the whole"),
    ("1 yd", "m", 0.9144, "agreement of 1959, exact"),
    ("1,5 mm", "mm", 1.5, "decimal comma"),
    (".5 mm", "mm", 0.5, "no leading zero"),
    ("0,500 kg", "g", 500, "a comma after 0 can only be a decimal comma"),
    ("−3 °C", "K", 270.15, "0 °C is 273.15 K by definition; with the minus sign of print"),
    ("28 °C", "K", 301.15, "the same"),
    ("28C", "K", 301.15, "the same"),
    ("82 °F", "K", (82 + 459.67) / 1.8, "definition of the Fahrenheit degree, exact"),
    ("2 1/2 lb", "g", 2.5 * POUND, "exact"),
    ("1 lb 2 oz", "g", 18 / 16 * POUND, "exact"),
    ("5#", "g", 5 * POUND, "the trade's sign for pound"),
    ("1.5 oz/ft²", "g/m^2", 1.5 * POUND / 16 / 0.09290304, "1 oz/ft² = 305.1517 g/m²"),
    ("18 oz/yd²", "g/m^2", 2 * POUND / 16 / 0.09290304, "18 oz/yd² is 2 oz/ft²: nine square feet to the square yard"),
    ("450 gsm", "g/m^2", 450, "word of the trade"),
    ("450 g per m2", "g/m^2", 450, "spelled out"),
    ("10 fl oz", "mL", 10 * GALLON / 128, "295.735 mL"),
    ("1 gal", "mL", GALLON, "231 cubic inches"),
    ("2 qt", "L", GALLON / 2000, "a quart is a quarter of a gallon"),
    ("1.18 g/cm³", "kg/m^3", 1180, "exact"),
    ("74 lb/ft³", "kg/m^3", 74 * POUND / 1000 / 0.3048**3, "exact"),
    ("30000 cP", "Pa*s", 30, "1 cP = 1 mPa s, exact"),
    ("30 Pa·s", "Pa*s", 30, "exact"),
    ("0.03 m²/min", "m^2/s", 0.0005, "exact"),
    ("1 h 30 min", "s", 5400, "exact"),
    ("1 d 2 h", "s", 93600, "exact"),
    ("45°", "rad", math.pi / 4, "exact"),
    ("30 %", "", 0.3, "exact"),
    ("1e3 mm", "m", 1, "exact"),
]


@pytest.mark.parametrize(("typed", "unit", "value", "source"), TYPED)
def test_what_makers_type(typed, unit, value, source):
    assert read(typed, unit) == within(value, EXACT), source


@pytest.mark.parametrize(("typed", "unit", "printed_value"), [
    ("1 oz/ft²", "g/m^2", 305.1517), ("1.5 oz/ft²", "g/m^2", 457.7276), ("10 fl oz", "mL", 295.735),
])
def test_printed_figures(typed, unit, printed_value):
    places = len(str(printed_value).partition(".")[2])
    assert read(typed, unit) == within(printed_value, absolute=0.5 * 10.0**-places)


@pytest.mark.parametrize(("typed", "unit", "says"), [
    ("450", "mm", "this entry is 450; it has no unit; write a length, like 6 mm or 1/4 in."),
    ("5 kg", "mm", "this entry is 5 kg; write a length, like 6 mm or 1/4 in."),
    ("5 mm", "K", "this entry is 5 mm; write a temperature"),
    ("5 mm", "", "this entry is 5 mm; write a plain number, like 0.30 or 30 %."),
    ("45", "rad", "it has no unit; write an angle"),
    ("", "mm", "this entry is empty; nothing is written there"),
    ("   ", "mm", "this entry is empty; nothing is written there"),
    ("1,500 g", "g", "a comma before three digits can be read in two ways; write 1500 or 1.500"),
    ("5 furlong", "mm", "'furlong' is not a unit known here"),
    ("nan", "mm", "it is not a number with a unit"),
    ("nan mm", "mm", "it is not a number with a unit"),
    ("inf mm", "mm", "it is not a number with a unit"),
    ("1e400 mm", "mm", "the number is too large to calculate with"),
    ("1e308 yd", "mm", "the number is too large to calculate with"),
    ("3/0 in", "mm", "a fraction can't have 0 below the line"),
    ("5 mm 3 kg", "mm", "it holds more than one quantity"),
    ("5 in 4 ft", "mm", "it holds more than one quantity"),
    ('__import__("os")', "mm", "it is not a number with a unit"),
    ("2**3 mm", "mm", "it "),
    ("5 mm; import os", "mm", "is not a unit known here"),
    ("5 mm*°C/K", "mm", "is not a unit known here"),
    ("1" * 81 + " mm", "mm", f"write a number and a unit in at most {LONGEST} characters"),
    ("5 " + "m" * 10_000, "mm", f"in at most {LONGEST} characters"),
    ("5 " + "m*" * 5_000, "mm", f"in at most {LONGEST} characters"),
    ("5 m" + "^9" * 30, "mm", "it "),
])
def test_what_is_refused_and_how(typed, unit, says):
    with pytest.raises(EntryError) as refused:
        read(typed, unit)
    assert says in str(refused.value)
    assert len(str(refused.value)) < 250 and "\n" not in str(refused.value)


@pytest.mark.parametrize(("typed", "says"), [
    ("16 oz", "it could be ounces by weight or fluid ounces; write 16 oz wt or 16 fl oz"),
    ("16 ounces", "it could be ounces by weight or fluid ounces"),
])
def test_ounces_of_a_liquid_are_asked_about(typed, says):
    with pytest.raises(EntryError, match=says):
        read(typed, "kg", liquid=True, entry="base poured")
    assert read("16 oz wt", "g", liquid=True) == within(POUND, EXACT)
    assert read("16 oz", "g") == within(POUND, EXACT)


@pytest.mark.parametrize(("typed", "form", "says"), [
    ("1.5 oz/yd²", "mat", "mat is sold in oz/ft²: if 1.5 oz/ft² (458 g/m²) was meant"),
    ("10 oz/ft²", "cloth", "cloth is sold in oz/yd²: if 10 oz/yd² (339 g/m²) was meant"),
    ("10 oz", "cloth", "write 10 oz/yd² or 10 oz/ft²"),
])
def test_ounces_of_glass_on_the_wrong_area(typed, form, says):
    with pytest.raises(EntryError) as refused:
        read(typed, "g/m^2", reinforcement=form)
    assert says in str(refused.value)


def test_ounces_of_glass_on_the_right_area():
    assert read("1.5 oz/ft²", "g/m^2", reinforcement="mat") == within(457.7276, absolute=5e-5)
    assert read("10 oz/yd²", "g/m^2", reinforcement="cloth") == within(10 * POUND / 16 / 0.83612736, EXACT)


@pytest.mark.parametrize(("typed", "unit", "low", "likely", "high"), [
    ("5 to 7 mm", "mm", 5, 6, 7),
    ("5 mm to 7 mm", "mm", 5, 6, 7),
    ("5–7 mm", "mm", 5, 6, 7),
    ("5 mm … 7 mm", "mm", 5, 6, 7),
    ("1/4 to 1/2 in", "mm", 6.35, 9.525, 12.7),
    ("40 to 70 %", "", 0.4, 0.55, 0.7),
    ("1.68 m² ± 8 %", "m^2", 1.5456, 1.68, 1.8144),
    ("19 ± 2 °C", "K", 290.15, 292.15, 294.15),
    ("66 °F ± 9 °F", "K", (57 + 459.67) / 1.8, (66 + 459.67) / 1.8, (75 + 459.67) / 1.8),
    ("19 +/- 2 °C", "K", 290.15, 292.15, 294.15),
    ("0.3 ± 0.1", "", 0.2, 0.3, 0.4),
    ("5 ft 4 in ± 10 %", "mm", 57.6 * INCH, 64 * INCH, 70.4 * INCH),
    ("1 h 30 min ± 10 min", "s", 4800, 5400, 6000),
    ("20 °C to 70 °F", "K", 293.15, None, (70 + 459.67) / 1.8),
])
def test_spans(typed, unit, low, likely, high):
    span = read_span(typed, unit)
    assert isinstance(span, Span)
    assert (span.low, span.high) == (within(low, EXACT), within(high, EXACT))
    assert likely is None or float(span) == within(likely, EXACT)


@pytest.mark.parametrize(("typed", "unit", "says"), [
    ("7 to 5 mm", "mm", "write the lower end first"),
    ("5 to mm", "mm", "it has no unit"),
    ("5 to 7 kg", "mm", "write a length"),
    ("5 mm ± 2 kg", "mm", "write the spread in the same unit, or in %"),
    ("5 mm ± -2 mm", "mm", "write it like 1.68 m² ± 8 % or 19 ± 2 °C"),
    ("5 mm ± nan", "mm", "write it like 1.68 m² ± 8 % or 19 ± 2 °C"),
    ("5 mm ± ", "mm", "write it like"),
    ("± 5 mm", "mm", "write it like"),
])
def test_spans_that_are_refused(typed, unit, says):
    with pytest.raises(EntryError) as refused:
        read_span(typed, unit)
    assert says in str(refused.value)


def test_a_span_of_nothing_is_a_plain_value():
    assert type(read_span("5 to 5 mm", "mm")) is float
    assert type(read_span("5 mm ± 0 %", "mm")) is float


@pytest.mark.parametrize(("typed", "parts", "basis"), [
    ("100:10", (100, 10), ""), ("100:10 by weight", (100, 10), "weight"), ("1:1 by volume", (1, 1), "volume"),
    ("100 : 2,5 mass", (100, 2.5), "weight"), ("100:50:3", (100, 50, 3), ""),
])
def test_ratios(typed, parts, basis):
    assert read_ratio(typed) == (parts, basis)


@pytest.mark.parametrize("typed", ["", "10", "100:0", "100:-5", "a:b", "1:2:3:4", "1..2:3", "9999999:1", "1:" + "1" * 10_000, "0.0000001:1"])
def test_ratios_that_are_refused(typed):
    with pytest.raises(EntryError, match="write two or three parts above 0, like 100:10 by weight or 1:1 by volume"):
        read_ratio(typed)


@pytest.mark.parametrize(("typed", "seconds"), [
    ("09:30", 34200), ("9:30 am", 34200), ("4:10 pm", 58200), ("12:00 am", 0), ("12:00 pm", 43200), ("00:00", 0), ("23:59", 86340),
])
def test_clocks(typed, seconds):
    assert read_clock(typed) == seconds


@pytest.mark.parametrize("typed", ["", "9", "24:00", "9:60", "13:00 pm", "0:30 am", "9:3", "nan", "9:30" * 5_000])
def test_clocks_that_are_refused(typed):
    with pytest.raises(EntryError, match="write a clock time, like 09:30 or 4:10 pm"):
        read_clock(typed)


PIECES = st.lists(st.sampled_from(["1", "2.5", "3/16", "½", ",", "1e9", "e", "in", "ft", "'", '"', "mm", "°C", "K", "kg", "oz", "/", "*", "^", "2",
                                   "³",
                                   "-", "+", "±", "to", "–", " ", "%", ":", "h", "min", "°", "Pa", "·", "nan", "٣", "\x00", "=", "("]), max_size=9)
ANYTHING = st.one_of(st.text(max_size=100), PIECES.map(" ".join), PIECES.map("".join))


@settings(max_examples=400, deadline=None, derandomize=True)
@given(text=ANYTHING, unit=st.sampled_from(["m", "m^2", "kg", "s", "K", "rad", "", "kg/m^2", "Pa*s", "J/mol", "m^3"]), loose=st.booleans())
def test_any_text_is_a_finite_number_or_refused(text, unit, loose):
    try:
        value = read_span(text, unit, liquid=loose, reinforcement="" if loose else "mat")
    except EntryError:
        return
    assert math.isfinite(value)
    if isinstance(value, Span):
        assert value.low <= value <= value.high and math.isfinite(value.low) and math.isfinite(value.high)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(text=ANYTHING)
def test_any_text_is_a_quantity_ratio_or_clock_or_refused(text):
    for reader in (parse, read_ratio, read_clock):
        try:
            reader(text)
        except (EntryError, NotAQuantity):
            continue


@settings(max_examples=60, deadline=None, derandomize=True)
@given(number=st.one_of(st.floats(1e-4, 1e6), st.floats(1e6, 1e20)))
@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("unit", UNITS)
def test_what_stands_in_a_field_reads_back(unit, system, number):
    number = 200 + number % 800 if unit == "°C" else number  # near absolute zero six digits of °C are few of K
    text = editable(number, unit, system)
    assert read(text, si_of(unit)) == within(number, 1e-5)
    written = Entry("Any", unit=unit).write(number, system)
    assert Entry("Any", unit=unit).take(written) == within(number, 1e-5)
