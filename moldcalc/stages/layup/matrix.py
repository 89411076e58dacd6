"""Small matrices in plain Python: products, inverses, symmetric bands.

Three rows of three, or a band of a hundred: no numpy, since the kernel also has to run in the class handout's browser page,
where nothing is installed.
"""

from collections.abc import Sequence
from math import isfinite

Matrix = list[list[float]]


def product(left: Matrix, right: Matrix) -> Matrix:
    """left · right."""
    columns = list(zip(*right, strict=True))
    return [[sum(x * y for x, y in zip(row, column, strict=True)) for column in columns] for row in left]


def minus(left: Matrix, right: Matrix) -> Matrix:
    """left - right."""
    return [[x - y for x, y in zip(one, other, strict=True)] for one, other in zip(left, right, strict=True)]


def inverse(matrix: Matrix) -> Matrix:
    """Inverse by elimination with the largest pivot of each column.

    Raises
    ------
    ZeroDivisionError
        The matrix has none.
    """
    size = len(matrix)
    rows = [[*row, *(1.0 if column == place else 0.0 for column in range(size))] for place, row in enumerate(matrix)]
    for step in range(size):
        best = max(range(step, size), key=lambda row: abs(rows[row][step]))
        rows[step], rows[best] = rows[best], rows[step]
        pivot = rows[step][step]
        rows[step] = [value / pivot for value in rows[step]]
        for other in range(size):
            factor = rows[other][step]
            if other != step and factor:
                rows[other] = [x - factor * y for x, y in zip(rows[other], rows[step], strict=True)]
    return [row[size:] for row in rows]


def solve_band(band: list[list[float]], right: Sequence[float]) -> list[float]:
    """Solves a symmetric positive matrix stored as its upper band: ``band[i][k]`` is the entry in row i, column i + k.

    The band is eaten up on the way.
    """
    size, answer = len(band), list(right)
    for step in range(size):
        row = band[step]
        pivot = row[0]
        reach = min(len(row), size - step)
        for below in range(1, reach):
            if not row[below]:
                continue
            factor = row[below] / pivot
            target = band[step + below]
            for place in range(below, reach):
                target[place - below] -= factor * row[place]
            answer[step + below] -= factor * answer[step]
    for step in reversed(range(size)):
        row = band[step]
        known = sum(row[k] * answer[step + k] for k in range(1, min(len(row), size - step)))
        answer[step] = (answer[step] - known) / row[0]
    return answer


def all_finite(*matrices: Matrix) -> None:
    """Refuses what overflowed on the way; the door says it of its entries.

    Raises
    ------
    OverflowError
        An entry that is not a finite number.
    """
    if not all(isfinite(value) for matrix in matrices for row in matrix for value in row):
        raise OverflowError
