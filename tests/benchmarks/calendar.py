"""The calendar's solver: an invented job to its proven optimum, and growth with sections and coats: ``python -m tests.benchmarks.calendar``."""

import sys
import time
from math import exp, log

from moldcalc.scan.progress import finish
from moldcalc.schedule.answer import Calendar
from moldcalc.schedule.invented import demo_like
from moldcalc.schedule.job import tasks_of
from moldcalc.schedule.solve import solve
from moldcalc.schedule.tasks import DAY, Person, Problem, Room

HOUR = 3600.0
SECTIONS, COATS = (1, 2, 3, 4, 6, 8, 10, 12), (4, 6, 8, 10, 12)


def workshop(days: int) -> dict:
    """Two people, 09 to 17 on weekdays, quarters of an hour, 19 °C by day and 18 °C at night."""
    turns = [(0.0, 291.15)] + [turn for d in range(days) for turn in ((d * DAY + 8.5 * HOUR, 292.15), (d * DAY + 17 * HOUR, 291.15))]
    return {"people": (Person("Ada"), Person("Ben")), "opening": tuple((d * DAY + 9 * HOUR, d * DAY + 17 * HOUR) for d in range(days) if d % 7 < 5),
            "room": Room(tuple(t for t, _ in turns), tuple(k for _, k in turns)), "days": tuple(d * DAY for d in range(days)), "horizon": days * DAY}


def demo(sections: int = 4, coats: int = 4, casts: int = 0, days: int = 21) -> Problem:
    """An invented job in that workshop."""
    return tasks_of(demo_like(sections=sections, coats=coats, casts=casts)).problem(**workshop(days))


def timed(problem: Problem, seconds: float = 20.0, rounds: int = 1) -> tuple[float, float, Calendar]:
    """Best seconds to the answer, to the first calendar, and the answer."""
    best, first = float("inf"), float("inf")
    for _ in range(rounds):
        start = time.perf_counter()
        work = solve(problem, seconds=seconds)
        while True:
            try:
                step = next(work)
            except StopIteration as done:
                found = done.value
                break
            if step.best is not None:
                first = min(first, time.perf_counter() - start)
        best = min(best, time.perf_counter() - start)
    assert isinstance(found, Calendar)
    return best, first, found


def fitted(sizes: list[int], seconds: list[float]) -> str:
    """Seconds as a power of the size, least squares in logarithms."""
    x, y = [log(n) for n in sizes], [log(t) for t in seconds]
    mx, my = sum(x) / len(x), sum(y) / len(y)
    power = sum((a - mx) * (b - my) for a, b in zip(x, y, strict=True)) / sum((a - mx) ** 2 for a in x)
    return f"about {exp(my - power * mx):.2g} s times size to the {power:.1f}"


def row(what: str, problem: Problem, seconds: float) -> tuple[float, bool]:
    """One line of the table."""
    taken, first, found = timed(problem, seconds)
    proof = "proven" if found.proven else f"not proven, bound day {found.bound / DAY:.2f}"
    print(f"{what}: {len(problem.tasks)} tasks, ends day {found.end / DAY:.2f} ({proof}), first calendar {first:.2f} s, in all {taken:.2f} s")
    return taken, found.proven


def main() -> None:
    limit = float(sys.argv[1]) if len(sys.argv) > 1 else 20.0
    finish(solve(demo(1, 2)))  # libraries loaded and warm
    taken, first, found = timed(demo(), rounds=3)
    print(f"job like the demo: {len(demo().tasks)} tasks, 21 days, 15 min, two people, four sections: ends day {found.end / DAY:.2f}, bound "
          f"{found.bound / DAY:.2f}, {'proven' if found.proven else 'NOT proven'}, first {first:.2f} s, in all {taken:.2f} s (at most 1 s)")
    for what, sizes, make in (("sections", SECTIONS, lambda n: demo(sections=n, days=60)), ("coats", COATS, lambda n: demo(coats=n, days=60))):
        taken_all = [(n, *row(f"{n} {what}", make(n), limit)) for n in sizes]
        proven = [(n, t) for n, t, sure in taken_all if sure]
        if len(proven) > 2:
            print(f"growth with {what}, those proven: {fitted([n for n, _ in proven], [t for _, t in proven])}")
    row("4 sections, 4 coats and 6 casts, 60 days", demo(casts=6, days=60), limit)


if __name__ == "__main__":
    main()
