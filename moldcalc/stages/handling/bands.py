"""Bolts of an upright joint: what evenly spaced ones carry, and where they stand to carry the same."""

from math import sqrt

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.stages.mixing.counting import whole
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door

#: more bolts than this in one joint is a slip in an entry
MOST_BOLTS = 1000


@door(density="kg/m^3", width="m", depth="m", bolts="", returns="N[]",
      possible={"density": POSITIVE, "width": NOT_NEGATIVE, "depth": POSITIVE, "bolts": POSITIVE})
def band_loads(*, density: float, width: float, depth: float, bolts: float) -> list[float]:
    r"""What each bolt of an upright flange carries when they are evenly spaced, from the foot up.

    .. math:: F_i = \frac{\rho \, g \, b}{4} \left( d_i^2 - d_{i+1}^2 \right), \qquad d_i = H \left( 1 - \frac{i}{n} \right)

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    width
        Between the two flanges that share the load, :math:`b`. [m]
    depth
        Of the liquid, as high as the joint, :math:`H`. [m]
    bolts
        In this flange, :math:`n`, each in the middle of its band. [-]

    Returns
    -------
    Load of each bolt, the lowest first, before prying. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not a whole number of bolts, or more than 1000.

    Notes
    -----
    Range: full liquid head. The lowest of 12 takes 1.92 times the mean.
    Source: each bolt takes its band of the triangle (computed).

    Examples
    --------
    >>> loads = band_loads(density="1600 kg/m^3", width="600 mm", depth="1.8 m", bolts=12)
    >>> print(f"{loads[0].magnitude:.2f} {loads[-1].magnitude:.2f}")
    1217.99 52.96
    """
    number = _number(bolts, "bolts")
    side = density * GRAVITY * width * depth * depth / 4
    return [side * (2 * (number - i) - 1) / number**2 for i in range(number)]


def _number(value: float, entry: str) -> int:
    if value > MOST_BOLTS:
        raise EntryError(Fault(entry, f"{value:g}", f"it must be at most {MOST_BOLTS}"))
    return whole(value, entry)


@door(depth="m", zones="", returns="m[]", possible={"depth": POSITIVE, "zones": POSITIVE})
def equal_load_depths(*, depth: float, zones: float) -> list[float]:
    r"""Depths that divide an upright joint into zones of equal load.

    .. math:: d_i = H \sqrt{i/n}

    Parameters
    ----------
    depth
        Of the liquid, :math:`H`. [m]
    zones
        One for each bolt, :math:`n`. [-]

    Returns
    -------
    Depths below the surface, from 0 to the foot, one more than zones. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not a whole number of zones, or more than 1000.

    Notes
    -----
    Range: full liquid head, even width.
    Source: equal areas of a triangle (computed).

    Examples
    --------
    >>> " ".join(f"{depth.magnitude:.3f}" for depth in equal_load_depths(depth="1.8 m", zones=6))
    '0.000 0.735 1.039 1.273 1.470 1.643 1.800'
    """
    number = _number(zones, "zones")
    return [depth * sqrt(i / number) for i in range(number + 1)]


@door(depth="m", zones="", returns="m[]", possible={"depth": POSITIVE, "zones": POSITIVE})
def equal_load_centres(*, depth: float, zones: float) -> list[float]:
    r"""Depths of bolts that each carry the same.

    .. math:: c_i = \frac{2 H}{3 \sqrt{n}} \left[ (i + 1)^{3/2} - i^{3/2} \right]

    Parameters
    ----------
    depth
        Of the liquid, :math:`H`. [m]
    zones
        One for each bolt, :math:`n`. [-]

    Returns
    -------
    Depth of each bolt below the surface, the highest first. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not a whole number of zones, or more than 1000.

    Notes
    -----
    Range: full liquid head, even width; the highest stands far below the rim, so one more goes near it.
    Source: centres of equal areas of a triangle (computed).

    Examples
    --------
    >>> " ".join(f"{depth.magnitude:.3f}" for depth in equal_load_centres(depth="1.8 m", zones=3))
    '0.693 1.267 1.640'
    """
    number = _number(zones, "zones")
    return [2 / 3 * depth / sqrt(number) * ((i + 1) ** 1.5 - i**1.5) for i in range(number)]
