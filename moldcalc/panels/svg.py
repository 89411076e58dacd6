"""A small drawing kit: SVG as text, the same text for the same plan every time."""

from html import escape

INK, GREY, PAPER = "#1f2328", "#59595f", "#fdfcf9"
#: Okabe and Ito's colours, as fills (pale) with the full colour for lines
BLUE, ORANGE, GREEN, VERMILION, SKY, PINK = "#0072b2", "#b27a00", "#00734f", "#a83c00", "#2f7fae", "#9a4f7c"
PALE = {BLUE: "#dcebf5", ORANGE: "#f9e6bd", GREEN: "#cfe8df", VERMILION: "#fbe0d1", SKY: "#d5edfa", PINK: "#f3e0ec"}
#: hatches by name: slant of the lines in degrees and their distance; no two neighbours look alike without colour
HATCHES = {"rise": (45, 6), "fall": (-45, 6), "level": (90, 5), "upright": (0, 5), "wide": (45, 11), "steep": (20, 7)}

WIDTH = 340
SIZE = 12


def n(number: float) -> str:
    """A coordinate: one decimal, no '-0'."""
    text = f"{number:.1f}"
    return "0.0" if text == "-0.0" else text


def cut(words: str, most: int) -> str:
    """Words short enough for their place."""
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def text(x: float, y: float, words: str, *, anchor: str = "start", fill: str = INK, size: float = SIZE, bold: bool = False) -> str:
    """A line of words."""
    weight = ' font-weight="700"' if bold else ""
    return f'<text x="{n(x)}" y="{n(y)}" font-size="{size:g}" fill="{fill}" text-anchor="{anchor}"{weight}>{escape(words)}</text>'


def line(x1: float, y1: float, x2: float, y2: float, *, stroke: str = INK, width: float = 1, dash: str = "") -> str:
    """A straight line."""
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<line x1="{n(x1)}" y1="{n(y1)}" x2="{n(x2)}" y2="{n(y2)}" stroke="{stroke}" stroke-width="{width:g}"{dashes}/>'


def rect(x: float, y: float, width: float, height: float, *, fill: str = "none", stroke: str = INK, dash: str = "") -> str:
    """A plain box."""
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return (f'<rect x="{n(x)}" y="{n(y)}" width="{n(max(width, 0))}" height="{n(max(height, 0))}" '
            f'fill="{fill}" stroke="{stroke}"{dashes}/>')


def path(points: list[tuple[float, float]], *,
         stroke: str = INK, width: float = 1.5, fill: str = "none", dash: str = "", closed: bool = False) -> str:
    """Straight strokes from point to point."""
    steps = " ".join(f"{'M' if not place else 'L'}{n(x)} {n(y)}" for place, (x, y) in enumerate(points))
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<path d="{steps}{" Z" if closed else ""}" fill="{fill}" stroke="{stroke}" stroke-width="{width:g}"{dashes}/>'


def dot(x: float, y: float, *, fill: str = INK, radius: float = 4.5) -> str:
    """A point on a curve, ringed so that it stands off."""
    return f'<circle cx="{n(x)}" cy="{n(y)}" r="{radius:g}" fill="{fill}" stroke="{PAPER}" stroke-width="1.5"/>'


class Hatches:
    """The hatch patterns that one picture uses. Their names start with the picture's, so two pictures never share one."""

    def __init__(self, picture: str) -> None:
        self.picture = picture
        self.used: dict[str, str] = {}

    def fill(self, hatch: str, colour: str) -> str:
        """A fill of pale colour and lines of the full one."""
        slant, apart = HATCHES[hatch]
        name = f"mc-hatch-{self.picture}-{hatch}-{colour[1:]}"
        self.used[name] = (f'<pattern id="{name}" width="{apart}" height="{apart}" patternUnits="userSpaceOnUse" patternTransform="rotate({slant})">'
                           f'<rect width="{apart}" height="{apart}" fill="{PALE[colour]}"/>'
                           f'<line x1="0" y1="0" x2="0" y2="{apart}" stroke="{colour}" stroke-width="1.4"/></pattern>')
        return f"url(#{name})"

    def defs(self) -> str:
        """The patterns, to stand first in the picture."""
        return f"<defs>{''.join(self.used.values())}</defs>" if self.used else ""


def drawing(height: float, label: str, *parts: str, width: float = WIDTH) -> str:
    """The whole picture. ``label`` says in words what a person sees in it."""
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" width="{width:g}" height="{height:g}" role="img" '
            f'aria-label="{escape(label)}" font-family="system-ui, sans-serif">{"".join(parts)}</svg>')


def ticks(low: float, high: float, most: int = 6) -> list[float]:
    """Round numbers from low to high, at most so many."""
    if not high > low:
        return [low]
    for power in range(-9, 12):
        for times in (1, 2, 5):
            step = times * 10.0**power
            if (high - low) / step <= most - 1 + 1e-9:
                first = -(-low // step)
                return [float(f"{(first + place) * step:.9g}") for place in range(most + 1) if (first + place) * step <= high + 1e-9 * step]
    return [low, high]


class Axes:
    """Maps values to places in a picture, and draws the two axes."""

    def __init__(self, box: tuple[float, float, float, float], x: tuple[float, float], y: tuple[float, float]) -> None:
        self.left, self.top, self.right, self.bottom = box
        self.x_ends, self.y_ends = x, y

    def x(self, value: float) -> float:
        """Place of a value along the picture, held inside."""
        low, high = self.x_ends
        return self.left + (self.right - self.left) * min(1.0, max(0.0, (value - low) / (high - low or 1)))

    def y(self, value: float) -> float:
        """Height of a value, held inside."""
        low, high = self.y_ends
        return self.bottom - (self.bottom - self.top) * min(1.0, max(0.0, (value - low) / (high - low or 1)))

    def points(self, values: list[tuple[float, float]]) -> list[tuple[float, float]]:
        """Places of many pairs."""
        return [(self.x(a), self.y(b)) for a, b in values]

    def drawn(self, x_name: str, y_name: str) -> str:
        """Axis lines, ticks with their numbers, and what they mean."""
        parts = [line(self.left, self.bottom, self.right, self.bottom), line(self.left, self.top, self.left, self.bottom)]
        for value in ticks(*self.x_ends):
            parts += [line(self.x(value), self.bottom, self.x(value), self.bottom + 4),
                      text(self.x(value), self.bottom + 17, f"{value:g}", anchor="middle", size=11)]
        for value in ticks(*self.y_ends, most=5):
            parts += [line(self.left - 4, self.y(value), self.left, self.y(value)),
                      text(self.left - 7, self.y(value) + 4, f"{value:g}", anchor="end", size=11)]
        parts += [text(self.right, self.bottom + 33, x_name, anchor="end", size=11, fill=GREY), text(4, self.top - 9, y_name, size=11, fill=GREY)]
        return "".join(parts)
