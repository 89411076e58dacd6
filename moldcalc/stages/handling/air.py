"""Vapour in a room's air: what thins it, how long that takes, and what parts in a million weigh."""

from math import log

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door

#: Litres of a mole of gas at 25 °C and 1 atm, as exposure tables use it [m³/mol]
MOLAR_VOLUME = 0.02445
_MIXING = Range(1, 10, True, True)
#: Dust is not thinned but caught.
DUST = "Thinning the room's air is no substitute for catching dust at its source."


@door(evaporation="kg/s", molar_mass="kg/mol", concentration="", mixing="", molar_volume="m^3/mol", returns="m^3/s",
      possible={"evaporation": NOT_NEGATIVE, "molar_mass": POSITIVE, "concentration": Range(0, 1), "mixing": _MIXING, "molar_volume": POSITIVE})
def dilution_flow(*, evaporation: float, molar_mass: float, concentration: float, mixing: float, molar_volume: float = MOLAR_VOLUME) -> float:
    r"""Fresh air that holds a vapour at a concentration.

    .. math:: Q = K \, \frac{G}{M} \, \frac{V_m}{C}

    Parameters
    ----------
    evaporation
        Mass that evaporates in a time, :math:`G`. [kg/s]
    molar_mass
        Of the vapour, :math:`M`. [kg/mol]
    concentration
        By volume, :math:`C`; 100 ppm is 0.0001. [-]
    mixing
        From 1 (perfect) to 10 (poor), :math:`K`. [-]
    molar_volume
        Of a gas, :math:`V_m`; left out 24.45 L/mol, at 25 °C. [m³/mol]

    Returns
    -------
    Flow. [m³/s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: steady evaporation far from the face of who works there. Not for dust, which is caught at its source.
    Source: dilution ventilation, industrial-hygiene courses (seen in a public one).

    Examples
    --------
    >>> flow = dilution_flow(evaporation="0.1 g/s", molar_mass="104.149 g/mol", concentration=50e-6, mixing=5)
    >>> print(f"{flow.magnitude:.2f} m³/s")
    2.35 m³/s
    """
    return mixing * (evaporation / molar_mass) * molar_volume / concentration


@door(evaporation="kg/s", molar_mass="kg/mol", flow="m^3/s", mixing="", molar_volume="m^3/mol", returns="",
      possible={"evaporation": NOT_NEGATIVE, "molar_mass": POSITIVE, "flow": POSITIVE, "mixing": _MIXING, "molar_volume": POSITIVE})
def diluted_concentration(*, evaporation: float, molar_mass: float, flow: float, mixing: float, molar_volume: float = MOLAR_VOLUME) -> float:
    r"""Concentration of a vapour in a room with fresh air.

    .. math:: C = K \, \frac{G}{M} \, \frac{V_m}{Q}

    Parameters
    ----------
    evaporation
        Mass that evaporates in a time, :math:`G`. [kg/s]
    molar_mass
        Of the vapour, :math:`M`. [kg/mol]
    flow
        Of fresh air, :math:`Q`. [m³/s]
    mixing
        From 1 (perfect) to 10 (poor), :math:`K`. [-]
    molar_volume
        Of a gas, :math:`V_m`; left out 24.45 L/mol, at 25 °C. [m³/mol]

    Returns
    -------
    By volume; times a million it is ppm. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as `dilution_flow`.
    Source: dilution ventilation, industrial-hygiene courses (seen in a public one).

    Examples
    --------
    >>> share = diluted_concentration(evaporation="0.1 g/s", molar_mass="104.149 g/mol", flow="2 m^3/s", mixing=1)
    >>> print(f"{share * 1e6:.1f} ppm")
    11.7 ppm
    """
    return mixing * (evaporation / molar_mass) * molar_volume / flow


@door(volume="m^3", flow="m^3/s", start="", end="", mixing="", returns="s",
      possible={"volume": POSITIVE, "flow": POSITIVE, "start": POSITIVE, "end": POSITIVE, "mixing": _MIXING})
def purge_time(*, volume: float, flow: float, start: float, end: float, mixing: float = 1.0) -> float:
    r"""How long fresh air takes to bring a vapour down when no more of it comes.

    .. math:: t = K \frac{V}{Q} \ln \frac{C_1}{C_2}

    Parameters
    ----------
    volume
        Of the room, :math:`V`. [m³]
    flow
        Of fresh air, :math:`Q`. [m³/s]
    start, end
        Concentrations, both in the same measure, :math:`C_1, C_2`. [-]
    mixing
        From 1 (perfect) to 10 (poor), :math:`K`. [-]

    Returns
    -------
    Time. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; an end above the start.

    Notes
    -----
    Range: evenly mixed; with a mixing factor the flow counts for that much less.
    Source: dilution ventilation, industrial-hygiene courses (seen in a public one).

    Examples
    --------
    >>> print(f"{purge_time(volume='60 m^3', flow='0.1 m^3/s', start=200, end=20).to('min').magnitude:.0f}")
    23
    """
    if end > start:
        raise EntryError(Fault("end", f"{end:g}", f"it must be at most the start, {start:g}"))
    return mixing * volume / flow * log(start / end)


@door(concentration="", molar_mass="kg/mol", molar_volume="m^3/mol", returns="kg/m^3",
      possible={"concentration": NOT_NEGATIVE, "molar_mass": POSITIVE, "molar_volume": POSITIVE})
def vapour_density(*, concentration: float, molar_mass: float, molar_volume: float = MOLAR_VOLUME) -> float:
    r"""What a vapour in the air weighs.

    .. math:: c = C \frac{M}{V_m}

    Parameters
    ----------
    concentration
        By volume, :math:`C`; 1 ppm is 0.000001. [-]
    molar_mass
        Of the vapour, :math:`M`. [kg/mol]
    molar_volume
        Of a gas, :math:`V_m`; left out 24.45 L/mol, at 25 °C. [m³/mol]

    Returns
    -------
    Mass in a volume of air. [kg/m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin vapours.
    Source: ideal gas (exact for it).

    Examples
    --------
    Styrene, 1 ppm:

    >>> print(f"{vapour_density(concentration=1e-6, molar_mass='104.149 g/mol').to('g/m^3').magnitude * 1000:.2f} mg/m³")
    4.26 mg/m³
    """
    return concentration * molar_mass / molar_volume


@door(silica_share="", returns="kg/m^3", possible={"silica_share": Range(0, 1, with_high=True)})
def amorphous_silica_limit(*, silica_share: float) -> float:
    r"""Limit for dust with amorphous silica by the older US table, over 8 h.

    .. math:: c = \frac{80}{\%\,\mathrm{SiO_2}} \; \mathrm{mg/m^3}

    Parameters
    ----------
    silica_share
        Of the dust that is silica. [-]

    Returns
    -------
    Concentration. [kg/m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: fumed silica and the like, not crystalline: for that see `LIMITS`. NIOSH recommends 6 mg/m³.
    Source: 29 CFR 1910.1000 table Z-3 (seen in public copies).

    Examples
    --------
    >>> print(f"{amorphous_silica_limit(silica_share=1).to('g/m^3').magnitude * 1000:.1f} mg/m³")
    0.8 mg/m³
    """
    return 80e-6 / (100 * silica_share)


@door(concentration="kg/m^3", limit="kg/m^3", returns="", possible={"concentration": NOT_NEGATIVE, "limit": POSITIVE})
def share_of_limit(*, concentration: float, limit: float) -> float:
    r"""How many times a limit a concentration is.

    .. math:: s = \frac{c}{c_0}

    Parameters
    ----------
    concentration
        In the air that is breathed, :math:`c`. [kg/m³]
    limit
        For 8 h, :math:`c_0`. [kg/m³]

    Returns
    -------
    Share. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: averages over a shift, measured where it is breathed; an estimate is no measurement.
    Source: definition.

    Examples
    --------
    >>> print(share_of_limit(concentration="0.1 g/m^3", limit="0.05 g/m^3"))
    2.0
    """
    return concentration / limit
