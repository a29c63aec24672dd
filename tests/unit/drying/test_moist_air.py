"""Moist air at its ends, and relations between its properties that hold whatever the formulas are."""

import pytest

from sandmix.drying.moist_air import (
    Air,
    dew_point_c,
    latent_heat_j_kg,
    saturation_growth_per_k,
    saturation_kg_m3,
    saturation_pa,
)

TEMPS_C = (0.0, 10.0, 20.0, 35.0, 60.0)


def test_saturated_air_has_its_own_temperature_as_dew_point_and_wet_bulb():
    for temp_c in TEMPS_C:
        air = Air(temp_c=temp_c, humidity_pct=100.0)
        assert air.dew_point_c == pytest.approx(temp_c, abs=1e-9)
        assert air.wet_bulb_c == pytest.approx(temp_c, abs=1e-9)


def test_air_without_vapour_has_no_dew_point_but_a_wet_bulb():
    air = Air(temp_c=25.0, humidity_pct=0.0)
    assert air.vapour_kg_m3 == 0.0
    assert air.humidity_ratio == 0.0
    assert air.dew_point_c is None
    assert 0 < air.wet_bulb_c < 25.0


def test_the_least_vapour_has_a_dew_point():
    """Half a pascal, by the same equation as saturation, so it is saturated there."""
    found = dew_point_c(0.5)
    assert found is not None
    assert saturation_pa(found) == pytest.approx(0.5)


def test_dew_point_is_below_the_wet_bulb_and_that_below_the_air():
    for temp_c in TEMPS_C[1:]:
        for humidity_pct in (20.0, 50.0, 80.0):
            air = Air(temp_c=temp_c, humidity_pct=humidity_pct)
            assert air.dew_point_c < air.wet_bulb_c < temp_c


def test_the_dew_point_undoes_the_saturation_pressure():
    for temp_c in TEMPS_C:
        assert dew_point_c(saturation_pa(temp_c)) == pytest.approx(temp_c, abs=1e-9)


def test_the_growth_is_that_of_the_vapour_density():
    for temp_c in TEMPS_C:
        difference = (saturation_kg_m3(temp_c + 0.001) - saturation_kg_m3(temp_c - 0.001)) / 0.002
        assert saturation_growth_per_k(temp_c) == pytest.approx(difference / saturation_kg_m3(temp_c), rel=1e-6)


def test_moist_air_is_lighter_than_dry_air():
    assert Air(temp_c=25.0, humidity_pct=90.0).density_kg_m3 < Air(temp_c=25.0, humidity_pct=10.0).density_kg_m3


def test_latent_heat_at_the_ends():
    """2501 kJ/kg at 0 °C and about 2257 at 100 °C, as any steam table has them (from memory)."""
    assert latent_heat_j_kg(0.0) == pytest.approx(2.501e6)
    assert latent_heat_j_kg(100.0) == pytest.approx(2.257e6, rel=0.005)


def test_a_wet_bulb_of_20_in_air_of_30_degrees_by_hand():
    """The sum of the docstring step by step, with p_s(20) = 610.8 exp(17.27 · 20/257.3) = 2338.281 and p_s(30) = 4243.065 Pa.

    W_s = 0.62198 · 2338.281/(101325 − 2338.281) = 0.01469252. W = ((2501 − 46.52) W_s − 10.06)/(2501 + 55.8 − 83.72) = 26.00250/2473.08
    = 0.01051421. p_v = 101325 W/(0.62198 + W) = 1684.368 Pa, so the humidity is 39.69695 %.
    """
    air = Air(temp_c=30.0, humidity_pct=39.69695)
    assert air.vapour_pa == pytest.approx(1684.368, abs=0.001)
    assert air.humidity_ratio == pytest.approx(0.01051421, abs=1e-8)
    assert air.wet_bulb_c == pytest.approx(20.0, abs=1e-4)
