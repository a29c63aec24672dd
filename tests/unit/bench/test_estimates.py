"""Several tests put together, by hand arithmetic."""

import math

import pytest

from sandmix.bench import estimates
from sandmix.bench.estimates import Estimate, union


def way(value, half_width):
    return Estimate(key="way", value=value, half_width=half_width)


def test_the_equilibrium_turned_round_is_the_clay_it_came_from():
    for compactability in (35, 40, 47.5, 47.6, 55):
        moisture = estimates.equilibrium_moisture_pct_wet(9, compactability)
        assert estimates.mulled_clay_pct_dry(moisture, compactability) == pytest.approx(9)


def test_above_47_5_the_other_line_holds():
    """3.213 - 0.02525 · 55 = 1.82425; 2.583 - 0.01185 · 47.5 = 2.020125. Where they meet they differ by a third of a percent."""
    assert estimates.clay_per_moisture(55) == pytest.approx(1.82425)
    assert estimates.clay_per_moisture(47.5) == pytest.approx(2.020125)
    assert estimates.clay_per_moisture(47.5) == pytest.approx(estimates.clay_per_moisture(47.500001), rel=0.004)


def test_one_way_alone_is_taken_as_it_is():
    alone = union([way(7, 0.8)])
    assert (alone.value, alone.half_width, alone.ratio, alone.agrees) == (7, pytest.approx(0.8), 0, True)


def test_two_alike_meet_in_the_middle_and_are_surer_by_the_root_of_two():
    both = union([way(7, 1), way(7, 1)])
    assert (both.value, both.half_width) == (pytest.approx(7), pytest.approx(1 / math.sqrt(2)))
    assert both.ratio == 0


def test_the_surer_weighs_more():
    """Weights 1/0.6² and 1/0.8² are as 16 : 9: (16 · 7 + 9 · 7.4)/25 = 7.144; 0.6 · 0.8/√(0.36 + 0.64) = 0.48."""
    both = union([way(7, 0.6), way(7.4, 0.8)])
    assert both.value == pytest.approx(7.144)
    assert both.half_width == pytest.approx(0.48)


def test_a_disagreement_widens_by_the_birge_ratio():
    """5 and 10 ± 1 each: σ 1/1.96, χ² = 2 · 2.5² · 1.96² = 48.02, ratio √48.02 = 6.930; 0.7071 · 6.930 = 4.9."""
    both = union([way(5, 1), way(10, 1)])
    assert both.ratio == pytest.approx(6.930, abs=0.001)
    assert both.half_width == pytest.approx(4.9, abs=0.001)
    assert not both.agrees


def test_a_difference_that_chance_may_give_is_widened_and_agrees():
    """7 and 8.2 ± 0.7 each: χ² = 2 · 0.6²/0.3571² = 5.645 disagrees, since it is above 3.841; 7 and 7.9: 2 · 0.45²/0.3571² = 3.175 agrees."""
    assert not union([way(7, 0.7), way(8.2, 0.7)]).agrees
    near = union([way(7, 0.7), way(7.9, 0.7)])
    assert near.agrees
    assert near.ratio == pytest.approx(math.sqrt(3.175), abs=0.001)
    assert near.half_width > 0.7 / math.sqrt(2)


def test_a_way_that_claims_no_doubt_does_not_silence_the_others():
    both = union([way(7, 0), way(9, 1)])
    assert 7 < both.value < 7.01
    assert not both.agrees


@pytest.mark.parametrize(("compactability", "holds"), [(29.9, False), (30, True), (60, True), (60.1, False)])
def test_bond_is_told_only_where_sand_is_worked(compactability, holds):
    assert estimates.bond_holds(compactability) is holds


@pytest.mark.parametrize(("clay", "holds"), [(6.9, False), (7, True), (11, True), (11.1, False)])
def test_the_equilibrium_is_published_for_7_to_11_percent(clay, holds):
    assert estimates.clay_holds(clay) is holds
