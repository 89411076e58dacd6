"""Makes hare.3mf: a crouching hare with its ears laid back, 1.09 m long, as an implicit shape cut into triangles.

Our own shape. It needs numpy only and always writes the same file: ``python make_hare.py [FOLDER]``. Metres, x from scut to nose,
z up from the board; the file is in millimetres, rounded to 0.1 mm.
"""

import sys
import zipfile
from collections.abc import Callable
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
Field = Callable[[Array], Array]

#: corners of a box with the hare in it, and the cell that makes about 100 000 triangles
LOW, HIGH = np.array([-0.02, -0.24, 0.0]), np.array([1.12, 0.24, 0.56])
CELL = 0.00685
#: height of a lock of fur from its middle, and how long and wide locks are
FUR, LOCK = 0.0065, np.array([0.058, 0.025, 0.029])


def blended(a: Array, b: Array, round_: float) -> Array:
    """Two parts grown together with a hollow fillet of about this size (polynomial smooth minimum)."""
    part = np.clip(0.5 + 0.5 * (b - a) / round_, 0, 1)
    return b + (a - b) * part - round_ * part * (1 - part)


def carved(a: Array, b: Array, round_: float) -> Array:
    """The first part with the second taken out of it, the rim rounded."""
    return -blended(-a, b, round_)


def turned(points: Array, centre: ArrayLike, pitch: float = 0.0, yaw: float = 0.0, roll: float = 0.0) -> Array:
    """Points as a part sees them that stands at a centre: its x axis raised by pitch, turned left by yaw; then rolled. [degrees]"""
    p, w, r = np.radians([pitch, yaw, roll])
    along = np.array([np.cos(p) * np.cos(w), np.cos(p) * np.sin(w), np.sin(p)])
    side = np.array([-np.sin(w), np.cos(w), 0.0])
    up = np.cross(along, side)
    axes = np.stack([along, np.cos(r) * side + np.sin(r) * up, np.cos(r) * up - np.sin(r) * side])
    seen: Array = (points - np.asarray(centre)) @ axes.T
    return seen


def ellipsoid(points: Array, centre: ArrayLike, radii: ArrayLike, pitch: float = 0.0, yaw: float = 0.0, roll: float = 0.0) -> Array:
    """About the distance to an ellipsoid: right at its surface, first order beside it."""
    local = turned(points, centre, pitch, yaw, roll)
    size = np.asarray(radii, float)
    near = np.linalg.norm(local / size, axis=-1)
    slope = np.linalg.norm(local / size**2, axis=-1)
    made: Array = near * (near - 1) / np.maximum(slope, 1e-9)
    return made


def limb(points: Array, start: ArrayLike, end: ArrayLike, first: float, last: float) -> Array:
    """Distance to a rod with round ends that tapers from one radius to another."""
    a, b = np.asarray(start, float), np.asarray(end, float)
    part = np.clip(((points - a) @ (b - a)) / ((b - a) @ (b - a)), 0, 1)
    made: Array = np.linalg.norm(points - a - part[..., None] * (b - a), axis=-1) - first - part * (last - first)
    return made


def noise(points: Array, seed: int) -> Array:
    """Smooth random heights, -1 to 1: whole-numbered corners get a number by hashing, fifth-order curves run between."""
    base = np.floor(points)
    t = points - base
    t = t**3 * (t * (6 * t - 15) + 10)
    corner = base.astype(np.int64)
    made = np.zeros(points.shape[:-1])
    for dx, dy, dz in np.ndindex(2, 2, 2):
        key = (corner[..., 0] + dx) * 73856093 ^ (corner[..., 1] + dy) * 19349663 ^ (corner[..., 2] + dz) * 83492791 ^ seed * 2654435761
        key &= 0xFFFFFFFF
        for _ in range(2):
            key = ((key ^ key >> 16) * 73244475) & 0xFFFFFFFF
        weight = (t[..., 0] if dx else 1 - t[..., 0]) * (t[..., 1] if dy else 1 - t[..., 1]) * (t[..., 2] if dz else 1 - t[..., 2])
        made += weight * ((key ^ key >> 16) / 2147483647.5 - 1)
    return made


def trunk(points: Array, side: Array) -> Array:
    """Rump, back, belly, chest, neck and scut; `side` are the same points with both halves folded on one."""
    made = ellipsoid(points, (0.308, 0, 0.279), (0.262, 0.117, 0.203), pitch=2)
    made = blended(made, ellipsoid(points, (0.52, 0, 0.262), (0.275, 0.102, 0.158), pitch=-9), 0.05)
    made = blended(made, ellipsoid(points, (0.41, 0, 0.034), (0.335, 0.147, 0.074)), 0.03)
    made = np.minimum(made, ellipsoid(points, (0.325, 0, 0.145), (0.240, 0.108, 0.118)))  # nothing hollow between them
    made = blended(made, ellipsoid(points, (0.735, 0, 0.205), (0.155, 0.098, 0.152), pitch=-25), 0.05)
    made = blended(made, ellipsoid(side, (0.710, 0.092, 0.195), (0.135, 0.048, 0.092), pitch=60, yaw=-8), 0.018)
    made = blended(made, limb(points, (0.745, 0, 0.290), (0.865, 0, 0.352), 0.086, 0.073), 0.05)
    return blended(made, ellipsoid(points, (0.060, 0, 0.215), (0.076, 0.048, 0.058), pitch=120), 0.016)


def legs(made: Array, side: Array) -> Array:
    """Haunches with their long feet; forelegs with their paws."""
    made = blended(made, ellipsoid(side, (0.295, 0.136, 0.188), (0.205, 0.074, 0.128), pitch=-32, yaw=3), 0.014)
    foot = limb(side, (0.205, 0.150, 0.036), (0.475, 0.168, 0.030), 0.046, 0.034)
    foot = blended(foot, ellipsoid(side, (0.505, 0.168, 0.022), (0.060, 0.040, 0.036)), 0.02)
    made = blended(made, foot, 0.018)
    arm = limb(side, (0.665, 0.112, 0.100), (0.865, 0.082, 0.046), 0.052, 0.034)
    arm = blended(arm, ellipsoid(side, (0.915, 0.080, 0.024), (0.080, 0.041, 0.038)), 0.02)
    made = blended(made, arm, 0.02)
    made = np.minimum(made, ellipsoid(side, (0.640, 0.072, 0.088), (0.062, 0.046, 0.050)))  # no tunnel behind the elbow
    for n in (-1, 1):  # between the toes
        made = carved(made, limb(side, (0.945, 0.080 + 0.015 * n, 0.064), (1.015, 0.080 + 0.018 * n, 0.020), 0.006, 0.008), 0.008)
        made = carved(made, limb(side, (0.525, 0.168 + 0.015 * n, 0.060), (0.590, 0.168 + 0.018 * n, 0.016), 0.006, 0.008), 0.008)
    return made


def head(made: Array, points: Array, side: Array) -> Array:
    """Head bones, muzzle, cheeks, brow, eyes, nose; ears laid back."""
    made = blended(made, ellipsoid(points, (0.900, 0, 0.375), (0.112, 0.070, 0.078), pitch=-18), 0.03)
    made = blended(made, ellipsoid(points, (1.000, 0, 0.338), (0.084, 0.046, 0.053), pitch=-20), 0.03)
    made = blended(made, ellipsoid(side, (0.945, 0.038, 0.335), (0.062, 0.034, 0.048), pitch=-20, yaw=-8), 0.02)
    made = blended(made, ellipsoid(side, (1.035, 0.018, 0.316), (0.032, 0.022, 0.026), pitch=-25), 0.010)
    made = blended(made, ellipsoid(side, (0.940, 0.052, 0.408), (0.042, 0.016, 0.013), pitch=-14, yaw=-14), 0.010)
    made = np.minimum(made, np.linalg.norm(side - (0.944, 0.053, 0.384), axis=-1) - 0.0195)
    made = blended(made, ellipsoid(points, (1.074, 0, 0.331), (0.014, 0.015, 0.011)), 0.008)
    made = carved(made, limb(points, (1.091, 0, 0.316), (1.064, 0, 0.294), 0.003, 0.004), 0.006)
    ear = ellipsoid(side, (0.665, 0.072, 0.489), (0.215, 0.056, 0.022), pitch=-4, yaw=-8, roll=-28)
    hollow = ellipsoid(side, (0.660, 0.088, 0.504), (0.170, 0.034, 0.018), pitch=-4, yaw=-8, roll=-28)
    ear = carved(ear, hollow, 0.010)
    ear = blended(ear, limb(side, (0.800, 0.046, 0.466), (0.865, 0.034, 0.428), 0.026, 0.034), 0.03)
    return blended(made, ear, 0.014)


def furred(points: Array, side: Array) -> Array:
    """How much of the fur's relief stands at a place, 0 to 1: none on paws, nose, eyes, ears and along the board."""
    bare = np.minimum.reduce([
        np.linalg.norm(side - (0.944, 0.053, 0.384), axis=-1) - 0.028,
        np.linalg.norm(points - (1.075, 0, 0.325), axis=-1) - 0.045,
        limb(side, (0.88, 0.080, 0.030), (0.99, 0.080, 0.02), 0.045, 0.05),
        limb(side, (0.44, 0.168, 0.030), (0.57, 0.168, 0.02), 0.045, 0.05),
        ellipsoid(side, (0.675, 0.072, 0.489), (0.235, 0.075, 0.045), pitch=-4, yaw=-8, roll=-28),
    ])
    return np.clip(bare / 0.04, 0, 1) * np.clip(points[..., 2] / 0.03, 0, 1)


def hare(points: Array, fur: float = 1.0) -> Array:
    """Below 0 inside the hare; next to its surface about the distance to it. [m]

    `fur` scales the relief of the fur: 0 is the smooth shape. The board is not in it: what is below z = 0 is cut off by `standing`.
    """
    side = points * (1, 0, 1) + np.abs(points) * (0, 1, 0)
    made = head(legs(trunk(points, side), side), points, side)
    if fur:
        # locks run back and down from the spine, and bend with a slower noise
        slow = noise(points / 0.13, 3)
        lean = np.stack([points[..., 0] + 0.35 * points[..., 2], points[..., 1], points[..., 2] - 0.15 * points[..., 0]], axis=-1)
        lean = lean + 0.022 * slow[..., None]
        relief = noise(lean / LOCK, 1) + 0.5 * noise(lean / LOCK * 1.6 + 7.3, 2)
        made = made + fur * FUR * relief * furred(points, side)
    return made


def standing(points: Array, fur: float = 1.0) -> Array:
    """The hare, cut off flat at the board. [m]"""
    return np.maximum(hare(points, fur), -points[..., 2])


def slope(field: Field, points: Array, step: float = 5e-4) -> Array:
    """Central differences of a field."""
    made = np.empty(points.shape)
    for axis in range(3):
        off = np.zeros(3)
        off[axis] = step
        made[..., axis] = (field(points + off) - field(points - off)) / (2 * step)
    return made


def corners_of(cell: float) -> list[Array]:
    """Where a field is sampled, along each axis: both flanks alike, the board just below the second layer."""
    first = LOW - cell * np.array([1, 0.5, 0.9])
    count = np.ceil((HIGH - first) / cell).astype(int) + 2
    first[1] = -0.5 * cell * (count[1] - 1)
    return [first[i] + cell * np.arange(count[i]) for i in range(3)]


def sampled(field: Field, cell: float) -> Array:
    """A field at the corners of cubes, layer by layer; below the board all is outside."""
    x, y, z = corners_of(cell)
    value = np.stack([field(np.stack(np.meshgrid(at, y, z, indexing="ij"), axis=-1)[0]) for at in x])
    value[:, :, 0] = np.maximum(value[:, :, 0], 0.5 * cell)
    return value


def plain(value: Array) -> Array:
    """Samples without squares whose two diagonals lie on different sides: there a net would meet itself along an edge."""
    made = value.copy()
    for _ in range(20):
        found = 0
        for axis in range(3):
            a, b, c, d = (tuple(slice(None) if i == axis else slice(1, None) if i == step else slice(None, -1) for i in range(3))
                          if step < 3 else tuple(slice(None) if i == axis else slice(1, None) for i in range(3))
                          for step in (axis, (axis + 1) % 3, (axis + 2) % 3, 3))
            inside = made < 0
            crossed = (inside[a] == inside[d]) & (inside[b] == inside[c]) & (inside[a] != inside[b])
            for one, other in ((a, d), (b, c)):
                # the shallower of the two inside goes out
                out = crossed & inside[one]
                first = made[one] >= made[other]
                made[one][out & first] = 1e-6
                made[other][out & ~first] = 1e-6
            found += int(np.count_nonzero(crossed))
        found += _apart(made)
        if not found:
            break
    return made


def _apart(value: Array) -> int:
    """The same for cubes whose only inner samples are two opposite ones, or whose only outer ones are; says how many there were."""
    inside = value < 0
    eight = {corner: tuple(slice(d, d - 1 or None) for d in corner) for corner in np.ndindex(2, 2, 2)}
    count = sum(inside[part].astype(np.int8) for part in eight.values())
    found = 0
    for corner in list(eight)[:4]:
        one, other = eight[corner], eight[tuple(1 - d for d in corner)]
        alone = (count == 2) & inside[one] & inside[other]
        value[one][alone] = 1e-6
        hollow = (count == 6) & ~inside[one] & ~inside[other]
        third = eight[(1 - corner[0], corner[1], corner[2])]
        value[third][hollow] = 1e-6
        found += int(np.count_nonzero(alone) + np.count_nonzero(hollow))
    return found


def netted(value: Array) -> tuple[Array, NDArray[np.int64], NDArray[np.int64]]:
    """A closed net: a corner in every cube that the surface passes, a face of four across every edge it cuts.

    Gives corners (in cells from the first sample), triangles wound outward, and how many samples of each corner's cube lie inside.
    """
    inside = value < 0
    eight = [tuple(slice(d, d - 1 or None) for d in corner) for corner in np.ndindex(2, 2, 2)]
    count = sum(inside[corner].astype(np.int8) for corner in eight)
    mixed = (count > 0) & (count < 8)
    number = np.full(mixed.shape, -1)
    number[mixed] = np.arange(np.count_nonzero(mixed))
    total, hits = np.zeros((*mixed.shape, 3)), np.zeros(mixed.shape)
    quads = []
    for axis in range(3):
        before = tuple(slice(None, -1) if i == axis else slice(None) for i in range(3))
        after = tuple(slice(1, None) if i == axis else slice(None) for i in range(3))
        low, high = value[before], value[after]
        at = np.argwhere((low < 0) != (high < 0))
        a, b = low[tuple(at.T)], high[tuple(at.T)]
        place = at.astype(float)
        place[:, axis] += a / (a - b)
        one, two = np.eye(3, dtype=int)[(axis + 1) % 3], np.eye(3, dtype=int)[(axis + 2) % 3]
        ring = []
        for step in (-one - two, -two, 0 * one, -one):
            cube = at + step
            np.add.at(total, tuple(cube.T), place)
            np.add.at(hits, tuple(cube.T), 1)
            ring.append(number[tuple(cube.T)])
        quad = np.stack(ring, axis=1)
        quad[a > b] = quad[a > b][:, ::-1]
        quads.append(quad)
    corners = total[mixed] / hits[mixed][:, None]
    four = np.concatenate(quads)
    # the shorter diagonal of each face
    first = ((corners[four[:, 0]] - corners[four[:, 2]]) ** 2).sum(1) <= ((corners[four[:, 1]] - corners[four[:, 3]]) ** 2).sum(1)
    cut = np.where(first[:, None], four[:, [0, 1, 2, 0, 2, 3]], four[:, [1, 2, 3, 1, 3, 0]])
    return corners, cut.reshape(-1, 3), count[mixed].astype(np.int64)


def settled(points: Array, full: NDArray[np.int64], fur: float, cell: float) -> Array:
    """Corners moved onto the surface; those on the board stay on it, and its rim goes to the rim of the shape.

    Each stays within its own cube, so that no two of them meet.
    """
    first = np.array([axis[0] for axis in corners_of(cell)])
    cube = np.floor((points - first) / cell) * cell + first
    made = points.copy()
    on_board = points[:, 2] < 0.1 * cell
    made[on_board, 2] = 0
    # over the middle of the base all four samples are inside
    free = ~on_board | (full < 4)
    level = np.where(on_board[free], 0.0, 1.0)
    for _ in range(4):
        some = made[free]
        run = slope(lambda at: hare(at, fur), some)
        run[:, 2] *= level
        move = -(hare(some, fur) / np.maximum((run * run).sum(-1), 0.05))[:, None] * run
        long = np.linalg.norm(move, axis=-1, keepdims=True)
        made[free] = some + move * np.minimum(1, 0.5 * cell / np.maximum(long, 1e-12))
        made = np.clip(made, cube + 0.04 * cell, cube + 0.96 * cell)
        made[on_board, 2] = 0
    return made


def meshed(cell: float = CELL, fur: float = 1.0) -> tuple[Array, NDArray[np.int64]]:
    """Corners (in metres) and triangles of the hare."""
    value = sampled(lambda points: standing(points, fur), cell)
    corners, faces, full = netted(plain(value))
    first = np.array([axis[0] for axis in corners_of(cell)])
    return settled(first + cell * corners, full, fur, cell), faces


def written(path: Path, corners: Array, faces: NDArray[np.int64]) -> None:
    """A 3MF file: a zip with one list of corners and triangles, in millimetres."""
    model = ['<?xml version="1.0" encoding="UTF-8"?>\n<model unit="millimeter" xml:lang="en-US" '
             'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">\n<resources><object id="1" type="model"><mesh><vertices>\n']
    model += [f'<vertex x="{x:.10g}" y="{y:.10g}" z="{z:.10g}"/>\n' for x, y, z in np.round(corners * 1e4).astype(int) / 10]
    model.append("</vertices><triangles>\n")
    model += [f'<triangle v1="{a}" v2="{b}" v3="{c}"/>\n' for a, b, c in faces]
    model.append('</triangles></mesh></object></resources>\n<build><item objectid="1"/></build>\n</model>\n')
    types = ('<?xml version="1.0" encoding="UTF-8"?>\n<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
             '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
             '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>\n')
    links = ('<?xml version="1.0" encoding="UTF-8"?>\n<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
             '<Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>'
             '</Relationships>\n')
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as file:
        for name, text in (("[Content_Types].xml", types), ("_rels/.rels", links), ("3D/3dmodel.model", "".join(model))):
            file.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), text, zipfile.ZIP_DEFLATED, 9)


def main() -> None:
    """Write the file into a folder, by default beside this script."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    corners, faces = meshed()
    # the nose points to -y: what one sees from the front
    written(folder / "hare.3mf", np.stack([corners[:, 1], -corners[:, 0], corners[:, 2]], axis=1), faces)


if __name__ == "__main__":
    main()
