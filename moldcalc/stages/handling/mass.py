"""What sections and the closed mold weigh, and where they balance."""

from math import fsum, pi
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import ANY, NOT_NEGATIVE, POSITIVE, door


class Balance(NamedTuple):
    """A body of several parts: its mass [kg] and its centre of mass [m]."""

    mass: float
    x: float
    y: float
    z: float


class Section(NamedTuple):
    """A shell section: its face, its flanges, its fittings, and all of it. [kg]"""

    face: float
    flanges: float
    fittings: float
    mass: float


@door(masses="kg[]", x="m[]", y="m[]", z="m[]", returns={"mass": "kg", "x": "m", "y": "m", "z": "m"}, possible={"masses": NOT_NEGATIVE})
def centre_of_mass(*, masses: list[float], x: list[float], y: list[float], z: list[float]) -> Balance:
    r"""Mass and centre of mass of a body made of parts.

    .. math:: m = \sum m_i, \qquad r = \frac{\sum m_i \, r_i}{m}

    Parameters
    ----------
    masses
        Of the parts: sections, rubber, cast, legs, :math:`m_i`. [kg]
    x, y, z
        Centre of mass of each part. [m]

    Returns
    -------
    mass
        Of all. [kg]
    x, y, z
        Centre of mass of all. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; lists of different lengths, nothing that weighs anything.

    Notes
    -----
    Range: any.
    Source: statics, exact.

    Examples
    --------
    Rubber between two shells:

    >>> both = centre_of_mass(masses=["18 kg", "9 kg", "11 kg"], x=["0 m", "-0.25 m", "0.25 m"], y=["0 m"] * 3, z=["0.8 m", "0.75 m", "0.7 m"])
    >>> print(f"{both.mass.magnitude:.0f} kg at x {both.x.magnitude:.4f}, z {both.z.magnitude:.4f} m")
    38 kg at x 0.0132, z 0.7592 m
    """
    if not len(masses) == len(x) == len(y) == len(z):
        raise EntryError(Fault("masses", f"{len(masses)} values beside {len(x)} x, {len(y)} y and {len(z)} z", "give as many of each"))
    mass = fsum(masses)
    if mass == 0:
        raise EntryError(Fault("masses", "0 kg in all", "give at least one above 0"))
    return Balance(mass, *(fsum(m * r for m, r in zip(masses, places, strict=True)) / mass for places in (x, y, z)))


@door(face_area="m^2", face_areal_mass="kg/m^2", flange_length="m", flange_width="m", flange_areal_mass="kg/m^2", fittings="kg",
      returns={"face": "kg", "flanges": "kg", "fittings": "kg", "mass": "kg"},
      possible={"face_area": NOT_NEGATIVE, "face_areal_mass": NOT_NEGATIVE, "flange_length": NOT_NEGATIVE, "flange_width": NOT_NEGATIVE,
                "flange_areal_mass": NOT_NEGATIVE, "fittings": NOT_NEGATIVE})
def section_mass(*, face_area: float, face_areal_mass: float, flange_length: float, flange_width: float, flange_areal_mass: float,
                 fittings: float = 0.0) -> Section:
    r"""What one shell section weighs.

    .. math:: m = A \, m_A + L \, w \, m_f + m_0

    Parameters
    ----------
    face_area
        Of the wall, :math:`A`. [m²]
    face_areal_mass
        Of the cured wall with core and bond, :math:`m_A`. [kg/m²]
    flange_length
        Of all its flanges and its foot, this section's side only, :math:`L`. [m]
    flange_width
        :math:`w`. [m]
    flange_areal_mass
        Of the cured flange, :math:`m_f`. [kg/m²]
    fittings
        Legs, handles and bolts that stay on it, :math:`m_0`. [kg]

    Returns
    -------
    face, flanges, fittings, mass
        [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: bond resin and overlap counted in the areal masses; left out, a shell comes out a fifth too light.
    Source: areas times areal masses (exact).

    Examples
    --------
    A flank of 0.61 m² with 2.70 m of flange and foot, 60 mm wide:

    >>> part = section_mass(face_area="0.61 m^2", face_areal_mass="4.29 kg/m^2", flange_length="2.7 m", flange_width="60 mm",
    ...                     flange_areal_mass="4.8 kg/m^2")
    >>> print(f"{part.mass.magnitude:.1f} kg")
    3.4 kg
    """
    face = face_area * face_areal_mass
    flanges = flange_length * flange_width * flange_areal_mass
    return Section(face, flanges, fittings, face + flanges + fittings)


@door(radius="m", returns="m", possible={"radius": POSITIVE})
def half_cylinder_centre(*, radius: float) -> float:
    r"""Centre of mass of a thin half-cylinder shell, from its axis.

    .. math:: c = \frac{2 R}{\pi}

    Parameters
    ----------
    radius
        :math:`R`. [m]

    Returns
    -------
    Distance. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin, of even thickness.
    Source: geometry, exact.

    Examples
    --------
    >>> print(f"{half_cylinder_centre(radius='0.3 m').to('mm').magnitude:.1f}")
    191.0
    """
    return 2 * radius / pi


@door(radius="m", returns="m", possible={"radius": POSITIVE})
def half_ball_centre(*, radius: float) -> float:
    r"""Centre of mass of a thin half-ball shell, from its base.

    .. math:: c = \frac{R}{2}

    Parameters
    ----------
    radius
        :math:`R`. [m]

    Returns
    -------
    Distance. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin, of even thickness.
    Source: geometry, exact.

    Examples
    --------
    >>> print(f"{half_ball_centre(radius='0.3 m').to('mm').magnitude:.0f}")
    150
    """
    return radius / 2


@door(height="m", returns="m", possible={"height": POSITIVE})
def cone_shell_centre(*, height: float) -> float:
    r"""Centre of mass of a thin cone shell without its floor, over its base.

    .. math:: c = \frac{h}{3}

    Parameters
    ----------
    height
        :math:`h`. [m]

    Returns
    -------
    Distance. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin, of even thickness.
    Source: geometry, exact.

    Examples
    --------
    >>> print(f"{cone_shell_centre(height='0.9 m').to('mm').magnitude:.0f}")
    300
    """
    return height / 3


@door(x="m", y="m", z="m", height="m", returns={"mass": "kg", "x": "m", "y": "m", "z": "m"}, mass="kg",
      possible={"mass": POSITIVE, "height": ANY})
def turned_over(*, mass: float, x: float, y: float, z: float, height: float) -> Balance:
    r"""Centre of mass in the casting position, when the mold has been turned upside down over its long side.

    .. math:: (x, y, z) \to (x, -y, h - z)

    Parameters
    ----------
    mass
        Of the part, unchanged. [kg]
    x, y, z
        Centre of mass as it stands on its base. [m]
    height
        That lies on the new floor, :math:`h`: the legs' feet when it stands on its base. [m]

    Returns
    -------
    mass
        [kg]
    x, y, z
        Over the new floor. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: half a turn about the x axis.
    Source: geometry, exact.

    Examples
    --------
    >>> print(turned_over(mass="74 kg", x="0 m", y="0.02 m", z="0.2 m", height="0.75 m").z.to("mm").magnitude)
    550.0
    """
    return Balance(mass, x, -y, height - z)
