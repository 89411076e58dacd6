"""The shape of a key: its draft, its lean from the pull, and whether it lets the section go."""

from math import acos, hypot, pi, tan
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.split.draft import RIGHT_ANGLE
from moldcalc.units import ANY, POSITIVE, Range, door, show

BELOW_RIGHT = Range(0, RIGHT_ANGLE, with_low=True)


class KeySize(NamedTuple):
    """A key whose sides lean in: width at its top [m], its volume [m³]."""

    top: float
    volume: float


@door(base="m", height="m", draft="rad", round="", returns={"top": "m", "volume": "m^3"},
      possible={"base": POSITIVE, "height": POSITIVE, "draft": BELOW_RIGHT, "round": Range(0, 1, with_low=True, with_high=True)},
      holds={"base": (0.025, 0.040), "height": (0.010, 0.015), "draft": (5 * pi / 180, 15 * pi / 180)})
def key_size(*, base: float, height: float, draft: float, round: float = 1.0) -> KeySize:
    r"""Top and volume of a key from its base, height and draft.

    .. math:: d = b - 2 h \tan \kappa, \qquad V = \frac{h}{3} \left( b^2 + b d + d^2 \right) \cdot \left( \tfrac{\pi}{4} \; \text{where round} \right)

    Parameters
    ----------
    base
        Width at the bottom, :math:`b`. [m]
    height
        :math:`h`. [m]
    draft
        Of each side from the key's own axis, :math:`\kappa`. [rad]
    round
        1 for a round key, 0 for a square one. [-]

    Returns
    -------
    top
        Width at the top, :math:`d`. [m]
    volume
        :math:`V`. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; sides that meet below the top; a key that
        is neither round nor square.

    Notes
    -----
    Range: 10 to 15 degrees each side (common practice), 5 at least (from memory).
    Source: volume of a frustum (exact).

    Examples
    --------
    >>> size = key_size(base="30 mm", height="12 mm", draft="12°")
    >>> print(f"{size.top.to('mm'):.1f~P}, {size.volume.to('mL'):.1f~P}")
    24.9 mm, 7.1 ml
    """
    if round not in (0.0, 1.0):
        raise EntryError(Fault("round", f"{round:g}", "it must be 1 for a round key or 0 for a square one"))
    top = base - 2 * height * tan(draft)
    if top <= 0:
        raise EntryError(Fault("draft", show(draft, "°"), f"the sides meet below the top, {show(height, 'mm')} high; make it lower or wider"))
    return KeySize(top, height / 3 * (base * base + base * top + top * top) * (pi / 4 if round else 1.0))


@door(axis="[]", pull="[]", returns="rad", possible={"axis": ANY, "pull": ANY})
def key_lean(*, axis: list[float], pull: list[float]) -> float:
    r"""Angle between a key's axis and the pull of the section over it.

    .. math:: \beta = \arccos \frac{\mathbf{a} \cdot \mathbf{d}}{|\mathbf{a}| \, |\mathbf{d}|}

    Parameters
    ----------
    axis
        Out of the rubber or flange, three numbers, :math:`\mathbf{a}`. [-]
    pull
        Of the section, three numbers, :math:`\mathbf{d}`. [-]

    Returns
    -------
    Lean. [rad]

    Raises
    ------
    EntryError
        An entry that is not a list of three numbers, or all of them 0.

    Notes
    -----
    Range: exact. Keys on a flange round an axis lean by 90 - 180/n degrees: `split.least_key_half_angle`.
    Source: geometry.

    Examples
    --------
    >>> print(f"{key_lean(axis=[0, 0, 1], pull=[0, 1, 1]).to('degree'):.0f~P}")
    45 °
    """
    a, d = _unit("axis", axis), _unit("pull", pull)
    return acos(max(-1.0, min(1.0, sum(x * y for x, y in zip(a, d, strict=True)))))


def _unit(entry: str, vector: list[float]) -> list[float]:
    if len(vector) != 3:
        raise EntryError(Fault(entry, f"a list of {len(vector)}", "give three numbers"))
    largest = max(map(abs, vector))
    if largest == 0:
        raise EntryError(Fault(entry, "0, 0, 0", "it has no direction; give at least one number that is not 0"))
    scaled = [x / largest for x in vector]
    length = hypot(*scaled)
    return [x / length for x in scaled]


@door(half_angle="rad", lean="rad", returns="rad", possible={"half_angle": BELOW_RIGHT, "lean": Range(0, pi, with_low=True, with_high=True)})
def draft_against_pull(*, half_angle: float, lean: float) -> float:
    r"""Draft that a key leaves to the section over it; below 0 it locks.

    .. math:: \delta = \kappa - \beta

    Parameters
    ----------
    half_angle
        Of the key's sides from its own axis, :math:`\kappa`. [rad]
    lean
        Of its axis from the section's pull, :math:`\beta`. [rad]

    Returns
    -------
    Draft; negative where it locks. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: keys whose sides all lean in alike. A ridge along the pull locks nothing, whatever its sides do. A key under two
    sections is a mistake: it leans from one of the two pulls at least.
    Source: a cone lets go within its half-angle (exact); for sections round an axis it is `split.key_draft`.

    Examples
    --------
    >>> [f"{draft_against_pull(half_angle='12°', lean=lean).to('degree'):.0f~P}" for lean in ("0°", "7°", "30°")]
    ['12 °', '5 °', '-18 °']
    """
    return half_angle - lean


@door(draft="rad", lean="rad", returns="rad", possible={"draft": BELOW_RIGHT, "lean": BELOW_RIGHT})
def half_angle_for_pull(*, draft: float, lean: float) -> float:
    r"""Half-angle that a key needs for a draft against a pull that leans from its axis.

    .. math:: \kappa = \delta + \beta

    Parameters
    ----------
    draft
        Wanted, :math:`\delta`. [rad]
    lean
        Of the key's axis from the section's pull, :math:`\beta`. [rad]

    Returns
    -------
    Half-angle. [rad]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; 90 degrees or more: turn the key to the pull.

    Notes
    -----
    Range: as the draft against a pull.
    Source: a cone lets go within its half-angle (exact).

    Examples
    --------
    >>> print(f"{half_angle_for_pull(draft='5°', lean='30°').to('degree'):.0f~P}")
    35 °
    """
    if draft + lean >= RIGHT_ANGLE:
        raise EntryError(Fault("lean", show(lean, "°"), "no key lets go so far from its axis; set it along the pull, or use a ridge along the pull"))
    return draft + lean


def said_of_key(draft: float, least: float) -> str:
    """What a key's draft [rad] means at the bench, beside the least that is wanted [rad]."""
    if draft < 0:
        return "locks: turn it to the pull, or open its sides"
    return "too tight: below the least draft" if draft < least else "lets go"
