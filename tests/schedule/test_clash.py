"""Why there is no calendar, and the ways out."""

from dataclasses import replace

import pytest

from moldcalc.scan.progress import finish
from moldcalc.schedule.answer import Calendar
from moldcalc.schedule.clash import explain, longer, possible, rules_of
from moldcalc.schedule.solve import solve, with_now
from moldcalc.schedule.tasks import DAY, Cure, Done, Gap, Person, Problem, Room, Task
from moldcalc.schedule.waysout import NoCalendar, Prices, plan_calendar
from tests.published.test_schedule import coats
from tests.schedule.drawn import HOUR, drawn

RUBBER = Cure(293.15, 45e3)


def quarter_hours(count, low, high, **more):
    return replace(coats(count, low, high), grid=900.0, **more)


def test_a_calendar_that_is_there_is_given():
    assert isinstance(finish(plan_calendar(coats(3, 2, 6))), Calendar)


def test_the_sentence_names_the_windows_and_the_closing_time():
    found = finish(plan_calendar(coats(4, 2, 6)))
    assert isinstance(found, NoCalendar) and found.clash.minimal
    assert found.clash.said == ("The windows “coat 2” at most 6 h after “coat 1”, “coat 3” at most 6 h after “coat 2”, "
                                "“coat 4” at most 6 h after “coat 3” clash with closing at 17:00.")
    assert found.said.startswith(found.clash.said) and "Stay open until 18:00." in found.said


def test_leave_any_rule_out_and_the_rest_can_be_kept():
    problem = longer(coats(4, 2, 14))
    clash = finish(explain(coats(4, 2, 14)))
    gone = frozenset(set(rules_of(problem)) - set(clash.rules))
    assert possible(problem, gone) is False
    for rule in clash.rules:
        assert possible(problem, gone | {rule}) is True, rule


def test_the_cheapest_ways_out_are_verified_and_in_order():
    problem = quarter_hours(4, 2, 6)
    problem = replace(problem, gaps=tuple(replace(gap, cure=RUBBER) for gap in problem.gaps))
    found = finish(plan_calendar(problem))
    assert {way.kind for way in found.ways_out} >= {"heat", "open"}
    assert [way.cost for way in found.ways_out] == sorted(way.cost for way in found.ways_out)
    for way in found.ways_out:
        again = finish(solve(way.problem))
        assert isinstance(again, Calendar) and again.end == way.calendar.end
    heat = next(way for way in found.ways_out if way.kind == "heat")
    kelvin = heat.problem.room.temperatures[0] - 293.15
    cooler = replace(problem, room=Room((0.0,), (293.15 + kelvin - 1,)))
    assert possible(cooler) is False and f"Heat the room to {20 + kelvin:.0f}" in heat.said


def test_prices_decide_which_is_cheapest():
    problem = quarter_hours(4, 2, 6)
    problem = replace(problem, gaps=tuple(replace(gap, cure=RUBBER) for gap in problem.gaps))
    dear = finish(plan_calendar(problem, prices=Prices(kelvin_day=1000.0, open_hour=1.0)))
    cheap = finish(plan_calendar(problem, prices=Prices(kelvin_day=0.01, open_hour=1000.0)))
    assert dear.ways_out[0].kind == "open" and cheap.ways_out[0].kind == "heat"


def test_one_coat_a_day_fewer():
    found = finish(plan_calendar(replace(coats(4, 2, 15), pace=4)))
    assert "4 coats a day" in found.clash.told
    assert any(way.said.startswith("Put on one coat fewer a day: 3 instead of 4.") for way in found.ways_out)


def test_a_second_person():
    """A coat of 9 h for one doesn't fit between 08 and 17 with a wait before it on the same day; two do it in half the time."""
    tasks = (Task("mix", HOUR), Task("coat", 10 * HOUR, kind="coat"))
    problem = Problem(tasks, (Gap("mix", "coat"),), opening=tuple((d * DAY + 8 * HOUR, d * DAY + 17 * HOUR) for d in range(4)),
                      days=tuple(d * DAY for d in range(4)), horizon=4 * DAY)
    found = finish(plan_calendar(problem))
    assert found.clash.tasks == ("coat",) and "opening hours that leave too little time in one piece (17:00)" in found.clash.said
    assert any("Take a second person." in way.said for way in found.ways_out)


def test_more_days_where_only_time_is_missing():
    short = replace(coats(4, 2, 15), horizon=DAY, days=(0.0,), opening=((8 * HOUR, 17 * HOUR),))
    found = finish(plan_calendar(short))
    assert found.clash.rules == (("horizon", 0),)
    assert any(way.said == "Give it until day 2." for way in found.ways_out)


def test_a_missed_window_is_named():
    problem = coats(3, 2, 6)
    late = with_now(problem, (Done("coat 1", 8 * HOUR, 9 * HOUR),), now=15.5 * HOUR)
    said = finish(explain(late)).said
    assert said == "The window “coat 2” at most 6 h after “coat 1” closed on day 1 at 15:00, and it is on day 1 at 15:30 now."


def test_hours_go_on_as_in_the_last_week():
    week = tuple((d * DAY + 8 * HOUR, d * DAY + 17 * HOUR) for d in range(14) if d % 7 < 5)
    more = longer(Problem((Task("a", HOUR),), people=(Person("Ada", week),), opening=week,
                          days=tuple(d * DAY for d in range(14)), horizon=14 * DAY), 7)
    assert more.horizon == 21 * DAY and more.opening[-1] == (18 * DAY + 8 * HOUR, 18 * DAY + 17 * HOUR) and len(more.opening) == 15
    assert more.people[0].hours == more.opening and more.days == tuple(d * DAY for d in range(21))


@pytest.mark.parametrize("seed", [s for s in range(60) if not isinstance(finish(solve(drawn(s))), Calendar)][:8])
def test_every_clash_of_small_calendars_is_one(seed):
    problem = drawn(seed)
    clash = finish(explain(problem))
    assert clash.said.endswith(".") and clash.rules
    if clash.rules != (("horizon", 0),):
        whole = longer(problem)
        gone = frozenset(set(rules_of(whole)) - set(clash.rules))
        assert possible(whole, gone) is False and all(possible(whole, gone | {rule}) for rule in clash.rules)
