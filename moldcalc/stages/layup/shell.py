"""What the shell's wall and flanges weigh, how thick they are, and how stiff a core makes them."""

from moldcalc.stages.layup.fractions import BETWEEN, HAND
from moldcalc.stages.layup.ply import laminate_areal_mass, ply_thickness
from moldcalc.units import NOT_NEGATIVE, POSITIVE, SHARE, door


@door(
    surface_coat_thickness="m", surface_coat_density="kg/m^3", facing_fibre="kg/m^2", fibre_mass_fraction="", core_thickness="m",
    core_density="kg/m^3", core_share="", bond="kg/m^2", returns="kg/m^2",
    possible={"surface_coat_thickness": NOT_NEGATIVE, "surface_coat_density": POSITIVE, "facing_fibre": NOT_NEGATIVE,
              "fibre_mass_fraction": BETWEEN, "core_thickness": NOT_NEGATIVE, "core_density": POSITIVE, "core_share": SHARE,
              "bond": NOT_NEGATIVE},
    holds={"fibre_mass_fraction": HAND, "bond": (0.3, 1.5)},
)
def sandwich_areal_mass(*, surface_coat_thickness: float, surface_coat_density: float, facing_fibre: float, fibre_mass_fraction: float,
                        core_thickness: float, core_density: float, core_share: float, bond: float) -> float:
    r"""Mass of a square metre of the shell's wall.

    .. math:: m = h_s \rho_s + \frac{m_A}{w_f} + s \, c \, \rho_c + m_b

    Parameters
    ----------
    surface_coat_thickness
        Against the rubber, :math:`h_s`. [m]
    surface_coat_density
        As thickened, :math:`\rho_s`. [kg/m³]
    facing_fibre
        Dry fibre of both facings together, :math:`m_A`. [kg/m²]
    fibre_mass_fraction
        Of the facings, :math:`w_f`. [-]
    core_thickness
        :math:`c`. [m]
    core_density
        Dry, :math:`\rho_c`. [kg/m³]
    core_share
        Of the face that has a core, :math:`s`. [-]
    bond
        Resin that the core drinks and is bedded in, both sides, over the WHOLE face, :math:`m_b`. [kg/m²]

    Returns
    -------
    Mass on a unit of area. [kg/m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: core bond 0.3 to 0.6 kg/m² each bonded side for closed foam, 0.8 to 1.5 in all for slit foam (common practice,
    no source). Left out, it is the commonest reason why a shell comes out heavier than planned.
    Source: sum of masses (exact).

    Examples
    --------
    0.6 mm of surface coat, 4 plies of 300 g/m² at 50 %, 10 mm of foam over 85 %, 0.5 kg/m² of bond:

    >>> from moldcalc.units import Q
    >>> m = sandwich_areal_mass(surface_coat_thickness=Q(0.6, "mm"), surface_coat_density=Q(1.25, "kg/L"),
    ...                         facing_fibre=Q(1.2, "kg/m^2"), fibre_mass_fraction=0.50, core_thickness=Q(10, "mm"),
    ...                         core_density=Q(75, "kg/m^3"), core_share=0.85, bond=Q(0.5, "kg/m^2"))
    >>> print(f"{m.magnitude:.2f}")
    4.29
    """
    facings = float(laminate_areal_mass.si(areal_weight=facing_fibre, fibre_mass_fraction=fibre_mass_fraction))
    return surface_coat_thickness * surface_coat_density + facings + core_share * core_thickness * core_density + bond


@door(
    surface_coat_thickness="m", facing_fibre="kg/m^2", fibre_mass_fraction="", fibre_density="kg/m^3", resin_density="kg/m^3",
    core_thickness="m", returns="m",
    possible={"surface_coat_thickness": NOT_NEGATIVE, "facing_fibre": NOT_NEGATIVE, "fibre_mass_fraction": BETWEEN,
              "fibre_density": POSITIVE, "resin_density": POSITIVE, "core_thickness": NOT_NEGATIVE},
    holds={"fibre_mass_fraction": HAND},
)
def sandwich_thickness(*, surface_coat_thickness: float, facing_fibre: float, fibre_mass_fraction: float, fibre_density: float,
                       resin_density: float, core_thickness: float) -> float:
    r"""Thickness of the shell's wall where it has a core; the bond adds none.

    .. math:: t = h_s + m_A \left( \frac{1}{\rho_f} + \frac{1 - w_f}{w_f \, \rho_r} \right) + c

    Parameters
    ----------
    surface_coat_thickness
        Against the rubber, :math:`h_s`. [m]
    facing_fibre
        Dry fibre of both facings together, :math:`m_A`. [kg/m²]
    fibre_mass_fraction
        Of the facings, :math:`w_f`. [-]
    fibre_density, resin_density
        Of the solid fibre and of the cured resin, :math:`\rho_f, \rho_r`. [kg/m³]
    core_thickness
        :math:`c`. [m]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: hand lay-up, :math:`w_f` 0.20 to 0.60 (common practice, no source).
    Source: sum of thicknesses, volume balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> t = sandwich_thickness(surface_coat_thickness=Q(0.6, "mm"), facing_fibre=Q(1.2, "kg/m^2"), fibre_mass_fraction=0.50,
    ...                        fibre_density=Q(2.55, "kg/L"), resin_density=Q(1.15, "kg/L"), core_thickness=Q(10, "mm"))
    >>> print(f"{t.to('mm'):.1f~P}")
    12.1 mm
    """
    facings = ply_thickness.si(areal_weight=facing_fibre, fibre_mass_fraction=fibre_mass_fraction, fibre_density=fibre_density,
                               resin_density=resin_density)
    return surface_coat_thickness + float(facings) + core_thickness


@door(areal_weight="kg/m^2", plies="", fibre_mass_fraction="", returns="kg/m^2",
      possible={"areal_weight": NOT_NEGATIVE, "plies": NOT_NEGATIVE, "fibre_mass_fraction": BETWEEN}, holds={"fibre_mass_fraction": HAND})
def flange_areal_mass(*, areal_weight: float, plies: float, fibre_mass_fraction: float) -> float:
    r"""Mass of a square metre of solid flange, no core.

    .. math:: m = n \, m_A / w_f

    Parameters
    ----------
    areal_weight
        Dry mass of one ply on a unit of area, :math:`m_A`. [kg/m²]
    plies
        In the flange, :math:`n`. [-]
    fibre_mass_fraction
        Mass of fibre over mass of the cured laminate, :math:`w_f`. [-]

    Returns
    -------
    Mass on a unit of area. [kg/m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: hand lay-up. The plies of the wall and two more, or twice the wall's: common practice, no source.
    Source: mass balance (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{flange_areal_mass(areal_weight=Q(300, 'g/m^2'), plies=8, fibre_mass_fraction=0.50).magnitude:.1f}")
    4.8
    """
    return float(laminate_areal_mass.si(areal_weight=plies * areal_weight, fibre_mass_fraction=fibre_mass_fraction))


@door(face_area="m^2", face_areal_mass="kg/m^2", flange_area="m^2", flange_areal_mass="kg/m^2", returns="kg",
      possible={"face_area": NOT_NEGATIVE, "face_areal_mass": NOT_NEGATIVE, "flange_area": NOT_NEGATIVE, "flange_areal_mass": NOT_NEGATIVE})
def section_mass(*, face_area: float, face_areal_mass: float, flange_area: float, flange_areal_mass: float) -> float:
    r"""Mass of a shell section, bare.

    .. math:: m = A_w m_w + A_f m_f

    Parameters
    ----------
    face_area
        Of the wall, :math:`A_w`. [m²]
    face_areal_mass
        Of the wall, :math:`m_w`. [kg/m²]
    flange_area
        Of its own flanges and foot, :math:`A_f`. [m²]
    flange_areal_mass
        Of the flanges, :math:`m_f`. [kg/m²]

    Returns
    -------
    Mass. [kg]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: legs, handles, bolts and the rubber come on top.
    Source: sum of masses (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> m = section_mass(face_area=Q(0.61, "m^2"), face_areal_mass=Q(4.29, "kg/m^2"), flange_area=Q(0.162, "m^2"),
    ...                  flange_areal_mass=Q(4.8, "kg/m^2"))
    >>> print(f"{m.to('kg'):.1f~P}")
    3.4 kg
    """
    return face_area * face_areal_mass + flange_area * flange_areal_mass


@door(facing_modulus="Pa", facing_thickness="m", core_thickness="m", returns="N*m",
      possible={"facing_modulus": POSITIVE, "facing_thickness": POSITIVE, "core_thickness": NOT_NEGATIVE})
def thin_face_stiffness(*, facing_modulus: float, facing_thickness: float, core_thickness: float) -> float:
    r"""Bending stiffness of a sandwich for each metre of its width, two equal thin facings.

    .. math:: D = \frac{E \, t \, (c + t)^2}{2}

    Parameters
    ----------
    facing_modulus
        Of the facings, :math:`E`. [Pa]
    facing_thickness
        Of one facing, :math:`t`. [m]
    core_thickness
        :math:`c`. [m]

    Returns
    -------
    Stiffness as a beam, for a metre of width. [N·m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: facings thin beside the core. The core's shear is left out, so a soft core over a short span gives less: an
    upper bound.
    Source: sandwich theory, textbook (from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> d = thin_face_stiffness(facing_modulus=Q(12e9, "Pa"), facing_thickness=Q(0.757, "mm"), core_thickness=Q(10, "mm"))
    >>> print(f"{d.magnitude:.0f}")
    526
    """
    return facing_modulus * facing_thickness * (core_thickness + facing_thickness) ** 2 / 2


@door(modulus="Pa", thickness="m", returns="N*m", possible={"modulus": POSITIVE, "thickness": POSITIVE})
def solid_stiffness(*, modulus: float, thickness: float) -> float:
    r"""Bending stiffness of a solid laminate for each metre of its width.

    .. math:: D = \frac{E \, t^3}{12}

    Parameters
    ----------
    modulus
        Of the laminate, :math:`E`. [Pa]
    thickness
        :math:`t`. [m]

    Returns
    -------
    Stiffness as a beam, for a metre of width. [N·m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a beam or strip; a wide plate is about 9 % stiffer.
    Source: beam theory, textbook.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{solid_stiffness(modulus=Q(9e9, 'Pa'), thickness=Q(6, 'mm')).magnitude:.0f}")
    162
    """
    return modulus * thickness**3 / 12


@door(stiffness="N*m", modulus="Pa", returns="m", possible={"stiffness": POSITIVE, "modulus": POSITIVE})
def solid_thickness_for(*, stiffness: float, modulus: float) -> float:
    r"""Thickness of a solid laminate that is as stiff as a sandwich.

    .. math:: t = \left( \frac{12 D}{E} \right)^{1/3}

    Parameters
    ----------
    stiffness
        As a beam, for a metre of width, :math:`D`. [N·m]
    modulus
        Of the solid laminate, :math:`E`. [Pa]

    Returns
    -------
    Thickness. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: both as beams.
    Source: beam theory, textbook, solved for the thickness.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{solid_thickness_for(stiffness=Q(162, 'N*m'), modulus=Q(9e9, 'Pa')).to('mm'):.1f~P}")
    6.0 mm
    """
    return float((12 * stiffness / modulus) ** (1 / 3))
