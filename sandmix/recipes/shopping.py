"""Whole bags to buy, and what is left of them."""

from __future__ import annotations

from sandmix.recipes.mix import whole_up


def bags(needed_kg: float, bag_kg: float, usable_share: float = 1.0) -> int:
    """Return how many whole bags are needed for *needed_kg*, where *usable_share* of a bag is left after screening.

    >>> bags(53.6, 20), bags(53.6, 20, 0.7)
    (3, 4)
    """
    return whole_up(needed_kg / usable_share / bag_kg)


def left_kg(needed_kg: float, bag_kg: float, count: int, usable_share: float = 1.0) -> float:
    """Return what is left of *count* bags after screening and use, in kg."""
    return max(0.0, count * bag_kg * usable_share - needed_kg)
