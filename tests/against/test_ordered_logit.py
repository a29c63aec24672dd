"""Ordered logistic regression.

Source: the data set anes96 that statsmodels bundles (944 people of the American National Election Study of 1996), fitted by its `OrderedModel` with
distr="logit"; the figures below were read from such a fit before this library had one. Computed by: statsmodels where there is no prior, and scipy's
general minimiser, which knows no derivatives of this library, on random sets with a prior.
Basis: party (7 classes) on self-placement from left to right, alone and with four more x. Tolerance: half of the last printed digit; for the
minimiser, its own accuracy.
"""

import math
import warnings

import numpy as np
import pytest
from against.published import Checks
from scipy.optimize import minimize
from scipy.special import expit
from statsmodels.datasets import anes96
from statsmodels.miscmodels.ordinal_model import OrderedModel

from sandmix.maths.ordered_regression import Prior, fit

FITTED = Checks("feel", source="anes96", sure="read")
LIBRARY = Checks("feel", source="scipy", sure="library")
SETS = 240
COLUMNS = ["logpopul", "selfLR", "age", "educ", "income"]


def flat(size):
    return Prior(mean=[0.0] * size, precision=[[0.0] * size for _ in range(size)])


def party_on(columns):
    data = anes96.load_pandas().data
    rows = [[float(x) for x in row] for row in data[columns].to_numpy()]
    classes = [int(kind) for kind in data["PID"]]
    return rows, classes, fit(rows, classes, 7, flat(len(columns) + 6))


def test_party_on_self_placement():
    _, _, found = party_on(["selfLR"])
    FITTED.figure(found.slopes[0], "0.970964", "slope of party on self-placement, 944 people")
    FITTED.figure(math.sqrt(found.covariance[0][0]), "0.05153", "its standard error")
    cuts = "2.35392, 3.53886, 4.20156, 4.44363, 5.06136, 6.18159"
    FITTED.figure(found.cuts, cuts, "its cut points", within=5.1e-6)
    FITTED.figure(found.log_likelihood, "-1535.53141", "its log-likelihood")


def test_the_chances_at_the_middle_of_the_scale():
    """The printed chances are those of the fit itself, without its uncertainty, which is taken out here."""
    _, _, found = party_on(["selfLR"])
    sure = type(found)(slopes=found.slopes, cuts=found.cuts, log_likelihood=0.0, covariance=[[0.0] * 7] * 7)
    printed = "0.178003, 0.236593, 0.164169, 0.057636, 0.128098, 0.144190, 0.091310"
    FITTED.figure(sure.chances((4.0,)), printed, "chances of the seven parties at the middle of the scale")


def test_party_on_five_x():
    _, _, found = party_on(COLUMNS)
    slopes = "-0.070730, 1.019176, -0.004163, 0.177670, 0.047185"
    FITTED.figure(found.slopes, slopes, "slopes of party on five inputs", within=6e-7)
    FITTED.figure(found.log_likelihood, "-1494.61951", "log-likelihood with five inputs")


def test_all_standard_errors_are_those_of_statsmodels():
    rows, classes, found = party_on(COLUMNS)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        other = OrderedModel(np.array(classes), np.array(rows), distr="logit").fit(method="bfgs", disp=0, maxiter=500)
    errors = [math.sqrt(found.covariance[at][at]) for at in range(5)]
    library = LIBRARY.but(source="statsmodels")
    library.agrees(errors, other.bse[:5], "standard errors of the five slopes", rel=2e-3)


def case_of(seed):
    """A random set with a random prior: two x at most, three to five classes, of which some may be empty."""
    dice = np.random.default_rng(seed)
    count, slopes, many = int(dice.integers(3, 6)), int(dice.integers(1, 3)), int(dice.integers(0, 25))
    rows = dice.normal(size=(many, slopes))
    cuts = np.sort(dice.normal(scale=1.5, size=count - 1))
    classes = [int((dice.random() > expit(cuts - row @ np.ones(slopes))).sum()) for row in rows]
    size = slopes + count - 1
    root = dice.normal(size=(size, size))
    precision = root @ root.T / size + 0.2 * np.eye(size)
    mean = np.concatenate([dice.normal(size=slopes), np.sort(dice.normal(size=count - 1)) + np.arange(count - 1)])
    return rows, classes, count, mean, precision, float(dice.choice([0.05, 0.5, 2.0]))


def minus_log_posterior(point, rows, classes, count, mean, precision, gaps):
    """Written down a second time, as plainly as it can be, in the first cut point and the logarithms of the gaps."""
    slopes = len(point) - count + 1
    cuts = np.cumsum([point[slopes], *np.exp(point[slopes + 1 :])])
    ends = np.concatenate([[-np.inf], cuts, [np.inf]])
    whole = np.concatenate([point[:slopes], cuts])
    total = gaps * np.log(np.diff(cuts)).sum() - (whole - mean) @ precision @ (whole - mean) / 2
    for row, kind in zip(rows, classes, strict=True):
        here = row @ point[:slopes]
        total += np.log(max(1e-300, expit(ends[kind + 1] - here) - expit(ends[kind] - here)))
    return -total


@pytest.mark.parametrize("part", range(4))
def test_random_sets_with_a_prior_have_the_mode_of_a_general_minimiser(part):
    for seed in range(part, SETS, 4):
        rows, classes, count, mean, precision, gaps = case = case_of(seed)
        found = fit(rows.tolist(), classes, count, Prior(mean=mean.tolist(), precision=precision.tolist(), gaps=gaps))
        slopes = rows.shape[1]
        point = np.concatenate([found.slopes, [found.cuts[0]], np.log(np.diff(found.cuts))])
        start = np.concatenate([mean[: slopes + 1], np.log(np.diff(mean[slopes:]))])
        best = minimize(minus_log_posterior, start, args=case, method="BFGS", options={"gtol": 1e-6})
        here = minus_log_posterior(point, *case)
        what = "greatest posterior by a general minimiser, 240 random sets"
        LIBRARY.agrees(here, best.fun, what, within=1e-6, case=seed)
        assert here <= best.fun + 1e-9, f"the minimiser found more in set {seed}"
        mine, others = [*found.slopes, *found.cuts[:1]], best.x[: slopes + 1]
        LIBRARY.agrees(mine, others, "where that maximum is", within=2e-3, case=seed)


@pytest.mark.parametrize("seed", range(12))
def test_the_covariance_is_the_inverse_of_the_curvature_by_differences(seed):
    rows, classes, count, mean, precision, gaps = case_of(seed)
    found = fit(rows.tolist(), classes, count, Prior(mean=mean.tolist(), precision=precision.tolist(), gaps=gaps))
    size, slopes = len(mean), rows.shape[1]
    centre = np.array([*found.slopes, *found.cuts])

    def at(whole):
        point = np.concatenate([whole[: slopes + 1], np.log(np.diff(whole[slopes:]))])
        return minus_log_posterior(point, rows, classes, count, mean, precision, gaps)

    step = 1e-3 * min(1.0, *np.diff(found.cuts))
    curvature = np.empty((size, size))
    for one in range(size):
        for two in range(size):
            a, b = np.eye(size)[one] * step, np.eye(size)[two] * step
            curvature[one, two] = (
                at(centre + a + b) - at(centre + a - b) - at(centre - a + b) + at(centre - a - b)
            ) / (4 * step * step)
    inverse = np.linalg.inv(curvature)
    by_differences = LIBRARY.but(source="numpy")
    what = "covariance as the inverse of the curvature by differences, 12 sets"
    by_differences.agrees(found.covariance, inverse, what, rel=2e-3, within=2e-4)


def test_the_mean_chance_over_the_uncertainty_is_within_two_hundredths():
    """The mean of the logistic curve over a normal variable, by 400 000 draws, at many means and variances."""
    dice = np.random.default_rng(5).normal(size=400_000)
    for mean in (0.0, 0.5, 1.0, 2.0, 4.0):
        for variance in (0.1, 1.0, 4.0, 12.0):
            drawn = expit(mean + math.sqrt(variance) * dice).mean()
            short = 1 / (1 + math.exp(-mean / math.sqrt(1 + math.pi * variance / 8)))
            draws = LIBRARY.but(source="mackay_1992", sure="drawn")
            draws.agrees(short, drawn, "mean of a logistic curve over a normal variable, 400 000 draws", within=0.02)
