"""Where brushed rubber runs thin: high points and outside edges, seen through a window as wide as the rubber."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from moldcalc.scan.body import Faces, Points
from moldcalc.scan.edges import Edges
from moldcalc.scan.growing import Turned

#: an outside edge counts from this turning on, over a window of three walls
_EDGE = np.radians(30)
#: points laid on the surface at most; beyond, the window becomes wider
_MOST = 600_000
_PEAKS = 12


class HighPoint(NamedTuple):
    """A place that stands out: where it is [m] and the radius of a ball as round as it is there [m]."""

    x: float
    y: float
    z: float
    radius: float


class Thin(NamedTuple):
    """Where rubber runs thin.

    `edge_length` of outside edges that turn by more than 30 degrees over a window of three walls [m], `area` near them [m²],
    `points` the sharpest places, at most twelve, the sharpest first, and `window` the edge of the cells looked through [m].
    """

    edge_length: float
    area: float
    points: tuple[HighPoint, ...]
    window: float


def thin_places(vertices: Points, faces: Faces, edges: Edges, turning: Turned, areas: NDArray[np.float64], wall: float) -> Thin:
    """Finds the edges and high points from which rubber drains.

    Area and turning are gathered in cells as wide as the wall and summed over each cell and its 26 neighbours. Over such a
    window an edge turned by an angle has six times the wall times its mean curvature as that angle.

    Parameters
    ----------
    vertices, faces
        Of the body. [m]
    edges, turning
        Its edges and how far the surface turns over them.
    areas
        Of the triangles. [m²]
    wall
        Thickness of the rubber. [m]
    """
    total = float(areas.sum())
    wall = max(wall, float(np.sqrt(4 * total / _MOST)), float(np.ptp(vertices, axis=0).max()) / 1_000_000)
    points, weights = _on_triangles(vertices, faces, areas, wall)
    places, turns, sharply = _on_edges(vertices, edges, turning, wall)
    low = vertices.min(axis=0)
    where, edge_where = (np.floor((p - low) / wall).astype(np.int64) + 1 for p in (points, places))
    cells, label = np.unique(np.concatenate([_packed(where), _packed(edge_where)]), return_inverse=True)
    on_faces, on_edges = label[: len(points)], label[len(points):]
    area: NDArray[np.float64] = np.bincount(on_faces, weights, len(cells)).astype(float)
    turn: NDArray[np.float64] = np.bincount(on_edges, turns, len(cells)).astype(float)
    middle: Points = np.stack([np.bincount(on_faces, weights * points[:, i], len(cells)) for i in range(3)], axis=1).astype(float)
    beside = _neighbours(cells)
    wide_area, wide_turn = _summed(area, beside), _summed(turn, beside)
    with np.errstate(divide="ignore", invalid="ignore"):
        mean: NDArray[np.float64] = np.nan_to_num(wide_turn / wide_area, nan=0.0, posinf=0.0, neginf=0.0)
    angle = 6 * wall * mean
    sharp = angle > _EDGE
    length = _edge_length(turn[sharp], angle[sharp], np.bincount(on_edges, sharply, len(cells))[sharp],
                          np.bincount(on_edges, np.where(sharply > 0, turns, 0), len(cells))[sharp])
    return Thin(length, float(area[sharp].sum()), _peaks(mean, sharp & (area > 0), middle, area, wall), wall)


def _edge_length(turn: NDArray[np.float64], angle: NDArray[np.float64], length: NDArray[np.float64], sharp_turn: NDArray[np.float64]) -> float:
    """Length of outside edges in cells: the sharp ones as they are, rounded ones from what they turn; rough skin no longer than twice that."""
    rounded = 2 * turn.clip(0) / angle
    return float(np.minimum(length + 2 * (turn - sharp_turn).clip(0) / angle, 2 * rounded).sum())


def _on_triangles(vertices: Points, faces: Faces, areas: NDArray[np.float64], wall: float) -> tuple[Points, NDArray[np.float64]]:
    """Points spread evenly over the triangles, and the area each stands for."""
    count = np.ceil(areas / (wall**2 / 4)).astype(np.int64).clip(1)
    which = np.repeat(np.arange(len(faces)), count)
    number = np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count)
    u, v = (0.5 + number * 0.7548776662466927) % 1, (0.5 + number * 0.5698402909980532) % 1
    alone = count[which] == 1
    over = u + v > 1
    u, v = np.where(over, 1 - u, u), np.where(over, 1 - v, v)
    u, v = np.where(alone, 1 / 3, u), np.where(alone, 1 / 3, v)
    a, b, c = (vertices[faces[which, i]] for i in range(3))
    return a + u[:, None] * (b - a) + v[:, None] * (c - a), areas[which] / count[which]


def _on_edges(vertices: Points, edges: Edges, turning: Turned, wall: float) -> tuple[Points, NDArray[np.float64], NDArray[np.float64]]:
    """Points along the edges that turn; for each the half of length times turning, and the length if it is a sharp outside edge."""
    kept = np.flatnonzero(np.abs(turning.angle) > 1e-9)
    length, angle = turning.length[kept], turning.angle[kept]
    count = np.minimum(np.ceil(length / (wall / 2)).astype(np.int64).clip(1), 10_000)
    which = np.repeat(np.arange(len(kept)), count)
    number = np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count)
    share = ((number + 0.5) / count[which])[:, None]
    a, b = (vertices[edges.ends[kept[which], i]] for i in range(2))
    return a + share * (b - a), (length * angle / 2 / count)[which], (np.where(angle > _EDGE, length, 0) / count)[which]


def _packed(where: NDArray[np.int64]) -> NDArray[np.int64]:
    """Three numbers of a cell as one."""
    packed: NDArray[np.int64] = (where[:, 0] << 42) | (where[:, 1] << 21) | where[:, 2]
    return packed


def _neighbours(cells: NDArray[np.int64]) -> list[tuple[NDArray[np.int64], NDArray[np.int64]]]:
    """For each of 27 steps, which cells have a neighbour there and which it is."""
    found: list[tuple[NDArray[np.int64], NDArray[np.int64]]] = []
    for dx in (-1, 0, 1):
        for dy in (-1, 0, 1):
            for dz in (-1, 0, 1):
                wanted = cells + (dx << 42) + (dy << 21) + dz
                at = np.searchsorted(cells, wanted).clip(max=len(cells) - 1)
                here = np.flatnonzero(cells[at] == wanted)
                found.append((here, at[here]))
    return found


def _summed(value: NDArray[np.float64], beside: list[tuple[NDArray[np.int64], NDArray[np.int64]]]) -> NDArray[np.float64]:
    total = np.zeros_like(value)
    for here, there in beside:
        total[here] += value[there]
    return total


def _peaks(mean: NDArray[np.float64], sharp: NDArray[np.bool_], middle: Points, area: NDArray[np.float64], wall: float) -> tuple[HighPoint, ...]:
    """The roundest cells that lie at least four walls apart, the sharpest first."""
    order = np.flatnonzero(sharp)
    order = order[np.argsort(-mean[order], kind="stable")][:20_000]
    points = middle[order] / area[order, None]
    left = np.ones(len(order), bool)
    found: list[HighPoint] = []
    while left.any() and len(found) < _PEAKS:
        best = int(np.argmax(left))
        x, y, z = points[best].tolist()
        found.append(HighPoint(x, y, z, float(1 / mean[order[best]])))
        left &= ((points - points[best]) ** 2).sum(axis=1) > (4 * wall) ** 2
    return tuple(found)
