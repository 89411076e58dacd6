"""The knife's way through the seam band: two passes, a zigzag and a straight one."""

from math import atan2, hypot
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.mixing.counting import count_up
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show


class CutPasses(NamedTuple):
    """The two passes of the knife through the seam band, and the rubber at each side of the cut. [m]"""

    outer: float
    last: float
    side: float


@door(thickness="m", width="m", last="m", swing="m", returns={"outer": "m", "last": "m", "side": "m"},
      possible={"thickness": POSITIVE, "width": POSITIVE, "last": POSITIVE, "swing": NOT_NEGATIVE},
      holds={"thickness": (0.015, 0.020), "width": (0.040, 0.060), "last": (0.002, 0.003)})
def cut_passes(*, thickness: float, width: float, last: float, swing: float) -> CutPasses:
    r"""Depth of the two passes in which a seam band is cut.

    .. math:: d_1 = t - d_2, \quad a = \frac{w - s}{2}

    Parameters
    ----------
    thickness
        Of the rubber at the band, :math:`t`. [m]
    width
        Of the band, :math:`w`. [m]
    last
        Left for a fresh blade, straight along the line, :math:`d_2`. [m]
    swing
        Of the zigzag from side to side, :math:`s`. [m]

    Returns
    -------
    outer
        Depth of the first pass, :math:`d_1`. [m]
    last
        Depth of the second. [m]
    side
        Of thick band left beside the cut at its widest swing, :math:`a`. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a last pass deeper than the band; a swing
        wider than it.

    Notes
    -----
    Range: band 15 to 20 mm thick and 40 to 60 wide, the last 2 to 3 mm straight with a fresh scalpel (common practice, seen).
    Source: subtraction (exact).

    Examples
    --------
    >>> cut = cut_passes(thickness="18 mm", width="50 mm", last="3 mm", swing="10 mm")
    >>> print(f"{cut.outer.to('mm'):.0f~P}, {cut.side.to('mm'):.0f~P}")
    15 mm, 20 mm
    """
    if last >= thickness:
        raise EntryError(Fault("last", show(last, "mm"), f"it must be less than the band's thickness, {show(thickness, 'mm')}"))
    if swing >= width:
        raise EntryError(Fault("swing", show(swing, "mm"), f"it must be less than the band's width, {show(width, 'mm')}"))
    return CutPasses(thickness - last, last, (width - swing) / 2)


class Zigzag(NamedTuple):
    """A zigzag along the seam: its legs, its knife length [m], the slant of a leg from the line [rad], its depth [m]."""

    legs: int
    knife: float
    slant: float
    depth: float


@door(length="m", pitch="m", swing="m", thickness="m", depth_share="", last="m", returns={"knife": "m", "slant": "rad", "depth": "m"},
      possible={"length": POSITIVE, "pitch": POSITIVE, "swing": NOT_NEGATIVE, "thickness": POSITIVE, "depth_share": Range(0, 1, with_high=True),
                "last": POSITIVE},
      holds={"pitch": (0.010, 0.020), "depth_share": (0.4, 0.6)})
def zigzag(*, length: float, pitch: float, swing: float, thickness: float, depth_share: float, last: float) -> Zigzag:
    r"""Zigzag in the seam band: how many legs, how much knife work, how deep.

    .. math:: n = 2 \lceil L / p \rceil, \quad K = n \sqrt{\left( \tfrac{L}{n} \right)^2 + s^2}, \quad d = q t

    Parameters
    ----------
    length
        Of the seam, :math:`L`. [m]
    pitch
        From peak to peak on one side, at most, :math:`p`. [m]
    swing
        From side to side, :math:`s`. [m]
    thickness
        Of the band, :math:`t`. [m]
    depth_share
        Of the thickness that is cut as a zigzag, :math:`q`. [-]
    last
        That must stay for the straight cut. [m]

    Returns
    -------
    legs
        Straight strokes of the blade.
    knife
        Length of all strokes. [m]
    slant
        Of a stroke from the seam's line. [rad]
    depth
        Of the zigzag. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a zigzag that leaves too little for the
        straight cut.

    Notes
    -----
    Range: pitch 10 to 20 mm, half as deep as the band (from memory). Even zigzags can slip sideways in slippery rubber
    (seen): opposed slanting cuts lock.
    Source: geometry (exact); proportions from memory.

    Examples
    --------
    >>> cut = zigzag(length="2.4 m", pitch="15 mm", swing="10 mm", thickness="18 mm", depth_share=0.5, last="3 mm")
    >>> print(cut.legs, f"{cut.knife.to('m'):.1f~P}, {cut.slant.to('degree'):.0f~P}, {cut.depth.to('mm'):.0f~P}")
    320 4.0 m, 53 °, 9 mm
    """
    depth = depth_share * thickness
    if thickness - depth < last:
        stays = show(thickness - depth, "mm")
        raise EntryError(Fault("depth share", f"{depth_share:.3g}", f"it leaves {stays} of the band; {show(last, 'mm')} must stay"))
    legs = 2 * count_up(length / pitch, "number of zigzags")
    return Zigzag(legs, legs * hypot(length / legs, swing), atan2(swing, length / legs), depth)
