"""Small scans of every kind, ways to damage them, and what may come of it: a sentence or a right answer."""

import gzip
import io
import math
import struct
import zipfile
from functools import cache
from pathlib import Path
from typing import NamedTuple

import numpy as np
import trimesh
from trimesh.exchange.ply import export_ply
from trimesh.exchange.stl import export_stl_ascii

from moldcalc.errors import EntryError, FileError
from moldcalc.scan.body import Body
from moldcalc.scan.measuring import measure
from moldcalc.scan.progress import finish
from moldcalc.scan.reading import placed, read_scan
from tests.scan import naive
from tests.scan.written import BOX, CORNER, HOUSE, as_big_ply, as_counted_back, as_obj, as_off, as_ply, as_text_ply, as_text_stl


class Edit(NamedTuple):
    """One damage: what is done, where (share of the length), and with what."""

    kind: str
    where: float
    payload: bytes
    length: int


KINDS = ("overwrite", "insert", "delete", "cut", "repeat", "swap", "flip", "number")
#: bytes that break readers: limits of whole numbers, no numbers, words of the formats, a decimal comma, half an entity
PAYLOADS = (b"\0", b"\xff" * 4, b"\xff\xff\xff\x7f", struct.pack("<f", math.nan), struct.pack("<f", math.inf), struct.pack("<f", 1e30), b"nan",
            b"-inf", b"1e999", b"-1", b"0", b"99999999999999999999", b"3", b"7", b"e2", b",", b"\n", b"\r\n", b" ", b"f 1 2 3\n", b"v 1 2 3\n",
            b"element vertex 4294967295\n",
            b"property list uchar int vertex_indices\n", b"endfacet", b"endsolid", b"solid", b"<!ENTITY a 'b'>", b"<html>", b"../../x",
            b"\"count\":4000000000", b"\"mode\":5", b"]}", b"{", b"/", b"#", b"\\\n", b"\xef\xbb\xbf", b"\x80\x81")


@cache
def seeds() -> tuple[tuple[str, bytes], ...]:
    """Boxes and balls, written by trimesh in every format, and houses with polygons, written by hand: (end of the name, content)."""
    found = []
    for mesh in (trimesh.creation.box((1, 2, 3)), trimesh.creation.icosphere(1, 10.0)):
        plain = [(f".{kind}", _bytes(mesh.export(file_type=kind))) for kind in ("stl", "obj", "ply", "off", "glb", "3mf")]
        plain += [(".stl", export_stl_ascii(mesh).encode()), (".ply", _bytes(export_ply(mesh, "ascii")))]
        found += [*plain, (".stl.gz", gzip.compress(plain[0][1], mtime=0)), (".obj.gz", gzip.compress(plain[1][1], mtime=0))]
    found += [(".obj", as_obj(*HOUSE).encode()), (".obj", as_counted_back(*HOUSE).encode()), (".ply", as_text_ply(*HOUSE).encode()),
              (".off", as_off(*BOX).encode()), (".ply", as_ply(*BOX)), (".ply", as_big_ply(*CORNER)), (".stl", as_text_stl(*CORNER).encode())]
    return tuple(found)


def _bytes(content: str | bytes) -> bytes:
    return content.encode() if isinstance(content, str) else content


def damaged(data: bytes, edit: Edit) -> bytes:
    """The content with one damage."""
    at = min(len(data), int(edit.where * len(data)))
    end = min(len(data), at + edit.length)
    match edit.kind:
        case "overwrite":
            return data[:at] + edit.payload + data[at + len(edit.payload):]
        case "insert":
            return data[:at] + edit.payload + data[at:]
        case "delete":
            return data[:at] + data[end:]
        case "cut":
            return data[:at]
        case "repeat":
            return data[:end] + data[at:]
        case "swap":
            return data[:at] + data[end:end + edit.length] + data[at:end] + data[end + edit.length:]
        case "flip":
            return data[:at] + bytes(byte ^ (1 << (edit.length % 8)) for byte in data[at:at + 1]) + data[at + 1:]
        case _:
            digit = next((i for i in range(at, len(data)) if 48 <= data[i] <= 57), None)
            return data if digit is None else data[:digit] + edit.payload + data[digit + 1:]


def mutated(kind: str, data: bytes, edits: list[Edit], *, inside: bool) -> bytes:
    """A scan's content with all the damages, for packed kinds to what is inside (then packed again) or to the package."""
    if inside and kind == ".3mf":
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            parts = {info.filename: package.read(info) for info in package.infolist()}
        whole = io.BytesIO()
        with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as package:
            for name, part in parts.items():
                package.writestr(name, mutated("", part, edits, inside=False) if name.endswith(".model") else part)
        return whole.getvalue()
    if inside and kind.endswith(".gz"):
        return gzip.compress(mutated("", gzip.decompress(data), edits, inside=False), mtime=0)
    for edit in edits:
        data = damaged(data, edit)
    return data


def verdict(path: Path) -> str:
    """'sentence' or 'answer'; anything else that a damaged scan leads to fails here."""
    try:
        scan = finish(read_scan(path))
    except FileError as said:
        text = str(said)
        assert path.name in text and text.endswith(".") and "\n" not in text and len(text) < 400, text
        return "sentence"
    assert len(scan.faces) and np.isfinite(scan.vertices).all()
    assert scan.faces.min() >= 0 and scan.faces.max() < len(scan.vertices)
    _right(path, scan)
    try:
        body = placed(scan, "mm")
        size = finish(measure(body, closed=scan.closed, consistent=scan.consistent, flange_width=0.05, wall=0.006))
    except EntryError:
        return "answer"
    assert_same_sums(body, size)
    return "answer"


def assert_same_sums(body: Body, size) -> None:
    """Area and volume are those that trimesh finds for the same triangles."""
    mesh = trimesh.Trimesh(body.vertices, body.faces, process=False)
    assert math.isclose(size.area_whole, mesh.area, rel_tol=1e-9, abs_tol=1e-15)
    if size.volume is not None:
        assert math.isclose(size.volume.likely, abs(mesh.volume), rel_tol=1e-6, abs_tol=1e-9 * size.area_whole * max(size.extents))
        assert size.volume.low <= size.volume.likely <= size.volume.high
    assert math.isfinite(size.brushed.volume(0.006).likely) and math.isfinite(size.flange_area.high)


def _right(path: Path, scan) -> None:
    """Where the plainest reader can follow the file too, it finds as many triangles and the same area."""
    try:
        corners = naive.triangles(path)
        assert np.isfinite(corners).all()
    except Exception:  # a damaged file that the plainest reader can't follow says nothing
        return
    if any("stood there twice" in note or "no area" in note for note in scan.notes):
        assert len(corners) > len(scan.faces)
        return
    assert len(corners) == len(scan.faces), (len(corners), len(scan.faces))
    edges = corners[:, 1:] - corners[:, :1]
    area = np.linalg.norm(np.cross(edges[:, 0], edges[:, 1]), axis=1).sum() / 2
    ours = trimesh.Trimesh(scan.vertices, scan.faces, process=False).area
    assert math.isclose(ours, area, rel_tol=1e-5, abs_tol=1e-12), (ours, area)
