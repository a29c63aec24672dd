"""The uncertainty that two readings on a scale leave.

Source: arithmetic on the scale's resolution (derived): two readings, each off by an even spread of step/sqrt(12), added as squares, 95 %.
Printed: 100 g on 1 g: "about ±0.8 point"; 300 g ±0.27; 500 g ±0.16; 100 g on 0.1 g ±0.08; the handful "about ±0.3" on top.
Basis: points of moisture, share of the wet mass, for a heap of a few percent.
By hand 1.96 * sqrt(2) / sqrt(12) = 0.8002 steps per 100 g of sample.
"""

import math

import pytest
from against.published import Checks

from sandmix.bench import measurements

WEIGHING = Checks("weighing", source="scale_rounding", sure="derived")
CASES = ((100, 1, "0.8"), (300, 1, "0.27"), (500, 1, "0.16"), (100, 0.1, "0.08"))


@pytest.mark.parametrize(("sample", "step", "printed"), CASES)
def test_the_scale_alone_gives_the_printed_half_width(sample, step, printed):
    reading = measurements.reading_error_g(step)
    found = measurements.weighing_error_pct(sample, reading, reading)
    WEIGHING.figure(found, printed, f"± of {sample} g dried on a scale of {step} g", unit="points")


@pytest.mark.parametrize(("sample", "step", "printed"), CASES)
def test_the_answer_combines_the_errors_of_scale_and_handful(ask, sample, step, printed):
    answer = ask("temper", sample_wet_g=sample, sample_dry_g=0.97 * sample, scale_step_g=step)
    low, high = answer["doubt"]["moisture_pct_wet"]
    what = f"the same with the handful's ± 0.3, {sample} g on {step} g"
    both = f"{math.hypot(float(printed), 0.3):.2f}"
    WEIGHING.figure((high - low) / 2, both, what, unit="points", within=0.055 if printed == "0.8" else 0.01)


def test_drying_500_g_instead_of_100_is_named_as_the_cheapest_way(ask):
    answer = ask("temper", heap_kg=25, sample_wet_g=100, sample_dry_g=97, scale_step_g=1)
    assert any("instead of 100 g" in remark for remark in answer["remarks"])
