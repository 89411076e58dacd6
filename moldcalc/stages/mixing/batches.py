"""Cuts a mix into cups that are brushed out before they thicken and weighed well enough to cure."""

from dataclasses import dataclass

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.mixing.counting import count_up
from moldcalc.stages.mixing.losses import mixed_mass
from moldcalc.stages.mixing.weighing import smallest_batch
from moldcalc.units import NOT_NEGATIVE, PART, POSITIVE, Range, door, show


@door(working_time="s", usable_share="", mixing_time="s", returns="s",
      possible={"working_time": POSITIVE, "usable_share": Range(0, 1, with_high=True), "mixing_time": NOT_NEGATIVE},
      holds={"usable_share": (0.5, 0.9)})
def usable_time(*, working_time: float, usable_share: float, mixing_time: float) -> float:
    r"""Brushing time that a cup leaves, once it is mixed and before it begins to drag.

    .. math:: t_u = s \, t_w - t_m

    Parameters
    ----------
    working_time
        From the first drop of B until it no longer brushes, today, :math:`t_w`. [s]
    usable_share
        Of the working time that is counted on, :math:`s`. [-]
    mixing_time
        Stirring, scraping and pouring over, :math:`t_m`. [s]

    Returns
    -------
    Usable time. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; no time left after mixing.

    Notes
    -----
    Range: 0.75 of the working time and 5 min of mixing are usual: common practice, no source.
    Source: difference (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{usable_time(working_time=Q(51.4, 'min'), usable_share=0.75, mixing_time=Q(5, 'min')).to('min').magnitude:.1f}")
    33.5
    """
    left = usable_share * working_time - mixing_time
    if left <= 0:
        counted = show(usable_share * working_time, "min")
        raise EntryError(Fault("mixing time", show(mixing_time, "min"), f"it must be below {counted}, the part of the working time counted on"))
    return left


@door(
    rate="m^2/s", people_per_cup="", usable="s", thickness="m", density="kg/m^3", loss_share="", returns="kg",
    possible={"rate": POSITIVE, "people_per_cup": POSITIVE, "usable": POSITIVE, "thickness": POSITIVE, "density": POSITIVE, "loss_share": PART},
)
def most_by_time(*, rate: float, people_per_cup: float, usable: float, thickness: float, density: float, loss_share: float) -> float:
    r"""Largest mixed mass of a cup that is brushed out in time.

    .. math:: m = \frac{r \, n \, t_u \, h \, \rho}{1 - l}

    Parameters
    ----------
    rate
        Area that one person coats in a time, :math:`r`. [m²/s]
    people_per_cup
        Who brush from the same cup, :math:`n`. [-]
    usable
        Brushing time of a cup, :math:`t_u`. [s]
    thickness
        Of the coat, :math:`h`. [m]
    density
        Of the mix, :math:`\rho`. [kg/m³]
    loss_share
        Share of the mixed mass left in cup and brush, :math:`l`. [-]

    Returns
    -------
    Mixed mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: rates of 0.02 to 0.04 m²/min for one person are usual: common practice, no source; time your own first cup.
    Source: mass balance (exact).

    Examples
    --------
    A print coat of 0.6 mm at 0.020 m²/min, 33.5 min, 12 % lost:

    >>> from moldcalc.units import Q
    >>> m = most_by_time(rate=Q(0.020, "m^2/min"), people_per_cup=1, usable=Q(33.5, "min"), thickness=Q(0.6, "mm"),
    ...                  density=Q(1.18, "kg/L"), loss_share=0.12)
    >>> print(f"{m.to('kg'):.2f~P}")
    0.54 kg
    """
    return float(mixed_mass.si(net=rate * people_per_cup * usable * thickness * density, loss_share=loss_share))


@door(ratio="", readability="kg", tolerance="", coverage="", returns="kg",
      possible={"ratio": POSITIVE, "readability": POSITIVE, "tolerance": Range(0, 1), "coverage": POSITIVE})
def least_by_scale(*, ratio: float, readability: float, tolerance: float, coverage: float = 2.0) -> float:
    r"""Smallest mixed mass of a cup for which the scale still gets the ratio right.

    .. math:: m = (1 + r) \, m_A

    Parameters
    ----------
    ratio
        Mass of B over mass of A, :math:`r`. [-]
    readability
        Step of the scale's display. [kg]
    tolerance
        Relative error allowed in the ratio. [-]
    coverage
        Standard uncertainties that must fit into it; 2 covers about 95 %. [-]

    Returns
    -------
    Mixed mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: both parts tared, the readability the only error.
    Source: JCGM 100:2008 (GUM), 5.1.2 (verified), solved for the mass.

    Examples
    --------
    A scale of 1 g, 100:5, 5 % of the catalyst:

    >>> from moldcalc.units import Q
    >>> print(f"{least_by_scale(ratio=0.05, readability=Q(1, 'g'), tolerance=0.05).to('g'):.0f~P}")
    343 g
    """
    return (1 + ratio) * float(smallest_batch.si(ratio=ratio, readability=readability, tolerance=tolerance, coverage=coverage))


@dataclass(slots=True)
class Batches:
    """Equal cups: how many, the mass of each, and whether it is less than the scale resolves."""

    count: int
    each: float
    under_least: bool


@door(total="kg", most="kg", least="kg", returns={"each": "kg"},
      possible={"total": NOT_NEGATIVE, "most": POSITIVE, "least": NOT_NEGATIVE})
def cut_batches(*, total: float, most: float, least: float = 0.0) -> Batches:
    r"""Cuts a mix into as few equal cups as the limit allows.

    .. math:: n = \lceil m / m_{most} \rceil, \quad m_1 = m / n

    Parameters
    ----------
    total
        Mixed mass in all, :math:`m`. [kg]
    most
        That one cup may hold, :math:`m_{most}`. [kg]
    least
        Below which the scale gets the ratio wrong. [kg]

    Returns
    -------
    count
        Cups, :math:`n`.
    each
        Mass of each, :math:`m_1`. [kg]
    under_least
        Whether that is less than the least.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 cups.

    Notes
    -----
    Range: a quotient within 1e-9 of a whole number counts as that number.
    Source: division (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> cut = cut_batches(total=Q(1.49, "kg"), most=Q(0.54, "kg"), least=Q(343, "g"))
    >>> print(cut.count, f"{cut.each.to('kg'):.2f~P}")
    3 0.50 kg
    """
    if total == 0:
        return Batches(0, 0.0, False)
    count = count_up(total / most, "number of cups") or 1
    each = total / count
    return Batches(count, each, each < least * (1 - 1e-9))


@door(area="m^2", rate="m^2/s", batches="", mixing_time="s", people="", returns="s",
      possible={"area": NOT_NEGATIVE, "rate": POSITIVE, "batches": NOT_NEGATIVE, "mixing_time": NOT_NEGATIVE, "people": POSITIVE})
def brushing_time(*, area: float, rate: float, batches: float, mixing_time: float, people: float) -> float:
    r"""How long a coat takes, mixing included.

    .. math:: t = \frac{A / r + n \, t_m}{p}

    Parameters
    ----------
    area
        To be coated, :math:`A`. [m²]
    rate
        Area that one person coats in a time, :math:`r`. [m²/s]
    batches
        Cups to be mixed, :math:`n`. [-]
    mixing_time
        For each cup, :math:`t_m`. [s]
    people
        Who share the work, :math:`p`. [-]

    Returns
    -------
    Time. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as long as they are not in each other's way.
    Source: work shared evenly (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> t = brushing_time(area=Q(1.856, "m^2"), rate=Q(0.020, "m^2/min"), batches=3, mixing_time=Q(5, "min"), people=2)
    >>> print(f"{t.to('min').magnitude:.1f}")
    53.9
    """
    return (area / rate + batches * mixing_time) / people
