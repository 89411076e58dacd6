"""Noise of a day's grinding: the dose by the 5 dB rule, the daily level by the 3 dB rule."""

from math import fsum, log10

from moldcalc.errors import EntryError, Fault
from moldcalc.units import POSITIVE, Range, door

HOUR = 3600.0
#: OSHA: criterion level, exchange rate, action level [dBA] (seen in public copies)
CRITERION = 90.0
EXCHANGE = 5.0
ACTION = 85.0
#: EU 2003/10/EC: lower and upper action value, limit value at the ear, daily [dB] (seen in public copies)
EU_LOWER, EU_UPPER, EU_LIMIT = 80.0, 85.0, 87.0

_LEVEL = Range(0, 194, True, True)
_TIME = Range(0, 24 * HOUR, True, True)


def _pairs(levels: list[float], times: list[float]) -> list[tuple[float, float]]:
    if len(levels) != len(times):
        raise EntryError(Fault("times", f"{len(times)} beside {len(levels)} levels", "give one for each job"))
    return list(zip(levels, times, strict=True))


@door(level="", criterion="", exchange="", returns="s", possible={"level": _LEVEL, "criterion": _LEVEL, "exchange": Range(1, 10, True, True)})
def allowed_time(*, level: float, criterion: float = CRITERION, exchange: float = EXCHANGE) -> float:
    r"""How long a level is let through by a rule that gives 8 h at its criterion.

    .. math:: T = \frac{8 \, \mathrm{h}}{2^{(L - L_c)/q}}

    Parameters
    ----------
    level
        At the ear, A-weighted, :math:`L`, in dB. [-]
    criterion
        Level for 8 h, :math:`L_c`, in dB: 90 (OSHA), 85 (others). [-]
    exchange
        Rate that halves the time, :math:`q`, in dB: 5 (OSHA), 3 (EU, NIOSH). [-]

    Returns
    -------
    Time. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: 80 to 130 dBA. Printed tables round it: 12.1 h at 87, 6.1 h at 92 dBA.
    Source: 29 CFR 1910.95 appendix A (seen in public copies).

    Examples
    --------
    >>> print(f"{allowed_time(level=95).to('h').magnitude:.0f}")
    4
    """
    return float(8 * HOUR * 2 ** ((criterion - level) / exchange))


@door(levels="[]", times="s[]", threshold="", criterion="", exchange="", returns="",
      possible={"levels": _LEVEL, "times": _TIME, "threshold": _LEVEL, "criterion": _LEVEL, "exchange": Range(1, 10, True, True)})
def noise_dose(*, levels: list[float], times: list[float], threshold: float = 80.0, criterion: float = CRITERION,
               exchange: float = EXCHANGE) -> float:
    r"""Dose of a day's noise.

    .. math:: D = \sum \frac{t_i}{T_i}

    Parameters
    ----------
    levels
        At the ear, A-weighted, in dB. [-]
    times
        At each, :math:`t_i`. [s]
    threshold
        Levels under it are not counted, in dB: 80 for the hearing programme, 90 for the limit (OSHA). [-]
    criterion
        Level for 8 h, in dB. [-]
    exchange
        Rate that halves the time, in dB. [-]

    Returns
    -------
    Share of what is let through in a day: 0.5 is the action level, 1 the limit (OSHA). [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: the ear without protection.
    Source: 29 CFR 1910.95 appendix A (seen in public copies).

    Examples
    --------
    >>> print(f"{noise_dose(levels=[100, 90, 85], times=['1 h', '4 h', '3 h']):.2%}")
    118.75%
    """
    return fsum(t / float(allowed_time.si(level=level, criterion=criterion, exchange=exchange))
                for level, t in _pairs(levels, times) if level >= threshold)


@door(levels="[]", times="s[]", returns="", possible={"levels": _LEVEL, "times": Range(0, 24 * HOUR, with_high=True)})
def daily_level(*, levels: list[float], times: list[float]) -> float:
    r"""A day's noise as the level that eight hours of it would have (3 dB rule).

    .. math:: L_{EX,8h} = 10 \log_{10} \left( \frac{1}{8 \, \mathrm{h}} \sum t_i \, 10^{L_i/10} \right)

    Parameters
    ----------
    levels
        At the ear, A-weighted, :math:`L_i`, in dB. [-]
    times
        At each, :math:`t_i`. [s]

    Returns
    -------
    Daily level, in dB: action values 80 and 85, limit value 87 in the EU. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths.

    Notes
    -----
    Range: the ear without protection, except for the EU limit value.
    Source: 2003/10/EC and ISO 9612 (seen in public copies).

    Examples
    --------
    >>> print(f"{daily_level(levels=[70, 80.8, 90.1], times=['1.5 h', '5 h', '1.5 h']):.1f}")
    84.3
    """
    return 10 * log10(fsum(t * 10 ** (level / 10) for level, t in _pairs(levels, times)) / (8 * HOUR))


@door(dose="", returns="", possible={"dose": POSITIVE})
def level_of_dose(*, dose: float) -> float:
    r"""Level that gives the same dose in eight hours by the 5 dB rule.

    .. math:: L = 16.61 \log_{10} D + 90, \qquad 16.61 = \frac{5}{\log_{10} 2}

    Parameters
    ----------
    dose
        Of the day, :math:`D`. [-]

    Returns
    -------
    Level, A-weighted, in dB. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any dose above 0.
    Source: 29 CFR 1910.95 appendix A (from memory), with the unrounded factor.

    Examples
    --------
    >>> print(f"{level_of_dose(dose=0.5):.0f}")
    85
    """
    return EXCHANGE / log10(2) * log10(dose) + CRITERION
