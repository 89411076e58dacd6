"""Bodies on a grid straight from formulas: the known shapes that the tests of the split ask about. Lengths in metres."""

from collections.abc import Callable

import numpy as np
from scipy import ndimage
from scipy.spatial import cKDTree

from moldcalc.scan.body import Grid
from moldcalc.scan.outside import outside

Distance = Callable[[np.ndarray], np.ndarray]


def grid(formula: Distance, low, high, cell: float) -> Grid:
    """A formula's distance at the centres of the cells between two corners, two cells more on every side."""
    low, high = np.asarray(low, float) - 2 * cell, np.asarray(high, float) + 2 * cell
    axes = [np.arange(a, b + cell, cell) for a, b in zip(low, high, strict=True)]
    points = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1)
    return Grid(low, cell, formula(points).astype(np.float32))


def box(half, middle=(0, 0, 0)) -> Distance:
    def formula(p):
        q = abs(p - np.asarray(middle, float)) - np.asarray(half, float)
        return np.linalg.norm(np.maximum(q, 0), axis=-1) + np.minimum(q.max(axis=-1), 0)
    return formula


def sphere(radius, middle=(0, 0, 0)) -> Distance:
    return lambda p: np.linalg.norm(p - np.asarray(middle, float), axis=-1) - radius


def ellipsoid(half, middle=(0, 0, 0)) -> Distance:
    """Right at the surface, a bound away from it."""
    half = np.asarray(half, float)

    def formula(p):
        q = p - np.asarray(middle, float)
        one = np.linalg.norm(q / half, axis=-1)
        two = np.linalg.norm(q / half**2, axis=-1)
        return one * (one - 1) / np.maximum(two, 1e-9)
    return formula


def torus(big, small, middle=(0, 0, 0)) -> Distance:
    def formula(p):
        q = p - np.asarray(middle, float)
        return np.hypot(np.hypot(q[..., 0], q[..., 1]) - big, q[..., 2]) - small
    return formula


def upright(radius, half, middle=(0, 0, 0)) -> Distance:
    """A cylinder along z."""
    def formula(p):
        q = p - np.asarray(middle, float)
        side, end = np.hypot(q[..., 0], q[..., 1]) - radius, abs(q[..., 2]) - half
        return np.minimum(np.maximum(side, end), 0) + np.hypot(np.maximum(side, 0), np.maximum(end, 0))
    return formula


def together(*formulas: Distance) -> Distance:
    return lambda p: np.min([formula(p) for formula in formulas], axis=0)


def turned(formula: Distance, turn) -> Distance:
    """The same body turned by a rotation matrix."""
    return lambda p: formula(p @ np.asarray(turn))


def cut_off(formula: Distance) -> Distance:
    """Only what lies above the board, z = 0; the cut face is flat."""
    return lambda p: np.maximum(formula(p), -p[..., 2])


def measured(given: Grid) -> Grid:
    """The same zero level with the true distance: to points laid on its triangles, far off to one point a cell (a tenth of a cell off)."""
    surface = outside(given, board=False)
    corners = surface.vertices[surface.faces]
    weights = np.array([(a, b, 3 - a - b) for a in range(4) for b in range(4 - a)]) / 3
    points = np.einsum("wk,fkx->fwx", weights, corners).reshape(-1, 3)
    cells = np.moveaxis(np.indices(given.distance.shape), 0, -1).reshape(-1, 3)
    places = given.origin + given.cell * cells
    free = np.ones(given.distance.shape, bool)
    held = np.zeros((*given.distance.shape, 3))
    at = tuple(np.rint((surface.vertices - given.origin) / given.cell).astype(int).T)
    free[at], held[at] = False, surface.vertices
    nearest = ndimage.distance_transform_edt(free, return_distances=False, return_indices=True)
    far = np.linalg.norm(places - held[tuple(nearest)].reshape(-1, 3), axis=1)
    close = far < 3 * given.cell
    far[close], _ = cKDTree(points).query(places[close])
    distance = far.reshape(given.distance.shape) * np.where(given.inside, -1, 1)
    return Grid(given.origin, given.cell, distance.astype(np.float32))


def closed_by(given: Grid, radius: float) -> Grid:
    """Closed by a ball, through two distances; the grid must reach that far beyond the body."""
    grown = measured(Grid(given.origin, given.cell, given.distance - np.float32(radius)))
    return measured(Grid(given.origin, given.cell, grown.distance + np.float32(radius)))


def hare_like(cell: float = 0.010, closing: float = 0.030) -> Grid:
    """A sitting animal 0.95 m tall of sixteen ellipsoids on a board, closed by a ball."""
    parts = []
    for half, middle in [
        ((0.24, 0.19, 0.26), (-0.10, 0, 0.25)), ((0.17, 0.16, 0.25), (0.12, 0, 0.40)), ((0.13, 0.14, 0.16), (0.20, 0, 0.36)),
        ((0.14, 0.11, 0.12), (0.24, 0, 0.67)), ((0.07, 0.07, 0.06), (0.35, 0, 0.64)), ((0.08, 0.08, 0.08), (-0.34, 0, 0.16)),
    ]:
        parts.append(ellipsoid(half, middle))
    for side in (-1, 1):
        parts += [
            ellipsoid((0.17, 0.09, 0.17), (-0.12, side * 0.16, 0.18)), ellipsoid((0.15, 0.06, 0.05), (0.02, side * 0.18, 0.045)),
            ellipsoid((0.055, 0.055, 0.23), (0.24, side * 0.09, 0.22)), ellipsoid((0.10, 0.05, 0.04), (0.30, side * 0.09, 0.035)),
            ellipsoid((0.045, 0.03, 0.17), (0.16, side * 0.07, 0.86)),
        ]
    rough = grid(cut_off(together(*parts)), (-0.42 - closing, -0.28 - closing, -closing), (0.45 + closing, 0.28 + closing, 1.05 + closing), cell)
    exact = measured(Grid(rough.origin, cell, ndimage.gaussian_filter(rough.distance, 0.7)))
    return closed_by(exact, closing)
