"""Counts whole things, untroubled by the last digit of a float."""

from math import ceil

from moldcalc.errors import EntryError, Fault

#: more of anything than this on one job is a slip in an entry
MOST = 100_000
_CLOSE = 1e-9


def count_up(quotient: float, entry: str) -> int:
    """The least whole number that is not below a quotient; 1.05/0.15 counts 7, not 8.

    Raises
    ------
    EntryError
        More than 100 000, named by ``entry``.
    """
    if not quotient <= MOST * (1 + _CLOSE):
        raise EntryError(Fault(entry, f"{quotient:.3g}", f"it must be at most {MOST}; check the sizes"))
    above = ceil(quotient)
    below = above - 1
    return below if quotient - below <= _CLOSE * below else above


def whole(value: float, entry: str) -> int:
    """The whole number that an entry must be."""
    if value != round(value):
        raise EntryError(Fault(entry, f"{value:g}", "it must be a whole number"))
    return round(value)
