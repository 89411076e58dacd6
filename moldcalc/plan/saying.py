"""Makers' words in sentences and tables of ours."""

from moldcalc.job.cards import Card


def plain(name: str) -> str:
    """A maker's text without braces, since braces stand for results where a sentence is filled in."""
    return name.replace("{", "(").replace("}", ")")


def cast_family(card: Card) -> str:
    """What a casting material is in the tables of pairs, shrinkage and life; its own label where the card does not say."""
    family = getattr(card, "family", "not said")
    return str(card.label or card.name or "a cast of no name") if family == "not said" else str(family)
