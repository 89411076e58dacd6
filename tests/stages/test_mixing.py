"""Mixing: laws of ratios and cups, and the wording of what is refused."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import mixing
from moldcalc.stages.mixing.counting import count_up, whole
from moldcalc.units import Q
from tests.tables import within

MASS, PARTS = st.floats(1e-3, 1e3), st.floats(0.1, 200)


@given(base=MASS, part=MASS, a=PARTS, b=PARTS)
def test_a_rescued_cup_is_right(base, part, a, b):
    add = mixing.rescue.si(base_poured=base, part_poured=part, base_parts=a, part_parts=b)
    assert min(add) == 0 <= max(add)
    assert (part + add.add_part) / (base + add.add_base) == within(b / a, 1e-9)


@given(total=MASS, parts=st.lists(PARTS, min_size=2, max_size=3))
def test_components_add_up_and_keep_the_ratio(total, parts):
    masses = mixing.split_total.si(total=total, parts=parts)
    assert sum(masses) == within(total, 1e-12)
    assert masses[1] == within(mixing.part_for.si(base_mass=masses[0], base_parts=parts[0], part_parts=parts[1]), 1e-12)


@given(total=st.floats(0, 1e4), most=st.floats(0.05, 50), least=st.floats(0, 10))
def test_cups_never_exceed_the_limit_and_add_up(total, most, least):
    assume(total / most < 9e4)
    cut = mixing.cut_batches.si(total=total, most=most, least=least)
    assert cut.each <= most * (1 + 1e-8)
    assert cut.count * cut.each == within(total, 1e-12)
    assert cut.count <= 1 or total / (cut.count - 1) > most * (1 - 1e-8), "no cup too many"
    assert cut.under_least == (cut.count > 0 and cut.each < least * (1 - 1e-9))


@given(cups=st.integers(1, 90_000), most=st.floats(1e-3, 1e3))
def test_whole_cups_are_counted_whole(cups, most):
    assert mixing.cut_batches.si(total=cups * most, most=most).count == cups


@pytest.mark.parametrize(("total", "most", "count"), [
    (1.05, 0.15, 7), (0.3, 0.1, 3), (6.0, 0.75, 8), (0.0, 0.5, 0), (1e-12, 0.5, 1), (0.751, 0.25, 4),
])
def test_counting_is_not_thrown_by_a_last_digit(total, most, count):
    assert mixing.cut_batches.si(total=total, most=most).count == count


def test_a_cup_below_what_the_scale_serves_is_marked():
    def under(total, least):
        return mixing.cut_batches(total=Q(total, "kg"), most=Q(0.5, "kg"), least=Q(least, "kg")).under_least

    assert not under(0, 0) and not under(1.2, 0.3) and under(0.2, 0.3)


@given(factor=st.floats(0.1, 10))
def test_largest_cup_grows_with_rate_time_and_thickness(factor):
    entries = {"rate": 3e-4, "people_per_cup": 1.0, "usable": 2000.0, "thickness": 6e-4, "density": 1180.0, "loss_share": 0.12}
    one = mixing.most_by_time.si(**entries)
    for name in ("rate", "people_per_cup", "usable", "thickness", "density"):
        assert mixing.most_by_time.si(**entries | {name: factor * entries[name]}) == within(factor * one, 1e-12)


@given(factor=st.floats(0.1, 10))
def test_a_finer_scale_allows_a_smaller_batch(factor):
    entries = {"ratio": 0.05, "readability": 1e-3, "tolerance": 0.05, "coverage": 2.0}
    one = mixing.smallest_batch.si(**entries)
    assert mixing.smallest_batch.si(**entries | {"readability": factor * 1e-3}) == within(factor * one, 1e-12)
    assert mixing.smallest_batch.si(**entries | {"coverage": factor * 2}) == within(factor * one, 1e-12)


@given(volume=st.floats(0.01, 5), a=st.floats(500, 2000), b=st.floats(500, 2000))
def test_weight_and_volume_ratio_are_inverse(volume, a, b):
    weight = mixing.weight_ratio_from_volume.si(volume_ratio=volume, base_density=a, part_density=b)
    assert mixing.volume_ratio_from_weight.si(weight_ratio=weight, base_density=a, part_density=b) == within(volume, 1e-12)
    assert weight / volume - 1 == within(mixing.volume_read_as_weight_error.si(base_density=a, part_density=b), 1e-9, 1e-12)


@given(thinner=st.floats(0.1, 1), scale=st.floats(1, 3))
def test_film_laws(thinner, scale):
    cup = {"film": 1e-3, "cup_diameter": 0.09, "mass": 1.0, "density": 1180.0}
    left = mixing.cup_film_mass.si(**cup)
    assert mixing.cup_film_mass.si(**cup | {"film": thinner * 1e-3}) == within(thinner * left, 1e-12)
    larger = cup | {"cup_diameter": scale * 0.09, "mass": scale**3}
    assert mixing.cup_film_mass.si(**larger) == within(scale**2 * left, 1e-12), "a cup of the same shape keeps its area"


def test_a_blend_of_one_resin_is_that_resin():
    assert mixing.blend_epoxide_equivalent(masses=[Q(3, "kg")], equivalents=[Q(190, "g/mol")]).m_as("g/mol") == within(190, 1e-12)


def test_counting():
    assert count_up(6.0000000001, "number") == 6
    assert count_up(6.001, "number") == 7
    assert whole(3.0, "layers") == 3


REFUSED = [
    (lambda: mixing.usable_time(working_time="6 min", usable_share=0.75, mixing_time="5 min"),
     "mixing time is 5 min; it must be below 4.5 min, the part of the working time counted on."),
    (lambda: mixing.cut_batches(total="100 t", most="1 g"), "number of cups is 1e+08; it must be at most 100000; check the sizes."),
    (lambda: mixing.cup_film_mass(film="2 cm", cup_diameter="67 mm", mass="0.5 kg", density=Q(1.18, "kg/L")),
     "film is 20 mm; in this cup it would hold more than the 500 g mixed; make it thinner."),
    (lambda: mixing.batch_loss(film="1 mm", cup_diameter="67 mm", mass="50 g", density=Q(1.18, "kg/L"), brush="60 g"),
     "brush is 60.0 g; with the film in the cup it would keep more than the 50.0 g mixed."),
    (lambda: mixing.loss_share(left="2 kg", mixed="1 kg"), "left is 2.00 kg; it must be at most what was mixed, 1.00 kg."),
    (lambda: mixing.split_total(total="1 kg", parts=[100]), "parts is a list of 1; give two or three components."),
    (lambda: mixing.blend_epoxide_equivalent(masses=["1 kg"], equivalents=[Q(190, "g/mol")] * 2),
     "equivalents is a list of 2; give one for each of the 1 masses."),
    (lambda: mixing.blend_epoxide_equivalent(masses=["1 kg"], equivalents=[Q(0, "g/mol")]), "equivalents is 0"),
    (lambda: mixing.oiml_r76_error(divisions=100, accuracy_class="I"), "accuracy class is I; it must be II, III or IIII."),
    (lambda: mixing.oiml_r76_error(divisions=10_001, accuracy_class="III"), "divisions is 10001; class III goes from 0 to 10000."),
    (lambda: mixing.oiml_r76_error(divisions=math.nan, accuracy_class="III"), "divisions is nan; class III goes from 0 to 10000."),
    (lambda: mixing.hb44_maintenance_error(divisions=-1), "divisions is -1; class III goes from 0 to 10000."),
    (lambda: mixing.part_for(base_mass="500 g", base_parts=0, part_parts=10), "base parts is 0; it must be above 0."),
    (lambda: whole(2.5, "layers"), "layers is 2.5; it must be a whole number."),
    (lambda: count_up(math.nan, "number of cups"), "number of cups is nan; it must be at most 100000"),
]


@pytest.mark.parametrize(("call", "says"), REFUSED)
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)
