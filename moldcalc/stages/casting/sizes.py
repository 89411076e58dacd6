"""The chain of sizes from the original to the last cast, each step a band, and how much bigger the original should be."""

from dataclasses import dataclass
from math import isfinite, prod
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.casting.shrinkage import SHRINKAGE, linear_from_volume_shrinkage, oversize
from moldcalc.units import POSITIVE, door


class Sizes(NamedTuple):
    """A length after the last step, and after each step in turn as (low, likely, high). [m]"""

    low: float
    likely: float
    high: float
    steps: tuple[tuple[float, float, float], ...]


class Oversize(NamedTuple):
    """Factor on every length of the original: least, likely, most; the original itself. [-, m]"""

    low: float
    likely: float
    high: float
    original: float


def refuse_bands(low: list[float], likely: list[float], high: list[float]) -> None:
    """A low, a likely and a high for each step, in that order."""
    for entry, given in (("likely", likely), ("high", high)):
        if len(given) != len(low):
            raise EntryError(Fault(entry, f"a list of {len(given)}", f"give {len(low)}, one for each step"))
    for place, (least, middle, most) in enumerate(zip(low, likely, high, strict=True), start=1):
        if not least <= middle <= most:
            raise EntryError(Fault(f"likely of step {place}", f"{middle:.4g}", f"it must lie from {least:.4g} to {most:.4g}"))


@door(length="m", low="[]", likely="[]", high="[]", returns={"low": "m", "likely": "m", "high": "m"},
      possible={"length": POSITIVE, "low": SHRINKAGE, "likely": SHRINKAGE, "high": SHRINKAGE})
def size_chain(*, length: float, low: list[float], likely: list[float], high: list[float]) -> Sizes:
    r"""A length from the original through every mold and cast to the last one.

    .. math:: L = L_0 \prod (1 - s_i)

    Parameters
    ----------
    length
        On the original, :math:`L_0`. [m]
    low, likely, high
        Linear shrinkage of each step, :math:`s_i`, in order: rubber, master, its rubber, cast; below 0 where a material
        grows. [-]

    Returns
    -------
    low, likely, high
        After the last step; the low length is that of the high shrinkages. [m]
    steps
        After each step: low, likely, high. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; a likely value
        outside its band.

    Notes
    -----
    Range: each step shrinks alike in all directions, and all steps to the same side at once: the widest band there is.
    Source: shrinkages one after another multiply (exact).

    Examples
    --------
    Rubber 0.3 % (0.1 to 1.0), cement drying 0.05 to 0.1 % more:

    >>> size = size_chain(length="1090 mm", low=[0.001, 0.0005], likely=[0.003, 0.00075], high=[0.010, 0.001])
    >>> print(f"{size.low.to('mm').magnitude:.0f} to {size.high.to('mm').magnitude:.0f}, likely {size.likely.to('mm').magnitude:.0f} mm")
    1078 to 1088, likely 1086 mm
    """
    refuse_bands(low, likely, high)
    steps, now = [], (length, length, length)
    for least, middle, most in zip(low, likely, high, strict=True):
        now = (now[0] * (1 - most), now[1] * (1 - middle), now[2] * (1 - least))
        steps.append(now)
    return Sizes(*now, tuple(steps))


@door(wanted="m", low="[]", likely="[]", high="[]", returns={"original": "m"},
      possible={"wanted": POSITIVE, "low": SHRINKAGE, "likely": SHRINKAGE, "high": SHRINKAGE})
def original_for(*, wanted: float, low: list[float], likely: list[float], high: list[float]) -> Oversize:
    r"""How much bigger the original should be, so that the last cast comes out at a wanted length.

    .. math:: k = \prod \frac{1}{1 - s_i}, \quad L_0 = k L

    Parameters
    ----------
    wanted
        Length of the last cast, :math:`L`. [m]
    low, likely, high
        Linear shrinkage of each step, :math:`s_i`; below 0 where a material grows. [-]

    Returns
    -------
    low, likely, high
        Factor on every length, :math:`k`. [-]
    original
        Length to make it, by the likely shrinkages, :math:`L_0`. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; a likely value
        outside its band.

    Notes
    -----
    Range: as the chain. A band wider than what is allowed asks for a trial cast of a bar of known length.
    Source: shrinkages one after another multiply (exact).

    Examples
    --------
    >>> made = original_for(wanted="1000 mm", low=[0.001], likely=[0.003], high=[0.010])
    >>> print(f"{made.low:.4f} to {made.high:.4f}: {made.original.to('mm'):.0f~P}")
    1.0010 to 1.0101: 1003 mm
    """
    refuse_bands(low, likely, high)
    least, middle, most = (float(oversize.si(shrinkages=list(step))) for step in (low, likely, high))
    if not (isfinite(most) and prod((least, middle, most)) > 0):
        raise OverflowError
    return Oversize(least, middle, most, middle * wanted)


@dataclass(frozen=True)
class ShrinkageFigure:
    """A figure somebody states: what shrinks, from low to high (a share), of length or of volume, who says so, how sure."""

    material: str
    low: float
    high: float
    of_volume: bool
    source: str
    status: str


#: statements that disagree are all kept; below 0 the material grows
FIGURES: tuple[ShrinkageFigure, ...] = (
    ShrinkageFigure("tin-cure silicone", 0.001, 0.010, True, "conservation poster on choosing mold silicones: 0.1 to 1 % of volume", "verified"),
    ShrinkageFigure("tin-cure silicone", 0.008, 0.012, False, "another public source: 0.8 to 1.2 %, of what is not said", "verified"),
    ShrinkageFigure("tin-cure silicone", 0.0025, 0.006, False, "suppliers' claims: 0.25 and 0.6 %, linear", "verified"),
    ShrinkageFigure("addition-cure silicone", 0.0, 0.001, False, "chemistry summary: below 0.1 %", "verified"),
    ShrinkageFigure("pottery plaster", -0.0021, -0.0019, False, "property list of gypsums, 2009: 0.19 to 0.21 %", "verified"),
    ShrinkageFigure("molding plaster", -0.0020, -0.0020, False, "the same list: 0.20 %", "verified"),
    ShrinkageFigure("casting plaster", -0.0022, -0.0022, False, "the same list: 0.22 %", "verified"),
    ShrinkageFigure("hard gypsum", -0.0039, -0.0008, False, "the same list: three gypsum cements, 0.08, 0.24 and 0.39 %", "verified"),
    ShrinkageFigure("polyester resin", 0.05, 0.13, True, "one public source: 5 to 13 % of volume", "verified"),
    ShrinkageFigure("polyester resin", 0.0, 0.08, True, "composites guide, 2019: up to 8 %, taken as of volume", "verified"),
    ShrinkageFigure("epoxy resin", 0.02, 0.07, True, "one public source: 2 to 7 % of volume", "verified"),
    ShrinkageFigure("epoxy resin", 0.02, 0.02, True, "composites guide, 2019: about 2 %, taken as of volume", "verified"),
    ShrinkageFigure("polyurethane resin", 0.002, 0.008, False, "0.2 to 0.8 % of a bar, more with mass and heat", "from memory"),
    ShrinkageFigure("fibre-cement", 0.0005, 0.001, False, "drying, 0.05 to 0.1 %", "from memory"),
)
MATERIALS = tuple(dict.fromkeys(figure.material for figure in FIGURES))


class ShrinkageBand(NamedTuple):
    """Linear shrinkage from low to high, over all that is said of a material, and those figures."""

    low: float
    high: float
    figures: tuple[ShrinkageFigure, ...]


def shrinkage_band(material: str) -> ShrinkageBand:
    """The band of linear shrinkage that holds every figure known of a material; below 0 it grows.

    Raises
    ------
    EntryError
        A material of which no figure is known.

    Notes
    -----
    Range: figures disagree by the ways of measuring, and by the age at which it was measured. Not in the band: one user's
    measured 3 % of a tin-cure rubber (anecdote). Wax is left out: no figure was found. Dental gypsums have classes of their
    own in ISO 6873 (classes verified, limits not read).
    Source: `FIGURES`, each with its source and status.

    Examples
    --------
    >>> band = shrinkage_band("tin-cure silicone")
    >>> f"{100 * band.low:.3f} to {100 * band.high:.1f} %", len(band.figures)
    ('0.033 to 1.2 %', 3)
    """
    figures = tuple(figure for figure in FIGURES if figure.material == material)
    if not figures:
        raise EntryError(Fault("material", f"{material!s:.40}", f"no shrinkage is known here; known are {', '.join(MATERIALS)}"))
    return ShrinkageBand(min(_linear(figure.low, figure) for figure in figures), max(_linear(figure.high, figure) for figure in figures), figures)


def _linear(share: float, figure: ShrinkageFigure) -> float:
    return float(linear_from_volume_shrinkage.si(volume_shrinkage=share)) if figure.of_volume else share
