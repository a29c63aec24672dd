"""A line through readings with errors in both: prior, outliers, disagreement and inverse prediction, with figures worked out by hand."""

import math

import pytest

from sandmix.maths.slope_grid import Difference, LogNormal, Point, posterior
from sandmix.maths.straight_line import fit

SLOPE = LogNormal.of_range(10, 45)
SPREAD = LogNormal(median=0.5, log_sd=0.7)


def pairs(*places, slope=20.0, x_sd=0.0, y_sd=1.0, off=()):
    """Pairs on the line y = 45 + slope (x − 3.5), some of them *off* it."""
    offs = dict(off)
    return [
        Point(x=x, y=45 + slope * (x - 3.5) + offs.get(at, 0.0), x_sd=x_sd, y_sd=y_sd) for at, x in enumerate(places)
    ]


def test_without_readings_the_slope_is_the_prior():
    line = fit([], [], SLOPE, SPREAD)
    assert line.slope == pytest.approx(math.sqrt(450))
    assert line.slope_band == (pytest.approx(10, rel=1e-4), pytest.approx(45, rel=1e-4))
    assert line.prior_share == pytest.approx(1, abs=1e-4)


def test_one_pair_sets_the_height_and_not_the_slope():
    line = fit(pairs(3.0, y_sd=2.0), [], SLOPE, SPREAD)
    assert line.slope == pytest.approx(SLOPE.median, rel=1e-3)
    assert line.y_at(3.0) == (pytest.approx(35), pytest.approx(1.96 * 2))
    assert line.x_from(35.0, 1e-9)[0] == pytest.approx(3.0, abs=1e-3)


def test_exact_pairs_give_their_own_line():
    line = fit(pairs(2.5, 3.5, 4.5, y_sd=0.01), [], SLOPE, SPREAD)
    assert line.slope == pytest.approx(20, rel=1e-4)
    middle, low, high = line.x_from(55.0, 0.2)
    assert middle == pytest.approx(4.0, abs=1e-3)
    assert (high - low) / 2 == pytest.approx(1.96 * 0.2 / 20, rel=0.01)


def test_an_exact_difference_combines_with_the_prior_like_a_normal_reading():
    """A difference of 1 that reads 20 ± 0.4: relative ± 2 %, of ln b 0.02; with 0.384 the share of the prior is (0.02/0.384)²."""
    line = fit([], [Difference(dx=1, dy=20, dx_sd=0, dy_sd=0.4)], SLOPE, SPREAD)
    assert line.slope == pytest.approx(20, rel=1e-3)
    assert line.prior_share == pytest.approx((0.02 / SLOPE.log_sd) ** 2, rel=0.02)


def test_an_uncertain_x_does_not_make_the_line_flatter():
    """Twenty true x of spread 0.5 read with an error of 0.25: plain least squares would give 0.8 of the slope."""
    places = [
        3.5 + 0.5 * step for step in (-1.9, -1.3, -1.0, -0.7, -0.5, -0.3, -0.1, 0.1, 0.3, 0.5, 0.7, 1.0, 1.3, 1.9)
    ]
    wobble = [0.25 * (1 if at % 2 else -1) for at in range(len(places))]
    read = [
        Point(x=x + error, y=45 + 20 * (x - 3.5), x_sd=0.25, y_sd=1.0) for x, error in zip(places, wobble, strict=True)
    ]
    mean = sum(point.x for point in read) / len(read)
    plain = sum((point.x - mean) * point.y for point in read) / sum((point.x - mean) ** 2 for point in read)
    line = fit(read, [], LogNormal(median=20, log_sd=2.0), SPREAD)
    assert plain < 17
    assert line.slope == pytest.approx(20, abs=1.5)


def test_a_pair_far_from_the_line_through_the_others_is_left_out():
    line = fit(pairs(2.5, 3.0, 3.2, 3.5, 3.8, 4.0, 4.5, off={3: 12}), [], SLOPE, SPREAD)
    assert [point.x for point in line.left_out] == [3.5]
    assert line.slope == pytest.approx(20, rel=0.02)
    assert line.grown == 1


@pytest.mark.parametrize("sd", [1.0, 0.5])
@pytest.mark.parametrize(
    ("place", "prior_sd", "leverage"),
    [
        pytest.param(4, 200.0, 0.6, id="at the end, a wide prior: 1/5 + 2²/10"),
        pytest.param(2, 200.0, 0.2, id="in the middle: 1/5"),
        pytest.param(4, 0.1**0.5, 0.4, id="at the end, a prior as good as the pairs: 1/5 + 2²/(10 + 10)"),
    ],
)
def test_a_pair_is_left_out_from_three_standard_deviations_of_the_others_on(place, prior_sd, leverage, sd):
    """At x = −2 … 2, Σx² = 10. One pair *d* off with the leverage h leaves d (1 − h), so its deleted residual is d √(1 − h)."""
    prior = LogNormal(median=2000.0, log_sd=sd * prior_sd / 2000)
    limit = 3 * sd / math.sqrt(1 - leverage)
    for off, left_out in ((0.99 * limit, []), (1.01 * limit, [place - 2.0])):
        line = fit(pairs(-2.0, -1.0, 0.0, 1.0, 2.0, slope=2000.0, y_sd=sd, off={place: off}), [], prior, SPREAD)
        assert [point.x for point in line.left_out] == left_out


@pytest.mark.parametrize("sd", [1.0, 0.5])
@pytest.mark.parametrize(("count", "others"), [(5, 0), (2, 3)])
def test_a_difference_is_left_out_from_three_standard_deviations_of_the_others_on(count, others, sd):
    """Five differences of 1, or two with three pairs at 0, 1, 2 whose height is free: Σdx² = 5, or 2 + 2, so the leverage is 1/5 or 1/4."""
    prior = LogNormal(median=2000.0, log_sd=0.1)
    points = pairs(*(float(at) for at in range(others)), slope=2000.0, y_sd=sd)
    limit = 3 * sd / math.sqrt(1 - 1 / (count + (2 if others else 0)))
    for off, left_out in ((0.99 * limit, 0), (1.01 * limit, 1)):
        steps = [Difference(dx=1, dy=2000 + (off if at == 0 else 0), dx_sd=0, dy_sd=sd) for at in range(count)]
        assert len(fit(points, steps, prior, SPREAD).left_out) == left_out


def test_a_difference_that_cannot_be_right_is_left_out():
    steps = [Difference(dx=0.5, dy=dy, dx_sd=0, dy_sd=0.5) for dy in (10, 10.2, 9.9, 10.1, -10)]
    assert [step.dy for step in fit([], steps, SLOPE, SPREAD).left_out] == [-10]


def test_of_few_pairs_none_is_left_out_but_all_errors_grow():
    """Three pairs, the middle one 12 off, miss their line by −4, 8 and −4: χ² = 96 on one degree of freedom."""
    line = fit(pairs(3.0, 3.5, 4.0, off={1: 12}), [], SLOPE, SPREAD)
    assert line.left_out == []
    assert line.grown == pytest.approx(math.sqrt(96), rel=0.01)
    assert line.points[0].y_sd == pytest.approx(line.grown)


def test_pairs_and_differences_both_make_the_errors_grow():
    """The slope is known. Two pairs miss by ± 6, a difference by 6: χ² = 72 + 36 on one degree of freedom."""
    known = LogNormal(median=2000.0, log_sd=1e-5)
    step = Difference(dx=1, dy=2006, dx_sd=0, dy_sd=1)
    line = fit(pairs(3.0, 4.0, slope=2000.0, off={1: 12}), [step], known, SPREAD)
    assert line.left_out == []
    assert line.grown == pytest.approx(math.sqrt(108), rel=0.01)


def test_at_most_one_in_four_is_left_out():
    offs = {0: 15, 2: -18, 4: 16, 6: -15}
    line = fit(pairs(2.5, 2.8, 3.1, 3.4, 3.7, 4.0, 4.3, 4.6, off=offs), [], SLOPE, SPREAD)
    assert len(line.left_out) <= 2
    assert line.grown > 1


def test_more_pairs_make_the_slope_surer_and_leave_less_of_the_prior():
    several = [pairs(*(3.0 + 0.1 * at for at in range(count)), x_sd=0.1, y_sd=2.5) for count in (2, 5, 10, 20)]
    shares = [fit(each, [], SLOPE, SPREAD).prior_share for each in several]
    assert shares == sorted(shares, reverse=True)
    assert shares[-1] < 0.1


def test_all_pairs_at_one_place_say_nothing_of_the_slope():
    line = fit(pairs(3.5, 3.5, 3.5), [], SLOPE, SPREAD)
    assert line.slope == pytest.approx(SLOPE.median, rel=1e-3)


def test_the_range_of_x_is_wider_away_from_the_pairs():
    line = fit(pairs(3.0, 3.3, 3.6, 4.0, x_sd=0.18, y_sd=2.5), [], SLOPE, SPREAD)
    _, near_low, near_high = line.x_from(45.0, 2.5)
    _, far_low, far_high = line.x_from(80.0, 2.5)
    assert far_high - far_low > near_high - near_low


def test_a_slope_far_outside_the_prior_is_found():
    """The peak search starts from the prior: 200 is 5.8 of its standard deviations away, and the pairs leave no doubt."""
    line = fit(pairs(3.0, 3.5, 4.0, 4.5, slope=200.0, y_sd=0.5), [], SLOPE, SPREAD)
    assert line.slope == pytest.approx(200, rel=0.02)


def test_the_weights_of_the_grid_add_up_to_one():
    grid = posterior(pairs(3.0, 3.4, 3.9, x_sd=0.2), [], SLOPE, SPREAD)
    assert sum(node.weight for node in grid.nodes) == pytest.approx(1)
    assert [node.slope for node in grid.nodes] == sorted(node.slope for node in grid.nodes)


@pytest.mark.parametrize("kind", [Point, Difference])
def test_a_reading_without_an_error_of_y_is_a_mistake(kind):
    words = {"x": 1, "y": 1, "x_sd": 0, "y_sd": 0} if kind is Point else {"dx": 1, "dy": 1, "dx_sd": 0, "dy_sd": 0}
    with pytest.raises(AssertionError):
        kind(**words)


@pytest.mark.parametrize("kind", [Point, Difference])
def test_no_error_is_below_zero(kind):
    words = (
        {"x": 1, "y": 1, "x_sd": -0.5, "y_sd": 1} if kind is Point else {"dx": 1, "dy": 1, "dx_sd": -0.5, "dy_sd": 1}
    )
    with pytest.raises(AssertionError):
        kind(**words)


def test_an_x_from_a_reading_with_a_large_error_is_as_wide_as_the_normal_distribution():
    """All readings on y = 20 x; a reading with a standard deviation of 40 is one of 2 in x, so 3 ± 1.96 · 2."""
    exact = [Point(x=x, y=20 * x, x_sd=1e-6, y_sd=0.01) for x in (2.0, 3.0, 4.0)]
    line = fit(exact, [], SLOPE, SPREAD)
    assert line.x_from(60.0, 40.0) == pytest.approx((3, 3 - 1.96 * 2, 3 + 1.96 * 2), abs=0.01)


@pytest.mark.parametrize(
    ("count", "off", "dx_sd", "grown"),
    [
        pytest.param(3, 6.0, 0.0, math.sqrt(108), id="3 · 6² = 108 on one degree of freedom"),
        pytest.param(3, 6.0, 0.001, math.sqrt(108 / 5), id="the same with a variance of 1 + (2000 · 0.001)² = 5"),
        pytest.param(3, 1.09, 0.0, 1.0, id="3 · 1.09² = 3.56, below the 3.75 of 19 times in 20"),
        pytest.param(3, 1.16, 0.0, math.sqrt(3 * 1.16**2), id="3 · 1.16² = 4.04, above it"),
        pytest.param(2, 6.0, 0.0, 1.0, id="two differences for two unknowns: no degree of freedom"),
    ],
)
def test_differences_alone_make_the_errors_grow(count, off, dx_sd, grown):
    """The slope is known, and none of so few is left out. Each moves by a half."""
    known = LogNormal(median=2000.0, log_sd=1e-7)
    steps = [Difference(dx=0.5, dy=1000 + off * (-1) ** at, dx_sd=dx_sd, dy_sd=1) for at in range(count)]
    line = fit([], steps, known, SPREAD)
    assert line.grown == pytest.approx(grown, rel=1e-3)
    assert [(step.dx_sd, step.dy_sd) for step in line.differences] == [
        pytest.approx((line.grown * dx_sd, line.grown))
    ] * count


def test_pairs_of_different_weight_have_their_height_by_weight():
    """The slope is known, 1. y − x is 0, 0, 9 with variances 1, 1, 4 (of y or of x): the height is (9/4)/(9/4) = 1, χ² = 1 + 1 + 64/4 = 18 on 1."""
    known = LogNormal(median=1.0, log_sd=1e-7)
    for x_sd, y_sd in ((0.0, 2.0), (3**0.5, 1.0)):
        points = [
            Point(x=1.0, y=1.0, x_sd=0.0, y_sd=1.0),
            Point(x=2.0, y=2.0, x_sd=0.0, y_sd=1.0),
            Point(x=1.5, y=10.5, x_sd=x_sd, y_sd=y_sd),
        ]
        line = fit(points, [], known, LogNormal(median=1e4, log_sd=1e-3))
        assert line.grown == pytest.approx(math.sqrt(18), rel=1e-3)


def test_the_height_and_its_error_away_from_the_centre():
    """Exact x at 2, 3, 4 with y ± 1 and a wide prior: at x = 3 + 2 the variance is 1/3 + 2²/2, by the usual formula of a straight line."""
    line = fit(pairs(2.0, 3.0, 4.0, slope=200.0), [], LogNormal(median=200, log_sd=2.0), SPREAD)
    y, half = line.y_at(5.0)
    assert y == pytest.approx(45 + 200 * 1.5, abs=0.05)
    assert half == pytest.approx(1.96 * math.sqrt(1 / 3 + 4 / 2), rel=0.01)
