"""How the water of a heap moves on days that nobody records, and what the person's own tests teach about it.

Until the book has three tests with days before them, the own rule counts: after d days the ± is √(±₀² + 0.3² d) points under a lid and
√(±₀² + d) in the open, and the moisture itself stays. From then on each test teaches how fast this heap dries under each cover, and how evenly: what
the book had before the test, less what was read, is a change over the days since the water was known.

Where an entry says in which air the heap stood open, the loss is computed from it instead (`drying/evaporation.py`), give or take a factor of 2.
Tests then teach how many times as much this heap loses.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from sandmix.drying.evaporation import RATE_FACTOR, SPREAD_KG_M3, Bed, lost_kg_m2
from sandmix.drying.moist_air import Air
from sandmix.language.timestamps import DAY_S
from sandmix.materials.sand import Sand
from sandmix.maths.drift import Change, Drift, RatePrior, learned
from sandmix.maths.statistics import TWO_SIGMA

LID, OPEN, AIR = "lid", "open", "air"
COVERS = (LID, OPEN, AIR)
"""How a heap may be kept: under a lid, in the open, or in the open in air that is known; each has a rate of its own."""
USUAL_PCT = {LID: 0.3, OPEN: 1.0, AIR: 0.3}
"""By how many points the moisture may move in one day, 19 times in 20 (own rule); in known air on top of what is computed."""
PRIOR = {LID: (0.02, 0.04), OPEN: (0.2, 0.2), AIR: (1.0, math.log(RATE_FACTOR) / TWO_SIGMA)}
"""Mean and standard deviation of each rate: points a day under a lid and in the open (own choice), and in known air times what is computed."""
FACTOR_MEDIAN, FACTOR_DEVIATION = 0.4, 1.6
"""How unevenly a heap moves, as a variance next to that of the own rule, which is on the wide side: the median, and the standard deviation of
the logarithm (own choice)."""
ENOUGH_MOVES = 3
"""From so many changes under a cover on, the book goes by them (own choice)."""
LEAST_DAYS = 0.25
"""Two tests closer together teach nothing about days."""
DEEPEST_M, MUD = 1.0, 0.5
"""Deeper or wetter sand counts as this where its drying is computed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """How the heap is kept from a time on: in the open, or under a lid; in the open perhaps in known air, with its open surface in m²."""

    at_s: float
    open: bool
    air: Air | None = None
    area_m2: float = 0.0

    @property
    def kind(self) -> str:
        """Which rate counts."""
        return LID if not self.open else AIR if self.air and self.area_m2 > 0 else OPEN

    def computed_pct(self, hours: float, sand: Sand | None) -> float:
        """Return the points that *sand* loses in the known air in so many hours, at most all that it has."""
        if self.air is None or sand is None or sand.dry_kg <= 0:
            return 0.0
        depth_m = min(DEEPEST_M, sand.dry_kg / SPREAD_KG_M3 / self.area_m2)
        lost = lost_kg_m2(hours, self.air, Bed(depth_m=depth_m, moisture=min(MUD, sand.moisture_pct_wet / 100)))
        water_kg = max(0.0, sand.water_kg - max(0.0, lost) * self.area_m2)
        return sand.moisture_pct_wet - 100 * water_kg / (sand.dry_kg + water_kg)


_NO_TIME = (0.0,) * len(COVERS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """For how many days the water of a heap moved unrecorded, in the order of ``COVERS``, and how much that counts for the rate of each.

    Under a lid and in the open a day counts as one; in known air what counts is the points that were computed.
    """

    days: tuple[float, ...] = _NO_TIME
    counts: tuple[float, ...] = _NO_TIME

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


def exposure(known_at_s: float | None, covers: Sequence[Cover], now_s: float, sand: Sand | None = None) -> Exposure:
    """Return how long the water moved since it was known, under each cover; a heap of which nothing else is said is under a lid.

    *sand* is the heap as the book has it, for what known air takes from it.

    >>> exposure(0.0, [Cover(at_s=10 * DAY_S, open=True)], 14 * DAY_S).days
    (10.0, 4.0, 0.0)
    """
    if known_at_s is None or now_s <= known_at_s:
        return Exposure()
    days, counts = dict.fromkeys(COVERS, 0.0), dict.fromkeys(COVERS, 0.0)
    first, last = Cover(at_s=known_at_s, open=False), Cover(at_s=now_s, open=False)
    for cover, following in pairwise([first, *sorted(covers, key=lambda cover: cover.at_s), last]):
        spell = (min(following.at_s, now_s) - max(cover.at_s, known_at_s)) / DAY_S
        if spell > 0:
            days[cover.kind] += spell
            counts[cover.kind] += cover.computed_pct(24 * spell, sand) if cover.kind == AIR else spell
    return Exposure(days=tuple(days.values()), counts=tuple(counts.values()))


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
    """Return how fast this heap dries under each cover, after the changes of its own tests."""
    return _rates(tuple(moves))


@lru_cache(maxsize=64)
def _rates(moves: tuple[Move, ...]) -> Drift:
    changes = [
        Change(
            exposure=move.exposure.counts,
            process=move.exposure.process(),
            change=move.lost_pct,
            error=move.error_pct2,
        )
        for move in moves
    ]
    known = seen(moves)
    there = [PRIOR[cover] if cover in known or cover == AIR else (0.0, 0.0) for cover in COVERS]
    prior = RatePrior(
        means=tuple(mean for mean, _ in there),
        deviations=tuple(deviation for _, deviation in there),
        factor_median=FACTOR_MEDIAN if known else 1.0,
        factor_deviation=FACTOR_DEVIATION if known else 0.0,
    )
    return learned(changes, prior)


def expected(moves: Sequence[Move], now: Exposure) -> Expected:
    """Return what the days of an exposure have probably done to the moisture; a cover that the book has not seen goes by the own rule.

    A heap that is left alone makes no water. Where its tests read more and more, the moisture stays, and the gain only widens the range.
    """
    if not now.total_days:
        return Expected()
    known = seen(moves)
    mean, variance = rates(moves).predict(now.counts, now.process(known))
    unknown = [cover for cover in COVERS if cover not in known]
    gained = max(0.0, -mean)
    return Expected(lost_pct=max(0.0, mean), variance_pct2=variance + gained**2 + now.process(unknown))
