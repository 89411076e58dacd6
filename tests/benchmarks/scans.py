"""The size of a scan against a bare numpy read-and-sum of the same file, and its growth: ``python -m tests.benchmarks.scans``."""

import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from math import log
from pathlib import Path

import numpy as np

FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
SIZES = (250_000, 500_000, 1_000_000, 2_000_000, 4_000_000)


def torus(path: Path, triangles: int) -> None:
    """A ring as binary STL, with about so many triangles."""
    small = round((triangles / 4) ** 0.5)
    u, w = np.meshgrid(np.arange(2 * small) * np.pi / small, np.arange(small) * 2 * np.pi / small, indexing="ij")
    grid = np.stack([(400 + 150 * np.cos(w)) * np.cos(u), (400 + 150 * np.cos(w)) * np.sin(u), 150 * np.sin(w)], axis=-1)
    right, up = np.roll(grid, -1, axis=0), np.roll(grid, -1, axis=1)
    corner = np.roll(right, -1, axis=1)
    facets = np.zeros(4 * small * small, FACET)
    facets["corners"] = np.concatenate([np.stack(three, axis=2).reshape(-1, 3, 3) for three in ((grid, right, corner), (grid, corner, up))])
    path.write_bytes(bytes(80) + np.uint32(len(facets)).tobytes() + facets.tobytes())


def floor(path: Path) -> tuple[float, float]:
    """Area and volume by numpy alone, nothing checked."""
    corners = np.fromfile(path, FACET, offset=84)["corners"].astype(float)
    crossed = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    return float(np.sqrt((crossed * crossed).sum(axis=1)).sum() / 2), float((corners[:, 0] * crossed).sum() / 6)


def ours(path: Path) -> tuple[float, float]:
    """Read, checked and mended; area, volume, slopes, bodies, watertight."""
    from moldcalc.scan.progress import finish
    from moldcalc.scan.reading import placed, read_scan
    from moldcalc.scan.summing import sums

    scan = finish(read_scan(path))
    assert scan.closed and scan.consistent and scan.bodies == 1
    found = finish(sums(placed(scan, "mm")))
    return found.area_whole * 1e6, found.volume * 1e9


def whole(path: Path) -> tuple[float, float]:
    """The same and all the rest: growth, outline, flange, shadows, edges and high points."""
    from moldcalc.scan.measuring import measure
    from moldcalc.scan.progress import finish
    from moldcalc.scan.reading import placed, read_scan

    scan = finish(read_scan(path))
    size = finish(measure(placed(scan, "mm"), closed=scan.closed, consistent=scan.consistent, flange_width=0.05, wall=0.006))
    assert size.volume is not None
    return size.area_whole * 1e6, size.volume.likely * 1e9


def library(path: Path) -> tuple[float, float]:
    """The same by trimesh as it comes."""
    import trimesh

    mesh = trimesh.load(path, force="mesh")
    assert mesh.is_watertight and mesh.body_count == 1
    return float(mesh.area), float(mesh.volume)


WAYS: dict[str, Callable[[Path], tuple[float, float]]] = {"floor": floor, "ours": ours, "whole": whole, "library": library}


def once(way: str, path: Path, rounds: int) -> dict[str, float]:
    """Best time of some rounds in a process of its own, and the most memory it had beyond its imports."""
    code = "import sys; from tests.benchmarks.scans import child; child(*sys.argv[1:])"
    said = subprocess.run([sys.executable, "-c", code, way, str(path), str(rounds)], check=True, capture_output=True, text=True)
    return json.loads(said.stdout)


def child(way: str, path: str, rounds: str) -> None:
    """What `once` runs; a small ring first, so that imports are not counted. Time of the processor, since others may work beside."""
    small = Path(path).with_name("small.stl")
    torus(small, 1000)
    WAYS[way](small)
    before, best, found = peak(), 1e9, (0.0, 0.0)
    for _ in range(int(rounds)):
        start = time.process_time()
        found = WAYS[way](Path(path))
        best = min(best, time.process_time() - start)
    print(json.dumps({"seconds": best, "megabytes": peak() - before, "area": found[0], "volume": found[1]}))


def peak() -> float:
    """The most memory this process had, in megabytes; 0 where the system does not say."""
    try:
        lines = Path("/proc/self/status").read_text().splitlines()
    except OSError:
        return 0.0
    return next(int(line.split()[1]) / 1000 for line in lines if line.startswith("VmHWM"))


def longest_pause(path: Path) -> float:
    """The longest time between two steps of progress."""
    from moldcalc.scan.reading import read_scan

    longest, last = 0.0, time.perf_counter()
    for _ in read_scan(path):
        now = time.perf_counter()
        longest, last = max(longest, now - last), now
    return max(longest, time.perf_counter() - last)


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "ring.stl")
        torus(path, 1_000_000)
        bare = once("floor", path, 5)
        print(f"1 M triangles, bare numpy read-and-sum: {bare['seconds']:.2f} s, {bare['megabytes']:.0f} MB")
        for way in ("ours", "whole", "library"):
            found = once(way, path, 3)
            assert abs(found["volume"] / bare["volume"] - 1) < 1e-5, (found, bare)
            print(f"{way}: {found['seconds']:.2f} s, ratio {found['seconds'] / bare['seconds']:.1f}, {found['megabytes']:.0f} MB")
        times = []
        for size in SIZES:
            torus(path, size)
            found = once("ours", path, 2)
            times.append(found["seconds"])
            print(f"{size} triangles: {found['seconds']:.2f} s, {found['megabytes']:.0f} MB, longest pause {longest_pause(path):.2f} s")
        power = np.polyfit([log(size) for size in SIZES], [log(t) for t in times], 1)[0]
        print(f"time grows as triangles to the power {power:.2f}")


if __name__ == "__main__":
    main()
