"""What the days do to the water of a heap in a book, and what the book's own tests teach. Expected figures are by hand from the rules."""

import math

import pytest

from sandmix.book import book
from sandmix.book.heap import fold
from sandmix.drying.heap_water import exposure
from sandmix.language.errors import InputError
from sandmix.language.timestamps import seconds_of

MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 40, "clay_pct_dry": 7, "moisture_pct_wet": "3.5 %"}
AIR_OF_A_DAY = {"air_temp_c": "20 °C", "humidity_pct": "60 %", "heap_area_m2": "0.3 m²"}


def written(*events):
    opened = book.read([])
    for event in events:
        opened = book.with_event(opened, event)
    return opened


def heap_at(opened, day):
    return fold(opened.events).at(seconds_of(day)).settled()


def a_week(number, pct, **words):
    """A test one week after the other from 1 March 2027 on."""
    day = 1 + 7 * number
    month, day = (3, day) if day <= 31 else (4, day - 31)
    return {"kind": "measured", "at": f"2027-{month:02}-{day:02}", "moisture_pct_wet": pct, **words}


def falling(weeks):
    """Tests that read 0.3 points less each week."""
    return [a_week(week, f"{3.5 - 0.3 * week:g} %") for week in range(1, weeks + 1)]


def test_a_book_learns_from_its_own_tests():
    """Under the lid 0.3 points a week, by five tests with ± 0.1: a sixth week brings about as much, and the heap is lighter by it."""
    tests = [a_week(week, f"{3.5 - 0.3 * week:g} ± 0.1 %") for week in range(1, 6)]
    opened = written(MIXED, *tests)
    before, after = heap_at(opened, "2027-04-05"), heap_at(opened, "2027-04-12")
    lost = before.sand.moisture_pct_wet - after.sand.moisture_pct_wet
    assert lost == pytest.approx(0.3, abs=0.08)
    assert after.sand.dry_kg == pytest.approx(before.sand.dry_kg)
    assert after.sand.wet_kg < before.sand.wet_kg


def test_a_test_then_counts_what_had_probably_dried():
    """The loss that is expected is recorded with the test, so that the book is the same whether it was expected or not."""
    opened = written(MIXED, *falling(4))
    event = book.record(opened, a_week(5, "2.0 ± 0.0001 %"))
    assert "probably dried off" in event["outcome"]["said"][0]
    after = heap_at(book.with_event(opened, a_week(5, "2.0 ± 0.0001 %")), "2027-04-05")
    assert after.sand.moisture_pct_wet == pytest.approx(2.0, abs=1e-3)


def test_a_test_of_the_clay_alone_moves_no_water():
    opened = written(MIXED, *falling(4))
    event = book.record(opened, {"kind": "measured", "at": "2027-04-05", "clay_pct_dry": "7 %"})
    assert "water_kg" not in event["outcome"]["change"]


def test_an_undone_test_teaches_nothing_and_a_corrected_one_its_new_figure():
    opened = written(MIXED, *falling(4))
    undone = book.with_event(opened, {"kind": "undone", "at": "2027-04-02", "of": "e3"})
    assert len(fold(undone.events).moves) == 3
    corrected = book.with_event(
        opened, {"kind": "corrected", "at": "2027-04-02", "of": "e5", "moisture_pct_wet": "1.3 %"}
    )
    before, after = fold(opened.events).moves[-1], fold(corrected.events).moves[-1]
    assert after.lost_pct - before.lost_pct == pytest.approx(2.3 - 1.3)


def test_tests_a_minute_apart_and_tests_out_of_order_teach_nothing():
    again = a_week(1, "4.4 %") | {"at": "2027-03-08T12:01Z"}
    early = a_week(1, "3.4 %") | {"at": "2027-03-02"}
    assert len(fold(written(MIXED, a_week(1, "3.2 %"), again, early).events).moves) == 1


def test_water_that_was_added_on_purpose_is_no_drift():
    watered = {"kind": "tempered", "at": "2027-03-08", "moisture_pct_wet": "4 %"}
    assert fold(written(MIXED, watered).events).moves == ()


@pytest.mark.parametrize("humidity", [0, 100])
def test_air_at_the_ends_of_its_range_has_a_loss_that_is_no_more_than_the_water(humidity):
    opened = written(MIXED, {"kind": "opened", "at": "2027-03-02", **AIR_OF_A_DAY, "humidity_pct": humidity})
    sand = heap_at(opened, "2027-06-01").sand
    assert 0 <= sand.moisture_pct_wet <= 3.5
    assert (sand.moisture_pct_wet == pytest.approx(3.5)) == (humidity == 100)


def test_a_heap_that_stood_open_for_some_hours_is_under_its_lid_again():
    state = fold(written(MIXED, {"kind": "opened", "at": "2027-03-03", "open_h": "24 h"}).events)
    days = exposure(state.water_known_s, state.covers, seconds_of("2027-03-06"))
    assert days.days == pytest.approx((4.0, 1.0, 0.0))


def test_a_heap_that_stands_open_does_so_until_it_is_put_away():
    put_away = {"kind": "put_away", "at": "2027-03-06", "cover": "lid"}
    state = fold(written(MIXED, {"kind": "opened", "at": "2027-03-03"}, put_away).events)
    days = exposure(state.water_known_s, state.covers, seconds_of("2027-03-08"))
    assert days.days == pytest.approx((4.0, 3.0, 0.0))


def test_the_air_is_given_whole_or_not_at_all():
    with pytest.raises(InputError) as refused:
        written(MIXED, {"kind": "opened", "at": "2027-03-03", "wind_m_s": 1})
    assert {problem.word for problem in refused.value.problems} == {"air_temp_c", "humidity_pct", "heap_area_m2"}


def test_rain_of_unknown_amount_is_a_wide_range():
    """3.5 % and 0 to 2 points: 4.5 ± 1, on top of the ± of the book."""
    first = heap_at(written(MIXED), "2027-03-01").bands()["moisture_pct_wet"]
    opened = written(MIXED, {"kind": "rained_on", "at": "2027-03-01"})
    sand = heap_at(opened, "2027-03-01")
    low, high = sand.bands()["moisture_pct_wet"]
    assert sand.sand.moisture_pct_wet == pytest.approx(4.5)
    assert (high - low) / 2 == pytest.approx(math.hypot((first[1] - first[0]) / 2, 1.0), rel=0.02)


def test_rain_on_a_heap_under_a_lid_asks_how():
    opened = written(MIXED, {"kind": "put_away", "at": "2027-03-02"}, {"kind": "rained_on", "at": "2027-03-03"})
    assert "under a lid" in opened.events[-1]["outcome"]["said"][-1]


def test_rain_on_no_heap_changes_nothing():
    assert fold(written({"kind": "rained_on", "at": "2027-03-03"}).events).sand.wet_kg == 0


def test_a_correction_after_a_day_loss_was_set_back_counts_without_it():
    """A test that is corrected to what it said leaves the heap as it was."""
    forgotten = {"kind": "forgotten", "at": "2027-04-06", "learned_figure": "lid_loss_pct_day"}
    opened = written(MIXED, *falling(5), forgotten, a_week(6, "1.6 %"))
    last = opened.events[-1]["id"]
    again = book.with_event(opened, {"kind": "corrected", "at": "2027-04-13", "of": last, "moisture_pct_wet": "1.6 %"})
    assert fold(again.events).sand.moisture_pct_wet == pytest.approx(fold(opened.events).sand.moisture_pct_wet)
