"""Whole sections: short borders, ridges, drawn lines, places kept free of seams, islands given away."""

import numpy as np
import pytest

from moldcalc.scan.outside import outside
from moldcalc.scan.progress import finish
from moldcalc.scan.reach import field_of, reach
from moldcalc.scan.regions import Wishes, border_costs, face_costs, joints, made_whole, parted, pieces
from tests.scan.formulas import box, grid, sphere, upright

LEFT_RIGHT = np.array([[1.0, 0, 0], [-1.0, 0, 0]])


def halves(formula, half, wishes=Wishes(), pulls=LEFT_RIGHT, draft=0.0):  # noqa: B008
    made = grid(formula, -np.array(half), half, 0.01)
    surface = outside(made, board=False)
    seen = finish(reach(surface.centres, surface.normals, field_of(made, board=False), pulls, draft))
    costs = face_costs(surface, seen, pulls @ surface.normals.T)
    return surface, seen, costs, finish(parted(surface, costs, border_costs(surface, wishes)))


def test_a_sphere_in_two_is_parted_along_its_great_circle():
    surface, _, _, labels = halves(sphere(0.2), (0.2,) * 3)
    assert (labels[surface.centres[:, 0] > 0.01] == 0).all()
    assert (labels[surface.centres[:, 0] < -0.01] == 1).all()
    # 2 pi r; smoothing the zigzag leaves a little of it
    assert joints(surface, labels)[0, 1] == pytest.approx(2 * np.pi * 0.2, rel=0.05)


def test_the_two_sections_of_a_box_meet_on_its_edges_when_either_could_have_the_top():
    pulls = np.array([[1.0, 0, 1.0], [-1.0, 0, 1.0]]) / 2**0.5
    surface, seen, _, labels = halves(box((0.1, 0.1, 0.1)), (0.1,) * 3, pulls=pulls)
    top = (surface.normals[:, 2] > 0.99) & (np.abs(surface.centres[:, :2]) < 0.08).all(axis=1)
    assert seen[:, top].all()
    assert len(set(labels[top])) == 1, "a border on the ridge costs less than one across the top"


def test_a_border_follows_a_drawn_line_and_stays_off_a_painted_place():
    """A tube whose two pulls both see a broad band: the line says where in the band the border runs."""
    pulls = np.array([[0.5, 0, 1.0], [-0.5, 0, 1.0]])
    pulls /= np.linalg.norm(pulls, axis=1)[:, None]
    angle = np.linspace(-np.pi / 2, np.pi / 2, 50)
    line = np.stack([np.full(50, 0.03), 0.15 * np.sin(angle), 0.15 * np.cos(angle)], axis=1)
    line *= 0.15 / np.linalg.norm(line, axis=1)[:, None]
    drawn = halves(sphere(0.15), (0.15,) * 3, Wishes(lines=[line]), pulls)
    surface, labels = drawn[0], drawn[3]
    border = (labels[surface.pairs[:, 0]] != labels[surface.pairs[:, 1]]) & (surface.middles[:, 2] > 0.08)
    assert np.abs(surface.middles[border, 0] - 0.03).max() < 0.025
    top = np.array([0.0, 0, 0.15])
    kept = halves(sphere(0.15), (0.15,) * 3, Wishes(keep_off=[(top, 0.04)]), pulls)
    surface, labels = kept[0], kept[3]
    border = labels[surface.pairs[:, 0]] != labels[surface.pairs[:, 1]]
    assert np.linalg.norm(surface.middles[border] - top, axis=1).min() > 0.03


def test_a_mirror_plane_draws_the_border():
    costs = {}
    made = grid(upright(0.1, 0.1), (-0.1,) * 3, (0.1,) * 3, 0.01)
    surface = outside(made, board=False)
    for name, wishes in [("plain", Wishes()), ("mirror", Wishes(mirror=(np.zeros(3), np.array([1.0, 0, 0]))))]:
        costs[name] = border_costs(surface, wishes)
    near = np.abs(surface.middles[:, 0]) < 0.01
    assert (costs["mirror"][near] <= 0.41 * surface.lengths[near]).all()
    assert (costs["mirror"][~near & (np.abs(surface.middles[:, 0]) > 0.02)] == costs["plain"][~near & (np.abs(surface.middles[:, 0]) > 0.02)]).all()


def test_an_island_goes_to_its_neighbour_and_a_large_one_becomes_a_section():
    surface, seen, costs, labels = halves(sphere(0.2), (0.2,) * 3)
    island = np.linalg.norm(surface.centres - [0.2, 0, 0], axis=1) < 0.05
    spoilt = np.where(island, 1, labels)
    section, pull = made_whole(surface, spoilt, seen, costs, allowed=1.0, smallest=0.0)
    assert len(pull) == 2
    assert (pull[section] == labels).all()
    blocked = seen.copy()
    blocked[0, island] = False
    blocked[1, island] = True
    section, pull = made_whole(surface, spoilt, blocked, face_costs(surface, blocked, LEFT_RIGHT @ surface.normals.T), allowed=0.0, smallest=0.0)
    assert len(pull) == 3
    assert len(np.unique(pieces(section, surface.pairs))) == 3
