"""The directions a section may be pulled in: a few hundred, even, and the same on both sides of every axis plane."""

import numpy as np

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Points


def directions(steps: int = 9) -> Points:
    """Unit vectors spread over all directions, 4 steps² + 2 of them, with the six axes among them.

    Parameters
    ----------
    steps
        Into how many parts each edge of an octahedron is divided; multiples of 3 hold the eight corner diagonals too.

    Returns
    -------
    Unit vectors, (4 steps² + 2, 3); those that point up first.

    Raises
    ------
    EntryError
        Fewer than 1 or more than 40 steps.

    Notes
    -----
    Range: 9 steps are 326 directions about 11 degrees apart. The set is its own mirror image in x = 0, y = 0 and z = 0 and holds the opposite
    of every direction in it.
    Source: an octahedron's faces divided evenly and pushed out onto the sphere.

    Examples
    --------
    >>> directions(9).shape
    (326, 3)
    """
    if not 1 <= steps <= 40:
        raise EntryError(Fault("the steps of the directions", str(steps), "they must be from 1 to 40"))
    span = np.arange(-steps, steps + 1)
    x, y = (part.ravel() for part in np.meshgrid(span, span, indexing="ij"))
    z = steps - abs(x) - abs(y)
    up = np.stack([x, y, z], axis=1)[z >= 0].astype(np.float64)
    down = up[up[:, 2] > 0] * [1, 1, -1]
    every = np.concatenate([up, down])
    # evener than the flat division: equal angles along the octahedron's edges, as nearly as one formula gives them
    bent = np.sign(every) * np.sin(np.abs(every) / steps * np.pi / 2)
    unit: Points = bent / np.linalg.norm(bent, axis=1)[:, None]
    return unit[np.lexsort((unit[:, 0], unit[:, 1], -unit[:, 2]))]


def unit(vector: Points) -> Points:
    """A direction the maker names, made one long; refused when it has no length."""
    given = np.asarray(vector, dtype=np.float64)
    length = np.linalg.norm(given)
    if given.shape != (3,) or not np.isfinite(length) or length <= 0:
        raise EntryError(Fault("the pull", str(vector), "it must be three numbers that are not all 0"))
    made: Points = given / length
    return made


def round_about(direction: Points, spread: float = 0.12, rings: int = 2) -> Points:
    """Directions on rings round one, six on each and half turned from ring to ring, the outermost `spread` off. [rad]"""
    along = unit(direction)
    side = np.cross(along, np.eye(3)[np.abs(along).argmin()])
    side /= np.linalg.norm(side)
    other = np.cross(along, side)
    turned = []
    for ring in range(1, rings + 1):
        off = spread * ring / rings
        for step in range(6):
            angle = np.pi / 3 * (step + 0.5 * (ring % 2))
            turned.append(np.cos(off) * along + np.sin(off) * (np.cos(angle) * side + np.sin(angle) * other))
    return np.array(turned)
