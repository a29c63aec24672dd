"""The tin as a dosing tool: what counts as a pair and as a step, and when a dose is exact enough. Figures by hand; the rules are own."""

import math

import pytest

from sandmix.bench import tin_dosing
from sandmix.bench.tin_dosing import TinTest, learned
from sandmix.vocabulary import quantity

DAY_S = 86400.0


def tin(day, read, **others):
    return TinTest(at_s=day * DAY_S, compactability_pct=read, half_width=others.pop("half_width", 5.0), **others)


def test_the_constants_are_those_of_the_words():
    assert quantity("moisture_pct_wet").error.absolute == tin_dosing.USEFUL_PCT
    assert math.hypot(tin_dosing.READING_PCT, tin_dosing.DAY_PCT) == quantity("compactability_read_pct").error.absolute
    assert quantity("compactability_usual_pct").error.absolute == tin_dosing.READING_PCT
    assert tin_dosing.WORKING_PCT == (35, 50)


def test_a_tin_test_with_a_moisture_is_a_pair():
    """Errors ± 0.35 and ± 5, as standard deviations."""
    (pair,) = learned([tin(1, 45, moisture_pct=3.5, moisture_half=0.35)]).points
    assert (pair.x, pair.y) == (3.5, 45)
    assert (pair.x_sd, pair.y_sd) == (pytest.approx(0.35 / 1.96), pytest.approx(5 / 1.96))


def test_tin_tests_alone_teach_nothing():
    line = learned([tin(day, 40 + day) for day in range(5)])
    assert not line.points
    assert not line.differences


def test_weighed_water_between_two_tests_of_a_session_is_a_step():
    """± √(0.05² + (10 % of 0.5)²) = 0.0707 points; two readings of ± 3: 4.243."""
    (step,) = learned([tin(1, 35), tin(1.1, 46, follows=True, water_pct=0.5)]).differences
    assert (step.dx, step.dy) == (0.5, 11)
    assert step.dx_sd * 1.96 == pytest.approx(0.07071, abs=1e-5)
    assert step.dy_sd * 1.96 == pytest.approx(4.2426, abs=1e-4)


def test_oven_tests_of_one_session_are_one_pair_and_a_step_where_they_differ_by_more_than_their_error():
    """3.0 and 4.0 ± 0.35 each: mean 3.5 ± 0.247; a step of 1 ± 0.495. Readings ± 3 each: their mean ± 2.121, with the day ± 4: 4.528."""
    line = learned(
        [
            tin(1, 35, moisture_pct=3.0, moisture_half=0.35),
            tin(1.1, 55, moisture_pct=4.0, moisture_half=0.35, follows=True, water_pct=None),
        ]
    )
    (pair,), (step,) = line.points, line.differences
    assert (pair.x, pair.y) == (3.5, 45)
    assert pair.x_sd * 1.96 == pytest.approx(0.2475, abs=1e-4)
    assert pair.y_sd * 1.96 == pytest.approx(4.5277, abs=1e-4)
    assert (step.dx, step.dy) == (1, 20)
    assert step.dx_sd * 1.96 == pytest.approx(0.495, abs=1e-3)


def test_two_tests_a_minute_apart_that_disagree_are_one_pair_between_them():
    line = learned(
        [
            tin(1, 35, moisture_pct=3.0, moisture_half=0.35),
            tin(1.0007, 55, moisture_pct=3.1, moisture_half=0.35, follows=True, water_pct=0.0),
        ]
    )
    assert [(pair.x, pair.y) for pair in line.points] == [(pytest.approx(3.05), 45)]
    assert line.differences == []


def test_of_three_tests_the_third_is_compared_with_the_mean_of_the_first_two():
    """Water 0.4 and 0.4 points: the third is 0.8 − 0.2 above that mean; readings 36, 44, 54: 54 − 40."""
    steps = learned(
        [tin(1, 36), tin(1.1, 44, follows=True, water_pct=0.4), tin(1.2, 54, follows=True, water_pct=0.4)]
    ).differences
    assert [(step.dx, step.dy) for step in steps] == [(0.4, 8), (pytest.approx(0.6), 14)]
    assert steps[1].dy_sd * 1.96 == pytest.approx(3 * math.sqrt(1.5))


def oven(day, read, moisture, **others):
    return tin(day, read, moisture_pct=moisture, moisture_half=0.35, **others)


def test_of_three_oven_tests_the_third_is_compared_with_the_mean_of_the_first_two():
    """3.0, 3.2 and 4.0 ± 0.35 each: 0.2 ± 0.495 is no step; 4.0 − 3.1 = 0.9 ± √(0.35² + 0.35²/2) = 0.4287. Their mean 3.4 is ± 0.35/√3."""
    line = learned([oven(1, 36, 3.0), oven(1.1, 40, 3.2, follows=True), oven(1.2, 54, 4.0, follows=True)])
    (pair,), (step,) = line.points, line.differences
    assert (pair.x, pair.y) == (pytest.approx(3.4), pytest.approx(130 / 3))
    assert pair.x_sd * 1.96 == pytest.approx(0.35 / math.sqrt(3))
    assert pair.y_sd * 1.96 == pytest.approx(math.hypot(3 / math.sqrt(3), 4))
    assert (step.dx, step.dy) == (pytest.approx(0.9), 16)
    assert step.dx_sd * 1.96 == pytest.approx(0.35 * math.sqrt(1.5))
    assert step.dy_sd * 1.96 == pytest.approx(3 * math.sqrt(1.5))


@pytest.mark.parametrize(
    ("moisture_half", "moved", "half"), [(0.35, 1.2, math.hypot(0.05, 0.12)), (0.01, 1.0, 0.01 * math.sqrt(2))]
)
def test_a_step_that_is_known_twice_has_the_smaller_error(moisture_half, moved, half):
    """1.2 points of weighed water, ± 0.05 and 10 % of it, or oven tests of 3.0 and 4.0."""
    first, second = (
        tin(1 + 0.1 * at, 35 + 20 * at, moisture_pct=3.0 + at, moisture_half=moisture_half, **others)
        for at, others in enumerate(({}, {"follows": True, "water_pct": 1.2}))
    )
    (step,) = learned([first, second]).differences
    assert step.dx == pytest.approx(moved)
    assert step.dx_sd * 1.96 == pytest.approx(half)


def test_an_exact_reading_of_the_tin_still_has_the_least_error():
    """Readings that are given as ± 0 count as ± the least, and as ± 3 where more is given."""
    for given, counts in ((0.0, tin_dosing.LEAST_HALF), (2.0, 2.0), (5.0, 3.0)):
        first, second = tin(1, 35, half_width=given), tin(1.1, 46, half_width=given, follows=True, water_pct=0.5)
        (step,) = learned([first, second]).differences
        assert step.dy_sd * 1.96 == pytest.approx(counts * math.sqrt(2))


@pytest.mark.parametrize(
    "second",
    [
        {"follows": False, "water_pct": 0.5},
        {"follows": True, "water_pct": None},
        {"follows": True, "water_pct": 0.03},
    ],
)
def test_other_sand_unknown_water_and_too_little_of_it_are_no_step(second):
    assert learned([tin(1, 35), tin(1.1, 46, **second)]).differences == []


def test_the_next_day_is_another_session():
    assert learned([tin(1, 35), tin(1.6, 46, follows=True, water_pct=0.5)]).differences == []


def test_tests_out_of_order_are_put_in_order():
    tests = [tin(1, 35), tin(1.1, 46, follows=True, water_pct=0.5)]
    assert learned(reversed(tests)).differences == learned(tests).differences


def test_the_last_twenty_pairs_count():
    line = learned([tin(day, 45, moisture_pct=3.5, moisture_half=0.35) for day in range(30)])
    assert len(line.points) == 20


def test_a_dose_is_given_where_its_range_is_as_narrow_as_that_of_an_oven_test():
    assert tin_dosing.decides(0.05, 0.74)
    assert not tin_dosing.decides(0.05, 0.76)
    assert not tin_dosing.decides(0.0, 0.2)
    assert tin_dosing.decides(-0.5, -0.1)


def test_half_the_range_of_a_usual_dose():
    """Prior: 10/21.213 × √(sinh²(0.752) + 0.3²), sinh(0.752) = (√4.5 − 1/√4.5)/2 = 0.82496."""
    line = learned([])
    assert tin_dosing.dose_half_pct(line) == pytest.approx(10 / 21.2132 * math.hypot(0.82496, 0.3), rel=1e-4)


def test_how_many_more_tests_make_it_useful():
    """By the information of each, by hand: prior 1/0.3838² = 6.79; a pair at 21.2 adds 5.19, but the first only sets the height; a step 73."""
    line = learned([])
    assert tin_dosing.pair_information(21.213) == pytest.approx(5.19, abs=0.01)
    assert tin_dosing.step_information(21.213) == pytest.approx(73.2, abs=0.1)
    needed = math.asinh(math.sqrt((0.35 * 21.2132 / 10) ** 2 - 0.3**2)) / 1.96
    assert tin_dosing.pairs_to_go(line) == 1 + math.ceil((needed**-2 - 6.79) / 5.19) == 2
    assert tin_dosing.pairs_to_go(line, tin_dosing.step_information(line.slope)) == 1


def test_a_sand_that_hardly_moves_in_the_tin_never_gets_there():
    """At 8 points per 1 % a reading of ± 3 is ± 0.375 points of moisture."""
    line = learned([], [tin_dosing.of_slope(8.0, 0.1)])
    assert tin_dosing.pairs_to_go(line) is None


def test_a_known_slope_needs_no_more_tests():
    assert tin_dosing.pairs_to_go(learned([], [tin_dosing.of_slope(25.0, 1.0)])) == 0


@pytest.mark.parametrize("way", [1, -1])
def test_the_slope_of_one_step_alone(way):
    """10 for 0.5 points, or back: 20 a point. Its variance is 3² + (20 · 0.2)² = 5², so 1.96 · 5/0.5 = 19.6."""
    slope, half = tin_dosing.slope_of(tin_dosing.Difference(dx=way * 0.5, dy=way * 10.0, dx_sd=0.2, dy_sd=3.0))
    assert (slope, half) == pytest.approx((20, 19.6))


def test_two_tests_without_water_between_them_are_no_step():
    line = learned([tin(1, 35), tin(1.1, 46, follows=True, water_pct=0.0)])
    assert not line.differences
