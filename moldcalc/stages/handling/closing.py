"""Which bolt closes a joint: what each size may be counted on for under its washer, and how many of it that takes."""

from typing import Any, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.bolts import preload_band, proof_load, stress_area, torque_for
from moldcalc.stages.handling.drilling import Hole, drilling_list
from moldcalc.stages.handling.fasteners import FASTENERS, Fit, clearance_hole, fastener, proof_stress
from moldcalc.stages.handling.flange import washer_limit
from moldcalc.units import show

#: Share of the proof load that a tightened bolt is taken to: common practice.
PROOF_SHARE = 0.75


class Usable(NamedTuple):
    """What a bolt may be counted on for: torque to tighten it to [N·m], its least pull then [N], the most it may pull [N], and what
    ends it: 'torque' (as much as was asked for), 'laminate' or 'bolt'."""

    torque: float
    counted_on: float
    most: float
    limit: str


class Closing(NamedTuple):
    """A size of bolt for a joint: its usable pull, the clearance hole [m], the washer's outside [m], and the holes; or why not."""

    size: str
    usable: Usable
    hole: float
    washer: float
    holes: list[Hole]
    refused: str


def usable_pull(*, size: str, torque: float, nut_factor: float, scatter: float, crushing: float, property_class: str = "4.6",
                large_washer: bool = True, fit: Fit = "medium") -> Usable:
    """How far a bolt may be tightened, and what it may then be counted on for.

    The torque asked for is cut until the strongest pull that it may give neither crushes what lies under the washer nor passes
    three quarters of the proof load; counted on is the weakest pull that this torque may give.

    Parameters
    ----------
    size
        'M8'.
    torque
        Asked for, by spanner or by wing nut. [N·m]
    nut_factor, scatter
        Likely nut factor, and the share by which it may be off either way. [-]
    crushing
        What the laminate (or core) under the washer stands through its thickness. [Pa]
    property_class
        Of the bolt.
    large_washer
        A large (penny) washer, else a plain one.
    fit
        Of the clearance hole.

    Returns
    -------
    In SI: `Usable`.

    Raises
    ------
    EntryError
        A size, class or fit that is not listed; an entry that is not possible.

    Notes
    -----
    Range: preload creeps away in laminate: tighten again before each pour (common practice).
    Source: short torque formula (textbook); washer pressure; proof loads of ISO 898-1.
    """
    for entry, value in (("torque", torque), ("nut factor", nut_factor), ("crushing", crushing)):
        if not 0 < value < float("inf"):
            raise EntryError(Fault(entry, f"{value:g}", "it must be above 0"))
    if not 0 <= scatter < 1:
        raise EntryError(Fault("scatter", f"{scatter:g}", "it must be at least 0 and below 1"))
    bolt = fastener(size)
    laminate = washer_limit.si(outside=bolt.large_washer if large_washer else bolt.washer, hole=clearance_hole(size, fit), strength=crushing)
    steel = PROOF_SHARE * proof_load.si(area=stress_area.si(diameter=bolt.diameter, pitch=bolt.pitch), proof_stress=proof_stress(property_class))
    most, limit = min((laminate, "laminate"), (steel, "bolt"))
    cap = torque_for.si(preload=most, nut_factor=nut_factor * (1 - scatter), diameter=bolt.diameter)
    if torque <= cap:
        cap, limit = torque, "torque"
    band = preload_band.si(torque=cap, nut_factor=nut_factor, diameter=bolt.diameter, scatter=scatter)
    return Usable(cap, band.low, most, limit)


def closings(*, torque: float, nut_factor: float, scatter: float, crushing: float, property_class: str = "4.6", large_washer: bool = True,
             fit: Fit = "medium", sizes: tuple[str, ...] = ("M5", "M6", "M8", "M10"), **joint: Any) -> list[Closing]:
    """Each size of bolt on one joint: how many, where, and what it is counted on for; or in a sentence why not.

    Parameters
    ----------
    torque, nut_factor, scatter, crushing, property_class, large_washer, fit
        As for `usable_pull`, the same for every size. [SI]
    sizes
        To be tried.
    joint
        What `drilling_list` wants, in SI, without the bolt's own entries.

    Returns
    -------
    One `Closing` for each size, in the order given.

    Raises
    ------
    EntryError
        A size, class or fit that is not listed; an entry that is not possible.

    Notes
    -----
    Range: as `drilling_list`. M6 for small shells, M8 usual, M10 for large ones (common practice).
    Source: as `usable_pull` and `drilling_list`.
    """
    found = []
    for size in sizes:
        bolt = fastener(size)
        usable = usable_pull(size=size, torque=torque, nut_factor=nut_factor, scatter=scatter, crushing=crushing,
                             property_class=property_class, large_washer=large_washer, fit=fit)
        hole = clearance_hole(size, fit)
        washer = bolt.large_washer if large_washer else bolt.washer
        holes: list[Hole] = []
        refused = ""
        try:
            holes = drilling_list.si(bolt_capacity=usable.counted_on, bolt_diameter=bolt.diameter, hole_diameter=hole, **joint)
        except EntryError as error:
            refused = str(error)
        found.append(Closing(size, usable, hole, washer, holes, refused))
    return found


def fewest(offers: list[Closing]) -> Closing:
    """The closing with the fewest bolts; among equals the smallest bolt.

    Raises
    ------
    EntryError
        None of the sizes closes the joint.
    """
    order = list(FASTENERS)
    able = [offer for offer in offers if offer.holes]
    if not able:
        raise EntryError(Fault("bolts", "none that closes this joint", "take a stiffer flange, a solid flange, a larger washer, or pour in lifts"))
    return min(able, key=lambda offer: (len(offer.holes), order.index(offer.size)))


def said(offer: Closing) -> str:
    """A closing in one sentence."""
    if not offer.holes:
        return offer.refused
    apart = [hole.to_next for hole in offer.holes if hole.to_next is not None]
    span = f", {show(min(apart), 'mm')} to {show(max(apart), 'mm')} apart" if apart else ""
    return f"{len(offer.holes)} × {offer.size}{span}, tightened to {offer.usable.torque:.1f} N·m"
