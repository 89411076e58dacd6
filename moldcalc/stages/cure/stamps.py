"""Reads the times in a logger's file: ISO, 26.10.2025 14:10, 10/26/2025 2:10 PM."""

import re
from datetime import datetime, timedelta

from moldcalc.errors import EntryError, Fault, clipped

_ISO = re.compile(r"^\d{4}-\d{2}-\d{2}(?:[T ]\s*\d{1,2}:\d{2}.*)?$", re.IGNORECASE)
_SLASHED_ISO = re.compile(r"^(\d{4})[/.](\d{1,2})[/.](\d{1,2})(?=[T ]|$)")
_CIVIL = re.compile(
    r"^(?P<one>\d{1,2})(?P<mark>[./-])(?P<two>\d{1,2})(?P=mark)(?P<year>\d{4}|\d{2}),?"
    r"(?:[T ]\s*(?P<hour>\d{1,2}):(?P<minute>\d{2})(?::(?P<second>\d{2})(?:[.,]\d+)?)?\s*(?P<half>[AaPp])?\.?(?(half)[Mm]\.?)"
    r"\s*(?P<offset>Z|[+-]\d{2}:?\d{2})?)?$"
)
_ASK = "write the day of the month first or the month first, and say which (day_first)"


def is_stamp(value: str) -> bool:
    """Whether a cell begins as a date."""
    return len(value) <= 40 and bool(_ISO.match(value) or _SLASHED_ISO.match(value) or _CIVIL.match(value))


class Stamps:
    """The times of a file; which of two numbers is the day is settled by all rows together."""

    def __init__(self, day_first: bool | None) -> None:
        self.day_first = day_first
        self.rows: list[tuple[int, datetime | re.Match[str]]] = []
        self.firsts = self.seconds = 0  # the largest number in each of the two places

    def add(self, row: int, text: str) -> None:
        """Take one row's time."""
        civil = _CIVIL.match(text) if len(text) <= 48 else None
        if civil:
            if civil["hour"] is None:
                raise EntryError(Fault(f"row {row} of the log", clipped(text), "give the time of day too"))
            if civil["mark"] != ".":
                self.firsts, self.seconds = max(self.firsts, int(civil["one"])), max(self.seconds, int(civil["two"]))
            self.rows.append((row, civil))
        else:
            self.rows.append((row, _iso(row, text)))

    def times(self) -> list[datetime]:
        """All times, either all with an offset to UTC or none."""
        day_first = self._day_first()
        made = [(row, stamp if isinstance(stamp, datetime) else _civil(row, stamp, day_first)) for row, stamp in self.rows]
        with_offset = made[0][1].tzinfo is not None
        for row, time in made:
            if (time.tzinfo is not None) != with_offset:
                was = "with an offset to UTC" if time.tzinfo is not None else "without an offset to UTC"
                raise EntryError(Fault(f"time in row {row} of the log", was, "give all times with an offset or all without"))
        return [time for _, time in made]

    def _day_first(self) -> bool:
        if not self.firsts:
            return True
        example = next(stamp[0] for _, stamp in self.rows if not isinstance(stamp, datetime) and stamp["mark"] != ".")
        if self.firsts > 12 and self.seconds > 12:
            raise EntryError(Fault("date in the log", clipped(example), "some rows have the day first and some the month; write all alike"))
        if self.firsts > 12 or self.seconds > 12:
            settled = self.firsts > 12
            if self.day_first not in (None, settled):
                place = "day" if settled else "month"
                raise EntryError(Fault("date in the log", clipped(example), f"other rows show that the {place} comes first"))
            return settled
        if self.day_first is None:
            raise EntryError(Fault("date in the log", f"{clipped(example)}, which can be read in two ways", _ASK))
        return self.day_first


def _iso(row: int, text: str) -> datetime:
    line = _SLASHED_ISO.sub(lambda found: f"{found[1]}-{int(found[2]):02}-{int(found[3]):02}", text)
    line = re.sub(r"\s+(Z|UTC|[+-]\d{2}:?\d{2})$", r"\1", line).replace("UTC", "Z")
    line = re.sub(r"^(\d{4}-\d{2}-\d{2})[Tt ]\s*(\d):", r"\1 0\2:", line)
    try:
        if not _ISO.match(line) or len(line) > 40:
            raise ValueError
        time = datetime.fromisoformat(line)
    except ValueError:
        raise EntryError(Fault(f"row {row} of the log", clipped(text) or "without a time", "write its time like 2025-10-26 14:10")) from None
    if len(line) <= 10:
        raise EntryError(Fault(f"row {row} of the log", clipped(text), "give the time of day too"))
    return _sane(row, text, time)


def _civil(row: int, found: re.Match[str], day_first: bool) -> datetime:
    one, two, year = int(found["one"]), int(found["two"]), int(found["year"])
    day, month = (one, two) if day_first or found["mark"] == "." else (two, one)
    hour, half = int(found["hour"]), (found["half"] or "").lower()
    if half and 1 <= hour <= 12:
        hour = hour % 12 + (12 if half == "p" else 0)
    offset = (found["offset"] or "").replace("Z", "+00:00")
    try:
        year += 2000 if year < 100 else 0
        line = f"{year:04}-{month:02}-{day:02} {hour:02}:{found['minute']}:{found['second'] or '00'}{offset}"
        time = datetime.fromisoformat(line)
    except ValueError:
        raise EntryError(Fault(f"row {row} of the log", clipped(found[0]), "there is no such time")) from None
    return _sane(row, found[0], time)


def _sane(row: int, text: str, time: datetime) -> datetime:
    if not 1990 <= time.year <= 2200 or (time.utcoffset() or timedelta()) > timedelta(hours=15):
        raise EntryError(Fault(f"row {row} of the log", clipped(text), "check the logger's clock; the year must lie between 1990 and 2200"))
    return time
