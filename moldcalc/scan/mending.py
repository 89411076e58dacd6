"""What is done to a scan's triangles so that they can be measured; everything done is counted and said."""

from typing import NamedTuple

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from moldcalc.scan.body import Faces, Points
from moldcalc.scan.edges import Edges, edges_in_steps, turns
from moldcalc.scan.nested import nesting, volume_parts
from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.source import Raw, Source

#: largest extent that is read, in the file's unit: a kilometre in millimetres
LARGEST_EXTENT = 1e6


class Mended(NamedTuple):
    """A surface ready to be measured and what was done to it."""

    vertices: Points
    faces: Faces
    edges: Edges
    consistent: bool
    notes: tuple[str, ...]


def several(count: int, one: str, many: str | None = None) -> str:
    """A count with its noun: '1 triangle', '12 400 triangles'."""
    return f"{count:,} {one if count == 1 else many or one + 's'}".replace(",", " ")


def refuse_wild(source: Source, raw: Raw) -> None:
    """Raises the sentence on coordinates that are no numbers, too far, or all in one place."""
    low, high = box(raw.vertices)
    if not (np.isfinite(low).all() and np.isfinite(high).all()):
        bad = ~np.isfinite(raw.vertices).all(axis=1)
        triangle = int(np.flatnonzero(bad[raw.faces].any(axis=1))[0]) + 1 if bad[raw.faces].any() else 0
        where = f" (the first in triangle {triangle})" if triangle else ""
        raise source.refuse(f"has {several(int(bad.sum()), 'point')} whose coordinates are no finite numbers{where}; export the scan again.")
    extent = float((high.astype(float) - low.astype(float)).max())
    if extent > LARGEST_EXTENT or max(abs(float(low.min())), abs(float(high.max()))) > 1e3 * LARGEST_EXTENT:
        raise source.refuse(f"has coordinates that can't be a scan's: it would be {extent:.3g} units across; at most "
                            f"{LARGEST_EXTENT:.0f} are read. It was damaged; export it again.")
    if extent <= 0 or extent < 1e-9:
        raise source.refuse("has all its points in one place; export the scan again.")


def box(points: NDArray[np.floating]) -> tuple[NDArray[np.floating], NDArray[np.floating]]:
    """The least and greatest coordinates of many points; many rows at once, since numpy is slow along short ones."""
    blocks = points[: len(points) // 64 * 64].reshape(-1, 192)
    rest = points[len(blocks) * 64:]
    low, high = (np.concatenate([found.reshape(-1, 3), rest]) for found in (blocks.min(axis=0, initial=np.inf), blocks.max(axis=0, initial=-np.inf)))
    return low.min(axis=0), high.max(axis=0)


def _hashed(points: NDArray[np.floating]) -> NDArray[np.uint64]:
    """One number for each point, from the bits of its coordinates."""
    word = np.uint32 if points.dtype == np.float32 else np.uint64
    bits: NDArray[np.unsignedinteger] = np.ascontiguousarray(points).view(word)
    mixed = bits[:, 0].astype(np.uint64)
    for column, factor in ((1, 0x9E3779B97F4A7C15), (2, 0xC2B2AE3D27D4EB4F)):
        mixed *= np.uint64(factor)
        mixed ^= mixed >> np.uint64(29)
        mixed ^= bits[:, column]
    mixed *= np.uint64(0x165667B19E3779F9)
    return mixed


def joined(points: NDArray[np.floating]) -> Work[tuple[NDArray[np.floating], NDArray[np.int64]]]:
    """Equal points as one: the distinct points, and which of them each point is.

    Points are compared bit by bit (0 and -0 are the same) through a hash; whether it told all of them apart is checked afterwards,
    in pieces that stay in the processor's cache.
    """
    points = points + points.dtype.type(0)
    mixed = _hashed(points)
    yield Progress("joining points", 0.2)
    label, distinct = pd.factorize(mixed)
    yield Progress("joining points", 0.5)
    kept = np.empty((len(distinct), 3), points.dtype)
    kept[label] = points
    yield Progress("joining points", 0.6)
    step = 1 << 15
    if all(np.array_equal(kept[label[i:i + step]], points[i:i + step]) for i in range(0, len(points), step)):
        return kept, label
    kept, label = np.unique(points, axis=0, return_inverse=True)
    return kept, label.reshape(-1)


def _distinct_faces(faces: Faces) -> tuple[Faces, int]:
    """Triangles without exact copies (same points, same outside)."""
    turn = np.argmin(faces, axis=1)
    rows = np.arange(len(faces))
    ordered = np.stack([faces[rows, (turn + i) % 3] for i in range(3)], axis=1)
    _, first = np.unique(ordered, axis=0, return_index=True)
    return faces[np.sort(first)], len(faces) - len(first)


def _used(vertices: Points, faces: Faces) -> tuple[Points, Faces, int]:
    """Only the points that triangles use."""
    used = np.zeros(len(vertices), bool)
    used[faces.ravel()] = True
    spare = len(vertices) - int(used.sum())
    if not spare:
        return vertices, faces, 0
    return vertices[used], (np.cumsum(used) - 1)[faces], spare


def mended(source: Source, raw: Raw) -> Work[Mended]:
    """Joins equal points, drops what has no area or stands twice, turns triangles so that neighbours agree and outsides are outside."""
    refuse_wild(source, raw)
    yield Progress("joining points", 0.0)
    notes: list[str] = []
    vertices, faces, edges = yield from _joined_up(source, raw, notes)
    if edges.crowded or edges.turned.any():
        faces, doubled = _distinct_faces(faces)
        if doubled:
            notes.append(f"{several(doubled, 'triangle')} stood there twice; one of each was kept")
            edges = yield from edges_in_steps(faces, len(vertices))
    faces, edges, consistent = yield from _agreed(faces, edges, len(vertices), notes)
    yield Progress("checking the outside", 0.9)
    outward = _outward(vertices, faces, edges, consistent, notes)
    return Mended(vertices, outward, edges, consistent, tuple(notes))


def _joined_up(source: Source, raw: Raw, notes: list[str]) -> Work[tuple[Points, Faces, Edges]]:
    faces: Faces = raw.faces.astype(np.int64, copy=False)
    vertices = raw.vertices
    if raw.shared:
        double, faces, spare = _used(vertices.astype(np.float64), faces)
        vertices = double
        if spare:
            notes.append(f"{several(spare, 'point')} belonged to no triangle and {'was' if spare == 1 else 'were'} left out")
        faces = _with_area(source, faces, notes)
        edges = yield from edges_in_steps(faces, len(double))
        if edges.closed and not edges.crowded:
            return double, faces, edges
    distinct, label = yield from joined(vertices)
    same = len(vertices) - len(distinct)
    if raw.shared and same:
        notes.append(f"{several(same, 'point')} lay exactly on another and {'was' if same == 1 else 'were'} joined to it")
    before = len(faces)
    faces = label[faces] if raw.shared else label.reshape(-1, 3)
    faces = _with_area(source, faces, notes)
    kept: Points = distinct.astype(np.float64)
    if len(faces) < before or raw.shared:
        kept, faces, _ = _used(kept, faces)
    edges = yield from edges_in_steps(faces, len(kept))
    return kept, faces, edges


def _with_area(source: Source, faces: Faces, notes: list[str]) -> Faces:
    """Triangles with three different points."""
    flat = (faces[:, 0] == faces[:, 1]) | (faces[:, 1] == faces[:, 2]) | (faces[:, 2] == faces[:, 0])
    count = int(flat.sum())
    if not count:
        return faces
    if count == len(faces):
        raise source.refuse("has no triangle with an area; export the scan again.")
    notes.append(f"{several(count, 'triangle')} had two corners in one point and no area; {'it was' if count == 1 else 'they were'} dropped")
    return faces[~flat]


def _agreed(faces: Faces, edges: Edges, points: int, notes: list[str]) -> Work[tuple[Faces, Edges, bool]]:
    """Triangles turned so that neighbours agree about the outside."""
    if edges.consistent:
        return faces, edges, not edges.unbalanced
    turn, possible = turns(edges, len(faces))
    if not possible:
        notes.append("its triangles can't be made to agree about the outside; a volume would mean nothing")
        return faces, edges, False
    faces = np.where(turn[:, None], faces[:, ::-1], faces)
    notes.append(f"{several(int(turn.sum()), 'triangle')} faced the other way than {'its' if turn.sum() == 1 else 'their'} "
                 "neighbours and were turned")
    edges = yield from edges_in_steps(faces, points)
    return faces, edges, edges.consistent and not edges.unbalanced


def _outward(vertices: Points, faces: Faces, edges: Edges, consistent: bool, notes: list[str]) -> Faces:
    """Triangles turned so that the outside of every outermost body is outside."""
    if not (edges.closed and consistent):
        return faces
    body = edges.body_of_point[faces[:, 0]]
    volumes = volume_parts(vertices, faces, body, edges.bodies)
    wrong = volumes < 0
    if not wrong.any():
        return faces
    inner = nesting(vertices, faces, body, edges.bodies).inner
    wrong &= ~inner
    if wrong.any():
        all_of_it = wrong.all()
        notes.append("it was inside out as a whole and was turned" if all_of_it
                     else f"{several(int(wrong.sum()), 'body was', 'bodies were')} inside out and turned")
        faces = np.where(wrong[body][:, None], faces[:, ::-1], faces)
    return faces
