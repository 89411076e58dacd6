"""The links of the chain for the split, stiffness, closing, lifting, standing and trimming: stage -> what each is called, and the work.

The calculations are imported when the first of their results is asked for: most panels show none.
"""

from moldcalc.plan.linking import Work, link

_LINKS = {
    "split": (("The split", "split", "split"),),
    "layup": (("The flattest panel", "strength", "strength"),),
    "handling": (("Closing", "closing", "closing"), ("Lifting", "carrying", "carrying"), ("Standing", "standing", "standing"),
                 ("Trimming", "carrying", "trimming")),
}

SHELL_LATER: dict[str, tuple[tuple[str, Work], ...]] = {
    stage: tuple((called, link(module, name)) for called, module, name in links) for stage, links in _LINKS.items()
}
