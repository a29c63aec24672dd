"""Doses: the water goes in by parts, and how far it may go is read off its band."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sandmix.asking.cautions import WET_MOULD, Caution
from sandmix.asking.form import F, Filled
from sandmix.asking.job import Computed, Figures
from sandmix.language.wording import plain
from sandmix.materials.metals import METALS
from sandmix.maths.uncertainty import Band

FIRST_WATER = 0.70
"""Share of the water to add that goes in first; mull, rest, test, then the rest."""

LIMITS = METALS["aluminium"]
"""Whose limits of moisture a sand is held to where no metal is named: no metal stands more."""

FIRST_CLAY = 0.50
"""Share of the clay to add that goes in first."""


def water_figures(balance_kg: float) -> Figures:
    """Return the figures of a water balance, wanted less there: what to add, the first dose, and what to lose."""
    return {"water_kg": balance_kg, "first_water_kg": FIRST_WATER * balance_kg, "water_to_lose_kg": -balance_kg}


def most_water(filled: Filled[F], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the most water in all: the high end of the band of the water to add."""
    return {"water_most_kg": doubt["water_kg"][1]} if "water_kg" in doubt else {}


def dosed(computed: Computed[F], when: str) -> Iterable[str]:
    """Say how the water goes in where some is added: *when* is the word that begins the sentence."""
    if computed.has("water_kg") and computed.number("water_kg") > 0:
        yield (
            f"{when} {computed.text('first_water_kg')} of the water in a fine spray, mull, rest an hour to a night, test, and "
            "then the rest."
        )


def stop_limit(moisture_pct_wet: float | None) -> Iterable[str]:
    """Say it where a sand is wished so wet that it would be a stop for any metal."""
    red = LIMITS.red_moisture_pct_wet
    if moisture_pct_wet is not None and moisture_pct_wet > red:
        yield (
            f"{plain(round(moisture_pct_wet, 1))} % of water is above {red:g} %, the stop limit for aluminium, and other metals "
            "stop sooner: nobody can pour on it. Ask for less."
        )


def wet_mould(moisture_pct_wet: float | None) -> Iterable[Caution]:
    """Caution where a sand is wished wetter than a mould should be."""
    if moisture_pct_wet is not None and moisture_pct_wet > LIMITS.amber_moisture_pct_wet:
        yield WET_MOULD


def used_cost(
    sand_kg: float,
    sand_bag: tuple[float | None, float | None],
    clay_kg: float,
    clay_bag: tuple[float | None, float | None],
) -> float | None:
    """Return what sand and clay used are worth by the mass and price of a bag of each, or None where one that is needed is not known."""
    total = 0.0
    for used_kg, (bag_kg, price) in ((sand_kg, sand_bag), (clay_kg, clay_bag)):
        if used_kg > 0:
            if bag_kg is None or price is None:
                return None
            total += used_kg / bag_kg * price
    return total
