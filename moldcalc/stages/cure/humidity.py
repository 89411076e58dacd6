"""How much water the air holds: what a tin-cure rubber lives on, and when a cold original sweats."""

from math import exp, log

from moldcalc.units import Range, door

#: gas constant of water vapour, J/kg/K
VAPOUR_CONSTANT = 461.5
_SCALE, _SLOPE, _OFFSET = 611.2, 17.62, 243.12  # Pa, -, °C: over water
_ZERO = 273.15

AIR = Range(173.15, 373.15)
MAGNUS = Range(228.15, 333.15, with_low=True, with_high=True)
DAMP = Range(0, 1, with_high=True)


@door(temperature="K", returns="Pa", possible={"temperature": AIR}, holds={"temperature": MAGNUS})
def saturation_pressure(*, temperature: float) -> float:
    r"""Vapour pressure of air that holds all the water it can.

    .. math:: p_s = 611.2 \, \mathrm{Pa} \cdot \exp \frac{17.62 \, t}{243.12 + t}, \quad t = T - 273.15

    Parameters
    ----------
    temperature
        Of the air, :math:`T`; in the formula in °C. [K]

    Returns
    -------
    Saturation pressure over water. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: -45 to 60 °C, over liquid water.
    Source: Magnus' formula with the constants of Sonntag 1990, as in the WMO Guide No. 8 (from memory). Beside
    CoolProp's water it reads up to 0.32 % low between 0 and 40 °C (computed).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{saturation_pressure(temperature=Q(20, 'degC')).to('Pa').magnitude:.0f}")
    2333
    """
    celsius = temperature - _ZERO
    return _SCALE * exp(_SLOPE * celsius / (_OFFSET + celsius))


@door(temperature="K", relative_humidity="", returns="Pa",
      possible={"temperature": AIR, "relative_humidity": Range(0, 1, True, True)}, holds={"temperature": MAGNUS})
def vapour_pressure(*, temperature: float, relative_humidity: float) -> float:
    r"""Pressure of the water vapour in the air.

    .. math:: p_w = \varphi \, p_s(T)

    Parameters
    ----------
    temperature
        Of the air, :math:`T`. [K]
    relative_humidity
        As the hygrometer shows it, :math:`\varphi`. [-]

    Returns
    -------
    Vapour pressure. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: -45 to 60 °C; the air's small enhancement of 0.4 % is left out.
    Source: definition of relative humidity, with Magnus' formula (constants from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{vapour_pressure(temperature=Q(23, 'degC'), relative_humidity=0.5).to('Pa').magnitude:.0f}")
    1401
    """
    return relative_humidity * float(saturation_pressure.si(temperature=temperature))


@door(temperature="K", relative_humidity="", returns="kg/m^3",
      possible={"temperature": AIR, "relative_humidity": Range(0, 1, True, True)}, holds={"temperature": MAGNUS})
def absolute_humidity(*, temperature: float, relative_humidity: float) -> float:
    r"""Mass of water in each cubic metre of air.

    .. math:: \rho_w = \frac{\varphi \, p_s(T)}{R_w T}

    Parameters
    ----------
    temperature
        Of the air, :math:`T`. [K]
    relative_humidity
        As the hygrometer shows it, :math:`\varphi`. [-]

    Returns
    -------
    Absolute humidity. [kg/m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: -45 to 60 °C; ideal gas, 1 % at room temperature.
    Source: ideal gas law with 461.5 J/kg/K for water (textbook), Magnus' formula (constants from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{absolute_humidity(temperature=Q(23, 'degC'), relative_humidity=0.5).to('g/m^3').magnitude:.2f}")
    10.25
    """
    return float(vapour_pressure.si(temperature=temperature, relative_humidity=relative_humidity)) / (VAPOUR_CONSTANT * temperature)


@door(temperature="K", relative_humidity="", returns="K",
      possible={"temperature": AIR, "relative_humidity": DAMP}, holds={"temperature": MAGNUS})
def dew_point(*, temperature: float, relative_humidity: float) -> float:
    r"""Temperature at which this air begins to wet a surface.

    .. math:: t_d = \frac{243.12 \, g}{17.62 - g}, \quad g = \ln \varphi + \frac{17.62 \, t}{243.12 + t}

    Parameters
    ----------
    temperature
        Of the air, :math:`T`; in the formula :math:`t` is in °C. [K]
    relative_humidity
        As the hygrometer shows it, :math:`\varphi`. [-]

    Returns
    -------
    Dew point, over water. [K]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: -45 to 60 °C.
    Source: Magnus' formula turned round (constants from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{dew_point(temperature=Q(23, 'degC'), relative_humidity=0.5).to('degC').magnitude:.1f}")
    12.0
    """
    celsius = temperature - _ZERO
    g = log(relative_humidity) + _SLOPE * celsius / (_OFFSET + celsius)
    return _OFFSET * g / (_SLOPE - g) + _ZERO
