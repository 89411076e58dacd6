"""What the head of a poured mix does to a rubber that stands free, or that has room in its shell."""

from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show


class HeadStretch(NamedTuple):
    """Stretch of the rubber round the cast [-], how far it moves out [m], and whether the shell is what stops it."""

    strain: float
    moves: float
    on_shell: bool


@door(pressure="Pa", radius="m", thickness="m", modulus="Pa", gap="m", returns={"moves": "m"},
      possible={"pressure": NOT_NEGATIVE, "radius": POSITIVE, "thickness": POSITIVE, "modulus": POSITIVE, "gap": NOT_NEGATIVE})
def head_stretch(*, pressure: float, radius: float, thickness: float, modulus: float, gap: float | None = None) -> HeadStretch:
    r"""How much wider a cast comes out where the rubber gives way under the head.

    .. math:: \lambda = \left( 1 - \frac{3 \, p \, r}{E \, t} \right)^{-1/4}, \quad u = r (\lambda - 1) \le g

    Parameters
    ----------
    pressure
        Of the mix at that depth, :math:`p`. [Pa]
    radius
        Of the rubber's inside, :math:`r`. [m]
    thickness
        Of the rubber, :math:`t`. [m]
    modulus
        Young's modulus of the rubber, :math:`E`. [Pa]
    gap
        Room between rubber and shell, :math:`g`; 0 where it lies against the shell; left out where there is no shell. [m]

    Returns
    -------
    strain
        Round the cast, :math:`\lambda - 1`. [-]
    moves
        Outward, :math:`u`. [m]
    on_shell
        Whether the shell is what holds it.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a head under which rubber with no shell
        would swell without end.

    Notes
    -----
    Range: a long thin tube that keeps its length; an edge or a flat face gives more than a round. Backed by the shell the
    rubber itself gives nothing that a tape could read: it does not compress.
    Source: thin tube of a neo-Hookean solid in plane strain (derived; textbook material law).

    Examples
    --------
    400 mm below the top of a gypsum mix, a rubber of Shore A 20, 8 mm thick, 60 mm in radius, without a shell:

    >>> found = head_stretch(pressure="6.9 kPa", radius="60 mm", thickness="8 mm", modulus="0.73 MPa")
    >>> print(f"{found.strain:.3f}, {found.moves.to('mm'):.1f~P}")
    0.062, 3.7 mm
    """
    load = 3 * pressure * radius / thickness / modulus
    room = None if gap is None else gap / radius
    if load >= 1:
        if room is None or gap is None:
            most = modulus * thickness / radius / 3
            allowed = f"rubber without a shell swells without end from {show(most, 'kPa')} on; give it one"
            raise EntryError(Fault("pressure", show(pressure, "kPa"), allowed))
        return HeadStretch(room, gap, True)
    free = (1 - load) ** -0.25 - 1
    if room is not None and gap is not None and free > room:
        return HeadStretch(room, gap, True)
    return HeadStretch(free, free * radius, False)
