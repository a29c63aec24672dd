"""Restoring used sand: how much of a heap to keep, and the sand, clay and water that bring it to its target.

The exact plan for one sand, one clay, water and discard. Symbols, as fractions: k share of the heap that is kept, D_h and D_t dry mass
of the heap and of the target, c live clay, d dead fines, a live share of the dry clay product, index t for the target.
Clay product, dry: x = (D_t c_t - k D_h c) / a. Sand, dry: s = D_t - k D_h - x. Dead fines: k D_h d + (1 - a) x <= D_t d_limit.
Each of x >= 0, s >= 0 and the last is a line in k, so the most of the heap that all of them allow is the end of an interval. The line at that
end is the limit that binds. Without a wanted mass the target is what the whole heap grows to: D_t = D_h + x with k = 1 and s = 0, or
D_t = D_h c / c_t where the heap is richer in clay than the target. Source: mass_balance.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.materials.sand import Sand, water_at
from sandmix.maths.statistics import without_noise
from sandmix.recipes.mix import BoughtMaterials

NOTHING, MASS, LIVE_CLAY, DEAD_FINES = "nothing", "mass", "live_clay", "dead_fines"
LEAST_DISCARD = 1e-9
"""A smaller share of the heap is not discarded: it is only rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The target sand: wet mass in kg, live clay as a fraction of dry, moisture of wet, and the limit on dead fines of dry (None: no limit)."""

    wet_kg: float
    clay: float
    moisture: float
    dead_fines_limit: float | None = None

    @property
    def dry_kg(self) -> float:
        """Dry mass, in kg."""
        return self.wet_kg * (1 - self.moisture)


@dataclass(frozen=True, slots=True, kw_only=True)
class RestoringPlan:
    """What any plan does with the heap, in kg: what to discard as it lies, and the water.

    ``water_balance_kg`` is the water to add, or below 0 to dry off; ``after`` is the sand that results, ``binding`` what forces the discard.
    """

    discard_kg: float
    water_balance_kg: float
    after: Sand
    discarded: Sand
    binding: str = NOTHING


@dataclass(frozen=True, slots=True, kw_only=True)
class RebondPlan(RestoringPlan):
    """The plan with one sand and one clay, in kg as bought."""

    sand_kg: float
    clay_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfReach:
    """No share of the heap meets the limit on dead fines: the least dead fines, as a fraction of dry, that could be reached."""

    least_dead_fines: float


def plan(heap: Sand, target: Target, materials: BoughtMaterials) -> RebondPlan | OutOfReach:
    """Return the plan that keeps the most of *heap*, or why there is none.

    For a target clay up to ``clay_activity`` clay and mass always allow a plan, and only dead fines can forbid it; above that there is no plan.
    A heap that is only too wet is not discarded: it loses water.
    """
    if target.clay > materials.clay_activity:
        return OutOfReach(least_dead_fines=math.inf)
    least, most, binding = _kept_shares(_lines(heap, target, materials))
    if most < 0 or least > most * (1 + 1e-9):
        return OutOfReach(least_dead_fines=_least_dead_fines(heap, target, materials))
    return _weigh(heap, target, materials, most, binding)


def grown_kg(heap: Sand, *, clay: float, moisture: float, activity: float) -> float | None:
    """Return the mass, in kg at *moisture*, that the whole *heap* has at the target *clay* once only what that needs is added.

    None where no amount of sand or clay brings the whole heap to it. *clay* is a fraction of the dry mass, *activity* the live share of the dry
    clay product.

    >>> round(grown_kg(Sand(grain_kg=95, live_clay_kg=5), clay=0.07, moisture=0.0, activity=1.0), 4)
    102.1505
    """
    missing = without_noise(clay * heap.dry_kg - heap.live_clay_kg, heap.live_clay_kg)
    if missing > 0:
        dry = heap.dry_kg + missing / (activity - clay) if activity > clay else math.inf
    else:
        dry = heap.live_clay_kg / clay if clay > 0 else heap.dry_kg if missing == 0 else math.inf
    return dry / (1 - moisture) if math.isfinite(dry) else None


def diluted_kg(heap: Sand, target: Target, materials: BoughtMaterials) -> float | None:
    """Return the least mass, in kg at the target moisture, at which the whole *heap* is within the limit on dead fines; None where none is."""
    idle = (1 - materials.clay_activity) / materials.clay_activity
    limit = target.dead_fines_limit or 0.0
    room = without_noise(limit - idle * target.clay, limit)
    dead = heap.dead_clay_kg + heap.other_fines_kg - idle * heap.live_clay_kg
    return max(target.wet_kg, dead / room / (1 - target.moisture)) if room > 0 else None


def _kept_shares(lines: Iterable[tuple[str, float, float]]) -> tuple[float, float, str]:
    """The least and the most of the heap that all *lines*, ``slope * k <= bound``, allow, and the line that limits the most."""
    least, most, binding = 0.0, 1.0, NOTHING
    for name, slope, bound in lines:
        if slope > 0 and bound / slope < most * (1 - LEAST_DISCARD):
            most, binding = bound / slope, name
        elif slope < 0:
            least = max(least, bound / slope)
        elif slope == 0 and bound < 0:
            most, binding = -1.0, name
    return least, most, binding


def _lines(heap: Sand, target: Target, materials: BoughtMaterials) -> list[tuple[str, float, float]]:
    activity, dry = materials.clay_activity, target.dry_kg
    live_wanted = dry * target.clay
    lines = [
        (LIVE_CLAY, heap.live_clay_kg, live_wanted),
        (MASS, heap.dry_kg - heap.live_clay_kg / activity, dry - live_wanted / activity),
    ]
    if target.dead_fines_limit is not None:
        idle = (1 - activity) / activity
        dead = heap.dead_clay_kg + heap.other_fines_kg
        lines.append((DEAD_FINES, dead - idle * heap.live_clay_kg, dry * target.dead_fines_limit - idle * live_wanted))
    return lines


def _weigh(heap: Sand, target: Target, materials: BoughtMaterials, kept_share: float, binding: str) -> RebondPlan:
    kept = heap.scaled(kept_share)
    wanted = target.dry_kg * target.clay
    live = max(0.0, without_noise(wanted - kept.live_clay_kg, wanted + kept.live_clay_kg))
    clay_dry = live / materials.clay_activity
    sand_dry = target.dry_kg - kept.dry_kg - clay_dry
    sand = materials.sand(0.0 if sand_dry < 1e-9 * target.dry_kg else sand_dry)
    clay = materials.clay(clay_dry)
    mixed = kept + sand + clay
    needed = water_at(target.dry_kg, target.moisture)
    water = without_noise(needed - mixed.water_kg, needed + mixed.water_kg)
    return RebondPlan(
        discard_kg=heap.wet_kg * (1 - kept_share),
        sand_kg=sand.wet_kg,
        clay_kg=clay.wet_kg,
        water_balance_kg=water,
        after=mixed.wet(water),
        discarded=heap.scaled(1 - kept_share),
        binding=binding,
    )


def _least_dead_fines(heap: Sand, target: Target, materials: BoughtMaterials) -> float:
    """The dead fines, as a fraction of dry, of the cleanest sand that meets clay and mass; it is at one end of what clay and mass allow."""
    without = Target(wet_kg=target.wet_kg, clay=target.clay, moisture=target.moisture)
    shares = _kept_shares(_lines(heap, without, materials))[:2]
    return min(_weigh(heap, without, materials, share, NOTHING).after.dead_fines_pct_dry for share in shares) / 100
