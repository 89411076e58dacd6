"""An entry is declared once: the slider, the job file's line, the error and the packet's 'you said' come from it.

A table of the job file is a class (`Table`) whose fields are made by `quantity`, `count`, `choice`, `yes_no`,
`words`, `clock`, `card` and `rows`. Values are plain SI floats; one that was given as low and high is a `Span`.
"""

import difflib
import math
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, SkipValidation, ValidationError, ValidationInfo, field_validator, model_validator

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.units import Range, Span, System, editable, from_shown, read_clock, read_ratio, read_span, show, si_of

#: a quantity in SI; a `Span` where low and high were given
Number = Annotated[float, SkipValidation]
Optional = Annotated[float | None, SkipValidation]
Kind = Literal["quantity", "count", "choice", "flag", "text", "clock", "ratio", "card"]


@dataclass(frozen=True)
class Entry:
    """What is known about one entry. Limits and step are in the unit shown; ``low`` and ``high`` are allowed themselves."""

    label: str
    kind: Kind = "quantity"
    unit: str = ""
    low: float = -math.inf
    high: float = math.inf
    default: Any = None
    step: float = 0.0
    slider: tuple[float, float] | None = None
    help: str = ""
    chosen: bool = False
    choices: tuple[str, ...] = ()
    optional: bool = False
    liquid: bool = False
    reinforcement: Literal["mat", "cloth", ""] = ""
    from_card: str = ""
    name: str = ""

    @property
    def si(self) -> str:
        """The SI unit of the value."""
        return si_of(self.unit)

    def limits(self, system: System = "metric") -> str:
        """What is allowed, in words and in the reader's units."""
        if self.kind == "count":
            return f"it must be a whole number from {self.low:.0f} to {self.high:.0f}"
        low, high = (self._end(end, system) if math.isfinite(end) else "" for end in (self.low, self.high))
        if low and high:
            return f"it must be from {low} to {high}"
        return f"it must be at least {low}" if low else "it must be a finite number"

    def _end(self, end: float, system: System) -> str:
        text = editable(from_shown(end, self.unit), self.unit, system)
        return text if len(text) < 9 else show(from_shown(end, self.unit), self.unit, system)

    def ends(self) -> tuple[float, float]:
        """Ends of the slider, in the unit shown."""
        return self.slider or (self.low, self.high)

    def take(self, value: Any) -> Any:
        """The value in SI of what was typed, moved or read from a file.

        Raises
        ------
        EntryError
            One sentence: the entry, what it was, what is allowed.
        """
        if value is None or (isinstance(value, str) and not value.strip() and self.optional):
            if self.optional:
                return None
            raise EntryError(Fault(self.label, "empty", "give a value"))
        return getattr(self, f"_{self.kind}")(value)

    def say(self, value: Any, system: System = "metric") -> str:
        """The value as a person says it."""
        if value is None:
            return "not given"
        if self.kind == "quantity":
            if isinstance(value, Span):
                return f"{show(value.low, self.unit, system)} to {show(value.high, self.unit, system)}"
            return show(value, self.unit, system)
        if self.kind == "clock":
            return clock(value)
        if self.kind == "flag":
            return "yes" if value else "no"
        return f"{value:.0f}" if self.kind == "count" else str(value)

    def write(self, value: Any, system: System = "metric") -> Any:
        """The value as it stands in a job file or a text field; `take` reads the same value back."""
        if self.kind == "quantity":
            if isinstance(value, Span):
                low, likely, high = (self._typed(end, system) for end in (value.low, float(value), value.high))
                if abs(float(value) - (value.low + value.high) / 2) < 1e-6 * abs(value):
                    return f"{low} to {high}"
                return {"low": low, "likely": likely, "high": high}
            return self._typed(value, system)
        if self.kind == "clock":
            return clock(value)
        return int(value) if self.kind == "count" else value

    def _typed(self, value: float, system: System) -> str:
        text = editable(value, self.unit, system)
        return f"{text} wt" if self.liquid and text.endswith(" oz") else text  # a bare ounce of a liquid would be asked about

    # one reader a kind -----------------------------------------------------------------------------------------
    def _quantity(self, value: Any) -> float:
        if isinstance(value, dict):
            return self._ends(value)
        if isinstance(value, str):
            number = read_span(value, self.si, entry=self.label, liquid=self.liquid, reinforcement=self.reinforcement)
        elif isinstance(value, (int, float)) and not isinstance(value, bool):
            if self.si:
                raise EntryError(Fault(self.label, clipped(value), f"it has no unit; write it in quotes with one, like \"{self.example()}\""))
            try:
                number = value if isinstance(value, Span) else float(value)
            except OverflowError:  # a whole number of hundreds of digits
                number = math.inf
        else:
            raise EntryError(Fault(self.label, clipped(value), f"write a number and a unit, like {self.example()}"))
        return self.checked(number, clipped(value))

    def _ends(self, value: dict[str, Any]) -> float:
        if set(value) not in ({"low", "likely", "high"}, {"low", "high"}):
            raise EntryError(Fault(self.label, f"a table of {', '.join(map(str, value)) or 'nothing'}", "give low and high, and likely if you wish"))
        low, high = self._quantity(value["low"]), self._quantity(value["high"])
        likely = self._quantity(value["likely"]) if "likely" in value else (low + high) / 2
        if not low <= likely <= high:
            raise EntryError(Fault(self.label, "out of order", "low, likely and high must rise"))
        return Span(float(likely), float(low), float(high)) if low < high else float(low)

    def checked(self, number: float, was: str) -> float:
        """The number (SI), when it lies within what is allowed; both ends of a span must."""
        # A billionth of slack: a limit typed in its own unit must not fall to the last bit of a conversion.
        low, high = (from_shown(end, self.unit) if math.isfinite(end) else end for end in (self.low, self.high))
        slack = 1e-9 * max(abs(low) if math.isfinite(low) else 0, abs(high) if math.isfinite(high) else 0, 1e-12)
        within = Range(low - slack, high + slack, True, True)
        for end in (number.low, float(number), number.high) if isinstance(number, Span) else (number,):
            if not math.isfinite(end) or end not in within:
                raise EntryError(Fault(self.label, was, self.limits(_system_of(was))))
        return number

    def _count(self, value: Any) -> int:
        if isinstance(value, str) and value.strip().isdecimal() and len(value) < 12:
            value = int(value)
        if isinstance(value, float) and value.is_integer() and abs(value) < 1e12:
            value = int(value)
        if not isinstance(value, int) or isinstance(value, bool) or not self.low <= value <= self.high:
            raise EntryError(Fault(self.label, clipped(value), self.limits()))
        return value

    def _choice(self, value: Any) -> str:
        if value not in self.choices:
            raise EntryError(Fault(self.label, clipped(value), f"it must be one of: {', '.join(self.choices)}{meant(str(value), self.choices)}"))
        return str(value)

    def _flag(self, value: Any) -> bool:
        if value in ("yes", "no"):
            return value == "yes"
        if not isinstance(value, bool):
            raise EntryError(Fault(self.label, clipped(value), "it must be true or false"))
        return value

    def _text(self, value: Any) -> str:
        if not isinstance(value, str) or len(value) > 400 or any(unicodedata.category(letter) in ("Cc", "Cs") for letter in value):
            raise EntryError(Fault(self.label, clipped(value), "write up to 400 characters on one line, in quotes"))
        return value.strip()

    _card = _text

    def _clock(self, value: Any) -> float:
        if hasattr(value, "hour") and hasattr(value, "minute"):  # TOML has clock times of its own
            return 3600.0 * value.hour + 60.0 * value.minute
        return read_clock(str(value), entry=self.label)

    def _ratio(self, value: Any) -> str:
        parts, basis = read_ratio(str(value), entry=self.label)
        return ":".join(f"{part:.6f}".rstrip("0").rstrip(".") for part in parts) + (f" by {basis}" if basis else "")

    def example(self) -> str:
        """A value that could stand there."""
        if self.default is not None and not isinstance(self.default, Span):
            return editable(self.default, self.unit)
        low, high = self.ends()
        if self.kind == "count":
            return f"{low:.0f}"
        return editable(from_shown((low + high) / 2 if math.isfinite(high) else low, self.unit), self.unit)


def _system_of(was: str) -> System:
    """The units that the maker thinks in, by what they typed: limits are then said in the same."""
    marks = ("in", '"', "ft", "lb", "oz", "qt", "gal", "°F")
    return "us" if any(was.rstrip().endswith(mark) for mark in marks) and not was.rstrip().endswith("min") else "metric"


def clock(seconds: float) -> str:
    """Seconds after some midnight as a clock time, with the day when it is a later one."""
    minutes = math.floor(seconds / 60 + 0.5)
    days, rest = divmod(minutes, 1440)
    return f"{rest // 60:02d}:{rest % 60:02d}" + (" the next day" if days == 1 else f", {days} days later" if days else "")


def meant(word: str, known: Iterator[str] | tuple[str, ...] | list[str]) -> str:
    """'; did you mean …?' for a word that is close to a known one, else nothing."""
    close = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f"; did you mean {close[0]}?" if close else ""


def _field(entry: Entry) -> Any:
    return Field(default=entry.default, json_schema_extra={"entry": entry})  # type: ignore[dict-item]


def quantity(label: str, unit: str, low: float, high: float, default: str | None, *, step: float = 0.0, help: str = "",
             chosen: bool = False, slider: tuple[float, float] | None = None, liquid: bool = False,
             reinforcement: Literal["mat", "cloth", ""] = "", from_card: str = "") -> Any:
    """An entry with a unit. ``default`` is text as a maker would type it; ``None`` leaves it out unless given."""
    made = Entry(label, "quantity", unit, low, high, None, step, slider, help, chosen, optional=default is None, liquid=liquid,
                 reinforcement=reinforcement, from_card=from_card)
    return _field(replace(made, default=None if default is None else made.take(default if si_of(unit) or "%" in default else float(default))))


def count(label: str, low: int, high: int, default: int | None, *, help: str = "", chosen: bool = False,
          slider: tuple[float, float] | None = None) -> Any:
    """A whole number."""
    return _field(Entry(label, "count", "", low, high, default, 1, slider, help, chosen, optional=default is None))


def choice(label: str, choices: tuple[str, ...], default: str, *, help: str = "", chosen: bool = False) -> Any:
    """One of a few words."""
    return _field(Entry(label, "choice", default=default, choices=choices, help=help, chosen=chosen))


def yes_no(label: str, default: bool, *, help: str = "", chosen: bool = False) -> Any:
    """Yes or no."""
    return _field(Entry(label, "flag", default=default, help=help, chosen=chosen))


def words(label: str, default: str = "", *, help: str = "") -> Any:
    """A line of text."""
    return _field(Entry(label, "text", default=default, help=help))


def clock_time(label: str, default: str, *, help: str = "", chosen: bool = False) -> Any:
    """A time of day, in seconds after midnight."""
    return _field(Entry(label, "clock", default=read_clock(default), help=help, chosen=chosen))


def card(label: str, kind: str, default: str, *, help: str = "") -> Any:
    """The name of a material card of a kind."""
    return _field(Entry(label, "card", default=default, choices=(kind,), help=help, chosen=True))


def mix_ratio(label: str, default: str, *, help: str = "") -> Any:
    """A mix ratio, kept as text that says by which it is."""
    return _field(Entry(label, "ratio", default=default, help=help))


_DECLARED: dict[type, dict[str, Entry]] = {}


class UnknownKey(EntryError):
    """Keys that no entry of the table has."""


class Table(BaseModel):
    """A table of a job file. Fields are entries, or rows (tuples of tables)."""

    # The schemas are built at the first job that is read: importing stays quick.
    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True)

    @classmethod
    def entries(cls) -> dict[str, Entry]:
        """Name in the file -> declaration, in the order of the file."""
        made = _DECLARED.get(cls)
        if made is None:
            declared: dict[str, Any] = {name: info.json_schema_extra.get("entry") for name, info in cls.model_fields.items()
                                        if isinstance(info.json_schema_extra, dict)}
            made = {name: replace(entry, name=name) for name, entry in declared.items() if isinstance(entry, Entry)}
            _DECLARED[cls] = made
        return made

    @model_validator(mode="before")
    @classmethod
    def _known_only(cls, given: Any) -> Any:
        if not isinstance(given, dict):
            return given
        unknown = [key for key in given if key not in cls.model_fields]
        if unknown:
            raise UnknownKey([Fault(f"'{clipped(key)}'", "not a known entry",
                                    f"known here are {', '.join(cls.model_fields)}{meant(str(key), list(cls.model_fields))}") for key in unknown])
        return given

    @field_validator("*", mode="before")
    @classmethod
    def _read(cls, value: Any, info: ValidationInfo) -> Any:
        entry = cls.entries().get(info.field_name or "")
        return entry.take(value) if entry else value


def faults_of(error: ValidationError) -> list[Fault]:
    """Every fault in pydantic's report, in a maker's words, with the table it stands in."""
    faults: list[Fault] = []
    for item in error.errors():
        cause = item.get("ctx", {}).get("error")
        where = _path(item["loc"] if isinstance(cause, UnknownKey) else item["loc"][:-1])
        if isinstance(cause, EntryError):
            faults.extend(replace(fault, entry=f"{where}{fault.entry}") for fault in cause.faults)
        else:
            known = {"missing": ("missing", "give it"), "model_type": (clipped(item["input"]), "it must be a table of entries"),
                     "tuple_type": (clipped(item["input"]), "it must be rows, each under [[ ]]"),
                     "too_long": ("too many rows", "use at most 200")}
            was, allowed = known.get(item["type"], (clipped(item["input"]), item["msg"].lower()))
            faults.append(Fault(_path(item["loc"]).rstrip(": ") or "the job", was, allowed))
    return faults


def _path(steps: tuple[int | str, ...]) -> str:
    """The tables on the way to an entry, as a reader finds them: 'coats, coat 3: '."""
    parts: list[str] = []
    for step in steps:
        if isinstance(step, int) and parts:
            parts[-1] += f" {step + 1}"
        else:
            parts.append(str(step))
    return f"{', '.join(parts)}: " if parts else ""
