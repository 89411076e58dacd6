"""In how many rounds sections can be laid when two that touch are never wet together."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault

#: more than this are refused
MOST_SECTIONS = 200
#: steps of the exact search before the best found so far is given, and said to be not proven
MOST_STEPS = 200_000


class Rounds(NamedTuple):
    """Sections (from 0) laid in the same round; ``least`` says that fewer rounds are impossible."""

    rounds: tuple[tuple[int, ...], ...]
    least: bool


def _neighbours(count: int, touches: Iterable[Sequence[int]]) -> list[set[int]]:
    if not 0 <= count <= MOST_SECTIONS:
        raise EntryError(Fault("sections", str(count), f"it must be from 0 to {MOST_SECTIONS}"))
    beside: list[set[int]] = [set() for _ in range(count)]
    for a, b in touches:
        if a == b or not (0 <= a < count and 0 <= b < count):
            raise EntryError(Fault("touching sections", f"{a} and {b}", f"give two different numbers from 0 to {count - 1}"))
        beside[a].add(b)
        beside[b].add(a)
    return beside


def rounds_of(*, count: int, touches: Sequence[tuple[int, int]], builders: int | None = None) -> Rounds:
    """The fewest rounds in which all sections can be laid.

    Parameters
    ----------
    count
        How many sections.
    touches
        Pairs that share a joint, counted from 0.
    builders
        At most so many sections in a round; None: as many as don't touch.

    Returns
    -------
    The rounds, the largest first, and whether fewer are impossible.

    Raises
    ------
    EntryError
        A pair that isn't two of the sections, builders below 1, or too many sections.

    Notes
    -----
    Range: every section takes one round. For two builders rounds are sections less the largest matching of those that don't touch.
    Source: proper colouring by branch and bound with the most constrained section first (Brélaz 1979, from memory), for two builders
    a largest matching (Edmonds 1965, textbook). Taking sections as they come is not optimal: 4 rounds on a triangular prism that needs 3.

    Examples
    --------
    Chest and rump touch both flanks, the flanks each other:

    >>> rounds_of(count=4, touches=[(0, 2), (0, 3), (1, 2), (1, 3), (2, 3)])
    Rounds(rounds=((0, 1), (2,), (3,)), least=True)
    """
    beside = _neighbours(count, touches)
    if builders is not None and builders < 1:
        raise EntryError(Fault("builders", str(builders), "it must be at least 1"))
    if count == 0:
        return Rounds((), True)
    if builders == 2:
        apart = [(a, b) for a in range(count) for b in range(a + 1, count) if b not in beside[a]]
        pairs = largest_matching(count=count, pairs=apart)
        alone = set(range(count)) - {x for pair in pairs for x in pair}
        return Rounds((*pairs, *((x,) for x in sorted(alone))), True)
    found, least = _coloured(beside, builders or count)
    groups = [tuple(x for x in range(count) if found[x] == c) for c in range(max(found) + 1)]
    return Rounds(tuple(sorted(groups, key=lambda group: (-len(group), group))), least)


def _clique(beside: list[set[int]]) -> int:
    best = 1
    for start in range(len(beside)):
        inside, left = 1, set(beside[start])
        while left:
            one = max(left, key=lambda x: (len(beside[x] & left), -x))
            inside, left = inside + 1, left & beside[one]
        best = max(best, inside)
    return best


def _coloured(beside: list[set[int]], most: int) -> tuple[list[int], bool]:
    """Rounds by branch and bound: colour of each section, and whether that is the fewest."""
    count = len(beside)
    low = max(_clique(beside), -(-count // most))
    colours, sizes = [-1] * count, [0] * count
    best, best_used, steps = list(range(count)), count, 0
    # (section, colours still to try) instead of recursion, so that many sections don't run into its limit
    stack: list[tuple[int, list[int]]] = []

    def used() -> int:
        return max(colours) + 1

    def following() -> tuple[int, list[int]]:
        def taken(x: int) -> set[int]:
            return {colours[y] for y in beside[x] if colours[y] >= 0}
        one = max((x for x in range(count) if colours[x] < 0), key=lambda x: (len(taken(x)), len(beside[x]), -x))
        barred = taken(one)
        limit = min(used() + 1, best_used - 1)
        return one, [c for c in range(limit - 1, -1, -1) if c not in barred and sizes[c] < most]

    stack.append(following())
    while stack and best_used > low and steps < MOST_STEPS:
        one, tries = stack[-1]
        if colours[one] >= 0:
            sizes[colours[one]] -= 1
            colours[one] = -1
        while tries and tries[-1] >= best_used - 1:
            tries.pop()
        if not tries:
            stack.pop()
            continue
        steps += 1
        colours[one] = tries.pop()
        sizes[colours[one]] += 1
        if -1 in colours:
            stack.append(following())
        elif used() < best_used:
            best, best_used = list(colours), used()
    return best, best_used <= low or not stack


def largest_matching(*, count: int, pairs: Sequence[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """The most pairs that share no member.

    Parameters
    ----------
    count
        How many there are.
    pairs
        Pairs that may be taken, counted from 0.

    Returns
    -------
    The pairs taken, in order.

    Raises
    ------
    EntryError
        A pair that isn't two of them, or too many.

    Notes
    -----
    Range: any pairs.
    Source: augmenting paths with odd rings shrunk (Edmonds 1965, textbook).

    Examples
    --------
    >>> largest_matching(count=4, pairs=[(0, 1), (1, 2), (2, 3)])
    ((0, 1), (2, 3))
    """
    beside = [sorted(one) for one in _neighbours(count, pairs)]
    mate = [-1] * count
    for root in range(count):
        if mate[root] < 0:
            end, came = _augmenting(root, beside, mate)
            while end >= 0:
                before = came[end]
                then = mate[before]
                mate[end], mate[before] = before, end
                end = then
    return tuple((a, b) for a, b in enumerate(mate) if b > a)


def _augmenting(root: int, beside: list[list[int]], mate: list[int]) -> tuple[int, list[int]]:
    """A free end reached from a free root by a path that can be flipped, and who each was reached from; -1 where there is none."""
    count = len(mate)
    came, base, seen = [-1] * count, list(range(count)), [False] * count
    seen[root] = True
    queue = [root]

    def meeting(a: int, b: int) -> int:
        passed = set[int]()
        while True:
            a = base[a]
            passed.add(a)
            if mate[a] < 0:
                break
            a = came[mate[a]]
        while base[b] not in passed:
            b = came[mate[base[b]]]
        return base[b]

    def mark(one: int, foot: int, child: int, ring: set[int]) -> None:
        while base[one] != foot:
            ring.update((base[one], base[mate[one]]))
            came[one] = child
            child = mate[one]
            one = came[mate[one]]

    for one in queue:
        for other in beside[one]:
            if base[one] == base[other] or mate[one] == other:
                continue
            if other == root or (mate[other] >= 0 and came[mate[other]] >= 0):
                foot, ring = meeting(one, other), set[int]()
                mark(one, foot, other, ring)
                mark(other, foot, one, ring)
                for x in range(count):
                    if base[x] in ring:
                        base[x] = foot
                        if not seen[x]:
                            seen[x] = True
                            queue.append(x)
            elif came[other] < 0:
                came[other] = one
                if mate[other] < 0:
                    return other, came
                seen[mate[other]] = True
                queue.append(mate[other])
    return -1, came
