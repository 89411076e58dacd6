"""Calendars as text: read by a calendar library, harmless in a spreadsheet, right over changes of the clock."""

import csv
import io
from datetime import UTC, date, datetime

import icalendar
import pytest

from moldcalc.errors import EntryError
from moldcalc.scan.progress import finish
from moldcalc.schedule.answer import Booked, Calendar
from moldcalc.schedule.dates import midnights, openings, place, room
from moldcalc.schedule.ics import escaped, folded, ics_text, uid
from moldcalc.schedule.sheet import csv_text, guarded, wall, windows
from moldcalc.schedule.solve import solve
from moldcalc.schedule.tasks import DAY, Cure, Gap, Person, Problem, Task

HOUR = 3600.0
BERLIN = place("Europe/Berlin", date(2026, 3, 28))
NAMES = ["=cmd()", "+1; -2, \\n", "two\nlines", "two\r\nlines\r", "BEGIN:VEVENT\nEND:VCALENDAR", "é" * 80, "見本" * 60, "a\x00b\x07", "tab\there",
         "👩‍🎨" * 30,
         "\u2028separator", '"quoted"', "@x", " =padded", "x" * 200, "%0A", ""]


def booked(names):
    rows = [Booked(name, "coat", i * HOUR + 0.4, (i + 1) * HOUR, ("Ada", "Ben, jr.")) for i, name in enumerate(names)]
    return Calendar(tuple(rows), len(rows) * HOUR, 0.0, 0.0, 0.0, 0.0, HOUR)


def shown(text):
    """What a reader sees of a name: no control characters, line ends all alike."""
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(c for c in plain if c in "\n\t" or (ord(c) >= 32 and c not in "\u2028\u2029\x7f"))


def test_a_calendar_library_reads_what_is_written():
    text = ics_text(booked(NAMES), BERLIN, job="Hare; six, \n=casts")
    read = icalendar.Calendar.from_ical(text)
    events = [part for part in read.walk() if part.name == "VEVENT"]
    assert len(events) == len(NAMES) and not read.errors and not any(event.errors for event in events)
    for i, (event, name) in enumerate(zip(events, NAMES, strict=True)):
        assert str(event["SUMMARY"]) == shown(name)
        assert event.decoded("DTSTART") == datetime(2026, 3, 27, 23 + i, tzinfo=UTC) if i == 0 else True
        assert event.decoded("DTSTART").utcoffset().total_seconds() == 0
        assert (event.decoded("DTEND") - BERLIN.zero).total_seconds() == (i + 1) * HOUR
        assert str(event["DESCRIPTION"]) == "Ada, Ben, jr."
    assert icalendar.Calendar.from_ical(read.to_ical()).to_ical() == read.to_ical(), "round trip"
    assert len({str(event["UID"]) for event in events}) == len(NAMES)


def test_lines_are_folded_at_75_octets_and_end_with_crlf():
    text = ics_text(booked(NAMES), BERLIN, job="x" * 300)
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "") and "\r" not in text.replace("\r\n", "")
    assert max(len(line.encode()) for line in text.split("\r\n")) <= 75
    assert folded("é" * 100).replace("\r\n ", "") == "é" * 100
    assert text.count("\r\nEND:VEVENT\r\n") == len(NAMES), "a name can't end an event"


def test_the_same_job_has_the_same_events():
    assert ics_text(booked(NAMES), BERLIN, job="hare") == ics_text(booked(NAMES), BERLIN, job="hare")
    assert uid("hare", "print") == uid("hare", "print") != uid("bust", "print")
    assert escaped("a,b;c\\d\ne") == "a\\,b\\;c\\\\d\\ne"


def test_csv_is_harmless_and_complete():
    rows = list(csv.reader(io.StringIO(csv_text(booked(NAMES), BERLIN))))
    assert len(rows) == len(NAMES) + 1 and all(len(row) == len(rows[0]) for row in rows)
    assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for row in rows[1:] for cell in row)
    assert guarded("=cmd()") == "'=cmd()" and guarded(" =x\ny") == "'=x y"
    assert rows[1][2:4] == ["2026-03-28 00:00", "2026-03-28 01:00"] and rows[1][4] == "2026-03-27T23:00:00Z"


# over a change of the clock -------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("zone", "first", "night"), [
    ("Europe/Berlin", date(2026, 3, 28), 15), ("America/New_York", date(2026, 10, 31), 17), ("Asia/Tokyo", date(2026, 3, 28), 16)])
def test_a_night_is_as_long_as_it_is(zone, first, night):
    """17:00 to 09:00 is 16 h by the clock; it lasts 15 h when clocks go forward, 17 h when they go back."""
    here = place(zone, first)
    spans = openings(here, 2, {weekday: [(9 * HOUR, 17 * HOUR)] for weekday in range(7)})
    assert spans[1][0] - spans[0][1] == night * HOUR
    assert midnights(here, 2)[1] in (DAY, DAY - HOUR, DAY + HOUR)
    temperature = room(here, 2, day_temperature=292.15, night_temperature=287.15, night_from=17 * HOUR, night_to=9 * HOUR)
    turns = [t for t, kelvin in zip(temperature.times, temperature.temperatures, strict=True) if t > 0]
    assert turns[2] - turns[1] == night * HOUR


@pytest.mark.parametrize(("zone", "first", "clock"), [
    ("Europe/Berlin", date(2026, 3, 28), "10:00"), ("America/New_York", date(2026, 10, 31), "09:00"), ("Asia/Tokyo", date(2026, 3, 28), "09:00")])
def test_a_cure_of_16_hours_over_that_night(zone, first, clock):
    """From 17:00, 16 h are over at 10:00 when clocks went forward, at 08:00, before opening at 09:00, when they went back."""
    here = place(zone, first)
    spans = openings(here, 3, {weekday: [(9 * HOUR, 17 * HOUR)] for weekday in range(7)})
    problem = Problem((Task("coat", 8 * HOUR), Task("trim", HOUR)), (Gap("coat", "trim", 16 * HOUR),), opening=spans,
                      days=midnights(here, 3)[:-1], horizon=midnights(here, 3)[-1])
    found = finish(solve(problem))
    assert f"{here.moment(found.of('trim').start):%H:%M}" == clock
    days = wall(problem, found, here)
    assert len(days) == 2 and days[1].opening == ((9 * HOUR, 17 * HOUR),) and days[1].parts[0].from_clock == float(clock[:2]) * HOUR


def test_the_wall_has_closed_days_and_tasks_over_closing_time():
    here = place("Europe/Berlin", date(2026, 6, 5))  # a Friday
    spans = openings(here, 5, {weekday: [(9 * HOUR, 17 * HOUR)] for weekday in range(5)}, closed=[date(2026, 6, 8)])
    problem = Problem((Task("long", 10 * HOUR, splittable=True, kind="base"),), opening=spans,
                      days=midnights(here, 5)[:-1], horizon=midnights(here, 5)[-1])
    found = finish(solve(problem))
    days = wall(problem, found, here)
    assert [(day.on.day, day.closed, len(day.parts)) for day in days] == [(5, False, 1), (6, True, 0), (7, True, 0), (8, True, 0), (9, False, 1)]
    first, last = days[0].parts[0], days[-1].parts[0]
    assert first.goes_on and last.came and (first.to_clock, last.from_clock, last.to_clock) == (17 * HOUR, 9 * HOUR, 11 * HOUR)


def test_windows_for_the_picture():
    cure = Cure(293.15, 45e3)
    problem = Problem((Task("a", HOUR), Task("b", HOUR)), (Gap("a", "b", 2 * HOUR, 6 * HOUR, cure),), people=(Person("1"),),
                      opening=((8 * HOUR, 17 * HOUR),), horizon=DAY)
    (window,) = windows(problem, finish(solve(problem)))
    assert (window.since, window.earliest, window.latest, window.starts) == (9 * HOUR, 11 * HOUR, 15 * HOUR, 11 * HOUR)


@pytest.mark.parametrize(("call", "says"), [
    (lambda: place("Atlantis/Harbour", date(2026, 1, 1)), "time zone is Atlantis/Harbour; give a name of the zone database"),
    (lambda: place("../../etc/passwd", date(2026, 1, 1)), "time zone is"),
    (lambda: openings(BERLIN, 3, {}), "the place is never open"),
    (lambda: openings(BERLIN, 3, {0: [(17 * HOUR, 9 * HOUR)]}), "one opening is from 17 h to 9 h"),
    (lambda: openings(BERLIN, 0, {0: [(9 * HOUR, 17 * HOUR)]}), "days is 0"),
    (lambda: BERLIN.moment(float("nan")), "time is nan"),
    (lambda: room(BERLIN, 2, day_temperature=290.0, night_temperature=280.0, night_from=1.0, night_to=1.0), "the same clock time as night from"),
])
def test_what_can_not_be_is_named(call, says):
    with pytest.raises(EntryError, match=says):
        call()
