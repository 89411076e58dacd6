"""Chapter 06: where paste goes over the laid-on skin, pocket by pocket; the maker ticks which to fill."""

from html import escape
from typing import Any

from moldcalc.errors import EntryError, Fault
from moldcalc.job import JobFile
from moldcalc.panels.scan.desk import ScanDesk, Shelf
from moldcalc.panels.scan.sheet import ScanSheet, button, table_html
from moldcalc.panels.solid import SolidPicture
from moldcalc.plan.results import band_ends
from moldcalc.units import show

WORD_ALL_OR_NOTHING = "all or nothing: a slightly smaller ball leaves it empty"


class PocketSheet(ScanSheet):
    """Finds the pockets of the job's scan."""

    def __init__(self, jobfile: JobFile) -> None:
        super().__init__(label="Scan: pockets")
        self.jobfile, self.shelf = jobfile, Shelf(jobfile)
        self.picture = SolidPicture(mode="pockets")
        self.pockets: Any = None
        self.ticked = self._ticked_before()
        self.show()

    def _ticked_before(self) -> set[int]:
        """What the job fills; where it says nothing, every pocket that was found."""
        from moldcalc.survey.names import pockets_named

        named = set(pockets_named(self.jobfile.job) or ())
        return named or {row["number"] for row in self.shelf.facts("pockets").get("pockets", [])}

    # what comes in -------------------------------------------------------------------------------------------------
    def press(self, name: str) -> None:
        """Find, or keep."""
        if name == "find":
            self.run(self._search(), self._found)
        elif name == "keep":
            if self.pockets is None:
                raise EntryError(Fault("Pockets", "not found in this session", "find them first"))
            from moldcalc.survey.keeping import pocket_rows

            self.note = self.shelf.keep({}, pocket_rows(self.jobfile.job, self.pockets, self.ticked))
        elif name in ("all", "none"):
            self.ticked = {row["number"] for row in self._rows()} if name == "all" else set()
            self.show()

    def tick(self, name: str, row: str, on: bool) -> None:
        """A pocket is to be filled, or left."""
        (self.ticked.add if on else self.ticked.discard)(int(row))
        self.show()

    # the work ------------------------------------------------------------------------------------------------------
    def _search(self) -> Any:
        from moldcalc.survey.finding import pockets_of, read_body

        body = yield from read_body(self.jobfile.job, self.shelf.folder)
        return (yield from pockets_of(self.jobfile.job, body))

    def _found(self, pockets: Any) -> None:
        from moldcalc.survey.facts import pocket_facts

        self.pockets = pockets
        self.ticked = {pocket.number for pocket in pockets.pockets}
        facts, shape = pocket_facts(self.jobfile.job, pockets)
        self.shelf.put("pockets", facts, "rubber", shape)
        self.show()

    # what is shown -------------------------------------------------------------------------------------------------
    def _rows(self) -> list[dict[str, Any]]:
        rows: list[dict[str, Any]] = self.shelf.facts("pockets").get("pockets", [])
        return rows

    def show(self) -> None:
        """Answer, controls, table and picture."""
        with self.hold_sync():
            self.answer = self._answer()
            self.controls = self._controls()
            self.table = self._table()
            self.note = self.note or self.shelf.note
        self._draw()

    def _answer(self) -> str:
        facts, rows = self.shelf.facts("pockets"), self._rows()
        if not facts:
            named = self.jobfile.job.original.scan
            return "The pockets of the scan have not been looked for yet." if named else "Pockets are found on a scan: take one in in chapter 01."
        if not rows:
            return "The ball rolls everywhere: there is no pocket to fill."
        ticked = [row for row in rows if row["number"] in self.ticked]
        low, high = self._between(*(sum(row[end] for row in ticked) for end in ("low", "high")))
        litres = show(sum(row["likely"] for row in ticked), "L", self.system)
        return f"<b>{len(ticked)}</b> of {len(rows)} pockets take <b>{escape(litres)}</b> of paste, {escape(low)} to {escape(high)}."

    def _between(self, low: float, high: float) -> tuple[str, str]:
        return band_ends(low, high, "L", self.system)

    def _controls(self) -> list[dict[str, Any]]:
        named = bool(self.jobfile.job.original.scan)
        made = [button("find", "Find the pockets", main=self.pockets is None, off=not named)]
        rows = self._rows()
        if rows:
            made.append({"kind": "ticks", "name": "fill", "label": "Fill with paste", "rows": [
                {"value": str(row["number"]), "on": row["number"] in self.ticked,
                 "label": f"{row['number']}: {show(row['likely'], 'L', self.system)}"} for row in rows]})
            made += [button("all", "Tick all"), button("none", "Tick none"),
                     button("keep", "Fill the ticked pockets in the job", main=self.pockets is not None, off=self.pockets is None)]
        return made

    def _table(self) -> str:
        facts = self.shelf.facts("pockets")
        if not facts:
            return ""
        from moldcalc.survey.facts import changed_since

        lines = []
        for row in self._rows():
            low, high = self._between(row["low"], row["high"])
            lines.append([str(row["number"]), show(row["likely"], "L", self.system), f"{low} to {high}", show(row["depth"], "mm", self.system),
                          show(row["neck"], "mm", self.system), WORD_ALL_OR_NOTHING if row["all_or_nothing"] else ""])
        lines.append(["fur, small folds", show(facts["small"], "L", self.system), "", "", "", "the coats fill them; count them in the detail factor"])
        lines.append(["at the board", show(facts["fillet"], "L", self.system), "", "", "", "the fillet that the ball leaves in the corner"])
        for near in facts["nearly"]:
            lines.append(["just too wide", show(near["volume"], "L", self.system), "", "", show(2 * near["half_width"], "mm", self.system),
                          "stays open with this ball; one a tenth larger would fill it"])
        table = table_html("Pockets", ("pocket", "paste", "between", "deep", "mouth", "note"), lines)
        said = [f"Changed since: {label}. Find the pockets again." for label in changed_since(self.jobfile.job, "pockets", facts)]
        said.append(f"{facts['said']} The band is one cell times the free face of each fill: a grid errs to the first order.")
        return table + "".join(f"<p>{escape(words)}</p>" for words in said)

    def _draw(self) -> None:
        shape = self.shelf.survey.shapes.get("rubber")
        if shape is None:
            return
        from moldcalc.scan.views import pieces_table, still

        pieces: list[Any] = [{"number": row["number"], "name": f"pocket {row['number']}", "pull": None, "order": 0, "place": row["place"],
                              "volume": row["likely"]} for row in self._rows() if row["number"] < 200]
        with self.picture.hold_sync():
            self.picture.put(shape.vertices, shape.faces, shape.labels)
            self.picture.pieces = pieces
            self.picture.said = "The skin with its pockets filled; each pocket has a number, the largest is 1."
            self.picture.still = still((shape.vertices, shape.faces), shape.labels, view="right", pieces=pieces, mode="pockets", system=self.system)
            self.picture.table = pieces_table(pieces, self.system)


def pocket_desk(jobfile: JobFile) -> ScanDesk:
    """The desk of chapter 06."""
    sheet = PocketSheet(jobfile)
    return ScanDesk(sheet, sheet.picture)
