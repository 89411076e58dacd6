"""What a panel is made of, as plain data."""

from collections.abc import Callable
from dataclasses import dataclass

from moldcalc.plan import Plan


@dataclass(frozen=True)
class Picture:
    """A drawing of the plan and the line under it. What can't be drawn gives an empty text and is left out."""

    draw: Callable[[Plan], str]
    caption: str


@dataclass(frozen=True)
class PanelDeclaration:
    """What a chapter's panel is made of. '*' in a path or a name stands for every row of the job.

    ``answer`` and ``band`` are sentences for `Plan.say`, the first that the plan can say is shown.
    """

    stage: str
    entries: tuple[str, ...]
    results: tuple[str, ...]
    answer: tuple[str, ...]
    band: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
