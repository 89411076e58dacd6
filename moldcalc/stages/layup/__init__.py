"""Plies, resin, core: thickness, weight and stiffness of the support shell."""

from moldcalc.stages.layup.choose import choose_stack
from moldcalc.stages.layup.cloth import cloth_modulus
from moldcalc.stages.layup.coefficients import clamped_coefficients, supported_coefficients
from moldcalc.stages.layup.cover import patch_overlap_factor, random_layers_needed, random_share_with_fewer, strip_overlap_factor
from moldcalc.stages.layup.curved import curved_panel
from moldcalc.stages.layup.cut import roll_length, strips_needed
from moldcalc.stages.layup.fractions import fibre_mass_fraction, fibre_volume_fraction, laminate_density, void_fraction
from moldcalc.stages.layup.lamina import reduced_stiffness, rotated_stiffness
from moldcalc.stages.layup.laminate import laminate_constants, laminate_stiffness
from moldcalc.stages.layup.mat import (
    mat_modulus,
    mat_modulus_by_class_rule,
    mat_modulus_by_rule,
    random_by_average,
    random_by_three_eighths,
)
from moldcalc.stages.layup.micro import chamis, halpin_tsai, isotropic_shear_modulus, rule_of_mixtures, straight_ply
from moldcalc.stages.layup.offers import Choice, Core, Reinforcement, RibOffer, Stack
from moldcalc.stages.layup.panels import clamped_panel, linear_theory, plate_stiffness, supported_panel
from moldcalc.stages.layup.ply import (
    laminate_areal_mass,
    marine_rule_thickness,
    plies_for_thickness,
    ply_thickness,
    resin_areal_mass,
)
from moldcalc.stages.layup.resin import largest_mix, most_by_laminating, resin_batches, resin_to_mix
from moldcalc.stages.layup.ribs import rib_section, ribbed_panel, two_way_panel
from moldcalc.stages.layup.sandwich import (
    core_for_stiffness,
    sandwich_plate_stiffness,
    sandwich_shear_stiffness,
    sandwich_stiffness,
    thin_face_error,
)
from moldcalc.stages.layup.shell import (
    flange_areal_mass,
    sandwich_areal_mass,
    sandwich_thickness,
    section_mass,
    solid_stiffness,
    solid_thickness_for,
    thin_face_stiffness,
)
from moldcalc.stages.layup.strips import clamped_strip, strip_stresses, supported_strip, three_point_strip, wrinkling_stress
from moldcalc.stages.layup.walls import clamped_round_panel, closed_ball, closed_ring, free_top_wall, supported_round_panel

__all__ = [
    "Choice", "Core", "Reinforcement", "RibOffer", "Stack", "chamis", "choose_stack", "clamped_coefficients",
    "clamped_panel", "clamped_round_panel", "clamped_strip", "closed_ball", "closed_ring", "cloth_modulus",
    "core_for_stiffness", "curved_panel", "fibre_mass_fraction", "fibre_volume_fraction", "flange_areal_mass",
    "free_top_wall", "halpin_tsai", "isotropic_shear_modulus", "laminate_areal_mass", "laminate_constants",
    "laminate_density", "laminate_stiffness", "largest_mix", "linear_theory", "marine_rule_thickness", "mat_modulus",
    "mat_modulus_by_class_rule", "mat_modulus_by_rule", "most_by_laminating", "patch_overlap_factor", "plate_stiffness",
    "plies_for_thickness", "ply_thickness", "random_by_average", "random_by_three_eighths", "random_layers_needed",
    "random_share_with_fewer", "reduced_stiffness", "resin_areal_mass", "resin_batches", "resin_to_mix", "rib_section",
    "ribbed_panel", "roll_length", "rotated_stiffness", "rule_of_mixtures", "sandwich_areal_mass",
    "sandwich_plate_stiffness", "sandwich_shear_stiffness", "sandwich_stiffness", "sandwich_thickness", "section_mass",
    "solid_stiffness", "solid_thickness_for", "straight_ply", "strip_overlap_factor", "strip_stresses", "strips_needed",
    "supported_coefficients", "supported_panel", "supported_round_panel", "supported_strip", "thin_face_error",
    "thin_face_stiffness", "three_point_strip", "two_way_panel", "void_fraction", "wrinkling_stress",
]
