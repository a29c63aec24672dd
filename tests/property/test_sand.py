"""Sand and its changes account for every gram, whatever the sand."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sandmix import Sand
from sandmix.materials.delta import Delta
from sandmix.materials.sand import PARTS

MASS = st.floats(0, 1000)
SHARE = st.floats(0, 1)
SANDS = st.builds(Sand, **dict.fromkeys(PARTS, MASS))
CHANGES = st.builds(Delta, **dict.fromkeys(PARTS, st.floats(-1000, 1000)))


def masses(*sands):
    return [sum(getattr(sand, part) for sand in sands) for part in PARTS]


@given(SANDS, SANDS)
def test_mixing_conserves_every_mass(one, other):
    assert masses(one + other) == masses(one, other)


@given(SANDS, SANDS)
def test_what_is_taken_out_and_what_is_left_are_the_whole(one, other):
    left = (one + other).less(other)
    assert masses(left) == pytest.approx(masses(one), rel=1e-9, abs=1e-9)


@given(SANDS, SHARE)
def test_drying_loses_water_alone(sand, share):
    dried = sand.wet(-share * sand.water_kg)
    assert dried.water_kg == pytest.approx((1 - share) * sand.water_kg, abs=1e-9)
    assert dried.dry_kg == sand.dry_kg


@given(SANDS, MASS)
def test_wetting_adds_water_alone(sand, water):
    assert sand.wet(water).wet_kg == pytest.approx(sand.wet_kg + water)
    assert sand.wet(water).dry_kg == sand.dry_kg


@given(SANDS, st.floats(0, 0.9))
def test_a_sand_at_a_moisture_has_that_moisture(sand, moisture):
    damp = sand.at_moisture(moisture)
    assert damp.dry_kg == sand.dry_kg
    if sand.dry_kg > 1e-6:
        assert damp.moisture_pct_wet == pytest.approx(100 * moisture, abs=1e-9)


@given(CHANGES, CHANGES)
def test_changes_add_up_in_any_order(one, other):
    assert one.plus(other).by_part() == other.plus(one).by_part()
    assert one.plus(other).wet_kg == pytest.approx(one.wet_kg + other.wet_kg, rel=1e-9, abs=1e-9)


@given(CHANGES)
def test_a_stored_change_is_read_back_the_same(change):
    assert Delta.from_dict(json.loads(json.dumps(change.to_dict()))) == change


@given(SANDS, SHARE)
def test_a_share_has_the_composition_of_the_whole(sand, share):
    part = sand.scaled(share)
    assert part.wet_kg == pytest.approx(share * sand.wet_kg, abs=1e-9)
    if part.wet_kg > 1e-6:
        assert part.moisture_pct_wet == pytest.approx(sand.moisture_pct_wet, abs=1e-6)


@given(SANDS)
def test_shares_are_between_0_and_100_percent(sand):
    for share in (sand.moisture_pct_wet, sand.clay_pct_dry, sand.dead_fines_pct_dry):
        assert 0 <= share <= 100 * (1 + 1e-12)


@given(st.floats(0.05, 5000), st.floats(0, 25), st.floats(0, 60), st.floats(0, 40))
def test_a_heap_made_from_its_own_figures_is_the_same(wet, moisture, clay, fines):
    heap = Sand.lying(wet, moisture_pct_wet=moisture, clay_pct_dry=clay, other_fines_pct_dry=fines)
    assert heap.wet_kg == pytest.approx(wet)
    assert heap.moisture_pct_wet == pytest.approx(moisture, abs=1e-9)
    assert heap.clay_pct_dry == pytest.approx(clay, abs=1e-9)
    assert heap.dead_fines_pct_dry == pytest.approx(fines, abs=1e-9)
