"""PLY files, text and binary of either byte order. trimesh reads their tables; here stands what is checked before and after.

The library believes the counts of the head, takes the first face's number of corners for all of a binary table, and reads textures
and colours as well; so the head is checked against the bytes there are, and handed on without what is not needed.
"""

import re
from io import BytesIO
from typing import NamedTuple

import numpy as np

from moldcalc.scan.lists import check_points, corners, plain, shared_out
from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.source import LARGEST_LISTED, LARGEST_TRIANGLES, Raw, Source, library, surface

#: the format's names of kinds of number, and their bytes
_BYTES = {"char": 1, "uchar": 1, "short": 2, "ushort": 2, "int": 4, "uint": 4, "float": 4, "double": 8,
          "int8": 1, "uint8": 1, "int16": 2, "uint16": 2, "int32": 4, "uint32": 4, "float32": 4, "float64": 8}
_LARGEST_HEAD = 1 << 16
_CORNERS = ("vertex_indices", "vertex_index")


class Table(NamedTuple):
    """One table of the file: its name, how many rows, and its columns as (kinds of number: one, or of a list's length and of its numbers; name)."""

    name: str
    rows: int
    columns: list[tuple[list[str], str]]

    def head(self, number: int) -> str:
        """The table's lines of a head in which only points, x, y, z, faces and corners keep their names."""
        name = self.name if self.name in ("vertex", "face") else f"other{number}"
        kept = {"vertex": ("x", "y", "z"), "face": _CORNERS}.get(self.name, ())
        return f"element {name} {self.rows}\n" + "".join(
            f"property {'list ' if len(kinds) > 1 else ''}{' '.join(kinds)} {column if column in kept else f'other{place}'}\n"
            for place, (kinds, column) in enumerate(self.columns))


def _head(source: Source) -> tuple[str, list[Table], int]:
    """How numbers are written, the tables, and where they begin."""
    head = source.head(_LARGEST_HEAD)
    if not re.match(rb"ply\s", head):
        raise source.refuse("does not begin with 'ply' as such a file does; export the scan again.")
    end = re.search(rb"(?:\n|\r)end_header[ \t]*(?:\r\n|\n|\r)", head)
    if end is None:
        raise source.cut("has no end of its head")
    order, tables = "", []
    for line in head[: end.start()].decode("latin-1").splitlines()[1:]:
        match line.split():
            case ["format", order, *_]:
                pass
            case ["element", name, rows] if re.fullmatch("[0-9]{1,12}", rows):
                tables.append(Table(name, int(rows), []))
            case ["property", "list", counted, kind, name] if tables and {counted, kind} <= set(_BYTES) and counted[0] not in "fd":
                tables[-1].columns.append(([counted, kind], name))
            case ["property", kind, name] if tables and kind in _BYTES:
                tables[-1].columns.append(([kind], name))
            case ["element" | "property", *_]:
                raise source.refuse("has a table whose rows or columns can't be read; export the scan again.")
    if order not in ("ascii", "binary_little_endian", "binary_big_endian"):
        raise source.refuse("does not say how its numbers are written; export the scan again.")
    return order, tables, end.end()


def _mesh(source: Source, tables: list[Table]) -> tuple[Table, Table, int]:
    """The tables of points and of faces, whose columns must be as a mesh has them; and the place of the corners among a face's columns."""
    names = [table.name for table in tables]
    if names.count("vertex") != 1 or names.count("face") != 1:
        strips = " It has strips; let it be written with separate triangles." if "tristrips" in names else ""
        raise source.refuse(f"has no table of points and one of faces, so it is no mesh.{strips} Mesh it first, then export it.")
    points, faces = (next(table for table in tables if table.name == name) for name in ("vertex", "face"))
    if any([column for _, column in points.columns].count(axis) != 1 for axis in "xyz") or any(len(kinds) > 1 for kinds, _ in points.columns):
        raise source.refuse("has points without x, y and z; export the scan again.")
    at = [place for place, (_, column) in enumerate(faces.columns) if column in _CORNERS]
    if len(at) != 1 or len(faces.columns[at[0]][0]) < 2 or faces.columns[at[0]][0][1][0] in "fd":
        raise source.refuse("has faces without corners that are whole numbers; export the scan again.")
    return points, faces, at[0]


def read_ply(source: Source) -> Work[Raw]:
    """Reads a PLY file; only points and faces of it. The library's one long call can't be stopped or shown in steps."""
    from trimesh.exchange.ply import load_ply

    order, tables, start = _head(source)
    points, faces, at = _mesh(source, tables)
    text = order == "ascii"
    source.counted(faces.rows, LARGEST_LISTED if text else LARGEST_TRIANGLES)
    need = sum(table.rows * (2 if text else sum(_BYTES[kinds[0]] for kinds, _ in table.columns)) for table in tables)
    if need > source.size - start + 2:
        raise source.cut(f"says it has {points.rows} points and {faces.rows} faces, more than its {source.size} bytes can hold")
    head = f"ply\nformat {order} 1.0\n"
    if text:
        file, total = yield from _text(source, tables, start, at, head)
    else:
        whole = head + "".join(table.head(n) for n, table in enumerate(tables)) + "end_header\n"
        file = yield from source.whole(start, whole.encode())
    yield Progress("reading", 0.5)
    with library(source):
        found = load_ply(file, skip_materials=True, fix_texture=False)
    if not text:
        total = _even(source, found["metadata"]["_ply_raw"]["face"].get("data"), faces, faces.columns[at][1])
    return surface(source, found, points.rows, total)


def _even(source: Source, rows: np.ndarray | None, faces: Table, name: str) -> int:
    """The triangles of a binary table, whose lists must all be as long as the library took them to be."""
    if rows is None or not len(rows):
        return 0
    lists = {column: (rows[column]["f0"], rows[column]["f1"].reshape(len(rows), -1)) for column in rows.dtype.names or () if rows.dtype[column].names}
    if name not in lists or any((said != held.shape[1]).any() for said, held in lists.values()):
        raise source.refuse("has faces of different numbers of corners, which are not read in binary PLY; export it with triangles only, "
                            "or as text, OBJ or STL.")
    return len(rows) * (lists[name][1].shape[1] - 2)


def _text(source: Source, tables: list[Table], start: int, at: int, head: str) -> Work[tuple[BytesIO, int]]:
    """The rows of points and faces with a head of their own, each looked at; and how many triangles the faces are."""
    kept, total = [head.encode() + "".join(table.head(0) for table in tables if table.name in ("vertex", "face")).encode() + b"end_header"], 0
    for share, number, lines in shared_out(source, plain(source, start), [(f"rows of '{table.name}'", table.rows) for table in tables]):
        table = tables[number]
        if table.name in ("vertex", "face"):
            kept.append(b"\n".join(lines))
        if table.name == "vertex":
            check_points(source, kept[-1], f"{len(table.columns) - 1}")
        elif table.name == "face":
            if sum(len(kinds) > 1 for kinds, _ in table.columns) > 1:
                raise source.refuse("has faces with more lists than that of their corners; export the mesh alone.")
            total = source.counted(total + corners(source, lines, at, len(table.columns) - at - 1), LARGEST_LISTED)
        yield Progress("checking lines", share / 2)
    return BytesIO(b"\n".join([*kept, b""])), total
