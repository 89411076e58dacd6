"""How a mix thickens while it cures, and when the brush stops wetting."""

from math import exp, expm1, log, log2

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.cure.rate import GAS_CONSTANT
from moldcalc.units import ANY, NOT_NEGATIVE, PART, POSITIVE, Range, door, show

GEL = Range(0, 1, with_high=True)


@door(conversion="", gel_conversion="", a="", b="", returns="",
      possible={"conversion": PART, "gel_conversion": GEL, "a": ANY, "b": ANY}, holds={"a": (1, 3), "b": (-3, 3)})
def castro_macosko(*, conversion: float, gel_conversion: float, a: float, b: float) -> float:
    r"""Viscosity of a curing mix over its viscosity before any cure.

    .. math:: \frac{\eta}{\eta_0} = \left( \frac{\alpha_g}{\alpha_g - \alpha} \right)^{a + b \alpha}

    Parameters
    ----------
    conversion
        Share of the groups that have reacted, :math:`\alpha`; below the gel point. [-]
    gel_conversion
        Share at which it gels, :math:`\alpha_g`. [-]
    a, b
        Fitted exponents. [-]

    Returns
    -------
    Viscosity ratio. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a conversion at or past the gel point.

    Notes
    -----
    Range: a 1 to 3, b -3 to 3 fitted for epoxies (from memory).
    Source: Castro and Macosko, AIChE J. 28 (1982) 250-260 (from memory).

    Examples
    --------
    >>> print(f"{castro_macosko(conversion=0.3, gel_conversion=0.65, a=1.5, b=1.0):.6f}")
    3.047345
    """
    if conversion >= gel_conversion:
        raise EntryError(Fault("conversion", show(conversion), f"it must be below the gel conversion, {show(gel_conversion)}"))
    return float((gel_conversion / (gel_conversion - conversion)) ** (a + b * conversion))


@door(viscosity_ratio="", gel_conversion="", a="", b="", returns="",
      possible={"viscosity_ratio": Range(1, float("inf"), with_low=True), "gel_conversion": GEL, "a": POSITIVE, "b": ANY},
      holds={"a": (1, 3), "b": (-3, 3)})
def conversion_at_viscosity_ratio(*, viscosity_ratio: float, gel_conversion: float, a: float, b: float) -> float:
    r"""Conversion at which a mix first is so many times thicker than at the start.

    .. math:: \left( \frac{\alpha_g}{\alpha_g - \alpha} \right)^{a + b \alpha} = \frac{\eta}{\eta_0}

    Parameters
    ----------
    viscosity_ratio
        Viscosity over the viscosity before any cure, :math:`\eta / \eta_0`. [-]
    gel_conversion
        Share at which it gels, :math:`\alpha_g`. [-]
    a, b
        Fitted exponents; a + b times the gel conversion must be above 0, or it would not thicken without limit. [-]

    Returns
    -------
    Conversion. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; exponents that don't lead to a gel.

    Notes
    -----
    Range: a 1 to 3, b -3 to 3 fitted for epoxies (from memory).
    Source: Castro and Macosko, AIChE J. 28 (1982) 250-260 (from memory), solved by stepping and halving.

    Examples
    --------
    >>> print(f"{conversion_at_viscosity_ratio(viscosity_ratio=2, gel_conversion=0.65, a=1.5, b=1.0):.6f}")
    0.216002
    """
    at_gel = a + b * gel_conversion
    if at_gel <= 0:
        raise EntryError(Fault("b", show(b), f"a + b times the gel conversion must be above 0, so it must be above {show(-a / gel_conversion)}"))
    if viscosity_ratio == 1:
        return 0.0

    # in y = ln[gel/(gel - conversion)] the logarithm of the ratio is (a + b conversion) y, which lies between two lines
    def short(y: float) -> bool:
        return (a - b * gel_conversion * expm1(-y)) * y < wanted

    wanted = log(viscosity_ratio)
    low, end = wanted / max(a, at_gel), wanted / min(a, at_gel)
    step = (end - low) / 500
    for _ in range(500):
        if not short(low + step):
            break
        low += step
    high = min(low + step, end)
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if short(middle) else (low, middle)
    return -gel_conversion * expm1(-high)


@door(temperature="K", prefactor="Pa*s", flow_energy="J/mol", returns="Pa*s",
      possible={"temperature": POSITIVE, "prefactor": POSITIVE, "flow_energy": NOT_NEGATIVE})
def initial_viscosity(*, temperature: float, prefactor: float, flow_energy: float) -> float:
    r"""Viscosity before any cure, thinner when warm.

    .. math:: \eta_0 = A \exp \frac{E}{R T}

    Parameters
    ----------
    temperature
        Of the mix, :math:`T`. [K]
    prefactor
        Fitted, :math:`A`. [Pa·s]
    flow_energy
        How steeply it thins with temperature, :math:`E`. [J/mol]

    Returns
    -------
    Viscosity. [Pa·s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: where it was fitted; well above the glass transition of the liquid.
    Source: Arrhenius form as used by Castro and Macosko, AIChE J. 28 (1982) 250-260 (from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> v = initial_viscosity(temperature=Q(40, "degC"), prefactor=Q(10.3e-8, "Pa*s"), flow_energy=Q(41.3, "kJ/mol"))
    >>> print(f"{v.magnitude:.5f}")
    0.79745
    """
    return prefactor * exp(flow_energy / (GAS_CONSTANT * temperature))


@door(doubling_time="s", initial_viscosity="Pa*s", limit_viscosity="Pa*s", returns="s",
      possible={"doubling_time": POSITIVE, "initial_viscosity": POSITIVE, "limit_viscosity": POSITIVE})
def time_to_viscosity(*, doubling_time: float, initial_viscosity: float, limit_viscosity: float) -> float:
    r"""Time until a mix is too thick to brush.

    .. math:: t = t_2 \log_2 \frac{\eta_{lim}}{\eta_0}

    Parameters
    ----------
    doubling_time
        In which the viscosity doubles, :math:`t_2`: a pot life by that definition. [s]
    initial_viscosity
        Freshly mixed, :math:`\eta_0`. [Pa·s]
    limit_viscosity
        At which the brush no longer wets, :math:`\eta_{lim}`. [Pa·s]

    Returns
    -------
    Time. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a limit below the start.

    Notes
    -----
    Range: steady temperature, up to about ten times the start. Ask by which definition a pot life was stated: doubling,
    tack and gel differ by 2 to 4 times for one material.
    Source: exponential rise (Roller's form); pot life as doubling is a common definition (verified, a public trade source).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> t = time_to_viscosity(doubling_time=Q(30, "min"), initial_viscosity=Q(25, "Pa*s"), limit_viscosity=Q(60, "Pa*s"))
    >>> print(f"{t.to('min'):.3f~P}")
    37.891 min
    """
    if limit_viscosity < initial_viscosity:
        allowed = f"it must be at least the initial viscosity, {show(initial_viscosity, 'Pa·s')}"
        raise EntryError(Fault("limit viscosity", show(limit_viscosity, "Pa·s"), allowed))
    return doubling_time * log2(limit_viscosity / initial_viscosity)
