"""Pockets: where paste goes, how much, and which is which."""

from math import pi, sqrt

import numpy as np
import pytest

from moldcalc.errors import EntryError
from moldcalc.scan.body import Grid
from moldcalc.scan.grid import closed, grid_of, solid, volume
from moldcalc.scan.pockets import filled, find_pockets
from moldcalc.scan.progress import finish
from moldcalc.stages.paste import blind_hole_fill
from tests.scan.bodies import ball, box, together
from tests.tables import within

H = 0.002


def block(*holes, h=H):
    """A block of 160 by 100 by 60 mm on the board, with round holes from above: place, radius, depth."""
    low, high = np.array([-0.1, -0.07, -0.02]), np.array([0.1, 0.07, 0.08])
    count = np.round((high - low) / h).astype(int)
    x, y, z = np.meshgrid(*[low[i] + h * (np.arange(count[i]) + 0.5) for i in range(3)], indexing="ij")
    inside = (np.abs(x) < 0.08) & (np.abs(y) < 0.05) & (z > 0) & (z < 0.06)
    for place, radius, depth in holes:
        inside &= ~(((x - place[0]) ** 2 + (y - place[1]) ** 2 < radius**2) & (z > 0.06 - depth))
    return solid(inside, low + h / 2, h)


TWO = [((-0.04, 0), 0.012, 0.03), ((0.03, 0.01), 0.016, 0.04)]


def drilled(radius, depth, h):
    """A block of 60 by 60 by 60 mm with a hole in the middle, as exact distances outside it."""
    low, count = np.array([-0.05, -0.05, -0.02]), np.round(np.array([0.1, 0.1, 0.1]) / h).astype(int)
    x, y, z = np.meshgrid(*[low[i] + h * (np.arange(count[i]) + 0.5) for i in range(3)], indexing="ij")
    over = np.stack([np.abs(x) - 0.03, np.abs(y) - 0.03, np.abs(z - 0.03) - 0.03])
    solid_block = np.linalg.norm(np.maximum(over, 0), axis=0) + np.minimum(over.max(axis=0), 0)
    wall = radius - np.hypot(x, y)
    above = np.where((wall > 0) & (z > 0.06), np.hypot(wall, z - 0.06), solid_block)
    hole = np.minimum(wall, z - (0.06 - depth))
    return Grid(low + h / 2, h, np.where(z < 0.06, np.maximum(solid_block, hole), above).astype(np.float32))


@pytest.fixture(scope="module")
def two():
    grid = block(*TWO)
    return grid, finish(find_pockets(grid, wall=0.0, radius=0.02, least_volume=2e-6))


def test_largest_first_with_its_measures(two):
    _, found = two
    assert [pocket.number for pocket in found.pockets] == [1, 2]
    for pocket, (place, radius, depth) in zip(found.pockets, reversed(TWO), strict=True):
        exact = blind_hole_fill.si(hole_radius=radius, depth=depth, radius=0.02)
        assert pocket.low <= exact <= pocket.high, "closed form"
        assert pocket.low < pocket.likely < pocket.high
        assert pocket.high - pocket.likely == within(H * pocket.free_area, 1e-9)
        sag = 0.02 - sqrt(0.02**2 - radius**2)
        assert pocket.free_area == within(2 * pi * 0.02 * sag, 0.2), "cap of the ball"
        assert pocket.depth == within(depth - sag, 0, H), "from the ball's lowest point to the floor, straight down"
        # the centre nearest the axis may lie 0.87 of a cell off it, and walls of cells half a cell off the hole's
        assert pocket.half_width == within(radius, 0, 1.37 * H)
        assert pocket.neck == within(2 * radius, 0, 2 * 1.37 * H)
        assert pocket.centroid[:2] == pytest.approx(place, abs=H)
        assert pocket.mouth[:2] == pytest.approx(place, abs=2 * H)
        assert 0.06 - sag - 2 * H < pocket.mouth[2] < 0.06


def test_cells_are_those_of_the_grid(two):
    grid, found = two
    for pocket in found.pockets:
        assert len(pocket.cells) * H**3 == within(pocket.likely, 1e-9)
        assert not grid.inside.reshape(-1)[pocket.cells].any()
        middle = found.laid.origin + H * np.mean(np.unravel_index(pocket.cells, grid.distance.shape), axis=1)
        assert middle == pytest.approx(pocket.centroid, abs=1e-9)


def test_corner_at_the_board_is_counted_apart(two):
    _, found = two
    # four straight walls; round the four corners it gets no more than a quarter circle of radius r each
    exact = (1 - pi / 4) * 0.02**2 * 2 * (0.16 + 0.1)
    assert found.fillet == within(exact, 0, 0.9 * H * 0.02 * pi / 2 * 2 * (0.16 + 0.1) + 4e-7), "elementary; the band of closing"
    assert all(pocket.centroid[2] > 0.02 for pocket in found.pockets)


def test_below_the_least_volume_it_is_a_small_fold(two):
    grid, found = two
    one = finish(find_pockets(grid, wall=0.0, radius=0.02, least_volume=found.pockets[1].likely * 1.01))
    assert len(one.pockets) == 1
    assert one.small - found.small == within(found.pockets[1].likely, 1e-9)
    assert one.likely == within(found.pockets[0].likely, 1e-9)


def test_skin_makes_a_pocket_smaller(two):
    grid, found = two
    laid = finish(find_pockets(grid, wall=0.006, radius=0.02, least_volume=1e-7))
    assert sum(pocket.likely for pocket in laid.pockets) < found.likely
    exact = [blind_hole_fill.si(hole_radius=radius - 0.006, depth=depth, radius=0.02) for _, radius, depth in reversed(TWO)]
    assert [pocket.likely for pocket in laid.pockets[:2]] == pytest.approx(exact, abs=2 * H * pi * 0.02**2), "the hole as wide as the skin leaves it"
    assert volume(laid.laid) > volume(grid)


@pytest.mark.parametrize(("radius", "said", "nearly"), [(0.0125, True, 0), (0.02, False, 0), (0.0111, False, 1), (0.008, False, 0)])
def test_all_or_nothing(radius, said, nearly):
    """A hole of 12 mm radius: a ball of 12.5 mm fills it, but only just; one of 11.1 mm leaves it, but only just."""
    found = finish(find_pockets(drilled(0.012, 0.03, 0.001), wall=0.0, radius=radius, least_volume=5e-6))
    assert [pocket.all_or_nothing for pocket in found.pockets] == ([said] if radius > 0.012 else [])
    assert found.nearly == () or nearly
    assert len(found.nearly) == nearly
    for hollow in found.nearly:
        assert hollow.half_width == within(0.012, 0, 0.001)
        assert hollow.centroid[:2] == pytest.approx((0, 0), abs=0.001)


def test_filled_takes_only_the_ticked(two):
    grid, found = two
    first = filled(grid, found, [1])
    assert first.inside.reshape(-1)[found.pockets[0].cells].all()
    assert not first.inside.reshape(-1)[found.pockets[1].cells].any()
    both, none = filled(grid, found, [2, 1]), filled(grid, found, [])
    assert volume(both) - volume(none) == within(found.likely, 0.05)
    assert not none.inside[:, :, :10].any(), "nothing below the board"
    assert np.array_equal(none.inside, grid.inside)


@pytest.mark.parametrize("numbers", [[3], [0], [1, 9]])
def test_a_number_no_pocket_has(two, numbers):
    grid, found = two
    with pytest.raises(EntryError, match=r"pocket is \d; there are 2, numbered from 1"):
        filled(grid, found, numbers)


def test_another_grid_is_refused(two):
    _, found = two
    with pytest.raises(EntryError, match="not the one the pockets were found on"):
        filled(block(h=0.004), found, [1])


@pytest.mark.parametrize(("entries", "says"), [
    ({"wall": -0.001}, "wall is -0.001; it must be at least 0"),
    ({"radius": 0.0}, "radius is 0 m; it must be above 0"),
    ({"radius": float("inf")}, "radius is inf m"),
    ({"least_volume": -1.0}, "least volume is -1; it must be at least 0"),
    ({"radius": 10.0}, "million cells with the air for the ball; it must be at most 40 million"),
])
def test_entries_that_cannot_be(entries, says):
    with pytest.raises(EntryError, match=says):
        finish(find_pockets(block(h=0.01), **{"wall": 0.0, "radius": 0.02, "least_volume": 1e-6} | entries))


def test_coarse_cells_are_said():
    assert "are coarse for a ball of 20 mm: take 2 mm or less" in finish(
        find_pockets(block(h=0.005), wall=0, radius=0.02, least_volume=1e-6)).said
    assert finish(find_pockets(block(h=0.002), wall=0, radius=0.02, least_volume=1e-6)).said == "Cells of 2 mm, 10 to the ball's radius."


def test_a_convex_body_has_none():
    found = finish(find_pockets(finish(grid_of(ball(0.1, (0, 0, 0.3)), 0.005, 0.02)), wall=0.006, radius=0.03, least_volume=1e-6))
    assert found.pockets == ()
    assert found.small < 0.05 * 0.005 * 4 * pi * 0.106**2, "a twentieth of a cell on its area"
    assert found.fillet == 0


def test_under_an_overhang_the_board_is_a_wall():
    """A table: slab on a stem, 30 mm above the board. A ball of 20 mm can't get under it, one of 10 mm can."""
    body = together(box((0.3, 0.3, 0.04), (0, 0, 0.05)), box((0.06, 0.06, 0.06), (0, 0, 0.03)))
    grid = finish(grid_of(body, 0.005, 0.02))
    wide = finish(find_pockets(grid, wall=0.0, radius=0.02, least_volume=1e-4))
    assert len(wide.pockets) == 1
    under = 0.03 * (0.3**2 - 0.06**2)
    assert 0.7 * under < wide.pockets[0].likely < under, "all but what the ball reaches from the rim"
    assert wide.pockets[0].half_width == within(0.015, 0, 0.0026), "half of what is between slab and board"
    assert finish(find_pockets(grid, wall=0.0, radius=0.01, least_volume=1e-4)).pockets == ()


def test_pockets_of_a_moved_body_are_the_same():
    one = finish(find_pockets(block(*TWO, h=0.004), wall=0.002, radius=0.02, least_volume=1e-6))
    grid = block(*TWO, h=0.004)
    moved = Grid(grid.origin + np.array([0.008, -0.004, 0]), grid.cell, grid.distance)
    two_ = finish(find_pockets(moved, wall=0.002, radius=0.02, least_volume=1e-6))
    assert [p.likely for p in one.pockets] == pytest.approx([p.likely for p in two_.pockets], rel=1e-9)


def test_nothing_is_lost():
    """Pockets, small folds and the corner at the board are all that closing adds."""
    grid = block(*TWO, h=0.004)
    found = finish(find_pockets(grid, wall=0.0, radius=0.02, least_volume=1e-6))
    added = finish(closed(grid, 0.02, board=True)).inside & ~grid.inside
    assert found.likely + found.small + found.fillet == within(np.count_nonzero(added) * 0.004**3, 0.01)
