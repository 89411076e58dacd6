"""The superellipsoid: anything between an octahedron, an ellipsoid and a box with rounded edges."""

from functools import lru_cache
from itertools import pairwise
from math import exp, lgamma, sqrt

from moldcalc.stages.original.integrals import gauss_legendre
from moldcalc.units import POSITIVE, Range, door

_AXES = {"a": POSITIVE, "b": POSITIVE, "c": POSITIVE}
_ORDER = 24
_PANELS = (0.0, 0.5, 0.85, 1.0)


@lru_cache(maxsize=64)
def cube_nodes(power: float) -> tuple[tuple[float, float, float], ...]:
    """(u, u to the power, weight) on 0 to 1.

    Nodes crowd at 0 (there a broken power has no smooth derivatives) and at 1 (there a high power rises steeply).
    """
    nodes = []
    for low, high in pairwise(_PANELS):
        for place, weight in gauss_legendre(_ORDER):
            t = low + (high - low) * place
            nodes.append((t**4, t ** (4 * power), weight * (high - low) * 4 * t**3))
    return tuple(nodes)


@door(a="m", b="m", c="m", exponent_north_south="", exponent_waist="", returns="m^3",
      possible=_AXES | {"exponent_north_south": POSITIVE, "exponent_waist": POSITIVE},
      holds={"exponent_north_south": (0, 2), "exponent_waist": (0, 2)})
def superellipsoid_volume(*, a: float, b: float, c: float, exponent_north_south: float, exponent_waist: float) -> float:
    r"""Volume of a superellipsoid with two exponents.

    .. math:: V = 2 a b c \, e_1 e_2 \, B(e_1/2 + 1, e_1) \, B(e_2/2, e_2/2)

    Parameters
    ----------
    a, b, c
        The three semi-axes; c points north. [m]
    exponent_north_south, exponent_waist
        :math:`e_1` shapes the outline from pole to pole, :math:`e_2` the outline round the waist. Near 0 is square,
        1 is round, 2 is a diamond. [-]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; above 2 the shape is pinched inwards and no figure looks like it.
    Source: known formula with the beta function :math:`B`, from memory; computed here with gamma functions that stay
    finite as the exponents go to 0. Its limits (box, cylinder, ellipsoid, octahedron) are exact.
    The body of :math:`|x/a|^n + |y/b|^n + |z/c|^n \le 1` has both exponents 2/n.

    Examples
    --------
    >>> print(f"{superellipsoid_volume(a='1 m', b='1 m', c='1 m', exponent_north_south=0.5, exponent_waist=0.5):.9f~P}")
    6.481987352 m³
    """
    e1, e2 = exponent_north_south, exponent_waist
    along = lgamma(1 + e1 / 2) + lgamma(1 + e1) - lgamma(1 + 1.5 * e1)
    round_about = 2 * lgamma(1 + e2 / 2) - lgamma(1 + e2)
    return 8 * a * b * c * exp(along + round_about)


@door(a="m", b="m", c="m", power="", returns="m^2", possible=_AXES | {"power": Range(0.5, 200, True, True)}, holds={"power": (1, 20)})
def superellipsoid_area(*, a: float, b: float, c: float, power: float) -> float:
    r"""Area of the superellipsoid with one power.

    .. math:: |x/a|^n + |y/b|^n + |z/c|^n = 1

    Parameters
    ----------
    a, b, c
        The three semi-axes. [m]
    power
        1 is an octahedron, 2 an ellipsoid, 4 a pillow, 20 nearly a box, :math:`n`. [-]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: there is no closed form. Right to 1e-9 for powers 1 to 20 and axes up to 1 : 10 (1e-5 up to 200).
    Source: computed. The surface is projected from a cube,
    :math:`dA = s^{n+2} \, abc \sqrt{a^{-2} + u^{2n-2} b^{-2} + v^{2n-2} c^{-2}} \; du \, dv` with
    :math:`s = (1 + u^n + v^n)^{-1/n}`, for the usual angles have unbounded derivatives; summed by Gauss-Legendre.

    Examples
    --------
    >>> print(f"{superellipsoid_area(a='0.55 m', b='0.20 m', c='0.30 m', power=4):.8f~P}")
    2.00713858 m²
    """
    largest = max(a, b, c)
    axes = (a / largest, b / largest, c / largest)
    nodes = [(un, (un / u) ** 2, weight) for u, un, weight in cube_nodes(power)]
    fall = -(power + 2) / power
    total = 0.0
    for turn in range(3):
        p, q, r = axes[turn], axes[turn - 2], axes[turn - 1]
        for un, u_slope, u_weight in nodes:
            base, foot = 1 + un, (q * r) ** 2 + u_slope * (p * r) ** 2
            row = sum(weight * (base + vn) ** fall * sqrt(foot + v_slope * (p * q) ** 2) for vn, v_slope, weight in nodes)
            total += u_weight * row
    return 8 * largest * largest * total


@door(a="m", b="m", c="m", power="", returns="m", possible=_AXES | {"power": Range(1, 200, True, True)}, holds={"power": (1.2, 20)})
def mean_curvature_superellipsoid(*, a: float, b: float, c: float, power: float) -> float:
    r"""Integral of mean curvature over the superellipsoid with one power.

    .. math:: M = \oint h \, d\omega, \qquad h = \left( (a n_1)^m + (b n_2)^m + (c n_3)^m \right)^{1/m}, \quad m = n/(n-1)

    Parameters
    ----------
    a, b, c
        The three semi-axes. [m]
    power
        1 is an octahedron, 2 an ellipsoid, 20 nearly a box, :math:`n`. [-]

    Returns
    -------
    Integral of mean curvature. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: right to 1e-6 for powers 1.2 to 20 and axes up to 1 : 10; to 1e-3 for any other.
    Source: computed: the support function :math:`h` of a convex body, summed over all directions (:math:`M = 2 \pi`
    times the mean width).

    Examples
    --------
    >>> print(f"{mean_curvature_superellipsoid(a='1 m', b='2 m', c='3 m', power=2):.6f~P}")
    26.404857 m
    """
    largest = max(a, b, c)
    axes = (a / largest, b / largest, c / largest)
    dual = power / (power - 1) if power > 1.005 else 200.0
    nodes = [(u, un, weight) for u, un, weight in cube_nodes(dual)]
    total = 0.0
    for turn in range(3):
        p, q, r = axes[turn] ** dual, axes[turn - 2] ** dual, axes[turn - 1] ** dual
        for u, un, u_weight in nodes:
            base, square = p + q * un, 1 + u * u
            total += u_weight * sum(weight * (base + r * vn) ** (1 / dual) / (square + v * v) ** 2 for v, vn, weight in nodes)
    return 8 * largest * total
