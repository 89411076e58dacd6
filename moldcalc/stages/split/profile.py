"""Without a scan: from two to six outlines, into how few arcs each divides, along which directions, with what filled."""

from collections.abc import Sequence
from math import asin, cos, degrees, inf, pi

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.split.bearings import TURN, Bearings, common, nearest, widest
from moldcalc.stages.split.notches import close_narrow, close_notches, ways_of_all, with_draft
from moldcalc.stages.split.outline import Outline, Piece, pieces_of
from moldcalc.stages.split.sections import Arc, Notch, OutlineSplit, Profiles, Seam, unseen

#: an outline is cut into at least so many pieces; an arc and a lid begin and end at a cut
CUTS = 48
_HALVINGS = 14


def split_profiles(outlines: Sequence[Outline], *, draft: float = 0.0, narrowest: float = 0.0) -> Profiles:
    """Divide two to six outlines of one original, each by itself.

    Parameters
    ----------
    outlines
        Such as front, side and plan.
    draft
        Least that every section must have [rad].
    narrowest
        Notches with a narrower mouth are closed beforehand, as by twice the wall of rubber [m].

    Returns
    -------
    The answers, and in words what outlines can't tell.

    Raises
    ------
    EntryError
        Fewer than two or more than six outlines; a draft or a width outside what is possible.
    """
    if not 2 <= len(outlines) <= 6:
        raise EntryError(Fault("number of outlines", str(len(outlines)), "give two to six, such as front, side and plan"))
    made = tuple(split_outline(line, draft=draft, narrowest=narrowest) for line in outlines)
    return Profiles(made, max(len(one.arcs) for one in made), unseen(outlines, narrowest))


def split_outline(line: Outline, *, draft: float = 0.0, narrowest: float = 0.0, cuts: int = CUTS) -> OutlineSplit:
    """Divide one outline into the fewest arcs that each leave along one direction, path and board included.

    What can leave along no direction at all is closed by the smallest straight lids first. A whole straight piece leaves along an angle when the
    angle is outward, has the draft and lies outside what the other pieces of the outline take up as seen from it, which is exact. An arc is a run of
    pieces with an angle in common. The fewest arcs are found by going as far as possible from every possible beginning. With that number the
    borders are then moved to where the least draft is the largest.

    Parameters
    ----------
    line
        The outline.
    draft
        Least that every arc must have [rad], below a right angle.
    narrowest
        Notches with a narrower mouth are closed first [m].
    cuts
        Into at least how many pieces the outline is cut, 8 to 200.

    Returns
    -------
    The arcs with their directions, notches, seams and order.

    Raises
    ------
    EntryError
        A draft, a width or a number of cuts outside what is possible.

    Notes
    -----
    Range: a plane; what moves is the arc itself, its flanges checked where two arcs meet.
    Source: half-circles of directions as for polygons in de Berg and others, Computational Geometry, ch. 4; greedy cover of a
    circle by arcs, exact when every beginning is tried (from memory).
    """
    if not 0 <= draft < pi / 2:
        raise EntryError(Fault("draft", f"{degrees(draft):.6g}°", "it must be at least 0 and below 90°"))
    if not 0 <= narrowest <= 10:
        raise EntryError(Fault("narrowest notch", f"{narrowest:.6g} m", "it must be at least 0 and at most 10 m"))
    if not 8 <= cuts <= 200:
        raise EntryError(Fault("number of cuts", str(cuts), "give 8 to 200"))
    pieces = pieces_of(line, cuts)
    if narrowest > 0:
        pieces = close_narrow(pieces, narrowest)
    pieces, ways = close_notches(pieces, line.standing, draft)
    runs = _balanced(pieces, ways, draft)
    arcs = tuple(_arc(pieces, ways, run, draft) for run in runs)
    notches = tuple(Notch(piece.start, piece.end, piece.filled) for piece in pieces if piece.filled > 0)
    seams = _seams(pieces, runs, arcs, line.board + 1e-6 * line.length if line.standing else -inf)
    return OutlineSplit(line.name, draft, arcs, notches, seams, _rounds(len(arcs), seams), tuple(pieces))


def fewest_arcs(pieces: Sequence[Piece], ways: Sequence[Bearings], draft: float) -> list[tuple[int, int]] | None:
    """The fewest runs (first piece, count) that cover all but the board, or None where a piece has no way with the draft."""
    count = len(pieces)
    free = [with_draft(piece, way, draft) for piece, way in zip(pieces, ways, strict=True)]
    if any(not way and not piece.board for piece, way in zip(pieces, free, strict=True)):
        return None
    reach = [_reach(pieces, free, start) for start in range(count)]
    ends = [i for i in range(count) if not pieces[i].board and pieces[i - 1].board]
    if ends:
        return [run for start in ends for run in _greedy(pieces, reach, start, count)]
    return min((_greedy(pieces, reach, start, count) for start in range(reach[0] + 1)), key=len)


def _reach(pieces: Sequence[Piece], free: Sequence[Bearings], start: int) -> int:
    """How many pieces one arc from there can cover."""
    count, here = len(pieces), free[start]
    covered = 0
    while here and covered < count and not pieces[(start + covered) % count].board:
        covered += 1
        here = common(here, free[(start + covered) % count])
    return covered


def _greedy(pieces: Sequence[Piece], reach: Sequence[int], start: int, count: int) -> list[tuple[int, int]]:
    runs, done = [], 0
    while done < count and not pieces[(start + done) % count].board:
        here = (start + done) % count
        most = min(reach[here], count - done)
        runs.append((here, most))
        done += most
    return runs


def _balanced(pieces: list[Piece], ways: list[Bearings], draft: float) -> list[tuple[int, int]]:
    """As few runs as the draft allows, with the borders where the least draft is the largest."""
    best = fewest_arcs(pieces, ways, draft) or []
    low, high = draft, pi / 2
    for _ in range(_HALVINGS):
        trial = (low + high) / 2
        runs = fewest_arcs(pieces, ways, trial)
        if runs is not None and len(runs) <= len(best):
            best, low = runs, trial
        else:
            high = trial
    return best


def best_draft(line: Outline, *, arcs: int, cuts: int = CUTS) -> float | None:
    """The most draft that an outline allows with so many arcs and nothing filled.

    Parameters
    ----------
    line
        The outline.
    arcs
        At most so many.
    cuts
        Into at least how many pieces the outline is cut.

    Returns
    -------
    Draft [rad] to about 1e-6, or None where so many arcs don't do even without draft.
    """
    pieces = pieces_of(line, cuts)
    ways = ways_of_all(pieces, line.standing)

    def do(draft: float) -> bool:
        runs = fewest_arcs(pieces, ways, draft)
        return runs is not None and len(runs) <= arcs

    if not do(0.0):
        return None
    low, high = 0.0, pi / 2
    for _ in range(22):
        trial = (low + high) / 2
        low, high = (trial, high) if do(trial) else (low, trial)
    return low


def _arc(pieces: list[Piece], ways: list[Bearings], run: tuple[int, int], draft: float) -> Arc:
    inside = [(run[0] + i) % len(pieces) for i in range(run[1])]
    open_to = ways[inside[0]]
    for i in inside[1:]:
        open_to = common(open_to, ways[i])
    free = open_to
    for i in inside:
        free = with_draft(pieces[i], free, draft)
    base = pieces[inside[0]].normal
    turns = [(pieces[i].normal - base + pi) % TURN - pi for i in inside]
    pull = nearest(free, base + (min(turns) + max(turns)) / 2)
    least = min(cos(pieces[i].normal - pull) for i in inside)
    low, high = widest(free)
    return Arc(pieces[inside[0]].start, pieces[inside[-1]].end, sum(pieces[i].length for i in inside), low, high, pull,
               asin(max(-1.0, min(1.0, least if abs(least) > 1e-12 else 0.0))))


def _seams(pieces: list[Piece], runs: list[tuple[int, int]], arcs: tuple[Arc, ...], board: float) -> tuple[Seam, ...]:
    """Where one arc ends and the next begins, off the board.

    The flange stands square to the outline if both can leave past it; else it leans along one's pull.
    """
    count, seams = len(pieces), []
    for one, (first, length) in enumerate(runs):
        after = (first + length) % count
        two = next((k for k, (start, _) in enumerate(runs) if start == after), None)
        if two is None or two == one or arcs[two].start[1] <= board:
            continue
        before, behind = pieces[after - 1].normal, pieces[after].normal
        square = before + ((behind - before + pi) % TURN - pi) / 2
        a = (arcs[one].pull - square + pi) % TURN - pi
        b = (arcs[two].pull - square + pi) % TURN - pi
        lean = 0.0 if a <= 1e-9 and b >= -1e-9 else (a if a > 0 else b)
        seams.append(Seam(arcs[two].start, (one, two), (square + lean) % TURN, one if a > b + 1e-9 and lean == a else two if a > b + 1e-9 else None))
    return tuple(seams)


def _rounds(count: int, seams: tuple[Seam, ...]) -> tuple[tuple[int, ...], ...]:
    """Who leaves with whom, the first that may go first; those that would wait for each other come last together."""
    waits: dict[int, set[int]] = {i: set() for i in range(count)}
    for seam in seams:
        if seam.first is not None:
            waits[next(i for i in seam.arcs if i != seam.first)].add(seam.first)
    left, rounds = set(range(count)), []
    while left:
        now = {i for i in left if not waits[i] & left} or set(left)
        rounds.append(tuple(sorted(now)))
        left -= now
    return tuple(rounds)
