"""What touches what, keys and the cut, casting: wiring, cautions at their thresholds, hostile names, a table of the user's own."""

import pytest

from moldcalc.errors import EntryError
from moldcalc.job import Job, demo_job, demo_names
from moldcalc.job.pairs import FILE_NAME, pair_files
from moldcalc.plan import plan
from moldcalc.stages import casting, keys
from moldcalc.stages.materials import CONFIDENCES, VERDICTS, read_pairs

HARE = demo_job("hare").job
STAGES = ("materials", "keys", "casting")
ROW = """[["surface and rubber"]]
first = "{first}"
second = "tin-cure silicone"
advice = "Mine."
verdict = "{verdict}"
confidence = "{confidence}"
source = "my own tests"
"""


def said(job, stage):
    return " ".join(caution.text for caution in plan(job).cautions_of(stage))


def with_rows(**rows):
    job = HARE
    for name, made in rows.items():
        job = job.with_rows(name.replace("__", "."), made)
    return job


# the core stays as it was ---------------------------------------------------------------------------------------------
@pytest.mark.parametrize("name", demo_names())
def test_nothing_of_it_is_worked_out_before_it_is_asked_for(name):
    made = plan(demo_job(name))
    assert not made._found_later
    assert not [key for key in made.values if key.startswith(("materials.", "keys."))]


def test_a_job_that_says_nothing_of_it_plans_and_says_so():
    made = plan(Job.of({}))
    assert "Nothing is said of what the rubber is put on" in said(Job.of({}), "materials")
    assert "No girths from the opening inward" in said(Job.of({}), "keys")
    assert "How long the mix flows is not said" in said(Job.of({}), "casting")
    assert made.value("materials.never") == 0 and "keys.worst_stretch" not in made


# passed on ------------------------------------------------------------------------------------------------------------
def test_results_are_the_stages_own():
    made = plan(HARE)
    assert made.value("keys.worst_stretch") == pytest.approx(0.86 / 0.66 - 1), "hoop strain by geometry: girth over girth less one"
    assert made.value("keys.window_from") == pytest.approx(made.value("cure.demold_time"))
    shims = keys.shims.si(lengths=[0.7, 1.25, 1.05], height=0.078, sheet_length=1.25, sheet_width=1.0, kerf=0.003)
    assert made.value("keys.shim_release") == pytest.approx(shims.release_area)
    life = casting.casts_per_mold("fibre-cement", released=True)
    assert (made.value("casting.life_low"), made.value("casting.life_high")) == (life.fewest, life.most)


def test_the_chain_of_sizes_of_the_worked_scenario():
    # worked scenario, invented: 1090 -> 1086.7 mm (1089 to 1079) for the rubber; cement dries by 0.05 to 0.1 % more (from memory)
    rubber, cast = plan(HARE).rows_of("casting.size")
    assert [round(rubber[name] * 1e3) for name in ("low", "high")] == [1079, 1089]
    assert round(rubber["likely"] * 1e3, 1) == 1086.7
    assert [round(cast[name] * 1e3) for name in ("low", "high")] == [1078, 1088]


def test_a_master_adds_two_steps_and_plaster_grows():
    rows = plan(HARE.with_entries(casting__master="hard gypsum")).rows_of("casting.size")
    assert [row["name"] for row in rows] == ["rubber", "master", "rubber of the master", "cast"]
    assert rows[1]["likely"] > rows[0]["likely"], "property list of gypsums: three cements grow by 0.08 to 0.39 %"


def test_strips_listed_under_paste_come_first():
    assert plan(HARE).value("keys.strip_length") == pytest.approx(4.5)
    without = with_rows(paste__fill=[{"name": "seam", "kind": "band", "use": "seam band", "length": "2 m", "width": "50 mm", "thickness": "9 mm"}])
    made = plan(without)
    assert made.value("keys.strip_length") == pytest.approx(3.0), "then along the joints: 0.70, 1.25 and 1.05 m"
    assert made.value("keys.band_thick") == pytest.approx(0.015)


def test_every_piece_is_cut_once_from_a_channel_and_fits():
    made = plan(HARE)
    pieces = [length for row in made.rows_of("keys.casting") for _, length in row["pieces"]]
    assert sum(pieces) == pytest.approx(4.5)
    assert all(sum(length for _, length in row["pieces"]) <= 1.25 + 1e-9 for row in made.rows_of("keys.casting"))


def test_a_row_brings_its_own_why_and_source():
    made = plan(HARE)
    clay = next(result for result in made.results("materials") if result.label == "clay and rubber: verdict")
    assert clay.value == "fine" and "free of sulphur" in clay.why and "verified" in clay.source


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("name", demo_names())
def test_every_result_reads_in_both_systems(name, system):
    made = plan(demo_job(name).job.with_entry("start.units", system), 12)
    for stage in STAGES:
        for result in made.results(stage):
            assert result.say(system) and "{" not in result.label + result.why, result.name


# cautions at their thresholds -------------------------------------------------------------------------------------------
SULPHUR = {"materials__surface": "", "materials__original_material": "sulphur-bearing oil clay", "materials__rubber": "addition-cure-brushable-1-1"}


def test_a_pair_that_never_meets_holds_the_next_step_and_is_named():
    text = said(HARE.with_entries(**SULPHUR), "materials")
    assert "original (sulphur-bearing oil clay) and rubber (addition-cure silicone) never meet" in text
    assert plan(HARE.with_entries(**SULPHUR)).value("materials.never") == 1


def test_an_unknown_pair_is_never_fine():
    assert "board (varnished plywood) and rubber (tin-cure silicone): unknown, so not taken for fine." in said(HARE, "materials")
    assert "unknown" in said(HARE.with_entries(materials__gloves="moon dust"), "materials")


@pytest.mark.parametrize(("hours", "tack", "result"), [
    ("20 h", "no", "too short"), ("21 h", "not looked at", "tack not entered"), ("21 h", "yes", "tacky"), ("21 h", "no", "passed")])
def test_a_patch_test_lies_for_the_full_demold_time(hours, tack, result):
    # demold time of the hare at 19 °C: 20.5 h (worked scenario, invented)
    job = with_rows(materials__test=[{"first": "board", "second": "rubber", "hours": hours, "tack": tack}])
    row = next(row for row in plan(job).rows_of("materials.patch") if row["first"] == "board")
    assert row["result"] == result
    assert ("board (varnished plywood)" in said(job, "materials")) == (result != "passed")


def test_a_maker_may_overrule_in_writing():
    test = {"first": "board", "second": "rubber", "overruled": "covered with foil that we have used for ten years"}
    job = with_rows(materials__test=[test])
    assert "overruled by the maker: covered with foil" in said(job, "materials")
    row = next(row for row in plan(job).rows_of("materials.patch") if row["first"] == "board")
    assert not row["holds"]
    short = with_rows(materials__test=[test | {"overruled": "ok"}])
    assert "write the reason in 10 to 2000 letters" in said(short, "materials")


def test_a_test_of_what_does_not_meet_leaves_the_map_standing():
    job = with_rows(materials__test=[{"first": "moon", "second": "rubber"}])
    made = plan(job)
    assert made.value("materials.meetings") == 13 and "these two do not meet in this job" in said(job, "materials")


@pytest.mark.parametrize(("share", "cut"), [("7.5 %", True), ("7.6 %", False)])
def test_the_neck_is_cut_from_where_it_stretches_too_far(share, cut):
    # 0.86 / 0.66 - 1 = 0.30303; 400 % of elongation: 7.576 % of it is just allowed
    job = HARE.with_entries(keys__stretch_share=share)
    assert ("cut from the opening" in said(job, "keys")) == cut
    assert plan(job).value("keys.way") == ("cut glove" if cut else "closed glove")


@pytest.mark.parametrize(("age", "words"), [("20 h", "still soft"), ("21 h", ""), ("30 h", ""), ("31 h", "outside their window")])
def test_strips_have_a_window(age, words):
    # worked scenario, invented: demold 20.5 h, latest recoat 30.8 h at 19 °C
    text = said(HARE.with_entries(keys__strip_age=age), "keys")
    assert words in text if words else "Strips of" not in text


@pytest.mark.parametrize(("lean", "words"), [("7°", ""), ("8°", "is too tight"), ("13°", "locks")])
def test_a_key_must_let_go(lean, words):
    text = said(HARE.with_entries(keys__key_lean=lean), "keys")
    assert words in text if words else "A flange key" not in text


@pytest.mark.parametrize(("casts", "words"), [(19, ""), (20, "one mold may not last"), (200, "more than one mold may give at its best")])
def test_an_edition_beyond_one_mold(casts, words):
    # 20 to 100 of fibre-cement, the upper end doubled by release (common practice); one is made already
    text = said(HARE.with_entries(start__casts=casts), "casting")
    assert words in text if words else "casts wanted" not in text


def test_gypsum_heat_is_a_care():
    found = plan(HARE.with_entries(materials__cast="gypsum-hard")).cautions_of("casting")
    assert any(caution.kind == "care" and "Setting gypsum heats" in caution.text for caution in found)


@pytest.mark.parametrize(("hours", "short"), [("23 h", True), ("24 h", False)])
def test_a_resin_in_young_tin_cure_rubber(hours, short):
    text = said(HARE.with_entries(materials__cast="polyurethane-resin", casting__vent_hours=hours), "casting")
    assert ("of airing is short" in text) == short


# what can't be used -------------------------------------------------------------------------------------------------------
def test_a_neck_wider_than_its_bulge_is_one_sentence():
    job = with_rows(keys__station=[]).with_entries(keys__neck="900 mm", keys__bulge="600 mm")
    assert "The opening is left out: neck is 900 mm; it must be at most as wide as the bulge, 600 mm" in said(job, "keys")


def test_an_elongation_of_nothing():
    with pytest.raises(EntryError, match=r"Elongation at break is 0 %; it must be from 10 % to 1500 %"):
        HARE.with_entries(keys__elongation="0 %")


def test_a_cast_material_with_no_card():
    with pytest.raises(EntryError, match="Casting material is moon dust; there is no such card"):
        HARE.with_entries(materials__cast="moon dust")


def test_a_card_that_does_not_say_what_it_is(tmp_path):
    (tmp_path / "mine.toml").write_text('kind = "cast"\nlabel = "moon dust mix"\n')
    made = plan(Job.of({"materials": {"cast": "mine"}}, (tmp_path,)))
    text = " ".join(caution.text for caution in made.cautions)
    assert "cast (moon dust mix): unknown to the table" in text
    assert "The mold's life is left out: cast material is moon dust mix; no count of casts is known here" in text
    assert "casting.final" not in made and "casting.life_low" not in made
    assert made.value("casting.cast_mass") > 0


HOSTILE = ["{coats.wall}", "{no.such}", "<script>alert(1)</script>", "x" * 400, "\u202eevil", "a, b; c"]


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names(name):
    girths = [{"name": name, "height": height, "girth": girth} for height, girth in (("0 mm", "1 m"), ("100 mm", "0.5 m"), ("200 mm", "1 m"))]
    job = with_rows(materials__thing=[{"name": name, "material": name, "role": "surface"}], keys__station=girths,
                    handling__joint=[{"name": name, "length": "1 m"}])
    made = plan(job)
    for stage in STAGES:
        for result in made.results(stage):
            assert made.say(result.label) and result.say()
        made.cautions_of(stage)


# the table of pairs -------------------------------------------------------------------------------------------------------
def test_no_row_of_the_table_is_unmarked():
    rows = read_pairs(pair_files(())[0].tables())
    assert len(rows) > 90
    assert all(row.confidence in CONFIDENCES and row.verdict in VERDICTS and row.source for row in rows)


def test_a_table_beside_the_job_comes_first(tmp_path):
    (tmp_path / "cards").mkdir()
    table = tmp_path / FILE_NAME
    given = {"materials": {"original_material": "moon dust", "gloves": "nitrile gloves"}}
    job = Job.of(given, (tmp_path / "cards",))
    assert "moon dust" in said(job, "materials")
    table.write_text(ROW.format(first="moon dust", verdict="fine", confidence="from memory"))
    assert "moon dust" not in said(job, "materials")
    table.write_text(ROW.format(first="nitrile gloves", verdict="never", confidence="common practice") + "\n")
    assert "gloves (nitrile gloves) and rubber (tin-cure silicone) never meet: Mine." in said(job, "materials")


@pytest.mark.parametrize(("text", "says"), [
    ("first = moon", "pairs.toml is not TOML"), ("\xff", "pairs.toml is not text"),
    (ROW.format(first="moon dust", verdict="fine", confidence="sure"), "pairs.toml: confidence in row 1 of surface and rubber is sure; it must be"),
    ('[["surface and rubber"]]\nfirst = "moon dust"\n', "pairs.toml: source in row 1 of surface and rubber is missing")])
def test_a_table_that_can_not_be_used_is_named(tmp_path, text, says):
    (tmp_path / FILE_NAME).write_bytes(text.encode("latin-1"))
    job = Job.of({}, (tmp_path,))
    assert says in said(job, "materials")
    assert plan(job).value("mixing.rubber") > 0
