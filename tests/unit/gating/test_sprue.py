"""The tapered sprue: the same flow at both ends, sticks and volume by hand."""

import math

import pytest

from sandmix.gating import sprue


def test_the_same_flow_passes_both_ends():
    """Area times √(2 g h) at the top and at the base."""
    top, base = 24.0, sprue.base_mm(24.0, 40.0, 150.0)
    assert sprue.round_cm2(top) * math.sqrt(40) == pytest.approx(sprue.round_cm2(base) * math.sqrt(190))


def test_four_times_the_head_halves_the_area():
    assert sprue.area_ratio(30, 90) == 0.5
    assert sprue.base_mm(20, 30, 90) == pytest.approx(20 / math.sqrt(2))
    assert sprue.top_mm(20 / math.sqrt(2), 30, 90) == pytest.approx(20)


def test_area_and_diameter_are_inverse():
    """A circle of 20 mm has π cm²."""
    assert sprue.round_cm2(20) == pytest.approx(math.pi)
    assert sprue.diameter_mm(math.pi) == pytest.approx(20)


@pytest.mark.parametrize(
    ("size", "stick"), [(1.0, 6), (6.0, 6), (6.01, 8), (13.4, 14), (22.0000000001, 22), (99, 100), (131, 140)]
)
def test_a_stick_is_the_next_larger_one(size, stick):
    assert sprue.stick_mm(size) == stick


def test_the_sticks_are_in_order():
    assert list(sprue.STICKS_MM) == sorted(set(sprue.STICKS_MM))


def test_the_volume_is_that_of_a_cut_cone():
    """A cone of 30 mm and 90 mm, cut at two thirds of its height: 1 - 1/27 of π * 15² * 90 / 3 = 21.206 cm³."""
    assert sprue.volume_cm3(30, 10, 60) == pytest.approx(21.2058 * 26 / 27, rel=1e-5)
