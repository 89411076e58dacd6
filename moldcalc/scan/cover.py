"""The fewest sections: as few pulls as cover the outside, with the bound that is proven, and what one more or fewer would cover."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import asin, pi, sin
from time import perf_counter

import numpy as np
from numpy.typing import NDArray

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Points
from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.proof import HAIR, Floats, can_cover, improve, pairs, upper

MOST = 40
"""The most sections looked for; a shell in more pieces is another problem."""

STEEPER = 0.5 * pi / 180
"""How finely the second stage looks for a larger worst draft. [rad]"""

THIN, TRIES = 1500, 6
"""In the second stage: of how many places each choice is sought, before it is checked on all, and from how many beginnings."""


@dataclass(frozen=True)
class Cover:
    """Pulls that together cover the places of an outside.

    `chosen` are rows of the table of directions. No choice among these directions covers the allowed share with fewer than `bound`; `proven`
    says that `chosen` has just so many. `covered` is the covered share of the area that any of the directions reaches, `unreachable` the share of the
    whole area that none reaches, `draft` the least draft that still covers the share asked for [rad].
    """

    chosen: tuple[int, ...]
    bound: int
    proven: bool
    covered: float
    unreachable: float
    draft: float


@dataclass(frozen=True)
class Point:
    """One point of the trade: the largest share of the reachable area found for so many sections, and a share that none exceeds."""

    sections: int
    chosen: tuple[int, ...]
    covered: float
    at_most: float

    @property
    def proven(self) -> bool:
        """Whether no choice of so many covers more."""
        return self.at_most <= self.covered + 2 * HAIR


def fewest(
    seen: NDArray[np.bool_], areas: NDArray[np.float64], *, leftover_share: float, slopes: NDArray[np.float32] | None = None,
    rounded: NDArray[np.bool_] | None = None, least_draft: float = 0.0, directions: Points | None = None,
    forced: Sequence[int] = (), excluded: Sequence[int] = (),
    sections: int | None = None, prove: bool = True, seconds: float = 5.0,
) -> Work[Cover]:
    """The fewest directions along which all but a share of the reachable area can leave.

    Parameters
    ----------
    seen
        Which places (n) can leave along which directions (d), (d, n).
    areas
        The places' areas. [m²]
    leftover_share
        The share of the reachable area that may be left over, 0 or more and below 1.
    slopes
        Normals times directions, (d, n); when given, among covers of the same number that with the largest worst draft is taken, and among those the
        one most alike on both sides of an axis plane (`directions` needed).
    rounded
        Places on sharp edges, which the grid rounds off, (n,): any draft above the least will do there.
    least_draft
        The draft that `seen` was made with. [rad]
    directions
        Unit vectors, (d, 3), for telling which pulls mirror each other.
    forced, excluded
        Directions that must be, and must not be, among them.
    sections
        How many to use instead of the fewest; more cover more. None for the fewest.
    prove
        Whether to prove that fewer can't do; without it the bound is the number of forced directions, at least 1.
    seconds
        The longest time for all of it. [s]

    Returns
    -------
    Cover

    Raises
    ------
    EntryError
        No place can leave along any direction; a share outside its range; a direction that isn't in the table.

    Notes
    -----
    Range: the bound holds for the directions and places given, which are samples. Source: weighted set cover as an exact search, see `proof`.
    """
    _check(seen, leftover_share, forced, sections)
    until = perf_counter() + seconds
    reachable = np.asarray(seen.any(axis=0))
    rows, sets, weights = _prepared(seen, areas, reachable, excluded, forced)
    kept = _rows_of(rows, forced)
    target = 1.0 - leftover_share
    hard, heavy = _hardest(sets) if leftover_share == 0 else (sets, weights)
    chosen, bound = yield from _few(hard, heavy, target, kept, perf_counter() + 0.7 * seconds, prove)
    if sections is not None and sections != len(chosen):
        yield Progress("the best of so many sections", 0.6)
        chosen = _best_of(sets, weights, max(sections, len(kept)), kept)
    draft = least_draft
    if slopes is not None and chosen:
        at_least = min(target, _held(sets, weights, chosen))
        steep = slopes[np.ix_(rows, np.flatnonzero(reachable))]
        if rounded is not None:
            steep = np.where(rounded[reachable], np.float32(1), steep)
        way = None if directions is None else directions[rows]
        chosen, draft = yield from _steepest(sets, weights, steep, chosen, kept, at_least, least_draft, way, until)
    covered = _held(sets, weights, chosen)
    whole = float(areas.sum())
    return Cover(
        tuple(int(rows[i]) for i in chosen), bound, len(chosen) == bound, covered,
        1 - float(areas[reachable].sum()) / whole, draft,
    )


def _check(seen: NDArray[np.bool_], leftover_share: float, forced: Sequence[int], sections: int | None) -> None:
    if not 0 <= leftover_share < 1:
        raise EntryError(Fault("the share left over", f"{leftover_share:g}", "it must be 0 or more and below 1"))
    if not seen.any():
        raise EntryError(Fault("the outside", "without a place that can leave along any direction", "ask for less draft or fill more with paste"))
    if any(not 0 <= i < len(seen) for i in forced):
        raise EntryError(Fault("a named pull", "not among the directions", "it must be one of them"))
    if sections is not None and not 1 <= sections <= MOST:
        raise EntryError(Fault("the number of sections", str(sections), f"it must be from 1 to {MOST}"))


def _prepared(
    seen: NDArray[np.bool_], areas: NDArray[np.float64], reachable: NDArray[np.bool_], excluded: Sequence[int], forced: Sequence[int]
) -> tuple[NDArray[np.intp], Floats, Floats]:
    """Directions that are worth a look, and the places that can leave, as single-precision tables; weights add up to 1."""
    rows = np.setdiff1d(np.flatnonzero(seen.any(axis=1)), list(excluded))
    rows = np.union1d(rows, np.array(list(forced), dtype=np.intp))
    sets = np.ascontiguousarray(seen[np.ix_(rows, np.flatnonzero(reachable))], dtype=np.float32)
    weights = areas[reachable] / areas[reachable].sum()
    return rows, sets, weights.astype(np.float32)


def _hardest(sets: Floats) -> tuple[Floats, Floats]:
    """Of all places only those that are covered last: when they are, every other is too. For covers that leave nothing over."""
    seen = sets > 0
    order = np.argsort(seen.sum(axis=0), kind="stable")
    open_, kept = np.ones(len(order), dtype=np.bool_), []
    for place in order:
        if open_[place]:
            kept.append(place)
            open_ &= ~seen[seen[:, place]].all(axis=0)
    return np.ascontiguousarray(sets[:, kept]), np.full(len(kept), 1 / len(kept), dtype=np.float32)


def _rows_of(rows: NDArray[np.intp], forced: Sequence[int]) -> tuple[int, ...]:
    """Where the forced directions are among those worth a look."""
    return tuple(int(np.flatnonzero(rows == i)[0]) for i in dict.fromkeys(forced))


def _best_of(sets: Floats, weights: Floats, many: int, kept: tuple[int, ...], tries: int = 12) -> tuple[int, ...]:
    """The best choice of so many that a dozen random beginnings lead to."""
    return improve(sets, weights, many, tries, np.random.default_rng(many), kept)[0][1]


def _held(sets: Floats, weights: Floats, chosen: Sequence[int]) -> float:
    """The weight that a choice covers."""
    return float(weights[sets[list(chosen)].any(axis=0)].sum(dtype=np.float64))


def _enough(sets: Floats, weights: Floats, target: float, kept: tuple[int, ...]) -> tuple[int, ...]:
    """Take the direction that adds most until the target is covered."""
    chosen = list(kept)
    left = weights * ~sets[chosen].any(axis=0) if chosen else weights.copy()
    while _held(sets, weights, chosen) < target - HAIR or not chosen:
        if len(chosen) >= max(MOST, len(kept)):
            raise EntryError(Fault("the share left over", "too small", f"more than {MOST} sections would be needed; let paste fill more"))
        best = int((sets @ left).argmax())
        chosen.append(best)
        left = left * (1 - sets[best])
    return tuple(chosen)


def _few(
    sets: Floats, weights: Floats, target: float, kept: tuple[int, ...], until: float, prove: bool
) -> Work[tuple[tuple[int, ...], int]]:
    """A choice with few sets that reaches the target, and how many every choice needs at the least."""
    chosen = _enough(sets, weights, target, kept)
    while len(chosen) > max(len(kept), 1):
        yield Progress("the fewest sections", 0.1)
        fewer = _best_of(sets, weights, len(chosen) - 1, kept, 6)
        if _held(sets, weights, fewer) < target - HAIR:
            break
        chosen = fewer
    if not prove:
        return chosen, max(len(kept), 1)
    bound = len(chosen)
    while bound > max(len(kept), 1):
        verdict = yield from can_cover(sets, weights, bound - 1, target, until, kept)
        if verdict.chosen is not None:
            chosen, bound = tuple(sorted(set(verdict.chosen) | set(kept))), bound - 1
        elif verdict.none:
            break
        else:
            # out of time: what the first look at every smaller number rules out is still proven
            lowest = _first_bound(sets, weights, bound - 1, target, kept)
            return chosen, lowest
    return chosen, min(bound, len(chosen))


def _first_bound(sets: Floats, weights: Floats, most: int, target: float, kept: tuple[int, ...]) -> int:
    """The least number that a single bound, without a search, does not rule out."""
    for many in range(max(len(kept), 1), most + 1):
        if upper(sets, weights, many, weights * np.float32(0.5), 200, target - HAIR)[0] >= target - HAIR:
            return many
    return most + 1


def _steepest(
    sets: Floats, weights: Floats, slopes: NDArray[np.float32], chosen: tuple[int, ...], kept: tuple[int, ...], target: float,
    least_draft: float, directions: Points | None, until: float,
) -> Work[tuple[tuple[int, ...], float]]:
    """Among choices of the same number, one that still covers the target when more draft is asked for; then the one that mirrors itself most."""
    low, high = 0, max(int((asin(min(float(slopes.max()), 1.0)) - least_draft) / STEEPER), 0)
    best, draft = [(0.0, chosen)], least_draft
    thin = np.arange(0, len(weights), max(len(weights) // THIN, 1))
    light = weights[thin] * np.float32(1 / weights[thin].sum())
    while low < high and perf_counter() < until:
        middle = (low + high + 1) // 2
        asked = least_draft + middle * STEEPER
        part = sets * (slopes >= np.float32(sin(asked) - 1e-6))
        few, rng = np.ascontiguousarray(part[:, thin]), np.random.default_rng(middle)
        found = _all_small(part, weights, len(chosen), kept, target)
        for _ in range(TRIES if len(chosen) > 2 else 0):
            yield Progress("the largest worst draft", 0.8)
            if perf_counter() > until:
                break
            tried = improve(few, light, len(chosen), 1, rng, kept)[0][1]
            covered = float(weights[part[list(tried)].any(axis=0)].sum(dtype=np.float64))
            if covered >= target - HAIR:
                found.append((covered, tried))
        if found:
            low, best, draft = middle, found, asked
        else:
            high = middle - 1
    if directions is None:
        return best[0][1], draft
    if low == 0:
        best = [*_all_small(sets, weights, len(chosen), kept, target), *best]
    return max(best, key=lambda pair: (_mirrored(directions[list(pair[1])]), pair[0]))[1], draft


def _all_small(sets: Floats, weights: Floats, many: int, kept: tuple[int, ...], target: float) -> list[tuple[float, tuple[int, ...]]]:
    """Every choice of one or two sets that reaches the target; none for more."""
    if many > 2:
        return []
    value = pairs(sets, weights) if many == 2 else np.diag(sets @ weights)
    one, two = np.nonzero(np.triu(value >= target - HAIR, 0 if many == 1 else 1))
    found = [(float(value[i, j]), tuple(sorted({int(i), int(j)}))) for i, j in zip(one, two, strict=True)]
    return [pair for pair in found if set(kept) <= set(pair[1])]


def _mirrored(pulls: Points) -> int:
    """How many of the pulls have their mirror image among them, added up over the planes x = 0, y = 0 and z = 0."""
    count = 0
    for axis in range(3):
        image = pulls.copy()
        image[:, axis] *= -1
        count += int(((pulls @ image.T).max(axis=1) > 1 - 1e-6).sum())
    return count


def trade(
    seen: NDArray[np.bool_], areas: NDArray[np.float64], counts: Sequence[int], *, forced: Sequence[int] = (), excluded: Sequence[int] = (),
    seconds: float = 5.0,
) -> Work[tuple[Point, ...]]:
    """For each number of sections the largest share of the reachable area they can cover, proven or with what is open.

    Parameters
    ----------
    seen, areas, forced, excluded
        As for `fewest`.
    counts
        The numbers of sections asked about.
    seconds
        The longest time for all of it; what one number doesn't need is left to the next. [s]

    Returns
    -------
    A point for each number.
    """
    _check(seen, 0.0, forced, None)
    until = perf_counter() + seconds
    rows, sets, weights = _prepared(seen, areas, np.asarray(seen.any(axis=0)), excluded, forced)
    kept = _rows_of(rows, forced)
    points = []
    for done, many in enumerate(counts):
        yield Progress(f"what {many} sections cover", done / len(counts))
        now = perf_counter()
        share = max(until - now, 0.0) / (len(counts) - done)
        chosen, at_most = yield from _largest(sets, weights, max(many, len(kept)), kept, now + share)
        covered = _held(sets, weights, chosen)
        points.append(Point(many, tuple(int(rows[i]) for i in chosen), covered, max(at_most, covered)))
    return tuple(points)


def _largest(
    sets: Floats, weights: Floats, many: int, kept: tuple[int, ...], until: float
) -> Work[tuple[tuple[int, ...], float]]:
    """The choice of so many that covers most, bettered until it is proven that none covers more or the time is out."""
    chosen = _best_of(sets, weights, many, kept)
    least = float(weights.min())
    while True:
        covered = _held(sets, weights, chosen)
        if covered >= 1 - HAIR:
            return chosen, 1.0
        verdict = yield from can_cover(sets, weights, many, covered + max(least / 2, 4 * HAIR), until, kept)
        if verdict.none:
            return chosen, covered
        if verdict.chosen is None:
            return chosen, min(upper(sets, weights, many, weights * np.float32(0.5), 300, covered)[0], 1.0)
        chosen = verdict.chosen
