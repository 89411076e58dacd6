"""Outlines of a body: where it meets the board, the flange round that, and the shadows it throws to the front and to the side."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError

from moldcalc.scan.body import Faces, Points
from moldcalc.stages.original import Band

#: rows in which a shadow is measured
_ROWS = 800
_SHARPEST = np.radians(150)


class Outline(NamedTuple):
    """Where the body meets the board.

    `rings` are its closed lines as (n, 2) points [m], those round a hole in it left out; `length` that of all of them [m], `hull` the
    length of a tape pulled tight round the whole [m], `area` inside the rings [m²], `open` how much of the line does not close [m].
    """

    rings: tuple[NDArray[np.float64], ...]
    length: float
    hull: float
    area: float
    open: float


def cut_at(vertices: Points, faces: Faces, height: float) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Where a level plane cuts the triangles: (k, 2) numbers of the cut edges and their (n, 2) points, body on the left.

    Points exactly in the plane count as above it, so that every cut is a piece of a line.
    """
    above = vertices[:, 2] >= height
    mixed = above[faces]
    cut = faces[mixed.any(axis=1) & ~mixed.all(axis=1)]
    up = above[cut]
    lonely = up.sum(axis=1) == 1
    odd = np.argmax(up == lonely[:, None], axis=1)
    rows = np.arange(len(cut))
    apex, right, left = (cut[rows, (odd + i) % 3] for i in range(3))
    begin = np.where(lonely, right, left)
    end = np.where(lonely, left, right)
    keys = np.stack([_key(apex, begin, len(vertices)), _key(apex, end, len(vertices))], axis=1)
    distinct, numbered = np.unique(keys, return_inverse=True)
    a, b = vertices[distinct // len(vertices)], vertices[distinct % len(vertices)]
    share = ((height - a[:, 2]) / (b[:, 2] - a[:, 2]))[:, None]
    return numbered.reshape(-1, 2), (a + share * (b - a))[:, :2]


def _key(one: NDArray[np.int64], two: NDArray[np.int64], count: int) -> NDArray[np.int64]:
    return np.minimum(one, two) * count + np.maximum(one, two)


def _followed(cuts: NDArray[np.int64]) -> tuple[list[list[int]], list[list[int]]]:
    """Cuts joined end to end: closed rings, and lines that do not close."""
    after: dict[int, list[int]] = {}
    ends = set()
    for begin, end in cuts.tolist():
        after.setdefault(begin, []).append(end)
        ends.add(end)
    rings: list[list[int]] = []
    lines: list[list[int]] = []
    starts = [begin for begin in after if begin not in ends]
    while after:
        start = starts.pop() if starts else next(iter(after))
        if start not in after:
            continue
        line, now = [start], start
        while now in after:
            following = after[now]
            nxt = following.pop()
            if not following:
                del after[now]
            line.append(nxt)
            now = nxt
            if now == start:
                break
        (rings if now == start else lines).append(line)
    return rings, lines


def _length(points: NDArray[np.float64]) -> float:
    return float(np.sqrt((np.diff(points, axis=0) ** 2).sum(axis=1)).sum())


def _area(ring: NDArray[np.float64]) -> float:
    x, y = (ring - ring.mean(axis=0)).T
    return float((x[:-1] * y[1:] - x[1:] * y[:-1]).sum()) / 2


def base_outline(vertices: Points, faces: Faces, height: float) -> Outline:
    """The line in which a body meets the board, cut a little above it.

    Parameters
    ----------
    vertices, faces
        Of the body, z up from the board. [m]
    height
        At which it is cut. [m]
    """
    cuts, points = cut_at(vertices, faces, height)
    if not len(cuts):
        return Outline((), 0.0, 0.0, 0.0, 0.0)
    rings, lines = _followed(cuts)
    closed = [points[ring] for ring in rings]
    areas = [_area(ring) for ring in closed]
    outer = [ring for ring, area in zip(closed, areas, strict=True) if area > 0]
    if not outer and areas:
        outer = [max(closed, key=lambda ring: abs(_area(ring)))]
    try:
        around = float(ConvexHull(points).area)
    except (QhullError, ValueError):
        around = 2 * float(np.ptp(points, axis=0).max())
    apart = sum((_length(points[line]) for line in lines), 0.0)
    return Outline(tuple(outer), sum(map(_length, outer)) + apart, around, abs(sum(areas)), apart)


def flange_band(outline: Outline, width: float) -> Band:
    """Area of a flange of even width round the outline, on the board. [m²]

    Length times width, plus the sector at every outside corner and less the overlap at every inside one: exact until the
    flange meets itself. High: outside corners only. Low: round a tape pulled tight, which bridges every hollow, where that is less.
    """
    if not outline.length:
        return Band(0.0, 0.0, 0.0)
    corners = [_turning(ring) for ring in outline.rings]
    outside = sum(float(np.maximum(turn, 0).sum()) for turn in corners) / 2
    inside = sum(float(np.tan(np.minimum(-turn, _SHARPEST).clip(0) / 2).sum()) for turn in corners)
    likely = outline.length * width + (outside - inside) * width**2
    tight = outline.hull * width + np.pi * width**2
    likely = max(likely, 0.0)
    return Band(min(likely, tight), likely, outline.length * width + outside * width**2)


def _turning(ring: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far a closed line turns left at each of its points. [rad]"""
    steps = np.diff(ring, axis=0)
    steps = steps[np.einsum("ij,ij->i", steps, steps) > 0]
    before, after = steps, np.roll(steps, -1, axis=0)
    turn: NDArray[np.float64] = np.arctan2(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0], np.einsum("ij,ij->i", before, after))
    return turn


def shadow_area(vertices: Points, faces: Faces, axis: int) -> float:
    """Area of the shadow that a body throws along x (axis 0) or y (axis 1) on an upright wall. [m²]

    Notes
    -----
    Range: the shadow is cut into 800 level rows and the exact width of each is taken at its middle.
    """
    flat = vertices[:, [1 - axis, 2]]
    low, high = float(flat[:, 1].min()), float(flat[:, 1].max())
    if high <= low:
        return 0.0
    rows = (flat[:, 1] - low) / (high - low) * _ROWS
    across = flat[:, 0] - flat[:, 0].min()
    wide = float(across.max()) * 1.01 + 1e-12
    spans = [_spans(rows[part], across[part]) for part in np.array_split(faces, max(1, len(faces) // 200_000))]
    row, begin, end = (np.concatenate(column) for column in zip(*spans, strict=True))
    if not len(row):
        return 0.0
    begin, end = begin + row * wide, end + row * wide
    order = np.argsort(begin)
    begin, end = begin[order], end[order]
    reach = np.maximum.accumulate(end)
    covered = np.maximum(0, end - np.maximum(begin, np.concatenate(([-np.inf], reach[:-1]))))
    return float(covered.sum()) * (high - low) / _ROWS


def _spans(rows: NDArray[np.float64], across: NDArray[np.float64]) -> tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.float64]]:
    """Every row whose middle a triangle meets, with where the triangle begins and ends there."""
    order = np.argsort(rows, axis=1)
    z, x = np.take_along_axis(rows, order, axis=1), np.take_along_axis(across, order, axis=1)
    first = np.ceil(z[:, 0] - 0.5).astype(np.int64)
    count = np.maximum(0, np.floor(z[:, 2] - 0.5).astype(np.int64) - first + 1)
    count[z[:, 2] == z[:, 0]] = 0
    which = np.repeat(np.arange(len(rows)), count)
    row = np.repeat(first - np.concatenate(([0], np.cumsum(count)[:-1])), count) + np.arange(len(which))
    at = row + 0.5
    z, x = z[which], x[which]
    with np.errstate(divide="ignore", invalid="ignore"):
        long = x[:, 0] + (at - z[:, 0]) / (z[:, 2] - z[:, 0]) * (x[:, 2] - x[:, 0])
        lower = x[:, 0] + (at - z[:, 0]) / (z[:, 1] - z[:, 0]) * (x[:, 1] - x[:, 0])
        upper = x[:, 1] + (at - z[:, 1]) / (z[:, 2] - z[:, 1]) * (x[:, 2] - x[:, 1])
    short = np.where(at < z[:, 1], lower, upper)
    short = np.where(np.isfinite(short), short, x[:, 1])
    return row, np.minimum(long, short), np.maximum(long, short)
