"""The workbook as a user opens it: every chapter in JupyterLab and in the app view, a slider moved, an entry mistyped."""

import re
from pathlib import Path

import pytest

from moldcalc.job import read_job
from moldcalc.job.places import workbook_folder

pytestmark = pytest.mark.browser
CHAPTERS = [path.stem for path in sorted(workbook_folder().glob("*.ipynb"))]
#: a slider that every chapter's answer, picture or table depends on
MOVED = {"01_original": "Smooth area that shows", "03_mixing": "Room temperature", "04_cure": "Room temperature", "05_coats": "Wall when finished",
         "06_paste": "Thickener in the paste", "09_layup": "Core"}


def open_in_lab(page, lab, chapter):
    page.goto(f"{lab}/lab/tree/{chapter}.ipynb?token=bench&reset")
    page.wait_for_selector(".jp-NotebookPanel-toolbar .jp-Notebook-ExecutionIndicator[data-status='idle']")
    page.wait_for_function("window.jupyterapp?.shell.currentWidget?.sessionContext?.session")
    page.evaluate("window.jupyterapp.commands.execute('notebook:run-all-cells')")
    page.wait_for_selector(f"{PANEL} .mc-answer", state="attached")
    page.wait_for_selector(".jp-NotebookPanel-toolbar .jp-Notebook-ExecutionIndicator[data-status='idle']")


#: the panel of a chapter; a desk for a scan beside it has no results table of this kind
PANEL = ".mc-panel:has(.mc-results)"


def expect_other(page, before):
    page.wait_for_function("([panel, before]) => document.querySelector(panel).innerText !== before", arg=[PANEL, before])


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_a_chapter_runs_in_jupyterlab(page, lab, chapter):
    open_in_lab(page, lab, chapter)
    errors = page.evaluate("""() => window.jupyterapp.shell.currentWidget.content.model.sharedModel.cells
        .flatMap(cell => cell.cell_type === 'code' ? cell.getOutputs().filter(o => o.output_type === 'error').map(o => o.evalue) : [])""")
    assert errors == [] and page.outside == []


@pytest.mark.parametrize("page", [1280, 390], indirect=True)
@pytest.mark.parametrize("chapter", CHAPTERS)
def test_a_chapter_in_the_app_view(page, app, chapter):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright")
    page.goto(f"{app}/voila/render/{chapter}.ipynb")
    panel = page.locator(PANEL)
    panel.locator(".mc-answer").wait_for()
    if chapter in MOVED:
        slider = panel.get_by_role("slider", name=MOVED[chapter]).first
        before = panel.inner_text()
        slider.focus()
        slider.press("PageUp")
        expect_other(page, before)
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), "sideways scrolling"
    assert page.outside == [], "the app view asks nothing outside this machine"
    found = axe.Axe().run(page, context=".mc-panel").response["violations"]
    assert [(rule["id"], rule["nodes"][0]["html"][:120]) for rule in found] == []


def test_a_mistyped_entry_is_marked_and_the_answer_stays(page, app):
    page.goto(f"{app}/voila/render/05_coats.ipynb")
    panel = page.locator(PANEL)
    field = panel.get_by_role("textbox", name="Wall when finished")
    field.wait_for()
    before = panel.locator(".mc-answer").inner_text()
    field.fill("10 kg")
    field.press("Enter")
    page.get_by_text("Wall when finished is 10 kg; write a length").wait_for()
    assert field.get_attribute("aria-invalid") == "true"
    assert panel.locator(".mc-answer").inner_text() == before
    field.fill("3/8 in")
    field.press("Enter")
    page.wait_for_function("before => document.querySelector('.mc-answer').innerText !== before", arg=before)


def test_what_is_kept_in_one_chapter_is_there_in_the_next(page, app, folder):
    page.goto(f"{app}/voila/render/04_cure.ipynb")
    field = page.locator(PANEL).get_by_role("textbox", name="Room temperature")
    field.fill("21 °C")
    field.press("Enter")
    page.wait_for_function("document.querySelector('.mc-answer').innerText.includes('21 °C')")
    page.goto(f"{app}/voila/render/03_mixing.ipynb")
    other = page.locator(PANEL).get_by_role("textbox", name="Room temperature")
    other.wait_for()
    assert re.match(r"21\b", other.input_value())
    assert read_job(Path(folder) / "job.toml").job.cure.temperature == pytest.approx(294.15)
    assert "# clay over a foam core" in (Path(folder) / "job.toml").read_text(), "the maker's remarks survive"


def test_the_arrow_keys_move_a_slider_in_jupyterlab(page, lab):
    open_in_lab(page, lab, "05_coats")
    slider = page.get_by_role("slider", name="Wall when finished").first
    before = page.locator(".mc-answer").first.inner_text()
    slider.focus()
    slider.press("ArrowRight")
    page.wait_for_function("before => document.querySelector('.mc-answer').innerText !== before", arg=before)


def test_a_panel_whose_kernel_is_gone_hides_its_answer(page, lab):
    open_in_lab(page, lab, "05_coats")
    page.locator(".mc-panel .mc-answer").first.wait_for()
    page.evaluate("window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart()")
    page.get_by_text("This panel has lost its calculation").first.wait_for()
    assert not page.locator(".mc-panel .mc-answer").first.is_visible()


def test_the_band_follows_a_held_key_once_it_rests(page, lab):
    """Moves one after the other, as a held key makes them: each is answered, the band comes once, at the end, and the value is kept."""
    open_in_lab(page, lab, "05_coats")
    slider = page.get_by_role("slider", name="Wall when finished").first
    slider.focus()
    page.evaluate("""() => {
      const band = document.querySelector('.mc-band');
      window.bands = [];
      new MutationObserver(() => window.bands.push(band.innerText)).observe(band, {childList: true, subtree: true, characterData: true});
    }""")
    for _ in range(6):
        slider.press("ArrowRight")
        page.wait_for_timeout(60)
    moved = slider.get_attribute("aria-valuetext")
    page.wait_for_function("document.querySelector('.mc-band').innerText.startsWith('Likely')")
    page.get_by_text("Kept in job.toml.").first.wait_for()
    assert [words.startswith("Likely") for words in page.evaluate("window.bands")] == [False, True]
    assert slider.get_attribute("aria-valuetext") == moved
    assert moved in page.locator(".mc-answer").first.inner_text()


def test_leaving_a_slider_asks_for_the_band_at_once(page, app, folder):
    page.goto(f"{app}/voila/render/05_coats.ipynb")
    panel = page.locator(PANEL)
    slider = panel.get_by_role("slider", name="Wall when finished")
    slider.focus()
    slider.press("Home")
    slider.press("ArrowRight")
    slider.press("Tab")
    page.wait_for_function("document.querySelector('.mc-band').innerText.startsWith('Likely')")
    shown = panel.get_by_role("textbox", name="Wall when finished").input_value()
    assert float(shown.removesuffix(" mm")) / 1e3 == pytest.approx(read_job(Path(folder) / "job.toml").job.coats.wall)


def test_jupyterlab_asks_nothing_of_the_internet_and_nothing_about_news(page, lab):
    asked = []
    page.on("request", lambda request: asked.append(request.url) if re.search("/lab/api/(news|update)", request.url) else None)
    page.goto(f"{lab}/lab/tree/00_start.ipynb?token=bench&reset")
    page.wait_for_selector(".jp-NotebookPanel-toolbar .jp-Notebook-ExecutionIndicator[data-status='idle']")
    page.wait_for_timeout(4000)  # the question came some seconds after the start
    assert "Jupyter news" not in page.locator("body").inner_text()
    assert asked == [] and page.outside == []


def test_a_chapter_is_readable_before_it_is_run(page, lab):
    page.goto(f"{lab}/lab/tree/09_layup.ipynb?token=bench&reset")
    page.wait_for_selector(".jp-OutputArea svg")
    text = page.locator(".jp-Notebook").inner_text()
    assert "model not found" not in text
