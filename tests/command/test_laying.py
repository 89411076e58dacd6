"""Laying the workbook in a folder keeps what the user changed."""

import json

from moldcalc.job.places import workbook_folder
from moldcalc.laying import lay


def _change(path, cell_type, text):
    book = json.loads(path.read_text())
    next(cell for cell in book["cells"] if cell["cell_type"] == cell_type)["source"] = [text]
    path.write_text(json.dumps(book))


def test_a_fresh_folder_gets_all_chapters_and_the_demo_job(tmp_path):
    notes = lay(tmp_path / "book")
    assert {p.name for p in workbook_folder().glob("*.ipynb")} == {p.name for p in (tmp_path / "book").glob("*.ipynb")}
    assert (tmp_path / "book" / "job.toml").is_file() and len(notes) == 1


def test_a_changed_chapter_and_job_are_kept(tmp_path):
    lay(tmp_path)
    _change(tmp_path / "00_start.ipynb", "markdown", "my own words")
    (tmp_path / "job.toml").write_text("layout = 1\n")
    notes = lay(tmp_path)
    assert notes == ["00_start.ipynb was kept: you changed it."]
    assert "my own words" in (tmp_path / "00_start.ipynb").read_text() and (tmp_path / "job.toml").read_text() == "layout = 1\n"


def test_a_chapter_that_was_only_run_is_replaced_by_a_newer_one(tmp_path, monkeypatch):
    lay(tmp_path)
    book = json.loads((tmp_path / "00_start.ipynb").read_text())
    book["metadata"]["run"] = True
    (tmp_path / "00_start.ipynb").write_text(json.dumps(book))
    newer = tmp_path / "newer"
    newer.mkdir()
    for chapter in workbook_folder().glob("*.ipynb"):
        (newer / chapter.name).write_bytes(chapter.read_bytes())
    _change(newer / "00_start.ipynb", "markdown", "a newer edition")
    monkeypatch.setattr("moldcalc.laying.workbook_folder", lambda: newer)
    assert lay(tmp_path) == []
    assert "a newer edition" in (tmp_path / "00_start.ipynb").read_text()
