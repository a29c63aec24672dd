"""When a mould may be opened, by hand arithmetic on coolings written by hand; the rules are DOOR's, our own, without a source."""

import math

import pytest

from sandmix.cooling import opening
from sandmix.cooling.opening import Opening


@pytest.mark.parametrize(("metal_kg", "section_mm"), [(None, 25), (0.1, 25), (1, 25), (8, 50), (27, 75)])
def test_the_gating_is_25_mm_to_a_kilogram_and_grows_with_the_cube_root_above(metal_kg, section_mm):
    assert opening.gating_mm(metal_kg) == pytest.approx(section_mm)


def test_the_modulus_of_a_bar_is_a_quarter_and_of_a_ball_a_sixth_of_the_diameter():
    """π d²/4 over π d; a ball of 60 mm has 36 π cm³ of 6³ π/6 = 113.1."""
    assert opening.bar_modulus_mm(25) == 6.25
    assert opening.ball_modulus_mm(math.pi * 6**3 / 6) == pytest.approx(10)


@pytest.mark.parametrize(("shape_n", "depth_mm"), [(0, 70), (1, 20 * (8**0.5 - 1)), (2, 30)])
def test_seven_times_its_volume_of_sand_lies_so_deep_around_a_casting(shape_n, depth_mm):
    """M 10: a plate 7 M; a bar of radius 20 within one of 20 √8; a ball of radius 30 within one of 60."""
    assert opening.sand_depth_mm(100, 10, shape_n, 700) == pytest.approx(depth_mm)


def timed(cooled, freeze_s, below_330_s):
    """A cooling whose metal is solid at *freeze_s* and whose middle is at 330 °C, half of 660, at *below_330_s*."""
    return cooled(
        freeze_s=freeze_s, times_s=[1.0, below_330_s, below_330_s + 1, 1e5], middle_c=[700.0, 330.0, 329.0, 50.0]
    )


@pytest.mark.parametrize(
    ("cast", "gated", "open_s", "decided_by"),
    [
        ((100, 900), (100, 700), 900, "casting"),
        ((100, 700), (100, 900), 900, "gating"),
        ((1000, 1200), (100, 700), 1500, "casting"),
        ((100, 700), (1000, 1200), 1500, "gating"),
        ((100, 200), (100, 300), 600, "least"),
    ],
)
def test_the_latest_of_casting_gating_and_10_minutes_opens_the_mould(cooled, cast, gated, open_s, decided_by):
    """Each: 1.5 times its freezing time, and when its middle is at 330 °C."""
    both = Opening(casting=timed(cooled, *cast), gating=timed(cooled, *gated))
    assert both.open_s == pytest.approx(open_s)
    assert both.decided_by == decided_by
    assert both.casting_s == pytest.approx(cast[1])


@pytest.mark.parametrize("changes", [{"freeze_s": None}, {"middle_c": [700.0, 690.0, 680.0, 670.0]}])
def test_without_one_of_the_times_there_is_no_opening_time(cooled, changes):
    never, soon = cooled(**changes), timed(cooled, 100, 700)
    assert Opening(casting=never, gating=soon).open_s is None
    assert Opening(casting=soon, gating=never).open_s is None
    assert Opening(casting=never, gating=soon).decided_by == "casting"


def test_the_hot_layer_is_the_hottest_of_all_that_dried(cooled):
    """300, 280, 240, 160 °C at 10, 20, 30, 50 s: 260 at 25 s; around the gating 400."""
    casting, gating = cooled(), cooled(dried_c=[400.0] * 4)
    assert Opening(casting=casting, gating=casting).layer_c(casting, 25) == pytest.approx(260)
    assert Opening(casting=casting, gating=gating).layer_c(casting, 25) == 400


def test_a_bar_and_a_ball_are_poured_like_the_casting(casting):
    """25 mm: M = 6.25. 36 π cm³ in 7 times as much sand: M = 10 in 30 mm of sand."""
    plate = casting(contact_w_m2k=61.0, wall_mm=80.0)
    bar, ball = opening.bar(plate, 25.0), opening.ball(plate, 36 * math.pi, 7 * 36 * math.pi)
    assert (bar.shape_n, bar.modulus_mm, bar.wall_mm) == (1, 6.25, None)
    assert (ball.shape_n, ball.modulus_mm, ball.wall_mm) == (2, pytest.approx(10), pytest.approx(30))
    for case in (bar, ball):
        assert (case.metal, case.pour_temp_c, case.water, case.contact_w_m2k) == (plate.metal, 720, plate.water, 61)
