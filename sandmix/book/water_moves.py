"""How the water of a heap moves on days that nobody records, and what the person's own tests teach about it.

Until the book has three tests with days before them, the own rule counts: after d days the ± is √(±₀² + 0.3² d) points under a lid and
√(±₀² + d) in the open, and the moisture itself stays. From then on each test teaches how fast this heap dries under each cover, and how evenly: what
the book had before the test, less what was read, is a change over the days since the water was known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from sandmix.language.timestamps import DAY_S
from sandmix.maths.drift import Change, Drift, RatePrior, learned
from sandmix.maths.statistics import TWO_SIGMA

LID, OPEN = "lid", "open"
COVERS = (LID, OPEN)
"""How a heap may be kept; each has a rate of its own."""
USUAL_PCT = {LID: 0.3, OPEN: 1.0}
"""By how many points the moisture may move in one day, 19 times in 20 (own rule)."""
PRIOR_PCT = {LID: (0.02, 0.04), OPEN: (0.2, 0.2)}
"""Points that a heap loses a day, and their standard deviation, from the first own change on (own choice)."""
FACTOR_MEDIAN, FACTOR_DEVIATION = 0.4, 1.6
"""How unevenly a heap moves, as a variance next to that of the own rule, which is on the wide side: the median, and the standard deviation of
the logarithm (own choice)."""
ENOUGH_MOVES = 3
"""From so many changes under a cover on, the book goes by them (own choice)."""
LEAST_DAYS = 0.25
"""Two tests closer together teach nothing about days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """How the heap is kept from a time on: in the open, or under a lid."""

    at_s: float
    open: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """For how many days the water of a heap moved unrecorded, under each cover."""

    days: tuple[float, ...] = (0.0,) * len(COVERS)

    @property
    def total_days(self) -> float:
        """All days together."""
        return sum(self.days)

    def process(self, covers: Sequence[str] = COVERS) -> float:
        """Return the variance that is usual for the days under some covers, in points²."""
        return sum(
            (USUAL_PCT[cover] / TWO_SIGMA) ** 2 * days
            for cover, days in zip(COVERS, self.days, strict=True)
            if cover in covers
        )


def exposure(known_at_s: float | None, covers: Sequence[Cover], now_s: float) -> Exposure:
    """Return how long the water moved since it was known, under each cover; a heap of which nothing else is said is under a lid.

    >>> exposure(0.0, [Cover(at_s=10 * DAY_S, open=True)], 14 * DAY_S).days
    (10.0, 4.0)
    """
    if known_at_s is None or now_s <= known_at_s:
        return Exposure()
    days = dict.fromkeys(COVERS, 0.0)
    spells = sorted(covers, key=lambda cover: cover.at_s)
    starts = [(known_at_s, LID), *((cover.at_s, OPEN if cover.open else LID) for cover in spells)]
    for (start_s, cover), (end_s, _) in pairwise([*starts, (now_s, LID)]):
        days[cover] += max(0.0, min(end_s, now_s) - max(start_s, known_at_s)) / DAY_S
    return Exposure(days=tuple(days.values()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One change of the moisture between two tests, in points (above 0 for a loss), its variance, and the exposure in which it happened."""

    exposure: Exposure
    lost_pct: float
    error_pct2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What the days have probably done to a moisture: the loss in points, and its variance in points²."""

    lost_pct: float = 0.0
    variance_pct2: float = 0.0


def seen(moves: Sequence[Move]) -> tuple[str, ...]:
    """Return the covers under which the book has seen the moisture change often enough."""
    return tuple(
        cover for at, cover in enumerate(COVERS) if sum(move.exposure.days[at] > 0 for move in moves) >= ENOUGH_MOVES
    )


def rates(moves: Sequence[Move]) -> Drift:
    """Return how fast this heap dries under each cover, in points a day, after the changes of its own tests."""
    changes = [
        Change(
            exposure=move.exposure.days,
            process=move.exposure.process(),
            change=move.lost_pct,
            error=move.error_pct2,
        )
        for move in moves
    ]
    known = seen(moves)
    prior = RatePrior(
        means=tuple(PRIOR_PCT[cover][0] if cover in known else 0.0 for cover in COVERS),
        deviations=tuple(PRIOR_PCT[cover][1] if cover in known else 0.0 for cover in COVERS),
        factor_median=FACTOR_MEDIAN if known else 1.0,
        factor_deviation=FACTOR_DEVIATION if known else 0.0,
    )
    return learned(changes, prior)


def expected(moves: Sequence[Move], now: Exposure) -> Expected:
    """Return what the days of an exposure have probably done to the moisture; a cover that the book has not seen goes by the own rule."""
    known = seen(moves)
    mean, variance = rates(moves).predict(now.days, now.process(known))
    unknown = [cover for cover in COVERS if cover not in known]
    return Expected(lost_pct=mean, variance_pct2=variance + now.process(unknown))
