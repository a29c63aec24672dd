"""The surface in cells: the nearest point and the first facet of a ray by hand and by looking at every facet."""

import itertools
import math

import pytest
from shapes import ball, binary, box, cube, dumbbell, torus

from sandmix.mesh import stl
from sandmix.thickness import surface as sorted_surface
from sandmix.thickness.surface import Surface, halves, ring

SHAPES = {"a box": box(100, 40, 3), "a ball": ball(12, 20.0), "a ring": torus(30, 8, 24), "a dumbbell": dumbbell()}
EACH = pytest.mark.parametrize("triangles", SHAPES.values(), ids=SHAPES)


def surface_of(triangles, up="+z"):
    return Surface(stl.read(binary(triangles)), up)


def spread(surface, count):
    """Points all over the box of a shape and a little beyond."""
    steps = (0.7548776662466927, 0.5698402909980532, 0.4301597090019468)
    values = (surface.right, surface.ahead, surface.high)
    for at in range(count):
        yield tuple(
            min(axis) + (1.2 * (at * step % 1) - 0.1) * (max(axis) - min(axis))
            for axis, step in zip(values, steps, strict=True)
        )


def points_on(triangle, fine=60):
    """Points of a triangle, a fine grid of them."""
    a, b, c = triangle
    for i in range(fine + 1):
        for j in range(fine + 1 - i):
            s, t = i / fine, j / fine
            yield tuple(p + s * (q - p) + t * (r - p) for p, q, r in zip(a, b, c, strict=True))


def test_rings_of_cells_fill_a_block():
    """3³ − 1³, 5³ − 3³ and 7³ − 5³ cells, each once."""
    for away, count in ((1, 26), (2, 98), (3, 218)):
        assert len(set(ring(away))) == len(ring(away)) == count


def test_the_nearest_point_of_a_triangle_by_hand():
    """A right triangle (0,0), (2,0), (0,2): above its inside, beyond its long edge, beyond a corner."""
    surface = surface_of(
        [((0.0, 0.0, 0.0), (2.0, 0.0, 0.0), (0.0, 2.0, 0.0)), ((0.0, 0.0, 0.0), (0.0, 2.0, 0.0), (2.0, 0.0, 0.0))]
    )
    assert surface.touching(0, 0.5, 0.5, 3.0) == (9.0, 0.0, 0.0, -3.0)
    assert surface.touching(0, 2.0, 2.0, 0.0) == pytest.approx((2.0, -1.0, -1.0, 0.0))
    assert surface.touching(0, -3.0, -4.0, 0.0) == pytest.approx((25.0, 3.0, 4.0, 0.0))


def test_a_triangle_without_area_is_its_longest_edge():
    surface = surface_of([((0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (2.0, 0.0, 0.0)), *cube(10.0)])
    assert surface.touching(0, 3.0, 2.0, 0.0) == pytest.approx((4.0, 0.0, -2.0, 0.0))


@EACH
def test_the_nearest_facet_is_that_of_all_facets(triangles):
    surface = surface_of(triangles)
    for point in spread(surface, 150):
        distance, facet, way = surface.nearest(*point)
        least = min(surface.touching(each, *point)[0] for each in range(surface.count))
        assert distance == pytest.approx(math.sqrt(least), rel=1e-12)
        assert surface.touching(facet, *point)[0] == least
        assert math.hypot(*way) == pytest.approx(distance)
        assert surface.nearest(*point, 0.999 * distance)[0] == distance, "what is known to be farther is not looked at"


def test_the_distance_to_a_facet_is_that_to_its_nearest_point():
    """Against a fine grid of points on the facet: never more, and less by at most half a step of the grid."""
    surface = surface_of(SHAPES["a ball"])
    for point in itertools.islice(spread(surface, 40), 40):
        for facet in range(0, surface.count, 37):
            triangle = surface.triangle(facet)
            least = min(math.dist(point, each) for each in points_on(triangle))
            step = max(math.dist(a, b) for a, b in itertools.combinations(triangle, 2)) / 60
            assert least - step <= math.sqrt(surface.touching(facet, *point)[0]) <= least + 1e-9


@EACH
def test_every_facet_within_reach_is_found(triangles):
    surface = surface_of(triangles)
    for point in spread(surface, 20):
        for reach in (3.0, 25.0):
            found = {facet for held in surface.within(*point, reach) for facet in held}
            near = {facet for facet in range(surface.count) if surface.touching(facet, *point)[0] <= reach**2}
            assert near <= found


def test_a_ray_meets_the_other_side_of_a_box():
    surface = surface_of(box(100, 40, 3))
    far, facet = surface.ahead_of((10.0, 10.0, 0.0), (0.0, 0.0, 1.0), 1000.0, -1)
    assert far == pytest.approx(3)
    assert surface.normal(facet) == pytest.approx((0, 0, 1))
    slant = 1 / math.sqrt(2)
    far, _ = surface.ahead_of((10.0, 10.0, 1.5), (slant, slant, 0.0), 1000.0, -1)
    assert far == pytest.approx(30 * math.sqrt(2)), "the side at y = 40"
    assert surface.ahead_of((10.0, 10.0, 0.0), (0.0, 0.0, -1.0), 1000.0, -1) is None
    assert surface.ahead_of((10.0, 10.0, 0.0), (0.0, 0.0, 1.0), 2.9, -1) is None


def test_a_halved_triangle_keeps_its_area_and_its_side():
    one, other = halves(((0.0, 0.0, 0.0), (6.0, 0.0, 0.0), (0.0, 2.0, 0.0)))

    def twice(triangle):
        a, b, c = triangle
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    assert twice(one) == twice(other) == pytest.approx(6)


def test_many_facets_are_made_fewer_and_stay_within_the_error(monkeypatch):
    """Radius 20 of 60 rings in cells of 40/40 = 1: no corner moves by more than √3."""
    monkeypatch.setattr(sorted_surface, "MOST_FACETS", 1000)
    monkeypatch.setattr(sorted_surface, "CLUSTERED_INTO", 40)
    facets = stl.read(binary(ball(60, 20.0)))
    whole = Surface(facets, "+z")
    assert whole.count < 0.7 * len(ball(60, 20.0))
    assert whole.error == pytest.approx(40 / 40 * math.sqrt(3), rel=1e-3)
    distance, _, _ = whole.nearest(*(-start for start in facets.origin))
    assert abs(distance - 20) <= whole.error
