"""Along which directions rigid pieces leave, against closed forms and published results of casting in geometry.

A smooth patch is given by normals on it; where a closed form asks for a smooth cone the rim is cut into 4000 or more, which costs less than the
tolerance of the row. Linear programs and quadratic programs of scipy agree (tests/scan/test_cones.py).
"""

from math import cos, degrees, pi, radians, sin

import numpy as np
import pytest

from moldcalc.scan.blocking import Pieces, blocking
from moldcalc.scan.cones import flange_normals, key_cone, ways_off
from moldcalc.scan.order import order
from moldcalc.stages import split
from moldcalc.units import Q
from tests.tables import printed, within

X, Y, Z = np.eye(3)
CLOSED = "closed form; linear program agrees"


def sphere(many=4000):
    points = np.random.default_rng(7).normal(size=(many, 3))
    return points / np.linalg.norm(points, axis=1)[:, None]


def ring(slope, many=4000, axis=Z):
    """Unit vectors that all rise by `slope` over the plane square to the axis."""
    turn = np.arange(many) * 2 * pi / many
    one, two = [side for side in (X, Y, Z) if side is not axis]
    return cos(slope) * (np.cos(turn)[:, None] * one + np.sin(turn)[:, None] * two) + sin(slope) * axis


def cap(half_angle):
    return np.vstack([ring(radians(90 - half_angle)), Z])


def hemisphere():
    points = sphere()
    points[:, 2] = abs(points[:, 2])
    return np.vstack([ring(0), points])


def quarter():
    points = sphere()
    points[:, [0, 2]] = abs(points[:, [0, 2]])
    return np.vstack([points, X, Y, -Y, Z, [[cos(t), sin(t), 0] for t in np.linspace(-pi / 2, pi / 2, 91)]])


def eighth():
    return np.vstack([abs(sphere()), X, Y, Z])


def lune(width):
    turn, rise = np.meshgrid(np.radians(np.linspace(-width / 2, width / 2, 121)), np.radians(np.linspace(-90, 90, 91)))
    return np.stack([np.cos(rise) * np.cos(turn), np.cos(rise) * np.sin(turn), np.sin(rise)], axis=-1).reshape(-1, 3)


def cylinder(width, *ends):
    turn = np.radians(np.linspace(-width / 2, width / 2, 721))
    return np.vstack([np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1), *ends])


def half_torus_by(way):
    """Normals of a torus about z, above its equator's plane or beside a plane through its axis."""
    turn, round_ = np.meshgrid(np.arange(180) * 2 * pi / 180, np.arange(180) * 2 * pi / 180)
    kept = np.sin(round_) >= -1e-12 if way == "equator" else np.cos(turn) >= -1e-12
    normals = np.stack([np.cos(round_) * np.cos(turn), np.cos(round_) * np.sin(turn), np.sin(round_)], axis=-1)
    return normals[kept]


def channel(lean):
    """Inside of a channel along z: two walls that open by `lean` toward y, and the floor."""
    up = radians(lean)
    return np.array([[cos(up), sin(up), 0], [-cos(up), sin(up), 0], Y])


def keyed(half_angle):
    one, two = flange_normals(3)
    return np.vstack([one, two, key_cone(one, radians(half_angle), toward=two, sides=3600),
                      key_cone(two, radians(half_angle), toward=one, sides=3600)])


TETRAHEDRON = np.array([[1, 1, 1], [1, -1, -1], [-1, 1, -1]]) / 3 ** 0.5

WAYS = [
    # patch                                   kind             draft deg              solid angle sr         source
    ("hemisphere", hemisphere(), "one direction", printed("0"), 0.0, CLOSED),
    ("cap of 60 deg", cap(60), "solid", within(30, absolute=1e-6), within(0.841787, absolute=1e-6), "closed form; Monte Carlo agrees to 1 %"),
    ("cap of 45 deg", cap(45), "solid", within(45, absolute=1e-6), within(1.840302, absolute=1e-6), "the same"),
    ("cap of 30 deg", cap(30), "solid", within(60, absolute=1e-6), within(3.141593, absolute=1e-6), "the same"),
    ("quarter of a sphere", quarter(), "arc", printed("0"), 0.0, CLOSED),
    ("eighth of a sphere", eighth(), "solid", within(35.2644, absolute=1e-4), within(pi / 2, absolute=1e-6), "closed form; QP agrees"),
    ("lune of 120 deg", lune(120), "arc", printed("0"), 0.0, CLOSED),
    ("cylinder of 120 deg, ends open", cylinder(120), "solid", within(30, absolute=1e-6), within(2.094395, absolute=1e-6), CLOSED),
    ("cylinder of 180 deg, ends open", cylinder(180), "arc", printed("0"), 0.0, CLOSED),
    ("cylinder of 181 deg, ends open", cylinder(181), "line", printed("0"), 0.0, CLOSED),
    ("cylinder of 180 deg with both ends", cylinder(180, Z, -Z), "one direction", printed("0"), 0.0, CLOSED),
    ("cylinder of 181 deg with both ends", cylinder(181, Z, -Z), "none", None, 0.0, CLOSED),
    ("cone of 5 deg", ring(radians(5)), "solid", within(5, absolute=1e-6), within(0.0239094, absolute=1e-6), "closed form"),
    ("cone of 20 deg", ring(radians(20)), "solid", within(20, absolute=1e-6), within(0.3789224, absolute=1e-6), "closed form"),
    ("cone of 30 deg", ring(radians(30)), "solid", within(30, absolute=1e-6), within(0.8417872, absolute=1e-6), "closed form"),
    ("cube, one face", [X], "solid", within(90, absolute=1e-4), within(2 * pi, absolute=1e-4), "closed form; LP and QP agree"),
    ("cube, two faces", [X, Y], "solid", within(45, absolute=1e-4), within(pi, absolute=1e-4), "the same"),
    ("cube, three at a corner", [X, Y, Z], "solid", within(35.2644, absolute=1e-4), within(pi / 2, absolute=1e-4), "the same"),
    ("cube, ring of four", [X, Y, -X, -Y], "line", printed("0"), 0.0, "the same"),
    ("cube, five", [X, Y, -X, -Y, Z], "one direction", printed("0"), 0.0, "the same"),
    ("cube, six", [X, Y, -X, -Y, Z, -Z], "none", None, 0.0, "the same"),
    ("cube, two opposite", [X, -X], "circle", printed("0"), 0.0, "the same"),
    ("tetrahedron, three faces", TETRAHEDRON, "solid", within(19.4712, absolute=1e-4), None, "closed form; QP agrees"),
    ("torus, cut in its equator", half_torus_by("equator"), "one direction", printed("0"), 0.0, "closed form"),
    ("torus, cut through its axis", half_torus_by("axis"), "none", None, 0.0, "linear program: only the null vector"),
    ("L-prism, faces +x and +y", [X, Y, X, Y], "solid", within(45, absolute=1e-4), within(pi, absolute=1e-4), "closed form; QP agrees"),
    ("channel, straight", channel(0), "arc", printed("0"), 0.0, CLOSED),
    ("channel, walls opening by 5 deg", channel(5), "solid", within(5, absolute=1e-4), None, CLOSED),
    ("channel, walls closing by 5 deg", channel(-5), "line", printed("0"), 0.0, CLOSED),
    ("three sections, keys of 29 deg", keyed(29), "none", None, 0.0, "closed form; LP and QP agree"),
    ("three sections, keys of 30 deg", keyed(30), "one direction", printed("0"), 0.0, "the same"),
    ("three sections, keys of 45 deg", keyed(45), "solid", within(15, absolute=1e-4), None, "the same"),
]


@pytest.mark.parametrize(("patch", "normals", "kind", "draft", "solid_angle", "source"), WAYS, ids=[row[0] for row in WAYS])
def test_ways_off(patch, normals, kind, draft, solid_angle, source):
    ways = ways_off(normals)
    assert ways.kind == kind, source
    assert (ways.draft if ways.draft is None else degrees(ways.draft)) == draft, source
    if solid_angle is not None:
        assert ways.solid_angle == solid_angle, source


DIRECTIONS = [
    ("hemisphere", hemisphere(), [Z], "the pole"),
    ("quarter of a sphere", quarter(), [X, Z], "arc of 90 deg from +x to +z in the plane y = 0"),
    ("lune of 120 deg", lune(120), [[cos(pi / 6), sin(pi / 6), 0], [cos(pi / 6), -sin(pi / 6), 0]], "horizontal arc of 30 deg to each side"),
    ("cylinder of 180 deg, ends open", cylinder(180), [Z, -Z], "half a great circle with +z and -z"),
    ("cylinder of 181 deg, ends open", cylinder(181), [Z, -Z], "only along the axis"),
    ("cylinder of 180 deg with both ends", cylinder(180, Z, -Z), [X], "only +x"),
    ("cube, ring of four", [X, Y, -X, -Y], [Z, -Z], "line"),
    ("channel, straight", channel(0), [Z, -Z], "half-plane y >= 0 with +z and -z"),
    ("channel, walls closing by 5 deg", channel(-5), [Z, -Z], "only along the channel"),
    ("torus, cut in its equator", half_torus_by("equator"), [Z], "each half exactly one direction"),
    ("eighth of a sphere", eighth(), [X, Y, Z], "octant of directions"),
]


@pytest.mark.parametrize(("patch", "normals", "ends", "source"), DIRECTIONS, ids=[row[0] for row in DIRECTIONS])
def test_which_directions(patch, normals, ends, source):
    rays = ways_off(normals).rays
    assert len(rays) == len(ends), source
    assert all(min(np.linalg.norm(np.asarray(end) - ray) for ray in rays) < 1e-6 for end in ends), source


OPENINGS = [
    ("quarter of a sphere", quarter(), 90, "closed form"), ("lune of 120 deg", lune(120), 60, "closed form"),
    ("cylinder of 180 deg, ends open", cylinder(180), 180, "closed form"), ("cube, two opposite", [X, -X], 360, "great circle"),
]


@pytest.mark.parametrize(("patch", "normals", "opening", "source"), OPENINGS, ids=[row[0] for row in OPENINGS])
def test_opening_of_arcs(patch, normals, opening, source):
    assert degrees(ways_off(normals).opening) == within(opening, absolute=1e-6), source


def test_eighth_leaves_best_along_its_diagonal():
    assert ways_off(eighth()).direction == within(np.ones(3) / 3 ** 0.5, absolute=1e-9)  # closed form


def test_a_cube_comes_off_in_two_pieces_with_draft():
    """Two pieces of three faces, cut at opposite corners: 35.2644 deg each (closed form); one piece can't."""
    assert not ways_off(np.vstack([np.eye(3), -np.eye(3)])).can_leave
    for piece in (np.eye(3), -np.eye(3)):
        assert degrees(ways_off(piece).draft) == within(35.2644, absolute=1e-4)


def test_an_l_comes_off_in_two():
    """Prism with ends free: +x, +y with the re-entrant faces, and -x, -y (closed form)."""
    for faces in ([X, Y, X, Y], [-X, -Y]):
        assert degrees(ways_off(faces).draft) == within(45, absolute=1e-4)


SPHERE = [
    # pieces  draft deg    source
    (2, "0.000", "covering of the sphere by 2 to 6 caps (arXiv 2008.04441, abstract verified), computed from the closed form"),
    (3, "0.000", "the same"),
    (4, "19.471", "the same: 90 - acos(1/3)"),
    (5, "26.565", "the same: 90 - atan 2"),
    (6, "35.264", "the same: 90 - acos(1/sqrt 3)"),
]


@pytest.mark.parametrize(("pieces", "draft", "source"), SPHERE)
def test_best_draft_of_a_ball(pieces, draft, source):
    assert split.best_draft_of_ball(pieces=pieces).m_as("degree") == printed(draft), source


@pytest.mark.parametrize(("middles", "draft", "source"), [
    ([[1, 1, 1], [1, -1, -1], [-1, 1, -1], [-1, -1, 1]], 19.4712, "four caps round a tetrahedron's corners; the form of the table"),
    ([X, -X, Y, -Y, Z, -Z], 35.2644, "six caps round the axes"),
])
def test_a_ball_in_regular_pieces(middles, draft, source):
    """Cells nearest to each middle, with their farthest corners among the normals, reach the best draft."""
    middles = np.array(middles, dtype=float) / np.linalg.norm(middles, axis=1)[:, None]
    corners = np.array([[x, y, z] for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)]) / 3 ** 0.5
    points = np.vstack([sphere(), corners])
    near = points @ middles.T
    for piece in range(len(middles)):
        mine = near[:, piece] >= near.max(axis=1) - 1e-12
        assert degrees(ways_off(points[mine]).draft) == within(draft, absolute=1e-4), source


@pytest.mark.parametrize(("sections", "half_angle"), [(2, "0"), (3, "30"), (4, "45"), (6, "60")])
def test_least_key_half_angle(sections, half_angle):
    """90 - 180/n: closed form; the radial pull makes that angle with both flange normals."""
    assert split.least_key_half_angle(sections=sections).m_as("degree") == printed(half_angle)
    assert degrees(np.arccos(np.clip(flange_normals(sections) @ X, -1, 1)).max()) == within(float(half_angle), absolute=1e-9)


@pytest.mark.parametrize(("half_angle", "solid_angle"), [(60, 0.841787), (45, 1.840302), (30, 3.141593)])
def test_directions_of_a_cap(half_angle, solid_angle):
    """2 pi (1 - sin a): closed form; Monte Carlo agrees to 1 %."""
    assert split.directions_of_cap(half_angle=Q(half_angle, "degree")) == within(solid_angle, absolute=1e-6)
    assert split.draft_of_cap(half_angle=Q(half_angle, "degree")).m_as("degree") == within(90 - half_angle, absolute=1e-6)


def test_draft_costs_width():
    """3 deg over 100 mm: 5.24078 mm a side (geometry)."""
    assert split.draft_offset(draft=Q(3, "degree"), height=Q(100, "mm")).m_as("mm") == within(5.24078, 1e-5)
    for draft, millimetres in ((1, "1.75"), (2, "3.49"), (3, "5.24"), (5, "8.75")):
        assert split.draft_offset(draft=Q(draft, "degree"), height=Q(100, "mm")).m_as("mm") == printed(millimetres)


def test_under_a_table_top_the_first_step_is_not_enough():
    """Logic: a piece on the floor under a table top may start upward, meets the top, and comes out sideways."""
    floor = [Z]
    assert ways_off(floor).can_leave and ways_off(floor).direction == within(Z, absolute=1e-12)
    labels = np.full((30, 30, 20), -1, dtype=np.int16)
    labels[8:22, 8:22, 2:5] = 0
    labels[5:25, 5:25, 12:15] = 1
    for pull, waits in ((Z, True), (X, False)):
        assert blocking(Pieces(labels, np.array([pull, Z]), 0.01, np.zeros(3)))[0, 1] == waits


def test_keystone_goes_first():
    """Logic: a row of three wedge blocks pulled outward, the middle one narrowing inward; the outer two wait for it."""
    x, y, z = np.meshgrid(*[np.arange(40)] * 3, indexing="ij")
    block = (x >= 3) & (x < 37) & (y >= 10) & (y < 30) & (z >= 10) & (z < 30)
    middle = abs(x - 19.5) < 4 + (z - 10) / 4
    labels = np.where(~block, -1, np.where(middle, 1, np.where(x < 20, 0, 2))).astype(np.int16)
    waits = blocking(Pieces(labels, np.array([Z, Z, Z]), 0.01, np.zeros(3)))
    assert waits.tolist() == [[False, True, False], [False, False, False], [False, True, False]]
    assert order(waits).rounds == ((1,), (0, 2))
