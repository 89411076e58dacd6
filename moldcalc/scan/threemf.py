"""3MF files: a packed folder with one XML list of triangles, unpacked under a limit. trimesh reads the list; here stands what is checked.

The library would unpack everything inside, follows every way through the build without an end, and takes all meshes of another list
inside for each that is named; so only the one list is handed on, and its build is walked and counted first.
"""

import gc
import re
import zipfile
import zlib
from io import BytesIO

from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.source import LARGEST_PACKAGED, LARGEST_UNPACKED, Raw, Source, assembled, library

#: the format's names of units -> ours, and what one is in ours
_UNITS = {"micron": ("mm", 0.001), "millimeter": ("mm", 1.0), "centimeter": ("cm", 1.0), "inch": ("in", 1.0), "foot": ("ft", 1.0),
          "meter": ("m", 1.0)}
_STEP = 1 << 20
_FILES = 10_000
_DEEPEST = 32
_PLACES = 2_000
_TAG = re.compile(rb"<(/?)(?:[\w.-]+:)?(object|component|item|model)\b((?:[^<>\"']++|\"[^\"<]*+\"|'[^'<]*+')*+)>")
_SAID = re.compile(rb"([\w.:-]+)\s*=\s*(?:\"([^\"]*)\"|'([^']*)')")


class _Refused(Exception):
    """Something in the package that is refused; the text is the sentence's end."""


def read_3mf(source: Source) -> Work[Raw]:
    """Reads a 3MF file: every triangle of its build, put where the build puts it.

    The library's one long call can't be stopped or shown in steps.
    """
    from trimesh import load

    try:
        with zipfile.ZipFile(source.file) as package:
            text = yield from _fed(package)
        unit, total = _checked(source, text)
    except _Refused as why:
        raise source.refuse(str(why)) from None
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, NotImplementedError, RuntimeError):
        raise source.cut("can't be unpacked as a 3MF file") from None
    except (LookupError, ValueError):
        raise source.cut("has a list of triangles that can't be read") from None
    yield Progress("reading", 0.5)
    file = BytesIO()
    with zipfile.ZipFile(file, "w") as package:
        package.writestr("3D/3dmodel.model", text)
    file.seek(0)
    del text
    with library(source):
        scene = load(file, file_type="3mf", force="scene", process=False, postprocess=False)
    raw = assembled(source, scene, total)
    del file, scene
    gc.collect()  # the library's tree of elements holds on to itself: over a gigabyte for a million triangles
    ours, scale = _UNITS[unit]
    return raw._replace(vertices=raw.vertices * scale, unit=ours, notes=("its microns were turned into millimetres",) if scale != 1 else ())


def _fed(package: zipfile.ZipFile) -> Work[bytes]:
    """The one list of triangles inside that is read, unpacked in steps."""
    inside = package.infolist()
    if len(inside) > _FILES:
        raise _Refused(f"has {len(inside)} files inside; a scan has a few. Export the mesh alone.")
    models = {info.filename.lower().replace("\\", "/").lstrip("/"): info for info in inside if info.filename.lower().endswith(".model")}
    if not models:
        raise _Refused("has no list of triangles inside; export the scan again.")
    info = models.get("3d/3dmodel.model", next(iter(models.values())))
    if info.file_size > LARGEST_UNPACKED:
        raise _Refused(f"unpacks to {info.file_size / 1e6:.0f} MB; at most {LARGEST_UNPACKED / 1e6:.0f} MB are unpacked. Export it with "
                       "fewer triangles.")
    if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED) or info.flag_bits & 1:
        raise _Refused("is packed in a way that 3MF does not use (or with a password); export it again.")
    held = BytesIO()
    with package.open(info) as file:
        while piece := file.read(_STEP):
            held.write(piece)
            if held.tell() > LARGEST_UNPACKED:
                raise _Refused(f"unpacks to more than it says, over {LARGEST_UNPACKED / 1e6:.0f} MB; export it again.")
            yield Progress("unpacking", min(0.5, 0.5 * held.tell() / max(info.file_size, 1)))
    return held.getvalue()


def _checked(source: Source, text: bytes) -> tuple[str, int]:
    """The unit of the list, and how many triangles its build puts down; raises what is wrong with it."""
    if re.search(rb"<!(?:DOCTYPE|ENTITY)", text, re.IGNORECASE):
        raise _Refused("declares abbreviations of its own (XML entities), which a mesh does not need and which are not followed; export it again.")
    if b"\0" in text or re.match(rb"[^<]*<\?xml[^>]*encoding\s*=\s*[\"'](?!utf-8[\"'])", text, re.IGNORECASE):
        raise _Refused("is not written in UTF-8, which 3MF asks for; export it again.")
    source.counted(_triangles(text), LARGEST_PACKAGED)
    if text.count(b"<") > 3 * LARGEST_PACKAGED or text.count(b"=") > 6 * LARGEST_PACKAGED:
        raise _Refused("says more about its triangles than is read; export the mesh alone, or as STL.")
    unit, objects, build = _structure(re.sub(rb"<!--.*?-->", b"", text, flags=re.DOTALL) if b"<!" in text else text)
    if unit not in _UNITS:
        raise _Refused("names a unit that 3MF does not have; export it again.")
    waiting, walked, total = [(name, 0) for name in build], 0, 0
    while waiting:
        name, depth = waiting.pop()
        walked += 1
        if depth > _DEEPEST or walked > _PLACES:
            raise _Refused("has parts that are nested without an end, or too many of them; export it again.")
        count, parts = objects[name]
        total = source.counted(total + count, LARGEST_PACKAGED)
        waiting += [(part, depth + 1) for part in parts]
    if not total:
        raise _Refused("has no triangles to be built; export the scan again.")
    return unit, total


def _triangles(text: bytes) -> int:
    return sum(text.count(b"<triangle" + blank) for blank in (b" ", b"\n", b"\t", b"\r"))


def _structure(text: bytes) -> tuple[str, dict[str, tuple[int, list[str]]], list[str]]:
    """The unit; every object's number of triangles and its parts by name; the names that are built."""
    unit, now, begun = "millimeter", "", 0
    build: list[str] = []
    objects: dict[str, tuple[int, list[str]]] = {}
    for number, tag in enumerate(_TAG.finditer(text)):
        if number > 4 * _PLACES:
            raise _Refused("has too many parts; export the mesh alone.")
        said = {key.decode().rpartition(":")[2]: (one or other).decode() for key, one, other in _SAID.findall(tag[3])}
        if "path" in said:
            raise _Refused("keeps its triangles in more than one list inside, which is not read here; export it as a plain 3MF, OBJ or STL.")
        match tag[2], bool(tag[1]):
            case b"object", True:
                objects[now] = (_triangles(text[begun:tag.start()]), objects[now][1])
            case b"object", False:
                now, begun = said["id"], tag.end()
                if now in objects or not now.isdigit():
                    raise _Refused("has two objects of one name, or one without a number; export it again.")
                objects[now] = (0, [])
            case b"component", False:
                objects[now][1].append(said["objectid"])
            case b"item", False:
                build.append(said["objectid"])
            case b"model", False:
                unit = said.get("unit", unit).strip().lower()
    return unit, objects, build
