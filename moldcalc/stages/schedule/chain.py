"""A chain of coats within opening hours: when each may start so that all the rest can still follow."""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from math import ceil, floor
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import show

#: more starts than this on the grid are refused
MOST_STARTS = 200_000
NEAR = 1e-6
#: end of a coat -> when the next may start at the earliest, and must at the latest, all in seconds from one zero
Window = Callable[[float], tuple[float, float]]


class CoatOfChain(NamedTuple):
    """A coat: how long it takes [s], and its window: end of the coat -> (earliest, latest) start of the next. None after the last."""

    name: str
    duration: float
    window: Window | None


def startable(*, coats: Sequence[CoatOfChain], openings: Sequence[tuple[float, float]], grid: float) -> list[list[int]]:
    r"""For each coat the starts from which all later coats can still be put on in time.

    .. math:: F_i = \{ s \in D_i : \exists s' \in F_{i+1}, \; e(s) \le s' \le l(s) \}

    Parameters
    ----------
    coats
        In their order. Between the earliest and the latest that a window gives, both included, the next coat may start.
    openings
        Opening hours, in order. [s]
    grid
        Starts are multiples of it. [s]

    Returns
    -------
    For each coat its starts in steps of the grid; an empty list where nothing fits.

    Raises
    ------
    EntryError
        A grid or duration that is not above 0, or more starts than can be listed.

    Notes
    -----
    Range: one coat after another, enough people, nothing else in the way; a window's ends must not fall as the coat ends later.
    A greedy start as early as possible is wrong here: the third of four coats may have to wait.
    Source: backward recursion over a chain (exact).

    Examples
    --------
    Four coats of an hour, 08:00 to 17:00, the next 2 to 15 h after the end of one; day 1 from 8, day 2 from 32:

    >>> H = 3600.0
    >>> window = lambda end: (end + 2 * H, end + 15 * H)
    >>> coats = [CoatOfChain(str(i), H, window) for i in range(4)]
    >>> starts = startable(coats=coats, openings=[(8 * H, 17 * H), (32 * H, 41 * H)], grid=H)
    >>> [s for s in starts[2] if s < 24]
    [8, 9, 10, 11, 12, 13, 16]
    """
    days = _refuse(coats, openings, grid)
    out: list[list[int]] = []
    later: list[int] = []
    for i in range(len(coats) - 1, -1, -1):
        coat = coats[i]
        here = [s for a, b in days for s in range(ceil((a - NEAR) / grid), floor((b - coat.duration + NEAR) / grid) + 1)]
        if out and coat.window is not None:
            here = [s for s in here if _some(later, *coat.window(s * grid + coat.duration), grid)]
        elif out:
            here = [s for s in here if later and s * grid + coat.duration <= later[-1] * grid + NEAR]
        out.append(here)
        later = here
    return out[::-1]


def _refuse(coats: Sequence[CoatOfChain], openings: Sequence[tuple[float, float]], grid: float) -> list[tuple[float, float]]:
    if not (0 < grid < float("inf")):
        raise EntryError(Fault("grid", str(grid), "it must be above 0"))
    for coat in coats:
        if not (0 <= coat.duration < float("inf")):
            raise EntryError(Fault(f"time for {coat.name}", f"{coat.duration} s", "it must be at least 0"))
    if not all(abs(a) < 1e15 and a <= b < 1e15 for a, b in openings):
        raise EntryError(Fault("one opening", "not from an earlier to a later time", "give from and to"))
    if sum((b - a) / grid for a, b in openings) > MOST_STARTS:
        raise EntryError(Fault("grid", show(grid, "min"), f"that makes more than {MOST_STARTS} starts; take a coarser one"))
    return sorted(openings)


def _some(starts: Sequence[int], low: float, high: float, grid: float) -> bool:
    return bisect_left(starts, ceil((low - NEAR) / grid)) < bisect_right(starts, floor((high + NEAR) / grid))


def latest_starts(*, coats: Sequence[CoatOfChain], openings: Sequence[tuple[float, float]], grid: float,
                  started: float | None = None) -> list[list[int]]:
    """For each coat the starts that lie on some whole plan: the coats before it could be on in time, and those after it still can.

    Parameters
    ----------
    coats, openings, grid
        As for `startable`. [s]
    started
        When the first coat really started, or must start; None where it is free. [s]

    Returns
    -------
    For each coat its starts in steps of the grid.

    Raises
    ------
    EntryError
        As `startable`.

    Notes
    -----
    Range: as `startable`.
    Source: backward, then forward recursion over a chain (exact).

    Examples
    --------
    >>> H = 3600.0
    >>> coats = [CoatOfChain("print", H, lambda end: (end + 2 * H, end + 6 * H)), CoatOfChain("tie", H, None)]
    >>> latest_starts(coats=coats, openings=[(8 * H, 17 * H)], grid=H, started=8 * H)
    [[8], [11, 12, 13, 14, 15]]
    """
    whole = startable(coats=coats, openings=openings, grid=grid)
    if started is not None and whole:
        whole[0] = [s for s in whole[0] if abs(s * grid - started) <= grid * (1 - 1e-9) and s * grid >= started - NEAR]
    for i in range(1, len(whole)):
        coat, reached = coats[i - 1], set[int]()
        for s in whole[i - 1]:
            end = s * grid + coat.duration
            low, high = coat.window(end) if coat.window is not None else (end, float("inf"))
            a = bisect_left(whole[i], ceil((low - NEAR) / grid))
            b = len(whole[i]) if high == float("inf") else bisect_right(whole[i], floor((high + NEAR) / grid))
            reached.update(whole[i][a:b])
        whole[i] = [s for s in whole[i] if s in reached]
    return whole


def latest_today(*, coats: Sequence[CoatOfChain], openings: Sequence[tuple[float, float]], grid: float, day: tuple[float, float],
                 started: float | None = None) -> list[float | None]:
    """The latest hour at which each coat may start on one day, so that all later ones can still follow.

    Parameters
    ----------
    coats, openings, grid, started
        As for `latest_starts`. [s]
    day
        From and to of the day asked about. [s]

    Returns
    -------
    For each coat the latest start, or None where it can't start on that day. [s]

    Raises
    ------
    EntryError
        As `startable`.

    Notes
    -----
    Range: as `startable`.
    Source: as `latest_starts`.

    Examples
    --------
    >>> H = 3600.0
    >>> coats = [CoatOfChain("print", H, lambda end: (end + 2 * H, end + 6 * H)), CoatOfChain("tie", H, None)]
    >>> [s / H for s in latest_today(coats=coats, openings=[(8 * H, 17 * H)], grid=H, day=(0, 24 * H))]
    [13.0, 16.0]
    """
    whole = latest_starts(coats=coats, openings=openings, grid=grid, started=started)
    inside = [[s for s in starts if day[0] - NEAR <= s * grid < day[1] - NEAR] for starts in whole]
    return [starts[-1] * grid if starts else None for starts in inside]
