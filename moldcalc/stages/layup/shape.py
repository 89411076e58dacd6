"""What a flat panel's outline and load say, apart from what it is made of: it gives bending / D and shear / S."""

from collections.abc import Callable
from math import cosh, inf, pi, sin, tanh
from typing import NamedTuple

#: beyond so many times its width only the end with the greater pressure counts, and beyond so many heights a panel is a strip
LONG = 20.0
#: sines along the height, and twenty more for each width that fits into it
TERMS = 101
#: beyond this the other side edge is out of reach: 1/cosh is below the last digit of a float
_FAR = 300.0


class Shape(NamedTuple):
    """What an outline and a load come to.

    Greatest deflection by bending times the plate's stiffness [Pa·m⁴] and by shear times the shear stiffness [Pa·m²]; where the
    first is, over the lower edge [m]; greatest moment inside and along an edge that is held fast [N].
    """

    bending: float
    shear: float
    at: float
    moment: float
    edge_moment: float


class Cut(NamedTuple):
    """The part of a panel that decides, and how far it starts above the lower edge."""

    height: float
    width: float
    bottom: float
    top: float
    start: float


def decisive(height: float, width: float, bottom: float, top: float, most: float) -> Cut:
    """A panel no higher than so many widths, no wider than so many heights: what lies beyond changes nothing."""
    if height <= most * width:
        return Cut(height, min(width, most * height), bottom, top, 0.0)
    kept = most * width
    change = (top - bottom) * (kept / height)
    if bottom == top:
        return Cut(kept, width, bottom, top, (height - kept) / 2)
    return Cut(kept, width, bottom, bottom + change, 0.0) if bottom > top else Cut(kept, width, top - change, top, height - kept)


def greatest(of: Callable[[float], float], low: float, high: float, points: int = 24) -> float:
    """Where a smooth function is greatest: first on a grid, then between the neighbours of the best place."""
    step = (high - low) / points
    best = max(range(points + 1), key=lambda place: of(low + place * step))
    left, right = max(low, low + (best - 1) * step), min(high, low + (best + 1) * step)
    for _ in range(30):
        third = (right - left) / 3
        if of(left + third) < of(right - third):
            left += third
        else:
            right -= third
    return (left + right) / 2


def sine_load(bottom: float, top: float, m: int) -> float:
    """The m-th sine's share in a pressure that goes evenly from bottom to top. [Pa]"""
    return 2 / (m * pi) * (bottom - (-1) ** m * top)


def wave(m: int, length: float) -> float:
    """Wave number of the m-th sine over a length. [1/m]

    Raises
    ------
    OverflowError
        A length so small that it has none.
    """
    found = m * pi / length
    if found == inf:
        raise OverflowError
    return found


class Sines(NamedTuple):
    """A row of sines over a length, and what they add up to."""

    length: float
    terms: list[tuple[float, float]]

    def at(self, x: float) -> float:
        return sum(size * sin(k * x) for k, size in self.terms)

    def peak(self, even: bool) -> float:
        """Where it is greatest; the long waves say where, all of them how much."""
        return self.length / 2 if even else greatest(Sines(self.length, self.terms[:len(self.terms) // 4 + 1]).at, 0.0, self.length)


class _Across(NamedTuple):
    """Of one sine, at half the width: deflection and curvature over an endless width's, curvature at a side that is held fast, shear."""

    give: float
    curve: float
    side: float
    slip: float


def _across(alpha: float, fast: bool) -> _Across:
    """Levy's factors for half a width of so many radians of the sine."""
    c, t, slip = cosh(alpha), tanh(alpha), 1 - 1 / cosh(alpha)
    if fast:
        far = t * c + alpha / c
        return _Across(1 - (t + alpha) / far, (alpha - t) / far, (t * c - alpha / c) / far, slip)
    return _Across(1 - (alpha * t + 2) / 2 / c, alpha * t / 2 / c, 0.0, slip)


def supported_shape(height: float, width: float, bottom: float, top: float, poisson_ratio: float, *, fast_sides: bool = False,
                    moments: bool = True) -> Shape:
    """All four edges held, free to turn: Levy's series along the height, at half the width. An infinite width is a beam.

    With ``fast_sides`` the two side edges are held fast. Without ``moments`` both are 0, in half the time.
    """
    h, w, low, high, start = decisive(height, width, bottom, top, LONG) if width < inf else Cut(height, width, bottom, top, 0.0)
    rows = []
    for m in range(1, TERMS + (20 * int(h / w) if w < inf else 0)):
        load = sine_load(low, high, m)
        if load:
            k = wave(m, h)
            rows.append((k, load, _across(min(k * w / 2, _FAR), fast_sides)))
    nu = poisson_ratio
    bending = Sines(h, [(k, p * one.give / k**4) for k, p, one in rows])
    shear = Sines(h, [(k, p * one.slip / k**2) for k, p, one in rows])
    even = low == high
    place = bending.peak(even)
    found = Shape(bending.at(place), shear.at(shear.peak(even)), start + place, 0.0, 0.0)
    if not moments:
        return found
    upward = Sines(h, [(k, p * (one.give + nu * one.curve) / k**2) for k, p, one in rows])
    sideways = Sines(h, [(k, p * (nu * one.give + one.curve) / k**2) for k, p, one in rows])
    side = Sines(h, [(k, p * one.side / k**2) for k, p, one in rows])
    moment = max(one.at(one.peak(even)) for one in (upward, sideways))
    return found._replace(moment=moment, edge_moment=side.at(side.peak(even)) if fast_sides else 0.0)
