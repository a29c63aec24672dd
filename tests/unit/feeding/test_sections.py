"""The modulus of plain parts from their sizes, by hand: volume over the surface that cools."""

import math

import pytest

from sandmix.feeding import sections
from sandmix.feeding.sections import modulus_mm


def test_a_wide_wall_has_half_its_thickness():
    assert modulus_mm("plate", 12, None, None) == 6


def test_a_bar_has_its_section_over_its_girth():
    """20 × 30 over 100."""
    assert modulus_mm("bar", 20, 30, None) == pytest.approx(6)


def test_a_round_bar_has_a_quarter_of_its_diameter():
    assert modulus_mm("round_bar", 24, None, None) == 6


def test_a_block_of_25_by_25_by_5_cm():
    """3125 cm³ over 1750 cm² is 1.786 cm, a worked example read on a university's problem sheet; a cube has a sixth of its side."""
    assert modulus_mm("block", 50, 250, 250) == pytest.approx(17.857, abs=0.001)
    assert modulus_mm("block", 60, 60, 60) == pytest.approx(10)


def test_a_ring_has_the_modulus_of_its_section():
    """From 40 to 60 mm radius and 30 mm high: π (60² − 40²) 30 over 2 π 100 × 30 + 2 π (60² − 40²)."""
    volume, surface = math.pi * 2000 * 30, 2 * math.pi * (100 * 30 + 2000)
    assert modulus_mm("ring", 20, 30, None) == pytest.approx(volume / surface)


def test_a_boss_does_not_cool_where_it_stands():
    """π/4 40² 35 over π 40 × 35 + π/4 40²."""
    volume, surface = math.pi / 4 * 1600 * 35, math.pi * 40 * 35 + math.pi / 4 * 1600
    assert modulus_mm("boss", 40, 35, None) == pytest.approx(volume / surface)


@pytest.mark.parametrize("part", sections.SECTIONS)
def test_a_part_that_lacks_a_size_has_none(part):
    sizes = [10.0, 10.0, 10.0]
    assert modulus_mm(part, *sizes) > 0
    lacking = sections.SECTIONS[part].sizes - 1
    sizes[lacking] = None
    assert modulus_mm(part, *sizes) is None
