"""Laws of the directions of removal, with linear and quadratic programs of scipy and random directions as oracles."""

from math import asin, degrees, pi, radians, sin

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog, nnls
from scipy.spatial.transform import Rotation

from moldcalc.errors import EntryError
from moldcalc.scan.cones import flange_normals, key_cone, ways_off
from moldcalc.stages import split
from tests.tables import within

SEEDS = st.integers(0, 2**32 - 1)


def patch(seed, spread=1.2):
    """A random patch: normals about some middle, some of them wide apart."""
    rng = np.random.default_rng(seed)
    middle = rng.normal(size=3)
    normals = middle / np.linalg.norm(middle) + rng.uniform(0.05, spread) * rng.normal(size=(rng.integers(1, 30), 3))
    return normals / np.linalg.norm(normals, axis=1)[:, None]


def by_linear_program(normals):
    """Largest s with n.d >= s for all n and d in the unit box: above 0 where there is a way with draft."""
    done = linprog([0, 0, 0, -1], A_ub=np.hstack([-normals, np.ones((len(normals), 1))]), b_ub=np.zeros(len(normals)),
                   bounds=[(-1, 1)] * 3 + [(0, None)], method="highs")
    return -done.fun


def by_least_squares(normals):
    """The draft by Lawson and Hanson's least distance programming on scipy's non-negative least squares."""
    table = np.vstack([normals.T, np.ones(len(normals))])
    weights, _ = nnls(table, np.array([0, 0, 0, 1.0]))
    rest = table @ weights - np.array([0, 0, 0, 1.0])
    direction = -rest[:3] / rest[3]
    return asin(min(1.0, 1 / np.linalg.norm(direction)))


@settings(max_examples=150, deadline=None)
@given(seed=SEEDS)
def test_draft_is_what_programs_find(seed):
    normals = patch(seed)
    ways, least = ways_off(normals), by_linear_program(normals)
    assert (ways.kind == "solid") == (least > 1e-7)
    if ways.kind == "solid":
        assert ways.draft == within(by_least_squares(normals), absolute=1e-7)
        assert (normals @ ways.direction).min() == within(sin(ways.draft), absolute=1e-9)
        assert (normals @ ways.rays.T).min() > -1e-9


@settings(max_examples=25, deadline=None)
@given(seed=SEEDS)
def test_solid_angle_by_counting_directions(seed):
    normals = patch(seed, 0.5)
    ways = ways_off(normals)
    tried = np.random.default_rng(seed).normal(size=(100_000, 3))
    share = (tried @ normals.T >= 0).all(axis=1).mean()
    assert ways.solid_angle / (4 * pi) == within(share, absolute=5 * (share * (1 - share) / 1e5) ** 0.5 + 1e-4)


@settings(deadline=None)
@given(seed=SEEDS, count=st.integers(1, 5))
def test_turning_the_patch_turns_the_way(seed, count):
    normals, turn = patch(seed), Rotation.random(rng=seed)
    one, other = ways_off(normals), ways_off(turn.apply(np.repeat(normals, count, axis=0)))
    assert one.kind == other.kind and one.solid_angle == within(other.solid_angle, absolute=1e-7)
    if one.kind == "solid":
        assert turn.apply(one.direction) == within(other.direction, absolute=1e-6)
        assert one.draft == within(other.draft, absolute=1e-9)


@settings(deadline=None)
@given(seed=SEEDS)
def test_one_more_normal_never_frees(seed):
    normals = patch(seed)
    fewer, more = ways_off(normals[:-1]) if len(normals) > 1 else None, ways_off(normals)
    if fewer is not None:
        assert more.dimension <= fewer.dimension and more.solid_angle <= fewer.solid_angle + 1e-9
        assert (more.draft or 0) <= (fewer.draft or 0) + 1e-12


@settings(deadline=None)
@given(seed=SEEDS)
def test_what_locks_is_named(seed):
    """The few normals that bind lock all by themselves, or allow no more draft than the whole patch."""
    normals = patch(seed, 3.0)
    ways = ways_off(normals)
    few = ways_off(normals[ways.binding])
    assert len(ways.binding) <= 6 and few.dimension == ways.dimension if ways.kind == "none" else few.draft == within(ways.draft, absolute=1e-9)


def test_noise_below_the_tolerance_changes_no_kind():
    """Half a cylinder measured with an error of 1e-9 still leaves along half a great circle."""
    turn = np.radians(np.linspace(-90, 90, 181))
    half = np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1)
    noisy = half + np.random.default_rng(3).normal(scale=1e-9, size=half.shape)
    assert ways_off(noisy).kind == ways_off(half).kind == "arc"
    assert ways_off(half + np.array([1e-5, 0, 0])).kind == "solid"


@pytest.mark.parametrize("sections", [2, 3, 4, 5, 6, 8])
@pytest.mark.parametrize("over", [-2, 3])
def test_keys_against_the_closed_form(sections, over):
    """Cones on both flanges of one of n equal sections leave the radial pull the draft that the formula gives, or lock."""
    half_angle = split.least_key_half_angle.si(sections=sections) + radians(over)
    if half_angle <= 0:
        return
    one, two = flange_normals(sections)
    ways = ways_off(np.vstack([one, two, key_cone(one, half_angle, toward=two, sides=2000), key_cone(two, half_angle, toward=one, sides=2000)]))
    if sections == 2:
        assert degrees(ways.draft) == within(degrees(half_angle), absolute=1e-3)
    elif over < 0:
        assert ways.kind == "none"
    else:
        assert degrees(ways.draft) == within(degrees(split.key_draft.si(half_angle=half_angle, sections=sections)), absolute=1e-3)


def test_the_key_that_carries_leaves_the_other_way():
    axis = np.array([0.0, 0.6, 0.8])
    assert ways_off(key_cone(axis, 0.3)).direction == within(axis, absolute=1e-9)
    assert ways_off(key_cone(-axis, 0.3)).direction == within(-axis, absolute=1e-9)
    tried = np.random.default_rng(0).normal(size=(2000, 3))
    tried /= np.linalg.norm(tried, axis=1)[:, None]
    allowed = (tried @ key_cone(axis, 0.3).T >= 0).all(axis=1)
    assert (tried[allowed] @ axis >= np.cos(0.3) - 1e-12).all() and allowed.any()  # never more than the round key allows


@pytest.mark.parametrize(("normals", "says"), [
    ([], "normals is a table of shape"),
    ([[0, 0, 0]], "normals is 0 0 0 in places"),
    ([[0, 0, float("nan")]], "normals is not all finite numbers"),
    ([[1, 2]], "normals is a table of shape"),
    ("up", "normals is not a table of numbers"),
])
def test_impossible_normals(normals, says):
    with pytest.raises(EntryError, match=says):
        ways_off(normals)


@pytest.mark.parametrize(("make", "says"), [
    (lambda: key_cone([0, 0, 1], 0.0), "half-angle of the key is 0°; it must be above 0 and below 90°"),
    (lambda: key_cone([0, 0, 0], 0.2), "axis of the key is not a direction"),
    (lambda: key_cone([0, 0, 1], 0.2, sides=2), "sides of the key is 2"),
    (lambda: flange_normals(1), "number of sections is 1; give at least 2"),
])
def test_impossible_keys(make, says):
    with pytest.raises(EntryError, match=says):
        make()


def test_wild_lengths_of_normals_do_no_harm():
    assert ways_off([[1e300, 0, 0], [0, 1e-300, 0]]).draft == within(pi / 4, absolute=1e-12)
