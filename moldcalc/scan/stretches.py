"""A section is one piece: connected stretches of the outside that can leave along one direction."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import sparse
from scipy.sparse import csgraph

from moldcalc.scan.outside import Surface

LEAST = 0.004
"""Share of the area below which a stretch is not looked at: it would be no section, and what it has is left over or lies in another."""


@dataclass(frozen=True)
class Stretches:
    """Stretches of sampled places: `rows` (s, n) which places each has, `of` (s,) the direction it leaves along, a row of the table."""

    rows: NDArray[np.bool_]
    of: NDArray[np.int64]


def nearest_places(surface: Surface, picked: NDArray[np.int64]) -> NDArray[np.int64]:
    """The sampled place, counted from 0, that is nearest to each face along the surface, (m,)."""
    many = len(surface.areas)
    one, two = surface.pairs.T
    apart = np.linalg.norm(surface.centres[one] - surface.centres[two], axis=1)
    graph = sparse.coo_matrix((np.tile(apart, 2), (np.r_[one, two], np.r_[two, one])), shape=(many, many)).tocsr()
    source = csgraph.dijkstra(graph, indices=picked, min_only=True, return_predecessors=True)[2]
    place = np.full(many, -1)
    place[picked] = np.arange(len(picked))
    found: NDArray[np.int64] = np.where(source >= 0, place[np.maximum(source, 0)], 0)
    return found


def next_to(surface: Surface, owner: NDArray[np.int64]) -> NDArray[np.int64]:
    """Which places lie beside each other, (e, 2)."""
    beside = owner[surface.pairs]
    beside = np.sort(beside[beside[:, 0] != beside[:, 1]], axis=1)
    found: NDArray[np.int64] = np.unique(beside, axis=0)
    return found


def stretches(seen: NDArray[np.bool_], beside: NDArray[np.int64], areas: NDArray[np.float64]) -> Stretches:
    """All stretches of all directions that are large enough; of each direction the largest stays whatever its size.

    Parameters
    ----------
    seen
        Which places (n) can leave along which directions (d), (d, n).
    beside
        Which places lie beside each other, (e, 2).
    areas
        The places' areas. [m²]
    """
    many, least = seen.shape[1], LEAST * float(areas.sum())
    rows, of = [], []
    one, two = beside.T
    for direction, free in enumerate(seen):
        if not free.any():
            continue
        kept = free[one] & free[two]
        graph = sparse.coo_matrix((np.ones(int(kept.sum()), np.int8), (one[kept], two[kept])), shape=(many, many))
        label = csgraph.connected_components(graph, directed=False)[1]
        sizes = np.bincount(label[free], areas[free], int(label.max()) + 1)
        for part in sorted({int(sizes.argmax()), *np.flatnonzero(sizes >= least).tolist()}):
            rows.append(free & (label == part))
            of.append(direction)
    return Stretches(np.array(rows).reshape(-1, many), np.array(of, dtype=np.int64))


def largest_of(found: Stretches, directions: tuple[int, ...], areas: NDArray[np.float64]) -> tuple[int, ...]:
    """The largest stretch of each of some directions; those without one are left out."""
    sizes = found.rows @ areas
    own = [np.flatnonzero(found.of == direction) for direction in directions]
    return tuple(int(max(rows, key=lambda row: sizes[row])) for rows in own if len(rows))


def held_to(surface: Surface, free: NDArray[np.bool_], wanted: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Of the free faces (m,) those in connected parts of which at least half lies in the stretch that is wanted, or that have most of it."""
    both = free[surface.pairs[:, 0]] & free[surface.pairs[:, 1]]
    one, two = surface.pairs[both].T
    many = len(free)
    label = csgraph.connected_components(sparse.coo_matrix((np.ones(len(one), np.int8), (one, two)), shape=(many, many)), directed=False)[1]
    sizes = np.bincount(label, surface.areas * free, int(label.max()) + 1)
    inside = np.bincount(label, surface.areas * (free & wanted), int(label.max()) + 1)
    kept = inside >= 0.5 * np.maximum(sizes, 1e-300)
    kept[inside.argmax()] = True
    held: NDArray[np.bool_] = free & kept[label]
    return held
