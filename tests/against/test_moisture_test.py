"""Moisture by drying, of the wet and of the dry mass.

Source: Japan Foundry Society, TJFS-201, green sand moisture content test method, M = 100 (W1 - W2) / W1 (formula read).
Basis: foundries use the wet mass, soil laboratories the dry mass. Printed to 0.01.
By hand from the formula: 1.90 / 50.00 = 0.0380; 1.90 / 48.10 = 0.03950; 4 / 96 = 0.041667.
"""

from against.published import Checks

MOISTURE = Checks("moisture", source="tjfs_201", sure="inputs")
DRIED = {"sample_wet_g": 50.00, "sample_dry_g": 48.10, "scale_step_g": 0.01}


def test_50_g_dried_to_48_10_g_held_3_80_percent_of_the_wet_mass(result):
    for found in (result("temper", **DRIED), result("bench", test="moisture", **DRIED)):
        MOISTURE.figure(
            found["moisture_pct_wet"], "3.80", "50.00 g dried to 48.10 g", unit="% of the wet mass", within=0.01
        )


def test_the_same_sand_holds_3_95_percent_of_the_dry_mass(result):
    found = result("mix", make_kg=50, clay_pct_dry=7, moisture_pct_wet=3.80)["moisture_pct_dry"]
    MOISTURE.figure(found, "3.95", "the same sand", unit="% of the dry mass", within=0.01)


def test_4_percent_of_the_wet_mass_is_4_167_percent_of_the_dry_mass(result):
    by_hand = MOISTURE.but(source="mass_balance", sure="derived")
    found = result("mix", make_kg=50, clay_pct_dry=7, moisture_pct_wet=4.00)["moisture_pct_dry"]
    by_hand.figure(found, "4.167", "4 % of the wet mass", unit="% of the dry mass")
