"""Lifting together, public guidance on weights, and when a cradle or a hoist takes over."""

from math import pi
from typing import Literal, NamedTuple

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show

#: Share of the sum of what each could lift alone: public guidance for one to three; for four nobody prints a figure, so three's is taken.
TEAM = {1: 1.0, 2: 2 / 3, 3: 1 / 2, 4: 1 / 2}
TEAM_SOURCE = "guidance on the UK manual handling regulations (L23), text seen in public copies; four: no published figure"

Zone = Literal["shoulder", "elbow", "knuckle", "lower leg", "floor"]

#: Guideline weights [kg], (close to the body, at arm's length) for men and women by the height of the hands, each zone named by its
#: lower edge; UK guidance L23, from memory.
GUIDELINE: dict[str, dict[str, tuple[float, float]]] = {
    "men": {"shoulder": (10, 5), "elbow": (20, 10), "knuckle": (25, 15), "lower leg": (20, 10), "floor": (10, 5)},
    "women": {"shoulder": (7, 3), "elbow": (13, 7), "knuckle": (16, 10), "lower leg": (13, 7), "floor": (7, 3)},
}
#: Push or pull as a mass [kg], (to start, to keep going): UK guidance L23 (text seen in public copies).
PUSH: dict[str, tuple[float, float]] = {"men": (20, 10), "women": (15, 7)}
#: Reference mass of ISO 11228-1 [kg] (seen in a public summary), and the ideal-lift figure of the lifting equation.
REFERENCE_MASS = 25.0
IDEAL_LIFT = 23.0


class Team(NamedTuple):
    """What some people lift together [kg], which share of their sum that is [-], and what the last one added [kg]."""

    capability: float
    factor: float
    added: float


class Way(NamedTuple):
    """How something is moved, why, and whose rule that is."""

    way: Literal["one person", "team", "cradle or hoist"]
    because: tuple[str, ...]
    source: str


@door(capabilities="kg[]", returns={"capability": "kg", "factor": "", "added": "kg"}, possible={"capabilities": POSITIVE})
def team_capability(*, capabilities: list[float]) -> Team:
    r"""What people can lift together.

    .. math:: m = f_n \sum m_i, \qquad f_1 = 1, \; f_2 = \tfrac{2}{3}, \; f_3 = f_4 = \tfrac{1}{2}

    Parameters
    ----------
    capabilities
        What each could lift alone in that place, :math:`m_i`. [kg]

    Returns
    -------
    capability
        Together. [kg]
    factor
        Share of the sum. [-]
    added
        By the last one in the list: a third carrier adds little, and a weak one takes away. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than four people.

    Notes
    -----
    Range: good holds and room for all. On steps and slopes most of it may fall on those below. More than four are unlikely to work together.
    Source: UK guidance L23 for two and three (text seen in public copies); four has no published figure, three's is taken.

    Examples
    --------
    >>> three = team_capability(capabilities=["25 kg", "25 kg", "25 kg"])
    >>> print(f"{three.capability.magnitude:.1f} kg, the third adds {three.added.magnitude:.1f} kg")
    37.5 kg, the third adds 4.2 kg
    """
    people = len(capabilities)
    if people > len(TEAM):
        raise EntryError(Fault("capabilities", f"{people} people",
                               "more than four are unlikely to lift together; take a trolley, a cradle or a hoist"))
    together = TEAM[people] * sum(capabilities)
    without = TEAM[people - 1] * sum(capabilities[:-1]) if people > 1 else 0.0
    return Team(together, TEAM[people], together - without)


def guideline_weight(*, zone: Zone, arms_length: bool = False, who: Literal["men", "women"] = "men") -> float:
    """Guideline weight of the UK filter for lifting and lowering [kg]: below it no detailed assessment is asked for; no limit.

    Parameters
    ----------
    zone
        Lower edge of where the hands are: 'shoulder' (and above), 'elbow', 'knuckle', 'lower leg', 'floor'.
    arms_length
        At arm's length, else close to the body.
    who
        'men' or 'women'.

    Raises
    ------
    EntryError
        Another zone or another word.

    Notes
    -----
    Range: up to about 30 lifts an hour; see `guideline_share`. Carrying: against the body, up to about 10 m.
    Source: UK guidance L23, from memory.
    """
    if who not in GUIDELINE:
        raise EntryError(Fault("who", clipped(who), "choose men or women"))
    if zone not in GUIDELINE[who]:
        raise EntryError(Fault("zone", clipped(zone), f"choose one of {', '.join(GUIDELINE['men'])}"))
    return GUIDELINE[who][zone][arms_length]


@door(lifts_per_minute="", twist="rad", returns="", possible={"lifts_per_minute": NOT_NEGATIVE, "twist": Range(0, pi, True, True)})
def guideline_share(*, lifts_per_minute: float, twist: float = 0.0) -> float:
    r"""What is left of a guideline weight when lifting is repeated or twisted.

    .. math:: f = (1 - r_F)(1 - r_A)

    Parameters
    ----------
    lifts_per_minute
        Up to 0.5 nothing off, to 2 30 %, to 8 50 %, above 80 %. [-]
    twist
        Of the trunk: beyond 45° 10 % off, beyond 90° 20 %. [rad]

    Returns
    -------
    Share of the guideline weight. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: the guidance names 1-2, 5-8 and above 12 lifts a minute; between those the stricter neighbour is taken.
    Source: UK guidance L23 (figures seen in public copies).

    Examples
    --------
    >>> print(f"{guideline_share(lifts_per_minute=1, twist='60°'):.2f}")
    0.63
    """
    off = next((share for most, share in ((0.5, 0.0), (2, 0.3), (8, 0.5)) if lifts_per_minute <= most), 0.8)
    turned = 0.0 if twist <= pi / 4 * (1 + 1e-9) else 0.1 if twist <= pi / 2 * (1 + 1e-9) else 0.2
    return (1 - off) * (1 - turned)


@door(mass="kg", length="m", from_near="m", returns="kg", possible={"mass": POSITIVE, "length": POSITIVE, "from_near": NOT_NEGATIVE})
def one_end_lift(*, mass: float, length: float, from_near: float) -> float:
    r"""What is lifted when one end of something is raised and the other stays on the floor.

    .. math:: m_1 = m \, \frac{x}{L}

    Parameters
    ----------
    mass
        :math:`m`. [kg]
    length
        From the end that stays down to the hands, :math:`L`. [m]
    from_near
        From the end that stays down to the centre of mass, :math:`x`. [m]

    Returns
    -------
    Mass in the hands, about half. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a centre of mass past the hands.

    Notes
    -----
    Range: as it begins to rise, hands pulling straight up.
    Source: statics.

    Examples
    --------
    >>> print(one_end_lift(mass="74 kg", length="1.2 m", from_near="0.6 m").magnitude)
    37.0
    """
    if from_near > length:
        raise EntryError(Fault("from near", show(from_near, "m"), f"it must be at most {show(length, 'm')}, between the floor and the hands"))
    return mass * (from_near / length)


def way_to_move(*, mass: float, person: float, people: int, turned: bool = False, passes_balance: bool = False) -> Way:
    """Whether one person, a team, or a cradle or hoist moves something.

    Parameters
    ----------
    mass
        [kg]
    person
        What one may be asked to lift in that place, by the lifting equation or the guidance. [kg]
    people
        At hand.
    turned
        Whether it is turned over, so that one end is lifted at first.
    passes_balance
        Whether it is rolled past the angle at which it falls by itself.

    Returns
    -------
    `Way`: which, the reasons as sentences, and the source.

    Raises
    ------
    EntryError
        A mass or a figure that is not above 0, or nobody at hand.

    Notes
    -----
    Range: estimates; who lifts decides, and local rules may ask for more.
    Source: one-end lift above one person's figure, or past the balance (statics with a rule of this package); team shares of L23.
    """
    for entry, value in (("mass", mass), ("person", person), ("people", people)):
        if not 0 < value < float("inf"):
            raise EntryError(Fault(entry, f"{value:g}", "it must be above 0"))
    reasons = []
    if turned and mass / 2 > person:
        reasons.append(f"Lifting one end takes about {show(mass / 2, 'kg')}, more than one person's {show(person, 'kg')}.")
    if passes_balance:
        reasons.append("It passes the angle at which it falls by itself.")
    crew = [person] * min(people, len(TEAM))
    together = team_capability.si(capabilities=crew).capability
    if mass > together:
        reasons.append(f"{len(crew)} together may be asked for {show(together, 'kg')}, and it weighs {show(mass, 'kg')}.")
    source = f"statics; {TEAM_SOURCE}"
    if reasons:
        return Way("cradle or hoist", tuple(reasons), source)
    if mass <= person:
        return Way("one person", (f"{show(mass, 'kg')} is within one person's {show(person, 'kg')} in that place.",), source)
    needed = next((n for n in range(2, len(crew)) if TEAM[n] * n * person >= mass), len(crew))
    may = show(TEAM[needed] * needed * person, "kg")
    return Way("team", (f"{needed} together may be asked for {may}, and it weighs {show(mass, 'kg')}.",), source)
