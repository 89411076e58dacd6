"""Entries of what touches what, of keys, strips and the cut, and the rows that belong to them."""

from pydantic import Field

from moldcalc.job.entry import Number, Optional, Table, choice, count, quantity, words, yes_no

MOST_ROWS = 200
#: materials whose shrinkage or growth is known
SHRINKING = ("pottery plaster", "molding plaster", "casting plaster", "hard gypsum", "polyester resin", "epoxy resin", "polyurethane resin", "fibre-cement")
ROLES = ("surface", "tool", "rubber", "shell", "cast")


class Thing(Table):
    """Something that the job will touch: a surface, a tool, an older rubber."""

    name: str = words("Thing", "thing")
    material: str = words("Material", "", help="As it is named in the table of pairs; what is not in there is unknown and gets a patch test.")
    role: str = choice("It is a", ROLES, "tool", chosen=True, help="Surface: what the rubber is put on. Tool: brush, glove, channel, pin, tape, board.")
    sealed: bool = yes_no("Sealed before", False, chosen=True)
    released: bool = yes_no("Released before", False, chosen=True)
    over: str = words("Lies over", "", help="Name of what it covers wholly, so that the rubber no longer meets that.")


class Test(Table):
    """A patch test, as it was read."""

    __test__ = False  # no test case, though pytest would take it for one

    first: str = words("Patch of", "", help="Name of the surface or tool: original, surface, clay, release, gloves, or one of your things.")
    second: str = words("With", "rubber")
    hours: Optional = quantity("It lay", "h", 0, 2000, None, slider=(0, 72), step=1)
    tack: str = choice("Contact face sticks or looks wet", ("not looked at", "no", "yes"), "not looked at")
    overruled: str = words("Overruled because", "", help="Your reason in writing for going on without a passed test.")

    @property
    def name(self) -> str:
        """What it is called on a panel."""
        return f"patch of {self.first}"


class Neck(Table):
    """A girth of the original, from the opening of the rubber inward."""

    name: str = words("Place", "place")
    height: Number = quantity("From the opening", "mm", 0, 20000, "0 mm", slider=(0, 3000), step=10)
    girth: Number = quantity("Girth", "mm", 5, 40000, "600 mm", slider=(100, 4000), step=10)


class Keys(Table):
    """Keys, strips and shims; where the rubber is cut, and what it takes to get it off."""

    strip_base: Number = quantity("Strip, width at its foot", "mm", 4, 100, "25 mm", slider=(10, 50), step=1, chosen=True, help="A strip listed under paste comes first.")
    strip_top: Number = quantity("Strip, width at its top", "mm", 3, 100, "15 mm", slider=(8, 40), step=1, chosen=True)
    strip_height: Number = quantity("Strip, height", "mm", 3, 100, "12 mm", slider=(6, 30), step=1, chosen=True)
    channel: Number = quantity("Length of the channel", "mm", 50, 10000, "1250 mm", slider=(300, 3000), step=50, help="In which strips are cast.")
    trim: Number = quantity("Lost at each cut of a strip", "mm", 0, 100, "5 mm", slider=(0, 20), step=1)
    strip_age: Optional = quantity("Age of the strips when they are laid", "h", 0, 5000, None, slider=(0, 96), step=1, help="From casting them; at the day's temperature.")
    shim: Number = quantity("Thickness of the shim", "mm", 0.2, 20, "2 mm", slider=(0.5, 5), step=0.5, chosen=True)
    clearance: Number = quantity("Room in the slot, each side", "mm", 0, 10, "1.4 mm", slider=(0, 4), step=0.2, chosen=True)
    slot_depth: Number = quantity("Depth of the slot", "mm", 0.5, 95, "8 mm", slider=(2, 25), step=1, chosen=True)
    above: Number = quantity("Shim left over the flange", "mm", 0, 200, "10 mm", slider=(0, 40), step=5, help="To trim, and to hold it by.")
    sheet_length: Number = quantity("Sheet for shims, length", "mm", 50, 10000, "1250 mm", slider=(300, 3000), step=50)
    sheet_width: Number = quantity("Sheet for shims, width", "mm", 50, 10000, "1000 mm", slider=(200, 2000), step=50)
    kerf: Number = quantity("Lost at each cut of a sheet", "mm", 0, 50, "3 mm", slider=(0, 6), step=0.5)
    pin_spacing: Number = quantity("Pins along a strip, at most apart", "mm", 5, 1000, "50 mm", slider=(20, 150), step=5, chosen=True)
    pin_rows: int = count("Rows of pins", 1, 4, 2, chosen=True)
    key_base: Number = quantity("Flange key, width", "mm", 3, 300, "30 mm", slider=(15, 60), step=1, chosen=True)
    key_height: Number = quantity("Flange key, height", "mm", 1, 200, "12 mm", slider=(4, 25), step=1, chosen=True)
    key_draft: Number = quantity("Flange key, slant of its sides", "°", 0, 80, "12°", slider=(0, 60), step=1, chosen=True, help="10 to 15° is usual: common practice.")
    key_lean: Number = quantity("Its axis leans from the pull", "°", 0, 180, "0°", slider=(0, 60), step=1, help="Of the section that comes off over it.")
    key_spacing: Number = quantity("Flange keys, at most apart", "mm", 10, 2000, "120 mm", slider=(50, 250), step=5, chosen=True)
    least_draft: Number = quantity("Least draft of a key", "°", 0, 45, "5°", slider=(0, 15), step=1, chosen=True)
    hanging_area: Optional = quantity("Wide area that hangs when casting", "m²", 0.001, 100, None, slider=(0.01, 2), step=0.01, help="Seen from above. Buttons hold it in the shell.")
    hanging_thickness: Optional = quantity("Rubber there", "mm", 1, 100, None, slider=(3, 30), step=1, help="Left empty, the mean thickness.")
    button_hold: Optional = quantity("One button slips out at", "N", 0.1, 5000, None, slider=(1, 60), step=1, help="No published figure: hang weights on one.")
    pull: Number = quantity("Pull of the cast on the rubber", "Pa", 0, 100000, "0 Pa", slider=(0, 2000), step=50, help="When it is drawn. No published figure: weigh it on a small one.")
    load_factor: Number = quantity("Buttons hold the load times", "", 1, 20, "3", slider=(1, 6), step=0.5, chosen=True)
    button_spacing: Number = quantity("Buttons, at most apart", "mm", 20, 1000, "200 mm", slider=(80, 400), step=10, chosen=True)
    elongation: Number = quantity("Elongation at break", "%", 10, 1500, "300 %", slider=(100, 900), step=10, help="From the data sheet of your rubber.")
    stretch_share: Number = quantity("Share of it that you allow", "%", 1, 100, "30 %", slider=(1, 40), step=1, chosen=True,
                                     help="A third at most: a heuristic, no source. Where mesh is bedded in, nothing stretches.")
    cut_share: Optional = quantity("Share allowed at the edge of a cut", "%", 1, 100, None, slider=(1, 40), step=1, chosen=True,
                                   help="Less: it tears from its nicks. No figure was found. Left empty, the same.")
    neck: Optional = quantity("Worst neck, girth", "mm", 5, 40000, None, slider=(50, 3000), step=10, help="Where you have no girths from the opening inward.")
    bulge: Optional = quantity("Bulge that must pass it, girth", "mm", 5, 40000, None, slider=(50, 4000), step=10)
    mouth: Optional = quantity("Girth of the opening", "mm", 5, 40000, None, slider=(50, 4000), step=10, help="Left empty, the first girth, or the outline of the base.")
    cut: Optional = quantity("Length of the cut", "mm", 0, 40000, None, slider=(0, 3000), step=10, chosen=True, help="From the opening inward. Left empty, as far as it must run.")
    fold: Number = quantity("A half is folded back over, radius", "mm", 1, 1000, "20 mm", slider=(5, 100), step=5, chosen=True)
    band_thickness: Optional = quantity("Seam band, whole thickness", "mm", 2, 200, None, slider=(8, 40), step=1, help="Left empty, the wall and the seam band listed under paste.")
    band_width: Optional = quantity("Seam band, width", "mm", 5, 500, None, slider=(20, 100), step=5)
    seam: Optional = quantity("Length of the seam", "m", 0.01, 100, None, slider=(0.1, 8), step=0.1)
    last: Number = quantity("Left for the last, straight pass", "mm", 0.5, 30, "3 mm", slider=(1, 8), step=0.5, chosen=True)
    pitch: Number = quantity("Zigzag, peak to peak", "mm", 2, 300, "15 mm", slider=(6, 40), step=1, chosen=True)
    swing: Number = quantity("Zigzag, side to side", "mm", 0, 200, "10 mm", slider=(0, 30), step=1, chosen=True)
    zigzag_share: Number = quantity("Zigzag, share of the thickness", "%", 1, 95, "50 %", slider=(20, 80), step=5, chosen=True)
    adhesion: Number = quantity("Peeling a test patch at a right angle takes", "N/m", 0.01, 2000, "5 N/m", slider=(0.5, 50), step=0.5,
                                help="For each metre of width, with a luggage scale. No published figure.")
    peel_angle: Number = quantity("Angle at which you peel", "°", 5, 180, "90°", slider=(10, 180), step=5, chosen=True)
    peel_width: Number = quantity("Front that lets go at one time", "m", 0.01, 20, "0.5 m", slider=(0.05, 2), step=0.05, chosen=True)
    station: tuple[Neck, ...] = Field(default=(), max_length=MOST_ROWS)
