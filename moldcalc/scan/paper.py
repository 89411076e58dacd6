"""How a view of a surface is put on paper: outlined, hatched and numbered parts, arrows, a scale bar."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldcalc.scan import seeing
from moldcalc.scan.seeing import Loop, Seen
from moldcalc.units import System, show

Pieces = Sequence[Mapping[str, Any]]

LEFT_OVER = 255
INNER = 512  # added to a section's number where its inside is seen
INK, SOFT, PAPER = "#1f2328", "#59595f", "#fdfcf9"
BODY, OVER = "#f3f0e8", "#55555b"
#: Okabe and Ito's colours, dark enough for lines, and pale for grounds
COLOURS = (("#8a5f00", "#fbe9c4"), ("#24719e", "#d9effb"), ("#006146", "#cfe9df"), ("#8b4270", "#f4e2ed"),
           ("#6e6600", "#fbf7cb"), ("#005a8f", "#d3e4f0"), ("#973500", "#fbdccb"), ("#4d4d52", "#e6e6e8"))
#: slant of the lines and their distance; no two neighbours in number look alike without colour
HATCHES = ((45, 6), (-45, 6), (0, 5), (90, 5), (20, 9), (-20, 4), (70, 10))
#: unless the caller has others: angle of the outward normal from straight up, and its name
SLOPES: tuple[tuple[float, str], ...] = ((20, "lies flat"), (75, "slants"), (105, "upright"), (180, "hangs over"))
EDGE, FOOT = 18, 32
DISC = 8.5  # radius of the ground under a number
BARS = {"metric": [times * 10.0**power for power in range(-4, 3) for times in (1, 2, 5)],
        "us": [inches * 0.0254 for inches in (1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24, 36, 60, 120, 240, 600)]}
LAMP = np.array([-0.5, -0.62, 0.6])  # from where the light comes: right, down, towards the eye


@dataclass(frozen=True)
class Frame:
    """How the surface is laid on paper: its three axes, what lies in the middle, pixels to a metre, and the picture's size."""

    right: NDArray[np.float64]
    down: NDArray[np.float64]
    eye: NDArray[np.float64]
    middle: NDArray[np.float64]
    scale: float
    width: int
    height: int

    def laid(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Points in pixels: to the right, down, towards the eye."""
        found: NDArray[np.float64] = (points - self.middle) @ self.axes.T * self.scale + (self.width / 2, self.height / 2, 0)
        return found

    @property
    def axes(self) -> NDArray[np.float64]:
        """The three axes, one a row."""
        return np.stack([self.right, self.down, self.eye])


@dataclass(frozen=True)
class Scene:
    """Triangles to draw [m], the label of each, and which have slid off (their inside may be seen)."""

    vertices: NDArray[np.float64]
    faces: NDArray[np.int64]
    labels: NDArray[np.int64]
    gone: NDArray[np.bool_]


def foot_of(mode: str) -> int:
    """Room under a view: for the scale bar, and for what the numbers mean."""
    return FOOT + (18 if mode == "slope" else 0)


def n(number: float) -> str:
    """A coordinate: one decimal, no '-0', no '.0'."""
    text = f"{number:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def hatch(number: int) -> str:
    """The hatch of a label."""
    (slant, apart), (line, ground) = HATCHES[(number - 1) % len(HATCHES)], COLOURS[(number - 1) % len(COLOURS)]
    return (f'<pattern id="mc-hatch-part-{number}" width="{apart}" height="{apart}" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate({slant})"><rect width="{apart}" height="{apart}" fill="{ground}"/>'
            f'<line x1="0" y1="0" x2="0" y2="{apart}" stroke="{line}" stroke-width="1.1"/></pattern>')


def path(lines: Sequence[Loop], closed: bool = True) -> str:
    """The way of a pen along lines."""
    return "".join("M" + "L".join(f"{n(x)} {n(y)}" for x, y in line) + ("Z" if closed else "") for line in lines)


class Drawing:
    """One view of a scene."""

    def __init__(self, frame: Frame, scene: Scene, pieces: Pieces, mode: str, system: System) -> None:
        self.frame, self.scene, self.pieces, self.mode, self.system = frame, scene, pieces, mode, system
        laid = frame.laid(scene.vertices)
        a, b, c = (laid[scene.faces[:, corner]] for corner in range(3))
        # in these axes (right, down, towards the eye) a face that is wound outward and looks at the eye turns the other way
        self.normals = -np.cross(b - a, c - a)
        self.seen: Seen = seeing.seen(laid, scene.faces, frame.width, frame.height)
        name = scene.labels + np.where(scene.gone & (self.normals[:, 2] < 0), INNER, 0)
        self.key = np.where(self.seen.face >= 0, name[np.maximum(self.seen.face, 0)], -1)
        self.key[[0, -1]] = -1
        self.key[:, [0, -1]] = -1
        self.smooth = 0.0
        self._named()
        if mode == "slope":
            self.smoothed(4.0)  # a slope is a matter of the form, not of each lock of fur

    def smoothed(self, by: float) -> None:
        """Borders between parts smoothed over so many pixels: each sample goes to the part that most of what is round it has."""
        self.smooth = by
        covered = self.key >= 0
        if len(self.parts) > 1:
            size = int(by * seeing.FINE) | 1
            # rounded, so that an even vote falls the same way on every machine
            votes = [ndimage.uniform_filter(ndimage.uniform_filter((self.key == part).astype(float), size), size).round(6) for part in self.parts]
            self.key = np.where(covered, np.array(self.parts)[np.argmax(votes, axis=0)], -1)
        self._named()

    def _named(self) -> None:
        self.parts = [int(part) for part in np.unique(self.key) if part >= 0]
        self.used = [part for part in self.parts if 0 < part < LEFT_OVER]

    def hatches(self) -> str:
        """The hatches that this view needs."""
        return "".join(map(hatch, self.used))

    def drawn(self) -> str:
        """All of it, from the ground up."""
        body = [thin for loop in seeing.outlines(seeing.share(self.key >= 0)) if len(thin := seeing.thinned([*loop, loop[0]], 0.15)) > 3]
        return "".join([self._ground(), f'<path d="{path(body)}" fill="{BODY}"/>', *map(self._part, self.parts), self._shade(), self._steps(),
                        f'<path d="{path(body)}" fill="none" stroke="{INK}" stroke-width="1.9" stroke-linejoin="round"/>',
                        self._numbers(), self._foot()])

    def outline_area(self) -> float:
        """Area inside the traced outline, m²."""
        return sum(seeing.enclosed(loop) for loop in seeing.outlines(seeing.share(self.key >= 0))) / self.frame.scale**2

    def _part(self, part: int) -> str:
        if part == 0:
            return ""
        loops = [loop for loop in seeing.outlines(seeing.share(self.key == part)) if abs(seeing.enclosed(loop)) > 2 + self.smooth**2]
        if not loops:
            return ""
        if part == LEFT_OVER:
            fill = f'fill="{OVER}"'
        else:
            fill = f'fill="{COLOURS[(part - INNER - 1) % len(COLOURS)][1]}"' if part > INNER else f'fill="url(#mc-hatch-part-{part})"'
        return (f'<path d="{path([seeing.thinned([*loop, loop[0]]) for loop in loops])}" {fill} fill-rule="evenodd" '
                f'stroke="{INK}" stroke-width="1.1" stroke-linejoin="round"/>')

    def _shade(self) -> str:
        """One tone over what lies away from the light, so that the form is read."""
        size = np.linalg.norm(self.normals, axis=1)
        lit = (self.normals @ (LAMP / np.linalg.norm(LAMP))) / np.where(size > 0, size, 1)
        lit = np.where((self.normals[:, 2] < 0), -lit, lit)
        covered = self.key >= 0
        light = np.where(covered, lit[np.maximum(self.seen.face, 0)], 1.0)
        light = ndimage.uniform_filter(light, 9 + 4 * int(self.smooth), mode="nearest").round(6)
        loops = [loop for loop in seeing.outlines(seeing.share(covered & (light < 0.12))) if abs(seeing.enclosed(loop)) > 60]
        return f'<path d="{path([seeing.thinned([*loop, loop[0]], 0.5) for loop in loops])}" fill="{INK}" fill-opacity=".13"/>' if loops else ""

    def _steps(self) -> str:
        """Lines where a nearer part ends before one behind it."""
        lines = seeing.steps(self.seen.near, self.key, (0.02 + 0.01 * self.smooth) * max(self.frame.width, self.frame.height))
        thin = path([seeing.thinned(line, 0.3) for line in lines], closed=False)
        return f'<path d="{thin}" fill="none" stroke="{INK}" stroke-width="1.3" stroke-linecap="round"/>' if thin else ""

    # numbers and arrows -----------------------------------------------------------------------------------------
    def _numbers(self) -> str:
        """A number in each part that is seen, deepest inside it; beside the body, with a line, where a part is too small."""
        if self.mode == "plain":
            return ""
        drawn, beside = [], []
        least = 0.004 * int((self.key >= 0).sum())
        by_number = {int(piece["number"]): piece for piece in self.pieces}
        for part in self.parts:
            number = part % INNER
            if not 0 < number < LEFT_OVER or (part > INNER and number in self.parts):
                continue
            spots, count = ndimage.label(self.key == part)
            sizes = ndimage.sum_labels(np.ones_like(spots), spots, np.arange(1, count + 1)) if count else np.zeros(0)
            for rank, (place, area) in enumerate(sorted(enumerate(sizes.tolist(), 1), key=lambda one: (-one[1], one[0]))[:3]):
                largest = rank == 0
                if area < least and not (largest and area >= 4):
                    continue
                deep = ndimage.distance_transform_edt(spots == place)
                row, column = np.unravel_index(int(deep.argmax()), deep.shape)
                x, y = (float(column) + 0.5) / seeing.FINE, (float(row) + 0.5) / seeing.FINE
                if deep.max() >= DISC * seeing.FINE * 0.8:
                    drawn.append((self._arrow(by_number.get(number), x, y) if largest else "") + disc(x, y, number))
                elif largest:
                    beside.append((x, y, number))
        return "".join(drawn) + self._beside(beside)

    def _beside(self, numbers: list[tuple[float, float, int]]) -> str:
        """Numbers of small parts, in a column on the nearer side of the picture."""
        drawn = []
        for left in (True, False):
            last = 0.0
            for x, y, number in sorted((one for one in numbers if (one[0] < self.frame.width / 2) == left), key=lambda one: one[1:]):
                last = min(max(y, last + 2 * DISC + 3), self.frame.height - DISC - 1)
                at = DISC + 2 if left else self.frame.width - DISC - 2
                drawn.append(f'<path d="M{n(at)} {n(last)}L{n(x)} {n(y)}" stroke="{INK}" stroke-width=".8"/>'
                             f'<circle cx="{n(x)}" cy="{n(y)}" r="1.6" fill="{INK}"/>{disc(at, last, number)}')
        return "".join(drawn)

    def _arrow(self, piece: Mapping[str, Any] | None, x: float, y: float) -> str:
        """The way off of a section from its number; a dot in a ring comes towards the eye, a cross goes away."""
        if self.mode != "sections" or piece is None or piece.get("pull") is None:
            return ""
        pull = self.frame.axes @ np.asarray(piece["pull"], np.float64)
        size = float(np.linalg.norm(pull))
        if not size > 0:
            return ""
        across, along, near = (pull / size).tolist()
        flat = float(np.hypot(across, along))
        if flat < 0.3:
            ring = f'<circle cx="{n(x)}" cy="{n(y + 15)}" r="5" fill="#fff" stroke="{INK}" stroke-width="1.2"/>'
            if near > 0:
                return f'{ring}<circle cx="{n(x)}" cy="{n(y + 15)}" r="1.7" fill="{INK}"/>'
            return f'{ring}<path d="M{n(x - 3)} {n(y + 12)}l6 6m0 -6l-6 6" stroke="{INK}" stroke-width="1.2"/>'
        long = 14 + 30 * flat
        ux, uy = across / flat, along / flat
        start, tip = (x + ux * DISC, y + uy * DISC), (x + ux * long, y + uy * long)
        wings = [(tip[0] - 8 * ux + side * 3.6 * uy, tip[1] - 8 * uy - side * 3.6 * ux) for side in (1, -1)]
        shaft = f'M{n(start[0])} {n(start[1])}L{n(tip[0] - 6 * ux)} {n(tip[1] - 6 * uy)}'
        return (f'<path d="{shaft}" stroke="#fff" stroke-width="4.5"/><path d="{shaft}" stroke="{INK}" stroke-width="1.8"/>'
                f'<path d="{path([[tip, *wings]])}" fill="{INK}" stroke="#fff" stroke-width=".6"/>')

    # board and scale ---------------------------------------------------------------------------------------------
    def _ground(self) -> str:
        if abs(self.frame.eye[2]) > 1e-9:
            return ""
        y = self.frame.laid(np.zeros((1, 3)))[0, 1]
        if not 0 < y < self.frame.height - foot_of(self.mode) + 12:
            return ""
        return f'<path d="M4 {n(y)}H{self.frame.width - 4}" stroke="{SOFT}" stroke-width="1"/>'

    def _foot(self) -> str:
        """The scale bar, and in the slope mode what the numbers mean."""
        room = 0.42 * self.frame.width / self.frame.scale
        length = max((bar for bar in BARS[self.system] if bar <= room), default=room)
        wide, y = length * self.frame.scale, self.frame.height - foot_of(self.mode) + FOOT - 12
        bar = (f'<path d="M{EDGE} {y - 4}v8m0 -4h{n(wide)}m0 -4v8" fill="none" stroke="{INK}" stroke-width="1.2"/>'
               f'<text x="{n(EDGE + wide + 6)}" y="{y + 4}" font-size="12" fill="{INK}">{escape(show(length, "mm", self.system))}</text>')
        if self.mode != "slope":
            return bar
        words = ", ".join(f"{place} {name}" for place, (_, name) in enumerate(SLOPES, 1))
        return f'{bar}<text x="{EDGE}" y="{y + 22}" font-size="12" fill="{INK}">{escape(words)}</text>'


def disc(x: float, y: float, number: int) -> str:
    """A number on a white ground."""
    half = DISC + 3.4 * (len(str(number)) - 1)
    return (f'<rect x="{n(x - half)}" y="{n(y - DISC)}" width="{n(2 * half)}" height="{n(2 * DISC)}" rx="{DISC}" fill="#fff" stroke="{INK}"/>'
            f'<text x="{n(x)}" y="{n(y + 4.3)}" font-size="12" font-weight="700" text-anchor="middle" fill="{INK}">{number}</text>')
