"""Laminating resin: how much to mix for a face, and into how many trays."""

from moldcalc.stages.mixing.batches import Batches, cut_batches
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


@door(area="m^2", areal_mass="kg/m^2", waste="", returns="kg",
      possible={"area": NOT_NEGATIVE, "areal_mass": NOT_NEGATIVE, "waste": NOT_NEGATIVE}, holds={"waste": (0.0, 0.30)})
def resin_to_mix(*, area: float, areal_mass: float, waste: float) -> float:
    r"""Resin to mix for a face, with what stays in tray and brush.

    .. math:: m = A \, m_r (1 + x)

    Parameters
    ----------
    area
        Of the face, :math:`A`. [m²]
    areal_mass
        Of all resin that goes on it in one go, core bond too, :math:`m_r`. [kg/m²]
    waste
        Added for trays and brushes, as a share of what is used, :math:`x`. [-]

    Returns
    -------
    Mixed mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: waste 0.05 to 0.12 (common practice, no source). It is a share of what is USED, not of what is mixed.
    Source: mass balance (exact).

    Examples
    --------
    Outer facing and core bond of a flank:

    >>> from moldcalc.units import Q
    >>> m = resin_to_mix(area=Q(0.61, "m^2"), areal_mass=Q(1.1, "kg/m^2"), waste=0.12)
    >>> print(f"{m.to('kg'):.2f~P}")
    0.75 kg
    """
    return area * areal_mass * (1 + waste)


@door(rate="m^2/s", people="", usable="s", resin_areal_mass="kg/m^2", returns="kg",
      possible={"rate": POSITIVE, "people": POSITIVE, "usable": POSITIVE, "resin_areal_mass": POSITIVE})
def most_by_laminating(*, rate: float, people: float, usable: float, resin_areal_mass: float) -> float:
    r"""Largest mix of resin that is worked in before it thickens.

    .. math:: m = r \, n \, t_u \, m_r

    Parameters
    ----------
    rate
        Area that one person wets out in a time, :math:`r`. [m²/s]
    people
        Who work from the same tray, :math:`n`. [-]
    usable
        Time that a mix leaves, :math:`t_u`. [s]
    resin_areal_mass
        Resin laid on a unit of area, :math:`m_r`. [kg/m²]

    Returns
    -------
    Mixed mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: the pot life of the mass in that tray, not of 100 g in a cup.
    Source: mass balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> m = most_by_laminating(rate=Q(0.02, "m^2/min"), people=2, usable=Q(20, "min"), resin_areal_mass=Q(0.6, "kg/m^2"))
    >>> print(f"{m.to('kg'):.2f~P}")
    0.48 kg
    """
    return rate * people * usable * resin_areal_mass


@door(by_time="kg", by_tray="kg", returns="kg", possible={"by_time": POSITIVE, "by_tray": POSITIVE})
def largest_mix(*, by_time: float, by_tray: float) -> float:
    r"""Largest mix of resin that both the clock and the tray allow.

    .. math:: m = \min(m_t, m_v)

    Parameters
    ----------
    by_time
        That is worked in before it thickens, :math:`m_t`. [kg]
    by_tray
        That may stand in one tray without heating up, :math:`m_v`. [kg]

    Returns
    -------
    Mixed mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: 100 to 400 g in a flat tray (common practice, no source); in a deep cup a mix of epoxy may heat up within
    minutes, smoke and burn: the safety data sheet comes first.
    Source: the smaller of the two.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{largest_mix(by_time=Q(480, 'g'), by_tray=Q(250, 'g')).to('g'):.0f~P}")
    250 g
    """
    return min(by_time, by_tray)


@door(total="kg", by_time="kg", by_tray="kg", least="kg", returns={"each": "kg"},
      possible={"total": NOT_NEGATIVE, "by_time": POSITIVE, "by_tray": POSITIVE, "least": NOT_NEGATIVE})
def resin_batches(*, total: float, by_time: float, by_tray: float, least: float = 0.0) -> Batches:
    r"""Cuts a mix of resin into as few equal trays as clock and tray allow.

    .. math:: n = \left\lceil \frac{m}{\min(m_t, m_v)} \right\rceil

    Parameters
    ----------
    total
        Mixed mass in all, :math:`m`. [kg]
    by_time
        That is worked in before it thickens, :math:`m_t`. [kg]
    by_tray
        That may stand in one tray, :math:`m_v`. [kg]
    least
        Below which the scale gets the ratio wrong. [kg]

    Returns
    -------
    count
        Trays, :math:`n`.
    each
        Mass of each. [kg]
    under_least
        Whether that is less than the least.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 trays.

    Notes
    -----
    Range: as `cut_batches`.
    Source: division (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> cut = resin_batches(total=Q(750, "g"), by_time=Q(480, "g"), by_tray=Q(250, "g"))
    >>> print(cut.count, f"{cut.each.to('g'):.0f~P}")
    3 250 g
    """
    cut: Batches = cut_batches.si(total=total, most=min(by_time, by_tray), least=least)
    return cut
