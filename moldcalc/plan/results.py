"""A result is declared once; the panel, the packet, CSV and JSON all show that one object.

Nothing here works a number out. `Plan` holds what the chain found, and says it in the reader's units.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from html import escape
from typing import Any, NamedTuple

from moldcalc.job.entry import clock
from moldcalc.job.job import Job
from moldcalc.plan.cautions import Caution, cautions
from moldcalc.plan.cautions_edition import EDITION_STAGES, cautions_edition
from moldcalc.plan.cautions_shell import cautions_shell
from moldcalc.units import System, show

COMMON = "common practice, no source"


@dataclass(frozen=True)
class Declared:
    """What is said of a result: its label, its unit, why it is so and where that is from.

    ``unit`` is one of the shown units, "count" for a whole number, "clock" for a time of day, "text".
    ``why`` may hold '{names.of.results}' and '{names.of.entries}', filled in when it is read.
    ``later``: only worked out when one such result is first asked for.
    ``detail``: one of many alike, in CSV and JSON and left out of the plain table.
    """

    label: str
    unit: str
    why: str
    source: str
    later: bool = False
    detail: bool = False


class Later(NamedTuple):
    """What is worked out when it is first asked for: results and rows by name, and a sentence for each part that could not be."""

    values: dict[str, Any]
    rows: dict[str, list[dict[str, Any]]]
    refused: tuple[tuple[str, str], ...]


NOTHING_LATER = Later({}, {}, ())


@dataclass(frozen=True, repr=False)
class Result:
    """One result, ready to be shown. Values are SI; ``low`` and ``high`` are None where there is no band."""

    name: str
    label: str
    value: Any
    unit: str
    low: float | None
    high: float | None
    why: str
    source: str

    def __repr__(self) -> str:
        band = f" ({self.say_band()})" if self.say_band() else ""
        return f"{self.label}: {self.say()}{band}\n  why: {self.why}\n  source: {self.source}"

    def say(self, system: System = "metric") -> str:
        """The value in words and in the reader's units."""
        return said(self.value, self.unit, system)

    def say_band(self, system: System = "metric") -> str:
        """'18.6 to 22.3 kg', or nothing where there is no band."""
        if self.low is None or self.high is None:
            return ""
        low, high = band_ends(self.low, self.high, self.unit, system)
        return f"{low} to {high}" if low not in (high, high.partition(" ")[0]) else ""


def band_ends(low: float, high: float, unit: str, system: System) -> tuple[str, str]:
    """Both ends of a band in words; where they share a unit it is said once, with the high end."""
    first, second = said(low, unit, system), said(high, unit, system)
    number, _, name = first.partition(" ")
    if name and " " not in name and second.split(" ")[1:] == [name]:
        first = number
    return first, second


def said(value: Any, unit: str, system: System) -> str:
    """A value of a result as a person says it."""
    if value is None:
        return "not known"
    if unit == "clock":
        return clock(value)
    if unit == "count":
        return f"{value:.0f}"
    if unit == "text":
        return str(value)
    return show(value, unit, system)


_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NAMED = re.compile(r"\{([A-Za-z_][\w.]*)(?::(\w+))?\}")


@dataclass(frozen=True)
class Plan:
    """Every result of every stage for one job, with its cautions. Made by `moldcalc.plan.plan`."""

    job: Job
    values: dict[str, Any]
    #: 'coats.coat', 'paste.fill', 'layup.section' … -> a dict a row
    rows: dict[str, list[dict[str, Any]]]
    declared: Mapping[str, Declared] = field(repr=False)
    #: name -> (low, high): the 10 % and 90 % quantiles of the draws; empty until `plan` was asked for them
    bands: dict[str, tuple[float, float]] = field(default_factory=dict, repr=False)
    #: work out what stands back until then, a stage at a time, and its bands
    work_later: Callable[[str], Later] = field(default=lambda stage: NOTHING_LATER, repr=False, compare=False)
    bands_later: Callable[[str], dict[str, tuple[float, float]]] = field(default=lambda stage: {}, repr=False, compare=False)

    def later(self, stage: str) -> Later:
        """Results of a stage that take longer and that few sheets show; worked out once, when the first is asked for."""
        if stage not in self._found_later:
            self._found_later[stage] = self.work_later(stage)
        return self._found_later[stage]

    @cached_property
    def _found_later(self) -> dict[str, Later]:
        return {}

    @cached_property
    def _found_bands(self) -> dict[str, dict[str, tuple[float, float]]]:
        return {}

    @cached_property
    def later_stages(self) -> tuple[str, ...]:
        """Stages with such results."""
        return tuple(dict.fromkeys(name.partition(".")[0] for name, told in self.declared.items() if told.later))

    @cached_property
    def cautions(self) -> tuple[Caution, ...]:
        """All cautions, stage by stage; put in words when they are first read."""
        return (*self._early_cautions, *(caution for stage in self.later_stages for caution in self._later_cautions(stage)))

    @cached_property
    def _early_cautions(self) -> tuple[Caution, ...]:
        return tuple(cautions(self.job, self.values, self.rows))

    def _later_cautions(self, stage: str) -> tuple[Caution, ...]:
        found = self.later(stage)
        told = cautions_edition if stage in EDITION_STAGES else cautions_shell
        return tuple(told(stage, self.job, {**self.values, **found.values}, {**self.rows, **found.rows}, found.refused))

    @property
    def system(self) -> System:
        """The units that the job is shown in."""
        return "us" if self.job.start.units == "us" else "metric"

    def __contains__(self, name: str) -> bool:
        return name in self.values or (self._is_later(name) and name in self.later(name.partition(".")[0]).values)

    def _is_later(self, name: str) -> bool:
        told = self.declared.get(name)
        return told is not None and told.later

    def rows_of(self, table: str) -> list[dict[str, Any]]:
        """The rows of a table, 'coats.coat' or 'handling.lift'; none where the plan has none."""
        if table in self.rows:
            return self.rows[table]
        stage = table.partition(".")[0]
        return self.later(stage).rows.get(table, []) if stage in self.later_stages else []

    def declaration(self, name: str) -> Declared:
        """The declaration of a result; a row's number stands for any ('coats.coat.2.mixed')."""
        return self.declared.get(name) or self.declared[re.sub(r"\.\d+\.", ".*.", name)]

    def value(self, name: str) -> Any:
        """The value of a result, in SI."""
        if name in self.values:
            return self.values[name]
        if self._is_later(name):
            return self.later(name.partition(".")[0]).values[name]
        table, column = re.sub(r"\.(\d+)\.", r"/\1/", name).split("/")[0], name.rpartition(".")[2]
        number = re.search(r"\.(\d+)\.", name)
        if number is None:
            raise KeyError(name)
        return self.rows_of(table)[int(number[1]) - 1][column]

    def result(self, name: str) -> Result:
        """One result by its name."""
        told = self.declaration(name)
        low, high = self._band(name)
        label, why, source = self.say(told.label), self.say(told.why), told.source
        if number := re.search(r"^(.+)\.(\d+)\.(\w+)$", name):
            row = self.rows_of(number[1])[int(number[2]) - 1]
            label = f"{row['name']}: {label}"
            why, source = row.get(f"{number[3]}_why", why), row.get(f"{number[3]}_source", source)  # a row may bring its own
        return Result(name, label, self.value(name), told.unit, low, high, why, source)

    def _band(self, name: str) -> tuple[float, float] | tuple[None, None]:
        if not self._is_later(name):
            return self.bands.get(name) or (None, None)
        stage = name.partition(".")[0]
        if stage not in self._found_bands:
            self._found_bands[stage] = self.bands_later(stage)
        return self._found_bands[stage].get(name) or (None, None)

    def names(self, stage: str = "") -> Iterator[str]:
        """Names of all results, or those of one stage; stage by stage, rows after the stage's own."""
        for name in self.declared:
            if stage and not name.startswith(f"{stage}."):
                continue
            if ".*." not in name:
                if name in self:
                    yield name
                continue
            yield from self.row_names(name)

    def row_names(self, declared: str) -> list[str]:
        """The names that 'coats.coat.*.mixed' stands for: every row that has it."""
        table, column = declared.split(".*.")
        return [f"{table}.{place}.{column}" for place, row in enumerate(self.rows_of(table), 1) if column in row]

    def results(self, stage: str = "") -> list[Result]:
        """All results, or those of one stage."""
        return [self.result(name) for name in self.names(stage)]

    def cautions_of(self, stage: str) -> list[Caution]:
        """The cautions of one stage."""
        later = self._later_cautions(stage) if stage in self.later_stages else ()
        return [caution for caution in (*self._early_cautions, *later) if caution.stage == stage]

    def say(self, sentence: str, system: System | None = None, html: bool = False) -> str:
        """A sentence with '{results}' and '{entries}' filled in: ``{coats.count:word}`` in words, ``{x:high}`` the band's end.

        With ``html`` the sentence's own text and the values are escaped, and values stand in <b>.
        """
        system = system or self.system
        parts: list[str] = []
        at = 0
        for found in _NAMED.finditer(sentence):
            plain, value = sentence[at : found.start()], self._said(found[1], found[2] or "", system)
            parts += [escape(plain), f"<b>{escape(value)}</b>"] if html else [plain, value]
            at = found.end()
        parts.append(escape(sentence[at:]) if html else sentence[at:])
        return "".join(parts)

    def _said(self, name: str, how: str, system: System) -> str:
        capital = name[0].isupper()
        name = name[0].lower() + name[1:]
        try:
            value, unit = self.value(name), self.declaration(name).unit
        except (KeyError, IndexError):
            return self.job.entry(name).say(self.job.resolved(name), system)
        text = said(value, unit, system)
        if how in ("low", "high"):
            low, high = self._band(name)
            low, high = (value, value) if low is None or high is None else (low, high)
            text = band_ends(low, high, unit, system)[how == "high"]
        if how == "word" and unit == "count" and 0 <= value <= 12:
            text = _WORDS[int(value)]
        return text.capitalize() if capital else text

    def table(self, stage: str = "") -> Any:
        """Results as a pandas DataFrame, for going on by hand."""
        try:
            import pandas
        except ImportError:
            from moldcalc.errors import MissingError

            raise MissingError("pandas is not installed here; use plan.results() instead.") from None
        lines = [(r.name, r.label, r.say(self.system), r.say_band(self.system), r.why) for r in self.results(stage)]
        return pandas.DataFrame(lines, columns=["name", "result", "value", "low to high", "why"]).set_index("name")

    def as_text(self, stage: str = "", names: tuple[str, ...] = ()) -> str:
        """Results as plain lines, for a terminal and for comparing stored outputs."""
        chosen = [self.result(name) for name in names] if names else [
            result for result in self.results(stage) if not self.declaration(result.name).detail]
        wide = max((len(result.label) for result in chosen), default=0)
        lines = []
        for result in chosen:
            band = result.say_band(self.system)
            lines.append(f"{result.label:<{wide}}  {result.say(self.system)}" + (f"  ({band})" if band else ""))
        return "\n".join(lines)
