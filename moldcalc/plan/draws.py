"""Draws between the lows and highs of a job: an evenly filling sequence, not dice, so that every run says the same.

Each entry with a low and a high is one axis: a shared cause (area, detail) is one draw for all that depends on
it. Between its ends a value is taken as triangular, most likely at the likely value.
"""

import math
from functools import lru_cache

from moldcalc.units import Span

_PRIMES = (2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101, 103, 107, 109, 113)


def radical_inverse(number: int, base: int) -> float:
    """The digits of a number in a base, mirrored at the point, each digit scrambled by a fixed multiplier."""
    # Multiplying the digits by a number prime to the base breaks up the stripes of Halton's sequence in large bases.
    step = max(1, round(base * 0.6180339887))
    while math.gcd(step, base) != 1:
        step += 1
    total, scale = 0.0, 1.0
    while number:
        number, digit = divmod(number, base)
        scale /= base
        total += (digit * step % base) * scale
    return total


@lru_cache(maxsize=8)
def points(count: int, axes: int) -> tuple[tuple[float, ...], ...]:
    """``count`` points in the unit cube of so many axes (Halton, Numer. Math. 2 (1960) 84, from memory; digits scrambled)."""
    # From the 31st axis on the bases are used again, shifted: such axes are paired, which a quantile does not feel.
    return tuple(
        tuple((radical_inverse(k, _PRIMES[axis % len(_PRIMES)]) + 0.5 / count + 0.381966 * (axis // len(_PRIMES))) % 1.0 for axis in range(axes))
        for k in range(1, count + 1))


def triangular(share: float, span: Span) -> float:
    """The value below which that share of a triangular spread lies."""
    low, likely, high = span.low, float(span), span.high
    width = high - low
    if width <= 0:
        return likely
    turn = (likely - low) / width
    if share < turn:
        return low + math.sqrt(share * width * (likely - low))
    return high - math.sqrt((1 - share) * width * (high - likely))


def quantile(sorted_values: list[float], share: float) -> float:
    """The value that a share of the sorted values does not exceed, between neighbours by a straight line."""
    at = share * (len(sorted_values) - 1)
    below = math.floor(at)
    above = min(below + 1, len(sorted_values) - 1)
    return sorted_values[below] + (at - below) * (sorted_values[above] - sorted_values[below])
