"""Rays through bodies whose crossings are calculated by hand or by their half spaces, and what follows from crossings that are written down."""

import math
from itertools import combinations

import pytest
from shapes import binary, box, cube

from sandmix.mesh import rays, stl
from sandmix.mesh.rays import DIRECTIONS, Rays, cast
from sandmix.mesh.shells import Lengths, lengths, turned


def read(triangles):
    """The facets, and one shell for all of them."""
    facets = stl.read(binary(triangles))
    return facets, [0] * len(facets.xs)


def cells_across(triangles, projected):
    """How many rays lie side by side along the longer side."""
    facets, shell_of = read(triangles)
    found = cast(facets, shell_of, "+z", projected)
    return None if found is None else found.across


def test_a_box_is_crossed_by_every_ray_from_its_foot_to_its_top():
    """10 × 20 × 40: 96 rays along the 20, 48 along the 10; a step is a ten-millionth of 40."""
    facets, shell_of = read(box(10, 20, 40, (3.0, -5.0, 7.0)))
    found = cast(facets, shell_of, "+z", 400.0)
    assert (found.across, found.cell, found.step) == (48, pytest.approx((20 / 96) ** 2), pytest.approx(4e-6))
    assert found.bottom == min(facets.zs)
    assert found.crossings == [[(0, 1, 0), (10_000_000, 0, 0)]] * (48 * 96)


TETRAHEDRA = {
    "along the axes": [(0.0, 8.0, 0.0), (0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (0.0, 0.0, 2.0)],
    "aslant": [(9.0, 3.0, 1.0), (0.5, 0.25, 0.0), (4.0, 8.0, 0.5), (3.0, 4.0, 7.0)],
    "long and aslant": [(1.0, 20.0, 3.0), (0.0, 1.0, 0.5), (6.0, 0.0, 2.0), (2.0, 5.0, 9.0)],
}  # fmt: skip


def less(one, other):
    return tuple(a - b for a, b in zip(one, other, strict=True))


def dot(one, other):
    return sum(a * b for a, b in zip(one, other, strict=True))


def cross(u, v):
    return (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])


def half_spaces(places):
    """The four sides of a tetrahedron as (outward normal, its dot product with the side)."""
    found = []
    for side in combinations(places, 3):
        (other,) = (place for place in places if place not in side)
        normal = cross(less(side[1], side[0]), less(side[2], side[0]))
        if dot(normal, less(other, side[0])) > 0:
            normal = tuple(-part for part in normal)
        found.append((normal, dot(normal, side[0])))
    return found


def outward(places):
    """The facets of a tetrahedron, each seen from outside with its corners against the clock."""
    found = []
    for side in combinations(places, 3):
        (other,) = (place for place in places if place not in side)
        a, b, c = side
        found.append((a, b, c) if dot(cross(less(b, a), less(c, a)), less(other, a)) < 0 else (a, c, b))
    return found


def inside(sides, start, way):
    """From where to where a line is inside all half spaces; None where it misses them."""
    low, high = -math.inf, math.inf
    for normal, bound in sides:
        along, left = dot(normal, way), bound - dot(normal, start)
        if along > 0:
            high = min(high, left / along)
        elif along < 0:
            low = max(low, left / along)
        elif left < 0:
            return None
    return (low, high) if low < high else None


@pytest.mark.parametrize("up", DIRECTIONS)
@pytest.mark.parametrize("shape", TETRAHEDRA)
def test_rays_through_a_tetrahedron_are_those_of_its_four_half_spaces(shape, up):
    places = TETRAHEDRA[shape]
    facets, shell_of = read(outward(places))
    found = cast(facets, shell_of, up, 100.0)
    axes = {"z": (0, 1, 2), "x": (1, 2, 0), "y": (2, 0, 1)}[up[1]]
    right, ahead, high = axes if up[0] == "+" else (axes[1], axes[0], axes[2])
    sign = 1 if up[0] == "+" else -1
    low = [min(place[axis] for place in places) for axis in range(3)]
    far = [max(place[axis] for place in places) for axis in range(3)]
    side = max(far[right] - low[right], far[ahead] - low[ahead]) / 96
    assert found.cell == pytest.approx(side**2)
    assert found.across == math.ceil((far[right] - low[right]) / side - 1e-9)
    assert len(found.crossings) == found.across * math.ceil((far[ahead] - low[ahead]) / side - 1e-9)
    step = max(far[axis] - low[axis] for axis in range(3)) / 1e7
    foot = low[high] if sign > 0 else -far[high]
    sides = half_spaces(places)
    way = tuple(float(sign * (axis == high)) for axis in range(3))
    met = 0
    for at, crossings in enumerate(found.crossings):
        row, column = divmod(at, found.across)
        start = [0.0, 0.0, 0.0]
        start[right], start[ahead] = low[right] + (column + 0.5) * side, low[ahead] + (row + 0.5) * side
        span = inside(sides, start, way)
        if span is None or span[1] - span[0] < 10 * step:
            assert len(crossings) in (0, 2), "at most it touches an edge"
            continue
        met += 1
        assert [(enters, shell) for _, enters, shell in crossings] == [(1, 0), (0, 0)]
        assert [depth for depth, _, _ in crossings] == pytest.approx([(end - foot) / step for end in span], abs=1.01)
    assert met > 1000


def test_the_error_bound_counts_each_jump_to_the_right_and_ahead():
    """1 2 0 and 4 0 0 ahead of it, a cell of 6: to the right 1 + 2 + 4, nothing past the last; ahead 3 + 2, and 4 to nothing. 3 · 16 in all."""
    found = Rays(across=3, cell=6.0, step=1.0, bottom=0.0, crossings=[[] for _ in range(6)])
    assert found.bound([1.0, 2.0, 0.0, 4.0, 0.0, 0.0]) == pytest.approx(3 * (7 + 5 + 4))


@pytest.mark.parametrize(
    ("rays_side_by_side", "expected"), [(1000.0, 96), (96.5, 96), (95.5, 95), (10.5, 10), (1.5, 1), (0.5, 1)]
)
def test_fewer_rays_are_cast_where_each_would_cross_very_much(rays_side_by_side, expected):
    """All facets together look like *projected*; with n rays a side on 10 × 10 they are crossed projected n²/100 times, at most 120 000."""
    assert cells_across(cube(10.0), 120_000 * (10 / rays_side_by_side) ** 2) == expected


def test_without_a_projected_area_as_many_rays_as_usual():
    assert cells_across(cube(10.0), 0.0) == 96


@pytest.mark.parametrize(
    ("most", "expected"), [(384, 96), (383, 48), (191, 24), (95, 12), (48, 12), (47, None), (0, None)]
)
def test_rays_are_halved_where_the_facets_take_too_many_strips(monkeypatch, most, expected):
    """Of a cube's twelve facets four lie across all columns, and eight are walls that no ray crosses: 4 · 96 strips. Below 8 rays it is given up."""
    monkeypatch.setattr(rays, "MOST_STRIPS", most)
    assert cells_across(cube(10.0), 200.0) == expected


@pytest.mark.parametrize("up", DIRECTIONS)
@pytest.mark.parametrize("thin", [0, 1, 2])
def test_a_shape_is_flat_below_a_billionth_of_its_size(up, thin):
    for share, is_flat in ((0.5e-9, True), (2e-9, False)):
        sides = [10.0, 5.0, 7.0]
        sides[thin] = 10 * share if thin else 7 * share
        facets, shell_of = read(box(*sides))
        assert (cast(facets, shell_of, up, 100.0) is None) == is_flat


def test_a_shape_too_small_for_numbers_gets_no_rays():
    for size, is_flat in ((0.5e-30, True), (4e-30, False)):
        facets, shell_of = read(cube(size))
        assert (cast(facets, shell_of, "+z", 0.0) is None) == is_flat


def test_lengths_by_hand():
    """Two shells overlap from 10 to 15 of 0 to 30; three from 2 to 3; a shell that faces inwards counts below zero; two apart leave a gap."""
    written = [
        [(0, 1, 0), (10, 1, 1), (15, 0, 0), (30, 0, 1)],
        [(0, 1, 0), (1, 1, 1), (2, 1, 2), (3, 0, 2), (5, 0, 1), (9, 0, 0)],
        [(4, 0, 0), (6, 0, 1), (9, 1, 1), (11, 1, 0)],
        [(2, 1, 0), (5, 0, 0), (7, 1, 1), (8, 0, 1)],
        [],
    ]
    found = lengths(Rays(across=5, cell=1.0, step=1.0, bottom=0.0, crossings=written))
    expected = Lengths(inside=[30.0, 9.0, 0, 4.0, 0], again=[5.0, 4.0 + 1.0, 0, 0, 0], negative=[0, 0, 7.0 + 3.0, 0, 0])
    assert found == expected


def test_a_turned_shell_exchanges_in_and_out():
    written = [[(0, 0, 3), (5, 1, 7), (5, 1, 3), (9, 0, 7)]]
    found = Rays(across=1, cell=1.0, step=1.0, bottom=0.0, crossings=written)
    assert turned(found, {3: 1, 7: 1}) is found
    assert turned(found, {3: -1, 7: 1}).crossings == [[(0, 1, 3), (5, 0, 3), (5, 1, 7), (9, 0, 7)]]


def test_the_error_bound_looks_one_row_ahead():
    """Three rows of two: 5 0, 1 7, 2 2. To the right 5 + 6 + 0, and 0 + 7 + 2 to nothing; ahead 4 + 7, 1 + 5, and 2 + 2 to nothing."""
    found = Rays(across=2, cell=2.0, step=1.0, bottom=0.0, crossings=[[] for _ in range(6)])
    assert found.bound([5.0, 0.0, 1.0, 7.0, 2.0, 2.0]) == pytest.approx(11 + 9 + 11 + 6 + 4)
