"""Sand and its verbs: what went in is what came out and what was lost."""

import dataclasses

import pytest

from sandmix import Sand, SandmixError
from sandmix.materials.sand import PARTS

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


def test_no_sand_has_no_shares():
    assert (Sand().moisture_pct_wet, Sand().clay_pct_dry, Sand().dead_fines_pct_dry) == (0, 0, 0)


def test_a_heap_as_it_lies_is_taken_apart_by_its_bases():
    """40 kg at 2.5 % wet: 1 kg water, 39 dry; 8 % of dry 3.12, 2 % 0.78, 3 % 1.17."""
    heap = Sand.lying(40, moisture_pct_wet=2.5, clay_pct_dry=8, dead_clay_pct_dry=2, other_fines_pct_dry=3)
    assert masses(heap) == pytest.approx([33.93, 3.12, 0.78, 1.17, 0, 1.0])


def test_a_heap_may_be_nothing_but_clay_and_fines():
    assert Sand.lying(10, moisture_pct_wet=0, clay_pct_dry=60, other_fines_pct_dry=40).grain_kg == 0


def test_clay_and_fines_of_more_than_the_whole_are_refused():
    with pytest.raises(SandmixError, match="more than the dry sand"):
        Sand.lying(10, moisture_pct_wet=0, clay_pct_dry=60, other_fines_pct_dry=41)


@pytest.mark.parametrize("mass", [-1e-9, float("nan"), float("inf")])
def test_a_mass_is_a_number_of_0_or_more(mass):
    with pytest.raises(SandmixError, match="live clay"):
        Sand(live_clay_kg=mass)


def test_sands_mix_mass_by_mass():
    assert masses(USED + USED) == pytest.approx([2 * mass for mass in masses(USED)])


def test_a_shovelful_has_the_composition_of_the_heap():
    taken, left = USED.take(7)
    assert taken.wet_kg == pytest.approx(7)
    assert taken.clay_pct_dry == pytest.approx(USED.clay_pct_dry)
    assert masses(taken, left) == pytest.approx(masses(USED))


def test_all_of_it_can_be_taken_and_nothing_of_nothing():
    assert USED.take(USED.wet_kg)[1].wet_kg == 0
    assert Sand().take(0) == (Sand(), Sand())


def test_discarding_is_taking():
    assert USED.discard(3) == USED.take(3)


@pytest.mark.parametrize("wanted", [24, -1, float("nan")])
def test_more_than_there_is_cant_be_taken(wanted):
    with pytest.raises(SandmixError, match="can't be taken"):
        USED.take(wanted)


def test_water_goes_in_and_out():
    assert masses(USED.wet(0.5))[-1] == pytest.approx(1.3)
    dried, vapour = USED.dry(0.8)
    assert dried.water_kg == 0
    assert masses(dried, vapour) == pytest.approx(masses(USED))
    with pytest.raises(SandmixError, match="of water can't be taken"):
        USED.dry(0.81)


def test_heat_turns_live_clay_into_dead_clay_of_the_same_mass():
    burnt, gas = USED.burn(0.2, 0.5)
    assert burnt.live_clay_kg == pytest.approx(1.2)
    assert burnt.dead_clay_kg == pytest.approx(0.7)
    assert gas == Sand(organics_kg=0.05)
    assert burnt.wet_kg + gas.wet_kg == pytest.approx(USED.wet_kg)


def test_water_driven_off_is_not_counted_as_dead_clay():
    dried, _ = USED.dry(0.8)
    assert dried.dead_clay_kg == USED.dead_clay_kg


def test_the_riddle_keeps_lumps_of_the_whole_and_dust_of_the_fines_alone():
    """Lumps 10 % of 23.1 = 2.31; dust 5 % of the fines and clays left: 0.05 * 0.9 * 2.2 = 0.099."""
    through, lost = USED.riddle(0.1, 0.05)
    assert lost.wet_kg == pytest.approx(2.31 + 0.099)
    assert lost.grain_kg == pytest.approx(2.0)
    assert masses(through, lost) == pytest.approx(masses(USED))


@pytest.mark.parametrize("share", [-0.1, 1.1])
def test_a_share_is_between_nothing_and_all(share):
    with pytest.raises(SandmixError, match="can't burn"):
        USED.burn(share)
    with pytest.raises(SandmixError, match="can't be riddled out"):
        USED.riddle(0.1, share)


def test_a_sand_is_frozen():
    with pytest.raises(dataclasses.FrozenInstanceError):
        USED.grain_kg = 1  # type: ignore[misc]
