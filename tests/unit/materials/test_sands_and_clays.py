"""Clays and metals against their definitions."""

import pytest

from sandmix.language.sources import SOURCES
from sandmix.materials.metals import METALS
from sandmix.materials.sands_and_clays import CLAYS

LIGHT = {"aluminium", "al_si7mg", "al_si12", "al_6061", "zinc_al12"}


def test_the_keys_are_those_of_the_json_door():
    assert list(METALS) == [
        "aluminium",
        "al_si7mg",
        "al_si12",
        "al_6061",
        "tin_bronze",
        "yellow_brass",
        "silicon_brass",
        "zinc_al12",
        "grey_iron",
    ]
    assert list(CLAYS) == ["sodium_bentonite", "calcium_bentonite", "clay_granules"]


@pytest.mark.parametrize("metal", METALS.values(), ids=lambda metal: metal.key)
def test_copper_alloys_and_iron_have_lower_moisture_limits(metal):
    limits = (metal.target_moisture_pct_wet, metal.amber_moisture_pct_wet, metal.red_moisture_pct_wet)
    assert limits == ((3.5, 4.5, 6.0) if metal.key in LIGHT else (3.1, 4.0, 5.25))


SOLID = {
    "aluminium": 2700,
    "al_si7mg": 2680,
    "al_si12": 2650,
    "al_6061": 2700,
    "tin_bronze": 8700,
    "yellow_brass": 8450,
    "silicon_brass": 8150,
    "zinc_al12": 6000,
    "grey_iron": 7200,
}


@pytest.mark.parametrize(("metal", "density"), SOLID.items())
def test_solid_densities(metal, density):
    """Handbook figures, partly from memory: ρ solid."""
    assert METALS[metal].solid_kg_m3 == density


def test_bentonite_counts_as_all_live_and_granules_as_50_to_85_percent():
    """By definition: 100 for the two bentonites; granules need a figure, or have the range 50 to 85."""
    assert CLAYS["sodium_bentonite"].activity_band_pct[1] == CLAYS["calcium_bentonite"].activity_band_pct[1] == 100
    assert CLAYS["clay_granules"].activity_band_pct == (50, 85)
    assert [clay.key for clay in CLAYS.values() if clay.tested_only] == ["clay_granules"]


@pytest.mark.parametrize("record", [*METALS.values(), *CLAYS.values()], ids=lambda record: record.key)
def test_each_record_has_a_source(record):
    assert record.source in SOURCES
