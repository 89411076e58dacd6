"""Chapter 09's 'choose for me': the lightest walls that the cards offer, side by side; one of them goes into the job."""

from html import escape
from typing import Any

import ipywidgets
import traitlets

from moldcalc.errors import EntryError, Fault
from moldcalc.job import JobFile, open_job
from moldcalc.job.cards import find_card
from moldcalc.panels.scan.sheet import ScanSheet, button, table_html
from moldcalc.panels.static import SHEET, figure_html
from moldcalc.panels.svg import GREY, ORANGE, SKY, VERMILION, Hatches, cut, drawing, line, rect, text
from moldcalc.plan import plan
from moldcalc.stages.layup import Choice, Stack
from moldcalc.units import System, show

__all__ = ["ChooseDesk", "ChooseSheet", "choose_desk", "draw_choice", "in_words"]

HEADS = ("", "wall", "weighs", "gives", "likely range", "thick", "costs", "")
INVITATION = "Run this chapter to choose."


def in_words(stack: Stack, system: System, folders: tuple[Any, ...] = ()) -> str:
    """A wall as a maker says it, from the rubber outwards."""
    glass = find_card(stack.reinforcement.name, "reinforcement", folders).label
    words = f"{stack.inner_plies} + {stack.outer_plies} plies of {glass}" if stack.core else f"{stack.inner_plies} plies of {glass}, solid"
    if stack.core:
        words += f" on {show(stack.core.thickness, 'mm', system)} of {find_card(stack.core.name, 'core', folders).label}"
    if stack.rib:
        words += (f"; half-round ribs of {show(stack.rib.radius, 'mm', system)} radius every {show(stack.rib.spacing, 'mm', system)}, "
                  f"running {stack.run}, {stack.rib.plies} plies over them")
    return words


def together(figure: str) -> str:
    """A figure that no line break comes into; one may stand before 'to'."""
    return figure.replace(" ", "\u00a0").replace("\u00a0to\u00a0", " to\u00a0")


def found(choice: Choice) -> list[Stack]:
    """The walls to be shown: the best and its next, or the stiffest where none does."""
    return [one for one in (choice.best, *choice.others) if one] or [one for one in (choice.stiffest,) if one]


class ChooseSheet(ScanSheet):
    """Looks for the lightest wall when it is asked to, and puts the one that is taken into the job."""

    def __init__(self, jobfile: JobFile) -> None:
        super().__init__(label="Choose for me")
        self.jobfile = jobfile
        self.choice: Choice | None = None
        jobfile.watchers.append(self.show)
        self.show()

    def press(self, name: str) -> None:
        """Choose, or use one of what was found."""
        if name == "choose":
            from moldcalc.plan.choosing import choose_for

            self.choice, self.note = choose_for(self.jobfile.job), ""
            self.show()
        elif name.startswith("use-"):
            stacks = found(self.choice) if self.choice else []
            place = int(name.removeprefix("use-"))
            if not 1 <= place <= len(stacks):
                raise EntryError(Fault("Choice", "not made in this session", "choose first"))
            self._use(stacks[place - 1], place)

    def _use(self, stack: Stack, place: int) -> None:
        from moldcalc.plan.choosing import entries_of

        self.jobfile.keep_all(entries_of(stack), {})
        for told in self.jobfile.watchers:
            told()
        where = f"Kept in {self.jobfile.path.name}." if self.jobfile.path else "In this chapter's plan now. A demo: nothing is kept in a file."
        self.note = f"Wall {place} is the job's now. {where}"

    # what is shown -------------------------------------------------------------------------------------------------
    def show(self) -> None:
        """Answer, controls, table and picture."""
        with self.hold_sync():
            self.answer, self.controls, self.table = self._answer(), self._controls(), self._table()
            self.pictures = [{"svg": draw_choice(self.choice, self.system), "caption": "What a square metre weighs, and what the panel gives: "
                              "a bar for the likely modulus, a line from low to high."}] if self.choice else []

    def _answer(self) -> str:
        said, system = self.jobfile.job.layup, self.system
        if self.choice is None:
            if said.flat_height is None or said.flat_width is None:
                return "Say how large the flattest panel is, in the panel above; then the lightest wall for it can be looked for."
            high, wide, may = (escape(show(length, "mm", system)) for length in (said.flat_height, said.flat_width, said.allowed_deflection))
            return f"For a panel of <b>{high}</b> by <b>{wide}</b> that may give <b>{may}</b>, no wall has been looked for yet."
        best = self.choice.best
        if best is None:
            return ("No wall that the cards offer is stiff enough; the stiffest of them is below. "
                    "Make the panel smaller, pour in lifts, or accept more.")
        return (f"The lightest wall that does: <b>{escape(in_words(best, system, self.jobfile.job.folders))}</b>. It weighs "
                f"<b>{escape(show(best.mass, 'kg/m²', system))}</b> and gives <b>{escape(show(best.deflection, 'mm', system))}</b>.")

    def _controls(self) -> list[dict[str, Any]]:
        given = self.jobfile.job.layup
        made = [button("choose", "Choose for me" if self.choice is None else "Choose again", main=self.choice is None,
                       off=given.flat_height is None or given.flat_width is None)]
        if self.choice and self.choice.best:
            made += [button(f"use-{place}", f"Use wall {place}", main=place == 1) for place in range(1, len(found(self.choice)) + 1)]
        return made

    def _table(self) -> str:
        if self.choice is None:
            return ""
        job, system = self.jobfile.job, self.system
        rows = []
        for place, one in enumerate(found(self.choice), 1):
            cost = "prices not given" if one.cost is None else f"{one.cost:.0f} a m²"
            mass, thick = show(one.mass, "kg/m²", system), show(one.thickness, "mm", system)
            gives, low, high = (show(length, "mm", system) for length in (one.deflection, one.deflection_low, one.deflection_high))
            rows.append([str(place), in_words(one, system, job.folders), *map(together, [mass, gives, f"{low} to {high}", thick, cost]),
                         "core thin for its facings" if one.thin_core else ""])
        now = plan(job)
        gives = show(now.value("layup.deflection"), "mm", system) if "layup.deflection" in now else "not known"
        mass, thick = show(now.value("layup.areal_mass"), "kg/m²", system), show(now.value("layup.thickness"), "mm", system)
        rows.append(["now", "the job's own, as the panel above has it", *map(together, [mass, gives, "", thick, ""]), ""])
        words = (f"{self.choice.kinds} kinds of wall; core over all of the face, prices in your money. The range is the modulus of hand-laid glass, "
                 "the widest guess. The panel is taken as flat: a curved one needs less. An estimate of stiffness; strength, closing and "
                 "carrying are apart.")
        return table_html("Walls", HEADS, rows) + f"<p>{escape(words)}</p>"


def draw_choice(choice: Choice, system: System = "metric") -> str:
    """The walls as bars: mass above, deflection with its range below."""
    stacks = found(choice)
    if not stacks:
        return ""
    hatches = Hatches("choice")
    heaviest, most = max(one.mass for one in stacks), max(one.deflection_high for one in stacks)
    parts, said, y = [], [], 6.0
    for place, one in enumerate(stacks, 1):
        core = f", core {show(one.core.thickness, 'mm', system)}" if one.core else ", solid"
        name = f"{place}: {one.reinforcement.name} {one.inner_plies} + {one.outer_plies}{core}{', ribs' if one.rib else ''}"
        parts.append(text(10, y + 11, cut(name, 52), size=11.5, bold=True))
        for value, whole, fill, label in ((one.mass, heaviest, hatches.fill("rise", SKY), show(one.mass, "kg/m²", system)),
                                          (one.deflection, most, hatches.fill("fall", ORANGE), show(one.deflection, "mm", system))):
            y += 17
            parts += [rect(10, y, 225 * value / whole, 13, fill=fill), text(244, y + 11, label, size=11.5)]
        low, high = (10 + 225 * end / most for end in (one.deflection_low, one.deflection_high))
        parts += [line(low, y + 6.5, high, y + 6.5, width=2, stroke=VERMILION), line(low, y + 2, low, y + 11, width=2, stroke=VERMILION),
                  line(high, y + 2, high, y + 11, width=2, stroke=VERMILION)]
        said.append(f"{name}: {show(one.mass, 'kg/m²', system)}, gives {show(one.deflection, 'mm', system)}")
        y += 25
    parts.append(text(10, y + 8, "above: mass of a square metre or foot; below: what it gives", size=11, fill=GREY))
    return drawing(y + 14, f"Walls: {'; '.join(said)}.", hatches.defs(), *parts)


class ChooseDesk(ipywidgets.VBox):
    """The sheet above and its table below. Stored in a notebook it shows both as they stood."""

    def __init__(self, sheet: ChooseSheet) -> None:
        rows = ipywidgets.HTML()
        rows.add_class("mc-panel")
        traitlets.dlink((sheet, "table"), (rows, "value"), lambda html: f'<div class="mc-table">{html}</div>')
        super().__init__([sheet, rows])
        self.sheet = sheet

    def text(self) -> str:
        """Answer and table as lines."""
        return self.sheet.text()

    def static_html(self) -> str:
        """The desk as it stands in a stored notebook."""
        figures = "".join(figure_html(one) for one in self.sheet.pictures)
        return (f'<section class="mc-static" style="{SHEET}"><p style="font-size:23px;margin:0 0 12px">{self.sheet.answer}</p>'
                f'{figures}{self.sheet.table}<p style="color:#55555b">{INVITATION}</p></section>')

    def __repr__(self) -> str:
        return f"<choose for me: {self.sheet.answer_text()}>"

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        """The live desk, and beside it a still one for readers who have not run the chapter."""
        bundle = super()._repr_mimebundle_(**kwargs)
        data, *rest = bundle if isinstance(bundle, tuple) else (bundle or {},)
        data = {**data, "text/html": self.static_html(), "text/plain": self.text()}
        return (data, *rest) if rest else data


def choose_desk(jobfile: JobFile | None = None) -> ChooseDesk:
    """'Choose for me' on the job in hand, or on the demo."""
    return ChooseDesk(ChooseSheet(jobfile or open_job()))
