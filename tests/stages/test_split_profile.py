"""Outlines divided in the plane: known shapes, sampled rays and all covers by brute force, refusals."""

from math import atan2, cos, degrees, hypot, inf, nan, pi, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages.split import bearings, best_draft, outline, points_from_photo, split_outline, split_profiles
from moldcalc.stages.split.notches import ways_of_all, with_draft
from moldcalc.stages.split.outline import cross, pieces_of
from moldcalc.stages.split.profile import fewest_arcs
from moldcalc.stages.split.sections import said_of_arc
from tests.tables import within


def polygon(corners, radius=0.5, turn=0.0):
    return [(radius * cos(2 * pi * i / corners + turn), radius * sin(2 * pi * i / corners + turn)) for i in range(corners)]


SQUARE = [(0, 0), (1, 0), (1, 1), (0, 1)]
DOME = [(cos(pi * i / 32), sin(pi * i / 32)) for i in range(33)]
ELL = [(0, 0), (2, 0), (2, 1), (1, 1), (1, 2), (0, 2)]
#: a slot 0.2 wide and 0.5 deep that opens into a chamber 1 by 0.5
KEYHOLE = [(0, 0), (3, 0), (3, 2), (1.6, 2), (1.6, 1.5), (2, 1.5), (2, 1), (1, 1), (1, 1.5), (1.4, 1.5), (1.4, 2), (0, 2)]
CHANNEL = [(0, 0), (2, 0), (2, 0.5), (0.5, 0.5), (0.5, 1.5), (2, 1.5), (2, 2), (0, 2)]
ARCH = [(0, 0), (0.2, 0), (0.2, 0.5), (0.8, 0.5), (0.8, 0), (1, 0), (1, 1), (0, 1)]
TOADSTOOL = [(-0.1, 0), (0.1, 0), (0.1, 1), (0.5, 1), (0.5, 1.3), (-0.5, 1.3), (-0.5, 1), (-0.1, 1)]

KNOWN = [
    # what             points        stands  draft  arcs  filled m²  source
    ("square", SQUARE, False, 0, 2, 0.0, "two opposite corners: Ahn and others 2002 (abstract verified); by hand"),
    ("square, 45 deg", SQUARE, False, 45, 2, 0.0, "by hand: the most that two faces allow"),
    ("square, 46 deg", SQUARE, False, 46, 4, 0.0, "by hand: each face alone"),
    ("square on a board", SQUARE, True, 0, 1, 0.0, "by hand: straight up"),
    ("square on a board, 3 deg", SQUARE, True, 3, 2, 0.0, "by hand: upright walls have no draft upward"),
    ("circle", polygon(64), False, 0, 2, 0.0, "half a circle leaves one direction"),
    ("circle, 5 deg", polygon(64), False, 5, 3, 0.0, "arcs of 120 deg leave 90 - 60 = 30 deg"),
    ("circle, 30 deg", polygon(64), False, 30, 3, 0.0, "the same"),
    ("circle, 31 deg", polygon(64), False, 31, 4, 0.0, "64 edges: 90 - 21 x 180/64 = 30.94 deg are the most of three"),
    ("dome on a board", DOME, True, 0, 1, 0.0, "by hand: straight up"),
    ("L", ELL, False, 0, 2, 0.0, "closed form: 45 deg each, re-entrant corner with it"),
    ("L, 45 deg", ELL, False, 45, 2, 0.0, "the same"),
    ("slot with a chamber", KEYHOLE, False, 0, 2, 0.5, "by hand: the chamber, 1 by 0.5, is out of reach; the slot is not"),
    ("channel", CHANNEL, False, 0, 2, 0.0, "by hand: its inside slides out along the parallel walls"),
    ("legs on a board", ARCH, True, 0, 1, 0.3, "by hand: what is between the legs, 0.6 by 0.5"),
    ("toadstool on a board", TOADSTOOL, True, 0, 2, 0.0, "by hand: halves slide apart under the cap"),
]


@pytest.mark.parametrize(("what", "points", "stands", "draft", "arcs", "filled", "source"), KNOWN, ids=[row[0] for row in KNOWN])
def test_known_outlines(what, points, stands, draft, arcs, filled, source):
    made = split_outline(outline(points, standing=stands), draft=radians(draft))
    assert len(made.arcs) == arcs, source
    assert made.fill_area == within(filled, absolute=1e-9), source
    assert all(arc.draft >= radians(draft) - 1e-6 for arc in made.arcs)


@pytest.mark.parametrize("corners", [12, 63, 64, 66, 90])
@pytest.mark.parametrize("arcs", [2, 3, 4, 5])
def test_best_draft_of_a_regular_polygon(corners, arcs):
    """An arc of m edges of n turns by (m - 1) 360/n, so the best draft is 90 - (m - 1) 180/n with m = n/k rounded up; 30 deg for a circle in 3."""
    edges = -(-corners // arcs)
    assert degrees(best_draft(outline(polygon(corners)), arcs=arcs, cuts=8)) == within(90 - (edges - 1) * 180 / corners, absolute=1e-4)
    assert best_draft(outline(polygon(corners)), arcs=1, cuts=8) is None


def test_of_a_channel_nothing_takes_the_inside_with_draft():
    """Its walls are parallel: with draft the inside as one has no way; with a lip not even without draft."""
    inside = [piece for piece in pieces_of(outline(CHANNEL), 8) if min(piece.start[1], piece.end[1]) >= 0.5 - 1e-9
              and max(piece.start[1], piece.end[1]) <= 1.5 + 1e-9 and min(piece.start[0], piece.end[0]) >= 0.5 - 1e-9
              and not (piece.start[0] == piece.end[0] == 2)]
    pieces = pieces_of(outline(CHANNEL), 8)
    ways = dict(zip(pieces, ways_of_all(pieces, False), strict=True))
    for draft, free in ((0.0, True), (radians(1), False)):
        left = [(0.0, bearings.TURN)]
        for piece in inside:
            left = bearings.common(left, with_draft(piece, ways[piece], draft))
        assert bool(left) == free
    lipped = [(0, 0), (2, 0), (2, 0.8), (1.8, 0.8), (1.8, 0.5), (0.5, 0.5), (0.5, 1.5), (1.8, 1.5), (1.8, 1.2), (2, 1.2), (2, 2), (0, 2)]
    assert split_outline(outline(lipped)).fill_area > 0


def test_a_tunnel_end_is_no_way_out():
    """Under an arch nothing slides along the ceiling into the leg."""
    pieces = pieces_of(outline(ARCH, standing=True), 8)
    ceiling = [way for piece, way in zip(pieces, ways_of_all(pieces, True), strict=True) if piece.start[1] == piece.end[1] == 0.5]
    assert ceiling and not any(ceiling)


def test_winding_does_not_matter():
    one, other = (split_outline(outline(points), draft=0.05) for points in (KEYHOLE, KEYHOLE[::-1]))
    assert len(one.arcs) == len(other.arcs) and one.fill_area == within(other.fill_area, 1e-9)


@settings(max_examples=15, deadline=None)
@given(scale=st.floats(0.01, 100), turn=st.floats(-3, 3), points=st.sampled_from([SQUARE, ELL, CHANNEL, KEYHOLE]))
def test_size_and_turn_change_nothing(scale, turn, points):
    turned = [(scale * (x * cos(turn) - y * sin(turn)), scale * (x * sin(turn) + y * cos(turn))) for x, y in points]
    one, other = (split_outline(outline(these), draft=radians(2), cuts=24) for these in (points, turned))
    assert len(one.arcs) == len(other.arcs) and other.fill_area == within(one.fill_area * scale**2, 1e-6, 1e-9 * scale**2)


STARS = st.integers(5, 9).flatmap(lambda count: st.lists(st.floats(0.3, 1), min_size=count, max_size=count)).map(
    lambda radii: [(r * cos(2 * pi * i / len(radii) + 0.1), r * sin(2 * pi * i / len(radii) + 0.1)) for i, r in enumerate(radii)])


def out_of(point, angle, pieces):
    """Whether a ray from just outside a point leaves without crossing anything."""
    x, y = point[0] + 1e-7 * cos(angle), point[1] + 1e-7 * sin(angle)
    return not any(cross((x, y), (x + 100 * cos(angle), y + 100 * sin(angle)), other.start, other.end, 0.0) for other in pieces)


@settings(max_examples=25, deadline=None)
@given(points=STARS, standing=st.booleans(), draft=st.floats(0.01, 0.2))
def test_every_section_leaves_by_sampled_rays(points, standing, draft):
    """Another proof than the one that found them: rays from five points of each piece, and the board."""
    made = split_outline(outline(points, standing=standing), draft=draft, cuts=24)
    starts = [(piece.start, piece) for piece in made.pieces]
    for arc in made.arcs:
        here = next(i for i, (start, _) in enumerate(starts) if start == arc.start)
        while True:
            piece = starts[here % len(starts)][1]
            assert cos(piece.normal - arc.pull) >= sin(draft) - 1e-9
            assert not standing or sin(arc.pull) >= -1e-9
            for share in (0.02, 0.3, 0.5, 0.7, 0.98):
                at = tuple(a + share * (b - a) for a, b in zip(piece.start, piece.end, strict=True))
                assert out_of(at, arc.pull, made.pieces)
            if piece.end == arc.end:
                break
            here += 1
    covered = sum(arc.length for arc in made.arcs)
    assert covered == within(sum(piece.length for piece in made.pieces if not piece.board), 1e-9)


@settings(max_examples=25, deadline=None)
@given(points=STARS, draft=st.floats(0, 0.3))
def test_no_cover_with_fewer_arcs(points, draft):
    """All covers by brute force: sets of consecutive pieces with a common direction out of 720, in every number from one up."""
    line = outline(points)
    pieces = pieces_of(line, 8)
    ways = ways_of_all(pieces, False)
    made = fewest_arcs(pieces, ways, draft)
    if made is None:
        return
    count = len(pieces)
    free = [{k for k in range(720) if any(low <= k * pi / 360 <= high for low, high in with_draft(piece, way, draft))}
            for piece, way in zip(pieces, ways, strict=True)]
    reach = []
    for start in range(count):
        here, far = set(free[start]), 0
        while here and far < count:
            far += 1
            here &= free[(start + far) % count]
        reach.append(far)
    fewest = inf
    for start in range(count):
        done, used = 0, 0
        while done < count and reach[(start + done) % count]:
            done, used = done + reach[(start + done) % count], used + 1
        fewest = min(fewest, used if done >= count else inf)
    assert len(made) <= fewest
    for first, length in made:
        common = [(0.0, bearings.TURN)]
        for i in range(length):
            common = bearings.common(common, with_draft(pieces[(first + i) % count], ways[(first + i) % count], draft))
        assert common


@settings(max_examples=30, deadline=None)
@given(points=STARS, angle=st.floats(0, 2 * pi), which=st.integers(0, 8))
def test_ways_of_a_piece_by_sampled_rays(points, angle, which):
    pieces = pieces_of(outline(points), 8)
    piece = pieces[which % len(pieces)]
    ways = ways_of_all(pieces, False)[which % len(pieces)]
    near = min((abs((end - angle + pi) % (2 * pi) - pi) for part in ways for end in part), default=1.0)
    if near < 0.01:
        return
    shares = [1e-4, 1e-3, *[i / 400 for i in range(1, 400)], 1 - 1e-3, 1 - 1e-4]
    at = [tuple(a + share * (b - a) for a, b in zip(piece.start, piece.end, strict=True)) for share in shares]
    clear = cos(piece.normal - angle) > 0 and all(out_of(p, angle, pieces) for p in at)
    assert clear == any(low <= angle <= high for low, high in ways)


@given(low=st.floats(-10, 10), width=st.floats(0, 3), other=st.floats(-10, 10), wide=st.floats(0, 3), angle=st.floats(0, 2 * pi))
def test_sets_of_directions(low, width, other, wide, angle):
    """Common and without, against membership angle by angle."""
    def holds(parts):
        return any(start <= angle <= end for start, end in parts)

    def within_stretch(start, size):
        return (angle - start) % (2 * pi) <= size

    edges = [low, low + width, other, other + wide]
    if min(abs((edge - angle + pi) % (2 * pi) - pi) for edge in edges) < 1e-6:
        return
    one, two = bearings.stretch(low, low + width), bearings.stretch(other, other + wide)
    assert holds(one) == within_stretch(low, width)
    assert holds(bearings.common(one, two)) == (within_stretch(low, width) and within_stretch(other, wide))
    assert holds(bearings.without(one, other, other + wide)) == (within_stretch(low, width) and not within_stretch(other, wide))


def test_a_narrow_slot_is_closed_by_the_rubber():
    made = split_outline(outline(KEYHOLE), narrowest=0.3)
    assert made.fill_area == within(0.2 * 0.5 + 1 * 0.5, 1e-9) and [notch.area for notch in made.notches] == within([0.6], 1e-9)
    assert split_outline(outline(KEYHOLE), narrowest=0.1).fill_area == within(0.5, 1e-9)


def test_order_where_pulls_cross():
    """A steep channel: the section deep inside is held by the flange of its neighbour until that is gone."""
    made = split_outline(outline(CHANNEL), draft=radians(2))
    waits = [seam for seam in made.seams if seam.first is not None]
    assert waits and all(seam.first in made.rounds[0] for seam in waits)
    assert sorted(arc for one in made.rounds for arc in one) == list(range(len(made.arcs)))


def test_profiles_say_what_they_cannot_see():
    made = split_profiles([outline(DOME, standing=True, name="front"), outline(SQUARE, name="plan")])
    assert made.most == 2 and [one.name for one in made.outlines] == ["front", "plan"]
    assert any("against the light" in said for said in made.unseen)
    assert made.outlines[0].said == "front: 1 section, least draft 2.81°, nothing to fill."
    assert said_of_arc(made.outlines[0].arcs[0], 1).startswith("Section 1: 3.14 m of outline, pull up, draft 2.81°")


def test_photo_is_scaled_by_one_length():
    traced = points_from_photo([(100, 400), (300, 400), (300, 100), (100, 100)], 0.5, [(10, 10), (10, 260)])
    assert [number for point in traced for number in point] == within([0, 0, 0.4, 0, 0.4, 0.6, 0, 0.6], absolute=1e-12)
    assert hypot(*traced[2]) == within(hypot(0.4, 0.6), 1e-12) and atan2(*traced[2]) > 0


@pytest.mark.parametrize(("points", "says"), [
    ([(0, 0), (1, 0)], "front is a line of 2 different points; give at least 3"),
    ([(0, 0), (0, 0), (0, 0)], "front is a line of 1 different point; give at least 3"),
    ([(0, 0), (1, nan), (1, 1)], "point 2 of front is"),
    ([(0, 0), (1, inf), (1, 1)], "give two finite numbers"),
    ([(0, 0), (1,), (1, 1)], "point 2 of front is .*give two numbers"),
    ([(0, 0), ("a", 1), (1, 1)], "point 2 of front is"),
    ([(0, 0), (1, 0), (2, 0)], "front is without any area"),
    ([(0, 0), (1e-6, 0), (0, 1e-6)], "front is without any area"),
    ([(0, 0), (1, 1), (1, 0), (0, 1.2)], "front is a line that meets itself"),
    ([(0, 0), (2, 0), (1, 0), (1, 1)], "front is a line that runs back on itself"),
    ([(0, 0), (1e30, 0), (0, 1e30)], "it must be at most 1000 m"),
    ([(cos(i), sin(i)) for i in range(301)], "give at most 300"),
])
def test_outlines_that_are_none(points, says):
    with pytest.raises(EntryError, match=says) as refused:
        outline(points, name="front")
    assert len(refused.value.faults) == 1


@pytest.mark.parametrize(("call", "says"), [
    (lambda: split_outline(outline(SQUARE), draft=pi / 2), "draft is 90°"),
    (lambda: split_outline(outline(SQUARE), draft=nan), "draft is nan°"),
    (lambda: split_outline(outline(SQUARE), narrowest=-1), "narrowest notch is -1 m"),
    (lambda: split_outline(outline(SQUARE), cuts=1000), "number of cuts is 1000; give 8 to 200"),
    (lambda: split_profiles([outline(SQUARE)]), "number of outlines is 1; give two to six"),
    (lambda: points_from_photo([(0, 0)], 0, [(0, 0), (1, 1)]), "known length is 0 m; it must be above 0"),
    (lambda: points_from_photo([(0, 0)], 1, [(1, 1), (1, 1)]), "known length is between 1 different point of the picture"),
    (lambda: points_from_photo([], 1, [(0, 0), (1, 1)]), "tracing is empty"),
])
def test_refusals(call, says):
    with pytest.raises(EntryError, match=says):
        call()
