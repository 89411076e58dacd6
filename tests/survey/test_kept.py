"""The survey beside a job: what is written reads back, what is damaged gets one sentence, nothing is ever executed."""

import json
import pickle
import zipfile

import numpy as np
import pytest

from moldcalc.errors import FileError
from moldcalc.survey.kept import LARGEST, Shape, Survey, read_survey, survey_path, write_survey


@pytest.fixture
def survey():
    corners = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], np.float32)
    faces = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]], np.uint32)
    shape = Shape(corners, faces, np.array([1, 2, 1, 255], np.uint8))
    return Survey().with_found("sections", {"order": "1; then 2 <b>", "paste": 0.25}, "shell", shape)


def test_what_is_written_reads_back(tmp_path, survey):
    path = survey_path(tmp_path / "bench.toml")
    assert path.name == "bench.survey"
    write_survey(path, survey)
    again = read_survey(path)
    assert again.facts == survey.facts
    for name in ("vertices", "faces", "labels"):
        assert (getattr(again.shapes["shell"], name) == getattr(survey.shapes["shell"], name)).all()


def test_the_same_survey_is_the_same_bytes(tmp_path, survey):
    write_survey(tmp_path / "a.survey", survey)
    write_survey(tmp_path / "b.survey", survey)
    assert (tmp_path / "a.survey").read_bytes() == (tmp_path / "b.survey").read_bytes()


def test_without_a_file_there_is_nothing(tmp_path):
    assert read_survey(tmp_path / "none.survey") == Survey()


@pytest.mark.parametrize("cut", [0, 1, 50, 300, -1, -40])
def test_a_file_that_was_cut_off_is_said(tmp_path, survey, cut):
    path = tmp_path / "job.survey"
    write_survey(path, survey)
    path.write_bytes(path.read_bytes()[:cut])
    with pytest.raises(FileError, match="can't be read as a survey"):
        read_survey(path)


def test_every_damaged_byte_is_survived(tmp_path, survey):
    path = tmp_path / "job.survey"
    write_survey(path, survey)
    whole = path.read_bytes()
    for place in range(0, len(whole), 7):
        path.write_bytes(whole[:place] + bytes([whole[place] ^ 0x55]) + whole[place + 1:])
        try:
            read_survey(path)
        except FileError as error:
            assert str(error).count(".") <= 3


def saved(path, **arrays):
    np.savez_compressed(path.open("wb"), **arrays)


def test_nothing_pickled_is_opened(tmp_path):
    class Trap:
        def __reduce__(self):
            return (print, ("opened",))

    path = tmp_path / "job.survey"
    with zipfile.ZipFile(path, "w") as packed:
        packed.writestr("facts.npy", pickle.dumps(Trap()))
    with pytest.raises(FileError):
        read_survey(path)
    saved(path, facts=np.array([Trap()], dtype=object))
    with pytest.raises(FileError):
        read_survey(path)


@pytest.mark.parametrize("change", [
    {"shell_faces": np.array([[0, 1, 9]], np.uint32)},
    {"shell_faces": np.zeros((0, 3), np.uint32)},
    {"shell_vertices": np.array([[np.nan] * 3] * 4, np.float32)},
    {"shell_labels": np.zeros(3, np.uint8)},
    {"shell_vertices": np.zeros((4, 2), np.float32)},
    {"facts": np.frombuffer(b"[1]", np.uint8)},
    {"facts": np.frombuffer(json.dumps({"layout": 99}).encode(), np.uint8)},
    {"facts": np.frombuffer(b"{" * 5000, np.uint8)},
])
def test_what_does_not_fit_together_is_refused(tmp_path, survey, change):
    path = tmp_path / "job.survey"
    write_survey(path, survey)
    with np.load(path) as found:
        arrays = {name: found[name] for name in found.files} | change
    saved(path, **arrays)
    with pytest.raises(FileError):
        read_survey(path)


def test_a_bomb_is_not_unpacked(tmp_path):
    path = tmp_path / "job.survey"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed, packed.open("facts.npy", "w") as part:
        for _ in range(4 * LARGEST // (1 << 20) + 2):
            part.write(bytes(1 << 20))
    assert path.stat().st_size < LARGEST
    with pytest.raises(FileError):
        read_survey(path)
