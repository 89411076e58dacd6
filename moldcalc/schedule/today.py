"""The latest hour at which a coat may start today, with everything else that is planned."""

import numpy as np
from ortools.sat.python import cp_model

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.progress import Progress, Work
from moldcalc.schedule.model import build, coats_of
from moldcalc.schedule.tables import tables, up
from moldcalc.schedule.tasks import Problem, Span


def latest_start_of(problem: Problem, task: str, *, day: Span, end: float | None = None, effort: float = 2.0) -> float | None:
    """The latest start of a task within a day from which all the rest can still be done.

    Parameters
    ----------
    problem
        What the calendar has to keep; what is done has its real times.
    task
        Its name.
    day
        From and to of the day asked about. [s]
    end
        By which all has to be done; None: within the horizon. [s]
    effort
        The solver's own, repeatable time, about seconds. [s]

    Returns
    -------
    Latest start, or None where it can't start on that day. Where the effort runs out, the latest that is sure to work. [s]

    Raises
    ------
    EntryError
        A task that isn't there.

    Notes
    -----
    Range: exact on the grid, people and all other tasks counted.
    Source: the calendar's model, the task's start made as late as it goes.
    """
    if task not in problem.names():
        raise EntryError(Fault("task", f"“{task}”", "there is none of that name"))
    index = problem.names()[task]
    made = tables(problem, until=None if end is None else int(up(end, problem.grid)))
    first, last = (int(x) for x in up(np.array(day), problem.grid))
    if not made.possible or not ((made.starts[index] >= first) & (made.starts[index] < last)).any():
        return None
    model = build(made)
    start = model.starts[index]
    model.cp.add(start >= first)
    model.cp.add(start <= last - 1)
    model.cp.maximize(start)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort
    if solver.solve(model.cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return float(solver.value(start) * problem.grid)


def latest_starts_of_coats(problem: Problem, *, day: Span, end: float | None = None, effort: float = 2.0) -> Work[dict[str, float | None]]:
    """For every coat the latest start within a day, or None; see `latest_start_of`. [s]"""
    out: dict[str, float | None] = {}
    names = [problem.tasks[i].name for i in coats_of(tables(problem))]
    for n, name in enumerate(names):
        yield Progress(f"latest start of {name}", n / len(names))
        out[name] = latest_start_of(problem, name, day=day, end=end, effort=effort)
    return out
