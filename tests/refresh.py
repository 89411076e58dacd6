"""Runs every chapter and stores what it shows: the only writer of stored outputs. ``python -m tests.refresh [chapter ...]``

Stored chapters hold no widget state, no random ids, no times, no name of the Python that ran them.
"""

import sys
from pathlib import Path
from typing import Any

import nbformat
from nbclient import NotebookClient

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


def main(names: list[str]) -> None:
    for path in sorted(WORKBOOK.glob("*.ipynb")):
        if not names or path.stem in names or path.stem[:2] in names:
            nbformat.write(refreshed(path), path)
            print(path.name)


if __name__ == "__main__":
    main(sys.argv[1:])
