"""What was found on a scan, as entries and rows of the job: the maker says yes, and the plan goes on from there."""

from collections.abc import Iterable
from math import degrees
from typing import Any

import numpy as np

from moldcalc.job import Job
from moldcalc.job.entry import Table
from moldcalc.scan.measuring import BASE_SHARE
from moldcalc.scan.pockets import Pockets
from moldcalc.scan.views import way
from moldcalc.stages.original import Band
from moldcalc.survey.finding import Shell, Standing, angles_of
from moldcalc.survey.names import POCKET, UNDER
from moldcalc.survey.said import lengths

Rows = dict[str, list[dict[str, Any]]]


def size_entries(job: Job, standing: Standing, unit: str, up: str) -> dict[str, Any]:
    """Entries that make the scan the job's original. What the scan shows of fur and folds is in its area, so the detail factor is 1.

    Rubber and shell lie evenly over it, so the centre of mass of the mold is taken as that of the surface above the board.
    """
    size = standing.size
    length, width, height = lengths(size)
    entries: dict[str, Any] = {
        "original.method": "scan", "original.scan": standing.scan.name, "original.scan_unit": unit, "original.scan_up": up,
        "original.scan_area": band(size.area, "m²", 1.0), "original.scan_curvature": f"{size.curvature:.4g} m", "original.detail_factor": "1",
        "original.length": f"{1000 * length:.1f} mm", "original.width": f"{1000 * width:.1f} mm", "original.height": f"{1000 * height:.1f} mm",
        "original.base_outline": f"{size.outline.length:.4g} m", "original.silhouette_side": f"{size.side_shadow:.4g} m²",
        "original.volume": band(size.volume, "L", 1000.0) if size.volume is not None else "",
    }
    low, along = skin_centre(standing)
    upside_down = job.handling.casting_position == "upside down"
    entries["handling.centre_height"] = f"{1000 * (height - low if upside_down else low):.0f} mm"
    entries["handling.centre_along"] = f"{1000 * along:.0f} mm"
    return entries


def skin_centre(standing: Standing) -> tuple[float, float]:
    """Centre of an even skin on all that is above the board: its height, and its place along the longer side of the original, from that end. [m]"""
    body = standing.body
    corners, areas = body.corners, np.linalg.norm(body.area_vectors, axis=1)
    skin = corners[:, :, 2].max(axis=1) > BASE_SHARE * standing.size.extents[2]
    centre = np.average(corners[skin].mean(axis=1), axis=0, weights=areas[skin])
    longer = int(standing.size.extents[1] > standing.size.extents[0])
    return float(centre[2]), float(centre[longer] - body.vertices[:, longer].min())


def pocket_rows(job: Job, pockets: Pockets, numbers: Iterable[int]) -> Rows:
    """The job's fills with the ticked pockets among them; pockets of an earlier search go."""
    ticked = set(numbers)
    kept = [written(row) for row in job.paste.fill if not row.name.startswith(POCKET)]
    made = [_fill(f"{POCKET}{pocket.number}", Band(pocket.low, pocket.likely, pocket.high)) for pocket in pockets.pockets if pocket.number in ticked]
    return {"paste.fill": kept + made}


def section_rows(job: Job, shell: Shell) -> Rows:
    """Sections, their joints, and the paste that each needs under it."""
    sections = shell.split.sections
    rounds = {piece + 1: turn for turn, pieces in enumerate(shell.removal.rounds, 1) for piece in pieces}
    made, joints = [], []
    for section in sections:
        azimuth, elevation = angles_of(section.pull)
        row: dict[str, Any] = {
            "name": name_of(section.number), "face": f"{section.area:.4g} m²", "joint": f"{section.joint:.4g} m", "foot": f"{section.foot:.4g} m",
            "touches": ", ".join(name_of(other) for other in sorted(section.touches)), "pull": way(section.pull),
            "azimuth": f"{degrees(azimuth):.1f}°", "elevation": f"{degrees(elevation):.1f}°", "draft": f"{degrees(section.least_draft):.2f}°",
        }
        if section.number in rounds:
            row["order"] = rounds[section.number]
        made.append(row)
        joints += [{"name": f"{section.number}-{other}", "length": f"{max(length, 0.01):.4g} m"} for other, length in sorted(section.touches.items())
                   if other > section.number]
    fills = [written(row) for row in job.paste.fill if not row.name.startswith(UNDER)]
    fills += [_fill(f"{UNDER}{section.number}", Band(section.fill_low, section.fill_volume, section.fill_high))
              for section in sections if section.fill_volume > 1e-6]
    return {"layup.section": made, "handling.joint": joints, "paste.fill": fills}


def _fill(name: str, volume: Band) -> dict[str, Any]:
    return {"name": name, "kind": "volume", "use": "pockets", "volume": band(volume, "L", 1000.0)}


def name_of(number: int) -> str:
    """A section's name until the maker gives it a better one."""
    return f"section {number}"


def band(found: Band, unit: str, times: float) -> Any:
    """A band as an entry takes it: low, likely and high, or one value where it has no width."""
    low, likely, high = (float(f"{times * end:.5g}") for end in found)
    low, high = min(low, likely), max(high, likely)
    if high - low < 1e-9 * max(abs(high), 1e-12):
        return f"{likely:.10g} {unit}"
    return {"low": f"{low:.10g} {unit}", "likely": f"{likely:.10g} {unit}", "high": f"{high:.10g} {unit}"}


def written(row: Table) -> dict[str, Any]:
    """A row of the job as its file has it."""
    return {name: entry.write(getattr(row, name)) for name, entry in row.entries().items() if getattr(row, name) is not None}
