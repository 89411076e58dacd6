"""What was found, as plain numbers and words: what a sheet shows and a survey keeps."""

from dataclasses import asdict
from typing import Any

import numpy as np
from numpy.typing import NDArray

from moldcalc.job import Job
from moldcalc.scan.body import Body
from moldcalc.scan.outside import outside
from moldcalc.scan.pockets import Pockets
from moldcalc.scan.showing import for_picture
from moldcalc.scan.split import Split, TradePoint
from moldcalc.survey.finding import Shell, Standing, angles_of, with_paste
from moldcalc.survey.keeping import name_of
from moldcalc.survey.kept import Shape
from moldcalc.survey.said import size_results

#: triangles of a picture: fine enough to see a paw, few enough to turn at once
SHOWN = 24_000
LEFT_OVER = 255
#: entries whose change makes what was found out of date, by chapter
STANDS_ON = {
    "size": ("original.scan", "original.scan_unit", "original.scan_up"),
    "pockets": ("original.scan", "original.scan_unit", "original.scan_up", "coats.wall", "paste.ball", "paste.least_pocket"),
    "sections": ("original.scan", "original.scan_unit", "original.scan_up", "coats.wall", "paste.ball", "paste.least_pocket",
                 "split.least_draft", "split.leftover", "split.wanted", "split.fineness", "layup.flange_width", "layup.core_thickness"),
}


def stood_on(job: Job, chapter: str) -> dict[str, Any]:
    """The entries that a finding stands on, as the job has them."""
    return {path: None if job.get(path) is None else job.entry(path).write(job.get(path)) for path in STANDS_ON[chapter]}


def changed_since(job: Job, chapter: str, facts: dict[str, Any]) -> list[str]:
    """Labels of the entries that were changed since a finding was made."""
    then, now = facts.get("stands_on", {}), stood_on(job, chapter)
    return [job.entry(path).label for path in STANDS_ON[chapter] if then.get(path) != now[path]]


def size_facts(job: Job, standing: Standing) -> tuple[dict[str, Any], Shape]:
    """The size, and the scan thinned out."""
    facts = {"stands_on": stood_on(job, "size"), "name": standing.scan.name, "sha256": standing.scan.sha256, "notes": list(standing.scan.notes),
             "results": [asdict(result) for result in size_results(standing.scan, standing.size, job.original.scan_unit, float(job.coats.wall))],
             "thin": [[point.x, point.y, point.z] for point in standing.size.thin.points]}
    return facts, _shape(standing.body, None)


def pocket_facts(job: Job, pockets: Pockets) -> tuple[dict[str, Any], Shape]:
    """Every pocket, and the rubber's outside with the pockets filled, labelled by them."""
    surface = outside(with_paste(pockets, None))
    rows = [{"number": p.number, "low": p.low, "likely": p.likely, "high": p.high, "depth": p.depth, "neck": p.neck, "place": list(p.mouth),
             "all_or_nothing": p.all_or_nothing} for p in pockets.pockets]
    facts = {"stands_on": stood_on(job, "pockets"), "pockets": rows, "small": pockets.small, "fillet": pockets.fillet, "said": pockets.said,
             "nearly": [{"volume": n.volume, "half_width": n.half_width, "place": list(n.centroid)} for n in pockets.nearly]}
    return facts, _shape(Body(surface.vertices, surface.faces), _pocket_labels(pockets, surface.centres - 0.6 * surface.cell * surface.normals))


def _pocket_labels(pockets: Pockets, under: NDArray[np.float64]) -> NDArray[np.uint8]:
    """The pocket that each face covers, by the cell just under it."""
    grid = pockets.whole
    label = np.zeros(grid.distance.size, np.uint8)
    for pocket in pockets.pockets[:200]:
        label[pocket.cells] = pocket.number
    at = np.clip(np.rint((under - grid.origin) / grid.cell).astype(int), 0, np.array(grid.distance.shape) - 1)
    found: NDArray[np.uint8] = label.reshape(grid.distance.shape)[tuple(at.T)]
    return found


def section_facts(job: Job, shell: Shell, order_known: bool = True) -> tuple[dict[str, Any], Shape]:
    """Every section and the order (not known after a change by hand), and the shell's face labelled by them."""
    found = shell.split
    turns = {} if not order_known else {piece + 1: turn for turn, pieces in enumerate(shell.removal.rounds, 1) for piece in pieces}
    facts = {
        "stands_on": stood_on(job, "sections"), "sections": [row | {"order": turns.get(row["number"])} for row in section_list(found)],
        "bound": found.bound, "proven": found.proven, "cover": found.cover_share,
        "unreachable": found.unreachable_share,
        "paste": found.fill_volume, "joint": found.joint, "order": shell.removal.said, "order_known": order_known,
        "comes_apart": shell.removal.comes_apart,
        "ways_out": list(shell.removal.ways_out), "cell": found.grid.cell,
    }
    return facts, split_shape(found)


def section_list(found: Split) -> list[dict[str, Any]]:
    """The sections as plain numbers in SI, angles in rad."""
    made = []
    for section in found.sections:
        azimuth, elevation = angles_of(section.pull)
        made.append({
            "number": section.number, "name": name_of(section.number), "pull": list(section.pull), "azimuth": azimuth, "elevation": elevation,
            "area": section.area, "draft": section.least_draft, "draft_at": list(section.least_draft_at), "leftover": section.leftover_area,
            "fill": section.fill_volume, "fill_low": section.fill_low, "fill_high": section.fill_high, "joint": section.joint, "foot": section.foot,
            "touches": {str(other): length for other, length in sorted(section.touches.items())}, "place": list(section.centroid),
        })
    return made


def split_shape(found: Split) -> Shape:
    """The shell's face, each triangle labelled by its section, 255 where paste must fill."""
    labels = np.where(found.labels < 0, LEFT_OVER, np.minimum(found.labels, LEFT_OVER - 1)).astype(np.uint8)
    return _shape(Body(found.surface.vertices, found.surface.faces), labels)


def trade_facts(points: tuple[TradePoint, ...]) -> list[dict[str, Any]]:
    """Paste against sections, a row for each number of pulls."""
    return [{"asked": p.asked, "sections": p.sections, "leftover": p.leftover_share, "at_least": p.leftover_at_least, "proven": p.proven,
             "paste": p.fill_volume, "joint": p.joint} for p in points]


def _shape(body: Body, labels: NDArray[np.uint8] | None) -> Shape:
    shown = for_picture(body, labels, SHOWN)
    return Shape(shown.vertices, shown.faces, shown.labels)
