"""The task list of a whole mold, from survey to the last cast, out of plain numbers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from math import isfinite
from typing import Any

from moldcalc.errors import EntryError, Fault
from moldcalc.schedule.tasks import MOST_TASKS, Apart, Cure, Gap, Problem, Task
from moldcalc.units import show

HOUR = 3600.0
MINUTE = 60.0


@dataclass(frozen=True)
class Layer:
    """Rubber that goes on within the window of what is below it: a coat, paste in pockets, strips, the final coat. [s]

    ``kind`` is 'coat', 'paste' or 'strips'. ``batches`` are cups mixed one after another within ``duration``.
    """

    name: str
    duration: float
    people: int = 2
    kind: str = "coat"
    batches: int = 1


@dataclass(frozen=True)
class ShellSection:
    """A section of the shell: what it touches, and the hands-on time of each lamination, the first with the surface coat. [s]"""

    name: str
    laminations: tuple[float, ...]
    touches: tuple[str, ...] = ()
    people: int = 2


@dataclass(frozen=True)
class BenchTimes:
    """Hands-on times of all the rest, each an entry; 0 leaves a task out. [s]

    The defaults are those of a job of about 2 m² for two people: common practice, no source.
    """

    survey: float = 2 * HOUR
    patch_tests: float = HOUR
    board: float = 2 * HOUR
    strips_cast: float = HOUR
    read_patches: float = 0.5 * HOUR
    sealing: float = 1.5 * HOUR
    clay: float = 2.5 * HOUR
    mesh: float = HOUR
    release: float = 0.5 * HOUR
    trim_rubber: float = HOUR
    mark_pulls: float = HOUR
    cut_glass: float = 2 * HOUR
    shims: float = HOUR
    legs: float = 2 * HOUR
    edges: float = 2 * HOUR
    drilling: float = 3 * HOUR
    opening: float = 2 * HOUR
    seam: float = HOUR
    peel: float = 2 * HOUR
    patching: float = HOUR
    first_cast: float = 2 * HOUR
    corrections: float = 2 * HOUR
    cast: float = 4 * HOUR
    cast_out: float = HOUR


@dataclass(frozen=True)
class MoldJob:
    """A mold job in plain numbers. Times of cure are at the reference of `rubber` or `resin`, and move with the room. [s]

    ``earliest`` and ``latest`` bound the start of each layer from the end of the one below. ``demold`` is the rubber's cure before
    resin comes near, ``strip_cure`` and ``strip_fresh`` when strips may be set at the earliest and the latest. ``partial_cure`` lies between
    two laminations of a section, at most ``lamination_latest``; after ``shell_cure`` a neighbour may be begun; ``final_cure`` comes before
    edges and drilling. By the clock: ``patch_wait``, ``sealer_dry``, ``release_dry``, ``vent`` (rubber lies open before the first cast),
    ``cast_hours`` in the mold.
    """

    layers: tuple[Layer, ...]
    sections: tuple[ShellSection, ...]
    earliest: float
    latest: float
    demold: float
    rubber: Cure | None
    shell_cure: float
    resin: Cure | None
    partial_cure: float = HOUR
    lamination_latest: float | None = 24 * HOUR
    final_cure: float = 16 * HOUR
    strip_cure: float = 4 * HOUR
    strip_fresh: float = 7 * 24 * HOUR
    patch_wait: float = 24 * HOUR
    sealer_dry: float = 0.5 * HOUR
    release_dry: float = 0.5 * HOUR
    vent: float = 48 * HOUR
    cast_hours: float = 24 * HOUR
    first_cast_hours: float = 24 * HOUR
    casts: int = 1
    people: int = 2
    times: BenchTimes = field(default_factory=BenchTimes)


@dataclass(frozen=True)
class TaskList:
    """Tasks, gaps and pairs kept apart: what a `Problem` needs from a job."""

    tasks: tuple[Task, ...]
    gaps: tuple[Gap, ...]
    aparts: tuple[Apart, ...]

    def problem(self, **shop: Any) -> Problem:
        """The problem of this list in a shop: people, opening, room, days, grid, horizon and the rest of `Problem`."""
        return Problem(tasks=self.tasks, gaps=self.gaps, aparts=self.aparts, **shop)


class _List:
    def __init__(self, job: MoldJob) -> None:
        self.job = job
        self.tasks: list[Task] = []
        self.gaps: list[Gap] = []
        self.aparts: list[Apart] = []

    def add(self, name: str, duration: float, after: Sequence[str | None] = (), *, people: int = 1, kind: str = "work", splittable: bool = False,
            wait: float = 0.0, cure: Cure | None = None) -> str | None:
        """One task after others; a task of no duration is left out and hands on what it waits for."""
        if duration <= 0:
            return next((name for name in after if name), None)
        self.tasks.append(Task(name, duration, min(people, self.job.people), splittable, kind))
        self.gaps += [Gap(before, name, wait, None, cure if wait else None) for before in dict.fromkeys(after) if before]
        return name


def tasks_of(job: MoldJob) -> TaskList:
    """Every task of a mold job and what lies between them.

    Parameters
    ----------
    job
        Layers of rubber in their order, sections of the shell, windows, cures and hands-on times. [s]

    Returns
    -------
    Tasks in the order of the bench, gaps, and pairs of sections that are never wet together.

    Raises
    ------
    EntryError
        A window whose latest is before its earliest, a time that is no number or below 0, names there twice, no people.

    Notes
    -----
    Range: one original, one mold. A section is prepared (shims, waxed flange) when its neighbours are cured or not begun.
    Source: order of the work: common practice, no source.
    """
    _refuse(job)
    out = _List(job)
    ready = _before_rubber(out)
    cured = _rubber(out, ready)
    last = _shell(out, cured)
    _casts(out, _opened(out, last))
    if len(out.tasks) > MOST_TASKS:
        raise EntryError(Fault("tasks", f"a list of {len(out.tasks)}", f"at most {MOST_TASKS}"))
    return TaskList(tuple(out.tasks), tuple(out.gaps), tuple(out.aparts))


def _refuse(job: MoldJob) -> None:
    faults = []
    numbers: Mapping[str, Any] = {f.name: getattr(job, f.name) for f in fields(job)} | {f.name: getattr(job.times, f.name) for f in fields(job.times)}
    for name, value in numbers.items():
        if isinstance(value, (int, float)) and (not isfinite(value) or value < 0):
            faults.append(Fault(name.replace("_", " "), str(value), "it must be a number of at least 0"))
    hands = [(layer.name, (layer.duration,)) for layer in job.layers] + [(section.name, section.laminations) for section in job.sections]
    for name, times in hands:
        if not all(isfinite(t) and t > 0 for t in times):
            faults.append(Fault(f"time for {name}", "no number above 0", "give its hands-on time"))
    if not faults and job.latest < job.earliest:
        faults.append(Fault("Next coat not after", show(job.latest, "h"), f"it must not be before the earliest, {show(job.earliest, 'h')}"))
    names = [section.name for section in job.sections]
    for section in job.sections:
        for other in section.touches:
            if other not in names or other == section.name:
                faults.append(Fault(f"{section.name} touches", f"“{other}”", "give names of other sections"))
    if job.people < 1:
        faults.append(Fault("people", str(job.people), "it must be at least 1"))
    if job.casts > 1000:
        faults.append(Fault("casts", str(job.casts), "at most 1000"))
    for name in sorted({name for name in names if names.count(name) > 1}):
        faults.append(Fault("section", f"“{name}” twice", "give each its own name"))
    if faults:
        raise EntryError(faults)


def _before_rubber(out: _List) -> list[str | None]:
    job, t, all_ = out.job, out.job.times, out.job.people
    survey = out.add("survey", t.survey, people=all_, kind="survey", splittable=True)
    patches = out.add("patch tests", t.patch_tests, [survey], kind="survey")
    board = out.add("board and lamps", t.board, [survey], people=all_, kind="base", splittable=True)
    read = out.add("read patch tests", t.read_patches, [patches], kind="survey", wait=job.patch_wait)
    seal = out.add("sealing", t.sealing, [read, board], people=all_, kind="base")
    clay = out.add("clay fills and fence", t.clay, [board, seal], people=all_, kind="base", splittable=True, wait=job.sealer_dry)
    mesh = out.add("cut mesh", t.mesh, [survey], kind="base", splittable=True) if t.mesh else None
    release = out.add("release", t.release, [clay, seal], people=all_, kind="base")
    return [release, mesh, board, read]


def _rubber(out: _List, ready: list[str | None]) -> str | None:
    """The layers, each within the window of the one below; then the cure."""
    job, t = out.job, out.job.times
    strips = None
    if any(layer.kind == "strips" for layer in job.layers):
        strips = out.add("cast strips", t.strips_cast, ["survey" if t.survey > 0 else None], kind="strips")
    below: str | None = None
    for layer in job.layers:
        people = min(layer.people, job.people)
        out.tasks.append(Task(layer.name, layer.duration, people, False, layer.kind))
        if below is None:
            out.gaps += [Gap(name, layer.name, job.release_dry if name == "release" else 0.0) for name in dict.fromkeys(ready) if name]
        else:
            out.gaps.append(Gap(below, layer.name, job.earliest, job.latest, job.rubber))
        if layer.kind == "strips" and strips:
            out.gaps.append(Gap(strips, layer.name, job.strip_cure, job.strip_fresh, job.rubber))
        below = layer.name
    trim = out.add("trim rubber", t.trim_rubber, [below, *([] if below else ready)], kind="rubber", wait=job.demold, cure=job.rubber)
    return out.add("mark pulls and wax", t.mark_pulls, [trim], people=job.people, kind="shell")


def _shell(out: _List, cured: str | None) -> list[str]:
    """Each section: shims, laminations with a partial cure between; neighbours apart. Returns what the legs wait for."""
    job, t = out.job, out.job.times
    glass = out.add("cut glass", t.cut_glass, ["survey" if t.survey > 0 else None], people=job.people, kind="shell", splittable=True)
    ends: dict[str, tuple[str, str]] = {}
    for section in job.sections:
        first = before = out.add(f"shims, {section.name}", t.shims, [cured], people=1, kind="shell") if t.shims > 0 else cured
        for n, time in enumerate(section.laminations, 1):
            name = f"{section.name}, lamination {n}"
            out.tasks.append(Task(name, time, min(section.people, job.people), False, "lamination"))
            if n == 1:
                out.gaps += [Gap(one, name) for one in (before, glass) if one]
                first = first if t.shims > 0 else name
            elif before:
                out.gaps.append(Gap(before, name, job.partial_cure, job.lamination_latest, job.resin))
            before = name
        if section.laminations and first and before:
            ends[section.name] = (first, before)
    pairs = {tuple(sorted((s.name, o))) for s in job.sections for o in s.touches}
    out.aparts += [Apart(ends[a], ends[b], job.shell_cure, job.resin) for a, b in sorted(pairs) if a in ends and b in ends]
    return [last for _, last in ends.values()] or [name for name in (cured, glass) if name]


def _opened(out: _List, last: list[str]) -> str | None:
    """Legs and handles, the final cure, edges, drilling, opening, the seam, peeling, patching."""
    job, t = out.job, out.job.times
    cure = job.resin
    legs = out.add("core, legs and handles", t.legs, last, people=job.people, kind="shell", wait=job.shell_cure, cure=cure)
    # with no legs the final cure counts from every section's last lamination
    after, wait = ([legs], job.final_cure) if t.legs > 0 else (list(last), max(job.final_cure, job.shell_cure))
    edges = out.add("edges", t.edges, after, people=job.people, kind="shell", splittable=True, wait=wait, cure=cure)
    after, wait, cure = (after, wait, cure) if t.edges <= 0 else ([edges], 0.0, None)
    drill = out.add("drill and bolt", t.drilling, after, people=job.people, kind="shell", splittable=True, wait=wait, cure=cure)
    after, wait, cure = (after, wait, cure) if t.drilling <= 0 else ([drill], 0.0, None)
    opened = out.add("open the shell", t.opening, after, people=job.people, kind="opening", wait=wait, cure=cure)
    after, wait, cure = (after, wait, cure) if t.opening <= 0 else ([opened], 0.0, None)
    seam = out.add("cut the seam", t.seam, after, people=job.people, kind="opening", wait=wait, cure=cure)
    peel = out.add("peel and refit", t.peel, [seam], people=job.people, kind="opening")
    return out.add("patching", t.patching, [peel], people=1, kind="opening")


def _casts(out: _List, ready: str | None) -> None:
    job, t = out.job, out.job.times
    first = out.add("first cast", t.first_cast, [ready], people=job.people, kind="cast", wait=job.vent)
    taken = out.add("first cast out", t.cast_out, [first], people=job.people, kind="cast", wait=job.first_cast_hours)
    last = out.add("corrections", t.corrections, [taken], people=job.people, kind="opening", splittable=True)
    for n in range(1, job.casts + 1):
        made = out.add(f"cast {n}", t.cast, [last], people=job.people, kind="cast")
        last = out.add(f"cast {n} out", t.cast_out, [made], people=job.people, kind="cast", wait=job.cast_hours)


def batches_of(layer: Layer, start: float) -> tuple[tuple[float, float], ...]:
    """From when to when each batch of a layer is on the brush, in equal shares of its time. [s]"""
    each = layer.duration / max(1, layer.batches)
    return tuple((start + n * each, start + (n + 1) * each) for n in range(max(1, layer.batches)))


def with_times(job: MoldJob, **times: float) -> MoldJob:
    """The same job with other hands-on times."""
    return replace(job, times=replace(job.times, **times))
