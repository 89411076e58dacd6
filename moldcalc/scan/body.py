"""What the rooms of the scan hand each other: a surface of triangles, and a body on a grid."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
Faces = NDArray[np.int64]


@dataclass(frozen=True)
class Body:
    """A surface of triangles in metres: z points up, the board is the plane z = 0.

    `vertices` is (n, 3), `faces` (m, 3) indices into it, wound so that normals point outward.
    """

    vertices: Points
    faces: Faces

    @property
    def corners(self) -> Points:
        """The corners of every triangle, (m, 3, 3)."""
        corners: Points = self.vertices[self.faces]
        return corners

    @property
    def area_vectors(self) -> Points:
        """Normal of every triangle times its area, (m, 3)."""
        corners = self.corners
        crossed: Points = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) / 2
        return crossed


@dataclass(frozen=True)
class Grid:
    """A body on cubic cells: the signed distance of every cell's centre to its surface in metres, negative inside.

    `distance` is (nx, ny, nz); the centre of cell [0, 0, 0] lies at `origin`. Cells reach at least `margin` beyond the body.
    """

    origin: Points
    cell: float
    distance: NDArray[np.float32]

    @property
    def inside(self) -> NDArray[np.bool_]:
        """Which cells have their centre inside the body."""
        inside: NDArray[np.bool_] = self.distance < 0
        return inside
