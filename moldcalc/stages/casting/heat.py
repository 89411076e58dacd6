"""Heat of setting, as a caution: how warm a mix would get if it kept all its heat."""

from moldcalc.units import NOT_NEGATIVE, POSITIVE, SHARE, door


@door(heat="J/mol", equivalents="kg/mol[]", returns="J/kg", possible={"heat": NOT_NEGATIVE, "equivalents": POSITIVE},
      holds={"heat": (98e3, 110e3)})
def heat_of_mix(*, heat: float, equivalents: list[float]) -> float:
    r"""Heat that a kilogram of a resin mix gives off, mixed by its equivalents.

    .. math:: H = \frac{\Delta H}{\sum M_i}

    Parameters
    ----------
    heat
        For each group that reacts, :math:`\Delta H`. [J/mol]
    equivalents
        Mass of each part for one such group, :math:`M_i`: resin and hardener. [kg/mol]

    Returns
    -------
    Heat. [J/kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: an epoxy with an amine gives about 98 to 110 kJ for each epoxide equivalent (from memory: Horie 1970, Rozenberg 1986);
    fillers take their share out.
    Source: stoichiometry (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> h = heat_of_mix(heat="105 kJ/mol", equivalents=[Q(190, "g/mol"), Q(20.6, "g/mol")])
    >>> print(f"{h.to('J/g').magnitude:.2f}")
    498.58
    """
    return heat / sum(equivalents)


@door(heat="J/kg", reacting_share="", heat_capacity="J/kg/K", returns="K",
      possible={"heat": NOT_NEGATIVE, "reacting_share": SHARE, "heat_capacity": POSITIVE})
def most_warming(*, heat: float, reacting_share: float, heat_capacity: float) -> float:
    r"""How many kelvin a mix warms if none of its heat leaves: a bound for a caution, not a forecast.

    .. math:: \Delta T = \frac{w H}{c}

    Parameters
    ----------
    heat
        That a kilogram of what reacts gives off, :math:`H`. [J/kg]
    reacting_share
        Of the mass, :math:`w`: powder in a plaster mix, resin in a filled one. [-]
    heat_capacity
        Of the whole mix, :math:`c`. [J/kg/K]

    Returns
    -------
    Difference of temperature. [K]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a thick mass in its middle, at most. A thin wall stays far below it; a bucket may come near it. Setting plaster has
    burnt hands that were held in it: never cast a part of the body.
    Source: balance of heat (exact). Gypsum gives about 118 kJ for a kilogram of hemihydrate (from memory).

    Examples
    --------
    Epoxy in a deep cup, and gypsum mixed 100 to 60:

    >>> from moldcalc.units import Q
    >>> f"{most_warming(heat=Q(498.576, 'J/g'), reacting_share=1, heat_capacity=Q(1.9, 'J/g/K')).magnitude:.1f} K"
    '262.4 K'
    >>> f"{most_warming(heat=Q(118, 'kJ/kg'), reacting_share=1 / 1.6, heat_capacity=Q(2.1, 'kJ/kg/K')).magnitude:.0f} K"
    '35 K'
    """
    return reacting_share * heat / heat_capacity
