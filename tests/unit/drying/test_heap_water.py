"""How a heap's water moves on days that nobody records, from changes given by hand. Expected figures are by hand from the rules, or from a
numerical integral."""

import math

import pytest

from sandmix.drying.evaporation import SPREAD_KG_M3, Bed, lost_kg_m2
from sandmix.drying.heap_water import AIR, COVERS, LID, OPEN, Cover, Exposure, Move, expected, exposure, rates, seen
from sandmix.drying.moist_air import Air
from sandmix.language.timestamps import DAY_S
from sandmix.materials.sand import Sand


def under_lid(days, lost):
    return Move(exposure=Exposure(days=(days, 0.0, 0.0), counts=(days, 0.0, 0.0)), lost_pct=lost, error_pct2=0.05)


def test_before_three_tests_the_own_rule_counts_and_the_moisture_stays():
    for moves in ([], [under_lid(7, 0.3)] * 2):
        days = expected(moves, Exposure(days=(7.0, 0.0, 0.0), counts=(7.0, 0.0, 0.0)))
        assert (days.lost_pct, days.variance_pct2) == (0, pytest.approx((0.3 / 1.96) ** 2 * 7))


def test_from_three_tests_on_the_heap_is_expected_to_dry_as_it_did():
    """Every week 0.3 points: near 0.3 in the next."""
    moves = [under_lid(7, 0.3)] * 8
    assert seen(moves) == (LID,)
    days = expected(moves, Exposure(days=(7.0, 0.0, 0.0), counts=(7.0, 0.0, 0.0)))
    assert days.lost_pct == pytest.approx(0.3, abs=0.06)
    assert days.variance_pct2 < (0.3 / 1.96) ** 2 * 7


def test_what_was_learned_under_the_lid_says_nothing_of_the_open():
    in_the_open = Exposure(days=(0.0, 4.0, 0.0), counts=(0.0, 4.0, 0.0))
    days = expected([under_lid(7, 0.3)] * 8, in_the_open)
    assert (days.lost_pct, days.variance_pct2) == (0, pytest.approx((1 / 1.96) ** 2 * 4))


def test_known_air_takes_what_the_evaporation_computes():
    """A day at 20 °C, 60 % and 1 m/s over 0.3 m²; the loss in points of what is left."""
    sand = Sand.lying(40, moisture_pct_wet=3.5, clay_pct_dry=7, other_fines_pct_dry=0)
    air = Air(temp_c=20, humidity_pct=60, wind_m_s=1)
    cover = Cover(at_s=0.0, open=True, air=air, area_m2=0.3)
    counted = exposure(0.0, [cover], DAY_S, sand)
    depth_m = 38.6 / SPREAD_KG_M3 / 0.3
    lost_kg = 0.3 * lost_kg_m2(24, air, Bed(depth_m=depth_m, moisture=0.035))
    assert counted.counts[COVERS.index(AIR)] == pytest.approx(3.5 - 100 * (1.4 - lost_kg) / (40 - lost_kg))
    assert expected([], counted).lost_pct == pytest.approx(counted.counts[COVERS.index(AIR)])


def test_without_air_or_sand_nothing_is_computed():
    sand = Sand.lying(40, moisture_pct_wet=3.5, clay_pct_dry=7, other_fines_pct_dry=0)
    in_air = Cover(at_s=0.0, open=True, air=Air(temp_c=20, humidity_pct=60), area_m2=0.3)
    assert Cover(at_s=0.0, open=True).computed_pct(24.0, sand) == 0
    assert in_air.computed_pct(24.0, None) == 0
    assert in_air.computed_pct(24.0, Sand()) == 0
    assert in_air.computed_pct(24.0, sand) > 0


def test_a_thin_layer_loses_all_but_what_clay_keeps_in_air():
    """1 cm for 30 days: of 1.4 kg on 38.6 kg dry 0.5 % of the dry mass stays, 0.193 kg, which is 0.4975 % of what is left."""
    sand = Sand.lying(40, moisture_pct_wet=3.5, clay_pct_dry=7, other_fines_pct_dry=0)
    air = Air(temp_c=20, humidity_pct=60, wind_m_s=1)
    spread = Cover(at_s=0.0, open=True, air=air, area_m2=38.6 / SPREAD_KG_M3 / 0.01)
    assert spread.computed_pct(30 * 24, sand) == pytest.approx(3.5 - 100 * 0.193 / 38.793)


def test_known_air_is_given_or_taken_a_factor_of_2():
    counts = Exposure(days=(0.0, 0.0, 1.0), counts=(0.0, 0.0, 0.8))
    days = expected([], counts)
    assert days.variance_pct2 == pytest.approx((0.8 * math.log(2) / 1.96) ** 2 + (0.3 / 1.96) ** 2)


def test_known_air_is_corrected_by_own_tests():
    """Four times twice as much as computed."""
    in_air = Exposure(days=(0.0, 0.0, 1.0), counts=(0.0, 0.0, 0.5))
    mean, _ = rates([Move(exposure=in_air, lost_pct=1.0, error_pct2=0.005)] * 6).rate(COVERS.index(AIR))
    assert 1.6 < mean < 2.0


def test_covers_are_named_in_the_order_of_their_rates():
    assert COVERS == (LID, OPEN, AIR)


def test_a_heap_that_read_wetter_and_wetter_stays_and_its_range_grows():
    """0.4 points more each week, six times: a sealed heap makes no water, but the next test may read as much more."""
    moves = [under_lid(7, -0.4)] * 6
    days = expected(moves, Exposure(days=(70.0, 0.0, 0.0), counts=(70.0, 0.0, 0.0)))
    assert days.lost_pct == 0
    assert days.variance_pct2 > 2.0**2


@pytest.mark.parametrize(
    ("is_open", "air", "area_m2", "kind"),
    [(True, True, 0.3, "air"), (True, True, 0.0, "open"), (True, False, 0.3, "open"), (False, True, 0.3, "lid")],
)
def test_the_air_counts_only_in_the_open_and_with_a_surface(is_open, air, area_m2, kind):
    known = Air(temp_c=20, humidity_pct=60) if air else None
    assert Cover(at_s=0.0, open=is_open, air=known, area_m2=area_m2).kind == kind
