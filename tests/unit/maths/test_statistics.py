"""Several readings of one thing, by hand."""

import math

import pytest

from sandmix.maths.statistics import WeightedMean, prediction_interval, weighted_mean


def test_one_more_of_three():
    """Mean 45, spread 1, Student's t of two degrees 4.303: 4.303 · √(4/3) = 4.9687."""
    assert prediction_interval([44.0, 45.0, 46.0]) == (45.0, pytest.approx(4.9687, abs=1e-4))


def test_two_that_agree_are_surer_than_one():
    """Weights 1/0.01 and 1/0.04 of 1.60 and 1.65: (160 + 41.25)/125 = 1.61; ± 1/√125. χ² = 1.96² · (100 · 0.01² + 25 · 0.04²) = 0.192, below 1."""
    found = weighted_mean([(1.60, 0.1), (1.65, 0.2)])
    mean, half_width = found.value, found.half_width
    assert mean == pytest.approx(1.61)
    assert half_width == pytest.approx(1 / math.sqrt(125))


def test_two_that_differ_by_more_than_they_may_are_less_sure():
    """1.5 and 1.7, each ± 0.03: mean 1.6, ± 0.03/√2, and χ² = 1.96² · 2 · 0.1²/0.03² widens that by its root."""
    found = weighted_mean([(1.5, 0.03), (1.7, 0.03)])
    mean, half_width = found.value, found.half_width
    assert mean == pytest.approx(1.6)
    assert half_width == pytest.approx(0.03 / math.sqrt(2) * math.sqrt(1.96**2 * 2 * 0.1**2 / 0.03**2))


def test_one_alone_is_itself():
    assert weighted_mean([(80.0, 4.0)]) == WeightedMean(value=80.0, half_width=4.0, ratio=0.0, agrees=True)


def test_what_has_no_doubt_counts_alone():
    found = weighted_mean([(1.5, 0.0), (1.7, 0.03), (1.6, 0.0)])
    assert (found.value, found.half_width) == (pytest.approx(1.55), 0.0)
