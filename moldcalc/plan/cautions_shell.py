"""Cautions on stiffness, closing, lifting, standing and trimming; worked out with the results that they speak of."""

from collections.abc import Iterator
from math import pi
from typing import Any

from moldcalc.job.job import Job
from moldcalc.plan.cautions import Caution
from moldcalc.units import System, show

Values = dict[str, Any]
Rows = dict[str, list[dict[str, Any]]]

#: core at least so many facings thick, else a solid wall is simpler: common practice, no source
THIN_CORE = 3.0
#: rise over chord up to which a panel counts as shallow, as `curved_panel` has it
SHALLOW = 0.2
DEFER = "Read the safety data sheets; local codes and licensed practice come before this sheet."
#: dust of any kind, total and respirable together here: OSHA Z-1, 15 mg/m³ total, from memory
DUST_LIMIT = 15e-6
#: upper action value of 2003/10/EC and action level of OSHA, dB(A) over a day: seen in public copies
LOUD = 85.0


def cautions_shell(stage: str, job: Job, v: Values, rows: Rows, refused: tuple[tuple[str, str], ...]) -> Iterator[Caution]:
    """Those of one stage; a part that could not be worked out says so first."""
    system: System = "us" if job.start.units == "us" else "metric"
    for where, text in refused:
        yield Caution(where, text)
    if stage == "layup":
        yield from _stiffness(job, v, system)
    elif stage == "handling":
        yield from _closing(job, v, rows, system)
        yield from _lifting(rows, system)
        yield from _standing(job, v, system)
        yield from _trimming(job, v, system)


def _stiffness(job: Job, v: Values, system: System) -> Iterator[Caution]:
    if "layup.deflection" not in v:
        return
    gives, over, said = v["layup.deflection"], v["layup.over_limit"], job.layup
    if over > 1 + 1e-9:
        yield Caution("layup", f"Poured solid, the flattest panel is outside linear theory, {over:.2g} times over half its thickness: the real deflection is smaller, "
                               "often by multiples, and still too much. Add ribs, a core or curvature, or pour in lifts that set.")
    elif gives > said.allowed_deflection * (1 + 1e-9):
        yield Caution("layup", f"Poured solid, the flattest panel gives {show(gives, 'mm', system)}, more than the {show(said.allowed_deflection, 'mm', system)} "
                               "you accept: add plies, core or ribs, or pour in lifts that set.")
    if v.get("layup.panel_rise", 0.0) > SHALLOW:
        yield Caution("layup", f"The panel rises by {show(v['layup.panel_rise'], '%')} of its chord, more than the 20 % that the formula is for: the answer is a guess.")
    if said.flat_radius is not None and said.rib_spacing is not None:
        yield Caution("layup", "The ribs are not counted beside the curve: the wall is stiffer than it says.")
    if v.get("layup.wrinkling_stress", 0.0) and v["layup.facing_stress"] > v["layup.wrinkling_stress"]:
        yield Caution("layup", f"A facing may wrinkle at {show(v['layup.wrinkling_stress'], 'MPa', system)}, and {show(v['layup.facing_stress'], 'MPa', system)} is on it: "
                               "a thicker facing or a stiffer core.")
    facing = said.facing_plies * v["layup.ply_thickness"]
    if said.construction == "sandwich" and 0 < said.core_thickness < THIN_CORE * facing:
        yield Caution("layup", "The core is under three times as thick as a facing: a solid wall is simpler and hardly heavier (common practice).")
    yield Caution("layup", "Estimates of stiffness, no certificate of strength: pour a trial with water or sand first, and stand clear of a joint that opens. " + DEFER, "care")


def _closing(job: Job, v: Values, rows: Rows, system: System) -> Iterator[Caution]:
    said = job.handling
    if v.get("handling.uplift", 0.0) > 0:
        missing = v["handling.uplift_missing"]
        held = v["handling.mold_mass"] + said.held_down
        rest = f"{show(missing, 'kg', system)} are still missing" if missing > 0 else f"mold and weights come to {show(held, 'kg', system)}"
        yield Caution("handling", f"Poured solid as it stands, the liquid lifts the mold with {show(v['handling.uplift'], 'kg', system)}: {rest}. "
                                  "Bolt, strap or weight it down with plenty to spare before the first bucket.", "care")
    for row in rows.get("handling.drilling", []):
        if row["refused"]:
            yield Caution("handling", f"{row['name']}: no spacing of these bolts holds it. {row['refused']}")
        elif row.get("gap", 0.0) > said.flange_gap * (1 + 1e-6):
            yield Caution("handling", f"{row['name']}: it opens by {show(row['gap'], 'mm', system)} between two bolts, more than the {show(said.flange_gap, 'mm', system)} you accept.")
    if said.joint and said.drilled_for == "poured solid" and "handling.drilled" in v and all(joint.width is None for joint in said.joint):
        yield Caution("handling", "No joint says how much liquid it holds together: bolts are spaced as if nothing pulled. Give heights and width for a cast that is poured.")
    if said.core_in_flange:
        yield Caution("handling", f"Washers on core crush it: each bolt may pull {show(v.get('handling.bolt_most', 0.0), 'N', system)} at most. "
                                  "Lay flanges solid under the washers, or set a tube or a hard insert.")
    if "handling.bolt_torque" in v and v["handling.bolt_torque"] < said.torque * (1 - 1e-9):
        yield Caution("handling", f"Tighten to {show(v['handling.bolt_torque'], 'N·m', system)}, not {show(said.torque, 'N·m', system)}: beyond that the laminate or the bolt gives way.")
    from moldcalc.stages import handling as h

    least = h.EDGE_DIAMETERS * h.fastener(said.bolt).diameter
    if job.layup.flange_width - said.bolt_line < least * (1 - 1e-9) and "handling.bolt_torque" in v:
        yield Caution("handling", f"From the bolts to the flange's edge there are {show(job.layup.flange_width - said.bolt_line, 'mm', system)}: "
                                  f"handbooks ask for three diameters, {show(least, 'mm', system)} (from memory).")
    if said.joint:
        yield Caution("handling", "Laminate creeps under its washers: tighten again before each pour (common practice).")


def _lifting(rows: Rows, system: System) -> Iterator[Caution]:
    for row in rows.get("handling.lift", []):
        people = f"{row['people']} people" if row["people"] > 1 else "one person"
        if row.get("index") is None:
            yield Caution("handling", f"{row['name']}: the equation recommends no weight at all there; reach, height or twist is beyond it. Change the place, or use a cradle or hoist.", "care")
            continue
        if row["index"] > 1 + 1e-9:
            much = "; above 3 nearly everyone is at raised risk" if row["index"] > 3 else ""
            help_ = "a cradle or hoist" if row["way"] == "cradle or hoist" else "a better hold, less reach or help"
            yield Caution("handling", f"{row['name']}: {show(row['mass'], 'kg', system)} is {row['index']:.2g} times what {people} may be asked for there "
                                      f"({show(row['team'], 'kg', system)}; {row['costs']} costs most){much}. Use {help_}.", "care")
        if row.get("added") is not None:
            yield Caution("handling", f"{row['name']}: the last of {people} adds only {show(row['added'], 'kg', system)} to what the team may be asked for.")
        if row["falls"]:
            yield Caution("handling", f"{row['name']}: past the point of balance it falls by itself. A second line or a cradle holds it back; nobody stands on that side.", "care")


def _standing(job: Job, v: Values, system: System) -> Iterator[Caution]:
    said = job.handling
    if said.legs is None or "handling.centre" not in v:
        return
    if "handling.tip_angle" not in v:
        yield Caution("handling", "On these legs it does not stand: the centre of mass is outside them. Set the legs wider, or bring the mass to the middle.", "care")
        return
    if v["handling.tip_angle"] < said.least_lean - 1e-9:
        yield Caution("handling", f"It tips at a lean of {show(v['handling.tip_angle'], '°')}, less than the {show(said.least_lean, '°')} asked for: "
                                  f"set the legs {show(v['handling.leg_radius_for'], 'mm', system)} out, or stand it lower.", "care")
    if said.legs > 3:
        yield Caution("handling", f"More than three stiff legs rock: shim the short one; a leg may have to carry {show(v['handling.leg_worst'], 'N', system)}.")
    if said.sling_angle is not None and said.sling_angle < pi / 6 * (1 + 1e-9):
        yield Caution("handling", "A sling at 30° from level or flatter pulls in each leg with the whole weight or more: longer legs, or a spreader.", "care")


def _trimming(job: Job, v: Values, system: System) -> Iterator[Caution]:
    if "handling.vibration" not in v:
        return
    from moldcalc.stages import handling as h

    vibration, noise, said = v["handling.vibration"], v.get("handling.noise", 0.0), []
    if v.get("handling.trim_length", 0.0) > 0:
        said += [advice.says for advice in h.advice_for("edges")[:1]]
    if vibration > h.ACTION_VALUE * (1 + 1e-9):
        past = "over the limit of 5 m/s², which is not passed" if vibration > h.LIMIT_VALUE else "over the action value of 2.5 m/s²"
        said.append(f"Grinding shakes the hands with {show(vibration, 'm/s²')} over the day, {past} (2002/44/EC): share the work, or take a better tool.")
    if noise > LOUD + 1e-9:
        said.append(f"It makes {noise:.0f} dB(A) over the day: above 85 hearing protection is worn (2003/10/EC; OSHA 29 CFR 1910.95), by all in the room.")
    if v.get("handling.dust_in_room", 0.0) > DUST_LIMIT:
        said.append(f"Uncaught, its dust would stand at {show(v['handling.dust_in_room'], 'mg/m³')}, and 15 mg/m³ is the limit of a day for any dust "
                    "(OSHA table Z-1, from memory): catch it at the tool or cut wet, then a mask.")
    if said:
        yield Caution("handling", f"{' '.join(said)} {DEFER}", "care")
