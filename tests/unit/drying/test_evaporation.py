"""The loss of a layer to air: its ends, its directions, and that both functions undo each other."""

from dataclasses import replace

import pytest

from sandmix.drying.evaporation import (
    AIR_DRY,
    LID_LEAK_M_H,
    Bed,
    drying_law,
    film_w_m2k,
    front,
    hours_to_lose,
    lost_kg_m2,
    most_kg_m2,
)
from sandmix.drying.moist_air import Air

DAY = Air(temp_c=20.0, humidity_pct=60.0, wind_m_s=1.0)
LAYER = Bed(depth_m=0.03, moisture=0.04)
BEDS = [
    LAYER,
    Bed(depth_m=0.03, moisture=0.09),
    Bed(depth_m=0.02, moisture=0.05, two_sided=True),
    Bed(depth_m=0.3, moisture=0.035, leak_m_h=LID_LEAK_M_H),
    Bed(depth_m=0.05, moisture=0.06, below_c=60.0, below_w_m2k=40.0),
    Bed(depth_m=0.4, moisture=0.06, radiation_w_m2=100.0),
]


@pytest.mark.parametrize("bed", BEDS)
def test_loss_and_time_undo_each_other(bed):
    for share in (0.01, 0.3, 0.7, 1.0):
        loss = share * most_kg_m2(bed)
        assert lost_kg_m2(hours_to_lose(loss, DAY, bed), DAY, bed) == pytest.approx(loss, rel=1e-9)


@pytest.mark.parametrize("bed", BEDS)
def test_the_loss_grows_with_time_up_to_the_water_that_the_air_can_take(bed):
    losses = [lost_kg_m2(hours, DAY, bed) for hours in (0, 1, 5, 24, 200, 1e6)]
    assert losses == sorted(losses)
    assert losses[0] == 0.0
    assert losses[-1] == pytest.approx(most_kg_m2(bed))
    assert hours_to_lose(1.001 * most_kg_m2(bed), DAY, bed) is None


@pytest.mark.parametrize("bed", BEDS)
def test_the_front_slows_down(bed):
    rates = [front(DAY, bed, depth_m)[0] for depth_m in (0.0, 0.002, 0.01, 0.02)]
    assert rates == sorted(rates, reverse=True)
    assert rates[-1] > 0


def test_the_air_dry_water_stays():
    """All that a m² of 30 mm can lose: 33 kg of dry sand times the water above that of air-dry sand."""
    assert most_kg_m2(LAYER) == pytest.approx(33 * (0.04 / 0.96 - AIR_DRY))
    assert most_kg_m2(replace(LAYER, moisture=0.004)) == 0.0
    assert lost_kg_m2(1000.0, DAY, replace(LAYER, moisture=0.004)) == 0.0


def test_saturated_air_takes_nothing():
    wet_air = replace(DAY, humidity_pct=100.0)
    assert lost_kg_m2(100.0, wet_air, LAYER) == 0.0
    assert hours_to_lose(0.1, wet_air, LAYER) is None
    assert hours_to_lose(0.0, wet_air, LAYER) == 0.0


def test_saturated_air_dries_sand_that_is_warmed():
    assert lost_kg_m2(10.0, replace(DAY, humidity_pct=100.0), replace(LAYER, radiation_w_m2=200.0)) > 0


def test_water_is_gained_only_below_the_dew_point():
    """At 20 °C and 60 % the dew point is 12.0 °C."""
    for below_c, gains in ((5.0, True), (15.0, False)):
        cold = replace(LAYER, below_c=below_c, below_w_m2k=1000.0)
        assert (lost_kg_m2(10.0, DAY, cold) < 0) is gains
        assert (hours_to_lose(0.1, DAY, cold) is None) is gains


def test_what_dries_faster():
    usual = lost_kg_m2(5.0, DAY, LAYER)
    assert lost_kg_m2(5.0, replace(DAY, wind_m_s=3.0), LAYER) > usual
    assert lost_kg_m2(5.0, replace(DAY, temp_c=30.0), LAYER) > usual
    assert lost_kg_m2(5.0, replace(DAY, humidity_pct=30.0), LAYER) > usual
    assert lost_kg_m2(5.0, DAY, replace(LAYER, two_sided=True)) > usual
    assert lost_kg_m2(5.0, DAY, replace(LAYER, below_c=50.0)) > usual
    assert lost_kg_m2(5.0, DAY, replace(LAYER, leak_m_h=LID_LEAK_M_H)) < usual / 20


def test_two_faces_are_two_layers_of_half_the_depth():
    """With nothing from below: each face of 40 mm does what one face of 20 mm does."""
    one = Bed(depth_m=0.02, moisture=0.04, below_w_m2k=0.0)
    two = Bed(depth_m=0.04, moisture=0.04, two_sided=True)
    assert lost_kg_m2(30.0, DAY, two) == pytest.approx(2 * lost_kg_m2(30.0, DAY, one))


def test_wet_sand_first_loses_at_the_rate_of_a_wet_surface():
    wet = Bed(depth_m=0.03, moisture=0.09)
    hour_kg = lost_kg_m2(1.0, DAY, wet)
    assert lost_kg_m2(2.0, DAY, wet) == pytest.approx(2 * hour_kg)
    assert hour_kg == pytest.approx(3600 * drying_law(DAY, wet).surface_kg_m2s)


def test_no_wind_blows_under_a_cover():
    covered = replace(LAYER, leak_m_h=LID_LEAK_M_H)
    assert lost_kg_m2(5.0, DAY, covered) == lost_kg_m2(5.0, replace(DAY, wind_m_s=0.0), covered)


def test_the_wind_reaches_open_sand_and_none_under_a_cover():
    """5.7 + 3.8 times the wind, in W/m²K."""
    windy = replace(DAY, wind_m_s=2.0)
    assert film_w_m2k(windy, LAYER) == pytest.approx(13.3)
    assert film_w_m2k(windy, replace(LAYER, leak_m_h=LID_LEAK_M_H)) == pytest.approx(5.7)


@pytest.mark.parametrize(("two_sided", "depth_m"), [(False, 0.004), (True, 0.008)])
def test_the_water_of_both_stages_by_hand(two_sided, depth_m):
    """6 kg of water on 100 of dry sand: above 5 it leaves a wet face, 1000 · 0.01 · 4 mm; the front takes the rest down to air-dry sand."""
    bed = Bed(depth_m=depth_m, moisture=6 / 106, dry_kg_m3=1000.0, two_sided=two_sided)
    assert bed.first_kg_m2 == pytest.approx(0.04)
    assert bed.front_kg_m3 == pytest.approx(1000 * (0.05 - AIR_DRY))
    assert replace(bed, depth_m=0.2).first_kg_m2 == pytest.approx(0.5), "from at most 50 mm"
    assert (replace(bed, moisture=0.04).first_kg_m2, replace(bed, moisture=0.001).front_kg_m3) == (0, 0)
    assert replace(bed, moisture=0.04).front_kg_m3 == pytest.approx(1000 * (0.04 / 0.96 - AIR_DRY))
