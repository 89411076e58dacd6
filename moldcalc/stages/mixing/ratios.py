"""How much of B goes with the A poured, by weight or by volume, and how to mend a slip of the hand."""

from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


@door(base_mass="kg", base_parts="", part_parts="", returns="kg",
      possible={"base_mass": NOT_NEGATIVE, "base_parts": POSITIVE, "part_parts": NOT_NEGATIVE})
def part_for(*, base_mass: float, base_parts: float, part_parts: float) -> float:
    r"""How much of part B goes with the base that was poured.

    .. math:: m_B = m_A \frac{b}{a}

    Parameters
    ----------
    base_mass
        Of part A in the cup, :math:`m_A`. [kg]
    base_parts, part_parts
        Mix ratio by weight, :math:`a : b`. [-]

    Returns
    -------
    Mass of part B. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any ratio by weight; one by volume is turned into weights first.
    Source: definition of a mix ratio (exact). 100:10 by weight is a usual one: common practice, no source.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{part_for(base_mass=Q(630, 'g'), base_parts=100, part_parts=10).to('g'):.0f~P}")
    63 g
    """
    return base_mass * part_parts / base_parts


@door(part_mass="kg", base_parts="", part_parts="", returns="kg",
      possible={"part_mass": NOT_NEGATIVE, "base_parts": POSITIVE, "part_parts": POSITIVE})
def base_for_part(*, part_mass: float, base_parts: float, part_parts: float) -> float:
    r"""How much base in all goes with a part B that is already in the cup.

    .. math:: m_A = m_B \frac{a}{b}

    Parameters
    ----------
    part_mass
        Of part B in the cup, :math:`m_B`. [kg]
    base_parts, part_parts
        Mix ratio by weight, :math:`a : b`. [-]

    Returns
    -------
    Mass of part A in all. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any ratio by weight.
    Source: definition of a mix ratio (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{base_for_part(part_mass=Q(25, 'g'), base_parts=100, part_parts=5).to('g'):.0f~P}")
    500 g
    """
    return part_mass * base_parts / part_parts


class Rescue(NamedTuple):
    """What to add so that a cup is right again; one of the two is nothing."""

    add_base: float
    add_part: float


@door(base_poured="kg", part_poured="kg", base_parts="", part_parts="", returns={"add_base": "kg", "add_part": "kg"},
      possible={"base_poured": NOT_NEGATIVE, "part_poured": NOT_NEGATIVE, "base_parts": POSITIVE, "part_parts": POSITIVE})
def rescue(*, base_poured: float, part_poured: float, base_parts: float, part_parts: float) -> Rescue:
    r"""What to add to a cup in which too much of one part was poured, before it is stirred for long.

    .. math:: \Delta m_A = \max \left( 0, m_B \frac{a}{b} - m_A \right), \quad \Delta m_B = \max \left( 0, m_A \frac{b}{a} - m_B \right)

    Parameters
    ----------
    base_poured, part_poured
        In the cup now, :math:`m_A, m_B`. [kg]
    base_parts, part_parts
        Mix ratio by weight, :math:`a : b`. [-]

    Returns
    -------
    add_base, add_part
        To be added; one of them is 0. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: within minutes; the working time has run since the first drop of B.
    Source: definition of a mix ratio (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> r = rescue(base_poured=Q(500, "g"), part_poured=Q(30, "g"), base_parts=100, part_parts=5)
    >>> print(f"{r.add_base.to('g'):.0f~P} of A, {r.add_part.to('g'):.0f~P} of B")
    100 g of A, 0 g of B
    """
    base_short = part_poured * base_parts / part_parts - base_poured
    if base_short > 0:
        return Rescue(base_short, 0.0)
    return Rescue(0.0, max(0.0, base_poured * part_parts / base_parts - part_poured))


@door(total="kg", parts="[]", returns="kg[]", possible={"total": NOT_NEGATIVE, "parts": POSITIVE})
def split_total(*, total: float, parts: list[float]) -> list[float]:
    r"""Mass of each component in a mix of a wanted total.

    .. math:: m_i = m \frac{p_i}{\sum p}

    Parameters
    ----------
    total
        Mass of the whole mix, :math:`m`. [kg]
    parts
        Mix ratio by weight, two or three components, :math:`p_i`. [-]

    Returns
    -------
    Mass of each component, in the same order. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; other than two or three components.

    Notes
    -----
    Range: any ratio by weight.
    Source: definition of a mix ratio (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print([f"{m.to('g'):.1f~P}" for m in split_total(total=Q(693, "g"), parts=[100, 10])])
    ['630.0 g', '63.0 g']
    """
    if len(parts) not in (2, 3):
        raise EntryError(Fault("parts", f"a list of {len(parts)}", "give two or three components"))
    whole = sum(parts)
    return [total * part / whole for part in parts]


@door(weight_ratio="", base_density="kg/m^3", part_density="kg/m^3", returns="",
      possible={"weight_ratio": NOT_NEGATIVE, "base_density": POSITIVE, "part_density": POSITIVE})
def volume_ratio_from_weight(*, weight_ratio: float, base_density: float, part_density: float) -> float:
    r"""Volume of B for a volume of A, from the ratio by weight.

    .. math:: \frac{V_B}{V_A} = \frac{m_B}{m_A} \frac{\rho_A}{\rho_B}

    Parameters
    ----------
    weight_ratio
        Mass of B over mass of A, :math:`m_B / m_A`. [-]
    base_density, part_density
        Of A and of B, :math:`\rho_A, \rho_B`. [kg/m³]

    Returns
    -------
    Volume of B over volume of A. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: liquids without air in them.
    Source: definition of density (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> v = volume_ratio_from_weight(weight_ratio=0.10, base_density=Q(1.15, "kg/L"), part_density=Q(0.98, "kg/L"))
    >>> print(f"100:{100 * v:.4f}")
    100:11.7347
    """
    return weight_ratio * base_density / part_density


@door(volume_ratio="", base_density="kg/m^3", part_density="kg/m^3", returns="",
      possible={"volume_ratio": NOT_NEGATIVE, "base_density": POSITIVE, "part_density": POSITIVE})
def weight_ratio_from_volume(*, volume_ratio: float, base_density: float, part_density: float) -> float:
    r"""Mass of B for a mass of A, from the ratio by volume.

    .. math:: \frac{m_B}{m_A} = \frac{V_B}{V_A} \frac{\rho_B}{\rho_A}

    Parameters
    ----------
    volume_ratio
        Volume of B over volume of A, :math:`V_B / V_A`. [-]
    base_density, part_density
        Of A and of B, :math:`\rho_A, \rho_B`. [kg/m³]

    Returns
    -------
    Mass of B over mass of A. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: liquids without air in them.
    Source: definition of density (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = weight_ratio_from_volume(volume_ratio=0.05, base_density=Q(1.20, "kg/L"), part_density=Q(0.98, "kg/L"))
    >>> print(f"100:{100 * w:.2f}")
    100:4.08
    """
    return volume_ratio * part_density / base_density


@door(base_density="kg/m^3", part_density="kg/m^3", returns="", possible={"base_density": POSITIVE, "part_density": POSITIVE})
def volume_read_as_weight_error(*, base_density: float, part_density: float) -> float:
    r"""How far off the dose of B is when a ratio by weight is measured by volume.

    .. math:: e = \frac{\rho_B}{\rho_A} - 1

    Parameters
    ----------
    base_density, part_density
        Of A and of B, :math:`\rho_A, \rho_B`. [kg/m³]

    Returns
    -------
    Relative error of the dose, below 0 where B comes short. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any ratio; the error does not depend on it.
    Source: definition of density (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{100 * volume_read_as_weight_error(base_density=Q(1.20, 'kg/L'), part_density=Q(0.98, 'kg/L')):.0f} %")
    -18 %
    """
    return part_density / base_density - 1
