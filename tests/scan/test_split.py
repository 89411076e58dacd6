"""The whole chain on shapes whose answer is known, by hand, and asked of another library's rays."""

from math import radians

import numpy as np
import pytest

from moldcalc.errors import EntryError
from moldcalc.scan.progress import finish
from moldcalc.scan.split import split, trade_of, with_faces, with_pull
from tests.scan.formulas import box, cut_off, grid, sphere, together, torus, turned

CELL = 0.015


def l_prism(p):
    return np.maximum(box((0.15, 0.15, 0.2))(p), -box((0.2, 0.2, 0.5), (0.15, 0.15, 0))(p))


# A seam on a sharp edge runs through a strip one or two cells wide in which the grid has rounded the edge: so much may be left over.
# name, formula, half extents, on a board, draft in degrees, share left over, pulls, source (shell-and-handling section 7)
KNOWN = [
    ("cube", box((0.15,) * 3), (0.15,) * 3, False, 5, 0.05, 2, "S7.10: two pieces of three faces each"),
    ("sphere at no draft", sphere(0.2), (0.2,) * 3, False, 0, 0.02, 2, "two hemispheres; a row of faces is 2 % of the area"),
    ("sphere at 8 degrees", sphere(0.2), (0.2,) * 3, False, 8, 0.0, 4, "S7.12: three caps leave two holes, four do up to 19.47"),
    ("torus", torus(0.2, 0.07), (0.27, 0.27, 0.07), False, 0, 0.02, 2, "S7.13"),
    ("L-prism, ends with it", l_prism, (0.15, 0.15, 0.2), False, 5, 0.05, 2, "S7.15: three faces and three, split at opposite corners"),
]


@pytest.mark.parametrize(("name", "formula", "half", "board", "draft", "share", "pulls", "source"), KNOWN)
def test_known_numbers(name, formula, half, board, draft, share, pulls, source):
    made = finish(split(grid(formula, -np.array(half), half, CELL), least_draft=radians(draft), leftover_share=share, board=board, seconds=60))
    assert len(made.cover.chosen) == pulls, source
    assert made.bound == pulls and made.proven
    assert made.leftover_share < share + 0.02, "the places are a sample and the borders are made short"
    assert {section.number for section in made.sections} == set(range(1, len(made.sections) + 1))
    assert sum(section.area for section in made.sections) == pytest.approx(made.surface.area)


def test_a_dome_on_a_board_is_one_section_pulled_up():
    made = finish(split(grid(cut_off(sphere(0.2)), (-0.2, -0.2, 0), (0.2, 0.2, 0.2), 0.01), least_draft=0, leftover_share=0.0))
    assert len(made.sections) == 1
    assert made.proven
    assert made.sections[0].pull == pytest.approx((0, 0, 1))
    assert made.sections[0].touches == {}
    assert made.sections[0].foot == pytest.approx(2 * np.pi * 0.2, rel=0.05), "the zigzag of the triangles smoothed out"


def test_the_two_pieces_of_a_cube_have_35_degrees_away_from_their_edges():
    made = finish(split(grid(box((0.15,) * 3), (-0.15,) * 3, (0.15,) * 3, 0.01), least_draft=radians(5), leftover_share=0.05, board=False))
    assert len(made.sections) == 2
    pulls = np.array([section.pull for section in made.sections])
    slopes = np.einsum("ij,ij->i", made.surface.normals, pulls[made.homes - 1])
    # four cells from the edges, where the blur doesn't reach
    inner = (np.sort(np.abs(made.surface.centres), axis=1)[:, :2] < 0.11).all(axis=1)
    # S7.10, 35.2644 degrees at the corner diagonals; the nearest pair of the table may be half its spacing of 10 degrees off
    assert np.degrees(np.arcsin(slopes[inner].min())) == pytest.approx(35.26, abs=5)


@pytest.fixture(scope="module")
def mushroom():
    """A cap on a stem on a board: the underside is the trouble."""
    body = together(sphere(0.12, (0, 0, 0.26)), box((0.06, 0.06, 0.2), (0, 0, 0.1)))
    return finish(split(grid(cut_off(body), (-0.12, -0.12, 0), (0.12, 0.12, 0.38), CELL), least_draft=radians(2), leftover_share=0.02))


def test_each_section_is_in_one_piece_and_says_whom_it_touches(mushroom):
    from moldcalc.scan.regions import pieces

    assert len(np.unique(pieces(mushroom.homes, mushroom.surface.pairs))) == len(mushroom.sections)
    for section in mushroom.sections:
        for other, length in section.touches.items():
            assert mushroom.sections[other - 1].touches[section.number] == length > 0
        assert section.flange_area(0.05) == pytest.approx(0.05 * section.joint)
        assert section.least_draft >= radians(2) - 1e-3
        assert section.fill_low <= section.fill_volume <= section.fill_high
        assert section.leftover_area == pytest.approx(mushroom.surface.areas[mushroom.locked(section.number)].sum())


def test_a_pull_turned_by_hand_says_what_locks(mushroom):
    down = with_pull(mushroom, 1, (0, 0, -1))
    assert down.sections[0].leftover_area == pytest.approx(down.sections[0].area)
    back = with_pull(down, 1, mushroom.sections[0].pull)
    assert back.leftover_share == pytest.approx(mushroom.leftover_share, abs=0.02)


def test_a_border_moved_by_hand_is_checked_at_once(mushroom):
    other = mushroom.sections[0].touches
    number = next(iter(other))
    taken = np.flatnonzero(mushroom.homes == number)[:50]
    moved = with_faces(mushroom, taken, 1)
    assert (moved.homes[taken] == 1).all()
    assert moved.sections[0].area == pytest.approx(mushroom.sections[0].area + mushroom.surface.areas[taken].sum())


def test_paste_under_a_sphere_on_the_floor_pulled_up():
    """Shadow fill pi r³/3 without draft (geometry-and-shop G5.13, exact): one section, its pull named; S7.18 with 3 degrees."""
    r = 0.2
    body = grid(sphere(r, (0, 0, r)), (-0.25, -0.25, 0), (0.25, 0.25, 2 * r), 0.01)
    for draft, litres in [(0.0, 1000 * np.pi * r**3 / 3), (3.0, 33.0405 * (r / 0.3) ** 3)]:
        made = finish(split(body, least_draft=radians(draft), leftover_share=0.6, pulls=[np.array([0, 0, 1.0])], sections=1))
        only = made.sections[0]
        assert len(made.sections) == 1
        assert 1000 * only.fill_low <= litres <= 1000 * only.fill_high
        # half a cell of the fill's free side, a cylinder 2 pi r by r
        assert 1000 * only.fill_volume == pytest.approx(litres, abs=1000 * 0.005 * 2 * np.pi * r * r)


def test_named_pulls_are_used(mushroom):
    named = np.array([0.0, 1.0, 0.2])
    made = finish(split(mushroom.grid, least_draft=radians(2), leftover_share=0.02, pulls=[named]))
    assert 0 in made.cover.chosen
    assert any(section.pull == pytest.approx(tuple(named / np.linalg.norm(named))) for section in made.sections)


def test_the_trade_from_the_bound_on(mushroom):
    points = finish(trade_of(mushroom, more=2, seconds=5))
    assert [point.asked for point in points] == [mushroom.bound + i for i in range(3)]
    left = [point.leftover_share for point in points]
    assert left[0] >= left[1] - 1e-5 >= left[2] - 2e-5
    for point in points:
        assert point.leftover_at_least <= point.leftover_share + 1e-6
        assert point.fill_volume >= 0
        assert point.joint > 0


@pytest.mark.parametrize(("entries", "says"), [
    ({"least_draft": 2.0, "leftover_share": 0.0}, "the least draft is 115 degrees"),
    ({"least_draft": 0.0, "leftover_share": -0.1}, "the share left over is -0.1"),
    ({"least_draft": 0.0, "leftover_share": 0.0, "pulls": [(0, 0, 0)]}, "the pull is"),
])
def test_an_impossible_entry_is_named(entries, says):
    with pytest.raises(EntryError, match=says):
        finish(split(grid(sphere(0.1), (-0.1,) * 3, (0.1,) * 3, 0.02), board=False, **entries))


@pytest.mark.parametrize("number", [0, 99])
def test_a_section_that_is_not_there_is_named(mushroom, number):
    with pytest.raises(EntryError, match=f"the section is {number}"):
        with_pull(mushroom, number, (0, 0, 1))


@pytest.mark.parametrize("seed", range(4))
def test_every_section_of_a_scanned_figure_leaves(seed):
    """trimesh's rays against the scan itself, not the grid; 300 orientations are in tests/benchmarks/split_bunny.py."""
    from moldcalc.scan.grid import grid_of
    from tests.benchmarks.split_bunny import blocked, in_paste
    from tests.benchmarks.split_bunny import turned as stood
    from tests.scan.meshes import bunny

    body = stood(*bunny(), seed)
    made = finish(split(finish(grid_of(body, 0.03, 0.09)), least_draft=radians(2), leftover_share=0.02, seconds=3))
    assert max(blocked(made, body).values()) == 0
    assert max(in_paste(made).values()) == 0


def test_a_turned_body_needs_as_many():
    from scipy.spatial.transform import Rotation

    turn = Rotation.random(random_state=3).as_matrix()
    made = finish(split(grid(turned(torus(0.2, 0.08), turn), (-0.28,) * 3, (0.28,) * 3, CELL), least_draft=0, leftover_share=0.03, board=False))
    assert len(made.cover.chosen) == 2
