"""The hang test: how thick a dab of paste holds on an upright face, and what loading would hold more."""

from math import log, pi

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.coats.film import yield_stress_to_hold
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show

_TESTS = {"first_loading": POSITIVE, "first_stress": POSITIVE, "second_loading": POSITIVE, "second_stress": POSITIVE}


def _steepness(first_loading: float, first_stress: float, second_loading: float, second_stress: float) -> float:
    """Exponent of the power law through two tests; more thickener has to hold more."""
    if first_loading == second_loading:
        raise EntryError(Fault("second loading", show(second_loading, "%"), "it must differ from the first loading"))
    if (second_loading > first_loading) != (second_stress > first_stress) or first_stress == second_stress:
        raise EntryError(Fault("second stress", f"{show(second_stress, 'Pa')} at a loading of {show(second_loading, '%')}",
                               f"with {show(first_stress, 'Pa')} at {show(first_loading, '%')} more thickener doesn't hold more; test again"))
    return (log(second_stress) - log(first_stress)) / (log(second_loading) - log(first_loading))


@door(thickness="m", density="kg/m^3", returns="Pa", possible={"thickness": NOT_NEGATIVE, "density": POSITIVE})
def yield_stress_from_hang(*, thickness: float, density: float) -> float:
    r"""Yield stress of a paste from the thickest dab that holds on an upright face.

    .. math:: \tau_y = \rho g h

    Parameters
    ----------
    thickness
        Of the thickest dab that doesn't slide, :math:`h`. [m]
    density
        Of the paste, :math:`\rho`. [kg/m³]

    Returns
    -------
    Yield stress. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a dab some ten times as wide and long as it is thick (our own limit): at the rim of a smaller one more than
    its own face holds it.
    Source: force balance. Mezger, The Rheology Handbook, 3.3.4.2.1 (verified).

    Examples
    --------
    >>> print(f"{yield_stress_from_hang(thickness='5 mm', density='1.3 kg/L'):.3f~P}")
    63.743 Pa
    """
    return yield_stress_to_hold.si(thickness=thickness, density=density, slope=pi / 2)


@door(loading="", first_loading="", first_stress="Pa", second_loading="", second_stress="Pa", returns="Pa",
      possible=_TESTS | {"loading": POSITIVE})
def yield_stress_at_loading(*, loading: float, first_loading: float, first_stress: float,
                            second_loading: float, second_stress: float) -> float:
    r"""Yield stress at a loading of thickener, from two hang tests.

    .. math:: \tau = \tau_1 \left( \frac{x}{x_1} \right)^m, \quad m = \frac{\ln(\tau_2 / \tau_1)}{\ln(x_2 / x_1)}

    Parameters
    ----------
    loading
        Thickener for base, by mass, :math:`x`. [-]
    first_loading, second_loading
        Thickener for base in the two tests, by mass, :math:`x_1, x_2`. [-]
    first_stress, second_stress
        Yield stress found in the two tests, :math:`\tau_1, \tau_2`. [Pa]

    Returns
    -------
    Yield stress. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; two tests in which more thickener
        doesn't hold more.

    Notes
    -----
    Range: between the two loadings; beyond them it strays (`beyond_tests` says how far). Same base, same thickener,
    same stirring.
    Source: our own choice of a curve through two points; yield stresses of networks are often fitted by a power law (from
    memory).

    Examples
    --------
    >>> held = yield_stress_at_loading(loading="1.5 %", first_loading="1 %", first_stress="20 Pa", second_loading="2 %", second_stress="80 Pa")
    >>> print(f"{held:.1f~P}")
    45.0 Pa
    """
    steepness = _steepness(first_loading, first_stress, second_loading, second_stress)
    return first_stress * (loading / first_loading) ** steepness


@door(thickness="m", density="kg/m^3", slope="rad", first_loading="", first_stress="Pa", second_loading="", second_stress="Pa", returns="",
      possible=_TESTS | {"thickness": NOT_NEGATIVE, "density": POSITIVE, "slope": Range(0, pi, True, True)},
      holds={"slope": (0, pi / 2)})
def loading_to_hold(*, thickness: float, density: float, slope: float, first_loading: float,
                    first_stress: float, second_loading: float, second_stress: float) -> float:
    r"""Loading of thickener that holds a thickness on a slope, from two hang tests.

    .. math:: x = x_1 \left( \frac{\rho g h \sin \theta}{\tau_1} \right)^{1/m}

    Parameters
    ----------
    thickness
        To be held, :math:`h`. [m]
    density
        Of the paste, :math:`\rho`. [kg/m³]
    slope
        Of the face from the horizontal, :math:`\theta`: 90° is upright. [rad]
    first_loading, second_loading
        Thickener for base in the two tests, by mass, :math:`x_1, x_2`. [-]
    first_stress, second_stress
        Yield stress found in the two tests, :math:`\tau_1, \tau_2`. [Pa]

    Returns
    -------
    Thickener for base, by mass. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; two tests in which more thickener
        doesn't hold more.

    Notes
    -----
    Range: between the two loadings; beyond them it strays. Nothing is added for safety of hold: test a dab with the
    answer.
    Source: the inverse of `yield_stress_at_loading`.

    Examples
    --------
    >>> loading = loading_to_hold(thickness="5 mm", density="1.2 kg/L", slope="90°", first_loading="1 %", first_stress="20 Pa",
    ...                           second_loading="2 %", second_stress="80 Pa")
    >>> print(f"{loading:.4f}")
    0.0172
    """
    steepness = _steepness(first_loading, first_stress, second_loading, second_stress)
    needed = yield_stress_to_hold.si(thickness=thickness, density=density, slope=slope)
    return first_loading * (needed / first_stress) ** (1 / steepness)


@door(loading="", first_loading="", second_loading="", returns="",
      possible={"loading": POSITIVE, "first_loading": POSITIVE, "second_loading": POSITIVE})
def beyond_tests(*, loading: float, first_loading: float, second_loading: float) -> float:
    r"""How many times a loading lies outside the two that were tested.

    .. math:: f = \max \left( 1, \frac{x}{x_{high}}, \frac{x_{low}}{x} \right)

    Parameters
    ----------
    loading
        Thickener for base, :math:`x`. [-]
    first_loading, second_loading
        Of the two tests, in either order. [-]

    Returns
    -------
    1 within the tests; 2 at twice the higher or half the lower one. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: any.
    Source: definition.

    Examples
    --------
    >>> beyond_tests(loading="3 %", first_loading="1 %", second_loading="2 %")
    1.5
    """
    low, high = sorted((first_loading, second_loading))
    return max(1.0, loading / high, low / loading)
