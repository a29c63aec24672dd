"""Doses: what goes in first, how much at most, and what it costs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sandmix.asking.form import F, Filled
from sandmix.asking.job import Computed, Figures, Lead, ToDo
from sandmix.maths.uncertainty import Band
from sandmix.recipes.temper import FIRST_WATER

FIRST_CLAY = 0.50
"""Share of the clay to add that goes in first (own choice)."""


def water_figures(balance_kg: float) -> Figures:
    """Return the figures of a water balance (target less present): what to add, the first dose, and what to lose."""
    return {"water_kg": balance_kg, "first_water_kg": FIRST_WATER * balance_kg, "water_to_lose_kg": 0.0 - balance_kg}


def most_water(filled: Filled[F], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the most water in all: the high end of the band of the water to add."""
    return {"water_most_kg": doubt["water_kg"][1]} if "water_kg" in doubt else {}


def dried(figures: Figures, wet_kg: float) -> Figures:
    """Return what sand of *wet_kg* weighs when it has lost its water to lose; left out where there is none to lose."""
    lose_kg = figures.get("water_to_lose_kg")
    return {"dried_kg": wet_kg - lose_kg} if isinstance(lose_kg, float) and lose_kg > 0 else {}


def at_most(computed: Computed[F]) -> str:
    """Return how much water goes in at most, where that is known, as text."""
    return f"{computed.text('water_most_kg')} at most in all" if computed.has("water_most_kg") else ""


def first_water(computed: Computed[F]) -> Lead:
    """Return the first dose of water as the main number of an answer; it must be there."""
    return Lead(word="first_water_kg", label="Add now", text=computed.text("first_water_kg"), then=at_most(computed))


def weigh_and_water(computed: Computed[F], heap_kg: float | None) -> Iterable[ToDo]:
    """What to do about sand that needs water: weigh the heap where its mass is not known; else the water."""
    if heap_kg is None:
        yield ToDo(text="Weigh the heap and enter its weight: it decides how much water to add")
    yield from water_to_do(computed)


def water_to_do(computed: Computed[F]) -> Iterable[ToDo]:
    """What to do about the water: the first dose, then a test, then the rest up to the most; nothing where none is added."""
    if not computed.is_above_zero("water_kg"):
        return
    most = f", {at_most(computed)}" if computed.has("water_most_kg") else ""
    yield ToDo(
        text="First water: spray it in bit by bit while you turn the sand", amount=computed.text("first_water_kg")
    )
    yield ToDo(text=f"Mull it, let it rest for an hour to a night, and test it. Then add the rest{most}")


def used_cost(
    sand_kg: float,
    sand_bag: tuple[float | None, float | None],
    clay_kg: float,
    clay_bag: tuple[float | None, float | None],
) -> float | None:
    """Return the cost of the sand and clay used, by the mass and price of a bag of each; None where a bag that is needed has no mass or price."""
    total = 0.0
    for used_kg, (bag_kg, price) in ((sand_kg, sand_bag), (clay_kg, clay_bag)):
        if used_kg > 0:
            if bag_kg is None or price is None:
                return None
            total += used_kg / bag_kg * price
    return total
