"""Handling: what a poured cast pushes, what closes the shell, who carries it, what it stands on, and what trimming it makes."""

from moldcalc.stages.handling.air import (
    MOLAR_VOLUME,
    amorphous_silica_limit,
    diluted_concentration,
    dilution_flow,
    purge_time,
    share_of_limit,
    vapour_density,
)
from moldcalc.stages.handling.bands import band_loads, equal_load_centres, equal_load_depths
from moldcalc.stages.handling.base import Uplift, frustum_volume, uplift
from moldcalc.stages.handling.bolts import Preload, Torque, preload, preload_band, proof_load, stress_area, torque_for, torque_long, wing_nut_torque
from moldcalc.stages.handling.carrying import Corners, Handles, Shares, carry_shares, corner_shares, handle_places
from moldcalc.stages.handling.closing import Closing, Usable, closings, fewest, usable_pull
from moldcalc.stages.handling.counting import bolts_along, bolts_round
from moldcalc.stages.handling.drilling import Hole, drilling_list
from moldcalc.stages.handling.edges import dust_in_room, dust_mass, rim_speed, trimming_length, usable_concentration
from moldcalc.stages.handling.equation import METRIC, US, Constants, Hold, Multipliers
from moldcalc.stages.handling.fasteners import (
    CRUSHING,
    FASTENERS,
    NUT_FACTOR,
    NUT_FACTOR_SCATTER,
    PROOF_STRESS,
    WING_NUT_TORQUE,
    Fastener,
    clearance_hole,
    fastener,
    proof_stress,
)
from moldcalc.stages.handling.flange import (
    EDGE_DIAMETERS,
    HOLE_OVER_BOLT,
    PITCH_DIAMETERS,
    WIDTH_DIAMETERS,
    PlaneJoint,
    Prying,
    plane_joint,
    prying,
    washer_limit,
    washer_pressure,
)
from moldcalc.stages.handling.head import greatest_head, head_now, lift_levels, slurry_density
from moldcalc.stages.handling.legs import Edge, Rocking, Tipping, leg_loads, rocking_loads, tipping
from moldcalc.stages.handling.lifting import Lift, Limit, lift, lifting_index, reach_for, recommended_weight, recommended_weight_us
from moldcalc.stages.handling.loads import Separating, SideWall, separating_by_widths, separating_force, side_wall
from moldcalc.stages.handling.mass import (
    Balance,
    Section,
    centre_of_mass,
    cone_shell_centre,
    half_ball_centre,
    half_cylinder_centre,
    section_mass,
    turned_over,
)
from moldcalc.stages.handling.multipliers import batch_frequency, coupling_multiplier, frequency_multiplier, spell_name, work_spell
from moldcalc.stages.handling.noise import allowed_time, daily_level, level_of_dose, noise_dose
from moldcalc.stages.handling.pins import Pair, Pins, farthest_pair, pin_places, pin_turn
from moldcalc.stages.handling.pressure import GRAVITY, head_pressure, side_thrust
from moldcalc.stages.handling.protection import ADVICE, AS_OF, DEFER, LIMITS, Advice, advice_for
from moldcalc.stages.handling.slings import TwoLegs, angle_factor, roll_balance, roll_force, sling_angle, sling_pull, two_leg_pulls
from moldcalc.stages.handling.spacing import Gap, flange_gap, gasket_spacing, spacing_for_gap
from moldcalc.stages.handling.standing import Push, Supports, push_over, ring_lever, ring_radius_for, ring_tip_angle, tip_angle, two_supports
from moldcalc.stages.handling.team import (
    GUIDELINE,
    IDEAL_LIFT,
    PUSH,
    REFERENCE_MASS,
    TEAM_SOURCE,
    Team,
    Way,
    guideline_share,
    guideline_weight,
    one_end_lift,
    team_capability,
    way_to_move,
)
from moldcalc.stages.handling.vibration import (
    ACTION_POINTS,
    ACTION_VALUE,
    LIMIT_POINTS,
    LIMIT_VALUE,
    daily_vibration,
    partial_vibration,
    vibration_points,
    vibration_time,
)

__all__ = [
    "ACTION_POINTS", "ACTION_VALUE", "ADVICE", "AS_OF", "CRUSHING", "DEFER", "EDGE_DIAMETERS", "FASTENERS", "GRAVITY", "GUIDELINE",
    "HOLE_OVER_BOLT", "IDEAL_LIFT", "LIMITS", "LIMIT_POINTS", "LIMIT_VALUE", "METRIC", "MOLAR_VOLUME", "NUT_FACTOR", "NUT_FACTOR_SCATTER",
    "PITCH_DIAMETERS", "PROOF_STRESS", "PUSH", "REFERENCE_MASS", "TEAM_SOURCE", "US", "WIDTH_DIAMETERS", "WING_NUT_TORQUE", "Advice",
    "Balance", "Closing", "Constants", "Corners", "Edge", "Fastener", "Gap", "Handles", "Hold", "Hole", "Lift", "Limit", "Multipliers",
    "Pair", "Pins", "PlaneJoint", "Preload", "Prying", "Push", "Rocking", "Section", "Separating", "Shares", "SideWall", "Supports", "Team",
    "Tipping", "Torque", "TwoLegs", "Uplift", "Usable", "Way", "advice_for", "allowed_time", "amorphous_silica_limit", "angle_factor",
    "band_loads", "batch_frequency", "bolts_along", "bolts_round", "carry_shares", "centre_of_mass", "clearance_hole", "closings",
    "cone_shell_centre", "corner_shares", "coupling_multiplier", "daily_level", "daily_vibration", "diluted_concentration", "dilution_flow",
    "drilling_list", "dust_in_room", "dust_mass", "equal_load_centres", "equal_load_depths", "farthest_pair", "fastener", "fewest",
    "flange_gap", "frequency_multiplier", "frustum_volume", "gasket_spacing", "greatest_head", "guideline_share", "guideline_weight",
    "half_ball_centre", "half_cylinder_centre", "handle_places", "head_now", "head_pressure", "leg_loads", "level_of_dose", "lift",
    "lift_levels", "lifting_index", "noise_dose", "one_end_lift", "partial_vibration", "pin_places", "pin_turn", "plane_joint", "preload",
    "preload_band", "proof_load", "proof_stress", "prying", "purge_time", "push_over", "reach_for", "recommended_weight",
    "recommended_weight_us", "rim_speed", "ring_lever", "ring_radius_for", "ring_tip_angle", "rocking_loads", "roll_balance", "roll_force",
    "section_mass", "separating_by_widths", "separating_force", "share_of_limit", "side_thrust", "side_wall", "sling_angle", "sling_pull",
    "slurry_density", "spacing_for_gap", "spell_name", "stress_area", "team_capability", "tip_angle", "tipping", "torque_for",
    "torque_long", "trimming_length", "turned_over", "two_leg_pulls", "two_supports", "uplift", "usable_concentration", "usable_pull",
    "vapour_density", "vibration_points", "vibration_time", "washer_limit", "washer_pressure", "way_to_move", "wing_nut_torque",
    "work_spell",
]
