"""Properties of every shape that is moved, turned, scaled or shuffled; and a sample of files damaged on purpose."""

import json
import math
import random
import sys
from pathlib import Path

import pytest
from effort import examples, fewer
from hypothesis import given
from hypothesis import strategies as st
from shapes import ball, binary, cube, inward, lathe, moved, ring, t_bar, torus

from sandmix.doors.facade import call
from sandmix.mesh import solid, stl, undercut
from sandmix.thickness.hot_places import thickness_of

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "bench"))
import fuzz_meshes

SHAPES = [cube(), ball(5, 7.0), ring(), cube() + inward(moved(cube(4.0), (3.0, 3.0, 3.0)))]
FEW = examples(60)
FEWER = examples(20)
FUZZED = fewer(400)


def measure(triangles, up="+z"):
    return solid.measure(stl.read(binary(triangles)), up)


def turned(triangles, by):
    """The same turned about the z axis, then about x."""
    c, s = math.cos(by), math.sin(by)
    about_z = [tuple((c * x - s * y, s * x + c * y, z) for x, y, z in facet) for facet in triangles]
    return [tuple((x, c * y - s * z, s * y + c * z) for x, y, z in facet) for facet in about_z]


@given(shape=st.sampled_from(SHAPES), by=st.tuples(*[st.floats(-1000, 1000)] * 3), turn=st.floats(0, 7))
@FEW
def test_a_moved_turned_shape_keeps_its_volume_and_surface(shape, by, turn):
    """Short floats of 1000 are good to 3e-5, which is 1e-5 of these shapes' sizes."""
    found, other = measure(shape), measure(moved(turned(shape, turn), by))
    assert other.trust == found.trust == solid.RIGHT
    assert other.volume == pytest.approx(found.volume, rel=1e-4)
    assert other.area == pytest.approx(found.area, rel=1e-4)


@given(shape=st.sampled_from(SHAPES), by=st.tuples(*[st.floats(-1000, 1000)] * 3), turn=st.floats(0, 7))
@FEWER
def test_a_moved_turned_shape_keeps_its_thickest_place(shape, by, turn):
    """A place is named at the middle of its section, which may be 3 % thinner than its thickest; a ball is found to 0.2 %."""
    found, other = thickness_of(measure(shape)), thickness_of(measure(moved(turned(shape, turn), by)))
    thick, again = (max(place.radius for place in each.places) for each in (found, other))
    assert again == pytest.approx(thick, rel=0.035)
    assert len(other.places) == len(found.places)


@given(shape=st.sampled_from(SHAPES), k=st.floats(0.01, 1000))
@FEW
def test_scaled_by_k_its_volume_is_k_cubed(shape, k):
    found, other = (
        measure(shape),
        measure([tuple(tuple(k * value for value in place) for place in facet) for facet in shape]),
    )
    assert other.volume == pytest.approx(found.volume * k**3, rel=1e-5)
    assert other.area == pytest.approx(found.area * k**2, rel=1e-5)
    assert other.projected.value == pytest.approx(
        found.projected.value * k**2, rel=1e-3, abs=found.projected.half_width * k**2
    )


@given(shape=st.sampled_from(SHAPES), chance=st.randoms(use_true_random=False))
@FEW
def test_the_order_of_facets_and_corners_changes_nothing(shape, chance):
    mixed = [facet[at:] + facet[:at] for facet in shape for at in [chance.randrange(3)]]
    chance.shuffle(mixed)
    assert measure(mixed).volume == pytest.approx(measure(shape).volume, rel=1e-12)


@given(shape=st.sampled_from(SHAPES[:3]), at=st.integers(0, 10_000))
@FEW
def test_without_one_facet_there_is_no_volume(shape, at):
    found = measure([facet for number, facet in enumerate(shape) if number != at % len(shape)])
    assert (found.trust, found.volume) == (solid.OPEN, None)


PARTED = [*SHAPES, t_bar(), torus(20.0, 4.0, 24), lathe([(0, 0), (9, 0), (9, 3), (2, 4), (2, 9), (6, 12), (0, 14)], 16)]


def sides_of(triangles):
    found = solid.measure(stl.read(binary(triangles)), sides=True)
    assert found.trust == solid.RIGHT, found.why
    return found.sides


@given(shape=st.sampled_from(PARTED), by=st.tuples(*[st.floats(-100, 100)] * 3), turn=st.floats(0, 7))
@FEW
def test_undercut_roof_and_floor_are_the_whole_projected_area(shape, by, turn):
    """No undercut is negative, a stepped parting never adds to it, and the vertical walls are part of the surface."""
    for side in sides_of(moved(turned(shape, turn), by)):
        seen = side.projected
        assert 0 <= side.vertical <= measure(shape).area * 1.001
        assert 0 <= side.least_draft_deg <= 90
        least = min(cut.undercut for cut in side.partings)
        assert (side.hidden is None) == (least <= undercut.COUNTS_AS_NONE * seen)
        assert side.hidden is None or side.hidden.area - side.hidden.error <= least + 1e-3 * seen
        for cut in side.partings:
            assert cut.undercut >= -1e-9 * seen
            assert cut.undercut + cut.roof + cut.floor == pytest.approx(seen, rel=1e-6)
            assert 0 <= cut.height <= side.height * (1 + 1e-9)


@given(shape=st.sampled_from(PARTED), k=st.floats(0.01, 1000))
@FEW
def test_scaled_by_k_the_undercut_is_k_squared(shape, k):
    larger = [tuple(tuple(k * value for value in place) for place in facet) for facet in shape]
    for here, there in zip(sides_of(shape), sides_of(larger), strict=True):
        assert min(cut.undercut for cut in there.partings) == pytest.approx(
            k**2 * min(cut.undercut for cut in here.partings), rel=1e-3, abs=1e-3 * k**2 * here.projected
        )


@given(data=st.binary(max_size=300), begin=st.sampled_from([b"", b"solid x\nfacet normal ", b"PK\x03\x04"]))
@examples(300)
def test_the_door_never_faults_with_any_bytes(data, begin):
    answer = json.loads(
        call('{"job": "pattern", "inputs": {"mesh": {"upload": "x"}, "ways": "yes"}}', {"x": begin + data})
    )
    assert "fault" not in answer


@pytest.mark.parametrize("number", range(FUZZED))
def test_a_damaged_file_never_crashes_or_gives_a_wrong_volume(number):
    """A sample of those in tests/bench/fuzz_meshes.py, always the same."""
    chance = random.Random(77_000 + number)
    _, data = fuzz_meshes.damaged(chance)
    _, took = fuzz_meshes.judge(data)
    assert took < 10
    answer = json.loads(call('{"job": "pattern", "inputs": {"mesh": {"upload": "x"}, "ways": "yes"}}', {"x": data}))
    assert "fault" not in answer, answer
