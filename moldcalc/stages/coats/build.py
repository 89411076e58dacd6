"""Coats on top of each other: masses, how many build coats, and what is really on the figure."""

from math import ceil

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, SHARE, door, show

#: more coats than that nobody brushes
_MOST_COATS = 100


@door(thickness="m", area="m^2", density="kg/m^3", returns="kg",
      possible={"thickness": NOT_NEGATIVE, "area": NOT_NEGATIVE, "density": POSITIVE})
def coat_mass(*, thickness: float, area: float, density: float) -> float:
    r"""Rubber that stays on the figure as one coat.

    .. math:: m = t A \rho

    Parameters
    ----------
    thickness
        Mean, :math:`t`. [m]
    area
        That takes rubber, :math:`A`. [m²]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Mass, losses left out. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin against the figure; for slender limbs take the coat's volume from `coat_volume`.
    Source: mass balance.

    Examples
    --------
    >>> print(f"{coat_mass(thickness='6 mm', area='1.856 m²', density='1.18 kg/L'):.2f~P}")
    13.14 kg
    """
    return thickness * area * density


@door(wall="m", print_thickness="m", tie_thickness="m", most_per_coat="m", returns="m[]",
      possible={"wall": POSITIVE, "print_thickness": NOT_NEGATIVE, "tie_thickness": NOT_NEGATIVE, "most_per_coat": POSITIVE})
def build_coats(*, wall: float, print_thickness: float, tie_thickness: float, most_per_coat: float) -> list[float]:
    r"""Build coats that fill the wall above print and tie coat, all alike.

    .. math:: n = \left\lceil \frac{w - p - t}{d_{most}} \right\rceil, \quad d = \frac{w - p - t}{n}

    Parameters
    ----------
    wall
        Wanted, :math:`w`. [m]
    print_thickness
        Of the print coat, :math:`p`. [m]
    tie_thickness
        Of the tie coat, :math:`t`; 0 for none. [m]
    most_per_coat
        That holds in one go, :math:`d_{most}`. [m]

    Returns
    -------
    A thickness for each build coat; an empty list where print and tie coat already make the wall. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more coats than anybody brushes.

    Notes
    -----
    Range: any.
    Source: our own rule: as few coats as can be, all equal.

    Examples
    --------
    >>> coats = build_coats(wall="6 mm", print_thickness="0.6 mm", tie_thickness="1.2 mm", most_per_coat="2.2 mm")
    >>> [f"{coat.to('mm'):.2f~P}" for coat in coats]
    ['2.10 mm', '2.10 mm']
    """
    left = wall - print_thickness - tie_thickness
    if left <= 1e-9 * wall:
        return []
    # 4.2 mm in coats of 2.1 mm is two, whatever the last digit of a float says
    count = left / most_per_coat * (1 - 1e-9)
    if count > _MOST_COATS:
        raise EntryError(Fault("most per coat", show(most_per_coat, "mm"),
                               f"for {show(left, 'mm')} that is more than {_MOST_COATS} coats; give a larger one"))
    return [left / ceil(count)] * ceil(count)


@door(wall="m", kept_share="", added="m", returns="m",
      possible={"wall": NOT_NEGATIVE, "kept_share": SHARE, "added": NOT_NEGATIVE})
def film_at_high_points(*, wall: float, kept_share: float, added: float) -> float:
    r"""Rubber over noses, ears and edges, where a brushed coat thins.

    .. math:: t = k w + a

    Parameters
    ----------
    wall
        Mean, :math:`w`. [m]
    kept_share
        Share of the mean that stays on a high point, :math:`k`. [-]
    added
        Paste put on there, :math:`a`. [m]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: compare with the least that is wanted there: at least the wall, never below 3 mm (common practice, no
    source).
    Source: our own bookkeeping. No published share was found; slice a test piece.

    Examples
    --------
    >>> print(f"{film_at_high_points(wall='6 mm', kept_share=0.5, added='4 mm').to('mm'):.1f~P}")
    7.0 mm
    """
    return kept_share * wall + added


@door(mass_mixed="kg", mass_left="kg", area="m^2", density="kg/m^3", returns="m",
      possible={"mass_mixed": POSITIVE, "mass_left": NOT_NEGATIVE, "area": POSITIVE, "density": POSITIVE})
def mean_thickness_from_cups(*, mass_mixed: float, mass_left: float, area: float, density: float) -> float:
    r"""Mean thickness that went on, from weighing the cups before and after.

    .. math:: t = \frac{m_0 - m_1}{\rho A}

    Parameters
    ----------
    mass_mixed
        Of rubber in all cups, :math:`m_0`. [kg]
    mass_left
        In cups, on brushes and on the floor, :math:`m_1`. [kg]
    area
        That was coated, :math:`A`. [m²]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more left than was mixed.

    Notes
    -----
    Range: a mean: it says nothing about thin spots, but it is the only check on the whole surface.
    Source: mass balance.

    Examples
    --------
    >>> mean = mean_thickness_from_cups(mass_mixed="1.49 kg", mass_left="180 g", area="1.856 m²", density="1.18 kg/L")
    >>> print(f"{mean.to('mm'):.2f~P}")
    0.60 mm
    """
    if mass_left > mass_mixed:
        raise EntryError(Fault("mass left", show(mass_left, "kg"), f"it can't be above the {show(mass_mixed, 'kg')} that were mixed"))
    return (mass_mixed - mass_left) / density / area


@door(mass="kg", thickness="m", density="kg/m^3", returns="m^2",
      possible={"mass": NOT_NEGATIVE, "thickness": POSITIVE, "density": POSITIVE})
def covers(*, mass: float, thickness: float, density: float) -> float:
    r"""Area that a mass of rubber covers.

    .. math:: A = \frac{m}{t \rho}

    Parameters
    ----------
    mass
        Of rubber, :math:`m`. [kg]
    thickness
        Of the film, :math:`t`. [m]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Area, losses left out. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin against the figure.
    Source: mass balance.

    Examples
    --------
    >>> print(f"{covers(mass='1 kg', thickness='6 mm', density='1.18 kg/L'):.3f~P}")
    0.141 m²
    """
    return mass / thickness / density


@door(mass="kg", area="m^2", returns="kg/m^2", possible={"mass": NOT_NEGATIVE, "area": POSITIVE})
def rubber_per_area(*, mass: float, area: float) -> float:
    r"""Rubber for each square metre of the original, to compare with other molds.

    .. math:: m_A = \frac{m}{A}

    Parameters
    ----------
    mass
        Of all the rubber, paste included, :math:`m`. [kg]
    area
        Of the original, :math:`A`. [m²]

    Returns
    -------
    Mass on an area. [kg/m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a finished brush-on mold takes 9 to 14 kg/m² once seam band, strips, fillets and high points are counted
    (common practice, no source).
    Source: definition.

    Examples
    --------
    >>> print(f"{rubber_per_area(mass='18.7 kg', area='1.68 m²'):.1f~P}")
    11.1 kg/m²
    """
    return mass / area
