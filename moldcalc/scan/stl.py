"""STL files, binary and text: every count is checked before and after, since a cut file otherwise reads as an empty one.

Text is read by trimesh. Binary is read here by numpy, in pieces: through trimesh the same file takes about five times as long, and a
scan of a million triangles has to be read and measured in five times what a bare read takes.
"""

import re
from codecs import BOM_UTF8
from io import BytesIO

import numpy as np

from moldcalc.scan.lists import NUMBER, bad_words
from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.source import CHUNK, TEXT_CHUNK, Raw, Source, library, surface

_FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
_HEAD = 84
_POINT = rb"vertex[ \t]+\S+[ \t]+\S+[ \t]+\S+[ \t]*\n\s*"
_BAD_POINT = re.compile(rb"vertex(?!" + 3 * (rb"[ \t]+" + NUMBER) + rb"[ \t]*\n)[^\n]*")
_WRITTEN = re.compile(rb"facet\s+normal\s+\S+\s+\S+\s+\S+\s+outer\s+loop\s+" + 3 * _POINT + rb"endloop\s+endfacet")
_BEGIN = re.compile(rb"facet\s+normal\s")
_CORNER = re.compile(rb"(?:^|\n)\s*vertex\s")


def read_stl(source: Source) -> Work[Raw]:
    """Reads an STL file, binary or text."""
    head = source.head(_HEAD)
    count = int.from_bytes(head[80:84], "little") if len(head) == _HEAD else 0
    if len(head) == _HEAD and source.size == _HEAD + _FACET.itemsize * count:
        return (yield from _binary(source, count))
    start = source.head().removeprefix(BOM_UTF8).lstrip()
    if start[:1] == b"<":
        raise source.refuse("is a web page or XML, not an STL mesh; download the file itself.")
    text = b"\0" not in source.head(4096)
    if text and (start[:5].lower() == b"solid" or b"facet" in start.lower()):
        return (yield from _text(source))
    if text and all(byte >= 32 or byte in b"\t\r\n\f" for byte in start):
        raise source.refuse("is text, but no list of triangles as STL has it; export the scan as STL again.")
    if len(head) < _HEAD:
        raise source.cut(f"is only {source.size} bytes long, less than the head of an STL file")
    expected = _HEAD + _FACET.itemsize * count
    which = "shorter" if source.size < expected else "longer"
    raise source.cut(f"is {which} than its head says: {count:,} triangles take {expected:,} bytes, and it has {source.size:,}"
                     .replace(",", " ").replace("  ", ", "))


def _binary(source: Source, count: int) -> Work[Raw]:
    if not count:
        raise source.refuse("has no triangles; export the scan again.")
    source.counted(count)
    corners = np.empty((count, 3, 3), np.float32)
    step = CHUNK // _FACET.itemsize
    source.file.seek(_HEAD)
    for first in range(0, count, step):
        piece = source.file.read(_FACET.itemsize * min(step, count - first))
        if len(piece) % _FACET.itemsize:
            raise source.cut("became shorter while it was read")
        facets = np.frombuffer(piece, _FACET)
        corners[first:first + len(facets)] = facets["corners"]
        yield Progress("reading triangles", (first + len(facets)) / count)
    return Raw(corners.reshape(-1, 3), np.arange(3 * count, dtype=np.int64).reshape(-1, 3), shared=False)


def _text(source: Source) -> Work[Raw]:
    """Text, read by trimesh a few megabytes at a time: it holds all words of what it is given as Python objects."""
    from trimesh.exchange.stl import load_stl_ascii

    found: list[np.ndarray] = []
    begun = ended = total = listed = 0
    left = b""
    for share, piece in source.chunks(length=TEXT_CHUNK):
        piece = (left + piece).lower().replace(b"\r", b"\n")
        end = piece.rfind(b"endfacet") + len(b"endfacet")
        if end < len(b"endfacet"):
            end = 0
        if len(piece) - end > CHUNK:
            raise source.refuse("is text, but no list of triangles as STL has it; export the scan as STL again.")
        whole, left = piece[:end], piece[end:]
        begun += len(_BEGIN.findall(whole))
        ended += whole.count(b"endfacet")
        listed += len(_CORNER.findall(whole))
        facets = [facet[0] for facet in _WRITTEN.finditer(whole)]
        total = source.counted(total + len(facets))
        if facets:
            if bad := _BAD_POINT.search(b"\n".join(facets)):
                raise bad_words(source, bad[0].split()[1:4], "a corner of a triangle")
            with library(source):
                one = load_stl_ascii(BytesIO(b"solid\n" + b"\n".join(facets).replace(b"facet normal", b"facet") + b"\nendsolid\n"))
            found.append(surface(source, one, 3 * len(facets), len(facets)).vertices)
        yield Progress("reading triangles", share)
    begun += len(_BEGIN.findall(left))
    if begun != ended or b"endsolid" not in left:
        raise source.cut(f"begins {begun:,} triangles and ends {ended:,}".replace(",", " ")
                         + ("" if b"endsolid" in left else ", and has no end of its own ('endsolid')"))
    if total != ended:
        raise source.refuse(f"has {ended - total} of {ended} triangles that are not written as three corners; export the scan again.")
    if listed > 3 * total:
        raise source.cut(f"lists {listed} corners, more than its {total} triangles have")
    if not total:
        raise source.refuse("has no triangles; export the scan again.")
    corners = np.concatenate(found)
    return Raw(corners, np.arange(len(corners), dtype=np.int64).reshape(-1, 3), shared=False)
