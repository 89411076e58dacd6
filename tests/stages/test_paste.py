"""Laws and refusals of the paste."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import paste
from tests.tables import within

LENGTHS = st.floats(1e-3, 3)
BASES = st.floats(900, 1500)
GRAINS = st.floats(100, 3000)
LOADINGS = st.floats(0, 0.5)


@given(base=BASES, grain=GRAINS, loading=LOADINGS)
def test_mass_and_volume_balance(base, grain, loading):
    mix = {"base_density": base, "thickener_density": grain, "loading": loading}
    density, gain, share = (f.si(**mix) for f in (paste.thickened_density, paste.volume_gain, paste.filler_volume_fraction))
    assert density == within(base * (1 + loading) / (1 + gain), 1e-12)
    assert share == within(gain / (1 + gain), 1e-12, 1e-15)
    assert density == within((1 - share) * base + share * grain, 1e-12)


def test_nothing_added_changes_nothing():
    assert paste.thickened_density.si(base_density=1180.0, thickener_density=200.0, loading=0.0) == within(1180, 1e-12)
    for model, packing in MODELS.items():
        assert getattr(paste, model).si(volume_fraction=0.0, **packing) == 1


MODELS = {"einstein": {}, "batchelor": {}, "krieger_dougherty": {"pm": 0.64}, "maron_pierce": {"pm": 0.64}, "roscoe_equal": {},
          "roscoe_diverse": {}, "brinkman": {}}


@pytest.mark.parametrize("model", MODELS)
@given(less=st.floats(0, 0.6), more=st.floats(0, 0.6))
def test_more_filler_is_thicker(model, less, more):
    less, more = sorted((less, more))
    thicken = getattr(paste, model).si
    assert thicken(volume_fraction=less, **MODELS[model]) <= thicken(volume_fraction=more, **MODELS[model])


@given(fraction=st.floats(0, 0.6))
def test_einstein_is_the_least(fraction):
    least = paste.einstein.si(volume_fraction=fraction)
    for model, packing in MODELS.items():
        assert getattr(paste, model).si(volume_fraction=fraction, **packing) >= least * (1 - 1e-12)


@pytest.mark.parametrize("pm", [0.58, 0.64])
def test_krieger_and_dougherty_start_like_a_series(pm):
    """Binomial series: 1 + 2.5 f + 2.5 (2.5 pm + 1) / (2 pm) f²."""
    second = 2.5 * (2.5 * pm + 1) / (2 * pm)
    assert paste.krieger_dougherty.si(volume_fraction=1e-3, pm=pm) == within(1 + 2.5e-3 + second * 1e-6, absolute=2e-8)


TESTS = {"first_loading": 0.01, "first_stress": 20.0, "second_loading": 0.02, "second_stress": 80.0}


def test_the_power_law_goes_through_both_tests():
    assert paste.yield_stress_at_loading.si(loading=0.01, **TESTS) == within(20, 1e-12)
    assert paste.yield_stress_at_loading.si(loading=0.02, **TESTS) == within(80, 1e-12)
    turned = {"first_loading": 0.02, "first_stress": 80.0, "second_loading": 0.01, "second_stress": 20.0}
    assert paste.yield_stress_at_loading.si(loading=0.017, **turned) == within(paste.yield_stress_at_loading.si(loading=0.017, **TESTS), 1e-12)


@given(thickness=st.floats(1e-3, 0.02), slope=st.floats(0.1, math.pi / 2))
def test_the_loading_found_holds(thickness, slope):
    loading = paste.loading_to_hold.si(thickness=thickness, density=1200.0, slope=slope, **TESTS)
    held = paste.yield_stress_at_loading.si(loading=loading, **TESTS)
    assert paste.yield_stress_from_hang.si(thickness=thickness * math.sin(slope), density=1200.0) == within(held, 1e-9)


def test_a_level_face_needs_no_thickener():
    assert paste.loading_to_hold.si(thickness=0.01, density=1200.0, slope=0.0, **TESTS) == 0


def test_beyond_the_tests():
    tested = {"first_loading": 0.02, "second_loading": 0.01}
    assert paste.beyond_tests.si(loading=0.015, **tested) == 1
    assert paste.beyond_tests.si(loading=0.04, **tested) == within(2, 1e-12)
    assert paste.beyond_tests.si(loading=0.005, **tested) == within(2, 1e-12)


@given(a=LENGTHS, b=LENGTHS, c=LENGTHS, d=LENGTHS, factor=st.floats(0.1, 10))
def test_volumes_grow_with_the_cube(a, b, c, d, factor):
    for what, names in {"fillet_volume": ("radius", "length"), "band_volume": ("length", "width", "thickness"),
                        "strip_volume": ("length", "width_top", "width_base", "height"), "cone_pocket_volume": ("mouth_radius", "depth"),
                        "bowl_pocket_volume": ("mouth_radius", "depth"), "groove_volume": ("length", "width", "depth")}.items():
        calculation = getattr(paste, what).si
        small = dict(zip(names, (a, b, c, d), strict=False))
        large = {name: length * factor for name, length in small.items()}
        assert calculation(**large) == within(calculation(**small) * factor**3, 1e-9), what


def test_volumes_that_pass_into_each_other():
    """Exact: four hollow fillets are a square column less its round one; half a sphere is the deepest bowl of its mouth."""
    assert 4 * paste.fillet_volume.si(radius=0.5, length=1.0) == within(1 - math.pi / 4, 1e-12)
    strip = {"length": 2.0, "width_base": 0.1, "height": 0.02}
    band = paste.band_volume.si(length=2, width=0.1, thickness=0.02)
    assert paste.strip_volume.si(**strip, width_top=0.1) == within(band, 1e-12)
    assert paste.strip_volume.si(**strip, width_top=0.0) == within(paste.groove_volume.si(length=2, width=0.1, depth=0.02), 1e-12)
    assert paste.bowl_pocket_volume.si(mouth_radius=1, depth=1) == within(2 * math.pi / 3, 1e-12)
    assert paste.pocket_volume.si(area=math.pi, mean_depth=1 / 3) == within(paste.cone_pocket_volume.si(mouth_radius=1, depth=1), 1e-12)


HANG = {"first_loading": "1 %", "first_stress": "20 Pa", "second_loading": "2 %", "second_stress": "80 Pa"}
WRONG = [
    ("krieger_dougherty", {"volume_fraction": 0.7, "pm": 0.64},
     "volume fraction is 0.7; it must be below the packing limit of 0.64, where nothing flows."),
    ("maron_pierce", {"volume_fraction": 0.64, "pm": 0.64},
     "volume fraction is 0.64; it must be below the packing limit of 0.64, where nothing flows."),
    ("roscoe_equal", {"volume_fraction": 0.75}, "volume fraction is 0.75; it must be below the packing limit of 0.741, where nothing flows."),
    ("einstein", {"volume_fraction": 30}, "volume fraction is 30; it must be at least 0 and below 1."),
    ("yield_stress_at_loading", HANG | {"loading": "1 %", "second_loading": "1 %"}, "second loading is 1 %; it must differ from the first loading."),
    ("yield_stress_at_loading", HANG | {"loading": "1 %", "second_stress": "10 Pa"},
     "second stress is 10 Pa at a loading of 2 %; with 20 Pa at 1 % more thickener doesn't hold more; test again."),
    ("bulk_volume", {"mass": "1 kg", "bulk_density": "0 kg/L"}, "bulk density is 0 kg/L; it must be above 0."),
]


@pytest.mark.parametrize(("what", "entries", "says"), WRONG)
def test_an_impossible_entry_is_named(what, entries, says):
    with pytest.raises(EntryError) as refused:
        getattr(paste, what)(**entries)
    assert str(refused.value) == says


def test_models_know_where_they_hold():
    assert [str(stray) for stray in paste.einstein.strays(volume_fraction=0.2)] == ["volume fraction is 0.2, above 0.05, where the formula holds"]
    assert paste.batchelor.strays(volume_fraction=0.1) == []
