"""How stiff a laminate of plain cloth is in its plane: along its threads, on the bias, and with its plies turned all ways."""

from moldcalc.stages.layup.fractions import fibre_volume_fraction
from moldcalc.stages.layup.lamina import reduced_stiffness
from moldcalc.stages.layup.mat import MATERIALS, OF_CLOTH, POSSIBLE, ClothModulus, random_by_average, refuse_per_cent
from moldcalc.stages.layup.micro import straight_ply
from moldcalc.units import door


@door(**MATERIALS, returns=dict.fromkeys(ClothModulus._fields, "Pa"), possible=POSSIBLE, holds={"fibre_mass_fraction": OF_CLOTH})
def cloth_modulus(*, fibre_mass_fraction: float, fibre_density: float, resin_density: float, fibre_modulus: float,
                  fibre_poisson_ratio: float, resin_modulus: float, resin_poisson_ratio: float) -> ClothModulus:
    r"""In-plane modulus of a laminate of plain cloth, as many threads one way as the other.

    .. math:: E_{0} = \bar{Q} - \frac{Q_{12}^2}{\bar{Q}}, \; \bar{Q} = \frac{Q_{11} + Q_{22}}{2}, \quad
              \frac{1}{E_{45}} = \frac{1}{2 (\bar{Q} + Q_{12})} + \frac{1}{4 \, Q_{66}}, \quad E_\mathrm{turned} = \frac{U_1^2 - U_4^2}{U_1}

    Parameters
    ----------
    fibre_mass_fraction
        Mass of glass over mass of the cured laminate. [-]
    fibre_density, resin_density
        Of the solid fibre and of the cured resin. [kg/m³]
    fibre_modulus, resin_modulus
        Of fibre and resin. [Pa]
    fibre_poisson_ratio, resin_poisson_ratio
        Of fibre and resin. [-]

    Returns
    -------
    along, bias, turned
        Along the threads, at 45° to them, and with the plies turned all ways. [Pa]
    low, likely, high
        On the bias, turned all ways, along. [Pa]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a percentage given as a fraction.

    Notes
    -----
    Range: :math:`w_f` 0.35 to 0.60, cloth laid by hand over a shape, where the plies end up turned many ways. The waves of
    the threads are left out: they cost some stiffness, so all three are high rather than low.
    Source: rule of mixtures and Halpin-Tsai (as `straight_ply`), crossed plies by classical laminate theory; computed.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> e = cloth_modulus(fibre_mass_fraction=0.50, fibre_density=Q(2.56, "kg/L"), resin_density=Q(1.15, "kg/L"),
    ...                   fibre_modulus=Q(72.4, "GPa"), fibre_poisson_ratio=0.22, resin_modulus=Q(3.45, "GPa"), resin_poisson_ratio=0.35)
    >>> print(f"{e.bias.to('GPa'):.1f~P}, {e.turned.to('GPa'):.1f~P}, {e.along.to('GPa'):.1f~P}")
    7.4 GPa, 12.5 GPa, 16.2 GPa
    """
    refuse_per_cent(fibre_mass_fraction)
    share = fibre_volume_fraction.si(fibre_mass_fraction=fibre_mass_fraction, fibre_density=fibre_density, resin_density=resin_density)
    ply = straight_ply.si(fibre_modulus=fibre_modulus, fibre_poisson_ratio=fibre_poisson_ratio, resin_modulus=resin_modulus,
                          resin_poisson_ratio=resin_poisson_ratio, fibre_volume_fraction=share)
    q11, q12, q22, q66 = reduced_stiffness.si(**ply._asdict())
    mean = (q11 + q22) / 2
    along = mean - q12 * (q12 / mean)
    bias = 1 / (1 / (2 * (mean + q12)) + 1 / (4 * q66))
    turned = random_by_average.si(**ply._asdict()).modulus
    return ClothModulus(along, bias, turned, min(along, bias, turned), turned, max(along, bias, turned))
