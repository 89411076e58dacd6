"""Says a value as people at the bench say it: 850 g, 2.4 kg, 1 lb 3 oz, 3/16 in, 2 h 34 min, 19 °C."""

import math
from collections.abc import Callable
from functools import cache
from typing import Literal

from moldcalc.units.registry import Q, ureg

System = Literal["metric", "us"]

#: metric unit to show -> (unit for pint, US customary unit to show, the same for pint)
_PAIRS: dict[str, tuple[str, str, str]] = {
    "mm": ("mm", "in", "inch"), "m": ("m", "ft", "foot"), "m²": ("m^2", "ft²", "foot^2"),
    "cm²": ("cm^2", "in²", "inch^2"), "L": ("L", "qt", "quart"), "mL": ("mL", "fl oz", "fluid_ounce"),
    "kg": ("kg", "lb", "pound"), "g": ("g", "oz", "ounce"),
    "min": ("min", "min", "min"), "h": ("h", "h", "h"), "d": ("day", "d", "day"), "°C": ("degC", "°F", "degF"),
    "g/m²": ("g/m^2", "oz/yd²", "oz/yard^2"), "kg/m²": ("kg/m^2", "lb/ft²", "pound/foot^2"),
    "kg/L": ("kg/L", "lb/ft³", "pound/foot^3"), "kg/m³": ("kg/m^3", "lb/ft³", "pound/foot^3"),
    "m²/min": ("m^2/min", "ft²/min", "foot^2/min"), "°": ("degree", "°", "degree"),
    "Pa": ("Pa", "Pa", "Pa"), "kPa": ("kPa", "psi", "psi"), "Pa·s": ("Pa*s", "Pa·s", "Pa*s"),
    "kJ/mol": ("kJ/mol", "kJ/mol", "kJ/mol"), "g/m³": ("g/m^3", "g/m³", "g/m^3"), "N": ("N", "lbf", "lbf"),
    "kN": ("kN", "lbf", "lbf"), "%": ("percent", "%", "percent"), "": ("", "", ""),
    "kg/m": ("kg/m", "lb/ft", "pound/foot"), "N·m": ("N*m", "lbf·ft", "lbf*foot"), "GPa": ("GPa", "Msi", "1e6*psi"),
    "MPa": ("MPa", "psi", "psi"), "m/s²": ("m/s^2", "m/s²", "m/s^2"), "m/s": ("m/s", "ft/s", "foot/s"),
    "m³": ("m^3", "ft³", "foot^3"), "mg/m³": ("mg/m^3", "mg/m³", "mg/m^3"), "N/m": ("N/m", "lbf/ft", "lbf/foot"),
    "mm²/h": ("mm^2/h", "mm²/h", "mm^2/h"),
}

#: the units that a result or an entry may be shown in
UNITS = tuple(_PAIRS)


_SI = ("m", "m^2", "m^3", "kg", "s", "K", "kg/m^2", "kg/m^3", "m^2/s", "Pa", "Pa*s", "J/mol", "N", "kg/m", "N*m", "N/m", "m/s^2", "m/s", "", "rad")


@cache
def si_of(unit: str) -> str:
    """The SI unit (as the doors write it) that a shown unit converts to."""
    if unit == "°":
        return "rad"
    wanted = ureg.Unit(_PAIRS[unit][0]).dimensionality
    return next(si for si in _SI if ureg.Unit(si).dimensionality == wanted)


@cache
def unit_in(unit: str, system: System) -> str:
    """The shown unit's name in a system: 'mm' is 'in' in US customary."""
    return unit if system == "metric" else _PAIRS[unit][1]


@cache
def _scale(unit: str, system: System) -> tuple[float, float]:
    """(factor, offset): shown = SI * factor + offset."""
    name = _PAIRS[unit][0] if system == "metric" else _PAIRS[unit][2]
    if name in ("degC", "degF"):
        zero, one = Q(0.0, "K").m_as(name), Q(1.0, "K").m_as(name)
        return (one - zero, zero)
    if not name:
        return (1.0, 0.0)
    whole = ureg.parse_expression(name) if name[0].isdigit() else Q(1.0, name)
    return (1 / whole.to(si_of(unit)).magnitude, 0.0)


def shown(value: float, unit: str, system: System = "metric") -> float:
    """The number of an SI value in the unit it is shown in."""
    factor, offset = _scale(unit, system)
    return value * factor + offset


def from_shown(number: float, unit: str, system: System = "metric") -> float:
    """The SI value of a number in the unit it is shown in."""
    factor, offset = _scale(unit, system)
    return (number - offset) / factor


def digits(number: float, places: int = 3) -> str:
    """A number with so many significant digits, no exponent, whole digits never cut off."""
    if number == 0 or not math.isfinite(number):
        return "0" if number == 0 else "no number"
    if abs(number) >= 10**places:
        return f"{number:.0f}"
    rounded = float(f"{number:.{places - 1}e}")
    decimals = max(0, min(6, places - 1 - math.floor(math.log10(abs(rounded)))))
    text = f"{rounded:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text and places < 3 else text


def _trimmed(text: str) -> str:
    """Without zeros that say nothing: '10.0' is '10'."""
    return text.rstrip("0").rstrip(".") if "." in text else text


def _of_inch(inches: float) -> str:
    """Inches as a tape reads them where a sixteenth hits it within 1 %, else in decimals."""
    for parts in (1, 2, 4, 8, 16):
        count = round(inches * parts)
        if count and abs(count / parts - inches) <= 0.01 * inches:
            whole, rest = divmod(count, parts)
            if not rest:
                return f"{whole} in"
            divisor = math.gcd(rest, parts)
            fraction = f"{rest // divisor}/{parts // divisor}"
            return f"{whole} {fraction} in" if whole else f"{fraction} in"
    return f"{digits(inches, 2 if inches < 1 else 3)} in"


def _length(value: float, system: System) -> str:
    if system == "us":
        inches = value / 0.0254
        if abs(inches) < 36:
            return _of_inch(inches)
        return f"{digits(inches / 12)} ft"
    mm = value * 1e3
    if abs(mm) >= 999.5:
        return f"{_trimmed(digits(value, 4))} m"
    return f"{_trimmed(digits(mm, 2 if abs(mm) < 10 else 3))} mm"


def _mass(value: float, system: System) -> str:
    if system == "us":
        ounces = value / 0.028349523125
        if abs(ounces) < 15.95:
            return f"{digits(ounces)} oz"
        if abs(ounces) < 160:
            pounds, rest = divmod(round(ounces * 2) / 2, 16)
            return f"{pounds:.0f} lb {rest:.3g} oz" if rest else f"{pounds:.0f} lb"
        return f"{digits(ounces / 16)} lb"
    if abs(value) >= 0.9995:
        return f"{digits(value)} kg"
    grams = value * 1e3
    return f"{grams:.0f} g" if abs(grams) >= 99.95 else f"{digits(grams)} g"


def _time(value: float, system: System) -> str:
    minutes = value / 60
    if abs(minutes) < 1:
        return f"{digits(value, 2)} s"
    if abs(minutes) < 10:
        return f"{digits(minutes, 2)} min"
    if abs(minutes) < 119.5:
        return f"{minutes:.0f} min"
    if abs(minutes) < 600:
        hours, rest = divmod(round(minutes), 60)
        return f"{hours} h {rest} min" if rest else f"{hours} h"
    return f"{_trimmed(f'{minutes / 60:.1f}')} h" if minutes < 72 * 60 else f"{digits(minutes / 1440)} days"


_PEOPLE: dict[str, Callable[[float, System], str]] = {
    "mm": _length, "m": _length, "kg": _mass, "g": _mass, "min": _time, "h": _time,
}


def show(value: float, unit: str = "", system: System = "metric", places: int = 3) -> str:
    """An SI value as a person says it.

    Lengths, masses and times choose their own unit (mm or m, g or kg, min or h); the others keep ``unit``.

    Examples
    --------
    >>> show(0.0047625, "mm"), show(0.0047625, "mm", "us")
    ('4.8 mm', '3/16 in')
    >>> show(1.362, "kg"), show(1.362, "kg", "us")
    ('1.36 kg', '3 lb')
    >>> show(9240, "min"), show(292.15, "°C")
    ('2 h 34 min', '19 °C')
    """
    if not math.isfinite(value):
        return "no number"
    if unit in _PEOPLE:
        return f"{'-' if value < 0 else ''}{_PEOPLE[unit](abs(value), system)}"
    number = shown(value, unit, system)
    if unit == "°C":
        return f"{number:.1f}".removesuffix(".0") + f" {unit_in(unit, system)}"
    if unit == "" and number == int(number) and abs(number) < 1e9:
        return f"{number:.0f}"
    text = digits(number, places if unit != "%" else 2)
    if unit in ("m²/min", "Pa", "Pa·s", "kJ/mol", "°"):
        text = _trimmed(text)
    name = unit_in(unit, system)
    return f"{text}{'' if name in ('°', '') else ' '}{name}".strip()


def editable(value: float, unit: str, system: System = "metric") -> str:
    """A value as it stands in a text field: exact enough to be read back as the same value."""
    if unit == "mm" and system == "us":
        fraction = _of_inch(value / 0.0254)
        if "/" in fraction and abs(_inches(fraction) - value / 0.0254) < 1e-9:
            return fraction
    number = shown(value, unit, system)
    text = f"{number:.6g}" if not 1e5 <= abs(number) < 1e15 else f"{number:.0f}"
    name = unit_in(unit, system)
    return f"{text}{'' if name in ('°', '') else ' '}{name}".strip()


def _inches(fraction: str) -> float:
    from moldcalc.units.reading import read

    return read(fraction, "inch")
