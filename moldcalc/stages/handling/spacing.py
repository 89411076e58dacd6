"""How far a flange opens half-way between two bolts, and what spacing that allows."""

from typing import NamedTuple

from moldcalc.units import NOT_NEGATIVE, POSITIVE, door


class Gap(NamedTuple):
    """How far a flange opens half-way between two bolts, run on past them and hinged at them. [m]"""

    continuous: float
    hinged: float


@door(line_load="N/m", spacing="m", width="m", thickness="m", modulus="Pa", returns={"continuous": "m", "hinged": "m"},
      possible={"line_load": NOT_NEGATIVE, "spacing": POSITIVE, "width": POSITIVE, "thickness": POSITIVE, "modulus": POSITIVE})
def flange_gap(*, line_load: float, spacing: float, width: float, thickness: float, modulus: float) -> Gap:
    r"""How far a flange opens half-way between two bolts.

    .. math:: g = \frac{q \, s^4}{384 \, E I} \text{ to } \frac{5 \, q \, s^4}{384 \, E I}, \qquad I = \frac{w \, t^3}{12}

    Parameters
    ----------
    line_load
        On a metre of joint, :math:`q`. [N/m]
    spacing
        Between two bolts, :math:`s`. [m]
    width, thickness
        Of the flange, :math:`w, t`. [m]
    modulus
        Of the flange along the joint, :math:`E`. [Pa]

    Returns
    -------
    continuous
        Where it runs on stiffly past the bolts. [m]
    hinged
        Where it can turn at the bolts, five times as much. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: one flange; the other one opens as much again. Twice the thickness lets the spacing grow 1.68 times.
    Source: beam formulas, textbook.

    Examples
    --------
    >>> gap = flange_gap(line_load="2 N/mm", spacing="150 mm", width="50 mm", thickness="8 mm", modulus="6400 MPa")
    >>> print(f"{gap.continuous.to('mm').magnitude:.3f} {gap.hinged.to('mm').magnitude:.3f}")
    0.193 0.966
    """
    fixed = line_load * spacing**4 / 384 / (modulus * width * thickness**3 / 12)
    return Gap(fixed, 5 * fixed)


@door(gap="m", line_load="N/m", width="m", thickness="m", modulus="Pa", returns={"continuous": "m", "hinged": "m"},
      possible={"gap": POSITIVE, "line_load": POSITIVE, "width": POSITIVE, "thickness": POSITIVE, "modulus": POSITIVE})
def spacing_for_gap(*, gap: float, line_load: float, width: float, thickness: float, modulus: float) -> Gap:
    r"""Bolt spacing at which a flange opens just so far.

    .. math:: s = \left( \frac{384 \, E I \, g}{k \, q} \right)^{1/4}, \qquad k = 1 \text{ or } 5

    Parameters
    ----------
    gap
        That is accepted, :math:`g`. [m]
    line_load
        On a metre of joint, :math:`q`. [N/m]
    width, thickness
        Of the flange, :math:`w, t`. [m]
    modulus
        Of the flange along the joint, :math:`E`. [Pa]

    Returns
    -------
    continuous, hinged
        Spacing for a flange that runs on stiffly past the bolts, and for one that can turn at them. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: as `flange_gap`; take the smaller one.
    Source: beam formulas, textbook.

    Examples
    --------
    >>> s = spacing_for_gap(gap="0.5 mm", line_load="2 N/mm", width="50 mm", thickness="8 mm", modulus="6400 MPa")
    >>> print(f"{s.continuous.to('mm').magnitude:.1f} {s.hinged.to('mm').magnitude:.1f}")
    190.3 127.2
    """
    stiff = 384 * (modulus * width * thickness**3 / 12) * (gap / line_load)
    return Gap(stiff**0.25, (stiff / 5) ** 0.25)


@door(diameter="m", thickness="m", gasket_factor="", returns="m",
      possible={"diameter": POSITIVE, "thickness": POSITIVE, "gasket_factor": NOT_NEGATIVE})
def gasket_spacing(*, diameter: float, thickness: float, gasket_factor: float) -> float:
    r"""Greatest bolt spacing of a gasketed flange, as a bound to look at.

    .. math:: s = 2 d + \frac{6 \, t}{m + 0.5}

    Parameters
    ----------
    diameter
        Of the bolts, :math:`d`. [m]
    thickness
        Of the flange, :math:`t`. [m]
    gasket_factor
        Of what lies between the flanges, :math:`m`; 0.5 for soft rubber. [-]

    Returns
    -------
    Spacing. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: steel flanges; a laminate is softer. Only a bound.
    Source: pressure-vessel practice (from memory).

    Examples
    --------
    >>> print(f"{gasket_spacing(diameter='8 mm', thickness='8 mm', gasket_factor=0.5).to('mm').magnitude:.0f}")
    64
    """
    return 2 * diameter + 6 * thickness / (gasket_factor + 0.5)
