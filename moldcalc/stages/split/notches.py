"""Which straight pieces of an outline can leave along which directions, and the lids that close what can't."""

from collections.abc import Iterator
from math import atan2, cos, inf, pi, sin, tan

from moldcalc.stages.split.bearings import EPS, TURN, Bearings, common, stretch, without
from moldcalc.stages.split.outline import Piece, Point, apart, cross, distance, turned_area

#: a lid that is tried: its length of the line (first piece, one past the last, both counted from 0 round and round), the new pieces, the area
Lid = tuple[float, int, int, tuple[Piece, ...]]


def in_the_way(piece: Piece, other: Piece) -> tuple[float, float]:
    """The open stretch of angles along which some point of a piece runs into some point of the other.

    The differences of their points fill a parallelogram; what is in the way is what is seen of it from the origin.
    """
    corners = [(q[0] - p[0], q[1] - p[1]) for p in (piece.start, piece.end) for q in (other.start, other.end)]
    middle = (sum(x for x, _ in corners), sum(y for _, y in corners))
    towards = atan2(middle[1], middle[0])
    least = 1e-12 * (piece.length + other.length)
    seen = [atan2(middle[0] * y - middle[1] * x, middle[0] * x + middle[1] * y) for x, y in corners if abs(x) + abs(y) > least]
    return (towards + min(seen), towards + max(seen)) if seen else (0.0, 0.0)


def open_ways(piece: Piece, pieces: list[Piece], standing: bool) -> Bearings:
    """Directions along which the whole piece moves outward and meets neither the outline nor the board."""
    ways = stretch(piece.normal - pi / 2, piece.normal + pi / 2)
    if standing:
        ways = common(ways, stretch(0.0, pi))
    for other in pieces:
        if other is not piece:
            ways = without(ways, *in_the_way(piece, other))
            if not ways:
                break
    for side in (-pi / 2, pi / 2):
        if ways and not _slides(piece, pieces, piece.normal + side):
            along = (piece.normal + side) % TURN
            ways = without(ways, along - 3 * EPS, along + 3 * EPS)
    return ways


def _slides(piece: Piece, pieces: list[Piece], along: float) -> bool:
    """Whether a piece can move along its own line: a hair outside that line nothing stands in its way."""
    far = 4 * sum(other.length for other in pieces)
    out = 1e-7 * far
    x = (piece.start[0] + piece.end[0]) / 2 + out * cos(piece.normal)
    y = (piece.start[1] + piece.end[1]) / 2 + out * sin(piece.normal)
    end = (x + far * cos(along), y + far * sin(along))
    return not any(cross((x, y), end, other.start, other.end, 0.0) for other in pieces if other is not piece)


def with_draft(piece: Piece, ways: Bearings, draft: float) -> Bearings:
    """Those of the ways that leave the piece with the draft."""
    return common(ways, stretch(piece.normal - pi / 2 + draft, piece.normal + pi / 2 - draft))


def ways_of_all(pieces: list[Piece], standing: bool) -> list[Bearings]:
    """The open ways of every piece; none for those on the board."""
    return [[] if piece.board else open_ways(piece, pieces, standing) for piece in pieces]


def close_notches(pieces: list[Piece], standing: bool, draft: float) -> tuple[list[Piece], list[Bearings]]:
    """The outline with the smallest lids, one notch after another, until every piece has a way out with the draft; and these ways."""
    for _ in range(4 * len(pieces)):
        ways = ways_of_all(pieces, standing)
        stuck = [not piece.board and not with_draft(piece, way, draft) for piece, way in zip(pieces, ways, strict=True)]
        if not any(stuck):
            return pieces, ways
        while any(stuck):  # one lid after another, and only then a look at all of them again
            pieces, stuck = _with_lid(pieces, stuck, standing, draft)
    pieces = _hull(pieces, standing)
    return pieces, ways_of_all(pieces, standing)


def _with_lid(pieces: list[Piece], stuck: list[bool], standing: bool, draft: float) -> tuple[list[Piece], list[bool]]:
    """The outline with one run of stuck pieces closed by the smallest lid that can leave, and which pieces are still stuck."""
    count = len(pieces)
    board = min(piece.start[1] for piece in pieces) + 1e-6 * sum(piece.length for piece in pieces) if standing else -inf
    begins = [stuck[i] and (not stuck[i - 1] or pieces[i].start[1] <= board) for i in range(count)]
    first = last = begins.index(True) if any(begins) else 0
    while stuck[(last + 1) % count] and not begins[(last + 1) % count] and last - first < count - 1:
        last += 1
    lids = sorted(_lids(pieces, first, last + 1, standing, draft), key=lambda lid: lid[0])
    for area, start, end, new in lids:
        gone = {(i % count) for i in range(start, end)}
        stay = [(end + i) % count for i in range(count - len(gone))]
        kept = [pieces[i] for i in stay]
        if _clear(new, pieces) and _leaves(new, kept, standing, draft):
            filled = area + sum(pieces[i].filled for i in gone)
            main = max(new, key=lambda lid: (not lid.board, lid.length))
            made = [Piece(p.start, p.end, p.board, True, filled * (p is main)) for p in new]
            return [*made, *kept], [False] * len(made) + [stuck[i] for i in stay]
    made = _hull(pieces, standing)
    return made, [False] * len(made)


def _leaves(new: tuple[Piece, ...], kept: list[Piece], standing: bool, draft: float) -> bool:
    whole = [*new, *kept]
    return all(piece.board or with_draft(piece, open_ways(piece, whole, standing), draft) for piece in new)


def _clear(new: tuple[Piece, ...], pieces: list[Piece]) -> bool:
    """Whether lids cross no piece and, off the board, pass no corner within a hair."""
    for lid in new:
        near = 1e-9 * lid.length
        for other in pieces:
            if cross(lid.start, lid.end, other.start, other.end, 0.0):
                return False
            if not lid.board and other.start not in (lid.start, lid.end) and distance(other.start, lid.start, lid.end) <= near:
                return False
    return True


def _lids(pieces: list[Piece], first: int, end: int, standing: bool, draft: float) -> Iterator[Lid]:
    """Every straight lid over a run of pieces, and those that end on the board beyond the feet."""
    count = len(pieces)
    starts = [piece.start for piece in pieces]
    board = min(y for _, y in starts)
    size = sum(piece.length for piece in pieces)
    turned = [0.0]
    for i in range(3 * count):
        here, then = starts[i % count], starts[(i + 1) % count]
        turned.append(turned[-1] + here[0] * then[1] - then[0] * here[1])
    base = count
    for back in range(count - 1 - (end - first)):
        a = base + first - back
        for ahead in range(count - 1 - (end - first) - back):
            b = base + end + ahead
            p, q = starts[a % count], starts[b % count]
            area = -(turned[b] - turned[a] + q[0] * p[1] - p[0] * q[1]) / 2
            if area > 1e-12 * size * size:
                flat = standing and max(p[1], q[1]) <= board + 1e-6 * size
                yield area, a - base, b - base, (Piece(p, q, board=flat),)
    if standing:
        yield from _lids_to_board(pieces, first, end, board, draft)


def _lids_to_board(pieces: list[Piece], first: int, end: int, board: float, draft: float) -> Iterator[Lid]:
    count = len(pieces)
    size = sum(piece.length for piece in pieces)
    low = [i for i in range(count) if pieces[i].start[1] <= board + 1e-6 * size]
    right = max(low, key=lambda i: pieces[i].start[0])
    left = min(low, key=lambda i: pieces[i].start[0])
    for steps in range(1, count - 1):
        b = right + steps
        if _covers(right, b, first, end, count):
            q = pieces[b % count].start
            foot = (q[0] + (q[1] - board) * tan(draft), board)
            if foot[0] > pieces[right].start[0]:
                yield from _to_board(pieces, right, b, (Piece(pieces[right].start, foot, board=True), Piece(foot, q)))
        a = left - steps
        if _covers(a, left, first, end, count):
            p = pieces[a % count].start
            foot = (p[0] - (p[1] - board) * tan(draft), board)
            if foot[0] < pieces[left].start[0]:
                yield from _to_board(pieces, a, left, (Piece(p, foot), Piece(foot, pieces[left].start, board=True)))


def _covers(a: int, b: int, first: int, end: int, count: int) -> bool:
    """Whether the pieces from a to before b hold the run from `first` to before `end`, round and round."""
    offset = (first - a) % count
    return offset + (end - first) <= b - a


def _to_board(pieces: list[Piece], a: int, b: int, new: tuple[Piece, ...]) -> Iterator[Lid]:
    ring = [pieces[i % len(pieces)].start for i in range(a, b + 1)] + [new[-1].start]
    area = -turned_area(ring)
    if area > 0 and all(piece.length > 0 for piece in new):
        yield area, a, b, new


def _hull(pieces: list[Piece], standing: bool) -> list[Piece]:
    """The convex hull as the last way out: everything that is hollow filled, straight down to the board if it stands."""
    points = sorted({piece.start for piece in pieces})
    board = min(y for _, y in points)
    if standing:
        points = sorted({*points, (points[0][0], board), (points[-1][0], board)})
    corners = _half(points)[:-1] + _half(points[::-1])[:-1]
    new = [Piece(p, q, board=standing and p[1] == q[1] == board, lid=True) for p, q in zip(corners, [*corners[1:], corners[0]], strict=True)]
    area = turned_area(corners) - turned_area([p.start for p in pieces]) + sum(p.filled for p in pieces)
    return [Piece(p.start, p.end, p.board, p.lid, area * (place == 0)) for place, p in enumerate(new)]


def _half(points: list[Point]) -> list[Point]:
    made: list[Point] = []
    for p in points:
        while len(made) > 1 and (made[-1][0] - made[-2][0]) * (p[1] - made[-2][1]) <= (p[0] - made[-2][0]) * (made[-1][1] - made[-2][1]):
            made.pop()
        made.append(p)
    return made


def close_narrow(pieces: list[Piece], width: float) -> list[Piece]:
    """The outline with every notch closed whose mouth is narrower than `width` and no wider than twice its depth; the largest first."""
    while True:
        count = len(pieces)
        best: Lid | None = None
        for a in range(count):
            for b in range(a + 2, a + count - 1):
                p, q = pieces[a].start, pieces[b % count].start
                if 0 < apart(p, q) < width:
                    ring = [pieces[i % count].start for i in range(a, b + 1)]
                    area = -turned_area(ring)
                    if area > (best[0] if best else 0.0) and 2 * max(distance(r, p, q) for r in ring[1:-1]) >= apart(p, q):
                        lid = (Piece(p, q),)
                        if _clear(lid, pieces):
                            best = (area, a, b, lid)
        if best is None:
            return pieces
        area, a, b, (closing,) = best
        filled = area + sum(pieces[i % count].filled for i in range(a, b))
        pieces = [Piece(closing.start, closing.end, lid=True, filled=filled), *(pieces[i % count] for i in range(b, a + count))]
