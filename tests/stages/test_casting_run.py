"""The casting run: walls, batches, life, cost, sizes: laws and wording."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import casting
from moldcalc.units import Q
from tests.tables import printed, within


@given(mixed=st.floats(0, 500), ratio=st.floats(0, 2))
def test_water_and_powder_make_the_mix(mixed, ratio):
    mix = casting.mixing_water.si(mixed=mixed, water_ratio=ratio)
    assert mix.powder + mix.water == within(mixed, 1e-12)
    assert mix.water == within(ratio * mix.powder, 1e-12)


@given(share=st.floats(0, 0.999), thickness=st.floats(0.001, 0.03), scale=st.floats(0.2, 5))
def test_venting_grows_with_the_square_of_the_thickness(share, thickness, scale):
    one, other = (casting.venting_time.si(diffusivity=1e-10, thickness=t, share=share, open_faces=1) for t in (thickness, scale * thickness))
    assert other == within(scale**2 * one, 1e-9)
    found = casting.share_vented.si(diffusivity=1e-10, thickness=thickness, time=one, open_faces=1)
    assert found == within(share, absolute=1e-9)


@given(length=st.floats(0.1, 3), steps=st.lists(st.tuples(st.floats(-0.05, 0.05), st.floats(0, 0.02), st.floats(0, 0.02)), min_size=1, max_size=5))
def test_making_it_bigger_undoes_the_chain(length, steps):
    low, likely, high = ([least + add for least, *adds in steps for add in [sum(adds[:upto])]] for upto in range(3))
    made = casting.original_for.si(wanted=length, low=low, likely=likely, high=high)
    size = casting.size_chain.si(length=made.original, low=low, likely=likely, high=high)
    assert size.likely == within(length, 1e-12)
    assert size.low <= size.likely * (1 + 1e-12) and size.likely <= size.high * (1 + 1e-12)
    assert made.low <= made.likely * (1 + 1e-12) and made.likely <= made.high * (1 + 1e-12)
    assert len(size.steps) == len(steps) and size.steps[-1] == (size.low, size.likely, size.high)


def test_the_cast_of_the_worked_example():
    """3 mm face and 9 mm backing at 2.0 kg/L on 1.68 m², 6 % lost: 42.9 kg mixed; worked example, invented."""
    given_ = {"area": "1.68 m²", "density": "2.0 kg/L", "loss_share": 0.06, "setting_time": "45 min", "usable_share": 0.75, "mixing_time": "8 min",
              "rate": Q(0.01, "m^2/min"), "people_per_cup": 2}
    cuts = [casting.lay_up_batches(wall=wall, **given_) for wall in ("3 mm", "9 mm")]
    assert sum(cut.count * cut.each.m_as("kg") for cut in cuts) == printed("42.9")


@given(mixed=st.floats(1, 500), most=st.floats(5, 50), each=st.floats(60, 400), setting=st.floats(900, 4000))
def test_all_that_is_poured_goes_in_before_it_sets(mixed, most, each, setting):
    plan = casting.pour_plan.si(mixed=mixed, most=most, mixing_time=each, pouring_time=60.0, setting_time=setting, usable_share=0.75)
    assert plan.batches * plan.each == within(mixed, 1e-9)
    assert plan.each <= most * (1 + 1e-8)
    assert plan.time <= 0.75 * setting * (1 + 1e-8)


@given(pressure=st.floats(0, 2000), gap=st.floats(0, 0.01))
def test_a_shell_stops_the_rubber(pressure, gap):
    free = casting.head_stretch.si(pressure=pressure, radius=0.1, thickness=0.008, modulus=0.7e6)
    held = casting.head_stretch.si(pressure=pressure, radius=0.1, thickness=0.008, modulus=0.7e6, gap=gap)
    assert held.moves == min(free.moves, gap)
    assert held.on_shell == (free.moves > gap)


LIVES = [("wax", 50), ("gypsum", 50), ("fibre-cement", 20), ("polyurethane resin", 15), ("polyester resin", 10), ("epoxy resin", 5)]


@pytest.mark.parametrize(("material", "fewest"), LIVES)
def test_casts_per_mold_are_a_band(material, fewest):
    """General knowledge of the trade, wide, no source: never one number."""
    band = casting.casts_per_mold(material)
    assert band.fewest == fewest < band.most
    released = casting.casts_per_mold(material, released=True)
    assert (released.fewest, released.most) == (band.fewest, 2 * band.most)
    assert band.source and band.status == "common practice"


def test_casts_made_count_too():
    """95 made and 10 wanted, 20 to 100 from a mold: 2 to 6 molds."""
    assert casting.molds_needed(casts=10, made=95, fewest=20, most=100) == (2, 6)


def test_every_figure_is_marked():
    for figure in casting.FIGURES:
        assert figure.low <= figure.high and figure.source
        assert figure.status in ("verified", "common practice", "from memory")


@pytest.mark.parametrize(("call", "says"), [
    (lambda: casting.casts_per_mold("chocolate"), "cast material is chocolate; no count of casts is known here; known are wax, gypsum"),
    (lambda: casting.shrinkage_band("chocolate"), "material is chocolate; no shrinkage is known here; known are tin-cure silicone"),
    (lambda: casting.size_chain(length="1 m", low=[0.1, 0.2], likely=[0.1], high=[0.1, 0.2]), "likely is a list of 1; give 2, one for each step."),
    (lambda: casting.size_chain(length="1 m", low=[0.002], likely=[0.001], high=[0.003]),
     "likely of step 1 is 0.001; it must lie from 0.002 to 0.003."),
    (lambda: casting.share_vented(diffusivity=Q(1e-10, "m^2/s"), thickness="8 mm", time="48 h", open_faces=1.5),
     "open faces is 1.5; it must be 1 or 2."),
    (lambda: casting.head_stretch(pressure="60 kPa", radius="100 mm", thickness="8 mm", modulus="0.73 MPa"),
     "pressure is 60.0 kPa; rubber without a shell swells without end from 19.5 kPa on; give it one."),
    (lambda: casting.pour_plan(mixed="20 kg", most="10 kg", mixing_time="20 min", pouring_time="2 min", setting_time="20 min", usable_share=0.75),
     "mixing time is 20 min; one batch must be mixed within 13 min to go in before it sets."),
    (lambda: casting.molds_needed(casts=5, made=0, fewest=30, most=20), "fewest is 30; it must be at most the most, 20."),
])
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)
