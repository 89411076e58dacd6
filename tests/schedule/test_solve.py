"""The solver against trying everything, and what a calendar keeps."""

import math
from dataclasses import replace

import pytest

from moldcalc.errors import EntryError
from moldcalc.scan.progress import finish
from moldcalc.schedule.answer import Calendar, Impossible, Step
from moldcalc.schedule.invented import demo_like
from moldcalc.schedule.job import BenchTimes, Layer, MoldJob, ShellSection, batches_of, tasks_of
from moldcalc.schedule.solve import solve, with_now
from moldcalc.schedule.tables import Clock, tables
from moldcalc.schedule.tasks import DAY, Apart, Cure, Done, Gap, Person, Problem, Room, Task
from moldcalc.schedule.today import latest_start_of, latest_starts_of_coats
from moldcalc.stages.cure import ready_with_nights
from tests.schedule.drawn import HOUR, drawn
from tests.schedule.oracle import best, keeps, options, people_at

EPOXY = Cure(293.15, 55e3)


def week(days=7, opens=9, closes=17, every=range(7)):
    return tuple((d * DAY + opens * HOUR, d * DAY + closes * HOUR) for d in range(days) if d % 7 in every)


def midnights(days):
    return tuple(d * DAY for d in range(days))


def small(*tasks, days=4, **more):
    kept = {"opening": week(days), "days": midnights(days), "grid": HOUR, "horizon": days * DAY}
    return Problem(tasks, **(kept | more))


@pytest.mark.parametrize("block", range(5))
def test_the_solver_finds_what_trying_everything_finds(block):
    """500 small calendars: same shortest end, same least overtime, same impossibilities; and the plan given keeps every rule."""
    for seed in range(100 * block, 100 * (block + 1)):
        problem = drawn(seed)
        found, expected = finish(solve(problem)), best(problem)
        if expected is None:
            assert isinstance(found, Impossible), seed
            continue
        assert isinstance(found, Calendar) and found.proven, seed
        assert (found.end / HOUR, found.overtime / HOUR) == expected, seed
        assert keeps(problem, as_plan(problem, found)), seed


def as_plan(problem, found):
    """A calendar in the oracle's words; a booking that is no option of its task is refused there."""
    there = [people_at(problem, cell) for cell in range(problem.slots)]
    places = {person.name: p for p, person in enumerate(problem.people)}
    plan = {}
    for task in problem.tasks:
        one = found.of(task.name)
        crew = tuple(sorted(places[name] for name in one.people))
        plan[task.name] = next(o for o in options(problem, task, there) if o[0] == round(one.start / HOUR) and o[1] == crew)
        assert plan[task.name][3] == pytest.approx(one.end)
    return plan


def test_it_can_be_stopped_with_the_best_so_far():
    problem = tasks_of(demo_like(sections=8, coats=8)).problem(**shop(60))
    for step in solve(problem):
        assert isinstance(step, Step) and 0 <= step.share <= 1
        if step.best is not None:
            assert step.best.end >= step.bound and step.best.booked
            break


def shop(days, **more):
    turns = [(0.0, 291.15)] + [turn for d in range(days) for turn in ((d * DAY + 8.5 * HOUR, 292.15), (d * DAY + 17 * HOUR, 291.15))]
    return {"people": (Person("Ada"), Person("Ben")), "opening": week(days, every=range(5)), "days": midnights(days), "horizon": days * DAY,
            "room": Room(tuple(t for t, _ in turns), tuple(k for _, k in turns))} | more


def test_a_whole_job_to_its_proven_optimum():
    problem = tasks_of(demo_like(casts=0)).problem(**shop(21))
    found = finish(solve(problem))
    assert found.proven and len(found.booked) == len(problem.tasks) >= 34
    again = finish(solve(problem))
    assert again.booked == found.booked, "the same problem gives the same calendar"
    for one, task in zip(found.booked, problem.tasks, strict=True):
        assert len(one.people) == task.people
        assert task.splittable or any(a <= one.start and one.end <= b for a, b in problem.opening)


# what a calendar keeps ------------------------------------------------------------------------------------------------
def test_a_cure_over_a_night_is_what_the_stage_says():
    start, night = 16.5 * HOUR, {"night_from": 17 * HOUR, "night_to": 8.5 * HOUR}
    wait = ready_with_nights.si(needed=16 * HOUR, start_of_day=start, day_temperature=292.15, night_temperature=287.15, reference=296.15,
                                activation_energy=45e3, **night)
    room = Room((0.0, 8.5 * HOUR, 17 * HOUR, DAY + 8.5 * HOUR, DAY + 17 * HOUR), (287.15, 292.15, 287.15, 292.15, 287.15))
    import numpy as np

    assert Clock(room).after(np.array([start]), 16 * HOUR, Cure(296.15, 45e3))[0] - start == pytest.approx(wait, abs=1e-6)


def test_a_cold_night_costs_the_shell_a_day():
    """16 h at 18 °C are worth 13.7 h at 20 °C, at 14 °C only 10.0 h: opening in the morning, or much later."""
    def opened(night):
        room = Room((0.0, 17 * HOUR, DAY + 9 * HOUR), (292.15, night, 292.15))
        problem = small(Task("lay-up", 4 * HOUR), Task("pull", HOUR), gaps=(Gap("lay-up", "pull", 13.0 * HOUR, None, EPOXY),), room=room,
                        opening=((13 * HOUR, 17 * HOUR), (DAY + 9 * HOUR, DAY + 17 * HOUR)))
        return finish(solve(problem)).of("pull").start / HOUR
    assert opened(291.15) == 33
    assert opened(287.15) > 35


def test_what_cannot_be_split_waits_for_the_morning_and_what_can_goes_on():
    whole, split = (small(Task("first", 5 * HOUR), Task("long", 6 * HOUR, splittable=s), gaps=(Gap("first", "long"),)) for s in (False, True))
    assert finish(solve(whole)).of("long").start == DAY + 9 * HOUR
    found = finish(solve(split)).of("long")
    assert (found.start, found.end) == (14 * HOUR, DAY + 12 * HOUR)


def test_sections_that_touch_are_never_wet_together_others_may_be():
    sides = tuple(Task(name, 2 * HOUR) for name in "abc")
    apart = Apart(("a", "a"), ("b", "b"), 14 * HOUR, EPOXY)
    found = finish(solve(small(*sides, aparts=(apart,), people=(Person("1"), Person("2")), days=5)))
    a, b, c = (found.of(name) for name in "abc")
    assert abs(a.start - b.start) >= 16 * HOUR and c.start < DAY


def test_overtime_only_where_it_shortens():
    late = tuple((d * DAY + 17 * HOUR, d * DAY + 20 * HOUR) for d in range(4))
    short = finish(solve(small(Task("a", 8 * HOUR), Task("b", 2 * HOUR), gaps=(Gap("a", "b"),), overtime=late)))
    assert short.end == 19 * HOUR and short.overtime == short.overtime_bound == 2 * HOUR
    none = finish(solve(small(Task("a", 8 * HOUR), Task("b", 2 * HOUR), gaps=(Gap("a", "b", 14 * HOUR),), overtime=late)))
    assert none.overtime == 0 and none.end == DAY + 11 * HOUR


def test_people_with_hours_of_their_own():
    mornings = Person("Ada", tuple((d * DAY + 9 * HOUR, d * DAY + 12 * HOUR) for d in range(4)))
    two = small(Task("two hands", 2 * HOUR, 2), Task("one", 4 * HOUR), people=(mornings, Person("Ben")))
    found = finish(solve(two))
    assert found.of("two hands").end <= 12 * HOUR and set(found.of("two hands").people) == {"Ada", "Ben"}
    assert found.of("one").people == ("Ben",)


def test_when_a_neighbour_is_dry_depends_on_who_works_on_it():
    """Ada goes at noon and would end the next day; Ben is done by 13:00, so the neighbour follows at once."""
    ada = Person("Ada", tuple((d * DAY + 9 * HOUR, d * DAY + 12 * HOUR) for d in range(4)))
    problem = small(Task("a", 4 * HOUR, splittable=True, not_after=9 * HOUR), Task("b", HOUR, not_before=13 * HOUR, not_after=13 * HOUR),
                    Task("last", HOUR, not_before=40 * HOUR), aparts=(Apart(("a", "a"), ("b", "b")),), people=(ada, Person("Ben")))
    found = finish(solve(problem))
    assert found.proven and found.end == 41 * HOUR and found.of("a").people == ("Ben",)


def test_coats_a_day():
    coats = tuple(Task(f"c{i}", HOUR, kind="coat") for i in range(5))
    gaps = tuple(Gap(f"c{i}", f"c{i + 1}", HOUR, 40 * HOUR) for i in range(4))
    found = finish(solve(small(*coats, gaps=gaps, pace=2)))
    assert [int(one.start // DAY) for one in found.booked] == [0, 0, 1, 1, 2]


def test_planned_again_from_now():
    coats = tuple(Task(f"c{i}", HOUR, kind="coat") for i in range(3))
    problem = small(*coats, gaps=(Gap("c0", "c1", 2 * HOUR, 6 * HOUR), Gap("c1", "c2", 2 * HOUR, 24 * HOUR)))
    late = with_now(problem, (Done("c0", 9.25 * HOUR, 10.75 * HOUR), Done("c1", 13.5 * HOUR)), now=14 * HOUR)
    found = finish(solve(late))
    assert (found.of("c0").start, found.of("c0").end, found.of("c0").done) == (9.25 * HOUR, 10.75 * HOUR, True)
    assert (found.of("c1").start, found.of("c1").end, found.of("c1").done) == (13.5 * HOUR, 14.5 * HOUR, False)
    assert found.of("c2").start == DAY + 9 * HOUR, "14:30 and 2 h is 16:30, too late for an hour's coat"
    assert isinstance(finish(solve(with_now(problem, (Done("c0", 9 * HOUR, 10 * HOUR),), now=17 * HOUR))), Impossible), "window missed"


def test_what_is_going_on_is_not_refused():
    """One person at two tasks at once: both take as long as they take, and what follows waits."""
    late = small(Task("a", 5 * HOUR), Task("b", 4 * HOUR), Task("c", HOUR), done=(Done("a", 9 * HOUR), Done("b", 9 * HOUR)), now=10 * HOUR)
    found = finish(solve(late))
    assert found.of("c").start == 14 * HOUR


def test_latest_hour_today():
    coats = tuple(Task(f"c{i}", HOUR, kind="coat") for i in range(4))
    gaps = tuple(Gap(f"c{i}", f"c{i + 1}", 2 * HOUR, 15 * HOUR) for i in range(3))
    opening = tuple((d * DAY + 8 * HOUR, d * DAY + 17 * HOUR) for d in range(4))
    begun = small(replace(coats[0], not_before=8 * HOUR, not_after=8 * HOUR), *coats[1:], gaps=gaps, opening=opening)
    assert latest_start_of(begun, "c2", day=(0.0, DAY)) == 16 * HOUR
    assert latest_start_of(begun, "c3", day=(0.0, DAY)) is None
    assert latest_start_of(begun, "c3", day=(DAY, 2 * DAY)) == 40 * HOUR
    assert finish(latest_starts_of_coats(begun, day=(0.0, DAY)))["c1"] == 16 * HOUR
    with pytest.raises(EntryError, match="there is none of that name"):
        latest_start_of(begun, "c9", day=(0.0, DAY))


# the task list --------------------------------------------------------------------------------------------------------
def test_the_task_list_of_a_job():
    made = tasks_of(demo_like(casts=2))
    names = [task.name for task in made.tasks]
    for word in ("survey", "patch tests", "board", "cast strips", "release", "print", "fillets", "strips and seam band", "trim rubber", "shims",
                 "lamination 1", "lamination 2", "legs", "edges", "drill", "open", "seam", "patching", "first cast", "cast 2"):
        assert any(word in name for name in names), word
    windows = [gap for gap in made.gaps if gap.latest == 24 * HOUR and gap.cure and gap.cure.reference == 296.15]
    assert len(windows) == 5 and len(made.aparts) == 4


def test_a_job_without_the_small_things():
    bare = BenchTimes(**dict.fromkeys(vars(BenchTimes()), 0.0))
    job = MoldJob((Layer("print", HOUR), Layer("build", HOUR)), (ShellSection("all", (HOUR,)),), 2 * HOUR, 24 * HOUR, 16 * HOUR, None, HOUR, None,
                  casts=0, times=bare)
    made = tasks_of(job)
    assert [task.name for task in made.tasks] == ["print", "build", "all, lamination 1"]
    assert isinstance(finish(solve(made.problem(**shop(14)))), Calendar)


def test_batches_share_a_layer():
    assert batches_of(Layer("print", 3 * HOUR, batches=3), 9 * HOUR) == ((9 * HOUR, 10 * HOUR), (10 * HOUR, 11 * HOUR), (11 * HOUR, 12 * HOUR))


@pytest.mark.parametrize(("change", "says"), [
    ({"latest": HOUR}, "Next coat not after is 60 min; it must not be before the earliest, 2 h"),
    ({"demold": math.nan}, "demold is nan"),
    ({"people": 0}, "people is 0; it must be at least 1"),
    ({"sections": (ShellSection("a", (HOUR,), ("b",)),)}, "a touches is “b”; give names of other sections"),
    ({"layers": (Layer("print", -1.0),)}, "time for print is no number above 0"),
])
def test_a_job_that_can_not_be(change, says):
    with pytest.raises(EntryError, match=says):
        tasks_of(replace(demo_like(), **change))


# bad input ------------------------------------------------------------------------------------------------------------
A, B = Task("a", HOUR), Task("b", HOUR)


@pytest.mark.parametrize(("change", "says"), [
    ({"gaps": (Gap("a", "b", 3 * HOUR, 2 * HOUR),)}, "a to b, latest is 2 h; it must not be before the earliest, 3 h"),
    ({"opening": ()}, "the place is never open; open on at least one day"),
    ({"opening": ((9 * HOUR, 9 * HOUR),)}, "the place is never open"),
    ({"opening": ((9 * HOUR, 8 * HOUR),)}, "one opening is from 9 h to 8 h; give from and to"),
    ({"people": (Person("Ada", ()),)}, "Ada is never there while it is open"),
    ({"people": ()}, "people for a is 1; there are 0"),
    ({"tasks": (Task("a", math.nan), B)}, "time for a is nan; it must be at least 0 h"),
    ({"tasks": (A, A)}, "task is “a” twice"),
    ({"tasks": ()}, "tasks is an empty list"),
    ({"horizon": 0.0}, "horizon is .*; it must be above 0"),
    ({"horizon": math.inf}, "horizon is inf; it must be above 0"),
    ({"grid": math.nan}, "grid is nan"),
    ({"grid": 1e-3}, "horizon is .* steps of the grid; at most 50000"),
    ({"gaps": (Gap("a", "c"),)}, "task is “c”; there is none of that name"),
    ({"gaps": (Gap("a", "b", math.nan),)}, "a to b is a window that is no number"),
    ({"done": (Done("a", 9 * HOUR, 8 * HOUR),)}, "end of a is 8 h; it must not be before its start, 9 h"),
    ({"done": (Done("a", 9 * HOUR, 30 * HOUR),), "now": 20 * HOUR}, "a is done in the future"),
    ({"room": Room((0.0,), (-5.0,))}, "temperature of the room, or its time, is -5.0; it must be a number"),
    ({"tasks": (replace(A, tools=(("oven", 1),)), B)}, "a is in need of 1 of “oven”; there are 0"),
    ({"pace": 0}, "coats a day is 0"),
])
def test_what_can_not_be_is_named(change, says):
    with pytest.raises(EntryError, match=says):
        replace(small(A, B), **change)


def test_a_room_in_which_nothing_cures_is_named():
    frozen = small(A, B, gaps=(Gap("a", "b", HOUR, None, Cure(296.15, 90e3)),), room=Room((0.0,), (150.0,)))
    with pytest.raises(EntryError, match="nothing cures there; warm the room"):
        tables(frozen)
