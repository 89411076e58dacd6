"""Standard gravity, where it was found before the pressure of a poured cast moved to handling."""

from moldcalc.stages.handling.pressure import GRAVITY

__all__ = ["GRAVITY"]
