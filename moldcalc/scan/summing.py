"""One walk over all triangles: area, what of it is base, signed volume, and how the area lies."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from moldcalc.scan.body import Body, Faces, Points
from moldcalc.scan.edges import cross
from moldcalc.scan.progress import Progress, Work

_STEP = 1 << 16
#: triangles at once where their numbers should stay in the processor's cache
_SMALL_STEP = 1 << 14
#: a face belongs to the base if its outside points down within 30 degrees
_DOWN = -np.cos(np.radians(30))
_LOW_DRAFT = np.sin(np.radians(3))
_LIMITS = np.cos(np.radians([150, 100, 80, 30]))


class Slopes(NamedTuple):
    """Shares of the area (without the base) by how it lies; the first five make 1.

    `level`: within 30° of lying flat, facing up. `sloping`: 30 to 80°. `upright`: 80 to 100°, a wall. `overhanging`: 100 to 150°, facing
    down. `underside`: beyond. `low_draft`: with less than 3° of draft for a pull straight up (walls and all that hangs over).
    """

    level: float
    sloping: float
    upright: float
    overhanging: float
    underside: float
    low_draft: float


class Sums(NamedTuple):
    """What one walk over all triangles gives: areas [m²], signed volume about the middle [m³], shares by slope."""

    area_whole: float
    base_area: float
    volume: float
    slopes: Slopes

    @property
    def area(self) -> float:
        """Area without the base. [m²]"""
        return self.area_whole - self.base_area


class Walked(NamedTuple):
    """Area [m²], unit normal and base of every triangle, and the signed volume about the middle [m³]."""

    areas: NDArray[np.float64]
    normals: Points
    base: NDArray[np.bool_]
    volume: float


def walked_over(vertices: Points, faces: Faces, base_tolerance: float) -> Work[Walked]:
    """Area, unit normal and base of every triangle, and the signed volume about the middle, in pieces."""
    middle = (vertices.min(axis=0) + vertices.max(axis=0)) / 2
    areas, normals = np.empty(len(faces)), np.empty((len(faces), 3))
    base = np.empty(len(faces), bool)
    low = np.asarray(vertices[:, 2] <= base_tolerance)
    volume = 0.0
    for first in range(0, len(faces), _STEP):
        part = faces[first:first + _STEP]
        here = slice(first, first + len(part))
        a = vertices[part[:, 0]]
        crossed = cross(vertices[part[:, 1]] - a, vertices[part[:, 2]] - a)
        size = np.sqrt(np.einsum("ij,ij->i", crossed, crossed))
        volume += float(np.einsum("ij,ij->", a - middle, crossed))
        areas[here] = size / 2
        np.divide(crossed, size[:, None], out=crossed, where=size[:, None] > 0)
        normals[here] = crossed
        base[here] = low[part[:, 0]] & low[part[:, 1]] & low[part[:, 2]] & (crossed[:, 2] < _DOWN)
        if first // _STEP % 8 == 0:
            yield Progress("measuring", first / len(faces))
    return Walked(areas, normals, base, volume / 6)


def slopes_of(walked: Walked) -> Slopes:
    sizes = 2 * walked.areas
    return _shares(_banded(walked.normals[:, 2] * sizes, sizes, walked.base))


def _banded(up: NDArray[np.float64], sizes: NDArray[np.float64], low: NDArray[np.bool_]) -> NDArray[np.float64]:
    """Area from underside to level, of the base, and with little draft, from the crossed sides' rise and size. [m²]"""
    base = low & (up < _DOWN * sizes)
    band = sum((up > limit * sizes).astype(np.int64) for limit in _LIMITS)
    band[base] = 5
    little = (up < (_LOW_DRAFT - 1e-12) * sizes) & ~base
    return np.append(np.bincount(band, sizes, 6), sizes[little].sum()) / 2


def _shares(areas: NDArray[np.float64]) -> Slopes:
    total = float(areas[:5].sum())
    if total <= 0:
        return Slopes(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    under, over, wall, slope, level = (areas[:5] / total).tolist()
    return Slopes(level, slope, wall, over, under, float(areas[6]) / total)


def sums(body: Body, *, base_tolerance: float = 0.0) -> Work[Sums]:
    """Area, base, signed volume and slopes of a body.

    Parameters
    ----------
    body
        On the board, in metres.
    base_tolerance
        How far from the board a face may lie and still be its base. [m]
    """
    x, y, z = (np.ascontiguousarray(column) for column in body.vertices.T)
    x, y = x - (x.min() + x.max()) / 2, y - (y.min() + y.max()) / 2
    low = z <= base_tolerance
    found = np.zeros(8)
    for number, first in enumerate(range(0, len(body.faces), _SMALL_STEP)):
        a, b, c = np.ascontiguousarray(body.faces[first:first + _SMALL_STEP].T)
        ax, ay, az = x.take(a), y.take(a), z.take(a)
        ux, uy, uz, vx, vy, vz = x.take(b) - ax, y.take(b) - ay, z.take(b) - az, x.take(c) - ax, y.take(c) - ay, z.take(c) - az
        across, up = uy * vz - uz * vy, ux * vy - uy * vx
        sizes = np.sqrt(across * across + (uz * vx - ux * vz) ** 2 + up * up)
        found[7] += float((across * (3 * ax + ux + vx)).sum()) / 6
        found[:7] += _banded(up, sizes, low.take(a) & low.take(b) & low.take(c))
        if number % 32 == 0:
            yield Progress("measuring", first / len(body.faces))
    return Sums(float(found[:6].sum()), float(found[5]), float(found[7]), _shares(found))
