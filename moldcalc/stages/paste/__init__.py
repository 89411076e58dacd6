"""Thickened rubber and fills: loading, what hangs, how many litres."""

from moldcalc.stages.paste.hang import beyond_tests, loading_to_hold, yield_stress_at_loading, yield_stress_from_hang
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
    "band_volume", "batchelor", "beyond_tests", "bowl_pocket_volume", "brinkman", "bulk_volume", "cone_pocket_volume", "einstein",
    "filler_volume_fraction", "fillet_volume", "groove_volume", "krieger_dougherty", "loading_to_hold", "maron_pierce", "patch_volume",
    "pocket_volume", "roscoe_diverse", "roscoe_equal", "strip_volume", "thickened_density", "volume_gain", "yield_stress_at_loading",
    "yield_stress_from_hang",
]
