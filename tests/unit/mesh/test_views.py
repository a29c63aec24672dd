"""Outlines from rays: cells by hand, and shapes whose views are known."""

import math

import pytest
from shapes import ball, binary, cube, inward, moved, ring

from sandmix.mesh import rays, solid, stl, views


def seen(triangles, up="+z"):
    return solid.measure(stl.read(binary(triangles)), up).views


def area(view):
    """The area that a view's loops enclose, less the holes."""
    total = 0.0
    for loop in view.loops:
        total += sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(loop, loop[1:] + loop[:1], strict=True)) / 2
    return total


def reach(view):
    xs, ys = zip(*(place for loop in view.loops for place in loop), strict=True)
    return min(xs), max(xs), min(ys), max(ys)


def test_one_cell_is_a_square_with_its_corners_cut_off_halfway():
    assert set(views.outlines([b"\1"])[0]) == {(0.5, 0.0), (1.0, 0.5), (0.5, 1.0), (0.0, 0.5)}


def test_a_hole_is_a_separate_loop_in_the_other_direction():
    """Three by three cells without the middle one: 9 less four corners of 1/8 outside, and 1/2 in the hole."""
    loops = views.outlines([b"\1\1\1", b"\1\0\1", b"\1\1\1"])
    assert len(loops) == 2
    whole = views.View(wide=3, high=3, loops=tuple(loops))
    assert area(whole) == 9 - 4 / 8 - 1 / 2


def test_nothing_has_no_outline():
    assert views.outlines([b"\0\0"]) == []


@pytest.mark.parametrize("up", rays.DIRECTIONS)
def test_a_slab_shows_the_sides_that_each_view_has(up):
    """A slab of 10 × 20 × 40, seen with each of its sides up: width, depth and height of the views follow the axes."""
    slab = [tuple((x, 2 * y, 4 * z) for x, y, z in facet) for facet in cube()]
    long = {"x": 10, "y": 20, "z": 40}
    right, ahead = {"z": "xy", "x": "yz", "y": "zx"}[up[1]]
    if up[0] == "-":
        right, ahead = ahead, right
    above, front, side = seen(slab, up)
    assert (above.wide, above.high) == (long[right], long[ahead])
    assert (front.wide, front.high) == (long[right], long[up[1]])
    assert (side.wide, side.high) == (long[ahead], long[up[1]])
    for view in (above, front, side):
        assert reach(view) == (0, view.wide, 0, view.high)
        assert area(view) == pytest.approx(view.wide * view.high, rel=1e-3)


def test_a_ball_is_a_disc_from_every_side():
    """Radius 20, of 40 rings: within 1 % of pi r²."""
    for view in seen(ball(40, 20.0)):
        assert area(view) == pytest.approx(math.pi * 400, rel=0.01)


def test_a_ring_shows_its_hole_only_from_above():
    above, front, side = seen(ring(60))
    assert [len(view.loops) for view in (above, front, side)] == [2, 1, 1]
    assert area(above) == pytest.approx(math.pi * (11**2 - 5.427**2), rel=0.02), "inner: 8 - 3 cos 36 degrees"


def test_up_is_up_and_right_is_right():
    """A small cube on the left, a large one on the right, which is higher and further ahead."""
    above, front, side = seen(cube(2.0) + moved(cube(8.0), (12.0, 6.0, 20.0)))

    def large(view):
        return max(view.loops, key=lambda loop: max(x for x, _ in loop) + max(y for _, y in loop))

    assert (above.wide, above.high, front.high) == (20, 14, 28)
    for view, corner in ((above, (12, 6)), (front, (12, 20)), (side, (6, 20))):
        low = min(x for x, _ in large(view)), min(y for _, y in large(view))
        assert low == pytest.approx(corner, abs=0.25)


def test_a_shape_that_faces_inwards_looks_the_same():
    assert seen(inward(cube(8.0))) == seen(cube(8.0))


def test_a_hollow_is_not_seen():
    assert seen(cube(8.0) + inward(cube(4.0, (2.0, 2.0, 2.0)))) == seen(cube(8.0))


def test_a_thin_plate_high_up_is_seen_where_it_is():
    """1 mm thick at the top of a rod of 100: thinner than a cell, yet not left out, and nowhere else."""
    rod = [tuple((x / 10 + 4.5, y / 10 + 4.5, 10 * z) for x, y, z in facet) for facet in cube()]
    plate = [tuple((x, y, z / 100 + 50.0) for x, y, z in facet) for facet in cube()]
    _, front, _ = seen(rod + plate)
    assert reach(front) == (0, 10, 0, 100)
    wide = [y for loop in front.loops for x, y in loop if x < 4]
    assert min(wide) == pytest.approx(50, abs=1.1) and max(wide) == pytest.approx(50, abs=1.1)


def test_a_view_of_many_pieces_is_coarser():
    """Pins in 40 rows of 40: more corners than may be drawn."""
    pins = [facet for i in range(40) for j in range(40) for facet in cube(1.0, (2.0 * i, 2.0 * j, 0.0))]
    above, front, _ = seen(pins)
    for view in (above, front):
        assert sum(len(loop) for loop in view.loops) <= views.MOST_CORNERS
    assert reach(above) == (0, 79, 0, 79)


def test_an_outline_far_from_the_box_is_not_stretched_to_it():
    """Rays that miss a needle leave the outline where they saw it."""
    met = [[(0, 1, 0), (10, 0, 0)] if at % 10 < 5 else [] for at in range(100)]
    above, front, _ = views.views(
        rays.Rays(across=10, cell=1.0, step=1.0, bottom=0.0, crossings=met), wide=9.5, deep=10.0, tall=10.0
    )
    assert reach(above) == (0, 5, 0, 10)
    assert reach(front) == (0, 5, 0, 10)


@pytest.mark.parametrize(("missed", "low", "high"), [(0, 0, 10), (1, 0, 10), (2, 2, 8)])
def test_an_outline_within_a_cell_of_the_box_lies_on_it(missed, low, high):
    met = [[(0, 1, 0), (10, 0, 0)] if missed <= at % 10 < 10 - missed else [] for at in range(100)]
    above, front, _ = views.views(
        rays.Rays(across=10, cell=1.0, step=1.0, bottom=0.0, crossings=met), wide=10.0, deep=10.0, tall=10.0
    )
    assert reach(above) == reach(front) == (low, high, 0, 10)


def test_an_open_shape_has_no_views():
    assert seen(cube()[1:]) == ()


def test_cells_twice_as_large_are_filled_where_one_of_the_smaller_ones_is():
    """3 × 3 cells: the last row and the last column stay alone."""
    cells = [bytearray(row) for row in ([1, 0, 0], [0, 0, 0], [0, 0, 1])]
    assert views._coarser(cells) == [bytearray([1, 0]), bytearray([0, 1])]
    cells = [bytearray(row) for row in ([0, 0, 0, 0], [0, 1, 0, 0], [0, 0, 0, 0], [0, 0, 0, 0])]
    assert views._coarser(cells) == [bytearray([1, 0]), bytearray([0, 0])]
    cells = [bytearray(row) for row in ([0, 0, 1, 0], [0, 0, 0, 0], [0, 0, 0, 1], [1, 0, 0, 0])]
    assert views._coarser(cells) == [bytearray([0, 1]), bytearray([1, 1])]


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [
        pytest.param(1.0, 3.0, (1, 3), id="whole cells"),
        pytest.param(1.4, 2.6, (1, 3), id="cells whose middles are inside"),
        pytest.param(1.6, 2.4, (2, 3), id="less than a cell: the one halfway"),
        pytest.param(0.6, 1.2, (0, 1), id="less than a cell, halfway at 0.9"),
        pytest.param(-3.0, -2.0, (0, 1), id="below all"),
        pytest.param(9.0, 12.0, (4, 5), id="above all"),
        pytest.param(-2.0, 12.0, (0, 5), id="all"),
    ],
)
def test_the_cells_between_two_depths(low, high, expected):
    assert views._cells_of(low, high, 5) == expected


@pytest.mark.parametrize(
    ("crossings", "expected"),
    [
        pytest.param([(0, 1, 0), (5, 0, 0), (8, 1, 0), (9, 0, 0)], [(0, 5), (8, 9)], id="a gap"),
        pytest.param([(0, 1, 0), (2, 1, 8), (5, 0, 8), (9, 0, 0)], [(0, 2), (2, 5), (5, 9)], id="one in another"),
        pytest.param([(0, 0, 0), (5, 1, 0), (8, 0, 0), (9, 1, 0)], [(0, 5), (8, 9)], id="inside out"),
        pytest.param([], [], id="nothing"),
    ],
)
def test_a_ray_is_inside_between_a_face_in_and_a_face_out(crossings, expected):
    assert list(views._within(crossings)) == expected


def filled(view, columns, rows):
    """For each cell, from the bottom up, whether its middle lies in an odd number of loops."""

    def is_in(x, y):
        times = 0
        for loop in view.loops:
            for (ax, ay), (bx, by) in zip(loop, loop[1:] + loop[:1], strict=True):
                if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
                    times += 1
        return times % 2

    wide, high = view.wide / columns, view.high / rows
    return [[is_in((column + 0.5) * wide, (row + 0.5) * high) for column in range(columns)] for row in range(rows)]


def test_three_views_of_six_rays_by_hand():
    """3 × 2 rays on cells of 1, 8 high in steps of half: below, a wall at the left, a pillar and nothing; ahead of it a bridge over the right."""
    shape = [
        [(0, 1, 0), (8, 0, 0)], [(0, 1, 0), (4, 0, 0)], [],
        [], [], [(0, 1, 0), (2, 0, 0), (6, 1, 0), (8, 0, 0)],
    ]  # fmt: skip
    found = views.views(rays.Rays(across=3, cell=1.0, step=0.5, bottom=0.0, crossings=shape), 3.0, 2.0, 4.0)
    above, front, right = found
    assert [(view.wide, view.high) for view in found] == [(3, 2), (3, 4), (2, 4)]
    assert filled(above, 3, 2) == [[1, 1, 0], [0, 0, 1]]
    assert filled(front, 3, 4) == [[1, 1, 1], [1, 1, 0], [1, 0, 0], [1, 0, 1]]
    assert filled(right, 2, 4) == [[1, 1], [1, 0], [1, 0], [1, 1]]


def test_a_tall_shape_has_at_most_96_levels():
    """200 high on cells of 1: 96 levels, and a foot up to 100 fills the lower half of them."""
    foot = rays.Rays(
        across=2, cell=1.0, step=1.0, bottom=0.0, crossings=[[(0, 1, 0), (200, 0, 0)], [(0, 1, 0), (100, 0, 0)]]
    )
    _, front, _ = views.views(foot, 2.0, 1.0, 200.0)
    assert filled(front, 2, 96) == [[1, 1]] * 48 + [[1, 0]] * 48


def test_a_view_with_too_many_corners_is_drawn_on_cells_twice_as_large(monkeypatch):
    """An L of three cells at the lower left of 8 × 8, each 0.5 × 0.25: as one cell of 1 × 0.5 its corners are cut to four places."""
    cells = [bytearray(8) for _ in range(8)]
    cells[0][0] = cells[0][1] = cells[1][0] = 1
    monkeypatch.setattr(views, "MOST_CORNERS", 4)
    (loop,) = views._view(cells, 0.5, 0.25, 4.0, 2.0).loops
    assert sorted(loop) == [(0.0, 0.25), (0.5, 0.0), (0.5, 0.5), (1.0, 0.25)]
