"""Every entry of a job, declared once, in the order of the chapters. The classes are the tables of the job file."""

from pydantic import Field

from moldcalc.job.entry import (
    Number,
    Optional,
    Table,
    card,
    choice,
    clock_time,
    count,
    quantity,
    words,
    yes_no,
)

MOST_ROWS = 200


class Start(Table):
    """Which job is on the bench."""

    title: str = words("What is made", "A mold", help="One line; it heads every printed sheet.")
    note: str = words("Note", "", help="Anything the next person should know.")
    casts: int = count("Casts wanted", 1, 1000, 1, help="Copies to be made in this mold.", slider=(1, 40), chosen=True)
    units: str = choice("Units shown", ("metric", "us"), "metric", help="Entries may be typed in either; results are shown in these.", chosen=True)


SHAPES = ("ellipsoid", "cylinder", "frustum", "capsule", "box", "torus", "cap", "superellipsoid")


class Solid(Table):
    """A plain solid that stands in for a part of the original."""

    name: str = words("Part", "part")
    shape: str = choice("Solid", SHAPES, "ellipsoid")
    length: Number = quantity("Length", "mm", 5, 20000, "300 mm", help="Full length: along the axis of a cylinder, frustum or capsule; outer width of a torus.")
    width: Number = quantity("Width", "mm", 5, 20000, "200 mm", help="Full width: the diameter of a round solid; thickness of a torus' tube; width of a cap.")
    height: Number = quantity("Height", "mm", 1, 20000, "200 mm", help="Full height of an ellipsoid, box or cap; the small end's diameter of a frustum.")
    power: Number = quantity("Power", "", 1, 20, "2.5", help="Superellipsoid only: 2 is an ellipsoid, larger is boxier.")
    exposed: Number = quantity("Share of its surface that shows", "%", 0, 100, "100 %", help="What overlaps a neighbour or stands on the board is left out.")
    pieces: int = count("Alike", 1, 100, 1, help="How many of these.")


class Station(Table):
    """A tape measurement round the original."""

    height: Number = quantity("Place along the axis", "mm", 0, 20000, "0 mm")
    girth: Number = quantity("Girth", "mm", 1, 40000, "600 mm", help="Tape pulled tight: it bridges hollows.")
    width: Optional = quantity("Greatest width", "mm", 1, 20000, None, help="Without it the section is taken as round, and the volume is an upper bound.")


SCAN_UNITS = ("not said", "mm", "cm", "m", "in", "ft")
SCAN_UPS = ("+z", "-z", "+y", "-y", "+x", "-x")


class Original(Table):
    """How big it is."""

    method: str = choice("How the area is known", ("area", "solids", "girths", "foil", "scan"), "area", chosen=True,
                         help="An area you know, plain solids added up, a tape at stations, foil weighed, or a scan.")
    area: Number = quantity("Smooth area that shows", "m²", 0.01, 200, "1.2 to 1.8 m²", slider=(0.1, 6), step=0.01,
                            help="Without texture, without the base it stands on.")
    detail_factor: Number = quantity("Detail factor", "", 1, 3, "1.1", slider=(1, 1.6), step=0.01,
                                     help="Fur, folds and texture add area that neither tape nor foil sees. No published figure: your judgement.")
    volume: Optional = quantity("Volume", "L", 0.01, 100000, None, slider=(1, 400), step=1, help="Of the whole original, where you know it.")
    length: Number = quantity("Length", "mm", 20, 20000, "1000 mm", slider=(100, 3000), step=5)
    width: Number = quantity("Width", "mm", 20, 20000, "400 mm", slider=(50, 2000), step=5)
    height: Number = quantity("Height", "mm", 20, 20000, "500 mm", slider=(50, 3000), step=5)
    mass: Number = quantity("Mass with its armature", "kg", 0, 20000, "50 kg", slider=(0, 300), step=1)
    base_outline: Number = quantity("Outline of the base", "m", 0, 100, "2.5 m", slider=(0, 10), step=0.05, help="Where the rubber flange runs.")
    flange_width: Number = quantity("Width of the rubber flange", "mm", 0, 300, "65 mm", slider=(30, 120), step=1, chosen=True,
                                    help="50 to 75 mm, 2 to 3 in, is common practice.")
    silhouette_side: Optional = quantity("Area of the side silhouette", "m²", 0.001, 200, None, slider=(0.01, 3), step=0.01,
                                         help="For the thrust of a cast that is poured solid.")
    foil_mass: Optional = quantity("Foil used", "g", 0.1, 100000, None, slider=(10, 1000), step=1, help="Weighed after the original was wrapped once.")
    foil_areal_weight: Optional = quantity("Foil on one area", "g/m²", 1, 1000, None, slider=(10, 200), step=0.1, help="Weigh a measured sheet of the same roll.")
    foil_overlap: Number = quantity("Foil overlap and creases", "%", 0, 60, "5 to 11 %", slider=(0, 30), step=1)
    method_error: Number = quantity("Error of solids or tape", "%", -60, 60, "-15 to 15 %", slider=(-30, 30), step=1,
                                    help="Tapes bridge hollows and few stations cut corners: 15 % either way on public meshes.")
    silhouette_depth: Optional = quantity("Mean depth of that silhouette below the top", "mm", 1, 20000, None, slider=(10, 1500), step=5)
    scan: str = words("Scan", "", help="Name of a mesh file beside the job: STL, OBJ, PLY, OFF, GLB or 3MF.")
    scan_unit: str = choice("One unit of the scan is", SCAN_UNITS, "not said", help="Most scans carry no unit; look at the three sizes and say yes.")
    scan_up: str = choice("Up in the scan is", SCAN_UPS, "+z")
    scan_area: Optional = quantity("Area of the scan", "m²", 0.0001, 200, None, help="Without the base it stands on. Fur that the scan shows is in it.")
    scan_curvature: Optional = quantity("Curvature of the scan", "m", -1000, 1000, None, help="Half of what a metre of thickness would add to the area.")
    solid: tuple[Solid, ...] = Field(default=(), max_length=MOST_ROWS)
    station: tuple[Station, ...] = Field(default=(), max_length=MOST_ROWS)


class Materials(Table):
    """Which material cards the job uses."""

    rubber: str = card("Rubber", "rubber", "tin-cure-brushable-100-5")
    thickener: str = card("Thickener", "thickener", "fumed-silica")
    laminating_resin: str = card("Laminating resin", "resin", "laminating-epoxy-slow")
    surface_coat: str = card("Surface coat", "resin", "epoxy-surface-coat")
    reinforcement: str = card("Glass", "reinforcement", "glass-cloth-300")
    core: str = card("Core", "core", "sheet-core-foam-75")
    filler: str = card("Filler for the light dough", "filler", "hollow-microspheres")
    cast: str = card("Casting material", "cast", "fibre-cement")


class Mixing(Table):
    """Parts, scales, cups and the people who brush."""

    people: int = count("People brushing at once", 1, 12, 2, slider=(1, 6), chosen=True)
    people_per_cup: int = count("People brushing from one cup", 1, 6, 1, slider=(1, 4), chosen=True, help="1: everyone mixes and empties a cup of their own.")
    mixing_time: Number = quantity("Weighing, mixing and pouring a cup", "min", 0.5, 30, "5 min", slider=(1, 15), step=0.5)
    usable_share: Number = quantity("Share of the working time to count on", "%", 10, 100, "75 %", slider=(40, 100), step=1, chosen=True,
                                    help="The last quarter of the working time drags on the brush.")
    readability: Number = quantity("The scale reads to", "g", 0.001, 1000, "1 g", slider=(0.1, 10), step=0.1)
    tolerance: Number = quantity("Error allowed in the ratio", "%", 0.1, 30, "5 %", slider=(1, 15), step=0.5, chosen=True)
    cup_volume: Number = quantity("Largest cup or pail", "L", 0.05, 100, "4 L", slider=(0.2, 12), step=0.1, chosen=True)
    cup_fill: Number = quantity("Filled to", "%", 20, 95, "70 %", slider=(30, 90), step=5, chosen=True, help="Room to stir without spilling.")
    losses: str = choice("Left in cups and brushes", ("film and brush", "my own shares"), "film and brush", chosen=True,
                         help="From the film on the cup's wall and the brush; or the share you know from your own jobs, coat by coat.")
    cup_film: Number = quantity("Film left in the cup", "mm", 0, 5, "0.4 to 0.8 mm", slider=(0, 2), step=0.1)
    cup_diameter: Number = quantity("Width of the cup", "mm", 30, 600, "140 mm", slider=(50, 300), step=5)
    brush: Number = quantity("Left in the brush", "g", 0, 500, "20 to 40 g", slider=(0, 100), step=5)
    reserve: Number = quantity("Reserve", "%", 0, 100, "10 %", slider=(0, 30), step=1, chosen=True)
    poured_base: Optional = quantity("I poured this much base", "g", 0.1, 1e6, None, slider=(1, 5000), step=1, liquid=True, help="Then the other part is worked out.")
    poured_part: Optional = quantity("and this much of the other part", "g", 0, 1e6, None, slider=(0, 500), step=0.1, liquid=True)


class Cure(Table):
    """The day's temperature, the night's, and what the data sheet says."""

    temperature: Number = quantity("Room temperature", "°C", -20, 60, "20 °C", slider=(5, 35), step=0.5)
    night_temperature: Number = quantity("At night", "°C", -20, 60, "18 °C", slider=(0, 30), step=0.5)
    night_from: Number = clock_time("Night from", "17:00")
    night_to: Number = clock_time("Night to", "08:30")
    humidity: Number = quantity("Relative humidity", "%", 1, 100, "55 %", slider=(10, 95), step=1)
    started: Number = clock_time("Brushing starts at", "09:00", chosen=True)
    closing: Number = clock_time("The shop closes at", "17:00", chosen=True)
    working_time: Optional = quantity("Working time of the rubber", "min", 1, 1440, None, slider=(5, 120), step=1, from_card="rubber.working_time")
    earliest_recoat: Optional = quantity("Next coat not before", "min", 1, 5000, None, slider=(10, 360), step=5, from_card="rubber.earliest_recoat")
    latest_recoat: Optional = quantity("Next coat not after", "h", 0.1, 500, None, slider=(1, 72), step=1, from_card="rubber.latest_recoat")
    demold_time: Optional = quantity("Demold time", "h", 0.1, 500, None, slider=(1, 48), step=1, from_card="rubber.demold_time")
    activation_energy: Optional = quantity("Activation energy", "kJ/mol", 5, 200, None, slider=(20, 110), step=1, from_card="rubber.activation_energy")
    second_temperature: Optional = quantity("A second temperature on the data sheet", "°C", -20, 60, None, slider=(5, 40), step=0.5)
    second_working_time: Optional = quantity("Working time there", "min", 1, 1440, None, slider=(5, 240), step=1,
                                             help="Two times on the data sheet give the activation energy itself, no longer a guess.")
    shell_hours: Number = quantity("Overnight cure of the shell", "h", 1, 200, "16 h", slider=(4, 48), step=1, chosen=True)


class Coat(Table):
    """One brushed coat."""

    name: str = words("Coat", "build")
    kind: str = choice("Kind", ("print", "tie", "build"), "build", chosen=True)
    thickness: Number = quantity("Film", "mm", 0.1, 12, "2 mm", slider=(0.2, 5), step=0.1, chosen=True)
    tint: str = words("Tint", "")
    thickener: Number = quantity("Thickener", "%", 0, 20, "0 %", slider=(0, 5), step=0.1, chosen=True, help="By weight of the mixed rubber.")
    rate: Number = quantity("Brushing rate, one person", "m²/min", 0.001, 1, "0.03 m²/min", slider=(0.005, 0.1), step=0.001)
    loss: Number = quantity("Left in cups and brushes", "%", 0, 60, "8 %", slider=(0, 30), step=1, help="Share of the mixed mass; used with 'my own shares'.")
    mesh: bool = yes_no("On mesh", False, chosen=True)


def _stack() -> tuple[Coat, ...]:
    """The coats of a job that says none; made when one is read, since the first row of any table takes long to make."""
    return (
        Coat(name="print", kind="print", thickness="0.6 mm", tint="ivory", rate="0.02 m²/min", loss="12 %"),  # type: ignore[arg-type]
        Coat(name="tie", kind="tie", thickness="1.2 mm", tint="green", rate="0.04 m²/min"),  # type: ignore[arg-type]
        Coat(name="build 1", thickness="2.1 mm", tint="ivory", thickener="1 %", rate="0.035 m²/min", loss="7 %"),  # type: ignore[arg-type]
        Coat(name="build 2", thickness="2.1 mm", tint="green", thickener="1 %", rate="0.03 m²/min", loss="7 %", mesh=True),  # type: ignore[arg-type]
    )


class Coats(Table):
    """How many coats, and what each holds."""

    wall: Number = quantity("Wall when finished", "mm", 1, 40, "6 mm", slider=(3, 15), step=0.5, chosen=True, help="Mean thickness of the brushed coats.")
    most_build: Number = quantity("Most in one build coat", "mm", 0.2, 12, "3 mm", slider=(0.5, 6), step=0.1, chosen=True,
                                  help="More coats are added when the wall needs them.")
    least_high_points: Number = quantity("Least over high points", "mm", 0.5, 30, "3 mm", slider=(1, 12), step=0.5, chosen=True,
                                         help="Never under 3 mm: common practice.")
    high_points_keep: Number = quantity("Share of a coat that stays on ridges", "%", 5, 100, "40 to 70 %", slider=(20, 100), step=5,
                                        help="Rubber runs thin over convex edges; a guess until you probe it.")
    slope: Number = quantity("Steepest face", "°", 0, 90, "90°", slider=(0, 90), step=5, help="90° is upright. Overhangs hold by stiffness alone.")
    below_edge: Number = quantity("Below the top edge", "mm", 1, 5000, "300 mm", slider=(50, 1500), step=50, help="Where the drained film is looked at.")
    count_growth: bool = yes_no("Count the area's growth with thickness", True, chosen=True, help="Each coat goes on a larger body than the one before.")
    coat: tuple[Coat, ...] = Field(default_factory=_stack, max_length=MOST_ROWS)


FILLS = ("fillet", "band", "strip", "patch", "pocket", "volume")


class Fill(Table):
    """A place that paste fills."""

    name: str = words("Place", "fillets")
    kind: str = choice("Kind", FILLS, "volume")
    use: str = choice("Counted under", ("fillets", "seam band", "strips", "high points", "pockets", "peaks"), "pockets")
    length: Optional = quantity("Length", "m", 0, 1000, None)
    width: Optional = quantity("Width", "mm", 0, 2000, None, help="Of a band; of a strip at its foot.")
    width_top: Optional = quantity("Width at the top", "mm", 0, 2000, None, help="Of a strip.")
    thickness: Optional = quantity("Thickness or depth", "mm", 0, 500, None, help="Mean depth of a pocket; height of a strip.")
    radius: Optional = quantity("Radius", "mm", 0, 500, None, help="Of a fillet.")
    area: Optional = quantity("Area", "m²", 0, 200, None)
    volume: Optional = quantity("Volume", "L", 0, 1000, None)


class Paste(Table):
    """Thickened rubber: how stiff, and how much."""

    loading: Number = quantity("Thickener in the paste", "%", 0, 20, "1 %", slider=(0, 8), step=0.1, chosen=True, help="By weight of the mixed rubber.")
    loss: Number = quantity("Left on tools", "%", 0, 60, "8 %", slider=(0, 30), step=1)
    batch: Number = quantity("Largest batch of paste", "kg", 0.02, 50, "0.75 kg", slider=(0.1, 4), step=0.05, chosen=True)
    hang_loading_1: Number = quantity("Hang test 1: thickener", "%", 0.01, 20, "0.5 %", slider=(0.1, 5), step=0.1)
    hang_thickness_1: Number = quantity("Hang test 1: thickest dab that holds", "mm", 0.1, 100, "2 mm", slider=(0.5, 20), step=0.5)
    hang_loading_2: Optional = quantity("Hang test 2: thickener", "%", 0.01, 20, None, slider=(0.1, 8), step=0.1)
    hang_thickness_2: Optional = quantity("Hang test 2: thickest dab that holds", "mm", 0.1, 100, None, slider=(0.5, 40), step=0.5)
    wanted: Number = quantity("Paste must hold, on an upright face", "mm", 0.5, 100, "8 mm", slider=(1, 25), step=0.5, chosen=True)
    filler_loading: Number = quantity("Microspheres in the light dough", "%", 0, 60, "10 %", slider=(0, 40), step=1, chosen=True, help="By weight of the mixed resin.")
    ball: Number = quantity("Gap that a ball must roll out of", "mm", 5, 1000, "60 mm", slider=(20, 200), step=5, chosen=True,
                            help="Its width. What such a ball cannot reach on the scan is a pocket.")
    least_pocket: Number = quantity("Smallest pocket worth a number", "L", 0, 100, "0.05 L", slider=(0, 1), step=0.01, chosen=True)
    fill: tuple[Fill, ...] = Field(default=(), max_length=MOST_ROWS)


class Section(Table):
    """One section of the shell."""

    name: str = words("Section", "section")
    face: Number = quantity("Face", "m²", 0.001, 100, "0.5 m²", slider=(0.05, 3), step=0.01)
    joint: Number = quantity("Joint flange", "m", 0, 100, "1.5 m", slider=(0, 6), step=0.05)
    foot: Number = quantity("Foot on the board", "m", 0, 100, "0.7 m", slider=(0, 4), step=0.05)
    touches: str = words("Touches", "", help="Names of the sections that share a joint with it, with commas between.")
    pull: str = words("Comes off", "")
    azimuth: Optional = quantity("Pull, round from the front", "°", 0, 360, None, help="0° is to the front, 90° to the right, 180° to the back.")
    elevation: Optional = quantity("Pull, above level", "°", -90, 90, None, help="90° is straight up.")
    draft: Optional = quantity("Least draft", "°", -90, 90, None)
    order: int | None = count("Comes off in round", 1, 200, None)


class Joint(Table):
    """A line of bolts."""

    name: str = words("Joint", "joint")
    length: Number = quantity("Length", "m", 0.01, 100, "1 m")


class Outline(Table):
    """One outline of the original on squared paper."""

    name: str = words("Outline", "front")
    points: str = words("Points", "", help="Squares across and up, in order: 0 0, 12 0, 12 5, 0 5. The board is at 0 up.")
    square: Number = quantity("One square is", "mm", 0.01, 5000, "10 mm")
    board: bool = yes_no("Stands on the board", True, chosen=True)


class Split(Table):
    """Into which sections the shell comes apart."""

    least_draft: Number = quantity("Least draft", "°", 0, 45, "3°", slider=(0, 15), step=0.5, chosen=True,
                                   help="2 to 3° is usual, 5° where it is deep or rough: common practice.")
    leftover: Number = quantity("Share of the surface that more paste may fill", "%", 0, 40, "2 %", slider=(0, 10), step=0.5, chosen=True)
    wanted: int | None = count("Sections", 1, 40, None, slider=(1, 12), chosen=True, help="Left empty, the fewest are looked for.")
    fineness: Optional = quantity("Fineness of the search", "mm", 2, 200, None, slider=(5, 40), step=1, chosen=True,
                                  help="Size of a cell. Left empty, as fine as is quick.")
    section_hours: Number = quantity("Work that one section more brings", "h", 0, 100, "4 to 8 h", slider=(0, 24), step=0.5,
                                     help="Half a day to a day: from memory.")
    joint_hours: Number = quantity("Work on one metre of joint", "h", 0, 100, "1 h", slider=(0, 6), step=0.25)
    rubber_price: Optional = quantity("Price of a kilogram of rubber", "", 0, 1e6, None, slider=(0, 100), step=1, help="In your money.")
    hour_price: Optional = quantity("Price of an hour's work", "", 0, 1e6, None, slider=(0, 200), step=1, help="In your money.")
    outline: tuple[Outline, ...] = Field(default=(), max_length=6)


class Layup(Table):
    """The shell: surface coat, facings, core, flanges."""

    face_factor: Number = quantity("Face of the shell over area of the original", "", 0.5, 3, "1.06", slider=(0.9, 1.4), step=0.01,
                                   help="The shell goes round the rubber and bridges small hollows.")
    construction: str = choice("Construction", ("sandwich", "solid"), "sandwich", chosen=True)
    facing_plies: int = count("Plies in each facing", 1, 20, 2, slider=(1, 6), chosen=True)
    flange_plies: int = count("Plies in flanges", 1, 40, 8, slider=(2, 16), chosen=True)
    fibre_mass_fraction: Optional = quantity("Fibre content by mass", "%", 10, 80, None, slider=(20, 65), step=1, from_card="reinforcement.fibre_mass_fraction")
    surface_thickness: Number = quantity("Surface coat", "mm", 0, 5, "0.6 mm", slider=(0, 2), step=0.1, chosen=True)
    core_thickness: Number = quantity("Core", "mm", 0, 60, "10 mm", slider=(0, 30), step=1, chosen=True, help="0: a solid laminate.")
    core_share: Number = quantity("Share of the face that has core", "%", 0, 100, "85 %", slider=(0, 100), step=5, chosen=True)
    bond: Number = quantity("Resin that bonds the core", "kg/m²", 0, 5, "0.5 kg/m²", slider=(0, 2), step=0.05, help="Leaving this out is the commonest under-estimate.")
    flange_width: Number = quantity("Width of the shell's flange", "mm", 0, 300, "60 mm", slider=(30, 100), step=5, chosen=True)
    hardware: Number = quantity("Legs, handles, bolts", "kg", 0, 200, "2 kg", slider=(0, 10), step=0.1)
    glass_waste: Number = quantity("Glass wasted in cutting", "%", 0, 60, "12 %", slider=(0, 30), step=1)
    resin_waste: Number = quantity("Resin left in trays and brushes", "%", 0, 60, "12 %", slider=(0, 30), step=1)
    core_waste: Number = quantity("Core wasted", "%", 0, 60, "15 %", slider=(0, 30), step=1)
    strip_width: Number = quantity("Glass cut into strips, width", "mm", 20, 2000, "150 mm", slider=(50, 600), step=10, chosen=True)
    strip_length: Number = quantity("Length of a strip", "mm", 50, 5000, "500 mm", slider=(100, 1500), step=50, chosen=True)
    overlap: Number = quantity("Overlap", "mm", 0, 200, "30 mm", slider=(0, 100), step=5, chosen=True)
    count_overlap: bool = yes_no("Count overlaps in glass and weight", True, chosen=True)
    tray: Number = quantity("Most resin in one tray", "kg", 0.02, 20, "0.25 kg", slider=(0.05, 1), step=0.05, chosen=True,
                            help="A deep mass heats itself: keep it shallow.")
    rate: Number = quantity("Laminating rate, one person, one ply", "m²/min", 0.001, 1, "0.03 m²/min", slider=(0.005, 0.1), step=0.005)
    partial_cure: Number = quantity("Wait between laminations", "h", 0, 48, "1 h", slider=(0, 6), step=0.5, chosen=True)
    plies_wanted_thickness: Number = quantity("Solid laminate of this thickness", "mm", 0.2, 60, "6 mm", slider=(1, 20), step=0.5, chosen=True)
    section: tuple[Section, ...] = Field(default=(), max_length=MOST_ROWS)


class Handling(Table):
    """Bolts, and who lifts what."""

    bolt_spacing: Number = quantity("Bolts along a joint, at most apart", "mm", 20, 1000, "150 mm", slider=(50, 300), step=5, chosen=True)
    foot_spacing: Number = quantity("Bolts round the foot, at most apart", "mm", 20, 1000, "200 mm", slider=(50, 400), step=5, chosen=True)
    people_lifting: int = count("People lifting", 1, 8, 2, slider=(1, 6), chosen=True)
    joint: tuple[Joint, ...] = Field(default=(), max_length=MOST_ROWS)


class Casting(Table):
    """What is cast in it."""

    wall: Number = quantity("Wall of the cast", "mm", 1, 500, "12 mm", slider=(3, 40), step=1, chosen=True)
    fixings: Number = quantity("Fixings in a cast", "kg", 0, 200, "3 kg", slider=(0, 20), step=0.5)
    loss: Number = quantity("Cast mix lost", "%", 0, 60, "6 %", slider=(0, 20), step=1)
    hours: Number = quantity("A cast stays in the mold", "h", 0.2, 500, "24 h", slider=(1, 72), step=1)
