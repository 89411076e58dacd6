"""When it will be ready: what the log was worth so far, and the forecast for the rest."""

from collections.abc import Sequence
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.cure.age import refuse_uneven, refuse_unordered, step_age
from moldcalc.stages.cure.rate import arrhenius_factor
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show

DAY = 86400.0
#: nobody waits longer for a rubber; past this the entries are wrong
MOST_DAYS = 60
CLOCK = Range(0, DAY, with_low=True)


class Ready(NamedTuple):
    """How far the cure is, and when it is done."""

    age_so_far: float
    remaining_at_forecast: float
    ready: float


@door(
    needed="s", times="s[]", temperatures="K[]", forecast_temperature="K", reference="K", activation_energy="J/mol",
    returns={"age_so_far": "s", "remaining_at_forecast": "s", "ready": "s"},
    possible={"needed": NOT_NEGATIVE, "temperatures": POSITIVE, "forecast_temperature": POSITIVE, "reference": POSITIVE,
              "activation_energy": NOT_NEGATIVE},
    holds={"forecast_temperature": (283.15, 313.15)},
)
def ready_at(*, needed: float, times: list[float], temperatures: list[float], forecast_temperature: float, reference: float,
             activation_energy: float) -> Ready:
    r"""When a cure is done, from the log so far and one forecast temperature for the rest.

    .. math:: t_{ready} = t_n + \frac{t_{needed} - t_e}{f(T_{forecast})}

    Parameters
    ----------
    needed
        Time to ready at the reference temperature, :math:`t_{needed}`. [s]
    times
        Of the readings, in order, the first at the start of the cure; the last is :math:`t_n`. [s]
    temperatures
        One for each time; straight between readings. [K]
    forecast_temperature
        From the last reading on. [K]
    reference
        At which the needed time is stated. [K]
    activation_energy
        How steeply the rate climbs with temperature. [J/mol]

    Returns
    -------
    age_so_far
        Equivalent age of the log, :math:`t_e`. [s]
    remaining_at_forecast
        Clock time still to go after the last reading; 0 when it is done. [s]
    ready
        Clock time from the FIRST reading until ready, inside the log when it is done already. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; times
        that run backwards.

    Notes
    -----
    Range: 10 to 40 °C, as the rate.
    Source: equivalent age, Freiesleben Hansen and Pedersen 1977, ASTM C1074 (verified as formula).

    Examples
    --------
    16 h at 23 °C are needed; 12 h passed at 18 °C; now 19 °C:

    >>> from moldcalc.units import Q
    >>> r = ready_at(needed=Q(16, "h"), times=[Q(0, "h"), Q(12, "h")], temperatures=[Q(18, "degC")] * 2,
    ...              forecast_temperature=Q(19, "degC"), reference=Q(23, "degC"), activation_energy=Q(45, "kJ/mol"))
    >>> print(f"{r.remaining_at_forecast.to('h'):.1f~P}, {r.ready.to('h'):.1f~P}")
    9.3 h, 21.3 h
    """
    refuse_uneven("times", times, temperatures)
    refuse_unordered(times)
    age = 0.0
    done: float | None = 0.0 if needed == 0 else None
    for i in range(len(times) - 1):
        step = step_age(times[i + 1] - times[i], temperatures[i], temperatures[i + 1], reference, activation_energy)
        if done is None and age + step >= needed:
            done = times[i] - times[0] + _within_step(needed - age, times[i : i + 2], temperatures[i : i + 2], reference, activation_energy)
        age += step
    if done is not None:
        return Ready(age, 0.0, done)
    rate = arrhenius_factor.si(temperature=forecast_temperature, reference=reference, activation_energy=activation_energy)
    remaining = (needed - age) / rate
    return Ready(age, remaining, times[-1] - times[0] + remaining)


def _within_step(needed: float, times: Sequence[float], temperatures: Sequence[float], reference: float, activation_energy: float) -> float:
    """Seconds into a step after which its age reaches what is needed, by halving."""
    whole, slope = times[1] - times[0], temperatures[1] - temperatures[0]
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2
        reached = step_age(whole * middle, temperatures[0], temperatures[0] + slope * middle, reference, activation_energy)
        low, high = (middle, high) if reached < needed else (low, middle)
    return whole * high


@door(
    needed="s", start_of_day="s", day_temperature="K", night_temperature="K", night_from="s", night_to="s", reference="K",
    activation_energy="J/mol", returns="s",
    possible={"needed": NOT_NEGATIVE, "start_of_day": CLOCK, "day_temperature": POSITIVE, "night_temperature": POSITIVE,
              "night_from": CLOCK, "night_to": CLOCK, "reference": POSITIVE, "activation_energy": NOT_NEGATIVE},
    holds={"day_temperature": (283.15, 313.15), "night_temperature": (283.15, 313.15)},
)
def ready_with_nights(*, needed: float, start_of_day: float, day_temperature: float, night_temperature: float, night_from: float,
                      night_to: float, reference: float, activation_energy: float) -> float:
    r"""Clock time until a cure is done, through days and cooler nights.

    .. math:: \int_0^{t} f(T(\tau)) \, d\tau = t_{needed}

    Parameters
    ----------
    needed
        Time to ready at the reference temperature, :math:`t_{needed}`. [s]
    start_of_day
        Clock time of the start, counted from midnight. [s]
    day_temperature, night_temperature
        Steady by day and by night. [K]
    night_from, night_to
        Clock times between which it is night, counted from midnight; the night may run over midnight. [s]
    reference
        At which the needed time is stated. [K]
    activation_energy
        How steeply the rate climbs with temperature. [J/mol]

    Returns
    -------
    Time from the start until ready. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a night that ends as it begins;
        more than 60 days.

    Notes
    -----
    Range: 10 to 40 °C, as the rate. The room changes at once; a thick rubber or a cold floor lags behind.
    Source: equivalent age over steady steps, ASTM C1074 (verified as formula), stepped exactly.

    Examples
    --------
    16 h at 23 °C, begun 16:30, 19 °C by day, 18 °C from 17:00 to 08:30: ready about 14:00 next day.

    >>> from moldcalc.units import Q
    >>> wait = ready_with_nights(needed=Q(16, "h"), start_of_day=Q(16.5, "h"), day_temperature=Q(19, "degC"),
    ...                          night_temperature=Q(18, "degC"), night_from=Q(17, "h"), night_to=Q(8.5, "h"),
    ...                          reference=Q(23, "degC"), activation_energy=Q(45, "kJ/mol"))
    >>> print(f"{16.5 + wait.to('h').magnitude - 24:.1f}")
    14.0
    """
    if night_from == night_to:
        raise EntryError(Fault("night to", "the same clock time as night from", "give the time at which the night ends"))
    day = float(arrhenius_factor.si(temperature=day_temperature, reference=reference, activation_energy=activation_energy))
    night = float(arrhenius_factor.si(temperature=night_temperature, reference=reference, activation_energy=activation_energy))
    dark = (night_to - night_from) % DAY
    a_day = dark * night + (DAY - dark) * day
    whole_days = needed // a_day
    if whole_days >= MOST_DAYS:
        raise EntryError(Fault("time until ready", f"more than {MOST_DAYS} days at {show(day_temperature, '°C')} by day",
                               "warm the room, or check the needed time and the temperatures"))
    left, clock, passed = needed - whole_days * a_day, start_of_day, whole_days * DAY
    for _ in range(4):  # a day has at most three parts: before, in and after the night
        is_night = (clock - night_from) % DAY < dark
        until = ((night_to if is_night else night_from) - clock) % DAY
        rate = night if is_night else day
        if left <= until * rate:
            break
        left, clock, passed = left - until * rate, (clock + until) % DAY, passed + until
    return passed + (left / rate if left > 0 else 0.0)
