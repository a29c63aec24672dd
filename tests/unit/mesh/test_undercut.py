"""What holds a shape in the sand, by hand arithmetic. Lengths in mm; areas are projected areas."""

import math

import pytest
from shapes import ball, binary, box, cube, headlong, inward, lathe, moved, shifted, t_bar, torus

from sandmix.mesh import solid, stl, undercut

N = 48
AREA = N / 2 * math.sin(2 * math.pi / N)
"""The area of a polygon of N corners on a circle of radius 1."""
CONE = lathe([(0, 0), (20, 0), (0, 50)])
MUSHROOM = lathe([(0, 0), (10, 0), (10, 30), (30, 30), (30, 40), (0, 40)])
REEL = lathe([(0, 0), (30, 0), (30, 10), (10, 10), (10, 40), (30, 40), (30, 50), (0, 50)])


def sides_of(triangles):
    found = solid.measure(stl.read(binary(triangles)), sides=True)
    assert found.volume is not None, found.why
    return {side.axis: side for side in found.sides}


def held(side, at):
    """The undercut when it is parted there; that height is one of those tried."""
    return next(cut.undercut for cut in side.partings if cut.height == pytest.approx(at, abs=1e-4))


def least(side):
    return min(cut.undercut for cut in side.partings)


@pytest.mark.parametrize("times", [0, 1, 2])
def test_a_box_draws_with_any_parting_and_all_its_walls_are_vertical(times):
    """10 × 20 × 30: projected along z 2 × 200, and 2 × (10 × 30 + 20 × 30) = 1800 are vertical."""
    side = sides_of(shifted(box(10, 20, 30), times))["zxy"[times]]
    assert (side.height, side.projected, side.vertical) == pytest.approx((30, 400, 1800))
    assert side.least_draft_deg == pytest.approx(0, abs=1e-6)
    assert [cut.height for cut in side.partings] == pytest.approx([0, 15, 30])
    assert [cut.undercut for cut in side.partings] == pytest.approx([0, 0, 0])
    assert side.hidden is None, "a flat parting is enough"


def test_a_lying_cylinder_draws_only_from_its_middle():
    """r 20, 100 long: 40 × 100 from above; parted at an end the half next to it is undercut, at h the projected area less the section there."""
    side = sides_of(shifted(lathe([(0, 0), (20, 0), (20, 100), (0, 100)])))["z"]
    assert held(side, 20) == pytest.approx(0, abs=0.01)
    assert held(side, 0) == held(side, 40) == pytest.approx(4000)
    assert held(side, 0) == side.projected / 2
    corner = 20 * (1 - math.cos(math.radians(22.5))), 40 * math.sin(math.radians(22.5)) * 100
    for cut in sides_of(shifted(lathe([(0, 0), (20, 0), (20, 100), (0, 100)], 16)))["z"].partings:
        if cut.height == pytest.approx(corner[0], abs=1e-4):
            assert cut.undercut == pytest.approx(4000 - corner[1], rel=1e-5)
            break
    else:
        pytest.fail("the corners of a shape of few heights are tried")


def test_a_ball_is_held_by_its_projected_area_less_its_section():
    side = sides_of(ball(24, 40.0))["z"]
    polygon = 24 * math.sin(math.pi / 24)
    assert held(side, 40) == pytest.approx(0, abs=0.01)
    assert held(side, 0) == pytest.approx(polygon * 1600, rel=1e-5)
    assert side.vertical == pytest.approx(0)
    assert side.least_draft_deg == pytest.approx(3.75, abs=0.05), "half the tilt of a ring of 24, but for the chord"


def test_a_cone_draws_from_its_foot_and_not_from_its_point():
    foot = AREA * 400
    side = sides_of(CONE)["z"]
    assert (held(side, 0), held(side, 25), held(side, 50)) == pytest.approx((0, 0.75 * foot, foot), rel=1e-5)
    head = sides_of(headlong(CONE))["z"]
    assert (held(head, 0), held(head, 25), held(head, 50)) == pytest.approx((foot, 0.75 * foot, 0), rel=1e-5)
    slope = math.degrees(math.atan(20 * math.cos(math.pi / N) / 50))
    assert side.least_draft_deg == pytest.approx(slope, abs=1e-4)


def test_a_t_bar():
    """On its flange: parted at foot or flange nothing, above that the flange's two shoulders, 2 × 15 × 100. On its side: 10 and 30 × 100 a side."""
    sides = sides_of(t_bar())
    z, y, x = sides["z"], sides["y"], sides["x"]
    assert (held(z, 0), held(z, 10), held(z, 20), held(z, 40)) == pytest.approx((0, 0, 3000, 3000))
    assert (held(y, 0), held(y, 15), held(y, 20), held(y, 25), held(y, 40)) == pytest.approx((3000, 0, 0, 0, 3000))
    assert least(x) == pytest.approx(0)
    assert (z.projected, y.projected, x.projected) == pytest.approx((8000, 8000, 1400))
    assert z.vertical == pytest.approx(2 * 1000 + 2 * 3000 + 1400)


def test_a_mushroom_is_held_by_its_hat_if_it_is_parted_below_it():
    """Stem r 10, hat r 30 from 30 to 40: below the hat its underside holds, 900 − 100 of the polygon; from there up nothing does."""
    side = sides_of(MUSHROOM)["z"]
    brim = AREA * 800
    assert [held(side, at) for at in (0, 20, 30, 40)] == pytest.approx([brim, brim, 0, 0], rel=1e-5, abs=1e-6)
    assert side.hidden is None, "a flat parting is enough"


def test_a_reel_on_end_is_held_with_any_parting():
    """Two flanges r 30, 10 thick, on a stem r 10: in the gap both faces hold, at a flange one of them; a stepped parting frees neither."""
    sides = sides_of(REEL)
    gap = AREA * 800
    assert [held(sides["z"], at) for at in (0, 10, 25, 40, 50)] == pytest.approx(
        [gap, gap, 2 * gap, gap, gap], rel=1e-5
    )
    assert abs(sides["z"].hidden.area - gap) <= sides["z"].hidden.error
    assert sides["z"].hidden.area == pytest.approx(gap, rel=0.02)
    assert sides["z"].hidden.up_moment == pytest.approx(10 * sides["z"].hidden.area, rel=1e-5)
    assert sides["z"].hidden.down_moment == pytest.approx(40 * sides["z"].hidden.area, rel=1e-5)
    assert held(sides["x"], 30) == pytest.approx(0, abs=0.1)


@pytest.mark.parametrize(("stem", "is_free"), [(29.8, True), (29.6, False)])
def test_an_undercut_of_a_hundredth_counts_as_none(stem, is_free):
    """A stem that stands back by 0.2 or 0.4 from flanges of r 30, so the gap is as 11.96 or 23.84 to 900. All faces: 2 · 900 and the gap's two."""
    gap = 900 - stem**2
    profile = [(0, 0), (30, 0), (30, 10), (stem, 10), (stem, 40), (30, 40), (30, 50), (0, 50)]
    side = sides_of(lathe(profile, 12))["z"]
    assert least(side) / side.projected == pytest.approx(gap / (1800 + 2 * gap), rel=1e-3)
    assert (side.hidden is None) == is_free


def test_a_lying_ring_is_free_and_a_standing_ring_is_held():
    """R 40, r 10: lying and parted at its middle nothing; standing, the hole holds: 4 R r − π r² = 1286 of it seen from the side."""
    sides = sides_of(torus(40.0, 10.0))
    assert held(sides["z"], 10) == pytest.approx(0, abs=0.1)
    hole = 1600 - 100 * math.pi
    for axis in "xy":
        assert sides[axis].hidden.area == pytest.approx(hole, rel=0.02)
        assert least(sides[axis]) >= sides[axis].hidden.area - sides[axis].hidden.error


def test_turning_about_the_upright_axis_changes_nothing_along_it():
    c, s = math.cos(0.4), math.sin(0.4)
    turned = [tuple((c * x - s * y + 300, s * x + c * y, z - 70) for x, y, z in facet) for facet in t_bar()]
    here, there = sides_of(t_bar())["z"], sides_of(turned)["z"]
    assert [cut.undercut for cut in there.partings] == pytest.approx([cut.undercut for cut in here.partings], abs=0.01)
    assert there.vertical == pytest.approx(here.vertical, rel=1e-5)


@pytest.mark.parametrize("times", [0, 1, 2])
@pytest.mark.parametrize("over", [False, True])
def test_turned_onto_another_axis_it_has_the_same_undercut_there(times, over):
    here = sides_of(MUSHROOM)["z"]
    there = sides_of(shifted(headlong(MUSHROOM) if over else MUSHROOM, times))["zxy"[times]]
    cuts = [cut.undercut for cut in there.partings]
    expected = [cut.undercut for cut in here.partings]
    assert cuts == pytest.approx(expected[::-1] if over else expected, rel=1e-5, abs=1e-3)


def test_the_roof_over_the_metal_and_its_height():
    """T bar: parted at the flange's top, shoulders (3000 at 10) and rib (1000 at 40) are the roof; turned over, its foot (4000 at 0)."""
    cut = next(cut for cut in sides_of(t_bar())["z"].partings if cut.height == pytest.approx(10))
    assert (cut.roof, cut.roof_moment) == pytest.approx((4000, 70_000))
    assert (cut.floor, cut.floor_moment) == pytest.approx((4000, 0), abs=1e-3)
    cone = sides_of(CONE)["z"].partings[0]
    assert cone.roof_moment == pytest.approx(AREA * 400 * 50 / 3, rel=1e-5), "on average its roof is a third up"
    half = next(cut for cut in sides_of(CONE)["z"].partings if cut.height == pytest.approx(25))
    assert half.roof_moment == pytest.approx(AREA * 100 * (25 + 25 / 3), rel=1e-5)


def test_a_hollow_counts_for_nothing_and_what_faced_inwards_is_turned():
    plain = sides_of(cube(40.0))["z"]
    for other in (cube(40.0) + inward(moved(cube(8.0), (9.0,) * 3)), inward(cube(40.0))):
        side = sides_of(other)["z"]
        assert (side.projected, side.vertical, least(side)) == pytest.approx(
            (plain.projected, plain.vertical, 0), abs=1e-3
        )
    filled = sides_of(REEL + inward(moved(cube(4.0), (15.0, 0.0, 3.0))))["z"]
    assert filled.hidden.area == pytest.approx(AREA * 800, rel=0.02)
    turned_in = sides_of(inward(REEL) + inward(moved(cube(4.0), (-2.0, -2.0, 60.0))))["z"]
    assert turned_in.hidden.area == pytest.approx(AREA * 800 + 16, rel=0.03)


def test_pieces_that_overlap_count_as_one():
    """A boss of 20 × 20 sunk 5 into a plate of 60 × 60 × 10, up to 40: its foot inside the plate holds nothing."""
    both = box(60, 60, 10) + box(20, 20, 35, (20.0, 20.0, 5.0))
    side = sides_of(both)["z"]
    assert (held(side, 0), held(side, 10)) == pytest.approx((0, 0))
    assert held(side, 40) == pytest.approx(3200, rel=0.05)
    assert side.projected == pytest.approx(7200, rel=0.05)
    foot, top = side.partings[0], side.partings[-1]
    assert (foot.roof, foot.floor, top.roof) == pytest.approx((3600, 3600, 400), rel=0.08)
    assert foot.roof_moment == pytest.approx(3200 * 10 + 400 * 40, rel=0.05)
    assert top.floor_moment == pytest.approx(0, abs=1e-3)


def test_without_rays_the_flat_partings_are_still_there(monkeypatch):
    monkeypatch.setattr(undercut, "cast", lambda *_: None)
    side = sides_of(REEL)["z"]
    assert side.hidden is None
    assert held(side, 10) == pytest.approx(AREA * 800, rel=1e-5)


def test_a_thin_round_edge_far_from_the_middle_is_found():
    """A plate with a round edge, 4 thick and 100 across, on a stem 100 long: widest at 102, where nothing else is."""
    edge = [(48 + 2 * math.cos(a), 102 + 2 * math.sin(a)) for a in (math.pi * (at / 12 - 0.5) for at in range(1, 12))]
    stem = [(5 - at / 20, 5.0 * at) for at in range(20)]
    plate = lathe([(0, 0), *stem, (4, 100), (48, 100), *edge, (48, 104), (0, 104)])
    side = sides_of(plate)["z"]
    assert len({round(z, 6) for facet in plate for _, _, z in facet}) > undercut.FEW_HEIGHTS
    best = min(side.partings, key=lambda cut: cut.undercut)
    assert best.height == pytest.approx(102, abs=0.3)
    assert best.undercut <= 0.01 * side.projected + AREA * 25
    assert len(side.partings) <= 24


def test_a_tilted_ball_is_parted_close_enough_to_its_middle():
    c, s = math.cos(0.3), math.sin(0.3)
    tilted = [tuple((x, c * y - s * z, s * y + c * z) for x, y, z in facet) for facet in ball(16, 40.0)]
    side = sides_of(tilted)["z"]
    assert least(side) < 0.005 * side.projected
    assert len(side.partings) <= 24


def test_slivers_are_ignored_for_draft():
    """A facet thinner than a billionth of the size squared is ignored: its slope means nothing."""
    flat = [*cube(40.0), ((1.0, 1.0, 1.0),) * 3]
    assert sides_of(flat)["z"].vertical == pytest.approx(4 * 1600)


STEPS = (250, 50, 700, 100, 600, 150, 500, 200, 400, 300, 350, 450)
"""What each step of a stepped pyramid is narrower than the one below, as r², from 20.5 up by 20."""


def pyramid():
    """From r² = 4150 at the foot to 100 at the top, 256 high."""
    square, height, profile = 100 + sum(STEPS), 0.0, [(0.0, 0.0)]
    for at, step in enumerate(STEPS):
        profile.append((math.sqrt(square), height))
        height, square = 20.5 + 20 * at, square - step
        profile.append((math.sqrt(square + step), height))
    return lathe([*profile, (10.0, height), (10.0, 256.0), (0.0, 256.0)], 4)


def along_z(triangles):
    facets = stl.read(binary(triangles))
    shell_of = [0] * len(facets.xs)
    faces, twice = undercut._normals(facets, shell_of, {0: 1})
    return undercut._Along(facets=facets, axis="z", facing=faces["z"], twice=twice)


def test_the_heights_to_try_are_ends_and_middle_the_largest_level_faces_and_the_widest_places():
    """The six largest level faces: the foot, and the steps of 700, 600, 500, 450 and 400. The widest of 256 bins are the lowest, 17 bins apart."""
    steps = [20.5 + 20 * STEPS.index(step) for step in (700, 600, 500, 450, 400)]
    expected = sorted([0, 128, 256, *steps, 1, 18, 35, 52, 69])
    assert along_z(pyramid()).first_heights() == pytest.approx(expected, abs=1e-3)


def test_upside_down_the_widest_places_are_at_the_top():
    """The widest slab begins at 235.5: bins 236 and 253. Then the slabs below it from 215.5, 195.5 and 175.5 on."""
    found = along_z(headlong(pyramid()))
    steps = [-20.5 - 20 * STEPS.index(step) for step in (700, 600, 500, 450, 400)]
    expected = sorted([-256, -128, 0, *steps, *(at - 256 for at in (236, 253, 216, 196, 176))])
    low = min(found.heights)
    assert [height - low for height in found.first_heights()] == pytest.approx([256 + at for at in expected], abs=1e-3)


@pytest.mark.parametrize(("tilt_deg", "is_level"), [(0.0, True), (0.45, True), (0.55, False)])
@pytest.mark.parametrize("faces_down", [False, True])
def test_a_face_within_half_a_degree_is_level(tilt_deg, is_level, faces_down):
    """A face of 10 × 10 at a height of 33.3 next to walls from 0 to 100, which have more than eleven heights with it."""
    rise = 10 * math.tan(math.radians(tilt_deg)) / 2
    a, b, c = (0.0, 0.0, 33.3 - rise), (10.0, 0.0, 33.3 + rise), (0.0, 10.0, 33.3 - rise)
    d = (10.0, 10.0, 33.3 + rise)
    face = [(a, b, c), (b, d, c)]
    walls = [((0.0, 0.0, 10.0 * at), (0.0, 10.0, 10.0 * at), (0.0, 0.0, 10.0 * at + 10)) for at in range(10)]
    found = along_z(walls + (inward(face) if faces_down else face)).first_heights()
    assert any(abs(height - 33.3) < 0.05 for height in found) == is_level


def test_few_heights_are_all_tried():
    """A box and a pin on it: 0, 10 and 40, and the middle at 20. Heights within two millionths of the size count as one."""
    assert along_z(box(50, 50, 10) + box(5, 5, 30, (0.0, 0.0, 10.0))).first_heights() == pytest.approx([0, 10, 20, 40])


@pytest.mark.parametrize("most", [3, 2])
def test_different_heights_are_counted_up_to_a_limit(most):
    found = undercut._apart([0.0, 0.1, 0.2, 1.0, 1.15, 5.0], 0.1, most)
    assert found == ([0.0, 1.0, 5.0] if most == 3 else None)


def test_heights_that_differ_from_the_first_ones_are_kept():
    assert undercut._kept([5.0, 0.0], [0.19, 0.21, 5.1, 3.0], 0.1) == [0.0, 0.21, 3.0, 5.0]


def parting(undercut_area):
    return undercut.Parting(height=0.0, undercut=undercut_area, roof=0.0, roof_moment=0.0, floor=0.0, floor_moment=0.0)


@pytest.mark.parametrize(
    ("areas", "expected"),
    [
        pytest.param((5.0, 3.0, 4.0), [1, 2, 3, 4, 5, 7, 8, 9, 10, 11], id="both sides of the best"),
        pytest.param((3.0, 4.0, 5.0), [1, 2, 3, 4, 5], id="the lowest is the best"),
        pytest.param((5.0, 4.0, 3.0), [7, 8, 9, 10, 11], id="the highest is the best"),
        pytest.param((5.0, 0.9e-4, 4.0), [], id="the best leaves less than a millionth of 100"),
        pytest.param((5.0, 1.1e-4, 4.0), [1, 2, 3, 4, 5, 7, 8, 9, 10, 11], id="and a little more"),
    ],
)
def test_finer_heights_lie_between_the_best_and_its_neighbours(areas, expected):
    """Heights 0, 6 and 12: five between two of them, 1 apart."""
    found = undercut._between([0.0, 6.0, 12.0], [parting(area) for area in areas], 100.0, 0.24)
    assert found == pytest.approx(expected)
    assert undercut._between([0.0, 6.0, 12.0], [parting(area) for area in areas], 100.0, 0.26) == []


def test_the_widest_places_are_the_peaks_of_the_running_sum():
    """Wide from 41 to 60 and wider from 101 to 110: first 101, then 41 and, 17 further on, 58; then the narrow rest from 1 on."""
    lean = [0.0] * 257
    lean[40], lean[60], lean[100], lean[110] = 2.0, -2.0, 3.0, -3.0
    assert undercut._humps(lean) == [101, 41, 58, 1, 18]


def test_a_facet_is_cut_at_each_height_between_its_corners():
    """A facet with corners at 0, 3 and 9 and the size 27, cut at 3 and 6: below 3 the size 27 · 9/(3 · 9) = 9, above 6 27 · 9/(9 · 6) = 4.5.

    Its moment is 27 · 4; of the lowest part 9 · (0 + 3 + 3)/3, of the highest 4.5 · (6 + 6 + 9)/3.
    """
    slots = undercut._Slots([0.0] * 5)
    slots.split(27.0, (9.0, 0.0, 3.0), 0, 4, [3.0, 6.0])
    assert slots.area == pytest.approx([9, 0, 13.5, 0, 4.5])
    assert slots.moment == pytest.approx([18, 0, 108 - 18 - 31.5, 0, 31.5])
    area, moment = slots.part(2, None, 1.0)
    assert (area, moment) == pytest.approx((18 / 2, (90 - 18) / 2))


def test_a_facet_is_cut_below_and_above_its_middle_corner():
    """Corners at 0, 6 and 9, the size 54, cut at 3 and 6: 54 · 9/(6 · 9) = 9 below 3; above 6 54 · 9/(9 · 3) = 18, so 27 between."""
    slots = undercut._Slots([1.0] * 5)
    slots.split(54.0, (0.0, 9.0, 6.0), 0, 4, [3.0, 6.0])
    assert slots.area == pytest.approx([10, 1, 28, 1, 19])
    assert slots.moment == pytest.approx([1 + 9 * 2, 1, 1 + 270 - 18 - 126, 1, 1 + 18 * 7])


def test_projected_areas_by_the_sign_of_the_shell():
    """A facet of 3 × 4 halved that faces up, seen along z; turned it faces down; in a hollow it counts for nothing."""
    facets = stl.read(binary([((1.0, 1.0, 5.0), (4.0, 1.0, 5.0), (1.0, 5.0, 5.0))]))
    for sign, expected in ((1, 12), (-1, -12), (0, 0)):
        faces, twice = undercut._normals(facets, [0, 0, 0], {0: sign})
        assert [list(faces[axis]) for axis in "xyz"] == [[0], [0], [expected]]
        assert list(twice) == [abs(expected)]
    assert list(undercut._normals(facets, [7, 7, 7], {0: 1})[1]) == [0]


@pytest.mark.parametrize(("wide", "vertical", "draft_deg"), [(2.5e-8, 0.0, 45.0), (7.5e-8, 1.5e-6, 0.0)])
def test_a_facet_counts_from_a_billionth_of_the_size_squared_on(wide, vertical, draft_deg):
    """A face at 45 degrees, 40 long, and an upright facet 40 high: twice its surface is 1e-6 or 3e-6, and the least that counts is 1.6e-6."""
    face = ((0.0, 0.0, 0.0), (40.0, 0.0, 40.0), (0.0, 40.0, 0.0))
    found = along_z([face, ((0.0, 0.0, 0.0), (0.0, 0.0, 40.0), (wide, 0.0, 0.0))]).vertical()
    assert found == (pytest.approx(vertical, rel=1e-4, abs=1e-12), pytest.approx(draft_deg, abs=1e-6))


@pytest.mark.parametrize(("lean_deg", "is_vertical"), [(0.95, True), (1.05, False)])
@pytest.mark.parametrize("up", [1, -1])
def test_a_wall_within_a_degree_is_vertical(lean_deg, is_vertical, up):
    """10 wide and 20 high; its true surface counts."""
    aside = up * 20 * math.tan(math.radians(lean_deg))
    found = along_z([((0.0, 0.0, 0.0), (0.0, 10.0, 0.0), (aside, 0.0, 20.0))]).vertical()
    surface = 10 * 20 / math.cos(math.radians(lean_deg)) / 2
    assert found == (pytest.approx(surface if is_vertical else 0, rel=1e-5), pytest.approx(lean_deg, rel=1e-4))


def test_a_cube_of_half_a_unit_has_sides_too():
    """Its volume is an eighth; from both ends a quarter each."""
    side = sides_of(cube(0.5))["z"]
    assert (side.projected, side.vertical) == pytest.approx((0.5, 1.0))
