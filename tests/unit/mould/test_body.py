"""Plain bodies, by hand formulas."""

import math

import pytest

from sandmix.mould import body
from sandmix.mould.body import Body

BOX = Body(shape="box", length_mm=100, width_mm=60, height_mm=40)
UPRIGHT = Body(shape="upright", length_mm=60, width_mm=60, height_mm=80)
LYING = Body(shape="lying", length_mm=200, width_mm=100, height_mm=100)
BALL = Body(shape="ball", length_mm=100, width_mm=100, height_mm=100)


def test_volumes():
    assert BOX.volume_cm3 == pytest.approx(240)
    assert UPRIGHT.volume_cm3 == pytest.approx(math.pi * 9 * 8)
    assert LYING.volume_cm3 == pytest.approx(math.pi * 25 * 20)
    assert BALL.volume_cm3 == pytest.approx(math.pi / 6 * 1000)


def test_no_layer_is_no_sand():
    assert BALL.layer_cm3(0) == 0


def test_the_layer_is_the_same_lying_down():
    assert UPRIGHT.turned("width").layer_cm3(7) == pytest.approx(UPRIGHT.layer_cm3(7))


def test_the_part_above_the_parting():
    """Half a ball 2/3 π 50³; a cap of 25 mm π 25² (150 − 25) / 3; of a lying cylinder the segment 50² acos ½ − 25 √1875."""
    assert BOX.above(40) == (6000, 0)
    assert BOX.above(10) == (6000, pytest.approx(180000))
    assert BALL.above(50) == (pytest.approx(math.pi * 2500), pytest.approx(2 / 3 * math.pi * 50**3))
    assert BALL.above(75) == (pytest.approx(math.pi * 1875), pytest.approx(math.pi * 625 * 125 / 3))
    segment = 2500 * math.acos(0.5) - 25 * math.sqrt(1875)
    assert LYING.above(75) == (pytest.approx(200 * 2 * math.sqrt(1875)), pytest.approx(200 * segment))
    assert LYING.above(0) == (20000, pytest.approx(200 * math.pi * 2500))
    assert UPRIGHT.above(80) == (pytest.approx(math.pi * 900), 0)


def test_what_is_round_underneath_is_undercut_unless_parted_at_its_middle():
    """A ball of 100 mm parted at 25: its projected area π 50², less π (25 * 75) where it is parted: 19.63 cm²."""
    assert BALL.undercut_cm2(25) == BALL.undercut_cm2(75) == pytest.approx(math.pi * 6.25)
    assert BALL.undercut_cm2(50) == LYING.undercut_cm2(50) == 0
    assert BALL.undercut_cm2(-10) == BALL.undercut_cm2(170) == pytest.approx(math.pi * 25)
    assert LYING.undercut_cm2(0) == LYING.undercut_cm2(100) == pytest.approx(200)
    assert BOX.undercut_cm2(10) == UPRIGHT.undercut_cm2(0) == 0


def test_one_that_is_out_of_round_can_be_parted_at_its_middle():
    assert Body(shape="lying", length_mm=200, width_mm=100, height_mm=90).undercut_cm2(45) == 0


@pytest.mark.parametrize(
    ("body", "up", "turned"),
    [
        (BOX, "height", ("box", 100, 60, 40)),
        (BOX, "width", ("box", 100, 40, 60)),
        (BOX, "length", ("box", 60, 40, 100)),
        (UPRIGHT, "height", ("upright", 60, 60, 80)),
        (UPRIGHT, "width", ("lying", 80, 60, 60)),
        (UPRIGHT, "length", ("lying", 80, 60, 60)),
        (LYING, "height", ("lying", 200, 100, 100)),
        (LYING, "width", ("lying", 200, 100, 100)),
        (LYING, "length", ("upright", 100, 100, 200)),
        (BALL, "length", ("ball", 100, 100, 100)),
    ],
)
def test_a_body_with_another_side_up(body, up, turned):
    shape, length, width, height = turned
    assert body.turned(up) == Body(shape=shape, length_mm=length, width_mm=width, height_mm=height)


def test_what_is_out_of_round_is_recognised():
    assert not BOX.is_out_of_round
    assert not BALL.is_out_of_round
    assert Body(shape="ball", length_mm=100, width_mm=90, height_mm=100).is_out_of_round
    assert Body(shape="upright", length_mm=100, width_mm=90, height_mm=20).is_out_of_round
    assert not Body(shape="lying", length_mm=300, width_mm=91, height_mm=90).is_out_of_round


def test_a_block_measured():
    """20 × 10 × 5 mm: 2 × 1 × 0.5 cm is 1 cm³, 2 (2 + 0.5 + 1) is 7 cm²."""
    found = body.measures("block", 20, 10, 5)
    assert (found.volume_cm3, found.area_cm2, found.projected_cm2, found.space_above_cm3) == (1, 7, 2, 0)


def test_a_ball_measured():
    """Of 2 cm: 4/3 π, 4 π, π, and half of the cylinder around it less the ball, (2 π − 4/3 π) / 2 = π/3."""
    found = body.measures("ball", 20, 20, 20)
    assert found.volume_cm3 == pytest.approx(4 / 3 * math.pi)
    assert found.area_cm2 == pytest.approx(4 * math.pi)
    assert found.projected_cm2 == pytest.approx(math.pi)
    assert found.space_above_cm3 == pytest.approx(math.pi / 3)


def test_an_egg_is_within_thomsens_error():
    """A long egg of half-axes 1, 1, 3: exactly 2π(1 + 3/e asin e), e² = 8/9."""
    e = math.sqrt(8 / 9)
    exact = 2 * math.pi * (1 + 3 / e * math.asin(e))
    assert body.measures("ball", 20, 20, 60).area_cm2 == pytest.approx(exact, rel=0.011)


def test_a_cylinder_and_a_ring_measured():
    """Of 2 cm, 3 cm high: 3π, 2π + 6π. With a bore of 1 cm: less 0.75π of volume; 2 (1 − 0.25)π + (2 + 1)3π of surface."""
    cylinder = body.measures("cylinder", 20, 20, 30)
    assert (cylinder.volume_cm3, cylinder.area_cm2) == pytest.approx((3 * math.pi, 8 * math.pi))
    ring = body.measures("ring", 20, 20, 30, 10)
    assert (ring.volume_cm3, ring.area_cm2) == pytest.approx((2.25 * math.pi, 10.5 * math.pi))
    assert ring.projected_cm2 == pytest.approx(0.75 * math.pi)


def test_the_perimeter_of_an_ellipse():
    """Half-axes 2 and 1: 9.68844822, from tables of the elliptic integral; a cylinder of it 1 cm high."""
    found = body.measures("cylinder", 40, 20, 10)
    assert found.area_cm2 == pytest.approx(2 * 2 * math.pi + 9.68844822, rel=1e-6)


@pytest.mark.parametrize(
    ("kind", "shape", "sizes"),
    [("block", "box", (100, 60, 40)), ("cylinder", "upright", (60, 60, 80)), ("ball", "ball", (50, 50, 50))],
)
def test_a_measured_casting_and_a_pattern_in_a_flask_are_the_same_body(kind, shape, sizes):
    """Where a round is round, a casting that is measured and a pattern that lies in the sand are the same body."""
    found = body.measures(kind, *sizes)
    lies = Body(shape=shape, length_mm=sizes[0], width_mm=sizes[1], height_mm=sizes[2])
    assert found.volume_cm3 == pytest.approx(lies.volume_cm3, rel=1e-12)
    assert found.area_cm2 == pytest.approx(lies.area_mm2 / 100, rel=1e-12)
    assert found.projected_cm2 == pytest.approx(lies.projected_mm2 / 100, rel=1e-12)
