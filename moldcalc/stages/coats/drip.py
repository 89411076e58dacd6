"""Dripping from an overhang: how a film under a ceiling gathers into drops."""

from math import pi, sqrt

from moldcalc.stages.coats.film import GRAVITY
from moldcalc.units import POSITIVE, door

_LIQUID = {"surface_tension": POSITIVE, "density": POSITIVE}
#: largest drop that can hang from a wetted ceiling, in cubes of the capillary length (Young-Laplace, computed; Pitts 1974
#: has 18.98, from memory)
_LARGEST_DROP = 18.96


@door(surface_tension="N/m", density="kg/m^3", returns="m", possible=_LIQUID)
def capillary_length(*, surface_tension: float, density: float) -> float:
    r"""Length below which surface tension is stronger than weight.

    .. math:: l_c = \sqrt{\gamma / (\rho g)}

    Parameters
    ----------
    surface_tension
        Of the rubber, :math:`\gamma`; silicones 20 to 21 mN/m (from memory). [N/m]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Length. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any liquid at rest.
    Source: definition.

    Examples
    --------
    >>> print(f"{capillary_length(surface_tension='0.0205 N/m', density='1.2 kg/L').to('mm'):.5f~P}")
    1.31985 mm
    """
    return sqrt(surface_tension / density / GRAVITY)


@door(surface_tension="N/m", density="kg/m^3", returns="m", possible=_LIQUID)
def drip_cutoff(*, surface_tension: float, density: float) -> float:
    r"""Ripple length below which a film under a ceiling stays smooth.

    .. math:: \lambda_c = 2 \pi l_c

    Parameters
    ----------
    surface_tension
        Of the rubber, :math:`\gamma`; silicones 20 to 21 mN/m (from memory). [N/m]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Length. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin film under a level ceiling.
    Source: Fermigier, Limat, Wesfreid, Boudinet and Quilliet, J. Fluid Mech. 236 (1992) 349 (abstract verified).

    Examples
    --------
    >>> print(f"{drip_cutoff(surface_tension='0.0205 N/m', density='1.2 kg/L').to('mm'):.5f~P}")
    8.29289 mm
    """
    return 2 * pi * capillary_length.si(surface_tension=surface_tension, density=density)


@door(surface_tension="N/m", density="kg/m^3", returns="m", possible=_LIQUID)
def drip_wavelength(*, surface_tension: float, density: float) -> float:
    r"""Ripple length that grows fastest in a film under a ceiling.

    .. math:: \lambda = 2 \pi \sqrt 2 \, l_c

    Parameters
    ----------
    surface_tension
        Of the rubber, :math:`\gamma`; silicones 20 to 21 mN/m (from memory). [N/m]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Length. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin film under a level ceiling.
    Source: Fermigier, Limat, Wesfreid, Boudinet and Quilliet, J. Fluid Mech. 236 (1992) 349 (abstract verified).

    Examples
    --------
    >>> print(f"{drip_wavelength(surface_tension='0.0205 N/m', density='1.2 kg/L').to('mm'):.5f~P}")
    11.72792 mm
    """
    return sqrt(2) * drip_cutoff.si(surface_tension=surface_tension, density=density)


@door(surface_tension="N/m", density="kg/m^3", returns="m", possible=_LIQUID)
def drip_spacing(*, surface_tension: float, density: float) -> float:
    r"""Distance between neighbouring drops under a ceiling.

    .. math:: s = \tfrac{2}{\sqrt 3} \, 2 \pi \sqrt 2 \, l_c

    Parameters
    ----------
    surface_tension
        Of the rubber, :math:`\gamma`; silicones 20 to 21 mN/m (from memory). [N/m]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Distance. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: drops in a hexagonal pattern under a level ceiling.
    Source: Fermigier, Limat, Wesfreid, Boudinet and Quilliet, J. Fluid Mech. 236 (1992) 349 (abstract verified).
    Silicone oil of 350 mm²/s measured 15.4 give or take 2.0 mm (student report, verified) where this gives 15.2 mm.

    Examples
    --------
    >>> print(f"{drip_spacing(surface_tension='0.021 N/m', density='0.97 kg/L').to('mm'):.3f~P}")
    15.245 mm
    """
    return 2 / sqrt(3) * drip_wavelength.si(surface_tension=surface_tension, density=density)


@door(viscosity="Pa*s", surface_tension="N/m", density="kg/m^3", thickness="m", returns="s",
      possible=_LIQUID | {"viscosity": POSITIVE, "thickness": POSITIVE})
def drip_growth_time(*, viscosity: float, surface_tension: float, density: float, thickness: float) -> float:
    r"""Time in which the fastest ripple under a ceiling grows by a factor of e (2.7).

    .. math:: t = \frac{12 \mu \gamma}{(\rho g)^2 h^3}

    Parameters
    ----------
    viscosity
        Of the mixed rubber, :math:`\mu`. [Pa·s]
    surface_tension
        Of the rubber, :math:`\gamma`; silicones 20 to 21 mN/m (from memory). [N/m]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    thickness
        Of the film, :math:`h`. [m]

    Returns
    -------
    Time. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin film under a level ceiling, no yield stress. It takes some of these until drops hang. Only a yield
    stress or cure holds 2 mm of brushable rubber overhead.
    Source: Fermigier, Limat, Wesfreid, Boudinet and Quilliet, J. Fluid Mech. 236 (1992) 349 (abstract verified). That
    growth goes with the cube of the thickness and against viscosity: verified, a university laboratory's page.

    Examples
    --------
    >>> time = drip_growth_time(viscosity="30 Pa*s", surface_tension="0.0205 N/m", density="1.2 kg/L", thickness="2 mm")
    >>> print(f"{time:.1f~P}")
    6.7 s
    """
    return 12 * viscosity * surface_tension / (density * GRAVITY) ** 2 / thickness**3


@door(surface_tension="N/m", density="kg/m^3", returns="m", possible=_LIQUID)
def drip_threshold(*, surface_tension: float, density: float) -> float:
    r"""Thickest film under a ceiling that can hang there as drops without one of them falling.

    .. math:: h_c = \frac{18.96 \, l_c^3}{\tfrac{\sqrt 3}{2} s^2}

    Parameters
    ----------
    surface_tension
        Of the rubber, :math:`\gamma`; silicones 20 to 21 mN/m (from memory). [N/m]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a level ceiling. Brushed coats of 1 to 3 mm are always above it.
    Source: computed: the largest pendent drop from the Young-Laplace equation over the area that one drop drains
    (:math:`s` is `drip_spacing`). About 0.3 mm was observed with silicone oil (a university laboratory's page,
    verified).

    Examples
    --------
    >>> print(f"{drip_threshold(surface_tension='0.021 N/m', density='0.97 kg/L').to('mm'):.3f~P}")
    0.309 mm
    """
    length = capillary_length.si(surface_tension=surface_tension, density=density)
    spacing = drip_spacing.si(surface_tension=surface_tension, density=density) / length
    return _LARGEST_DROP * length / (sqrt(3) / 2 * spacing * spacing)
