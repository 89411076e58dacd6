"""From pulls to whole sections: every face goes to one, borders short and where the maker wants them, each section in one piece."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from ortools.graph.python import max_flow
from scipy import sparse
from scipy.sparse import csgraph
from scipy.spatial import cKDTree

from moldcalc.scan.body import Points
from moldcalc.scan.outside import Surface
from moldcalc.scan.progress import Progress, Work

LEFT_OVER = 0.7
"""Cells: a place a section can't leave from is cut out as an island of another when it is wider than about four of these."""

COMFORT = np.sin(np.radians(10))
"""Draft up to which more of it is worth a longer border."""

WORTH = 0.15
"""Metres of depth over which draft that is short of comfort costs as much as border."""

ALONG_LINE, ON_MIRROR, ON_RIDGE, NO_SEAM = 0.1, 0.4, 0.4, 20.0
"""What a metre of border costs on a drawn line, in a mirror plane, on a sharp ridge and in a place kept free of seams, against 1 elsewhere."""

GRAIN = 1000
"""Whole-number steps for a cell's length of border in the cut."""


@dataclass(frozen=True)
class Wishes:
    """Where the maker wants borders and where not.

    `lines` are polylines (p, 3) near which borders are cheap, `keep_off` places (centre, radius) that they stay off, `mirror` a plane as (point,
    normal) they like. All in metres.
    """

    lines: Sequence[Points] = ()
    keep_off: Sequence[tuple[Points, float]] = ()
    mirror: tuple[Points, Points] | None = None


def border_costs(surface: Surface, wishes: Wishes) -> NDArray[np.float64]:
    """What it costs to have a border along each shared edge: its length [m] times what the place is worth."""
    middles, near = surface.middles, 1.5 * surface.cell
    one, two = surface.pairs.T
    turn = surface.normals[two] - surface.normals[one]
    apart = surface.centres[two] - surface.centres[one]
    along = np.maximum(np.linalg.norm(apart, axis=1), 1e-12)
    bend = np.einsum("ij,ij->i", turn, apart) / along**2
    # a ridge as sharp as the grid can show turns a right angle within three cells
    factor = 1 - (1 - ON_RIDGE) * np.clip(bend * 2 * surface.cell, 0, 1)
    if wishes.mirror is not None:
        point, normal = (np.asarray(part, dtype=np.float64) for part in wishes.mirror)
        off = np.abs((middles - point) @ normal) / np.linalg.norm(normal)
        factor = np.where(off < near, factor * ON_MIRROR, factor)
    for line in wishes.lines:
        far, _ = cKDTree(_dotted(np.asarray(line, dtype=np.float64), surface.cell / 2)).query(middles, distance_upper_bound=near)
        factor = np.where(far < near, ALONG_LINE, factor)
    for centre, radius in wishes.keep_off:
        held = np.linalg.norm(middles - np.asarray(centre, dtype=np.float64), axis=1) < radius
        factor = np.where(held, NO_SEAM, factor)
    costs: NDArray[np.float64] = surface.lengths * factor
    return costs


def _dotted(line: Points, step: float) -> Points:
    """Points along a polyline no further apart than a step."""
    parts = [line[:1]]
    for start, end in pairwise(line):
        many = max(int(np.ceil(np.linalg.norm(end - start) / step)), 1)
        parts.append(start + (end - start) * (np.arange(1, many + 1) / many)[:, None])
    return np.concatenate(parts)


def rounded_off(surface: Surface, radius: float = 6.0, rings: int = 2) -> NDArray[np.bool_]:
    """Which faces lie on edges sharper than a radius in cells, which the grid has rounded, and so many rings of faces round them."""
    one, two = surface.pairs.T
    turn = np.linalg.norm(surface.normals[two] - surface.normals[one], axis=1)
    apart = np.linalg.norm(surface.centres[two] - surface.centres[one], axis=1)
    sharp = turn * radius * surface.cell > np.maximum(apart, 0.3 * surface.cell)
    found = np.zeros(len(surface.areas), dtype=np.bool_)
    found[one[sharp]] = found[two[sharp]] = True
    for _ in range(rings):
        near = found[one] | found[two]
        found[one[near]] = found[two[near]] = True
    return found


def face_costs(surface: Surface, seen: NDArray[np.bool_], slopes: NDArray[np.float64]) -> NDArray[np.float64]:
    """What it costs to give each face to each pull, (k, m): draft short of comfort, or paste where it can't leave. [m of border]"""
    short = np.clip(COMFORT - slopes, 0, COMFORT) / COMFORT * surface.areas / WORTH
    blocked = surface.areas / (LEFT_OVER * surface.cell) * (1 + np.maximum(-slopes, 0))
    costs: NDArray[np.float64] = np.where(seen, short, blocked)
    return costs


def parted(
    surface: Surface, costs: NDArray[np.float64], borders: NDArray[np.float64], rounds: int = 4, begun: NDArray[np.int64] | None = None
) -> Work[NDArray[np.int64]]:
    """Give every face to a pull so that the faces' and the borders' costs add up to little.

    Parameters
    ----------
    surface
        The faces and whom each touches.
    costs
        Of each face at each pull, (k, m). [m]
    borders
        Of a border along each shared edge, (e,). [m]
    rounds
        How often every pull is tried at the most.
    begun
        Labels to begin with; None for each face's cheapest.

    Returns
    -------
    The number of each face's pull, (m,).

    Notes
    -----
    Source: moves that let one label take any faces at once, each an exact least cut (Boykov, Veksler and Zabih 2001, from memory); within
    a factor of 2 of the best for equal borders, in practice much nearer.
    """
    unit = GRAIN / surface.cell
    rows, weights = np.rint(costs * unit).astype(np.int64), np.rint(borders * unit).astype(np.int64)
    labels = rows.argmin(axis=0) if begun is None else begun
    idle = 0
    for turn in range(rounds * len(costs)):
        if idle >= len(costs) or len(costs) == 1:
            break
        yield Progress("borders made short", turn / (rounds * len(costs)))
        moved = _taken(labels, turn % len(costs), rows, weights, surface.pairs)
        idle = 0 if (moved != labels).any() else idle + 1
        labels = moved
    return labels


def _taken(
    labels: NDArray[np.int64], label: int, rows: NDArray[np.int64], weights: NDArray[np.int64], pairs: NDArray[np.int64]
) -> NDArray[np.int64]:
    """The labels after one label has taken the faces that make everything cheapest: a least cut."""
    many = len(labels)
    one, two = pairs.T
    stay = weights * (labels[one] != labels[two])
    second, first = weights * (labels[one] != label), weights * (labels[two] != label)
    take = rows[label] - rows[labels, np.arange(many)]
    take = take + np.bincount(one, first - stay, many).astype(np.int64) + np.bincount(two, -first, many).astype(np.int64)
    both = second + first - stay
    flow = max_flow.SimpleMaxFlow()
    used = both > 0
    flow.add_arcs_with_capacity(one[used], two[used], both[used])
    dear, cheap = np.flatnonzero(take > 0), np.flatnonzero(take < 0)
    flow.add_arcs_with_capacity(np.full(len(dear), many), dear, take[dear])
    flow.add_arcs_with_capacity(cheap, np.full(len(cheap), many + 1), -take[cheap])
    if not len(cheap):
        return labels
    flow.solve(many, many + 1)
    taken = np.ones(many + 2, dtype=np.bool_)
    taken[flow.get_source_side_min_cut()] = False
    return np.where(taken[:many], label, labels)


def pieces(labels: NDArray[np.int64], pairs: NDArray[np.int64]) -> NDArray[np.int64]:
    """The number of the connected piece of one label that each face belongs to."""
    same = labels[pairs[:, 0]] == labels[pairs[:, 1]]
    one, two = pairs[same].T
    graph = sparse.coo_matrix((np.ones(len(one), dtype=np.int8), (one, two)), shape=(len(labels), len(labels)))
    found: NDArray[np.int64] = csgraph.connected_components(graph, directed=False)[1].astype(np.int64)
    return found


def made_whole(
    surface: Surface, labels: NDArray[np.int64], seen: NDArray[np.bool_], costs: NDArray[np.float64], allowed: float, smallest: float
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Sections in one piece each: islands go to a neighbour, or become a section of their own.

    Parameters
    ----------
    labels, seen, costs
        Each face's pull, which pulls it can leave along, and its costs, see `parted`.
    allowed
        Area that may be left over altogether. [m²]
    smallest
        An island of less area always goes to a neighbour, even when it is left over there. [m²]

    Returns
    -------
    The section of each face, numbered from 0 by falling area, and the pull of each section.
    """
    labels = labels.copy()
    kept: set[int] = set()
    for _ in range(10 * len(seen) + 200):
        piece = pieces(labels, surface.pairs)
        sizes = np.bincount(piece, surface.areas)
        first = np.unique(piece, return_index=True)[1]
        pull = labels[first]
        largest = {int(p): int(max(np.flatnonzero(pull == p), key=lambda i: sizes[i])) for p in np.unique(pull)}
        islands = [int(i) for i in np.argsort(sizes) if int(i) not in largest.values() and int(first[i]) not in kept]
        islands += [i for i in largest.values() if sizes[i] < smallest and len(sizes) > 1 and int(first[i]) not in kept]
        if not islands:
            break
        island = islands[0]
        faces = np.flatnonzero(piece == island)
        moved = _given_away(surface, labels, piece, island, costs)
        left = float(surface.areas[~seen[labels, np.arange(len(labels))]].sum())
        more = float(surface.areas[faces][~seen[moved[faces], faces]].sum() - surface.areas[faces][~seen[labels[faces], faces]].sum())
        if (moved[faces] == labels[faces]).all() or (sizes[island] >= smallest and more > 0 and left + more > allowed):
            kept.add(int(first[island]))
        else:
            labels = moved
    piece = pieces(labels, surface.pairs)
    order = np.argsort(-np.bincount(piece, surface.areas), kind="stable")
    number = np.empty(len(order), dtype=np.int64)
    number[order] = np.arange(len(order))
    first = np.unique(piece, return_index=True)[1]
    return number[piece], labels[first][order]


def _given_away(
    surface: Surface, labels: NDArray[np.int64], piece: NDArray[np.int64], island: int, costs: NDArray[np.float64]
) -> NDArray[np.int64]:
    """An island handed to its neighbours, each face to the cheapest that has grown up to it."""
    moved = labels.copy()
    inside = piece == island
    one, two = np.concatenate([surface.pairs, surface.pairs[:, ::-1]]).T
    inward = inside[two]
    one, two = one[inward], two[inward]
    open_ = inside.copy()
    while open_.any():
        edge = ~open_[one] & open_[two]
        if not edge.any():
            break
        face, label = two[edge], moved[one[edge]]
        order = np.lexsort((costs[label, face], face))
        face, at = np.unique(face[order], return_index=True)
        moved[face] = label[order][at]
        open_[face] = False
    return moved


def joints(surface: Surface, numbers: NDArray[np.int64]) -> dict[tuple[int, int], float]:
    """The length of the border between each two sections, with the zigzag of the triangles smoothed out. [m]"""
    a, b = np.sort(numbers[surface.pairs], axis=1).T
    border = a != b
    a, b, edges = a[border], b[border], surface.edges[border]
    if not len(edges):
        return {}
    places = smoothed(surface.vertices, edges)
    lengths = np.linalg.norm(places[edges[:, 0]] - places[edges[:, 1]], axis=1)
    found: dict[tuple[int, int], float] = {}
    for one, two, length in zip(a.tolist(), b.tolist(), lengths.tolist(), strict=True):
        found[one, two] = found.get((one, two), 0.0) + length
    return dict(sorted(found.items()))


def smoothed(vertices: Points, edges: NDArray[np.int64], times: int = 20) -> Points:
    """Vertices along lines of edges moved toward the middle of their two neighbours; ends and forks stay."""
    many = len(vertices)
    degree = np.bincount(edges.ravel(), minlength=many)
    inner = degree == 2
    places = vertices.copy()
    one, two = edges.T
    for _ in range(times):
        total = np.stack([np.bincount(one, places[two, i], many) + np.bincount(two, places[one, i], many) for i in range(3)], axis=1)
        places[inner] = 0.5 * places[inner] + 0.25 * total[inner]
    return places
