"""Reads the log of a temperature logger, with what goes wrong in real ones said aloud."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import pairwise
from statistics import median

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.cure.clock import mend_clock
from moldcalc.stages.cure.columns import Reading, read_rows
from moldcalc.units import show

#: longer than this between two readings is said
MOST_GAP = 7200.0


@dataclass(frozen=True)
class TemperatureLog:
    """Readings in order of time, and all that was done to get them so.

    ``times`` are seconds after ``first``, ``temperatures`` K; ``notes`` says in sentences what was handled;
    ``gaps`` are (start, end) in seconds after the first reading, ``bridged`` their sum.
    """

    times: list[float]
    temperatures: list[float]
    first: datetime
    notes: list[str] = field(default_factory=list)
    gaps: list[tuple[float, float]] = field(default_factory=list)
    bridged: float = 0.0
    skipped: int = 0


def read_log(text: str, *, unit: str | None = None, day_first: bool | None = None, column: str | None = None,
             most_gap: float = MOST_GAP) -> TemperatureLog:
    """The readings of a logger's file, from its text.

    Parameters
    ----------
    text
        Rows of time and temperature, with headings or without; separated by comma, semicolon or tab; decimal comma
        where the separator leaves it free; times as 2025-10-26 02:10, 26.10.2025 02:10 or 10/26/2025 02:10, with an
        offset to UTC or without.
    unit
        '°C', '°F' or 'K', where neither heading nor readings say it.
    day_first
        Whether 03/04/2025 is the 3rd of April, where no row decides it.
    column
        Heading of the temperature wanted, where there are several.
    most_gap
        Longest time between readings that is not called a gap. [s]

    Returns
    -------
    The log.

    Raises
    ------
    EntryError
        One sentence: which row can't be read, or what the file leaves open.

    Notes
    -----
    Rows out of order are sorted; the same row twice counts once; two readings at one time are averaged; rows without a
    reading are skipped; a gap is bridged by a straight line. The hour that a clock goes through twice, or leaves out,
    when summer time changes is put right where the rows show it. All of it is said in ``notes``.

    Examples
    --------
    >>> log = read_log("time;temp °C\\n26.10.2025 18:00;19,5\\n26.10.2025 18:10;19,4\\n")
    >>> log.times, [round(t, 2) for t in log.temperatures], log.notes
    ([0.0, 600.0], [292.65, 292.55], [])
    """
    if not most_gap > 0:
        raise EntryError(Fault("longest gap", f"{most_gap:g}", "it must be above 0"))
    readings, skipped, notes = read_rows(text, unit=unit, day_first=day_first, column=column)
    readings, mended = mend_clock(_oldest_first(readings, notes))
    notes.extend(mended)
    readings = _one_each(_sorted(readings, notes), notes)
    first = readings[0].time
    times = [(reading.time - first).total_seconds() for reading in readings]
    gaps = _gaps(times, first, most_gap, notes)
    return TemperatureLog(times, [reading.temperature for reading in readings], first, notes, gaps,
                          sum((end - start for start, end in gaps), 0.0), skipped)


def _oldest_first(readings: list[Reading], notes: list[str]) -> list[Reading]:
    falls = sum(after.time < before.time for before, after in pairwise(readings))
    rises = sum(after.time > before.time for before, after in pairwise(readings))
    if falls <= rises:
        return readings
    notes.append("The rows were written newest first; they were turned round.")
    return readings[::-1]


def _sorted(readings: list[Reading], notes: list[str]) -> list[Reading]:
    out = sum(after.time < before.time for before, after in pairwise(readings))
    if not out:
        return readings
    notes.append(f"Rows were out of order in {_count(out, 'place')}; they were sorted by time.")
    return sorted(readings, key=lambda reading: reading.time)


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _one_each(readings: list[Reading], notes: list[str]) -> list[Reading]:
    """One reading for each time: the same twice counts once, different ones are averaged."""
    kept: list[Reading] = []
    doubles = differing = at = 0
    while at < len(readings):
        end = at + 1
        while end < len(readings) and readings[end].time == readings[at].time:
            end += 1
        distinct = {reading.temperature for reading in readings[at:end]}
        doubles += end - at - len(distinct)
        differing += len(distinct) > 1
        kept.append(Reading(readings[at].row, readings[at].time, sum(sorted(distinct)) / len(distinct)))
        at = end
    if doubles:
        notes.append(f"{_count(doubles, 'row')} repeated another row; each was counted once.")
    if differing:
        notes.append(f"At {_count(differing, 'time')} two different readings stood; their mean was taken.")
    return kept


def _gaps(times: Sequence[float], first: datetime, most_gap: float, notes: list[str]) -> list[tuple[float, float]]:
    gaps = [(start, end) for start, end in pairwise(times) if end - start > most_gap]
    if gaps:
        start, end = max(gaps, key=lambda gap: gap[1] - gap[0])
        where = "from {:%Y-%m-%d %H:%M} to {:%Y-%m-%d %H:%M}".format(*(first + timedelta(seconds=s) for s in (start, end)))
        total = show(sum(end - start for start, end in gaps), "h")
        usual = show(median([end - start for start, end in pairwise(times)]), "min")
        notes.append(f"{_count(len(gaps), 'gap')} longer than {show(most_gap, 'h')} (usual step {usual}), the longest {where}: "
                     f"{total} in all {'was' if len(gaps) == 1 else 'were'} bridged by a straight line.")
    return gaps
