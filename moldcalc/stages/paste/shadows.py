"""What lies in the shadow of a pull under plain bodies, and what fills it."""

from math import acos, cos, pi, sin, tan

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show

#: an angle from upright: at least 0, below a right angle
STEEP = Range(0, pi / 2, with_low=True)
STEEP_ABOVE = Range(0, pi / 2)


@door(sphere_radius="m", draft_angle="rad", returns="m",
      possible={"sphere_radius": POSITIVE, "draft_angle": STEEP})
def draft_base_of_sphere(*, sphere_radius: float, draft_angle: float = 0.0) -> float:
    r"""Radius on the board of the fill that gives a standing sphere its draft.

    .. math:: b = R \cos \delta + R (1 + \sin \delta) \tan \delta

    Parameters
    ----------
    sphere_radius
        Of the sphere, :math:`R`. [m]
    draft_angle
        Wanted, :math:`\delta`. [rad]

    Returns
    -------
    Radius. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact.
    Source: elementary geometry (computed).

    Examples
    --------
    >>> print(f"{draft_base_of_sphere(sphere_radius='0.3 m', draft_angle='3°').to('mm'):.3f~P}")
    316.134 mm
    """
    return sphere_radius * (cos(draft_angle) + (1 + sin(draft_angle)) * tan(draft_angle))


@door(sphere_radius="m", draft_angle="rad", returns="m^3",
      possible={"sphere_radius": POSITIVE, "draft_angle": STEEP})
def draft_fill_of_sphere(*, sphere_radius: float, draft_angle: float = 0.0) -> float:
    r"""Fill under a sphere that stands on the board, so that a shell comes off upward with so much draft.

    .. math::

        V = \tfrac{\pi}{3} H (a^2 + a b + b^2) - \tfrac{\pi}{3} H^2 (3R - H), \ H = R (1 + \sin \delta), \ a = R \cos \delta,
        \ b = a + H \tan \delta

    Parameters
    ----------
    sphere_radius
        Of the sphere, :math:`R`. [m]
    draft_angle
        Wanted, :math:`\delta`. [rad]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; without draft it is :math:`\pi R^3 / 3`.
    Source: elementary geometry, frustum of a cone less the sphere's lower cap (computed).

    Examples
    --------
    >>> print(f"{draft_fill_of_sphere(sphere_radius='0.3 m', draft_angle='3°').to('L'):.4f~P}")
    33.0405 l
    """
    height = sphere_radius * (1 + sin(draft_angle))
    top = sphere_radius * cos(draft_angle)
    base = draft_base_of_sphere.si(sphere_radius=sphere_radius, draft_angle=draft_angle)
    frustum = pi / 3 * height * (top * top + top * base + base * base)
    return max(0.0, frustum - pi / 3 * height * height * (3 * sphere_radius - height))


@door(ring_radius="m", tube_radius="m", returns="m^3",
      possible={"ring_radius": POSITIVE, "tube_radius": POSITIVE})
def shadow_fill_of_ring(*, ring_radius: float, tube_radius: float) -> float:
    r"""Fill under a round ring that lies on the board, for a pull straight up.

    .. math:: V = (4 \pi - \pi^2) R r^2

    Parameters
    ----------
    ring_radius
        To the middle of the tube, :math:`R`. [m]
    tube_radius
        Of the tube, :math:`r`, at most :math:`R`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible, or a tube thicker than its ring.

    Notes
    -----
    Range: exact.
    Source: Pappus' rule on the corners under half a circle (computed).

    Examples
    --------
    >>> print(f"{shadow_fill_of_ring(ring_radius='10 mm', tube_radius='4 mm').to('mL'):.6f~P}")
    0.431483 ml
    """
    if tube_radius > ring_radius:
        raise EntryError(Fault("tube radius", show(tube_radius, "mm"), f"it must be at most the ring radius of {show(ring_radius, 'mm')}"))
    return (4 * pi - pi * pi) * ring_radius * tube_radius * tube_radius


@door(cap_radius="m", stem_radius="m", height="m", returns="m^3",
      possible={"cap_radius": POSITIVE, "stem_radius": NOT_NEGATIVE, "height": NOT_NEGATIVE})
def shadow_fill_of_mushroom(*, cap_radius: float, stem_radius: float, height: float) -> float:
    r"""Fill under a flat cap on a stem, for a pull straight up.

    .. math:: V = \pi (a^2 - b^2) h

    Parameters
    ----------
    cap_radius, stem_radius
        :math:`a, b`, the stem no thicker than the cap. [m]
    height
        Of the stem, :math:`h`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible, or a stem thicker than its cap.

    Notes
    -----
    Range: exact.
    Source: elementary geometry (computed).

    Examples
    --------
    >>> print(f"{shadow_fill_of_mushroom(cap_radius='60 mm', stem_radius='20 mm', height='50 mm').to('mL'):.2f~P}")
    502.65 ml
    """
    if stem_radius > cap_radius:
        raise EntryError(Fault("stem radius", show(stem_radius, "mm"), f"it must be at most the cap radius of {show(cap_radius, 'mm')}"))
    return pi * (cap_radius - stem_radius) * (cap_radius + stem_radius) * height


@door(cylinder_radius="m", groove_radius="m", returns="m^3",
      possible={"cylinder_radius": POSITIVE, "groove_radius": NOT_NEGATIVE})
def ring_groove_fill(*, cylinder_radius: float, groove_radius: float) -> float:
    r"""Fill of a half-round groove that runs round a cylinder.

    .. math:: V = \pi^2 r^2 \left( R - \tfrac{4 r}{3 \pi} \right)

    Parameters
    ----------
    cylinder_radius
        Of the cylinder, :math:`R`. [m]
    groove_radius
        Of the groove's section, :math:`r`, at most :math:`R`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible, or a groove deeper than the cylinder.

    Notes
    -----
    Range: exact; rubber as thick as the groove's radius closes it by itself.
    Source: Pappus' rule (computed).

    Examples
    --------
    >>> print(f"{ring_groove_fill(cylinder_radius='200 mm', groove_radius='20 mm').to('mL'):.3f~P}")
    756.058 ml
    """
    if groove_radius > cylinder_radius:
        raise EntryError(Fault("groove radius", show(groove_radius, "mm"), f"it must be at most the cylinder's {show(cylinder_radius, 'mm')}"))
    return pi * pi * groove_radius * groove_radius * (cylinder_radius - 4 * groove_radius / (3 * pi))


@door(half_angle="rad", tilt="rad", returns="",
      possible={"half_angle": STEEP_ABOVE, "tilt": STEEP})
def cone_undercut_share(*, half_angle: float, tilt: float) -> float:
    r"""Share of a cone's side that is an undercut when its axis is tilted from the pull.

    .. math::

        u = \tfrac{1}{\pi} \arccos \frac{\tan \alpha}{\tan \theta} \quad (\theta > \alpha); \qquad u = 0 \quad (\theta \le \alpha)

    Parameters
    ----------
    half_angle
        Of the cone, :math:`\alpha`. [rad]
    tilt
        Of its axis from the pull, :math:`\theta`. [rad]

    Returns
    -------
    Share of the side's area. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact, base left out.
    Source: elementary geometry (computed).

    Examples
    --------
    >>> print(f"{cone_undercut_share(half_angle='20°', tilt='30°'):.8f}")
    0.28288476
    """
    return acos(tan(half_angle) / tan(tilt)) / pi if tilt > half_angle else 0.0


@door(draft_angle="rad", returns="",
      possible={"draft_angle": STEEP})
def sphere_share_below_draft(*, draft_angle: float) -> float:
    r"""Share of a sphere that has less than a draft, for one pull.

    .. math:: u = \tfrac{1}{2} (1 + \sin \delta)

    Parameters
    ----------
    draft_angle
        :math:`\delta`. [rad]

    Returns
    -------
    Share of the area. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; without draft it is the lower half.
    Source: area of a zone of a sphere (computed).

    Examples
    --------
    >>> print(f"{sphere_share_below_draft(draft_angle='3°'):.8f}")
    0.52616798
    """
    return (1 + sin(draft_angle)) / 2
