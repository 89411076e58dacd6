"""Drilling list, lifting sheet, turning sheet and trimming in the packet: every hole, every lift, and what the plan says of them."""

import re

import pytest

from moldcalc.job import Job, demo_job, demo_names
from moldcalc.packet import handled, packet_html
from moldcalc.plan import plan
from moldcalc.units import show
from tests.packet.test_packet import HOSTILE, Reader


def text_of(page):
    return " ".join(" ".join(Reader(page).text).replace("\u00a0", " ").split())


@pytest.mark.parametrize("name", demo_names())
def test_every_hole_stands_in_the_drilling_list(name):
    found = plan(demo_job(name))
    page = text_of(packet_html(found))
    for row, sheet in zip(found.rows_of("handling.drilling"), handled.drilling(found), strict=True):
        assert f"Drilling list: {row['name']}" in page
        listed = [hole for sheet_page in sheet["pages"] for column in sheet_page for hole in column]
        assert [hole["number"] for hole in listed] == list(range(1, len(row["holes"]) + 1))
        for hole in row["holes"]:
            assert show(hole.position, "mm", found.system) in page


def test_the_bolt_is_said_with_its_hole_and_torque():
    found = plan(demo_job())
    page = text_of(packet_html(found))
    for name in ("handling.bolt_hole", "handling.bolt_washer", "handling.bolt_torque"):
        assert found.result(name).say() in page


def test_one_number_of_bolts_on_all_sheets():
    found = plan(demo_job())
    page = text_of(packet_html(found))
    assert "by spacing alone" not in page
    assert [sheet["bolts"] for sheet in handled_bolts(found)][:3] == [str(len(row["holes"])) for row in found.rows_of("handling.drilling")]


def handled_bolts(found):
    from moldcalc.packet import picks

    return picks.bolts(found)


@pytest.mark.parametrize("name", demo_names())
def test_every_lift_says_who_and_from_where_to_where(name):
    found = plan(demo_job(name))
    page = text_of(packet_html(found))
    for row in found.rows_of("handling.lift"):
        assert row["name"] in page
        for value, unit in ((row["mass"], "kg"), (row["from"], "mm"), (row["to"], "mm"), (row["team"], "kg")):
            assert show(value, unit, found.system) in page
        assert f"Way to move it: {row['way']}" in page


def test_the_turning_sheet_says_what_passes_its_balance():
    page = text_of(packet_html(plan(demo_job())))
    assert "Turning and standing" in page and "It passes the point where it falls by itself" in page
    assert "upside down" in page


def test_uplift_stands_on_the_turning_sheet():
    found = plan(demo_job("standing-figure"))
    assert found.result("handling.uplift").say("us") in text_of(packet_html(found))
    assert "the liquid lifts the mold" not in text_of(packet_html(plan(demo_job())))


def test_edges_and_dust_are_cautioned():
    page = text_of(packet_html(plan(demo_job())))
    assert "Trimming the edges" in page and "Broken edges carry needles" in page and "hearing protection is worn" in page


def test_a_job_without_joints_and_lifts_has_no_such_sheets():
    page = text_of(packet_html(plan(Job.of({}))))
    assert not re.search("Drilling list|Lifting sheet|Turning and standing", page) and "Trimming the edges" in page


def test_a_joint_that_no_bolt_holds_says_so_on_its_sheet():
    job = demo_job().job.with_entries(handling__bolt="M4", handling__torque="0.2 N·m", original__height="6 m", handling__joint__1__width="2 m")
    assert "bolts would stand closer than four diameters" in text_of(packet_html(plan(job)))


def test_names_are_only_text():
    rows = [{"name": HOSTILE, "length": "1 m"}]
    job = demo_job().job.with_rows("handling.joint", rows).with_rows("handling.lift", [{"name": HOSTILE}])
    tags = {tag for tag, _ in Reader(packet_html(plan(job))).tags}
    assert not {"script", "img"} & tags
