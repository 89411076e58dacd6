"""Area by weighing: kitchen foil or paper pressed over the figure, taken off and put on the scale."""

from math import hypot

from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


@door(mass="kg", areal_weight="kg/m^2", overlap="", returns="m^2",
      possible={"mass": POSITIVE, "areal_weight": POSITIVE, "overlap": NOT_NEGATIVE}, holds={"overlap": (0, 0.3)})
def foil_area(*, mass: float, areal_weight: float, overlap: float = 0.0) -> float:
    r"""Area that foil of a known weight has covered.

    .. math:: A = \frac{m}{q \, (1 + o)}

    Parameters
    ----------
    mass
        Of the foil taken off the figure, :math:`m`. [kg]
    areal_weight
        Of the foil, from a measured sheet of the same roll, :math:`q`. [kg/m²]
    overlap
        Foil that lay double, as a share of the area covered, :math:`o`. [-]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: overlap up to 0.3 (our own limit). Foil sees no texture, hair or folds. Aluminium of 16 µm is 43 g/m²
    at 2.70 g/cm³, but rolls differ by some 8 % (from memory): weigh a measured sheet.
    Source: mass balance, exact.

    Examples
    --------
    >>> print(f"{foil_area(mass='125 g', areal_weight='43.2 g/m²', overlap=0.08):.5f~P}")
    2.67918 m²
    """
    return mass / areal_weight / (1 + overlap)


@door(mass="kg", areal_weight="kg/m^2", overlap="", mass_u="kg", areal_weight_u="kg/m^2", overlap_u="", returns="m^2",
      possible={"mass": POSITIVE, "areal_weight": POSITIVE, "overlap": NOT_NEGATIVE, "mass_u": NOT_NEGATIVE,
                "areal_weight_u": NOT_NEGATIVE, "overlap_u": NOT_NEGATIVE})
def foil_area_uncertainty(*, mass: float, areal_weight: float, overlap: float, mass_u: float, areal_weight_u: float,
                          overlap_u: float) -> float:
    r"""Standard uncertainty of an area by weighed foil.

    .. math:: \frac{u(A)}{A} = \sqrt{ \left( \frac{u_m}{m} \right)^2 + \left( \frac{u_q}{q} \right)^2 + \left( \frac{u_o}{1 + o} \right)^2 }

    Parameters
    ----------
    mass
        Of the foil, :math:`m`. [kg]
    areal_weight
        Of the foil, :math:`q`. [kg/m²]
    overlap
        Share that lay double, :math:`o`. [-]
    mass_u
        Standard uncertainty of the mass; a scale step d read twice (tare and load) gives d/sqrt(6). [kg]
    areal_weight_u
        Standard uncertainty of the areal weight. [kg/m²]
    overlap_u
        Standard uncertainty of the overlap; 'give or take e' without further knowledge is e/sqrt(3). [-]

    Returns
    -------
    Standard uncertainty (k = 1). [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: small and independent uncertainties. Overlap and creases matter most: 8 % give or take 3 % is already
    4 % of the area at k = 2.
    Source: law of propagation of uncertainty, first order.

    Examples
    --------
    >>> off = foil_area_uncertainty(mass="125 g", areal_weight="43.2 g/m²", overlap=0, mass_u="0.40825 g",
    ...                             areal_weight_u="0.5 g/m²", overlap_u=0)
    >>> print(f"{off:.5f~P}")
    0.03480 m²
    """
    share = hypot(mass_u / mass, areal_weight_u / areal_weight, overlap_u / (1 + overlap))
    return mass / areal_weight / (1 + overlap) * share
