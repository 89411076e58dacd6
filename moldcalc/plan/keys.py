"""Stage keys: strips and shims along the joints, keys and buttons, where the rubber is cut, and what it takes to get it off."""

from functools import lru_cache
from math import isfinite
from typing import Any, NamedTuple

from moldcalc.errors import EntryError, Fault
from moldcalc.job.job import Job
from moldcalc.plan.saying import plain
from moldcalc.stages import keys as k
from moldcalc.stages.split import least_key_half_angle

Values = dict[str, Any]
Rows = dict[str, list[dict[str, Any]]]

#: scatter that is said of both formulas for the modulus (verified statement)
SCATTER = 0.30
#: width of skin that two hands stretch open, for a force that one can imagine
HANDS = 0.1
#: the state of a strip -> how a sentence says it
BOND = {"too soon": "too soon", "bonds": "fresh enough", "abrade and test": "abrade and test"}


class Strip(NamedTuple):
    """The section of a strip, and its length in all. [m]"""

    base: float
    top: float
    height: float
    length: float


def strip_of(job: Job, v: Values) -> Strip:
    """The strips listed under paste come first; else the section entered here, along all joints."""
    fills = [fill for fill in job.paste.fill if fill.kind == "strip" and fill.length]
    joints = _joint_length(job, v)
    length = sum(float(fill.length or 0.0) for fill in fills)
    first = next((fill for fill in fills if fill.width and fill.thickness), None)
    if first is not None:
        base = float(first.width or 0.0)
        return Strip(base, float(first.width_top or base), float(first.thickness or 0.0), length)
    said = job.keys
    return Strip(float(said.strip_base), float(said.strip_top), float(said.strip_height), length or joints)


def _joint_length(job: Job, v: Values) -> float:
    return sum(float(joint.length) for joint in job.handling.joint) or float(v.get("split.joint", 0.0))


def _joints(job: Job, v: Values) -> list[tuple[str, float]]:
    """Joints by name and length; one line for them all where they were not named."""
    named = [(joint.name, float(joint.length)) for joint in job.handling.joint]
    whole = float(v.get("split.joint", 0.0))
    return named or ([("all joints", whole)] if whole else [])


def strips(job: Job, v: Values, rows: Rows) -> None:
    """Strips: their mass, slot, castings from the channel, pins, and while they bond. Nothing where there is no joint and no strip."""
    said, strip = job.keys, strip_of(job, v)
    v["keys.joint"] = _joint_length(job, v)
    if not strip.length > 0:
        return
    v["keys.strip_length"] = strip.length
    slot = k.strip_slot.si(shim=said.shim, clearance=said.clearance, depth=said.slot_depth, strip_top=strip.top, strip_height=strip.height)
    v["keys.slot_width"], v["keys.slot_side"], v["keys.slot_under"] = slot
    v["keys.strip_mass"] = k.strip_mass.si(
        length=strip.length,
        width_top=strip.top,
        width_base=strip.base,
        height=strip.height,
        slot_width=slot.width,
        slot_depth=said.slot_depth,
        density=job.cards.rubber.density,
    )
    named = _joints(job, v)
    rest = strip.length - sum(length for _, length in named)
    if rest > 1e-6:
        named = [*named, ("other strips", rest)]
    pieces = [(name, piece) for name, length in named for piece in _pieces(length, float(said.channel))]
    rows["keys.strip"] = [
        {"name": plain(name), "length": length, "pieces": len(_pieces(length, float(said.channel))), "piece": _pieces(length, float(said.channel))[0]}
        for name, length in named
    ]
    cast = _castings(tuple(length for _, length in pieces), float(said.channel), float(said.trim))
    v["keys.castings"], v["keys.casting_waste"] = cast.number, cast.waste
    rows["keys.casting"] = [
        {"name": f"casting {number}", "pieces": [pieces[at] for at in those], "left": float(said.channel) - sum(pieces[at][1] for at in those)}
        for number, those in enumerate(cast.pieces, 1)
    ]
    v["keys.casting_mass"] = v["keys.strip_mass"] / strip.length * float(said.channel)
    v["keys.pins"] = k.pins_needed.si(lengths=[length for _, length in pieces], spacing=said.pin_spacing, rows=float(said.pin_rows))
    _window(job, v)


def _window(job: Job, v: Values) -> None:
    window = k.strip_window.si(demold_time=v["cure.demold_time"], latest_recoat=v["cure.latest_recoat"], factor=1.0)
    v["keys.window_from"], v["keys.window_to"] = window.earliest, window.latest
    age = job.keys.strip_age
    v["keys.strip_state"] = "age not said" if age is None else BOND[k.strip_bond(float(age), window.earliest, window.latest)]
    if not window.open:
        v["keys.strip_state"] = BOND["abrade and test"]


def _pieces(length: float, most: float) -> list[float]:
    found: list[float] = k.in_pieces.si(lengths=[length], most=most)
    return found


@lru_cache(maxsize=256)
def _castings(lengths: tuple[float, ...], channel: float, trim: float) -> k.Cutting:
    return k.channel_castings.si(lengths=list(lengths), channel_length=channel, trim=trim)


@lru_cache(maxsize=256)
def _sheets(lengths: tuple[float, ...], height: float, sheet: tuple[float, float], kerf: float) -> k.Shims:
    return k.shims.si(lengths=list(lengths), height=height, sheet_length=sheet[0], sheet_width=sheet[1], kerf=kerf)


def shims(job: Job, v: Values, rows: Rows) -> None:
    """Shims along the joints, cut from sheets."""
    said, named = job.keys, _joints(job, v)
    if not named:
        return
    height = v["keys.shim_height"] = k.shim_height.si(slot_depth=said.slot_depth, flange_height=job.layup.flange_width, above=said.above)
    sheet = (float(said.sheet_length), float(said.sheet_width))
    pieces = [(name, piece) for name, length in named for piece in _pieces(length, max(sheet))]
    found = _sheets(tuple(length for _, length in pieces), height, sheet, float(said.kerf))
    v["keys.shim_sheets"], v["keys.shim_strips"], v["keys.shim_release"] = found.sheets, found.strips, found.release_area
    rows["keys.shim"] = [{"name": f"strip {number}", "pieces": [pieces[at] for at in those]} for number, those in enumerate(found.pieces, 1)]
    rows["keys.shim_joint"] = [{"name": plain(name), "length": length, "shims": len(_pieces(length, max(sheet)))} for name, length in named]


def flange_keys(job: Job, v: Values, rows: Rows) -> None:
    """Keys round the rubber's flange, their draft against the pull, and what flanges between sections ask for."""
    said = job.keys
    size = k.key_size.si(base=said.key_base, height=said.key_height, draft=said.key_draft)
    v["keys.key_top"], v["keys.key_volume"] = size
    left = k.draft_against_pull.si(half_angle=said.key_draft, lean=said.key_lean)
    v["keys.key_left"], v["keys.key_said"] = left, k.said_of_key(left, float(said.least_draft))
    if v["layup.sections"] >= 2:
        v["keys.joint_half_angle"] = least_key_half_angle.si(sections=float(v["layup.sections"]))
    if job.original.base_outline > 0:
        found = k.flange_keys.si(length=job.original.base_outline, width=said.key_base, most_spacing=said.key_spacing)
        v["keys.flange_keys"], v["keys.flange_spacing"] = found


def buttons(job: Job, v: Values, rows: Rows) -> None:
    """Buttons on what hangs: by the load where one was pulled, and by the spacing."""
    said = job.keys
    if said.hanging_area is None:
        return
    thick = v["coats.mean_thickness"] if said.hanging_thickness is None else float(said.hanging_thickness)
    load = v["keys.hang_load"] = k.hanging_load.si(area=said.hanging_area, thickness=thick, density=job.cards.rubber.density, pull=said.pull)
    hold = said.button_hold
    found = k.buttons.si(
        area=said.hanging_area,
        load=0.0 if hold is None else load,
        hold=1.0 if hold is None else hold,
        load_factor=said.load_factor,
        most_spacing=said.button_spacing,
    )
    v["keys.buttons"], v["keys.buttons_apart"] = found.number, found.spacing
    v["keys.button_load"] = load / found.number
    v["keys.buttons_by_spacing"] = found.by_spacing
    if hold is not None:
        v["keys.buttons_by_load"] = found.by_load


def opening(job: Job, v: Values, rows: Rows) -> None:
    """The stretch at every neck, how far the cut runs, the three ways to open."""
    said = job.keys
    allowed = v["keys.allowed_stretch"] = k.allowed_stretch.si(elongation=said.elongation, share=said.stretch_share)
    at_cut = allowed if said.cut_share is None else k.allowed_stretch.si(elongation=said.elongation, share=said.cut_share)
    mouth = said.mouth if said.mouth is not None else said.station[0].girth if said.station else job.original.base_outline or None
    neck, bulge, runs = _worst(job, v, rows, allowed, None if mouth is None else float(mouth))
    if neck is None or bulge is None or mouth is None:
        return
    v["keys.worst_neck"], v["keys.worst_bulge"] = neck, bulge
    v["keys.worst_stretch"] = k.hoop_strain.si(neck=neck, bulge=bulge)
    cut = runs if said.cut is None else float(said.cut)
    v["keys.cut_runs"] = cut
    found = k.ways_to_open.si(
        neck=neck,
        bulge=bulge,
        mouth=float(mouth),
        cut=cut,
        thickness=v["coats.mean_thickness"],
        fold_radius=said.fold,
        allowed=allowed,
        allowed_at_cut=at_cut,
    )
    v["keys.way"] = found.chosen or "none will do"
    rows["keys.way"] = [
        {"name": way.way, "needed": way.needed, "allowed": way.allowed, "will": "will do" if way.will_do else "too much", "needed_why": way.why}
        for way in found.ways
    ]


def _worst(job: Job, v: Values, rows: Rows, allowed: float, mouth: float | None) -> tuple[float | None, float | None, float]:
    """The worst neck, what must pass it, and how far the cut runs: from the girths, or as entered."""
    said = job.keys
    if said.station:
        stations = sorted(said.station, key=lambda station: station.height)
        reach = k.seam_reach.si(heights=[float(s.height) for s in stations], girths=[float(s.girth) for s in stations], allowed=allowed)
        v["keys.cut_to"], v["keys.left_stretch"] = reach.cut_to, reach.worst_left
        names = {float(s.height): s.name for s in stations}
        rows["keys.neck"] = [
            {"name": plain(names[at.height]), "height": at.height, "girth": at.girth, "bulge": at.bulge, "stretch": at.strain} for at in reach.necks
        ]
        if not reach.necks:
            widest = max(float(s.girth) for s in stations)
            return widest, widest, reach.cut_to
        worst = max(reach.necks, key=lambda at: at.strain)
        return worst.girth, worst.bulge, reach.cut_to
    if said.neck is None or said.bulge is None:
        return None, None, 0.0
    least = k.least_cut.si(mouth=mouth if mouth is not None else said.neck, bulge=said.bulge, allowed=allowed)
    v["keys.cut_to"] = least
    return float(said.neck), float(said.bulge), least


def worst_stretch(job: Job, v: Values) -> float:
    """Stretch at the worst neck; 0 where nothing is known of one."""
    found = dict(v)
    try:
        opening(job, found, {})
    except EntryError:
        return 0.0
    return float(found.get("keys.worst_stretch", 0.0))


def modulus_of(job: Job) -> k.ModulusBand:
    """Young's modulus of the rubber on the card, with its scatter."""
    shore = min(float(job.cards.rubber.hardness_shore_a), 99.0)
    return k.modulus_band.si(hardness_shore_a=shore, scatter=SCATTER)


def modulus(job: Job, v: Values, rows: Rows) -> None:
    """How stiff the rubber is, and the pull that opens the worst neck."""
    band = modulus_of(job)
    v["keys.modulus_low"], v["keys.modulus"], v["keys.modulus_high"] = band
    if "keys.worst_stretch" in v:
        v["keys.neck_force"] = k.stretch_force.si(modulus=band.likely, strain=v["keys.worst_stretch"], area=2 * HANDS * v["coats.mean_thickness"])


def band(job: Job, v: Values, rows: Rows) -> None:
    """The knife's way through the seam band. Nothing where there is no band."""
    said = job.keys
    fill = next((fill for fill in job.paste.fill if fill.kind == "band" and fill.use == "seam band" and fill.width), None)
    width = said.band_width if said.band_width is not None else fill.width if fill else None
    thick = said.band_thickness if said.band_thickness is not None else float(job.coats.wall) + float(fill.thickness or 0.0) if fill else None
    length = said.seam if said.seam is not None else fill.length if fill else None
    if width is None or thick is None or not length or not width > 0:
        return
    v["keys.band_thick"], v["keys.band_wide"], v["keys.seam_length"] = float(thick), float(width), float(length)
    found = k.cut_passes.si(thickness=thick, width=width, last=said.last, swing=said.swing)
    v["keys.cut_outer"], v["keys.cut_last"], v["keys.cut_side"] = found
    zigzag = k.zigzag.si(length=length, pitch=said.pitch, swing=said.swing, thickness=thick, depth_share=said.zigzag_share, last=said.last)
    v["keys.zigzag_legs"], v["keys.zigzag_knife"], v["keys.zigzag_slant"], v["keys.zigzag_depth"] = zigzag


def peel(job: Job, v: Values, rows: Rows) -> None:
    """The pull that peels, at the angle that hands take, and along the face for comparison."""
    said, thick, stiff = job.keys, v["coats.mean_thickness"], modulus_of(job).likely
    line = v["keys.peel"] = k.peel_force.si(adhesion=said.adhesion, modulus=stiff, thickness=thick, angle=said.peel_angle)
    v["keys.opening_force"] = k.opening_force.si(line_force=line, width=said.peel_width)
    flat = k.peel_force.si(adhesion=said.adhesion, modulus=stiff, thickness=thick, angle=0.0)
    v["keys.flat_force"] = k.opening_force.si(line_force=flat, width=said.peel_width)
    v["keys.patch_wait"] = v["cure.demold_time"]
    if not all(isfinite(v[name]) for name in ("keys.opening_force", "keys.flat_force")):
        raise EntryError(Fault("Peeling", "beyond all measure", "look at the adhesion and the angle again"))
