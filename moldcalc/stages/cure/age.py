"""What a temperature log was worth: hours at the reference temperature that cure just as far."""

from collections.abc import Sequence
from itertools import pairwise
from math import exp

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.cure.rate import arrhenius_factor
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show


def refuse_uneven(entry: str, first: Sequence[float], temperatures: Sequence[float]) -> None:
    """As many temperatures as times or durations."""
    if len(first) != len(temperatures):
        raise EntryError(Fault("temperatures", f"a list of {len(temperatures)}", f"give one for each of the {len(first)} {entry}"))


def refuse_unordered(times: Sequence[float]) -> None:
    """Readings in order of time."""
    for before, after in pairwise(times):
        if after < before:
            raise EntryError(Fault("times", f"{show(after, 'h')} after {show(before, 'h')}", "give the readings in order of time"))


#: Simpson's rule on no more than this in one piece, K: then it is exact to 1e-5 for any activation energy of a cure
_PIECE = 5.0
_MOST_PIECES = 100


def step_age(duration: float, start: float, end: float, reference: float, activation_energy: float) -> float:
    """Equivalent age of one step whose temperature runs straight from ``start`` to ``end``, by Simpson's rule."""
    def rate(temperature: float) -> float:
        return float(arrhenius_factor.si(temperature=temperature, reference=reference, activation_energy=activation_energy))

    pieces = 1 + int(min(abs(end - start) / _PIECE, _MOST_PIECES))
    half = (end - start) / pieces / 2
    inner = sum(4 * rate(start + (2 * i + 1) * half) + (2 * rate(start + 2 * i * half) if i else 0.0) for i in range(pieces))
    return duration * (rate(start) + inner + rate(end)) / (6 * pieces)


@door(times="s[]", temperatures="K[]", reference="K", activation_energy="J/mol", returns="s",
      possible={"temperatures": POSITIVE, "reference": POSITIVE, "activation_energy": NOT_NEGATIVE})
def equivalent_age(*, times: list[float], temperatures: list[float], reference: float, activation_energy: float) -> float:
    r"""Time at the reference temperature that cures as far as a log of readings did.

    .. math:: t_e = \int \exp \left[ -\frac{E_a}{R} \left( \frac{1}{T(t)} - \frac{1}{T_r} \right) \right] dt

    Parameters
    ----------
    times
        Of the readings, in order, counted from any moment. [s]
    temperatures
        One for each time; between two readings it is taken to run straight, :math:`T`. [K]
    reference
        At which the needed time is stated, :math:`T_r`. [K]
    activation_energy
        How steeply the rate climbs with temperature, :math:`E_a`. [J/mol]

    Returns
    -------
    Equivalent age, from the first reading to the last. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; times
        that run backwards.

    Notes
    -----
    Range: 10 to 40 °C, as the rate. Each step is integrated by Simpson's rule, in pieces of 5 K, so that long steps
    count right too; a rule that takes the temperature at the START of each step reads a warming
    log low. One reading alone is worth nothing.
    Source: Freiesleben Hansen and Pedersen 1977, ASTM C1074 (verified as formula).

    Examples
    --------
    From 10 to 30 °C in 8 h, 55 kJ/mol, at 23 °C:

    >>> from moldcalc.units import Q
    >>> age = equivalent_age(times=[Q(0, "h"), Q(4, "h"), Q(8, "h")], temperatures=[Q(t, "degC") for t in (10, 20, 30)],
    ...                      reference=Q(23, "degC"), activation_energy=Q(55, "kJ/mol"))
    >>> print(f"{age.to('h'):.2f~P}")
    6.95 h
    """
    refuse_uneven("times", times, temperatures)
    refuse_unordered(times)
    return sum(
        step_age(times[i + 1] - times[i], temperatures[i], temperatures[i + 1], reference, activation_energy)
        for i in range(len(times) - 1)
    )


@door(durations="s[]", temperatures="K[]", reference="K", activation_energy="J/mol", returns="s",
      possible={"durations": NOT_NEGATIVE, "temperatures": POSITIVE, "reference": POSITIVE, "activation_energy": NOT_NEGATIVE})
def equivalent_age_steps(*, durations: list[float], temperatures: list[float], reference: float, activation_energy: float) -> float:
    r"""Time at the reference temperature that cures as far as steps of steady temperature did.

    .. math:: t_e = \sum \exp \left[ -\frac{E_a}{R} \left( \frac{1}{T_i} - \frac{1}{T_r} \right) \right] \Delta t_i

    Parameters
    ----------
    durations
        Of the steps, :math:`\Delta t_i`. [s]
    temperatures
        Steady in each step, :math:`T_i`. [K]
    reference
        At which the needed time is stated, :math:`T_r`. [K]
    activation_energy
        How steeply the rate climbs with temperature, :math:`E_a`. [J/mol]

    Returns
    -------
    Equivalent age. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: 10 to 40 °C, as the rate.
    Source: Freiesleben Hansen and Pedersen 1977, ASTM C1074 (verified as formula). That standard's own arithmetic adds
    273 to degrees Celsius, not 273.15 (from memory); the factor moves by 0.15 % at most between 0 and 40 °C.

    Examples
    --------
    Overnight, 16 h at 14 °C, is worth at 20 °C:

    >>> from moldcalc.units import Q
    >>> age = equivalent_age_steps(durations=[Q(16, "h")], temperatures=[Q(14, "degC")],
    ...                            reference=Q(20, "degC"), activation_energy=Q(55, "kJ/mol"))
    >>> print(f"{age.to('h'):.1f~P}")
    10.0 h
    """
    refuse_uneven("durations", durations, temperatures)
    return sum(
        duration * float(arrhenius_factor.si(temperature=temperature, reference=reference, activation_energy=activation_energy))
        for duration, temperature in zip(durations, temperatures, strict=True)
    )


@door(durations="s[]", temperatures="K[]", datum="K", returns="K*s",
      possible={"durations": NOT_NEGATIVE, "temperatures": POSITIVE, "datum": POSITIVE})
def maturity_nurse_saul(*, durations: list[float], temperatures: list[float], datum: float) -> float:
    r"""Temperature-time sum above a datum, the older way of counting.

    .. math:: M = \sum (T_i - T_0) \, \Delta t_i

    Parameters
    ----------
    durations
        Of the steps, :math:`\Delta t_i`. [s]
    temperatures
        Steady in each step, :math:`T_i`. [K]
    datum
        Below which nothing is counted, :math:`T_0`. Sources use 0 °C and -10 °C for the same material, so it is asked. [K]

    Returns
    -------
    Maturity. [K·s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: cement, near the temperature it was fitted at; warm hours count for less than in an equivalent age. A step
    colder than the datum adds nothing.
    Source: Nurse 1949, Saul 1951, as in ASTM C1074 (verified, several public sources).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> m = maturity_nurse_saul(durations=[Q(6, "h"), Q(18, "h")], temperatures=[Q(15, "degC"), Q(20, "degC")], datum=Q(0, "degC"))
    >>> print(f"{m.to('K*h').magnitude:.0f}")
    450
    """
    refuse_uneven("durations", durations, temperatures)
    return sum(duration * max(0.0, temperature - datum) for duration, temperature in zip(durations, temperatures, strict=True))


#: EN 1992-1-1 adds 273, not 273.15, to degrees Celsius
_EN_OFFSET = 273.15 - 273.0


@door(durations="s[]", temperatures="K[]", returns="s",
      possible={"durations": NOT_NEGATIVE, "temperatures": Range(173.15, 473.15)})
def en1992_age(*, durations: list[float], temperatures: list[float]) -> float:
    r"""Age of concrete corrected for temperature, as a building code has it.

    .. math:: t_T = \sum \exp \left[ -\left( \frac{4000}{273 + T_i} - 13.65 \right) \right] \Delta t_i

    Parameters
    ----------
    durations
        Of the steps, :math:`\Delta t_i`. [s]
    temperatures
        Steady in each step; in the formula :math:`T_i` is in °C. [K]

    Returns
    -------
    Age at 20 °C. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: 0 to 80 °C (from memory), cement. At 20 °C a day counts 0.998 of a day, since 13.65 is rounded in the code:
    that is left as it stands.
    Source: EN 1992-1-1:2004, Annex B, equation (B.10) (verified).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{en1992_age(durations=[Q(1, 'day')], temperatures=[Q(5, 'degC')]).to('day').magnitude:.4f}")
    0.4778
    """
    refuse_uneven("durations", durations, temperatures)
    return sum(
        duration * exp(-(4000 / (temperature - _EN_OFFSET) - 13.65)) for duration, temperature in zip(durations, temperatures, strict=True)
    )
