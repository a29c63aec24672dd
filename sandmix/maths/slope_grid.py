"""The posterior of a slope on a grid, from points whose x and y are both read with known errors.

Model (structural errors in variables): the true x are spread normally about their mean with a standard deviation *spread*; y = a + b x; each
reading adds its own normal error. Given its reading, a true x is normal about λ x + (1 − λ) mean with variance λ σx², λ = spread²/(spread² + σx²).
So y is normal about a line through these shrunken x, with variance σy² + b² λ σx². Taking the readings of x as true would make every slope too
small. The prior of ln b is normal, that of ln spread too, that of a is flat. A difference of two readings of one session has no a, and its true
dx has a flat prior.

The mean of x is put at its best estimate; everything else is integrated: a exactly, ln b and ln spread on nodes about their peaks.
Source: errors_in_variables.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

_COARSE = tuple(0.8 * step for step in range(-5, 6))
"""Nodes of the search for a peak, in standard deviations of the prior."""
_FINE = tuple(0.9 * step for step in range(-5, 6))
_SPREADS = (-2.4, -1.2, 0.0, 1.2, 2.4)
"""Nodes about a peak, in standard deviations of the posterior: so close that a normal curve is summed to six figures."""
_PARABOLAS, _MOST_MOVES = 5, 60
_TALLEST_DROP = 2.0
_HALF = 1e-3
_NARROW, _WIDE = 1e-4, 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A pair of readings of x and y, and the standard deviation of each reading."""

    x: float
    y: float
    x_sd: float
    y_sd: float

    def __post_init__(self) -> None:
        assert self.y_sd > 0 and self.x_sd >= 0, "a reading of y has an error"


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """How far x and y moved between two readings of one session, and the standard deviation of both changes."""

    dx: float
    dy: float
    dx_sd: float
    dy_sd: float

    def __post_init__(self) -> None:
        assert self.dy_sd > 0 and self.dx_sd >= 0, "a change of y has an error"

    def variance(self, slope: float) -> float:
        """Return the variance of dy − slope dx."""
        return self.dy_sd**2 + (slope * self.dx_sd) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class LogNormal:
    """A prior of a positive figure: its median, and the standard deviation of its natural logarithm.

    >>> round(LogNormal.of_range(10, 45).median, 2), round(LogNormal.of_range(10, 45).log_sd, 3)
    (21.21, 0.384)
    """

    median: float
    log_sd: float

    @classmethod
    def of_range(cls, low: float, high: float) -> LogNormal:
        """Return the prior whose 95 % range is *low* to *high*."""
        return cls(median=math.sqrt(low * high), log_sd=math.log(high / low) / (2 * 1.96))


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """One slope of the grid: its weight, and the mean and variance of the line's y at the centre of x, given that slope."""

    slope: float
    weight: float
    y_mean: float
    y_variance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeGrid:
    """The posterior: nodes whose weights add up to 1, the centre of x, and the mean and standard deviation of ln b.

    *shrunken* holds, for the likeliest spread, each point as (x about the centre, y, variance of x left, variance of y).
    """

    nodes: Sequence[Node]
    centre: float
    log_mean: float
    log_sd: float
    shrunken: Sequence[Row]


Row = tuple[float, float, float, float]


def posterior(
    points: Sequence[Point], differences: Sequence[Difference], prior: LogNormal, spread: LogNormal
) -> SlopeGrid:
    """Return the posterior of the slope. Without points and differences it is the prior, and the line's height is unknown."""
    centre = sum(point.x for point in points) / len(points) if points else 0.0
    spreads = _spreads(points, spread)
    rows = [_rows(points, centre, width) for width, _ in spreads]
    likeliest = max(range(len(spreads)), key=lambda at: spreads[at][1])

    def log_density(log_slope: float, at: int) -> tuple[float, float, float]:
        log, mean, variance = _given(rows[at], differences, math.exp(log_slope))
        return log + spreads[at][1] - 0.5 * ((log_slope - math.log(prior.median)) / prior.log_sd) ** 2, mean, variance

    start, width = _peak(lambda log_slope: log_density(log_slope, likeliest)[0], math.log(prior.median), prior.log_sd)
    logs = [start + width * step for step in _FINE]
    found = [[log_density(log_slope, at) for at in range(len(spreads))] for log_slope in logs]
    most = max(log for each in found for log, _, _ in each)
    heavy = [[(math.exp(log - most), mean, variance) for log, mean, variance in each] for each in found]
    whole = sum(weight for each in heavy for weight, _, _ in each)
    nodes = [_node(math.exp(log), each, whole) for log, each in zip(logs, heavy, strict=True)]
    log_mean = sum(node.weight * log for node, log in zip(nodes, logs, strict=True))
    square = sum(node.weight * (log - log_mean) ** 2 for node, log in zip(nodes, logs, strict=True))
    return SlopeGrid(nodes=nodes, centre=centre, log_mean=log_mean, log_sd=math.sqrt(square), shrunken=rows[likeliest])


def _node(slope: float, parts: Sequence[tuple[float, float, float]], whole: float) -> Node:
    """One slope, with its heights over all spreads as one mean and variance."""
    weight = sum(part for part, _, _ in parts)
    mean = sum(part * height for part, height, _ in parts) / weight if weight else parts[0][1]
    squares = sum(part * (variance + (height - mean) ** 2) for part, height, variance in parts)
    return Node(slope=slope, weight=weight / whole, y_mean=mean, y_variance=squares / weight if weight else parts[0][2])


def _given(rows: Sequence[Row], differences: Sequence[Difference], slope: float) -> tuple[float, float, float]:
    """The log likelihood of a slope with the height integrated out, and the height's mean and variance (infinite without points)."""
    square = slope * slope
    weights = first = second = log = 0.0
    for x, y, x_variance, y_variance in rows:
        weight = 1 / (y_variance + square * x_variance)
        left = y - slope * x
        weights += weight
        first += weight * left
        second += weight * left * left
        log += math.log(weight)
    for difference in differences:
        variance = difference.variance(slope)
        log -= math.log(variance) + (difference.dy - slope * difference.dx) ** 2 / variance
    if not rows:
        return log / 2, 0.0, math.inf
    height = first / weights
    return (log - math.log(weights) - (second - first * height)) / 2, height, 1 / weights


def _rows(points: Sequence[Point], centre: float, spread: float) -> list[Row]:
    """Each point with its x shrunken towards their mean, and the variance of x that is left."""
    mean = _mean(points, spread)
    rows = []
    for point in points:
        kept = spread**2 / (spread**2 + point.x_sd**2)
        rows.append((mean + kept * (point.x - mean) - centre, point.y, kept * point.x_sd**2, point.y_sd**2))
    return rows


def _mean(points: Sequence[Point], spread: float) -> float:
    weights = [1 / (spread**2 + point.x_sd**2) for point in points]
    return (
        sum(weight * point.x for weight, point in zip(weights, points, strict=True)) / sum(weights) if points else 0.0
    )


def _spreads(points: Sequence[Point], prior: LogNormal) -> list[tuple[float, float]]:
    """Spreads of the true x, each with the logarithm of its weight by the readings of x and the prior."""
    if not any(point.x_sd for point in points):
        return [(prior.median, 0.0)]

    def log_density(log_spread: float) -> float:
        spread = math.exp(log_spread)
        mean = _mean(points, spread)
        log = -(((log_spread - math.log(prior.median)) / prior.log_sd) ** 2)
        weights = 0.0
        for point in points:
            weight = 1 / (spread**2 + point.x_sd**2)
            weights += weight
            log += math.log(weight) - weight * (point.x - mean) ** 2
        return (log - math.log(weights)) / 2

    start, width = _peak(log_density, math.log(prior.median), prior.log_sd)
    logs = [start + width * step for step in _SPREADS]
    return [(math.exp(log), log_density(log)) for log in logs]


def _peak(log_density: Callable[[float], float], middle: float, sd: float) -> tuple[float, float]:
    """The place of a peak and its width: found on coarse nodes, then by parabolas, and as wide as its flatter side."""
    coarse = [(log_density(middle + sd * step), middle + sd * step) for step in _COARSE]
    best, here = max(coarse)
    step, parabolas = sd / 4, 0
    for _ in range(_MOST_MOVES):
        low, high = log_density(here - step), log_density(here + step)
        curve = low - 2 * best + high
        move = step * (low - high) / (2 * curve) if curve < 0 else math.copysign(math.inf, high - low)
        there = here + max(-2 * step, min(2 * step, move))
        value = log_density(there)
        goes_on = value > best and abs(move) > 2 * step
        if value > best:
            best, here = value, there
        if not goes_on:
            step, parabolas = step / 2, parabolas + 1
        if parabolas == _PARABOLAS:
            break
    curve = log_density(here - _HALF * sd) - 2 * best + log_density(here + _HALF * sd)
    width = _HALF * sd / math.sqrt(-curve) if curve < 0 else sd
    width = max(_NARROW * sd, min(_WIDE * sd, width))
    drops = [best - log_density(here + side * 2 * width) for side in (-1, 1)]
    flattest = max(min(*drops, _TALLEST_DROP), _TALLEST_DROP / 9)
    return here, width * math.sqrt(_TALLEST_DROP / flattest)
