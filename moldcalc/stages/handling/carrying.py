"""Where handles go so that a section balances, and who carries how much, on the level and on a slope."""

from math import pi, tan
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import ANY, NOT_NEGATIVE, POSITIVE, Range, door, show


class Shares(NamedTuple):
    """What two carriers take, the one at the low end (or at the end measured from) and the other [kg], and the low one's share [-]."""

    low: float
    high: float
    low_share: float


class Corners(NamedTuple):
    """What four carriers take, left and right at the near end, left and right at the far end. [kg]"""

    near_left: float
    near_right: float
    far_left: float
    far_right: float


class Handles(NamedTuple):
    """Where two handles, or two pairs, go along a section. [m]"""

    first: float
    second: float


@door(centre="m", length="m", spread="m", returns={"first": "m", "second": "m"},
      possible={"centre": NOT_NEGATIVE, "length": POSITIVE, "spread": POSITIVE})
def handle_places(*, centre: float, length: float, spread: float) -> Handles:
    r"""Where two handles (or two pairs of them) go, so that each carries the same.

    .. math:: x_{1,2} = c \mp s/2

    Parameters
    ----------
    centre
        Of mass, from one end of the section, :math:`c`. [m]
    length
        Of the section. [m]
    spread
        Between the handles, :math:`s`. [m]

    Returns
    -------
    first, second
        From the same end. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; handles that would stand past an end.

    Notes
    -----
    Range: handles 19 to 38 mm thick, at least 115 mm long, 50 mm clear, smooth (notes to table 6 of the lifting manual, seen in a public
    transcription). They sit over the centre of mass, or the section swings over.
    Source: statics.

    Examples
    --------
    >>> two = handle_places(centre="0.55 m", length="1.1 m", spread="0.6 m")
    >>> print(f"{two.first.to('mm').magnitude:.0f} {two.second.to('mm').magnitude:.0f}")
    250 850
    """
    reach = 2 * min(centre, length - centre)
    if spread > reach:
        raise EntryError(Fault("spread", show(spread, "m"), f"handles the same distance either side of the centre of mass can be "
                               f"at most {show(max(reach, 0.0), 'm')} apart"))
    return Handles(centre - spread / 2, centre + spread / 2)


@door(mass="kg", length="m", from_low="m", height="m", slope="rad", returns={"low": "kg", "high": "kg", "low_share": ""},
      possible={"mass": POSITIVE, "length": POSITIVE, "from_low": NOT_NEGATIVE, "height": ANY, "slope": Range(0, pi / 2, with_low=True)})
def carry_shares(*, mass: float, length: float, from_low: float, height: float = 0.0, slope: float = 0.0) -> Shares:
    r"""What each of two carriers takes, on the level or on stairs.

    .. math:: m_l = m \left( 1 - \frac{x}{L} + \frac{z}{L} \tan \varphi \right), \qquad m_h = m - m_l

    Parameters
    ----------
    mass
        Of the section, :math:`m`. [kg]
    length
        Between the two handles, :math:`L`. [m]
    from_low
        Of the centre of mass, from the handle at the low end, along the line between them, :math:`x`. [m]
    height
        Of the centre of mass over that line, :math:`z`; below 0 where it hangs under the handles. [m]
    slope
        Of that line, :math:`\varphi`; 0 on the level. [rad]

    Returns
    -------
    low, high
        What each takes. [kg]
    low_share
        Of the mass. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a centre of mass that is past a handle.

    Notes
    -----
    Range: both pull straight up. On stairs most of it may come on the lower carrier.
    Source: statics.

    Examples
    --------
    >>> level = carry_shares(mass="40 kg", length="1.6 m", from_low="0.6 m")
    >>> print(f"{level.low.magnitude:.0f} {level.high.magnitude:.0f}")
    25 15
    >>> stairs = carry_shares(mass="40 kg", length="1.5 m", from_low="0.75 m", height="0.3 m", slope="30°")
    >>> print(f"{stairs.low_share.magnitude:.3%}")
    61.547%
    """
    share = 1 - from_low / length + height / length * tan(slope)
    if not -1e-12 <= share <= 1 + 1e-12:
        raise EntryError(Fault("from low", show(from_low, "m"), "the centre of mass is not between the handles; it would turn over one of them"))
    share = min(1.0, max(0.0, share))
    return Shares(mass * share, mass * (1 - share), share)


@door(mass="kg", length="m", width="m", from_near="m", from_left="m",
      returns={"near_left": "kg", "near_right": "kg", "far_left": "kg", "far_right": "kg"},
      possible={"mass": POSITIVE, "length": POSITIVE, "width": POSITIVE, "from_near": NOT_NEGATIVE, "from_left": NOT_NEGATIVE})
def corner_shares(*, mass: float, length: float, width: float, from_near: float, from_left: float) -> Corners:
    r"""What each of four carriers at the corners of a rectangle takes.

    .. math:: m_{ij} = m \, u_i \, v_j, \qquad u = \left( 1 - \frac{x}{L}, \frac{x}{L} \right), \; v = \left( 1 - \frac{y}{B}, \frac{y}{B} \right)

    Parameters
    ----------
    mass
        Of the section, :math:`m`. [kg]
    length, width
        Between the handles, :math:`L, B`. [m]
    from_near, from_left
        Of the centre of mass, from the near end and from the left side, :math:`x, y`. [m]

    Returns
    -------
    near_left, near_right, far_left, far_right
        What each takes. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a centre of mass outside the handles.

    Notes
    -----
    Range: carriers who give way evenly. Where one stumbles, two on a diagonal carry all: reckon with half each.
    Source: statics: it balances about both axes. Four stiff carriers are not settled by statics alone; four alike springs would leave
    out the product of the two offsets.

    Examples
    --------
    >>> four = corner_shares(mass="40 kg", length="1.6 m", width="0.5 m", from_near="0.6 m", from_left="0.25 m")
    >>> print(" ".join(f"{one.magnitude:.1f}" for one in four))
    12.5 12.5 7.5 7.5
    """
    for entry, at, most in (("from near", from_near, length), ("from left", from_left, width)):
        if at > most:
            raise EntryError(Fault(entry, show(at, "m"), f"it must be at most {show(most, 'm')}, between the handles"))
    far, right = from_near / length, from_left / width
    return Corners(mass * (1 - far) * (1 - right), mass * (1 - far) * right, mass * far * (1 - right), mass * far * right)
