"""Stage handling, worked out when it is asked for: the mold on its legs, on a sling, in four hands."""

from math import cos, pi, sin
from typing import Any

from moldcalc.job.job import Job
from moldcalc.stages import handling as h

Values = dict[str, Any]
Row = dict[str, Any]

#: Rubber feet or timber on a floor: from memory.
FRICTION = 0.4


def standing(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """Centre of mass, tip angle and the load of each leg, of the closed mold with a cast in it; sling and handles."""
    said = job.handling
    mass = v["handling.mold_with_cast"]
    if said.legs is not None:
        _legs(job, v, rows, mass)
    if said.sling_angle is not None:
        v["handling.sling_pull"] = h.sling_pull.si(mass=mass, angle=said.sling_angle, legs=2)
    if said.centre_along is not None:
        spread = min(said.handle_spread, 2 * said.centre_along)
        found = h.handle_places.si(centre=said.centre_along, length=max(job.original.length, said.centre_along + spread / 2), spread=spread)
        v["handling.handle_first"], v["handling.handle_second"] = found.first, found.second


def over_lowest(job: Job) -> float:
    """Centre of mass over the lowest point of the mold: as you gave it, else as of a thin dome, half its height either way up. [m]"""
    given = job.handling.centre_height
    return float(h.half_ball_centre.si(radius=job.original.height)) if given is None else float(given)


def feet(legs: int, radius: float) -> tuple[list[float], list[float]]:
    """Places of legs evenly round a ring, one side of it square to x. [m]"""
    turns = [pi / legs + 2 * pi * leg / legs for leg in range(legs)]
    return [radius * cos(turn) for turn in turns], [radius * sin(turn) for turn in turns]


def _legs(job: Job, v: Values, rows: dict[str, list[Row]], mass: float) -> None:
    said = job.handling
    v["handling.centre"] = centre = said.leg_height + over_lowest(job)
    x, y = feet(said.legs or 0, float(said.leg_radius))
    place = {"x": x, "y": y, "centre_x": float(said.off_centre), "centre_y": 0.0}
    found = h.tipping.si(**place, centre_height=centre)
    if not found.stands:
        return
    v["handling.tip_angle"] = found.angle
    push = h.push_over.si(mass=mass, lever=found.lever, push_height=said.leg_height + job.original.height, friction=FRICTION)
    v["handling.tip_push"] = push.tips
    even = h.leg_loads.si(**place, mass=mass)
    worst = h.rocking_loads.si(**place, mass=mass).worst if said.legs == 4 else even
    rows["handling.leg"] = [{"name": f"leg {number}", "x": a, "y": b, "load": load, "worst": most}
                            for number, (a, b, load, most) in enumerate(zip(x, y, even, worst, strict=True), 1)]
    v["handling.leg_load"], v["handling.leg_worst"] = max(even), max(worst)
    v["handling.leg_radius_for"] = h.ring_radius_for.si(angle=said.least_lean, legs=said.legs, centre_height=centre)
