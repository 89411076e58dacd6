"""How much more reinforcement overlaps ask for, and what random pieces leave uncovered."""

from math import exp, lgamma, log

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.mixing.counting import whole
from moldcalc.units import NOT_NEGATIVE, POSITIVE, Range, door, show


def refuse_wide_overlap(overlap: float, side: float, name: str) -> None:
    """An overlap leaves something of each side."""
    if overlap >= side:
        raise EntryError(Fault("overlap", show(overlap, "mm"), f"it must be below the {name}, {show(side, 'mm')}"))


@door(width="m", overlap="m", returns="", possible={"width": POSITIVE, "overlap": NOT_NEGATIVE})
def strip_overlap_factor(*, width: float, overlap: float) -> float:
    r"""Reinforcement used over area covered, for strips that overlap along their sides.

    .. math:: k = \frac{w}{w - o}

    Parameters
    ----------
    width
        Of a strip, :math:`w`. [m]
    overlap
        Of two strips side by side, :math:`o`. [m]

    Returns
    -------
    Factor. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; an overlap as wide as the strip.

    Notes
    -----
    Range: overlaps of 25 to 50 mm are usual: common practice, no source.
    Source: geometry (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{strip_overlap_factor(width=Q(150, 'mm'), overlap=Q(25, 'mm')):.2f}")
    1.20
    """
    refuse_wide_overlap(overlap, width, "width")
    return width / (width - overlap)


@door(length="m", width="m", overlap="m", returns="", possible={"length": POSITIVE, "width": POSITIVE, "overlap": NOT_NEGATIVE})
def patch_overlap_factor(*, length: float, width: float, overlap: float) -> float:
    r"""Reinforcement used over area covered, for patches that overlap on all sides.

    .. math:: k = \frac{a \, b}{(a - o)(b - o)}

    Parameters
    ----------
    length, width
        Of a patch, :math:`a, b`. [m]
    overlap
        Of two patches side by side, :math:`o`. [m]

    Returns
    -------
    Factor. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; an overlap as wide as the patch.

    Notes
    -----
    Range: overlaps of 25 to 50 mm are usual: common practice, no source.
    Source: geometry (exact).

    Examples
    --------
    >>> from moldcalc.units import Q
    >>> print(f"{patch_overlap_factor(length=Q(300, 'mm'), width=Q(300, 'mm'), overlap=Q(50, 'mm')):.2f}")
    1.44
    """
    refuse_wide_overlap(overlap, length, "length")
    refuse_wide_overlap(overlap, width, "width")
    return length / (length - overlap) * (width / (width - overlap))


#: nobody lays more
MOST_LAYERS = 1000
LAYERS = Range(1, MOST_LAYERS, True, True)


@door(mean_layers="", layers="", returns="", possible={"mean_layers": NOT_NEGATIVE, "layers": LAYERS})
def random_share_with_fewer(*, mean_layers: float, layers: float) -> float:
    r"""Share of the face that gets fewer layers than wanted where pieces are laid at random.

    .. math:: P = \sum_{j < k} \frac{e^{-\lambda} \lambda^j}{j!}

    Parameters
    ----------
    mean_layers
        Area of all pieces over the area of the face, :math:`\lambda`. [-]
    layers
        Wanted, a whole number, :math:`k`. [-]

    Returns
    -------
    Share of the face. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; layers that are no whole number.

    Notes
    -----
    Range: torn pieces laid without a plan, small beside the face; edges left out. Laid in passes that each cover the
    face, none of this happens.
    Source: Poisson's law, textbook.

    Examples
    --------
    Three layers on the average, at least two wanted:

    >>> print(f"{random_share_with_fewer(mean_layers=3, layers=2):.7f}")
    0.1991483
    """
    count = whole(layers, "layers")
    if mean_layers == 0:
        return 1.0
    logarithm = log(mean_layers)
    return min(1.0, sum(exp(j * logarithm - mean_layers - lgamma(j + 1)) for j in range(count)))


@door(share="", layers="", returns="", possible={"share": Range(0, 1), "layers": LAYERS}, holds={"share": (0.5, 0.999)})
def random_layers_needed(*, share: float, layers: float) -> float:
    r"""Mean number of layers of random pieces, so that a share of the face gets at least so many.

    .. math:: \sum_{j < k} \frac{e^{-\lambda} \lambda^j}{j!} = 1 - s

    Parameters
    ----------
    share
        Of the face, :math:`s`. [-]
    layers
        Wanted at the least, a whole number, :math:`k`. [-]

    Returns
    -------
    Mean layers, :math:`\lambda`: area of all pieces over the area of the face. [-]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; layers that are no whole number.

    Notes
    -----
    Range: torn pieces laid without a plan, small beside the face; edges left out.
    Source: Poisson's law, textbook, solved by halving.

    Examples
    --------
    At least two layers on 95 % of the face take 2.4 times the planned glass:

    >>> print(f"{random_layers_needed(share=0.95, layers=2):.6f}")
    4.743865
    """
    def fewer(mean: float) -> float:
        return float(random_share_with_fewer.si(mean_layers=mean, layers=layers))

    low, high = 0.0, 1.0
    for _ in range(60):
        if fewer(high) <= 1 - share:
            break
        low, high = high, 2 * high
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if fewer(middle) > 1 - share else (low, middle)
    return high
