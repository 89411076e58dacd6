"""From the figure's smooth area to the area that takes rubber."""

from math import inf
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show


class SizeBand(NamedTuple):
    """The answer of several methods; ``agree`` says whether their bands have any size in common."""

    low: float
    likely: float
    high: float
    agree: bool


@door(smooth_area="m^2", detail_factor="", returns="m^2",
      possible={"smooth_area": POSITIVE, "detail_factor": Range(1, inf, with_low=True)}, holds={"detail_factor": (1, 1.5)})
def with_detail(*, smooth_area: float, detail_factor: float) -> float:
    r"""Area with the texture that tape, foil and plain solids don't see.

    .. math:: A = f \, A_s

    Parameters
    ----------
    smooth_area
        Without texture, :math:`A_s`. [m²]
    detail_factor
        Hair, scales and folds make the area that many times larger, :math:`f`; 1 is smooth. [-]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: 1 to 1.5 (our own limits).
    Source: definition. No published factor was found: it is the maker's own guess, so give a low and a high. An area
    from a scan already has the detail that the scan has.

    Examples
    --------
    >>> print(f"{with_detail(smooth_area='1.50 m²', detail_factor=1.12):.2f~P}")
    1.68 m²
    """
    return smooth_area * detail_factor


@door(outline="m", width="m", returns="m^2", possible={"outline": NOT_NEGATIVE, "width": NOT_NEGATIVE})
def flange_area(*, outline: float, width: float) -> float:
    r"""Area of the rubber's flange on the board round the base.

    .. math:: A = L \, w

    Parameters
    ----------
    outline
        Of the base, tape round it, :math:`L`. [m]
    width
        Of the flange, :math:`w`. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a flange narrow against the outline, its corners left out. Rounded off all the way round it has
    :math:`\pi w^2` more.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{flange_area(outline='2.7 m', width='65 mm'):.4f~P}")
    0.1755 m²
    """
    return outline * width


@door(area="m^2", flange_area="m^2", returns="m^2", possible={"area": POSITIVE, "flange_area": NOT_NEGATIVE})
def area_to_coat(*, area: float, flange_area: float) -> float:
    r"""Area that takes rubber: the figure and the flange round its base.

    .. math:: A = A_o + A_f

    Parameters
    ----------
    area
        Of the original without its base, detail included, :math:`A_o`. [m²]
    flange_area
        Of the flange on the board, :math:`A_f`. [m²]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: definition.

    Examples
    --------
    >>> print(f"{area_to_coat(area='1.68 m²', flange_area='0.1755 m²'):.3f~P}")
    1.855 m²
    """
    return area + flange_area


def _refuse_disorder(lows: list[float], likelies: list[float], highs: list[float]) -> None:
    for name, column in (("likelies", likelies), ("highs", highs)):
        if len(column) != len(lows):
            raise EntryError(Fault(f"list of {name}", f"{len(column)} long", f"give one for each of the {len(lows)} lows"))
    for low, likely, high in zip(lows, likelies, highs, strict=True):
        if not low <= likely <= high:
            raise EntryError(Fault("likely size", f"{show(likely, 'm²')}, between {show(low, 'm²')} and {show(high, 'm²')}",
                                   "give low, likely and high in rising order"))


@door(lows="m^2[]", likelies="m^2[]", highs="m^2[]", returns={"low": "m^2", "likely": "m^2", "high": "m^2"},
      possible={"lows": POSITIVE, "likelies": POSITIVE, "highs": POSITIVE})
def size_band(*, lows: list[float], likelies: list[float], highs: list[float]) -> SizeBand:
    r"""One area with its band from the answers of several methods, the most trusted first.

    .. math:: \left[ \min_i A_{i,low}, \; A_{1,likely}, \; \max_i A_{i,high} \right]

    Parameters
    ----------
    lows, likelies, highs
        Of each method, the most trusted first. [m²]

    Returns
    -------
    low, likely, high [m²]; agree: whether all bands have some size in common.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; a likely
        value outside its band.

    Notes
    -----
    Range: the likely size is that of the method named first; low and high are the lowest and highest of all methods.
    Nothing is averaged: methods err for different reasons, and two poor ones don't outvote a good one. Where the
    bands have no size in common, at least one method went wrong: measure again.
    Source: our own rule.

    Examples
    --------
    >>> band = size_band(lows=["1.6 m²", "1.3 m²"], likelies=["1.7 m²", "1.5 m²"], highs=["1.8 m²", "1.7 m²"])
    >>> f"{band.low:~P}, {band.likely:~P}, {band.high:~P}, {band.agree}"
    '1.3 m², 1.7 m², 1.8 m², True'
    """
    _refuse_disorder(lows, likelies, highs)
    return SizeBand(min(lows), likelies[0], max(highs), agree=max(lows) <= min(highs))
