"""Ordered logistic regression: from some numbers x to the chance of each of several classes that have an order, with a normal prior.

P(class ≤ k) = F(cut_k − x·β), F(u) = 1/(1 + e^−u). The cut points must increase. The prior is normal on slopes and cut points together; its
gap weight w adds w Σ log(cut_{k+1} − cut_k), which keeps two cut points apart where no class between them was seen. The log-likelihood is concave
in slopes and cut points, and so is the prior: Newton's method with halved steps finds the one mode. The posterior is taken as normal about the mode,
with the inverse of the curvature there as its covariance (Laplace). Sources: mccullagh_1980, pratt_1981.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from sandmix.language.errors import SandmixError
from sandmix.maths.symmetric import Matrix, Vector, cholesky, inverse, solved

MOST_STEPS, MOST_HALVINGS = 100, 40
CLOSE_ENOUGH, NEAR = 1e-10, 1e-3
"""Newton's method ends where the expected gain in the log posterior, and the step, are less than this, relative to their sizes."""
FAR_APART = 35.0
"""Cut points that are so far apart in logits do not feel each other: e^−35 is below the rounding error."""
PROBIT = math.pi / 8
"""The mean of F over a normal variable of mean m and variance v is about F(m/√(1 + π v/8)), to within 0.02. Source: mackay_1992."""

Row = Sequence[float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Prior:
    """A normal prior of slopes and then cut points: its mean, its precision (inverse covariance; 0 where nothing is known), and the gap weight."""

    mean: Sequence[float]
    precision: Sequence[Sequence[float]]
    gaps: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderedFit:
    """The slopes and cut points of the mode, the log-likelihood there, and the covariance of slopes and cut points."""

    slopes: tuple[float, ...]
    cuts: tuple[float, ...]
    log_likelihood: float
    covariance: Matrix

    def chances(self, row: Row, more_variance: float = 0.0) -> list[float]:
        """Return the chance of each class at *row*, averaged over the uncertainty of the fit; *more_variance* is of all cut points together."""
        count, here = len(self.slopes), sum(x * slope for x, slope in zip(row, self.slopes, strict=True))
        below = [0.0]
        for at, cut in enumerate(self.cuts, start=count):
            own = self.covariance[at]
            variance = own[at] + more_variance
            for one, x in enumerate(row):
                variance -= 2 * x * own[one]
                variance += x * sum(other * self.covariance[one][two] for two, other in enumerate(row))
            below.append(max(below[-1], logistic((cut - here) / math.sqrt(1 + PROBIT * max(0.0, variance)))))
        return [high - low for low, high in pairwise([*below, 1.0])]

    def curve(self, kind: int, xs: Sequence[float], more_variance: float = 0.0) -> list[float]:
        """Return the chance of the class *kind* at each of *xs*, for a regression on one x: as `chances`, but many at once."""
        over, under = (
            self.up_to(at, xs, more_variance) if 0 <= at < len(self.cuts) else None for at in (kind, kind - 1)
        )
        if over is None:
            return [1.0 - low for low in under or [0.0] * len(xs)]
        return over if under is None else [max(0.0, high - low) for high, low in zip(over, under, strict=True)]

    def up_to(self, at: int, xs: Sequence[float], more_variance: float = 0.0) -> list[float]:
        """Return the chance of a class up to *at*, which is not the last, at each of *xs*, for a regression on one x."""
        (slope,), cut, covariance = self.slopes, self.cuts[at], self.covariance
        own = 1 + PROBIT * (covariance[at + 1][at + 1] + more_variance)
        shared, bend = -2 * PROBIT * covariance[at + 1][0], PROBIT * covariance[0][0]
        root, tanh = math.sqrt, math.tanh  # 1/(1 + e^u) = (1 − tanh(u/2))/2, which cannot overflow
        return [0.5 - 0.5 * tanh((slope * x - cut) / 2 / root(own + x * (shared + x * bend))) for x in xs]


def logistic(u: float) -> float:
    """Return 1/(1 + e^−u).

    >>> logistic(0.0), logistic(-800.0)
    (0.5, 0.0)
    """
    if u >= 0:
        return 1 / (1 + math.exp(-u))
    power = math.exp(max(u, -745.0))
    return power / (1 + power) if u > -745 else 0.0


def fit(rows: Sequence[Row], classes: Sequence[int], count: int, prior: Prior) -> OrderedFit:
    """Return the mode and its covariance for *rows* of x, each with its class from 0 to *count* − 1.

    Raises SandmixError where there is no single mode: without a prior, if a class was never seen or x separates the classes.
    """
    return _Problem(rows, classes, count, prior).fit()


def each_left_out(
    rows: Sequence[Row], classes: Sequence[int], count: int, prior: Prior, whole: OrderedFit
) -> Iterable[OrderedFit]:
    """Yield, for each row, the fit without it: one step of Newton's method from the fit of all rows, or a whole fit where that step breaks the order.

    With the curvature H of all rows at their mode, and of the row left out its gradient g and curvature h: θ − (H − h)⁻¹ g.
    """
    problem = _Problem(rows, classes, count, prior)
    point = [*whole.slopes, *whole.cuts]
    _, curvature = problem.slope_of(point)
    for at in range(len(rows)):
        gradient, own = problem.empty()
        problem.add_slope(at, point, gradient, own)
        rest = [[high - low for high, low in zip(*pair, strict=True)] for pair in zip(curvature, own, strict=True)]
        lower = cholesky(rest)
        moved = (
            point if lower is None else [old - step for old, step in zip(point, solved(lower, gradient), strict=True)]
        )
        if lower is None or not problem.in_order(moved):
            others = [row for one, row in enumerate(rows) if one != at]
            yield fit(others, [kind for one, kind in enumerate(classes) if one != at], count, prior)
        else:
            yield problem.found(moved, inverse(lower), math.nan)


class _Problem:
    """One regression: its rows, the classes, and its prior."""

    def __init__(self, rows: Sequence[Row], classes: Sequence[int], count: int, prior: Prior) -> None:
        self.rows, self.classes, self.count, self.prior = rows, classes, count, prior
        self.size = len(prior.mean)
        self.slopes = self.size - (count - 1)

    def fit(self) -> OrderedFit:
        """The mode by Newton's method. Near it one more step is exact to the square of its length, so the last step is taken as it is."""
        point = self._start()
        value = self._log_posterior(point)
        for _ in range(MOST_STEPS):
            gradient, curvature = self.slope_of(point)
            lower = cholesky(curvature)
            if lower is None:
                break
            step = solved(lower, gradient)
            gain = sum(one * other for one, other in zip(gradient, step, strict=True)) / 2
            is_near = all(abs(one) <= NEAR * (1 + abs(here)) for one, here in zip(step, point, strict=True))
            if is_near and gain <= CLOSE_ENOUGH * (1 + abs(value)):
                last, _ = self._stepped(point, step, value)
                return self.found(last, inverse(lower), self.log_likelihood(last))
            point, value = self._stepped(point, step, value)
        raise SandmixError("these classes have no single fit. Give more readings, or a prior.")

    def found(self, point: Vector, covariance: Matrix, log_likelihood: float) -> OrderedFit:
        return OrderedFit(
            slopes=tuple(point[: self.slopes]),
            cuts=tuple(point[self.slopes :]),
            log_likelihood=log_likelihood,
            covariance=covariance,
        )

    def _start(self) -> Vector:
        """The prior's mean if it has one of everything, else no slope and the cut points of the classes' shares."""
        if all(self.prior.precision[at][at] > 0 for at in range(self.size)) and self.in_order(self.prior.mean):
            return list(self.prior.mean)
        counted = [self.classes.count(kind) + 0.5 for kind in range(self.count)]
        whole, below, cuts = sum(counted), 0.0, []
        for many in counted[:-1]:
            below += many
            cuts.append(math.log(below / (whole - below)))
        return [0.0] * self.slopes + cuts

    def _stepped(self, point: Vector, step: Vector, value: float) -> tuple[Vector, float]:
        """The point after a step, halved until the cut points are in order and the log posterior has not fallen."""
        part = 1.0
        for _ in range(MOST_HALVINGS):
            moved = [old + part * one for old, one in zip(point, step, strict=True)]
            if self.in_order(moved) and (found := self._log_posterior(moved)) >= value - 1e-12 * abs(value):
                return moved, found
            part /= 2
        return point, value

    def in_order(self, point: Sequence[float]) -> bool:
        return all(low < high for low, high in pairwise(point[self.slopes :]))

    def _ends(self, at: int, point: Sequence[float]) -> tuple[float | None, float | None]:
        """The upper and the lower cut point of a row's class, both less x·β; None where it has none."""
        kind, here = self.classes[at], 0.0
        for one, x in enumerate(self.rows[at]):
            here += x * point[one]
        upper = None if kind == self.count - 1 else point[self.slopes + kind] - here
        return upper, None if kind == 0 else point[self.slopes + kind - 1] - here

    def log_likelihood(self, point: Sequence[float]) -> float:
        """F(u) − F(l) = F(u) F(−l) (1 − e^−(u − l)): no digits are lost however far out both are."""
        total = 0.0
        for at in range(len(self.rows)):
            upper, lower = self._ends(at, point)
            total += (_log_logistic(upper) if upper is not None else 0.0) + (
                _log_logistic(-lower) if lower is not None else 0.0
            )
            if upper is not None and lower is not None:
                total += math.log(-math.expm1(lower - upper))
        return total

    def _log_posterior(self, point: Sequence[float]) -> float:
        off = [here - mean for here, mean in zip(point, self.prior.mean, strict=True)]
        square = sum(
            one * sum(part * other for part, other in zip(row, off, strict=True))
            for one, row in zip(off, self.prior.precision, strict=True)
        )
        gaps = sum(math.log(high - low) for low, high in pairwise(point[self.slopes :])) if self.prior.gaps else 0.0
        return self.log_likelihood(point) - square / 2 + self.prior.gaps * gaps

    def empty(self) -> tuple[Vector, Matrix]:
        return [0.0] * self.size, [[0.0] * self.size for _ in range(self.size)]

    def slope_of(self, point: Sequence[float]) -> tuple[Vector, Matrix]:
        """The gradient of the log posterior, and its curvature (the Hessian with its sign changed), of which the lower triangle counts."""
        off = [here - mean for here, mean in zip(point, self.prior.mean, strict=True)]
        gradient = [-sum(part * one for part, one in zip(row, off, strict=True)) for row in self.prior.precision]
        curvature = [list(row) for row in self.prior.precision]
        if self.prior.gaps:
            for at in range(self.slopes, self.size - 1):
                inverse_gap = 1 / (point[at + 1] - point[at])
                push, bend = self.prior.gaps * inverse_gap, self.prior.gaps * inverse_gap * inverse_gap
                gradient[at] -= push
                gradient[at + 1] += push
                curvature[at][at] += bend
                curvature[at + 1][at + 1] += bend
                curvature[at + 1][at] -= bend
        for at in range(len(self.rows)):
            self.add_slope(at, point, gradient, curvature)
        return gradient, curvature

    def add_slope(self, at: int, point: Sequence[float], gradient: Vector, curvature: Matrix) -> None:
        """Add what one row brings to the gradient and to the lower triangle of the curvature."""
        upper, lower = self._ends(at, point)
        row, top = self.rows[at], self.slopes + self.classes[at]
        push, bend = 0.0, 0.0
        if upper is not None and lower is not None and upper - lower < FAR_APART:
            push = 1 / math.expm1(upper - lower)
            bend = push * (1 + push)
            curvature[top][top - 1] -= bend
        both_push, both_bend = 0.0, 0.0
        for end, place, sign in ((upper, top, 1.0), (lower, top - 1, -1.0)):
            if end is None:
                continue
            chance = logistic(end)
            pushed = sign * push + (1 - chance if sign > 0 else -chance)
            width = chance * (1 - chance)
            gradient[place] += pushed
            curvature[place][place] += width + bend
            both_push += pushed
            both_bend += width
            for one, x in enumerate(row):
                curvature[place][one] -= x * width
        for one, x in enumerate(row):
            gradient[one] -= x * both_push
            for two in range(one + 1):
                curvature[one][two] += x * row[two] * both_bend


def _log_logistic(u: float) -> float:
    return -math.log1p(math.exp(-u)) if u >= 0 else u - math.log1p(math.exp(u))
