"""The probability of a verdict on a moisture, against the normal distribution of scipy (general-purpose library)."""

import math

import pytest
from against.published import Checks
from scipy.stats import norm

from sandmix.recipes import temper


@pytest.mark.parametrize("moisture", [1.0, 3.0, 3.19, 3.5, 3.81, 5.0, 5.99, 6.5])
@pytest.mark.parametrize("half_width", [0.1, 0.5, 1.0, 3.0])
def test_the_chance_of_a_verdict_is_that_of_a_normal_moisture(moisture, half_width):
    """Against scipy: what of a normal distribution lies between the borders of the verdict."""
    ends = {"temper": (-math.inf, 3.2), "go": (3.2, 3.8), "dry": (3.8, 6.0), "stop": (6.0, math.inf)}
    low, high = ends[temper.verdict(moisture, 3.5, 6.0)]
    expected = norm.cdf(high, moisture, half_width / 1.96) - norm.cdf(low, moisture, half_width / 1.96)
    library = Checks("verdict", source="scipy", sure="library")
    found = temper.chance(moisture, half_width, 3.5, 6.0)
    library.agrees(found, expected, "chance of the word, by the normal distribution", rel=1e-6)
