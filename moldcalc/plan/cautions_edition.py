"""Cautions on what touches what, on keys and the cut, and on casting; worked out with the results that they speak of."""

from collections.abc import Iterator
from typing import Any

from moldcalc.job.job import Job
from moldcalc.plan.cautions import Caution
from moldcalc.plan.saying import cast_family
from moldcalc.units import System, show

Values = dict[str, Any]
Rows = dict[str, list[dict[str, Any]]]

#: stages that have such cautions
EDITION_STAGES = ("materials", "keys", "casting")
RESINS = ("polyurethane resin", "polyester resin", "epoxy resin")
#: hours that a tin-cure rubber airs at least before a resin is cast in it: common practice, no source
LEAST_VENT = 24 * 3600.0
DEFER = "Read the safety data sheets; local codes and licensed practice come before this sheet."


def cautions_edition(stage: str, job: Job, v: Values, rows: Rows, refused: tuple[tuple[str, str], ...]) -> Iterator[Caution]:
    """Those of one stage; a part that could not be worked out says so first."""
    system: System = "us" if job.start.units == "us" else "metric"
    for where, text in refused:
        yield Caution(where, text)
    if stage == "materials":
        yield from _touching(job, v, rows)
    elif stage == "keys":
        yield from _strips(job, v, rows, system)
        yield from _keys(job, v, system)
        yield from _opening(job, v, rows, system)
    else:
        yield from _casting(job, v, rows, system)


def _touching(job: Job, v: Values, rows: Rows) -> Iterator[Caution]:
    from moldcalc.stages.materials import UNKNOWN

    said = job.materials
    if not (said.original_material or said.surface or any(thing.role == "surface" for thing in said.thing)):
        yield Caution("materials", "Nothing is said of what the rubber is put on: its pair is unknown, so make a patch test, full demold time, on a hidden place.")
    tests = {(row["first"], row["second"]): row for row in rows.get("materials.patch", [])}
    to_do = []
    for touch in rows.get("materials.touch", []):
        test = tests.get((touch["first"], touch["second"]))
        both = f"{touch['first']} ({touch['of_first']}) and {touch['second']} ({touch['of_second']})"
        if test is not None and test["result"] == "overruled":
            yield Caution("materials", f"{both}: {touch['pair']}. {test['said']}")
        elif touch["state"] == "stop":
            yield Caution("materials", f"{both} never meet: {touch['verdict_why']} The next step waits. {test['said'] if test and test['result'] != 'missing' else ''}".strip())
        elif test is not None and test["holds"]:
            known = "unknown, so not taken for fine" if touch["pair"] == UNKNOWN else touch["pair"]
            told = f"{touch['verdict_why']} Its patch test is not entered." if test["result"] == "missing" else test["said"]
            yield Caution("materials", f"{both}: {known}. {told} The next step waits.")
        elif test is None and touch["pair"] == UNKNOWN:
            yield Caution("materials", f"{both}: unknown to the table, so it is not taken for fine. Make a patch test.")
        elif touch["state"] == "open" and touch["pair"] == "release":
            to_do.append(f"{touch['first']} and {touch['second']}")
    if to_do:
        yield Caution("materials", f"Not yet said to be released, and they bond or key without it: {'; '.join(to_do)}.")
    yield Caution("materials", "Whatever the table says, end with a patch test on the same surface, sealer, release, batch and room. Solvents in sealers and releases burn and "
                               "harm: fresh air, no flame. " + DEFER, "care")


def _strips(job: Job, v: Values, rows: Rows, system: System) -> Iterator[Caution]:
    if v.get("keys.strip_length", 0.0) < v.get("keys.joint", 0.0) * (1 - 1e-6) and "keys.strip_length" in v:
        yield Caution("keys", f"The strips listed under paste are {show(v['keys.strip_length'], 'm', system)} long, the joints {show(v['keys.joint'], 'm', system)}: some joint has none.")
    age = job.keys.strip_age
    if age is not None and "keys.window_to" in v:
        window = f"{show(v['keys.window_from'], 'h', system)} to {show(v['keys.window_to'], 'h', system)}"
        if v["keys.strip_state"] == "too soon":
            yield Caution("keys", f"Strips of {show(age, 'h', system)} are still soft: they may be handled, and bond, from {window} after casting.")
        elif v["keys.strip_state"] != "fresh enough":
            yield Caution("keys", f"Strips of {show(age, 'h', system)} are outside their window of {window} after casting: clean, abrade, bed in fresh rubber, and test the bond first; "
                                  "or cast them later.")
    thick = min((v[name] for name in ("keys.slot_side", "keys.slot_under") if name in v), default=None)
    if thick is not None and thick < 3e-3 - 1e-9:
        yield Caution("keys", f"The slot leaves {show(thick, 'mm', system)} of rubber in the strip: it tears there. A shallower slot, or a larger strip.")


def _keys(job: Job, v: Values, system: System) -> Iterator[Caution]:
    said = job.keys
    left = v.get("keys.key_left")
    if left is not None and left < said.least_draft - 1e-9:
        what = "locks" if left < 0 else "is too tight"
        yield Caution("keys", f"A flange key {what}: {show(left, '°')} of draft are left against the pull, {show(said.least_draft, '°')} are wanted. Turn its axis to the pull, or open its sides.")
    if said.hanging_area is not None and said.button_hold is None:
        yield Caution("keys", "How much one button holds is not said: their number is from the spacing alone. Hang weights on one and enter what it slipped at.")
    if "keys.buttons_by_load" in v and v["keys.buttons_by_load"] > v["keys.buttons_by_spacing"]:
        yield Caution("keys", f"The load asks for {v['keys.buttons_by_load']} buttons, the usual spacing for {v['keys.buttons_by_spacing']} only: set the larger number.")


def _opening(job: Job, v: Values, rows: Rows, system: System) -> Iterator[Caution]:
    from moldcalc.stages.keys import allowed_stretch

    said = job.keys
    for stray in allowed_stretch.strays(elongation=float(said.elongation), share=float(said.stretch_share)):
        if stray.entry == "share":
            yield Caution("keys", f"Allowing {show(said.stretch_share, '%')} of the elongation at break is more than a third: it tears sooner, at nicks first (a heuristic, no source).")
    worst, allowed = v.get("keys.worst_stretch"), v.get("keys.allowed_stretch", 0.0)
    if worst is None:
        yield Caution("keys", "No girths from the opening inward: how far the rubber stretches, and where it must be cut, is not known.")
    elif worst > allowed * (1 + 1e-9) + 1e-12:
        yield Caution("keys", f"As a closed glove the worst neck, {show(v['keys.worst_neck'], 'mm', system)} round, stretches by {show(worst, '%')}, more than the {show(allowed, '%')} you allow: "
                              f"cut from the opening for {show(v['keys.cut_to'], 'mm', system)} at least.")
        if said.cut is not None and said.cut < v["keys.cut_to"] - 1e-9:
            yield Caution("keys", f"A cut of {show(said.cut, 'mm', system)} stops short of the {show(v['keys.cut_to'], 'mm', system)} that the necks ask for.")
    if v.get("keys.way") == "none will do":
        yield Caution("keys", "None of the three ways stays within the stretch you allow: fold over a larger radius, cut further, or a softer rubber.")
    if any(coat.mesh for coat in job.coats.coat) and allowed > 0.05:
        yield Caution("keys", "A coat is on mesh: where mesh is bedded in, nothing stretches. Leave it out round the necks, or allow next to nothing.")
    yield Caution("keys", "The blade moves away from the other hand, and from the second person's; dull blades slip. Count the pins out before the shell goes on. " + DEFER, "care")


def _casting(job: Job, v: Values, rows: Rows, system: System) -> Iterator[Caution]:
    from moldcalc.stages.casting import share_vented

    said, family = job.casting, cast_family(job.cards.cast)
    refused = next((row for row in rows.get("casting.way", []) if row["name"] == said.method and row["batches"] is None), None)
    if refused is not None:
        yield Caution("casting", f"A cast can't be {said.method} like this: {refused['note']}")
    if said.setting_time is None and said.method in ("laid up", "poured solid"):
        yield Caution("casting", "How long the mix flows is not said, so batches can't be counted. Its data sheet has it; warm water and old powder shorten it.")
    wanted, made = job.start.casts, said.made
    if "casting.life_low" in v and wanted + made > v["casting.life_low"]:
        more = "more than one mold may give at its best" if wanted + made > v["casting.life_high"] else "one mold may not last"
        yield Caution("casting", f"{wanted} casts wanted and {made} taken: {more} ({v['casting.life_low']} to {v['casting.life_high']} of {family}, common practice, no source). "
                                 "Keep a cast to mold again; look at the thinnest high points after each.")
    if job.cards.rubber.chemistry == "tin" and family in RESINS and said.vent_hours < LEAST_VENT - 1e-6:
        yield Caution("casting", f"{show(said.vent_hours, 'h', system)} of airing is short: alcohol left in tin-cure rubber makes the first resin casts tacky. 24 to 72 h is usual (common practice).")
    for stray in share_vented.strays(diffusivity=float(said.diffusivity), thickness=v["coats.mean_thickness"], time=float(said.vent_hours), open_faces=1.0):
        if stray.entry == "diffusivity":
            yield Caution("casting", "The diffusivity is outside what is thought likely: fit it to two weighings of your own.")
    if v.get("casting.head_moves", 0.0) > 1e-3 and said.method == "poured solid":
        yield Caution("casting", f"Poured solid, the rubber moves out by {show(v['casting.head_moves'], 'mm', system)} until the shell holds it: a cast that much thicker. "
                                 "Close the room between rubber and shell.")
    if family == "gypsum":
        warm = v.get("casting.warming", 0.0) * (1.8 if system == "us" else 1.0)
        yield Caution("casting", f"Setting gypsum heats: a deep bucket by up to {warm:.0f} {'°F' if system == 'us' else '°C'} if it kept all its heat. It has burnt hands that were held in it. "
                                 "Never cast a part of the body. " + DEFER, "care")
