"""Head of a cast that is poured: how heavy the mix is, and what it presses at each height, in one pour or in lifts."""

from math import floor

from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.stages.mixing.counting import count_up
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


@door(water_ratio="", powder_density="kg/m^3", water_density="kg/m^3", returns="kg/m^3",
      possible={"water_ratio": NOT_NEGATIVE, "powder_density": POSITIVE, "water_density": POSITIVE}, holds={"water_ratio": (0.2, 1.2)})
def slurry_density(*, water_ratio: float, powder_density: float, water_density: float) -> float:
    r"""Density of plaster or cement stirred into water, no air in it.

    .. math:: \rho = \frac{1 + w}{1/\rho_p + w/\rho_w}

    Parameters
    ----------
    water_ratio
        Mass of water over mass of powder, :math:`w`. [-]
    powder_density
        Of the powder's grains, not of the heap, :math:`\rho_p`. [kg/m³]
    water_density
        :math:`\rho_w`. [kg/m³]

    Returns
    -------
    Density. [kg/m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: ratios 0.2 to 1.2. Grains of plaster 2700 to 2760, of cement about 3150 kg/m³ (both from memory); water 998.2 at 20 °C.
    Source: volumes add (computed). Air stirred in makes it lighter, which errs on the heavy side here.

    Examples
    --------
    >>> rho = slurry_density(water_ratio=0.7, powder_density="2.75 kg/L", water_density="0.9982 kg/L")
    >>> print(f"{rho.to('kg/L').magnitude:.5f}")
    1.59640
    """
    return (1 + water_ratio) / (1 / powder_density + water_ratio / water_density)


@door(full_height="m", lift_height="m", returns="m[]", possible={"full_height": POSITIVE, "lift_height": POSITIVE})
def lift_levels(*, full_height: float, lift_height: float) -> list[float]:
    r"""Levels to which the cast is poured, one lift after the other.

    .. math:: z_i = \min(i \, h, H)

    Parameters
    ----------
    full_height
        Of the cast over its lowest point, :math:`H`. [m]
    lift_height
        Of one lift, :math:`h`. [m]

    Returns
    -------
    Level at the end of each lift, the last is the full height. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 lifts.

    Notes
    -----
    Range: each lift is poured when the one under it has set.
    Source: counting.

    Examples
    --------
    >>> [f"{level.to('mm'):.0f~P}" for level in lift_levels(full_height="500 mm", lift_height="200 mm")]
    ['200 mm', '400 mm', '500 mm']
    """
    lifts = count_up(full_height / lift_height, "number of lifts")
    return [min(lift * lift_height, full_height) for lift in range(1, lifts)] + [full_height]


@door(density="kg/m^3", height="m", liquid_level="m", set_level="m", returns="Pa",
      possible={"density": POSITIVE, "height": NOT_NEGATIVE, "liquid_level": NOT_NEGATIVE, "set_level": NOT_NEGATIVE})
def head_now(*, density: float, height: float, liquid_level: float, set_level: float = 0.0) -> float:
    r"""Pressure at a height while the cast is liquid from one level to another.

    .. math:: p = \rho \, g \, (z_l - z) \quad \text{for} \quad z_s \le z \le z_l, \qquad \text{else } 0

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    height
        Of the place, over the cast's lowest point, :math:`z`. [m]
    liquid_level
        Surface of the liquid, :math:`z_l`. [m]
    set_level
        Up to here it has set, :math:`z_s`; 0 where nothing has. [m]

    Returns
    -------
    Pressure. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: how fast it is poured does not matter once it is liquid; only a lower lift that has set carries no more head.
    Source: hydrostatics, textbook.

    Examples
    --------
    >>> print(f"{head_now(density='1600 kg/m^3', height='0 m', liquid_level='1 m').magnitude:.1f}")
    15690.6
    """
    return density * GRAVITY * (liquid_level - height) if set_level <= height <= liquid_level else 0.0


@door(density="kg/m^3", height="m", full_height="m", lift_height="m", returns="Pa",
      possible={"density": POSITIVE, "height": NOT_NEGATIVE, "full_height": POSITIVE, "lift_height": POSITIVE})
def greatest_head(*, density: float, height: float, full_height: float, lift_height: float | None = None) -> float:
    r"""Greatest pressure that a height ever sees while the cast is poured in lifts.

    .. math:: p = \rho \, g \, (z_t - z), \qquad z_t = \min\left( H, \, h \left( \lfloor z/h \rfloor + 1 \right) \right)

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    height
        Of the place, over the cast's lowest point, :math:`z`. [m]
    full_height
        Of the cast, :math:`H`. [m]
    lift_height
        Of one lift, :math:`h`; left out where all is poured in one. [m]

    Returns
    -------
    Pressure; 0 above the cast. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: each lift has set before the next one is poured; a place on the line between two lifts counts with the upper one.
    Source: hydrostatics, textbook.

    Examples
    --------
    In one pour, and in lifts of 300 mm:

    >>> print(f"{greatest_head(density='1600 kg/m^3', height='0 m', full_height='1.8 m').to('kPa').magnitude:.2f}")
    28.24
    >>> print(f"{greatest_head(density='1600 kg/m^3', height='0 m', full_height='1.8 m', lift_height='300 mm').to('kPa').magnitude:.2f}")
    4.71
    """
    top = full_height
    if lift_height is not None:
        top = min(full_height, lift_height * (floor(height / lift_height * (1 + 1e-12)) + 1))
    return float(head_now.si(density=density, height=min(height, top), liquid_level=top))
