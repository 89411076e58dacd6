"""Bodies of known size and ways to write them to a file, by hand: (points, faces) of any number of corners."""

import struct
from math import sqrt

#: a corner cut off a unit cube: volume 1/6, three faces of 1/2 and one of sqrt(3)/2
CORNER = [(0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)], [(0, 2, 1), (0, 1, 3), (0, 3, 2), (1, 2, 3)]
CORNER_SIZE = 1 / 6, 1.5 + sqrt(3) / 2
#: a box of 1 x 2 x 3 by six faces of four corners: volume 6, area 22
BOX = ([(x, y, z) for x in (0, 1) for y in (0, 2) for z in (0, 3)],
       [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)])
BOX_SIZE = 6, 22
#: the same with a roof: a prism on a house of five corners, 1 wide, 1 + 1/2 high, 2 long; volume 2.5, faces of 3, 4 and 5 corners
HOUSE = ([(0, 0, 0), (1, 0, 0), (1, 0, 1), (0.5, 0, 1.5), (0, 0, 1), (0, 2, 0), (1, 2, 0), (1, 2, 1), (0.5, 2, 1.5), (0, 2, 1)],
         [(0, 1, 2, 3, 4), (9, 8, 7, 6, 5), (0, 5, 6, 1), (1, 6, 7, 2), (2, 7, 8), (2, 8, 3), (3, 8, 9, 4), (4, 9, 5, 0)])
HOUSE_SIZE = 2.5, 2 * 1.25 + 2 * (1 + 1 + 1) + 2 * 2 * sqrt(0.5)
BODIES = [(CORNER, CORNER_SIZE), (BOX, BOX_SIZE), (HOUSE, HOUSE_SIZE)]


def rows(points, before=""):
    return "".join(f"{before}{' '.join(str(n) for n in row)}\n" for row in points)


def as_obj(points, faces):
    return rows(points, "v ") + rows([[n + 1 for n in face] for face in faces], "f ")


def as_counted_back(points, faces):
    return rows(points, "v ") + rows([[n - len(points) for n in face] for face in faces], "f ")


def as_off(points, faces):
    return f"OFF\n{len(points)} {len(faces)} 0\n" + rows(points) + rows([[len(face), *face] for face in faces])


def ply_head(points, faces, order="ascii"):
    return (f"ply\nformat {order} 1.0\ncomment nothing\nelement vertex {len(points)}\nproperty float x\nproperty float y\nproperty float z\n"
            f"element face {len(faces)}\nproperty list uchar int vertex_indices\nend_header\n")


def as_text_ply(points, faces):
    return ply_head(points, faces) + rows(points) + rows([[len(face), *face] for face in faces])


def as_ply(points, faces, big=False):
    order = ">" if big else "<"
    return (ply_head(points, faces, f"binary_{'big' if big else 'little'}_endian").encode()
            + b"".join(struct.pack(order + "3f", *point) for point in points)
            + b"".join(struct.pack(f"{order}B{len(face)}i", len(face), *face) for face in faces))


def as_big_ply(points, faces):
    return as_ply(points, faces, big=True)


def as_text_stl(points, faces):
    return "solid facet vertex 1\n" + "".join(
        "facet normal 0 0 0\n outer loop\n" + rows([points[n] for n in face], "  vertex ") + " endloop\nendfacet\n" for face in faces) + "endsolid\n"
