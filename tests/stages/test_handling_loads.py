"""Laws of the loads, of where bolts go, and of what a bolt is counted on for; what is refused and how it is said."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from moldcalc.errors import EntryError
from moldcalc.stages import handling
from moldcalc.units import Q
from tests.tables import within

SIZE = st.floats(0.05, 3)
DENSITY = st.floats(800, 2500)
G = 9.80665


@given(DENSITY, SIZE, SIZE)
def test_head_is_the_casting_stages_own(density, depth, width):
    head = handling.head_pressure.si(density=density, depth=depth)
    assert handling.greatest_head.si(density=density, height=0, full_height=depth) == within(head, 1e-12)
    assert handling.side_wall.si(density=density, width=width, depth=depth).force == within(
        handling.side_thrust.si(density=density, area=width * depth, mean_depth=depth / 2), 1e-12)


@given(st.floats(0, 2), st.floats(0.1, 2), st.floats(0.05, 3))
def test_lifts_never_press_more_than_one_pour(height, full, lift):
    entries = {"density": 1600.0, "height": height, "full_height": full}
    lifts = handling.greatest_head.si(**entries, lift_height=lift)
    assert 0 <= lifts <= handling.greatest_head.si(**entries) <= 1600 * G * full
    assert lifts <= 1600 * G * lift * (1 + 1e-9)


def test_a_place_between_two_lifts_counts_with_the_upper_one():
    found = handling.greatest_head(density="1600 kg/m^3", height="0.6 m", full_height="1.8 m", lift_height="0.2 m")
    assert found.m_as("Pa") == within(1600 * G * 0.2, 1e-9)


@pytest.mark.parametrize(("height", "head"), [(0.1, 0.0), (0.3, 0.7), (0.5, 0.5), (1.0, 0.0), (1.2, 0.0)])
def test_a_set_lift_carries_no_head(height, head):
    found = handling.head_now(density="1600 kg/m^3", height=Q(height, "m"), liquid_level="1 m", set_level="0.3 m")
    assert found.m_as("Pa") == within(1600 * G * head, 1e-12)


def test_levels_end_at_the_top():
    assert [level.m_as("m") for level in handling.lift_levels(full_height="0.6 m", lift_height="0.2 m")] == [within(0.2), within(0.4), 0.6]


@given(DENSITY, SIZE, SIZE, SIZE)
def test_stretches_of_a_joint_add_up(density, width, a, b):
    low, high = sorted((a, b))
    parts = [handling.separating_force.si(density=density, width=width, top_depth=top, bottom_depth=bottom).force
             for top, bottom in ((0, low), (low, high))]
    assert sum(parts) == within(handling.separating_force.si(density=density, width=width, top_depth=0, bottom_depth=high).force, 1e-12)


@given(st.lists(st.tuples(SIZE, SIZE), min_size=2, max_size=6))
def test_widths_against_quadrature(rows):
    depths = [sum(step for step, _ in rows[: i + 1]) for i in range(len(rows))]
    widths = [width for _, width in rows]
    found = handling.separating_by_widths.si(density=1600, depths=depths, widths=widths)
    force = moment = 0.0
    for d, e, b, c in zip(depths, depths[1:], widths, widths[1:], strict=False):
        force += quad(lambda h, d=d, e=e, b=b, c=c: h * (b + (c - b) * (h - d) / (e - d)), d, e)[0]
        moment += quad(lambda h, d=d, e=e, b=b, c=c: h * h * (b + (c - b) * (h - d) / (e - d)), d, e)[0]
    assert found.force == within(1600 * G * force, 1e-9)
    assert found.centre_depth == within(moment / force, 1e-9)


def test_a_shape_that_leans_in_toward_the_floor_is_pressed_down():
    lift = handling.uplift(density="1600 kg/m^3", base_area="0.1 m^2", head="1 m", volume="150 L")
    assert lift.force.m_as("N") == within(-1600 * G * 0.05, 1e-12)
    assert lift.missing_mass.m_as("kg") == 0


@pytest.mark.parametrize(("call", "says"), [
    (lambda: handling.separating_force(density="1600 kg/m^3", width="1 m", top_depth="1 m", bottom_depth="0.5 m"),
     "bottom depth is 500 mm; it must be at least the top depth, 1 m"),
    (lambda: handling.separating_by_widths(density="1600 kg/m^3", depths=["1 m", "0.5 m"], widths=["1 m", "1 m"]),
     "depths is 1 m and then 500 mm; give them from the top down"),
    (lambda: handling.separating_by_widths(density="1600 kg/m^3", depths=["1 m"], widths=["1 m", "1 m"]),
     "widths is 2 for 1 depths; give one for each"),
    (lambda: handling.band_loads(density="1600 kg/m^3", width="1 m", depth="1 m", bolts=2.5), "bolts is 2.5; it must be a whole number"),
    (lambda: handling.band_loads(density="1600 kg/m^3", width="1 m", depth="1 m", bolts=1e9), "bolts is 1e.09; it must be at most 1000"),
    (lambda: handling.fastener("M7"), "bolt is M7; choose M4, M5, M6, M8, M10 or M12"),
    (lambda: handling.clearance_hole("M8", "tight"), "fit is tight; choose fine, medium or coarse"),
    (lambda: handling.proof_stress("9"), "property class is 9; choose one of 4.6"),
    (lambda: handling.washer_pressure(load="1 kN", outside="6 mm", hole="9 mm"), "hole is 9 mm; it must be below the washer's outside, 6 mm"),
    (lambda: handling.pin_places(length="0.1 m", end_distance="60 mm"), "end distance is 60 mm; it must be below half the joint, 50 mm"),
    (lambda: handling.farthest_pair(x=["1 m"], y=["1 m", "2 m"], z=["1 m"]), "x is 1 values beside 2 and 1; give as many x as y as z"),
])
def test_what_is_refused(call, says):
    with pytest.raises(EntryError, match=says):
        call()


JOINT = {"length": 1.8, "z_low": 0.0, "z_high": 1.8, "level": 1.8, "density": 1600.0, "width": 0.6, "bolt_capacity": 1500.0, "line_to_bolt": 0.025,
         "bolt_to_toe": 0.025, "largest_spacing": 0.15, "end_distance": 0.035, "bolt_diameter": 0.008, "hole_diameter": 0.009}


def drilled(**entries):
    return handling.drilling_list.si(**JOINT | entries)


@given(st.floats(0.3, 3), st.floats(0, 1), st.floats(0, 1), st.floats(0, 2), st.floats(700, 5000))
def test_every_bolt_holds_and_the_whole_pull_is_shared(length, low, rise, level, capacity):
    joint = {"length": length, "z_low": low, "z_high": low + min(rise, length), "level": level, "bolt_capacity": capacity}
    try:
        holes = drilled(**joint)
    except EntryError as refused:
        assert "take a bigger bolt" in str(refused)
        return
    weight = 1600 * G * 0.6 / 2

    def line(s):
        return weight * max(0.0, level - low - min(rise, length) * s / length)

    dry = length * (level - low) / min(rise, length) if min(rise, length) > 0 else 0.0
    points = [dry] if 0 < dry < length else None
    assert sum(hole.pull for hole in holes) == within(quad(line, 0, length, points=points)[0], 1e-6, absolute=1e-6)
    assert max(hole.load for hole in holes) <= capacity * (1 + 1e-6)
    assert [hole.number for hole in holes] == list(range(1, len(holes) + 1))
    gaps = [hole.to_next for hole in holes[:-1]]
    assert all(0.032 * (1 - 1e-6) <= gap <= 0.15 * (1 + 1e-2) for gap in gaps)
    assert gaps == [within(b.position - a.position, 1e-12) for a, b in pairwise(holes)]


def test_closer_low_down():
    gaps = [hole.to_next for hole in drilled()[:-1]]
    assert all(below <= above * (1 + 1e-9) for below, above in pairwise(gaps))
    assert gaps[0] < 0.7 * gaps[-1]
    assert (drilled()[0].position, drilled()[-1].position) == (0.035, within(1.765, 1e-12))


def test_more_liquid_or_a_weaker_bolt_never_takes_fewer():
    usual = len(drilled())
    assert len(drilled(bolt_capacity=1000.0)) > usual
    assert len(drilled(density=2050.0)) >= usual
    assert len(drilled(line_to_bolt=0.040)) > usual
    assert len(drilled(level=0.9)) < usual


def test_a_soft_flange_brings_the_bolts_together():
    flange = {"gap": 0.0003, "flange_width": 0.06, "flange_modulus": 9e9}
    thin, thick = drilled(**flange, flange_thickness=0.003), drilled(**flange, flange_thickness=0.012)
    assert len(thin) > len(thick) == len(drilled())
    for hole in thin[:-1]:
        middle = hole.position + hole.to_next / 2
        load = 1600 * G * 0.3 * (1.8 - middle)
        opened = handling.flange_gap.si(line_load=load, spacing=hole.to_next, width=0.06, thickness=0.003, modulus=9e9)
        assert opened.hinged <= 0.0003 * 1.02


def test_a_joint_too_short_for_two_gets_one_in_the_middle():
    only, = drilled(length=0.08, z_high=0.08, level=0.2)
    assert (only.position, only.to_next) == (0.04, None)


@pytest.mark.parametrize(("entries", "says"), [
    ({"z_high": 0.1, "z_low": 0.2}, "z high is 100 mm; it must be at least z low, 200 mm"),
    ({"bolt_capacity": 20.0}, "bolt capacity is 20.0 N; bolts would stand closer than four diameters or number over 1000; take a bigger bolt"),
    ({"gap": 0.0005}, "gap is .*; give the flange's width, thickness and modulus with it"),
])
def test_a_joint_that_cannot_be_closed(entries, says):
    with pytest.raises(EntryError, match=says):
        drilled(**entries)


USABLE = {"torque": 4.0, "nut_factor": 0.2, "scatter": 0.3, "crushing": 50e6}


def test_counted_on_is_the_weak_end_and_crushing_the_strong_end():
    for size in handling.FASTENERS:
        found = handling.usable_pull(size=size, **USABLE | {"torque": 60.0})
        bolt = handling.fastener(size)
        band = handling.preload_band.si(torque=found.torque, nut_factor=0.2, diameter=bolt.diameter, scatter=0.3)
        assert found.counted_on == within(band.low, 1e-12)
        assert band.high <= found.most * (1 + 1e-12)
        assert found.limit in ("laminate", "bolt", "torque")
    assert handling.usable_pull(size="M8", **USABLE).limit == "torque"


@pytest.mark.parametrize(("entry", "value", "says"), [
    ("torque", 0.0, "torque is 0; it must be above 0"), ("crushing", float("nan"), "crushing is nan; it must be above 0"),
    ("scatter", 1.0, "scatter is 1; it must be at least 0 and below 1"), ("nut_factor", -1.0, "nut factor is -1; it must be above 0"),
])
def test_usable_pull_refuses(entry, value, says):
    with pytest.raises(EntryError, match=says):
        handling.usable_pull(size="M6", **USABLE | {entry: value})


def test_sizes_side_by_side():
    joint = {name: value for name, value in JOINT.items() if name not in ("bolt_capacity", "bolt_diameter", "hole_diameter")}
    offers = handling.closings(**USABLE, **joint)
    assert [offer.size for offer in offers] == ["M5", "M6", "M8", "M10"]
    best = handling.fewest(offers)
    assert len(best.holes) == min(len(offer.holes) for offer in offers if offer.holes)
    weak = handling.closings(**USABLE | {"crushing": 1e6}, **joint)
    assert all(not offer.holes and "take a bigger bolt" in offer.refused for offer in weak)
    with pytest.raises(EntryError, match="bolts is none that closes this joint; take a stiffer flange"):
        handling.fewest(weak)


@given(st.floats(0.5, 10), st.floats(0.1, 0.3), st.floats(0.004, 0.012), st.floats(0, 0.5))
def test_preload_and_torque_are_inverse(torque, factor, diameter, scatter):
    entries = {"nut_factor": factor, "diameter": diameter}
    pull = handling.preload.si(torque=torque, **entries)
    assert handling.torque_for.si(preload=pull, **entries) == within(torque, 1e-12)
    band = handling.preload_band.si(torque=torque, scatter=scatter, **entries)
    assert band.likely == within(pull, 1e-12)
    assert band.low <= band.likely <= band.high


@given(st.floats(0.05, 0.5), st.floats(1.01, 3))
def test_gap_grows_with_the_fourth_power_of_the_spacing(spacing, times):
    flange = {"line_load": 2000.0, "width": 0.05, "thickness": 0.008, "modulus": 6.4e9}
    one, more = (handling.flange_gap.si(**flange, spacing=s).hinged for s in (spacing, spacing * times))
    assert more / one == within(times**4, 1e-9)
    back = handling.spacing_for_gap.si(**flange | {"gap": one})
    assert back.hinged == within(spacing, 1e-9)


def test_pins_as_far_apart_as_can_be():
    places = {"x": [0.0, 1.0, 0.5], "y": [0.0, 0.0, 2.0], "z": [0.0, 0.0, 0.5]}
    found = handling.farthest_pair.si(**places)
    assert {found.first, found.second} in ({0, 2}, {1, 2})
    assert handling.pin_turn.si(play=0.0005, apart=1.0) == within(handling.pin_turn.si(play=0.001, apart=2.0), 1e-12)
