"""What a flat panel of the shell gives under the liquid behind it, and whether the answer can be believed."""

from typing import Any, NamedTuple

from moldcalc.stages.layup.clamped import clamped_shape
from moldcalc.stages.layup.micro import SOLID
from moldcalc.stages.layup.shape import Shape, supported_shape
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door

#: a panel that gives more than this share of its thickness stretches, which the formulas leave out
LINEAR = 0.5


class Panel(NamedTuple):
    """What a panel gives.

    Greatest deflection and its parts by bending and by the core's shear [m]; where it is, over the lower edge [m]; greatest
    moment inside and along an edge held fast [N·m for each m]; deflection over half the thickness [-], and whether that is
    at most 1: beyond it the answer is outside linear theory, an overestimate.
    """

    deflection: float
    bending: float
    shear: float
    at: float
    moment: float
    edge_moment: float
    over_limit: float
    linear: bool


class Linear(NamedTuple):
    """How far a deflection is from where linear theory ends: over half the thickness [-], and that half [m]."""

    over_limit: float
    limit: float
    linear: bool


@door(modulus="Pa", thickness="m", poisson_ratio="", returns="N*m", possible={"modulus": POSITIVE, "thickness": POSITIVE, "poisson_ratio": SOLID})
def plate_stiffness(*, modulus: float, thickness: float, poisson_ratio: float) -> float:
    r"""Bending stiffness of a solid plate for each metre of its width.

    .. math:: D' = \frac{E \, t^3}{12 (1 - \nu^2)}

    Parameters
    ----------
    modulus
        In its plane, :math:`E`. [Pa]
    thickness
        :math:`t`. [m]
    poisson_ratio
        :math:`\nu`. [-]

    Returns
    -------
    Stiffness as a plate, for a metre of width. [N·m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: the same all ways in its plane; 9 % above the beam of `solid_stiffness` with :math:`\nu` of 0.3.
    Source: plate theory, textbook.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{plate_stiffness(modulus=Q(6.4, 'GPa'), thickness=Q(5, 'mm'), poisson_ratio=0.3).magnitude:.4f}")
    73.2601
    """
    return modulus * thickness**3 / 12 / (1 - poisson_ratio**2)


@door(deflection="m", thickness="m", returns={"over_limit": "", "limit": "m"}, possible={"deflection": NOT_NEGATIVE, "thickness": POSITIVE})
def linear_theory(*, deflection: float, thickness: float) -> Linear:
    r"""Whether a flat panel's deflection is one that linear theory can give.

    .. math:: r = \frac{w}{t / 2}

    Parameters
    ----------
    deflection
        As calculated, :math:`w`. [m]
    thickness
        Of the whole wall, :math:`t`. [m]

    Returns
    -------
    over_limit
        :math:`r`; above 1 it is outside linear theory, by that factor. [-]
    limit
        Half the thickness. [m]
    linear
        Whether :math:`r` is at most 1.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: above half the thickness a panel stretches as well: the real deflection is smaller, often by multiples. Ribs, a
    core or curvature are then the remedy, not a finer formula.
    Source: plate theory, textbook (from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> found = linear_theory(deflection=Q(54.4, "mm"), thickness=Q(5, "mm"))
    >>> print(f"{found.over_limit.magnitude:.1f}", found.linear)
    21.8 False
    """
    return Linear(deflection / (LINEAR * thickness), LINEAR * thickness, deflection <= LINEAR * thickness)


def _answer(shape: Shape, stiffness: float, shear_stiffness: float | None, thickness: float) -> Panel:
    bending = shape.bending / stiffness
    shear = 0.0 if shear_stiffness is None else shape.shear / shear_stiffness
    over = linear_theory.si(deflection=bending + shear, thickness=thickness)
    return Panel(bending + shear, bending, shear, shape.at, shape.moment, shape.edge_moment, over.over_limit, over.linear)


#: units and limits of a panel and its load
OUTLINE = {"height": "m", "width": "m", "bottom_pressure": "Pa", "top_pressure": "Pa"}
OUTLINE_POSSIBLE = {"height": POSITIVE, "width": POSITIVE, "bottom_pressure": NOT_NEGATIVE, "top_pressure": NOT_NEGATIVE}
WALL: dict[str, str] = {"stiffness": "N*m", "thickness": "m", "poisson_ratio": "", "shear_stiffness": "N/m"}
WALL_POSSIBLE: dict[str, Range] = {"stiffness": POSITIVE, "thickness": POSITIVE, "poisson_ratio": SOLID, "shear_stiffness": POSITIVE}
PANEL = {"deflection": "m", "bending": "m", "shear": "m", "at": "m", "moment": "N", "edge_moment": "N", "over_limit": ""}
ENTRIES: dict[str, Any] = {**OUTLINE, **WALL}


@door(**ENTRIES, returns=PANEL, possible={**OUTLINE_POSSIBLE, **WALL_POSSIBLE})
def supported_panel(*, height: float, width: float, bottom_pressure: float, top_pressure: float, stiffness: float, thickness: float,
                    poisson_ratio: float, shear_stiffness: float | None = None) -> Panel:
    r"""Flat panel with liquid behind it, its edges held and free to turn.

    .. math:: w = \sum_m \left( \frac{p_m \, g_m}{D' k_m^4} + \frac{p_m \, s_m}{S k_m^2} \right) \sin k_m x, \qquad
              k_m = \frac{m \pi}{H}, \; p_m = \frac{2}{m \pi} \left( q_b - (-1)^m q_t \right)

    Parameters
    ----------
    height, width
        Of the panel, :math:`H` and across. [m]
    bottom_pressure, top_pressure
        Along its lower and upper edge, even between them, :math:`q_b, q_t`. [Pa]
    stiffness
        Bending, as a PLATE, for a metre of width, :math:`D'`. [N·m]
    thickness
        Of the whole wall. [m]
    poisson_ratio
        Of the wall: it moves the moment only. [-]
    shear_stiffness
        For a metre of width, :math:`S`; left out for a solid laminate. [N/m]

    Returns
    -------
    deflection, bending, shear
        Greatest deflection, the sum of the greatest by bending and the greatest by the core's shear. [m]
    at
        Height over the lower edge of the greatest by bending. [m]
    moment, edge_moment
        Greatest inside; 0 along the edge. [N·m for each m]
    over_limit
        Deflection over half the thickness. [-]
    linear
        Whether that is at most 1.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: deflection up to half the thickness; beyond it `linear` is false and the answer is an overestimate. Where the two
    parts peak at different heights their sum is a little high, below 1 %.
    Source: Levy's series with its factors :math:`g_m, s_m` at half the width (Timoshenko; computed).

    Examples
    --------
    A square of 800 mm, two facings of 2 mm on 15 mm of foam:

    >>> from moldcalc.units import Q
    >>> w = supported_panel(height=Q(800, "mm"), width=Q(800, "mm"), bottom_pressure=Q(10, "kPa"), top_pressure=Q(10, "kPa"),
    ...                     stiffness=Q(2058.90339, "N*m"), thickness=Q(19, "mm"), poisson_ratio=0.3, shear_stiffness=Q(423866.7, "N/m"))
    >>> print(f"{w.bending.to('mm'):.3f~P} + {w.shear.to('mm'):.3f~P}", w.linear)
    8.082 mm + 1.112 mm True
    """
    shape = supported_shape(height, width, bottom_pressure, top_pressure, poisson_ratio)
    return _answer(shape, stiffness, shear_stiffness, thickness)


@door(**ENTRIES, returns=PANEL, possible={**OUTLINE_POSSIBLE, **WALL_POSSIBLE})
def clamped_panel(*, height: float, width: float, bottom_pressure: float, top_pressure: float, stiffness: float, thickness: float,
                  poisson_ratio: float, shear_stiffness: float | None = None) -> Panel:
    r"""Flat panel with liquid behind it, held fast along its edges.

    .. math:: w = \alpha \frac{q a^4}{D'} + k \frac{q a^2}{S}

    Parameters
    ----------
    height, width
        Of the panel; the shorter is :math:`a`. [m]
    bottom_pressure, top_pressure
        Along its lower and upper edge, even between them. [Pa]
    stiffness
        Bending, as a PLATE, for a metre of width, :math:`D'`. [N·m]
    thickness
        Of the whole wall. [m]
    poisson_ratio
        Of the wall: it moves the moment inside only. [-]
    shear_stiffness
        For a metre of width, :math:`S`; left out for a solid laminate. [N/m]

    Returns
    -------
    deflection, bending, shear
        Greatest deflection, the sum of the greatest by bending and the greatest by the core's shear. [m]
    at
        Height over the lower edge of the greatest by bending. [m]
    moment, edge_moment
        Greatest inside and along the edge. [N·m for each m]
    over_limit
        Deflection over half the thickness. [-]
    linear
        Whether that is at most 1.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: deflection up to half the thickness. A flange that turns a little lies between this and `supported_panel`.
    Source: Ritz's method with twenty shapes along the longer side and ten along the shorter (computed); the tables' coefficients come from it.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = clamped_panel(height=Q(500, "mm"), width=Q(500, "mm"), bottom_pressure=Q(15690.6, "Pa"), top_pressure=Q(15690.6, "Pa"),
    ...                   stiffness=Q(73.2601, "N*m"), thickness=Q(5, "mm"), poisson_ratio=0.3)
    >>> print(f"{w.deflection.to('mm'):.2f~P}, {w.over_limit.magnitude:.1f} times the limit")
    16.94 mm, 6.8 times the limit
    """
    shape = clamped_shape(height, width, bottom_pressure, top_pressure, poisson_ratio)
    return _answer(shape, stiffness, shear_stiffness, thickness)
