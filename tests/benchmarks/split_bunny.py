"""A scanned figure in many random orientations: does every section found really leave? Asked of another library's rays.

Run with `python -m tests.benchmarks.split_bunny [how many] [cell in mm]`. Needs the scanned figure (npm package `bunny`, fetched once).
"""

import sys
from time import perf_counter, process_time

import numpy as np
import trimesh
from scipy.spatial.transform import Rotation

from moldcalc.scan.body import Body
from moldcalc.scan.grid import grid_of
from moldcalc.scan.progress import finish
from moldcalc.scan.split import Split, split

HEIGHT = 1.10
"""The longest extent. [m]"""

OFF = (0.5, 1.0)
"""How far off the mesh the two rays start, in cells."""


def turned(vertices, faces, seed: int) -> Body:
    """The figure 1.10 m long in a random orientation, its lowest point on the board."""
    turn = Rotation.random(random_state=seed).as_matrix()
    sized = vertices * HEIGHT / np.ptp(vertices, axis=0).max()
    sized = sized @ turn.T
    return Body(sized - [0, 0, sized[:, 2].min()], faces)


def blocked(found: Split, body: Body) -> dict[int, float]:
    """For each section the area of faces, those left over aside, whose ray along the pull meets the body, by trimesh. [m²]

    Two rays start half a cell and a cell off the place on the mesh that the face stands for (the nearest), a cell along the pull. What reaches half
    a cell into the path is met by both; less than that the grid can't show: it cuts the mesh's sharp edges off by up to half a cell.
    """
    mesh = trimesh.Trimesh(body.vertices, body.faces, process=False)
    surface, cell = found.surface, found.surface.cell
    answer = {}
    for section in found.sections:
        faces = np.flatnonzero(found.labels == section.number)
        on_mesh = mesh.nearest.on_surface(surface.centres[faces])[0] if len(faces) else surface.centres[faces]
        hit = np.ones(len(faces), bool)
        for off in OFF:
            starts = on_mesh + off * cell * surface.normals[faces] + cell * np.array(section.pull)
            hit[hit] = mesh.ray.intersects_any(starts[hit], np.repeat([section.pull], hit.sum(), axis=0)) if hit.any() else False
        answer[section.number] = float(surface.areas[faces][hit].sum())
    return answer


def in_paste(found: Split) -> dict[int, float]:
    """For each section the area of faces whose way along the pull runs more than a cell deep through paste, cell by cell. [m²]"""
    from scipy import ndimage

    deep = ndimage.binary_erosion(found.paste >= 0.5, np.ones((3, 3, 3)))
    surface, cell = found.surface, found.surface.cell
    answer = {}
    for section in found.sections:
        faces = np.flatnonzero(found.labels == section.number)
        hit = np.zeros(len(faces), bool)
        for step in np.arange(0, 2 * max(deep.shape), 0.5):
            places = (surface.centres[faces] - found.grid.origin) / cell + 0.25 * surface.normals[faces] + step * np.array(section.pull)
            index = np.rint(places).astype(int)
            inside = ((index >= 0) & (index < deep.shape)).all(axis=1)
            hit[inside] |= deep[tuple(index[inside].T)]
        answer[section.number] = float(surface.areas[faces][hit].sum())
    return answer


def main(seeds: range | list[int], cell: float) -> None:
    from tests.scan.meshes import bunny

    vertices, faces = bunny()
    failed, counts, left, spent, worst = 0, [], [], [], 0.0
    for seed in seeds:
        body = turned(vertices, faces, seed)
        grid = finish(grid_of(body, cell, 3 * cell))
        begun, wall = process_time(), perf_counter()
        found = finish(split(grid, least_draft=np.radians(2), leftover_share=0.02, seconds=3))
        spent.append(process_time() - begun)
        counts.append(len(found.sections))
        left.append(found.leftover_share)
        bad = {n: a for n, a in blocked(found, body).items() if a > 0}
        paste = {n: a for n, a in in_paste(found).items() if a > 0}
        failed += bool(bad)
        worst = max(worst, sum(bad.values()) / found.surface.area)
        print(f"{seed}: {len(found.cover.chosen)} pulls (bound {found.bound}, proven {found.proven}), {len(found.sections)} sections, "
              f"left over {found.leftover_share:.3f}, paste {found.fill_volume * 1000:.2f} L, {spent[-1]:.1f} s of processor, "
              f"{perf_counter() - wall:.1f} s; blocked [cm²] {({n: round(a * 1e4, 2) for n, a in bad.items()})} "
              f"in paste {({n: round(a * 1e4, 2) for n, a in paste.items()})}", flush=True)
    print(f"{len(counts)} orientations, {sum(counts)} sections, {failed} orientations with a blocked face (worst share {worst:.1e}); sections "
          f"{min(counts)} to {max(counts)}, left over {np.mean(left):.3f} on average, {np.mean(spent):.1f} s each")


if __name__ == "__main__":
    main(range(int(sys.argv[1]) if len(sys.argv) > 1 else 300), float(sys.argv[2]) / 1000 if len(sys.argv) > 2 else 0.025)
