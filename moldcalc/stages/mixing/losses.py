"""What stays in the cup and in the brush."""

from math import pi

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, PART, POSITIVE, door, show


@door(film="m", cup_diameter="m", mass="kg", density="kg/m^3", returns="kg",
      possible={"film": NOT_NEGATIVE, "cup_diameter": POSITIVE, "mass": POSITIVE, "density": POSITIVE},
      holds={"film": (0.3e-3, 1.0e-3)})
def cup_film_mass(*, film: float, cup_diameter: float, mass: float, density: float) -> float:
    r"""What stays in a straight cup as a film on its wall, up to the fill line, and on its bottom.

    .. math:: m_f = \rho \, \delta \left( \pi D h + \frac{\pi D^2}{4} \right), \quad h = \frac{4 m}{\pi D^2 \rho}

    Parameters
    ----------
    film
        Thickness of what can't be scraped out, :math:`\delta`. [m]
    cup_diameter
        Inside, :math:`D`. [m]
    mass
        Mixed in the cup, :math:`m`. [kg]
    density
        Of the mix, :math:`\rho`. [kg/m³]

    Returns
    -------
    Mass left in the cup. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a film that would hold it all.

    Notes
    -----
    Range: a film of 0.3 to 1.0 mm (common practice, no source); thin beside the cup.
    Source: area of a cylinder (exact for a thin film).

    Examples
    --------
    0.5 kg in a cup 67 mm wide, a film of 1 mm:

    >>> from moldcalc.units import Q
    >>> m = cup_film_mass(film=Q(1, "mm"), cup_diameter=Q(67, "mm"), mass=Q(0.5, "kg"), density=Q(1.18, "kg/L"))
    >>> print(f"{m.to('g'):.0f~P}")
    34 g
    """
    wall = 4 * mass / (cup_diameter * density)  # pi D h
    left = density * film * (wall + pi * cup_diameter**2 / 4)
    if left > mass:
        raise EntryError(Fault("film", show(film, "mm"), f"in this cup it would hold more than the {show(mass, 'kg')} mixed; make it thinner"))
    return left


@door(film="m", cup_diameter="m", mass="kg", density="kg/m^3", brush="kg", returns="kg",
      possible={"film": NOT_NEGATIVE, "cup_diameter": POSITIVE, "mass": POSITIVE, "density": POSITIVE, "brush": NOT_NEGATIVE},
      holds={"film": (0.3e-3, 1.0e-3), "brush": (0.02, 0.04)})
def batch_loss(*, film: float, cup_diameter: float, mass: float, density: float, brush: float) -> float:
    r"""What one batch leaves in its cup and its brush.

    .. math:: m_l = m_f + m_b

    Parameters
    ----------
    film
        Thickness of what can't be scraped out of the cup. [m]
    cup_diameter
        Inside. [m]
    mass
        Mixed in the cup. [kg]
    density
        Of the mix. [kg/m³]
    brush
        What the brush keeps, :math:`m_b`. [kg]

    Returns
    -------
    Mass lost. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a loss of more than the batch.

    Notes
    -----
    Range: a brush keeps 20 to 40 g (common practice, no source). Drips and spatters come on top.
    Source: sum of the two (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> m = batch_loss(film=Q(0.5, "mm"), cup_diameter=Q(90, "mm"), mass=Q(1, "kg"), density=Q(1.18, "kg/L"), brush=Q(30, "g"))
    >>> print(f"{m.to('g'):.0f~P}")
    56 g
    """
    left = float(cup_film_mass.si(film=film, cup_diameter=cup_diameter, mass=mass, density=density)) + brush
    if left > mass:
        raise EntryError(Fault("brush", show(brush, "kg"), f"with the film in the cup it would keep more than the {show(mass, 'kg')} mixed"))
    return left


@door(left="kg", mixed="kg", returns="", possible={"left": NOT_NEGATIVE, "mixed": POSITIVE})
def loss_share(*, left: float, mixed: float) -> float:
    r"""Loss as a share of the mixed mass.

    .. math:: l = m_l / m

    Parameters
    ----------
    left
        In cups and brushes, :math:`m_l`. [kg]
    mixed
        In all, :math:`m`. [kg]

    Returns
    -------
    Share of the mixed mass. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more left than was mixed.

    Notes
    -----
    Range: 0.10 to 0.15 for a small print coat, 0.07 to 0.10 for brushed coats, 0.06 to 0.10 for paste (from memory).
    Source: definition; the share is of the mixed mass, not of what reached the mold.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(loss_share(left=Q(60, "g"), mixed=Q(500, "g")))
    0.12
    """
    if left > mixed:
        raise EntryError(Fault("left", show(left, "kg"), f"it must be at most what was mixed, {show(mixed, 'kg')}"))
    return left / mixed


@door(net="kg", loss_share="", returns="kg", possible={"net": NOT_NEGATIVE, "loss_share": PART}, holds={"loss_share": (0.0, 0.25)})
def mixed_mass(*, net: float, loss_share: float) -> float:
    r"""What must be mixed so that a net mass reaches the mold.

    .. math:: m = \frac{m_n}{1 - l}

    Parameters
    ----------
    net
        On the mold, :math:`m_n`. [kg]
    loss_share
        Share of the mixed mass that is lost, :math:`l`. [-]

    Returns
    -------
    Mixed mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a share above a quarter is a spill, not a loss.
    Source: mass balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{mixed_mass(net=Q(1.31, 'kg'), loss_share=0.12).to('kg'):.2f~P}")
    1.49 kg
    """
    return net / (1 - loss_share)
