"""The files that say what may touch what: a pairs.toml that lies beside the job, and ours."""

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.job.places import data_folder

FILE_NAME = "pairs.toml"
#: bytes of a table worth reading
LARGEST = 2_000_000


@dataclass(frozen=True)
class PairFile:
    """One file of pairs, as it was when it was looked at: a changed file is another."""

    path: Path
    changed: int
    size: int

    def tables(self) -> dict[str, Any]:
        """Its rows as they stand, kind by kind.

        Raises
        ------
        EntryError
            It can't be read; the sentence names it.
        """
        name = self.path.name
        if self.size > LARGEST:
            raise EntryError(Fault(name, f"{self.size} bytes", f"it must be at most {LARGEST}"))
        try:
            return tomllib.loads(self.path.read_text(encoding="utf-8-sig"))
        except UnicodeDecodeError:
            raise EntryError(Fault(name, "not text", "write it in UTF-8")) from None
        except OSError as error:
            raise EntryError(Fault(name, "not to be read", (error.strerror or "look at the file").lower())) from None
        except (tomllib.TOMLDecodeError, RecursionError) as error:
            raise EntryError(Fault(name, "not TOML", f"{clipped(error, 120)}; texts stand in quotes")) from None


def pair_files(folders: tuple[Path, ...] = ()) -> tuple[PairFile, ...]:
    """All files of pairs: those beside the job first, so that a row of the user's stands in place of ours."""
    beside = [place / FILE_NAME for folder in folders for place in ((folder.parent, folder) if folder.name == "cards" else (folder,))]
    found = []
    for path in beside:
        try:
            told = path.stat()
        except OSError:  # there is none, or a link to nowhere
            continue
        found.append(PairFile(path, told.st_mtime_ns, told.st_size))
    return (*found, _ours())


@lru_cache(maxsize=1)
def _ours() -> PairFile:
    return PairFile(data_folder() / FILE_NAME, 0, 0)
