"""An outline of the original on squared paper or traced from a photograph: checked, and cut into short straight pieces."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, ceil, hypot, isfinite

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.units import show

Point = tuple[float, float]
MOST_POINTS = 300
#: smaller than this is a slip, larger too [m]
LEAST_SIZE, MOST_SIZE = 1e-4, 1000.0


@dataclass(frozen=True)
class Outline:
    """A closed line round the original, counterclockwise, in metres: across and up. The board lies under its lowest point if it is `standing`."""

    name: str
    points: tuple[Point, ...]
    standing: bool

    @property
    def board(self) -> float:
        """Height of the lowest point. [m]"""
        return min(y for _, y in self.points)

    @property
    def area(self) -> float:
        """Within the outline. [m²]"""
        return turned_area(self.points)

    @property
    def length(self) -> float:
        """Once round. [m]"""
        return sum(apart(a, b) for a, b in zip(self.points, (*self.points[1:], self.points[0]), strict=True))


@dataclass(frozen=True)
class Piece:
    """A straight piece of an outline. `board` pieces need no shell, `lid` pieces close a notch of the area `filled`. [m, m²]"""

    start: Point
    end: Point
    board: bool = False
    lid: bool = False
    filled: float = 0.0

    @property
    def normal(self) -> float:
        """Angle of the outward normal. [rad]"""
        return atan2(self.start[0] - self.end[0], self.end[1] - self.start[1])

    @property
    def length(self) -> float:
        """From end to end. [m]"""
        return apart(self.start, self.end)


def apart(a: Point, b: Point) -> float:
    """Distance of two points."""
    return hypot(b[0] - a[0], b[1] - a[1])


def turned_area(points: Sequence[Point]) -> float:
    """Area within a closed line, above 0 where it runs counterclockwise."""
    x, y = points[0]
    return sum((a[0] - x) * (b[1] - y) - (b[0] - x) * (a[1] - y) for a, b in zip(points, [*points[1:], points[0]], strict=True)) / 2


def crossed(a: Point, b: Point, c: Point) -> float:
    """Twice the area of a triangle, above 0 where a, b, c turn left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])


def cross(a: Point, b: Point, c: Point, d: Point, eps: float) -> bool:
    """Whether two straight pieces cross each other; meeting at an end is no crossing."""
    return crossed(a, b, c) * crossed(a, b, d) < -eps and crossed(c, d, a) * crossed(c, d, b) < -eps


def outline(points: Sequence[Sequence[float]], *, standing: bool = False, name: str = "outline") -> Outline:
    """An outline from its points, in either sense of winding, the last one joined to the first.

    Parameters
    ----------
    points
        3 to 300 pairs: across and up [m].
    standing
        Whether it stands on a board at its lowest point; edges on the board then need no shell and nothing moves down.
    name
        What it shows, such as 'front'.

    Returns
    -------
    The outline, counterclockwise.

    Raises
    ------
    EntryError
        Too few or too many points, no numbers, no size, a line that crosses or touches itself.
    """
    made = _read(points, name)
    if len(made) < 3:
        raise EntryError(Fault(name, f"a line of {len(made)} different point{'s' * (len(made) != 1)}", "give at least 3 that go round"))
    if len(made) > MOST_POINTS:
        raise EntryError(Fault(name, f"a line of {len(made)} points", f"give at most {MOST_POINTS}; a straight edge needs only its ends"))
    width, height = (max(p[i] for p in made) - min(p[i] for p in made) for i in (0, 1))
    if not max(width, height) <= MOST_SIZE or max(abs(x) for p in made for x in p) > MOST_SIZE:
        raise EntryError(Fault(name, f"{max(width, height):.3g} m across", f"it must be at most {MOST_SIZE:g} m"))
    if abs(turned_area(made)) < max(LEAST_SIZE**2, 1e-7 * max(width, height) ** 2):
        raise EntryError(Fault(name, "without any area", "give points that go round the original"))
    if turned_area(made) < 0:
        made.reverse()
    _refuse_crossings(made, name)
    return Outline(name, tuple(made), standing)


def _read(points: Sequence[Sequence[float]], name: str) -> list[Point]:
    made: list[Point] = []
    for place, given in enumerate(points, 1):
        try:
            x, y = (float(number) for number in given)
        except (TypeError, ValueError):
            raise EntryError(Fault(f"point {place} of {name}", clipped(given), "give two numbers, across and up")) from None
        if not (isfinite(x) and isfinite(y)):
            raise EntryError(Fault(f"point {place} of {name}", clipped((x, y)), "give two finite numbers"))
        if not made or apart(made[-1], (x, y)) > 1e-9:
            made.append((x, y))
        if len(made) > 10 * MOST_POINTS:
            break
    while len(made) > 1 and apart(made[0], made[-1]) <= 1e-9:
        made.pop()
    return made


def _refuse_crossings(points: list[Point], name: str) -> None:
    count = len(points)
    size = max(apart(points[0], p) for p in points)
    for i in range(count):
        a, b, after = points[i], points[(i + 1) % count], points[(i + 2) % count]
        back = (b[0] - a[0]) * (after[0] - b[0]) + (b[1] - a[1]) * (after[1] - b[1])
        if abs(crossed(a, b, after)) <= 1e-12 * size * size and back < 0:
            raise EntryError(Fault(name, f"a line that runs back on itself at {_at(b)}", "leave that point out"))
        for j in range(i + 2, count - (i == 0)):
            c, d = points[j], points[(j + 1) % count]
            if _meet(a, b, c, d, 1e-9 * size):
                raise EntryError(Fault(name, f"a line that meets itself near {_at(c)}", "draw it so that it goes round once without crossing"))


def _meet(a: Point, b: Point, c: Point, d: Point, near: float) -> bool:
    """Whether two pieces that are no neighbours cross or come as near as nothing."""
    if max(a[0], b[0]) + near < min(c[0], d[0]) or max(c[0], d[0]) + near < min(a[0], b[0]):
        return False
    if max(a[1], b[1]) + near < min(c[1], d[1]) or max(c[1], d[1]) + near < min(a[1], b[1]):
        return False
    if cross(a, b, c, d, 0.0):
        return True
    return any(distance(p, start, end) <= near for p, start, end in ((a, c, d), (b, c, d), (c, a, b), (d, a, b)))


def distance(p: Point, a: Point, b: Point) -> float:
    """From a point to a straight piece."""
    along = (b[0] - a[0], b[1] - a[1])
    share = ((p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1]) / (along[0] ** 2 + along[1] ** 2)
    share = min(1.0, max(0.0, share))
    return apart(p, (a[0] + share * along[0], a[1] + share * along[1]))


def _at(point: Point) -> str:
    return f"{show(point[0], 'm')} across, {show(point[1], 'm')} up"


def pieces_of(line: Outline, cuts: int) -> list[Piece]:
    """The outline as straight pieces, none longer than its length over `cuts`; edges on the board stay whole."""
    most = line.length / cuts
    near = 1e-6 * line.length
    made: list[Piece] = []
    for a, b in zip(line.points, (*line.points[1:], line.points[0]), strict=True):
        if line.standing and max(a[1], b[1]) <= line.board + near:
            made.append(Piece(a, b, board=True))
            continue
        parts = max(1, ceil(apart(a, b) / most - 1e-9))
        on = [(a[0] + (b[0] - a[0]) * i / parts, a[1] + (b[1] - a[1]) * i / parts) for i in range(parts)]
        made += [Piece(p, q) for p, q in zip(on, [*on[1:], b], strict=True)]
    return made


def points_from_photo(pixels: Sequence[Sequence[float]], known_length: float, between: Sequence[Sequence[float]]) -> list[Point]:
    """Points traced over a photograph, in metres, by one length that is known in it.

    Parameters
    ----------
    pixels
        Pairs: from the left edge, and down from the top edge, as pictures count.
    known_length
        True distance of two points of the picture [m].
    between
        These two, in pixels.

    Returns
    -------
    Pairs: across from the leftmost point, and up from the lowest [m].

    Raises
    ------
    EntryError
        A length that is not above 0; two points that are one; anything that is no number.

    Notes
    -----
    Range: camera level and square on, from afar; a part that is nearer to the camera by a tenth of its distance shows a tenth too big.
    Source: similar triangles.

    Examples
    --------
    >>> points_from_photo([(100, 400), (300, 400), (300, 100)], 0.5, [(0, 0), (0, 250)])
    [(0.0, 0.0), (0.4, 0.0), (0.4, 0.6)]
    """
    if not 0 < known_length <= MOST_SIZE:
        raise EntryError(Fault("known length", f"{known_length:.6g} m", f"it must be above 0 and at most {MOST_SIZE:g} m"))
    ends = _read(between, "the known length")
    if len(ends) != 2:
        raise EntryError(Fault("known length", f"between {len(ends)} different point{'s' * (len(ends) != 1)} of the picture", "mark its two ends"))
    traced = _read(pixels, "the tracing")
    if not traced:
        raise EntryError(Fault("tracing", "empty", "mark points round the original"))
    scale = known_length / apart(ends[0], ends[1])
    left, low = min(x for x, _ in traced), max(y for _, y in traced)
    return [((x - left) * scale, (low - y) * scale) for x, y in traced]
