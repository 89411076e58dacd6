"""One small declaration a chapter: which entries its panel moves, which results it shows, which pictures it draws."""

from collections.abc import Callable
from dataclasses import dataclass

from moldcalc.panels import divided, outlines, pictures
from moldcalc.plan import Plan


@dataclass(frozen=True)
class Picture:
    """A drawing of the plan and the line under it. What can't be drawn gives an empty text and is left out."""

    draw: Callable[[Plan], str]
    caption: str


@dataclass(frozen=True)
class PanelDeclaration:
    """What a chapter's panel is made of. '*' in a path or a name stands for every row of the job.

    ``answer`` and ``band`` are sentences for `Plan.say`, the first that the plan can say is shown.
    """

    stage: str
    entries: tuple[str, ...]
    results: tuple[str, ...]
    answer: tuple[str, ...]
    band: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()


RUBBER = "Likely {mixing.rubber}, {mixing.rubber:low} to {mixing.rubber:high}. Nine times in ten {mixing.rubber:high} is enough."
RECOAT = "Brushed from {cure.started}: the next coat goes on from {cure.earliest_clock} until {cure.latest_clock}."

DECLARED: dict[str, PanelDeclaration] = {panel.stage: panel for panel in (
    PanelDeclaration(
        stage="start",
        entries=("start.title", "start.casts", "coats.wall", "original.area", "cure.temperature", "materials.rubber"),
        results=("original.area_to_coat", "coats.wall", "mixing.rubber", "mixing.cups", "layup.resin_to_buy", "casting.edition_mixed"),
        answer=("Have {mixing.have} of rubber ready for {coats.count:word} coats over {original.area_to_coat}, "
                "and {casting.edition_mixed} of cast mix for {start.casts} casts.",
                "Have {mixing.have} of rubber ready for {coats.count:word} coats over {original.area_to_coat}."),
        band=(RUBBER,),
        pictures=(Picture(pictures.draw_size, "The area to coat, and what it is made of."),
                  Picture(pictures.draw_coats, "The coats to scale, on an upright face.")),
    ),
    PanelDeclaration(
        stage="original",
        entries=("original.method", "original.area", "original.detail_factor", "original.length", "original.width", "original.height",
                 "original.volume", "original.base_outline", "original.flange_width"),
        results=("original.area_to_coat", "original.smooth_area", "original.area", "original.flange_area", "original.volume",
                 "original.box_area", "original.box_excess", "original.board_load"),
        answer=("There are {original.area_to_coat} to coat: {original.area} of original and {original.flange_area} of flange.",),
        band=("Likely {original.area_to_coat}, {original.area_to_coat:low} to {original.area_to_coat:high}.",),
        pictures=(Picture(pictures.draw_size, "The area to coat, and what it is made of."),),
    ),
    PanelDeclaration(
        stage="mixing",
        entries=("mixing.readability", "mixing.mixing_time", "cure.temperature", "mixing.people", "mixing.people_per_cup", "mixing.cup_volume",
                 "mixing.cup_fill", "mixing.usable_share", "mixing.tolerance", "mixing.reserve"),
        results=("mixing.cups", "mixing.base_with_reserve", "mixing.part_with_reserve", "mixing.usable_time", "mixing.smallest_batch",
                 "mixing.ratio_error", "mixing.volume_ratio", "coats.coat.*.mixed", "coats.coat.*.each", "coats.coat.*.cups"),
        answer=("Mix {mixing.cups} cups; every cup is brushed out within {mixing.usable_time}.", "Mix {mixing.cups} cups."),
        band=(RUBBER,),
        pictures=(Picture(pictures.draw_cups, "Each coat as long as it takes to brush; each box is one cup."),
                  Picture(pictures.draw_working_time, "Working time against room temperature.")),
    ),
    PanelDeclaration(
        stage="cure",
        entries=("cure.temperature", "cure.night_temperature", "cure.humidity", "cure.working_time", "cure.activation_energy",
                 "cure.started", "cure.closing"),
        results=("cure.working_time", "cure.earliest_recoat", "cure.latest_recoat", "cure.demold_time", "cure.factor", "cure.finished_clock",
                 "cure.earliest_clock", "cure.latest_clock", "cure.ready_clock", "cure.dew_point"),
        answer=("At {cure.temperature} the rubber brushes for {cure.working_time}; "
                "the next coat goes on between {cure.earliest_clock} and {cure.latest_clock}.",
                "At {cure.temperature} the rubber brushes for {cure.working_time}."),
        band=("Working time {cure.working_time:low} to {cure.working_time:high}; test a cup before you count on it.",),
        pictures=(Picture(pictures.draw_working_time, "Working time against room temperature; between the two lines lies what is likely."),
                  Picture(pictures.draw_recoat, RECOAT)),
    ),
    PanelDeclaration(
        stage="coats",
        entries=("original.area", "cure.temperature", "coats.high_points_keep", "coats.wall", "coats.most_build", "coats.least_high_points",
                 "coats.coat.*.thickness", "coats.count_growth"),
        results=("mixing.rubber", "mixing.have", "coats.line_wall", "coats.line_flange", "coats.line_fillets", "coats.line_seam",
                 "coats.line_strips", "coats.line_high_points", "coats.line_pockets", "coats.line_losses", "coats.line_reserve",
                 "coats.at_high_points", "coats.hold"),
        answer=("{Coats.count:word} coats put {coats.wall} on the wall. Have {mixing.have} of rubber ready; mix it in {mixing.cups} cups.",),
        band=(RUBBER,),
        pictures=(Picture(pictures.draw_coats, "The coats to scale, on an upright face."),
                  Picture(pictures.draw_recoat, RECOAT)),
    ),
    PanelDeclaration(
        stage="paste",
        entries=("paste.hang_loading_1", "paste.hang_thickness_1", "paste.hang_loading_2", "paste.hang_thickness_2", "paste.loss",
                 "paste.loading", "paste.wanted", "paste.batch", "paste.filler_loading"),
        results=("paste.volume", "paste.net", "paste.mixed", "paste.cups", "paste.each", "paste.each_thickener", "paste.density",
                 "paste.volume_gain", "paste.yield_stress", "paste.sag_thickness", "paste.loading_wanted", "paste.dough_density",
                 "paste.fill.*.volume"),
        answer=("Mix {paste.mixed} of paste in {paste.cups} batches; with {paste.loading} of thickener {paste.sag_thickness} stay up.",
                "Mix {paste.mixed} of paste in {paste.cups} batches.", "Mix {paste.mixed} of paste."),
        band=("Likely {paste.mixed}, {paste.mixed:low} to {paste.mixed:high}.",),
        pictures=(Picture(pictures.draw_paste, "What a dab holds on an upright face, by its thickener."),),
    ),
    PanelDeclaration(
        stage="split",
        entries=("layup.section.*.face", "layup.section.*.draft", "layup.section.*.order", "split.section_hours", "split.joint_hours",
                 "split.rubber_price", "split.hour_price", "split.least_draft", "split.leftover", "split.wanted", "split.fineness"),
        results=("split.sections", "split.joint", "split.section_draft", "split.rounds", "split.outline_sections", "split.outline.*.sections",
                 "split.outline.*.draft", "split.outline.*.filled", "split.work", "split.paste_price", "split.price",
                 "coats.line_pockets", "layup.heaviest", "layup.section.*.mass"),
        answer=("The shell comes apart in {split.sections:word} sections, in {split.rounds:word} rounds; the least draft is {split.section_draft}.",
                "The shell comes apart in {split.sections:word} sections with {split.joint} of joint between them."),
        band=("Sections and joints take {split.work:low} to {split.work:high} of work.", "Sections and joints take {split.work} of work."),
        pictures=(Picture(divided.draw_divided, "The sections of the job; a line where two share a joint."),
                  Picture(outlines.draw_outlines, "The outlines of the job, divided; thick grey lines close what must be filled.")),
    ),
    PanelDeclaration(
        stage="layup",
        entries=("layup.face_factor", "layup.fibre_mass_fraction", "layup.bond", "layup.construction", "layup.facing_plies", "layup.flange_plies",
                 "layup.core_thickness", "layup.surface_thickness", "layup.flange_width", "materials.reinforcement"),
        results=("layup.thickness", "layup.ply_thickness", "layup.flange_thickness", "layup.mass", "layup.areal_mass", "layup.glass", "layup.resin",
                 "layup.glass_to_buy", "layup.resin_to_buy", "layup.core_to_buy", "layup.largest_mix", "layup.trays", "layup.stiffness",
                 "layup.solid_equal_thickness", "layup.section.*.mass"),
        answer=("The shell is {layup.thickness} thick and weighs {layup.mass}. "
                "Have {layup.resin_to_buy} of resin and {layup.glass_to_buy} of glass ready.",
                "The shell is {layup.thickness} thick and weighs {layup.mass}."),
        band=("Likely {layup.mass}, {layup.mass:low} to {layup.mass:high}.",),
        pictures=(Picture(pictures.draw_layup, "The lay-up to scale, mold face below."),),
    ),
    PanelDeclaration(
        stage="packet",
        entries=("start.title", "original.area", "cure.temperature", "cure.started", "start.casts", "coats.wall", "mixing.reserve", "casting.wall"),
        results=("mixing.have", "mixing.base_with_reserve", "mixing.part_with_reserve", "mixing.thickener", "layup.glass_to_buy",
                 "layup.resin_to_buy", "layup.core_to_buy", "handling.bolts", "handling.foot_bolts", "casting.edition_mixed",
                 "mixing.cups", "handling.mold_mass"),
        answer=("To the bench: {mixing.have} of rubber in {mixing.cups} cups, {layup.resin_to_buy} of resin, {layup.glass_to_buy} of glass.",
                "To the bench: {mixing.have} of rubber in {mixing.cups} cups.", "To the bench: {mixing.rubber} of rubber."),
        band=(RUBBER,),
        pictures=(Picture(pictures.draw_coats, "The coats to scale, on an upright face."),
                  Picture(pictures.draw_layup, "The lay-up to scale, mold face below.")),
    ),
)}
