"""Strips of rubber along the joints: their mass, the slot for the shim, and while they are fresh enough to bond."""

from typing import Literal, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.paste.volumes import strip_volume
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show

Bond = Literal["too soon", "bonds", "abrade and test"]


class Slot(NamedTuple):
    """The slot in a strip: its width, the rubber left on each side of it and under it. [m]"""

    width: float
    side: float
    under: float


@door(shim="m", clearance="m", depth="m", strip_top="m", strip_height="m", returns={"width": "m", "side": "m", "under": "m"},
      possible={"shim": POSITIVE, "clearance": NOT_NEGATIVE, "depth": POSITIVE, "strip_top": POSITIVE, "strip_height": POSITIVE},
      holds={"shim": (0.0015, 0.003), "strip_top": (0.015, 0.030)})
def strip_slot(*, shim: float, clearance: float, depth: float, strip_top: float, strip_height: float) -> Slot:
    r"""Slot that takes a shim, and what it leaves of the strip.

    .. math:: w = s + 2 c, \quad a = \frac{b - w}{2}, \quad u = h - d

    Parameters
    ----------
    shim
        Thickness of the sheet with its release, :math:`s`. [m]
    clearance
        On each side of it, :math:`c`. [m]
    depth
        Of the slot, :math:`d`. [m]
    strip_top
        Width of the strip's top, :math:`b`. [m]
    strip_height
        :math:`h`. [m]

    Returns
    -------
    width, side, under
        Of the slot; of rubber beside it; of rubber below it. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a slot as wide as the strip or as deep.

    Notes
    -----
    Range: a slot of 3/16 in for sheets of 1.5 to 3 mm in a strip of 25 x 19 mm was seen (common practice).
    Source: subtraction (exact).

    Examples
    --------
    >>> slot = strip_slot(shim="2 mm", clearance="1.4 mm", depth="12 mm", strip_top="25 mm", strip_height="19 mm")
    >>> print(f"{slot.width.to('mm'):.1f~P}, {slot.side.to('mm'):.1f~P}, {slot.under.to('mm'):.0f~P}")
    4.8 mm, 10.1 mm, 7 mm
    """
    width = shim + 2 * clearance
    if width >= strip_top:
        raise EntryError(Fault("shim", show(shim, "mm"), f"with its clearance it must be thinner than the strip's top, {show(strip_top, 'mm')}"))
    if depth >= strip_height:
        raise EntryError(Fault("depth", show(depth, "mm"), f"it must be less than the strip's height, {show(strip_height, 'mm')}"))
    return Slot(width, (strip_top - width) / 2, strip_height - depth)


@door(length="m", width_top="m", width_base="m", height="m", slot_width="m", slot_depth="m", density="kg/m^3", returns="kg",
      possible={"length": NOT_NEGATIVE, "width_top": POSITIVE, "width_base": POSITIVE, "height": POSITIVE, "slot_width": NOT_NEGATIVE,
                "slot_depth": NOT_NEGATIVE, "density": POSITIVE})
def strip_mass(*, length: float, width_top: float, width_base: float, height: float, slot_width: float, slot_depth: float, density: float) -> float:
    r"""Rubber in strips, their slot left out.

    .. math:: m = \rho \, L \left( \frac{b + B}{2} h - w d \right)

    Parameters
    ----------
    length
        Of all strips together, :math:`L`. [m]
    width_top, width_base, height
        Of the section, :math:`b, B, h`. [m]
    slot_width, slot_depth
        Of the slot, :math:`w, d`; 0 where it is cut later. [m]
    density
        Of the rubber, :math:`\rho`. [kg/m³]

    Returns
    -------
    Mass in place. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a slot larger than the strip.

    Notes
    -----
    Range: exact; what is lost in cups and channel comes on top. Left-over mix of the coats is a good source of strips.
    Source: geometry.

    Examples
    --------
    4.5 m of strip, 15 mm wide at the top, 25 at the base, 12 high, no slot:

    >>> m = strip_mass(length="4.5 m", width_top="15 mm", width_base="25 mm", height="12 mm", slot_width="0 mm", slot_depth="0 mm",
    ...                density="1.18 kg/L")
    >>> print(f"{m.to('kg'):.2f~P}")
    1.27 kg
    """
    if slot_width >= min(width_top, width_base):
        raise EntryError(Fault("slot width", show(slot_width, "mm"), f"it must be less than the strip's {show(min(width_top, width_base), 'mm')}"))
    if slot_depth >= height:
        raise EntryError(Fault("slot depth", show(slot_depth, "mm"), f"it must be less than the strip's height, {show(height, 'mm')}"))
    full = float(strip_volume.si(length=length, width_top=width_top, width_base=width_base, height=height))
    return density * (full - length * slot_width * slot_depth)


@door(slot_depth="m", flange_height="m", above="m", returns="m",
      possible={"slot_depth": NOT_NEGATIVE, "flange_height": POSITIVE, "above": NOT_NEGATIVE}, holds={"flange_height": (0.040, 0.075)})
def shim_height(*, slot_depth: float, flange_height: float, above: float) -> float:
    r"""Height of the shim: what stands in the slot, the flange laid up against it, and what is left to hold it by.

    .. math:: H = d + f + a

    Parameters
    ----------
    slot_depth
        In the strip, :math:`d`. [m]
    flange_height
        After trimming, :math:`f`. [m]
    above
        For trimming and for the hands, :math:`a`. [m]

    Returns
    -------
    Height. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: flanges 40 to 75 mm high, 5 to 10 mm for trimming (common practice, no source).
    Source: sum.

    Examples
    --------
    >>> print(f"{shim_height(slot_depth='12 mm', flange_height='60 mm', above='10 mm').to('mm'):.0f~P}")
    82 mm
    """
    return slot_depth + flange_height + above


class StripWindow(NamedTuple):
    """From the casting of a strip: when it may be taken from its channel, and until when fresh rubber bonds to it. [s]"""

    earliest: float
    latest: float
    open: bool


@door(demold_time="s", latest_recoat="s", factor="", returns={"earliest": "s", "latest": "s"},
      possible={"demold_time": NOT_NEGATIVE, "latest_recoat": POSITIVE, "factor": POSITIVE})
def strip_window(*, demold_time: float, latest_recoat: float, factor: float) -> StripWindow:
    r"""While a strip is firm enough to handle and still fresh enough to bond.

    .. math:: t_1 = t_d / f, \quad t_2 = t_l / f

    Parameters
    ----------
    demold_time
        Of the rubber at the reference temperature, :math:`t_d`. [s]
    latest_recoat
        At the reference temperature, :math:`t_l`. [s]
    factor
        Rate today over the rate at the reference, :math:`f`. [-]

    Returns
    -------
    earliest, latest
        Ends of the window, from casting. [s]
    open
        Whether there is one; where not, every strip is abraded, wiped and tested.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as that of the factor. A strip that is older still holds when it is clean, abraded and bedded in fresh rubber of
    the same kind: test it first.
    Source: the recoat window of the rubber (common practice, no source).

    Examples
    --------
    >>> window = strip_window(demold_time="16 h", latest_recoat="24 h", factor=0.7786)
    >>> print(f"{window.earliest.to('h'):.1f~P} to {window.latest.to('h'):.1f~P}")
    20.5 h to 30.8 h
    """
    return StripWindow(demold_time / factor, latest_recoat / factor, demold_time <= latest_recoat)


def strip_bond(age: float, earliest: float, latest: float) -> Bond:
    """Whether a strip of an age [s] is still soft, bonds as it is, or must be abraded and tested."""
    if age < earliest:
        return "too soon"
    return "bonds" if age <= latest else "abrade and test"
