"""How many casts a mold may give, by cast material, and what one cast costs with its share of the mold."""

from dataclasses import dataclass
from math import isfinite
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.mixing.counting import count_up
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door


@dataclass(frozen=True)
class LifeBand:
    """Casts that a mold may give in a cast material: from fewest to most, and what is behind it."""

    material: str
    fewest: float
    most: float
    source: str
    status: str


_KNOWN = "general knowledge of the trade; bands are wide, no source"
#: never one number: the same rubber gave one caster some 500 and another a handful
LIVES: tuple[LifeBand, ...] = (
    LifeBand("wax", 50, 300, f"{_KNOWN}; 'hundreds' is taken as 300", "common practice"),
    LifeBand("gypsum", 50, 300, f"{_KNOWN}; 'hundreds' is taken as 300", "common practice"),
    LifeBand("fibre-cement", 20, 100, _KNOWN, "common practice"),
    LifeBand("polyurethane resin", 15, 40, _KNOWN, "common practice"),
    LifeBand("polyester resin", 10, 40, _KNOWN, "common practice"),
    LifeBand("epoxy resin", 5, 20, _KNOWN, "common practice"),
)


def casts_per_mold(material: str, *, released: bool = False) -> LifeBand:
    """The band of casts for a material; a release every time may double the upper end, and promises nothing at the lower.

    Raises
    ------
    EntryError
        A cast material of which nothing is known.

    Notes
    -----
    Range: casts, not years; a tin-cure rubber also ages 1 to 5 years on the shelf (seen). What tears first is the thinnest
    high point. Count your own and write them on the mold.
    Source: common practice, no source; a release about doubles it (seen).

    Examples
    --------
    >>> band = casts_per_mold("fibre-cement")
    >>> band.fewest, band.most, band.status
    (20, 100, 'common practice')
    """
    for band in LIVES:
        if band.material == material:
            return LifeBand(material, band.fewest, 2 * band.most, f"{band.source}; doubled by release (seen)", band.status) if released else band
    known = ", ".join(band.material for band in LIVES)
    raise EntryError(Fault("cast material", f"{material!s:.40}", f"no count of casts is known here; known are {known}"))


class Molds(NamedTuple):
    """Molds for an edition where each lasts long, and where each wears out soon."""

    least: int
    most: int


@door(casts="", made="", fewest="", most="", returns=None,
      possible={"casts": NOT_NEGATIVE, "made": NOT_NEGATIVE, "fewest": POSITIVE, "most": POSITIVE})
def molds_needed(*, casts: float, made: float, fewest: float, most: float) -> Molds:
    r"""Rubber skins that an edition may take, the casts already made counted against the first.

    .. math:: n = \left\lceil \frac{N + c}{m} \right\rceil

    Parameters
    ----------
    casts
        Still wanted, :math:`N`. [-]
    made
        In the mold at hand so far, :math:`c`. [-]
    fewest, most
        Casts that one mold may give, :math:`m`. [-]

    Returns
    -------
    least, most
        Molds in all, the one at hand with them.

    Raises
    ------
    EntryError
        An entry outside what is possible; fewest above most; more than 100 000 molds.

    Notes
    -----
    Range: a band of trade figures; your own count of casts is worth more than both its ends.
    Source: division (exact) of bands that are common practice, no source.

    Examples
    --------
    >>> molds_needed(casts=24, made=6, fewest=20, most=100)
    Molds(least=1, most=2)
    """
    if fewest > most:
        raise EntryError(Fault("fewest", f"{fewest:g}", f"it must be at most the most, {most:g}"))
    return Molds(count_up((casts + made) / most, "number of molds"), count_up((casts + made) / fewest, "number of molds"))


class CastCost(NamedTuple):
    """Money for one cast: its share of the mold, what it takes itself, both."""

    mold_share: float
    itself: float
    total: float


@door(mold="", casts="", material="", hours="", pay_of_hour="", returns=None,
      possible={"mold": NOT_NEGATIVE, "casts": Range(0, 1e6), "material": NOT_NEGATIVE, "hours": NOT_NEGATIVE, "pay_of_hour": NOT_NEGATIVE})
def cost_of_cast(*, mold: float, casts: float, material: float, hours: float, pay_of_hour: float) -> CastCost:
    r"""What one cast costs, its share of the mold included.

    .. math:: C = \frac{C_m}{n} + c + h w

    Parameters
    ----------
    mold
        Money for mold and shell, work included, :math:`C_m`. [-]
    casts
        That share it, :math:`n`. [-]
    material
        Money for one cast's material, :math:`c`. [-]
    hours
        Of work on one cast, cleaning included, :math:`h`. [-]
    pay_of_hour
        Money for one hour, :math:`w`. [-]

    Returns
    -------
    mold_share, itself, total
        Money.

    Raises
    ------
    EntryError
        An entry outside what is possible.

    Notes
    -----
    Range: share the mold over the casts that are ordered, not over those it might give.
    Source: sum (exact).

    Examples
    --------
    >>> cost_of_cast(mold=3000, casts=6, material=60, hours=10, pay_of_hour=30)
    CastCost(mold_share=500.0, itself=360.0, total=860.0)
    """
    itself = material + hours * pay_of_hour
    total = mold / casts + itself
    if not isfinite(total):
        raise OverflowError
    return CastCost(mold / casts, itself, total)
