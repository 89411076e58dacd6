"""What a poured cast pulls on the joints between two sections."""

from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show


class SideWall(NamedTuple):
    """An upright wall with liquid up to its top: the whole push [N], how high over the foot it acts [m], the share of each of
    the two flanges beside it [N], and what a metre of flange takes at the foot [N/m]."""

    force: float
    centre: float
    each_flange: float
    foot_line_load: float


class Separating(NamedTuple):
    """What pulls a joint open over a stretch of depth: both its flanges [N], each of them [N], depth at which it acts [m]."""

    force: float
    each_flange: float
    centre_depth: float


@door(density="kg/m^3", width="m", depth="m", returns={"force": "N", "centre": "m", "each_flange": "N", "foot_line_load": "N/m"},
      possible={"density": POSITIVE, "width": NOT_NEGATIVE, "depth": NOT_NEGATIVE})
def side_wall(*, density: float, width: float, depth: float) -> SideWall:
    r"""Push on an upright wall of even width with liquid up to its top, and what its two flanges take.

    .. math:: F = \frac{\rho \, g \, b \, H^2}{2} \text{ at } \frac{H}{3}, \qquad q_0 = \frac{\rho \, g \, H \, b}{2}

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    width
        Between the two flanges, :math:`b`. [m]
    depth
        Of the liquid, :math:`H`. [m]

    Returns
    -------
    force
        The whole push, :math:`F`. [N]
    centre
        Over the foot. [m]
    each_flange
        Of the two. [N]
    foot_line_load
        On a metre of flange at the foot, :math:`q_0`. [N/m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: full liquid head. For a wall that is not of even width see `separating_by_widths`.
    Source: hydrostatics, textbook.

    Examples
    --------
    >>> wall = side_wall(density="1600 kg/m^3", width="600 mm", depth="1.8 m")
    >>> print(f"{wall.force.magnitude:.1f} N at {wall.centre.magnitude:.1f} m, {wall.foot_line_load.magnitude:.2f} N/m")
    15251.3 N at 0.6 m, 8472.95 N/m
    """
    foot = density * GRAVITY * depth * width
    return SideWall(foot * depth / 2, depth / 3, foot * depth / 4, foot / 2)


@door(density="kg/m^3", width="m", top_depth="m", bottom_depth="m", returns={"force": "N", "each_flange": "N", "centre_depth": "m"},
      possible={"density": POSITIVE, "width": NOT_NEGATIVE, "top_depth": NOT_NEGATIVE, "bottom_depth": NOT_NEGATIVE})
def separating_force(*, density: float, width: float, top_depth: float, bottom_depth: float) -> Separating:
    r"""What pulls two sections apart over a stretch of depth, and what the two flanges beside the liquid take.

    .. math:: F = \frac{\rho \, g \, b \, (d_2^2 - d_1^2)}{2}

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    width
        Of the liquid as seen along the pull, :math:`b`. [m]
    top_depth, bottom_depth
        Of the stretch, below the liquid's surface, :math:`d_1, d_2`. [m]

    Returns
    -------
    force
        Both flanges together. [N]
    each_flange
        Half of it. [N]
    centre_depth
        Where it acts, below the surface. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a bottom above the top.

    Notes
    -----
    Range: even width over that stretch. The force is the pressure on the outline seen along the pull, whatever the shape behind it.
    Source: hydrostatics, textbook.

    Examples
    --------
    >>> pull = separating_force(density="1600 kg/m^3", width="600 mm", top_depth="0 m", bottom_depth="1.8 m")
    >>> print(f"{pull.each_flange.magnitude:.2f}")
    7625.65
    """
    if bottom_depth < top_depth:
        raise EntryError(Fault("bottom depth", show(bottom_depth, "m"), f"it must be at least the top depth, {show(top_depth, 'm')}"))
    force = density * GRAVITY * width * (bottom_depth - top_depth) * (bottom_depth + top_depth) / 2
    both = top_depth + bottom_depth
    centre = 2 / 3 * (both - top_depth * (bottom_depth / both)) if both else 0.0
    return Separating(force, force / 2, centre)


@door(density="kg/m^3", depths="m[]", widths="m[]", returns={"force": "N", "each_flange": "N", "centre_depth": "m"},
      possible={"density": POSITIVE, "depths": NOT_NEGATIVE, "widths": NOT_NEGATIVE})
def separating_by_widths(*, density: float, depths: list[float], widths: list[float]) -> Separating:
    r"""What pulls two sections apart where the liquid's width changes with depth.

    .. math:: F = \int \rho \, g \, h \, b(h) \, \mathrm{d}h

    Parameters
    ----------
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    depths
        Below the liquid's surface, from the top down, :math:`h`. [m]
    widths
        Of the liquid at each depth as seen along the pull, :math:`b`. [m]

    Returns
    -------
    force
        Both flanges together. [N]
    each_flange
        Half of it. [N]
    centre_depth
        Where it acts, below the surface. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; depths that go up, or not as many widths as depths.

    Notes
    -----
    Range: straight between the depths given: exact for straight outlines, a little low for round ones.
    Source: hydrostatics, textbook.

    Examples
    --------
    >>> pull = separating_by_widths(density="1100 kg/m^3", depths=["0 m", "1.5 m"], widths=["0.8 m", "0.8 m"])
    >>> print(f"{pull.force.magnitude:.2f}")
    9708.58
    """
    if len(widths) != len(depths) or len(depths) < 2:
        raise EntryError(Fault("widths", f"{len(widths)} for {len(depths)} depths", "give one for each depth, two or more"))
    force = moment = 0.0
    for d, e, b, c in zip(depths, depths[1:], widths, widths[1:], strict=False):
        if e < d:
            raise EntryError(Fault("depths", f"{show(d, 'm')} and then {show(e, 'm')}", "give them from the top down"))
        force += (e - d) / 6 * (2 * d * b + d * c + e * b + 2 * e * c)
        moment += (e - d) / 12 * (b * (3 * d * d + 2 * d * e + e * e) + c * (d * d + 2 * d * e + 3 * e * e))
    pull = density * GRAVITY * force
    return Separating(pull, pull / 2, moment / force if force else 0.0)
