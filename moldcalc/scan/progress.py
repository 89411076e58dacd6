"""Long work in steps, so that whoever asked can show how far it is and stop it between two steps."""

from collections.abc import Generator
from typing import NamedTuple, TypeVar


class Progress(NamedTuple):
    """How far a piece of work is: what is being done, and the share that is done, 0 to 1."""

    said: str
    share: float


T = TypeVar("T")
Work = Generator[Progress, None, T]


def finish(work: Work[T]) -> T:
    """The answer of a piece of work, run to its end without a pause."""
    while True:
        try:
            next(work)
        except StopIteration as done:
            answer: T = done.value
            return answer
