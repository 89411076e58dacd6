"""How thick a hand-laid ply cures, what it weighs, and how much resin it drinks."""

from moldcalc.stages.layup.fractions import BETWEEN, HAND
from moldcalc.stages.mixing.counting import count_up
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


@door(
    areal_weight="kg/m^2", fibre_mass_fraction="", fibre_density="kg/m^3", resin_density="kg/m^3", returns="m",
    possible={"areal_weight": POSITIVE, "fibre_mass_fraction": BETWEEN, "fibre_density": POSITIVE, "resin_density": POSITIVE},
    holds={"fibre_mass_fraction": HAND},
)
def ply_thickness(*, areal_weight: float, fibre_mass_fraction: float, fibre_density: float, resin_density: float) -> float:
    r"""Thickness of one cured ply, voids left out.

    .. math:: t = m_A \left( \frac{1}{\rho_f} + \frac{1 - w_f}{w_f \, \rho_r} \right)

    Parameters
    ----------
    areal_weight
        Dry mass of the reinforcement on a unit of area, :math:`m_A`. [kg/m²]
    fibre_mass_fraction
        Mass of fibre over mass of the cured ply, :math:`w_f`. [-]
    fibre_density, resin_density
        Of the solid fibre and of the cured resin, :math:`\rho_f, \rho_r`. [kg/m³]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: hand lay-up, :math:`w_f` 0.20 to 0.60 (common practice, no source). A void fraction v makes the ply thicker
    by 1/(1 - v).
    Source: volume balance (exact). With 2560 and 1200 kg/m³ it is the glass and polyester formula of ISO 12215-5
    (from memory, not seen).

    Examples
    --------
    Chopped strand mat of 450 g/m² at 30 % glass by mass:

    >>> from moldcalc.units import Q
    >>> t = ply_thickness(areal_weight=Q(450, "g/m^2"), fibre_mass_fraction=0.30,
    ...                   fibre_density=Q(2560, "kg/m^3"), resin_density=Q(1200, "kg/m^3"))
    >>> print(f"{t.to('mm'):.4f~P}")
    1.0508 mm
    """
    fibre = areal_weight / fibre_density
    resin = areal_weight * (1 - fibre_mass_fraction) / fibre_mass_fraction / resin_density
    return fibre + resin


@door(areal_weight="kg/m^2", fibre_mass_fraction="", returns="m",
      possible={"areal_weight": POSITIVE, "fibre_mass_fraction": BETWEEN}, holds={"fibre_mass_fraction": HAND})
def marine_rule_thickness(*, areal_weight: float, fibre_mass_fraction: float) -> float:
    r"""Thickness of a glass and POLYESTER ply as the rules for small craft write it.

    .. math:: t = \frac{m_A}{3.07} \left( \frac{2.56}{w_f} - 1.36 \right) \mathrm{mm}

    Parameters
    ----------
    areal_weight
        Dry mass of the glass on a unit of area, :math:`m_A`. [kg/m²]
    fibre_mass_fraction
        Mass of glass over mass of the cured ply, :math:`w_f`. [-]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: glass and polyester of 1.20 kg/L. An epoxy ply of 1.15 kg/L is 3 to 4 % thicker: for it use `ply_thickness`.
    Source: ISO 12215-5 and class rules (from memory, not seen); 3.07 is 2.56 x 1.20 rounded.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{marine_rule_thickness(areal_weight=Q(1, 'kg/m^2'), fibre_mass_fraction=0.30).to('mm'):.6f~P}")
    2.336591 mm
    """
    return areal_weight / 3.07 * (2.56 / fibre_mass_fraction - 1.36) * 1e-3


@door(areal_weight="kg/m^2", fibre_mass_fraction="", returns="kg/m^2",
      possible={"areal_weight": NOT_NEGATIVE, "fibre_mass_fraction": BETWEEN}, holds={"fibre_mass_fraction": HAND})
def resin_areal_mass(*, areal_weight: float, fibre_mass_fraction: float) -> float:
    r"""Resin in a square metre of cured reinforcement.

    .. math:: m_r = m_A \frac{1 - w_f}{w_f}

    Parameters
    ----------
    areal_weight
        Dry mass of the reinforcement on a unit of area, all plies, :math:`m_A`. [kg/m²]
    fibre_mass_fraction
        Mass of fibre over mass of the cured laminate, :math:`w_f`. [-]

    Returns
    -------
    Mass of resin on a unit of area. [kg/m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: hand lay-up, :math:`w_f` 0.20 to 0.60 (common practice, no source). Core bond and surface coat come on top.
    Source: mass balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{resin_areal_mass(areal_weight=Q(450, 'g/m^2'), fibre_mass_fraction=0.30).to('g/m^2').magnitude:.0f}")
    1050
    """
    return areal_weight * (1 - fibre_mass_fraction) / fibre_mass_fraction


@door(areal_weight="kg/m^2", fibre_mass_fraction="", returns="kg/m^2",
      possible={"areal_weight": NOT_NEGATIVE, "fibre_mass_fraction": BETWEEN}, holds={"fibre_mass_fraction": HAND})
def laminate_areal_mass(*, areal_weight: float, fibre_mass_fraction: float) -> float:
    r"""Mass of a square metre of cured laminate.

    .. math:: m = m_A / w_f

    Parameters
    ----------
    areal_weight
        Dry mass of the reinforcement on a unit of area, all plies, :math:`m_A`. [kg/m²]
    fibre_mass_fraction
        Mass of fibre over mass of the cured laminate, :math:`w_f`. [-]

    Returns
    -------
    Mass on a unit of area. [kg/m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: hand lay-up, :math:`w_f` 0.20 to 0.60 (common practice, no source).
    Source: mass balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{laminate_areal_mass(areal_weight=Q(450, 'g/m^2'), fibre_mass_fraction=0.30).to('g/m^2').magnitude:.0f}")
    1500
    """
    return areal_weight / fibre_mass_fraction


@door(thickness="m", ply_thickness="m", returns="", possible={"thickness": NOT_NEGATIVE, "ply_thickness": POSITIVE})
def plies_for_thickness(*, thickness: float, ply_thickness: float) -> float:
    r"""Plies that make at least a thickness.

    .. math:: n = \lceil t / t_1 \rceil

    Parameters
    ----------
    thickness
        Wanted, :math:`t`. [m]
    ply_thickness
        Of one cured ply, :math:`t_1`. [m]

    Returns
    -------
    Number of plies. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 plies.

    Notes
    -----
    Range: all plies alike.
    Source: division (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> plies_for_thickness(thickness=Q(6, "mm"), ply_thickness=Q(1.0888, "mm"))
    6
    """
    return count_up(thickness / ply_thickness, "number of plies")
