"""How stiff one ply is, in its own axes and turned."""

from math import cos, sin
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import ANY, POSITIVE, door


class Reduced(NamedTuple):
    """Plane-stress stiffness of a ply in its own axes, :math:`Q_{ij}`. [Pa]"""

    q11: float
    q12: float
    q22: float
    q66: float


class Rotated(NamedTuple):
    """Plane-stress stiffness of a ply in the laminate's axes. [Pa]"""

    q11: float
    q12: float
    q16: float
    q22: float
    q26: float
    q66: float


def refuse_poisson(longitudinal: float, transverse: float, ratio: float) -> None:
    """A ply that is pulled must resist: nu² E2/E1 stays below 1."""
    if not ratio * ratio * transverse < longitudinal:
        raise EntryError(Fault("poisson ratio", f"{ratio:g}", "its square times the transverse modulus must be below the longitudinal modulus"))


@door(longitudinal_modulus="Pa", transverse_modulus="Pa", shear_modulus="Pa", poisson_ratio="",
      returns={"q11": "Pa", "q12": "Pa", "q22": "Pa", "q66": "Pa"},
      possible={"longitudinal_modulus": POSITIVE, "transverse_modulus": POSITIVE, "shear_modulus": POSITIVE, "poisson_ratio": ANY})
def reduced_stiffness(*, longitudinal_modulus: float, transverse_modulus: float, shear_modulus: float, poisson_ratio: float) -> Reduced:
    r"""Stiffness of one ply along and across its fibres, in plane stress.

    .. math:: Q_{11} = \frac{E_1}{1 - \nu_{12} \nu_{21}}, \; Q_{12} = \frac{\nu_{12} E_2}{1 - \nu_{12} \nu_{21}}, \;
              Q_{22} = \frac{E_2}{1 - \nu_{12} \nu_{21}}, \; Q_{66} = G_{12}, \; \nu_{21} = \nu_{12} E_2 / E_1

    Parameters
    ----------
    longitudinal_modulus, transverse_modulus
        Along and across the fibres, :math:`E_1, E_2`. [Pa]
    shear_modulus
        In the plane, :math:`G_{12}`. [Pa]
    poisson_ratio
        Across the fibres when pulled along them, :math:`\nu_{12}`. [-]

    Returns
    -------
    q11, q12, q22, q66
        :math:`Q_{ij}`. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a ratio that no material has.

    Notes
    -----
    Range: thin plies, small strain. The shear modulus is NOT divided by :math:`1 - \nu_{12} \nu_{21}`.
    Source: classical laminate theory; NASA RP-1351, pages 46 and 84 (verified in a public transcription).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> q = reduced_stiffness(longitudinal_modulus=Q(181, "GPa"), transverse_modulus=Q(10.3, "GPa"),
    ...                       shear_modulus=Q(7.17, "GPa"), poisson_ratio=0.28)
    >>> print(f"{q.q11.to('GPa'):.1f~P}, {q.q66.to('GPa'):.2f~P}")
    181.8 GPa, 7.17 GPa
    """
    refuse_poisson(longitudinal_modulus, transverse_modulus, poisson_ratio)
    rest = 1 - poisson_ratio * poisson_ratio * (transverse_modulus / longitudinal_modulus)
    return Reduced(longitudinal_modulus / rest, poisson_ratio * transverse_modulus / rest, transverse_modulus / rest, shear_modulus)


def turned(ply: Reduced, angle: float) -> Rotated:
    """A ply's stiffness in axes from which its fibres are turned by an angle. [Pa], [rad]"""
    c, s = cos(angle), sin(angle)
    q11, q12, q22, q66 = ply
    return Rotated(
        q11=q11 * c**4 + 2 * (q12 + 2 * q66) * s**2 * c**2 + q22 * s**4,
        q12=(q11 + q22 - 4 * q66) * s**2 * c**2 + q12 * (s**4 + c**4),
        q16=(q11 - q12 - 2 * q66) * s * c**3 + (q12 - q22 + 2 * q66) * s**3 * c,
        q22=q11 * s**4 + 2 * (q12 + 2 * q66) * s**2 * c**2 + q22 * c**4,
        q26=(q11 - q12 - 2 * q66) * s**3 * c + (q12 - q22 + 2 * q66) * s * c**3,
        q66=(q11 + q22 - 2 * q12 - 2 * q66) * s**2 * c**2 + q66 * (s**4 + c**4),
    )


@door(longitudinal_modulus="Pa", transverse_modulus="Pa", shear_modulus="Pa", poisson_ratio="", angle="rad",
      returns={"q11": "Pa", "q12": "Pa", "q16": "Pa", "q22": "Pa", "q26": "Pa", "q66": "Pa"},
      possible={"longitudinal_modulus": POSITIVE, "transverse_modulus": POSITIVE, "shear_modulus": POSITIVE, "poisson_ratio": ANY, "angle": ANY})
def rotated_stiffness(*, longitudinal_modulus: float, transverse_modulus: float, shear_modulus: float, poisson_ratio: float,
                      angle: float) -> Rotated:
    r"""Stiffness of one ply in axes from which its fibres are turned.

    .. math:: \bar{Q} = T^{-1} Q \, T^{-T}

    Parameters
    ----------
    longitudinal_modulus, transverse_modulus
        Along and across the fibres, :math:`E_1, E_2`. [Pa]
    shear_modulus
        In the plane, :math:`G_{12}`. [Pa]
    poisson_ratio
        Across the fibres when pulled along them, :math:`\nu_{12}`. [-]
    angle
        From the x axis to the fibres, turning towards y. [rad]

    Returns
    -------
    q11, q12, q16, q22, q26, q66
        :math:`\bar{Q}_{ij}`. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a ratio that no material has.

    Notes
    -----
    Range: thin plies, small strain.
    Source: classical laminate theory; NASA RP-1351 (verified in a public transcription).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> q = rotated_stiffness(longitudinal_modulus=Q(181, "GPa"), transverse_modulus=Q(10.3, "GPa"),
    ...                       shear_modulus=Q(7.17, "GPa"), poisson_ratio=0.28, angle=Q(90, "degree"))
    >>> print(f"{q.q11.to('GPa'):.2f~P}")
    10.35 GPa
    """
    ply = reduced_stiffness.si(longitudinal_modulus=longitudinal_modulus, transverse_modulus=transverse_modulus,
                               shear_modulus=shear_modulus, poisson_ratio=poisson_ratio)
    return turned(ply, angle)
