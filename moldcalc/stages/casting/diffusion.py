"""How fast the rubber gives off its alcohol, and shrinks with it: diffusion out of a sheet."""

from math import erfc, exp, pi, sqrt

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, PART, POSITIVE, Range, door

#: below this the series for short times, above it the one for long times; both are exact to the last digits here
_CHANGE = 0.05
#: nothing that a bench could tell is left beyond this
_DONE = 5.0
FACES = Range(1, 2, with_low=True, with_high=True)


def lost_share(x: float) -> float:
    """Crank's share lost by a sheet open on both faces, at D t / l^2 = x, l its full thickness."""
    if x <= 0:
        return 0.0
    if x >= _DONE:
        return 1.0
    if x < _CHANGE:
        root = sqrt(x)
        return 4 * root * (1 / sqrt(pi) + 2 * sum((-1) ** n * _ierfc(n / (2 * root)) for n in range(1, 6)))
    return 1 - 8 / pi**2 * sum(exp(-((2 * n + 1) ** 2) * pi**2 * x) / (2 * n + 1) ** 2 for n in range(12))


def _ierfc(z: float) -> float:
    return exp(-z * z) / sqrt(pi) - z * erfc(z) if z < 20 else 0.0


def share_reached(share: float) -> float:
    """D t / l^2 at which a share is lost, by halving."""
    low, high = 0.0, _DONE
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if lost_share(middle) < share else (low, middle)
    return high


def _faces(open_faces: float) -> float:
    if open_faces not in (1.0, 2.0):
        raise EntryError(Fault("open faces", f"{open_faces:g}", "it must be 1 or 2"))
    return open_faces


@door(diffusivity="m^2/s", thickness="m", time="s", open_faces="", returns="",
      possible={"diffusivity": POSITIVE, "thickness": POSITIVE, "time": NOT_NEGATIVE, "open_faces": FACES},
      holds={"diffusivity": (1e-11, 1e-9)})
def share_vented(*, diffusivity: float, thickness: float, time: float, open_faces: float) -> float:
    r"""Share of its by-product that a sheet of rubber has given off.

    .. math::

        \frac{M_t}{M_\infty} = 1 - \frac{8}{\pi^2} \sum_{n=0}^{\infty} \frac{e^{-(2n+1)^2 \pi^2 D t / l^2}}{(2n+1)^2},
        \qquad l = \frac{2 h}{f}

    Parameters
    ----------
    diffusivity
        Of the by-product in the rubber, :math:`D`. [m²/s]
    thickness
        Of the rubber, :math:`h`. [m]
    time
        Since the cure, :math:`t`. [s]
    open_faces
        2 where both faces lie open, 1 where the shell or the original covers one, :math:`f`. [-]

    Returns
    -------
    Share of what is given off in the end. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; faces that are neither 1 nor 2.

    Notes
    -----
    Range: steady temperature, open air; a diffusivity of 1e-11 to 1e-9 m²/s is an estimate: fit your own from two weighings
    or two lengths. One open face is a sheet of twice the thickness.
    Source: Crank 1975, plane sheet (from memory, computed); loss of weight in step with the root of time, and shrinkage with
    it, Biomaterials 13 (1992), doi 10.1016/0142-9612(92)90058-v (abstract verified).

    Examples
    --------
    8 mm of rubber in its shell, 48 h, at 1e-10 m²/s:

    >>> from moldcalc.units import Q
    >>> share = share_vented(diffusivity=Q(1e-10, "m^2/s"), thickness="8 mm", time="48 h", open_faces=1)
    >>> print(f"{share:.2f}")
    0.58
    """
    return lost_share(_spread(diffusivity, thickness, time, _faces(open_faces)))


def _spread(diffusivity: float, thickness: float, time: float, open_faces: float) -> float:
    through = 2 * thickness / open_faces
    return min(_DONE, diffusivity * time / through / through)


@door(diffusivity="m^2/s", thickness="m", share="", open_faces="", returns="s",
      possible={"diffusivity": POSITIVE, "thickness": POSITIVE, "share": PART, "open_faces": FACES}, holds={"diffusivity": (1e-11, 1e-9)})
def venting_time(*, diffusivity: float, thickness: float, share: float, open_faces: float) -> float:
    r"""Time after which a sheet of rubber has given off a share of its by-product.

    .. math:: t = \frac{x \, l^2}{D}, \qquad \frac{M}{M_\infty}(x) = s, \quad l = \frac{2 h}{f}

    Parameters
    ----------
    diffusivity
        Of the by-product in the rubber, :math:`D`. [m²/s]
    thickness
        Of the rubber, :math:`h`. [m]
    share
        That is to be gone, :math:`s`. [-]
    open_faces
        2 where both faces lie open, 1 where the shell or the original covers one, :math:`f`. [-]

    Returns
    -------
    Time. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; faces that are neither 1 nor 2.

    Notes
    -----
    Range: as the share. 24 to 72 h open in the shell is usual before the first resin cast (common practice, no source).
    Source: Crank 1975, plane sheet (from memory, computed), solved for the time.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> wait = venting_time(diffusivity=Q(1e-10, "m^2/s"), thickness="8 mm", share=0.5, open_faces=1)
    >>> print(f"{wait.to('h'):.0f~P}")
    35 h
    """
    through = 2 * thickness / _faces(open_faces)
    return share_reached(share) * through * through / diffusivity


@door(final_shrinkage="", vented="", returns="", possible={"final_shrinkage": PART, "vented": Range(0, 1, with_low=True, with_high=True)},
      holds={"final_shrinkage": (0.0, 0.02)})
def shrinkage_so_far(*, final_shrinkage: float, vented: float) -> float:
    r"""Linear shrinkage of the rubber once a share of its by-product is gone.

    .. math:: s(t) = s_\infty \frac{M_t}{M_\infty}

    Parameters
    ----------
    final_shrinkage
        Linear, when all is gone, :math:`s_\infty`. [-]
    vented
        Share given off so far. [-]

    Returns
    -------
    Linear shrinkage. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: shrinkage in step with the loss; it goes on after demolding: keep the rubber in its shell, and measure casts, not
    the mold.
    Source: predicted shrinkage agreed with the loss except for putties, Biomaterials 13 (1992) (abstract verified).

    Examples
    --------
    >>> print(f"{100 * shrinkage_so_far(final_shrinkage=0.003, vented=0.58):.2f} %")
    0.17 %
    """
    return final_shrinkage * vented


@door(expansion="", cast_at="K", used_at="K", returns="",
      possible={"expansion": Range(0, 1, with_low=True), "cast_at": POSITIVE, "used_at": POSITIVE}, holds={"expansion": (1e-5, 4e-4)})
def thermal_shrinkage(*, expansion: float, cast_at: float, used_at: float) -> float:
    r"""Linear shrinkage of a rubber that is used colder than it was cured; below 0 where it is used warmer.

    .. math:: s = \alpha \, (T_1 - T_2)

    Parameters
    ----------
    expansion
        Share of a length for one kelvin, :math:`\alpha`. [-]
    cast_at
        Temperature at which it cured, :math:`T_1`. [K]
    used_at
        Temperature at which it is cast in, :math:`T_2`. [K]

    Returns
    -------
    Linear shrinkage. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: rubber that is free of its shell; bonded or keyed fast it follows the shell. 15 K move silicone by more than its
    cure does.
    Source: definition; 250e-6 for a kelvin is silicone's (from memory).

    Examples
    --------
    >>> print(f"{100 * thermal_shrinkage(expansion=250e-6, cast_at='35 °C', used_at='20 °C'):.3f} %")
    0.375 %
    """
    return expansion * (cast_at - used_at)
