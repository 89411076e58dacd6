"""In which order the pieces of a shell come off: who waits for whom, who leaves together, what locks and the ways out."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import connected_components

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.blocking import Hit
from moldcalc.units import show

Points = NDArray[np.float64]
Matrix = NDArray[np.bool_]


@dataclass(frozen=True)
class Group:
    """Pieces (from 0) that leave as one, or one alone, along this direction instead of their own pulls."""

    pieces: tuple[int, ...]
    direction: Points


@dataclass(frozen=True)
class Removal:
    """How a shell comes apart. Pieces are counted from 0 here and from 1 in words.

    `rounds` are who leaves after whom; those of one round leave in any order. `locked` are the sets that hold each other when nothing can
    move any more, `waiting` those that only wait for them. `hits` are where and how the locked ones hold, `ways_out` what to do about it.
    """

    rounds: tuple[tuple[int, ...], ...]
    locked: tuple[tuple[int, ...], ...] = ()
    waiting: tuple[int, ...] = ()
    groups: tuple[Group, ...] = ()
    hits: tuple[Hit, ...] = ()
    ways_out: tuple[str, ...] = ()
    blocking: Matrix = field(default_factory=lambda: np.zeros((0, 0), dtype=bool))

    @property
    def first(self) -> tuple[int, ...]:
        """Who can go first; where it is one, that one has to."""
        return self.rounds[0] if self.rounds else ()

    @property
    def comes_apart(self) -> bool:
        """Whether all of it comes off."""
        return not self.locked

    @property
    def said(self) -> str:
        """The order in one sentence, or what locks."""
        steps = "; then ".join(_listed(one) for one in self.rounds)
        if self.comes_apart:
            return f"Off comes {steps}."
        sets = " and ".join(_listed(one) for one in self.locked)
        return f"{f'Off comes {steps}; after that' if steps else 'From the start'} {sets} lock each other."


def _listed(pieces: Sequence[int]) -> str:
    numbers = [str(piece + 1) for piece in pieces]
    return numbers[0] if len(numbers) == 1 else f"{', '.join(numbers[:-1])} and {numbers[-1]}"


def order(blocking: ArrayLike, *, along: ArrayLike | None = None, directions: ArrayLike | None = None, hits: Sequence[Hit] = ()) -> Removal:
    """The order of taking apart from a blocking graph.

    Whoever nobody blocks leaves; again and again. Where nobody can leave alone, a closed set of the graph for one direction, which holds with each
    piece all that block it along that direction, leaves together; the smallest one is taken.

    Parameters
    ----------
    blocking
        (k, k), true where the row's piece can't leave along its own pull before the column's piece has.
    along
        (q, k, k), the same for q directions that any piece or group may try; true on the diagonal where a piece can't leave the body that way.
    directions
        (q, 3), these directions.
    hits
        Where and how pieces block each other, for words.

    Returns
    -------
    Rounds, groups, what locks, and ways out.

    Raises
    ------
    EntryError
        A matrix that is not square, or directions that don't fit.

    Notes
    -----
    Range: pieces move straight, one after another or as one group; nothing is turned or bent on the way.
    Source: blocking graph: Wilson and Latombe 1992 (abstract verified). Strongly connected sets by scipy.
    """
    waits = _square(blocking)
    ways, tried = _ways(along, directions, len(waits))
    left = np.ones(len(waits), dtype=bool)
    rounds: list[tuple[int, ...]] = []
    groups: list[Group] = []
    while left.any():
        now = left & ~(waits & left).any(axis=1)
        if not now.any():
            found = _closed(ways, left)
            if found is None:
                break
            way, now = found
            groups.append(Group(tuple(np.flatnonzero(now).tolist()), tried[way]))
        rounds.append(tuple(np.flatnonzero(now).tolist()))
        left &= ~now
    locked, waiting = _locked(waits, left)
    holding = tuple(hit for hit in hits if any(hit.piece in one and hit.by in one for one in locked))
    return Removal(tuple(rounds), locked, waiting, tuple(groups), holding, _ways_out(locked, waits, holding), waits)


def _square(blocking: ArrayLike) -> Matrix:
    waits = np.array(blocking, dtype=bool)
    if waits.ndim != 2 or waits.shape[0] != waits.shape[1]:
        raise EntryError(Fault("blocking", f"a table of shape {waits.shape}", "give a row and a column for each piece"))
    waits[np.diag_indices_from(waits)] = False
    return waits


def _ways(along: ArrayLike | None, directions: ArrayLike | None, count: int) -> tuple[NDArray[np.bool_], Points]:
    ways = np.zeros((0, count, count), dtype=bool) if along is None else np.asarray(along, dtype=bool)
    tried = np.zeros((len(ways), 3)) if directions is None else np.asarray(directions, dtype=float)
    if ways.shape[1:] != (count, count) or tried.shape != (len(ways), 3):
        raise EntryError(Fault("blocking along directions", f"a table of shape {ways.shape}", f"give {count} by {count} for each direction"))
    return ways, tried


def reached(blocking: Matrix) -> Matrix:
    """(k, k): who has to be gone or to come along before the row's piece moves, itself with it: the closure of a blocking graph."""
    reach = blocking | np.eye(len(blocking), dtype=bool)
    for _ in range(max(1, int(np.ceil(np.log2(max(2, len(blocking))))))):
        reach = (reach.astype(np.float32) @ reach.astype(np.float32)) > 0
    return reach


def _closed(ways: NDArray[np.bool_], left: Matrix) -> tuple[int, Matrix] | None:
    """The smallest set of those left, but not all of them, that can leave as one; its direction and who is in it."""
    best: tuple[int, int, Matrix] | None = None
    for way, graph in enumerate(ways):
        here = graph & left[None, :] & left[:, None]
        reach = reached(here)
        fast = reach @ np.diag(here)
        sizes = np.where(left & ~fast, reach.sum(axis=1), len(left) + 1)
        piece = int(np.argmin(sizes))
        if sizes[piece] < min(int(left.sum()), best[0] if best else len(left) + 1):
            best = (int(sizes[piece]), way, reach[piece])
    return None if best is None else (best[1], best[2])


def _locked(waits: Matrix, left: Matrix) -> tuple[tuple[tuple[int, ...], ...], tuple[int, ...]]:
    """The strongly connected sets of those left that wait for nobody else, and those that wait for them."""
    who = np.flatnonzero(left)
    if not len(who):
        return (), ()
    graph = waits[np.ix_(who, who)]
    count, sets = connected_components(csr_matrix(graph), directed=True, connection="strong")
    held = [one for one in range(count) if not graph[np.ix_(sets == one, sets != one)].any()]
    locked = tuple(sorted(tuple(who[sets == one].tolist()) for one in held))
    return locked, tuple(who[~np.isin(sets, held)].tolist())


def shortest_ring(blocking: Matrix, pieces: Sequence[int]) -> tuple[int, ...]:
    """The fewest of these pieces that hold each other in a ring, each waiting for the next; a pair where there is one."""
    inside = set(pieces)
    best: tuple[int, ...] = ()
    for start in pieces:
        came: dict[int, int] = {start: start}
        edge = [start]
        while edge:
            here = edge.pop(0)
            if blocking[here, start] and here != start:
                ring = [here]
                while ring[-1] != start:
                    ring.append(came[ring[-1]])
                if not best or len(ring) < len(best):
                    best = tuple(reversed(ring))
                break
            for then in np.flatnonzero(blocking[here]).tolist():
                if then in inside and then not in came:
                    came[then] = here
                    edge.append(then)
    return best


def _ways_out(locked: Sequence[Sequence[int]], waits: Matrix, hits: Sequence[Hit]) -> tuple[str, ...]:
    said: list[str] = []
    for one in locked:
        ring = shortest_ring(waits, one)
        pairs = set(zip(ring, (*ring[1:], *ring[:1]), strict=True))
        here = [hit for hit in hits if (hit.piece, hit.by) in pairs]
        if not here:
            chain = ", ".join(f"{a + 1} waits for {b + 1}" for a, b in zip(ring, (*ring[1:], *ring[:1]), strict=True))
            said.append(f"Section {chain}: fill the undercut that holds one of them, or divide one of them once more.")
            continue
        for kind in ("path", "flange", "key"):
            of_kind = [hit for hit in here if hit.kind == kind]
            if of_kind:
                said += _way_out(min(of_kind, key=lambda hit: (hit.volume, hit.area)))
    return tuple(said)


def _way_out(hit: Hit) -> list[str]:
    one, other = hit.piece + 1, hit.by + 1
    where = "at {} across, {} deep, {} up".format(*(show(float(x), "m") for x in hit.place))
    if hit.kind == "key":
        return [f"Give the key between sections {one} and {other} {where} a half-angle of at least {show(hit.angle, '°')}, "
                "or use a ridge along the pull.",
                f"Or leave that key out, and hold sections {one} and {other} by bolts and a loose dowel."]
    if hit.kind == "flange":
        return [f"Stand the shim between sections {one} and {other} {where} along the pull of section {one}; "
                f"it leans {show(hit.angle, '°')} the wrong way.",
                f"Or divide section {one} there: one more section over about {show(hit.area, 'cm²')} of joint."]
    litres = f" with about {show(hit.volume, 'L')} of paste" if hit.volume > 0 else ""
    return [f"Fill the hollow under section {other} {where}{litres}, so that section {one} no longer reaches into it; more paste.",
            f"Or divide section {one} there: one more section of about {show(hit.area, 'cm²')}."]
