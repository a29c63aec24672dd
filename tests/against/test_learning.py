"""The update of a belief by readings, the pooled spread of values, and the slope of a line.

Source: the conjugate update of a normal mean, and the scaled inverse-χ² update of a variance (derived).
Computed by: statsmodels' weighted least squares with the prior as one more observation, scipy's quadrature of Bayes' theorem, numpy's sum over a
grid of variances. 200 random sets each, 20 for the quadrature. Tolerance: that of the numbers themselves, and of the quadrature and the grid.
"""

import math

import numpy as np
import pytest
import statsmodels.api as sm
from against.published import Checks
from scipy import integrate, stats

from sandmix.maths import learning
from sandmix.maths.learning import Belief

SQUARES = Checks("learning", source="statsmodels", sure="library")
BAYES = SQUARES.but(source="scipy")
GRID = SQUARES.but(source="numpy")
SETS = 200


@pytest.mark.parametrize("seed", range(SETS))
def test_several_readings_are_the_weighted_least_squares_of_prior_and_readings(seed):
    """statsmodels: WLS of a constant through the prior and the readings, weights 1/s²; its unscaled covariance is the variance."""
    dice = np.random.default_rng(seed)
    count = dice.integers(1, 12)
    first = Belief(mean=dice.normal(0, 5), sd=dice.uniform(0.05, 4))
    readings = [Belief(mean=dice.normal(0, 5), sd=dice.uniform(0.05, 4)) for _ in range(count)]
    every = [first, *readings]
    fitted = sm.WLS([one.mean for one in every], np.ones(len(every)), weights=[one.sd**-2 for one in every]).fit()
    now = learning.after_all(first, readings)
    spread = math.sqrt(fitted.normalized_cov_params[0, 0])
    SQUARES.agrees(now.mean, fitted.params[0], "mean of a prior and readings, 200 random sets", rel=1e-9, within=1e-9)
    SQUARES.agrees(now.sd, spread, "its standard deviation", rel=1e-9)
    weight = first.sd**-2 / sum(one.sd**-2 for one in every)
    SQUARES.agrees(learning.share_of_prior(first, now), weight, "share of the prior", rel=1e-9)
    shuffled = learning.after_all(first, [readings[at] for at in dice.permutation(count)])
    assert (shuffled.mean, shuffled.sd) == (pytest.approx(now.mean, abs=1e-9), pytest.approx(now.sd))


@pytest.mark.parametrize("seed", range(20))
def test_one_reading_is_bayes_theorem_integrated_by_scipy(seed):
    dice = np.random.default_rng(seed)
    first, reading = (Belief(mean=dice.normal(), sd=dice.uniform(0.3, 2)) for _ in range(2))

    def weighted(power):
        density = lambda x: x**power * stats.norm.pdf(x, first.mean, first.sd) * stats.norm.pdf(x, reading.mean, reading.sd)  # fmt: skip  # noqa: E731
        return integrate.quad(density, -15, 15, limit=200, points=[first.mean, reading.mean])[0]

    whole = weighted(0)
    mean = weighted(1) / whole
    now = learning.after(first, reading)
    moments = (mean, weighted(2) / whole - mean**2)
    BAYES.agrees((now.mean, now.sd**2), moments, "one reading, Bayes's theorem by quadrature, 20 sets", within=1e-6)


@pytest.mark.parametrize("seed", range(SETS))
def test_the_pooled_spread_is_the_posterior_of_a_scaled_inverse_chi_square(seed):
    """With a flat prior of the mean, the mean of 1/σ² over its posterior is 1/s²: numpy's sum over a fine grid of ln σ², marginal of the mean."""
    dice = np.random.default_rng(seed)
    values = dice.normal(3, dice.uniform(0.2, 3), dice.integers(1, 15))
    assumed = dice.uniform(0.3, 2)
    found = learning.scattered(list(values), assumed)
    squares = ((values - values.mean()) ** 2).sum()
    variances = np.exp(np.linspace(-16, 16, 20001))
    prior = stats.invgamma.logpdf(variances, learning.COUNTS_LIKE / 2, scale=learning.COUNTS_LIKE * assumed**2 / 2)
    log_weight = prior - (len(values) - 1) / 2 * np.log(variances) - squares / 2 / variances + np.log(variances)
    weight = np.exp(log_weight - log_weight.max())
    on_grid = (weight / variances).sum() / weight.sum()
    GRID.agrees(1 / found.spread**2, on_grid, "pooled spread, its posterior summed on a grid, 200 sets", rel=1e-3)
    assert found.mean.mean == pytest.approx(values.mean())
    assert found.mean.sd == pytest.approx(found.spread / math.sqrt(len(values)))
    assert found.freedom == len(values) + 3


@pytest.mark.parametrize("seed", range(SETS))
def test_a_slope_is_the_weighted_least_squares_of_statsmodels(seed):
    dice = np.random.default_rng(seed)
    count = dice.integers(2, 15)
    x, sd = np.sort(dice.uniform(0, 30, count)), dice.uniform(0.2, 1.5, count)
    y = 1.0 + 0.15 * x + dice.normal(0, sd * dice.uniform(0.3, 2))
    fitted = sm.WLS(y, sm.add_constant(x), weights=sd**-2).fit()
    wider = max(1.0, math.sqrt(fitted.scale)) if count > 2 else 1.0
    found = learning.slope(list(zip(x, y, sd, strict=True)))
    spread = wider * math.sqrt(fitted.normalized_cov_params[1, 1])
    SQUARES.agrees(found.mean, fitted.params[1], "slope through readings, 200 random sets", rel=1e-6, within=1e-9)
    SQUARES.agrees(found.sd, spread, "its standard deviation, wider where the readings scatter more", rel=1e-6)
