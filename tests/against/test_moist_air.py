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
from against.published import Checks

from sandmix.drying.moist_air import SEA_LEVEL_PA, Air, saturation_pa

TEMPS_C = (0.5, 5.0, 10.0, 20.0, 30.0, 40.0, 60.0)
HUMIDITIES_PCT = (5.0, 20.0, 40.0, 60.0, 80.0, 95.0, 100.0)
GRID = list(product(TEMPS_C, HUMIDITIES_PCT))
SHARE, KELVIN = 0.002, 0.05
STEAM_PA = {5: "872.6", 10: "1228.2", 20: "2339.2", 30: "4246.7", 40: "7384.4", 60: "19945.8"}
LIBRARY = Checks("moist_air", source="psychrolib", sure="library")
READ = Checks("moist_air", source="sirad", sure="read")

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize(("temp_c", "humidity_pct"), GRID)
def test_the_properties_agree_with_the_library(temp_c, humidity_pct):
    air, share = Air(temp_c=temp_c, humidity_pct=humidity_pct), humidity_pct / 100
    ratio = psychrolib.GetHumRatioFromRelHum(temp_c, share, SEA_LEVEL_PA)
    LIBRARY.agrees(saturation_pa(temp_c), psychrolib.GetSatVapPres(temp_c), "saturation pressure", rel=SHARE)
    LIBRARY.agrees(air.humidity_ratio, ratio, "humidity ratio", rel=SHARE)
    density = psychrolib.GetMoistAirDensity(temp_c, ratio, SEA_LEVEL_PA)
    LIBRARY.agrees(air.density_kg_m3, density, "density", rel=SHARE / 2)


@pytest.mark.parametrize(("temp_c", "humidity_pct"), GRID)
def test_dew_point_and_wet_bulb_agree_with_the_library(temp_c, humidity_pct):
    """Only above 0 °C: below, the library takes ice."""
    air, share = Air(temp_c=temp_c, humidity_pct=humidity_pct), humidity_pct / 100
    dew_c = psychrolib.GetTDewPointFromRelHum(temp_c, share)
    bulb_c = psychrolib.GetTWetBulbFromRelHum(temp_c, share, SEA_LEVEL_PA)
    if dew_c > 0:
        LIBRARY.agrees(air.dew_point_c, dew_c, "dew point, K", within=KELVIN)
    if bulb_c > 0:
        LIBRARY.agrees(air.wet_bulb_c, bulb_c, "wet bulb, K", within=KELVIN)


def test_the_published_example_of_two_temperatures():
    found = (saturation_pa(25.1) + saturation_pa(19.1)) / 2000
    READ.figure(found, "2.698918", "mean saturation pressure of 25.1 and 19.1 °C", unit="kPa")


def test_the_example_from_memory():
    warm, cool = saturation_pa(24.5) / 1000, saturation_pa(15.0) / 1000
    example = READ.but(source="tetens_fao56", sure="memory")
    example.figure([warm, cool], "3.075, 1.705", "saturation pressure at 24.5 and 15 °C", unit="kPa")
    example.figure((warm + cool) / 2, "2.39", "their mean", unit="kPa")


@pytest.mark.parametrize(
    ("temp_c", "ratio", "bulb_c", "within", "tray"),
    [
        (120.0, 0.02, "41.5", 0.5, READ.but(source="drying_tray")),
        (65.6, 0.010, "28.9", 0.1, READ.but(source="tray_textbook", sure="memory")),
    ],
    ids=["120 °C", "65.6 °C"],
)
def test_the_wet_bulb_over_a_drying_tray(temp_c, ratio, bulb_c, within, tray):
    vapour_pa = ratio * SEA_LEVEL_PA / (0.62198 + ratio)
    air = Air(temp_c=temp_c, humidity_pct=100 * vapour_pa / saturation_pa(temp_c))
    assert air.humidity_ratio == pytest.approx(ratio)
    tray.figure(air.wet_bulb_c, bulb_c, f"wet bulb of {temp_c:g} °C and {ratio} kg/kg", unit="°C", within=within)


@pytest.mark.parametrize("temp_c", STEAM_PA)
def test_the_short_formula_is_near_the_steam_tables(temp_c):
    steam, what = READ.but(source="steam_tables", sure="library"), f"saturation pressure at {temp_c} °C, steam tables"
    steam.figure(saturation_pa(temp_c), STEAM_PA[temp_c], what, unit="Pa", share=0.0012)
