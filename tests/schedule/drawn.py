"""Small calendars drawn at random, for the solver against trying everything."""

from random import Random

from moldcalc.schedule.tasks import Apart, Cure, Gap, Person, Problem, Room, Task

HOUR = 3600.0


def drawn(seed: int) -> Problem:
    """A problem of two to four tasks over 12 to 16 cells: everything that a calendar can have turns up in some."""
    r = Random(seed)
    cells = r.randint(10, 16)
    count = r.choice([2, 3, 3, 3, 4])
    people = tuple(Person(f"p{i}", _hours(r, cells) if r.random() < 0.35 else None, r.random() < 0.7) for i in range(r.choice([1, 1, 2, 2])))
    tools = (("pot", r.randint(1, 2)),) if r.random() < 0.4 else ()
    opening = _hours(r, cells, least=3)
    overtime = tuple((b, min(b + HOUR * r.randint(1, 2), cells * HOUR)) for _, b in opening) if r.random() < 0.4 else ()
    overtime = tuple(span for span in overtime if span[1] > span[0])
    tasks = tuple(_task(r, i, people, tools, cells) for i in range(count))
    cure = Cure(293.15, 50e3) if r.random() < 0.5 else None
    gaps = tuple(_gap(r, i, j, cure) for i in range(count) for j in range(i + 1, count) if r.random() < 0.5)
    aparts = (Apart((tasks[0].name,) * 2, (tasks[1].name,) * 2, r.choice([0, 1, 2.5]) * HOUR, cure),) if r.random() < 0.4 else ()
    turn = sorted(r.sample(range(1, cells), 2))
    room = Room((0.0, turn[0] * HOUR, turn[1] * HOUR), (r.uniform(290, 298), r.uniform(285, 292), r.uniform(290, 298)))
    return Problem(tasks, gaps, aparts, people, opening, overtime, room, days=(0.0,), grid=HOUR, horizon=cells * HOUR, tools=tools)


def _hours(r: Random, cells: int, least: int = 2) -> tuple[tuple[float, float], ...]:
    first = r.randint(0, 2)
    length = r.randint(least, cells - 3)
    spans = [(first * HOUR, (first + length) * HOUR)]
    rest = first + length + r.randint(1, 4)
    if rest < cells:
        spans.append((rest * HOUR, r.randint(rest + 1, cells) * HOUR))
    return tuple(spans)


def _task(r: Random, i: int, people: tuple[Person, ...], tools: tuple[tuple[str, int], ...], cells: int) -> Task:
    hours = r.choice([0.5, 1, 1, 1.5, 2, 2, 3, 4])
    own = ((("pot", r.randint(1, tools[0][1])),) if tools and r.random() < 0.6 else ())
    earliest = r.randint(0, 4) * HOUR if r.random() < 0.2 else None
    latest = r.randint(4, cells) * HOUR if r.random() < 0.2 else None
    hands = r.randint(0, len(people))
    hours = r.choice([0, hours]) if not hands else hours  # what runs by itself may be a mere moment
    return Task(f"t{i}", hours * HOUR, hands, r.random() < 0.4, "work", own, earliest, latest)


def _gap(r: Random, i: int, j: int, cure: Cure | None) -> Gap:
    kind = r.random()
    low = r.choice([0, 0.5, 1, 1.25, 2, 3.3]) * HOUR
    high = low + r.choice([0, 0.5, 1, 2, 3.7, 6]) * HOUR
    mine = cure if r.random() < 0.7 else None
    if kind < 0.3:
        return Gap(f"t{i}", f"t{j}", low, None, mine, r.random() < 0.3)
    if kind < 0.85:
        return Gap(f"t{i}", f"t{j}", low, high, mine, r.random() < 0.3)
    return Gap(f"t{j}", f"t{i}", None, high, mine)
