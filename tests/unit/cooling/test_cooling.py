"""The solution: derived figures, what holds on every grid, and the kinds of shape, sand and wall.

The figures are derived, without a grid or by separate solutions; those with a source of their own are in tests/against.
"""

import itertools
import math

import pytest

from sandmix.cooling import cooling
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import FINE, ROUGH


def test_a_plate_without_superheat_freezes_by_the_theory(casting):
    """(π/4) (2700 · 397000 / 640)² / (0.61 · 1500 · 1130) = 2.131e6 s/m²: 213.1 s at 10 mm; the metal's own resistance is small."""
    theory = math.pi / 4 * (2700 * 397e3 / 640) ** 2 / (0.61 * 1500 * 1130) * 1e-4
    assert theory == pytest.approx(213.1, abs=0.1)
    assert cool(casting(pour_temp_c=660.0, water=0.0)).freeze_s == pytest.approx(theory, rel=0.01)


@pytest.mark.parametrize(("water", "freeze_s", "depth_mm"), [(0.0, 297.3, 12.06), (3.5 / 96.5, 247.8, 9.53)])
def test_a_plate_poured_at_720_agrees_with_the_reference(casting, water, freeze_s, depth_mm):
    solution = cool(casting(water=water))
    assert solution.freeze_s == pytest.approx(freeze_s, rel=0.005)
    assert solution.depth_past_mm(350) == pytest.approx(depth_mm, rel=0.005)


def test_the_face_in_perfect_contact_follows_from_the_effusivities(casting):
    """e of the metal √(200 · 2700 · 1180) = 25 243, of sand A √(0.61 · 1500 · 1130) = 1016.8: 20 + 700 · 25243/26260 = 692.9 °C."""
    metal, sand = math.sqrt(200 * 2700 * 1180), math.sqrt(0.61 * 1500 * 1130)
    face = 20 + 700 * metal / (metal + sand)
    assert face == pytest.approx(692.9, abs=0.05)
    assert cool(casting(water=0.0)).peaks_c[0] == pytest.approx(face, abs=2)


@pytest.mark.parametrize(("contact", "modulus_mm"), [(108.0, 12.0), (61.0, 24.0)])
def test_measured_contact_keeps_the_face_of_an_aluminium_plate_near_550(casting, contact, modulus_mm):
    """Derived: below 550 °C up to a modulus of about 12 mm at 108 W/m²K and 24 mm at 61."""
    assert cool(casting(contact_w_m2k=contact, modulus_mm=modulus_mm, water=0.0)).peaks_c[0] == pytest.approx(
        550, abs=25
    )
    assert cool(casting(contact_w_m2k=contact, modulus_mm=modulus_mm / 2)).peaks_c[0] < 550


def test_a_ball_of_90_mm_cools_within_the_derived_times(casting):
    """M = 15 mm: solid in 7 to 13 min, 330 °C after 27 to 38, 100 °C after 115 to 132, from perfect to measured contact; whole minutes."""
    for contact in (math.inf, 108.0):
        ball = cool(casting(shape_n=2.0, modulus_mm=15.0, contact_w_m2k=contact))
        assert 7 <= round(ball.freeze_s / 60) <= 13
        assert 27 <= round(ball.middle_below_s(330) / 60) <= 38
        assert 115 <= round(ball.middle_below_s(100) / 60) <= 132


def test_rounder_castings_freeze_sooner_and_dry_less_sand(casting):
    plate, between, bar, ball = (cool(casting(shape_n=n)) for n in (0.0, 0.5, 1.0, 2.0))
    assert plate.freeze_s > between.freeze_s > bar.freeze_s > ball.freeze_s
    assert plate.dry_depth_mm > between.dry_depth_mm > bar.dry_depth_mm > ball.dry_depth_mm


def test_a_shape_close_to_a_bar_cools_like_a_bar(casting):
    """The resistance of a bar is a logarithm, of its neighbours a power."""
    bar, near = cool(casting(shape_n=1.0), ROUGH), cool(casting(shape_n=1.0 + 1e-6), ROUGH)
    assert near.freeze_s == pytest.approx(bar.freeze_s, rel=1e-4)


def test_heat_that_left_the_metal_is_in_the_sand_or_outside(casting):
    """With a wall, all heat except what is left in metal and sand is outside in the end; without one, none is."""
    walled = cool(casting(wall_mm=30.0))
    poured = 2700 * (1050 * 640 + 397e3 + 1180 * 60) * 0.010
    assert walled.metal_j_m2[0] == pytest.approx(poured, rel=0.01)
    assert 0.5 * poured < walled.gone_j_m2[-1] < poured
    assert walled.depths_mm[-1] == pytest.approx(30)
    assert cool(casting()).gone_j_m2[-1] < 1e-3 * poured


def test_the_depths_are_the_middles_of_the_cells_between_face_and_wall(casting):
    walled = cool(casting(wall_mm=30.0))
    faces = walled.faces_mm
    assert (faces[0], faces[-1]) == pytest.approx((0, 30), abs=1e-9)
    middles = [(near + far) / 2 for near, far in itertools.pairwise(faces)]
    assert list(walled.depths_mm) == pytest.approx([0, *middles, 30], rel=1e-9, abs=1e-9)


def test_without_a_wall_the_sand_reaches_so_many_moduli(casting):
    faces = cool(casting(modulus_mm=10.0), ROUGH).faces_mm
    assert faces[-2] < 10 * ROUGH.far <= faces[-1]


@pytest.mark.parametrize("wall_mm", [0.1, 30.0])
def test_the_wall_is_as_hot_as_lets_through_what_the_last_cell_gives(casting, wall_mm):
    """Two resistances in a row above 20 °C: half the last cell of sand, and 1/10 m²K/W to the outside."""
    case = casting(wall_mm=wall_mm, outside_w_m2k=10.0)
    walled = cool(case)
    half_m = (walled.faces_mm[-1] - walled.faces_mm[-2]) / 2000
    share = 0.1 / (0.1 + half_m / case.sand.conductivity_w_mk)
    assert walled.peaks_c[-1] - 20 == pytest.approx(share * (walled.peaks_c[-2] - 20), rel=1e-6)


def test_the_wall_about_a_bar_is_as_hot_as_lets_through_what_the_last_cell_gives(casting):
    """A bar of modulus 10 mm has r 20 mm. About it the resistances are ln(outer/middle)/k and 1/(10 · outer)."""
    case = casting(shape_n=1.0, wall_mm=30.0, outside_w_m2k=10.0)
    walled = cool(case)
    outer = (20 + walled.faces_mm[-1]) / 1000
    middle = outer - (walled.faces_mm[-1] - walled.faces_mm[-2]) / 2000
    outside = 1 / (10 * outer)
    share = outside / (outside + math.log(outer / middle) / case.sand.conductivity_w_mk)
    assert walled.peaks_c[-1] - 20 == pytest.approx(share * (walled.peaks_c[-2] - 20), rel=1e-6)


def test_sand_thinner_than_a_cell_is_one_cell(casting):
    thin = cool(casting(wall_mm=0.1))
    assert len(thin.depths_mm) == 3
    assert thin.depths_mm[-1] == pytest.approx(0.1)
    assert thin.residual < 1e-9


def test_sand_dries_all_the_way_to_a_near_wall(casting):
    walled = cool(casting(modulus_mm=20.0, wall_mm=25.0))
    assert walled.dry_depth_mm == pytest.approx(25)
    assert walled.peaks_c[-1] > 100


def test_sand_dries_as_deep_as_it_boiled(casting):
    """Deeper than the front no sand passes 100 °C, and within it all has."""
    solution = cool(casting())
    front = solution.dry_depth_mm
    beyond = [peak for depth, peak in zip(solution.depths_mm, solution.peaks_c, strict=True) if depth > 1.1 * front]
    within = [peak for depth, peak in zip(solution.depths_mm, solution.peaks_c, strict=True) if depth < 0.9 * front]
    assert max(beyond) <= 100 + 1e-9
    assert min(within) >= 100


def test_the_metal_freezes_from_the_face_to_the_middle(casting):
    solution = cool(casting("al_si7mg"))
    assert solution.frozen_mm[0] == pytest.approx(0, abs=0.1)
    assert solution.frozen_mm[-1] == pytest.approx(10)
    through = next(at for at, frozen in enumerate(solution.frozen_mm) if frozen > 10 - 1e-9)
    assert solution.times_s[through - 1] <= solution.freeze_s <= solution.times_s[through]


@pytest.mark.parametrize("metal", ["aluminium", "al_si7mg", "tin_bronze", "yellow_brass", "zinc_al12", "grey_iron"])
def test_the_middle_passes_the_solidus_at_the_freezing_time(casting, metal):
    from sandmix.materials.metals import METALS

    solution = cool(casting(metal, pour_temp_c=METALS[metal].pour_temp_c))
    solidus = METALS[metal].solidus_c
    assert solution.at_s(solution.middle_c, 0.97 * solution.freeze_s) >= solidus - 1
    assert solution.at_s(solution.middle_c, 1.03 * solution.freeze_s) <= solidus


def test_a_lump_with_little_contact_freezes_by_its_heat_alone(casting):
    """So little contact that all metal has one temperature: ρ M L / (h (T - 20)), and only the warming sand adds to it."""
    lump = cool(casting(pour_temp_c=660.0, contact_w_m2k=10.0, modulus_mm=10.0))
    alone = 2700 * 0.010 * 397e3 / (10 * 640)
    assert alone < lump.freeze_s < 1.35 * alone


def test_a_casting_that_never_cools_has_no_freezing_time(casting):
    """A contact of a ten-thousandth of a watt: after 3e7 s it is still liquid."""
    for_ever = cool(casting(contact_w_m2k=1e-4), ROUGH)
    assert for_ever.freeze_s is None
    assert for_ever.times_s[-1] >= 3e7
    assert for_ever.middle_below_s(60) is None
    assert for_ever.peaks_c[0] < 100


def test_one_solution_is_cached_for_every_size(casting):
    cool(casting(modulus_mm=10.0), ROUGH)
    cool.cache_clear()
    before = cooling._solved.cache_info()
    solutions = [cool(casting(modulus_mm=modulus), ROUGH) for modulus in (3.0, 10.0, 50.0)]
    after = cooling._solved.cache_info()
    assert after.misses == before.misses
    assert after.hits == before.hits + 3
    assert [solution.case.modulus_mm for solution in solutions] == [3, 10, 50]


def test_the_cache_changes_no_answer(casting):
    case = casting("tin_bronze", pour_temp_c=1150.0)
    first = cool(case, ROUGH)
    cool.cache_clear()
    cooling._solved.cache_clear()
    assert cool(case, ROUGH) == first


def test_the_default_grid_is_the_fine_one(casting):
    assert cool(casting()) is cool(casting(), FINE)


def test_the_middle_is_never_hotter_than_the_metal_was_poured(casting):
    ball = cool(casting(pour_temp_c=660.0, shape_n=2.0))
    assert max(ball.middle_c) <= 660 + 1e-6
