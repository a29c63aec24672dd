"""Feeding distances of steel, by hand."""

import pytest

from sandmix.feeding import distance


def test_a_plate_by_its_thickness():
    assert distance.plate_mm(20.0) == 90.0
    assert distance.between_risers_mm(20.0) == 80.0


def test_a_bar_by_the_root_of_its_thickness():
    """6 √4 = 12 in = 304.8 mm for 4 in; the metric rule rounds 30.24 to 30."""
    assert distance.bar_mm(101.6) == pytest.approx(304.8, rel=0.01)


def test_a_lump_has_none():
    assert distance.to_an_end_mm("ball", 50.0) is None
    assert distance.to_an_end_mm("plate", 20.0) == 90.0
    assert distance.to_an_end_mm("bar", 25.0) == 150.0
