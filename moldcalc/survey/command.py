"""A scan on the command line: its size, and where the shell over it comes apart; the same words and figures as the sheets."""

import json
import sys
from pathlib import Path
from typing import Any

from moldcalc.errors import EntryError, Fault
from moldcalc.job import JobFile
from moldcalc.job.job import Job
from moldcalc.job.tables import Coats, Original
from moldcalc.packet.csvjson import result_line
from moldcalc.plan.results import Result
from moldcalc.scan.measuring import measure
from moldcalc.scan.progress import T, Work
from moldcalc.scan.reading import placed, read_scan, unit_guess
from moldcalc.scan.views import way
from moldcalc.survey.facts import pocket_facts, section_facts, size_facts
from moldcalc.survey.finding import pockets_of, read_and_stand, shell_grid, shell_of
from moldcalc.survey.keeping import section_rows
from moldcalc.survey.kept import read_survey, survey_path, write_survey
from moldcalc.survey.names import pockets_named
from moldcalc.survey.said import size_results
from moldcalc.units import System, read, show

#: of a job that says nothing of them [m]
FLANGE, WALL = Original().flange_width, Coats().wall


def told(work: Work[T]) -> T:
    """The work's answer; how far it is stands on standard error while somebody watches."""
    watched = sys.stderr.isatty()
    wide = 0
    try:
        while True:
            said, share = next(work)
            if watched:
                line = f"{said}: {share:.0%}"
                print("\r" + line.ljust(wide), end="", file=sys.stderr, flush=True)
                wide = max(wide, len(line))
    except StopIteration as done:
        answer: T = done.value
        return answer
    finally:
        if watched and wide:
            print("\r" + " " * wide + "\r", end="", file=sys.stderr, flush=True)


def size_said(scan: Path, unit: str | None, up: str | None, height: str | None, as_json: bool) -> str:
    """How big a scan is, as a table or as JSON."""
    found = told(read_scan(scan))
    unit, up = unit or found.unit_in_file, up or found.up_in_file or "+z"
    if unit is None:
        sizes = " × ".join(f"{extent:.5g}" for extent in found.extents)
        guess = unit_guess(found.extents, read(height, "m", entry="Height"), up) if height else None
        fits = f"; the height you gave fits {guess}" if guess else ""
        raise EntryError(Fault("The unit of the scan", f"not said (it is {sizes} of its units{fits})", "add --unit mm, cm, m, in or ft"))
    body = placed(found, unit, up)
    size = told(measure(body, closed=found.closed, consistent=found.consistent, flange_width=FLANGE, wall=WALL))
    results = size_results(found, size, unit, WALL)
    if as_json:
        return _json({"scan": found.name, "results": [result_line(result) for result in results], "notes": list(found.notes)})
    return "\n".join([*_lines(results), *(f"Note: {note}" for note in found.notes)])


def split_said(jobfile: JobFile, as_json: bool, keep: bool) -> str:
    """Where the shell over a job's scan comes apart, as a table or as JSON; with ``keep`` it is written into the job too."""
    job = jobfile.job
    folder = jobfile.path.parent if jobfile.path else None
    standing = told(read_and_stand(job, folder))
    pockets = told(pockets_of(job, standing.body))
    grid = told(shell_grid(job, pockets, pockets_named(job)))
    shell = told(shell_of(job, grid))
    facts, shape = section_facts(job, shell)
    if keep:
        if jobfile.path is None:
            raise EntryError(Fault("A demo", "not to be written to", "copy it first: moldcalc open lays one in a folder of yours"))
        jobfile.keep_all({}, section_rows(job, shell))
        survey = read_survey(survey_path(jobfile.path)).with_found("size", *_named(size_facts(job, standing), "original"))
        survey = survey.with_found("pockets", *_named(pocket_facts(job, pockets), "rubber")).with_found("sections", facts, "shell", shape)
        write_survey(survey_path(jobfile.path), survey)
    if as_json:
        facts.pop("stands_on")
        return _json({"job": job.start.title, **facts})
    return "\n".join(_split_lines(job, facts))


def _named(found: tuple[dict[str, Any], Any], name: str) -> tuple[dict[str, Any], str, Any]:
    facts, shape = found
    return facts, name, shape


def _split_lines(job: Job, facts: dict[str, Any]) -> list[str]:
    system: System = "us" if job.start.units == "us" else "metric"
    count = len(facts["sections"])
    least = f"{facts['bound']}{'' if facts['proven'] else ' or more (not proven)'}"
    lines = [f"{count} section{'s' * (count != 1)}; the least that do: {least}. {facts['order']}"]
    for row in facts["sections"]:
        touches = ", ".join(f"{other} ({show(length, 'm', system)})" for other, length in row["touches"].items())
        lines.append(f"{row['number']:>2}  {way(row['pull']):<28} {show(row['area'], 'm²', system):>10}  "
                     f"least draft {show(row['draft'], '°', system)}, paste {show(row['fill'], 'L', system)}, touches {touches or 'none'}")
    lines.append(f"Paste for what can't leave: {show(facts['paste'], 'L', system)}. All joints: {show(facts['joint'], 'm', system)}. "
                 f"Out of reach along every direction: {facts['unreachable']:.1%}.")
    return [*lines, *facts["ways_out"]]


def _lines(results: list[Result]) -> list[str]:
    wide = max(len(result.label) for result in results)
    return [f"{result.label:<{wide}}  {result.say()}" + (f"  ({result.say_band()})" if result.say_band() else "") for result in results]


def _json(whole: dict[str, Any]) -> str:
    return json.dumps(whole, ensure_ascii=False, indent=1, allow_nan=False)
