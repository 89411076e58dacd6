"""A scan as a new user brings it: dropped in chapter 01, its pockets in 06, the shell over it apart in 08; a dome of known size."""

import pytest

from moldcalc.job import demo_job, read_job
from moldcalc.job.file import write_whole
from moldcalc.laying import lay
from tests.browser.conftest import free_port, serving
from tests.panels.test_scan_desks import dome

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def bench(tmp_path_factory, browser):
    """A workbook on a job without a scan, served in the app view; and the file that will be dropped."""
    folder = tmp_path_factory.mktemp("bench")
    lay(folder)
    dome().export(folder / "dome.obj")
    port = free_port()
    with serving(["-m", "voila", str(folder), "--no-browser", "--template=moldcalc", "--Voila.ip=127.0.0.1", f"--port={port}"],
                 f"http://127.0.0.1:{port}/", folder):
        yield f"http://127.0.0.1:{port}/voila/render", folder


def fresh(folder):
    """A job that knows nothing of a scan."""
    (folder / "job.survey").unlink(missing_ok=True)
    write_whole(folder / "job.toml", demo_job("bust")._text().encode())
    read_job(folder / "job.toml").keep_all({"original.height": "150 mm", "original.scan": "", "split.fineness": "12 mm", "paste.ball": "80 mm",
                                            "split.least_draft": "0°"}, {})


def quiet(page):
    """Until no work is under way."""
    page.wait_for_function("document.querySelector('.mc-scan').getAttribute('aria-busy') === 'false'", timeout=120_000)


@pytest.mark.parametrize("page", [1280, 390], indirect=True)
def test_a_scan_goes_through_the_chapters(page, bench):
    url, folder = bench
    fresh(folder)
    page.goto(f"{url}/01_original.ipynb")
    desk = page.locator(".mc-scan")
    desk.locator(".mc-answer").wait_for()
    desk.locator("input[type=file]").set_input_files(folder / "dome.obj")
    desk.get_by_label("One unit of the scan is").wait_for()
    page.wait_for_function("document.querySelector('.mc-scan .mc-answer').innerText.includes('What is one unit?')")
    desk.get_by_label("One unit of the scan is").select_option("mm")
    page.wait_for_function("document.querySelector('.mc-scan .mc-answer').innerText.includes('0.141 m²')")
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), "sideways scrolling"
    desk.get_by_role("button", name="Use this size for the job").click()
    page.wait_for_function("document.querySelector('.mc-scan .mc-note').innerText.startsWith('Kept in job.toml')")
    assert read_job(folder / "job.toml").job.original.method == "scan"
    page.wait_for_function("document.querySelector('.mc-panel:has(.mc-results)').innerText.includes('0.141 m²')")
    page.wait_for_selector(".ms-canvas, canvas")

    page.goto(f"{url}/08_split.ipynb")
    desk.get_by_role("button", name="Find the sections").click()
    page.wait_for_function("document.querySelector('.mc-scan .mc-answer').innerText.startsWith('1 section')", timeout=120_000)
    quiet(page)
    desk.get_by_role("button", name="Use these sections for the job").click()
    page.wait_for_function("document.querySelector('.mc-scan .mc-note').innerText.startsWith('Kept in job.toml')")
    assert len(read_job(folder / "job.toml").job.layup.section) == 1
    assert page.outside == []


def test_long_work_is_shown_and_stopped(page, app):
    """On the demo, whose search takes a while."""
    page.goto(f"{app}/voila/render/08_split.ipynb")
    desk = page.locator(".mc-scan")
    desk.get_by_role("button", name="Find the sections").click()
    desk.get_by_role("progressbar").wait_for()
    before = desk.locator(".mc-answer").inner_text()
    desk.get_by_role("button", name="Stop").click()
    page.wait_for_function("document.querySelector('.mc-scan .mc-note').innerText.startsWith('Stopped')", timeout=60_000)
    quiet(page)
    assert desk.locator(".mc-answer").inner_text() == before


def test_a_pocket_is_ticked_with_the_keyboard(page, app):
    page.goto(f"{app}/voila/render/06_paste.ipynb")
    desk = page.locator(".mc-scan")
    box = desk.get_by_role("checkbox").first
    box.wait_for()
    before = desk.locator(".mc-answer").inner_text()
    box.focus()
    box.press("Space")
    page.wait_for_function("before => document.querySelector('.mc-scan .mc-answer').innerText !== before", arg=before)


def test_what_is_no_scan_gets_one_sentence(page, app, tmp_path):
    broken = tmp_path / "broken.stl"
    broken.write_bytes(b"<html>not found</html>")
    page.goto(f"{app}/voila/render/01_original.ipynb")
    desk = page.locator(".mc-scan")
    desk.locator("input[type=file]").set_input_files(broken)
    page.wait_for_function("document.querySelector('.mc-scan .mc-error').innerText.includes('broken.stl')")
    assert "Traceback" not in page.inner_text("body")
