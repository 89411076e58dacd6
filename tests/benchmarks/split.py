"""Where the shell comes apart: what it takes, as ratios to scipy's distance transform of the same grid, and who proves the fewest soonest.

Run with `python -m tests.benchmarks.split`; `all` as an argument lets the two general solvers try too (minutes).
"""

import sys
from time import process_time

import numpy as np
from scipy import ndimage, sparse
from scipy.optimize import Bounds, LinearConstraint, milp

from moldcalc.scan.cover import fewest
from moldcalc.scan.directions import directions
from moldcalc.scan.outside import outside
from moldcalc.scan.progress import finish
from moldcalc.scan.reach import field_of, reach, sample
from moldcalc.scan.split import split
from tests.scan.formulas import hare_like

DRAFT = np.radians(2)


def floor(grid) -> float:
    """Seconds of processor time of one distance transform of the grid, the best of five."""
    times = []
    for _ in range(5):
        begun = process_time()
        ndimage.distance_transform_edt(grid.inside)
        times.append(process_time() - begun)
    return min(times)


def paths(grid, many: int) -> tuple[float, np.ndarray, np.ndarray]:
    """Seconds for so many directions over 6 000 places, and who sees what."""
    surface, body = outside(grid), field_of(grid)
    few = sample(surface.centres, surface.areas, 6000)
    table = directions(9)
    table = table[np.linspace(0, len(table) - 1, many).astype(int)]
    begun = process_time()
    seen = finish(reach(surface.centres[few], surface.normals[few], body, table, DRAFT))
    return process_time() - begun, seen, np.ones(len(few))


def by_milp(seen, areas, share: float, seconds: float) -> str:
    """What HiGHS makes of it through scipy."""
    seen, weights = seen[:, seen.any(axis=0)], areas[seen.any(axis=0)]
    many, places = seen.shape
    rows = sparse.vstack([sparse.hstack([-sparse.csr_matrix(seen.T.astype(float)), sparse.eye(places)]),
                          sparse.csr_matrix(np.r_[np.zeros(many), -weights / weights.sum()])]).tocsc()
    begun = process_time()
    answer = milp(np.r_[np.ones(many), np.zeros(places)], integrality=np.r_[np.ones(many), np.zeros(places)], bounds=Bounds(0, 1),
                  constraints=LinearConstraint(rows, -np.inf, np.r_[np.zeros(places), share - 1]), options={"time_limit": seconds})
    return f"{answer.fun} (bound {answer.mip_dual_bound:.2f}) in {process_time() - begun:.1f} s"


def by_cp(seen, areas, share: float, seconds: float) -> str:
    """What CP-SAT makes of it, one worker."""
    from ortools.sat.python import cp_model

    seen, weights = seen[:, seen.any(axis=0)], areas[seen.any(axis=0)]
    model = cp_model.CpModel()
    taken = [model.new_bool_var("") for _ in seen]
    held = [model.new_bool_var("") for _ in weights]
    for place, is_held in enumerate(held):
        model.add_bool_or([taken[i] for i in np.flatnonzero(seen[:, place])] + [is_held.negated()])
    model.add(sum(held) >= int(np.ceil((1 - share) * len(held))))
    model.minimize(sum(taken))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds, solver.parameters.num_workers = seconds, 1
    solver.solve(model)
    return f"{solver.objective_value:.0f} (bound {solver.best_objective_bound:.2f}) in {solver.wall_time:.1f} s"


def main() -> None:
    grid = hare_like()
    unit = floor(grid)
    print(f"grid {grid.distance.shape}, one distance transform {unit:.3f} s")
    for many in (75, 150, 300):
        took, _, _ = paths(grid, many)
        print(f"{many} directions over 6 000 places: {took / unit:.1f} distance transforms (at most 20 for 300)")
    _, seen, areas = paths(grid, 326)
    for share in (0.02, 0.005, 0.0):
        begun = process_time()
        found = finish(fewest(seen, areas, leftover_share=share, seconds=30))
        print(f"{100 * (1 - share):.1f} %: {len(found.chosen)} (bound {found.bound}, proven {found.proven}) in {process_time() - begun:.2f} s, "
              f"out of reach {100 * found.unreachable:.2f} %")
        if "all" in sys.argv:
            print(f"   HiGHS {by_milp(seen, areas, share, 60)}; CP-SAT {by_cp(seen, areas, share, 60)}")
    for share in (0.02, 0.005, 0.0):
        begun = process_time()
        made = finish(split(grid, least_draft=DRAFT, leftover_share=share))
        print(f"whole chain at {100 * (1 - share):.1f} %: {len(made.cover.chosen)} pulls (bound {made.bound}, proven {made.proven}), "
              f"{len(made.sections)} sections, left over {100 * made.leftover_share:.1f} %, paste {1000 * made.fill_volume:.2f} L, "
              f"joints {made.joint:.2f} m, "
              f"{(process_time() - begun) / unit:.0f} distance transforms")


if __name__ == "__main__":
    main()
