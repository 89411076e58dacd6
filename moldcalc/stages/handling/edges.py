"""Trimming: how much edge there is, what it makes of dust, and how fast the disc runs."""

from math import pi

from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door

MINUTE = 60.0


@door(joints="m[]", open_edges="m", returns="m", possible={"joints": NOT_NEGATIVE, "open_edges": NOT_NEGATIVE})
def trimming_length(*, joints: list[float], open_edges: float = 0.0) -> float:
    r"""Edge to be trimmed on all sections together.

    .. math:: L = 2 \sum l_i + l_0

    Parameters
    ----------
    joints
        Length of each joint, which has a flange on both sides, :math:`l_i`. [m]
    open_edges
        Foot and other edges that belong to one section only, :math:`l_0`. [m]

    Returns
    -------
    Length. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: trimmed while it still cuts with a knife there is less dust (common practice); edges rounded to 2 mm or more and sealed.
    Source: counting.

    Examples
    --------
    >>> print(f"{trimming_length(joints=['0.7 m', '1.25 m', '1.05 m'], open_edges='2.7 m').magnitude:.1f}")
    8.7
    """
    return 2 * sum(joints) + open_edges


@door(length="m", thickness="m", kerf="m", density="kg/m^3", returns="kg",
      possible={"length": NOT_NEGATIVE, "thickness": NOT_NEGATIVE, "kerf": NOT_NEGATIVE, "density": POSITIVE})
def dust_mass(*, length: float, thickness: float, kerf: float, density: float) -> float:
    r"""Dust that a cut makes.

    .. math:: m = L \, t \, k \, \rho

    Parameters
    ----------
    length
        Of the cut, :math:`L`. [m]
    thickness
        Of the laminate, :math:`t`. [m]
    kerf
        Width of the cut, :math:`k`. [m]
    density
        Of the laminate, :math:`\rho`. [kg/m³]

    Returns
    -------
    Mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: all of it; how much floats depends on the tool and on what catches it.
    Source: volume times density.

    Examples
    --------
    >>> print(f"{dust_mass(length='12 m', thickness='6 mm', kerf='3 mm', density='1377.6 kg/m^3').to('g').magnitude:.0f} g")
    298 g
    """
    return length * thickness * kerf * density


@door(diameter="m", turns_per_minute="", returns="m/s", possible={"diameter": POSITIVE, "turns_per_minute": NOT_NEGATIVE})
def rim_speed(*, diameter: float, turns_per_minute: float) -> float:
    r"""Speed of a disc's rim.

    .. math:: v = \frac{\pi \, d \, n}{60}

    Parameters
    ----------
    diameter
        Of the disc, :math:`d`. [m]
    turns_per_minute
        Of the tool with no load, :math:`n`. [-]

    Returns
    -------
    Speed. [m/s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: never above what is printed on the disc, often 80 m/s.
    Source: geometry.

    Examples
    --------
    >>> print(f"{rim_speed(diameter='125 mm', turns_per_minute=11000).magnitude:.3f}")
    71.995
    """
    return pi * diameter * turns_per_minute / MINUTE


@door(mass="kg", room="m^3", share="", returns="kg/m^3", possible={"mass": NOT_NEGATIVE, "room": POSITIVE, "share": Range(0, 1, True, True)})
def dust_in_room(*, mass: float, room: float, share: float) -> float:
    r"""Dust in the air of a closed room, if some of it stayed up and none was caught.

    .. math:: c = \frac{s \, m}{V}

    Parameters
    ----------
    mass
        Of dust made, :math:`m`. [kg]
    room
        :math:`V`. [m³]
    share
        That stays in the air, :math:`s`. [-]

    Returns
    -------
    Concentration. [kg/m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: evenly mixed; at the tool there is far more. Only to see the size of it: dust is caught at its source, not thinned.
    Source: mass over volume.

    Examples
    --------
    >>> print(f"{dust_in_room(mass='298 g', room='60 m^3', share=0.01).to('g/m^3').magnitude * 1000:.0f} mg in a cubic metre")
    50 mg in a cubic metre
    """
    return mass * share / room


@door(protection_factor="", limit="kg/m^3", returns="kg/m^3",
      possible={"protection_factor": Range(1, float("inf"), with_low=True), "limit": POSITIVE})
def usable_concentration(*, protection_factor: float, limit: float) -> float:
    r"""Dust in the air up to which a mask of a kind may be used.

    .. math:: c = f \, c_0

    Parameters
    ----------
    protection_factor
        Assigned to that kind of mask, :math:`f`: 10 for a half mask, 50 for a full face (29 CFR 1910.134 table 1, from memory). [-]
    limit
        For the dust, over 8 h, :math:`c_0`. [kg/m³]

    Returns
    -------
    Concentration. [kg/m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a mask that was fitted to the face, clean-shaven. It comes after catching the dust at its source, not instead.
    Source: definition of the factor.

    Examples
    --------
    >>> print(f"{usable_concentration(protection_factor=10, limit='0.005 g/m^3').to('g/m^3').magnitude:.2f} g/m³")
    0.05 g/m³
    """
    return protection_factor * limit
