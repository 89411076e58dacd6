"""What a thickener or filler does to density and volume."""

from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


@door(base_density="kg/m^3", thickener_density="kg/m^3", loading="", returns="kg/m^3",
      possible={"base_density": POSITIVE, "thickener_density": POSITIVE, "loading": NOT_NEGATIVE})
def thickened_density(*, base_density: float, thickener_density: float, loading: float) -> float:
    r"""Density of a base with a thickener or filler in it.

    .. math:: \frac{1 + x}{\rho} = \frac{1}{\rho_b} + \frac{x}{\rho_t}

    Parameters
    ----------
    base_density
        Of what the thickener goes into, :math:`\rho_b`. [kg/m³]
    thickener_density
        TRUE density of the thickener's grains or spheres, not that of the loose powder, :math:`\rho_t`. [kg/m³]
    loading
        Thickener for base, by mass: phr over 100, :math:`x`. [-]

    Returns
    -------
    Density. [kg/m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: wetted out, no air stirred in. As much of it as stays a paste: fillers up to some 0.55 to 0.60 of the
    volume.
    Source: volume balance, :math:`1/\rho = \sum w_i/\rho_i`.

    Examples
    --------
    >>> print(f"{thickened_density(base_density='1.15 kg/L', thickener_density='0.15 kg/L', loading=0.05).to('g/cm³'):.7f~P}")
    0.8728916 g/cm³
    """
    return (1 + loading) / (1 / base_density + loading / thickener_density)


@door(base_density="kg/m^3", thickener_density="kg/m^3", loading="", returns="",
      possible={"base_density": POSITIVE, "thickener_density": POSITIVE, "loading": NOT_NEGATIVE})
def volume_gain(*, base_density: float, thickener_density: float, loading: float) -> float:
    r"""By what share a thickener or filler makes the volume larger.

    .. math:: \frac{\Delta V}{V} = x \, \frac{\rho_b}{\rho_t}

    Parameters
    ----------
    base_density
        Of what the thickener goes into, :math:`\rho_b`. [kg/m³]
    thickener_density
        TRUE density of the thickener's grains or spheres, not that of the loose powder, :math:`\rho_t`. [kg/m³]
    loading
        Thickener for base, by mass: phr over 100, :math:`x`. [-]

    Returns
    -------
    Share of the base's volume. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: wetted out, no air stirred in. 30 g of fumed silica are 0.63 L of loose powder but add 14 mL to 1 kg of
    rubber.
    Source: volume balance.

    Examples
    --------
    >>> print(f"{volume_gain(base_density='1.15 kg/L', thickener_density='0.2 kg/L', loading=0.10):.3f}")
    0.575
    """
    return loading * base_density / thickener_density


@door(base_density="kg/m^3", thickener_density="kg/m^3", loading="", returns="",
      possible={"base_density": POSITIVE, "thickener_density": POSITIVE, "loading": NOT_NEGATIVE})
def filler_volume_fraction(*, base_density: float, thickener_density: float, loading: float) -> float:
    r"""Share of the mixed volume that is thickener or filler.

    .. math:: \phi = \frac{x / \rho_t}{1 / \rho_b + x / \rho_t}

    Parameters
    ----------
    base_density
        Of what the thickener goes into, :math:`\rho_b`. [kg/m³]
    thickener_density
        TRUE density of the thickener's grains or spheres, not that of the loose powder, :math:`\rho_t`. [kg/m³]
    loading
        Thickener for base, by mass: phr over 100, :math:`x`. [-]

    Returns
    -------
    Volume fraction. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: wetted out, no air stirred in.
    Source: volume balance.

    Examples
    --------
    >>> print(f"{filler_volume_fraction(base_density='1.15 kg/L', thickener_density='0.15 kg/L', loading=0.05):.7f}")
    0.2771084
    """
    filler = loading / thickener_density
    return filler / (1 / base_density + filler)


@door(mass="kg", bulk_density="kg/m^3", returns="m^3", possible={"mass": NOT_NEGATIVE, "bulk_density": POSITIVE})
def bulk_volume(*, mass: float, bulk_density: float) -> float:
    r"""Volume that loose powder takes in the tub: what a litre measure sees.

    .. math:: V = \frac{m}{\rho_{bulk}}

    Parameters
    ----------
    mass
        Of powder, :math:`m`. [kg]
    bulk_density
        Of the loose powder, :math:`\rho_{bulk}`. [kg/m³]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as loose as the density was measured. Not the volume it adds to a mix: see `volume_gain`.
    Source: definition. Fumed silica: 10 US gallons weigh 4 lb, 47.93 g/L (verified).

    Examples
    --------
    >>> print(f"{bulk_volume(mass='30 g', bulk_density='48 kg/m³').to('mL'):.0f~P}")
    625 ml
    """
    return mass / bulk_density
