"""The revised lifting equation itself: its constants in both systems, and its six multipliers by formula or as printed."""

from math import degrees, floor
from typing import NamedTuple

from moldcalc.stages.handling import lifting_tables as tables

_EDGE = 1e-9
_INCH = 0.0254
_POUND = 0.45359237


class Constants(NamedTuple):
    """The equation in one system of units; its two sets are no exact conversions of each other and are never mixed."""

    unit: float
    load: float
    reach: float
    reach_most: float
    best_height: float
    height_slope: float
    height_most: float
    travel_least: float
    travel_most: float
    travel_share: float
    horizontal: dict[int, float]
    vertical: dict[int, float]
    travel: dict[int, float]


METRIC = Constants(0.01, 23.0, 25, 63, 75, 0.003, 175, 25, 175, 4.5, tables.HORIZONTAL_CM, tables.VERTICAL_CM, tables.TRAVEL_CM)
US = Constants(_INCH, 51 * _POUND, 10, 25, 30, 0.0075, 70, 10, 70, 1.8, tables.HORIZONTAL_IN, tables.VERTICAL_IN, tables.TRAVEL_IN)


class Multipliers(NamedTuple):
    """What brings the ideal 23 kg down: reach, height, travel, twist, frequency, coupling. [-]"""

    horizontal: float
    vertical: float
    travel: float
    asymmetry: float
    frequency: float
    coupling: float


class Hold(NamedTuple):
    """Where the hands are: out from between the ankles, over the floor [m], and how far to the side [rad]."""

    horizontal: float
    vertical: float
    asymmetry: float = 0.0


def _horizontal(c: Constants, value: float) -> float:
    return 0.0 if value > c.reach_most * (1 + _EDGE) else c.reach / max(value, c.reach)


def _vertical(c: Constants, value: float) -> float:
    return 0.0 if value > c.height_most * (1 + _EDGE) else 1 - c.height_slope * abs(value - c.best_height)


def _travel(c: Constants, value: float) -> float:
    return 0.0 if value > c.travel_most * (1 + _EDGE) else min(1.0, 0.82 + c.travel_share / max(value, c.travel_least))


def _asymmetry(angle: float) -> float:
    return 0.0 if angle > 135 * (1 + _EDGE) else 1 - 0.0032 * angle


def _printed(value: float, at: float, table: dict[int, float]) -> float:
    """As the manual prints it: the table's own value on its rows, else two decimals, halves up."""
    row = round(at)
    if abs(at - row) < 1e-6 and row in table:
        return table[row]
    return floor(value * 100 + 0.5 + 1e-9) / 100


def six_multipliers(c: Constants, hold: Hold, travel: float, frequency: float, coupling: float, printed: bool = False) -> Multipliers:
    """All six for hands somewhere; ``printed``: by the tables and two decimals, as the manual's own worksheets."""
    h, v, d, a = hold.horizontal / c.unit, hold.vertical / c.unit, travel / c.unit, degrees(hold.asymmetry)
    exact = (_horizontal(c, h), _vertical(c, v), _travel(c, d), _asymmetry(a))
    if printed:
        exact = (_printed(exact[0], max(h, c.reach), c.horizontal), _printed(exact[1], v, c.vertical),
                 _printed(exact[2], max(d, c.travel_least), c.travel), _printed(exact[3], a, tables.ASYMMETRY_DEGREES))
        frequency = floor(frequency * 100 + 0.5 + 1e-9) / 100
    return Multipliers(*exact, frequency, coupling)


def weight_of(c: Constants, m: Multipliers) -> float:
    """Recommended weight [kg]."""
    return c.load * m.horizontal * m.vertical * m.travel * m.asymmetry * m.frequency * m.coupling
