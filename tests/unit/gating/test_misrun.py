"""Whether a thin wall fills: limits that follow from the heat alone, and Flemings' length by hand."""

import math

import pytest

from sandmix.cooling.cooling import cool
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


def test_metal_colder_than_its_liquidus_flows_as_far_as_at_it():
    assert misrun.flow_length_m(AL, 2370, 640, 5, 0.5, 0.3) == misrun.flow_length_m(AL, 2370, 660, 5, 0.5, 0.3)


@pytest.mark.parametrize("gap", [0.0, GAP])
def test_the_flow_stops_where_superheat_and_the_share_of_the_latent_heat_are_gone(casting, gap):
    """Per m² of face 2.5 mm of metal, 2700 kg/m³ * 0.0025 m = 6.75 kg, has lost 6.75 * (1180 * 60 + 0.3 * 397 000) = 1.2818 MJ by then.

    Compared with the heat that the finer solution of the same casting has left at that moment.
    """
    fine = cool(casting(modulus_mm=2.5, contact_w_m2k=1 / gap if gap else math.inf))
    found = misrun.stops(AL, 720, 5, 3.5, gap_m2k_w=gap, solid_share=0.3)
    left_j = fine.at_s(fine.metal_j_m2, found.flow_s)
    assert 6.75 * AL.poured_j_kg(720) - left_j == pytest.approx(1.2818e6, rel=0.03)


def taken_j_m2(contact, seconds):
    """What dry sand of one depth takes from metal that stays at 660 °C, per m², with a contact of *contact*.

    The textbook solution of a deep body behind a film: h ΔT/b² (exp(b² t) erfc(b √t) − 1 + 2 b √(t/π)), b = h/√(k ρ c), sand A.
    """
    b = contact / math.sqrt(0.61 * 1500 * 1130)
    root = b * math.sqrt(seconds)
    return contact * 640 / b**2 * (math.exp(root**2) * math.erfc(root) - 1 + 2 * root / math.sqrt(math.pi))


@pytest.mark.parametrize("contact", [61, 100, 132, 600])
def test_a_wall_in_dry_sand_against_the_textbook_solution_of_a_film(contact):
    """6.75 kg/m² with superheat and latent heat, 467 800 J/kg: 3.158 MJ/m². The metal is hotter than 660 °C at first, so 4 % are allowed."""
    found = misrun.stops(AL, 720, 5, 0.0, gap_m2k_w=1 / contact)
    assert taken_j_m2(contact, found.frozen_s) == pytest.approx(3.158e6, rel=0.04)


def test_metal_that_may_lose_nothing_stops_at_once():
    assert misrun.stops(AL, 660, 5, 3.5, solid_share=0.0).flow_s == pytest.approx(0, abs=0.01)


def test_the_solid_share_is_the_middle_of_its_range():
    assert pytest.approx(sum(misrun.SOLID_SHARES) / 2) == misrun.SOLID_SHARE
