"""What the library that reads meshes would get wrong without a word is refused or right; expected values are of bodies written out by hand."""

import io
import json
import struct
import subprocess
import sys
import zipfile
from math import sqrt

import numpy as np
import pytest

from moldcalc.errors import FileError
from moldcalc.scan import lists, source
from moldcalc.scan.progress import finish
from moldcalc.scan.reading import read_scan
from tests.scan.test_reading import MODEL, TREE, TRIANGLE, glb, threemf
from tests.scan.written import (
    BODIES,
    BOX,
    CORNER,
    CORNER_SIZE,
    HOUSE,
    as_big_ply,
    as_counted_back,
    as_obj,
    as_off,
    as_ply,
    as_text_ply,
    as_text_stl,
    ply_head,
    rows,
)
from tests.tables import within


def read(folder, name, data):
    path = folder / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return finish(read_scan(path))


def refused(folder, name, data):
    with pytest.raises(FileError) as caught:
        read(folder, name, data)
    return str(caught.value)


def size(scan):
    a, b, c = np.moveaxis(scan.vertices[scan.faces], 1, 0)
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6), float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2)


@pytest.mark.parametrize(("body", "expected"), BODIES, ids=["corner", "box", "house"])
@pytest.mark.parametrize(("write", "name"), [(as_obj, "a.obj"), (as_counted_back, "b.obj"), (as_off, "a.off"), (as_text_ply, "a.ply")],
                         ids=["obj", "counted back", "off", "text ply"])
def test_polygons_of_any_kind_in_text(tmp_path, write, name, body, expected):
    if name == "a.off" and body is HOUSE:
        assert "has faces of five or more corners besides others" in refused(tmp_path, name, write(*body))
        return
    scan = read(tmp_path, name, write(*body))
    assert scan.closed and scan.consistent and scan.notes == ()
    assert size(scan) == (within(expected[0], 1e-12), within(expected[1], 1e-12))
    assert len(scan.faces) == sum(len(face) - 2 for face in body[1])


@pytest.mark.parametrize(("body", "expected"), BODIES[:2], ids=["corner", "box"])
@pytest.mark.parametrize("write", [as_ply, as_big_ply])
def test_binary_ply_of_either_order(tmp_path, write, body, expected):
    assert size(read(tmp_path, "a.ply", write(*body))) == (within(expected[0], 1e-12), within(expected[1], 1e-12))


def test_binary_ply_with_uneven_faces_is_refused(tmp_path):
    assert "can't be read as PLY" in refused(tmp_path, "a.ply", as_ply(*HOUSE))


def test_binary_ply_whose_uneven_faces_come_out_even_is_refused(tmp_path):
    """Faces of 4, 3 and 5 corners take as many bytes as three of 4."""
    faces = [(0, 1, 3, 2), (4, 6, 7), (0, 4, 5, 1, 3)]
    assert "has faces of different numbers of corners" in refused(tmp_path, "a.ply", as_ply(BOX[0], faces))


def test_what_else_a_ply_holds_is_left_alone(tmp_path):
    """Textures at corners, colours, normals and an edge table; the library would cut points apart by the first."""
    head = ply_head(*CORNER).replace("comment nothing", "comment TextureFile ../../secret.png").replace(
        "property float z\n", "property float z\nproperty float nx\nproperty float ny\nproperty float nz\nproperty uchar red\n").replace(
        "end_header", "property list uchar float texcoord\nelement edge 1\nproperty int vertex1\nproperty int vertex2\nend_header").replace(
        "ascii", "binary_little_endian")
    data = head.encode() + b"".join(struct.pack("<6fB", *point, 0, 0, 1, 9) for point in CORNER[0]) + b"".join(
        struct.pack("<B3iB6f", 3, *face, 6, *(0.1 * n for n in face), 0, 0, 0) for face in CORNER[1]) + struct.pack("<2i", 0, 1)
    scan = read(tmp_path, "a.ply", data)
    assert (len(scan.vertices), len(scan.faces)) == (4, 4)
    assert size(scan) == (within(CORNER_SIZE[0], 1e-12), within(CORNER_SIZE[1], 1e-12))


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
def test_text_stl_by_hand(tmp_path, ends):
    scan = read(tmp_path, "a.stl", as_text_stl(*CORNER).replace("\n", ends))
    assert size(scan) == (within(CORNER_SIZE[0], 1e-12), within(CORNER_SIZE[1], 1e-12))


def test_text_is_read_the_same_in_pieces(tmp_path, monkeypatch):
    monkeypatch.setattr(source, "TEXT_CHUNK", 64)
    monkeypatch.setattr(source.Source.chunks, "__defaults__", (0, 64))
    for write, name in ((as_obj, "a.obj"), (as_off, "a.off"), (as_text_ply, "a.ply")):
        for ends in ("\n", "\r\n"):
            assert size(read(tmp_path, name, write(*BOX).replace("\n", ends))) == (within(6, 1e-12), within(22, 1e-12))


MESSY = ("\ufeff# a remark \u00e4\n\n  v 0 0 0 0.5 0.5 0.5 # grey\n\tv\t1  0 0\nv 0 1 0 1\nvn 0 0 1\nvt 0 0\no f 9 9 9\ng v 1 2 3\n"
         "usemtl f 1 2 3\n f 1/1/1 2//1\t3 \nl 1 2\n")


def test_obj_as_people_write_it(tmp_path):
    scan = read(tmp_path, "a.obj", MESSY)
    assert scan.extents == (1.0, 1.0, 0.0) and len(scan.faces) == 1


QUIET = [
    # what the library does without a word, name, content, what the sentence says
    ("reads rows of 4, 3 and 5 numbers as three of 4", "a.obj", "v 0 0 0 1\nv 1 0\nv 0 1 0 1 1\nf 1 2 3\n", "has a point of fewer or more numbers"),
    ("takes corner 0 for the first point", "a.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 0 3\n", "asks for a point that is not there"),
    ("counts back from the last of all points", "a.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf -3 -2 -1\nv 0 0 1\n", "counts corners backwards"),
    ("leaves out a polygon of two corners", "a.obj", as_obj(*CORNER) + "f 1 2\nf 1 2 3 4\n", "has a polygon of fewer than three corners"),
    ("stops at the first word that is no number", "a.obj", as_obj(*CORNER).replace("v 0 1 0", "v 0 1x 0"), "has '1x' where a number should stand"),
    ("goes on after a point without numbers", "a.obj", as_obj(*CORNER) + "v\n", "has a point of fewer or more numbers"),
    ("leaves out a face of two corners", "a.off", as_off(*CORNER).replace("3 0 1 3", "2 0 1"), "has a polygon of fewer than three corners"),
    ("leaves out corners that are missing", "a.off", as_off(*BOX).replace("4 0 1 3 2", "4 0 1 3"), "has a face of fewer corners than it says"),
    ("gives all faces the first one's corners", "a.ply", ply_head(BOX[0], BOX[1][:3]) + rows(BOX[0]) + "4 0 1 3 2 9\n3 4 6 7 5 9\n5 0 4 5 1 3\n",
     "has a face of fewer corners than it says"),
    ("fills missing numbers", "a.ply", as_text_ply(*CORNER).replace("0 1 0\n", "0 1\n", 1), "has a point of fewer or more numbers"),
    ("gives nothing for no points", "0.ply", ply_head([], []), "has no triangles; export"),
    ("believes the count of rows", "a.ply", as_text_ply(*CORNER).replace("vertex 4", "vertex 400000000"), "more than its"),
    ("believes the count of rows", "a.off", as_off(*CORNER).replace("4 4 0", "4 400000 0"), "more than its"),
    ("believes the count of rows", "b.off", as_off(*CORNER).replace("4 4 0", "4 4000000 0"), "at most 2 000 000 are read"),
    ("leaves out facets", "a.stl", as_text_stl(*CORNER).replace("endfacet\nfacet normal", "endf\nface normal", 1), "that are not written as three"),
    ("leaves out a facet", "b.stl", as_text_stl(*CORNER).replace("facet normal", "fac", 1).replace("endfacet", "endfac", 1), "lists"),
]


@pytest.mark.parametrize(("what", "name", "data", "says"), QUIET, ids=[f"{row[1]} {row[0]}" for row in QUIET])
def test_what_the_library_does_without_a_word_is_refused(tmp_path, what, name, data, says):
    assert says in refused(tmp_path, name, data), what


ACCESSOR = TREE["accessors"][0]
ODD_SCENES = [
    ("takes no list for a list", {"extensionsRequired": 5, "nodes": 7}, "its tables do not fit together"),
    # what the library does without a word, change, what the sentence says
    ("passes over changes to points", {"accessors": [ACCESSOR | {"sparse": {}}]}, "as changes to other points"),
    ("takes shares for lengths", {"accessors": [ACCESSOR | {"normalized": True, "componentType": 5122}]}, "squeezed into whole numbers"),
    ("lays points without data at 0", {"accessors": [{"componentType": 5126, "type": "VEC3", "count": 3}]}, "its tables do not fit together"),
    ("leaves out fans", {"meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "mode": 6}]}]}, "in fans"),
    ("keeps one of two places", {"nodes": [{"children": [1, 2]}, {"children": [3]}, {"children": [3]}, {"mesh": 0}]}, "stands in two places"),
    ("believes a step", {"bufferViews": [{"buffer": 0, "byteLength": 36, "byteStride": 1}]}, "more points than it holds"),
]


@pytest.mark.parametrize(("what", "change", "says"), ODD_SCENES, ids=[row[0] for row in ODD_SCENES])
def test_what_the_library_makes_of_odd_scenes_is_refused(tmp_path, what, change, says):
    assert says in refused(tmp_path, "a.glb", glb(TREE | change, TRIANGLE)), what


def corner_glb(nodes, roots=(0,), parts=1, **more):
    """The corner as GLB, in two primitives if asked, at nodes."""
    points, order = np.array(CORNER[0], "<f4").tobytes(), np.array(CORNER[1], "<u2").tobytes()
    split = [(0, 12)] if parts == 1 else [(0, 6), (6, 6)]
    tree = {"buffers": [{"byteLength": 72}], "bufferViews": [{"buffer": 0, "byteLength": 48}, {"buffer": 0, "byteOffset": 48, "byteLength": 24}],
            "accessors": [{"bufferView": 0, "componentType": 5126, "type": "VEC3", "count": 4},
                          *({"bufferView": 1, "byteOffset": 2 * begin, "componentType": 5123, "type": "SCALAR", "count": n} for begin, n in split)],
            "meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1 + n} for n in range(parts)]}],
            "nodes": nodes, "scenes": [{"nodes": list(roots)}]}
    return glb(tree | more, points + order)


TURNED = [0, 0, sqrt(0.5), sqrt(0.5)]  # a quarter turn about z


def test_nested_nodes_of_a_glb(tmp_path):
    """By hand: the corner doubled, a quarter turn about z (x to y), moved by 5 along y: x from -2 to 0, y from 5 to 7, z from 0 to 2."""
    nodes = [{"translation": [0, 5, 0], "children": [1], "name": "world"}, {"rotation": TURNED, "children": [2], "camera": 0},
             {"scale": [2, 2, 2], "mesh": 0, "name": "world"}]
    scan = read(tmp_path, "a.glb", corner_glb(nodes, cameras=[{"perspective": {}}], parts=2))
    assert scan.vertices.min(axis=0) == pytest.approx([-2, 5, 0], abs=1e-6) and scan.vertices.max(axis=0) == pytest.approx([0, 7, 2], abs=1e-6)
    assert size(scan) == (within(8 / 6, 1e-6), within(4 * CORNER_SIZE[1], 1e-6)) and scan.closed
    assert (scan.unit_in_file, scan.up_in_file) == ("m", "+y")


def test_mirrored_and_twice_in_a_glb(tmp_path):
    """A mirror image beside the body itself keeps its outside outside; no triangle had to be turned."""
    matrix = [-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, -9, 0, 0, 1]
    scan = read(tmp_path, "a.glb", corner_glb([{"mesh": 0, "name": "a"}, {"mesh": 0, "name": "a", "matrix": matrix}], roots=(0, 1)))
    assert scan.extents == pytest.approx((11, 1, 1))
    assert size(scan)[0] == within(2 / 6, 1e-6)
    assert not any("inside out" in note or "turned" in note for note in scan.notes) and scan.bodies == 2


def test_many_parts_of_one_mesh_in_a_glb(tmp_path):
    """The library names them by chance; with two thousand on one node it loses one now and then."""
    tree = TREE | {"meshes": [{"primitives": 2_000 * TREE["meshes"][0]["primitives"]}]}
    assert "1 999 triangles stood there twice" in " ".join(read(tmp_path, "a.glb", glb(tree, TRIANGLE)).notes)


def test_a_strip_in_a_glb(tmp_path):
    points = np.array([(0, 0, 0), (1, 0, 0), (0, 1, 0), (1, 1, 0)], "<f4").tobytes()
    tree = TREE | {"buffers": [{"byteLength": 48}], "bufferViews": [{"buffer": 0, "byteLength": 48}], "accessors": [ACCESSOR | {"count": 4}],
                   "meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "mode": 5}, {"attributes": {}, "mode": 1}]}], "nodes": [{"mesh": 0}]}
    scan = read(tmp_path, "a.glb", glb(tree, points))
    assert size(scan)[1] == within(1.0, 1e-12) and scan.consistent
    assert scan.notes[0] == "1 parts of lines or points were left out"


#: the corner as object 2
SOLID = ('<object id="2"><mesh><vertices>' + "".join(f'<vertex x="{x}" y="{y}" z="{z}"/>' for x, y, z in CORNER[0]) + "</vertices><triangles>"
         + "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in CORNER[1]) + "</triangles></mesh></object>")


def test_nested_components_of_a_3mf(tmp_path):
    """By hand: doubled (inside), a quarter turn about z (x to y), moved by 5 along y; and a mirror image 9 inches beside it."""
    more = SOLID + ('<object id="3"><components><component objectid="2" transform="2 0 0 0 2 0 0 0 2 0 0 0"/></components></object>'
                    '<object id="4"><components><component objectid="3" transform="0 1 0 -1 0 0 0 0 1 0 0 0"/></components></object>')
    build = '<item objectid="4" transform="1 0 0 0 1 0 0 0 1 0 5 0"/><item objectid="2" transform="-1 0 0 0 1 0 0 0 1 -9 0 0"/>'
    scan = read(tmp_path, "a.3mf", threemf("inch", more=more, build=build))
    assert scan.vertices.min(axis=0) == pytest.approx([-10, 0, 0]) and scan.vertices.max(axis=0) == pytest.approx([0, 7, 2])
    assert size(scan) == (within(9 / 6, 1e-9), within(5 * CORNER_SIZE[1], 1e-9))
    assert scan.closed and scan.bodies == 2 and scan.unit_in_file == "in"
    assert not any("inside out" in note or "turned" in note for note in scan.notes)


def test_remarks_and_quotes_in_a_3mf(tmp_path):
    more = "<!-- <object id='2'> <item objectid='7'/> -->" + SOLID.replace('id="2"', "name='a > b' id='2'")
    assert size(read(tmp_path, "a.3mf", threemf(more=more, build="<item objectid='2'/>")))[0] == within(1 / 6, 1e-9)


ODD_LISTS = [
    # what the library does without a word, list, what the sentence says
    ("takes all meshes of another list", {"more": SOLID, "build": '<item objectid="1" p:path="/3D/other.model" xmlns:p="p"/>'}, "more than one list"),
    ("puts meshes of one number together", {"more": SOLID.replace('"2"', '"1"')}, "two objects of one name"),
    ("keeps one of two with a part number", {"build": 2 * '<item objectid="1" partnumber="a"/>'}, "has 2 triangles to be built, of which 1 could"),
    ("gives up on many ways through parts",
     {"more": "".join(f'<object id="{n}"><components>{2 * f"""<component objectid="{n - 1}"/>"""}</components></object>' for n in range(2, 11)),
      "build": '<item objectid="10"/>'}, "has 512 triangles to be built"),
    ("stops at a word that is no number", {"more": SOLID.replace('x="1"', 'x="one"'), "build": '<item objectid="2"/>'}, "can't be read as 3MF"),
    ("cuts a corner's number short", {"more": SOLID.replace('v2="1"', 'v2="1.5"'), "build": '<item objectid="2"/>'}, "can't be read as 3MF"),
    ("follows a point that is not there", {"more": SOLID.replace('v2="1"', 'v2="4"'), "build": '<item objectid="2"/>'}, "asks for a point"),
]


@pytest.mark.parametrize(("what", "content", "says"), ODD_LISTS, ids=[row[0] for row in ODD_LISTS])
def test_what_the_library_makes_of_odd_packages_is_refused(tmp_path, what, content, says):
    assert says in refused(tmp_path, "a.3mf", threemf(**content)), what


@pytest.mark.parametrize("code", ["utf-16", "utf-7"])
def test_a_3mf_in_another_writing_hides_nothing(tmp_path, code):
    whole = io.BytesIO()
    text = MODEL.replace('"1.0"', f'"1.0" encoding="{code}"').format(unit="millimeter", more="", build='<item objectid="1"/>',
                                                                      before='<!DOCTYPE a [<!ENTITY b "bbbb">]>')
    with zipfile.ZipFile(whole, "w") as package:
        package.writestr("3D/3dmodel.model", text.encode(code))
    assert "XML entities" in refused(tmp_path, "a.3mf", whole.getvalue()) or "is not written in UTF-8" in refused(tmp_path, "a.3mf", whole.getvalue())


def test_whatever_the_library_raises_is_one_sentence(tmp_path, monkeypatch):
    def fails(*_, **__):
        raise RuntimeError("inside")

    for module, name in (("obj", "obj"), ("off", "off"), ("ply", "ply")):
        monkeypatch.setattr(f"trimesh.exchange.{module}.load_{name}", fails)
        text = {"obj": as_obj, "off": as_off, "ply": as_ply}[name](*CORNER)
        assert refused(tmp_path, f"a.{name}", text) == (
            f"a.{name} has a list of triangles that can't be read as {name.upper()}; it was cut off or damaged. Copy or export it again.")


def test_reading_is_said_before_the_long_call(tmp_path):
    for name, data in (("a.obj", as_obj(*BOX)), ("a.off", as_off(*BOX)), ("a.ply", as_ply(*BOX)), ("a.glb", glb(TREE, TRIANGLE)),
                       ("a.3mf", threemf())):
        path = tmp_path / name
        path.write_bytes(data if isinstance(data, bytes) else data.encode())
        assert "reading" in [step.said for step in read_scan(path)], name


def test_listed_kinds_have_a_lower_limit(tmp_path, monkeypatch):
    monkeypatch.setattr(lists, "LARGEST_LISTED", 10)
    assert "12 triangles; at most 10 are read. Let the scanner's program write it with fewer, or as STL." in refused(tmp_path, "a.off", as_off(*BOX))


def test_a_binary_stl_is_read_without_the_library(tmp_path):
    """Its import would take longer than the reading."""
    path = tmp_path / "a.stl"
    facets = np.zeros(4, [("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
    facets["corners"] = np.array(CORNER[0], float)[np.array(CORNER[1])]
    path.write_bytes(bytes(80) + struct.pack("<I", 4) + facets.tobytes())
    code = ("import json, sys; from pathlib import Path; from moldcalc.scan.progress import finish; from moldcalc.scan.reading import read_scan;"
            "scan = finish(read_scan(Path(sys.argv[1]))); print(json.dumps([len(scan.faces), 'trimesh' in sys.modules]))")
    done = subprocess.run([sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=True)
    assert json.loads(done.stdout) == [4, False]
