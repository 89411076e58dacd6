"""The one chain from a job to its plan."""

from collections.abc import Callable
from typing import Any

from moldcalc.errors import EntryError, Fault
from moldcalc.job import Job, JobFile
from moldcalc.plan.declared import DECLARED
from moldcalc.plan.draws import points, quantile, triangular
from moldcalc.plan.edition_chain import EDITION_LATER
from moldcalc.plan.results import Later, Plan
from moldcalc.plan.rubber import clocks, coats, cure, hang_tests, lines, mix_ratio, paste
from moldcalc.plan.shell import handling, layup
from moldcalc.plan.shell_chain import SHELL_LATER
from moldcalc.plan.size import size

Values = dict[str, Any]
Rows = dict[str, list[dict[str, Any]]]


def worked_out(job: Job) -> tuple[Values, Rows]:
    """Every number of the plan, by name, in SI."""
    v: Values = {}
    rows: Rows = {}
    card = job.cards.rubber
    ratio = mix_ratio(card.mix_ratio, card.base_density, card.part_density)
    try:
        size(job, v)
        cure(job, v)
        hang = hang_tests(job)
        coats(job, v, rows, ratio, hang)
        paste(job, v, rows, ratio, hang)
        lines(job, v, rows, ratio)
        clocks(job, v, rows)
        layup(job, v, rows)
        handling(job, v, rows)
    except (ZeroDivisionError, OverflowError, ValueError) as error:
        if isinstance(error, EntryError):
            raise
        raise EntryError(Fault("The job", "out of proportion", "some of its sizes do not go together; look at the last entry you changed")) from None
    return v, rows


#: what stands back until one of its results is asked for: stage -> what it is called, and the work
LATER: dict[str, tuple[tuple[str, Callable[[Job, Values, Rows], None]], ...]] = SHELL_LATER | EDITION_LATER
#: a band of these stages is from so many times fewer draws: drilling lists take longer, and nothing is bought by them
FEWER = {"split": 1, "layup": 1, "handling": 3, "materials": 100, "keys": 2, "casting": 2}


def worked_out_later(job: Job, values: Values, rows: Rows, stage: str) -> Later:
    """The chain's further links of a stage, from what the first ones found. A part that can't be worked out is a sentence; the others stand."""
    v, r = dict(values), dict(rows)
    refused = []
    for called, work in LATER.get(stage, ()):
        try:
            work(job, v, r)
        except EntryError as error:
            refused.append((stage, f"{called} is left out: {error}"))
        except (ZeroDivisionError, OverflowError, ValueError):
            refused.append((stage, f"{called} is left out: some of its sizes do not go together; look at the last entry you changed."))
    return Later({name: value for name, value in v.items() if name not in values}, {name: made for name, made in r.items() if name not in rows},
                 tuple(refused))


def plan(job: Job | JobFile, draws: int = 0) -> Plan:
    """Everything that follows from what the maker says.

    Parameters
    ----------
    job
        A job, or the open file that holds it.
    draws
        How often the same plan is run again between the lows and highs of the entries, for the bands
        (10 % to 90 %); 0 leaves them out, 300 is usual.

    Raises
    ------
    EntryError
        Entries that can't be used together, in one sentence.
    """
    said = job.job if isinstance(job, JobFile) else job
    values, rows = worked_out(said)
    return Plan(said, values, rows, DECLARED, bands(said, draws) if draws else {}, lambda stage: worked_out_later(said, values, rows, stage),
                lambda stage: bands(said, draws // FEWER[stage], stage) if draws else {})


def bands(job: Job, draws: int, later: str = "") -> dict[str, tuple[float, float]]:
    """10 % and 90 % quantiles of every number, from running the very same chain on evenly filling draws; or of a stage's later numbers."""
    spans = list(job.spans())
    if not spans:
        return {}
    columns: dict[str, list[float]] = {}
    for point in points(draws, len(spans)):
        drawn = job.drawn({path: triangular(share, span) for (path, span), share in zip(spans, point, strict=True)})
        try:
            values, rows = worked_out(drawn)
            if later:
                values = worked_out_later(drawn, values, rows, later).values
        except EntryError:
            continue  # a corner that can't be built (no time left to brush): the likely job can, and the caution says how near it is
        for name, value in values.items():
            if isinstance(value, (int, float)):
                columns.setdefault(name, []).append(float(value))
    found = {}
    for name, numbers in columns.items():
        numbers.sort()
        low, high = quantile(numbers, 0.1), quantile(numbers, 0.9)
        if high - low > 1e-9 * max(abs(low), abs(high), 1e-300):
            found[name] = (round(low), round(high)) if DECLARED.get(name) and DECLARED[name].unit == "count" else (low, high)
    return found
