"""Waits, windows, rounds and hours without a solver: laws, and a general library as oracle."""

import math
from itertools import pairwise
from random import Random

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages.cure import recoat_window
from moldcalc.stages.schedule import (
    Arc,
    CoatOfChain,
    chance_by,
    critical_path,
    earliest_starts,
    largest_matching,
    latest_start,
    latest_today,
    pert_mean,
    recoat_with_nights,
    rounds_of,
    startable,
    week_openings,
)
from moldcalc.stages.schedule.rounds import _coloured, _neighbours
from moldcalc.units import Q

HOUR, DAY = 3600.0, 86400.0
NIGHT = {"end_of_coat": Q(16.75, "h"), "night_from": Q(17, "h"), "night_to": Q(8.5, "h"), "reference": Q(23, "degC"),
         "activation_energy": Q(45, "kJ/mol")}


# windows --------------------------------------------------------------------------------------------------------------
def test_without_a_night_of_its_own_the_window_is_that_of_the_day():
    both = {"earliest": Q(2, "h"), "latest": Q(24, "h")}
    night = recoat_with_nights(**both, day_temperature=Q(19, "degC"), night_temperature=Q(19, "degC"), **NIGHT)
    day = recoat_window(**both, factor=0.77858)
    assert night.earliest.m_as("h") == pytest.approx(day.earliest.m_as("h"), rel=1e-4)
    assert night.latest.m_as("h") == pytest.approx(day.latest.m_as("h"), rel=1e-4)


@given(st.floats(283, 293), st.floats(0.5, 10))
def test_a_colder_night_moves_both_ends_later(kelvin, cooler):
    warm, cold = (recoat_with_nights.si(earliest=2 * HOUR, latest=24 * HOUR, end_of_coat=16.75 * HOUR, day_temperature=293.15, night_temperature=t,
                                        night_from=17 * HOUR, night_to=8.5 * HOUR, reference=296.15, activation_energy=45e3)
                  for t in (kelvin, kelvin - cooler))
    assert cold.earliest >= warm.earliest and cold.latest > warm.latest


@pytest.mark.parametrize(("change", "says"), [
    ({"latest": Q(1, "h")}, "latest recoat is 60 min; it must come after the earliest, 2 h"),
    ({"latest": Q(math.nan, "h")}, "latest is nan"),
    ({"night_to": Q(17, "h")}, "night to is the same clock time as night from"),
])
def test_a_window_that_can_not_be(change, says):
    entries = {"earliest": Q(2, "h"), "latest": Q(24, "h"), "day_temperature": Q(19, "degC"), "night_temperature": Q(14, "degC")} | NIGHT | change
    with pytest.raises(EntryError, match=says):
        recoat_with_nights(**entries)


def test_latest_start_is_the_smaller_limit():
    assert latest_start(closing="17 h", duration="30 min", window_ends="15 h").m_as("h") == 15
    assert latest_start(closing="17 h", duration="30 min", window_ends="30 h").m_as("h") == 16.5


# a chain of coats -----------------------------------------------------------------------------------------------------
def by_trying(chain, openings, grid):
    """Starts of each coat from which the rest can follow, by going through every plan."""
    steps = range(int(openings[-1][1] // grid) + 1)
    fits = [[s for s in steps if any(a <= s * grid and s * grid + coat.duration <= b for a, b in openings)] for coat in chain]

    def follows(i, s):
        if i + 1 == len(chain):
            return True
        low, high = chain[i].window(s * grid + chain[i].duration)
        return any(low <= then * grid <= high and follows(i + 1, then) for then in fits[i + 1])
    return [[s for s in fits[i] if follows(i, s)] for i in range(len(chain))]


@pytest.mark.parametrize("seed", range(40))
def test_a_chain_against_every_plan(seed):
    r = Random(seed)
    low = r.randint(0, 4)
    high = low + r.randint(0, 16)
    chain = [CoatOfChain(str(i), r.randint(1, 3) * HOUR, lambda end: (end + low * HOUR, end + high * HOUR)) for i in range(r.randint(1, 4))]
    openings = [(d * DAY + 8 * HOUR, d * DAY + r.randint(11, 17) * HOUR) for d in range(3)]
    assert startable(coats=chain, openings=openings, grid=HOUR) == by_trying(chain, openings, HOUR)


def test_the_latest_hour_of_each_coat_today():
    window = lambda end: (end + 2 * HOUR, end + 15 * HOUR)  # noqa: E731
    chain = [CoatOfChain(str(i), HOUR, window) for i in range(4)]
    openings = [(d * DAY + 8 * HOUR, d * DAY + 17 * HOUR) for d in range(4)]
    today = latest_today(coats=chain, openings=openings, grid=HOUR, day=(0.0, DAY), started=8 * HOUR)
    assert [t and t / HOUR for t in today] == [8, 16, 16, None]


@pytest.mark.parametrize(("change", "says"), [
    ({"grid": 0.0}, "grid is 0.0; it must be above 0"),
    ({"grid": 1e-3}, "that makes more than 200000 starts"),
    ({"openings": [(1.0, math.nan)]}, "one opening is not from an earlier to a later time"),
    ({"coats": [CoatOfChain("print", math.nan, None)]}, "time for print is nan s"),
])
def test_a_chain_that_can_not_be(change, says):
    with pytest.raises(EntryError, match=says):
        startable(**{"coats": [CoatOfChain("print", HOUR, None)], "openings": [(0.0, DAY)], "grid": HOUR} | change)


# waits ----------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("seed", range(60))
def test_critical_path_against_networkx(seed):
    r = Random(seed)
    durations = {str(i): r.choice([0.0, 1.0, 2.5, 7.0]) for i in range(r.randint(1, 12))}
    after = {str(j): [str(i) for i in range(j) if r.random() < 0.3] for j in range(len(durations))}
    rows = critical_path(durations, after)
    graph = nx.DiGraph([(b, t, {"weight": durations[b]}) for t, befores in after.items() for b in befores])
    graph.add_edges_from((t, "end", {"weight": d}) for t, d in durations.items())
    length = nx.dag_longest_path_length(graph)
    assert max(row.earliest_end for row in rows) == pytest.approx(length)
    for row in rows:
        slower = critical_path(durations | {row.task: durations[row.task] + row.slack + 1}, after)
        assert max(other.earliest_end for other in slower) == pytest.approx(length + 1)


@pytest.mark.parametrize("seed", range(60))
def test_earliest_starts_against_networkx(seed):
    r = Random(seed)
    tasks = [str(i) for i in range(r.randint(2, 8))]
    arcs = [Arc(*r.sample(tasks, 2), r.randint(-6, 5)) for _ in range(r.randint(1, 14))]
    graph = nx.DiGraph()
    graph.add_edges_from(("start", task, {"weight": 0}) for task in tasks)
    for arc in arcs:
        weight = min(-arc.lag, graph.get_edge_data(arc.before, arc.after, {"weight": math.inf})["weight"])
        graph.add_edge(arc.before, arc.after, weight=weight)
    if nx.negative_edge_cycle(graph):
        with pytest.raises(EntryError, match="one of these windows must give way"):
            earliest_starts(tasks, arcs)
    else:
        expected = nx.single_source_bellman_ford_path_length(graph, "start")
        assert earliest_starts(tasks, arcs) == {task: -expected[task] for task in tasks}


def test_the_ring_that_can_not_be_kept_is_named():
    arcs = [Arc("a", "b", 1), Arc("b", "c", 4), Arc("c", "d", 5), Arc("d", "b", -8)]
    with pytest.raises(EntryError) as refused:
        earliest_starts("abcd", arcs)
    named = refused.value.faults[0].entry.removeprefix("the waits between ")
    assert set(named.split(", ")) == {"b", "c", "d"}


@pytest.mark.parametrize(("call", "says"), [
    (lambda: critical_path({"a": 1}, {"a": ["b"]}), "task is “b”; there is none of that name"),
    (lambda: critical_path({"a": 1, "b": 1}, {"a": ["b"], "b": ["a"]}), "the order of a, b is a ring, each waiting for another"),
    (lambda: critical_path({"a": math.nan}, {}), "a is nan; it must be a time of at least 0"),
    (lambda: earliest_starts("ab", [Arc("a", "b", math.inf)]), "a to b is inf"),
    (lambda: pert_mean(optimistic="3 h", likely="2 h", pessimistic="4 h"), "likely is 2 h; it must lie between 3 h and 4 h"),
])
def test_waits_that_can_not_be(call, says):
    with pytest.raises(EntryError, match=says):
        call()


def test_a_sure_time_is_met_or_not():
    assert chance_by(deadline="2 h", mean="2 h", spread="0 h") == 1 and chance_by(deadline="1 h", mean="2 h", spread="0 h") == 0


# rounds ---------------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("seed", range(60))
def test_largest_matching_and_rounds_against_networkx(seed):
    r = Random(seed)
    graph = nx.gnp_random_graph(r.randint(1, 14), r.choice([0.15, 0.3, 0.5, 0.8]), seed=seed)
    pairs = largest_matching(count=len(graph), pairs=list(graph.edges))
    assert len(pairs) == len(nx.max_weight_matching(graph, maxcardinality=True))
    used = [x for pair in pairs for x in pair]
    assert len(used) == len(set(used)) and all(graph.has_edge(*pair) for pair in pairs)
    two = rounds_of(count=len(graph), touches=list(graph.edges), builders=2)
    searched, least = _coloured(_neighbours(len(graph), list(graph.edges)), 2)
    assert least and len(two.rounds) == max(searched) + 1, "matching and search agree"
    free = rounds_of(count=len(graph), touches=list(graph.edges))
    assert free.least and len(free.rounds) <= 1 + max(nx.greedy_color(graph, "DSATUR").values())
    assert len(free.rounds) >= max(map(len, nx.find_cliques(graph)))


@pytest.mark.parametrize("count", [40, 120])
def test_many_sections_end(count):
    graph = nx.gnp_random_graph(count, 0.4, seed=1)
    found = rounds_of(count=count, touches=list(graph.edges), builders=3)
    assert sorted(x for group in found.rounds for x in group) == list(range(count))
    assert not any(graph.has_edge(a, b) for group in found.rounds for a in group for b in group) and max(map(len, found.rounds)) <= 3


@pytest.mark.parametrize(("entries", "says"), [
    ({"count": 3, "touches": [(0, 3)]}, "touching sections is 0 and 3"),
    ({"count": 3, "touches": [(1, 1)]}, "touching sections is 1 and 1"),
    ({"count": 201, "touches": []}, "sections is 201; it must be from 0 to 200"),
    ({"count": 3, "touches": [], "builders": 0}, "builders is 0"),
])
def test_sections_that_can_not_be(entries, says):
    with pytest.raises(EntryError, match=says):
        rounds_of(**entries)


# hours ----------------------------------------------------------------------------------------------------------------
def test_openings_are_in_order_and_skip_closed_days():
    week = {weekday: [(13 * HOUR, 17 * HOUR), (9 * HOUR, 12 * HOUR)] for weekday in range(5)}
    spans = week_openings(days=14, first_weekday=0, week=week, closed=[1])
    assert len(spans) == 18 and all(a[1] <= b[0] for a, b in pairwise(spans))
    assert not any(DAY <= a < 2 * DAY or 5 * DAY <= a < 7 * DAY for a, _ in spans)


@pytest.mark.parametrize(("change", "says"), [
    ({"week": {}}, "the place is never open"), ({"closed": [0, 1]}, "the place is never open"),
    ({"week": {7: [(0, 1)]}}, "weekday is 7"), ({"days": 0}, "days is 0"),
    ({"week": {0: [(17 * HOUR, 9 * HOUR)]}}, "one opening is from 17 h to 9 h"), ({"week": {0: [(0, math.nan)]}}, "to nan"),
])
def test_hours_that_can_not_be(change, says):
    with pytest.raises(EntryError, match=says):
        week_openings(**{"days": 2, "first_weekday": 0, "week": {0: [(9 * HOUR, 17 * HOUR)]}} | change)
