"""Choose for me: the lightest wall that the cards offer for a job's flattest panel. Worked out only when somebody asks."""

from collections.abc import Iterator
from typing import cast

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.job.cards import Core, Reinforcement, Resin, card_names, find_card
from moldcalc.job.job import Job
from moldcalc.plan.strength import POISSON, head_on_panel
from moldcalc.stages import layup as y
from moldcalc.stages.layup.kinds import Edges
from moldcalc.units import Span, read

#: Ribs to be tried beside the job's own: apart, radius of the former [m]; one every 200 to 400 mm is common practice.
RIBS = ((0.2, 0.015), (0.3, 0.015), (0.3, 0.025), (0.4, 0.025))
#: Plies over a rib, as many as most makers lay: common practice.
RIB_PLIES = 2
#: Foam for ribs [kg/m³]: common practice.
FORMER = 40.0
#: Plies in a wall, at most: more is a day's work more.
MOST_PLIES = 16
#: Dry glass in each facing, for knocks [kg/m²]: one ply of 300 g/m², common practice.
LEAST_FACING = 0.3


def choose_for(job: Job) -> y.Choice:
    """The lightest wall for the job's flattest panel, and the three next lightest of other kinds.

    Raises
    ------
    EntryError
        The panel's size is not given, or the cards offer nothing that can be used.
    """
    said = job.layup
    missing = [Fault(job.entry(f"layup.{name}").label, "empty", "give a value: the flattest panel decides")
               for name in ("flat_height", "flat_width") if getattr(said, name) is None]
    if missing or said.flat_height is None or said.flat_width is None:
        raise EntryError(missing)
    bottom, top = head_on_panel(job, said.flat_height)
    coat = said.surface_thickness * job.cards.surface_coat.density
    return y.choose_stack(
        height=float(said.flat_height), width=float(said.flat_width), bottom_pressure=bottom, top_pressure=top,
        allowed_deflection=float(said.allowed_deflection), reinforcements=list(_reinforcements(job)), cores=list(_cores(job)),
        ribs=[y.RibOffer(f"{radius:g} m at {spacing:g} m", spacing, radius, RIB_PLIES, FORMER) for spacing, radius in RIBS],
        edges=cast(Edges, said.panel_edges), poisson_ratio=POISSON, most_plies=MOST_PLIES, surface_coat=coat,
        resin_price=said.resin_price, coat_price=coat * (said.resin_price or 0.0),
        least_facing=LEAST_FACING)


def _reinforcements(job: Job) -> Iterator[y.Reinforcement]:
    resin = job.cards.laminating_resin
    for name in card_names("reinforcement", job.folders):
        card = find_card(name, "reinforcement", job.folders)
        assert isinstance(card, Reinforcement) and isinstance(resin, Resin)
        ply = y.ply_thickness.si(areal_weight=card.areal_weight, fibre_mass_fraction=card.fibre_mass_fraction, fibre_density=card.fibre_density,
                                 resin_density=resin.density)
        low, high = (card.modulus.low, card.modulus.high) if isinstance(card.modulus, Span) else (card.modulus, card.modulus)
        yield y.Reinforcement(name, float(card.areal_weight), float(card.fibre_mass_fraction), ply, low, float(card.modulus), high,
                              job.layup.glass_price)


def _cores(job: Job) -> Iterator[y.Core]:
    for name in card_names("core", job.folders):
        card = find_card(name, "core", job.folders)
        assert isinstance(card, Core)
        for words in filter(None, (part.strip() for part in card.sheets.split(","))):
            thickness = read(words, "m", entry=f"Thicknesses sold of {clipped(card.label)}")
            if thickness > 0:
                yield y.Core(name, thickness, float(card.density), float(card.modulus), float(card.shear_modulus), float(job.layup.bond),
                             job.layup.core_price)


def entries_of(stack: y.Stack) -> dict[str, object]:
    """The entries that make a stack the job's own. Its outer facing is laid with as many plies as the inner one."""
    entries: dict[str, object] = {"materials.reinforcement": stack.reinforcement.name, "layup.fibre_mass_fraction": None,
                                  "layup.rib_spacing": f"{stack.rib.spacing!r} m" if stack.rib else None}
    if stack.core:
        entries |= {"materials.core": stack.core.name, "layup.construction": "sandwich", "layup.core_thickness": f"{stack.core.thickness!r} m",
                    "layup.facing_plies": stack.inner_plies}
    else:
        entries |= {"layup.construction": "solid", "layup.facing_plies": -(-stack.inner_plies // 2)}
    if stack.rib:
        entries |= {"layup.rib_radius": f"{stack.rib.radius!r} m", "layup.rib_plies": stack.rib.plies, "layup.rib_run": stack.run}
    return entries
