"""Tempering, by hand arithmetic, and the verdict at every border."""

import pytest

from sandmix.recipes import temper


def test_the_water_to_add_is_part_of_the_wet_mass():
    """100 kg at 2 %: 98 dry. At 3.5 %: 98 / 0.965 = 101.554, so 1.554 and not 1.5."""
    assert temper.water_to_add_kg(100, 0.02, 0.035) == pytest.approx(98 / 0.965 - 100)


def test_a_wet_heap_must_lose_water():
    assert temper.water_to_add_kg(30, 0.038, 0.031) == pytest.approx(-30 * 0.007 / 0.969)


def test_dry_mix_dilutes_to_the_target():
    """25 kg at 7 %: 1.75 water, which is 3.5 % of 50 kg: 25 more."""
    assert temper.dry_mix_to_dilute_kg(25, 0.07, 0.035) == pytest.approx(25)
    assert temper.dry_mix_to_dilute_kg(25, 0.028, 0.035) == pytest.approx(-5)


BORDERS = [
    (3.2, 3.5, 6.0, "go"),
    (3.19, 3.5, 6.0, "temper"),
    (3.8, 3.5, 6.0, "go"),
    (3.81, 3.5, 6.0, "dry"),
    (6.0, 3.5, 6.0, "dry"),
    (6.01, 3.5, 6.0, "stop"),
    (2.8, 3.1, 5.25, "go"),
    (2.79, 3.1, 5.25, "temper"),
    (3.4, 3.1, 5.25, "go"),
    (3.41, 3.1, 5.25, "dry"),
    (5.25, 3.1, 5.25, "dry"),
    (5.26, 3.1, 5.25, "stop"),
    (5.9, 6.5, 6.0, "stop"),
    (3.0, 7.0, 6.0, "stop"),
    (5.7, 6.0, 6.0, "go"),
    (6.1, 6.5, 6.0, "stop"),
]


@pytest.mark.parametrize(("moisture", "target", "red", "verdict"), BORDERS)
def test_the_verdict_at_each_border(moisture, target, red, verdict):
    assert temper.verdict(moisture, target, red) == verdict


@pytest.mark.parametrize("tenths", range(5, 101))
def test_three_tenths_from_any_target_is_still_go(tenths):
    target = tenths / 10
    assert temper.verdict((tenths - 3) / 10, target, 50) == "go"
    assert temper.verdict((tenths + 3) / 10, target, 50) == "go"


SPANS = [
    (3.3, 3.7, ("go",)),
    (2.25, 3.95, ("temper", "go", "dry")),
    (3.9, 6.5, ("dry", "stop")),
    (0.0, 9.0, ("temper", "go", "dry", "stop")),
]


@pytest.mark.parametrize(("low", "high", "verdicts"), SPANS)
def test_all_verdicts_within_a_band(low, high, verdicts):
    assert temper.verdicts_within(low, high, 3.5, 6.0) == verdicts


def test_a_band_of_one_value_has_its_verdict():
    assert temper.verdicts_within(3.0, 3.0, 3.5, 6.0) == ("temper",)


def test_a_range_decides_while_it_is_as_good_as_a_test_or_the_verdict_is_likely():
    assert temper.decides(3.2, 0.5, 3.5, 6.0)
    assert not temper.decides(3.2, 0.51, 3.5, 6.0)
    assert temper.decides(2.0, 1.0, 3.5, 6.0)
    assert not temper.decides(2.0, 1.01, 3.5, 6.0)
    assert not temper.decides(3.5, 0.75, 3.5, 6.0)
