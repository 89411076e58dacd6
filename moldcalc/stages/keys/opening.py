"""Where the rubber must be opened: the stretch at every neck, how far the cut runs, and three ways to open compared."""

from itertools import pairwise
from math import isfinite
from typing import Literal, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.keys.stretch import bend_strain, cut_glove_strain, hoop_strain
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show

Way = Literal["closed glove", "cut glove", "two halves"]
MOST_STATIONS = 2000


class Neck(NamedTuple):
    """A station that is narrower than something further in: where, its girth, what must pass it [m], and the stretch."""

    height: float
    girth: float
    bulge: float
    strain: float


class SeamReach(NamedTuple):
    """How far the cut must run from the opening [m], the worst stretch of the closed glove and of what is left above the cut."""

    cut_to: float
    worst_closed: float
    worst_left: float
    necks: tuple[Neck, ...]


def refuse_stations(heights: list[float], girths: list[float]) -> None:
    """Stations in order from the opening inward, a girth for each."""
    if len(heights) != len(girths):
        raise EntryError(Fault("girths", f"a list of {len(girths)}", f"give {len(heights)}, one for each height"))
    if len(heights) > MOST_STATIONS:
        raise EntryError(Fault("heights", f"a list of {len(heights)}", f"give at most {MOST_STATIONS}"))
    for before, after in pairwise(heights):
        if after <= before:
            raise EntryError(Fault("heights", f"{show(before, 'mm')} and then {show(after, 'mm')}", "give them in order, from the opening inward"))


@door(heights="m[]", girths="m[]", allowed="", returns={"cut_to": "m"},
      possible={"heights": NOT_NEGATIVE, "girths": POSITIVE, "allowed": NOT_NEGATIVE})
def seam_reach(*, heights: list[float], girths: list[float], allowed: float) -> SeamReach:
    r"""Stretch at every neck of a glove, and how far from the opening it must be cut so that no neck above stretches too far.

    .. math:: \varepsilon(z) = \frac{\max_{z' \ge z} G(z')}{G(z)} - 1, \qquad z_c = \max \{ z : \varepsilon(z) > \varepsilon_a \}

    Parameters
    ----------
    heights
        Of the stations, from the opening inward, :math:`z`. [m]
    girths
        One for each height, straight between them, :math:`G`. [m]
    allowed
        Strain that the rubber may take, :math:`\varepsilon_a`. [-]

    Returns
    -------
    cut_to
        Height to which the cut must run; the first height where the glove may stay closed. [m]
    worst_closed
        Largest strain with no cut at all. [-]
    worst_left
        Largest strain above the cut. [-]
    necks
        Stations that must stretch, each with its girth, what passes it and its strain.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths; heights out of order.

    Notes
    -----
    Range: one body whose cross-sections are of like shape; limbs that branch off are gloves of their own, each with its list.
    Source: geometry (exact for girths straight between stations).

    Examples
    --------
    A bust: opening 800 mm round, shoulders 1100, neck 360, head 600; a rubber that may stretch by half.

    >>> found = seam_reach(heights=["0 mm", "150 mm", "300 mm", "420 mm"], girths=["800 mm", "1100 mm", "360 mm", "600 mm"], allowed=0.5)
    >>> print(f"{found.cut_to.to('mm'):.0f~P}, {found.worst_closed:.2f}, {found.worst_left:.2f}")
    320 mm, 0.67, 0.50
    """
    refuse_stations(heights, girths)
    bulges = list(girths)
    for i in range(len(girths) - 2, -1, -1):
        bulges[i] = max(bulges[i], bulges[i + 1])
    strains = [bulge / girth - 1 for bulge, girth in zip(bulges, girths, strict=True)]
    if not all(map(isfinite, strains)):
        raise OverflowError
    necks = tuple(Neck(*row) for row in zip(heights, girths, bulges, strains, strict=True) if row[3] > 0)
    last = max((i for i, strain in enumerate(strains) if strain > allowed), default=-1)
    if last < 0:
        return SeamReach(heights[0], max(strains), max(strains), necks)
    # the station after the last bad neck is wide enough, so the edge of what may stay closed lies between the two
    enough = bulges[last + 1] / (1 + allowed)
    share = (enough - girths[last]) / (girths[last + 1] - girths[last])
    cut_to = heights[last] + min(1.0, max(0.0, share)) * (heights[last + 1] - heights[last])
    return SeamReach(cut_to, max(strains), max([bulges[last + 1] / enough - 1, *strains[last + 1:]]), necks)


class WayToOpen(NamedTuple):
    """One way to open the rubber: the stretch it needs, what is allowed, whether that will do, and why in words."""

    way: Way
    needed: float
    allowed: float
    will_do: bool
    why: str


class Opening(NamedTuple):
    """All three ways in order of work, and the first that will do."""

    ways: tuple[WayToOpen, ...]
    chosen: Way | None


@door(neck="m", bulge="m", mouth="m", cut="m", thickness="m", fold_radius="m", allowed="", allowed_at_cut="", returns=None,
      possible={"neck": POSITIVE, "bulge": POSITIVE, "mouth": POSITIVE, "cut": NOT_NEGATIVE, "thickness": NOT_NEGATIVE, "fold_radius": POSITIVE,
                "allowed": NOT_NEGATIVE, "allowed_at_cut": NOT_NEGATIVE})
def ways_to_open(*, neck: float, bulge: float, mouth: float, cut: float, thickness: float, fold_radius: float, allowed: float,
                 allowed_at_cut: float | None = None) -> Opening:
    r"""Closed glove, cut glove and two halves: the stretch that each asks of the rubber.

    .. math:: \varepsilon_1 = \frac{G_b}{G_n} - 1, \quad \varepsilon_2 = \frac{G_b}{G_m + 2c} - 1, \quad \varepsilon_3 = \frac{t}{2R + t}

    Parameters
    ----------
    neck
        Round the worst neck, :math:`G_n`. [m]
    bulge
        Round what must pass it, :math:`G_b`. [m]
    mouth
        Round the opening where a cut would begin, :math:`G_m`. [m]
    cut
        Length of that cut, past the neck, :math:`c`. [m]
    thickness
        Of the rubber, :math:`t`. [m]
    fold_radius
        Inside of the fold when a half is turned back, :math:`R`. [m]
    allowed
        Strain that whole rubber may take. [-]
    allowed_at_cut
        Strain that the edge of a cut may take: less, since it tears from its nicks; the same where it is left out. [-]

    Returns
    -------
    ways
        Three rows: way, needed strain, allowed strain, whether it will do, why.
    chosen
        The first that will do, the least cut first; none where even the fold is too tight.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a neck wider than the bulge.

    Notes
    -----
    Range: stretch alone. A cut that is easy to hide, and hands that must reach in, are for the maker to weigh. No figure was
    found for what the edge of a cut may take.
    Source: geometry; the allowed strain is common practice, no source.

    Examples
    --------
    >>> found = ways_to_open(neck="360 mm", bulge="600 mm", mouth="800 mm", cut="320 mm", thickness="8 mm", fold_radius="20 mm", allowed=0.5)
    >>> found.chosen, [round(row.needed, 2) for row in found.ways]
    ('cut glove', [0.67, 0.0, 0.17])
    """
    fold = float(bend_strain.si(thickness=thickness, radius=fold_radius))
    closed = max(float(hoop_strain.si(neck=neck, bulge=bulge)), 0.0)
    opened = max(float(cut_glove_strain.si(mouth=mouth, bulge=bulge, cut=cut)), 0.0)
    if not isfinite(closed + opened + mouth + 2 * cut):
        raise OverflowError
    at_cut = allowed if allowed_at_cut is None else allowed_at_cut
    asked: tuple[tuple[Way, float, float, str], ...] = (
        ("closed glove", closed, allowed, f"the neck, {show(neck, 'mm')} round, must pass {show(bulge, 'mm')}"),
        ("cut glove", opened, at_cut, f"the edge of the opening, {show(mouth + 2 * cut, 'mm')} with the cut, must reach round {show(bulge, 'mm')}"),
        ("two halves", fold, allowed, f"{show(thickness, 'mm')} of rubber folded back over {show(fold_radius, 'mm')}"),
    )
    ways = tuple(WayToOpen(way, needed, most, needed <= most, why) for way, needed, most, why in asked)
    return Opening(ways, next((row.way for row in ways if row.will_do), None))
