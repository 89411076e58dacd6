"""How stiff a laminate of mat or cloth is in its plane, by more than one route, and how far the routes lie apart."""

from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.layup.fractions import fibre_volume_fraction
from moldcalc.stages.layup.lamina import reduced_stiffness
from moldcalc.stages.layup.micro import SOLID, straight_ply
from moldcalc.units import ANY, POSITIVE, Range, door

#: fibre mass fractions that class rules speak of for mat
OF_MAT = Range(0.25, 0.40, with_low=True, with_high=True)
#: and for cloth and roving laid by hand
OF_CLOTH = Range(0.35, 0.60, with_low=True, with_high=True)


class Sheet(NamedTuple):
    """A sheet that is the same all ways in its plane. [Pa], [Pa], [-]"""

    modulus: float
    shear_modulus: float
    poisson_ratio: float


class MatModulus(NamedTuple):
    """In-plane modulus of a mat laminate by three routes; the rule is the likely one. [Pa]"""

    rule: float
    average: float
    three_eighths: float
    low: float
    likely: float
    high: float


class ClothModulus(NamedTuple):
    """In-plane modulus of a laminate of plain cloth: along its threads, on the bias, with its plies turned all ways. [Pa]"""

    along: float
    bias: float
    turned: float
    low: float
    likely: float
    high: float


def refuse_per_cent(fibre_mass_fraction: float) -> None:
    """A fraction above 1 is most often a percentage without its sign."""
    if fibre_mass_fraction >= 1:
        hint = f"; {fibre_mass_fraction:g} % is written {fibre_mass_fraction / 100:g} or '{fibre_mass_fraction:g} %'"
        allowed = "it must be above 0 and below 1" + (hint if 1 < fibre_mass_fraction < 100 else "")
        raise EntryError(Fault("fibre mass fraction", f"{fibre_mass_fraction:g}", allowed))


def _by_rule(fibre_mass_fraction: float, slope: float, start: float) -> float:
    refuse_per_cent(fibre_mass_fraction)
    gigapascals = slope * fibre_mass_fraction - start
    if gigapascals <= 0:
        allowed = f"the rule starts above {start / slope:.3g}: with less fibre it has no modulus"
        raise EntryError(Fault("fibre mass fraction", f"{fibre_mass_fraction:g}", allowed))
    return gigapascals * 1e9


@door(fibre_mass_fraction="", returns="Pa", possible={"fibre_mass_fraction": POSITIVE}, holds={"fibre_mass_fraction": OF_MAT})
def mat_modulus_by_rule(*, fibre_mass_fraction: float) -> float:
    r"""In-plane modulus of a mat laminate as the rules for small craft take it: the default.

    .. math:: E = (38 \, w_f - 5) \; \mathrm{GPa}

    Parameters
    ----------
    fibre_mass_fraction
        Mass of glass over mass of the cured laminate, :math:`w_f`. [-]

    Returns
    -------
    Modulus. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a percentage given as a fraction.

    Notes
    -----
    Range: chopped strand mat of E-glass with polyester, :math:`w_f` 0.25 to 0.40, laid by hand; taken for epoxy too.
    Source: ISO 12215-5 (from memory, not seen).

    Examples
    --------
    >>> print(f"{mat_modulus_by_rule(fibre_mass_fraction=0.30).to('GPa'):.2f~P}")
    6.40 GPa
    """
    return _by_rule(fibre_mass_fraction, 38, 5)


@door(fibre_mass_fraction="", returns="Pa", possible={"fibre_mass_fraction": POSITIVE}, holds={"fibre_mass_fraction": OF_MAT})
def mat_modulus_by_class_rule(*, fibre_mass_fraction: float) -> float:
    r"""In-plane modulus of a mat laminate as older class rules take it.

    .. math:: E = (37 \, w_f - 4.75) \; \mathrm{GPa}

    Parameters
    ----------
    fibre_mass_fraction
        Mass of glass over mass of the cured laminate, :math:`w_f`. [-]

    Returns
    -------
    Modulus. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a percentage given as a fraction.

    Notes
    -----
    Range: as `mat_modulus_by_rule`, with which it agrees within 1.5 % from 0.25 to 0.40.
    Source: rules of classification societies (from memory, not seen).

    Examples
    --------
    >>> print(f"{mat_modulus_by_class_rule(fibre_mass_fraction=0.30).to('GPa'):.2f~P}")
    6.35 GPa
    """
    return _by_rule(fibre_mass_fraction, 37, 4.75)


@door(longitudinal_modulus="Pa", transverse_modulus="Pa", returns={"modulus": "Pa", "shear_modulus": "Pa", "poisson_ratio": ""},
      possible={"longitudinal_modulus": POSITIVE, "transverse_modulus": POSITIVE})
def random_by_three_eighths(*, longitudinal_modulus: float, transverse_modulus: float) -> Sheet:
    r"""A sheet whose fibres lie all ways, by the short formula.

    .. math:: E = \tfrac38 E_1 + \tfrac58 E_2, \quad G = \tfrac18 E_1 + \tfrac14 E_2, \quad \nu = \frac{E}{2G} - 1

    Parameters
    ----------
    longitudinal_modulus, transverse_modulus
        Of a ply of straight fibres, as rich in fibre, :math:`E_1, E_2`. [Pa]

    Returns
    -------
    modulus, shear_modulus, poisson_ratio
        In the plane. [Pa], [Pa], [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: long fibres, no voids: high for a mat laid by hand.
    Source: Tsai and Pagano (from memory, standard).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> sheet = random_by_three_eighths(longitudinal_modulus=Q(14.581376, "GPa"), transverse_modulus=Q(5.140070, "GPa"))
    >>> print(f"{sheet.modulus.to('GPa'):.4f~P}")
    8.6806 GPa
    """
    modulus = 3 / 8 * longitudinal_modulus + 5 / 8 * transverse_modulus
    shear = longitudinal_modulus / 8 + transverse_modulus / 4
    return Sheet(modulus, shear, modulus / 2 / shear - 1)


@door(longitudinal_modulus="Pa", transverse_modulus="Pa", shear_modulus="Pa", poisson_ratio="",
      returns={"modulus": "Pa", "shear_modulus": "Pa", "poisson_ratio": ""},
      possible={"longitudinal_modulus": POSITIVE, "transverse_modulus": POSITIVE, "shear_modulus": POSITIVE, "poisson_ratio": ANY})
def random_by_average(*, longitudinal_modulus: float, transverse_modulus: float, shear_modulus: float, poisson_ratio: float) -> Sheet:
    r"""A sheet whose fibres lie all ways, as a laminate of plies turned all ways: the laminate analogy.

    .. math:: U_1 = \tfrac18 (3 Q_{11} + 3 Q_{22} + 2 Q_{12} + 4 Q_{66}), \; U_4 = \tfrac18 (Q_{11} + Q_{22} + 6 Q_{12} - 4 Q_{66}),
              \; E = \frac{U_1^2 - U_4^2}{U_1}, \; G = \frac{U_1 - U_4}{2}, \; \nu = \frac{U_4}{U_1}

    Parameters
    ----------
    longitudinal_modulus, transverse_modulus
        Of a ply of straight fibres, as rich in fibre, :math:`E_1, E_2`. [Pa]
    shear_modulus
        In its plane, :math:`G_{12}`. [Pa]
    poisson_ratio
        :math:`\nu_{12}`. [-]

    Returns
    -------
    modulus, shear_modulus, poisson_ratio
        In the plane. [Pa], [Pa], [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a ratio that no material has.

    Notes
    -----
    Range: long fibres, no voids: high for a mat laid by hand.
    Source: invariants of classical laminate theory (Tsai and Pagano, from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> sheet = random_by_average(longitudinal_modulus=Q(14.581376, "GPa"), transverse_modulus=Q(5.140070, "GPa"),
    ...                           shear_modulus=Q(1.722091, "GPa"), poisson_ratio=0.329013)
    >>> print(f"{sheet.modulus.to('GPa'):.4f~P}, {sheet.poisson_ratio.magnitude:.4f}")
    7.9746 GPa, 0.3360
    """
    q11, q12, q22, q66 = reduced_stiffness.si(longitudinal_modulus=longitudinal_modulus, transverse_modulus=transverse_modulus,
                                              shear_modulus=shear_modulus, poisson_ratio=poisson_ratio)
    first = (3 * q11 + 3 * q22 + 2 * q12 + 4 * q66) / 8
    fourth = (q11 + q22 + 6 * q12 - 4 * q66) / 8
    return Sheet(first - fourth * (fourth / first), (first - fourth) / 2, fourth / first)


MATERIALS = {"fibre_mass_fraction": "", "fibre_density": "kg/m^3", "resin_density": "kg/m^3", "fibre_modulus": "Pa",
             "fibre_poisson_ratio": "", "resin_modulus": "Pa", "resin_poisson_ratio": ""}
POSSIBLE = dict.fromkeys(MATERIALS, POSITIVE) | dict.fromkeys(["fibre_poisson_ratio", "resin_poisson_ratio"], SOLID)


@door(**MATERIALS, returns=dict.fromkeys(MatModulus._fields, "Pa"), possible=POSSIBLE, holds={"fibre_mass_fraction": OF_MAT})
def mat_modulus(*, fibre_mass_fraction: float, fibre_density: float, resin_density: float, fibre_modulus: float, fibre_poisson_ratio: float,
                resin_modulus: float, resin_poisson_ratio: float) -> MatModulus:
    r"""In-plane modulus of a mat laminate by three routes; the rule is the likely one, the routes give the spread.

    .. math:: E_\mathrm{rule} = 38 \, w_f - 5, \quad E_\mathrm{average} = \frac{U_1^2 - U_4^2}{U_1}, \quad
              E_{3/8} = \tfrac38 E_1 + \tfrac58 E_2

    Parameters
    ----------
    fibre_mass_fraction
        Mass of glass over mass of the cured laminate, :math:`w_f`. [-]
    fibre_density, resin_density
        Of the solid fibre and of the cured resin. [kg/m³]
    fibre_modulus, resin_modulus
        Of fibre and resin. [Pa]
    fibre_poisson_ratio, resin_poisson_ratio
        Of fibre and resin. [-]

    Returns
    -------
    rule, average, three_eighths
        The three routes. [Pa]
    low, likely, high
        Lowest of them, the rule, highest. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a percentage given as a fraction.

    Notes
    -----
    Range: :math:`w_f` 0.25 to 0.40. At 0.30 the routes give 6.4, 8.0 and 8.7 GPa: what a panel deflects differs as much.
    From 0.39 the rule passes the average. A laminate with voids or dry spots is softer than all three.
    Source: as `mat_modulus_by_rule`, `random_by_average`, `random_by_three_eighths`.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> e = mat_modulus(fibre_mass_fraction=0.30, fibre_density=Q(2.56, "kg/L"), resin_density=Q(1.15, "kg/L"),
    ...                 fibre_modulus=Q(72.4, "GPa"), fibre_poisson_ratio=0.22, resin_modulus=Q(3.45, "GPa"), resin_poisson_ratio=0.35)
    >>> print(f"{e.rule.to('GPa'):.2f~P}, {e.average.to('GPa'):.2f~P}, {e.three_eighths.to('GPa'):.2f~P}")
    6.40 GPa, 7.97 GPa, 8.68 GPa
    """
    rule = float(mat_modulus_by_rule.si(fibre_mass_fraction=fibre_mass_fraction))
    share = fibre_volume_fraction.si(fibre_mass_fraction=fibre_mass_fraction, fibre_density=fibre_density, resin_density=resin_density)
    ply = straight_ply.si(fibre_modulus=fibre_modulus, fibre_poisson_ratio=fibre_poisson_ratio, resin_modulus=resin_modulus,
                          resin_poisson_ratio=resin_poisson_ratio, fibre_volume_fraction=share)
    average = random_by_average.si(**ply._asdict()).modulus
    short = random_by_three_eighths.si(longitudinal_modulus=ply.longitudinal_modulus, transverse_modulus=ply.transverse_modulus).modulus
    return MatModulus(rule, average, short, min(rule, average, short), rule, max(rule, average, short))
