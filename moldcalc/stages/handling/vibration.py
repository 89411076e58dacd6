"""Hand-arm vibration of a day's grinding: A(8) and exposure points."""

from math import fsum, sqrt

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door

HOUR = 3600.0
DAY = 8 * HOUR
#: Action and limit value of 2002/44/EC, A(8) [m/s²] and points (seen in public copies)
ACTION_VALUE = 2.5
LIMIT_VALUE = 5.0
ACTION_POINTS = 100.0
LIMIT_POINTS = 400.0

_ENTRIES = {"magnitudes": NOT_NEGATIVE, "times": NOT_NEGATIVE}


def _pairs(magnitudes: list[float], times: list[float]) -> list[tuple[float, float]]:
    if len(magnitudes) != len(times):
        raise EntryError(Fault("times", f"{len(times)} beside {len(magnitudes)} magnitudes", "give one for each tool"))
    if fsum(times) > 3 * DAY:
        raise EntryError(Fault("times", f"{fsum(times) / HOUR:.4g} h in all", "they must be at most 24 h"))
    return list(zip(magnitudes, times, strict=True))


@door(magnitude="m/s^2", time="s", returns="m/s^2", possible={"magnitude": NOT_NEGATIVE, "time": NOT_NEGATIVE})
def partial_vibration(*, magnitude: float, time: float) -> float:
    r"""What one tool adds to a day's vibration.

    .. math:: A_i(8) = a_i \sqrt{\frac{t_i}{8 \, \mathrm{h}}}

    Parameters
    ----------
    magnitude
        Of the tool, vector sum of its three axes, :math:`a_i`. [m/s²]
    time
        That hands are on it while it runs, :math:`t_i`. [s]

    Returns
    -------
    Partial exposure. [m/s²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: makers' figures are often low for real work.
    Source: 2002/44/EC and ISO 5349-1 (seen in public copies).

    Examples
    --------
    >>> print(f"{partial_vibration(magnitude='4.6 m/s^2', time='2 h').magnitude:.2f}")
    2.30
    """
    return magnitude * sqrt(time / DAY)


@door(magnitudes="m/s^2[]", times="s[]", returns="m/s^2", possible=_ENTRIES)
def daily_vibration(*, magnitudes: list[float], times: list[float]) -> float:
    r"""A day's hand-arm vibration, A(8).

    .. math:: A(8) = \sqrt{\frac{\sum a_i^2 \, t_i}{8 \, \mathrm{h}}}

    Parameters
    ----------
    magnitudes
        Of each tool, vector sum of its three axes, :math:`a_i`. [m/s²]
    times
        That hands are on each while it runs, :math:`t_i`. [s]

    Returns
    -------
    Daily exposure. [m/s²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths, more than 24 h.

    Notes
    -----
    Range: action value 2.5, limit value 5 m/s² in the EU (2002/44/EC); other places have their own.
    Source: 2002/44/EC and ISO 5349-1 (seen in public copies).

    Examples
    --------
    >>> print(f"{daily_vibration(magnitudes=['4.6 m/s^2', '6.0 m/s^2', '3.6 m/s^2'], times=['2 h', '1 h', '2 h']).magnitude:.2f}")
    3.61
    """
    return sqrt(fsum(a * a * t for a, t in _pairs(magnitudes, times)) / DAY)


@door(magnitudes="m/s^2[]", times="s[]", returns="", possible=_ENTRIES)
def vibration_points(*, magnitudes: list[float], times: list[float]) -> float:
    r"""A day's hand-arm vibration in exposure points.

    .. math:: n = \sum 2 \, a_i^2 \, t_i, \qquad a \text{ in m/s²}, \; t \text{ in h}

    Parameters
    ----------
    magnitudes
        Of each tool, vector sum of its three axes, :math:`a_i`. [m/s²]
    times
        That hands are on each while it runs, :math:`t_i`. [s]

    Returns
    -------
    Points: 100 at the action value, 400 at the limit value. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths, more than 24 h.

    Notes
    -----
    Range: points of the day's tools add up.
    Source: guidance on 2002/44/EC (seen in public copies).

    Examples
    --------
    >>> print(f"{vibration_points(magnitudes=['4.6 m/s^2', '6.0 m/s^2', '3.6 m/s^2'], times=['2 h', '1 h', '2 h']):.2f}")
    208.48
    """
    return fsum(2 * a * a * t / HOUR for a, t in _pairs(magnitudes, times))


@door(magnitude="m/s^2", value="m/s^2", returns="s", possible={"magnitude": POSITIVE, "value": POSITIVE})
def vibration_time(*, magnitude: float, value: float) -> float:
    r"""How long one tool runs until a value of A(8) is reached.

    .. math:: t = 8 \, \mathrm{h} \left( \frac{A}{a} \right)^2

    Parameters
    ----------
    magnitude
        Of the tool, :math:`a`. [m/s²]
    value
        Action value 2.5 or limit value 5 m/s², :math:`A`. [m/s²]

    Returns
    -------
    Time; more than a day where it is never reached. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: that tool only.
    Source: 2002/44/EC (seen in public copies).

    Examples
    --------
    >>> print(f"{vibration_time(magnitude='5 m/s^2', value='2.5 m/s^2').to('h').magnitude:.0f}")
    2
    """
    return DAY * (value / magnitude) ** 2
