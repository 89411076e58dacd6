"""What a scale can resolve, and so how small a cup may be."""

from math import hypot, sqrt

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door


@door(readability="kg", readings="", returns="kg", possible={"readability": POSITIVE, "readings": Range(1, 1000, True, True)})
def readability_uncertainty(*, readability: float, readings: float) -> float:
    r"""Standard uncertainty of a weighing from the last digit of the scale alone.

    .. math:: u = \frac{d}{\sqrt{12}} \sqrt{n}

    Parameters
    ----------
    readability
        Step of the display, :math:`d`. [kg]
    readings
        Read off for one mass, :math:`n`: 1, or 2 where the cup was tared first. [-]

    Returns
    -------
    Standard uncertainty. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a scale in order; drift, slope and draughts come on top.
    Source: JCGM 100:2008, F.2.2.1 (from memory); NISTIR 6969, SOP 29 lists 0.29 d (verified).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{readability_uncertainty(readability=Q(1, 'g'), readings=2).to('g').magnitude:.7f}")
    0.4082483
    """
    return readability / sqrt(12) * sqrt(readings)


@door(base_mass="kg", part_mass="kg", base_uncertainty="kg", part_uncertainty="kg", returns="",
      possible={"base_mass": POSITIVE, "part_mass": POSITIVE, "base_uncertainty": NOT_NEGATIVE, "part_uncertainty": NOT_NEGATIVE})
def ratio_uncertainty(*, base_mass: float, part_mass: float, base_uncertainty: float, part_uncertainty: float) -> float:
    r"""Relative standard uncertainty of a mix ratio from those of its two weighings.

    .. math:: \frac{u_r}{r} = \sqrt{ \left( \frac{u_A}{m_A} \right)^2 + \left( \frac{u_B}{m_B} \right)^2 }

    Parameters
    ----------
    base_mass, part_mass
        As weighed, :math:`m_A, m_B`. [kg]
    base_uncertainty, part_uncertainty
        Standard uncertainty of each, :math:`u_A, u_B`. [kg]

    Returns
    -------
    Relative standard uncertainty; twice it covers about 95 %. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: the two weighings independent, each uncertainty small beside its mass.
    Source: JCGM 100:2008 (GUM), 5.1.2 (verified).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> u = ratio_uncertainty(base_mass=Q(500, "g"), part_mass=Q(25, "g"),
    ...                       base_uncertainty=Q(0.4082483, "g"), part_uncertainty=Q(0.4082483, "g"))
    >>> print(f"{100 * u:.5f} %")
    1.63503 %
    """
    return hypot(base_uncertainty / base_mass, part_uncertainty / part_mass)


@door(ratio="", readability="kg", tolerance="", coverage="", returns="kg",
      possible={"ratio": POSITIVE, "readability": POSITIVE, "tolerance": Range(0, 1), "coverage": POSITIVE})
def smallest_batch(*, ratio: float, readability: float, tolerance: float, coverage: float = 2.0) -> float:
    r"""Least mass of base for which the scale still gets the ratio right.

    .. math:: m_A = \frac{k}{x} \frac{d}{\sqrt 6} \sqrt{1 + \frac{1}{r^2}}

    Parameters
    ----------
    ratio
        Mass of B over mass of A, :math:`r`. [-]
    readability
        Step of the display, :math:`d`. [kg]
    tolerance
        Relative error allowed in the ratio, :math:`x`. [-]
    coverage
        Standard uncertainties that must fit into it, :math:`k`; 2 covers about 95 %. [-]

    Returns
    -------
    Mass of base. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: both parts tared, the readability the only error. 5 % of the part is a usual allowance: common practice, no
    source.
    Source: JCGM 100:2008 (GUM), 5.1.2 (verified), solved for the mass.

    Examples
    --------
    A scale of 1 g, 100:5, 5 % of the catalyst:

    >>> from moldcalc.units import Q
    >>> m = smallest_batch(ratio=0.05, readability=Q(1, "g"), tolerance=0.05)
    >>> print(f"{m.to('g').magnitude:.3f}")
    327.007
    """
    each = float(readability_uncertainty.si(readability=readability, readings=2))
    return coverage / tolerance * each * hypot(1.0, 1 / ratio)


@door(error="kg", tolerance="", returns="kg", possible={"error": POSITIVE, "tolerance": Range(0, 1)})
def worst_case_smallest_part(*, error: float, tolerance: float) -> float:
    r"""Least mass of part B of which one error of the scale is no more than a share.

    .. math:: m_B = \frac{E}{x}

    Parameters
    ----------
    error
        Largest error of the scale on that weighing, :math:`E`. [kg]
    tolerance
        Share of part B that it may be, :math:`x`. [-]

    Returns
    -------
    Mass of part B. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: base and tare taken as exact.
    Source: division (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{worst_case_smallest_part(error=Q(1, 'g'), tolerance=0.05).to('g'):.0f~P}")
    20 g
    """
    return error / tolerance


#: OIML R 76-1, table 6 (verified): class -> up to how many divisions the error on initial verification is 0.5, 1 and 1.5 e
_R76 = {"II": (5_000, 20_000, 100_000), "III": (500, 2_000, 10_000), "IIII": (50, 200, 1_000)}
#: NIST Handbook 44, class III: (up to how many divisions, maintenance tolerance in d); last two rows and the steps verified,
#: the first two follow from acceptance x 2
_HB44 = ((500, 1.0), (2_000, 2.0), (4_000, 3.0), (10_000, 5.0))


def _refuse_divisions(divisions: float, most: float, which: str) -> None:
    # also false for NaN
    if isinstance(divisions, bool) or not isinstance(divisions, (int, float)) or not 0 <= divisions <= most:
        raise EntryError(Fault("divisions", f"{divisions}", f"{which} goes from 0 to {most:.0f}"))


def oiml_r76_error(*, divisions: float, accuracy_class: str, in_service: bool = False) -> float:
    """Largest error that a verified scale may show, in verification intervals e.

    Parameters
    ----------
    divisions
        Load on the scale over its verification interval e. [-]
    accuracy_class
        'II', 'III' or 'IIII', from the scale's plate.
    in_service
        Twice the error on initial verification (clause 3.5.2, from memory).

    Returns
    -------
    Error, either way. [-]

    Raises
    ------
    EntryError
        Another class; a load that the class does not reach.

    Notes
    -----
    Range: scales verified for trade; a kitchen or parcel scale has no class.
    Source: OIML R 76-1, table 6 (verified). A load on the boundary belongs to the lower step.

    Examples
    --------
    >>> oiml_r76_error(divisions=500, accuracy_class="III"), oiml_r76_error(divisions=501, accuracy_class="III")
    (0.5, 1.0)
    """
    steps = _R76.get(accuracy_class)
    if steps is None:
        raise EntryError(Fault("accuracy class", f"{accuracy_class!s:.20}", "it must be II, III or IIII"))
    _refuse_divisions(divisions, steps[-1], f"class {accuracy_class}")
    error = 0.5 * (1 + sum(divisions > step for step in steps[:2]))
    return 2 * error if in_service else error


def hb44_maintenance_error(*, divisions: float) -> float:
    """Largest error that a class III scale may show in use by the United States' handbook, in scale divisions d.

    Parameters
    ----------
    divisions
        Load on the scale over its division d. [-]

    Returns
    -------
    Error, either way. [-]

    Raises
    ------
    EntryError
        A load that the class does not reach.

    Notes
    -----
    Range: scales of class III; on acceptance half of it.
    Source: NIST Handbook 44, scales code, class III (break points and last two rows verified).

    Examples
    --------
    150 lb on a scale of 0.05 lb:

    >>> hb44_maintenance_error(divisions=150 / 0.05)
    3.0
    """
    _refuse_divisions(divisions, _HB44[-1][0], "class III")
    return next(error for most, error in _HB44 if divisions <= most)


#: OIML R 76-1, table 3, class III (verified)
LEAST_INTERVALS = 20


@door(load="kg", verification_interval="kg", returns=None, possible={"load": NOT_NEGATIVE, "verification_interval": POSITIVE})
def below_minimum_load(*, load: float, verification_interval: float) -> bool:
    r"""Whether a weighing is smaller than a class III scale is made for.

    .. math:: m < 20 \, e

    Parameters
    ----------
    load
        Smallest mass that is weighed, :math:`m`. [kg]
    verification_interval
        Of the scale, :math:`e`; its readability where it has none. [kg]

    Returns
    -------
    True where it is too small. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: class III.
    Source: OIML R 76-1, table 3: least capacity 20 e (verified).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> below_minimum_load(load=Q(15, "g"), verification_interval=Q(1, "g"))
    True
    """
    return load < LEAST_INTERVALS * verification_interval * (1 - 1e-12)
