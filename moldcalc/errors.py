"""What can go wrong, said so that a maker can read it: which entry, what it was, what is allowed."""

from collections.abc import Iterable
from dataclasses import dataclass


class MoldcalcError(Exception):
    """Anything we refuse, in sentences for the reader. Never shown as a traceback."""


@dataclass(frozen=True)
class Fault:
    """One entry that can't be used.

    ``entry`` is the name a reader knows it by, ``was`` what they gave, ``allowed`` what would do.
    """

    entry: str
    was: str
    allowed: str

    def __str__(self) -> str:
        return f"{self.entry} is {self.was}; {self.allowed}."


class EntryError(MoldcalcError, ValueError):
    """One or more entries that can't be used; ``faults`` has them all, the text has a sentence each."""

    def __init__(self, faults: Fault | Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = (faults,) if isinstance(faults, Fault) else tuple(faults)
        super().__init__(" ".join(str(fault) for fault in self.faults))


class FileError(MoldcalcError):
    """A file that can't be read or written; the text names it and says what to do."""


class MissingError(MoldcalcError):
    """Something that is not installed here; the text says what is missing and how to go on without it."""


def clipped(text: object, most: int = 40) -> str:
    """What somebody typed, short enough for a sentence and on one line."""
    line = " ".join(str(text).split())
    return line if len(line) <= most else line[: most - 1] + "…"
