"""The demo job against its worked scenario: invented figures, worked out by hand apart from this code, printed rounded."""

import pytest

from moldcalc.job import demo_job, demo_names
from moldcalc.plan import plan
from moldcalc.units import shown
from tests.tables import printed

HARE = plan(demo_job("hare"))
WORKED = "worked scenario, invented; counted on 12 ellipsoids by point sampling, sums redone by hand"

FIGURES = [
    # result                                unit     printed
    ("original.area",                       "m²",    "1.68"),
    ("original.flange_area",                "m²",    "0.176"),
    ("original.area_to_coat",               "m²",    "1.856"),
    ("original.box_area",                   "m²",    "2.06"),
    ("original.board_load",                 "kg",    "106"),
    ("cure.factor",                         "",      "0.7786"),
    ("cure.working_time",                   "min",   "51.4"),
    ("cure.earliest_recoat",                "min",   "154.1"),
    ("cure.latest_recoat",                  "h",     "30.8"),
    ("cure.demold_time",                    "h",     "20.5"),
    ("mixing.usable_time",                  "min",   "33.5"),
    ("coats.coat.1.net",                    "kg",    "1.31"),
    ("coats.coat.2.net",                    "kg",    "2.63"),
    ("coats.coat.3.net",                    "kg",    "4.38"),
    ("coats.coat.4.net",                    "kg",    "4.82"),
    ("coats.net",                           "kg",    "13.14"),
    ("coats.coat.1.mixed",                  "kg",    "1.49"),
    ("coats.coat.2.mixed",                  "kg",    "2.86"),
    ("coats.coat.3.mixed",                  "kg",    "4.71"),
    ("coats.coat.4.mixed",                  "kg",    "5.18"),
    ("coats.mixed",                         "kg",    "14.24"),
    ("coats.coat.1.most_per_cup",           "kg",    "0.54"),
    ("coats.coat.2.most_per_cup",           "kg",    "2.06"),
    ("coats.coat.3.most_per_cup",           "kg",    "2.98"),
    ("coats.coat.4.most_per_cup",           "kg",    "2.81"),
    ("coats.coat.1.each",                   "kg",    "0.50"),
    ("coats.coat.2.each",                   "kg",    "1.43"),
    ("coats.coat.4.each",                   "kg",    "2.59"),
    ("coats.coat.1.brushing_time",          "min",   "53.9"),
    ("coats.coat.2.brushing_time",          "min",   "28.2"),
    ("coats.coat.3.brushing_time",          "min",   "31.5"),
    ("coats.coat.4.brushing_time",          "min",   "35.9"),
    ("paste.volume",                        "L",     "4.68"),
    ("paste.net",                           "kg",    "5.52"),
    ("paste.mixed",                         "kg",    "6.00"),
    ("paste.each",                          "kg",    "0.75"),
    ("mixing.net",                          "kg",    "18.7"),
    ("mixing.rubber",                       "kg",    "20.2"),
    ("mixing.loss_share",                   "%",     "7.8"),
    ("mixing.base",                         "kg",    "19.3"),
    ("mixing.part",                         "kg",    "0.96"),
    ("mixing.base_with_reserve",            "kg",    "21.2"),
    ("mixing.part_with_reserve",            "kg",    "1.06"),
    ("mixing.thickener",                    "kg",    "0.16"),
    ("coats.per_area",                      "kg/m²", "11.1"),
    ("coats.mean_thickness",                "mm",    "8.5"),
    ("layup.face_area",                     "m²",    "1.78"),
    ("layup.flange_area",                   "m²",    "0.52"),
    ("layup.areal_mass",                    "kg/m²", "4.29"),
    ("layup.thickness",                     "mm",    "12.1"),
    ("layup.flange_areal_mass",             "kg/m²", "4.8"),
    ("layup.flange_thickness",              "mm",    "3.0"),
    ("layup.mass",                          "kg",    "12.1"),
    ("layup.section.1.mass",                "kg",    "1.9"),
    ("layup.section.2.mass",                "kg",    "1.5"),
    ("layup.section.3.mass",                "kg",    "3.4"),
    ("layup.glass_to_buy",                  "kg",    "3.8"),
    ("layup.resin_to_buy",                  "kg",    "6.3"),
    ("layup.core_to_buy",                   "m²",    "1.74"),
    ("layup.largest_mix",                   "kg",    "0.75"),
    ("layup.gypsum_mass",                   "kg",    "39"),
    ("handling.mold_mass",                  "kg",    "30.8"),
    ("handling.mold_with_cast",             "kg",    "74"),
    ("cure.shell_worth",                    "h",     "13.7"),
    ("casting.cast_mass",                   "kg",    "40"),
    ("casting.with_fixings",                "kg",    "43"),
    ("casting.edition",                     "kg",    "242"),
    ("casting.edition_mixed",               "kg",    "257"),
    ("casting.solid_mass",                  "kg",    "172"),
    ("casting.head_pressure",               "kPa",   "10.6"),
    ("casting.side_thrust",                 "kN",    "1.9"),
    ("casting.length_after_shrinkage",      "mm",    "1086.7"),
]


@pytest.mark.parametrize(("name", "unit", "figure"), FIGURES, ids=[row[0] for row in FIGURES])
def test_the_worked_scenario_comes_out(name, unit, figure):
    assert shown(HARE.value(name), unit) == printed(figure), WORKED


COUNTS = [("coats.coat.1.cups", 3), ("coats.coat.2.cups", 2), ("coats.coat.3.cups", 2), ("coats.coat.4.cups", 2), ("coats.cups", 9),
          ("paste.cups", 8), ("mixing.cups", 17), ("layup.trays", 3), ("handling.bolts", 24), ("handling.foot_bolts", 14), ("coats.count", 4)]


@pytest.mark.parametrize(("name", "count"), COUNTS)
def test_the_counts_of_the_worked_scenario(name, count):
    assert HARE.value(name) == count, WORKED


def test_the_first_day_on_the_clock():
    # print 09:00 to 09:54 (53.9 min); earliest next 12:29 in the scenario, which rounds the unrounded 12:28.05 up to the minute
    assert HARE.result("cure.finished_clock").say() == "09:54", WORKED
    assert HARE.value("cure.earliest_clock") / 60 == pytest.approx(12 * 60 + 28.05, abs=0.05), WORKED


def test_a_colder_night_costs_the_shell_a_day():
    cold = plan(demo_job("hare").job.with_entries(cure__night_temperature="14 °C"))
    assert shown(cold.value("cure.shell_worth"), "h") == printed("10.0"), WORKED


@pytest.mark.parametrize(("room", "hours"), [("17 °C", "2.9"), ("16 °C", "3.1")])
def test_the_window_in_a_colder_room(room, hours):
    assert shown(plan(demo_job("hare").job.with_entries(cure__temperature=room)).value("cure.earliest_recoat"), "h") == printed(hours), WORKED


@pytest.mark.parametrize("name", demo_names())
def test_every_result_has_a_why_and_a_source(name):
    made = plan(demo_job(name), 50)
    for result in made.results():
        assert result.why and "{" not in result.why and result.source and "{" not in result.label, result.name
        for system in ("metric", "us"):
            assert not {"nan", "inf", "None"} & set(result.say(system).lower().split()), result.name
        if result.low is not None:
            assert result.low <= result.high
