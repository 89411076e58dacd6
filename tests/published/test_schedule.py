"""The calendar against published instances, textbook values, and enumeration; general libraries as oracles."""

from datetime import UTC, date, datetime
from math import sqrt

import networkx as nx
import pytest
from scipy.stats import norm

from moldcalc.errors import EntryError
from moldcalc.scan.progress import finish
from moldcalc.schedule.answer import Calendar, Impossible
from moldcalc.schedule.dates import place
from moldcalc.schedule.solve import all_starts, solve
from moldcalc.schedule.tasks import DAY, Cure, Gap, Problem, Room, Task
from moldcalc.stages.cure import arrhenius_factor
from moldcalc.stages.schedule import (
    Arc,
    CoatOfChain,
    chance_by,
    critical_path,
    earliest_starts,
    latest_starts,
    pert_mean,
    pert_spread,
    rounds_of,
)
from tests.tables import printed, within

HOUR, MINUTE = 3600.0, 60.0


# coats within opening hours -------------------------------------------------------------------------------------------
def coats(count, low, high, days=4):
    """Coats of 1 h, doors 08-17 every day, whole hours, the first coat on day 1; gap from end to next start, both ends allowed."""
    tasks = tuple(Task(f"coat {i}", HOUR, kind="coat", not_after=24 * HOUR if i == 1 else None) for i in range(1, count + 1))
    gaps = tuple(Gap(f"coat {i}", f"coat {i + 1}", low * HOUR, high * HOUR) for i in range(1, count))
    opening = tuple((d * DAY + 8 * HOUR, d * DAY + 17 * HOUR) for d in range(days))
    return Problem(tasks, gaps, opening=opening, days=tuple(d * DAY for d in range(days)), grid=HOUR, horizon=days * DAY)


COATS = [
    # coats low high  end   plans  source
    (3, 2, 6, 15, 10, "K6.1: enumerated (8, 11, 14)"),
    (4, 2, 6, None, 0, "K6.2: needs 10 h in a 9 h day; the night gap is 15 h"),
    (4, 2, 14, None, 0, "K6.3: the night gap is exactly 15 h"),
    (4, 2, 15, 33, 49, "K6.3: enumerated"),
    (5, 2, 18, 36, 1437, "K6.5: enumerated"),
    (5, 2, 15, 36, 87, "K6.5: enumerated"),
    (3, 3, 5, 17, 1, "K6.7: exactly one plan, 8, 12, 16"),
]


@pytest.mark.parametrize(("count", "low", "high", "end", "plans", "source"), COATS)
def test_coats_within_opening_hours(count, low, high, end, plans, source):
    problem = coats(count, low, high)
    found = finish(solve(problem))
    assert len(all_starts(problem)) == plans, source
    if end is None:
        assert isinstance(found, Impossible), source
    else:
        assert isinstance(found, Calendar) and found.proven and found.end == end * HOUR, source


@pytest.mark.parametrize(("count", "low", "high", "starts", "source"), [
    (3, 2, 6, (8, 11, 14), "K6.1: the plan in brackets"),
    (4, 2, 15, (8, 11, 16, 32), "K6.4: the third coat must wait; as early as possible, 8, 11, 14, fails"),
    (3, 3, 5, (8, 12, 16), "K6.7: the only one"),
])
def test_the_third_coat_must_wait(count, low, high, starts, source):
    problem = coats(count, low, high)
    plans = all_starts(problem)
    end = min(plan[-1] for plan in plans)
    assert next(plan for plan in plans if plan[-1] == end) == starts, source
    found = finish(solve(problem))
    assert tuple(one.start / HOUR for one in found.booked) == starts, source


def test_six_plans_end_with_16_and_32():
    """K6.4: enumerated."""
    shortest = [plan for plan in all_starts(coats(4, 2, 15)) if plan[-1] == 32]
    assert len(shortest) == 6 and all(plan[2:] == (16, 32) for plan in shortest)


def test_a_greedy_start_strands_the_fourth_coat():
    """K6.4: with the third coat at 14 nothing is left for the fourth: 15 h after its end is 06:00."""
    problem = coats(4, 2, 15)
    late = Problem(**{**vars(problem), "tasks": (*problem.tasks[:2], Task("coat 3", HOUR, kind="coat", not_after=14 * HOUR, not_before=14 * HOUR),
                                                 problem.tasks[3])})
    assert isinstance(finish(solve(late)), Impossible)


@pytest.mark.parametrize(("count", "low", "high", "end", "plans", "source"), COATS)
def test_the_chain_without_a_solver(count, low, high, end, plans, source):
    window = lambda ended: (ended + low * HOUR, ended + high * HOUR)  # noqa: E731
    chain = [CoatOfChain(str(i), HOUR, window) for i in range(count)]
    openings = [(d * DAY + 8 * HOUR, d * DAY + 17 * HOUR) for d in range(4)]
    starts = latest_starts(coats=chain, openings=openings, grid=HOUR)
    of_day_1 = [s for s in starts[0] if s < 24]
    assert bool(of_day_1) == (end is not None), source
    if end is not None:
        problem = coats(count, low, high)
        assert of_day_1 == sorted({plan[0] for plan in all_starts(problem)}), source


@pytest.mark.parametrize(("latest", "people", "plans", "source"), [
    (2, 1, 0, "K6.11: by hand"),
    (2, 2, 9, "K6.11: by hand"),
    (3, 1, 2, "K6.11: by hand"),
])
def test_two_coats_of_three_hours(latest, people, plans, source):
    from moldcalc.schedule.tasks import Person

    tasks = tuple(Task(name, 3 * HOUR, not_after=latest * HOUR) for name in ("first", "second"))
    crew = tuple(Person(str(n)) for n in range(people))
    problem = Problem(tasks, people=crew, opening=((0.0, DAY),), grid=HOUR, horizon=DAY)
    assert len(all_starts(problem)) == plans, source


# waits alone ----------------------------------------------------------------------------------------------------------
CHAIN = [Arc("0", "1", 3), Arc("1", "2", 4), Arc("0", "2", 2), Arc("2", "3", 5), Arc("2", "0", -8)]


@pytest.mark.parametrize(("tasks", "arcs", "starts", "source"), [
    ("AB", [Arc("A", "B", 5), Arc("B", "A", -4)], None, "K6.8: by hand"),
    ("AB", [Arc("A", "B", 5), Arc("B", "A", -5)], [0, 5], "K6.8: by hand"),
    ("0123", [*CHAIN, Arc("3", "1", -10)], [0, 3, 7, 12], "K6.8: by hand"),
    ("0123", [*CHAIN, Arc("3", "1", -8)], None, "K6.8: by hand, 4 + 5 - 8 = +1"),
])
def test_earliest_starts_by_waits_alone(tasks, arcs, starts, source):
    if starts is None:
        with pytest.raises(EntryError, match="longer going round than the latest allows"):
            earliest_starts(tasks, arcs)
    else:
        assert list(earliest_starts(tasks, arcs).values()) == starts, source


# published instances --------------------------------------------------------------------------------------------------
def instance(durations, demands, capacity, arcs, horizon):
    """Start-to-start lags; a negative one is a latest."""
    tools = tuple((f"r{k}", c) for k, c in enumerate(capacity))
    tasks = tuple(Task(str(i), d, 0, tools=tuple((f"r{k}", n) for k, n in enumerate(demands.get(i, ())) if n)) for i, d in enumerate(durations))
    gaps = tuple(Gap(str(i), str(j), w, None, from_start=True) if w >= 0 else Gap(str(j), str(i), None, -w, from_start=True) for i, j, w in arcs)
    return Problem(tasks, gaps, tools=tools, grid=1.0, horizon=horizon)


PSP1 = instance(
    (0, 3, 10, 3, 3, 3, 5, 10, 2, 6, 1, 0),
    {1: (4, 1, 0, 0, 0), 2: (1, 0, 3, 0, 0), 3: (4, 0, 2, 2, 3), 4: (0, 0, 0, 3, 0), 5: (0, 1, 2, 4, 0), 6: (2, 3, 4, 0, 0), 7: (0, 4, 4, 0, 4),
     8: (2, 0, 0, 4, 4), 9: (5, 0, 0, 1, 1), 10: (0, 1, 0, 0, 0)}, (5, 5, 5, 5, 5),
    [(0, 4, 0), (0, 2, 0), (0, 1, 0), (0, 3, 0), (1, 9, 9), (1, 7, 1), (1, 8, 8), (1, 10, 2), (2, 8, 24), (3, 10, 4), (3, 7, 8), (4, 10, 0),
     (4, 9, 0), (4, 5, 7), (5, 6, 0), (6, 11, 5), (7, 11, 10), (8, 1, -22), (8, 2, -34), (8, 11, 2), (9, 11, 6), (10, 11, 1)], 70.0)
PSP2 = instance(
    (0, 4, 9, 10, 1, 9, 10, 2, 9, 8, 9, 0),
    {1: (3, 4, 5, 4, 0), 2: (0, 3, 0, 2, 5), 3: (0, 3, 4, 1, 0), 4: (0, 5, 0, 0, 0), 5: (0, 0, 1, 0, 4), 6: (4, 3, 4, 3, 4), 7: (2, 0, 0, 4, 0),
     8: (0, 0, 0, 0, 5), 9: (1, 0, 0, 0, 2), 10: (3, 3, 0, 0, 0)}, (4, 5, 5, 5, 5),
    [(0, 3, 0), (0, 2, 0), (0, 4, 0), (0, 1, 0), (0, 5, 0), (1, 7, 0), (2, 10, 6), (3, 8, -3), (4, 6, 3), (5, 8, 11), (6, 10, 2), (7, 1, -1),
     (7, 10, 0), (8, 9, 5), (9, 11, 8), (9, 5, -17), (10, 2, -10), (10, 11, 9)], 200.0)

FT06 = ("2 1 0 3 1 6 3 7 5 3 4 6", "1 8 2 5 4 10 5 10 0 10 3 4", "2 5 3 4 5 8 0 9 1 1 4 7", "1 5 0 5 2 5 3 3 4 8 5 9", "2 9 1 3 4 5 5 4 0 3 3 1",
        "1 3 3 3 5 9 0 10 4 4 2 1")


def job_shop(rows):
    tasks, gaps = [], []
    for j, row in enumerate(rows):
        pairs = list(zip(*[iter(map(int, row.split()))] * 2, strict=True))
        for n, (machine, duration) in enumerate(pairs):
            tasks.append(Task(f"{j}.{n}", duration, 0, tools=((f"m{machine}", 1),)))
            if n:
                gaps.append(Gap(f"{j}.{n - 1}", f"{j}.{n}"))
    return Problem(tuple(tasks), tuple(gaps), tools=tuple((f"m{m}", 1) for m in range(6)), grid=1.0, horizon=200.0)


@pytest.mark.parametrize(("problem", "end", "source"), [
    (PSP1, 26, "K6.16: J10 of the set with minimal and maximal lags (ProGen/max, 1998), recomputed twice"),
    (PSP2, None, "K6.16: the same set; infeasible, only through resources"),
    (job_shop(FT06), 55, "K6.16: Fisher and Thompson 1963, verified in two public lists"),
])
def test_published_instances(problem, end, source):
    found = finish(solve(problem))
    if end is None:
        assert isinstance(found, Impossible), source
    else:
        assert isinstance(found, Calendar) and found.proven and found.end == found.bound == end, source


# critical path --------------------------------------------------------------------------------------------------------
SMALL = "A5,6,7 B1,3,5 C1,4,7 D1,2,3:A E1,2,9:B F1,5,9:C G2,2,8:C H4,4,10:EF I2,5,8:D J2,2,8:HG"
LARGE = ("A5,5,7 B1,2,5 C5,5,5:A D4,8,13:A E1,10,17:BC F1,5,7:D G2,6,9:D H4,4,6:EF I2,7,10:GH J2,4,7:I K6,10,13:I L2,6,6:J M2,2,3:K N7,7,12:LM")


def network(text):
    means, spreads, after = {}, {}, {}
    for word in text.split():
        guesses, _, befores = word[1:].partition(":")
        o, m, p = map(float, guesses.split(","))
        means[word[0]] = pert_mean.si(optimistic=o, likely=m, pessimistic=p)
        spreads[word[0]] = pert_spread.si(optimistic=o, pessimistic=p)
        after[word[0]] = list(befores)
    return means, spreads, after


@pytest.mark.parametrize(("text", "path", "length", "source"), [
    (SMALL, "CFHJ", "17", "K6.14: public lecture notes, recomputed"),
    (LARGE, "ACEHIKMN", "50.8333", "K6.15: public solution, the same table; recomputed"),
])
def test_critical_path(text, path, length, source):
    means, _, after = network(text)
    rows = critical_path(means, after)
    assert "".join(row.task for row in rows if row.slack == 0) == path, source
    assert max(row.earliest_end for row in rows) == printed(length), source
    graph = nx.DiGraph([(before, task, {"weight": means[before]}) for task, befores in after.items() for before in befores])
    graph.add_edges_from((task, "end", {"weight": means[task]}) for task in means)
    assert nx.dag_longest_path_length(graph) == within(max(row.earliest_end for row in rows), 1e-12), "networkx, longest path"
    assert nx.dag_longest_path(graph)[:-1] == list(path), "networkx, longest path"


@pytest.mark.parametrize(("task", "variance", "source"), [
    (task, v, "K6.14, to 0.005 weeks²") for task, v in zip("ABCDEFGHIJ", (.11, .44, 1, .11, 1.78, 1.78, 1, 1, 1, 1), strict=True)])
def test_variances(task, variance, source):
    _, spreads, _ = network(SMALL)
    assert spreads[task] ** 2 == within(variance, absolute=0.005), source


def test_slack_and_the_chance_of_a_deadline():
    """K6.15: slack D 1.83, B 8.00; variance 11.19444; P(<= 55) 0.893496, computed, 1e-4; scipy.stats as oracle."""
    means, spreads, after = network(LARGE)
    rows = {row.task: row for row in critical_path(means, after)}
    assert rows["D"].slack == printed("1.83") and rows["B"].slack == printed("8.00")
    path = [task for task, row in rows.items() if row.slack == 0]
    variance, mean = sum(spreads[task] ** 2 for task in path), sum(means[task] for task in path)
    assert variance == within(11.19444, 1e-4)
    chance = chance_by.si(deadline=55, mean=mean, spread=sqrt(variance))
    assert chance == within(0.893496, 1e-4)
    assert chance == within(norm.cdf(55, mean, sqrt(variance)), 1e-12)


# sections that touch --------------------------------------------------------------------------------------------------
def _cycle(n):
    return nx.cycle_graph(n)


@pytest.mark.parametrize(("graph", "free", "pairs", "source"), [
    (_cycle(4), 2, 2, "K6.12, C4: textbook value, recomputed by a solver and by matching"),
    (_cycle(5), 3, 3, "C5, the same"),
    (_cycle(6), 2, 3, "C6"),
    (nx.complete_graph(4), 4, 4, "K4"),
    (nx.wheel_graph(6), 4, 4, "hub and ring of 5"),
    (nx.wheel_graph(7), 3, 4, "hub and ring of 6"),
    (nx.octahedral_graph(), 3, 3, "six faces of a box"),
    (nx.petersen_graph(), 3, 5, "Petersen graph"),
    (nx.circular_ladder_graph(3), 3, None, "triangular prism: 3 (largest first gives 4)"),
    (nx.Graph([(i, 4 + j) for i in range(4) for j in range(4) if i != j]), 2, None, "bipartite crown of 8: 2 (pair by pair gives 4)"),
])
def test_rounds_of_sections(graph, free, pairs, source):
    touches = list(graph.edges)
    count = len(graph)
    for builders, expected in ((None, free), (2, pairs)):
        found = rounds_of(count=count, touches=touches, builders=builders)
        assert expected is None or len(found.rounds) == expected, source
        assert found.least and sorted(x for group in found.rounds for x in group) == list(range(count))
        assert not any(graph.has_edge(a, b) for group in found.rounds for a in group for b in group)
    least = count - len(nx.max_weight_matching(nx.complement(graph), maxcardinality=True))
    assert len(rounds_of(count=count, touches=touches, builders=2).rounds) == least, "networkx, matching of the complement"


# clocks that change ---------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(("zone", "start", "ready", "source"), [
    ("Europe/Berlin", datetime(2026, 3, 28, 20), "2026-03-29 21:00", "K6.9: zone database; same-zone addition wrongly gives 20:00"),
    ("America/New_York", datetime(2026, 10, 31, 20), "2026-11-01 19:00", "K6.9: the same"),
])
def test_a_day_of_cure_over_a_change_of_clocks(zone, start, ready, source):
    here = place(zone, start.date())
    since = here.seconds(start)
    assert f"{here.moment(since + 24 * HOUR):%Y-%m-%d %H:%M}" == ready, source
    assert here.utc(since).tzinfo is UTC


# the invented scenario ------------------------------------------------------------------------------------------------
RUBBER = Cure(296.15, 45e3)


def third_day(celsius, nights=18.0):
    """Print, tie and build 1 of an invented job: 1.856 m² at 0.020, 0.040, 0.035 m²/min, 5 min a batch (3, 2, 2), two people; lunch until 13:00."""
    times = [(1.856 / rate + 5 * batches) / 2 for rate, batches in ((0.020, 3), (0.040, 2), (0.035, 2))]
    print_, tie, build = (Task(name, t * MINUTE, 1, kind="coat", not_before=after * HOUR)
                          for name, t, after in zip(("print", "tie", "build 1"), times, (9, 13, 13), strict=True))
    gaps = tuple(Gap(a.name, b.name, 2 * HOUR, 24 * HOUR, RUBBER) for a, b in ((print_, tie), (tie, build)))
    room = Room((0.0, 17 * HOUR, DAY + 8.5 * HOUR), (celsius + 273.15, nights + 273.15, celsius + 273.15))
    opening = ((9 * HOUR, 17 * HOUR), (DAY + 8.5 * HOUR, DAY + 17 * HOUR))
    return Problem((print_, tie, build), gaps, opening=opening, room=room, days=(0.0, DAY), grid=MINUTE, horizon=2 * DAY)


@pytest.mark.parametrize(("celsius", "day", "source"), [
    (19, 1, "build 1 just fits before closing at 17:00: invented scenario, computed"),
    (17, 1, "in a 17 °C room (recoat 2.9 h) still: the same"),
    (16, 2, "a 16 °C room (recoat 3.1 h) pushes it to the next morning: the same"),
])
def test_a_cold_room_costs_half_a_day(celsius, day, source):
    found = finish(solve(third_day(celsius, min(18.0, celsius))))
    assert found.proven and int(found.of("build 1").start // DAY) + 1 == day, source


def by_hand(celsius):
    """(wait after tie, when build 1 would be on) in minutes of the clock, tie from 13:00, not rounded to any grid."""
    wait = 120 / arrhenius_factor.si(temperature=celsius + 273.15, reference=296.15, activation_energy=45e3)
    tie, build = ((1.856 / rate + 10) / 2 for rate in (0.040, 0.035))
    return wait, 13 * 60 + tie + wait + build


def test_when_build_1_would_be_on():
    """17 °C: recoat 2.9 h, on at 16:55; 16 °C: 3.1 h, past 17:05: invented scenario, computed; half a unit of the last place."""
    assert by_hand(17)[0] / 60 == printed("2.9") and by_hand(16)[0] / 60 == printed("3.1")
    assert by_hand(17)[1] == within(16 * 60 + 55, absolute=0.5)
    assert by_hand(16)[1] > 17 * 60 + 5


def test_earliest_next_coats_of_the_scenario():
    """12:29 after print from 09:00, 16:03 after tie from 13:00, to the minute, rounded up: invented scenario, computed."""
    found = finish(solve(third_day(19)))
    wait = 2 * HOUR / arrhenius_factor.si(temperature=292.15, reference=296.15, activation_energy=45e3)
    assert wait / MINUTE == printed("154.1")
    assert found.of("print").start == 9 * HOUR and found.of("tie").start == 13 * HOUR
    assert -(-(found.of("print").end + wait) // MINUTE) == 12 * 60 + 29
    assert found.of("build 1").start == 16 * HOUR + 3 * MINUTE


def test_dates_are_dates():
    here = place("Europe/Berlin", date(2026, 3, 28))
    assert here.zero == datetime(2026, 3, 27, 23, tzinfo=UTC)
