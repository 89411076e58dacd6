"""Area and volume of meshes that nobody here made, computed with three programs (own sums, trimesh, pymeshlab) to all printed digits."""

import numpy as np
import pytest
import trimesh

from moldcalc.scan.body import Body
from moldcalc.scan.measuring import measure
from moldcalc.scan.progress import finish
from moldcalc.scan.reading import placed, read_scan, unit_guess, unit_question
from tests.scan.meshes import bunny, shipped, teapot
from tests.tables import printed, within

ENTRIES = {"flange_width": 0.05, "wall": 0.02, "base_tolerance": 0.0}
COMPUTED = "computed, three programs"


def written(folder, mesh, name="mesh.ply"):
    """A mesh as a file; its points in double precision where the format has them."""
    path = folder / name
    if path.suffix == ".obj":
        lines = [f"v {x!r} {y!r} {z!r}" for x, y, z in np.asarray(mesh[0]).tolist()] + [f"f {a + 1} {b + 1} {c + 1}" for a, b, c in mesh[1].tolist()]
        path.write_text("\n".join(lines))
    else:
        trimesh.Trimesh(*mesh, process=False).export(path)
    return path


def sized(path):
    """A scan and its size, as if its units were metres."""
    scan = finish(read_scan(path))
    low = scan.vertices.min(axis=0)
    body = Body(scan.vertices - [0, 0, low[2]], scan.faces)
    return scan, finish(measure(body, closed=scan.closed, consistent=scan.consistent, **ENTRIES | {"wall": min(10.0, max(scan.extents) / 50)}))


@pytest.mark.parametrize("kind", ["stl", "obj", "ply", "off", "glb", "3mf"])
def test_box_in_every_format(tmp_path, kind):
    """Exact: 1 x 2 x 3."""
    mesh = trimesh.creation.box((1, 2, 3))
    mesh.export(tmp_path / f"box.{kind}")
    scan, size = sized(tmp_path / f"box.{kind}")
    assert scan.closed and scan.consistent and scan.bodies == 1
    assert size.area_whole == within(22, 1e-6)
    assert size.volume.likely == within(6, 1e-6)
    assert scan.unit_in_file == {"3mf": "mm", "glb": "m"}.get(kind)


CLOSED = [
    # mesh      area          volume        bodies  Euler number  extents                              source
    ("bunny", "218.689271", "194.288372", 1, 2, ("9.90732", "9.65790", "7.54047"), COMPUTED + "; genus 0"),
    ("nut", "8977.64907", "32171.3222", 1, 0, ("46.0375", "28.9306", "46.0375"), COMPUTED + "; genus 1"),
    ("ant", "904.898446", "482.143628", 15, None, ("32.02", "18.77", "33.56"), COMPUTED + "; 15 bodies, any overlaps counted twice"),
    ("sphere", "200887.719", "8425174", 1, 2, ("251", "253", "254"), COMPUTED),
]


@pytest.mark.parametrize(("name", "area", "volume", "bodies", "euler", "extents", "source"), CLOSED)
def test_closed_meshes(tmp_path, name, area, volume, bodies, euler, extents, source):
    scan, size = sized(written(tmp_path, bunny(), "bunny.obj") if name == "bunny" else shipped(name))
    assert scan.closed and scan.consistent
    assert scan.bodies == size.bodies == bodies
    assert size.area_whole == printed(area), source
    assert size.volume.likely == printed(volume), source
    assert euler is None or size.euler_number == euler
    # extents are printed cut or rounded, so one unit of the last digit
    assert scan.extents == pytest.approx([float(e) for e in extents], abs=10.0 ** -len(extents[0].partition(".")[2]) * 1.01)


def test_bodies_that_may_overlap_are_said():
    scan, size = sized(shipped("ant"))
    assert "it is 15 separate bodies" in scan.notes
    assert any("counted twice" in note for note in scan.notes)
    assert size.volume.low < size.volume.likely


OPEN = [
    # mesh       area           open edges  bodies  source
    ("teapot", "1288.83868", 64, 3, COMPUTED + "; 64 open edges once equal points are one, 528 before"),
    ("airplane", "1053911.45", None, None, COMPUTED),
]


@pytest.mark.parametrize(("name", "area", "open_edges", "bodies", "source"), OPEN)
def test_open_meshes_have_an_area_and_no_volume(tmp_path, name, area, open_edges, bodies, source):
    scan, size = sized(written(tmp_path, teapot(), "teapot.obj") if name == "teapot" else shipped(name))
    assert not scan.closed
    assert size.area_whole == printed(area), source
    assert size.volume is None and size.no_volume
    assert size.grown(0.1)[1] is None
    if open_edges:
        assert (scan.open_edges, scan.bodies) == (open_edges, bodies), source
        assert "its area counts, a volume does not" in " ".join(scan.notes)


def test_convex_hull(tmp_path):
    """Computed, three programs: the hull of the scanned figure."""
    hull = trimesh.Trimesh(*bunny()).convex_hull
    _, size = sized(written(tmp_path, (hull.vertices, hull.faces), "hull.obj"))
    assert size.area_whole == printed("247.477208")
    assert size.volume.likely == printed("308.151183")
    assert size.curvature == printed("59.974112")
    assert size.curvature == within(size.whole.curvature_upper, 1e-9)


def test_scaled_to_its_place(tmp_path):
    """Computed by similarity: 1.10 m along its longest extent (9.907325)."""
    vertices, faces = bunny()
    path = written(tmp_path, (vertices * (1.10 / 9.907325), faces), "bunny.obj")
    scan = finish(read_scan(path))
    size = finish(measure(placed(scan, "m", up="+y"), closed=True, consistent=True, **ENTRIES))
    assert size.area_whole == within(2.695877, 1e-6)
    assert size.volume.likely == within(0.2659228, 1e-6)
    assert max(size.extents) == within(1.10, 1e-6)
    assert size.extents[2] == within(9.65790 * 1.10 / 9.907325, 1e-5)


def test_inches_taken_for_millimetres(tmp_path):
    """Run: a ball of r 10 (1 280 facets, A 1250.649, V 4152.741) divided by 25.4; the stated height has to raise the question."""
    mesh = trimesh.creation.icosphere(subdivisions=3, radius=10 / 25.4)
    mesh.export(tmp_path / "ball.stl")
    scan, size = sized(tmp_path / "ball.stl")
    assert size.area_whole == within(1.93851, 1e-5)
    assert size.volume.likely == within(0.253416, 1e-5)
    assert unit_guess(scan.extents, 0.020) == "in"
    assert unit_question(scan, "in", 0.020) is None
    assert "25.4 times that: it fits in" in unit_question(scan, "mm", 0.020)


def test_one_way_of_writing_agrees_with_another_program(tmp_path):
    """Run: admesh gives 4152.744 for the ball of r 10, single precision; the sums give 4152.74."""
    trimesh.creation.icosphere(subdivisions=3, radius=10.0).export(tmp_path / "ball.stl")
    _, size = sized(tmp_path / "ball.stl")
    assert size.volume.likely == within(4152.744, 1e-6)
    assert size.area_whole == printed("1250.65")
