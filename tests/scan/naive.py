"""The plainest readers that there can be, in pure Python, to hold the library's reading against: corners of every triangle, in order.

They check nothing and are slow; what they can't follow ends in any exception, and then says nothing.
"""

import gzip
import io
import json
import re
import struct
import xml.etree.ElementTree as ET
import zipfile
from itertools import pairwise
from pathlib import Path

import numpy as np

_KINDS = {"char": "b", "uchar": "B", "short": "h", "ushort": "H", "int": "i", "uint": "I", "float": "f", "double": "d",
          "int8": "b", "uint8": "B", "int16": "h", "uint16": "H", "int32": "i", "uint32": "I", "float32": "f", "float64": "d"}


def triangles(path: Path) -> np.ndarray:
    """The corners of the triangles that a file lists, (n, 3, 3)."""
    data, kind = path.read_bytes(), path.suffix
    if kind == ".gz":
        data, kind = gzip.decompress(data), path.suffixes[-2]
    found = {".stl": stl, ".obj": obj, ".off": off, ".ply": ply, ".glb": glb, ".3mf": threemf}[kind](data)
    return np.array(found, float).reshape(-1, 3, 3)


def fan(points, polygon):
    assert min(polygon) >= 0
    return [[points[polygon[0]], points[a], points[b]] for a, b in pairwise(polygon[1:])]


def lines(data: bytes) -> list[list[bytes]]:
    return [words for line in data.removeprefix(b"\xef\xbb\xbf").replace(b"\r", b"\n").split(b"\n") if (words := line.partition(b"#")[0].split())]


def stl(data):
    count = int.from_bytes(data[80:84], "little")
    if len(data) == 84 + 50 * count:
        return [struct.unpack("<9f", data[at + 12:at + 48]) for at in range(84, len(data), 50)]
    return [[float(word) for word in words] for words in re.findall(rb"vertex\s+(\S+)\s+(\S+)\s+(\S+)", data.lower())]


def obj(data):
    points, found = [], []
    for words in lines(data.replace(b"\r\n", b"\n").replace(b"\\\n", b"")):
        if words[0] == b"v":
            points.append([float(word) for word in words[1:4]])
        elif words[0] == b"f":
            found.append((len(points), [int(word.split(b"/")[0]) for word in words[1:]]))
    return [each for count, polygon in found for each in fan(points, [n - 1 if n > 0 else count + n for n in polygon])]


def off(data):
    rows = lines(data)
    words = rows[0][1:] or rows[1]
    rows = rows[1 if rows[0][1:] else 2:]
    count, faces = int(words[0]), int(words[1])
    points = [[float(word) for word in row[:3]] for row in rows[:count]]
    return [each for row in rows[count:count + faces] for each in fan(points, [int(word) for word in row[1:1 + int(row[0])]])]


def ply(data):
    head, end = re.split(rb"(?<=\n)end_header\s*?\n", data, maxsplit=1)
    tables, order = [], ""
    for words in head.decode("latin-1").splitlines():
        match words.split():
            case ["format", order, *_]:
                pass
            case ["element", name, rows]:
                tables.append((name, int(rows), []))
            case ["property", *kinds, column]:
                tables[-1][2].append((column, [_KINDS[kind] for kind in kinds if kind != "list"]))
    words, at = iter(end.split()) if order == "ascii" else None, 0

    def one(kind):
        nonlocal at
        if words is not None:
            return float(next(words)) if kind in "fd" else int(next(words))
        layout = (">" if "big" in order else "<") + kind
        at += struct.calcsize(layout)
        return struct.unpack_from(layout, end, at - struct.calcsize(layout))[0]

    read = {name: [{column: one(kinds[0]) if len(kinds) == 1 else [one(kinds[1]) for _ in range(one(kinds[0]))] for column, kinds in columns}
                   for _ in range(rows)] for name, rows, columns in tables}
    points = [[row["x"], row["y"], row["z"]] for row in read["vertex"]]
    return [each for row in read["face"] for each in fan(points, row.get("vertex_indices") or row["vertex_index"])]


def glb(data):
    length = int.from_bytes(data[12:16], "little")
    tree, blob = json.loads(data[20:20 + length]), data[28 + length:]

    def table(number, kind):
        accessor = tree["accessors"][number]
        assert accessor["componentType"] == kind and "byteStride" not in tree["bufferViews"][accessor["bufferView"]]
        begin = tree["bufferViews"][accessor["bufferView"]].get("byteOffset", 0) + accessor.get("byteOffset", 0)
        layout = "<" + str(accessor["count"] * {"SCALAR": 1, "VEC3": 3}[accessor["type"]]) + {5126: "f", 5125: "I"}[kind]
        return struct.unpack_from(layout, blob, begin)

    found = []

    def walk(number, place):
        node = tree["nodes"][number]
        assert not {"translation", "rotation", "scale"} & set(node)
        place = place @ np.reshape(node.get("matrix", np.eye(4)), (4, 4)).T
        for part in tree["meshes"][node["mesh"]]["primitives"] if "mesh" in node else []:
            assert part.get("mode", 4) == 4
            points = np.reshape(table(part["attributes"]["POSITION"], 5126), (-1, 3)) @ place[:3, :3].T + place[:3, 3]
            found.extend(points[np.reshape(table(part["indices"], 5125), (-1, 3))])
        for child in node.get("children", []):
            walk(child, place)

    for root in tree["scenes"][tree.get("scene", 0)]["nodes"]:
        walk(root, np.eye(4))
    return found


def threemf(data):
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        root = ET.fromstring(package.read("3D/3dmodel.model"))
    core, found = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}", []
    objects = {each.get("id"): each for each in root.iter(core + "object")}
    assert root.get("unit", "millimeter") != "micron"

    def walk(key, place, said):
        if said is not None:
            place = place @ np.vstack([np.reshape([float(word) for word in said.split()], (4, 3)).T, [0, 0, 0, 1]])
        points = [[float(v.get(axis)) for axis in "xyz"] for v in objects[key].iter(core + "vertex")]
        for each in objects[key].iter(core + "triangle"):
            corners = np.array([points[int(each.get(name))] for name in ("v1", "v2", "v3")])
            found.append(corners @ place[:3, :3].T + place[:3, 3])
        for part in objects[key].iter(core + "component"):
            walk(part.get("objectid"), place, part.get("transform"))

    for item in root.find(core + "build"):
        walk(item.get("objectid"), np.eye(4), item.get("transform"))
    return found
