"""Pins that locate two sections: two of them, as far apart as can be."""

from math import atan2, dist
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show

_MOST = 1000


class Pins(NamedTuple):
    """Two pins on a joint, from one end of it, and how far they are apart. [m]"""

    first: float
    second: float
    apart: float


class Pair(NamedTuple):
    """The two places farthest apart: their numbers in the list, from 0, and how far they are apart [m]."""

    first: int
    second: int
    apart: float


@door(length="m", end_distance="m", returns={"first": "m", "second": "m", "apart": "m"},
      possible={"length": POSITIVE, "end_distance": NOT_NEGATIVE})
def pin_places(*, length: float, end_distance: float) -> Pins:
    r"""Where the two pins of a straight joint go.

    .. math:: x_1 = e, \qquad x_2 = L - e

    Parameters
    ----------
    length
        Of the joint, :math:`L`. [m]
    end_distance
        From each end, :math:`e`. [m]

    Returns
    -------
    first, second
        From one end. [m]
    apart
        From each other. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; ends that leave no room.

    Notes
    -----
    Range: two locate, a third fights them; a taper lets go when the section is pulled (common practice).
    Source: geometry.

    Examples
    --------
    >>> pins = pin_places(length="1.25 m", end_distance="80 mm")
    >>> print(f"{pins.apart.to('mm').magnitude:.0f}")
    1090
    """
    if 2 * end_distance >= length:
        raise EntryError(Fault("end distance", show(end_distance, "mm"), f"it must be below half the joint, {show(length / 2, 'mm')}"))
    return Pins(end_distance, length - end_distance, length - 2 * end_distance)


@door(x="m[]", y="m[]", z="m[]", returns={"apart": "m"})
def farthest_pair(*, x: list[float], y: list[float], z: list[float]) -> Pair:
    r"""Which two of the places where a pin may go lie farthest apart.

    .. math:: \max_{i < j} \left| r_i - r_j \right|

    Parameters
    ----------
    x, y, z
        Of the places. [m]

    Returns
    -------
    first, second
        Their numbers in the list, from 0. [-]
    apart
        From each other, straight. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind; lists of different lengths, fewer than two places or more than 1000.

    Notes
    -----
    Range: any.
    Source: geometry, every pair.

    Examples
    --------
    >>> farthest_pair(x=["0 m", "0.3 m", "1 m"], y=["0 m", "0.9 m", "0 m"], z=["0 m", "0 m", "0 m"])[:2]
    (1, 2)
    """
    if not len(x) == len(y) == len(z):
        raise EntryError(Fault("x", f"{len(x)} values beside {len(y)} and {len(z)}", "give as many x as y as z"))
    if not 2 <= len(x) <= _MOST:
        raise EntryError(Fault("x", f"{len(x)} places", f"give 2 to {_MOST}"))
    places = list(zip(x, y, z, strict=True))
    apart, first, second = max((dist(a, b), -i, -j) for i, a in enumerate(places) for j, b in enumerate(places) if i < j)
    return Pair(-first, -second, apart)


@door(play="m", apart="m", returns="rad", possible={"play": NOT_NEGATIVE, "apart": POSITIVE})
def pin_turn(*, play: float, apart: float) -> float:
    r"""How far two sections can turn against each other in the play of two pins.

    .. math:: \varphi = \arctan \frac{c}{L}

    Parameters
    ----------
    play
        Difference of hole and pin, the same at both pins, :math:`c`. [m]
    apart
        Between the pins, :math:`L`. [m]

    Returns
    -------
    Angle either way, all in all. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: each pin off by half its play, to opposite sides. Twice as far apart, half the turn.
    Source: geometry.

    Examples
    --------
    >>> print(f"{pin_turn(play='0.5 mm', apart='500 mm').to('degree').magnitude:.3f}")
    0.057
    """
    return atan2(play, apart)
