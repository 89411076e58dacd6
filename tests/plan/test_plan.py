"""The chain passes things on as it should: laws that hold for any job, bands, refusals."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldcalc.errors import EntryError
from moldcalc.job import Job, demo_job, demo_names
from moldcalc.job.job import TABLES
from moldcalc.plan import plan
from moldcalc.plan.chain import worked_out
from moldcalc.plan.draws import points, quantile, triangular
from moldcalc.units import Span

HARE = demo_job("hare").job


def value(job, name):
    return plan(job).value(name)


def test_rubber_lines_add_up():
    v, _ = worked_out(HARE)
    names = ("wall", "flange", "fillets", "seam", "strips", "high_points", "pockets", "peaks", "losses", "reserve")
    lines = [v[f"coats.line_{name}"] for name in names]
    assert sum(lines) == pytest.approx(v["mixing.have"], rel=1e-12)
    assert v["mixing.base"] + v["mixing.part"] == pytest.approx(v["mixing.rubber"], rel=1e-12)


def test_cups_add_up_and_stay_within_their_limit():
    for name in demo_names():
        _, rows = worked_out(demo_job(name).job)
        for row in rows["coats.coat"]:
            assert row["cups"] * row["each"] == pytest.approx(row["mixed"], rel=1e-12)
            assert row["each"] <= row["most_per_cup"] * (1 + 1e-9)
            assert row["each_base"] + row["each_part"] == pytest.approx(row["each"], rel=1e-12)


def test_twice_the_area_is_twice_the_coats():
    twice = HARE.with_entries(original__area="3.0 m²", original__base_outline="5.4 m")
    assert value(twice, "coats.net") == pytest.approx(2 * value(HARE, "coats.net"), rel=1e-9)


def test_a_three_sixteenths_wall_is_converted_exactly():
    # 5 mm and 3/16 in are the maker's near-equals (common practice, no source); 3/16 in is 4.7625 mm by definition.
    thin, thick = (HARE.with_entries(coats__wall=wall) for wall in ("3/16 in", "5 mm"))
    assert value(thin, "coats.net") / value(thick, "coats.net") == pytest.approx(4.7625 / 5, rel=1e-12)


def test_a_thicker_wall_gets_more_build_coats():
    made = plan(HARE.with_entries(coats__wall="12 mm"))
    films = [row["thickness"] for row in made.rows["coats.coat"]]
    assert sum(films) == pytest.approx(0.012) and max(films) <= 0.003 + 1e-12
    assert len(films) == 6  # 10.2 mm of build coats, none over 3 mm: four


def test_colder_is_slower_everywhere():
    cold, warm = plan(HARE.with_entries(cure__temperature="16 °C")), plan(HARE.with_entries(cure__temperature="26 °C"))
    for name in ("cure.working_time", "cure.earliest_recoat", "cure.latest_recoat", "cure.demold_time"):
        assert cold.value(name) > warm.value(name)
    assert cold.value("mixing.cups") <= warm.value("mixing.cups")


def test_two_times_on_the_data_sheet_replace_the_guess():
    # 40 min at 23 °C and 26.2295 min at 30 °C are one another at 45 kJ/mol (C1.16: Arrhenius, computed)
    job = HARE.with_entries(cure__second_temperature="30 °C", cure__second_working_time="26.2295 min")
    made = plan(job, 100)
    assert made.value("cure.activation_energy") == pytest.approx(45_000, rel=1e-4)
    assert "cure.activation_energy" not in made.bands


def test_the_band_holds_the_likely_value_and_the_shares_it_names():
    made = plan(HARE, 300)
    low, high = made.bands["mixing.rubber"]
    assert low < made.value("mixing.rubber") < high
    many = sorted(worked_out(HARE.drawn({"original.area": triangular(share, HARE.original.area)}))[0]["mixing.rubber"] for share in
                  [(i + 0.5) / 400 for i in range(400)])
    # the area is what moves the rubber most: its own quantiles, evenly spaced, are close to the band of all draws together
    assert low == pytest.approx(quantile(many, 0.1), rel=0.01) and high == pytest.approx(quantile(many, 0.9), rel=0.01)


def test_more_draws_say_the_same():
    few, many = plan(HARE, 300).bands["mixing.rubber"], plan(HARE, 1200).bands["mixing.rubber"]
    assert few == pytest.approx(many, rel=0.005)


def test_the_points_fill_evenly():
    qmc = pytest.importorskip("scipy.stats").qmc
    import random

    dice = random.Random(7)
    ours = qmc.discrepancy([list(point) for point in points(300, 8)])
    chance = sorted(qmc.discrepancy([[dice.random() for _ in range(8)] for _ in range(300)]) for _ in range(20))
    assert ours < chance[0], "centred discrepancy, scipy.stats.qmc: better than the best of 20 random sets"


@given(share=st.floats(0.001, 0.999))
def test_triangular_is_scipys(share):
    scipy = pytest.importorskip("scipy.stats")
    assert triangular(share, Span(2.0, 1.0, 5.0)) == pytest.approx(scipy.triang(c=0.25, loc=1, scale=4).ppf(share), rel=1e-9)


def _entry_values():
    paths = [(f"{table}.{name}", entry) for table, kind in TABLES.items() for name, entry in kind.entries().items()
             if entry.kind in ("quantity", "count")]

    def of(pair):
        path, entry = pair
        low, high = entry.low, entry.high
        number = st.one_of(st.sampled_from([low, high, (low + high) / 2]), st.floats(low, high))
        return st.tuples(st.just(path), st.just(entry), number)
    return st.sampled_from(paths).flatmap(of)


@settings(max_examples=250, deadline=None, derandomize=True)
@given(st.lists(_entry_values(), min_size=1, max_size=6), st.sampled_from(demo_names()))
def test_any_allowed_entries_give_a_plan_or_a_sentence(changes, name):
    job = demo_job(name).job
    try:
        for path, entry, number in changes:
            job = job.with_entry(path, round(number) if entry.kind == "count" else f"{number!r} {entry.unit}" if entry.unit else repr(number))
        made = plan(job)
    except EntryError as error:
        assert 0 < len(str(error)) < 2000 and "Traceback" not in str(error)
        return
    for result in made.results():
        if isinstance(result.value, (int, float)):
            assert math.isfinite(result.value), result.name
            negative_allowed = {"original.box_excess", "mixing.volume_for_weight_error", "coats.growth", "cure.dew_point", "keys.key_left",
                                "casting.oversize"}
            assert result.value >= -1e-12 or result.name in negative_allowed, result.name


def test_a_default_job_makes_a_plan():
    assert plan(Job.of({}), 20).value("coats.count") == 4


def test_a_card_of_the_users_changes_the_plan(tmp_path):
    (tmp_path / "mine.toml").write_text('kind = "rubber"\nlabel = "x"\ndensity = { value = "1.30 kg/L", status = "data sheet" }\n')
    job = Job.of({"materials": {"rubber": "mine"}}, (tmp_path,))
    assert value(job, "coats.net") == pytest.approx(value(Job.of({}), "coats.net") * 1.30 / 1.18, rel=1e-9)


@pytest.mark.parametrize(("changes", "says"), [
    ({"cure__temperature": "60 °C", "mixing__mixing_time": "30 min"}, "must be longer than mixing a cup"),
    ({"original__method": "solids"}, "Solids is none"),
    ({"original__method": "foil"}, "Foil is not weighed"),
    ({"cure__earliest_recoat": "30 h", "cure__latest_recoat": "20 h"}, "Next coat not after is 20 h; it must be later"),
    ({"coats__most_build": "0.2 mm", "coats__wall": "40 mm"}, "would need"),
])
def test_entries_that_do_not_go_together_get_one_sentence(changes, says):
    with pytest.raises(EntryError, match=says):
        plan(HARE.with_entries(**changes))
