"""Skin area of a person from height and weight: a check on the size found for a life-size figure, not a mold rule."""

from math import log10, sqrt

from moldcalc.units import POSITIVE, door

_BODY = {"height": POSITIVE, "mass": POSITIVE}
#: people; our own limits
_PEOPLE = {"height": (0.5, 2.2), "mass": (3, 200)}


@door(height="m", mass="kg", returns="m^2", possible=_BODY, holds=_PEOPLE)
def body_surface_mosteller(*, height: float, mass: float) -> float:
    r"""Skin area of a person, formula of Mosteller 1987.

    .. math:: A = \sqrt{H W / 3600}

    with H in centimetres, W in kilograms, A in square metres.

    Parameters
    ----------
    height
        Of the person, :math:`H`. [m]
    mass
        Of the person, :math:`W`. [kg]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: people. Formulas of this kind differ by up to 0.5 m² for one adult (Redlarski 2016, abstract seen).
    Source: Mosteller 1987; verified, two public pages.

    Examples
    --------
    >>> print(f"{body_surface_mosteller(height='177.8 cm', mass='160 lb'):.5f~P}")
    1.89325 m²
    """
    return sqrt(height * 100 * mass / 3600)


@door(height="m", mass="kg", returns="m^2", possible=_BODY, holds=_PEOPLE)
def body_surface_du_bois(*, height: float, mass: float) -> float:
    r"""Skin area of a person, formula of Du Bois and Du Bois 1916.

    .. math:: A = 0.007184 \, H^{0.725} \, W^{0.425}

    with H in centimetres, W in kilograms, A in square metres.

    Parameters
    ----------
    height
        Of the person, :math:`H`. [m]
    mass
        Of the person, :math:`W`. [kg]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: people. Formulas of this kind differ by up to 0.5 m² for one adult (Redlarski 2016, abstract seen).
    Low by up to 20 % for the very heavy (Livingston and Lee 2001, abstract seen).
    Source: Du Bois and Du Bois 1916; verified, two public pages.

    Examples
    --------
    >>> print(f"{body_surface_du_bois(height='177.8 cm', mass='160 lb'):.5f~P}")
    1.89846 m²
    """
    return 0.007184 * (height * 100) ** 0.725 * mass**0.425


@door(height="m", mass="kg", returns="m^2", possible=_BODY, holds=_PEOPLE)
def body_surface_haycock(*, height: float, mass: float) -> float:
    r"""Skin area of a person, formula of Haycock 1978.

    .. math:: A = 0.024265 \, H^{0.3964} \, W^{0.5378}

    with H in centimetres, W in kilograms, A in square metres.

    Parameters
    ----------
    height
        Of the person, :math:`H`. [m]
    mass
        Of the person, :math:`W`. [kg]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: people. Formulas of this kind differ by up to 0.5 m² for one adult (Redlarski 2016, abstract seen).
    Source: Haycock 1978; verified, two public pages.

    Examples
    --------
    >>> print(f"{body_surface_haycock(height='177.8 cm', mass='160 lb'):.5f~P}")
    1.89489 m²
    """
    return 0.024265 * (height * 100) ** 0.3964 * mass**0.5378


@door(height="m", mass="kg", returns="m^2", possible=_BODY, holds=_PEOPLE)
def body_surface_gehan_george(*, height: float, mass: float) -> float:
    r"""Skin area of a person, formula of Gehan and George 1970.

    .. math:: A = 0.0235 \, H^{0.42246} \, W^{0.51456}

    with H in centimetres, W in kilograms, A in square metres.

    Parameters
    ----------
    height
        Of the person, :math:`H`. [m]
    mass
        Of the person, :math:`W`. [kg]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: people. Formulas of this kind differ by up to 0.5 m² for one adult (Redlarski 2016, abstract seen).
    Source: Gehan and George 1970; verified, two public pages.

    Examples
    --------
    >>> print(f"{body_surface_gehan_george(height='177.8 cm', mass='160 lb'):.5f~P}")
    1.90134 m²
    """
    return 0.0235 * (height * 100) ** 0.42246 * mass**0.51456


@door(height="m", mass="kg", returns="m^2", possible=_BODY, holds=_PEOPLE)
def body_surface_boyd(*, height: float, mass: float) -> float:
    r"""Skin area of a person, formula of Boyd 1935.

    .. math:: A = 0.0003207 \, H^{0.3} \, (1000 W)^{0.7285 - 0.0188 \log_{10} (1000 W)}

    with H in centimetres, W in kilograms, A in square metres.

    Parameters
    ----------
    height
        Of the person, :math:`H`. [m]
    mass
        Of the person, :math:`W`. [kg]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: people. Formulas of this kind differ by up to 0.5 m² for one adult (Redlarski 2016, abstract seen).
    Also printed with kilograms (0.0333 W^(0.6157 - 0.0188 lg W)), 0.01 % away.
    Source: Boyd 1935; verified, two public pages.

    Examples
    --------
    >>> print(f"{body_surface_boyd(height='177.8 cm', mass='160 lb'):.5f~P}")
    1.89657 m²
    """
    grams = mass * 1000
    return 0.0003207 * (height * 100) ** 0.3 * grams ** (0.7285 - 0.0188 * log10(grams))
