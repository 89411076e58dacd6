"""Where the shell comes apart: the fewest sections, which way each leaves, where they meet, and what paste must fill."""

from collections.abc import Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, field, replace
from math import pi

import numpy as np
from numpy.typing import NDArray

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Grid, Points
from moldcalc.scan.cover import Cover, fewest, trade
from moldcalc.scan.directions import directions, round_about, unit
from moldcalc.scan.outside import Surface, outside
from moldcalc.scan.progress import Progress, Work, finish
from moldcalc.scan.reach import Field, field_of, reach, reach_of, sample
from moldcalc.scan.regions import Wishes, border_costs, face_costs, made_whole, parted, rounded_off
from moldcalc.scan.sections import Search, SectionFound, Split, described
from moldcalc.scan.shadow import filled, nearest_faces, shadow
from moldcalc.scan.stretches import Stretches, held_to, largest_of, nearest_places, next_to, stretches

__all__ = ["Search", "SectionFound", "Split", "TradePoint", "split", "trade_of", "with_faces", "with_pull"]

PLACES = 6000
"""How many places of the outside are asked for their ways out while the sections are looked for."""

SMALLEST = 0.01
"""Share of the area below which an island is handed to its neighbours even when paste must fill it."""

AGAIN, CLEARLY = 2, 0.02
"""How often whole sections may look for a pull of their own, and the share of a section that must gain by it."""

ROUNDS = 3
"""How often the paths are tried again with the paste in place."""


def split(
    grid: Grid, *, least_draft: float, leftover_share: float, sections: int | None = None, pulls: Sequence[Points] = (), lines: Sequence[Points] = (),
    keep_off: Sequence[tuple[Points, float]] = (), mirror: tuple[Points, Points] | None = None, executor: Executor | None = None,
    seconds: float = 5.0, board: bool = True, smallest: float = SMALLEST,
) -> Work[Split]:
    """Into how many sections the shell divides, which way each comes off, and what paste must fill.

    Parameters
    ----------
    grid
        The outside of rubber and paste as signed distance on cells. [m]
    least_draft
        The angle a face must at least make with its section's pull. [rad]
    leftover_share
        The share of the reachable area that more paste may fill.
    sections
        How many pulls to use; None for the fewest.
    pulls
        Directions that the maker names, (3,) each; they are among the pulls.
    lines, keep_off, mirror
        Where borders are wanted and where not, see `Wishes`. [m]
    executor
        Maps blocks of directions when given.
    seconds
        The longest time for the proof of the fewest. [s]
    board
        Whether the body stands on a board at z = 0, which is in the way too.
    smallest
        Share of the area below which an island is never a section of its own.

    Returns
    -------
    Split

    Raises
    ------
    EntryError
        A draft outside 0 to 60 degrees; a share outside its range; a grid without a body; nothing that can leave at all.

    Notes
    -----
    Range: shapes whose details are two cells and larger; places are a sample of some thousand, directions a few hundred and a dozen round each
    one chosen. A section is one piece, so what is chosen are connected stretches that leave along a direction each; the bound holds for those.
    Source: see the modules of the chain.
    """
    if not 0 <= least_draft <= pi / 3:
        raise EntryError(Fault("the least draft", f"{np.degrees(least_draft):.3g} degrees", "it must be from 0 to 60 degrees"))
    yield Progress("the outside as triangles", 0.0)
    surface, body = outside(grid, board=board), field_of(grid, board=board)
    picked = sample(surface.centres, surface.areas, PLACES)
    areas = surface.areas if len(picked) == len(surface.areas) else np.full(len(picked), surface.area / len(picked))
    named = np.array([unit(np.asarray(pull)) for pull in pulls]).reshape(-1, 3)
    table = np.concatenate([named, directions()])
    centres, normals = surface.centres[picked], surface.normals[picked]
    seen = yield from reach(centres, normals, body, table, least_draft, executor)
    owner = nearest_places(surface, picked)
    beside = next_to(surface, owner)
    search = Search(table, seen, stretches(seen, beside, areas), owner, picked, areas, tuple(range(len(named))), least_draft, leftover_share,
                    smallest, board, Wishes(lines, keep_off, mirror))
    found = yield from _covered(search, None, sections, 0.3 * seconds)
    about = set(search.found.of[list(found.chosen)].tolist())
    if sections is None and len(found.chosen) > max(len(named), 1):
        # one fewer may do once its pulls are finer
        fewer = yield from _covered(search, None, len(found.chosen) - 1, 0.3 * seconds)
        about |= set(search.found.of[list(fewer.chosen)].tolist())
    more = np.concatenate([round_about(table[i]) for i in sorted(about)])
    seen_more = yield from reach(centres, normals, body, more, least_draft, executor)
    finer = stretches(seen_more, beside, areas)
    search = replace(search, table=np.concatenate([table, more]), seen=np.concatenate([seen, seen_more]),
                     found=Stretches(np.concatenate([search.found.rows, finer.rows]), np.concatenate([search.found.of, finer.of + len(table)])))
    found = yield from _covered(search, (search.table @ normals.T).astype(np.float32), sections, seconds, rounded_off(surface)[picked])
    made = yield from _parted(surface, grid, body, search, found)
    return made


def _covered(search: Search, slopes: NDArray[np.float32] | None, sections: int | None, seconds: float,
             rounded: NDArray[np.bool_] | None = None) -> Work[Cover]:
    """The fewest stretches for what was asked."""
    cover = yield from fewest(
        search.found.rows, search.areas, leftover_share=search.leftover_share, slopes=None if slopes is None else slopes[search.found.of],
        rounded=rounded, least_draft=search.least_draft, directions=search.table[search.found.of],
        forced=largest_of(search.found, search.forced, search.areas), sections=sections, prove=slopes is not None, seconds=seconds,
    )
    return cover


def _parted(surface: Surface, grid: Grid, body: Field, search: Search, cover: Cover) -> Work[Split]:
    """From stretches to whole sections with their paste."""
    pulls = search.table[search.found.of[list(cover.chosen)]]
    wanted = search.found.rows[list(cover.chosen)][:, search.owner]
    borders = border_costs(surface, search.wishes)
    allowed = (search.leftover_share * (1 - cover.unreachable) + cover.unreachable) * surface.area
    section: NDArray[np.int64] | None = None
    for _ in range(1 + AGAIN):
        seen = yield from reach(surface.centres, surface.normals, body, pulls, search.least_draft)
        seen = np.array([held_to(surface, free, stretch) for free, stretch in zip(seen, wanted, strict=True)])
        costs = face_costs(surface, seen, pulls @ surface.normals.T)
        labels = yield from parted(surface, costs, borders, begun=section)
        section, pull = made_whole(surface, labels, seen, costs, allowed, search.smallest * surface.area)
        pulls = pulls[pull]
        better = _pulled_better(search, section, pulls)
        if (better == pulls).all():
            break
        pulls, wanted = better, section[None] == np.arange(len(better))[:, None]
    assert section is not None
    homes = section + 1
    free = _leaving(surface, body, homes, pulls, search.least_draft)
    made = yield from _filled(surface, grid, body, search, cover, homes, pulls, free)
    return made


def _leaving(surface: Surface, body: Field, homes: NDArray[np.int64], pulls: Points, least_draft: float) -> NDArray[np.bool_]:
    """Which faces leave along their own section's pull."""
    free = np.zeros(len(homes), dtype=np.bool_)
    for number, pull in enumerate(pulls, start=1):
        faces = np.flatnonzero(homes == number)
        free[faces] = reach_of(body, surface.centres[faces], surface.normals[faces], pull[None], least_draft)[0]
    return free


def _pulled_better(search: Search, section: NDArray[np.int64], pulls: Points) -> Points:
    """For each whole section the direction along which most of it leaves, when that is clearly more than along its own; named pulls stay."""
    better = pulls.copy()
    there = section[search.picked]
    for number, pull in enumerate(pulls):
        inside = there == number
        leaves = search.seen[:, inside] @ search.areas[inside]
        own = np.flatnonzero((search.table == pull).all(axis=1))
        if not len(own) or own[0] in search.forced:
            continue
        best = int(leaves.argmax())
        if leaves[best] > leaves[own[0]] + CLEARLY * search.areas[inside].sum():
            better[number] = search.table[best]
    return better


def _filled(
    surface: Surface, grid: Grid, body: Field, search: Search, cover: Cover, homes: NDArray[np.int64], pulls: Points, free: NDArray[np.bool_]
) -> Work[Split]:
    """Lay paste on what can't leave, and try every path again with the paste in the way."""
    nearest = nearest_faces(body, surface)
    for again in range(ROUNDS):
        yield Progress("paste for what is left over", 0.8 + 0.2 * again / ROUNDS)
        paste, volumes = _paste(surface, grid, body, nearest, search.least_draft, homes, pulls, free)
        blocked = _still_free(surface, grid, search, paste, homes, pulls, free)
        if (blocked == free).all():
            break
        free = blocked
    labels = np.where(free, homes, -1)
    found = described(surface, homes, labels, pulls, volumes, search.board)
    return Split(surface, labels, homes, found, cover, cover.unreachable, paste, grid, body, search)


def _paste(
    surface: Surface, grid: Grid, body: Field, nearest: NDArray[np.int64], least_draft: float, homes: NDArray[np.int64], pulls: Points,
    free: NDArray[np.bool_],
) -> tuple[NDArray[np.float32], list[float]]:
    """The share of each cell to be filled, and the volume for each section."""
    paste = np.zeros(len(body.rows), dtype=np.float32)
    volumes = []
    for number, pull in enumerate(pulls, start=1):
        cells, share = shadow(body, surface, nearest, ~free & (homes == number), pull, least_draft)
        paste[cells] = np.maximum(paste[cells], share)
        volumes.append(float(share.sum(dtype=np.float64)) * grid.cell**3)
    return paste.reshape(grid.distance.shape), volumes


def _still_free(
    surface: Surface, grid: Grid, search: Search, paste: NDArray[np.float32], homes: NDArray[np.int64], pulls: Points, free: NDArray[np.bool_]
) -> NDArray[np.bool_]:
    """Which faces still leave when the paste, less one cell that the grid can't tell, is in the way too."""
    if not (paste >= 0.5).any():
        return free
    body = field_of(filled(grid, paste, grid.cell), board=search.board)
    return free & _leaving(surface, body, homes, pulls, search.least_draft)


def with_pull(given: Split, number: int, pull: Points) -> Split:
    """The same sections with one pull turned by hand: what locks now, how much of it, and the paste it would need.

    Raises
    ------
    EntryError
        There is no section of that number; a pull without a length.
    """
    _known(given, number)
    pulls = np.array([section.pull for section in given.sections])
    pulls[number - 1] = unit(np.asarray(pull))
    return _tried(given, given.homes, pulls)


def with_faces(given: Split, faces: NDArray[np.int64], number: int) -> Split:
    """The same pulls with a border moved by hand: these faces now belong to that section.

    Raises
    ------
    EntryError
        There is no section of that number, or no such face; a section would be left without a face.
    """
    _known(given, number)
    chosen = np.asarray(faces, dtype=np.int64)
    if len(chosen) and (chosen.min() < 0 or chosen.max() >= len(given.homes)):
        raise EntryError(Fault("a face", "not on the outside", f"faces are numbered from 0 to {len(given.homes) - 1}"))
    homes = given.homes.copy()
    homes[chosen] = number
    bare = [section.number for section in given.sections if not (homes == section.number).any()]
    if bare:
        raise EntryError(Fault(f"section {bare[0]}", "left without a face", "leave it at least one, or ask for fewer sections"))
    return _tried(given, homes, np.array([section.pull for section in given.sections]))


def _known(given: Split, number: int) -> None:
    if not 1 <= number <= len(given.sections):
        raise EntryError(Fault("the section", str(number), f"there are sections 1 to {len(given.sections)}"))


def _tried(given: Split, homes: NDArray[np.int64], pulls: Points) -> Split:
    """Every section's faces tried along its pull again."""
    free = _leaving(given.surface, given.body, homes, pulls, given.search.least_draft)
    return finish(_filled(given.surface, given.grid, given.body, given.search, given.cover, homes, pulls, free))


@dataclass(frozen=True)
class TradePoint:
    """One point of the trade between paste and sections.

    `asked` is how many stretches were chosen and `sections` what they make, borders short and each in one piece; `leftover_share` is the least share
    of the reachable area that so many leave over, as found, and `leftover_at_least` what none can go below. `split` has the sections with their
    paste and joints.
    """

    asked: int
    sections: int
    leftover_share: float
    leftover_at_least: float
    proven: bool
    split: Split = field(repr=False)

    @property
    def fill_volume(self) -> float:
        """Paste. [m³]"""
        return self.split.fill_volume

    @property
    def joint(self) -> float:
        """Length of all joints. [m]"""
        return self.split.joint


def trade_of(given: Split, *, more: int = 6, seconds: float = 5.0) -> Work[tuple[TradePoint, ...]]:
    """Paste against sections: for each number of sections from the bound on, what they leave over, the paste for it and the joints.

    Parameters
    ----------
    given
        A split; its directions and places are used again.
    more
        How many numbers beyond the bound.
    seconds
        The longest time for the search of all numbers. [s]

    Returns
    -------
    A point for each number.
    """
    search = given.search
    counts = range(given.bound, given.bound + more + 1)
    forced = largest_of(search.found, search.forced, search.areas)
    points = yield from trade(search.found.rows, search.areas, counts, forced=forced, seconds=seconds)
    made = []
    for point in points:
        cover = Cover(point.chosen, given.bound, point.proven, point.covered, given.cover.unreachable, search.least_draft)
        asked = replace(search, leftover_share=min(max(1 - point.covered, 0.0), 0.999))
        parts = yield from _parted(given.surface, given.grid, given.body, asked, cover)
        made.append(TradePoint(point.sections, len(parts.sections), 1 - point.covered, 1 - point.at_most, point.proven, parts))
    return tuple(made)
