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
from moldcalc.job.tables_edition import SHRINKING, Test, Thing

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
    original_material: str = words("The original is made of", "", help="As named in the table of pairs: sulphur-free oil clay, porous stone, raw wood …")
    surface: str = words("Paint or sealer over it", "", help="As named in the table of pairs; the rubber then meets this, not what lies under it.")
    clay: str = words("Clay for walls, fills and seams", "", help="As named in the table of pairs.")
    clay_sealed: bool = yes_no("That clay is sealed", False, chosen=True)
    release: str = words("Release on the original", "", help="As named in the table of pairs: polyvinyl alcohol film, dry; petroleum jelly …")
    shell_released: bool = yes_no("Rubber and flanges are released before the shell goes on", False, chosen=True)
    gloves: str = words("Gloves", "", help="As named in the table of pairs: nitrile gloves, vinyl gloves, latex gloves.")
    shrinkage_allowed: Number = quantity("Shrinkage that the job can bear", "%", 0, 10, "1 %", slider=(0, 3), step=0.1, help="Of a length.")
    years: Number = quantity("The mold is kept for, in years", "", 0, 100, "3", slider=(0, 20), step=1)
    price_tin: Optional = quantity("A kilogram of tin-cure rubber costs", "", 0, 1e6, None, slider=(0, 100), step=1, help="In your money.")
    price_addition: Optional = quantity("A kilogram of addition-cure rubber costs", "", 0, 1e6, None, slider=(0, 100), step=1, help="In your money.")
    budget: Optional = quantity("To spend on rubber", "", 0, 1e9, None, slider=(0, 5000), step=10, help="In your money.")
    thing: tuple[Thing, ...] = Field(default=(), max_length=MOST_ROWS)
    test: tuple[Test, ...] = Field(default=(), max_length=MOST_ROWS)


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
    z_low: Optional = quantity("Its low end, over the lowest point when casting", "mm", 0, 20000, None)
    z_high: Optional = quantity("Its high end, over the lowest point when casting", "mm", 0, 20000, None)
    width: Optional = quantity("Liquid that it holds together, across", "mm", 1, 20000, None, slider=(50, 1500), step=10,
                               help="Seen along the pull on the bolts, between this joint and the next. Without it, bolts are spaced as if nothing pulled.")


LOADS = ("heaviest section", "a section", "shell", "closed mold", "mold with a cast", "a cast", "my own figure")


class Lift(Table):
    """A lift of the job: what, who, from where to where."""

    name: str = words("Lift", "lift")
    load: str = choice("What is lifted", LOADS, "heaviest section", chosen=True)
    section: str = words("Which section", "", help="Its name, for 'a section'.")
    mass: Optional = quantity("Its mass", "kg", 0.1, 5000, None, help="For 'my own figure'.")
    from_height: Number = quantity("Hands over the floor, at first", "mm", 0, 2500, "700 mm", slider=(0, 2000), step=50)
    to_height: Number = quantity("Hands over the floor, at last", "mm", 0, 2500, "900 mm", slider=(0, 2000), step=50)
    depth: Number = quantity("Depth of it toward the body", "mm", 0, 3000, "400 mm", slider=(0, 1000), step=10, help="Tells how far out the hands are.")
    reach: Optional = quantity("Hands out from between the ankles", "mm", 50, 2000, None, slider=(200, 700), step=10, help="Where you measured it.")
    twist: Number = quantity("Turned to the side", "°", 0, 180, "0°", slider=(0, 135), step=5)
    per_hour: Number = quantity("Times an hour", "", 0.01, 900, "6", slider=(1, 60), step=1)
    hours: Number = quantity("For how long", "h", 0.05, 8, "1 h", slider=(0.5, 8), step=0.5)
    people: int | None = count("People", 1, 4, None, slider=(1, 4), chosen=True, help="Left empty, as many as lift the rest. More than four are unlikely to work together.")
    hold: str = choice("Hold", ("poor", "fair", "good"), "poor", chosen=True, help="A shell's edge is poor; real handles on a compact piece are fair.")
    with_care: bool = yes_no("Set down with care", True, help="Then the far end counts too.")
    turned: bool = yes_no("Turned over, one end first", False)
    falls: bool = yes_no("Goes past where it falls by itself", False)


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
    flat_height: Optional = quantity("Flattest panel, height", "mm", 20, 10000, None, slider=(100, 1500), step=10,
                                     help="The largest nearly flat piece between flanges, foot and ribs; it is taken to begin at the lowest point.")
    flat_width: Optional = quantity("Flattest panel, width", "mm", 20, 10000, None, slider=(100, 1500), step=10)
    flat_radius: Optional = quantity("It is curved across, radius", "mm", 50, 100000, None, slider=(100, 3000), step=50,
                                     help="Of a disc that fits it; left empty, flat. Curvature stiffens more than anything.")
    panel_edges: str = choice("Edges of the panel", ("supported", "clamped"), "supported", chosen=True,
                              help="Supported may turn, the cautious choice; clamped holds fast. A flange lies between.")
    allowed_deflection: Number = quantity("Deflection you will accept", "mm", 0.05, 50, "2 mm", slider=(0.5, 10), step=0.1, chosen=True)
    rib_spacing: Optional = quantity("Ribs, apart", "mm", 50, 5000, None, slider=(100, 600), step=10, chosen=True, help="Left empty, none.")
    rib_run: str = choice("Ribs run", ("up", "across"), "up", chosen=True)
    rib_radius: Number = quantity("Half-round former of a rib, radius", "mm", 3, 200, "15 mm", slider=(5, 50), step=1, chosen=True)
    rib_plies: int = count("Plies over a rib", 1, 20, 2, slider=(1, 8), chosen=True)
    lift_height: Optional = quantity("Poured in lifts of", "mm", 20, 5000, None, slider=(50, 1000), step=10, chosen=True,
                                     help="Each set before the next is poured; pouring slowly does not count. Left empty, in one.")
    glass_price: Optional = quantity("Price of a kilogram of glass", "", 0, 1e6, None, slider=(0, 50), step=1, help="In your money.")
    resin_price: Optional = quantity("Price of a kilogram of resin", "", 0, 1e6, None, slider=(0, 100), step=1, help="In your money.")
    core_price: Optional = quantity("Price of a kilogram of core", "", 0, 1e6, None, slider=(0, 200), step=1, help="In your money.")
    section: tuple[Section, ...] = Field(default=(), max_length=MOST_ROWS)


class Handling(Table):
    """Bolts, and who lifts what."""

    bolt_spacing: Number = quantity("Bolts along a joint, at most apart", "mm", 20, 1000, "150 mm", slider=(50, 300), step=5, chosen=True)
    foot_spacing: Number = quantity("Bolts round the foot, at most apart", "mm", 20, 1000, "200 mm", slider=(50, 400), step=5, chosen=True)
    people_lifting: int = count("People lifting", 1, 8, 2, slider=(1, 6), chosen=True)
    drilled_for: str = choice("Drill for a cast", ("poured solid", "laid up by hand"), "poured solid", chosen=True,
                              help="Laid up by hand nothing pulls on the joints, and bolts stand evenly.")
    bolt: str = choice("Bolt", ("M4", "M5", "M6", "M8", "M10", "M12"), "M8", chosen=True, help="M6 for small shells, M8 usual, M10 for large ones: common practice.")
    property_class: str = choice("Class of the bolts", ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "10.9", "12.9"), "4.6", help="It stands on the head.")
    washer: str = choice("Washers", ("large", "plain"), "large", chosen=True)
    thread: str = choice("Threads are", ("dry", "lightly oiled", "waxed"), "dry", help="Wax and oil give more pull for the same torque.")
    torque: Number = quantity("Tightened to", "N·m", 0.2, 100, "6 N·m", slider=(1, 20), step=0.5, chosen=True, help="A wing nut by hand gives 1 to 3 N·m.")
    core_in_flange: bool = yes_no("Core runs under the washers", False)
    bolt_line: Number = quantity("Bolts out from the shell", "mm", 5, 200, "30 mm", slider=(10, 80), step=1, chosen=True,
                                 help="To their middle. Close to the shell, with a wide toe, the flange levers least on them.")
    end_distance: Number = quantity("First bolt from a joint's end", "mm", 5, 300, "35 mm", slider=(20, 80), step=5, chosen=True)
    flange_gap: Number = quantity("Opening between two bolts you will accept", "mm", 0.02, 5, "0.5 mm", slider=(0.1, 2), step=0.1, chosen=True,
                                  help="Half-way between them, of one flange; liquid leaks there.")
    casting_position: str = choice("Casting position", ("as it stands", "upside down"), "as it stands", chosen=True)
    base_opening: Optional = quantity("Opening on the board", "m²", 0.0001, 200, None, slider=(0.01, 1), step=0.01,
                                      help="What stands open on the board when it is poured as it stands; the outline's area.")
    held_down: Number = quantity("Weights and straps on the mold", "kg", 0, 20000, "0 kg", slider=(0, 1000), step=10, chosen=True)
    legs: int | None = count("Legs", 3, 12, None, slider=(3, 8), chosen=True, help="Under the mold when it is cast in. Three never rock, but tip soonest.")
    leg_radius: Number = quantity("Legs from the middle", "mm", 20, 5000, "400 mm", slider=(100, 1000), step=10, chosen=True)
    leg_height: Number = quantity("Lowest point of the mold over the floor", "mm", 0, 5000, "300 mm", slider=(0, 1000), step=10, chosen=True)
    centre_height: Optional = quantity("Centre of mass over the lowest point", "mm", 1, 20000, None, slider=(50, 1500), step=10,
                                       help="Of the mold when it is cast in, where you know it; a scan or a balance tells. Left empty, half its height.")
    off_centre: Number = quantity("Centre of mass off the middle of the legs", "mm", 0, 5000, "0 mm", slider=(0, 300), step=5)
    least_lean: Number = quantity("Lean that it must stand", "°", 0, 60, "10°", slider=(2, 30), step=1, chosen=True)
    centre_along: Optional = quantity("Centre of mass from one end of the mold", "mm", 1, 20000, None, slider=(50, 1500), step=10, help="Then the places of two pairs of handles follow.")
    handle_spread: Number = quantity("Between the handles", "mm", 50, 5000, "500 mm", slider=(200, 1500), step=10, chosen=True)
    sling_angle: Optional = quantity("Sling, from level", "°", 5, 90, None, slider=(15, 90), step=5, chosen=True, help="At 30° each of two legs pulls with the whole weight.")
    kerf: Number = quantity("Cut by the trimming disc", "mm", 0.5, 20, "3 mm", slider=(1, 6), step=0.5)
    grinding_time: Number = quantity("Trimming and grinding in a day", "min", 0, 480, "60 min", slider=(0, 240), step=5)
    grinding_vibration: Number = quantity("Vibration of the grinder", "m/s²", 0, 50, "6 m/s²", slider=(1, 20), step=0.5, help="Its manual says; worn discs shake more.")
    grinding_noise: Number = quantity("Noise at the ear, in dB(A)", "", 40, 140, "95", slider=(70, 115), step=1)
    room: Optional = quantity("Air in the room", "m³", 5, 100000, None, slider=(10, 500), step=5, help="For the dust that would float if none were caught.")
    dust_share: Number = quantity("Share of the dust that floats", "%", 0.01, 100, "5 %", slider=(1, 50), step=1, help="No published figure: your judgement.")
    joint: tuple[Joint, ...] = Field(default=(), max_length=MOST_ROWS)
    lift: tuple[Lift, ...] = Field(default=(), max_length=MOST_ROWS)


class Casting(Table):
    """What is cast in it."""

    wall: Number = quantity("Wall of the cast", "mm", 1, 500, "12 mm", slider=(3, 40), step=1, chosen=True)
    fixings: Number = quantity("Fixings in a cast", "kg", 0, 200, "3 kg", slider=(0, 20), step=0.5)
    loss: Number = quantity("Cast mix lost", "%", 0, 60, "6 %", slider=(0, 20), step=1)
    hours: Number = quantity("A cast stays in the mold", "h", 0.2, 500, "24 h", slider=(1, 72), step=1)
    method: str = choice("The cast is", ("laid up", "slushed", "rotated", "poured solid"), "laid up", chosen=True)
    water_ratio: Optional = quantity("Water to 100 of powder, by weight", "%", 5, 200, None, slider=(20, 100), step=1, help="From its data sheet; more water is weaker.")
    setting_time: Optional = quantity("From mixing until it stiffens", "min", 0.5, 1440, None, slider=(2, 120), step=1, help="At the day's temperature. Batches follow from it.")
    mixing_time: Number = quantity("Mixing and carrying a batch", "min", 0.1, 240, "8 min", slider=(1, 30), step=1)
    rate: Number = quantity("Laying-up rate, one person", "m²/min", 0.0005, 1, "0.01 m²/min", slider=(0.002, 0.05), step=0.001)
    people: int = count("People laying up from one batch", 1, 12, 2, slider=(1, 6), chosen=True)
    filling: Number = quantity("One slush filling leaves", "mm", 0.5, 50, "5 mm", slider=(1, 15), step=0.5)
    poured_over: Number = quantity("Poured in over what stays, times", "", 1, 20, "1.3", slider=(1, 4), step=0.1)
    mixer: Number = quantity("One mixer takes", "kg", 0.1, 5000, "25 kg", slider=(1, 120), step=1, chosen=True)
    pouring_time: Number = quantity("Pouring the last batch in", "min", 0, 240, "2 min", slider=(0, 20), step=0.5)
    released: bool = yes_no("Released before every cast", False, chosen=True)
    made: int = count("Casts already taken from this mold", 0, 5000, 0, slider=(0, 100), help="From the log on the mold; test casts count.")
    master: str = choice("Cast from a master, which is of", ("no master", *SHRINKING), "no master", chosen=True,
                         help="A master is cast from the original's mold, and molded again: both shrink.")
    wanted_length: Optional = quantity("Length wanted of a cast", "mm", 1, 20000, None, slider=(100, 3000), step=5, chosen=True)
    vent_hours: Number = quantity("The rubber airs before the first cast", "h", 0, 2000, "48 h", slider=(0, 168), step=4, chosen=True)
    vent_both: bool = yes_no("Both its faces lie open", False, chosen=True, help="In its shell only one does.")
    diffusivity: Number = quantity("Diffusivity of what leaves the rubber", "mm²/h", 0.0001, 100, "0.36 mm²/h", slider=(0.04, 4), step=0.02,
                                   help="An estimate, good to a factor of ten: fit it to two weighings of your own.")
    gap: Number = quantity("Room between rubber and shell", "mm", 0, 100, "0 mm", slider=(0, 10), step=0.5)
    material_price: Optional = quantity("Price of a kilogram of cast material", "", 0, 1e6, None, slider=(0, 50), step=0.5, help="In your money.")
    work: Optional = quantity("Work on one cast, cleaning included", "h", 0, 2000, None, slider=(0, 40), step=0.5)
    hour_price: Optional = quantity("Price of an hour at casting", "", 0, 1e6, None, slider=(0, 200), step=1, help="In your money.")
    mold_price: Optional = quantity("Mold and shell cost, work included", "", 0, 1e9, None, slider=(0, 20000), step=100, help="In your money.")
