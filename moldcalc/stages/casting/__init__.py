"""The casts: what they weigh, what a poured one pushes, how much smaller it comes out, and the bolts that hold it."""

from moldcalc.stages.casting.bolts import bolts_along, bolts_round
from moldcalc.stages.casting.mass import cast_mass, edition_mass, solid_cast_mass
from moldcalc.stages.casting.pressure import GRAVITY, head_pressure, side_thrust
from moldcalc.stages.casting.shrinkage import linear_from_volume_shrinkage, oversize, shrunk_length

__all__ = [
    "GRAVITY", "bolts_along", "bolts_round", "cast_mass", "edition_mass", "head_pressure", "linear_from_volume_shrinkage",
    "oversize", "shrunk_length", "side_thrust", "solid_cast_mass",
]
