"""The one pint registry, and the words that makers use for units.

Pint's own reader of text never sees what a person typed: it takes '3 1/2 in' for 1.5 in and
'1,5 mm' for 15 mm without a word. Names of units come from the table below; pint only converts.
"""

import re
from functools import cache

import pint

from moldcalc.units.definitions import DEFINITIONS

ureg: pint.UnitRegistry = pint.UnitRegistry(None)
ureg.load_definitions(DEFINITIONS.strip().splitlines())
Q = ureg.Quantity
#: the unit of a plain number
PLAIN = ureg.Unit("")

#: What makers write -> the registry's name. Looked up as written, then in lower case.
WORDS: dict[str, str] = {
    # lengths
    **dict.fromkeys(["mm", "millimetre", "millimetres", "millimeter", "millimeters"], "millimeter"),
    **dict.fromkeys(["cm", "centimetre", "centimetres", "centimeter", "centimeters"], "centimeter"),
    **dict.fromkeys(["m", "metre", "metres", "meter", "meters"], "meter"),
    **dict.fromkeys(["µm", "um", "micron", "microns"], "micrometer"),
    **dict.fromkeys(["in", "in.", "inch", "inches", '"'], "inch"),
    **dict.fromkeys(["ft", "ft.", "foot", "feet", "'"], "foot"),
    **dict.fromkeys(["yd", "yard", "yards"], "yard"),
    **dict.fromkeys(["mil", "mils", "thou"], "thou"),
    # areas and volumes with a word of their own
    **dict.fromkeys(["sq m", "sqm"], "meter**2"),
    **dict.fromkeys(["sq ft", "sqft"], "foot**2"),
    **dict.fromkeys(["sq in", "sqin"], "inch**2"),
    **dict.fromkeys(["sq yd", "sqyd"], "yard**2"),
    **dict.fromkeys(["l", "L", "litre", "litres", "liter", "liters"], "liter"),
    **dict.fromkeys(["dl"], "deciliter"),
    **dict.fromkeys(["ml", "mL", "cc", "millilitre", "millilitres", "milliliter", "milliliters"], "milliliter"),
    **dict.fromkeys(["fl oz", "floz", "fl. oz.", "fl. oz", "fluid ounce", "fluid ounces", "us fl oz"], "fluid_ounce"),
    **dict.fromkeys(["pt", "pint", "pints", "us pt"], "pint"),
    **dict.fromkeys(["qt", "quart", "quarts", "us qt"], "quart"),
    **dict.fromkeys(["gal", "gallon", "gallons", "us gal"], "gallon"),
    **dict.fromkeys(["imp gal", "imperial gallon", "imperial gallons"], "imperial_gallon"),
    # masses
    **dict.fromkeys(["mg"], "milligram"),
    **dict.fromkeys(["g", "gr", "gram", "grams", "gramme", "grammes"], "gram"),
    **dict.fromkeys(["kg", "kilo", "kilos", "kilogram", "kilograms"], "kilogram"),
    **dict.fromkeys(["t", "tonne", "tonnes"], "metric_ton"),
    **dict.fromkeys(["oz", "oz.", "ounce", "ounces"], "ounce"),
    **dict.fromkeys(["oz wt", "oz av", "wt oz", "oz by weight", "ounces by weight"], "ounce"),
    **dict.fromkeys(["lb", "lb.", "lbs", "lbs.", "pound", "pounds", "#"], "pound"),
    # times
    **dict.fromkeys(["s", "sec", "secs", "second", "seconds"], "second"),
    **dict.fromkeys(["min", "mins", "min.", "minute", "minutes"], "minute"),
    **dict.fromkeys(["h", "hr", "hrs", "hour", "hours"], "hour"),
    **dict.fromkeys(["d", "day", "days"], "day"),
    **dict.fromkeys(["wk", "week", "weeks"], "week"),
    # temperatures
    **dict.fromkeys(["°c", "c", "degc", "deg c", "celsius"], "degree_Celsius"),
    **dict.fromkeys(["°f", "f", "degf", "deg f", "fahrenheit"], "degree_Fahrenheit"),
    **dict.fromkeys(["k", "kelvin"], "kelvin"),
    # angles, shares
    **dict.fromkeys(["°", "deg", "degree", "degrees"], "degree"),
    **dict.fromkeys(["rad"], "radian"),
    **dict.fromkeys(["%", "per cent", "percent", "pct"], "percent"),
    # the rest
    "gsm": "gram/meter**2",
    **dict.fromkeys(["pcf"], "pound/foot**3"),
    "Pa": "pascal", "kPa": "kilopascal", "MPa": "megapascal", "GPa": "gigapascal", "psi": "psi",
    **dict.fromkeys(["cP", "cp", "cps"], "centipoise"), "mPa": "millipascal",
    "J": "joule", "kJ": "kilojoule", "mol": "mole", "kcal": "kilocalorie", "N": "newton", "kN": "kilonewton",
    "lbf": "pound_force", "Msi": "megapsi",
}

#: scales whose zero is not nothing: they stand alone, never in a product
_OFFSET = ("degree_Celsius", "degree_Fahrenheit")
_POWERS = str.maketrans({"²": "2", "³": "3", "⁴": "4"})
_FACTOR = re.compile(r"^(?P<word>.*?[^\d^*\s])\s*(?:\^|\*\*)?\s*(?P<power>[1-4])?$")


@cache
def unit_named(words: str) -> pint.Unit | None:
    """The unit that a maker's words name ('g/cm³', 'fl oz', 'm²/min'), or None where no such unit is known."""
    text = " ".join(words.translate(_POWERS).replace("·", "*").replace(" per ", "/").split())
    if not text or len(text) > 40:
        return None
    whole = WORDS.get(text) or WORDS.get(text.lower())
    if whole:
        return ureg.Unit(whole)
    made = ureg.Unit("")
    for place, part in enumerate(text.split("/")):
        for piece in re.split(r"(?<!\*)\*(?!\*)", part):
            found = _FACTOR.match(piece.strip())
            if not found:
                return None
            name = WORDS.get(found["word"]) or WORDS.get(found["word"].lower())
            if name is None or name in _OFFSET:
                return None
            factor = ureg.Unit(name) ** int(found["power"] or 1)
            made = made / factor if place else made * factor
    return made


#: dimension (as SI unit) -> (what it is called, how to write it)
KINDS: dict[str, tuple[str, str]] = {
    "m": ("a length", "6 mm or 1/4 in"),
    "m^2": ("an area", "1.7 m² or 18 ft²"),
    "m^3": ("a volume", "2 L or 2 qt"),
    "kg": ("a mass", "500 g or 1 lb 2 oz"),
    "s": ("a time", "40 min or 1 h 30 min"),
    "K": ("a temperature", "19 °C or 66 °F"),
    "kg/m^2": ("a mass on an area", "450 g/m² or 1.5 oz/ft²"),
    "kg/m^3": ("a density", "1.18 kg/L or 74 lb/ft³"),
    "m^2/s": ("an area for a time", "0.04 m²/min"),
    "Pa": ("a stress", "25 Pa"),
    "Pa*s": ("a viscosity", "30 Pa*s or 30000 cP"),
    "rad": ("an angle", "45°"),
    "J/mol": ("an activation energy", "45 kJ/mol"),
    "J/kg": ("heat for a mass", "450 kJ/kg"),
    "m/s": ("a speed", "2 mm/min"),
    "N/m": ("a surface tension", "0.021 N/m"),
    "kg/mol": ("a molar mass", "103 g/mol"),
    "": ("a plain number", "0.30 or 30 %"),
}


@cache
def kind_of(unit: str) -> tuple[str, str]:
    """What a quantity in that unit is called, and an example of how to write one."""
    wanted = ureg.Unit(unit) if unit else ureg.Unit("")
    if unit in ("rad", "degree"):
        return KINDS["rad"]
    for si, words in KINDS.items():
        if si != "rad" and ureg.Unit(si).dimensionality == wanted.dimensionality:
            return words
    return (f"a quantity in {wanted:~P}", f"1 {wanted:~P}")
