"""The printed packet and its CSV and JSON: whole, harmless, and saying what the plan says."""

import csv
import io
import json
import re
from html.parser import HTMLParser

import pytest

from moldcalc.errors import EntryError, FileError, MissingError
from moldcalc.job import demo_job, demo_names
from moldcalc.packet import find_browser, packet_html, pdf, plan_csv, plan_json, write_packet, write_pdf
from moldcalc.packet.saying import css_text, on_the_scale
from moldcalc.plan import plan
from moldcalc.units import shown

GRAMS = re.compile(r"([\d.]+)\u00a0g")
HOSTILE = "</style><script>alert(1)</script>\"; } <img src=http://x.example/> {{ 7*7 }}"


class Reader(HTMLParser):
    """The tags of a page, and the text of each ticket."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.tickets: list[str] = []
        self.text: list[str] = []
        self.inside = False
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag == "article":
            self.inside = True
            self.tickets.append("")

    def handle_endtag(self, tag: str) -> None:
        self.inside = self.inside and tag != "article"

    def handle_data(self, data: str) -> None:
        self.text.append(data)
        if self.inside:
            self.tickets[-1] += data


@pytest.fixture(scope="module")
def hare():
    return plan(demo_job(), draws=40)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", demo_names())
def test_a_packet_is_one_page_that_fetches_nothing(name, paper):
    page = packet_html(plan(demo_job(name)), paper)
    read = Reader(page)
    assert page.startswith("<!DOCTYPE html>")
    assert ("html", {"lang": "en"}) in read.tags
    assert f"size: {paper};" in page
    assert not re.search(r"https?:|//\w|url\(|@import", page)
    assert not {"script", "link", "iframe", "img", "object"} & {tag for tag, _ in read.tags}
    assert not [key for _, attrs in read.tags for key in attrs if key.startswith("on") or key in ("src", "href", "style")]


@pytest.mark.parametrize("name", demo_names())
def test_no_sheet_promises_what_it_cannot(name):
    assert not re.search(r"\bsafe(ly)?\b", packet_html(plan(demo_job(name))), re.IGNORECASE)


def test_the_same_plan_prints_the_same(hare):
    again = plan(demo_job(), draws=40)
    assert packet_html(hare) == packet_html(again)
    assert plan_json(hare) == plan_json(again)
    assert plan_csv(hare) == plan_csv(again)


@pytest.mark.parametrize("name", demo_names())
def test_every_cup_has_a_ticket_and_the_tickets_add_up_to_the_coat(name):
    found = plan(demo_job(name).job.with_entry("start.units", "metric"))
    tickets = Reader(packet_html(found)).tickets
    rows = found.rows["coats.coat"]
    assert len(tickets) == sum(row["cups"] for row in rows) + found.values["paste.cups"]
    for number, row in enumerate(rows, 1):
        mine = [ticket for ticket in tickets if f"Coat {number} of {len(rows)}:" in ticket]
        assert len(mine) == row["cups"]
        for place, part in enumerate(("base", "part")):
            texts = [GRAMS.findall(ticket)[place] for ticket in mine]
            half = 0.05 if "." in texts[0] else 0.5  # of the last digit printed, for each cup
            assert sum(map(float, texts)) == pytest.approx(shown(row[part], "g"), abs=half * len(mine) * (1 + 1e-9))
    paste = [ticket for ticket in tickets if ticket.strip().startswith("Paste")]
    base = [float(GRAMS.findall(ticket)[0]) for ticket in paste]
    assert sum(base) == pytest.approx(shown(found.values["paste.base"], "g"), abs=0.5 * len(paste) * (1 + 1e-9))


def test_cups_are_numbered_from_one_to_the_last(hare):
    tickets = Reader(packet_html(hare)).tickets
    cups = [re.search(r"cup\s+(\d+)\s+of\s+(\d+)", " ".join(ticket.split())) for ticket in tickets if "Coat 1 of" in ticket]
    of = hare.rows["coats.coat"][0]["cups"]
    assert [(int(cup[1]), int(cup[2])) for cup in cups if cup] == [(number, of) for number in range(1, of + 1)]


def test_more_than_sixty_cups_alike_share_one_ticket():
    job = demo_job().job.with_entries(mixing__cup_volume="0.1 L")
    found = plan(job)
    most = max(found.rows["coats.coat"], key=lambda row: row["cups"])["cups"]
    assert most > 60
    page = packet_html(found)
    assert f"1 to {most}" in page
    assert len(page) < 2_000_000


def test_units_are_those_of_the_job():
    found = plan(demo_job().job.with_entry("start.units", "us"))
    ticket = Reader(packet_html(found, "Letter")).tickets[0]
    ounces, grams = re.search(r"([\d.]+)\u00a0oz", ticket), GRAMS.search(ticket)
    assert ounces and grams
    # one ounce avoirdupois is 28.349523125 g exactly: international yard and pound agreement, 1959
    assert float(ounces[1]) * 28.349523125 == pytest.approx(float(grams[1]), abs=0.05 * 28.35 + 0.5)
    assert "°F" in ticket


@pytest.mark.parametrize(("mass", "system", "text"), [
    (0.0999, "metric", "99.9\u00a0g"), (0.09996, "metric", "100\u00a0g"), (1.3619, "metric", "1362\u00a0g"), (0.00004, "metric", "0.0\u00a0g"),
    (0.028349523125, "us", "1.00\u00a0oz"), (0.45359237, "us", "16.0\u00a0oz"),  # pound and ounce, exact by the agreement of 1959
])
def test_the_scale_reads_whole_grams_from_a_hundred_and_tenths_below(mass, system, text):
    assert on_the_scale(mass, system)[0] == text


# what a hostile text may try --------------------------------------------------------------------------------------------
def test_a_title_with_markup_is_only_text():
    job = demo_job().job.with_entries(start__title=HOSTILE, coats__coat__1__name="<b onload=x>", coats__coat__1__tint="<script>")
    page = packet_html(plan(job))
    read = Reader(page)
    assert "script" not in {tag for tag, _ in read.tags}
    assert "img" not in {tag for tag, _ in read.tags}
    assert any(HOSTILE in text for text in read.text)  # read as text by a browser, braces and all
    style = page[page.index("<style>") : page.index("</style>")]
    assert "alert(1)" not in style
    assert page.count("<style>") == page.count("</style>") == 1


def test_css_text_holds_nothing_that_could_end_a_string():
    assert css_text('a"b\\<é') == "a\\000022b\\00005c\\00003c\\0000e9"


def test_a_formula_in_a_name_is_not_run_by_a_spreadsheet():
    job = demo_job().job.with_entries(coats__coat__1__name="=cmd()", coats__coat__2__name="@sum(1)", coats__coat__3__name="-1+1")
    for row in csv.reader(io.StringIO(plan_csv(plan(job)), newline="")):
        for cell in row:
            assert not cell.startswith(("=", "@")), cell
            if cell.startswith(("+", "-")):
                float(cell)  # numbers may be below zero


# CSV and JSON -------------------------------------------------------------------------------------------------------------
def test_json_says_what_the_plan_says(hare):
    whole = json.loads(plan_json(hare))
    assert whole["job"] == hare.job.start.title
    assert [line["name"] for line in whole["results"]] == [result.name for result in hare.results()]
    by_name = {line["name"]: line for line in whole["results"]}
    assert by_name["mixing.rubber"]["value"] == pytest.approx(hare.values["mixing.rubber"], rel=1e-12)
    assert by_name["coats.wall"]["value"] == pytest.approx(6.0, rel=1e-12)  # the job asks for 6 mm
    assert by_name["coats.wall"]["unit"] == "mm"
    assert by_name["mixing.cups"]["value"] == hare.values["mixing.cups"]
    assert isinstance(by_name["mixing.cups"]["value"], int)
    assert re.fullmatch(r"\d\d:\d\d( \+\d+ d)?", by_name["cure.earliest_clock"]["value"])
    assert by_name["mixing.rubber"]["low"] < by_name["mixing.rubber"]["value"] < by_name["mixing.rubber"]["high"]
    assert [(c["stage"], c["kind"], c["text"]) for c in whole["cautions"]] == [(c.stage, c.kind, c.text) for c in hare.cautions]


def test_json_has_no_number_that_json_does_not_know(hare):
    def refuse(text):
        raise AssertionError(text)

    json.loads(plan_json(hare), parse_constant=refuse)


def test_csv_and_json_hold_the_same(hare):
    rows = list(csv.DictReader(io.StringIO(plan_csv(hare), newline="")))
    lines = json.loads(plan_json(hare))["results"]
    assert list(rows[0]) == ["name", "label", "value", "unit", "low", "high", "why", "source"]
    assert [row["name"] for row in rows] == [line["name"] for line in lines]
    for row, line in zip(rows, lines, strict=True):
        told = "" if line["value"] is None else str(line["value"])
        assert row["value"].lstrip("'") == told
    assert "\r\n" in plan_csv(hare)  # RFC 4180, section 2.1


# files --------------------------------------------------------------------------------------------------------------------
def test_write_packet_writes_both_papers_and_both_tables(hare, tmp_path):
    written = write_packet(hare, tmp_path / "a" / "b")
    assert [path.name for path in written] == ["packet-a4.html", "packet-letter.html", "packet.csv", "packet.json"]
    assert sorted(path.name for path in (tmp_path / "a" / "b").iterdir()) == sorted(path.name for path in written)
    assert written[1].read_bytes().decode() == packet_html(hare, "Letter")


def test_a_folder_that_cannot_be_made_is_said_in_one_sentence(hare, tmp_path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(FileError, match=r"^The folder .*file.* can't be made \(.*\); choose another\.$"):
        write_packet(hare, tmp_path / "file")


def test_an_unknown_paper_is_refused(hare):
    with pytest.raises(EntryError, match=r"^Paper is A3; it must be one of: A4, Letter\.$"):
        packet_html(hare, "A3")


def test_without_a_browser_the_way_to_print_is_said(tmp_path, monkeypatch):
    monkeypatch.setattr(pdf, "find_browser", lambda: None)
    with pytest.raises(MissingError, match=r"^No Chromium-based browser was found .* open page\.html in your own browser and print it"):
        write_pdf(tmp_path / "page.html", tmp_path / "page.pdf")


def test_a_browser_that_fails_leaves_no_pdf(tmp_path, monkeypatch):
    monkeypatch.setattr(pdf, "find_browser", lambda: str(tmp_path / "not-there"))
    with pytest.raises(FileError, match=r"^page\.pdf was not made"):
        write_pdf(tmp_path / "page.html", tmp_path / "page.pdf")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.browser
@pytest.mark.skipif(find_browser() is None, reason="no Chromium-based browser here to print with")
def test_the_pdf_has_the_size_of_the_paper(hare, tmp_path):
    written = write_packet(hare, tmp_path, pdf=True)
    a4, letter = (path.read_bytes() for path in written[-2:])
    sizes = [re.search(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)", data) for data in (a4, letter)]
    # ISO 216: A4 is 210 by 297 mm; US letter is 8.5 by 11 in; PDF counts 72 points an inch. Browsers round to whole pixels.
    for size, (width, height) in zip(sizes, [(210 / 25.4 * 72, 297 / 25.4 * 72), (612, 792)], strict=True):
        assert size is not None
        assert float(size[1]) == pytest.approx(width, abs=0.75)
        assert float(size[2]) == pytest.approx(height, abs=0.75)
