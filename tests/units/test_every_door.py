"""Every calculation, given anything at all: an answer in finite numbers, or a sentence. Nothing else, and at once."""

import importlib
import math
import pkgutil
from dataclasses import fields, is_dataclass
from typing import Any

import pint
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import moldcalc.stages
from moldcalc.errors import EntryError
from moldcalc.units import DOORS, Q

for _module in pkgutil.walk_packages(moldcalc.stages.__path__, "moldcalc.stages."):
    importlib.import_module(_module.name)

CALCULATIONS = {name: door for name, door in DOORS.items() if name.startswith("moldcalc.stages.")}
#: a size that a bench might see, in SI
SENSIBLE = {"": 0.3, "m": 0.5, "m^2": 1.5, "m^3": 0.08, "kg": 2.0, "s": 2400.0, "K": 293.15, "kg/m^3": 1180.0, "kg/m^2": 0.45, "m^2/s": 0.0005,
            "Pa": 20.0, "Pa*s": 30.0, "J/mol": 45e3, "rad": 1.2, "N/m": 0.021, "kg/mol": 0.2, "N*m": 50.0,
            "N": 500.0, "J/kg": 4e5, "J/kg/K": 1900.0, "m/s^2": 3.0, "m^3/s": 0.1, "kg/s": 1e-4, "m^3/mol": 0.0245}
WILD = [math.nan, math.inf, -math.inf, -1.0, 0.0, 1e308, -1e308, 1e-308, 1.0, 2.0, 1e6]


def numbers(unit: str) -> Any:
    """Mostly a sensible number, often a wild one: entries that are all wild never get past the door."""
    usual = SENSIBLE[unit]
    return st.one_of(st.just(usual), st.floats(0.2 * usual, 2 * usual), st.sampled_from(WILD))


def entry_of(unit: str) -> Any:
    plain = unit.removesuffix("[]")
    one = numbers(plain).map(lambda number: Q(number, plain) if plain else number)
    return st.lists(one, max_size=5) if unit.endswith("[]") else one


def finite(answer: Any) -> bool:
    if isinstance(answer, pint.Quantity):
        return finite(answer.magnitude)
    if isinstance(answer, (bool, str)) or answer is None:
        return True
    if isinstance(answer, (int, float)):
        return math.isfinite(answer)
    if is_dataclass(answer):
        return all(finite(getattr(answer, field.name)) for field in fields(answer))
    return isinstance(answer, (list, tuple)) and all(map(finite, answer))


@pytest.mark.parametrize("name", CALCULATIONS)
def test_a_finite_answer_or_a_sentence(name):
    door = CALCULATIONS[name]

    @settings(max_examples=40, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))
    @given(entries=st.fixed_dictionaries({entry: entry_of(unit) for entry, unit in door.units.items()}))
    def walk(entries: dict[str, Any]) -> None:
        try:
            answer = door(**entries)
        except EntryError as refused:
            assert refused.faults and "None" not in str(refused)
        else:
            assert finite(answer), answer

    walk()


def usual(unit: str) -> Any:
    plain = unit.removesuffix("[]")
    one = Q(SENSIBLE[plain], plain) if plain else SENSIBLE[plain]
    return [one, one] if unit.endswith("[]") else one


@pytest.mark.parametrize("name", CALCULATIONS)
def test_the_wrong_kind_of_entry_is_named(name):
    door = CALCULATIONS[name]
    for entry, unit in door.units.items():
        wrong = Q(1.0, "candela")
        with pytest.raises(EntryError) as refused:
            door(**{other: usual(kind) for other, kind in door.units.items()} | {entry: [wrong] if unit.endswith("[]") else wrong})
        said = [fault for fault in refused.value.faults if fault.entry == entry.replace("_", " ")]
        assert said and "1.0 candela" in said[0].was and "must be" in said[0].allowed


@pytest.mark.parametrize("name", CALCULATIONS)
def test_infinity_and_nan_are_named(name):
    door = CALCULATIONS[name]
    for entry, unit in door.units.items():
        for number in (math.nan, math.inf, -math.inf):
            plain = unit.removesuffix("[]")
            wild = Q(number, plain) if plain else number
            with pytest.raises(EntryError) as refused:
                door(**{other: usual(kind) for other, kind in door.units.items()} | {entry: [wild] if unit.endswith("[]") else wild})
            assert entry.replace("_", " ") in [fault.entry for fault in refused.value.faults]
