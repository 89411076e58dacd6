"""Material cards: ours are whole and honest about where their values are from; the user's come first; a bad one gets a sentence."""

import os

import pytest

from moldcalc.errors import EntryError, FileError, MoldcalcError
from moldcalc.job import Job
from moldcalc.job.cards import KINDS, LARGEST, STATUS, card_names, find_card, read_card
from moldcalc.job.places import data_folder
from moldcalc.units import Span, read_ratio

OURS = sorted((data_folder() / "cards").glob("*.toml"))
GOOD = 'kind = "cast"\nlabel = "mine"\ndensity = { value = "1.7 kg/L", status = "measured" }\n'


def said_of(error):
    text = str(error.value)
    assert "\n" not in text and "Traceback" not in text and text.endswith(".")
    return text


@pytest.mark.parametrize("path", OURS, ids=lambda path: path.stem)
def test_our_cards_are_whole(path):
    made = read_card(path)
    entries = type(made).entries()
    assert made.name == path.stem and made.label
    assert made.advice == "replace by your data sheet"
    assert made.source and "safety data sheet" in made.caution
    assert set(made.status.values()) <= set(STATUS)
    assert {name for name, entry in entries.items() if entry.kind in ("quantity", "ratio") and name in made.model_fields_set} <= set(made.status)
    for name in ("coldest", "reference_temperature"):
        if name in entries:
            assert made.coldest <= made.reference_temperature <= made.warmest
    if "mix_ratio" in entries:
        assert read_ratio(made.mix_ratio)[1] in ("weight", "volume"), "a ratio says by which it is"
    if "latest_recoat" in entries:
        assert made.earliest_recoat < made.latest_recoat and made.working_time <= made.earliest_recoat


def test_our_cards_cover_every_kind():
    assert {read_card(path).kind_name for path in OURS} == set(KINDS)
    rubbers = {(card.chemistry, read_ratio(card.mix_ratio)[0]) for path in OURS if (card := read_card(path)).kind_name == "rubber"}
    assert {("tin", (100, 10)), ("tin", (100, 5)), ("addition", (1, 1))} <= rubbers
    assert len(card_names("rubber")) >= 3 and len(card_names("resin")) >= 4 and len(card_names("reinforcement")) >= 4


def test_glass_is_2_56():
    for name in card_names("reinforcement"):
        assert find_card(name, "reinforcement").fibre_density == pytest.approx(2560)  # E-glass, from memory


def test_a_span_of_a_card_keeps_its_ends():
    energy = find_card("tin-cure-brushable-100-5", "rubber").activation_energy
    assert isinstance(energy, Span) and energy.low < energy < energy.high


def test_the_users_card_comes_first(tmp_path):
    theirs = GOOD.replace("mine", "their wax")
    (tmp_path / "wax.toml").write_text(theirs, encoding="utf-8")
    (tmp_path / "my-stone.toml").write_text(GOOD, encoding="utf-8")
    assert find_card("wax", "cast").label == "casting wax for bronze"
    assert find_card("wax", "cast", (tmp_path,)).label == "their wax"
    assert find_card(" my-stone ", "cast", (tmp_path,)).density == pytest.approx(1700)
    assert find_card("fibre-cement", "cast", (tmp_path,)).name == "fibre-cement"
    assert card_names("cast", (tmp_path,))[:2] == ["my-stone", "wax"] and card_names("cast", (tmp_path,)).count("wax") == 1
    job = Job.of({"materials": {"cast": "my-stone"}}, (tmp_path,))
    assert job.cards.cast.label == "mine"
    with pytest.raises(EntryError):
        Job.of({"materials": {"cast": "my-stone"}})


@pytest.mark.parametrize("name", ["../x", "..\\x", "/etc/passwd", ".hidden", "..", "", "   ", "a/b", "C:x", "x" * 400, "x" * 5000, "a\x00b",
                                  "no-such"])
def test_names_that_are_no_card(name, tmp_path):
    (tmp_path / "x.toml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "cards").mkdir()
    (tmp_path / "cards" / ".hidden.toml").write_text(GOOD, encoding="utf-8")
    with pytest.raises(EntryError) as refused:
        find_card(name, "cast", (tmp_path / "cards",), "Casting material")
    assert "there is no such card; known are" in said_of(refused)


@pytest.mark.parametrize(("name", "kind", "says"), [
    ("fibre-cemnt", "cast", "Casting material is fibre-cemnt; there is no such card; known are fibre-cement, gypsum-hard, "),
    ("fibre-cemnt", "cast", "; did you mean fibre-cement?."),
    ("wax", "rubber", "Casting material is wax; that card is of a cast, not of a rubber."),
])
def test_wording(name, kind, says):
    with pytest.raises(EntryError) as refused:
        find_card(name, kind, (), "Casting material")
    assert says in said_of(refused)


@pytest.mark.parametrize(("text", "says"), [
    ("", "bad.toml: kind is missing; it must be one of: rubber, thickener, "),
    ('kind = "glue"', "bad.toml: kind is glue; it must be one of"),
    ("kind = []", "bad.toml: kind is "),
    ("kind = {}", "bad.toml: kind is "),
    ("kind = 7", "bad.toml: kind is 7"),
    ("kind = wax", "The card bad.toml can't be read as TOML: Invalid value"),
    ("[" * 5000, "The card bad.toml can't be read as TOML"),
    ('kind = "cast"\nx = ' + "[" * 5000, "The card bad.toml can't be read as TOML"),
    ('kind = "cast"\ndensity = "2 kg/L"', 'bad.toml: density is without a status; write density = { value = "…", status = "typical" }.'),
    ('kind = "cast"\ndensity = { value = "2 kg/L" }',
     "bad.toml: status of density is missing; it must be one of: typical, invented, data sheet, measured."),
    ('kind = "cast"\ndensity = { value = "2 kg/L", status = "sure" }', "bad.toml: status of density is sure"),
    ('kind = "cast"\ndensity = { value = "2 kg/L", status = [] }', "bad.toml: status of density is []"),
    ('kind = "cast"\ndensity = { value = "2 kg", status = "typical" }', "bad.toml: Density when cast is 2 kg; write a density"),
    ('kind = "cast"\ndensity = { value = 2, status = "typical" }', "bad.toml: Density when cast is 2; it has no unit"),
    ('kind = "cast"\ndensity = { value = nan, status = "typical" }', "bad.toml: Density when cast is nan"),
    ('kind = "cast"\ndensity = { status = "typical" }', "bad.toml: Density when cast is a table of nothing"),
    ('kind = "cast"\ndensty = "2 kg/L"', "'densty' is not a known entry; known here are"),
    ('kind = "cast"\nlabel = 7', "bad.toml: Material is 7; write up to 400 characters"),
    ('kind = "cast"\nstatus = "typical"\ndensity = "2 kg/L"', "bad.toml: 'status' is not a known entry"),
    ('kind = "cast"\nstatus = { density = "typical" }\ndensity = "2 kg/L"', "bad.toml: "),
    ('kind = "cast"\nkind_name = "rubber"', "'kind_name' is not a known entry"),
])
def test_a_bad_card_gets_a_sentence(text, says, tmp_path):
    path = tmp_path / "bad.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(MoldcalcError) as refused:
        read_card(path)
    assert says in said_of(refused)
    assert card_names("cast", (tmp_path,))


def test_every_fault_of_a_card_at_once(tmp_path):
    path = tmp_path / "bad.toml"
    path.write_text('kind = "core"\nform = "foam"\ndensity = { value = "9 t/m3", status = "typical" }\n', encoding="utf-8")
    with pytest.raises(EntryError) as refused:
        read_card(path)
    assert [fault.entry for fault in refused.value.faults] == ["bad.toml: Form", "bad.toml: Density"]


def test_what_is_no_file(tmp_path):
    (tmp_path / "folder.toml").mkdir()
    (tmp_path / "bytes.toml").write_bytes(b"\xff\xfe\x00kind")
    (tmp_path / "large.toml").write_bytes(b"#" * (LARGEST + 1))
    for name, says in [("none", "can't be read: No such file"), ("folder", "can't be read"), ("bytes", "is not text in UTF-8"),
                       ("large", "is larger than a card can be")]:
        with pytest.raises(FileError) as refused:
            read_card(tmp_path / f"{name}.toml")
        assert says in said_of(refused)
    assert card_names("cast", (tmp_path, tmp_path / "no-folder")) == card_names("cast")


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
def test_a_link_to_nowhere_is_passed_over(tmp_path):
    (tmp_path / "gone.toml").symlink_to(tmp_path / "nowhere.toml")
    assert card_names("cast", (tmp_path,)) == card_names("cast")
    with pytest.raises(EntryError, match="there is no such card"):
        find_card("gone", "cast", (tmp_path,))


def test_with_a_mark_at_the_start_as_some_editors_write(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text(GOOD, encoding="utf-8-sig")
    assert read_card(path).label == "mine"
