"""Area and volume from a tape measure: girths at stations along a figure."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot, pi, sqrt
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show


class Band(NamedTuple):
    """A likely value and the two between which it will be."""

    low: float
    likely: float
    high: float


def refuse_uneven(heights: Sequence[float], **columns: Sequence[float]) -> None:
    """Stations come in rising order, at least two of them, each with all its readings."""
    for name, column in columns.items():
        if len(column) != len(heights):
            raise EntryError(Fault(f"list of {name}", f"{len(column)} long", f"give one for each of the {len(heights)} heights"))
    if len(heights) < 2:
        raise EntryError(Fault("list of heights", "1 long", "give at least two stations"))
    for below, above in pairwise(heights):
        if above < below:
            raise EntryError(Fault("height of a station", f"{show(above, 'mm')} after {show(below, 'mm')}", "give the stations in rising order"))


@door(heights="m[]", girths="m[]", returns="m^2", possible={"girths": NOT_NEGATIVE})
def girth_area(*, heights: list[float], girths: list[float]) -> float:
    r"""Area of a figure from girths measured at stations along it, ends left out.

    .. math:: A = \sum \frac{G_i + G_{i+1}}{2} \sqrt{\Delta z^2 + \left( \frac{\Delta G}{2 \pi} \right)^2}

    Parameters
    ----------
    heights
        Of the stations along the axis, rising, :math:`z_i`. [m]
    girths
        Tape round the figure at each station, square to the axis, :math:`G_i`; 0 at a tip. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: exact for cylinders and cones of round section; about 15 % either way on real figures along their long axis
    (measured on public meshes; few stations read low, bridged hollows read high). Along a short axis don't use it.
    Two stations at one height count the flat step between them. Ends are added with `end_disc_area`; a base on the
    board is not brushed.
    Source: frustum areas summed, elementary geometry. The slope term takes the section for round.

    Examples
    --------
    >>> area = girth_area(heights=["0 m", "0.1 m", "0.25 m", "0.4 m", "0.55 m", "0.7 m", "0.85 m", "1.0 m", "1.1 m"],
    ...     girths=["50 cm", "92 cm", "120 cm", "128 cm", "115 cm", "86 cm", "70 cm", "48 cm", "20 cm"])
    >>> print(f"{area:.10f~P}")
    1.0264160592 m²
    """
    refuse_uneven(heights, girths=girths)
    return sum((below + above) / 2 * hypot(top - foot, (above - below) / (2 * pi))
               for (foot, below), (top, above) in pairwise(zip(heights, girths, strict=True)))


@door(heights="m[]", girths="m[]", returns="m^3", possible={"girths": NOT_NEGATIVE})
def girth_volume(*, heights: list[float], girths: list[float]) -> float:
    r"""Largest volume that girths at stations leave room for.

    .. math:: V = \sum \frac{\Delta z}{12 \pi} (G_i^2 + G_i G_{i+1} + G_{i+1}^2)

    Parameters
    ----------
    heights
        Of the stations along the axis, rising, :math:`z_i`. [m]
    girths
        Tape round the figure at each station, square to the axis, :math:`G_i`; 0 at a tip. [m]

    Returns
    -------
    Volume, an upper bound. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: an UPPER BOUND between stations: of all sections with one girth the circle is the largest. Too large by
    19 % for an ellipse 2 : 1, 27 % for a square; by 10 to 50 % on compact figures (measured on public meshes), useless
    with limbs taped together. Give greatest widths too, and use `stadium_volume`.
    Source: frustum volumes summed, elementary geometry; isoperimetric inequality.

    Examples
    --------
    >>> print(f"{girth_volume(heights=['0 m', '4 m'], girths=['18.8495559215 m', '0 m']):.6f~P}")
    37.699112 m³
    """
    refuse_uneven(heights, girths=girths)
    return sum((top - foot) * (below * below + below * above + above * above) / (12 * pi)
               for (foot, below), (top, above) in pairwise(zip(heights, girths, strict=True)))


@door(girth="m", returns="m^2", possible={"girth": NOT_NEGATIVE})
def end_disc_area(*, girth: float) -> float:
    r"""Area of the flat round end that a girth surrounds.

    .. math:: A = \frac{G^2}{4 \pi}

    Parameters
    ----------
    girth
        At the end, :math:`G`. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact for a circle, the most there can be for any other outline.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{end_disc_area(girth='50 cm') + end_disc_area(girth='20 cm'):.10f~P}")
    0.0230774667 m²
    """
    return girth * girth / (4 * pi)


@door(girth="m", centroid_length="m", returns="m^2", possible={"girth": POSITIVE, "centroid_length": POSITIVE})
def ring_area(*, girth: float, centroid_length: float) -> float:
    r"""Area of a bent limb of even section: a tail, an arm, a ring.

    .. math:: A = G \, L

    Parameters
    ----------
    girth
        Square to the axis, :math:`G`. [m]
    centroid_length
        Along the line through the MIDDLE of the sections, :math:`L`. [m]

    Returns
    -------
    Area, ends left out. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact for a bend in one plane. Taped along the outside of a ring of 0.4 m with a tube of 0.15 m it reads
    37.5 % high, along the inside as much low.
    Source: Pappus.

    Examples
    --------
    >>> print(f"{ring_area(girth='0.9424777961 m', centroid_length='2.5132741229 m'):.9f~P}")
    2.368705056 m²
    """
    return girth * centroid_length


@door(a="m", b="m", returns="m", possible={"a": NOT_NEGATIVE, "b": NOT_NEGATIVE})
def ellipse_perimeter(*, a: float, b: float) -> float:
    r"""Girth of an ellipse.

    .. math:: P = 4 a E(m), \quad m = 1 - b^2/a^2

    Parameters
    ----------
    a, b
        The two semi-axes (half of width and depth), in either order. [m]

    Returns
    -------
    Perimeter. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; b = 0 is a plate, 4 a. Worked out by the arithmetic-geometric mean. On people the tape reads
    5 % (waist) to 24 % (chest) more than the ellipse through breadth and depth (computed from public body data).
    Source: Gauss; from memory, checked against a library's elliptic integral.

    Examples
    --------
    >>> print(f"{ellipse_perimeter(a='30 cm', b='15 cm'):.7f~P}")
    1.4532672 m
    """
    longer, shorter = max(a, b), min(a, b)
    if shorter <= 1e-150 * longer:
        return 4 * longer
    high, low = 1.0, shorter / longer
    spread, weight = (1 - low) * (1 + low) / 2, 0.5
    for _ in range(40):
        gap = (high - low) / 2
        high, low = (high + low) / 2, sqrt(high * low)
        weight *= 2
        spread += weight * gap * gap
        if gap <= 1e-17:
            break
    return 2 * pi * longer * (1 - spread) / high


@door(area="m^2", returns={"low": "m^2", "likely": "m^2", "high": "m^2"}, possible={"area": POSITIVE})
def tape_band(*, area: float) -> Band:
    r"""How far off an area from girths may be.

    .. math:: 0.85 \, A, \quad A, \quad 1.15 \, A

    Parameters
    ----------
    area
        From girths at stations along the long axis, :math:`A`. [m²]

    Returns
    -------
    low, likely, high. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: along the long axis. More stations don't narrow the band: from 8 to 32 of them the answer still moved by
    13 to 19 %, since hollows are bridged.
    Source: computed: convex girths of plane sections of three public meshes, 8 to 32 stations, gave 0.86 to 1.16 of
    the true area.

    Examples
    --------
    >>> [f"{side:.2f~P}" for side in tape_band(area="1 m²")]
    ['0.85 m²', '1.00 m²', '1.15 m²']
    """
    return Band(0.85 * area, area, 1.15 * area)
