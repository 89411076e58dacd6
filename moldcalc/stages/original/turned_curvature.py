"""Integrals of mean curvature of solids with a round section: cylinder, cone, frustum, capsule, cap."""

from math import atan2, pi, sqrt

from moldcalc.stages.original.caps import refuse_tall_cap
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


@door(radius="m", height="m", returns="m", possible={"radius": NOT_NEGATIVE, "height": NOT_NEGATIVE})
def mean_curvature_cylinder(*, radius: float, height: float) -> float:
    r"""Integral of mean curvature over a cylinder with its ends.

    .. math:: M = \pi h + \pi^2 r

    Parameters
    ----------
    radius, height
        :math:`r, h`. [m]

    Returns
    -------
    Integral of mean curvature. [m]

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
    >>> print(f"{mean_curvature_cylinder(radius='25 cm', height='90 cm'):.6f~P}")
    5.294834 m
    """
    return pi * height + pi * pi * radius


@door(radius="m", height="m", returns="m", possible={"radius": POSITIVE, "height": NOT_NEGATIVE})
def mean_curvature_cone(*, radius: float, height: float) -> float:
    r"""Integral of mean curvature over a cone with its base.

    .. math:: M = \pi H + \pi R \left( \tfrac{\pi}{2} + \arctan \tfrac{R}{H} \right)

    Parameters
    ----------
    radius
        Of the base, :math:`R`. [m]
    height
        :math:`H`. [m]

    Returns
    -------
    Integral of mean curvature. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: computed two ways (side and rim; a mesh of 2000 sides).

    Examples
    --------
    >>> print(f"{mean_curvature_cone(radius='0.3 m', height='0.4 m'):.10f~P}")
    3.3435632284 m
    """
    return mean_curvature_frustum.si(radius_low=radius, radius_high=0.0, height=height)


@door(radius_low="m", radius_high="m", height="m", returns="m",
      possible={"radius_low": NOT_NEGATIVE, "radius_high": NOT_NEGATIVE, "height": NOT_NEGATIVE})
def mean_curvature_frustum(*, radius_low: float, radius_high: float, height: float) -> float:
    r"""Integral of mean curvature over a cone's frustum with both ends.

    .. math::

        M = \pi h + \pi R \left( \tfrac{\pi}{2} + \varphi \right) + \pi r \left( \tfrac{\pi}{2} - \varphi \right),
        \quad \varphi = \arctan \tfrac{R - r}{h}

    Parameters
    ----------
    radius_low, radius_high, height
        :math:`R, r, h`. [m]

    Returns
    -------
    Integral of mean curvature. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: computed: half the turning angle on each rim, and the side; cone and cylinder are its limits.

    Examples
    --------
    >>> print(f"{mean_curvature_frustum(radius_low='25 cm', radius_high='25 cm', height='90 cm'):.6f~P}")
    5.294834 m
    """
    lean = atan2(radius_low - radius_high, height)
    return pi * height + pi * radius_low * (pi / 2 + lean) + pi * radius_high * (pi / 2 - lean)


@door(radius="m", length="m", returns="m", possible={"radius": POSITIVE, "length": NOT_NEGATIVE})
def mean_curvature_capsule(*, radius: float, length: float) -> float:
    r"""Integral of mean curvature over a cylinder with a half sphere on each end.

    .. math:: M = \pi L + 4 \pi r

    Parameters
    ----------
    radius
        :math:`r`. [m]
    length
        Of the straight part only, :math:`L`. [m]

    Returns
    -------
    Integral of mean curvature. [m]

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
    >>> print(f"{mean_curvature_capsule(radius='5 cm', length='30 cm'):.6f~P}")
    1.570796 m
    """
    return pi * length + 4 * pi * radius


@door(sphere_radius="m", height="m", returns="m", possible={"sphere_radius": POSITIVE, "height": POSITIVE})
def mean_curvature_cap(*, sphere_radius: float, height: float) -> float:
    r"""Integral of mean curvature over a sphere's cap with its flat side.

    .. math:: M = 2 \pi h + \pi \rho (\pi - \theta), \quad \rho = \sqrt{h (2 R - h)}, \quad \cos \theta = 1 - h/R

    Parameters
    ----------
    sphere_radius
        Of the whole sphere, :math:`R`. [m]
    height
        Of the cap, :math:`h`. [m]

    Returns
    -------
    Integral of mean curvature. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.
        Also a cap higher than its sphere.

    Notes
    -----
    Range: exact.
    Source: computed: the round side, and half the turning angle on the rim; sphere and half sphere are its limits.

    Examples
    --------
    >>> print(f"{mean_curvature_cap(sphere_radius='50 cm', height='1 m'):.6f~P}")
    6.283185 m
    """
    refuse_tall_cap(sphere_radius, height)
    rim = sqrt(height) * sqrt(2 * sphere_radius - height)
    turn = pi - atan2(rim, sphere_radius - height)
    return 2 * pi * height + pi * rim * turn
