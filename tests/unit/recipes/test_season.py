"""A season by hand, its masses, and that no way within the limit needs less."""

import math
import random

import pytest

from sandmix.recipes.mix import BoughtMaterials
from sandmix.recipes.season import (
    DILUTE,
    DUMP,
    EQUAL,
    HABIT,
    WAIT,
    Heap,
    Season,
    diluted_times,
    least_equal_share,
    least_shares,
    most_burnt,
    season,
)


def heap(**others):
    usual = {"dry_kg": 100.0, "clay": 0.1, "dead": 0.0, "burnt": 0.1, "kept": 1.0, "lost": 0.0, "moisture": 0.0}
    dry = BoughtMaterials(clay_moisture=0.0)
    return Heap(**(usual | {"materials": dry} | others))


def test_the_equal_share_of_two_casts_by_hand():
    """s + s² = 1.5: s = (√7 − 1)/2."""
    assert least_equal_share(0.0, 1.0, 1.5, 2) == pytest.approx(1 - (math.sqrt(7) - 1) / 2)


def test_what_is_lost_anyway_may_be_enough():
    assert least_equal_share(0.0, 1.0, 1.5, 2, lost=0.4) == 0.4
    assert least_shares(0.0, 1.0, 1.5, 2, lost=0.4) == (0.0, (0.4, 0.4))


def test_keep_then_the_least_by_hand():
    """1, 2, then 3 to 2.5 needs a sixth, then 3.5 to 2.5 two sevenths, again and again."""
    now, shares = least_shares(0.0, 1.0, 2.5, 5)
    assert now == 0
    assert shares == pytest.approx((0, 0, 1 / 6, 2 / 7, 2 / 7))


def test_from_above_the_limit_one_replacement_comes_first():
    """From 8 down to 3 − 1 − 1 = 1 now costs 7/8 and two casts are free; down to 3 only: 5/8 and twice a quarter. Down to 2: 6/8 + 1/4."""
    now, shares = least_shares(8.0, 1.0, 3.0, 2)
    assert now == pytest.approx(7 / 8)
    assert shares == (0.0, 0.0)


def test_a_diluted_heap_by_hand():
    """1 + 10 × 0.5 = 6 masses of dead fines at a limit of 2."""
    assert diluted_times(1.0, 0.5, 2.0, 10) == pytest.approx(3)
    assert diluted_times(0.0, 0.1, 2.0, 10) == 1
    with_losses = diluted_times(1.0, 0.5, 2.0, 10, lost=0.05)
    dead = 1.0
    for _ in range(10):
        dead = (1 - 0.05 / with_losses) * (dead + 0.5)
    assert dead == pytest.approx(2 * with_losses)


def test_a_season_as_today_by_hand():
    """Of 100 kg with 10 % clay a tenth burns and a fifth is replaced: live 10 (0.1 + 0.2 − 0.02) = 2.8 kg, sand 20 − 2.8, twice."""
    one = season(heap(), HABIT, 0.05, 2, 0.2)
    assert (one.clay_kg, one.sand_kg) == (pytest.approx(5.6), pytest.approx(34.4))
    assert one.discard_kg == pytest.approx(40)
    assert one.dead == pytest.approx((0, 0.8 * 0.01, 0.8 * 0.018))
    assert one.above(0.009) == 1


def test_what_is_idle_in_the_clay_is_always_there():
    """A clay of which a half is live brings as much again: 10 % idle at 10 % live, and with what replaces 1 % burnt, 1 % more.

    By masses: 12 and 1 kg dead, half of it stays: 6.5. Live 9 kg, half stays: 4.5, so 5.5 come, and 5.5 idle with them: 12.
    """
    half = heap(dead=0.12, materials=BoughtMaterials(clay_activity=0.5, clay_moisture=0.0))
    assert (half.idle, half.grows) == (pytest.approx(0.1), pytest.approx(0.02))
    one = season(half, HABIT, 0.2, 1, 0.5)
    assert one.dead[-1] == pytest.approx(0.12)
    assert one.clay_kg == pytest.approx(11)


def test_the_dump_is_a_whole_heap():
    """1 % a cast and a limit of 2.5 %: after two casts the third heap is new."""
    one = season(heap(), DUMP, 0.025, 6, 0.2)
    assert one.shares == (0, 0, 1, 0, 0, 1)
    assert one.dead == pytest.approx((0, 0.01, 0.02, 0, 0.01, 0.02, 0))
    assert one.discard_kg == pytest.approx(200)


def test_every_way_but_todays_keeps_the_limit_and_none_needs_less_than_keeping():
    rng = random.Random(21)
    for _ in range(200):
        lost = rng.choice([0.0, rng.random() * 0.1])
        one = heap(
            dead=rng.uniform(0, 0.15),
            clay=rng.uniform(0.02, 0.12),
            burnt=rng.uniform(0, 0.3),
            kept=rng.random(),
            lost=lost,
            materials=BoughtMaterials(clay_activity=rng.uniform(0.8, 1)),
        )
        limit, casts = one.idle + rng.uniform(0.005, 0.06), rng.randint(1, 40)
        ways = {way: season(one, way, limit, casts, lost + 0.1) for way in (WAIT, EQUAL, DUMP, DILUTE, HABIT)}
        for way in (WAIT, EQUAL, DUMP, DILUTE):
            assert ways[way].above(limit) == 0, way
            assert min(ways[way].shares) >= lost - 1e-15
            assert ways[way].dead[0] <= limit + 1e-9
        for way in (EQUAL, DUMP):
            assert ways[WAIT].whole_heaps <= ways[way].whole_heaps + 1e-9
            assert ways[WAIT].sand_kg <= ways[way].sand_kg + 1e-6
            assert ways[WAIT].now > 0 or ways[WAIT].clay_kg <= ways[way].clay_kg + 1e-6
        masses = [
            mass for each in ways.values() for mass in (each.sand_kg, each.clay_kg, each.water_kg, each.discard_kg)
        ]
        assert all(math.isfinite(mass) and mass >= 0 for mass in masses)


def test_the_most_that_may_burn_brings_the_heap_to_its_limit_at_the_last_cast():
    """With 2 % lost, three casts that burn so much end exactly at the limit; a little more, and something must be replaced."""
    one = heap(dead=0.02, lost=0.02)
    most = most_burnt(one, 0.05, 3)
    assert season(heap(dead=0.02, lost=0.02, burnt=most), WAIT, 0.05, 3, 0.02).dead[-1] == pytest.approx(0.05)
    assert sum(season(heap(dead=0.02, lost=0.02, burnt=1.01 * most), WAIT, 0.05, 3, 0.02).shares) > 0.06 + 1e-6


def test_the_most_that_may_burn_by_hand_and_where_there_is_none():
    """Nothing lost, 2 % there, 5 % allowed, 10 % live clay of which all that burns stays: 3 % in three casts is 10 % of the clay each."""
    one = heap(dead=0.02, clay=0.10, kept=1.0, lost=0.0, materials=BoughtMaterials(clay_activity=1.0))
    assert most_burnt(one, 0.05, 3) == pytest.approx(0.1)
    assert most_burnt(one, 0.01, 3) is None
    assert most_burnt(heap(dead=0.02, kept=0.0, materials=BoughtMaterials(clay_activity=1.0)), 0.05, 3) is None


def test_a_heap_is_diluted_as_far_as_its_last_cast_needs():
    """Two casts bring 0.03 to 0.06 of the old mass; within 4 % that is one and a half heaps."""
    assert diluted_times(0.03, 0.015, 0.04, 2) == pytest.approx(1.5)


def test_only_what_comes_after_a_cast_counts_as_above_the_limit():
    one = Season(
        way=EQUAL,
        now=0.0,
        shares=(0.1,) * 3,
        dead=(0.07, 0.05, 0.06, 0.055),
        times=1,
        sand_kg=0,
        clay_kg=0,
        water_kg=0,
        discard_kg=0,
    )
    assert [one.above(limit) for limit in (0.045, 0.055, 0.06)] == [3, 1, 0]


def test_what_damp_materials_bring_is_less_water_to_add():
    """Half of 100 kg is replaced by sand with 2 % of water: 50 · 2/98 = 1.0204 of 50 · 3.5/96.5 = 1.8135 kg. 50 kg of the heap leave with theirs."""
    materials = BoughtMaterials(sand_moisture=0.02, clay_moisture=0.0)
    found = season(heap(clay=0.0, moisture=0.035, materials=materials), HABIT, 0.06, 1, 0.5)
    assert (found.sand_kg, found.clay_kg) == pytest.approx((50 / 0.98, 0))
    assert found.water_kg == pytest.approx(1.8135 - 1.0204, abs=1e-4)
    assert found.discard_kg == pytest.approx(50 / 0.965)


def test_sand_damper_than_the_heap_needs_no_water():
    materials = BoughtMaterials(sand_moisture=0.05, clay_moisture=0.0)
    assert season(heap(clay=0.0, moisture=0.035, materials=materials), HABIT, 0.06, 1, 0.5).water_kg == 0


def test_where_each_cast_loses_all_sand_only_the_first_replacement_is_a_choice():
    """From 3 to the limit of 2 a third goes at once; then everything goes at each cast anyway."""
    now, shares = least_shares(3.0, 0.5, 2.0, 3, lost=1.0)
    assert now == pytest.approx(1 / 3)
    assert shares == (1.0, 1.0, 1.0)
