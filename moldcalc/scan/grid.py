"""A body on cubic cells: signed distance from triangles, growing, shrinking, closing, shadows, volume.

Cells lie on whole multiples of the cell, so that the board (z = 0) is a face between cells.
"""

from math import ceil, floor, log10

import numpy as np
from numpy.typing import ArrayLike

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Body, Grid, Points
from moldcalc.scan.crossings import Cells, occupied
from moldcalc.scan.distance import FAR, MOST_CELLS, centres, from_points, next_to, on_surface, or_board, padded, to_nearest
from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.rolling import closed, shadow
from moldcalc.units import show

__all__ = ["MOST_CELLS", "cell_for", "centres", "closed", "grid_of", "grown", "padded", "shadow", "shrunk", "solid", "volume"]


def _frame(body: Body, cell: float, margin: float) -> tuple[Points, tuple[int, int, int]]:
    low = np.floor((body.vertices.min(axis=0) - margin) / cell - 1e-9)
    high = np.ceil((body.vertices.max(axis=0) + margin) / cell + 1e-9)
    nx, ny, nz = (int(n) for n in high - low)
    return (low + 0.5) * cell, (nx, ny, nz)


def cell_for(body: Body, cells: int = MOST_CELLS, margin: float = 0.0) -> float:
    """The smallest cell whose grid of the body has at most so many cells.

    Parameters
    ----------
    body
        What is put on the grid.
    cells
        The most cells.
    margin
        Air around the body. [m]

    Returns
    -------
    Edge of the cell, rounded up to two digits. [m]
    """
    extents = np.ptp(body.vertices, axis=0) + 2 * margin
    size = float(max(np.cbrt(np.prod(extents) / cells), extents.max() * 1e-4, 1e-9))
    while True:
        place = 10.0 ** (floor(log10(size)) - 1)
        size = ceil(size / place - 1e-9) * place
        if np.prod([float(n) for n in _frame(body, size, margin)[1]]) <= cells:
            return size
        size *= 1.01


def grid_of(body: Body, cell: float, margin: float) -> Work[Grid]:
    """Signed distance of every cell's centre to a surface of triangles.

    A cell is inside where more of the surface faces up than down in the column above it: overlapping bodies count
    once. An open base that stands on the board is closed by the board. Other holes are healed by a majority of the
    columns along the three axes; the last progress says how many cells that concerned.

    Parameters
    ----------
    body
        Surface of triangles, wound outward. [m]
    cell
        Edge of a cell. [m]
    margin
        Air around the body, at least. [m]

    Returns
    -------
    The grid; distances are to the nearest point of the surface: next to it exact to a few hundredths of a cell; elsewhere too
    large by up to 0.3 cell, on average 0.03 (measured on spheres), since they come through a cell next to the surface.

    Raises
    ------
    EntryError
        A body without triangles, a cell that makes more than `MOST_CELLS`, or a cell or margin that is no length.

    Notes
    -----
    Range: holes up to the width where two of three axes still see the surface; where bodies overlap, cells next to
    the crease may take the distance to the buried part. What the surface does between two centres is not seen.
    Source: crossings of columns counted in whole numbers with a symbolic shift of the column where it meets an edge.
    """
    origin, shape = _checked(body, cell, margin)
    yield Progress("counting crossings", 0.0)
    occupancy = yield from occupied(body, origin, shape, cell)
    said = f"{occupancy.healed} cells healed by a majority of three directions" if occupancy.healed else "distance to the surface"
    yield Progress(said, 0.5)
    inside = occupancy.inside
    band = next_to(inside)
    where = np.flatnonzero(band)
    if not len(where):
        return Grid(origin, cell, np.full(shape, FAR, np.float32))
    at = np.stack(np.unravel_index(where, shape), axis=1)
    yield Progress(said, 0.55)
    nearest = yield from on_surface(body, origin + at * cell, cell)
    if occupancy.stands_open:
        nearest = or_board(nearest, origin + at * cell, inside.reshape(-1)[where])
    distance = yield from from_points(inside, where, (nearest - origin) / cell)
    distance *= np.float32(cell)
    yield Progress(said, 1.0)
    return Grid(origin, cell, distance)


def _checked(body: Body, cell: float, margin: float) -> tuple[Points, tuple[int, int, int]]:
    if not len(body.faces):
        raise EntryError(Fault("scan", "without triangles", "give a surface"))
    if not (np.isfinite(cell) and cell > 0):
        raise EntryError(Fault("cell", f"{cell:g} m", "it must be above 0"))
    if not (np.isfinite(margin) and margin >= 0):
        raise EntryError(Fault("margin", f"{margin:g} m", "it must be at least 0"))
    if not np.isfinite(body.vertices).all():
        raise EntryError(Fault("scan", "in part without coordinates", "every corner needs three finite numbers"))
    # in floats: an absurd cell would overflow a whole number
    count = float(np.prod(np.ptp(body.vertices, axis=0) / cell + 2 * margin / cell + 2))
    if count > MOST_CELLS and (count > 2 * MOST_CELLS or np.prod(_frame(body, cell, margin)[1], dtype=float) > MOST_CELLS):
        least = cell_for(body, MOST_CELLS, margin)
        raise EntryError(Fault("cell", show(cell, "mm"), f"that makes {count / 1e6:.3g} million cells; choose {show(least, 'mm')} or more"))
    return _frame(body, cell, margin)


def solid(inside: Cells, origin: ArrayLike, cell: float) -> Grid:
    """A grid from cells that are in or out.

    Parameters
    ----------
    inside
        Cells inside, (nx, ny, nz).
    origin, cell
        Centre of the first cell and edge of a cell. [m]

    Returns
    -------
    The grid; the surface is taken half a cell from the centres on either side of it, exact for flat faces along the axes.
    """
    start = np.asarray(origin, float)
    inside = np.asarray(inside, bool)
    if inside.all() or not inside.any():
        return Grid(start, cell, np.full(inside.shape, -FAR if inside.any() else FAR, np.float32))
    distance = to_nearest(inside) - np.float32(0.5)
    np.subtract(np.float32(0.5), to_nearest(~inside), out=distance, where=inside)
    return Grid(start, cell, distance * np.float32(cell))


def grown(grid: Grid, thickness: float) -> Grid:
    """The body with so much laid on everywhere; distances outside it stay right.

    Parameters
    ----------
    grid
        The body.
    thickness
        What is laid on. [m]

    Returns
    -------
    The grown body on the same cells; the grid's margin must be larger than the thickness.
    """
    return Grid(grid.origin, grid.cell, grid.distance - np.float32(thickness))


def shrunk(grid: Grid, thickness: float) -> Grid:
    """The body with so much taken off everywhere; distances inside it stay right.

    Parameters
    ----------
    grid
        The body.
    thickness
        What is taken off. [m]

    Returns
    -------
    The smaller body on the same cells.
    """
    return Grid(grid.origin, grid.cell, grid.distance + np.float32(thickness))


def volume(grid: Grid) -> float:
    """Volume of the body: every cell by how far its centre lies inside.

    Parameters
    ----------
    grid
        The body.

    Returns
    -------
    Volume. [m³]

    Notes
    -----
    Range: second order in the cell where distances next to the surface are right; a grid of `solid` counts centres.
    Source: a cell cut by a plane at distance d from its centre, along an axis, is filled to 1/2 - d/h.
    """
    total = 0.0
    for part in grid.distance:
        total += float(np.clip(0.5 - part / grid.cell, 0, 1).sum(dtype=float))
    return total * grid.cell**3
