"""How a shell that was divided on a scan comes apart: its sections laid on a grid, and the order they leave in."""

from collections.abc import Sequence
from math import sin
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import ndimage
from scipy.spatial import cKDTree

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.blocking import BODY, FREE, Contact, Key, Pieces, hits, keyed, matrix, resting, seam_contacts, swept
from moldcalc.scan.body import Grid, Points
from moldcalc.scan.order import Removal, order
from moldcalc.scan.progress import Progress, Work

#: a direction that a piece may try instead of its own pull must clear all but this share of its faces
_SPARE = 0.01
_CHUNK = 100_000


class SectionLike(Protocol):
    """A section as far as its removal goes."""

    @property
    def number(self) -> int: ...

    @property
    def pull(self) -> Sequence[float]: ...


class SurfaceLike(Protocol):
    """Faces by centre (m, 3) and outward normal (m, 3)."""

    @property
    def centres(self) -> Points: ...

    @property
    def normals(self) -> Points: ...


class SplitLike(Protocol):
    """A divided outside as far as its removal goes.

    `homes` (m,) is the number of the section over each face, `labels` the same with -1 where paste must fill, `paste` the share of each cell that
    it fills.
    """

    @property
    def surface(self) -> SurfaceLike: ...

    @property
    def homes(self) -> NDArray[np.int64]: ...

    @property
    def labels(self) -> NDArray[np.int64]: ...

    @property
    def paste(self) -> NDArray[np.float32]: ...

    @property
    def sections(self) -> Sequence[SectionLike]: ...


def removal(split: SplitLike, grid: Grid, shell_thickness: float, flange_width: float, *, keys: Sequence[Key] = ()) -> Work[Removal]:
    """The order in which the sections of a split leave.

    Parameters
    ----------
    split
        Of the outside, with the paste that it needs and a pull for each section; pieces of the answer are counted from 0 in the sections' order.
    grid
        Signed distance to the outside of the rubber, at least a flange's width beyond it; the cells of the split's paste.
    shell_thickness, flange_width
        Of the wall, and how far the flanges stand out [m].
    keys
        In the flanges, where they are known.

    Returns
    -------
    The order, what locks and the ways out.

    Raises
    ------
    EntryError
        A thickness or width that is not above 0; no faces; pulls that don't fit the labels.

    Notes
    -----
    Range: a wall is taken to be at least a cell thick and a flange two. Flanges stand along the borders, square to the surface or leaning up to
    45 degrees where that lets both pulls go; where no lean does, one of the two waits. The path past the body itself is the split's to prove.
    Source: blocking graph: Wilson and Latombe 1992 (abstract verified).
    """
    pulls = np.array([section.pull for section in split.sections], dtype=float).reshape(-1, 3)
    place = {section.number: at for at, section in enumerate(split.sections)}
    of = np.array([place.get(int(number), -1) for number in split.homes])
    yield Progress("Paste on the grid", 0.0)
    return (yield from removal_of(split.surface.centres, split.surface.normals, of, pulls, with_paste(grid, split.paste), shell_thickness,
                                  flange_width, keys=keys, judged=split.labels > 0))


def with_paste(grid: Grid, paste: NDArray[np.float32]) -> Grid:
    """The grid of the outside with paste on it: cells at least half full count as filled, to half a cell."""
    full = paste >= 0.5
    if not full.any():
        return grid
    filled = full | grid.inside
    beyond = ndimage.distance_transform_edt(~filled, sampling=grid.cell)
    within = ndimage.distance_transform_edt(filled, sampling=grid.cell)
    counted = np.where(filled, 0.5 * grid.cell - within, beyond - 0.5 * grid.cell).astype(np.float32)
    return Grid(grid.origin, grid.cell, np.minimum(grid.distance, counted))


def removal_of(centres: ArrayLike, normals: ArrayLike, labels: ArrayLike, pulls: ArrayLike, grid: Grid, shell_thickness: float,
               flange_width: float, *, keys: Sequence[Key] = (), contacts: Sequence[Contact] = (),
               judged: NDArray[np.bool_] | None = None) -> Work[Removal]:
    """`removal` for plain arrays: faces by centre, normal and section from 0 (-1 for none), and the pull of each section.

    `judged` says which faces a section has to clear when another way than its pull is tried; the rest is under paste.
    """
    faces, outward, of = np.asarray(centres, dtype=float), np.asarray(normals, dtype=float), np.asarray(labels)
    pieces = yield from shell_on_grid(faces, of, np.asarray(pulls, dtype=float), grid, shell_thickness, flange_width)
    yield Progress("Flanges", 0.0)
    touching = [*contacts, *seam_contacts(pieces, grid.distance)]
    found = yield from hits(pieces, keys=keys, contacts=touching)
    made = order(matrix(found, len(pieces.pulls)), hits=found)
    if made.comes_apart:
        return made
    tried = _worth_trying(pieces.pulls)
    bare = of if judged is None else np.where(judged, of, -1)
    along = yield from _along(pieces, outward, bare, tried, keys, touching, sorted({p for one in made.locked for p in one} | set(made.waiting)))
    return order(made.blocking, along=along, directions=tried, hits=found)


def shell_on_grid(centres: Points, labels: NDArray[np.integer], pulls: Points, grid: Grid, shell_thickness: float,
                  flange_width: float) -> Work[Pieces]:
    """The sections of a shell as cells: a wall round the body, and flanges on both sides of every border."""
    for entry, value in (("shell thickness", shell_thickness), ("flange width", flange_width)):
        if not 0 < value <= 10:
            raise EntryError(Fault(entry, f"{value:.6g} m", "it must be above 0 and at most 10 m"))
    known = labels >= 0
    if not known.any() or len(pulls) <= int(labels.max()):
        raise EntryError(Fault("sections", f"{len(pulls)} with {int(known.sum())} faces", "give each section its pull and at least one face"))
    tree = cKDTree(centres[known])
    number = labels[known].astype(np.int16)
    reach = max(shell_thickness, flange_width, 2 * grid.cell)
    near = np.argwhere((grid.distance > -0.5 * grid.cell) & (grid.distance <= reach))
    around = np.full(grid.distance.shape, FREE, dtype=np.int16)
    for begin in range(0, len(near), _CHUNK):
        yield Progress("Sections on the grid", begin / len(near))
        cells = near[begin:begin + _CHUNK]
        _, face = tree.query(grid.origin + grid.cell * cells)
        around[tuple(cells.T)] = number[face]
    wall = grid.distance <= max(shell_thickness, 1.5 * grid.cell)
    made = np.where((wall | _by_a_border(around)) & (around >= 0), around, np.int16(FREE)).astype(np.int16)
    made[grid.distance < -1.5 * grid.cell] = BODY
    flange = (made >= 0) & ~wall
    units = pulls / np.linalg.norm(pulls, axis=1, keepdims=True)
    return Pieces(made, units, grid.cell, np.asarray(grid.origin, dtype=float), flange, 1.5 * flange_width + 2 * grid.cell)


def _by_a_border(around: NDArray[np.int16]) -> NDArray[np.bool_]:
    """Cells at most two from a cell of another section."""
    low = ndimage.minimum_filter(np.where(around < 0, np.int16(32767), around), 3)
    high = ndimage.maximum_filter(around, 3)
    border = (around >= 0) & (low < high)
    near: NDArray[np.bool_] = ndimage.binary_dilation(border, np.ones((3, 3, 3)))
    return near


def _worth_trying(pulls: Points) -> Points:
    """The pulls themselves, straight up, and four ways along the board."""
    all_of = np.vstack([pulls, [[0, 0, 1.0], [1.0, 0, 0], [-1.0, 0, 0], [0, 1.0, 0], [0, -1.0, 0]]])
    _, rows = np.unique(np.round(all_of, 6), axis=0, return_index=True)
    kept: Points = all_of[np.sort(rows)]
    return kept


def _along(pieces: Pieces, normals: Points, labels: NDArray[np.integer], tried: Points, keys: Sequence[Key],
           touching: Sequence[Contact], left: Sequence[int]) -> Work[NDArray[np.bool_]]:
    """Who blocks whom along each direction tried, and on the diagonal who can't leave the body that way; only for those left."""
    count = len(pieces.pulls)
    along = np.zeros((len(tried), count, count), dtype=bool)
    for way, direction in enumerate(tried):
        yield Progress("Other ways out", way / len(tried))
        for piece in left:
            own = normals[labels == piece]
            if not len(own) or (own @ direction < -sin(1e-3)).mean() > _SPARE:
                along[way, piece, piece] = True
                continue
            path = yield from swept(pieces, piece, direction)
            for hit in path + resting(touching, piece, direction) + keyed(keys, piece, direction):
                along[way, piece, hit.by] = True
    return along
