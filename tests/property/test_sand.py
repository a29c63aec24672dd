"""Every verb of Sand accounts for every gram, whatever the sand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sandmix import Sand
from sandmix.materials.sand import PARTS

MASS = st.floats(0, 1000)
SHARE = st.floats(0, 1)
SANDS = st.builds(Sand, **dict.fromkeys(PARTS, MASS))


def masses(*sands):
    return [sum(getattr(sand, part) for sand in sands) for part in PARTS]


def close(sand):
    return pytest.approx(masses(sand), rel=1e-12, abs=1e-9)


@given(SANDS, SANDS)
def test_mixing_conserves_every_mass(one, other):
    assert masses(one + other) == masses(one, other)


@given(SANDS, SHARE)
def test_taking_conserves_every_mass(sand, share):
    taken, left = sand.take(share * sand.wet_kg)
    assert masses(taken, left) == close(sand)


@given(SANDS, SHARE)
def test_drying_loses_water_alone_and_says_how_much(sand, share):
    dried, vapour = sand.dry(share * sand.water_kg)
    assert masses(dried, vapour) == close(sand)
    assert vapour.dry_kg == 0
    assert dried.dry_kg == pytest.approx(sand.dry_kg)


@given(SANDS, MASS)
def test_wetting_adds_water_alone(sand, water):
    assert sand.wet(water).wet_kg == pytest.approx(sand.wet_kg + water)
    assert sand.wet(water).dry_kg == sand.dry_kg


@given(SANDS, SHARE, SHARE)
def test_burning_conserves_the_mass_with_its_gas(sand, live, organics):
    burnt, gas = sand.burn(live, organics)
    assert burnt.wet_kg + gas.wet_kg == pytest.approx(sand.wet_kg, rel=1e-12, abs=1e-9)
    assert burnt.live_clay_kg + burnt.dead_clay_kg == pytest.approx(sand.live_clay_kg + sand.dead_clay_kg)
    assert burnt.live_clay_kg <= sand.live_clay_kg


@given(SANDS, SHARE, SHARE)
def test_riddling_conserves_every_mass(sand, lumps, dust):
    through, lost = sand.riddle(lumps, dust)
    assert masses(through, lost) == close(sand)


@given(SANDS, SHARE)
def test_a_share_has_the_composition_of_the_whole(sand, share):
    part = sand.scaled(share)
    assert part.wet_kg == pytest.approx(share * sand.wet_kg, abs=1e-9)
    if part.wet_kg > 1e-6:
        assert part.moisture_pct_wet == pytest.approx(sand.moisture_pct_wet, abs=1e-6)


@given(SANDS)
def test_shares_are_between_nothing_and_all(sand):
    for share in (sand.moisture_pct_wet, sand.clay_pct_dry, sand.dead_fines_pct_dry):
        assert 0 <= share <= 100 * (1 + 1e-12)


@given(st.floats(0.05, 5000), st.floats(0, 25), st.floats(0, 60), st.floats(0, 40))
def test_a_heap_as_it_lies_gives_its_own_figures_back(wet, moisture, clay, fines):
    heap = Sand.lying(wet, moisture_pct_wet=moisture, clay_pct_dry=clay, other_fines_pct_dry=fines)
    assert heap.wet_kg == pytest.approx(wet)
    assert heap.moisture_pct_wet == pytest.approx(moisture, abs=1e-9)
    assert heap.clay_pct_dry == pytest.approx(clay, abs=1e-9)
    assert heap.dead_fines_pct_dry == pytest.approx(fines, abs=1e-9)
