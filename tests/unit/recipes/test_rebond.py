"""Restoring used sand, by hand arithmetic: one case for each limit."""

from dataclasses import replace

import pytest

from sandmix import Sand
from sandmix.recipes import rebond
from sandmix.recipes.mix import BoughtMaterials
from sandmix.recipes.rebond import OutOfReach, RebondPlan, Target

HEAP = Sand(grain_kg=90, live_clay_kg=6, other_fines_kg=4, water_kg=2)
SOUND = BoughtMaterials(sand_moisture=0, clay_moisture=0, clay_activity=1)


def planned(**target):
    found = rebond.plan(HEAP, Target(**{"clay": 0.06, "moisture": 0, "dead_fines_limit": 0.06} | target), SOUND)
    assert isinstance(found, RebondPlan)
    return found


def test_a_heap_at_its_target_stays_as_it_is():
    found = planned(wet_kg=102, moisture=2 / 102)
    assert (found.discard_kg, found.sand_kg, found.clay_kg, found.binding) == (0, 0, 0, "nothing")
    assert found.water_balance_kg == pytest.approx(0, abs=1e-12)


def test_a_larger_target_is_filled_with_sand_clay_and_water():
    """150 dry at 8 %: 12 live, 6 there, 6 to add; sand 150 - 100 - 6 = 44; water 5 % of wet 7.895 - 2."""
    found = planned(wet_kg=150 / 0.95, moisture=0.05, clay=0.08)
    assert found.discard_kg == 0
    assert found.clay_kg == pytest.approx(6)
    assert found.sand_kg == pytest.approx(44)
    assert found.water_balance_kg == pytest.approx(150 / 19 - 2)
    assert found.after.clay_pct_dry == pytest.approx(8)


def test_a_heap_is_diluted_to_its_limit_with_clay_that_brings_dead_fines_of_its_own():
    """5 of 100 dry are dead; clay that is 80 % live brings 0.25 for each of live. M dry at 7 % and 4 % dead: 5 + 0.25 (0.07 M - 5) = 0.04 M."""
    heap = Sand(grain_kg=90, live_clay_kg=5, dead_clay_kg=3, other_fines_kg=2)
    target = Target(wet_kg=100, clay=0.07, moisture=0.03, dead_fines_limit=0.04)
    bought = BoughtMaterials(sand_moisture=0, clay_moisture=0, clay_activity=0.8)
    dry = 3.75 / 0.0225
    assert rebond.diluted_kg(heap, target, bought) == pytest.approx(dry / 0.97)
    assert rebond.diluted_kg(heap, replace(target, wet_kg=200), bought) == 200
    assert rebond.diluted_kg(heap, replace(target, dead_fines_limit=0.0175), bought) is None


def test_the_mass_binds_if_the_additions_exceed_it():
    """100 dry at 10 %: k (100 - 6) = 100 - 10, k = 0.9574; clay 10 - 5.745 = 4.255."""
    found = planned(wet_kg=100, clay=0.10)
    assert found.binding == "mass"
    assert found.discard_kg == pytest.approx(102 * (1 - 90 / 94))
    assert found.clay_kg == pytest.approx(10 - 6 * 90 / 94)
    assert found.sand_kg == 0


def test_live_clay_binds_if_the_heap_is_too_rich():
    """100 dry at 3 %: k 6 = 3, half stays; 50 of sand."""
    found = planned(wet_kg=100, clay=0.03)
    assert found.binding == "live_clay"
    assert found.discard_kg == pytest.approx(51)
    assert found.sand_kg == pytest.approx(50)
    assert found.clay_kg == pytest.approx(0, abs=1e-12)


def test_dead_fines_bind_if_they_are_too_many():
    """100 dry, limit 2 %: k 4 = 2, half stays; clay 6 - 3; sand 100 - 50 - 3."""
    found = planned(wet_kg=100, dead_fines_limit=0.02)
    assert found.binding == "dead_fines"
    assert (found.discard_kg, found.clay_kg, found.sand_kg) == (pytest.approx(51), pytest.approx(3), pytest.approx(47))
    assert found.after.dead_fines_pct_dry == pytest.approx(2)
    assert found.discarded.wet_kg == pytest.approx(51)


def test_the_inactive_part_of_a_new_clay_counts_as_dead_fines():
    """A clay that is half live: 10 dry bring 5 live and 5 dead. New sand of 100 at 5 %: 5 % dead at least."""
    found = rebond.plan(
        HEAP.scaled(0),
        Target(wet_kg=100, clay=0.05, moisture=0, dead_fines_limit=0.049),
        BoughtMaterials(clay_activity=0.5),
    )
    assert found == OutOfReach(least_dead_fines=pytest.approx(0.05))


def test_the_least_dead_fines_may_need_the_whole_heap():
    """A clean old heap at 6 % live and no fines, and a clay that is half live: keeping it all is cleanest."""
    clean = Sand(grain_kg=94, live_clay_kg=6)
    found = rebond.plan(
        clean, Target(wet_kg=100, clay=0.07, moisture=0, dead_fines_limit=0.001), BoughtMaterials(clay_activity=0.5)
    )
    assert isinstance(found, OutOfReach)
    share = (1 - 0.14) / (1 - 0.12)
    assert found.least_dead_fines == pytest.approx(0.07 - 0.06 * share)


def test_a_heap_that_is_only_too_wet_loses_water_and_no_sand():
    """Target 100 dry without water: the 2 kg dry off."""
    found = planned(wet_kg=100)
    assert found.discard_kg == 0
    assert found.water_balance_kg == pytest.approx(-2)
    assert found.after.water_kg == pytest.approx(0, abs=1e-12)


def test_without_a_limit_dead_fines_force_no_discard():
    assert planned(wet_kg=150, dead_fines_limit=None).discard_kg == 0


def test_a_limit_of_zero_discards_the_whole_heap():
    found = planned(wet_kg=100, dead_fines_limit=0.0)
    assert found.discard_kg == pytest.approx(102)
    assert found.after.dead_fines_pct_dry == 0


@pytest.mark.parametrize(
    ("live_kg", "clay", "grown"),
    [
        pytest.param(5.0, 0.07, 100 + 2 / 0.93, id="2 are missing, and make room for themselves"),
        pytest.param(5.5, 0.05, 110.0, id="5.5 is 5 % of 110"),
        pytest.param(0.0, 0.0, 100.0, id="no clay, and none wanted"),
        pytest.param(5.0, 0.0, None, id="clay, and none wanted"),
    ],
)
def test_the_mass_to_which_a_whole_heap_grows(live_kg, clay, grown):
    heap = Sand(grain_kg=100 - live_kg, live_clay_kg=live_kg)
    assert rebond.grown_kg(heap, clay=clay, moisture=0.0, activity=1.0) == (
        grown if grown is None else pytest.approx(grown)
    )
