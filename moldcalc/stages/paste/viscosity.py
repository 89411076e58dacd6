"""How many times a filler makes a liquid thicker: seven published models that agree only when there is little of it.

They are for grains or spheres that don't stick to each other. Fumed silica builds a network and obeys none of them: for
it only a hang test helps.
"""

from moldcalc.errors import EntryError, Fault
from moldcalc.units import PART, POSITIVE, Range, door

#: volume fraction at which Roscoe's equal spheres lock
_ROSCOE_LIMIT = 1 / 1.35
_LIMIT = Range(0, 1, with_high=True)


def _refuse_packed(volume_fraction: float, pm: float) -> None:
    if volume_fraction >= pm:
        raise EntryError(Fault("volume fraction", f"{volume_fraction:.3g}", f"it must be below the packing limit of {pm:.3g}, where nothing flows"))


@door(volume_fraction="", returns="", possible={"volume_fraction": PART}, holds={"volume_fraction": (0, 0.05)})
def einstein(*, volume_fraction: float) -> float:
    r"""Relative viscosity with very little filler (Einstein).

    .. math:: \eta_r = 1 + 2.5 \, \phi

    Parameters
    ----------
    volume_fraction
        Of filler in the mix, :math:`\phi`. [-]

    Returns
    -------
    Viscosity with filler over viscosity without. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: well below 0.05 (Roscoe 1952, abstract verified). Grains that don't stick to each other; fumed silica,
    which builds a network, does not obey it.
    Source: Entropy 23(8) 2021, 979, table 6 (verified; minus signs lost in the extract are restored).

    Examples
    --------
    >>> print(f"{einstein(volume_fraction=0.01):.6f}")
    1.025000
    """
    return 1 + 2.5 * volume_fraction


@door(volume_fraction="", returns="", possible={"volume_fraction": PART}, holds={"volume_fraction": (0, 0.1)})
def batchelor(*, volume_fraction: float) -> float:
    r"""Relative viscosity with little filler, neighbours counted (Batchelor).

    .. math:: \eta_r = 1 + 2.5 \, \phi + 6.2 \, \phi^2

    Parameters
    ----------
    volume_fraction
        Of filler in the mix, :math:`\phi`. [-]

    Returns
    -------
    Viscosity with filler over viscosity without. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: up to about 0.1 (from memory); the last factor is printed between 5.2 and 7.6. Grains that don't stick to
    each other; fumed silica, which builds a network, does not obey it.
    Source: Entropy 23(8) 2021, 979, table 6 (verified; minus signs lost in the extract are restored).

    Examples
    --------
    >>> print(f"{batchelor(volume_fraction=0.1):.6f}")
    1.312000
    """
    return 1 + 2.5 * volume_fraction + 6.2 * volume_fraction**2


@door(volume_fraction="", pm="", intrinsic_viscosity="", returns="",
      possible={"volume_fraction": PART, "pm": _LIMIT, "intrinsic_viscosity": POSITIVE})
def krieger_dougherty(*, volume_fraction: float, pm: float, intrinsic_viscosity: float = 2.5) -> float:
    r"""Relative viscosity up to near the packing limit (Krieger and Dougherty).

    .. math:: \eta_r = \left( 1 - \frac{\phi}{\phi_m} \right)^{-[\eta] \phi_m}

    Parameters
    ----------
    volume_fraction
        Of filler in the mix, :math:`\phi`. [-]
    pm
        Packing limit: the volume fraction at which the grains touch and nothing flows, :math:`\phi_m`; random spheres
        0.58 to 0.64. [-]
    intrinsic_viscosity
        How steeply it starts, :math:`[\eta]`; 2.5 for spheres, more for needles and flakes. [-]

    Returns
    -------
    Viscosity with filler over viscosity without. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; as much filler as the packing
        limit.

    Notes
    -----
    Range: up to near the packing limit. Grains that don't stick to each other; fumed silica, which builds a network,
    does not obey it.
    Source: Entropy 23(8) 2021, 979, table 6 (verified; minus signs lost in the extract are restored).

    Examples
    --------
    >>> print(f"{krieger_dougherty(volume_fraction=0.3, pm=0.64):.6f}")
    2.751197
    """
    _refuse_packed(volume_fraction, pm)
    return (1 - volume_fraction / pm) ** (-intrinsic_viscosity * pm)


@door(volume_fraction="", pm="", returns="", possible={"volume_fraction": PART, "pm": _LIMIT})
def maron_pierce(*, volume_fraction: float, pm: float) -> float:
    r"""Relative viscosity near the packing limit (Maron and Pierce).

    .. math:: \eta_r = \left( 1 - \frac{\phi}{\phi_m} \right)^{-2}

    Parameters
    ----------
    volume_fraction
        Of filler in the mix, :math:`\phi`. [-]
    pm
        Packing limit: the volume fraction at which the grains touch and nothing flows, :math:`\phi_m`; random spheres
        0.58 to 0.64. [-]

    Returns
    -------
    Viscosity with filler over viscosity without. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; as much filler as the packing
        limit.

    Notes
    -----
    Range: much filler; with little it is too steep by a quarter. Grains that don't stick to each other; fumed silica,
    which builds a network, does not obey it.
    Source: from memory.

    Examples
    --------
    >>> print(f"{maron_pierce(volume_fraction=0.3, pm=0.64):.6f}")
    3.543253
    """
    _refuse_packed(volume_fraction, pm)
    return (1 - volume_fraction / pm) ** -2


@door(volume_fraction="", returns="", possible={"volume_fraction": PART})
def roscoe_equal(*, volume_fraction: float) -> float:
    r"""Relative viscosity with equal spheres (Roscoe).

    .. math:: \eta_r = (1 - 1.35 \, \phi)^{-2.5}

    Parameters
    ----------
    volume_fraction
        Of filler in the mix, :math:`\phi`. [-]

    Returns
    -------
    Viscosity with filler over viscosity without. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more filler than equal spheres
        leave room for.

    Notes
    -----
    Range: much filler; with little it is too steep by a third. Grains that don't stick to each other; fumed silica,
    which builds a network, does not obey it.
    Source: Roscoe 1952 (abstract verified).

    Examples
    --------
    >>> print(f"{roscoe_equal(volume_fraction=0.3):.6f}")
    3.661909
    """
    _refuse_packed(volume_fraction, _ROSCOE_LIMIT)
    return (1 - 1.35 * volume_fraction) ** -2.5


@door(volume_fraction="", returns="", possible={"volume_fraction": PART})
def roscoe_diverse(*, volume_fraction: float) -> float:
    r"""Relative viscosity with spheres of very diverse sizes (Roscoe).

    .. math:: \eta_r = (1 - \phi)^{-2.5}

    Parameters
    ----------
    volume_fraction
        Of filler in the mix, :math:`\phi`. [-]

    Returns
    -------
    Viscosity with filler over viscosity without. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: very diverse sizes. Grains that don't stick to each other; fumed silica, which builds a network, does not
    obey it.
    Source: Roscoe 1952 (abstract verified).

    Examples
    --------
    >>> print(f"{roscoe_diverse(volume_fraction=0.3):.6f}")
    2.439242
    """
    return (1 - volume_fraction) ** -2.5


@door(volume_fraction="", returns="", possible={"volume_fraction": PART})
def brinkman(*, volume_fraction: float) -> float:
    r"""Relative viscosity by adding the filler in small steps (Brinkman).

    .. math:: \eta_r = (1 - \phi)^{-2.5}

    Parameters
    ----------
    volume_fraction
        Of filler in the mix, :math:`\phi`. [-]

    Returns
    -------
    Viscosity with filler over viscosity without. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: diverse sizes; the same formula as Roscoe's for them. Grains that don't stick to each other; fumed silica,
    which builds a network, does not obey it.
    Source: Entropy 23(8) 2021, 979, table 6 (verified; minus signs lost in the extract are restored).

    Examples
    --------
    >>> print(f"{brinkman(volume_fraction=0.3):.6f}")
    2.439242
    """
    return (1 - volume_fraction) ** -2.5
