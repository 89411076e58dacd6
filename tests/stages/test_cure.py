"""Cure: laws of rates and ages, the forecast, and the wording of what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import cure
from moldcalc.units import Q
from tests.tables import within

KELVIN = st.floats(278, 313)
ENERGY = st.floats(20e3, 100e3)
DEMO = {"reference": 296.15, "activation_energy": 45e3}


@given(t1=KELVIN, t2=KELVIN, t3=KELVIN, energy=ENERGY)
def test_factors_chain(t1, t2, t3, energy):
    def factor(temperature, reference):
        return cure.arrhenius_factor.si(temperature=temperature, reference=reference, activation_energy=energy)

    assert factor(t1, t2) * factor(t2, t3) == within(factor(t1, t3), 1e-9)
    assert factor(t1, t1) == 1
    assert (factor(t1, t2) > 1) == (t1 > t2) or t1 == t2 or factor(t1, t2) == 1


@given(t1=KELVIN, apart=st.floats(1, 30), energy=ENERGY, minutes=st.floats(1, 500))
def test_energy_there_and_back(t1, apart, energy, minutes):
    factor = cure.arrhenius_factor.si(temperature=t1 + apart, reference=t1, activation_energy=energy)
    back = cure.activation_energy_from_times.si(time_1=minutes, temperature_1=t1, time_2=minutes / factor, temperature_2=t1 + apart)
    assert back == within(energy, 1e-6)
    q10 = cure.q10_from_activation_energy.si(activation_energy=energy, temperature_low=t1, temperature_high=t1 + apart)
    assert cure.q10_factor.si(temperature=t1 + apart, reference=t1, q10=q10) == within(factor, 1e-9)
    assert cure.activation_energy_from_q10.si(q10=q10, temperature_low=t1, temperature_high=t1 + apart) == within(energy, 1e-9)


@given(temperatures=st.lists(KELVIN, min_size=2, max_size=8), split=st.floats(0.01, 0.99))
def test_an_age_is_the_sum_of_its_parts(temperatures, split):
    times = [3600.0 * i for i in range(len(temperatures))]
    whole = cure.equivalent_age.si(times=times, temperatures=temperatures, **DEMO)
    middle = split * 3600
    between = temperatures[0] + split * (temperatures[1] - temperatures[0])
    cut = cure.equivalent_age.si(times=[0.0, middle, *times[1:]], temperatures=[temperatures[0], between, *temperatures[1:]], **DEMO)
    assert cut == within(whole, 1e-4), "a reading more on a straight line changes next to nothing"
    low, high = (times[-1] * cure.arrhenius_factor.si(temperature=f(temperatures), **DEMO) for f in (min, max))
    assert low * (1 - 1e-9) <= whole <= high * (1 + 1e-9)


def test_steps_and_readings_agree_where_nothing_changes():
    steps = cure.equivalent_age_steps.si(durations=[5000.0, 7000.0], temperatures=[290.0, 290.0], **DEMO)
    assert cure.equivalent_age.si(times=[100.0, 12100.0], temperatures=[290.0, 290.0], **DEMO) == within(steps, 1e-12)
    assert cure.equivalent_age.si(times=[100.0], temperatures=[290.0], **DEMO) == 0


def test_nothing_counts_below_the_datum():
    assert cure.maturity_nurse_saul(durations=["5 h"], temperatures=["-3 °C"], datum="0 °C").magnitude == 0


@given(needed=st.floats(0, 1e6), hours=st.integers(1, 40), start=KELVIN, end=KELVIN)
def test_ready_is_where_the_age_is_reached(needed, hours, start, end):
    times, temperatures = [0.0, hours * 3600.0], [start, end]
    ready = cure.ready_at.si(needed=needed, times=times, temperatures=temperatures, forecast_temperature=290.0, **DEMO)
    assert ready.age_so_far == within(cure.equivalent_age.si(times=times, temperatures=temperatures, **DEMO), 1e-12)
    rate = cure.arrhenius_factor.si(temperature=290.0, **DEMO)
    if ready.remaining_at_forecast:
        assert ready.age_so_far + ready.remaining_at_forecast * rate == within(needed, 1e-9)
        assert ready.ready == within(times[1] + ready.remaining_at_forecast, 1e-12)
    else:
        at = start + (end - start) * ready.ready / times[1]
        assert cure.equivalent_age.si(times=[0.0, ready.ready], temperatures=[start, at], **DEMO) == within(needed, 1e-9, 1e-6)


@given(needed=st.floats(0, 3e6), start=st.floats(0, 86399), dusk=st.floats(0, 86399), dawn=st.floats(0, 86399), kelvin=KELVIN)
def test_a_night_as_warm_as_the_day_changes_nothing(needed, start, dusk, dawn, kelvin):
    if dusk == dawn:
        return
    rate = cure.arrhenius_factor.si(temperature=kelvin, **DEMO)
    if needed / rate > 59 * 86400:
        return
    wait = cure.ready_with_nights.si(needed=needed, start_of_day=start, day_temperature=kelvin, night_temperature=kelvin,
                                     night_from=dusk, night_to=dawn, **DEMO)
    assert wait == within(needed / rate, 1e-9, 1e-6)


def test_a_dew_point_at_full_humidity_is_the_air_itself():
    assert cure.dew_point(temperature="17 °C", relative_humidity=1).m_as("degC") == within(17, absolute=1e-9)


@given(share=st.floats(0.05, 1), kelvin=KELVIN)
def test_vapour_at_the_dew_point_is_saturated(share, kelvin):
    dew = cure.dew_point.si(temperature=kelvin, relative_humidity=share)
    assert cure.saturation_pressure.si(temperature=dew) == within(cure.vapour_pressure.si(temperature=kelvin, relative_humidity=share), 1e-9)


@given(conversion=st.floats(0, 0.64), a=st.floats(1, 3), b=st.floats(0, 3))
def test_thickening_there_and_back(conversion, a, b):
    ratio = cure.castro_macosko.si(conversion=conversion, gel_conversion=0.65, a=a, b=b)
    back = cure.conversion_at_viscosity_ratio.si(viscosity_ratio=ratio, gel_conversion=0.65, a=a, b=b)
    assert back == within(conversion, 1e-9, 1e-12)


def test_limits_of_the_formula_are_told():
    cold = cure.arrhenius_factor.strays(temperature=278.15, reference=296.15, activation_energy=45e3)
    assert [str(stray) for stray in cold] == ["temperature is 278.15 kelvin, below 283.15 kelvin, where the formula holds"]


NIGHTS = {"start_of_day": "9 h", "day_temperature": "19 °C", "night_temperature": "18 °C", "night_from": "17 h", "night_to": "8 h",
          "reference": "23 °C", "activation_energy": Q(45, "kJ/mol")}
ROOM = {"reference": "23 °C", "activation_energy": Q(45, "kJ/mol")}
REFUSED = [
    (lambda: cure.activation_energy_from_times(time_1="40 min", temperature_1="23 °C", time_2="60 min", temperature_2="23 °C"),
     "temperature 2 is 23 °C, the same as temperature 1; give two temperatures that differ."),
    (lambda: cure.activation_energy_from_times(time_1="40 min", temperature_1="15 °C", time_2="60 min", temperature_2="23 °C"),
     "the pair of times is 60 min at 23 °C and 40 min at 15 °C; the warmer one must be the shorter."),
    (lambda: cure.activation_energy_from_times(time_1="60 min", temperature_1="23 °C", time_2="40 min", temperature_2="15 °C"),
     "the pair of times is 60 min at 23 °C and 40 min at 15 °C; the warmer one must be the shorter."),
    (lambda: cure.activation_energy_from_q10(q10=2, temperature_low="30 °C", temperature_high="20 °C"),
     "temperature high is 20 °C; it must be above temperature low, 30 °C."),
    (lambda: cure.equivalent_age(times=["0 h", "1 h"], temperatures=["20 °C"], **ROOM),
     "temperatures is a list of 1; give one for each of the 2 times."),
    (lambda: cure.equivalent_age(times=["2 h", "1 h"], temperatures=["20 °C"] * 2, **ROOM),
     "times is 60 min after 2 h; give the readings in order of time."),
    (lambda: cure.en1992_age(durations=["1 h"], temperatures=["300 °C"]), "temperatures is 300 °C; it must be"),
    (lambda: cure.maturity_nurse_saul(durations=["1 h"], temperatures=["20 °C"]), "datum is missing; give a temperature."),
    (lambda: cure.recoat_window(earliest="3 h", latest="2 h", factor=1), "latest recoat is 2 h; it must come after the earliest, 3 h."),
    (lambda: cure.ready_with_nights(needed="16 h", **NIGHTS | {"night_to": "17 h"}),
     "night to is the same clock time as night from; give the time at which the night ends."),
    (lambda: cure.ready_with_nights(needed="100 day", **NIGHTS), "time until ready is more than 60 days at 19 °C by day; warm the room"),
    (lambda: cure.ready_with_nights(needed="16 h", **NIGHTS | {"night_to": "25 h"}),
     "night to is 25 h; it must be at least 0 and below 86400 second."),
    (lambda: cure.castro_macosko(conversion=0.65, gel_conversion=0.65, a=1.5, b=1),
     "conversion is 0.650; it must be below the gel conversion, 0.650."),
    (lambda: cure.conversion_at_viscosity_ratio(viscosity_ratio=2, gel_conversion=0.5, a=1, b=-2),
     "b is -2; a + b times the gel conversion must be above 0, so it must be above -2."),
    (lambda: cure.time_to_viscosity(doubling_time="30 min", initial_viscosity="25 Pa*s", limit_viscosity="20 Pa*s"),
     "limit viscosity is 20 Pa·s; it must be at least the initial viscosity, 25 Pa·s."),
    (lambda: cure.dew_point(temperature="20 °C", relative_humidity=0), "relative humidity is 0; it must be above 0 and at most 1."),
]


@pytest.mark.parametrize(("call", "says"), REFUSED)
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)
