"""What a calendar is made from: tasks, gaps between them, people, hours, the room's temperature, and what is done already."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import isfinite

from moldcalc.errors import EntryError, Fault
from moldcalc.units import show

#: (from, to) in seconds from the calendar's zero
Span = tuple[float, float]

DAY = 86400.0
#: a grid and horizon that make more slots than this are refused: a year in quarters of an hour is 35 040
MOST_SLOTS = 50_000
MOST_TASKS = 2_000


@dataclass(frozen=True)
class Task:
    """One task that needs hands, or one thing that runs by itself. [s]

    ``people`` work on it for ``duration``; with 0 people it runs by itself and is not bound to opening hours. Where it is
    ``splittable``, work stops at closing time and goes on at the next opening; otherwise it fits between one opening and
    closing. ``kind`` is a word for pictures; tasks of kind 'coat' are counted by `Problem.pace`. ``tools`` are (tool, how many).
    Its start is not before and not after the two times, where they are given.
    """

    name: str
    duration: float
    people: int = 1
    splittable: bool = False
    kind: str = "work"
    tools: tuple[tuple[str, int], ...] = ()
    not_before: float | None = None
    not_after: float | None = None


@dataclass(frozen=True)
class Cure:
    """How a wait moves with the room's temperature: stated at ``reference`` [K], steepness ``activation_energy`` [J/mol]."""

    reference: float
    activation_energy: float


@dataclass(frozen=True)
class Gap:
    """From the end of one task to the start of another: at least ``earliest``, at most ``latest``. [s]

    Either may be None. With a ``cure`` both are times at its reference temperature and move with the room's; without, they are
    times by the clock. ``from_start`` counts from the start of the task before instead of its end.
    """

    before: str
    after: str
    earliest: float | None = 0.0
    latest: float | None = None
    cure: Cure | None = None
    from_start: bool = False


@dataclass(frozen=True)
class Apart:
    """Two sections that touch are never wet together: each is wet from its first task's start until ``wait`` after its last one's end. [s]"""

    one: tuple[str, str]
    other: tuple[str, str]
    wait: float = 0.0
    cure: Cure | None = None


@dataclass(frozen=True)
class Person:
    """Somebody who works: ``hours`` of their own (None: whenever it is open), and whether overtime is possible. [s]"""

    name: str
    hours: tuple[Span, ...] | None = None
    overtime: bool = True


@dataclass(frozen=True)
class Done:
    """What is done already, with its real times; ``end`` is None while it is still going on. [s]"""

    task: str
    start: float
    end: float | None = None


@dataclass(frozen=True)
class Room:
    """The room's temperature: ``temperatures[i]`` from ``times[i]`` on; the first one before, too. [s, K]"""

    times: tuple[float, ...] = (0.0,)
    temperatures: tuple[float, ...] = (293.15,)


@dataclass(frozen=True)
class Problem:
    """Everything that a calendar has to keep. [s]

    ``opening`` are the opening hours, ``overtime`` further hours that count as overtime; both over the whole horizon.
    ``days`` are the midnights, each day's start, for `pace` and for words. ``pace``: so many coats a day, in their order.
    ``now``: nothing that isn't done starts earlier.
    """

    tasks: tuple[Task, ...]
    gaps: tuple[Gap, ...] = ()
    aparts: tuple[Apart, ...] = ()
    people: tuple[Person, ...] = (Person("1"),)
    opening: tuple[Span, ...] = ()
    overtime: tuple[Span, ...] = ()
    room: Room = field(default_factory=Room)
    days: tuple[float, ...] = (0.0,)
    grid: float = 900.0
    horizon: float = 21 * DAY
    tools: tuple[tuple[str, int], ...] = ()
    done: tuple[Done, ...] = ()
    now: float | None = None
    pace: int | None = None

    def __post_init__(self) -> None:
        check(self)

    @property
    def slots(self) -> int:
        """How many cells of the grid the horizon has."""
        return int(self.horizon / self.grid + 1e-9)

    def names(self) -> dict[str, int]:
        """Task -> its place in the list."""
        return {task.name: i for i, task in enumerate(self.tasks)}


def check(problem: Problem) -> None:
    """Refuse what can't be a calendar; all faults at once.

    Raises
    ------
    EntryError
        A window whose latest is before its earliest, hours that never open, a person who never works, NaN, a horizon of 0,
        names that are missing or there twice, more people or tools asked for than there are.
    """
    faults = [*_of_size(problem), *_of_tasks(problem), *_of_links(problem), *_of_hours(problem), *_of_done(problem)]
    if faults:
        raise EntryError(faults)


def _bad(value: float | None, least: float = float("-inf")) -> bool:
    return value is not None and (not isfinite(value) or value < least)


def _said(value: float) -> str:
    return show(value, "h") if isfinite(value) else str(value)


def _of_size(problem: Problem) -> Iterable[Fault]:
    for entry, value in (("grid", problem.grid), ("horizon", problem.horizon)):
        if not isfinite(value) or value <= 0:
            yield Fault(entry, _said(value), "it must be above 0")
    if all(isfinite(x) and x > 0 for x in (problem.grid, problem.horizon)):
        slots = problem.horizon / problem.grid
        if slots < 1:
            yield Fault("horizon", _said(problem.horizon), f"it must be at least one step of the grid, {show(problem.grid, 'min')}")
        if slots > MOST_SLOTS:
            yield Fault("horizon", f"{slots:.3g} steps of the grid", f"at most {MOST_SLOTS}; take a coarser grid or a nearer horizon")
    if not problem.tasks:
        yield Fault("tasks", "an empty list", "give at least one")
    if len(problem.tasks) > MOST_TASKS:
        yield Fault("tasks", f"a list of {len(problem.tasks)}", f"at most {MOST_TASKS}")
    if problem.pace is not None and problem.pace < 1:
        yield Fault("coats a day", str(problem.pace), "it must be at least 1")
    room = problem.room
    if len(room.times) != len(room.temperatures) or not room.times:
        yield Fault("temperatures of the room", f"a list of {len(room.temperatures)}", f"give one for each of the {len(room.times)} times")
    wrong = [t for t in room.temperatures if _bad(t) or t <= 0] + [t for t in room.times if _bad(t)]
    if wrong:
        yield Fault("temperature of the room, or its time,", str(wrong[0]), "it must be a number, the temperature above 0 K")
    if list(room.times) != sorted(room.times) or list(problem.days) != sorted(set(problem.days)):
        yield Fault("the list of days or of temperatures", "out of order", "give it in order of time")
    if _bad(problem.now):
        yield Fault("now", str(problem.now), "give a time")


def _of_tasks(problem: Problem) -> Iterable[Fault]:
    have, seen = dict(problem.tools), set[str]()
    for task in problem.tasks:
        if task.name in seen:
            yield Fault("task", f"“{task.name}” twice", "give each its own name")
        seen.add(task.name)
        if _bad(task.duration, 0.0):
            yield Fault(f"time for {task.name}", _said(task.duration), "it must be at least 0 h")
        if task.people < 0 or task.people > len(problem.people):
            yield Fault(f"people for {task.name}", str(task.people), f"there are {len(problem.people)}")
        if _bad(task.not_before) or _bad(task.not_after):
            yield Fault(f"not before or not after for {task.name}", "no number", "give a time")
        elif task.not_before is not None and task.not_after is not None and task.not_after < task.not_before:
            yield Fault(task.name, f"to start not after {_said(task.not_after)}", f"it must not be before {_said(task.not_before)}")
        for tool, count in task.tools:
            if count < 0 or count > have.get(tool, 0):
                yield Fault(task.name, f"in need of {count} of “{tool}”", f"there are {have.get(tool, 0)}")


def _of_links(problem: Problem) -> Iterable[Fault]:
    names = {task.name for task in problem.tasks}
    asked = [name for gap in problem.gaps for name in (gap.before, gap.after)] + [n for a in problem.aparts for n in (*a.one, *a.other)]
    for name in sorted({*asked, *(done.task for done in problem.done)} - names):
        yield Fault("task", f"“{name}”", "there is none of that name")
    for gap in problem.gaps:
        entry = f"{gap.before} to {gap.after}"
        if _bad(gap.earliest) or _bad(gap.latest) or (gap.cure and (_bad(gap.earliest, 0.0) or _bad(gap.latest, 0.0))):
            yield Fault(entry, "a window that is no number or below 0", "give its earliest and latest")
        elif gap.earliest is not None and gap.latest is not None and gap.latest < gap.earliest:
            yield Fault(f"{entry}, latest", _said(gap.latest), f"it must not be before the earliest, {_said(gap.earliest)}")
        if gap.before == gap.after:
            yield Fault(entry, "a gap to itself", "give two tasks")
    for apart in problem.aparts:
        if _bad(apart.wait, 0.0):
            yield Fault(f"{apart.one[0]} beside {apart.other[0]}", f"wet for {_said(apart.wait)}", "it must be at least 0 h")
    for cure in {cure for cure in (*(gap.cure for gap in problem.gaps), *(apart.cure for apart in problem.aparts)) if cure}:
        if _bad(cure.reference) or cure.reference <= 0 or _bad(cure.activation_energy, 0.0):
            yield Fault("cure", f"at {cure.reference:g} K with {cure.activation_energy:g} J/mol", "both must be numbers, the first above 0")


def _of_hours(problem: Problem) -> Iterable[Fault]:
    spans = [*problem.opening, *problem.overtime, *(span for person in problem.people for span in person.hours or ())]
    wrong = [f"from {_said(a)} to {_said(b)}" for a, b in spans if _bad(a) or _bad(b) or b < a]
    if wrong:
        yield Fault("one opening", wrong[0], "give from and to, the first not after the second")
        return
    if any(task.people for task in problem.tasks):
        if not any(b > a and b > 0 and a < problem.horizon for a, b in (*problem.opening, *problem.overtime)):
            yield Fault("the place", "never open", "open on at least one day of the calendar")
            return
        for person in problem.people:
            if not any(b > a and a < problem.horizon for a, b in hours_of(problem, person)):
                yield Fault(person.name, "never there while it is open", "give hours within the opening hours, or leave them out")


def _of_done(problem: Problem) -> Iterable[Fault]:
    for done in problem.done:
        if _bad(done.start) or _bad(done.end):
            yield Fault(done.task, "done at a time that is no number", "give its real times")
        elif done.end is not None and done.end < done.start:
            yield Fault(f"end of {done.task}", _said(done.end), f"it must not be before its start, {_said(done.start)}")
        elif problem.now is not None and max(done.start, done.end or done.start) > problem.now + 1e-6:
            yield Fault(done.task, "done in the future", f"it must not be after now, {_said(problem.now)}")
    names = [done.task for done in problem.done]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield Fault(name, "done twice", "give its real times once")


# spans -------------------------------------------------------------------------------------------------------------
def merged(spans: Iterable[Span]) -> tuple[Span, ...]:
    """The same hours in order, those that touch or overlap made one."""
    out: list[Span] = []
    for a, b in sorted(span for span in spans if span[1] > span[0]):
        if out and a <= out[-1][1] + 1e-6:
            out[-1] = (out[-1][0], max(out[-1][1], b))
        else:
            out.append((a, b))
    return tuple(out)


def common(one: Iterable[Span], other: Iterable[Span]) -> tuple[Span, ...]:
    """The hours that are in both."""
    first, second = merged(one), merged(other)
    out: list[Span] = []
    i = j = 0
    while i < len(first) and j < len(second):
        a, b = max(first[i][0], second[j][0]), min(first[i][1], second[j][1])
        if b > a:
            out.append((a, b))
        if first[i][1] < second[j][1]:
            i += 1
        else:
            j += 1
    return tuple(out)


def hours_of(problem: Problem, person: Person) -> tuple[Span, ...]:
    """When a person can be asked to work: own hours while it is open, and overtime."""
    regular = problem.opening if person.hours is None else common(problem.opening, person.hours)
    return merged((*regular, *(problem.overtime if person.overtime else ())))
