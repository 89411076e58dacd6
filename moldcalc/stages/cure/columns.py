"""Finds time and temperature in the rows of a logger's file, and reads both."""

import csv
import io
import math
import re
from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.stages.cure.stamps import Stamps, is_stamp

MOST_ROWS = 1_000_000
MOST_CHARACTERS = 100_000_000
#: no workshop is colder or hotter; such a reading is a broken sensor or the wrong unit
COLDEST, HOTTEST = -40.0, 120.0
PREAMBLE = 60  # rows of the logger's own chatter before the headings
_EMPTY = {"", "-", "--", "---", "nan", "na", "n/a", "null", "none", "#n/a", "err", "error", "-nan"}
_TIME_WORDS = {"time", "date", "datetime", "timestamp", "zeit", "datum", "heure", "hour", "clock", "when"}
_TEMPERATURE = re.compile(r"temp|°\s*[cf]\b|celsius|fahrenheit|\bdeg\s*[cf]\b", re.IGNORECASE)
_NOT_AIR = re.compile(r"dew|wet.?bulb|humid|\brh\b", re.IGNORECASE)
_UNITS = {"c": "°C", "degc": "°C", "celsius": "°C", "centigrade": "°C", "f": "°F", "degf": "°F", "fahrenheit": "°F", "k": "K", "kelvin": "K"}
_READING = re.compile(
    r"^([+\-\u2212]?\d+(?:[.,]\d*)?|[+\-\u2212]?[.,]\d+)(?:[eE]([+-]?\d{1,2}))?\s*(?:[^\w\s.,+-]{0,3}|deg\s*)\s*([CFK])?$", re.IGNORECASE
)


class Reading(NamedTuple):
    """One reading: its row in the file, when, and the temperature in K."""

    row: int
    time: datetime
    temperature: float


class Columns(NamedTuple):
    """Where time and temperature stand: one column or two for the time, one for the temperature, and its unit."""

    times: tuple[int, ...]
    temperature: int
    unit: str | None
    width: int
    headed: bool


def read_rows(text: str, *, unit: str | None, day_first: bool | None, column: str | None) -> tuple[list[Reading], int, list[str]]:
    """All readings in the file's order, how many rows had none, and what was said about it."""
    if not isinstance(text, str):
        raise EntryError(Fault("log", "not text", "give the text of the logger's file"))
    if len(text) > MOST_CHARACTERS:
        raise EntryError(Fault("log", f"{len(text)} characters long", f"it may have {MOST_CHARACTERS} at most; cut it into parts"))
    if unit is not None and unit.strip().lower().lstrip("°") not in _UNITS:
        raise EntryError(Fault("unit of the log", clipped(unit), "write °C, °F or K"))
    unit = _UNITS[unit.strip().lower().lstrip("°")] if unit is not None else None
    columns, stamps, cells, skipped = None, Stamps(day_first), [], 0
    chatter = 0
    for row, values in _rows(text):
        if columns is None:
            columns = _columns(values, column)
            if columns is None:
                chatter += 1
                if chatter > PREAMBLE:
                    break
                continue
            if columns.headed:
                continue
        if len(values) <= max(*columns.times, columns.temperature) or values[columns.temperature].lower() in _EMPTY:
            skipped += 1
            continue
        if len(values) > columns.width and any(values[columns.width :]):
            raise EntryError(Fault(f"row {row} of the log", f"{len(values)} values where {columns.width} are expected",
                                   "with decimal commas, separate the columns by semicolons"))
        stamps.add(row, " ".join(values[i] for i in columns.times).strip())
        cells.append((row, *_number(row, values[columns.temperature])))
    if columns is None or not cells:
        raise EntryError(Fault("log", "without a single row of time and temperature", "give rows like 2025-10-26 14:10, 19.5"))
    notes = [f"{chatter} row{'s' * (chatter != 1)} before the readings {'were' if chatter != 1 else 'was'} passed over."] if chatter else []
    if skipped:
        notes.append(f"{skipped} row{'s' * (skipped != 1)} had no reading and {'were' if skipped != 1 else 'was'} skipped.")
    times = stamps.times()
    readings = [Reading(row, time, _kelvin(row, number, suffix or columns.unit or unit))
                for (row, number, suffix), time in zip(cells, times, strict=True)]
    return readings, skipped, notes


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Rows that hold anything, with their number in the file."""
    head = [line for line in text[:20_000].lstrip("\ufeff").splitlines() if line.strip()][: PREAMBLE + 2]
    separator = max(";\t,", key=lambda mark: (sum(mark in line for line in head), mark == ";", mark == "\t"))
    if separator == "," and any(";" in line for line in head[-2:]):
        separator = ";"
    reader = csv.reader(io.StringIO(text.lstrip("\ufeff"), newline=""), delimiter=separator, skipinitialspace=True)
    try:
        for values in reader:
            if reader.line_num > MOST_ROWS + PREAMBLE:
                raise EntryError(Fault("log", f"longer than {MOST_ROWS} rows", "cut it into parts"))
            plain = [value.strip() for value in values]
            if any(plain):
                yield reader.line_num, plain
    except csv.Error as why:
        raise EntryError(Fault(f"row {reader.line_num} of the log", "not readable as a table", f"{why}; save it as plain CSV")) from None


def _columns(values: list[str], wanted: str | None) -> Columns | None:
    """Where time and temperature stand, by this row's headings or its values; None where it is neither."""
    stamps = [i for i, value in enumerate(values) if is_stamp(value)]
    if stamps:
        return _columns_without_headings(values, stamps)
    words = [set(re.findall(r"[^\W\d_]+", value.lower())) for value in values]
    times = [i for i, found in enumerate(words) if found & _TIME_WORDS]
    named = [i for i, value in enumerate(values) if _TEMPERATURE.search(value) and i not in times]
    if wanted is not None:
        chosen = [i for i, value in enumerate(values) if value.strip().lower() == wanted.strip().lower()]
        if times and not chosen:
            raise EntryError(Fault("temperature column", clipped(wanted), f"the headings are {clipped(', '.join(values), 120)}"))
        named = chosen
    elif len(named) > 1:
        named = [i for i in named if not _NOT_AIR.search(values[i])] or named
    if not times or not named:
        return None
    if len(named) > 1:
        raise EntryError(Fault("temperature column", f"one of {', '.join(clipped(values[i]) for i in named)}", "say which heading to read"))
    return Columns(_date_and_time(words, times), named[0], _unit(values[named[0]], words[named[0]]), len(values), True)


def _date_and_time(words: list[set[str]], times: list[int]) -> tuple[int, ...]:
    """One column with both, or one for the date and one for the time of day."""
    only_date = [i for i in times if words[i] & {"date", "datum"} and not words[i] & {"time", "zeit", "heure"}]
    only_time = [i for i in times if i not in only_date]
    return (only_date[0], only_time[0]) if only_date and only_time else (times[0],)


def _columns_without_headings(values: list[str], stamps: list[int]) -> Columns:
    rest = [i for i, value in enumerate(values) if i not in stamps and value]
    if len(rest) == 2 and rest[0] == min(stamps) + 1 and re.fullmatch(r"\d{1,2}:\d{2}(:\d{2})?( ?[AaPp][Mm])?", values[rest[0]]):
        stamps, rest = [stamps[0], rest[0]], rest[1:]
    if len(rest) != 1:
        allowed = "give headings that name time and temperature; with decimal commas, separate the columns by semicolons"
        raise EntryError(Fault("log", f"{len(values)} columns without headings", allowed))
    return Columns(tuple(stamps[:2] if len(stamps) == 2 else stamps[:1]), rest[0], None, len(values), False)


def _unit(heading: str, words: set[str]) -> str | None:
    found = {_UNITS[word] for word in words & set(_UNITS)}
    if len(found) > 1:
        raise EntryError(Fault("temperature column", clipped(heading), "its heading names two units; say °C or °F"))
    return next(iter(found), None)


def _number(row: int, value: str) -> tuple[float, str | None]:
    """A reading and the unit written after it, if any."""
    found = _READING.match(value[:40])
    if not found:
        raise EntryError(Fault(f"row {row} of the log", clipped(value), "its temperature must be a number, like 19.5"))
    number = float(found[1].replace(",", ".").replace("\u2212", "-") + (f"e{found[2]}" if found[2] else ""))
    return number, _UNITS[found[3].lower()] if found[3] else None


def _kelvin(row: int, number: float, unit: str | None) -> float:
    if unit is None:
        raise EntryError(Fault("temperature column", "without a unit", "say whether its readings are in °C or °F"))
    celsius = {"°C": number, "°F": (number - 32) / 1.8, "K": number - 273.15}[unit]
    if not math.isfinite(celsius) or not COLDEST <= celsius <= HOTTEST:
        raise EntryError(Fault(f"row {row} of the log", f"{number:g} {unit}", f"a reading must lie between {COLDEST:g} and {HOTTEST:g} °C; "
                               "correct it or take the row out"))
    return celsius + 273.15
