"""A surface thinned out for the picture: fewer triangles, the same labels. Nothing is calculated on what comes out of here."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Body

MOST = 80_000
#: above this many triangles corners are gathered in cells, which is quicker than taking edges out one by one
QUICK = 1_000_000
NEAR = 6  # triangles of the whole surface that a triangle of the picture asks for its label
ROUNDS = 12


@dataclass(frozen=True)
class Shown:
    """What a picture needs: vertices (n, 3) float32 [m], faces (m, 3) uint32, and a label a face, uint8."""

    vertices: NDArray[np.float32]
    faces: NDArray[np.uint32]
    labels: NDArray[np.uint8]


def for_picture(body: Body, labels: NDArray[np.uint8] | None = None, most: int = MOST) -> Shown:
    """The surface with at most so many triangles.

    Parameters
    ----------
    body
        The surface. [m]
    labels
        Number of each triangle's section or pocket, 0 none, 255 left over; None for all 0.
    most
        Triangles at most, at least 4.

    Returns
    -------
    Vertices, faces and labels of the picture. A surface that is small enough comes back as it is.

    Raises
    ------
    EntryError
        Fewer than 4 triangles asked for, or not one label a triangle.

    Notes
    -----
    Range: any surface; the picture's outline moves by about one of its triangles' sides.
    Source: edges are taken out by quadric error (Garland and Heckbert 1997, through fast_simplification); above a million triangles, or where
    that gets stuck, corners are gathered in cubic cells (Rossignac and Borrel 1993). A triangle's label is the one that most of the area
    nearest to it on the whole surface has.
    """
    count = len(body.faces)
    if most < 4:
        raise EntryError(Fault("Triangles in the picture", str(most), "at least 4 are needed"))
    given = np.zeros(count, np.uint8) if labels is None else np.asarray(labels).astype(np.uint8)
    if given.shape != (count,):
        raise EntryError(Fault("The number of labels", str(given.size), f"each of the {count} triangles needs one"))
    if count <= most:
        return Shown(body.vertices.astype(np.float32), body.faces.astype(np.uint32), given)
    vertices, faces = (body.vertices, body.faces) if count > QUICK else simplified(body, most)
    if len(faces) > most:
        vertices, faces = gathered(vertices, faces, most)
    return Shown(vertices.astype(np.float32), faces.astype(np.uint32), carried(body, given, vertices, faces))


def simplified(body: Body, most: int) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Edges taken out until so many triangles are left, or it gets stuck."""
    import fast_simplification

    vertices, faces = fast_simplification.simplify(body.vertices.astype(np.float32), body.faces.astype(np.int32), target_count=most)
    return np.asarray(vertices, np.float64), np.asarray(faces, np.int64)


def gathered(vertices: NDArray[np.float64], faces: NDArray[np.int64], most: int) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """All corners in a cubic cell become their middle; the finest cells that leave few enough triangles."""
    low = vertices.min(axis=0)
    size = float((vertices.max(axis=0) - low).max()) or 1.0
    fits, coarse, fine = None, 1.0, 2.0**11  # cells along the longest side
    for _ in range(ROUNDS):
        cells = (coarse * fine) ** 0.5
        found = _in_cells(vertices, faces, low, size / cells)
        if len(found[1]) <= most:
            fits, coarse = found, cells
        else:
            fine = cells
    return fits if fits is not None else _in_cells(vertices, faces, low, size * 1.01)


def _in_cells(vertices: NDArray[np.float64], faces: NDArray[np.int64], low: NDArray[np.float64],
              cell: float) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    place = np.floor((vertices - low) / cell).astype(np.int64)
    wide = place.max(axis=0) + 1
    _, of = np.unique((place[:, 0] * wide[1] + place[:, 1]) * wide[2] + place[:, 2], return_inverse=True)
    of = of.reshape(-1)
    members = np.bincount(of)
    middles = np.stack([np.bincount(of, vertices[:, axis]) / members for axis in range(3)], axis=1)
    moved = of[faces]
    kept = moved[(moved[:, 0] != moved[:, 1]) & (moved[:, 1] != moved[:, 2]) & (moved[:, 2] != moved[:, 0])]
    # the same three corners twice are one triangle, or a fold that has closed
    _, first = np.unique(np.sort(kept, axis=1), axis=0, return_index=True)
    return middles, kept[np.sort(first)]


def carried(body: Body, labels: NDArray[np.uint8], vertices: NDArray[np.float64], faces: NDArray[np.int64]) -> NDArray[np.uint8]:
    """Labels of the whole surface on the thinned-out one, by the area of the nearest triangles that face the same way."""
    if not len(faces) or not labels.any():
        return np.zeros(len(faces), np.uint8)
    corners = vertices[faces]
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    vectors = body.area_vectors
    _, near = cKDTree(body.corners.mean(axis=1)).query(corners.mean(axis=1), k=min(NEAR, len(labels)))
    near = near.reshape(len(faces), -1)
    facing = np.einsum("mi,mki->mk", across, vectors[near]) > 0
    weight = np.linalg.norm(vectors[near], axis=2) * np.where(facing, 1.0, 1e-6)
    votes = np.zeros((len(faces), 256))
    np.add.at(votes, (np.arange(len(faces))[:, None], labels[near]), weight)
    most: NDArray[np.uint8] = votes.argmax(axis=1).astype(np.uint8)
    return most
