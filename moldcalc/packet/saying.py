"""Words and numbers as they stand on a printed sheet. Picks from the plan; works nothing out."""

from typing import Any

from moldcalc.plan.results import Plan, said
from moldcalc.units import System, shown, unit_in


def on_the_scale(mass: float, system: System) -> tuple[str, str]:
    r"""A mass to weigh, as the scale shows it, and the same in grams where the big figure is in ounces.

    Whole grams from 100 g, tenths below; hundredths of an ounce under 10 oz, tenths above.

    Examples
    --------
    >>> on_the_scale(1.3619, "metric"), on_the_scale(0.0681, "metric")
    (('1362\xa0g', ''), ('68.1\xa0g', ''))
    >>> on_the_scale(0.0681, "us")
    ('2.40\xa0oz', '68.1\xa0g')
    """
    number = shown(mass, "g")
    grams = f"{number:.0f} g" if number >= 99.95 else f"{number:.1f} g"
    if system == "metric":
        return tight(grams), ""
    ounces = shown(mass, "g", "us")
    text = f"{ounces:.1f}" if ounces >= 9.995 else f"{ounces:.2f}"
    return tight(f"{text} {unit_in('g', 'us')}"), tight(grams)


def cell(plan: Plan, row: dict[str, Any], name: str, unit: str) -> str:
    """One value of a row in the reader's units; a dash where the plan has none."""
    return tight(said(row[name], unit, plan.system)) if row.get(name) is not None else "–"


def tight(text: str) -> str:
    """A value that no line break comes into: '2 h 34 min' stays on one line, 'from to' may break before 'to'."""
    return text.replace(" ", "\u00a0").replace("\u00a0to\u00a0", " to\u00a0")


def css_text(text: str) -> str:
    """A string for CSS' ``content``, in which nothing can end the string or the style sheet."""
    return "".join(letter if letter.isascii() and letter.isalnum() else f"\\{ord(letter):06x}" for letter in text)
