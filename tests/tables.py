"""How expected values are written in the tables of published values."""

from typing import Any

import pytest


def printed(text: str) -> Any:
    """What a table prints: right to half a unit in its last place."""
    mantissa, _, exponent = text.lower().partition("e")
    places = len(mantissa.partition(".")[2])
    return pytest.approx(float(text), rel=0, abs=0.5 * 10.0 ** (int(exponent or 0) - places) * (1 + 1e-9))


def within(value: float, relative: float = 0.0, absolute: float = 0.0) -> Any:
    """An expected value with the tolerance that its source states."""
    return pytest.approx(value, rel=relative, abs=absolute)
