"""The one chain from what the maker says to everything that follows from it."""

from moldcalc.plan.cautions import Caution
from moldcalc.plan.chain import plan
from moldcalc.plan.results import Declared, Plan, Result

__all__ = ["Caution", "Declared", "Plan", "Result", "plan"]
