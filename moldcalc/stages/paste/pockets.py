"""What a rolling ball leaves unfilled in plain hollows: slots, holes, dimples, grooves, between spheres."""

from math import asin, cos, pi, sqrt, tan

from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door

#: half-angle of a groove: above 0, below a right angle
ACUTE = Range(0, pi / 2)


def _sag(radius: float, half: float) -> float | None:
    """How far a ball that rests on two edges hangs down between them; none where it falls through."""
    if radius < half or radius == 0:
        return None
    # the long way round, since r - sqrt(r² - a²) loses digits for a large ball
    return half * half / (radius + sqrt((radius - half) * (radius + half)))


def _cap(radius: float, height: float) -> float:
    return pi * height * height * (3 * radius - height) / 3


def _reach(radius: float, depth: float) -> float:
    """From the wall to where a ball touches the floor; it touches the wall, or only its edge."""
    return radius if depth >= radius else sqrt(depth * (2 * radius - depth))


def _corner(radius: float, depth: float) -> float:
    """Section of the fill between wall, floor and ball."""
    reach = _reach(radius, depth)
    return radius * reach - _under_circle(radius, reach)


def _under_circle(radius: float, to: float) -> float:
    """Area under a circle's top, from its middle on."""
    return (to * sqrt(max(0.0, (radius - to) * (radius + to))) + radius * radius * asin(min(1.0, to / radius))) / 2


@door(width="m", depth="m", radius="m", returns="m^2",
      possible={"width": POSITIVE, "depth": POSITIVE, "radius": POSITIVE})
def slot_fill(*, width: float, depth: float, radius: float) -> float:
    r"""Fill of a long slot with upright walls and a flat floor, under a ball that rolls over it, for each metre of its length.

    .. math::

        A = w d - \left( r^2 \arcsin \tfrac{w}{2r} - \tfrac{w}{2} \sqrt{r^2 - \tfrac{w^2}{4}} \right) \quad (r > w/2); \qquad
        A = 2 r^2 (1 - \tfrac{\pi}{4}) \quad (r \le w/2, \ r \le d)

    Parameters
    ----------
    width, depth
        Of the slot, :math:`w, d`. [m]
    radius
        Of the ball, :math:`r`. [m]

    Returns
    -------
    Area of the fill's section. [m²]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; a ball that reaches the floor between the edges leaves two corners. All or nothing at r = w/2.
    Source: elementary geometry (computed).

    Examples
    --------
    >>> print(f"{slot_fill(width='10 mm', depth='20 mm', radius='8 mm').to('mm^2'):.2f~P}")
    188.02 mm²
    """
    sag = _sag(radius, width / 2)
    if sag is not None and sag <= depth:
        half = width / 2
        return width * depth - (radius * radius * asin(half / radius) - half * (radius - sag))
    return 2 * _corner(radius, depth)


@door(hole_radius="m", depth="m", radius="m", returns="m^3",
      possible={"hole_radius": POSITIVE, "depth": POSITIVE, "radius": POSITIVE})
def blind_hole_fill(*, hole_radius: float, depth: float, radius: float) -> float:
    r"""Fill of a round hole with a flat floor, under a ball that rolls over it.

    .. math::

        V = \pi a^2 d - \tfrac{\pi}{3} h^2 (3r - h), \ h = r - \sqrt{r^2 - a^2} \quad (r > a); \qquad
        V = 2 \pi \left[ (a - r) r^2 (1 - \tfrac{\pi}{4}) + \tfrac{r^3}{6} \right] \quad (r \le a, \ r \le d)

    Parameters
    ----------
    hole_radius, depth
        Of the hole, :math:`a, d`. [m]
    radius
        Of the ball, :math:`r`. [m]

    Returns
    -------
    Volume. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; a ball that reaches the floor leaves the corner. All or nothing at r = a.
    Source: elementary geometry (computed).

    Examples
    --------
    >>> print(f"{blind_hole_fill(hole_radius='10 mm', depth='15 mm', radius='12 mm').to('mL'):.3f~P}")
    3.788 ml
    """
    sag = _sag(radius, hole_radius)
    if sag is not None and sag <= depth:
        return pi * hole_radius * hole_radius * depth - _cap(radius, sag)
    reach = _reach(radius, depth)
    turned = radius * reach * reach / 2 - (radius**3 - (radius * radius - reach * reach) ** 1.5) / 3
    return 2 * pi * ((hole_radius - reach) * _corner(radius, depth) + turned)


@door(dimple_radius="m", radius="m", returns="m^3",
      possible={"dimple_radius": POSITIVE, "radius": POSITIVE})
def dimple_fill(*, dimple_radius: float, radius: float) -> float:
    r"""Fill of a hollow half ball in a flat face, under a ball that rolls over it.

    .. math::

        V = \tfrac{2}{3} \pi a^3 - \tfrac{\pi}{3} h^2 (3r - h), \ h = r - \sqrt{r^2 - a^2} \quad (r \ge a); \qquad V = 0 \quad (r < a)

    Parameters
    ----------
    dimple_radius
        Of the hollow, :math:`a`. [m]
    radius
        Of the ball, :math:`r`. [m]

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
    Source: elementary geometry (computed).

    Examples
    --------
    >>> print(f"{dimple_fill(dimple_radius='10 mm', radius='12 mm').to('mL'):.4f~P}")
    1.1705 ml
    """
    sag = _sag(radius, dimple_radius)
    return 0.0 if sag is None else 2 / 3 * pi * dimple_radius**3 - _cap(radius, sag)


@door(half_angle="rad", depth="m", radius="m", returns="m^2",
      possible={"half_angle": ACUTE, "depth": POSITIVE, "radius": POSITIVE})
def v_groove_fill(*, half_angle: float, depth: float, radius: float) -> float:
    r"""Fill of a long sharp groove in a flat face, under a ball that rolls over it, for each metre of its length.

    .. math::

        A = r^2 \left( \cot \alpha - \tfrac{\pi}{2} + \alpha \right) \quad (r \cot \alpha \le d / \cos \alpha); \qquad
        A = d^2 \tan \alpha - \left( r^2 \arcsin \tfrac{w}{2r} - \tfrac{w}{2} \sqrt{r^2 - \tfrac{w^2}{4}} \right),
        \ w = 2 d \tan \alpha

    Parameters
    ----------
    half_angle
        Between a wall and the middle of the groove, :math:`\alpha`. [rad]
    depth
        Of the groove, :math:`d`. [m]
    radius
        Of the ball, :math:`r`. [m]

    Returns
    -------
    Area of the fill's section. [m²]

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
    >>> print(f"{v_groove_fill(half_angle='45°', depth='20 mm', radius='5 mm').to('mm^2'):.3f~P}")
    5.365 mm²
    """
    if radius / tan(half_angle) <= depth / cos(half_angle):
        return radius * radius * (1 / tan(half_angle) - (pi / 2 - half_angle))
    half = depth * tan(half_angle)
    below = sqrt(max(0.0, radius * radius - half * half))
    return depth * half - (radius * radius * asin(min(1.0, half / radius)) - half * below)


@door(sphere_radius="m", radius="m", gap="m", returns="m^3",
      possible={"sphere_radius": POSITIVE, "radius": POSITIVE, "gap": NOT_NEGATIVE})
def two_spheres_fill(*, sphere_radius: float, radius: float, gap: float = 0.0) -> float:
    r"""Fill between two equal spheres that touch, or nearly, under a ball that rolls round them.

    .. math::

        V = 2 \pi \int_0^{z_t} \left[ \left( \rho_0 - \sqrt{r^2 - z^2} \right)^2 - \max(R^2 - (z_c - z)^2, 0) \right] dz,
        \ z_c = R + \tfrac{g}{2}, \ \rho_0 = \sqrt{(R + r)^2 - z_c^2}, \ z_t = \tfrac{z_c r}{R + r}

    Parameters
    ----------
    sphere_radius
        Of both spheres, :math:`R`. [m]
    radius
        Of the ball, :math:`r`. [m]
    gap
        Between the spheres, :math:`g`. [m]

    Returns
    -------
    Volume; 0 where the ball passes through the gap. [m³]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: exact; where the ball reaches the axis, two lone hollows are left.
    Source: elementary geometry (computed).

    Examples
    --------
    >>> print(f"{two_spheres_fill(sphere_radius='10 mm', radius='5 mm').to('mL'):.5f~P}")
    0.28925 ml
    """
    middle, both = sphere_radius + gap / 2, sphere_radius + radius
    if both <= middle:
        return 0.0
    ring = sqrt((both - middle) * (both + middle))
    top = middle * radius / both
    low = sqrt((radius - ring) * (radius + ring)) if ring < radius else 0.0
    if top <= low:
        return 0.0
    rolled = (ring * ring + radius * radius) * (top - low) - (top**3 - low**3) / 3
    rolled -= 2 * ring * (_under_circle(radius, top) - _under_circle(radius, low))
    rest = middle * sphere_radius / both
    ball = sphere_radius**2 * (sphere_radius - rest) - (sphere_radius**3 - rest**3) / 3
    return max(0.0, 2 * pi * (rolled - ball))


@door(side="m", radius="m", returns="m^3",
      possible={"side": POSITIVE, "radius": POSITIVE})
def cube_cavity_fill(*, side: float, radius: float) -> float:
    r"""Fill of the edges and corners inside a cube-shaped hollow, closed all round, with a ball rolling in it.

    .. math:: V = 12 (s - 2r) r^2 (1 - \tfrac{\pi}{4}) + 8 r^3 (1 - \tfrac{\pi}{6})

    Parameters
    ----------
    side
        Of the hollow, :math:`s`. [m]
    radius
        Of the ball, :math:`r`. [m]

    Returns
    -------
    Volume; all of the hollow where the ball does not fit. [m³]

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
    >>> print(f"{cube_cavity_fill(side='30 mm', radius='5 mm').to('mL'):.4f~P}")
    1.7640 ml
    """
    if radius >= side / 2:
        return side**3
    return 12 * (side - 2 * radius) * radius * radius * (1 - pi / 4) + 8 * radius**3 * (1 - pi / 6)
