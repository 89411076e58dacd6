"""The revised lifting equation: what one person may be asked to lift here, and how far a load is from it."""

from math import pi
from typing import Any, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.equation import METRIC, US, Constants, Hold, Multipliers, six_multipliers, weight_of
from moldcalc.stages.handling.lifting_tables import Coupling
from moldcalc.stages.handling.multipliers import coupling_at, frequency_at
from moldcalc.units import NOT_NEGATIVE, POSITIVE, SHARE, Range, door, show

_EDGE = 1e-9


class Limit(NamedTuple):
    """What may be asked for at one end of a lift: multipliers, recommended weight [kg], index [-], none where the weight is 0, and the
    name of the multiplier that costs most."""

    multipliers: Multipliers
    weight: float
    lifting_index: float | None
    worst: str


class Lift(NamedTuple):
    """A lift from here to there: both ends where the load must be set down with care, the lower weight [kg] and its index [-]."""

    origin: Limit
    destination: Limit | None
    weight: float
    lifting_index: float | None


_ENTRIES: dict[str, Any] = {"horizontal": "m", "vertical": "m", "travel": "m", "asymmetry": "rad", "frequency_multiplier": "",
                            "coupling_multiplier": ""}
_POSSIBLE: dict[str, Any] = {"horizontal": NOT_NEGATIVE, "vertical": NOT_NEGATIVE, "travel": NOT_NEGATIVE, "asymmetry": Range(0, pi, True, True),
                             "frequency_multiplier": SHARE, "coupling_multiplier": SHARE}


@door(**_ENTRIES, returns="kg", possible=_POSSIBLE)
def recommended_weight(*, horizontal: float, vertical: float, travel: float, asymmetry: float, frequency_multiplier: float,
                       coupling_multiplier: float) -> float:
    r"""Recommended weight limit of the revised lifting equation, metric.

    .. math:: RWL = 23 \cdot \frac{25}{H} \left( 1 - 0.003 \left| V - 75 \right| \right) \left( 0.82 + \frac{4.5}{D} \right)
              (1 - 0.0032 A) \, FM \, CM

    Parameters
    ----------
    horizontal
        Hands out from between the ankles, :math:`H` in cm; below 25 counts as 25, above 63 nothing. [m]
    vertical
        Hands over the floor, :math:`V` in cm; above 175 nothing. [m]
    travel
        Up or down, :math:`D` in cm; below 25 counts as 25, above 175 nothing. [m]
    asymmetry
        How far to the side, :math:`A` in degrees; above 135 nothing. [rad]
    frequency_multiplier, coupling_multiplier
        :math:`FM, CM`. [-]

    Returns
    -------
    Weight. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: one person, both hands, standing, a steady load, no more than a step or two, up to 8 h, a floor that grips, no jerks. Not for teams.
    Source: applications manual 94-110 (rev. 9/2021), pp. 7-18 (seen in a public transcription).

    Examples
    --------
    >>> ideal = {"asymmetry": "0°", "frequency_multiplier": 1, "coupling_multiplier": 1}
    >>> print(f"{recommended_weight(horizontal='25 cm', vertical='75 cm', travel='25 cm', **ideal).magnitude:.0f} kg")
    23 kg
    """
    return weight_of(METRIC, six_multipliers(METRIC, Hold(horizontal, vertical, asymmetry), travel, frequency_multiplier, coupling_multiplier))


@door(**_ENTRIES, returns="kg", possible=_POSSIBLE)
def recommended_weight_us(*, horizontal: float, vertical: float, travel: float, asymmetry: float, frequency_multiplier: float,
                          coupling_multiplier: float) -> float:
    r"""Recommended weight limit of the revised lifting equation, US customary.

    .. math:: RWL = 51 \cdot \frac{10}{H} \left( 1 - 0.0075 \left| V - 30 \right| \right) \left( 0.82 + \frac{1.8}{D} \right)
              (1 - 0.0032 A) \, FM \, CM

    Parameters
    ----------
    horizontal
        Hands out from between the ankles, :math:`H` in inches; below 10 counts as 10, above 25 nothing. [m]
    vertical
        Hands over the floor, :math:`V` in inches; above 70 nothing. [m]
    travel
        Up or down, :math:`D` in inches; below 10 counts as 10, above 70 nothing. [m]
    asymmetry
        How far to the side, :math:`A` in degrees; above 135 nothing. [rad]
    frequency_multiplier, coupling_multiplier
        :math:`FM, CM`. [-]

    Returns
    -------
    Weight. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as `recommended_weight`. Its constants are no exact conversions of the metric ones: up to a few per cent apart.
    Source: applications manual 94-110 (rev. 9/2021), pp. 7-18 (seen in a public transcription).

    Examples
    --------
    >>> ideal = {"asymmetry": "0°", "frequency_multiplier": 1, "coupling_multiplier": 1}
    >>> print(f"{recommended_weight_us(horizontal='10 in', vertical='30 in', travel='10 in', **ideal).to('lb').magnitude:.0f} lb")
    51 lb
    """
    return weight_of(US, six_multipliers(US, Hold(horizontal, vertical, asymmetry), travel, frequency_multiplier, coupling_multiplier))


@door(load="kg", weight="kg", returns="", possible={"load": NOT_NEGATIVE, "weight": POSITIVE})
def lifting_index(*, load: float, weight: float) -> float:
    r"""How many times the recommended weight a load is.

    .. math:: LI = \frac{L}{RWL}

    Parameters
    ----------
    load
        That is lifted, :math:`L`. [kg]
    weight
        Recommended weight limit. [kg]

    Returns
    -------
    Index: an indicator. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: up to 1 is the design goal; above 3 nearly all are at increased risk (the manual gives that to 'experts').
    Source: applications manual 94-110 (rev. 9/2021), pp. 1 and 20 (seen in a public transcription).

    Examples
    --------
    >>> print(f"{lifting_index(load='14 kg', weight='9.22591 kg'):.4f}")
    1.5175
    """
    return load / weight


@door(depth="m", vertical="m", returns="m", possible={"depth": NOT_NEGATIVE, "vertical": NOT_NEGATIVE})
def reach_for(*, depth: float, vertical: float) -> float:
    r"""How far out the hands are, guessed from the depth of what is lifted.

    .. math:: H = 20 + W/2 \; (V \ge 25), \qquad H = 25 + W/2 \; (V < 25) \quad \text{in cm}

    Parameters
    ----------
    depth
        Of the object toward the body, :math:`W`. [m]
    vertical
        Hands over the floor, :math:`V`. [m]

    Returns
    -------
    Horizontal distance. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: where it can't be measured. Depth, more than weight, makes a large section too much.
    Source: applications manual 94-110 (rev. 9/2021), p. 8 (seen in a public transcription).

    Examples
    --------
    >>> print(f"{reach_for(depth='60 cm', vertical='75 cm').to('cm').magnitude:.0f}")
    50
    """
    return (0.20 if vertical >= 0.25 * (1 - _EDGE) else 0.25) + depth / 2


def lift(*, load: float, origin: Hold, destination: Hold, coupling: Coupling, lifts_per_minute: float = 0.2, duration: float = 3600.0,
         set_down_with_care: bool = True, constants: Constants = METRIC, printed: bool = False) -> Lift:
    """A whole lift: recommended weight and index where it begins and, where it must be set down with care, where it ends.

    Parameters
    ----------
    load
        [kg]
    origin, destination
        Where the hands are at both ends. [m, rad]
    coupling
        'good', 'fair' or 'poor'.
    lifts_per_minute
        [-]
    duration
        Of lifting without a long enough rest. [s]
    set_down_with_care
        Whether the far end counts too ('significant control').
    constants
        `METRIC` or `US`.
    printed
        By the printed tables and two decimals, as the manual's worksheets, else by the formulas.

    Returns
    -------
    In SI: `Lift`; its weight is the lower one.

    Raises
    ------
    EntryError
        A load below 0, a place below the floor, a twist past half a turn, a duration that is not above 0 and at most 8 h, another coupling.

    Notes
    -----
    Range: as `recommended_weight`.
    Source: applications manual 94-110 (rev. 9/2021), pp. 15-26 (seen in a public transcription): frequency by the height at the origin,
    coupling by the height at the point looked at.
    """
    _check(load, origin, destination, lifts_per_minute, duration)
    edge = constants.best_height * constants.unit
    travel = abs(destination.vertical - origin.vertical)
    frequency = frequency_at(lifts_per_minute, duration, origin.vertical >= edge * (1 - _EDGE))

    def limit(hold: Hold) -> Limit:
        found = six_multipliers(constants, hold, travel, frequency, coupling_at(coupling, hold.vertical, edge), printed)
        weight = weight_of(constants, found)
        return Limit(found, weight, load / weight if weight else None, min(found._fields, key=lambda name: getattr(found, name)))

    here = limit(origin)
    there = limit(destination) if set_down_with_care else None
    weight = min(here.weight, there.weight) if there else here.weight
    return Lift(here, there, weight, load / weight if weight else None)


def _check(load: float, origin: Hold, destination: Hold, lifts_per_minute: float, duration: float) -> None:
    rows: list[tuple[str, float, float, str]] = [
        ("load", load, 1e6, "kg"), ("lifts per minute", lifts_per_minute, 1e6, ""), ("duration", duration, 8 * 3600.0, "h")]
    for end, hold in (("origin", origin), ("destination", destination)):
        rows += [(f"{end} reach", hold.horizontal, 1e6, "m"), (f"{end} height", hold.vertical, 1e6, "m"), (f"{end} twist", hold.asymmetry, pi, "°")]
    faults = [Fault(entry, show(value, unit) if value == value else "nan", f"it must be at least {show(0.0, unit)} and at most {show(most, unit)}")
              for entry, value, most, unit in rows if not 0 <= value <= most]
    if duration == 0:
        faults.append(Fault("duration", "0 h", "it must be above 0 h"))
    if faults:
        raise EntryError(faults)
