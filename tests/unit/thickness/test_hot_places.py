"""Where a shape is thickest: figures by hand for plain solids and joints, and shapes that are damaged or thinner than the grid."""

import math

import pytest
from effort import only_long
from shapes import (
    ball,
    bar,
    binary,
    box,
    cube,
    dumbbell,
    inward,
    l_section,
    lathe,
    moved,
    plus_section,
    ribbed_section,
    shifted,
    t_bar,
    torus,
    y_section,
)  # fmt: skip

from sandmix.mesh import solid, stl
from sandmix.thickness import hot_places, surface
from sandmix.thickness.hot_places import thickness_of

FINE = 0.005
"""A ball is found to 0.2 % of its radius; the flat sides of round shapes take up to 0.25 % off."""


def found_in(triangles):
    return thickness_of(solid.measure(stl.read(binary(triangles))))


MARKS = {
    # the largest ball of plain solids
    "ball": (ball(60, 20.0), 20),
    "cube": (cube(40.0), 20),
    "long cylinder": (lathe([(0, 0), (15, 0), (15, 60), (0, 60)], 96), 15),
    "flat cylinder": (lathe([(0, 0), (15, 0), (15, 10), (0, 10)], 96), 5),
    "plate": (box(200, 150, 6), 3),
    "bar": (box(200, 12, 12), 6),
    "torus": (torus(40, 8, 96), 8),
    "cone": (lathe([(0, 0), (30, 0), (0, 40)], 96), 30 * 40 / (30 + 50) * math.cos(math.pi / 96)),
    "pipe": (lathe([(30, 0), (40, 0), (40, 50), (30, 50), (30, 0)], 96), 5),
    "hollow ball": (ball(60, 20.0) + inward(ball(60, 12.0)), 4),
    # joints of equal walls of 10: the largest circle of the section
    "L": (bar(l_section(10, 60), 100), 5 * 2 * math.sqrt(2) / (1 + math.sqrt(2))),
    "T": (t_bar(), 5 * 1.25),
    "plus": (bar(plus_section(10, 40), 100), 5 * math.sqrt(2)),
    "Y": (bar(y_section(10, 40), 100), 5 * 2 / math.sqrt(3)),
    "a wider web on a plate": (bar(ribbed_section(10, 12, (60,)), 150), (10 + 12**2 / 40) / 2),
}  # fmt: skip


SLOW = ("hollow ball", "pipe")
"""The shapes that only a long run measures."""
TURNED = ("bar", "T")
"""The shapes that every run also measures along the two other axes."""


@pytest.mark.parametrize(
    "shape", [*((name, 0) for name in MARKS if name not in SLOW), *((name, turns) for name in TURNED for turns in (1, 2)),
              *only_long(*((name, 0) for name in SLOW), *((name, turns) for name in MARKS if name not in TURNED for turns in (1, 2)))],
    ids=lambda shape: f"{shape[0]}-{shape[1]}",
)  # fmt: skip
def test_the_largest_ball_is_that_of_geometry(shape):
    name, turns = shape
    triangles, radius = MARKS[name]
    found = found_in(shifted(triangles, turns))
    assert len(found.places) == 1
    assert found.places[0].radius == pytest.approx(radius, rel=FINE)
    assert found.places[0].radius <= radius * (1 + 1e-6), "never more than fits"
    assert found.places[0].radius_error <= 0.003 * radius


@pytest.mark.parametrize("up", ["x", "y", "z"])
def test_the_centre_is_in_the_axes_of_the_file(up):
    """A cube of 20 at (100, 200, 300) with a plate on one side, so that another side is the shortest."""
    sides = {"x": (20, 30, 40), "y": (30, 20, 40), "z": (30, 40, 20)}[up]
    (place,) = found_in(moved(box(*sides), (100.0, 200.0, 300.0))).places
    middle = [start + side / 2 for start, side in zip((100, 200, 300), sides, strict=True)]
    assert place.radius == pytest.approx(10, rel=FINE)
    along = "xyz".index(up)
    assert place.centre[along] == pytest.approx(middle[along], abs=0.1)
    assert place.centre == pytest.approx(middle, abs=3)


@pytest.mark.parametrize(
    ("triangles", "share"),
    [(box(200, 150, 6), 1), (box(400, 12, 12), 1 / 2), (lathe([(0, 0), (8, 0), (8, 200), (0, 200)], 64), 1 / 2), (torus(60, 8, 96), 1 / 2),
     (cube(40.0), 1 / 3), (ball(60, 20.0), 1 / 3)],
    ids=["plate", "square bar", "round bar", "torus", "cube", "ball"],
)  # fmt: skip
def test_the_modulus_of_a_place_is_that_of_its_shape(triangles, share):
    """Volume over surface: a plate's is its radius, a long bar's half of it, a cube's and a ball's a third."""
    (place,) = found_in(triangles).places
    assert place.modulus / place.radius == pytest.approx(share, rel=0.05)


def test_a_larger_modulus_freezes_later_than_a_thicker_place():
    """A plate of 20 mm has 10 mm less what its edges take; a ball of 40 mm has 6.7 mm."""
    plate, one = found_in(box(200, 200, 20) + moved(ball(40, 20.0), (300.0, 0.0, 0.0))).places
    assert (plate.radius, one.radius) == (pytest.approx(10, rel=FINE), pytest.approx(20, rel=FINE))
    assert plate.modulus > one.modulus


def test_separate_thick_sections_are_separate_places():
    """The blocks of the dumbbell, 40 and 28 mm; their middles are at 20 and from 134 to 136 along it."""
    large, small = found_in(dumbbell()).places
    assert (large.radius, small.radius) == (pytest.approx(20, rel=FINE), pytest.approx(14, rel=FINE))
    assert large.centre == pytest.approx((0, 0, 20), abs=1)
    assert small.centre[:2] == pytest.approx((0, 0), abs=0.5)
    assert 133.5 < small.centre[2] < 136.5


def test_each_rib_on_a_thin_plate_is_a_place():
    found = found_in(bar(ribbed_section(6, 10, (25.0, 60.0, 95.0)), 150))
    assert sorted(round(place.centre[1]) for place in found.places) == [25, 60, 95]
    for place in found.places:
        assert 5 * (1 - FINE) <= place.radius <= (6 + 100 / 24) / 2 * 1.0001, "the rib, or its joint"


def test_a_section_that_is_about_as_thick_all_along_is_one_place():
    """A bar with a waist of 19 in 20 mm is one section; a waist of 14 makes two."""

    def waisted(narrow):
        return lathe([(0, 0), (10, 0), (10, 40), (narrow, 60), (10, 80), (10, 120), (0, 120)], 64)

    assert len(found_in(waisted(9.5)).places) == 1
    assert len(found_in(waisted(7.0)).places) == 2


def test_there_are_at_most_six_places_the_last_to_freeze_first():
    cubes = [facet for at in range(9) for facet in cube(10.0 + at, (30.0 * at, 0.0, 0.0))]
    places = found_in(cubes).places
    assert [round(2 * place.radius) for place in places] == [18, 17, 16, 15, 14, 13]
    assert [place.modulus for place in places] == sorted((place.modulus for place in places), reverse=True)


@pytest.mark.parametrize(
    ("triangles", "wall"),
    [(box(200, 150, 6), 6), (bar(l_section(10, 60), 100), 10), (lathe([(30, 0), (34, 0), (34, 50), (30, 50), (30, 0)], 96), 4),
     (ball(60, 20.0) + inward(ball(60, 18.0)), 2), (t_bar(), 10), (bar(ribbed_section(6, 3, (30.0, 60.0, 90.0)), 150), 3), (cube(40.0), 40),
     (inward(box(200, 150, 6)), 6)],
    ids=["plate", "L", "pipe", "hollow ball", "T", "thin ribs", "cube", "inside out"],
)  # fmt: skip
def test_the_thinnest_wall_is_that_of_the_drawing(triangles, wall):
    """Round shapes of flat sides are off by up to 0.5 %: both faces of a wall are inside their circles, at most by 1 - cos(π/96) of the radius."""
    assert found_in(triangles).thinnest == pytest.approx(wall, rel=0.015)


def test_a_wedge_is_thinner_than_its_middle():
    """From 2 to 20 mm along 100: 3 % of its two faces are thinner than about 2.5 mm."""
    wedge = bar([(0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (0.0, 2.0)], 60)
    assert 2 <= found_in(wedge).thinnest <= 3.2


def test_a_foil_thinner_than_the_grid_is_measured():
    found = found_in(box(200, 150, 0.05))
    assert found.places[0].radius == pytest.approx(0.025, rel=FINE)
    assert found.thinnest == pytest.approx(0.05, rel=0.01)


def test_a_foil_next_to_a_block_does_not_hide_it():
    found = found_in(box(100, 100, 0.05) + moved(cube(20.0), (0.0, 0.0, 10.0)))
    assert found.places[0].radius == pytest.approx(10, rel=FINE)
    assert found.thinnest == pytest.approx(0.05, rel=0.01)


def test_blocks_that_touch_are_one_section():
    (place,) = found_in(cube(20.0) + moved(cube(20.0), (20.0, 0.0, 0.0))).places
    assert place.radius == pytest.approx(10, rel=FINE)


def test_where_faces_inside_the_body_stop_the_ball_the_grid_counts():
    """A bar of 20 × 20 × 40 of eight slices: no ball of the mesh is larger than 2.5, but the body holds one of 10."""
    found = found_in([facet for at in range(8) for facet in box(20, 20, 5, (0.0, 0.0, 5.0 * at))])
    assert abs(found.places[0].radius - 10) <= found.places[0].radius_error == found.step


@pytest.mark.parametrize("at", [18.0, 19.7, 20.0, 21.3])
def test_a_slot_between_the_rays_still_divides(at):
    """A block of 40 with a slot of 0.3 mm down to 4 mm above its floor: the larger half decides, not the whole block."""
    section = [
        (0.0, 0.0),
        (40.0, 0.0),
        (40.0, 40.0),
        (at + 0.3, 40.0),
        (at + 0.3, 4.0),
        (at, 4.0),
        (at, 40.0),
        (0.0, 40.0),
    ]
    found = found_in(bar(section, 40))
    assert found.places[0].radius <= max(at, 39.7 - at) / 2 * 1.05, "by the foot of the slot it is a little more"
    assert found.places[0].radius >= min(at, 39.7 - at) / 2 * (1 - FINE)


def test_pieces_that_overlap_are_known_to_a_step_of_the_grid_and_have_no_thinnest_wall():
    """Two cubes of 20, the second moved by (10, 0, 0): together a bar of 30 × 20 × 20."""
    found = found_in(cube(20.0) + moved(cube(20.0), (10.0, 0.0, 0.0)))
    assert found.by_the_grid
    assert found.thinnest is None
    (place,) = found.places
    assert abs(place.radius - 10) <= place.radius_error


def test_without_a_volume_there_is_no_thickness():
    assert found_in(cube(40.0)[1:]) is None
    assert (
        found_in([(a, b, c) for a, b, c in [((0, 0, 0), (9, 0, 0), (0, 9, 0)), ((0, 0, 0), (0, 9, 0), (9, 0, 0))]])
        is None
    )


def test_where_one_shell_was_turned_there_is_no_thinnest_wall():
    found = found_in(cube(20.0) + moved(inward(cube(12.0)), (40.0, 0.0, 0.0)))
    assert [round(place.radius) for place in found.places] == [10, 6]
    assert found.thinnest is None


def test_made_of_fewer_facets_the_error_says_so(monkeypatch):
    monkeypatch.setattr(surface, "MOST_FACETS", 1000)
    (place,) = found_in(ball(60, 20.0)).places
    assert place.radius_error == pytest.approx(0.2 * math.sqrt(3), rel=0.2)
    assert abs(place.radius - 20) <= place.radius_error


def test_it_scales_with_the_shape():
    """A thousand times larger and smaller; the digits of an STL are enough for 1e-5."""
    small = found_in(dumbbell())
    for by in (1e-3, 1e3):
        large = found_in([tuple(tuple(by * v for v in p) for p in facet) for facet in dumbbell()])
        assert len(large.places) == len(small.places)
        for one, other in zip(small.places, large.places, strict=True):
            assert other.radius == pytest.approx(by * one.radius, rel=2e-3)
    assert hot_places.MOST_PLACES == 6
