"""Checks a learner's answer against a result of the plan. Any unit of the right kind will do."""

from moldcalc.errors import EntryError
from moldcalc.plan import Plan
from moldcalc.units import read, show, si_of

#: An answer within this share of the plan's is right: a learner rounds, and so does a printed sheet.
CLOSE = 0.02


def check(answer: str, plan: Plan, name: str) -> str:
    """Say whether an answer agrees with a result of the plan.

    ``answer`` is text with a unit, as a maker would write it; '?' stands for none yet.

    Examples
    --------
    >>> from moldcalc.job import demo_job
    >>> from moldcalc.plan import plan
    >>> check("154 min", plan(demo_job()), "cure.earliest_recoat")
    'Right: 2 h 34 min.'
    >>> check("2 h", plan(demo_job()), "cure.earliest_recoat")
    'Not yet: 2 h is too little. Read the formula above once more.'
    """
    if answer.strip() in ("", "?"):
        return "Write your answer in place of the question mark, with its unit, and run the cell."
    result = plan.result(name)
    if result.unit in ("count", "clock", "text"):
        right = answer.strip().lower() == result.say(plan.system).lower()
        return f"Right: {result.say(plan.system)}." if right else f"Not yet: '{answer}' is not it. Look at the panel once more."
    try:
        given = read(answer, si_of(result.unit), entry="Your answer")
    except EntryError as error:
        return str(error)
    if abs(given - result.value) <= CLOSE * abs(result.value):
        return f"Right: {result.say(plan.system)}."
    side = "too much" if given > result.value else "too little"
    return f"Not yet: {show(given, result.unit, plan.system)} is {side}. Read the formula above once more."
