"""The fineness number from any sieves, by hand arithmetic from the multipliers and openings."""

import math

import pytest

from sandmix.materials import fineness, partial_sieves

FEW = {"40": 20.0, "70": 50.0, "140": 25.0, "pan": 5.0}
SCREEN = {"1.3 mm": 4.0, "pan": 96.0}


def test_a_full_stack_leaves_no_band():
    retained = dict.fromkeys(fineness.SIEVES, 1.0)
    number = fineness.gfn(retained)
    assert partial_sieves.band(retained) == pytest.approx((number, number))
    assert partial_sieves.next_sieve(retained) is None


def test_the_band_goes_from_all_just_below_the_sieve_above_to_all_just_on_the_sieve():
    """Low: 20×30, 50 on No. 50 ×40, 25 on No. 100 ×70, 5 on No. 200 ×140: 5050; high: 20×30 + 50×50 + 25×100 + 5×300 = 7100."""
    assert partial_sieves.band(FEW) == pytest.approx((50.5, 71.0))
    assert partial_sieves.number(FEW) == pytest.approx(71.0)


def test_sieves_that_were_empty_leave_no_band():
    assert partial_sieves.band(FEW, partial_sieves.EMPTY) == pytest.approx((71.0, 71.0))


def test_without_coarser_sieves_the_coarsest_may_hold_pebbles():
    """The 20 on No. 40 may count 3 each: 0.6 instead of 6."""
    assert partial_sieves.band(FEW, partial_sieves.ABSENT) == pytest.approx((45.1, 71.0))


def test_the_best_guess_is_a_straight_line_on_log_size():
    """Of 50 above 0.212 and below 0.425, ln(0.425/0.3)/ln(0.425/0.212) = 0.5008 on No. 50; of the pan, from 0.106 down to a quarter of
    it, ln(0.106/0.075)/ln 4 = 0.2495 on No. 200 and a half in the pan. 600 + 1001.6 + 1248.0 + 873.5 + 1252.1 + 174.7 + 250.5 + 750 = 6150.4."""
    guessed = partial_sieves.on_series(FEW)
    assert guessed["50"] == pytest.approx(50 * math.log(0.425 / 0.3) / math.log(0.425 / 0.212))
    assert guessed["200"] == pytest.approx(5 * math.log(0.106 / 0.075) / math.log(4))
    assert guessed["pan"] == pytest.approx(2.5)
    assert sum(guessed.values()) == pytest.approx(100)
    assert partial_sieves.estimate(FEW) == pytest.approx(61.50, abs=0.005)


def test_the_sieve_that_helps_most():
    """Of the width 20.5, No. 50 removes 50×10 = 5.0, No. 100 25×30 = 7.5, No. 270 half of the pan's 8 and more, 6.5."""
    number, width = partial_sieves.next_sieve(FEW)
    assert number == "100"
    assert width == pytest.approx(13.0)


def test_a_window_screen_alone_shows_almost_nothing():
    """4 from 3 to 10 each, 96 from 10 to 300."""
    assert partial_sieves.band(SCREEN) == pytest.approx((9.72, 288.4))
    low, high = partial_sieves.band(SCREEN)
    assert low < partial_sieves.number(SCREEN) < high
    assert partial_sieves.passing_pct(SCREEN) == pytest.approx({"1.3 mm": 96})


def test_finer_than_the_series_counts_as_pan():
    assert partial_sieves.on_series({"0.038 mm": 2.0, "pan": 1.0}, partial_sieves.EMPTY) == pytest.approx({"pan": 3.0})
    assert partial_sieves.band({"0.038 mm": 2.0}, partial_sieves.EMPTY) == pytest.approx((300, 300))


def test_coarser_than_the_series_counts_as_its_coarsest_sieve():
    assert partial_sieves.number({"6 mm": 2.0, "6": 1.0}) == pytest.approx(3)


def test_an_opening_between_two_of_the_series():
    """All grain is between 0.3 mm (empty) and 0.25 mm, so on No. 70 (0.212 to 0.3)."""
    assert partial_sieves.on_series({"50": 0.0, "0.25 mm": 1.0}) == pytest.approx({"70": 1.0})
    assert partial_sieves.number({"50": 0.0, "0.25 mm": 1.0}) == pytest.approx(50)


def test_the_pan_alone_can_be_anything():
    assert partial_sieves.band({"pan": 1.0}, partial_sieves.ABSENT) == pytest.approx((3, 300))


def test_a_grading_on_the_series_is_used_as_it_is():
    assert partial_sieves.series_of(FEW) is FEW
    assert partial_sieves.series_of(SCREEN) == partial_sieves.on_series(SCREEN)
    assert partial_sieves.is_of_the_series(FEW) and not partial_sieves.is_of_the_series(SCREEN)


def test_names_of_openings():
    assert partial_sieves.name_of(0.0745) == "200"
    assert partial_sieves.name_of(0.09) == "0.09 mm"
    assert partial_sieves.opening_mm("0.09 mm") == 0.09
    assert partial_sieves.opening_mm("pan") == 0


@pytest.mark.parametrize(
    ("opening_mm", "name"), [(0.3044, "50"), (0.2956, "50"), (0.3047, "0.3047 mm"), (0.2953, "0.2953 mm")]
)
def test_a_sieve_within_one_and_a_half_percent_of_the_series_is_that_sieve(opening_mm, name):
    """0.3 mm ± 1.5 %: 0.2955 to 0.3045."""
    assert partial_sieves.name_of(opening_mm) == name
