"""Volume, surface, box, centre and shells compared with trimesh, a general-purpose library, on solids that it makes itself.

How sure: computed, by trimesh's own sums on the same corners. Tolerance: binary STL keeps 24 bits of a length, so about 1e-6 of a volume.
The unit cube and the ball of 1280 facets are also in the list of derived marks: 1 and 6; 4.15274, 12.50649, 0.33205.
"""

import numpy as np
import pytest
import trimesh
from against.published import Checks

from sandmix.mesh import solid, stl, topology

MESH = Checks("mesh", source="trimesh", sure="library")
SEEN = Checks("projected_area", source="scipy", sure="library")
CUT = MESH.but(topic="undercut")
CLOSE = 2e-6
TURN = trimesh.transformations.rotation_matrix(0.7, (1.0, 2.0, 3.0), (4.0, 5.0, 6.0))


def _solids():
    make = trimesh.creation
    yield "box", make.box((10, 20, 30))
    yield "ball", make.icosphere(3)
    yield "cylinder", make.cylinder(5, 20)
    yield "torus", make.torus(20, 5)
    yield "annulus", make.annulus(3, 6, 10)
    yield "capsule", make.capsule(10, 4)
    yield "cone", make.cone(6, 9)
    yield "two", trimesh.util.concatenate(make.box((3, 3, 3)), make.icosphere(2).apply_translation((9, 0, 0)))


SOLIDS = dict(_solids())


def measured(shape, up="+z"):
    return solid.measure(stl.read(shape.export(file_type="stl")), up)


@pytest.mark.parametrize("name", SOLIDS)
@pytest.mark.parametrize("where", [np.eye(4), TURN], ids=["as made", "turned and moved"])
def test_a_solid_measures_as_in_trimesh(name, where):
    shape = SOLIDS[name].copy().apply_transform(where)
    found = measured(shape)
    assert found.trust == solid.RIGHT
    MESH.agrees(found.volume, shape.volume, "volume of eight solids, as made and turned", rel=CLOSE)
    MESH.agrees(found.area, shape.area, "their surface", rel=CLOSE)
    MESH.agrees(found.box, shape.extents, "their box", rel=CLOSE)
    room = CLOSE * max(shape.extents)
    MESH.agrees(found.centroid, shape.center_mass, "their centre", within=room, allowed="2 · 10^-6 of the box")
    MESH.agrees(found.shells, shape.body_count, "how many shells they have")


@pytest.mark.parametrize("name", SOLIDS)
def test_text_measures_the_same(name):
    shape = SOLIDS[name]
    found = solid.measure(stl.read(trimesh.exchange.stl.export_stl_ascii(shape).encode()))
    assert found.trust == solid.RIGHT
    MESH.agrees(found.volume, shape.volume, "their volume from a text file", rel=CLOSE)


@pytest.mark.parametrize("up", ["+z", "-x", "+y"])
@pytest.mark.parametrize("name", ["box", "ball", "cylinder", "capsule", "cone"])
def test_the_projected_area_of_a_convex_solid_is_that_of_its_hull(name, up):
    """The projected area of a convex solid is the area of the flat hull of its corners, by SciPy through trimesh."""
    from scipy.spatial import ConvexHull

    shape = SOLIDS[name].copy().apply_transform(TURN)
    flat = np.delete(shape.vertices, "xyz".index(up[1]), axis=1)
    found = measured(shape, up)
    hull = ConvexHull(flat).volume
    SEEN.agrees(found.projected.value, hull, "projected area of convex solids, flat hull of their corners", rel=1e-5)
    assert found.projected.half_width <= 1e-9 * found.projected.value


def test_the_projected_area_of_a_standing_ring_is_within_its_bounds():
    """A ring of R 20, r 5 seen from its side is a slot of 40 by 10 with round ends, 478.5; its flat sides take a little off."""
    found = measured(trimesh.creation.torus(20, 5, major_sections=96, minor_sections=96), "+x")
    assert abs(found.projected.value - (400 + 25 * np.pi)) <= found.projected.half_width + 1
    by_hand = SEEN.but(source="geometry", sure="derived")
    by_hand.covered(
        found.projected.least, found.projected.most, "478.54", "ring of R 20 and r 5 seen from its side", unit="mm²"
    )


def test_holes_are_found_where_trimesh_finds_them():
    shape = trimesh.creation.icosphere(2)
    shape.update_faces(np.arange(len(shape.faces)) != 17)
    assert not shape.is_watertight
    assert not topology.topology_of(stl.read(shape.export(file_type="stl"))).closed


def test_the_derived_figures_of_the_cube_and_the_ball():
    cube = measured(trimesh.creation.box((1, 1, 1)).apply_translation((100, 100, 100)))
    derived = MESH.but(source="geometry", sure="derived")
    derived.figure((cube.volume, cube.area), "1, 6", "volume and surface of the unit cube", share=1e-9)
    ball = measured(trimesh.creation.icosphere(3))
    what = "volume and surface of a ball of 1280 facets"
    derived.figure((ball.volume, ball.area), "4.15274, 12.50649", what, share=1e-5)
    derived.figure(ball.volume / ball.area, "0.33205", "their ratio", within=1e-5)


def test_overlapping_shells_have_the_volume_of_their_union():
    """Two balls of radius 1 whose middles are 1 apart share π (4 + 1) (2 − 1)² / 12 = 1.309 of 8.378."""
    fine = trimesh.creation.icosphere(4)
    found = measured(trimesh.util.concatenate(fine, fine.copy().apply_translation((1, 0, 0))))
    assert found.trust == solid.OVERLAPS
    assert abs(found.volume - (2 * fine.volume - 5 * np.pi / 12)) <= found.volume_error + 0.01
    lens, error = f"{2 * fine.volume - 5 * np.pi / 12:.2f}", found.volume_error + 0.01
    union = MESH.but(source="geometry", sure="derived")
    union.covered(found.volume - error, found.volume + error, lens, "two balls of radius 1 whose middles are 1 apart")


def _above(shape, axis, height):
    """What of *shape* lies above that height over its lowest point, cut by trimesh and left open."""
    normal = np.eye(3)[axis]
    origin = normal * (shape.bounds[0][axis] + height)
    vertices, faces, *_ = trimesh.intersections.slice_faces_plane(shape.vertices, shape.faces, normal, origin)
    return trimesh.Trimesh(vertices, faces, process=False)


@pytest.mark.parametrize("name", [name for name in SOLIDS if name != "two"])
@pytest.mark.parametrize("where", [np.eye(4), TURN], ids=["as made", "turned and moved"])
def test_the_undercut_area_is_that_of_trimesh(name, where):
    """By trimesh's own cut of the mesh, the areas and normals of its pieces: what faces down above, what faces up below."""
    shape = SOLIDS[name].copy().apply_transform(where)
    found = solid.measure(stl.read(shape.export(file_type="stl")), sides=True)
    for axis, side in enumerate(found.sides):
        looks = shape.area_faces * shape.face_normals[:, axis]
        CUT.agrees(side.projected, np.abs(looks).sum(), "area seen from both sides", rel=1e-5)
        for cut in side.partings[1:-1]:
            piece = _above(shape, axis, cut.height)
            above = piece.area_faces * piece.face_normals[:, axis]
            undercut = -above[above < 0].sum() + looks[looks > 0].sum() - above[above > 0].sum()
            small, allowed = 1e-4 * side.projected, "0.01 % of the area seen"
            CUT.agrees(cut.undercut, undercut, "undercut of a flat parting", rel=1e-4, within=small, allowed=allowed)
            CUT.agrees(
                cut.roof, above[above > 0].sum(), "area that faces up above it", rel=1e-4, within=small, allowed=allowed
            )
            lifted = above > 0
            heights = piece.triangles_center[lifted, axis] - shape.bounds[0][axis]
            moment, what = (above[lifted] * heights).sum(), "its area times its height, for the uplift"
            CUT.agrees(cut.roof_moment, moment, what, rel=1e-4, within=small * side.height, allowed=allowed)


@pytest.mark.parametrize("name", ["box", "ball", "cylinder", "cone"])
def test_vertical_walls_are_those_of_trimesh_within_a_degree(name):
    shape = SOLIDS[name].copy().apply_transform(TURN if name == "ball" else np.eye(4))
    found = solid.measure(stl.read(shape.export(file_type="stl")), sides=True)
    for axis, side in enumerate(found.sides):
        lean = np.degrees(np.arcsin(np.abs(shape.face_normals[:, axis]).clip(0, 1)))
        upright = shape.area_faces[lean <= 1].sum()
        CUT.agrees(side.vertical, upright, "surface within a degree of vertical", rel=1e-5, within=1e-6)
        CUT.agrees(side.least_draft_deg, lean.min(), "least draft, degrees", within=1e-3)
