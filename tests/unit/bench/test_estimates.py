"""Several tests combined, by hand arithmetic."""

import math

import pytest

from sandmix.bench import estimates
from sandmix.bench.estimates import Estimate, combine


def estimate(value, half_width):
    return Estimate(key="made up", value=value, half_width=half_width)


def test_the_equilibrium_solved_for_clay_gives_the_clay_back():
    for compactability in (35, 40, 47.5, 47.6, 55):
        moisture = estimates.equilibrium_moisture_pct_wet(9, compactability)
        assert estimates.mulled_clay_pct_dry(moisture, compactability) == pytest.approx(9)


def test_the_lines_below_and_above_47_5():
    """3.213 - 0.02525 · 55 = 1.82425; 2.583 - 0.01185 · 47.5 = 2.020125. At 47.5 they differ by a third of a percent."""
    assert estimates.clay_per_moisture(55) == pytest.approx(1.82425)
    assert estimates.clay_per_moisture(47.5) == pytest.approx(2.020125)
    assert estimates.clay_per_moisture(47.5) == pytest.approx(estimates.clay_per_moisture(47.500001), rel=0.004)


def test_one_estimate_alone_stays_as_it_is():
    alone = combine([estimate(7, 0.8)])
    assert (alone.value, alone.half_width, alone.ratio, alone.agrees) == (7, pytest.approx(0.8), 0, True)


def test_two_alike_narrow_the_range_by_the_root_of_two():
    both = combine([estimate(7, 1), estimate(7, 1)])
    assert (both.value, both.half_width) == (pytest.approx(7), pytest.approx(1 / math.sqrt(2)))
    assert both.ratio == 0


def test_the_more_exact_counts_more():
    """Weights 1/0.6² and 1/0.8² are 16 : 9: (16 · 7 + 9 · 7.4)/25 = 7.144; 0.6 · 0.8/√(0.36 + 0.64) = 0.48."""
    both = combine([estimate(7, 0.6), estimate(7.4, 0.8)])
    assert both.value == pytest.approx(7.144)
    assert both.half_width == pytest.approx(0.48)


def test_a_disagreement_widens_the_range_by_the_birge_ratio():
    """5 and 10 ± 1 each: σ 1/1.96, χ² = 2 · 2.5² · 1.96² = 48.02, ratio √48.02 = 6.930; 0.7071 · 6.930 = 4.9."""
    both = combine([estimate(5, 1), estimate(10, 1)])
    assert both.ratio == pytest.approx(6.930, abs=0.001)
    assert both.half_width == pytest.approx(4.9, abs=0.001)
    assert not both.agrees


def test_a_difference_within_chance_agrees_but_widens_the_range():
    """7 and 8.2 ± 0.7 each: χ² = 2 · 0.6²/0.3571² = 5.645 disagrees, because it is above 3.841; 7 and 7.9: 2 · 0.45²/0.3571² = 3.175 agrees."""
    assert not combine([estimate(7, 0.7), estimate(8.2, 0.7)]).agrees
    near = combine([estimate(7, 0.7), estimate(7.9, 0.7)])
    assert near.agrees
    assert near.ratio == pytest.approx(math.sqrt(3.175), abs=0.001)
    assert near.half_width > 0.7 / math.sqrt(2)


def test_an_estimate_without_a_range_does_not_silence_the_others():
    both = combine([estimate(7, 0), estimate(9, 1)])
    assert 7 < both.value < 7.01
    assert not both.agrees


@pytest.mark.parametrize(("compactability", "holds"), [(29.9, False), (30, True), (60, True), (60.1, False)])
def test_the_bond_equations_are_used_only_at_working_compactability(compactability, holds):
    assert estimates.bond_holds(compactability) is holds


@pytest.mark.parametrize(("clay", "holds"), [(6.9, False), (7, True), (11, True), (11.1, False)])
def test_the_equilibrium_is_published_for_7_to_11_percent(clay, holds):
    assert estimates.clay_holds(clay) is holds
