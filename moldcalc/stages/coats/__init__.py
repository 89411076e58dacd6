"""The rubber coats: what a face holds, how many coats make the wall, how much rubber they take."""

from moldcalc.stages.coats.build import (
    build_coats,
    coat_mass,
    covers,
    film_at_high_points,
    mean_thickness_from_cups,
    rubber_per_area,
)
from moldcalc.stages.coats.drip import capillary_length, drip_cutoff, drip_growth_time, drip_spacing, drip_threshold, drip_wavelength
from moldcalc.stages.coats.film import GRAVITY, drained_thickness, hanging_thickness, held_thickness, yield_stress_to_hold
from moldcalc.stages.coats.flow import falling_film_mass, falling_film_reynolds, falling_film_speed, film_flow, plug_speed

__all__ = [
    "GRAVITY", "build_coats", "capillary_length", "coat_mass", "covers", "drained_thickness", "drip_cutoff", "drip_growth_time",
    "drip_spacing", "drip_threshold", "drip_wavelength", "falling_film_mass", "falling_film_reynolds", "falling_film_speed",
    "film_at_high_points", "film_flow", "hanging_thickness", "held_thickness", "mean_thickness_from_cups", "plug_speed",
    "rubber_per_area", "yield_stress_to_hold",
]
