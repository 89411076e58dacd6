"""What the cards offer for a shell's wall, what is refused of it, and what is chosen from it."""

from math import isfinite
from typing import Literal, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.layup.fractions import BETWEEN
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range

Run = Literal["up", "across"]


class Reinforcement(NamedTuple):
    """A mat or cloth, laid and cured.

    Name; areal weight, dry [kg/m²]; fibre mass fraction [-]; thickness of a cured ply [m]; in-plane modulus, lowest, likely
    and highest [Pa]; price of a kilogram of it, dry, where it is known.
    """

    name: str
    areal_weight: float
    fibre_mass_fraction: float
    ply_thickness: float
    modulus_low: float
    modulus: float
    modulus_high: float
    price: float | None = None


class Core(NamedTuple):
    """A core of one thickness.

    Name; thickness [m]; density [kg/m³]; modulus through it and shear modulus [Pa]; resin that it drinks and is bedded in, both
    sides together [kg/m²]; price of a kilogram, where it is known.
    """

    name: str
    thickness: float
    density: float
    modulus: float
    shear_modulus: float
    bond: float
    price: float | None = None


class RibOffer(NamedTuple):
    """A half-round rib.

    Name; spacing and radius of its former [m]; plies of the wall's reinforcement over it [-]; density of the former [kg/m³].
    """

    name: str
    spacing: float
    radius: float
    plies: int
    former_density: float


class Stack(NamedTuple):
    """A wall that can be laid.

    Reinforcement, plies against the rubber and outside the core (a solid wall has them all inside), core, rib and which way it runs; mass of a square
    metre [kg/m²], thickness [m]; deflection with the likely modulus, and with the highest and the lowest [m]; cost of a square
    metre where all prices are known; the flat wall's (or bay's) deflection over half its thickness [-], whether that is at
    most 1; whether the core is thinner than three facings.
    """

    reinforcement: Reinforcement
    inner_plies: int
    outer_plies: int
    core: Core | None
    rib: RibOffer | None
    run: Run | None
    mass: float
    thickness: float
    deflection: float
    deflection_low: float
    deflection_high: float
    cost: float | None
    over_limit: float
    linear: bool
    thin_core: bool


class Choice(NamedTuple):
    """The lightest wall that does, the three next lightest of other kinds, and how many were looked at.

    ``best`` is None where none does; ``stiffest`` says then how near the cards come.
    """

    best: Stack | None
    others: tuple[Stack, ...]
    stiffest: Stack | None
    kinds: int
    looked_at: int


LIMITS: dict[str, Range] = {
    "areal_weight": POSITIVE, "fibre_mass_fraction": BETWEEN, "ply_thickness": POSITIVE, "modulus_low": POSITIVE, "modulus": POSITIVE,
    "modulus_high": POSITIVE, "price": NOT_NEGATIVE, "thickness": NOT_NEGATIVE, "density": POSITIVE, "shear_modulus": POSITIVE,
    "bond": NOT_NEGATIVE, "spacing": POSITIVE, "radius": POSITIVE, "plies": POSITIVE, "former_density": NOT_NEGATIVE,
}


def limits_in_words(limits: Range) -> str:
    """'it must be above 0', 'above 0 and below 1', 'at least 0'."""
    low = f"{'at least' if limits.with_low else 'above'} {limits.low:g}"
    return f"it must be {low}" + (f" and {'at most' if limits.with_high else 'below'} {limits.high:g}" if isfinite(limits.high) else "")


def fault_of(entry: str, value: float, limits: Range) -> Fault | None:
    """What is wrong with a number, if anything; NaN and infinities always are."""
    if isfinite(value) and value in limits:
        return None
    return Fault(entry, f"{value:g}", limits_in_words(limits))


def faults(offer: Reinforcement | Core | RibOffer) -> list[Fault]:
    """All that is wrong with an offer, each by its name."""
    found = []
    for field, value in offer._asdict().items():
        if field == "name" or (field == "price" and value is None):
            continue
        limits = NOT_NEGATIVE if field == "modulus" and isinstance(offer, Core) else LIMITS[field]
        fault = fault_of(f"{field.replace('_', ' ')} of {offer.name}", value, limits)
        found += [fault] if fault else []
    if isinstance(offer, Reinforcement) and not offer.modulus_low <= offer.modulus <= offer.modulus_high and not found:
        found.append(Fault(f"modulus of {offer.name}", f"{offer.modulus:g}", f"it must lie from {offer.modulus_low:g} to {offer.modulus_high:g}"))
    return found


def refuse(found: list[Fault]) -> None:
    """One error for all faults."""
    if found:
        raise EntryError(found)
