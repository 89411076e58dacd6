"""Walls that need no series: round panels, a free upper edge, closed rings and balls."""

from typing import NamedTuple

from moldcalc.stages.layup.micro import SOLID
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


class FreeTop(NamedTuple):
    """A wall held fast at its foot: how far its upper edge moves [m], and the moment at the foot [N·m for each m]."""

    deflection: float
    moment: float


class Membrane(NamedTuple):
    """A closed round shell full of liquid: pull in its wall for each metre [N/m], growth of its radius [m]."""

    pull: float
    growth: float


@door(radius="m", pressure="Pa", stiffness="N*m", poisson_ratio="", returns="m",
      possible={"radius": POSITIVE, "pressure": NOT_NEGATIVE, "stiffness": POSITIVE, "poisson_ratio": SOLID})
def supported_round_panel(*, radius: float, pressure: float, stiffness: float, poisson_ratio: float) -> float:
    r"""Middle of a flat round panel held along its edge and free to turn there.

    .. math:: w = \frac{5 + \nu}{1 + \nu} \, \frac{q R^4}{64 D'}

    Parameters
    ----------
    radius
        :math:`R`. [m]
    pressure
        Even, :math:`q`. [Pa]
    stiffness
        Bending, as a plate, :math:`D'`. [N·m]
    poisson_ratio
        Of the wall, :math:`\nu`. [-]

    Returns
    -------
    Deflection. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: up to half the thickness; see `linear_theory`.
    Source: plate theory, closed form (textbook).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = supported_round_panel(radius=Q(1, "m"), pressure=Q(1, "Pa"), stiffness=Q(1, "N*m"), poisson_ratio=0.3)
    >>> print(f"{w.magnitude:.7f}")
    0.0637019
    """
    return (5 + poisson_ratio) / (1 + poisson_ratio) * pressure * radius**4 / 64 / stiffness


@door(radius="m", pressure="Pa", stiffness="N*m", returns="m",
      possible={"radius": POSITIVE, "pressure": NOT_NEGATIVE, "stiffness": POSITIVE})
def clamped_round_panel(*, radius: float, pressure: float, stiffness: float) -> float:
    r"""Middle of a flat round panel held fast along its edge.

    .. math:: w = \frac{q R^4}{64 D'}

    Parameters
    ----------
    radius
        :math:`R`. [m]
    pressure
        Even, :math:`q`. [Pa]
    stiffness
        Bending, as a plate, :math:`D'`. [N·m]

    Returns
    -------
    Deflection. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: up to half the thickness; see `linear_theory`.
    Source: plate theory, closed form (textbook).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{clamped_round_panel(radius=Q(1, 'm'), pressure=Q(1, 'Pa'), stiffness=Q(1, 'N*m')).magnitude:.6f}")
    0.015625
    """
    return pressure * radius**4 / 64 / stiffness


@door(height="m", bottom_pressure="Pa", stiffness="N*m", returns={"deflection": "m", "moment": "N"},
      possible={"height": POSITIVE, "bottom_pressure": NOT_NEGATIVE, "stiffness": POSITIVE})
def free_top_wall(*, height: float, bottom_pressure: float, stiffness: float) -> FreeTop:
    r"""Flat wall held fast at its foot, its upper edge free, liquid up to that edge.

    .. math:: w = \frac{q_b L^4}{30 \, D}, \qquad M = \frac{q_b L^2}{6}

    Parameters
    ----------
    height
        Of wall and liquid, :math:`L`. [m]
    bottom_pressure
        At the foot, :math:`q_b`. [Pa]
    stiffness
        Bending, for a metre of width, :math:`D`. [N·m]

    Returns
    -------
    deflection
        Of the upper edge. [m]
    moment
        At the foot. [N·m for each m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: up to half the thickness. With the beam's stiffness a narrow wall, with the plate's a long one: 9 % less.
    Source: beam theory (computed).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> top = free_top_wall(height=Q(0.6, "m"), bottom_pressure=Q(9414.384, "Pa"), stiffness=Q(533.3333, "N*m"))
    >>> print(f"{top.deflection.to('mm'):.2f~P}, {top.moment.magnitude:.2f} N·m for each m")
    76.26 mm, 564.86 N·m for each m
    """
    return FreeTop(bottom_pressure * height**4 / 30 / stiffness, bottom_pressure * height**2 / 6)


@door(pressure="Pa", radius="m", stretch_stiffness="N/m", returns={"pull": "N/m", "growth": "m"},
      possible={"pressure": NOT_NEGATIVE, "radius": POSITIVE, "stretch_stiffness": POSITIVE})
def closed_ring(*, pressure: float, radius: float, stretch_stiffness: float) -> Membrane:
    r"""Pull and growth of a shell closed all round, like a barrel.

    .. math:: N = q R, \qquad \Delta R = \frac{q R^2}{E t}

    Parameters
    ----------
    pressure
        At that height, :math:`q`. [Pa]
    radius
        :math:`R`. [m]
    stretch_stiffness
        Modulus times thickness of the facings together, :math:`E t`. [N/m]

    Returns
    -------
    pull
        Round the ring, for each metre of height. [N/m]
    growth
        Of the radius. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: closed all round, joints that hold the pull. The joints' bolts carry the whole of it.
    Source: membrane theory, textbook.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> ring = closed_ring(pressure=Q(15.69, "kPa"), radius=Q(0.3, "m"), stretch_stiffness=Q(6.4e9 * 0.005, "N/m"))
    >>> print(f"{ring.pull.magnitude:.0f} N/m, {ring.growth.to('mm'):.5f~P}")
    4707 N/m, 0.04413 mm
    """
    return Membrane(pressure * radius, pressure * radius * (radius / stretch_stiffness))


@door(pressure="Pa", radius="m", stretch_stiffness="N/m", poisson_ratio="", returns={"pull": "N/m", "growth": "m"},
      possible={"pressure": NOT_NEGATIVE, "radius": POSITIVE, "stretch_stiffness": POSITIVE, "poisson_ratio": SOLID})
def closed_ball(*, pressure: float, radius: float, stretch_stiffness: float, poisson_ratio: float) -> Membrane:
    r"""Pull and growth of a shell closed like a ball.

    .. math:: N = \frac{q R}{2}, \qquad \Delta R = \frac{q R^2 (1 - \nu)}{2 E t}

    Parameters
    ----------
    pressure
        :math:`q`. [Pa]
    radius
        :math:`R`. [m]
    stretch_stiffness
        Modulus times thickness of the facings together, :math:`E t`. [N/m]
    poisson_ratio
        Of the wall, :math:`\nu`. [-]

    Returns
    -------
    pull
        Along any line, for each metre. [N/m]
    growth
        Of the radius. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: closed, joints that hold the pull; even pressure.
    Source: membrane theory, textbook.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> ball = closed_ball(pressure=Q(10, "kPa"), radius=Q(0.4, "m"), stretch_stiffness=Q(3.2e7, "N/m"), poisson_ratio=0.3)
    >>> print(f"{ball.pull.magnitude:.0f} N/m, {ball.growth.to('mm'):.4f~P}")
    2000 N/m, 0.0175 mm
    """
    return Membrane(pressure * radius / 2, pressure * radius * (radius * (1 - poisson_ratio) / 2 / stretch_stiffness))
