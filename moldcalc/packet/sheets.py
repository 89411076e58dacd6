"""The packet that is printed and carried to the bench: one self-contained page, black and white, A4 or Letter."""

from pathlib import Path
from typing import Literal

from moldcalc.errors import EntryError, Fault, MissingError, clipped
from moldcalc.packet import edition, handled, picks
from moldcalc.packet.saying import css_text
from moldcalc.packet.surveyed import surveyed
from moldcalc.plan.results import Plan
from moldcalc.units import unit_in

Paper = Literal["A4", "Letter"]
PAPERS = ("A4", "Letter")


def packet_html(plan: Plan, paper: Paper = "A4", home: Path | None = None) -> str:
    """The whole packet as one HTML page without script, and without anything to fetch.

    ``home`` is the job's file: what was found on a scan lies beside it, and is drawn where the job uses it.

    Raises
    ------
    EntryError
        A paper that we don't know.
    FileError
        What was found on a scan is damaged.
    MissingError
        The template engine is not installed.
    """
    if paper not in PAPERS:
        raise EntryError(Fault("Paper", clipped(paper), f"it must be one of: {', '.join(PAPERS)}"))
    try:
        from jinja2 import Environment, FileSystemLoader, StrictUndefined
        from markupsafe import Markup
    except ImportError:
        raise MissingError("jinja2 is not installed here, and the packet needs it; install it with 'pip install jinja2'.") from None
    room = Environment(loader=FileSystemLoader(Path(__file__).parent), autoescape=True, undefined=StrictUndefined,
                       trim_blocks=True, lstrip_blocks=True)
    job = plan.job
    return room.get_template("packet.html.j2").render(
        paper=paper, title=job.start.title, footer=css_text(clipped(job.start.title, 60)), note=job.start.note, casts=job.start.casts,
        units="US customary" if plan.system == "us" else "metric", degrees=unit_in("°C", plan.system), grams=unit_in("g", plan.system),
        answer=Markup(picks.answer(plan)),  # `Plan.say` has escaped all that is not its own <b>
        groups=picks.summary(plan), checks=[caution for caution in plan.cautions if caution.kind == "check"],
        cares=picks.cares(plan), warnings=picks.card_cautions(plan), tables=picks.entries(plan), cards=picks.cards(plan),
        coats=picks.coats(plan), paste=picks.paste(plan), sections=picks.sections(plan), bolts=picks.bolts(plan),
        rubber_caution=job.cards.rubber.caution, strip=plan.say("{layup.strip_width} × {layup.strip_length}"),
        drilling=handled.drilling(plan), lifts=handled.lifts(plan), turning=handled.turning(plan), trimming=handled.trimming(plan),
        uplift=Markup(handled.uplift(plan)), survey=surveyed(plan, home), wait=plan.say("{layup.partial_cure}"), overlap=plan.say("{layup.overlap}"),
        touching=edition.touching(plan), keysheet=edition.keys(plan), openingsheet=edition.opening(plan), castsheet=edition.casting(plan),
        moldlabel=edition.label(plan))
