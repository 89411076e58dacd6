"""Ground floor: quantities. Reads what makers type, shows values as they say them, guards each calculation."""

from moldcalc.units.door import ANY, DOORS, NOT_NEGATIVE, PART, POSITIVE, SHARE, Door, Range, Stray, door
from moldcalc.units.reading import Span, parse, read, read_clock, read_ratio, read_span
from moldcalc.units.registry import Q, kind_of, ureg
from moldcalc.units.showing import System, digits, editable, from_shown, show, shown, si_of, unit_in

__all__ = [
    "ANY", "DOORS", "NOT_NEGATIVE", "PART", "POSITIVE", "SHARE", "Door", "Q", "Range", "Span", "Stray", "System",
    "digits", "door", "editable", "from_shown", "kind_of", "parse", "read", "read_clock", "read_ratio", "read_span",
    "show", "shown", "si_of", "unit_in", "ureg",
]
