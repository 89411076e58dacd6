"""The floor of the benchmark computes what the plan computes, apart from it: a second way to the demo's figures."""

import pytest

from moldcalc.job import demo_job
from moldcalc.plan import plan
from tests.benchmarks.bare import bare

FLOOR = bare()
HARE = plan(demo_job("hare"))


@pytest.mark.parametrize("name", FLOOR)
def test_the_floor_agrees_with_the_plan(name):
    # humidity: another constant of water vapour in the last digits
    loose = {"cure.absolute_humidity": 2e-3, "cure.dew_point": 2e-5}
    assert FLOOR[name] == pytest.approx(HARE.value(name), rel=loose.get(name, 1e-6))
