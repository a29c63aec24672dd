"""Tempering: how much water a heap needs or must lose, and the verdict in one word.

Symbols: H the heap as it lies, m its moisture, t the target, both as shares of wet mass. Its dry mass stays: H (1 - m) / (1 - t) is
the heap at the target, so the water to add is H (t - m) / (1 - t), and not H (t - m). Source: mass_balance.
"""

from __future__ import annotations

import itertools
import math
from statistics import NormalDist

from sandmix.maths.statistics import TWO_SIGMA, is_above

GO_BAND = 0.3
"""How far from the target, in points of moisture, still counts as *go* (own choice: the spread between handfuls)."""

FIRST_WATER = 0.70
"""Share of the water to add that goes in first (own choice); mull, rest and test, then add the rest."""

SURE_PCT = 0.5
"""A moisture known to this ± or better stands for itself (own choice: √2 times the ± of a usual test)."""

WIDE_PCT = 1.0
"""A moisture known no better than this decides nothing (own choice)."""

LIKELY = 0.6
"""A verdict stands where it is right with at least this probability (own choice)."""

_FLOAT_NOISE = 1e-9


def water_to_add_kg(heap_kg: float, moisture: float, target: float) -> float:
    """Return the water, in kg, that brings *heap_kg* from *moisture* to *target* (fractions of wet mass); below 0, the heap must lose that much.

    >>> round(water_to_add_kg(25, 0.0179, 0.035), 3)
    0.443
    """
    return heap_kg * (target - moisture) / (1 - target)


def dry_mix_to_dilute_kg(heap_kg: float, moisture: float, target: float) -> float:
    """Return the bone-dry mix of the heap's own composition, in kg, that brings a heap that is too wet to *target*; no water is lost.

    Below 0 for a heap that is drier than the target.
    """
    return heap_kg * (moisture / target - 1)


def verdict(moisture_pct_wet: float, target_moisture_pct_wet: float, red_moisture_pct_wet: float) -> str:
    """Return one word: *stop* where the moisture or the target is above the metal's red limit, else *dry*, *temper* or *go* by their distance."""
    if is_above(max(moisture_pct_wet, target_moisture_pct_wet), red_moisture_pct_wet):
        return "stop"
    off = moisture_pct_wet - target_moisture_pct_wet
    if abs(off) <= GO_BAND + _FLOAT_NOISE:
        return "go"
    return "dry" if off > 0 else "temper"


def borders_pct(target_moisture_pct_wet: float, red_moisture_pct_wet: float) -> tuple[float, float, float]:
    """Return the moistures at which the verdict changes."""
    return target_moisture_pct_wet - GO_BAND, target_moisture_pct_wet + GO_BAND, red_moisture_pct_wet


def verdicts_within(
    low_pct: float, high_pct: float, target_moisture_pct_wet: float, red_moisture_pct_wet: float
) -> tuple[str, ...]:
    """Return all verdicts that a moisture between *low_pct* and *high_pct* can have, from the driest to the wettest."""
    inside = [
        border for border in borders_pct(target_moisture_pct_wet, red_moisture_pct_wet) if low_pct < border < high_pct
    ]
    ends = sorted([low_pct, *inside, high_pct])
    middles = [(lower + upper) / 2 for lower, upper in itertools.pairwise(ends)]
    return tuple(dict.fromkeys(verdict(value, target_moisture_pct_wet, red_moisture_pct_wet) for value in middles))


def chance(
    moisture_pct_wet: float, half_width_pct: float, target_moisture_pct_wet: float, red_moisture_pct_wet: float
) -> float:
    """Return the probability, 0 to 1, that the verdict on a moisture with a 95 % half-width is that of the true moisture, taken as normal.

    >>> round(chance(3.5, 0.588, 3.5, 6.0), 3), chance(2.0, 0.0, 3.5, 6.0)
    (0.683, 1.0)
    """
    if half_width_pct <= 0:
        return 1.0
    low, high, red = borders_pct(target_moisture_pct_wet, red_moisture_pct_wet)
    ends = {"temper": (-math.inf, low), "go": (low, high), "dry": (high, red), "stop": (red, math.inf)}
    from_pct, to_pct = ends[verdict(moisture_pct_wet, target_moisture_pct_wet, red_moisture_pct_wet)]
    true = NormalDist(moisture_pct_wet, half_width_pct / TWO_SIGMA)
    return max(0.0, true.cdf(to_pct) - true.cdf(from_pct))


def decides(
    moisture_pct_wet: float, half_width_pct: float, target_moisture_pct_wet: float, red_moisture_pct_wet: float
) -> bool:
    """Return whether a moisture with its 95 % half-width is known well enough to go by its verdict, or should be tested first."""
    if half_width_pct <= SURE_PCT or half_width_pct > WIDE_PCT:
        return half_width_pct <= SURE_PCT
    return chance(moisture_pct_wet, half_width_pct, target_moisture_pct_wet, red_moisture_pct_wet) >= LIKELY
