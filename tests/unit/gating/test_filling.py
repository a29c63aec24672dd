"""Filling from above, from below and at the parting, by hand and by stepping Bernoulli's equation through the height."""

import math

import pytest

from sandmix.gating import filling
from sandmix.gating.filling import Cavity

G = 9.80665


def stepped_s(volume_cm3, area_cm2, head_mm, rising_mm, discharge, steps=20_000):
    """An independent method: thin layers, each at the head at its middle."""
    layer_m3, total = volume_cm3 * 1e-6 / steps, 0.0
    for at in range(steps):
        left_m = (head_mm - rising_mm * (at + 0.5) / steps) / 1000
        total += layer_m3 / (discharge * area_cm2 * 1e-4 * math.sqrt(2 * G * left_m))
    return total


def test_from_above_by_hand():
    """1000 cm³ / (0.8 * 2 cm² * 198.06 cm/s) for 200 mm: √(2 * 9.80665 * 0.2) = 1.980571 m/s; 1000 / 316.8914 = 3.155655 s."""
    assert filling.fill_s(Cavity(volume_cm3=1000, place="top"), 2, 200, 0.8) == pytest.approx(3.155655, abs=2e-6)


@pytest.mark.parametrize("rising", [10, 50, 100, 150, 190])
def test_from_below_as_layers_at_their_own_head(rising):
    cavity = Cavity(volume_cm3=800, place="bottom", height_mm=rising)
    assert filling.fill_s(cavity, 1.5, 200, 0.7) == pytest.approx(stepped_s(800, 1.5, 200, rising, 0.7), rel=1e-4)


def test_a_cavity_as_high_as_the_head_takes_twice_as_long_from_below():
    top, bottom = (Cavity(volume_cm3=500, place=place, height_mm=120) for place in ("top", "bottom"))
    assert filling.fill_s(bottom, 2, 120) == pytest.approx(2 * filling.fill_s(top, 2, 120))


def test_at_the_parting_each_part_fills_in_its_own_way():
    """A quarter of the height is in the cope: three quarters as from above, one quarter in layers."""
    cavity = Cavity(volume_cm3=400, place="parting", height_mm=80, above_mm=20)
    below = filling.fill_s(Cavity(volume_cm3=300, place="top"), 2, 100)
    assert filling.fill_s(cavity, 2, 100) == pytest.approx(below + stepped_s(100, 2, 100, 20, 0.8), rel=1e-5)


def test_at_the_parting_with_nothing_above_it_is_from_above():
    flat = Cavity(volume_cm3=400, place="parting", height_mm=80, above_mm=0)
    assert filling.fill_s(flat, 2, 100) == filling.fill_s(Cavity(volume_cm3=400, place="top"), 2, 100)


@pytest.mark.parametrize(
    ("share", "short_pct", "digits"), [(0.25, 0.3, 1), (0.5, 1.5, 1), (0.75, 5.4, 1), (1.0, 41, 0)]
)
def test_the_trades_mean_head_gives_too_short_a_time(share, short_pct, digits):
    """How much the exact time is longer, from the facts: t ~ 1/√h."""
    exact, trade = filling.mean_head_mm(100, 100 * share), filling.trade_mean_head_mm(100, 100 * share)
    assert round(100 * (math.sqrt(trade / exact) - 1), digits) == pytest.approx(short_pct)


@pytest.mark.parametrize("place", ["top", "bottom", "parting"])
def test_the_area_for_a_time_is_the_inverse(place):
    cavity = Cavity(volume_cm3=640, place=place, height_mm=60, above_mm=30)
    area = filling.area_cm2(cavity, 3.3, 150)
    assert filling.fill_s(cavity, area, 150) == pytest.approx(3.3)
    assert filling.fill_s(cavity, 2 * area, 150) == pytest.approx(1.65)
