"""Tests of the sand on the bench: what was weighed, turned into a figure with its error."""

from __future__ import annotations

import math

SAMPLING_PCT = 0.3
"""Scatter between handfuls of one heap, as a 95 % half-width in points of moisture (from memory)."""


def reading_error_g(scale_step_g: float) -> float:
    """Return the 95 % half-width, in g, of one reading on a scale of *scale_step_g*: an even spread of step/√12. Source: scale_rounding."""
    return 1.96 / math.sqrt(12) * scale_step_g


def moisture_pct_wet(sample_wet_g: float, sample_dry_g: float) -> float:
    """Return the moisture, as a share of wet mass in percent, of a sample dried to constant mass at 105 °C.

    M = 100 (W1 - W2) / W1. Source: tjfs_201.

    >>> round(moisture_pct_wet(50.00, 48.10), 2)
    3.8
    """
    return 100 * (sample_wet_g - sample_dry_g) / sample_wet_g


def weighing_error_pct(sample_wet_g: float, wet_error_g: float, dry_error_g: float) -> float:
    """Return the 95 % half-width, in points of moisture, that the two readings leave: they add as squares.

    >>> cases = ((100, 1), (300, 1), (500, 1), (100, 0.1))
    >>> [round(weighing_error_pct(sample, *[reading_error_g(step)] * 2), 2) for sample, step in cases]
    [0.8, 0.27, 0.16, 0.08]
    """
    return 100 * math.hypot(wet_error_g, dry_error_g) / sample_wet_g


def moisture_error_pct(weighing_error_pct: float) -> float:
    """Return the 95 % half-width of one moisture test, in points: the scale and the handful together."""
    return math.hypot(weighing_error_pct, SAMPLING_PCT)


def sample_for_error_g(error_pct: float, scale_step_g: float) -> float | None:
    """Return the sample, in g, that brings one moisture test to *error_pct* points, or None where the handful alone scatters more."""
    if error_pct <= SAMPLING_PCT:
        return None
    return 100 * math.sqrt(2) * reading_error_g(scale_step_g) / math.sqrt(error_pct**2 - SAMPLING_PCT**2)
