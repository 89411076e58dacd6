"""Sets of directions in a plane: closed stretches of angles round the circle."""

from math import pi

TURN = 2 * pi
#: angles nearer than this are one [rad]
EPS = 1e-9

#: stretches (low, high) in [0, 2 pi]; what touches one end of the circle touches the other too
Bearings = list[tuple[float, float]]


def stretch(low: float, high: float) -> Bearings:
    """All angles from `low` up to `high`, both with it."""
    if high < low - EPS:
        return []
    if high - low >= TURN - EPS:
        return [(0.0, TURN)]
    start = low % TURN
    end = start + max(0.0, high - low)
    return _sewn([(start, end)] if end <= TURN else [(0.0, end - TURN), (start, TURN)])


def _sewn(parts: Bearings) -> Bearings:
    """In order, overlaps joined, and both ends of the circle there where one is."""
    if any(high >= TURN - EPS for _, high in parts):
        parts = [*parts, (0.0, 0.0)]
    if any(low <= EPS for low, _ in parts):
        parts = [*parts, (TURN, TURN)]
    joined: Bearings = []
    for low, high in sorted(parts):
        if joined and low <= joined[-1][1] + EPS:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return joined


def common(one: Bearings, other: Bearings) -> Bearings:
    """The angles in both; stretches that only touch share one angle."""
    parts = []
    for low, high in one:
        for start, end in other:
            first, last = max(low, start), min(high, end)
            if first <= last:
                parts.append((first, last))
            elif first <= last + EPS:
                parts.append(((first + last) / 2,) * 2)
    return _sewn(parts)


def without(whole: Bearings, low: float, high: float) -> Bearings:
    """What is left when the open stretch from `low` to `high` (less than a turn) is taken out; its two ends stay."""
    if high - low <= EPS:
        return whole
    start = low % TURN
    end = start + high - low
    holes = [(start, end)] if end < TURN - EPS else [(start, TURN + 1.0), (-1.0, end - TURN)]
    for first, last in holes:
        left: Bearings = []
        for begin, stop in whole:
            if begin <= first + EPS:
                left.append((begin, min(stop, max(begin, first))))
            if stop >= last - EPS:
                left.append((max(begin, min(stop, last)), stop))
        whole = left
    return _sewn(whole)


def nearest(parts: Bearings, wanted: float) -> float:
    """The angle of the set that is nearest to the wanted one, round the circle."""
    wanted %= TURN
    best, gap = parts[0][0], TURN
    for low, high in parts:
        if low <= wanted <= high:
            return wanted
        for end in (low, high):
            away = abs((end - wanted + pi) % TURN - pi)
            if away < gap:
                best, gap = end, away
    return best


def widest(parts: Bearings) -> tuple[float, float]:
    """The longest stretch, as (low, high) where high may pass a full turn."""
    whole = list(parts)
    first = next((part for part in whole if part[0] <= EPS), None)
    last = next((part for part in whole if part[1] >= TURN - EPS), None)
    if first and last and first != last:
        whole = [part for part in whole if part not in (first, last)] + [(last[0], TURN + first[1])]
    return max(whole, key=lambda part: part[1] - part[0])
