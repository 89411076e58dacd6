"""Which piece of a shell stands in whose way: paths swept over a grid, flanges and keys as faces that touch."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import asin, pi, sin
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import ndimage

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.progress import Progress, Work, finish

Points = NDArray[np.float64]
#: cells of `Pieces.labels` that belong to no piece: free to pass, or the body itself
FREE, BODY = -1, -2
#: so many cells in the way are more than the grid's own roughness
LEAST_CELLS = 4
#: a flange may lean so far the wrong way before it counts; borders of triangles are rough [rad]
LEAN = 10 * pi / 180
#: over so much of a joint [share]
OVER = 0.2


@dataclass(frozen=True)
class Pieces:
    """The pieces of a shell on cubic cells.

    `labels` is (nx, ny, nz): the piece from 0, -1 free, -2 deep in the body. `cell` is its edge and `origin` the centre of the first one [m];
    `pulls` (k, 3) are unit vectors. `flange` says which cells are flange and no wall: what concerns them within `near` [m] of where a piece starts
    is left to the faces that touch, since a flange may lean.
    """

    labels: NDArray[np.int16]
    pulls: Points
    cell: float
    origin: Points
    flange: NDArray[np.bool_] | None = None
    near: float = 0.0


@dataclass(frozen=True)
class Key:
    """A conical key that stands on the flange of piece `carrier` and narrows along `axis` into piece `socket`, with its half-angle [rad]."""

    carrier: int
    socket: int
    axis: ArrayLike
    half_angle: float
    place: ArrayLike = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Contact:
    """Faces of `other` on which `piece` lies: their normals (m, 3), out of the other and into the piece.

    They hold the piece where more than a share `over` of them lean against its way by more than `lean` [rad]: both are 0 for faces
    that are known exactly. `place` and `area` [m, m²] are for words.
    """

    piece: int
    other: int
    normals: ArrayLike
    place: ArrayLike = (0.0, 0.0, 0.0)
    area: float = 0.0
    lean: float = 1e-9
    over: float = 0.0


@dataclass(frozen=True)
class Hit:
    """Piece `piece` can't leave before `by` has. `place` is the middle of where [m], `area` how much of the piece or joint is concerned [m²].

    `kind` is `path` (`volume` is then the room between the two along the pull [m³], what paste would have to fill), `flange` (`angle` is how far it
    leans the wrong way) or `key` (`angle` is the half-angle it needs) [rad].
    """

    piece: int
    by: int
    kind: Literal["path", "flange", "key"]
    place: Points
    area: float = 0.0
    volume: float = 0.0
    angle: float = 0.0


def blocking(pieces: Pieces, *, keys: Sequence[Key] = (), contacts: Sequence[Contact] = ()) -> NDArray[np.bool_]:
    """(k, k): true where the row's piece can't leave along its pull before the column's piece has.

    Parameters
    ----------
    pieces
        On a grid, each with its pull.
    keys, contacts
        Keys in flanges, and faces that touch.

    Returns
    -------
    The blocking graph.

    Raises
    ------
    EntryError
        Pulls that don't fit the labels; a key or contact of a piece that isn't there.
    """
    return matrix(finish(hits(pieces, keys=keys, contacts=contacts)), len(pieces.pulls))


def matrix(found: Sequence[Hit], count: int) -> NDArray[np.bool_]:
    """The hits as a (k, k) table."""
    made = np.zeros((count, count), dtype=bool)
    for hit in found:
        made[hit.piece, hit.by] = True
    return made


def hits(pieces: Pieces, *, keys: Sequence[Key] = (), contacts: Sequence[Contact] = ()) -> Work[tuple[Hit, ...]]:
    """Who stands in whose way, and where.

    A piece's front cells are moved along its pull half a cell at a time; whatever piece they enter is in the way. Cells that touch another piece
    are left out, since on a grid they would graze it while they slide past: those are judged by the normals of the faces that touch.

    Returns
    -------
    The hits, in the order of the pieces.
    """
    _check(pieces, keys, contacts)
    found: list[Hit] = []
    for piece, pull in enumerate(pieces.pulls):
        yield Progress(f"Path of section {piece + 1}", piece / len(pieces.pulls))
        found += yield from swept(pieces, piece, pull)
        found += resting(contacts, piece, pull) + keyed(keys, piece, pull)
    return tuple(found)


def _check(pieces: Pieces, keys: Sequence[Key], contacts: Sequence[Contact]) -> None:
    count = len(pieces.pulls)
    if pieces.labels.ndim != 3 or pieces.pulls.shape != (count, 3) or int(pieces.labels.max(initial=-1)) >= count:
        raise EntryError(Fault("pieces", f"{int(pieces.labels.max(initial=-1)) + 1} on the grid with {count} pulls", "give each its pull"))
    if not np.allclose(np.linalg.norm(pieces.pulls, axis=1), 1, atol=1e-6):
        raise EntryError(Fault("pulls", "not all of length 1", "give unit vectors"))
    named = [number for key in keys for number in (key.carrier, key.socket)] + [number for one in contacts for number in (one.piece, one.other)]
    if any(not 0 <= number < count for number in named):
        raise EntryError(Fault("key or contact", "of a piece that is not there", f"give pieces 0 to {count - 1}"))


def swept(pieces: Pieces, piece: int, pull: Points) -> Work[list[Hit]]:
    """What one piece runs into along one direction."""
    labels = pieces.labels
    own = labels == piece
    box = ndimage.find_objects(own.astype(np.int8))
    if not box:
        return []
    window = tuple(slice(max(0, part.start - 1), part.stop + 1) for part in box[0])
    mine = own[window]
    others = (labels[window] >= 0) & ~mine
    core = mine & ~ndimage.binary_dilation(others, np.ones((3, 3, 3)))
    start = np.argwhere(core) + [part.start for part in window]
    front = np.zeros_like(own)
    front[tuple(start.T)] = True
    ahead = start + np.rint(pull / np.abs(pull).max()).astype(np.int64)
    inside = ((ahead >= 0) & (ahead < labels.shape)).all(axis=1)
    covered = np.zeros(len(start), dtype=bool)
    covered[inside] = front[tuple(ahead[inside].T)]
    return (yield from _run(pieces, piece, pull, start[~covered]))


def _run(pieces: Pieces, piece: int, pull: Points, start: NDArray[np.int64]) -> Work[list[Hit]]:
    count = len(pieces.pulls)
    when = np.full((len(start), count), np.inf)
    alive = np.arange(len(start))
    flange = np.zeros_like(pieces.labels, dtype=bool) if pieces.flange is None else pieces.flange
    from_flange = flange[tuple(start.T)]
    steps = int(2 * np.linalg.norm(pieces.labels.shape)) + 2
    for step in range(1, steps):
        if not len(alive):
            break
        cells = np.rint(start[alive] + pull * (step / 2)).astype(np.int64)
        inside = ((cells >= 0) & (cells < pieces.labels.shape)).all(axis=1)
        alive, cells = alive[inside], cells[inside]
        met = pieces.labels[tuple(cells.T)]
        struck = (met >= 0) & (met != piece)
        if step * pieces.cell < 2 * pieces.near:
            struck &= ~(from_flange[alive] | flange[tuple(cells.T)])
        rows, by = alive[struck], met[struck]
        when[rows, by] = np.minimum(when[rows, by], step)
        alive = alive[met != BODY]
        if step % 64 == 0:
            yield Progress(f"Path of section {piece + 1}", piece / count)
    return [_hit(pieces, piece, other, pull, start, when) for other in range(count) if np.isfinite(when[:, other]).sum() >= LEAST_CELLS]


def _hit(pieces: Pieces, piece: int, other: int, pull: Points, start: NDArray[np.int64], when: Points) -> Hit:
    struck = np.isfinite(when[:, other])
    cells, last = start[struck], when[struck, other]
    passed: list[NDArray[np.int64]] = []
    for step in range(1, int(last.max())):
        here = np.rint(cells[last > step] + pull * (step / 2)).astype(np.int64)
        free = pieces.labels[tuple(here.T)] == FREE
        passed.append(np.unique(np.ravel_multi_index(tuple(here[free].T), pieces.labels.shape)))
    room = len(np.unique(np.concatenate(passed))) if passed else 0
    place = pieces.origin + pieces.cell * cells.mean(axis=0)
    return Hit(piece, other, "path", place, float(struck.sum()) * pieces.cell**2, room * pieces.cell**3)


def resting(contacts: Sequence[Contact], piece: int, way: Points) -> list[Hit]:
    """Which faces that touch hold a piece back from going a way."""
    found = []
    for one in contacts:
        slope = np.asarray(one.normals, dtype=float).reshape(-1, 3) @ way
        wrong = slope < -sin(one.lean)
        if one.piece == piece and len(slope) and wrong.mean() > one.over:
            angle = asin(float(np.clip(-np.median(slope[wrong]), 0, 1)))
            found.append(Hit(piece, one.other, "flange", np.asarray(one.place, dtype=float), one.area * float(wrong.mean()), 0.0, angle))
    return found


def keyed(keys: Sequence[Key], piece: int, way: Points) -> list[Hit]:
    """Which keys hold a piece back from going a way: they let go within the half-angle of the axis, the socket along it, the carrier against it."""
    found = []
    for key in keys:
        axis = np.asarray(key.axis, dtype=float)
        axis = axis / np.linalg.norm(axis)
        for mine, other, out in ((key.socket, key.carrier, axis), (key.carrier, key.socket, -axis)):
            off = float(np.arctan2(np.linalg.norm(np.cross(way, out)), way @ out))
            if mine == piece and off > key.half_angle + 1e-9:
                found.append(Hit(piece, other, "key", np.asarray(key.place, dtype=float), 0.0, 0.0, off))
    return found


def seam_contacts(pieces: Pieces, distance: NDArray[np.float32] | None = None) -> list[Contact]:
    """Faces on which pieces lie against each other, read from the grid, with smoothed normals.

    With the distance to the body on the same cells, flanges lean from square, up to 45 degrees, to where they suit both pulls if they can.
    """
    labels, made = pieces.labels, []
    soft: dict[int, NDArray[np.float32]] = {}
    for one, two, cells in _touching(labels):
        for piece in (one, two):
            if piece not in soft:
                soft[piece] = ndimage.gaussian_filter((labels == piece).astype(np.float32), 1.5)
        gradient = _gradient(soft[one] - soft[two], cells)
        size = np.linalg.norm(gradient, axis=1, keepdims=True)
        good = size[:, 0] > 1e-6
        if good.any():
            normals = gradient[good] / size[good]
            if distance is not None:
                normals = _leaned(normals, _gradient(distance, cells[good]), pieces.pulls[one], pieces.pulls[two])
            place = pieces.origin + pieces.cell * cells.mean(axis=0)
            area = len(cells) * pieces.cell**2
            made += [Contact(one, two, normals, place, area, LEAN, OVER), Contact(two, one, -normals, place, area, LEAN, OVER)]
    return made


def _leaned(normals: Points, outward: Points, mine: Points, other: Points) -> Points:
    """Normals of flanges (out of the other piece, into mine) turned about the seam as little as it takes to let both pulls go, if any turn does."""
    out = outward - np.einsum("ij,ij->i", outward, normals)[:, None] * normals
    size = np.linalg.norm(out, axis=1, keepdims=True)
    out = np.where(size > 1e-9, out / np.maximum(size, 1e-9), 0.0)
    one, two = (np.arctan2(normals @ pull, out @ pull) for pull in (mine, other))  # from square, toward my side
    turn = np.clip(np.clip(0.0, np.minimum(one, two), np.maximum(one, two)), -pi / 4, pi / 4)
    crossed = one < two
    turn = np.where(crossed, np.where((one < 0) & (two > 0), np.where(-one < two, one, two), 0.0), turn)
    turn = np.clip(turn, -pi / 4, pi / 4)[:, None]
    leaned: Points = np.where(size > 1e-9, np.cos(turn) * normals - np.sin(turn) * out, normals)
    return leaned


def _touching(labels: NDArray[np.int16]) -> list[tuple[int, int, NDArray[np.int64]]]:
    """Pairs of pieces with cells side by side, and the cells of the first of each pair that are."""
    pairs: dict[tuple[int, int], list[NDArray[np.int64]]] = {}
    for axis in range(3):
        low = labels[tuple(slice(0, -1) if a == axis else slice(None) for a in range(3))]
        high = labels[tuple(slice(1, None) if a == axis else slice(None) for a in range(3))]
        where = np.argwhere((low >= 0) & (high >= 0) & (low != high))
        ends = np.stack([low[tuple(where.T)], high[tuple(where.T)]], axis=1)
        for one, two in np.unique(np.sort(ends, axis=1), axis=0).tolist():
            these = where[((ends == [one, two]) | (ends == [two, one])).all(axis=1)]
            pairs.setdefault((one, two), []).append(these)
    return [(one, two, np.concatenate(cells)) for (one, two), cells in sorted(pairs.items())]


def _gradient(values: NDArray[np.float32], cells: NDArray[np.int64]) -> Points:
    parts = []
    for axis in range(3):
        step = np.eye(3, dtype=np.int64)[axis]
        more, less = (np.clip(cells + sign * step, 0, np.array(values.shape) - 1) for sign in (1, -1))
        parts.append(values[tuple(more.T)] - values[tuple(less.T)])
    gradient: Points = np.stack(parts, axis=1).astype(float)
    return gradient
