"""Seconds of a calendar as dates of a place and back: elapsed time is counted in UTC, hours are read off the local clock."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from math import isfinite
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.schedule.tasks import Room, Span
from moldcalc.units import show

MOST_DAYS = 3660
FARTHEST = 1e10


@dataclass(frozen=True)
class Place:
    """A zone and the first day: its local midnight is the calendar's zero."""

    zone: tzinfo
    first: date

    @property
    def zero(self) -> datetime:
        """The zero, in UTC."""
        return self.local(0, 0.0).astimezone(UTC)

    def local(self, day: int, clock: float) -> datetime:
        """The moment at which the local clock of a day, counted from 0, shows so many seconds after midnight."""
        days, rest = divmod(clock, 86400.0)
        on = datetime.combine(self.first + timedelta(days=day + int(days)), datetime.min.time())
        return (on + timedelta(seconds=rest)).replace(tzinfo=self.zone)

    def seconds(self, moment: datetime) -> float:
        """Elapsed seconds from the zero to a moment; a time without a zone is read off the local clock."""
        aware = moment if moment.tzinfo is not None else moment.replace(tzinfo=self.zone)
        return (aware.astimezone(UTC) - self.zero).total_seconds()

    def moment(self, seconds: float) -> datetime:
        """The local time so many elapsed seconds after the zero."""
        return self.utc(seconds).astimezone(self.zone)

    def utc(self, seconds: float) -> datetime:
        """The same in UTC."""
        if not isfinite(seconds) or abs(seconds) > FARTHEST:
            raise EntryError(Fault("time", str(seconds), "it must be a finite number of seconds within three hundred years"))
        return self.zero + timedelta(seconds=seconds)


def place(zone: str | tzinfo, first: date) -> Place:
    """A place from its zone, by name or as it is, and the calendar's first day.

    Parameters
    ----------
    zone
        A name of the zone database, 'Europe/Berlin', or a zone.
    first
        The first day.

    Returns
    -------
    The place.

    Raises
    ------
    EntryError
        A zone that is not known here.

    Notes
    -----
    Range: as far as the zone database knows; on systems that have none the package tzdata brings it.
    Source: IANA time zone database through Python's zoneinfo.

    Examples
    --------
    A day of cure over the night on which clocks go forward:

    >>> here = place("Europe/Berlin", date(2026, 3, 28))
    >>> start = here.seconds(datetime(2026, 3, 28, 20))
    >>> here.moment(start + 24 * 3600).strftime("%Y-%m-%d %H:%M")
    '2026-03-29 21:00'
    """
    if isinstance(zone, str):
        try:
            return Place(ZoneInfo(zone), first)
        except (ZoneInfoNotFoundError, ValueError, OSError):
            raise EntryError(Fault("time zone", clipped(zone), "give a name of the zone database, like Europe/Berlin")) from None
    return Place(zone, first)


def openings(here: Place, days: int, week: Mapping[int, Sequence[Span]], closed: Collection[date] = ()) -> tuple[Span, ...]:
    """Opening hours by the local clock, over a number of days, in elapsed seconds from the zero.

    Parameters
    ----------
    here
        The place.
    days
        How many days, the first is the place's.
    week
        Weekday (0 is Monday) -> (from, to) by the local clock, in seconds from midnight; a weekday left out is closed.
    closed
        Dates on which it is closed.

    Returns
    -------
    (from, to) of each opening. [s]

    Raises
    ------
    EntryError
        Hours that never open, run backwards or are no numbers; too many days.

    Notes
    -----
    Range: an opening over the hour that is left out or comes twice is an hour shorter or longer, as people find it.
    Source: local clock to UTC by the zone's rules.
    """
    _refuse_days(days)
    for spans in week.values():
        for a, b in spans:
            if not (isfinite(a) and isfinite(b) and 0 <= a <= b <= 2 * 86400):
                said = "from {} to {}".format(*(show(x, "h") if isfinite(x) else str(x) for x in (a, b)))
                raise EntryError(Fault("one opening", said, "give from and to, the first not after the second"))
    out = []
    for day in range(days):
        on = here.first + timedelta(days=day)
        if on not in closed:
            for a, b in sorted(week.get(on.weekday(), ())):
                span = here.seconds(here.local(day, a)), here.seconds(here.local(day, b))
                if span[1] > span[0]:
                    out.append(span)
    if not out:
        raise EntryError(Fault("the place", "never open", "open on at least one day of the calendar"))
    return tuple(out)


def midnights(here: Place, days: int) -> tuple[float, ...]:
    """The start of each day, and the end of the last, in elapsed seconds. [s]"""
    _refuse_days(days)
    return tuple(here.seconds(here.local(day, 0.0)) for day in range(days + 1))


def room(here: Place, days: int, *, day_temperature: float, night_temperature: float, night_from: float, night_to: float) -> Room:
    """The room's temperature by day and by night, over a number of days.

    Parameters
    ----------
    here, days
        The place, and how many days.
    day_temperature, night_temperature
        Steady by day and by night. [K]
    night_from, night_to
        Local clock times between which it is night; the night may run over midnight. [s]

    Returns
    -------
    The room, in elapsed seconds.

    Raises
    ------
    EntryError
        A night that ends as it begins, or too many days.

    Notes
    -----
    Range: the room changes at once.
    Source: local clock to UTC by the zone's rules.
    """
    _refuse_days(days)
    if night_from == night_to:
        raise EntryError(Fault("night to", "the same clock time as night from", "give the time at which the night ends"))
    begins = night_temperature if night_from > night_to else day_temperature
    turns = sorted([(night_from, night_temperature), (night_to, day_temperature)])
    times, temperatures = [0.0], [begins]
    for day in range(days):
        for clock, temperature in turns:
            times.append(max(times[-1], here.seconds(here.local(day, clock))))
            temperatures.append(temperature)
    return Room(tuple(times), tuple(temperatures))


def _refuse_days(days: int) -> None:
    if not 1 <= days <= MOST_DAYS:
        raise EntryError(Fault("days", str(days), f"it must be from 1 to {MOST_DAYS}"))
