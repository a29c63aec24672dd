"""Weighted mean and prediction interval, by hand arithmetic."""

import math

import pytest

from sandmix.maths.statistics import WeightedMean, prediction_interval, weighted_mean


def test_the_prediction_interval_of_three_readings():
    """Mean 45, standard deviation 1, Student's t for two degrees of freedom 4.303: 4.303 · √(4/3) = 4.9687."""
    assert prediction_interval([44.0, 45.0, 46.0]) == (45.0, pytest.approx(4.9687, abs=1e-4))


def test_the_mean_of_two_readings_that_agree_is_surer_than_either():
    """Weights 1/0.01 and 1/0.04 of 1.60 and 1.65: (160 + 41.25)/125 = 1.61; ± 1/√125. χ² = 1.96² · (100 · 0.01² + 25 · 0.04²) = 0.192, below 1."""
    found = weighted_mean([(1.60, 0.1), (1.65, 0.2)])
    assert found.value == pytest.approx(1.61)
    assert found.half_width == pytest.approx(1 / math.sqrt(125))
    assert found.agrees


def test_birges_ratio_between_one_and_one_and_a_half_widens_the_mean():
    """7.0 and 7.9, each ± 0.98, a standard deviation of 0.5: χ² = 2 · 0.45²/0.5² = 1.62, ratio √1.62 = 1.273; 0.98/√2 · √1.62 = 0.882.

    Chance gives χ² above 3.841 once in twenty, so the two still agree.
    """
    found = weighted_mean([(7.0, 0.98), (7.9, 0.98)])
    assert found.value == pytest.approx(7.45)
    assert found.ratio == pytest.approx(math.sqrt(1.62))
    assert found.half_width == pytest.approx(0.882)
    assert found.agrees


def test_readings_that_disagree_widen_the_mean_by_birges_ratio():
    """1.5 and 1.7, each ± 0.03: mean 1.6, ± 0.03/√2 times the root of χ² = 1.96² · 2 · 0.1²/0.03²."""
    found = weighted_mean([(1.5, 0.03), (1.7, 0.03)])
    assert found.value == pytest.approx(1.6)
    assert found.half_width == pytest.approx(0.03 / math.sqrt(2) * math.sqrt(1.96**2 * 2 * 0.1**2 / 0.03**2))
    assert not found.agrees


def test_the_mean_of_one_reading_is_that_reading():
    assert weighted_mean([(80.0, 4.0)]) == WeightedMean(value=80.0, half_width=4.0, ratio=0.0, agrees=True)


def test_only_exact_readings_count_where_there_are_any():
    found = weighted_mean([(1.5, 0.0), (1.7, 0.03), (1.6, 0.0)])
    assert (found.value, found.half_width) == (pytest.approx(1.55), 0.0)
