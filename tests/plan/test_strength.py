"""Stiffness in the plan: each result is the stage's own answer to the job's entries; bands and cautions at their thresholds."""

import pytest

from moldcalc.errors import EntryError
from moldcalc.job import Job, demo_job
from moldcalc.plan import plan
from moldcalc.plan.choosing import choose_for, entries_of
from moldcalc.stages import handling, layup
from tests.tables import within

HARE, BUST, FIGURE = (demo_job(name).job for name in ("hare", "bust", "standing-figure"))
PLY = 0.3 / 2560 + 0.3 / 1150  # m: 300 g/m² of glass and as much resin, densities 2560 and 1150 kg/m³ (volume balance)
WALL = {"facing_modulus": 12e9, "facing_thickness": 2 * PLY, "core_thickness": 0.010, "core_modulus": 55e6}
STIFF = layup.sandwich_plate_stiffness.si(**WALL, facing_poisson_ratio=0.3, core_poisson_ratio=0.3)
SHEAR = layup.sandwich_shear_stiffness.si(core_shear_modulus=21.5e6, core_thickness=0.010, facing_thickness=2 * PLY)
FOOT = 2050 * 9.80665 * 0.525  # Pa: head of the hare, poured solid
TOP = 2050 * 9.80665 * (0.525 - 0.300)


def cautions(job):
    return " ".join(caution.text for caution in plan(job).cautions_of("layup"))


def test_the_flat_panel_is_the_stages_own():
    found = layup.supported_panel.si(height=0.300, width=0.420, bottom_pressure=FOOT, top_pressure=TOP, stiffness=STIFF, thickness=4 * PLY + 0.010,
                                     poisson_ratio=0.3, shear_stiffness=SHEAR)
    made = plan(HARE)
    assert made.value("layup.panel_pressure") == within(FOOT, 1e-12)
    assert made.value("layup.plate_stiffness") == within(STIFF, 1e-12)
    for name, value in (("deflection", found.deflection), ("deflection_bending", found.bending), ("deflection_shear", found.shear),
                        ("over_limit", found.over_limit), ("deflection_share", found.deflection / 0.002)):
        assert made.value(f"layup.{name}") == within(value, 1e-12), name


def test_clamped_edges_give_less():
    assert plan(HARE.with_entries(layup__panel_edges="clamped")).value("layup.deflection") < plan(HARE).value("layup.deflection")


def test_stresses_are_those_of_a_strip():
    found = layup.strip_stresses.si(pressure=FOOT, span=0.300, **WALL)
    made = plan(HARE)
    assert made.value("layup.facing_stress") == within(found.outer_fibre, 1e-12)
    assert made.value("layup.core_stress") == within(found.core_shear, 1e-12)


def test_a_solid_wall_has_no_core_to_shear():
    made = plan(HARE.with_entries(layup__construction="solid"))
    assert "layup.deflection" in made and "layup.core_stress" not in made and "layup.deflection_shear" not in made


def test_a_curved_panel_is_the_stages_own():
    made = plan(BUST)
    glass = BUST.cards.reinforcement
    facing = 2 * made.value("layup.ply_thickness")
    stiffness = layup.sandwich_plate_stiffness.si(facing_modulus=glass.modulus, facing_thickness=facing, core_thickness=0.0, core_modulus=0.0,
                                                  facing_poisson_ratio=0.3, core_poisson_ratio=0.3)
    foot, top = (float(BUST.cards.cast.solid_density) * 9.80665 * depth for depth in (0.320, 0.200))
    found = layup.curved_panel.si(height=0.120, width=0.150, bottom_pressure=foot, top_pressure=top, radius_across=0.110, stiffness=stiffness,
                                  stretch_stiffness=2 * glass.modulus * facing, thickness=2 * facing)
    assert made.value("layup.deflection") == within(found.deflection, 1e-12)
    assert made.value("layup.curve_gain") == within(found.gain, 1e-12) and found.gain > 5


@pytest.mark.parametrize("run", ["up", "across"])
def test_ribs_are_as_choose_for_me_reckons_them(run):
    job = HARE.with_entries(layup__rib_spacing="150 mm", layup__rib_run=run, layup__construction="solid", layup__facing_plies=1,
                            layup__lift_height="100 mm")
    made = plan(job)
    assert made.value("layup.deflection") > made.value("layup.deflection_bay") > 0
    mine = layup.Reinforcement("glass", 0.3, 0.5, PLY, 12e9, 12e9, 12e9)
    foot = 2050 * 9.80665 * 0.100
    choice = layup.choose_stack(height=0.300, width=0.420, bottom_pressure=foot, top_pressure=0.0, allowed_deflection=1.0, reinforcements=[mine],
                                ribs=[layup.RibOffer("rib", 0.150, 0.015, 2, 0.0)], poisson_ratio=0.3, most_plies=2, least_facing=0.6,
                                only_linear=False)
    # a wall of two plies with ribs that way is among those that are tried
    tried = [one for one in (choice.best, *choice.others) if one.rib and one.run == run and one.inner_plies == 2]
    assert [one.deflection for one in tried] == [within(made.value("layup.deflection"), 1e-12)]


def test_a_lift_that_sets_presses_with_its_own_height():
    made = plan(HARE.with_entries(layup__lift_height="150 mm"))
    assert made.value("layup.panel_pressure") == within(2050 * 9.80665 * 0.150, 1e-12)
    assert made.value("layup.deflection") < plan(HARE).value("layup.deflection")
    assert made.value("casting.head_pressure") == plan(HARE).value("casting.head_pressure")
    assert handling.greatest_head.si(density=2050.0, height=0.0, full_height=0.525, lift_height=0.150) == made.value("layup.panel_pressure")


def test_the_modulus_of_hand_laid_glass_carries_into_the_band():
    low, high = plan(HARE, 300).result("layup.deflection").low, plan(HARE, 300).result("layup.deflection").high
    likely = plan(HARE).value("layup.deflection")
    assert low < likely < high and high / low > 1.15


def test_nothing_is_worked_out_before_it_is_asked_for():
    made = plan(HARE, 50)
    assert not made._found_later and not made._found_bands
    made.result("mixing.rubber"), made.cautions_of("coats"), made.results("coats")
    assert not made._found_later
    assert "layup.deflection" in made and set(made._found_later) == {"layup"}


def test_a_job_without_a_panel_still_plans():
    made = plan(Job.of({}))
    assert "layup.deflection" not in made and "layup.stiffness" in made
    assert [name for name in made.names("layup") if made.declaration(name).later] == []


def test_outside_linear_theory_is_said_with_how_far():
    made = HARE.with_entries(layup__construction="solid", layup__flat_height="500 mm", layup__flat_width="500 mm")
    over = plan(made).value("layup.over_limit")
    assert over > 1
    assert f"outside linear theory, {over:.2g} times over half its thickness" in cautions(made)
    assert "outside linear theory" not in cautions(HARE)


def test_more_than_you_accept_is_said_from_there_on():
    gives = plan(HARE).value("layup.deflection")
    assert "more than the" not in cautions(HARE.with_entries(layup__allowed_deflection=f"{1e3 * gives * 1.001!r} mm"))
    assert "more than the" in cautions(HARE.with_entries(layup__allowed_deflection=f"{1e3 * gives * 0.999!r} mm"))


def test_a_part_that_cannot_be_worked_out_is_a_sentence_and_the_rest_stands():
    made = plan(BUST.with_entries(layup__flat_radius="50 mm"))  # half the chord of 150 mm is 75 mm
    said = [caution.text for caution in made.cautions_of("layup")]
    assert any("The panel rises" in text or "The flattest panel is left out" in text for text in said)
    assert made.value("layup.mass") == plan(BUST).value("layup.mass")


# choose for me ------------------------------------------------------------------------------------------------------------
def test_the_choice_is_the_lightest_and_does_what_was_asked():
    choice = choose_for(HARE)
    assert choice.best.deflection <= 0.002 and len(choice.others) == 3
    assert choice.best.mass <= min(one.mass for one in choice.others)
    assert all(one.deflection_low <= one.deflection <= one.deflection_high for one in (choice.best, *choice.others))
    assert all(one.cost is not None for one in (choice.best, *choice.others)), "the hare gives its prices"
    assert choose_for(BUST).best.cost is None, "the bust does not"


@pytest.mark.parametrize("place", range(4))
def test_a_wall_that_is_used_gives_what_the_choice_said(place):
    choice = choose_for(HARE)
    stack = (choice.best, *choice.others)[place]
    job = HARE
    for path, value in entries_of(stack).items():
        job = job.with_entry(path, value)
    made = plan(job)
    if stack.core and stack.inner_plies == stack.outer_plies:
        assert made.value("layup.deflection") == within(stack.deflection, 1e-9)
        assert made.value("layup.thickness") == within(stack.thickness + 0.6e-3, 1e-9)


def test_without_a_panel_there_is_nothing_to_choose_for():
    with pytest.raises(EntryError, match="Flattest panel, height is empty; give a value"):
        choose_for(Job.of({}))


def test_a_users_card_with_strange_sheets_is_named(tmp_path):
    (tmp_path / "mine.toml").write_text('kind = "core"\nlabel = "mine"\nsheets = "ten"\n')
    job = Job.of({"layup": {"flat_height": "300 mm", "flat_width": "400 mm"}}, (tmp_path,))
    with pytest.raises(EntryError, match="Thicknesses sold of mine is ten"):
        choose_for(job)
