"""Keys, strips and shims along the joints; where the rubber is cut, and what it takes to stretch and peel it off."""

from moldcalc.stages.keys.band import CutPasses, Zigzag, cut_passes, zigzag
from moldcalc.stages.keys.cutting import Cutting, Shims, channel_castings, in_pieces, shims
from moldcalc.stages.keys.holding import Buttons, FlangeKeys, buttons, flange_keys, hanging_load, pins_needed
from moldcalc.stages.keys.modulus import ModulusBand, gent_modulus, modulus_band, ruess_modulus
from moldcalc.stages.keys.opening import Neck, Opening, SeamReach, WayToOpen, seam_reach, ways_to_open
from moldcalc.stages.keys.peel import least_peel_angle, opening_force, peel_force, stiff_peel_force
from moldcalc.stages.keys.shape import KeySize, draft_against_pull, half_angle_for_pull, key_lean, key_size, said_of_key
from moldcalc.stages.keys.stretch import (
    allowed_stretch,
    bend_strain,
    cut_glove_strain,
    hoop_strain,
    least_cut,
    stretch_force,
    stretch_stress,
)
from moldcalc.stages.keys.strips import Slot, StripWindow, shim_height, strip_bond, strip_mass, strip_slot, strip_window

__all__ = [
    "Buttons", "CutPasses", "Cutting", "FlangeKeys", "KeySize", "ModulusBand", "Neck", "Opening", "SeamReach", "Shims", "Slot", "StripWindow",
    "WayToOpen", "Zigzag", "allowed_stretch", "bend_strain", "buttons", "channel_castings", "cut_glove_strain", "cut_passes",
    "draft_against_pull", "flange_keys", "gent_modulus", "half_angle_for_pull", "hanging_load", "hoop_strain", "in_pieces", "key_lean", "key_size",
    "least_cut", "least_peel_angle", "modulus_band", "opening_force", "peel_force", "pins_needed", "ruess_modulus", "said_of_key", "seam_reach",
    "shim_height", "shims", "stiff_peel_force", "stretch_force", "stretch_stress", "strip_bond", "strip_mass", "strip_slot", "strip_window",
    "ways_to_open", "zigzag",
]
