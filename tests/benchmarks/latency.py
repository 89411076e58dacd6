"""From a key press to the new answer on the screen, in JupyterLab: our panel against a bare slider that sets one HTML string."""

import statistics
import tempfile
from pathlib import Path

import nbformat

from moldcalc.laying import lay
from tests.browser.conftest import CHROMIUM, FLAGS, free_port, serving

BARE = """import ipywidgets as w
slider, text = w.IntSlider(description="bare"), w.HTML("<p class='bare'>0</p>")
slider.observe(lambda change: setattr(text, "value", f"<p class='bare'>{change.new}</p>"), "value")
w.VBox([slider, text])"""

WATCH = """([focus, target]) => new Promise(done => {
  const seen = document.querySelector(target), node = target === '.bare' ? seen.parentElement : seen;
  const start = performance.now();
  const watch = new MutationObserver(() => { watch.disconnect(); requestAnimationFrame(() => done(performance.now() - start)); });
  watch.observe(node, {subtree: true, childList: true, characterData: true, attributes: false});
  const element = document.querySelector(focus);
  element.focus();
  if (element.tagName === 'INPUT') { element.stepUp(); element.dispatchEvent(new Event('input', {bubbles: true})); }
  else element.dispatchEvent(new KeyboardEvent('keydown', {key: 'ArrowRight', code: 'ArrowRight', keyCode: 39, bubbles: true}));
})"""


def latency(rounds: int = 25) -> None:
    """Prints the medians and their ratio."""
    from playwright.sync_api import sync_playwright

    folder = Path(tempfile.mkdtemp())
    lay(folder)
    book = nbformat.v4.new_notebook()
    load = "from moldcalc.job import open_job\nfrom moldcalc.panels import panel"
    book.cells = [nbformat.v4.new_code_cell(BARE), nbformat.v4.new_code_cell(f"{load}\npanel('coats', open_job())")]
    book.metadata = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}}
    nbformat.write(book, folder / "bench.ipynb")
    port = free_port()
    command = ["-m", "jupyterlab", "--no-browser", f"--ServerApp.root_dir={folder}", "--ServerApp.ip=127.0.0.1", f"--ServerApp.port={port}",
               "--IdentityProvider.token=bench", "--LabApp.expose_app_in_browser=True", "--LabApp.news_url=", "--allow-root"]
    with serving(command, f"http://127.0.0.1:{port}/api", folder), sync_playwright() as tool:
        browser = tool.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page = browser.new_page(viewport={"width": 1280, "height": 1400})
        page.goto(f"http://127.0.0.1:{port}/lab/tree/bench.ipynb?token=bench&reset")
        page.wait_for_function("window.jupyterapp?.shell.currentWidget?.sessionContext?.session", timeout=60_000)
        page.evaluate("window.jupyterapp.commands.execute('notebook:run-all-cells')")
        page.locator(".mc-panel .mc-answer").wait_for(timeout=60_000)
        page.locator(".bare").wait_for()
        wall = page.get_by_role("slider", name="Wall when finished").get_attribute("id")
        medians = {}
        for name, focus, target in (("bare", ".noUi-handle", ".bare"), ("panel", f"#{wall}", ".mc-answer")):
            times = []
            for _ in range(rounds):
                times.append(page.evaluate(WATCH, [focus, target]))
                page.wait_for_timeout(120)
            medians[name] = statistics.median(times)
        browser.close()
    print(f"slider to answer and picture in JupyterLab: panel {medians['panel']:.0f} ms, bare slider {medians['bare']:.0f} ms, "
          f"ratio {medians['panel'] / medians['bare']:.2f} (at most 1.5)")
