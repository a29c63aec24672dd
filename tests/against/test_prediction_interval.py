"""The loss of the next cast, after some were weighed.

Source: the usual prediction interval of a normal sample, mean ± t s √(1 + 1/n) (derived).
Computed by: scipy's Student t. Basis: shares of the sand, two-sided 95 %.
Tolerance: half the last digit of a table with three places, and the scatter of the draws.
"""

import math
import statistics

import numpy as np
import pytest
from scipy.stats import t

from sandmix.recipes.sand_loss import loss_a_cast


@pytest.mark.parametrize("count", range(3, 21))
def test_the_half_width_follows_students_t(count):
    own = [0.02 + 0.001 * (at % 4) for at in range(count)]
    wanted = t.ppf(0.975, count - 1) * statistics.stdev(own) * math.sqrt(1 + 1 / count)
    assert loss_a_cast(own).half_width == pytest.approx(wanted, rel=0.0005 / 2.093)


@pytest.mark.parametrize("count", [3, 6, 12])
def test_19_of_20_next_casts_are_within_it(count):
    """4000 draws: the share within varies by 0.35 points, so the tolerance is four times that, 1.4."""
    dice = np.random.default_rng(1)
    inside = 0
    for _ in range(4000):
        *own, following = dice.normal(0.03, 0.005, count + 1)
        loss = loss_a_cast(own)
        inside += abs(following - loss.share) <= loss.half_width
    assert inside / 4000 == pytest.approx(0.95, abs=0.014)
