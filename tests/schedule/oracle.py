"""Calendars by trying everything, cell by cell: slow, simple, and apart from the solver."""

from itertools import combinations, pairwise, product
from math import exp

from moldcalc.schedule.tasks import Problem

R = 8.314462618


def rate(problem, time, cure):
    """Speed of a cure at a moment."""
    if cure is None:
        return 1.0
    kelvin = problem.room.temperatures[0]
    for since, temperature in zip(problem.room.times, problem.room.temperatures, strict=True):
        if time >= since - 1e-9:
            kelvin = temperature
    return exp(-cure.activation_energy / R * (1 / kelvin - 1 / cure.reference))


def age(problem, start, end, cure):
    """Equivalent age between two moments, piece by piece."""
    if cure is None:
        return end - start
    edges = [start, *(t for t in problem.room.times if start < t < end), end]
    return sum((b - a) * rate(problem, (a + b) / 2, cure) for a, b in pairwise(edges))


def people_at(problem, cell):
    """Who can work through a whole cell, and whether that is overtime, by person."""
    a, b = cell * problem.grid, (cell + 1) * problem.grid
    inside = [any(x <= a + 1e-6 and b <= y + 1e-6 for x, y in spans) for spans in (problem.opening, problem.overtime)]
    out = {}
    for p, person in enumerate(problem.people):
        own = person.hours is None or any(x <= a + 1e-6 and b <= y + 1e-6 for x, y in person.hours)
        if inside[0] and own:
            out[p] = 0
        elif inside[1] and person.overtime:
            out[p] = 1
    return out


def work(problem, task, start, crew, there):
    """(cells the task is held for, real end in s, overtime cells), or None where it can't start there with this crew."""
    need = -(-round(task.duration) // int(problem.grid))
    if not task.people:
        cells = list(range(start, start + need))
        return (cells, start * problem.grid + task.duration, 0) if start + need <= problem.slots else None
    worked, cell = [], start
    while len(worked) < need:
        if cell >= problem.slots:
            return None
        if all(p in there[cell] for p in crew):
            worked.append(cell)
        elif not worked or not task.splittable:
            return None
        cell += 1
    end = (worked[-1] + 1) * problem.grid - (need * problem.grid - task.duration)
    return list(range(start, worked[-1] + 1)), end, sum(there[c][p] for c in worked for p in crew)


def options(problem, task, there):
    """Every (start, crew, cells, real end, overtime) of one task."""
    out = []
    for start in range(problem.slots):
        if task.not_before is not None and start * problem.grid < task.not_before - 1e-6:
            continue
        if task.not_after is not None and start * problem.grid > task.not_after + 1e-6:
            continue
        for crew in combinations(range(len(problem.people)), task.people):
            done = work(problem, task, start, crew, there)
            if done:
                out.append((start, crew, *done))
    return out


def keeps(problem, plan):
    """Whether a whole plan keeps gaps, people, tools and sections apart. plan: task name -> option."""
    for gap in problem.gaps:
        since = plan[gap.before][0] * problem.grid if gap.from_start else plan[gap.before][3]
        then = plan[gap.after][0] * problem.grid
        passed = age(problem, since, then, gap.cure) if then >= since else -age(problem, then, since, gap.cure)
        if gap.earliest is not None and passed < gap.earliest - 1e-4:
            return False
        if gap.latest is not None and passed > gap.latest + 1e-4:
            return False
    for apart in problem.aparts:
        def after(one, other, apart=apart):
            since, then = plan[one[1]][3], plan[other[0]][0] * problem.grid
            return then >= since - 1e-6 and age(problem, since, then, apart.cure) >= apart.wait - 1e-4
        if not after(apart.one, apart.other) and not after(apart.other, apart.one):
            return False
    held, used = set(), {}
    tasks = {task.name: task for task in problem.tasks}
    for name, (_, crew, cells, _, _) in plan.items():
        for cell in cells:
            for person in crew:
                if (person, cell) in held:
                    return False
                held.add((person, cell))
            for tool, count in tasks[name].tools:
                used[tool, cell] = used.get((tool, cell), 0) + count
    return all(count <= dict(problem.tools)[tool] for (tool, _), count in used.items())


def best(problem: Problem):
    """(end in cells, least overtime in cells) of the shortest calendar, or None; by trying every plan."""
    there = [people_at(problem, cell) for cell in range(problem.slots)]
    choices = [options(problem, task, there) for task in problem.tasks]
    found = None
    for picks in product(*choices):
        end = max(start + len(cells) for start, _, cells, _, _ in picks)
        over = sum(pick[4] for pick in picks)
        if found is not None and (end, over) >= found:
            continue
        if keeps(problem, {task.name: pick for task, pick in zip(problem.tasks, picks, strict=True)}):
            found = (end, over)
    return found
