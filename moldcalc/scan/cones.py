"""Along which directions a rigid piece can leave a patch of surface, and how much draft the best of them has."""

from dataclasses import dataclass
from math import atan2, cos, pi, sin, tan
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.hulls import nearest_to_origin, plane_hull

Points = NDArray[np.float64]
Kind = Literal["solid", "arc", "circle", "one direction", "line", "none"]

#: as near to 0 as a distance in the hull of normals is taken for 0 [rad]; sampled normals at a limit need it
TOLERANCE = 1e-7


@dataclass(frozen=True)
class Ways:
    """The directions along which a piece can leave a patch (its first small step; the path out is another question).

    `kind` says what they form: a `solid` cone, an `arc` in a plane, a whole `circle`, `one direction`, a `line` (to and fro) or `none`.
    `direction` is the best one (unit vector) and `draft` its least angle to the surface [rad], None where there is none;
    `solid_angle` [sr] is above 0 for a solid cone only, `opening` [rad] for an arc or circle only. `rays` (k, 3) are unit vectors
    that span the directions; `binding` are the rows of the normals that set the draft or, where there is no way, that lock together.
    """

    kind: Kind
    direction: Points | None
    draft: float | None
    solid_angle: float
    opening: float
    rays: Points
    binding: NDArray[np.int64]

    @property
    def can_leave(self) -> bool:
        """Whether there is any direction at all."""
        return self.kind != "none"

    @property
    def dimension(self) -> int:
        """3 for a solid cone, 2 for an arc or circle, 1 for one direction or a line, 0 for none."""
        return {"solid": 3, "arc": 2, "circle": 2, "one direction": 1, "line": 1, "none": 0}[self.kind]


def ways_off(normals: ArrayLike, *, tolerance: float = TOLERANCE) -> Ways:
    """Every direction along which a rigid piece can leave a patch with these outward normals.

    A piece can start along d where n.d >= 0 for every normal n. The best draft is the distance of the origin from the convex
    hull of the normals: its nearest point is the best direction, found by Wolfe's active set, so neither the null vector nor a box
    norm can stand in for a direction. Where the origin lies in the hull the normals that hold it there span a space to which
    every way is square; what is left is the same question with one dimension or two fewer.

    Parameters
    ----------
    normals
        Outward, (m, 3); any length but 0.
    tolerance
        Least draft that counts as more than none [rad].

    Returns
    -------
    The ways off.

    Raises
    ------
    EntryError
        No normals, normals that are not numbers or have no length.

    Notes
    -----
    Range: the first step only. That the way out is free, against the body and the other pieces, is for a ray or sweep test.
    Source: hemisphere intersection: de Berg and others, Computational Geometry, ch. 4 (verified in public lecture notes). Nearest
    point: Wolfe 1976 (from memory). Solid angle of a fan of triangles: Van Oosterom and Strackee 1983 (from memory).
    """
    given = _units(normals)
    unique, rows = np.unique(np.round(given, 14), axis=0, return_index=True)
    return _ways(unique, rows.astype(np.int64), np.eye(3), [], tolerance)


def _units(normals: ArrayLike) -> Points:
    try:
        given = np.array(normals, dtype=float)
    except (TypeError, ValueError):
        raise EntryError(Fault("normals", "not a table of numbers", "give three numbers for each")) from None
    if given.ndim != 2 or given.shape[1] != 3 or not len(given):
        raise EntryError(Fault("normals", f"a table of shape {given.shape}", "give at least one, with three numbers each"))
    if not np.isfinite(given).all():
        raise EntryError(Fault("normals", "not all finite numbers", "leave out faces that have no normal"))
    largest = np.abs(given).max(axis=1, keepdims=True)
    if not (largest > 0).all():
        raise EntryError(Fault("normals", "0 0 0 in places", "leave out faces without area"))
    given /= largest
    units: Points = given / np.linalg.norm(given, axis=1, keepdims=True)
    return units


def _ways(normals: Points, rows: NDArray[np.int64], basis: Points, held: list[int], tolerance: float) -> Ways:
    """The ways in the space that `basis` (k, 3) spans; `normals` (m, k) are unit vectors in it, `held` what took the other dimensions."""
    if len(basis) == 0:
        return _flat("none", None, basis, held, 0.0)
    if len(normals) == 0:
        both = np.vstack([basis, -basis])
        return _flat("line" if len(basis) == 1 else "circle", basis[0], both, held, 2 * pi if len(basis) == 2 else 0.0)
    nearest = nearest_to_origin(normals)
    support = [int(rows[corner]) for corner in nearest.corners]
    distance = float(np.linalg.norm(nearest.point))
    if distance > tolerance:
        return _open_cone(normals, basis, nearest.point / distance, held or support)
    _, sizes, turned = np.linalg.svd(normals[nearest.corners], full_matrices=True)
    free = turned[int((sizes > 10 * tolerance).sum()):]
    left = normals @ free.T
    length = np.linalg.norm(left, axis=1)
    counts = length > 10 * tolerance
    return _ways(left[counts] / length[counts, None], rows[counts], free @ basis, held + support, tolerance)


def _flat(kind: Kind, direction: Points | None, rays: Points, binding: list[int], opening: float) -> Ways:
    draft = None if direction is None else 0.0
    return Ways(kind, direction, draft, 0.0, opening, rays.reshape(-1, 3), np.array(sorted(set(binding)), dtype=np.int64))


def _open_cone(normals: Points, basis: Points, best: Points, binding: list[int]) -> Ways:
    direction = best @ basis
    if len(basis) == 1:
        return _flat("one direction", direction, direction, binding, 0.0)
    if len(basis) == 2:
        turn = np.arctan2(best[0] * normals[:, 1] - best[1] * normals[:, 0], normals @ best)
        ends = np.array([turn.max() - pi / 2, turn.min() + pi / 2])
        across = np.array([-best[1], best[0]])
        rays = (np.cos(ends)[:, None] * best + np.sin(ends)[:, None] * across) @ basis
        return _flat("arc", direction, rays, binding, float(ends[1] - ends[0]))
    solid_angle, rays = _spherical_polygon(normals @ basis, direction)
    heights = normals @ best
    across = np.linalg.norm(normals - heights[:, None] * best, axis=1)  # an arc sine alone is rough near a right angle
    draft = float(np.arctan2(heights, across).min())
    return Ways("solid", direction, draft, solid_angle, 0.0, rays, np.array(sorted(set(binding)), dtype=np.int64))


def _spherical_polygon(normals: Points, inside: Points) -> tuple[float, Points]:
    """Solid angle and extreme rays of the directions with n.d >= 0, where `inside` is one with n.d > 0 throughout."""
    first = np.cross(inside, np.eye(3)[int(np.argmin(np.abs(inside)))])
    first /= np.linalg.norm(first)
    second = np.cross(inside, first)
    flat = normals @ np.stack([first, second]).T / (normals @ inside)[:, None]
    corners = normals[plane_hull(flat)]
    if len(corners) == 1:
        across = np.cross(corners[0], np.eye(3)[int(np.argmin(np.abs(corners[0])))])
        across /= np.linalg.norm(across)
        other = np.cross(corners[0], across)
        return 2 * pi, np.stack([corners[0], across, -across, other, -other])
    crossed = np.cross(corners, np.roll(corners, -1, axis=0))
    rays = crossed / np.linalg.norm(crossed, axis=1, keepdims=True)
    if len(corners) == 2:
        between = atan2(float(np.linalg.norm(crossed[0])), float(corners[0] @ corners[1]))
        edges = np.cross(rays, corners)  # in each of the two half-planes, square to the common line
        edges *= np.sign(edges @ inside)[:, None]
        return 2 * (pi - between), np.vstack([rays, edges])
    return _fan(inside, rays), rays


def _fan(inside: Points, rays: Points) -> float:
    """Sum of the spherical triangles from a point inside to each pair of neighbouring rays."""
    following = np.roll(rays, -1, axis=0)
    volume = np.abs(np.cross(rays, following) @ inside)
    below = 1 + rays @ inside + following @ inside + np.einsum("ij,ij->i", rays, following)
    return float(2 * np.arctan2(volume, below).sum())


def _unit(vector: ArrayLike, entry: str) -> Points:
    given = np.array(vector, dtype=float)
    size = float(np.linalg.norm(given)) if given.shape == (3,) else 0.0
    if not np.isfinite(given).all() or not size > 0:
        raise EntryError(Fault(entry, "not a direction", "give three numbers that are not all 0"))
    unit: Points = given / size
    return unit


def _square_to(axis: Points, toward: ArrayLike | None) -> Points:
    """A unit vector square to the axis, as near to `toward` as can be."""
    wanted = np.eye(3)[int(np.argmin(np.abs(axis)))] if toward is None else _unit(toward, "toward")
    across = wanted - (wanted @ axis) * axis
    if np.linalg.norm(across) < 1e-9:
        return _square_to(axis, None)
    unit: Points = across / np.linalg.norm(across)
    return unit


def key_cone(axis: ArrayLike, half_angle: float, *, sides: int = 360, toward: ArrayLike | None = None) -> Points:
    """Normals of a conical key, as the piece with the socket meets them.

    The piece can leave within `half_angle` of the axis. The normals are those of a pyramid whose edges lie on that cone of directions,
    one of them turned toward `toward`: a touch stricter than the round key, so that no freedom is claimed that isn't there.

    Parameters
    ----------
    axis
        The way the key narrows, which is out of the flange that carries it. For the piece with the key itself turn it round.
    half_angle
        Of the cone about its axis [rad], above 0 and below a right angle.
    sides
        Of the pyramid, 3 to 100 000.
    toward
        A direction, best the other key's axis or the pull; None for any.

    Returns
    -------
    Unit vectors, (sides, 3).

    Raises
    ------
    EntryError
        No axis; a half-angle or a number of sides outside what is possible.

    Notes
    -----
    Range: sides cost a share of (pi / sides)**2 / 2 of the slope.
    Source: geometry of a cone.
    """
    if not 0 < half_angle < pi / 2:
        raise EntryError(Fault("half-angle of the key", f"{half_angle * 180 / pi:.6g}°", "it must be above 0 and below 90°"))
    if not 3 <= sides <= 100_000:
        raise EntryError(Fault("sides of the key", str(sides), "give 3 to 100 000"))
    out = _unit(axis, "axis of the key")
    across = _square_to(out, toward)
    other = np.cross(out, across)
    slope = np.arctan(tan(half_angle) * cos(pi / sides))
    middles = (np.arange(sides) + 0.5) * (2 * pi / sides)
    radial = np.cos(middles)[:, None] * across + np.sin(middles)[:, None] * other
    normals: Points = sin(slope) * out - cos(slope) * radial
    return normals


def flange_normals(sections: int, *, axis: ArrayLike = (0, 0, 1), middle: ArrayLike = (1, 0, 0)) -> Points:
    """Normals of the two flange faces that a section meets at its neighbours, for equal sections round an axis.

    Parameters
    ----------
    sections
        How many, at least 2.
    axis
        Round which they stand; the flanges lie in planes through it.
    middle
        From the axis to the middle of the section: its radial pull.

    Returns
    -------
    Unit vectors that point from the neighbours' flanges into the section, (2, 3).

    Raises
    ------
    EntryError
        Fewer than two sections; no axis.

    Notes
    -----
    Range: exact. Each makes 90° - 180°/n with the radial pull.
    Source: geometry.
    """
    if sections < 2:
        raise EntryError(Fault("number of sections", str(sections), "give at least 2"))
    upright = _unit(axis, "axis")
    out = _square_to(upright, middle)
    side = np.cross(upright, out)
    half = pi / sections
    return np.stack([sin(half) * out - cos(half) * side, sin(half) * out + cos(half) * side])
