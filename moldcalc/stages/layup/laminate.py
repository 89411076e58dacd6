"""How stiff a stack of plies is, each with its own angle: classical laminate theory."""

from math import isfinite
from typing import Any, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.layup.lamina import Rotated, reduced_stiffness, turned
from moldcalc.stages.layup.matrix import Matrix, all_finite, inverse, minus, product
from moldcalc.units import ANY, POSITIVE, door

#: more plies than this in one stack is a slip in an entry
MOST_PLIES = 1000


class Laminate(NamedTuple):
    """Stiffness of a laminate: A [N/m], B [N], D [N·m], three rows of three each (x, y, xy), and its thickness [m]."""

    extension: Matrix
    coupling: Matrix
    bending: Matrix
    thickness: float


class LaminateConstants(NamedTuple):
    """A laminate as if it were one sheet: in its plane, in bending, and the bending matrix D* when it is free to stretch."""

    modulus_x: float
    modulus_y: float
    shear_modulus: float
    poisson_ratio: float
    bending_modulus_x: float
    bending_modulus_y: float
    thickness: float
    free_bending: Matrix


def for_each_ply(values: list[float], plies: int, entry: str) -> list[float]:
    """One value for each ply, or one that holds for all."""
    if len(values) not in (1, plies):
        raise EntryError(Fault(entry, f"{len(values)} values", f"give one for all plies, or one for each of the {plies}"))
    return values * plies if len(values) == 1 else values


def stacked(plies: list[Rotated], thicknesses: list[float]) -> Laminate:
    """A, B, D of plies laid from the bottom (negative z) to the top, about the middle of the stack."""
    total = sum(thicknesses)
    extension, coupling, bending = ([[0.0] * 3 for _ in range(3)] for _ in range(3))
    low = -total / 2
    for ply, thickness in zip(plies, thicknesses, strict=True):
        high = low + thickness
        # differences of squares and cubes written out, so that thin plies far out lose no digits
        first, second, third = thickness, thickness * (high + low) / 2, thickness * (high * high + high * low + low * low) / 3
        for row, line in enumerate(((ply.q11, ply.q12, ply.q16), (ply.q12, ply.q22, ply.q26), (ply.q16, ply.q26, ply.q66))):
            for column, value in enumerate(line):
                extension[row][column] += value * first
                coupling[row][column] += value * second
                bending[row][column] += value * third
        low = high
    all_finite(extension, coupling, bending)
    return Laminate(extension, coupling, bending, total)


STACK: dict[str, Any] = {"angles": "rad[]", "thicknesses": "m[]", "longitudinal_modulus": "Pa[]", "transverse_modulus": "Pa[]",
                         "shear_modulus": "Pa[]", "poisson_ratio": "[]"}
STACK_POSSIBLE = {"angles": ANY, "poisson_ratio": ANY} | dict.fromkeys(
    ["thicknesses", "longitudinal_modulus", "transverse_modulus", "shear_modulus"], POSITIVE)


@door(**STACK, returns=None, possible=STACK_POSSIBLE)
def laminate_stiffness(*, angles: list[float], thicknesses: list[float], longitudinal_modulus: list[float], transverse_modulus: list[float],
                       shear_modulus: list[float], poisson_ratio: list[float]) -> Laminate:
    r"""Stiffness of any stack of plies: in its plane, in bending, and how the two are coupled.

    .. math:: A = \sum \bar{Q} \, \Delta z, \quad B = \tfrac12 \sum \bar{Q} \, \Delta z^2, \quad D = \tfrac13 \sum \bar{Q} \, \Delta z^3

    Parameters
    ----------
    angles
        Of the fibres of each ply, from the bottom (first against the rubber) to the top. [rad]
    thicknesses
        Of each ply, or one for all. [m]
    longitudinal_modulus, transverse_modulus
        Along and across the fibres, :math:`E_1, E_2`, of each ply, or one for all. [Pa]
    shear_modulus
        In the plane, :math:`G_{12}`, of each ply, or one for all. [Pa]
    poisson_ratio
        :math:`\nu_{12}` of each ply, or one for all. [-]

    Returns
    -------
    extension, coupling, bending
        :math:`A` [N/m], :math:`B` [N], :math:`D` [N·m], rows and columns x, y, xy.
    thickness
        Of the stack. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; over 1000 plies.

    Notes
    -----
    Range: thin plies that stay bonded, small strain; no shear through the thickness: the matrices of a sandwich come out
    right, its shear deflection does not. About the middle of the stack.
    Source: classical laminate theory; NASA RP-1351, example 9 (verified in a public transcription).

    Examples
    --------
    Two crossed plies of 1 mm:

    >>> from moldcalc.units import Q
    >>> made = laminate_stiffness(angles=Q([0, 90], "degree"), thicknesses=Q([1], "mm"), longitudinal_modulus=Q([38.6], "GPa"),
    ...                           transverse_modulus=Q([8.27], "GPa"), shear_modulus=Q([4.14], "GPa"), poisson_ratio=[0.26])
    >>> print(f"{made.extension[0][0] / 1e6:.2f} kN/mm, {made.coupling[0][0]:.0f} N, {made.thickness * 1e3:.0f} mm")
    47.56 kN/mm, -15388 N, 2 mm
    """
    count = len(angles)
    if count > MOST_PLIES:
        raise EntryError(Fault("number of plies", f"{count}", f"it must be at most {MOST_PLIES}"))
    rows = zip(for_each_ply(longitudinal_modulus, count, "longitudinal modulus"), for_each_ply(transverse_modulus, count, "transverse modulus"),
               for_each_ply(shear_modulus, count, "shear modulus"), for_each_ply(poisson_ratio, count, "poisson ratio"), strict=True)
    plies = [turned(reduced_stiffness.si(longitudinal_modulus=e1, transverse_modulus=e2, shear_modulus=g12, poisson_ratio=nu), angle)
             for (e1, e2, g12, nu), angle in zip(rows, angles, strict=True)]
    return stacked(plies, for_each_ply(thicknesses, count, "thicknesses"))


@door(**STACK, possible=STACK_POSSIBLE,
      returns={"modulus_x": "Pa", "modulus_y": "Pa", "shear_modulus": "Pa", "poisson_ratio": "", "bending_modulus_x": "Pa",
               "bending_modulus_y": "Pa", "thickness": "m"})
def laminate_constants(*, angles: list[float], thicknesses: list[float], longitudinal_modulus: list[float], transverse_modulus: list[float],
                       shear_modulus: list[float], poisson_ratio: list[float]) -> LaminateConstants:
    r"""What a stack of plies looks like as one sheet; one that curls when pulled is free to curl.

    .. math:: a = (A - B D^{-1} B)^{-1}, \; E_x = \frac{1}{h a_{11}}, \; G = \frac{1}{h a_{66}}, \; \nu = -\frac{a_{12}}{a_{11}}, \;
              D^* = D - B A^{-1} B, \; E_{bx} = \frac{12}{h^3 (D^{*-1})_{11}}

    Parameters
    ----------
    angles
        Of the fibres of each ply, from the bottom (first against the rubber) to the top. [rad]
    thicknesses
        Of each ply, or one for all; together :math:`h`. [m]
    longitudinal_modulus, transverse_modulus
        Along and across the fibres, :math:`E_1, E_2`, of each ply, or one for all. [Pa]
    shear_modulus
        In the plane, :math:`G_{12}`, of each ply, or one for all. [Pa]
    poisson_ratio
        :math:`\nu_{12}` of each ply, or one for all. [-]

    Returns
    -------
    modulus_x, modulus_y, shear_modulus, poisson_ratio
        In the plane. [Pa], the last [-]
    bending_modulus_x, bending_modulus_y
        In bending. [Pa]
    thickness
        :math:`h`. [m]
    free_bending
        :math:`D^*`, the bending matrix of a stack that is free to stretch. [N·m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; over 1000 plies.

    Notes
    -----
    Range: as `laminate_stiffness`. In a symmetric stack :math:`B` is 0 and :math:`D^* = D`.
    Source: classical laminate theory (textbook).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> one = laminate_constants(angles=Q([0, 45, -45, 90, 90, -45, 45, 0], "degree"), thicknesses=Q([0.25], "mm"),
    ...                          longitudinal_modulus=Q([38.6], "GPa"), transverse_modulus=Q([8.27], "GPa"),
    ...                          shear_modulus=Q([4.14], "GPa"), poisson_ratio=[0.26])
    >>> print(f"{one.modulus_x.to('GPa'):.3f~P}, {one.poisson_ratio.magnitude:.4f}")
    18.965 GPa, 0.2695
    """
    made: Laminate = laminate_stiffness.si(angles=angles, thicknesses=thicknesses, longitudinal_modulus=longitudinal_modulus,
                                           transverse_modulus=transverse_modulus, shear_modulus=shear_modulus, poisson_ratio=poisson_ratio)
    plane = inverse(minus(made.extension, product(made.coupling, product(inverse(made.bending), made.coupling))))
    free = minus(made.bending, product(made.coupling, product(inverse(made.extension), made.coupling)))
    curved = inverse(free)
    all_finite(plane, free, curved)
    h = made.thickness
    if not isfinite(12 / h**3 / curved[0][0]):
        raise OverflowError
    return LaminateConstants(1 / (h * plane[0][0]), 1 / (h * plane[1][1]), 1 / (h * plane[2][2]), -plane[0][1] / plane[0][0],
                             12 / (h**3 * curved[0][0]), 12 / (h**3 * curved[1][1]), h, free)
