"""A scan's file becomes a surface that can be trusted: what was wrong with it is said, and its unit is asked, not guessed."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from io import BytesIO
from math import isfinite
from pathlib import Path

import numpy as np

from moldcalc.errors import EntryError, Fault, MissingError
from moldcalc.scan.body import Body, Faces, Points
from moldcalc.scan.edges import Edges
from moldcalc.scan.gltf import read_glb
from moldcalc.scan.lists import read_obj, read_off
from moldcalc.scan.mending import Mended, mended, several
from moldcalc.scan.nested import nesting
from moldcalc.scan.ply import read_ply
from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.source import Raw, Source, opened
from moldcalc.scan.stl import read_stl
from moldcalc.scan.threemf import read_3mf

#: units that a scan may be in, and what one of them is in metres
UNITS = {"mm": 0.001, "cm": 0.01, "m": 1.0, "in": 0.0254, "ft": 0.3048}
#: which way is up in the file: +x, -x, +y, -y, +z or -z
UPS = ("+x", "-x", "+y", "-y", "+z", "-z")
#: above so many triangles a smaller copy is offered
MANY_TRIANGLES = 2_000_000
#: largest body that is measured, in metres
LARGEST_BODY = 100.0
#: how far a stated height and an extent may differ and still be called the same
_ALIKE = 0.02

_READERS: dict[str, Callable[[Source], Work[Raw]]] = {
    ".stl": read_stl, ".obj": read_obj, ".off": read_off, ".ply": read_ply, ".glb": read_glb, ".3mf": read_3mf}
#: endings of the files that are read
KINDS = tuple(_READERS)


@dataclass(frozen=True)
class Scan:
    """A surface of triangles as a file has it, mended, in the file's own unit.

    `vertices` is (n, 3) and `faces` (m, 3) indices into it. `unit_in_file` and `up_in_file` are what the kind of file fixes,
    or None. `extents` are the three lengths of the box round it, `notes` what was done to it and what to know of it, `open_edges` how
    many edges belong to one triangle only. `closed` says whether it has none of those, `consistent` whether its
    triangles agree about the outside; without both it has no volume. `bodies` counts what hangs together.
    """

    name: str
    sha256: str
    vertices: Points
    faces: Faces
    unit_in_file: str | None
    up_in_file: str | None
    extents: tuple[float, float, float]
    closed: bool
    consistent: bool
    bodies: int
    open_edges: int
    notes: tuple[str, ...]

    @property
    def many(self) -> bool:
        """Whether a smaller copy should be offered."""
        return len(self.faces) > MANY_TRIANGLES


def read_scan(path: Path) -> Work[Scan]:
    """Reads a scan, checks every count in it, mends what can be mended and says what was done.

    Parameters
    ----------
    path
        A file that ends in .stl, .obj, .ply, .off, .glb or .3mf, or one of these and .gz.

    Returns
    -------
    The scan, in the file's own unit.

    Raises
    ------
    FileError
        A file that can't be read, was cut off or damaged, holds no triangles, or is larger than is read here.

    Notes
    -----
    Range: up to 4 million triangles (2 million in OFF and text PLY, 1 million in 3MF, of which the library that reads them makes Python
    objects) and 1.6 GB, 0.5 GB unpacked or as PLY or GLB. Everything but binary STL is read by trimesh, in one call that can't be stopped
    between two steps, with checks of ours before and after. Files that the scan's file names (materials, textures, other meshes) are
    never opened. Points are joined only where they are exactly equal.
    """
    with opened(Path(path)) as opening:
        source = yield from opening
        try:
            raw = yield from _READERS[source.kind](source)
        except MemoryError:
            raise source.refuse("needs more memory than this machine has; let the scanner's program write it with fewer triangles.") from None
        except OSError as error:
            raise source.refuse(f"can't be read to its end: {(error.strerror or 'the disk or network failed').lower()}.") from None
    done = yield from mended(source, raw)
    return _scan(source, raw, done, raw.notes)


def _scan(source: Source, raw: Raw, done: Mended, notes: tuple[str, ...]) -> Scan:
    """The scan of a mended surface, with what has to be known of it."""
    x, y, z = np.ptp(done.vertices, axis=0).tolist()
    scan = Scan(name=source.name, sha256=source.sha256, vertices=done.vertices, faces=done.faces, unit_in_file=raw.unit, up_in_file=raw.up,
                extents=(x, y, z), closed=done.edges.closed, consistent=done.consistent, bodies=done.edges.bodies,
                open_edges=len(done.edges.open), notes=())
    known = _known(scan, done.edges, raw.vertices.dtype == np.float32)
    return replace(scan, notes=(*notes, *done.notes, *known))


def _known(scan: Scan, edges: Edges, single: bool) -> list[str]:
    """What has to be known of a scan besides what was done to it."""
    notes = []
    crowded = edges.crowded
    if crowded:
        notes.append(f"{several(crowded, 'edge')} {'is' if crowded == 1 else 'are'} shared by more than two triangles")
    if scan.open_edges:
        notes.append(f"it is open: {several(scan.open_edges, 'edge')} belong{'s' if scan.open_edges == 1 else ''} to one triangle only; "
                     "its area counts, a volume does not")
    if scan.bodies > 1:
        notes.append(f"it is {scan.bodies} separate bodies")
        body = edges.body_of_point[scan.faces[:, 0]]
        found = nesting(scan.vertices, scan.faces, body, scan.bodies)
        inner = int(found.inner.sum()) if scan.closed else 0
        if inner:
            notes.append(f"{several(inner, 'body lies', 'bodies lie')} inside another; a brush doesn't reach {'it' if inner == 1 else 'them'}, "
                         "but the area counts")
        if found.overlap:
            notes.append("bodies may overlap; what they share is counted twice")
    if single:
        step = float(np.spacing(np.abs(scan.vertices).max().astype(np.float32)))
        if step > 1e-5 * max(scan.extents):
            notes.append(f"it lies so far from its origin that its points are rounded to {step:.2g} of its units; move it to the origin "
                         "and export it again for a truer area")
    if scan.many:
        notes.append(f"it has {len(scan.faces) / 1e6:.1f} million triangles; a smaller copy is quicker and hardly less true")
    return notes


def decimated(scan: Scan, target: int) -> Work[Scan]:
    """A copy of a scan with fewer triangles, whose notes say what that did to its area.

    Parameters
    ----------
    scan
        As read.
    target
        How many triangles are wanted, at least 100.

    Returns
    -------
    The smaller scan; the same one if it has no more than that.

    Raises
    ------
    EntryError
        Fewer than 100 triangles are asked for.
    MissingError
        The library that does it is not installed.

    Notes
    -----
    Range: edges are collapsed by the quadric error of Garland and Heckbert 1997 (from memory), in the library fast_simplification.
    """
    if target < 100:
        raise EntryError(Fault("target", f"{target} triangles", "at least 100 are needed to keep a shape"))
    if len(scan.faces) <= target:
        return scan
    try:
        from fast_simplification import simplify
    except ImportError:
        raise MissingError("A smaller copy needs the library fast_simplification, which is not installed here; "
                           "go on with the scan as it is, or let the scanner's program write it with fewer triangles.") from None
    yield Progress("joining triangles", 0.0)
    middle = scan.vertices.mean(axis=0)
    points, faces = simplify(scan.vertices - middle, scan.faces.astype(np.int32), target_count=target)
    yield Progress("checking edges", 0.8)
    raw = Raw(np.asarray(points, np.float64) + middle, np.asarray(faces, np.int64), shared=True, unit=scan.unit_in_file, up=scan.up_in_file)
    source = Source(scan.name, BytesIO(), 0, "", scan.sha256)
    done = yield from mended(source, raw)
    change = _area(done.vertices, done.faces) / _area(scan.vertices, scan.faces) - 1
    said = f"it is a smaller copy: {several(len(done.faces), 'triangle')} of {len(scan.faces):,}".replace(",", " ")
    return _scan(source, raw, done, (f"{said}; its area changed by {100 * change:+.2f} %",))


def _area(vertices: Points, faces: Faces) -> float:
    return float(np.linalg.norm(Body(vertices, faces).area_vectors, axis=1).sum())


def unit_candidates(extent: float, stated_height: float) -> tuple[str, ...]:
    """The units in which an extent is the height that the maker stated, within 2 %.

    Parameters
    ----------
    extent
        Length of the scan along its height, in the file's unit.
    stated_height
        As measured on the original. [m]

    Returns
    -------
    Names of units, the nearest first; none where no unit fits.

    Raises
    ------
    EntryError
        A length that is not above 0.
    """
    for name, value in (("extent", extent), ("stated height", stated_height)):
        if not (isfinite(value) and value > 0):
            raise EntryError(Fault(name, f"{value:g}", "it must be above 0"))
    off = {unit: abs(extent * metres / stated_height - 1) for unit, metres in UNITS.items()}
    return tuple(sorted((unit for unit, by in off.items() if by <= _ALIKE), key=off.__getitem__))


def unit_guess(extents: tuple[float, float, float], stated_height: float, up: str = "+z") -> str | None:
    """The unit that fits a height which the maker stated, or None.

    Parameters
    ----------
    extents
        Of the scan, in the file's unit.
    stated_height
        As measured on the original. [m]
    up
        Which way is up in the file.

    Returns
    -------
    A name of `UNITS`; None where none fits within 2 % along that way.
    """
    fits = unit_candidates(extents["xyz".index(up[-1])], stated_height)
    return fits[0] if fits else None


def unit_question(scan: Scan, unit: str, stated_height: float, up: str = "+z") -> str | None:
    """The sentence that asks whether the unit is right, where the height stated does not fit it; None where it does.

    Parameters
    ----------
    scan
        As read.
    unit
        The unit that was chosen.
    stated_height
        As measured on the original. [m]
    up
        Which way is up in the file.
    """
    fits = unit_candidates(scan.extents["xyz".index(up[-1])], stated_height)
    if unit in fits:
        return None
    extent = scan.extents["xyz".index(up[-1])]
    times = stated_height / (extent * UNITS[unit])
    said = f"Read in {unit} the scan is {extent:g} {unit} high; the height you gave is"
    if fits:
        return f"{said} {times:.4g} times that: it fits {fits[0]}. Is the scan in {fits[0]}?"
    return f"{said} {times:.3g} times that, which no unit makes good. Is the up axis right?"


def placed(scan: Scan, unit: str, up: str = "+z") -> Body:
    """The scan in metres on the board: up is z, its lowest point at z = 0, its middle over the origin.

    Parameters
    ----------
    scan
        As read.
    unit
        What one unit of the file is: a name of `UNITS`.
    up
        Which way is up in the file: +x, -x, +y, -y, +z or -z.

    Raises
    ------
    EntryError
        A unit or a direction that is not one of these; a body of more than 100 m or less than 0.1 mm.
    """
    if unit not in UNITS:
        raise EntryError(Fault("unit", repr(unit), f"it must be one of {', '.join(UNITS)}"))
    if up not in UPS:
        raise EntryError(Fault("up", repr(up), f"it must be one of {', '.join(UPS)}"))
    largest = max(scan.extents) * UNITS[unit]
    if not 1e-4 <= largest <= LARGEST_BODY:
        fits = [name for name, metres in UNITS.items() if 1e-2 <= max(scan.extents) * metres <= 10]
        hint = f"; in {' or '.join(fits)} it would be more like an original" if fits else ""
        raise EntryError(Fault("unit", f"{unit}, which makes the scan {largest:.3g} m across", f"it must be between 0.1 mm and 100 m{hint}"))
    axis, sign = "xyz".index(up[-1]), 1.0 if up[0] == "+" else -1.0
    low, high = scan.vertices.min(axis=0), scan.vertices.max(axis=0)
    moved = (scan.vertices - (low + high) / 2) * UNITS[unit]
    turned = np.empty_like(moved)
    turned[:, 2] = sign * moved[:, axis]
    turned[:, 0] = moved[:, (axis + 1) % 3]
    turned[:, 1] = sign * moved[:, (axis + 2) % 3]
    turned[:, 2] -= turned[:, 2].min()
    return Body(turned, scan.faces)

