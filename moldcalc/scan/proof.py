"""Choosing a few sets that cover the most weight: a quick search, and a proof that no choice does better."""

from collections.abc import Sequence
from dataclasses import dataclass
from time import perf_counter

import numpy as np
from numpy.typing import NDArray

from moldcalc.scan.progress import Progress, Work

Floats = NDArray[np.float32]
Numbers = NDArray[np.intp]

HAIR = 1e-6
"""What two sums of single-precision weights that add up to 1 may differ by through rounding."""

MOMENTUM = np.float32(0.9)
STALLED, SHORTER = 8, 0.7
"""How the prices move: the share of the last way that is kept; after so many steps without gain the next are so much shorter."""


@dataclass(frozen=True)
class Verdict:
    """Whether so many sets can cover a target: `chosen` if they can, `none` if it is proven that they can't, else neither."""

    chosen: tuple[int, ...] | None
    none: bool


def improve(
    sets: Floats, weights: Floats, many: int, tries: int, rng: np.random.Generator, kept: Sequence[int] = ()
) -> list[tuple[float, tuple[int, ...]]]:
    """Choices of so many sets that no exchange of one set betters, from random beginnings, best first.

    `sets` (d, n) is 1 where a set holds a point; `kept` are sets that stay. Each answer is the covered weight and the sets.
    """
    found = {}
    for _ in range(tries):
        begun = list(kept) + [int(i) for i in rng.choice(len(sets), max(many - len(kept), 0), replace=True)]
        chosen = _exchanged(sets, weights, begun, len(kept))
        found[tuple(sorted(chosen))] = float(weights[sets[chosen].any(axis=0)].sum(dtype=np.float64)) if chosen else 0.0
    return sorted(((weight, chosen) for chosen, weight in found.items()), key=lambda pair: (-pair[0], pair[1]))


def _exchanged(sets: Floats, weights: Floats, chosen: list[int], kept: int) -> list[int]:
    """The best single exchange again and again until there is none."""
    now = -1.0
    for _ in range(200):
        count = sets[chosen].sum(axis=0) if chosen else np.zeros(len(weights), dtype=np.float32)
        others = count[None] - sets[chosen[kept:]] if len(chosen) > kept else np.zeros((0, len(weights)), dtype=np.float32)
        if not len(others):
            break
        open_ = np.where(others > 0, np.float32(0), weights[None])
        value = sets @ open_.T + (weights.sum() - open_.sum(axis=1))[None]
        best, place = np.unravel_index(int(value.argmax()), value.shape)
        if value[best, place] <= now + HAIR:
            break
        now = float(value[best, place])
        chosen[kept + int(place)] = int(best)
    return chosen


def upper(sets: Floats, weights: Floats, many: int, prices: Floats, steps: int, target: float) -> tuple[float, Floats, Floats]:
    """A weight that no choice of so many sets exceeds, the prices of the points that show it, and every set's worth at these prices.

    Stops early once the bound is below the target.

    Notes
    -----
    Source: Lagrange's bound for covering the most: with a price u between 0 and w on every point no choice covers more than the sum of w - u and
    the worth of the dearest sets; the prices are moved against the bound's slope with Polyak's step and some momentum (textbooks,
    from memory).
    """
    many = min(many, len(sets))
    best, step, stalled = np.inf, 1.0, 0
    held, worth, way = prices, np.zeros(len(sets), dtype=np.float32), np.zeros(len(weights), dtype=np.float32)
    for _ in range(steps):
        value = sets @ prices
        bound = float((weights - prices).sum(dtype=np.float64)) + float(np.sort(value)[len(value) - many:].sum(dtype=np.float64))
        if bound < best - HAIR / 10:
            best, held, worth, stalled = bound, prices, value, 0
        else:
            stalled += 1
            if stalled >= STALLED:
                step, stalled, prices, value, way = step * SHORTER, 0, held, worth, np.zeros_like(way)
        if best < target or step < 1e-3:
            break
        top = np.argpartition(value, len(value) - many)[len(value) - many:]
        way = MOMENTUM * way + (1 - MOMENTUM) * (sets[top].sum(axis=0) - 1)
        slope = np.where(((prices <= 0) & (way > 0)) | ((prices >= weights) & (way < 0)), np.float32(0), way)
        length = float((slope * slope) @ weights)
        if length <= 0:
            break
        pace = np.float32(step * max(bound - target * 0.999, 1e-4) / length)
        prices = np.clip(prices - pace * weights * slope, 0, weights)
    return best, held, worth


@dataclass(frozen=True)
class _Case:
    """One part of the search: sets taken already, those still allowed, points still open, their prices, weight covered so far."""

    taken: tuple[int, ...]
    allowed: Numbers
    points: Numbers
    prices: Floats
    covered: float


def can_cover(sets: Floats, weights: Floats, many: int, target: float, until: float, taken: tuple[int, ...] = ()) -> Work[Verdict]:
    """Whether so many sets can cover at least a weight; told for certain unless the time runs out first.

    Parameters
    ----------
    sets, weights
        1 where a set holds a point, (d, n); the points' weights, (n,), that add up to at most 1.
    many
        How many sets may be taken, those already taken among them.
    target
        The weight to cover.
    until
        When to give up, by `time.perf_counter`. [s]
    taken
        Sets that must be among them.

    Returns
    -------
    Verdict
    """
    open_ = ~sets[list(taken)].any(axis=0) if taken else np.ones(len(weights), dtype=np.bool_)
    free = np.setdiff1d(np.arange(len(sets)), taken)
    covered = float(weights[~open_].sum(dtype=np.float64))
    points = np.flatnonzero(open_)
    cases = [_Case(taken, free, points, weights[points] * np.float32(0.5), covered)]
    seen = 0
    while cases:
        if perf_counter() > until:
            return Verdict(None, False)
        yield Progress(f"whether {many} sections can do", 1 - 0.98 ** seen)
        found, more = _looked_at(sets, weights, cases.pop(), many, target, 80 if seen else 300)
        if found is not None:
            return Verdict(found, False)
        cases += more
        seen += 1
    return Verdict(None, True)


def _looked_at(
    sets: Floats, weights: Floats, case: _Case, many: int, target: float, steps: int
) -> tuple[tuple[int, ...] | None, list[_Case]]:
    """Close one case by its bound, or answer it by a lucky choice, or part it."""
    left = many - len(case.taken)
    if case.covered >= target - HAIR:
        return case.taken, []
    if left <= 0 or not len(case.allowed) or not len(case.points):
        return None, []
    part, light, allowed = sets[np.ix_(case.allowed, case.points)], weights[case.points], case.allowed
    if left <= 2:
        best = best_few(part, light, left)
        reached = case.covered + float(light[part[best].any(axis=0)].sum(dtype=np.float64)) >= target - HAIR
        return (case.taken + tuple(int(i) for i in allowed[best]) if reached else None), []
    prices = case.prices
    for _ in range(3):
        bound, prices, worth = upper(part, light, left, prices, steps, target - HAIR - case.covered)
        if bound + case.covered < target - HAIR:
            return None, []
        least = np.partition(worth, len(worth) - left)[len(worth) - left] if left <= len(worth) else worth.min()
        # a set that would pull the bound below the target is in no choice that reaches it
        keep = (bound + case.covered - least + worth >= target - HAIR) | (worth >= least)
        part, allowed, worth = part[keep], allowed[keep], worth[keep]
        if keep.mean() > 0.95:
            break
    lucky = _greedy(part, light, left)
    if case.covered + float(light[part[lucky].any(axis=0)].sum(dtype=np.float64)) >= target - HAIR:
        return case.taken + tuple(int(i) for i in allowed[lucky]), []
    # when every open point is needed, one of the sets that hold the rarest must be taken; else the dearest set is, or isn't
    needed = case.covered + float(light.sum(dtype=np.float64)) - target < light.min() / 2
    ways = np.array([worth.argmax()])
    if needed:
        rarest = np.flatnonzero(part[:, int(part.sum(axis=0).argmin())] > 0)
        ways = rarest[np.argsort(worth[rarest])]
    shut, parts = np.zeros(len(allowed), dtype=np.bool_), []
    for way in ways[::-1]:
        shut[way] = True
        open_ = part[way] == 0
        gained = case.covered + float(light[~open_].sum(dtype=np.float64))
        parts.append(_Case((*case.taken, int(allowed[way])), allowed[~shut], case.points[open_], prices[open_], gained))
    if not needed:
        parts.append(_Case(case.taken, allowed[~shut], case.points, prices, case.covered))
    return None, parts[::-1]


def best_few(sets: Floats, weights: Floats, many: int) -> list[int]:
    """The one or two sets that cover most, by trying all."""
    value: Floats = pairs(sets, weights) if many > 1 else np.diag(sets @ weights).astype(np.float32)
    one, two = np.unravel_index(int(value.argmax()), value.shape)
    return sorted({int(one), int(two)})


def pairs(sets: Floats, weights: Floats) -> Floats:
    """What every two sets cover together, (d, d)."""
    heavy = sets * weights
    value = sets @ weights
    covered: Floats = np.asarray(value[:, None] + value[None] - heavy @ sets.T, dtype=np.float32)
    return covered


def _greedy(sets: Floats, weights: Floats, many: int) -> list[int]:
    """Take the set that adds most, so many times."""
    left, chosen = weights.copy(), []
    for _ in range(min(many, len(sets))):
        best = int((sets @ left).argmax())
        chosen.append(best)
        left = (left * (1 - sets[best])).astype(np.float32)
    return chosen
