"""How often, how long and how well something is held: the multipliers of the revised lifting equation that come from tables."""

from bisect import bisect_right
from typing import Literal

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.stages.handling.lifting_tables import COUPLING, FREQUENCIES, FREQUENCY, Coupling
from moldcalc.units import NOT_NEGATIVE, Range, door, show

HOUR = 3600.0
MINUTE = 60.0
#: Hands at or above this height [m] take the tables' other column.
KNUCKLES = 0.75
_SHIFT = Range(0, 8 * HOUR, with_high=True)
#: slack for a height or a time that stands on a table's edge
_EDGE = 1e-9

Spell = Literal["short", "moderate", "long"]


def column_for(duration: float) -> int:
    """Column of the frequency table, named by its hours, for a time of work [s]."""
    return next(hours for hours in (1, 2, 8) if duration <= hours * HOUR * (1 + _EDGE))


def frequency_at(lifts_per_minute: float, duration: float, raised: bool) -> float:
    """Frequency multiplier for hands below the tables' edge or at it and above."""
    column = FREQUENCY[column_for(duration), raised]
    if lifts_per_minute <= FREQUENCIES[0]:
        return column[0]
    row = bisect_right(FREQUENCIES, lifts_per_minute) - 1
    if row >= len(column) or (row == len(column) - 1 and lifts_per_minute > FREQUENCIES[row]):
        return 0.0
    if lifts_per_minute == FREQUENCIES[row]:
        return column[row]
    part = (lifts_per_minute - FREQUENCIES[row]) / (FREQUENCIES[row + 1] - FREQUENCIES[row])
    return column[row] + part * (column[row + 1] - column[row])


@door(lifts_per_minute="", duration="s", height="m", returns="",
      possible={"lifts_per_minute": NOT_NEGATIVE, "duration": _SHIFT, "height": NOT_NEGATIVE}, holds={"lifts_per_minute": (0, 15)})
def frequency_multiplier(*, lifts_per_minute: float, duration: float, height: float) -> float:
    r"""Frequency multiplier of the revised lifting equation.

    .. math:: FM = FM_i + \frac{F - F_i}{F_{i+1} - F_i} (FM_{i+1} - FM_i)

    Parameters
    ----------
    lifts_per_minute
        On average over 15 minutes, :math:`F`; below 0.2 counts as 0.2. [-]
    duration
        Of lifting without a long enough rest, see `work_spell`; up to 8 h. [s]
    height
        Of the hands at the ORIGIN of the lift. [m]

    Returns
    -------
    Multiplier; 0 past the table's end. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: up to 15 lifts a minute. Between the last row with a weight and the first without one there is none: the strict reading.
    Source: applications manual 94-110 (rev. 9/2021), table 5 and p. 7 on interpolation (seen in a public transcription).

    Examples
    --------
    >>> print(f"{frequency_multiplier(lifts_per_minute=2.4, duration='1 h', height='60 cm'):.3f}")
    0.898
    """
    return frequency_at(lifts_per_minute, duration, height >= KNUCKLES * (1 - _EDGE))


@door(lifts_per_minute="", lifting_time="s", period="s", returns="",
      possible={"lifts_per_minute": Range(0, 15, True, True), "lifting_time": NOT_NEGATIVE, "period": Range(0, 15 * MINUTE, with_high=True)})
def batch_frequency(*, lifts_per_minute: float, lifting_time: float, period: float) -> float:
    r"""Average frequency where lifting comes in bursts.

    .. math:: F = \frac{f \, t_w}{t}

    Parameters
    ----------
    lifts_per_minute
        During a burst, :math:`f`; at most 15. [-]
    lifting_time
        Within the period, :math:`t_w`. [s]
    period
        That is looked at, :math:`t`; 15 min. [s]

    Returns
    -------
    Lifts a minute. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; bursts longer than the period.

    Notes
    -----
    Range: bursts of at most 15 minutes.
    Source: applications manual 94-110 (rev. 9/2021), p. 16 (seen in a public transcription).

    Examples
    --------
    >>> print(f"{batch_frequency(lifts_per_minute=10, lifting_time='8 min', period='15 min'):.2f}")
    5.33
    """
    if lifting_time > period:
        raise EntryError(Fault("lifting time", show(lifting_time, "min"), f"it must be at most the period, {show(period, 'min')}"))
    return lifts_per_minute * (lifting_time / period)


@door(work="s[]", rest="s[]", returns="s", possible={"work": Range(0, 8 * HOUR, with_high=True), "rest": NOT_NEGATIVE})
def work_spell(*, work: list[float], rest: list[float] | None = None) -> float:
    r"""Longest time of lifting that counts as one, with the rests that were too short to end it.

    .. math:: r \ge w \; (w \le 1 \,\mathrm{h}), \qquad r \ge 0.3 \, w \; (1 < w \le 2 \,\mathrm{h})

    Parameters
    ----------
    work
        Times of lifting, one after the other, :math:`w`. [s]
    rest
        Light work between two of them, :math:`r`: one fewer; left out where there is none. [s]

    Returns
    -------
    Time, for the frequency table. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not one rest fewer than times of lifting.

    Notes
    -----
    Range: after a rest that is too short the times of lifting add up and the rest is not counted. Past 2 h no rest within the day ends it.
    Source: applications manual 94-110 (rev. 9/2021), pp. 13-14 (seen in a public transcription).

    Examples
    --------
    >>> print(work_spell(work=["30 min", "45 min"], rest=["10 min"]).to("min").magnitude)
    75.0
    """
    rests = rest or []
    if len(rests) != len(work) - 1:
        raise EntryError(Fault("rest", f"{len(rests)} beside {len(work)} times of lifting", "give one fewer than those"))
    longest = running = work[0]
    for pause, more in zip(rests, work[1:], strict=True):
        needed = running if running <= HOUR * (1 + _EDGE) else 0.3 * running
        ended = running <= 2 * HOUR * (1 + _EDGE) and pause >= needed * (1 - _EDGE)
        running = more if ended else running + more
        longest = max(longest, running)
    return longest


def spell_name(duration: float) -> Spell:
    """What the lifting manual calls a time of lifting [s]: short up to 1 h, moderate up to 2 h, long up to 8 h.

    Raises
    ------
    EntryError
        More than 8 h, for which the equation has no figure.
    """
    if not 0 < duration <= 8 * HOUR * (1 + _EDGE):
        raise EntryError(Fault("duration", show(duration, "h"), "it must be above 0 h and at most 8 h"))
    names: dict[int, Spell] = {1: "short", 2: "moderate", 8: "long"}
    return names[column_for(duration)]


def coupling_multiplier(*, coupling: Coupling, height: float) -> float:
    """Coupling multiplier of the revised lifting equation.

    Parameters
    ----------
    coupling
        'good', 'fair' or 'poor'. A shell section is poor (long, lopsided, edges, gloves); fair only a compact piece with real handles.
    height
        Of the hands at the point looked at. [m]

    Returns
    -------
    Multiplier. [-]

    Raises
    ------
    EntryError
        Another word, or a height that is not one.

    Notes
    -----
    Range: from the floor to 1.75 m.
    Source: applications manual 94-110 (rev. 9/2021), tables 6 and 7 and the decision tree on p. 18 (seen in a public transcription).
    """
    return coupling_at(coupling, height, KNUCKLES)


def coupling_at(coupling: str, height: float, edge: float) -> float:
    """Coupling multiplier with the tables' edge at a height of its own (75 cm, or 30 in)."""
    pair = COUPLING.get(coupling)
    if pair is None:
        raise EntryError(Fault("coupling", clipped(coupling), "choose good, fair or poor"))
    if not height >= 0:
        raise EntryError(Fault("height", f"{height:g} m", "it must be at least 0"))
    return pair[height >= edge * (1 - _EDGE)]
