"""The long work on a job's scan: size, pockets, sections and the order they leave in, each from what the job says."""

from collections.abc import Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from math import cos, sin
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage
from scipy.spatial import cKDTree

from moldcalc.errors import EntryError, Fault
from moldcalc.job import Job
from moldcalc.job.places import data_folder
from moldcalc.scan.body import Body, Grid, Points
from moldcalc.scan.distance import padded, redistanced
from moldcalc.scan.grid import cell_for, grid_of
from moldcalc.scan.measuring import Size, measure
from moldcalc.scan.order import Removal
from moldcalc.scan.pockets import Pockets, filled, find_pockets
from moldcalc.scan.progress import Progress, Work, finish
from moldcalc.scan.reading import Scan, placed, read_scan
from moldcalc.scan.removal import removal
from moldcalc.scan.split import Split, split
from moldcalc.survey.names import pockets_named

#: cells of the grid that pockets are looked for on: our judgement, some seconds of work
POCKET_CELLS = 2_000_000
#: cells of the grid that the sections are looked for on: our judgement, some seconds of work
SHELL_CELLS = 350_000
#: of the ball's radius: finer cells than this don't narrow the band enough to wait for them
FINE = 0.1
#: both facings and the surface coat, thicker than they are laid up: our judgement [m]
FACINGS = 0.01


@dataclass(frozen=True)
class Standing:
    """A scan on its board, with its size."""

    scan: Scan
    body: Body
    size: Size


@dataclass(frozen=True)
class Shell:
    """A shell divided: the sections, and how they come off."""

    split: Split
    removal: Removal


def scan_path(job: Job, folder: Path | None) -> Path:
    """Where the job's scan lies: beside the job, or among the demo's.

    Raises
    ------
    EntryError
        The job names no scan, or one outside its folder.
    """
    name = job.original.scan
    if not name:
        raise EntryError(Fault("Scan", "not named", "drop one in chapter 01, or name a file beside the job"))
    if Path(name).name != name or name.startswith("."):
        raise EntryError(Fault("Scan", f"'{name}'", "it must be the name of a file beside the job, without a folder"))
    beside = (folder or Path()) / name
    return beside if beside.is_file() else data_folder() / "scans" / name


def stand(job: Job, scan: Scan) -> Work[Standing]:
    """The scan on its board, measured with the job's flange and wall.

    Raises
    ------
    EntryError
        The unit has not been said.
    """
    body = _placed(job, scan)
    size = yield from measure(body, closed=scan.closed, consistent=scan.consistent, flange_width=float(job.original.flange_width),
                              wall=float(job.coats.wall))
    return Standing(scan, body, size)


def read_and_stand(job: Job, folder: Path | None) -> Work[Standing]:
    """The job's scan read, placed and measured."""
    scan = yield from read_scan(scan_path(job, folder))
    return (yield from stand(job, scan))


def read_body(job: Job, folder: Path | None) -> Work[Body]:
    """The job's scan read and placed on its board, not measured.

    Raises
    ------
    EntryError
        The unit has not been said.
    """
    scan = yield from read_scan(scan_path(job, folder))
    return _placed(job, scan)


def _placed(job: Job, scan: Scan) -> Body:
    if job.original.scan_unit == "not said":
        raise EntryError(Fault("The unit of the scan", "not said", "look at its three sizes and choose one"))
    return placed(scan, job.original.scan_unit, job.original.scan_up)


def pockets_of(job: Job, body: Body) -> Work[Pockets]:
    """Where paste goes under the job's wall for the job's ball."""
    wall, radius = float(job.coats.wall), float(job.paste.ball) / 2
    # the fillet that the ball leaves on the board reaches a ball's radius beyond the skin
    cell = max(FINE * radius, cell_for(body, POCKET_CELLS, wall + radius))
    grid = yield from grid_of(body, cell, wall + radius + 3 * cell)
    return (yield from find_pockets(grid, wall=wall, radius=radius, least_volume=float(job.paste.least_pocket)))


def with_paste(pockets: Pockets, numbers: Sequence[int] | None) -> Grid:
    """The rubber's outside with the ticked pockets filled (None: all of them), and with what the coats fill of fur and small folds."""
    known = [pocket.number for pocket in pockets.pockets]
    return mirrored(filled(pockets.laid, pockets, known if numbers is None else [number for number in numbers if number in known], small=True))


def mirrored(grid: Grid) -> Grid:
    """The body and its mirror image in the board: its foot keeps the slope of its sides, which a flat underside would round off on a grid."""
    first = int(np.searchsorted(grid.origin[2] + grid.cell * np.arange(grid.distance.shape[2]), 0.0))
    level = grid.distance.copy()
    below = min(first, level.shape[2] - first)
    level[:, :, first - below:first] = level[:, :, first:first + below][:, :, ::-1]
    return Grid(grid.origin, grid.cell, finish(redistanced(level, grid.cell)))


def shell_grid(job: Job, pockets: Pockets, numbers: Sequence[int] | None) -> Work[Grid]:
    """What the shell is laid on: rubber and the ticked pockets filled (None: all of them), on the cells that sections are looked for on."""
    fine = with_paste(pockets, numbers)
    flange = float(job.layup.flange_width)
    extents = fine.cell * np.array(fine.distance.shape)
    wanted = job.split.fineness
    cell = float(wanted) if wanted is not None else max(float(np.cbrt(np.prod(extents + 2 * flange) / SHELL_CELLS)), fine.cell)
    yield Progress("laying the shell's grid", 0.0)
    pad = int(np.ceil((flange + 3 * cell) / fine.cell))
    wide = yield from padded(fine, pad)
    return resampled(wide, cell)


def grid_for(job: Job, folder: Path | None) -> Work[Grid]:
    """From the job's scan to what its shell is laid on."""
    body = yield from read_body(job, folder)
    found = yield from pockets_of(job, body)
    return (yield from shell_grid(job, found, pockets_named(job)))


def faces_near(found: Split, places: Sequence[Sequence[float]]) -> NDArray[np.int64]:
    """Faces of the shell within a finger's width (two cells) of places on it."""
    near = cKDTree(np.asarray(places, dtype=float).reshape(-1, 3)).query(found.surface.centres, distance_upper_bound=2 * found.grid.cell)[0]
    return np.flatnonzero(np.isfinite(near))


def resampled(grid: Grid, cell: float) -> Grid:
    """The same body on other cells, which again have the board between two of them."""
    low = grid.origin + grid.cell
    high = grid.origin + grid.cell * (np.array(grid.distance.shape) - 2)
    first, last = np.ceil(low / cell - 0.5), np.floor(high / cell - 0.5)
    axes = [(np.arange(a, b + 1) + 0.5) * cell for a, b in zip(first, last, strict=True)]
    places = np.stack(np.meshgrid(*[(axis - grid.origin[n]) / grid.cell for n, axis in enumerate(axes)], indexing="ij"))
    distance: NDArray[np.float32] = ndimage.map_coordinates(grid.distance, places, order=1, mode="nearest").astype(np.float32)
    return Grid(np.array([axis[0] for axis in axes]), cell, distance)


def shell_of(job: Job, grid: Grid, *, lines: Sequence[Sequence[Sequence[float]]] = (), avoided: Sequence[Sequence[float]] = (),
             executor: Executor | None = None, seconds: float = 5.0) -> Work[Shell]:
    """Sections for the job's draft, leftovers and number, and the order they come off in.

    `lines` are polylines along which seams are wanted, `avoided` places that they keep off by two cells [m].
    """
    said = job.split
    keep_off = [(np.asarray(place, dtype=float), 2 * grid.cell) for place in avoided]
    drawn = [np.asarray(line, dtype=float) for line in lines]
    found = yield from split(grid, least_draft=float(said.least_draft), leftover_share=float(said.leftover), sections=said.wanted, lines=drawn,
                             keep_off=keep_off, mirror=_mirror(grid), executor=executor, seconds=seconds)
    return (yield from taken_off(job, found))


def taken_off(job: Job, found: Split) -> Work[Shell]:
    """The order in which the sections of a split come off, the paste in its place."""
    order = yield from removal(found, found.grid, shell_thickness(job), float(job.layup.flange_width))
    return Shell(found, order)


def shell_thickness(job: Job) -> float:
    """A wall that clears whatever facings the job has: the core and FACINGS. [m]"""
    return float(job.layup.core_thickness) + FACINGS


def _mirror(grid: Grid) -> tuple[Points, Points] | None:
    """The upright plane through the middle along which the body is near its own mirror image, or None."""
    inside = grid.inside
    best: tuple[float, int, float] | None = None
    for axis in (0, 1):
        places = np.flatnonzero(inside.any(axis=tuple(other for other in range(3) if other != axis)))
        part = np.take(inside, range(places[0], places[-1] + 1), axis=axis)
        alike = 1 - int(np.count_nonzero(part ^ np.flip(part, axis=axis))) / (2 * max(int(np.count_nonzero(part)), 1))
        middle = float(grid.origin[axis] + grid.cell * (places[0] + places[-1]) / 2)
        if best is None or alike > best[0]:
            best = (alike, axis, middle)
    if best is None or best[0] < MIRROR_ALIKE:
        return None
    point, normal = np.zeros(3), np.zeros(3)
    point[best[1]], normal[best[1]] = best[2], 1.0
    return point, normal


#: share of the body that must lie on its own mirror image before seams are drawn to that plane: our judgement
MIRROR_ALIKE = 0.85


def pull_of(azimuth: float, elevation: float) -> Points:
    """A unit vector from its angle round from the front (which faces -y; a right angle further is +x, the right) and above level [rad]."""
    return np.array([sin(azimuth) * cos(elevation), -cos(azimuth) * cos(elevation), sin(elevation)])


def angles_of(pull: Sequence[float]) -> tuple[float, float]:
    """The two angles of `pull_of`, azimuth from 0 up to a whole turn [rad]."""
    x, y, z = (float(part) for part in pull)
    return float(np.arctan2(x, -y) % (2 * np.pi)), float(np.arcsin(np.clip(z, -1, 1)))


