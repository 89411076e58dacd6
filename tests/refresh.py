"""Runs every chapter and stores what it shows: the only writer of stored outputs. ``python -m tests.refresh [chapter ...]``

``python -m tests.refresh survey`` looks for the demo's pockets and sections again, and stores what the chapters show of them.

Stored chapters hold no widget state, no random ids, no times, no name of the Python that ran them.
"""

import sys
from pathlib import Path
from typing import Any

import nbformat
from nbclient import NotebookClient

from moldcalc.job import demo_job
from moldcalc.job.places import data_folder
from moldcalc.scan.progress import finish
from moldcalc.scan.split import trade_of
from moldcalc.survey.facts import pocket_facts, section_facts, size_facts, trade_facts
from moldcalc.survey.finding import pockets_of, read_and_stand, shell_grid, shell_of
from moldcalc.survey.kept import Survey, survey_path, write_survey
from moldcalc.survey.names import pockets_named

WORKBOOK = Path(__file__).parent.parent / "workbook"
LIVE_VIEW = "application/vnd.jupyter.widget-view+json"


def refreshed(path: Path) -> Any:
    """A chapter, executed, as it is to be stored."""
    book = nbformat.read(path, as_version=4)
    NotebookClient(book, kernel_name="python3", store_widget_state=False, record_timing=False, timeout=120,
                   resources={"metadata": {"path": str(path.parent)}}).execute()
    book.metadata = nbformat.from_dict({"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
                                        "language_info": {"name": "python"}})
    count = 0
    for place, cell in enumerate(book.cells):
        cell.id = f"{path.stem[:2]}-{place:02d}"
        if cell.cell_type != "code":
            continue
        count += 1
        cell.metadata, cell.execution_count = nbformat.from_dict({}), count
        for output in cell.outputs:
            output.get("data", {}).pop(LIVE_VIEW, None)
            if "execution_count" in output:
                output.execution_count = count
    return book


def refresh_survey() -> None:
    """What was found on the demo's scan, into the file beside the demo job."""
    job = demo_job("hare").job
    standing = finish(read_and_stand(job, None))
    pockets = finish(pockets_of(job, standing.body))
    shell = finish(shell_of(job, finish(shell_grid(job, pockets, pockets_named(job)))))
    facts, shape = section_facts(job, shell)
    facts["trade"] = trade_facts(finish(trade_of(shell.split)))
    survey = Survey().with_found("size", size_facts(job, standing)[0], "original", size_facts(job, standing)[1])
    found, surface = pocket_facts(job, pockets)
    survey = survey.with_found("pockets", found, "rubber", surface).with_found("sections", facts, "shell", shape)
    write_survey(survey_path(data_folder() / "jobs" / "hare.toml"), survey)


def main(names: list[str]) -> None:
    if names == ["survey"]:
        refresh_survey()
        return
    for path in sorted(WORKBOOK.glob("*.ipynb")):
        if not names or path.stem in names or path.stem[:2] in names:
            nbformat.write(refreshed(path), path)
            print(path.name)


if __name__ == "__main__":
    main(sys.argv[1:])
