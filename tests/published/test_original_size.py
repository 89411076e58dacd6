"""From smooth area to the area that takes rubber: a worked example."""

import pytest

from moldcalc.stages import original
from tests.tables import printed

SIZES = [
    # what                        entries                                                        m²        worked example, invented
    ("with_detail", {"smooth_area": "1.50 m²", "detail_factor": 1.12}, "1.68", "smooth area times fur relief"),
    ("flange_area", {"outline": "2.7 m", "width": "65 mm"}, "0.176", "flange"),
    ("area_to_coat", {"area": "1.68 m²", "flange_area": "0.1755 m²"}, "1.856", "area to coat"),
    ("box_five_faces_area", {"length": "1.09 m", "width": "0.43 m", "height": "0.525 m"}, "2.06", "box around it"),
]


@pytest.mark.parametrize(("what", "entries", "area", "where"), SIZES)
def test_worked_example_sizes(what, entries, area, where):
    assert getattr(original, what)(**entries).m_as("m^2") == printed(area), where


def test_worked_example_box_against_figure():
    """Worked example, invented: the box would buy 23 % too much."""
    box = original.box_five_faces_area(length="1.09 m", width="0.43 m", height="0.525 m").m_as("m^2")
    assert box / 1.68 == printed("1.23")
