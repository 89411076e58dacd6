"""Parts by weight and volume, what the scale can resolve, cups cut to the working time."""

from moldcalc.stages.mixing.batches import Batches, brushing_time, cut_batches, least_by_scale, most_by_time, usable_time
from moldcalc.stages.mixing.losses import batch_loss, cup_film_mass, loss_share, mixed_mass
from moldcalc.stages.mixing.ratios import (
    Rescue,
    base_for_part,
    part_for,
    rescue,
    split_total,
    volume_ratio_from_weight,
    volume_read_as_weight_error,
    weight_ratio_from_volume,
)
from moldcalc.stages.mixing.stoichiometry import amine_equivalent_weight, blend_epoxide_equivalent, parts_per_hundred_resin
from moldcalc.stages.mixing.weighing import (
    below_minimum_load,
    hb44_maintenance_error,
    oiml_r76_error,
    ratio_uncertainty,
    readability_uncertainty,
    smallest_batch,
    worst_case_smallest_part,
)

__all__ = [
    "Batches", "Rescue", "amine_equivalent_weight", "base_for_part", "batch_loss", "below_minimum_load",
    "blend_epoxide_equivalent", "brushing_time", "cup_film_mass", "cut_batches", "hb44_maintenance_error",
    "least_by_scale", "loss_share", "mixed_mass", "most_by_time", "oiml_r76_error", "part_for",
    "parts_per_hundred_resin", "ratio_uncertainty", "readability_uncertainty", "rescue", "smallest_batch",
    "split_total", "usable_time", "volume_ratio_from_weight", "volume_read_as_weight_error",
    "weight_ratio_from_volume", "worst_case_smallest_part",
]
