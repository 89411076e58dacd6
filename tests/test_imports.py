"""What may import what: floors of the house, and what is loaded at the start.

What is loaded is compared with a floor: the modules that pint, pydantic, ipywidgets and anywidget load by
themselves. Where numpy is installed pint loads it, so numpy alone proves nothing against us; what we add is what counts.
"""

import ast
import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest

import moldcalc

PACKAGE = Path(moldcalc.__file__).parent
HEAVY = {"numpy", "pandas", "scipy", "matplotlib", "trimesh", "ortools", "networkx", "lxml"}
FLOOR = "pint, pydantic, tomlkit, ipywidgets, anywidget"
OURS = [name for name in ("moldcalc", "moldcalc.units", "moldcalc.job", "moldcalc.plan", "moldcalc.panels", "moldcalc.packet", "moldcalc.course")
        if importlib.util.find_spec(name)]

#: a room -> rooms below it, from which it may import; errors and units are the ground floor
BELOW = {
    "errors": set(), "units": {"errors"}, "stages": {"units", "errors"}, "job": {"units", "errors"}, "plan": {"units", "errors", "stages", "job"},
    "scan": {"units", "errors", "stages"}, "schedule": {"units", "errors", "stages", "scan"},
    "survey": {"units", "errors", "stages", "scan", "job", "plan", "packet"},
    "panels": {"units", "errors", "stages", "job", "plan", "scan", "survey"},
    "packet": {"units", "errors", "stages", "job", "plan", "scan", "survey"},
    "course": {"units", "errors", "stages", "job", "plan"},
}
#: rooms that stand on numpy; others import them inside the function that needs them
NUMERIC = {"scan", "survey", "schedule"}
#: what a calculation may take from outside
PLAIN = {"__future__", "bisect", "collections", "cmath", "csv", "dataclasses", "datetime", "enum", "fractions", "functools", "heapq", "io",
         "itertools", "math", "operator",
         "re", "statistics", "typing"}
MODULES = sorted(PACKAGE.rglob("*.py"))


def loaded(statement):
    code = f"import {statement}, sys; print(*{{name.partition('.')[0] for name in sys.modules}})"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=120)
    return set(done.stdout.split())


def imports(path):
    """(module, whether it stands at the top of the file) for every import in a module of ours, relative ones spelled out."""
    here = ("moldcalc", *path.relative_to(PACKAGE).with_suffix("").parts)
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((name.name, node in tree.body) for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(here[: len(here) - node.level]) if node.level else ""
            module = ".".join(part for part in (base, node.module) if part)
            yield module, node in tree.body
            if module == "moldcalc":
                yield from ((f"moldcalc.{name.name}", node in tree.body) for name in node.names if not name.name.startswith("_"))


def room(name):
    return name.split(".")[1] if name.startswith("moldcalc.") else ""


def test_nothing_heavy_is_loaded_beyond_the_floor():
    assert (loaded(", ".join(OURS)) - loaded(FLOOR)) & HEAVY == set()


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_room_imports_only_from_floors_below(path):
    own = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    if own in BELOW:
        rooms = {room(name) for name, _ in imports(path)} - {"", own}
        assert rooms <= BELOW[own], f"{own} takes from {sorted(rooms - BELOW[own])}"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_what_is_heavy_is_imported_where_it_is_needed(path):
    if path.relative_to(PACKAGE).parts[0] in NUMERIC:
        pytest.skip("this room stands on numpy")
    at_top = [name for name, at_top in imports(path) if at_top]
    assert {name.partition(".")[0] for name in at_top} & HEAVY == set()
    assert {room(name) for name in at_top} & NUMERIC == set()


@pytest.mark.parametrize("path", sorted((PACKAGE / "stages").rglob("*.py")), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_calculation_knows_no_files_clocks_or_widgets(path):
    outside = {name.partition(".")[0] for name, _ in imports(path)} - {"moldcalc"}
    assert outside <= PLAIN
    called = {ast.unparse(node.func) for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(node, ast.Call)}
    assert not called & {"open", "io.open", "print", "input", "eval", "exec", "datetime.now", "datetime.datetime.now", "date.today"}
