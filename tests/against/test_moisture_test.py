"""Moisture by drying, of the wet and of the dry mass.

Source: Japan Foundry Society, TJFS-201, green sand moisture content test method, M = 100 (W1 - W2) / W1 (formula read).
Row: moisture_wet_dry, "50.00 g to 48.10 g" gives 3.80 % of wet and 3.95 % of dry mass.
Basis: foundries use the wet mass, soil laboratories the dry mass. Printed to 0.01, tolerance of the row 0.01.
Computed by: the row's author, by hand from the formula. 1.90 / 50.00 = 0.0380; 1.90 / 48.10 = 0.03950.
"""

import pytest


def test_50_g_dried_to_48_10_g_held_3_80_percent_of_the_wet_mass(result):
    assert result("temper", sample_wet_g=50.00, sample_dry_g=48.10, scale_step_g=0.01)[
        "moisture_pct_wet"
    ] == pytest.approx(3.80, abs=0.01)


def test_the_bench_gives_the_same_moisture(result):
    answer = result("bench", test="moisture", sample_wet_g=50.00, sample_dry_g=48.10, scale_step_g=0.01)
    assert answer["moisture_pct_wet"] == pytest.approx(3.80, abs=0.01)


def test_the_same_sand_holds_3_95_percent_of_the_dry_mass(result):
    mix = result("mix", make_kg=50, clay_pct_dry=7, moisture_pct_wet=3.80)
    assert mix["moisture_pct_dry"] == pytest.approx(3.95, abs=0.01)


def test_4_percent_of_the_wet_mass_is_4_167_percent_of_the_dry_mass(result):
    """Arithmetic (derived): printed 4.167. By hand 4 / 96."""
    assert result("mix", make_kg=50, clay_pct_dry=7, moisture_pct_wet=4.00)["moisture_pct_dry"] == pytest.approx(
        4.167, abs=0.0005
    )
