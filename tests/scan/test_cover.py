"""The fewest directions: against a general solver on small cases, the bound, forced and excluded ones, and the trade."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from moldcalc.errors import EntryError
from moldcalc.scan.cover import fewest, trade
from moldcalc.scan.progress import Progress, finish


def caps(many: int, places: int, seed: int, draft: float = 5.0):
    """Random directions over random places on a sphere: what each cap sees."""
    rng = np.random.default_rng(seed)
    ways, points = rng.normal(size=(many, 3)), rng.normal(size=(places, 3))
    ways, points = (part / np.linalg.norm(part, axis=1)[:, None] for part in (ways, points))
    slopes = ways @ points.T
    return slopes >= np.sin(np.radians(draft)), rng.uniform(0.5, 1.5, places), slopes


def by_solver(seen, areas, share):
    """The fewest by HiGHS through scipy, a general solver."""
    reachable = seen.any(axis=0)
    seen, weights = seen[:, reachable], areas[reachable] / areas[reachable].sum()
    many, places = seen.shape
    rows = np.concatenate([np.hstack([-seen.T.astype(float), np.eye(places)]), [np.concatenate([np.zeros(many), -weights])]])
    answer = milp(np.r_[np.ones(many), np.zeros(places)], integrality=np.r_[np.ones(many), np.zeros(places)], bounds=Bounds(0, 1),
                  constraints=LinearConstraint(rows, -np.inf, np.r_[np.zeros(places), share - 1 + 1e-9]))
    return round(answer.fun)


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10_000), share=st.sampled_from([0.0, 0.02, 0.1, 0.3]), draft=st.sampled_from([5.0, 30.0, 50.0]))
def test_the_number_is_that_of_a_general_solver(seed, share, draft):
    seen, areas, _ = caps(25, 60, seed, draft)
    found = finish(fewest(seen, areas, leftover_share=share))
    assert found.proven
    assert len(found.chosen) == found.bound == by_solver(seen, areas, share)
    reachable = seen.any(axis=0)
    assert found.covered == pytest.approx(areas[seen[list(found.chosen)].any(axis=0)].sum() / areas[reachable].sum(), abs=1e-5)
    assert found.covered >= 1 - share - 1e-5
    assert found.unreachable == pytest.approx(1 - areas[reachable].sum() / areas.sum(), abs=1e-9)


def test_forced_ones_are_there_and_excluded_ones_are_not():
    seen, areas, _ = caps(30, 200, 3)
    free = finish(fewest(seen, areas, leftover_share=0.0))
    forced = next(i for i in range(30) if i not in free.chosen)
    assert forced in finish(fewest(seen, areas, leftover_share=0.0, forced=(forced,))).chosen
    out = free.chosen[0]
    other = finish(fewest(seen, areas, leftover_share=0.0, excluded=(out,)))
    assert out not in other.chosen
    assert other.bound >= free.bound


def test_a_number_that_is_asked_for_is_used():
    seen, areas, _ = caps(30, 200, 3)
    found = finish(fewest(seen, areas, leftover_share=0.2, sections=6))
    assert len(found.chosen) == 6
    assert not found.proven
    assert found.bound < 6


def test_of_covers_of_the_same_number_that_with_the_largest_worst_draft_is_taken():
    """Six caps along the axes leave a sphere 35.26 degrees of draft, the best there is (shell-and-handling S7.12, closed form)."""
    rng = np.random.default_rng(1)
    points = rng.normal(size=(800, 3))
    points /= np.linalg.norm(points, axis=1)[:, None]
    axes = np.concatenate([np.eye(3), -np.eye(3)])
    spoilt = axes + rng.normal(scale=0.15, size=axes.shape)
    table = np.concatenate([spoilt / np.linalg.norm(spoilt, axis=1)[:, None], axes])
    slopes = (table @ points.T).astype(np.float32)
    draft = np.radians(15)
    found = finish(fewest(slopes >= np.sin(draft), np.ones(800), leftover_share=0, sections=6, slopes=slopes, least_draft=draft, directions=table))
    assert found.chosen == (6, 7, 8, 9, 10, 11)
    assert np.degrees(found.draft) == pytest.approx(35.26, abs=1.0), "looked for in steps of half a degree, on points some 4 degrees apart"


def test_the_trade_falls_and_is_proven():
    seen, areas, _ = caps(40, 300, 7, 20)
    points = finish(trade(seen, areas, range(2, 9), seconds=20))
    assert [point.sections for point in points] == list(range(2, 9))
    covered = [point.covered for point in points]
    assert all(a <= b + 1e-6 for a, b in pairwise(covered))
    for point in points:
        assert point.proven
        assert point.covered <= point.at_most + 1e-6
    weights = areas / areas[seen.any(axis=0)].sum()
    best = max((weights[seen[[i, j]].any(axis=0)].sum()) for i in range(40) for j in range(i))
    assert covered[0] == pytest.approx(best, abs=1e-5)


def test_it_can_be_stopped_and_says_what_it_does():
    seen, areas, _ = caps(60, 1500, 2, 3)
    steps = fewest(seen, areas, leftover_share=0.0)
    assert isinstance(next(steps), Progress)
    steps.close()


def test_out_of_time_the_bound_still_holds():
    seen, areas, _ = caps(80, 600, 5, 10)
    whole, hasty = (finish(fewest(seen, areas, leftover_share=0.01, seconds=seconds)) for seconds in (30, 0))
    assert whole.proven
    assert hasty.bound <= whole.bound <= len(hasty.chosen)


@pytest.mark.parametrize(("entries", "says"), [
    ({"leftover_share": 1.0}, "the share left over is 1; it must be 0 or more and below 1"),
    ({"leftover_share": 0.0, "forced": (99,)}, "a named pull is not among the directions"),
    ({"leftover_share": 0.0, "sections": 0}, "the number of sections is 0"),
])
def test_an_impossible_entry_is_named(entries, says):
    seen, areas, _ = caps(10, 50, 1)
    with pytest.raises(EntryError, match=says):
        finish(fewest(seen, areas, **entries))


def test_nothing_that_can_leave_is_said():
    with pytest.raises(EntryError, match="without a place that can leave"):
        finish(fewest(np.zeros((3, 4), bool), np.ones(4), leftover_share=0.0))
