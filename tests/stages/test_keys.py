"""Keys, strips, cuts: laws, and the wording of what is refused."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import keys
from moldcalc.units import Q
from tests.tables import within

METRES = st.floats(0.01, 2.0)


@given(neck=METRES, wider=st.floats(0, 3), scale=st.floats(0.1, 10))
def test_strain_knows_no_scale(neck, wider, scale):
    one = keys.hoop_strain.si(neck=neck, bulge=neck * (1 + wider))
    assert one == within(wider, 1e-9, 1e-12)
    assert keys.hoop_strain.si(neck=scale * neck, bulge=scale * neck * (1 + wider)) == within(one, 1e-9, 1e-12)


@given(mouth=METRES, bulge=METRES, allowed=st.floats(0, 2))
def test_the_least_cut_is_just_enough(mouth, bulge, allowed):
    cut = keys.least_cut.si(mouth=mouth, bulge=bulge, allowed=allowed)
    strain = keys.cut_glove_strain.si(mouth=mouth, bulge=bulge, cut=cut)
    assert strain <= allowed + 1e-9
    assert cut == 0 or strain == within(allowed, absolute=1e-9)


@given(adhesion=st.floats(0.1, 100), angle=st.floats(0.05, math.pi), thickness=st.floats(0.002, 0.02))
def test_flatter_takes_more_and_never_more_than_a_stiff_strip(adhesion, angle, thickness):
    force = keys.peel_force.si(adhesion=adhesion, modulus=0.7e6, thickness=thickness, angle=angle)
    assert force <= keys.stiff_peel_force.si(adhesion=adhesion, angle=angle) * (1 + 1e-12)
    assert force <= keys.peel_force.si(adhesion=adhesion, modulus=0.7e6, thickness=thickness, angle=0.9 * angle)


@given(hardness=st.floats(0, 99))
def test_harder_is_stiffer(hardness):
    for formula in (keys.gent_modulus, keys.ruess_modulus):
        assert formula.si(hardness_shore_a=hardness + 0.5) > formula.si(hardness_shore_a=hardness)


@given(area=st.floats(0.01, 3), load=st.floats(0, 500), hold=st.floats(1, 100), factor=st.floats(1, 5), spacing=st.floats(0.05, 0.4))
def test_buttons_hold(area, load, hold, factor, spacing):
    found = keys.buttons.si(area=area, load=load, hold=hold, load_factor=factor, most_spacing=spacing)
    assert found.number * hold >= factor * load * (1 - 1e-8)
    assert found.spacing <= spacing * (1 + 1e-8)
    assert found.number == max(found.by_load, found.by_spacing, 1)


@given(length=st.floats(0.3, 5), spacing=st.floats(0.06, 0.2))
def test_flange_keys_are_never_too_far_apart(length, spacing):
    closed = keys.flange_keys.si(length=length, width=0.01, most_spacing=spacing)
    ends = keys.flange_keys.si(length=length, width=0.01, most_spacing=spacing, end=0.05)
    for found in (closed, ends):
        assert found.spacing <= spacing * (1 + 1e-8)
    assert closed.number >= 3 and ends.number >= 2


@given(base=st.floats(0.02, 0.05), height=st.floats(0.005, 0.02), draft=st.floats(0, 0.3))
def test_a_round_key_is_pi_quarters_of_a_square_one(base, height, draft):
    round_, square = (keys.key_size.si(base=base, height=height, draft=draft, round=kind) for kind in (1.0, 0.0))
    assert round_.volume == within(math.pi / 4 * square.volume, 1e-12)
    assert round_.volume <= base * base * height


@settings(max_examples=60, deadline=None)
@given(lengths=st.lists(st.floats(0.05, 1.0), min_size=1, max_size=14), kerf=st.floats(0, 0.01))
def test_every_piece_is_cut_once_and_fits(lengths, kerf):
    found = keys.channel_castings.si(lengths=lengths, channel_length=1.0, trim=kerf)
    assert sorted(piece for bin_ in found.pieces for piece in bin_) == list(range(len(lengths)))
    for bin_ in found.pieces:
        assert sum(lengths[piece] for piece in bin_) + kerf * (len(bin_) - 1) <= 1 + 1e-7
    assert math.ceil(sum(lengths) - 1e-6) <= found.number <= len(lengths)


def test_a_long_list_ends_at_once():
    lengths = [0.21 + 0.0007 * (i * 37 % 311) for i in range(120)]
    found = keys.channel_castings.si(lengths=lengths, channel_length=1.0)
    assert sum(map(len, found.pieces)) == 120


def test_first_fit_is_not_good_enough():
    """Largest first into the first with room takes 3; 2 do: 0.42 + 0.33 + 0.25 and 0.5 + 0.25 + 0.25, and so on."""
    lengths = [0.50, 0.42, 0.33, 0.25, 0.25, 0.25]
    found = keys.channel_castings.si(lengths=lengths, channel_length=1.0)
    assert (found.number, found.proved) == (2, True)


@given(length=METRES, most=METRES)
def test_pieces_make_the_whole(length, most):
    pieces = keys.in_pieces.si(lengths=[length], most=most)
    assert sum(pieces) == within(length, 1e-9)
    assert max(pieces) <= most * (1 + 1e-8)


def test_strips_of_a_shim_run_the_way_that_takes_fewer_sheets():
    found = keys.shims(lengths=["1.1 m"] * 4, height="80 mm", sheet_length="0.9 m", sheet_width="1.2 m")
    assert (found.sheets, found.lengthways, found.per_sheet) == (1, False, 11)


def test_a_kerf_lies_only_between_two_strips():
    """Three strips of 100 mm and two cuts of 5 mm fit into 310 mm."""
    entries = {"lengths": ["0.5 m"] * 3, "height": "100 mm", "sheet_length": "0.5 m", "kerf": "5 mm"}
    assert [keys.shims(**entries, sheet_width=width).per_sheet for width in ("309 mm", "310 mm")] == [2, 3]


def test_a_slot_takes_its_rubber_out():
    """2 m of a slot 5 x 10 mm at 1200 kg/m³: 120 g."""
    strip = {"length": 2.0, "width_top": 0.020, "width_base": 0.025, "height": 0.019, "density": 1200.0}
    full, slotted = (keys.strip_mass.si(**strip, slot_width=width, slot_depth=0.010) for width in (0.0, 0.005))
    assert full - slotted == within(0.120, 1e-9)


def test_a_strip_ages():
    window = keys.strip_window.si(demold_time=100.0, latest_recoat=200.0, factor=0.5)
    assert [keys.strip_bond(age, window.earliest, window.latest) for age in (100, 300, 500)] == ["too soon", "bonds", "abrade and test"]
    assert not keys.strip_window.si(demold_time=300.0, latest_recoat=200.0, factor=1.0).open


def test_ways_to_open_are_tried_with_the_least_cut_first():
    entries = {"neck": "300 mm", "bulge": "600 mm", "mouth": "300 mm", "cut": "50 mm", "thickness": "8 mm", "fold_radius": "20 mm"}
    assert keys.ways_to_open(**entries, allowed=1.2).chosen == "closed glove"
    assert keys.ways_to_open(**entries, allowed=0.6).chosen == "cut glove"
    assert keys.ways_to_open(**entries, allowed=0.3).chosen == "two halves"
    assert keys.ways_to_open(**entries, allowed=0.1).chosen is None
    assert keys.ways_to_open(**entries, allowed=0.6, allowed_at_cut=0.4).chosen == "two halves"


def test_a_wide_opening_needs_no_cut():
    found = keys.seam_reach.si(heights=[0.0, 0.5, 1.0], girths=[2.0, 1.5, 1.0], allowed=0.0)
    assert (found.cut_to, found.worst_closed, found.necks) == (0.0, 0.0, ())


def test_what_a_draft_means():
    assert [keys.said_of_key(draft, 0.09) for draft in (-0.1, 0.05, 0.2)] == [
        "locks: turn it to the pull, or open its sides", "too tight: below the least draft", "lets go"]


@pytest.mark.parametrize(("call", "says"), [
    (lambda: keys.hoop_strain(neck="80 mm", bulge="70 mm"),
     "neck is 80 mm; it must be at most as wide as the bulge, 70 mm; nothing stretches where the opening is wider."),
    (lambda: keys.allowed_stretch(elongation=0, share="30 %"), "elongation is 0; it must be above 0."),
    (lambda: keys.channel_castings(lengths=["0.5 m", "1.2 m"], channel_length="1 m"),
     "length 2 is 1.2 m; the channel gives at most 1 m; make it in pieces."),
    (lambda: keys.shims(lengths=["1.5 m"], height="80 mm", sheet_length="1.25 m", sheet_width="1 m"),
     "length 1 is 1.5 m; the sheet gives at most 1.25 m; make it in pieces."),
    (lambda: keys.shims(lengths=["0.5 m"], height="2 m", sheet_length="1.25 m", sheet_width="1 m"),
     "height is 2 m; the sheet is only 1 m across; take a larger sheet."),
    (lambda: keys.strip_slot(shim="20 mm", clearance="3 mm", depth="5 mm", strip_top="25 mm", strip_height="19 mm"),
     "shim is 20 mm; with its clearance it must be thinner than the strip's top, 25 mm."),
    (lambda: keys.strip_slot(shim="2 mm", clearance="0 mm", depth="19 mm", strip_top="25 mm", strip_height="19 mm"),
     "depth is 19 mm; it must be less than the strip's height, 19 mm."),
    (lambda: keys.cut_passes(thickness="18 mm", width="50 mm", last="20 mm", swing="10 mm"),
     "last is 20 mm; it must be less than the band's thickness, 18 mm."),
    (lambda: keys.zigzag(length="2.4 m", pitch="15 mm", swing="10 mm", thickness="18 mm", depth_share=0.95, last="3 mm"),
     "depth share is 0.95; it leaves 0.9 mm of the band; 3 mm must stay."),
    (lambda: keys.key_size(base="30 mm", height="100 mm", draft="12°"), "draft is 12°; the sides meet below the top, 100 mm high"),
    (lambda: keys.key_size(base="30 mm", height="12 mm", draft="12°", round=0.5), "round is 0.5; it must be 1 for a round key or 0"),
    (lambda: keys.key_lean(axis=[0, 0, 0], pull=[0, 0, 1]), "axis is 0, 0, 0; it has no direction"),
    (lambda: keys.key_lean(axis=[0, 1], pull=[0, 0, 1]), "axis is a list of 2; give three numbers."),
    (lambda: keys.half_angle_for_pull(draft="10°", lean="85°"), "lean is 85°; no key lets go so far from its axis"),
    (lambda: keys.flange_keys(length="0.3 m", width="40 mm", most_spacing="30 mm"), "width is 40 mm; keys would touch: they come 30 mm apart here."),
    (lambda: keys.flange_keys(length="0.3 m", width="20 mm", most_spacing="100 mm", end="150 mm"), "end is 150 mm; twice that must be less"),
    (lambda: keys.seam_reach(heights=["0 m", "1 m"], girths=["1 m"], allowed=0.5), "girths is a list of 1; give 2, one for each height."),
    (lambda: keys.seam_reach(heights=["1 m", "0 m"], girths=["1 m", "1 m"], allowed=0.5), "heights is 1 m and then 0 mm; give them in order"),
    (lambda: keys.least_peel_angle(adhesion=Q(5, "N/m"), modulus="0.73 MPa", thickness="5 mm", pull=Q(1, "N/m")),
     "pull is 1 N/m; it peels at no angle; at least 2.5 N/m, turned right back, is needed."),
    (lambda: keys.gent_modulus(hardness_shore_a=110), "hardness shore a is 110; it must be at least 0 and below 100."),
])
def test_what_is_refused(call, says):
    with pytest.raises(EntryError) as error:
        call()
    assert says in str(error.value)
