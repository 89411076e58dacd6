"""The table of directions: unit length, axes, mirror images, evenness."""

import numpy as np
import pytest

from moldcalc.errors import EntryError
from moldcalc.scan.directions import directions, round_about, unit


@pytest.mark.parametrize("steps", [1, 2, 9, 12])
def test_how_many_and_how_long(steps):
    made = directions(steps)
    assert made.shape == (4 * steps**2 + 2, 3)
    assert np.linalg.norm(made, axis=1) == pytest.approx(1, abs=1e-12)


def test_the_axes_and_the_corner_diagonals_are_among_them():
    made = directions()
    for wanted in [*np.eye(3), *-np.eye(3), *(np.array([a, b, c]) / 3**0.5 for a in (-1, 1) for b in (-1, 1) for c in (-1, 1))]:
        assert (made @ wanted).max() == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize("sides", [(-1, 1, 1), (1, -1, 1), (1, 1, -1), (-1, -1, -1)])
def test_mirror_images_are_among_them(sides):
    made = directions()
    assert (made @ (made * sides).T).max(axis=0) == pytest.approx(1, abs=1e-9)


def test_no_direction_is_farther_than_nine_degrees_from_one_of_them():
    rng = np.random.default_rng(0)
    asked = rng.normal(size=(20_000, 3))
    asked /= np.linalg.norm(asked, axis=1)[:, None]
    assert np.degrees(np.arccos((asked @ directions().T).max(axis=1))).max() < 9


def test_those_round_about_one_are_near_it_and_apart():
    near = round_about(np.array([0.0, 0.0, 1.0]))
    assert near[:, 2].min() == pytest.approx(np.cos(0.12))
    assert len(np.unique(near.round(6), axis=0)) == 12


@pytest.mark.parametrize("pull", [(0, 0, 0), (np.nan, 0, 1), (np.inf, 0, 0)])
def test_a_pull_without_a_length_is_refused(pull):
    with pytest.raises(EntryError, match="the pull is"):
        unit(np.array(pull, float))
