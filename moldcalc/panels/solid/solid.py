"""The turnable picture of a solid; it shows what it is handed and works nothing out."""

from collections.abc import Sequence
from html import escape
from math import isfinite
from pathlib import Path
from typing import Any, NotRequired, TypedDict

import anywidget
import traitlets

from moldcalc.errors import EntryError, Fault

HERE = Path(__file__).parent
MOST = 80_000  # triangles in one picture
MODES = ("sections", "pockets", "slope", "plain")


class Piece(TypedDict):
    """A section or a pocket: ``number`` is its label on the faces; ``pull`` its way off, ``order`` its turn from 1.

    ``place`` is where its arrow starts, ``note`` a few words more for the legend.
    """

    number: int
    name: str
    pull: Sequence[float]
    order: int
    place: Sequence[float] | None
    note: NotRequired[str]


class Mark(TypedDict):
    """A line or a point on the surface: ``kind`` is seam, thin, drawn or high; ``said`` is its line in the legend."""

    kind: str
    points: Sequence[Sequence[float]]
    said: NotRequired[str]


class Band(TypedDict):
    """A slope and its name: faces whose outside points up to ``upto`` degrees away from straight up, and more than the band before."""

    upto: float
    name: str


#: the slope mode's bands unless the caller has others; angle of the outward normal from straight up
SLOPES: tuple[Band, ...] = ({"upto": 20, "name": "lies flat"}, {"upto": 75, "name": "slants"},
                            {"upto": 105, "name": "upright"}, {"upto": 180, "name": "hangs over"})


class SolidPicture(anywidget.AnyWidget):
    """A solid that is turned by mouse, finger and keys, with numbered pieces that slide apart.

    Lengths are metres, z points up, the board is z = 0. `put` lays a surface in; labels, pieces and all else may change after that by themselves.
    """

    _esm = HERE / "solid.js"
    _css = HERE / "solid.css"

    #: float32 (n, 3) and uint32 (m, 3), little-endian
    positions = traitlets.Bytes().tag(sync=True)
    faces = traitlets.Bytes().tag(sync=True)
    #: one byte a face: number of its section or pocket, 0 none, 255 left over
    labels = traitlets.Bytes().tag(sync=True)
    #: one byte a face: 1 where the maker painted 'no seam'
    painted = traitlets.Bytes().tag(sync=True)
    pieces: traitlets.List[Piece] = traitlets.List().tag(sync=True)
    marks: traitlets.List[Mark] = traitlets.List().tag(sync=True)
    bands: traitlets.List[Band] = traitlets.List(list(SLOPES)).tag(sync=True)
    mode = traitlets.Enum(MODES, "plain").tag(sync=True)
    #: 0 together, 1 all off; each piece moves in its turn
    apart = traitlets.Float(0.0, min=0.0, max=1.0).tag(sync=True)
    #: number of the piece that is chosen, 0 none
    selected = traitlets.Int(0).tag(sync=True)
    #: 'turn': a drag turns and a tap picks; 'pick': a drag picks all along its way
    hand = traitlets.Enum(("turn", "pick"), "turn").tag(sync=True)
    #: what was tapped last: face, label, point [m], trail of [face, x, y, z], count
    picked = traitlets.Dict().tag(sync=True)
    #: the way the viewer looks; (0, 1, 0) is from the front
    aim: traitlets.List[float] = traitlets.List([0.504, 0.806, -0.309]).tag(sync=True)
    #: words for the three extents along x, y and z, in the reader's unit; empty for none
    extents: traitlets.List[str] = traitlets.List().tag(sync=True)
    #: side of a square of the board's grid [m], 0 for one that fits, and the words for it
    square = traitlets.Float(0.0).tag(sync=True)
    square_said = traitlets.Unicode().tag(sync=True)
    painted_said = traitlets.Unicode("painted: no seam here").tag(sync=True)
    leftover_said = traitlets.Unicode("left over, for paste").tag(sync=True)
    #: one sentence that says what is shown, for who can't see it
    said = traitlets.Unicode("A solid.").tag(sync=True)
    #: the still picture, SVG of our own
    still = traitlets.Unicode().tag(sync=True)
    #: this model's own name, so that the page can ask whether it still lives
    own_id = traitlets.Unicode().tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(**traits)
        self.own_id = self.model_id or ""
        #: the pieces as a table of plain text, shown with the sentence where there are no pictures
        self.table = ""

    def put(self, vertices: Any, faces: Any, labels: Any = None) -> None:
        """Lay in a surface.

        Parameters
        ----------
        vertices
            Array (n, 3). [m]
        faces
            Array (m, 3) of places in `vertices`; at most `MOST`, thin it out before.
        labels
            Array (m,) of bytes, or None for all 0.

        Raises
        ------
        EntryError
            Too many triangles, an index beyond the vertices, a coordinate that is no number, a label too few or too many.
        """
        count = len(faces)
        if count > MOST:
            raise EntryError(Fault("The surface to show", f"{count} triangles", f"at most {MOST} can be shown"))
        if count and (int(faces.min()) < 0 or int(faces.max()) >= len(vertices)):
            raise EntryError(Fault("The surface to show", "made of corners that are not there", "every triangle needs three of its vertices"))
        if len(vertices) and not (isfinite(float(vertices.min())) and isfinite(float(vertices.max()))):
            raise EntryError(Fault("The surface to show", "not a number somewhere", "every coordinate must be finite"))
        sent = bytes(count) if labels is None else self._sent(labels, count)
        with self.hold_sync():
            self.positions = vertices.astype("<f4").tobytes()
            self.faces = faces.astype("<u4").tobytes()
            self.painted, self.labels = b"", sent

    def recolour(self, labels: Any) -> None:
        """Other labels on the same faces; only these bytes travel."""
        self.labels = self._sent(labels, len(self.faces) // 12)

    @staticmethod
    def _sent(labels: Any, count: int) -> bytes:
        sent: bytes = labels if isinstance(labels, bytes) else labels.astype("u1").tobytes()
        if len(sent) != count:
            raise EntryError(Fault("The number of labels", str(len(sent)), f"each of the {count} triangles needs one"))
        return sent

    def static_html(self) -> str:
        """The picture as it stands in a stored notebook: still, with its sentence."""
        return (f'<figure class="mc-static" style="margin:0;max-width:520px;color:#1f2328;background:#fdfcf9;color-scheme:light">{self.still}'
                f'<figcaption style="color:#55555b;font:14px/1.4 system-ui,sans-serif">{escape(self.said)} '
                "Run this chapter to turn it.</figcaption></figure>")

    def text(self) -> str:
        """What is shown, in words: the sentence, and the pieces' table where one was given."""
        return "\n".join(filter(None, (self.said, self.table)))

    def __repr__(self) -> str:
        return f"<solid: {self.said}>"

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        """The live picture, and beside it the still one for readers who have not run the chapter."""
        bundle = super()._repr_mimebundle_(**kwargs)
        data, *rest = bundle if isinstance(bundle, tuple) else (bundle or {},)
        data = {**data, "text/html": self.static_html(), "text/plain": self.text()}
        return (data, *rest) if rest else data
