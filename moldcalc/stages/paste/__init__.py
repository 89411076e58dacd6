"""Thickened rubber and fills: loading, what hangs, how many litres."""

from moldcalc.stages.paste.hang import beyond_tests, loading_to_hold, yield_stress_at_loading, yield_stress_from_hang
from moldcalc.stages.paste.pockets import blind_hole_fill, cube_cavity_fill, dimple_fill, slot_fill, two_spheres_fill, v_groove_fill
from moldcalc.stages.paste.shadows import (
    cone_undercut_share,
    draft_base_of_sphere,
    draft_fill_of_sphere,
    ring_groove_fill,
    shadow_fill_of_mushroom,
    shadow_fill_of_ring,
    sphere_share_below_draft,
)
from moldcalc.stages.paste.thickener import bulk_volume, filler_volume_fraction, thickened_density, volume_gain
from moldcalc.stages.paste.viscosity import batchelor, brinkman, einstein, krieger_dougherty, maron_pierce, roscoe_diverse, roscoe_equal
from moldcalc.stages.paste.volumes import (
    band_volume,
    bowl_pocket_volume,
    cone_pocket_volume,
    fillet_volume,
    groove_volume,
    patch_volume,
    pocket_volume,
    strip_volume,
)

__all__ = [
    "band_volume", "batchelor", "beyond_tests", "blind_hole_fill", "bowl_pocket_volume", "brinkman", "bulk_volume", "cone_pocket_volume",
    "cone_undercut_share", "cube_cavity_fill", "dimple_fill", "draft_base_of_sphere", "draft_fill_of_sphere", "einstein",
    "filler_volume_fraction", "fillet_volume", "groove_volume", "krieger_dougherty", "loading_to_hold", "maron_pierce", "patch_volume",
    "pocket_volume", "ring_groove_fill", "roscoe_diverse", "roscoe_equal", "shadow_fill_of_mushroom", "shadow_fill_of_ring", "slot_fill",
    "sphere_share_below_draft", "strip_volume", "thickened_density", "two_spheres_fill", "v_groove_fill", "volume_gain",
    "yield_stress_at_loading", "yield_stress_from_hang",
]
