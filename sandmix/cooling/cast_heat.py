"""The heat of a cast as the heap book counts it, from solutions that casts which are nearly alike share.

How deep the clay dies, how much sand dries and when the metal is solid depend on the water of the sand and on the modulus, both smoothly. They are
solved at a few of either (`cooling/`) and taken as straight between them, so a book of thousands of casts needs only some tens of solutions.
Beside a solution of the cast itself, depths are within 4 % or 0.05 moduli, and times within 1 %. The rough cells alone make the depth that dries
jump by up to 6 % from one moisture to the next.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from sandmix.cooling.burnout import HeatedMould
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import ROUGH, Case
from sandmix.materials.metals import thermal
from sandmix.materials.sands_and_clays import CLAYS, SANDS_FOR_HEAT

WATER_STEP = 0.01
"""The water, in kg for each kg of dry sand, is solved at multiples of this (own choice)."""
MODULI_A_DOUBLING = 2
"""So many moduli are solved for each doubling (own choice)."""
_KEPT = 4096
_SODIUM_LIMIT_C = CLAYS["sodium_bentonite"].limit_c


@dataclass(frozen=True, slots=True, kw_only=True)
class CastHeat:
    """What the heat of a plate does: three depths in mm, and the time until the middle is solid, in s.

    The depths are of sand past the limit of the clay, of sand whose clay dies by rate, and of sand that dries.
    """

    limit_mm: float
    rate_mm: float
    dry_mm: float
    freeze_s: float


def cast_heat(metal: str, pour_temp_c: float, water: float, modulus_mm: float, contact_w_m2k: float) -> CastHeat:
    """Return what the heat of a cast does to sand with *water*, in kg for each kg of dry sand, between the solutions around it."""
    limit_mm = rate_mm = dry_mm = freeze_s = 0.0
    for modulus, by_modulus in _around_modulus(modulus_mm):
        for step, by_water in _around(water / WATER_STEP):
            limit, rate, dry, freeze = _solved(metal, pour_temp_c, WATER_STEP * step, modulus, contact_w_m2k)
            share = by_modulus * by_water * modulus_mm
            limit_mm, rate_mm, dry_mm = limit_mm + share * limit, rate_mm + share * rate, dry_mm + share * dry
            freeze_s += share * freeze
    return CastHeat(limit_mm=limit_mm, rate_mm=rate_mm, dry_mm=dry_mm, freeze_s=freeze_s)


def _around(at: float) -> Iterator[tuple[int, float]]:
    """The whole numbers around a number, each with its weight."""
    below = math.floor(at)
    yield below, 1 - (at - below)
    if at > below:
        yield below + 1, at - below


def _around_modulus(modulus_mm: float) -> Iterator[tuple[float, float]]:
    """The moduli around a modulus, each with its weight."""
    below = math.floor(MODULI_A_DOUBLING * math.log2(modulus_mm))
    low, high = (2.0 ** (each / MODULI_A_DOUBLING) for each in (below, below + 1))
    share = min(1.0, max(0.0, (modulus_mm - low) / (high - low)))
    yield low, 1 - share
    if share:
        yield high, share


@lru_cache(maxsize=_KEPT)
def _solved(
    metal: str, pour_temp_c: float, water: float, modulus_mm: float, contact_w_m2k: float
) -> tuple[float, float, float, float]:
    """The three depths for each mm of the modulus, and the time, which is straight enough for each mm of it."""
    case = Case(
        metal=thermal(metal),
        pour_temp_c=pour_temp_c,
        sand=SANDS_FOR_HEAT["a"],
        water=water,
        shape_n=0.0,
        modulus_mm=modulus_mm,
        contact_w_m2k=contact_w_m2k,
    )
    cooling = cool(case, ROUGH)
    assert _SODIUM_LIMIT_C is not None
    assert cooling.freeze_s is not None, "a casting in sand deeper than its heat always freezes"
    rate_mm = 1000 * HeatedMould(cooling=cooling, area_m2=1.0).burnt_by_rate_kg() / case.sand.density_kg_m3
    depths_mm = (cooling.depth_past_mm(_SODIUM_LIMIT_C), rate_mm, cooling.dry_depth_mm)
    limit, rate, dry = (depth_mm / modulus_mm for depth_mm in depths_mm)
    return limit, rate, dry, cooling.freeze_s / modulus_mm
