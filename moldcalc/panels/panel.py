"""The one mechanism under every panel: an entry changed → a new job → a plan → answer, pictures, cautions, results."""

import re
from html import unescape
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from moldcalc.errors import EntryError, FileError, MoldcalcError
from moldcalc.job import Job, JobFile, open_job
from moldcalc.panels.declared import DECLARED, PanelDeclaration
from moldcalc.panels.fields import expanded, field_of, typed
from moldcalc.panels.static import plain_text, static_html
from moldcalc.plan import Plan, Result, plan

DRAWS = 300  # for the band, once a slider rests
ENDS = re.compile(r"\{([\w.]+):(?:low|high)\}")
HERE = Path(__file__).parent
NOTHING = ("", None, None, None)


class Panel(anywidget.AnyWidget):
    """The panel of one chapter on a job. Made by `panel`."""

    _esm = HERE / "view.js"
    _css = HERE / "view.css"

    stage = traitlets.Unicode().tag(sync=True)
    system = traitlets.Unicode("metric").tag(sync=True)
    answer = traitlets.Unicode().tag(sync=True)
    band = traitlets.Unicode().tag(sync=True)
    note = traitlets.Unicode().tag(sync=True)
    old = traitlets.Bool(False).tag(sync=True)
    #: whether the band belongs to the answer; if not, the page asks for it once nothing moves
    rests = traitlets.Bool(True).tag(sync=True)
    #: the id of the last message that was dealt with; the page sends its next one then
    heard = traitlets.Unicode().tag(sync=True)
    #: this model's own name, so that the page can ask whether it still lives
    own_id = traitlets.Unicode().tag(sync=True)
    fields: traitlets.List[dict[str, Any]] = traitlets.List().tag(sync=True)
    pictures: traitlets.List[dict[str, Any]] = traitlets.List().tag(sync=True)
    results: traitlets.List[dict[str, Any]] = traitlets.List().tag(sync=True)
    cautions: traitlets.List[dict[str, Any]] = traitlets.List().tag(sync=True)

    def __init__(self, declaration: PanelDeclaration, jobfile: JobFile) -> None:
        super().__init__(stage=declaration.stage)
        self.own_id = self.model_id or ""
        self.declaration, self.jobfile = declaration, jobfile
        self.faults: dict[str, tuple[str, str]] = {}
        self.plan: Plan = plan(jobfile.job, draws=DRAWS)
        self._started = jobfile.job
        #: the change that was answered last: path, number, value and the job that it was made to
        self._moved: tuple[str, float | None, Any, Job | None] = NOTHING
        self.show(self._kept())
        self.on_msg(self._received)
        jobfile.watchers.append(self.follow)

    # what comes in ---------------------------------------------------------------------------------------------
    def _received(self, _widget: Any, message: Any, _buffers: Any) -> None:
        """A message from the page. Whatever goes wrong becomes one sentence."""
        heard = str(message.get("id", "")) if isinstance(message, dict) else ""
        try:
            if message.get("reset"):
                self.reset(heard)
            elif "path" in message or not message.get("rest"):
                self.change(str(message["path"]), message.get("text"), message.get("number"), bool(message.get("settled")), heard)
            if message.get("rest"):
                self.rest(heard)
        except MoldcalcError as error:
            self._say(str(error), heard)
        except Exception as error:
            self._say(f"This change could not be worked out ({type(error).__name__}); the answer above is the one before it.", heard)

    def _say(self, note: str, heard: str) -> None:
        with self.hold_sync():
            self.note, self.heard = note, heard

    def set(self, path: str, text: Any) -> None:
        """Change one entry from code, as if it had been typed and left: ``p.set("coats.wall", "12 mm")``."""
        self.change(path, text, None, True, "")
        self.rest()

    def change(self, path: str, text: Any, number: float | None, settled: bool, heard: str) -> None:
        """One entry was moved (``number``, in the unit shown) or typed (``text``); ``settled`` when it was let go and is to be kept."""
        if number is None or self._moved[:2] != (path, number):
            self._answer(path, text, number)
            self.show(self._kept(), heard, resting=False)
        if settled and path not in self.faults:
            known = self.jobfile.job is self._moved[3]
            if self._keep(path, self._moved[2]) or not known:  # what was changed elsewhere meanwhile counts too
                self.plan = plan(self.jobfile.job)
                self.show(self.note, heard, resting=False)
        self.heard = heard

    def _answer(self, path: str, text: Any, number: float | None) -> None:
        job, value = self.jobfile.job, text
        self._moved = NOTHING
        try:
            if number is not None:
                value = typed(job, path, float(number), self.plan.system)
            self.plan = plan(job.with_entry(path, value))
        except EntryError as error:
            self.faults[path] = (str(value), str(error))
        else:
            self.faults.pop(path, None)
            self._moved = (path, number, value, job)

    def reset(self, heard: str = "") -> None:
        """Every entry of this panel back to what it was when the panel was made."""
        self.faults.clear()
        self._moved = NOTHING
        for path in self.paths():
            value, entry = self._started.get(path), self._started.entry(path)
            if self.jobfile.job.get(path) != value:
                self._keep(path, "" if value is None else entry.write(value))
        self.plan = plan(self.jobfile.job)
        self.show(self._kept(), heard, resting=False)

    def follow(self) -> None:
        """Show the job as it is now: rows and entries were kept from a scan, and that is where this panel starts from."""
        self.faults.clear()
        self._moved, self._started = NOTHING, self.jobfile.job
        self.plan = plan(self.jobfile.job, draws=DRAWS)
        self.show(self._kept())

    def _keep(self, path: str, value: Any) -> bool:
        """Put a value into the file; whether that had been changed elsewhere."""
        try:
            elsewhere = self.jobfile.keep(path, value)
        except FileError as error:
            self.note = str(error)
            return False
        changed = "It was changed elsewhere meanwhile; that was read first." if elsewhere else ""
        self.note = " ".join(filter(None, (self._kept(), changed)))
        return elsewhere

    def rest(self, heard: str = "") -> None:
        """Work out the band: nothing has moved for a while, so that nobody waits for it."""
        if not self.rests:
            self.plan = plan(self.plan.job, draws=DRAWS)
            self.show(self.note, heard)
        self.heard = heard

    # what goes out ---------------------------------------------------------------------------------------------
    def show(self, note: str, heard: str = "", resting: bool = True) -> None:
        """Everything that the page shows: what is looked at first in a message of its own, then the rest."""
        found = self.plan
        with self.hold_sync():
            self.old = bool(self.faults)
            self.answer = first_said(found, self.declaration.answer, html=True) or "There is no answer for this job yet."
            self.band = self._below(found, resting)
            self.pictures = drawn(found, self.declaration)
        with self.hold_sync():
            self.system, self.note, self.heard, self.rests = found.system, note, heard, resting
            self.results = [result_line(found, result) for result in map(found.result, self.names())]
            self.cautions = [{"kind": caution.kind, "text": caution.text} for caution in found.cautions_of(self.stage)]
            self.fields = [self._field(found.job, path) for path in self.paths()]

    def _field(self, job: Job, path: str) -> dict[str, Any]:
        field = field_of(job, path, self.plan.system)
        if path in self.faults:
            text, error = self.faults[path]
            field |= {"text": text, "error": error}
        return field

    def _below(self, found: Plan, resting: bool) -> str:
        """The line under the answer: the band, and what the answer still stands for where an entry needs a look."""
        parts = [first_said(found, self.declaration.band, html=True) if resting else "The range follows when the slider rests."]
        if self.faults:
            good = " and ".join(found.job.entry(path).say(found.job.resolved(path), found.system) for path in self.faults)
            count = "one entry needs" if len(self.faults) == 1 else f"{len(self.faults)} entries need"
            still = Plan.say(found, f"Still for {good}: {count} a look.".replace("{", "("), html=True)
            parts.append(f'<span class="mc-still">{still}</span>')
        return " ".join(filter(None, parts))

    def _kept(self) -> str:
        return f"Kept in {self.jobfile.path.name}." if self.jobfile.path else "A demo: nothing is kept."

    def paths(self) -> list[str]:
        """Paths of the entries on this panel, rows written out."""
        return [path for declared in self.declaration.entries for path in expanded(self.plan.job, declared)]

    def names(self) -> tuple[str, ...]:
        """Names of the results on this panel that the plan has, rows written out."""
        return tuple(name for declared in self.declaration.results for name in written_out(self.plan, declared))

    def answer_text(self) -> str:
        """The answer as plain text."""
        return plain(self.answer)

    def static_html(self) -> str:
        """The panel as it stands in a stored notebook."""
        return static_html(self.answer, self.band, self.pictures, self.cautions, self.results)

    def text(self) -> str:
        """Answer, results and cautions as lines."""
        return plain_text(plain(self.answer), plain(self.band), self.plan.as_text(names=self.names()), self.cautions)

    def __repr__(self) -> str:
        return f"<panel {self.stage}: {self.answer_text()}>"

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        """The live view, and beside it a still one for readers who have not run the chapter."""
        bundle = super()._repr_mimebundle_(**kwargs)
        data, *rest = bundle if isinstance(bundle, tuple) else (bundle or {},)
        data = {**data, "text/html": self.static_html(), "text/plain": self.text()}
        return (data, *rest) if rest else data


def panel(stage: str, jobfile: JobFile | None = None) -> Panel:
    """The panel of a chapter, on the job in hand or the demo."""
    if stage not in DECLARED:
        raise MoldcalcError(f"There is no panel called '{stage}'; there are {', '.join(DECLARED)}.")
    return Panel(DECLARED[stage], jobfile or open_job())


def first_said(found: Plan, sentences: tuple[str, ...], html: bool = False) -> str:
    """The first sentence whose results, and whose bands where it names their ends, the plan has."""
    for sentence in sentences:
        try:
            if any(not found.result(name).say_band(found.system) for name in ENDS.findall(sentence)):
                continue
            return found.say(sentence, html=html)
        except (KeyError, EntryError):
            continue
    return ""


def written_out(found: Plan, declared: str) -> list[str]:
    """The names that a declared one stands for, of those that the plan has: '*' is every row."""
    if ".*." not in declared:
        return [declared] if declared in found else []
    return found.row_names(declared)


def result_line(found: Plan, result: Result) -> dict[str, str]:
    """One line of the results' table."""
    return {"label": found.say(result.label), "value": result.say(found.system), "band": result.say_band(found.system), "why": result.why}


def drawn(found: Plan, declaration: PanelDeclaration) -> list[dict[str, str]]:
    """The declared pictures that can be drawn, each with its line."""
    made = [(picture.draw(found), first_said(found, (picture.caption,))) for picture in declaration.pictures]
    return [{"svg": svg, "caption": caption} for svg, caption in made if svg]


def plain(html: str) -> str:
    """Text of our own HTML sentences."""
    return unescape(re.sub(r"<[^>]+>", "", html))
