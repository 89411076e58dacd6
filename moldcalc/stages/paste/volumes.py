"""Litres of paste: fillets, strips, seam bands, high points, pockets."""

from math import pi

from moldcalc.units import NOT_NEGATIVE, door


@door(radius="m", length="m", returns="m^3", possible={"radius": NOT_NEGATIVE, "length": NOT_NEGATIVE})
def fillet_volume(*, radius: float, length: float) -> float:
    r"""Hollow fillet in a square inside corner.

    .. math:: V = \left( 1 - \tfrac{\pi}{4} \right) r^2 L

    Parameters
    ----------
    radius
        Of the hollow, :math:`r`. [m]
    length
        Of the corner, :math:`L`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact for a straight square corner; a sharper one takes more.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{fillet_volume(radius='10 mm', length='2.7 m').to('L'):.3f~P}")
    0.058 l
    """
    return (1 - pi / 4) * radius * radius * length


@door(length="m", width="m", thickness="m", returns="m^3",
      possible={"length": NOT_NEGATIVE, "width": NOT_NEGATIVE, "thickness": NOT_NEGATIVE})
def band_volume(*, length: float, width: float, thickness: float) -> float:
    r"""Even band, as along the seam that will be cut.

    .. math:: V = L w t

    Parameters
    ----------
    length, width, thickness
        :math:`L, w, t`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{band_volume(length='2.4 m', width='50 mm', thickness='10 mm').to('L'):.3f~P}")
    1.200 l
    """
    return length * width * thickness


@door(length="m", width_top="m", width_base="m", height="m", returns="m^3",
      possible={"length": NOT_NEGATIVE, "width_top": NOT_NEGATIVE, "width_base": NOT_NEGATIVE, "height": NOT_NEGATIVE})
def strip_volume(*, length: float, width_top: float, width_base: float, height: float) -> float:
    r"""Key strip with a section that narrows to one side.

    .. math:: V = L \, \frac{w_t + w_b}{2} \, h

    Parameters
    ----------
    length
        :math:`L`. [m]
    width_top, width_base
        Of the section, :math:`w_t, w_b`. [m]
    height
        Of the section, :math:`h`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{strip_volume(length='4.5 m', width_top='15 mm', width_base='25 mm', height='12 mm').to('L'):.3f~P}")
    1.080 l
    """
    return length * (width_top + width_base) / 2 * height


@door(area="m^2", thickness="m", returns="m^3", possible={"area": NOT_NEGATIVE, "thickness": NOT_NEGATIVE})
def patch_volume(*, area: float, thickness: float) -> float:
    r"""Extra paste over high points.

    .. math:: V = A t

    Parameters
    ----------
    area
        Of all the patches, :math:`A`. [m²]
    thickness
        Mean, :math:`t`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin against the patch; an edge thinned out to nothing counts half.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{patch_volume(area='0.35 m²', thickness='4 mm').to('L'):.3f~P}")
    1.400 l
    """
    return area * thickness


@door(area="m^2", mean_depth="m", returns="m^3", possible={"area": NOT_NEGATIVE, "mean_depth": NOT_NEGATIVE})
def pocket_volume(*, area: float, mean_depth: float) -> float:
    r"""Filled pocket, from its mouth and mean depth.

    .. math:: V = A \bar d

    Parameters
    ----------
    area
        Of the mouth, :math:`A`. [m²]
    mean_depth
        Mean of several soundings spread over the mouth, :math:`\bar d`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as good as the soundings; a pocket wider inside than at its mouth takes more.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{pocket_volume(area='60 cm²', mean_depth='25 mm').to('L'):.3f~P}")
    0.150 l
    """
    return area * mean_depth


@door(mouth_radius="m", depth="m", returns="m^3", possible={"mouth_radius": NOT_NEGATIVE, "depth": NOT_NEGATIVE})
def cone_pocket_volume(*, mouth_radius: float, depth: float) -> float:
    r"""Filled pocket like a cone.

    .. math:: V = \tfrac{\pi}{3} r^2 d

    Parameters
    ----------
    mouth_radius
        :math:`r`. [m]
    depth
        At the deepest point, :math:`d`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{cone_pocket_volume(mouth_radius='40 mm', depth='60 mm').to('L'):.3f~P}")
    0.101 l
    """
    return pi / 3 * mouth_radius * mouth_radius * depth


@door(mouth_radius="m", depth="m", returns="m^3", possible={"mouth_radius": NOT_NEGATIVE, "depth": NOT_NEGATIVE})
def bowl_pocket_volume(*, mouth_radius: float, depth: float) -> float:
    r"""Filled pocket like a bowl (cap of a sphere).

    .. math:: V = \tfrac{\pi d}{6} (3 r^2 + d^2)

    Parameters
    ----------
    mouth_radius
        :math:`r`. [m]
    depth
        At the deepest point, :math:`d`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{bowl_pocket_volume(mouth_radius='40 mm', depth='20 mm').to('L'):.3f~P}")
    0.054 l
    """
    return pi * depth / 6 * (3 * mouth_radius * mouth_radius + depth * depth)


@door(length="m", width="m", depth="m", returns="m^3",
      possible={"length": NOT_NEGATIVE, "width": NOT_NEGATIVE, "depth": NOT_NEGATIVE})
def groove_volume(*, length: float, width: float, depth: float) -> float:
    r"""Filled groove with a section like a V, as between folds.

    .. math:: V = \tfrac12 L w d

    Parameters
    ----------
    length
        :math:`L`. [m]
    width
        At the mouth, :math:`w`. [m]
    depth
        :math:`d`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{groove_volume(length='1 m', width='20 mm', depth='30 mm').to('L'):.3f~P}")
    0.300 l
    """
    return length * width * depth / 2
