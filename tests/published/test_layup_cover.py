"""Overlaps and random cover, against geometry and scipy's Poisson law."""

import pytest
from scipy.stats import poisson

from moldcalc.stages import layup
from moldcalc.units import Q
from tests.tables import within


def test_overlaps():
    """Strip of 150 with 25: 1.2; patch of 300 x 300 with 50: 1.44; exact."""
    assert layup.strip_overlap_factor(width="150 mm", overlap="25 mm") == within(1.2, 1e-12)
    assert layup.patch_overlap_factor(length="300 mm", width="300 mm", overlap="50 mm") == within(1.44, 1e-12)


NEEDED = [
    # share layers  mean      source, tolerance 1e-5
    (0.95, 1, 2.995732, "scipy's Poisson law; computed"),
    (0.95, 2, 4.743865, "the same: 2.4 times the planned glass"),
    (0.99, 2, 6.638352, "the same"),
]


@pytest.mark.parametrize(("share", "layers", "mean", "source"), NEEDED)
def test_layers_needed(share, layers, mean, source):
    assert layup.random_layers_needed(share=share, layers=layers) == within(mean, 1e-5), source


def test_share_with_fewer():
    """Mean 3, fewer than 2: 0.1991483, 1e-6; computed."""
    assert layup.random_share_with_fewer(mean_layers=3, layers=2) == within(0.1991483, 1e-6)


@pytest.mark.parametrize("mean", [0.01, 1, 4.7, 30, 900])
@pytest.mark.parametrize("layers", [1, 2, 5, 40, 1000])
def test_share_against_poisson(mean, layers):
    assert layup.random_share_with_fewer(mean_layers=mean, layers=layers) == within(poisson.cdf(layers - 1, mean), 1e-9, 1e-300)


@pytest.mark.parametrize("share", [0.1, 0.5, 0.95, 0.999999])
@pytest.mark.parametrize("layers", [1, 3, 50])
def test_needed_against_poisson(share, layers):
    mean = layup.random_layers_needed(share=share, layers=layers)
    assert poisson.sf(layers - 1, mean) == within(share, 1e-9)


def test_roll_and_strips():
    """A square metre off a roll of 1 m with 50 mm of overlap and a tenth of waste: 1/0.95 x 1.1 m; by hand. 0.9 m² in strips
    of 150 x 500 with 50 on each side: 0.1 x 0.45 m² each, so 20; by hand."""
    length = layup.roll_length(area_of_ply=Q(1, "m^2"), roll_width="1 m", overlap="50 mm", waste=0.10)
    assert length.m_as("m") == within(1.1 / 0.95, 1e-12)
    assert layup.strips_needed(area=Q(0.9, "m^2"), strip_width="150 mm", strip_length="500 mm", overlap="50 mm") == 20
