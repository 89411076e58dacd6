"""Which cells lie inside a surface of triangles: how often columns cross it, counted in whole numbers."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from moldcalc.scan.body import Body, Faces, Points
from moldcalc.scan.progress import Progress, Work

#: cells or candidates handled in one step, so that memory stays bounded and progress can be shown
STEP = 1_000_000

Cells = NDArray[np.bool_]


@dataclass(frozen=True)
class Occupancy:
    """Which cells have their centre inside a body, and what was mended to say so.

    `healed` counts the cells where the columns from above were outvoted by the other two axes;
    `stands_open` says that an open base was closed by the board.
    """

    inside: Cells
    healed: int
    stands_open: bool


def occupied(body: Body, origin: Points, shape: tuple[int, int, int], cell: float) -> Work[Occupancy]:
    """Which cells have their centre inside, by crossings of columns.

    Parameters
    ----------
    body
        Surface of triangles, wound outward. [m]
    origin, shape, cell
        Centre of the first cell [m], number of cells along each axis, edge of a cell [m].

    Returns
    -------
    Cells inside, with what was mended.
    """
    points = (body.vertices - origin) / cell
    rim = _open_corners(body, points)
    on_board = bool(len(rim)) and bool((np.abs(body.vertices[rim, 2]) < cell).all())
    count, total = yield from _winding(points, body.faces, shape, 2)
    # a missing roof leaves the column unbalanced the other way: then it is counted from below
    inside = (count - np.minimum(total, 0)[:, :, None]) > 0
    healed = 0
    if len(rim) and not on_board:
        # a balanced column counts double; between two that disagree a hole has let one pass through the body
        votes = np.where(inside, 1, -1).astype(np.int8) * np.where(total == 0, 2, 1).astype(np.int8)[:, :, None]
        for axis in (0, 1):
            count, total = yield from _winding(points, body.faces, shape, axis)
            sure = np.moveaxis(np.broadcast_to((total == 0)[:, :, None], count.shape), *_BACK[axis])
            votes += np.where(sure, np.where(np.moveaxis(count, *_BACK[axis]) > 0, 2, -2), 0).astype(np.int8)
        voted = votes >= 0
        healed = int(np.count_nonzero(voted != inside))
        inside = voted
    if on_board or (len(rim) and bool((np.abs(body.vertices[rim, 2]) < cell).any())):
        below = int(np.clip(ceil(-origin[2] / cell - 1e-9), 0, shape[2]))
        inside[:, :, :below] = False
    return Occupancy(inside, healed, on_board)


#: turns of the axes that keep their handedness, columns last; and how to turn back
_TURN = {0: (1, 2, 0), 1: (2, 0, 1), 2: (0, 1, 2)}
_BACK = {0: ((0, 1, 2), (1, 2, 0)), 1: ((0, 1, 2), (2, 0, 1)), 2: ((0, 1, 2), (0, 1, 2))}


def _open_corners(body: Body, points: Points) -> NDArray[np.int64]:
    """Corners of edges that are not balanced by the same edge run the other way: rims of holes."""
    _, first, same = np.unique(np.round(points * 2.0**12).astype(np.int64), axis=0, return_index=True, return_inverse=True)
    faces = same.reshape(-1)[body.faces]
    ends = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    forward = np.where(ends[:, 0] < ends[:, 1], 1, -1)
    ends.sort(axis=1)
    keys, place = np.unique(ends[:, 0] * len(first) + ends[:, 1], return_inverse=True)
    balance = np.bincount(place.reshape(-1), weights=forward, minlength=len(keys))
    rims = keys[balance != 0]
    rims = rims[rims // len(first) != rims % len(first)]
    corners: NDArray[np.int64] = first[np.unique(np.concatenate([rims // len(first), rims % len(first)]))]
    return corners


def _winding(points: Points, faces: Faces, shape: tuple[int, int, int], axis: int) -> Work[tuple[NDArray[np.int16], NDArray[np.int16]]]:
    """How often the surface winds round each centre, counted from the far end of its column, and each column's total."""
    turn = _TURN[axis]
    turned = tuple(shape[i] for i in turn)
    steps = np.zeros((turned[0], turned[1], turned[2] + 1), np.int16)
    bits = min(18, 28 - max(shape).bit_length())
    flat = np.round(points[:, turn[:2]] * 2.0**bits).astype(np.int64)
    for n, (share, place, height, sign) in enumerate(_crossings(flat, points[:, axis], faces, turned, bits)):
        level = np.clip(np.ceil(height), 0, turned[2]).astype(np.int64)
        np.add.at(steps.reshape(-1), place * (turned[2] + 1) + level, sign)
        if n % 4 == 0:
            yield Progress("counting crossings", 0.5 * share)
    # a crossing at level k lies above the centres 0 to k - 1
    count = np.cumsum(steps[:, :, :0:-1], axis=2, dtype=np.int16)[:, :, ::-1]
    return count, count[:, :, 0] + steps[:, :, 0]


def _crossings(flat: NDArray[np.int64], height: NDArray[np.float64], faces: Faces, shape: tuple[int, ...],
               bits: int) -> Iterator[tuple[float, NDArray[np.int64], NDArray[np.float64], NDArray[np.int16]]]:
    """Columns that pass through triangles: column's number, height in cells, +1 where the triangle faces the far end."""
    a, b, c = (flat[faces[:, i]] for i in range(3))
    twice = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    corners = np.stack([a, b, c], axis=1)
    one = 1 << bits
    low = np.maximum(-((-corners.min(axis=1)) // one), 0)
    high = np.minimum(corners.max(axis=1) // one, np.array(shape[:2]) - 1)
    size = np.where((twice != 0)[:, None], np.maximum(high - low + 1, 0), 0)
    used = np.flatnonzero(size.prod(axis=1))
    done = 0
    for some in portions(used, size[used, 0]):
        row_of, row = expanded(some, size[some, 0], low[some, 0])
        for rows in portions(np.arange(len(row_of)), size[row_of, 1]):
            triangle, place = expanded(row_of[rows], size[row_of[rows], 1], low[row_of[rows], 1])
            u = np.repeat(row[rows], size[row_of[rows], 1])
            inner, weights = _through(corners[triangle], u * one, place * one, np.sign(twice[triangle]))
            triangle, u, place = triangle[inner], u[inner], place[inner]
            at = (weights * height[faces[triangle]]).sum(axis=1) / weights.sum(axis=1)
            yield done / max(len(used), 1), u * shape[1] + place, at, np.sign(twice[triangle]).astype(np.int16)
        done += len(some)


def portions(items: NDArray[np.int64], sizes: NDArray[np.int64]) -> Iterator[NDArray[np.int64]]:
    """Items in portions whose sizes add up to about one step."""
    if len(items):
        ends = np.cumsum(sizes) // STEP
        yield from np.split(items, np.flatnonzero(np.diff(ends)) + 1)


def expanded(items: NDArray[np.int64], counts: NDArray[np.int64], first: NDArray[np.int64]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Every item as often as its count, with numbers going up from its first."""
    start = np.cumsum(counts) - counts
    return np.repeat(items, counts), np.arange(int(counts.sum())) + np.repeat(first - start, counts)


def _through(corners: NDArray[np.int64], u: NDArray[np.int64], v: NDArray[np.int64],
             sign: NDArray[np.int64]) -> tuple[Cells, NDArray[np.float64]]:
    """Which columns pass through their triangle; and the weights of its corners there.

    All in whole numbers; a column that meets an edge counts as moved by (e, e²), e next to nothing.
    """
    inner = np.ones(len(u), bool)
    weights = np.empty((len(u), 3))
    for i in range(3):
        p, q = corners[:, (i + 1) % 3], corners[:, (i + 2) % 3]
        du, dv = q[:, 0] - p[:, 0], q[:, 1] - p[:, 1]
        side = du * (v - p[:, 1]) - dv * (u - p[:, 0])
        weights[:, i] = side
        tied = np.where(dv != 0, -dv, du)
        inner &= np.sign(np.where(side == 0, tied, side)) == sign
    return inner, weights[inner]
