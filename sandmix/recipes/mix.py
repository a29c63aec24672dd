"""A new mix: from the target clay and moisture to what is weighed in.

Symbols: make_kg the wet mass to make, D its dry mass, c live clay as a share of D, m moisture as a share of the wet mass, a live share
of the dry clay product, w_s and w_c moisture of the bought sand and clay. D = make (1 - m); live = c D; clay product, dry = c D / a;
sand, dry = D (1 - c/a); as bought = dry / (1 - w). Water to add = make m - what sand and clay bring. Source: mass_balance.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.materials.sand import Sand, water_at
from sandmix.maths.statistics import without_noise

WATER_PER_LIVE_CLAY = (0.33, 0.55)
"""Kilograms of water in all, including what the materials bring, per kilogram of live clay. Source: icri_610 at compactability 40 to 50."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoughtMaterials:
    """The properties of the bought sand and clay, as fractions."""

    sand_moisture: float = 0.0
    clay_moisture: float = 0.10
    clay_activity: float = 1.0

    def sand(self, dry_kg: float) -> Sand:
        """Return *dry_kg* of dry sand, with its water as bought."""
        return Sand(grain_kg=dry_kg, water_kg=water_at(dry_kg, self.sand_moisture))

    def clay(self, dry_kg: float) -> Sand:
        """Return *dry_kg* of dry clay product, with its water as bought; what is not live counts as other fines."""
        live = dry_kg * self.clay_activity
        water_kg = water_at(dry_kg, self.clay_moisture)
        return Sand(live_clay_kg=live, other_fines_kg=dry_kg - live, water_kg=water_kg)


@dataclass(frozen=True, slots=True, kw_only=True)
class MixWeights:
    """The sand and the clay to weigh in, as bought, and the mix that they make at its target moisture."""

    sand: Sand
    clay: Sand
    mix: Sand

    @property
    def brought_kg(self) -> float:
        """The water in the sand and the clay, in kg."""
        return self.sand.water_kg + self.clay.water_kg

    @property
    def water_balance_kg(self) -> float:
        """The water of the mix less that in sand and clay, in kg: what to add, or below 0 what must dry off."""
        return without_noise(self.mix.water_kg - self.brought_kg, self.mix.water_kg + self.brought_kg)

    @property
    def with_all_its_water(self) -> Sand:
        """The mix with all the water that its materials bring, where that is more than the target."""
        return self.mix.wet(max(0.0, -self.water_balance_kg))


def clay_from_parts(parts_sand: float, parts_clay: float, sand_kg_l: float, clay_kg_l: float) -> float:
    """Return the clay, as a fraction of the dry mix, of a recipe in parts by volume of loose dry sand and clay.

    >>> round(100 * clay_from_parts(9, 1, 1.442, 0.850), 2)
    6.15
    """
    clay = parts_clay * clay_kg_l
    return clay / (parts_sand * sand_kg_l + clay)


def clay_from_sand_basis(clay_per_sand: float, activity: float = 1.0) -> float:
    """Return live clay as a fraction of the dry mix, from live clay per unit of dry sand.

    With an activity below 1 the rest of the clay product is in the dry mix too: c = p / (1 + p/a).
    """
    return clay_per_sand / (1 + clay_per_sand / activity)


def clay_per_sand(clay: float, activity: float = 1.0) -> float:
    """Return live clay per unit of dry sand, from live clay as a fraction of the dry mix (the inverse)."""
    return clay / (1 - clay / activity)


def parts_sand_per_clay(clay: float, sand_kg_l: float, clay_kg_l: float) -> float:
    """Return the parts of loose dry sand, by volume, to one part of clay for *clay*, a fraction of the dry mix above 0."""
    return (1 - clay) / clay * clay_kg_l / sand_kg_l


def design(*, dry_kg: float, clay: float, moisture: float, materials: BoughtMaterials) -> MixWeights:
    """Return what to weigh in for *dry_kg* of dry mix with *clay* (live, fraction of dry) and *moisture* (fraction of wet).

    The clay must be below the activity. Where the materials bring more water than the target, none is added, the dry parts stay as
    designed, and ``water_balance_kg`` is below 0.
    """
    product_kg = clay * dry_kg / materials.clay_activity
    bought_sand, bought_clay = materials.sand(dry_kg - product_kg), materials.clay(product_kg)
    return MixWeights(sand=bought_sand, clay=bought_clay, mix=(bought_sand + bought_clay).at_moisture(moisture))


def dry_from_stock(
    *, sand_on_hand_kg: float | None, clay_on_hand_kg: float | None, clay: float, materials: BoughtMaterials
) -> tuple[float, str]:
    """Return the dry mix, in kg, that sand and clay on hand (as bought) are enough for, and which runs out first: "sand" or "clay"."""
    product_share = clay / materials.clay_activity
    by_sand = (
        math.inf if sand_on_hand_kg is None else sand_on_hand_kg * (1 - materials.sand_moisture) / (1 - product_share)
    )
    by_clay = (
        math.inf
        if clay_on_hand_kg is None or not product_share
        else clay_on_hand_kg * (1 - materials.clay_moisture) / product_share
    )
    return (by_sand, "sand") if by_sand <= by_clay else (by_clay, "clay")


def batches(make_kg: float, mixer_kg: float) -> int:
    """Return the number of equal batches of *make_kg* in a mixer that takes *mixer_kg*; float noise does not add a batch.

    >>> batches(35, 12), batches(36.0000000001, 12)
    (3, 3)
    """
    return max(1, whole_up(make_kg / mixer_kg))


def whole_up(count: float) -> int:
    """Return *count* rounded up to a whole number; float noise above a whole number does not count."""
    nearest = round(count)
    return nearest if math.isclose(count, nearest, rel_tol=1e-9, abs_tol=1e-9) else math.ceil(count)


def moisture_from_clay(clay: float, water_per_clay: float) -> float:
    """Return the moisture (of the wet mass) of a mix with *clay* (of the dry mass) and *water_per_clay* kg of water in all per kg of live clay."""
    water = clay * water_per_clay
    return water / (1 + water)
