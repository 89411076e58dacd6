"""Stage original: how big it is, by the way it was measured."""

from typing import Any

from moldcalc.errors import EntryError, Fault
from moldcalc.job.job import Job
from moldcalc.job.tables import Solid
from moldcalc.stages import original as o

Values = dict[str, Any]


def _parts(solid: Solid) -> tuple[float, float]:
    """Area that can show and volume of one plain solid; ends that stand on something else are left to 'exposed'."""
    length, width, height = float(solid.length), float(solid.width), float(solid.height)
    a, b, c = length / 2, width / 2, height / 2
    match solid.shape:
        case "ellipsoid":
            return o.ellipsoid_area.si(a=a, b=b, c=c), o.ellipsoid_volume.si(a=a, b=b, c=c)
        case "cylinder":
            return o.cylinder_lateral_area.si(radius=b, height=length), o.cylinder_volume.si(radius=b, height=length)
        case "frustum":
            ends = {"radius_low": b, "radius_high": c, "height": length}
            return o.frustum_lateral_area.si(**ends), o.frustum_volume.si(**ends)
        case "capsule":
            straight = max(length - width, 0.0)
            return o.capsule_area.si(radius=b, length=straight), o.capsule_volume.si(radius=b, length=straight)
        case "box":
            sizes = {"length": length, "width": width, "height": height}
            return o.box_area.si(**sizes), o.box_volume.si(**sizes)
        case "torus":
            if width >= length / 2:
                raise EntryError(Fault(f"Width of {solid.name}", "half its length or more", "a torus' tube must leave a hole"))
            ring = {"ring_radius": (length - width) / 2, "tube_radius": b}
            return o.torus_area.si(**ring), o.torus_volume.si(**ring)
        case "cap":
            radius = (b * b + height * height) / (2 * height)
            return o.cap_area.si(sphere_radius=radius, height=height), o.cap_volume.si(sphere_radius=radius, height=height)
        case _:
            power = float(solid.power)
            return (o.superellipsoid_area.si(a=a, b=b, c=c, power=power),
                    o.superellipsoid_volume.si(a=a, b=b, c=c, exponent_north_south=2 / power, exponent_waist=2 / power))


def _measured(job: Job) -> tuple[float, float | None]:
    """Smooth area that shows, and the volume where the way of measuring gives one."""
    said = job.original
    if said.method == "solids":
        if not said.solid:
            raise EntryError(Fault("Solids", "none", "add at least one [[original.solid]], or give the area"))
        found = [(solid, *_parts(solid)) for solid in said.solid]
        area = sum(size * solid.exposed * solid.pieces for solid, size, _ in found)
        return area * (1 + said.method_error), sum(volume * solid.pieces for solid, _, volume in found)
    if said.method == "girths":
        return _by_tape(job)
    if said.method == "foil":
        if said.foil_mass is None or said.foil_areal_weight is None:
            raise EntryError(Fault("Foil", "not weighed", "give the mass of the foil used and of a measured sheet of the same roll"))
        return o.foil_area.si(mass=said.foil_mass, areal_weight=said.foil_areal_weight, overlap=said.foil_overlap), None
    if said.method == "scan":
        if said.scan_area is None:
            raise EntryError(Fault("Scan", "not measured yet", "measure it in chapter 01 and keep its size, or choose another way"))
        return said.scan_area, None
    return said.area, None


def _by_tape(job: Job) -> tuple[float, float]:
    stations = sorted(job.original.station, key=lambda station: station.height)
    if len(stations) < 2:
        raise EntryError(Fault("Stations", f"{len(stations)}", "give at least two [[original.station]], each with height and girth"))
    heights, girths = [s.height for s in stations], [s.girth for s in stations]
    widths = [s.width for s in stations if s.width is not None]
    area = o.girth_area.si(heights=heights, girths=girths) * (1 + job.original.method_error)
    if len(widths) == len(stations):
        return area, o.stadium_volume.si(heights=heights, girths=girths, widths=widths)
    return area, o.girth_volume.si(heights=heights, girths=girths)


def _curvature(job: Job) -> float:
    """Of the scan where there is one, else of the ellipsoid with the original's three sizes."""
    said = job.original
    if said.method == "scan" and said.scan_curvature is not None:
        return said.scan_curvature
    return float(o.mean_curvature_ellipsoid.si(a=said.length / 2, b=said.width / 2, c=said.height / 2))


def size(job: Job, v: Values) -> None:
    """Area with detail, flange, area to coat, volume; the box that people guess from, for comparison."""
    said = job.original
    smooth, volume = _measured(job)
    if not smooth > 0:
        raise EntryError(Fault("The area of the original", "nothing", "at least one part of it must show"))
    v["original.smooth_area"] = smooth
    area = v["original.area"] = o.with_detail.si(smooth_area=smooth, detail_factor=said.detail_factor)
    flange = v["original.flange_area"] = o.flange_area.si(outline=said.base_outline, width=said.flange_width)
    v["original.area_to_coat"] = o.area_to_coat.si(area=area, flange_area=flange)
    v["original.volume"] = said.volume if said.volume is not None else volume
    box = v["original.box_area"] = o.box_five_faces_area.si(length=said.length, width=said.width, height=said.height)
    v["original.box_excess"] = box / area - 1
    v["original.mean_curvature"] = _curvature(job)
