"""An invented job of any size, for teaching and for measuring."""

from moldcalc.schedule.job import HOUR, MINUTE, Layer, MoldJob, ShellSection
from moldcalc.schedule.tasks import Cure


def demo_like(*, sections: int = 4, coats: int = 4, casts: int = 6) -> MoldJob:
    """An invented job of so many sections, coats and casts, for teaching and for measuring: two people, neighbours in a ring."""
    minutes = (53.9, 28.2, 31.5, 35.9)
    layers = [Layer("print", minutes[0] * MINUTE, batches=3)]
    layers += [Layer(f"coat {n}", minutes[1 + (n - 2) % 3] * MINUTE, batches=2) for n in range(2, coats + 1)]
    layers.insert(max(1, coats - 1), Layer("fillets and high points", 40 * MINUTE, kind="paste"))
    layers.append(Layer("strips and seam band", 90 * MINUTE, kind="strips"))
    names = [f"section {n}" for n in range(1, sections + 1)]
    ring = [tuple(dict.fromkeys(names[k % sections] for k in (n - 1, n + 1) if names[k % sections] != names[n])) for n in range(sections)]
    shell = [ShellSection(name, (2 * HOUR, 2.5 * HOUR), touches) for name, touches in zip(names, ring, strict=True)]
    return MoldJob(tuple(layers), tuple(shell), 2 * HOUR, 24 * HOUR, 16 * HOUR, Cure(296.15, 45e3), 13 * HOUR, Cure(293.15, 55e3), casts=casts)
