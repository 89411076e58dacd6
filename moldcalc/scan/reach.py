"""Which parts of an outside can leave along which direction: enough draft there, and nothing in the way."""

from concurrent.futures import Executor
from dataclasses import dataclass
from math import sin

import numpy as np
from numpy.typing import NDArray

from moldcalc.scan.body import Grid, Points
from moldcalc.scan.progress import Progress, Work

OFF = 0.5
"""How far off the surface a path starts, in cells."""

DEEP = 0.2
"""A place whose start is still so many cells inside can't leave along any direction."""

CLEAR, SLACK = 0.35, 0.15
"""The clearance a path must keep, in cells, or so much less than where it starts: what the grid can't tell from grazing counts as in the way."""

STEP = 0.5
"""The shortest step along a path, in cells."""

ROUNDED = 1e-4
"""What single-precision distances leave uncertain in a normal (they are right to 1e-7 of a metre on cells of a centimetre, and some)."""

BLOCK = 16
"""Directions followed at a time."""


@dataclass(frozen=True)
class Field:
    """The distance of a body made ready for looking it up along many paths at once.

    `rows` (cells, 4) float32 holds for every cell its distance in cells and the slope of it, so that one look gives the distance
    anywhere in the cell to first order. `low`, `high` are the corners of the body's bounding box in cells, `board` the board's height
    in cells or minus infinity.
    """

    rows: NDArray[np.float32]
    shape: tuple[int, int, int]
    low: NDArray[np.float32]
    high: NDArray[np.float32]
    board: float
    origin: Points
    cell: float


def field_of(grid: Grid, *, board: bool = True) -> Field:
    """Make a distance grid ready for following paths through it."""
    distance = np.asarray(grid.distance, dtype=np.float32) / np.float32(grid.cell)
    slope = np.stack(np.gradient(distance))
    steep = np.sqrt((slope**2).sum(axis=0))
    rows = np.concatenate([distance[None], slope / np.maximum(steep, 1)]).reshape(4, -1).T
    held = [np.flatnonzero((distance < 0).any(axis=tuple(i for i in range(3) if i != axis))) for axis in range(3)]
    low = np.array([part[0] - 1 for part in held], dtype=np.float32)
    high = np.array([part[-1] + 1 for part in held], dtype=np.float32)
    height = float(-grid.origin[2] / grid.cell) if board else -np.inf
    if board:
        # a body that hangs over the board still has it in the way
        low[2] = min(low[2], height - 1)
    x, y, z = distance.shape
    return Field(np.ascontiguousarray(rows), (x, y, z), low, high, height, np.asarray(grid.origin, dtype=np.float64), grid.cell)


def free_paths(field: Field, points: NDArray[np.float32], direction: Points) -> NDArray[np.bool_]:
    """From which points, (n, 3) in cells, a straight path along one direction leaves the box round the body without entering it or the board."""
    start = np.ascontiguousarray(points.T, dtype=np.float32)
    along = np.asarray(direction, dtype=np.float32)
    leaves = _leaves(field, start, along)
    free = np.ones(start.shape[1], dtype=np.bool_)
    if along[2] < 0 and np.isfinite(field.board):
        # the board is met before the box is left; half a cell is what the grid can't tell
        free &= start[2] + leaves * along[2] > field.board - 0.5
    active = np.flatnonzero(free & (leaves > 0))
    here, end = start[:, active], leaves[active]
    need = np.clip(away_at(field, here) - np.float32(SLACK), 0, CLEAR)
    gone = np.zeros(len(active), dtype=np.float32)
    for _ in range(int(4 * sum(field.shape) / STEP)):
        if not len(active):
            break
        away = away_at(field, here + along[:, None] * gone)
        hit = away < need
        free[active[hit]] = False
        gone = gone + np.maximum(away, np.float32(STEP))
        going = ~hit & (gone < end)
        active, gone, here, end, need = active[going], gone[going], here[:, going], end[going], need[going]
    return free


def away_at(field: Field, places: NDArray[np.float32]) -> NDArray[np.float32]:
    """The distance to the body at places (3, n), in cells: that of the nearest cell and its slope."""
    nearest = np.rint(places)
    x, y, z = np.clip(nearest.astype(np.intp), 0, np.array(field.shape, dtype=np.intp)[:, None] - 1)
    row = field.rows[(x * field.shape[1] + y) * field.shape[2] + z]
    off = places - nearest
    away: NDArray[np.float32] = row[:, 0] + row[:, 1] * off[0] + row[:, 2] * off[1] + row[:, 3] * off[2]
    return away


def _leaves(field: Field, start: NDArray[np.float32], along: NDArray[np.float32]) -> NDArray[np.float32]:
    """How far each point must go, in cells, until it is out of the box round the body."""
    ways = []
    for axis in range(3):
        if abs(along[axis]) > 1e-6:
            wall = field.high[axis] if along[axis] > 0 else field.low[axis]
            ways.append((wall - start[axis]) / along[axis])
    leaves: NDArray[np.float32] = np.min(ways, axis=0)
    return leaves


def reach_of(field: Field, centres: Points, normals: Points, directions: Points, least_draft: float) -> NDArray[np.bool_]:
    """`reach` for one block of directions, at once; what an executor is asked to do."""
    points = ((centres - field.origin) / field.cell + OFF * normals).astype(np.float32)
    # on a sharp edge, which the grid cuts off, a start may still be inside: move it out until it has the room it should have,
    # unless so much is cut off that the grid can't say how the surface runs there
    room = away_at(field, points.T)
    known = room > -DEEP
    points += np.clip(OFF - room, 0, 2 * OFF)[:, None] * normals.astype(np.float32)
    reached = np.zeros((len(directions), len(centres)), dtype=np.bool_)
    for number, direction in enumerate(directions):
        steep = np.flatnonzero(known & (normals @ direction >= sin(least_draft) - ROUNDED))
        reached[number, steep] = free_paths(field, points[steep], direction)
    return reached


def reach(
    centres: Points, normals: Points, field: Field, directions: Points, least_draft: float, executor: Executor | None = None
) -> Work[NDArray[np.bool_]]:
    """Which places of an outside can leave along which directions.

    Parameters
    ----------
    centres, normals
        The places and their outward unit normals, (n, 3). [m, -]
    field
        The body, see `field_of`.
    directions
        Unit vectors, (d, 3).
    least_draft
        The angle that a face must at least make with the pull. [rad]
    executor
        Maps blocks of directions when given; the answer is the same.

    Returns
    -------
    True where the draft is met and the path out is free, (d, n).

    Notes
    -----
    Range: obstacles of about a cell and larger. A path starts half a cell off the surface and must keep 0.35 of a cell clear, so that a ledge which
    reaches 0.15 of a cell into it is seen and noise of the grid is not. A path ends where it leaves the box round the body.
    Source: stepping by the distance to the nearest surface ('sphere tracing', Hart 1996, from memory).
    """
    blocks = [directions[at:at + BLOCK] for at in range(0, len(directions), BLOCK)]
    said = "which way each place can leave"
    answers: list[NDArray[np.bool_]] = []
    if executor is None:
        for block in blocks:
            yield Progress(said, len(answers) / len(blocks))
            answers.append(reach_of(field, centres, normals, block, least_draft))
    else:
        asked = [executor.submit(reach_of, field, centres, normals, block, least_draft) for block in blocks]
        try:
            for future in asked:
                yield Progress(said, len(answers) / len(blocks))
                answers.append(future.result())
        finally:
            for future in asked:
                future.cancel()
    return np.concatenate(answers) if answers else np.zeros((0, len(centres)), dtype=np.bool_)


def sample(centres: Points, areas: NDArray[np.float64], many: int) -> NDArray[np.int64]:
    """Numbers of at most so many faces, evenly spread over the area: every so many square metres along a curve that visits neighbours in turn."""
    if len(centres) <= many:
        return np.arange(len(centres))
    low = centres.min(axis=0)
    size = (centres.max(axis=0) - low).max()
    cells = ((centres - low) / max(size, 1e-300) * 1023).astype(np.int64)
    code = np.zeros(len(centres), dtype=np.int64)
    for bit in range(10):
        for axis in range(3):
            code |= ((cells[:, axis] >> bit) & 1) << (3 * bit + axis)
    order = np.argsort(code, kind="stable")
    passed = np.cumsum(areas[order])
    picked = np.searchsorted(passed, (np.arange(many) + 0.5) / many * passed[-1])
    return np.unique(order[np.minimum(picked, len(order) - 1)])


