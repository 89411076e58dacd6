"""A calendar as text that calendar programs read: iCalendar, RFC 5545."""

import hashlib
import unicodedata
from datetime import UTC, datetime, timedelta

from moldcalc.schedule.answer import Calendar
from moldcalc.schedule.dates import Place

#: a line's most octets, without its end
LINE = 75


def escaped(text: str) -> str:
    """Text as a property's value: backslash, comma, semicolon and line breaks written as RFC 5545, 3.3.11 asks; control characters left out."""
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    plain = "".join(c for c in plain if c in "\n\t" or unicodedata.category(c) not in ("Cc", "Cs", "Zl", "Zp"))
    return plain.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")


def folded(line: str) -> str:
    """A content line of at most 75 octets a piece, never cut inside a character (RFC 5545, 3.1)."""
    pieces, piece, size = [], "", 0
    for char in line:
        octets = len(char.encode("utf-8"))
        if size + octets > LINE:
            pieces.append(piece)
            piece, size = " ", 1
        piece, size = piece + char, size + octets
    return "\r\n".join([*pieces, piece])


def _utc(moment: datetime) -> str:
    return f"{moment.astimezone(UTC):%Y%m%dT%H%M%SZ}"


def uid(job: str, task: str) -> str:
    """A name of an event that stays the same as long as job and task do, so that a second import moves events instead of doubling them."""
    return hashlib.sha256(f"{job}\0{task}".encode("utf-8", "surrogatepass")).hexdigest()[:32] + "@moldcalc"


def ics_text(calendar: Calendar, here: Place, *, job: str, stamp: datetime | None = None) -> str:
    """A calendar as iCalendar text, one event a task, times in UTC.

    Parameters
    ----------
    calendar
        As solved.
    here
        Zone and first day.
    job
        Name of the job, for the calendar's title and the events' identity.
    stamp
        When the text was made, with a zone; None: the calendar's zero.

    Returns
    -------
    Text with CRLF line ends, as RFC 5545 asks; write it without changing line ends.

    Raises
    ------
    EntryError
        A time too far away to be a date.

    Notes
    -----
    Range: whole seconds, rounded; a task of no length has no end.
    Source: RFC 5545 (from memory): lines of 75 octets, text escaped, UTC times that need no zone rules.
    """
    made = _utc(stamp or here.zero)
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//moldcalc//calendar//EN", "CALSCALE:GREGORIAN", f"X-WR-CALNAME:{escaped(job)}"]
    for one in calendar.booked:
        start, end = (here.utc(round(t)) for t in (one.start, one.end))
        lines += ["BEGIN:VEVENT", f"UID:{uid(job, one.task)}", f"DTSTAMP:{made}", f"DTSTART:{_utc(start)}"]
        if end - start >= timedelta(seconds=1):
            lines.append(f"DTEND:{_utc(end)}")
        lines.append(f"SUMMARY:{escaped(one.task)}")
        if one.people:
            lines.append(f"DESCRIPTION:{escaped(', '.join(one.people))}")
        lines += [f"CATEGORIES:{escaped(one.kind)}", "STATUS:CONFIRMED", "END:VEVENT"]
    return "\r\n".join(folded(line) for line in [*lines, "END:VCALENDAR"]) + "\r\n"
