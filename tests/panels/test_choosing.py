"""'Choose for me' and the pictures of a shell that is loaded, closed and stood, without a browser."""

import xml.etree.ElementTree as ET

import pytest

from moldcalc.job import Job, demo_job, demo_names
from moldcalc.panels import handled, panel
from moldcalc.panels.choosing import choose_desk, draw_choice, in_words
from moldcalc.plan import plan
from moldcalc.plan.choosing import choose_for
from moldcalc.stages.layup import Choice
from moldcalc.units import show
from tests.panels.test_panels import job_in
from tests.tables import within

TEXT = "{http://www.w3.org/2000/svg}text"


def press(sheet, name):
    sheet._received(sheet, {"act": "press", "name": name, "id": "1"}, None)
    assert sheet.heard == "1"


def labels(sheet):
    return [control["label"] for control in sheet.controls]


def test_nothing_is_chosen_before_it_is_asked_for():
    desk = choose_desk(demo_job())
    assert desk.sheet.answer_text() == "For a panel of 300 mm by 420 mm that may give 2 mm, no wall has been looked for yet."
    assert labels(desk.sheet) == ["Choose for me"] and not desk.sheet.table and not desk.sheet.pictures


def test_the_best_and_three_next_are_shown_with_mass_range_and_cost():
    desk = choose_desk(demo_job())
    press(desk.sheet, "choose")
    choice = choose_for(demo_job().job)
    assert in_words(choice.best, "metric") in desk.sheet.answer_text()
    assert labels(desk.sheet) == ["Choose again", *(f"Use wall {place}" for place in range(1, 5))]
    for one in (choice.best, *choice.others):
        for words in (show(one.mass, "kg/m²"), show(one.deflection, "mm"), show(one.deflection_high, "mm"), f"{one.cost:.0f} a m²"):
            assert words.replace(" ", "\u00a0") in desk.sheet.table
    assert "certificate" not in desk.sheet.table and "estimate" in desk.sheet.table


def test_a_wall_that_is_used_is_kept_in_the_job_and_seen_by_the_panel(tmp_path):
    job = job_in(tmp_path)
    made, desk = panel("layup", job), choose_desk(job)
    press(desk.sheet, "choose")
    press(desk.sheet, "use-1")
    best = desk.sheet.choice.best
    assert desk.sheet.note == "Wall 1 is the job's now. Kept in job.toml."
    assert job.job.layup.facing_plies == best.inner_plies and job.job.layup.core_thickness == within(best.core.thickness, 1e-9)
    assert made.plan.value("layup.deflection") == within(best.deflection, 1e-9)
    assert "facing_plies = 1" in (tmp_path / "job.toml").read_text()


def test_a_wall_with_ribs_is_kept_too(tmp_path):
    job = job_in(tmp_path)
    desk = choose_desk(job)
    press(desk.sheet, "choose")
    place = next(place for place, one in enumerate((desk.sheet.choice.best, *desk.sheet.choice.others), 1) if one.rib)
    press(desk.sheet, f"use-{place}")
    stack = (desk.sheet.choice.best, *desk.sheet.choice.others)[place - 1]
    assert not desk.sheet.error
    assert plan(job.job).value("layup.deflection") == within(stack.deflection, 1e-9)
    press(desk.sheet, "use-1")
    assert job.job.layup.rib_spacing is None and "rib_spacing" not in (tmp_path / "job.toml").read_text()


def test_a_demo_keeps_nothing_in_a_file():
    desk = choose_desk(demo_job())
    press(desk.sheet, "choose")
    press(desk.sheet, "use-2")
    assert "A demo: nothing is kept in a file." in desk.sheet.note


@pytest.mark.parametrize("name", ["use-1", "use-9", "use-x", "no such"])
def test_a_strange_press_is_at_most_a_sentence(name):
    desk = choose_desk(demo_job())
    press(desk.sheet, name)
    assert desk.sheet.choice is None and "Traceback" not in desk.sheet.error


def test_without_a_panel_it_asks_for_one():
    job = demo_job()
    job.set("layup.flat_height", None)
    desk = choose_desk(job)
    assert "Say how large the flattest panel is" in desk.sheet.answer_text() and desk.sheet.controls[0]["off"]
    press(desk.sheet, "choose")
    assert desk.sheet.error == "Flattest panel, height is empty; give a value: the flattest panel decides."


def test_where_no_wall_does_the_stiffest_is_shown():
    job = demo_job()
    huge = {"layup.flat_height": "3 m", "layup.flat_width": "3 m", "layup.allowed_deflection": "0.1 mm", "original.height": "3 m"}
    for path, value in huge.items():
        job.set(path, value)
    desk = choose_desk(job)
    press(desk.sheet, "choose")
    assert "No wall that the cards offer is stiff enough" in desk.sheet.answer_text()
    assert labels(desk.sheet) == ["Choose again"] and "8 + 8 plies" in desk.sheet.table


def test_a_stored_desk_shows_itself():
    desk = choose_desk(demo_job())
    press(desk.sheet, "choose")
    bundle = desk._repr_mimebundle_()
    data = bundle[0] if isinstance(bundle, tuple) else bundle
    assert data["text/plain"] == desk.text() and "<script" not in data["text/html"] and "<svg" in data["text/html"]


# pictures -----------------------------------------------------------------------------------------------------------------
PICTURES = {"bowed": handled.draw_bowed, "bolts": handled.draw_bolts, "legs": handled.draw_legs}


@pytest.mark.parametrize("draw", PICTURES.values(), ids=PICTURES)
@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize("system", ["metric", "us"])
def test_pictures_stay_in_their_frame(name, draw, system):
    svg = draw(plan(demo_job(name).job.with_entry("start.units", system)))
    if not svg:
        assert name == "bust" and draw is handled.draw_legs, "the bust has no legs"
        return
    drawing = ET.fromstring(svg)
    width, height = (float(size) for size in drawing.get("viewBox").split()[2:])
    assert width == 340 and drawing.get("role") == "img" and drawing.get("aria-label")
    for words in drawing.iter(TEXT):
        size, x = float(words.get("font-size")), float(words.get("x"))
        wide = 0.56 * size * len(words.text)  # a letter's mean width in a plain typeface
        left = {"start": x, "end": x - wide, "middle": x - wide / 2}[words.get("text-anchor")]
        assert size >= 11 and left >= -2 and left + wide <= 352 and 0 < float(words.get("y")) <= height, words.text


def test_the_bolt_line_shows_every_hole_and_the_largest_load():
    made = plan(demo_job())
    drawing = handled.draw_bolts(made)
    holes = sum(len(row["holes"]) for row in made.rows_of("handling.drilling"))
    assert drawing.count("<rect") == holes + drawing.count("<pattern"), "a bar a hole; each pattern has a box of its own"
    assert made.result("handling.bolt_load").say() in drawing


def test_the_legs_say_the_tip_angle_and_when_it_does_not_stand():
    made = plan(demo_job())
    assert f"tips at {made.result('handling.tip_angle').say()}" in handled.draw_legs(made)
    fallen = handled.draw_legs(plan(demo_job().job.with_entries(handling__off_centre="400 mm")))
    assert "does not stand" in fallen


def test_outside_linear_theory_stands_in_the_picture():
    job = demo_job().job.with_entries(layup__construction="solid", layup__flat_height="500 mm")
    assert "outside linear theory" in handled.draw_bowed(plan(job))


def test_nothing_to_draw_is_no_picture():
    made = plan(Job.of({}))
    assert [draw(made) for draw in PICTURES.values()] == ["", "", ""]
    assert draw_choice(Choice(None, (), None, 1, 0)) == ""
