"""The desks of chapters 01, 06 and 08 on small bodies of known size, without a browser: what is dropped, found, kept and refused."""

from math import pi

import numpy as np
import pytest
import trimesh

from moldcalc.errors import MoldcalcError
from moldcalc.job import demo_job, read_job
from moldcalc.job.file import write_whole
from moldcalc.panels import panel
from moldcalc.panels.scan import scan_desk
from moldcalc.plan import plan

RADIUS = 0.15


def dome():
    """Half a ball on its flat side, of 150 mm radius, in millimetres."""
    up = np.linspace(0, pi / 2, 31)
    line = 1000 * RADIUS * np.stack([np.cos(up), np.sin(up)], axis=1)
    line[-1, 0] = 0
    return trimesh.creation.revolve(np.concatenate([[[0, 0]], line]), sections=120)


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.toml"
    write_whole(path, demo_job("bust")._text().encode())
    found = read_job(path)
    found.keep_all({"original.height": "150 mm", "original.scan": "", "split.fineness": "12 mm", "split.least_draft": "0°", "paste.ball": "80 mm",
                    "coats.wall": "6 mm"}, {})
    return found


def dropped(desk, name, data, part=200_000):
    """A file as the page sends it."""
    pieces = [data[at:at + part] for at in range(0, len(data), part)] or [b""]
    for number, piece in enumerate(pieces):
        desk.sheet._received(None, {"act": "file", "name": name, "part": number, "of": len(pieces), "size": len(data), "id": f"f{number}"}, [piece])
        assert desk.sheet.heard == f"f{number}"


def pressed(desk, name):
    desk.sheet._received(None, {"act": "press", "name": name, "id": name}, [])


def chosen(desk, name, value):
    desk.sheet._received(None, {"act": "set", "name": name, "value": value, "id": name}, [])


@pytest.fixture
def standing(job):
    desk = scan_desk("original", job)
    dropped(desk, "dome.stl", dome().export(file_type="stl"))
    chosen(desk, "unit", "mm")
    return desk


def test_a_dropped_scan_asks_for_its_unit(job):
    desk = scan_desk("original", job)
    assert "No scan yet" in desk.sheet.answer
    dropped(desk, "dome.stl", dome().export(file_type="stl"))
    assert "What is one unit?" in desk.sheet.answer and not desk.sheet.error
    assert "fits a millimetre" in desk.sheet.table
    offered = next(field["choices"] for field in desk.sheet.controls if field["name"] == "unit")
    assert any("300 mm × 300 mm × 150 mm" in choice["label"] for choice in offered)
    assert (job.path.parent / "dome.stl").is_file() and not list(job.path.parent.glob(".*part"))


def test_its_size_is_shown_and_used(standing, job):
    assert "0.141 m²" in standing.sheet.answer and "7.0" in standing.sheet.answer  # 2 pi r² less facets; 2/3 pi r³
    other = panel("original", job)
    pressed(standing, "keep")
    kept = read_job(job.path)
    assert kept.job.original.method == "scan" and kept.job.original.scan_unit == "mm" and kept.job.original.detail_factor == 1
    assert plan(kept).value("original.smooth_area") == pytest.approx(2 * pi * RADIUS**2, rel=0.004)
    assert kept.job.original.volume == pytest.approx(2 / 3 * pi * RADIUS**3, rel=0.006)
    assert kept.job.original.base_outline == pytest.approx(2 * pi * RADIUS, rel=0.004)
    # an even skin on a dome has its centre at half its height (closed form; zones of a sphere are as wide as they are high)
    assert kept.job.handling.centre_height == pytest.approx(RADIUS / 2, rel=0.01)
    assert kept.job.handling.centre_along == pytest.approx(RADIUS, rel=0.01)
    assert "0.141" in other.text(), "the panel of the same chapter follows"
    assert job.path.with_suffix(".survey").is_file()


def test_a_wrong_unit_is_questioned(standing):
    chosen(standing, "unit", "in")
    assert "Is the scan in mm?" in standing.sheet.table


@pytest.mark.parametrize(("name", "data", "words"), [
    ("page.stl", b"<html><body>not found</body></html>", "stl"),
    ("ten.stl", b"0123456789", "stl"),
    ("note.txt", b"hello", "no scan that can be read"),
    ("../../x.obj", b"v 0 0 0\n", "obj"),
    ("", b"", "no scan that can be read"),
])
def test_what_is_no_scan_gets_a_sentence(job, name, data, words):
    desk = scan_desk("original", job)
    dropped(desk, name, data)
    assert words in desk.sheet.error.lower() and "Traceback" not in desk.sheet.error
    assert not list(job.path.parent.parent.glob("x.obj")) and not list(job.path.parent.glob(".*part"))
    assert not desk.sheet.busy


def test_a_dome_has_no_pocket_and_comes_off_in_one(standing, job):
    # at 0°: with any draft the last millimetres above the board would ask for a second section
    pressed(standing, "keep")
    pockets = scan_desk("paste", job)
    pressed(pockets, "find")
    assert "no pocket" in pockets.sheet.answer and not pockets.sheet.error
    sections = scan_desk("split", job)
    pressed(sections, "find")
    assert not sections.sheet.error
    assert sections.sheet.answer.startswith("<b>1</b> section")
    pressed(sections, "keep")
    kept = read_job(job.path).job
    assert len(kept.layup.section) == 1 and kept.layup.section[0].order == 1 and kept.layup.section[0].draft > kept.split.least_draft - 1e-3
    assert kept.layup.section[0].face == pytest.approx(2 * pi * (RADIUS + 0.006) ** 2, rel=0.01)


def test_work_can_be_stopped(standing):
    pressed(standing, "keep")
    sheet = standing.sheet
    before = sheet.answer
    seen = []

    def stop_soon(change):
        seen.append(change["new"])
        sheet._received(None, {"act": "stop", "id": ""}, [])

    work = iter_progress()
    sheet.observe(stop_soon, "busy")
    sheet.run(work, lambda answer: pytest.fail("a stopped work has no answer"))
    assert not sheet.busy and sheet.answer == before and "Stopped" in sheet.note and seen


def iter_progress():
    from moldcalc.scan.progress import Progress

    for step in range(10):
        yield Progress("counting", step / 10)
    return "done"


def test_a_fault_in_the_work_is_one_sentence(standing):
    def broken():
        from moldcalc.scan.progress import Progress

        yield Progress("about to fail", 0.5)
        raise ZeroDivisionError("secret")

    standing.sheet.run(broken(), lambda answer: None)
    assert "could not be worked out" in standing.sheet.error and "secret" not in standing.sheet.error and not standing.sheet.busy


def test_odd_messages_harm_nothing(standing):
    before = standing.sheet.answer
    for message in (None, {}, {"act": "press"}, {"act": "press", "name": "eval"}, {"act": "set", "name": "unit", "value": "parsec"}, {"act": "file"},
                    {"act": "tick", "name": "fill", "row": "x", "on": True}, {"act": "stop"}, 7, {"act": "set", "name": "held", "value": "<b>"}):
        standing.sheet._received(None, message, [])
    assert standing.sheet.answer == before and "<b>" not in standing.sheet.error


def test_the_demo_shows_what_was_found_on_it():
    for stage, words in (("original", "1.52 m²"), ("paste", "pockets"), ("split", "sections")):
        desk = scan_desk(stage, demo_job())
        assert words in desk.text() and desk.picture.still.startswith("<svg") and "<script" not in desk.static_html()
        labels = np.frombuffer(desk.picture.labels, np.uint8)
        assert len(labels) == len(desk.picture.faces) // 12
        assert (labels.any()) == (stage != "original")


def test_an_unknown_desk_is_refused():
    with pytest.raises(MoldcalcError, match="there are original, paste, split"):
        scan_desk("coats", demo_job())
