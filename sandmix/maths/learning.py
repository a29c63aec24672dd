"""What readings teach: a first belief in a figure, moved towards each reading by the errors of both, and how much of it is still the first belief.

A belief is a normal distribution. The gain of a reading is K = s₀² / (s₀² + s₁²), of the standard deviations of the belief and of the reading; the
belief moves by K times the difference, and K of its variance is gone. Source: the conjugate update of a normal mean, derived.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sandmix.maths.statistics import MOST_READINGS, TWO_SIGMA, weighted_mean

COUNTS_LIKE = 4
"""The assumed spread of single readings counts like that of so many readings of one's own (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """A figure as it is believed: its mean and its standard deviation, 0 where it is certain."""

    mean: float
    sd: float

    @property
    def half_width(self) -> float:
        """The 95 % half-width."""
        return TWO_SIGMA * self.sd


def belief(mean: float, half_width: float) -> Belief:
    """Return the belief of a mean with its 95 % half-width."""
    return Belief(mean=mean, sd=half_width / TWO_SIGMA)


def gain(first: Belief, reading: Belief) -> float:
    """Return K: by what share of the difference a reading moves a belief, from 0 to 1.

    >>> round(gain(Belief(mean=3.4, sd=0.5), Belief(mean=4.0, sd=0.3)), 6)
    0.735294
    """
    whole = first.sd**2 + reading.sd**2
    return first.sd**2 / whole if whole > 0 else 0.0


def after(first: Belief, reading: Belief) -> Belief:
    """Return a belief after one reading. A certain belief stays as it is; a certain reading is believed.

    >>> learned = after(Belief(mean=3.4, sd=0.5), Belief(mean=4.0, sd=0.3))
    >>> round(learned.mean, 5), round(learned.sd, 6)
    (3.84118, 0.257248)
    """
    moved = gain(first, reading)
    return Belief(mean=first.mean + moved * (reading.mean - first.mean), sd=first.sd * math.sqrt(1.0 - moved))


def after_all(first: Belief, readings: Iterable[Belief]) -> Belief:
    """Return a belief after several independent readings; their order makes no difference."""
    learned = first
    for reading in readings:
        learned = after(learned, reading)
    return learned


def share_of_prior(first: Belief, now: Belief) -> float:
    """Return the weight that the first belief still has in the mean: the ratio of the variances now and at first, from 0 to 1."""
    return min(1.0, (now.sd / first.sd) ** 2) if first.sd > 0 else 1.0


def measured(readings: Sequence[tuple[float, float]]) -> Belief:
    """Return one or more readings, each with its 95 % half-width, as one: the weighted mean of the last twenty, widened by Birge's ratio."""
    mean = weighted_mean(readings[-MOST_READINGS:])
    return belief(mean.value, mean.half_width)


def of_range(low: float, high: float) -> Belief:
    """Return the belief of the natural logarithm of a figure above 0 whose 95 % range is from *low* to *high*.

    >>> round(math.exp(of_range(0.01, 0.04).mean), 6)
    0.02
    """
    return Belief(mean=math.log(low * high) / 2, sd=math.log(high / low) / (2 * TWO_SIGMA))


@dataclass(frozen=True, slots=True, kw_only=True)
class Scatter:
    """What values that differ from time to time say: their long-run mean, the spread of single values, and the degrees of freedom of that."""

    mean: Belief
    spread: float
    freedom: int


def scattered(values: Sequence[float], assumed_sd: float) -> Scatter:
    """Return what one or more values that differ from time to time, such as the loss of each cast, say of their long-run mean.

    The spread of single values is pooled from their own and from an assumed one, which counts like four: s² = (4 a² + Σ (x − x̄)²) / (4 + N − 1).
    Only the last twenty count. Source: the scaled inverse-χ² update of a variance, derived.

    >>> once = scattered([5.0], 1.0)
    >>> once.mean, once.spread
    (Belief(mean=5.0, sd=1.0), 1.0)
    """
    lately = values[-MOST_READINGS:]
    mean = sum(lately) / len(lately)
    squares = COUNTS_LIKE * assumed_sd**2 + sum((value - mean) ** 2 for value in lately)
    freedom = COUNTS_LIKE + len(lately) - 1
    spread = math.sqrt(squares / freedom)
    return Scatter(mean=Belief(mean=mean, sd=spread / math.sqrt(len(lately))), spread=spread, freedom=freedom)


def slope(points: Sequence[tuple[float, float, float]]) -> Belief | None:
    """Return the slope of a straight line through points (x, y and the standard deviation of y), or None where they show none.

    Weighted least squares, with the deviations taken as known. If the points are further from the line than these explain, the slope is less
    certain by the same factor. All deviations must be above 0.

    >>> line = slope([(0.0, 1.0, 0.1), (10.0, 3.0, 0.1)])
    >>> line and (round(line.mean, 6), round(line.sd, 6))
    (0.2, 0.014142)
    """
    weights = [1 / sd**2 for *_, sd in points]
    whole = sum(weights)
    if len(points) < 2 or whole <= 0:
        return None
    mean_x, mean_y = (sum(w * point[axis] for w, point in zip(weights, points, strict=True)) / whole for axis in (0, 1))
    across = sum(w * (x - mean_x) ** 2 for w, (x, *_) in zip(weights, points, strict=True))
    if across <= 1e-12 * whole * max(1.0, mean_x**2):
        return None
    rise = sum(w * (x - mean_x) * (y - mean_y) for w, (x, y, _) in zip(weights, points, strict=True)) / across
    off = sum(w * (y - mean_y - rise * (x - mean_x)) ** 2 for w, (x, y, _) in zip(weights, points, strict=True))
    wider = max(1.0, math.sqrt(off / (len(points) - 2))) if len(points) > 2 else 1.0
    return Belief(mean=rise, sd=wider / math.sqrt(across))
