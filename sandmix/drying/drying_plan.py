"""The plan for a heap that is too wet: the layer to spread, how long it dries, when to turn it, a burner, and a dry mix to dilute it.

Symbols: H the heap, M1 its moisture, M2 the target, both as fractions of the wet mass, L the water to lose, D a bone-dry mix as the heap is
composed, P the part of the heap that is dried out fully.
Drying alone: L = H (M1 − M2)/(1 − M2). With D mixed in: L = (H M1 − M2 (H + D))/(1 − M2), a straight line between drying alone and diluting
alone. Air costs nothing and the mix does, so the cheapest plan that is ready in time dries as long as there is time and mixes in the rest; the
fastest one mixes in all that there is. Drying out one part and mixing it back: P M1 = L.
Turning mixes the layer, so a new dry layer begins: with n turns the same loss takes n + 1 stages, each faster than one long one.
Sources: mass_balance, evaporation; heat_to_dry for the burner.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from sandmix.drying.evaporation import Bed, DryingLaw
from sandmix.maths.statistics import without_noise

WATER_MJ_KG = 2.6
"""Heat that warms a kg of water from room temperature and boils it off."""
SAND_MJ_KGK = 1.13e-3
"""Heat that warms a kg of dry sand by a K."""
WARMED_K = 80.0
"""From room temperature to boiling."""
WORTH_A_TURN_S = 3600.0
"""A turn is worth its work if it saves so much time (own choice)."""
MOST_TURNS = 6
_NOISE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """How long a layer dries: how often it is turned, and the seconds in all."""

    turns: int
    seconds: float


def water_to_lose_kg(heap_kg: float, moisture: float, target: float, dry_mix_kg: float = 0.0) -> float:
    """Return the water, in kg, that *heap_kg* must lose to reach *target* when *dry_mix_kg* is mixed in; below 0, it needs water.

    >>> round(water_to_lose_kg(40.0, 0.06, 0.035), 4), abs(round(water_to_lose_kg(40.0, 0.06, 0.035, 200 / 7), 4))
    (1.0363, 0.0)
    """
    return (heap_kg * moisture - target * (heap_kg + dry_mix_kg)) / (1 - target)


def dry_mix_for_kg(heap_kg: float, moisture: float, target: float, lost_kg: float) -> float:
    """Return the bone-dry mix, in kg, that brings the heap to *target* after it has lost *lost_kg* of water; 0 where it needs none.

    >>> round(dry_mix_for_kg(40.0, 0.06, 0.035, 0.0), 2), dry_mix_for_kg(40.0, 0.06, 0.035, 1.1)
    (28.57, 0.0)
    """
    left_kg = without_noise(water_to_lose_kg(heap_kg, moisture, target) - lost_kg, lost_kg)
    return max(0.0, left_kg * (1 - target) / target)


def layer_m(heap_kg: float, moisture: float, area_m2: float, dry_kg_m3: float) -> float:
    """Return how deep *heap_kg* lies on *area_m2*, in m."""
    return heap_kg * (1 - moisture) / (dry_kg_m3 * area_m2)


def area_m2(heap_kg: float, moisture: float, depth_m: float, dry_kg_m3: float) -> float:
    """Return the area that *heap_kg* covers *depth_m* deep, in m²."""
    return heap_kg * (1 - moisture) / (dry_kg_m3 * depth_m)


def to_lose_kg_m2(bed: Bed, target: float) -> float:
    """Return the water that a m² of *bed* must lose to reach *target*, in kg; 0 where it is dry enough."""
    return bed.dry_kg_m3 * bed.depth_m * max(0.0, bed.water - target / (1 - target))


def seconds_to_dry(law: DryingLaw, bed: Bed, target: float, turns: int) -> float | None:
    """Return the seconds until *bed* is at *target* when it is turned *turns* times, each time after the same loss; None where it never is.

    >>> law = DryingLaw(surface_kg_m2s=1e-5, slowness=((0.0, 1e5), (0.03, 6e5)))
    >>> bed = Bed(depth_m=0.03, moisture=0.045)
    >>> seconds_to_dry(law, bed, 0.03, 1) < seconds_to_dry(law, bed, 0.03, 0)
    True
    """
    need_kg_m2 = to_lose_kg_m2(bed, target)
    return seconds_to_lose(law, bed, need_kg_m2, need_kg_m2 / (turns + 1))


def seconds_to_lose(law: DryingLaw, bed: Bed, lost_kg_m2: float, stage_kg_m2: float) -> float | None:
    """Return the seconds until a m² of *bed* has lost *lost_kg_m2*, turned after each loss of *stage_kg_m2*; None where it never has."""
    total, gone_kg_m2 = 0.0, 0.0
    while gone_kg_m2 < lost_kg_m2 * (1 - _NOISE):
        water = bed.water - gone_kg_m2 / (bed.dry_kg_m3 * bed.depth_m)
        stage = min(stage_kg_m2, lost_kg_m2 - gone_kg_m2)
        took = law.seconds_to_lose(stage, replace(bed, moisture=water / (1 + water)))
        if took is None:
            return None
        total += took
        gone_kg_m2 += stage
    return total


def wait(law: DryingLaw, bed: Bed, target: float) -> Wait | None:
    """Return how long *bed* dries to *target* with as many turns as are worth it; None where this air never gets it there.

    Another turn is worth it if it saves at least ``WORTH_A_TURN_S``; at most ``MOST_TURNS``.
    """
    seconds = seconds_to_dry(law, bed, target, 0)
    if seconds is None:
        return None
    best = Wait(turns=0, seconds=seconds)
    for turns in range(1, MOST_TURNS + 1):
        turned = seconds_to_dry(law, bed, target, turns)
        if turned is None or best.seconds - turned < WORTH_A_TURN_S:
            break
        best = Wait(turns=turns, seconds=turned)
    return best


def lost_by_then_kg_m2(law: DryingLaw, bed: Bed, target: float, turns: int, seconds: float) -> float:
    """Return what a m² of *bed* has lost after *seconds* on its way to *target*, in kg, turned *turns* times: the inverse of `seconds_to_dry`.

    At most what it must lose, and below 0 where water condenses on it.
    """
    need_kg_m2 = to_lose_kg_m2(bed, target)
    lost = 0.0
    for _ in range(turns + 1):
        water = bed.water - lost / (bed.dry_kg_m3 * bed.depth_m)
        stage = replace(bed, moisture=water / (1 + water))
        gone = min(need_kg_m2 / (turns + 1), law.lost_kg_m2(seconds, stage))
        took = law.seconds_to_lose(gone, stage)
        lost += gone
        if took is None or took >= seconds:
            break
        seconds -= took
    return lost


def part_to_dry_out_kg(lose_kg: float, moisture: float) -> float:
    """Return the part of the heap, in kg, that brings the rest to the target when it is dried out fully and mixed back.

    >>> round(part_to_dry_out_kg(1.0363, 0.06), 2)
    17.27
    """
    return lose_kg / moisture


def burner_mj(lose_kg: float, moisture: float) -> float:
    """Return the heat that dries out that part, in MJ: for its water, and for its sand up to boiling. What a burner loses comes on top."""
    dry_kg = part_to_dry_out_kg(lose_kg, moisture) * (1 - moisture)
    return WATER_MJ_KG * lose_kg + SAND_MJ_KGK * WARMED_K * dry_kg
