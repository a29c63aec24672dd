"""Sand for a flask, by hand arithmetic."""

import pytest

from sandmix.mould import flask

BOX = flask.Flask(length_mm=400, width_mm=300, drag_depth_mm=150, cope_depth_mm=50)


def test_both_halves_count():
    assert BOX.volume_l == pytest.approx(24)
    assert BOX.area_l_per_mm == pytest.approx(0.12)


def test_the_spare_is_added():
    assert flask.make_kg(20, 0.25) == 25


def test_loose_sand_takes_up_more_space_by_its_compactability():
    """31 kg at 1.55 is 20 L rammed; at 50 % compactability 40 L loose."""
    assert flask.loose_l(31, 1.55, 0.5) == pytest.approx(40)


def test_filler_replaces_sand_with_its_spare():
    """7.5 kg with a quarter of spare are 6 kg rammed: 4 L at 1.5."""
    assert flask.filler_for_l(7.5, 1.5, 0.25) == pytest.approx(4)


def test_a_half_weighs_its_volume_in_rammed_sand():
    """0.12 L/mm × 150 mm × 1.5 = 27 kg; × 50 mm = 9 kg."""
    assert flask.halves_kg(BOX, 1.5) == pytest.approx((27, 9))


def test_the_flask_that_fits_keeps_depths_and_proportions():
    """A quarter of the sand, nothing else in it: half the length."""
    full = 24 * 1.5 * 1.2
    assert flask.length_that_fits_mm(BOX, heap_kg=full / 4, rammed_kg_l=1.5, spare=0.2, taken_l=0) == pytest.approx(200)


def test_pattern_and_filler_take_the_place_of_sand():
    assert flask.length_that_fits_mm(BOX, heap_kg=15 * 1.5, rammed_kg_l=1.5, spare=0, taken_l=9) == pytest.approx(400)
    assert flask.length_that_fits_mm(
        BOX, heap_kg=15 * 1.5 / 4, rammed_kg_l=1.5, spare=0, taken_l=2.25
    ) == pytest.approx(200)


def test_it_is_never_longer_than_the_flask():
    assert flask.length_that_fits_mm(BOX, heap_kg=1000, rammed_kg_l=1.5, spare=0, taken_l=0) == 400


def test_a_pattern_may_lie_either_way_round():
    assert flask.clears(300, 200, 130, 230, 30)
    assert not flask.clears(300, 200, 141, 230, 30)
