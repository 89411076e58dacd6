"""Opening hours of a week laid out over the days of a calendar, without zones: every day has 24 hours."""

from collections.abc import Collection, Mapping, Sequence
from math import isfinite

from moldcalc.errors import EntryError, Fault
from moldcalc.units import show

DAY = 86400.0
#: a calendar longer than this is refused
MOST_DAYS = 3660


def week_openings(*, days: int, first_weekday: int, week: Mapping[int, Sequence[tuple[float, float]]],
                  closed: Collection[int] = ()) -> list[tuple[float, float]]:
    """Opening hours over a number of days, in seconds from the first midnight.

    Parameters
    ----------
    days
        How many days, the first is day 0.
    first_weekday
        Weekday of day 0: 0 is Monday, 6 is Sunday.
    week
        Weekday -> hours as (from, to) in seconds from midnight; a weekday left out is closed. An end beyond midnight runs into the next day.
    closed
        Days, counted from 0, on which it is closed.

    Returns
    -------
    (from, to) of each opening, in order. [s]

    Raises
    ------
    EntryError
        Hours that never open, run backwards, or are no numbers; a weekday that isn't one; too many days.

    Notes
    -----
    Range: a place without clock changes, or a calendar between two of them; with a zone, `moldcalc.schedule.dates` lays them out.
    Source: counting (exact).

    Examples
    --------
    Monday and Tuesday, from a Sunday on:

    >>> week_openings(days=3, first_weekday=6, week={0: [(28800, 61200)], 1: [(28800, 43200)]})
    [(115200.0, 147600.0), (201600.0, 216000.0)]
    """
    faults = list(_faults(days, first_weekday, week))
    if faults:
        raise EntryError(faults)
    out = [(day * DAY + a, day * DAY + b) for day in range(days) if day not in set(closed)
           for a, b in sorted(week.get((first_weekday + day) % 7, ())) if b > a]
    if not out:
        raise EntryError(Fault("the place", "never open", "open on at least one day of the calendar"))
    return out


def _faults(days: int, first_weekday: int, week: Mapping[int, Sequence[tuple[float, float]]]) -> list[Fault]:
    out = []
    if not 1 <= days <= MOST_DAYS:
        out.append(Fault("days", str(days), f"it must be from 1 to {MOST_DAYS}"))
    for weekday in (first_weekday, *week):
        if weekday not in range(7):
            out.append(Fault("weekday", str(weekday), "it must be from 0, Monday, to 6, Sunday"))
    for spans in week.values():
        for a, b in spans:
            if not (isfinite(a) and isfinite(b) and 0 <= a <= b <= 2 * DAY):
                said = "from {} to {}".format(*(show(x, "h") if isfinite(x) else str(x) for x in (a, b)))
                out.append(Fault("one opening", said, "give from and to, the first not after the second"))
    return out
