"""All panels, without a browser: each control to each limit and its middle; what is shown is what the plan says."""

import re
import sys
import xml.etree.ElementTree as ET
from html import escape

import pytest

from moldcalc.errors import MoldcalcError
from moldcalc.job import JobFile, demo_job, demo_names, read_job
from moldcalc.panels import DECLARED, Panel, panel
from moldcalc.panels.fields import field_of, slider_of
from moldcalc.panels.panel import plain
from moldcalc.plan import plan
from moldcalc.units import from_shown

STAGES = sorted(DECLARED)
UNWORKED = "could not be worked out"


def check(made: Panel) -> None:
    """The page shows what the plan of the same job says, and nothing else."""
    found = plan(made.plan.job)
    assert made.answer_text() in [found.say(sentence) for sentence in made.declaration.answer if can_say(found, sentence)]
    for line, name in zip(made.results, made.names(), strict=True):
        assert line["value"] == found.result(name).say(found.system), name
    assert [caution["text"] for caution in made.cautions] == [caution.text for caution in found.cautions_of(made.stage)]
    assert UNWORKED not in made.note
    for picture in made.pictures:
        drawing = ET.fromstring(picture["svg"])
        assert drawing.get("role") == "img" and drawing.get("aria-label")
        assert "nan" not in picture["svg"] and "inf" not in picture["svg"]


def can_say(found, sentence):
    try:
        found.say(sentence)
    except (KeyError, MoldcalcError):
        return False
    return True


def send(made: Panel, **message: object) -> None:
    made._received(made, {"id": "1", **message}, None)
    assert made.heard == "1"


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize("system", ["metric", "us"])
def test_each_slider_to_its_ends_and_middle(stage, name, system):
    job = demo_job(name)
    job.set("start.units", system)
    made = panel(stage, job)
    check(made)
    for path in made.paths():
        field = next(field for field in made.fields if field["path"] == path)
        if field["kind"] != "number":
            continue
        low, high, step = field["min"], field["max"], field["step"]
        middle = low + round((high - low) / 2 / step) * step
        for number in (low, high, middle):
            send(made, path=path, number=number, settled=False)
            assert UNWORKED not in made.note, (path, number, made.note)
            shown = next(field for field in made.fields if field["path"] == path)
            if shown["error"]:  # possible by itself, but not with the other entries: one sentence, the last answer stays
                assert made.old and "Still for" in made.band, (path, number)
            else:
                assert shown["number"] == pytest.approx(number, rel=1e-5, abs=1e-9), (path, number)
        send(made, path=path, number=field["number"], settled=False)
        check(made)


@pytest.mark.parametrize("stage", STAGES)
def test_each_choice(stage):
    made = panel(stage, demo_job())
    for path in made.paths():
        for choice in next(field for field in made.fields if field["path"] == path)["choices"]:
            send(made, path=path, text=choice["value"], settled=False)
            assert UNWORKED not in made.note, (path, choice, made.note)
    check(made)


@pytest.mark.parametrize("stage", STAGES)
def test_a_slider_end_is_never_outside_what_is_allowed(stage):
    made = panel(stage, demo_job())
    for path in made.paths():
        entry = made.plan.job.entry(path)
        if entry.kind != "quantity":
            continue
        for system in ("metric", "us"):
            low, high, step = slider_of(entry, system)
            assert low < high and step > 0, path
            for end in (low, high):
                entry.checked(from_shown(end, entry.unit, system), str(end))


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("text", ["", "10", "nan mm", "1e400 mm", "10 kg kg", "<b>x</b>", "{coats.wall}", "-5 m", "½", "x" * 500])
def test_whatever_is_typed_gets_one_sentence(stage, text):
    made = panel(stage, demo_job())
    for path in made.paths():
        send(made, path=path, text=text, settled=False)
        assert UNWORKED not in made.note, (path, made.note)
        assert "<b>x</b>" not in made.answer + made.band
    made.static_html()


def test_a_bad_entry_keeps_the_last_good_answer():
    made = panel("coats", demo_job())
    before = made.answer
    made.set("coats.wall", "10 kg")
    field = next(field for field in made.fields if field["path"] == "coats.wall")
    assert field["text"] == "10 kg"
    assert field["error"].startswith("Wall when finished is 10 kg; ")
    assert made.old and made.answer == before
    assert "Still for 6 mm: one entry needs a look." in plain(made.band)
    made.set("coats.wall", "7 mm")
    assert not made.old and "7 mm" in made.answer_text() and "Still for" not in made.band


def test_the_band_follows_when_the_slider_rests():
    made = panel("coats", demo_job())
    send(made, path="coats.wall", number=8.0, settled=False)
    assert made.band == "The range follows when the slider rests." and not made.rests
    assert not any(line["band"] for line in made.results)
    assert made.jobfile.job.get("coats.wall") == pytest.approx(0.006)
    send(made, path="coats.wall", number=8.0, settled=True, rest=True)
    assert made.band.startswith("Likely") and any(line["band"] for line in made.results) and made.rests
    assert made.jobfile.job.get("coats.wall") == pytest.approx(0.008)


def draws_of(monkeypatch) -> list[int]:
    """How many draws each plan from now on was asked for."""
    asked: list[int] = []

    def counted(job, draws=0):
        asked.append(draws)
        return plan(job, draws)

    monkeypatch.setattr(sys.modules[Panel.__module__], "plan", counted)
    return asked


def test_a_held_key_draws_no_band_until_it_rests(monkeypatch):
    made = panel("coats", demo_job())
    asked = draws_of(monkeypatch)
    for number in (6.5, 7.0, 7.5, 8.0):
        send(made, path="coats.wall", number=number, settled=False)
        assert f"{number:g} mm" in made.answer_text()
    assert asked == [0] * 4
    send(made, path="coats.wall", number=8.0, settled=True, rest=True)
    assert asked == [0] * 4 + [300]
    send(made, rest=True)
    assert asked == [0] * 4 + [300], "a band that is there is not worked out again"


@pytest.mark.parametrize("last", [{"number": 8.0, "settled": False}, {"text": "8 mm", "settled": True}, {"text": "80 kg", "settled": True}])
def test_whatever_was_changed_last_gets_its_band(last):
    made = panel("coats", demo_job())
    send(made, path="coats.wall", number=9.0, settled=False)
    send(made, path="coats.wall", **last)
    assert not made.rests
    send(made, rest=True)
    assert made.rests and made.band.startswith("Likely")


def test_a_slider_that_is_left_for_another_within_its_rest_is_kept():
    made = panel("coats", demo_job())
    send(made, path="coats.wall", number=8.0, settled=False)
    send(made, path="coats.wall", number=8.0, settled=True)
    send(made, path="cure.temperature", number=25.0, settled=False)
    assert made.plan.job.get("coats.wall") == pytest.approx(0.008) and not made.rests


def test_what_is_looked_at_first_goes_first():
    made = panel("coats", demo_job())
    sent: list[set[str]] = []
    made._send = lambda message, buffers=None: sent.append(set(message.get("state", {})))
    made.comm = made.comm or object()
    send(made, path="coats.wall", number=8.0, settled=False)
    assert {"answer", "pictures"} <= sent[0] and "heard" not in sent[0]
    assert {"heard", "fields", "results"} <= sent[1] and len(sent) == 2


def test_a_range_moves_along_with_the_slider():
    made = panel("original", demo_job())
    send(made, path="original.area", number=3.0, settled=True)
    area = made.jobfile.job.get("original.area")
    assert (float(area), area.low, area.high) == pytest.approx((3.0, 2.76, 3.24), rel=1e-4)


def test_what_is_settled_is_kept_in_the_file(tmp_path):
    made = panel("coats", job_in(tmp_path))
    assert made.note == "Kept in job.toml."
    made.set("coats.wall", "12 mm")
    assert read_job(tmp_path / "job.toml").job.get("coats.wall") == pytest.approx(0.012)
    send(made, path="coats.wall", number=9, settled=False)
    assert read_job(tmp_path / "job.toml").job.get("coats.wall") == pytest.approx(0.012)


def test_a_change_by_someone_else_is_read_first(tmp_path):
    one, other = panel("coats", job_in(tmp_path)), panel("cure", read_job(tmp_path / "job.toml"))
    one.set("coats.wall", "12 mm")
    other.set("cure.temperature", "25 °C")
    kept = read_job(tmp_path / "job.toml").job
    assert (kept.get("coats.wall"), kept.get("cure.temperature")) == pytest.approx((0.012, 298.15))
    assert "changed elsewhere" in other.note


def test_a_file_that_is_gone_wrong_is_one_sentence(tmp_path):
    made = panel("coats", job_in(tmp_path))
    (tmp_path / "job.toml").write_text("layout = 1\n[coats]\nwall = 6 mm\n")
    made.set("coats.wall", "12 mm")
    assert "job.toml can't be read as TOML" in made.note
    assert "12" in made.answer_text()


def test_two_panels_of_one_job_see_each_other():
    job = demo_job()
    coats, cure = panel("coats", job), panel("cure", job)
    cure.set("start.units", "us")
    coats.set("coats.wall", "3/8 in")
    assert coats.system == "us" and "3/8 in" in coats.answer_text()


def test_reset_brings_back_what_was_there():
    made = panel("coats", demo_job())
    before = made.answer
    made.set("coats.wall", "12 mm")
    made.set("coats.coat.2.thickness", "2 mm")
    send(made, reset=True)
    assert made.answer == before and made.jobfile.job.get("coats.coat.2.thickness") == pytest.approx(0.0012)


STRANGE = [
    {}, None, [1], {"path": "no.such"}, {"path": "coats.wall", "number": "x"}, {"path": "coats.wall", "number": float("nan")},
    {"path": "coats.coat.99.thickness", "text": "1 mm"}, {"path": None, "text": {}},
]


@pytest.mark.parametrize("message", STRANGE)
def test_a_strange_message_is_one_sentence(message):
    made = panel("coats", demo_job())
    before = made.answer
    made._received(made, message, None)
    assert made.answer == before


@pytest.mark.parametrize("stage", STAGES)
def test_a_stored_panel_shows_itself(stage):
    made = panel(stage, demo_job())
    bundle = made._repr_mimebundle_()
    data = bundle[0] if isinstance(bundle, tuple) else bundle
    assert "application/vnd.jupyter.widget-view+json" in data
    assert data["text/plain"].startswith(made.answer_text())
    for name in made.names():
        assert made.plan.result(name).say() in data["text/plain"]
    assert "Run this chapter to move the sliders." in data["text/html"] and "<script" not in data["text/html"]
    again = panel(stage, demo_job())._repr_mimebundle_()
    again = again[0] if isinstance(again, tuple) else again
    assert (data["text/plain"], data["text/html"]) == (again["text/plain"], again["text/html"])


def test_names_of_the_makers_are_escaped():
    made = panel("coats", demo_job())
    made.set("start.title", "<script>alert(1)</script>")
    job = demo_job()
    job.set("coats.coat.1.tint", "<i>")
    drawn = panel("coats", job).pictures[0]["svg"]
    assert "<i>" not in drawn and escape("<i>") in drawn
    started = panel("packet", made.jobfile)
    assert "<script" not in started.answer + started.static_html()


#: the demo that says most about a stage, where it is not the hare
RICHEST = {"split": "bust"}


@pytest.mark.parametrize("stage", STAGES)
def test_a_panel_declares_what_exists(stage):
    declared, made = DECLARED[stage], panel(stage, demo_job(RICHEST.get(stage, "hare")))
    known = {name for demo in demo_names() for name in plan(demo_job(demo)).names()}
    for name in declared.results:
        pattern = re.compile(re.escape(name).replace(r"\*", r"\d+"))
        assert any(pattern.fullmatch(one) for one in known), name
    assert made.answer_text() == made.plan.say(declared.answer[0])
    assert len(made.pictures) == len(declared.pictures)
    assert all(label for field in made.fields for label in [field["label"]])


def test_pictures_are_small_and_their_words_large_enough():
    for stage in STAGES:
        for picture in panel(stage, demo_job()).pictures:
            drawing = ET.fromstring(picture["svg"])
            assert float(drawing.get("viewBox").split()[2]) == 340
            sizes = [float(words.get("font-size")) for words in drawing.iter("{http://www.w3.org/2000/svg}text")]
            assert min(sizes) >= 11


def test_no_panel_of_that_name():
    with pytest.raises(MoldcalcError, match="There is no panel called 'cures'; there are start"):
        panel("cures")


def job_in(folder) -> JobFile:
    """A job file of its own, a copy of the demo."""
    from moldcalc.job.places import data_folder

    (folder / "job.toml").write_text((data_folder() / "jobs" / "hare.toml").read_text())
    return read_job(folder / "job.toml")


@pytest.mark.parametrize(("path", "system", "hint", "text"), [
    ("coats.wall", "metric", "3 to 15 mm", "6 mm"),
    ("coats.wall", "us", "1/8 to 0.58 in", "0.236 in"),
    ("mixing.readability", "metric", "0.1 to 10 g", "1 g"),
    ("cure.temperature", "us", "41 to 95 °F", "66.2 °F"),
    ("original.area", "metric", "0.1 to 6 m²", "1.38 to 1.62 m²"),
    ("coats.high_points_keep", "metric", "20 to 100 %", "40 to 70 %"),
    ("cure.activation_energy", "metric", "20 to 110 kJ/mol", "35 to 60 kJ/mol"),
    ("original.length", "metric", "100 mm to 3 m", "1090 mm"),
    ("start.casts", "us", "1 to 40", "6"),
    ("cure.started", "metric", "", "09:00"),
    ("cure.second_temperature", "metric", "5 to 40 °C", ""),
    ("coats.slope", "metric", "0° to 90°", "90°"),
])
def test_a_field_reads_as_people_write_it(path, system, hint, text):
    field = field_of(demo_job().job, path, system)
    assert (field["hint"], field["text"]) == (hint, text)
