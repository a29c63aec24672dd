"""What is melted and what holds the mould shut, by hand."""

import math

import pytest

from sandmix.mould import pour


def test_the_charge_is_casting_gating_melting_loss_and_spare():
    """500 cm³ * 1.5 = 750 cm³ * 2.7 g = 2.025 kg; / 0.9 = 2.25; * 1.2 = 2.7 kg."""
    assert pour.charge_kg(500, 0.5, 2700, 0.1, 0.2) == pytest.approx(2.7)


def test_without_gating_loss_and_spare_it_is_the_casting():
    assert pour.charge_kg(1000, 0, 7200, 0, 0) == pytest.approx(7.2)


def test_a_crucible_is_filled_by_the_volume_of_the_liquid():
    """2.37 kg at 2370 kg/m³ is 1 L: half of 2 L."""
    assert pour.crucible_fill_pct(2.37, 2370, 2) == pytest.approx(50)


def test_uplift_is_density_times_projected_area_times_head():
    """100 cm² * 200 mm = 2 L * 7 kg/L = 14 kg."""
    assert pour.uplift_kg(100, 200, 7000) == pytest.approx(14)


def test_a_core_floats_by_the_difference_of_its_density_and_the_metals():
    """100 cm² * 200 mm * 2.4 = 4.8 kg; 500 cm³ * (2.4 - 1.6) = 0.4 kg."""
    assert pour.uplift_kg(100, 200, 2400, 500) == pytest.approx(5.2)


def test_a_core_heavier_than_the_metal_adds_no_uplift():
    assert pour.uplift_kg(100, 200, 1500, 500) == pour.uplift_kg(100, 200, 1500)


def test_hydrogen_by_its_formula():
    """At 2700 K log10 S is 2.72 - 1 = 1.72; at 1350 K 0.72."""
    assert pour.hydrogen_cm3_100g(2700 - 273.15) == pytest.approx(10**1.72)
    assert pour.hydrogen_cm3_100g(1350 - 273.15) == pytest.approx(10**0.72)


def test_the_choke_is_mass_over_density_time_discharge_and_speed():
    """2 * 9.80665 * 0.2 = 3.92266, its root 1.98057 m/s; 2.4 kg / (2400 * 5 * 0.8 * 1.98057) = 126.22 mm²."""
    assert pour.choke_mm2(2.4, 2400, 5, 200) == pytest.approx(126.22, abs=0.01)
    assert pour.choke_mm2(2.4, 2400, 10, 200) == pytest.approx(126.22 / 2, abs=0.01)
    assert pour.choke_mm2(2.4, 2400, 5, 800) == pytest.approx(126.22 / 2, abs=0.01)


@pytest.mark.parametrize(("area", "holes"), [(1, 4), (64, 4), (64.1, 5), (80, 5), (160, 10), (161, 11)])
def test_one_vent_for_each_40_by_40_mm_and_at_least_four(area, holes):
    """40 * 40 mm = 16 cm²."""
    assert pour.vents(area) == max(4, math.ceil(area / 16)) == holes
