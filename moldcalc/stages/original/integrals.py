"""The two pieces of numerical mathematics that sizes rest on: Carlson's integral, and nodes for summing a curve."""

from functools import cache
from math import cos, pi, sqrt

#: terms after which the duplication has settled for any floats (each step brings the three closer by a factor of four)
_STEPS = 60


def _rf(x: float, y: float, z: float) -> float:
    """Carlson's R_F by duplication, of x the smallest and y the largest; only x may be 0."""
    for _ in range(_STEPS):
        mean = (x + y + z) / 3
        if mean - x < 1e-3 * mean > y - mean:
            break
        a, b, c = sqrt(x), sqrt(y), sqrt(z)
        lam = a * b + a * c + b * c
        x, y, z = (x + lam) / 4, (y + lam) / 4, (z + lam) / 4
    dx, dy = 1 - x / mean, 1 - y / mean
    dz = -dx - dy
    e2, e3 = dx * dy - dz * dz, dx * dy * dz
    return (1 - e2 / 10 + e3 / 14 + e2 * e2 / 24 - 3 * e2 * e3 / 44) / sqrt(mean)


def _rd(x: float, y: float, z: float) -> float:
    """Carlson's R_D by duplication, of x the smallest and y the largest; only x may be 0."""
    total, scale = 0.0, 1.0
    for _ in range(_STEPS):
        mean = (x + y + 3 * z) / 5
        if mean - x < 1e-3 * mean > y - mean:
            break
        a, b, c = sqrt(x), sqrt(y), sqrt(z)
        lam = a * b + a * c + b * c
        total += scale / (c * (z + lam))
        scale /= 4
        x, y, z = (x + lam) / 4, (y + lam) / 4, (z + lam) / 4
    dx, dy = 1 - x / mean, 1 - y / mean
    dz = -(dx + dy) / 3
    xy, zz = dx * dy, dz * dz
    e2, e3 = xy - 6 * zz, (3 * xy - 8 * zz) * dz
    e4, e5 = 3 * (xy - zz) * zz, xy * zz * dz
    series = 1 - 3 * e2 / 14 + e3 / 6 + 9 * e2 * e2 / 88 - 3 * e4 / 22 - 9 * e2 * e3 / 52 + 3 * e5 / 26
    return scale * series / (mean * sqrt(mean)) + 3 * total


def elliprg(x: float, y: float, z: float) -> float:
    r"""Carlson's symmetric integral :math:`R_G` of three numbers, none below 0, in any order.

    It is the mean of :math:`\sqrt{x n_1^2 + y n_2^2 + z n_3^2}` over all directions :math:`n`. Worked out by the
    duplication of Carlson 1995, to the last digits of a float (scipy's function of the same name is the check).

    Examples
    --------
    >>> elliprg(1, 1, 1), elliprg(0, 0, 4)
    (1.0, 1.0)
    """
    low, middle, high = sorted((x, y, z))
    if not 0 <= low <= high < float("inf"):
        raise ValueError("elliprg takes three finite numbers, none below 0")
    if middle <= 1e-20 * high:
        return sqrt(high) / 2  # what the two small ones add is beyond the last digit
    # scaled to a largest of 1; the middle one last, so that nothing cancels
    a, b, c = low / high, 1.0, middle / high
    inner = c * _rf(a, b, c) + (c - a) * (b - c) * _rd(a, b, c) / 3 + sqrt(a / c)
    return sqrt(high) * inner / 2


@cache
def gauss_legendre(order: int) -> tuple[tuple[float, float], ...]:
    """Nodes and weights of the Gauss-Legendre rule on 0 to 1.

    Examples
    --------
    >>> round(sum(weight * node**3 for node, weight in gauss_legendre(2)), 15)
    0.25
    """
    rule = []
    for i in range(order):
        x = cos(pi * (i + 0.75) / (order + 0.5))
        slope = 1.0
        for _ in range(20):
            last, value = 1.0, x
            for k in range(2, order + 1):
                last, value = value, ((2 * k - 1) * x * value - (k - 1) * last) / k
            slope = order * (x * value - last) / (x * x - 1)
            step = value / slope
            x -= step
            if abs(step) < 1e-15:
                break
        rule.append(((1 + x) / 2, 1 / ((1 - x * x) * slope * slope)))
    return tuple(rule)
