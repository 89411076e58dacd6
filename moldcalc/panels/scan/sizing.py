"""Chapter 01: a scan is taken in, its unit asked, its size shown and kept."""

from html import escape
from typing import Any

from moldcalc.errors import EntryError, Fault, MoldcalcError
from moldcalc.job import JobFile
from moldcalc.job.tables import SCAN_UNITS, SCAN_UPS
from moldcalc.panels.scan.desk import ScanDesk, Shelf
from moldcalc.panels.scan.sheet import ScanSheet, button, select, table_html
from moldcalc.panels.solid import SolidPicture
from moldcalc.plan import Result
from moldcalc.units import show

ACCEPT = ".stl,.obj,.ply,.off,.glb,.3mf,.gz"
UNITS = {"not said": "not said yet", "mm": "a millimetre", "cm": "a centimetre", "m": "a metre", "in": "an inch", "ft": "a foot"}
#: a scan with more triangles is thinned out when the maker asks for it
SMALLER = 1_000_000
NO_SCAN = "No scan yet. Drop one here, or go on with solids, tape or foil."
DROP = "Drop a scan here, or choose a file: STL, OBJ, PLY, OFF, GLB, 3MF."


class SizeSheet(ScanSheet):
    """Takes a scan in and says how big it is."""

    def __init__(self, jobfile: JobFile) -> None:
        super().__init__(label="Scan: size")
        self.jobfile, self.shelf = jobfile, Shelf(jobfile)
        self.picture = SolidPicture(mode="slope")
        self.unit, self.up = jobfile.job.original.scan_unit, jobfile.job.original.scan_up
        self.scan: Any = None
        self.standing: Any = None
        self._coming: Any = None
        self.show()

    # what comes in -------------------------------------------------------------------------------------------------
    def take_file(self, name: str | None, data: bytes, more: bool) -> None:
        """A scan, piece by piece; when it is whole it is read."""
        from moldcalc.survey.receiving import Receiving

        if name is not None:
            if self._coming is not None:
                self._coming.give_up()
            self.error, self._coming = "", None
            self._coming = Receiving(name, self.shelf.folder)
        if self._coming is None:
            return
        self._coming.add(data)
        if not more:
            path, self._coming = self._coming.done(), None
            self.read(path)

    def press(self, name: str) -> None:
        """Measure, thin out, or keep."""
        if name == "measure":
            from moldcalc.survey.finding import scan_path

            if self.scan is None:
                self.read(scan_path(self.jobfile.job, self.shelf.folder))
            else:
                self.measure()
        elif name == "smaller":
            from moldcalc.scan.reading import decimated

            self.run(decimated(self.scan, SMALLER), self._read)
        elif name == "keep":
            self.keep()

    def set(self, name: str, value: Any) -> None:
        """The unit or the way up was chosen; what was measured is measured again."""
        if name == "unit" and value in SCAN_UNITS:
            self.unit = str(value)
        elif name == "up" and value in SCAN_UPS:
            self.up = str(value)
        if self.scan is not None:
            self.measure()
        else:
            self.show()

    # the work ------------------------------------------------------------------------------------------------------
    def read(self, path: Any) -> None:
        """Read a scan from a file."""
        from moldcalc.scan.reading import read_scan

        self.scan = self.standing = None
        self.run(read_scan(path), self._read)

    def _read(self, scan: Any) -> None:
        self.scan = scan
        if scan.unit_in_file:
            self.unit = scan.unit_in_file
        if scan.up_in_file:
            self.up = scan.up_in_file
        self.measure()

    def measure(self) -> None:
        """Measure what was read; without a unit its three sizes are shown and the unit is asked."""
        if self.unit == "not said":
            self.standing = None
            self.show()
            return
        from moldcalc.survey.finding import stand

        try:
            job = self.jobfile.job.with_entries(original__scan=self.scan.name[:400], original__scan_unit=self.unit, original__scan_up=self.up)
        except MoldcalcError as error:
            self.error = str(error)
            return
        self.run(stand(job, self.scan), self._measured)

    def _measured(self, standing: Any) -> None:
        from moldcalc.survey.facts import size_facts

        self.standing = standing
        job = self.jobfile.job.with_entries(original__scan=standing.scan.name[:400], original__scan_unit=self.unit, original__scan_up=self.up)
        facts, shape = size_facts(job, standing)
        self.shelf.put("size", facts, "original", shape)
        self.show()

    def keep(self) -> None:
        """The scan's size becomes the job's."""
        from moldcalc.survey.keeping import size_entries

        if self.standing is None:
            raise EntryError(Fault("The size", "not measured in this session", "measure the scan first"))
        note = self.shelf.keep(size_entries(self.jobfile.job, self.standing, self.unit, self.up), {})
        self.note = f"{note} The detail factor is 1 now: what the scan shows is counted; raise it for what is finer than its triangles."

    # what is shown -------------------------------------------------------------------------------------------------
    def show(self) -> None:
        """Answer, controls, table and picture."""
        with self.hold_sync():
            self.answer = self._answer()
            self.controls = self._controls()
            self.table = self._table()
            self.note = self.note or self.shelf.note
        self._draw()

    def _results(self) -> list[Result]:
        """What was measured, now or earlier; nothing while a new scan has not been measured."""
        if self.scan is not None and self.standing is None:
            return []
        return [Result(**row) for row in self.shelf.facts("size").get("results", [])]

    def _answer(self) -> str:
        found = {result.name: escape(result.say(self.system)) for result in self._results()}
        if found:
            volume = f" and <b>{found['scan.volume']}</b>" if "scan.volume" in found else "; it has no volume, see below"
            return f"The scan shows <b>{found['scan.area']}</b> without its base{volume}."
        if self.scan is not None:
            return f"<b>{escape(self.scan.name)}</b> is {self._three()} of its units, across, deep and high. What is one unit?"
        named = self.jobfile.job.original.scan
        return f"The scan <b>{escape(named)}</b> has not been measured yet." if named else NO_SCAN

    def _three(self) -> str:
        return " × ".join(f"{extent:.5g}" for extent in self.scan.extents)

    def _controls(self) -> list[dict[str, Any]]:
        named = self.scan.name if self.scan else self.jobfile.job.original.scan
        made = [{"kind": "file", "name": "scan", "accept": ACCEPT,
                 "label": f"{named}. Another scan: drop it here, or choose a file." if named else DROP},
                select("unit", "One unit of the scan is", {key: self._in(key) for key in UNITS}, self.unit),
                select("up", "Up in the scan is", {up: up for up in SCAN_UPS}, self.up)]
        if named:
            made.append(button("measure", "Measure the scan", main=self.standing is None))
        if self.scan is not None and self.scan.many:
            made.append(button("smaller", "Go on with a copy of 1 million triangles"))
        if named:
            made.append(button("keep", "Use this size for the job", main=self.standing is not None, off=self.standing is None))
        return made

    def _in(self, unit: str) -> str:
        """A unit, and what it would make of the scan."""
        if self.scan is None or unit == "not said":
            return UNITS[unit]
        from moldcalc.scan.reading import UNITS as METRES

        sizes = " × ".join(show(extent * METRES[unit], "mm", self.system) for extent in self.scan.extents)
        return f"{UNITS[unit]}: {sizes}"

    def _table(self) -> str:
        rows = [[words, text, ""] for words, text in self._notes()]
        rows += [[result.label, result.say(self.system), " · ".join(filter(None, (result.say_band(self.system), result.why)))]
                 for result in self._results()]
        return table_html("Size of the scan", ("what", "how much", "why"), rows)

    def _notes(self) -> list[tuple[str, str]]:
        """What was mended and what to know of the scan; the question about its unit first."""
        facts = self.shelf.facts("size")
        if self.scan is None:
            changed = self._changed(facts)
            return [*changed, *(("Note", note) for note in facts.get("notes", []))]
        from moldcalc.scan.reading import unit_guess, unit_question

        said = [("Note", note) for note in self.scan.notes]
        height = float(self.jobfile.job.original.height)
        if self.unit == "not said":
            guess = unit_guess(self.scan.extents, height, self.up)
            fits = f"fits {UNITS[guess]}" if guess else "fits no unit: is the way up right?"
            return [("Unit", f"the height you gave, {show(height, 'mm', self.system)}, {fits}"), *said]
        question = unit_question(self.scan, self.unit, height, self.up)
        return [("Unit", question), *said] if question else said

    def _changed(self, facts: dict[str, Any]) -> list[tuple[str, str]]:
        if not facts:
            return []
        from moldcalc.survey.facts import changed_since

        return [("Changed since", f"{label}: measure again") for label in changed_since(self.jobfile.job, "size", facts)]

    def _draw(self) -> None:
        shape = self.shelf.survey.shapes.get("original")
        if shape is None or (self.scan is not None and self.standing is None):
            return
        from moldcalc.scan.views import still

        thin: list[Any] = [{"kind": "high", "points": [point], "said": "runs thin"} for point in self.shelf.facts("size").get("thin", [])]
        with self.picture.hold_sync():
            self.picture.put(shape.vertices, shape.faces)
            self.picture.marks = thin
            low, high = shape.vertices.min(axis=0), shape.vertices.max(axis=0)
            self.picture.extents = [show(float(length), "mm", self.system) for length in high - low]
            self.picture.said = "The scan, coloured by its slopes; dots mark where rubber runs thin."
            self.picture.still = still((shape.vertices, shape.faces), view="right", mode="slope", system=self.system)


def size_desk(jobfile: JobFile) -> ScanDesk:
    """The desk of chapter 01."""
    sheet = SizeSheet(jobfile)
    return ScanDesk(sheet, sheet.picture)
