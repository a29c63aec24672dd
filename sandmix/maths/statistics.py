"""Statistics of repeated readings: the weighted mean, and the prediction interval of the next reading."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

# two-sided 95 % of Student's t, by degrees of freedom (read in any table of it)
_T_95 = (
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
    2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093,
)  # fmt: skip
# the 95th percentile of chi-square, by degrees of freedom (read in any table of it)
CHI_SQUARE_95 = (
    3.841, 5.991, 7.815, 9.488, 11.070, 12.592, 14.067, 15.507, 16.919, 18.307,
    19.675, 21.026, 22.362, 23.685, 24.996, 26.296, 27.587, 28.869, 30.144,
)  # fmt: skip
TWO_SIGMA = 1.96
"""A 95 % half-width in standard deviations."""
MOST_READINGS = len(_T_95) + 1
"""At most so many readings are used, the latest."""


def without_noise(difference: float, scale: float) -> float:
    """Return *difference*, or 0 where it is no more than the rounding error of sums as large as *scale*."""
    return 0.0 if abs(difference) <= 1e-12 * abs(scale) else difference


def is_above(value: float, limit: float) -> bool:
    """Return whether a value of 0 or more is above a limit by more than the rounding error of its own computation.

    >>> is_above(6.01, 6.0), is_above(6.0, 6.0), is_above(6.000000000000001, 6.0)
    (True, False, False)
    """
    return value > limit * (1 + 1e-9)


def student_t_95(freedom: int) -> float:
    """Return the two-sided 95 % point of Student's t; from nineteen degrees of freedom on that of nineteen, which is somewhat wide.

    >>> student_t_95(2), student_t_95(40)
    (4.303, 2.093)
    """
    return _T_95[min(freedom, len(_T_95)) - 1]


def prediction_interval(own: Sequence[float]) -> tuple[float, float]:
    """Return the mean of two to twenty readings *own*, and the 95 % half-width in which the next one falls: t s √(1 + 1/N).

    Source: the usual prediction interval.

    >>> [round(figure, 3) for figure in prediction_interval([44.0, 45.0, 46.0])]
    [45.0, 4.969]
    """
    count = len(own)
    half_width = _T_95[count - 2] * statistics.stdev(own) * math.sqrt(1 + 1 / count)
    return statistics.fmean(own), half_width


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightedMean:
    """A weighted mean, its 95 % half-width, Birge's ratio, and whether the figures agree."""

    value: float
    half_width: float
    ratio: float
    agrees: bool


def weighted_mean(own: Sequence[tuple[float, float]]) -> WeightedMean:
    """Return the weighted mean of up to twenty figures, each with its 95 % half-width; the weights are inverse squares.

    The figures are taken as independent. Where Birge's ratio √(χ²/(N − 1)) is above 1, it multiplies the half-width of the mean. The figures
    disagree where χ² is above what chance gives 19 times in 20. If some have no half-width, only those count. Source: birge_1932.

    >>> both = weighted_mean([(7.0, 0.6), (7.4, 0.8)])
    >>> round(both.value, 2), round(both.half_width, 2), both.agrees
    (7.14, 0.48, True)
    """
    sure = [value for value, half_width in own if half_width == 0]
    if sure:
        return WeightedMean(value=statistics.fmean(sure), half_width=0.0, ratio=0.0, agrees=True)
    weights = [(TWO_SIGMA / half_width) ** 2 for _, half_width in own]
    whole = sum(weights)
    mean = sum(weight * value for weight, (value, _) in zip(weights, own, strict=True)) / whole
    chi_square = sum(weight * (value - mean) ** 2 for weight, (value, _) in zip(weights, own, strict=True))
    beyond_one = len(own) - 1
    ratio = math.sqrt(chi_square / beyond_one) if beyond_one else 0.0
    return WeightedMean(
        value=mean,
        half_width=TWO_SIGMA / math.sqrt(whole) * max(1.0, ratio),
        ratio=ratio,
        agrees=not beyond_one or chi_square <= CHI_SQUARE_95[beyond_one - 1],
    )
