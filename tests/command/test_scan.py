"""A scan on the command line: its size, and where the shell over it comes apart, as the desks say it."""

import json
from math import pi

import pytest

from moldcalc.job import demo_job, read_job
from moldcalc.job.file import write_whole
from tests.command.test_command import run
from tests.panels.test_scan_desks import RADIUS, dome


@pytest.fixture
def scan(tmp_path):
    path = tmp_path / "dome.stl"
    dome().export(path)
    return path


def test_the_size_of_a_scan(scan, capsys):
    code, out, _ = run(capsys, "size", scan, "--unit", "mm")
    assert code == 0 and "0.141 m²" in out and "Traceback" not in out
    code, out, _ = run(capsys, "size", scan, "--unit", "mm", "--json")
    found = {line["name"]: line for line in json.loads(out)["results"]}
    assert code == 0 and found["scan.area"]["value"] == pytest.approx(2 * pi * RADIUS**2, rel=0.004) and found["scan.area"]["unit"] == "m²"
    assert all({"name", "value", "unit", "low", "high", "why", "source"} <= set(line) for line in found.values())


@pytest.mark.parametrize(("arguments", "words"), [
    ((), "not said (it is 300 × 300 × 150 of its units)"),
    (("--height", "150 mm"), "the height you gave fits mm"),
    (("--height", "150"), "Height"),
    (("--unit", "m"), "300 m across"),
    (("--unit", "parsec"), "parsec"),
])
def test_what_is_missing_gets_one_sentence(scan, capsys, arguments, words):
    try:
        code, out, err = run(capsys, "size", scan, *arguments)
    except SystemExit as end:
        code, (out, err) = end.code, capsys.readouterr()
    assert code == 2 and words in err and not out and "Traceback" not in err


@pytest.mark.parametrize("data", [b"", b"0123456789", b"<html></html>"])
def test_what_is_no_scan(tmp_path, capsys, data):
    (tmp_path / "x.stl").write_bytes(data)
    code, _, err = run(capsys, "size", tmp_path / "x.stl", "--unit", "mm")
    assert code == 2 and err.startswith("x.stl") and err.count("\n") == 1


@pytest.fixture
def job(scan):
    path = scan.parent / "job.toml"
    write_whole(path, demo_job("bust")._text().encode())
    read_job(path).keep_all({"original.scan": scan.name, "original.scan_unit": "mm", "split.fineness": "12 mm", "split.least_draft": "0°",
                             "paste.ball": "80 mm"}, {})
    return path


def test_where_the_shell_comes_apart(job, capsys):
    code, out, _ = run(capsys, "split", job)
    assert code == 0 and out.startswith("1 section") and "straight up" in out
    assert len(read_job(job).job.layup.section) == 2, "nothing is kept unless it is asked for"
    code, out, _ = run(capsys, "split", job, "--json", "--keep")
    found = json.loads(out)
    assert code == 0 and len(found["sections"]) == found["bound"] == 1 and found["comes_apart"]
    assert len(read_job(job).job.layup.section) == 1 and job.with_suffix(".survey").is_file()


def test_the_packet_draws_what_was_kept(job, capsys, tmp_path):
    run(capsys, "split", job, "--keep")
    assert run(capsys, "plan", job, "--packet", tmp_path / "papers")[0] == 0
    page = (tmp_path / "papers" / "packet-a4.html").read_text(encoding="utf-8")
    assert "Where the shell comes apart" in page and page.count("<svg") >= 1 and "<script" not in page


def test_a_job_without_a_scan_and_a_demo_to_keep(capsys, tmp_path):
    code, _, err = run(capsys, "split", "bust")
    assert code == 2 and "Scan is not named" in err
    (tmp_path / "a.toml").write_text('layout = 1\n[original]\nscan = "../../etc/passwd"\nscan_unit = "mm"\n')
    code, _, err = run(capsys, "split", tmp_path / "a.toml")
    assert code == 2 and "without a folder" in err
