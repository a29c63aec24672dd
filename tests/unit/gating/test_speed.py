"""The speed limit, the Reynolds number and the thinnest wall, by hand."""

import math

import pytest

from sandmix.gating import speed, torricelli
from sandmix.materials.liquid_metals import LIQUIDS
from sandmix.materials.metals import METALS


def test_the_limit_balances_push_and_surface():
    """ρ v²/2 = 2 γ/r with r = √(γ/(ρ g))."""
    tension, density = 0.9, 2400.0
    limit = speed.limit_m_s(tension, density)
    radius = math.sqrt(tension / (density * 9.80665))
    assert density * limit**2 / 2 == pytest.approx(2 * tension / radius)


def test_the_reynolds_number_by_hand():
    """1000 kg/m³ * 1 m/s * 0.02 m / 0.001 Pa·s = 20 000 for water in a pipe of 20 mm (π cm²)."""
    assert speed.reynolds(1, math.pi, 1000, 1.0) == pytest.approx(20_000)


def test_the_thinnest_wall_presses_back_as_much_as_the_head():
    """Water without wetting, 0.0728 N/m under 10 mm: 2 * 0.0728 / (1000 * 9.80665 * 0.01) = 1.4847 mm."""
    assert speed.thinnest_mm(0.0728, 1000, 10) == pytest.approx(1.4847, abs=5e-5)


def test_every_metal_has_flow_figures_within_reason():
    assert LIQUIDS.keys() == METALS.keys()
    for liquid in LIQUIDS.values():
        assert liquid.emissivities[0] <= liquid.emissivity <= liquid.emissivities[1] <= 1
        assert 0.3 < liquid.tension_n_m < 2.5
        assert 0.5 < liquid.viscosity_mpa_s < 10


def test_no_sprue_keeps_below_the_limit():
    """A fall of 12.5 mm is the limit for aluminium (facts), and any sprue is longer."""
    limit = speed.limit_m_s(LIQUIDS["aluminium"].tension_n_m, 2385)
    assert torricelli.head_mm(limit) == pytest.approx(12.5, abs=0.1)
