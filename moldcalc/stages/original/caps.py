"""Area and volume of the cap that a flat cut takes off a sphere."""

from math import pi

from moldcalc.errors import EntryError, Fault
from moldcalc.units import POSITIVE, door, show

_CAP = {"sphere_radius": POSITIVE, "height": POSITIVE}


def refuse_tall_cap(sphere_radius: float, height: float) -> None:
    """A cap is no higher than its whole sphere."""
    if height > 2 * sphere_radius:
        raise EntryError(Fault("height", show(height, "mm"),
                               f"it must be at most twice the sphere radius of {show(sphere_radius, 'mm')}"))


@door(sphere_radius="m", height="m", returns="m^2", possible=_CAP)
def cap_area(*, sphere_radius: float, height: float) -> float:
    r"""Area of the round part of a sphere's cap; also of any zone of that height between two parallel cuts.

    .. math:: A = 2 \pi R h

    Parameters
    ----------
    sphere_radius
        Of the whole sphere, :math:`R`. [m]
    height
        Of the cap, :math:`h`. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a cap higher than its sphere.

    Notes
    -----
    Range: exact; the flat side is left out.
    Source: Archimedes.

    Examples
    --------
    >>> print(f"{cap_area(sphere_radius='50 cm', height='12 cm'):.10f~P}")
    0.3769911184 m²
    """
    refuse_tall_cap(sphere_radius, height)
    return 2 * pi * sphere_radius * height


@door(sphere_radius="m", height="m", returns="m^3", possible=_CAP)
def cap_volume(*, sphere_radius: float, height: float) -> float:
    r"""Volume of a sphere's cap.

    .. math:: V = \tfrac{\pi h^2}{3} (3 R - h)

    Parameters
    ----------
    sphere_radius
        Of the whole sphere, :math:`R`. [m]
    height
        Of the cap, :math:`h`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a cap higher than its sphere.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{cap_volume(sphere_radius='50 cm', height='12 cm'):.10f~P}")
    0.0208099097 m³
    """
    refuse_tall_cap(sphere_radius, height)
    return pi * height * height * (3 * sphere_radius - height) / 3
