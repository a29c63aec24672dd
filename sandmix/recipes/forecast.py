"""How the live clay and the dead clay of a heap change from cast to cast if each cast is alike, and where both end.

A cast: the share b of the live clay burns; the share f of the burnt clay stays in the heap; then the share n of the heap, with everything in it, is
replaced by new sand, which includes the clay that is made up. With make-up the live clay c returns to its first value each time. All shares of clay
are percents of the dry mass. Source: mass_balance.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

MOST_CASTS = 1_000_000
"""How many casts ahead a limit is searched."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """What each cast does; shares are fractions from 0 to 1."""

    burnt: float
    replaced: float
    kept: float
    make_up: bool


def casts(habit: Habit, clay_pct_dry: float, dead_clay_pct_dry: float = 0.0) -> Iterator[tuple[float, float]]:
    """Yield live and dead clay, in percent of the dry mass, after each cast, without end.

    >>> habit = Habit(burnt=0.5, replaced=0.5, kept=1.0, make_up=True)
    >>> steps = casts(habit, 8.0)
    >>> next(steps), next(steps)
    ((8.0, 2.0), (8.0, 3.0))
    """
    clay, dead = clay_pct_dry, dead_clay_pct_dry
    stays = 1 - habit.replaced
    while True:
        dead = stays * (dead + habit.kept * habit.burnt * clay)
        clay = clay if habit.make_up else clay * (1 - habit.burnt) * stays
        yield clay, dead


def after(habit: Habit, clay_pct_dry: float, count: int, dead_clay_pct_dry: float = 0.0) -> tuple[float, float]:
    """Return live and dead clay after *count* casts, in percent of the dry mass, in closed form."""
    stays, survives = 1 - habit.replaced, 1 - habit.burnt
    brought = habit.kept * habit.burnt * clay_pct_dry
    began = dead_clay_pct_dry * stays**count
    if not habit.make_up:
        lived: float = survives**count
        return clay_pct_dry * (survives * stays) ** count, began + habit.kept * clay_pct_dry * (
            1 - lived
        ) * stays**count
    if habit.replaced == 0:
        return clay_pct_dry, began + brought * count
    left = 1.0 if stays == 0 else -math.expm1(count * math.log1p(-habit.replaced))
    return clay_pct_dry, began + brought * stays * left / habit.replaced


def steady(habit: Habit, clay_pct_dry: float, dead_clay_pct_dry: float = 0.0) -> tuple[float, float | None]:
    """Return live and dead clay in the long run, in percent of the dry mass; None where dead clay grows until it fills the heap."""
    if habit.make_up:
        brought = habit.kept * habit.burnt * clay_pct_dry
        if habit.replaced == 0:
            return clay_pct_dry, None if brought > 0 else dead_clay_pct_dry
        dead = (1 - habit.replaced) * brought / habit.replaced
        return clay_pct_dry, dead if clay_pct_dry + dead <= 100 * (1 + 1e-9) else None
    ends = 0.0 if habit.burnt > 0 or habit.replaced > 0 else clay_pct_dry
    if habit.replaced > 0:
        return ends, 0.0
    return ends, dead_clay_pct_dry + (habit.kept * clay_pct_dry if habit.burnt > 0 else 0.0)


def make_up_pct(habit: Habit, clay_pct_dry: float) -> float:
    """Return the live clay, per 100 of the dry heap, that each cast needs to stay at *clay_pct_dry*: c (b + n − b n).

    >>> round(make_up_pct(Habit(burnt=0.02, replaced=0.03, kept=1.0, make_up=True), 8.0), 4)
    0.3952
    """
    return clay_pct_dry * (habit.burnt + habit.replaced - habit.burnt * habit.replaced)


def casts_until(habit: Habit, clay_pct_dry: float, limit_pct_dry: float, dead_clay_pct_dry: float = 0.0) -> int | None:
    """Return after how many casts dead clay is at *limit_pct_dry*; 0 if it is there already, None if it never is.

    >>> casts_until(Habit(burnt=0.5, replaced=0.5, kept=1.0, make_up=True), 8.0, 3.0)
    2
    """
    noise = 1e-9 * max(1.0, limit_pct_dry)

    def reached(count: int) -> bool:
        return after(habit, clay_pct_dry, count, dead_clay_pct_dry)[1] >= limit_pct_dry - noise

    if reached(0):
        return 0
    for top in _highest_at(habit, clay_pct_dry, dead_clay_pct_dry):
        if reached(top):
            low, high = 0, top
            while high - low > 1:
                middle = (low + high) // 2
                low, high = (low, middle) if reached(middle) else (middle, high)
            return high
    return None


def _highest_at(habit: Habit, clay_pct_dry: float, dead_clay_pct_dry: float) -> tuple[int, ...]:
    """The casts after which dead clay may be highest, at most MOST_CASTS; up to the first of them it only rises, or only falls."""
    if habit.make_up or not (0 < habit.burnt < 1 and 0 < habit.replaced < 1):
        return (MOST_CASTS,) if habit.make_up or habit.burnt < 1 else (1,)
    falls, lives = math.log1p(-habit.replaced), math.log1p(-habit.burnt)
    killed = habit.kept * clay_pct_dry
    still_rising = killed * (falls + lives)
    if still_rising == 0 or (dead_clay_pct_dry + killed) * falls == 0:
        return (MOST_CASTS,)
    peak = math.log((dead_clay_pct_dry + killed) * falls / still_rising) / lives
    within = min(max(1.0, peak), MOST_CASTS)
    return math.floor(within), math.ceil(within)


def replaced_for_limit(habit: Habit, clay_pct_dry: float, limit_pct_dry: float) -> float:
    """Return the share to replace at each cast that keeps dead clay at *limit_pct_dry* in the long run, with make-up: f b c/(limit + f b c)."""
    brought = habit.kept * habit.burnt * clay_pct_dry
    return brought / (limit_pct_dry + brought) if brought > 0 else 0.0


def clay_for_limit_pct_dry(habit: Habit, limit_pct_dry: float) -> float:
    """Return the live clay, in percent of the dry mass, with which dead clay ends at *limit_pct_dry*, with make-up."""
    brought = (1 - habit.replaced) * habit.kept * habit.burnt
    return limit_pct_dry * habit.replaced / brought if brought > 0 else math.inf
