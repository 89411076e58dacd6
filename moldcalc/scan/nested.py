"""Bodies inside bodies: what each takes up, and which lie within another."""

from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from moldcalc.scan.body import Faces, Points

#: bodies that are compared with each other at most; beyond, none is called nested
MOST_BODIES = 200
_STEP = 1 << 14


def volume_parts(vertices: Points, faces: Faces, body: NDArray[np.integer], bodies: int) -> NDArray[np.float64]:
    """Signed volume of every body, about the middle of all. [cube of the points' unit]"""
    middle = (vertices.min(axis=0) + vertices.max(axis=0)) / 2
    x, y, z = (np.ascontiguousarray(column) for column in (vertices - middle).T)
    total = np.zeros(bodies)
    for first in range(0, len(faces), _STEP):
        a, b, c = np.ascontiguousarray(faces[first:first + _STEP].T)
        ya, za = y.take(a), z.take(a)
        under = (x.take(a) + x.take(b) + x.take(c)) * ((y.take(b) - ya) * (z.take(c) - za) - (z.take(b) - za) * (y.take(c) - ya)) / 6
        if bodies == 1:
            total += under.sum()
        else:
            total += np.bincount(body[first:first + _STEP], under, bodies)
    return total


class Nesting(NamedTuple):
    """How bodies lie to each other: which lie inside another, and whether any two boxes overlap where none is inside."""

    inner: NDArray[np.bool_]
    overlap: bool


def nesting(vertices: Points, faces: Faces, body: NDArray[np.integer], bodies: int) -> Nesting:
    """Which closed bodies lie inside another one, judged by their boxes and one of their points.

    A level ray from that point, in a direction that no edge is likely to have, crosses the other body once more one way than the
    other if the point is inside.
    """
    inner = np.zeros(bodies, bool)
    if bodies == 1:
        return Nesting(inner, False)
    if bodies > MOST_BODIES:
        return Nesting(inner, True)
    order = np.argsort(body, kind="stable")
    starts = np.searchsorted(body[order], np.arange(bodies + 1))
    turned = vertices @ _TURN
    low, high = (np.array([found(turned[faces[order[a:b]]].reshape(-1, 3), axis=0) for a, b in pairwise(starts)]) for found in (np.min, np.max))
    meet = ((np.minimum(high[:, None], high) - np.maximum(low[:, None], low)) > 0).all(axis=2)
    np.fill_diagonal(meet, False)
    tips = turned[faces[order[starts[:-1]], 0]]
    for outer in range(bodies):
        inside = np.flatnonzero((low[outer] <= low).all(axis=1) & (high[outer] >= high).all(axis=1) & meet[outer])
        if len(inside):
            crossed = _crossings(tips[inside], turned, faces[order[starts[outer]:starts[outer + 1]]])
            inner[inside] |= crossed != 0
    return Nesting(inner, bool(meet[~inner][:, ~inner].any()))


#: a turn in space along whose axes no scan's edges are likely to lie
_TURN = np.linalg.qr(np.array([[0.83, 0.31, -0.47], [-0.29, 0.91, 0.13], [0.53, -0.07, 0.79]]))[0]


def _crossings(points: Points, vertices: Points, faces: Faces) -> NDArray[np.int64]:
    """How often a surface is left, less how often it is entered, on the way up from each point."""
    corners = vertices[faces]
    low, high = corners.min(axis=1), corners.max(axis=1)
    found = np.zeros(len(points), np.int64)
    for number, (x, y, z) in enumerate(points):
        near = (low[:, 0] <= x) & (high[:, 0] >= x) & (low[:, 1] <= y) & (high[:, 1] >= y) & (high[:, 2] >= z)
        a, b, c = corners[near].transpose(1, 0, 2)
        sides = [(p[:, 0] - x) * (q[:, 1] - y) - (q[:, 0] - x) * (p[:, 1] - y) for p, q in ((b, c), (c, a), (a, b))]
        total = sides[0] + sides[1] + sides[2]
        over = ((np.sign(sides) == np.sign(total)).all(axis=0)) & (total != 0)
        height = sum(side[over] * corner[over, 2] for side, corner in zip(sides, (a, b, c), strict=True)) / total[over]
        found[number] = int(np.sign(total[over])[height > z].sum())
    return found
