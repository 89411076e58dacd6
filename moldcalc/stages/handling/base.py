"""What lifts a shell with an open base off its board while the cast is liquid."""

from math import pi
from typing import NamedTuple

from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


class Uplift(NamedTuple):
    """What lifts a shell off its board: force [N], the same as a mass [kg], and the mass still missing on top [kg]."""

    force: float
    as_mass: float
    missing_mass: float


@door(base_radius="m", top_radius="m", height="m", returns="m^3",
      possible={"base_radius": NOT_NEGATIVE, "top_radius": NOT_NEGATIVE, "height": NOT_NEGATIVE})
def frustum_volume(*, base_radius: float, top_radius: float, height: float) -> float:
    r"""Volume of a straight bell, a cone without its tip.

    .. math:: V = \frac{\pi H}{3} \left( R^2 + R r + r^2 \right)

    Parameters
    ----------
    base_radius, top_radius
        :math:`R, r`. [m]
    height
        :math:`H`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any.
    Source: geometry, exact.

    Examples
    --------
    >>> print(f"{frustum_volume(base_radius='0.5 m', top_radius='0.2 m', height='0.8 m').magnitude:.6f}")
    0.326726
    """
    return pi * height / 3 * (base_radius * base_radius + base_radius * top_radius + top_radius * top_radius)


@door(density="kg/m^3", base_area="m^2", head="m", volume="m^3", held_down="kg", returns={"force": "N", "as_mass": "kg", "missing_mass": "kg"},
      possible={"density": POSITIVE, "base_area": NOT_NEGATIVE, "head": NOT_NEGATIVE, "volume": NOT_NEGATIVE, "held_down": NOT_NEGATIVE})
def uplift(*, density: float, base_area: float, head: float, volume: float, held_down: float = 0.0) -> Uplift:
    r"""What lifts a shell with an open base off its board while the cast is liquid.

    .. math:: F = \rho \, g \, (A_b H - V), \qquad m_+ = \max\left(0, \frac{F}{g} - m\right)

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    base_area
        Of the opening that stands on the board, :math:`A_b`. [m²]
    head
        From the board to the liquid's surface, :math:`H`. [m]
    volume
        Of the liquid in it, :math:`V`. [m³]
    held_down
        Mass of shell, rubber and what is strapped to it, :math:`m`. [kg]

    Returns
    -------
    force
        Upward; below 0 it presses down, since the walls lean in toward the board. [N]
    as_mass
        What weighs the same. [kg]
    missing_mass
        What must still be strapped or bolted on, bare, with nothing to spare. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: full liquid head, liquid up to the rim under the shell. The joint to the board carries it, or weight on top does: it can be
    many times the shell's own weight.
    Source: pressure on the open base less the liquid's own weight (hydrostatics, textbook).

    Examples
    --------
    A bell, 1 m across at its foot:

    >>> lift = uplift(density="1600 kg/m^3", base_area="0.785398 m^2", head="0.8 m", volume="0.326726 m^3", held_down="40 kg")
    >>> print(f"{lift.force.magnitude:.0f} N, {lift.as_mass.magnitude:.0f} kg, {lift.missing_mass.magnitude:.0f} kg missing")
    4732 N, 483 kg, 443 kg missing
    """
    as_mass = density * (base_area * head - volume)
    return Uplift(GRAVITY * as_mass, as_mass, max(0.0, as_mass - held_down))
