"""A straight line y = a + b x through readings with known errors in both, with a prior of its slope; and x from y along it.

The slope is positive, so its logarithm has the normal prior: a range such as 10 to 45 is a ratio each way, and a figure that is divided by the
slope keeps a likely range of one sign. `slope_grid` has the model.

Outliers: the point that is farthest from the line through all others is left out where it is more than three standard deviations from that line
(its own errors and those of the line together), and then the next; at most one in four, and only while four pieces of evidence are left. Where
what is kept still scatters more than its errors allow 19 times in 20, all errors grow by Birge's ratio √(χ²/degrees of freedom).
Source: errors_in_variables; birge_1932.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from sandmix.maths.slope_grid import Difference, LogNormal, Point, SlopeGrid, posterior
from sandmix.maths.statistics import TWO_SIGMA

FAR = 3.0
"""From so many standard deviations on, a point is left out (own choice: 1 in 370 readings of a normal spread)."""
ONE_IN = 4
LEAST_LEFT = 4
_HALVINGS = 24
"""So many that the end of a range is found to a millionth of its width."""
_Z_95 = 1.645


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line and how sure it is: the points and differences that were used, those left out, and the factor that their errors grew by.

    *slope* is the median; *prior_share* is the share of the information about ln b that is still the prior's (1 without any reading).
    """

    grid: SlopeGrid
    points: Sequence[Point]
    differences: Sequence[Difference]
    left_out: Sequence[Point | Difference]
    grown: float
    prior: LogNormal

    @property
    def slope(self) -> float:
        """The median slope."""
        return math.exp(self.grid.log_mean)

    @property
    def slope_band(self) -> tuple[float, float]:
        """The 95 % range of the slope."""
        side = TWO_SIGMA * self.grid.log_sd
        return math.exp(self.grid.log_mean - side), math.exp(self.grid.log_mean + side)

    @property
    def prior_share(self) -> float:
        """The precision of the prior over that of the posterior, both of ln b."""
        return min(1.0, (self.grid.log_sd / self.prior.log_sd) ** 2)

    def y_at(self, x: float) -> tuple[float, float]:
        """Return the line's y at *x*, and its 95 % half-width; there must be a point."""
        assert self.points
        off = x - self.grid.centre
        mean = sum(node.weight * (node.y_mean + node.slope * off) for node in self.grid.nodes)
        square = sum(
            node.weight * (node.y_variance + (node.y_mean + node.slope * off - mean) ** 2) for node in self.grid.nodes
        )
        return mean, TWO_SIGMA * math.sqrt(square)

    def x_from(self, y: float, y_sd: float) -> tuple[float, float, float]:
        """Return x where the line has *y*, read with the standard deviation *y_sd*: the median and both ends of the 95 % range.

        Inverse prediction with a flat prior of x; the errors of reading, height and slope all count. There must be a point.
        """
        assert self.points
        parts = [
            (
                node.weight,
                self.grid.centre + (y - node.y_mean) / node.slope,
                math.sqrt(y_sd**2 + node.y_variance) / node.slope,
            )
            for node in self.grid.nodes
        ]

        def below(x: float) -> float:
            return sum(weight * _normal((x - mean) / sd) for weight, mean, sd in parts)

        low = min(mean - 5 * sd for _, mean, sd in parts)
        high = max(mean + 5 * sd for _, mean, sd in parts)
        at_low, middle, at_high = (_solved(below, share, low, high) for share in (0.025, 0.5, 0.975))
        return middle, at_low, at_high


def fit(points: Sequence[Point], differences: Sequence[Difference], prior: LogNormal, spread: LogNormal) -> Line:
    """Return the line through *points* and *differences*; *prior* is that of the slope, *spread* that of how far the true x are spread.

    >>> exact = [Point(x=x, y=20 * x, x_sd=1e-6, y_sd=0.01) for x in (2.0, 3.0, 4.0)]
    >>> line = fit(exact, [], LogNormal.of_range(10, 45), LogNormal(median=0.5, log_sd=0.7))
    >>> round(line.slope, 2), round(line.x_from(60.0, 0.01)[0], 3), round(line.prior_share, 3)
    (20.0, 3.0, 0.0)
    """
    kept: list[Point] = list(points)
    moved: list[Difference] = list(differences)
    left_out: list[Point | Difference] = []
    most = (len(kept) + len(moved)) // ONE_IN
    grid = posterior(kept, moved, prior, spread)
    while len(left_out) < most and max(0, len(kept) - 1) + len(moved) > LEAST_LEFT - 1:
        far, at = _farthest(grid, moved, prior)
        if far <= FAR:
            break
        left_out.append(kept.pop(at) if at < len(kept) else moved.pop(at - len(kept)))
        grid = posterior(kept, moved, prior, spread)
    grown = _growth(grid, moved)
    if grown > 1:
        kept = [replace(point, x_sd=grown * point.x_sd, y_sd=grown * point.y_sd) for point in kept]
        moved = [replace(each, dx_sd=grown * each.dx_sd, dy_sd=grown * each.dy_sd) for each in moved]
        grid = posterior(kept, moved, prior, spread)
    return Line(grid=grid, points=kept, differences=moved, left_out=left_out, grown=grown, prior=prior)


def _farthest(grid: SlopeGrid, differences: Sequence[Difference], prior: LogNormal) -> tuple[float, int]:
    """The largest distance from the line through all others, in its standard deviations, and which reading has it.

    Deleted residuals of the weighted line at the median slope: r √w/√(1 − h), with h the leverage of the reading.
    """
    slope = math.exp(grid.log_mean)
    of_slope = 1 / (slope * prior.log_sd) ** 2
    weights = [1 / (y_variance + slope**2 * x_variance) for _, _, x_variance, y_variance in grid.shrunken]
    whole = sum(weights)
    mean = sum(w * row[0] for w, row in zip(weights, grid.shrunken, strict=True)) / whole if weights else 0.0
    of_slope += sum(w * (row[0] - mean) ** 2 for w, row in zip(weights, grid.shrunken, strict=True))
    of_slope += sum(each.dx**2 / each.variance(slope) for each in differences)
    height = sum(w * (row[1] - slope * row[0]) for w, row in zip(weights, grid.shrunken, strict=True))
    height = height / whole if weights else 0.0
    distances = []
    for weight, (x, y, _, _) in zip(weights, grid.shrunken, strict=True):
        leverage = weight * (1 / whole + (x - mean) ** 2 / of_slope)
        distances.append(_deleted(y - height - slope * x, weight, leverage))
    for each in differences:
        weight = 1 / each.variance(slope)
        distances.append(_deleted(each.dy - slope * each.dx, weight, weight * each.dx**2 / of_slope))
    farthest = max(range(len(distances)), key=lambda at: distances[at])
    return distances[farthest], farthest


def _deleted(residual: float, weight: float, leverage: float) -> float:
    return abs(residual) * math.sqrt(weight / max(1e-9, 1 - leverage))


def _growth(grid: SlopeGrid, differences: Sequence[Difference]) -> float:
    """Birge's ratio where what is kept scatters more than its errors allow 19 times in 20, else 1."""
    freedom = len(grid.shrunken) + len(differences) - 2
    if freedom < 1:
        return 1.0
    slope = math.exp(grid.log_mean)
    rows = [(y - slope * x, 1 / (y_variance + slope**2 * x_variance)) for x, y, x_variance, y_variance in grid.shrunken]
    height = sum(left * weight for left, weight in rows) / sum(weight for _, weight in rows) if rows else 0.0
    square = sum(weight * (left - height) ** 2 for left, weight in rows)
    square += sum((each.dy - slope * each.dx) ** 2 / each.variance(slope) for each in differences)
    return math.sqrt(square / freedom) if square > chi_square_95(freedom) else 1.0


def chi_square_95(freedom: int) -> float:
    """Return the 95th percentile of chi-square by the cube-root approximation of Wilson and Hilferty (from memory).

    Holds for: within 2 % from one degree of freedom on.

    >>> [round(chi_square_95(freedom), 2) for freedom in (1, 5, 20)]
    [3.75, 11.04, 31.4]
    """
    part = 2 / (9 * freedom)
    return freedom * (1 - part + _Z_95 * math.sqrt(part)) ** 3


def _normal(z: float) -> float:
    return 0.5 * math.erfc(-z / math.sqrt(2))


def _solved(below: Callable[[float], float], share: float, low: float, high: float) -> float:
    """Where a rising function of x reaches *share*, by bisection."""
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if below(middle) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2
