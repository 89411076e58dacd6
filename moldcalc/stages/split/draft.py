"""Draft in closed form: caps, pieces of a ball, keys round an axis, what it costs in width."""

from math import acos, atan, pi, sin, sqrt, tan

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.mixing.counting import whole
from moldcalc.units import NOT_NEGATIVE, Range, door, show

RIGHT_ANGLE = pi / 2
#: fewest pieces that cover a ball -> how far the farthest point lies from the middle of its piece
_COVERING = {2: pi / 2, 3: pi / 2, 4: acos(1 / 3), 5: atan(2.0), 6: acos(1 / sqrt(3))}


@door(half_angle="rad", returns="rad", possible={"half_angle": Range(0, RIGHT_ANGLE, with_high=True)})
def draft_of_cap(*, half_angle: float) -> float:
    r"""Best draft of a piece over a cap of a ball.

    .. math:: \delta = 90^\circ - \alpha

    Parameters
    ----------
    half_angle
        From the middle of the cap to its rim, seen from the ball's centre, :math:`\alpha`. [rad]

    Returns
    -------
    Draft. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible: more than half a ball locks.

    Notes
    -----
    Range: exact; pulled straight away from the ball's centre.
    Source: geometry of the sphere.

    Examples
    --------
    >>> print(f"{draft_of_cap(half_angle='60°').to('degree'):.0f~P}")
    30 °
    """
    return RIGHT_ANGLE - half_angle


@door(half_angle="rad", returns="", possible={"half_angle": Range(0, RIGHT_ANGLE, with_high=True)})
def directions_of_cap(*, half_angle: float) -> float:
    r"""Solid angle of all the directions along which a piece over a cap of a ball can leave.

    .. math:: \Omega = 2 \pi (1 - \sin \alpha)

    Parameters
    ----------
    half_angle
        From the middle of the cap to its rim, seen from the ball's centre, :math:`\alpha`. [rad]

    Returns
    -------
    Solid angle in steradians; all directions are :math:`4 \pi`. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; half a ball leaves one direction, so 0.
    Source: area of a cap of the unit sphere.

    Examples
    --------
    >>> print(f"{directions_of_cap(half_angle='60°'):.6f}")
    0.841787
    """
    return 2 * pi * (1 - sin(half_angle))


@door(pieces="", returns="rad", possible={"pieces": Range(2, 6, with_low=True, with_high=True)})
def best_draft_of_ball(*, pieces: float) -> float:
    r"""Most draft that a whole ball allows with so many pieces.

    .. math:: \delta_n = 90^\circ - R_n, \quad R_2 = R_3 = 90^\circ, R_4 = \arccos \tfrac13, R_5 = \arctan 2, R_6 = \arccos \tfrac{1}{\sqrt 3}

    Parameters
    ----------
    pieces
        2 to 6, :math:`n`. [-]

    Returns
    -------
    Draft. [rad]

    Raises
    ------
    EntryError
        An entry outside what is possible, or not a whole number.

    Notes
    -----
    Range: a free ball; on a board, or where a part needs no shell, fewer pieces do.
    Source: covering of the sphere by n equal caps of radius :math:`R_n`, solved for these n (arXiv 2008.04441, abstract
    verified); values computed from the closed forms.

    Examples
    --------
    Four pieces, of which two or three would have none:

    >>> print(f"{best_draft_of_ball(pieces=4).to('degree'):.4f~P}")
    19.4712 °
    """
    return RIGHT_ANGLE - _COVERING[whole(pieces, "pieces")]


@door(draft="rad", returns="", possible={"draft": Range(0, RIGHT_ANGLE, with_low=True)})
def pieces_of_ball(*, draft: float) -> float:
    r"""Fewest pieces of a whole ball for a draft.

    .. math:: n = \min \{ n : \delta_n \ge \delta \}

    Parameters
    ----------
    draft
        Wanted everywhere, :math:`\delta`. [rad]

    Returns
    -------
    Number of pieces. [-]

    Raises
    ------
    EntryError
        An entry outside what is possible; a draft that needs more than six pieces.

    Notes
    -----
    Range: up to 35.264 degrees, where six pieces end.
    Source: as for the best draft of a ball.

    Examples
    --------
    >>> pieces_of_ball(draft='0°'), pieces_of_ball(draft='2°')
    (2, 4)
    """
    for pieces, radius in _COVERING.items():
        if draft <= RIGHT_ANGLE - radius + 1e-12:
            return pieces
    raise EntryError(Fault("draft", show(draft, "°"), "more than six pieces would be needed; give at most 35.26°"))


@door(sections="", returns="rad", possible={"sections": Range(2, 1000, with_low=True, with_high=True)})
def least_key_half_angle(*, sections: float) -> float:
    r"""Half-angle that conical keys in the flanges need, so that equal sections round an axis come off radially.

    .. math:: \kappa = 90^\circ - \frac{180^\circ}{n}

    Parameters
    ----------
    sections
        Round the axis, :math:`n`. [-]

    Returns
    -------
    Half-angle of the key about the flange's normal. [rad]

    Raises
    ------
    EntryError
        An entry outside what is possible, or not a whole number.

    Notes
    -----
    Range: flanges in planes through the axis, each section pulled straight away from it; 0 for two sections: any key will do.
    Source: the radial pull makes 90 - 180/n degrees with each flange's normal; a cone lets go within its half-angle (exact).

    Examples
    --------
    >>> print(f"{least_key_half_angle(sections=3).to('degree'):.0f~P}")
    30 °
    """
    return RIGHT_ANGLE - pi / whole(sections, "sections")


@door(half_angle="rad", sections="", returns="rad",
      possible={"half_angle": Range(0, RIGHT_ANGLE), "sections": Range(2, 1000, with_low=True, with_high=True)})
def key_draft(*, half_angle: float, sections: float) -> float:
    r"""Draft that conical keys leave to equal sections round an axis; below 0 they lock.

    .. math:: \delta = \kappa - \left( 90^\circ - \frac{180^\circ}{n} \right)

    Parameters
    ----------
    half_angle
        Of the key about the flange's normal, :math:`\kappa`. [rad]
    sections
        Round the axis, :math:`n`. [-]

    Returns
    -------
    Draft; negative where the keys lock. [rad]

    Raises
    ------
    EntryError
        An entry outside what is possible, or not a whole number of sections.

    Notes
    -----
    Range: flanges in planes through the axis, radial pull. Ridges along the pull, or bolts and loose dowels, lock nothing.
    Source: as for the least half-angle (exact).

    Examples
    --------
    >>> print(f"{key_draft(half_angle='45°', sections=3).to('degree'):.0f~P}")
    15 °
    """
    return half_angle - float(least_key_half_angle.si(sections=sections))


@door(draft="rad", height="m", returns="m", possible={"draft": Range(0, RIGHT_ANGLE, with_low=True), "height": NOT_NEGATIVE},
      holds={"draft": (0, 15 * pi / 180)})
def draft_offset(*, draft: float, height: float) -> float:
    r"""How far a wall leans out over its height.

    .. math:: s = h \tan \delta

    Parameters
    ----------
    draft
        From the pull, :math:`\delta`. [rad]
    height
        Along the pull, :math:`h`. [m]

    Returns
    -------
    Offset of one side. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; 1 degree for a short smooth wall, 2 to 3 usual, 5 deep or rough (common practice, no source).
    Source: geometry.

    Examples
    --------
    >>> print(f"{draft_offset(draft='3°', height='100 mm').to('mm'):.5f~P}")
    5.24078 mm
    """
    return height * tan(draft)
