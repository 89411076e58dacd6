"""What the day's temperature does to working time, recoat window and cure."""

from moldcalc.stages.cure.age import en1992_age, equivalent_age, equivalent_age_steps, maturity_nurse_saul
from moldcalc.stages.cure.flow import castro_macosko, conversion_at_viscosity_ratio, initial_viscosity, time_to_viscosity
from moldcalc.stages.cure.humidity import absolute_humidity, dew_point, saturation_pressure, vapour_pressure
from moldcalc.stages.cure.log import TemperatureLog, read_log
from moldcalc.stages.cure.rate import (
    GAS_CONSTANT,
    activation_energy_from_q10,
    activation_energy_from_times,
    arrhenius_factor,
    q10_factor,
    q10_from_activation_energy,
    time_at,
)
from moldcalc.stages.cure.ready import Ready, ready_at, ready_with_nights
from moldcalc.stages.cure.window import RecoatWindow, recoat_window

__all__ = [
    "GAS_CONSTANT", "Ready", "RecoatWindow", "TemperatureLog", "absolute_humidity", "activation_energy_from_q10",
    "activation_energy_from_times", "arrhenius_factor", "castro_macosko", "conversion_at_viscosity_ratio", "dew_point",
    "en1992_age", "equivalent_age", "equivalent_age_steps", "initial_viscosity", "maturity_nurse_saul", "q10_factor",
    "q10_from_activation_energy", "read_log", "ready_at", "ready_with_nights", "recoat_window", "saturation_pressure",
    "time_at", "time_to_viscosity", "vapour_pressure",
]
