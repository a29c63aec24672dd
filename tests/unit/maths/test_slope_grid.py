"""The parts of the posterior on a grid, each with a sum by hand."""

import itertools
import math

import pytest

from sandmix.maths import slope_grid
from sandmix.maths.slope_grid import Difference, LogNormal, Point, posterior


def test_a_node_mixes_the_heights_of_all_spreads():
    """Weights 0.1 and 0.3 of 0.8; the mean of 10 and 14 is 13, and (0.1 (4 + 3²) + 0.3 (1 + 1²))/0.4 = 4.75."""
    node = slope_grid._node(2.0, [(0.1, 10.0, 4.0), (0.3, 14.0, 1.0)], 0.8)
    assert (node.slope, node.weight) == (2.0, pytest.approx(0.5))
    assert (node.y_mean, node.y_variance) == pytest.approx((13, 4.75))


def test_a_node_without_weight_has_the_height_of_the_first_spread():
    node = slope_grid._node(2.0, [(0.0, 10.0, 4.0), (0.0, 14.0, 1.0)], 0.8)
    assert (node.weight, node.y_mean, node.y_variance) == (0, 10, 4)


ROWS = [(1.0, 5.0, 0.5, 2.0), (-1.0, 3.0, 0.5, 2.0)]
"""About a slope of 2: both weights 1/(2 + 2² · 0.5) = 1/4, and y − 2 x is 3 and 5."""


def test_the_likelihood_of_a_slope_with_its_height_integrated_out():
    """Height 4 ± √2; Σ w r² about it is (1 + 1)/4. So half of ln(1/4) + ln(1/4) − ln(1/2) − 1/2, which is (−3 ln 2 − 0.5)/2."""
    log, height, variance = slope_grid._given(ROWS, [], 2.0)
    assert (log, height, variance) == pytest.approx((-(3 * math.log(2) + 0.5) / 2, 4, 2))


def test_a_difference_takes_no_part_in_the_height():
    """It has the variance 1 + (2 · 0.5)² = 2 and misses by 5 − 2 = 3: ln 2 + 9/2 more, halved."""
    step = Difference(dx=1.0, dy=5.0, dx_sd=0.5, dy_sd=1.0)
    log, height, variance = slope_grid._given(ROWS, [step], 2.0)
    assert (log, height, variance) == pytest.approx((-(4 * math.log(2) + 5) / 2, 4, 2))
    alone = slope_grid._given([], [step], 2.0)
    assert alone == (pytest.approx(-(math.log(2) + 4.5) / 2), 0, math.inf)


def test_an_uncertain_x_is_shrunken_towards_the_mean_of_all():
    """Spread 2: x = 0 without an error weighs 1/4 and keeps all of itself, x = 3 ± 2 weighs 1/8 and keeps half. The mean is (3/8)/(3/8) = 1."""
    points = [Point(x=0.0, y=7.0, x_sd=0.0, y_sd=1.0), Point(x=3.0, y=9.0, x_sd=2.0, y_sd=3.0)]
    rows = slope_grid._rows(points, 1.5, 2.0)
    assert rows[0] == pytest.approx((0 - 1.5, 7, 0, 1))
    assert rows[1] == pytest.approx((1 + 1 - 1.5, 9, 2, 9))


def test_spreads_are_weighed_by_the_readings_of_x_and_the_prior():
    """n = 4 readings with one error e: −(n − 1)/2 ln(s² + e²) − S/(2 (s² + e²)), with S = Σ(x − mean)² = 20, and the prior of ln s."""
    points = [Point(x=x, y=0.0, x_sd=0.5, y_sd=1.0) for x in (-3.0, -1.0, 1.0, 3.0)]
    found = slope_grid._spreads(points, LogNormal(median=1.0, log_sd=0.7))

    def expected(spread):
        both = spread**2 + 0.25
        return -1.5 * math.log(both) - 10 / both - (math.log(spread) / 0.7) ** 2 / 2

    first_spread, first_log = found[2]
    assert len(found) == 5
    for spread, log in found:
        assert log - first_log == pytest.approx(expected(spread) - expected(first_spread), abs=1e-9)
    assert expected(first_spread) == max(expected(first_spread * (1 + step)) for step in (-0.01, 0, 0.01)), "the peak"
    steps = [math.log(after / before) for (before, _), (after, _) in itertools.pairwise(found)]
    assert steps == pytest.approx([steps[0]] * 4), "even in ln s"
    assert 0.3 < steps[0] / 1.2 < 0.5, "between the curvature of about 1/0.7² + 5.5 at the peak and the flatter side"


def test_without_errors_of_x_the_spread_does_not_matter():
    points = [Point(x=x, y=0.0, x_sd=0.0, y_sd=1.0) for x in (1.0, 3.0)]
    assert slope_grid._spreads(points, LogNormal(median=1.5, log_sd=0.7)) == [(1.5, 0.0)]
    assert slope_grid._spreads([], LogNormal(median=1.5, log_sd=0.7)) == [(1.5, 0.0)]


@pytest.mark.parametrize(("mean", "sd"), [(3.0, 0.5), (-2.3, 1.5), (0.2, 0.05)])
def test_the_peak_of_a_normal_curve_is_its_mean_and_as_wide_as_it(mean, sd):
    peak, width = slope_grid._peak(lambda x: -(((x - mean) / sd) ** 2) / 2, 0.0, 1.0)
    assert (peak, width) == (pytest.approx(mean, abs=1e-6), pytest.approx(sd, rel=1e-4))


def test_a_peak_with_a_flatter_side_is_as_wide_as_that():
    """1 wide below and 2 above: two widths of the mean curvature (1 + 1/4)/2 down the flat side drop by less than 2, which widens it to 2."""
    peak, width = slope_grid._peak(lambda x: -((x if x < 0 else x / 2) ** 2) / 2, 0.0, 1.0)
    assert (peak, width) == (pytest.approx(0, abs=1e-3), pytest.approx(2, rel=1e-2))


@pytest.mark.parametrize(
    ("log_density", "expected"),
    [
        pytest.param(lambda _: 0.0, 3.0, id="flat: three times the prior"),
        pytest.param(lambda x: -((x / 100) ** 2) / 2, 12.0, id="almost flat: 4 of the prior, three times"),
        pytest.param(lambda x: -((x * 1e6) ** 2) / 2, 1e-4, id="a needle"),
    ],
)
def test_a_peak_is_never_very_narrow_or_wide(log_density, expected):
    assert slope_grid._peak(log_density, 0.0, 1.0)[1] == pytest.approx(expected, rel=1e-3)
    twice = slope_grid._peak(lambda x: log_density(x / 2), 0.0, 2.0)[1]
    assert twice == pytest.approx(2 * expected, rel=1e-3), "all in standard deviations of the prior"


def test_the_mean_and_the_spread_of_the_grid_are_those_of_the_product_of_two_normal_curves():
    """ln b has the prior ln 20 ± 0.1. A change of dx = 1 reads 20 e^0.1 with an error of 10 %: by Bayes's rule half of each, and 0.1/√2 wide.

    The change is read on b and not on ln b, so this holds to about the error itself.
    """
    step = Difference(dx=1.0, dy=20 * math.exp(0.1), dx_sd=0.0, dy_sd=2.1)
    grid = posterior([], [step], LogNormal(median=20.0, log_sd=0.1), LogNormal(median=0.5, log_sd=0.7))
    assert grid.log_mean - math.log(20) == pytest.approx(0.05, abs=0.005)
    assert grid.log_sd == pytest.approx(0.1 / math.sqrt(2), rel=0.05)
