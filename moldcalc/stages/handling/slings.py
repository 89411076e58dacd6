"""What each leg of a sling pulls, and where a section rolls over by itself."""

from math import asin, atan2, cos, pi, sin
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.stages.mixing.counting import whole
from moldcalc.units import POSITIVE, Range, door, show

#: from the horizontal
ANGLE = Range(0, pi / 2, with_high=True)


class TwoLegs(NamedTuple):
    """Pull in the left and in the right leg of a sling [N]."""

    left: float
    right: float


@door(angle="rad", returns="", possible={"angle": ANGLE}, holds={"angle": (pi / 6, pi / 2)})
def angle_factor(*, angle: float) -> float:
    r"""How many times more a sloping sling leg pulls than an upright one.

    .. math:: k = \frac{1}{\sin \alpha}

    Parameters
    ----------
    angle
        Of the leg from the horizontal, :math:`\alpha`. [rad]

    Returns
    -------
    Factor. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: 30° to 90°; below 30° legs are not rigged (riggers' rule, seen in public tables). The sling's own tag and the law say what it may carry.
    Source: statics; riggers' public tables print it.

    Examples
    --------
    >>> print(f"{angle_factor(angle='45°'):.3f}")
    1.414
    """
    return 1 / sin(angle)


@door(mass="kg", angle="rad", legs="", returns="N", possible={"mass": POSITIVE, "angle": ANGLE, "legs": POSITIVE},
      holds={"angle": (pi / 6, pi / 2), "legs": (1, 3)})
def sling_pull(*, mass: float, angle: float, legs: float) -> float:
    r"""Pull in each leg of a sling with legs alike.

    .. math:: T = \frac{m \, g}{n \, \sin \alpha}

    Parameters
    ----------
    mass
        That hangs on it, :math:`m`. [kg]
    angle
        Of each leg from the horizontal, :math:`\alpha`. [rad]
    legs
        That really carry, :math:`n`: of four legs on a stiff load count two, at most three. [-]

    Returns
    -------
    Pull in each. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not a whole number of legs.

    Notes
    -----
    Range: 30° to 90°, one to three legs. At 30° each of two legs carries the full weight.
    Source: statics.

    Examples
    --------
    >>> print(f"{sling_pull(mass='74 kg', angle='60°', legs=2).magnitude:.0f}")
    419
    """
    return mass * GRAVITY / (whole(legs, "legs") * sin(angle))


@door(length="m", height="m", returns="rad", possible={"length": POSITIVE, "height": POSITIVE})
def sling_angle(*, length: float, height: float) -> float:
    r"""Angle of a sling leg from its length and its height.

    .. math:: \alpha = \arcsin \frac{H}{L}

    Parameters
    ----------
    length
        Of the leg, :math:`L`. [m]
    height
        Of the hook over the point where it is made fast, :math:`H`. [m]

    Returns
    -------
    From the horizontal. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a leg shorter than it is high.

    Notes
    -----
    Range: straight legs. The factor is then simply L/H.
    Source: geometry.

    Examples
    --------
    >>> print(f"{sling_angle(length='1 m', height='0.5 m').to('degree').magnitude:.0f}")
    30
    """
    if height > length:
        raise EntryError(Fault("height", show(height, "m"), f"it must be at most the leg's length, {show(length, 'm')}"))
    return asin(height / length)


@door(mass="kg", left_angle="rad", right_angle="rad", returns={"left": "N", "right": "N"},
      possible={"mass": POSITIVE, "left_angle": ANGLE, "right_angle": ANGLE},
      holds={"left_angle": (pi / 6, pi / 2), "right_angle": (pi / 6, pi / 2)})
def two_leg_pulls(*, mass: float, left_angle: float, right_angle: float) -> TwoLegs:
    r"""Pull in two sling legs of different lengths under one hook.

    .. math:: T_l = m g \frac{\cos \beta}{\sin(\alpha + \beta)}, \qquad T_r = m g \frac{\cos \alpha}{\sin(\alpha + \beta)}

    Parameters
    ----------
    mass
        That hangs on it, :math:`m`. [kg]
    left_angle, right_angle
        From the horizontal, :math:`\alpha, \beta`. [rad]

    Returns
    -------
    left, right
        Pull in each. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; two upright legs, which only say that they share.

    Notes
    -----
    Range: the hook is over the centre of mass; the steeper leg carries more.
    Source: statics (three forces in balance).

    Examples
    --------
    >>> both = two_leg_pulls(mass="100 kg", left_angle="60°", right_angle="30°")
    >>> print(f"{both.left.magnitude:.0f} {both.right.magnitude:.0f}")
    849 490
    """
    apart = sin(left_angle + right_angle)
    if apart < 1e-12:
        raise EntryError(Fault("left angle", show(left_angle, "°"), "both legs are upright; one of them must slope"))
    weight = mass * GRAVITY
    return TwoLegs(weight * cos(right_angle) / apart, weight * cos(left_angle) / apart)


@door(half_width="m", height="m", returns="rad", possible={"half_width": POSITIVE, "height": POSITIVE})
def roll_balance(*, half_width: float, height: float) -> float:
    r"""How far something is rolled over an edge until it stands on its balance.

    .. math:: \theta = \arctan \frac{b}{h}

    Parameters
    ----------
    half_width
        From the edge it turns on to the centre of mass, along the floor, :math:`b`. [m]
    height
        Of the centre of mass over the floor, :math:`h`. [m]

    Returns
    -------
    Angle from lying flat. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: past that angle it falls by itself: a second line, a cradle or a hoist holds it.
    Source: statics.

    Examples
    --------
    >>> print(f"{roll_balance(half_width='0.6 m', height='0.25 m').to('degree').magnitude:.3f}")
    67.380
    """
    return atan2(half_width, height)


@door(half_width="m", height="m", angle="rad", mass="kg", reach="m", returns="N",
      possible={"half_width": POSITIVE, "height": POSITIVE, "angle": Range(0, pi / 2, with_low=True), "mass": POSITIVE, "reach": POSITIVE})
def roll_force(*, half_width: float, height: float, angle: float, mass: float, reach: float) -> float:
    r"""Force square to the far edge that holds something while it is rolled over its near edge.

    .. math:: F = \frac{m \, g \, \sqrt{b^2 + h^2} \, \cos(\theta + \arctan(h/b))}{L}

    Parameters
    ----------
    half_width
        From the edge it turns on to the centre of mass, when it lies flat, :math:`b`. [m]
    height
        Of the centre of mass over the floor, when it lies flat, :math:`h`. [m]
    angle
        By which it has been rolled, :math:`\theta`. [rad]
    mass
        :math:`m`. [kg]
    reach
        From the edge it turns on to where it is lifted, :math:`L`. [m]

    Returns
    -------
    Force; below 0 it must be held back. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: slow, no sliding on the edge. Flat, a one-end lift is about half the weight.
    Source: statics.

    Examples
    --------
    >>> print(f"{roll_force(half_width='0.6 m', height='0.25 m', angle='0°', mass='40 kg', reach='1.2 m').magnitude:.1f}")
    196.1
    """
    arm = half_width * cos(angle) - height * sin(angle)
    return mass * GRAVITY * arm / reach
