"""A sheet of work on a scan: its answer, how far it is, its controls and its table. What it works on is said by its subclasses."""

import asyncio
import re
import time
from collections.abc import Callable, Mapping, Sequence
from html import escape
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from moldcalc.errors import MoldcalcError
from moldcalc.job import JobFile
from moldcalc.panels.panel import plain
from moldcalc.units import System

HERE = Path(__file__).parent
#: in the cells themselves, since a stored notebook has no style sheet of ours
LEFT = "text-align:left;font-weight:400;vertical-align:top;padding:4px 10px 4px 0"
SHOWN_EVERY = 0.15  # seconds between two looks at how far the work is


class ScanSheet(anywidget.AnyWidget):
    """A sheet that takes a file, shows long work and lets it be stopped."""

    _esm = HERE / "scan.js"
    _css = (HERE.parent / "view.css").read_text(encoding="utf-8") + (HERE / "scan.css").read_text(encoding="utf-8")

    label = traitlets.Unicode("Scan").tag(sync=True)
    answer = traitlets.Unicode().tag(sync=True)
    doing = traitlets.Unicode().tag(sync=True)
    share = traitlets.Float(0.0).tag(sync=True)
    busy = traitlets.Bool(False).tag(sync=True)
    error = traitlets.Unicode().tag(sync=True)
    note = traitlets.Unicode().tag(sync=True)
    #: shown under the picture by the desk
    table = traitlets.Unicode()
    heard = traitlets.Unicode().tag(sync=True)
    own_id = traitlets.Unicode().tag(sync=True)
    controls: traitlets.List[dict[str, Any]] = traitlets.List().tag(sync=True)
    pictures: traitlets.List[dict[str, Any]] = traitlets.List().tag(sync=True)

    jobfile: JobFile

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.own_id = self.model_id or ""
        self._work: Any = None
        self.on_msg(self._received)

    def answer_text(self) -> str:
        """The answer as plain text."""
        return plain(self.answer)

    def text(self) -> str:
        """Answer and table as lines."""
        rows = [" ".join(filter(None, (plain(cell).strip() for cell in re.split("</t[hd]>", row)))) for row in self.table.split("</tr>")]
        return "\n".join(filter(None, (self.answer_text(), *rows)))

    @property
    def system(self) -> System:
        """The reader's units."""
        return "us" if self.jobfile.job.start.units == "us" else "metric"

    # what a subclass says ------------------------------------------------------------------------------------------
    def press(self, name: str) -> None:
        """A button was pressed."""

    def set(self, name: str, value: Any) -> None:
        """A choice or a slider was changed."""

    def tick(self, name: str, row: str, on: bool) -> None:
        """A box was ticked or cleared."""

    def take_file(self, name: str | None, data: bytes, more: bool) -> None:
        """The next piece of a file, the first with its name; ``more`` while pieces follow."""

    # what comes in -------------------------------------------------------------------------------------------------
    def _received(self, _widget: Any, message: Any, buffers: Any) -> None:
        try:
            self._deal(message, buffers)
        except MoldcalcError as error:
            self.error = str(error)
        except Exception as error:
            self.error = f"This could not be done ({type(error).__name__}); what is shown is what was found before."
        finally:
            if isinstance(message, dict) and message.get("id"):
                self.heard = str(message["id"])

    def _deal(self, message: Any, buffers: Any) -> None:
        act, name = message["act"], str(message.get("name", ""))
        if act == "stop":
            self.stop()
            return
        if self.busy and act != "set":
            return
        if act != "file":
            self.error = ""
        if act == "press":
            self.press(name)
        elif act == "set":
            self.set(name, message.get("value"))
        elif act == "tick":
            self.tick(name, str(message["row"]), bool(message["on"]))
        elif act == "file":
            part, of = int(message["part"]), int(message["of"])
            self.take_file(name if part == 0 else None, bytes(buffers[0]) if buffers else b"", part + 1 < of)

    # long work -----------------------------------------------------------------------------------------------------
    def run(self, work: Any, then: Callable[[Any], None]) -> None:
        """Take a piece of work step by step, then hand its answer on. Messages are heard between two steps."""
        self._work, self.busy, self.error, self.share = work, True, "", 0.0
        if in_a_kernel():
            self._task = asyncio.ensure_future(self._stepping(work, then))
        else:  # a script, which waits
            self._finish(work, then)

    async def _stepping(self, work: Any, then: Callable[[Any], None]) -> None:
        shown = 0.0
        steps = self._steps(work, then)
        for progress in steps:
            if time.monotonic() - shown > SHOWN_EVERY:
                shown = time.monotonic()
                with self.hold_sync():
                    self.doing, self.share = progress.said, float(progress.share)
            await asyncio.sleep(0.001)
            if self._work is not work:
                steps.close()
                return

    def _finish(self, work: Any, then: Callable[[Any], None]) -> None:
        for _ in self._steps(work, then):
            if self._work is not work:
                return

    def _steps(self, work: Any, then: Callable[[Any], None]) -> Any:
        """The work's progress; its answer goes to ``then``, whatever goes wrong becomes one sentence."""
        try:
            answer = yield from work
            if self._work is work:  # not stopped before it began
                then(answer)
        except MoldcalcError as error:
            self.error = str(error)
        except MemoryError:
            self.error = "There is not enough memory for this; choose a coarser fineness or a smaller scan."
        except Exception as error:
            self.error = f"This could not be worked out ({type(error).__name__}); what is shown is what was found before."
        finally:
            if self._work is work:
                self._work, self.busy, self.doing = None, False, ""

    def stop(self) -> None:
        """End the work between two steps; what was found before stays."""
        if self._work is not None:
            work, self._work = self._work, None
            with self.hold_sync():
                self.busy, self.doing, self.note = False, "", "Stopped. What is shown is what was found before."
            if not work.gi_running:
                work.close()


def in_a_kernel() -> bool:
    """Whether a Jupyter kernel runs this, whose loop hears messages between two steps."""
    from IPython import get_ipython

    return getattr(get_ipython(), "kernel", None) is not None


def table_html(caption: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A plain table; everything in it is escaped."""
    if not rows:
        return ""
    head = "".join(f'<th scope="col" style="{LEFT}">{escape(word)}</th>' for word in heads)
    cells = [f'<th scope="row" style="{LEFT}">{escape(first)}</th>'
             + "".join(f'<td style="{LEFT}" data-head="{escape(name)}">{escape(word)}</td>' for name, word in zip(heads[1:], rest, strict=False))
             for first, *rest in rows]
    body = "".join(f"<tr>{row}</tr>" for row in cells)
    return f'<table aria-label="{escape(caption)}"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'


def button(name: str, label: str, *, main: bool = False, off: bool = False) -> dict[str, Any]:
    """A button."""
    return {"kind": "button", "name": name, "label": label, "main": main, "off": off}


def select(name: str, label: str, choices: Mapping[str, str], value: str) -> dict[str, Any]:
    """A choice of a few words: value -> label."""
    offered = [{"value": key, "label": words} for key, words in choices.items()]
    return {"kind": "select", "name": name, "label": label, "value": value, "choices": offered}


def slider(name: str, label: str, low: float, high: float, step: float, value: float, text: str) -> dict[str, Any]:
    """A slider."""
    return {"kind": "range", "name": name, "label": label, "min": low, "max": high, "step": step, "value": value, "text": text}
