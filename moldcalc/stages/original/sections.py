"""Sections that aren't round: from girth and greatest width, or from areas."""

from itertools import pairwise
from math import pi
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.original.tape import refuse_uneven
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show

#: readings are rounded: a width this little too small for its girth is still a circle
_ROUNDING = 1e-9


class Stadium(NamedTuple):
    """A rectangle with half-round ends: radius of the ends, HALF the length of a straight side, area."""

    radius: float
    straight: float
    area: float


def _ends_and_straight(girth: float, width: float) -> tuple[float, float]:
    """Radius of the ends and half the straight side; both 0 at a tip."""
    if girth == 0 and width == 0:
        return 0.0, 0.0
    with_girth = f"{show(width, 'mm')} with a girth of {show(girth, 'mm')}"
    if width * (1 + _ROUNDING) < girth / pi:
        raise EntryError(Fault("width", with_girth, f"no section is that slim all round; its greatest width is at least {show(girth / pi, 'mm')}"))
    if width >= girth / 2:
        raise EntryError(Fault("width", with_girth, f"the tape goes there and back, so it must be below {show(girth / 2, 'mm')}"))
    return (girth - 2 * width) / (2 * pi - 4), max(0.0, (pi * width - girth) / (2 * pi - 4))


@door(girth="m", width="m", returns={"radius": "m", "straight": "m", "area": "m^2"}, possible={"girth": POSITIVE, "width": POSITIVE})
def stadium_section(*, girth: float, width: float) -> Stadium:
    r"""The rectangle with half-round ends that has this girth and this greatest width.

    .. math:: r = \frac{P - 2 w}{2 \pi - 4}, \quad t = \frac{\pi w - P}{2 \pi - 4}, \quad A = \pi r^2 + 4 r t

    Parameters
    ----------
    girth
        Tape round the section, :math:`P`. [m]
    width
        Its greatest width, calliper or two uprights, :math:`w`. [m]

    Returns
    -------
    radius of the ends [m], straight: half the length of a straight side [m], area [m²].

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a width that no section with this
        girth can have.

    Notes
    -----
    Range: :math:`2 < P/w \le \pi`. On men's waists the tape reads 1.7 % more than the stadium
    through breadth and depth, 5.4 % more than the ellipse (computed from public body data).
    Source: section of a published body model (Yeadon 1990); formulas recomputed by an exact round trip.

    Examples
    --------
    >>> section = stadium_section(girth="0.8283185307 m", width="0.30 m")
    >>> [f"{part:.4f~P}" for part in section]
    ['0.1000 m', '0.0500 m', '0.0514 m²']
    """
    radius, straight = _ends_and_straight(girth, width)
    return Stadium(radius, straight, pi * radius * radius + 4 * radius * straight)


@door(heights="m[]", girths="m[]", widths="m[]", returns="m^3", possible={"girths": NOT_NEGATIVE, "widths": NOT_NEGATIVE})
def stadium_volume(*, heights: list[float], girths: list[float], widths: list[float]) -> float:
    r"""Volume of a figure from girth and greatest width at stations along it.

    .. math:: V = \sum \Delta z \left( \pi \, \overline{r^2} + 4 \, \overline{r t} \right)

    Parameters
    ----------
    heights
        Of the stations along the axis, rising. [m]
    girths
        Tape round the figure at each station; 0 at a tip. [m]
    widths
        Greatest width at each station; 0 at a tip. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; a width
        that no section with this girth can have.

    Notes
    -----
    Range: sections like a stadium, r and t linear in height between stations. 10 to 27 % too high on compact
    figures along their long axis (computed on public meshes), where girths alone give 26 to 48 %.
    Source: solid of a published body model (Yeadon 1990), integrated by hand; agrees with an open program for it.

    Examples
    --------
    >>> volume = stadium_volume(heights=["0 m", "0.139 m"], girths=["0.75 m", "0.739 m"], widths=["0.274 m", "0.251 m"])
    >>> print(f"{volume:.11f~P}")
    0.00590234273 m³
    """
    refuse_uneven(heights, girths=girths, widths=widths)
    stations = [(height, *_ends_and_straight(girth, width)) for height, girth, width in zip(heights, girths, widths, strict=True)]
    total = 0.0
    for (foot, r0, t0), (top, r1, t1) in pairwise(stations):
        squares = (r0 * r0 + r0 * r1 + r1 * r1) / 3
        products = (2 * r0 * t0 + r0 * t1 + r1 * t0 + 2 * r1 * t1) / 6
        total += (top - foot) * (pi * squares + 4 * products)
    return total


@door(height="m", low_area="m^2", middle_area="m^2", high_area="m^2", returns="m^3",
      possible={"height": POSITIVE, "low_area": NOT_NEGATIVE, "middle_area": NOT_NEGATIVE, "high_area": NOT_NEGATIVE})
def prismatoid_volume(*, height: float, low_area: float, middle_area: float, high_area: float) -> float:
    r"""Volume from the areas of three sections: both ends and half way.

    .. math:: V = \tfrac{h}{6} (A_0 + 4 A_m + A_1)

    Parameters
    ----------
    height
        From the first section to the last, :math:`h`. [m]
    low_area, middle_area, high_area
        Of the sections, :math:`A_0, A_m, A_1`; 0 at a tip. [m²]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact for sphere, ellipsoid, cone, frustum, pyramid and wedge; a first guess for anything else.
    Source: prismatoid rule (Simpson), exact for areas up to the third power of height.

    Examples
    --------
    >>> print(f"{prismatoid_volume(height='2 m', low_area='0 m²', middle_area='3.14159265359 m²', high_area='0 m²'):.7f~P}")
    4.1887902 m³
    """
    return height / 6 * (low_area + 4 * middle_area + high_area)
