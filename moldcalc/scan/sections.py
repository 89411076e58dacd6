"""What a split of the shell consists of: its sections, their joints, drafts and paste."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import asin

import numpy as np
from numpy.typing import NDArray

from moldcalc.scan.body import Grid, Points
from moldcalc.scan.cover import Cover
from moldcalc.scan.outside import Surface
from moldcalc.scan.reach import Field
from moldcalc.scan.regions import Wishes, joints, smoothed
from moldcalc.scan.stretches import Stretches


@dataclass(frozen=True)
class SectionFound:
    """One section of the shell. Lengths in m, areas in m², volumes in m³, angles in rad.

    `least_draft` is the least among the faces that leave as they are, `least_draft_at` where; `lowest_draft` and `lowest_draft_at` say the same of
    all of its faces. `leftover_area` can't leave along the pull until `fill_volume` of paste (between `fill_low` and
    `fill_high`) lies on it. `touches` has the length of the joint with each other section by its number, `foot` the length along the board.
    """

    number: int
    pull: tuple[float, float, float]
    area: float
    least_draft: float
    least_draft_at: tuple[float, float, float]
    lowest_draft: float
    lowest_draft_at: tuple[float, float, float]
    leftover_area: float
    fill_volume: float
    fill_low: float
    fill_high: float
    touches: dict[int, float]
    foot: float
    centroid: tuple[float, float, float]

    @property
    def joint(self) -> float:
        """Length of all its joints. [m]"""
        return sum(self.touches.values())

    def flange_area(self, width: float) -> float:
        """Area of its flanges along the joints at a width. [m²]"""
        return self.joint * width


@dataclass(frozen=True)
class Search:
    """What was asked and tried: the table of directions, which sampled places can leave along which, the connected stretches of those, the nearest
    place of each face, and the rules of the search."""

    table: Points
    seen: NDArray[np.bool_] = field(repr=False)
    found: Stretches = field(repr=False)
    owner: NDArray[np.int64] = field(repr=False)
    picked: NDArray[np.int64] = field(repr=False)
    areas: NDArray[np.float64] = field(repr=False)
    forced: tuple[int, ...]
    least_draft: float
    leftover_share: float
    smallest: float
    board: bool
    wishes: Wishes


@dataclass(frozen=True)
class Split:
    """A whole outside parted into sections.

    `homes` (m,) is the number of the section that lies over each face, from 1; `labels` the same, with -1 where that section can't leave and paste
    must fill. `paste` is the share of each cell of the grid to be filled. For the directions tried no choice of fewer than `bound` sections covers
    the share asked for; `proven` says that so few were found. `cover_share` is the share of the area that leaves as it is, `leftover_share`
    what paste must fill, `unreachable_share` what no direction tried reaches (an estimate from the sampled places).
    """

    surface: Surface = field(repr=False)
    labels: NDArray[np.int64] = field(repr=False)
    homes: NDArray[np.int64] = field(repr=False)
    sections: tuple[SectionFound, ...]
    cover: Cover
    unreachable_share: float
    paste: NDArray[np.float32] = field(repr=False)
    grid: Grid = field(repr=False)
    body: Field = field(repr=False)
    search: Search = field(repr=False)

    @property
    def bound(self) -> int:
        """The fewest pulls that any choice needs."""
        return self.cover.bound

    @property
    def proven(self) -> bool:
        """Whether the pulls are as few as can be."""
        return self.cover.proven

    @property
    def cover_share(self) -> float:
        """Share of the area that leaves as it is."""
        return float(self.surface.areas[self.labels > 0].sum()) / self.surface.area

    @property
    def leftover_share(self) -> float:
        """Share of the area that paste must fill."""
        return 1 - self.cover_share

    @property
    def fill_volume(self) -> float:
        """All of the paste. [m³]"""
        return sum(section.fill_volume for section in self.sections)

    @property
    def joint(self) -> float:
        """Length of all joints. [m]"""
        return sum(section.joint for section in self.sections) / 2

    def locked(self, number: int) -> NDArray[np.int64]:
        """The faces of a section that can't leave along its pull."""
        return np.flatnonzero((self.homes == number) & (self.labels < 0))


def described(
    surface: Surface, homes: NDArray[np.int64], labels: NDArray[np.int64], pulls: Points, volumes: Sequence[float], board: bool
) -> tuple[SectionFound, ...]:
    """What is worth knowing of each section."""
    borders = joints(surface, homes)
    feet = _feet(surface, homes, len(pulls), board)
    found = []
    for number, pull in enumerate(pulls, start=1):
        faces = np.flatnonzero(homes == number)
        touches = {(b if a == number else a): length for (a, b), length in borders.items() if number in (a, b)}
        found.append(_one(surface, faces, labels, number, pull, volumes[number - 1], touches, feet[number - 1]))
    return tuple(found)


def _one(
    surface: Surface, faces: NDArray[np.int64], labels: NDArray[np.int64], number: int, pull: Points, volume: float, touches: dict[int, float],
    foot: float,
) -> SectionFound:
    slopes = surface.normals[faces] @ pull
    free = labels[faces] > 0
    lowest = int(slopes.argmin())
    least = int(np.where(free, slopes, 2.0).argmin()) if free.any() else lowest
    areas = surface.areas[faces]
    left = float(areas[~free].sum())
    return SectionFound(
        number, _three(pull), float(areas.sum()), _draft(slopes[least]), _three(surface.centres[faces[least]]), _draft(slopes[lowest]),
        _three(surface.centres[faces[lowest]]), left, volume, max(volume - surface.cell * left, 0.0), volume + surface.cell * left, touches, foot,
        _three((surface.centres[faces] * areas[:, None]).sum(axis=0) / areas.sum()),
    )


def _three(point: Points) -> tuple[float, float, float]:
    x, y, z = (float(part) for part in point)
    return x, y, z


def _draft(slope: float) -> float:
    return asin(min(max(float(slope), -1.0), 1.0))


def _feet(surface: Surface, homes: NDArray[np.int64], many: int, board: bool) -> list[float]:
    """How long each section's rim on the board is."""
    rim = surface.rim[surface.vertices[surface.rim][:, :, 2].max(axis=1) < 2 * surface.cell] if board else surface.rim[:0]
    if not len(rim):
        return [0.0] * many
    # seen from above and smoothed: the rim is a zigzag of whole triangles
    ends = smoothed(surface.vertices * [1, 1, 0], rim)[rim]
    lengths = np.linalg.norm(ends[:, 0] - ends[:, 1], axis=1)
    key = np.sort(np.concatenate([surface.faces[:, [0, 1]], surface.faces[:, [1, 2]], surface.faces[:, [2, 0]]]), axis=1)
    wide = np.int64(len(surface.vertices))
    flat = key[:, 0] * wide + key[:, 1]
    order = np.argsort(flat, kind="stable")
    at = order[np.searchsorted(flat[order], rim[:, 0] * wide + rim[:, 1])]
    owner = homes[at % len(surface.faces)]
    return np.bincount(owner, lengths, many + 1)[1:].tolist()
