"""The door of a calculation: what it takes, and how it says what it can't use."""

import importlib
import math
import pkgutil
import re
from typing import Any, NamedTuple

import pytest

import moldcalc.stages
from moldcalc.errors import EntryError, Fault
from moldcalc.units import DOORS, NOT_NEGATIVE, PART, POSITIVE, SHARE, Door, Q, Range
from tests.tables import within


class Cut(NamedTuple):
    """An answer of several fields."""

    count: int
    each: float


def _put(units: dict[str, str], returns: Any, **limits: Any) -> Any:
    """A door outside the register, whose tests walk over calculations only."""
    return lambda body: Door(body, units, returns, limits.get("possible", {}), limits.get("holds", {}))


@_put({"areal_weight": "kg/m^2", "fibre_mass_fraction": "", "resin_density": "kg/m^3"}, "m",
      possible={"areal_weight": POSITIVE, "fibre_mass_fraction": (0, 1), "resin_density": POSITIVE}, holds={"fibre_mass_fraction": (0.2, 0.6)})
def resin_film(*, areal_weight: float, fibre_mass_fraction: float, resin_density: float = 1200.0) -> float:
    """Thickness of the resin alone."""
    return areal_weight * (1 - fibre_mass_fraction) / fibre_mass_fraction / resin_density


@_put({"lengths": "m[]"}, "m")
def total(*, lengths: list[float]) -> float:
    """Their sum."""
    return sum(lengths)


@_put({"mass": "kg", "most": "kg"}, {"each": "kg"}, possible={"most": POSITIVE})
def cut(*, mass: float, most: float | None = None) -> Cut:
    """In equal parts."""
    count = math.ceil(mass / most) if most else 1
    return Cut(count, mass / count)


GOOD = {"areal_weight": Q(450, "g/m^2"), "fibre_mass_fraction": 0.30}


def test_the_same_from_quantities_text_and_floats():
    by_hand = 0.45 * 0.7 / 0.3 / 1200
    assert resin_film(**GOOD).m_as("m") == within(by_hand, 1e-12)
    assert resin_film(areal_weight="450 g/m²", fibre_mass_fraction="30 %", resin_density="1.2 kg/L").m_as("m") == within(by_hand, 1e-12)
    assert resin_film.si(areal_weight=0.45, fibre_mass_fraction=0.3) == within(by_hand, 1e-12)
    assert str(resin_film(**GOOD).units) == "meter"


@pytest.mark.parametrize(("entry", "value", "says"), [
    ("areal_weight", Q(450, "g"), "areal weight is 450 gram; it must be a mass on an area, like 450 g/m² or 1.5 oz/ft²."),
    ("areal_weight", 450, "areal weight is 450; it has no unit; give a mass on an area, like 450 g/m² or 1.5 oz/ft²."),
    ("areal_weight", "450 g", "areal weight is 450 g; write a mass on an area, like 450 g/m² or 1.5 oz/ft²."),
    ("areal_weight", Q(0, "g/m^2"), "it must be above 0."),
    ("areal_weight", "-3 g/m²", "areal weight is -3 g/m²; it must be above 0."),
    ("areal_weight", None, "areal weight is None; it must be a mass on an area"),
    ("areal_weight", [1], "areal weight is [1]; it must be a mass on an area"),
    ("fibre_mass_fraction", 30, "fibre mass fraction is 30; it must be above 0 and below 1."),
    ("fibre_mass_fraction", True, "fibre mass fraction is True; it must be a plain number, like 0.30 or 30 %."),
    ("fibre_mass_fraction", Q(0.3, "m"), "it must be a plain number, like 0.30 or 30 %."),
    ("fibre_mass_fraction", math.nan, "fibre mass fraction is nan; it must be above 0 and below 1."),
    ("resin_density", Q(math.nan, "kg/m^3"), "resin density is nan kilogram / meter ** 3; it must be above 0."),
    ("resin_density", Q(math.inf, "kg/m^3"), "resin density is inf kilogram / meter ** 3; it must be above 0."),
    ("resin_density", Q(10**400, "kg/m^3"), "it must be above 0."),
    ("fibre_mass_fraction", 10**400, "it must be above 0 and below 1."),
], ids=lambda value: str(value)[:40])
def test_an_impossible_entry_is_named(entry, value, says):
    with pytest.raises(EntryError) as refused:
        resin_film(**GOOD | {entry: value})
    assert says in str(refused.value)
    assert [fault.entry for fault in refused.value.faults] == [entry.replace("_", " ")]


def test_every_fault_is_said_at_once():
    with pytest.raises(EntryError) as refused:
        resin_film(areal_weight=Q(1, "s"), fibre_mass_fraction=2, resin_density="heavy")
    assert [fault.entry for fault in refused.value.faults] == ["areal weight", "fibre mass fraction", "resin density"]
    assert str(refused.value).count(". ") == 2


def test_what_is_missing_is_named():
    with pytest.raises(EntryError) as refused:
        resin_film()
    assert refused.value.faults == (Fault("areal weight", "missing", "give a mass on an area"),
                                    Fault("fibre mass fraction", "missing", "give a plain number"))


def test_a_misspelt_entry_does_not_vanish():
    with pytest.raises(TypeError, match="resin_film has no entry glass"):
        resin_film(**GOOD, glass=1)
    with pytest.raises(TypeError):
        resin_film(0.45, 0.3)


@pytest.mark.parametrize(("value", "metres"), [
    ([Q(1, "m"), "20 cm", Q(3, "mm")], 1.203), ((Q(1, "ft"),), 0.3048), (["1 in", "1/2 in"], 0.0381),
])
def test_lists(value, metres):
    assert total(lengths=value).m_as("m") == within(metres, 1e-12)


@pytest.mark.parametrize(("value", "says"), [
    ([], "lengths is []; give a list with at least one value."),
    (Q(1, "m"), "give a list with at least one value."),
    ("1 m", "lengths is 1 m; give a list with at least one value."),
    ([Q(1, "m"), Q(1, "kg")], "lengths is 1 kilogram; it must be a length"),
    ([Q(1, "m"), 2], "lengths is 2; it has no unit"),
    ([Q(math.nan, "m")], "lengths is nan meter; it must be a finite number."),
    ([Q(1e308, "m"), Q(1e308, "m")], "together these entries give no number; check their sizes."),
])
def test_lists_that_are_refused(value, says):
    with pytest.raises(EntryError) as refused:
        total(lengths=value)
    assert says in str(refused.value)


def test_an_answer_of_several_fields():
    answer = cut(mass=Q(5, "kg"), most=Q(2, "kg"))
    assert answer.count == 3
    assert answer.each.m_as("kg") == within(5 / 3, 1e-12)
    assert cut(mass="5 kg", most=None).each.m_as("kg") == 5
    assert cut(mass="5 kg").count == 1


def test_entries_outside_where_the_formula_holds():
    assert resin_film.strays(fibre_mass_fraction=0.3) == []
    assert resin_film.strays(fibre_mass_fraction=0.2) == []
    low, = resin_film.strays(fibre_mass_fraction=0.1)
    high, = resin_film.strays(areal_weight=1, fibre_mass_fraction=0.7)
    assert str(low) == "fibre mass fraction is 0.1, below 0.2, where the formula holds"
    assert str(high) == "fibre mass fraction is 0.7, above 0.6, where the formula holds"


@pytest.mark.parametrize(("limits", "inside", "outside"), [
    (POSITIVE, (1e-300, 1), (0, -1)), (NOT_NEGATIVE, (0, 1), (-1e-300,)), (PART, (0, 0.999), (1, -0.1)), (SHARE, (0, 1), (1.001, -0.001)),
    (Range(1, 2), (1.5,), (1, 2)), (Range(1, 2, True, True), (1, 2), (0.999, 2.001, math.nan)),
])
def test_ranges(limits, inside, outside):
    assert all(value in limits for value in inside)
    assert not any(value in limits for value in outside)


def test_door_and_signature_must_agree():
    with pytest.raises(TypeError, match="door and signature differ on"):
        Door(lambda *, a: a, {"b": "m"}, "m", {}, {})
    with pytest.raises(TypeError, match="door and signature differ on"):
        Door(lambda *, a: a, {"a": "m"}, "m", {"c": POSITIVE}, {})


# docstrings of every calculation -------------------------------------------------------------------------------------
for _module in pkgutil.walk_packages(moldcalc.stages.__path__, "moldcalc.stages."):
    importlib.import_module(_module.name)

CALCULATIONS = {name: door for name, door in DOORS.items() if name.startswith("moldcalc.stages.")}
BRACKETS = {"-": "", "m²": "m^2", "m³": "m^3", "kg/m²": "kg/m^2", "kg/m³": "kg/m^3", "m²/s": "m^2/s", "Pa·s": "Pa*s", "N·m": "N*m",
            "m/s²": "m/s^2", "m³/s": "m^3/s", "m³/mol": "m^3/mol"}


def sections(text: str) -> dict[str, str]:
    """A docstring's sections by title; '' is what stands before the first."""
    parts = re.split(r"^ *(\w+)\n *-{3,}\n", text, flags=re.MULTILINE)
    return {"": parts[0]} | dict(zip(parts[1::2], parts[2::2], strict=True))


def bracketed_units(parameters: str) -> dict[str, str]:
    """Entry -> what stands last in brackets under its name."""
    lines = [line for line in parameters.splitlines() if line.strip()]
    margin = min(len(line) - len(line.lstrip()) for line in lines)
    found: dict[str, str] = {}
    names: list[str] = []
    for line in lines:
        if len(line) - len(line.lstrip()) == margin:
            names = [name.strip() for name in line.split(",")]
        elif brackets := re.findall(r"(?<!\\left)\[([^\[\]]*)\]", line):
            found |= dict.fromkeys(names, brackets[-1])
    return found


def test_there_are_calculations():
    assert len(CALCULATIONS) > 150


@pytest.mark.parametrize("name", CALCULATIONS)
def test_the_docstring_agrees_with_the_door(name):
    door = CALCULATIONS[name]
    brackets = bracketed_units(sections(door.__doc__)["Parameters"])
    assert {entry: BRACKETS.get(unit, unit) for entry, unit in brackets.items()} == {entry: unit.removesuffix("[]") for entry,
                                                                                     unit in door.units.items()}


@pytest.mark.parametrize("name", CALCULATIONS)
def test_the_docstring_is_whole(name):
    found = sections(CALCULATIONS[name].__doc__)
    assert {"Parameters", "Returns", "Raises", "Notes", "Examples"} <= set(found)
    assert "Range:" in found["Notes"] and "Source" in found["Notes"]
    assert ">>> " in found["Examples"]
    assert found[""].strip().partition("\n")[0].endswith(".")
