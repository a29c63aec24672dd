"""Lots made into one sand, by hand arithmetic."""

import pytest

from sandmix import Sand
from sandmix.recipes.blend import blend, dry_product_kg, plain_sand_kg
from sandmix.recipes.mix import BoughtMaterials

DRY_CLAY = BoughtMaterials(clay_moisture=0.0, clay_activity=1.0)


def sand(grain, live=0.0, fines=0.0, water=0.0):
    return Sand(grain_kg=grain, live_clay_kg=live, other_fines_kg=fines, water_kg=water)


def test_two_lots_are_their_sum():
    made = blend([sand(9, 1, 0.5, 0.4), sand(10, 0, 0, 0.1)], DRY_CLAY, clay=None, moisture=None, make_kg=None)
    assert made.made == made.together == sand(19, 1, 0.5, 0.5)
    assert (made.clay_kg, made.plain_sand_kg, made.water_balance_kg, made.lots_share) == (0, None, None, 1)


def test_dry_clay_product_by_hand():
    """95 + 5 to 10 %: 5 + p = 0.1 (100 + p), p = 5 / 0.9 = 5.5556. Half live: 5 + 0.5 p = 10 + 0.1 p, p = 12.5."""
    assert dry_product_kg(sand(95, 5), 0.1, 1.0) == pytest.approx(5 / 0.9)
    assert dry_product_kg(sand(95, 5), 0.1, 0.5) == pytest.approx(12.5)
    assert dry_product_kg(sand(90, 10), 0.05, 1.0) == 0


def test_clay_that_is_half_live_brings_water_and_dead_fines():
    """12.5 dry at 20 % moisture is 15.625 as bought and brings 3.125 of water; 6.25 of fines in 112.5 dry."""
    half = BoughtMaterials(clay_moisture=0.2, clay_activity=0.5)
    made = blend([sand(95, 5)], half, clay=0.1, moisture=None, make_kg=None)
    assert made.clay_kg == pytest.approx(15.625)
    assert made.made.water_kg == pytest.approx(3.125)
    assert made.made.clay_pct_dry == pytest.approx(10)
    assert made.made.dead_fines_pct_dry == pytest.approx(100 * 6.25 / 112.5)


def test_the_water_in_lots_and_clay_is_counted():
    """112.5 dry at 4 %: 112.5 / 24 = 4.6875 needed, 3.125 + 1 already there."""
    half = BoughtMaterials(clay_moisture=0.2, clay_activity=0.5)
    made = blend([sand(95, 5, water=1)], half, clay=0.1, moisture=0.04, make_kg=None)
    assert made.water_balance_kg == pytest.approx(0.5625)
    assert made.made.moisture_pct_wet == pytest.approx(4)


def test_lots_that_are_too_wet_must_lose_water_and_the_mass_is_after_drying():
    """96 dry at 4 % holds 4: of 10 it must lose 6."""
    made = blend([sand(96, water=10)], DRY_CLAY, clay=None, moisture=0.04, make_kg=None)
    assert made.water_balance_kg == pytest.approx(-6)
    assert made.made.wet_kg == pytest.approx(100)


def test_plain_sand_by_hand():
    """10 of live clay are 8 % of 125: 25 more."""
    assert plain_sand_kg(sand(90, 10), 0.08) == pytest.approx(25)
    assert plain_sand_kg(sand(95, 5), 0.08) == 0
    assert plain_sand_kg(sand(95, 5), 0.0) is None
    assert plain_sand_kg(sand(95), 0.0) == 0


def test_the_mass_to_make_is_finished_sand_and_scales_every_lot():
    """96 dry with 4 of water is 100 finished; 50 is half of everything."""
    made = blend([sand(48), sand(48, water=1)], DRY_CLAY, clay=None, moisture=0.04, make_kg=50)
    assert made.lots_share == pytest.approx(0.5)
    assert made.made.wet_kg == pytest.approx(50)
    assert made.water_balance_kg == pytest.approx(1.5)
    assert made.together.grain_kg == pytest.approx(48)
