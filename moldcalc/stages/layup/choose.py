"""Choose for me: the lightest wall that the cards offer and that gives no more than the maker will accept."""

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.layup.kinds import (
    CLOSE,
    Common,
    Edges,
    Span,
    Wall,
    Weight,
    deflections,
    least,
    split,
    stack,
    thickness_of,
    walls,
    weight,
)
from moldcalc.stages.layup.micro import SOLID
from moldcalc.stages.layup.offers import Choice, Core, Reinforcement, RibOffer, Stack, fault_of, faults, refuse
from moldcalc.stages.layup.panels import LINEAR
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range

#: more kinds of wall than this is a slip in the cards
MOST_KINDS = 5000


class Rules(NamedTuple):
    """What is accepted: deflection [m], plies in all, dry glass in each facing [kg/m²]; and how cautious to be."""

    allowed: float
    most_plies: int
    least_facing: float
    only_linear: bool
    with_low_modulus: bool


def refuse_entries(numbers: dict[str, tuple[float, Range]], offers: Sequence[Reinforcement | Core | RibOffer], edges: str, most_plies: int) -> None:
    """One error for all that can't be used."""
    found = [fault for entry, (value, limits) in numbers.items() if (fault := fault_of(entry, value, limits))]
    found += [fault for offer in offers for fault in faults(offer)]
    if edges not in ("supported", "clamped"):
        found.append(Fault("edges", str(edges), "they must be supported or clamped"))
    if not 2 <= most_plies <= 200:
        found.append(Fault("most plies", f"{most_plies:g}", "it must be from 2 to 200"))
    refuse(found)


def choose_stack(*, height: float, width: float, bottom_pressure: float, top_pressure: float, allowed_deflection: float,
                 reinforcements: Sequence[Reinforcement], cores: Sequence[Core] = (), ribs: Sequence[RibOffer] = (),
                 edges: Edges = "supported", poisson_ratio: float, most_plies: int = 16, surface_coat: float = 0.0,
                 resin_price: float | None = None, coat_price: float = 0.0, least_facing: float = 0.0, only_linear: bool = True,
                 with_low_modulus: bool = False) -> Choice:
    r"""Lightest wall for the largest flat panel, by search over all that the cards offer, and the three next.

    .. math:: \min m \quad \text{where} \quad w = \frac{w_b(H, W, q)}{D'} + \frac{w_s(H, W, q)}{S} \; [+ w_\mathrm{rib}] \le w_\mathrm{allowed}

    Parameters
    ----------
    height, width
        Of the largest flat panel, :math:`H, W`. [m]
    bottom_pressure, top_pressure
        Of the liquid along its lower and upper edge, :math:`q`. [Pa]
    allowed_deflection
        What the maker will accept. [m]
    reinforcements, cores, ribs
        What the cards offer; a wall without core and without ribs is always tried. A core of 0 is that wall.
    edges
        "supported" (may turn, the cautious choice) or "clamped".
    poisson_ratio
        Of the wall. [-]
    most_plies
        In the wall, all together. [-]
    surface_coat
        Against the rubber; it weighs and does not stiffen. [kg/m²]
    resin_price, coat_price
        Of a kilogram of resin; of a square metre of surface coat.
    least_facing
        Dry glass in each facing, for knocks and for drying out; a solid wall has at least as much in all. [kg/m²]
    only_linear
        Whether walls are passed over whose bay gives more than half its thickness, where the formulas end.
    with_low_modulus
        Whether the deflection has to do with the lowest modulus as well; else the likely one decides.

    Returns
    -------
    best, others
        The lightest `Stack`, and the three next, each of another kind (reinforcement, core, rib) and with as few plies as do.
    stiffest
        Where none does, the one that gives least, whatever it weighs.
    kinds, looked_at
        Kinds of wall, and stacks worked out.

    Raises
    ------
    EntryError
        A number that is none, or outside what is possible, with the card's name; no reinforcement; over 5000 kinds.

    Notes
    -----
    Range: as `supported_panel`, `clamped_panel`, `ribbed_panel`. Strength, closing and carrying are apart. Ribs across take the
    greatest pressure over the whole panel; the outermost bay decides, which turns along a supported edge. Exact: kinds are
    tried from the lightest they can be, and the search stops when the next can't be lighter than the fourth found; more
    plies never give more, so halving finds the fewest.
    Source: the formulas named above; sandwich facings as even as can be.

    Examples
    --------
    >>> mat = Reinforcement("mat 450", 0.45, 0.30, 1.088825e-3, 6.35e9, 6.4e9, 8.68e9)
    >>> foam = Core("foam 10", 0.010, 75.0, 55e6, 22e6, 0.8)
    >>> choice = choose_stack(height=0.5, width=0.5, bottom_pressure=8000.0, top_pressure=0.0, allowed_deflection=0.002,
    ...                       reinforcements=[mat], cores=[foam], poisson_ratio=0.3)
    >>> print(choice.best.inner_plies, choice.best.outer_plies, choice.best.core.name, f"{choice.best.mass:.2f} kg/m²")
    2 1 foam 10 6.05 kg/m²
    """
    numbers = {"height": (height, POSITIVE), "width": (width, POSITIVE), "bottom pressure": (bottom_pressure, NOT_NEGATIVE),
               "top pressure": (top_pressure, NOT_NEGATIVE), "allowed deflection": (allowed_deflection, POSITIVE),
               "poisson ratio": (poisson_ratio, SOLID), "surface coat": (surface_coat, NOT_NEGATIVE), "coat price": (coat_price, NOT_NEGATIVE),
               "least facing": (least_facing, NOT_NEGATIVE)}
    numbers |= {} if resin_price is None else {"resin price": (resin_price, NOT_NEGATIVE)}
    refuse_entries(numbers, [*reinforcements, *cores, *ribs], edges, most_plies)
    kinds = len(reinforcements) * (1 + len(cores)) * (1 + 2 * len(ribs))
    if not 1 <= kinds <= MOST_KINDS:
        raise EntryError(Fault("kinds of wall", f"{kinds}", f"the cards must offer from 1 to {MOST_KINDS}"))
    span = Span(height, width, bottom_pressure, top_pressure, edges)
    rules = Rules(allowed_deflection, most_plies, least_facing, only_linear, with_low_modulus)
    common = Common(poisson_ratio, surface_coat, resin_price, coat_price)
    try:
        return search(list(walls(span, reinforcements, cores, ribs)), common, rules)
    except (OverflowError, ZeroDivisionError):
        raise EntryError([Fault(entry, f"{value:g}", "together these entries give no number; check their sizes")
                          for entry, (value, _) in numbers.items()]) from None


class _Searched:
    """Works walls out for one panel, and counts how many."""

    def __init__(self, common: Common, rules: Rules) -> None:
        self.common, self.rules, self.looked_at = common, rules, 0

    def gives(self, wall: Wall, plies: int) -> float:
        """What decides: the deflection, infinite where the bay is outside linear theory and that is not accepted."""
        self.looked_at += 1
        one = wall.reinforcement
        modulus = one.modulus_low if self.rules.with_low_modulus else one.modulus
        bay, total = deflections(wall, *split(plies, wall.core), modulus, self.common.poisson_ratio, self.rules.allowed)
        if self.rules.only_linear and bay > LINEAR * thickness_of(wall, plies):
            return inf
        return total

    def fewest(self, wall: Wall, low: int, high: int) -> int | None:
        """Fewest plies from low to high that do: more plies never give more, so halving finds them."""
        if low > high or not self.gives(wall, high) <= self.rules.allowed:
            return None
        while low < high:
            middle = (low + high) // 2
            if self.gives(wall, middle) <= self.rules.allowed:
                high = middle
            else:
                low = middle + 1
        return high


def search(kinds: list[Wall], common: Common, rules: Rules) -> Choice:
    """The lightest four kinds that do, each with its fewest plies."""
    weighed = [(weight(wall, common), least(wall, rules.least_facing), wall) for wall in kinds]
    weighed.sort(key=lambda one: one[0].fixed + one[1] * one[0].ply)
    searched, found = _Searched(common, rules), list[Stack]()
    for weighs, fewest, wall in weighed:
        room = inf if len(found) < 4 else (found[3].mass * (1 + CLOSE) - weighs.fixed) / weighs.ply
        if room < fewest:
            break  # every kind from here on is heavier than the fourth
        plies = searched.fewest(wall, fewest, int(min(room, rules.most_plies)))
        if plies is not None:
            found = sorted([*found, stack(wall, plies, common, weighs)], key=order)[:4]
    if found:
        return Choice(found[0], tuple(found[1:]), None, len(kinds), searched.looked_at)
    weighs, wall = stiffest_of([(weighs, wall) for weighs, _, wall in weighed], common, rules.most_plies)
    return Choice(None, (), stack(wall, rules.most_plies, common, weighs), len(kinds), searched.looked_at)


def stiffest_of(weighed: list[tuple[Weight, Wall]], common: Common, plies: int) -> tuple[Weight, Wall]:
    """The kind that gives least with so many plies; one whose bay alone gives more than the best so far is not worked out further."""
    best, found = inf, weighed[0]
    for weighs, wall in weighed:
        total = deflections(wall, *split(plies, wall.core), wall.reinforcement.modulus, common.poisson_ratio, best)[1]
        if total < best:
            best, found = total, (weighs, wall)
    return found


def order(one: Stack) -> tuple[float, float, float]:
    """Lightest first; of two that weigh the same the cheaper, then the stiffer."""
    return one.mass, inf if one.cost is None else one.cost, one.deflection
