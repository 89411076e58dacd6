"""Integrals of mean curvature: what a body's roundness and edges add to a coat on it."""

from math import pi, tan

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.original.integrals import elliprg
from moldcalc.stages.original.solids import refuse_closed_ring
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door


@door(radius="m", returns="m", possible={"radius": POSITIVE})
def mean_curvature_sphere(*, radius: float) -> float:
    r"""Integral of mean curvature over a sphere.

    .. math:: M = 4 \pi R

    Parameters
    ----------
    radius
        :math:`R`. [m]

    Returns
    -------
    Integral of mean curvature. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{mean_curvature_sphere(radius='50 cm'):.6f~P}")
    6.283185 m
    """
    return 4 * pi * radius


@door(a="m", b="m", c="m", returns="m", possible={"a": POSITIVE, "b": POSITIVE, "c": POSITIVE})
def mean_curvature_ellipsoid(*, a: float, b: float, c: float) -> float:
    r"""Integral of mean curvature over an ellipsoid.

    .. math:: M = 4 \pi \, R_G(a^2, b^2, c^2)

    Parameters
    ----------
    a, b, c
        The three semi-axes, in any order. [m]

    Returns
    -------
    Integral of mean curvature. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: computed: :math:`4 \pi` times the mean of the support function
    :math:`\sqrt{a^2 n_1^2 + b^2 n_2^2 + c^2 n_3^2}` over all directions, which is what Carlson's :math:`R_G` is.

    Examples
    --------
    >>> print(f"{mean_curvature_ellipsoid(a='1 m', b='2 m', c='3 m'):.10f~P}")
    26.4048573880 m
    """
    largest = max(a, b, c)
    return 4 * pi * largest * elliprg((a / largest) ** 2, (b / largest) ** 2, (c / largest) ** 2)


@door(length="m", width="m", height="m", returns="m", possible={"length": NOT_NEGATIVE, "width": NOT_NEGATIVE, "height": NOT_NEGATIVE})
def mean_curvature_box(*, length: float, width: float, height: float) -> float:
    r"""Integral of mean curvature over a box: all of it sits in the twelve edges.

    .. math:: M = \pi (l + w + h)

    Parameters
    ----------
    length, width, height
        The three edges, :math:`l, w, h`; 0 is a plate. [m]

    Returns
    -------
    Integral of mean curvature. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{mean_curvature_box(length='1 m', width='1 m', height='1 m'):.6f~P}")
    9.424778 m
    """
    return pi * (length + width + height)


@door(ring_radius="m", tube_radius="m", returns="m", possible={"ring_radius": POSITIVE, "tube_radius": POSITIVE})
def mean_curvature_torus(*, ring_radius: float, tube_radius: float) -> float:
    r"""Integral of mean curvature over a ring with a round section (its Euler number is 0).

    .. math:: M = 2 \pi^2 R

    Parameters
    ----------
    ring_radius
        From the ring's middle to the middle of the tube, :math:`R`. [m]
    tube_radius
        Of the tube; only checked. [m]

    Returns
    -------
    Integral of mean curvature. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.
        Also a tube too thick for a hole.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{mean_curvature_torus(ring_radius='0.4 m', tube_radius='0.15 m'):.10f~P}")
    7.8956835209 m
    """
    refuse_closed_ring(ring_radius, tube_radius)
    return 2 * pi * pi * ring_radius


@door(lengths="m[]", turns="rad[]", returns="m", possible={"lengths": NOT_NEGATIVE, "turns": Range(-pi, pi)})
def mean_curvature_edges(*, lengths: list[float], turns: list[float]) -> float:
    r"""Integral of mean curvature over a body with flat faces, from its edges.

    .. math:: M = \sum_{outside} l \frac{\theta}{2} - \sum_{inside} l \tan \frac{|\theta|}{2}

    Parameters
    ----------
    lengths
        Of the edges, :math:`l`. [m]
    turns
        How far the surface turns at each edge, :math:`\theta`: above 0 at an outside edge (90° on a box), below 0 at
        an inside edge. [rad]

    Returns
    -------
    Integral of mean curvature, for use in `grown_volume` and `coat_volume`. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: with half the angle at an inside edge it would be the integral proper; but there two coats overlap, and the
    volume that is lost is tan of the half angle. With the tangent the second-order term is exact for prisms as long as
    no strip runs off its face (computed: L-section, V-notch); on a fine mesh of a smooth body it is the same.
    The outside edges alone give an upper bound.
    Source: half of length times turning angle, verified in a public course; the tangent computed and checked by count.

    Examples
    --------
    A unit cube:

    >>> print(f"{mean_curvature_edges(lengths=['1 m'] * 12, turns=['90°'] * 12):.9f~P}")
    9.424777961 m
    """
    if len(lengths) != len(turns):
        raise EntryError(Fault("list of turns", f"{len(turns)} long", f"give one for each of the {len(lengths)} lengths"))
    return sum(length * (turn / 2 if turn >= 0 else tan(turn / 2)) for length, turn in zip(lengths, turns, strict=True))
