"""Rates learned from changes: what holds without a reference."""

import math

import pytest

from sandmix.maths.drift import Change, RatePrior, learned

PRIOR = RatePrior(means=(0.0, 0.2), deviations=(0.1, 0.2), factor_median=1.0, factor_deviation=1.0)


def changes(*lost, days=7.0, error=0.01):
    return [Change(exposure=(days, 0.0), process=0.1, change=each, error=error) for each in lost]


def test_without_a_change_the_rates_are_the_priors():
    drift = learned([], PRIOR)
    assert drift.rate(0) == pytest.approx((0.0, 0.1))
    assert drift.rate(1) == pytest.approx((0.2, 0.2))


def test_a_rate_that_was_not_seen_stays():
    assert learned(changes(0.7, 0.7, 0.7), PRIOR).rate(1) == pytest.approx((0.2, 0.2))


@pytest.mark.parametrize("small", [1.0, 0.1])
def test_one_change_moves_every_rate_that_acted_by_its_share_of_the_variance(small):
    """Variances 0.01 and 0.04, error 0.05: 0.1 in all. Of the 0.8 that 1.0 is above 0.2, the rates take 0.1 and 0.4, and lose so much variance."""
    prior = RatePrior(means=(0.0, 0.2 * small), deviations=(0.1 * small, 0.2 * small))
    seen = Change(exposure=(1.0, 1.0), process=0.0, change=1.0 * small, error=0.05 * small**2)
    drift = learned([seen], prior)
    assert drift.rate(0) == pytest.approx((0.08 * small, math.sqrt(0.009) * small))
    assert drift.rate(1) == pytest.approx((0.52 * small, math.sqrt(0.024) * small))
    assert drift.predict((1.0, 1.0), 0.3)[1] == pytest.approx((0.009 + 0.024 - 2 * 0.004) * small**2 + 0.3)


def test_a_change_in_which_one_rate_acted_leaves_the_other():
    """Twice the rate 0 ± 0.1: variance 4 × 0.01, with the error 0.06 in all 0.1; the gain is 0.02/0.1."""
    drift = learned(
        [Change(exposure=(2.0, 0.0), process=0.0, change=1.0, error=0.06)],
        RatePrior(means=(0.0, 0.2), deviations=(0.1, 0.2)),
    )
    assert drift.rate(0) == pytest.approx((0.2, math.sqrt(0.01 - 0.2 * 0.02)))
    assert drift.rate(1) == pytest.approx((0.2, 0.2))


def test_many_equal_changes_teach_the_rate_and_that_it_is_even():
    """0.7 points in 7 days each time."""
    drift = learned(changes(*[0.7] * 20), PRIOR)
    mean, deviation = drift.rate(0)
    assert mean == pytest.approx(0.1, abs=0.005)
    assert deviation < 0.02
    assert drift.predict((0.0, 0.0), 1.0)[1] < 0.5


def test_changes_that_jump_make_the_process_wider():
    even, uneven = (learned(changes(*lost), PRIOR).predict((0.0, 0.0), 1.0)[1] for lost in ([0.7] * 8, [0.0, 1.8] * 4))
    assert uneven > 2 * even


def test_no_change_in_no_time_without_error_is_left_out():
    assert learned([Change(exposure=(0.0, 0.0), process=0.0, change=5.0, error=0.0)], PRIOR).rate(0) == pytest.approx(
        (0.0, 0.1)
    )


def test_far_off_changes_stay_finite():
    drift = learned(changes(1e6, -1e6, error=1e-12), PRIOR)
    assert all(map(math.isfinite, drift.predict((30.0, 30.0), 1.0)))
