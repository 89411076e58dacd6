"""Fibre by mass and by volume, density, and the air in a laminate."""

from moldcalc.errors import EntryError, Fault
from moldcalc.units import POSITIVE, Range, door, show

#: a share of fibre that leaves some resin
BETWEEN = Range(0, 1)
HAND = Range(0.20, 0.60, with_low=True, with_high=True)


@door(fibre_mass_fraction="", fibre_density="kg/m^3", resin_density="kg/m^3", returns="",
      possible={"fibre_mass_fraction": BETWEEN, "fibre_density": POSITIVE, "resin_density": POSITIVE}, holds={"fibre_mass_fraction": HAND})
def fibre_volume_fraction(*, fibre_mass_fraction: float, fibre_density: float, resin_density: float) -> float:
    r"""Share of the laminate's volume that is fibre, voids left out.

    .. math:: v_f = \frac{w_f / \rho_f}{w_f / \rho_f + (1 - w_f) / \rho_r}

    Parameters
    ----------
    fibre_mass_fraction
        Mass of fibre over mass of the cured ply, :math:`w_f`. [-]
    fibre_density, resin_density
        Of the solid fibre and of the cured resin, :math:`\rho_f, \rho_r`. [kg/m³]

    Returns
    -------
    Fibre volume fraction. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: hand lay-up, :math:`w_f` 0.20 to 0.60 (common practice, no source).
    Source: volume balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> v = fibre_volume_fraction(fibre_mass_fraction=0.30, fibre_density=Q(2.56, "kg/L"), resin_density=Q(1.15, "kg/L"))
    >>> print(f"{v:.7f}")
    0.1614413
    """
    fibre = fibre_mass_fraction / fibre_density
    return fibre / (fibre + (1 - fibre_mass_fraction) / resin_density)


@door(fibre_volume_fraction="", fibre_density="kg/m^3", resin_density="kg/m^3", returns="",
      possible={"fibre_volume_fraction": BETWEEN, "fibre_density": POSITIVE, "resin_density": POSITIVE})
def fibre_mass_fraction(*, fibre_volume_fraction: float, fibre_density: float, resin_density: float) -> float:
    r"""Share of the laminate's mass that is fibre.

    .. math:: w_f = \frac{v_f \, \rho_f}{v_f \, \rho_f + (1 - v_f) \, \rho_r}

    Parameters
    ----------
    fibre_volume_fraction
        Volume of fibre over volume of the cured ply, :math:`v_f`. [-]
    fibre_density, resin_density
        Of the solid fibre and of the cured resin, :math:`\rho_f, \rho_r`. [kg/m³]

    Returns
    -------
    Fibre mass fraction. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any laminate without voids.
    Source: mass balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = fibre_mass_fraction(fibre_volume_fraction=0.5, fibre_density=Q(2.56, "kg/L"), resin_density=Q(1.15, "kg/L"))
    >>> print(f"{w:.7f}")
    0.6900270
    """
    fibre = fibre_volume_fraction * fibre_density
    return fibre / (fibre + (1 - fibre_volume_fraction) * resin_density)


@door(fibre_mass_fraction="", fibre_density="kg/m^3", resin_density="kg/m^3", returns="kg/m^3",
      possible={"fibre_mass_fraction": Range(0, 1, True, True), "fibre_density": POSITIVE, "resin_density": POSITIVE})
def laminate_density(*, fibre_mass_fraction: float, fibre_density: float, resin_density: float) -> float:
    r"""Density of a laminate without voids.

    .. math:: \frac{1}{\rho} = \frac{w_f}{\rho_f} + \frac{1 - w_f}{\rho_r}

    Parameters
    ----------
    fibre_mass_fraction
        Mass of fibre over mass of the cured laminate, :math:`w_f`. [-]
    fibre_density, resin_density
        Of the solid fibre and of the cured resin, :math:`\rho_f, \rho_r`. [kg/m³]

    Returns
    -------
    Density. [kg/m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: no voids.
    Source: volume balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> d = laminate_density(fibre_mass_fraction=0.30, fibre_density=Q(2.56, "kg/L"), resin_density=Q(1.15, "kg/L"))
    >>> print(f"{d.to('kg/L').magnitude:.6f}")
    1.377632
    """
    return 1 / (fibre_mass_fraction / fibre_density + (1 - fibre_mass_fraction) / resin_density)


@door(measured_density="kg/m^3", fibre_mass_fraction="", fibre_density="kg/m^3", resin_density="kg/m^3", returns="",
      possible={"measured_density": POSITIVE, "fibre_mass_fraction": Range(0, 1, True, True), "fibre_density": POSITIVE,
                "resin_density": POSITIVE})
def void_fraction(*, measured_density: float, fibre_mass_fraction: float, fibre_density: float, resin_density: float) -> float:
    r"""Share of air in a laminate, from its weighed density.

    .. math:: v_v = 1 - \rho_m \left( \frac{w_f}{\rho_f} + \frac{1 - w_f}{\rho_r} \right)

    Parameters
    ----------
    measured_density
        Weighed in air and in water, :math:`\rho_m`. [kg/m³]
    fibre_mass_fraction
        Burned off, :math:`w_f`. [-]
    fibre_density, resin_density
        Of the solid fibre and of the cured resin, :math:`\rho_f, \rho_r`. [kg/m³]

    Returns
    -------
    Void fraction by volume. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a laminate heavier than one without voids.

    Notes
    -----
    Range: 1 % in the resin's density moves the answer by about half a percentage point.
    Source: ISO 14127, ASTM D2734 (formula from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> v = void_fraction(measured_density=Q(1.68, "kg/L"), fibre_mass_fraction=0.60,
    ...                   fibre_density=Q(2.56, "kg/L"), resin_density=Q(1.15, "kg/L"))
    >>> print(f"{100 * v:.3f} %")
    2.190 %
    """
    solid = float(laminate_density.si(fibre_mass_fraction=fibre_mass_fraction, fibre_density=fibre_density, resin_density=resin_density))
    voids = 1 - measured_density / solid
    if voids < -1e-12:
        allowed = f"without voids it would be {show(solid, 'kg/m³', places=4)}, so a density or the fibre fraction is wrong"
        raise EntryError(Fault("measured density", show(measured_density, "kg/m³", places=4), allowed))
    return max(0.0, voids)
