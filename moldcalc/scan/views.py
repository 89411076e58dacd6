"""Still pictures of a surface from its sides: hidden parts left out, sections hatched and numbered, to scale, black and white will do."""

from collections.abc import Sequence
from html import escape
from math import asin, atan2, degrees, isfinite
from typing import Any

import numpy as np
from numpy.typing import NDArray

from moldcalc.errors import EntryError, Fault
from moldcalc.scan.body import Body
from moldcalc.scan.paper import EDGE, FOOT, INK, LEFT_OVER, SLOPES, Drawing, Frame, Pieces, Scene, foot_of, hatch
from moldcalc.units import System, show

#: the way the viewer looks
VIEWS: dict[str, tuple[float, float, float]] = {
    "front": (0, 1, 0), "left": (1, 0, 0), "back": (0, -1, 0), "right": (-1, 0, 0), "top": (0, 0, -1),
}
MODES = {"sections": "Sections", "pockets": "Pockets", "slope": "Slopes", "plain": "The surface"}
MOST_BYTES = 58_000
AWAY = 0.4  # of the body's diagonal: how far out a section has slid

Solid = Body | tuple[NDArray[Any], NDArray[Any]]


def still(body: Solid, labels: NDArray[Any] | None = None, *, view: str | Sequence[float] = "front", pieces: Pieces = (), mode: str = "sections",
          apart: float = 0.0, width: int = 340, system: System = "metric") -> str:
    """One still picture, as SVG.

    Parameters
    ----------
    body
        The surface, or its vertices [m] and faces.
    labels
        Number of each triangle's section or pocket, 0 none, 255 left over. Not needed in the modes 'slope' and 'plain'.
    view
        One of `VIEWS`, or the way the viewer looks as a vector.
    pieces
        For each section or pocket its number, name, pull, order (as the turnable picture takes them).
    mode
        'sections', 'pockets', 'slope' or 'plain'.
    apart
        0 together to 1 all off; each section slides along its pull in its turn.
    width
        Of the picture. [px]
    system
        For the scale bar.

    Returns
    -------
    SVG text, the same for the same surface on every run.

    Raises
    ------
    EntryError
        No triangles, coordinates that are no numbers, labels too few or too many, an unknown view or mode.

    Notes
    -----
    Range: details under about a pixel are not drawn. Source: own drawing, checked against areas known in closed form.
    """
    scene = scene_of(body, labels, mode, pieces, apart)
    frame = frame_of(scene.vertices, view, width, foot=foot_of(mode))
    drawing = Drawing(frame, scene, pieces, mode, system)
    drawn = within(drawing, MOST_BYTES)
    return _page(frame.width, frame.height, _said(mode, view, apart, scene.labels), drawing.hatches(), drawn)


def views_sheet(body: Solid, labels: NDArray[Any] | None = None, *, pieces: Pieces = (), mode: str = "sections", width: int = 680,
                system: System = "metric", views: Sequence[str] = ("front", "right", "back", "top")) -> str:
    """Four sides of the surface on one sheet at one scale, as SVG; entries as for `still`."""
    scene = scene_of(body, labels, mode)
    each = width // 2
    scale = min(frame_of(scene.vertices, view, each, foot=foot_of(mode)).scale for view in views)
    drawings = [Drawing(frame_of(scene.vertices, view, each, scale, foot_of(mode)), scene, pieces, mode, system) for view in views]
    texts = [within(drawing, MOST_BYTES // len(views)) for drawing in drawings]
    parts, top = [], 0
    for first in range(0, len(drawings), 2):
        pair = drawings[first : first + 2]
        tall = max(one.frame.height for one in pair)
        for place, one in enumerate(pair):
            parts.append(f'<g transform="translate({each * place} {top + 18 + tall - one.frame.height})">{texts[first + place]}</g>'
                         f'<text x="{each * place + EDGE}" y="{top + 15}" font-size="14" font-weight="700" fill="{INK}">'
                         f'{escape(views[first + place].capitalize())}</text>')
        top += tall + 24
    used = {hatch for one in drawings for hatch in one.used}
    hatches = "".join(hatch(number) for number in sorted(used))
    return _page(width, top, _said(mode, "four sides", 0.0, scene.labels), hatches, "".join(parts))


def within(drawing: Drawing, most: int) -> str:
    """The drawing in at most so many bytes where that can be: on a surface that is all ups and downs the smallest parts are smoothed away."""
    drawn = drawing.drawn()
    for smooth in (3.0, 6.0, 12.0):
        if len(drawn.encode()) <= most:
            break
        drawing.smoothed(smooth)
        drawn = drawing.drawn()
    return drawn


def slope_labels(body: Solid, bands: Sequence[tuple[float, str]] = SLOPES) -> NDArray[np.uint8]:
    """The band, counted from 1, that each triangle's slope falls in: the angle of its outside from straight up, in degrees."""
    vertices, faces = _arrays(body)
    vectors = Body(vertices, faces).area_vectors
    size = np.linalg.norm(vectors, axis=1)
    angle = np.degrees(np.arccos(np.clip(vectors[:, 2] / np.where(size > 0, size, 1), -1, 1)))
    # half a millionth of a degree belongs to the band before, so that a wall that is upright but for rounding stays one
    found: NDArray[np.uint8] = (np.searchsorted([upto for upto, _ in bands[:-1]], angle - 5e-7) + 1).astype(np.uint8)
    return found


# words ----------------------------------------------------------------------------------------------------------
def way(pull: Sequence[float]) -> str:
    """A direction as one says it beside the original: 'to the front left, 20° up'."""
    x, y, z = (float(value) for value in pull)
    size = (x * x + y * y + z * z) ** 0.5
    if not (isfinite(size) and size > 0):
        return "no way off"
    rise = round(degrees(asin(max(-1.0, min(1.0, z / size)))))
    if abs(rise) >= 80:
        return "straight up" if rise > 0 else "straight down"
    round_ = degrees(atan2(x, -y)) % 360
    side = ("front", "front right", "right", "back right", "back", "back left", "left", "front left")[round(round_ / 45) % 8]
    return f"to the {side}" + (f", {abs(rise)}° {'up' if rise > 0 else 'down'}" if rise else "")


def pieces_rows(pieces: Pieces, system: System = "metric") -> tuple[list[str], list[list[str]]]:
    """Heads and rows that say what the picture shows: number, name, turn, way off, and area, mass and neighbours where a piece has them."""
    columns = [("no.", lambda one: str(one["number"])), ("name", lambda one: str(one.get("name", ""))),
               ("comes off", lambda one: str(one["order"]) if one.get("order") else ""),
               ("way off", lambda one: way(one["pull"]) if one.get("pull") else ""),
               ("area", lambda one: show(one["area"], "m²", system) if "area" in one else ""),
               ("mass", lambda one: show(one["mass"], "kg", system) if "mass" in one else ""),
               ("volume", lambda one: show(one["volume"], "L", system) if "volume" in one else ""),
               ("touches", lambda one: ", ".join(str(other) for other in one.get("touches", ())))]
    rows = [[say(one) for _, say in columns] for one in pieces]
    kept = [place for place in range(len(columns)) if place < 2 or any(row[place] for row in rows)]
    return [columns[place][0] for place in kept], [[row[place] for place in kept] for row in rows]


def pieces_table(pieces: Pieces, system: System = "metric") -> str:
    """The pieces as a table of plain text, for who can't see the picture.

    Examples
    --------
    >>> print(pieces_table([{"number": 1, "name": "front", "pull": (0, -1, 0), "order": 2},
    ...                     {"number": 2, "name": "back", "pull": (0, 2, 1), "order": 1}]))
    no.  name   comes off  way off
    1    front  2          to the front
    2    back   1          to the back, 27° up
    """
    heads, rows = pieces_rows(pieces, system)
    wide = [max(len(line[place]) for line in [heads, *rows]) for place in range(len(heads))]
    return "\n".join("  ".join(cell.ljust(size) for cell, size in zip(line, wide, strict=True)).rstrip() for line in [heads, *rows])


def _said(mode: str, view: str | Sequence[float], apart: float, labels: NDArray[np.int64]) -> str:
    numbers = [str(number) for number in np.unique(labels).tolist() if number not in (0, LEFT_OVER)]
    named = {"four sides": "from four sides", "top": "from the top"}.get(str(view), f"from the {view}" if isinstance(view, str) else "seen aslant")
    listed = f" {', '.join(numbers)}" if numbers and mode in ("sections", "pockets") else ""
    return f"{MODES[mode]}{listed} {named}{', slid apart' if apart > 0 and mode == 'sections' else ''}"


# what comes in ---------------------------------------------------------------------------------------------------
def _arrays(body: Solid) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    vertices, faces = (body.vertices, body.faces) if isinstance(body, Body) else body
    return np.asarray(vertices, np.float64), np.asarray(faces, np.int64)


def _checked(body: Solid, labels: NDArray[Any] | None, mode: str) -> tuple[NDArray[np.float64], NDArray[np.int64], NDArray[np.uint8]]:
    vertices, faces = _arrays(body)
    if mode not in MODES:
        raise EntryError(Fault("The picture's mode", repr(mode), f"there are {', '.join(MODES)}"))
    if not len(faces):
        raise EntryError(Fault("The surface", "without triangles", "there is nothing to draw"))
    if not np.isfinite(vertices).all():
        raise EntryError(Fault("The surface", "not a number somewhere", "every coordinate must be finite"))
    if mode == "slope":
        return vertices, faces, slope_labels((vertices, faces))
    given = np.zeros(len(faces), np.uint8) if labels is None or mode == "plain" else np.asarray(labels).astype(np.uint8)
    if given.shape != (len(faces),):
        raise EntryError(Fault("The number of labels", str(given.size), f"each of the {len(faces)} triangles needs one"))
    return vertices, faces, given


def scene_of(body: Solid, labels: NDArray[Any] | None, mode: str, pieces: Pieces = (), apart: float = 0.0) -> Scene:
    """What is drawn (entries as for `still`): the surface, or its sections slid along their pulls with the plain body where they came from."""
    vertices, faces, given = _checked(body, labels, mode)
    still_there = Scene(vertices, faces, given.astype(np.int64), np.zeros(len(faces), bool))
    pulled = [piece for piece in pieces if piece.get("pull") is not None and np.any(piece["pull"])]
    if apart <= 0 or not pulled or mode != "sections":
        return still_there
    orders = sorted({piece["order"] for piece in pulled})
    long = float(np.linalg.norm(np.ptp(vertices[np.unique(faces)], axis=0))) * AWAY
    shift = np.zeros((256, 3))
    for piece in pulled:
        pull = np.asarray(piece["pull"], np.float64)
        part = min(1.0, max(0.0, apart * len(orders) - orders.index(piece["order"])))
        shift[piece["number"]] = pull / np.linalg.norm(pull) * long * part
    corners = (vertices[faces] + shift[given][:, None, :]).reshape(-1, 3)
    own = np.arange(len(corners)).reshape(-1, 3)
    # where two lie at the same place the one that is named first is seen
    return Scene(np.concatenate([corners, vertices]), np.concatenate([own, faces + len(corners)]),
                 np.concatenate([given.astype(np.int64), np.zeros(len(faces), np.int64)]),
                 np.concatenate([(shift[given] != 0).any(axis=1), np.zeros(len(faces), bool)]))


def frame_of(vertices: NDArray[np.float64], view: str | Sequence[float], width: int, scale: float | None = None, foot: int = FOOT) -> Frame:
    """How a view of corners [m] is laid on paper of this width; at `scale` pixels to a metre, or as large as fits."""
    if isinstance(view, str) and view not in VIEWS:
        raise EntryError(Fault("The view", repr(view), f"there are {', '.join(VIEWS)}"))
    looks = np.asarray(VIEWS[view] if isinstance(view, str) else view, np.float64)
    if looks.shape != (3,) or not np.isfinite(looks).all() or not looks.any():
        raise EntryError(Fault("The view", str(view), "it is a direction of three numbers, not all 0"))
    eye = -looks / np.linalg.norm(looks)
    right = np.array([-eye[1], eye[0], 0.0])
    right = np.array([1.0, 0, 0]) if np.hypot(*right[:2]) < 1e-9 else right / np.hypot(*right[:2])
    down = -np.cross(eye, right)
    laid = vertices @ np.stack([right, down, eye]).T
    low, high = laid.min(axis=0), laid.max(axis=0)
    wide, tall = (max(float(high[axis] - low[axis]), 1e-12) for axis in (0, 1))
    fit = min((width - 2 * EDGE - 20) / wide, (1.25 * width - EDGE - foot) / tall)
    scale = fit if scale is None else scale
    # a whole number of pixels, and two over so that marching squares find their rim
    height = int(np.ceil(tall * scale / 2)) * 2 + EDGE + foot
    middle = (low + high) / 2
    middle[1] += (foot - EDGE) / 2 / scale
    return Frame(right, down, eye, middle @ np.stack([right, down, eye]), scale, width, height)


# what goes out ---------------------------------------------------------------------------------------------------
def _page(width: float, height: float, said: str, hatches: str, drawn: str) -> str:
    defs = f"<defs>{hatches}</defs>" if hatches else ""
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" width="{width:g}" height="{height:g}" role="img" '
            f'aria-label="{escape(said)}" font-family="system-ui, sans-serif">{defs}{drawn}</svg>')
