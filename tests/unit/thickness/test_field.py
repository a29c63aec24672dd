"""The grid of distances: its lines against the least of all sums, its fill and its peaks by hand."""

import math

import pytest
from shapes import binary, box, cube, dumbbell

from sandmix.mesh import rays, solid, stl
from sandmix.thickness.field import Field, inside, lowered
from sandmix.thickness.hot_places import direction


def field_of(triangles, up="+z"):
    shape = solid.measure(stl.read(binary(triangles)))
    facets = shape.topology.facets
    found = rays.cast(facets, shape.topology.shell_of, up, shape.area)
    right, ahead, high, _ = rays.axes_for(facets, up)
    return Field(found, min(right), min(ahead), max(high) - min(high), shape.volume)


def slowly(line, square):
    """The same as `lowered` by its definition: the least of all sums within a run, both ends half a step out."""
    result = [0.0] * len(line)
    runs, at = [], 0
    while at < len(line):
        if line[at]:
            end = at
            while end < len(line) and line[end]:
                end += 1
            runs.append((at, end))
            at = end
        at += 1
    for start, end in runs:
        for here in range(start, end):
            ends = [(here - start + 0.5) ** 2 * square, (end - 0.5 - here) ** 2 * square]
            result[here] = min(ends + [line[at] + (here - at) ** 2 * square for at in range(start, end)])
    return result


@pytest.mark.parametrize("square", [0.04, 1.0, 30.0])
def test_a_line_is_lowered_to_the_least_of_all_sums(square):
    line = [0.0 if at % 17 == 5 else 40 * (at * 0.7548776662466927 % 1) ** 2 + 1e-3 for at in range(200)]
    assert lowered(line, square) == pytest.approx(slowly(line, square), rel=1e-9)


def test_pieces_that_overlap_or_touch_are_one_and_a_hollow_is_not_inside():
    assert list(inside([(0, 1, 0), (10, 1, 1), (20, 0, 1), (30, 0, 0)])) == [(0, 30)]
    assert list(inside([(0, 1, 0), (10, 0, 1), (20, 1, 1), (30, 0, 0)])) == [(0, 10), (20, 30)]
    assert list(inside([(0, 1, 0), (10, 0, 0), (12, 1, 1), (30, 0, 1)])) == [(0, 30)]
    assert list(inside([])) == []


def test_a_shape_that_faces_inwards_is_filled_too():
    assert list(inside([(0, 0, 0), (30, 1, 0)])) == [(0, 30)]


@pytest.mark.parametrize("sides", [(40, 40, 40), (200, 150, 6), (60, 20, 10)])
def test_in_a_block_each_point_is_as_far_as_its_nearest_side(sides):
    """Along the rays exactly, across them to half a step."""
    field = field_of(box(*sides))
    for at in range(0, len(field.values), 7):
        if field.values[at]:
            truth = min(min(value, side - value) for value, side in zip(field.place(at), sides, strict=True))
            assert field.values[at] == pytest.approx(truth, abs=field.side / 2 + 1e-6)


def test_outside_it_is_zero_and_the_grid_has_an_empty_layer():
    field = field_of(cube(10.0))
    for at, value in enumerate(field.values):
        rest, level = divmod(at, field.tall)
        row, column = divmod(rest, field.wide)
        rim = level in (0, field.tall - 1) or column in (0, field.wide - 1) or row in (0, field.deep - 1)
        assert (value == 0) == rim, "the cube fills all but the rim"


def test_two_blocks_on_a_rod_are_two_peaks_with_the_rod_between():
    """Radii 20 and 14 with a rod of radius 6 between: to half a step, across and along."""
    field = field_of(dumbbell())
    high, low = (peak for peak in field.peaks() if peak.parent < 0 or peak.value - peak.lowest > 2)
    assert high.value == pytest.approx(20, abs=field.side)
    assert low.value == pytest.approx(14, abs=field.side)
    assert low.lowest == pytest.approx(6, abs=field.side)
    assert 40 < field.place(low.saddle)[2] < 120
    assert (high.parent, low.parent) == (-1, 0)


def test_the_middle_of_a_plate_is_its_middle():
    field = field_of(box(200, 150, 6))
    peak = field.peaks()[0]
    assert field.place(field.middle_of(peak.place)) == pytest.approx((100, 75, 3), abs=field.side)


@pytest.mark.parametrize("sides", [(1, 1, 1), (300, 300, 1), (3, 3, 300), (1000, 2, 2)])
def test_the_grid_is_bounded_for_every_slenderness(sides):
    field = field_of(box(*sides), direction(sides))
    assert len(field.values) <= 200_000
    assert max(field.values) == pytest.approx(min(sides) / 2, rel=0.34)
    assert math.isfinite(sum(field.values))
