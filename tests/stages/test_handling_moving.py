"""Laws of balance, lifting, legs, slings, noise and vibration against general-purpose libraries; what is refused and how it is said."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import linprog
from scipy.spatial import ConvexHull

from moldcalc.errors import EntryError
from moldcalc.stages import handling
from moldcalc.units import Q
from tests.tables import within

SIZE = st.floats(0.05, 3)
PLACE = st.floats(-1, 1)
G = 9.80665


@given(st.lists(st.tuples(st.floats(0.1, 50), PLACE, PLACE, PLACE), min_size=1, max_size=8), PLACE)
def test_centre_of_mass_against_numpy(parts, shift):
    masses, *places = (list(column) for column in zip(*parts, strict=True))
    found = handling.centre_of_mass.si(masses=masses, x=places[0], y=places[1], z=places[2])
    assert found[1:] == tuple(within(np.average(place, weights=masses), absolute=1e-12) for place in places)
    moved = handling.centre_of_mass.si(masses=masses, x=[x + shift for x in places[0]], y=places[1], z=places[2])
    assert moved.x == within(found.x + shift, absolute=1e-12)


def test_turned_twice_is_as_before():
    once = handling.turned_over.si(mass=10.0, x=0.1, y=0.2, z=0.3, height=0.9)
    assert handling.turned_over.si(**once._asdict(), height=0.9) == tuple(within(v, absolute=1e-15) for v in (10.0, 0.1, 0.2, 0.3))


@given(SIZE, SIZE)
def test_handles_share_evenly(length, part):
    centre = length * min(part / 3, 1)
    spread = 1.9 * min(centre, length - centre)
    assume(spread > 1e-6)
    two = handling.handle_places.si(centre=centre, length=length, spread=spread)
    shares = handling.carry_shares.si(mass=40, length=spread, from_low=centre - two.first)
    assert shares.low == within(20, 1e-9)


@given(st.floats(0, 1), st.floats(0, 1))
def test_four_carriers_balance(far, right):
    four = handling.corner_shares.si(mass=40, length=1.6, width=0.5, from_near=1.6 * far, from_left=0.5 * right)
    assert sum(four) == within(40, 1e-12)
    assert (four.far_left + four.far_right) == within(40 * far, absolute=1e-12)
    assert (four.near_right + four.far_right) == within(40 * right, absolute=1e-12)
    assert min(four) >= 0


@given(st.floats(0, 0.6))
def test_a_slope_only_ever_loads_the_low_end(slope):
    level, sloped = (handling.carry_shares.si(mass=40, length=1.5, from_low=0.75, height=0.3, slope=s) for s in (0, slope))
    assert sloped.low >= level.low
    hanging = handling.carry_shares.si(mass=40, length=1.5, from_low=0.75, height=-0.3, slope=slope)
    assert hanging.low <= level.low, "hung under the handles it is the other way round"


HOLD = {"horizontal": 0.4, "vertical": 0.6, "travel": 0.5, "asymmetry": 0.3, "frequency_multiplier": 0.9, "coupling_multiplier": 0.9}
WORSE = [("horizontal", 0.5), ("vertical", 0.3), ("vertical", 1.3), ("travel", 0.9), ("asymmetry", 0.9), ("frequency_multiplier", 0.5),
         ("coupling_multiplier", 0.5)]


@pytest.mark.parametrize(("entry", "value"), WORSE)
def test_whatever_is_worse_lowers_the_weight(entry, value):
    for weigh in (handling.recommended_weight, handling.recommended_weight_us):
        assert weigh.si(**HOLD | {entry: value}) < weigh.si(**HOLD) < 23.2


@given(st.floats(0, 0.63), st.floats(0, 1.75), st.floats(0, 1.75), st.floats(0, 2.3))
def test_both_systems_stay_close(horizontal, vertical, travel, asymmetry):
    """Their constants are no conversions of each other: a few per cent apart, so never mixed."""
    entries = {"horizontal": horizontal, "vertical": vertical, "travel": travel, "asymmetry": asymmetry, "frequency_multiplier": 1,
               "coupling_multiplier": 1}
    metric, us = handling.recommended_weight.si(**entries), handling.recommended_weight_us.si(**entries)
    assert us == within(metric, 0.035)


@given(st.floats(0.2, 15), st.sampled_from([3600.0, 7200.0, 28800.0]), st.sampled_from([0.5, 1.0]))
def test_more_often_never_allows_more(rate, duration, height):
    entries = {"duration": duration, "height": height}
    now, oftener = (handling.frequency_multiplier.si(lifts_per_minute=f, **entries) for f in (rate, rate + 0.3))
    assert oftener <= now


def test_a_lift_takes_its_worse_end():
    low, high = handling.Hold(0.3, 0.7), handling.Hold(0.6, 1.6)
    whole = handling.lift(load=10, origin=low, destination=high, coupling="poor")
    dropped = handling.lift(load=10, origin=low, destination=high, coupling="poor", set_down_with_care=False)
    assert whole.weight == whole.destination.weight < whole.origin.weight == dropped.weight
    assert dropped.destination is None
    far = handling.lift(load=10, origin=handling.Hold(0.7, 0.7), destination=low, coupling="poor")
    assert (far.weight, far.lifting_index, far.origin.worst) == (0, None, "horizontal")


@pytest.mark.parametrize(("change", "says"), [
    ({"load": -1.0}, "load is .*; it must be at least 0 g and at most"),
    ({"origin": handling.Hold(0.3, -0.1)}, "origin height is -100 mm; it must be at least"),
    ({"destination": handling.Hold(0.3, 0.7, 4.0)}, "destination twist is 229"),
    ({"duration": 40000.0}, "duration is 11.* h; it must be at least"),
    ({"duration": 0.0}, "duration is 0 h; it must be above 0 h"),
    ({"load": math.nan}, "load is nan"),
    ({"coupling": "firm"}, "coupling is firm; choose good, fair or poor"),
])
def test_a_lift_that_is_none(change, says):
    usual = {"load": 10.0, "origin": handling.Hold(0.3, 0.7), "destination": handling.Hold(0.4, 0.9), "coupling": "poor"}
    with pytest.raises(EntryError, match=says):
        handling.lift(**usual | change)


@pytest.mark.parametrize(("call", "says"), [
    (lambda: handling.team_capability(capabilities=["20 kg"] * 5),
     "capabilities is 5 people; more than four are unlikely to lift together; take a trolley"),
    (lambda: handling.guideline_weight(zone="hip"), "zone is hip; choose one of shoulder, elbow, knuckle, lower leg, floor"),
    (lambda: handling.guideline_weight(zone="floor", who="them"), "who is them; choose men or women"),
    (lambda: handling.centre_of_mass(masses=["0 kg"], x=["0 m"], y=["0 m"], z=["0 m"]), "masses is 0 kg in all; give at least one above 0"),
    (lambda: handling.centre_of_mass(masses=["1 kg"], x=["0 m", "1 m"], y=["0 m"], z=["0 m"]), "masses is 1 values beside 2 x"),
    (lambda: handling.handle_places(centre="0.2 m", length="1 m", spread="0.6 m"), "spread is 600 mm; handles the same distance either side"),
    (lambda: handling.carry_shares(mass="40 kg", length="1 m", from_low="1.2 m"), "from low is 1.2 m; the centre of mass is not between the handles"),
    (lambda: handling.corner_shares(mass="40 kg", length="1 m", width="1 m", from_near="2 m", from_left="0 m"),
     "from near is 2 m; it must be at most 1 m"),
    (lambda: handling.ring_lever(radius="1 m", legs=2), "legs is 2; it must be at least 3"),
    (lambda: handling.ring_lever(radius="1 m", legs=3.5), "legs is 3.5; it must be a whole number"),
    (lambda: handling.sling_angle(length="1 m", height="2 m"), "height is 2 m; it must be at most the leg's length, 1 m"),
    (lambda: handling.two_leg_pulls(mass="1 kg", left_angle="90°", right_angle="90°"), "both legs are upright; one of them must slope"),
    (lambda: handling.sling_pull(mass="1 kg", angle="0°", legs=2), "angle is 0°; it must be above 0"),
    (lambda: handling.work_spell(work=["1 h", "1 h"]), "rest is 0 beside 2 times of lifting; give one fewer than those"),
    (lambda: handling.spell_name(9 * 3600.0), "duration is 9 h; it must be above 0 h and at most 8 h"),
    (lambda: handling.daily_vibration(magnitudes=["3 m/s^2"], times=["1 h", "1 h"]), "times is 2 beside 1 magnitudes; give one for each tool"),
    (lambda: handling.daily_vibration(magnitudes=["3 m/s^2"], times=["30 h"]), "times is 30 h in all; they must be at most 24 h"),
    (lambda: handling.noise_dose(levels=[90], times=["1 h", "1 h"]), "times is 2 beside 1 levels; give one for each job"),
    (lambda: handling.purge_time(volume="60 m^3", flow="0.1 m^3/s", start=20, end=200), "end is 200; it must be at most the start, 20"),
    (lambda: handling.leg_loads(x=["0 m", "1 m", "2 m"], y=["0 m", "1 m", "2 m"], mass="1 kg", centre_x="0 m", centre_y="0 m"),
     "x is feet on one line; give three that are not"),
    (lambda: handling.tipping(x=["0 m", "1 m"], y=["0 m", "1 m"], centre_x="0 m", centre_y="0 m", centre_height="1 m"), "x is 2 legs; give 3 to 200"),
    (lambda: handling.rocking_loads(x=["0 m", "1 m", "0 m"], y=["0 m", "0 m", "1 m"], mass="1 kg", centre_x="0 m", centre_y="0 m"),
     "x is 3 legs; give 4"),
    (lambda: handling.rocking_loads(x=["0 m", "1 m", "1 m", "0 m"], y=["0 m", "0 m", "1 m", "1 m"], mass="1 kg", centre_x="2 m", centre_y="0.5 m"),
     "the centre of mass must stand inside the feet"),
    (lambda: handling.rocking_loads(x=["0 m", "2 m", "1 m", "1 m"], y=["0 m", "0 m", "2 m", "0.5 m"], mass="1 kg", centre_x="1 m", centre_y="0.5 m"),
     "one inside, or on a line of, the others"),
    (lambda: handling.way_to_move(mass=0, person=23, people=2), "mass is 0; it must be above 0"),
])
def test_what_is_refused(call, says):
    with pytest.raises(EntryError, match=says):
        call()


FEET = st.lists(st.tuples(PLACE, PLACE), min_size=3, max_size=7, unique=True)


def spread_out(feet):
    points = np.array(feet)
    flat = np.linalg.svd(points - points.mean(axis=0), compute_uv=False)
    return flat[-1] > 0.05


@given(FEET, PLACE, PLACE, st.floats(0.1, 2))
def test_tipping_against_a_hull(feet, cx, cy, height):
    assume(spread_out(feet))
    x, y = map(list, zip(*feet, strict=True))
    found = handling.tipping.si(x=x, y=y, centre_x=cx, centre_y=cy, centre_height=height)
    hull = ConvexHull(np.array(feet))
    inside = -(hull.equations[:, :2] @ np.array([cx, cy]) + hull.equations[:, 2])
    assert found.lever == within(inside.min(), 1e-6, absolute=1e-6)
    assert found.angle == within(math.atan2(inside.min(), height), 1e-6, absolute=1e-6)
    assert found.stands == (found.lever > 0)


def balance(feet):
    return np.array([[1.0] * len(feet), [f[0] for f in feet], [f[1] for f in feet]])


@given(FEET, PLACE, PLACE)
def test_leg_loads_are_the_smallest_that_balance(feet, cx, cy):
    """numpy's least-norm answer to the three equations of balance; for three legs the only one."""
    assume(spread_out(feet))
    x, y = map(list, zip(*feet, strict=True))
    found = handling.leg_loads.si(x=x, y=y, mass=40.0, centre_x=cx, centre_y=cy)
    wanted = np.linalg.pinv(balance(feet)) @ np.array([1, cx, cy]) * 40 * G
    assert found == [within(load, 1e-7, absolute=1e-6) for load in wanted]


@given(st.floats(0.05, 0.95), st.floats(0.05, 0.95), st.lists(st.floats(0.3, 1), min_size=8, max_size=8))
def test_rocking_against_linear_programming(u, v, corner):
    """scipy's linprog: the most and the least that each of four legs can carry while all press."""
    signs = [(-1, -1), (1, -1), (1, 1), (-1, 1)]
    feet = [(sx * corner[2 * i], sy * corner[2 * i + 1]) for i, (sx, sy) in enumerate(signs)]
    hull = ConvexHull(np.array(feet))
    assume(len(hull.vertices) == 4)
    bottom, top = [np.array(feet[0]) * (1 - u) + np.array(feet[1]) * u, np.array(feet[3]) * (1 - u) + np.array(feet[2]) * u]
    centre = bottom * (1 - v) + top * v
    x, y = map(list, zip(*feet, strict=True))
    found = handling.rocking_loads.si(x=x, y=y, mass=40.0, centre_x=centre[0], centre_y=centre[1])
    right = np.array([1, *centre]) * 40 * G
    for leg in range(4):
        cost = np.zeros(4)
        cost[leg] = -1
        most = -linprog(cost, A_eq=balance(feet), b_eq=right, bounds=(0, None), method="highs").fun
        assert found.worst[leg] == within(most, 1e-6, absolute=1e-6)
    for side in (found.one, found.other):
        assert min(side) == within(0, absolute=1e-6)
        assert balance(feet) @ np.array(side) == pytest.approx(right, abs=1e-6)


def test_the_weight_that_stands_on_one_leg():
    found = handling.leg_loads(x=["0 m", "1 m", "0 m"], y=["0 m", "0 m", "1 m"], mass="40 kg", centre_x="0 m", centre_y="0 m")
    assert [load.m_as("N") for load in found] == [within(40 * G), within(0, absolute=1e-9), within(0, absolute=1e-9)]


@given(SIZE, st.integers(3, 12), SIZE)
def test_a_ring_is_the_same_as_its_feet(radius, legs, height):
    turns = [2 * math.pi * i / legs for i in range(legs)]
    found = handling.tipping.si(x=[radius * math.cos(t) for t in turns], y=[radius * math.sin(t) for t in turns], centre_x=0, centre_y=0,
                                centre_height=height)
    assert found.angle == within(handling.ring_tip_angle.si(radius=radius, legs=legs, centre_height=height), 1e-9)
    assert len(found.edges) == legs


@given(st.floats(0.05, 1.5), st.floats(0.05, 1.5), SIZE)
def test_two_legs_hold_the_weight_and_pull_alike_sideways(left, right, mass):
    found = handling.two_leg_pulls.si(mass=mass, left_angle=left, right_angle=right)
    assert found.left * math.sin(left) + found.right * math.sin(right) == within(mass * G, 1e-12)
    assert found.left * math.cos(left) == within(found.right * math.cos(right), 1e-12)


@given(SIZE, SIZE, st.floats(0.1, 1), SIZE)
def test_a_push_tips_at_its_lever(lever, height, friction, mass):
    found = handling.push_over.si(mass=mass, lever=lever, push_height=height, friction=friction)
    assert found.tips * height == within(mass * G * lever, 1e-12)
    assert found.slides_first == (friction < lever / height) or friction == pytest.approx(lever / height)


WAYS = [
    # mass person people turned balance  way
    (20, 23, 2, False, False, "one person"), (30, 23, 2, False, False, "team"), (50, 23, 2, False, False, "cradle or hoist"),
    (50, 23, 1, True, False, "cradle or hoist"), (20, 23, 2, False, True, "cradle or hoist"), (33, 23, 9, False, False, "team"),
]


@pytest.mark.parametrize(("mass", "person", "people", "turned", "balance", "way"), WAYS)
def test_ways_to_move(mass, person, people, turned, balance, way):
    found = handling.way_to_move(mass=mass, person=person, people=people, turned=turned, passes_balance=balance)
    assert found.way == way
    assert found.because
    assert all(sentence.endswith(".") for sentence in found.because)


def test_nothing_is_called_harmless():
    """The word that promises too much stands only in 'safety data sheet'."""
    for advice in handling.ADVICE:
        assert "safe" not in f"{advice.when} {advice.says}".lower()
        assert advice.source and advice.status
    assert handling.DEFER.count("safe") == handling.DEFER.count("safety data sheet") == 1
    assert all(limit.source and limit.status for limit in handling.LIMITS)
    assert {advice.when for advice in handling.advice_for("lifting")} == {"lifting"}
    assert len(handling.advice_for()) == len(handling.ADVICE)


@given(st.lists(st.tuples(st.floats(0, 20), st.floats(0, 4000)), min_size=1, max_size=5))
def test_points_and_a8_say_the_same(tools):
    entries = dict(zip(("magnitudes", "times"), map(list, zip(*tools, strict=True)), strict=True))
    assert handling.vibration_points.si(**entries) == within(16 * handling.daily_vibration.si(**entries) ** 2, 1e-9, absolute=1e-12)


@given(st.floats(80, 120), st.floats(0.5, 7.9))
def test_five_decibels_more_halve_the_time(level, hours):
    assert handling.allowed_time.si(level=level) == within(2 * handling.allowed_time.si(level=level + 5), 1e-12)
    dose = handling.noise_dose.si(levels=[level], times=[hours * 3600])
    assert handling.level_of_dose.si(dose=dose) == within(level + 5 * math.log2(hours / 8), 1e-9)
    double = handling.daily_level.si(levels=[level, level], times=[hours * 1800] * 2)
    assert double == within(handling.daily_level.si(levels=[level], times=[hours * 3600]), 1e-12)


def test_a_vibration_limit_reached_is_reached_by_the_points():
    time = handling.vibration_time(magnitude="7 m/s^2", value="2.5 m/s^2")
    assert handling.vibration_points(magnitudes=["7 m/s^2"], times=[time]) == within(handling.ACTION_POINTS, 1e-12)


def test_air_goes_with_what_evaporates():
    entries = {"molar_mass": "0.1 kg/mol", "mixing": 3}
    flow = handling.dilution_flow(evaporation="0.1 g/s", concentration=50e-6, **entries)
    assert handling.diluted_concentration(evaporation="0.1 g/s", flow=flow, **entries) == within(50e-6, 1e-12)
    assert handling.purge_time(volume="60 m^3", flow=flow, start=math.e, end=1).m_as("s") == within(60 / flow.m_as("m^3/s"), 1e-12)


def test_trimming_counts_both_sides_of_a_joint():
    assert handling.trimming_length(joints=["0.7 m", "1.25 m", "1.05 m"], open_edges=Q(2.7, "m")).m_as("m") == within(8.7, 1e-12)
