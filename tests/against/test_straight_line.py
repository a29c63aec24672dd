"""A straight line with errors in both variables and a prior of its slope, against other libraries and other arithmetic.

Sources: numpy (the joint density of slope and spread, summed on a dense grid by another route: each pair as one bivariate normal),
statsmodels (weighted least squares, the prior as a pseudo-observation), scipy (orthogonal distance regression, percentiles of chi-square). Slopes
and errors are those of a home tin. How sure: computed here; 200 random sets for each comparison, seeds fixed.
"""

import math
import warnings

import numpy as np
import pytest
import statsmodels.api as sm
from against.published import Checks
from scipy import stats

from sandmix.maths.slope_grid import Difference, LogNormal, Point
from sandmix.maths.straight_line import chi_square_95, fit

GRID = Checks("straight_line", source="numpy", sure="library")
SQUARES = GRID.but(source="statsmodels")
ORTHOGONAL = GRID.but(source="scipy")
SLOPE = LogNormal.of_range(10, 45)
SPREAD = LogNormal(median=0.5, log_sd=0.7)
SETS = 200


def random_set(chance, *, alike=True):
    """Pairs of one sand, with a number of pairs, a slope, a spread and errors of their own."""
    count = int(chance.integers(2, 21))
    slope = SLOPE.median * math.exp(SLOPE.log_sd * chance.normal())
    true = chance.normal(3.5, 0.5 * math.exp(0.4 * chance.normal()), count)
    x_sd = np.full(count, 0.18) if alike else chance.uniform(0.05, 0.3, count)
    y_sd = np.full(count, 2.55) if alike else chance.uniform(1.0, 3.5, count)
    x = true + x_sd * chance.normal(size=count)
    y = 45 + slope * (true - 3.5) + y_sd * chance.normal(size=count)
    return slope, x, y, x_sd, y_sd


def points_of(x, y, x_sd, y_sd):
    return [
        Point(x=float(one), y=float(two), x_sd=float(three), y_sd=float(four))
        for one, two, three, four in zip(x, y, x_sd, y_sd, strict=True)
    ]


def by_dense_grid(x, y, x_sd, y_sd):
    """Mean and standard deviation of ln b: pairs as bivariate normals with flat means of x and y, over 121 slopes and 81 spreads."""
    log_slope = math.log(SLOPE.median) + SLOPE.log_sd * np.linspace(-5, 5, 121)[:, None, None]
    log_spread = math.log(SPREAD.median) + SPREAD.log_sd * np.linspace(-5, 5, 81)[None, :, None]
    b, square = np.exp(log_slope), np.exp(2 * log_spread)
    xx, xy, yy = square + x_sd**2, b * square, b**2 * square + y_sd**2
    determinant = xx * yy - xy**2
    a11, a12, a22 = yy / determinant, -xy / determinant, xx / determinant
    s11, s12, s22 = a11.sum(2), a12.sum(2), a22.sum(2)
    t1, t2 = (a11 * x + a12 * y).sum(2), (a12 * x + a22 * y).sum(2)
    inverse = s11 * s22 - s12**2
    explained = (s22 * t1**2 - 2 * s12 * t1 * t2 + s11 * t2**2) / inverse
    whole = (a11 * x**2 + 2 * a12 * x * y + a22 * y**2).sum(2)
    log = -0.5 * (np.log(determinant).sum(2) + np.log(inverse) + whole - explained)
    log -= 0.5 * ((log_slope[..., 0] - math.log(SLOPE.median)) / SLOPE.log_sd) ** 2
    log -= 0.5 * ((log_spread[..., 0] - math.log(SPREAD.median)) / SPREAD.log_sd) ** 2
    weight = np.exp(log - log.max()).sum(1)
    weight /= weight.sum()
    mean = float((weight * log_slope[:, 0, 0]).sum())
    return mean, math.sqrt(float((weight * (log_slope[:, 0, 0] - mean) ** 2).sum()))


@pytest.mark.parametrize("alike", [True, False])
def test_the_posterior_is_that_of_a_dense_grid(alike):
    """Within a twentieth of its standard deviation (a tenth where the errors differ), and the standard deviation within five percent."""
    chance = np.random.default_rng(20270401)
    worst = []
    for _ in range(SETS):
        _, *given = random_set(chance, alike=alike)
        line = fit(points_of(*given), [], SLOPE, SPREAD)
        if line.left_out or line.grown > 1:
            continue
        mean, sd = by_dense_grid(*given)
        worst.append((abs(line.grid.log_mean - mean) / sd, abs(line.grid.log_sd / sd - 1)))
    assert len(worst) > 0.9 * SETS
    kind, room = ("alike", 0.05) if alike else ("different", 0.1)
    what = f"logarithm of the slope on a dense grid, 200 sets with {kind} errors"
    zeros = [0.0] * len(worst)
    GRID.agrees([off for off, _ in worst], zeros, what, within=room, allowed=f"{room:g} of its standard deviation")
    GRID.agrees([off for _, off in worst], zeros, f"its standard deviation, {kind} errors", within=0.05, allowed="5 %")


def test_with_exact_x_it_is_weighted_least_squares_with_the_prior_as_a_pseudo_observation():
    """A prior of ± 6 % (95 %) about its median is as good as normal in b itself."""
    chance = np.random.default_rng(7)
    for _ in range(SETS):
        count = int(chance.integers(3, 15))
        prior = LogNormal(median=float(chance.uniform(12, 40)), log_sd=0.03)
        x, y_sd = chance.normal(3.5, 0.5, count), chance.uniform(1.0, 3.0, count)
        y = 45 + prior.median * math.exp(0.03 * chance.normal()) * (x - 3.5) + y_sd * chance.normal(size=count)
        line = fit(points_of(x, y, np.zeros(count), y_sd), [], prior, SPREAD)
        if line.left_out or line.grown > 1:
            continue
        design = np.vstack([np.column_stack([np.ones(count), x]), [0, 1]])
        weights = np.append(1 / y_sd**2, (prior.median * prior.log_sd) ** -2)
        found = sm.WLS(np.append(y, prior.median), design, weights=weights).fit(cov_type="fixed scale")
        se = found.bse[1]
        what, allowed = "slope with exact x and a prior, 200 random sets", "0.15 standard errors"
        SQUARES.agrees(line.slope, found.params[1], what, within=0.15 * se, allowed=allowed)
        SQUARES.agrees(line.slope * line.grid.log_sd, se, "standard error of that slope", rel=0.08)
        at = float(x.mean())
        SQUARES.agrees(line.y_at(at)[0], found.params[0] + found.params[1] * at, "height of that line", within=0.02)


def test_with_a_wide_prior_it_is_orthogonal_distance_regression():
    """Where the true x are spread far wider than their errors, the prior of the spread no longer matters."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        from scipy import odr
    chance = np.random.default_rng(11)
    wide = LogNormal(median=20.0, log_sd=3.0)
    model = odr.Model(lambda parts, x: parts[0] + parts[1] * (x - 3.5))
    for _ in range(SETS):
        count = int(chance.integers(8, 21))
        slope, true = chance.uniform(10, 45), chance.uniform(1.0, 6.0, count)
        x, y = true + 0.1 * chance.normal(size=count), 45 + slope * (true - 3.5) + 2.0 * chance.normal(size=count)
        line = fit(
            points_of(x, y, np.full(count, 0.1), np.full(count, 2.0)), [], wide, LogNormal(median=1.5, log_sd=2.0)
        )
        if line.left_out or line.grown > 1:
            continue
        found = odr.ODR(odr.RealData(x, y, sx=0.1, sy=2.0), model, beta0=[45.0, 20.0]).run()
        what, room = "slope by orthogonal distances, 200 random sets", 0.15 * line.slope * line.grid.log_sd
        ORTHOGONAL.agrees(line.slope, found.beta[1], what, within=room, allowed="0.15 standard errors")


def test_a_difference_counts_as_its_own_normal_observation():
    """By hand, with an exact dx: the log density of b is that of dy about b dx; summed over 4001 slopes."""
    chance = np.random.default_rng(3)
    for _ in range(SETS):
        dx, dy = float(chance.uniform(0.3, 1.5)), float(chance.uniform(5, 40))
        dx_sd, dy_sd = float(chance.uniform(0.0, 0.1)), float(chance.uniform(1.0, 4.0))
        line = fit([], [Difference(dx=dx, dy=dy, dx_sd=dx_sd, dy_sd=dy_sd)], SLOPE, SPREAD)
        log_b = math.log(SLOPE.median) + SLOPE.log_sd * np.linspace(-6, 6, 4001)
        variance = dy_sd**2 + (np.exp(log_b) * dx_sd) ** 2
        log = -0.5 * (np.log(variance) + (dy - np.exp(log_b) * dx) ** 2 / variance)
        log -= 0.5 * ((log_b - math.log(SLOPE.median)) / SLOPE.log_sd) ** 2
        weight = np.exp(log - log.max())
        weight /= weight.sum()
        mean = (weight * log_b).sum()
        sd = math.sqrt((weight * (log_b - mean) ** 2).sum())
        what, allowed = "a difference as an observation of its own, 200 sets", "0.02 standard deviations"
        GRID.agrees(line.grid.log_mean, mean, what, within=0.02 * sd, allowed=allowed)
        GRID.agrees(line.grid.log_sd, sd, "its standard deviation", rel=0.02)


def test_the_ranges_hold_the_truth_about_19_times_in_20():
    """Slope, and x read off the line, of 600 sands drawn from the prior; 95 % ± 2.7 % is three standard errors."""
    chance = np.random.default_rng(5)
    slopes = places = 0
    for _ in range(600):
        slope, x, y, x_sd, y_sd = random_set(chance)
        line = fit(points_of(x, y, x_sd, y_sd), [], SLOPE, SPREAD)
        low, high = line.slope_band
        slopes += low <= slope <= high
        true = float(chance.normal(3.5, 0.5))
        _, low, high = line.x_from(float(45 + slope * (true - 3.5) + 2.55 * chance.normal()), 2.55)
        places += low <= true <= high
    drawn = GRID.but(sure="drawn", claimed="project")
    drawn.between(slopes / 600, "0.92", "0.98", "true slopes in their range, of 600 sands")
    drawn.between(places / 600, "0.92", "0.98", "true moistures in their range, of 600 sands")


@pytest.mark.parametrize("freedom", [1, 2, 3, 5, 10, 19, 40])
def test_the_percentiles_of_chi_square(freedom):
    exact = stats.chi2.ppf(0.95, freedom)
    ORTHOGONAL.agrees(chi_square_95(freedom), exact, "95 % point of chi-square by a short formula", rel=0.025)
