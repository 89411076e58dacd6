"""How stiff a ply of straight fibres is, from its fibre and its resin."""

from math import sqrt
from typing import NamedTuple

from moldcalc.stages.layup.fractions import BETWEEN
from moldcalc.units import POSITIVE, Range, door

#: Poisson's ratio of a solid that is the same all ways
SOLID = Range(-1, 0.5, with_high=True)


class Ply(NamedTuple):
    """Elastic constants of a ply of straight fibres. [Pa], the last [-]"""

    longitudinal_modulus: float
    transverse_modulus: float
    shear_modulus: float
    poisson_ratio: float


@door(modulus="Pa", poisson_ratio="", returns="Pa", possible={"modulus": POSITIVE, "poisson_ratio": SOLID})
def isotropic_shear_modulus(*, modulus: float, poisson_ratio: float) -> float:
    r"""Shear modulus of a solid that is the same all ways.

    .. math:: G = \frac{E}{2 (1 + \nu)}

    Parameters
    ----------
    modulus
        :math:`E`. [Pa]
    poisson_ratio
        :math:`\nu`. [-]

    Returns
    -------
    Shear modulus. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: glass fibre, resin, foam; not carbon or aramid fibre.
    Source: elasticity, textbook.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{isotropic_shear_modulus(modulus=Q(3.45, 'GPa'), poisson_ratio=0.35).to('GPa'):.4f~P}")
    1.2778 GPa
    """
    return modulus / 2 / (1 + poisson_ratio)


@door(fibre_value="Pa", resin_value="Pa", fibre_volume_fraction="", returns="Pa",
      possible={"fibre_value": POSITIVE, "resin_value": POSITIVE, "fibre_volume_fraction": BETWEEN})
def rule_of_mixtures(*, fibre_value: float, resin_value: float, fibre_volume_fraction: float) -> float:
    r"""Modulus along the fibres: fibre and resin side by side.

    .. math:: E_1 = v_f E_f + (1 - v_f) E_r

    Parameters
    ----------
    fibre_value, resin_value
        Moduli of fibre and resin, :math:`E_f, E_r`. [Pa]
    fibre_volume_fraction
        :math:`v_f`. [-]

    Returns
    -------
    Modulus. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: straight, endless fibres without voids. Poisson's ratio follows the same rule.
    Source: textbook; NASA TM-83320, example 4.1 (verified in a public transcription).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> e = rule_of_mixtures(fibre_value=Q(72.4, "GPa"), resin_value=Q(3.45, "GPa"), fibre_volume_fraction=0.5)
    >>> print(f"{e.to('GPa'):.3f~P}")
    37.925 GPa
    """
    return fibre_volume_fraction * fibre_value + (1 - fibre_volume_fraction) * resin_value


@door(fibre_value="Pa", resin_value="Pa", fibre_volume_fraction="", shape="", returns="Pa",
      possible={"fibre_value": POSITIVE, "resin_value": POSITIVE, "fibre_volume_fraction": BETWEEN, "shape": POSITIVE}, holds={"shape": (1, 2)})
def halpin_tsai(*, fibre_value: float, resin_value: float, fibre_volume_fraction: float, shape: float) -> float:
    r"""Modulus across the fibres, or in shear, by Halpin and Tsai.

    .. math:: E_2 = E_r \frac{1 + \xi \eta v_f}{1 - \eta v_f}, \qquad \eta = \frac{E_f / E_r - 1}{E_f / E_r + \xi}

    Parameters
    ----------
    fibre_value, resin_value
        The same modulus of fibre and resin, :math:`E_f, E_r`. [Pa]
    fibre_volume_fraction
        :math:`v_f`. [-]
    shape
        :math:`\xi`: 2 across the fibres, 1 in shear. [-]

    Returns
    -------
    Modulus. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: round fibres. Others take another :math:`\xi` in shear, :math:`1 + 40 v_f^{10}` for one: say which one is used.
    Source: Halpin and Tsai, as textbooks print it (from memory).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> e = halpin_tsai(fibre_value=Q(72.4, "GPa"), resin_value=Q(3.45, "GPa"), fibre_volume_fraction=0.5, shape=2)
    >>> print(f"{e.to('GPa'):.6f~P}")
    11.410206 GPa
    """
    ratio = fibre_value / resin_value
    eta = (ratio - 1) / (ratio + shape)
    return resin_value * (1 + shape * eta * fibre_volume_fraction) / (1 - eta * fibre_volume_fraction)


@door(fibre_value="Pa", resin_value="Pa", fibre_volume_fraction="", returns="Pa",
      possible={"fibre_value": POSITIVE, "resin_value": POSITIVE, "fibre_volume_fraction": BETWEEN})
def chamis(*, fibre_value: float, resin_value: float, fibre_volume_fraction: float) -> float:
    r"""Modulus across the fibres, or in shear, by Chamis: the second opinion.

    .. math:: E_2 = \frac{E_r}{1 - \sqrt{v_f} \, (1 - E_r / E_f)}

    Parameters
    ----------
    fibre_value, resin_value
        The same modulus of fibre (across it) and resin, :math:`E_f, E_r`. [Pa]
    fibre_volume_fraction
        :math:`v_f`. [-]

    Returns
    -------
    Modulus. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: straight fibres, no voids, half fibre or more by volume; with little fibre it can pass the rule of mixtures.
    Source: NASA TM-83320, examples 4.1, 4.2 and 8.1 (verified in a public transcription).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> e = chamis(fibre_value=Q(2.0e6, "psi"), resin_value=Q(0.272e6, "psi"), fibre_volume_fraction=0.60)
    >>> print(f"{e.m_as('psi') / 1e6:.3f} Msi")
    0.822 Msi
    """
    return resin_value / (1 - sqrt(fibre_volume_fraction) * (1 - resin_value / fibre_value))


@door(fibre_modulus="Pa", fibre_poisson_ratio="", resin_modulus="Pa", resin_poisson_ratio="", fibre_volume_fraction="",
      returns={"longitudinal_modulus": "Pa", "transverse_modulus": "Pa", "shear_modulus": "Pa", "poisson_ratio": ""},
      possible={"fibre_modulus": POSITIVE, "fibre_poisson_ratio": SOLID, "resin_modulus": POSITIVE, "resin_poisson_ratio": SOLID,
                "fibre_volume_fraction": BETWEEN})
def straight_ply(*, fibre_modulus: float, fibre_poisson_ratio: float, resin_modulus: float, resin_poisson_ratio: float,
                 fibre_volume_fraction: float) -> Ply:
    r"""Elastic constants of a ply of straight glass fibres: rule of mixtures along them, Halpin-Tsai across and in shear.

    .. math:: E_1 = v_f E_f + (1 - v_f) E_r, \; E_2: \xi = 2, \; G_{12}: \xi = 1, \; \nu_{12} = v_f \nu_f + (1 - v_f) \nu_r

    Parameters
    ----------
    fibre_modulus, resin_modulus
        :math:`E_f, E_r`. [Pa]
    fibre_poisson_ratio, resin_poisson_ratio
        :math:`\nu_f, \nu_r`. [-]
    fibre_volume_fraction
        :math:`v_f`. [-]

    Returns
    -------
    longitudinal_modulus, transverse_modulus, shear_modulus
        :math:`E_1, E_2, G_{12}`. [Pa]
    poisson_ratio
        :math:`\nu_{12}`. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible.

    Notes
    -----
    Range: fibre and resin each the same all ways (glass, not carbon); no voids.
    Source: as `rule_of_mixtures` and `halpin_tsai`.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> ply = straight_ply(fibre_modulus=Q(72.4, "GPa"), fibre_poisson_ratio=0.22, resin_modulus=Q(3.45, "GPa"),
    ...                    resin_poisson_ratio=0.35, fibre_volume_fraction=0.5)
    >>> print(f"{ply.shear_modulus.to('GPa'):.6f~P}, {ply.poisson_ratio.magnitude:.3f}")
    3.443495 GPa, 0.285
    """
    fibre_shear = isotropic_shear_modulus.si(modulus=fibre_modulus, poisson_ratio=fibre_poisson_ratio)
    resin_shear = isotropic_shear_modulus.si(modulus=resin_modulus, poisson_ratio=resin_poisson_ratio)
    share = fibre_volume_fraction
    return Ply(
        rule_of_mixtures.si(fibre_value=fibre_modulus, resin_value=resin_modulus, fibre_volume_fraction=share),
        halpin_tsai.si(fibre_value=fibre_modulus, resin_value=resin_modulus, fibre_volume_fraction=share, shape=2),
        halpin_tsai.si(fibre_value=fibre_shear, resin_value=resin_shear, fibre_volume_fraction=share, shape=1),
        share * fibre_poisson_ratio + (1 - share) * resin_poisson_ratio)
