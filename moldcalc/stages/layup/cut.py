"""The cut list: strips to cut and metres off the roll."""

from moldcalc.stages.layup.cover import refuse_wide_overlap, strip_overlap_factor
from moldcalc.stages.mixing.counting import count_up
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


@door(area="m^2", strip_width="m", strip_length="m", overlap="m", returns="",
      possible={"area": NOT_NEGATIVE, "strip_width": POSITIVE, "strip_length": POSITIVE, "overlap": NOT_NEGATIVE})
def strips_needed(*, area: float, strip_width: float, strip_length: float, overlap: float) -> float:
    r"""Strips that cover an area once, overlapping on all sides.

    .. math:: n = \left\lceil \frac{A}{(w - o)(l - o)} \right\rceil

    Parameters
    ----------
    area
        Of one ply, :math:`A`. [m²]
    strip_width, strip_length
        As cut, :math:`w, l`. [m]
    overlap
        On a neighbour, :math:`o`. [m]

    Returns
    -------
    Number of strips. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; an overlap as wide as the strip; more
        than 100 000 strips.

    Notes
    -----
    Range: a face that is large beside a strip; on small or very curved faces cut some more.
    Source: geometry (exact on an endless face).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> strips_needed(area=Q(0.61, "m^2"), strip_width=Q(150, "mm"), strip_length=Q(600, "mm"), overlap=Q(25, "mm"))
    9
    """
    refuse_wide_overlap(overlap, strip_width, "strip width")
    refuse_wide_overlap(overlap, strip_length, "strip length")
    return count_up(area / ((strip_width - overlap) * (strip_length - overlap)), "number of strips")


@door(area_of_ply="m^2", roll_width="m", overlap="m", waste="", returns="m",
      possible={"area_of_ply": NOT_NEGATIVE, "roll_width": POSITIVE, "overlap": NOT_NEGATIVE, "waste": NOT_NEGATIVE},
      holds={"waste": (0.0, 0.30)})
def roll_length(*, area_of_ply: float, roll_width: float, overlap: float, waste: float) -> float:
    r"""Length off the roll for one ply.

    .. math:: L = \frac{A}{w - o} (1 + x)

    Parameters
    ----------
    area_of_ply
        To be covered once, :math:`A`. [m²]
    roll_width
        :math:`w`. [m]
    overlap
        Of two widths side by side, :math:`o`. [m]
    waste
        Added for what falls off, as a share of what is used, :math:`x`. [-]

    Returns
    -------
    Length. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; an overlap as wide as the roll.

    Notes
    -----
    Range: waste 0.10 to 0.15 for cloth, 0.05 to 0.10 for mat (common practice, no source).
    Source: geometry (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{roll_length(area_of_ply=Q(1.78, 'm^2'), roll_width=Q(1.27, 'm'), overlap=Q(40, 'mm'), waste=0.12).to('m'):.2f~P}")
    1.62 m
    """
    factor = float(strip_overlap_factor.si(width=roll_width, overlap=overlap))
    return area_of_ply / roll_width * factor * (1 + waste)
