"""Area and volume of the plain solids that stand in for a figure or a part of it: ellipsoid, box, ring."""

from math import pi

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.original.integrals import elliprg
from moldcalc.units import POSITIVE, door, show

_AXES = {"a": POSITIVE, "b": POSITIVE, "c": POSITIVE}
_EDGES = {"length": POSITIVE, "width": POSITIVE, "height": POSITIVE}
_RING = {"ring_radius": POSITIVE, "tube_radius": POSITIVE}


@door(a="m", b="m", c="m", returns="m^2", possible=_AXES)
def ellipsoid_area(*, a: float, b: float, c: float) -> float:
    r"""Area of an ellipsoid, all round.

    .. math:: A = 4 \pi \, R_G(a^2 b^2, a^2 c^2, b^2 c^2)

    Parameters
    ----------
    a, b, c
        The three semi-axes (half of length, width and height), in any order. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact for any ellipsoid, spheres and spheroids included. A base that stands on the board is not brushed:
    take it off the area, not off the volume.
    Source: DLMF 19.33.1 (number from memory; the formula agrees with two other ways of working it out).
    :math:`R_G` is Carlson's symmetric integral (Carlson 1995; DLMF chapter 19).

    Examples
    --------
    >>> print(f"{ellipsoid_area(a='550 mm', b='200 mm', c='300 mm'):.7f~P}")
    1.4655981 m²
    """
    small, middle, large = sorted((a, b, c))
    return 4 * pi * large * middle * elliprg(1.0, (small / middle) ** 2, (small / large) ** 2)


@door(a="m", b="m", c="m", returns="m^3", possible=_AXES)
def ellipsoid_volume(*, a: float, b: float, c: float) -> float:
    r"""Volume of an ellipsoid.

    .. math:: V = \tfrac{4}{3} \pi a b c

    Parameters
    ----------
    a, b, c
        The three semi-axes. [m]

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
    >>> print(f"{ellipsoid_volume(a='550 mm', b='200 mm', c='300 mm'):.7f~P}")
    0.1382301 m³
    """
    return 4 / 3 * pi * a * b * c


@door(length="m", width="m", height="m", returns="m^2", possible=_EDGES)
def box_area(*, length: float, width: float, height: float) -> float:
    r"""Area of a box, all six faces.

    .. math:: A = 2 (l w + l h + w h)

    Parameters
    ----------
    length, width, height
        The three edges, :math:`l, w, h`. [m]

    Returns
    -------
    Area. [m²]

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
    >>> print(f"{box_area(length='60 cm', width='40 cm', height='90 cm'):.2f~P}")
    2.28 m²
    """
    return 2 * (length * width + length * height + width * height)


@door(length="m", width="m", height="m", returns="m^2", possible=_EDGES)
def box_five_faces_area(*, length: float, width: float, height: float) -> float:
    r"""Area of a box without the face it stands on: the crudest guess at a figure's area.

    .. math:: A = l w + 2 h (l + w)

    Parameters
    ----------
    length, width, height
        The three edges, :math:`l, w, h`; the height stands up. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact for the box. For a figure inside the box it is no more than a guess, which may be high or low.
    Source: elementary geometry.

    Examples
    --------
    >>> print(f"{box_five_faces_area(length='1.09 m', width='0.43 m', height='0.525 m'):.2f~P}")
    2.06 m²
    """
    return length * width + 2 * height * (length + width)


@door(length="m", width="m", height="m", returns="m^3", possible=_EDGES)
def box_volume(*, length: float, width: float, height: float) -> float:
    r"""Volume of a box.

    .. math:: V = l w h

    Parameters
    ----------
    length, width, height
        The three edges, :math:`l, w, h`. [m]

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
    >>> print(f"{box_volume(length='60 cm', width='40 cm', height='90 cm'):.3f~P}")
    0.216 m³
    """
    return length * width * height


def refuse_closed_ring(ring_radius: float, tube_radius: float) -> None:
    """A ring has a hole: its tube is thinner than the ring is wide."""
    if tube_radius >= ring_radius:
        raise EntryError(Fault("tube radius", show(tube_radius, "mm"),
                               f"it must be below the ring radius of {show(ring_radius, 'mm')}, or the ring has no hole"))


@door(ring_radius="m", tube_radius="m", returns="m^2", possible=_RING)
def torus_area(*, ring_radius: float, tube_radius: float) -> float:
    r"""Area of a ring with a round section (torus).

    .. math:: A = 4 \pi^2 R r

    Parameters
    ----------
    ring_radius
        From the ring's middle to the middle of the tube, :math:`R`. [m]
    tube_radius
        Of the tube, :math:`r`. [m]

    Returns
    -------
    Area. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a tube too thick for a hole.

    Notes
    -----
    Range: exact for R above r.
    Source: elementary geometry (Pappus).

    Examples
    --------
    >>> print(f"{torus_area(ring_radius='0.4 m', tube_radius='0.15 m'):.10f~P}")
    2.3687050563 m²
    """
    refuse_closed_ring(ring_radius, tube_radius)
    return 4 * pi**2 * ring_radius * tube_radius


@door(ring_radius="m", tube_radius="m", returns="m^3", possible=_RING)
def torus_volume(*, ring_radius: float, tube_radius: float) -> float:
    r"""Volume of a ring with a round section (torus).

    .. math:: V = 2 \pi^2 R r^2

    Parameters
    ----------
    ring_radius
        From the ring's middle to the middle of the tube, :math:`R`. [m]
    tube_radius
        Of the tube, :math:`r`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a tube too thick for a hole.

    Notes
    -----
    Range: exact for R above r.
    Source: elementary geometry (Pappus).

    Examples
    --------
    >>> print(f"{torus_volume(ring_radius='0.4 m', tube_radius='0.15 m'):.10f~P}")
    0.1776528792 m³
    """
    refuse_closed_ring(ring_radius, tube_radius)
    return 2 * pi**2 * ring_radius * tube_radius * tube_radius
