"""Flasks on hand checked for a mould, by hand arithmetic."""

import pytest

from sandmix.mould import fit
from sandmix.mould.body import Body
from sandmix.mould.clearance import Clearance, Mould
from sandmix.mould.flask import Flask

NEEDED = Clearance(above_mm=40, below_mm=40, beside_mm=30, between_mm=30)
MOULD = Mould(Body(shape="box", length_mm=150, width_mm=100, height_mm=40), 1, 40, NEEDED, 20)


def inside(length, width, drag, cope):
    return Flask(length_mm=length, width_mm=width, drag_depth_mm=drag, cope_depth_mm=cope)


def test_the_smallest_that_clears_is_taken():
    flasks = {"large": (400, 300, 100, 100), "right": (260, 160, 80, 40), "small": (250, 160, 80, 40)}
    checked = [fit.check(name, inside(*sizes), MOULD) for name, sizes in flasks.items()]
    assert [each.clears for each in checked] == [True, True, False]
    assert fit.smallest(checked).name == "right"
    assert checked[2].lacks == {"at the ends": 5}
    assert fit.smallest(checked[2:]) is None


def test_a_flask_may_be_turned():
    """160 × 260: the sprue lies along the longer way."""
    checked = fit.check("turned", inside(160, 260, 80, 40), MOULD)
    assert checked.clears
    assert (checked.inside.length_mm, checked.inside.width_mm) == (260, 160)


def test_an_open_mould_is_checked_without_the_cope():
    mould = Mould(MOULD.body, 1, 40, NEEDED, is_open=True)
    assert fit.check("x", inside(300, 300, 100, 100), mould).inside.cope_depth_mm == 0


def test_a_flask_without_a_cope_lacks_all_of_it():
    assert fit.check("x", inside(300, 300, 100, 0), MOULD).lacks == {"above": 40}


def test_a_larger_flask_needs_more_sand_by_its_volume():
    """(12 − 10) L × 1.5 kg/L × 1.25 = 3.75 kg."""
    large, small = inside(300, 200, 100, 100), inside(250, 200, 100, 100)
    assert fit.extra_kg(large, small, 1.5, 0.25) == pytest.approx(3.75)
