"""Laws and refusals of draft in closed form, and of what a way of dividing costs."""

from math import cos, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import split
from moldcalc.units import Q
from tests.tables import printed, within

SIZES = st.floats(1e-6, 1e4)


@given(half_angle=st.floats(0.01, pi / 2))
def test_a_wider_cap_has_less_draft_and_fewer_ways(half_angle):
    draft, ways = split.draft_of_cap.si(half_angle=half_angle), split.directions_of_cap.si(half_angle=half_angle)
    assert draft <= split.draft_of_cap.si(half_angle=half_angle / 2) and ways <= split.directions_of_cap.si(half_angle=half_angle / 2)
    assert ways == within(4 * pi * (1 - split_half(draft)), 1e-9, 1e-12)


def split_half(draft):
    """A cone of directions with that half-angle takes up (1 - cos) / 2 of the sphere: what is left of it."""
    return 1 - (1 - cos(draft)) / 2


@pytest.mark.parametrize("pieces", range(2, 7))
def test_pieces_and_draft_of_a_ball_undo_each_other(pieces):
    draft = split.best_draft_of_ball.si(pieces=pieces)
    assert split.pieces_of_ball.si(draft=draft) == (2 if pieces == 3 else pieces)
    assert split.best_draft_of_ball.si(pieces=split.pieces_of_ball.si(draft=max(0.0, draft - 0.01))) >= draft - 0.01


def test_a_ball_needs_four_pieces_for_any_draft():
    assert split.pieces_of_ball(draft=Q(0.001, "degree")) == 4


@given(sections=st.integers(2, 12), half_angle=st.floats(0.01, 1.5))
def test_keys_lock_below_the_least_half_angle(sections, half_angle):
    assert (split.key_draft.si(half_angle=half_angle, sections=sections) < 0) == (half_angle < split.least_key_half_angle.si(sections=sections))


@given(draft=st.floats(0, 1), height=SIZES, times=st.floats(0.1, 10))
def test_twice_the_height_leans_twice_as_far(draft, height, times):
    assert split.draft_offset.si(draft=draft, height=times * height) == within(times * split.draft_offset.si(draft=draft, height=height), 1e-12)


PRICES = {"density": 1180.0, "price_of_kilogram": 22.0}
JOINT = {"flange_time": 5400.0, "pay_of_hour": 30.0, "flange_material": 12.0, "price_of_bolt": 0.75, "section_time": 14400.0}


def test_costs_by_hand():
    """1.5 L at 1.18 kg/L and 22: 38.94. 2 m of joint: 3 h, half a day of 4 h, at 30; 24 of material; 16 bolts at 0.75: 246 (by hand)."""
    assert split.fill_cost.si(volume=0.0015, **PRICES) == printed("38.94")
    assert split.divide_cost.si(joint_length=2.0, sections=1, bolts=16, **JOINT) == printed("246.00")
    assert split.break_even_volume.si(divide_cost=246.0, **PRICES) * 1e3 == printed("9.476")
    assert split.fill_mass(volume="9.476 L", density="1.18 kg/L").to("kg").magnitude == printed("11.182")


@given(cost=st.floats(1, 1e4))
def test_at_the_break_even_both_ways_cost_the_same(cost):
    volume = split.break_even_volume.si(divide_cost=cost, **PRICES)
    assert split.fill_cost.si(volume=volume, **PRICES) == within(cost, 1e-12)


WAYS = st.lists(st.tuples(st.integers(1, 20), st.floats(0, 0.05), st.floats(0, 30), st.integers(0, 200)), min_size=1, max_size=8)


@given(ways=WAYS)
def test_cheapest_is_the_least_of_sums(ways):
    sections, volumes, joints, bolts = map(list, zip(*ways, strict=True))
    found = split.cheapest_split.si(sections=sections, volumes=volumes, joint_lengths=joints, bolts=bolts, **PRICES, **JOINT)
    by_hand = [volume * 1180 * 22 + (1.5 * joint + 4 * count) * 30 + 12 * joint + 0.75 * bolt for count, volume, joint, bolt in ways]
    assert list(found.costs) == within(by_hand, 1e-12)
    assert found.cost == min(found.costs) and found.sections == sections[found.place]
    assert all(count >= found.sections for count, cost in zip(sections, found.costs, strict=True) if cost == found.cost)


def test_dear_paste_means_more_sections():
    ways = {"sections": [3, 4, 7], "volumes": [0.014, 0.003, 0.0005], "joint_lengths": [5.0, 7.0, 13.0], "bolts": [40, 56, 104]}
    counts = [split.cheapest_split.si(**ways, **JOINT | {"density": 1180.0, "price_of_kilogram": price}).sections for price in (5, 22, 400)]
    assert counts == [3, 4, 7]


@pytest.mark.parametrize(("call", "says"), [
    (lambda: split.draft_of_cap(half_angle=Q(91, "degree")), "half angle is 91 degree; it must be above 0 and at most"),
    (lambda: split.best_draft_of_ball(pieces=7), "pieces is 7; it must be at least 2 and at most 6"),
    (lambda: split.best_draft_of_ball(pieces=2.5), "pieces is 2.5; it must be a whole number"),
    (lambda: split.pieces_of_ball(draft=Q(40, "degree")), "draft is 40°; more than six pieces would be needed"),
    (lambda: split.least_key_half_angle(sections=1), "sections is 1; it must be at least 2"),
    (lambda: split.draft_offset(draft=Q(90, "degree"), height=Q(1, "m")), "draft is 90"),
    (lambda: split.cheapest_split.si(sections=[2.0, 3.0], volumes=[0.1], joint_lengths=[1.0, 2.0], bolts=[1.0, 2.0], **PRICES, **JOINT),
     "volumes is a list of 1; give 2, one for each number of sections"),
    (lambda: split.break_even_volume(divide_cost=10, density=Q(1.2, "kg/L"), price_of_kilogram=0), "price of kilogram is 0; it must be above 0"),
])
def test_refusals(call, says):
    with pytest.raises(EntryError, match=says):
        call()
