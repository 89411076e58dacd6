"""The demo scan: the stored mesh is what its script makes, and as large as the shape it came from."""

import runpy
import zipfile
from math import sqrt
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
import trimesh

from tests.tables import within

FOLDER = Path(__file__).parents[2] / "data" / "scans"


@pytest.fixture(scope="module")
def script():
    # run, not imported: an import would leave its compiled copy among the data
    return SimpleNamespace(**runpy.run_path(str(FOLDER / "make_hare.py")))


@pytest.fixture(scope="module")
def stored():
    return trimesh.load(FOLDER / "hare.3mf", force="mesh")


def sized(vertices, faces):
    """Area without base, area of the base, volume."""
    mesh = trimesh.Trimesh(vertices, faces, process=False)
    base = (np.abs(mesh.triangles[:, :, 2]) < 1e-9).all(axis=1)
    return mesh.area_faces[~base].sum(), mesh.area_faces[base].sum(), mesh.volume


def test_stored_mesh_is_sound(stored):
    assert stored.units == "millimeter"
    assert 95_000 <= len(stored.faces) <= 105_000
    assert stored.is_watertight
    assert stored.is_winding_consistent
    assert stored.volume > 0
    assert (stored.body_count, stored.euler_number) == (1, 2)
    assert stored.area_faces.min() > 0
    assert stored.bounds[0][2] == 0
    assert (FOLDER / "hare.3mf").stat().st_size < 1_500_000


def test_stored_mesh_is_as_large_as_the_job_says(stored):
    """1.09 m long (front to back), 0.43 m wide, 0.525 m high with its fur: the demo job."""
    assert stored.extents == pytest.approx([430, 1090, 525], abs=5)


@pytest.mark.parametrize("cell", [0.012])
def test_script_makes_the_stored_mesh(script, stored, cell):
    """At a coarser cell, which loses some of the fur's relief: area to 4 %, volume to 1 %."""
    area, base, held = sized(*script.meshed(cell))
    full, full_base, full_volume = sized(stored.vertices / 1000, stored.faces)
    assert area == within(full, 0.04)
    assert base == within(full_base, 0.02)
    assert held == within(full_volume, 0.01)


def test_stored_corners_lie_on_the_shape(script, stored):
    """Every 20th corner, to the rounding of the file, or to half a cell where a crease is finer than the net."""
    x, y, z = stored.vertices[::20].T / 1000
    some = np.stack([-y, x, z], axis=-1)  # the script's own axes: the nose to +x
    value = np.abs(script.standing(some))
    assert np.median(value) < 1e-4
    assert np.quantile(value, 0.95) < 1e-3
    assert value.max() < script.CELL


def test_volume_by_random_points(script, stored):
    """The shape itself, counted at random points in a box: within three standard errors of the mesh."""
    rng = np.random.default_rng(11)
    count, size = 200_000, script.HIGH - script.LOW
    share = np.mean(script.standing(script.LOW + size * rng.random((count, 3))) < 0)
    found, error = share * size.prod(), sqrt(share * (1 - share) / count) * size.prod()
    assert stored.volume / 1e9 == within(found, 0, 3 * error)


def test_area_by_random_points(script, stored):
    """Random points within 1.5 mm of the shape, by its value over its slope: within three standard errors, and 2 % for what
    the net's chords cut off its relief."""
    rng = np.random.default_rng(12)
    count, size, reach = 300_000, script.HIGH - script.LOW, 0.0015
    points = script.LOW + size * rng.random((count, 3))
    value = script.hare(points)
    near = np.abs(value) < 0.01
    steep = np.linalg.norm(script.slope(script.hare, points[near]), axis=-1)
    share = np.count_nonzero(np.abs(value[near]) < reach * steep) / count
    found, error = share * size.prod() / (2 * reach), sqrt(share / count) * size.prod() / (2 * reach)
    area, _, _ = sized(stored.vertices / 1000, stored.faces)
    assert area == within(found, 0, 3 * error + 0.02 * found)


def test_written_file_is_always_the_same(script, tmp_path):
    corners, faces = script.meshed(0.03)
    for name in ("one.3mf", "two.3mf"):
        script.written(tmp_path / name, corners, faces)
    assert (tmp_path / "one.3mf").read_bytes() == (tmp_path / "two.3mf").read_bytes()
    assert trimesh.load(tmp_path / "one.3mf", force="mesh").volume / 1e9 == within(sized(corners, faces)[2], 1e-3)


def test_file_is_a_plain_3mf():
    with zipfile.ZipFile(FOLDER / "hare.3mf") as file:
        assert sorted(file.namelist()) == ["3D/3dmodel.model", "[Content_Types].xml", "_rels/.rels"]
        assert b'unit="millimeter"' in file.read("3D/3dmodel.model")[:200]
