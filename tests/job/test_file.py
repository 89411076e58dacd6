"""The job file: what a person wrote in it stays, nothing is half written, and what is broken gets a sentence."""

import itertools
import multiprocessing
import os
import random
import signal
import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError, FileError, MoldcalcError
from moldcalc.job import Job, demo_job, demo_names, new_text, open_job, read_job
from moldcalc.job.file import LARGEST, LAYOUT, ChangedError
from moldcalc.job.job import all_paths
from moldcalc.job.places import data_folder

HARE = (data_folder() / "jobs" / "hare.toml").read_bytes()


@pytest.fixture
def path(tmp_path):
    """A job file of one's own: the hare."""
    made = tmp_path / "job.toml"
    made.write_bytes(HARE)
    return made


def said_of(error):
    text = str(error.value)
    assert text.strip() and "\n" not in text and "Traceback" not in text
    return text


# what stays ---------------------------------------------------------------------------------------------------------
def test_one_line_changes_and_the_rest_stays(path):
    job = read_job(path)
    job.set("coats.wall", "1/4 in")
    job.set("cure.temperature", "16 °C")
    job.save()
    before, after = HARE.decode().splitlines(), path.read_text(encoding="utf-8").splitlines()
    assert len(before) == len(after)
    assert [(a, b) for a, b in zip(before, after, strict=True) if a != b] == [
        ('temperature = "19 °C"', 'temperature = "16 °C"'), ('wall = "6 mm"', 'wall = "1/4 in"')]
    assert read_job(path).job == job.job


def test_a_remark_behind_a_value_stays(path):
    job = read_job(path)
    job.set("original.detail_factor", "1.2")
    job.save()
    assert '# fur relief and folds' in path.read_text(encoding="utf-8")


def test_saving_what_was_not_changed_writes_nothing(path):
    os.utime(path, ns=(10**18, 10**18))
    read_job(path).save()
    assert path.stat().st_mtime_ns == 10**18 and os.listdir(path.parent) == ["job.toml"]


def test_a_new_entry_table_and_row(path):
    path.write_text('# mine\nlayout = 1\n[start]\ntitle = "x"\n', encoding="utf-8")
    job = read_job(path)
    job.set("mixing.people", 3)
    job.set("coats.coat.2.thickness", "1 mm")
    job.set("coats.count_growth", False)
    job.set("cure.started", "4:10 pm")
    job.set("original.area", {"low": "1 m²", "likely": "1.2 m²", "high": "2 m²"})
    job.save()
    again = read_job(path)
    assert again.job == job.job and path.read_text(encoding="utf-8").startswith("# mine\n")
    assert (again.job.mixing.people, again.job.coats.coat[1].thickness, len(again.job.coats.coat)) == (3, pytest.approx(0.001), 4)


def test_an_entry_that_is_taken_out_again(path):
    job = read_job(path)
    job.set("original.volume", "")
    job.save()
    assert read_job(path).job.original.volume is None and 'volume = "84 L"' not in path.read_text(encoding="utf-8")


def test_what_cant_be_used_changes_nothing(path):
    job = read_job(path)
    for where, value in [("coats.wall", "90 mm"), ("coats.wal", "6 mm"), ("coats.coat.99.thickness", "1 mm"), ("start.title", "\ud800"),
                         ("materials.rubber", "../x"), ("materials.rubber", "x" * 300), ("start.title", "two\nlines")]:
        before = job.job
        with pytest.raises(EntryError):
            job.keep(where, value)
        assert job.job is before
    assert path.read_bytes() == HARE


@pytest.mark.parametrize("where", list(all_paths()))
def test_every_entry_can_be_set_saved_and_read_back(where, path):
    job = read_job(path)
    entry = job.job.entry(where)
    value = job.job.get(where) if job.job.get(where) is not None else entry.default
    text = entry.write(value) if value is not None else entry.example()
    job.set(where, text)
    job.save()
    assert read_job(path).job.get(where) == job.job.get(where)


def test_text_that_looks_like_toml_stays_text(path):
    job = read_job(path)
    for text in ['"]\n'.strip(), "a\" b ' c \\ d", "#[x]=1", "日本 ½ é", "x" * 400]:
        job.set("start.note", text)
        job.save()
        assert read_job(path).job.start.note == text


SHAPES = {
    "inline table": 'coats = { wall = "6 mm" }\n',
    "dotted keys": 'coats.wall = "6 mm"\ncure.humidity = "50 %"\n',
    "rows on one line": '[coats]\ncoat = [{ thickness = "1 mm" }, { thickness = "2 mm" }]\n',
    "rows in an inline table": 'coats = { coat = [{ thickness = "1 mm" }] }\n',
    "rows far apart": '[coats]\nwall = "6 mm"\n[cure]\n[[coats.coat]]\nthickness = "1 mm"\n[paste]\n[[coats.coat]]\nthickness = "2 mm"\n',
    "rows first": '[[coats.coat]]\nthickness = "1 mm"\n[cure]\nhumidity = "50 %"\n[coats]\nwall = "6 mm"\n',
    "nothing": "",
    "no end of line": '[coats]\nwall = "6 mm"',
    "lines as Windows ends them": '[coats]\r\nwall = "6 mm"\r\n\r\n[cure]\r\nhumidity = "50 %"\r\n',
    "quoted keys": '["coats"]\n"wall" = "6 mm"\n',
    "older, inline": 'job = { title = "x" }\ncoats = { thickness = "7 mm" }\n',
    "older, dotted": 'job.title = "x"\ncoats.thickness = "7 mm"\n',
}


@pytest.mark.parametrize("shape", SHAPES)
def test_every_way_to_write_a_table_can_be_added_to(shape, path):
    text = SHAPES[shape] if shape.startswith("older") else "layout = 1\n" + SHAPES[shape]
    path.write_bytes((text.replace("layout = 1\n", "layout = 1\r\n") if "\r\n" in text else text).encode())
    job = read_job(path)
    for where, value in [("coats.wall", "7 mm"), ("coats.coat.1.thickness", "3 mm"), ("start.casts", 3), ("original.area", "1 to 2 m²"),
                         ("cure.humidity", "60 %"), ("original.volume", "3 L"), ("original.volume", ""), ("paste.loss", "9 %")]:
        job.keep(where, value)
        assert read_job(path).job == job.job
    assert (job.job.coats.wall, job.job.coats.coat[0].thickness, job.job.start.casts) == (pytest.approx(0.007), pytest.approx(0.003), 3)
    raw = path.read_bytes()
    assert raw.count(b"\r\n") in (0, raw.count(b"\n"))


# nothing is half written ----------------------------------------------------------------------------------------------
def write_for_ever(path):
    for count in itertools.count(1):
        job = read_job(path)
        job.set("start.note", f"{count} " + "n" * (count % 300))
        job.save()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork there")
def test_a_killed_writer_leaves_a_whole_file(path):
    chance = random.Random(1)
    for _ in range(15):
        before = path.read_bytes()
        writer = multiprocessing.get_context("fork").Process(target=write_for_ever, args=(path,))
        writer.start()
        while path.read_bytes() == before and writer.is_alive():
            time.sleep(0.002)
        time.sleep(chance.uniform(0, 0.03))
        writer.kill()
        writer.join()
        assert writer.exitcode == -signal.SIGKILL
        assert read_job(path).job.start.casts == 6
        assert read_job(path.with_name("job.toml.earlier")).job.start.casts == 6
    assert set(os.listdir(path.parent)) <= {"job.toml", "job.toml.earlier", ".job.toml.new", ".job.toml.earlier.new"}


def test_the_earlier_version_is_kept(path):
    job = read_job(path)
    job.keep("coats.wall", "7 mm")
    earlier = path.with_name("job.toml.earlier")
    assert earlier.read_bytes() == HARE
    second = path.read_bytes()
    job.keep("coats.wall", "8 mm")
    assert earlier.read_bytes() == second
    assert sorted(os.listdir(path.parent)) == ["job.toml", "job.toml.earlier"]


@pytest.mark.parametrize("step", ["replace", "fsync"])
def test_a_folder_that_cant_be_written_to(step, path, monkeypatch):
    def refused(*_):
        raise PermissionError(13, "Permission denied")

    job = read_job(path)
    job.set("coats.wall", "7 mm")
    monkeypatch.setattr(os, step, refused)
    with pytest.raises(FileError) as error:
        job.save()
    assert "was not saved (permission denied); the file is as it was. Close other programs that use it, or choose another folder." in said_of(error)
    assert path.read_bytes() == HARE and os.listdir(path.parent) == ["job.toml"]
    monkeypatch.undo()
    job.save()
    assert read_job(path).job.coats.wall == pytest.approx(0.007)


@pytest.mark.skipif(os.name == "nt", reason="rights are other there")
def test_rights_stay_as_they_are(path):
    path.chmod(0o600)
    read_job(path).keep("coats.wall", "7 mm")
    assert path.stat().st_mode & 0o777 == 0o600


# two who change it ----------------------------------------------------------------------------------------------------
def test_somebody_elses_change_is_not_overwritten(path):
    mine, theirs = read_job(path), read_job(path)
    theirs.keep("coats.wall", "8 mm")
    mine.set("cure.temperature", "15 °C")
    with pytest.raises(ChangedError) as error:
        mine.save()
    assert "was changed by someone else since it was read. Open it again; nothing was overwritten." in said_of(error)
    assert read_job(path).job.coats.wall == pytest.approx(0.008)


def test_keep_takes_in_what_another_chapter_changed(path):
    mine, theirs = read_job(path), read_job(path)
    assert theirs.keep("coats.wall", "8 mm") is False
    assert mine.keep("cure.temperature", "15 °C") is True
    for job in (mine, read_job(path)):
        assert (job.job.coats.wall, job.job.cure.temperature) == (pytest.approx(0.008), pytest.approx(288.15))
    assert mine.keep("cure.temperature", "14 °C") is False


def test_keep_when_the_other_change_broke_the_file(path):
    mine = read_job(path)
    path.write_text("layout = [", encoding="utf-8")
    with pytest.raises(FileError) as error:
        mine.keep("coats.wall", "8 mm")
    assert "can't be read as TOML" in said_of(error)
    assert path.read_text(encoding="utf-8") == "layout = ["


def test_a_file_that_was_taken_away_is_written_again(path):
    job = read_job(path)
    path.unlink()
    job.keep("coats.wall", "8 mm")
    assert read_job(path).job.coats.wall == pytest.approx(0.008)


def write_and_count(path, name, done):
    job = read_job(path)
    for count in range(20):
        job.keep(f"cure.{name}", f"{10 + count} °C")
    done.put(name)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork there")
def test_two_chapters_at_once_leave_a_whole_file(path):
    context = multiprocessing.get_context("fork")
    done = context.Queue()
    writers = [context.Process(target=write_and_count, args=(path, name, done)) for name in ("temperature", "night_temperature")]
    for writer in writers:
        writer.start()
    while any(writer.is_alive() for writer in writers):
        assert read_job(path).job.start.casts == 6
    assert sorted(os.listdir(path.parent)) == ["job.toml", "job.toml.earlier"]


# layouts --------------------------------------------------------------------------------------------------------------
def test_an_older_layout_is_brought_forward(path):
    path.write_text('# old\n[job]\ntitle = "Old"  # name\ncasts = 4\n\n[coats]\nthickness = "7 mm"  # wall\n\n[[coats.coat]]\nthickness = "1 mm"\n',
                    encoding="utf-8")
    job = read_job(path)
    assert (job.job.start.title, job.job.start.casts) == ("Old", 4)
    assert (job.job.coats.wall, job.job.coats.coat[0].thickness) == (pytest.approx(0.007), pytest.approx(0.001))
    job.keep("cure.temperature", "15 °C")
    text = path.read_text(encoding="utf-8")
    assert f"layout = {LAYOUT}" in text and "# old" in text and "[job]" not in text
    assert read_job(path).job == job.job


@pytest.mark.parametrize("layout", ["2", "99", "-1", '"1"', "1.0", "true", "[]", "{}", "9" * 300])
def test_a_layout_we_dont_know(layout, path):
    path.write_text(f"layout = {layout}\n", encoding="utf-8")
    with pytest.raises(EntryError) as error:
        read_job(path)
    assert "job.toml: layout is " in said_of(error) and "a newer moldcalc may have made this file" in said_of(error)


def test_the_text_of_a_new_job_reads_back_to_the_defaults(path):
    text = new_text('Otter, "life size"')
    path.write_text(text, encoding="utf-8")
    job = read_job(path)
    plain = Job.of()
    for where in all_paths():
        if where != "start.title":
            assert job.job.get(where) == plain.get(where), where
    assert job.job.start.title == 'Otter, "life size"' and job.job.coats.coat == plain.coats.coat
    assert all(line.count("  # ") == 1 for line in text.splitlines() if " = " in line and not line.startswith("layout"))


# demos ----------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("name", demo_names())
def test_a_demo_is_never_written(name, monkeypatch):
    file = data_folder() / "jobs" / f"{name}.toml"
    before = file.read_bytes()
    monkeypatch.setattr("moldcalc.job.file.write_whole", lambda *_: pytest.fail("a demo was written"))
    job = demo_job(name)
    assert job.keep("coats.wall", "9 mm") is False
    job.save()
    assert job.path is None and job.job.coats.wall == pytest.approx(0.009)
    assert file.read_bytes() == before and "a demo, nothing is kept" in repr(job)


def test_which_job_is_opened(path, monkeypatch):
    monkeypatch.chdir(path.parent)
    assert open_job().path.name == "job.toml"
    assert open_job("bust").path is None and open_job(path).path == path
    path.unlink()
    assert open_job().path is None
    with pytest.raises(FileError) as error:
        open_job("no-such")
    assert said_of(error) == "no-such can't be read: no such file or directory."


# what is broken -------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("text", "says"), [
    (b"[coats]\nwall = 6 mm\n", "job.toml can't be read as TOML. Line 2: wall = 6 mm Texts and quantities stand in quotes, like wall = \"6 mm\"."),
    (b"[coats]\nwall = \"6 mm\n", "Line 2: wall = \"6 mm"),
    (b"layout = 1\n[coats\n", "Line 2: [coats"),
    (b"layout = 1\nlayout = 1\n", "job.toml can't be read as TOML."),
    (b"[coats]\n[coats]\n", "job.toml can't be read as TOML."),
    (b"a = 2026-99-99\n", "job.toml can't be read as TOML."),
    (b"\xff\xfe", "job.toml is not text in UTF-8 (byte 1)."),
    (b"layout = 1\nx = " + b"[" * 20_000, "job.toml "),
    (b"layout = 1\nx = " + b"{a=" * 20_000, "job.toml "),
    (b"#" * 3_000_000, f"job.toml is larger than a job file can be ({LARGEST // 1000} kB)."),
    (b"layout = 1\n[coats]\nwall = \"90 mm\"\n", "job.toml [coats] Wall when finished is 90 mm; it must be from 1 mm to 40 mm."),
    (b"layout = 1\n[coast]\n", "job.toml 'coast' is not a known table; known are start, "),
    (b"layout = 1\ncoats = 3\n", "job.toml [coats] "),
    (b"layout = 1\n[coats]\ncoat = 3\n", "it must be rows, each under [[ ]]."),
    (b"layout = 1\n[cure]\nstarted = nan\n", "Brushing starts at is nan; write a clock time"),
])
def test_a_broken_file_gets_a_sentence(text, says, path):
    path.write_bytes(text)
    with pytest.raises(MoldcalcError) as error:
        read_job(path)
    assert says in said_of(error)
    assert path.read_bytes() == text


def test_what_is_no_file(tmp_path):
    for where in (tmp_path, tmp_path / "none.toml", tmp_path / ("x" * 300), tmp_path / "a\x00b"):
        with pytest.raises(FileError) as error:
            read_job(where)
        assert "can't be read: " in said_of(error)


def test_every_fault_of_a_file_at_once(path):
    path.write_text('layout = 1\n[coats]\nwall = "6"\nwal = "6 mm"\n[cure]\nhumidity = "500 %"\n[materials]\nrubber = "x"\n[pase]\n',
                    encoding="utf-8")
    with pytest.raises(EntryError) as error:
        read_job(path)
    assert len(error.value.faults) == 4  # an unknown key hides the values beside it, in its own table only
    assert all(str(fault).startswith("job.toml ") for fault in error.value.faults)


def test_clock_times_as_toml_has_them_and_a_mark_at_the_start(path):
    path.write_text("layout = 1\n[cure]\nstarted = 08:15:00\n", encoding="utf-8-sig")
    job = read_job(path)
    assert job.job.cure.started == 29700
    job.keep("cure.closing", "18:00")
    assert read_job(path).job.cure.started == 29700


BYTES = st.one_of(st.binary(max_size=6), st.sampled_from([b'"', b"[", b"]", b"[[", b"{", b"}", b"=", b"\n", b"#", b"'''", b'"""', b"\\", b".",
                                                          b"nan", b"1e400",
                                                          b"true", b"\xff", b"\x00", b"[coats]\n", b"[coats.coat]\n", b"coats.wall = 3\n",
                                                          b"9" * 5000, b"\xef\xbb\xbf"]))


def read_or_refused(path, text):
    path.write_bytes(text)
    try:
        job = read_job(path)
    except MoldcalcError as error:
        assert str(error)
        return
    job.keep("coats.wall", "7 mm")
    assert read_job(path).job.coats.wall == pytest.approx(0.007)
    assert job.job.coats.wall == pytest.approx(0.007)


@settings(max_examples=150, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))
@given(changes=st.lists(st.tuples(st.integers(0, len(HARE)), st.integers(0, 30), BYTES), min_size=1, max_size=4))
def test_any_damage_is_a_job_or_a_sentence(changes, tmp_path):
    text = HARE
    for at, gone, put in changes:
        text = text[:at] + put + text[at + gone:]
    read_or_refused(tmp_path / "job.toml", text)


LINES = HARE.splitlines(keepends=True)
OTHER = [b'coats.wall = "7 mm"\n', b"[coats.coat.x]\n", b"[[coats.coat]]\n", b"[[coats]]\n", b"[coats]\n", b"[job]\n", b"layout = 0\n",
         b"coat = []\n", b"coat = [{}]\n",
         b'coat = [{ thickness = "1 mm" }]\n', b'thickness = "5 mm"\n', b"[start]\n", b"'' = 1\n", b'"wall" = "6 mm"\n',
         b"wall = { low = 1, high = 2 }\n", b"a.b.c = 1\n",
         b"title = 1979-05-27T07:32:00Z\n", b"\r\n", b'note = """\nx"""\n', b"start = { title = 'x' }\n", b"started = 1979-05-27\n",
         b"casts = 0x10\n", b"casts = 1e2\n"]


@settings(max_examples=100, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))
@given(changes=st.lists(st.tuples(st.integers(0, len(LINES)), st.integers(0, 3), st.one_of(st.sampled_from(OTHER), st.sampled_from(LINES))),
                        min_size=1, max_size=3))
def test_lines_put_elsewhere_are_a_job_or_a_sentence(changes, tmp_path):
    lines = LINES
    for at, gone, put in changes:
        lines = [*lines[:at], put, *lines[at + gone:]]
    read_or_refused(tmp_path / "job.toml", b"".join(lines))
