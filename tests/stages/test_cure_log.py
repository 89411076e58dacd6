"""Logs as loggers write them: what is read, what is put right and said, what is refused."""

import time
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages.cure import read_log


def celsius(log):
    return [round(kelvin - 273.15, 6) for kelvin in log.temperatures]


READ = [
    # text, seconds, °C
    ("time,temp (°C)\n2025-11-03 10:00,19.5\n2025-11-03 10:10,19.6\n", [0, 600], [19.5, 19.6]),
    ("\ufefftimestamp;Temperatur [°C]\r\n03.11.2025 10:00;19,5\r\n03.11.2025 10:10:30;19,6\r\n", [0, 630], [19.5, 19.6]),
    ("Time\ttemp_f\n11/13/2025 10:00 PM\t68\n11/13/2025 11:00 PM\t50\n", [0, 3600], [20, 10]),
    ("13/11/2025 22:00,20 °C\n13/11/2025 23:00,10C\n", [0, 3600], [20, 10]),
    ("No,Date,Time,Temperature (°C),Dew point (°C),RH\n1,2025-11-03,10:00,19.5,9,50\n2,2025-11-03,10:10,19.6,9,50\n", [0, 600], [19.5, 19.6]),
    ('time,temp °C\n"2025-11-03 10:00","19,5"\n"2025-11-03 10:10","19,6"\n', [0, 600], [19.5, 19.6]),
    ("time,temperature K\n2025-11-03T10:00:00Z,293.15\n2025-11-03T12:10:00+02:00,283.15\n", [0, 600], [20, 10]),
    ("2025-11-03 10:00 +0100;20 °C\n2025-11-03 10:00 +0000;21 °C\n", [0, 3600], [20, 21]),
    ("time,Â°C temp\n2025-11-03 10:00,-5\n2025-11-03 10:10,\u22125.5\n", [0, 600], [-5, -5.5]),
    ("2025/11/3 10:00,68 °F\n2025/11/3 10:10,68 °F\n", [0, 600], [20, 20]),
    ("03.11.2025,10:00,20 °C\n03.11.2025,10:10,21 °C\n", [0, 600], [20, 21]),
]


@pytest.mark.parametrize(("text", "seconds", "degrees"), READ)
def test_what_is_read(text, seconds, degrees):
    log = read_log(text)
    assert log.times == seconds
    assert celsius(log) == pytest.approx(degrees)
    assert (log.notes, log.gaps, log.bridged, log.skipped) == ([], [], 0, 0)


def test_what_the_file_leaves_open_is_an_entry():
    bare = "2025-11-03 10:00,68\n2025-11-03 10:10,68\n"
    assert celsius(read_log(bare, unit="°F")) == [20, 20]
    slashes = "time,temp C\n03/04/2025 10:00,20\n04/04/2025 10:00,20\n"
    assert read_log(slashes, day_first=True).first == datetime(2025, 4, 3, 10)
    assert read_log(slashes, day_first=False).times[1] == 31 * 86400
    two = "time,Temp A °C,Temp B °C\n2025-11-03 10:00,19,20\n"
    assert celsius(read_log(two, column="Temp B °C")) == [20]


def rows(*readings):
    return "time,temp °C\n" + "".join(f"{when:%Y-%m-%d %H:%M},{degrees}\n" for when, degrees in readings)


AT = datetime(2025, 11, 3, 10)
STEP = timedelta(minutes=10)


def test_preamble_is_passed_over_and_said():
    log = read_log("Logger 7\nserial,12345\n\ntime,temp °C\n2025-11-03 10:00,19\n")
    assert log.notes == ["2 rows before the readings were passed over."]


def test_empty_readings_are_skipped_and_counted():
    log = read_log(rows((AT, 19), (AT + STEP, "nan"), (AT + 2 * STEP, ""), (AT + 3 * STEP, 20)) + "\n,\n2025-11-03 11:00,---\n")
    assert (log.times, log.skipped) == ([0, 1800], 3)
    assert log.notes == ["3 rows had no reading and were skipped."]


def test_rows_out_of_order_are_sorted_and_said():
    log = read_log(rows((AT, 19), (AT + 2 * STEP, 21), (AT + STEP, 20), (AT + 3 * STEP, 22)))
    assert (log.times, celsius(log)) == ([0, 600, 1200, 1800], [19, 20, 21, 22])
    assert log.notes == ["Rows were out of order in 1 place; they were sorted by time."]


def test_newest_first():
    log = read_log(rows((AT + 2 * STEP, 21), (AT + STEP, 20), (AT, 19)))
    assert (log.times, celsius(log)) == ([0, 600, 1200], [19, 20, 21])
    assert log.notes == ["The rows were written newest first; they were turned round."]


def test_doubles_count_once_and_differing_ones_are_averaged():
    log = read_log(rows((AT, 19), (AT, 19), (AT + STEP, 20), (AT + STEP, 21)))
    assert (log.times, celsius(log)) == ([0, 600], [19, 20.5])
    assert log.notes == ["1 row repeated another row; each was counted once.", "At 1 time two different readings stood; their mean was taken."]


def test_gaps_are_said_and_bridged():
    log = read_log(rows((AT, 19), (AT + STEP, 19), (AT + timedelta(hours=5), 20), (AT + timedelta(hours=8), 20)))
    assert log.gaps == [(600, 18000), (18000, 28800)]
    assert log.bridged == 28200
    assert log.notes == ["2 gaps longer than 2 h (usual step 3 h), the longest from 2025-11-03 10:10 to 2025-11-03 15:00: "
                         "7 h 50 min in all were bridged by a straight line."]
    assert read_log(rows((AT, 19), (AT + timedelta(hours=5), 20)), most_gap=6 * 3600).gaps == []


def local(start, minutes, count, change, by):
    """A naive local clock that is put forward or back by so many hours at a moment of its old time."""
    for i in range(count):
        true = start + timedelta(minutes=minutes * i)
        yield true if true < change else true + timedelta(hours=by), 20 - 0.01 * i


CHANGES = [
    # start, step, change (old time), by
    (datetime(2025, 10, 25, 20), 10, datetime(2025, 10, 26, 3), -1),
    (datetime(2025, 10, 25, 20), 1, datetime(2025, 10, 26, 3), -1),
    (datetime(2025, 11, 1, 20), 15, datetime(2025, 11, 2, 2), -1),
    (datetime(2026, 4, 4, 20), 30, datetime(2026, 4, 5, 3), -1),
    (datetime(2025, 10, 25, 20, 7), 10, datetime(2025, 10, 26, 3), -1),
    (datetime(2025, 10, 25, 20), 60, datetime(2025, 10, 26, 3), -1),
    (datetime(2025, 3, 29, 20), 10, datetime(2025, 3, 30, 2), 1),
    (datetime(2025, 3, 29, 20), 60, datetime(2025, 3, 30, 1), 1),
    (datetime(2025, 10, 4, 20), 30, datetime(2025, 10, 5, 2), 1),
]


@pytest.mark.parametrize(("start", "minutes", "change", "by"), CHANGES)
@pytest.mark.parametrize("turned", [False, True])
def test_a_change_of_the_clock_is_put_right_and_said(start, minutes, change, by, turned):
    count = 12 * 60 // minutes
    readings = list(local(start, minutes, count, change, by))
    log = read_log(rows(*(readings[::-1] if turned else readings)))
    assert log.times == [60 * minutes * i for i in range(count)]
    said = [note for note in log.notes if note.startswith("The clock went")]
    assert len(said) == 1
    assert ("forward" if by > 0 else "back") in said[0]
    assert f"{change:%Y-%m-%d}" in said[0]


NO_CHANGE = [
    # two rows swapped by night; a block of copies by night; a real gap on the same Sunday; by day
    ([(datetime(2025, 10, 26, 1), 19), (datetime(2025, 10, 26, 2), 19.1),
      (datetime(2025, 10, 26, 1, 30), 19.2), (datetime(2025, 10, 26, 2, 30), 19.3)],
     5400),
    ([(datetime(2025, 10, 21, 1) + STEP * i, 19 + i) for i in [*range(6), *range(6), *range(6, 9)]], 4800),
    ([(datetime(2025, 3, 30, 1) + STEP * i, 19) for i in [0, 1, 2, 9, 10]], 6000),
    ([(datetime(2025, 10, 26, 14) + STEP * i, 19 + k) for k in (0, 1) for i in range(7)], 3600),
]


@pytest.mark.parametrize(("readings", "last"), NO_CHANGE)
def test_what_is_no_change_of_the_clock(readings, last):
    log = read_log(rows(*readings))
    assert log.times[-1] == last
    assert not any("clock" in note for note in log.notes)


def test_times_with_an_offset_need_no_mending():
    start = datetime(2025, 10, 25, 23, tzinfo=UTC)
    summer, winter = timezone(timedelta(hours=2)), timezone(timedelta(hours=1))
    lines = "".join(f"{(start + STEP * i).astimezone(summer if i < 12 else winter).isoformat()},19 °C\n" for i in range(24))
    assert read_log(lines).times == [600 * i for i in range(24)]
    assert read_log(lines).notes == []


@given(order=st.permutations(range(12)))
def test_any_order_gives_the_same_log(order):
    day = datetime(2025, 11, 3, 10)
    log = read_log(rows(*((day + STEP * i, 19 + i) for i in order)))
    assert log.times == [600 * i for i in range(12)]
    assert celsius(log) == [19 + i for i in range(12)]


@given(text=st.text(max_size=400))
def test_any_text_is_read_or_refused(text):
    for line in (text, "time,temp °C\n" + text, "time,temp °C\n2025-11-03 10:00," + text):
        try:
            log = read_log(line)
        except EntryError as error:
            assert str(error).endswith(".")
        else:
            assert log.times == sorted(log.times)


H = "time,temp °C\n"
REFUSED = [
    ("", "log is without a single row of time and temperature; give rows like 2025-10-26 14:10, 19.5."),
    (H, "log is without a single row of time and temperature"),
    ("2025-11-03 10:00,19\n", "temperature column is without a unit; say whether its readings are in °C or °F."),
    (H + "03/04/2025 10:00,19\n", "date in the log is 03/04/2025 10:00, which can be read in two ways; write the day of the month first"),
    (H + "13/04/2025 10:00,19\n04/13/2025 10:10,19\n", "some rows have the day first and some the month"),
    (H + "2025-11-03 10:00,19\n2025-11-03 10:10,200\n", "row 3 of the log is 200 °C; a reading must lie between -40 and 120 °C"),
    (H + "2025-11-03 10:00,-41\n", "row 2 of the log is -41 °C"),
    (H + "2025-11-03 10:00,warm\n", "row 2 of the log is warm; its temperature must be a number, like 19.5."),
    (H + "2025-11-03 10:00,inf\n", "row 2 of the log is inf; its temperature must be a number"),
    (H + "yesterday,19\n", "row 2 of the log is yesterday; write its time like 2025-10-26 14:10."),
    (H + "2025-11-03,19\n", "row 2 of the log is 2025-11-03; give the time of day too."),
    (H + "31.02.2025 10:00,19\n", "row 2 of the log is 31.02.2025 10:00; there is no such time."),
    (H + "2025-11-03 10:00,19\n2025-11-03T10:10Z,19\n",
     "time in row 3 of the log is with an offset to UTC; give all times with an offset or all without."),
    (H + "2025-11-03 10:00,19,5\n", "row 2 of the log is 3 values where 2 are expected; with decimal commas, separate the columns by semicolons."),
    ("2025-11-03 10:00,19,5\n", "log is 3 columns without headings; give headings that name time and temperature"),
    ("time,temp A °C,temp B °C\n2025-11-03 10:00,19,5\n", "temperature column is one of temp A °C, temp B °C; say which heading to read."),
    ("time,temp °C or °F\n2025-11-03 10:00,19\n", "its heading names two units; say °C or °F."),
    (H + "0001-11-03 10:00,19\n", "check the logger's clock; the year must lie between 1990 and 2200."),
]


@pytest.mark.parametrize(("text", "says"), REFUSED)
def test_what_is_refused(text, says):
    with pytest.raises(EntryError) as error:
        read_log(text)
    assert says in str(error.value)


@pytest.mark.parametrize(("entries", "says"), [
    ({"unit": "Rankine"}, "unit of the log is Rankine; write °C, °F or K."),
    ({"column": "Probe 9"}, "temperature column is Probe 9; the headings are time, temp °C."),
    ({"most_gap": 0}, "longest gap is 0; it must be above 0."),
])
def test_a_wrong_choice_is_refused(entries, says):
    with pytest.raises(EntryError) as error:
        read_log(H + "2025-11-03 10:00,19\n", **entries)
    assert says in str(error.value)


def test_a_log_may_be_long_but_not_endless():
    with pytest.raises(EntryError, match="it may have 100000000 at most"):
        read_log("x" * 100_000_001)
    with pytest.raises(EntryError, match="log is longer than 1000000 rows; cut it into parts"):
        read_log(H + ",\n" * 1_000_100)


def test_a_month_of_minutes_is_quick():
    start = datetime(2025, 11, 3)
    text = rows(*((start + timedelta(minutes=i), 19 + i % 5) for i in range(43_200)))
    began = time.perf_counter()
    assert len(read_log(text).times) == 43_200
    assert time.perf_counter() - began < 10
