"""Which task waits for which, when the next coat may go on, and which sections can be laid at the same time."""

from moldcalc.stages.schedule.chain import CoatOfChain, latest_starts, latest_today, startable
from moldcalc.stages.schedule.hours import week_openings
from moldcalc.stages.schedule.path import Arc, Planned, chance_by, critical_path, earliest_starts, pert_mean, pert_spread
from moldcalc.stages.schedule.rounds import Rounds, largest_matching, rounds_of
from moldcalc.stages.schedule.window import latest_start, recoat_with_nights

__all__ = [
    "Arc", "CoatOfChain", "Planned", "Rounds", "chance_by", "critical_path", "earliest_starts", "largest_matching", "latest_start",
    "latest_starts", "latest_today", "pert_mean", "pert_spread", "recoat_with_nights", "rounds_of", "startable", "week_openings",
]
