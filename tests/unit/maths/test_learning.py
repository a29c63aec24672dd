"""What readings teach, by hand."""

import math

import pytest

from sandmix.maths import learning
from sandmix.maths.learning import Belief


def test_the_worked_example_of_one_reading():
    """3.4 ± 0.5 and 4.0 ± 0.3, standard deviations: K = 0.25/0.34 = 0.735294; 3.4 + K 0.6 = 3.84118; 0.5 √(1 − K) = 0.257248."""
    first, reading = Belief(mean=3.4, sd=0.5), Belief(mean=4.0, sd=0.3)
    now = learning.after(first, reading)
    assert learning.gain(first, reading) == pytest.approx(0.735294, abs=5e-7)
    assert now.mean == pytest.approx(3.84118, abs=5e-6)
    assert now.sd == pytest.approx(0.257248, abs=5e-7)
    assert learning.share_of_prior(first, now) == pytest.approx(1 - 0.735294, abs=5e-7)


@pytest.mark.parametrize("points", [[], [(1.0, 2.0, 0.1)], [(3.0, 2.0, 0.1), (3.0, 2.5, 0.1)]])
def test_points_at_one_place_show_no_slope(points):
    assert learning.slope(points) is None


def test_points_on_a_line_within_their_errors_have_the_slope_of_weighted_least_squares():
    """Weights 1, 4, 1: x̄ = 7/6, ȳ = 1, Σw(x − x̄)² = 29/6, Σw(x − x̄)(y − ȳ) = 3; what is left is 0.138, less than one degree of freedom."""
    found = learning.slope([(0.0, 0.0, 1.0), (1.0, 1.0, 0.5), (3.0, 2.0, 1.0)])
    assert found is not None
    assert (found.mean, found.sd) == (pytest.approx(18 / 29), pytest.approx(math.sqrt(6 / 29)))


def test_points_further_from_their_line_make_the_slope_less_certain():
    """0, 3, 0: level, with 1 + 4 + 1 = 6 left on one degree of freedom, so √6 times 1/√2. A fourth point leaves two degrees."""
    found = learning.slope([(0.0, 0.0, 1.0), (1.0, 3.0, 1.0), (2.0, 0.0, 1.0)])
    assert found is not None
    assert (found.mean, found.sd) == (pytest.approx(0, abs=1e-12), pytest.approx(math.sqrt(3)))
    longer = learning.slope([(0.0, 0.0, 1.0), (1.0, 3.0, 1.0), (2.0, 3.0, 1.0), (3.0, 0.0, 1.0)])
    assert longer is not None
    assert longer.sd == pytest.approx(math.sqrt(9 / 2 / 5))


def test_a_certain_belief_stays_and_a_certain_reading_is_believed():
    sure, other = Belief(mean=1.0, sd=0.0), Belief(mean=2.0, sd=0.5)
    assert learning.after(sure, other) == sure
    assert learning.after(other, sure) == sure
    assert learning.after(sure, Belief(mean=3.0, sd=0.0)) == sure
    assert learning.share_of_prior(sure, sure) == 1.0


def test_readings_of_one_thing_are_their_weighted_mean_widened_where_they_disagree():
    """1.5 and 1.7 ± 0.02 each: mean 1.6; χ² = 2 (0.1/0.010204)² = 192.1, so ± 0.014142 · √192.1 = 0.196."""
    found = learning.measured([(1.5, 0.02), (1.7, 0.02)])
    assert found.mean == pytest.approx(1.6)
    assert found.half_width == pytest.approx(0.196, abs=5e-4)


def test_a_range_is_a_belief_of_a_logarithm():
    """1 to 4: middle ln 2, and ln 4 / 3.92 to each standard deviation."""
    found = learning.of_range(1.0, 4.0)
    assert (found.mean, found.sd) == (pytest.approx(math.log(2)), pytest.approx(math.log(4) / 3.92))


def test_three_points_off_their_line_have_one_degree_of_freedom():
    """0, 3, 0 at 0, 1, 2, each ± 1/2: no slope. χ² = 4 (1 + 4 + 1) = 24 on one degree, so the deviation 1/√(4 · 2) grows by √24, to √3."""
    assert learning.slope([(0.0, 0.0, 0.5), (1.0, 3.0, 0.5), (2.0, 0.0, 0.5)]) == Belief(
        mean=pytest.approx(0, abs=1e-12), sd=pytest.approx(math.sqrt(3))
    )


def test_the_slope_of_points_of_different_weight():
    """Weights 1, 1, 4 at x = 0, 1, 2: the means are 9/6 and (3 + 4 y)/6. With y = 0, 3, 3 they are 1.5 and 2.5.

    Σ w (x − 1.5)² = 2.25 + 0.25 + 1 = 3.5 and Σ w (x − 1.5)(y − 2.5) = 3.75 − 0.25 + 1 = 4.5, so the slope is 9/7.
    """
    found = learning.slope([(0.0, 0.0, 1.0), (1.0, 3.0, 1.0), (2.0, 3.0, 0.5)])
    assert found.mean == pytest.approx(9 / 7)
