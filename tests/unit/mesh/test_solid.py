"""What a shape measures, and where no volume is given: cubes and rings that are calculated by hand."""

import math
from dataclasses import replace

import pytest
from effort import only_long
from shapes import ball, binary, box, cube, inward, moved, ring, text

from sandmix.mesh import rays, solid, stl, topology
from sandmix.mesh.facets import Facets


def measure(triangles, up="+z", write=binary):
    return solid.measure(stl.read(write(triangles)), up)


def test_a_cube_of_ten():
    found = measure(cube())
    assert (found.trust, found.volume, found.area, found.box) == (solid.RIGHT, 1000, 600, (10, 10, 10))
    assert found.centroid == (5, 5, 5)
    assert found.projected.value == found.projected.most == 100
    assert found.space_above.value == 0
    assert (found.shells, found.hollows, found.flipped, found.flat, found.facets) == (1, 0, 0, 0, 12)


@pytest.mark.parametrize("by", [(100.0, 0.0, 0.0), (-7.0, 3.0, 1e5)])
def test_a_cube_elsewhere_is_the_same_cube(by):
    found = measure(moved(cube(), by))
    assert (found.volume, found.area) == (1000, 600)
    assert found.centroid == pytest.approx([5 + step for step in by])


def test_a_shape_that_faces_inwards_is_turned():
    found = measure(inward(cube()))
    assert (found.trust, found.volume, found.flipped) == (solid.RIGHT, 1000, 1)
    assert found.centroid == (5, 5, 5)


@pytest.mark.parametrize("up", rays.DIRECTIONS)
def test_a_slab_seen_from_each_side(up):
    """A slab of 10 × 20 × 40: from above it shows the two sides that don't stand up."""
    slab = [tuple((x, 2 * y, 4 * z) for x, y, z in facet) for facet in cube()]
    across = {"x": 800, "y": 400, "z": 200}[up[1]]
    found = measure(slab, up)
    assert found.projected.value == found.projected.most == across
    assert found.projected.least < across


@pytest.mark.parametrize(("up", "expected"), [("+z", 500.0), ("-z", 0.0), ("+x", 500.0), ("-x", 0.0)])
def test_the_space_above_a_wedge(up, expected):
    """Half a cube, with a slope from z = 10 at x = 0 to z = 0 at x = 10: on the side of the slope, the space above it is half the cube."""
    a, b, c = (0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 0.0, 10.0)
    d, e, f = ((x, 10.0, z) for x, _, z in (a, b, c))
    wedge = [(a, b, c), (d, f, e), (a, d, e), (a, e, b), (a, c, f), (a, f, d), (b, e, f), (b, f, c)]
    for shape in (wedge, inward(wedge)):
        found = measure(shape, up)
        assert found.volume == 500
        assert found.space_above.value == pytest.approx(expected, abs=1e-6)


def test_the_space_above_a_wedge_with_a_box_stuck_into_its_slope():
    """From z = 10 at x = 0 to 0 at x = 10, and a box of 2 × 2 about x = 5 from 1, inside it, up to 8: 500 less 4 · (8 − 5)."""
    a, b, c = (0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 0.0, 10.0)
    d, e, f = ((x, 10.0, z) for x, _, z in (a, b, c))
    wedge = [(a, b, c), (d, f, e), (a, d, e), (a, e, b), (a, c, f), (a, f, d), (b, e, f), (b, f, c)]
    found = measure(wedge + box(2.0, 2.0, 7.0, (4.0, 4.0, 1.0)))
    assert found.trust == solid.OVERLAPS
    assert abs(found.space_above.value - 488) <= found.space_above.half_width < 4
    assert abs(found.volume - (500 + 12)) <= found.volume_error


def table(leg=2.0):
    """A plate of 10 × 10 × 2 whose underside is at 8, on one leg in the middle down to 0."""
    plate = [tuple((x, y, 8 + z / 5) for x, y, z in facet) for facet in cube()]
    return plate + [tuple((4 + x * leg / 10, 4 + y * leg / 10, z * 0.8) for x, y, z in facet) for facet in cube()]


def test_covered_faces_are_not_counted_from_above():
    """The projected area is the plate's 100; half of all that faces up or down is 104. Upside down, the plate's underside is 8 below the foot."""
    found = measure(table())
    assert found.trust == solid.RIGHT
    assert found.projected.most == pytest.approx(104)
    assert abs(found.projected.value - 100) <= found.projected.half_width < 3
    assert found.projected.least <= 100
    assert abs(found.space_above.value) <= found.space_above.half_width
    upside_down = measure(table(), "-z")
    assert abs(upside_down.space_above.value - 8 * (100 - 4)) <= upside_down.space_above.half_width + 1e-6


def test_two_shells_apart_or_touching_add_up():
    assert measure(cube() + moved(cube(), (20.0, 0.0, 0.0))).volume == 2000
    for by in ((10.0, 3.0, 0.0), (3.0, 4.0, 10.0)):
        found = measure(cube() + moved(cube(), by))
        assert (found.trust, found.volume, found.shells) == (solid.RIGHT, 2000, 2)


def test_shells_that_overlap_are_counted_once_with_an_uncertainty():
    """By hand: two cubes of 1000 that share a corner of 5 × 5 × 5."""
    found = measure(cube() + moved(cube(), (5.0, 5.0, 5.0)))
    assert found.trust == solid.OVERLAPS
    assert abs(found.volume - 1875) <= found.volume_error < 20
    assert abs(found.overlap - 125) <= found.volume_error


def test_the_same_shape_twice_is_one():
    found = measure(cube() + cube())
    assert found.trust == solid.OVERLAPS
    assert abs(found.volume - 1000) <= found.volume_error < 20
    apart = measure(cube() + moved(cube(), (1e-5, 0.0, 0.0)))
    assert apart.trust == solid.OVERLAPS
    assert abs(apart.volume - 1000) <= apart.volume_error < 25
    assert apart.shells == 2


SMALL = moved(cube(4.0), (3.0, 3.0, 3.0))


def test_a_hollow_is_taken_off():
    found = measure(cube() + inward(SMALL))
    assert (found.trust, found.volume, found.area, found.hollows) == (solid.RIGHT, 936, 696, 1)
    assert found.centroid == pytest.approx((5, 5, 5))


def test_a_hollow_shape_that_is_inside_out_as_a_whole_is_turned():
    found = measure(inward(cube()) + SMALL)
    assert (found.trust, found.volume, found.hollows, found.flipped) == (solid.RIGHT, 936, 1, 2)


def test_a_core_inside_a_hollow_counts():
    core = moved(cube(2.0), (4.0, 4.0, 4.0))
    found = measure(cube() + inward(SMALL) + core)
    assert (found.volume, found.hollows, found.shells) == (944, 1, 3)


UNDECIDED = {
    "faces the same way": [
        cube() + SMALL,
        cube() + inward(SMALL) + inward(moved(cube(2.0), (4.0, 4.0, 4.0))),
        cube() + SMALL + moved(cube(), (8.0, 8.0, 8.0)),
    ],
    "cut into each other": [
        cube() + inward(moved(cube(), (5.0, 5.0, 5.0)))
    ],
    "is flat": [[((0.0, 0.0, 0.0), (9.0, 0.0, 0.0), (0.0, 9.0, 0.0)), ((0.0, 0.0, 0.0), (0.0, 9.0, 0.0), (9.0, 0.0, 0.0))]],
    "has no inside": [cube() + inward(cube())],
}  # fmt: skip


@pytest.mark.parametrize(("why", "shape"), [(why, shape) for why, shapes in UNDECIDED.items() for shape in shapes])
def test_what_has_two_possible_meanings_is_not_decided(why, shape):
    found = measure(shape)
    assert (found.trust, found.volume, found.centroid, found.space_above) == (solid.UNDECIDED, None, None, None)
    assert why in found.why


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
    found = measure(shape)
    assert found.topology.closed
    assert (found.trust, found.volume) == (solid.UNDECIDED, None)
    assert "inside out" in found.why


def test_facets_that_face_the_other_way_than_their_neighbours_are_turned():
    shape = ball()
    shape[5], shape[50] = shape[5][::-1], shape[50][::-1]
    found = measure(shape)
    assert (found.trust, found.topology.turned) == (solid.RIGHT, 2)
    assert found.volume == pytest.approx(measure(ball()).volume, rel=1e-12)
    with_needle = measure([*shape, (shape[0][0], shape[0][0], shape[0][1])])
    assert (with_needle.topology.turned, with_needle.flat) == (2, 1)


def test_a_shape_that_lacks_facets_has_no_volume_but_says_where():
    """Two facets of the side x = 10 are gone: a hole of four edges there."""
    found = measure(cube()[:2] + cube()[4:])
    (hole,) = found.topology.holes
    assert (found.trust, found.volume, found.projected) == (solid.OPEN, None, None)
    assert (hole.edges, hole.low, hole.high) == (4, (10, 0, 0), (10, 10, 10))
    assert found.area == 500
    assert found.box == (10, 10, 10)


@pytest.mark.parametrize("side", range(6))
def test_a_hole_reaches_from_the_lowest_to_the_highest_of_its_corners(side):
    shape = cube()
    corners = [corner for facet in shape[2 * side : 2 * side + 2] for corner in facet]
    (hole,) = measure(shape[: 2 * side] + shape[2 * side + 2 :]).topology.holes
    for axis in range(3):
        values = sorted(corner[axis] for corner in corners)
        assert (hole.low[axis], hole.high[axis]) == (values[0], values[-1])
    assert hole.edges == 4


def test_holes_are_listed_separately_the_largest_first():
    shape = ball()
    del shape[100:102], shape[0]
    assert [hole.edges for hole in measure(shape).topology.holes] == [4, 3]


def test_facets_too_many_at_an_edge_are_counted():
    fin = ((0.0, 0.0, 0.0), (0.0, 0.0, 10.0), (-5.0, 5.0, 5.0))
    found = measure([*cube(), fin])
    assert found.trust == solid.OPEN
    assert [hole.edges for hole in found.topology.holes] == [3]
    thrice = measure([*cube(), fin, fin, fin])
    assert (thrice.topology.crowded, thrice.topology.holes[0].edges) == (3, 3)


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
    assert len(measure(strip(False)).topology.holes) == 2
    assert len(measure(strip(True)).topology.holes) == 1


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


def test_a_surface_of_one_side_is_not_repaired():
    found = measure(bottle())
    assert (found.trust, found.volume, found.topology.holes) == (solid.OPEN, None, ())
    assert (found.topology.twisted, found.topology.crowded) == (5, 0), "the five edges along the seam"


def test_an_edge_of_four_facets_that_disagree_is_not_repaired():
    """Two cubes that share an edge, one facet of it turned: what belongs to which can't be decided."""
    both = cube() + moved(cube(), (10.0, 10.0, 0.0))
    at = next(at for at, facet in enumerate(both) if sum(place[:2] == (10.0, 10.0) for place in facet) == 2)
    both[at] = both[at][::-1]
    found = measure(both)
    assert (found.trust, found.topology.turned) == (solid.OPEN, 0)
    assert measure(cube() + moved(cube(), (10.0, 10.0, 0.0))).volume == 2000


def test_corners_very_close_together_are_joined():
    """Each facet's corners are moved by up to a millionth of the size, as a file that rounds does."""
    loose = [
        tuple(
            tuple(value + 4e-6 * math.sin(99 * at + 7 * side + value) for value in place)
            for side, place in enumerate(facet)
        )
        for at, facet in enumerate(cube())
    ]
    found = measure(loose)
    assert found.trust == solid.RIGHT
    assert 0 < found.topology.joined <= 1e-4 * 10
    assert abs(found.volume - 1000) <= found.volume_error < 1


def test_close_corners_and_a_turned_facet_are_both_repaired():
    loose = [*cube()]
    loose[3] = tuple(tuple(value + 2e-6 for value in place) for place in loose[3][::-1])
    found = measure(loose)
    assert (found.trust, found.topology.turned) == (solid.RIGHT, 1)
    assert found.topology.joined > 0


def test_corners_are_not_joined_where_that_could_change_the_volume_much():
    """A thin sheet of 100 × 100 × 0.02 with a facet loose by 0.005, a quarter of its thickness."""
    sheet = [tuple((10 * x, 10 * y, z / 500) for x, y, z in facet) for facet in cube()]
    sheet[4] = tuple((x, y, z + 0.005) for x, y, z in sheet[4])
    found = measure(sheet)
    assert (found.volume, found.trust) == (None, solid.UNDECIDED)
    assert "too far apart" in found.why


def test_text_and_binary_measure_the_same():
    assert measure(ring(), write=text).volume == pytest.approx(measure(ring()).volume, rel=1e-4)


def test_facets_without_area_are_counted_and_change_nothing():
    needle = ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
    found = measure([*cube(), needle])
    assert (found.volume, found.flat, found.shells) == (1000, 1, 1)


def test_a_shell_too_small_for_any_ray_widens_the_uncertainty():
    grain = moved(cube(0.01), (50.0, 50.0, 0.033))
    found = measure([*cube(100.0), *moved(grain, (70.0, 0.0, 0.0))])
    assert found.trust == solid.RIGHT
    assert found.volume == pytest.approx(1e6 + 1e-6, abs=1e-7)
    assert found.volume_error == pytest.approx(2e-6, rel=1e-3)


def test_thousands_of_long_thin_facets_are_given_up():
    """A fan of needles, each across the whole of it: the rays would take too long."""
    needles = []
    for at in range(2_000):
        x, y = 100 * math.cos(at), 100 * math.sin(at)
        needles += [
            ((0.0, 0.0, 0.0), (x, y, at * 1e-3), (x, y, at * 1e-3 + 1)),
            ((0.0, 0.0, 0.0), (x, y, at * 1e-3 + 1), (x, y, at * 1e-3)),
        ]
    old, rays.MOST_STRIPS = rays.MOST_STRIPS, 1000
    try:
        found = measure(needles)
    finally:
        rays.MOST_STRIPS = old
    assert found.trust == solid.UNDECIDED
    assert "long and thin" in found.why


def test_too_many_nested_shells_are_given_up(monkeypatch):
    monkeypatch.setattr("sandmix.mesh.shells.MOST_NESTED", 2)
    nest = [facet for size in (10.0, 8.0, 6.0, 4.0) for facet in moved(cube(size), ((10 - size) / 2,) * 3)]
    assert "too many shells" in measure(nest).why


def test_a_shape_with_too_many_facets_to_turn_stays_open(monkeypatch):
    shape = cube()
    shape[3] = shape[3][::-1]
    monkeypatch.setattr(topology, "MOST_TO_TURN", 5)
    assert measure(shape).trust == solid.OPEN


def test_open_edges_are_the_same_in_several_parts(monkeypatch):
    shape = ball()[3:40]
    whole = measure(shape).topology.holes
    monkeypatch.setattr(topology, "_EDGES_AT_ONCE", 20)
    assert measure(shape).topology.holes == whole


def test_both_ends_of_a_bounded_figure_stay_within_its_bounds():
    found = measure(table())
    assert found.at(-1).projected.value >= found.projected.least
    assert found.at(1).projected.value <= found.projected.most
    assert measure(cube()[1:]).at(1).volume is None


def test_a_shape_too_small_for_numbers_is_flat():
    tiny = [tuple(tuple(value * 1e-322 for value in place) for place in facet) for facet in cube(1.0)]
    assert "flat" in measure(tiny, write=text).why
    assert measure(tiny[1:], write=text).trust == solid.OPEN


def test_a_point_is_no_shape():
    found = measure([((1.0, 1.0, 1.0),) * 3])
    assert (found.trust, found.area, found.shells, found.flat) == (solid.UNDECIDED, 0, 0, 1)
    assert len(Facets()) == 0


@pytest.mark.parametrize("copies", [2, 10, 65, *only_long(9, 11, 13, 20, 64, 80)])
@pytest.mark.parametrize("facing", [cube, lambda: inward(cube())])
def test_copies_of_one_cube_are_one_cube(copies, facing):
    """What is inside at least one of them is 10 · 10 · 10, its shadow 10 · 10, and nothing is above its top."""
    found = measure(facing() * copies)
    assert found.trust == solid.OVERLAPS
    assert found.volume == pytest.approx(1000, abs=found.volume_error)
    assert found.volume == pytest.approx(1000, rel=0.01)
    assert found.volume_error < 50
    assert found.projected.value == pytest.approx(100, rel=0.01)
    assert found.space_above.value == pytest.approx(0, abs=1e-6)
    assert found.overlap / (found.volume + found.overlap) == pytest.approx(1 - 1 / copies, abs=0.01)


def test_a_row_of_cubes_that_cut_into_each_other():
    """Ten cubes of 10, each 0.5 further: a block of 14.5 · 10 · 10."""
    found = measure([facet for at in range(10) for facet in cube(at=(at / 2, 0.0, 0.0))])
    assert found.volume == pytest.approx(1450, abs=found.volume_error)
    assert found.volume_error < 0.02 * 1450


def test_a_small_overlap_is_still_taken_off_the_exact_sum():
    """Two cubes of 10 on top of each other that share a slab of 0.5: half a cell along 40 of edge is 2.1, times the 0.5."""
    found = measure([*cube(), *cube(at=(0.0, 0.0, 9.5))])
    assert found.volume == pytest.approx(1950, abs=found.volume_error)
    assert found.volume_error < 2.1


def test_the_sides_are_measured_only_where_they_are_asked_for():
    assert measure(cube()).sides == ()
    assert len(solid.measure(stl.read(binary(cube())), sides=True).sides) == 3


def test_the_ends_of_the_error_of_a_volume():
    found = replace(measure(cube()), volume_error=20.0)
    assert (found.at(-1).volume, found.at(1).volume) == (980, 1020)
    assert replace(found, volume_error=2000.0).at(-1).volume == 0


def crossed(*counts, across=4, cell=2.0):
    """Rays of which each crosses so many surfaces, from 0 up."""
    return rays.Rays(
        across=across,
        cell=cell,
        step=1.0,
        bottom=0.0,
        crossings=[[(10 * at, 1 - at % 2, 0) for at in range(count)] for count in counts],
    )


def test_the_projected_area_is_that_of_the_facets_where_nothing_covers_another():
    """4 × 4 rays of 2 all meet it; the four in the middle have neighbours all around, so it is at least 8."""
    found = solid._projected(crossed(*[2] * 16), 70.0)
    assert (found.value, found.half_width, found.least, found.most) == (35, 0, 8, 35)


def test_what_another_part_covers_is_taken_off_the_projected_area():
    """One ray in the middle crosses two parts: 35 − 2, and ± half a cell at each of its four sides."""
    counts = [2] * 16
    counts[5] = 4
    found = solid._projected(crossed(*counts), 70.0)
    assert (found.value, found.half_width) == (33, 4)


def test_rays_count_the_projected_area_themselves_where_that_is_surer():
    """One ray crosses four parts: ± half a cell at four sides times three is 12; the 16 rays are 32 ± 8 by the eight ends of their rows."""
    counts = [2] * 16
    counts[5] = 8
    found = solid._projected(crossed(*counts), 100.0)
    assert (found.value, found.half_width, found.most) == (32, 8, 50)
    assert solid._projected(crossed(*counts), 60.0).value == 30, "never more than half of all facets"


@pytest.mark.parametrize(
    ("missed", "inner"), [(5, 1), (6, 1), (9, 1), (10, 1), (1, 3), (4, 3), (0, 4), (7, 3), (11, 3), (13, 3), (15, 4)]
)
def test_only_a_ray_with_all_four_neighbours_is_surely_inside(missed, inner):
    counts = [2] * 16
    counts[missed] = 0
    assert solid._projected(crossed(*counts), 70.0).least == 2 * inner


def test_the_inner_rays_of_a_wide_field():
    """5 × 3 rays: three in the middle row."""
    assert solid._projected(crossed(*[2] * 15, across=5), 70.0).least == 2 * 3


@pytest.mark.parametrize(("side", "value"), [(-1, 8), (-0.25, 9), (0, 10), (0.25, 11), (1, 13)])
def test_the_ends_of_a_bounded_figure_by_hand(side, value):
    """10 ± 4, at least 8 and at most 13."""
    figure = solid.BoundedFigure(value=10.0, half_width=4.0, least=8.0, most=13.0)
    assert figure.at(side).value == value


def test_the_ends_of_a_solid_by_hand():
    found = replace(measure(cube()), volume_error=30.0)
    assert (found.at(-1).volume, found.at(0.5).volume) == (970, 1015)
    assert replace(found, volume_error=2000.0).at(-1).volume == 0
