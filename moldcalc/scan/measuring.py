"""The size of an original from its surface: area, volume, growth with a coat, slopes, outline on the board, and where rubber runs thin."""

from dataclasses import dataclass
from math import isfinite, pi, sqrt

import numpy as np
from numpy.typing import NDArray

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Body, Faces, Points
from moldcalc.scan.edges import Edges, edges_in_steps, loops_of
from moldcalc.scan.growing import Growth, Turned, corner_defects, facet_deficit, growth, turned
from moldcalc.scan.nested import nesting, volume_parts
from moldcalc.scan.outlines import Outline, base_outline, flange_band, shadow_area
from moldcalc.scan.progress import Progress, Work
from moldcalc.scan.summing import Slopes, Walked, slopes_of, walked_over
from moldcalc.scan.thin import Thin, thin_places
from moldcalc.stages.original import Band

#: how far from the board a face may lie and still be its base, as a share of the height: our judgement
BASE_SHARE = 0.002


@dataclass(frozen=True)
class Size:
    """How big an original is.

    Areas in m², volumes in m³, lengths in m. `area` is what is brushed, without the base it stands on; its low value is the
    sum of the triangles, its high one adds what flat facets and open holes may leave out. `volume` is None where it has
    no meaning, and `no_volume` says why. `capped` is what the volume would be were each hole closed flat: an estimate, never to be
    shown as the volume; None for a closed surface. `whole` and `brushed` are the growth of the entire surface and of
    what is above the base. `euler_number` is 2 for each body without a hole through it.
    """

    area: Band
    area_whole: float
    base_area: float
    volume: Band | None
    no_volume: str | None
    capped: Band | None
    whole: Growth
    brushed: Growth
    euler_number: int
    extents: tuple[float, float, float]
    open_edges: int
    holes: int
    hole_area: float
    bodies: int
    slopes: Slopes
    outline: Outline
    flange_area: Band
    front_shadow: float
    side_shadow: float
    thin: Thin

    @property
    def curvature(self) -> float:
        """The t² term of growth of the whole surface. [m]"""
        return self.whole.curvature

    @property
    def curvature_upper(self) -> float:
        """The same of outside edges only. [m]"""
        return self.whole.curvature_upper

    def grown(self, thickness: float) -> tuple[Band, Band | None]:
        """Area [m²] and volume [m³] with an even coat all over, low, likely and high; no volume where the body has none."""
        added = self.whole.volume(thickness)
        volume = None if self.volume is None else Band(self.volume.low + added.low, self.volume.likely + added.likely,
                                                       self.volume.high + added.high)
        return self.whole.grown_area(thickness), volume

    def coat(self, thickness: float) -> Band:
        """Volume of an even coat on what is brushed, the base left out, low, likely and high. [m³]"""
        return self.brushed.volume(thickness)


def _checked(**lengths: float) -> None:
    faults = [Fault(name.replace("_", " "), f"{value * 1000:g} mm", f"it must be {'not below' if name == 'base_tolerance' else 'above'} 0 "
                    "and at most 10 000 mm")
              for name, value in lengths.items() if not (isfinite(value) and 0 <= value <= 10 and (value or name == "base_tolerance"))]
    if faults:
        raise EntryError(faults)


def measure(body: Body, *, closed: bool, consistent: bool, flange_width: float, wall: float, base_tolerance: float | None = None) -> Work[Size]:
    """Measures a body on its board.

    Parameters
    ----------
    body
        On the board, in metres, z up.
    closed, consistent
        As the scan says of itself.
    flange_width
        Of the rubber on the board round the foot. [m]
    wall
        Thickness of the rubber: the width over which edges and high points are looked at. [m]
    base_tolerance
        How far from the board a face may lie and still be its base; by default 0.2 % of the height. [m]

    Returns
    -------
    The size.

    Raises
    ------
    EntryError
        A width, wall or tolerance that is no length; a body without triangles or height.

    Notes
    -----
    Range: exact sums for the surface of triangles as it is. Bands say what facets and holes may hide, not what fur or texture finer than the
    triangles adds. A volume is given only where no edge is open, neighbours agree about the outside, and no body
    lies inside another with its outside the same way; where bodies may overlap its low value is the largest body alone.
    Source: sums over triangles, exact; growth after Steiner (theorem verified in a public course), with the tangent at inside edges.
    """
    vertices, faces = body.vertices, body.faces
    if not len(faces) or float(vertices[:, 2].max()) <= 0:
        raise EntryError(Fault("body", "flat or empty", "it needs triangles and a height above the board"))
    tolerance = BASE_SHARE * float(vertices[:, 2].max()) if base_tolerance is None else base_tolerance
    _checked(flange_width=flange_width, wall=wall, base_tolerance=tolerance)
    walked = yield from walked_over(vertices, faces, tolerance)
    yield Progress("pairing edges", 0.2)
    edges = yield from edges_in_steps(faces, len(vertices))
    yield Progress("pairing edges", 0.35)
    turning = turned(vertices, faces, edges, walked.normals)
    yield Progress("turning over edges", 0.45)
    defects = _defects(vertices, faces, edges)
    yield Progress("turning over edges", 0.55)
    whole, brushed = _growths(faces, edges, walked, turning, defects)
    deficit = facet_deficit(turning, edges, walked.areas)
    yield Progress("cutting at the board", 0.65)
    caps = _Caps(vertices, edges, tolerance)
    volume, why, capped = _volume(body, edges, walked.volume, closed and consistent and edges.closed, consistent, max(0.0, deficit[1]), caps)
    outline = base_outline(vertices, faces, max(1.5 * tolerance, 1e-6))
    yield Progress("looking from the front", 0.7)
    front = shadow_area(vertices, _facing(faces, walked, edges, 1), 1)
    yield Progress("looking from the side", 0.8)
    side = shadow_area(vertices, _facing(faces, walked, edges, 0), 0)
    yield Progress("looking for edges and high points", 0.9)
    thin = _thin(vertices, faces, edges, walked, turning, wall)
    area = float(walked.areas[~walked.base].sum())
    return Size(area=Band(area, area, area + deficit[0] + 2 * caps.area), area_whole=float(walked.areas.sum()),
                base_area=float(walked.areas[walked.base].sum()), volume=volume, no_volume=why, capped=capped, whole=whole, brushed=brushed,
                euler_number=len(vertices) - edges.count + len(faces), extents=_extents(vertices), open_edges=len(edges.open),
                holes=caps.count, hole_area=caps.area, bodies=edges.bodies, slopes=slopes_of(walked), outline=outline,
                flange_area=flange_band(outline, flange_width), front_shadow=front, side_shadow=side, thin=thin)


def _facing(faces: Faces, walked: Walked, edges: Edges, axis: int) -> Faces:
    """The triangles that throw the whole shadow along an axis: one side of a closed surface is enough."""
    if not (edges.closed and edges.consistent):
        return faces
    return faces[walked.normals[:, axis] > 0]


def _extents(vertices: Points) -> tuple[float, float, float]:
    x, y, z = np.ptp(vertices, axis=0).tolist()
    return x, y, z


def _defects(vertices: Points, faces: Faces, edges: Edges) -> NDArray[np.float64]:
    """What corners add; points at an open edge add nothing."""
    defects = corner_defects(vertices, faces)
    defects[edges.open.ravel()] = 0
    return defects


def _growths(faces: Faces, edges: Edges, walked: Walked, turning: Turned, defects: NDArray[np.float64]) -> tuple[Growth, Growth]:
    """Growth of the whole surface, and of what is above the base: edges and corners of the base left out."""
    whole = growth(float(walked.areas.sum()), turning, defects)
    if not walked.base.any():
        return whole, whole
    above = ~walked.base[edges.pairs].any(axis=1)
    free = np.ones(len(defects), bool)
    free[faces[walked.base].ravel()] = False
    area = float(walked.areas[~walked.base].sum())
    return whole, growth(area, Turned(turning.angle[above], turning.length[above]), defects[free])


def _thin(vertices: Points, faces: Faces, edges: Edges, walked: Walked, turning: Turned, wall: float) -> Thin:
    """Edges and high points of what is brushed: the base and its rim count for nothing."""
    angle = np.where(walked.base[edges.pairs].any(axis=1), 0.0, turning.angle)
    return thin_places(vertices, faces, edges, Turned(angle, turning.length), walked.areas, wall)


class _Caps:
    """What closes the holes flat: how many, their area and volume, and how far a half ball over each would reach.

    A hole that lies on the board is where the body stands: its cap is part of the volume, but not of the area.
    """

    def __init__(self, vertices: Points, edges: Edges, tolerance: float) -> None:
        middle = (vertices.min(axis=0) + vertices.max(axis=0)) / 2
        self.count, self.area, self.volume, self.doubt = 0, 0.0, 0.0, 0.0
        for ring in loops_of(edges.open) if len(edges.open) else []:
            points = vertices[ring[::-1]] - middle
            hub = points.mean(axis=0)
            after = np.roll(points, -1, axis=0)
            vectors = np.cross(points - hub, after - hub) / 2
            area = float(np.linalg.norm(vectors, axis=1).sum())
            self.count += 1
            self.volume += float(hub @ vectors.sum(axis=0)) / 3
            if vertices[ring, 2].max() > tolerance:
                self.area += area
                self.doubt += 2 / 3 * area * sqrt(area / pi)


def _volume(body: Body, edges: Edges, signed: float, sound: bool, consistent: bool, deficit: float,
            caps: _Caps) -> tuple[Band | None, str | None, Band | None]:
    """The volume or why there is none, and what it would be with the holes closed."""
    if not consistent or not edges.consistent:
        return None, "its triangles do not agree about the outside", None
    if len(edges.open):
        likely = abs(signed + caps.volume)
        return None, f"it is open at {caps.count} {'place' if caps.count == 1 else 'places'}", Band(
            max(0.0, likely - caps.doubt), likely, likely + caps.doubt + deficit)
    if not sound:
        return None, "its edges do not pair up", None
    if edges.bodies == 1:
        return Band(abs(signed), abs(signed), abs(signed) + deficit), None, None
    label = edges.body_of_point[body.faces[:, 0]]
    parts = volume_parts(body.vertices, body.faces, label, edges.bodies)
    inner, overlap = nesting(body.vertices, body.faces, label, edges.bodies)
    if (inner & (parts > 0)).any():
        return None, "a body lies inside another with its outside the same way, so that it would count twice", None
    likely = abs(signed)
    return Band(float(parts.max()) if overlap else likely, likely, likely + deficit), None, None
