"""Between which two times the next coat bonds, at today's temperature."""

from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show


class RecoatWindow(NamedTuple):
    """From the end of one coat: when the next may go on at the earliest and must at the latest."""

    earliest: float
    latest: float


@door(earliest="s", latest="s", factor="", returns={"earliest": "s", "latest": "s"},
      possible={"earliest": NOT_NEGATIVE, "latest": POSITIVE, "factor": POSITIVE})
def recoat_window(*, earliest: float, latest: float, factor: float) -> RecoatWindow:
    r"""The recoat window at today's rate; both its ends move.

    .. math:: t = t_r / f

    Parameters
    ----------
    earliest, latest
        Ends of the window at the reference temperature, :math:`t_r`. [s]
    factor
        Rate today over the rate at the reference, :math:`f`. [-]

    Returns
    -------
    earliest, latest
        Ends of the window today. [s]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a latest that is not after the earliest.

    Notes
    -----
    Range: as that of the factor. The touch test decides: tacky, nothing comes off on a gloved finger.
    Source: about 2 h to the next coat and not later than the next day: common practice, no source.

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> w = recoat_window(earliest=Q(2, "h"), latest=Q(24, "h"), factor=0.7786)
    >>> print(f"{w.earliest.to('h'):.2f~P} to {w.latest.to('h'):.1f~P}")
    2.57 h to 30.8 h
    """
    if latest <= earliest:
        raise EntryError(Fault("latest recoat", show(latest, "h"), f"it must come after the earliest, {show(earliest, 'h')}"))
    return RecoatWindow(earliest / factor, latest / factor)
