"""Ways out of a clash: a warmer room, longer hours, a slower pace, one person more, more days; each solved again before it is offered."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from moldcalc.scan.progress import Progress, Work
from moldcalc.schedule.answer import Calendar, Impossible
from moldcalc.schedule.clash import Clash, clock_said, closing_clock, explain, longer, possible
from moldcalc.schedule.solve import solve
from moldcalc.schedule.tasks import DAY, Person, Problem, Room, Span, merged
from moldcalc.units import show

#: people's hands are on these: with one person more they take less time
SHARED = ("coat", "paste", "strips", "lamination")
#: beyond what the rates of cure hold for, K
WARMEST = 313.15


@dataclass(frozen=True)
class Prices:
    """What a way out costs, in any one unit of money; from these comes which is cheapest.

    ``kelvin_day`` a degree warmer for a day, ``open_hour`` an hour longer for one person, ``person_day`` one person more for a day, ``day`` a day
    that the job takes longer, ``coat`` a coat left out (the others thicker). The defaults only put them in a sensible order: common practice,
    no source.
    """

    kelvin_day: float = 2.0
    open_hour: float = 25.0
    person_day: float = 200.0
    day: float = 50.0
    coat: float = 150.0


@dataclass(frozen=True)
class WayOut:
    """One way out: in words, what it costs, and the calendar that it leads to (verified by solving)."""

    kind: str
    said: str
    cost: float
    problem: Problem
    calendar: Calendar


@dataclass(frozen=True)
class NoCalendar:
    """There is no calendar: why, and the cheapest ways out, cheapest first."""

    clash: Clash
    ways_out: tuple[WayOut, ...]

    @property
    def said(self) -> str:
        """The clash and the ways out, a sentence each."""
        return " ".join([self.clash.said, *(way.said for way in self.ways_out)])


def plan_calendar(problem: Problem, *, prices: Prices | None = None, seconds: float = 60.0) -> Work[Calendar | NoCalendar]:
    """The shortest calendar, or why there is none and what would help.

    Parameters
    ----------
    problem
        All that it has to keep.
    prices
        Of the ways out.
    seconds
        The most time that the solver takes for one calendar. [s]

    Yields
    ------
    `Step` (best so far and bound) while it is solved, `Progress` while ways out are looked for.

    Returns
    -------
    A `Calendar`, or `NoCalendar` with the clash and at most three ways out.

    Raises
    ------
    EntryError
        A room too cold to cure.
    """
    found = yield from solve(problem, seconds=seconds)
    if isinstance(found, Calendar):
        return found
    clash = yield from explain(problem)
    out = yield from ways_out(problem, prices=prices or Prices())
    return NoCalendar(clash, out)


Change = Callable[[Problem], Problem]


def ways_out(problem: Problem, *, prices: Prices, most: int = 3, effort: float = 1.0) -> Work[tuple[WayOut, ...]]:
    """The cheapest changes that lead to a calendar, each the least of its kind, each verified.

    Parameters
    ----------
    problem
        One without a calendar.
    prices
        Of each kind of change.
    most
        How many to give.
    effort
        The solver's own, repeatable time for each question, about seconds. [s]

    Returns
    -------
    At most so many, cheapest first. Empty where no one change of the kinds tried is enough.

    Notes
    -----
    Range: one change at a time: warmer by up to 10 K but not above 40 °C, open up to 6 h longer, coats a day fewer or one coat left out, one
    person more, up to three weeks more.
    """
    usual = longer(problem)
    kinds: list[tuple[str, list[tuple[float, Problem, str]]]] = [
        ("heat", list(_warmer(problem))), ("open", list(_open_longer(problem))), ("pace", list(_slower(problem))),
        ("coat", list(_one_coat_less(problem))),
        ("person", list(_one_more(problem))), ("days", [(float(len(usual.days) - len(problem.days)), usual, "")])]
    out: list[WayOut] = []
    for k, (kind, tries) in enumerate(kinds):
        if kind == "open" and tries and possible(tries[-1][1], effort=effort) is False:
            continue  # longer hours never take a calendar away: if the longest don't help, none do
        for n, (amount, changed, said) in enumerate(tries):
            yield Progress(f"trying ways out: {kind}", (k + n / max(1, len(tries))) / len(kinds))
            if possible(changed, effort=effort) is False:
                continue
            found = yield from solve(changed, seconds=10.0, tidy=False)
            if isinstance(found, Impossible) or not found.booked:
                continue
            out.append(_way(kind, amount, said, problem, changed, found, prices))
            break
    return tuple(sorted(out, key=lambda way: way.cost)[:most])


def _way(kind: str, amount: float, said: str, was: Problem, changed: Problem, found: Calendar, prices: Prices) -> WayOut:
    days = max(1, sum(day < found.end - 1e-6 for day in changed.days))
    open_days = sum(a < found.end for a, _ in changed.opening)
    people = len(was.people)
    if kind == "days":
        said = f"Give it until day {days}."
    cost = {"heat": prices.kelvin_day * amount * days, "open": prices.open_hour * amount * open_days * people, "pace": 0.0,
            "person": prices.person_day * open_days, "days": 0.0, "coat": prices.coat}[kind]
    late = max(0, days - sum(day < was.horizon - 1e-6 for day in was.days))
    return WayOut(kind, f"{said} It then ends on day {days}." if kind != "days" else said, cost + prices.day * (days if kind == "pace" else late),
                  changed, found)


def _warmer(problem: Problem) -> Iterator[tuple[float, Problem, str]]:
    """A degree at a time."""
    if not any((*(gap.cure for gap in problem.gaps), *(apart.cure for apart in problem.aparts))):
        return
    room = problem.room
    for kelvin in range(1, 11):
        warm = tuple(t + kelvin for t in room.temperatures)
        if max(warm) > WARMEST:
            return
        ends = show(max(warm), "°C") if max(warm) == min(warm) else f"{show(max(warm), '°C')} by day and {show(min(warm), '°C')} at night"
        yield float(kelvin), replace(problem, room=Room(room.times, warm)), f"Heat the room to {ends}."


def _extended(spans: tuple[Span, ...], problem: Problem, extra: float) -> tuple[Span, ...]:
    """Each day's last hours, longer at their end, not beyond midnight."""
    days = np.array([*problem.days, problem.horizon])
    last: dict[int, Span] = {}
    whole = merged(spans)
    for a, b in whole:
        last[int(np.searchsorted(days, a + 1e-6, side="right"))] = (a, b)
    tails = [(b, max(b, min(b + extra, float(days[min(day, len(days) - 1)])))) for day, (_, b) in last.items()]
    return merged((*whole, *tails))


def _open_longer(problem: Problem) -> Iterator[tuple[float, Problem, str]]:
    """Half an hour at a time; whoever stays until closing stays longer."""
    clock = closing_clock(problem)
    if clock is None or not problem.opening:
        return
    for halves in range(1, 13):
        extra = halves * 1800.0
        if clock + extra > DAY:
            return
        people = tuple(p if p.hours is None else replace(p, hours=_extended(p.hours, problem, extra)) for p in problem.people)
        changed = replace(problem, opening=_extended(problem.opening, problem, extra), people=people,
                          overtime=tuple((a + extra, b + extra) for a, b in problem.overtime))
        yield halves / 2, changed, f"Stay open until {clock_said(clock + extra)}."


def _slower(problem: Problem) -> Iterator[tuple[float, Problem, str]]:
    """One coat a day fewer, as long as there is one."""
    for pace in range((problem.pace or 1) - 1, 0, -1):
        fewer = (problem.pace or 1) - pace
        said = f"Put on {'one coat' if fewer == 1 else f'{fewer} coats'} fewer a day: {pace} instead of {problem.pace}."
        yield float(fewer), replace(problem, pace=pace), said


def _one_coat_less(problem: Problem) -> Iterator[tuple[float, Problem, str]]:
    """Without one of the coats between the first and the last; the one above follows the one below in the same window."""
    done = {one.task for one in problem.done}
    coats = [task.name for task in problem.tasks if task.kind == "coat"]
    for name in reversed(coats[1:-1]):
        below = [gap for gap in problem.gaps if gap.after == name and gap.latest is not None]
        above = [gap for gap in problem.gaps if gap.before == name and gap.latest is not None]
        if name in done or len(below) != 1 or len(above) != 1 or any(name in (*a.one, *a.other) for a in problem.aparts):
            continue
        gaps = [gap for gap in problem.gaps if name not in (gap.before, gap.after)]
        bridge = replace(above[0], before=below[0].before)
        changed = replace(problem, tasks=tuple(task for task in problem.tasks if task.name != name), gaps=(*gaps, bridge))
        yield 1.0, changed, f"Put the rubber on in one coat fewer, without “{name}”, if the others may be as much thicker."
        return


def _one_more(problem: Problem) -> Iterator[tuple[float, Problem, str]]:
    """One person more, there whenever it is open; work that many hands share takes less time."""
    count = len(problem.people)
    name = next(f"{n}" for n in range(count + 1, 2 * count + 3) if f"{n}" not in {p.name for p in problem.people})
    tasks = tuple(replace(t, people=t.people + 1, duration=t.duration * t.people / (t.people + 1)) if t.kind in SHARED and t.people else t
                  for t in problem.tasks)
    word = {1: "a second person", 2: "a third person"}.get(count, f"one person more than {count}")
    yield 1.0, replace(problem, people=(*problem.people, Person(name)), tasks=tasks), f"Take {word}."
