"""What public guidance names against dust, noise, vibration and heavy lifts, and the limits it goes by, each with its source."""

from typing import NamedTuple

#: When these limits and sentences were last read; they change.
AS_OF = "November 2026"
DEFER = "Estimates, no clearance: the safety data sheet, local codes and licensed practice come first."


class Limit(NamedTuple):
    """A limit as public pages print it: for what, how much, over which time, whose, and how sure we are of it."""

    agent: str
    value: float
    unit: str
    over: str
    source: str
    status: str


class Advice(NamedTuple):
    """A sentence of guidance: when it stands, what it says, whose it is, and how sure we are of it."""

    when: str
    says: str
    source: str
    status: str


LIMITS: tuple[Limit, ...] = (
    Limit("respirable crystalline silica", 0.05, "mg/m³", "8 h", "OSHA PEL, 29 CFR 1910.1053", "verified"),
    Limit("respirable crystalline silica, action level", 0.025, "mg/m³", "8 h", "29 CFR 1910.1053", "verified"),
    Limit("fibrous glass, fibres", 3.0, "fibres/cm³", "shift", "NIOSH REL (up to 3.5 µm thick, 10 µm or longer)", "verified"),
    Limit("fibrous glass, total", 5.0, "mg/m³", "shift", "NIOSH REL", "verified"),
    Limit("particulates not otherwise regulated, total", 15.0, "mg/m³", "8 h", "29 CFR 1910.1000 table Z-1", "from memory"),
    Limit("particulates not otherwise regulated, respirable", 5.0, "mg/m³", "8 h", "29 CFR 1910.1000 table Z-1", "from memory"),
    Limit("amorphous silica", 6.0, "mg/m³", "shift", "NIOSH REL", "verified"),
    Limit("hardwood dust, balsa core too", 2.0, "mg/m³", "8 h", "EU directive 2017/2398, from January 2023",
          "verified; balsa a hardwood: from memory"),
    Limit("styrene", 100.0, "ppm", "8 h", "OSHA", "verified"),
    Limit("styrene", 50.0, "ppm", "shift", "NIOSH REL", "verified"),
    Limit("styrene", 10.0, "ppm", "8 h", "ACGIH", "from memory"),
    Limit("DETA", 1.0, "ppm", "8 h", "Ontario table, in a public library", "verified"),
    Limit("TETA", 0.5, "ppm", "8 h", "Ontario table, in a public library", "verified"),
    Limit("tetraethoxysilane", 10.0, "ppm", "8 h", "Ontario table, in a public library", "verified"),
    Limit("hand-arm vibration, action value A(8)", 2.5, "m/s²", "8 h", "2002/44/EC", "verified"),
    Limit("hand-arm vibration, limit value A(8)", 5.0, "m/s²", "8 h", "2002/44/EC", "verified"),
    Limit("noise", 90.0, "dBA", "8 h, 5 dB rule", "OSHA, 29 CFR 1910.95", "verified"),
    Limit("noise, action level", 85.0, "dBA", "8 h, 5 dB rule", "OSHA, 29 CFR 1910.95", "verified"),
    Limit("noise, lower action value", 80.0, "dB", "8 h, 3 dB rule", "2003/10/EC", "verified"),
    Limit("noise, upper action value", 85.0, "dB", "8 h, 3 dB rule", "2003/10/EC", "verified"),
    Limit("noise, limit value at the ear", 87.0, "dB", "8 h, 3 dB rule", "2003/10/EC", "verified"),
)

ADVICE: tuple[Advice, ...] = (
    Advice("glass dust", "Cut wet or with extraction at the tool; wear overalls, goggles and a fitted mask.",
           "NIOSH and OSHA pages on fibrous glass", "verified"),
    Advice("glass dust", "Glass thread is too thick for the deep lung, but its dust irritates skin, eyes and throat: catch it all the same.",
           "a state workplace authority's page", "verified; not unanimous"),
    Advice("sanding", "Sand only laminate that has fully cured: dust of epoxy that has not can sensitise.", "supplier advice", "verified"),
    Advice("fillers", "Quartz fillers come under the silica limit, glass fibre itself does not.", "29 CFR 1910.1053", "from memory"),
    Advice("foam core", "Do not burn PVC foam or cut it with a hot wire.", "supplier advice", "common practice"),
    Advice("dust, extraction", "Laminate and core dust can burn: never in one extractor with sparks from metal.", "NFPA 660 family", "from memory"),
    Advice("dust, masks", "A half mask counts for 10, a full face for 50 times the limit, fitted to the face; catching the dust comes first.",
           "29 CFR 1910.134 table 1", "from memory"),
    Advice("dust, air", "Fresh air thins vapours; dust is caught at its source.", "industrial-hygiene courses", "verified"),
    Advice("edges", "Broken edges carry needles: trim with a knife before full hardness, round to 2 mm or more, seal with resin.",
           "workshops", "common practice"),
    Advice("edges", "Gloves spare hands but count as a poorer hold when lifting.", "lifting manual 94-110, notes to table 6", "verified"),
    Advice("disc", "Never run a disc faster than what is printed on it; guard on, goggles and face shield.", "tool manuals", "common practice"),
    Advice("noise", "Above 85 dB over a day hearing protection is worn and its area marked.", "2003/10/EC; OSHA 29 CFR 1910.95",
           "verified for the values"),
    Advice("vibration", "Above an A(8) of 2.5 m/s² the work is planned to bring it down; 5 m/s² is not passed.", "2002/44/EC", "verified"),
    Advice("lifting", "No law fixes one weight for everybody: each lift is looked at.", "HSE questions and answers; OSHA letter of 2013", "verified"),
    Advice("lifting", "23 kg (51 lb) is for an ideal lift; reach, twist and a poor hold bring it down.", "NIOSH via public pages", "verified"),
    Advice("turning", "A section let go suddenly falls: straps and a second person; a closed mold with a cast is turned on a cradle.",
           "workshops", "common practice"),
)


def advice_for(*subjects: str) -> list[Advice]:
    """The sentences whose heading begins with one of these words; all of them where none is given."""
    return [advice for advice in ADVICE if not subjects or advice.when.startswith(subjects)]
