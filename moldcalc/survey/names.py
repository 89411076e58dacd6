"""Names of the job's fills that a search on a scan writes; a search replaces its own rows only."""

from moldcalc.job import Job

POCKET, UNDER = "pocket ", "under section "


def pockets_named(job: Job) -> list[int] | None:
    """Numbers of the pockets that the job fills; None where it says nothing of pockets."""
    numbers = [row.name.removeprefix(POCKET) for row in job.paste.fill if row.name.startswith(POCKET)]
    return [int(number) for number in numbers if number.isdecimal()] or None
