"""The rate learned from one weighing: its ends, and that prior and reading count as their variances say."""

import math

import pytest

from sandmix.drying.own_rate import UNEVEN, learned

EXACT = (1000.0, 1000.0, 1000.0)


def test_a_loss_in_half_the_time_moves_the_rate_towards_two():
    found = learned(1.0, (0.5, 2.0), EXACT, 500.0)
    assert 1.5 < found.rate < 2.0
    assert found.band[0] < found.rate < found.band[1]


def test_a_loss_in_its_time_leaves_the_rate_and_narrows_its_range():
    found = learned(1.0, (0.5, 2.0), EXACT, 1000.0)
    assert found.rate == pytest.approx(1.0)
    assert found.band[1] < 2.0
    assert found.band[0] * found.band[1] == pytest.approx(1.0)


def test_a_coarse_weighing_teaches_little():
    fine = learned(1.0, (0.5, 2.0), EXACT, 500.0)
    coarse = learned(1.0, (0.5, 2.0), (200.0, 1000.0, 4000.0), 500.0)
    assert coarse.prior_share > fine.prior_share
    assert 1.0 < coarse.rate < fine.rate
    assert coarse.band[1] / coarse.rate > fine.band[1] / fine.rate


def test_an_exact_prior_stays():
    found = learned(1.5, (1.5, 1.5), EXACT, 100.0)
    assert found.rate == pytest.approx(1.5)
    assert found.prior_share == 1.0


def test_the_range_is_never_narrower_than_one_day_to_the_next():
    """With a prior that says nothing, what is left is the unevenness."""
    found = learned(1.0, (1e-9, 1e9), EXACT, 500.0)
    assert found.rate == pytest.approx(2.0, rel=1e-3)
    assert math.log(found.band[1] / found.rate) == pytest.approx(1.96 * UNEVEN, rel=1e-3)
