"""How a surface of triangles grows with a coat on it: its edges' turning and its corners' share, after Steiner."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from moldcalc.scan.body import Faces, Points
from moldcalc.scan.edges import Edges, cross
from moldcalc.stages.original import Band

#: an inside edge turned by more than this (150 degrees) is counted as if it were this: its tangent would have no bound
_SHARPEST = np.radians(150)
#: edges turned by more than this (30 degrees) are taken for edges of the original, not for facets of a round face
ROUND = np.radians(30)


class Turned(NamedTuple):
    """Every edge that two triangles share: how far the surface turns over it [rad, below 0 inside] and its length [m]."""

    angle: NDArray[np.float64]
    length: NDArray[np.float64]


@dataclass(frozen=True)
class Growth:
    """The terms of the volume that a coat adds: area t + curvature t² + cubic t³.

    `area` [m²]; `curvature` [m] with the tangent of half the angle at inside edges, `curvature_signed` [m] with half the angle, and
    `curvature_upper` [m] of outside edges only; `cubic` and `cubic_upper` [-] the share of the corners, all of them or
    only those that stand out.
    """

    area: float
    curvature: float
    curvature_signed: float
    curvature_upper: float
    cubic: float
    cubic_upper: float

    def volume(self, thickness: float) -> Band:
        """Volume of an even coat, low, likely and high. [m³]

        The high value counts outside edges and corners only. The low one is area times thickness where the body is
        rounder than it is hollow; where it is more hollow, it is the likely one.
        """
        t = thickness
        likely = max(0.0, t * (self.area + t * (self.curvature + t * self.cubic)))
        high = t * (self.area + t * (self.curvature_upper + t * self.cubic_upper))
        return Band(min(likely, self.area * t), likely, max(likely, high))

    def grown_area(self, thickness: float) -> Band:
        """Area of the outside of an even coat, low, likely and high. [m²]"""
        t = thickness
        likely = max(0.0, self.area + t * (2 * self.curvature + 3 * t * self.cubic))
        high = self.area + t * (2 * self.curvature_upper + 3 * t * self.cubic_upper)
        return Band(min(likely, self.area), likely, max(likely, high))


def turned(vertices: Points, faces: Faces, edges: Edges, normals: Points) -> Turned:
    """How far the surface turns over every shared edge, from the unit normals of its triangles.

    The angle is below 0 where the edge is an inside one. Edges of triangles without an area, or whose two triangles
    disagree about the outside, turn by nothing.
    """
    angle, length = np.empty(len(edges.ends)), np.empty(len(edges.ends))
    step = 1 << 16
    for first in range(0, len(angle), step):
        ends, pairs = edges.ends[first:first + step], edges.pairs[first:first + step]
        begin = vertices[ends[:, 0]]
        one, two = normals[pairs[:, 0]], normals[pairs[:, 1]]
        third = vertices[faces[pairs[:, 1]].sum(axis=1) - ends.sum(axis=1)] - begin
        size = _size(cross(one, two))
        size[np.einsum("ij,ij->i", one, third) > 0] *= -1
        here = np.arctan2(size, np.einsum("ij,ij->i", one, two))
        here[(_size(one) == 0) | (_size(two) == 0)] = 0
        angle[first:first + step], length[first:first + step] = here, _size(vertices[ends[:, 1]] - begin)
    angle[edges.turned] = 0
    return Turned(angle, length)


def _size(rows: Points) -> NDArray[np.float64]:
    size: NDArray[np.float64] = np.sqrt(np.einsum("ij,ij->i", rows, rows))
    return size


def corner_defects(vertices: Points, faces: Faces) -> NDArray[np.float64]:
    """What is missing at every point to a full turn of 2 pi: above 0 at a corner that stands out. [rad]"""
    total = np.zeros(len(vertices))
    step = 1 << 16
    for first in range(0, len(faces), step):
        part = faces[first:first + step]
        corners = vertices[part]
        for i in range(3):
            one, two = corners[:, (i + 1) % 3] - corners[:, i], corners[:, (i + 2) % 3] - corners[:, i]
            angle = np.arctan2(_size(cross(one, two)), np.einsum("ij,ij->i", one, two))
            total += np.bincount(part[:, i], angle, len(vertices))
    return 2 * np.pi - total


def growth(area: float, turning: Turned, defects: NDArray[np.float64]) -> Growth:
    """The terms of growth from an area, the edges and the corners that count."""
    angle, length = turning
    outside, inside = np.maximum(angle, 0), np.minimum(-angle, _SHARPEST).clip(0)
    upper = float((length * outside).sum()) / 2
    return Growth(area=area, curvature=upper - float((length * np.tan(inside / 2)).sum()), curvature_signed=float((length * angle).sum()) / 2,
                  curvature_upper=upper, cubic=float(defects.sum()) / 3, cubic_upper=float(defects.clip(0).sum()) / 3)


def facet_deficit(turning: Turned, edges: Edges, areas: NDArray[np.float64]) -> tuple[float, float]:
    """What flat facets on a round surface leave out of area and volume at most, if the points lie on it. [m², m³]

    Each edge stands for a third of its two triangles. Volume: their height over the edge times the turning over it, a quarter of
    that; exact in the limit for balls of even or right-angled triangles and for cylinders (computed). Area: 5/8 of the squared
    turning; exact for balls of even triangles, 1.7 times too much for right-angled ones and 5 times for cylinders (computed).
    Edges turned by more than 30 degrees are the original's own.
    """
    usable = (np.abs(turning.angle) < ROUND) & (turning.length > 0)
    both = (areas[edges.pairs[:, 0]] + areas[edges.pairs[:, 1]])[usable]
    angle = turning.angle[usable]
    return float((both * angle**2).sum()) * 5 / 24, float((both**2 / turning.length[usable] * angle).sum()) / 12
