"""Sandwich stiffness, deflection and stresses, against handbook ratios, closed forms and a laminate library."""

import pytest
from composipy import LaminateProperty, OrthotropicMaterial

from moldcalc.errors import EntryError
from moldcalc.stages import layup
from moldcalc.units import Q
from tests.tables import printed, within

#: two facings of 2 mm and 6400 MPa on 15 mm of foam, 55 MPa
SECTION = {"facing_modulus": Q(6400, "MPa"), "facing_thickness": Q(2, "mm"), "core_thickness": Q(15, "mm"), "core_modulus": Q(55, "MPa")}
SHEAR = layup.sandwich_shear_stiffness(core_shear_modulus=Q(22, "MPa"), core_thickness=Q(15, "mm"), facing_thickness=Q(2, "mm"))
STIFF = layup.sandwich_stiffness(**SECTION)

RATIOS = [
    # total stiffness strength thin faces  source
    (2, 7, 3.5, 6.75, "handbook ratio, verified by algebra; the short formula is the trap"),
    (4, 37, 9.25, 36.75, "the same"),
]


@pytest.mark.parametrize(("total", "stiffness", "strength", "thin", "source"), RATIOS)
def test_handbook_ratios(total, stiffness, strength, thin, source):
    """A solid of t against two facings of t/2 with a core that weighs and does nothing, total 2t and 4t: exact."""
    section = {"facing_modulus": Q(6, "GPa"), "facing_thickness": Q(2, "mm"), "core_thickness": Q(4 * (total - 1), "mm")}
    solid = layup.solid_stiffness(modulus=Q(6, "GPa"), thickness=Q(4, "mm"))
    ratio = (layup.sandwich_stiffness(**section, core_modulus=Q(0, "Pa")) / solid).magnitude
    assert (ratio, ratio / total) == (within(stiffness, 1e-12), within(strength, 1e-12)), source
    assert (layup.thin_face_stiffness(**section) / solid).magnitude == within(thin, 1e-12), source
    assert layup.thin_face_error(**section, core_modulus=Q(0, "Pa")) == within(thin / stiffness - 1, 1e-12)


def test_stiffness():
    """D 1 873 602.08 N·mm, as a plate 2 058 903.39 with .3 everywhere, 1e-8; computed, a laminate library agrees."""
    assert STIFF.m_as("N*mm") == within(1_873_602.08, 1e-8)
    plate = layup.sandwich_plate_stiffness(**SECTION, facing_poisson_ratio=0.3, core_poisson_ratio=0.3)
    assert plate.m_as("N*mm") == within(2_058_903.39, 1e-8)
    facing = OrthotropicMaterial(6400, 6400, 0.3, 6400 / 2.6, 2)
    core = OrthotropicMaterial(55, 55, 0.3, 55 / 2.6, 15)
    assert plate.m_as("N*mm") == within(LaminateProperty([0, 0, 0], [facing, core, facing]).D[0, 0], 1e-12), "composipy"


def test_unequal_facings_against_a_library():
    """Facings of 3 and 1 mm on 10 mm: bending with free stretching, D - B²/A of composipy with no Poisson's ratio."""
    found = layup.sandwich_stiffness(facing_modulus=Q(6400, "MPa"), facing_thickness=Q(3, "mm"), other_facing_thickness=Q(1, "mm"),
                                     core_thickness=Q(10, "mm"), core_modulus=Q(55, "MPa"))
    plies = [OrthotropicMaterial(e, e, 1e-12, e / 2, t) for e, t in ((6400, 3), (55, 10), (6400, 1))]
    made = LaminateProperty([0, 0, 0], plies)
    assert found.m_as("N*mm") == within(made.D[0, 0] - made.B[0, 0] ** 2 / made.A[0, 0], 1e-9)


def test_shear_stiffness():
    """423.8667 N/mm, 1e-6; the simpler G d 374, 12 % lower, and G c 22 % lower; computed."""
    assert SHEAR.m_as("N/mm") == within(423.8667, 1e-6)
    assert 22 * 17 / SHEAR.m_as("N/mm") == within(0.88, absolute=0.005)
    assert 22 * 15 / SHEAR.m_as("N/mm") == within(0.78, absolute=0.005)


STRIPS = [
    # mm    bending    shear     mm, half a unit of the last digit; beam D, 10 kPa; computed
    (300, "0.562920", "0.265414"),
    (600, "9.006715", "1.061655"),
    (1000, "69.496258", "2.949041"),
]


@pytest.mark.parametrize(("span", "bending", "shear"), STRIPS)
def test_supported_strip(span, bending, shear):
    w = layup.supported_strip(pressure=Q(10, "kPa"), span=Q(span, "mm"), stiffness=STIFF, shear_stiffness=SHEAR)
    assert (w.bending.m_as("mm"), w.shear.m_as("mm")) == (printed(bending), printed(shear))
    assert w.total == w.bending + w.shear
    held = layup.clamped_strip(pressure=Q(10, "kPa"), span=Q(span, "mm"), stiffness=STIFF, shear_stiffness=SHEAR)
    assert held.bending.m_as("mm") == within(w.bending.m_as("mm") / 5, 1e-12), "1/384 for 5/384, textbook"
    assert held.shear == w.shear


def test_stresses():
    """600 mm: facing 13.2353 MPa, its outside 14.6029, core at the support 0.176471 MPa, 1e-5; computed."""
    s = layup.strip_stresses(pressure=Q(10, "kPa"), span=Q(600, "mm"), **SECTION)
    assert [s.facing.m_as("MPa"), s.outer_fibre.m_as("MPa"), s.core_shear.m_as("MPa")] == [
        within(13.2353, 1e-5), within(14.6029, 1e-5), within(0.176471, 1e-5)]


def test_wrinkling():
    """98.9217 MPa, 1e-5; Hoff and Mautner's 0.5 (verified in two public sources), computed."""
    s = layup.wrinkling_stress(facing_modulus=Q(6400, "MPa"), core_modulus=Q(55, "MPa"), core_shear_modulus=Q(22, "MPa"), factor=0.5)
    assert s.m_as("MPa") == within(98.9217, 1e-5)


def test_square_panel():
    """800 mm, held along its edges, 10 kPa: 8.08168 + 1.11237 mm, 1e-4; computed by Navier's series, 200 x 200."""
    w = layup.supported_panel(height=Q(800, "mm"), width=Q(800, "mm"), bottom_pressure=Q(10, "kPa"), top_pressure=Q(10, "kPa"),
                              stiffness=STIFF / 0.91, thickness=Q(19, "mm"), poisson_ratio=0.3, shear_stiffness=SHEAR)
    assert (w.bending.m_as("mm"), w.shear.m_as("mm")) == (within(8.08168, 1e-4), within(1.11237, 1e-4))


@pytest.mark.parametrize(("aspect", "shear"), [(1, "0.07367"), (1.5, "0.10077"), (2, "0.11387")])
def test_shear_coefficient(aspect, shear):
    """Sandwich theory; computed."""
    assert layup.supported_coefficients(aspect=aspect, poisson_ratio=0.3).shear == printed(shear)


def test_three_points():
    """1000 N over 100 mm of width, 400 mm: 7.116417 + 2.359232 mm, 1e-6; computed."""
    w = layup.three_point_strip(line_load=Q(10, "N/mm"), span=Q(400, "mm"), stiffness=STIFF, shear_stiffness=SHEAR)
    assert (w.bending.m_as("mm"), w.shear.m_as("mm")) == (within(7.116417, 1e-6), within(2.359232, 1e-6))


@pytest.mark.parametrize(("core", "solid", "lighter"), [(10, 12.529, 2.538), (20, 18.678, 3.386)])
def test_solid_as_stiff(core, solid, lighter):
    """Two plies of mat 450 a side, 2.17765 mm, 30 %, 6400 and 55 MPa, foam of 80 kg/m³: thickness and weight of the solid as
    stiff, no bond; 1e-3, computed."""
    section = SECTION | {"facing_thickness": Q(2.17765, "mm"), "core_thickness": Q(core, "mm")}
    t = layup.solid_thickness_for(stiffness=layup.sandwich_stiffness(**section), modulus=Q(6400, "MPa"))
    assert t.m_as("mm") == within(solid, 1e-3)
    density = layup.laminate_density(fibre_mass_fraction=0.30, fibre_density=Q(2.56, "kg/L"), resin_density=Q(1.15, "kg/L")).m_as("kg/L")
    assert solid * density / (2 * 2.17765 * density + core * 0.080) == within(lighter, 1e-3)


@pytest.mark.parametrize(("stiffness", "core"), [(1e6, 10.44655), (5e6, 25.92699)])
def test_core_for_stiffness(stiffness, core):
    """6400 MPa, facings of 2 mm, core left out: 1e-4; computed."""
    c = layup.core_for_stiffness(stiffness=Q(stiffness, "N*mm"), facing_modulus=Q(6400, "MPa"), facing_thickness=Q(2, "mm"))
    assert c.m_as("mm") == within(core, 1e-4)


def test_weight_row_of_the_handbook():
    """1 : 1.03 : 1.06 is for metal; mat at 1.378 and foam of 80 kg/m³, core t and 3t: 1 : 1.058 : 1.174, without bond; computed."""
    density = layup.laminate_density(fibre_mass_fraction=0.30, fibre_density=Q(2.56, "kg/L"), resin_density=Q(1.15, "kg/L")).m_as("kg/L")
    assert [1 + times * 0.080 / density for times in (1, 3)] == [printed("1.058"), printed("1.174")]


def test_no_core_is_a_solid_laminate():
    """Both facings in one: E (2t)³/12, exact; its shear is left out."""
    bare = SECTION | {"core_thickness": Q(0, "mm")}
    solid = layup.solid_stiffness(modulus=Q(6400, "MPa"), thickness=Q(4, "mm"))
    assert layup.sandwich_stiffness(**bare).m_as("N*m") == within(solid.m_as("N*m"), 1e-12)
    s = layup.strip_stresses(pressure=Q(10, "kPa"), span=Q(600, "mm"), **bare)
    assert s.core_shear.magnitude == 0
    assert s.outer_fibre.m_as("Pa") == within(10e3 * 0.6**2 / 8 * 6 / 0.004**2, 1e-12), "6 M/t², textbook"
    assert layup.supported_strip(pressure=Q(10, "kPa"), span=Q(600, "mm"), stiffness=solid).shear.magnitude == 0
    with pytest.raises(EntryError, match="core thickness is 0 mm; a solid laminate has no core to shear; leave the shear stiffness out"):
        layup.sandwich_shear_stiffness(core_shear_modulus=Q(22, "MPa"), core_thickness=Q(0, "mm"), facing_thickness=Q(2, "mm"))
