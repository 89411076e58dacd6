"""The tables' coefficients of a rectangle under an even pressure, worked out for any sides."""

from typing import NamedTuple

from moldcalc.stages.layup.clamped import clamped_shape
from moldcalc.stages.layup.micro import SOLID
from moldcalc.stages.layup.shape import supported_shape
from moldcalc.units import Range, door

#: one side over the other
ASPECT = Range(1, 1000, with_low=True, with_high=True)


class Coefficients(NamedTuple):
    """Of a rectangle under an even pressure, over the short side a: w = deflection q a⁴/D', M = moment q a². [-]"""

    deflection: float
    moment: float
    edge_moment: float
    shear: float


@door(aspect="", poisson_ratio="", returns=dict.fromkeys(Coefficients._fields, ""), possible={"aspect": ASPECT, "poisson_ratio": SOLID})
def supported_coefficients(*, aspect: float, poisson_ratio: float) -> Coefficients:
    r"""Coefficients of a rectangle held along its edges and free to turn there, under an even pressure.

    .. math:: \alpha = \frac{4}{\pi^5} \sum_{m = 1, 3, ..} \frac{(-1)^{(m-1)/2}}{m^5}
              \left( 1 - \frac{\alpha_m \tanh \alpha_m + 2}{2 \cosh \alpha_m} \right), \qquad \alpha_m = \frac{m \pi b}{2 a}

    Parameters
    ----------
    aspect
        Long over short side, :math:`b/a`. [-]
    poisson_ratio
        Of the plate: it moves the moment only. [-]

    Returns
    -------
    deflection
        :math:`\alpha` in :math:`w = \alpha q a^4 / D'`. [-]
    moment
        :math:`\beta` in :math:`M = \beta q a^2`. [-]
    edge_moment
        0. [-]
    shear
        :math:`k` in :math:`w_s = k q a^2 / S`. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin plates, small deflections. In the tables for w = α q a⁴/(E t³) it is 12(1 - ν²) times as much.
    Source: Levy's series, as Timoshenko's table 8 (verified in a public list of benchmarks).

    Examples
    --------
    >>> one = supported_coefficients(aspect=1, poisson_ratio=0.3)
    >>> print(f"{one.deflection.magnitude:.5f} {one.moment.magnitude:.4f}")
    0.00406 0.0479
    """
    shape = supported_shape(1.0, aspect, 1.0, 1.0, poisson_ratio)
    return Coefficients(shape.bending, shape.moment, 0.0, shape.shear)


@door(aspect="", poisson_ratio="", returns=dict.fromkeys(Coefficients._fields, ""), possible={"aspect": ASPECT, "poisson_ratio": SOLID})
def clamped_coefficients(*, aspect: float, poisson_ratio: float) -> Coefficients:
    r"""Coefficients of a rectangle held fast along its edges, under an even pressure.

    .. math:: w = \alpha \frac{q a^4}{D'}, \quad M = \beta q a^2

    Parameters
    ----------
    aspect
        Long over short side, :math:`b/a`. [-]
    poisson_ratio
        Of the plate: it moves the moment inside only. [-]

    Returns
    -------
    deflection
        :math:`\alpha`. [-]
    moment
        :math:`\beta` in the middle. [-]
    edge_moment
        :math:`\beta` in the middle of a long edge, without its sign. [-]
    shear
        Of a panel free to turn: no clamping stops a core from shearing. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: thin plates, small deflections; edges that neither turn nor give, which no shell quite has.
    Source: Ritz's method; Timoshenko's table 35 prints 0.00126 and, a little high, 0.0231 for the square (verified in a
    public list of benchmarks). At 3:1 it is slightly above the endless strip: so it is.

    Examples
    --------
    >>> one = clamped_coefficients(aspect=1, poisson_ratio=0.3)
    >>> print(f"{one.deflection.magnitude:.6f} {one.edge_moment.magnitude:.4f}")
    0.001265 0.0513
    """
    shape = clamped_shape(1.0, aspect, 1.0, 1.0, poisson_ratio)
    return Coefficients(shape.bending, shape.moment, shape.edge_moment, shape.shear)
