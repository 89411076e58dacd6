"""The links of the chain for the split, stiffness, closing, lifting, standing and trimming: stage -> what each is called, and the work.

The calculations are imported when the first of their results is asked for: most panels show none.
"""

from collections.abc import Callable
from importlib import import_module
from typing import Any

from moldcalc.job.job import Job

Work = Callable[[Job, dict[str, Any], dict[str, list[dict[str, Any]]]], None]

_LINKS = {
    "split": (("The split", "split", "split"),),
    "layup": (("The flattest panel", "strength", "strength"),),
    "handling": (("Closing", "closing", "closing"), ("Lifting", "carrying", "carrying"), ("Standing", "standing", "standing"),
                 ("Trimming", "carrying", "trimming")),
}


def _link(module: str, name: str) -> Work:
    def work(job: Job, v: dict[str, Any], rows: dict[str, list[dict[str, Any]]]) -> None:
        getattr(import_module(f"moldcalc.plan.{module}"), name)(job, v, rows)

    return work


SHELL_LATER: dict[str, tuple[tuple[str, Work], ...]] = {
    stage: tuple((called, _link(module, name)) for called, module, name in links) for stage, links in _LINKS.items()
}
