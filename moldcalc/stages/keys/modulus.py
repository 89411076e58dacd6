"""How stiff a rubber is: Young's modulus from its Shore A hardness, two published formulas and their scatter."""

from typing import NamedTuple

from moldcalc.units import PART, Range, door

#: Gent's formula has its pole at 100; 0 is off the gauge's scale
SHORE = Range(0, 100, with_low=True)


class ModulusBand(NamedTuple):
    """Young's modulus: what two formulas and their scatter leave open, and Gent's value as the likely one. [Pa]"""

    low: float
    likely: float
    high: float


@door(hardness_shore_a="", returns="Pa", possible={"hardness_shore_a": SHORE}, holds={"hardness_shore_a": (20, 80)})
def gent_modulus(*, hardness_shore_a: float) -> float:
    r"""Young's modulus from Shore A by Gent's formula.

    .. math:: E = \frac{0.0981 \, (56 + 7.62336 \, S)}{0.137505 \, (254 - 2.54 \, S)} \; \text{MPa}

    Parameters
    ----------
    hardness_shore_a
        Shore A, :math:`S`. [-]

    Returns
    -------
    Young's modulus; the shear modulus is a third of it. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: Shore A 20 to 80, scatter about 30 % either way (verified statement); poor below 20, where mold rubbers begin.
    The rounded constant 7.66 also circulates and reads 0.35 % higher.
    Source: Gent 1958 (formula verified in three public files).

    Examples
    --------
    >>> print(f"{gent_modulus(hardness_shore_a=20).to('MPa'):.6f~P}")
    0.731922 MPa
    """
    return 0.0981e6 * (56 + 7.62336 * hardness_shore_a) / (0.137505 * (254 - 2.54 * hardness_shore_a))


@door(hardness_shore_a="", returns="Pa", possible={"hardness_shore_a": SHORE}, holds={"hardness_shore_a": (30, 60)})
def ruess_modulus(*, hardness_shore_a: float) -> float:
    r"""Young's modulus from Shore A by Ruess's fit.

    .. math:: \log_{10} E = 0.0235 \, S - 0.6403 \quad (E \text{ in MPa})

    Parameters
    ----------
    hardness_shore_a
        Shore A, :math:`S`. [-]

    Returns
    -------
    Young's modulus. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: best from Shore A 30 to 60 (verified). The logarithm is to base 10; with base e it answers nonsense.
    Source: Ruess (formula verified).

    Examples
    --------
    >>> print(f"{ruess_modulus(hardness_shore_a=40).to('MPa'):.6f~P}")
    1.993885 MPa
    """
    return float(1e6 * 10 ** (0.0235 * hardness_shore_a - 0.6403))


@door(hardness_shore_a="", scatter="", returns={"low": "Pa", "likely": "Pa", "high": "Pa"},
      possible={"hardness_shore_a": SHORE, "scatter": PART}, holds={"hardness_shore_a": (20, 80)})
def modulus_band(*, hardness_shore_a: float, scatter: float) -> ModulusBand:
    r"""Young's modulus from Shore A as a band that holds both formulas with their scatter.

    .. math:: E_{low} = (1 - s) \min(E_G, E_R), \quad E_{high} = (1 + s) \max(E_G, E_R)

    Parameters
    ----------
    hardness_shore_a
        Shore A, :math:`S`. [-]
    scatter
        Of a formula either way, :math:`s`; 0.30 is what is said of them. [-]

    Returns
    -------
    low, high
        Ends of the band. [Pa]
    likely
        By Gent's formula. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: Shore A 20 to 80; below 20 both formulas are poor: hang a known weight on a strip of your own rubber instead.
    Source: Gent 1958 and Ruess (formulas verified); scatter of 30 % (verified statement).

    Examples
    --------
    >>> band = modulus_band(hardness_shore_a=20, scatter=0.30)
    >>> print(f"{band.low.to('MPa'):.2f~P}, {band.likely.to('MPa'):.2f~P}, {band.high.to('MPa'):.2f~P}")
    0.47 MPa, 0.73 MPa, 0.95 MPa
    """
    gent, ruess = float(gent_modulus.si(hardness_shore_a=hardness_shore_a)), float(ruess_modulus.si(hardness_shore_a=hardness_shore_a))
    return ModulusBand((1 - scatter) * min(gent, ruess), gent, (1 + scatter) * max(gent, ruess))
