"""Stored figures that teach. Drawing only: every number is asked of the kernel."""

from typing import Any

from moldcalc.errors import MissingError
from moldcalc.stages.cure import arrhenius_factor


def speed_figure(energies_kj: tuple[float, ...] = (35, 45, 60), reference_celsius: float = 23.0) -> Any:
    """A matplotlib figure: how fast a cure runs against temperature, a line for each activation energy."""
    try:
        from matplotlib.figure import Figure
    except ImportError:
        raise MissingError("matplotlib is not installed here; the figure can't be drawn, the panel below shows the same.") from None
    figure = Figure(figsize=(6, 3), layout="constrained")
    axes = figure.add_subplot()
    celsius = [10 + 0.5 * step for step in range(51)]
    for energy, dash in zip(energies_kj, ("-", "--", ":", "-."), strict=False):
        axes.plot(celsius, [arrhenius_factor.si(temperature=273.15 + t, reference=273.15 + reference_celsius, activation_energy=1e3 * energy)
                            for t in celsius], dash, color="black", label=f"{energy:g} kJ/mol")
    axes.axhline(1, color="grey", linewidth=0.8)
    axes.set(xlabel="room temperature, °C", ylabel=f"speed, {reference_celsius:g} °C = 1")
    axes.legend(frameon=False)
    return figure
