"""Solids that stand in for a figure, against published values and exact cases."""

from itertools import permutations
from math import asin, cos, pi, sin, sqrt

import pytest
from scipy.integrate import dblquad
from scipy.special import beta, ellipeinc, ellipkinc
from scipy.special import elliprg as library_elliprg

from moldcalc.stages import original
from moldcalc.units import Q
from tests.tables import printed, within

ELLIPSOIDS = [
    # a     b     c      area             source
    (5, 3, 2, "134.7751767", "verified: help page of a computer algebra system; recomputed three ways"),
    (11, 12, 13, "1807.88934839", "recomputed; a public programming example prints 1807.89, by an approximation"),
    (1, 2, 3, "48.8821463026", "computed three ways (Carlson, Legendre, quadrature)"),
    (0.55, 0.20, 0.30, "1.4655980941", "computed three ways"),
    (1, 1, 2, "21.4784353279", "computed; the closed form of a long spheroid agrees"),
    (1, 2, 2, "34.6875308134", "computed; the closed form of a flat spheroid agrees"),
    (1, 1, 0.001, "6.2832330651", "computed; 2 pi + 4.776e-5"),
]


@pytest.mark.parametrize(("a", "b", "c", "area", "source"), ELLIPSOIDS)
def test_ellipsoid_area(a, b, c, area, source):
    for x, y, z in permutations((a, b, c)):
        assert original.ellipsoid_area(a=Q(x, "m"), b=Q(y, "m"), c=Q(z, "m")).m_as("m^2") == printed(area), source


def test_a_sphere_needs_no_case_of_its_own():
    """Exact: 4 pi for the unit sphere, to 1e-14."""
    assert original.ellipsoid_area.si(a=1.0, b=1.0, c=1.0) == within(4 * pi, 1e-14)


def thomsen(a, b, c, p):
    return 4 * pi * (((a * b) ** p + (a * c) ** p + (b * c) ** p) / 3) ** (1 / p)


APPROXIMATIONS = [
    (11, 12, 13, 1.6, "1807.890943", "public programming example, power 1.6"),
    (1, 2, 3, 1.6075, "48.97193333", "computed; 0.1837 % above the exact area"),
]


@pytest.mark.parametrize(("a", "b", "c", "p", "area", "source"), APPROXIMATIONS)
def test_the_usual_approximation_is_near(a, b, c, p, area, source):
    assert thomsen(a, b, c, p) == printed(area), source
    assert original.ellipsoid_area.si(a=a, b=b, c=c) == within(thomsen(a, b, c, p), 0.0106), "worst case 1.061 %: K. Thomsen 2004; scan"


def test_ellipsoid_volume():
    assert original.ellipsoid_volume(a=Q(55, "cm"), b=Q(20, "cm"), c=Q(30, "cm")).m_as("m^3") == printed("0.1382300768"), "computed three ways"


@pytest.mark.parametrize("three", [(1, 1, 1), (0, 1, 1), (0, 0, 2), (0, 1e-12, 1), (1e-9, 3, 5e8), (2, 3, 4), (0.5, 0.5, 7), (0, 0, 0)])
def test_carlsons_integral_agrees_with_a_library(three):
    for x, y, z in permutations(three):
        assert original.elliprg(x, y, z) == within(float(library_elliprg(x, y, z)), 4e-15), "scipy.special.elliprg"


@pytest.mark.parametrize(("a", "b", "c"), [(5, 3, 2), (11, 9, 1), (3, 2.9, 0.1)])
def test_ellipsoid_area_by_legendre(a, b, c):
    """Textbook form with incomplete integrals of the first and second kind, a > b > c (from memory)."""
    phi = pi / 2 - asin(c / a)
    m = (a * a * (b * b - c * c)) / (b * b * (a * a - c * c))
    legendre = 2 * pi * c * c + 2 * pi * a * b / sin(phi) * (ellipeinc(phi, m) * sin(phi) ** 2 + ellipkinc(phi, m) * cos(phi) ** 2)
    assert original.ellipsoid_area.si(a=a, b=b, c=c) == within(legendre, 1e-12)


LIMITS = [
    # e1    e2     volume of the unit body   source
    (1, 1, 4 * pi / 3, "sphere, exact"),
    (1e-6, 1, 2 * pi, "cylinder, exact limit"),
    (1e-6, 1e-6, 8.0, "cube, exact limit"),
    (2, 2, 4 / 3, "octahedron, exact"),
]


@pytest.mark.parametrize(("e1", "e2", "volume", "source"), LIMITS)
def test_superellipsoid_limits(e1, e2, volume, source):
    assert original.superellipsoid_volume.si(a=1, b=1, c=1, exponent_north_south=e1, exponent_waist=e2) == within(volume, 1e-9), source


SUPERELLIPSOIDS = [
    # a    b     c     e1        e2        volume          source
    (1, 1, 1, 0.5, 1.5, "4.4428829382", "computed by direct integration"),
    (1, 1, 1, 2 / 2.5, 2 / 2.5, "5.0715948407", "power 2.5, computed with two formulas"),
    (1, 1, 1, 2 / 4, 2 / 4, "6.4819873518", "power 4, computed with two formulas"),
    (0.55, 0.20, 0.30, 2 / 4, 2 / 4, "0.21390558261", "power 4, computed"),
]


@pytest.mark.parametrize(("a", "b", "c", "e1", "e2", "volume", "source"), SUPERELLIPSOIDS)
def test_superellipsoid_volume(a, b, c, e1, e2, volume, source):
    ours = original.superellipsoid_volume.si(a=a, b=b, c=c, exponent_north_south=e1, exponent_waist=e2)
    assert ours == printed(volume), source
    assert ours == within(2 * a * b * c * e1 * e2 * beta(e1 / 2 + 1, e1) * beta(e2 / 2, e2 / 2), 1e-13), "scipy.special.beta"


SUPERELLIPSOID_AREAS = [
    # a    b     c     power  area            relative  source
    (1, 1, 1, 4, 17.587189069, 1e-8, "computed with two quadratures"),
    (0.55, 0.20, 0.30, 4, 2.00713857917, 1e-8, "computed with two quadratures"),
    (1, 1, 1, 1, 8 * sqrt(3) / 2, 1e-12, "octahedron, exact"),
    (1, 1, 1, 2, 4 * pi, 1e-12, "sphere, exact"),
    (1, 2, 3, 2, 48.8821463026, 1e-11, "ellipsoid, computed three ways"),
]


@pytest.mark.parametrize(("a", "b", "c", "power", "area", "relative", "source"), SUPERELLIPSOID_AREAS)
def test_superellipsoid_area(a, b, c, power, area, relative, source):
    assert original.superellipsoid_area.si(a=a, b=b, c=c, power=power) == within(area, relative), source


@pytest.mark.parametrize("power", [1.2, 2.5, 8, 20])
@pytest.mark.parametrize("axes", [(1, 1, 1), (1, 0.3, 0.1)])
def test_superellipsoid_area_by_a_library_quadrature(power, axes):
    """The docstring's 1e-9, against scipy's adaptive quadrature of the same projection, and of another one."""
    a, b, c = axes

    def density(v, u, p, q, r):
        s = (1 + u**power + v**power) ** (-1 / power)
        return a * b * c * s ** (power + 2) * sqrt(p**-2 + (u ** (power - 1) / q) ** 2 + (v ** (power - 1) / r) ** 2)

    faces = ((a, b, c), (b, c, a), (c, a, b))
    total = sum(8 * dblquad(density, 0, 1, 0, 1, args=face, epsabs=1e-12, epsrel=1e-11)[0] for face in faces)
    assert original.superellipsoid_area.si(a=a, b=b, c=c, power=power) == within(total, 1e-9)


TURNED = [
    # what                              entries in m                                         answer           source
    ("cylinder_volume", {"radius": 0.25, "height": 0.9}, "0.1767145868", "exact"),
    ("cylinder_lateral_area", {"radius": 0.25, "height": 0.9}, "1.4137166941", "exact"),
    ("cylinder_area", {"radius": 0.25, "height": 0.9}, "1.8064157758", "exact"),
    ("frustum_volume", {"radius_low": 2, "radius_high": 1, "height": 3}, "21.991148575", "exact, 7 pi"),
    ("frustum_lateral_area", {"radius_low": 2, "radius_high": 1, "height": 3}, "29.803764797", "exact, 3 pi sqrt 10"),
    ("torus_volume", {"ring_radius": 0.4, "tube_radius": 0.15}, "0.1776528792", "exact"),
    ("torus_area", {"ring_radius": 0.4, "tube_radius": 0.15}, "2.3687050563", "exact"),
    ("cap_volume", {"sphere_radius": 0.5, "height": 0.12}, "0.0208099097", "exact"),
    ("cap_area", {"sphere_radius": 0.5, "height": 0.12}, "0.3769911184", "exact"),
]


@pytest.mark.parametrize(("what", "entries", "answer", "source"), TURNED)
def test_turned_solids(what, entries, answer, source):
    found = getattr(original, what)(**{name: Q(value, "m") for name, value in entries.items()})
    assert found.magnitude == printed(answer), source


def test_cone():
    """Exact: radius 3, height 4 has 12 pi, 15 pi on the side, 24 pi in all."""
    cone = {"radius_low": 3.0, "radius_high": 0.0, "height": 4.0}
    lateral = original.frustum_lateral_area.si(**cone)
    assert original.frustum_volume.si(**cone) == within(12 * pi, 1e-12)
    assert lateral == within(15 * pi, 1e-12)
    assert lateral + original.end_disc_area.si(girth=6 * pi) == within(24 * pi, 1e-12)


@pytest.mark.parametrize("foot", [0.0, 0.1, 0.35, 0.7])
def test_archimedes_zone(foot):
    """Archimedes: a zone of a sphere has the same area at whatever height it is cut."""
    radius, high = 0.5, 0.3
    zone = original.cap_area.si(sphere_radius=radius, height=foot + high) - (original.cap_area.si(sphere_radius=radius, height=foot) if foot else 0)
    assert zone == within(2 * pi * radius * high, 1e-12)


def test_archimedes_sphere_and_cylinder():
    """Archimedes: a sphere has two thirds of the cylinder around it, in volume and in area."""
    radius = 0.37
    sphere = {"a": radius, "b": radius, "c": radius}
    assert original.ellipsoid_volume.si(**sphere) / original.cylinder_volume.si(radius=radius, height=2 * radius) == within(2 / 3, 1e-12)
    assert original.ellipsoid_area.si(**sphere) / original.cylinder_area.si(radius=radius, height=2 * radius) == within(2 / 3, 1e-12)


def test_two_spheres_that_overlap():
    """Exact: unit spheres whose centres are 1 apart lose two caps of half a radius."""
    cap = {"sphere_radius": 1.0, "height": 0.5}
    volume = 2 * original.ellipsoid_volume.si(a=1, b=1, c=1) - 2 * original.cap_volume.si(**cap)
    area = 2 * original.ellipsoid_area.si(a=1, b=1, c=1) - 2 * original.cap_area.si(**cap)
    assert volume == printed("7.0685834706"), "9 pi / 4"
    assert area == printed("18.8495559215"), "6 pi"
