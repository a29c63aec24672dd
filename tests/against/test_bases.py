"""One clay content in four bases, and the water and fines of bought materials.

Sources, bases and how printed:
- mix_basis_8_parts: test mix of a data sheet of foundry bentonite (supplier not noted), 88.6 sand, 8 clay, 3.4 water (input read): 9.03 %
  of sand, 8.28 % of dry mix, water : clay 0.425; tolerance of the row 0.01.
- blend_basis: a common mistake in a laboratory procedure, 0.4 g clay + 5 g sand (input read): 8.00 % of sand, 7.407 % of mix; tolerance
  0.001.
- clay_purity (derived): 8 kg live, 12 % moisture, 80 % active: 11.364 kg as bought, bringing 1.364 kg of water; tolerance 0.001. The
  arithmetic adds 2.0 kg of fines.
- Arithmetic (derived): 100 lb : 12 lb : 1 US gal gives 12.0 % of sand, 10.71 % of dry, 6.93 % of wet.
The hand arithmetic is with each test."""

import pytest
from against.published import Checks

DATA_SHEET = Checks("clay_bases", source="bentonite_test_mix", sure="inputs")
LABORATORY = DATA_SHEET.but(source="blend_by_mass")
GALLON = DATA_SHEET.but(source="mass_balance", sure="derived")
BOUGHT = Checks("bought", source="mass_balance", sure="derived")
SOUND = {"clay_moisture_pct_wet": 0, "sand_moisture_pct_wet": 0, "clay_activity_pct": 100}


def test_8_of_clay_to_88_6_of_sand_is_9_03_per_100_of_sand_and_8_28_percent_of_dry_mix(result):
    """8 / 88.6 = 0.09029; 8 / 96.6 = 0.08282."""
    mix = result("mix", make_kg=100, clay_pct_dry=100 * 8 / 96.6, moisture_pct_wet=3.4, **SOUND)
    weighed = [mix[word] for word in ("sand_kg", "clay_kg", "water_kg")]
    DATA_SHEET.figure(weighed, "88.6, 8.0, 3.4", "sand, clay and water of 100 kg", unit="kg", within=0.01)
    DATA_SHEET.figure(mix["water_kg"] / mix["clay_kg"], "0.425", "water over clay", within=0.01)
    DATA_SHEET.figure(mix["clay_pct_sand"], "9.03", "8 of clay to 88.6 of sand", unit="per 100 of sand", within=0.01)
    DATA_SHEET.figure(mix["clay_pct_dry"], "8.28", "the same mix", unit="% of the dry mass", within=0.01)


def test_the_same_mix_given_per_100_of_sand_weighs_the_same(result):
    mix = result("mix", make_kg=100, clay_pct_sand=9.0293, moisture_pct_wet=3.4, **SOUND)
    weighed = [mix[word] for word in ("sand_kg", "clay_kg", "water_kg")]
    DATA_SHEET.figure(weighed, "88.6, 8.0, 3.4", "sand, clay and water of 100 kg", unit="kg", within=0.01)


def test_0_4_of_clay_with_5_of_sand_is_8_per_100_of_sand_and_7_407_percent_of_mix(result):
    """0.4 / 5 = 0.08; 0.4 / 5.4 = 0.07407."""
    mix = result("mix", sand_on_hand_kg=5, clay_pct_sand=8.00, moisture_pct_wet=3, **SOUND)
    assert mix["clay_kg"] == pytest.approx(0.4, abs=1e-9)
    LABORATORY.figure(mix["clay_pct_dry"], "7.407", "0.4 g of clay with 5 g of sand", unit="% of the mix", within=0.001)


def test_8_kg_of_live_clay_need_11_364_kg_of_a_damp_impure_clay_with_1_364_of_water(result):
    """8 / (0.8 * 0.88) = 11.364; dry product 10.000; water 11.364 - 10 = 1.364; fines 10 - 8 = 2."""
    made = 100 / (1 - 0.05)
    mix = result(
        "mix", make_kg=made, clay_pct_dry=8, moisture_pct_wet=5, clay_activity_pct=80, clay_moisture_pct_wet=12
    )
    bagged = "8 kg of live clay from a clay with 12 % moisture, 80 % live"
    BOUGHT.figure(mix["clay_kg"], "11.364", bagged, unit="kg", within=0.001)
    BOUGHT.figure((made - 100) - mix["water_kg"], "1.364", "water that this clay brings", unit="kg", within=0.001)
    BOUGHT.figure(mix["sand_kg"], "90.0", "sand next to it, less the 2 kg of fines", unit="kg", within=0.001)


def test_100_lb_of_sand_12_lb_of_clay_and_a_us_gallon_in_the_other_bases(result):
    """12 / 112 = 0.10714; a US gallon is 231 in³ = 3.78541 kg; 112 lb = 50.8023 kg; 3.78541 / 54.5877 = 0.06935."""
    mix = result("mix", sand_on_hand_kg="100 lb", clay_pct_sand=12, moisture_pct_wet=6.93, **SOUND)
    GALLON.figure(mix["clay_pct_dry"], "10.71", "12 lb of clay to 100 lb of sand", unit="% of the dry mass")
    assert mix["clay_kg"] == pytest.approx(12 * 0.45359237, rel=1e-9)
    water = mix["make_kg"] - mix["sand_kg"] - mix["clay_kg"]
    GALLON.figure(water, "3.785", "the US gallon at 6.93 % of the wet mass", unit="kg", within=0.005)


def test_without_a_target_moisture_water_is_0_33_to_0_55_kg_per_kg_of_live_clay(ask):
    """From the equilibrium of mulled sand: 0.33 to 0.55 kg in all per kg of live clay. The range of the answer's moisture is the same."""
    answer = ask("mix", make_kg=35, clay_pct_dry=7)
    low, high = (share / (100 - share) / 0.07 for share in answer["doubt"]["moisture_pct_wet"])
    usual = BOUGHT.but(source="icri_610", sure="inputs")
    usual.figure([low, high], "0.33, 0.55", "water per kilogram of live clay, without a target moisture", unit="kg")
