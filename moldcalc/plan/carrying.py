"""Stage handling, worked out when it is asked for: every lift of the job, and what trimming its edges does to air, hands and ears."""

from typing import Any, cast

from moldcalc.errors import EntryError, Fault, clipped
from moldcalc.job.job import Job
from moldcalc.job.tables import Lift
from moldcalc.stages import handling as h
from moldcalc.stages.handling.lifting_tables import Coupling
from moldcalc.stages.layup import laminate_density

Values = dict[str, Any]
Row = dict[str, Any]

WORST = {"horizontal": "reach", "vertical": "height", "travel": "travel", "asymmetry": "twist", "frequency": "how often", "coupling": "hold"}


def carrying(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """Each lift by the revised lifting equation, and for several people by the public guidance on teams."""
    rows["handling.lift"] = made = [_lift(job, v, rows, lift) for lift in job.handling.lift]
    indices = [row["index"] for row in made if row.get("index") is not None]
    if indices:
        v["handling.largest_index"] = max(indices)


def _mass(job: Job, v: Values, rows: dict[str, list[Row]], lift: Lift) -> float:
    if lift.load == "a section":
        for row in rows["layup.section"]:
            if row["name"] == lift.section:
                return float(row["mass"])
        names = ", ".join(row["name"] for row in rows["layup.section"])
        raise EntryError(Fault(f"Section of the lift '{clipped(lift.name)}'", clipped(lift.section) or "empty", f"it must be one of: {names}"))
    if lift.load == "my own figure":
        if lift.mass is None:
            raise EntryError(Fault(f"Mass of the lift '{clipped(lift.name)}'", "empty", "give a value, or choose what is lifted"))
        return float(lift.mass)
    name = {"heaviest section": "layup.heaviest", "shell": "layup.mass", "closed mold": "handling.mold_mass",
            "mold with a cast": "handling.mold_with_cast", "a cast": "casting.with_fixings"}[lift.load]
    return float(v[name])


def _lift(job: Job, v: Values, rows: dict[str, list[Row]], lift: Lift) -> Row:
    """One lift: its mass, what one person may be asked for there, what the team may be, and the mass over that."""
    mass = _mass(job, v, rows, lift)
    people = lift.people or min(job.handling.people_lifting, 4)
    ends = [h.Hold(h.reach_for.si(depth=lift.depth, vertical=height) if lift.reach is None else lift.reach, height, lift.twist)
            for height in (lift.from_height, lift.to_height)]
    found = h.lift(load=mass / people, origin=ends[0], destination=ends[1], coupling=cast(Coupling, lift.hold), lifts_per_minute=lift.per_hour / 60,
                   duration=lift.hours, set_down_with_care=lift.with_care)
    limit = found.origin if found.destination is None or found.origin.weight <= found.destination.weight else found.destination
    row: Row = {"name": lift.name, "what": lift.section if lift.load == "a section" else lift.load, "mass": mass, "people": people,
                "person": found.weight, "from": float(lift.from_height), "to": float(lift.to_height), "reach": ends[0].horizontal,
                "costs": WORST[limit.worst], "way": "cradle or hoist", "turned": lift.turned, "falls": lift.falls}
    if found.weight > 0:
        team = h.team_capability.si(capabilities=[found.weight] * people)
        way = h.way_to_move(mass=mass, person=found.weight, people=people, turned=lift.turned, passes_balance=lift.falls)
        row |= {"team": team.capability, "index": mass / team.capability, "way": way.way}
        if people > 2:
            row["added"] = team.added
    return row


def trimming(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """Edge to be trimmed, its dust, and a day's vibration and noise of the grinder."""
    said = job.handling
    length = h.trimming_length.si(joints=[float(joint.length) for joint in said.joint] or [0.0],
                                  open_edges=sum(row["foot"] for row in rows["layup.section"]))
    glass, resin = job.cards.reinforcement, job.cards.laminating_resin
    density = laminate_density.si(fibre_mass_fraction=job.resolved("layup.fibre_mass_fraction"), fibre_density=glass.fibre_density,
                                  resin_density=resin.density)
    v["handling.trim_length"] = length
    v["handling.trim_dust"] = h.dust_mass.si(length=length, thickness=v["layup.flange_thickness"], kerf=said.kerf, density=density)
    if said.room is not None:
        v["handling.dust_in_room"] = h.dust_in_room.si(mass=v["handling.trim_dust"], room=said.room, share=said.dust_share)
    v["handling.vibration"] = h.daily_vibration.si(magnitudes=[said.grinding_vibration], times=[said.grinding_time])
    if said.grinding_vibration > 0:
        v["handling.vibration_time"] = h.vibration_time.si(magnitude=said.grinding_vibration, value=h.ACTION_VALUE)
    if said.grinding_time > 0:
        v["handling.noise"] = h.daily_level.si(levels=[said.grinding_noise], times=[said.grinding_time])
        v["handling.noise_dose"] = h.noise_dose.si(levels=[said.grinding_noise], times=[said.grinding_time])

