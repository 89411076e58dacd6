"""Keys, buttons and pins: how many and how far apart, never fewer than hold."""

from math import ceil, inf, sqrt
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.handling.pressure import GRAVITY
from moldcalc.stages.mixing.counting import MOST, count_up
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show


@door(area="m^2", thickness="m", density="kg/m^3", pull="Pa", returns="N",
      possible={"area": NOT_NEGATIVE, "thickness": NOT_NEGATIVE, "density": POSITIVE, "pull": NOT_NEGATIVE})
def hanging_load(*, area: float, thickness: float, density: float, pull: float = 0.0) -> float:
    r"""What draws the rubber out of its shell where it hangs: its weight and the pull of a cast being drawn.

    .. math:: F = A \, ( \rho \, g \, t + p )

    Parameters
    ----------
    area
        That hangs in the casting position, seen from above, :math:`A`. [m²]
    thickness
        Of the rubber with its fills, :math:`t`. [m]
    density
        Of the rubber, :math:`\rho`. [kg/m³]
    pull
        Of the cast on the rubber, :math:`p`; 0 where nothing draws on it. [Pa]

    Returns
    -------
    Force. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a ceiling; on a slope the same weight hangs partly sideways, so this is the most. The pull of a cast has no
    published figure: weigh it on a small one.
    Source: weight (exact).

    Examples
    --------
    A square metre of ceiling, 8.5 mm thick:

    >>> print(f"{hanging_load(area='1 m²', thickness='8.5 mm', density='1.18 kg/L').to('N'):.0f~P}")
    98 N
    """
    return area * (density * GRAVITY * thickness + pull)


class Buttons(NamedTuple):
    """Buttons on a hanging area: how many, how far apart [m], how many each rule asks for, load on each [N]."""

    number: int
    spacing: float
    by_load: int
    by_spacing: int
    load_on_each: float


@door(area="m^2", load="N", hold="N", load_factor="", most_spacing="m", returns={"spacing": "m", "load_on_each": "N"},
      possible={"area": POSITIVE, "load": NOT_NEGATIVE, "hold": POSITIVE, "load_factor": Range(1, inf, with_low=True), "most_spacing": POSITIVE},
      holds={"most_spacing": (0.15, 0.25), "load_factor": (2, 5)})
def buttons(*, area: float, load: float, hold: float, load_factor: float, most_spacing: float) -> Buttons:
    r"""Buttons that keep the rubber in its shell over a hanging area: never fewer than hold it.

    .. math:: n = \max \left( \left\lceil \frac{k F}{H} \right\rceil, \left\lceil \frac{A}{p^2} \right\rceil \right), \quad s = \sqrt{A / n}

    Parameters
    ----------
    area
        That hangs, :math:`A`. [m²]
    load
        On all of it, :math:`F`. [N]
    hold
        Pull at which one button slips out of its socket, :math:`H`: hang weights on one. [N]
    load_factor
        By which the buttons are to hold more than the load, :math:`k`. [-]
    most_spacing
        Farthest apart, whatever they hold, :math:`p`. [m]

    Returns
    -------
    number
        Of buttons, at least 1.
    spacing
        In a square pattern, :math:`s`. [m]
    by_load, by_spacing
        What each rule alone asks for.
    load_on_each
        Share of one button. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 buttons.

    Notes
    -----
    Range: buttons 150 to 250 mm apart on ceilings (common practice, no source). What a tapered button holds depends on its
    draft, its release and its rubber, and has no published figure: measure it.
    Source: balance of forces (exact); rule of spacing: common practice, no source.

    Examples
    --------
    0.3 m² of ceiling at 10 mm, a cast that pulls with 200 Pa, buttons that slip at 12 N, three times over:

    >>> load = hanging_load(area="0.3 m²", thickness="10 mm", density="1.18 kg/L", pull="200 Pa")
    >>> from moldcalc.units import Q
    >>> found = buttons(area="0.3 m²", load=load, hold=Q(12, "N"), load_factor=3, most_spacing="200 mm")
    >>> found.number, found.by_load, found.by_spacing, f"{found.spacing.to('mm'):.0f~P}"
    (24, 24, 8, '112 mm')
    """
    by_load = count_up(load_factor * load / hold, "number of buttons")
    by_spacing = count_up(area / most_spacing / most_spacing, "number of buttons")
    count = max(by_load, by_spacing, 1)
    return Buttons(count, sqrt(area / count), by_load, by_spacing, load / count)


class FlangeKeys(NamedTuple):
    """Keys along a flange: how many and how far apart from middle to middle. [m]"""

    number: int
    spacing: float


@door(length="m", width="m", most_spacing="m", end="m", returns={"spacing": "m"},
      possible={"length": POSITIVE, "width": POSITIVE, "most_spacing": POSITIVE, "end": NOT_NEGATIVE},
      holds={"most_spacing": (0.075, 0.150), "width": (0.025, 0.040)})
def flange_keys(*, length: float, width: float, most_spacing: float, end: float | None = None) -> FlangeKeys:
    r"""Keys along a flange, evenly.

    .. math:: n = \left\lceil \frac{L - 2e}{p} \right\rceil + 1 \; \text{(two ends)}, \qquad n = \lceil L / p \rceil \; \text{(closed)}

    Parameters
    ----------
    length
        Of the line of keys, :math:`L`. [m]
    width
        Of one key along the line. [m]
    most_spacing
        From middle to middle at most, :math:`p`. [m]
    end
        From each end to the middle of the first key, :math:`e`; left out for a line that closes on itself. [m]

    Returns
    -------
    number
        Of keys: at least two on a line with ends, three on a closed one, so that nothing turns.
    spacing
        From middle to middle. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; keys that would touch; ends that leave
        no room; more than 100 000 keys.

    Notes
    -----
    Range: keys 25 to 40 mm wide, 10 to 15 mm high, every 75 to 150 mm (common practice, no source).
    Source: counting.

    Examples
    --------
    >>> flange_keys(length="2.7 m", width="30 mm", most_spacing="120 mm").number
    23
    """
    run = length if end is None else length - 2 * end
    if run <= 0:
        raise EntryError(Fault("end", show(end or 0.0, "mm"), f"twice that must be less than the length, {show(length, 'mm')}"))
    gaps = max(count_up(run / most_spacing, "number of keys"), 3 if end is None else 1)
    spacing = run / gaps
    if spacing <= width:
        raise EntryError(Fault("width", show(width, "mm"), f"keys would touch: they come {show(spacing, 'mm')} apart here"))
    return FlangeKeys(gaps if end is None else gaps + 1, spacing)


@door(lengths="m[]", spacing="m", rows="", returns="", possible={"lengths": NOT_NEGATIVE, "spacing": POSITIVE, "rows": POSITIVE})
def pins_needed(*, lengths: list[float], spacing: float, rows: float) -> float:
    r"""Pins that hold strips on the rubber until they are bonded.

    .. math:: n = r \sum \left( \lceil L_i / p \rceil + 1 \right)

    Parameters
    ----------
    lengths
        Of the strips, :math:`L_i`. [m]
    spacing
        From pin to pin at most, :math:`p`. [m]
    rows
        Of pins on a strip, one or two, :math:`r`. [-]

    Returns
    -------
    Number of pins. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 100 000 pins.

    Notes
    -----
    Range: a few hundred on several animals (common practice, no source). Count them out again before the shell goes on.
    Source: counting.

    Examples
    --------
    >>> pins_needed(lengths=["0.70 m", "1.25 m", "1.05 m"], spacing="50 mm", rows=2)
    126
    """
    total = ceil(rows) * sum(count_up(length / spacing, "number of pins") + 1 for length in lengths)
    return count_up(min(total, 2 * MOST), "number of pins")
