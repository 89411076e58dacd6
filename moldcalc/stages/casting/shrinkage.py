"""How much smaller a cast comes out, and how much larger the original must be."""

from math import prod

from moldcalc.units import NOT_NEGATIVE, Range, door

#: shrinks above 0, grows below
SHRINKAGE = Range(-1, 1)


@door(length="m", linear_shrinkage="", returns="m", possible={"length": NOT_NEGATIVE, "linear_shrinkage": SHRINKAGE},
      holds={"linear_shrinkage": (-0.01, 0.03)})
def shrunk_length(*, length: float, linear_shrinkage: float) -> float:
    r"""A length after shrinkage.

    .. math:: L = L_0 (1 - s)

    Parameters
    ----------
    length
        Before, :math:`L_0`. [m]
    linear_shrinkage
        Share of the length that is lost, :math:`s`; below 0 where the material grows. [-]

    Returns
    -------
    Length. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: tin-cure rubber 0.1 to 1.0 %, 0.3 % likely (sources disagree); addition-cure below 0.1 % (verified); plaster
    grows by 0.08 to 0.39 % (a property list, verified). Mold and cast each shrink: use it once for each.
    Source: definition.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{shrunk_length(length=Q(1090, 'mm'), linear_shrinkage=0.003).to('mm'):.1f~P}")
    1086.7 mm
    """
    return length * (1 - linear_shrinkage)


@door(volume_shrinkage="", returns="", possible={"volume_shrinkage": SHRINKAGE}, holds={"volume_shrinkage": (-0.02, 0.13)})
def linear_from_volume_shrinkage(*, volume_shrinkage: float) -> float:
    r"""Linear shrinkage of what shrinks alike in all directions.

    .. math:: s_L = 1 - (1 - s_V)^{1/3}

    Parameters
    ----------
    volume_shrinkage
        Share of the volume that is lost, :math:`s_V`. [-]

    Returns
    -------
    Linear shrinkage. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: free on all sides; a third of the volume shrinkage reads a little low.
    Source: geometry (exact).

    Examples
    --------
    >>> print(f"{100 * linear_from_volume_shrinkage(volume_shrinkage=0.08):.5f} %")
    2.74112 %
    """
    return float(1 - (1 - volume_shrinkage) ** (1 / 3))


@door(shrinkages="[]", returns="", possible={"shrinkages": SHRINKAGE})
def oversize(*, shrinkages: list[float]) -> float:
    r"""How much larger the original must be made so that the cast comes out right.

    .. math:: k = \prod \frac{1}{1 - s_i}

    Parameters
    ----------
    shrinkages
        Linear, one for each step from original to cast, :math:`s_i`; below 0 where a material grows. [-]

    Returns
    -------
    Factor on every length. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: each step shrinks alike in all directions.
    Source: shrinkages one after another multiply (exact).

    Examples
    --------
    >>> print(f"{oversize(shrinkages=[0.005, 0.003]):.7f}")
    1.0080493
    """
    return 1 / prod(1 - shrinkage for shrinkage in shrinkages)
