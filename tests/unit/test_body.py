"""Plain bodies, by hand formulas."""

import math

import pytest

from sandmix.body import Body

BOX = Body(shape="box", length_mm=100, width_mm=60, height_mm=40)
UPRIGHT = Body(shape="upright", length_mm=60, width_mm=60, height_mm=80)
LYING = Body(shape="lying", length_mm=200, width_mm=100, height_mm=100)
BALL = Body(shape="ball", length_mm=100, width_mm=100, height_mm=100)


def test_volumes():
    assert BOX.volume_cm3 == pytest.approx(240)
    assert UPRIGHT.volume_cm3 == pytest.approx(math.pi * 9 * 8)
    assert LYING.volume_cm3 == pytest.approx(math.pi * 25 * 20)
    assert BALL.volume_cm3 == pytest.approx(math.pi / 6 * 1000)


def test_a_layer_about_a_box_is_its_faces_its_edges_and_its_corners():
    """10 mm: faces 2 (6000 + 2400 + 4000) * 10 = 248 000; twelve edges, a quarter of a rod each, π 100 / 4 * 4 * 200; eight corners, one ball."""
    assert BOX.layer_cm3(10) * 1000 == pytest.approx(248000 + math.pi * 20000 + 4 / 3 * math.pi * 1000)


def test_a_layer_about_a_cylinder_is_its_side_its_ends_and_its_rims():
    """10 mm: side π (40² − 30²) 80; ends 2 π 30² 10; two rims together half a ring, whose half disc's middle lies at 30 + 40 / 3π (Pappus)."""
    side, ends = math.pi * (1600 - 900) * 80, 2 * math.pi * 900 * 10
    rims = 2 * math.pi * (30 + 40 / (3 * math.pi)) * math.pi * 100 / 2
    assert UPRIGHT.layer_cm3(10) * 1000 == pytest.approx(side + ends + rims)


def test_a_layer_about_a_ball_is_the_larger_ball_less_the_smaller():
    assert BALL.layer_cm3(20) * 1000 == pytest.approx(4 / 3 * math.pi * (70**3 - 50**3))
    assert BALL.layer_cm3(0) == 0


def test_lying_down_changes_no_layer():
    assert UPRIGHT.turned("width").layer_cm3(7) == pytest.approx(UPRIGHT.layer_cm3(7))


def test_what_stands_in_the_cope():
    """Half a ball 2/3 π 50³; a cap of 25 mm π 25² (150 − 25) / 3; of a lying cylinder the segment 50² acos ½ − 25 √1875."""
    assert BOX.in_cope(40) == (6000, 0)
    assert BOX.in_cope(10) == (6000, pytest.approx(180000))
    assert BALL.in_cope(50) == (pytest.approx(math.pi * 2500), pytest.approx(2 / 3 * math.pi * 50**3))
    assert BALL.in_cope(75) == (pytest.approx(math.pi * 1875), pytest.approx(math.pi * 625 * 125 / 3))
    segment = 2500 * math.acos(0.5) - 25 * math.sqrt(1875)
    assert LYING.in_cope(75) == (pytest.approx(200 * 2 * math.sqrt(1875)), pytest.approx(200 * segment))
    assert LYING.in_cope(0) == (20000, pytest.approx(200 * math.pi * 2500))
    assert UPRIGHT.in_cope(80) == (pytest.approx(math.pi * 900), 0)


def test_what_is_round_underneath_holds_in_the_sand_unless_parted_at_its_middle():
    """A ball of 100 mm parted at 25: its outline π 50², less π (25 * 75) where it is parted: 19.63 cm2."""
    assert BALL.undercut_cm2(25) == BALL.undercut_cm2(75) == pytest.approx(math.pi * 6.25)
    assert BALL.undercut_cm2(50) == LYING.undercut_cm2(50) == 0
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
def test_another_side_up(body, up, turned):
    shape, length, width, height = turned
    assert body.turned(up) == Body(shape=shape, length_mm=length, width_mm=width, height_mm=height)


def test_out_of_round_is_told():
    assert not BOX.is_out_of_round
    assert not BALL.is_out_of_round
    assert Body(shape="ball", length_mm=100, width_mm=90, height_mm=100).is_out_of_round
    assert Body(shape="upright", length_mm=100, width_mm=90, height_mm=20).is_out_of_round
    assert not Body(shape="lying", length_mm=300, width_mm=91, height_mm=90).is_out_of_round
