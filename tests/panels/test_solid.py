"""The turnable picture: what travels to the page, what is refused, and that its bundle is the one that its sources make."""

import json
import shutil
import struct
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from moldcalc.errors import EntryError
from moldcalc.panels import solid
from moldcalc.panels.solid import MOST, SLOPES, SolidPicture

HERE = Path(solid.__file__).parent
POINTS = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], float)
FACES = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]])


def picture(**traits):
    made = SolidPicture(**traits)
    made.put(POINTS, FACES, np.array([1, 1, 2, 255]))
    return made


def test_a_surface_travels_as_little_endian_bytes():
    made = picture()
    assert struct.unpack("<12f", made.positions) == tuple(POINTS.ravel())
    assert struct.unpack("<12I", made.faces) == tuple(FACES.ravel())
    assert made.labels == bytes([1, 1, 2, 255])


def test_other_labels_send_label_bytes_only():
    made = picture()
    changed = []
    made.observe(lambda change: changed.append(change["name"]))
    made.recolour(np.array([2, 2, 1, 0]))
    made.recolour(bytes([3, 2, 1, 0]))
    assert changed == ["labels", "labels"] and made.labels == bytes([3, 2, 1, 0])


def test_a_new_surface_forgets_the_old_labels_and_paint():
    made = picture()
    made.painted = bytes(4)
    made.put(POINTS, FACES[:2])
    assert made.labels == bytes(2) and made.painted == b""


@pytest.mark.parametrize(("points", "faces", "labels", "says"), [
    (POINTS, np.zeros((MOST + 1, 3), int), None, "The surface to show is 80001 triangles; at most 80000 can be shown."),
    (POINTS, FACES + 1, None, "every triangle needs three of its vertices"),
    (POINTS, FACES - 1, None, "every triangle needs three of its vertices"),
    (POINTS * np.nan, FACES, None, "every coordinate must be finite"),
    (POINTS + np.inf, FACES, None, "every coordinate must be finite"),
    (POINTS, FACES, np.zeros(3), "The number of labels is 3; each of the 4 triangles needs one"),
])
def test_what_cannot_be_shown_is_said_and_the_picture_stays(points, faces, labels, says):
    made = picture()
    with pytest.raises(EntryError, match=says):
        made.put(points, faces, labels)
    assert made.labels == bytes([1, 1, 2, 255]) and len(made.positions) == 48


def test_no_surface_is_a_surface_too():
    made = picture()
    made.put(POINTS[:0], FACES[:0])
    assert (made.positions, made.faces, made.labels) == (b"", b"", b"")


@pytest.mark.parametrize(("trait", "value"), [("mode", "wire"), ("apart", 1.5), ("apart", -0.1), ("hand", "both")])
def test_traits_hold_to_what_is_possible(trait, value):
    with pytest.raises(Exception, match=trait):
        setattr(picture(), trait, value)


def test_stored_it_is_a_still_picture_with_its_words():
    made = picture(said="Four sections of <a hare>.", still="<svg>still</svg>")
    made.table = "no.  name\n1    front"
    bundle = made._repr_mimebundle_()
    data = bundle[0] if isinstance(bundle, tuple) else bundle
    assert data["text/plain"] == "Four sections of <a hare>.\nno.  name\n1    front"
    assert "<svg>still</svg>" in data["text/html"] and "&lt;a hare&gt;" in data["text/html"]
    assert "application/vnd.jupyter.widget-view+json" in data


def test_pieces_marks_and_bands_are_plain_data():
    made = picture(pieces=[{"number": 1, "name": "front", "pull": [0, -1, 0], "order": 1, "place": [0, 0, 0]}],
                   marks=[{"kind": "seam", "points": [[0, 0, 0], [1, 0, 0]]}])
    assert json.loads(json.dumps([made.pieces, made.marks, made.bands]))[0][0]["name"] == "front"
    assert [band["upto"] for band in SLOPES] == sorted(band["upto"] for band in SLOPES) and SLOPES[-1]["upto"] == 180


def test_the_still_picture_has_the_same_slopes():
    from moldcalc.scan import paper
    assert [(band["upto"], band["name"]) for band in SLOPES] == list(paper.SLOPES)


def test_nothing_heavy_is_loaded_for_it():
    def loaded(names):
        code = f"import sys, {names}; print(*{{name.partition('.')[0] for name in sys.modules}})"
        return set(subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=120).stdout.split())
    heavy = {"numpy", "scipy", "pandas", "trimesh", "matplotlib"}
    assert (loaded("moldcalc.panels.solid") - loaded("pint, pydantic, tomlkit, ipywidgets, anywidget")) & heavy == set()


# the bundle -----------------------------------------------------------------------------------------------------
def test_the_bundle_carries_its_licence():
    text = (HERE / "solid.js").read_text(encoding="utf-8")
    assert "Three.js Authors" in text[:300] and "SPDX-License-Identifier: MIT" in text[:300]
    assert "Permission is hereby granted" in (HERE / "three.license.txt").read_text(encoding="utf-8")
    assert 400_000 < len(text.encode()) < 700_000


def test_the_bundle_asks_nothing_of_the_network():
    ours = "".join(path.read_text(encoding="utf-8") for path in HERE.glob("*.src.js"))
    assert "http" not in ours and "fetch(" not in ours and "requestAnimationFrame(loop" not in ours


def test_the_bundle_is_what_its_sources_make(tmp_path):
    npm = shutil.which("npm")
    if npm is None:
        pytest.skip("npm is not on this machine")
    for name in ("package.json", "package-lock.json", *(path.name for path in HERE.glob("*.src.js"))):
        shutil.copy(HERE / name, tmp_path / name)
    got = subprocess.run([npm, "ci", "--no-audit", "--no-fund"], cwd=tmp_path, capture_output=True, text=True, timeout=300)
    if got.returncode:
        pytest.skip(f"npm could not fetch three and esbuild: {got.stderr.strip().splitlines()[-1:] or got.returncode}")
    made = subprocess.run([npm, "run", "-s", "bundle"], cwd=tmp_path, capture_output=True, text=True, timeout=120)
    assert made.returncode == 0, made.stderr
    assert (tmp_path / "solid.js").read_bytes() == (HERE / "solid.js").read_bytes(), "run 'npm ci && npm run bundle' on a copy of this folder"
