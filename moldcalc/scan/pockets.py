"""Where paste goes over the laid-on skin: what a ball rolling outside can't reach, pocket by pocket."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Grid
from moldcalc.scan.crossings import Cells
from moldcalc.scan.distance import Distances, centres, padded, redistanced
from moldcalc.scan.grid import grown
from moldcalc.scan.progress import Progress, T, Work, finish
from moldcalc.scan.rolling import air_wanted, closed
from moldcalc.units import show

#: a ball this much larger or smaller than a pocket's half-width makes the fill all or nothing
NEAR = 0.1
#: the depth of fill, as a share of the ball, below which it no longer joins two pockets into one
THIN = 0.2
#: the largest cell whose band is narrow enough to order by, as a share of the ball
FINE = 0.1

Labels = NDArray[np.int32]
Place = tuple[float, float, float]


@dataclass(frozen=True)
class Pocket:
    """One pocket, filled until the ball rolls over it.

    `low`, `likely`, `high` are its volume [m³]: the cells counted, less and more one cell times its free area. `depth` is the
    largest distance from its free surface, `neck` twice the largest distance from that surface to skin and board, `half_width`
    the radius of the largest ball that fits between its walls [m]. `free_area` is what the ball rolls over [m²]. `centroid` is the
    middle of the fill and `mouth` the point of its free surface next to it [m]. `cells` are flat indices into the grid.
    `all_or_nothing` says that the ball is within 10 % (and a cell) of the half-width: a little smaller and the pocket stays empty.
    """

    number: int
    low: float
    likely: float
    high: float
    depth: float
    neck: float
    half_width: float
    free_area: float
    centroid: Place
    mouth: Place
    cells: NDArray[np.int64]
    all_or_nothing: bool


@dataclass(frozen=True)
class Narrow:
    """A hollow that stays open with this ball and that one a tenth larger would fill: its volume [m³], half-width and middle [m]."""

    volume: float
    half_width: float
    centroid: Place


@dataclass(frozen=True)
class Pockets:
    """All pockets of a body with its skin on, largest first, for one wall and one ball.

    `small` is what lies in fur, small folds and pockets below the least volume; `fillet` what the ball leaves open to the sky in
    the corner of skin and board [m³]. `nearly` are hollows just too wide for the ball. `said` is one sentence on how coarse
    the cells are. `laid` is the body with its skin, `whole` with everything filled; `folds` are flat indices of the cells that `small` counts.
    """

    wall: float
    radius: float
    pockets: tuple[Pocket, ...]
    small: float
    fillet: float
    nearly: tuple[Narrow, ...]
    said: str
    laid: Grid
    whole: Grid
    folds: NDArray[np.int64]

    @property
    def likely(self) -> float:
        """Volume of all numbered pockets. [m³]"""
        return sum(pocket.likely for pocket in self.pockets)


def find_pockets(grid: Grid, *, wall: float, radius: float, least_volume: float) -> Work[Pockets]:
    """Where paste goes once the skin is on, how deep, how wide, how much.

    The skin is laid on, a ball rolls over it and over the board; what the ball can't reach is fill. Fill deeper than a fifth of
    the ball (and than a cell) is parted into pockets where it hangs together; the thinner rims go to the nearest of them, and
    thin fill by itself counts with fur and small folds.

    Parameters
    ----------
    grid
        The original, standing on the board (z = 0). [m]
    wall
        Thickness of the skin laid on. [m]
    radius
        Of the ball: half the smallest gap that may stay open, or the radius the shell must clear. [m]
    least_volume
        Below it a pocket is not numbered but counted with fur and small folds. [m³]

    Returns
    -------
    Pockets, numbered, largest first.

    Raises
    ------
    EntryError
        A wall or least volume below 0, a radius that is not above 0 or that needs too large a grid.

    Notes
    -----
    Range: the error of the fill is of first order in the cell, at most about 0.9 cell times the free surface, mostly too much;
    so the band is one cell times the free surface. Take cells of at most a tenth of the ball.
    Source: closing by a ball, with two distance transforms each for the ball, one a tenth larger, and one that passes through the board.
    """
    _check(wall=wall, least_volume=least_volume)
    if not (np.isfinite(radius) and radius > 0):
        raise EntryError(Fault("radius", f"{radius:g} m", "it must be above 0"))
    laid = grown(grid, wall)
    wide, pad = laid, air_wanted(laid, (1 + NEAR) * radius)
    if pad:
        wide = yield from padded(laid, pad)
    whole = _cut(laid, (yield from _part(closed(wide, radius, board=True), 0.1, 0.3)))
    larger = _cut(laid, (yield from _part(closed(wide, (1 + NEAR) * radius, board=True), 0.3, 0.5)))
    free = _cut(laid, (yield from _part(closed(wide, radius), 0.5, 0.7))).inside
    fill = whole.inside & ~laid.inside
    fill[:, :, centres(grid, 2) < 0] = False
    under = np.logical_or.accumulate(laid.inside[:, :, ::-1], axis=2)[:, :, ::-1]
    fillet = fill & ~free & ~under
    yield Progress("parting the pockets", 0.75)
    labels, count = _parted(fill & ~fillet, whole.distance, max(grid.cell, THIN * radius))
    yield Progress("measuring the pockets", 0.85)
    volumes = np.bincount(labels.reshape(-1), minlength=count + 1)[1:] * grid.cell**3
    order = [int(n) + 1 for n in np.argsort(-volumes, kind="stable") if volumes[n] >= least_volume]
    boxes = ndimage.find_objects(labels)
    found = []
    for number, label in enumerate(order, 1):
        found.append(_measured(number, label, labels, boxes[label - 1], laid, whole, radius))
        yield Progress("measuring the pockets", 0.85 + 0.1 * number / len(order))
    folded = (fill & ~fillet).reshape(-1)
    for pocket in found:
        folded[pocket.cells] = False
    folds = np.flatnonzero(folded)
    small = len(folds) * grid.cell**3
    nearly = _nearly(larger.inside & ~whole.inside, laid, radius, least_volume)
    yield Progress("measuring the pockets", 1.0)
    return Pockets(wall, radius, tuple(found), small, float(np.count_nonzero(fillet) * grid.cell**3), nearly,
                   _coarse(grid.cell, radius), laid, whole, folds)


def _check(**lengths: float) -> None:
    for name, value in lengths.items():
        if not (np.isfinite(value) and value >= 0):
            raise EntryError(Fault(name.replace("_", " "), f"{value:g}", "it must be at least 0"))


def _coarse(cell: float, radius: float) -> str:
    if cell <= FINE * radius * (1 + 1e-9):
        return f"Cells of {show(cell, 'mm')}, {radius / cell:.0f} to the ball's radius."
    return (f"Cells of {show(cell, 'mm')} are coarse for a ball of {show(radius, 'mm')}: "
            f"take {show(FINE * radius, 'mm')} or less for a narrower band.")


def _part(work: Work[T], low: float, high: float) -> Work[T]:
    """The same work, its progress as a stretch of a longer one."""
    while True:
        try:
            said, share = next(work)
        except StopIteration as done:
            answer: T = done.value
            return answer
        yield Progress(said, low + share * (high - low))


def _cut(small: Grid, wide: Grid) -> Grid:
    """What lies on the smaller grid."""
    first = np.rint((small.origin - wide.origin) / small.cell).astype(int)
    part = tuple(slice(a, a + n) for a, n in zip(first, small.distance.shape, strict=True))
    return Grid(small.origin, small.cell, wide.distance[part])


def _parted(fill: Cells, level: Distances, thin: float) -> tuple[Labels, int]:
    """Numbers of the pockets, cell by cell: the deep parts, and what hangs on each; thin fill alone has none."""
    seeds, count = ndimage.label(fill & (level < -thin))
    if not count:
        return np.zeros(fill.shape, np.int32), 0
    whole, _ = ndimage.label(fill)
    has = np.zeros(int(whole.max()) + 1, bool)
    has[np.unique(whole[seeds > 0])] = True
    index = ndimage.distance_transform_edt(seeds == 0, return_distances=False, return_indices=True)
    labels = np.where(fill & has[whole], seeds[tuple(index)], 0).astype(np.int32)
    return labels, int(count)


def _measured(number: int, label: int, labels: Labels, box: tuple[slice, ...], laid: Grid, whole: Grid, radius: float) -> Pocket:
    cell, origin = laid.cell, laid.origin
    at = np.argwhere(labels[box] == label) + [part.start for part in box]
    cells = np.ravel_multi_index(tuple(at.T), labels.shape)
    level, gap = whole.distance.reshape(-1)[cells], laid.distance.reshape(-1)[cells]
    # the board is a wall too
    gap = np.minimum(gap, origin[2] + cell * at[:, 2])
    near = level > -cell
    # the free surface from the fill's side: a hat one cell wide, of which half lies in the fill
    area = float(2 * np.clip(1 + level[near] / cell, 0, None).sum()) * cell**2
    likely = len(cells) * cell**3
    centroid = origin + cell * at.mean(axis=0)
    mouth = origin + cell * at[near][((at[near] * cell + origin - centroid) ** 2).sum(axis=1).argmin()] if near.any() else centroid
    half = float(gap.max())
    neck = 2 * float(gap[near].max()) if near.any() else 0.0
    return Pocket(
        number=number, low=max(0.0, likely - cell * area), likely=likely, high=likely + cell * area, depth=float(-level.min()), neck=neck,
        half_width=half, free_area=area, centroid=_place(centroid), mouth=_place(mouth), cells=cells,
        all_or_nothing=abs(radius - half) <= NEAR * half + cell,
    )


def _place(point: NDArray[np.float64]) -> Place:
    x, y, z = (float(value) for value in point)
    return x, y, z


def _nearly(more: Cells, laid: Grid, radius: float, least_volume: float) -> tuple[Narrow, ...]:
    """Hollows that only a ball a tenth larger bridges, wide enough for the ball itself."""
    more = more.copy()
    more[:, :, centres(laid, 2) < 0] = False
    labels, count = ndimage.label(more)
    if not count:
        return ()
    gap = np.minimum(laid.distance, centres(laid, 2).astype(np.float32))
    half = ndimage.maximum(gap, labels, np.arange(1, count + 1))
    volumes = np.bincount(labels.reshape(-1), minlength=count + 1)[1:] * laid.cell**3
    found = []
    for n in np.argsort(-volumes, kind="stable"):
        if radius <= half[n] <= (1 + NEAR) * radius + laid.cell and volumes[n] >= max(least_volume, laid.cell**3):
            middle = laid.origin + laid.cell * np.array(ndimage.center_of_mass(more, labels, n + 1))
            found.append(Narrow(float(volumes[n]), float(half[n]), _place(middle)))
    return tuple(found)


def filled(grid: Grid, pockets: Pockets, numbers: Iterable[int], *, small: bool = False) -> Grid:
    """The outside of rubber and paste: the body with its skin, and the ticked pockets filled.

    Parameters
    ----------
    grid
        The grid the pockets were found on.
    pockets
        What `find_pockets` gave for it.
    numbers
        Of the pockets to fill.
    small
        Whether fur and small folds are filled as well, as the coats do.

    Returns
    -------
    The body that the shell is laid on, cut off flat at the board.

    Raises
    ------
    EntryError
        A number that no pocket has; a grid that is not the one of the pockets.
    """
    if grid.distance.shape != pockets.laid.distance.shape or grid.cell != pockets.laid.cell:
        raise EntryError(Fault("grid", "not the one the pockets were found on", "give that one"))
    known = {pocket.number: pocket for pocket in pockets.pockets}
    ticked = sorted(set(numbers))
    unknown = [n for n in ticked if n not in known]
    if unknown:
        raise EntryError(Fault("pocket", str(unknown[0]), f"there are {len(known)}, numbered from 1" if known else "there are none"))
    fill = pockets.whole.inside & ~pockets.laid.inside
    fill[:, :, centres(grid, 2) < 0] = False
    chosen = np.zeros(grid.distance.shape, bool)
    for cells in [known[n].cells for n in ticked] + ([pockets.folds] if small else []):
        chosen.reshape(-1)[cells] = True
    level = pockets.laid.distance.copy()
    if chosen.any():
        near = ndimage.binary_dilation(chosen, np.ones((3, 3, 3), bool))
        near &= ~(fill & ~chosen)
        # under the board the closed body is the board itself
        near[:, :, centres(grid, 2) < 0] = False
        level[near] = np.minimum(level[near], pockets.whole.distance[near])
    np.maximum(level, -centres(grid, 2).astype(np.float32), out=level)
    return Grid(grid.origin, grid.cell, finish(redistanced(level, grid.cell)))
