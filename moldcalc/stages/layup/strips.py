"""What a strip of sandwich gives under a load, in bending and in shear, and what its facings and core carry."""

from typing import NamedTuple

from moldcalc.stages.layup.sandwich import FACINGS, section
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


class Deflection(NamedTuple):
    """How far something gives: by bending, by shear of the core, in all. [m]"""

    bending: float
    shear: float
    total: float


class StripStresses(NamedTuple):
    """Stresses in a strip on two supports. [Pa]"""

    facing: float
    outer_fibre: float
    core_shear: float


IN_ALL = {"bending": "m", "shear": "m", "total": "m"}


def deflection(bending: float, shear: float) -> Deflection:
    """Both parts and their sum."""
    return Deflection(bending, shear, bending + shear)


def give(shear_stiffness: float | None) -> float:
    """1/S; 0 for a solid laminate, whose shear is left out."""
    return 0.0 if shear_stiffness is None else 1 / shear_stiffness


@door(pressure="Pa", span="m", stiffness="N*m", shear_stiffness="N/m", returns=IN_ALL,
      possible={"pressure": NOT_NEGATIVE, "span": POSITIVE, "stiffness": POSITIVE, "shear_stiffness": POSITIVE})
def supported_strip(*, pressure: float, span: float, stiffness: float, shear_stiffness: float | None = None) -> Deflection:
    r"""Middle of a strip on two supports under an even pressure.

    .. math:: w = \frac{5 \, q L^4}{384 \, D} + \frac{q L^2}{8 \, S}

    Parameters
    ----------
    pressure
        :math:`q`. [Pa]
    span
        Between the supports, :math:`L`. [m]
    stiffness
        Bending, for a metre of width, :math:`D`. [N·m]
    shear_stiffness
        For a metre of width, :math:`S`; left out for a solid laminate. [N/m]

    Returns
    -------
    bending, shear, total
        Deflection and its two parts. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: small deflections. A narrow strip takes the beam's stiffness, a long panel the plate's: they differ by 9 %.
    Source: beam theory; sandwich theory, Allen 1969 (from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = supported_strip(pressure=Q(10, "kPa"), span=Q(600, "mm"), stiffness=Q(1873.60208, "N*m"), shear_stiffness=Q(423866.7, "N/m"))
    >>> print(f"{w.bending.to('mm'):.3f~P} + {w.shear.to('mm'):.3f~P}")
    9.007 mm + 1.062 mm
    """
    return deflection(5 * pressure * span**4 / 384 / stiffness, pressure * span**2 / 8 * give(shear_stiffness))


@door(pressure="Pa", span="m", stiffness="N*m", shear_stiffness="N/m", returns=IN_ALL,
      possible={"pressure": NOT_NEGATIVE, "span": POSITIVE, "stiffness": POSITIVE, "shear_stiffness": POSITIVE})
def clamped_strip(*, pressure: float, span: float, stiffness: float, shear_stiffness: float | None = None) -> Deflection:
    r"""Middle of a strip held fast at both ends under an even pressure.

    .. math:: w = \frac{q L^4}{384 \, D} + \frac{q L^2}{8 \, S}

    Parameters
    ----------
    pressure
        :math:`q`. [Pa]
    span
        Between the ends, :math:`L`. [m]
    stiffness
        Bending, for a metre of width, :math:`D`. [N·m]
    shear_stiffness
        For a metre of width, :math:`S`; left out for a solid laminate. [N/m]

    Returns
    -------
    bending, shear, total
        Deflection and its two parts. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: small deflections; ends that neither turn nor give, which no shell quite has.
    Source: beam theory; sandwich theory (from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = clamped_strip(pressure=Q(10, "kPa"), span=Q(600, "mm"), stiffness=Q(1873.60208, "N*m"))
    >>> print(f"{w.total.to('mm'):.3f~P}")
    1.801 mm
    """
    return deflection(pressure * span**4 / 384 / stiffness, pressure * span**2 / 8 * give(shear_stiffness))


@door(line_load="N/m", span="m", stiffness="N*m", shear_stiffness="N/m", returns=IN_ALL,
      possible={"line_load": NOT_NEGATIVE, "span": POSITIVE, "stiffness": POSITIVE, "shear_stiffness": POSITIVE})
def three_point_strip(*, line_load: float, span: float, stiffness: float, shear_stiffness: float | None = None) -> Deflection:
    r"""Middle of a strip on two supports, loaded there along a line: the bending test of a sample.

    .. math:: w = \frac{P' L^3}{48 \, D} + \frac{P' L}{4 \, S}

    Parameters
    ----------
    line_load
        Load over the strip's width, :math:`P'`. [N/m]
    span
        Between the supports, :math:`L`. [m]
    stiffness
        Bending, for a metre of width, :math:`D`. [N·m]
    shear_stiffness
        For a metre of width, :math:`S`; left out for a solid laminate. [N/m]

    Returns
    -------
    bending, shear, total
        Deflection and its two parts. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: small deflections; a strip that the load does not dent.
    Source: beam theory; ASTM C393 and D7250 split it the same way (from memory).

    Examples
    --------
    1 kN on a strip 100 mm wide:

    >>> from moldcalc.units import Q
    >>> w = three_point_strip(line_load=Q(10, "kN/m"), span=Q(400, "mm"), stiffness=Q(1873.60208, "N*m"), shear_stiffness=Q(423866.7, "N/m"))
    >>> print(f"{w.bending.to('mm'):.3f~P} + {w.shear.to('mm'):.3f~P}")
    7.116 mm + 2.359 mm
    """
    return deflection(line_load * span**3 / 48 / stiffness, line_load * span / 4 * give(shear_stiffness))


@door(pressure="Pa", span="m", facing_modulus="Pa", facing_thickness="m", core_thickness="m", core_modulus="Pa",
      returns={"facing": "Pa", "outer_fibre": "Pa", "core_shear": "Pa"},
      possible={name: FACINGS[name] for name in ("facing_modulus", "facing_thickness", "core_thickness", "core_modulus")}
      | {"pressure": NOT_NEGATIVE, "span": POSITIVE})
def strip_stresses(*, pressure: float, span: float, facing_modulus: float, facing_thickness: float, core_thickness: float,
                   core_modulus: float) -> StripStresses:
    r"""What facings and core carry in a strip on two supports under an even pressure.

    .. math:: \sigma = \frac{M}{t \, d}, \quad \sigma_o = \frac{M E_f (c/2 + t)}{D}, \quad \tau = \frac{V}{d},
              \qquad M = \frac{q L^2}{8}, \; V = \frac{q L}{2}

    Parameters
    ----------
    pressure
        :math:`q`. [Pa]
    span
        Between the supports, :math:`L`. [m]
    facing_modulus
        :math:`E_f`. [Pa]
    facing_thickness
        Of one facing, :math:`t`. [m]
    core_thickness
        :math:`c`, in :math:`d = c + t`; with 0 it is a solid laminate and no core is sheared. [m]
    core_modulus
        Of the core. [Pa]

    Returns
    -------
    facing
        Mean stress in a facing at mid-span. [Pa]
    outer_fibre
        Stress at its outside. [Pa]
    core_shear
        In the core at a support. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: an estimate of what is carried; what the laminate bears depends on how it was laid.
    Source: sandwich theory, Allen 1969 (from memory); :math:`M z E / D` exact.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> s = strip_stresses(pressure=Q(10, "kPa"), span=Q(600, "mm"), facing_modulus=Q(6400, "MPa"), facing_thickness=Q(2, "mm"),
    ...                    core_thickness=Q(15, "mm"), core_modulus=Q(55, "MPa"))
    >>> print(f"{s.facing.to('MPa'):.4f~P}, {s.core_shear.to('MPa'):.6f~P}")
    13.2353 MPa, 0.176471 MPa
    """
    apart = core_thickness + facing_thickness
    moment, force = pressure * span**2 / 8, pressure * span / 2
    found = section(facing_modulus, facing_thickness, facing_thickness, core_thickness, core_modulus)
    outer = moment * facing_modulus / (found.facings + found.core) * (core_thickness / 2 + facing_thickness)
    return StripStresses(moment / facing_thickness / apart, outer, force / apart if core_thickness else 0.0)


@door(facing_modulus="Pa", core_modulus="Pa", core_shear_modulus="Pa", factor="", returns="Pa",
      possible={"facing_modulus": POSITIVE, "core_modulus": POSITIVE, "core_shear_modulus": POSITIVE, "factor": POSITIVE},
      holds={"factor": (0.5, 0.91)})
def wrinkling_stress(*, facing_modulus: float, core_modulus: float, core_shear_modulus: float, factor: float) -> float:
    r"""Stress at which a pressed facing may wrinkle on its core.

    .. math:: \sigma = k \, (E_f E_c G_c)^{1/3}

    Parameters
    ----------
    facing_modulus
        :math:`E_f`. [Pa]
    core_modulus, core_shear_modulus
        Of the core, :math:`E_c, G_c`. [Pa]
    factor
        :math:`k`: 0.5 for design. [-]

    Returns
    -------
    Stress. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: 0.5 for design, which allows for facings that are not flat; theory gives 0.91, Allen 0.575 for a core of 0.25.
    Dents and bad bonds lower it further.
    Source: Hoff and Mautner (verified in two public sources).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> s = wrinkling_stress(facing_modulus=Q(6400, "MPa"), core_modulus=Q(55, "MPa"), core_shear_modulus=Q(22, "MPa"), factor=0.5)
    >>> print(f"{s.to('MPa'):.4f~P}")
    98.9217 MPa
    """
    return float(factor * facing_modulus ** (1 / 3) * core_modulus ** (1 / 3) * core_shear_modulus ** (1 / 3))
