"""Sand: its masses, its shares, and the sands that come from it."""

import dataclasses
from dataclasses import replace

import pytest

from sandmix import Sand, SandmixError
from sandmix.materials.sand import PARTS, Masses, water_at

USED = Sand(grain_kg=20, live_clay_kg=1.5, dead_clay_kg=0.4, other_fines_kg=0.3, organics_kg=0.1, water_kg=0.8)


def masses(*sands):
    return [sum(getattr(sand, part) for sand in sands) for part in PARTS]


def test_dry_mass_is_all_but_the_water():
    assert USED.dry_kg == pytest.approx(22.3)
    assert USED.wet_kg == pytest.approx(23.1)


def test_moisture_is_a_share_of_wet_and_clay_of_dry():
    assert USED.moisture_pct_wet == pytest.approx(100 * 0.8 / 23.1)
    assert USED.clay_pct_dry == pytest.approx(100 * 1.5 / 22.3)
    assert USED.dead_fines_pct_dry == pytest.approx(100 * 0.7 / 22.3)


def test_the_shares_of_no_sand_are_zero():
    assert (Sand().moisture_pct_wet, Sand().clay_pct_dry, Sand().dead_fines_pct_dry) == (0, 0, 0)


def test_a_heap_as_it_lies_is_divided_by_the_basis_of_each_share():
    """40 kg at 2.5 % wet: 1 kg water, 39 dry; 8 % of dry 3.12, 2 % 0.78, 3 % 1.17."""
    heap = Sand.lying(40, moisture_pct_wet=2.5, clay_pct_dry=8, dead_clay_pct_dry=2, other_fines_pct_dry=3)
    assert masses(heap) == pytest.approx([33.93, 3.12, 0.78, 1.17, 0, 1.0])


def test_a_heap_may_be_clay_and_fines_only():
    assert Sand.lying(10, moisture_pct_wet=0, clay_pct_dry=60, other_fines_pct_dry=40).grain_kg == 0


def test_clay_and_fines_above_the_whole_are_refused():
    with pytest.raises(SandmixError, match="more than the dry sand"):
        Sand.lying(10, moisture_pct_wet=0, clay_pct_dry=60, other_fines_pct_dry=41)


@pytest.mark.parametrize("mass", [-1e-9, float("nan"), float("inf")])
def test_a_mass_is_a_number_of_0_or_more(mass):
    with pytest.raises(SandmixError, match="live clay"):
        Sand(live_clay_kg=mass)


def test_sands_mix_mass_by_mass():
    assert masses(USED + USED) == pytest.approx([2 * mass for mass in masses(USED)])


def test_a_scaled_sand_has_the_same_composition():
    part = USED.scaled(0.3)
    assert masses(part) == pytest.approx([0.3 * mass for mass in masses(USED)])
    assert part.clay_pct_dry == pytest.approx(USED.clay_pct_dry)


def test_what_is_left_of_a_sand_is_never_below_zero():
    left = USED.less(Sand(grain_kg=5, live_clay_kg=2))
    assert masses(left) == pytest.approx([15, 0, 0.4, 0.3, 0.1, 0.8])


def test_a_clipped_sand_counts_what_is_below_zero_as_zero():
    assert Sand.clipped(Masses(grain_kg=2.0, water_kg=-1e-9)) == Sand(grain_kg=2.0)


def test_water_goes_in_and_out():
    assert USED.wet(0.5).water_kg == pytest.approx(1.3)
    assert USED.wet(-0.8) == replace(USED, water_kg=0.0)
    with pytest.raises(SandmixError, match="of water can't be taken"):
        USED.wet(-0.81)


def test_a_sand_at_a_moisture_keeps_its_dry_mass():
    """4 % of the wet mass: 22.3 dry hold 22.3 · 0.04/0.96 = 0.929167 kg of water."""
    damp = USED.at_moisture(0.04)
    assert damp.water_kg == USED.water_at(0.04) == water_at(22.3, 0.04) == pytest.approx(0.929167, abs=1e-6)
    assert damp.moisture_pct_wet == pytest.approx(4)
    assert damp.dry_kg == USED.dry_kg


def test_each_kind_of_fines_is_a_share_of_dry():
    assert USED.dead_clay_pct_dry == pytest.approx(100 * 0.4 / 22.3)
    assert USED.other_fines_pct_dry == pytest.approx(100 * 0.3 / 22.3)
    assert USED.washed_pct_dry == pytest.approx(100 * 2.2 / 22.3)


def test_a_sand_is_frozen():
    with pytest.raises(dataclasses.FrozenInstanceError):
        USED.grain_kg = 1  # type: ignore[misc]


def test_masses_that_add_up_to_no_number_are_still_masses():
    assert Sand(grain_kg=1.7e308, water_kg=1.7e308).grain_kg == 1.7e308


def test_masses_below_zero_are_clipped_to_zero():
    masses = Masses(grain_kg=-1, live_clay_kg=-0.5, dead_clay_kg=-1, other_fines_kg=-0.1, organics_kg=-2, water_kg=-1)
    assert Sand.clipped(masses) == Sand()
    assert Sand.clipped(replace(masses, water_kg=3)) == Sand(water_kg=3)
