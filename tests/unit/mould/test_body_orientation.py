"""The orientation of a plain body, by hand arithmetic."""

import math

import pytest

from sandmix.mould import body_orientation
from sandmix.mould.body import Body
from sandmix.mould.clearance import Clearance, Mould

NEEDED = Clearance(above_mm=40, below_mm=40, beside_mm=30, between_mm=30)


def orientations(body, count=1, sprue=0.0):
    return body_orientation.orientations(body, count, NEEDED, sprue, 2400.0)


def test_nine_orientations_of_a_box_and_the_sand_of_each():
    """150 × 100 × 40: flat 210 × 160 × 120 = 4.032 L; on its side 210 × 100 × 180 = 3.78; on its end 160 × 100 × 230 = 3.68; less 0.6 each."""
    found = orientations(Body(shape="box", length_mm=150, width_mm=100, height_mm=40))
    assert [(each.up, each.place) for each in found] == [
        (up, place) for up in ("height", "width", "length") for place in ("underneath", "at the middle", "on top")
    ]
    assert [each.sand_l for each in found] == pytest.approx([3.432] * 3 + [3.18] * 3 + [3.08] * 3)
    assert [each.draw_mm for each in found] == [40, 20, 40, 100, 50, 100, 150, 75, 150]
    assert not any(each.undercut_cm2 for each in found)


def test_of_equal_sand_the_drag_is_preferred():
    best = body_orientation.best(orientations(Body(shape="box", length_mm=150, width_mm=100, height_mm=40)), "height")
    assert best.place == "on top"
    assert best.flask.cope_depth_mm == 40


def test_what_is_round_is_parted_at_its_middle_or_stood_on_end():
    found = orientations(Body(shape="lying", length_mm=200, width_mm=50, height_mm=50))
    assert body_orientation.best(found, "height").place == "at the middle"
    assert found[0].undercut_cm2 == pytest.approx(100)
    ball = orientations(Body(shape="ball", length_mm=90, width_mm=90, height_mm=90))
    assert body_orientation.best(ball).place == "at the middle"


def test_uplift_is_the_weight_of_metal_above_the_roof():
    """200 × 150 flat at the parting, cope 100 and cup 30: 0.03 m² × 0.13 m × 2400 = 9.36 kg; a block 20 mm into the cope less 0.03 × 0.02 × 2400."""
    body = Body(shape="box", length_mm=200, width_mm=150, height_mm=20)
    assert body_orientation.uplift_kg(Mould(body, 1, 20, NEEDED), 100, 2400) == pytest.approx(9.36)
    assert body_orientation.uplift_kg(Mould(body, 1, 0, NEEDED), 100, 2400) == pytest.approx(9.36 - 1.44)
    assert body_orientation.uplift_kg(Mould(body, 3, 20, NEEDED), 100, 2400) == pytest.approx(3 * 9.36)
    assert body_orientation.uplift_kg(Mould(body, 1, 20, NEEDED, is_open=True), 100, 2400) == 0


def test_the_uplift_of_a_ball_counts_the_depth_of_its_roof():
    """r 50, parted at its middle, cope 90 and cup 30: π 50² × 120 − 2/3 π 50³ = 680 678 mm³ × 2.4e-6 = 1.634 kg."""
    ball = Body(shape="ball", length_mm=100, width_mm=100, height_mm=100)
    hand = (math.pi * 2500 * 120 - 2 / 3 * math.pi * 125000) * 2.4e-6
    assert body_orientation.uplift_kg(Mould(ball, 1, 50, NEEDED), 90, 2400) == pytest.approx(hand)
