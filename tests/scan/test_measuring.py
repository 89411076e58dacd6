"""What is measured on a body: laws that hold for every one, and places where rubber runs thin."""

from math import pi, radians, sin, tan

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.scan.body import Body
from moldcalc.scan.edges import edges_of, loops_of
from moldcalc.scan.measuring import measure
from moldcalc.scan.nested import MOST_BODIES, nesting
from moldcalc.scan.outlines import base_outline, flange_band, shadow_area
from moldcalc.scan.progress import finish
from moldcalc.scan.summing import sums


def on_board(mesh) -> Body:
    vertices = np.array(mesh.vertices, float)
    return Body(vertices - [0, 0, vertices[:, 2].min()], np.array(mesh.faces, np.int64))


def size_of(mesh, **entries):
    return finish(measure(on_board(mesh), **{"closed": True, "consistent": True, "flange_width": 0.05, "wall": 0.006} | entries))


def box(*sides):
    return trimesh.creation.box(sides)


def test_a_box_on_its_board():
    """By hand: .6 x .4 x .9."""
    size = size_of(box(0.6, 0.4, 0.9))
    assert size.area_whole == pytest.approx(2.28)
    assert size.base_area == pytest.approx(0.24)
    assert size.area == pytest.approx((2.04, 2.04, 2.04))
    assert size.volume == pytest.approx((0.216, 0.216, 0.216))
    assert size.extents == pytest.approx((0.6, 0.4, 0.9))
    assert (size.front_shadow, size.side_shadow) == pytest.approx((0.54, 0.36))
    assert (size.outline.length, size.outline.hull, size.outline.area) == pytest.approx((2.0, 2.0, 0.24))
    assert size.flange_area == pytest.approx(3 * (2.0 * 0.05 + pi * 0.05**2,))
    assert size.slopes == pytest.approx((0.24 / 2.04, 0, 1.8 / 2.04, 0, 0, 1.8 / 2.04))
    assert (size.euler_number, size.bodies, size.open_edges, size.holes, size.no_volume, size.capped) == (2, 1, 0, 0, None, None)


def test_the_coat_of_a_box_on_its_board():
    """By hand: no coat below; a quarter round along eight edges, an eighth of a ball at four corners."""
    t = 0.01
    coat = size_of(box(0.6, 0.4, 0.9)).coat(t)
    by_hand = 2.04 * t + pi / 4 * t**2 * (4 * 0.9 + 2 * (0.6 + 0.4)) + 4 * (4 / 3 * pi * t**3) / 8
    assert coat.likely == pytest.approx(by_hand, rel=1e-12)
    assert coat.low == pytest.approx(2.04 * t) and coat.high == pytest.approx(by_hand)


@settings(max_examples=6)
@given(scale=st.floats(0.01, 5), sides=st.tuples(*3 * [st.floats(0.2, 1.9)]))
def test_size_scales(scale, sides):
    near = min(scale, 1)
    one = size_of(box(*sides), flange_width=0.02, wall=0.02)
    other = size_of(box(*(scale * side for side in sides)), flange_width=0.02 * near, wall=0.02 * near)
    assert other.area.likely == pytest.approx(one.area.likely * scale**2)
    assert other.volume.likely == pytest.approx(one.volume.likely * scale**3)
    assert other.curvature == pytest.approx(one.curvature * scale)
    assert other.outline.length == pytest.approx(one.outline.length * scale)
    assert other.front_shadow == pytest.approx(one.front_shadow * scale**2, rel=1e-6)
    assert other.slopes == pytest.approx(one.slopes)


@settings(max_examples=6)
@given(turn=st.floats(0, 6.28))
def test_turning_on_the_board_changes_nothing_that_lies_on_it(turn):
    mesh = trimesh.creation.icosphere(subdivisions=2, radius=0.3)
    mesh.apply_scale((1, 0.5, 0.8))
    before = size_of(mesh)
    mesh.apply_transform(trimesh.transformations.rotation_matrix(turn, (0, 0, 1)))
    after = size_of(mesh)
    assert after.area == pytest.approx(before.area)
    assert after.volume == pytest.approx(before.volume)
    assert after.slopes == pytest.approx(before.slopes, abs=1e-6)
    assert after.outline.length == pytest.approx(before.outline.length, rel=1e-6)
    assert after.curvature == pytest.approx(before.curvature)


def test_growth_of_a_growing_body_agrees_with_a_real_one():
    """A ball of r grown by t is a ball of r + t: exact but for its facets."""
    size = size_of(trimesh.creation.icosphere(subdivisions=5, radius=0.5), base_tolerance=0.0)
    area, volume = size.grown(0.05)
    assert volume.likely == pytest.approx(4 / 3 * pi * 0.55**3, rel=1e-3)
    assert area.likely == pytest.approx(4 * pi * 0.55**2, rel=1e-3)


def test_a_hollow_vessel_has_less_growth_than_its_area_says():
    """A bowl grown inside: where the body is more hollow than round, the likely value is the lowest."""
    ball = trimesh.creation.icosphere(subdivisions=3, radius=0.5)
    ball.invert()
    size = size_of(ball, closed=False)
    assert size.curvature < 0
    added = size.whole.volume(0.05)
    assert added.low == added.likely < size.area_whole * 0.05


def test_outline_of_four_legs_and_of_a_ring():
    legs = trimesh.util.concatenate([box(0.1, 0.1, 0.5).apply_translation((x, y, 0)) for x in (0, 1) for y in (0, 1)])
    outline = size_of(legs).outline
    assert len(outline.rings) == 4
    assert (outline.length, outline.hull, outline.area) == pytest.approx((1.6, 4.4, 0.04))
    ring = trimesh.creation.annulus(0.3, 0.5, 0.2, sections=256) if _has_shapely() else trimesh.creation.torus(0.4, 0.1, major_sections=256)
    outline = size_of(ring).outline
    assert len(outline.rings) == 1


def _has_shapely() -> bool:
    from importlib.util import find_spec

    return find_spec("shapely") is not None


def test_flange_of_an_inside_corner():
    """By hand: an L of .3 and .1; each inside corner takes a square of the width away twice."""
    corners = np.array([(0, 0), (0.3, 0), (0.3, 0.1), (0.1, 0.1), (0.1, 0.3), (0, 0.3)])
    n = len(corners)
    vertices = np.concatenate([np.column_stack([corners, np.full(n, z)]) for z in (0.0, 0.4)])
    faces = np.array([f for i in range(n) for j in [(i + 1) % n] for f in ((i, j, n + j), (i, n + j, n + i))])
    outline = base_outline(vertices, faces, 0.1)
    width = 0.05
    assert outline.length == pytest.approx(1.2)
    by_hand = 1.2 * width + 5 * pi / 4 * width**2 - tan(radians(45)) * width**2
    assert flange_band(outline, width).likely == pytest.approx(by_hand)
    assert flange_band(outline, width).high > by_hand
    assert flange_band(outline, width).low == pytest.approx(min(by_hand, outline.hull * width + pi * width**2))


def test_an_open_foot_counts_as_its_outline():
    """A scan without a bottom: area as before, outline as before, no volume, but an estimate of one."""
    mesh = box(0.6, 0.4, 0.9)
    mesh.update_faces(mesh.face_normals[:, 2] > -0.5)
    size = size_of(mesh, closed=False)
    assert size.area == pytest.approx((2.04, 2.04, 2.04))
    assert (size.base_area, size.volume, size.holes, size.hole_area) == (0, None, 1, 0)
    assert size.outline.area == pytest.approx(0.24)
    assert size.capped.likely == pytest.approx(0.216)


def test_shadows_of_a_ball_and_of_two_bodies_behind_each_other():
    ball = trimesh.creation.icosphere(subdivisions=5, radius=0.5)
    assert shadow_area(ball.vertices, ball.faces, 0) == pytest.approx(pi / 4, rel=2e-3)
    behind = trimesh.util.concatenate([box(0.2, 0.2, 1), box(0.2, 0.4, 0.5).apply_translation((2, 0, 0))])
    assert shadow_area(behind.vertices, behind.faces, 0) == pytest.approx(0.2 * 1 + 0.2 * 0.5, rel=1e-3)
    assert shadow_area(behind.vertices, behind.faces, 1) == pytest.approx(0.2 * 1 + 0.2 * 0.5, rel=1e-3)


@pytest.mark.parametrize(("tilt", "field"), [(0, "level"), (20, "level"), (45, "sloping"), (90, "upright"), (120, "overhanging"), (170, "underside")])
def test_slopes_of_one_triangle(tilt, field):
    mesh = trimesh.Trimesh([(0, 0, 0), (1, 0, 0), (0, 1, 0)], [(0, 1, 2)])
    mesh.apply_transform(trimesh.transformations.rotation_matrix(radians(tilt), (1, 0, 0)))
    mesh.apply_translation((0, 0, 1))
    slopes = finish(sums(Body(mesh.vertices, np.array(mesh.faces, np.int64)))).slopes
    assert getattr(slopes, field) == pytest.approx(1)
    assert slopes.low_draft == pytest.approx(1.0 if tilt >= 90 else 0.0)


def test_upright_walls_have_little_draft_whatever_the_rounding():
    mesh = box(1, 1, 1)
    mesh.apply_transform(trimesh.transformations.rotation_matrix(0.3, (0, 0, 1)))
    assert size_of(mesh).slopes.low_draft == pytest.approx(4 / 5)


def test_thin_rubber_on_the_edges_of_a_box():
    """By hand: eight edges above the board, 5.6 m; near them about a wall and a half to both sides."""
    thin = size_of(box(0.6, 0.4, 0.9)).thin
    assert thin.edge_length == pytest.approx(5.6, rel=0.06)
    assert 5.6 * 2 * 0.006 * 0.75 < thin.area < 5.6 * 2 * 0.006 * 2
    assert len(thin.points) == 12
    sharpest = np.array([point[:3] for point in thin.points[:4]])
    top = {(x, y) for x in (-1, 1) for y in (-1, 1)}
    assert all(np.allclose(np.abs(p), (0.3, 0.2, 0.9), atol=0.012) for p in sharpest)
    assert {tuple(np.sign(p[:2]).astype(int)) for p in sharpest} == top


def test_thin_rubber_on_a_point_but_not_on_a_ball():
    ball = trimesh.creation.icosphere(subdivisions=4, radius=0.3)
    thin = size_of(ball).thin
    assert (thin.edge_length, thin.area, thin.points) == (0, 0, ())
    ball.vertices[np.argmax(ball.vertices[:, 2])] += (0, 0, 0.05)
    thin = size_of(ball).thin
    assert thin.points and thin.points[0].z > 0.6
    assert thin.points[0].radius < 0.05


def test_facets_are_not_taken_for_edges():
    """A cylinder of 24 sides turns by 15° at each: only its rims are edges."""
    thin = size_of(trimesh.creation.cylinder(radius=0.25, height=0.9, sections=24), wall=0.006).thin
    assert thin.edge_length == pytest.approx(24 * 2 * 0.25 * sin(pi / 24), rel=0.02)


@pytest.mark.parametrize(("entries", "says"), [
    ({"wall": 0.0}, "wall is 0 mm; it must be above 0"), ({"flange_width": float("nan")}, "flange width is nan mm"),
    ({"wall": 11.0}, "wall is 11000 mm"), ({"base_tolerance": -0.1}, "base tolerance is -100 mm"),
])
def test_entries_that_can_not_be(entries, says):
    with pytest.raises(EntryError, match=says):
        size_of(box(1, 1, 1), **entries)


def test_a_body_that_is_none():
    for vertices, faces in ((np.zeros((3, 3)), np.array([(0, 1, 2)])), (np.ones((3, 3)), np.empty((0, 3), np.int64))):
        with pytest.raises(EntryError, match="body is flat or empty"):
            finish(measure(Body(vertices, faces), closed=False, consistent=True, flange_width=0.05, wall=0.006))


def test_edges_of_three_triangles_on_one_edge():
    faces = np.array([(0, 1, 2), (1, 0, 3), (0, 1, 4)])
    edges = edges_of(faces, 5)
    assert (edges.crowded, edges.unbalanced, len(edges.open), edges.count) == (1, 1, 6, 7)
    assert not edges.closed


def test_rings_of_open_edges():
    mesh = box(1, 1, 1)
    mesh.update_faces(np.abs(mesh.face_normals[:, 2]) < 0.5)
    edges = edges_of(np.array(mesh.faces, np.int64), len(mesh.vertices))
    rings = loops_of(edges.open)
    assert sorted(map(len, rings)) == [4, 4]


def winding(point, vertices, faces):
    """How often a closed surface goes round a point: the solid angles of its triangles (van Oosterom and Strackee 1983, from memory)."""
    a, b, c = (vertices[faces[:, i]] - point for i in range(3))
    la, lb, lc = (np.linalg.norm(x, axis=1) for x in (a, b, c))
    over = (a * np.cross(b, c)).sum(axis=1)
    under = la * lb * lc + (a * b).sum(axis=1) * lc + (b * c).sum(axis=1) * la + (c * a).sum(axis=1) * lb
    return np.arctan2(over, under).sum() / (2 * pi)


@settings(max_examples=20)
@given(places=st.lists(st.tuples(*3 * [st.floats(-1, 1)], st.floats(0.05, 1)), min_size=2, max_size=5), turned=st.booleans())
def test_bodies_inside_bodies_agree_with_solid_angles(places, turned):
    """A body is inside another exactly if its box is and the other goes round one of its points."""
    ball = trimesh.creation.icosphere(subdivisions=1)
    meshes = [ball.copy().apply_scale(r).apply_translation((x, y, z)) for x, y, z, r in places]
    if turned:
        meshes[0].invert()
    mesh = trimesh.util.concatenate(meshes)
    body = np.repeat(np.arange(len(meshes)), [len(m.faces) for m in meshes])
    found = nesting(np.array(mesh.vertices), np.array(mesh.faces), body, len(meshes)).inner
    for number, one in enumerate(meshes):
        others = [other for other in meshes if other is not one]
        goes_round = [[abs(winding(v, other.vertices, other.faces)) > 0.5 for v in one.vertices] for other in others]
        same = any(np.allclose(one.vertices, other.vertices) for other in others)
        assert found[number] <= any(round_[one.faces[0, 0]] for round_ in goes_round)
        assert found[number] >= any(map(all, goes_round)) or same


def test_very_many_bodies_are_not_compared():
    found = nesting(np.zeros((3, 3)), np.zeros((1, 3), int), np.zeros(1, int), MOST_BODIES + 1)
    assert found.overlap and not found.inner.any()


def test_a_ball_on_a_stalk_stands_on_its_stalk():
    """The default tolerance: what lies within 0.2 % of the height and faces down is base."""
    size = size_of(trimesh.creation.cylinder(radius=0.1, height=1.0, sections=64))
    assert size.base_area == pytest.approx(32 * 0.01 * sin(2 * pi / 64), rel=1e-9)
    assert size.area.likely == pytest.approx(size.area_whole - size.base_area)
