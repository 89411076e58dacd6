"""Damaged scans of every kind end in a sentence or a right answer."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.benchmarks.fuzz_scans import drawn
from tests.scan.mutations import KINDS, PAYLOADS, Edit, mutated, seeds, verdict

EDITS = st.lists(st.builds(Edit, st.sampled_from(KINDS), st.floats(0, 1), st.sampled_from(PAYLOADS) | st.binary(min_size=1, max_size=8),
                           st.sampled_from((1, 2, 4, 50, 400))), min_size=1, max_size=4)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("damaged")


@settings(max_examples=300)
@given(seed=st.integers(0, len(seeds()) - 1), edits=EDITS, inside=st.booleans())
def test_a_damaged_scan_is_answered_or_refused(folder, seed, edits, inside):
    kind, data = seeds()[seed]
    path = folder / f"scan{kind}"
    path.write_bytes(mutated(kind, data, edits, inside=inside))
    assert verdict(path) in ("answer", "sentence")


@settings(max_examples=150)
@given(kind=st.sampled_from(sorted({kind for kind, _ in seeds()})), data=st.binary(min_size=1, max_size=300))
def test_bytes_that_are_no_scan_are_refused(folder, kind, data):
    path = folder / f"bytes{kind}"
    path.write_bytes(data)
    assert verdict(path) in ("answer", "sentence")


@pytest.mark.parametrize(("kind", "data"), seeds())
def test_a_whole_scan_is_answered(folder, kind, data):
    path = folder / f"whole{kind}"
    path.write_bytes(data)
    assert verdict(path) == "answer"


def test_the_long_run_draws_the_same_for_everybody():
    assert drawn(7) == drawn(7)
    assert len({drawn(number) for number in range(50)}) > 45
