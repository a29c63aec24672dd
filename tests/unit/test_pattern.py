"""Plain bodies, prints and stock, by hand."""

import math

import pytest

from sandmix import pattern
from sandmix.metals import METALS


def test_a_block():
    """20 × 10 × 5 mm: 2 × 1 × 0.5 cm is 1 cm³, 2 (2 + 0.5 + 1) is 7 cm²."""
    body = pattern.body("block", 20, 10, 5)
    assert (body.volume_cm3, body.area_cm2, body.outline_cm2, body.column_cm3) == (1, 7, 2, 0)


def test_a_ball():
    """Of 2 cm: 4/3 π, 4 π, π, and half of the cylinder around it less the ball, (2 π − 4/3 π) / 2 = π/3."""
    body = pattern.body("ball", 20, 20, 20)
    assert body.volume_cm3 == pytest.approx(4 / 3 * math.pi)
    assert body.area_cm2 == pytest.approx(4 * math.pi)
    assert body.outline_cm2 == pytest.approx(math.pi)
    assert body.column_cm3 == pytest.approx(math.pi / 3)


def test_an_egg_is_within_thomsens_error():
    """A long egg of half-axes 1, 1, 3: exactly 2π(1 + 3/e asin e), e² = 8/9."""
    e = math.sqrt(8 / 9)
    exact = 2 * math.pi * (1 + 3 / e * math.asin(e))
    assert pattern.body("ball", 20, 20, 60).area_cm2 == pytest.approx(exact, rel=0.011)


def test_a_cylinder_and_a_ring():
    """Of 2 cm, 3 cm high: 3π, 2π + 6π. With a bore of 1 cm: less 0.75π of volume; 2 (1 − 0.25)π + (2 + 1)3π of surface."""
    cylinder = pattern.body("cylinder", 20, 20, 30)
    assert (cylinder.volume_cm3, cylinder.area_cm2) == pytest.approx((3 * math.pi, 8 * math.pi))
    ring = pattern.body("ring", 20, 20, 30, 10)
    assert (ring.volume_cm3, ring.area_cm2) == pytest.approx((2.25 * math.pi, 10.5 * math.pi))
    assert ring.outline_cm2 == pytest.approx(0.75 * math.pi)


def test_the_girth_of_an_ellipse():
    """Half-axes 2 and 1: 9.68844822, from tables of the elliptic integral; a cylinder of it 1 cm high."""
    body = pattern.body("cylinder", 40, 20, 10)
    assert body.area_cm2 == pytest.approx(2 * 2 * math.pi + 9.68844822, rel=1e-6)


def test_stock_on_a_cube_and_on_a_plate():
    """A cube of 2 cm with 0.1 cm on: 8 + 24 × 0.1; its surface 6 × 2.2² = 29.04, first order 24 + 12 × 2 × 0.2 = 28.8."""
    grown = pattern.with_stock(8.0, 24.0, (20.0, 20.0, 20.0), 1.0)
    assert grown.volume_cm3 == pytest.approx(10.4)
    assert grown.area_cm2 == pytest.approx(28.8)
    plate = pattern.with_stock(20.0, 208.0, (100.0, 100.0, 2.0), 1.0)
    assert plate.area_cm2 == pytest.approx(208 + 8 * 0.1 * 20.2), "a plate grows at its rim, not by its modulus"


def test_every_metal_has_its_shrink_and_every_material_its_density():
    assert pattern.SHRINK_PCT.keys() == METALS.keys()
    assert all(0 < low < high < 3 for low, high in pattern.SHRINK_PCT.values())
    assert all(0 < low < high for low, high in (material.density_g_cm3 for material in pattern.MATERIALS.values()))


def test_a_print_of_full_infill_is_solid():
    assert pattern.solid_share(1.0, 0.3) == 1
    assert pattern.solid_share(0.0, 0.3) == 0.3
