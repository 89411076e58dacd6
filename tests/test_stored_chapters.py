"""What is stored in a chapter: readable before it is run, the same for everybody, written by the refresh tool."""

import re

import nbformat
import pytest

from moldcalc.job.places import workbook_folder

CHAPTERS = sorted(workbook_folder().glob("*.ipynb"))


@pytest.mark.parametrize("path", CHAPTERS, ids=[path.stem for path in CHAPTERS])
def test_a_stored_chapter_is_clean(path):
    book = nbformat.read(path, as_version=4)
    assert book.metadata == {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}, "language_info": {"name": "python"}}
    for place, cell in enumerate(book.cells):
        assert cell.id == f"{path.stem[:2]}-{place:02d}"
        for output in cell.get("outputs", []):
            assert output.output_type != "error"
            assert "application/vnd.jupyter.widget-view+json" not in output.get("data", {})
            assert not re.search(r"0x[0-9a-f]{8,}|/tmp/|/home/", str(output.get("data", {}).get("text/plain", "")))


@pytest.mark.parametrize("path", CHAPTERS, ids=[path.stem for path in CHAPTERS])
def test_a_chapter_reads_well(path):
    book = nbformat.read(path, as_version=4)
    code = [cell for cell in book.cells if cell.cell_type == "code"]
    prose = [cell for cell in book.cells if cell.cell_type == "markdown"]
    assert all(cell.execution_count == place for place, cell in enumerate(code, 1))
    assert not any(re.search(r"^(def|class|while|for) ", cell.source, re.MULTILINE) for cell in code)
    assert any("panel(" in cell.source for cell in code)
    last = prose[-1].source.lower()
    assert "before going on" in last and "safety data sheet" in last
    assert not re.search(r"\bsafe\b", " ".join(cell.source.lower() for cell in prose))
