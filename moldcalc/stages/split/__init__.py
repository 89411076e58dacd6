"""Where the shell comes apart: draft, keys, outlines, and what a way of dividing costs."""

from moldcalc.stages.split.draft import (
    best_draft_of_ball,
    directions_of_cap,
    draft_of_cap,
    draft_offset,
    key_draft,
    least_key_half_angle,
    pieces_of_ball,
)
from moldcalc.stages.split.outline import Outline, outline, points_from_photo
from moldcalc.stages.split.profile import best_draft, split_outline, split_profiles
from moldcalc.stages.split.sections import Arc, Notch, OutlineSplit, Profiles, Seam, said_of_arc, unseen
from moldcalc.stages.split.trade import break_even_volume, cheapest_split, divide_cost, fill_cost, fill_mass, split_time

__all__ = [
    "Arc", "Notch", "Outline", "OutlineSplit", "Profiles", "Seam", "best_draft", "best_draft_of_ball", "break_even_volume", "cheapest_split",
    "directions_of_cap", "divide_cost", "draft_of_cap", "draft_offset", "fill_cost", "fill_mass", "key_draft", "least_key_half_angle", "outline",
    "pieces_of_ball", "points_from_photo", "said_of_arc", "split_outline", "split_profiles", "split_time", "unseen",
]
