"""What a cast that is poured solid pushes against the shell."""

from moldcalc.units import NOT_NEGATIVE, POSITIVE, door

#: standard gravity, m/s², by definition
GRAVITY = 9.80665


@door(density="kg/m^3", depth="m", returns="Pa", possible={"density": POSITIVE, "depth": NOT_NEGATIVE})
def head_pressure(*, density: float, depth: float) -> float:
    r"""Pressure of a poured mix at a depth.

    .. math:: p = \rho \, g \, h

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    depth
        Below its surface, :math:`h`. [m]

    Returns
    -------
    Pressure. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a shell filled within minutes, so the full liquid head, nothing taken off for setting. A light shell with an
    open base floats up: weight it.
    Source: hydrostatics, textbook; forms for flowing concrete are commonly designed so (Gamil et al. 2021, verified).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{head_pressure(density=Q(2050, 'kg/m^3'), depth=Q(0.525, 'm')).to('kPa').magnitude:.1f}")
    10.6
    """
    return density * GRAVITY * depth


@door(density="kg/m^3", area="m^2", mean_depth="m", returns="N", possible={"density": POSITIVE, "area": NOT_NEGATIVE, "mean_depth": NOT_NEGATIVE})
def side_thrust(*, density: float, area: float, mean_depth: float) -> float:
    r"""Force of a poured mix against one side of the shell.

    .. math:: F = \rho \, g \, A \, \bar h

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    area
        Of the side's outline, seen square on, :math:`A`. [m²]
    mean_depth
        Of that outline's centre below the liquid's surface, :math:`\bar h`. [m]

    Returns
    -------
    Force. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: full liquid head.
    Source: hydrostatics, textbook: force on a surface is the pressure at the centre of its outline times the outline.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{side_thrust(density=Q(2050, 'kg/m^3'), area=Q(0.39, 'm^2'), mean_depth=Q(0.245, 'm')).to('kN').magnitude:.1f}")
    1.9
    """
    return float(head_pressure.si(density=density, depth=mean_depth)) * area
