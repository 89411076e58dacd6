"""The casts: walls and batches, weight, the chain of sizes, the mold's life and its cost."""

from moldcalc.stages.casting.diffusion import share_vented, shrinkage_so_far, thermal_shrinkage, venting_time
from moldcalc.stages.casting.head import HeadStretch, head_stretch
from moldcalc.stages.casting.heat import heat_of_mix, most_warming
from moldcalc.stages.casting.life import LIVES, CastCost, LifeBand, Molds, casts_per_mold, cost_of_cast, molds_needed
from moldcalc.stages.casting.mass import cast_mass, edition_mass, solid_cast_mass
from moldcalc.stages.casting.shrinkage import linear_from_volume_shrinkage, oversize, shrunk_length
from moldcalc.stages.casting.sizes import FIGURES, Oversize, ShrinkageBand, ShrinkageFigure, Sizes, original_for, shrinkage_band, size_chain
from moldcalc.stages.casting.walls import Mix, Pour, Slush, lay_up_batches, mixing_water, pour_plan, slush_fillings, wall_from_mass

__all__ = [
    "FIGURES", "LIVES", "CastCost", "HeadStretch", "LifeBand", "Mix", "Molds", "Oversize", "Pour", "ShrinkageBand", "ShrinkageFigure",
    "Sizes", "Slush", "cast_mass", "casts_per_mold", "cost_of_cast", "edition_mass", "head_stretch",
    "heat_of_mix", "lay_up_batches", "linear_from_volume_shrinkage", "mixing_water", "molds_needed", "most_warming", "original_for", "oversize",
    "pour_plan", "share_vented", "shrinkage_band", "shrinkage_so_far", "shrunk_length", "size_chain", "slush_fillings",
    "solid_cast_mass", "thermal_shrinkage", "venting_time", "wall_from_mass",
]
