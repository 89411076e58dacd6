"""The longest way through a job: earliest and latest starts, slack, and how sure an end is."""

from collections.abc import Mapping, Sequence
from math import erf, isfinite, sqrt
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import ANY, NOT_NEGATIVE, door, show


class Arc(NamedTuple):
    """The task ``after`` starts at least ``lag`` after the start of ``before``. A negative lag is a latest: ``before`` starts at most
    that much after ``after``."""

    before: str
    after: str
    lag: float


class Planned(NamedTuple):
    """A task on the critical path's clock: earliest and latest start and end, and what it can slip without moving the end."""

    task: str
    earliest_start: float
    earliest_end: float
    latest_start: float
    latest_end: float
    slack: float


def _refuse_numbers(named: Mapping[str, float], arcs: Sequence[Arc]) -> None:
    bad = [name for name, value in named.items() if not isfinite(value) or value < 0]
    if bad:
        raise EntryError([Fault(name, str(named[name]), "it must be a time of at least 0") for name in bad])
    for arc in arcs:
        if not isfinite(arc.lag):
            raise EntryError(Fault(f"{arc.before} to {arc.after}", str(arc.lag), "it must be a finite time"))
        for name in (arc.before, arc.after):
            if name not in named:
                raise EntryError(Fault("task", f"“{name}”", "there is none of that name"))


def earliest_starts(tasks: Sequence[str], arcs: Sequence[Arc]) -> dict[str, float]:
    r"""The earliest start of each task when only waits count: minimal and maximal lags, no hours, no people.

    .. math:: s_j = \max(0, \max_i (s_i + w_{ij}))

    Parameters
    ----------
    tasks
        Their names.
    arcs
        Lags from start to start; a maximal lag is an arc back with a negative lag. [s, or any one unit]

    Returns
    -------
    Task -> earliest start, the first at 0. [as the lags]

    Raises
    ------
    EntryError
        A lag that is no number; a cycle whose lags add up to more than 0: its tasks are named, they can't all be kept.

    Notes
    -----
    Range: whatever the lags; feasible by time alone means no cycle of positive length.
    Source: Bellman's and Ford's algorithm for longest paths, textbook; lags after Bartusch, Möhring and Radermacher 1988 (from memory).

    Examples
    --------
    >>> earliest_starts(["print", "tie"], [Arc("print", "tie", 3.0), Arc("tie", "print", -6.0)])
    {'print': 0.0, 'tie': 3.0}
    """
    _refuse_numbers(dict.fromkeys(tasks, 0.0), arcs)
    start, came = dict.fromkeys(tasks, 0.0), dict[str, str]()
    scale = 1e-9 * (1 + max((abs(arc.lag) for arc in arcs), default=0.0))
    for _ in range(len(tasks) + 1):
        moved = ""
        for arc in arcs:
            if start[arc.before] + arc.lag > start[arc.after] + scale:
                start[arc.after] = start[arc.before] + arc.lag
                came[arc.after] = moved = arc.before
        if not moved:
            return start
    ring = _ring(came, moved, len(tasks))
    raise EntryError(Fault("the waits between " + ", ".join(ring), "longer going round than the latest allows", "one of these windows must give way"))


def _ring(came: Mapping[str, str], start: str, most: int) -> list[str]:
    for _ in range(most):
        start = came.get(start, start)
    ring, here = [start], came.get(start, start)
    while here != start and len(ring) <= most:
        ring.append(here)
        here = came.get(here, start)
    return ring[::-1]


def critical_path(durations: Mapping[str, float], after: Mapping[str, Sequence[str]]) -> list[Planned]:
    r"""Forward and backward pass through a job whose tasks wait for the ends of others.

    .. math:: ES_j = \max_i EF_i, \quad LF_i = \min_j LS_j, \quad slack = LS - ES

    Parameters
    ----------
    durations
        Task -> how long it takes. [s, or any one unit]
    after
        Task -> the tasks that must have ended before it starts.

    Returns
    -------
    One row a task, in the order given; those with slack 0 are critical. [as the durations]

    Raises
    ------
    EntryError
        A duration that is no number or below 0; an unknown task; tasks that wait for each other in a ring.

    Notes
    -----
    Range: no people and no hours counted: a lower bound of any calendar.
    Source: critical path method, textbook.

    Examples
    --------
    >>> rows = critical_path({"coat": 1, "cure": 16, "strips": 2}, {"cure": ["coat"]})
    >>> [row.task for row in rows if row.slack == 0], max(row.earliest_end for row in rows)
    (['coat', 'cure'], 17.0)
    """
    arcs = [Arc(before, task, float(durations.get(before, 0.0))) for task, befores in after.items() for before in befores]
    _refuse_numbers(durations, arcs)
    order = _sorted(durations, after)
    start: dict[str, float] = {}
    for task in order:
        start[task] = max((start[b] + durations[b] for b in after.get(task, ())), default=0.0)
    end = max((start[task] + durations[task] for task in durations), default=0.0)
    latest = dict.fromkeys(durations, end)
    for task in reversed(order):
        for before in after.get(task, ()):
            latest[before] = min(latest[before], latest[task] - durations[task])
    tiny = 1e-9 * (1 + end)
    out = []
    for task, duration in durations.items():
        slack = latest[task] - duration - start[task]
        slack = 0.0 if abs(slack) < tiny else slack
        out.append(Planned(task, start[task] + 0.0, start[task] + duration + 0.0, latest[task] - duration + 0.0, latest[task] + 0.0, slack))
    return out


def _sorted(tasks: Mapping[str, float], after: Mapping[str, Sequence[str]]) -> list[str]:
    waits = {task: set(after.get(task, ())) for task in tasks}
    order: list[str] = []
    while waits:
        free = [task for task, befores in waits.items() if not befores]
        if not free:
            stuck = ", ".join(sorted(waits)[:6])
            raise EntryError(Fault(f"the order of {stuck}", "a ring, each waiting for another", "one of them must not wait"))
        order += free
        for task in free:
            del waits[task]
        for befores in waits.values():
            befores.difference_update(free)
    return order


def _refuse_unordered(optimistic: float, likely: float, pessimistic: float) -> None:
    if not optimistic <= likely <= pessimistic:
        raise EntryError(Fault("likely", show(likely, "h"), f"it must lie between {show(optimistic, 'h')} and {show(pessimistic, 'h')}"))


@door(optimistic="s", likely="s", pessimistic="s", returns="s",
      possible={"optimistic": NOT_NEGATIVE, "likely": NOT_NEGATIVE, "pessimistic": NOT_NEGATIVE})
def pert_mean(*, optimistic: float, likely: float, pessimistic: float) -> float:
    r"""Mean time of a task from three guesses.

    .. math:: \bar t = (o + 4 m + p) / 6

    Parameters
    ----------
    optimistic, likely, pessimistic
        Guesses, :math:`o, m, p`. [s]

    Returns
    -------
    Mean. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; guesses out of order.

    Notes
    -----
    Range: a rule of thumb; it stands for a beta distribution.
    Source: program evaluation and review technique, textbook.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{pert_mean(optimistic=Q(1, 'h'), likely=Q(4, 'h'), pessimistic=Q(7, 'h')).to('h'):.1f~P}")
    4.0 h
    """
    _refuse_unordered(optimistic, likely, pessimistic)
    return (optimistic + 4 * likely + pessimistic) / 6


@door(optimistic="s", pessimistic="s", returns="s", possible={"optimistic": NOT_NEGATIVE, "pessimistic": NOT_NEGATIVE})
def pert_spread(*, optimistic: float, pessimistic: float) -> float:
    r"""Standard deviation of a task's time from its two outer guesses.

    .. math:: \sigma = (p - o) / 6

    Parameters
    ----------
    optimistic, pessimistic
        Guesses, :math:`o, p`. [s]

    Returns
    -------
    Standard deviation, :math:`\sigma`; variances of tasks in a row add up. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; guesses out of order.

    Notes
    -----
    Range: a rule of thumb, as the mean.
    Source: program evaluation and review technique, textbook.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{pert_spread(optimistic=Q(1, 'h'), pessimistic=Q(7, 'h')).to('h'):.2f~P}")
    1.00 h
    """
    _refuse_unordered(optimistic, optimistic, pessimistic)
    return (pessimistic - optimistic) / 6


@door(deadline="s", mean="s", spread="s", returns="", possible={"deadline": ANY, "mean": ANY, "spread": NOT_NEGATIVE})
def chance_by(*, deadline: float, mean: float, spread: float) -> float:
    r"""Chance that a chain of tasks is done by a time.

    .. math:: P = \Phi \left( \frac{T - \sum \bar t}{\sqrt{\sum \sigma^2}} \right)

    Parameters
    ----------
    deadline
        Time asked about, :math:`T`. [s]
    mean
        Sum of the means along the critical path. [s]
    spread
        Root of the sum of the variances along it, :math:`\sigma`. [s]

    Returns
    -------
    Chance, 0 to 1. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: independent tasks, many of them, and one path that is clearly the longest; it flatters where a second is close.
    Source: program evaluation and review technique, textbook; normal distribution by the error function.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{chance_by(deadline=Q(55, 'h'), mean=Q(50, 'h'), spread=Q(5, 'h')):.4f}")
    0.8413
    """
    if spread == 0:
        return 1.0 if deadline >= mean else 0.0
    return (1 + erf((deadline - mean) / spread / sqrt(2))) / 2
