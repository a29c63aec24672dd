"""Whether a person's own words for a handful may be used to dose water: checked on the person's own tests, each left out in turn.

Each pair of a word and a tested moisture is predicted from all others, without what the book knows. The words may dose (own rule) if

- there are at least 8 pairs, with at least 3 different words among them;
- at least 85 % of the tested moistures are in the 95 % range that was predicted for them;
- the predictions are better than those of the usual words, without own pairs: by the mean logarithm of the density at the tested moisture;
- and they tell something: by the same mean, they are at least 0.2 better than no word at all.

Only the last 40 pairs count, since people learn. Source: own; the mean logarithm is the usual logarithmic score.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from sandmix.bench.feel import NOTHING_KNOWN, ORDER, Known, Pair, chances, own_words, prior, rows, usual_words
from sandmix.maths.ordered_regression import OrderedFit, each_left_out

LEAST_PAIRS, LEAST_WORDS, MOST_PAIRS = 8, 3, 40
LEAST_INSIDE = 0.85
LEAST_TOLD = 0.2
"""How much better than no word at all the words must be, as the mean logarithm of the density (own choice)."""
FAR = 5.0
"""So many standard deviations from a point of the grid, its weight no longer counts at the tested moisture."""
_GRID = NOTHING_KNOWN.grid[::2]
_STEP = _GRID[1] - _GRID[0]
_KNOWN = [NOTHING_KNOWN.density(moisture) for moisture in _GRID]


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """What leaving out each pair in turn shows: how many pairs and different words, the share of tests in their ranges, and both mean differences.

    ``inside``, ``gain`` (compared with the usual words) and ``told`` (compared with no word) are None without two pairs.
    """

    pairs: int
    words: int
    inside: float | None = None
    gain: float | None = None
    told: float | None = None

    @property
    def has_enough(self) -> bool:
        """Whether there are enough pairs and different words to judge by."""
        return self.pairs >= LEAST_PAIRS and self.words >= LEAST_WORDS

    @property
    def is_honest(self) -> bool:
        """Whether enough tests were in their ranges."""
        return self.inside is not None and self.inside >= LEAST_INSIDE

    @property
    def is_better(self) -> bool:
        """Whether own pairs make the words better than the usual ones."""
        return self.gain is not None and self.gain > 0

    @property
    def tells(self) -> bool:
        """Whether the words tell more than no word."""
        return self.told is not None and self.told >= LEAST_TOLD

    @property
    def may_dose(self) -> bool:
        """Whether the words may be used to dose water."""
        return self.has_enough and self.is_honest and self.is_better and self.tells


def check(pairs: Sequence[Pair], words: OrderedFit | None = None) -> Check:
    """Return the check of the last 40 of *pairs*; *words* is their fit, if it is there already."""
    pairs = pairs[-MOST_PAIRS:]
    different = len({pair.feel for pair in pairs})
    if len(pairs) < 2:
        return Check(pairs=len(pairs), words=different)
    whole = own_words(pairs) if words is None else words
    without = each_left_out(rows(pairs), [pair.feel for pair in pairs], len(ORDER), prior(), whole)
    inside, gain, told = 0, 0.0, 0.0
    for pair, rest in zip(pairs, without, strict=True):
        score, place = _predicted(tuple(_after(rest, pair.feel)), pair)
        inside += 0.025 <= place <= 0.975
        gain += score - _predicted(_usual(pair.feel), pair)[0]
        told += score - _score_of_nothing(pair)
    count = len(pairs)
    return Check(pairs=count, words=different, inside=inside / count, gain=gain / count, told=told / count)


def _after(words: OrderedFit, feel: int) -> list[float]:
    """The weights of the grid after a word, of a heap of which nothing else is known; they add up to 1."""
    weights = [before * chance for before, chance in zip(_KNOWN, chances(words, feel, _GRID), strict=True)]
    whole = sum(weights)
    return [weight / whole for weight in weights]


@cache
def _usual(feel: int) -> tuple[float, ...]:
    return tuple(_after(usual_words(), feel))


def _predicted(weights: Sequence[float], pair: Pair) -> tuple[float, float]:
    """The logarithm of the density at the tested moisture, and the chance of a lower test; both count the error of the test."""
    sd = math.hypot(pair.sd_pct, _STEP / 2)
    first, last = (
        min(len(_GRID), max(0, math.ceil((pair.moisture_pct_wet + side * FAR * sd - _GRID[0]) / _STEP)))
        for side in (-1, 1)
    )
    density, below = 0.0, sum(weights[:first])
    for at in range(first, last):
        off = (pair.moisture_pct_wet - _GRID[at]) / sd
        density += weights[at] * math.exp(-off * off / 2)
        below += weights[at] * (1 + math.erf(off / math.sqrt(2))) / 2
    return math.log(max(density, 1e-300) / (sd * math.sqrt(2 * math.pi))), below


def _score_of_nothing(pair: Pair) -> float:
    known = Known(sd_pct=math.hypot(NOTHING_KNOWN.sd_pct, pair.sd_pct))
    return math.log(max(known.density(pair.moisture_pct_wet), 1e-300) / (known.sd_pct * math.sqrt(2 * math.pi)))
