"""Meshes listed as text: OBJ and OFF. trimesh reads them; here stands what is checked before and after.

The library passes over lines that it does not know, takes corner 0 for the first point and rows of other lengths for others, so every
line of a point or a polygon is looked at first, and the triangles that come out are held against those counted.
"""

import re
from codecs import BOM_UTF8
from collections.abc import Iterable, Iterator
from io import BytesIO
from itertools import chain

from moldcalc.errors import FileError, clipped
from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.source import CHUNK, LARGEST_LISTED, LARGEST_TRIANGLES, Raw, Source, library, surface

#: a line that is continued over others with backslashes
_LONGEST_LINE = 1 << 16
#: one blank between words, one kind of line end; bytes that are no ASCII stand in no number
_BLANKS = bytes(10 if byte == 13 else 32 if byte in b"\t\f\v" else byte if byte == 10 or 32 <= byte < 127 else 63 for byte in range(256))
NUMBER = rb"[-+]?(?:(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?|(?i:nan|inf(?:inity)?))"
_CORNER = rb"-?0*[1-9]\d{0,9}"
_OBJ_LINES = re.compile(rb"^[vf](?: [^\n]*)?$", re.MULTILINE)
_BAD_POLYGON = re.compile(rb"^f(?!(?: " + _CORNER + rb"){3,}$)[^\n]*", re.MULTILINE)
_OFF_HEAD = re.compile(rb"(?:CN|C|N)?OFF\s+(?:(BINARY)|(\d{1,12}) (\d{1,12})(?: [^\n]*)?(?:\n|$))", re.IGNORECASE)


def plain(source: Source, start: int = 0) -> Iterator[tuple[float, bytes]]:
    """Text from a place on in pieces of whole lines, without remarks and with single blanks: (share of the file that is read, piece)."""
    left = b""
    for share, piece in source.chunks(start):
        piece = (left + piece).removeprefix(BOM_UTF8)
        end = len(piece) if share == 1.0 else (piece.rfind(b"\n") + 1 or piece.rfind(b"\r") + 1)
        if share < 1.0 and piece[:end].rstrip(b"\r\n")[-1:] == b"\\":
            end = 0
        text, left = piece[:end].replace(b"\r\n", b"\n").replace(b"\\\n", b"").translate(_BLANKS), piece[end:]
        if len(left) > 2 * CHUNK or any(len(line) > _LONGEST_LINE for line in text.split(b"\n")):
            raise source.refuse("has a line that goes on for more than 64 kB; it is no list of triangles. Export it again.")
        if b"#" in text:
            text = re.sub(rb"#[^\n]*", b"", text)
        if b"  " in text or b" \n" in text or b"\n " in text or b"\n\n" in text:
            text = re.sub(rb" ?\n[ \n]*", b"\n", re.sub(rb" +", b" ", text))
        yield share, text.strip()


def bad_words(source: Source, words: Iterable[bytes], what: str) -> FileError:
    """The sentence about the first word that is no number."""
    for word in words:
        if not re.fullmatch(NUMBER, word):
            text = clipped(word.decode("utf-8", "replace"), 24)
            if b"," in word:
                return source.refuse(f"has numbers with a decimal comma ('{text}'); export it with decimal points.")
            return source.refuse(f"has '{text}' where a number should stand ({what}); copy or export it again.")
    return source.refuse("has a point of fewer or more numbers than it should have; it was cut off or damaged. Copy or export it again.")


def check_points(source: Source, text: bytes, more: str = "2,") -> None:
    """Raises the sentence about the first line that is not a number and so many more."""
    row = NUMBER + rb"(?: " + NUMBER + rb"){" + more.encode() + rb"}$"
    if bad := re.search(rb"^(?!" + row + rb")[^\n]*", text, re.MULTILINE):
        raise bad_words(source, bad[0].split(), "a coordinate of a point")


def _bad_polygon(source: Source, words: list[bytes]) -> FileError:
    if len(words) < 3:
        return source.refuse("has a polygon of fewer than three corners; it was cut off or damaged. Copy or export it again.")
    if any(not re.fullmatch(rb"[-+]?\d+", word) for word in words):
        return source.refuse("has something else where a whole number should stand (a corner of a polygon); copy or export it again.")
    return source.refuse("has a triangle that asks for a point that is not there; it was cut off or damaged. Copy or export it again.")


def read_obj(source: Source) -> Work[Raw]:
    """Reads an OBJ file; colours, textures, groups and the files it names are left alone.

    Only its points and polygons are handed to the library, whose one long call can't be stopped or shown in steps.
    """
    from trimesh.exchange.obj import load_obj

    points: list[bytes] = []
    polygons: list[bytes] = []
    count = total = 0
    back = False
    for share, text in plain(source):
        lines = _OBJ_LINES.findall(text)
        listed = [line for line in lines if line[:1] == b"v"]
        faces = [line for line in lines if line[:1] == b"f"]
        if listed:
            points.append(_three(source, b"\n".join(listed)))
            count += len(listed)
        if faces:
            polygons.append(re.sub(rb"/[^ \n]*", b"", b"\n".join(faces)))
            if bad := _BAD_POLYGON.search(polygons[-1]):
                raise _bad_polygon(source, bad[0].split()[1:])
            total = source.counted(total + polygons[-1].count(b" ") - 2 * len(faces))
        between = listed and (back or (faces and lines.index(faces[0]) < len(listed)))
        back = back or bool(faces and b"-" in polygons[-1])
        if back and between:
            raise source.refuse("counts corners backwards from between its points, which is not read right here; export it again or as STL.")
        if count > 3 * LARGEST_TRIANGLES:
            raise source.refuse("has more points than are read; export it with fewer triangles.")
        yield Progress("checking lines", share / 2)
    if not count:
        raise source.refuse("has no points as OBJ lists them; export the scan as OBJ again.")
    yield Progress("reading", 0.5)
    file = BytesIO(b"\n".join(points + polygons))
    points = polygons = []
    with library(source):
        found = load_obj(file, skip_materials=True, maintain_order=True)
        found = next(iter(found["geometry"].values())) if "geometry" in found else found
    return surface(source, found, count, total)


def _three(source: Source, text: bytes) -> bytes:
    """Lines of points, checked, without what stands after the third coordinate."""
    if bad := re.search(rb"^v(?!" + 3 * (rb" " + NUMBER) + rb"(?: |$))[^\n]*", text, re.MULTILINE):
        raise bad_words(source, bad[0].split()[1:4], "a coordinate of a point")
    return re.sub(rb"^(v \S+ \S+ \S+) [^\n]*", rb"\1", text, flags=re.MULTILINE) if text.count(b" ") > 3 * (text.count(b"\n") + 1) else text


def shared_out(source: Source, pieces: Iterable[tuple[float, bytes]], sizes: list[tuple[str, int]]) -> Iterator[tuple[float, int, list[bytes]]]:
    """Lines given to tables of known sizes one after the other: (share that is read, number of the table, its next lines)."""
    left = [rows for _, rows in sizes]
    table = 0
    for share, text in pieces:
        lines = text.split(b"\n") if text else []
        while lines and table < len(left):
            if not left[table]:
                table += 1
                continue
            mine, lines = lines[:left[table]], lines[left[table]:]
            left[table] -= len(mine)
            yield share, table, mine
    if any(left):
        raise source.cut(f"says it has {' and '.join(f'{rows} {name}' for name, rows in sizes)}, and lists "
                         + " and ".join(str(rows - more) for (_, rows), more in zip(sizes, left, strict=True)))


def corners(source: Source, lines: list[bytes], before: int = 0, after: int | None = None) -> int:
    """How many triangles lines of polygons are: each says its number of corners, then has them; others may stand before and after."""
    try:
        counts = [int(line.split(b" ", before + 1)[before]) for line in lines]
    except (ValueError, IndexError):
        raise source.refuse("has something else where a whole number should stand (the number of corners of a face); "
                            "copy or export it again.") from None
    spare = [line.count(b" ") - before - count for line, count in zip(lines, counts, strict=True)]
    if min(spare) < (after or 0) or (after is not None and max(spare) > after):
        raise source.refuse("has a face of fewer corners than it says; it was cut off or damaged. Copy or export it again.")
    if min(counts) < 3:
        raise _bad_polygon(source, [])
    return sum(counts) - 2 * len(counts)


def read_off(source: Source) -> Work[Raw]:
    """Reads an OFF file in text; the library's one long call can't be stopped or shown in steps."""
    from trimesh.exchange.off import load_off

    pieces = plain(source)
    share, text = next(pieces)
    head = _OFF_HEAD.match(text)
    if not re.match(rb"(?:CN|C|N)?OFF(?:\s|$)", text, re.IGNORECASE):
        raise source.refuse("does not begin with OFF as such a file does; export the scan again.")
    if head is None:
        raise source.refuse("does not say how many points and faces it has; export the scan again.")
    if head[1]:
        raise source.refuse("is a binary OFF file, which is not read here; export it as text, STL or PLY.")
    sizes = [int(head[2]), int(head[3])]
    source.counted(sizes[1], LARGEST_LISTED)
    if 4 * sum(sizes) > source.size:
        raise source.cut(f"says it has {sizes[0]} points and {sizes[1]} faces, more than its {source.size} bytes can hold")
    kept, total = [b"OFF", b"%d %d 0" % tuple(sizes)], 0
    lengths: set[int] = set()
    rest = ((now, piece[head.end():] if piece is text else piece) for now, piece in chain([(share, text)], pieces))
    for share, table, lines in shared_out(source, rest, [("points", sizes[0]), ("faces", sizes[1])]):
        kept.append(b"\n".join(lines))
        if table == 0:
            check_points(source, kept[-1])
        else:
            total = source.counted(total + corners(source, lines), LARGEST_LISTED)
            lengths |= {int(line.split(b" ", 1)[0]) for line in lines}
            if len(lengths) > 1 and max(lengths) > 4:  # the library fails at these
                raise source.refuse("has faces of five or more corners besides others, which are not read in OFF; export it with triangles only, "
                                    "or as OBJ, PLY or STL.")
        yield Progress("checking lines", share / 2)
    yield Progress("reading", 0.5)
    file = BytesIO(b"\n".join(kept))
    kept = []
    with library(source):
        found = load_off(file)
    return surface(source, found, sizes[0], total)
