"""The control chart of individual readings and their moving range, and a test for slow drift. Knows nothing of sand.

The spread is taken from readings next to each other, so that a slow drift does not widen it: σ = mean moving range / d2. Limits are the mean
± 3 σ, and D4 times the mean moving range. For ranges of two the constants are exact: d2 = 2/√π, d3 = √(2 − 4/π), E2 = 3/d2, D4 = 1 + 3 d3/d2.
A moving range above 3.5 times the mean one is left out of the mean, since it marks a jump and no spread. The chart finds single readings that are
far out; a shift of one σ it finds only after about 44 readings on average, so a straight line through the readings is tested as well.
Sources: sas_individuals, montgomery_runger, nelson_1982.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import fmean

D2 = 2 / math.sqrt(math.pi)
D3 = math.sqrt(2 - 4 / math.pi)
E2 = 3 / D2
D4 = 1 + 3 * D3 / D2
JUMP = 3.5
"""A moving range above this many times the mean one is left out of the mean. Source: nelson_1982."""
SURE_OF_DRIFT = 0.01
"""A drift is called one if chance gives as steep a line less often than this (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """The limits of a chart, in the unit of the readings: of how many, their mean, the mean moving range, and how many ranges were left out."""

    count: int
    mean: float
    mean_range: float
    left_out: int

    @property
    def sigma(self) -> float:
        """The standard deviation from one reading to the next."""
        return self.mean_range / D2

    @property
    def low(self) -> float:
        """The lower limit of a reading."""
        return self.mean - E2 * self.mean_range

    @property
    def high(self) -> float:
        """The upper limit of a reading."""
        return self.mean + E2 * self.mean_range

    @property
    def range_high(self) -> float:
        """The upper limit of a moving range; its lower limit is 0."""
        return D4 * self.mean_range

    def holds(self, reading: float) -> bool:
        """Whether a reading is within the limits, or beyond them by rounding error only."""
        return abs(reading - self.mean) <= E2 * self.mean_range + 1e-9 * max(abs(reading), abs(self.mean))


def moving_ranges(readings: Sequence[float]) -> list[float]:
    """Return the difference of each reading and the one before it, without its sign."""
    return [abs(two - one) for one, two in pairwise(readings)]


def limits(readings: Sequence[float]) -> Limits:
    """Return the limits of two *readings* or more, in their order of time.

    >>> found = limits([10.0, 12.0, 11.0, 12.0])
    >>> round(found.mean_range, 3), round(found.low, 2), round(found.high, 2)
    (1.333, 7.71, 14.79)
    """
    ranges = moving_ranges(readings)
    most = JUMP * fmean(ranges)
    usual = [one for one in ranges if one <= most]
    return Limits(count=len(readings), mean=fmean(readings), mean_range=fmean(usual), left_out=len(ranges) - len(usual))


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """The straight line through readings: how much it rises from one reading to the next, and how often chance gives one as steep, up or down."""

    a_reading: float
    chance: float

    @property
    def is_sure(self) -> bool:
        """Whether it is a drift and not chance."""
        return self.chance < SURE_OF_DRIFT


def drift(readings: Sequence[float]) -> Drift:
    """Return the least-squares line through three *readings* or more, evenly spaced, tested by Student's t with N − 2 degrees of freedom.

    >>> found = drift([1.0, 2.0, 3.0, 5.0])
    >>> round(found.a_reading, 2), round(found.chance, 4)
    (1.3, 0.0173)
    """
    count = len(readings)
    middle, mean = (count - 1) / 2, fmean(readings)
    square = sum((at - middle) ** 2 for at in range(count))
    slope = sum((at - middle) * (reading - mean) for at, reading in enumerate(readings)) / square
    rest = sum((reading - mean - slope * (at - middle)) ** 2 for at, reading in enumerate(readings))
    size = max(abs(reading) for reading in readings)
    if abs(slope) <= 1e-12 * size:
        return Drift(a_reading=0.0, chance=1.0)
    error = math.sqrt(max(rest, (1e-12 * size) ** 2) / (count - 2) / square)
    return Drift(a_reading=slope, chance=two_sided(abs(slope) / error, count - 2))


def two_sided(t: float, freedom: int) -> float:
    """Return the chance of a Student's t beyond ± *t*, for a whole number of degrees of freedom.

    The finite sums of Abramowitz and Stegun, 26.7.3 and 26.7.4 (from memory; the tests compare them with a library).

    >>> round(two_sided(12.706, 1), 4), round(two_sided(2.086, 20), 4)
    (0.05, 0.05)
    """
    root = math.sqrt(freedom)
    cosine2 = freedom / (freedom + t * t)
    sine = t / math.sqrt(freedom + t * t)
    term = total = 1.0
    if freedom % 2:
        angle = math.atan(t / root)
        if freedom == 1:
            return max(0.0, 1 - 2 * angle / math.pi)
        for at in range(3, freedom - 1, 2):
            term *= (at - 1) / at * cosine2
            total += term
        within = 2 / math.pi * (angle + sine * math.sqrt(cosine2) * total)
    else:
        for at in range(2, freedom - 1, 2):
            term *= (at - 1) / at * cosine2
            total += term
        within = sine * total
    return min(1.0, max(0.0, 1 - within))
