"""How much amine an epoxy resin takes, from what is printed on the two drums."""

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door


@door(molar_mass="kg/mol", active_hydrogens="", returns="kg/mol",
      possible={"molar_mass": POSITIVE, "active_hydrogens": Range(1, 100, True, True)})
def amine_equivalent_weight(*, molar_mass: float, active_hydrogens: float) -> float:
    r"""Mass of amine for each hydrogen that can open an epoxide ring.

    .. math:: AHEW = M / n_H

    Parameters
    ----------
    molar_mass
        Of the amine, :math:`M`. [kg/mol]
    active_hydrogens
        On its nitrogens, :math:`n_H`. [-]

    Returns
    -------
    Amine hydrogen equivalent weight. [kg/mol]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a pure amine; blends print theirs on the data sheet.
    Source: definition; an adhesives handbook gives 103 g/mol and 5 hydrogens, so 20.6 (verified).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{amine_equivalent_weight(molar_mass=Q(103, 'g/mol'), active_hydrogens=5).to('g/mol').magnitude:.1f}")
    20.6
    """
    return molar_mass / active_hydrogens


@door(amine_equivalent="kg/mol", epoxide_equivalent="kg/mol", returns="",
      possible={"amine_equivalent": POSITIVE, "epoxide_equivalent": POSITIVE})
def parts_per_hundred_resin(*, amine_equivalent: float, epoxide_equivalent: float) -> float:
    r"""Parts of amine by weight for a hundred parts of resin, one hydrogen for one epoxide.

    .. math:: phr = 100 \, \frac{AHEW}{EEW}

    Parameters
    ----------
    amine_equivalent
        Amine hydrogen equivalent weight, :math:`AHEW`. [kg/mol]
    epoxide_equivalent
        Epoxide equivalent weight, :math:`EEW`. [kg/mol]

    Returns
    -------
    Parts for a hundred parts of resin. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a check on a printed ratio; the maker's own ratio comes first, which may be off this on purpose.
    Source: an adhesives handbook (verified).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{parts_per_hundred_resin(amine_equivalent=Q(20.6, 'g/mol'), epoxide_equivalent=Q(200, 'g/mol')):.1f}")
    10.3
    """
    return 100 * amine_equivalent / epoxide_equivalent


@door(masses="kg[]", equivalents="kg/mol[]", inert_mass="kg", returns="kg/mol",
      possible={"masses": POSITIVE, "equivalents": POSITIVE, "inert_mass": NOT_NEGATIVE})
def blend_epoxide_equivalent(*, masses: list[float], equivalents: list[float], inert_mass: float = 0.0) -> float:
    r"""Epoxide equivalent weight of a blend, fillers included.

    .. math:: EEW = \frac{m_0 + \sum m_i}{\sum m_i / EEW_i}

    Parameters
    ----------
    masses
        Of the resins in the blend, :math:`m_i`. [kg]
    equivalents
        Their epoxide equivalent weights, :math:`EEW_i`. [kg/mol]
    inert_mass
        Of fillers and pigments, which take no amine, :math:`m_0`. [kg]

    Returns
    -------
    Epoxide equivalent weight of the blend. [kg/mol]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: any blend of epoxy resins.
    Source: an adhesives handbook, worked example (verified and recomputed).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> e = blend_epoxide_equivalent(masses=[Q(80, "g"), Q(10, "g")], equivalents=[Q(189, "g/mol"), Q(183, "g/mol")], inert_mass=Q(10, "g"))
    >>> print(f"{e.to('g/mol').magnitude:.0f}")
    209
    """
    if len(masses) != len(equivalents):
        raise EntryError(Fault("equivalents", f"a list of {len(equivalents)}", f"give one for each of the {len(masses)} masses"))
    return (inert_mass + sum(masses)) / sum(mass / equivalent for mass, equivalent in zip(masses, equivalents, strict=True))
