"""Pieces cut from channels and sheets: the fewest lengths that give them all, by exact search."""

from math import inf
from typing import NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.stages.mixing.counting import count_up
from moldcalc.units import NOT_NEGATIVE, POSITIVE, door, show

#: more pieces than this on one list is a slip in the entries
MOST_PIECES = 400
#: looks at no more part plans than this; what is found till then is given, and said not to be proved
MOST_LOOKS = 20_000
_CLOSE = 1e-9


class Cutting(NamedTuple):
    """Lengths to be cast or cut: how many, which pieces (their places in the list) come from each, and whether fewer are ruled out."""

    number: int
    pieces: tuple[tuple[int, ...], ...]
    waste: float
    proved: bool


def cut_lengths(lengths: list[float], stock: float, kerf: float, entry: str) -> Cutting:
    """The fewest lengths of stock [m] that give all pieces [m], a kerf [m] between two; exact where ``proved``."""
    if len(lengths) > MOST_PIECES:
        raise EntryError(Fault("lengths", f"a list of {len(lengths)}", f"give at most {MOST_PIECES}"))
    for place, length in enumerate(lengths, start=1):
        if length > stock * (1 + _CLOSE):
            raise EntryError(Fault(f"length {place}", show(length, "mm"), f"the {entry} gives at most {show(stock, 'mm')}; make it in pieces"))
    search = _Search([length + kerf for length in lengths], stock + kerf)
    found = search.run()
    waste = max(0.0, len(found) * stock - sum(lengths))
    return Cutting(len(found), tuple(tuple(sorted(bin_)) for bin_ in found), waste, len(found) <= search.least or search.looks < MOST_LOOKS)


class _Search:
    """Largest piece first into each length with room, then into a new one; stops at what the sum of all rules out."""

    def __init__(self, sizes: list[float], room: float) -> None:
        self.sizes, self.room = sizes, room * (1 + _CLOSE)
        self.order = sorted(range(len(sizes)), key=lambda piece: -sizes[piece])
        self.least = max(self._by_sum(), self._by_halves())
        self.looks = 0
        self.best = self._first_fit()

    def _by_sum(self) -> int:
        return count_up(sum(self.sizes) / self.room, "number of lengths")

    def _by_halves(self) -> int:
        return sum(size > self.room / 2 for size in self.sizes)

    def _first_fit(self) -> list[list[int]]:
        bins: list[list[int]] = []
        left: list[float] = []
        for piece in self.order:
            size = self.sizes[piece]
            place = next((i for i, room in enumerate(left) if size <= room), None)
            if place is None:
                bins.append([piece])
                left.append(self.room - size)
            else:
                bins[place].append(piece)
                left[place] -= size
        return bins

    def run(self) -> list[list[int]]:
        if len(self.best) > self.least:
            self._place(0, [], [])
        return self.best

    def _place(self, at: int, bins: list[list[int]], left: list[float]) -> bool:
        """Tries all places of the piece at hand; True once nothing better can come."""
        self.looks += 1
        if at == len(self.order):
            self.best = [list(bin_) for bin_ in bins]
            return len(bins) <= self.least
        if self.looks >= MOST_LOOKS:
            return True
        piece, seen = self.order[at], set[float]()
        size = self.sizes[piece]
        for i, room in enumerate(left):
            if size <= room and room not in seen:
                seen.add(room)
                bins[i].append(piece)
                left[i] = room - size
                if self._place(at + 1, bins, left):
                    return True
                bins[i].pop()
                left[i] = room
        if len(bins) + 1 < len(self.best):
            bins.append([piece])
            left.append(self.room - size)
            if self._place(at + 1, bins, left):
                return True
            bins.pop()
            left.pop()
        return False


@door(lengths="m[]", channel_length="m", trim="m", returns=None,
      possible={"lengths": POSITIVE, "channel_length": POSITIVE, "trim": NOT_NEGATIVE})
def channel_castings(*, lengths: list[float], channel_length: float, trim: float = 0.0) -> Cutting:
    r"""How often a channel is filled to give all strips.

    .. math:: \min n : \; \sum_{i \in j} (l_i + k) \le C + k \quad (j = 1 \ldots n)

    Parameters
    ----------
    lengths
        Of the strips, :math:`l_i`. [m]
    channel_length
        That can be used, :math:`C`. [m]
    trim
        Lost at each cut, :math:`k`. [m]

    Returns
    -------
    number
        Castings.
    pieces
        For each casting the places of its strips in the list, from 0.
    waste
        Length left over, in metres: offcuts make keys.
    proved
        Whether fewer castings are ruled out; a long list is searched only so far.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a strip longer than the channel; more than
        400 strips.

    Notes
    -----
    Range: up to about 20 strips of different lengths are always settled; more may be left unproved.
    Source: cutting stock in one dimension, branch and bound from first fit decreasing (textbook); exact where proved.

    Examples
    --------
    The spine and two loops, the loops in two pieces each, from a channel of 1.25 m:

    >>> found = channel_castings(lengths=["0.70 m", "0.625 m", "0.625 m", "0.525 m", "0.525 m"], channel_length="1.25 m")
    >>> found.number, found.pieces, found.proved, f"{found.waste:.2f}"
    (3, ((0, 3), (1, 2), (4,)), True, '0.75')
    """
    return cut_lengths(lengths, channel_length, trim, "channel")


@door(lengths="m[]", most="m", returns="m[]", possible={"lengths": POSITIVE, "most": POSITIVE})
def in_pieces(*, lengths: list[float], most: float) -> list[float]:
    r"""Lengths cut into as few equal pieces as a channel or a sheet allows.

    .. math:: n_i = \lceil L_i / m \rceil, \quad l_i = L_i / n_i

    Parameters
    ----------
    lengths
        Of the joints, :math:`L_i`. [m]
    most
        Longest piece, :math:`m`. [m]

    Returns
    -------
    All pieces, joint by joint. [m]

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; more than 400 pieces.

    Notes
    -----
    Range: pieces butted and taped or bonded end to end.
    Source: division (exact).

    Examples
    --------
    >>> [f"{piece.to('m').magnitude:.3f}" for piece in in_pieces(lengths=["0.70 m", "1.25 m"], most="1 m")]
    ['0.700', '0.625', '0.625']
    """
    pieces: list[float] = []
    for length in lengths:
        count = count_up(length / most, "number of pieces") or 1
        if len(pieces) + count > MOST_PIECES:
            raise EntryError(Fault("number of pieces", f"more than {MOST_PIECES}", "check the lengths and the longest piece"))
        pieces += [length / count] * count
    return pieces


class Shims(NamedTuple):
    """Shims from sheets: sheets, strips in a sheet and in all, which pieces each strip gives, faces to release [m²]."""

    sheets: int
    per_sheet: int
    strips: int
    lengthways: bool
    pieces: tuple[tuple[int, ...], ...]
    release_area: float
    proved: bool


@door(lengths="m[]", height="m", sheet_length="m", sheet_width="m", kerf="m", returns={"release_area": "m^2"},
      possible={"lengths": POSITIVE, "height": POSITIVE, "sheet_length": POSITIVE, "sheet_width": POSITIVE, "kerf": NOT_NEGATIVE})
def shims(*, lengths: list[float], height: float, sheet_length: float, sheet_width: float, kerf: float = 0.0) -> Shims:
    r"""Shims cut from sheets: the sheet into strips of one height, the strips into lengths.

    .. math:: n_s = \left\lfloor \frac{W + k}{h + k} \right\rfloor, \quad N = \left\lceil \frac{n}{n_s} \right\rceil

    Parameters
    ----------
    lengths
        Of the shims, :math:`l_i`. [m]
    height
        Of them all, :math:`h`. [m]
    sheet_length, sheet_width
        Of a sheet; strips run along it or across, whichever takes fewer sheets. [m]
    kerf
        Lost at each cut, :math:`k`; 0 for a knife. [m]

    Returns
    -------
    sheets
        :math:`N`.
    per_sheet, strips
        Strips that a sheet gives, :math:`n_s`; strips in all, :math:`n`.
    lengthways
        Whether strips run along the sheet's length.
    pieces
        For each strip the places of its shims in the list, from 0.
    release_area
        Both faces of all shims. [m²]
    proved
        Whether fewer strips are ruled out.

    Raises
    ------
    EntryError
        An entry that is not a quantity of that kind, or outside what is possible; a shim longer or higher than the sheet;
        more than 400 shims.

    Notes
    -----
    Range: curved shims (for a joint that bends across the sheet's plane) are cut to a template and need more.
    Source: cutting stock in one dimension, branch and bound (textbook); exact where proved.

    Examples
    --------
    >>> found = shims(lengths=["0.70 m", "0.625 m", "0.625 m", "0.525 m", "0.525 m"], height="80 mm", sheet_length="1.25 m", sheet_width="1 m")
    >>> found.sheets, found.per_sheet, found.strips, f"{found.release_area.to('m^2'):.2f~P}"
    (1, 12, 3, '0.48 m²')
    """
    ways = []
    faults = []
    for lengthways, along, across in ((True, sheet_length, sheet_width), (False, sheet_width, sheet_length)):
        try:
            ways.append(_strips(lengths, height, along, across, kerf, lengthways))
        except EntryError as refused:
            faults.append(refused)
    if not ways:
        raise faults[0]
    return min(ways, key=lambda way: (way.sheets, way.strips))


def _strips(lengths: list[float], height: float, along: float, across: float, kerf: float, lengthways: bool) -> Shims:
    fit = (across + kerf) / (height + kerf)
    if fit * (1 + _CLOSE) < 1:
        raise EntryError(Fault("height", show(height, "mm"), f"the sheet is only {show(across, 'mm')} across; take a larger sheet"))
    per_sheet = int(min(fit * (1 + _CLOSE), 1e5))
    cut = cut_lengths(lengths, along, kerf, "sheet")
    area = 2 * height * sum(lengths)
    if area == inf:
        raise EntryError(Fault("height", show(height, "mm"), "the shims would have no finite area; check the sizes"))
    return Shims(-(-cut.number // per_sheet), per_sheet, cut.number, lengthways, cut.pieces, area, cut.proved)
