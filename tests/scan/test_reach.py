"""What can leave along which direction: draft, a table-top in the way, the board, and another library's rays."""

from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from math import radians

import numpy as np
import pytest
import trimesh

from moldcalc.scan.directions import directions
from moldcalc.scan.outside import outside
from moldcalc.scan.progress import finish
from moldcalc.scan.reach import field_of, reach, sample
from tests.scan.formulas import box, grid, sphere, together, torus

UP, SIDEWAYS = np.array([[0.0, 0.0, 1.0]]), np.array([[1.0, 0.0, 0.0]])


@pytest.fixture(scope="module")
def ball():
    made = grid(sphere(0.2, (0, 0, 0.25)), (-0.2, -0.2, 0.05), (0.2, 0.2, 0.45), 0.01)
    return outside(made), made


@pytest.mark.parametrize(("draft", "share"), [(0, 0.5), (3, (1 - np.sin(radians(3))) / 2), (30, 0.25)])
def test_the_share_of_a_free_sphere_that_leaves(ball, draft, share):
    surface, made = ball
    free = finish(reach(surface.centres, surface.normals, field_of(made), UP, radians(draft)))[0]
    # Archimedes: the cap above the latitude has (1 - sin)/2 of the area; a row of faces is half a cell of height
    assert surface.areas[free].sum() / surface.area == pytest.approx(share, abs=0.01 / 0.4)


def test_the_board_is_in_the_way_of_what_goes_down(ball):
    surface, made = ball
    assert not finish(reach(surface.centres, surface.normals, field_of(made), -UP, 0.0)).any()
    assert finish(reach(surface.centres, surface.normals, field_of(made, board=False), -UP, 0.0)).mean() > 0.4


def test_a_floor_under_a_table_top_is_blocked_upward_and_free_sideways():
    """The local test passes (the normal is the pull itself), the way out does not: shell-and-handling case S7.20, a logic test."""
    made = grid(together(box((0.2, 0.1, 0.02), (0, 0, 0.02)), box((0.02, 0.1, 0.1), (-0.18, 0, 0.14)), box((0.2, 0.1, 0.02), (0, 0, 0.25))),
                (-0.2, -0.1, 0), (0.2, 0.1, 0.27), 0.01)
    surface, body = outside(made), field_of(made)
    x, y, z = abs(surface.centres.T)
    floor = (surface.normals[:, 2] > 0.99) & (z < 0.06) & (x < 0.14) & (y < 0.08)
    assert floor.sum() > 100
    assert not finish(reach(surface.centres[floor], surface.normals[floor], body, UP, 0.0)).any()
    out = np.array([[np.cos(radians(10)), 0, np.sin(radians(10))]])
    far = floor & (surface.centres[:, 0] > 0)
    assert finish(reach(surface.centres[far], surface.normals[far], body, out, radians(5))).all()


def test_it_agrees_with_rays_of_another_library():
    """trimesh 5 against the same triangles, from half a cell off: the two may differ only where a ray grazes."""
    made = grid(together(torus(0.15, 0.06, (0, 0, 0.06)), sphere(0.08, (0, 0, 0.25))), (-0.21, -0.21, 0), (0.21, 0.21, 0.33), 0.01)
    surface = outside(made)
    table = directions(3)
    table = table[table[:, 2] >= 0]
    free = finish(reach(surface.centres, surface.normals, field_of(made), table, radians(2)))
    mesh = trimesh.Trimesh(surface.vertices, surface.faces, process=False)
    for along, ours in zip(table, free, strict=True):
        asked = np.flatnonzero(surface.normals @ along >= np.sin(radians(2)))[::7]
        starts = surface.centres[asked] + 0.5 * surface.cell * surface.normals[asked]
        hit = mesh.ray.intersects_any(starts, np.repeat(along[None], len(asked), axis=0))
        assert not (ours[asked] & hit).any()
        assert (~ours[asked] & ~hit).mean() < 0.06, "a band one cell wide round every shadow"


def test_executors_give_the_same_answer(ball):
    surface, made = ball
    few = sample(surface.centres, surface.areas, 300)
    asked = surface.centres[few], surface.normals[few], field_of(made), directions(3), radians(2)
    alone = finish(reach(*asked))
    with ThreadPoolExecutor(2) as pool:
        assert (finish(reach(*asked, executor=pool)) == alone).all()
    with ProcessPoolExecutor(1) as pool:
        assert (finish(reach(*asked, executor=pool)) == alone).all()


def test_a_cluster_gives_the_same_answer(ball):
    distributed = pytest.importorskip("dask.distributed")
    surface, made = ball
    few = sample(surface.centres, surface.areas, 300)
    asked = surface.centres[few], surface.normals[few], field_of(made), directions(3), radians(2)
    with distributed.LocalCluster(n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None) as cluster, \
            distributed.Client(cluster) as client:
        assert (finish(reach(*asked, executor=client.get_executor())) == finish(reach(*asked))).all()


def test_a_sample_is_spread_over_the_area(ball):
    surface, _ = ball
    few = sample(surface.centres, surface.areas, 1000)
    assert len(np.unique(few)) == len(few) > 990
    assert surface.normals[few].mean(axis=0) == pytest.approx(0, abs=0.01)
