"""What is seen of a surface from one side: a small image of which triangle is in front, and outlines traced round parts of it."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Image = NDArray[np.float64]
Mask = NDArray[np.bool_]
Loop = list[tuple[float, float]]

FINE = 2  # samples along a side of a pixel
PARTS = 32  # corners lie on whole parts of a sample, so that every machine sees the same picture
CHUNK = 2_000_000  # samples asked at a time
EMPTY = -1


@dataclass(frozen=True)
class Seen:
    """Which triangle is in front at every sample, -1 none, and how near it is to the eye in pixels; rows run down."""

    face: NDArray[np.int64]
    near: Image


def seen(across: Image, faces: NDArray[np.int64], width: int, height: int) -> Seen:
    """The triangle in front at every sample of a picture.

    Parameters
    ----------
    across
        Corners (n, 3) in pixels: to the right, down, towards the eye.
    faces
        Triangles (m, 3).
    width, height
        Of the picture in pixels; there are `FINE` samples along each.
    """
    columns, rows = width * FINE, height * FINE
    whole = np.round(across * (FINE * PARTS)).astype(np.int64)
    corners = whole[faces]
    half = PARTS // 2
    low = -((half - corners[:, :, :2].min(axis=1)) // PARTS)
    high = (corners[:, :, :2].max(axis=1) - half) // PARTS
    low, high = np.maximum(low, 0), np.minimum(high, (columns - 1, rows - 1))
    size = (high - low + 1).max(axis=1)
    open_ = ((high >= low).all(axis=1)).nonzero()[0]
    front = np.full(columns * rows, np.iinfo(np.int64).min)
    for group in _alike(open_, size[open_]):
        _lay(front, corners[group], group, low[group], high[group], columns)
    taken = front > np.iinfo(np.int64).min
    face = np.where(taken, (1 << 31) - 1 - (front & 0xFFFFFFFF), EMPTY).reshape(rows, columns)
    near = np.where(taken, (front >> 32) / (FINE * PARTS), 0.0).reshape(rows, columns)
    return Seen(face, near)


def _alike(places: NDArray[np.int64], size: NDArray[np.int64]) -> Iterator[NDArray[np.int64]]:
    """Triangles of like size together, few enough at a time."""
    power = np.ceil(np.log2(np.maximum(size, 1))).astype(np.int64)
    for one in np.unique(power):
        group = places[power == one]
        step = max(1, CHUNK >> (2 * int(one)))
        for start in range(0, len(group), step):
            yield group[start : start + step]


def _lay(front: NDArray[np.int64], corners: NDArray[np.int64], names: NDArray[np.int64], low: NDArray[np.int64], high: NDArray[np.int64],
         columns: int) -> None:
    """Lay triangles over what is there; the nearer stays. All in whole numbers but the depth."""
    wide, tall = (high - low + 1).max(axis=0)
    shape = (len(corners), tall, wide)
    column = np.broadcast_to(low[:, 0, None, None] + np.arange(wide)[None, None, :], shape)
    row = np.broadcast_to(low[:, 1, None, None] + np.arange(tall)[None, :, None], shape)
    x, y = column * PARTS + PARTS // 2, row * PARTS + PARTS // 2
    a, b, c = (corners[:, k, :, None, None] for k in range(3))
    weights = [(q[:, 0] - p[:, 0]) * (y - p[:, 1]) - (q[:, 1] - p[:, 1]) * (x - p[:, 0]) for p, q in ((b, c), (c, a), (a, b))]
    total = weights[0] + weights[1] + weights[2]
    within = np.logical_and.reduce([weight * np.sign(total) >= 0 for weight in weights])
    within &= (total != 0) & (column <= high[:, 0, None, None]) & (row <= high[:, 1, None, None])
    if not within.any():
        return
    depth = sum(weight[within] * np.broadcast_to(p[:, 2], shape)[within] for weight, p in zip(weights, (a, b, c), strict=True)) // total[within]
    name = np.broadcast_to(names[:, None, None], shape)[within]
    np.maximum.at(front, row[within] * columns + column[within], (depth << 32) | ((1 << 31) - 1 - name))


# tracing --------------------------------------------------------------------------------------------------------
def share(mask: Mask) -> Image:
    """How much of every pixel lies in the part, softened by one pixel."""
    rows, columns = mask.shape[0] // FINE, mask.shape[1] // FINE
    part = mask.reshape(rows, FINE, columns, FINE).mean(axis=(1, 3))
    return softened(part)


def softened(image: Image, times: int = 1) -> Image:
    """The image with each value mixed with its neighbours, 1-2-1 both ways."""
    for _ in range(times):
        for axis in (0, 1):
            before, after = np.roll(image, 1, axis), np.roll(image, -1, axis)
            image = (before + 2 * image + after) / 4
    return image


#: for each pattern of corners inside (upper left 1, upper right 2, lower right 4, lower left 8) the sides that an outline joins,
#: the part to its right; sides are 0 upper, 1 right, 2 lower, 3 left
_JOINS = {1: [(0, 3)], 2: [(1, 0)], 3: [(1, 3)], 4: [(2, 1)], 5: [(0, 3), (2, 1)], 6: [(2, 0)], 7: [(2, 3)],
          8: [(3, 2)], 9: [(0, 2)], 10: [(1, 0), (3, 2)], 11: [(1, 2)], 12: [(3, 1)], 13: [(0, 1)], 14: [(3, 0)]}


def outlines(image: Image, level: float = 0.5) -> list[Loop]:
    """Closed lines round where the image is at least `level`, in pixels, by marching squares; the image must be below it on its rim."""
    inside = image >= level
    kind = inside[:-1, :-1] + 2 * inside[:-1, 1:] + 4 * inside[1:, 1:] + 8 * inside[1:, :-1]
    columns = image.shape[1]
    following: dict[int, int] = {}
    places: dict[int, tuple[float, float]] = {}

    def on(row: int, column: int, side: int) -> int:
        row, column, upright = {0: (row, column, 0), 1: (row, column + 1, 1), 2: (row + 1, column, 0), 3: (row, column, 1)}[side]
        name = (row * columns + column) * 2 + upright
        if name not in places:
            here, there = image[row, column], image[row + upright, column + 1 - upright]
            part = float((level - here) / (there - here))
            places[name] = (column + 0.5 + (0 if upright else part), row + 0.5 + (part if upright else 0))
        return name

    for row, column in np.argwhere((kind > 0) & (kind < 15)).tolist():
        for start, end in _JOINS[int(kind[row, column])]:
            following[on(row, column, start)] = on(row, column, end)
    loops = []
    while following:
        first = name = next(iter(following))
        loop = []
        while name in following:
            loop.append(places[name])
            name = following.pop(name)
        if name == first and len(loop) > 2:
            loops.append(loop)
    return loops


def steps(image: Image, key: NDArray[np.int64], jump: float) -> list[Loop]:
    """Open lines inside one part where what is in front ends and what lies behind begins, in pixels."""
    found: dict[tuple[int, int], list[tuple[int, int]]] = {}

    def join(one: tuple[int, int], other: tuple[int, int]) -> None:
        found.setdefault(one, []).append(other)
        found.setdefault(other, []).append(one)

    for flip in (False, True):
        near, part = (image.T, key.T) if flip else (image, key)
        rise = np.abs(np.diff(near, axis=1))
        same = (part[:, 1:] == part[:, :-1]) & (part[:, 1:] >= 0)
        # a surface that only turns away is steep on the next samples too
        beside = np.zeros_like(rise)
        beside[:, 1:] = np.where(same[:, :-1], rise[:, :-1], 0)
        beside[:, :-1] = np.maximum(beside[:, :-1], np.where(same[:, 1:], rise[:, 1:], 0))
        for row, column in np.argwhere(same & (rise > jump) & (rise > 2.5 * beside)).tolist():
            ends = (row, column + 1), (row + 1, column + 1)
            join(*((end[1], end[0]) if flip else end for end in ends))
    return [_smooth([(x / FINE, y / FINE) for y, x in chain]) for chain in _chains(found) if len(chain) > 7]


def _chains(found: dict[tuple[int, int], list[tuple[int, int]]]) -> list[list[tuple[int, int]]]:
    """Lines from end to end, or round."""
    chains = []
    for start in sorted(found, key=lambda at: (len(found[at]) != 1, at)):
        while found[start]:
            chain, here = [start], start
            while found[here]:
                onward = found[here].pop()
                found[onward].remove(here)
                chain.append(onward)
                here = onward
            chains.append(chain)
    return chains


def _smooth(line: Loop, times: int = 4) -> Loop:
    """The steps of the samples taken out; both ends stay."""
    points = np.array(line)
    for _ in range(times):
        points[1:-1] = (points[:-2] + 2 * points[1:-1] + points[2:]) / 4
    return [(float(x), float(y)) for x, y in points]


def enclosed(loop: Loop) -> float:
    """Area inside a closed line, positive where the part lies inside it and negative for a hole."""
    points = np.array(loop)
    following = np.roll(points, -1, axis=0)
    return float((points[:, 0] * following[:, 1] - points[:, 1] * following[:, 0]).sum() / 2)


def thinned(line: Loop, off: float = 0.22) -> Loop:
    """The line with the points left out that lie within `off` of it (Douglas and Peucker 1973)."""
    points = np.array(line)
    kept = np.zeros(len(points), bool)
    kept[[0, -1]] = True
    spans = [(0, len(points) - 1)]
    while spans:
        start, end = spans.pop()
        if end - start < 2:
            continue
        chord = points[end] - points[start]
        rest = points[start + 1 : end] - points[start]
        size = float(np.hypot(*chord))
        far = np.abs(chord[0] * rest[:, 1] - chord[1] * rest[:, 0]) / size if size > 1e-9 else np.hypot(rest[:, 0], rest[:, 1])
        most = int(far.argmax())
        if far[most] > off:
            kept[start + 1 + most] = True
            spans += [(start, start + 1 + most), (start + 1 + most, end)]
    return [(float(x), float(y)) for x, y in points[kept]]
