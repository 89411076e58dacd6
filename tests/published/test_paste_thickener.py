"""Fillers, thickeners and litres of paste, against published values and volume balances."""

import pytest

from moldcalc.stages import paste
from moldcalc.units import Q
from tests.tables import printed, within

RELATIVE = [
    # model               entries                                    viscosity     source
    ("krieger_dougherty", {"volume_fraction": 0.1, "pm": 0.64}, "1.312375", "computed; formula Entropy 23(8) 2021, 979, table 6 (verified)"),
    ("krieger_dougherty", {"volume_fraction": 0.3, "pm": 0.64}, "2.751197", "the same"),
    ("krieger_dougherty", {"volume_fraction": 0.5, "pm": 0.64}, "11.378450", "the same"),
    ("maron_pierce", {"volume_fraction": 0.1, "pm": 0.64}, "1.404664", "computed; formula from memory"),
    ("maron_pierce", {"volume_fraction": 0.3, "pm": 0.64}, "3.543253", "the same"),
    ("maron_pierce", {"volume_fraction": 0.5, "pm": 0.64}, "20.897959", "the same"),
    ("batchelor", {"volume_fraction": 0.1}, "1.312", "by hand: 1 + 0.25 + 0.062; formula in table 6 (verified)"),
    ("roscoe_diverse", {"volume_fraction": 0.5}, "5.656854", "by hand: 4 sqrt 2; formula Roscoe 1952 (abstract verified)"),
    ("brinkman", {"volume_fraction": 0.5}, "5.656854", "by hand: 4 sqrt 2; formula in table 6 (verified)"),
]


@pytest.mark.parametrize(("model", "entries", "viscosity", "source"), RELATIVE)
def test_relative_viscosity(model, entries, viscosity, source):
    assert getattr(paste, model)(**entries) == printed(viscosity), source


SLOPES = [
    # model               packing    (viscosity - 1) / fraction at 0.01   at 1e-7   source
    ("einstein", {}, "2.5", 2.5, "exact"),
    ("krieger_dougherty", {"pm": 0.64}, "2.55175", 2.5, "computed; the only one of the crowded models that starts like Einstein's"),
    ("maron_pierce", {"pm": 0.64}, "3.19980", 3.125, "computed; starts a quarter too steep"),
    ("roscoe_equal", {}, "3.45638", 3.375, "computed; starts a third too steep"),
]


@pytest.mark.parametrize(("model", "packing", "slope", "start", "source"), SLOPES)
def test_how_steeply_the_models_start(model, packing, slope, start, source):
    thicken = getattr(paste, model)
    assert (thicken(volume_fraction=0.01, **packing) - 1) / 0.01 == printed(slope), source
    assert (thicken(volume_fraction=1e-7, **packing) - 1) / 1e-7 == within(start, 1e-6), source


def test_hollow_spheres_in_epoxy():
    """Computed: 100 g at 1.15 g/cm³ and 5 g at 0.15 g/cm³."""
    mix = {"base_density": Q(1.15, "g/cm^3"), "thickener_density": Q(0.15, "g/cm^3"), "loading": 0.05}
    assert paste.thickened_density(**mix).m_as("g/cm^3") == printed("0.8728916")
    assert paste.filler_volume_fraction(**mix) == printed("0.2771084")


def test_a_tub_of_fumed_silica():
    """Verified input: 10 US gallons weigh 4 lb, that is 47.9306 g/L; so that much fills just these ten gallons."""
    density = Q(4, "lb") / Q(10, "gallon")
    assert density.m_as("g/L") == printed("47.9306")
    assert paste.bulk_volume(mass=Q(4, "lb"), bulk_density=density).m_as("gallon") == within(10, 1e-12)


def test_powder_litres_are_not_mix_litres():
    """Worked example, invented: 30 g of fumed silica (2.2 g/cm³, 48 g/L loose) in 1 kg of rubber at 1.18."""
    gain = paste.volume_gain(base_density=Q(1.18, "g/cm^3"), thickener_density=Q(2.2, "g/cm^3"), loading=0.03)
    assert 100 * gain == printed("1.6")
    assert 1000 / 1.18 * gain == printed("14"), "mL"
    assert paste.bulk_volume(mass=Q(30, "g"), bulk_density=Q(47.9306, "g/L")).m_as("L") == printed("0.63")


def test_microspheres_swell_a_mix():
    """Worked example, invented: 10 phr at 0.2 g/cm³ in epoxy at 1.15."""
    gain = paste.volume_gain(base_density=Q(1.15, "g/cm^3"), thickener_density=Q(0.2, "g/cm^3"), loading=0.10)
    assert 100 * gain == printed("57.5")


LITRES = [
    # what            entries                                                                             L        worked example, invented
    ("strip_volume", {"length": "4.5 m", "width_base": "25 mm", "width_top": "15 mm", "height": "12 mm"}, "1.08", "key strips"),
    ("band_volume", {"length": "2.4 m", "width": "50 mm", "thickness": "10 mm"}, "1.2", "seam band"),
    ("patch_volume", {"area": "0.35 m²", "thickness": "4 mm"}, "1.4", "high points"),
]


@pytest.mark.parametrize(("what", "entries", "litres", "where"), LITRES)
def test_worked_example_litres(what, entries, litres, where):
    assert getattr(paste, what)(**entries).m_as("L") == printed(litres), where


@pytest.mark.parametrize(("thickness", "density", "stress"), [(3, 1200, "35.304"), (5, 1300, "63.743")])
def test_the_hang_test(thickness, density, stress):
    """Force balance (Mezger, The Rheology Handbook, 3.3.4.2.1, verified); numbers computed."""
    assert paste.yield_stress_from_hang(thickness=Q(thickness, "mm"), density=Q(density, "kg/m^3")).m_as("Pa") == printed(stress)
