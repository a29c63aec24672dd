"""Several readings of one thing: where one more would fall, and what they come to together."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence

# two-sided 95 % of Student's t, by degrees of freedom (read in any table of it)
_T_95 = (
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
    2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093,
)  # fmt: skip
MOST = len(_T_95) + 1
"""How many readings are looked at, the last ones."""


def one_more(own: Sequence[float]) -> tuple[float, float]:
    """Return the mean of two to twenty figures *own*, and the 95 % half-width about it within which one more falls: t s √(1 + 1/N).

    Source: the usual prediction interval.

    >>> [round(figure, 3) for figure in one_more([44.0, 45.0, 46.0])]
    [45.0, 4.969]
    """
    count = len(own)
    half_width = _T_95[count - 2] * statistics.stdev(own) * math.sqrt(1 + 1 / count)
    return statistics.fmean(own), half_width


def together(own: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Return the weighted mean of figures, each with its 95 % half-width, and its own: weights are inverse squares.

    Where they differ by more than their half-widths explain, it is widened by √(χ²/(N − 1)). Figures without a half-width count alone.
    Source: the weighted mean, with inverse variances for weights, and Birge's ratio.

    >>> [round(figure, 4) for figure in together([(1.60, 0.03), (1.63, 0.03)])]
    [1.615, 0.0212]
    """
    sure = [value for value, half_width in own if half_width == 0]
    if sure:
        return statistics.fmean(sure), 0.0
    weights = [1 / half_width**2 for _, half_width in own]
    whole = sum(weights)
    mean = sum(weight * value for weight, (value, _) in zip(weights, own, strict=True)) / whole
    apart = sum(weight * (value - mean) ** 2 for weight, (value, _) in zip(weights, own, strict=True))
    wider = 1.96**2 * apart / (len(own) - 1) if len(own) > 1 else 0.0
    return mean, math.sqrt(max(1.0, wider) / whole)
