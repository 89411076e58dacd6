"""The sheets of what touches what, of strips and keys, of the opening and the casts, and the labels."""

import re

import pytest

from moldcalc.job import Job, demo_job, demo_names
from moldcalc.packet import packet_html
from moldcalc.packet.edition import casting, keys, label, opening, touching
from moldcalc.plan import plan

HARE = demo_job("hare").job
HOSTILE = "</style><script>alert(1)</script>{{ 7*7 }}{coats.wall}"


def text_of(page):
    return " ".join(re.sub(r"<[^>]+>", " ", page.partition("<body>")[2]).split())


def test_the_sheets_say_what_the_plan_says():
    made = plan(HARE)
    page = text_of(packet_html(made))
    for words in ("What touches what", "board + rubber",
                  "missing: wait", "Labels to cut out", "ONLY with tin-cure silicone", "Strips, shims and keys",
                  "chest loop 1.25\xa0m", "Opening sheet",
                  "The rubber: cut glove", "Casting card: glass-fibre cement", "20 to 200", "Label for the mold",
                  "never with the other kind"):
        assert " ".join(words.split()) in page, words


def test_every_strip_and_every_shim_stands_on_the_list_once():
    sheet = keys(plan(HARE))
    assert sorted(piece for row in sheet["castings"] for piece in row["pieces"]) == sorted(
        ["spine 700\xa0mm", "chest loop 1.25\xa0m", "rump loop 1.05\xa0m", "other strips 750\xa0mm", "other strips 750\xa0mm"])
    assert sum(len(row["pieces"]) for row in sheet["shims"]) == 3


def test_the_casts_go_on_from_the_log():
    assert casting(plan(HARE))["lines"] == [2, 3, 4, 5, 6, 7]
    many = casting(plan(HARE.with_entries(start__casts=500)))
    assert len(many["lines"]) == 24 and many["more"]


def test_sections_come_off_by_their_rounds_or_last_first():
    assert [row["name"] for row in opening(plan(HARE))["sections"]] == ["right flank", "left flank", "rump", "chest"]
    job = HARE
    for place, order in enumerate((2, 3, 1, 1), 1):
        job = job.with_entry(f"layup.section.{place}.order", order)
    sheet = opening(plan(job))
    assert sheet["ordered"] and [row["round"] for row in sheet["sections"]] == [1, 1, 2, 3]


@pytest.mark.parametrize("name", demo_names())
def test_the_label_of_a_mold_is_whole(name):
    found = label(plan(demo_job(name)))
    assert all(value != "" for key, value in found.items() if key != "length")


def test_a_job_that_says_nothing_still_prints():
    page = packet_html(plan(Job.of({})))
    assert "What touches what" in page and "Opening sheet" in page
    assert touching(plan(Job.of({})))["labels"] == []


def test_names_are_only_text():
    job = HARE.with_rows("materials.thing", [{"name": HOSTILE, "material": HOSTILE, "role": "tool"}])
    job = job.with_rows("handling.joint", [{"name": HOSTILE, "length": "1 m"}])
    page = packet_html(plan(job))
    assert "<script" not in page and page.count("</style>") == 1
    assert "49" not in re.findall(r"alert\(1\)[^<]{0,40}", page)[0]
