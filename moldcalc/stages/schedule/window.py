"""Between which two times the next coat may start, when a night at another temperature lies between."""

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.cure.ready import CLOCK, ready_with_nights
from moldcalc.stages.cure.window import RecoatWindow
from moldcalc.units import ANY, NOT_NEGATIVE, POSITIVE, door, show


@door(
    earliest="s", latest="s", end_of_coat="s", day_temperature="K", night_temperature="K", night_from="s", night_to="s", reference="K",
    activation_energy="J/mol", returns={"earliest": "s", "latest": "s"},
    possible={"earliest": NOT_NEGATIVE, "latest": POSITIVE, "end_of_coat": CLOCK, "day_temperature": POSITIVE, "night_temperature": POSITIVE,
              "night_from": CLOCK, "night_to": CLOCK, "reference": POSITIVE, "activation_energy": NOT_NEGATIVE},
    holds={"day_temperature": (283.15, 313.15), "night_temperature": (283.15, 313.15)},
)
def recoat_with_nights(*, earliest: float, latest: float, end_of_coat: float, day_temperature: float, night_temperature: float,
                       night_from: float, night_to: float, reference: float, activation_energy: float) -> RecoatWindow:
    r"""The recoat window by the clock, through days and cooler nights; both its ends move.

    .. math:: \int_0^{t} f(T(\tau)) \, d\tau = t_r \quad \text{for each end}

    Parameters
    ----------
    earliest, latest
        Ends of the window at the reference temperature, from the end of the coat, :math:`t_r`. [s]
    end_of_coat
        Clock time at which the coat is on, counted from midnight. [s]
    day_temperature, night_temperature
        Steady by day and by night. [K]
    night_from, night_to
        Clock times between which it is night. [s]
    reference
        At which the window is stated. [K]
    activation_energy
        How steeply the rate climbs with temperature. [J/mol]

    Returns
    -------
    earliest, latest
        Waits from the end of the coat. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a latest that is not after the earliest;
        a night that ends as it begins; more than 60 days.

    Notes
    -----
    Range: 10 to 40 °C, as the rate. The touch test decides: tacky, nothing comes off on a gloved finger.
    Source: equivalent age, ASTM C1074 (verified as formula), taken for both ends of the window: common practice, no source.

    Examples
    --------
    2 h to 24 h at 23 °C; the coat is on at 16:45; 19 °C by day, 14 °C from 17:00 to 08:30:

    >>> from moldcalc.units import Q
    >>> w = recoat_with_nights(earliest=Q(2, "h"), latest=Q(24, "h"), end_of_coat=Q(16.75, "h"), day_temperature=Q(19, "degC"),
    ...                        night_temperature=Q(14, "degC"), night_from=Q(17, "h"), night_to=Q(8.5, "h"), reference=Q(23, "degC"),
    ...                        activation_energy=Q(45, "kJ/mol"))
    >>> print(f"{w.earliest.to('h'):.2f~P} to {w.latest.to('h'):.1f~P}")
    3.45 h to 39.2 h
    """
    if latest <= earliest:
        raise EntryError(Fault("latest recoat", show(latest, "h"), f"it must come after the earliest, {show(earliest, 'h')}"))
    room = {"start_of_day": end_of_coat, "day_temperature": day_temperature, "night_temperature": night_temperature, "night_from": night_from,
            "night_to": night_to, "reference": reference, "activation_energy": activation_energy}
    return RecoatWindow(ready_with_nights.si(needed=earliest, **room), ready_with_nights.si(needed=latest, **room))


@door(closing="s", duration="s", window_ends="s", returns="s", possible={"closing": NOT_NEGATIVE, "duration": NOT_NEGATIVE, "window_ends": ANY})
def latest_start(*, closing: float, duration: float, window_ends: float) -> float:
    r"""The latest time at which one coat may start today: its window still open, and done by closing time.

    .. math:: s = \min(t_{close} - d, \; t_{window})

    Parameters
    ----------
    closing
        Closing time. [s]
    duration
        How long the coat takes, :math:`d`. [s]
    window_ends
        When the window of the coat before closes, counted as the closing time is. [s]

    Returns
    -------
    Latest start, counted as the closing time is. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: this coat alone; what has to follow it may ask for less (`latest_today`).
    Source: the smaller of two limits (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> s = latest_start(closing=Q(17, "h"), duration=Q(31.5, "min"), window_ends=Q(30, "h"))
    >>> print(f"{s.to('h').magnitude:.3f}")
    16.475
    """
    return min(closing - duration, window_ends)
