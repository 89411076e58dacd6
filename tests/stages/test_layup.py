"""Lay-up: scaling laws of plies and shells, and the wording of what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import layup
from moldcalc.units import Q
from tests.tables import within

MAT = {"areal_weight": Q(450, "g/m^2"), "fibre_mass_fraction": 0.30, "fibre_density": Q(2.56, "kg/L"), "resin_density": Q(1.15, "kg/L")}
SI = {"areal_weight": 0.45, "fibre_mass_fraction": 0.30, "fibre_density": 2560.0, "resin_density": 1150.0}
FRACTION = st.floats(0.05, 0.9)


@given(factor=st.floats(0.1, 10))
def test_twice_the_areal_weight_twice_the_thickness(factor):
    assert layup.ply_thickness.si(**SI | {"areal_weight": factor * 0.45}) == within(factor * layup.ply_thickness.si(**SI), 1e-12)


@given(fraction=FRACTION, more=st.floats(1.01, 1.1))
def test_more_glass_a_thinner_ply(fraction, more):
    def thick(share):
        return layup.ply_thickness.si(**SI | {"fibre_mass_fraction": share})

    assert thick(fraction * more) < thick(fraction)


def test_ounces_and_grams_agree():
    grams = 10 * 28.349523125 / 0.83612736
    assert layup.ply_thickness(**MAT | {"areal_weight": "10 oz/yd²"}).m_as("mm") == within(
        layup.ply_thickness(**MAT | {"areal_weight": Q(grams, "g/m^2")}).m_as("mm"), 1e-12)


@given(fraction=FRACTION)
def test_thickness_times_density_is_mass(fraction):
    ply = SI | {"fibre_mass_fraction": fraction}
    materials = {name: ply[name] for name in ("fibre_mass_fraction", "fibre_density", "resin_density")}
    mass = layup.laminate_areal_mass.si(areal_weight=0.45, fibre_mass_fraction=fraction)
    assert layup.ply_thickness.si(**ply) * layup.laminate_density.si(**materials) == within(mass, 1e-12)
    assert layup.resin_areal_mass.si(areal_weight=0.45, fibre_mass_fraction=fraction) == within(mass - 0.45, 1e-9)
    share = layup.fibre_volume_fraction.si(**materials)
    back = layup.fibre_mass_fraction.si(fibre_volume_fraction=share, fibre_density=2560.0, resin_density=1150.0)
    assert back == within(fraction, 1e-12)
    solid = layup.laminate_density.si(**materials)
    assert layup.void_fraction.si(measured_density=0.97 * solid, **materials) == within(0.03, 1e-9)


@given(thickness=st.floats(0, 0.1), ply=st.floats(1e-4, 5e-3))
def test_plies_reach_the_thickness_and_no_more(thickness, ply):
    count = layup.plies_for_thickness.si(thickness=thickness, ply_thickness=ply)
    assert count * ply >= thickness * (1 - 1e-8)
    assert count == 0 or (count - 1) * ply < thickness


@given(factor=st.floats(0.1, 10))
def test_stiffness_laws(factor):
    solid = layup.solid_stiffness.si(modulus=9e9, thickness=0.006)
    assert layup.solid_stiffness.si(modulus=9e9, thickness=factor * 0.006) == within(factor**3 * solid, 1e-9)
    assert layup.solid_thickness_for.si(stiffness=factor**3 * solid, modulus=9e9) == within(factor * 0.006, 1e-9)
    face = {"facing_modulus": 12e9, "facing_thickness": 0.000757, "core_thickness": 0.010}
    thin = layup.thin_face_stiffness.si(**face)
    scaled = {"facing_modulus": 12e9, "facing_thickness": factor * 0.000757, "core_thickness": factor * 0.010}
    assert layup.thin_face_stiffness.si(**scaled) == within(factor**3 * thin, 1e-9)


def test_thin_faces_against_the_whole_sandwich():
    """Two facings off the middle by Steiner's rule: thin-face theory leaves out only t²/3 beside (c + t)²."""
    t, c, e = 0.000757, 0.010, 12e9
    exact = e * ((c + 2 * t) ** 3 - c**3) / 12
    thin = layup.thin_face_stiffness.si(facing_modulus=e, facing_thickness=t, core_thickness=c)
    assert exact / thin - 1 == within(t**2 / 3 / (c + t) ** 2, 1e-9)


@given(area=st.floats(0.01, 20), width=st.floats(0.1, 0.5), length=st.floats(0.2, 2), overlap=st.floats(0, 0.09))
def test_strips_cover_the_area(area, width, length, overlap):
    strips = layup.strips_needed.si(area=area, strip_width=width, strip_length=length, overlap=overlap)
    assert strips * (width - overlap) * (length - overlap) >= area * (1 - 1e-8)


@given(mean=st.floats(0.01, 50), layers=st.integers(1, 20))
def test_random_cover_there_and_back(mean, layers):
    fewer = layup.random_share_with_fewer.si(mean_layers=mean, layers=layers)
    if 1e-9 < fewer < 1 - 1e-9:
        assert layup.random_layers_needed.si(share=1 - fewer, layers=layers) == within(mean, 1e-5)


def test_clock_and_tray_both_limit_a_mix():
    most = layup.most_by_laminating(rate=Q(0.02, "m^2/min"), people=2, usable="20 min", resin_areal_mass=Q(0.6, "kg/m^2"))
    assert layup.largest_mix(by_time=most, by_tray="400 g").m_as("g") == within(400, 1e-12)
    assert layup.largest_mix(by_time=most, by_tray="600 g").m_as("g") == within(480, 1e-12)
    cut = layup.resin_batches(total="1.2 kg", by_time=most, by_tray="400 g", least="500 g")
    assert (cut.count, cut.under_least) == (3, True)
    assert cut.under_least
    assert layup.resin_batches(total="100 g", by_time=most, by_tray="400 g").count == 1


REFUSED = [
    (lambda: layup.ply_thickness(**MAT | {"areal_weight": Q(450, "g")}), "areal weight is 450 gram; it must be"),
    (lambda: layup.ply_thickness(**MAT | {"fibre_mass_fraction": 30}), "fibre mass fraction is 30; it must be above 0 and below 1."),
    (lambda: layup.ply_thickness(**MAT | {"resin_density": Q(float("nan"), "kg/m^3")}), "resin density is nan"),
    (lambda: layup.strip_overlap_factor(width="50 mm", overlap="50 mm"), "overlap is 50 mm; it must be below the width, 50 mm."),
    (lambda: layup.patch_overlap_factor(length="30 mm", width="60 mm", overlap="40 mm"), "overlap is 40 mm; it must be below the length, 30 mm."),
    (lambda: layup.strips_needed(area=Q(1, "m^2"), strip_width="50 mm", strip_length="1 m", overlap="60 mm"),
     "overlap is 60 mm; it must be below the strip width, 50 mm."),
    (lambda: layup.random_layers_needed(share=0.95, layers=1.5), "layers is 1.5; it must be a whole number."),
    (lambda: layup.random_layers_needed(share=1, layers=2), "share is 1; it must be above 0 and below 1."),
    (lambda: layup.plies_for_thickness(thickness="1000 m", ply_thickness="1 mm"), "number of plies is 1e+06; it must be at most 100000"),
]


@pytest.mark.parametrize(("call", "says"), REFUSED)
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)
