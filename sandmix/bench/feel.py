"""A squeezed handful in words, turned into a moisture: by what such words usually mean, and by a person's own tests as they come in.

A word is one of five classes from dry to wet. The chance of each at a moisture follows an ordered logistic regression. Its prior is what the words
usually mean for sand with 6 to 9 % clay: cut points at 2.3, 3.0, 4.2 and 5.5 % of the wet mass, each with a standard deviation of 0.6 points, and one
offset of the person for all of them of 0.5 (from memory); and how sharply a person tells moistures apart, 5 ± 4 logits a point (own choice: a
scatter of about 0.4 points from handful to handful). One handful in fifty is taken as misjudged altogether (own choice).

From word to moisture by Bayes's rule on a grid: what is known of the moisture without the word, times the chance of the word at each moisture.
Sources: feel_words, feel_classes, mccullagh_1980.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import accumulate

from sandmix.maths.ordered_regression import OrderedFit, Prior, fit
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.symmetric import cholesky, inverse

FEELS: Mapping[str, str] = {
    "crumbles": "crumbles: falls apart",
    "weak": "weak: breaks at a touch",
    "prints": "holds with finger prints",
    "shiny": "shiny or sticky",
    "leaves_water": "leaves water",
}
"""The five words from dry to wet, each with what the open hand shows."""
BY_SQUEEZE: Mapping[str, str] = {"falls": "crumbles", "crumbles": "weak", "clean": "prints", "sticky": "shiny"}
"""The word that is nearest to each of the four of the squeeze test."""
ORDER = tuple(FEELS)
CUTS_PCT = (2.3, 3.0, 4.2, 5.5)
"""The moistures, in % of the wet mass, at which one word usually gives way to the next (feel_words)."""
CUT_SD, OFFSET_SD = 0.6, 0.5
"""How far one cut point, and all of a person's together, are from those, as standard deviations in points (feel_words)."""
STEEP, STEEP_SD = 5.0, 2.0
"""How sharply a person tells moistures apart, in logits a point: mean and standard deviation (own choice)."""
GAPS = 0.1
"""The gap weight of the prior: just enough to keep the cut points in order (own choice)."""
CENTRE_PCT = 3.5
MISJUDGED = 0.02
"""The share of handfuls that are taken as misjudged altogether: any word, whatever the moisture (own choice)."""
USUAL_PCT, USUAL_SD = 4.0, 1.5
"""The moisture of a heap of which nothing is known, in % of the wet mass: mean and standard deviation (own choice: most are at 2 to 6 %)."""
CONTRADICTS = 0.025
"""A word contradicts what is known of the moisture if it, or one further out, comes less often than this (own choice)."""
POINTS, REACH = 101, 4.5
"""The points of the grid, and how many standard deviations it reaches to each side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One handful: its word as a place in ``ORDER``, and the moisture of the same sand, in % of the wet mass, with its test's standard deviation."""

    feel: int
    moisture_pct_wet: float
    sd_pct: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of a moisture without the handful: a normal distribution, in % of the wet mass."""

    mean_pct: float = USUAL_PCT
    sd_pct: float = USUAL_SD

    @property
    def grid(self) -> list[float]:
        """The moistures of the grid, evenly spaced, none below 0."""
        low, high = max(0.0, self.mean_pct - REACH * self.sd_pct), self.mean_pct + REACH * self.sd_pct
        return [low + (high - low) * at / (POINTS - 1) for at in range(POINTS)]

    def density(self, moisture_pct: float) -> float:
        """Return the density at a moisture, without its factor."""
        return math.exp(-(((moisture_pct - self.mean_pct) / self.sd_pct) ** 2) / 2)


NOTHING_KNOWN = Known()


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A moisture from a handful, in % of the wet mass: median and 95 % range; and how often to expect such a word, or one further out."""

    moisture_pct_wet: float
    low_pct: float
    high_pct: float
    expected: float

    @property
    def contradicts(self) -> bool:
        """Whether the word contradicts what was known of the moisture."""
        return self.expected < CONTRADICTS


@cache
def prior() -> Prior:
    """Return the prior of the slope and the four cut points, in logits, with x = moisture − 3.5 %.

    The cut points scatter about slope × (usual cut point − 3.5), so their moistures do not depend on the slope.
    """
    usual = [cut - CENTRE_PCT for cut in CUTS_PCT]
    scatter = [
        [STEEP**2 * (OFFSET_SD**2 + (CUT_SD**2 if one == two else 0.0)) for two in range(len(usual))]
        for one in range(len(usual))
    ]
    lower = cholesky(scatter)
    assert lower is not None, "a covariance of independent parts is positive definite"
    sure = inverse(lower)
    with_slope = [-sum(part * cut for part, cut in zip(row, usual, strict=True)) for row in sure]
    slope = 1 / STEEP_SD**2 - sum(part * cut for part, cut in zip(with_slope, usual, strict=True))
    precision = [[slope, *with_slope], *([part, *row] for part, row in zip(with_slope, sure, strict=True))]
    return Prior(mean=(STEEP, *(STEEP * cut for cut in usual)), precision=precision, gaps=GAPS)


@cache
def usual_words() -> OrderedFit:
    """Return what the words mean for a person of whom nothing is known."""
    return fit([], [], len(ORDER), prior())


def rows(pairs: Sequence[Pair]) -> list[tuple[float]]:
    """Return the x of each pair."""
    return [(pair.moisture_pct_wet - CENTRE_PCT,) for pair in pairs]


def own_words(pairs: Sequence[Pair]) -> OrderedFit:
    """Return what the words mean for a person with these *pairs*."""
    return fit(rows(pairs), [pair.feel for pair in pairs], len(ORDER), prior()) if pairs else usual_words()


def chances(words: OrderedFit, feel: int, moistures: Sequence[float], shift_pct: float = 0.0) -> list[float]:
    """Return the chance of a word at each moisture; *shift_pct* is a further uncertainty of all cut points, as a standard deviation in points."""
    more = (words.slopes[0] * shift_pct) ** 2
    of_all = MISJUDGED / len(ORDER)
    curve = words.curve(feel, [moisture - CENTRE_PCT for moisture in moistures], more)
    return [(1 - MISJUDGED) * chance + of_all for chance in curve]


def judge(words: OrderedFit, feel: int, known: Known = NOTHING_KNOWN, shift_pct: float = 0.0) -> Judged:
    """Return the moisture of a handful of the word *feel*, by Bayes's rule on a grid over what is *known* without it."""
    grid = known.grid
    before = [known.density(moisture) for moisture in grid]
    after = [weight * chance for weight, chance in zip(before, chances(words, feel, grid, shift_pct), strict=True)]
    low, middle, high = (quantile(grid, after, part) for part in (0.025, 0.5, 0.975))
    return Judged(
        moisture_pct_wet=middle, low_pct=low, high_pct=high, expected=_expected(words, feel, grid, before, shift_pct)
    )


def _expected(words: OrderedFit, feel: int, grid: Sequence[float], before: Sequence[float], shift_pct: float) -> float:
    """How often this word or a drier one comes, or this or a wetter one, whichever is less; misjudged handfuls apart."""
    more = (words.slopes[0] * shift_pct) ** 2
    xs, weights = [moisture - CENTRE_PCT for moisture in grid[::4]], before[::4]
    whole = sum(weights)
    drier = [1.0] * len(xs) if feel == len(ORDER) - 1 else words.up_to(feel, xs, more)
    below = [0.0] * len(xs) if feel == 0 else words.up_to(feel - 1, xs, more)
    shares = [sum(weight * part for weight, part in zip(weights, each, strict=True)) / whole for each in (drier, below)]
    return min(shares[0], 1 - shares[1])


def quantile(grid: Sequence[float], weights: Sequence[float], part: float) -> float:
    """Return the point of an evenly spaced grid below which *part* of the weights lie, each weight spread evenly about its point.

    >>> quantile([0.0, 1.0, 2.0], [1.0, 2.0, 1.0], 0.5)
    1.0
    """
    step = grid[1] - grid[0]
    summed = [0.0, *accumulate(weights)]
    wanted = part * summed[-1]
    at = next((one for one, total in enumerate(summed[1:]) if total >= wanted), len(grid) - 1)
    inside = (wanted - summed[at]) / weights[at] if weights[at] > 0 else 0.5
    return min(max(grid[at] + (inside - 0.5) * step, grid[0]), grid[-1])


def of_band(middle_pct: float, half_width_pct: float) -> Known:
    """Return what is known from a moisture with its 95 % half-width; never surer than 0.1 points (own choice)."""
    return Known(mean_pct=middle_pct, sd_pct=max(0.1, half_width_pct / TWO_SIGMA))
