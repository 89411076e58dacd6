"""A flat panel held fast along all four edges, by Ritz, with shapes whose second derivatives are Legendre's polynomials."""

from typing import NamedTuple

from moldcalc.stages.layup.matrix import solve_band
from moldcalc.stages.layup.shape import Shape, decisive, greatest, supported_shape

#: beyond so many times its other side a clamped panel is a strip, within three parts in a million
LONG = 8.0
#: shapes along the longer and the shorter side
FUNCTIONS = (20, 10)
#: enough for the deflection alone
FEW = (10, 6)


def legendre(x: float, highest: int) -> list[float]:
    """Legendre's polynomials at x, of degree 0 to the highest."""
    found = [1.0, x]
    for n in range(1, highest):
        found.append(((2 * n + 1) * x * found[n] - n * found[n - 1]) / (n + 1))
    return found


def parts(n: int) -> dict[int, float]:
    """The n-th shape of a clamped beam, whose second derivative is the n-th polynomial of Legendre: its parts, by degree."""
    return {n - 2: 1 / ((2 * n - 1) * (2 * n + 1)), n: -2 / ((2 * n - 1) * (2 * n + 3)), n + 2: 1 / ((2 * n + 1) * (2 * n + 3))}


def overlap(one: dict[int, float], other: dict[int, float]) -> float:
    """Integral of a product from -1 to 1."""
    return sum(size * other[n] * 2 / (2 * n + 1) for n, size in one.items() if n in other)


class Beam(NamedTuple):
    """Integrals of the shapes of a clamped beam: each with itself, the next and the one after."""

    bend: list[float]
    same: list[list[float]]
    turn: list[list[float]]


def beam(first: int, functions: int) -> Beam:
    """The shapes from the first on, every other one: even (2) or odd (3) about the middle."""
    up = range(first, first + 2 * functions, 2)
    return Beam([2 / (2 * n + 1) for n in up],
                [[overlap(parts(n), parts(n + 2 * step)) for step in range(3)] for n in up],
                [[overlap({n: 1.0}, parts(n + 2 * step)) for step in range(2)] for n in up])


def amplitudes(ratio: float, outer: Beam, inner: Beam, right: list[float]) -> list[list[float]]:
    """How much of each shape the least energy takes: along the outer side (rows) and the inner; ratio is outer over inner side.

    The longer side is the outer one: the band is as wide as the inner has shapes.
    """
    rows, size = len(outer.bend), len(inner.bend)
    band = [[0.0] * (2 * size + 1) for _ in range(rows * size)]
    squared = ratio * ratio
    for i in range(rows):
        for j in range(size):
            row = band[i * size + j]
            for step in range(min(3, size - j)):
                row[step] += outer.bend[i] * inner.same[j][step]
            for step in range(min(3, rows - i)):
                row[step * size] += squared * squared * outer.same[i][step] * inner.bend[j]
            for step in range(min(2, rows - i)):
                for other in range(max(0, j - 1), min(size, j + 2)):
                    if step or other >= j:
                        row[step * size + other - j] += 2 * squared * outer.turn[i][step] * inner.turn[min(j, other)][abs(other - j)]
    answer = solve_band(band, right)
    return [answer[i * size:(i + 1) * size] for i in range(rows)]


def half(ratio: float, load: dict[int, float], first: int, functions: tuple[int, int]) -> list[list[float]]:
    """Amplitudes along the height (rows) and across, for the part of the load that is even (2) or odd (3); ratio is height over width."""
    along, few = functions
    evenly = overlap({0: 1.0}, parts(2))
    pushed = overlap(load, parts(first)) * evenly
    if ratio >= 1:
        return amplitudes(ratio, beam(first, along), beam(2, few), [pushed] + [0.0] * (along * few - 1))
    found = amplitudes(1 / ratio, beam(2, along), beam(first, few), [pushed / ratio**4] + [0.0] * (along * few - 1))
    return [list(column) for column in zip(*found, strict=True)]


class _Middle(NamedTuple):
    """Down the middle of a panel, as Legendre's polynomials: deflection, curvature up and sideways, curvature at the side edge."""

    deflection: list[float]
    up: list[float]
    sideways: list[float]
    side: list[float]


def _middle(first: int, rows: list[list[float]]) -> _Middle:
    across = [2 + 2 * j for j in range(len(rows[0]))]
    at_zero = legendre(0.0, across[-1] + 2)
    found = _Middle(*([0.0] * (2 * len(rows) + 5) for _ in range(4)))
    for n, line in zip(range(first, first + 2 * len(rows), 2), rows, strict=True):
        here = sum(c * sum(v * at_zero[degree] for degree, v in parts(k).items()) for c, k in zip(line, across, strict=True))
        bent = sum(c * at_zero[k] for c, k in zip(line, across, strict=True))
        found.up[n] += here
        for degree, share in parts(n).items():
            found.deflection[degree] += share * here
            found.sideways[degree] += share * bent
            found.side[degree] += share * sum(line)
    return found


def clamped_shape(height: float, width: float, bottom: float, top: float, poisson_ratio: float, functions: tuple[int, int] = FUNCTIONS) -> Shape:
    """All four edges held fast, at half the width. The core's shear is that of a panel that is free to turn."""
    h, w, low, high, start = decisive(height, width, bottom, top, LONG)
    ratio, slope, nu = h / w, (high - low) / 2, poisson_ratio
    halves = [_middle(2, half(ratio, {0: (low + high) / 2}, 2, functions))]
    if slope:
        halves.append(_middle(3, half(ratio, {1: slope}, 3, functions)))
    total = _Middle(*([sum(pair) for pair in zip(*lists, strict=True)] for lists in zip(*halves, strict=True)))
    squared = ratio * ratio

    def of(sizes: list[float], x: float) -> float:
        return sum(size * p for size, p in zip(sizes, legendre(x, len(sizes) - 1), strict=True))

    def peak(sizes: list[float]) -> tuple[float, float]:
        at = greatest(lambda x: of(sizes, x), -1.0, 1.0) if slope else 0.0
        return of(sizes, at), at

    upward = [-(one + nu * squared * other) for one, other in zip(total.up, total.sideways, strict=True)]
    sideways = [-(squared * other + nu * one) for one, other in zip(total.up, total.sideways, strict=True)]
    deflection, at = peak(total.deflection)
    moment = max(peak(upward)[0], peak(sideways)[0])
    edge = max(of(total.up, -1.0), of(total.up, 1.0), squared * peak(total.side)[0])
    shear = supported_shape(height, width, bottom, top, nu, moments=False).shear
    return Shape(deflection * (h / 2) ** 4, shear, start + (at + 1) * h / 2, moment * (h / 2) ** 2, edge * (h / 2) ** 2)
