"""What a scan's size comes to, as results: label, value, band, why and source, the same for a sheet, a table and JSON."""

from moldcalc.plan.results import Result
from moldcalc.scan.measuring import Size
from moldcalc.scan.reading import Scan
from moldcalc.stages.original import Band
from moldcalc.units import show

TRIANGLES = "sum over triangles, exact"
STEINER = "Steiner's formula, signed at its edges (theorem verified in a public course)"


def size_results(scan: Scan, size: Size, unit: str, wall: float) -> list[Result]:
    """Everything that a sheet, a table or JSON shows of a scan's size. `wall` is the rubber's thickness [m]."""
    made = [
        _result("scan.triangles", "Triangles", len(scan.faces), "count", f"of {scan.name}, read in {unit}", "the file"),
        _band("scan.area", "Area without its base", size.area, "m²", "low: the triangles; high: what flat facets and holes may leave out", TRIANGLES),
        _result("scan.base_area", "Base on the board", size.base_area, "m²", "faces that lie on the board, not brushed", TRIANGLES),
    ]
    if size.volume is not None:
        made.append(_band("scan.volume", "Volume", size.volume, "L", "closed, and its triangles agree about the outside", TRIANGLES))
    elif size.no_volume:
        made.append(_result("scan.no_volume", "Volume", "none", "text", size.no_volume, TRIANGLES))
    for axis, (words, length) in enumerate(zip(("Length", "Width", "Height"), lengths(size), strict=True)):
        made.append(_result(f"scan.extent_{axis + 1}", words, length, "mm", "of the box round it, on the board", "the points, exact"))
    outline = size.outline
    made += [
        _result("scan.base_outline", "Outline on the board", outline.length, "m",
                f"just above the board; a tape pulled tight would read {show(outline.hull, 'm')}", "cut of the triangles, exact"),
        _band("scan.flange_area", "Rubber flange round it", size.flange_area, "m²", "low: its own outline; high: where arms of it meet they share", TRIANGLES),
        _band("scan.coat", "A coat of the whole wall", size.coat(wall), "L", f"{show(wall, 'mm')} all over, base left out; the area grows as it goes", STEINER),
        _result("scan.curvature", "Integral of mean curvature", size.curvature, "m", "what it adds to each coat for its roundness and edges", STEINER),
        _result("scan.side_shadow", "Silhouette from the side", size.side_shadow, "m²", "for the thrust of a cast poured solid", TRIANGLES),
        _result("scan.front_shadow", "Silhouette from the front", size.front_shadow, "m²", "", TRIANGLES),
    ]
    slopes = size.slopes
    for name, words, share in (("level", "Lies nearly flat, facing up", slopes.level), ("sloping", "Slopes", slopes.sloping),
                               ("upright", "Upright", slopes.upright), ("overhanging", "Hangs over", slopes.overhanging),
                               ("underside", "Underside", slopes.underside), ("low_draft", "Less than 3° of draft for a pull straight up", slopes.low_draft)):
        made.append(_result(f"scan.{name}", words, share, "%", "share of the area without its base", TRIANGLES))
    made.append(_result("scan.thin_edges", "Edges where rubber runs thin", size.thin.edge_length, "m", "turning by more than 30° within three walls", "geometry; "
                        "that rubber thins there is common practice"))
    made.append(_result("scan.thin_area", "Area along them", size.thin.area, "m²", "put paste on these first", "geometry"))
    return made


def lengths(size: Size) -> tuple[float, float, float]:
    """Length, width and height: the longer level extent is the length. [m]"""
    x, y, z = size.extents
    return max(x, y), min(x, y), z


def _result(name: str, label: str, value: object, unit: str, why: str, source: str) -> Result:
    return Result(name, label, value, unit, None, None, why, source)


def _band(name: str, label: str, band: Band, unit: str, why: str, source: str) -> Result:
    return Result(name, label, band.likely, unit, band.low, band.high, why, source)
