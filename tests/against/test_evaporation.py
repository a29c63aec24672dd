"""Evaporation compared with psychrometry, with worked examples, and with numerical solutions.

Sources, how printed, how sure.
- psychrolib 2.5 (ASHRAE): a surface that gets no heat but from the air is a little below the psychrometric wet bulb (derived); asked over a grid.
- TABLE: temperature of a wet surface and kg/m² a day, computed apart for the notes of this project with the Magnus formula of the WMO, a Lewis number
  of 0.87 and air of 1.2 kg/m³ (derived). Here it is Tetens, 0.86 and the air's own density: 0.2 K and 3.5 %.
- Drying tray, a worked solution on a student help page (read): air 120 °C, Y 0.02, T_w 41.5 °C, h 43.3 W/m²K, L 2400 kJ/kg gives R =
  1.412e-3 kg/m²s; 35 kg/m² dry from 0.28 to 0.12 takes 3966 s (derived from it), 0.4 %.
- Receding front at 20 °C, 50 %, porosity 0.42, vapour diffusion alone: 1.013, 0.506, 0.253 kg/m² a day under 5, 10, 20 mm of dry sand; with
  54.17 kg of water in a m³ it is at 10 mm after 12.83 h and at 20 mm after 51.34 h (derived by hand from the same law: this checks the code).
- Shokri, N., and Or, D., Water Resources Research 2011 (abstract read): sands lose 0.5 to 2.5 mm a day at the onset of stage 2.
- Open water, San Diego State University, CIVE 445, midterm of 2006 (read): 15 °C, 70 %, 150 km of wind a day, 0.189 cm a day by Dunne's formula.
  Penman's for a small water surface (formula read at water-for-africa.org): 20 °C, 60 %, 1 m/s, 2.52 mm a day (derived). For the order of
  magnitude only: within the stated factor of 2.
- scipy: `solve_ivp` integrates the front law with the heat balance solved at every step; `brentq` solves the heat balance.
"""

import math
from dataclasses import replace
from itertools import product

import psychrolib
import pytest
from against.published import Checks
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from sandmix.drying.evaporation import (
    CRITICAL,
    LEWIS,
    RATE_FACTOR,
    Bed,
    DryingLaw,
    drying_law,
    film_w_m2k,
    front,
    lost_kg_m2,
    most_kg_m2,
    through_sand_m2_s,
    vapour_resistance_s_m,
)
from sandmix.drying.moist_air import (
    SEA_LEVEL_PA,
    Air,
    latent_heat_j_kg,
    saturation_kg_m3,
)

DAY_S, HOUR_S = 86400.0, 3600.0
ALONE = Bed(depth_m=0.03, moisture=0.045, below_w_m2k=0.0)
CLIMATES = list(product((5.0, 20.0, 35.0), (30.0, 60.0, 90.0), (0.0, 1.0, 4.0)))
TABLE = [
    ((20.0, 60.0, 0.0), 0.0, "14.82", "1.03"),
    ((20.0, 60.0, 0.0), 10.0, "16.81", "1.76"),
    ((20.0, 60.0, 1.0), 0.0, "14.82", "1.72"),
    ((20.0, 60.0, 1.0), 10.0, "16.24", "2.57"),
    ((20.0, 60.0, 3.0), 0.0, "14.82", "3.10"),
    ((20.0, 60.0, 3.0), 10.0, "15.72", "4.06"),
    ((10.0, 80.0, 1.0), 0.0, "8.14", "0.62"),
    ((10.0, 80.0, 1.0), 10.0, "8.74", "0.86"),
    ((30.0, 40.0, 1.0), 0.0, "19.55", "3.50"),
    ((30.0, 40.0, 1.0), 10.0, "22.06", "5.46"),
]
WET = Checks("wet_surface", source="evaporation", sure="separate")
LAYER = Checks("dry_layer", source="front_model", sure="derived")
SOLVER = LAYER.but(source="scipy", sure="library")
TRAY = LAYER.but(source="drying_tray", sure="inputs")

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize(("temp_c", "humidity_pct", "wind_m_s"), CLIMATES)
def test_a_surface_alone_is_a_little_below_the_wet_bulb(temp_c, humidity_pct, wind_m_s):
    """With a Lewis number of 1 both would agree; with 0.86 the surface is colder by at most 1 − 0.86^(2/3) of the wet bulb's own depth."""
    bulb_c = psychrolib.GetTWetBulbFromRelHum(temp_c, humidity_pct / 100, SEA_LEVEL_PA)
    _, surface_c = front(Air(temp_c=temp_c, humidity_pct=humidity_pct, wind_m_s=wind_m_s), ALONE, 0.0)
    below = 0 < bulb_c - surface_c < (1 - LEWIS ** (2 / 3)) * (temp_c - bulb_c)
    wet_bulb = WET.but(source="psychrolib", sure="library")
    wet_bulb.holds(
        below, "a surface alone is below the wet bulb by no more than the Lewis number allows", case=surface_c
    )


@pytest.mark.parametrize(("air", "below_w_m2k", "surface_c", "mm_a_day"), TABLE)
def test_a_wet_surface_as_the_table_has_it(air, below_w_m2k, surface_c, mm_a_day):
    temp_c, humidity_pct, wind_m_s = air
    lost, found_c = front(
        Air(temp_c=temp_c, humidity_pct=humidity_pct, wind_m_s=wind_m_s),
        replace(ALONE, below_w_m2k=below_w_m2k),
        0.0,
    )
    heated = f", {below_w_m2k:g} W/m²K from below" if below_w_m2k else ""
    what = f"{temp_c:g} °C, {humidity_pct:g} %, {wind_m_s:g} m/s{heated}"
    WET.figure(found_c, surface_c, f"temperature at {what}", unit="°C", within=0.2)
    WET.figure(DAY_S * lost, mm_a_day, f"loss at {what}", unit="kg/m² a day", share=0.035)
    if below_w_m2k == 0:
        bulb_c = psychrolib.GetTWetBulbFromRelHum(temp_c, humidity_pct / 100, SEA_LEVEL_PA)
        assert 0.1 <= bulb_c - found_c <= 0.7


@pytest.mark.parametrize(("temp_c", "humidity_pct", "wind_m_s"), CLIMATES)
def test_heat_and_vapour_balance_as_a_general_solver_has_them(temp_c, humidity_pct, wind_m_s):
    air = Air(temp_c=temp_c, humidity_pct=humidity_pct, wind_m_s=wind_m_s)
    for bed in (ALONE, replace(ALONE, below_c=50.0, below_w_m2k=20.0), replace(ALONE, radiation_w_m2=200.0)):
        for dry_m in (0.0, 0.004, 0.03):
            film, resistance = film_w_m2k(air, bed), vapour_resistance_s_m(air, bed, dry_m)

            def surplus(at_c, bed=bed, dry_m=dry_m, film=film, resistance=resistance):
                lost = (saturation_kg_m3(at_c) - air.vapour_kg_m3) / resistance
                below_c = temp_c if bed.below_c is None else bed.below_c
                surface = temp_c + bed.radiation_w_m2 / film
                heat = (surface - at_c) / (1 / film + dry_m / 0.3) + bed.below_w_m2k * (below_c - at_c)
                return heat - latent_heat_j_kg(at_c) * lost

            lost, found_c = front(air, bed, dry_m)
            exact_c = brentq(surplus, -30.0, 150.0, xtol=1e-10)
            balance = (saturation_kg_m3(exact_c) - air.vapour_kg_m3) / resistance
            SOLVER.agrees(found_c, exact_c, "temperature of the front, by a root of the heat balance, K", within=1e-5)
            SOLVER.agrees(lost, balance, "loss at the front, by the same root", rel=1e-5)


def test_the_drying_tray():
    """R = h (T − T_w)/L, the heat balance of the constant rate; then the same rate in the law of a layer."""
    rate = 43.3 * (120 - 41.5) / 2400e3
    assert rate == pytest.approx(1.412e-3, rel=0.004)
    latent = TRAY.but(topic="wet_surface", sure="read")
    latent.figure(latent_heat_j_kg(41.5) / 1000, "2400", "latent heat at 41.5 °C", unit="kJ/kg", share=0.002)
    tray = Bed(depth_m=0.035, moisture=0.28 / 1.28, dry_kg_m3=1000.0)
    law = DryingLaw(surface_kg_m2s=rate, slowness=((0.0, 1 / rate), (0.035, 1 / rate)))
    TRAY.figure(
        35 * (0.28 - 0.12) / law.seconds_to_lose(35 * (0.28 - 0.12), tray),
        "0.001412", "rate of a tray in air of 120 °C", unit="kg/m²s", share=0.004,
    )  # fmt: skip
    TRAY.figure(
        law.seconds_to_lose(35 * (0.28 - 0.12), tray), "3966", "35 kg/m² from 0.28 to 0.12", unit="s", share=0.004
    )


def test_the_receding_front():
    vapour = 0.5 * saturation_kg_m3(20.0)
    spread = through_sand_m2_s(20.0, 0.42)
    for depth_m, lost in ((0.005, "1.013"), (0.010, "0.506"), (0.020, "0.253")):
        what = f"loss under {1000 * depth_m:g} mm of dry sand at 20 °C, 50 %"
        LAYER.figure(DAY_S * vapour * spread / depth_m, lost, what, unit="kg/m² a day", share=0.005)
    law = DryingLaw(surface_kg_m2s=1e6, slowness=((0.0, 1e-6), (0.05, 0.05 / (vapour * spread))))
    for depth_m, hours in ((0.010, "12.83"), (0.020, "51.34")):
        found = law.seconds(54.17, depth_m) / HOUR_S
        LAYER.figure(found, hours, f"front at {1000 * depth_m:g} mm, 54.17 kg of water in a m³", unit="h", share=0.005)


def test_sands_that_just_left_the_wet_stage_lose_half_to_two_and_a_half_millimetres_a_day():
    """Under 3 to 5 mm of dry sand, in laboratory air of 20 to 30 °C and 30 to 50 %."""
    for temp_c, humidity_pct, dry_m in product((20.0, 30.0), (30.0, 50.0), (0.003, 0.005)):
        lost, _ = front(Air(temp_c=temp_c, humidity_pct=humidity_pct), Bed(depth_m=0.1, moisture=0.04), dry_m)
        what = f"sand under {1000 * dry_m:g} mm of dry sand at {temp_c:g} °C, {humidity_pct:g} %"
        LAYER.but(source="shokri_or_2011", sure="read").between(DAY_S * lost, "0.5", "2.5", what, unit="mm a day")


def test_open_water_is_of_the_order_of_the_formulas_for_the_field():
    """A wet layer that gets some heat from below, against Penman's and Dunne's formulas, within the stated factor."""
    wet = Bed(depth_m=0.05, moisture=0.2)
    for air, mm_a_day, field in (
        (Air(temp_c=20.0, humidity_pct=60.0, wind_m_s=1.0), 2.52, WET.but(source="penman", sure="inputs")),
        (Air(temp_c=15.0, humidity_pct=70.0, wind_m_s=150 / 86.4), 1.89, WET.but(source="dunne", sure="read")),
    ):
        low, high = f"{mm_a_day / RATE_FACTOR:.3f}", f"{mm_a_day * RATE_FACTOR:.2f}"
        what = f"open water, {mm_a_day} mm a day, within the stated factor of {RATE_FACTOR:g}"
        field.but(claimed="project").between(lost_kg_m2(24.0, air, wet), low, high, what, unit="mm a day")


@pytest.mark.parametrize("share", [0.1, 0.4, 0.9])
@pytest.mark.parametrize(
    "bed",
    [
        Bed(depth_m=0.01, moisture=0.04),
        Bed(depth_m=0.03, moisture=0.045),
        Bed(depth_m=0.3, moisture=0.035, leak_m_h=0.05),
        Bed(depth_m=0.1, moisture=0.04, below_c=60.0, below_w_m2k=40.0),
        Bed(depth_m=0.05, moisture=0.04, radiation_w_m2=150.0),
    ],
)
def test_the_law_is_near_the_whole_integral(bed, share):
    """The front as a differential equation, by a general solver, against the law that is straight between a few depths."""
    air = Air(temp_c=20.0, humidity_pct=60.0, wind_m_s=1.0)
    law = drying_law(air, bed)
    seconds = law.seconds_to_lose(share * most_kg_m2(bed), bed)
    solved = solve_ivp(
        lambda _, depth_m: [front(air, bed, depth_m[0])[0] / bed.front_kg_m3], (0.0, seconds), [0.0], rtol=1e-8
    )
    lost = bed.front_kg_m3 * solved.y[0][-1]
    SOLVER.agrees(share * most_kg_m2(bed), lost, "water lost, by the differential equation of the front", rel=0.03)


def test_a_wet_layer_is_the_wet_stage_and_then_the_front():
    """Both stages as one differential equation with a switch, by the same solver."""
    air, bed = Air(temp_c=25.0, humidity_pct=50.0, wind_m_s=0.5), Bed(depth_m=0.03, moisture=0.08)
    first_kg = bed.dry_kg_m3 * bed.depth_m * (bed.water - CRITICAL)

    def rate(_, lost):
        dry_m = max(0.0, lost[0] - first_kg) / bed.front_kg_m3
        return [front(air, bed, dry_m)[0]]

    for hours in (2.0, 10.0, 60.0):
        solved = solve_ivp(rate, (0.0, HOUR_S * hours), [0.0], rtol=1e-8, max_step=600.0)
        both = "water lost in the wet stage and then by the front, by the same solver"
        SOLVER.agrees(lost_kg_m2(hours, air, bed), solved.y[0][-1], both, rel=0.03)


def test_the_closed_form_where_nothing_cools():
    """t = w (r0 z + r1 z²/2) and its root, against quadrature by the trapezoid of a straight line."""
    law = DryingLaw(surface_kg_m2s=1e-5, slowness=((0.0, 1e5), (0.04, 9e5)))
    exact, what = LAYER.but(claimed="arithmetic"), "50 kg/m³ to 20 mm where the slowness is straight"
    exact.figure(law.seconds(50.0, 0.02), f"{50 * 0.02 * (1e5 + 5e5) / 2:.0f}", what, unit="s", share=1e-6)
    root = (-1e5 + math.sqrt(1e10 + 2 * 2e7 * 12_000)) / 2e7
    exact.agrees(law.dry_layer_m(50.0, 600_000.0), root, "depth after 600 000 s, by the root of a square", rel=1e-6)
