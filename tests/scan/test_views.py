"""Still pictures: their outlines against areas known in closed form, the same text every time, numbers where parts are seen."""

import hashlib
import math
import re

import numpy as np
import pytest

from moldcalc.errors import EntryError
from moldcalc.scan import seeing
from moldcalc.scan.body import Body
from moldcalc.scan.showing import carried, for_picture, gathered, simplified
from moldcalc.scan.views import Drawing, frame_of, pieces_rows, pieces_table, scene_of, slope_labels, still, views_sheet, way

CUBE = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], float)
SIDES = np.array([[0, 1, 3], [0, 3, 2], [4, 6, 7], [4, 7, 5], [0, 4, 5], [0, 5, 1], [2, 3, 7], [2, 7, 6], [0, 2, 6], [0, 6, 4], [1, 5, 7], [1, 7, 3]])


def sphere(level=4, radius=0.25):
    """An octahedron's triangles halved again and again onto a sphere that stands on the board."""
    points = np.array([[1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0], [0, 0, 1], [0, 0, -1]], float)
    faces = np.array([[0, 2, 4], [2, 1, 4], [1, 3, 4], [3, 0, 4], [2, 0, 5], [1, 2, 5], [3, 1, 5], [0, 3, 5]])
    for _ in range(level):
        edges = np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]), axis=1)
        own, of = np.unique(edges, axis=0, return_inverse=True)
        of = of.reshape(-1) + len(points)
        middle = points[own].mean(axis=1)
        points = np.concatenate([points, middle / np.linalg.norm(middle, axis=1)[:, None]])
        p, q, r = of.reshape(3, -1)
        a, b, c = faces.T
        faces = np.concatenate([np.stack(three, axis=1) for three in ((a, p, r), (b, q, p), (c, r, q), (p, q, r))])
    return points * radius + (0, 0, radius), faces


def quarters(vertices, faces):
    """Which quarter round the upright axis each triangle is in, 1 to 4."""
    middle = vertices[faces].mean(axis=1)
    return (1 + (middle[:, 0] > 0) + 2 * (middle[:, 1] > 0)).astype(np.uint8)


PIECES = [{"number": number, "name": name, "order": order, "pull": pull, "place": None}
          for number, name, order, pull in ((1, "front left", 2, (-1, -1, 0)), (2, "front right", 1, (1, -1, 0)),
                                            (3, "back left", 4, (-1, 1, 0)), (4, "back right", 3, (1, 1, 0.2)))]


def traced(body, view, width=340):
    scene = scene_of(body, None, "plain")
    return Drawing(frame_of(scene.vertices, view, width), scene, (), "plain", "metric").outline_area()


#: body, way of looking, area of its outline in m², why. Beyond the mesh's own error an outline that is sampled may be
#: off by half a sample, a quarter of a pixel, all round.
OUTLINES = [
    ((CUBE, SIDES), "front", 1.0, "a square"),
    ((CUBE, SIDES), "top", 1.0, "a square"),
    ((CUBE, SIDES), (1, 1, 0), math.sqrt(2), "over an edge: side times diagonal"),
    ((CUBE, SIDES), (1, 1, -1), math.sqrt(3), "along its diagonal: sum of |n| over three unit squares, 3/sqrt 3"),
    ((CUBE * (2, 1, 0.5), SIDES), (0.6, 0.8, 0), 0.5 * (2 * 0.8 + 1 * 0.6), "sum over the faces of area times |cosine|"),
    (sphere(), "front", math.pi / 16, "a circle"),
    (sphere(), (0.3, -0.2, 0.7), math.pi / 16, "a circle from every side"),
    ((sphere()[0] * (2, 1, 1), sphere()[1]), "front", math.pi / 8, "an ellipse"),
    ((sphere()[0] * (2, 1, 1), sphere()[1]), "left", math.pi / 16, "a circle"),
]


@pytest.mark.parametrize(("body", "view", "area", "why"), OUTLINES)
def test_the_outline_has_the_area_it_should(body, view, area, why):
    scene = scene_of(body, None, "plain")
    frame = frame_of(scene.vertices, view, 340)
    found = Drawing(frame, scene, (), "plain", "metric").outline_area()
    around = 2 * math.sqrt(math.pi * area) * 1.25  # no outline here is longer than a quarter more than a circle's
    mesh = 0 if len(body[1]) == 12 else area * (1 - math.cos(math.pi / 2 / 2**5)) * 2
    assert found == pytest.approx(area, abs=0.5 / seeing.FINE / frame.scale * around + mesh), why


def test_the_outline_comes_nearer_with_the_picture():
    body = (CUBE, SIDES)
    off = [abs(traced(body, (1, 1, -1), width) - math.sqrt(3)) for width in (100, 400)]
    assert off[1] < off[0] / 2


def test_a_part_behind_another_is_not_seen():
    behind = np.concatenate([CUBE, CUBE * 0.5 + (0.25, 3, 0.25)])
    faces = np.concatenate([SIDES, SIDES + 8])
    labels = np.repeat(np.array([1, 2], np.uint8), 12)
    numbers = lambda svg: set(re.findall(r">(\d+)</text>", svg))  # noqa: E731
    assert numbers(still((behind, faces), labels)) == {"1"}
    assert numbers(still((behind, faces), labels, view="back")) == {"2", "1"}
    assert numbers(still((behind, faces), labels, view="top")) == {"1", "2"}


def test_of_two_at_one_place_each_pixel_has_the_nearer():
    across = np.array([[0, 0, 0], [40, 0, 0], [0, 40, 0], [0, 0, 5], [40, 0, -5], [0, 40, -5]], float)
    found = seeing.seen(across, np.array([[0, 1, 2], [3, 4, 5]]), 40, 40)
    row, column = np.mgrid[0:80, 0:80]
    x, y = (column + 0.5) / 2, (row + 0.5) / 2
    inside, nearer = x + y < 39.9, x + y < 19.5  # the second falls from 5 to -5 along x + y
    assert (found.face[inside & nearer] == 1).all() and (found.face[inside & (x + y > 20.5)] == 0).all()
    assert (found.face[x + y > 40.1] == -1).all()


@pytest.mark.parametrize("view", ["front", "left", "back", "right", "top", (0.5, 0.8, -0.3)])
def test_the_same_surface_gives_the_same_text(view):
    vertices, faces = sphere()
    one, other = (still((vertices.copy(), faces.copy()), quarters(vertices, faces), view=view, pieces=PIECES) for _ in range(2))
    assert one == other and len(one.encode()) < 60_000


def test_noise_far_under_a_pixel_changes_nothing():
    vertices, faces = sphere()
    labels = quarters(vertices, faces)
    noise = np.random.default_rng(3).normal(0, 1e-15, vertices.shape)
    sums = [hashlib.sha256(still((points, faces), labels, view=(0.5, 0.8, -0.3)).encode()).hexdigest() for points in (vertices, vertices + noise)]
    assert sums[0] == sums[1]


def test_a_rough_surface_stays_small():
    vertices, faces = sphere(6)
    rough = (vertices - (0, 0, 0.25)) * (1 + np.random.default_rng(1).normal(0, 0.01, (len(vertices), 1))) + (0, 0, 0.25)
    for svg in (still((rough, faces), quarters(rough, faces), pieces=PIECES, view=(0.5, 0.8, -0.3)), still((rough, faces), mode="slope")):
        assert len(svg.encode()) < 60_000


def test_four_sides_on_a_sheet():
    vertices, faces = sphere()
    svg = views_sheet((vertices, faces), quarters(vertices, faces), pieces=PIECES)
    assert [name for name in ("Front", "Right", "Back", "Top") if f">{name}</text>" in svg] == ["Front", "Right", "Back", "Top"]
    # from the front 1 and 2 are seen, from the right 2 and 4, from the back 3 and 4, from the top all
    assert [svg.count(f">{number}</text>") for number in (1, 2, 3, 4)] == [2, 3, 2, 3]
    assert set(re.findall(r"url\(#([\w-]+)\)", svg)) == set(re.findall(r'pattern id="([\w-]+)"', svg))


def test_slid_apart_the_body_stays_and_the_way_off_is_drawn():
    vertices, faces = sphere()
    labels = quarters(vertices, faces)
    together, apart = (still((vertices, faces), labels, pieces=PIECES, view="top", apart=share) for share in (0, 1))
    assert together != apart and "slid apart" in apart
    scene = scene_of((vertices, faces), labels, "sections", PIECES, 0.25)
    assert set(scene.labels[scene.gone]) == {2}, "the first turn moves piece 2 alone"
    assert len(scene.faces) == 2 * len(faces)


def test_a_small_pocket_has_its_number_beside_it():
    vertices, faces = sphere()
    labels = np.zeros(len(faces), np.uint8)
    labels[np.argmin(vertices[faces].mean(axis=1)[:, 1])] = 7
    svg = still((vertices, faces), labels, mode="pockets")
    assert ">7</text>" in svg and 'stroke-width=".8"' in svg


SLOPES = [((0, 0, 1), 1), ((0, 0.3, 1), 1), ((0, 0.6, 1), 2), ((1, 0, 0.1), 3), ((1, 0, 0), 3), ((0, -1, -0.5), 4), ((0, 0, -1), 4)]


@pytest.mark.parametrize(("normal", "band"), SLOPES)
def test_slopes_fall_in_their_bands(normal, band):
    along = np.cross(normal, (0.3, 0.7, 0.11))
    triangle = np.array([(0, 0, 0), along, np.cross(normal, along)])
    assert slope_labels((triangle, np.array([[0, 1, 2]]))).tolist() == [band]


@pytest.mark.parametrize(("pull", "words"), [
    ((0, -1, 0), "to the front"), ((1, 0, 0), "to the right"), ((-1, 1, 0), "to the back left"), ((0, 0, 2), "straight up"),
    ((0, 0.1, -5), "straight down"),
    ((0, -1, 1), "to the front, 45° up"), ((-1, 0, -0.1), "to the left, 6° down"), ((0, 0, 0), "no way off"),
])
def test_a_direction_in_words(pull, words):
    assert way(pull) == words


def test_the_table_says_what_the_picture_shows():
    heads, rows = pieces_rows([*PIECES[:1], {**PIECES[1], "area": 0.5, "mass": 2.0, "touches": [1, 3]}])
    assert heads == ["no.", "name", "comes off", "way off", "area", "mass", "touches"]
    assert rows[1] == ["2", "front right", "1", "to the front right", "0.500 m²", "2.00 kg", "1, 3"]
    assert pieces_table(PIECES).count("\n") == 4


@pytest.mark.parametrize(("given", "says"), [
    ({"view": "below"}, "The view is 'below'; there are front, left, back, right, top"),
    ({"view": (0, 0, 0)}, "it is a direction of three numbers"),
    ({"mode": "wire"}, "The picture's mode is 'wire'"),
    ({"labels": np.zeros(3)}, "triangles needs one"),
])
def test_what_cannot_be_drawn_is_said(given, says):
    with pytest.raises(EntryError, match=re.escape(says)):
        still((CUBE, SIDES), **given)


def test_no_surface_no_picture():
    with pytest.raises(EntryError, match="nothing to draw"):
        still((CUBE, SIDES[:0]))
    with pytest.raises(EntryError, match="must be finite"):
        still((CUBE + np.inf, SIDES))


@pytest.mark.parametrize("thin", [simplified, lambda body, most: gathered(body.vertices, body.faces, most)], ids=["edges", "cells"])
def test_a_thinned_surface_keeps_its_size_and_its_labels(thin):
    body = Body(*sphere(6))
    labels = quarters(body.vertices, body.faces)
    vertices, faces = thin(body, 3000)
    assert 1000 < len(faces) <= 3000
    small, area = carried(body, labels, vertices, faces), np.linalg.norm(Body(vertices, faces).area_vectors, axis=1)
    # an inscribed polyhedron of 1000 triangles and more loses about 1 % (4 pi / n times a shape factor near 1)
    assert area.sum() == pytest.approx(math.pi / 4, rel=0.02)
    assert np.mean(small == quarters(vertices, faces)) > 0.97
    for number in (1, 2, 3, 4):
        assert area[small == number].sum() == pytest.approx(math.pi / 16, rel=0.05)


def test_for_picture():
    body = Body(*sphere(5))
    labels = quarters(body.vertices, body.faces)
    whole, small = for_picture(body, labels), for_picture(body, labels, most=2000)
    assert len(whole.faces) == len(body.faces) and (whole.labels == labels).all()
    assert len(small.faces) <= 2000 and len(small.labels) == len(small.faces) and set(small.labels) == {1, 2, 3, 4}
    assert (small.vertices.dtype, small.faces.dtype, small.labels.dtype) == (np.float32, np.uint32, np.uint8)
    with pytest.raises(EntryError, match="at least 4"):
        for_picture(body, labels, most=3)
    with pytest.raises(EntryError, match="triangles needs one"):
        for_picture(body, labels[1:])
