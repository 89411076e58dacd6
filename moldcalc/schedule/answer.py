"""What a search for a calendar gives: bookings, how good they are, and what is proven."""

from dataclasses import dataclass

import numpy as np

from moldcalc.scan.progress import Progress
from moldcalc.schedule.tables import Tables
from moldcalc.schedule.tasks import Problem


@dataclass(frozen=True)
class Booked:
    """One task in a calendar: when, by whom, how much of it is overtime (person-seconds), and whether it is done already. [s]"""

    task: str
    kind: str
    start: float
    end: float
    people: tuple[str, ...]
    overtime: float = 0.0
    done: bool = False


@dataclass(frozen=True)
class Calendar:
    """A calendar and how good it is. [s]

    ``end`` is when its last task is done, rounded up to the grid; no calendar ends before ``bound``. ``overtime`` is in person-seconds; no calendar
    with this end needs less than ``overtime_bound``. ``solved_in`` is the solver's own time. ``booked`` is empty where
    time ran out before a calendar was found.
    """

    booked: tuple[Booked, ...]
    end: float
    bound: float
    overtime: float
    overtime_bound: float
    solved_in: float
    grid: float

    @property
    def proven(self) -> bool:
        """Whether no calendar is shorter, and none as short needs less overtime."""
        return bool(self.booked) and self.end <= self.bound + 1e-6 and self.overtime <= self.overtime_bound + 1e-6

    def of(self, task: str) -> Booked:
        """The booking of a task."""
        return next(one for one in self.booked if one.task == task)


class Step(Progress):
    """How far a search is, with the best calendar so far and the bound that no calendar beats."""

    best: Calendar | None
    bound: float

    @classmethod
    def of(cls, said: str, share: float, best: Calendar | None, bound: float) -> "Step":
        """A step with its best and bound."""
        step = cls(said, share)
        step.best, step.bound = best, bound
        return step


@dataclass(frozen=True)
class Impossible:
    """There is no calendar that ends in time; proven."""

    solved_in: float


def booked_from(problem: Problem, whole: Tables, starts: list[int], crews: list[tuple[int, ...]]) -> tuple[Booked, ...]:
    """Bookings from starts and crews; who of a group takes what is settled here, first come first served."""
    done = {one.task: one for one in problem.done}
    busy: dict[int, float] = {}
    out: dict[int, Booked] = {}
    for index in sorted(range(len(starts)), key=lambda i: (starts[i], i)):
        task, crew = problem.tasks[index], crews[index]
        choice = next(c for c in whole.choices[index] if c.crew == crew)
        place = int(np.searchsorted(choice.starts, starts[index]))
        begin, end = starts[index] * problem.grid, float(choice.real[place])
        takes = True
        if task.name in done:
            begin, takes = done[task.name].start, done[task.name].end is None
        names: list[str] = []
        for group, need in zip(whole.groups, crew, strict=True):
            free = [p for p in group if busy.get(p, -np.inf) <= starts[index]] or list(group)
            for person in free[:need]:
                names.append(problem.people[person].name)
                if takes:
                    busy[person] = max(busy.get(person, -np.inf), int(choice.ends[place]))
        out[index] = Booked(task.name, task.kind, begin, end, tuple(names), float(choice.over[place]) * problem.grid, task.name in done and not takes)
    return tuple(out[i] for i in range(len(starts)))
