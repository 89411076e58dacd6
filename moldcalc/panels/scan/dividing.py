"""Chapter 08: into which sections the shell comes apart; found, traded against paste, and changed by hand."""

from html import escape
from math import degrees, radians
from typing import Any

from moldcalc.errors import EntryError, Fault
from moldcalc.job import JobFile
from moldcalc.panels.scan.desk import ScanDesk, Shelf
from moldcalc.panels.scan.sheet import ScanSheet, button, select, slider, table_html
from moldcalc.panels.scan.trade import draw_trade
from moldcalc.panels.solid import SolidPicture
from moldcalc.plan.results import band_ends
from moldcalc.units import show

TRADED = "Paste against sections, and the length of all joints; the line joins the least paste for each number."
HANDS = {"turn": "turns it", "give": "gives that place to the section in hand", "avoid": "marks it: no seam here", "line": "draws a line for a seam"}


class SectionSheet(ScanSheet):
    """Divides the shell over the job's scan."""

    def __init__(self, jobfile: JobFile) -> None:
        super().__init__(label="Scan: sections")
        self.jobfile, self.shelf = jobfile, Shelf(jobfile)
        self.picture = SolidPicture(mode="sections")
        self.shell: Any = None
        self.order_known = True
        self.trade: tuple[Any, ...] = ()
        self.hand, self.held = "turn", 0
        self.lines: list[list[list[float]]] = []
        self.avoided: list[list[float]] = []
        self.picture.observe(self._touched, "picked")
        self.show()

    # what comes in -------------------------------------------------------------------------------------------------
    def press(self, name: str) -> None:
        """Find, trade, put in order, keep, or clear what was drawn."""
        if name == "find":
            self.run(self._search(), self._found)
        elif name == "trade":
            from moldcalc.scan.split import trade_of

            self.run(trade_of(self.shell.split), self._traded)
        elif name == "order":
            from moldcalc.survey.finding import taken_off

            self.run(taken_off(self.jobfile.job, self.shell.split), self._found)
        elif name == "keep":
            self._keep()
        elif name == "clear":
            self.lines, self.avoided = [], []
            self.show()

    def set(self, name: str, value: Any) -> None:
        """A section taken in hand, its pull turned, another way of dividing picked from the trade."""
        if name == "hand" and value in HANDS:
            self.hand = str(value)
            self.picture.hand = "turn" if value == "turn" else "pick"
            self.show(redraw=False)
        elif name == "held":
            self.held = int(value)
            self.picture.selected = self.held
            self.show(redraw=False)
        elif name in ("azimuth", "elevation") and self.shell is not None and self.held:
            self._turn(name, float(value))
        elif name == "pick" and self.trade and not self.busy:
            point = self.trade[int(value)]
            from moldcalc.survey.finding import taken_off

            self.run(taken_off(self.jobfile.job, point.split), self._found)

    def _turn(self, name: str, angle: float) -> None:
        from moldcalc.scan.split import with_pull
        from moldcalc.survey.finding import angles_of, pull_of

        azimuth, elevation = angles_of(self.shell.split.sections[self.held - 1].pull)
        azimuth, elevation = (radians(angle), elevation) if name == "azimuth" else (azimuth, radians(angle))
        self._changed(with_pull(self.shell.split, self.held, pull_of(azimuth, elevation)))

    def _touched(self, change: Any) -> None:
        """Places that were tapped or drawn over on the model."""
        trail = [[float(part) for part in step[1:4]] for step in (change["new"] or {}).get("trail", [])]
        if not trail or self.hand == "turn" or self.busy:
            return
        if self.hand == "line" and len(trail) > 1:
            self.lines.append(trail)
        elif self.hand == "avoid":
            self.avoided += trail
        elif self.hand == "give" and self.shell is not None and self.held:
            from moldcalc.scan.split import with_faces
            from moldcalc.survey.finding import faces_near

            faces = faces_near(self.shell.split, trail)
            if len(faces):
                self._changed(with_faces(self.shell.split, faces, self.held))
            return
        self.show(redraw=False)
        self._mark()

    def _changed(self, split: Any) -> None:
        """Sections changed by hand: what locks is known at once, the order is asked for."""
        from moldcalc.survey.finding import Shell

        self.shell, self.order_known = Shell(split, self.shell.removal), False
        self._lay()

    # the work ------------------------------------------------------------------------------------------------------
    def _search(self) -> Any:
        from moldcalc.survey.finding import grid_for, shell_of

        grid = yield from grid_for(self.jobfile.job, self.shelf.folder)
        return (yield from shell_of(self.jobfile.job, grid, lines=self.lines, avoided=self.avoided))

    def _found(self, shell: Any) -> None:
        self.shell, self.order_known = shell, True
        self.held = min(self.held, len(shell.split.sections))
        self._lay()

    def _traded(self, points: Any) -> None:
        from moldcalc.survey.facts import trade_facts

        self.trade = points
        self.shelf.survey.facts.setdefault("sections", {})["trade"] = trade_facts(points)
        self.show(redraw=False)

    def _lay(self) -> None:
        from moldcalc.survey.facts import section_facts

        facts, shape = section_facts(self.jobfile.job, self.shell, self.order_known)
        facts["trade"] = self.shelf.facts("sections").get("trade", [])
        self.shelf.put("sections", facts, "shell", shape)
        self.show()

    def _keep(self) -> None:
        if self.shell is None:
            raise EntryError(Fault("Sections", "not found in this session", "find them first"))
        from moldcalc.survey.keeping import section_rows

        if not self.order_known:
            raise EntryError(Fault("The order of taking off", "not known after your changes", "work it out first"))
        self.note = self.shelf.keep({}, section_rows(self.jobfile.job, self.shell))

    # what is shown -------------------------------------------------------------------------------------------------
    def show(self, redraw: bool = True) -> None:
        """Answer, controls, table and picture."""
        facts = self.shelf.facts("sections")
        with self.hold_sync():
            self.answer = self._answer(facts)
            self.controls = self._controls(facts)
            self.table = self._table(facts)
            svg = draw_trade(facts.get("trade", []), self.system)
            self.pictures = [{"svg": svg, "caption": TRADED}] if svg else []
            self.note = self.note or self.shelf.note
        if redraw:
            self._draw(facts)

    def _answer(self, facts: dict[str, Any]) -> str:
        rows = facts.get("sections", [])
        if not rows:
            named = self.jobfile.job.original.scan
            return "Sections have not been looked for yet." if named else "Sections are found on a scan; without one, outlines or plain entries do."
        paste = escape(show(facts["paste"], "L", self.system))
        order = escape(facts["order"]) if facts.get("order_known", True) else "The order is not worked out for your changes yet."
        return f"<b>{len(rows)}</b> section{'s' * (len(rows) != 1)}; <b>{paste}</b> of paste fill what can't leave. {order}"

    def _controls(self, facts: dict[str, Any]) -> list[dict[str, Any]]:
        made = [button("find", "Find the sections", main=self.shell is None, off=not self.jobfile.job.original.scan)]
        if self.shell is None:
            return made
        rows = facts["sections"]
        made.append(button("trade", "Work out paste against sections"))
        if self.trade:
            offered = {str(place): f"{point.sections} sections, {show(point.fill_volume, 'L', self.system)} of paste, "
                                   f"{show(point.joint, 'm', self.system)} of joint" for place, point in enumerate(self.trade)}
            now = next((str(place) for place, point in enumerate(self.trade) if point.split is self.shell.split), "")
            made.append(select("pick", "Go on with", {"": "as it stands", **offered} if not now else offered, now))
        made.append(select("held", "Section in hand", {"0": "none", **{str(row["number"]): row["name"] for row in rows}}, str(self.held)))
        if self.held:
            row = rows[self.held - 1]
            round_, above = round(degrees(row["azimuth"])), round(degrees(row["elevation"]))
            made += [slider("azimuth", "Its pull, round from the front", 0, 360, 1, round_, f"{round_}°"),
                     slider("elevation", "Its pull, above level", -90, 90, 1, above, f"{above}°")]
        made.append(select("hand", "A finger on the model", HANDS, self.hand))
        if self.lines or self.avoided:
            made.append(button("clear", f"Clear {len(self.lines)} lines and {len(self.avoided)} marks"))
        if not self.order_known:
            made.append(button("order", "Work out the order again", main=True))
        made.append(button("keep", "Use these sections for the job", main=self.order_known, off=not self.order_known))
        return made

    def _table(self, facts: dict[str, Any]) -> str:
        if not facts.get("sections"):
            return ""
        from moldcalc.scan.views import way
        from moldcalc.survey.facts import changed_since

        lines = []
        for row in facts["sections"]:
            low, high = band_ends(row["fill_low"], row["fill_high"], "L", self.system)
            touches = ", ".join(f"{other} ({show(length, 'm', self.system)})" for other, length in row["touches"].items())
            locked = f"{show(row['leftover'], 'cm²', self.system)} can't leave: {show(row['fill'], 'L', self.system)} of paste, {low} to {high}"
            lines.append([row["name"], str(row["order"] or "–"), way(row["pull"]), show(row["area"], "m²", self.system),
                          show(row["draft"], "°", self.system), touches, locked if row["leftover"] > 0 else "all of it leaves"])
        table = table_html("Sections", ("section", "round", "comes off", "face", "least draft", "touches (joint)", "what locks"), lines)
        return table + "".join(f"<p>{escape(words)}</p>" for words in self._said(facts, changed_since(self.jobfile.job, "sections", facts)))

    def _said(self, facts: dict[str, Any], changed: list[str]) -> list[str]:
        said = [f"Changed since: {label}. Find the sections again." for label in changed]
        said.append(f"{facts['cover']:.1%} of the face leaves as it is. The least number of sections for the draft and the share asked for "
                    f"is {facts['bound']}{'' if facts['proven'] else ' or more (not proven in the time)'}, for the directions tried and cells of "
                    f"{show(facts['cell'], 'mm', self.system)}. About {facts['unreachable']:.1%} is out of reach along every direction.")
        if not facts["comes_apart"]:
            said += ["It does not come apart yet. Ways out:", *facts["ways_out"]]
        return said

    def _pieces(self, facts: dict[str, Any]) -> list[Any]:
        return [{"number": row["number"], "name": row["name"], "pull": row["pull"], "order": row["order"] or row["number"], "place": row["place"],
                 "area": row["area"], "touches": [int(other) for other in row["touches"]]} for row in facts["sections"]]

    def _draw(self, facts: dict[str, Any]) -> None:
        shape = self.shelf.survey.shapes.get("shell")
        if shape is None or not facts.get("sections"):
            return
        from moldcalc.scan.views import pieces_table, still

        pieces = self._pieces(facts)
        with self.picture.hold_sync():
            self.picture.put(shape.vertices, shape.faces, shape.labels)
            self.picture.pieces = pieces
            self.picture.said = f"The shell in {len(pieces)} numbered sections with their pulls; the slider takes them off in their order."
            self.picture.still = still((shape.vertices, shape.faces), shape.labels, view="right", pieces=pieces, mode="sections", system=self.system)
            self.picture.table = pieces_table(pieces, self.system)
        self._mark()

    def _mark(self) -> None:
        """What the maker drew, on the model."""
        seams: list[Any] = [{"kind": "drawn", "points": line, "said": "seam wanted"} for line in self.lines]
        self.picture.marks = seams + [{"kind": "high", "points": [place], "said": "no seam"} for place in self.avoided]


def section_desk(jobfile: JobFile) -> ScanDesk:
    """The desk of chapter 08."""
    sheet = SectionSheet(jobfile)
    return ScanDesk(sheet, sheet.picture)
