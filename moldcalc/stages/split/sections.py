"""What dividing an outline gives: arcs, notches, seams, and how they are said."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, degrees, pi, sin

from moldcalc.stages.split.outline import Outline, Piece, Point
from moldcalc.units import show


@dataclass(frozen=True)
class Arc:
    """A part of an outline that one section covers. Angles are counted from 'across' counterclockwise; 90 degrees is up. [m, rad]

    `low` to `high` are the directions along which it can leave with the draft asked for, `pull` the one with the most, `draft` that most.
    """

    start: Point
    end: Point
    length: float
    low: float
    high: float
    pull: float
    draft: float


@dataclass(frozen=True)
class Notch:
    """What has to be filled because nothing can leave it: the lid's ends and the area in the outline's plane. [m, m²]"""

    start: Point
    end: Point
    area: float


@dataclass(frozen=True)
class Seam:
    """Where two arcs meet: the place, the angle at which the flange stands there, and the arc that has to leave first (None: either). [m, rad]"""

    place: Point
    arcs: tuple[int, int]
    flange: float
    first: int | None


@dataclass(frozen=True)
class OutlineSplit:
    """One outline divided: its arcs in order round it, what is filled, the seams, the order of leaving in rounds."""

    name: str
    draft: float
    arcs: tuple[Arc, ...]
    notches: tuple[Notch, ...]
    seams: tuple[Seam, ...]
    rounds: tuple[tuple[int, ...], ...]
    pieces: tuple[Piece, ...]

    @property
    def fill_area(self) -> float:
        """Of all the notches. [m²]"""
        return sum(notch.area for notch in self.notches)

    @property
    def said(self) -> str:
        """One sentence for the reader."""
        count = len(self.arcs)
        way = f"{self.name}: {count} section{'s' * (count != 1)}, least draft {show(min(arc.draft for arc in self.arcs), '°')}"
        if not self.notches:
            return f"{way}, nothing to fill."
        many = len(self.notches)
        return f"{way}, {many} notch{'es' * (many != 1)} to fill ({show(self.fill_area, 'cm²')} in this outline)."


@dataclass(frozen=True)
class Profiles:
    """Two to six outlines divided, the most sections that any of them needs, and what outlines can't tell."""

    outlines: tuple[OutlineSplit, ...]
    most: int
    unseen: tuple[str, ...]


def unseen(outlines: Sequence[Outline], narrowest: float = 0.0) -> tuple[str, ...]:
    """What outlines can't tell, in sentences."""
    said = [
        "An outline shows only what stands out against the light: an eye, a navel or a fold inside it is not seen, and may lock.",
        "Nothing is known of pulls toward the eye or away from it; what an outline calls locked may come off that way.",
        "Each outline is divided by itself; whether one section serves several of them is for you to judge on the original.",
        "A notch is known by its area only; its litres need its depth from front to back.",
        "Arcs and lids begin and end at points of the outline and at the cuts between them; a finer outline may fill a little less.",
    ]
    if narrowest > 0:
        said.append(f"Notches with a mouth narrower than {show(narrowest, 'mm')} are taken as closed by the rubber; elsewhere the wall is taken "
                    "to follow the outline, which is exact for the directions where it bulges and too strict where it is hollow.")
    else:
        said.append("The outline is taken as the outside of the rubber; hollows that the rubber closes are still counted.")
    if not any(line.standing for line in outlines):
        said.append("No outline stands on a board, so the underside needs a shell as well.")
    return tuple(said)


def said_of_arc(arc: Arc, number: int) -> str:
    """One arc in words."""
    return (f"Section {number}: {show(arc.length, 'm')} of outline, pull {_compass(arc.pull)}, draft {show(arc.draft, '°')}, "
            f"free from {degrees(arc.low) % 360:.0f}° to {degrees(arc.high) % 360:.0f}°")


def _compass(angle: float) -> str:
    """A pull in words: up, right, down-left ..."""
    x, y = cos(angle), sin(angle)
    words = [word for word, share in (("up", y), ("down", -y)) if share > sin(pi / 8)] + [
        word for word, share in (("right", x), ("left", -x)) if share > sin(pi / 8)]
    return "-".join(words)
