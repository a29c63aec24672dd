"""The thickest places compared with SciPy and NumPy on solids that are filled by their formula, not by their mesh.

Source: `scipy.ndimage.distance_transform_edt`, an exact Euclidean distance transform, on 100 points along the longest side. How sure:
computed here. Basis: distance from a point to the nearest point outside, both at middles of cells. The point outside is up to a diagonal of a
cell beyond the surface, so half a cell is taken off, and what is left differs by half a cell downwards and 1.23 upwards. The middle of the
largest ball is up to half a diagonal from the next point. That, and what the flat sides of a round mesh take off, is the tolerance. Each solid
is taken as made, and turned about a slanted line. The nearest points of all facets, by trimesh, check the radius itself.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
import shapes
import trimesh
from against.published import Checks
from scipy import ndimage

from sandmix.mesh import solid, stl
from sandmix.thickness.hot_places import thickness_of

TURN = trimesh.transformations.rotation_matrix(0.7, (1.0, 2.0, 3.0))[:3, :3]
SCIPY = Checks("thick_places", source="scipy", sure="library")
POINTS = 100
FLAT_SIDES = 0.003
HALF_DIAGONAL = np.sqrt(3) / 2


@dataclass
class Formula:
    """A solid: its mesh, whether points are inside it, and how many thick sections it has."""

    triangles: list
    inside: object
    sections: int = 1


def _box(x, y, z):
    return lambda p: (p[0] > 0) & (p[0] < x) & (p[1] > 0) & (p[1] < y) & (p[2] > 0) & (p[2] < z)


def _round(low, high, least, most):
    """A pipe about z, or a cylinder where *least* is 0; the radii may depend on the height."""

    def inside(p):
        r = np.hypot(p[0], p[1])
        up = (p[2] - low) / (high - low)
        ends = [radius if np.isscalar(radius) else radius[0] + up * (radius[1] - radius[0]) for radius in (least, most)]
        return (p[2] > low) & (p[2] < high) & (r >= ends[0]) & (r < ends[1])

    return inside


def _any(*parts):
    return lambda p: np.any([part(p) for part in parts], axis=0)


def _section(*walls):
    """A bar of 100 along x: *walls* are the sides of rectangles in y and z."""

    def inside(p):
        in_wall = [(p[1] > a) & (p[1] < b) & (p[2] > c) & (p[2] < d) for a, b, c, d in walls]
        return (p[0] > 0) & (p[0] < 100) & np.any(in_wall, axis=0)

    return inside


def _ball(r, at=(0.0, 0.0, 0.0)):
    return lambda p: sum((p[axis] - at[axis]) ** 2 for axis in range(3)) < r * r


def _torus(big, small):
    return lambda p: (np.hypot(p[0], p[1]) - big) ** 2 + p[2] ** 2 < small**2


_lathe = shapes.lathe
SOLIDS = {
    "cube": Formula(shapes.cube(40.0), _box(40, 40, 40)),
    "plate": Formula(shapes.box(100, 80, 12), _box(100, 80, 12)),
    "bar": Formula(shapes.box(100, 16, 20), _box(100, 16, 20)),
    "ball": Formula(shapes.ball(40, 20.0), _ball(20)),
    "cylinder": Formula(_lathe([(0, 0), (15, 0), (15, 60), (0, 60)], 96), _round(0, 60, 0, 15)),
    "disc": Formula(_lathe([(0, 0), (30, 0), (30, 14), (0, 14)], 96), _round(0, 14, 0, 30)),
    "cone": Formula(_lathe([(0, 0), (30, 0), (0, 40)], 96), _round(0, 40, 0, (30, 0))),
    "taper": Formula(_lathe([(0, 0), (20, 0), (10, 80), (0, 80)], 96), _round(0, 80, 0, (20, 10))),
    "pipe": Formula(_lathe([(20, 0), (32, 0), (32, 40), (20, 40), (20, 0)], 96), _round(0, 40, 20, 32)),
    "torus": Formula(shapes.torus(30, 10, 96), _torus(30, 10)),
    "L": Formula(shapes.bar(shapes.l_section(12, 60), 100), _section((0, 60, 0, 12), (0, 12, 0, 60))),
    "T": Formula(shapes.t_bar(), _section((0, 40, 0, 10), (15, 25, 0, 40))),
    "plus": Formula(shapes.bar(shapes.plus_section(12, 35), 100), _section((-35, 35, -6, 6), (-6, 6, -35, 35))),
    "hub": Formula(
        _lathe([(0, 0), (45, 0), (45, 10), (18, 10), (18, 36), (0, 36)], 96), _any(_round(0, 10, 0, 45), _round(0, 36, 0, 18))
    ),
    "dumbbell": Formula(
        shapes.dumbbell(), _any(_round(0, 40, 0, 20), _round(40, 120, 0, 6), _round(120, 150, 0, 14)), sections=2
    ),
    "two": Formula(
        shapes.cube(20.0) + shapes.moved(shapes.ball(30, 9.0), (40.0, 10.0, 10.0)), _any(_box(20, 20, 20), _ball(9, (40, 10, 10))), sections=2
    ),
    "hollow": Formula(
        shapes.box(60, 60, 60) + shapes.inward(shapes.box(32, 36, 30, (14, 12, 15))),
        lambda p: _box(60, 60, 60)(p) & ~_box(32, 36, 30)(p - np.reshape((14, 12, 15), (3, 1, 1, 1))),
        sections=0,
    ),
}  # fmt: skip
EACH = pytest.mark.parametrize("name", SOLIDS)
TURNED = pytest.mark.parametrize("turned", [False, True], ids=["as made", "turned"])


@cache
def _measured(name, turned):
    turn = TURN if turned else np.eye(3)
    triangles = [tuple(tuple(turn @ np.array(p, float)) for p in facet) for facet in SOLIDS[name].triangles]
    return np.array(triangles), thickness_of(solid.measure(stl.read(shapes.binary(triangles))))


@cache
def _distances(name, turned):
    """SciPy's distances on cells of the box, the first cell's middle, and the side of a cell."""
    turn = TURN if turned else np.eye(3)
    corners, _ = _measured(name, turned)
    low, high = corners.min(axis=(0, 1)), corners.max(axis=(0, 1))
    cell = (high - low).max() / POINTS
    count = np.ceil((high - low) / cell).astype(int) + 2
    first = low - 0.5 * cell
    places = first[:, None, None, None] + cell * np.indices(count)
    own = np.einsum("ji,jabc->iabc", turn, places)
    return ndimage.distance_transform_edt(SOLIDS[name].inside(own), sampling=cell) - cell / 2, first, cell


@EACH
@TURNED
def test_the_largest_ball_is_that_of_scipy(name, turned):
    _, found = _measured(name, turned)
    distances, _, cell = _distances(name, turned)
    largest = max(place.radius for place in found.places)
    what, room = "radius of the largest ball in 17 solids", (HALF_DIAGONAL + 0.5) * cell + FLAT_SIDES * largest
    SCIPY.agrees(largest, distances.max(), what, within=room, allowed="1.37 cells of the grid and 0.3 %")


@EACH
@TURNED
def test_each_place_is_as_thick_as_scipy_says_there(name, turned):
    """The cells around its centre: the nearest of them is within half a diagonal of it."""
    _, found = _measured(name, turned)
    distances, first, cell = _distances(name, turned)
    for place in found.places:
        at = tuple(np.rint((np.array(place.centre) - first) / cell).astype(int))
        what, room = "radius at each thick place", (HALF_DIAGONAL + 1.24) * cell + FLAT_SIDES * place.radius
        SCIPY.agrees(place.radius, distances[at], what, within=room, allowed="2.11 cells of the grid and 0.3 %")


@EACH
@TURNED
def test_the_ball_of_a_place_just_touches_the_nearest_of_all_facets(name, turned):
    """By trimesh's nearest point of each triangle, in NumPy; a binary STL keeps 24 bits."""
    corners, found = _measured(name, turned)
    for place in found.places:
        nearest = trimesh.triangles.closest_point(corners, np.tile(place.centre, (len(corners), 1)))
        least, what = np.linalg.norm(nearest - place.centre, axis=1).min(), "distance to the nearest of all facets"
        library, room = SCIPY.but(source="trimesh"), 1e-5 * np.ptp(corners)
        library.agrees(place.radius, least, what, within=room, allowed="10^-5 of the solid")


@EACH
@TURNED
def test_as_many_places_as_the_drawing_has_thick_sections(name, turned):
    _, found = _measured(name, turned)
    sections = SOLIDS[name].sections
    drawing = SCIPY.but(source="geometry", sure="derived")
    drawing.holds(len(found.places) == sections or not sections, "as many thick places as the drawing has", case=name)


@EACH
def test_no_ball_of_scipy_is_larger_than_the_thickest_place_by_more_than_its_range(name):
    """A place is named at the middle of its section, which may be 3 % thinner than its thickest."""
    _, found = _measured(name, False)
    distances, _, cell = _distances(name, False)
    enough = max(place.radius for place in found.places) * 1.03 >= distances.max() - 1.24 * cell
    SCIPY.holds(enough, "no larger ball than the thickest place by more than its range", case=name)


def _volume_and_surface_near(name, centre, radius):
    """Volume within two radii and surface within 2.14 radii of a point, from small pieces of the mesh and a fine grid."""
    mesh = trimesh.Trimesh(**trimesh.triangles.to_kwargs(np.array(SOLIDS[name].triangles, float)))
    fine = mesh.copy().subdivide_to_size(radius / 8, max_iter=30)
    near = np.linalg.norm(fine.triangles_center - centre, axis=1) <= 2.14 * radius
    side = 4 * radius / 80
    grid = (np.indices((80, 80, 80)) + 0.5) * side - 2 * radius
    in_ball = (grid**2).sum(axis=0) <= 4 * radius**2
    filled = SOLIDS[name].inside(grid + np.reshape(centre, (3, 1, 1, 1))) & in_ball
    return filled.sum() * side**3, fine.area_faces[near].sum()


@EACH
def test_the_modulus_of_a_place_is_volume_over_surface_near_it(name):
    _, found = _measured(name, False)
    for place in found.places:
        volume, surface = _volume_and_surface_near(name, place.centre, place.radius)
        expected = min(place.radius, max(place.radius / 3, volume / surface))
        SCIPY.but(source="numpy").agrees(place.modulus, expected, "volume over surface near a place", rel=0.08)
