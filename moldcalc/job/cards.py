"""Material cards: what a data sheet says of one generic material. A card of the user's own comes before ours.

A card is a TOML file; every value in it says whether it is typical, invented or from a data sheet.
"""

import re
import tomllib
from functools import cache
from pathlib import Path
from typing import Annotated, Any, ClassVar

from pydantic import SkipValidation, ValidationError, model_validator

from moldcalc.errors import EntryError, Fault, FileError, clipped
from moldcalc.job.entry import Number, Optional, Table, choice, faults_of, meant, mix_ratio, quantity, words
from moldcalc.job.places import data_folder

STATUS = ("typical", "invented", "data sheet", "measured")
LARGEST = 200_000  # bytes of a card worth reading


class Card(Table):
    """What every card has. ``status`` says of each value where it is from."""

    kind_name: ClassVar[str] = ""
    name: str = words("Card", "")
    label: str = words("Material", "")
    advice: str = words("Advice", "replace by your data sheet")
    source: str = words("Source", "")
    caution: str = words("Caution", "")
    status: Annotated[dict[str, str], SkipValidation] = {}

    @model_validator(mode="before")
    @classmethod
    def _values_with_status(cls, given: Any) -> Any:
        """``density = { value = "1.18 kg/L", status = "typical" }`` becomes the value, its status kept beside it."""
        if not isinstance(given, dict) or "status" in given:
            return given
        plain: dict[str, Any] = {}
        status: dict[str, str] = {}
        for key, value in given.items():
            if isinstance(value, dict):
                value = dict(value)
                status[key] = value.pop("status", "")
                if status[key] not in STATUS:
                    raise EntryError(Fault(f"status of {key}", clipped(status[key]) or "missing", f"it must be one of: {', '.join(STATUS)}"))
                value = value["value"] if set(value) == {"value"} else value
            plain[key] = value
        bare = [key for key in plain if key in cls.entries() and cls.entries()[key].kind in ("quantity", "ratio") and key not in status]
        if bare:
            raise EntryError([Fault(key, "without a status", f"write {key} = {{ value = \"…\", status = \"typical\" }}") for key in bare])
        return {**plain, "status": status}


class Rubber(Card):
    """A two-part silicone rubber."""

    kind_name: ClassVar[str] = "rubber"
    chemistry: str = choice("Cure", ("tin", "addition"), "tin")
    mix_ratio: str = mix_ratio("Mix ratio", "100:5 by weight")
    density: Number = quantity("Density of the mix", "kg/L", 0.5, 3, "1.18 kg/L")
    base_density: Number = quantity("Density of the base", "kg/L", 0.5, 3, "1.2 kg/L")
    part_density: Number = quantity("Density of the other part", "kg/L", 0.5, 3, "0.98 kg/L")
    viscosity: Number = quantity("Viscosity when mixed", "Pa·s", 0.01, 10000, "30 Pa·s")
    yield_stress: Number = quantity("Yield stress, unthickened", "Pa", 0, 5000, "0 Pa")
    reference_temperature: Number = quantity("Times hold at", "°C", 0, 60, "23 °C")
    coldest: Number = quantity("Data sheet from", "°C", -20, 60, "10 °C")
    warmest: Number = quantity("Data sheet to", "°C", -20, 80, "35 °C")
    working_time: Number = quantity("Working time", "min", 1, 1440, "40 min")
    pot_life_mass: Number = quantity("Measured on", "g", 1, 100000, "100 g")
    earliest_recoat: Number = quantity("Next coat not before", "h", 0.01, 500, "2 h")
    latest_recoat: Number = quantity("Next coat not after", "h", 0.1, 500, "24 h")
    demold_time: Number = quantity("Demold time", "h", 0.1, 500, "16 h")
    activation_energy: Number = quantity("Activation energy", "kJ/mol", 5, 200, "35 to 60 kJ/mol")
    hardness_shore_a: Number = quantity("Hardness, Shore A", "", 0, 100, "20")
    linear_shrinkage: Number = quantity("Linear shrinkage", "%", 0, 10, "0.1 to 1 %")


class Thickener(Card):
    """What makes rubber hold on an upright face."""

    kind_name: ClassVar[str] = "thickener"
    density: Number = quantity("True density", "kg/L", 0.05, 10, "2.2 kg/L")
    bulk_density: Optional = quantity("Loose powder", "kg/L", 0.005, 5, None)
    brushable: Number = quantity("Brushable from, to", "%", 0, 30, "0.5 to 2 %")
    paste: Number = quantity("Paste from, to", "%", 0, 30, "2 to 5 %")
    working_time_factor: Number = quantity("Working time times", "", 0.1, 2, "1")


class Resin(Card):
    """A two-part resin: for laminating, or as a thickened surface coat."""

    kind_name: ClassVar[str] = "resin"
    mix_ratio: str = mix_ratio("Mix ratio", "100:30 by weight")
    density: Number = quantity("Density, cured", "kg/L", 0.5, 3, "1.15 kg/L")
    part_density: Number = quantity("Density of the hardener", "kg/L", 0.5, 3, "0.98 kg/L")
    base_density: Number = quantity("Density of the resin", "kg/L", 0.5, 3, "1.15 kg/L")
    reference_temperature: Number = quantity("Times hold at", "°C", 0, 60, "20 °C")
    coldest: Number = quantity("Data sheet from", "°C", -20, 60, "15 °C")
    warmest: Number = quantity("Data sheet to", "°C", -20, 80, "30 °C")
    pot_life: Number = quantity("Pot life", "min", 1, 1440, "45 min")
    pot_life_mass: Number = quantity("Measured on", "g", 1, 100000, "100 g")
    demold_time: Number = quantity("Cure before the shell is opened", "h", 0.5, 500, "16 h")
    activation_energy: Number = quantity("Activation energy", "kJ/mol", 5, 200, "45 to 65 kJ/mol")


class Reinforcement(Card):
    """A glass mat or cloth."""

    kind_name: ClassVar[str] = "reinforcement"
    form: str = choice("Form", ("mat", "cloth"), "cloth")
    areal_weight: Number = quantity("Areal weight", "g/m²", 20, 3000, "300 g/m²")
    fibre_density: Number = quantity("Density of the fibre", "kg/L", 0.5, 10, "2.56 kg/L")
    fibre_mass_fraction: Number = quantity("Fibre content by mass, laid by hand", "%", 10, 80, "50 %")
    modulus: Number = quantity("Modulus of the laminate", "GPa", 0.5, 200, "12 GPa")
    roll_width: Number = quantity("Width of the roll", "mm", 50, 5000, "1000 mm")


class Core(Card):
    """The light middle of a sandwich."""

    kind_name: ClassVar[str] = "core"
    form: str = choice("Form", ("sheet", "dough"), "sheet")
    density: Number = quantity("Density", "kg/m³", 10, 2000, "75 kg/m³")
    modulus: Number = quantity("Modulus, through the thickness", "MPa", 1, 20000, "55 MPa")
    shear_modulus: Number = quantity("Shear modulus", "MPa", 0.5, 10000, "22 MPa")
    sheets: str = words("Thicknesses sold", "5 mm, 8 mm, 10 mm, 12 mm, 15 mm, 20 mm", help="With commas between: what 'choose for me' may take.")


class Filler(Card):
    """Hollow microspheres and the like."""

    kind_name: ClassVar[str] = "filler"
    density: Number = quantity("True density", "kg/L", 0.02, 5, "0.2 kg/L")
    most_volume: Number = quantity("Most by volume", "%", 1, 70, "58 %")


class Cast(Card):
    """What is cast in the mold."""

    kind_name: ClassVar[str] = "cast"
    family: str = choice("Is a", ("not said", "wax", "gypsum", "fibre-cement", "polyurethane resin", "polyester resin", "epoxy resin"), "not said",
                         help="As in the tables of pairs, of shrinkage and of the mold's life.")
    density: Number = quantity("Density when cast", "kg/L", 0.2, 10, "2 kg/L")
    solid_density: Number = quantity("Density when poured solid", "kg/L", 0.2, 10, "2.05 kg/L")


KINDS: dict[str, type[Card]] = {kind.kind_name: kind for kind in (Rubber, Thickener, Resin, Reinforcement, Core, Filler, Cast)}


def read_card(path: Path) -> Card:
    """One card from its file.

    Raises
    ------
    FileError, EntryError
    """
    try:
        if path.stat().st_size > LARGEST:
            raise FileError(f"{path.name} is larger than a card can be ({LARGEST} bytes).")
        given = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except OSError as error:
        raise FileError(f"The card {path.name} can't be read: {error.strerror or 'it is not a file'}.") from None
    except UnicodeDecodeError:
        raise FileError(f"The card {path.name} is not text in UTF-8.") from None
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise FileError(f"The card {path.name} can't be read as TOML: {clipped(error, 120)}; texts and quantities stand in quotes.") from None
    kind = given.pop("kind", None)
    if not isinstance(kind, str) or kind not in KINDS:
        was = "missing" if kind is None else clipped(kind) or "empty"
        raise EntryError(Fault(f"{path.name}: kind", was, f"it must be one of: {', '.join(KINDS)}"))
    if "status" in given:
        allowed = "each value has its own: density = { value = \"…\", status = \"typical\" }"
        raise EntryError(Fault(f"{path.name}: 'status'", "not a known entry", allowed))
    try:
        return KINDS[kind].model_validate({**given, "name": path.stem})
    except ValidationError as error:
        raise EntryError([Fault(f"{path.name}: {fault.entry}", fault.was, fault.allowed) for fault in faults_of(error)]) from None


@cache
def _ours(name: str) -> Card:
    return read_card(data_folder() / "cards" / f"{name}.toml")


def card_names(kind: str, folders: tuple[Path, ...] = ()) -> list[str]:
    """Names of all cards of a kind, the user's first."""
    names: list[str] = []
    for folder in (*folders, data_folder() / "cards"):
        for path in sorted(folder.glob("*.toml")) if folder.is_dir() else ():
            if path.stem not in names and _kind(path) == kind:
                names.append(path.stem)
    return names


@cache
def _kind_at(path: Path, stamp: int) -> str:
    try:
        return str(tomllib.loads(path.read_text(encoding="utf-8-sig")).get("kind", ""))
    except (OSError, ValueError, RecursionError):
        return ""


def _kind(path: Path) -> str:
    try:
        return _kind_at(path, path.stat().st_mtime_ns)
    except OSError:  # a link to nowhere
        return ""


def find_card(name: str, kind: str, folders: tuple[Path, ...] = (), entry: str = "card") -> Card:
    """The card of that name: from the user's folders first, then ours.

    Raises
    ------
    EntryError
        No such card (with the one that may have been meant), or one of another kind.
    """
    plain = name.strip()
    found: Card | None = None
    if re.fullmatch(r"[^./\\:\0][^/\\:\0]{0,99}", plain):  # a plain name, no way into another folder
        for folder in folders:
            if (folder / f"{plain}.toml").is_file():
                found = read_card(folder / f"{plain}.toml")
                break
        else:
            if (data_folder() / "cards" / f"{plain}.toml").is_file():
                found = _ours(plain)
    if found is None:
        known = card_names(kind, folders)
        raise EntryError(Fault(entry, clipped(name) or "empty", f"there is no such card; known are {', '.join(known)}{meant(plain, known)}"))
    if found.kind_name != kind:
        raise EntryError(Fault(entry, clipped(name), f"that card is of a {found.kind_name}, not of a {kind}"))
    return found
