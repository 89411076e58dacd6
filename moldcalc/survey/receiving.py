"""A scan that arrives in pieces becomes a file, under a name of its own that harms nothing."""

import re
import tempfile
from pathlib import Path

from moldcalc.errors import FileError
from moldcalc.scan.reading import KINDS

LARGEST = 1 << 31  # bytes of a file that is taken in


class Receiving:
    """Takes the pieces of one file. It appears under its name when it is whole."""

    def __init__(self, name: str, folder: Path | None) -> None:
        self.name = plain_name(name)
        self.folder = folder or Path(tempfile.mkdtemp(prefix="moldcalc-"))
        self._size = 0
        try:
            self._part = (self.folder / f".{self.name}.part").open("wb")
        except OSError as error:
            raise FileError(f"{self.name} can't be taken in ({(error.strerror or str(error)).lower()}).") from None

    def add(self, piece: bytes) -> None:
        """The next piece.

        Raises
        ------
        FileError
            The disk is full, or the file too large.
        """
        self._size += len(piece)
        try:
            if self._size > LARGEST:
                raise OSError(0, "it is over 2 GB")
            self._part.write(piece)
        except OSError as error:
            self.give_up()
            raise FileError(f"{self.name} was not taken in ({(error.strerror or str(error)).lower()}).") from None

    def done(self) -> Path:
        """The whole file. One of the same name that differs stays; this one gets a number."""
        self._part.close()
        part, path = Path(self._part.name), self.folder / self.name
        number = 1
        while path.exists() and not _same(path, part):
            number += 1
            stem, dot, rest = self.name.partition(".")
            path = self.folder / f"{stem}-{number}{dot}{rest}"
        part.replace(path)
        return path

    def give_up(self) -> None:
        """Leave nothing behind."""
        self._part.close()
        Path(self._part.name).unlink(missing_ok=True)


def plain_name(name: str) -> str:
    """A name without folders and odd characters, of a kind that is read.

    Raises
    ------
    FileError
    """
    last = re.split(r"[\\/]", name)[-1]
    stem, dot, ending = last.partition(".")
    ending = (dot + ending).lower()
    if not any(ending == kind or ending.endswith(kind) for kind in (*KINDS, *(f"{kind}.gz" for kind in KINDS))):
        called = last[:60] or "A file without a name"
        raise FileError(f"{called} is no scan that can be read: it must end in {', '.join(KINDS)}, or one of these and .gz.")
    kept = re.sub(r"[^\w ()-]", "_", stem).strip()[:80] or "scan"
    return kept + re.sub(r"[^\w.]", "_", ending)[-40:]


def _same(one: Path, other: Path) -> bool:
    if one.stat().st_size != other.stat().st_size:
        return False
    with one.open("rb") as a, other.open("rb") as b:
        while piece := a.read(1 << 20):
            if piece != b.read(1 << 20):
                return False
    return True
