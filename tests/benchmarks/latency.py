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

#: From the key event until the new content is in the page, and until the first frame after that. The panel's answer AND picture must be new.
WATCH = """targets => {
  const nodes = targets.map(target => document.querySelector(target));
  const left = new Set(nodes);
  let start = null;
  window.took = null;
  document.addEventListener('keydown', () => { start = performance.now(); }, {capture: true, once: true});
  const watch = new MutationObserver(records => {
    if (start === null) return;
    for (const record of records) for (const node of left) if (node.contains(record.target)) left.delete(node);
    if (left.size) return;
    watch.disconnect();
    const changed = performance.now() - start;
    requestAnimationFrame(() => { window.took = [changed, performance.now() - start]; });
  });
  for (const node of nodes) watch.observe(node, {subtree: true, childList: true, characterData: true, attributes: true});
}"""
#: The wall has 18 steps up to its end from the demo's; back and forth between them.
TURN = 12


def latency(rounds: int = 4 * TURN) -> None:
    """Prints the medians and their ratios; the two sliders take turns, so that both meet the same load of the machine."""
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
               "--IdentityProvider.token=bench", "--LabApp.expose_app_in_browser=True", "--LabApp.news_url=None", "--allow-root"]
    with serving(command, f"http://127.0.0.1:{port}/api", folder), sync_playwright() as tool:
        browser = tool.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        page = browser.new_page(viewport={"width": 1280, "height": 1400})
        page.goto(f"http://127.0.0.1:{port}/lab/tree/bench.ipynb?token=bench&reset")
        page.wait_for_function("window.jupyterapp?.shell.currentWidget?.sessionContext?.session", timeout=60_000)
        page.evaluate("window.jupyterapp.commands.execute('notebook:run-all-cells')")
        page.locator(".mc-panel .mc-answer").wait_for(timeout=60_000)
        page.locator(".bare").wait_for()
        page.wait_for_timeout(2000)
        sliders = {"bare": (page.get_by_role("slider").first, [".widget-html-content"]),
                   "panel": (page.get_by_role("slider", name="Wall when finished"), [".mc-answer", ".mc-pictures"])}
        took: dict[str, list[list[float]]] = {name: [] for name in sliders}
        for turn in range(rounds):
            for name, (slider, targets) in sliders.items():
                slider.focus()
                page.wait_for_timeout(300)  # the band of the last move is worked out meanwhile, so that nothing waits in the kernel
                page.wait_for_function("document.querySelector('.mc-band').innerText.startsWith('Likely')", polling=50)
                page.wait_for_timeout(300)
                page.evaluate(WATCH, targets)
                slider.press("ArrowLeft" if turn // TURN % 2 else "ArrowRight")
                page.wait_for_function("window.took !== null", timeout=10_000, polling=50)
                took[name].append(page.evaluate("window.took"))
        browser.close()
    for place, what in enumerate(("in the page", "in a frame")):
        panel, bare = (statistics.median(row[place] for row in took[name]) for name in ("panel", "bare"))
        print(f"key press to new answer and picture {what}, JupyterLab: panel {panel:.1f} ms, bare slider {bare:.1f} ms, "
              f"ratio {panel / bare:.2f} (at most 1.5)")
