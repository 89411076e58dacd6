"""Connected stretches: what one direction frees in two places is two, small ones are left out, faces hold to the stretch they are meant for."""

import numpy as np
import pytest

from moldcalc.scan.outside import outside
from moldcalc.scan.progress import finish
from moldcalc.scan.split import split
from moldcalc.scan.stretches import LEAST, held_to, largest_of, nearest_places, next_to, stretches
from tests.scan.formulas import cut_off, grid, sphere, together

LINE = np.array([[0, 1], [1, 2], [2, 3], [3, 4], [4, 5]])


def test_what_one_direction_frees_in_two_places_is_two():
    seen = np.array([[1, 1, 0, 1, 1, 1], [1, 1, 1, 1, 1, 1], [0, 0, 0, 0, 0, 0]], bool)
    found = stretches(seen, LINE, np.ones(6))
    assert found.rows.astype(int).tolist() == [[1, 1, 0, 0, 0, 0], [0, 0, 0, 1, 1, 1], [1] * 6]
    assert found.of.tolist() == [0, 0, 1]
    assert largest_of(found, (0, 1, 2), np.ones(6)) == (1, 2), "the third direction frees nothing"


def test_a_small_stretch_is_left_out_but_the_largest_of_each_direction_stays():
    many = int(3 / LEAST)
    beside = np.stack([np.arange(many - 1), np.arange(1, many)], axis=1)
    seen = np.zeros((2, many), bool)
    seen[0, :100] = seen[0, 200] = True
    seen[1, 5] = True
    found = stretches(seen, beside, np.ones(many))
    assert found.rows.sum(axis=1).tolist() == [100, 1] and found.of.tolist() == [0, 1]


@pytest.fixture(scope="module")
def pair():
    """Two balls apart on a board, joined by nothing."""
    body = together(sphere(0.12, (-0.2, 0, 0)), sphere(0.12, (0.2, 0, 0)))
    return grid(cut_off(body), (-0.32, -0.12, 0), (0.32, 0.12, 0.12), 0.015)


def test_every_face_has_its_nearest_place(pair):
    surface = outside(pair)
    picked = np.arange(0, len(surface.areas), 7)
    owner = nearest_places(surface, picked)
    assert (owner[picked] == np.arange(len(picked))).all()
    straight = np.linalg.norm(surface.centres - surface.centres[picked][owner], axis=1)
    assert np.quantile(straight, 0.99) < 6 * surface.cell
    left, right = surface.centres[:, 0] < 0, surface.centres[picked][owner][:, 0] < 0
    assert (left == right).all(), "no place serves the other ball"
    beside = next_to(surface, owner)
    assert (surface.centres[picked][beside[:, 0], 0] < 0).tolist() == (surface.centres[picked][beside[:, 1], 0] < 0).tolist()


def test_faces_hold_to_the_stretch_they_are_meant_for(pair):
    surface = outside(pair)
    free = surface.normals[:, 2] > 0
    wanted = surface.centres[:, 0] < 0
    held = held_to(surface, free, wanted)
    assert held.any() and (held <= free).all() and (surface.centres[held, 0] < 0).all()


def test_two_bodies_are_two_sections_though_one_pull_would_do(pair):
    made = finish(split(pair, least_draft=0, leftover_share=0.1))
    assert made.bound == 2 and len(made.sections) == 2 and made.proven
    assert all(not section.touches for section in made.sections)
