"""GLB files: metres, y up. trimesh reads their tables and puts its meshes where the scene puts them; here stands what is checked.

The library believes counts, lays tables without data out as zeros, passes over changes to points and over fans, and follows names of
other files; so the description is checked against the bytes there are, and handed on with nothing but points, corners and places.
"""

import json
import re
import struct
from typing import Any

from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.source import LARGEST_TRIANGLES, Raw, Source, assembled, library

_BYTES = {5120: 1, 5121: 1, 5122: 2, 5123: 2, 5125: 4, 5126: 4}
_LARGEST_TREE = 16_000_000
_LARGEST_TABLES = 250_000_000
_DEEPEST = 64
_PLACES = 10_000
Tree = dict[str, Any]


class _Odd(Exception):
    """Something in the tree that is not as the format says."""


def read_glb(source: Source) -> Work[Raw]:
    """Reads a GLB file: every triangle of its scene, put where the scene puts it.

    The library's one long call can't be stopped or shown in steps.
    """
    from trimesh import load

    tree, first, size = _chunks(source)
    try:
        bare, total, other = _bare(source, tree, size)
    except (_Odd, KeyError, IndexError, TypeError, ValueError, AttributeError, OverflowError) as odd:
        what = str(odd) if isinstance(odd, _Odd) else "its tables do not fit together"
        raise source.refuse(f"can't be read: {what}. It was cut off or damaged; copy or export it again.") from None
    if not total:
        raise source.refuse("has no triangles; export the scan again.")
    text = json.dumps(bare).encode()
    file = yield from source.whole(20 + first, struct.pack("<4sIII4s", b"glTF", 2, 28 + len(text) + size, len(text), b"JSON") + text)
    yield Progress("reading", 0.5)
    with library(source):
        scene = load(file, file_type="glb", force="scene", process=False, skip_materials=True)
    notes = (f"{other} parts of lines or points were left out",) if other else ()
    return assembled(source, scene, total)._replace(unit="m", up="+y", notes=notes)


def _chunks(source: Source) -> tuple[Tree, int, int]:
    """The description, its length, and the length of the data."""
    head = source.head(20)
    if head[:4] != b"glTF" or len(head) < 20:
        raise source.refuse("does not begin as a GLB file does; export the scan again.")
    version, length, first = struct.unpack("<III", head[4:16])
    if version != 2 or head[16:20] != b"JSON":
        raise source.refuse("is not GLB of version 2; export the scan again.")
    if length != source.size or 20 + first > length:
        raise source.cut(f"says it is {length} bytes long, and has {source.size}")
    if first > _LARGEST_TREE:
        raise source.refuse("has a description too large to be read; export the mesh alone.")
    text = source.head(28 + first)[20:]
    try:
        tree = json.loads(text[:first])
    except (ValueError, RecursionError):
        tree = None
    if not isinstance(tree, dict):
        raise source.refuse("has a description that can't be read; it was cut off or damaged. Copy or export it again.")
    if (second := text[first:]) and second[4:8] != b"BIN\0":
        raise source.refuse("has no data of its own after its description; export it again.")
    size = int.from_bytes(second[:4], "little")
    if second and 28 + first + size > length:
        raise source.cut("is shorter than its data should be")
    return tree, first, size


def _natural(value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or value < 0:
        raise _Odd("a count in it is no whole number")
    return value


def _table(tree: Tree, size: int, number: int, kind: str) -> tuple[Tree, Tree]:
    """An accessor and its view as they are handed on, checked against the bytes there are."""
    accessor = tree["accessors"][_natural(number)]
    if "sparse" in accessor:
        raise _Odd("it keeps its points as changes to other points")
    if accessor.get("normalized"):
        raise _Odd("its points are squeezed into whole numbers, which is not read here")
    if accessor["type"] != kind or (kind == "SCALAR" and accessor["componentType"] not in (5121, 5123, 5125)):
        raise _Odd("its points have no three coordinates" if kind == "VEC3" else "its corners are no whole numbers")
    count, row = _natural(accessor["count"]), _BYTES[accessor["componentType"]] * {"SCALAR": 1, "VEC3": 3}[kind]
    view = tree["bufferViews"][_natural(accessor["bufferView"])]
    if _natural(view["buffer"]) or "uri" in tree["buffers"][0]:
        raise _Odd("its triangles are in another file")
    begin, length, offset = (_natural(place.get(key, 0)) for place, key in ((view, "byteOffset"), (view, "byteLength"), (accessor, "byteOffset")))
    stride = _natural(view.get("byteStride", row))
    span = stride * (count - 1) + row
    if not count or stride < row or begin + length > size or offset + span > length:
        raise _Odd("it says it has more points than it holds")
    return ({"componentType": accessor["componentType"], "type": kind, "count": count},
            {"buffer": 0, "byteOffset": begin + offset, "byteLength": span, "byteStride": stride})


def _bare(source: Source, tree: Tree, size: int) -> tuple[Tree, int, int]:
    """The same scene with nothing but points, corners and places; how many triangles it puts down, how many parts have none."""
    if re.search("draco|meshopt", str(tree.get("extensionsRequired")), re.IGNORECASE):
        raise _Odd("its triangles are compressed in a way that is not read here; export it without compression")
    views: list[Tree] = []
    tables: list[Tree] = []
    known: dict[tuple[int, str], int] = {}
    parts: list[Tree] = []
    counts: list[tuple[int, int]] = []
    meshes, other, held = [], 0, 0

    def table(number: int, kind: str) -> tuple[int, int]:
        nonlocal held
        if (number, kind) not in known:
            accessor, view = _table(tree, size, number, kind)
            known[number, kind] = len(tables)
            tables.append(accessor | {"bufferView": len(views)})
            views.append(view)
            held += view["byteLength"]
        if held > _LARGEST_TABLES or len(tables) > 2 * _PLACES:
            raise _Odd("it has more points or parts than are read")
        return known[number, kind], tables[known[number, kind]]["count"]

    for mesh in tree.get("meshes") or []:
        before = len(parts)
        for part in mesh["primitives"]:
            mode = part.get("mode", 4)
            if mode == 6:
                raise _Odd("its triangles are in fans, which are not read here")
            if mode not in (4, 5):
                other += 1
                continue
            position, points = table(part["attributes"]["POSITION"], "VEC3")
            order, corners = table(part["indices"], "SCALAR") if "indices" in part else (-1, points)
            if corners < 3 or (mode == 4 and corners % 3) or len(parts) > _PLACES:
                raise _Odd("its last triangle has not three corners, or it has too many parts")
            parts.append({"primitives": [{"attributes": {"POSITION": position}, "mode": mode} | ({"indices": order} if order >= 0 else {})]})
            counts.append((corners // 3 if mode == 4 else corners - 2, points))
        meshes.append(range(before, len(parts)))
    nodes, roots, total = _places(source, tree, meshes, counts)
    return {"asset": {"version": "2.0"}, "buffers": [{"byteLength": size}], "bufferViews": views, "accessors": tables,
            "meshes": parts, "nodes": nodes, "scenes": [{"nodes": roots}], "scene": 0}, total, other


def _places(source: Source, tree: Tree, meshes: list[range], counts: list[tuple[int, int]]) -> tuple[list[Tree], list[int], int]:
    """The nodes with nothing but places, each part of a mesh on one of its own; those on which all others stand; how many triangles that is.

    The library gives parts that stand on one node names by chance, and loses one where two names are the same.
    """
    if not tree.get("scenes"):
        tree = {"scenes": [{"nodes": list(range(len(meshes)))}], "nodes": [{"mesh": number} for number in range(len(meshes))]}
    nodes: list[Tree] = []
    single: list[Tree] = []
    given = range(len(tree.get("nodes") or []))
    for node in tree.get("nodes") or []:
        own = meshes[_natural(node["mesh"])] if "mesh" in node else range(0)
        nodes.append({key: node[key] for key in ("matrix", "translation", "rotation", "scale") if key in node})
        first = len(given) + len(single)
        nodes[-1]["children"] = [given[_natural(child)] for child in node.get("children") or []] + [*range(first, first + len(own))]
        single += [{"mesh": part} for part in own]
        if len(single) > _PLACES:
            raise _Odd("it has more parts than are read")
    nodes += single
    roots = [given[_natural(root)] for root in tree["scenes"][_natural(tree.get("scene", 0))].get("nodes") or []]
    waiting, triangles, points = [(root, 0) for root in roots], 0, 0
    seen: set[int] = set()
    while waiting:
        number, depth = waiting.pop()
        if depth > _DEEPEST or len(seen) > 2 * _PLACES or number in seen:
            raise _Odd("its parts are nested without an end, or one of them stands in two places")
        seen.add(number)
        here = counts[nodes[number]["mesh"]] if "mesh" in nodes[number] else (0, 0)
        triangles, points = source.counted(triangles + here[0]), points + here[1]
        if points > 3 * LARGEST_TRIANGLES:
            raise _Odd("it has more points than are read")
        waiting += [(child, depth + 1) for child in nodes[number].get("children", [])]
    return nodes, roots, triangles
