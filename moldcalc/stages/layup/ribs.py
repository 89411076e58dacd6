"""Ribs over a wall: a half-round former under glass, as a beam with the strip of wall under it."""

from math import inf, pi
from typing import Any, NamedTuple

from moldcalc.stages.layup.navier import Peak, double_sines
from moldcalc.stages.layup.panels import OUTLINE, OUTLINE_POSSIBLE
from moldcalc.stages.layup.shape import Shape, greatest, supported_shape
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


class Rib(NamedTuple):
    """A rib with its strip of wall.

    Bending stiffness [N·m²] and the same over the spacing [N·m]; the axis where nothing stretches, over the wall's middle [m];
    glass and former in a metre of it, sections [m²].
    """

    stiffness: float
    smeared: float
    axis: float
    glass_area: float
    former_area: float


class Ribbed(NamedTuple):
    """A ribbed panel: the bay between two ribs, the ribs, and both. [m]"""

    bay: float
    rib: float
    deflection: float


class _Part(NamedTuple):
    stretch: float
    middle: float
    own: float


def _half_round(modulus: float, inner: float, outer: float, foot: float) -> _Part:
    """Half a ring (or half a disc) on a base at a height: E A, the middle of its area, E I about that."""
    area = pi / 2 * (outer * outer - inner * inner)
    over_base = 2 / 3 * (outer**3 - inner**3) / area
    own = pi / 8 * (outer**4 - inner**4) - area * over_base * over_base
    return _Part(modulus * area, foot + over_base, modulus * own)


@door(spacing="m", radius="m", glass_thickness="m", glass_modulus="Pa", former_modulus="Pa", wall_stiffness="N*m", wall_stretch="N/m",
      wall_thickness="m", strip_width="m", returns={"stiffness": "N*m^2", "smeared": "N*m", "axis": "m", "glass_area": "m^2", "former_area": "m^2"},
      possible={"spacing": POSITIVE, "radius": POSITIVE, "glass_thickness": POSITIVE, "glass_modulus": POSITIVE, "former_modulus": NOT_NEGATIVE,
                "wall_stiffness": POSITIVE, "wall_stretch": POSITIVE, "wall_thickness": POSITIVE, "strip_width": POSITIVE})
def rib_section(*, spacing: float, radius: float, glass_thickness: float, glass_modulus: float, former_modulus: float,
                wall_stiffness: float, wall_stretch: float, wall_thickness: float, strip_width: float) -> Rib:
    r"""Bending stiffness of a half-round rib together with the strip of wall that works with it.

    .. math:: EI = \sum \left( E_i I_i + E_i A_i (z_i - \bar{z})^2 \right), \qquad \bar{z} = \frac{\sum E_i A_i z_i}{\sum E_i A_i}

    Parameters
    ----------
    spacing
        From rib to rib. [m]
    radius
        Of the half-round former. [m]
    glass_thickness
        Of the laminate over it. [m]
    glass_modulus, former_modulus
        Of that laminate and of the former; a former of 0 only holds the shape. [Pa]
    wall_stiffness
        Bending, as a beam, for a metre of width. [N·m]
    wall_stretch
        Modulus times thickness of the wall's facings together. [N/m]
    wall_thickness
        Of the whole wall. [m]
    strip_width
        Of wall that works with the rib; the spacing where that is less. [m]

    Returns
    -------
    stiffness
        Of one rib. [N·m²]
    smeared
        The same over the spacing. [N·m]
    axis
        Where nothing stretches, over the middle of the wall. [m]
    glass_area, former_area
        Of the rib's cross-section. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a rib bonded all along. A strip of the rib's foot and twenty wall thicknesses is common practice, no source. A rib
    prints through unless the laminate under it has cured first (common practice).
    Source: transformed section about its own axis, beam theory (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> rib = rib_section(spacing=Q(300, "mm"), radius=Q(20, "mm"), glass_thickness=Q(2, "mm"), glass_modulus=Q(6.4, "GPa"),
    ...                   former_modulus=Q(0, "Pa"), wall_stiffness=Q(66.67, "N*m"), wall_stretch=Q(3.2e7, "N/m"),
    ...                   wall_thickness=Q(5, "mm"), strip_width=Q(144, "mm"))
    >>> print(f"{rib.stiffness.magnitude:.0f} N·m², axis {rib.axis.to('mm'):.1f~P} up")
    225 N·m², axis 2.5 mm up
    """
    width = min(strip_width, spacing)
    foot, outer = wall_thickness / 2, radius + glass_thickness
    found = [_Part(wall_stretch * width, 0.0, wall_stiffness * width), _half_round(glass_modulus, radius, outer, foot),
             _half_round(former_modulus, 0.0, radius, foot)]
    axis = sum(part.stretch * part.middle for part in found) / sum(part.stretch for part in found)
    stiffness = sum(part.own + part.stretch * (part.middle - axis) ** 2 for part in found)
    return Rib(stiffness, stiffness / spacing, axis, pi / 2 * (outer * outer - radius * radius), pi / 2 * radius * radius)


def bay_shape(height: float, spacing: float, bottom: float, top: float) -> Shape:
    """The wall between two ribs that run up: held fast along them, since the next bay pulls the other way, free to turn at its ends."""
    return supported_shape(height, spacing, bottom, top, 0.0, fast_sides=True, moments=False)


def rib_shape(height: float, bottom: float, top: float) -> Shape:
    """A rib on two supports under the pressure of one bay."""
    return supported_shape(height, inf, bottom, top, 0.0, moments=False)


def fast_rib_shape(height: float, bottom: float, top: float) -> Shape:
    """A rib held fast at both ends: (1 - x²)² (mean/24 + slope x/120), x from -1 to 1, solves it."""
    mean, slope = (bottom + top) / 2, (top - bottom) / 2

    def bent(x: float) -> float:
        return (1 - x * x) ** 2 * (mean / 24 + slope * x / 120)

    place = greatest(bent, -1.0, 1.0) if slope else 0.0
    return Shape(bent(place) * (height / 2) ** 4, 0.0, (place + 1) * height / 2, 0.0, 0.0)


ENTRIES: dict[str, Any] = {"height": "m", "spacing": "m", "bottom_pressure": "Pa", "top_pressure": "Pa", "stiffness": "N*m", "smeared": "N*m",
                           "shear_stiffness": "N/m"}
POSSIBLE = {"height": POSITIVE, "spacing": POSITIVE, "bottom_pressure": NOT_NEGATIVE, "top_pressure": NOT_NEGATIVE, "stiffness": POSITIVE,
            "smeared": POSITIVE, "shear_stiffness": POSITIVE}


@door(**ENTRIES, returns=dict.fromkeys(Ribbed._fields, "m"), possible=POSSIBLE)
def ribbed_panel(*, height: float, spacing: float, bottom_pressure: float, top_pressure: float, stiffness: float, smeared: float,
                 shear_stiffness: float | None = None) -> Ribbed:
    r"""Flat panel with ribs that run up from edge to edge: the bay between two ribs, and the ribs as beams.

    .. math:: w = w_\mathrm{bay} + w_\mathrm{rib}

    Parameters
    ----------
    height
        Of the panel, the ribs' span. [m]
    spacing
        From rib to rib. [m]
    bottom_pressure, top_pressure
        Along its lower and upper edge, even between them. [Pa]
    stiffness
        Bending, as a plate, of the wall between the ribs. [N·m]
    smeared
        A rib's stiffness over the spacing. [N·m]
    shear_stiffness
        Of the wall's core; left out for a solid laminate. [N/m]

    Returns
    -------
    bay
        The wall between two ribs, against the ribs. [m]
    rib
        The ribs, against the panel's ends. [m]
    deflection
        Both together. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: ribs at even distances, several bays side by side; an outermost bay beside a weak edge gives more. Ends free to
    turn. Side edges help the ribs in the middle, which is left out. Up to half the thickness, see `linear_theory`, for the bay.
    Source: plate and beam theory, the greatest of each added (an upper bound); common practice.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = ribbed_panel(height=Q(1, "m"), spacing=Q(300, "mm"), bottom_pressure=Q(10, "kPa"), top_pressure=Q(10, "kPa"),
    ...                  stiffness=Q(73.26, "N*m"), smeared=Q(5000, "N*m"))
    >>> print(f"{w.bay.to('mm'):.2f~P} + {w.rib.to('mm'):.2f~P}")
    2.89 mm + 26.04 mm
    """
    bay = bay_shape(height, spacing, bottom_pressure, top_pressure)
    within = bay.bending / stiffness + (0.0 if shear_stiffness is None else bay.shear / shear_stiffness)
    beam = rib_shape(height, bottom_pressure, top_pressure).bending / smeared
    return Ribbed(within, beam, within + beam)


TWO_WAYS: dict[str, Any] = {**OUTLINE, "stiffness_up": "N*m", "stiffness_across": "N*m", "twist_stiffness": "N*m"}


@door(**TWO_WAYS, returns={"deflection": "m", "at": "m", "across": "m", "middle": "m"},
      possible={**OUTLINE_POSSIBLE, "stiffness_up": POSITIVE, "stiffness_across": POSITIVE, "twist_stiffness": POSITIVE})
def two_way_panel(*, height: float, width: float, bottom_pressure: float, top_pressure: float, stiffness_up: float, stiffness_across: float,
                  twist_stiffness: float) -> Peak:
    r"""Flat panel that is stiffer one way than the other, held along its edges: smeared ribs, or a laminate laid one way.

    .. math:: w = \sum_{m, n} \frac{q_{mn}}{D_u \alpha^4 + 2 H \alpha^2 \beta^2 + D_a \beta^4} \sin \alpha x \sin \beta y

    Parameters
    ----------
    height, width
        Of the panel, x up and y across. [m]
    bottom_pressure, top_pressure
        Along its lower and upper edge, even between them. [Pa]
    stiffness_up, stiffness_across
        Bending, for a metre, :math:`D_u, D_a`: with ribs that run up, the smeared stiffness and the wall's. [N·m]
    twist_stiffness
        :math:`H = D_{12} + 2 D_{66}`: with ribs, the wall's own stiffness as a plate. [N·m]

    Returns
    -------
    deflection, middle
        Greatest, and in the middle. [m]
    at, across
        Where the greatest is: over the lower edge and from a side edge. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: three ribs or more, whose bays give little by themselves; a stack without bend-twist coupling. Small deflections.
    Source: Navier's double series, 41 waves each way (textbook).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = two_way_panel(height=Q(1, "m"), width=Q(1, "m"), bottom_pressure=Q(10, "kPa"), top_pressure=Q(10, "kPa"),
    ...                   stiffness_up=Q(5000, "N*m"), stiffness_across=Q(73.26, "N*m"), twist_stiffness=Q(73.26, "N*m"))
    >>> print(f"{w.deflection.to('mm'):.1f~P}")
    27.8 mm
    """
    def resistance(up: float, across: float) -> float:
        return stiffness_up * up**4 + 2 * twist_stiffness * (up * across) ** 2 + stiffness_across * across**4

    return double_sines(height, width, bottom_pressure, top_pressure, resistance, 41)
