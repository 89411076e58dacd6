"""Stage lay-up, worked out when it is asked for: what the flattest panel of the shell gives under a cast that is poured solid."""

from typing import Any, NamedTuple, cast

from moldcalc.job.job import Job
from moldcalc.stages import handling as h
from moldcalc.stages import layup as y
from moldcalc.stages.layup import kinds

Values = dict[str, Any]

#: Of glass laminates laid by hand, near 0.3: from memory.
POISSON = 0.3


class Wall(NamedTuple):
    """The wall between flanges without its surface coat: one facing, core, all of it [m]; facing's modulus, core's two moduli [Pa]."""

    facing: float
    core: float
    thickness: float
    modulus: float
    core_modulus: float
    shear_modulus: float

    @property
    def stiffness(self) -> float:
        """Bending as a plate, for a metre of width. [N·m]"""
        return float(y.sandwich_plate_stiffness.si(facing_modulus=self.modulus, facing_thickness=self.facing, core_thickness=self.core,
                                                   core_modulus=self.core_modulus, facing_poisson_ratio=POISSON, core_poisson_ratio=POISSON))

    @property
    def shear_stiffness(self) -> float | None:
        """Of the core, for a metre of width; none of a solid wall. [N/m]"""
        if not self.core:
            return None
        return float(y.sandwich_shear_stiffness.si(core_shear_modulus=self.shear_modulus, core_thickness=self.core, facing_thickness=self.facing))


def wall_of(job: Job, ply: float) -> Wall:
    """The wall that the entries make of plies so thick; where core covers the face in part, a panel is taken to have it."""
    said, core = job.layup, job.cards.core
    cored = said.construction == "sandwich" and said.core_thickness > 0 and said.core_share > 0
    middle = float(said.core_thickness) if cored else 0.0
    facing = said.facing_plies * ply
    return Wall(facing, middle, 2 * facing + middle, job.cards.reinforcement.modulus, core.modulus if cored else 0.0, core.shear_modulus)


def head_on_panel(job: Job, height: float) -> tuple[float, float]:
    """Pressure of a cast poured solid along the lower and the upper edge of a panel that begins at the lowest point. [Pa]"""
    density, full, lift = job.cards.cast.solid_density, job.original.height, job.layup.lift_height
    bottom = h.greatest_head.si(density=density, height=0.0, full_height=full, lift_height=lift)
    deep = full if lift is None else min(full, lift)
    # a lift that has set pushes no more, so the panel meets one lift at a time and the lowest is as high as any
    return bottom, h.head_pressure.si(density=density, depth=max(0.0, deep - height))


def strength(job: Job, v: Values, rows: dict[str, list[dict[str, Any]]]) -> None:
    """Pressure, deflection and stresses of the flattest panel. Nothing where its size is not given."""
    said = job.layup
    if said.flat_height is None or said.flat_width is None:
        return
    height, width = float(said.flat_height), float(said.flat_width)
    wall = wall_of(job, v["layup.ply_thickness"])
    bottom, top = head_on_panel(job, height)
    v["layup.panel_pressure"], v["layup.plate_stiffness"] = bottom, wall.stiffness
    outline = {"height": height, "width": width, "bottom_pressure": bottom, "top_pressure": top}
    span = min(height, width)
    if said.flat_radius is not None:
        _curved(v, wall, outline, float(said.flat_radius))
    elif said.rib_spacing is not None and said.rib_spacing < (width if said.rib_run == "up" else height):
        _ribbed(job, v, wall, outline)
        span = min(height if said.rib_run == "up" else width, float(said.rib_spacing))
    else:
        _flat(job, v, wall, outline)
    v["layup.deflection_share"] = v["layup.deflection"] / said.allowed_deflection
    _stresses(v, wall, bottom, span)


def _flat(job: Job, v: Values, wall: Wall, outline: dict[str, float]) -> None:
    panel = y.clamped_panel if job.layup.panel_edges == "clamped" else y.supported_panel
    found = panel.si(**outline, stiffness=wall.stiffness, thickness=wall.thickness, poisson_ratio=POISSON, shear_stiffness=wall.shear_stiffness)
    v["layup.deflection"], v["layup.over_limit"] = found.deflection, found.over_limit
    v["layup.deflection_bending"] = found.bending
    if wall.core:
        v["layup.deflection_shear"] = found.shear


def _curved(v: Values, wall: Wall, outline: dict[str, float], radius: float) -> None:
    found = y.curved_panel.si(**outline, radius_across=radius, stiffness=wall.stiffness, stretch_stiffness=2 * wall.modulus * wall.facing,
                              thickness=wall.thickness, shear_stiffness=wall.shear_stiffness)
    v["layup.deflection"], v["layup.over_limit"] = found.deflection, found.over_limit
    v["layup.deflection_flat"], v["layup.curve_gain"], v["layup.panel_rise"] = found.flat, found.gain, found.rise


def _ribbed(job: Job, v: Values, wall: Wall, outline: dict[str, float]) -> None:
    """As 'choose for me' reckons it: the outermost bay and the ribs."""
    said, glass, core = job.layup, job.cards.reinforcement, job.cards.core
    rib = y.RibOffer("rib", said.rib_spacing or 0.0, said.rib_radius, said.rib_plies, 0.0)
    edges, run = cast(kinds.Edges, said.panel_edges), cast(kinds.Run, said.rib_run)
    held = kinds.held(kinds.Span(edges=edges, **outline), rib, run)
    offer = y.Reinforcement(glass.label, glass.areal_weight, 0.5, wall.facing / said.facing_plies, wall.modulus, wall.modulus, wall.modulus)
    middle = y.Core(core.label, wall.core, core.density, wall.core_modulus, wall.shear_modulus, 0.0) if wall.core else None
    plies = (said.facing_plies, said.facing_plies) if middle else (2 * said.facing_plies, 0)
    bay, both = kinds.deflections(kinds.Wall(offer, middle, rib, run, held), *plies, wall.modulus, POISSON)
    v["layup.deflection"], v["layup.deflection_bay"] = both, bay
    v["layup.over_limit"] = y.linear_theory.si(deflection=bay, thickness=wall.thickness).over_limit


def _stresses(v: Values, wall: Wall, pressure: float, span: float) -> None:
    found = y.strip_stresses.si(pressure=pressure, span=span, facing_modulus=wall.modulus, facing_thickness=wall.facing,
                                core_thickness=wall.core, core_modulus=wall.core_modulus)
    v["layup.facing_stress"] = found.outer_fibre
    if wall.core:
        v["layup.core_stress"] = found.core_shear
        v["layup.wrinkling_stress"] = y.wrinkling_stress.si(facing_modulus=wall.modulus, core_modulus=wall.core_modulus,
                                                            core_shear_modulus=wall.shear_modulus, factor=0.5)
