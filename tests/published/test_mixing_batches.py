"""Cups cut to the working time, against a worked example whose figures are invented."""

import pytest

from moldcalc.stages import mixing
from moldcalc.units import Q
from tests.tables import printed, within

EXAMPLE = "worked example, invented: 1.856 m² at 19 °C, 75 % of 51.4 min less 5 min of mixing"
AREA, DENSITY = Q(1.856, "m^2"), Q(1.18, "kg/L")

COATS = [
    # mm  loss  m²/min  net     mixed   most of one  cups  each    minutes  source
    (0.6, 0.12, 0.020, "1.31", "1.49", "0.54", 3, "0.50", "53.9", EXAMPLE),
    (1.2, 0.08, 0.040, "2.63", "2.86", "2.06", 2, "1.43", "28.2", EXAMPLE),
    (2.0, 0.07, 0.035, "4.38", "4.71", "2.98", 2, "2.35", "31.5", EXAMPLE),
    (2.2, 0.07, 0.030, "4.82", "5.18", "2.81", 2, "2.59", "35.9", EXAMPLE),
]


@pytest.mark.parametrize(("mm", "loss", "rate", "net", "mixed", "most", "cups", "each", "minutes", "source"), COATS)
def test_a_coat_in_cups(mm, loss, rate, net, mixed, most, cups, each, minutes, source):
    usable = mixing.usable_time(working_time="51.4 min", usable_share=0.75, mixing_time="5 min")
    assert usable.m_as("min") == within(33.55, 1e-9), "33.5 as printed there"
    on_mold = AREA * Q(mm, "mm") * DENSITY
    assert on_mold.m_as("kg") == printed(net), source
    total = mixing.mixed_mass(net=on_mold, loss_share=loss)
    assert total.m_as("kg") == printed(mixed), source
    speed = Q(rate, "m^2/min")
    largest = mixing.most_by_time(rate=speed, people_per_cup=1, usable=Q(33.5, "min"), thickness=Q(mm, "mm"), density=DENSITY, loss_share=loss)
    assert largest.m_as("kg") == printed(most), source
    cut = mixing.cut_batches(total=total, most=largest)
    assert cut.count == cups, source
    assert cut.each.m_as("kg") == printed(each), source
    time = mixing.brushing_time(area=AREA, rate=speed, batches=cups, mixing_time="5 min", people=2)
    assert time.m_as("min") == printed(minutes), source


def test_paste_in_cups():
    """6.00 kg in cups of 0.75 kg are 8: worked example, invented."""
    cut = mixing.cut_batches(total=Q(6.00, "kg"), most=Q(0.75, "kg"))
    assert (cut.count, cut.each.m_as("kg")) == (8, 0.75)


def test_one_cup_of_print_coat_covers():
    """At 0.02 m²/min in 33.5 min 0.67 m²: worked example, invented."""
    covered = 0.02 * 33.5
    assert covered == printed("0.67")
    net = mixing.mixed_mass(net=Q(0.67 * 0.6 * 1.18, "kg"), loss_share=0.12)
    assert net.m_as("kg") == printed("0.54")
