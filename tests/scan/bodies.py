"""Bodies of triangles that the tests of the grid share."""

import numpy as np
import trimesh

from moldcalc.scan.body import Body


def body_of(mesh, up=(0, 0, 0)):
    """A mesh as a body, moved."""
    return Body(np.asarray(mesh.vertices, float) + up, np.asarray(mesh.faces, np.int64))


def ball(radius, centre=(0, 0, 0), fineness=4):
    """A sphere; each step of fineness has four times the triangles."""
    return body_of(trimesh.creation.icosphere(fineness, radius), centre)


def box(extents, centre=(0, 0, 0)):
    """A box of 12 triangles."""
    return body_of(trimesh.creation.box(extents), centre)


def ring(radius, tube, centre=(0, 0, 0)):
    """A torus about the z axis."""
    return body_of(trimesh.creation.torus(radius, tube, major_sections=96, minor_sections=64), centre)


def together(*bodies):
    """Several bodies as one surface."""
    starts = np.cumsum([0] + [len(body.vertices) for body in bodies])
    return Body(np.concatenate([body.vertices for body in bodies]),
                np.concatenate([body.faces + start for body, start in zip(bodies, starts[:-1], strict=True)]))


def without(body, gone):
    """A body with some of its triangles taken away."""
    return Body(body.vertices, body.faces[~gone])
