"""A panel held along its edges, as a double row of sines: for walls that bend or stretch differently up and across."""

from collections.abc import Callable
from math import pi, sin
from operator import mul
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.layup.shape import Sines, greatest, sine_load, wave
from moldcalc.units import show

#: more sines each way than this cannot be told apart at the bench
MOST = 400


class Peak(NamedTuple):
    """Greatest deflection [m], where: over the lower edge and from a side edge [m], and the deflection in the middle [m]."""

    deflection: float
    at: float
    across: float
    middle: float


def double_sines(height: float, width: float, bottom: float, top: float, resistance: Callable[[float, float], float], terms: int) -> Peak:
    """Greatest deflection, looked for up the middle, then across at that height, then up again.

    ``resistance`` of a wave up and across (their wave numbers, 1/m) is the pressure that it takes for a metre of it. [Pa/m]
    """
    if terms > MOST:
        allowed = "the wall is so thin for it that the edges are out of reach; take it as a ring or a ball"
        raise EntryError(Fault("height", show(height, "m"), allowed))
    across = [(wave(n, width), 4 / (n * pi)) for n in range(1, terms + 1, 2)]
    upward = [(wave(m, height), sine_load(bottom, top, m)) for m in range(1, terms + 1)]
    upward = [(wave, load) for wave, load in upward if load]
    sizes = [[load * share / resistance(wave, other) for other, share in across] for wave, load in upward]

    def up_at(y: float) -> Sines:
        sines = [sin(other * y) for other, _ in across]
        return Sines(height, [(wave, sum(map(mul, row, sines))) for (wave, _), row in zip(upward, sizes, strict=True)])

    def across_at(x: float) -> Sines:
        sines = [sin(wave * x) for wave, _ in upward]
        columns = zip(*sizes, strict=True)
        return Sines(width, [(other, sum(map(mul, column, sines))) for (other, _), column in zip(across, columns, strict=True)])

    half = up_at(width / 2)
    x = greatest(half.at, 0.0, height, 60)
    y = greatest(across_at(x).at, 0.0, width / 2, 30)
    line = up_at(y)
    x = greatest(line.at, 0.0, height, 60)
    return Peak(line.at(x), x, y, half.at(height / 2))
