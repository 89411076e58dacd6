"""A calendar as rows: CSV for a spreadsheet, days for the wall, windows for a picture."""

import csv
import io
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

import numpy as np

from moldcalc.schedule.answer import Booked, Calendar
from moldcalc.schedule.dates import Place
from moldcalc.schedule.tables import Clock
from moldcalc.schedule.tasks import Cure, Problem, Span, common, merged

HEADINGS = ("task", "kind", "from", "to", "from (UTC)", "to (UTC)", "people", "overtime h", "done")
#: a cell that begins so is a formula to a spreadsheet
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "|", "%")


def guarded(text: str) -> str:
    """A cell of one line that a spreadsheet takes for text."""
    line = " ".join(text.split())
    return f"'{line}" if line.startswith(_FORMULA) else line


def csv_text(calendar: Calendar, here: Place) -> str:
    """A calendar as CSV, in order of time: local times to the minute for people, UTC to the second for programs.

    Parameters
    ----------
    calendar
        As solved.
    here
        Zone and first day.

    Returns
    -------
    Text with a line of headings and a row a task.

    Raises
    ------
    EntryError
        A time too far away to be a date.

    Notes
    -----
    Range: a name that would be a formula in a spreadsheet gets an apostrophe before it; line breaks become blanks.
    Source: RFC 4180 (from memory).
    """
    out = io.StringIO()
    rows = csv.writer(out)
    rows.writerow(HEADINGS)
    for one in sorted(calendar.booked, key=lambda one: (one.start, one.end)):
        local = [f"{here.moment(round(t)):%Y-%m-%d %H:%M}" for t in (one.start, one.end)]
        utc = [f"{here.utc(round(t)):%Y-%m-%dT%H:%M:%SZ}" for t in (one.start, one.end)]
        words = [guarded(one.task), guarded(one.kind), *local, *utc, guarded(", ".join(one.people))]
        rows.writerow([*words, f"{one.overtime / 3600:g}", "yes" if one.done else ""])
    return out.getvalue()


@dataclass(frozen=True)
class Part:
    """A task on one day: elapsed [s] from the calendar's zero, and the local clock, in seconds after midnight, that it begins and ends at."""

    task: str
    kind: str
    start: float
    end: float
    from_clock: float
    to_clock: float
    people: tuple[str, ...]
    goes_on: bool
    came: bool
    done: bool


@dataclass(frozen=True)
class WallDay:
    """One day on the wall: its date, opening hours and overtime by the local clock [s after midnight], and what is done."""

    on: date
    opening: tuple[Span, ...]
    overtime: tuple[Span, ...]
    parts: tuple[Part, ...]

    @property
    def closed(self) -> bool:
        """Whether nobody is there all day."""
        return not self.opening and not self.overtime


def wall(problem: Problem, calendar: Calendar, here: Place) -> tuple[WallDay, ...]:
    """A calendar day by day for the wall, from its first day to the one on which it ends.

    Parameters
    ----------
    problem
        Its opening hours and midnights.
    calendar
        As solved.
    here
        Zone and first day.

    Returns
    -------
    One row a day. A task over closing time is on both days; what runs by itself at night is on every day that it touches.

    Raises
    ------
    EntryError
        A time too far away to be a date.
    """
    last = max([calendar.end, *(one.end for one in calendar.booked)])
    days = [*problem.days, problem.horizon] if problem.days[-1] < problem.horizon - 1e-6 else list(problem.days)
    out: list[WallDay] = []
    for a, b in pairwise(days):
        if a < last - 1e-6 or not out:
            day = ((a, b),)
            parts = [part for one in calendar.booked for part in _parts(problem, one, (a, b), here)]
            clocks = [tuple(_clocks(common(spans, day), a, here)) for spans in (problem.opening, problem.overtime)]
            out.append(WallDay(here.moment(a).date(), clocks[0], clocks[1], tuple(sorted(parts, key=lambda part: (part.start, part.end)))))
    return tuple(out)


def _clocks(spans: tuple[Span, ...], midnight: float, here: Place) -> list[Span]:
    return [(_clock(a, midnight, here), _clock(b, midnight, here)) for a, b in spans]


def _clock(at: float, midnight: float, here: Place) -> float:
    """What the local clock shows, in seconds after the midnight of that day; 24 h at its end."""
    moment, start = here.moment(at), here.moment(midnight)
    return (moment.replace(tzinfo=None) - start.replace(tzinfo=None)).total_seconds()


def _parts(problem: Problem, one: Booked, day: Span, here: Place) -> list[Part]:
    inside = common(((one.start, one.end),), (day,))
    if one.start == one.end and day[0] <= one.start < day[1]:
        inside = ((one.start, one.end),)
    hours = merged((*problem.opening, *problem.overtime))
    if one.people and not one.done and common(((one.start, one.end),), hours):
        inside = common(inside, hours)  # hands rest while it is closed
    return [Part(one.task, one.kind, a, b, _clock(a, day[0], here), _clock(b, day[0], here), one.people,
                 b < one.end - 1e-6, a > one.start + 1e-6, one.done) for a, b in inside]


@dataclass(frozen=True)
class Window:
    """Between two tasks of a calendar: when the one before ended, from when until when the one after could start, and when it does. [s]"""

    before: str
    after: str
    since: float
    earliest: float | None
    latest: float | None
    starts: float


def windows(problem: Problem, calendar: Calendar) -> tuple[Window, ...]:
    """The windows of a calendar as they fall at the room's temperature, for a picture and a table. [s]"""
    clock, out = Clock(problem.room), []
    booked = {one.task: one for one in calendar.booked}

    def after(since: float, wait: float | None, cure: Cure | None) -> float | None:
        return None if wait is None else float(clock.after(np.array([since]), wait, cure)[0])

    for gap in problem.gaps:
        if gap.before in booked and gap.after in booked and (gap.latest is not None or gap.earliest):
            since = booked[gap.before].start if gap.from_start else booked[gap.before].end
            out.append(Window(gap.before, gap.after, since, after(since, gap.earliest, gap.cure), after(since, gap.latest, gap.cure),
                              booked[gap.after].start))
    return tuple(out)
