"""The best orientation of a shape from a file, by hand arithmetic."""

import math
from dataclasses import replace

import pytest
from shapes import binary, box, cube, extruded, headlong, lathe, moved, shifted, torus

from sandmix.mesh import solid, stl, undercut
from sandmix.mesh.ray_partings import Hidden, Parting
from sandmix.mould import shape_orientation
from sandmix.mould.clearance import Clearance

NEEDED = Clearance(above_mm=40, below_mm=40, beside_mm=30, between_mm=30)
CONE = lathe([(0, 0), (20, 0), (0, 50)])
BAR = [(0.0, 0.0), (7.0, -7.0), (107.0, 93.0), (100.0, 100.0)]


def ranked(triangles, mm=1.0, preferred="+z"):
    found = solid.measure(stl.read(binary(triangles)), sides=True)
    x, y, z = found.box
    shape = shape_orientation.Shape(
        sides=found.sides,
        mm=mm,
        box_mm=(x * mm, y * mm, z * mm),
        volume_cm3=found.volume * mm**3 / 1000,
        clearance=NEEDED,
        sprue_mm=0.0,
        liquid_kg_m3=2400.0,
    )
    return shape_orientation.ranked(shape, preferred)


def by_up(found):
    return {each.up: each for each in found}


def test_six_orientations_of_a_box_and_the_sand_of_each():
    """150 × 100 × 40: flat 210 × 160 × 120 = 4.032 L; on its side 210 × 100 × 180 = 3.78; on its end 160 × 100 × 230 = 3.68; less 0.6 each."""
    found = ranked(box(150, 100, 40))
    ways = by_up(found)
    assert [ways[up].sand_l for up in ("+z", "-z", "+y", "-y", "+x", "-x")] == pytest.approx(
        [3.432, 3.432, 3.18, 3.18, 3.08, 3.08]
    )
    assert found[0].up == "+x"
    assert shape_orientation.deciding(found[0], shape_orientation.best_on_another_axis(found)) == "sand"
    assert shape_orientation.best_on_another_axis(found).up == "+y"
    assert shape_orientation.turned_over(found).up == "-x"
    assert shape_orientation.deciding(found[0], shape_orientation.turned_over(found)) == ""
    assert all(each.mould.in_cope_mm == 0 for each in found), "of two partings alike the drag takes it"


def test_a_file_in_inches_or_scaled_is_that_much_larger():
    found = by_up(ranked(box(15, 10, 4), mm=10.0))
    assert found["+z"].sand_l == pytest.approx(3.432)
    assert found["+z"].vertical_cm2 == pytest.approx(2 * (150 + 100) * 40 / 100)
    assert found["+z"].projected_cm2 == pytest.approx(300)
    assert found["+z"].draw_mm == pytest.approx(40)


def test_uplift_is_the_weight_of_metal_above_the_roof():
    """200 × 150 × 20 in the drag, cope 40 and cup 30 over it: 0.03 m² × 0.07 m × 2400 = 5.04 kg; on edge 150 × 20 and 200 × 20 of roof."""
    found = by_up(ranked(box(200, 150, 20)))
    assert found["+z"].uplift_kg == found["-z"].uplift_kg == pytest.approx(5.04)
    assert found["+x"].uplift_kg == pytest.approx(0.15 * 0.02 * 0.07 * 2400)
    assert found["+y"].uplift_kg == pytest.approx(0.20 * 0.02 * 0.07 * 2400)


def test_a_cone_lies_on_its_head():
    """Both ways round the flask is as deep. On its foot 120 mm of head over the foot less a third of its 50 mm; on its head 70 mm flat."""
    found = ranked(CONE)
    ways = by_up(found)
    foot = 24 * math.sin(2 * math.pi / 48) * 400
    assert (found[0].up, found[0].mould.parting_mm) == ("-z", pytest.approx(50))
    assert ways["-z"].uplift_kg == pytest.approx(foot * 70 * 2.4e-6, rel=1e-5)
    assert ways["+z"].mould.parting_mm == pytest.approx(0, abs=1e-4)
    assert ways["+z"].uplift_kg == pytest.approx(foot * (120 - 50 / 3) * 2.4e-6, rel=1e-5)
    assert shape_orientation.deciding(found[0], shape_orientation.turned_over(found)) == "uplift"
    assert ranked(headlong(CONE))[0].up == "+z"


def test_a_ring_lies_flat_because_standing_its_hole_is_undercut():
    found = ranked(torus(40.0, 10.0), preferred="-x")
    assert [each.up for each in found[:2]] == ["+z", "-z"]
    assert found[0].undercut_pct == 0
    assert found[0].mould.parting_mm == pytest.approx(10, abs=0.1)
    assert shape_orientation.deciding(found[0], shape_orientation.best_on_another_axis(found)) == "undercut"
    assert {each.up for each in ranked(shifted(torus(40.0, 10.0)))[:2]} == {"+x", "-x"}


def test_a_flat_parting_is_preferred_to_a_stepped_one():
    """A bar that runs slantwise up from below: along its length it parts flat, the other ways only along its shape. Nothing of it hides."""
    found = ranked(extruded(BAR, [(0, 1, 2), (0, 2, 3)], 60))
    assert found[0].up[1] == "x"
    assert not found[0].stepped
    assert all(each.stepped and each.undercut_cm2 == 0 for each in found if each.up[1] != "x")
    assert shape_orientation.deciding(found[0], shape_orientation.best_on_another_axis(found)) == "parting"
    slant = by_up(found)["+z"]
    assert slant.uplift_kg == pytest.approx(
        2.4e-6 * 60 * (107 * (slant.mould.parting_mm + slant.flask.cope_depth_mm + 30) - 100 * 57 - 7 * 103.5), rel=1e-4
    )
    under = by_up(found)["-z"]
    assert under.uplift_kg == pytest.approx(
        2.4e-6 * 60 * (107 * (under.mould.parting_mm + under.flask.cope_depth_mm + 30) - 100 * 57 - 7 * 103.5), rel=1e-4
    )


def test_of_two_rings_the_larger_one_lies_flat():
    """Standing, a ring of R 20, r 5 is held by 4 R r − π r² = 321 mm², one of R 40 by 721. So the larger one lies."""
    small, large = torus(20.0, 5.0), shifted(torus(40.0, 5.0))
    found = ranked(small + moved(large, (0.0, 120.0, 0.0)))
    assert found[0].up[1] == "x"
    assert found[0].undercut_pct > 0
    assert found[0].undercut_cm2 == pytest.approx((400 - 25 * math.pi) / 100, rel=0.1)
    assert shape_orientation.deciding(found[0], shape_orientation.best_on_another_axis(found)) == "undercut"


@pytest.mark.parametrize(("preferred", "first"), [("+z", "+z"), ("-y", "-y"), ("+x", "+x")])
def test_of_equal_orientations_the_preferred_one_is_first(preferred, first):
    found = ranked(cube(40.0), preferred=preferred)
    assert found[0].up == first
    assert shape_orientation.deciding(found[0], shape_orientation.best_on_another_axis(found)) == ""


def test_the_first_percent_of_undercut_counts_as_none():
    each = ranked(cube(40.0))[0]
    assert each.projected_cm2 == pytest.approx(32)
    for held, whole in ((0.0, 0), (0.32, 0), (0.33, 1), (0.64, 1), (0.65, 2)):
        more = {name: getattr(each, name) for name in each.__slots__} | {"undercut_cm2": held}
        assert shape_orientation.ShapeOrientation(**more).undercut_pct == whole


def test_a_wedge_has_its_triangle_up_because_that_is_the_smaller_roof():
    """Half a cube of 40, cut slantwise: in every orientation the flask is equally large; its square roofs are 1600 mm², its triangle 800."""
    wedge = extruded([(0.0, 0.0), (40.0, 0.0), (0.0, 40.0)], [(0, 1, 2)], 40)
    found = ranked(wedge)
    assert found[0].up == "+x"
    assert found[0].uplift_kg == pytest.approx(800 * 70 * 2.4e-6)
    assert shape_orientation.best_on_another_axis(found).uplift_kg == pytest.approx(1600 * 70 * 2.4e-6)
    assert shape_orientation.deciding(found[0], shape_orientation.best_on_another_axis(found)) == "uplift"


def test_without_rays_only_flat_partings_are_compared(monkeypatch):
    monkeypatch.setattr(undercut, "cast", lambda *_: None)
    found = ranked(extruded(BAR, [(0, 1, 2), (0, 2, 3)], 60))
    assert not any(each.stepped for each in found)
    assert found[0].up[1] == "x"


def test_a_parting_stays_at_the_widest_place_even_if_a_few_grams_are_lost():
    """A ring parted 0.3 mm below its middle would lift less by the metal of 0.3 mm, for a hundredth of undercut, which counts as none."""
    assert all(each.mould.parting_mm == pytest.approx(10, abs=0.02) for each in ranked(torus(40.0, 10.0))[:2])


def test_of_orientations_that_are_alike_the_preferred_one_comes_first_then_the_one_as_drawn():
    """A cube is the same on all its sides: what was preferred, then as drawn, then upwards before downwards."""
    assert [each.up for each in ranked(cube(), preferred="-x")] == ["-x", "+z", "+x", "+y", "-y", "-z"]


def test_a_stepped_parting_has_the_roof_that_nothing_covers():
    """Gaps of 8 whose lower faces are at 10 and whose upper faces are at 3 on average: they are taken off the whole roof, or off the whole floor."""
    low, top = (
        Parting(height=height, undercut=0.0, roof=roof, roof_moment=roof * 9, floor=floor, floor_moment=floor * 2)
        for height, roof, floor in ((0.0, 50.0, 11.0), (30.0, 12.0, 60.0))
    )
    hidden = Hidden(area=8.0, error=0.0, up_moment=80.0, down_moment=24.0)
    side = undercut.Side(
        axis="z", height=30.0, projected=100.0, vertical=0.0, least_draft_deg=0.0, partings=(low, top), hidden=hidden
    )
    assert shape_orientation._open_roof(side, hidden, "+") == (42, 370)
    assert shape_orientation._open_roof(side, hidden, "-") == (52, 96)


def test_among_partings_an_undercut_counts_to_a_ten_thousandth():
    """Of 100 cm²: 0.01 more counts, 0.001 more does not, and then less sand is better."""
    one = replace(ranked(box(150, 100, 40))[0], projected_cm2=100.0, undercut_cm2=0.03)
    assert replace(one, undercut_cm2=0.04).rank_of_parting > one.rank_of_parting
    assert replace(one, undercut_cm2=0.031).rank_of_parting == one.rank_of_parting
    assert replace(one, undercut_cm2=0.04, sand_l=one.sand_l - 1).rank_of_parting > one.rank_of_parting
    assert replace(one, undercut_cm2=0.031, sand_l=one.sand_l - 1).rank_of_parting < one.rank_of_parting
