"""Which way up a file's shape lies best, by hand arithmetic."""

import math

import pytest
from shapes import binary, box, cube, extruded, headlong, lathe, moved, shifted, torus

from sandmix.mesh import solid, stl, undercut
from sandmix.mould import orientation
from sandmix.mould.clearance import Clearance

WANTED = Clearance(above_mm=40, below_mm=40, beside_mm=30, between_mm=30)
CONE = lathe([(0, 0), (20, 0), (0, 50)])
BAR = [(0.0, 0.0), (7.0, -7.0), (107.0, 93.0), (100.0, 100.0)]


def lies(triangles, mm=1.0, asked="+z"):
    told = solid.measure(stl.read(binary(triangles)), sides=True)
    x, y, z = told.box
    shape = orientation.Shape(
        sides=told.sides,
        mm=mm,
        box_mm=(x * mm, y * mm, z * mm),
        volume_cm3=told.volume * mm**3 / 1000,
        clearance=WANTED,
        sprue_mm=0.0,
        liquid_kg_m3=2400.0,
    )
    return orientation.ways(shape, asked)


def by_up(found):
    return {lie.up: lie for lie in found}


def test_six_ways_of_a_box_and_the_sand_of_each():
    """150 × 100 × 40: flat 210 × 160 × 120 = 4.032 L; on its side 210 × 100 × 180 = 3.78; on its end 160 × 100 × 230 = 3.68; less 0.6 each."""
    found = lies(box(150, 100, 40))
    ways = by_up(found)
    assert [ways[up].sand_l for up in ("+z", "-z", "+y", "-y", "+x", "-x")] == pytest.approx(
        [3.432, 3.432, 3.18, 3.18, 3.08, 3.08]
    )
    assert found[0].up == "+x"
    assert orientation.between(found[0], orientation.next_side(found)) == "sand"
    assert orientation.next_side(found).up == "+y"
    assert orientation.turned_over(found).up == "-x"
    assert orientation.between(found[0], orientation.turned_over(found)) == ""
    assert all(lie.mould.in_cope_mm == 0 for lie in found), "of two partings alike the drag takes it"


def test_a_file_in_inches_or_scaled_is_that_much_larger():
    found = by_up(lies(box(15, 10, 4), mm=10.0))
    assert found["+z"].sand_l == pytest.approx(3.432)
    assert found["+z"].straight_cm2 == pytest.approx(2 * (150 + 100) * 40 / 100)
    assert found["+z"].seen_cm2 == pytest.approx(300)
    assert found["+z"].draw_mm == pytest.approx(40)


def test_uplift_is_the_metal_that_would_stand_over_the_roof():
    """200 × 150 × 20 in the drag, cope 40 and cup 30 over it: 0.03 m2 × 0.07 m × 2400 = 5.04 kg; on edge 150 × 20 and 200 × 20 of roof."""
    found = by_up(lies(box(200, 150, 20)))
    assert found["+z"].uplift_kg == found["-z"].uplift_kg == pytest.approx(5.04)
    assert found["+x"].uplift_kg == pytest.approx(0.15 * 0.02 * 0.07 * 2400)
    assert found["+y"].uplift_kg == pytest.approx(0.20 * 0.02 * 0.07 * 2400)


def test_a_cone_lies_on_its_head():
    """Both ways round the flask is as deep. On its foot 120 mm of head over the foot less a third of its 50 mm; on its head 70 mm flat."""
    found = lies(CONE)
    ways = by_up(found)
    foot = 24 * math.sin(2 * math.pi / 48) * 400
    assert (found[0].up, found[0].mould.parting_mm) == ("-z", pytest.approx(50))
    assert ways["-z"].uplift_kg == pytest.approx(foot * 70 * 2.4e-6, rel=1e-5)
    assert ways["+z"].mould.parting_mm == pytest.approx(0, abs=1e-4)
    assert ways["+z"].uplift_kg == pytest.approx(foot * (120 - 50 / 3) * 2.4e-6, rel=1e-5)
    assert orientation.between(found[0], orientation.turned_over(found)) == "uplift"
    assert lies(headlong(CONE))[0].up == "+z"


def test_a_ring_lies_flat_for_its_hole_would_hold_it():
    found = lies(torus(40.0, 10.0), asked="-x")
    assert [lie.up for lie in found[:2]] == ["+z", "-z"]
    assert found[0].held_pct == 0
    assert found[0].mould.parting_mm == pytest.approx(10, abs=0.1)
    assert orientation.between(found[0], orientation.next_side(found)) == "undercut"
    assert {lie.up for lie in lies(shifted(torus(40.0, 10.0)))[:2]} == {"+x", "-x"}


def test_a_flat_parting_is_taken_before_a_stepped_one():
    """A bar that runs slantwise up from below: along its length it parts flat, the other ways only along its shape. Nothing of it hides."""
    found = lies(extruded(BAR, [(0, 1, 2), (0, 2, 3)], 60))
    assert found[0].up[1] == "x"
    assert not found[0].stepped
    assert all(lie.stepped and lie.undercut_cm2 == 0 for lie in found if lie.up[1] != "x")
    assert orientation.between(found[0], orientation.next_side(found)) == "parting"
    slant = by_up(found)["+z"]
    assert slant.uplift_kg == pytest.approx(
        2.4e-6 * 60 * (107 * (slant.mould.parting_mm + slant.flask.cope_depth_mm + 30) - 100 * 57 - 7 * 103.5), rel=1e-4
    )
    under = by_up(found)["-z"]
    assert under.uplift_kg == pytest.approx(
        2.4e-6 * 60 * (107 * (under.mould.parting_mm + under.flask.cope_depth_mm + 30) - 100 * 57 - 7 * 103.5), rel=1e-4
    )


def test_of_two_rings_each_held_one_way_the_larger_lies_flat():
    """Standing, a ring of R 20, r 5 is held by 4 R r − π r² = 321 mm2, one of R 40 by 721. So the larger one lies."""
    small, large = torus(20.0, 5.0), shifted(torus(40.0, 5.0))
    found = lies(small + moved(large, (0.0, 120.0, 0.0)))
    assert found[0].up[1] == "x"
    assert found[0].held_pct > 0
    assert found[0].undercut_cm2 == pytest.approx((400 - 25 * math.pi) / 100, rel=0.1)
    assert orientation.between(found[0], orientation.next_side(found)) == "undercut"


@pytest.mark.parametrize(("asked", "first"), [("+z", "+z"), ("-y", "-y"), ("+x", "+x")])
def test_of_ways_alike_the_one_asked_for_is_taken(asked, first):
    found = lies(cube(40.0), asked=asked)
    assert found[0].up == first
    assert orientation.between(found[0], orientation.next_side(found)) == ""


def test_the_first_hundredth_of_undercut_counts_as_none():
    lie = lies(cube(40.0))[0]
    assert lie.seen_cm2 == pytest.approx(32)
    for held, whole in ((0.0, 0), (0.32, 0), (0.33, 1), (0.64, 1), (0.65, 2)):
        more = {name: getattr(lie, name) for name in lie.__slots__} | {"undercut_cm2": held}
        assert orientation.Orientation(**more).held_pct == whole


def test_a_wedge_lies_with_its_triangle_up_for_that_is_the_smaller_roof():
    """Half a cube of 40, cut slantwise: whichever way up the flask is as large; its square roofs lift with 1600 mm2, its triangle with 800."""
    wedge = extruded([(0.0, 0.0), (40.0, 0.0), (0.0, 40.0)], [(0, 1, 2)], 40)
    found = lies(wedge)
    assert found[0].up == "+x"
    assert found[0].uplift_kg == pytest.approx(800 * 70 * 2.4e-6)
    assert orientation.next_side(found).uplift_kg == pytest.approx(1600 * 70 * 2.4e-6)
    assert orientation.between(found[0], orientation.next_side(found)) == "uplift"


def test_where_no_rays_go_only_flat_partings_are_compared(monkeypatch):
    monkeypatch.setattr(undercut, "cast", lambda *_: None)
    found = lies(extruded(BAR, [(0, 1, 2), (0, 2, 3)], 60))
    assert not any(lie.stepped for lie in found)
    assert found[0].up[1] == "x"


def test_a_parting_is_not_moved_off_the_widest_place_to_spare_a_few_grams():
    """A ring parted 0.3 mm below its middle would lift less by the metal of 0.3 mm, for a hundredth of undercut, which counts as none."""
    assert all(lie.mould.parting_mm == pytest.approx(10, abs=0.02) for lie in lies(torus(40.0, 10.0))[:2])
