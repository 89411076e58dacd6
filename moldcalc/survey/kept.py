"""What was found on a scan, kept beside the job: the surfaces thinned out for pictures, and the facts in words and numbers.

The file is a zip of plain arrays and one JSON text (numpy's npz, without pickled objects). It is only shown, never calculated on.
"""

import io
import json
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from moldcalc.errors import FileError
from moldcalc.job.file import write_whole

LAYOUT = 1
LARGEST = 64 << 20  # bytes in the file, and a quarter of what they may unpack to
MOST_FACES = 80_000
#: what broken bytes bring zip, numpy and JSON to
BROKEN = (OSError, ValueError, KeyError, EOFError, AttributeError, TypeError, SyntaxError, NotImplementedError, RuntimeError, zlib.error,
          zipfile.BadZipFile)
SHAPES = ("original", "rubber", "shell")


@dataclass(frozen=True)
class Shape:
    """A surface for a picture: vertices (n, 3) [m], faces (m, 3), and a label a face: its pocket or section, 0 none, 255 left over."""

    vertices: NDArray[np.float32]
    faces: NDArray[np.uint32]
    labels: NDArray[np.uint8]


@dataclass(frozen=True)
class Survey:
    """What was found: ``facts`` by chapter ('size', 'pockets', 'sections'), and ``shapes`` by name."""

    facts: dict[str, Any] = field(default_factory=dict)
    shapes: dict[str, Shape] = field(default_factory=dict)

    def with_found(self, chapter: str, facts: Mapping[str, Any], name: str, shape: Shape) -> "Survey":
        """The same with one chapter's findings replaced."""
        return Survey({**self.facts, chapter: dict(facts)}, {**self.shapes, name: shape})


def survey_path(job_path: Path) -> Path:
    """Where the survey of a job lies: beside it."""
    return job_path.with_name(f"{job_path.stem}.survey")


def write_survey(path: Path, survey: Survey) -> None:
    """The survey into a file, whole or not at all.

    Raises
    ------
    FileError
    """
    text = json.dumps({"layout": LAYOUT, **survey.facts}, ensure_ascii=False, sort_keys=True)
    arrays: dict[str, Any] = {"facts": np.frombuffer(text.encode(), np.uint8)}
    for name, shape in survey.shapes.items():
        # a tenth of a millimetre is finer than any picture, and packs well
        arrays[f"{name}_vertices"] = np.round(shape.vertices, 4).astype("<f4")
        arrays[f"{name}_faces"], arrays[f"{name}_labels"] = shape.faces.astype("<u4"), shape.labels.astype("u1")
    packed = io.BytesIO()
    np.savez_compressed(packed, **arrays)
    write_whole(path, packed.getvalue())


def read_survey(path: Path) -> Survey:
    """A survey from its file; an empty one where there is none.

    Raises
    ------
    FileError
        It is damaged, too large, or made by a newer moldcalc.
    """
    if not path.is_file():
        return Survey()
    damaged = FileError(f"{path.name} can't be read as a survey; look for the sections again, and it is written anew.")
    try:
        if path.stat().st_size > LARGEST:
            raise damaged
        with zipfile.ZipFile(path) as packed:
            if sum(part.file_size for part in packed.infolist()) > 4 * LARGEST:
                raise damaged
        with np.load(path, allow_pickle=False) as arrays:
            facts = json.loads(arrays["facts"].tobytes().decode())
            shapes = {name: _shape(arrays, name) for name in SHAPES if f"{name}_faces" in arrays}
    except BROKEN:
        raise damaged from None
    if not isinstance(facts, dict) or facts.pop("layout", None) != LAYOUT:
        raise FileError(f"{path.name} was made by another version of moldcalc; look for the sections again, and it is written anew.")
    return Survey(facts, shapes)


def _shape(arrays: Any, name: str) -> Shape:
    vertices, faces, labels = (arrays[f"{name}_{part}"] for part in ("vertices", "faces", "labels"))
    whole = (vertices.dtype == np.float32 and vertices.ndim == 2 and vertices.shape[1] == 3 and np.isfinite(vertices).all()
             and faces.dtype == np.uint32 and faces.ndim == 2 and faces.shape[1] == 3 and 0 < len(faces) <= MOST_FACES
             and int(faces.max()) < len(vertices) and labels.dtype == np.uint8 and labels.shape == (len(faces),))
    if not whole:
        raise ValueError(name)
    return Shape(vertices, faces, labels)
