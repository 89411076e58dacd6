"""Where a scan's bytes come from, and the limits they are read under."""

import gzip
import hashlib
import io
import warnings
import zlib
from collections.abc import Generator, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO, NamedTuple

import numpy as np
from numpy.typing import NDArray

from moldcalc.errors import FileError, clipped
from moldcalc.scan.progress import Progress, Work

#: largest file that is opened, and largest content that is unpacked; our own limits, for a machine with 8 GB
LARGEST_FILE = 1_600_000_000
LARGEST_UNPACKED = 500_000_000
LARGEST_TRIANGLES = 4_000_000
#: how much is read between two steps of progress
CHUNK = 1 << 22
TEXT_CHUNK = 1 << 19
#: the kinds of list that the library holds as Python objects, 0.6 and 1.4 kB a triangle: with more it would take over 2 GB
LARGEST_LISTED = 2_000_000
LARGEST_PACKAGED = 1_000_000


class Raw(NamedTuple):
    """Triangles as a file says them, before anything is repaired.

    `vertices` is (n, 3) in the file's unit, `faces` (m, 3) indices into it. `shared` says whether the file itself lets
    triangles share their corners; `unit` and `up` are what the kind of file fixes, if it does.
    """

    vertices: NDArray[np.floating]
    faces: NDArray[np.integer]
    shared: bool
    unit: str | None = None
    up: str | None = None
    notes: tuple[str, ...] = ()


@dataclass
class Source:
    """An open file of known size, its name for sentences, and its digest once it is known."""

    name: str
    file: BinaryIO
    size: int
    kind: str
    sha256: str = ""

    def refuse(self, what: str) -> FileError:
        """The error that says what is wrong with this file."""
        return FileError(f"{self.name} {what}")

    def cut(self, said: str) -> FileError:
        """The error of a file that ends too early."""
        return self.refuse(f"{said}. It was cut off or damaged on its way; copy or export it again.")

    def counted(self, triangles: int, most: int = LARGEST_TRIANGLES) -> int:
        """The number of triangles, if it is not too many."""
        if triangles > min(most, LARGEST_TRIANGLES):
            raise self.refuse(f"has {triangles:,} triangles; at most {min(most, LARGEST_TRIANGLES):,} are read".replace(",", " ")
                              + ". Let the scanner's program write it with fewer" + (", or as STL." if most < LARGEST_TRIANGLES else "."))
        return triangles

    def head(self, length: int = 1024) -> bytes:
        """The first bytes; the file stands at its beginning afterwards."""
        self.file.seek(0)
        head = self.file.read(length)
        self.file.seek(0)
        return head

    def chunks(self, start: int = 0, length: int = CHUNK) -> Iterator[tuple[float, bytes]]:
        """The bytes from a place on, in pieces: (share of the file that is read, piece)."""
        self.file.seek(start)
        done = start
        while piece := self.file.read(length):
            done += len(piece)
            yield min(1.0, done / self.size), piece

    def whole(self, start: int, before: bytes = b"") -> Work[io.BytesIO]:
        """The bytes from a place on in memory, with others before them."""
        if self.size > LARGEST_UNPACKED:
            raise self.refuse(f"is {self.size / 1e6:.0f} MB; at most {LARGEST_UNPACKED / 1e6:.0f} MB of this kind are read. "
                              "Export it with fewer triangles, or as STL.")
        held = io.BytesIO()
        held.write(before)
        for share, piece in self.chunks(start):
            held.write(piece)
            yield Progress("opening", share)
        held.seek(0)
        return held


KINDS = (".stl", ".obj", ".ply", ".off", ".glb", ".3mf")


def _size(path: Path, name: str) -> int:
    try:
        size = path.stat().st_size
        if not path.is_file():
            raise FileError(f"{name} is not a file.")
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        raise FileError(f"{name} can't be read: {(getattr(error, 'strerror', None) or 'no file has such a name').lower()}.") from None
    if size == 0:
        raise FileError(f"{name} is empty; copy or export it again.")
    if size > LARGEST_FILE:
        raise FileError(f"{name} is {size / 1e6:.0f} MB; at most {LARGEST_FILE / 1e6:.0f} MB are read. Let the scanner's program write it "
                        "with fewer triangles.")
    return size


def _unpacked(file: BinaryIO, name: str) -> Work[io.BytesIO]:
    whole = io.BytesIO()
    try:
        with gzip.GzipFile(fileobj=file) as packed:
            while piece := packed.read(CHUNK):
                whole.write(piece)
                if whole.tell() > LARGEST_UNPACKED:
                    raise FileError(f"{name} unpacks to more than {LARGEST_UNPACKED / 1e6:.0f} MB; that much is not unpacked here. "
                                    "If it is meant to be so large, unpack it first.")
                yield Progress("unpacking", min(0.99, whole.tell() / LARGEST_UNPACKED))
    except (OSError, EOFError, zlib.error):
        raise FileError(f"{name} can't be unpacked: it is cut off or not packed with gzip. Copy or export it again.") from None
    if not whole.tell():
        raise FileError(f"{name} is empty once unpacked; copy or export it again.")
    return whole


def _digest(file: BinaryIO, size: int) -> Work[str]:
    digest = hashlib.sha256()
    done = 0
    while piece := file.read(CHUNK):
        digest.update(piece)
        done += len(piece)
        yield Progress("opening", min(1.0, done / size))
    return digest.hexdigest()


@contextmanager
def _opened(path: Path, name: str) -> Iterator[BinaryIO]:
    try:
        file = path.open("rb")
    except OSError as error:
        raise FileError(f"{name} can't be read: {(error.strerror or 'it is not a file').lower()}.") from None
    with file:
        yield file


@contextmanager
def opened(path: Path) -> Iterator[Generator[Progress, None, Source]]:
    """A scan's file, opened and measured; also one packed with gzip, unpacked in memory under a limit."""
    name = clipped(path.name, 60)
    suffixes = [suffix.lower() for suffix in path.suffixes]
    packed = suffixes[-1:] == [".gz"]
    kind = (suffixes[-2:-1] if packed else suffixes[-1:]) or [""]
    if kind[0] not in KINDS:
        raise FileError(f"{name} is not a kind of scan that is read here; those end in {', '.join(KINDS[:-1])} or {KINDS[-1]} "
                        "(each also with .gz).")
    size = _size(path, name)
    with _opened(path, name) as file:
        def work() -> Work[Source]:
            digest = yield from _digest(file, size)
            file.seek(0)
            if not packed:
                return Source(name, file, size, kind[0], digest)
            whole = yield from _unpacked(file, name)
            length = whole.tell()
            whole.seek(0)
            return Source(name, whole, length, kind[0], digest)
        yield work()


@contextmanager
def library(source: Source) -> Iterator[None]:
    """Round a call of the library that reads meshes: whatever it raises becomes one sentence.

    numpy stops at the first word that is no number, with a warning only; here that is an error.
    """
    kind = source.kind[1:].upper()
    try:
        with warnings.catch_warnings(), np.errstate(all="ignore"):
            warnings.simplefilter("ignore")
            warnings.filterwarnings("error", message="string or file could not be read")
            yield
    except MemoryError:
        raise
    except IndexError:
        raise source.refuse(_NOT_THERE) from None
    except Exception:  # a damaged file meets any of them; which one tells a maker nothing
        raise source.refuse(f"has a list of triangles that can't be read as {kind}; it was cut off or damaged. Copy or export it again.") from None


_NOT_THERE = "has a triangle that asks for a point that is not there; it was cut off or damaged. Copy or export it again."


def surface(source: Source, found: dict[str, Any], points: int | None, triangles: int) -> Raw:
    """What the library found, as triangles; held against the numbers of points and triangles that the file has."""
    with library(source):
        vertices = np.asarray(found.get("vertices", np.empty((0, 3))), np.float64)
        faces = np.asarray(found.get("faces", ()))
    if not len(faces):
        raise source.refuse("has no triangles" + (f", only {len(vertices)} points; a cloud of points has no area. Mesh it first, then export it."
                                                  if len(vertices) else "; export the scan again."))
    if faces.ndim != 2 or faces.shape[1] < 3:
        raise source.refuse("has a polygon of fewer than three corners; it was cut off or damaged. Copy or export it again.")
    source.counted(len(faces) * (faces.shape[1] - 2))
    faces = np.concatenate([faces[:, [0, i, i + 1]] for i in range(1, faces.shape[1] - 1)]).astype(np.int64)
    if faces.min() < 0 or faces.max() >= len(vertices):
        raise source.refuse(_NOT_THERE)
    if vertices.shape != (len(vertices) if points is None else points, 3) or len(faces) != triangles:
        raise source.cut(f"has {triangles} triangles, of which {len(faces)} could be read")
    return Raw(vertices, faces, shared=True)


def assembled(source: Source, scene: Any, triangles: int) -> Raw:
    """Every mesh of the library's scene put where the scene puts it, as one list; held against the number of triangles to be built."""
    parts, have = [], 0
    with library(source):
        placed = [scene.graph[node] for node in scene.graph.nodes_geometry]
    for place, name in placed:
        mesh = scene.geometry[name]
        part = surface(source, {"vertices": mesh.vertices, "faces": mesh.faces}, None, len(mesh.faces))
        with np.errstate(invalid="ignore", over="ignore"):  # what is no number stays none, and is refused later
            points = part.vertices @ place[:3, :3].T + place[:3, 3]
            mirrored = np.linalg.det(place[:3, :3]) < 0
        parts.append((points, (part.faces[:, ::-1] if mirrored else part.faces) + have))
        have += len(points)
    if sum(len(faces) for _, faces in parts) != triangles or not parts:
        raise source.cut(f"has {triangles} triangles to be built, of which {sum(len(faces) for _, faces in parts)} could be read")
    return Raw(np.concatenate([points for points, _ in parts]), np.concatenate([faces for _, faces in parts]), shared=True)
