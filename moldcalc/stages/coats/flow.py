"""How fast a film slides down a face: thickened rubber with a yield stress, and a plain liquid."""

from math import pi, sin

from moldcalc.stages.coats.film import GRAVITY, SLOPING
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door

_NOT_OVERHANGING = (0, pi / 2)
_LIQUID = {"thickness": NOT_NEGATIVE, "viscosity": POSITIVE, "density": POSITIVE, "slope": SLOPING}


@door(thickness="m", yield_stress="Pa", consistency="Pa*s", flow_index="", density="kg/m^3", slope="rad", returns="m/s",
      possible={"thickness": POSITIVE, "yield_stress": NOT_NEGATIVE, "consistency": POSITIVE, "flow_index": POSITIVE,
                "density": POSITIVE, "slope": SLOPING},
      holds={"flow_index": (0.2, 1.5), "slope": _NOT_OVERHANGING})
def plug_speed(*, thickness: float, yield_stress: float, consistency: float,
               flow_index: float, density: float, slope: float) -> float:
    r"""Speed of the outer face of a sagging film with a yield stress (Herschel-Bulkley).

    .. math:: u = \frac{n}{n + 1} K^{-1/n} G^{1/n} (h - h_y)^{1 + 1/n}, \quad G = \rho g \sin \theta, \quad h_y = \tau_y / G

    Parameters
    ----------
    thickness
        Of the film, :math:`h`. [m]
    yield_stress
        Of the mixed rubber, :math:`\tau_y`; below it the rubber doesn't flow. [Pa]
    consistency
        Viscosity that the flowing part would have at a shear rate of 1 per second: the number of K in Pa·s to the n.
        [Pa·s]
    flow_index
        1 is a plain liquid, below 1 it thins as it is sheared, :math:`n`. [-]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 90° is upright, above that it overhangs. [rad]

    Returns
    -------
    Speed; 0 where the film holds. [m/s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: an even film that slides steadily; flow index 0.2 to 1.5 (our own limits). Faces up to upright.
    Source: computed from the film's force balance; agrees with direct quadrature to 1e-5.

    Examples
    --------
    >>> speed = plug_speed(thickness="4 mm", yield_stress="30 Pa", consistency="40 Pa*s", flow_index=0.6, density="1.2 kg/L",
    ...                     slope="90°")
    >>> print(f"{speed:.5e~P}")
    1.31618×10⁻⁴ m/s
    """
    pull = density * GRAVITY * sin(slope)
    flowing = max(0.0, thickness - yield_stress / pull)
    return flow_index / (flow_index + 1) * (pull * flowing / consistency) ** (1 / flow_index) * flowing


@door(thickness="m", yield_stress="Pa", consistency="Pa*s", flow_index="", density="kg/m^3", slope="rad", returns="m^2/s",
      possible={"thickness": POSITIVE, "yield_stress": NOT_NEGATIVE, "consistency": POSITIVE, "flow_index": POSITIVE,
                "density": POSITIVE, "slope": SLOPING},
      holds={"flow_index": (0.2, 1.5), "slope": _NOT_OVERHANGING})
def film_flow(*, thickness: float, yield_stress: float, consistency: float,
              flow_index: float, density: float, slope: float) -> float:
    r"""Volume that slides past a line across the face, for each metre of its width (Herschel-Bulkley).

    .. math:: q = u \left( h - \frac{n}{2 n + 1} (h - h_y) \right)

    Parameters
    ----------
    thickness
        Of the film, :math:`h`. [m]
    yield_stress
        Of the mixed rubber, :math:`\tau_y`; below it the rubber doesn't flow. [Pa]
    consistency
        Viscosity that the flowing part would have at a shear rate of 1 per second: the number of K in Pa·s to the n.
        [Pa·s]
    flow_index
        1 is a plain liquid, below 1 it thins as it is sheared, :math:`n`. [-]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 90° is upright, above that it overhangs. [rad]

    Returns
    -------
    Flow for each metre of width; 0 where the film holds. [m²/s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as for `plug_speed`, which gives :math:`u`.
    Source: computed from the film's force balance; agrees with direct quadrature to 1e-5.

    Examples
    --------
    >>> flow = film_flow(thickness="4 mm", yield_stress="30 Pa", consistency="40 Pa*s", flow_index=0.6, density="1.2 kg/L",
    ...                   slope="90°")
    >>> print(f"{flow:.5e~P}")
    4.74398×10⁻⁷ m²/s
    """
    speed = plug_speed.si(thickness=thickness, yield_stress=yield_stress, consistency=consistency, flow_index=flow_index,
                          density=density, slope=slope)
    flowing = max(0.0, thickness - yield_stress / (density * GRAVITY * sin(slope)))
    return speed * (thickness - flow_index / (2 * flow_index + 1) * flowing)


@door(thickness="m", viscosity="Pa*s", density="kg/m^3", slope="rad", returns="m/s",
      possible=_LIQUID,
      holds={"slope": _NOT_OVERHANGING})
def falling_film_speed(*, thickness: float, viscosity: float, density: float, slope: float) -> float:
    r"""Mean speed of a film of plain liquid running down a face.

    .. math:: \bar u = \frac{\rho g \sin \theta \, d^2}{3 \mu}

    Parameters
    ----------
    thickness
        Of the film, :math:`d`. [m]
    viscosity
        Of the mixed rubber, :math:`\mu`. [Pa·s]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 90° is upright, above that it overhangs. [rad]

    Returns
    -------
    Mean speed; the outer face moves 1.5 times as fast. [m/s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: smooth slow film (`falling_film_reynolds` below about 20, from memory), no yield stress.
    Source: Bird, Stewart and Lightfoot, Transport Phenomena, 2nd ed. 2002, p. 47 as quoted in a public formula book
    (verified).

    Examples
    --------
    >>> print(f"{falling_film_speed(thickness='2.5 mm', viscosity='0.16 Pa*s', density='800 kg/m³', slope='90°'):.3f~P}")
    0.102 m/s
    """
    return density * GRAVITY * sin(slope) * thickness * thickness / (3 * viscosity)


@door(thickness="m", viscosity="Pa*s", density="kg/m^3", slope="rad", returns="kg/(m*s)",
      possible=_LIQUID,
      holds={"slope": _NOT_OVERHANGING})
def falling_film_mass(*, thickness: float, viscosity: float, density: float, slope: float) -> float:
    r"""Mass of plain liquid that runs down a face, for each metre of its width.

    .. math:: \frac{w}{W} = \frac{\rho^2 g \sin \theta \, d^3}{3 \mu}

    Parameters
    ----------
    thickness
        Of the film, :math:`d`. [m]
    viscosity
        Of the mixed rubber, :math:`\mu`. [Pa·s]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 90° is upright, above that it overhangs. [rad]

    Returns
    -------
    Mass flow for each metre of width. [kg/(m·s)]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as for `falling_film_speed`.
    Source: Bird, Stewart and Lightfoot, Transport Phenomena, 2nd ed. 2002, p. 47 as quoted in a public formula book
    (verified). Its example 2.2-1 (numbers from memory) gives 0.204.

    Examples
    --------
    >>> print(f"{falling_film_mass(thickness='2.5 mm', viscosity='0.16 Pa*s', density='800 kg/m³', slope='90°'):.3f~P}")
    0.204 kg/m/s
    """
    return density * thickness * falling_film_speed.si(thickness=thickness, viscosity=viscosity, density=density, slope=slope)


@door(thickness="m", viscosity="Pa*s", density="kg/m^3", slope="rad", returns="",
      possible=_LIQUID,
      holds={"slope": _NOT_OVERHANGING})
def falling_film_reynolds(*, thickness: float, viscosity: float, density: float, slope: float) -> float:
    r"""Reynolds number of a film of plain liquid running down a face.

    .. math:: Re = \frac{4 \, w/W}{\mu}

    Parameters
    ----------
    thickness
        Of the film, :math:`d`. [m]
    viscosity
        Of the mixed rubber, :math:`\mu`. [Pa·s]
    density
        Of the mixed rubber, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 90° is upright, above that it overhangs. [rad]

    Returns
    -------
    Reynolds number. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: the film is smooth below about 20 (from memory). Brushed rubber is some hundred thousand times below that.
    Source: Bird, Stewart and Lightfoot, Transport Phenomena, 2nd ed. 2002, p. 47 as quoted in a public formula book
    (verified).

    Examples
    --------
    >>> round(falling_film_reynolds(thickness='2.5 mm', viscosity='0.16 Pa*s', density='800 kg/m³', slope='90°'), 2)
    5.11
    """
    return 4 * falling_film_mass.si(thickness=thickness, viscosity=viscosity, density=density, slope=slope) / viscosity
