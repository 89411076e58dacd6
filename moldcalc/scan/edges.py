"""The edges of a surface of triangles: which two triangles each joins, which are open, and what hangs together."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.csgraph import connected_components

from moldcalc.scan.progress import Progress, Work, finish

Ints = NDArray[np.integer]


def cross(one: NDArray[np.float64], two: NDArray[np.float64]) -> NDArray[np.float64]:
    """Cross products of rows; numpy's own takes twice as long."""
    crossed = np.empty_like(one)
    for i, j, k in ((0, 1, 2), (1, 2, 0), (2, 0, 1)):
        crossed[:, i] = one[:, j] * two[:, k] - one[:, k] * two[:, j]
    return crossed


@dataclass(frozen=True)
class Edges:
    """Every edge once.

    `keys` (k,) are the edges that two triangles share, `turned` (k,) whether the two disagree about which side is outside.
    `open` (o, 2) are the points of the edges of one triangle, in its own direction.
    `crowded` counts the edges of more than two triangles, `unbalanced` those of them that are not run both ways equally often.
    `bodies` counts what hangs together by edges, `body_of_point` says which each point belongs to.
    """

    faces: Ints
    keys: NDArray[np.uint64]
    turned: NDArray[np.bool_]
    open: Ints
    crowded: int
    unbalanced: int
    bodies: int
    body_of_point: Ints

    @cached_property
    def ends(self) -> Ints:
        """The points of the shared edges, (k, 2)."""
        return _ends(self.keys)

    @cached_property
    def pairs(self) -> Ints:
        """The two triangles of the shared edges, (k, 2)."""
        keys = _directed(self.faces)
        order = np.argsort(keys)
        sides = order % len(self.faces)
        if len(keys) == 2 * len(self.keys):
            return np.stack([sides[::2], sides[1::2]], axis=1)
        starts, runs = _runs(keys[order] >> _ONE)
        two = starts[runs == 2]
        return np.stack([sides[two], sides[two + 1]], axis=1)

    @property
    def count(self) -> int:
        """How many edges there are."""
        return len(self.keys) + len(self.open) + self.crowded

    @property
    def closed(self) -> bool:
        """Whether no edge is open and crowded ones are run both ways equally often."""
        return not len(self.open) and not self.unbalanced

    @property
    def consistent(self) -> bool:
        """Whether neighbours agree about the outside."""
        return not self.turned.any()


_ONE, _POINT, _MASK = np.uint64(1), np.uint64(32), np.uint64(0xFFFFFFFF)


def _directed(faces: Ints) -> NDArray[np.uint64]:
    """The sides of all triangles as numbers that sort by edge: lesser point, greater point, direction."""
    corners = np.ascontiguousarray(faces.T, dtype=np.uint32)
    begin, end = corners.ravel(), corners[[1, 2, 0]].ravel()
    keys = np.minimum(begin, end).astype(np.uint64)
    keys <<= _POINT
    keys |= np.maximum(begin, end)
    keys <<= _ONE
    keys |= begin > end
    return keys


def _ends(keys: NDArray[np.uint64]) -> Ints:
    return np.stack([(keys >> _POINT).astype(np.int64), (keys & _MASK).astype(np.int64)], axis=1)


def _runs(keys: NDArray[np.uint64]) -> tuple[Ints, Ints]:
    """Where runs of equal numbers begin, and how long they are."""
    starts = np.flatnonzero(np.concatenate(([True], keys[1:] != keys[:-1])))
    return starts, np.diff(np.append(starts, len(keys)))


def edges_of(faces: Ints, points: int) -> Edges:
    """Pairs up the sides of all triangles by sorting them, in time that grows as they do (times a logarithm).

    Parameters
    ----------
    faces
        (m, 3) points of every triangle; every point is used, and there are fewer than 2³¹.
    points
        How many points there are.
    """
    return finish(edges_in_steps(faces, points))


def edges_in_steps(faces: Ints, points: int) -> Work[Edges]:
    """`edges_of`, with a pause between its steps."""
    keys = _directed(faces)
    yield Progress("sorting edges", 0.3)
    keys.sort()
    yield Progress("pairing edges", 0.6)
    if len(keys) % 2 == 0 and ((keys[::2] ^ keys[1::2]) == _ONE).all() and (keys[1:-1:2] ^ keys[2::2] > _ONE).all():
        distinct = shared = keys[::2] >> _ONE
        turned, lone, crowded, unbalanced = np.zeros(len(shared), bool), np.empty((0, 2), np.int64), 0, 0
    else:
        undirected, back = keys >> _ONE, (keys & _ONE).astype(bool)
        starts, runs = _runs(undirected)
        two, alone = starts[runs == 2], starts[runs == 1]
        distinct, shared, turned = undirected[starts], undirected[two], back[two] == back[two + 1]
        lone = np.where(back[alone][:, None], _ends(undirected[alone])[:, ::-1], _ends(undirected[alone]))
        crowded = int((runs > 2).sum())
        unbalanced = int((np.add.reduceat(np.where(back, -1, 1), starts)[runs > 2] != 0).sum())
    yield Progress("counting bodies", 0.8)
    bodies, label = _bodies(distinct, points)
    return Edges(faces, shared, turned, lone, crowded, unbalanced, bodies, label)


def _bodies(keys: NDArray[np.uint64], points: int) -> tuple[int, Ints]:
    """What hangs together by edges: how many bodies, and which of them every point belongs to."""
    starts = np.searchsorted(keys, np.arange(points + 1, dtype=np.uint64) << _POINT).astype(np.int32)
    graph = csr_matrix((np.ones(len(keys), np.int8), (keys & _MASK).astype(np.int32), starts), shape=(points, points))
    count, label = connected_components(graph, directed=True, connection="weak")
    return int(count), label


def turns(edges: Edges, count: int) -> tuple[NDArray[np.bool_], bool]:
    """Which triangles to turn so that neighbours agree, as few as possible, and whether that can be done at all.

    Every triangle stands twice in a graph, as it is and turned; neighbours are joined so that they agree. Where a triangle
    hangs together with itself turned, the surface has one side only.
    """
    first, second = edges.pairs[:, 0], edges.pairs[:, 1]
    flip = edges.turned * count
    rows = np.concatenate([first, first + count])
    columns = np.concatenate([second + flip, (second + count + flip) % (2 * count)])
    graph = coo_matrix((np.ones(len(rows), np.int8), (rows, columns)), shape=(2 * count, 2 * count))
    pieces, label = connected_components(graph, directed=False)
    as_is, turned = label[:count], label[count:]
    size = np.bincount(as_is, minlength=pieces)
    return size[turned] > size[as_is], not bool((as_is == turned).any())


def loops_of(open_edges: Ints) -> list[list[int]]:
    """The open edges as closed rings of points, each as far as it can be followed."""
    after: dict[int, list[int]] = {}
    for begin, end in open_edges.tolist():
        after.setdefault(begin, []).append(end)
    rings = []
    while after:
        start, ends = next(iter(after.items()))
        ring, now = [start], start
        while ends:
            nxt = ends.pop()
            if not ends:
                del after[now]
            if nxt == start:
                break
            ring.append(nxt)
            now, ends = nxt, after.get(nxt, [])
        else:
            after.pop(now, None)
        rings.append(ring)
    return rings
