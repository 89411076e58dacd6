"""Ends that no calendar beats: by gaps and hours alone, and by the sum of all work."""

import numpy as np

from moldcalc.schedule.tables import Tables, down, up
from moldcalc.schedule.tasks import hours_of


def volume_bound(made: Tables) -> int:
    """A step before which all hands-on work can't be done by all people together, whatever its order."""
    problem = made.problem
    work = sum(int(up(task.duration, problem.grid)) * task.people for task in problem.tasks if task.name not in {d.task for d in problem.done})
    if not work:
        return 0
    cells = np.zeros(problem.slots + 1, np.int64)
    for person in problem.people:
        for a, b in hours_of(problem, person):
            a = max(a, problem.now or 0.0)
            if b > a:
                # a slot that is partly open may still hold part of a task
                cells[max(0, int(down(a, problem.grid))): max(0, min(problem.slots, int(up(b, problem.grid))))] += 1
    return int(np.searchsorted(np.cumsum(cells), work)) + 1


def lower_bound(made: Tables) -> int:
    """The end that gaps and hours alone allow, and the sum of all work; no calendar ends sooner."""
    ends = [min(int(choice.ends.min()) for choice in choices) for choices in made.choices]
    return max([*ends, volume_bound(made)])

