"""Rates learned from changes, against a worked example and against numpy and scipy.

The example was worked out by hand from Kalman's equations, K = P Hᵀ(H P Hᵀ + R)⁻¹ (derived): a moisture of 4.0 ± 0.15 that falls by 0.20 ± 0.10
points a day (one standard deviation) and is read as 3.2 ± 0.10 after three days. The general case is the normal linear model: with the factor given,
all changes together are normal with mean X m and covariance X P Xᵀ + R, so scipy's density weighs the factors and numpy's algebra gives the rates.
"""

import math
import random

import numpy as np
import pytest
from against.published import Checks
from scipy.stats import multivariate_normal

from sandmix.maths.drift import Change, RatePrior, learned

KALMAN = Checks("moisture_rates", source="kalman", sure="derived")
SETS = range(250)


def test_a_moisture_and_its_rate_after_three_days():
    prior = RatePrior(means=(0.20,), deviations=(0.10,))
    mean, variance = learned([], prior).predict((3.0,), 0.0)
    predicted = (4.0 - mean, math.sqrt(0.15**2 + variance))
    what = "4.0 ± 0.15 that falls by 0.20 ± 0.10 a day, after three days"
    KALMAN.figure(predicted, "3.4, 0.33541", what, unit="%", within=5e-6)
    after = learned([Change(exposure=(3.0,), process=0.0, change=0.8, error=0.15**2 + 0.10**2)], prior)
    KALMAN.figure(after.rate(0), "0.248980, 0.051508", "its rate once it is read as 3.2 ± 0.10", unit="points a day")


def a_set(seed):
    """Random changes over one to three exposures, and a prior; the seed makes the set."""
    rng = random.Random(seed)
    size = rng.choice((1, 2, 3))
    changes = [
        Change(
            exposure=tuple(rng.choice((0.0, rng.uniform(0.5, 30.0))) for _ in range(size)),
            process=rng.uniform(0.0, 0.5),
            change=rng.gauss(0.5, 1.0),
            error=rng.uniform(0.01, 0.2),
        )
        for _ in range(rng.randint(1, 20))
    ]
    prior = RatePrior(
        means=tuple(rng.gauss(0.0, 0.2) for _ in range(size)),
        deviations=tuple(rng.uniform(0.01, 0.5) for _ in range(size)),
        factor_median=math.exp(rng.gauss(0.0, 1.0)),
        factor_deviation=rng.choice((0.0, 0.7, 1.6)),
    )
    return changes, prior


def by_algebra(changes, prior, exposure, process):
    """Mean and variance of a new change: the same model, all changes at once."""
    x = np.array([change.exposure for change in changes])
    y = np.array([change.change for change in changes])
    m, p = np.array(prior.means), np.diag(np.square(prior.deviations))
    deviation = prior.factor_deviation
    places = np.linspace(-2.0, 2.0, 7) if deviation else np.zeros(1)
    weights, means, variances = [], [], []
    for place in places:
        factor = prior.factor_median * math.exp(deviation * place)
        noise = np.diag([change.error + factor * change.process for change in changes])
        whole = x @ p @ x.T + noise
        gain = p @ x.T @ np.linalg.inv(whole)
        new = np.array(exposure)
        weights.append(multivariate_normal.logpdf(y, x @ m, whole) - place**2 / 2)
        means.append(new @ (m + gain @ (y - x @ m)))
        variances.append(new @ (p - gain @ x @ p) @ new + factor * process)
    weight = np.exp(np.array(weights) - max(weights))
    weight /= weight.sum()
    mean = weight @ means
    return mean, weight @ (np.array(variances) + (np.array(means) - mean) ** 2)


@pytest.mark.parametrize("seed", SETS)
def test_the_filter_is_the_normal_linear_model(seed):
    changes, prior = a_set(seed)
    rng = random.Random(-seed)
    exposure = tuple(rng.uniform(0.0, 30.0) for _ in prior.means)
    found = learned(changes, prior).predict(exposure, 0.3)
    library = KALMAN.but(source="scipy", sure="library")
    what = "mean and variance of a new change, 250 random sets, all changes at once"
    library.agrees(found, by_algebra(changes, prior, exposure, 0.3), what, rel=1e-7, within=1e-9)
