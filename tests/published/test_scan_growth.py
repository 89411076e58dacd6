"""Growth of a surface of triangles with a coat, against exact bodies and counts."""

from math import pi, sqrt, tan

import numpy as np
import pytest
import trimesh

from moldcalc.scan.body import Body
from moldcalc.scan.measuring import Size, measure
from moldcalc.scan.outlines import Outline, flange_band
from moldcalc.scan.progress import finish
from moldcalc.stages import original
from tests.scan.meshes import bunny
from tests.tables import printed, within


def size_of(vertices, faces, **entries) -> Size:
    vertices = np.array(vertices, float)
    vertices -= [0, 0, vertices[:, 2].min()]
    given = {"closed": True, "consistent": True, "flange_width": 0.05, "wall": 0.02} | entries
    return finish(measure(Body(vertices, np.array(faces, np.int64)), **given))


def prism(outline, height):
    """An outline run upward, its ends cut into triangles from the corners named first in each."""
    corners, ends = outline
    n = len(corners)
    low, high = (np.column_stack([corners, np.full(n, z)]) for z in (0.0, height))
    sides = [face for i in range(n) for j in [(i + 1) % n] for face in ((i, j, n + j), (i, n + j, n + i))]
    return np.concatenate([low, high]), [*sides, *[(c, b, a) for a, b, c in ends], *[(n + a, n + b, n + c) for a, b, c in ends]]


L_SHAPE = (np.array([(0, 0), (0.3, 0), (0.3, 0.1), (0.1, 0.1), (0.1, 0.3), (0, 0.3)]), [(0, 1, 2), (0, 2, 3), (0, 3, 4), (0, 4, 5)])
MOUTH = 0.5 * tan(pi / 6)
NOTCHED = (np.array([(0, 0), (1, 0), (1, 1), (0.5 + MOUTH, 1), (0.5, 0.5), (0.5 - MOUTH, 1), (0, 1)]),
           [(4, 0, 1), (4, 1, 2), (4, 2, 3), (4, 5, 6), (4, 6, 0)])


@pytest.mark.parametrize("sides", [(1, 1, 1), (0.6, 0.4, 0.9), (0.01, 2, 0.3)])
def test_box_by_its_edges(sides):
    """Exact: twelve triangles, whose diagonals add nothing, give pi (a + b + c)."""
    size = size_of(*_of(trimesh.creation.box(sides)))
    assert size.curvature == within(pi * sum(sides), 1e-12)
    assert size.whole.cubic == within(4 * pi / 3, 1e-12)


def _of(mesh):
    return mesh.vertices, mesh.faces


def test_inscribed_ball():
    """Computed: what a ball of 1 280 facets has of the true one."""
    size = size_of(*_of(trimesh.creation.icosphere(subdivisions=3, radius=1.0)), base_tolerance=0.0)
    assert size.area_whole / (4 * pi) == printed("0.995235")
    assert size.volume.likely / (4 * pi / 3) == printed("0.991394")
    assert size.whole.curvature_signed / (4 * pi) == printed("0.998410")


L_GROWN = [
    # t     true             signed           outside only     area alone  source
    (0.02, "0.0403706016", "0.0404158111", "0.0405812683", "0.039", "L-prism .3 x .3 less .2 x .2, height .5; computed, 2-D count agrees"),
    (0.05, "0.0688589593", "0.0691629786", "0.0702756260", "0.060", "the same"),
]


@pytest.mark.parametrize(("t", "true", "signed", "upper", "alone", "source"), L_GROWN)
def test_l_prism(t, true, signed, upper, alone, source):
    size = size_of(*prism(L_SHAPE, 0.5))
    whole, volume = size.whole, size.volume.likely
    assert (volume, size.area_whole) == (within(0.025, 1e-12), within(0.70, 1e-12))
    assert volume + size.area_whole * t == printed(alone), source
    assert volume + t * (whole.area + t * (whole.curvature_signed + t * 4 * pi / 3)) == printed(signed), source
    grown = size.grown(t)[1]
    assert grown.high == printed(upper), source
    assert grown.low == printed(alone), source
    # with the tangent only the two ends of the inside edge are left out: 2/3 (1 - pi/4) t³ each, by hand
    assert grown.likely - 4 / 3 * (1 - pi / 4) * t**3 == printed(true), source
    assert grown.low < float(true) < grown.likely < float(signed) < grown.high


def test_l_prism_terms():
    """Exact: 1.1 pi signed, 1.225 pi outside; five thirds of pi from ten outside corners."""
    whole = size_of(*prism(L_SHAPE, 0.5)).whole
    assert whole.curvature_signed == within(1.1 * pi, 1e-12)
    assert whole.curvature_upper == within(1.225 * pi, 1e-12)
    assert whole.curvature == within(1.225 * pi - 0.5, 1e-12)
    assert whole.cubic_upper == within(5 * pi / 3, 1e-12)


def test_cone_by_its_edges():
    """Computed two ways: 2 000 sides inside the base circle; the smooth cone has 3.3435632284."""
    n = 2000
    round_ = np.linspace(0, 2 * pi, n, endpoint=False)
    vertices = np.concatenate([np.column_stack([0.3 * np.cos(round_), 0.3 * np.sin(round_), np.zeros(n)]), [(0, 0, 0.4), (0, 0, 0)]])
    faces = [face for i in range(n) for j in [(i + 1) % n] for face in ((i, j, n), (j, i, n + 1))]
    size = size_of(vertices, faces)
    assert size.curvature == printed("3.34356218")
    assert size.curvature == within(original.mean_curvature_cone.si(radius=0.3, height=0.4), 1e-6)


NOTCH = [
    # t     true            signed      source
    (0.02, "0.9481921338", "0.948466", "unit square with a notch of 60° and depth .5; computed, polygon buffer"),
    (0.05, "1.0906717947", "1.092384", "the same"),
]


@pytest.mark.parametrize(("t", "true", "signed", "source"), NOTCH)
def test_notch(t, true, signed, source):
    """A prism of the outline: what its upright edges turn is the curvature less pi/2 for each length of its rim."""
    height = 1.0
    size = size_of(*prism(NOTCHED, height))
    rim = sum(np.linalg.norm(np.roll(NOTCHED[0], -1, axis=0) - NOTCHED[0], axis=1))
    section = size.volume.likely / height

    def grown(curvature):
        return section + rim * t + (curvature - pi / 2 * rim) / height * t * t

    assert grown(size.whole.curvature) == within(float(true), absolute=1e-6), source
    assert grown(size.whole.curvature_signed) == within(float(signed), absolute=1e-6), source
    ring = np.concatenate([NOTCHED[0], NOTCHED[0][:1]])
    assert section + flange_band(Outline((ring,), rim, 4.0, section, 0.0), t).likely == within(float(true), absolute=1e-6), source


SCANNED = [
    # t    signed      counted on a distance grid  source
    (0.1, "216.972", 216.99, "bunny, computed two ways: edges, and signed distance on 160 cells"),
    (0.2, "241.300", 241.29, "the same"),
]


@pytest.mark.parametrize(("t", "signed", "counted", "source"), SCANNED)
def test_scanned_figure(t, signed, counted, source):
    size = size_of(*bunny(), wall=0.3, flange_width=1.0)
    whole, volume = size.whole, size.volume.likely
    assert volume + t * (whole.area + t * (whole.curvature_signed + t * whole.cubic)) == printed(signed), source
    assert volume + t * (whole.area + t * (whole.curvature_signed + t * whole.cubic)) == within(counted, 0.0005), source
    grown = size.grown(t)[1]
    assert grown.likely == within(counted, 0.0005), source
    assert grown.low < counted < grown.high


def test_scanned_figure_terms():
    whole = size_of(*bunny(), wall=0.3, flange_width=1.0).whole
    assert whole.curvature_signed == printed("81.0183")
    assert whole.curvature_upper == printed("142.5793")
    assert whole.cubic == within(4 * pi / 3, 1e-9)


def test_torus_of_facets_approaches_the_smooth_one():
    """Exact for the smooth ring .4 / .15: M 7.8956835209, no cubic term."""
    mesh = trimesh.creation.torus(0.4, 0.15, major_sections=200, minor_sections=100)
    size = size_of(*_of(mesh), base_tolerance=0.0)
    assert size.curvature == within(7.8956835209, 1e-3)
    assert size.euler_number == 0
    assert size.whole.cubic == within(0, absolute=1e-9)
    assert size.area_whole < 4 * pi**2 * 0.4 * 0.15 < size.area.high < 4 * pi**2 * 0.4 * 0.15 * (1 + 1e-3)
    assert size.volume.high == within(2 * pi**2 * 0.4 * 0.15**2, 1e-5)
    assert size.grown(0.05)[1].likely == within(0.3158273408, 1e-3)


def test_ball_with_little_draft():
    """Exact: (1 + sin 3°)/2 of a ball has less than 3° of draft."""
    size = size_of(*_of(trimesh.creation.icosphere(subdivisions=6, radius=1.0)), base_tolerance=0.0)
    assert size.slopes.low_draft == within(0.52616798, absolute=1e-3)
    assert sum(size.slopes[:5]) == within(1, 1e-12)
    # Archimedes: area between two heights goes with the height; the bands end at 30, 80, 100 and 150° from straight up
    limits = np.cos(np.radians([0, 30, 80, 100, 150, 180]))
    assert size.slopes[:5] == pytest.approx((limits[:-1] - limits[1:]) / 2, abs=2e-3)


def test_ellipsoid_of_facets():
    """Computed, mean support: M 26.4048573880 for half axes 1, 2, 3."""
    mesh = trimesh.creation.icosphere(subdivisions=5, radius=1.0)
    mesh.apply_scale((1, 2, 3))
    size = size_of(*_of(mesh), base_tolerance=0.0)
    assert size.curvature == within(26.4048573880, 1e-3)
    true = original.ellipsoid_area.si(a=1, b=2, c=3)
    assert size.area.likely < true < size.area.high < true + (true - size.area.likely)
    assert size.volume.likely < 8 * pi == within(size.volume.high, 2e-5)
    assert size.front_shadow == within(pi * 3, 3e-3)
    assert size.side_shadow == within(pi * 6, 3e-3)
    assert sqrt(size.front_shadow) < size.extents[2]
