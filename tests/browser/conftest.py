"""A browser of the machine's own, and the workbook served as a user would see it. Skipped, with the reason, where there is no browser."""

import contextlib
import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest

from moldcalc.laying import environment_of, lay

FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]
_KNOWN = ("/usr/bin/chromium", shutil.which("chromium"), shutil.which("google-chrome"))
CHROMIUM = next((path for path in _KNOWN if path and Path(path).exists()), None)


def free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return int(taken.getsockname()[1])


@contextlib.contextmanager
def serving(command, url, folder):
    """A server of ours on this machine only; ended by its own process id."""
    log = open(folder / "server.log", "wb")  # noqa: SIM115  closed below, after the server has ended
    environment = dict(environment_of(os.environ), IPYTHONDIR=str(folder / "ipython"),
                       JUPYTER_CONFIG_DIR=str(folder / "config"), JUPYTERLAB_SETTINGS_DIR=str(folder / "lab"))
    process = subprocess.Popen([sys.executable, *command], cwd=folder, env=environment, stdout=log, stderr=log)
    try:
        for _ in range(240):
            if process.poll() is not None:
                pytest.fail(f"the server stopped: {(folder / 'server.log').read_text()[-800:]}")
            with contextlib.suppress(OSError), urllib.request.urlopen(url, timeout=2):
                break
            time.sleep(0.25)
        yield url
    finally:
        process.terminate()
        with contextlib.suppress(subprocess.TimeoutExpired):
            process.wait(15)
        if process.poll() is None:
            process.kill()
        log.close()


@pytest.fixture(scope="session")
def browser():
    playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    if CHROMIUM is None:
        pytest.skip("no Chromium-based browser on this machine")
    with playwright.sync_playwright() as tool:
        started = tool.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield started
        started.close()


@pytest.fixture
def page(browser, request):
    """A page that may ask nothing outside this machine; what it tried is kept in ``page.outside``."""
    width = getattr(request, "param", 1280)
    context = browser.new_context(viewport={"width": width, "height": 900 if width > 500 else 844})
    opened = context.new_page()
    opened.outside = []

    def guard(route):
        if re.match(r"(https?|wss?)://127\.0\.0\.1[:/]|data:|blob:", route.request.url):
            route.continue_()
        else:
            opened.outside.append(route.request.url)
            route.abort()
    context.route("**/*", guard)
    opened.set_default_timeout(60_000)
    yield opened
    context.close()


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    """The workbook laid in a folder, as ``moldcalc open`` does."""
    made = tmp_path_factory.mktemp("book")
    lay(made)
    return made


@pytest.fixture(scope="session")
def lab(folder, browser):
    port = free_port()
    command = ["-m", "jupyterlab", "--no-browser", f"--ServerApp.root_dir={folder}", "--ServerApp.ip=127.0.0.1", f"--ServerApp.port={port}",
               "--IdentityProvider.token=bench", "--LabApp.expose_app_in_browser=True", "--LabApp.news_url=None",
               "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate", "--allow-root"]
    with serving(command, f"http://127.0.0.1:{port}/api", folder):
        yield f"http://127.0.0.1:{port}"


@pytest.fixture(scope="session")
def app(folder, browser):
    port = free_port()
    with serving(["-m", "voila", str(folder), "--no-browser", "--template=moldcalc", "--Voila.ip=127.0.0.1", f"--port={port}"],
                 f"http://127.0.0.1:{port}/", folder):
        yield f"http://127.0.0.1:{port}"
