"""Metals: heat figures, the metal that an unknown figure is taken from, and melting losses."""

import pytest

from sandmix.language.sources import SOURCES
from sandmix.materials.metals import METALS, SCRAPS, thermal

# solid and liquid kg/m³, solid and liquid J/kgK, latent kJ/kg, solidus, liquidus °C, W/mK; None where the table has a blank
TABLE = {
    "aluminium": (2700, 2370, 1050, 1180, 397, 660, 660, 200),
    "al_si7mg": (2680, 2430, 963, None, 389, 557, 613, 167),
    "al_si12": (2650, None, None, None, None, 565, 575, None),
    "al_6061": (2700, None, 896, None, 390, 582, 652, None),
    "tin_bronze": (8700, 7950, 430, 480, 190, 880, 1000, 60),
    "yellow_brass": (8450, 7700, 390, None, 165, 885, 900, None),
    "grey_iron": (7200, 6950, 750, 850, 230, 1150, 1200, 35),
}


@pytest.mark.parametrize(("key", "row"), TABLE.items())
def test_each_row_is_that_of_the_table(key, row):
    metal = METALS[key]
    figures = (
        metal.solid_kg_m3,
        metal.liquid_kg_m3,
        metal.solid_j_kgk,
        metal.liquid_j_kgk,
        metal.latent_kj_kg,
        metal.solidus_c,
        metal.liquidus_c,
        metal.conductivity_w_mk,
    )
    assert figures == row


def test_the_figures_of_the_zinc_alloy_and_silicon_brass():
    """ZA-12 6000 kg/m³, 450 J/kgK, 120 kJ/kg, 380 to 430 °C; silicon brass 8150 kg/m³, liquidus 871 °C."""
    zinc, brass = METALS["zinc_al12"], METALS["silicon_brass"]
    figures = (zinc.solid_kg_m3, zinc.solid_j_kgk, zinc.latent_kj_kg, zinc.solidus_c, zinc.liquidus_c)
    assert figures == (6000, 450, 120, 380, 430)
    assert (brass.solid_kg_m3, brass.liquidus_c) == (8150, 871)


@pytest.mark.parametrize("key", ["aluminium", "tin_bronze", "zinc_al12", "grey_iron"])
def test_a_metal_without_blanks_borrows_nothing(key):
    assert thermal(key).borrowed == ()


def test_a_blank_is_taken_from_a_similar_metal():
    """Al-Si7Mg has no liquid heat: pure aluminium's 1180."""
    assert thermal("al_si7mg").liquid_j_kgk == 1180
    assert thermal("al_si7mg").borrowed == (("liquid specific heat", "aluminium"),)


def test_a_blank_of_the_similar_metal_is_taken_from_the_next_one():
    """Al-Si12 takes 2430, 963, 389 and 167 from Al-Si7Mg, and the liquid heat from aluminium, since Al-Si7Mg has none."""
    borrowed = dict(thermal("al_si12").borrowed)
    assert borrowed.pop("liquid specific heat") == "aluminium"
    assert borrowed == dict.fromkeys(
        ("liquid density", "solid specific heat", "latent heat", "conductivity"), "al_si7mg"
    )
    metal = thermal("al_si12")
    assert (metal.liquid_kg_m3, metal.solid_j_kgk, metal.liquid_j_kgk) == (2430, 963, 1180)
    assert (metal.latent_j_kg, metal.conductivity_w_mk) == (389_000, 167)


def test_known_figures_are_never_replaced():
    """6061 keeps its 2700, 896, 390 and range; silicon brass its density and range, the rest from both copper alloys."""
    scrap = thermal("al_6061")
    assert (scrap.solid_kg_m3, scrap.solid_j_kgk, scrap.latent_j_kg, scrap.solidus_c) == (2700, 896, 390_000, 582)
    brass = thermal("silicon_brass")
    assert (brass.solid_kg_m3, brass.liquidus_c) == (8150, 871)
    assert (brass.liquid_kg_m3, brass.solid_j_kgk, brass.latent_j_kg) == (7700, 390, 165_000)
    assert (brass.liquid_j_kgk, brass.conductivity_w_mk) == (480, 60)


@pytest.mark.parametrize("metal", METALS.values(), ids=lambda metal: metal.key)
def test_the_usual_pour_temperature_is_above_the_liquidus_and_in_its_band(metal):
    assert metal.liquidus_c < metal.pour_c[0] <= metal.pour_temp_c <= metal.pour_c[1]
    assert metal.solidus_c <= metal.liquidus_c


@pytest.mark.parametrize("metal", METALS.values(), ids=lambda metal: metal.key)
def test_figures_are_read_or_named_as_from_memory(metal):
    assert SOURCES[metal.source].how_sure == ("memory" if metal.source == "memory" else "read")
    assert metal.from_memory or metal.source != "memory"


@pytest.mark.parametrize("key", METALS)
def test_each_metal_ends_up_with_all_figures(key):
    metal = thermal(key)
    assert metal.key == key
    assert metal.liquid_kg_m3 < metal.solid_kg_m3
    assert min(metal.solid_j_kgk, metal.liquid_j_kgk, metal.latent_j_kg, metal.conductivity_w_mk) > 0


def test_the_bands_of_pour_temperatures():
    """Aluminium 680 to 750, brass 1040 to 1100, bronze 1100 to 1200, iron 1320 to 1440 °C."""
    bands = {key: METALS[key].pour_c for key in ("aluminium", "yellow_brass", "tin_bronze", "grey_iron")}
    assert bands == {
        "aluminium": (680, 750),
        "yellow_brass": (1040, 1100),
        "tin_bronze": (1100, 1200),
        "grey_iron": (1320, 1440),
    }


def test_thinner_scrap_loses_more():
    """Ingot 1 to 2 %, offcuts 2 to 4, turnings 8 to 15, cans 15 to 30."""
    assert {key: scrap.loss_pct for key, scrap in SCRAPS.items()} == {
        "ingot": (1, 2),
        "offcuts": (2, 4),
        "turnings": (8, 15),
        "cans": (15, 30),
    }
