"""Signed distance on a grid: exact next to the surface, carried from there to all other cells."""

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt
from scipy.spatial import cKDTree

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Body, Grid, Points
from moldcalc.scan.crossings import STEP, Cells, expanded
from moldcalc.scan.progress import Progress, Work

#: stands for 'nowhere near', in metres
FAR = np.float32(1e6)

#: the largest grid we take on: at the peak 25 bytes a cell for the distance, 31 for closing, 46 for pockets (1.9 GB)
MOST_CELLS = 40_000_000

Distances = NDArray[np.float32]


def next_to(inside: Cells) -> Cells:
    """Cells with a neighbour (of 26) on the other side."""
    most, least = inside, inside
    for axis in range(3):
        before, after = [slice(None)] * 3, [slice(None)] * 3
        before[axis], after[axis] = slice(None, -1), slice(1, None)
        low, high = tuple(before), tuple(after)
        wider, narrower = most.copy(), least.copy()
        wider[low] |= most[high]
        wider[high] |= most[low]
        narrower[low] &= least[high]
        narrower[high] &= least[low]
        most, least = wider, narrower
    return most & ~least


def on_surface(body: Body, points: Points, cell: float) -> Work[Points]:
    """The nearest point of the surface to each point: nearest samples by a tree, then exactly on their triangles."""
    samples, owner = _samples(body, cell / 2)
    yield Progress("distance to the surface", 0.6)
    tree = cKDTree(samples)
    yield Progress("distance to the surface", 0.65)
    found = np.empty_like(points)
    corners = body.corners
    for start in range(0, len(points), 50_000):
        part = points[start:start + 50_000]
        near = tree.query(part, k=min(4, len(samples)))[1].reshape(len(part), -1)
        best = np.full(len(part), np.inf)
        for column in owner[near].T:
            on = nearest_on_triangles(part, corners[column])
            far = ((part - on) ** 2).sum(axis=1)
            closer = far < best
            found[start:start + 50_000][closer] = on[closer]
            best = np.minimum(best, far)
        yield Progress("distance to the surface", 0.65 + 0.15 * start / len(points))
    return found


def _samples(body: Body, spacing: float) -> tuple[Points, NDArray[np.int64]]:
    """Points spread over every triangle no further apart than the spacing, and the triangle of each."""
    corners = body.corners
    edges = np.linalg.norm(corners[:, [1, 2, 0]] - corners, axis=2)
    turn = (edges.argmax(axis=1)[:, None] + np.arange(3)) % 3
    corners = np.take_along_axis(corners, turn[:, :, None], axis=1)
    longest = edges.max(axis=1)
    rise = 2 * np.linalg.norm(body.area_vectors, axis=1) / np.maximum(longest, 1e-300)
    along, up = (np.ceil(size / spacing).astype(np.int64) + 1 for size in (longest, rise))
    single = longest < spacing / 2
    along[single], up[single] = 1, 1
    owner, number = expanded(np.arange(len(corners)), along * up, np.zeros(len(corners), np.int64))
    u = (number // up[owner] + 0.5) / along[owner]
    v = (number % up[owner] + 0.5) / up[owner]
    a, b, c = (corners[owner, i] for i in range(3))
    return (1 - v)[:, None] * (a + u[:, None] * (b - a)) + v[:, None] * c, owner


def nearest_on_triangles(points: Points, corners: Points) -> Points:
    """The nearest point of each point's own triangle.

    Parameters
    ----------
    points
        (n, 3).
    corners
        Corners of one triangle for each point, (n, 3, 3).

    Returns
    -------
    Points on the triangles, (n, 3).

    Notes
    -----
    Source: elementary geometry; the foot of the perpendicular where it falls inside, else the nearest of three edges.
    """
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    ab, ac, ap = b - a, c - a, points - a
    d11, d12, d22 = (ab * ab).sum(1), (ab * ac).sum(1), (ac * ac).sum(1)
    p1, p2 = (ap * ab).sum(1), (ap * ac).sum(1)
    area = d11 * d22 - d12 * d12
    with np.errstate(divide="ignore", invalid="ignore"):
        v, w = (d22 * p1 - d12 * p2) / area, (d11 * p2 - d12 * p1) / area
        inner = (area > 0) & (v >= 0) & (w >= 0) & (v + w <= 1)
    best = np.where(inner[:, None], a + np.where(inner, v, 0)[:, None] * ab + np.where(inner, w, 0)[:, None] * ac, np.nan)
    least = np.where(inner, 0.0, np.inf)
    for p, q in ((a, b), (b, c), (c, a)):
        run = q - p
        part = ((points - p) * run).sum(1) / np.maximum((run * run).sum(1), 1e-300)
        on = p + np.clip(part, 0, 1)[:, None] * run
        far = ((points - on) ** 2).sum(1)
        closer = far < least
        best[closer] = on[closer]
        least = np.minimum(least, far)
    return best


def or_board(nearest: Points, points: Points, inside: Cells) -> Points:
    """Where the board closes an open base, it is part of the surface seen from within and from below."""
    board = np.abs(points[:, 2]) < np.linalg.norm(points - nearest, axis=1)
    board &= inside | (points[:, 2] < 0)
    made = nearest.copy()
    made[board] = points[board] * (1, 1, 0)
    return made


def from_points(inside: Cells, where: NDArray[np.int64], nearest: Points) -> Work[Distances]:
    """Signed distance in cells, from the nearest surface point of the cells next to the surface (`where`).

    The nearest such cell need not hold the nearest point: from the point it holds we slide once along the surface to
    below the centre, and take the nearer of the two.
    """
    shape = inside.shape
    away = np.ones(shape, bool)
    away.reshape(-1)[where] = False
    index = distance_transform_edt(away, return_distances=False, return_indices=True)
    yield Progress("distance to the surface", 0.85)
    owner = np.zeros(shape, np.int32)
    owner.reshape(-1)[where] = np.arange(len(where))
    owner = owner[index[0], index[1], index[2]]
    del index
    points = nearest.astype(np.float32)
    normals = _normals(inside, where, points)
    distance = np.empty(shape, np.float32)
    step = max(1, STEP // (4 * shape[1] * shape[2]))
    for start in range(0, shape[0], step):
        distance[start:start + step] = _slid(owner, points, normals, start, min(start + step, shape[0]))
        yield Progress("distance to the surface", 0.85 + 0.15 * start / shape[0])
    np.negative(distance, out=distance, where=inside)
    return distance


def _slid(owner: NDArray[np.int32], points: Distances, normals: Distances, start: int, stop: int) -> Distances:
    """Distance of some layers of cells to the nearer of two surface points: the one they own and the one below them."""
    mine = owner[start:stop].reshape(-1)
    at = np.indices((stop - start, *owner.shape[1:]), dtype=np.float32).reshape(3, -1).T
    at[:, 0] += start
    away, normal = at - points[mine], normals[mine]
    squared = np.einsum("ij,ij->i", away, away)
    foot = at - np.einsum("ij,ij->i", away, normal)[:, None] * normal
    cell = np.clip(np.rint(foot, out=foot), 0, np.array(owner.shape, np.float32) - 1).astype(np.int32)
    away = at - points[owner[cell[:, 0], cell[:, 1], cell[:, 2]]]
    np.minimum(squared, np.einsum("ij,ij->i", away, away), out=squared)
    return np.sqrt(squared, out=squared).reshape(stop - start, *owner.shape[1:])


def _normals(inside: Cells, where: NDArray[np.int64], points: Distances) -> Distances:
    """Unit vectors across the surface, from the cells that hold its points; for a point on a centre, any."""
    at = np.stack(np.unravel_index(where, inside.shape), axis=1)
    across = (points - at).astype(np.float32)
    across[~inside.reshape(-1)[where]] *= -1
    length = np.linalg.norm(across, axis=1)
    short = length < 1e-3
    across[short], length[short] = (0, 0, 1), 1
    return across / length[:, None]


def to_nearest(cells: Cells) -> Distances:
    """Distance from centre to centre of the nearest of these cells, in cells."""
    index = distance_transform_edt(~cells, return_distances=False, return_indices=True)
    distance = np.empty(cells.shape, np.float32)
    y, z = np.ogrid[: cells.shape[1], : cells.shape[2]]
    for x in range(cells.shape[0]):
        squared = (index[0, x] - x) ** 2 + (index[1, x] - y) ** 2 + (index[2, x] - z) ** 2
        distance[x] = np.sqrt(squared, dtype=np.float32)
    return distance


def redistanced(level: Distances, cell: float) -> Work[Distances]:
    """Signed distance to where a field (right next to its zero, in metres) is zero."""
    inside = level < 0
    band = next_to(inside)
    where = np.flatnonzero(band)
    if not len(where):
        return np.where(inside, -FAR, FAR).astype(np.float32)
    at = np.stack(np.unravel_index(where, level.shape), axis=1)
    value = level.reshape(-1)[where] / cell
    slope = _slope(level, at) / cell
    length = np.linalg.norm(slope, axis=1)
    # a crease has no slope of its own: there the cell's centre stands for the surface
    reach = np.clip(np.where(length > 0.3, value / np.maximum(length, 0.3), 0.0), -1.8, 1.8)
    nearest = at - reach[:, None] * slope / np.maximum(length, 1e-12)[:, None]
    distance = yield from from_points(inside, where, nearest)
    distance *= np.float32(cell)
    return distance


def _slope(level: Distances, at: NDArray[np.int64]) -> NDArray[np.float64]:
    """Central differences of a field at some cells, per cell."""
    slope = np.zeros(at.shape)
    for axis in range(3):
        before, after = at.copy(), at.copy()
        before[:, axis] = np.maximum(at[:, axis] - 1, 0)
        after[:, axis] = np.minimum(at[:, axis] + 1, level.shape[axis] - 1)
        rise = level[tuple(after.T)].astype(float) - level[tuple(before.T)]
        slope[:, axis] = rise / (after[:, axis] - before[:, axis])
    return slope


def centres(grid: Grid, axis: int) -> NDArray[np.float64]:
    """Coordinates of the cells' centres along one axis. [m]"""
    made: NDArray[np.float64] = grid.origin[axis] + grid.cell * np.arange(grid.distance.shape[axis])
    return made


def padded(grid: Grid, cells: int) -> Work[Grid]:
    """The same body with so many more cells of air on every side, distances worked out again.

    Parameters
    ----------
    grid
        The body; distances right next to its surface.
    cells
        Cells to add on each side.

    Returns
    -------
    The larger grid.

    Raises
    ------
    EntryError
        More than `MOST_CELLS`.
    """
    count = float(np.prod([n + 2.0 * cells for n in grid.distance.shape]))
    if count > MOST_CELLS:
        raise EntryError(Fault("grid", f"{count / 1e6:.3g} million cells with the air for the ball",
                               f"it must be at most {MOST_CELLS / 1e6:.0f} million: choose a smaller ball or larger cells"))
    wide = np.pad(grid.distance, cells, constant_values=FAR)
    # what reached the old border goes on to the new one: a wall of air there would be a surface that isn't
    distance = yield from redistanced(wide, grid.cell)
    return Grid(grid.origin - cells * grid.cell, grid.cell, distance)
