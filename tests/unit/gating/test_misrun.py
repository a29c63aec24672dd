"""Whether a thin wall fills: limits that follow from the heat alone, and Flemings' length by hand."""

import math

import pytest

from sandmix.gating import misrun
from sandmix.materials.metals import METALS, thermal

AL = thermal("aluminium")
GAP = 1 / misrun.FILLING_W_M2K


def test_metal_stops_before_it_is_frozen_and_later_with_a_gap():
    close, apart = misrun.stops(AL, 720, 5, 3.5), misrun.stops(AL, 720, 5, 3.5, gap_m2k_w=GAP)
    assert 0 < close.flow_s < close.frozen_s
    assert close.flow_s < apart.flow_s < apart.frozen_s
    assert close.frozen_s < apart.frozen_s


def test_in_perfect_contact_times_go_with_the_square_of_the_wall():
    """Conduction alone: twice the wall, four times the time."""
    thin, thick = misrun.stops(AL, 720, 4, 3.5), misrun.stops(AL, 720, 8, 3.5)
    assert thick.frozen_s / thin.frozen_s == pytest.approx(4)
    assert thick.flow_s / thin.flow_s == pytest.approx(4)


def test_early_loss_is_about_that_of_a_deep_sand():
    """The heat that damp sand takes goes with √t, so 30 % of the latent heat and the superheat of a pure metal are lost in their share squared.

    Frozen: (1180 * 60 + 397 000) J/kg in 15.5 s. Stopped: (70 800 + 119 100) / 467 800 = 0.406 of it, squared 0.165. The solid shell cools too,
    and the wall's hot start is quicker, so the check is a wide one.
    """
    found = misrun.stops(AL, 720, 5, 3.5, solid_share=0.3)
    assert found.flow_s / found.frozen_s == pytest.approx(0.406**2, rel=0.15)


def test_hotter_metal_flows_longer_and_more_solid_stops_later():
    assert misrun.stops(AL, 760, 5, 3.5).flow_s > misrun.stops(AL, 700, 5, 3.5).flow_s
    assert misrun.stops(AL, 720, 5, 3.5, solid_share=0.5).flow_s > misrun.stops(AL, 720, 5, 3.5, solid_share=0.2).flow_s


def test_metal_colder_than_its_liquidus_counts_as_at_it():
    assert misrun.stops(AL, 600, 5, 3.5) == misrun.stops(AL, 660, 5, 3.5)


@pytest.mark.parametrize("metal", METALS)
def test_every_metal_has_both_times(metal):
    found = misrun.stops(thermal(metal), METALS[metal].pour_temp_c, 0.4, 3.0, solid_share=1.0)
    assert 0 < found.flow_s <= found.frozen_s < math.inf


def test_flemings_length_of_the_facts():
    """Al 720 °C, 5 mm, 0.5 m/s, k 0.3, h 600: 0.5 * ρ * 0.0025 * (119 100 + 70 800) / (600 * 640), ρ 2370 kg/m³: 1.465 m."""
    assert misrun.flow_length_m(AL, 2370, 720, 5, 0.5, 0.3) == pytest.approx(1.465, abs=0.0005)
