"""Several lots of sand made into one: the clay and water that bring them to a target, or the plain sand that dilutes them.

Symbols: D and L the dry mass and the live clay of all lots, W their water, c target live clay as a share of the dry mass, a the live share of
the dry clay product, w its moisture, m target moisture as a share of the wet mass. Dry product p: L + a p = c (D + p), so
p = (c D − L)/(a − c). Water to add = (D + p) m/(1 − m) − W − p w/(1 − w). Source: mass_balance.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.materials.sand import Sand
from sandmix.recipes.mix import BoughtMaterials


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendResult:
    """What is added to the lots, in kg, and the sand that they make.

    ``lots_share`` is how much of every lot is used; ``together`` the lots alone; ``clay_kg`` is as bought; ``plain_sand_kg`` is dry sand
    that would dilute a blend with too much clay to the target, None where no amount could; ``water_balance_kg`` is what to add, or below 0
    what must dry off, or None without a target moisture; ``made`` is the finished sand, at the target moisture where there is one.
    """

    lots_share: float
    together: Sand
    clay_kg: float
    plain_sand_kg: float | None
    water_balance_kg: float | None
    made: Sand


def blend(
    lots: Iterable[Sand],
    materials: BoughtMaterials,
    *,
    clay: float | None,
    moisture: float | None,
    make_kg: float | None,
) -> BlendResult:
    """Return the blend of *lots*, with the targets *clay* (a fraction of the dry mass) and *moisture* (of the wet mass) where given.

    Every lot is used whole, unless *make_kg* of finished sand (with its water) is given: then the same share of each lot is used.
    *clay* must be below the live share of the clay product, and the lots must contain some dry sand.
    """
    together = sum(lots, Sand())
    product = 0.0 if clay is None else dry_product_kg(together, clay, materials.clay_activity)
    plain = None if clay is None else plain_sand_kg(together, clay)
    bought_clay = materials.clay(product)
    with_clay = together + bought_clay
    balance = None
    made = with_clay
    if moisture is not None:
        made = with_clay.at_moisture(moisture)
        balance = made.water_kg - with_clay.water_kg
    share = 1.0 if make_kg is None else make_kg / made.wet_kg
    return BlendResult(
        lots_share=share,
        together=together.scaled(share),
        clay_kg=share * bought_clay.wet_kg,
        plain_sand_kg=None if plain is None else share * plain,
        water_balance_kg=None if balance is None else share * balance,
        made=made.scaled(share),
    )


def dry_product_kg(sand: Sand, clay: float, activity: float) -> float:
    """Return the dry clay product, in kg, that brings *sand* to *clay* of its dry mass; 0 where it holds more.

    >>> round(dry_product_kg(Sand(grain_kg=95, live_clay_kg=5), 0.07, 1.0), 4)
    2.1505
    """
    return max(0.0, clay * sand.dry_kg - sand.live_clay_kg) / (activity - clay)


def plain_sand_kg(sand: Sand, clay: float) -> float | None:
    """Return the dry plain sand, in kg, that brings *sand* down to *clay* of its dry mass; 0 where it holds less, None where none can.

    >>> round(plain_sand_kg(Sand(grain_kg=90, live_clay_kg=10), 0.08), 6)
    25.0
    """
    if clay <= 0:
        return None if sand.live_clay_kg > 0 else 0.0
    return max(0.0, sand.live_clay_kg / clay - sand.dry_kg)
