"""The turnable picture as a reader has it: in JupyterLab and in the app view, offline, by keyboard, on a phone's width, without 3-D."""

import re

import nbformat
import pytest

pytestmark = pytest.mark.browser

#: a ball on the board in four quarters, each a section with its way off
CELL = """
import numpy as np
from moldcalc.panels.solid import SolidPicture
around, up = np.meshgrid(np.arange(48) * np.pi / 24, np.linspace(0, np.pi, 25))
V = np.stack([np.sin(up) * np.cos(around) * 0.3, np.sin(up) * np.sin(around) * 0.2, 0.25 - np.cos(up) * 0.25], -1).reshape(-1, 3)
a = (np.arange(24)[:, None] * 48 + np.arange(48)).ravel()
b = (np.arange(24)[:, None] * 48 + (np.arange(48) + 1) % 48).ravel()
F = np.concatenate([np.stack([a, b, b + 48], 1), np.stack([a, b + 48, a + 48], 1)])
c = V[F].mean(1)
L = 1 + (c[:, 0] > 0) + 2 * (c[:, 1] > 0)
pieces = [{"number": k + 1, "name": name, "order": k + 1, "pull": [2 * (k % 2) - 1, 2 * (k // 2) - 1, 0.2],
           "place": [0.2 * (2 * (k % 2) - 1), 0.13 * (2 * (k // 2) - 1), 0.25]}
          for k, name in enumerate(["front left", "front right", "back left", "back right"])]
p = SolidPicture(mode="sections", pieces=pieces, extents=["600 mm", "400 mm", "500 mm"], said="A ball on the board in 4 sections.",
                 still='<svg viewBox="0 0 40 40" role="img" aria-label="still"><circle cx="20" cy="20" r="9"/></svg>')
p.put(V, F, L)
p
"""
#: a button that does in the kernel what a panel would
BUTTONS = """
import ipywidgets as widgets
one, two, out = widgets.Button(description="Recolour"), widgets.Button(description="Pockets"), widgets.Label()
one.on_click(lambda _: p.recolour(np.where(L == 1, 2, L)))
two.on_click(lambda _: setattr(p, "mode", "pockets"))
p.observe(lambda change: setattr(out, "value", f"face {change.new['face']} at {change.new['point']}, looking {p.aim}"), "picked")
widgets.VBox([one, two, out])
"""


@pytest.fixture(scope="module")
def notebook(folder):
    cells = [nbformat.v4.new_markdown_cell("# A solid"), nbformat.v4.new_code_cell(CELL.strip()), nbformat.v4.new_code_cell(BUTTONS.strip())]
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    nbformat.write(nbformat.v4.new_notebook(cells=cells, metadata=kernel), folder / "solid_picture.ipynb")
    return "solid_picture.ipynb"


def drawn(page):
    page.wait_for_function("Number(document.querySelector('.mcs-canvas')?.dataset.draws) > 0")
    page.wait_for_function("document.querySelector('.mcs-said')?.textContent.startsWith('Seen ')")
    return page.locator(".mc-solid").first


def in_app(page, app, notebook):
    page.goto(f"{app}/voila/render/{notebook}")
    return drawn(page)


def in_lab(page, lab, notebook):
    page.goto(f"{lab}/lab/tree/{notebook}?token=bench&reset")
    page.wait_for_selector(".jp-NotebookPanel-toolbar .jp-Notebook-ExecutionIndicator[data-status='idle']")
    page.wait_for_function("window.jupyterapp?.shell.currentWidget?.sessionContext?.session")
    page.evaluate("window.jupyterapp.commands.execute('notebook:run-all-cells')")
    picture = drawn(page)
    page.wait_for_selector(".jp-NotebookPanel-toolbar .jp-Notebook-ExecutionIndicator[data-status='idle']")
    return picture


PIXELS = """() => { const c = document.querySelector('.mcs-canvas'); const t = document.createElement('canvas'); t.width = 160; t.height = 90;
  const x = t.getContext('2d', {willReadFrequently: true}); x.drawImage(c, 0, 0, 160, 90); const d = x.getImageData(0, 0, 160, 90).data;
  let ink = 0; const seen = new Set();
  for (let i = 0; i < d.length; i += 4) if (d[i + 3] > 40) { ink += 1; seen.add((d[i] >> 4) * 256 + (d[i + 1] >> 4) * 16 + (d[i + 2] >> 4)); }
  return {sum: d.reduce((a, b, i) => (a * 31 + b * (i % 7 + 1)) % 1000003, 7), ink, colours: seen.size}; }"""


def pixels(page):
    return page.evaluate(PIXELS)


def changed(page, before):
    page.wait_for_function(f"before => ({PIXELS})().sum !== before", arg=before["sum"])
    return pixels(page)


def test_it_is_drawn_and_turned_by_keys_in_jupyterlab(page, lab, notebook):
    in_lab(page, lab, notebook)
    before = pixels(page)
    assert before["ink"] > 500 and before["colours"] > 8 and page.outside == []
    canvas = page.get_by_role("application", name=re.compile("A ball on the board in 4 sections"))
    for key in ("ArrowRight", "ArrowUp", "+", "Shift+ArrowLeft"):
        canvas.press(key)
        before = changed(page, before)
    slider = page.get_by_role("slider", name="Apart")
    slider.press("ArrowRight")
    changed(page, before)
    assert float(slider.input_value()) == pytest.approx(0.01), "the arrow keys are the slider's, not the notebook's"


@pytest.mark.parametrize("page", [1280, 390], indirect=True)
def test_it_has_no_finding_and_no_sideways_scroll_in_the_app_view(page, app, notebook):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright")
    picture = in_app(page, app, notebook)
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), "sideways scrolling"
    assert page.outside == [], "the picture asks nothing outside this machine"
    for button in picture.get_by_role("button").all():
        box = button.bounding_box()
        assert min(box["width"], box["height"]) >= 44, button.inner_text()
    assert picture.get_by_role("slider").bounding_box()["height"] >= 44
    found = axe.Axe().run(page, context=".mc-solid").response["violations"]
    assert [(rule["id"], rule["nodes"][0]["html"][:120]) for rule in found] == []


def test_sections_slide_off_in_their_turn(page, app, notebook):
    picture = in_app(page, app, notebook)
    slider, before = picture.get_by_role("slider", name="Apart"), pixels(page)
    turns = [slider.get_attribute("aria-valuetext")]
    for share in ("0.25", "0.3", "0.5", "1"):
        slider.fill(share)
        before = changed(page, before)
        turns.append(slider.get_attribute("aria-valuetext"))
    assert turns == ["together", "1 off", "1 off; 2 coming off", "1, 2 off", "all off"]
    page.wait_for_function("document.querySelector('.mcs-said').textContent.includes('All off.')")


def test_numbers_stand_on_what_is_seen_and_hide_behind(page, app, notebook):
    picture = in_app(page, app, notebook)
    numbers = lambda: sorted(picture.locator(".mcs-number:visible").all_inner_texts())  # noqa: E731
    picture.get_by_role("button", name="Front", exact=True).click()
    page.wait_for_function("document.querySelector('.mcs-said').textContent === 'Seen from the front.'")
    assert numbers() == ["1", "2"]
    picture.get_by_role("button", name="Back", exact=True).click()
    page.wait_for_function("document.querySelector('.mcs-said').textContent === 'Seen from the back.'")
    assert numbers() == ["3", "4"]
    picture.get_by_role("button", name="Top", exact=True).click()
    page.wait_for_function("document.querySelector('.mcs-said').textContent === 'Seen from the top.'")
    assert numbers() == ["1", "2", "3", "4"]


def test_other_labels_and_modes_come_from_the_kernel(page, app, notebook):
    in_app(page, app, notebook)
    before = pixels(page)
    page.get_by_role("button", name="Recolour").click()
    before = changed(page, before)
    page.wait_for_function("![...document.querySelectorAll('.mcs-number')].some(n => !n.hidden && n.textContent === '1')")
    page.get_by_role("button", name="Pockets").click()
    changed(page, before)
    page.wait_for_function("document.querySelector('.mcs-apart').hidden")


def test_a_tap_tells_the_kernel_which_face_and_where(page, app, notebook):
    picture = in_app(page, app, notebook)
    picture.get_by_role("button", name="Front", exact=True).click()
    page.wait_for_function("document.querySelector('.mcs-said').textContent === 'Seen from the front.'")
    box = picture.locator(".mcs-canvas").bounding_box()
    page.mouse.click(box["x"] + box["width"] / 2 + 3, box["y"] + box["height"] / 2)
    page.get_by_text(re.compile(r"face \d+ at \[")).wait_for()
    x, y, z = (float(word) for word in re.search(r"at \[(.*?)\]", page.get_by_text(re.compile("face")).inner_text())[1].split(","))
    assert (abs(x) < 0.01, abs(z - 0.25) < 0.02, abs(y + 0.2) < 0.005) == (True, True, True), (x, y, z)
    assert picture.get_by_role("button", name=re.compile("^2")).get_attribute("aria-pressed") == "true"


def test_a_drag_turns_it_and_it_rests_when_it_is_let_go(page, app, notebook):
    picture = in_app(page, app, notebook)
    before, box = pixels(page), picture.locator(".mcs-canvas").bounding_box()
    page.mouse.move(box["x"] + 200, box["y"] + 200)
    page.mouse.down()
    page.mouse.move(box["x"] + 320, box["y"] + 230, steps=4)
    page.mouse.up()
    changed(page, before)
    page.wait_for_timeout(600)
    draws = page.evaluate("document.querySelector('.mcs-canvas').dataset.draws")
    page.wait_for_timeout(500)
    assert page.evaluate("document.querySelector('.mcs-canvas').dataset.draws") == draws, "it draws when something changes, and only then"


def test_without_3d_there_is_the_still_picture(page, app, notebook):
    page.add_init_script("HTMLCanvasElement.prototype.getContext = new Proxy(HTMLCanvasElement.prototype.getContext, "
                         "{apply: (f, el, a) => /webgl/.test(a[0]) ? null : f.apply(el, a)})")
    page.goto(f"{app}/voila/render/{notebook}")
    page.get_by_text("so this is the still picture").wait_for()
    assert page.locator(".mcs-still svg").is_visible() and not page.locator(".mcs-canvas").is_visible()


def test_on_paper_the_still_picture_takes_its_place(page, app, notebook):
    picture = in_app(page, app, notebook)
    assert picture.locator(".mcs-canvas").is_visible() and not picture.locator(".mcs-still svg").is_visible()
    page.emulate_media(media="print")
    assert picture.locator(".mcs-still svg").is_visible()
    assert not any(picture.locator(name).is_visible() for name in (".mcs-canvas", ".mcs-bar", ".mcs-apart", ".mcs-help"))


def test_one_finger_turns_and_two_are_the_pages(page, app, notebook):
    picture = in_app(page, app, notebook)
    assert picture.locator(".mcs-canvas").evaluate("canvas => getComputedStyle(canvas).touchAction") == "pinch-zoom"
    scrolled = page.evaluate("""() => { const event = new WheelEvent('wheel', {deltaY: 100, cancelable: true, bubbles: true});
        document.querySelector('.mcs-canvas').dispatchEvent(event); return !event.defaultPrevented; }""")
    assert scrolled, "a bare wheel scrolls the page"


def test_a_picture_whose_kernel_is_gone_stays_and_says_so(page, lab, notebook):
    picture = in_lab(page, lab, notebook)
    page.evaluate("window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart()")
    picture.get_by_text("The calculation behind this picture has ended").wait_for()
    before = pixels(page)
    assert before["ink"] > 500
    picture.locator(".mcs-canvas").press("ArrowRight")
    changed(page, before)
