"""A job: everything that the maker says, as values. Never edited in place; a change makes a new one."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from functools import lru_cache, partial
from operator import attrgetter
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.job.cards import Card, Cast, Core, Filler, Reinforcement, Resin, Rubber, Thickener, find_card
from moldcalc.job.entry import Entry, Table, UnknownKey, faults_of, meant
from moldcalc.job.tables import Casting, Coats, Cure, Handling, Layup, Materials, Mixing, Original, Paste, Split, Start
from moldcalc.job.tables_edition import Keys
from moldcalc.units import Span

TABLES: dict[str, type[Table]] = {
    "start": Start, "original": Original, "materials": Materials, "mixing": Mixing, "cure": Cure, "coats": Coats,
    "paste": Paste, "keys": Keys, "split": Split, "layup": Layup, "handling": Handling, "casting": Casting,
}


@dataclass(frozen=True)
class Cards:
    """The material cards that a job uses."""

    rubber: Rubber
    thickener: Thickener
    laminating_resin: Resin
    surface_coat: Resin
    reinforcement: Reinforcement
    core: Core
    filler: Filler
    cast: Cast


@dataclass(frozen=True)
class Job:
    """What the maker says, one table a stage, and the cards that it names."""

    start: Start
    original: Original
    materials: Materials
    mixing: Mixing
    cure: Cure
    coats: Coats
    paste: Paste
    keys: Keys
    split: Split
    layup: Layup
    handling: Handling
    casting: Casting
    cards: Cards
    folders: tuple[Path, ...] = ()

    @classmethod
    def of(cls, given: Mapping[str, Any] | None = None, folders: tuple[Path, ...] = ()) -> "Job":
        """A job from plain tables, as a job file holds them.

        Raises
        ------
        EntryError
            Every fault in the file, a sentence each.
        """
        given = dict(given or {})
        faults = [fault for key in given if key not in TABLES for fault in [
            Fault(f"'{clipped(key)}'", "not a known table", f"known are {', '.join(TABLES)}{meant(str(key), list(TABLES))}")]]
        tables: dict[str, Any] = {}
        for name, kind in TABLES.items():
            try:
                tables[name] = kind.model_validate(given.get(name, {}))
            except ValidationError as error:
                faults.extend(replace(fault, entry=f"[{name}] {fault.entry}") for fault in faults_of(error))
        cards = cls._cards(tables["materials"], folders, faults) if "materials" in tables else None
        if faults or cards is None:
            raise UnknownKey(faults)
        return cls(**tables, cards=cards, folders=folders)

    @staticmethod
    def _cards(materials: Materials, folders: tuple[Path, ...], faults: list[Fault]) -> Cards | None:
        found: dict[str, Any] = {}
        for name, entry in Materials.entries().items():
            if entry.kind != "card":
                continue
            try:
                found[name] = find_card(getattr(materials, name), entry.choices[0], folders, entry.label)
            except EntryError as error:
                faults.extend(error.faults)
        return Cards(**found) if len(found) == len(fields(Cards)) else None

    # by path: 'coats.wall', 'coats.coat.2.thickness' --------------------------------------------------------------
    def entry(self, path: str) -> Entry:
        """The declaration of the entry at a path."""
        return _declared(path)[0]

    def get(self, path: str) -> Any:
        """The value at a path, in SI."""
        value: Any = self
        for step in path.split("."):
            value = value[int(step) - 1] if isinstance(value, tuple) else getattr(value, step)
        return value

    def resolved(self, path: str) -> Any:
        """The value at a path; the card's where the maker gave none and the entry stands for one of a card's."""
        own, of_card = _getters(path)
        value = own(self)
        return of_card(self) if value is None and of_card else value

    def with_entry(self, path: str, value: Any) -> "Job":
        """A new job with one entry changed.

        Raises
        ------
        EntryError
            One sentence on what is wrong with it; this job stays as it was.
        """
        taken = self.entry(path).take(value)
        table, *rest = path.split(".")
        if len(rest) == 3:
            rows = len(getattr(getattr(self, table), rest[0]))
            if not 1 <= int(rest[1]) <= rows:
                raise EntryError(Fault(f"'{clipped(path)}'", "not a row of this job", f"{table}.{rest[0]} has {rows} row{'s' if rows != 1 else ''}"))
        changed = replace(self, **{table: _put(getattr(self, table), rest, taken)})
        if table == "materials":
            faults: list[Fault] = []
            cards = self._cards(changed.materials, self.folders, faults)
            if cards is None:
                raise EntryError(faults)
            changed = replace(changed, cards=cards)
        return changed

    def with_rows(self, path: str, rows: Sequence[Mapping[str, Any]]) -> "Job":
        """A new job with all rows of one kind replaced: ``job.with_rows("layup.section", [{"name": "left", "face": "0.6 m²"}])``.

        Raises
        ------
        EntryError
            What is wrong in which row.
        """
        table, _, name = path.partition(".")
        kind = row_kind(TABLES[table], name) if table in TABLES and name in TABLES[table].model_fields else None
        if kind is None:
            raise EntryError(Fault(f"'{clipped(path)}'", "not rows of a job", "write it like layup.section"))
        most = next(mark.max_length for mark in TABLES[table].model_fields[name].metadata if hasattr(mark, "max_length"))
        if len(rows) > most:
            raise EntryError(Fault(path, f"{len(rows)} rows", f"use at most {most}"))
        made: list[Table] = []
        faults: list[Fault] = []
        for place, row in enumerate(rows, 1):
            try:
                made.append(kind.model_validate(dict(row)))
            except ValidationError as error:
                faults.extend(replace(fault, entry=f"[{path}] {place} {fault.entry}") for fault in faults_of(error))
        if faults:
            raise EntryError(faults)
        return replace(self, **{table: getattr(self, table).model_copy(update={name: tuple(made)})})

    def with_entries(self, **values: Any) -> "Job":
        """A new job with several entries changed: ``job.with_entries(coats__wall="8 mm", cure__temperature="16 °C")``."""
        job = self
        for name, value in values.items():
            job = job.with_entry(name.replace("__", "."), value)
        return job

    def spans(self) -> Iterator[tuple[str, Span]]:
        """Every value that was given as low and high: the maker's entries and those of the cards in use."""
        for name in TABLES:
            yield from _spans(getattr(self, name), name)
        used = {field.name: getattr(self.cards, field.name) for field in fields(Cards)}
        overruled = {entry.from_card for name, kind in TABLES.items() for key, entry in kind.entries().items()
                     if entry.from_card and getattr(getattr(self, name), key) is not None}
        for name, card in used.items():
            yield from ((path, span) for path, span in _spans(card, f"cards.{name}") if path.removeprefix("cards.") not in overruled)

    def drawn(self, values: Mapping[str, float]) -> "Job":
        """A new job with some entries replaced by plain SI values, unchecked: for draws between ends that were checked."""
        tables: dict[str, Any] = {}
        for path, value in values.items():
            top, *rest = path.split(".")
            tables[top] = _put(tables.get(top, getattr(self, top)), rest, value)
        return replace(self, **tables)


def _put(table: Any, steps: list[str], value: Any) -> Any:
    """A copy of a table with the value at the end of the steps."""
    if isinstance(table, tuple):
        at = int(steps[0]) - 1
        return (*table[:at], _put(table[at], steps[1:], value), *table[at + 1:])
    inner = value if len(steps) == 1 else _put(getattr(table, steps[0]), steps[1:], value)
    if isinstance(table, Table):
        return table.model_copy(update={steps[0]: inner})
    return replace(table, **{steps[0]: inner})


def _spans(table: Table | Card, path: str) -> Iterator[tuple[str, Span]]:
    for name, value in table.__dict__.items():
        if isinstance(value, Span):
            yield f"{path}.{name}", value
        elif isinstance(value, tuple):
            for place, row in enumerate(value, 1):
                yield from _spans(row, f"{path}.{name}.{place}")


@lru_cache(maxsize=2048)
def _getters(path: str) -> tuple[Callable[[Job], Any], Callable[[Job], Any] | None]:
    """What gets the value at a path from a job, and the value on the card that stands in for it."""
    own = partial(Job.get, path=path) if path.count(".") > 1 else attrgetter(path)
    card = _declared(path)[0].from_card
    return own, attrgetter(f"cards.{card}") if card else None


@lru_cache(maxsize=2048)
def _declared(path: str) -> tuple[Entry, type[Table]]:
    steps = path.split(".")
    kind = TABLES.get(steps[0])
    if kind and len(steps) == 2 and steps[1] in kind.entries():
        return kind.entries()[steps[1]], kind
    if kind and len(steps) == 4 and steps[1] in kind.model_fields and re.fullmatch("[0-9]{1,4}", steps[2]):
        row = row_kind(kind, steps[1])
        if row and steps[3] in row.entries():
            return row.entries()[steps[3]], row
    raise EntryError(Fault(f"'{clipped(path)}'", "not a known entry", f"write it like coats.wall{meant(path, list(all_paths()))}"))


def row_kind(table: type[Table], name: str) -> type[Table] | None:
    """The kind of row that a field of a table holds, where it holds rows."""
    arguments = getattr(table.model_fields[name].annotation, "__args__", ())
    return arguments[0] if arguments and isinstance(arguments[0], type) and issubclass(arguments[0], Table) else None


def all_paths() -> Iterable[str]:
    """Every single entry of a job, rows left out."""
    return (f"{table}.{name}" for table, kind in TABLES.items() for name in kind.entries())
