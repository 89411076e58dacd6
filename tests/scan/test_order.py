"""Orders of taking apart, against graphs by networkx and all subsets by brute force, and small shells that are known."""

from itertools import combinations
from types import SimpleNamespace

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.scan.blocking import BODY, Contact, Key, Pieces, blocking, hits, matrix, resting, seam_contacts
from moldcalc.scan.body import Grid
from moldcalc.scan.order import order, reached, shortest_ring
from moldcalc.scan.progress import Progress, finish
from moldcalc.scan.removal import removal, removal_of, with_paste
from tests.tables import within

X, Y, Z = np.eye(3)


def graphs(most=6):
    return st.integers(1, most).flatmap(lambda count: st.lists(st.booleans(), min_size=count * count, max_size=count * count).map(
        lambda bits: np.array(bits).reshape(count, count) & ~np.eye(count, dtype=bool)))


@settings(deadline=None)
@given(waits=graphs())
def test_rounds_and_locks_against_networkx(waits):
    """Without locks the rounds are topological generations; what locks are the knots of two or more that wait for nobody else."""
    graph = nx.from_numpy_array(waits, create_using=nx.DiGraph)
    made = order(waits)
    if nx.is_directed_acyclic_graph(graph):
        assert [sorted(one) for one in made.rounds] == [sorted(one) for one in nx.topological_generations(graph.reverse())] and made.comes_apart
    gone = {piece for one in made.rounds for piece in one}
    sets = nx.condensation(graph)
    knots = {tuple(sorted(sets.nodes[one]["members"])) for one in sets if len(sets.nodes[one]["members"]) > 1}
    held = {piece for piece in graph if any(set(knot) & nx.descendants(graph, piece) | (set(knot) & {piece}) for knot in knots)}
    assert gone == set(graph) - held
    assert set(made.locked) == {knot for knot in knots if set().union(*(set(graph[piece]) for piece in knot)) - set(knot) <= gone}
    assert gone | set(made.waiting) | {piece for one in made.locked for piece in one} == set(graph)


@settings(deadline=None)
@given(waits=graphs())
def test_order_can_be_followed(waits):
    left = set(range(len(waits)))
    for one in order(waits).rounds:
        assert not any(waits[piece, other] for piece in one for other in left)
        left -= set(one)


@settings(deadline=None)
@given(waits=graphs())
def test_shortest_ring_is_a_cycle(waits):
    made = order(waits)
    for knot in made.locked:
        ring = shortest_ring(waits, knot)
        assert all(waits[a, b] for a, b in zip(ring, (*ring[1:], *ring[:1]), strict=True))
        graph = nx.from_numpy_array(waits, create_using=nx.DiGraph).subgraph(knot)
        assert len(ring) == min(map(len, nx.simple_cycles(graph)))


@settings(deadline=None)
@given(waits=graphs())
def test_closure_is_who_can_be_reached(waits):
    graph = nx.from_numpy_array(waits, create_using=nx.DiGraph)
    for piece, row in enumerate(reached(waits)):
        assert set(np.flatnonzero(row)) == nx.descendants(graph, piece) | {piece}


@settings(deadline=None)
@given(along=st.integers(2, 5).flatmap(lambda count: st.lists(
    st.lists(st.booleans(), min_size=count * count, max_size=count * count), min_size=1, max_size=3)
    .map(lambda ways: np.array(ways).reshape(len(ways), count, count))))
def test_groups_against_all_subsets(along):
    """Everyone waits for everyone by their own pulls; the first group is the smallest closed set of any direction, by trying all subsets."""
    count = along.shape[1]
    made = order(~np.eye(count, dtype=bool), along=along, directions=np.tile(Z, (len(along), 1)))
    closed = [subset for size in range(1, count) for subset in combinations(range(count), size) for way in along
              if not any(way[piece, piece] for piece in subset)
              and not any(way[piece, other] for piece in subset for other in range(count) if other not in subset)]
    assert bool(made.groups) == bool(closed)
    if closed:
        assert made.groups[0].pieces in closed and len(made.groups[0].pieces) == min(map(len, closed))


def solid(rule, pulls, shape=(40, 40, 40)):
    """Blocks of a hundredth of a metre, each cell given by a rule of x, y, z."""
    labels = np.full(shape, -1, dtype=np.int16)
    for piece, where in enumerate(rule(*np.meshgrid(*map(np.arange, shape), indexing="ij"))):
        labels[where] = piece
    return Pieces(labels, np.array(pulls, dtype=float), 0.01, np.zeros(3))


def within_box(x, y, z, low, high):
    return (x >= low[0]) & (x < high[0]) & (y >= low[1]) & (y < high[1]) & (z >= low[2]) & (z < high[2])


def test_lid_before_box():
    pieces = solid(lambda x, y, z: (within_box(x, y, z, (10, 10, 10), (30, 30, 20)), within_box(x, y, z, (10, 10, 20), (30, 30, 24))), [Z, Z])
    made = order(blocking(pieces))
    assert made.rounds == ((1,), (0,)) and made.first == (1,)
    assert made.said == "Off comes 2; then 1."


def hooks(x, y, z):
    """Two hooks in each other, alike in y: one opens to the right, one to the left."""
    def bars(*ends):
        return np.logical_or.reduce([within_box(x, y, z, (left, 5, low), (right, 35, high)) for left, low, right, high in ends])

    return bars((4, 10, 8, 30), (4, 10, 28, 14), (24, 10, 28, 22)), bars((34, 10, 38, 30), (14, 26, 38, 30), (14, 17, 18, 30))


def test_hooks_lock_and_slide_out_sideways():
    pieces = solid(hooks, [-X, X])
    found = finish(hits(pieces))
    made = order(matrix(found, 2), hits=found)
    assert made.locked == ((0, 1),) and not made.comes_apart and made.first == ()
    assert made.said == "From the start 1 and 2 lock each other."
    assert len(made.ways_out) == 2 and "paste" in made.ways_out[0] and "one more section" in made.ways_out[1]
    free = order(blocking(solid(hooks, [Y, X])))
    assert free.rounds == ((0,), (1,))


def test_what_the_paste_has_to_fill():
    """A bar under an arm, 10 cells apart, 20 by 20 cells: 4 L between them, by counting."""
    pieces = solid(lambda x, y, z: (within_box(x, y, z, (10, 10, 5), (30, 30, 10)), within_box(x, y, z, (10, 10, 20), (30, 30, 25))), [Z, X])
    (hit,) = finish(hits(pieces))
    assert (hit.piece, hit.by, hit.kind) == (0, 1, "path")
    assert hit.volume == within(0.2 * 0.2 * 0.1, 1e-9) and hit.area == within(0.04, 1e-9)
    assert hit.place == within(np.array([0.195, 0.195, 0.09]), absolute=1e-9)


def test_three_in_a_ring():
    """Three sectors, each of which reaches over the next one: all pulled up, none can begin."""
    def shingles(x, y, z):
        turn = np.degrees(np.arctan2(y - 19.5, x - 19.5)) % 360
        round_ = (np.hypot(x - 19.5, y - 19.5) < 18) & (np.hypot(x - 19.5, y - 19.5) > 5)
        low, high = round_ & (z >= 10) & (z < 20), round_ & (z >= 20) & (z < 26)
        return [low & (turn // 120 == k) | high & ((turn - 45) % 360 // 120 == k) for k in range(3)]

    waits = blocking(solid(shingles, [Z, Z, Z]))
    made = order(waits)
    assert made.locked == ((0, 1, 2),) and len(shortest_ring(waits, (0, 1, 2))) == 3
    assert made.ways_out == ("Section 1 waits for 3, 3 waits for 2, 2 waits for 1: fill the undercut that holds one of them, or divide one of them "
                             "once more.",)


@pytest.mark.parametrize("turn", np.linspace(0, np.pi / 2, 7))
def test_sliding_along_a_flange_blocks_nobody(turn):
    """Two halves with a flat joint at any angle to the cells slide along it freely, and apart, but not into each other."""
    along, apart = np.array([np.cos(turn), 0, np.sin(turn)]), np.array([-np.sin(turn), 0, np.cos(turn)])

    def halves(x, y, z):
        side = (x - 19.5) * apart[0] + (z - 19.5) * apart[2]
        ball = (x - 19.5) ** 2 + (y - 19.5) ** 2 + (z - 19.5) ** 2 < 14 ** 2
        return ball & (side > 0), ball & (side <= 0)

    for one, other, expected in ((along, -along, [[0, 0], [0, 0]]), (apart, -apart, [[0, 0], [0, 0]]), (-apart, -along, [[0, 1], [0, 0]])):
        assert blocking(solid(halves, [one, other])).tolist() == np.array(expected, dtype=bool).tolist()


def shell(pulls, which, radius=0.1, cell=0.01, **more):
    """A ball of rubber with a shell round it, faces by 6000 random points."""
    side = int(2 * (radius + 0.08) / cell) + 1
    origin = -np.full(3, (side - 1) / 2 * cell)
    at = np.stack(np.meshgrid(*[np.arange(side)] * 3, indexing="ij"), axis=-1) * cell + origin
    grid = Grid(origin, cell, (np.linalg.norm(at, axis=-1) - radius).astype(np.float32))
    normals = np.random.default_rng(1).normal(size=(6000, 3))
    normals /= np.linalg.norm(normals, axis=1)[:, None]
    keep = normals[:, 2] > more.pop("above", -2)
    return radius * normals[keep], normals[keep], which(normals[keep]), np.array(pulls, dtype=float), grid, 0.008, 0.04


TETRAHEDRON = np.array([[1, 1, 1], [1, -1, -1], [-1, 1, -1], [-1, -1, 1]]) / 3 ** 0.5


@pytest.mark.parametrize(("pulls", "which", "rounds"), [
    ([Z, -Z], lambda n: (n[:, 2] < 0).astype(int), ((0, 1),)),
    (TETRAHEDRON, lambda n: np.argmax(n @ TETRAHEDRON.T, axis=1), ((0, 1, 2, 3),)),
    ([Z], lambda n: np.zeros(len(n), dtype=int), ((0,),)),
])
def test_shells_that_come_apart_in_any_order(pulls, which, rounds):
    made = finish(removal_of(*shell(pulls, which, above=0.0 if len(pulls) == 1 else -2)))
    assert made.rounds == rounds and made.comes_apart and made.ways_out == ()


def test_a_flange_that_leans_the_wrong_way_waits():
    """Upper and lower half of a ball, the lower pulled down, the upper tried downward and aside: its flange rests on the lower one's."""
    pull = np.array([0.8, 0, -0.6])
    made = finish(removal_of(*shell([pull, -Z], lambda n: (n[:, 2] < 0).astype(int))))
    assert made.blocking.tolist() == [[False, True], [False, False]]
    assert made.rounds == ((1,), (0,))


def test_locked_flanges_leave_another_way():
    """Both halves pulled into each other lock by their own pulls; each by itself can leave along its pole, and the answer says so."""
    made = finish(removal_of(*shell([-Z, Z], lambda n: (n[:, 2] < 0).astype(int))))
    assert made.comes_apart and made.groups[0].pieces in ((0,), (1,))
    assert abs(made.groups[0].direction @ Z) == within(1, 1e-9)


@pytest.mark.parametrize(("left", "right", "leaning", "square"), [
    (0, 0, [[0, 0], [0, 0]], [[0, 0], [0, 0]]),
    (-30, 30, [[0, 0], [0, 0]], [[0, 0], [0, 0]]),
    (30, 60, [[0, 0], [0, 0]], [[0, 1], [0, 0]]),  # leans by 30 degrees and suits both
    (-60, -30, [[0, 0], [0, 0]], [[0, 0], [1, 0]]),
    (60, 30, [[0, 1], [0, 0]], [[0, 1], [0, 0]]),  # the pulls cross: one waits, whatever the flange does
    (20, -40, [[0, 0], [1, 0]], [[0, 1], [1, 0]]),
    (70, 80, [[0, 1], [0, 0]], [[0, 1], [0, 0]]),  # would have to lean more than 45 degrees
])
def test_flanges_lean_where_that_helps(left, right, leaning, square):
    """Two plates side by side on a flat body, pulls leaning to the right by so many degrees from upright; by hand."""
    x, _, z = np.meshgrid(*[np.arange(40)] * 3, indexing="ij")
    labels = np.where((z >= 10) & (z < 20), np.where(x < 20, 0, 1), -1).astype(np.int16)
    pulls = np.array([[np.sin(np.radians(lean)), 0, np.cos(np.radians(lean))] for lean in (left, right)])
    pieces = Pieces(labels, pulls, 0.01, np.zeros(3))
    for distance, expected in ((z.astype(np.float32) / 100, leaning), (None, square)):
        contacts = seam_contacts(pieces, distance)
        held = [[any(resting([one for one in contacts if one.other == other], piece, pulls[piece])) for other in range(2)] for piece in range(2)]
        assert held == np.array(expected, dtype=bool).tolist()


def test_paste_counts_as_body():
    cells = np.stack(np.meshgrid(*[np.arange(20.0)] * 3, indexing="ij"), axis=-1)
    grid = Grid(np.zeros(3), 1.0, (np.linalg.norm(cells - 9.5, axis=-1) - 5).astype(np.float32))
    paste = np.zeros((20, 20, 20), dtype=np.float32)
    assert with_paste(grid, paste) is grid
    paste[14:17, 8:12, 8:12] = 1
    filled = with_paste(grid, paste)
    assert (filled.inside == (grid.inside | (paste > 0.5))).all() and (filled.distance <= grid.distance).all()
    assert filled.distance[18, 9, 9] == within(1.5, absolute=1e-6)


def test_it_takes_what_a_split_hands_over():
    centres, normals, labels, pulls, grid, thickness, width = shell([Z, -Z], lambda n: (n[:, 2] < 0).astype(int))
    split = SimpleNamespace(surface=SimpleNamespace(centres=centres, normals=normals), homes=labels + 1, labels=labels + 1,
                            paste=np.zeros(grid.distance.shape, dtype=np.float32),
                            sections=[SimpleNamespace(number=n + 1, pull=tuple(pull)) for n, pull in enumerate(pulls)])
    steps = list(removal(split, grid, thickness, width))
    assert all(isinstance(step, Progress) and 0 <= step.share <= 1 for step in steps)
    assert finish(removal(split, grid, thickness, width)).rounds == ((0, 1),)


def sectors(count):
    turn = np.arange(count) * 2 * np.pi / count
    return np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1)


@pytest.mark.parametrize(("half_angle", "locks"), [(29, True), (30.001, False), (45, False)])
def test_keys_of_three_sections(half_angle, locks):
    """90 - 180/3 = 30 degrees (closed form): steeper keys lock all three in a ring, with a way out in words."""
    pulls = sectors(3)
    keys = [Key(one, (one + 1) % 3, (pulls[(one + 1) % 3] - pulls[one]), np.radians(half_angle)) for one in range(3)]
    pieces = Pieces(np.full((3, 3, 3), -1, dtype=np.int16), pulls, 0.01, np.zeros(3))
    found = finish(hits(pieces, keys=keys))
    made = order(matrix(found, 3), hits=found)
    assert bool(made.locked) == locks
    if locks:
        assert made.locked == ((0, 1, 2),) and "half-angle of at least 30°" in made.ways_out[0]


def test_contacts_that_are_known_exactly():
    pieces = Pieces(np.full((3, 3, 3), -1, dtype=np.int16), np.array([Z, X]), 0.01, np.zeros(3))
    assert not blocking(pieces, contacts=[Contact(0, 1, [X, -X, Z])]).any()
    assert blocking(pieces, contacts=[Contact(0, 1, [X, [0, 0.8, -0.6]])]).tolist() == [[False, True], [False, False]]


def test_what_comes_out_behind_the_body_is_nobodys_way():
    labels = np.full((20, 20, 40), -1, dtype=np.int16)
    labels[5:15, 5:15, 2:5], labels[3:17, 3:17, 10:20], labels[5:15, 5:15, 30:33] = 0, BODY, 1
    assert not blocking(Pieces(labels, np.array([Z, Z]), 0.01, np.zeros(3))).any()


@pytest.mark.parametrize(("make", "says"), [
    (lambda: order(np.zeros((2, 3))), "blocking is a table of shape"),
    (lambda: order(np.zeros((2, 2)), along=np.zeros((1, 3, 3)), directions=[Z]), "blocking along directions is a table"),
    (lambda: blocking(Pieces(np.zeros((2, 2, 2), dtype=np.int16), np.array([[0, 0, 2.0]]), 0.01, np.zeros(3))), "pulls is not all of length 1"),
    (lambda: blocking(Pieces(np.ones((2, 2, 2), dtype=np.int16), np.array([Z]), 0.01, np.zeros(3))), "pieces is 2 on the grid with 1 pulls"),
    (lambda: blocking(Pieces(np.zeros((2, 2, 2), dtype=np.int16), np.array([Z]), 0.01, np.zeros(3)), keys=[Key(0, 1, X, 0.5)]), "key or contact"),
])
def test_impossible_pieces(make, says):
    with pytest.raises(EntryError, match=says):
        make()
