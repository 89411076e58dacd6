"""The command line as a user types it."""

import csv
import io
import json

import pytest

from moldcalc.__main__ import main


def run(capsys, *arguments):
    code = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return code, out, err


def test_new_check_plan(tmp_path, capsys):
    file = tmp_path / "bench.toml"
    assert run(capsys, "new", file, "--title", "A bird bath")[0] == 0
    assert run(capsys, "check", file)[1].startswith("A bird bath: every entry can be used.")
    code, out, _ = run(capsys, "plan", file)
    assert code == 0 and "Rubber to have ready" in out


def test_new_never_overwrites(tmp_path, capsys):
    (tmp_path / "a.toml").write_text("mine")
    code, _, err = run(capsys, "new", tmp_path / "a.toml")
    assert code == 2 and "nothing was overwritten" in err and (tmp_path / "a.toml").read_text() == "mine"


def test_json_has_every_result_with_its_why(capsys):
    code, out, _ = run(capsys, "plan", "hare", "--json")
    found = json.loads(out)
    assert code == 0 and {"name", "value", "unit", "low", "high", "why", "source"} <= set(found["results"][0])
    assert found["cautions"] and all(line["why"] and line["source"] for line in found["results"])


def test_csv_is_a_table(capsys):
    lines = list(csv.DictReader(io.StringIO(run(capsys, "plan", "bust", "--csv")[1])))
    assert any(line["name"] == "mixing.rubber" for line in lines)


def test_packet_is_written(tmp_path, capsys):
    code, out, _ = run(capsys, "plan", "standing-figure", "--packet", tmp_path / "papers")
    assert code == 0 and "packet-a4.html" in out and (tmp_path / "papers" / "packet-a4.html").stat().st_size > 5000


@pytest.mark.parametrize(("text", "says"), [
    ("[coats]\nwal = \"6 mm\"", "did you mean wall?"),
    ("[coats]\nwall = 6", "it has no unit"),
    ("[coats\n", "can't be read as TOML"),
    ("[mixing]\npeople = 0", "whole number from 1 to 12"),
])
def test_bad_files_get_a_sentence_and_code_2(tmp_path, capsys, text, says):
    file = tmp_path / "job.toml"
    file.write_text(text)
    code, out, err = run(capsys, "plan", file)
    assert code == 2 and says in err and "Traceback" not in err and out == ""


def test_a_missing_file_gets_a_sentence(capsys):
    code, _, err = run(capsys, "plan", "nowhere.toml")
    assert code == 2 and "nowhere.toml can't be read" in err


def test_a_word_that_is_no_command(capsys):
    with pytest.raises(SystemExit) as stopped:
        main(["pln"])
    assert stopped.value.code == 2 and len(capsys.readouterr().err.strip().splitlines()) == 1
