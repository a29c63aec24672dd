"""Moist air compared with a library of the ASHRAE equations and with published figures.

Sources, how printed, how sure.
- psychrolib 2.5, ASHRAE Handbook of Fundamentals, SI, at 101 325 Pa: a general library for moist air, asked here over a grid of 0 to 60 °C and 5 to
  100 %. It takes the saturation pressure from a longer formula, which differs
  from the short one by up to 0.12 %: so pressures and ratios agree to 0.2 %, temperatures to 0.05 K.
- The R package sirad, example of its function for saturation pressure: mean of 25.1 and 19.1 °C is 2.698918 kPa (read), half of its last digit.
- FAO Irrigation and drainage paper 56, example 3: 24.5 and 15 °C give 3.075 and 1.705 kPa, mean 2.39 (from memory), half of the last digit.
- Drying trays: air of 120 °C with 0.02 kg/kg has a wet bulb of 41.5 °C (worked solution on a student help page, read); 65.6 °C with 0.010 has 28.9 °C
  (Geankoplis, example 9.6-3, from memory). Both are read off a chart: 0.5 K and 0.1 K.
- The steam tables IAPWS-IF97, by the library iapws 1.5.5, as written down when the formulas were compared (not asked here): 872.6, 1228.2, 2339.2,
  4246.7, 7384.4, 19945.8 Pa at 5, 10, 20, 30, 40, 60 °C; within 0.12 %.
"""

from itertools import product

import psychrolib
import pytest

from sandmix.drying.moist_air import SEA_LEVEL_PA, Air, saturation_pa

TEMPS_C = (0.5, 5.0, 10.0, 20.0, 30.0, 40.0, 60.0)
HUMIDITIES_PCT = (5.0, 20.0, 40.0, 60.0, 80.0, 95.0, 100.0)
GRID = list(product(TEMPS_C, HUMIDITIES_PCT))
SHARE, KELVIN = 0.002, 0.05
STEAM_PA = {5: 872.6, 10: 1228.2, 20: 2339.2, 30: 4246.7, 40: 7384.4, 60: 19945.8}

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize(("temp_c", "humidity_pct"), GRID)
def test_the_properties_agree_with_the_library(temp_c, humidity_pct):
    air, share = Air(temp_c=temp_c, humidity_pct=humidity_pct), humidity_pct / 100
    ratio = psychrolib.GetHumRatioFromRelHum(temp_c, share, SEA_LEVEL_PA)
    assert saturation_pa(temp_c) == pytest.approx(psychrolib.GetSatVapPres(temp_c), rel=SHARE)
    assert air.humidity_ratio == pytest.approx(ratio, rel=SHARE)
    assert air.density_kg_m3 == pytest.approx(psychrolib.GetMoistAirDensity(temp_c, ratio, SEA_LEVEL_PA), rel=SHARE / 2)


@pytest.mark.parametrize(("temp_c", "humidity_pct"), GRID)
def test_dew_point_and_wet_bulb_agree_with_the_library(temp_c, humidity_pct):
    """Only above 0 °C: below, the library takes ice."""
    air, share = Air(temp_c=temp_c, humidity_pct=humidity_pct), humidity_pct / 100
    dew_c = psychrolib.GetTDewPointFromRelHum(temp_c, share)
    bulb_c = psychrolib.GetTWetBulbFromRelHum(temp_c, share, SEA_LEVEL_PA)
    if dew_c > 0:
        assert air.dew_point_c == pytest.approx(dew_c, abs=KELVIN)
    if bulb_c > 0:
        assert air.wet_bulb_c == pytest.approx(bulb_c, abs=KELVIN)


def test_the_published_example_of_two_temperatures():
    assert (saturation_pa(25.1) + saturation_pa(19.1)) / 2000 == pytest.approx(2.698918, abs=5e-7)


def test_the_example_from_memory():
    warm, cool = saturation_pa(24.5) / 1000, saturation_pa(15.0) / 1000
    assert (warm, cool) == pytest.approx((3.075, 1.705), abs=5e-4)
    assert (warm + cool) / 2 == pytest.approx(2.39, abs=5e-3)


@pytest.mark.parametrize(("temp_c", "ratio", "bulb_c", "within"), [(120.0, 0.02, 41.5, 0.5), (65.6, 0.010, 28.9, 0.1)])
def test_the_wet_bulb_over_a_drying_tray(temp_c, ratio, bulb_c, within):
    vapour_pa = ratio * SEA_LEVEL_PA / (0.62198 + ratio)
    air = Air(temp_c=temp_c, humidity_pct=100 * vapour_pa / saturation_pa(temp_c))
    assert air.humidity_ratio == pytest.approx(ratio)
    assert air.wet_bulb_c == pytest.approx(bulb_c, abs=within)


@pytest.mark.parametrize("temp_c", STEAM_PA)
def test_the_short_formula_is_near_the_steam_tables(temp_c):
    assert saturation_pa(temp_c) == pytest.approx(STEAM_PA[temp_c], rel=0.0012)
