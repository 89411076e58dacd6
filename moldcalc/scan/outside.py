"""The outside of a body on a grid as triangles: where they are, how large, which way they face, whom they touch."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Faces, Grid, Points

BELOW = 4
"""Layers of cells below the board onto which the body is carried on."""

SMOOTHED = 0.7
"""Spread in cells of the blur taken of the distance before its slope is read as a normal."""


@dataclass(frozen=True)
class Surface:
    """Triangles of an outside in metres, wound outward; what rests on the board is left out.

    `centres`, `normals` (m, 3) and `areas` (m,) [m²] belong to the faces; `pairs` (e, 2) names the two faces at each shared edge,
    `edges` (e, 2) that edge's vertices and `rim` (r, 2) the vertices of edges with one face only. `cell` is the cell of the grid it came from [m].
    """

    vertices: Points
    faces: Faces
    centres: Points
    areas: NDArray[np.float64]
    normals: Points
    pairs: NDArray[np.int64]
    edges: NDArray[np.int64]
    rim: NDArray[np.int64]
    cell: float

    @property
    def lengths(self) -> NDArray[np.float64]:
        """Length of every shared edge, (e,). [m]"""
        ends = self.vertices[self.edges]
        lengths: NDArray[np.float64] = np.linalg.norm(ends[:, 0] - ends[:, 1], axis=1)
        return lengths

    @property
    def middles(self) -> Points:
        """Middle of every shared edge, (e, 3). [m]"""
        middles: Points = self.vertices[self.edges].mean(axis=1)
        return middles

    @property
    def area(self) -> float:
        """All of its area. [m²]"""
        return float(self.areas.sum())


def outside(grid: Grid, *, board: bool = True) -> Surface:
    """Triangles of the zero level of a distance grid, without those that rest on the board.

    Parameters
    ----------
    grid
        Signed distance on cells, negative inside. [m]
    board
        Whether the body stands on a board at z = 0; faces below it, or within one cell of it and turned down, are dropped.

    Returns
    -------
    Surface

    Raises
    ------
    EntryError
        The grid holds no surface, or the body runs out of the grid.

    Notes
    -----
    Range: details of two cells and more. A vertex lies within about a tenth of a cell of the zero level on a smooth body; edges are chamfered
    by about a cell.
    Source: one vertex a cell at the mean of the crossings on its edges ('surface nets', Gibson 1998, from memory), then one step along the
    slope of the distance onto the level; normals are the slope of the blurred distance.
    """
    if board:
        grid = _on_board(grid)
    distance = np.asarray(grid.distance, dtype=np.float64)
    _check(distance, board)
    places, quads = _nets(distance)
    slopes = slope_of(distance)
    places = _settled(places, distance, slopes)
    vertices = np.asarray(grid.origin, dtype=np.float64) + grid.cell * places
    return _surface(vertices, _split(vertices, quads), grid, slopes, board)


def slope_of(distance: NDArray[np.float64]) -> NDArray[np.float64]:
    """The slope of the blurred distance, (3, nx, ny, nz), in units of distance per cell."""
    return np.stack(np.gradient(ndimage.gaussian_filter(distance, SMOOTHED, mode="nearest")))


def _on_board(grid: Grid) -> Grid:
    """The body carried on straight below the board, so that its foot has the normals of its sides and no face lies on the board."""
    heights = grid.origin[2] + grid.cell * np.arange(grid.distance.shape[2])
    first = int(np.searchsorted(heights, 0.5 * grid.cell - 1e-9 * grid.cell))
    if first + 1 >= len(heights):
        raise EntryError(Fault("the body", "all below the board", "it must stand on the plane z = 0"))
    lowest, next_ = grid.distance[:, :, first], grid.distance[:, :, first + 1]
    # inside, the distance to the board may be the shorter: only the slope of the side counts
    step = np.clip(lowest - next_, -grid.cell, grid.cell) * (np.minimum(np.abs(lowest), np.abs(next_)) < 2 * grid.cell)
    below = np.stack([lowest + many * step for many in range(BELOW, 0, -1)], axis=2)
    origin = np.array([grid.origin[0], grid.origin[1], heights[first] - BELOW * grid.cell])
    return Grid(origin, grid.cell, np.concatenate([below, grid.distance[:, :, first:]], axis=2).astype(np.float32))


def _check(distance: NDArray[np.float64], board: bool) -> None:
    """Refuse a grid without a surface, or one the body runs out of."""
    inside = distance < 0
    if not inside.any() or inside.all():
        raise EntryError(Fault("the grid", "without a surface", "some of its cells must lie inside the body and some outside"))
    rim = inside.copy()
    rim[1:-1, 1:-1, (0 if board else 1):-1] = False
    if rim.any():
        raise EntryError(Fault("the grid", "too small for the body", "it must reach at least one cell beyond it on every side"))


def _nets(distance: NDArray[np.float64]) -> tuple[Points, Faces]:
    """One vertex for each cube of eight cells that the surface crosses (in cells), and a quad for each crossed edge."""
    inside = distance < 0
    shape = np.array(distance.shape)
    strides = np.array([shape[1] * shape[2], shape[2], 1])
    cubes, points, quads = [], [], []
    for axis in range(3):
        one, two = (axis + 1) % 3, (axis + 2) % 3
        low = np.moveaxis(inside, axis, 0)[:-1]
        high = np.moveaxis(inside, axis, 0)[1:]
        crossed = np.moveaxis(low != high, 0, axis)
        at = np.argwhere(crossed)
        flat = at @ strides
        here, there = distance.ravel()[flat], distance.ravel()[flat + strides[axis]]
        point = at.astype(np.float64)
        point[:, axis] += here / (here - there)
        inner = np.ones(len(at), dtype=np.bool_)
        for side in (one, two):
            inner &= (at[:, side] > 0) & (at[:, side] < shape[side] - 1)
        at, flat, here, there, point = at[inner], flat[inner], here[inner], there[inner], point[inner]
        around = np.stack([flat - strides[one] - strides[two], flat - strides[two], flat, flat - strides[one]], axis=1)
        outward = here < 0
        quads.append(np.where(outward[:, None], around, around[:, ::-1]))
        cubes.append(around.ravel())
        points.append(np.repeat(point, 4, axis=0))
    cube, number = np.unique(np.concatenate(cubes), return_inverse=True)
    many = np.bincount(number)
    every = np.concatenate(points)
    places = np.stack([np.bincount(number, every[:, i]) / many for i in range(3)], axis=1)
    quad = np.concatenate(quads)
    return places, np.searchsorted(cube, quad)


def _settled(places: Points, distance: NDArray[np.float64], slopes: NDArray[np.float64]) -> Points:
    """Vertices moved along the slope onto the zero level, by half a cell at the most."""
    off = ndimage.map_coordinates(distance, places.T, order=1, mode="nearest")
    slope = np.stack([ndimage.map_coordinates(part, places.T, order=1, mode="nearest") for part in slopes], axis=1)
    steep = np.einsum("ij,ij->i", slope, slope)
    step = slope * (off / np.maximum(steep, 0.25 * steep.max()))[:, None]
    return places - np.clip(step, -0.5, 0.5)


def _split(vertices: Points, quads: Faces) -> Faces:
    """Two triangles for each quad, cut along its shorter diagonal."""
    a, b, c, d = (vertices[quads[:, i]] for i in range(4))
    first = ((a - c) ** 2).sum(axis=1) <= ((b - d) ** 2).sum(axis=1)
    turned = np.where(first[:, None], quads, np.roll(quads, -1, axis=1))
    return np.stack([turned[:, [0, 1, 2]], turned[:, [0, 2, 3]]], axis=1).reshape(-1, 3)


def _surface(vertices: Points, faces: Faces, grid: Grid, slopes: NDArray[np.float64], board: bool) -> Surface:
    corners = vertices[faces]
    vectors = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) / 2
    areas = np.linalg.norm(vectors, axis=1)
    centres = corners.mean(axis=1)
    normals = _normals(centres, vectors, areas, grid, slopes)
    keep = np.ones(len(areas), dtype=np.bool_)
    if board:
        height = centres[:, 2] / grid.cell
        keep &= (height >= 0) & ((height >= 1) | (normals[:, 2] >= -0.5))
    if not keep.any():
        raise EntryError(Fault("the body", "all below the board", "it must stand on the plane z = 0"))
    used, renumbered = np.unique(faces[keep], return_inverse=True)
    vertices, faces = vertices[used], renumbered.reshape(-1, 3)
    pairs, edges, rim = neighbours(faces)
    return Surface(vertices, faces, centres[keep], areas[keep], normals[keep], pairs, edges, rim, grid.cell)


def _normals(centres: Points, vectors: Points, areas: NDArray[np.float64], grid: Grid, slopes: NDArray[np.float64]) -> Points:
    """The slope of the distance at the faces' centres; the triangle's own normal where it has none."""
    own = vectors / np.maximum(areas, 1e-300)[:, None]
    places = ((centres - grid.origin) / grid.cell).T
    slope = np.stack([ndimage.map_coordinates(part, places, order=1, mode="nearest") for part in slopes], axis=1)
    steep = np.linalg.norm(slope, axis=1)
    smooth = slope / np.maximum(steep, 1e-300)[:, None]
    return np.where((steep > 0.1 * grid.cell)[:, None], smooth, own)


def neighbours(faces: Faces) -> tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.int64]]:
    """The pairs of faces that share an edge, that edge's vertices, and the vertices of edges that have one face only."""
    edges = np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]), axis=1)
    owner = np.tile(np.arange(len(faces)), 3)
    order = np.lexsort((edges[:, 1], edges[:, 0]))
    edges, owner = edges[order], owner[order]
    same = (edges[:-1] == edges[1:]).all(axis=1)
    alone = ~np.concatenate([same, [False]]) & ~np.concatenate([[False], same])
    return np.stack([owner[:-1][same], owner[1:][same]], axis=1), edges[:-1][same], edges[alone]
