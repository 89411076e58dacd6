"""Why there is no calendar: the fewest rules that can't all be kept, in words."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from ortools.sat.python import cp_model

from moldcalc.scan.progress import Progress, Work
from moldcalc.schedule.least import lower_bound
from moldcalc.schedule.model import build, coats_of
from moldcalc.schedule.solve import horizons
from moldcalc.schedule.tables import Clock, Rule, open_gaps, tables
from moldcalc.schedule.tasks import DAY, Gap, Problem, Room, Span, merged
from moldcalc.units import show

#: days by which a calendar is made longer to see whether time is all that is missing
MORE = 21


@dataclass(frozen=True)
class Clash:
    """The rules that can't all be kept, each in words, and one sentence about them.

    ``rules`` are (kind, number): 'earliest' and 'latest' of a gap, 'hours' and 'bounds' (not before, not after) of a task, 'people' of a
    group, 'apart', 'tool', 'pace', 'horizon'. Leave any one out and the others can be kept, where ``minimal`` says so. ``tasks`` are
    all that are named in them.
    """

    said: str
    rules: tuple[Rule, ...]
    told: tuple[str, ...]
    tasks: tuple[str, ...]
    minimal: bool


def possible(problem: Problem, dropped: frozenset[Rule] = frozenset(), effort: float = 1.0) -> bool | None:
    """Whether there is any calendar without the rules dropped; None where the effort did not settle it."""
    made = tables(problem, dropped)
    if not made.possible:
        return False
    tries = horizons(lower_bound(made), problem)
    for until in tries:
        made = tables(problem, dropped, until)
        if made.possible:
            status = _tried(build(made, dropped).cp, effort if until == tries[-1] else 0.1 * effort)
            if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
                return True
            if until == tries[-1]:
                return False if status == cp_model.INFEASIBLE else None
    return False


def _tried(model: cp_model.CpModel, effort: float) -> int:
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort
    solver.parameters.stop_after_first_solution = True
    return int(solver.solve(model))


def longer(problem: Problem, days: int = MORE) -> Problem:
    """The same with so many days more, whose hours and nights repeat the last week's."""
    known = [day for day in problem.days if day < problem.horizon - 1e-6]
    period = min(7, max(1, len(known)))
    length = period * DAY
    since = problem.horizon - length
    copies = range(1, -(-days // period) + 1)

    def more(spans: Iterable[Span] | None) -> tuple[Span, ...]:
        spans = merged(spans or ())
        last = [(max(a, since), b) for a, b in spans if b > since]
        return (*spans, *((a + n * length, b + n * length) for n in copies for a, b in last))

    steps = list(zip(problem.room.times, problem.room.temperatures, strict=True))
    at_start = [kelvin for time, kelvin in steps if time <= since][-1:] or [steps[0][1]]
    week = [(since, at_start[0]), *((time, kelvin) for time, kelvin in steps if since < time < problem.horizon)]
    steps = [step for step in steps if step[0] < problem.horizon] + [(time + n * length, kelvin) for n in copies for time, kelvin in week]
    nights = [day for day in known if day >= since - 1e-6]
    people = tuple(replace(p, hours=None if p.hours is None else more(p.hours)) for p in problem.people)
    return replace(problem, opening=more(problem.opening), overtime=more(problem.overtime), people=people,
                   room=Room(tuple(t for t, _ in steps), tuple(k for _, k in steps)),
                   days=(*known, *(day + n * length for n in copies for day in nights)), horizon=problem.horizon + len(copies) * length)


def rules_of(problem: Problem) -> list[Rule]:
    """Every rule that may be left out, task by task, so that what lies together is left out together."""
    done, at = {one.task for one in problem.done}, problem.names()
    ruled: list[tuple[int, Rule]] = []
    for i, task in enumerate(problem.tasks):
        if task.name not in done:
            if task.people:
                ruled.append((i, ("hours", i)))
            if task.not_before is not None or task.not_after is not None:
                ruled.append((i, ("bounds", i)))
    for g, gap in open_gaps(problem, frozenset()):
        ruled += [(at[gap.after], (kind, g)) for kind, value in (("earliest", gap.earliest), ("latest", gap.latest)) if value is not None]
    ruled += [(at[apart.other[0]], ("apart", a)) for a, apart in enumerate(problem.aparts)]
    rules = [rule for _, rule in sorted(ruled)]
    rules += [("tool", t) for t in range(len(problem.tools))] + ([("pace", 0)] if problem.pace else [])
    return rules + [("people", g) for g in range(len(tables(problem).groups))]


def explain(problem: Problem, *, effort: float = 1.0) -> Work[Clash]:
    """The fewest rules of a problem without a calendar that can't all be kept.

    Parameters
    ----------
    problem
        One that `solve` found impossible.
    effort
        The solver's own, repeatable time for each question, about seconds. [s]

    Returns
    -------
    The clash; where more days are all that is missing, it says so.

    Notes
    -----
    Range: a set from which nothing can be left out; there may be others.
    Source: deletion filter (Chinneck and Dravnieks 1991, from memory), in halves.
    """
    yield Progress("looking for what clashes", 0.0)
    whole = longer(problem)
    answer = possible(whole, effort=4 * effort)
    if answer:
        days = sum(day < problem.horizon - 1e-6 for day in problem.days)
        long = "one day" if days == 1 else f"{days} days"
        return Clash(f"The tasks don't fit into {long}: every window can be kept, but not by the end of day {days}.",
                     (("horizon", 0),), (f"done by the end of day {days}",), (), True)
    if answer is None:
        return Clash("Whether there is a calendar could not be settled in the time given.", (), (), (), False)
    kept, sure = yield from _filtered(whole, effort)
    return _in_words(whole, kept, sure)


def _filtered(problem: Problem, effort: float) -> Work[tuple[list[Rule], bool]]:
    """Leave out rules, larger parts first, as long as what is left still can't be kept."""
    kept, sure = rules_of(problem), True
    gone: set[Rule] = set()
    size = max(1, len(kept) // 2)
    done = 0
    while True:
        at = 0
        while at < len(kept):
            part = kept[at : at + size]
            answer = possible(problem, frozenset(gone | set(part)), effort)
            done += 1
            yield Progress(f"{len(kept)} rules left that clash", 1 - 0.97**done)
            if answer is False:
                gone |= set(part)
                del kept[at : at + size]
            else:
                sure &= not (answer is None and size == 1)
                at += size
        if size == 1:
            return kept, sure
        size = max(1, min(size // 2, len(kept) // 2))


# in words --------------------------------------------------------------------------------------------------------------
def _in_words(problem: Problem, rules: Sequence[Rule], sure: bool) -> Clash:
    told, tasks = [], list[str]()
    for rule in rules:
        said, about = _rule(problem, rule)
        told.append(said)
        tasks += about
    named = tuple(dict.fromkeys(tasks))
    return Clash(_sentence(problem, rules), tuple(rules), tuple(told), named, sure)


def _window(gap: Gap) -> str:
    where = f" at {show(gap.cure.reference, '°C')}" if gap.cure else ""
    assert gap.latest is not None
    return f"“{gap.after}” at most {show(gap.latest, 'h')}{where} after {'the start of ' if gap.from_start else ''}“{gap.before}”"


def _rule(problem: Problem, rule: Rule) -> tuple[str, tuple[str, ...]]:
    kind, n = rule
    match kind:
        case "latest":
            gap = problem.gaps[n]
            return _window(gap), (gap.before, gap.after)
        case "earliest":
            gap = problem.gaps[n]
            wait = f"at least {show(gap.earliest, 'h')}" if gap.earliest else "not"
            where = f" at {show(gap.cure.reference, '°C')}" if gap.cure and gap.earliest else ""
            return (f"“{gap.after}” {wait}{where} {'after' if gap.earliest else 'before the end of'} “{gap.before}”", (gap.before, gap.after))
        case "hours":
            task = problem.tasks[n]
            return f"“{task.name}”, {show(task.duration, 'min')} of work, between opening and closing{_closing(problem)}", (task.name,)
        case "bounds":
            task = problem.tasks[n]
            ends = [f"not {word} {clock_said(at - problem.days[_day(problem, at) - 1])} on day {_day(problem, at)}"
                    for word, at in (("before", task.not_before), ("after", task.not_after)) if at is not None]
            return f"“{task.name}” {' and '.join(ends)}", (task.name,)
        case "apart":
            one = problem.aparts[n]
            return f"“{one.one[0]}” and “{one.other[0]}” are never wet together", (*one.one, *one.other)
        case "tool":
            return f"no more than {problem.tools[n][1]} of “{problem.tools[n][0]}” at once", ()
        case "pace":
            return f"{problem.pace} coats a day", tuple(problem.tasks[i].name for i in coats_of(tables(problem)))
    return f"no more than {len(problem.people)} {'person' if len(problem.people) == 1 else 'people'} at work", ()


def _day(problem: Problem, at: float) -> int:
    return max(1, int(np.searchsorted(np.array(problem.days), at + 1e-6, side="right")))


def closing_clock(problem: Problem) -> float | None:
    """The clock time at which it closes on most days, in seconds after midnight."""
    days = np.array(problem.days)
    ends: Counter[float] = Counter()
    last = {int(np.searchsorted(days, a + 1e-6, side="right")): (a, b) for a, b in merged((*problem.opening, *problem.overtime))}
    for day, (_, b) in last.items():
        if day:
            ends[round(b - days[day - 1], 3)] += 1
    return ends.most_common(1)[0][0] if ends else None


def clock_said(clock: float) -> str:
    """A clock time as people write it."""
    minutes = round(clock / 60)
    return f"{minutes // 60 % 24 if minutes != 1440 else 24:02d}:{minutes % 60:02d}"


def _closing(problem: Problem) -> str:
    clock = closing_clock(problem)
    return "" if clock is None else f" ({clock_said(clock)})"


def _closed_at(problem: Problem, gap: Gap) -> float | None:
    """When the window of a task that is done closed, where that is over now."""
    real = next((one for one in problem.done if one.task == gap.before and one.end is not None), None)
    if real is None or real.end is None or problem.now is None or gap.latest is None:
        return None
    since = real.start if gap.from_start else real.end
    closed = float(Clock(problem.room).after(np.array([since]), gap.latest, gap.cure)[0])
    return closed if closed < problem.now else None


def _moment(problem: Problem, at: float) -> str:
    day = _day(problem, at)
    return f"on day {day} at {clock_said(at - problem.days[day - 1])}"


def _sentence(problem: Problem, rules: Sequence[Rule]) -> str:
    """The one sentence: which window, and what it clashes with."""
    lates = [problem.gaps[n] for kind, n in rules if kind == "latest"]
    missed = [gap for gap in lates if _closed_at(problem, gap) is not None]
    if missed:
        assert problem.now is not None
        when = ", ".join(f"{_window(gap)} closed {_moment(problem, _closed_at(problem, gap) or 0.0)}" for gap in missed)
        return f"The window {when}, and it is {_moment(problem, problem.now)} now."
    hours = [problem.tasks[n].name for kind, n in rules if kind == "hours"]
    others = [_rule(problem, rule)[0] for rule in rules if rule[0] in ("people", "tool", "pace", "apart", "bounds")]
    if not lates and not hours:
        return f"This can't all be kept: {'; '.join(_rule(problem, rule)[0] for rule in rules)}."
    if lates:
        start = f"The window{'s' if len(lates) > 1 else ''} {', '.join(_window(gap) for gap in lates)}"
        verb = "clash" if len(lates) > 1 else "clashes"
    else:
        start, verb = f"The work on {', '.join(f'“{name}”' for name in hours[:4])}", "clashes"
    clash = []
    if hours and lates:
        clock = closing_clock(problem)
        clash.append(f"closing at {clock_said(clock)}" if clock is not None else "the opening hours")
    elif hours:
        clash.append(f"opening hours that leave too little time in one piece{_closing(problem)}")
    if not others and not clash:
        clash = ["the waits before it: " + "; ".join(_rule(problem, rule)[0] for rule in rules if rule[0] == "earliest")]
    return f"{start} {verb} with {' and with '.join([*clash, *others])}."
