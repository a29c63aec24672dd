"""What a shape measures, and which volumes are not told: cubes and rings of which everything is known by hand."""

import math

import pytest
from shapes import ball, binary, cube, inward, moved, ring, text

from sandmix.mesh import rays, seams, solid, stl
from sandmix.mesh.facets import Facets


def measure(triangles, up="+z", write=binary):
    return solid.measure(stl.read(write(triangles)), up)


def test_a_cube_of_ten():
    told = measure(cube())
    assert (told.trust, told.volume, told.area, told.box) == (solid.RIGHT, 1000, 600, (10, 10, 10))
    assert told.middle == (5, 5, 5)
    assert told.shadow.value == told.shadow.most == 100
    assert told.column.value == 0
    assert (told.shells, told.hollows, told.flipped, told.flat, told.facets) == (1, 0, 0, 0, 12)


@pytest.mark.parametrize("by", [(100.0, 0.0, 0.0), (-7.0, 3.0, 1e5)])
def test_a_cube_elsewhere_is_the_same_cube(by):
    told = measure(moved(cube(), by))
    assert (told.volume, told.area) == (1000, 600)
    assert told.middle == pytest.approx([5 + step for step in by])


def test_a_shape_that_faces_inwards_is_turned():
    told = measure(inward(cube()))
    assert (told.trust, told.volume, told.flipped) == (solid.RIGHT, 1000, 1)
    assert told.middle == (5, 5, 5)


@pytest.mark.parametrize("up", rays.DIRECTIONS)
def test_a_slab_seen_from_each_side(up):
    """A slab of 10 × 20 × 40: from above it shows the two sides that don't stand up."""
    slab = [tuple((x, 2 * y, 4 * z) for x, y, z in facet) for facet in cube()]
    across = {"x": 800, "y": 400, "z": 200}[up[1]]
    told = measure(slab, up)
    assert told.shadow.value == told.shadow.most == across
    assert told.shadow.least < across


@pytest.mark.parametrize(("up", "expected"), [("+z", 500.0), ("-z", 0.0), ("+x", 500.0), ("-x", 0.0)])
def test_the_space_over_a_wedge(up, expected):
    """Half a cube, the slope from z = 10 at x = 0 to z = 0 at x = 10: seen from the slope's side half the cube lies over it."""
    a, b, c = (0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 0.0, 10.0)
    d, e, f = ((x, 10.0, z) for x, _, z in (a, b, c))
    wedge = [(a, b, c), (d, f, e), (a, d, e), (a, e, b), (a, c, f), (a, f, d), (b, e, f), (b, f, c)]
    told = measure(wedge, up)
    assert told.volume == 500
    assert told.column.value == pytest.approx(expected, abs=1e-6)


def table(leg=2.0):
    """A plate of 10 × 10 × 2 whose underside is at 8, on one leg in the middle down to 0."""
    plate = [tuple((x, y, 8 + z / 5) for x, y, z in facet) for facet in cube()]
    return plate + [tuple((4 + x * leg / 10, 4 + y * leg / 10, z * 0.8) for x, y, z in facet) for facet in cube()]


def test_what_lies_under_something_else_is_not_counted_from_above():
    """The outline is the plate's 100; half of all that faces up or down is 104. From below up the plate's underside lies 8 over the foot."""
    told = measure(table())
    assert told.trust == solid.RIGHT
    assert told.shadow.most == pytest.approx(104)
    assert abs(told.shadow.value - 100) <= told.shadow.off < 3
    assert told.shadow.least <= 100
    assert abs(told.column.value) <= told.column.off
    upside_down = measure(table(), "-z")
    assert abs(upside_down.column.value - 8 * (100 - 4)) <= upside_down.column.off + 1e-6


def test_two_shells_apart_or_touching_add_up():
    assert measure(cube() + moved(cube(), (20.0, 0.0, 0.0))).volume == 2000
    for by in ((10.0, 3.0, 0.0), (3.0, 4.0, 10.0)):
        told = measure(cube() + moved(cube(), by))
        assert (told.trust, told.volume, told.shells) == (solid.RIGHT, 2000, 2)


def test_shells_that_overlap_are_counted_once_with_a_doubt():
    """By hand: two cubes of 1000 that share a corner of 5 × 5 × 5."""
    told = measure(cube() + moved(cube(), (5.0, 5.0, 5.0)))
    assert told.trust == solid.OVERLAPS
    assert abs(told.volume - 1875) <= told.volume_off < 20
    assert abs(told.overlap - 125) <= told.volume_off


def test_the_same_shape_twice_is_one():
    told = measure(cube() + cube())
    assert told.trust == solid.OVERLAPS
    assert abs(told.volume - 1000) <= told.volume_off < 20
    apart = measure(cube() + moved(cube(), (1e-5, 0.0, 0.0)))
    assert apart.trust == solid.OVERLAPS
    assert abs(apart.volume - 1000) <= apart.volume_off < 25
    assert apart.shells == 2


SMALL = moved(cube(4.0), (3.0, 3.0, 3.0))


def test_a_hollow_is_taken_off():
    told = measure(cube() + inward(SMALL))
    assert (told.trust, told.volume, told.area, told.hollows) == (solid.RIGHT, 936, 696, 1)
    assert told.middle == pytest.approx((5, 5, 5))


def test_a_hollow_shape_that_is_inside_out_as_a_whole_is_turned():
    told = measure(inward(cube()) + SMALL)
    assert (told.trust, told.volume, told.hollows, told.flipped) == (solid.RIGHT, 936, 1, 2)


def test_a_kernel_within_a_hollow_counts():
    kernel = moved(cube(2.0), (4.0, 4.0, 4.0))
    told = measure(cube() + inward(SMALL) + kernel)
    assert (told.volume, told.hollows, told.shells) == (944, 1, 3)


UNTOLD = {
    "a shell lies inside another and faces the same way, so it may be a hollow or be counted twice": [
        cube() + SMALL,
        cube() + inward(SMALL) + inward(moved(cube(2.0), (4.0, 4.0, 4.0))),
        cube() + SMALL + moved(cube(), (8.0, 8.0, 8.0)),
    ],
    "shells that face in and shells that face out cut into each other": [
        cube() + inward(moved(cube(), (5.0, 5.0, 5.0)))
    ],
    "it is flat": [[((0.0, 0.0, 0.0), (9.0, 0.0, 0.0), (0.0, 9.0, 0.0)), ((0.0, 0.0, 0.0), (0.0, 9.0, 0.0), (9.0, 0.0, 0.0))]],
    "there is no room inside it": [cube() + inward(cube())],
}  # fmt: skip


@pytest.mark.parametrize(("why", "shape"), [(why, shape) for why, shapes in UNTOLD.items() for shape in shapes])
def test_what_can_be_read_in_two_ways_is_not_told(why, shape):
    told = measure(shape)
    assert (told.trust, told.why, told.volume, told.middle, told.column) == (solid.UNTOLD, why, None, None, None)


def test_a_bow_tie_is_turned_inside_out_on_one_side():
    """A prism over a bow tie whose two wings are unlike: one of them must face inwards."""
    low = [(0.0, 0.0, 0.0), (10.0, 10.0, 0.0), (10.0, 0.0, 0.0), (0.0, 6.0, 0.0)]
    high = [(x, y, 5.0) for x, y, _ in low]
    sides = [(low[at], low[(at + 1) % 4], high[(at + 1) % 4], high[at]) for at in range(4)]
    shape = [facet for a, b, c, d in sides for facet in ((a, b, c), (a, c, d))]
    shape += [
        (low[0], low[2], low[1]),
        (low[0], low[3], low[2]),
        (high[0], high[1], high[2]),
        (high[0], high[2], high[3]),
    ]
    told = measure(shape)
    assert told.seams.closed
    assert (told.trust, told.why) == (solid.UNTOLD, "parts of its surface are turned inside out")


def test_facets_that_face_unlike_their_neighbours_are_turned():
    shape = ball()
    shape[5], shape[50] = shape[5][::-1], shape[50][::-1]
    told = measure(shape)
    assert (told.trust, told.seams.turned) == (solid.RIGHT, 2)
    assert told.volume == pytest.approx(measure(ball()).volume, rel=1e-12)
    with_needle = measure([*shape, (shape[0][0], shape[0][0], shape[0][1])])
    assert (with_needle.seams.turned, with_needle.flat) == (2, 1)


def test_a_shape_that_lacks_facets_has_no_volume_but_says_where():
    """Two facets of the side x = 10 are gone: a hole of four edges there."""
    told = measure(cube()[:2] + cube()[4:])
    (hole,) = told.seams.holes
    assert (told.trust, told.why, told.volume, told.shadow) == (solid.OPEN, "it is not closed", None, None)
    assert (hole.edges, hole.low, hole.high) == (4, (10, 0, 0), (10, 10, 10))
    assert told.area == 500
    assert told.box == (10, 10, 10)


def test_holes_are_told_apart_the_largest_first():
    shape = ball()
    del shape[100:102], shape[0]
    assert [hole.edges for hole in measure(shape).seams.holes] == [4, 3]


def test_facets_too_many_at_an_edge_are_counted():
    fin = ((0.0, 0.0, 0.0), (0.0, 0.0, 10.0), (-5.0, 5.0, 5.0))
    told = measure([*cube(), fin])
    assert told.trust == solid.OPEN
    assert [hole.edges for hole in told.seams.holes] == [3]
    thrice = measure([*cube(), fin, fin, fin])
    assert (thrice.seams.crowded, thrice.seams.holes[0].edges) == (3, 3)


def strip(twisted):
    """A closed loop of a band: twisted once it has one side only; given a back, it is a shape of no thickness."""
    turns = 12

    def at(i, side):
        turn = 2 * math.pi * i / turns
        tilt = turn / 2 if twisted else 0.3
        r = 10 + side * 3 * math.cos(tilt)
        return r * math.cos(turn), r * math.sin(turn), side * 3 * math.sin(tilt)

    found = []
    for i in range(turns):
        a, b = at(i, 1), at(i, -1)
        c, d = (
            (at(i + 1, 1), at(i + 1, -1))
            if i + 1 < turns
            else ((at(0, -1), at(0, 1)) if twisted else (at(0, 1), at(0, -1)))
        )
        found += [(a, b, c), (c, b, d)]
    return found


def test_a_band_has_two_borders_and_a_twisted_one_has_one():
    assert len(measure(strip(False)).seams.holes) == 2
    assert len(measure(strip(True)).seams.holes) == 1


def bottle():
    """A torus of squares glued with a twist: a closed surface of one side."""
    across, round_ = 6, 5
    number = {}

    def at(i, j):
        i, j = (i, j) if i < across else (i - across, -j)
        return number.setdefault((i, j % round_), len(number))

    found = []
    for i in range(across):
        for j in range(round_):
            found += [(at(i, j), at(i + 1, j), at(i + 1, j + 1)), (at(i, j), at(i + 1, j + 1), at(i, j + 1))]
    places = [(math.sin(3.1 * at), math.cos(1.7 * at), math.sin(0.9 * at * at)) for at in range(len(number))]
    return [tuple(places[corner] for corner in facet) for facet in found]


def test_a_surface_of_one_side_is_not_mended():
    told = measure(bottle())
    assert (told.trust, told.volume, told.seams.holes) == (solid.OPEN, None, ())
    assert told.seams.twisted > 0


def test_an_edge_where_four_facets_face_unlike_is_not_mended():
    """Two cubes that share an edge, one facet of it turned: what belongs to which can't be told."""
    both = cube() + moved(cube(), (10.0, 10.0, 0.0))
    at = next(at for at, facet in enumerate(both) if sum(place[:2] == (10.0, 10.0) for place in facet) == 2)
    both[at] = both[at][::-1]
    told = measure(both)
    assert (told.trust, told.seams.turned) == (solid.OPEN, 0)
    assert measure(cube() + moved(cube(), (10.0, 10.0, 0.0))).volume == 2000


def test_corners_a_hair_apart_are_taken_as_one():
    """Each facet's corners are moved by up to a millionth of the size, as a file that rounds does."""
    loose = [
        tuple(
            tuple(value + 4e-6 * math.sin(99 * at + 7 * side + value) for value in place)
            for side, place in enumerate(facet)
        )
        for at, facet in enumerate(cube())
    ]
    told = measure(loose)
    assert told.trust == solid.RIGHT
    assert 0 < told.seams.joined <= 1e-4 * 10
    assert abs(told.volume - 1000) <= told.volume_off < 1


def test_corners_a_hair_apart_with_a_facet_turned_are_mended_both():
    loose = [*cube()]
    loose[3] = tuple(tuple(value + 2e-6 for value in place) for place in loose[3][::-1])
    told = measure(loose)
    assert (told.trust, told.seams.turned) == (solid.RIGHT, 1)
    assert told.seams.joined > 0


def test_corners_are_not_taken_as_one_where_that_could_move_the_volume_much():
    """A thin sheet of 100 × 100 × 0.02 with a facet loose by 0.005, a quarter of its thickness."""
    sheet = [tuple((10 * x, 10 * y, z / 500) for x, y, z in facet) for facet in cube()]
    sheet[4] = tuple((x, y, z + 0.005) for x, y, z in sheet[4])
    told = measure(sheet)
    assert (told.volume, told.trust) == (None, solid.UNTOLD)
    assert told.why == "its corners lie too far apart to be taken as one"


def test_text_and_binary_measure_the_same():
    assert measure(ring(), write=text).volume == pytest.approx(measure(ring()).volume, rel=1e-4)


def test_facets_without_area_are_counted_and_change_nothing():
    needle = ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
    told = measure([*cube(), needle])
    assert (told.volume, told.flat, told.shells) == (1000, 1, 1)


def test_a_shell_too_small_for_any_ray_widens_the_doubt():
    grain = moved(cube(0.01), (50.0, 50.0, 0.033))
    told = measure([*cube(100.0), *moved(grain, (70.0, 0.0, 0.0))])
    assert told.trust == solid.RIGHT
    assert told.volume == pytest.approx(1e6 + 1e-6, abs=1e-7)
    assert told.volume_off == pytest.approx(2e-6, rel=1e-3)


def test_long_thin_facets_by_the_thousand_are_given_up():
    """A fan of needles, each across the whole of it: to look through them would take too long."""
    needles = []
    for at in range(2_000):
        x, y = 100 * math.cos(at), 100 * math.sin(at)
        needles += [
            ((0.0, 0.0, 0.0), (x, y, at * 1e-3), (x, y, at * 1e-3 + 1)),
            ((0.0, 0.0, 0.0), (x, y, at * 1e-3 + 1), (x, y, at * 1e-3)),
        ]
    old, rays.MOST_STRIPS = rays.MOST_STRIPS, 1000
    try:
        told = measure(needles)
    finally:
        rays.MOST_STRIPS = old
    assert (told.trust, told.why) == (solid.UNTOLD, "its facets are too long and thin to look through")


def test_shells_in_shells_without_end_are_given_up(monkeypatch):
    monkeypatch.setattr("sandmix.mesh.shells.MOST_OPEN_AT_ONCE", 2)
    nest = [facet for size in (10.0, 8.0, 6.0, 4.0) for facet in moved(cube(size), ((10 - size) / 2,) * 3)]
    assert measure(nest).why == "more shells lie in each other than can be told apart"


def test_a_shape_too_large_to_turn_or_join_is_left_open(monkeypatch):
    shape = cube()
    shape[3] = shape[3][::-1]
    monkeypatch.setattr(seams, "MOST_TO_TURN", 5)
    assert measure(shape).trust == solid.OPEN


def test_open_edges_are_found_in_parts_as_in_one(monkeypatch):
    shape = ball()[3:40]
    whole = measure(shape).seams.holes
    monkeypatch.setattr(seams, "_EDGES_AT_ONCE", 20)
    assert measure(shape).seams.holes == whole


def test_the_ends_of_a_guess_stay_within_its_bounds():
    told = measure(table())
    assert told.at(-1).shadow.value >= told.shadow.least
    assert told.at(1).shadow.value <= told.shadow.most
    assert measure(cube()[1:]).at(1).volume is None


def test_a_shape_too_small_for_numbers_is_flat():
    tiny = [tuple(tuple(value * 1e-322 for value in place) for place in facet) for facet in cube(1.0)]
    assert measure(tiny, write=text).why == "it is flat"
    assert measure(tiny[1:], write=text).trust == solid.OPEN


def test_a_point_is_no_shape():
    told = measure([((1.0, 1.0, 1.0),) * 3])
    assert (told.trust, told.area, told.shells, told.flat) == (solid.UNTOLD, 0, 0, 1)
    assert len(Facets()) == 0
