"""How far the rubber must stretch to come off, how far it may, and what that takes."""

from math import inf

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show


def refuse_wide_neck(neck: float, bulge: float) -> None:
    """A neck is what is narrower than the bulge behind it."""
    if neck > bulge:
        raise EntryError(Fault("neck", show(neck, "mm"), f"it must be at most as wide as the bulge, {show(bulge, 'mm')}; "
                                                         "nothing stretches where the opening is wider"))


@door(neck="m", bulge="m", returns="", possible={"neck": POSITIVE, "bulge": POSITIVE})
def hoop_strain(*, neck: float, bulge: float) -> float:
    r"""Stretch round a neck while a closed glove is drawn over the bulge behind it.

    .. math:: \varepsilon = \frac{G_b}{G_n} - 1

    Parameters
    ----------
    neck
        Round the narrow place, :math:`G_n`; or its diameter, if the bulge is given so too. [m]
    bulge
        Round the widest place that must pass it, :math:`G_b`. [m]

    Returns
    -------
    Strain. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a neck wider than the bulge.

    Notes
    -----
    Range: girths of like shape; a flat bulge that can be turned edgeways needs less. On the original, not on the rubber's outside.
    Source: geometry (exact).

    Examples
    --------
    >>> round(hoop_strain(neck="40 mm", bulge="70 mm"), 6)
    0.75
    """
    refuse_wide_neck(neck, bulge)
    return bulge / neck - 1


@door(mouth="m", bulge="m", cut="m", returns="", possible={"mouth": POSITIVE, "bulge": POSITIVE, "cut": NOT_NEGATIVE})
def cut_glove_strain(*, mouth: float, bulge: float, cut: float) -> float:
    r"""Least stretch of the opening's edge while a glove with one cut lets the bulge out.

    .. math:: \varepsilon = \max \left( 0, \frac{G_b}{G_m + 2 c} - 1 \right)

    Parameters
    ----------
    mouth
        Round the opening where the cut begins, :math:`G_m`. [m]
    bulge
        Round the widest place that must pass, :math:`G_b`. [m]
    cut
        Length of the cut from the opening inward, :math:`c`. [m]

    Returns
    -------
    Strain. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a lower bound: the edge of the opening, both sides of the cut with it, must reach round the bulge. The end of the
    cut is where a tear begins: round it off and leave the band thick there. Necks above the cut stretch as in a closed glove.
    Source: geometry (length of the opening's edge).

    Examples
    --------
    >>> round(cut_glove_strain(mouth="400 mm", bulge="900 mm", cut="100 mm"), 6)
    0.5
    """
    return max(0.0, bulge / (mouth + 2 * cut) - 1)


@door(mouth="m", bulge="m", allowed="", returns="m", possible={"mouth": POSITIVE, "bulge": POSITIVE, "allowed": NOT_NEGATIVE})
def least_cut(*, mouth: float, bulge: float, allowed: float) -> float:
    r"""Shortest cut from the opening that lets the bulge out at the allowed stretch.

    .. math:: c = \max \left( 0, \tfrac12 \left( \frac{G_b}{1 + \varepsilon} - G_m \right) \right)

    Parameters
    ----------
    mouth
        Round the opening where the cut begins, :math:`G_m`. [m]
    bulge
        Round the widest place that must pass, :math:`G_b`. [m]
    allowed
        Strain, :math:`\varepsilon`. [-]

    Returns
    -------
    Length of the cut; 0 where the glove may stay closed. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a lower bound, as the strain of a cut glove; cut longer where hands must reach in.
    Source: geometry (length of the opening's edge).

    Examples
    --------
    >>> print(f"{least_cut(mouth='400 mm', bulge='900 mm', allowed=0.5).to('mm'):.0f~P}")
    100 mm
    """
    return max(0.0, (bulge / (1 + allowed) - mouth) / 2)


@door(thickness="m", radius="m", returns="", possible={"thickness": NOT_NEGATIVE, "radius": POSITIVE})
def bend_strain(*, thickness: float, radius: float) -> float:
    r"""Stretch on the outside of a skin that is folded back, as the halves of an opened skin are.

    .. math:: \varepsilon = \frac{t}{2 R + t}

    Parameters
    ----------
    thickness
        Of the rubber, :math:`t`. [m]
    radius
        On the inside of the fold, :math:`R`. [m]

    Returns
    -------
    Strain. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: a skin that bends freely, its middle unstretched; mesh on one side moves the middle toward the mesh.
    Source: geometry of bending (exact for flat sections).

    Examples
    --------
    >>> print(f"{bend_strain(thickness='8 mm', radius='16 mm'):.2f}")
    0.20
    """
    return thickness / (2 * radius + thickness)


@door(elongation="", share="", returns="", possible={"elongation": POSITIVE, "share": Range(0, 1, with_high=True)},
      holds={"elongation": (1.0, 9.0), "share": (0.0, 0.34)})
def allowed_stretch(*, elongation: float, share: float) -> float:
    r"""Strain that is asked of a rubber at most, again and again.

    .. math:: \varepsilon = s \, \varepsilon_b

    Parameters
    ----------
    elongation
        At break, :math:`\varepsilon_b`; 480 % is 4.8. [-]
    share
        Of it that is allowed, :math:`s`. [-]

    Returns
    -------
    Strain. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; an elongation of 0.

    Notes
    -----
    Range: a third of the elongation at most (a heuristic of design, no source); less where an edge is cut or the rubber is
    old. Where mesh is bedded in, nothing stretches: leave it out there.
    Source: common practice, no source; elongation from the data sheet.

    Examples
    --------
    >>> print(f"{allowed_stretch(elongation='480 %', share='30 %'):.2f}")
    1.44
    """
    return share * elongation


@door(modulus="Pa", strain="", returns="Pa", possible={"modulus": POSITIVE, "strain": Range(-1, inf)}, holds={"strain": (-0.3, 1.0)})
def stretch_stress(*, modulus: float, strain: float) -> float:
    r"""Pull on a strip, for each area of its section before stretching.

    .. math:: \sigma = \frac{E}{3} \left( \lambda - \lambda^{-2} \right), \quad \lambda = 1 + \varepsilon

    Parameters
    ----------
    modulus
        Young's, :math:`E`. [Pa]
    strain
        :math:`\varepsilon`. [-]

    Returns
    -------
    Stress on the unstretched section. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: up to about twice the length; beyond that filled rubber stiffens and this reads too low.
    Source: neo-Hookean solid, textbook.

    Examples
    --------
    Shore A 20, stretched from 40 mm to 70:

    >>> from moldcalc.stages.keys.modulus import gent_modulus
    >>> print(f"{stretch_stress(modulus=gent_modulus(hardness_shore_a=20), strain=0.75).to('MPa'):.6f~P}")
    0.347289 MPa
    """
    stretch = 1 + strain
    return modulus / 3 * (stretch - stretch**-2)


@door(modulus="Pa", strain="", area="m^2", returns="N",
      possible={"modulus": POSITIVE, "strain": Range(-1, inf), "area": NOT_NEGATIVE}, holds={"strain": (-0.3, 1.0)})
def stretch_force(*, modulus: float, strain: float, area: float) -> float:
    r"""Force that stretches a strip so far.

    .. math:: F = \sigma A_0

    Parameters
    ----------
    modulus
        Young's. [Pa]
    strain
        Of the strip. [-]
    area
        Of its section before stretching, :math:`A_0`. [m²]

    Returns
    -------
    Force. [N]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as the stress. A neck that is opened by two hands is two strips.
    Source: neo-Hookean solid, textbook.

    Examples
    --------
    >>> print(f"{stretch_force(modulus='0.731922 MPa', strain=0.75, area='50 mm²').to('N'):.4f~P}")
    17.3645 N
    """
    return float(stretch_stress.si(modulus=modulus, strain=strain)) * area
