"""Limits of single readings and drift, by hand arithmetic."""

import pytest

from sandmix.maths.control_chart import D2, D4, E2, drift, limits, moving_ranges


def test_the_limits_of_four_readings():
    """Ranges 2, 1, 1: mean 4/3; mean 11.25; 2.6587 × 4/3 = 3.545; 3.2665 × 4/3 = 4.355."""
    found = limits([10, 12, 11, 12])
    assert moving_ranges([10, 12, 11, 12]) == [2, 1, 1]
    assert (found.count, found.mean, found.mean_range) == (4, 11.25, pytest.approx(4 / 3))
    assert [found.low, found.high, found.range_high] == pytest.approx([7.705, 14.795, 4.355], abs=1e-3)
    assert found.sigma == pytest.approx(4 / 3 / D2)


def test_readings_that_never_change_hold_only_themselves():
    found = limits([3.1] * 9)
    assert found.holds(3.1)
    assert not found.holds(3.2)


def test_a_range_that_is_far_too_large_is_left_out_once():
    """Ranges 1, 1, 1, 1, 20, 1, 1, 1: mean 27/8 = 3.375, times 3.5 is 11.8; without the 20 the mean is 1."""
    found = limits([0, 1, 0, 1, 0, 20, 19, 20, 19])
    assert (found.mean_range, found.left_out) == (1, 1)
    assert found.high - found.mean == pytest.approx(E2)
    assert found.range_high == pytest.approx(D4)


def test_a_perfect_line_is_a_drift_and_a_level_one_is_not():
    rising = drift([1, 2, 3, 4, 5])
    assert rising.a_reading == pytest.approx(1)
    assert rising.is_sure
    assert not drift([4.0, 4.0, 4.0]).is_sure
    assert drift([4.0, 4.0, 4.0]).chance == 1


def test_three_readings_that_hardly_rise_are_no_drift():
    """Slope (3 − 1)/2 = 1, rest 4 + 1 + 1 = 6 about 0, 3, … : with one degree of freedom chance is well above 1 %."""
    found = drift([0.0, 3.0, 2.0])
    assert found.a_reading == pytest.approx(1)
    assert 0.3 < found.chance < 0.9
