"""What a bolt gives for the torque it gets, and how far that can be trusted."""

from math import cos, pi, radians
from typing import NamedTuple

from moldcalc.units import NOT_NEGATIVE, PART, POSITIVE, Range, door


class Torque(NamedTuple):
    """Torque by the long formula [N·m], and the nut factor that gives the same by the short one [-]."""

    torque: float
    nut_factor: float


class Preload(NamedTuple):
    """Pull of a tightened bolt: the least to count on, likely, the most to stand. [N]"""

    low: float
    likely: float
    high: float


@door(diameter="m", pitch="m", returns="m^2", possible={"diameter": POSITIVE, "pitch": POSITIVE})
def stress_area(*, diameter: float, pitch: float) -> float:
    r"""Area of a thread that a pull is reckoned on.

    .. math:: A_s = \frac{\pi}{4} \left( d - 0.938194 \, P \right)^2

    Parameters
    ----------
    diameter
        Nominal, :math:`d`. [m]
    pitch
        Of the thread, :math:`P`. [m]

    Returns
    -------
    Tensile stress area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: ISO metric threads. The area at the bottom of the thread in some tables is smaller: do not mix them.
    Source: ISO 898-1 (formula from memory; its rounded areas seen in a public table).

    Examples
    --------
    >>> print(f"{stress_area(diameter='8 mm', pitch='1.25 mm').to('mm^2').magnitude:.4f}")
    36.6085
    """
    return pi / 4 * (diameter - 0.938194 * pitch) ** 2


@door(area="m^2", proof_stress="Pa", returns="N", possible={"area": NOT_NEGATIVE, "proof_stress": POSITIVE})
def proof_load(*, area: float, proof_stress: float) -> float:
    r"""Pull that a bolt stands without staying longer.

    .. math:: F_p = A_s \, S_p

    Parameters
    ----------
    area
        Tensile stress area, :math:`A_s`. [m²]
    proof_stress
        Of its property class, :math:`S_p`. [Pa]

    Returns
    -------
    Proof load. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: coarse threads; the laminate under the washer gives way long before the bolt.
    Source: ISO 898-1, proof loads (seen in a public table).

    Examples
    --------
    >>> print(f"{proof_load(area='36.6 mm^2', proof_stress='580 MPa').magnitude:.0f}")
    21228
    """
    return area * proof_stress


@door(torque="N*m", nut_factor="", diameter="m", returns="N",
      possible={"torque": NOT_NEGATIVE, "nut_factor": POSITIVE, "diameter": POSITIVE}, holds={"nut_factor": (0.1, 0.3)})
def preload(*, torque: float, nut_factor: float, diameter: float) -> float:
    r"""Pull of a bolt that is tightened to a torque.

    .. math:: F = \frac{T}{K \, d}

    Parameters
    ----------
    torque
        On the nut, :math:`T`. [N·m]
    nut_factor
        :math:`K`: about 0.20 dry, 0.15 lightly oiled, 0.12 waxed. [-]
    diameter
        Nominal, :math:`d`. [m]

    Returns
    -------
    Preload. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: nut factors 0.1 to 0.3, each give or take 30 % (from memory): see `preload_band`. Laminate creeps, so tighten again before each pour
    (common practice).
    Source: short torque formula (textbook).

    Examples
    --------
    >>> print(f"{preload(torque='10 N*m', nut_factor=0.2, diameter='8 mm').magnitude:.0f}")
    6250
    """
    return torque / (nut_factor * diameter)


@door(torque="N*m", nut_factor="", diameter="m", scatter="", returns={"low": "N", "likely": "N", "high": "N"},
      possible={"torque": NOT_NEGATIVE, "nut_factor": POSITIVE, "diameter": POSITIVE, "scatter": PART})
def preload_band(*, torque: float, nut_factor: float, diameter: float, scatter: float) -> Preload:
    r"""Pull of a tightened bolt with the spread of its nut factor.

    .. math:: F = \frac{T}{K (1 \pm s) \, d}

    Parameters
    ----------
    torque
        On the nut, :math:`T`. [N·m]
    nut_factor
        Likely, :math:`K`. [-]
    diameter
        Nominal, :math:`d`. [m]
    scatter
        Share by which the nut factor may be off either way, :math:`s`. [-]

    Returns
    -------
    low
        To count on. [N]
    likely
        With the likely nut factor. [N]
    high
        To stand, under the washer. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: scatter 0.30 with a torque wrench (from memory).
    Source: short torque formula (textbook).

    Examples
    --------
    >>> band = preload_band(torque="4 N*m", nut_factor=0.2, diameter="6 mm", scatter=0.3)
    >>> print(f"{band.low.magnitude:.0f} to {band.high.magnitude:.0f} N, likely {band.likely.magnitude:.0f}")
    2564 to 4762 N, likely 3333
    """
    likely = torque / (nut_factor * diameter)
    return Preload(likely / (1 + scatter), likely, likely / (1 - scatter))


@door(preload="N", nut_factor="", diameter="m", returns="N*m",
      possible={"preload": NOT_NEGATIVE, "nut_factor": POSITIVE, "diameter": POSITIVE}, holds={"nut_factor": (0.1, 0.3)})
def torque_for(*, preload: float, nut_factor: float, diameter: float) -> float:
    r"""Torque that gives a pull.

    .. math:: T = K \, d \, F

    Parameters
    ----------
    preload
        Wanted, :math:`F`. [N]
    nut_factor
        :math:`K`. [-]
    diameter
        Nominal, :math:`d`. [m]

    Returns
    -------
    Torque. [N·m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as `preload`. Where a pull must not be passed, put in the LOWEST nut factor that may be met.
    Source: short torque formula (textbook).

    Examples
    --------
    >>> print(f"{torque_for(preload='6250 N', nut_factor=0.2, diameter='8 mm').magnitude:.1f}")
    10.0
    """
    return nut_factor * diameter * preload


@door(preload="N", diameter="m", pitch="m", friction="", bearing_diameter="m", bearing_friction="", returns={"torque": "N*m", "nut_factor": ""},
      possible={"preload": POSITIVE, "diameter": POSITIVE, "pitch": POSITIVE, "friction": Range(0, 1, with_low=True), "bearing_diameter": POSITIVE,
                "bearing_friction": Range(0, 1, with_low=True)})
def torque_long(*, preload: float, diameter: float, pitch: float, friction: float, bearing_diameter: float,
                bearing_friction: float | None = None) -> Torque:
    r"""Torque that gives a pull, from the friction in the thread and under the nut.

    .. math:: T = F \left[ \frac{P}{2\pi} + \frac{\mu \, d_2}{2 \cos 30°} + \frac{\mu_b \, d_w}{2} \right], \qquad d_2 = d - 0.649519 \, P

    Parameters
    ----------
    preload
        Wanted, :math:`F`. [N]
    diameter
        Nominal, :math:`d`. [m]
    pitch
        Of the thread, :math:`P`. [m]
    friction
        Coefficient in the thread, :math:`\mu`. [-]
    bearing_diameter
        Mean diameter of the ring on which the nut turns, :math:`d_w`. [m]
    bearing_friction
        Coefficient under the nut, :math:`\mu_b`; left out where it is the same as in the thread. [-]

    Returns
    -------
    torque
        :math:`T`. [N·m]
    nut_factor
        :math:`K = T/(F d)`. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: metric threads. Friction 0.10 to 0.20 gives nut factors 0.15 to 0.27: that is why the short formula scatters.
    Source: machine-element textbooks (from memory); computed.

    Examples
    --------
    >>> long = torque_long(preload="10 kN", diameter="8 mm", pitch="1.25 mm", friction=0.14, bearing_diameter="11 mm")
    >>> print(f"{long.torque.magnitude:.4f} N·m, K {long.nut_factor.magnitude:.4f}")
    15.4995 N·m, K 0.1937
    """
    under = friction if bearing_friction is None else bearing_friction
    pitch_diameter = diameter - 0.649519 * pitch
    arm = pitch / (2 * pi) + friction * pitch_diameter / (2 * cos(radians(30))) + under * bearing_diameter / 2
    return Torque(preload * arm, arm / diameter)


@door(finger_force="N", wing_span="m", returns="N*m", possible={"finger_force": NOT_NEGATIVE, "wing_span": POSITIVE})
def wing_nut_torque(*, finger_force: float, wing_span: float) -> float:
    r"""Torque that thumb and finger put on a wing nut.

    .. math:: T = P \, s

    Parameters
    ----------
    finger_force
        Of thumb and of finger, each on the tip of its wing, :math:`P`. [N]
    wing_span
        From tip to tip, :math:`s`. [m]

    Returns
    -------
    Torque. [N·m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: 30 to 80 N of each finger (common practice, no source): 1 to 3 N·m on M6. Nobody repeats it well: count on the low end.
    Source: a couple (statics).

    Examples
    --------
    >>> print(f"{wing_nut_torque(finger_force='50 N', wing_span='37 mm').magnitude:.2f}")
    1.85
    """
    return finger_force * wing_span
