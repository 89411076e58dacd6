"""Lays the workbook in a folder of the user's, and opens it. A chapter that the user changed is never overwritten."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from moldcalc.errors import FileError, MissingError
from moldcalc.job.file import FILE_NAME, write_whole
from moldcalc.job.places import data_folder, workbook_folder

LAID = ".moldcalc-laid.json"
FIRST = "00_start.ipynb"


def _sources(raw: bytes) -> list[list[str]] | None:
    """What a chapter says, outputs left out: running a chapter does not change it."""
    try:
        cells = json.loads(raw)["cells"]
        return [[cell["cell_type"], "".join(cell["source"])] for cell in cells]
    except (ValueError, KeyError, TypeError):
        return None


def _laid_before(folder: Path) -> dict[str, list[list[str]]]:
    try:
        found = json.loads((folder / LAID).read_text(encoding="utf-8"))
        return found if isinstance(found, dict) else {}
    except (OSError, ValueError):
        return {}


def lay(folder: Path) -> list[str]:
    """Copy the chapters, and the demo job where there is none yet. Returns a sentence for each thing that was not plain copying.

    Raises
    ------
    FileError
        The folder can't be written to.
    """
    notes: list[str] = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        before = _laid_before(folder)
        now: dict[str, list[list[str]]] = {}
        for chapter in sorted(workbook_folder().glob("*.ipynb")):
            ours, target = chapter.read_bytes(), folder / chapter.name
            fresh = _sources(ours)
            assert fresh is not None
            there = _sources(target.read_bytes()) if target.exists() else None
            now[chapter.name] = fresh
            if target.exists() and there == fresh:
                continue
            if target.exists() and there != before.get(chapter.name):
                notes.append(f"{chapter.name} was kept: you changed it.")
                now[chapter.name] = before.get(chapter.name, [])
                continue
            write_whole(target, ours)
        write_whole(folder / LAID, json.dumps(now).encode())
        if not (folder / FILE_NAME).exists():
            shutil.copyfile(data_folder() / "jobs" / "hare.toml", folder / FILE_NAME)
            shutil.copyfile(data_folder() / "jobs" / "hare.survey", (folder / FILE_NAME).with_suffix(".survey"))
            notes.append(f"{FILE_NAME} is the demo job: change it, or put your own in its place.")
    except OSError as error:
        raise FileError(f"The workbook can't be laid in {folder}: {(error.strerror or str(error)).lower()}.") from None
    return notes


def template_folder() -> Path:
    """Where Jupyter finds the app view's template."""
    return Path(__file__).parent / "panels" / "jupyter"


def environment_of(given: Mapping[str, str]) -> dict[str, str]:
    """What Jupyter is started with: our template, and our defaults for what JupyterLab would ask the internet for.

    Defaults of one start only: nothing is written, and what the user has set in JupyterLab goes before them.
    """
    ours = {"JUPYTER_PATH": template_folder(), "JUPYTER_CONFIG_PATH": template_folder() / "config"}
    paths = {name: os.pathsep.join(filter(None, (str(folder), given.get(name)))) for name, folder in ours.items()}
    return {**given, **paths}


def open_workbook(folder: Path, app: bool = False, browser: bool = True, port: int | None = None) -> int:
    """Start JupyterLab (or the app view, without code) on the workbook in a folder; returns its exit code.

    The server listens on this machine only and keeps Jupyter's token.
    """
    environment = environment_of(os.environ)
    if app:
        command = ["-m", "voila", str(folder), "--template=moldcalc", "--Voila.ip=127.0.0.1"]
        command += [f"--port={port}"] if port else []
    else:
        command = ["-m", "jupyterlab", f"--ServerApp.root_dir={folder}", "--ServerApp.ip=127.0.0.1", f"--LabApp.default_url=/lab/tree/{FIRST}",
                   "--LabApp.news_url=None", "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate"]
        command += [f"--ServerApp.port={port}"] if port else []
        command += ["--allow-root"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    command += [] if browser else ["--no-browser"]
    try:
        return subprocess.call([sys.executable, *command], env=environment, cwd=folder)
    except OSError as error:
        raise MissingError(f"Jupyter can't be started: {error.strerror or error}. Install moldcalc with its dependencies again.") from None
    except KeyboardInterrupt:
        return 0
