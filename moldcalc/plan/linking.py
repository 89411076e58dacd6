"""A link of the chain that is imported when it is first worked out: most panels show none of what such links give."""

from collections.abc import Callable
from importlib import import_module
from typing import Any

from moldcalc.job.job import Job

Work = Callable[[Job, dict[str, Any], dict[str, list[dict[str, Any]]]], None]


def link(module: str, name: str) -> Work:
    """The function of a module of the plan, by their names."""
    def work(job: Job, v: dict[str, Any], rows: dict[str, list[dict[str, Any]]]) -> None:
        getattr(import_module(f"moldcalc.plan.{module}"), name)(job, v, rows)

    return work
