"""A body on a grid: inside, distance, closing, shadow."""

import tracemalloc
from math import pi

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.scan.body import Body
from moldcalc.scan.crossings import occupied
from moldcalc.scan.grid import MOST_CELLS, cell_for, centres, closed, grid_of, grown, padded, shadow, shrunk, solid, volume
from moldcalc.scan.progress import finish
from tests.scan.bodies import ball, body_of, box, ring, together, without
from tests.tables import within


def points_of(grid):
    return np.stack(np.meshgrid(*[centres(grid, axis) for axis in range(3)], indexing="ij"), axis=-1)


@pytest.mark.parametrize("h", [0.1, 0.05])
def test_distance_to_a_sphere(h):
    """Next to the surface a few hundredths of a cell, elsewhere a quarter; the sphere of triangles is 0.0004 off itself."""
    grid = finish(grid_of(ball(1, (0, 0, 1), 5), h, 0.3))
    true = np.linalg.norm(points_of(grid) - (0, 0, 1), axis=-1) - 1
    error = np.abs(grid.distance - true)
    assert error[np.abs(true) < 0.9 * h].max() < 0.05 * h
    assert error[true > -0.8].max() < 0.3 * h
    assert error[true > -0.8].mean() < 0.05 * h
    assert volume(grid) == within(4 / 3 * pi, 5e-3)


def test_distance_against_another_program():
    """A bent ring, at random points: inside and distance by trimesh's ray casting and nearest point."""
    body = ring(0.3, 0.1, (0.02, -0.01, 0.3))
    body = Body(body.vertices + 0.05 * np.sin(9 * body.vertices[:, [1, 2, 0]]), body.faces)
    grid = finish(grid_of(body, 0.02, 0.05))
    rng = np.random.default_rng(5)
    at = np.column_stack([rng.integers(0, n, 400) for n in grid.distance.shape])
    mesh = trimesh.Trimesh(body.vertices, body.faces)
    theirs = -trimesh.proximity.signed_distance(mesh, grid.origin + grid.cell * at)
    ours = grid.distance[tuple(at.T)]
    assert ((ours < 0) == (theirs < 0)).all(), "trimesh.proximity.signed_distance"
    assert np.abs(ours - theirs).max() < 0.3 * grid.cell
    assert volume(grid) == within(mesh.volume, 0.01), "trimesh"


@pytest.mark.parametrize("h", [0.1, 0.25, 0.5, 1 / 3])
def test_a_box_on_cell_faces_is_exact(h):
    """Its edges run through columns' corners and its diagonals through their middles: each crossing counts once."""
    grid = finish(grid_of(box((1, 1, 1), (0.5, 0.5, 0.5)), h, 0.3))
    assert volume(grid) == within(1.0, 1e-6), "exact"


@pytest.mark.parametrize("shift", [0.05, 0.1, 0.025])
def test_faces_through_centres_are_crossed_once(shift):
    """With every corner, edge and diagonal on centres, still as many cells as the box is wide, in every direction."""
    grid = finish(grid_of(box((1, 1, 1), (0.5 + shift, 0.5 + shift, 0.5 + shift)), 0.1, 0.2))
    counts = [np.count_nonzero(grid.inside.any(axis=axes)) for axes in ((1, 2), (0, 2), (0, 1))]
    assert all(count in (9, 10) for count in counts)
    assert np.count_nonzero(grid.inside) == np.prod(counts)


def test_overlapping_bodies_count_once():
    two = together(ball(1, (0, 0, 1)), ball(1, (1, 0, 1)))
    lens = pi * (4 + 1) * (2 - 1) ** 2 / 12
    assert volume(finish(grid_of(two, 0.05, 0.2))) == within(8 / 3 * pi - lens, 0.01), "closed form of two spheres"


def test_a_hollow_body_stays_hollow():
    inner = ball(0.5, (0, 0, 1))
    hollow = together(ball(1, (0, 0, 1)), Body(inner.vertices, inner.faces[:, ::-1]))
    assert volume(finish(grid_of(hollow, 0.05, 0.2))) == within(4 / 3 * pi * (1 - 0.125), 0.01)


def test_the_board_closes_an_open_base():
    cube = box((1, 1, 1), (0, 0, 0.5))
    bottom = (cube.corners[:, :, 2] < 1e-9).all(axis=1)
    whole, opened = (finish(grid_of(body, 0.05, 0.2)) for body in (cube, without(cube, bottom)))
    assert np.array_equal(whole.inside, opened.inside)
    assert np.abs(whole.distance - opened.distance)[:, :, centres(whole, 2) > 0].max() < 1e-6


@pytest.mark.parametrize("holes", [["top"], ["side"], ["bottom"], ["top", "side"], ["top", "bottom", "side"]])
def test_small_holes_are_healed_and_said(holes):
    sphere = ball(1, (0, 0, 1.5))
    way = sphere.corners.mean(axis=1) - (0, 0, 1.5)
    gone = np.any([{"top": way[:, 2] > 0.95, "side": way[:, 0] > 0.95, "bottom": way[:, 2] < -0.95}[hole] for hole in holes], axis=0)
    work, said = grid_of(without(sphere, gone), 0.05, 0.2), []
    while True:
        try:
            said.append(next(work).said)
        except StopIteration as done:
            grid = done.value
            break
    assert np.count_nonzero(grid.inside) * 0.05**3 == within(4 / 3 * pi, 0.03)
    assert any("cells healed by a majority" in text for text in said) == (holes == ["top", "bottom", "side"] or "top" in holes or "bottom" in holes)


def test_occupancy_says_what_it_mended():
    sphere = ball(1, (0, 0, 1.5))
    whole = finish(occupied(sphere, np.array([-1.2, -1.2, 0.3]), (50, 50, 50), 0.05))
    assert (whole.healed, whole.stands_open) == (0, False)


@pytest.mark.parametrize("step", [(1, 0, 0), (0, -2, 0), (3, 5, 0)])
def test_moved_by_whole_cells_nothing_changes(step):
    h = 0.125
    first = ball(1, (0.03, 0.02, 1.01))
    second = Body(first.vertices + h * np.array(step), first.faces)
    one, two = (finish(closed(finish(grid_of(body, h, 0.4)), 0.3)) for body in (first, second))
    assert np.array_equal(one.inside, two.inside)
    assert np.abs(one.distance - two.distance).max() < 1e-5


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 2**32 - 1), st.floats(0.1, 1.0))
def test_closing_adds_nothing_to_a_convex_body(seed, radius):
    corners = np.random.default_rng(seed).normal(size=(30, 3)) * (0.3, 0.2, 0.25)
    hull = trimesh.convex.convex_hull(corners)
    grid = finish(grid_of(body_of(hull, (0, 0, 1)), 0.04, 0.1))
    added = finish(closed(grid, radius)).inside & ~grid.inside
    # but some cells next to the surface, within the band of closing
    assert (grid.distance[added] < 0.9 * grid.cell).all()
    assert np.count_nonzero(added) < 0.1 * np.count_nonzero(np.abs(grid.distance) < 0.5 * grid.cell)


@settings(max_examples=6, deadline=None)
@given(st.integers(0, 2**32 - 1), st.floats(0.06, 0.2))
def test_closing_twice_is_closing_once_and_grows_with_the_ball(seed, radius):
    rng = np.random.default_rng(seed)
    body = together(*[ball(r, c, 3) for r, c in zip(rng.uniform(0.1, 0.25, 5), rng.uniform(0.2, 0.8, (5, 3)), strict=True)])
    grid = finish(grid_of(body, 0.025, 0.05))
    once = finish(closed(grid, radius))
    twice, more = finish(closed(once, radius)), finish(closed(grid, 1.5 * radius))
    free = np.count_nonzero(np.abs(once.distance) < 0.5 * grid.cell)
    assert not (grid.inside & ~once.inside).any()
    # exact for bodies; on cells to a share of the cells along the surface
    assert np.count_nonzero(twice.inside & ~once.inside) <= 0.1 * free
    assert np.count_nonzero(once.inside & ~more.inside) <= 0.02 * free


def test_ball_rolls_on_the_board():
    """In the corner of an upright wall and the board it leaves (1 - pi/4) r² for each unit of length."""
    h, r = 0.01, 0.1
    grid = finish(grid_of(box((0.5, 0.5, 0.3), (0, 0, 0.15)), h, 0.15))
    fill = finish(closed(grid, r, board=True)).inside & ~grid.inside
    assert not fill[:, :, centres(grid, 2) < 0].any()
    section = np.count_nonzero(fill[:, fill.shape[1] // 2]) * h * h / 2
    assert section == within((1 - pi / 4) * r * r, 0, 0.9 * h * r * pi / 2), "elementary; the band of closing"
    assert not (finish(closed(grid, r)).inside & ~grid.inside).any()


def test_grown_and_shrunk():
    grid = finish(grid_of(ball(1, (0, 0, 1.5), 5), 0.05, 0.4))
    assert volume(grown(grid, 0.2)) == within(4 / 3 * pi * 1.2**3, 0.005)
    assert volume(shrunk(grid, 0.2)) == within(4 / 3 * pi * 0.8**3, 0.005)


def test_padding_changes_nothing_inside():
    grid = finish(grid_of(ball(1, (0, 0, 1.5)), 0.1, 0.1))
    wide = finish(padded(grid, 5))
    assert np.abs(wide.distance[5:-5, 5:-5, 5:-5] - grid.distance).max() < 0.3 * grid.cell


@pytest.mark.parametrize("pull", [(0, 0, 1), (1, 0, 0), (0, -1, 0), (0.4, 0, 1), (0.3, -0.5, 1), (-1, 0.2, 0.6), (0.5, 0.5, -1)])
def test_shadow_against_rays(pull):
    """Cells are filled where a ray along the pull meets the body above them: marched here in tenths of a cell."""
    grid = finish(grid_of(together(ball(0.3, (0, 0, 0.7), 3), box((0.9, 0.2, 0.1), (0, 0.1, 0.2))), 0.05, 0.6))
    made = shadow(grid, pull)
    way = np.array(pull) / np.linalg.norm(pull)
    rng = np.random.default_rng(3)
    at = np.column_stack([rng.integers(4, n - 4, 3000) for n in grid.distance.shape])
    start = grid.origin + grid.cell * at
    start, at = start[start[:, 2] > 0], at[start[:, 2] > 0]
    far = np.full(len(at), np.inf)
    for step in np.arange(0, 2.5, 0.005):
        p = start + step * way
        q = np.maximum(np.abs(p - (0, 0.1, 0.2)) - (0.45, 0.1, 0.05), 0)
        far = np.minimum(far, np.minimum(np.linalg.norm(p - (0, 0, 0.7), axis=1) - 0.3, np.linalg.norm(q, axis=1)))
    ours = made.distance[tuple(at.T)] < 0
    # rays that miss or hit by a cell or more leave no doubt
    assert not ours[far > grid.cell].any()
    inner = np.full(len(at), False)
    for step in np.arange(0, 2.5, 0.005):
        p = start + step * way
        inner |= (np.linalg.norm(p - (0, 0, 0.7), axis=1) < 0.3 - grid.cell)
    assert ours[inner].all()


def test_solid_counts_centres():
    cells = np.zeros((8, 9, 10), bool)
    cells[2:5, 3:6, 4:8] = True
    grid = solid(cells, (0, 0, 0), 0.5)
    assert np.array_equal(grid.inside, cells)
    assert volume(grid) == within(36 * 0.125, 1e-12)
    assert grid.distance[0, 4, 5] == within(1.5 * 0.5, 1e-6), "half a cell from the centres"


@settings(max_examples=20, deadline=None)
@given(st.floats(0.01, 3), st.floats(0.01, 3), st.floats(0.01, 3), st.integers(1000, MOST_CELLS), st.floats(0, 1))
def test_the_smallest_cell_fits(x, y, z, most, margin):
    body = box((x, y, z))
    cell = cell_for(body, most, margin)
    counts = [np.prod(np.ceil((np.array([x, y, z]) / 2 + margin) / size) * 2) for size in (cell, 0.8 * cell)]
    assert counts[0] <= 1.4 * most
    assert counts[1] > 0.5 * most or cell <= 1.2e-4 * (max(x, y, z) + 2 * margin)


@pytest.mark.parametrize(("cell", "margin", "says"), [
    (0.001, 0.1, r"cell is 1 mm; that makes .* million cells; choose .* mm or more"),
    (1e-12, 0.1, "million cells"),
    (0.0, 0.1, "cell is 0 m; it must be above 0"),
    (float("nan"), 0.1, "cell is nan m"),
    (0.1, -1.0, "margin is -1 m; it must be at least 0"),
])
def test_a_grid_that_cannot_be_is_refused(cell, margin, says):
    with pytest.raises(EntryError, match=says):
        finish(grid_of(box((1, 1, 1)), cell, margin))


def test_bodies_that_are_none_are_refused():
    with pytest.raises(EntryError, match="scan is without triangles"):
        finish(grid_of(Body(np.zeros((0, 3)), np.zeros((0, 3), np.int64)), 0.1, 0.1))
    broken = box((1, 1, 1))
    with pytest.raises(EntryError, match="three finite numbers"):
        finish(grid_of(Body(np.where(broken.vertices > 0, np.nan, broken.vertices), broken.faces), 0.1, 0.1))
    with pytest.raises(EntryError, match="pull direction is without length"):
        shadow(solid(np.zeros((3, 3, 3), bool), (0, 0, 0), 1), (0, 0, 0))
    with pytest.raises(EntryError, match="radius is 0 m"):
        finish(closed(solid(np.zeros((3, 3, 3), bool), (0, 0, 0), 1), 0))


def test_memory_stays_bounded():
    """At most 50 bytes a cell at the peak: 2 GB for the largest grid."""
    body = ball(1, (0, 0, 1), 3)
    tracemalloc.start()
    grid = finish(closed(finish(grid_of(body, 0.025, 0.5)), 0.3))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak / grid.distance.size < 50


def test_progress_goes_up_to_the_end():
    shares = [step.share for step in grid_of(ball(1, (0, 0, 1)), 0.1, 0.1)]
    assert shares == sorted(shares)
    assert 0 <= shares[0] <= shares[-1] == 1
