"""Tin or addition cure, soft or firm: every reason a row with its points, its weight and its source; nothing hidden."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isfinite

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.stages.casting.sizes import shrinkage_band
from moldcalc.stages.materials.pairs import UNKNOWN, VERDICTS
from moldcalc.units import show

CHEMISTRIES = ("tin-cure silicone", "addition-cure silicone")
HARDNESSES = ("soft, Shore A 10 to 20", "medium, Shore A 20 to 30", "firm, Shore A 35 to 45")
RESINS = ("polyurethane resin", "polyester resin", "epoxy resin")
PRACTICE = "common practice"
#: a price difference below this says nothing
CLOSE_PRICE = 0.10
#: stretch at the worst neck from which a firm rubber is a risk, and from which a soft one is wanted: heuristics
SOME_STRETCH, MUCH_STRETCH = 0.25, 0.50
HEAVY, LARGE = 25.0, 1.5


@dataclass(frozen=True)
class Reason:
    """One reason: the points it gives to each option, in their order, its weight, why, who says so and how sure."""

    criterion: str
    points: tuple[float, ...]
    weight: float
    why: str
    source: str
    status: str


@dataclass(frozen=True)
class Choice:
    """Options with their totals (points times weights), what is ruled out, the reasons; none chosen where two are level."""

    options: tuple[str, ...]
    totals: tuple[float, ...]
    ruled_out: tuple[str, ...]
    chosen: str | None
    reasons: tuple[Reason, ...]
    said: str


def choose_chemistry(*, verdicts: Mapping[str, Sequence[str]], shrinkage_allowed: float, casts: int, cast_material: str, years: float,
                     prices: Mapping[str, float], budget: float | None = None, weights: Mapping[str, float] | None = None) -> Choice:
    """Tin-cure or addition-cure rubber, with all reasons in the open.

    Parameters
    ----------
    verdicts
        For each of the two chemistries the verdicts of all surfaces and tools that the rubber will meet.
    shrinkage_allowed
        Linear, that the job can bear. [-]
    casts
        Wanted.
    cast_material
        As in the shrinkage and life tables; 'wax' is poured hot.
    years
        For which the mold is to be kept.
    prices
        Money for all the rubber, for each of the two.
    budget
        Money for the rubber, if there is a limit.
    weights
        Of a criterion, 1 where none is given: surface, shrinkage, cast, keeping, price.

    Returns
    -------
    Totals, reasons, and the choice; none where both are level or both are ruled out.

    Raises
    ------
    EntryError
        A verdict that is none of ours; a number that is none; a weight for a criterion that there is not.

    Notes
    -----
    Range: a help to talk it over. Points run from -2 to 2. 'Never' at a surface rules a chemistry out, unless that surface
    is taken away or its patch test is overruled.
    Source: each reason names its own.
    """
    _refuse(shrinkage_allowed, casts, years, prices, budget)
    rows = [_surface(verdicts), _shrinkage(shrinkage_allowed), _cast(cast_material, casts), _keeping(years), _price(prices, budget)]
    ruled_out = tuple(name for name in CHEMISTRIES if "never" in verdicts[name])
    return _choice(CHEMISTRIES, _weighed(rows, weights), ruled_out)


def choose_hardness(*, stretch: float, area: float, cast_mass: float, hangs: bool, weights: Mapping[str, float] | None = None) -> Choice:
    """Soft, medium or firm rubber, with all reasons in the open.

    Parameters
    ----------
    stretch
        Strain at the worst neck of the way in which it will be opened. [-]
    area
        Of the original. [m²]
    cast_mass
        Of one cast. [kg]
    hangs
        Whether a wide area hangs in the casting position.
    weights
        Of a criterion, 1 where none is given: necks, size, casts, cutting.

    Returns
    -------
    Totals, reasons, and the choice; none where the first two are level.

    Raises
    ------
    EntryError
        A number that is none; a weight for a criterion that there is not.

    Notes
    -----
    Range: brush-on molds with a shell; limits of stretch, area and mass are heuristics.
    Source: each reason names its own.
    """
    for entry, value in (("stretch", stretch), ("area", area), ("cast mass", cast_mass)):
        if not 0 <= value < 1e6:
            raise EntryError(Fault(entry, f"{value:g}", "it must be at least 0 and a size that a bench can see"))
    rows = [_necks(stretch), _size(area, hangs), _heavy(cast_mass),
            Reason("cutting", (1, 1, 0), 1, "above about Shore A 45 a mold is very hard to cut open", "workshop pages", PRACTICE)]
    return _choice(HARDNESSES, _weighed(rows, weights), ())


def _refuse(shrinkage: float, casts: int, years: float, prices: Mapping[str, float], budget: float | None) -> None:
    faults = [Fault(entry, f"{value:g}", "it must be at least 0 and a number that means something")
              for entry, value in (("shrinkage allowed", shrinkage), ("casts", casts), ("years", years), ("budget", budget or 0.0),
                                   *((f"price of {name}", prices.get(name, -1.0)) for name in CHEMISTRIES)) if not 0 <= value < 1e9]
    if faults:
        raise EntryError(faults)


def _surface(verdicts: Mapping[str, Sequence[str]]) -> Reason:
    points = {"fine": 1.0, "release": 1.0, "seal": 0.0, UNKNOWN: -1.0, "never": -2.0}
    given, said = [], []
    for name in CHEMISTRIES:
        for verdict in verdicts.get(name, ()):
            if verdict not in VERDICTS:
                raise EntryError(Fault(f"verdict for {name}", clipped(verdict) or "empty", f"it must be one of {', '.join(VERDICTS)}"))
        if not verdicts.get(name):
            raise EntryError(Fault(f"verdicts for {name}", "empty", "give one for each surface that the rubber meets"))
        worst = min(verdicts[name], key=lambda verdict: points[verdict])
        given.append(points[worst])
        said.append(f"{name}: {worst} at its worst surface")
    return Reason("surface", tuple(given), 1, "; ".join(said), "the table of pairs", "as its rows say")


def _shrinkage(allowed: float) -> Reason:
    given, said = [], []
    for name in CHEMISTRIES:
        band = shrinkage_band(name)
        given.append(1.0 if allowed >= band.high else 0.0 if allowed >= band.low else -2.0)
        said.append(f"{name} {show(band.low, '%')} to {show(band.high, '%')}")
    return Reason("shrinkage", tuple(given), 1, f"{', '.join(said)}; {show(allowed, '%')} allowed", "figures that disagree, all kept", "verified")


def _cast(material: str, casts: int) -> Reason:
    if material == "wax":
        return Reason("cast", (-1, 1), 1, "hot wax: a young tin-cure rubber takes about 60 °C only", "a training note, weak", PRACTICE)
    if material in RESINS:
        why = f"{casts} casts of {material}: alcohol left in a tin-cure rubber makes the first ones tacky; vent it first"
        return Reason("cast", (-1, 0), 1, why, "workshop practice", PRACTICE)
    return Reason("cast", (0, 0), 1, f"{clipped(material)}: no figure says which of the two lasts longer", "no source", "from memory")


def _keeping(years: float) -> Reason:
    points = (1.0, 1.0) if years <= 1 else (0.0, 1.0) if years <= 5 else (-1.0, 1.0)
    why = f"kept for {years:g} years; tin-cure often lasts 1 to 5, addition-cure far longer"
    return Reason("keeping", points, 1, why, "makers' pages", PRACTICE)


def _price(prices: Mapping[str, float], budget: float | None) -> Reason:
    money = [prices[name] for name in CHEMISTRIES]
    cheaper = 0 if money[0] < money[1] * (1 - CLOSE_PRICE) else 1 if money[1] < money[0] * (1 - CLOSE_PRICE) else None
    points = [1.0 if at == cheaper else 0.0 for at in range(2)]
    if budget is not None:
        points = [point if price <= budget else -2.0 for point, price in zip(points, money, strict=True)]
    said = ", ".join(f"{name} {price:.0f}" for name, price in zip(CHEMISTRIES, money, strict=True))
    return Reason("price", tuple(points), 1, said + ("" if budget is None else f"; {budget:.0f} to spend"), "your prices", "entered")


def _necks(stretch: float) -> Reason:
    points = (2.0, 0.0, -2.0) if stretch > MUCH_STRETCH else (1.0, 1.0, -1.0) if stretch > SOME_STRETCH else (0.0, 0.0, 0.0)
    why = f"the worst neck stretches by {show(stretch, '%')}; deep undercuts are a risk in firm rubber"
    return Reason("necks", points, 1, why, "workshop pages", PRACTICE)


def _size(area: float, hangs: bool) -> Reason:
    large = area >= LARGE or hangs
    why = "large or hanging: soft rubber sags, and takes a quarter to a half more thickness, or fabric" if large else "small and nothing wide hangs"
    return Reason("size", (-1.0, 1.0, 1.0) if large else (0.0, 1.0, 0.0), 1, why + "; medium is usual for brush-on", "workshop practice", PRACTICE)


def _heavy(mass: float) -> Reason:
    heavy = mass >= HEAVY
    why = f"a cast of {show(mass, 'kg')}: {'heavy casts press and draw at soft rubber' if heavy else 'light enough for any'}"
    return Reason("casts", (-1.0, 0.0, 1.0) if heavy else (0.0, 0.0, 0.0), 1, why, "workshop practice", PRACTICE)


def _weighed(rows: Sequence[Reason], weights: Mapping[str, float] | None) -> tuple[Reason, ...]:
    given = dict(weights or {})
    known = [row.criterion for row in rows]
    for name, weight in given.items():
        if name not in known:
            raise EntryError(Fault("weight", clipped(name) or "empty", f"there is no such criterion; there are {', '.join(known)}"))
        if not 0 <= weight <= 100:
            raise EntryError(Fault(f"weight of {name}", f"{weight:g}", "it must be from 0 to 100"))
    return tuple(Reason(row.criterion, row.points, float(given.get(row.criterion, row.weight)), row.why, row.source, row.status) for row in rows)


def _choice(options: tuple[str, ...], rows: tuple[Reason, ...], ruled_out: tuple[str, ...]) -> Choice:
    totals = tuple(sum(row.weight * row.points[at] for row in rows) for at in range(len(options)))
    assert all(map(isfinite, totals))
    left = sorted((at for at in range(len(options)) if options[at] not in ruled_out), key=lambda at: -totals[at])
    level = len(left) > 1 and abs(totals[left[0]] - totals[left[1]]) < 1e-9
    chosen = options[left[0]] if left and not level else None
    if not left:
        said = "Every choice is ruled out by a surface: take that surface away, or seal it and test."
    elif level:
        said = f"{options[left[0]]} and {options[left[1]]} are level: weigh what matters more to you."
    else:
        said = f"{chosen}: {totals[left[0]]:g} points" + (f" to {totals[left[1]]:g}." if len(left) > 1 else "; the other is ruled out.")
    return Choice(options, totals, ruled_out, chosen, rows, said)
