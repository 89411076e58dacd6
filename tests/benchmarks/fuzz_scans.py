"""Ten thousand damaged scans: ``python -m tests.benchmarks.fuzz_scans [COUNT [FIRST]]``.

Each has to end in a sentence or a right answer within 10 seconds and 2 GB; the first that does not is kept and said.
"""

import logging
import random
import signal
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.scan.mutations import KINDS, PAYLOADS, Edit, mutated, seeds, verdict

SECONDS, BYTES = 10, 2_000_000_000


class TooLong(BaseException):
    """A scan took longer than it may; nothing that reads catches it."""


def stop(*_: object) -> None:
    raise TooLong(f"more than {SECONDS} s")


def drawn(number: int) -> tuple[str, bytes]:
    """The damaged scan of a number: the same for everybody."""
    dice = random.Random(number)
    kind, data = dice.choice(seeds())
    edits = [Edit(dice.choice(KINDS), dice.random() ** dice.choice((1, 3)), dice.choice((*PAYLOADS, dice.randbytes(dice.randint(1, 8)))),
                  dice.choice((1, 2, 4, 50, 400))) for _ in range(dice.choice((1, 1, 1, 2, 3, 6)))]
    return kind, mutated(kind, data, edits, inside=dice.random() < 0.7)


def peak() -> int:
    """The most memory this process had since it was last asked, in bytes; 0 where the system does not say."""
    status, reset = Path("/proc/self/status"), Path("/proc/self/clear_refs")
    try:
        line = next(line for line in status.read_text().splitlines() if line.startswith("VmHWM"))
        reset.write_text("5")
        return int(line.split()[1]) * 1024
    except (OSError, StopIteration):
        return 0


def run(count: int = 10_000, first: int = 0) -> dict[str, object]:
    """Runs so many damaged scans and says how they ended, the slowest and the largest."""
    ended: Counter[str] = Counter()
    slowest, largest = 0.0, 0
    signal.signal(signal.SIGALRM, stop)
    logging.disable(logging.CRITICAL)
    with tempfile.TemporaryDirectory() as folder:
        peak()
        for number in range(first, first + count):
            kind, data = drawn(number)
            path = Path(folder, f"scan{kind}")
            path.write_bytes(data)
            signal.alarm(SECONDS)
            start = time.perf_counter()
            try:
                end = verdict(path)
            except BaseException as error:
                kept = Path(tempfile.gettempdir(), f"damaged-{number}{kind}")
                kept.write_bytes(data)
                raise AssertionError(f"number {number}, kept as {kept}: {type(error).__name__}: {error}") from error
            finally:
                signal.alarm(0)
            slowest, largest = max(slowest, time.perf_counter() - start), max(largest, peak())
            assert largest < BYTES, f"number {number} took {largest / 1e9:.1f} GB"
            ended[f"{kind} {end}"] += 1
    return {"files": count, "slowest_seconds": round(slowest, 3), "largest_megabytes": round(largest / 1e6), "ended": dict(sorted(ended.items()))}


if __name__ == "__main__":
    print(run(*map(int, sys.argv[1:3])))
