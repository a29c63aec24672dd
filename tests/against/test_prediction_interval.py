"""One more reading after some, and the loss of the next cast after some were weighed.

Source: the usual prediction interval of a normal sample, mean ± t s √(1 + 1/n) (derived); for the loss, the predictive distribution of a normal
mean with a normal prior and a variance with a scaled inverse-χ² prior (derived), of which the library uses Student's t.
Computed by: scipy's Student t, and numpy's draws of heaps and casts from the priors. Basis: shares of the sand, two-sided 95 %.
Tolerance: half the last digit of a table with three places, and the scatter of the draws.
"""

import math
import statistics

import numpy as np
import pytest
from against.published import Checks
from scipy.stats import t

from sandmix.maths.statistics import prediction_interval, student_t_95
from sandmix.recipes import sand_loss

LIBRARY = Checks("prediction", source="scipy", sure="library")
DRAWN = Checks("prediction", source="numpy", sure="drawn")
LOSS = Checks("cast_loss", source="numpy", sure="drawn", claimed="project")


@pytest.mark.parametrize("freedom", range(1, 20))
def test_students_t_is_that_of_scipy(freedom):
    LIBRARY.agrees(student_t_95(freedom), t.ppf(0.975, freedom), "Student's t, 1 to 19 degrees", within=0.0005)


@pytest.mark.parametrize("count", range(3, 21))
def test_the_half_width_follows_students_t(count):
    own = [0.02 + 0.001 * (at % 4) for at in range(count)]
    wanted = t.ppf(0.975, count - 1) * statistics.stdev(own) * math.sqrt(1 + 1 / count)
    what = "half-width of one more reading after 3 to 20"
    LIBRARY.agrees(prediction_interval(own)[1], wanted, what, rel=0.0005 / 2.093, allowed="the table's half digit")


@pytest.mark.parametrize("count", [3, 6, 12])
def test_19_of_20_next_readings_are_within_it(count):
    """4000 draws: the share within varies by 0.35 points, so the tolerance is four times that, 1.4."""
    dice = np.random.default_rng(1)
    inside = 0
    for _ in range(4000):
        *own, following = dice.normal(0.03, 0.005, count + 1)
        mean, half = prediction_interval(own)
        inside += abs(following - mean) <= half
    DRAWN.figure(inside / 4000, "0.95", f"next readings within the range after {count}, of 4000", within=0.014)


@pytest.mark.parametrize("count", [1, 3, 6, 12])
def test_19_of_20_next_casts_of_heaps_as_the_priors_have_them_are_within_the_learned_loss(count):
    """Long-run loss 1 to 4 %, casts within a factor of 1.3, known like four readings. 4000 draws: four times 0.35 points; t for the sum of a
    normal and a Student's t is somewhat wide."""
    dice = np.random.default_rng(count)
    inside = 0
    for _ in range(4000):
        mean = dice.normal(math.log(0.02), math.log(2) / 1.96)
        spread = math.log(1.3) / 1.96 * math.sqrt(4 / dice.chisquare(4))
        *own, following = dice.normal(mean, spread, count + 1)
        now, casts = sand_loss.learned(list(np.exp(own)))
        side = student_t_95(casts.freedom) * math.hypot(now.sd, casts.spread)
        inside += abs(following - now.mean) <= side
    what = f"next casts within the range after {count} weighed, of 4000 heaps"
    LOSS.between(inside / 4000, "0.936", "0.975", what)


def test_with_many_weighed_casts_the_prior_no_longer_counts():
    """Twenty casts at 6 % with a spread of a tenth: within 1 % of their own mean."""
    own = np.exp(np.random.default_rng(5).normal(math.log(0.06), 0.1, 20))
    mean = float(np.exp(np.log(own).mean()))
    LOSS.agrees(sand_loss.loss_a_cast(list(own)).share, mean, "after twenty casts, their own mean", rel=0.01)
