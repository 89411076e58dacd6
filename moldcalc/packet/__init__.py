"""What is printed and carried to the bench, and the same figures as CSV and JSON."""

from pathlib import Path

from moldcalc.errors import FileError
from moldcalc.job.file import write_whole
from moldcalc.packet.csvjson import plan_csv, plan_json
from moldcalc.packet.pdf import find_browser, write_pdf
from moldcalc.packet.sheets import Paper, packet_html
from moldcalc.plan.results import Plan

__all__ = ["find_browser", "packet_html", "plan_csv", "plan_json", "write_packet", "write_pdf"]

_PAGES: dict[str, Paper] = {"packet-a4": "A4", "packet-letter": "Letter"}


def write_packet(plan: Plan, folder: Path, pdf: bool = False, home: Path | None = None) -> list[Path]:
    """Write the packet into a folder, which is made if need be; returns what was written.

    ``home`` is the job's file: what was found on a scan lies beside it.

    Raises
    ------
    FileError
        The folder can't be made, or a file in it can't be written.
    MissingError
        A PDF was asked for and no browser can make it; the pages, CSV and JSON are written by then.
    """
    folder = Path(folder)
    texts = {f"{name}.html": packet_html(plan, paper, home) for name, paper in _PAGES.items()}
    texts |= {"packet.csv": plan_csv(plan), "packet.json": plan_json(plan)}
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(f"The folder {folder} can't be made ({(error.strerror or str(error)).lower()}); choose another.") from None
    written = []
    for name, text in texts.items():
        write_whole(folder / name, text.encode())
        written.append(folder / name)
    for name in _PAGES if pdf else ():
        write_pdf(folder / f"{name}.html", folder / f"{name}.pdf")
        written.append(folder / f"{name}.pdf")
    return written
