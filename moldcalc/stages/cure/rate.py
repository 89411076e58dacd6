"""How much faster or slower everything goes at another temperature."""

from math import exp, log

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show

#: molar gas constant, J/mol/K (exact since the SI of 2019, cut to ten digits)
GAS_CONSTANT = 8.314462618

#: where cure at room temperature was looked at: below 10 °C it may stop, above 40 °C other reactions join in
ROOM = Range(283.15, 313.15, with_low=True, with_high=True)


@door(
    temperature="K", reference="K", activation_energy="J/mol", returns="",
    possible={"temperature": POSITIVE, "reference": POSITIVE, "activation_energy": NOT_NEGATIVE},
    holds={"temperature": ROOM},
)
def arrhenius_factor(*, temperature: float, reference: float, activation_energy: float) -> float:
    r"""Rate of cure at a temperature, over the rate at the reference.

    .. math:: f = \exp \left[ -\frac{E_a}{R} \left( \frac{1}{T} - \frac{1}{T_r} \right) \right]

    Parameters
    ----------
    temperature
        At which the rate is wanted, :math:`T`. [K]
    reference
        At which the working time was stated, :math:`T_r`; there the factor is 1. [K]
    activation_energy
        How steeply the rate climbs with temperature, :math:`E_a`. [J/mol]

    Returns
    -------
    Factor; times are divided by it. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: 10 to 40 °C. Below about 10 °C epoxies slow down more than this says, and near 0 °C they may not start
    (Moussa, Vassilopoulos and Keller, Int. J. Adhes. Adhes. 35 (2012) 9-16, abstract seen: verified).
    Source: Arrhenius' law, textbook; the form of ASTM C1074 (verified as formula).

    Examples
    --------
    A rubber of 45 kJ/mol whose times are stated at 23 °C, in a room of 15 °C:

    >>> from moldcalc.units import Q
    >>> f = arrhenius_factor(temperature=Q(15, "degC"), reference=Q(23, "degC"), activation_energy=Q(45, "kJ/mol"))
    >>> print(f"{f:.5f}")
    0.60207
    """
    return exp(-activation_energy / GAS_CONSTANT * (1 / temperature - 1 / reference))


@door(
    time_1="s", temperature_1="K", time_2="s", temperature_2="K", returns="J/mol",
    possible={"time_1": POSITIVE, "temperature_1": POSITIVE, "time_2": POSITIVE, "temperature_2": POSITIVE},
)
def activation_energy_from_times(*, time_1: float, temperature_1: float, time_2: float, temperature_2: float) -> float:
    r"""Activation energy from the same event timed at two temperatures.

    .. math:: E_a = \frac{R \, \ln(t_1 / t_2)}{1 / T_1 - 1 / T_2}

    Parameters
    ----------
    time_1, time_2
        From mixing to the same event (working time, gel), :math:`t_1, t_2`. [s]
    temperature_1, temperature_2
        At which each was timed, :math:`T_1, T_2`. [K]

    Returns
    -------
    Activation energy. [J/mol]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; two equal temperatures; a warmer
        cup that was not faster.

    Notes
    -----
    Range: both times must mean the same event and the same mass; temperatures 10 K or more apart, or the error of a
    degree in the thermometer becomes tens of per cent of the answer.
    Source: Arrhenius' law solved for the energy, textbook (computed).

    Examples
    --------
    40 min at 23 °C, 66 min at 15 °C:

    >>> from moldcalc.units import Q
    >>> e = activation_energy_from_times(time_1=Q(40, "min"), temperature_1=Q(23, "degC"),
    ...                                  time_2=Q(66.438, "min"), temperature_2=Q(15, "degC"))
    >>> print(f"{e.to('kJ/mol').magnitude:.1f}")
    45.0
    """
    if temperature_1 == temperature_2:
        raise EntryError(Fault("temperature 2", f"{show(temperature_2, '°C')}, the same as temperature 1", "give two temperatures that differ"))
    energy = GAS_CONSTANT * (log(time_1) - log(time_2)) / (1 / temperature_1 - 1 / temperature_2)
    if energy <= 0:
        cold, warm = ((time_1, temperature_1), (time_2, temperature_2))[:: 1 if temperature_1 < temperature_2 else -1]
        was = f"{show(warm[0], 'min')} at {show(warm[1], '°C')} and {show(cold[0], 'min')} at {show(cold[1], '°C')}"
        raise EntryError(Fault("the pair of times", was, "the warmer one must be the shorter"))
    return energy


@door(temperature="K", reference="K", q10="", returns="",
      possible={"temperature": POSITIVE, "reference": POSITIVE, "q10": POSITIVE}, holds={"q10": (1.5, 2.5)})
def q10_factor(*, temperature: float, reference: float, q10: float) -> float:
    r"""Rate at a temperature over the rate at the reference, by a fixed factor for every 10 K.

    .. math:: f = Q_{10}^{(T - T_r) / 10}

    Parameters
    ----------
    temperature
        At which the rate is wanted, :math:`T`. [K]
    reference
        At which the factor is 1, :math:`T_r`. [K]
    q10
        Factor for each 10 K, :math:`Q_{10}`; 2 is the rule of thumb. [-]

    Returns
    -------
    Factor; times are divided by it. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: two-part epoxies 1.5 to 2.5 (trade explainers, verified as a rule of thumb).
    Source: the accelerated-ageing form of ASTM F1980 (scope verified, formula from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(q10_factor(temperature=Q(55, "degC"), reference=Q(25, "degC"), q10=2))
    8.0
    """
    return float(q10 ** ((temperature - reference) / 10))


def _refuse_not_rising(temperature_low: float, temperature_high: float) -> None:
    if temperature_high <= temperature_low:
        allowed = f"it must be above temperature low, {show(temperature_low, '°C')}"
        raise EntryError(Fault("temperature high", show(temperature_high, "°C"), allowed))


@door(q10="", temperature_low="K", temperature_high="K", returns="J/mol",
      possible={"q10": Range(1, float("inf"), with_low=True), "temperature_low": POSITIVE, "temperature_high": POSITIVE})
def activation_energy_from_q10(*, q10: float, temperature_low: float, temperature_high: float) -> float:
    r"""Activation energy that gives the same factor between the two temperatures as a Q10.

    .. math:: E_a = \frac{R \, T_1 T_2 \ln Q_{10}}{10}

    Parameters
    ----------
    q10
        Factor for each 10 K, :math:`Q_{10}`. [-]
    temperature_low, temperature_high
        The pair that the factor was observed between, :math:`T_1, T_2`. [K]

    Returns
    -------
    Activation energy. [J/mol]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; temperatures that don't rise.

    Notes
    -----
    Range: exact for that pair only; a fixed Q10 is not a fixed activation energy.
    Source: both laws set equal over the pair (computed, identity).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> e = activation_energy_from_q10(q10=2, temperature_low=Q(20, "degC"), temperature_high=Q(30, "degC"))
    >>> print(f"{e.to('kJ/mol').magnitude:.3f}")
    51.216
    """
    _refuse_not_rising(temperature_low, temperature_high)
    return GAS_CONSTANT * temperature_low * temperature_high * log(q10) / 10


@door(activation_energy="J/mol", temperature_low="K", temperature_high="K", returns="",
      possible={"activation_energy": NOT_NEGATIVE, "temperature_low": POSITIVE, "temperature_high": POSITIVE})
def q10_from_activation_energy(*, activation_energy: float, temperature_low: float, temperature_high: float) -> float:
    r"""Factor for each 10 K between two temperatures that an activation energy amounts to.

    .. math:: Q_{10} = \exp \frac{10 \, E_a}{R \, T_1 T_2}

    Parameters
    ----------
    activation_energy
        How steeply the rate climbs with temperature, :math:`E_a`. [J/mol]
    temperature_low, temperature_high
        The pair it is wanted for, :math:`T_1, T_2`. [K]

    Returns
    -------
    Factor for each 10 K. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; temperatures that don't rise.

    Notes
    -----
    Range: for that pair; between colder temperatures the same energy gives a larger factor.
    Source: both laws set equal over the pair (computed, identity).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> q = q10_from_activation_energy(activation_energy=Q(55, "kJ/mol"), temperature_low=Q(20, "degC"), temperature_high=Q(30, "degC"))
    >>> print(f"{q:.5f}")
    2.10509
    """
    _refuse_not_rising(temperature_low, temperature_high)
    return exp(10 * activation_energy / (GAS_CONSTANT * temperature_low * temperature_high))


@door(time_reference="s", factor="", returns="s", possible={"time_reference": NOT_NEGATIVE, "factor": POSITIVE})
def time_at(*, time_reference: float, factor: float) -> float:
    r"""A working, recoat or demold time at today's rate.

    .. math:: t = t_r / f

    Parameters
    ----------
    time_reference
        As stated at the reference temperature, :math:`t_r`. [s]
    factor
        Rate today over the rate at the reference, :math:`f`. [-]

    Returns
    -------
    Time. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as that of the factor.
    Source: a reaction at f times the rate takes 1/f of the time (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{time_at(time_reference=Q(40, 'min'), factor=0.8).to('min'):.0f~P}")
    50 min
    """
    return time_reference / factor
