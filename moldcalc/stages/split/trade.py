"""What a way of dividing costs: paste against joints, in money and hours."""

from math import isfinite
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door

HOUR = 3600.0


@door(volume="m^3", density="kg/m^3", returns="kg", possible={"volume": NOT_NEGATIVE, "density": POSITIVE})
def fill_mass(*, volume: float, density: float) -> float:
    r"""Mass of the paste that fills so many litres.

    .. math:: m = V \rho

    Parameters
    ----------
    volume
        To be filled, :math:`V`. [m³]
    density
        Of the paste as mixed, :math:`\rho`. [kg/m³]

    Returns
    -------
    Mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; losses in the cups come on top.
    Source: definition of density.

    Examples
    --------
    >>> print(f"{fill_mass(volume='1.5 L', density='1.18 kg/L').to('kg'):.2f~P}")
    1.77 kg
    """
    return volume * density


@door(volume="m^3", density="kg/m^3", price_of_kilogram="", returns="",
      possible={"volume": NOT_NEGATIVE, "density": POSITIVE, "price_of_kilogram": NOT_NEGATIVE})
def fill_cost(*, volume: float, density: float, price_of_kilogram: float) -> float:
    r"""Money for the paste that fills an undercut.

    .. math:: C_f = V \rho \, c

    Parameters
    ----------
    volume
        To be filled, :math:`V`. [m³]
    density
        Of the paste as mixed, :math:`\rho`. [kg/m³]
    price_of_kilogram
        Money for one kilogram of paste, :math:`c`. [-]

    Returns
    -------
    Money, in the currency of the price. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: paste only; its hour of work and the harder stripping are not in it.
    Source: volume times density times price (computed).

    Examples
    --------
    >>> print(f"{fill_cost(volume='1.5 L', density='1.18 kg/L', price_of_kilogram=22):.2f}")
    38.94
    """
    return float(fill_mass.si(volume=volume, density=density)) * price_of_kilogram


@door(joint_length="m", flange_time="s", section_time="s", sections="", returns="s",
      possible={"joint_length": NOT_NEGATIVE, "flange_time": NOT_NEGATIVE, "section_time": NOT_NEGATIVE, "sections": NOT_NEGATIVE})
def split_time(*, joint_length: float, flange_time: float, section_time: float, sections: float) -> float:
    r"""Working time that joints and sections take.

    .. math:: T = L \, t_L + n \, t_n

    Parameters
    ----------
    joint_length
        Of all the joints, :math:`L`. [m]
    flange_time
        For one metre of joint: shims, flanges on both sides, drilling, trimming, :math:`t_L`. [s]
    section_time
        For one section whatever its joints: waxing, setting up, cleaning, :math:`t_n`. [s]
    sections
        How many, :math:`n`. [-]

    Returns
    -------
    Working time of one person. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: one more section is about half a day to a day (common practice, no source).
    Source: sum.

    Examples
    --------
    >>> print(f"{split_time(joint_length='6 m', flange_time='1.5 h', section_time='4 h', sections=3).to('h'):.0f~P}")
    21 h
    """
    return joint_length * flange_time + sections * section_time


@door(joint_length="m", flange_time="s", section_time="s", sections="", pay_of_hour="", flange_material="", bolts="", price_of_bolt="", returns="",
      possible={"joint_length": NOT_NEGATIVE, "flange_time": NOT_NEGATIVE, "section_time": NOT_NEGATIVE, "sections": NOT_NEGATIVE,
                "pay_of_hour": NOT_NEGATIVE, "flange_material": NOT_NEGATIVE, "bolts": NOT_NEGATIVE, "price_of_bolt": NOT_NEGATIVE})
def divide_cost(*, joint_length: float, flange_time: float, section_time: float, sections: float, pay_of_hour: float, flange_material: float,
                bolts: float, price_of_bolt: float) -> float:
    r"""Money for joints and sections.

    .. math:: C_d = (L \, t_L + n \, t_n) \, w + L \, c_L + b \, c_b

    Parameters
    ----------
    joint_length
        Of all the joints, or of the one more that is weighed against a fill, :math:`L`. [m]
    flange_time
        For one metre of joint, :math:`t_L`. [s]
    section_time
        For one section, :math:`t_n`. [s]
    sections
        How many, or 1 for one more, :math:`n`. [-]
    pay_of_hour
        Money for one hour of work, :math:`w`. [-]
    flange_material
        Money for glass, resin and shim of one metre of joint, :math:`c_L`. [-]
    bolts
        How many, :math:`b`. [-]
    price_of_bolt
        With nut and washers, :math:`c_b`. [-]

    Returns
    -------
    Money, in the currency of the prices. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: hours of an unpaid maker count too, as what else they could be used for.
    Source: joint length times flange labour, bolts and half a day for a section (computed; common practice).

    Examples
    --------
    One more section: 2 m of joint, 16 bolts, half a day.

    >>> divide_cost(joint_length='2 m', flange_time='1.5 h', section_time='4 h', sections=1, pay_of_hour=30, flange_material=12,
    ...             bolts=16, price_of_bolt=0.75)
    246.0
    """
    hours = float(split_time.si(joint_length=joint_length, flange_time=flange_time, section_time=section_time, sections=sections)) / HOUR
    return hours * pay_of_hour + joint_length * flange_material + bolts * price_of_bolt


@door(divide_cost="", density="kg/m^3", price_of_kilogram="", returns="m^3",
      possible={"divide_cost": NOT_NEGATIVE, "density": POSITIVE, "price_of_kilogram": POSITIVE})
def break_even_volume(*, divide_cost: float, density: float, price_of_kilogram: float) -> float:
    r"""Fill above which one more section is the cheaper way.

    .. math:: V = \frac{C_d}{\rho \, c}

    Parameters
    ----------
    divide_cost
        Money for the one more section with its joint, :math:`C_d`. [-]
    density
        Of the paste as mixed, :math:`\rho`. [kg/m³]
    price_of_kilogram
        Money for one kilogram of paste, :math:`c`. [-]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: the rule of thumb is 1 to 2 litres (common practice, no source); a filled mold is also heavier and harder to strip.
    Source: fill cost equal to divide cost (computed).

    Examples
    --------
    >>> print(f"{break_even_volume(divide_cost=246, density='1.18 kg/L', price_of_kilogram=22).to('L'):.2f~P}")
    9.48 l
    """
    return divide_cost / (density * price_of_kilogram)


class Cheapest(NamedTuple):
    """The cheapest of several ways to divide: its place in the list, its number of sections, its cost, and the costs of all."""

    place: int
    sections: float
    cost: float
    costs: tuple[float, ...]


@door(sections="[]", volumes="m^3[]", joint_lengths="m[]", bolts="[]", density="kg/m^3", price_of_kilogram="", flange_time="s", section_time="s",
      pay_of_hour="", flange_material="", price_of_bolt="", returns=None,
      possible={"sections": POSITIVE, "volumes": NOT_NEGATIVE, "joint_lengths": NOT_NEGATIVE, "bolts": NOT_NEGATIVE, "density": POSITIVE,
                "price_of_kilogram": NOT_NEGATIVE, "flange_time": NOT_NEGATIVE, "section_time": NOT_NEGATIVE, "pay_of_hour": NOT_NEGATIVE,
                "flange_material": NOT_NEGATIVE, "price_of_bolt": NOT_NEGATIVE})
def cheapest_split(*, sections: list[float], volumes: list[float], joint_lengths: list[float], bolts: list[float], density: float,
                   price_of_kilogram: float, flange_time: float, section_time: float, pay_of_hour: float, flange_material: float,
                   price_of_bolt: float) -> Cheapest:
    r"""Which of several ways to divide costs least, paste and joints together.

    .. math:: C_k = V_k \rho \, c + (L_k t_L + n_k t_n) \, w + L_k c_L + b_k c_b

    Parameters
    ----------
    sections
        Of each way, :math:`n_k`. [-]
    volumes
        Of paste that each way needs, :math:`V_k`. [m³]
    joint_lengths
        Of each way, :math:`L_k`. [m]
    bolts
        Of each way, :math:`b_k`. [-]
    density
        Of the paste as mixed, :math:`\rho`. [kg/m³]
    price_of_kilogram
        Money for one kilogram of paste, :math:`c`. [-]
    flange_time
        For one metre of joint, :math:`t_L`. [s]
    section_time
        For one section, :math:`t_n`. [s]
    pay_of_hour
        Money for one hour of work, :math:`w`. [-]
    flange_material
        Money for one metre of joint, :math:`c_L`. [-]
    price_of_bolt
        With nut and washers, :math:`c_b`. [-]

    Returns
    -------
    place
        In the lists, from 0.
    sections
        Of the cheapest; where two cost the same, the fewer.
    cost
        Of the cheapest.
    costs
        Of all, in their order.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: money only; weight, stripping and seams that show are for the maker to weigh.
    Source: sum of fill cost and divide cost (computed).

    Examples
    --------
    Three sections with 14 L of paste, four with 3 L, seven with 0.5 L:

    >>> found = cheapest_split(sections=[3, 4, 7], volumes=['14 L', '3 L', '0.5 L'], joint_lengths=['5 m', '7 m', '13 m'],
    ...                        bolts=[40, 56, 104], density='1.18 kg/L', price_of_kilogram=22, flange_time='1.5 h', section_time='4 h',
    ...                        pay_of_hour=30, flange_material=12, price_of_bolt=0.75)
    >>> found.sections, [round(cost, 2) for cost in found.costs]
    (4.0, [1038.44, 998.88, 1671.98])
    """
    ways = len(sections)
    for entry, given in (("volumes", volumes), ("joint lengths", joint_lengths), ("bolts", bolts)):
        if len(given) != ways:
            raise EntryError(Fault(entry, f"a list of {len(given)}", f"give {ways}, one for each number of sections"))
    costs = tuple(
        float(fill_cost.si(volume=volume, density=density, price_of_kilogram=price_of_kilogram))
        + float(divide_cost.si(joint_length=joint, flange_time=flange_time, section_time=section_time, sections=count, pay_of_hour=pay_of_hour,
                               flange_material=flange_material, bolts=bolt, price_of_bolt=price_of_bolt))
        for count, volume, joint, bolt in zip(sections, volumes, joint_lengths, bolts, strict=True))
    if not all(map(isfinite, costs)):
        raise EntryError(Fault("cost", "beyond all numbers", "check the sizes and prices"))
    place = min(range(ways), key=lambda way: (costs[way], sections[way]))
    return Cheapest(place, sections[place], costs[place], costs)
