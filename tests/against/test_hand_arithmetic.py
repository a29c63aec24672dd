"""Formulas of the method pages for which nothing published was found, worked out by hand from the same definitions.

Source: mass balance and geometry (derived). So these check the arithmetic and the units, not the formulas. The hand arithmetic is with each test.
"""

from against.published import Checks

BLEND = Checks("blend", source="mass_balance", sure="derived")
WATER, CARBON = BLEND.but(topic="water_dose"), BLEND.but(topic="carbon")
CHARGE, GRANULES = BLEND.but(topic="charge"), BLEND.but(topic="granules")
GEL = {"swell_ml": "27 mL", "swollen": "a gel"}
POURED = {"metal": "aluminium", "casting_volume_cm3": 380, "gating_pct": 50, "spare_pct": 10}


def test_the_clay_that_a_blend_lacks(result):
    """40 kg of dry sand hold 2 kg of clay: (0.075 · 40 − 2)/(1 − 0.075) = 1/0.925 = 1.0811."""
    lots = [{"kg": 40, "clay_pct_dry": 5, "moisture_pct_wet": 0}]
    pure = {"clay_moisture_pct_wet": 0, "clay_activity_pct": 100}
    found = result("blend", lots=lots, target_clay_pct_dry=7.5, **pure)["clay_kg"]
    BLEND.figure(found, "1.0811", "clay that brings 40 kg from 5 to 7.5 %", unit="kg")


def test_water_to_lose_and_the_dry_mix_that_takes_its_place(result):
    """30 (0.045 − 0.035)/0.965 = 0.31088; 30 (4.5/3.5 − 1) = 8.5714."""
    found = result("temper", heap_kg=30, moisture_pct_wet=4.5, target_moisture_pct_wet=3.5)
    WATER.figure(found["water_to_lose_kg"], "0.31088", "water that 30 kg must lose from 4.5 to 3.5 %", unit="kg")
    WATER.figure(found["dry_mix_to_dilute_kg"], "8.5714", "dry mix in its place", unit="kg")


def test_the_job_dry_takes_the_same_water_away(result):
    """45 (0.06 − 0.035)/0.965 = 1.1658."""
    found = result("dry", heap_kg=45, moisture_pct_wet=6, target_moisture_pct_wet=3.5)["water_to_lose_kg"]
    WATER.figure(found, "1.1658", "water that 45 kg must lose from 6 to 3.5 %", unit="kg")


def test_the_dose_of_the_tin(result):
    """The middle slope is √(10 · 45) = 21.213: 5 points are 0.23570 of moisture, and 30 · 0.23570/96.5 = 0.073275."""
    found = result("tin", heap_kg=30, compactability_now_pct=40, target_compactability_pct=45)
    step, water = found["moisture_step_pct_wet"], found["water_kg"]
    dose = BLEND.but(topic="tin_slope")
    dose.figure(step, "0.23570", "5 points of compactability before the first test", unit="points of moisture")
    dose.figure(water, "0.073275", "water that does it in 30 kg", unit="kg")


def test_the_charge_what_is_left_of_it_and_how_full_the_crucible_is(result):
    """380 · 1.5 · 2.7 = 1539 g; over 0.97, and a tenth more: 1745.3; 0.97 of it less 1539: 153.9 g, 64.94 cm³; 1745.3/2844 = 61.37 %."""
    found = result("pour", **POURED, melt_loss_pct=3, crucible_l=1.2)
    CHARGE.figure(
        1000 * found["charge_kg"], "1745.3", "380 cm³ of aluminium, gating half, 3 % lost, a tenth more", unit="g"
    )
    CHARGE.figure(found["ingot_cm3"], "64.94", "what is left for the ingot mould", unit="cm³")
    CHARGE.figure(found["crucible_fill_pct"], "61.37", "a crucible of 1.2 L by it", unit="%")


def test_the_loss_of_two_lots_of_scrap(result):
    """2 kg at 2 % and 0.5 kg at 12 % lose 0.1 of 2.5 kg, 4 %: 1539/0.96 · 1.1 = 1763.4 g."""
    lots = [{"kg": 2, "melt_loss_pct": 2}, {"kg": 0.5, "melt_loss_pct": 12}]
    found = 1000 * result("pour", **POURED, scrap_lots=lots)["charge_kg"]
    CHARGE.figure(found, "1763.4", "the same from two lots of scrap that lose 4 %", unit="g")


def test_what_grinding_leaves(result):
    """2.6/3 = 0.86667; 3.6/0.86667 = 4.1538; 2.6 · 0.9 = 2.34."""
    ground = {"bag_label": "pond or liner bentonite", "ground_kg": 3, "passed_kg": 2.6, "wanted_kg": 3.6, **GEL}
    found = result("choose", **ground, clay_moisture_pct_wet=10, clay_activity_pct=100)
    GRANULES.figure(found["yield_pct"], "86.667", "2.6 kg that pass of 3 kg ground", unit="%")
    GRANULES.figure(found["buy_kg"], "4.1538", "to buy for 3.6 kg", unit="kg")
    GRANULES.figure(found["live_clay_kg"], "2.340", "live clay in what passed, at 10 % moisture", unit="kg")


def test_a_smaller_flask_of_the_same_shape(result):
    """20 kg leave 16 for the flask, with a spare of 25 %; it takes 380 · 260 · 185 mm · 1.55 = 28.331: 380 √(16/28.331) = 285.57 mm."""
    flask = {"flask_length_mm": 380, "flask_width_mm": 260, "drag_depth_mm": 95, "cope_depth_mm": 90}
    found = result("flask", **flask, heap_kg=20, rammed_density_kg_l=1.55, spare_pct=25)["fits_length_mm"]
    BLEND.but(topic="flask_sand").figure(
        found, "285.57", "length of the flask that 20 kg fill, of 380 × 260 mm", unit="mm"
    )


def test_the_seacoal_that_a_sand_lacks(result):
    """Seacoal counts whole in its own gauge: (0.04 − 0.02)/(1 − 0.04) = 0.020833 dry, over 0.95 for its water: 21.930 g/kg."""
    found = result("carbon", metal="grey_iron", heap_kg=45, carbon_target_pct=4, carbon_now_pct=2)["additive_per_sand"]
    CARBON.figure(found, "21.930", "seacoal per kilogram of dry sand from 2 to 4 %", unit="g")
