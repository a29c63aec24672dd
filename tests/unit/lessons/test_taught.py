"""What the entries of a book say of casts, granules and dead fines."""

import pytest

from sandmix.book import book
from sandmix.lessons.taught import Taught

MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 40, "clay_pct_dry": 7.5, "moisture_pct_wet": "3.5 %"}
CAST = {"kind": "poured", "at": "2027-03-02", "metal_kg": 1, "flask_sand_kg": "20 kg", "sand_lost_kg": "0.6 kg"}
GRANULES = {
    "kind": "mixed",
    "at": "2027-03-01",
    "sand_kg": "40 kg",
    "clay_kg": "4 kg",
    "clay": "clay_granules",
    "clay_moisture_pct_wet": 10,
}


def of(*events):
    return Taught.of(book.read(list(events)).events)


def test_a_weighed_cast_is_its_share_of_the_sand_in_the_mould():
    """0.6 of 20 kg, and 0.8 of 20 kg."""
    assert of(MIXED, CAST, {**CAST, "sand_lost_kg": "0.8 kg"}).losses == pytest.approx((0.03, 0.04))


def test_a_loss_that_is_given_counts_like_a_cast_and_setting_back_forgets_what_was_before():
    own = {"kind": "calibrated", "at": "2027-03-03", "loss_a_cast_pct": "5 %"}
    back = {"kind": "forgotten", "at": "2027-03-04", "learned_figure": "loss_a_cast_pct"}
    later = {**CAST, "at": "2027-03-05", "sand_lost_kg": "0.2 kg"}
    assert of(MIXED, CAST, own).losses == pytest.approx((0.03, 0.05))
    assert of(MIXED, CAST, own, back, later).losses == pytest.approx((0.01,))
    undone = {"kind": "undone", "at": "2027-03-06", "of": "e4"}
    assert of(MIXED, CAST, own, back, later, undone).losses == pytest.approx((0.03, 0.05, 0.01))


def test_what_is_set_back_is_only_the_figure_that_was_named():
    back = {"kind": "forgotten", "at": "2027-03-04", "learned_figure": "clay_activity_pct"}
    assert of(MIXED, CAST, back).losses == pytest.approx((0.03,))


def test_a_test_right_after_granules_reads_their_live_share():
    """4 kg at 10 % hold 3.6 kg dry. Of 40 + 3.6 = 43.6 kg dry, 6.2 % live clay are 2.703 kg: 75.09 % of the granules.

    The test is ± 0.5 points of 43.6 kg: 0.218 kg, 6.06 % of 3.6 kg.
    """
    test = {"kind": "measured", "at": "2027-03-02", "clay_pct_dry": "6.2 ± 0.5 %"}
    [found] = of(GRANULES, test).granules
    assert found.mean == pytest.approx(75.09, abs=0.01)
    assert found.half_width == pytest.approx(6.06, abs=0.02)


def test_live_clay_that_was_there_before_is_taken_off_with_its_error():
    """40 kg of sand with 7.5 % live clay of 38.6 kg dry hold 2.895 kg. With 1.8 kg dry of granules: 40.4 kg dry, 10.5 % are 4.242 kg."""
    more = {
        "kind": "added",
        "at": "2027-03-02",
        "clay_kg": "2 kg",
        "clay": "clay_granules",
        "clay_moisture_pct_wet": 10,
    }
    test = {"kind": "measured", "at": "2027-03-03", "clay_pct_dry": "10.5 ± 0.5 %"}
    [found] = of(MIXED, more, test).granules
    assert found.mean == pytest.approx(100 * (4.242 - 2.895) / 1.8, abs=0.1)
    assert found.half_width > 100 * 0.005 * 40.4 / 1.8


def test_granules_whose_live_share_was_given_and_bentonite_teach_nothing():
    test = {"kind": "measured", "at": "2027-03-02", "clay_pct_dry": "6.2 %"}
    assert of({**GRANULES, "clay_activity_pct": 80}, test).granules == []
    assert of({**GRANULES, "clay": "sodium_bentonite"}, test).granules == []
    assert of({**test, "at": "2027-02-28"}, GRANULES).granules == []


def test_sand_thrown_away_takes_its_share_of_the_granules():
    """Half of the heap is gone, so half of the granules are; the live share that the test reads is the same."""
    half = {"kind": "discarded", "at": "2027-03-02", "discard_kg": 22}
    test = {"kind": "measured", "at": "2027-03-03", "clay_pct_dry": "6.2 ± 0.5 %"}
    [found] = of(GRANULES, half, test).granules
    assert found.mean == pytest.approx(75.09, abs=0.1)


def fines(day, pct):
    return {"kind": "measured", "at": f"2027-03-{day:02}", "dead_fines_pct_dry": pct}


def cast(day):
    return {**CAST, "at": f"2027-03-{day:02}"}


def test_two_tests_with_casts_between_them_are_a_slope():
    """From 2.0 to 2.6 % over three casts: 0.2 points a cast, ± √2 · 0.3/3 = 0.1414."""
    slopes, count = of(MIXED, fines(2, "2.0 ± 0.3 %"), *map(cast, (3, 4, 5)), fines(6, "2.6 ± 0.3 %")).growths()
    assert count == 2
    assert slopes[0].mean == pytest.approx(0.2)
    assert slopes[0].half_width == pytest.approx(0.1414, abs=1e-3)


def test_new_sand_between_the_tests_is_taken_out_by_the_share_that_the_book_has_for_it():
    """The book stands between 0 and what was read; half as much clean sand again takes a third of its dead fines off, and a test that shows
    just that shows no growth."""
    first = {**MIXED, "dead_fines_pct_dry": "3.0 %"}
    clean = {"kind": "added", "at": "2027-03-04", "sand_kg": "38.6 kg", "sand_moisture_pct_wet": 0}
    slopes, _ = of(first, fines(2, "3.0 ± 0.1 %"), cast(3), clean, fines(5, "1.5 ± 0.1 %")).growths()
    assert slopes[0].mean == pytest.approx(0, abs=0.06)
    without, _ = of(first, fines(2, "3.0 ± 0.1 %"), cast(3), fines(5, "1.5 ± 0.1 %")).growths()
    assert without[0].mean == pytest.approx(-1.5, abs=0.01)


def test_tests_without_a_cast_between_them_say_nothing():
    assert of(MIXED, fines(2, "2 %"), fines(3, "2.5 %")).growths() == ([], 0)
    assert of().growths() == ([], 0)


def test_a_heap_that_is_begun_again_begins_a_new_line():
    empty = {"kind": "discarded", "at": "2027-03-05", "discard_kg": 39.4}
    again = {**MIXED, "at": "2027-03-06"}
    runs = of(MIXED, fines(2, "2 %"), cast(3), empty, again, fines(7, "0.5 %"), cast(8), fines(9, "0.7 %")).runs
    assert [len(run) for run in runs][-1] == 2


def test_a_growth_that_is_given_is_one_reading():
    own = {"kind": "calibrated", "at": "2027-03-03", "dead_fines_a_cast_pct_dry": "0.3 ± 0.1"}
    slopes, count = of(MIXED, own).growths()
    assert (slopes[0].mean, slopes[0].half_width, count) == (pytest.approx(0.3), pytest.approx(0.1), 1)
    back = {"kind": "forgotten", "at": "2027-03-04", "learned_figure": "dead_fines_a_cast_pct_dry"}
    assert of(MIXED, own, back).growths() == ([], 0)
