"""Walls that are laid up or slushed, the water in the mix, and the batches that go in before they set."""

from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.casting.mass import cast_mass
from moldcalc.stages.mixing.batches import Batches, cut_batches, most_by_time, usable_time
from moldcalc.stages.mixing.counting import count_up
from moldcalc.stages.mixing.losses import mixed_mass
from moldcalc.units import NOT_NEGATIVE, PART, POSITIVE, Range, door, show


class Mix(NamedTuple):
    """Powder and water of a mix. [kg]"""

    powder: float
    water: float


@door(mixed="kg", water_ratio="", returns={"powder": "kg", "water": "kg"},
      possible={"mixed": NOT_NEGATIVE, "water_ratio": NOT_NEGATIVE}, holds={"water_ratio": (0.2, 1.0)})
def mixing_water(*, mixed: float, water_ratio: float) -> Mix:
    r"""Powder and water for a mass of plaster or cement mix.

    .. math:: m_p = \frac{m}{1 + w}, \quad m_w = m - m_p

    Parameters
    ----------
    mixed
        Of both together, :math:`m`. [kg]
    water_ratio
        Mass of water for a unit of powder, :math:`w`; 60 parts to 100 is 0.6. [-]

    Returns
    -------
    powder, water
        :math:`m_p, m_w`. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: water and powder only; sand, fibre and polymer are weighed beside. The ratio is the data sheet's: more water is weaker.
    Source: mass balance (exact).

    Examples
    --------
    >>> mix = mixing_water(mixed="8 kg", water_ratio=0.6)
    >>> print(f"{mix.powder.to('kg'):.1f~P}, {mix.water.to('kg'):.1f~P}")
    5.0 kg, 3.0 kg
    """
    powder = mixed / (1 + water_ratio)
    return Mix(powder, powder * water_ratio)


@door(mass="kg", area="m^2", density="kg/m^3", returns="m", possible={"mass": NOT_NEGATIVE, "area": POSITIVE, "density": POSITIVE})
def wall_from_mass(*, mass: float, area: float, density: float) -> float:
    r"""Mean wall of a hollow cast from what it weighs.

    .. math:: t = \frac{m}{A \rho}

    Parameters
    ----------
    mass
        Of the cast, :math:`m`. [kg]
    area
        Of its surface, :math:`A`. [m²]
    density
        Of the cast, :math:`\rho`. [kg/m³]

    Returns
    -------
    Mean wall. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: the mean only. Slushing leaves ridges thin and hollows thick: paint the ridges first.
    Source: volume of a thin shell (geometry).

    Examples
    --------
    >>> print(f"{wall_from_mass(mass='40.32 kg', area='1.68 m²', density='2.0 kg/L').to('mm'):.1f~P}")
    12.0 mm
    """
    return mass / area / density


class Slush(NamedTuple):
    """Fillings of a slush cast: how many, what stays each time, what is poured in each time. [kg]"""

    fillings: int
    stays: float
    poured: float


@door(area="m^2", wall="m", each="m", density="kg/m^3", poured_share="", returns={"stays": "kg", "poured": "kg"},
      possible={"area": POSITIVE, "wall": POSITIVE, "each": POSITIVE, "density": POSITIVE,
                "poured_share": Range(1, 1000, with_low=True, with_high=True)},
      holds={"each": (0.001, 0.010)})
def slush_fillings(*, area: float, wall: float, each: float, density: float, poured_share: float) -> Slush:
    r"""Fillings that build up a slush cast.

    .. math:: n = \left\lceil \frac{t}{t_1} \right\rceil, \quad m = \frac{A t \rho}{n}, \quad m_p = k m

    Parameters
    ----------
    area
        Of the cast, :math:`A`. [m²]
    wall
        Wanted, :math:`t`. [m]
    each
        That one filling leaves, :math:`t_1`. [m]
    density
        Of the cast material, :math:`\rho`. [kg/m³]
    poured_share
        Poured in over what stays, at least 1, :math:`k`; what is poured out again is used for the next. [-]

    Returns
    -------
    fillings
        :math:`n`.
    stays
        Mass that each leaves in the mold, :math:`m`. [kg]
    poured
        Mass mixed or melted for each, :math:`m_p`. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 fillings.

    Notes
    -----
    Range: gypsum 10 to 20 mm in all, wax for bronze 3 to 6 mm (common practice, no source). Rotation fills the mold once with
    just what stays.
    Source: volume of a thin shell (geometry).

    Examples
    --------
    >>> slush = slush_fillings(area="1.68 m²", wall="15 mm", each="5 mm", density="1.75 kg/L", poured_share=1.3)
    >>> print(slush.fillings, f"{slush.stays.to('kg'):.1f~P}, {slush.poured.to('kg'):.1f~P}")
    3 14.7 kg, 19.1 kg
    """
    fillings = count_up(wall / each, "number of fillings") or 1
    stays = float(cast_mass.si(area=area, wall=wall, density=density)) / fillings
    return Slush(fillings, stays, poured_share * stays)


@door(area="m^2", wall="m", density="kg/m^3", loss_share="", setting_time="s", usable_share="", mixing_time="s", rate="m^2/s",
      people_per_cup="", returns={"each": "kg"},
      possible={"area": NOT_NEGATIVE, "wall": POSITIVE, "density": POSITIVE, "loss_share": PART, "setting_time": POSITIVE,
                "usable_share": Range(0, 1, with_high=True), "mixing_time": NOT_NEGATIVE, "rate": POSITIVE, "people_per_cup": POSITIVE})
def lay_up_batches(*, area: float, wall: float, density: float, loss_share: float, setting_time: float, usable_share: float,
                   mixing_time: float, rate: float, people_per_cup: float) -> Batches:
    r"""Batches of a cast that is laid up by hand: each is placed before it sets.

    .. math:: m = \frac{A t \rho}{1 - l}, \quad m_1 \le \frac{r \, n \, (s \, t_s - t_m) \, t \, \rho}{1 - l}

    Parameters
    ----------
    area
        Of the cast, :math:`A`. [m²]
    wall
        Of this layer, face or backing, :math:`t`. [m]
    density
        Of the mix, :math:`\rho`. [kg/m³]
    loss_share
        Share of the mixed mass that is lost, :math:`l`. [-]
    setting_time
        From the water or the hardener until it stiffens, :math:`t_s`. [s]
    usable_share
        Of that time that is counted on, :math:`s`. [-]
    mixing_time
        Weighing, mixing and carrying a batch, :math:`t_m`. [s]
    rate
        Area that one person lays in a time, :math:`r`. [m²/s]
    people_per_cup
        Who lay from one batch, :math:`n`. [-]

    Returns
    -------
    count
        Batches.
    each
        Mass of each. [kg]
    under_least
        Always false here: a large batch is weighed well enough.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; no time left after mixing; more than
        100 000 batches.

    Notes
    -----
    Range: setting time at the day's temperature; warm water and old powder shorten it.
    Source: mass balance and the batches of a coat (exact).

    Examples
    --------
    A backing of 9 mm of fibre-cement, 45 min until it stiffens:

    >>> from moldcalc.units import Q
    >>> cut = lay_up_batches(area="1.68 m²", wall="9 mm", density="2.0 kg/L", loss_share=0.06, setting_time="45 min", usable_share=0.75,
    ...                      mixing_time="8 min", rate=Q(0.01, "m^2/min"), people_per_cup=2)
    >>> print(cut.count, f"{cut.each.to('kg'):.1f~P}")
    4 8.0 kg
    """
    usable = float(usable_time.si(working_time=setting_time, usable_share=usable_share, mixing_time=mixing_time))
    most = float(most_by_time.si(rate=rate, people_per_cup=people_per_cup, usable=usable, thickness=wall, density=density, loss_share=loss_share))
    net = float(cast_mass.si(area=area, wall=wall, density=density))
    found: Batches = cut_batches.si(total=mixed_mass.si(net=net, loss_share=loss_share), most=most)
    return found


class Pour(NamedTuple):
    """A cast poured in one go: batches, mass of each [kg], mixers that must run at once, time until the last is in [s]."""

    batches: int
    each: float
    mixers: int
    time: float


@door(mixed="kg", most="kg", mixing_time="s", pouring_time="s", setting_time="s", usable_share="", returns={"each": "kg", "time": "s"},
      possible={"mixed": POSITIVE, "most": POSITIVE, "mixing_time": POSITIVE, "pouring_time": NOT_NEGATIVE, "setting_time": POSITIVE,
                "usable_share": Range(0, 1, with_high=True)})
def pour_plan(*, mixed: float, most: float, mixing_time: float, pouring_time: float, setting_time: float, usable_share: float) -> Pour:
    r"""Batches and mixers for a cast that is poured whole before the first batch stiffens.

    .. math:: n = \lceil m / m_{most} \rceil, \quad k = \left\lceil \frac{n}{\lfloor (s \, t_s - t_p) / t_m \rfloor} \right\rceil

    Parameters
    ----------
    mixed
        Mass in all, :math:`m`. [kg]
    most
        That one mixer takes, :math:`m_{most}`. [kg]
    mixing_time
        Of one batch in one mixer, :math:`t_m`. [s]
    pouring_time
        From the end of mixing until it is in the mold, :math:`t_p`. [s]
    setting_time
        From the water or the hardener until it stiffens, :math:`t_s`. [s]
    usable_share
        Of that time that is counted on, :math:`s`. [-]

    Returns
    -------
    batches
        :math:`n`.
    each
        Mass of each. [kg]
    mixers
        That must run at once, :math:`k`.
    time
        From the first water until the last batch is in. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; not even one batch that goes in before it
        sets; more than 100 000 batches.

    Notes
    -----
    Range: each mixer starts a batch as it ends the last; all must be in while the first still flows, so that no cold joint
    stays. Shell, bolts and head are for the handling stage.
    Source: counting.

    Examples
    --------
    172 kg solid, 25 kg in a mixer, 4 min each:

    >>> plan = pour_plan(mixed="172 kg", most="25 kg", mixing_time="4 min", pouring_time="2 min", setting_time="25 min", usable_share=0.75)
    >>> print(plan.batches, plan.mixers, f"{plan.time.to('min'):.0f~P}")
    7 2 18 min
    """
    counted = usable_share * setting_time - pouring_time
    in_turn = counted / mixing_time
    if in_turn * (1 + 1e-9) < 1:
        within = show(max(0.0, counted), "min")
        raise EntryError(Fault("mixing time", show(mixing_time, "min"), f"one batch must be mixed within {within} to go in before it sets"))
    batches = count_up(mixed / most, "number of batches") or 1
    turns = int(min(in_turn * (1 + 1e-9), 1e6))
    mixers = -(-batches // turns)
    return Pour(batches, mixed / batches, mixers, -(-batches // mixers) * mixing_time + pouring_time)
