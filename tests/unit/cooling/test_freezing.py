"""The case and its scaling, and what is read from a solution, by hand arithmetic."""

import math

import pytest

from sandmix.cooling.freezing import FINE, PERFECT, ROUGH, between


def test_lengths_scale_with_the_modulus_and_contact_against_it(casting):
    """20 mm is twice 10: contact 100 counts as 200, a wall at 60 mm as 30, the 10 W/m²K outside as 20."""
    scaled = casting(modulus_mm=20.0, contact_w_m2k=100.0, wall_mm=60.0).scaled
    assert (scaled.modulus_mm, scaled.contact_w_m2k, scaled.wall_mm, scaled.outside_w_m2k) == (10, 200, 30, 20)


def test_without_a_wall_all_sizes_share_one_case(casting):
    """So that one solution serves every modulus."""
    assert casting(modulus_mm=3.0).scaled == casting(modulus_mm=70.0).scaled == casting()
    assert casting(modulus_mm=20.0).scaled.contact_w_m2k == PERFECT


def test_a_grid_is_made_finer_in_cells_and_steps_and_never_below_three_cells():
    """16 cells, 0.02 and 0.02: twice as fine 32, 0.01, 0.01; a tenth as fine 3 and not 2."""
    fine = FINE.finer(2)
    assert (fine.metal_cells, fine.first_cell, fine.first_step_s) == (32, 0.01, 0.01)
    assert (fine.growth_near, fine.growth_far, fine.step_growth, fine.step_at_freezing) == (0.01, 0.04, 0.0125, 0.004)
    assert (fine.near, fine.far) == (FINE.near, FINE.far)
    assert FINE.finer(0.1).metal_cells == 3
    assert ROUGH.metal_cells == 6


@pytest.mark.parametrize(
    ("limit_c", "depth_mm"), [(500, 5), (400, 10), (300, 15), (600, 0), (700, 0), (199, 20), (200, 20)]
)
def test_a_depth_is_interpolated_between_the_peaks_of_two_cells(cooled, limit_c, depth_mm):
    """600 °C at the face, 400 at 10 mm, 200 at 20."""
    assert cooled().depth_past_mm(limit_c) == pytest.approx(depth_mm)


def test_the_dried_depth_is_where_the_front_ends_or_dry_sand_passed_100(cooled, casting):
    """Peaks of 300, 200, 0 at 0, 10, 20 mm: 100 at 15."""
    assert cooled().dry_depth_mm == 12
    dry = cooled(casting(water=0.0), peaks_c=[300.0, 200.0, 0.0])
    assert dry.dry_depth_mm == pytest.approx(15)


@pytest.mark.parametrize(("limit_c", "time_s"), [(530, 25), (660, 20), (300, 40), (200, 50), (700, 0), (800, 0)])
def test_the_time_of_the_middle_is_interpolated_between_two_steps(cooled, limit_c, time_s):
    """700, 660, 400, 200 °C at 10, 20, 30, 50 s."""
    assert cooled().middle_below_s(limit_c) == pytest.approx(time_s)


def test_a_time_after_the_end_of_the_solution_is_not_known(cooled):
    assert cooled().middle_below_s(199) is None


@pytest.mark.parametrize(("time_s", "dry_mm"), [(0, 4), (10, 4), (15, 6), (20, 8), (40, 11), (50, 12), (99, 12)])
def test_a_series_is_interpolated_and_constant_beyond_its_ends(cooled, time_s, dry_mm):
    one = cooled()
    assert one.at_s(one.dry_mm, time_s) == pytest.approx(dry_mm)


@pytest.mark.parametrize(
    ("n", "depth_mm", "volume"),
    [(0.0, 10, 0.01), (1.0, 10, 0.0125), (2.0, 30, 0.07), (1.0, 0, 0)],
)
def test_a_shell_grows_with_its_curvature(cooled, casting, n, depth_mm, volume):
    """M 10: a plate d; a bar a = 20, 10 (1.5² - 1) = 12.5 mm at 10; a ball a = 30, 10 (2³ - 1) = 70 mm at 30."""
    one = cooled(casting(shape_n=n))
    assert one.half_thickness_mm == 10 * (n + 1)
    assert one.shell_m3_m2(depth_mm) == pytest.approx(volume)


def test_a_shell_of_a_ball_follows_from_its_radii(cooled, casting):
    """(4/3) π (60³ - 30³) mm³ over 4 π 30²: 70 mm."""
    by_radii = (60**3 - 30**3) / 3 / 30**2 / 1000
    assert cooled(casting(shape_n=2.0)).shell_m3_m2(30) == pytest.approx(by_radii)


def test_a_solution_is_scaled_to_another_size(cooled, casting):
    """Twice the modulus: lengths and heat per m² twice, times four times, temperatures as they are."""
    one, large = cooled(), casting(modulus_mm=20.0)
    two = one.unscaled(large)
    assert (two.case, two.freeze_s) == (large, 80)
    assert list(two.times_s) == two.times_s[:] == [40, 80, 120, 200]
    assert two.middle_c == one.middle_c and two.peaks_c == one.peaks_c and two.warm_c == one.warm_c
    assert (two.frozen_mm[0], two.dry_mm[-1], two.depths_mm[-1], two.faces_mm[-1]) == (10, 24, 40, 6)
    assert (two.metal_j_m2[0], two.gone_j_m2[-1]) == (60e6, 4e6)
    assert cooled(freeze_s=None).unscaled(large).freeze_s is None


def test_between_two_points():
    assert between(3, 2, 4, 10, 30) == 20
    assert math.isinf(PERFECT)
