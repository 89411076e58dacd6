"""Area and volume of the plain solids with a round section: cylinder, frustum, cone, capsule."""

from math import hypot, pi

from moldcalc.units import NOT_NEGATIVE, POSITIVE, door

_ROUND = {"radius": POSITIVE, "height": POSITIVE}
_FRUSTUM = {"radius_low": NOT_NEGATIVE, "radius_high": NOT_NEGATIVE, "height": NOT_NEGATIVE}
_CAPSULE = {"radius": POSITIVE, "length": NOT_NEGATIVE}


@door(radius="m", height="m", returns="m^2", possible=_ROUND)
def cylinder_lateral_area(*, radius: float, height: float) -> float:
    r"""Area of a cylinder without its two ends.

    .. math:: A = 2 \pi r h

    Parameters
    ----------
    radius, height
        :math:`r, h`. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{cylinder_lateral_area(radius='25 cm', height='90 cm'):.10f~P}")
    1.4137166941 m²
    """
    return 2 * pi * radius * height


@door(radius="m", height="m", returns="m^2", possible=_ROUND)
def cylinder_area(*, radius: float, height: float) -> float:
    r"""Area of a cylinder with both ends.

    .. math:: A = 2 \pi r (h + r)

    Parameters
    ----------
    radius, height
        :math:`r, h`. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact. A cylinder that stands on the board has one end only: take :math:`\pi r^2` off.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{cylinder_area(radius='25 cm', height='90 cm'):.10f~P}")
    1.8064157758 m²
    """
    return 2 * pi * radius * (height + radius)


@door(radius="m", height="m", returns="m^3", possible=_ROUND)
def cylinder_volume(*, radius: float, height: float) -> float:
    r"""Volume of a cylinder.

    .. math:: V = \pi r^2 h

    Parameters
    ----------
    radius, height
        :math:`r, h`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{cylinder_volume(radius='25 cm', height='90 cm'):.10f~P}")
    0.1767145868 m³
    """
    return pi * radius * radius * height


@door(radius_low="m", radius_high="m", height="m", returns="m^2", possible=_FRUSTUM)
def frustum_lateral_area(*, radius_low: float, radius_high: float, height: float) -> float:
    r"""Area of a cone's frustum without its two ends; a radius of 0 makes it a whole cone.

    .. math:: A = \pi (R + r) \sqrt{(R - r)^2 + h^2}

    Parameters
    ----------
    radius_low, radius_high, height
        :math:`R, r, h`. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; a height of 0 gives the flat ring between two circles.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{frustum_lateral_area(radius_low='2 m', radius_high='1 m', height='3 m'):.9f~P}")
    29.803764797 m²
    """
    return pi * (radius_low + radius_high) * hypot(radius_low - radius_high, height)


@door(radius_low="m", radius_high="m", height="m", returns="m^3", possible=_FRUSTUM)
def frustum_volume(*, radius_low: float, radius_high: float, height: float) -> float:
    r"""Volume of a cone's frustum; a radius of 0 makes it a whole cone.

    .. math:: V = \tfrac{\pi h}{3} (R^2 + R r + r^2)

    Parameters
    ----------
    radius_low, radius_high, height
        :math:`R, r, h`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{frustum_volume(radius_low='2 m', radius_high='1 m', height='3 m'):.9f~P}")
    21.991148575 m³
    """
    return pi * height / 3 * (radius_low * radius_low + radius_low * radius_high + radius_high * radius_high)


@door(radius="m", length="m", returns="m^2", possible=_CAPSULE)
def capsule_area(*, radius: float, length: float) -> float:
    r"""Area of a cylinder with a half sphere on each end: a limb.

    .. math:: A = 2 \pi r L + 4 \pi r^2

    Parameters
    ----------
    radius
        :math:`r`. [m]
    length
        Of the straight part only, :math:`L`; 0 is a sphere. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{capsule_area(radius='5 cm', length='30 cm'):.5f~P}")
    0.12566 m²
    """
    return 2 * pi * radius * (length + 2 * radius)


@door(radius="m", length="m", returns="m^3", possible=_CAPSULE)
def capsule_volume(*, radius: float, length: float) -> float:
    r"""Volume of a cylinder with a half sphere on each end: a limb.

    .. math:: V = \pi r^2 L + \tfrac{4}{3} \pi r^3

    Parameters
    ----------
    radius
        :math:`r`. [m]
    length
        Of the straight part only, :math:`L`; 0 is a sphere. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{capsule_volume(radius='5 cm', length='30 cm'):.7f~P}")
    0.0028798 m³
    """
    return pi * radius * radius * (length + 4 / 3 * radius)
