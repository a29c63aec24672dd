"""How fast one's own sand dries, learned from one weighing on the way.

The logarithm of the rate, as a multiple of the computed one, has a normal prior. A weighing gives one reading of it: the time that the loss should
have taken over the time that it took. Symbols: s0 and s1 the standard deviations of prior and reading, K = s0²/(s0² + s1²) the weight of
the reading. The mean moves by K towards the reading, and the standard deviation becomes s0 √(1 − K). s1 holds the error of the weighing
and ``UNEVEN``: the weather of these hours is not that of the next ones. Source: normal_update.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import Band

UNEVEN = 0.15
"""Standard deviation of the logarithm of a rate from one time to the next (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRate:
    """A learned rate, as a multiple of the computed one: its median, its 95 % band, and the share of it that is still the prior."""

    rate: float
    band: Band
    prior_share: float


def learned(prior: float, prior_band: Band, should_take_s: tuple[float, float, float], took_s: float) -> OwnRate:
    """Return the rate after one weighing: *should_take_s* is the computed time for the loss as read and for both its ends, all above 0.

    *prior_band* is a factor each way about *prior*; its wider side counts.

    >>> found = learned(1.0, (0.5, 2.0), (900.0, 1000.0, 1100.0), 500.0)
    >>> round(found.rate, 2), round(found.prior_share, 2)
    (1.78, 0.17)
    """
    low_s, read_s, high_s = should_take_s
    prior_sd = math.log(max(prior_band[1] / prior, prior / prior_band[0])) / TWO_SIGMA
    weighing_sd = math.log(max(high_s / read_s, read_s / low_s)) / TWO_SIGMA
    reading_sd = math.hypot(weighing_sd, UNEVEN)
    weight = prior_sd**2 / (prior_sd**2 + reading_sd**2)
    mean = (1 - weight) * math.log(prior) + weight * math.log(read_s / took_s)
    half_width = TWO_SIGMA * prior_sd * math.sqrt(1 - weight)
    return OwnRate(
        rate=math.exp(mean),
        band=(math.exp(mean - half_width), math.exp(mean + half_width)),
        prior_share=1 - weight,
    )
