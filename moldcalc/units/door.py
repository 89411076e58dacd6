"""The door of a calculation: units in, plain SI floats inside, a quantity out.

The wrapped function takes quantities, text ('450 g/m²') or, where an entry has no unit, plain numbers.
Its float body stays reachable under a public name, ``function.si``, so that a chain of calculations converts
once. Limits are data on the door: ``possible`` (beyond it there is no answer) and ``holds`` (beyond it the
answer is a guess: it is still given, and ``function.strays`` says which entry is out, and by how much).
"""

import functools
import math
from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, replace
from typing import Any, NamedTuple

import pint

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.units.reading import read
from moldcalc.units.registry import Q, kind_of, ureg


@dataclass(frozen=True)
class Range:
    """From ``low`` to ``high``; an end belongs to it only where it says so."""

    low: float
    high: float
    with_low: bool = False
    with_high: bool = False

    def __contains__(self, value: float) -> bool:
        above = value >= self.low if self.with_low else value > self.low
        below = value <= self.high if self.with_high else value < self.high
        return above and below


POSITIVE = Range(0, math.inf)
NOT_NEGATIVE = Range(0, math.inf, with_low=True)
ANY = Range(-math.inf, math.inf)
SHARE = Range(0, 1, with_low=True, with_high=True)
#: a share that leaves something: from 0, below 1
PART = Range(0, 1, with_low=True)


class Stray(NamedTuple):
    """An entry outside the range in which a formula holds, in SI."""

    entry: str
    value: float
    holds: Range
    unit: str

    def __str__(self) -> str:
        end = self.holds.low if self.value < self.holds.low else self.holds.high
        side = "below" if self.value < self.holds.low else "above"
        return f"{words(self.entry)} is {said(self.value, self.unit)}, {side} {said(end, self.unit)}, where the formula holds"


def words(name: str) -> str:
    """An entry's name as a reader says it."""
    return name.replace("_", " ")


def said(value: float, unit: str) -> str:
    """A value with its unit, spelled out."""
    number = f"{value:.6g}"
    return f"{number} {ureg.Unit(unit)}" if unit else number


def _within(value: Range | tuple[float, float]) -> Range:
    return value if isinstance(value, Range) else Range(*value)


class Door:
    """A calculation with units at its door. Made by `door`."""

    def __init__(self, body: Callable[..., Any], units: Mapping[str, str], returns: Any,
                 possible: Mapping[str, Any], holds: Mapping[str, Any]) -> None:
        functools.update_wrapper(self, body)
        self.__name__: str = body.__name__
        self.si = body
        self.units = dict(units)
        self.returns = returns
        self.possible = {name: _within(limits) for name, limits in possible.items()}
        self.holds = {name: _within(limits) for name, limits in holds.items()}
        code, defaults = body.__code__, body.__kwdefaults__ or {}
        #: entry -> its default, or MISSING; read from the code, since `inspect.signature` takes longer than all the rest of a door
        self.entries = {name: defaults.get(name, MISSING) for name in code.co_varnames[:code.co_argcount + code.co_kwonlyargcount]}
        wrong = set(self.entries) ^ set(self.units) | (set(self.possible) | set(self.holds)) - set(self.units)
        if wrong:
            raise TypeError(f"{body.__name__}: door and signature differ on {sorted(wrong)}")

    def __call__(self, **given: Any) -> Any:
        unknown = sorted(set(given) - set(self.units))
        if unknown:
            raise TypeError(f"{self.__name__} has no entry {', '.join(unknown)}")
        plain: dict[str, Any] = {}
        faults: list[Fault] = []
        for name, default in self.entries.items():
            if name not in given:
                if default is MISSING:
                    faults.append(Fault(words(name), "missing", f"give {kind_of(self.units[name].removesuffix('[]'))[0]}"))
                continue
            try:
                plain[name] = self._taken(name, given[name])
            except EntryError as error:
                faults.extend(error.faults)
        if faults:
            raise EntryError(faults)
        try:
            answer = self.si(**plain)
        except (OverflowError, ZeroDivisionError):
            raise EntryError(self._too_absurd(given)) from None
        return self._given_out(answer, given)

    def _taken(self, name: str, value: Any) -> Any:
        unit = self.units[name]
        if value is None and self.entries[name] is None:
            return None
        if not unit.endswith("[]"):
            return self._one(name, unit, value)
        unit = unit.removesuffix("[]")
        if isinstance(value, pint.Quantity) and not isinstance(value.magnitude, (int, float)):
            value = [Q(number, value.units) for number in value.magnitude]
        if not isinstance(value, (list, tuple)) or not value:
            raise EntryError(Fault(words(name), clipped(value), "give a list with at least one value"))
        return [self._one(name, unit, item) for item in value]

    def _one(self, name: str, unit: str, value: Any) -> float:
        entry = words(name)
        if isinstance(value, str):
            number = read(value, unit, entry=entry)
            was = value
        elif isinstance(value, pint.Quantity):
            was = clipped(value)
            if not value.is_compatible_with(ureg.Unit(unit)):
                raise EntryError(Fault(entry, was, "it must be {}, like {}".format(*kind_of(unit))))
            number = self._float(value.m_as(unit), entry, was, unit)
        elif isinstance(value, (int, float)) and not isinstance(value, bool):
            was = clipped(value)
            if unit:
                raise EntryError(Fault(entry, was, "it has no unit; give {}, like {}".format(*kind_of(unit))))
            number = self._float(value, entry, was, unit)
        else:
            raise EntryError(Fault(entry, clipped(value), "it must be {}, like {}".format(*kind_of(unit))))
        limits = self.possible.get(name, ANY)
        if not math.isfinite(number) or number not in limits:
            raise EntryError(Fault(entry, was, f"it must be {_allowed(limits, unit)}"))
        return number

    @staticmethod
    def _float(number: Any, entry: str, was: str, unit: str) -> float:
        try:
            return float(number)
        except OverflowError:  # a whole number of hundreds of digits
            return math.inf
        except (TypeError, ValueError):  # a quantity that holds an array
            raise EntryError(Fault(entry, was, "it must be {}, like {}".format(*kind_of(unit)))) from None

    def _given_out(self, answer: Any, given: Mapping[str, Any]) -> Any:
        if isinstance(self.returns, Mapping):
            made = {field: Q(self._finite(getattr(answer, field), given), unit) for field, unit in self.returns.items()}
            return answer._replace(**made) if hasattr(answer, "_replace") else replace(answer, **made)
        if self.returns is None:
            return answer
        if self.returns.endswith("[]"):
            return [Q(self._finite(item, given), self.returns.removesuffix("[]")) for item in answer]
        self._finite(answer, given)
        return Q(answer, self.returns) if self.returns else answer

    def _finite(self, value: Any, given: Mapping[str, Any]) -> Any:
        if isinstance(value, complex) or not math.isfinite(value):
            raise EntryError(self._too_absurd(given))
        return value

    def _too_absurd(self, given: Mapping[str, Any]) -> list[Fault]:
        return [Fault(words(name), clipped(value), "together these entries give no number; check their sizes") for name, value in given.items()]

    def strays(self, **plain: float) -> list[Stray]:
        """The entries (in SI) that lie outside the range in which the formula holds."""
        return [Stray(name, plain[name], limits, self.units[name])
                for name, limits in self.holds.items()
                if name in plain and plain[name] is not None and plain[name] not in Range(limits.low, limits.high, True, True)]


def _allowed(limits: Range, unit: str) -> str:
    low, high = limits.low, limits.high
    ends = []
    if math.isfinite(low):
        ends.append(f"{'at least' if limits.with_low else 'above'} {said(low, unit) if low else '0'}")
    if math.isfinite(high):
        ends.append(f"{'at most' if limits.with_high else 'below'} {said(high, unit)}")
    return " and ".join(ends) or "a finite number"


#: every door that has been made, by module and name: the tests walk through all of them
DOORS: dict[str, Door] = {}


def door(*, returns: Any, possible: Mapping[str, Any] | None = None, holds: Mapping[str, Any] | None = None,
         **units: str) -> Callable[[Callable[..., Any]], Door]:
    """Put a door before a function of plain SI floats.

    Parameters
    ----------
    returns
        Unit of the answer; ``""`` a plain number; ``"m[]"`` a list; a mapping field -> unit for a named tuple
        or dataclass, whose other fields pass as they are; ``None`` for an answer that is passed as it is.
    possible
        Entry -> `Range` (or a pair, ends left out): beyond it there is no answer. NaN and infinity never pass.
    holds
        Entry -> `Range` or pair, ends included: beyond it the answer is a guess.
    units
        Entry -> unit; ``""`` for a plain number; ``"m[]"`` for a list of lengths.
    """
    def put(body: Callable[..., Any]) -> Door:
        made = Door(body, units, returns, possible or {}, holds or {})
        DOORS[f"{body.__module__}.{body.__qualname__}"] = made
        return made
    return put
