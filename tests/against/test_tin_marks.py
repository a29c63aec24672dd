"""The tin: the fall that matches the standard rammer, the slopes of the published equilibrium, and a step of the standard water test.

Sources: BCIRA Broadsheet 16-1 for the rammer (14 lb, three times 2 in: 9.491 J, 4.683 kJ/m²) and Iron Casting Research Institute, Report 610 (2003)
for the equilibrium, both read; the falls and slopes are arithmetic on them by another person (derived), printed to the figures below. Japan Foundry
Society, TJFS-109 for the step: 1 % of water, mulled for ten minutes, tested again (read).
"""

import pytest
from against.published import Checks

from sandmix.bench import measurements, tin_dosing

ENERGY = Checks("tin_energy", source="bcira_specimen", sure="inputs")
SLOPE = Checks("tin_slope", source="icri_610", sure="inputs")
STEP = SLOPE.but(source="tjfs_109", sure="derived")


@pytest.mark.parametrize(
    ("width_mm", "rammer_kg", "fall_mm"), [(66, 1, 545), (73, 2, 333), (75, 2.5, 281), (100, 3, 417)]
)
def test_the_fall_that_matches_the_standard(result, width_mm, rammer_kg, fall_mm):
    what = f"fall of {rammer_kg} kg on a tin of {width_mm} mm"
    ENERGY.figure(measurements.matching_fall_mm(rammer_kg, width_mm), f"{fall_mm}", what, unit="mm")
    tin = {"rammer_kg": rammer_kg, "rammer_fall_mm": fall_mm, "tin_diameter_mm": width_mm}
    answer = result("tin", compactability_now_pct=40, **tin)
    ENERGY.figure(answer["matching_fall_mm"], f"{fall_mm}", what, unit="mm")
    ENERGY.figure(answer["ram_energy_kj_m2"], "4.683", "energy over area of that fall", unit="kJ/m²", share=0.002)


@pytest.mark.parametrize(
    ("clay", "printed"), [(7, "53.6, 21.5"), (8, "46.9, 18.8"), (9, "41.7, 16.7"), (11, "34.1, 13.7")]
)
def test_the_slopes_of_the_published_equilibrium(clay, printed):
    found = [tin_dosing.equilibrium_slope(clay, at) for at in (40, 50)]
    SLOPE.figure(found, printed, f"slope at 40 and at 50, {clay} % of clay", unit="points per 1 % of water")


def test_the_published_slopes_are_those_of_small_steps_along_the_published_moistures():
    """By differences of the moisture that `estimates` has from the same source, a thousandth of a point each way."""
    from sandmix.bench.estimates import equilibrium_moisture_pct_wet

    for clay in (7.0, 8.5, 11.0):
        for at in (36.0, 44.0, 52.0):
            step = equilibrium_moisture_pct_wet(clay, at + 1e-3) - equilibrium_moisture_pct_wet(clay, at - 1e-3)
            by_steps = "slope by small steps along the published moistures"
            SLOPE.agrees(tin_dosing.equilibrium_slope(clay, at), 2e-3 / step, by_steps, rel=1e-5)


def test_the_prior_covers_the_published_slopes_at_a_working_compactability():
    """10 to 45 points per 1 % (from memory) against 13.7 to 46.9 for 8 to 11 % clay: the ends of the two fitted lines."""
    low, high = tin_dosing.learned([]).slope_band
    usual = SLOPE.but(source="tin_slope", sure="memory")
    usual.figure([low, high], "10, 45", "range of slopes before the first test", unit="points per 1 %", within=0.01)
    inside = [tin_dosing.equilibrium_slope(clay, at) for clay in (8, 9, 10, 11) for at in (41, 45, 47, 48, 50)]
    assert all(low < slope < 48 for slope in inside)


def test_a_step_of_one_percent_of_water(result):
    """2000 g with 20 g of water: 100 × 20 × 0.965/2020 = 0.9554 points; 22 points of compactability: 23.03 points per 1 %."""
    step = tin_dosing.SampleStep(
        sand_g=2000, water_g=20, before_pct=36, after_pct=58, before_half=3, after_half=3
    ).difference
    assert step.dy == 22
    STEP.figure(step.dx, "0.95545", "1 % of water to 2000 g at 3.5 %", unit="points", within=1e-5)
    STEP.figure(tin_dosing.slope_of(step)[0], "23.026", "slope of 22 points by it", unit="points per 1 %", within=1e-3)
    """The dose of the standard's water sensitivity: 10/23.03 = 0.434 points of moisture per 10 points."""
    sensitivity = measurements.water_sensitivity((3.0, 3.95545), (36.0, 58.0))
    assert sensitivity == pytest.approx(10 / tin_dosing.slope_of(step)[0], rel=1e-4)
