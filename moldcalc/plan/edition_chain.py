"""The links of the chain for materials, keys and casting: stage -> what each is called in a sentence, and the work.

The calculations are imported when the first of their results is asked for: most panels show none.
"""

from moldcalc.plan.linking import Work, link

_LINKS = {
    "materials": ("touching", (("What may touch what", "touching"), ("Which rubber", "choosing"))),
    "keys": ("keys", (("Strips", "strips"), ("Shims", "shims"), ("Flange keys", "flange_keys"), ("Buttons", "buttons"), ("The opening", "opening"),
                      ("The stiffness of the rubber", "modulus"), ("The seam band", "band"), ("Peeling", "peel"))),
    "casting": ("edition", (("Batches of a cast", "batches"), ("Airing", "airing"), ("The chain of sizes", "sizes"), ("The mold's life", "life"),
                            ("The cost", "cost"), ("The head of a pour", "head"))),
}

EDITION_LATER: dict[str, tuple[tuple[str, Work], ...]] = {
    stage: tuple((called, link(module, name)) for called, name in links) for stage, (module, links) in _LINKS.items()
}
