"""What it takes to peel the rubber off: line force at an angle, and why nobody pulls it straight."""

from math import acos, cos, pi, sqrt

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door

#: from lying flat to turned right back
PEEL = Range(0, pi, with_high=True)


@door(adhesion="N/m", angle="rad", returns="N/m", possible={"adhesion": NOT_NEGATIVE, "angle": PEEL}, holds={"angle": (pi / 6, pi)})
def stiff_peel_force(*, adhesion: float, angle: float) -> float:
    r"""Peel force of a strip that does not stretch, for each metre of its width.

    .. math:: \frac{F}{b} = \frac{G}{1 - \cos \theta}

    Parameters
    ----------
    adhesion
        Energy to part a square metre, :math:`G`; a joule for a square metre is a newton for a metre. [N/m]
    angle
        Between the strip being pulled and the face it leaves, :math:`\theta`. [rad]

    Returns
    -------
    Force for each metre of width. [N/m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: from about 30 degrees up; at flatter angles rubber stretches first and needs less.
    Source: energy balance of peeling, textbook; Kendall 1975 without the stretch of the strip (abstract verified).

    Examples
    --------
    >>> [f"{stiff_peel_force(adhesion='1 N/m', angle=angle).magnitude:.0f}" for angle in ("90°", "5°")]
    ['1', '263']
    """
    return adhesion / (1 - cos(angle))


@door(adhesion="N/m", modulus="Pa", thickness="m", angle="rad", returns="N/m",
      possible={"adhesion": NOT_NEGATIVE, "modulus": POSITIVE, "thickness": POSITIVE, "angle": Range(0, pi, with_low=True, with_high=True)})
def peel_force(*, adhesion: float, modulus: float, thickness: float, angle: float) -> float:
    r"""Peel force of a strip that stretches, for each metre of its width.

    .. math:: \frac{(F/b)^2}{2 E h} + \frac{F}{b} (1 - \cos \theta) = G

    Parameters
    ----------
    adhesion
        Energy to part a square metre, :math:`G`; a joule for a square metre is a newton for a metre. [N/m]
    modulus
        Young's modulus of the rubber, :math:`E`. [Pa]
    thickness
        Of the rubber, :math:`h`. [m]
    angle
        Between the strip being pulled and the face it leaves, :math:`\theta`; 0 pulls along the face. [rad]

    Returns
    -------
    Force for each metre of width. [N/m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a steady slow peel; the adhesion grows with speed and with the hours of contact. Peel a test patch with a luggage
    scale at a right angle: its reading for a metre of width is :math:`G`, near enough.
    Source: Kendall, J. Phys. D 8 (1975) 1449 (abstract verified, formula from memory, standard).

    Examples
    --------
    5 J/m², 0.73 MPa, 5 mm thick:

    >>> [f"{peel_force(adhesion='5 N/m', modulus='0.73 MPa', thickness='5 mm', angle=angle).magnitude:.5f}" for angle in ("90°", "30°")]
    ['4.99658', '35.99569']
    """
    if adhesion == 0:
        return 0.0
    back = 1 - cos(angle)
    # the root without a difference of nearly equal numbers
    return 2 * adhesion / (back + sqrt(back * back + 2 * adhesion / modulus / thickness))


@door(line_force="N/m", width="m", returns="N", possible={"line_force": NOT_NEGATIVE, "width": NOT_NEGATIVE})
def opening_force(*, line_force: float, width: float) -> float:
    r"""Force on the hands that peel along a front.

    .. math:: F = \frac{F}{b} \, b

    Parameters
    ----------
    line_force
        For each metre of the front, :math:`F/b`. [N/m]
    width
        Of the front that lets go at one time, :math:`b`. [m]

    Returns
    -------
    Force. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a straight front. Weight of the rubber and the stretch at necks come on top.
    Source: definition.

    Examples
    --------
    >>> print(f"{opening_force(line_force='36 N/m', width='0.5 m').to('N'):.0f~P}")
    18 N
    """
    return line_force * width


@door(adhesion="N/m", modulus="Pa", thickness="m", pull="N/m", returns="rad",
      possible={"adhesion": POSITIVE, "modulus": POSITIVE, "thickness": POSITIVE, "pull": POSITIVE})
def least_peel_angle(*, adhesion: float, modulus: float, thickness: float, pull: float) -> float:
    r"""Flattest angle at which a pull still peels; below it the rubber stretches and stays.

    .. math:: \cos \theta = 1 - \frac{G - P^2 / (2 E h)}{P}, \quad P = F/b

    Parameters
    ----------
    adhesion
        Energy to part a square metre, :math:`G`. [N/m]
    modulus
        Young's modulus of the rubber, :math:`E`. [Pa]
    thickness
        Of the rubber, :math:`h`. [m]
    pull
        What two hands give for each metre of the front, :math:`P`. [N/m]

    Returns
    -------
    Angle; 0 where even a pull along the face parts it. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a pull that peels at no angle.

    Notes
    -----
    Range: as the peel force.
    Source: Kendall 1975, solved for the angle (formula from memory).

    Examples
    --------
    >>> print(f"{least_peel_angle(adhesion='5 N/m', modulus='0.73 MPa', thickness='5 mm', pull='35.99569 N/m').to('degree'):.2f~P}")
    30.00 °
    """
    back = adhesion / pull - pull / modulus / thickness / 2
    if back > 2:
        least = float(peel_force.si(adhesion=adhesion, modulus=modulus, thickness=thickness, angle=pi))
        raise EntryError(Fault("pull", f"{pull:.3g} N/m", f"it peels at no angle; at least {least:.3g} N/m, turned right back, is needed"))
    return acos(1 - back) if back > 0 else 0.0
