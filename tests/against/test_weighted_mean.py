"""The weighted mean of several tests, its half-width, and when they disagree.

Source: the usual weighted mean by inverse variance, the chi-square test of its consistency, and Birge's ratio (Birge, R. T.,
The calculation of errors by the method of least squares, Physical Review 40, 1932, p. 207; from memory).
Basis: half-widths of 95 %, 1.96 standard deviations of a normal.
Computed by: numpy's average and draws, scipy's chi-square. Tolerance: half the last digit of a table with three places; the scatter of 4000 draws.
"""

import numpy as np
import pytest
from against.published import Checks
from scipy.stats import chi2

from sandmix.bench.estimates import Estimate, combine
from sandmix.maths.statistics import CHI_SQUARE_95

LIBRARY = Checks("combined", source="scipy", sure="library")


@pytest.mark.parametrize("beyond_one", range(1, 20))
def test_the_limits_of_agreement_are_those_of_chi_square(beyond_one):
    found, exact = CHI_SQUARE_95[beyond_one - 1], chi2.ppf(0.95, beyond_one)
    LIBRARY.agrees(found, exact, "limits of chi-square, 1 to 19 degrees", within=0.0005)


@pytest.mark.parametrize("count", [2, 3, 4])
def test_the_mean_is_that_of_numpy_and_honest_tests_rarely_disagree(count):
    """4000 draws of honest tests: 5 in 100 disagree, ± four times 0.34 points, and the mean is within its range as often as stated."""
    dice = np.random.default_rng(count)
    halves = np.linspace(0.5, 1.4, count)
    at_odds = inside = 0
    for _ in range(4000):
        values = dice.normal(8.0, halves / 1.96)
        found = combine(
            [Estimate(key="", value=value, half_width=half) for value, half in zip(values, halves, strict=True)]
        )
        mean = np.average(values, weights=1 / halves**2)
        LIBRARY.but(source="numpy").agrees(found.value, mean, "weighted mean of random tests", rel=1e-6)
        at_odds += not found.agrees
        inside += abs(found.value - 8.0) <= found.half_width
    drawn = LIBRARY.but(source="numpy", sure="drawn", claimed="project")
    drawn.figure(at_odds / 4000, "0.05", f"{count} honest tests that disagree, of 4000 sets", within=0.014)
    drawn.between(inside / 4000, "0.936", "", f"true values in the range of {count} tests, of 4000 sets")
