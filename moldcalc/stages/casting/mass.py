"""What a cast weighs, and what is mixed for all of them."""

from moldcalc.stages.mixing.losses import mixed_mass
from moldcalc.units import NOT_NEGATIVE, PART, POSITIVE, door


@door(area="m^2", wall="m", density="kg/m^3", returns="kg", possible={"area": NOT_NEGATIVE, "wall": NOT_NEGATIVE, "density": POSITIVE})
def cast_mass(*, area: float, wall: float, density: float) -> float:
    r"""Mass of a hollow cast.

    .. math:: m = A \, t \, \rho

    Parameters
    ----------
    area
        Of its surface, :math:`A`. [m²]
    wall
        Mean thickness, :math:`t`. [m]
    density
        Of the cast, :math:`\rho`. [kg/m³]

    Returns
    -------
    Mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a wall thin beside the cast's curves; it counts a little too much, since the inside is smaller.
    Source: volume of a thin shell (geometry).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{cast_mass(area=Q(1.68, 'm^2'), wall=Q(12, 'mm'), density=Q(2.0, 'kg/L')).to('kg'):.0f~P}")
    40 kg
    """
    return area * wall * density


@door(volume="m^3", density="kg/m^3", returns="kg", possible={"volume": NOT_NEGATIVE, "density": POSITIVE})
def solid_cast_mass(*, volume: float, density: float) -> float:
    r"""Mass of a cast poured solid.

    .. math:: m = V \rho

    Parameters
    ----------
    volume
        Of the cast, :math:`V`. [m³]
    density
        Of the cast, :math:`\rho`. [kg/m³]

    Returns
    -------
    Mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any.
    Source: definition of density (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{solid_cast_mass(volume=Q(84, 'L'), density=Q(2050, 'kg/m^3')).to('kg'):.0f~P}")
    172 kg
    """
    return volume * density


@door(cast_mass="kg", casts="", loss_share="", returns="kg", possible={"cast_mass": NOT_NEGATIVE, "casts": NOT_NEGATIVE, "loss_share": PART})
def edition_mass(*, cast_mass: float, casts: float, loss_share: float) -> float:
    r"""What must be mixed for all casts.

    .. math:: m = \frac{n \, m_1}{1 - l}

    Parameters
    ----------
    cast_mass
        Of one cast, :math:`m_1`. [kg]
    casts
        In the edition, :math:`n`. [-]
    loss_share
        Share of the MIXED mass that is lost, :math:`l`; 0 gives what is in place. [-]

    Returns
    -------
    Mixed mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: add one cast where the first is thrown away.
    Source: mass balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{edition_mass(cast_mass=Q(40.32, 'kg'), casts=6, loss_share=0.06).to('kg'):.0f~P}")
    257 kg
    """
    return float(mixed_mass.si(net=casts * cast_mass, loss_share=loss_share))
