"""Sand for a flask, by hand arithmetic."""

import pytest

from sandmix.mould import flask

BOX = flask.Flask(length_mm=400, width_mm=300, drag_depth_mm=150, cope_depth_mm=50)


def test_both_halves_count():
    assert BOX.volume_l == pytest.approx(24)
    assert BOX.area_l_per_mm == pytest.approx(0.12)


def test_spare_comes_on_top():
    assert flask.make_kg(20, 0.25) == 25


def test_loose_sand_takes_more_room_by_its_compactability():
    """31 kg at 1.55 is 20 L rammed; at 50 % compactability 40 L loose."""
    assert flask.loose_l(31, 1.55, 0.5) == pytest.approx(40)


def test_the_flask_that_fits_keeps_depths_and_proportions():
    """A quarter of the sand, nothing else in it: half the length."""
    full = 24 * 1.5 * 1.2
    assert flask.length_that_fits_mm(BOX, heap_kg=full / 4, rammed_kg_l=1.5, spare=0.2, taken_l=0) == pytest.approx(200)


def test_what_pattern_and_filler_take_is_filled_without_sand():
    assert flask.length_that_fits_mm(BOX, heap_kg=15 * 1.5, rammed_kg_l=1.5, spare=0, taken_l=9) == pytest.approx(400)
    assert flask.length_that_fits_mm(
        BOX, heap_kg=15 * 1.5 / 4, rammed_kg_l=1.5, spare=0, taken_l=2.25
    ) == pytest.approx(200)


def test_it_is_never_longer_than_the_flask():
    assert flask.length_that_fits_mm(BOX, heap_kg=1000, rammed_kg_l=1.5, spare=0, taken_l=0) == 400


def test_a_pattern_may_lie_either_way_round():
    assert flask.clears(300, 200, 130, 230, 30)
    assert not flask.clears(300, 200, 141, 230, 30)
