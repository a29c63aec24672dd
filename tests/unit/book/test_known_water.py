"""How well the water of a heap is known: √(±₀² + 0.3² d) points after d days under a lid, √(±₀² + d) in the open (own rule, by hand)."""

import math

import pytest

from sandmix.book import book
from sandmix.book.heap import fold
from sandmix.book.known_water import MoistureTest, is_open, reading
from sandmix.drying.heap_water import Cover, exposure
from sandmix.language.timestamps import DAY_S, seconds_of
from sandmix.materials.metals import METALS

MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 40, "clay_pct_dry": 7, "moisture_pct_wet": "3.5 %"}


def read(pct, at_s=0.0, event="e1", half_width=0.35):
    return MoistureTest(read_pct=pct, half_width=half_width, at_s=at_s, event=event)


def a_test(moisture, at="2027-03-31", **words):
    return {"kind": "measured", "at": at, "moisture_pct_wet": moisture, **words}


def written(*events):
    opened = book.read([])
    for event in events:
        opened = book.with_event(opened, event)
    return fold(opened.events)


def half_at(state, day):
    """The half-width of the moisture at noon of a day."""
    low, high = state.at(seconds_of(day)).bands()["moisture_pct_wet"]
    return (high - low) / 2


@pytest.mark.parametrize("days", [0, 1, 7, 30])
@pytest.mark.parametrize(("cover", "rate"), [({}, 0.3), ({"cover": "lid"}, 0.3), ({"cover": "open"}, 1.0)])
def test_the_range_of_the_moisture_grows_with_the_root_of_the_days(days, cover, rate):
    """From a known water on; at 12 % the range stays above 0."""
    wet = {**MIXED, "moisture_pct_wet": "12 ± 0.35 %"}
    state = written(wet, {"kind": "put_away", "at": "2027-03-01", **cover})
    first = half_at(state, "2027-03-01")
    then = seconds_of("2027-03-01") + days * DAY_S
    low, high = state.at(then).bands()["moisture_pct_wet"]
    assert (high - low) / 2 == pytest.approx(math.sqrt(first**2 + rate**2 * days))


def test_the_mass_of_the_heap_is_as_uncertain_as_its_water():
    """After 25 days ± √(±₀² + 1.5²) points: 0.015 of 40 kg over 1 − 0.035 are 0.6218 kg more water or less, with the dry mass as it was."""
    state = written(MIXED)
    halves = [
        (high - low) / 2
        for low, high in (state.at(seconds_of(day)).bands()["heap_kg"] for day in ("2027-03-01", "2027-03-26"))
    ]
    assert halves[1] == pytest.approx(math.hypot(halves[0], 0.015 * 40 / 0.965))


def test_each_day_counts_as_the_heap_was_kept_on_it():
    """4 days under the lid, 10 in the open, 6 under the lid again."""
    covers = [Cover(at_s=14 * DAY_S, open=False), Cover(at_s=4 * DAY_S, open=True)]
    assert exposure(0.0, covers, 20 * DAY_S).days == (10, 10, 0)
    assert exposure(0.0, covers, 6 * DAY_S).days == (4, 2, 0)
    assert exposure(0.0, covers, 2 * DAY_S).days == (2, 0, 0)


def test_days_before_the_water_was_known_do_not_count():
    assert exposure(10 * DAY_S, [Cover(at_s=0.0, open=True)], 12 * DAY_S).days == (0, 2, 0)
    assert exposure(10 * DAY_S, [], 5 * DAY_S).total_days == 0
    assert exposure(None, [], 5 * DAY_S).total_days == 0


def test_an_old_balance_gives_way_to_a_test():
    """30 days: f² = ±₀² + 2.7 of the book, e² = 0.35² of the test; gain f² / (f² + e²). The ± is kept in kg, as it was at 40 kg."""
    first = half_at(written(MIXED), "2027-03-01")
    gain = (first**2 + 2.7) / (first**2 + 2.7 + 0.35**2)
    for read in (1.5, 8.0):
        now = written(MIXED, a_test(f"{read} %"))
        assert now.sand.moisture_pct_wet == pytest.approx(3.5 + gain * (read - 3.5))
    dried_out = written(MIXED, a_test("1.5 %"))
    kept = 0.35 * math.sqrt(gain) * (40 / dried_out.sand.wet_kg) ** 2
    assert half_at(dried_out, "2027-03-31") == pytest.approx(kept, rel=0.01)


def test_a_test_on_the_same_day_counts_as_much_as_the_balance():
    first = half_at(written(MIXED), "2027-03-01")
    gain = first**2 / (first**2 + 0.35**2)
    now = written(MIXED, a_test("3.1 %", at="2027-03-01"))
    assert now.sand.moisture_pct_wet == pytest.approx(3.5 - 0.4 * gain)


def test_after_a_test_the_days_count_from_the_test():
    state = written({**MIXED, "moisture_pct_wet": "12 ± 0.35 %"}, a_test("11.5 ± 0.35 %"))
    first = half_at(state, "2027-03-31")
    assert half_at(state, "2027-04-09") == pytest.approx(math.sqrt(first**2 + 0.09 * 9))


def test_an_undone_test_leaves_the_water_as_uncertain_as_before_it():
    without, undone = written(MIXED), written(MIXED, a_test("2 %"), {"kind": "undone", "of": "e2", "at": "2027-04-01"})
    assert half_at(undone, "2027-04-02") == pytest.approx(half_at(without, "2027-04-02"))
    assert (undone.water_known_s, undone.moisture_test) == (without.water_known_s, None)


def test_a_corrected_test_counts_as_corrected():
    right = written(MIXED, a_test("2 %"))
    corrected = written(
        MIXED, a_test("8 %"), {"kind": "corrected", "of": "e2", "at": "2027-04-03", "moisture_pct_wet": "2 %"}
    )
    assert corrected.sand.moisture_pct_wet == pytest.approx(right.sand.moisture_pct_wet)
    assert (corrected.water_known_s, corrected.moisture_test) == (right.water_known_s, right.moisture_test)
    assert half_at(corrected, "2027-04-05") == pytest.approx(half_at(right, "2027-04-05"))


def test_a_test_that_is_corrected_to_none_is_no_test():
    right = {"kind": "corrected", "of": "e2", "at": "2027-04-03"}
    only_weighed = written(MIXED, a_test("8 %", heap_kg=40), {**right, "moisture_pct_wet": None})
    assert only_weighed.moisture_test is None
    weighed = {"kind": "measured", "at": "2027-03-31", "heap_kg": 40}
    assert written(MIXED, weighed, {**right, "moisture_pct_wet": "2 %"}).moisture_test == read(
        2, seconds_of("2027-03-31"), "e2"
    )


def test_a_correction_uses_the_days_up_to_the_corrected_entry():
    """An earlier entry is corrected to what it is; the test 30 days later stays what it was."""
    cover = {"kind": "put_away", "at": "2027-03-01", "cover": "lid"}
    events = [MIXED, cover, a_test("2 %")]
    same = written(*events, {"kind": "corrected", "of": "e3", "at": "2027-06-01", "moisture_pct_wet": "2 %"})
    assert same.total.water_kg == pytest.approx(written(*events).total.water_kg)
    assert same.total.variances == pytest.approx(written(*events).total.variances)


def test_what_an_old_heap_lost_by_weight_is_mostly_water():
    """After 30 days the water is ± √(±₀² + 0.6725²) kg: 0.3² · 30 points² of 40/0.965 kg. The loss goes to it by that share of all."""
    fresh, old = (
        written(MIXED, {"kind": "measured", "at": at, "heap_kg": "39 ± 0 kg"}) for at in ("2027-03-01", "2027-03-31")
    )
    assert fresh.sand.wet_kg == pytest.approx(39)
    assert fresh.sand.moisture_pct_wet == pytest.approx(3.5)
    first = sum(written(MIXED).total.variance(part) for part in ("dry_kg", "water_kg"))
    aged = (math.sqrt(0.09 * 30) / 100 * 40 / 0.965 / 1.96) ** 2
    by_days = aged / (first + aged)
    assert by_days > 0.8
    assert old.sand.wet_kg == pytest.approx(39)
    assert old.sand.water_kg == pytest.approx(1.4 * (1 - (1 - by_days) / 40) - by_days)


def test_an_exact_weighing_leaves_the_mass_of_an_old_heap_no_less_certain_than_that_of_a_new_one():
    """Of variances p and q, 2 p q / (p + q) stays, less than twice the smaller one."""
    fresh, old = (
        written(MIXED, {"kind": "measured", "at": at, "heap_kg": "39 ± 0 kg"}) for at in ("2027-03-01", "2027-03-31")
    )
    dry = written(MIXED).total.variance("dry_kg")
    for state in (fresh, old):
        assert sum(state.total.variance(part) for part in ("dry_kg", "water_kg")) < 2 * dry
    assert old.water_known_s == seconds_of("2027-03-31")
    assert old.moisture_test is None


def test_no_more_water_is_lost_by_a_weighing_than_there_is():
    dry = {**MIXED, "moisture_pct_wet": "0.5 %"}
    state = written(dry, {"kind": "measured", "at": "2027-06-30", "heap_kg": "36 ± 0 kg"})
    assert state.sand.water_kg == pytest.approx(0, abs=1e-9)
    assert state.sand.wet_kg == pytest.approx(36)


def test_water_that_is_added_by_weight_does_not_make_the_water_known():
    state = written(MIXED, {"kind": "tempered", "at": "2027-03-20", "water_kg": "0.2 kg"})
    assert state.water_known_s == written(MIXED).water_known_s


@pytest.mark.parametrize("kind", ["tempered", "dried", "rained_on", "put_away"])
def test_the_moisture_afterwards_is_a_test(kind):
    pct = 2 if kind in ("dried", "put_away") else 5
    state = written(MIXED, {"kind": kind, "at": "2027-03-20", "moisture_pct_wet": f"{pct} %"})
    assert state.moisture_test == read(pct, seconds_of("2027-03-20"), "e2")
    assert state.water_known_s == seconds_of("2027-03-20")


def test_new_sand_in_a_heap_leaves_the_old_water_unknown_and_in_an_empty_one_starts_it():
    more = {**MIXED, "at": "2027-03-20", "make_kg": 5}
    assert written(MIXED, more).water_known_s == seconds_of("2027-03-01")
    gone = {"kind": "discarded", "at": "2027-03-10", "discard_kg": 45}
    anew = written(MIXED, a_test("8 %", at="2027-03-05"), gone, more)
    assert (anew.water_known_s, anew.moisture_test) == (seconds_of("2027-03-20"), None)


def test_the_tests_of_an_older_book_count_from_their_day():
    """Its outcomes do not say that they count the days; a moisture that was read does."""
    opened = book.read([])
    for event in (MIXED, a_test("2 %", at="2027-03-10"), {"kind": "measured", "at": "2027-03-20", "heap_kg": 39}):
        opened = book.with_event(opened, event)
    older = [
        {**event, "outcome": {k: v for k, v in event["outcome"].items() if k != "aged"}} for event in opened.events
    ]
    assert fold(older).water_known_s == seconds_of("2027-03-10")
    assert fold(opened.events).water_known_s == seconds_of("2027-03-20")


def test_the_latest_test_counts_and_of_two_at_one_time_the_later_written_one():
    wet = {**MIXED, "moisture_pct_wet": 12}

    def last_of(*tests, undone=()):
        back = [{"kind": "undone", "of": f"e{at}", "at": "2027-04-01"} for at in undone]
        return written(wet, *(a_test(f"{pct} %", at=f"2027-03-{day}") for pct, day in tests), *back).moisture_test

    assert last_of((11, 20), (13, 10)).read_pct == 11
    assert last_of((11, 20), (13, 20)).read_pct == 13
    assert last_of((11, 20), (13, 20), (10, 10), undone=[3]).read_pct == 11
    assert last_of((11, 20), (13, 20), (10, 10), undone=[2, 3]).read_pct == 10
    assert last_of((11, 20), undone=[2]) is None
    assert written(MIXED, a_test("3 %", at="2027-03-20"), a_test("8 %", at="2027-03-10")).water_known_s == seconds_of(
        "2027-03-20"
    )


def test_a_dried_sample_counts_before_a_figure_and_has_the_error_of_its_weighings():
    """100 g to 97 g on a 1 g scale: 3 ± √(0.8002² + 0.3²) = 0.8546 points."""
    words = {"sample_wet_g": "100 g", "sample_dry_g": 97, "moisture_pct_wet": "9 %"}
    assert reading(words) == (pytest.approx(3), pytest.approx(0.8546, abs=1e-4))
    finer = reading(words | {"scale_step_g": "0.1 g"})
    assert finer == (pytest.approx(3), pytest.approx(math.hypot(0.08002, 0.3), abs=1e-4))
    assert reading({"sample_wet_g": 100, "moisture_pct_wet": "3 ± 0.2 %"}) == (3, 0.2)
    assert reading({"moisture_pct_wet": "wet"}) is None


def test_a_heap_is_open_only_if_the_book_says_so():
    assert is_open({"cover": "open"})
    assert not any(is_open(words) for words in ({}, {"cover": "lid"}, {"cover": "a tarp"}, {"cover": 5}))


def test_a_test_above_the_limit_of_the_metal_says_stop():
    """6 % for aluminium, 5.25 % for bronze."""
    cases = {("aluminium", 6.1): True, ("aluminium", 6.0): False, ("tin_bronze", 5.3): True, ("tin_bronze", 5.2): False}
    for (metal, pct), stops in cases.items():
        assert read(pct).says_stop(METALS[metal]) is stops
    assert read(3.0, half_width=0.5).band == (2.5, 3.5)
