"""Patch tests: a surface that needs one holds the next step until hours and tack are entered, or until it is overruled in writing."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.stages.materials.pairs import spelled
from moldcalc.stages.materials.touch import Touch
from moldcalc.units import show

Result = Literal["not asked for", "missing", "too short", "tack not entered", "tacky", "passed", "overruled"]
LONGEST = 2000
#: fewer letters than this are no reason
SHORTEST = 10


@dataclass(frozen=True)
class PatchTest:
    """A patch test as the maker enters it.

    ``hours`` is how long it lay [s]; ``tack`` whether the contact face stuck or was wet, None as long as nobody touched it;
    ``overruled`` the maker's reason for going on without, in their own words, kept as it is.
    """

    first: str
    second: str
    hours: float | None = None
    tack: bool | None = None
    overruled: str = ""


@dataclass(frozen=True)
class Hold:
    """Where a meeting stands: its result, whether it holds the next step, and one sentence."""

    first: str
    second: str
    result: Result
    holds: bool
    said: str


def patch_state(touch: Touch, test: PatchTest | None, demold_time: float) -> Hold:
    """Whether one meeting holds the next step.

    Parameters
    ----------
    touch
        A row of the touch map.
    test
        What was entered for it, if anything.
    demold_time
        Full demold time at the temperature of the test. [s]

    Returns
    -------
    The hold; a test that was overruled keeps its text and holds no longer.

    Raises
    ------
    EntryError
        Hours or a demold time that are no time; an overrule too short to be a reason, or too long.

    Notes
    -----
    Range: same surface, same sealer, same release, same batch, same room. Two patches at least: the worst surface and a hidden
    one (testing before is verified: J. Am. Inst. Conservation 41(2), 2002).
    Source: common practice; the principle verified.

    Examples
    --------
    >>> from moldcalc.stages.materials.touch import Thing, touch_map
    >>> row = touch_map([Thing("stone", "stone", "surface"), Thing("rubber", "tin-cure silicone", "rubber")], ())[0]
    >>> patch_state(row, PatchTest("stone", "rubber", hours=8 * 3600.0, tack=False), 16 * 3600.0).said
    'Patch test of stone with rubber lay 8 h of 16 h: wait.'
    """
    if not 0 < demold_time < 1e9:
        raise EntryError(Fault("demold time", f"{demold_time:.3g} s", "give the full demold time at the temperature of the test"))
    if not touch.test and touch.state != "stop":
        return _hold(touch, "not asked for", "No test is asked for; one never harms.")
    what = f"Patch test of {touch.first} with {touch.second}"
    if test is None:
        return _hold(touch, "missing", f"{what} is not entered: {touch.pair.verdict}. {touch.pair.advice}")
    reason = test.overruled.strip()
    if reason:
        if not SHORTEST <= len(reason) <= LONGEST:
            raise EntryError(Fault("overrule", clipped(reason), f"write the reason in {SHORTEST} to {LONGEST} letters"))
        return _hold(touch, "overruled", f"{what} overruled by the maker: {reason}")
    return _measured(touch, test, demold_time, what)


def _measured(touch: Touch, test: PatchTest, demold_time: float, what: str) -> Hold:
    if test.hours is None:
        return _hold(touch, "missing", f"{what} has no hours entered.")
    if not 0 <= test.hours < 1e9:
        raise EntryError(Fault("hours of the patch test", f"{test.hours:.3g} s", "give how long the patch lay"))
    if test.hours < demold_time * (1 - 1e-9):
        return _hold(touch, "too short", f"{what} lay {show(test.hours, 'h')} of {show(demold_time, 'h')}: wait.")
    if test.tack is None:
        return _hold(touch, "tack not entered", f"{what} has no answer: does the contact face stick or look wet, yes or no?")
    if test.tack:
        return _hold(touch, "tacky", f"{what} stayed tacky: another sealer or the other chemistry, and a new test.")
    if touch.state == "stop":
        return _hold(touch, "passed", f"{what} passed, but the table says never: write down why it may go on.", holds=True)
    return _hold(touch, "passed", f"{what} passed.")


def _hold(touch: Touch, result: Result, said: str, *, holds: bool | None = None) -> Hold:
    return Hold(touch.first, touch.second, result, result not in ("not asked for", "passed", "overruled") if holds is None else holds, said)


def patch_holds(touches: Sequence[Touch], tests: Sequence[PatchTest], demold_time: float) -> tuple[Hold, ...]:
    """All meetings with what was entered for them, in their order; the next step waits while any of them holds.

    Raises
    ------
    EntryError
        As one meeting; a test of two things that do not meet; two tests of the same two.
    """
    known = {(spelled(touch.first), spelled(touch.second)) for touch in touches}
    entered: dict[tuple[str, str], PatchTest] = {}
    for test in tests:
        both = (spelled(test.first), spelled(test.second))
        both = both if both in known else both[::-1]
        if both not in known:
            raise EntryError(Fault("patch test", clipped(f"{test.first} with {test.second}"), "these two do not meet in this job"))
        if both in entered:
            raise EntryError(Fault("patch test", clipped(f"{test.first} with {test.second}"), "it is entered twice; keep the last"))
        entered[both] = test
    return tuple(patch_state(touch, entered.get((spelled(touch.first), spelled(touch.second))), demold_time) for touch in touches)
