"""Doses, losses and the gas, by hand."""

import pytest

from sandmix.recipes.carbon import (
    ADDITIVES,
    BY_LOSS,
    BY_SEACOAL,
    BY_VOLATILES,
    burnt_kg,
    carbon_monoxide_g,
    carbon_monoxide_l,
    dose,
    strength,
)


def test_a_dose_brings_the_level():
    """0.02 kg per kg of something that is half of what counts: (0.01 + 0.5 × 0.02)/1.02."""
    assert dose(0.01, 0.02 / 1.02, 0.5) == pytest.approx(0.02)
    assert dose(0.03, 0.02, 0.5) == 0


@pytest.mark.parametrize("kind", ADDITIVES.values(), ids=lambda kind: kind.key)
def test_each_measure_of_an_additive_is_within_its_band(kind):
    assert kind.volatiles_band[0] <= kind.volatiles <= kind.volatiles_band[1] <= 1
    assert kind.loss_band[0] <= kind.loss <= kind.loss_band[1] <= 1
    assert kind.volatiles_band[1] <= kind.loss_band[1]


def test_the_gauges_are_kept_apart():
    coal = ADDITIVES["seacoal"]
    assert strength(coal, BY_SEACOAL, 0.2, 0.9) == 1
    assert strength(coal, BY_VOLATILES, 0.2, 0.9) == 0.2
    assert strength(coal, BY_LOSS, 0.2, 0.9) == 0.9


def test_no_more_is_lost_than_the_sand_of_the_wear_held():
    assert burnt_kg(3.0, 1.1, 0.03) == pytest.approx(0.099)


def test_the_gas_has_the_carbon_that_it_was_made_of():
    """28.010 g of the gas hold 12.011 g of carbon and fill 24.06 L at 20 °C."""
    assert carbon_monoxide_g(12.011) == pytest.approx(28.010)
    assert carbon_monoxide_l(12.011) == pytest.approx(24.06)
