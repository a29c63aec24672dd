"""A new mix, by hand arithmetic."""

import pytest

from sandmix.recipes import mix

PLAIN = mix.BoughtMaterials(sand_moisture=0.0, clay_moisture=0.0, clay_activity=1.0)


def test_clay_per_sand_and_per_dry_mix_are_inverse():
    """12 to 100 of a clay that is 80 % live: product 15, dry mix 115, 12 / 115."""
    assert mix.clay_from_sand_basis(0.12, 0.8) == pytest.approx(12 / 115)
    assert mix.clay_per_sand(12 / 115, 0.8) == pytest.approx(0.12)
    assert mix.clay_from_sand_basis(0.12) == pytest.approx(12 / 112)


def test_parts_and_share_are_inverse():
    share = mix.clay_from_parts(9, 1, 1.442, 0.8)
    assert share == pytest.approx(0.8 / (9 * 1.442 + 0.8))
    assert mix.parts_sand_per_clay(share, 1.442, 0.8) == pytest.approx(9)


def test_the_water_in_sand_and_clay_is_counted():
    """100 dry at 8 % live; clay 50 % live: 16 dry; sand 84 dry. Moist sand 4 %: 87.5; clay 20 %: 20. Target 5 % of 105.263."""
    weights = mix.design(
        dry_kg=100,
        clay=0.08,
        moisture=0.05,
        materials=mix.BoughtMaterials(sand_moisture=0.04, clay_moisture=0.2, clay_activity=0.5),
    )
    assert weights.sand.wet_kg == pytest.approx(87.5)
    assert weights.clay.wet_kg == pytest.approx(20)
    assert weights.mix.wet_kg == pytest.approx(100 / 0.95)
    assert weights.water_balance_kg == pytest.approx(5 / 0.95 - 3.5 - 4)
    assert weights.with_all_its_water.wet_kg == pytest.approx(107.5)
    assert weights.mix.other_fines_kg == pytest.approx(8)


def test_the_parts_weighed_in_add_up_to_the_mix():
    weights = mix.design(
        dry_kg=30,
        clay=0.07,
        moisture=0.035,
        materials=mix.BoughtMaterials(sand_moisture=0.01, clay_moisture=0.1, clay_activity=0.9),
    )
    assert weights.sand.wet_kg + weights.clay.wet_kg + weights.water_balance_kg == pytest.approx(weights.mix.wet_kg)
    assert weights.mix.wet_kg == pytest.approx(30 / 0.965)


@pytest.mark.parametrize(
    ("sand", "clay", "dry", "decides"),
    [(90, 100, 100, "sand"), (900, 10, 100, "clay"), (90, None, 100, "sand"), (None, 10, 100, "clay")],
)
def test_what_runs_out_first_decides(sand, clay, dry, decides):
    found = mix.dry_from_stock(sand_on_hand_kg=sand, clay_on_hand_kg=clay, clay=0.1, materials=PLAIN)
    assert found == (pytest.approx(dry), decides)


def test_without_clay_the_sand_decides():
    assert mix.dry_from_stock(sand_on_hand_kg=5, clay_on_hand_kg=1, clay=0, materials=PLAIN) == (5, "sand")


@pytest.mark.parametrize(
    ("make", "mixer", "count"), [(35, 12, 3), (36, 12, 3), (36.1, 12, 4), (3 * 0.1, 0.1, 3), (5, 12, 1)]
)
def test_batches_are_whole_and_an_exact_multiple_adds_none(make, mixer, count):
    assert mix.batches(make, mixer) == count


@pytest.mark.parametrize(
    ("number", "whole"), [(0, 0), (1e-12, 0), (2.0000000001, 2), (1.9999999999, 2), (2.0001, 3), (1e12 + 0.5, 1e12)]
)
def test_rounding_up_ignores_float_noise(number, whole):
    assert mix.whole_up(number) == whole
    assert isinstance(mix.whole_up(number), int)


def test_water_follows_from_live_clay():
    """100 dry with 8 live at 0.425: 3.4 water, 3.4 / 103.4."""
    assert mix.moisture_from_clay(0.08, 0.425) == pytest.approx(3.4 / 103.4)


def test_the_least_mix_is_one_batch():
    assert [mix.batches(make_kg, 12) for make_kg in (1e-12, 0.1, 12)] == [1, 1, 1]
