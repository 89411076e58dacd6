"""Laminates, mat and cloth: what turning, mirroring and scaling must not change, and the wording of what is refused."""

from math import pi, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import layup
from moldcalc.stages.layup.matrix import inverse, product, solve_band
from moldcalc.units import Q
from tests.tables import within

PLY = {"longitudinal_modulus": 38.6e9, "transverse_modulus": 8.27e9, "shear_modulus": 4.14e9, "poisson_ratio": 0.26}
LISTS = {name: [value] for name, value in PLY.items()}
GLASS = {"fibre_density": 2560.0, "resin_density": 1150.0, "fibre_modulus": 72.4e9, "fibre_poisson_ratio": 0.22, "resin_modulus": 3.45e9,
         "resin_poisson_ratio": 0.35}
ANGLE = st.floats(-pi, pi)


def laid(degrees, thickness=1e-3):
    return layup.laminate_stiffness.si(angles=[radians(d) for d in degrees], thicknesses=[thickness], **LISTS)


@given(angle=ANGLE)
def test_what_turning_leaves(angle):
    """Q11 + Q22 + 2 Q12 and Q66 - Q12 do not change with the angle."""
    flat, turned = (layup.rotated_stiffness.si(**PLY, angle=a) for a in (0.0, angle))
    assert turned.q11 + turned.q22 + 2 * turned.q12 == within(flat.q11 + flat.q22 + 2 * flat.q12, 1e-12)
    assert turned.q66 - turned.q12 == within(flat.q66 - flat.q12, 1e-9)


@given(half=st.lists(st.floats(-90, 90), min_size=1, max_size=6))
def test_a_mirrored_stack_does_not_curl(half):
    made = laid([*half, *reversed(half)])
    most = max(abs(value) for row in made.extension for value in row) * made.thickness
    assert all(abs(value) < 1e-12 * most for row in made.coupling for value in row)


@given(angles=st.lists(st.floats(-90, 90), min_size=1, max_size=6), factor=st.floats(0.1, 10))
def test_thicker_plies(angles, factor):
    """A grows with t, D with t³; the constants of the sheet stay."""
    one, other = laid(angles), laid(angles, factor * 1e-3)
    assert other.extension[0][0] == within(factor * one.extension[0][0], 1e-9)
    assert other.bending[0][0] == within(factor**3 * one.bending[0][0], 1e-9)
    sheets = [layup.laminate_constants.si(angles=[radians(a) for a in angles], thicknesses=[t], **LISTS) for t in (1e-3, factor * 1e-3)]
    assert sheets[1].modulus_x == within(sheets[0].modulus_x, 1e-9)


@pytest.mark.parametrize("half", [[0, 45, -45, 90], [0, 60, -60]])
def test_the_same_all_ways_in_its_plane(half):
    """In A, not in D: E alike both ways, G = E/2(1 + nu), and the laminate analogy gives the same."""
    one = layup.laminate_constants.si(angles=[radians(a) for a in [*half, *reversed(half)]], thicknesses=[1e-3], **LISTS)
    assert one.modulus_y == within(one.modulus_x, 1e-9)
    assert one.shear_modulus == within(one.modulus_x / 2 / (1 + one.poisson_ratio), 1e-9)
    assert abs(one.bending_modulus_x / one.bending_modulus_y - 1) > 0.1
    sheet = layup.random_by_average.si(**PLY)
    assert (one.modulus_x, one.shear_modulus, one.poisson_ratio) == tuple(within(value, 1e-9) for value in sheet)


def test_a_single_ply_is_its_own_sheet():
    one = layup.laminate_constants.si(angles=[0.0], thicknesses=[2e-3], **LISTS)
    assert (one.modulus_x, one.modulus_y, one.shear_modulus, one.poisson_ratio) == tuple(within(value, 1e-9) for value in PLY.values())
    assert one.bending_modulus_x == within(38.6e9, 1e-9)


@given(numbers=st.lists(st.floats(-1, 1), min_size=9, max_size=9))
def test_inverse(numbers):
    matrix = [[numbers[3 * i + j] + (4 if i == j else 0) for j in range(3)] for i in range(3)]
    back = product(matrix, inverse(matrix))
    assert all(back[i][j] == within(float(i == j), absolute=1e-12) for i in range(3) for j in range(3))


@given(numbers=st.lists(st.floats(-1, 1), min_size=12, max_size=12))
def test_band(numbers):
    """A band of two beside the diagonal: put back in, it gives the right side."""
    band = [[5.0, numbers[2 * i], numbers[2 * i + 1]] for i in range(6)]
    right = [1.0, -2.0, 3.0, 0.5, 0.0, 4.0]
    found = solve_band([list(row) for row in band], right)
    whole = [[band[min(i, j)][abs(i - j)] if abs(i - j) < 3 else 0.0 for j in range(6)] for i in range(6)]
    assert [sum(x * y for x, y in zip(row, found, strict=True)) for row in whole] == [within(value, absolute=1e-9) for value in right]


@given(share=st.floats(0.05, 0.8), fibre=st.floats(30e9, 300e9), resin=st.floats(1e9, 5e9))
def test_across_lies_between_resin_and_along(share, fibre, resin):
    """Halpin-Tsai always; Chamis from three tenths of fibre on: with little it passes the rule of mixtures."""
    entries = {"fibre_value": fibre, "resin_value": resin, "fibre_volume_fraction": share}
    along = layup.rule_of_mixtures.si(**entries)
    assert resin < layup.halpin_tsai.si(**entries, shape=1) < layup.halpin_tsai.si(**entries, shape=2) < along
    assert share < 0.3 or resin < layup.chamis.si(**entries) < along


@given(fraction=st.floats(0.25, 0.40))
def test_mat_routes_keep_their_order(fraction):
    """3/8-5/8 is the highest; the rule is the lowest until 0.38, then passes the average; the two rules agree within 1.5 %."""
    mat = layup.mat_modulus.si(fibre_mass_fraction=fraction, **GLASS)
    assert mat.low <= mat.likely == mat.rule and mat.low <= mat.average < mat.three_eighths == mat.high
    assert fraction > 0.38 or mat.low == mat.rule
    assert layup.mat_modulus_by_class_rule.si(fibre_mass_fraction=fraction) == within(mat.rule, 0.015)


@given(fraction=st.floats(0.35, 0.60))
def test_cloth_is_softest_on_the_bias(fraction):
    cloth = layup.cloth_modulus.si(fibre_mass_fraction=fraction, **GLASS)
    assert cloth.low == cloth.bias < cloth.turned < cloth.along == cloth.high


QUANTITIES = {"angles": Q([0, 90], "degree"), "thicknesses": Q([1], "mm"), "longitudinal_modulus": Q([38.6], "GPa"),
              "transverse_modulus": Q([8.27], "GPa"), "shear_modulus": Q([4.14], "GPa"), "poisson_ratio": [0.26]}
MAT = {"fibre_density": Q(2.56, "kg/L"), "resin_density": Q(1.15, "kg/L"), "fibre_modulus": Q(72.4, "GPa"), "fibre_poisson_ratio": 0.22,
       "resin_modulus": Q(3.45, "GPa"), "resin_poisson_ratio": 0.35}
REFUSED = [
    (lambda: layup.laminate_stiffness(**QUANTITIES | {"thicknesses": Q([1, 1, 1], "mm")}),
     "thicknesses is 3 values; give one for all plies, or one for each of the 2."),
    (lambda: layup.laminate_stiffness(**QUANTITIES | {"thicknesses": Q([0], "mm")}), "thicknesses is 0 millimeter; it must be above 0."),
    (lambda: layup.laminate_stiffness(**QUANTITIES | {"angles": Q([0] * 1001, "degree")}), "number of plies is 1001; it must be at most 1000."),
    (lambda: layup.laminate_stiffness(**QUANTITIES | {"poisson_ratio": [float("nan")]}), "poisson ratio is nan"),
    (lambda: layup.laminate_stiffness(**QUANTITIES | {"poisson_ratio": [3.0]}),
     "poisson ratio is 3; its square times the transverse modulus must be below the longitudinal modulus."),
    (lambda: layup.mat_modulus(fibre_mass_fraction=30, **MAT), "it must be above 0 and below 1; 30 % is written 0.3 or '30 %'."),
    (lambda: layup.cloth_modulus(fibre_mass_fraction=50, **MAT), "it must be above 0 and below 1; 50 % is written 0.5 or '50 %'."),
    (lambda: layup.mat_modulus_by_rule(fibre_mass_fraction=1), "fibre mass fraction is 1; it must be above 0 and below 1."),
    (lambda: layup.mat_modulus_by_rule(fibre_mass_fraction=-0.3), "fibre mass fraction is -0.3; it must be above 0."),
    (lambda: layup.mat_modulus_by_rule(fibre_mass_fraction=0.12),
     "fibre mass fraction is 0.12; the rule starts above 0.132: with less fibre it has no modulus."),
]


@pytest.mark.parametrize(("call", "says"), REFUSED)
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)


def test_outside_the_rules_it_is_a_guess():
    [stray] = layup.mat_modulus_by_rule.strays(fibre_mass_fraction=0.5)
    assert str(stray) == "fibre mass fraction is 0.5, above 0.4, where the formula holds"
