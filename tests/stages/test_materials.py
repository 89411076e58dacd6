"""What may touch what: the table itself, look-ups that never guess, holds, and reasons in the open."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.stages import materials as m

TABLE = Path(__file__).parents[2] / "data" / "pairs.toml"
TIN, ADDITION = "tin-cure silicone", "addition-cure silicone"
HOUR = 3600.0


@pytest.fixture(scope="module")
def raw():
    return tomllib.loads(TABLE.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def pairs(raw):
    return m.read_pairs(raw)


def row(**changed):
    return {"first": "glass", "second": TIN, "advice": "Release it.", "verdict": "release", "confidence": "from memory", "source": "none"} | changed


# the table ------------------------------------------------------------------------------------------------------------
def test_no_row_is_unmarked(raw):
    """Chemistry of the table: each row verified, common practice or from memory, with its source; read without our reader."""
    rows = [one for rows in raw.values() for one in rows]
    assert len(rows) > 90
    for one in rows:
        assert one["confidence"] in ("verified", "common practice", "from memory"), one
        assert one["source"].strip() and one["advice"].strip(), one
        assert (one["confidence"] == "verified") == ("no source" not in one["source"] and "no authority" not in one["source"]), one


def test_all_kinds_of_meetings_are_there(raw):
    assert set(raw) == set(m.KINDS)


CHEMISTRY = [
    # first                        second    verdict    source
    ("sulphur-bearing oil clay", ADDITION, "never", "some clays hold sulphur: conservation poster, verified"),
    ("sulphur-free oil clay", TIN, "fine", "museum blog on molds, verified"),
    ("latex gloves", ADDITION, "never", "glove-induced inhibition: dental reviews, verified"),
    ("fresh amine-cured epoxy", ADDITION, "never", "amines: conservation statement, verified"),
    ("solder flux", ADDITION, "never", "the same"),
    ("cured tin-cure silicone", ADDITION, "never", "the same"),
    ("porous stone", TIN, "seal", "barrier and test: J. Am. Inst. Conservation 41(2); a Valencia abstract; verified"),
    ("glass", TIN, "release", "silicone bonds to silica; from memory"),
    ("photopolymer print", ADDITION, "never", "one of the most repeated failures; common practice"),
    ("sulphur-bearing oil clay", TIN, "seal", "tin cure is not inhibited by it; seal and test, common practice"),
]


@pytest.mark.parametrize(("first", "second", "verdict", "source"), CHEMISTRY)
def test_what_poisons_what(pairs, first, second, verdict, source):
    assert m.find_pair(pairs, kind="surface and rubber", first=first, second=second).verdict == verdict, source


@pytest.mark.parametrize("first", ["fresh amine-cured epoxy", "latex gloves", "solder flux", "natural latex", "PVC with tin stabiliser"])
def test_what_poisons_addition_cure_leaves_tin_cure_alone(pairs, first):
    """Tin cure is not inhibited by these: conservation poster, verified."""
    assert m.find_pair(pairs, kind="surface and rubber", first=first, second=TIN).verdict == "fine"


def test_either_may_be_named_first(pairs):
    for pair in pairs:
        assert m.find_pair(pairs, kind=pair.kind, first=pair.second.upper(), second=f"  {pair.first} ") == pair


# looking up -----------------------------------------------------------------------------------------------------------
@given(first=st.text(min_size=1, max_size=60), second=st.sampled_from([TIN, ADDITION, "latex"]))
def test_an_unknown_pair_is_never_fine(first, second):
    table = m.read_pairs({"surface and rubber": [row(first="moon dust", verdict="fine")]})
    try:
        found = m.find_pair(table, kind="surface and rubber", first=first, second=second)
    except EntryError as refused:
        assert "write the name of a material" in str(refused)
    else:
        assert found.verdict == "unknown: patch test" and m.needs_test(found)


def test_a_pair_of_another_kind_does_not_count(pairs):
    assert m.find_pair(pairs, kind="rubber and rubber", first="glass", second=TIN).verdict == "unknown: patch test"


@pytest.mark.parametrize("name", ["", "   ", "x" * 5000, None])
def test_odd_names(pairs, name):
    with pytest.raises(EntryError, match="write the name of a material"):
        m.find_pair(pairs, kind="surface and rubber", first=name, second=TIN)


@pytest.mark.parametrize(("tables", "says"), [
    ({"surface and rubber": [row(confidence="")]}, "confidence in row 1 of surface and rubber is empty; write it as text"),
    ({"surface and rubber": [row(confidence="sure")]},
     "confidence in row 1 of surface and rubber is sure; it must be verified, common practice or from memory."),
    ({"surface and rubber": [row(verdict="ok")]}, "verdict in row 1 of surface and rubber is ok; it must be fine, seal, release, never or unknown"),
    ({"surface and rubber": [{"first": "glass"}]}, "advice in row 1 of surface and rubber is missing; give it."),
    ({"surface and rubber": [row(), row(first=TIN, second="Glass")]},
     "row 2 of surface and rubber is tin-cure silicone and Glass; this pair stands there"),
    ({"surface and rubber": [row(price=3)]}, "price in row 1 of surface and rubber is 3; there is no such column"),
    ({"surface and rubber": [row(first=7)]}, "first in row 1 of surface and rubber is 7; write it as text"),
    ({"surface and rubber": [row(test="yes")]}, "test in row 1 of surface and rubber is yes; it must be true or false."),
    ({"surface and rubber": ["glass"]}, "row 1 of surface and rubber is glass; it must be a row of named columns."),
    ({"surfaces": []}, "kind of pairs is surfaces; it must be a list of rows named surface and rubber"),
    ({"surface and rubber": 3}, "kind of pairs is surface and rubber; it must be a list of rows"),
])
def test_rows_that_are_refused(tables, says):
    with pytest.raises(EntryError) as error:
        m.read_pairs(tables)
    assert says in str(error.value)


# the touch map --------------------------------------------------------------------------------------------------------
def job(rubber=TIN, **clay):
    return [m.Thing("original", "sulphur-free oil clay", "surface", **clay), m.Thing("gloves", "latex gloves", "tool"),
            m.Thing("pins", "metal, clean", "tool"), m.Thing("rubber", rubber, "rubber"), m.Thing("shell", "epoxy laminate", "shell"),
            m.Thing("cast", "fibre-cement", "cast")]


def test_a_touch_map_in_order(pairs):
    found = m.touch_map(job(), pairs)
    assert [(touch.first, touch.second, touch.pair.verdict, touch.state) for touch in found] == [
        ("original", "rubber", "fine", "settled"), ("gloves", "rubber", "fine", "settled"), ("pins", "rubber", "fine", "settled"),
        ("rubber", "rubber", "fine", "settled"), ("rubber", "shell", "release", "open"), ("shell", "shell", "release", "open"),
        ("rubber", "cast", "release", "open"),
    ]


def test_the_other_chemistry_stops_at_the_gloves(pairs):
    found = {touch.first: touch for touch in m.touch_map(job(ADDITION), pairs)}
    assert found["gloves"].state == "stop"
    assert found["original"].test and found["original"].state == "settled"


def test_sealed_and_released_are_settled(pairs):
    things = [m.Thing("wood", "raw wood", "surface", sealed=True), m.Thing("glass", "glass", "surface", released=True),
              m.Thing("rubber", TIN, "rubber")]
    found = m.touch_map(things, pairs)
    assert [touch.state for touch in found[:2]] == ["settled", "settled"]
    assert found[0].said == "wood and rubber: seal, and it is sealed (from memory). Close its pores."


def test_what_is_covered_does_not_meet_the_rubber(pairs):
    things = [m.Thing("plaster", "fresh gypsum plaster", "surface"), m.Thing("lacquer", "acrylic lacquer sealer, dry", "surface", over="plaster"),
              m.Thing("rubber", TIN, "rubber")]
    assert [touch.first for touch in m.touch_map(things, pairs)] == ["lacquer", "rubber"]


def test_the_original_may_be_named_after_the_rubber(pairs):
    assert m.touch_map([m.Thing("rubber", TIN, "rubber"), m.Thing("glass", "glass", "surface")], pairs)[1].pair.verdict == "release"


def test_labels():
    assert m.labels(job()) == (("original", "ONLY with tin-cure silicone"), ("gloves", "ONLY with tin-cure silicone"),
                               ("pins", "ONLY with tin-cure silicone"))
    assert m.labels(job()[:2])[0][1] == "no rubber chosen yet"


@pytest.mark.parametrize(("things", "says"), [
    ([m.Thing("a", "glass", "vase")], "role of thing 1 is vase; it must be one of surface, tool"),
    ([m.Thing("a", "glass", "surface"), m.Thing(" A ", "glass", "surface")], "name of thing 2 is A; give each thing a name of its own."),
    ([m.Thing("a", " ", "surface")], "material of thing 1 is empty; say what it is made of."),
    ([m.Thing("a", "glass", "surface", over="b")], "what thing 1 covers is b; there is no such thing on the list."),
    ([m.Thing(str(i), "glass", "surface") for i in range(101)], "things is a list of 101; give at most 100."),
])
def test_things_that_are_refused(things, says):
    with pytest.raises(EntryError) as error:
        m.touch_map(things, ())
    assert says in str(error.value)


# patch tests ----------------------------------------------------------------------------------------------------------
STONE = [m.Thing("stone", "porous stone", "surface", sealed=True), m.Thing("rubber", TIN, "rubber")]
PATCHES = [
    # entered                                                                result            holds
    (None, "missing", True),
    (m.PatchTest("stone", "rubber"), "missing", True),
    (m.PatchTest("stone", "rubber", 15 * HOUR, False), "too short", True),
    (m.PatchTest("stone", "rubber", 16 * HOUR, None), "tack not entered", True),
    (m.PatchTest("stone", "rubber", 16 * HOUR, True), "tacky", True),
    (m.PatchTest("stone", "rubber", 16 * HOUR, False), "passed", False),
    (m.PatchTest("Rubber", " stone", 16 * HOUR, False), "passed", False),
    (m.PatchTest("stone", "rubber", overruled="The same stone and batch as last week's job."), "overruled", False),
]


@pytest.mark.parametrize(("test", "result", "holds"), PATCHES)
def test_a_surface_holds_until_its_test_is_entered(pairs, test, result, holds):
    touches = m.touch_map(STONE, pairs)
    found = m.patch_holds(touches, [test] if test else [], 16 * HOUR)[0]
    assert (found.result, found.holds) == (result, holds)


def test_an_overrule_is_kept_as_it_is(pairs):
    reason = "The same stone and batch as last week's job."
    found = m.patch_holds(m.touch_map(STONE, pairs), [m.PatchTest("stone", "rubber", 2 * HOUR, True, reason)], 16 * HOUR)[0]
    assert found.said.endswith(reason)


def test_what_is_fine_asks_for_nothing(pairs):
    assert [hold.holds for hold in m.patch_holds(m.touch_map(job(), pairs), [], 16 * HOUR)] == [False] * 7


def test_never_is_not_undone_by_a_test(pairs):
    touches = m.touch_map(job(ADDITION), pairs)
    tests = [m.PatchTest("original", "rubber", 16 * HOUR, False), m.PatchTest("gloves", "rubber", 16 * HOUR, False)]
    holds = {hold.first: hold for hold in m.patch_holds(touches, tests, 16 * HOUR)}
    assert not holds["original"].holds and holds["gloves"].holds
    assert "write down why" in holds["gloves"].said


@pytest.mark.parametrize(("tests", "says"), [
    ([m.PatchTest("stone", "rubber", overruled="no")], "overrule is no; write the reason in 10 to 2000 letters."),
    ([m.PatchTest("stone", "moon")], "patch test is stone with moon; these two do not meet in this job."),
    ([m.PatchTest("stone", "rubber"), m.PatchTest("rubber", "stone")], "it is entered twice"),
    ([m.PatchTest("stone", "rubber", float("nan"), False)], "hours of the patch test is nan s; give how long the patch lay."),
    ([m.PatchTest("stone", "rubber", -1.0, False)], "hours of the patch test is -1 s"),
])
def test_patch_tests_that_are_refused(pairs, tests, says):
    with pytest.raises(EntryError) as error:
        m.patch_holds(m.touch_map(STONE, pairs), tests, 16 * HOUR)
    assert says in str(error.value)


# choosing -------------------------------------------------------------------------------------------------------------
FACTS = {"verdicts": {TIN: ["fine"], ADDITION: ["fine"]}, "shrinkage_allowed": 0.02, "casts": 6, "cast_material": "fibre-cement", "years": 3,
         "prices": {TIN: 300, ADDITION: 500}}


def test_totals_are_what_the_rows_add_up_to():
    weights = {"price": 3, "keeping": 0.5}
    found = m.choose_chemistry(**FACTS, weights=weights)
    for at, total in enumerate(found.totals):
        assert total == sum(reason.weight * reason.points[at] for reason in found.reasons)
    assert {reason.criterion: reason.weight for reason in found.reasons} == {"surface": 1, "shrinkage": 1, "cast": 1, "keeping": 0.5, "price": 3}
    assert all(reason.why and reason.source and reason.status for reason in found.reasons)


@pytest.mark.parametrize(("changed", "chosen"), [
    ({}, None), ({"weights": {"price": 2}}, TIN), ({"years": 10}, ADDITION), ({"shrinkage_allowed": 0.001}, ADDITION),
    ({"verdicts": {TIN: ["fine"], ADDITION: ["fine", "never"]}, "years": 20}, TIN), ({"cast_material": "wax"}, ADDITION),
    ({"budget": 400}, TIN), ({"verdicts": {TIN: ["never"], ADDITION: ["never"]}}, None),
])
def test_what_tips_the_choice(changed, chosen):
    assert m.choose_chemistry(**FACTS | changed).chosen == chosen


def test_a_rubber_for_deep_necks_is_soft_and_for_heavy_casts_is_firm():
    assert m.choose_hardness(stretch=0.8, area=0.3, cast_mass=2, hangs=False).chosen.startswith("soft")
    assert m.choose_hardness(stretch=0.1, area=1.7, cast_mass=40, hangs=True, weights={"casts": 2}).chosen.startswith("firm")
    assert m.choose_hardness(stretch=0.1, area=0.5, cast_mass=5, hangs=False).chosen.startswith("medium")


@pytest.mark.parametrize(("changed", "says"), [
    ({"weights": {"looks": 1}}, "weight is looks; there is no such criterion; there are surface, shrinkage, cast, keeping, price."),
    ({"weights": {"price": -1}}, "weight of price is -1; it must be from 0 to 100."),
    ({"shrinkage_allowed": float("nan")}, "shrinkage allowed is nan; it must be at least 0"),
    ({"prices": {TIN: 3}}, "price of addition-cure silicone is -1; it must be at least 0"),
    ({"verdicts": {TIN: ["fine"]}}, "verdicts for addition-cure silicone is empty; give one for each surface"),
    ({"verdicts": {TIN: ["ok"], ADDITION: ["fine"]}}, "verdict for tin-cure silicone is ok; it must be one of fine"),
])
def test_facts_that_are_refused(changed, says):
    with pytest.raises(EntryError) as error:
        m.choose_chemistry(**FACTS | changed)
    assert says in str(error.value)
