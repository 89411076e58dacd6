"""Puts right a logger's clock that went through an hour twice, or left one out, when summer time changed."""

from datetime import timedelta
from itertools import pairwise
from statistics import median

from moldcalc.stages.cure.columns import Reading

HOUR = 3600.0
#: clocks are changed at night; forward on Sundays of these months, north or south
SMALL_HOURS = range(4)
FORWARD_MONTHS = (3, 4, 9, 10)
BACK_MONTHS = (3, 4, 10, 11)


def mend_clock(readings: list[Reading]) -> tuple[list[Reading], list[str]]:
    """Readings whose times run on through a change of the clock, and what was said about it.

    A backward jump of an hour (less one step) at night, after which readings of the hour before are given again, is
    the clock going back; the file's order tells which of the two hours is meant. A forward jump of an hour (and one
    step) on a Sunday night of a month in which clocks go forward is the clock going forward, not a gap. Times with
    an offset to UTC need none of this.
    """
    if len(readings) < 3 or readings[0].time.tzinfo is not None:
        return readings, []
    jumps = [(after.time - before.time).total_seconds() for before, after in pairwise(readings)]
    steps = [jump for jump in jumps if jump > 0]
    if not steps:
        return readings, []
    step = median(steps)
    slack = min(max(60.0, 0.1 * step), 600.0)
    shift, mended, notes = 0.0, [readings[0]], []
    for i, jump in enumerate(jumps):
        reading = readings[i + 1]
        when = f"{reading.time:%Y-%m-%d}"
        back = abs(jump - step + HOUR) <= slack
        if back and (_hour_again(readings, i + 1) if jump < 0 else jump == 0 and _hourly_again(readings[i], reading)):
            shift += HOUR
            notes.append(f"The clock went back an hour on {when}: rows from row {reading.row} on were moved an hour later.")
        elif abs(jump - step - HOUR) <= slack and _goes_forward(readings[i], reading):
            shift -= HOUR
            notes.append(f"The clock went forward an hour on {when}: that hour is not a gap, rows from row {reading.row} on were moved.")
        mended.append(Reading(reading.row, reading.time + timedelta(seconds=shift), reading.temperature) if shift else reading)
    return mended, notes


def _hour_again(readings: list[Reading], at: int) -> bool:
    """Rows from ``at`` on go through times that rows just before went through, at night, and are no mere copies."""
    start, end = readings[at].time, readings[at - 1].time
    if start.hour not in SMALL_HOURS:
        return False
    first = at - 1
    while first > 0 and start <= readings[first - 1].time < readings[first].time:
        first -= 1
    last = at
    while last + 1 < len(readings) and readings[last].time < readings[last + 1].time <= end:
        last += 1
    before, again = readings[first:at], readings[at : last + 1]
    if len(before) < 2:  # a row or two swapped, not an hour
        return False
    copies = {(reading.time, reading.temperature) for reading in before}
    return start.weekday() == 6 or any((reading.time, reading.temperature) not in copies for reading in again)


def _hourly_again(before: Reading, after: Reading) -> bool:
    """In an hourly log the hour that comes twice is one time with two readings, on a Sunday night in spring or autumn."""
    night = after.time.weekday() == 6 and after.time.month in BACK_MONTHS and after.time.hour in SMALL_HOURS
    return night and before.temperature != after.temperature


def _goes_forward(before: Reading, after: Reading) -> bool:
    """Whether one whole hour of a Sunday's small hours lies between two readings."""
    if after.time.weekday() != 6 or after.time.month not in FORWARD_MONTHS:
        return False
    full = after.time.replace(minute=0, second=0, microsecond=0)
    return any(before.time < full.replace(hour=hour) and after.time >= full.replace(hour=hour + 1) for hour in SMALL_HOURS)
