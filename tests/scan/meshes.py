"""Real meshes that nobody here made: two from the npm registry, four from inside the pyvista wheel.

What the registry gave is kept in the system's folder for temporary files, never in the checkout, and its digest is
checked each time. Without a network the tests that ask for one are skipped and say so.
"""

import hashlib
import io
import json
import os
import tarfile
import tempfile
import urllib.request
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

Mesh = tuple[NDArray[np.float64], NDArray[np.int64]]

#: package -> (version, file inside, sha256 of the tarball as the registry gave it)
_PACKAGES = {
    "bunny": ("1.0.1", "package/index.js", "381e02c74b98cf18814d7bec794726ef70b9c67e037273e82054d0043f6ae303"),
    "teapot": ("1.0.0", "package/teapot.js", "ebe7143533ff1a35ea25738b43112d36fd9ae072652bde9b2144057e7218890f"),
}


def _tarball(name: str) -> bytes:
    version, _, digest = _PACKAGES[name]
    kept = Path(tempfile.gettempdir()) / "moldcalc-test-meshes" / f"{name}-{version}.tgz"
    if kept.is_file():
        data = kept.read_bytes()
        if hashlib.sha256(data).hexdigest() == digest:
            return data
    registry = os.environ.get("npm_config_registry", "https://registry.npmjs.org").rstrip("/")  # noqa: SIM112 (npm writes it so)
    try:
        with urllib.request.urlopen(f"{registry}/{name}/-/{name}-{version}.tgz", timeout=20) as answer:
            data = answer.read(1_000_000)
    except OSError as why:
        pytest.skip(f"npm package {name} could not be fetched: {why}")
    assert hashlib.sha256(data).hexdigest() == digest, f"{name}-{version}.tgz is not the file it was"
    kept.parent.mkdir(exist_ok=True)
    whole = kept.with_suffix(f".{os.getpid()}")
    whole.write_bytes(data)
    whole.replace(kept)
    return data


def _listed(text: str, name: str) -> object:
    """The nested list that a module exports under a name."""
    start = text.index("[", text.index(f"exports.{name}"))
    return json.JSONDecoder().raw_decode(text, start)[0]


@cache
def _package(name: str) -> Mesh:
    with tarfile.open(fileobj=io.BytesIO(_tarball(name))) as archive:
        member = archive.extractfile(_PACKAGES[name][1])
        assert member is not None
        text = member.read().decode()
    return np.array(_listed(text, "positions"), float), np.array(_listed(text, "cells"), np.int64)


def bunny() -> Mesh:
    """A scanned figure, decimated: 1 839 points, 3 674 triangles, closed, y up. Skips the test when it can't be had."""
    vertices, faces = _package("bunny")
    return vertices.copy(), faces.copy()


def teapot() -> Mesh:
    """A teapot of three open bodies, with 792 stored points of which some are equal. Skips the test when it can't be had."""
    vertices, faces = _package("teapot")
    return vertices.copy(), faces.copy()


def shipped(name: str) -> Path:
    """A mesh file inside the pyvista wheel: nut, ant, sphere or airplane."""
    from importlib.util import find_spec

    found = find_spec("pyvista")
    if found is None or found.origin is None:
        pytest.skip("pyvista, whose wheel holds the mesh, is not installed")
    return Path(found.origin).parent / "examples" / f"{name}.ply"
