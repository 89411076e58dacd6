"""What a curved panel of the shell gives: curvature makes it stretch before it bends."""

from math import ceil, pi
from typing import Any, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.layup.navier import double_sines
from moldcalc.stages.layup.panels import OUTLINE, OUTLINE_POSSIBLE, linear_theory
from moldcalc.units import ANY, POSITIVE, door

#: sagitta over chord beyond which a panel is no longer shallow
SHALLOW = 0.2


class Curved(NamedTuple):
    """What a curved panel gives.

    Greatest deflection [m], where it is over the lower edge and from a side edge [m], in the middle [m], the same panel flat
    [m], how many times less the curved one gives [-], deflection over half the thickness [-] and whether that is at most 1,
    rise over chord [-] and whether the panel is shallow enough for the formula.
    """

    deflection: float
    at: float
    from_side: float
    middle: float
    flat: float
    gain: float
    over_limit: float
    linear: bool
    rise: float
    shallow: bool


ENTRIES: dict[str, Any] = {**OUTLINE, "radius_across": "m", "radius_up": "m", "stiffness": "N*m", "stretch_stiffness": "N/m",
                           "thickness": "m", "shear_stiffness": "N/m"}


def curvature(radius: float | None, entry: str) -> float:
    """1/R, 0 for a flat direction."""
    if radius is None:
        return 0.0
    if radius == 0:
        raise EntryError(Fault(entry, "0 m", "leave it out for a wall that is flat that way"))
    return 1 / radius


def sines_for(stiffness: float, stretch: float, bend: float, height: float, width: float) -> int:
    """Sines that reach four times past the wave at which bending takes over from stretching."""
    turn = (stretch / stiffness * bend * bend) ** 0.25
    return max(41, ceil(min(4 * turn * max(height, width) / pi, 1e6)) | 1)


@door(**ENTRIES, returns={"deflection": "m", "at": "m", "from_side": "m", "middle": "m", "flat": "m", "gain": "", "over_limit": "", "rise": ""},
      possible={**OUTLINE_POSSIBLE, "radius_across": ANY, "radius_up": ANY, "stiffness": POSITIVE, "stretch_stiffness": POSITIVE,
                "thickness": POSITIVE, "shear_stiffness": POSITIVE})
def curved_panel(*, height: float, width: float, bottom_pressure: float, top_pressure: float, stiffness: float, stretch_stiffness: float,
                 thickness: float, radius_across: float | None = None, radius_up: float | None = None,
                 shear_stiffness: float | None = None) -> Curved:
    r"""Shallow curved panel with liquid behind it, its edges held in place and free to turn.

    .. math:: w = \sum_{m, n} \frac{q_{mn}}{D'' k^4 + E t \, \left( \kappa_a \, \alpha^2 + \kappa_u \, \beta^2 \right)^2 / k^4}
              \sin \alpha x \sin \beta y, \qquad k^2 = \alpha^2 + \beta^2, \; D'' = \frac{D'}{1 + D' k^2 / S}

    Parameters
    ----------
    height, width
        Of the panel, chords, x up and y across; :math:`\alpha = m \pi / H, \beta = n \pi / W`. [m]
    bottom_pressure, top_pressure
        Along its lower and upper edge, even between them. [Pa]
    stiffness
        Bending, as a PLATE, for a metre of width, :math:`D'`. [N·m]
    stretch_stiffness
        Modulus times thickness of the facings together, :math:`E t`. [N/m]
    thickness
        Of the whole wall. [m]
    radius_across, radius_up
        Of its curve across and up, :math:`1/\kappa_a, 1/\kappa_u`; left out where it is flat, of opposite signs for a saddle. [m]
    shear_stiffness
        For a metre of width, :math:`S`; left out for a solid laminate. [N/m]

    Returns
    -------
    deflection, at, from_side
        Greatest, and where it is: over the lower edge and from a side edge. [m]
    middle
        In the middle of the panel. [m]
    flat
        What the same panel would give flat. [m]
    gain
        How many times less the curved one gives. [-]
    over_limit, linear
        Deflection over half the thickness [-]; whether that is at most 1.
    rise, shallow
        Greatest rise over chord [-]; whether that is at most 0.2.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a wall so thin for its size that its edges
        are out of reach.

    Notes
    -----
    Range: rise up to a fifth of the chord. The edges may slide along the surface, so that the curve's pull has nothing to
    hang on there, and a barrel gives most beside its straight edges: the cautious answer. Where the next section takes the
    pull over the joint, as all round a closed shell, `closed_ring` is nearer; the truth lies between. A saddle that curves
    alike both ways gains nothing on a square. Pressure from inside only: pressed from outside, a curved wall may snap through.
    Source: shallow shell theory (Donnell, Marguerre, Vlasov; from memory), computed.

    Examples
    --------
    A solid 5 mm panel of 500 mm, flat and on a radius of 500 mm:

    >>> from moldcalc.units import Q
    >>> w = curved_panel(height=Q(500, "mm"), width=Q(500, "mm"), bottom_pressure=Q(15690.6, "Pa"), top_pressure=Q(15690.6, "Pa"),
    ...                  stiffness=Q(73.2601, "N*m"), stretch_stiffness=Q(3.2e7, "N/m"), thickness=Q(5, "mm"),
    ...                  radius_across=Q(500, "mm"))
    >>> print(f"{w.flat.to('mm'):.1f~P} flat, {w.deflection.to('mm'):.2f~P} curved", w.linear)
    54.4 mm flat, 1.03 mm curved True
    """
    across, up = curvature(radius_across, "radius across"), curvature(radius_up, "radius up")
    give = 0.0 if shear_stiffness is None else stiffness / shear_stiffness

    def bent(alpha: float, beta: float) -> float:
        k2 = alpha * alpha + beta * beta
        return stiffness * k2 * k2 / (1 + give * k2)

    def stretched(alpha: float, beta: float) -> float:
        pull = (across * alpha * alpha + up * beta * beta) / (alpha * alpha + beta * beta)
        return stretch_stiffness * pull * pull

    terms = sines_for(stiffness, stretch_stiffness, max(abs(across), abs(up)), height, width)
    flat = double_sines(height, width, bottom_pressure, top_pressure, bent, 41).deflection
    peak = double_sines(height, width, bottom_pressure, top_pressure, lambda a, b: bent(a, b) + stretched(a, b), terms)
    over = linear_theory.si(deflection=peak.deflection, thickness=thickness)
    rise = max(abs(across) * width, abs(up) * height) / 8
    gain = flat / peak.deflection if peak.deflection else 1.0
    return Curved(peak.deflection, peak.at, peak.across, peak.middle, flat, gain, over.over_limit, over.linear, rise, rise <= SHALLOW)
