"""The job file: TOML that a person can edit. Comments and order survive saving, and nothing is ever half written.

Saving keeps one earlier version beside the file, and refuses when somebody else changed the file since it was read.
"""

import contextlib
import copy
import hashlib
import os
import re
import stat
import time
import tomllib
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, BinaryIO

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Table

from moldcalc.errors import EntryError, Fault, FileError, clipped
from moldcalc.job.job import TABLES, Job, row_kind
from moldcalc.job.places import data_folder

Rows = Sequence[Mapping[str, Any]]

LAYOUT = 1
LARGEST = 2_000_000  # bytes of a job file worth reading
TRIES = 9  # times that a change is put into a file which others keep changing
FILE_NAME = "job.toml"


class ChangedError(FileError):
    """The file on disk is no longer the one that was read."""


class JobFile:
    """A job and the file it lives in; ``path`` is None for a demo, which is never written to."""

    def __init__(self, document: tomlkit.TOMLDocument, job: Job, path: Path | None, stamp: str) -> None:
        self.document, self.job, self.path = document, job, path
        #: the file it was read from; a demo has one too, which is not written to
        self.home = path
        #: told after what was found on a scan has been kept, so that every panel on this job shows it
        self.watchers: list[Callable[[], None]] = []
        self._stamp = stamp

    def __repr__(self) -> str:
        casts = self.job.start.casts
        where = self.path.name if self.path else "a demo, nothing is kept"
        return f"{self.job.start.title} ({casts} cast{'s' if casts != 1 else ''}; {where})"

    def set(self, path: str, value: Any) -> None:
        """Change one entry, as the maker typed it. Raises EntryError and changes nothing when it can't be used."""
        job = self.job.with_entry(path, value)
        _write_at(self.document, path, value, job)
        self.job = job

    def set_rows(self, path: str, rows: Rows) -> None:
        """Replace all rows of one kind ('layup.section'). Raises EntryError and changes nothing when one can't be used."""
        job = self.job.with_rows(path, rows)
        table, _, name = path.partition(".")
        if table not in self.document:
            self.document[table] = tomlkit.table()
        place: Any = self.document[table]
        place.pop(name, None)
        if rows:
            _rows(self.document, table, name, job)
        self.job = job

    def save(self) -> None:
        """Write the file: the old one or the new one whole, never a mix.

        Raises
        ------
        ChangedError
            The file changed on disk since it was read.
        FileError
            It can't be written; the sentence says why.
        """
        if self.path is None:
            return
        found = _bytes(self.path) if self.path.exists() else b""
        if _stamp(found) != self._stamp and found:
            raise ChangedError(f"{self.path.name} was changed by someone else since it was read. Open it again; nothing was overwritten.")
        text = self._text().encode()
        if found == text:
            return
        if found:
            write_whole(self.path.with_name(self.path.name + ".earlier"), found)
        write_whole(self.path, text)
        self._stamp = _stamp(text)

    def _text(self) -> str:
        text = tomlkit.dumps(self.document)
        if "\r\n" in text:  # lines that we add end as the others do
            text = re.sub("\r?\n", "\r\n", text)
        try:
            Job.of(_plain(tomllib.loads(text)), self.job.folders)
        except (ValueError, RecursionError):
            raise FileError(f"{self.path} was not saved: its tables are written in a way we can't add to. "
                            "Write each table under its name in brackets, like [coats].") from None
        return text

    def keep(self, path: str, value: Any) -> bool:
        """Change one entry and save. When another chapter changed the file meanwhile, its changes are read first.

        Returns whether the file had been changed elsewhere.
        """
        return self.keep_all({path: value}, {})

    def keep_all(self, entries: Mapping[str, Any], rows: Mapping[str, Rows]) -> bool:
        """Change several entries and all rows of some kinds, and save once, as `keep` does."""
        self._set_all(entries, rows)
        for left in range(TRIES, -1, -1):
            try:
                self.save()
                return left < TRIES
            except ChangedError:
                if not left:
                    raise
                assert self.path is not None
                fresh = read_job(self.path)
                self.document, self.job, self._stamp = fresh.document, fresh.job, fresh._stamp
                self._set_all(entries, rows)
        return True

    def _set_all(self, entries: Mapping[str, Any], rows: Mapping[str, Rows]) -> None:
        document, job = copy.deepcopy(self.document) if len(entries) + len(rows) > 1 else self.document, self.job
        try:
            for path, value in entries.items():
                self.set(path, value)
            for path, made in rows.items():
                self.set_rows(path, made)
        except EntryError:  # all or nothing
            self.document, self.job = document, job
            raise


def read_job(path: Path) -> JobFile:
    """Read and check a job file. Cards in a folder 'cards' beside it come before ours.

    Raises
    ------
    FileError, EntryError
    """
    path = Path(path)
    raw = _bytes(path)
    document = _parse(raw, path.name)
    _bring_forward(document, path.name)
    try:
        job = Job.of(_plain(document.unwrap()), (path.parent / "cards",))
    except EntryError as error:
        raise type(error)([Fault(f"{path.name} {fault.entry}", fault.was, fault.allowed) for fault in error.faults]) from None
    return JobFile(document, job, path, _stamp(raw))


def _plain(given: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in given.items() if key != "layout"}


def open_job(name: str | Path | None = None) -> JobFile:
    """The job on the bench: ``job.toml`` in this folder, the file that is named, or else the demo."""
    if name is None:
        return read_job(Path(FILE_NAME)) if Path(FILE_NAME).is_file() else demo_job()
    path = Path(name)
    if not path.suffix and not path.exists() and (data_folder() / "jobs" / f"{name}.toml").is_file():
        return demo_job(str(name))
    return read_job(path)


def demo_job(name: str = "hare") -> JobFile:
    """One of our demo jobs. What is changed in it is not kept."""
    found = read_job(data_folder() / "jobs" / f"{name}.toml")
    found.path = None
    return found


def demo_names() -> list[str]:
    """Names of the demo jobs."""
    return sorted(path.stem for path in (data_folder() / "jobs").glob("*.toml"))


def write_whole(path: Path, data: bytes) -> None:
    """Replace a file in one step. A writer that is killed leaves the old file whole.

    Raises
    ------
    FileError
    """
    fresh = path.with_name(f".{path.name}.new")  # one fixed name: a killed writer leaves at most one behind
    try:
        mode = stat.S_IMODE(path.stat().st_mode) if path.exists() else 0o644
        with _opened(fresh) as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        with contextlib.suppress(OSError):
            fresh.chmod(mode)
        os.replace(fresh, path)
    except OSError as error:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)
        why = (error.strerror or str(error)).lower()
        raise FileError(f"{path.name} was not saved ({why}); the file is as it was. "
                        "Close other programs that use it, or choose another folder.") from None


def _opened(fresh: Path) -> BinaryIO:
    """A new file that nobody else is writing. One that stays there was left by a writer that was killed."""
    for _ in range(25):
        try:
            return open(fresh, "xb")
        except FileExistsError:
            time.sleep(0.02)
    return open(fresh, "wb")


def _bytes(path: Path) -> bytes:
    try:
        if path.stat().st_size > LARGEST:
            raise FileError(f"{path.name} is larger than a job file can be ({LARGEST // 1000} kB).")
        return path.read_bytes()
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        raise FileError(f"{clipped(path, 80)} can't be read: {(getattr(error, 'strerror', None) or 'it is not a file').lower()}.") from None


def _stamp(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()


def _parse(raw: bytes, name: str) -> tomlkit.TOMLDocument:
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise FileError(f"{name} is not text in UTF-8 (byte {error.start + 1}).") from None
    try:
        document = tomlkit.parse(text)
        document.unwrap()  # some doubled tables come to light only here
        return document
    except (TOMLKitError, ValueError, TypeError, LookupError, AttributeError) as error:  # broken text brings tomlkit to all of these
        line = getattr(error, "line", 0)
        lines = text.splitlines()
        there = f" Line {line}: {clipped(lines[line - 1], 60)}" if 0 < line <= len(lines) else f" {clipped(error, 80).rstrip('.')}."
        raise FileError(f"{name} can't be read as TOML.{there} Texts and quantities stand in quotes, like wall = \"6 mm\".") from None
    except RecursionError:
        raise FileError(f"{name} is nested too deeply to be a job file.") from None


# older layouts ------------------------------------------------------------------------------------------------------
def _from_0(document: Any) -> None:
    """Layout 0 had no number, called the first table 'job' and the finished wall 'thickness'."""
    if "job" in document and "start" not in document:
        document["start"] = document.pop("job")
    coats = document.get("coats")
    if isinstance(coats, dict) and "thickness" in coats and "wall" not in coats:
        coats["wall"] = coats.pop("thickness")


STEPS: dict[int, Callable[[Any], None]] = {0: _from_0}


def _bring_forward(document: Any, name: str) -> None:
    layout = document.get("layout", 0)
    if not isinstance(layout, int) or isinstance(layout, bool) or not 0 <= layout <= LAYOUT:
        raise EntryError(Fault(f"{name}: layout", clipped(layout),
                               f"it must be a whole number up to {LAYOUT}; a newer moldcalc may have made this file"))
    for step in range(layout, LAYOUT):
        STEPS[step](document)
    document["layout"] = LAYOUT


# one entry into the document ------------------------------------------------------------------------------------------
def _write_at(document: tomlkit.TOMLDocument, path: str, value: Any, job: Job) -> None:
    """Put a value where its path says, making tables and rows that the file does not have yet."""
    table, *steps = path.split(".")
    if table not in document:
        document[table] = tomlkit.table()
    place: Any = document[table]
    if len(steps) == 3:
        place = _rows(document, table, steps[0], job)[int(steps[1]) - 1]
    name = steps[-1]
    entry = job.entry(path)
    if job.get(path) is None:
        place.pop(name, None)
        return
    written = value if isinstance(value, str) and entry.kind in ("quantity", "text", "card", "choice", "ratio") else entry.write(job.get(path))
    if isinstance(written, dict):
        inline = tomlkit.inline_table()
        inline.update(written)
        written = inline
    place[name] = written


def _rows(document: tomlkit.TOMLDocument, table: str, name: str, job: Job) -> Any:
    """The rows of a table; when the file leaves them to the default, the default is written out first."""
    place: Any = document[table]
    if name not in place:
        rows = _written(getattr(getattr(job, table), name), table, name)
        # [[coats.coat]] can only follow [coats]; a table on one line, or with its name before each key, takes its rows on one line too
        under_a_heading = isinstance(place, Table) and not any(key is not None and key.key == table and key.is_dotted() for key, _ in document.body)
        place[name] = rows if under_a_heading else _on_one_line(rows)
    return place[name]


def _on_one_line(rows: AoT) -> Any:
    made = tomlkit.array()
    for row in rows.unwrap():
        line = tomlkit.inline_table()
        line.update(row)
        made.append(line)
    return made


def _written(rows: tuple[Any, ...], table: str, name: str) -> AoT:
    kind = row_kind(TABLES[table], name)
    made = tomlkit.aot()
    for row in rows:
        line: Table = tomlkit.table()
        for key, entry in kind.entries().items() if kind else ():
            if getattr(row, key) is not None:
                line[key] = entry.write(getattr(row, key))
        made.append(line)
    return made


def new_text(title: str) -> str:
    """Text of a new job file: the chief entries with their defaults, each with a line of help."""
    lines = ["# A job for moldcalc. Quantities carry their unit: \"6 mm\", \"1/4 in\", \"5 to 7 mm\".",
             "# Leave out what you don't know: a default stands in, and the plan says which.", f"layout = {LAYOUT}", ""]
    for table, kind in TABLES.items():
        lines.append(f"[{table}]")
        for name, entry in kind.entries().items():
            value = title if (table, name) == ("start", "title") else entry.default
            text = _toml(entry.write(value)) if value is not None else '""'
            remark = entry.help or entry.label
            lines.append(f"{'# ' if value is None else ''}{name} = {text}  # {entry.label if not entry.help else f'{entry.label}. {remark}'}")
        lines.append("")
    return "\n".join(lines)


def _toml(value: Any) -> str:
    if isinstance(value, dict):
        inline = tomlkit.inline_table()
        inline.update(value)
        return inline.as_string()
    return tomlkit.item(value).as_string()
