"""The links of the chain for materials, keys and casting: stage -> what each is called in a sentence, and the work.

The calculations are imported when the first of their results is asked for: most panels show none.
"""

from collections.abc import Callable
from importlib import import_module
from typing import Any

from moldcalc.job.job import Job

Work = Callable[[Job, dict[str, Any], dict[str, list[dict[str, Any]]]], None]

_LINKS = {
    "materials": ("touching", (("What may touch what", "touching"), ("Which rubber", "choosing"))),
    "keys": ("keys", (("Strips", "strips"), ("Shims", "shims"), ("Flange keys", "flange_keys"), ("Buttons", "buttons"), ("The opening", "opening"),
                      ("The stiffness of the rubber", "modulus"), ("The seam band", "band"), ("Peeling", "peel"))),
    "casting": ("edition", (("Batches of a cast", "batches"), ("Airing", "airing"), ("The chain of sizes", "sizes"), ("The mold's life", "life"),
                            ("The cost", "cost"), ("The head of a pour", "head"))),
}


def _link(module: str, name: str) -> Work:
    def work(job: Job, v: dict[str, Any], rows: dict[str, list[dict[str, Any]]]) -> None:
        getattr(import_module(f"moldcalc.plan.{module}"), name)(job, v, rows)

    return work


EDITION_LATER: dict[str, tuple[tuple[str, Work], ...]] = {
    stage: tuple((called, _link(module, name)) for called, name in links) for stage, (module, links) in _LINKS.items()
}
