"""How fast something drifts that is measured now and then: rates learned from the changes between measurements, each with its error.

A change y over an exposure x (days of each kind) is y = x·r + noise. The rates r have a normal prior. The noise has the variance of both
measurements, plus a process variance that grows with the exposure. How large the process variance is, compared with what is usual, is not
known either: its factor has a log-normal prior, taken at a few points. Given the factor, the update of the rates is the one of a Kalman
filter; the points are weighted by how likely they make the changes seen. Source: kalman.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

_REACH, _STEPS = 2.0, 7
"""The factor of the process variance is taken at so many points, up to so many standard deviations of its logarithm on both sides."""

Vector = tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change between two measurements.

    *exposure* is how long each rate acted, *process* the usual process variance over that time, *change* what was measured, and *error* the
    variance of both measurements together.
    """

    exposure: Vector
    process: float
    change: float
    error: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RatePrior:
    """What is assumed before any change: mean and standard deviation of each rate.

    And of the factor of the process variance its median, and the standard deviation of its logarithm; 0 for a factor that is known.
    """

    means: Vector
    deviations: Vector
    factor_median: float = 1.0
    factor_deviation: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Given:
    """The rates for one factor of the process variance, with the weight of that factor."""

    factor: float
    weight: float
    means: Vector
    covariance: tuple[Vector, ...]

    def predicted(self, acting: Sequence[tuple[int, float]], process: float) -> tuple[float, float]:
        """Return mean and variance of a change; *acting* is its exposure without the rates that do not act."""
        mean = sum(self.means[at] * count for at, count in acting)
        spread = sum(self.covariance[at][other] * count * times for at, count in acting for other, times in acting)
        return mean, spread + self.factor * process


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """The rates as they are known after some changes."""

    given: tuple[_Given, ...]

    def predict(self, exposure: Vector, process: float) -> tuple[float, float]:
        """Return the mean and the variance of the true change over an exposure whose usual process variance is *process*."""
        acting = _acting(exposure)
        found = [(each.weight, *each.predicted(acting, process)) for each in self.given]
        mean = sum(weight * at for weight, at, _ in found)
        return mean, sum(weight * (variance + (at - mean) ** 2) for weight, at, variance in found)

    def rate(self, which: int) -> tuple[float, float]:
        """Return the mean and the standard deviation of one rate."""
        exposure = tuple(float(at == which) for at in range(len(self.given[0].means)))
        mean, variance = self.predict(exposure, 0.0)
        return mean, math.sqrt(variance)


def learned(changes: Sequence[Change], prior: RatePrior) -> Drift:
    """Return the rates after *changes*; without one they are the prior's.

    >>> known = RatePrior(means=(0.20,), deviations=(0.10,))
    >>> seen = Change(exposure=(3.0,), process=0.0, change=0.8, error=0.15**2 + 0.10**2)
    >>> [round(figure, 6) for figure in learned([seen], known).rate(0)]
    [0.24898, 0.051508]
    """
    acting = [_acting(change.exposure) for change in changes]
    points = []
    for factor, log_weight in _factors(prior):
        filtered = _Filter(prior, factor, log_weight)
        for change, counts in zip(changes, acting, strict=True):
            filtered.add(change, counts)
        points.append(filtered)
    most = max(point.log_weight for point in points)
    weights = [math.exp(point.log_weight - most) for point in points]
    whole = sum(weights)
    return Drift(given=tuple(point.given(weight / whole) for weight, point in zip(weights, points, strict=True)))


def _factors(prior: RatePrior) -> list[tuple[float, float]]:
    """The points at which the factor is taken, each with the logarithm of its prior weight."""
    if prior.factor_deviation == 0:
        return [(prior.factor_median, 0.0)]
    places = [_REACH * (2 * at / (_STEPS - 1) - 1) for at in range(_STEPS)]
    return [(prior.factor_median * math.exp(prior.factor_deviation * place), -(place**2) / 2) for place in places]


class _Filter:
    """The rates for one factor of the process variance as changes are added, and the logarithm of the weight of that factor."""

    def __init__(self, prior: RatePrior, factor: float, log_weight: float) -> None:
        self._factor, self.log_weight = factor, log_weight
        self._means = list(prior.means)
        squares = [deviation**2 for deviation in prior.deviations]
        self._covariance = [
            [square if row == column else 0.0 for column in range(len(squares))] for row, square in enumerate(squares)
        ]

    def add(self, seen: Change, acting: Sequence[tuple[int, float]]) -> None:
        """Learn from one change; *acting* is its exposure without the rates that did not act."""
        if len(acting) == 1:
            self._add_alone(seen, *acting[0])
            return
        towards = [sum(row[at] * count for at, count in acting) for row in self._covariance]
        variance = sum(towards[at] * count for at, count in acting) + seen.error + self._factor * seen.process
        if variance <= 0:
            return
        off = seen.change - sum(self._means[at] * count for at, count in acting)
        self._learn(towards, variance, off)

    def _add_alone(self, seen: Change, at: int, count: float) -> None:
        """The same for a change in which only one rate acted, which most are."""
        towards = [row[at] * count for row in self._covariance]
        variance = towards[at] * count + seen.error + self._factor * seen.process
        if variance > 0:
            self._learn(towards, variance, seen.change - self._means[at] * count)

    def _learn(self, towards: Sequence[float], variance: float, off: float) -> None:
        """Move the rates by a change that was *off* what they make it."""
        self.log_weight -= (math.log(variance) + off * off / variance) / 2
        moved = [(at, step) for at, step in enumerate(towards) if step]
        for at, step in moved:
            gain = step / variance
            self._means[at] += gain * off
            row = self._covariance[at]
            for other, other_step in moved:
                row[other] -= gain * other_step

    def given(self, weight: float) -> _Given:
        """Return the rates as they are now, with the weight of their factor."""
        covariance = tuple(map(tuple, self._covariance))
        return _Given(factor=self._factor, weight=weight, means=tuple(self._means), covariance=covariance)


def _acting(exposure: Vector) -> list[tuple[int, float]]:
    return [(at, count) for at, count in enumerate(exposure) if count]
