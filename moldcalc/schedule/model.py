"""The calendar as a model for the solver: starts, who follows whom, people, tools, sections apart, coats a day."""

from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import numpy as np
from ortools.sat.python import cp_model

from moldcalc.schedule.tables import Choice, Clock, Rule, Tables, Whole, bounds, down, open_gaps, up
from moldcalc.schedule.tasks import Cure, hours_of

Literal = Any
Line = Any


@dataclass
class Model:
    """The solver's model of a problem on the grid, and the variables that an answer is read from."""

    tables: Tables
    dropped: frozenset[Rule] = frozenset()
    cp: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    starts: list[Any] = field(default_factory=list)
    ends: list[Any] = field(default_factory=list)
    crews: list[list[Literal]] = field(default_factory=list)
    over: list[Line] = field(default_factory=list)
    makespan: Any = None
    _from: dict[tuple[int, int], Literal] = field(default_factory=dict)

    def at_or_after(self, task: int, step: int) -> Literal:
        """A literal: the task starts at this step or later."""
        starts = self.tables.starts[task]
        place = int(np.searchsorted(starts, step))
        if place == 0:
            return self._constant(True)
        if place == len(starts):
            return self._constant(False)
        step = int(starts[place])
        if (task, step) not in self._from:
            literal = self.cp.new_bool_var(f"{task}>={step}")
            self.cp.add(self.starts[task] >= step).only_enforce_if(literal)
            self.cp.add(self.starts[task] <= int(starts[place - 1])).only_enforce_if(~literal)
            self._from[task, step] = literal
        return self._from[task, step]

    def _constant(self, true: bool) -> Literal:
        if (-1, int(true)) not in self._from:
            self._from[-1, int(true)] = self.cp.new_constant(int(true))
        return self._from[-1, int(true)]


def build(made: Tables, dropped: frozenset[Rule] = frozenset()) -> Model:
    """The model of a problem that is on the grid already; `made.possible` must hold."""
    model = Model(made, dropped)
    for index in range(len(made.problem.tasks)):
        _task(model, index)
    clock = Clock(made.problem.room)
    at = made.problem.names()
    for _, gap in open_gaps(made.problem, dropped):
        i, j = at[gap.before], at[gap.after]
        for choice, crew in zip(made.choices[i], model.crews[i], strict=True):
            low, high = bounds(made.problem, clock, gap, choice)
            only = [crew] if len(made.choices[i]) > 1 else []
            if low is not None:
                _not_before(model, i, j, choice.starts, low, only)
            if high is not None:
                _not_after(model, i, j, choice.starts, high, only)
    _aparts(model, clock)
    _people(model)
    _tools(model)
    if made.problem.pace is not None and ("pace", 0) not in dropped:
        _pace(model, made.problem.pace)
    last = max(int(choice.ends[-1]) for choices in made.choices for choice in choices)
    model.makespan = model.cp.new_int_var(0, last, "end")
    for end in model.ends:
        model.cp.add(model.makespan >= end)
    return model


def _task(model: Model, index: int) -> None:
    """Start, end, crew and overtime of one task."""
    cp, choices, starts = model.cp, model.tables.choices[index], model.tables.starts[index]
    start = cp.new_int_var_from_domain(cp_model.Domain.from_values(starts.tolist()), f"start {index}")
    model.starts.append(start)
    if len(choices) == 1:
        crews = [model._constant(True)]
    else:
        crews = [cp.new_bool_var(f"crew {index} {c}") for c in range(len(choices))]
        cp.add_exactly_one(crews)
        for crew, choice in zip(crews, choices, strict=True):
            if len(choice.starts) < len(starts):
                cp.add_linear_expression_in_domain(start, cp_model.Domain.from_values(choice.starts.tolist())).only_enforce_if(crew)
    model.crews.append(crews)
    lengths = np.unique(np.concatenate([choice.ends - choice.starts for choice in choices]))
    if len(lengths) == 1:
        model.ends.append(start + int(lengths[0]))
    else:
        low, high = (int(f(choice.ends[k] for choice in choices)) for f, k in ((min, 0), (max, -1)))
        end = cp.new_int_var(low, high, f"end {index}")
        for crew, choice in zip(crews, choices, strict=True):
            _stepwise(model, index, choice, choice.ends - choice.starts, end - start, [crew] if len(choices) > 1 else [])
        model.ends.append(end)
    model.over.append(_overtime(model, index, choices, crews))


def _stepwise(model: Model, index: int, choice: Choice, values: Whole, line: Line, only: list[Literal]) -> None:
    """Set a line equal to a value that changes in steps with the task's start."""
    turns = np.concatenate([[0], np.flatnonzero(np.diff(values)) + 1, [len(values)]])
    for a, b in pairwise(turns.tolist()):
        here = list(only)
        if a > 0:
            here.append(model.at_or_after(index, int(choice.starts[a])))
        if b < len(values):
            here.append(~model.at_or_after(index, int(choice.starts[b])))
        rule = model.cp.add(line == int(values[a]))
        if here:
            rule.only_enforce_if(here)


def _overtime(model: Model, index: int, choices: tuple[Choice, ...], crews: list[Literal]) -> Line:
    most = max(int(choice.over.max()) for choice in choices)
    if not most:
        return 0
    over = model.cp.new_int_var(0, most, f"overtime {index}")
    for crew, choice in zip(crews, choices, strict=True):
        _stepwise(model, index, choice, choice.over, over, [crew] if len(choices) > 1 else [])
    return over


# gaps ------------------------------------------------------------------------------------------------------------------
def _not_before(model: Model, i: int, j: int, starts: Whole, low: Whole, only: list[Literal]) -> None:
    """The task after starts not before a step that rises with the start of the task before: a line, and jumps above it."""
    after = model.tables.starts[j]
    place = np.searchsorted(after, low, side="left")
    fits = place < len(after)
    if not fits.all():  # too late for the task after
        first = int(starts[np.argmin(fits)])
        model.cp.add_bool_or([*(~one for one in only), ~model.at_or_after(i, first)])
        starts, place = starts[fits], place[fits]
        if not len(starts):
            return
    step = after[place]
    least = int((step - starts).min())
    rule = model.cp.add(model.starts[j] >= model.starts[i] + least)
    if only:
        rule.only_enforce_if(only)
    jump = np.concatenate([[True], np.diff(step) > 0]) & (step > starts + least)
    for start, then in zip(starts[jump].tolist(), step[jump].tolist(), strict=True):
        model.cp.add_bool_or([*(~one for one in only), ~model.at_or_after(i, start), model.at_or_after(j, then)])


def _not_after(model: Model, i: int, j: int, starts: Whole, high: Whole, only: list[Literal]) -> None:
    """The task after starts not after a step that rises with the start of the task before."""
    after = model.tables.starts[j]
    place = np.searchsorted(after, high, side="right") - 1
    fits = place >= 0
    if not fits.all():  # too early for the task after
        if not fits.any():
            model.cp.add_bool_or([~one for one in only] or [model._constant(False)])
            return
        model.cp.add_bool_or([*(~one for one in only), model.at_or_after(i, int(starts[np.argmax(fits)]))])
        starts, place = starts[fits], place[fits]
    step = after[place]
    most = int((step - starts).max())
    rule = model.cp.add(model.starts[j] <= model.starts[i] + most)
    if only:
        rule.only_enforce_if(only)
    jump = np.concatenate([np.diff(step) > 0, [True]]) & (step < starts + most)
    for k in np.flatnonzero(jump).tolist():
        later = [model.at_or_after(i, int(starts[k + 1]))] if k + 1 < len(starts) else []
        if place[k] + 1 < len(after):
            model.cp.add_bool_or([*(~one for one in only), *later, ~model.at_or_after(j, int(after[place[k] + 1]))])


# sections, people, tools, pace -----------------------------------------------------------------------------------------
def _aparts(model: Model, clock: Clock) -> None:
    problem, at = model.tables.problem, model.tables.problem.names()
    done = {one.task for one in problem.done}
    for a, apart in enumerate(problem.aparts):
        if ("apart", a) in model.dropped or {*apart.one, *apart.other} <= done:
            continue
        first = model.cp.new_bool_var(f"apart {a}")
        for (last, then), literal in (((apart.one[1], apart.other[0]), first), ((apart.other[1], apart.one[0]), ~first)):
            _follows(model, clock, at[last], at[then], apart.wait, apart.cure, literal)


def _follows(model: Model, clock: Clock, i: int, j: int, wait: float, cure: Cure | None, literal: Literal) -> None:
    made = model.tables
    for choice, crew in zip(made.choices[i], model.crews[i], strict=True):
        low = up(clock.after(choice.real, wait, cure), made.problem.grid)
        _not_before(model, i, j, choice.starts, low, [literal] + ([crew] if len(made.choices[i]) > 1 else []))


def _people(model: Model) -> None:
    """In each group no more people at work than it has; with own hours, crews are optional."""
    problem, groups = model.tables.problem, model.tables.groups
    running = [problem.names()[one.task] for one in problem.done]
    for g, group in enumerate(groups):
        if ("people", g) in model.dropped:
            continue
        intervals, demands = [], []
        stuck = [(i, model.tables.choices[i][0].crew[g]) for i in running if _still(model, i)]
        held = _overfull(model, stuck, len(group))
        for i, task in enumerate(problem.tasks):
            if not task.people or (i in running and (held or not _still(model, i))):
                continue
            for choice, crew in zip(model.tables.choices[i], model.crews[i], strict=True):
                if choice.crew[g] and (choice.ends > choice.starts).any():
                    intervals.append(_interval(model, i, crew, len(model.tables.choices[i]) > 1))
                    demands.append(choice.crew[g])
        _at_most(model, [*held, *intervals], [*(len(group) for _ in held), *demands], len(group))
    if len(groups) == 1 and ("people", 0) not in model.dropped:
        _one_at_a_time(model, len(groups[0]))


def _one_at_a_time(model: Model, people: int) -> None:
    """Tasks that need most of the people exclude each other and the hours when it is closed: says nothing new, but bounds the end well."""
    problem = model.tables.problem
    done = {one.task for one in problem.done}
    large = [i for i, task in enumerate(problem.tasks)
             if 2 * task.people > people and not task.splittable and task.name not in done and ("hours", i) not in model.dropped
             and task.duration > 0]
    if len(large) < 2:
        return
    intervals = [_interval(model, i, None, False) for i in large]
    last = max(int(choice.ends[-1]) for i in large for choice in model.tables.choices[i])
    at = 0
    for a, b in [*hours_of(problem, problem.people[0]), (problem.horizon, problem.horizon)]:
        opens, closes = int(down(a, problem.grid)), int(up(b, problem.grid))
        if min(opens, last) > at:
            intervals.append(model.cp.new_fixed_size_interval_var(at, min(opens, last) - at, f"closed {at}"))
        at = max(at, closes)
    model.cp.add_no_overlap(intervals)


def _still(model: Model, index: int) -> bool:
    """Whether a task with a real start is still going on now, so that it still takes people and tools."""
    problem = model.tables.problem
    return any(one.task == problem.tasks[index].name and one.end is None for one in problem.done)


def _overfull(model: Model, running: list[tuple[int, int]], capacity: int) -> list[Any]:
    """Where more is going on now than there are people or tools, all of them are busy until the last of it ends: what is real is not refused."""
    if sum(count for _, count in running) <= capacity:
        return []
    start = min(int(model.tables.choices[i][0].starts[0]) for i, count in running if count)
    end = max(int(model.tables.choices[i][0].ends[-1]) for i, count in running if count)
    return [model.cp.new_fixed_size_interval_var(start, end - start, "busy")]


def _interval(model: Model, index: int, crew: Literal, optional: bool) -> Any:
    start, end = model.starts[index], model.ends[index]
    lengths = {int(x) for choice in model.tables.choices[index] for x in np.unique(choice.ends - choice.starts)}
    size = lengths.pop() if len(lengths) == 1 else model.cp.new_int_var(0, max(lengths), f"length {index}")
    if optional:
        return model.cp.new_optional_interval_var(start, size, end, crew, f"work {index}")
    return model.cp.new_interval_var(start, size, end, f"work {index}")


def _at_most(model: Model, intervals: list[Any], demands: list[int], capacity: int) -> None:
    if sum(demands) <= capacity:
        return
    if all(2 * demand > capacity for demand in demands):
        model.cp.add_no_overlap(intervals)
    else:
        model.cp.add_cumulative(intervals, demands, capacity)


def _tools(model: Model) -> None:
    problem = model.tables.problem
    done = {problem.names()[one.task] for one in problem.done}
    for t, (tool, capacity) in enumerate(problem.tools):
        if ("tool", t) in model.dropped:
            continue
        users = [(i, dict(task.tools).get(tool, 0)) for i, task in enumerate(problem.tasks) if i not in done or _still(model, i)]
        held = _overfull(model, [(i, count) for i, count in users if i in done], capacity)
        users = [(i, count) for i, count in users if i not in done or not held]
        users = [(i, count) for i, count in users if count and any((c.ends > c.starts).any() for c in model.tables.choices[i])]
        intervals = [_interval(model, i, None, False) for i, _ in users]
        _at_most(model, [*held, *intervals], [*(capacity for _ in held), *(count for _, count in users)], capacity)


def coats_of(made: Tables) -> list[int]:
    """The tasks that are coats, in their order."""
    return [i for i, task in enumerate(made.problem.tasks) if task.kind == "coat"]


def _pace(model: Model, pace: int) -> None:
    """So many coats on one day, in their order; the next ones on a later day."""
    coats, days = coats_of(model.tables), [int(up(day, model.tables.problem.grid)) for day in model.tables.problem.days]
    for place in range(1, len(coats)):
        before, after = coats[place - 1], coats[place]
        for day, following in zip(days, [*days[1:], None], strict=True):
            here = model.at_or_after(before, day)
            if place % pace:
                then = model.at_or_after(after, day)
                model.cp.add_implication(here, then)
                model.cp.add_implication(then, here)
            elif following is not None:
                model.cp.add_implication(here, model.at_or_after(after, following))
            else:
                model.cp.add_bool_or([~here])
