"""The flange under a bolt: crushing, edges and prying."""

from math import pi
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show

#: Edge distance and pitch of a bolted laminate in bolt diameters, and the least width: composite handbooks, from memory.
EDGE_DIAMETERS = 3.0
WIDTH_DIAMETERS = 6.0
PITCH_DIAMETERS = 4.0
HOLE_OVER_BOLT = 1.1


class PlaneJoint(NamedTuple):
    """A bolt that carries along the flange: bearing, shear-out and net tension [Pa]; edge distance, width and hole over the bolt's
    diameter [-]; whether edge and width are what handbooks ask for, and whether the hole is."""

    bearing: float
    shear_out: float
    net_tension: float
    edge_ratio: float
    width_ratio: float
    hole_ratio: float
    enough: bool
    snug: bool


class Prying(NamedTuple):
    """A flange that hinges at the shell: what the bolt takes, and what its toe presses. [N]"""

    bolt: float
    toe: float


def _ring(outside: float, hole: float) -> float:
    if hole >= outside:
        raise EntryError(Fault("hole", show(hole, "mm"), f"it must be below the washer's outside, {show(outside, 'mm')}"))
    return pi / 4 * (outside - hole) * (outside + hole)


@door(load="N", outside="m", hole="m", returns="Pa", possible={"load": NOT_NEGATIVE, "outside": POSITIVE, "hole": NOT_NEGATIVE})
def washer_pressure(*, load: float, outside: float, hole: float) -> float:
    r"""Pressure of a washer on the laminate.

    .. math:: p = \frac{4 F}{\pi (D^2 - d_h^2)}

    Parameters
    ----------
    load
        Pull of the bolt, :math:`F`. [N]
    outside
        Of the washer, :math:`D`. [m]
    hole
        In the laminate, :math:`d_h`. [m]

    Returns
    -------
    Pressure. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a hole wider than the washer.

    Notes
    -----
    Range: a washer stiff enough to press evenly; thin large ones press less at their rim.
    Source: load over area. Glass laminate stands 50 to 100 MPa through its thickness, foam of 80 kg/m³ about 1 MPa (from memory).

    Examples
    --------
    >>> print(f"{washer_pressure(load='3 kN', outside='12 mm', hole='6.6 mm').to('MPa').magnitude:.3f}")
    38.030
    """
    return load / _ring(outside, hole)


@door(outside="m", hole="m", strength="Pa", returns="N", possible={"outside": POSITIVE, "hole": NOT_NEGATIVE, "strength": POSITIVE})
def washer_limit(*, outside: float, hole: float, strength: float) -> float:
    r"""Pull of a bolt at which the laminate under its washer is crushed.

    .. math:: F = \sigma \, \frac{\pi}{4} (D^2 - d_h^2)

    Parameters
    ----------
    outside
        Of the washer, :math:`D`. [m]
    hole
        In the laminate, :math:`d_h`. [m]
    strength
        What lies under it stands through its thickness, :math:`\sigma`. [Pa]

    Returns
    -------
    Pull. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a hole wider than the washer.

    Notes
    -----
    Range: as `washer_pressure`. On foam the answer is so low that a cored flange needs solid laminate, a hard insert or a tube.
    Source: load over area.

    Examples
    --------
    >>> print(f"{washer_limit(outside='18 mm', hole='6.6 mm', strength='1 MPa').magnitude:.1f}")
    220.3
    """
    return strength * _ring(outside, hole)


@door(load="N", diameter="m", thickness="m", edge_distance="m", width="m", hole="m",
      returns={"bearing": "Pa", "shear_out": "Pa", "net_tension": "Pa", "edge_ratio": "", "width_ratio": "", "hole_ratio": ""},
      possible={"load": NOT_NEGATIVE, "diameter": POSITIVE, "thickness": POSITIVE, "edge_distance": POSITIVE, "width": POSITIVE, "hole": POSITIVE})
def plane_joint(*, load: float, diameter: float, thickness: float, edge_distance: float, width: float, hole: float) -> PlaneJoint:
    r"""Stresses round a bolt or pin that carries along the flange.

    .. math:: \sigma_b = \frac{P}{d \, t}, \qquad \tau = \frac{P}{2 \, e \, t}, \qquad \sigma_n = \frac{P}{(w - d_h) \, t}

    Parameters
    ----------
    load
        Along the flange, :math:`P`. [N]
    diameter
        Of the bolt or pin, :math:`d`. [m]
    thickness
        Of the flange, :math:`t`. [m]
    edge_distance
        From the hole's middle to the edge, along the load, :math:`e`. [m]
    width
        Of the strip that belongs to it, :math:`w`. [m]
    hole
        Its diameter, :math:`d_h`. [m]

    Returns
    -------
    bearing, shear_out, net_tension
        :math:`\sigma_b, \tau, \sigma_n`. [Pa]
    edge_ratio, width_ratio, hole_ratio
        :math:`e/d, w/d` and :math:`d_h/d`; at least 3 and 6, at most 1.1 are asked for. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a hole as wide as the strip.

    Notes
    -----
    Range: a smooth shank in the hole, no thread bearing on the laminate; a joint that is not clamped carries about half.
    Source: load over area; e/d 3 and w/d 6 from composite handbooks (from memory): published guidance is 'limited and inconsistent'
    (Mottram and Turvey 2003, abstract seen). A medium hole for M8 is 1.125 d, a little over 1.1.

    Examples
    --------
    >>> joint = plane_joint(load="2 kN", diameter="8 mm", thickness="5 mm", edge_distance="24 mm", width="48 mm", hole="9 mm")
    >>> " ".join(f"{stress.to('MPa').magnitude:.2f}" for stress in joint[:3])
    '50.00 8.33 10.26'
    """
    if hole >= width:
        raise EntryError(Fault("hole", show(hole, "mm"), f"it must be below the strip's width, {show(width, 'mm')}"))
    edges, widths = edge_distance / diameter, width / diameter
    enough = edges >= EDGE_DIAMETERS * (1 - 1e-9) and widths >= WIDTH_DIAMETERS * (1 - 1e-9)
    return PlaneJoint(load / (diameter * thickness), load / (2 * edge_distance * thickness), load / ((width - hole) * thickness),
                      edges, widths, hole / diameter, enough, hole <= HOLE_OVER_BOLT * diameter * (1 + 1e-9))


@door(load="N", line_to_bolt="m", bolt_to_toe="m", returns={"bolt": "N", "toe": "N"},
      possible={"load": NOT_NEGATIVE, "line_to_bolt": NOT_NEGATIVE, "bolt_to_toe": POSITIVE})
def prying(*, load: float, line_to_bolt: float, bolt_to_toe: float) -> Prying:
    r"""What a bolt takes when the flange levers on its own toe.

    .. math:: T = F \left( 1 + \frac{m}{n} \right), \qquad Q = F \, \frac{m}{n}

    Parameters
    ----------
    load
        That opens the joint at this bolt, :math:`F`. [N]
    line_to_bolt
        From where the wall pulls to the bolt's middle, :math:`m`. [m]
    bolt_to_toe
        From the bolt's middle to the flange's outer edge, :math:`n`. [m]

    Returns
    -------
    bolt
        Pull of the bolt, :math:`T`. [N]
    toe
        Pressure of the toe, :math:`Q`. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a thin flange that hinges at its root: on the heavy side. Bolts close to the shell and a wide toe take less.
    Source: a lever (statics).

    Examples
    --------
    >>> pry = prying(load="500 N", line_to_bolt="30 mm", bolt_to_toe="20 mm")
    >>> print(f"{pry.bolt.magnitude:.0f} {pry.toe.magnitude:.0f}")
    1250 750
    """
    toe = load * (line_to_bolt / bolt_to_toe)
    return Prying(load + toe, toe)
