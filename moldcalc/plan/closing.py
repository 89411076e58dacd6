"""Stage handling, worked out when it is asked for: what opens the joints, which bolts hold them and where their holes go; what lifts the mold."""

from typing import Any, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.job.job import Job
from moldcalc.job.tables import Joint
from moldcalc.stages import handling as h
from moldcalc.stages.handling.closing import Usable
from moldcalc.units import show

Values = dict[str, Any]
Row = dict[str, Any]


class Bolt(NamedTuple):
    """The bolt of all joints: its diameter, hole and washer [m], what it may be counted on for, and how far out it stands from shell and toe [m]."""

    diameter: float
    hole: float
    washer: float
    usable: Usable
    line: float
    toe: float


def closing(job: Job, v: Values, rows: dict[str, list[Row]]) -> None:
    """What a bolt may be counted on for, the holes of every joint, and the uplift of an open base."""
    _uplift(job, v)
    bolt = _bolt(job, v)
    found = [_joint(job, v, joint, bolt) for joint in job.handling.joint]
    rows["handling.drilling"] = found
    rows["handling.hole"] = [{"name": f"{row['name']}, hole {hole.number}", "position": hole.position, "load": hole.load}
                             for row in found for hole in row["holes"]]
    if found:
        v["handling.drilled"] = sum(len(row["holes"]) for row in found)
        loaded = [row for row in found if "load" in row]
        if loaded:
            v["handling.separating"] = 2 * max(row["pull"] for row in loaded)
            v["handling.bolt_load"] = load = max(row["load"] for row in loaded)
            v["handling.bolt_share"] = load / bolt.usable.counted_on


def _bolt(job: Job, v: Values) -> Bolt:
    said, width = job.handling, job.layup.flange_width
    toe = width - said.bolt_line
    if toe <= 0:
        raise EntryError(Fault("Bolts out from the shell", show(said.bolt_line, "mm"),
                               f"it must be less than the flange's width, {show(width, 'mm')}"))
    crushing = h.CRUSHING["foam core 80 kg/m³" if said.core_in_flange else "glass laminate"]
    usable = h.usable_pull(size=said.bolt, torque=said.torque, nut_factor=h.NUT_FACTOR[said.thread], scatter=h.NUT_FACTOR_SCATTER, crushing=crushing,
                           property_class=said.property_class, large_washer=said.washer == "large")
    size = h.fastener(said.bolt)
    made = Bolt(size.diameter, h.clearance_hole(said.bolt), size.large_washer if said.washer == "large" else size.washer, usable, said.bolt_line, toe)
    v["handling.bolt_torque"], v["handling.bolt_counts_on"], v["handling.bolt_most"] = usable.torque, usable.counted_on, usable.most
    v["handling.bolt_hole"], v["handling.bolt_washer"] = made.hole, made.washer
    return made


def _joint(job: Job, v: Values, joint: Joint, bolt: Bolt) -> Row:
    """One joint: its pull, its holes, the opening at its foot. Without a width, or for casts laid up by hand, it is spaced as if nothing pulled."""
    said, layup, density, level = job.handling, job.layup, job.cards.cast.solid_density, job.original.height
    low = joint.z_low or 0.0
    high = low if joint.z_high is None else joint.z_high
    width = (joint.width or 0.0) if said.drilled_for == "poured solid" else 0.0
    flange = {"width": layup.flange_width, "thickness": v["layup.flange_thickness"], "modulus": job.cards.reinforcement.modulus}
    row: Row = {"name": joint.name, "length": float(joint.length), "holes": [], "refused": "", "line_load": 0.0, "width": width,
                "pull": h.separating_force.si(density=density, width=width, top_depth=max(0.0, level - high),
                                              bottom_depth=max(0.0, level - low)).each_flange if high > low else 0.0}
    try:
        holes = h.drilling_list.si(
            length=joint.length, z_low=low, z_high=high, level=level, density=density, width=width, bolt_capacity=bolt.usable.counted_on,
            line_to_bolt=bolt.line, bolt_to_toe=bolt.toe, largest_spacing=said.bolt_spacing, end_distance=said.end_distance,
            bolt_diameter=bolt.diameter, hole_diameter=bolt.hole, gap=said.flange_gap, flange_width=flange["width"],
            flange_thickness=flange["thickness"], flange_modulus=flange["modulus"])
    except EntryError as error:
        return row | {"refused": str(error), "bolts": 0}
    row |= {"holes": holes, "bolts": len(holes)} | ({"load": max(hole.load for hole in holes)} if width else {})
    apart = [hole.to_next for hole in holes if hole.to_next is not None]
    if apart:
        foot = h.head_pressure.si(density=density, depth=max(0.0, level - low)) * width / 2
        row |= {"closest": min(apart), "widest": max(apart), "line_load": foot}
        if width:
            row["gap"] = h.flange_gap.si(line_load=foot, spacing=apart[0], **flange).hinged
        # pins stand half-way between the outermost two holes, so that no hole meets them
        pins = h.pin_places.si(length=joint.length, end_distance=holes[0].position + apart[0] / 2)
        if pins.first < pins.second:
            row |= {"pin_low": pins.first, "pin_high": pins.second}
    return row


def _uplift(job: Job, v: Values) -> None:
    """Of a mold that stands open on its board while the cast is liquid; nothing where the walls lean in toward it."""
    said, volume = job.handling, v["original.volume"]
    if said.casting_position != "as it stands" or said.base_opening is None or volume is None:
        return
    found = h.uplift.si(density=job.cards.cast.solid_density, base_area=said.base_opening, head=job.original.height, volume=volume,
                        held_down=v["handling.mold_mass"] + said.held_down)
    if found.as_mass > 0:
        v["handling.uplift"], v["handling.uplift_force"], v["handling.uplift_missing"] = found.as_mass, found.force, found.missing_mass
