"""Falling liquid, by hand: v = √(2 g h) and its inverse, and Bernoulli's losses."""

import math

import pytest

from sandmix.gating import torricelli


def test_a_metre_of_fall_by_hand():
    """√(2 * 9.80665 * 1) = √19.6133 = 4.42869."""
    assert torricelli.speed_m_s(1000) == pytest.approx(4.42869, abs=5e-6)


def test_the_discharge_slows_it_and_gravity_can_be_that_of_a_source():
    assert torricelli.speed_m_s(1000, 0.5) == pytest.approx(4.42869 / 2, abs=5e-6)
    assert torricelli.speed_m_s(500, gravity_m_s2=9.0) == pytest.approx(3.0)


def test_the_head_of_a_speed_is_the_inverse():
    assert torricelli.head_mm(3.0, 9.0) == pytest.approx(500)
    assert torricelli.head_mm(torricelli.speed_m_s(137)) == pytest.approx(137)


def test_the_flow_of_one_square_centimetre_at_a_metre_a_second():
    """1 cm² * 100 cm/s = 100 cm³/s."""
    assert torricelli.flow_cm3_s(1, 1) == pytest.approx(100)


def test_friction_is_that_of_layers_where_it_is_slow_and_of_turbulence_where_it_is_fast():
    assert torricelli.fanning_friction(400) == pytest.approx(16 / 400)
    assert torricelli.fanning_friction(1e4) == pytest.approx(0.00791)


def test_without_length_and_bends_only_the_entry_counts():
    """1/√(1 + 0.5625) = 1/1.25."""
    assert torricelli.discharge(1e5, 0.5625, 0.0) == pytest.approx(0.8)


def test_the_discharge_is_its_own_fixed_point():
    """Checked by putting it back into Bernoulli's equation with the friction at its own speed."""
    c = torricelli.discharge(50_000, 0.45, 10.0, 50.0)
    friction = 0.0791 * (c * 50_000) ** -0.25
    assert 1 / c**2 == pytest.approx(1 + 0.45 + 4 * friction * 60)


def test_each_bend_costs_flow():
    found = [torricelli.discharge(50_000, 0.45, 10.0, 25.0 * bends) for bends in range(4)]
    assert found == sorted(found, reverse=True)
    assert all(0 < c < 1 and math.isfinite(c) for c in found)
