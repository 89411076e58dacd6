"""Work on a scan in a chapter: its size (01), its pockets (06), the sections over it (08)."""

from moldcalc.errors import MoldcalcError
from moldcalc.job import JobFile, open_job
from moldcalc.panels.scan.desk import ScanDesk
from moldcalc.panels.scan.dividing import section_desk
from moldcalc.panels.scan.filling import pocket_desk
from moldcalc.panels.scan.sizing import size_desk

__all__ = ["ScanDesk", "scan_desk"]

DESKS = {"original": size_desk, "paste": pocket_desk, "split": section_desk}


def scan_desk(stage: str, jobfile: JobFile | None = None) -> ScanDesk:
    """The desk of a chapter for the scan of the job in hand, or of the demo."""
    if stage not in DESKS:
        raise MoldcalcError(f"There is no scan desk called '{stage}'; there are {', '.join(DESKS)}.")
    return DESKS[stage](jobfile or open_job())
