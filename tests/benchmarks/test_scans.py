"""The ways that the benchmark of scans compares find the same area and volume."""

import pytest

from tests.benchmarks.scans import floor, library, longest_pause, ours, torus, whole


def test_the_ways_agree(tmp_path):
    path = tmp_path / "ring.stl"
    torus(path, 10_000)
    area, volume = floor(path)
    for way in (ours, whole, library):
        assert way(path) == pytest.approx((area, volume), rel=1e-6)
    assert longest_pause(path) > 0
