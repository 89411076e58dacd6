"""The touch map: everything the job will touch, in that order, and which meetings are fine, sealed, released or never."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.stages.materials.pairs import UNKNOWN, Pair, find_pair, needs_test, spelled

Role = Literal["surface", "tool", "rubber", "shell", "cast"]
State = Literal["settled", "open", "stop"]
ROLES: tuple[str, ...] = get_args(Role)
#: (what is there already, what comes to it) -> kind of pair
MEETINGS: dict[tuple[str, str], str] = {
    ("surface", "rubber"): "surface and rubber", ("tool", "rubber"): "surface and rubber", ("rubber", "rubber"): "rubber and rubber",
    ("rubber", "shell"): "rubber and shell", ("shell", "shell"): "shell and shell", ("rubber", "cast"): "cast and rubber",
}
#: these also meet their own kind: a coat on a coat, a section against a section
WITH_ITSELF = ("rubber", "shell")
MOST_THINGS = 100


@dataclass(frozen=True)
class Thing:
    """Something the job will touch.

    ``material`` is its name in the table; ``role`` a surface (original, paint, clay, sealer), a tool (glove, brush, channel, pin,
    tape), a rubber, a shell or a cast; ``sealed`` and ``released`` say what is done to it before; ``over`` is what it covers, so
    that the rubber no longer meets that.
    """

    name: str
    material: str
    role: str
    sealed: bool = False
    released: bool = False
    over: str = ""


@dataclass(frozen=True)
class Touch:
    """One meeting: the two things by name, the row of the table, where it stands, whether a patch test is asked for, in words."""

    first: str
    second: str
    pair: Pair
    state: str
    test: bool
    said: str


def touch_map(things: Sequence[Thing], pairs: Iterable[Pair]) -> tuple[Touch, ...]:
    """Every meeting of the things, in the order in which they come, with its verdict.

    Parameters
    ----------
    things
        In the order in which the job touches them: original, its paint, clay, sealer, gloves, tools, rubber, shell, cast.
    pairs
        Rows of the table.

    Returns
    -------
    One row for each meeting: a surface or tool with every rubber, a rubber with every later rubber and with itself, rubber
    with shell, shell with shell, cast with rubber.

    Raises
    ------
    EntryError
        A role that is none of ours; a name that is empty or given twice; more than 100 things.

    Notes
    -----
    Range: what is listed. A thing that lies wholly under another (paint over clay: ``over="clay"``) does not meet the rubber.
    Source: the table's rows.

    Examples
    --------
    >>> things = [Thing("original", "moon dust", "surface"), Thing("rubber", "tin-cure silicone", "rubber")]
    >>> [(row.first, row.second, row.pair.verdict, row.state) for row in touch_map(things, ())][0]
    ('original', 'rubber', 'unknown: patch test', 'open')
    """
    refuse_things(things)
    rows, known = [], tuple(pairs)
    covered = {spelled(thing.over) for thing in things if thing.over}
    for at, later in enumerate(things):
        for earlier in things[: at + 1] if later.role in WITH_ITSELF else things[:at]:
            one, two = (earlier, later) if (earlier.role, later.role) in MEETINGS else (later, earlier)
            kind = MEETINGS.get((one.role, two.role))
            if kind is None or (spelled(one.name) in covered and one.role in ("surface", "tool")):
                continue
            rows.append(_touch(one, two, find_pair(known, kind=kind, first=one.material, second=two.material)))
    return tuple(rows)


def refuse_things(things: Sequence[Thing]) -> None:
    """Each thing with a name of its own and a role that we know; not too many."""
    faults: list[Fault] = []
    if len(things) > MOST_THINGS:
        raise EntryError(Fault("things", f"a list of {len(things)}", f"give at most {MOST_THINGS}"))
    seen: set[str] = set()
    for place, thing in enumerate(things, start=1):
        if thing.role not in ROLES:
            faults.append(Fault(f"role of thing {place}", clipped(thing.role) or "empty", f"it must be one of {', '.join(ROLES)}"))
        if not thing.name.strip() or spelled(thing.name) in seen:
            faults.append(Fault(f"name of thing {place}", clipped(thing.name) or "empty", "give each thing a name of its own"))
        if not thing.material.strip():
            faults.append(Fault(f"material of thing {place}", "empty", "say what it is made of"))
        seen.add(spelled(thing.name))
    for place, thing in enumerate(things, start=1):
        if thing.over and spelled(thing.over) not in seen:
            faults.append(Fault(f"what thing {place} covers", clipped(thing.over), "there is no such thing on the list"))
    if faults:
        raise EntryError(faults)


def _touch(one: Thing, two: Thing, pair: Pair) -> Touch:
    state = _state(one, two, pair)
    done = {"seal": "sealed", "release": "released"}.get(pair.verdict)
    what = f"{one.name} and {two.name}: {pair.verdict}"
    if state == "settled" and done:
        what += f", and it is {done}"
    return Touch(one.name, two.name, pair, state, needs_test(pair), f"{what} ({pair.confidence}). {pair.advice}")


def _state(one: Thing, two: Thing, pair: Pair) -> str:
    if pair.verdict == "never":
        return "stop"
    if pair.verdict == "fine":
        return "settled"
    if pair.verdict == "seal":
        return "settled" if one.sealed else "open"
    if pair.verdict == "release":
        return "settled" if one.released or two.released else "open"
    assert pair.verdict == UNKNOWN
    return "open"


def labels(things: Sequence[Thing]) -> tuple[tuple[str, str], ...]:
    """What to write on each tool and piece of clay, so that it never meets the other chemistry: (its name, the line).

    Examples
    --------
    >>> labels([Thing("brushes", "brush", "tool"), Thing("rubber", "tin-cure silicone", "rubber")])
    (('brushes', 'ONLY with tin-cure silicone'),)
    """
    refuse_things(things)
    rubbers = tuple(dict.fromkeys(" ".join(thing.material.split()) for thing in things if thing.role == "rubber"))
    line = f"ONLY with {' and '.join(rubbers)}" if rubbers else "no rubber chosen yet"
    return tuple((thing.name, line) for thing in things if thing.role == "tool" or "clay" in spelled(thing.material))
