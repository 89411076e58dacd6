"""Every way in which a scan's file breaks quietly ends in its own sentence or its own note."""

import gzip
import io
import json
import struct
import zipfile

import numpy as np
import pytest
import trimesh
from trimesh.exchange.stl import export_stl_ascii

from moldcalc.errors import EntryError, FileError, MissingError
from moldcalc.scan import mending, reading, source, stl
from moldcalc.scan.measuring import measure
from moldcalc.scan.progress import Progress, finish
from moldcalc.scan.reading import UNITS, decimated, placed, read_scan, unit_candidates, unit_guess, unit_question

BALL = trimesh.creation.icosphere(subdivisions=3, radius=10.0)
TRUE_AREA, TRUE_VOLUME = 1250.65, 4152.74
BINARY = BALL.export(file_type="stl")
TEXT = export_stl_ascii(BALL).encode()
FACET = 50


def read(folder, name, data):
    path = folder / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return finish(read_scan(path))


def refused(folder, name, data) -> str:
    with pytest.raises(FileError) as caught:
        read(folder, name, data)
    text = str(caught.value)
    assert text.startswith(name) and text.endswith(".") and "\n" not in text
    return text


def size_of(scan):
    return finish(measure(placed(scan, "mm"), closed=scan.closed, consistent=scan.consistent, flange_width=0.01, wall=0.001))


def binary(corners) -> bytes:
    facets = np.zeros(len(corners), [("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
    facets["corners"] = corners
    return bytes(80) + struct.pack("<I", len(corners)) + facets.tobytes()


def corners() -> np.ndarray:
    return np.array(BALL.triangles, np.float32)


QUIET = [
    # what, name, content, what the sentence says
    ("cut in half", "a.stl", BINARY[: len(BINARY) // 2], "is shorter than its head says: 1 280 triangles take 64 084 bytes"),
    ("one byte short", "a.stl", BINARY[:-1], "is shorter than its head says"),
    ("head only", "a.stl", BINARY[:84], "is shorter than its head says"),
    ("trailing bytes", "a.stl", BINARY + b"more", "is longer than its head says"),
    ("count too low", "a.stl", BINARY[:80] + struct.pack("<I", 1000) + BINARY[84:], "is longer than its head says"),
    ("count of all ones", "a.stl", BINARY[:80] + b"\xff" * 4 + BINARY[84:], "4 294 967 295 triangles take"),
    ("ten bytes", "a.stl", b"\x01\x02\x03\0\0\0\0\0\0\0", "is only 10 bytes long"),
    ("no triangles", "a.stl", bytes(84), "has no triangles"),
    ("text cut in half", "a.stl", TEXT[: len(TEXT) // 2], "and has no end of its own"),
    ("text cut at a triangle", "a.stl", TEXT[: TEXT.index(b"endfacet", 5000) + 9], "has no end of its own ('endsolid')"),
    ("text without triangles", "a.stl", b"solid a\nendsolid a\n", "has no triangles"),
    ("text of half a triangle", "a.stl", TEXT.replace(b"outer loop", b"outer", 1), "has 1 of 1280 triangles that are not written as three corners"),
    ("web page", "a.stl", b"\xef\xbb\xbf <!DOCTYPE html><html><body>404</body></html>", "is a web page or XML, not an STL mesh"),
    ("plain text", "a.stl", b"This is a letter about a scan.\n" * 9, "is text, but no list of triangles"),
    ("empty", "a.stl", b"", "is empty"),
    ("decimal commas", "a.stl", TEXT.replace(b".", b","), "has numbers with a decimal comma"),
    ("no number in text", "a.stl", TEXT.replace(b"vertex 0.0", b"vertex zero", 1), "has 'zero' where a number should stand"),
    ("NaN in text", "a.stl", TEXT.replace(b"vertex 0.0", b"vertex nan", 1), "has 1 point whose coordinates are no finite numbers"),
    ("decimal commas", "a.obj", b"v 0,5 1,5 2,5\nv 1,5 1,5 2,5\nv 0,5 2,5 2,5\nf 1 2 3\n", "has numbers with a decimal comma ('0,5')"),
    ("only points", "a.obj", b"v 0 0 0\nv 1 0 0\n", "only 2 points; a cloud of points has no area"),
    ("a point that is not there", "a.obj", b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 4\n", "asks for a point that is not there"),
    ("a point before the first", "a.obj", b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 0 1 2\n", "asks for a point that is not there"),
    ("two corners", "a.obj", b"v 0 0 0\nv 1 0 0\nf 1 2\n", "has a polygon of fewer than three corners"),
    ("nothing in it", "a.obj", b"# a remark\n", "has no points as OBJ lists them"),
    ("all in one place", "a.obj", b"v 1 1 1\nv 1 1 1\nv 1 1 1\nf 1 2 3\n", "has all its points in one place"),
    ("no area", "a.obj", b"v 0 0 0\nv 1 1 1\nf 1 2 2\n", "has no triangle with an area"),
    ("a face short of corners", "a.off", b"OFF\n3 1 0\n0 0 0\n1 0 0\n0 1 0\n3 0 1\n", "has a face of fewer corners than it says"),
    ("fewer lines than said", "a.off", b"OFF\n3 2 0\n0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n", "says it has 3 points and 2 faces, and lists 3 and 1"),
    ("binary OFF", "a.off", b"OFF BINARY\n\0\0", "is a binary OFF file"),
    ("no OFF", "a.off", b"v 1 2 3\n", "does not begin with OFF"),
    ("no PLY", "a.ply", b"solid", "does not begin with 'ply'"),
    ("PLY head cut", "a.ply", b"ply\nformat ascii 1.0\nelement vertex 3\n", "has no end of its head"),
    ("no GLB", "a.glb", b"glTF", "does not begin as a GLB file does"),
    ("no 3MF", "a.3mf", b"PK\x03\x04 something", "can't be unpacked as a 3MF file"),
    ("not packed", "a.stl.gz", b"no gzip at all", "can't be unpacked"),
    ("packed and cut", "a.stl.gz", gzip.compress(BINARY)[:-40], "can't be unpacked: it is cut off"),
    ("another kind", "a.step", b"ISO-10303-21;", "is not a kind of scan that is read here"),
    ("no kind", "scan", b"x", "is not a kind of scan that is read here"),
]


@pytest.mark.parametrize(("what", "name", "data", "says"), QUIET, ids=[f"{row[0]} {row[1]}" for row in QUIET])
def test_what_breaks_quietly_elsewhere_has_its_sentence(tmp_path, what, name, data, says):
    assert says in refused(tmp_path, name, data)


@pytest.mark.parametrize("value", [np.nan, np.inf, -np.inf])
def test_a_coordinate_that_is_no_number_is_found(tmp_path, value):
    wrong = corners()
    wrong[6, 1, 2] = value
    assert "has 1 point whose coordinates are no finite numbers (the first in triangle 7)" in refused(tmp_path, "a.stl", binary(wrong))


@pytest.mark.parametrize("factor", [1e30, 1e6])
def test_a_scan_larger_than_anything_is_refused(tmp_path, factor):
    assert "has coordinates that can't be a scan's" in refused(tmp_path, "a.stl", binary(corners() * np.float32(factor)))


def test_a_folder_or_nothing_is_refused(tmp_path):
    (tmp_path / "b.stl").mkdir()
    for name in ("b.stl", "c.stl", "d\0.stl"):
        with pytest.raises(FileError, match=r"is not a file|can't be read"):
            finish(read_scan(tmp_path / name))


@pytest.mark.parametrize(("data", "name"), [
    (BINARY, "a.stl"), (b"solid" + BINARY[5:], "A.STL"), (TEXT, "b.stl"), (TEXT.replace(b"\n", b"\r\n"), "c.stl"), (b"\xef\xbb\xbf" + TEXT, "d.stl"),
    (TEXT.upper(), "e.stl"), (TEXT.replace(b"solid", b"mesh", 1).replace(b"endmesh", b"endsolid"), "f.stl"),
    (gzip.compress(BINARY), "g.stl.gz"), (BALL.export(file_type="obj"), "h.obj"), (BALL.export(file_type="off"), "i.off"),
    (BALL.export(file_type="ply"), "j.ply"), (trimesh.exchange.ply.export_ply(BALL, "ascii"), "k.ply"),
    (BALL.export(file_type="glb"), "l.glb"), (BALL.export(file_type="3mf"), "m.3mf"),
])
def test_a_whole_ball_is_read_whatever_way_it_is_written(tmp_path, data, name):
    scan = read(tmp_path, name, data)
    size = size_of(scan)
    assert (scan.closed, scan.consistent, scan.bodies, len(scan.faces), len(scan.vertices)) == (True, True, 1, 1280, 642)
    assert size.area_whole * 1e6 == pytest.approx(BALL.area, rel=1e-6)
    assert size.volume.likely * 1e9 == pytest.approx(BALL.volume, rel=1e-6)
    assert scan.notes == ()
    assert len(scan.sha256) == 64


def test_inside_out_as_a_whole(tmp_path):
    scan = read(tmp_path, "a.stl", binary(corners()[:, ::-1]))
    assert "it was inside out as a whole and was turned" in scan.notes
    assert size_of(scan).volume.likely * 1e9 == pytest.approx(TRUE_VOLUME, abs=0.01)


def test_half_inside_out(tmp_path):
    wrong = corners()
    wrong[:600] = wrong[:600, ::-1]
    scan = read(tmp_path, "a.stl", binary(wrong))
    assert "600 triangles faced the other way than their neighbours and were turned" in scan.notes
    assert size_of(scan).volume.likely * 1e9 == pytest.approx(TRUE_VOLUME, abs=0.01)


def test_a_surface_of_one_side_has_no_volume(tmp_path):
    """A Moebius band of twelve triangles."""
    n = 12
    faces = [(i, i + 1, i + 2) if i % 2 else (i + 1, i, i + 2) for i in range(n)]
    twisted = [tuple(j % n if j < n else j - n for j in face) for face in faces]
    angle = np.arange(n) // 2 * 2 * np.pi / (n / 2)
    side = np.where(np.arange(n) % 2, 1.0, -1.0)
    points = np.stack([np.cos(angle) * (4 + side * np.cos(angle / 2)), np.sin(angle) * (4 + side * np.cos(angle / 2)), side * np.sin(angle / 2)], 1)
    swapped = [tuple({0: 1, 1: 0}.get(j, j) if min(face) < 2 and max(face) > 9 else j for j in face) for face in twisted]
    text = "".join(f"v {x} {y} {z}\n" for x, y, z in points) + "".join(f"f {a + 1} {b + 1} {c + 1}\n" for a, b, c in swapped)
    scan = read(tmp_path, "a.obj", text)
    assert not scan.consistent
    assert any("can't be made to agree" in note for note in scan.notes)
    assert size_of(scan).no_volume == "its triangles do not agree about the outside"


def test_doubled_triangles_are_dropped(tmp_path):
    doubled = np.concatenate([corners(), corners()[:100]])
    scan = read(tmp_path, "a.stl", binary(doubled))
    assert "100 triangles stood there twice; one of each was kept" in scan.notes
    size = size_of(scan)
    assert size.area_whole * 1e6 == pytest.approx(TRUE_AREA, abs=0.005)
    assert size.volume.likely * 1e9 == pytest.approx(TRUE_VOLUME, abs=0.01)


def test_a_missing_triangle_leaves_the_area_good(tmp_path):
    scan = read(tmp_path, "a.stl", binary(corners()[1:]))
    size = size_of(scan)
    assert not scan.closed and scan.open_edges == 3
    assert any("3 edges belong to one triangle only" in note for note in scan.notes)
    assert size.volume is None and size.no_volume == "it is open at 1 place"
    assert size.area.low * 1e6 < TRUE_AREA < size.area.high * 1e6
    assert size.capped.low * 1e9 < TRUE_VOLUME < size.capped.high * 1e9
    assert size.capped.likely * 1e9 == pytest.approx(TRUE_VOLUME, abs=0.01)


def test_the_volume_of_an_open_scan_does_not_hang_on_where_it_lies(tmp_path):
    """Elsewhere the sum depends on the origin; with the hole closed flat it does not."""
    here = size_of(read(tmp_path, "a.stl", binary(corners()[1:])))
    there = size_of(read(tmp_path, "b.stl", binary(corners()[1:] + np.float32(64))))
    assert here.capped.likely == pytest.approx(there.capped.likely, rel=1e-5)


def test_an_inner_shell_that_faces_the_same_way_has_no_volume(tmp_path):
    scan = read(tmp_path, "a.stl", binary(np.concatenate([corners(), corners() / 2])))
    assert scan.closed and scan.bodies == 2
    assert any("1 body lies inside another" in note for note in scan.notes)
    size = size_of(scan)
    assert size.volume is None and "lies inside another with its outside the same way" in size.no_volume


def test_a_hollow_shell_has_the_volume_of_its_wall(tmp_path):
    """7/8 of the ball: 3633.65."""
    scan = read(tmp_path, "a.stl", binary(np.concatenate([corners(), corners()[:, ::-1] / 2])))
    assert size_of(scan).volume.likely * 1e9 == pytest.approx(3633.65, abs=0.01)


def test_forty_bodies(tmp_path):
    many = np.concatenate([corners() + np.float32(32) * np.array([i % 8, i // 8, 0], np.float32) for i in range(40)])
    scan = read(tmp_path, "a.stl", binary(many))
    assert scan.bodies == 40 and "it is 40 separate bodies" in scan.notes
    assert not any("overlap" in note or "inside another" in note for note in scan.notes)
    assert size_of(scan).volume.likely * 1e9 == pytest.approx(40 * BALL.volume, rel=1e-5)


def test_bodies_that_overlap_are_not_counted_twice_without_a_word(tmp_path):
    scan = read(tmp_path, "a.stl", binary(np.concatenate([corners(), corners() + np.float32(5)])))
    assert "bodies may overlap; what they share is counted twice" in scan.notes
    volume = size_of(scan).volume
    assert volume.low * 1e9 == pytest.approx(BALL.volume, rel=1e-4)
    assert volume.likely == pytest.approx(2 * volume.low, rel=1e-4)


def test_far_from_its_origin_single_precision_is_rounded(tmp_path):
    """Run: a ball of r 10 at 1e6 loses 0.14 % of its area."""
    scan = read(tmp_path, "a.stl", binary(corners() + np.float32(1e6)))
    assert any("lies so far from its origin" in note for note in scan.notes)
    assert size_of(scan).area_whole * 1e6 == pytest.approx(TRUE_AREA, rel=0.003)


def test_joined_points_are_said_where_the_file_could_share_them(tmp_path):
    open_box = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 0\nv 1 0 0\nv 0 0 1\nv 9 9 9\nf 1 2 3\nf 5 4 6\n"
    scan = read(tmp_path, "a.obj", open_box)
    assert "2 points lay exactly on another and were joined to it" in scan.notes
    assert "1 point belonged to no triangle and was left out" in scan.notes
    assert scan.open_edges == 4


def test_polygons_and_counting_back(tmp_path):
    scan = read(tmp_path, "a.obj", "v 0 0 0\nv 2 0 0\nv 2 1 0\nv 0 1 0\nvt 0 0\nf -4/1/1 -3//2 \\\n 3/1 4\n")
    assert len(scan.faces) == 2 and scan.extents == (2.0, 1.0, 0.0)


def test_a_line_that_goes_on(tmp_path):
    """A backslash at the end joins the next line to this one, with nothing between."""
    text = "v 0 0 0\nv 1.\\\n5 0 0\nv 0 1 0\nf 1 \\\n2 3\n"
    assert read(tmp_path, "a.obj", text).extents == (1.5, 1.0, 0.0)
    assert "has a line that goes on for more than 64 kB" in refused(tmp_path, "b.obj", "v 1 2 3\\\n" * 20_000)


def test_files_that_a_scan_names_are_never_opened(tmp_path, monkeypatch):
    (tmp_path / "secret.mtl").write_text("newmtl a\nmap_Kd secret.png\n")
    path = tmp_path / "a.obj"
    path.write_text("mtllib secret.mtl\nmtllib ../../secret.mtl\nv 0 0 0\nv 1 0 0\nv 0 1 0\nusemtl a\nf 1 2 3\n")
    opened = []
    monkeypatch.setattr(io, "open", lambda file, *rest, _open=io.open, **more: opened.append(str(file)) or _open(file, *rest, **more))
    finish(read_scan(path))
    assert opened == [str(path)]


def glb(tree, data=b"") -> bytes:
    text = json.dumps(tree).encode()
    text += b" " * (-len(text) % 4)
    body = struct.pack("<I4s", len(text), b"JSON") + text + (struct.pack("<I4s", len(data), b"BIN\0") + data if data else b"")
    return b"glTF" + struct.pack("<II", 2, 12 + len(body)) + body


TRIANGLE = np.array([(0, 0, 0), (1, 0, 0), (0, 1, 0)], "<f4").tobytes()
TREE = {"buffers": [{"byteLength": 36}], "bufferViews": [{"buffer": 0, "byteLength": 36}],
        "accessors": [{"bufferView": 0, "componentType": 5126, "type": "VEC3", "count": 3}],
        "meshes": [{"primitives": [{"attributes": {"POSITION": 0}}]}], "nodes": [{"mesh": 0, "scale": [2, 3, 1]}], "scenes": [{"nodes": [0]}]}


def test_a_glb_is_put_where_its_scene_puts_it(tmp_path):
    scan = read(tmp_path, "a.glb", glb(TREE, TRIANGLE))
    assert scan.extents == (2.0, 3.0, 0.0)
    assert (scan.unit_in_file, scan.up_in_file) == ("m", "+y")


@pytest.mark.parametrize(("change", "says"), [
    ({"accessors": [TREE["accessors"][0] | {"count": 4_000_000_000}]}, "it says it has more points than it holds"),
    ({"accessors": [TREE["accessors"][0] | {"count": -3}]}, "a count in it is no whole number"),
    ({"buffers": [{"byteLength": 36, "uri": "../../secret.bin"}]}, "its triangles are in another file"),
    ({"nodes": [{"children": [0]}]}, "its parts are nested without an end"),
    ({"nodes": [{"mesh": 7}]}, "its tables do not fit together"),
    ({"extensionsRequired": ["KHR_draco_mesh_compression"]}, "compressed in a way that is not read here"),
    ({"meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "mode": 0}]}]}, "has no triangles"),
])
def test_a_glb_that_does_not_fit_together(tmp_path, change, says):
    assert says in refused(tmp_path, "a.glb", glb(TREE | change, TRIANGLE))


MODEL = ('<?xml version="1.0"?>{before}<model unit="{unit}" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>'
         '<object id="1"><mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/></vertices>'
         '<triangles><triangle v1="0" v2="1" v3="2"/></triangles></mesh></object>{more}</resources><build>{build}</build></model>')


def threemf(unit="millimeter", more="", build='<item objectid="1"/>', before="", **files) -> bytes:
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr("3D/3dmodel.model", MODEL.format(unit=unit, more=more, build=build, before=before))
        for name, content in files.items():
            package.writestr(name, content)
    return whole.getvalue()


@pytest.mark.parametrize(("unit", "ours", "extent"), [
    ("millimeter", "mm", 1.0), ("inch", "in", 1.0), ("foot", "ft", 1.0), ("centimeter", "cm", 1.0), ("meter", "m", 1.0), ("micron", "mm", 0.001)])
def test_a_3mf_knows_its_unit(tmp_path, unit, ours, extent):
    scan = read(tmp_path, "a.3mf", threemf(unit))
    assert scan.unit_in_file == ours and scan.extents[0] == pytest.approx(extent)


def test_names_that_lead_out_of_a_3mf_lead_nowhere(tmp_path):
    inside = tmp_path / "inside"
    inside.mkdir()
    data = threemf(**{"../../evil.model": MODEL.format(unit="meter", more="", build="", before=""), "/abs.model": "<model/>", "../x.txt": "x"})
    scan = read(inside, "a.3mf", data)
    assert len(scan.faces) == 1
    assert sorted(path.name for path in tmp_path.rglob("*") if path.is_file()) == ["a.3mf"]


HALVED = "".join(f'<object id="{i}"><components>{2 * f"""<component objectid="{i - 1}"/>"""}</components></object>' for i in range(2, 28))


@pytest.mark.parametrize(("data", "says"), [
    (threemf(before='<!DOCTYPE a [<!ENTITY b "bbbb"><!ENTITY c "&b;&b;">]>'), "declares abbreviations of its own (XML entities)"),
    (threemf(before='<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]>'), "declares abbreviations of its own (XML entities)"),
    (threemf(build='<item objectid="27"/>', more=HALVED), "nested without an end"),
    (threemf(build='<item objectid="2"/>', more='<object id="2"><components><component objectid="2"/></components></object>'),
     "nested without an end"),
    (threemf(build='<item objectid="9"/>'), "has a list of triangles that can't be read"),
    (threemf(build=""), "has no triangles to be built"),
    (threemf(unit="cubit"), "names a unit that 3MF does not have"),
    (threemf()[:-30], "can't be unpacked as a 3MF file"),
])
def test_a_3mf_that_is_refused(tmp_path, data, says):
    assert says in refused(tmp_path, "a.3mf", data)


def test_a_3mf_that_says_how_large_it_unpacks_is_refused_unopened(tmp_path, monkeypatch):
    monkeypatch.setattr("moldcalc.scan.threemf.LARGEST_UNPACKED", 10_000)
    data = threemf(more=" " * 20_000)
    monkeypatch.setattr(zipfile.ZipFile, "open", lambda *_: pytest.fail("it was unpacked"))
    assert "unpacks to 0 MB; at most" in refused(tmp_path, "a.3mf", data)


def test_a_3mf_that_lies_about_how_large_it_unpacks_is_stopped(tmp_path):
    """The sizes in the package's list are made small; what comes out is still bounded by them."""
    data = threemf(more=" " * 3_000_000)
    true = struct.pack("<I", len(zipfile.ZipFile(io.BytesIO(data)).read("3D/3dmodel.model")))
    assert true in data
    assert "3MF" in refused(tmp_path, "a.3mf", data.replace(true, struct.pack("<I", 900)))


def test_a_gz_bomb_is_bounded(tmp_path, monkeypatch):
    monkeypatch.setattr(source, "LARGEST_UNPACKED", 8_000_000)
    assert "unpacks to more than 8 MB" in refused(tmp_path, "a.stl.gz", gzip.compress(bytes(40_000_000)))


def test_too_many_triangles_is_one_sentence(tmp_path, monkeypatch):
    monkeypatch.setattr(source, "LARGEST_TRIANGLES", 1000)
    for kind in ("stl", "ply", "obj", "off", "glb"):
        data = BALL.export(file_type=kind)
        assert "at most 1 000 are read" in refused(tmp_path, f"a.{kind}", data)
    monkeypatch.setattr(source, "LARGEST_FILE", 1000)
    assert "at most 0 MB are read" in refused(tmp_path, "b.stl", BINARY)


def test_many_triangles_are_said_and_a_smaller_copy_offered(tmp_path, monkeypatch):
    monkeypatch.setattr(reading, "MANY_TRIANGLES", 1000)
    scan = read(tmp_path, "a.stl", BINARY)
    assert scan.many and any("a smaller copy is quicker" in note for note in scan.notes)
    small = finish(decimated(scan, 500))
    assert 400 <= len(small.faces) <= 500 and small.closed and not small.many
    assert small.notes[0].startswith("it is a smaller copy: ") and "its area changed by" in small.notes[0]
    said = float(small.notes[0].split("by ")[1].split(" %")[0])
    before, after = (trimesh.Trimesh(s.vertices, s.faces).area for s in (scan, small))
    assert said == pytest.approx(100 * (after / before - 1), abs=0.005)
    assert finish(decimated(scan, 5000)) is scan


def test_a_smaller_copy_without_the_library(tmp_path, monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "fast_simplification", None)
    with pytest.raises(MissingError, match="fast_simplification, which is not installed here"):
        finish(decimated(read(tmp_path, "a.stl", BINARY), 500))
    with pytest.raises(EntryError, match="at least 100"):
        finish(decimated(read(tmp_path, "a.stl", BINARY), 5))


def test_reading_says_how_far_it_is_and_can_be_stopped(tmp_path, monkeypatch):
    monkeypatch.setattr(stl, "CHUNK", 5000)
    path = tmp_path / "a.stl"
    path.write_bytes(BINARY)
    steps = []
    work = read_scan(path)
    for step in work:
        steps.append(step)
        if len(steps) == 8:
            break
    work.close()
    assert all(isinstance(step, Progress) and 0 <= step.share <= 1 for step in steps)
    assert [step.share for step in steps[1:]] == sorted(step.share for step in steps[1:])
    path.unlink()


def test_joined_points_survive_a_hash_that_fails(monkeypatch):
    points = np.array([(0, 0, 0), (1, 0, 0), (0, 0, 0), (-0.0, 0, 0), (1, 2, 3)], float)
    found = finish(mending.joined(points))
    assert len(found[0]) == 3 and (found[0][found[1]] == points).all()
    monkeypatch.setattr(mending.pd, "factorize", lambda mixed: (np.zeros(len(mixed), np.int64), mixed[:1]))
    found = finish(mending.joined(points))
    assert len(found[0]) == 3 and (found[0][found[1]] == points).all()


HEIGHTS = [
    # extent  stated, m  unit   source
    (400, 0.4, ("mm",), "exact"),
    (400, 10.16, ("in",), "25.4 times"),
    (40, 0.4, ("cm",), "10 times"),
    (4, 4.0, ("m",), "1000 times"),
    (4, 1.2192, ("ft",), "304.8 times"),
    (400, 0.407, ("mm",), "within 2 %"),
    (400, 0.409, (), "off by more than 2 %"),
    (400, 0.6, (), "no unit"),
]


@pytest.mark.parametrize(("extent", "stated", "units", "source"), HEIGHTS)
def test_the_unit_that_fits_a_stated_height(extent, stated, units, source):
    assert unit_candidates(extent, stated) == units, source
    assert unit_guess((1, 1, extent), stated) == (units[0] if units else None)
    assert unit_guess((1, extent, 1), stated, up="-y") == (units[0] if units else None)


def test_the_unit_is_asked(tmp_path):
    scan = read(tmp_path, "a.stl", BINARY)
    assert unit_question(scan, "mm", 0.02) is None
    assert unit_question(scan, "mm", 0.508).endswith("Is the scan in in?")
    assert "no unit makes good" in unit_question(scan, "mm", 0.07)
    with pytest.raises(EntryError, match="stated height is nan; it must be above 0"):
        unit_candidates(1, float("nan"))


@pytest.mark.parametrize("up", ["+x", "-x", "+y", "-y", "+z", "-z"])
def test_placed_upright_on_the_board(tmp_path, up):
    mesh = trimesh.creation.box((1, 2, 3))
    mesh.apply_translation((50, 60, 70))
    tip = np.zeros(3)
    tip["xyz".index(up[1])] = 1.0 if up[0] == "+" else -1.0
    mesh.vertices[np.argmax(mesh.vertices @ (tip + 0.01))] += 5 * tip
    scan = read(tmp_path, "a.ply", mesh.export(file_type="ply"))
    body = placed(scan, "in", up)
    low, high = body.vertices.min(axis=0), body.vertices.max(axis=0)
    assert low[2] == 0 and (low + high)[:2] == pytest.approx([0, 0], abs=1e-9)
    assert high[2] == pytest.approx(0.0254 * (5 + {"x": 1, "y": 2, "z": 3}[up[1]]))
    # the tip that was drawn out along 'up' is on top, and nothing was mirrored
    assert (body.vertices[:, 2] > high[2] - 0.0254).sum() == 1
    volume = trimesh.Trimesh(body.vertices, body.faces, process=False).volume
    assert volume == pytest.approx(trimesh.Trimesh(scan.vertices, scan.faces, process=False).volume * 0.0254**3)
    assert volume > 0


@pytest.mark.parametrize(("unit", "up", "says"), [
    ("yd", "+z", "unit is 'yd'; it must be one of mm, cm, m, in, ft"),
    ("mm", "z", r"up is 'z'; it must be one of \+x"),
    ("ft", "+z", "in mm or cm it would be more like an original"),
])
def test_a_unit_that_can_not_be(tmp_path, unit, up, says):
    with pytest.raises(EntryError, match=says):
        placed(read(tmp_path, "a.stl", binary(corners() * np.float32(50))), unit, up)
    assert set(UNITS) == {"mm", "cm", "m", "in", "ft"}
