"""What stays of a coat on a sloping face: yield stress holds it up, viscosity only makes it slow."""

from math import inf, pi, sin, sqrt

from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door

#: standard acceleration of free fall, m/s²
GRAVITY = 9.80665

#: faces that let a film slide: neither level nor a level ceiling
SLOPING = Range(0, pi)
_ANY_SLOPE = Range(0, pi, True, True)
#: on an overhang rubber also drips, which these formulas don't see
_NOT_OVERHANGING = (0, pi / 2)


@door(yield_stress="Pa", density="kg/m^3", slope="rad", returns="m",
      possible={"yield_stress": NOT_NEGATIVE, "density": POSITIVE, "slope": SLOPING},
      holds={"slope": _NOT_OVERHANGING})
def hanging_thickness(*, yield_stress: float, density: float, slope: float) -> float:
    r"""Thickest film that a yield stress holds on a slope for as long as you like.

    .. math:: h_y = \frac{\tau_y}{\rho g \sin \theta}

    Parameters
    ----------
    yield_stress
        Of the mixed rubber, :math:`\tau_y`; below it the rubber doesn't flow. [Pa]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 90° is upright, above that it overhangs. [rad]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: an even film on a plane face; faces up to upright. Overhead a film can drip before it slides.
    Source: force balance. Vertical form: Mezger, The Rheology Handbook, 3.3.4.2.1 (verified); worked problem Fox and
    McDonald, Introduction to Fluid Mechanics, 8th ed., 8.46 (verified, recomputed: 40 Pa holds about 4 mm of a
    water-heavy paste).

    Examples
    --------
    >>> held = hanging_thickness(yield_stress="30 Pa", density="1.2 kg/L", slope="45°")
    >>> print(f"{held.to('mm'):.5f~P}")
    3.60524 mm
    """
    return yield_stress / (density * GRAVITY * sin(slope))


@door(thickness="m", density="kg/m^3", slope="rad", returns="Pa",
      possible={"thickness": NOT_NEGATIVE, "density": POSITIVE, "slope": _ANY_SLOPE},
      holds={"slope": _NOT_OVERHANGING})
def yield_stress_to_hold(*, thickness: float, density: float, slope: float) -> float:
    r"""Yield stress that a film needs so as not to slide.

    .. math:: \tau_y = \rho g h \sin \theta

    Parameters
    ----------
    thickness
        Of the film, :math:`h`. [m]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 0 is level, 90° upright. [rad]

    Returns
    -------
    Yield stress. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: an even film on a plane face; faces up to upright.
    Source: force balance, the inverse of `hanging_thickness`.

    Examples
    --------
    >>> print(f"{yield_stress_to_hold(thickness='3 mm', density='1.2 kg/L', slope='90°'):.3f~P}")
    35.304 Pa
    """
    return density * GRAVITY * thickness * max(0.0, sin(slope))


@door(viscosity="Pa*s", density="kg/m^3", slope="rad", below_edge="m", time="s", returns="m",
      possible={"viscosity": POSITIVE, "density": POSITIVE, "slope": SLOPING, "below_edge": POSITIVE, "time": POSITIVE},
      holds={"slope": _NOT_OVERHANGING})
def drained_thickness(*, viscosity: float, density: float, slope: float, below_edge: float, time: float) -> float:
    r"""Film that is left of a thick coat without yield stress, after it has run for a while.

    .. math:: h_J = \sqrt{ \frac{\mu z}{\rho g \sin \theta \, t} }

    Parameters
    ----------
    viscosity
        Of the mixed rubber, :math:`\mu`. [Pa·s]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 90° is upright, above that it overhangs. [rad]
    below_edge
        Distance down the slope from the coat's upper edge, :math:`z`. [m]
    time
        Since it was brushed on, :math:`t`. [s]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: after the film has become thinner than it was put on; before it thickens by curing. For the coat that was
    really put on use `held_thickness`.
    Source: Jeffreys, Proc. Camb. Phil. Soc. 26 (1930) 204 (paper verified, formula from memory).

    Examples
    --------
    >>> left = drained_thickness(viscosity="30 Pa*s", density="1.2 kg/L", slope="90°", below_edge="1 m", time="10 min")
    >>> print(f"{left.to('mm'):.5f~P}")
    2.06127 mm
    """
    return sqrt(viscosity * below_edge / (density * GRAVITY * sin(slope) * time))


@door(applied="m", yield_stress="Pa", viscosity="Pa*s", density="kg/m^3", slope="rad", below_edge="m", time="s", returns="m",
      possible={"applied": NOT_NEGATIVE, "yield_stress": NOT_NEGATIVE, "viscosity": POSITIVE, "density": POSITIVE,
                "slope": _ANY_SLOPE, "below_edge": POSITIVE, "time": NOT_NEGATIVE},
      holds={"slope": _NOT_OVERHANGING})
def held_thickness(*, applied: float, yield_stress: float, viscosity: float, density: float,
                   slope: float, below_edge: float, time: float) -> float:
    r"""What stays of a coat on a slope.

    .. math:: h = \min \left( h_0, \max(h_y, h_J) \right)

    Parameters
    ----------
    applied
        Thickness that was put on, :math:`h_0`. [m]
    yield_stress
        Of the mixed rubber; 0 where it has none. [Pa]
    viscosity
        Of the mixed rubber, :math:`\mu`. [Pa·s]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 0 is level, 90° upright. [rad]
    below_edge
        Distance down the slope from the coat's upper edge. [m]
    time
        From brushing on until it no longer flows: about the working time that is left. [s]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: faces up to upright. With a yield stress the film never drains below :math:`h_y` (`hanging_thickness`);
    without one it follows :math:`h_J` (`drained_thickness`); and it is never thicker than it was put on. With both,
    the larger one is a lower estimate, for a yield stress also slows the flow. On a level face all of it stays.
    Thickening by cure is left out, so real films stay somewhat thicker.
    Source: the two formulas named, joined by our own rule.

    Examples
    --------
    >>> left = held_thickness(applied="2 mm", yield_stress="0 Pa", viscosity="30 Pa*s", density="1.2 kg/L", slope="90°",
    ...                       below_edge="0.5 m", time="30 min")
    >>> print(f"{left.to('mm'):.3f~P}")
    0.842 mm
    """
    pull = density * GRAVITY * max(0.0, sin(slope))
    if pull == 0 or time == 0:
        return applied
    drained = sqrt(viscosity * below_edge / pull / time) if viscosity * below_edge < inf else inf
    return min(applied, max(yield_stress / pull, drained))
