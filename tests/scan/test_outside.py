"""The outside of a grid: known areas, normals, neighbours, and what lies on the board."""

import numpy as np
import pytest

from moldcalc.errors import EntryError
from moldcalc.scan.body import Grid
from moldcalc.scan.outside import outside
from tests.scan.formulas import box, cut_off, grid, sphere, torus

CELL = 0.01

# name, formula, half extents, least radius, area in m², source; vertices within a tenth of a cell, so areas within 0.1 h / r
KNOWN = [
    ("sphere", sphere(0.2), (0.2, 0.2, 0.2), 0.2, 4 * np.pi * 0.04, "4 pi r²"),
    ("torus", torus(0.2, 0.07), (0.27, 0.27, 0.07), 0.07, 4 * np.pi**2 * 0.2 * 0.07, "4 pi² R r"),
]


@pytest.mark.parametrize(("name", "formula", "half", "radius", "area", "source"), KNOWN)
def test_area_of_a_smooth_body(name, formula, half, radius, area, source):
    made = outside(grid(formula, -np.array(half), half, CELL), board=False)
    assert made.area == pytest.approx(area, rel=0.1 * CELL / radius), source
    assert np.abs(formula(made.vertices)).max() < 0.1 * CELL
    assert len(made.rim) == 0
    assert len(made.pairs) == 1.5 * len(made.faces)


def test_normals_of_a_sphere_point_from_its_middle():
    made = outside(grid(sphere(0.2), (-0.2,) * 3, (0.2,) * 3, CELL), board=False)
    away = made.centres / np.linalg.norm(made.centres, axis=1)[:, None]
    assert np.einsum("ij,ij->i", made.normals, away).min() > np.cos(np.radians(0.5))


def test_a_cube_keeps_six_faces():
    made = outside(grid(box((0.15,) * 3), (-0.15,) * 3, (0.15,) * 3, CELL), board=False)
    sharp = np.abs(made.normals).max(axis=1) > np.cos(np.radians(1))
    shares = [made.areas[sharp & (made.normals[:, axis] * side > 0.9)].sum() for axis in range(3) for side in (-1, 1)]
    # all of a face but a strip of three cells along each edge, as far as the blur reaches
    assert min(shares) > (0.30 - 6 * CELL) ** 2
    # twelve edges chamfered by a cell lose (2 - sqrt 2) of a cell along their length
    assert made.area == pytest.approx(6 * 0.09, abs=12 * 0.3 * (2 - 2**0.5) * CELL)


def test_a_dome_on_the_board_has_no_floor():
    made = outside(grid(cut_off(sphere(0.2)), (-0.2, -0.2, 0), (0.2, 0.2, 0.2), CELL))
    assert made.area == pytest.approx(2 * np.pi * 0.04, rel=0.01), "2 pi r²; the foot's row of faces is cut at whole triangles"
    assert made.normals[:, 2].min() > -np.sin(np.radians(3)), "a cell below the equator the sphere leans out by 3 degrees"
    assert np.abs(made.vertices[made.rim][:, :, 2]).max() < 1.5 * CELL


@pytest.mark.parametrize(("distance", "says"), [
    (np.ones((4, 4, 4)), "the grid is without a surface"),
    (np.where(np.arange(64).reshape(4, 4, 4) < 32, -1.0, 1.0), "the grid is too small for the body"),
])
def test_a_grid_that_holds_no_body_is_refused(distance, says):
    with pytest.raises(EntryError, match=says):
        outside(Grid(np.zeros(3), CELL, distance.astype(np.float32)), board=False)
