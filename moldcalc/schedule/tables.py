"""The calendar's rules on the grid: where each task may start, when it then ends, and from when until when the next may follow."""

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from moldcalc.errors import EntryError, Fault
from moldcalc.schedule.tasks import Cure, Gap, Person, Problem, Room, Span, Task, common, hours_of, merged
from moldcalc.stages.cure import arrhenius_factor
from moldcalc.units import show

Whole = NDArray[np.int64]
Real = NDArray[np.float64]
#: a rule that may be left out when a clash is looked for: what it is, and of which task, gap or pair
Rule = tuple[str, int]
#: a time this close to a step of the grid is on it, s
NEAR = 1e-6
NEVER = np.int64(2**40)


@dataclass(frozen=True)
class Choice:
    """A crew for a task, how many of each group of people; its possible starts and what follows from them.

    ``starts`` and ``ends`` in steps of the grid, ``real`` ends in seconds, ``over`` the overtime in steps times people.
    """

    crew: tuple[int, ...]
    starts: Whole
    ends: Whole
    real: Real
    over: Whole


@dataclass(frozen=True)
class Tables:
    """The whole problem on the grid. ``low`` and ``high`` bound each task's start by time alone."""

    problem: Problem
    groups: tuple[tuple[int, ...], ...]
    choices: tuple[tuple[Choice, ...], ...]
    starts: tuple[Whole, ...]
    possible: bool


class Clock:
    """Waits in a room whose temperature changes: by the clock, or by equivalent age."""

    def __init__(self, room: Room) -> None:
        self.times = np.array(room.times, dtype=float)
        self.temperatures = room.temperatures
        self._ages: dict[Cure, tuple[Real, Real]] = {}

    def _of(self, cure: Cure) -> tuple[Real, Real]:
        if cure not in self._ages:
            rates = np.array([arrhenius_factor.si(temperature=t, reference=cure.reference, activation_energy=cure.activation_energy)
                              for t in self.temperatures])
            if not (np.isfinite(rates).all() and (rates > 1e-9).all()):
                coldest = min(self.temperatures)
                raise EntryError(Fault("temperature of the room", show(coldest, "°C"), "nothing cures there; warm the room"))
            ages = np.concatenate([[0.0], np.cumsum(np.diff(self.times) * rates[:-1])])
            self._ages[cure] = rates, ages
        return self._ages[cure]

    def after(self, since: Real, wait: float, cure: Cure | None) -> Real:
        """When a wait that begins at each time is over. [s]"""
        if cure is None:
            return since + wait
        rates, ages = self._of(cure)
        at = np.clip(np.searchsorted(self.times, since, side="right") - 1, 0, None)
        age = ages[at] + (since - self.times[at]) * rates[at] + wait
        to = np.clip(np.searchsorted(ages, age, side="right") - 1, 0, None)
        done: Real = self.times[to] + (age - ages[to]) / rates[to]
        return done


def up(times: Real | float, grid: float) -> Whole:
    """The first step of the grid not before each time."""
    return np.ceil((np.asarray(times) - NEAR) / grid).astype(np.int64)


def down(times: Real | float, grid: float) -> Whole:
    """The last step of the grid not after each time."""
    return np.floor((np.asarray(times) + NEAR) / grid).astype(np.int64)


def groups_of(problem: Problem) -> tuple[tuple[int, ...], ...]:
    """People with the same hours are one group."""
    found: dict[tuple[Span, ...], list[int]] = {}
    for i, person in enumerate(problem.people):
        found.setdefault(hours_of(problem, person), []).append(i)
    return tuple(tuple(group) for group in found.values())


def _inside(spans: tuple[Span, ...], duration: float, problem: Problem) -> Whole:
    """Steps at which a task starts that fits into one span."""
    grid, last = problem.grid, problem.slots
    parts = [np.arange(max(0, int(up(a, grid))), min(int(down(b - duration, grid)), last - 1) + 1) for a, b in spans if b - a >= duration - NEAR]
    return np.concatenate(parts).astype(np.int64) if parts else np.zeros(0, np.int64)


def _cells(spans: tuple[Span, ...], problem: Problem) -> Whole:
    """Steps of the grid that lie wholly inside spans."""
    return _inside(spans, problem.grid, problem)


class _Maker:
    """Makes the choices of tasks; hours are worked out once for each group."""

    def __init__(self, problem: Problem, dropped: frozenset[Rule]) -> None:
        self.problem, self.dropped = problem, dropped
        self.groups = groups_of(problem)
        self.hours = [hours_of(problem, problem.people[group[0]]) for group in self.groups]
        self.over = [self._overtime(problem.people[group[0]]) for group in self.groups]
        self._crews: dict[tuple[int, ...], tuple[tuple[Span, ...], Whole]] = {}

    def _overtime(self, person: Person) -> Whole:
        """Overtime steps passed before each step of the grid."""
        regular = self.problem.opening if person.hours is None else common(self.problem.opening, person.hours)
        extra = np.zeros(self.problem.slots + 1, np.int64)
        if self.problem.overtime and person.overtime:
            extra[_cells(merged(self.problem.overtime), self.problem)] = 1
            extra[_cells(merged(regular), self.problem)] = 0
        return np.concatenate([[0], np.cumsum(extra)])

    def crews(self, people: int) -> list[tuple[int, ...]]:
        """How a number of people can be taken from the groups."""
        sizes = [len(group) for group in self.groups]
        return [crew for crew in product(*(range(min(size, people) + 1) for size in sizes)) if sum(crew) == people]

    def together(self, crew: tuple[int, ...]) -> tuple[Span, ...]:
        """Hours when all of a crew are there."""
        spans: tuple[Span, ...] | None = None
        for count, hours in zip(crew, self.hours, strict=True):
            if count:
                spans = hours if spans is None else common(spans, hours)
        return spans or ()

    def choice(self, index: int, task: Task, crew: tuple[int, ...]) -> Choice:
        """The starts of a task with this crew."""
        problem, grid = self.problem, self.problem.grid
        length = int(up(task.duration, grid))
        free = not task.people or ("hours", index) in self.dropped
        spans = ((0.0, problem.horizon),) if free else self.together(crew)
        if task.splittable and not free and length > 0:
            cells = _cells(spans, problem)
            starts = cells[: max(0, len(cells) - length + 1)]
            ends = cells[length - 1:][: len(starts)] + 1
            worked = np.zeros((len(self.over), problem.slots + 1), bool)
            worked[:, cells] = True
        else:
            starts = _inside(spans, task.duration, problem)
            ends = starts + length
            worked = np.ones((len(self.over), problem.slots + 1), bool)
        keep = self._bounds(index, task, starts) & (ends <= problem.slots)
        starts, ends = starts[keep], ends[keep]
        real = (ends * grid - (length * grid - task.duration)).astype(float)
        over = np.zeros(len(starts), np.int64)
        for count, passed, there in zip(crew, self.over, worked, strict=True):
            if count:
                only = np.concatenate([[0], np.cumsum(np.diff(passed) * there)])
                over += count * (only[ends] - only[starts])
        return Choice(crew, starts, ends, real, over)

    def _bounds(self, index: int, task: Task, starts: Whole) -> NDArray[np.bool_]:
        keep = np.ones(len(starts), bool)
        if ("bounds", index) not in self.dropped:
            if task.not_before is not None:
                keep &= starts >= up(task.not_before, self.problem.grid)
            if task.not_after is not None:
                keep &= starts <= down(task.not_after, self.problem.grid)
        if self.problem.now is not None:
            keep &= starts >= up(self.problem.now, self.problem.grid)
        return keep

    def real(self, task: Task, start: float, end: float | None) -> Choice:
        """A task with its real times; they need not be on the grid. One still going on ends when its duration is over, not before now."""
        problem = self.problem
        crew = self.crews(task.people)[0] if task.people else (0,) * len(self.groups)
        if end is None:
            end = max(start + task.duration, problem.now or 0.0)
            if task.splittable and task.people:
                end = max(worked_until(self.together(crew), start, task.duration), problem.now or 0.0)
        one = np.array([int(down(start, problem.grid))])
        return Choice(crew, one, np.maximum(one, up(np.array([end]), problem.grid)), np.array([end]), np.zeros(1, np.int64))


def worked_until(spans: tuple[Span, ...], start: float, duration: float) -> float:
    """When a task that stops at closing time is done. [s]"""
    left = duration
    for a, b in spans:
        if b > start:
            here = b - max(a, start)
            if left <= here + NEAR:
                return max(a, start) + left
            left -= here
    return max(start, spans[-1][1] if spans else start) + left


def tables(problem: Problem, dropped: frozenset[Rule] = frozenset(), until: int | None = None) -> Tables:
    """Put a problem on the grid, without the rules dropped, with every task ended by the step ``until``."""
    maker = _Maker(problem, dropped)
    done = {one.task: one for one in problem.done}
    made: list[tuple[Choice, ...]] = []
    for index, task in enumerate(problem.tasks):
        if task.name in done:
            made.append((maker.real(task, done[task.name].start, done[task.name].end),))
            continue
        crews = maker.crews(task.people) if task.people else [(0,) * len(maker.groups)]
        choices = [maker.choice(index, task, crew) for crew in crews]
        if until is not None:
            choices = [_cut(choice, choice.ends <= until) for choice in choices]
        made.append(tuple(choice for choice in choices if len(choice.starts)))
    return _narrowed(problem, dropped, maker.groups, made)


def _cut(choice: Choice, keep: NDArray[np.bool_]) -> Choice:
    return Choice(choice.crew, choice.starts[keep], choice.ends[keep], choice.real[keep], choice.over[keep])


def union(choices: tuple[Choice, ...]) -> Whole:
    """All starts of a task, in order."""
    if not choices:
        return np.zeros(0, np.int64)
    return choices[0].starts if len(choices) == 1 else np.unique(np.concatenate([choice.starts for choice in choices]))


def bounds(problem: Problem, clock: Clock, gap: Gap, choice: Choice) -> tuple[Whole | None, Whole | None]:
    """For each start of the task before: the first and last step at which the task after may start."""
    since: Real = (choice.starts * problem.grid).astype(float) if gap.from_start else choice.real
    low = None if gap.earliest is None else up(clock.after(since, gap.earliest, gap.cure), problem.grid)
    high = None if gap.latest is None else down(clock.after(since, gap.latest, gap.cure), problem.grid)
    return low, high


def open_gaps(problem: Problem, dropped: frozenset[Rule]) -> list[tuple[int, Gap]]:
    """Gaps that still bind: what is done is done, so none before a task that is; without the halves dropped."""
    done = {one.task for one in problem.done}
    out = []
    for i, gap in enumerate(problem.gaps):
        if gap.after in done:
            continue
        early = None if ("earliest", i) in dropped else gap.earliest
        late = None if ("latest", i) in dropped else gap.latest
        if early is not None or late is not None:
            out.append((i, Gap(gap.before, gap.after, early, late, gap.cure, gap.from_start)))
    return out


def _narrowed(problem: Problem, dropped: frozenset[Rule], groups: tuple[tuple[int, ...], ...], made: list[tuple[Choice, ...]]) -> Tables:
    """Cut away starts that gaps alone forbid, until nothing changes; what is left bounds every calendar."""
    at, clock = problem.names(), Clock(problem.room)
    gaps = [(at[gap.before], at[gap.after], gap) for _, gap in open_gaps(problem, dropped)]
    of_task: dict[int, set[int]] = {}
    for g, (i, j, _) in enumerate(gaps):
        of_task.setdefault(i, set()).add(g)
        of_task.setdefault(j, set()).add(g)
    waiting = set(range(len(gaps)))
    # forwards and backwards by turns; on a cycle that can't be kept the cuts would go on one by one, so the sweeps are counted
    for sweep in range(60):
        for g in sorted(waiting, reverse=bool(sweep % 2)):
            waiting.discard(g)
            i, j, gap = gaps[g]
            for task in _through(problem, clock, gap, made, i, j):
                waiting |= of_task[task] - {g}
        if not waiting or not all(made):
            break
    starts = tuple(union(choices) for choices in made)
    return Tables(problem, groups, tuple(made), starts, all(len(one) for one in starts))


def _through(problem: Problem, clock: Clock, gap: Gap, made: list[tuple[Choice, ...]], i: int, j: int) -> set[int]:
    """One gap's cuts on the starts of both its tasks."""
    after = union(made[j])
    kept: list[Choice] = []
    lowest, highest = NEVER, -NEVER
    for choice in made[i]:
        low, high = bounds(problem, clock, gap, choice)
        first = np.zeros(len(choice.starts), np.int64) if low is None else np.searchsorted(after, low, side="left")
        last = np.full(len(choice.starts), len(after)) if high is None else np.searchsorted(after, high, side="right")
        keep = first < last
        if keep.any():
            kept.append(choice if keep.all() else _cut(choice, keep))
            lowest, highest = min(lowest, after[first[keep].min()]), max(highest, after[last[keep].max() - 1])
    changed: set[int] = set()
    if sum(len(choice.starts) for choice in kept) < sum(len(choice.starts) for choice in made[i]):
        changed.add(i)
        made[i] = tuple(kept)
    if len(after) and (after[0] < lowest or after[-1] > highest):
        cut = [_cut(choice, (choice.starts >= lowest) & (choice.starts <= highest)) for choice in made[j]]
        made[j] = tuple(choice for choice in cut if len(choice.starts))
        changed.add(j)
    return changed
