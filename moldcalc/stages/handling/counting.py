"""How many bolts hold a joint shut."""

from moldcalc.stages.mixing.counting import count_up
from moldcalc.units import POSITIVE, door


@door(length="m", spacing="m", returns="", possible={"length": POSITIVE, "spacing": POSITIVE})
def bolts_along(*, length: float, spacing: float) -> float:
    r"""Bolts along a joint with two ends, one at each end.

    .. math:: n = \lceil L / p \rceil + 1

    Parameters
    ----------
    length
        From the first bolt to the last, :math:`L`. [m]
    spacing
        At most, :math:`p`. [m]

    Returns
    -------
    Number of bolts. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 bolts.

    Notes
    -----
    Range: 100 to 150 mm for casts laid up by hand, 75 to 100 mm for heavy pours (common practice, no source).
    Source: counting.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> bolts_along(length=Q(1.05, "m"), spacing=Q(150, "mm"))
    8
    """
    return count_up(length / spacing, "number of bolts") + 1


@door(length="m", spacing="m", returns="", possible={"length": POSITIVE, "spacing": POSITIVE})
def bolts_round(*, length: float, spacing: float) -> float:
    r"""Bolts round a closed line.

    .. math:: n = \lceil L / p \rceil

    Parameters
    ----------
    length
        Once round, :math:`L`. [m]
    spacing
        At most, :math:`p`. [m]

    Returns
    -------
    Number of bolts. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 bolts.

    Notes
    -----
    Range: up to 200 mm for a foot on a board (common practice, no source).
    Source: counting.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> bolts_round(length=Q(2.7, "m"), spacing=Q(200, "mm"))
    14
    """
    return count_up(length / spacing, "number of bolts")
