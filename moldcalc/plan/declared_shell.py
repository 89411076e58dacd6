"""Results of stiffness, closing, lifting and standing, declared once; worked out when one of them is first asked for."""

from moldcalc.plan.results import COMMON, Declared

STATICS = "statics"
LIFTING = "revised lifting equation, applications manual 94-110 (rev. 9/2021), seen in a public transcription; teams: UK guidance L23, text seen in public copies"
VIBRATION = "2002/44/EC, seen in public copies"
NOISE = "2003/10/EC and OSHA 29 CFR 1910.95, seen in public copies"
HEAD = "hydrostatics, full liquid head"


def _(label: str, unit: str, why: str, source: str = STATICS, detail: bool = False) -> Declared:
    return Declared(label, unit, why, source, later=True, detail=detail)


SHELL: dict[str, Declared] = {
    # stiffness
    "layup.panel_pressure": _("Poured solid, pressure at the flattest panel's foot", "kPa", "{casting.head_pressure} over the whole height, less where it is poured in lifts that set", HEAD),
    "layup.plate_stiffness": _("Stiffness of the wall as a plate", "N·m", "facings and core, nothing left out; 9 % over the beam's", "Allen, Zenkert: sandwich theory, from memory; checked against libraries"),
    "layup.deflection": _("The panel gives", "mm", "{layup.flat_height} by {layup.flat_width}; the modulus of hand-laid glass is the widest guess in it", "plate theory: Levy's and Navier's series, Ritz's method, computed"),
    "layup.deflection_share": _("Of the deflection you accept", "%", "{layup.deflection} of {layup.allowed_deflection}", "your choice"),
    "layup.deflection_bending": _("of it by bending", "mm", "edges {layup.panel_edges}", "plate theory, computed"),
    "layup.deflection_shear": _("of it by the core's shear", "mm", "soft cores give more than the facings do", "sandwich theory, computed"),
    "layup.deflection_bay": _("of it between two ribs", "mm", "ribs {layup.rib_spacing} apart, {layup.rib_run}; the outermost bay decides", "plate and beam theory, computed"),
    "layup.deflection_flat": _("The same panel, flat, would give", "mm", "without its curve of {layup.flat_radius}", "plate theory, computed"),
    "layup.curve_gain": _("The curve makes it stiffer by", "", "times; it holds like an arch as long as its edges stay in place", "shallow-shell theory, computed"),
    "layup.panel_rise": _("Rise of the curve over its chord", "%", "the formula is for at most 20 %", "shallow-shell theory"),
    "layup.over_limit": _("Deflection over half the wall's thickness", "", "above 1 it is outside linear theory and an overestimate", "plate theory, textbook"),
    "layup.facing_stress": _("Stress at the outside of a facing", "MPa", "a strip on two supports; hand-laid mat breaks near 80 to 110 MPa, from memory", "beam theory"),
    "layup.core_stress": _("Shear in the core", "MPa", "rigid foam of this weight shears near 0.5 to 0.9 MPa, from memory", "beam theory"),
    "layup.wrinkling_stress": _("A facing may wrinkle at", "MPa", "half of theory, for design", "Hoff and Mautner's form, seen in two public sources"),
    # closing
    "handling.bolt_torque": _("Tighten to", "N·m", "{handling.torque} asked for, less where washer or bolt would give way first", "short torque formula; ISO 898-1"),
    "handling.bolt_counts_on": _("A bolt may be counted on for", "N", "the least pull that this torque gives: nut factors scatter by 30 %", "short torque formula, textbook; scatter from memory"),
    "handling.bolt_most": _("It may pull at most", "N", "what lies under the washer crushes, or three quarters of its proof load", "ISO 898-1; crushing from memory"),
    "handling.bolt_hole": _("Hole for the bolt", "mm", "clearance, medium: bolts do not locate, pins do", "ISO 273, seen in public tables"),
    "handling.bolt_washer": _("Washer, outside", "mm", "{handling.washer}, on solid laminate", "ISO 7089 and 7093, from memory"),
    "handling.separating": _("Poured solid, the joint with most to hold is pulled apart with", "kN", "head over the liquid's width, both flanges together", HEAD),
    "handling.bolt_load": _("Bolt with most to hold", "N", "its stretch of joint, times what the flange levers: bolts {handling.bolt_line} from the shell", "statics: flange hinged at its root, a cautious reckoning"),
    "handling.bolt_share": _("Of what it may be counted on for", "%", "{handling.bolt_load} of {handling.bolt_counts_on}", STATICS),
    "handling.drilled": _("Bolts by the drilling list", "count", "for a cast {handling.drilled_for}: spaced by load, opening and {handling.bolt_spacing}, the first {handling.end_distance} from each end", "each bolt takes its stretch of the load, computed"),
    "handling.drilling.*.bolts": _("bolts by the drilling list", "count", "closer together where the liquid pulls more", "computed"),
    "handling.drilling.*.closest": _("closest together", "mm", "at its low end", "computed"),
    "handling.drilling.*.widest": _("widest apart", "mm", "none over {handling.bolt_spacing}", COMMON),
    "handling.drilling.*.load": _("most on one bolt", "N", "with what the flange levers", STATICS),
    "handling.drilling.*.gap": _("opens at its low end", "mm", "half-way between two bolts, flange free to turn at them", "beam theory"),
    "handling.drilling.*.pin_low": _("lower pin", "mm", "along the joint from its low end, half-way between two bolts", "geometry"),
    "handling.drilling.*.pin_high": _("upper pin", "mm", "as far apart as the joint allows", "geometry"),
    "handling.hole.*.position": _("along the joint", "mm", "from its low end", "computed", detail=True),
    "handling.hole.*.load": _("load", "N", "with what the flange levers", STATICS, detail=True),
    "handling.uplift": _("Poured solid as it stands, the mold is lifted by", "kg", "{handling.base_opening} of opening under {original.height} of liquid, less the {original.volume} of liquid itself", HEAD),
    "handling.uplift_force": _("that is a force of", "kN", "straight up, off the board", HEAD),
    "handling.uplift_missing": _("Still to be weighted or strapped down", "kg", "beyond {handling.mold_mass} of mold and {handling.held_down} on it; bare, with nothing to spare", STATICS),
    # carrying
    "handling.largest_index": _("Largest index of all lifts", "", "mass over what is recommended there; up to 1 is the goal. An indicator, no more", LIFTING),
    "handling.lift.*.mass": _("mass", "kg", "as the plan has it", "mass balance"),
    "handling.lift.*.people": _("people", "count", "as you said", "your choice"),
    "handling.lift.*.person": _("one person may be asked for", "kg", "23 kg brought down by reach, height, travel, twist, frequency and hold, at the worse end", LIFTING),
    "handling.lift.*.team": _("these people together", "kg", "two for two thirds of their sum, three and four for half of it", LIFTING),
    "handling.lift.*.added": _("of it by the last one", "kg", "a third or fourth carrier adds little", LIFTING),
    "handling.lift.*.index": _("index", "", "mass over that; up to 1 is the goal. An indicator, no more", LIFTING),
    "handling.lift.*.costs": _("what costs most", "text", "the multiplier that is lowest", LIFTING),
    "handling.lift.*.way": _("way to move it", "text", "a cradle or hoist where the team is not enough, one end is too heavy, or it passes the point where it falls", LIFTING),
    # standing
    "handling.centre": _("Centre of mass over the floor", "mm", "closed mold with a cast, {handling.casting_position}; as of a thin dome, half its height, unless you gave it; a scan is not asked yet", STATICS),
    "handling.tip_angle": _("It tips at a lean of", "°", "{handling.legs} legs, {handling.leg_radius} from the middle, stiff, that do not slip", STATICS),
    "handling.tip_push": _("A push at its top tips it with", "N", "slow; somebody who stumbles against it pushes harder for a moment", STATICS),
    "handling.leg_radius_for": _("For {handling.least_lean} the legs must stand out", "mm", "with the centre of mass over their middle", STATICS),
    "handling.leg_load": _("Most on one leg", "N", "{handling.mold_with_cast} on an even floor", STATICS),
    "handling.leg_worst": _("Most on one leg when it rocks", "N", "four stiff legs: two may carry it all", STATICS),
    "handling.sling_pull": _("Each of two sling legs pulls with", "N", "{handling.mold_with_cast} at {handling.sling_angle} from level", STATICS),
    "handling.handle_first": _("First pair of handles, from the end", "mm", "as far before the centre of mass as the other is behind it", STATICS),
    "handling.handle_second": _("Second pair of handles, from the end", "mm", "{handling.handle_spread} on", STATICS),
    # trimming
    "handling.trim_length": _("Edge to trim", "m", "both sides of each joint and the foot", "geometry"),
    "handling.trim_dust": _("Dust from it", "g", "{handling.kerf} of cut through {layup.flange_thickness}", "mass balance"),
    "handling.dust_in_room": _("Dust in the air, if none were caught", "mg/m³", "{handling.dust_share} of it afloat in {handling.room}", "mass balance; the share is a guess"),
    "handling.vibration": _("Vibration of a day, A(8)", "m/s²", "{handling.grinding_vibration} for {handling.grinding_time}; action value 2.5, limit 5 m/s²", VIBRATION),
    "handling.vibration_time": _("The action value is reached after", "min", "at {handling.grinding_vibration}", VIBRATION),
    "handling.noise": _("Noise of a day, in dB(A)", "", "{handling.grinding_noise} for {handling.grinding_time}, as eight hours of it", NOISE),
    "handling.noise_dose": _("Noise dose by the 5 dB rule", "%", "90 dB(A) for eight hours is 100 %", NOISE),
}
