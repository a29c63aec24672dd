"""Prints and stock, by hand."""

import math

import pytest

from sandmix.materials.metals import METALS
from sandmix.mould import pattern


def test_stock_on_a_cube_and_on_a_plate():
    """A cube of 2 cm with 0.1 cm on: 8 + 24 × 0.1; its surface 6 × 2.2² = 29.04, first order 24 + 12 × 2 × 0.2 = 28.8."""
    volume, area = pattern.with_stock(8.0, 24.0, (20.0, 20.0, 20.0), 1.0)
    assert (volume, area) == pytest.approx((10.4, 28.8))
    _, plate = pattern.with_stock(20.0, 208.0, (100.0, 100.0, 2.0), 1.0)
    assert plate == pytest.approx(208 + 8 * 0.1 * 20.2), "a plate grows at its rim, not by its modulus"


def test_stock_on_a_ball():
    """A ball of 2 cm with 0.1 cm on: its surface 4πr² grows by 8πr × 0.1, less than a block of its box (8 × 0.1 × 12). Taken off, it shrinks."""
    volume, area, grows = 4 / 3 * math.pi * 8, 16 * math.pi, 1.6 * math.pi
    for stock_mm, sign in ((1.0, 1), (-1.0, -1)):
        found = pattern.with_stock(volume, area, (40.0, 40.0, 40.0), stock_mm)
        assert found == pytest.approx((volume + sign * 0.1 * area, area + sign * grows))


def test_every_metal_has_its_shrink_and_every_material_its_density():
    assert pattern.SHRINK_PCT.keys() == METALS.keys()
    assert all(0 < low < high < 3 for low, high in pattern.SHRINK_PCT.values())
    assert all(0 < low < high for low, high in (material.density_g_cm3 for material in pattern.MATERIALS.values()))


def test_a_print_of_full_infill_is_solid():
    assert pattern.solid_share(1.0, 0.3) == 1
    assert pattern.solid_share(0.0, 0.3) == 0.3
