"""Bolts, washers and holes as the standards list them, M4 to M12."""

from typing import Literal, NamedTuple

from moldcalc.errors import EntryError, Fault, clipped

Fit = Literal["fine", "medium", "coarse"]

MM = 1e-3
MPA = 1e6


class Fastener(NamedTuple):
    """A coarse-thread bolt: nominal diameter, pitch, clearance holes by fit, outside of its washers, span of its wing nut. [m]"""

    size: str
    diameter: float
    pitch: float
    fine: float
    medium: float
    coarse: float
    washer: float
    large_washer: float
    wing_span: float


def _mm(size: str, *sizes: float) -> Fastener:
    return Fastener(size, *(value * MM for value in sizes))


#: Pitch: ISO 261 coarse (from memory). Holes: ISO 273 (seen in public tables). Washers: ISO 7089 and, large, ISO 7093 (from memory).
#: Wing span: DIN 315 (one public table; other makes differ).
FASTENERS: dict[str, Fastener] = {fastener.size: fastener for fastener in (
    #    size  d   pitch  fine medium coarse washer large wing
    _mm("M4", 4, 0.7, 4.3, 4.5, 4.8, 9, 12, 28),
    _mm("M5", 5, 0.8, 5.3, 5.5, 5.8, 10, 15, 32),
    _mm("M6", 6, 1.0, 6.4, 6.6, 7.0, 12, 18, 37),
    _mm("M8", 8, 1.25, 8.4, 9.0, 10.0, 16, 24, 45),
    _mm("M10", 10, 1.5, 10.5, 11.0, 12.0, 20, 30, 55),
    _mm("M12", 12, 1.75, 13.0, 13.5, 14.5, 24, 37, 64),
)}

#: Stress under proof load by property class [Pa]: ISO 898-1. Its proof loads, seen in a public table, are these on the nominal areas.
PROOF_STRESS: dict[str, float] = {
    "4.6": 225 * MPA, "4.8": 310 * MPA, "5.6": 280 * MPA, "5.8": 380 * MPA, "6.8": 440 * MPA,
    "8.8": 580 * MPA, "10.9": 830 * MPA, "12.9": 970 * MPA,
}

#: Nut factor K by how the thread is found, each with a scatter of 30 % (from memory).
NUT_FACTOR: dict[str, float] = {"dry": 0.20, "lightly oiled": 0.15, "waxed": 0.12}
NUT_FACTOR_SCATTER = 0.30

#: What fingers put on a wing nut [N·m], from tired to eager: common practice, no source.
WING_NUT_TORQUE = (1.0, 3.0)

#: Through the thickness, what crushes a glass laminate (lower end of 50 to 100) and foam of 80 kg/m³ [Pa]: from memory.
CRUSHING: dict[str, float] = {"glass laminate": 50 * MPA, "foam core 80 kg/m³": 1 * MPA}


def fastener(size: str) -> Fastener:
    """The bolt of a size, 'M8'.

    Raises
    ------
    EntryError
        A size that is not listed.
    """
    found = FASTENERS.get(str(size).strip().upper())
    if found is None:
        raise EntryError(Fault("bolt", clipped(size), f"choose {', '.join(list(FASTENERS)[:-1])} or {list(FASTENERS)[-1]}"))
    return found


def clearance_hole(size: str, fit: Fit = "medium") -> float:
    """Diameter of the hole that a bolt passes through [m].

    A bolt does not locate: in a medium hole M8 lets two halves shift by 0.5 mm. Pins locate, or holes drilled through both at once.
    Source: ISO 273 (seen in public tables).

    Raises
    ------
    EntryError
        A size or a fit that is not listed.
    """
    if fit not in ("fine", "medium", "coarse"):
        raise EntryError(Fault("fit", clipped(fit), "choose fine, medium or coarse"))
    return float(getattr(fastener(size), fit))


def proof_stress(property_class: str) -> float:
    """Stress under proof load of a property class, '8.8' [Pa].

    Source: ISO 898-1; 580 MPa of class 8.8 holds up to M16.

    Raises
    ------
    EntryError
        A class that is not listed.
    """
    found = PROOF_STRESS.get(str(property_class).strip())
    if found is None:
        raise EntryError(Fault("property class", clipped(property_class), f"choose one of {', '.join(PROOF_STRESS)}"))
    return found
