"""Legs anywhere under the mold: over which edge it tips first, what each leg carries, and what rocking does to that."""

from math import atan2, hypot
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.units import POSITIVE, door

_MOST = 200
#: feet nearer to one line than this share of their spread stand on it
_LINE = 1e-9


class Edge(NamedTuple):
    """An edge between two feet, by their numbers from 0: from under the centre of mass to it [m], and the lean over it [rad]."""

    start: int
    end: int
    lever: float
    angle: float


class Tipping(NamedTuple):
    """The edge that gives way first, its lever [m] and lean [rad]; all edges, in order round the feet; and whether it stands at all."""

    lever: float
    angle: float
    edges: tuple[Edge, ...]
    stands: bool


class Rocking(NamedTuple):
    """Four legs on an uneven floor: what each carries when it rocks on one diagonal, on the other, and the worst of each. [N]"""

    one: tuple[float, ...]
    other: tuple[float, ...]
    worst: tuple[float, ...]


def _feet(x: list[float], y: list[float], least: int, most: int) -> list[tuple[float, float]]:
    if len(x) != len(y):
        raise EntryError(Fault("x", f"{len(x)} values beside {len(y)} y", "give one of each for every leg"))
    if not least <= len(x) <= most:
        raise EntryError(Fault("x", f"{len(x)} legs", f"give {least}" if least == most else f"give {least} to {most}"))
    return list(zip(x, y, strict=True))


def _cross(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _spread(feet: list[tuple[float, float]]) -> float:
    return max(max(f[i] for f in feet) - min(f[i] for f in feet) for i in (0, 1))


def outline(feet: list[tuple[float, float]]) -> list[int]:
    """Numbers of the feet on the support polygon, counterclockwise."""
    order = sorted(range(len(feet)), key=lambda i: feet[i])
    slack = _LINE * _spread(feet) ** 2
    chains = []
    for run in (order, order[::-1]):
        chain: list[int] = []
        for i in run:
            while len(chain) > 1 and _cross(feet[chain[-2]], feet[chain[-1]], feet[i]) <= slack:
                chain.pop()
            chain.append(i)
        chains.append(chain[:-1])
    ring = chains[0] + chains[1]
    if len(ring) < 3:
        raise EntryError(Fault("x", "feet on one line", "give three that are not"))
    return ring


@door(x="m[]", y="m[]", centre_x="m", centre_y="m", centre_height="m", returns={"lever": "m", "angle": "rad"}, possible={"centre_height": POSITIVE})
def tipping(*, x: list[float], y: list[float], centre_x: float, centre_y: float, centre_height: float) -> Tipping:
    r"""Over which edge a mold on its legs tips first, and how far it may lean.

    .. math:: \theta = \min_i \arctan \frac{b_i}{h}

    Parameters
    ----------
    x, y
        Of each foot on the floor. [m]
    centre_x, centre_y
        Under the centre of mass, on the floor. [m]
    centre_height
        Of the centre of mass over the floor, :math:`h`. [m]

    Returns
    -------
    lever
        To the edge that gives way first, :math:`b`; below 0 the centre of mass is outside the feet. [m]
    angle
        Lean over it. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; fewer than 3 legs or more than 200, feet on one line.

    Notes
    -----
    Range: stiff legs that do not slip. Feet inside the others' outline do not help against tipping.
    Source: statics.

    Examples
    --------
    >>> found = tipping(x=["-300 mm", "300 mm", "300 mm", "-300 mm"], y=["-200 mm", "-200 mm", "200 mm", "200 mm"], centre_x="0 m",
    ...                 centre_y="50 mm", centre_height="500 mm")
    >>> print(f"{found.lever.to('mm').magnitude:.0f} mm, {found.angle.to('degree').magnitude:.1f}°")
    150 mm, 16.7°
    """
    feet = _feet(x, y, 3, _MOST)
    ring = outline(feet)
    centre = (centre_x, centre_y)
    edges = []
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        lever = _cross(feet[a], feet[b], centre) / hypot(feet[b][0] - feet[a][0], feet[b][1] - feet[a][1])
        edges.append(Edge(a, b, lever, atan2(lever, centre_height)))
    first = min(edges, key=lambda edge: edge.lever)
    return Tipping(first.lever, first.angle, tuple(edges), first.lever > 0)


@door(x="m[]", y="m[]", mass="kg", centre_x="m", centre_y="m", returns="N[]", possible={"mass": POSITIVE})
def leg_loads(*, x: list[float], y: list[float], mass: float, centre_x: float, centre_y: float) -> list[float]:
    r"""What each leg carries: by statics alone for three, as if on alike springs for more.

    .. math:: F_i = a + b x_i + c y_i, \qquad \sum F_i = m g, \quad \sum F_i x_i = m g \, x_c, \quad \sum F_i y_i = m g \, y_c

    Parameters
    ----------
    x, y
        Of each foot on the floor. [m]
    mass
        That stands on them, :math:`m`. [kg]
    centre_x, centre_y
        Under the centre of mass, :math:`x_c, y_c`. [m]

    Returns
    -------
    On each leg; below 0 it would have to be held down. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; fewer than 3 legs or more than 200, feet on one line.

    Notes
    -----
    Range: three legs exactly; more only on an even floor, since stiff legs rock: see `rocking_loads`.
    Source: statics; for more than three the smallest sum of squares that balances (a stiff body on alike springs).

    Examples
    --------
    >>> loads = leg_loads(x=["0 m", "1 m", "0 m"], y=["0 m", "0 m", "1 m"], mass="40 kg", centre_x="0.25 m", centre_y="0.25 m")
    >>> print(" ".join(f"{load.magnitude:.1f}" for load in loads))
    196.1 98.1 98.1
    """
    feet = _feet(x, y, 3, _MOST)
    outline(feet)
    weight, number = mass * GRAVITY, len(feet)
    middle = (sum(x) / number, sum(y) / number)
    u, v = [f[0] - middle[0] for f in feet], [f[1] - middle[1] for f in feet]
    uu, vv, uv = sum(a * a for a in u), sum(b * b for b in v), sum(a * b for a, b in zip(u, v, strict=True))
    p, q = centre_x - middle[0], centre_y - middle[1]
    det = uu * vv - uv * uv
    b, c = (p * vv - q * uv) / det, (q * uu - p * uv) / det
    return [weight * (1 / number + b * a + c * d) for a, d in zip(u, v, strict=True)]


@door(x="m[]", y="m[]", mass="kg", centre_x="m", centre_y="m", returns=None, possible={"mass": POSITIVE})
def rocking_loads(*, x: list[float], y: list[float], mass: float, centre_x: float, centre_y: float) -> Rocking:
    r"""What four stiff legs carry on an uneven floor, where one of them can hang in the air.

    .. math:: F = F_0 + t \, k, \qquad \sum k_i = \sum k_i x_i = \sum k_i y_i = 0, \quad F_i \ge 0

    Parameters
    ----------
    x, y
        Of each of the four feet on the floor. [m]
    mass
        That stands on them, :math:`m`. [kg]
    centre_x, centre_y
        Under the centre of mass. [m]

    Returns
    -------
    In newtons: `Rocking`.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not four legs, one inside the others' outline, or a
        centre of mass outside them.

    Notes
    -----
    Range: stiff legs. A square with its load in the middle puts half the weight on each leg of a diagonal: reckon each leg with that, and
    shim the short one.
    Source: statics: the two ends of all that balance allows.

    Examples
    --------
    >>> found = rocking_loads(x=["0 m", "1 m", "1 m", "0 m"], y=["0 m", "0 m", "1 m", "1 m"], mass="40 kg", centre_x="0.5 m", centre_y="0.5 m")
    >>> [round(load, 1) for load in found.worst]
    [196.1, 196.1, 196.1, 196.1]
    """
    feet = _feet(x, y, 4, 4)
    ring = outline(feet)
    if len(ring) < 4:
        raise EntryError(Fault("x", "four feet with one inside, or on a line of, the others", "give four that stand at corners"))
    even = leg_loads.si(x=x, y=y, mass=mass, centre_x=centre_x, centre_y=centre_y)
    # the areas of the triangles that leave one foot out, with signs that take turns, move no force and no moment
    twist = [0.0] * 4
    for place, foot in enumerate(ring):
        a, b, c = (feet[ring[(place + i) % 4]] for i in (1, 2, 3))
        twist[foot] = (1 if place % 2 else -1) * _cross(a, b, c)
    low = max(-even[i] / twist[i] for i in range(4) if twist[i] > 0)
    high = min(-even[i] / twist[i] for i in range(4) if twist[i] < 0)
    if low > high * (1 + 1e-12) + 1e-12 * abs(low):
        raise EntryError(Fault("centre x", f"{centre_x:.4g} m, with y {centre_y:.4g} m", "the centre of mass must stand inside the feet"))
    one, other = (tuple(load + end * part for load, part in zip(even, twist, strict=True)) for end in (low, high))
    return Rocking(one, other, tuple(max(pair) for pair in zip(one, other, strict=True)))
