"""Reads what a maker types: '3/16 in', '2 1/2 lb', '5 ft 4 in', '28 °C', '1.5 oz/ft²', '100:10', '5 to 7 mm'."""

import math
import re
from functools import cache
from typing import Any, Literal, NamedTuple

import pint

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.units.registry import PLAIN, Q, kind_of, unit_named, ureg

LONGEST = 80  # characters of any quantity worth reading; more is no quantity

_GLYPHS = {
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8", "⅓": " 1/3", "⅔": " 2/3",
    "\u2212": "-", "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u2044": "/", "″": '"', "′": "'", "”": '"', "’": "'",
    "μ": "µ", "º": "°", "˚": "°", "×": "*",
}
_NUMBER = r"""
    (?P<whole>\d+)[\s-]+(?P<over>\d+)\s*/\s*(?P<under>\d+)     # 3 1/2, 3-1/2
  | (?P<over2>\d+)\s*/\s*(?P<under2>\d+)                       # 3/16
  | (?P<decimal>(?:\d+[.,]\d*|[.,]\d+|\d+)(?:[eE][+-]?\d{1,3})?)
"""
_POWER = r"(?:[\^*]{0,2}[234](?![\d.,]))?"
_PAIR = re.compile(rf"\s*(?:{_NUMBER})\s*(?P<unit>[^\d\s][^\d]*?{_POWER}(?:/[^\d]+?{_POWER})?)?\s*(?=[\d.,]|$)", re.VERBOSE)
_TOGETHER = [
    ("foot", "inch"), ("pound", "ounce"), ("hour", "minute", "second"), ("day", "hour", "minute"), ("minute", "second"),
    ("meter", "centimeter"), ("kilogram", "gram"),
]


class Span(float):
    """A likely value that carries the lowest and highest it may be. In arithmetic it is the likely value."""

    __slots__ = ("high", "low")

    def __new__(cls, likely: float, low: float, high: float) -> "Span":
        made = super().__new__(cls, likely)
        made.low, made.high = low, high
        return made

    low: float
    high: float

    def __getnewargs__(self) -> tuple[float, float, float]:  # type: ignore[override]
        return (float(self), self.low, self.high)

    def __repr__(self) -> str:
        return f"Span({float(self)!r}, {self.low!r}, {self.high!r})"


class NotAQuantity(ValueError):
    """The text is no quantity; the message says what would do."""


class Typed(NamedTuple):
    """A quantity as it was typed: its first number and that unit's words; then each part, with the sign before them all."""

    number: float
    unit: str
    parts: list[tuple[float, pint.Unit]]
    sign: float

    @property
    def quantity(self) -> Any:
        """Numbers and units joined, in the first unit."""
        number, unit = self.parts[0]
        total = Q(number, unit)
        for number, unit in self.parts[1:]:
            total = total + Q(number, unit)
        return Q(self.sign * total.magnitude, total.units)


def _plain(text: str) -> str:
    if len(text) > LONGEST:
        raise NotAQuantity(f"write a number and a unit in at most {LONGEST} characters")
    for glyph, written in _GLYPHS.items():
        text = text.replace(glyph, written)
    return text.strip()


def _number(found: re.Match[str]) -> float:
    if found["whole"]:
        return int(found["whole"]) + _quotient(found["over"], found["under"])
    if found["over2"]:
        return _quotient(found["over2"], found["under2"])
    decimal = found["decimal"]
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", decimal):
        raise NotAQuantity(f"a comma before three digits can be read in two ways; write {decimal.replace(',', '')} or {decimal.replace(',', '.')}")
    return float(decimal.replace(",", "."))


def _quotient(over: str, under: str) -> float:
    if int(under) == 0:
        raise NotAQuantity("a fraction can't have 0 below the line")
    try:
        return int(over) / int(under)
    except OverflowError:
        raise NotAQuantity("the number is too large to calculate with") from None


def parse(text: str) -> Typed:
    """A quantity from what a maker typed; several parts only where people say them ('5 ft 4 in', '1 h 30 min').

    Raises
    ------
    NotAQuantity
        With what to write instead.
    """
    line = _plain(text)
    sign = -1.0 if line.startswith("-") else 1.0
    line = line.removeprefix("-").removeprefix("+").strip()
    written: list[tuple[float, str]] = []
    at = 0
    while at < len(line):
        found = _PAIR.match(line, at)
        if not found or found.end() == at:
            raise NotAQuantity("it is not a number with a unit")
        written.append((_number(found), (found["unit"] or "").strip().rstrip(",").strip()))
        at = found.end()
    if not written:
        raise NotAQuantity("nothing is written there")
    parts = []
    for number, words in written:
        unit = unit_named(words) if words else PLAIN
        if unit is None:
            raise NotAQuantity(f"'{clipped(words, 20)}' is not a unit known here")
        if not math.isfinite(number):
            raise NotAQuantity("the number is too large to calculate with")
        parts.append((number, unit))
    if len(parts) > 1:
        names = tuple(str(unit) for _, unit in parts)
        if not any(names == chain[i : i + len(names)] for chain in _TOGETHER for i in range(len(chain))):
            raise NotAQuantity("it holds more than one quantity")
    number, words = written[0]
    return Typed(sign * number, words, parts, sign)


class Fit(NamedTuple):
    """How a unit goes into another: whether it is of that kind, and what its number is multiplied by (None: not that alone)."""

    fits: bool
    factor: float | None


@cache
def _fit(unit: pint.Unit, to: str) -> Fit:
    """Pint's answer, asked once for each two units: asking costs more than the rest of reading."""
    if not unit.is_compatible_with(ureg.Unit(to)) or (to in ("rad", "degree")) != (str(unit) in ("degree", "radian")):
        return Fit(False, None)
    return Fit(True, Q(1.0, unit).m_as(to) if Q(0.0, unit).m_as(to) == 0 else None)


def read(
    text: str, to: str, *, entry: str = "this entry", liquid: bool = False, reinforcement: Literal["mat", "cloth", ""] = ""
) -> float:
    """The number, in the unit ``to``, of the quantity that a maker typed.

    ``liquid``: both weight and volume make sense, so a bare 'oz' is asked about. ``reinforcement``: a mat
    or cloth, whose ounces are checked for the wrong area (mat is sold in oz/ft², cloth in oz/yd²).

    Raises
    ------
    EntryError
        One sentence: the entry, what was typed, what is allowed.

    Examples
    --------
    >>> round(read("3/16 in", "mm"), 4)
    4.7625
    >>> read("2 1/2 lb", "lb")
    2.5
    >>> round(read("28 °C", "K"), 2)
    301.15
    """
    def refused(why: str = "") -> EntryError:
        kind, example = kind_of(to)
        return EntryError(Fault(entry, clipped(text) or "empty", f"{why}write {kind}, like {example}"))

    try:
        typed = parse(text)
        _ask_which_ounce(typed, to, liquid, reinforcement)
    except NotAQuantity as why:
        raise refused(f"{why}; ") from None
    if to and not typed.unit:
        raise refused("it has no unit; ")
    fits, factor = _fit(typed.parts[0][1], to)
    if not fits:
        raise refused()
    try:
        value = typed.number * factor if factor is not None and len(typed.parts) == 1 else float(typed.quantity.m_as(to))
    except OverflowError:
        value = math.inf
    if not math.isfinite(value):
        raise EntryError(Fault(entry, clipped(text), "the number is too large to calculate with"))
    if reinforcement:
        _check_areal_ounces(typed, to, entry, reinforcement)
    return value


def _ask_which_ounce(typed: Typed, to: str, liquid: bool, reinforcement: str) -> None:
    bare = typed.unit.lower().rstrip(".") in ("oz", "ounce", "ounces")
    n = f"{typed.number:g}"
    if bare and reinforcement:
        raise NotAQuantity(f"an ounce of cloth is on a square yard and an ounce of mat on a square foot; write {n} oz/yd² or {n} oz/ft²")
    if bare and liquid:
        raise NotAQuantity(f"it could be ounces by weight or fluid ounces; write {n} oz wt or {n} fl oz")


def _check_areal_ounces(typed: Typed, to: str, entry: str, reinforcement: str) -> None:
    """A mat under 150 g/m² or a cloth over 1500 g/m², given in ounces, is nearly always the other ounce."""
    unit = str(typed.quantity.units)
    other = {"ounce / yard ** 2": ("mat", "oz/ft²", 9.0), "ounce / foot ** 2": ("cloth", "oz/yd²", 1 / 9)}.get(unit)
    if other is None or other[0] != reinforcement:
        return
    grams = typed.quantity.m_as("g/m^2")
    if (reinforcement == "mat" and grams < 150) or (reinforcement == "cloth" and grams > 1500):
        allowed = (f"{reinforcement} is sold in {other[1]}: if {typed.number:g} {other[1]} ({grams * other[2]:.0f} g/m²) was meant, "
                   "write that, else write g/m²")
        raise EntryError(Fault(entry, f"{typed.number:g} {typed.unit}, that is {grams:.0f} g/m²", allowed))


_TO = re.compile(r"\s+to\s+|\s*(?:–|—|\.\.\.|…)\s*")
_PLUS_MINUS = re.compile(r"\s*(?:±|\+/-|\+-)\s*")


def read_span(
    text: str, to: str, *, entry: str = "this entry", liquid: bool = False, reinforcement: Literal["mat", "cloth", ""] = ""
) -> float:
    """Like `read`, and takes a low and a high too: '5 to 7 mm', '1.68 m² ± 8 %', '19 ± 2 °C'.

    Returns a plain float, or a `Span` whose likely value is the middle.

    Examples
    --------
    >>> read_span("5 to 7 mm", "mm")
    Span(6.0, 5.0, 7.0)
    """
    def one(part: str) -> float:
        return read(part, to, entry=entry, liquid=liquid, reinforcement=reinforcement)

    line = text.strip()
    if len(line) <= LONGEST and len(ends := _TO.split(line)) == 2:
        second = ends[1]
        first = ends[0] if _has_unit(ends[0]) or not _has_unit(second) else f"{ends[0]} {_unit_words(second)}"
        low, high = one(first), one(second)
        if low > high:
            raise EntryError(Fault(entry, clipped(text), "write the lower end first"))
        return Span((low + high) / 2, low, high) if low < high else low
    if len(line) <= LONGEST and len(ends := _PLUS_MINUS.split(line)) == 2:
        return _plus_minus(ends[0], ends[1], one, entry, clipped(text))
    return one(line)


def _plus_minus(middle: str, spread: str, one: Any, entry: str, written: str) -> float:
    # '19 ± 2 °C': the spread is a difference, so it is added in the unit that was typed, before any offset.
    words = _unit_words(middle) or _unit_words(spread)
    share = _unit_words(spread) == "%" and words != "%"
    if not _unit_words(middle) and not share and words:
        middle = f"{middle} {words}"
    try:
        beside, whole = parse(spread), parse(middle).quantity
    except NotAQuantity:
        beside, whole = None, None
    size = beside.number if beside else -1.0
    if beside is None or whole is None or size < 0:
        raise EntryError(Fault(entry, written, "write it like 1.68 m² ± 8 % or 19 ± 2 °C"))
    number = whole.magnitude
    if beside.unit and not share and beside.quantity.units != whole.units:
        if not whole.is_compatible_with(beside.quantity) or whole.is_compatible_with("K"):
            raise EntryError(Fault(entry, written, "write the spread in the same unit, or in %"))
        size = beside.quantity.m_as(whole.units)
    part = abs(number) * size / 100 if share else size
    likely = one(middle)
    if part == 0:
        return float(likely)
    return Span(likely, one(f"{number - part:.15g} {words}"), one(f"{number + part:.15g} {words}"))


def _unit_words(text: str) -> str:
    try:
        return parse(text).unit
    except NotAQuantity:
        return ""


def _has_unit(text: str) -> bool:
    return bool(_unit_words(text))


_RATIO = re.compile(r"^\s*(?P<parts>[\d.,]+(?:\s*:\s*[\d.,]+){1,2})\s*(?:(?:by\s+)?(?P<basis>weight|mass|volume))?\s*$", re.IGNORECASE)


def read_ratio(text: str, *, entry: str = "mix ratio") -> tuple[tuple[float, ...], str]:
    """Parts of a mix ratio and what they are by ('weight', 'volume' or '' where it is not said).

    Examples
    --------
    >>> read_ratio("100:10 by weight")
    ((100.0, 10.0), 'weight')
    """
    found = _RATIO.match(text) if len(text) <= LONGEST else None
    if found:
        try:
            parts = tuple(float(part.replace(",", ".")) for part in found["parts"].split(":"))
        except ValueError:
            parts = ()
        if len(parts) in (2, 3) and all(1e-6 <= part < 1e6 for part in parts):
            basis = (found["basis"] or "").lower()
            return parts, "weight" if basis == "mass" else basis
    raise EntryError(Fault(entry, clipped(text) or "empty", "write two or three parts above 0, like 100:10 by weight or 1:1 by volume"))


_CLOCK = re.compile(r"^\s*(\d{1,2})(?::(\d{2}))\s*(am|pm)?\s*$", re.IGNORECASE)


def read_clock(text: str, *, entry: str = "clock time") -> float:
    """Seconds after midnight of a clock time.

    Examples
    --------
    >>> read_clock("09:30")
    34200.0
    """
    found = _CLOCK.match(text) if len(text) <= LONGEST else None
    if found:
        hours, minutes, half = int(found[1]), int(found[2]), (found[3] or "").lower()
        if half:
            hours = hours % 12 + (12 if half == "pm" else 0) if 1 <= hours <= 12 else 24
        if hours < 24 and minutes < 60:
            return 3600.0 * hours + 60.0 * minutes
    raise EntryError(Fault(entry, clipped(text) or "empty", "write a clock time, like 09:30 or 4:10 pm"))
