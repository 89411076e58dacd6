"""How far the mold on its legs can lean before it goes over, and what pushes it over."""

from math import atan2, cos, pi, tan
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.stages.mixing.counting import whole
from moldcalc.units import ANY, NOT_NEGATIVE, POSITIVE, Range, door

_LEAN = Range(0, pi / 2)


class Push(NamedTuple):
    """A push from the side: the one that tips [N], the one that slides it [N], and whether it slides before it tips."""

    tips: float
    slides: float
    slides_first: bool


class Supports(NamedTuple):
    """Best places of two supports under an even beam: overhang at each end [m], and the greatest moment then [N·m]."""

    overhang: float
    moment: float


def legs_of(value: float) -> int:
    """Number of legs on a ring."""
    if value > 1000:
        raise EntryError(Fault("legs", f"{value:g}", "it must be at most 1000"))
    legs = whole(value, "legs")
    if legs < 3:
        raise EntryError(Fault("legs", f"{legs}", "it must be at least 3"))
    return legs


@door(lever="m", centre_height="m", returns="rad", possible={"lever": ANY, "centre_height": POSITIVE})
def tip_angle(*, lever: float, centre_height: float) -> float:
    r"""Lean at which something goes over an edge by itself.

    .. math:: \theta = \arctan \frac{b}{h}

    Parameters
    ----------
    lever
        From the edge to under the centre of mass, level, :math:`b`; below 0 where it is outside already. [m]
    centre_height
        Of the centre of mass over the feet, :math:`h`. [m]

    Returns
    -------
    Angle; below 0 it goes over as it stands. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: stiff legs that do not slip, nothing liquid that runs to the low side.
    Source: statics.

    Examples
    --------
    >>> print(f"{tip_angle(lever='200 mm', centre_height='900 mm').to('degree').magnitude:.4f}")
    12.5288
    """
    return atan2(lever, centre_height)


@door(radius="m", legs="", returns="m", possible={"radius": POSITIVE, "legs": POSITIVE})
def ring_lever(*, radius: float, legs: float) -> float:
    r"""From the middle of a ring of legs to its nearest edge.

    .. math:: b = r \cos \frac{\pi}{n}

    Parameters
    ----------
    radius
        Of the ring, :math:`r`. [m]
    legs
        Evenly spaced, :math:`n`. [-]

    Returns
    -------
    Distance. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not a whole number of legs, or fewer than 3.

    Notes
    -----
    Range: centre of mass over the ring's middle.
    Source: geometry.

    Examples
    --------
    >>> print(f"{ring_lever(radius='400 mm', legs=3).to('mm').magnitude:.0f}")
    200
    """
    return radius * cos(pi / legs_of(legs))


@door(radius="m", legs="", centre_height="m", returns="rad", possible={"radius": POSITIVE, "legs": POSITIVE, "centre_height": POSITIVE})
def ring_tip_angle(*, radius: float, legs: float, centre_height: float) -> float:
    r"""Lean at which a mold on a ring of legs goes over.

    .. math:: \theta = \arctan \frac{r \cos(\pi/n)}{h}

    Parameters
    ----------
    radius
        Of the ring, :math:`r`. [m]
    legs
        Evenly spaced, :math:`n`. [-]
    centre_height
        Of the centre of mass over the feet, :math:`h`. [m]

    Returns
    -------
    Angle. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not a whole number of legs, or fewer than 3.

    Notes
    -----
    Range: as `tip_angle`, centre of mass over the ring's middle. Three legs never rock, but go over soonest.
    Source: statics.

    Examples
    --------
    >>> print(f"{ring_tip_angle(radius='400 mm', legs=4, centre_height='900 mm').to('degree').magnitude:.4f}")
    17.4464
    """
    return atan2(ring_lever.si(radius=radius, legs=legs), centre_height)


@door(angle="rad", legs="", centre_height="m", returns="m", possible={"angle": _LEAN, "legs": POSITIVE, "centre_height": POSITIVE})
def ring_radius_for(*, angle: float, legs: float, centre_height: float) -> float:
    r"""How far out the legs must stand for a wanted lean.

    .. math:: r = \frac{h \tan \theta}{\cos(\pi/n)}

    Parameters
    ----------
    angle
        That it must stand, :math:`\theta`. [rad]
    legs
        Evenly spaced, :math:`n`. [-]
    centre_height
        Of the centre of mass over the feet, :math:`h`. [m]

    Returns
    -------
    Radius of the ring of feet. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not a whole number of legs, or fewer than 3.

    Notes
    -----
    Range: as `ring_tip_angle`.
    Source: statics.

    Examples
    --------
    >>> print(f"{ring_radius_for(angle='15°', legs=4, centre_height='600 mm').to('mm').magnitude:.0f}")
    227
    """
    return centre_height * tan(angle) / cos(pi / legs_of(legs))


@door(mass="kg", lever="m", push_height="m", friction="", returns={"tips": "N", "slides": "N"},
      possible={"mass": POSITIVE, "lever": NOT_NEGATIVE, "push_height": POSITIVE, "friction": NOT_NEGATIVE}, holds={"friction": (0.1, 1)})
def push_over(*, mass: float, lever: float, push_height: float, friction: float) -> Push:
    r"""Push from the side that tips something, or slides it first.

    .. math:: F_t = \frac{m g b}{z}, \qquad F_s = \mu \, m g

    Parameters
    ----------
    mass
        :math:`m`. [kg]
    lever
        From the edge to under the centre of mass, level, :math:`b`. [m]
    push_height
        Over the floor, :math:`z`. [m]
    friction
        Of feet and floor, :math:`\mu`. [-]

    Returns
    -------
    tips
        Push that tips it. [N]
    slides
        Push that slides it. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a slow push; somebody who stumbles against it pushes harder for a moment.
    Source: statics.

    Examples
    --------
    >>> push = push_over(mass="74 kg", lever="200 mm", push_height="1 m", friction=0.4)
    >>> print(f"{push.tips.magnitude:.0f} N tips it, {push.slides.magnitude:.0f} N slides it")
    145 N tips it, 290 N slides it
    """
    weight = mass * GRAVITY
    tips, slides = weight * lever / push_height, friction * weight
    return Push(tips, slides, slides < tips)


@door(length="m", line_load="N/m", returns={"overhang": "m", "moment": "N*m"}, possible={"length": POSITIVE, "line_load": NOT_NEGATIVE})
def two_supports(*, length: float, line_load: float) -> Supports:
    r"""Where two supports under a long even section bend it least.

    .. math:: a = \frac{\sqrt{2} - 1}{2} L, \qquad M = \frac{3 - 2 \sqrt{2}}{8} \, q L^2

    Parameters
    ----------
    length
        Of the section, :math:`L`. [m]
    line_load
        Its weight on a metre, :math:`q`. [N/m]

    Returns
    -------
    overhang
        At each end, :math:`a`. [m]
    moment
        Over the supports and, the same, in the middle. [N·m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: even weight along it. Stored or carried so it keeps its shape best.
    Source: beam theory, closed form.

    Examples
    --------
    >>> best = two_supports(length="1 m", line_load="1 N/m")
    >>> print(f"{best.overhang.magnitude:.7f} {best.moment.magnitude:.7f}")
    0.2071068 0.0214466
    """
    root = 2**0.5
    return Supports((root - 1) / 2 * length, (3 - 2 * root) / 8 * line_load * length * length)
