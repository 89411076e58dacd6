"""The shortest calendar, then the least overtime, each with its proven bound; in slices, so that it can be stopped between two."""

from dataclasses import replace
from itertools import count
from typing import Any

import numpy as np
from ortools.sat.python import cp_model

from moldcalc.scan.progress import Work
from moldcalc.schedule.answer import Calendar, Impossible, Step, booked_from
from moldcalc.schedule.least import lower_bound
from moldcalc.schedule.model import Model, build
from moldcalc.schedule.tables import tables
from moldcalc.schedule.tasks import DAY, Done, Problem

#: the first slice of the solver's own, repeatable time, about a second each; a slice that decides nothing is followed by one twice as long
SLICE, LONGEST = 0.3, 4.8


class Search:
    """One search: the problem on the grid, the best so far, what is proven, and the time spent."""

    def __init__(self, problem: Problem, seconds: float) -> None:
        self.problem, self.limit = problem, seconds
        self.whole = tables(problem)
        self.spent = 0.0
        self.bound = 0
        self.best: list[int] | None = None
        self.crews: list[tuple[int, ...]] = []
        self.end = problem.slots + 1
        self.over, self.over_bound = 0, 0
        self.objective_bound = 0.0

    def calendar(self) -> Calendar | None:
        """The best so far."""
        if self.best is None:
            return None
        whole = booked_from(self.problem, self.whole, self.best, self.crews)
        grid = self.problem.grid
        return Calendar(whole, self.end * grid, min(self.bound, self.end) * grid, sum(one.overtime for one in whole),
                        self.over_bound * grid, self.spent, grid)

    def run(self, model: Model, slice_: float) -> str:
        """One slice of the solver; a better calendar is kept."""
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = slice_
        solver.parameters.max_time_in_seconds = max(0.05, self.limit - self.spent)
        if self.best is not None:
            model.cp.clear_hints()
            for variable, value in zip(model.starts, self.best, strict=True):
                model.cp.add_hint(variable, value)
        status = solver.solve(model.cp)
        self.spent += solver.wall_time
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            self._keep(model, solver)
        self.objective_bound = solver.best_objective_bound
        return {cp_model.OPTIMAL: "optimal", cp_model.FEASIBLE: "found", cp_model.INFEASIBLE: "none"}.get(status, "open")

    def _keep(self, model: Model, solver: Any) -> None:
        self.best = [solver.value(start) for start in model.starts]
        self.crews = [next(choice.crew for choice, taken in zip(choices, crews, strict=True) if solver.boolean_value(taken))
                      for choices, crews in zip(model.tables.choices, model.crews, strict=True)]
        self.end = max(solver.value(end) if not isinstance(end, int) else end for end in model.ends)
        self.over = sum(solver.value(over) for over in model.over if not isinstance(over, int))


def solve(problem: Problem, *, seconds: float = 60.0, tidy: bool = True) -> Work[Calendar | Impossible]:
    """The shortest calendar, and among those the one with the least overtime.

    Parameters
    ----------
    problem
        All that it has to keep.
    seconds
        The most time that the solver takes. [s]
    tidy
        Whether, at that end and overtime, tasks are moved to the front where nothing speaks against it.

    Yields
    ------
    `Step`: the best so far and the bound; stop by not asking for the next.

    Returns
    -------
    The best `Calendar` found, with bounds, or `Impossible` where none ends within the horizon.

    Raises
    ------
    EntryError
        A room too cold to cure.

    Notes
    -----
    Source: time-lagged scheduling with limited resources on a grid, solved by constraint programming with learned clauses; one
    worker and a fixed seed, so that the same problem gives the same calendar as long as the solver is not cut short by the clock.
    """
    search = Search(problem, seconds)
    ruled_out = yield from _shortest(search)
    if ruled_out:
        return Impossible(search.spent)
    if search.best is None:
        return Calendar((), search.problem.horizon, search.bound * problem.grid, 0.0, 0.0, search.spent, problem.grid)
    yield from _least_overtime(search)
    if tidy:
        yield from _tidied(search)
    found = search.calendar()
    assert found is not None
    return found


def _said(search: Search) -> str:
    grid = search.problem.grid
    days = [day for day in search.problem.days if day < search.bound * grid - 1e-6]
    least = f"none ends before day {max(1, len(days))}"
    if search.best is None:
        return f"looking for a calendar; {least}"
    days = [day for day in search.problem.days if day < search.end * grid - 1e-6]
    return f"best so far ends on day {max(1, len(days))}; {least}"


def _step(search: Search) -> Step:
    share = min(1.0, search.spent / search.limit) if search.limit > 0 else 1.0
    return Step.of(_said(search), share, search.calendar(), search.bound * search.problem.grid)


def horizons(low: int, problem: Problem) -> list[int]:
    """Ends to try, nearest first: a near end makes a small model, and one that is ruled out raises the bound."""
    day = max(1, round(DAY / problem.grid))
    tries = [low + day * extra for extra in (0, 1, 3, 7, 15, 31)]
    return [step for step in tries if step < problem.slots] + [problem.slots]


def _shortest(search: Search) -> Work[bool]:
    """Find the shortest end; whether it is proven that there is none."""
    if not search.whole.possible:
        return True
    search.bound = lower_bound(search.whole)
    yield _step(search)
    tries = horizons(search.bound, search.problem)
    for place, until in enumerate(tries):
        yield from _within(search, until, rounds=2 + place if until < tries[-1] else None)
        if search.best is not None or search.spent >= search.limit:
            break
    yield from _improved(search)
    return search.best is None and search.bound > search.problem.slots


def _within(search: Search, until: int, rounds: int | None) -> Work[None]:
    """Look for any calendar that ends by a step: in so many slices, or until the time is over. That there is none raises the bound."""
    made = tables(search.problem, until=until)
    if not made.possible:
        search.bound = max(search.bound, until + 1)
        return
    model = build(made)
    for round_ in count() if rounds is None else range(rounds):
        status = search.run(model, min(LONGEST, SLICE * 2**round_))
        if status == "none":
            search.bound = max(search.bound, until + 1)
        yield _step(search)
        if status != "open" or search.spent >= search.limit:
            return


def _improved(search: Search) -> Work[None]:
    """Shorten the calendar found until the bound is reached or the time is over."""
    model = None
    for round_ in count():
        if search.best is None or search.bound >= search.end or search.spent >= search.limit:
            return
        if model is None:
            model = build(tables(search.problem, until=search.end))
            model.cp.minimize(model.makespan)
        model.cp.add(model.makespan >= search.bound)
        was = search.end
        status = search.run(model, min(LONGEST, SLICE * 2**round_))
        if status == "optimal":
            search.bound = search.end
        else:
            search.bound = max(search.bound, min(search.end, int(np.ceil(search.objective_bound - 1e-6))))
        if search.end < was:
            model = None  # a nearer end makes a smaller model
        yield _step(search)


def _fixed(search: Search) -> Model:
    """The model with the end found, or sooner."""
    model = build(tables(search.problem, until=search.end))
    model.cp.add(model.makespan <= search.end)
    return model


def _least_overtime(search: Search) -> Work[None]:
    if not search.over:
        return
    model = _fixed(search)
    total = sum(model.over)
    model.cp.minimize(total)
    for round_ in count():
        status = search.run(model, min(LONGEST, SLICE * 2**round_))
        if status in ("optimal", "found", "open"):
            search.over_bound = max(search.over_bound, int(np.ceil(search.objective_bound - 1e-6)))
        if status in ("optimal", "none") or search.spent >= search.limit:
            break
        yield _step(search)


def _tidied(search: Search) -> Work[None]:
    """Everything as early as it goes at this end and overtime; one short slice, nothing proven."""
    model = _fixed(search)
    total = sum(model.over)
    if not isinstance(total, int):
        model.cp.add(total <= search.over)
    model.cp.minimize(sum(model.starts))
    search.limit += 2.0
    search.run(model, SLICE)
    search.limit -= 2.0
    yield _step(search)


def all_starts(problem: Problem, most: int = 100_000) -> list[tuple[int, ...]]:
    """Every calendar's starts in steps of the grid, in dictionary order: for small problems and for teaching."""
    made = tables(problem)
    if not made.possible:
        return []
    model = build(made)
    found: set[tuple[int, ...]] = set()

    class Every(cp_model.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            found.add(tuple(self.value(start) for start in model.starts))
            if len(found) >= most:
                self.stop_search()

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.enumerate_all_solutions = True
    solver.solve(model.cp, Every())
    return sorted(found)


def with_now(problem: Problem, done: tuple[Done, ...], now: float) -> Problem:
    """The same job planned again from now: what is done keeps its real times, the rest moves."""
    return replace(problem, done=done, now=now)

