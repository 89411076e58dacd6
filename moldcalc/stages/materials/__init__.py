"""What may touch what, patch tests that hold the next step, and which rubber to take."""

from moldcalc.stages.materials.choose import CHEMISTRIES, HARDNESSES, Choice, Reason, choose_chemistry, choose_hardness
from moldcalc.stages.materials.pairs import (
    ALWAYS,
    CONFIDENCES,
    KINDS,
    UNKNOWN,
    VERDICTS,
    Pair,
    find_pair,
    needs_test,
    read_pairs,
    spelled,
)
from moldcalc.stages.materials.patch import Hold, PatchTest, patch_holds, patch_state
from moldcalc.stages.materials.touch import MEETINGS, ROLES, Thing, Touch, labels, touch_map

__all__ = [
    "ALWAYS", "CHEMISTRIES", "CONFIDENCES", "HARDNESSES", "KINDS", "MEETINGS", "ROLES", "UNKNOWN", "VERDICTS", "Choice", "Hold", "Pair",
    "PatchTest", "Reason", "Thing", "Touch", "choose_chemistry", "choose_hardness", "find_pair", "labels", "needs_test", "patch_holds",
    "patch_state", "read_pairs", "spelled", "touch_map",
]
