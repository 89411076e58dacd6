"""Entries of a job as controls: what stands in the text field, where the slider starts, ends and steps."""

import math
import re
from typing import Any

from moldcalc.job.cards import card_names, find_card
from moldcalc.job.entry import Entry
from moldcalc.job.job import Job
from moldcalc.units import Span, System, digits, editable, from_shown, show, shown, unit_in

IDLE_ZEROS = re.compile(r"\.0+(?!\d)|(?<=\.[1-9])0+(?!\d)")
SIXTEENTHS = (1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 6.0, 12.0)


def field_of(job: Job, path: str, system: System) -> dict[str, Any]:
    """One control, as plain data for the page."""
    entry = job.entry(path)
    value = job.resolved(path)
    field: dict[str, Any] = {
        "path": path, "label": label_of(job, path), "kind": "text", "group": "chosen" if entry.chosen or entry.kind == "text" else "measured",
        "text": text_of(entry, job.get(path), system), "number": None, "min": 0, "max": 0, "step": 0,
        "unit": unit_in(entry.unit, system) if entry.kind == "quantity" else "",
        "help": entry.help, "hint": "", "choices": [], "error": "",
    }
    if entry.kind in ("choice", "flag", "card"):
        return field | {"kind": "select", "choices": choices_of(job, entry)}
    if entry.from_card and job.get(path) is None:
        field |= {"text": text_of(entry, value, system), "help": " ".join(filter(None, ("From the card.", entry.help)))}
    if entry.kind in ("quantity", "count"):
        low, high, step = slider_of(entry, system)
        number = low if value is None else (float(value) if entry.kind == "count" else shown(float(value), entry.unit, system))
        field |= {"kind": "number", "min": low, "max": high, "step": step, "number": _tidy(number), "hint": hint_of(entry, low, high, system)}
    return field


def label_of(job: Job, path: str) -> str:
    """The entry's label; for a row, the row's name before it."""
    label = job.entry(path).label
    steps = path.split(".")
    return f"{job.get('.'.join(steps[:3])).name}: {label}" if len(steps) == 4 else label


def text_of(entry: Entry, value: Any, system: System) -> str:
    """What stands in the text field."""
    if value is None:
        return ""
    if entry.kind == "flag":
        return "yes" if value else "no"
    if entry.kind == "quantity" and isinstance(value, Span):
        return _to(*(_short(end, entry.unit, system) for end in (value.low, value.high)))
    return _short(value, entry.unit, system) if entry.kind == "quantity" else str(entry.write(value, system))


def _short(value: float, unit: str, system: System) -> str:
    """As exact as a person would write it. What stands there is read back only when it was edited."""
    exact = editable(value, unit, system)
    name = unit_in(unit, system)
    if "/" in exact.removesuffix(name) or len(exact.removesuffix(name).strip()) <= 5:
        return exact
    return f"{digits(shown(value, unit, system))}{'' if name in ('°', '') else ' '}{name}"


def choices_of(job: Job, entry: Entry) -> list[dict[str, str]]:
    """What a choice offers: its words, or the cards of its kind by their labels."""
    if entry.kind == "card":
        kind = entry.choices[0]
        return [{"value": name, "label": find_card(name, kind, job.folders).label or name} for name in card_names(kind, job.folders)]
    return [{"value": word, "label": word} for word in (("yes", "no") if entry.kind == "flag" else entry.choices)]


def slider_of(entry: Entry, system: System) -> tuple[float, float, float]:
    """Ends and step of the slider, in the unit shown. Ends lie on steps, within what is allowed."""
    low, high = entry.ends()
    if not math.isfinite(high):
        high = max(10 * low, 100.0)
    step = entry.step or _round_step((high - low) / 100)
    if entry.kind == "count" or system == "metric" or unit_in(entry.unit, system) == entry.unit:
        return low, high, step
    first, last, second = (shown(from_shown(end, entry.unit), entry.unit, system) for end in (low, high, low + step))
    wanted = abs(second - first)
    parts = next((part for part in SIXTEENTHS if part >= 0.75 * wanted), 12.0)
    step = parts if unit_in(entry.unit, system) == "in" else _round_step(wanted)
    # inward, so that an end which is also the limit is never passed by a rounding
    return _tidy(math.ceil(first / step - 1e-9) * step), _tidy(math.floor(last / step + 1e-9) * step), step


def _round_step(step: float) -> float:
    """The nearest of 1, 2, 5 times a power of ten."""
    power = 10.0 ** math.floor(math.log10(step))
    return _tidy(min((1, 2, 5, 10), key=lambda times: abs(math.log(times * power / step))) * power)


def _tidy(number: float) -> float:
    return float(f"{number:.9g}")


def hint_of(entry: Entry, low: float, high: float, system: System) -> str:
    """The slider's ends in words: '3 to 15 mm'."""
    if entry.kind == "count":
        return f"{low:.0f} to {high:.0f}"
    ends = (show(from_shown(end, entry.unit, system), entry.unit, system, 2) for end in (low, high))
    return _to(*(IDLE_ZEROS.sub("", end) for end in ends))


def _to(low: str, high: str) -> str:
    """'3 to 15 mm': the unit once where both have the same."""
    unit = high.rpartition(" ")[2] if " " in high else ""
    return f"{low.removesuffix(unit).strip() if unit and low.endswith(' ' + unit) else low} to {high}"


def typed(job: Job, path: str, number: float, system: System) -> Any:
    """What a slider's number means for the entry: text with its unit; a range moves along, its ends in proportion."""
    entry = job.entry(path)
    if entry.kind == "count":
        return f"{number:.0f}"
    now = job.resolved(path)
    value = from_shown(number, entry.unit, system)
    if not isinstance(now, Span) or float(now) <= 0 or value <= 0:
        return editable(value, entry.unit, system)
    least, most = (from_shown(end, entry.unit) for end in (entry.low, entry.high))
    low, high = max(least, now.low / now * value), min(most, now.high / now * value)
    return {name: editable(end, entry.unit, system) for name, end in (("low", low), ("likely", value), ("high", high))}


def expanded(job: Job, path: str) -> list[str]:
    """The paths that a declared one stands for: '*' is every row that the job has."""
    if "*" not in path:
        return [path]
    table, _, column = path.partition(".*.")
    return [f"{table}.{place}.{column}" for place in range(1, len(job.get(table)) + 1)]
