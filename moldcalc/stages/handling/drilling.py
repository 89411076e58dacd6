"""Where the bolts of a joint go: closer low down, where the liquid pulls more."""

from bisect import bisect_left
from collections.abc import Callable
from itertools import pairwise
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.bands import MOST_BOLTS
from moldcalc.stages.handling.flange import PITCH_DIAMETERS
from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.stages.handling.spacing import spacing_for_gap
from moldcalc.stages.mixing.counting import count_up
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show

_STEPS = 400


class Hole(NamedTuple):
    """One hole of a joint: its number from the joint's low end, how far along the joint from that end [m], its height [m], its
    diameter [m], the pull of the liquid on it and the same with prying [N], and how far it is to the next one [m], none at the last."""

    number: int
    position: float
    height: float
    diameter: float
    pull: float
    load: float
    to_next: float | None


class _Joint(NamedTuple):
    """A straight joint with liquid beside it, seen from its low end."""

    length: float
    low: float
    high: float
    level: float
    weight: float

    def height(self, along: float) -> float:
        return self.low + (self.high - self.low) * (along / self.length)

    def line_load(self, along: float) -> float:
        return self.weight * max(0.0, self.level - self.height(along))

    def pull(self, start: float, end: float) -> float:
        """Of the liquid on a stretch of it: the line load is straight, so its mean over the wet part is exact."""
        wet, rise = end, self.high - self.low
        if rise > 0 and self.height(end) > self.level:
            wet = min(end, max(start, self.length * ((self.level - self.low) / rise)))
        return (self.line_load(start) + self.line_load(wet)) / 2 * (wet - start)


@door(length="m", z_low="m", z_high="m", level="m", density="kg/m^3", width="m", bolt_capacity="N", line_to_bolt="m", bolt_to_toe="m",
      largest_spacing="m", end_distance="m", bolt_diameter="m", hole_diameter="m", gap="m", flange_width="m", flange_thickness="m",
      flange_modulus="Pa", returns=None,
      possible={"length": POSITIVE, "level": NOT_NEGATIVE, "z_low": NOT_NEGATIVE, "z_high": NOT_NEGATIVE, "density": POSITIVE, "width": NOT_NEGATIVE,
                "bolt_capacity": POSITIVE, "line_to_bolt": NOT_NEGATIVE, "bolt_to_toe": POSITIVE, "largest_spacing": POSITIVE,
                "end_distance": NOT_NEGATIVE, "bolt_diameter": POSITIVE, "hole_diameter": POSITIVE, "gap": POSITIVE, "flange_width": POSITIVE,
                "flange_thickness": POSITIVE, "flange_modulus": POSITIVE})
def drilling_list(*, length: float, z_low: float, z_high: float, level: float, density: float, width: float, bolt_capacity: float,
                  line_to_bolt: float, bolt_to_toe: float, largest_spacing: float, end_distance: float, bolt_diameter: float,
                  hole_diameter: float, gap: float | None = None, flange_width: float | None = None, flange_thickness: float | None = None,
                  flange_modulus: float | None = None) -> list[Hole]:
    r"""Holes along one joint, measured from its low end, closer together where the liquid pulls more.

    .. math:: s(z) = \min \left( s_0, \; \frac{F}{q \, (1 + m/n)}, \; \left( \frac{384 \, E I \, g}{5 \, q} \right)^{1/4} \right), \qquad
              q = \frac{\rho \, g \, b \, (z_l - z)}{2}

    Parameters
    ----------
    length
        Of the joint, measured along it. [m]
    z_low, z_high
        Heights of its two ends in the casting position; the same for a joint that lies level. [m]
    level
        Of the liquid's surface, :math:`z_l`. [m]
    density
        Of the liquid mix, :math:`\rho`. [kg/m³]
    width
        Of the liquid between the two flanges that share the load, seen along the pull, :math:`b`. [m]
    bolt_capacity
        Pull that one bolt may be counted on for, :math:`F`. [N]
    line_to_bolt, bolt_to_toe
        From the wall's line of pull to the bolts, and from them to the flange's outer edge, :math:`m, n`. [m]
    largest_spacing
        Where hardly anything pulls, :math:`s_0`. [m]
    end_distance
        From each end of the joint to its first bolt. [m]
    bolt_diameter
        Bolts stand at least four of it apart. [m]
    hole_diameter
        To be drilled. [m]
    gap
        Opening half-way between two bolts that is accepted for one flange, :math:`g`; left out where it is not looked at. [m]
    flange_width, flange_thickness
        Of the solid flange, for the gap. [m]
    flange_modulus
        Along the joint, for the gap, :math:`E`. [Pa]

    Returns
    -------
    Holes, the lowest first, in SI: `Hole`.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; ends the wrong way round; bolts that would have to
        stand closer than four diameters; more than 1000 of them.

    Notes
    -----
    Range: a joint that rises evenly from end to end (cut a winding one into stretches), full liquid head, flange that hinges at its root.
    Spacing 100 to 150 mm for soft casts, 75 to 100 mm for heavy pours, one bolt within 30 to 40 mm of each end and corner (common practice).
    Source: each bolt takes its stretch of the line load (computed).

    Examples
    --------
    >>> holes = drilling_list(length="1.8 m", z_low="0 m", z_high="1.8 m", level="1.8 m", density="1600 kg/m^3", width="600 mm",
    ...     bolt_capacity="1.5 kN", line_to_bolt="25 mm", bolt_to_toe="25 mm", largest_spacing="150 mm", end_distance="35 mm",
    ...     bolt_diameter="8 mm", hole_diameter="9 mm")
    >>> print(len(holes), [round(1000 * hole.position) for hole in holes][:4], round(holes[0].load))
    15 [35, 121, 213, 309] 1297
    """
    if z_high < z_low:
        raise EntryError(Fault("z high", show(z_high, "m"), f"it must be at least z low, {show(z_low, 'm')}"))
    joint = _Joint(length, z_low, z_high, level, density * GRAVITY * width / 2)
    lever = 1 + line_to_bolt / bolt_to_toe
    flange = _flange(gap, flange_width, flange_thickness, flange_modulus)
    first, last = min(end_distance, length / 2), max(length - end_distance, length / 2)
    least = PITCH_DIAMETERS * bolt_diameter
    if last - first < least:
        return _strong_enough(_holes(joint, [length / 2], lever, hole_diameter), bolt_capacity)
    share = _shares(joint, first, last, lambda q: _allowed(q, bolt_capacity / lever, largest_spacing, flange))
    gaps = count_up(share[-1], "number of bolts")
    while gaps < MOST_BOLTS:
        holes = _holes(joint, _positions(share, first, last, gaps), lever, hole_diameter)
        if min(hole.to_next for hole in holes if hole.to_next is not None) < least * (1 - 1e-9):
            break
        if max(hole.load for hole in holes) <= bolt_capacity * (1 + 1e-9):
            return holes
        gaps += max(1, gaps // 20)
    raise _too_many(bolt_capacity)


def _too_many(capacity: float) -> EntryError:
    return EntryError(Fault("bolt capacity", show(capacity, "N"), "bolts would stand closer than four diameters or number over 1000; "
                            "take a bigger bolt, a stiffer flange, or pour in lifts"))


def _strong_enough(holes: list[Hole], capacity: float) -> list[Hole]:
    if holes[0].load > capacity * (1 + 1e-9):
        raise _too_many(capacity)
    return holes


def _flange(gap: float | None, width: float | None, thickness: float | None, modulus: float | None) -> dict[str, float] | None:
    if gap is None:
        return None
    if width is None or thickness is None or modulus is None:
        raise EntryError(Fault("gap", show(gap, "mm"), "give the flange's width, thickness and modulus with it"))
    return {"gap": gap, "width": width, "thickness": thickness, "modulus": modulus}


def _allowed(line_load: float, capacity: float, largest: float, flange: dict[str, float] | None) -> float:
    """Spacing that a line load allows."""
    if line_load <= 0:
        return largest
    opened = float(spacing_for_gap.si(line_load=line_load, **flange).hinged) if flange else largest
    return min(largest, capacity / line_load, opened)


def _shares(joint: _Joint, first: float, last: float, allowed: Callable[[float], float]) -> list[float]:
    """How many spacings fit up to each step along the joint."""
    step = (last - first) / _STEPS
    rate = [1 / allowed(joint.line_load(first + i * step)) for i in range(_STEPS + 1)]
    total = [0.0]
    for before, after in pairwise(rate):
        total.append(total[-1] + (before + after) / 2 * step)
    return total


def _positions(share: list[float], first: float, last: float, gaps: int) -> list[float]:
    """Where each whole part of the spacings is used up."""
    step = (last - first) / _STEPS
    found = [first]
    for i in range(1, gaps):
        wanted = share[-1] * i / gaps
        after = min(max(bisect_left(share, wanted), 1), _STEPS)
        grown = share[after] - share[after - 1]
        part = (wanted - share[after - 1]) / grown if grown else 0.5
        found.append(first + (after - 1 + part) * step)
    return [*found, last]


def _holes(joint: _Joint, positions: list[float], lever: float, diameter: float) -> list[Hole]:
    """Each bolt takes the joint to half-way to its neighbours, the outer ones to the joint's ends."""
    edges = [0.0, *((a + b) / 2 for a, b in pairwise(positions)), joint.length]
    holes = []
    for i, at in enumerate(positions):
        pull = joint.pull(edges[i], edges[i + 1])
        to_next = positions[i + 1] - at if i + 1 < len(positions) else None
        holes.append(Hole(i + 1, at, joint.height(at), diameter, pull, pull * lever, to_next))
    return holes
