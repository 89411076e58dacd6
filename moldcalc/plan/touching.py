"""Stage materials: what the job touches in its order, which pairs may meet, which patch tests hold it, and which rubber to take."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

from moldcalc.errors import EntryError, Fault
from moldcalc.job.job import Job
from moldcalc.job.pairs import PairFile, pair_files
from moldcalc.plan.keys import worst_stretch
from moldcalc.plan.saying import cast_family, plain
from moldcalc.stages import materials as m
from moldcalc.stages.materials import Pair, Thing, Touch
from moldcalc.units import show

Values = dict[str, Any]
Rows = dict[str, list[dict[str, Any]]]

RUBBERS = {"tin": "tin-cure silicone", "addition": "addition-cure silicone"}
#: what a laminating resin's label says -> the shell that it makes, in the table of pairs
SHELLS = {"epoxy": "epoxy laminate", "polyester": "polyester laminate", "polyurethane": "polyurethane paste shell"}
TACK = {"not looked at": None, "no": False, "yes": True}


def shell_material(job: Job) -> str:
    """What the shell is in the table of pairs, by its resin's label."""
    label = job.cards.laminating_resin.label
    return next((shell for word, shell in SHELLS.items() if word in label.casefold()), label or "a shell of no name")


def things_of(job: Job, rubber: str = "") -> list[Thing]:
    """Everything that the job names, in the order in which it touches it; ``rubber`` in place of the job's own."""
    said = job.materials
    over = bool(said.surface)
    released = bool(said.release)
    made = []
    if said.original_material:
        made.append(Thing("original", said.original_material, "surface", sealed=over, released=released))
    if over:
        made.append(Thing("surface", said.surface, "surface", released=released, over="original" if said.original_material else ""))
    if said.clay:
        made.append(Thing("clay", said.clay, "surface", sealed=said.clay_sealed, released=released))
    if released:
        made.append(Thing("release", said.release, "surface"))
    if said.gloves:
        made.append(Thing("gloves", said.gloves, "tool"))
    own = [Thing(thing.name, thing.material, thing.role, thing.sealed, thing.released, thing.over) for thing in said.thing]
    made += [thing for thing in own if thing.role in ("surface", "tool", "rubber")]
    made.append(Thing("rubber", rubber or RUBBERS[job.cards.rubber.chemistry], "rubber"))
    made.append(Thing("shell", shell_material(job), "shell", released=said.shell_released))
    made += [thing for thing in own if thing.role == "shell"]
    made.append(Thing("cast", cast_family(job.cards.cast), "cast", released=job.casting.released))
    return made + [thing for thing in own if thing.role == "cast"]


@lru_cache(maxsize=16)
def _read(file: PairFile) -> tuple[Pair, ...]:
    """Read and checked once for each time that the file was changed."""
    try:
        return m.read_pairs(file.tables())
    except EntryError as error:
        name = file.path.name
        raise EntryError(
            [fault if fault.entry == name else Fault(f"{name}: {fault.entry}", fault.was, fault.allowed) for fault in error.faults]
        ) from None


def pairs_of(job: Job) -> tuple[Pair, ...]:
    """All pairs that hold for a job, the user's own first."""
    return tuple(pair for file in pair_files(job.folders) for pair in _read(file))


@lru_cache(maxsize=64)
def _touches(things: tuple[Thing, ...], files: tuple[PairFile, ...]) -> tuple[Touch, ...]:
    return m.touch_map(things, tuple(pair for file in files for pair in _read(file)))


def touches_of(job: Job, rubber: str = "") -> tuple[Touch, ...]:
    """The touch map of a job. A job that is drawn again and again asks for the same one."""
    return _touches(tuple(things_of(job, rubber)), pair_files(job.folders))


def touching(job: Job, v: Values, rows: Rows) -> None:
    """The touch map, what is open in it, the labels, and which patch tests hold the next step."""
    things = things_of(job)
    touches = touches_of(job)
    v["materials.meetings"] = len(touches)
    for state, name in (("settled", "settled"), ("open", "open"), ("stop", "never")):
        v[f"materials.{name}"] = sum(touch.state == state for touch in touches)
    v["materials.unknown"] = sum(touch.pair.verdict == m.UNKNOWN for touch in touches)
    materials = {m.spelled(thing.name): thing.material for thing in things}
    rows["materials.touch"] = [
        {
            "name": plain(f"{touch.first} and {touch.second}"),
            "first": touch.first,
            "second": touch.second,
            "state": touch.state,
            "of_first": materials[m.spelled(touch.first)],
            "of_second": materials[m.spelled(touch.second)],
            "pair": touch.pair.verdict,
            "verdict": _verdict(touch),
            "said": touch.said,
            "kind": touch.pair.kind,
            "verdict_why": plain(touch.pair.advice),
            "verdict_source": plain(f"{touch.pair.source} ({touch.pair.confidence})"),
        }
        for touch in touches
    ]
    rows["materials.label"] = [{"name": plain(name), "line": line} for name, line in m.labels(things)]
    # all is known up to here, whatever stands in the tests
    tests = [
        m.PatchTest(
            test.first or "a surface without a name",
            test.second or "rubber",
            None if test.hours is None else float(test.hours),
            TACK[test.tack],
            test.overruled,
        )
        for test in job.materials.test
    ]
    holds = m.patch_holds(touches, tests, v["cure.demold_time"])
    asked = [hold for hold in holds if hold.result != "not asked for"]
    rows["materials.patch"] = [
        {
            "name": plain(f"{hold.first} and {hold.second}"),
            "first": hold.first,
            "second": hold.second,
            "result": hold.result,
            "holds": hold.holds,
            "said": hold.said,
            "result_why": plain(hold.said),
        }
        for hold in asked
    ]
    waiting = [hold for hold in asked if hold.holds]
    for row, touch, hold in zip(rows["materials.touch"], touches, holds, strict=True):
        if hold.result in ("passed", "overruled") and touch.state == "open":
            row["state"], row["verdict"] = "settled", f"patch test {hold.result}"
    v["materials.settled"] = sum(row["state"] == "settled" for row in rows["materials.touch"])
    v["materials.open"] = sum(row["state"] == "open" for row in rows["materials.touch"])
    v["materials.tests"], v["materials.waiting"] = len(asked), len(waiting)
    v["materials.next"] = (
        plain(f"waits for a patch test of {waiting[0].first} with {waiting[0].second}: {waiting[0].result}") if waiting else "may go on"
    )


def _verdict(touch: Touch) -> str:
    """The verdict, and whether what it asks for is done."""
    done = {"seal": ("sealed", "seal it"), "release": ("released", "release it")}.get(touch.pair.verdict)
    if done is None:
        return touch.pair.verdict
    return done[0] if touch.state == "settled" else f"{done[1]}: not done"


def choosing(job: Job, v: Values, rows: Rows) -> None:
    """Which chemistry, which hardness: the reasons in a table, the totals in a sentence."""
    said = job.materials
    given = {chemistry: _seen(touches_of(job, chemistry)) for chemistry in m.CHEMISTRIES}
    given = {chemistry: verdicts or [m.UNKNOWN] for chemistry, verdicts in given.items()}
    prices = {
        name: float(price) * v["mixing.have"]
        for name, price in zip(m.CHEMISTRIES, (said.price_tin, said.price_addition), strict=True)
        if price is not None
    }
    known = len(prices) == len(m.CHEMISTRIES)
    choice = m.choose_chemistry(
        verdicts=given,
        shrinkage_allowed=float(said.shrinkage_allowed),
        casts=job.start.casts,
        cast_material=cast_family(job.cards.cast),
        years=float(said.years),
        prices=prices if known else dict.fromkeys(m.CHEMISTRIES, 0.0),
        budget=float(said.budget) if known and said.budget is not None else None,
    )
    reasons = (
        choice.reasons
        if known
        else tuple(replace(row, why="no price of the two rubbers was given") if row.criterion == "price" else row for row in choice.reasons)
    )
    v["materials.chemistry"] = choice.said
    v["materials.chemistry_agrees"] = _agrees(choice.chosen, RUBBERS[job.cards.rubber.chemistry])
    rows["materials.reason"] = [_reason(row, ("tin-cure", "addition-cure")) for row in reasons]
    firm = m.choose_hardness(
        stretch=worst_stretch(job, v), area=v["original.area"], cast_mass=v["casting.cast_mass"], hangs=job.keys.hanging_area is not None
    )
    v["materials.hardness"] = firm.said
    v["materials.hardness_now"] = f"{show(job.cards.rubber.hardness_shore_a)} on the card"
    rows["materials.firm"] = [_reason(row, ("soft", "medium", "firm")) for row in firm.reasons]


def _seen(touches: Sequence[Touch]) -> list[str]:
    """Verdicts of the surfaces and tools that the rubber meets; what is sealed or released already counts as fine."""
    return ["fine" if touch.state == "settled" else touch.pair.verdict for touch in touches if touch.pair.kind == "surface and rubber"]


def _agrees(chosen: str | None, used: str) -> str:
    if chosen is None:
        return f"{used} is on the card; neither is ahead"
    return f"{used} is on the card, and chosen here" if chosen == used else f"{used} is on the card; here {chosen} comes out ahead"


def _reason(row: m.Reason, options: tuple[str, ...]) -> dict[str, Any]:
    points = ", ".join(f"{option} {value:+g}" if value else f"{option} 0" for option, value in zip(options, row.points, strict=True))
    return {"name": row.criterion, "points": points, "points_why": plain(row.why), "points_source": f"{row.source} ({row.status})"}
