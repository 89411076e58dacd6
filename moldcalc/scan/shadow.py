"""The paste that a section needs where the outside can't leave along its pull: what lies in the shadow, with the draft."""

from math import sin

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldcalc.scan.body import Grid, Points
from moldcalc.scan.outside import Surface
from moldcalc.scan.reach import Field, away_at

FILLED = NDArray[np.float32]


def nearest_faces(field: Field, surface: Surface) -> NDArray[np.int64]:
    """The face nearest to every cell, to within about a cell; flat."""
    places = np.rint((surface.centres - field.origin) / field.cell).astype(np.int64)
    places = np.clip(places, 0, np.array(field.shape) - 1)
    flat = np.ravel_multi_index(tuple(places.T), field.shape)
    face = np.full(len(field.rows), -1, dtype=np.int64)
    face[flat] = np.arange(len(flat))
    at = ndimage.distance_transform_edt((face < 0).reshape(field.shape), return_distances=False, return_indices=True)
    found: NDArray[np.int64] = face[np.ravel_multi_index(tuple(part.ravel() for part in at), field.shape)]
    return found


def shadow(
    field: Field, surface: Surface, nearest: NDArray[np.int64], left: NDArray[np.bool_], pull: Points, least_draft: float
) -> tuple[NDArray[np.int64], FILLED]:
    """Cells to be filled so that places left over can leave along a pull, and the share of each.

    Parameters
    ----------
    field, surface
        The body.
    nearest
        The face nearest to every cell, see `nearest_faces`.
    left
        The faces left over at this pull, (m,).
    pull
        Unit vector.
    least_draft
        The draft that the fill's own surface gets. [rad]

    Returns
    -------
    Flat numbers of the cells and the share of each that is filled, 0 to 1.

    Notes
    -----
    A free place is filled when a ball that grows with the draft, sent from it along the pull, meets the body: the fill is the body's shadow,
    widened by the draft. Only what has a face left over as its nearest is filled, no farther from it than the patch left over is wide.
    Range: right to about half a cell times the free area of the fill.
    """
    if not left.any():
        return np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.float32)
    cells = _candidates(field, surface, nearest, left)
    own = np.clip(field.rows[cells, 0] + 0.5, 0, 1)
    clear = _clearance(field, cells, np.asarray(pull, dtype=np.float32), sin(least_draft))
    share = np.clip(0.5 - clear, 0, 1) * own
    held = share > 0
    return cells[held], share[held].astype(np.float32)


def _candidates(field: Field, surface: Surface, nearest: NDArray[np.int64], left: NDArray[np.bool_]) -> NDArray[np.int64]:
    """Free cells whose nearest face is one of those left over, no farther from it than its patch is wide."""
    patch = _patches(surface, left)
    wide = np.zeros(patch.max() + 1)
    for number in range(len(wide)):
        held = surface.centres[patch == number]
        wide[number] = np.linalg.norm(held.max(axis=0) - held.min(axis=0)) / field.cell + 2
    cells = np.flatnonzero(left[nearest] & (field.rows[:, 0] > -0.5))
    if np.isfinite(field.board):
        cells = cells[cells % field.shape[2] >= field.board - 1e-6]
    near: NDArray[np.int64] = cells[field.rows[cells, 0] <= wide[patch[nearest[cells]]]]
    return near


def _patches(surface: Surface, left: NDArray[np.bool_]) -> NDArray[np.int64]:
    """The number of the connected patch each face left over belongs to, -1 for the others."""
    from moldcalc.scan.regions import pieces

    found = pieces(left.astype(np.int64), surface.pairs)
    patch = np.full(len(left), -1, dtype=np.int64)
    patch[left] = np.unique(found[left], return_inverse=True)[1]
    return patch


def _clearance(field: Field, cells: NDArray[np.int64], along: NDArray[np.float32], slope: float) -> NDArray[np.float32]:
    """The least room left round each cell's way out, less what the draft asks for, in cells."""
    start = np.stack(np.unravel_index(cells, field.shape)).astype(np.float32)
    steps = int(np.ceil(np.linalg.norm(field.high - field.low))) + 1
    least = np.full(len(cells), np.inf, dtype=np.float32)
    active = np.arange(len(cells))
    for number in range(1, steps + 1):
        place = start[:, active] + along[:, None] * np.float32(number)
        out = np.asarray(((place < field.low[:, None] - 2) | (place > field.high[:, None] + 2)).any(axis=0))
        away = away_at(field, place) - np.float32(number * slope)
        away[out] = np.inf
        least[active] = np.minimum(least[active], away)
        # half a cell deep is filled whole: no need to go on
        active = active[(least[active] > -0.5) & ~_gone(field, start[:, active], along, number)]
        if not len(active):
            break
    return least


def _gone(field: Field, start: NDArray[np.float32], along: NDArray[np.float32], number: int) -> NDArray[np.bool_]:
    """Which ways have left the box round the body on the side they are heading for."""
    place = start + along[:, None] * np.float32(number)
    past = np.where(along[:, None] > 0, place > field.high[:, None] + 2, (place < field.low[:, None] - 2) & (along[:, None] < 0))
    gone: NDArray[np.bool_] = np.asarray(past.any(axis=0))
    return gone


def filled(grid: Grid, share: NDArray[np.float32], slack: float = 0.0) -> Grid:
    """A body with paste: the distance to whichever is nearer, the body or the paste shrunk by so much. [m]"""
    paste = share >= 0.5
    if not paste.any():
        return grid
    away = ndimage.distance_transform_edt(~paste) - ndimage.distance_transform_edt(paste)
    away = (away - 0.5 * np.sign(away)) * grid.cell + slack
    return Grid(grid.origin, grid.cell, np.minimum(grid.distance, away.astype(np.float32)))
