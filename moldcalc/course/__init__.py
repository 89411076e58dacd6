"""Questions with checked answers, and figures that teach."""

from moldcalc.course.checking import check
from moldcalc.course.figures import speed_figure

__all__ = ["check", "speed_figure"]
