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

#: From the key event to the first frame after the answer's text was changed.
WATCH = """target => {
  const seen = document.querySelector(target), node = target === '.bare' ? seen.parentElement : seen;
  let start = null;
  window.took = null;
  document.addEventListener('keydown', () => { start = performance.now(); }, {capture: true, once: true});
  const watch = new MutationObserver(() => {
    if (start === null) return;
    watch.disconnect();
    requestAnimationFrame(() => { window.took = performance.now() - start; });
  });
  watch.observe(node, {subtree: true, childList: true, characterData: true});
}"""


def latency(rounds: int = 15) -> None:
    """Prints the medians and their ratio. The wall has 18 steps to its end, so no more rounds than that."""
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
        sliders = {"bare": (page.get_by_role("slider").first, ".bare"),
                   "panel": (page.get_by_role("slider", name="Wall when finished"), ".mc-answer")}
        medians = {}
        for name, (slider, target) in sliders.items():
            times = []
            slider.focus()
            for _ in range(rounds):
                page.evaluate(WATCH, target)
                slider.press("ArrowRight")
                page.wait_for_function("window.took !== null", timeout=10_000)
                times.append(page.evaluate("window.took"))
                page.wait_for_timeout(400)  # the band of the last move is worked out meanwhile
            medians[name] = statistics.median(times)
        browser.close()
    print(f"slider to answer and picture in JupyterLab: panel {medians['panel']:.0f} ms, bare slider {medians['bare']:.0f} ms, "
          f"ratio {medians['panel'] / medians['bare']:.2f} (at most 1.5)")
