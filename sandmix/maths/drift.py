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

_REACH, _STEPS = 2.0, 11
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

    def predicted(self, exposure: Vector, process: float) -> tuple[float, float]:
        towards = _times(self.covariance, exposure)
        return _dot(exposure, self.means), _dot(exposure, towards) + self.factor * process


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """The rates as they are known after some changes."""

    given: tuple[_Given, ...]

    def predict(self, exposure: Vector, process: float) -> tuple[float, float]:
        """Return the mean and the variance of the true change over an exposure whose usual process variance is *process*."""
        found = [(each.weight, *each.predicted(exposure, process)) for each in self.given]
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
    points = [_after(changes, prior, factor, log_weight) for factor, log_weight in _factors(prior)]
    most = max(log_weight for log_weight, _ in points)
    weights = [math.exp(log_weight - most) for log_weight, _ in points]
    whole = sum(weights)
    return Drift(
        given=tuple(
            _Given(factor=given.factor, weight=weight / whole, means=given.means, covariance=given.covariance)
            for weight, (_, given) in zip(weights, points, strict=True)
        )
    )


def _factors(prior: RatePrior) -> list[tuple[float, float]]:
    """The points at which the factor is taken, each with the logarithm of its prior weight."""
    if prior.factor_deviation == 0:
        return [(prior.factor_median, 0.0)]
    places = [_REACH * (2 * at / (_STEPS - 1) - 1) for at in range(_STEPS)]
    return [(prior.factor_median * math.exp(prior.factor_deviation * place), -(place**2) / 2) for place in places]


def _after(changes: Sequence[Change], prior: RatePrior, factor: float, log_weight: float) -> tuple[float, _Given]:
    """The rates after the changes for one factor, and the logarithm of the weight of that factor."""
    means = prior.means
    covariance = tuple(
        tuple(deviation**2 if row == column else 0.0 for column in range(len(means)))
        for row, deviation in enumerate(prior.deviations)
    )
    for seen in changes:
        towards = _times(covariance, seen.exposure)
        variance = _dot(seen.exposure, towards) + seen.error + factor * seen.process
        if variance <= 0:
            continue
        off = seen.change - _dot(seen.exposure, means)
        log_weight -= (math.log(variance) + off**2 / variance) / 2
        means = tuple(mean + step * off / variance for mean, step in zip(means, towards, strict=True))
        covariance = tuple(
            tuple(was - own * other / variance for was, other in zip(row, towards, strict=True))
            for row, own in zip(covariance, towards, strict=True)
        )
    return log_weight, _Given(factor=factor, weight=0.0, means=means, covariance=covariance)


def _dot(one: Vector, other: Vector) -> float:
    return sum(left * right for left, right in zip(one, other, strict=True))


def _times(matrix: tuple[Vector, ...], vector: Vector) -> Vector:
    return tuple(_dot(row, vector) for row in matrix)
