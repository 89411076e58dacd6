"""A scan on the desk: what was read and found so far, the sheet that shows it, and the picture beside it."""

from pathlib import Path
from typing import Any

import ipywidgets
import traitlets

from moldcalc.errors import FileError
from moldcalc.job import JobFile
from moldcalc.panels.scan.sheet import ScanSheet
from moldcalc.panels.solid import SolidPicture
from moldcalc.panels.static import SHEET, figure_html

INVITATION = "Run this chapter to work on it."


class ScanDesk(ipywidgets.VBox):
    """The sheet above, the turnable picture, and the table below. Stored in a notebook it shows all three as they stood."""

    def __init__(self, sheet: ScanSheet, picture: SolidPicture) -> None:
        rows = ipywidgets.HTML()
        rows.add_class("mc-panel")
        traitlets.dlink((sheet, "table"), (rows, "value"), lambda html: f'<div class="mc-table">{html}</div>')
        super().__init__([sheet, picture, rows])
        self.sheet, self.picture = sheet, picture

    def text(self) -> str:
        """Answer, table and picture in words."""
        return "\n".join(filter(None, (self.sheet.text(), self.picture.text() if self.picture.positions else "")))

    def static_html(self) -> str:
        """The sheet as it stands in a stored notebook."""
        drawn = self.picture.static_html() if self.picture.positions else ""
        figures = "".join(figure_html(one) for one in self.sheet.pictures)
        return (f'<section class="mc-static" style="{SHEET}"><p style="font-size:23px;margin:0 0 12px">{self.sheet.answer}</p>'
                f'<div style="display:flex;flex-wrap:wrap;gap:16px">{drawn}{figures}</div>{self.sheet.table}'
                f'<p style="color:#55555b">{INVITATION}</p></section>')

    def __repr__(self) -> str:
        return f"<scan: {self.sheet.answer_text()}>"

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        """The live desk, and beside it a still one for readers who have not run the chapter."""
        bundle = super()._repr_mimebundle_(**kwargs)
        data, *rest = bundle if isinstance(bundle, tuple) else (bundle or {},)
        data = {**data, "text/html": self.static_html(), "text/plain": self.text()}
        return (data, *rest) if rest else data


class Shelf:
    """The survey of a job: read when the desk is set up, written when something is kept. A demo's is only read."""

    def __init__(self, jobfile: JobFile) -> None:
        from moldcalc.survey.kept import Survey, read_survey, survey_path

        self.jobfile, self.note = jobfile, ""
        self.survey = Survey()
        if jobfile.home is not None:
            try:
                self.survey = read_survey(survey_path(jobfile.home))
            except FileError as error:
                self.note = str(error)

    @property
    def folder(self) -> Path | None:
        """The folder of the job; None for a demo."""
        return self.jobfile.path.parent if self.jobfile.path else None

    def facts(self, chapter: str) -> dict[str, Any]:
        """What is kept of a chapter, empty where nothing is."""
        found: dict[str, Any] = self.survey.facts.get(chapter, {})
        return found

    def put(self, chapter: str, facts: dict[str, Any], name: str, shape: Any) -> None:
        """Lay a finding on the shelf, not yet in the file."""
        self.survey = self.survey.with_found(chapter, facts, name, shape)

    def keep(self, entries: dict[str, Any], rows: dict[str, Any]) -> str:
        """Entries and rows into the job, the survey beside it. Returns the line that says so."""
        from moldcalc.survey.kept import survey_path, write_survey

        self.jobfile.keep_all(entries, rows)
        if self.jobfile.path is not None:
            write_survey(survey_path(self.jobfile.path), self.survey)
        for told in self.jobfile.watchers:
            told()
        return f"Kept in {self.jobfile.path.name}." if self.jobfile.path else "In this chapter's plan now. A demo: nothing is kept in a file."
