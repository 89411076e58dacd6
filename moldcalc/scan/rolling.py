"""What a ball rolling outside can't reach, and what lies in the shadow of a pull."""

from math import ceil, floor

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.ndimage import shift

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Grid
from moldcalc.scan.distance import FAR, Distances, centres, padded, redistanced
from moldcalc.scan.progress import Progress, Work


def closed(grid: Grid, radius: float, board: bool = False) -> Work[Grid]:
    """The body with everything filled that a ball rolling outside can't reach.

    Parameters
    ----------
    grid
        The body; distances outside it right. [m]
    radius
        Of the ball. [m]
    board
        Whether the ball rolls on the board: it stays above z = 0. What it leaves there in the corner of body and board
        is filled too; nothing below the board changes.

    Returns
    -------
    The filled body on the same cells.

    Raises
    ------
    EntryError
        A radius that is no length, or more than `MOST_CELLS` with the air that the ball needs.

    Notes
    -----
    Range: first order in the cell and erratic, at most about 0.9 cell times the free surface of the fill, mostly too
    much. Take cells of at most a tenth of the radius.
    Source: grown by the radius, then shrunk by it: two distance transforms.
    """
    if not (np.isfinite(radius) and radius > 0):
        raise EntryError(Fault("radius", f"{radius:g} m", "it must be above 0"))
    wide, pad = grid, air_wanted(grid, radius)
    if pad:
        yield Progress("air for the ball", 0.0)
        wide = yield from padded(grid, pad)
    yield Progress("rolling the ball", 0.4)
    level = wide.distance - np.float32(radius)
    if board:
        np.minimum(level, (centres(wide, 2) - radius).astype(np.float32), out=level)
    rolled = yield from redistanced(level, grid.cell)
    cut = tuple(slice(pad, pad + n) for n in grid.distance.shape)
    filled = np.minimum(grid.distance, rolled[cut] + np.float32(radius))
    if board:
        below = centres(grid, 2) < 0
        filled[:, :, below] = grid.distance[:, :, below]
    yield Progress("rolling the ball", 1.0)
    return Grid(grid.origin, grid.cell, filled)


def air_wanted(grid: Grid, radius: float) -> int:
    """Cells to add so that the body grown by the radius touches no border."""
    least = min(float(np.take(grid.distance, end, axis=axis).min()) for axis in range(3) for end in (0, -1))
    short = radius + 2 * grid.cell - least
    return ceil(short / grid.cell) if short > 0 else 0


def shadow(grid: Grid, direction: ArrayLike) -> Grid:
    """The body with everything filled that lies under something else, seen along a pull.

    Parameters
    ----------
    grid
        The body.
    direction
        The way off, any length, (3,).

    Returns
    -------
    The body with all that hinders the pull filled, down to the board where the pull rises.

    Raises
    ------
    EntryError
        A direction without length.

    Notes
    -----
    Range: along an axis the error is that of the grid's own surface (second order in the cell); oblique pulls are
    sheared with two linear interpolations, which round edges by up to a quarter of a cell.
    Source: least distance along the ray, cell by cell.
    """
    pull = np.asarray(direction, float)
    size = float(np.linalg.norm(pull))
    if not (np.isfinite(size) and size > 0):
        raise EntryError(Fault("pull direction", "without length", "give three numbers, not all 0"))
    axis = int(np.abs(pull).argmax())
    field = np.moveaxis(grid.distance, axis, 0)
    if pull[axis] > 0:
        field = field[::-1]
    slant = np.delete(pull, axis) / abs(pull[axis])
    swept = np.minimum.accumulate(field, axis=0) if not slant.any() else _sheared(field, slant)
    if pull[axis] > 0:
        swept = swept[::-1]
    swept = np.ascontiguousarray(np.moveaxis(swept, 0, axis))
    if pull[2] > 0:
        below = centres(grid, 2) < 0
        swept[:, :, below] = grid.distance[:, :, below]
        first = int(np.count_nonzero(below))
        if 0 < first < swept.shape[2] and grid.distance[:, :, :first].min() > -grid.cell / 4:
            # the board is the floor of the fill
            floor_at = -centres(grid, 2)[first:].astype(np.float32)
            swept[:, :, first:] = np.minimum(grid.distance[:, :, first:], np.maximum(swept[:, :, first:], floor_at))
    return Grid(grid.origin, grid.cell, swept)


def _sheared(field: Distances, slant: NDArray[np.float64]) -> Distances:
    """Least value so far along slanted rays; slices come in the order of the sweep, against the pull."""
    depth, rows, columns = field.shape
    room = [ceil(abs(s) * (depth - 1)) + 1 for s in slant]
    least = np.full((rows + room[0], columns + room[1]), FAR, np.float32)
    start = [float(r) if s < 0 else 0.0 for s, r in zip(slant, room, strict=True)]
    made = np.empty_like(field)
    for k in range(depth):
        # what lies on one ray along the pull comes to lie in one place
        move = [a + s * k for a, s in zip(start, slant, strict=True)]
        whole = [floor(m) for m in move]
        rest = [m - w for m, w in zip(move, whole, strict=True)]
        window = (slice(whole[0], whole[0] + rows), slice(whole[1], whole[1] + columns))
        moved = shift(field[k], rest, order=1, mode="nearest")
        np.minimum(least[window], moved, out=least[window])
        made[k] = np.minimum(field[k], shift(least[window], [-r for r in rest], order=1, mode="nearest"))
    return made
