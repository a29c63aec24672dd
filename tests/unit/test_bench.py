"""Bench tests: the moisture test, its error, and the sample that would shrink it."""

import math

import pytest

from sandmix import bench


def test_moisture_is_what_went_off_over_the_wet_mass():
    assert bench.moisture_pct_wet(200, 190) == pytest.approx(5.0)


def test_the_handful_adds_to_the_scale_as_squares():
    assert bench.moisture_error_pct(0.4) == pytest.approx(0.5)


def test_a_sample_brings_the_test_to_the_error_that_is_wanted():
    """0.5 points in all leave 0.4 for the scale: 80.02 / 0.4 = 200 g on a 1 g scale."""
    sample = bench.sample_for_error_g(0.5, 1)
    assert sample == pytest.approx(100 * math.sqrt(2) * 1.96 / math.sqrt(12) / 0.4)


def test_no_sample_beats_the_scatter_of_handfuls():
    assert bench.sample_for_error_g(0.3, 1) is None
