"""Speed as ratios to a floor measured in the same run: ``python -m tests.benchmarks [--browser]``. Read the ratios, not the times."""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace

from moldcalc.job import Job, demo_job
from moldcalc.job.job import Job as JobKind
from moldcalc.plan import plan
from moldcalc.plan.chain import bands
from moldcalc.plan.choosing import choose_for
from tests.benchmarks.bare import bare


def best(what: Callable[[], object], repeat: int = 7, number: int = 50) -> float:
    """Seconds a call: the best of several rounds, since noise only adds."""
    rounds = []
    for _ in range(repeat):
        start = time.perf_counter()
        for _ in range(number):
            what()
        rounds.append((time.perf_counter() - start) / number)
    return min(rounds)


def ratio_of(what: Callable[[], object], floor: Callable[[], object], each: int = 1, rounds: int = 40) -> tuple[float, float]:
    """Best seconds of a call of both, taken by turns so that both meet the same quiet moments; ``what`` does ``each`` at once."""
    pairs = [(best(floor, 1, 40), best(what, 1, 2) / each) for _ in range(rounds)]
    return min(pair[0] for pair in pairs), min(pair[1] for pair in pairs)


def moved(job: JobKind) -> list[JobKind]:
    """One job for each of twenty places of a slider that everything after it depends on, so that no answer is one from before."""
    return [job.with_entry("cure.temperature", f"{18 + step / 10:.1f} °C") for step in range(20)]


def import_seconds(*codes: str, rounds: int = 8) -> list[float]:
    """Seconds of a fresh interpreter that runs only these imports, each compiled before as an installed package is; best of rounds by turns."""
    with tempfile.TemporaryDirectory() as folder:
        room = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"} | {"PYTHONPYCACHEPREFIX": folder}

        def once(code: str) -> float:
            start = time.perf_counter()
            subprocess.run([sys.executable, "-c", code], check=True, env=room)
            return time.perf_counter() - start
        taken = [[once(code) for code in codes] for _ in range(rounds + 1)]
    return [min(column) for column in zip(*taken[1:], strict=True)]


def with_coats(job: JobKind, count: int) -> JobKind:
    """The demo with so many coats in its stack."""
    row = job.coats.coat[2]
    rows = tuple(row.model_copy(update={"name": f"build {i}"}) for i in range(1, count + 1))
    return replace(job, coats=job.coats.model_copy(update={"coat": rows, "wall": count * row.thickness}))


def with_sections(job: JobKind, count: int) -> JobKind:
    """The demo with so many sections."""
    return replace(job, layup=job.layup.model_copy(update={"section": tuple(job.layup.section[0] for _ in range(count))}))


def main() -> None:
    hare: Job = demo_job("hare").job
    slider = moved(hare)
    floor, ours = ratio_of(lambda: [plan(job) for job in slider], bare, len(slider))
    print(f"plan(hare), one entry changed each time: {1e3 * ours:.2f} ms, bare floats {1e3 * floor:.3f} ms, ratio {ours / floor:.1f} "
          "(at most 5; at most 2 ms)")
    floor, said = ratio_of(lambda: [plan(job).cautions for job in slider], bare, len(slider))
    print(f"the same and its cautions in words: {1e3 * said:.2f} ms, ratio {said / floor:.1f}")
    draws = best(lambda: bands(hare, 300), repeat=3, number=1)
    print(f"band of 300 draws: {draws:.2f} s, {draws / 300 / ours:.2f} of a plan each (under 0.4 s)")
    for stage in plan(hare).later_stages:
        later = best(lambda stage=stage: plan(hare).later(stage), repeat=3, number=5)
        print(f"a plan with what stands back of '{stage}': {1e3 * later:.1f} ms")
    figure = demo_job("standing-figure").job
    chosen = best(lambda: choose_for(figure), repeat=3, number=1)
    print(f"choose for me, {choose_for(figure).kinds} kinds of wall: {1e3 * chosen:.0f} ms (at most 200 ms)")
    libraries, package = import_seconds("import pint, pydantic, ipywidgets", "import moldcalc.panels, moldcalc.plan, moldcalc.packet")
    print(f"import of the package and its panels: {package:.2f} s, pint + pydantic + ipywidgets {libraries:.2f} s, "
          f"ratio {package / libraries:.2f} (at most 1.5)")
    for what, make, sizes in (("coats", with_coats, (4, 8, 16, 32)), ("sections", with_sections, (4, 8, 16, 32))):
        times = [best(lambda make=make, n=n: plan(make(hare, n)), repeat=5, number=10) for n in sizes]
        print(f"growth with {what}: " + ", ".join(f"{n}: {1e3 * t:.2f} ms" for n, t in zip(sizes, times, strict=True))
              + f"; doubling 16 to 32 costs {times[3] / times[2]:.2f} times")
    thin = hare.with_entries(mixing__cup_volume="0.2 L")
    print(f"many small cups: {plan(thin).value('mixing.cups')} cups {1e3 * best(lambda: plan(thin)):.2f} ms")
    if "--browser" in sys.argv:
        from tests.benchmarks.latency import latency

        latency()


if __name__ == "__main__":
    main()
