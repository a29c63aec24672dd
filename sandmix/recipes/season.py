"""A season of casts: how much sand to replace so that dead fines stay within their limit, and what each way costs.

One cast as in `forecast`: clay burns, then the share u of the heap is replaced by new sand and clay, and live clay is back at c. The part of the clay
product that is not live, i c with i = (1 − a)/a, is always there, so dead fines are counted from it: D = d − i c, and D' = (1 − u)(D + Q) with
Q = b c (f + i). The limit is L in the same measure.

Sand, clay and discarded sand of a season depend on its shares u only through their sum, and none falls as it rises; nor does water, unless the
materials are bought damper than the heap, and water costs next to nothing. So from within the limit the cheapest season is the one with the least
sum, whatever the prices are. Sand that is replaced before the first cast needs a little more clay, as none of its clay has burnt yet: that is
counted, and the least sum is taken all the same. Three results are used; the tests compare them with a general minimiser:

1. The least equal share. D after N casts at u is s^N D0 + Q (s + ... + s^N) with s = 1 − u. Less L, it is a polynomial in s with one change of
   sign if D0 + Q >= 0, or with two of which one root is above 1. So by Descartes it has one root between 0 and 1 if it is above 0 at s = 1. D
   moves one way only from cast to cast, so between D0 <= L and D after N casts <= L it is never above L.
2. The least of all, from D0 <= L: keep all until the limit, then replace just enough at each cast. Any other way has D_k no higher at any cast, by
   induction. It has removed at least as much by each cast, and a unit removed costs 1/(D + Q) of a heap, no less than here; the price of a
   unit only falls from cast to cast here, so summing by parts no other way costs less.
3. From above the limit one replacement comes first, now, down to some level; then 2. Between two levels from which the limit is met exactly after
   a whole number of casts the cost is concave in the level, so the least is at one of these levels, and all of them are tried.

Source: mass_balance.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.maths.roots import rising_root
from sandmix.recipes.mix import BoughtMaterials

HABIT, EQUAL, WAIT, DUMP, DILUTE = "habit", "equal", "wait", "dump", "dilute"
_ROUNDING = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Heap:
    """The heap and what a cast does to it: dry mass in kg; all else as fractions.

    Live clay that is kept and dead fines now, of the dry mass; live clay burnt per cast and the share of it that stays; the share of the heap that is
    lost at each cast in any case; moisture of the wet mass.
    """

    dry_kg: float
    clay: float
    dead: float
    burnt: float
    kept: float
    lost: float
    moisture: float
    materials: BoughtMaterials

    @property
    def idle(self) -> float:
        """Dead fines that new sand brings with its clay, of the dry mass."""
        return self.clay * (1 - self.materials.clay_activity) / self.materials.clay_activity

    @property
    def grows(self) -> float:
        """Dead fines that a cast brings, of the dry mass: burnt clay that stays, and what comes with the clay that replaces it."""
        return self.burnt * self.clay * self.kept + self.burnt * self.idle


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """One way through the casts.

    ``now`` is the share replaced before the first cast, ``shares`` that at each cast, ``dead`` the dead fines at the start and after each cast (a
    fraction of the dry mass), ``times`` the size of the heap after it was diluted, as a multiple. As bought, in kg: sand and clay; water to add to
    them; the sand that leaves, as it lies.
    """

    way: str
    now: float
    shares: Sequence[float]
    dead: Sequence[float]
    times: float
    sand_kg: float
    clay_kg: float
    water_kg: float
    discard_kg: float

    @property
    def whole_heaps(self) -> float:
        """The sum of the shares replaced."""
        return self.now + math.fsum(self.shares)

    def above(self, limit: float) -> int:
        """Return after how many of the casts dead fines are above *limit*."""
        return sum(1 for dead in self.dead[1:] if dead > limit * (1 + 1e-9) + _ROUNDING)


def least_equal_share(start: float, grows: float, limit: float, casts: int, lost: float = 0.0) -> float:
    """Return the least share to replace at each of *casts* casts so that dead fines stay within *limit*, at least *lost*.

    All are counted from what new sand brings; *limit* must be above 0. From above the limit it is what keeps it once one replacement has met it.

    >>> round(least_equal_share(0.0, 1.0, 1.5, 2), 9)
    0.177124344
    """
    begins = min(start, limit)

    def left(stays: float) -> tuple[float, float]:
        dead, slope = begins, 0.0
        for _ in range(casts):
            slope = dead + grows + stays * slope
            dead = stays * (dead + grows)
        return dead - limit, slope

    if left(1 - lost)[0] <= _ROUNDING * limit:
        return lost
    return max(lost, 1 - rising_root(left, 0.0, 1 - lost, 1 - lost))


def most_burnt(heap: Heap, limit: float, casts: int) -> float | None:
    """Return the share of live clay that each of *casts* casts may burn while the losses alone keep the heap within *limit*.

    *limit* is a fraction of the dry mass. None where the heap is above it whatever is burnt, or where burning adds no dead fines. Up to this share a
    season needs less sand the more is burnt, because the clay put back takes its place; from there on it needs more.
    """
    stays, brings = 1 - heap.lost, heap.clay * heap.kept + heap.idle
    room = limit - heap.idle - stays**casts * (heap.dead - heap.idle)
    rounds = math.fsum(stays**at for at in range(1, casts + 1))
    return room / (rounds * brings) if room >= 0 and rounds * brings > 0 else None


def least_shares(
    start: float, grows: float, limit: float, casts: int, lost: float = 0.0
) -> tuple[float, tuple[float, ...]]:
    """Return the share to replace now and that at each cast, with the least sum that keeps dead fines within *limit*: results 2 and 3.

    >>> least_shares(0.0, 1.0, 2.0, 4)[1]
    (0.0, 0.0, 0.33333333333333337, 0.33333333333333337)
    """
    if start <= limit * (1 + _ROUNDING):
        return 0.0, _just_in_time(start, grows, limit, casts, lost)
    then = max(lost, grows / (limit + grows))
    tried = [(1.0 + math.fsum(_just_in_time(0.0, grows, limit, casts, lost)), 0.0)]
    level = limit
    for waits in range(casts + 1):
        tried.append((1 - level / start + waits * lost + (casts - waits) * then, level))
        level = level / (1 - lost) - grows if lost < 1 else 0.0
        if not 0 < level < limit:
            break
    level = min(tried)[1]
    return 1 - level / start, _just_in_time(level, grows, limit, casts, lost)


def _just_in_time(start: float, grows: float, limit: float, casts: int, lost: float) -> tuple[float, ...]:
    """Replace what is lost, and more only where dead fines would pass the limit."""
    shares, dead = [], start
    for _ in range(casts):
        full = dead + grows
        share = max(lost, 1 - limit / full) if full > 0 and full > limit * (1 + _ROUNDING) else lost
        shares.append(share)
        dead = (1 - share) * full
    return tuple(shares)


def _dumps(start: float, grows: float, limit: float, casts: int, lost: float) -> tuple[float, tuple[float, ...]]:
    """Replace what is lost, and the whole heap where dead fines would pass the limit."""
    now = 1.0 if start > limit * (1 + _ROUNDING) else 0.0
    shares, dead = [], start * (1 - now)
    for _ in range(casts):
        share = 1.0 if (1 - lost) * (dead + grows) > limit * (1 + _ROUNDING) else lost
        shares.append(share)
        dead = (1 - share) * (dead + grows)
    return now, tuple(shares)


def diluted_times(start: float, grows: float, limit: float, casts: int, lost: float = 0.0) -> float:
    """Return how many times its mass the heap must have so that no more than *lost*, of its old mass, is replaced at any cast; 1 if it may stay.

    A cast burns and loses the same mass in a heap of any size.

    >>> diluted_times(1.0, 0.5, 2.0, 10)
    3.0
    """

    def spare(times: float) -> float:
        """By how much dead fines at their worst are below the limit, in masses of the old heap."""
        dead, most = start, start
        for _ in range(casts):
            dead = (1 - lost / times) * (dead + grows)
            most = max(most, dead)
        return limit * times - most

    high = max(1.0, (max(start, 0.0) + casts * grows) / limit)
    if spare(1.0) >= -_ROUNDING * limit:
        return 1.0
    return rising_root(lambda times: (spare(times), limit), 1.0, high) if lost else high


def season(heap: Heap, way: str, limit: float, casts: int, habit: float) -> Season:
    """Return the season that goes one *way* through *casts* casts with *limit* on dead fines; *habit* is the share replaced today.

    The limit must be above what new sand brings. All shares are fractions of the dry mass.
    """
    start, most = heap.dead - heap.idle, limit - heap.idle
    now, times = 0.0, 1.0
    if way == HABIT:
        shares: tuple[float, ...] = (habit,) * casts
    elif way == EQUAL:
        now = max(0.0, 1 - most / start) if start > most else 0.0
        shares = (least_equal_share(start, heap.grows, most, casts, heap.lost),) * casts
    elif way == DUMP:
        now, shares = _dumps(start, heap.grows, most, casts, heap.lost)
    elif way == DILUTE:
        times = diluted_times(start, heap.grows, most, casts, heap.lost)
        shares = (heap.lost,) * casts
    else:
        now, shares = least_shares(start, heap.grows, most, casts, heap.lost)
    return _summed(heap, way, now, shares, times)


def _summed(heap: Heap, way: str, now: float, shares: tuple[float, ...], times: float) -> Season:
    """The masses of a season, and its dead fines cast by cast."""
    idle, grows = heap.idle, heap.grows / times
    dead = (1 - now) * (heap.dead - idle) / times
    path = [idle + dead]
    for share in shares:
        dead = (1 - share / times) * (dead + grows)
        path.append(idle + dead)
    replaced = now + math.fsum(shares)
    activity, came = heap.materials.clay_activity, replaced + times - 1
    product_kg = heap.dry_kg * heap.clay * (came - heap.burnt * math.fsum(shares) + heap.burnt * len(shares)) / activity
    sand = heap.materials.sand(max(0.0, heap.dry_kg * came - product_kg))
    clay = heap.materials.clay(product_kg)
    bought = sand + clay
    return Season(
        way=way,
        now=now,
        shares=shares,
        dead=tuple(path),
        times=times,
        sand_kg=sand.wet_kg,
        clay_kg=clay.wet_kg,
        water_kg=max(0.0, bought.water_at(heap.moisture) - bought.water_kg),
        discard_kg=heap.dry_kg * replaced / (1 - heap.moisture),
    )
