"""Pictures of what touches what, of keys and the cut, of sizes: whole, small, and harmless whatever a maker writes."""

import xml.etree.ElementTree as ET

import pytest

from moldcalc.job import Job, demo_job, demo_names
from moldcalc.panels import panel
from moldcalc.panels.edition_pictures import draw_keys, draw_neck, draw_sizes, draw_touch
from moldcalc.plan import plan

DRAWN = (draw_touch, draw_keys, draw_neck, draw_sizes)
HARE = demo_job("hare").job
TEXT = "{http://www.w3.org/2000/svg}text"


@pytest.mark.parametrize("draw", DRAWN)
@pytest.mark.parametrize("name", demo_names())
@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_picture_is_whole_or_left_out(draw, name, system):
    made = draw(plan(demo_job(name).job.with_entry("start.units", system)))
    if made:
        drawing = ET.fromstring(made)
        assert drawing.get("aria-label") and "nan" not in made
        assert min(float(words.get("font-size")) for words in drawing.iter(TEXT)) >= 11


def test_the_touch_map_says_in_words_what_it_hatches():
    words = [words.text for words in ET.fromstring(draw_touch(plan(HARE))).iter(TEXT)]
    assert words.count("?") == 1 and "board and rubber" in words and "varnished plywood: unknown: patch test" in words
    never = draw_touch(plan(HARE.with_entries(materials__gloves="latex gloves", materials__rubber="addition-cure-brushable-1-1")))
    assert "✗" in never


def test_sizes_are_in_proportion():
    drawing = ET.fromstring(draw_sizes(plan(HARE)))
    bars = [float(bar.get("width")) for bar in drawing.iter("{http://www.w3.org/2000/svg}rect") if bar.get("height") == "14.0"]
    rows = plan(HARE).rows_of("casting.size")
    wide = [row["high"] - row["low"] for row in rows]
    assert bars[0] / bars[1] == pytest.approx(wide[0] / wide[1], rel=0.01)


@pytest.mark.parametrize("draw", DRAWN)
def test_names_are_escaped(draw):
    job = HARE.with_rows("materials.thing", [{"name": "<script>", "material": "</svg><b>", "role": "surface"}])
    made = draw(plan(job))
    ET.fromstring(made)
    assert "<script>" not in made and "<b>" not in made


def test_a_key_may_lean_all_the_way_and_a_neck_may_be_entered():
    assert ET.fromstring(draw_keys(plan(HARE.with_entries(keys__key_lean="180°", keys__key_draft="0°"))))
    job = HARE.with_rows("keys.station", []).with_entries(keys__neck="360 mm", keys__bulge="600 mm", keys__mouth="800 mm")
    assert "shape not known" in draw_neck(plan(job))
    assert draw_neck(plan(Job.of({}))) == ""


def test_the_panel_of_materials_waits_until_the_test_is_entered():
    made = panel("materials", demo_job())
    assert made.answer_text().startswith("The next step waits for a patch test of board with rubber: missing.")
    passed = {"second": "rubber", "hours": "24 h", "tack": "no"}
    made.jobfile.set_rows("materials.test", [{"first": name, **passed} for name in ("release", "strip channel", "board")])
    made.follow()
    assert made.answer_text().startswith("The next step may go on.")
    made.set("materials.test.3.tack", "yes")
    assert "tacky" in made.answer_text()
