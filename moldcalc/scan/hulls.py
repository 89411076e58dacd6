"""Convex hulls of a few thousand points: the point nearest to the origin, and the corners of a flat one."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
_STEPS = 2000


class Nearest(NamedTuple):
    """The point of a convex hull nearest to the origin, and the few corners it hangs on."""

    point: Points
    corners: list[int]


def nearest_to_origin(points: Points) -> Nearest:
    """Wolfe's nearest point of a convex hull to the origin: a handful of corners, exchanged until no other point lies nearer."""
    corners = [int(np.argmin(np.einsum("ij,ij->i", points, points)))]
    weights = np.ones(1)
    point = points[corners[0]]
    for _ in range(_STEPS):
        heights = points @ point
        lowest = int(np.argmin(heights))
        squared = float(point @ point)
        if lowest in corners or squared < 1e-28 or squared - heights[lowest] <= 1e-15 * squared ** 0.5:
            break
        trial, shares = [*corners, lowest], np.append(weights, 0.0)
        trial, shares = _within_hull(points, trial, shares)
        moved = shares @ points[trial]
        if float(moved @ moved) >= squared:
            break
        corners, weights, point = trial, shares, moved
    return Nearest(point, corners)


def _within_hull(points: Points, corners: list[int], weights: Points) -> tuple[list[int], Points]:
    """From weights in the hull toward the nearest point of the corners' flat, dropping corners on the way."""
    while True:
        flat = _flat_weights(points[corners])
        if (flat > 1e-15).all() or len(corners) == 1:
            return corners, flat
        leaves = flat <= 1e-15
        fall = weights[leaves] - flat[leaves]
        ratio = np.where(fall > 0, weights[leaves] / np.where(fall > 0, fall, 1.0), 0.0)
        weights = weights + float(np.min(ratio)) * (flat - weights)
        weights[np.flatnonzero(leaves)[int(np.argmin(ratio))]] = 0.0
        kept = weights > 1e-15
        corners = [corner for corner, keep in zip(corners, kept, strict=True) if keep]
        weights = weights[kept] / weights[kept].sum()


def _flat_weights(corners: Points) -> Points:
    """Weights (sum 1) of the point nearest to the origin in the flat through the corners."""
    if len(corners) == 1:
        return np.ones(1)
    edges = (corners[1:] - corners[0]).T
    rest = np.linalg.lstsq(edges, -corners[0], rcond=None)[0]
    return np.concatenate([[1 - rest.sum()], rest])


def plane_hull(points: Points) -> list[int]:
    """Corners of a convex hull in the plane, counterclockwise; one or two where all points fall on a point or a line."""
    order = sorted(range(len(points)), key=lambda row: (points[row, 0], points[row, 1]))
    plain = points.tolist()
    sides = [_chain(order, plain), _chain(order[::-1], plain)]
    corners = sides[0][:-1] + sides[1][:-1]
    return corners or order[:1]


def _chain(order: list[int], points: list[list[float]]) -> list[int]:
    chain: list[int] = []
    for row in order:
        if chain and _together(points[chain[-1]], points[row]):
            continue
        while len(chain) > 1 and not _turns_left(points[chain[-2]], points[chain[-1]], points[row]):
            chain.pop()
        chain.append(row)
    return chain


def _together(a: list[float], b: list[float]) -> bool:
    size = 1 + abs(a[0]) + abs(a[1])
    return abs(a[0] - b[0]) + abs(a[1] - b[1]) <= 1e-12 * size


def _turns_left(a: list[float], b: list[float], c: list[float]) -> bool:
    along, on = (b[0] - a[0], b[1] - a[1]), (c[0] - a[0], c[1] - a[1])
    size = (abs(along[0]) + abs(along[1])) * (abs(on[0]) + abs(on[1]))
    return along[0] * on[1] - along[1] * on[0] > 1e-13 * size
