"""Tempering: how much water a heap wants or must lose, and the one word that follows.

Symbols: H the heap as it lies, m its moisture, t the target, both as shares of wet mass. Its dry mass stays: H (1 - m) / (1 - t) is
the heap at the target, so the water to add is H (t - m) / (1 - t), and not H (t - m). Source: mass_balance.
"""

from __future__ import annotations

GO_BAND = 0.3
"""How far from the target, in points of moisture, still counts as *go* (own choice: the scatter between handfuls)."""


def water_to_add_kg(heap_kg: float, moisture: float, target: float) -> float:
    """Return the water, in kg, that brings *heap_kg* from *moisture* to *target* (fractions of wet mass); below 0 it must lose that much.

    >>> round(water_to_add_kg(25, 0.0179, 0.035), 3)
    0.443
    """
    return heap_kg * (target - moisture) / (1 - target)


def dry_mix_to_dilute_kg(heap_kg: float, moisture: float, target: float) -> float:
    """Return the bone-dry mix of the heap's own composition, in kg, that brings a too wet heap to *target* with its water kept."""
    return max(0.0, heap_kg * (moisture / target - 1))


def verdict(moisture_pct_wet: float, target_moisture_pct_wet: float, red_moisture_pct_wet: float) -> str:
    """Return one word: *stop* above the metal's red limit, else *dry*, *temper* or *go* by the distance from the target."""
    if moisture_pct_wet > red_moisture_pct_wet:
        return "stop"
    if moisture_pct_wet > target_moisture_pct_wet + GO_BAND:
        return "dry"
    if moisture_pct_wet < target_moisture_pct_wet - GO_BAND:
        return "temper"
    return "go"


def nearest_border_pct(moisture_pct_wet: float, target_moisture_pct_wet: float, red_moisture_pct_wet: float) -> float:
    """Return how far, in points, *moisture_pct_wet* is from the nearest value at which the verdict changes."""
    borders = (red_moisture_pct_wet, target_moisture_pct_wet + GO_BAND, target_moisture_pct_wet - GO_BAND)
    return min(abs(moisture_pct_wet - border) for border in borders)
