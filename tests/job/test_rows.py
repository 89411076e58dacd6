"""All rows of one kind replaced at once: in the job, in its file, and all or nothing."""

import pytest

from moldcalc.errors import EntryError
from moldcalc.job import demo_job, read_job
from moldcalc.job.file import write_whole

ROWS = [{"name": "left", "face": "0.6 m²", "joint": "1.2 m", "touches": "right", "azimuth": "90°", "draft": "3.5°", "order": 1},
        {"name": "right", "face": "6.5 ft²", "joint": "1.2 m", "touches": "left"}]


@pytest.fixture
def kept(tmp_path):
    path = tmp_path / "job.toml"
    write_whole(path, demo_job()._text().encode())
    return read_job(path)


def test_rows_are_read_like_a_file():
    job = demo_job().job.with_rows("layup.section", ROWS)
    assert [section.name for section in job.layup.section] == ["left", "right"]
    assert job.layup.section[1].face == pytest.approx(6.5 * 0.3048**2)
    assert job.layup.section[0].order == 1 and job.layup.section[1].order is None


@pytest.mark.parametrize(("path", "rows", "word"), [
    ("layup.section", [{"name": "a", "face": "3 kg"}], "Face"),
    ("layup.section", [{"name": "a"}, {"name": "b", "faces": "1 m²"}], "did you mean face"),
    ("layup.sections", [], "not rows of a job"),
    ("lay", [], "not rows of a job"),
    ("layup.face_factor", [], "not rows of a job"),
    ("split.outline", [{"name": str(place)} for place in range(7)], "at most 6"),
    ("paste.fill", [{}] * 201, "at most 200"),
])
def test_what_is_wrong_is_said_in_one_sentence(path, rows, word):
    with pytest.raises(EntryError, match=word):
        demo_job().job.with_rows(path, rows)


def test_rows_and_entries_are_kept_together(kept):
    kept.keep_all({"original.method": "area", "original.scan": "hare.stl"}, {"layup.section": ROWS, "paste.fill": []})
    again = read_job(kept.path)
    assert again.job.original.scan == "hare.stl" and again.job.paste.fill == ()
    assert [section.name for section in again.job.layup.section] == ["left", "right"]
    text = kept.path.read_text(encoding="utf-8")
    assert "# clay over a foam core" in text and text.count("[[layup.section]]") == 2


def test_one_bad_row_leaves_everything_as_it_was(kept):
    before = kept.path.read_bytes()
    with pytest.raises(EntryError):
        kept.keep_all({"original.scan": "hare.stl"}, {"layup.section": [{"name": "a", "face": "-1 m²"}]})
    assert kept.path.read_bytes() == before and kept.job.original.scan == "hare.3mf"
    kept.keep("coats.wall", "7 mm")
    assert "hare.stl" not in kept.path.read_text(encoding="utf-8")


def test_a_change_made_elsewhere_is_read_first(kept):
    other = read_job(kept.path)
    other.keep("coats.wall", "8 mm")
    assert kept.keep_all({"original.scan": "hare.stl"}, {"layup.section": ROWS})
    again = read_job(kept.path)
    assert again.job.coats.wall == pytest.approx(0.008) and len(again.job.layup.section) == 2
