"""Plies, resin, core: thickness, weight and stiffness of the support shell."""

from moldcalc.stages.layup.cover import patch_overlap_factor, random_layers_needed, random_share_with_fewer, strip_overlap_factor
from moldcalc.stages.layup.cut import roll_length, strips_needed
from moldcalc.stages.layup.fractions import fibre_mass_fraction, fibre_volume_fraction, laminate_density, void_fraction
from moldcalc.stages.layup.ply import (
    laminate_areal_mass,
    marine_rule_thickness,
    plies_for_thickness,
    ply_thickness,
    resin_areal_mass,
)
from moldcalc.stages.layup.resin import largest_mix, most_by_laminating, resin_batches, resin_to_mix
from moldcalc.stages.layup.shell import (
    flange_areal_mass,
    sandwich_areal_mass,
    sandwich_thickness,
    section_mass,
    solid_stiffness,
    solid_thickness_for,
    thin_face_stiffness,
)

__all__ = [
    "fibre_mass_fraction", "fibre_volume_fraction", "flange_areal_mass", "laminate_areal_mass", "laminate_density",
    "largest_mix", "marine_rule_thickness", "most_by_laminating", "patch_overlap_factor", "plies_for_thickness",
    "ply_thickness", "random_layers_needed", "random_share_with_fewer", "resin_areal_mass", "resin_batches",
    "resin_to_mix", "roll_length", "sandwich_areal_mass", "sandwich_thickness", "section_mass", "solid_stiffness",
    "solid_thickness_for", "strip_overlap_factor", "strips_needed", "thin_face_stiffness", "void_fraction",
]
