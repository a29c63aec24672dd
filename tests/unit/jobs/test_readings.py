"""The job *readings*: series of a book, their limits by hand arithmetic, and readings that cannot be right."""

import json

import pytest

from sandmix.doors.facade import call
from sandmix.jobs import JOBS

MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.5}
USUAL = [44, 46, 45, 43, 44, 46, 45, 47]
"""Mean 45; differences 2, 1, 2, 1, 2, 1, 2: mean 11/7; limits 45 ± 2.6587 × 11/7 = 40.82 and 49.18."""


def entries(values, word="compactability_read_pct", first=1):
    return [{"kind": "measured", "at": f"2027-04-{first + at:02d}", word: value} for at, value in enumerate(values)]


def remarks_of(answer):
    return " ".join(answer["remarks"])


def readings(ask, *events):
    return ask("readings", book=[MIXED, *events])


def test_the_limits_by_hand(ask):
    result = readings(ask, *entries(USUAL))["result"]
    assert result["readings_count"] == {"compactability": 8}
    assert result["readings_mean"]["compactability"] == pytest.approx(45)
    assert result["readings_low"]["compactability"] == pytest.approx(40.822, abs=1e-3)
    assert result["readings_high"]["compactability"] == pytest.approx(49.178, abs=1e-3)
    assert result["readings_outside"] == []
    assert result["readings_drifting"] == []


def test_the_last_reading_is_judged_by_those_before_it(ask):
    """With the 36 among them the mean would be 44 and the spread wider; the limits stay those of the eight before."""
    answer = readings(ask, *entries([*USUAL, 36]))
    assert answer["result"]["readings_outside"] == ["compactability"]
    assert answer["result"]["readings_low"]["compactability"] == pytest.approx(40.822, abs=1e-3)
    assert answer["state"] == {"word": "look at it", "tone": "care"}
    assert "The last, 36 %, is outside." in remarks_of(answer)
    assert answer["todo"][0] == {"text": "Repeat the test before you act on it: compactability", "amount": "36 %"}
    assert answer["next"][0]["inputs"] == {"test": "compactability"}


def test_a_jump_inside_the_limits_is_seen(ask):
    """Limit of a difference 3.2665 × 11/7 = 5.13: from 47 to 41.5 is 5.5, and 41.5 is above 40.82."""
    answer = readings(ask, *entries([*USUAL, 41.5]))
    assert "further from the one before it than is usual" in remarks_of(answer)
    assert answer["result"]["readings_outside"] == ["compactability"]


def test_as_usual(ask):
    answer = readings(ask, *entries([*USUAL, 45]))
    assert answer["state"] == {"word": "as usual", "tone": "go"}
    assert answer["todo"] == []
    assert answer["next"][0]["job"] == "heap"


def test_a_slow_drift_is_found_though_nothing_is_outside(ask):
    """Tin weights that rise by half a gram a reading, with ± 2 about them."""
    values = [360 + 0.5 * at + (2 if at % 2 else -2) for at in range(20)]
    answer = readings(ask, *entries(values, "tin_g"))
    assert answer["result"]["readings_drifting"] == ["tin"]
    assert answer["result"]["readings_outside"] == []
    assert "drifts up, by about 0.5" in remarks_of(answer)
    assert answer["state"] == {"word": "drifting", "tone": "care"}


def test_one_single_reading_says_how_many_it_takes(ask):
    answer = readings(ask, *entries([45]))
    assert answer["state"] == {"word": "too few", "tone": "plain"}
    assert "it takes 8" in answer["headline"]
    assert "Limits need 8: 7 more." in remarks_of(answer)
    assert answer["charts"] == []
    assert "readings_low" not in answer["result"]


def test_a_book_without_readings_says_what_to_enter(ask):
    answer = ask("readings", book=[])
    assert answer["headline"] == "The book has no readings to chart yet."
    assert answer["todo"]
    assert answer["next"]


def test_two_readings_a_minute_apart_that_disagree_are_one_point_and_said(ask):
    """45 and 58, each ± 5: 13 is more than √50 = 7.1. Their mean 51.5 is one point."""
    minute = [
        {"kind": "measured", "at": "2027-05-01T10:00Z", "compactability_read_pct": 45},
        {"kind": "measured", "at": "2027-05-01T10:01Z", "compactability_read_pct": 58},
    ]
    answer = readings(ask, *entries(USUAL), *minute)
    assert answer["result"]["readings_count"] == {"compactability": 9}
    assert any("differ by more than their errors: compactability, 45 % and 58 %" in way for way in answer["ways_out"])
    assert answer["charts"][0]["series"][0]["points"][-1] == [9, 51.5]


def test_two_readings_a_minute_apart_that_agree_are_one_point_without_a_word(ask):
    minute = [
        {"kind": "measured", "at": "2027-05-01T10:00Z", "compactability_read_pct": 45},
        {"kind": "measured", "at": "2027-05-01T10:01Z", "compactability_read_pct": 46},
    ]
    answer = readings(ask, *entries(USUAL), *minute)
    assert answer["result"]["readings_count"] == {"compactability": 9}
    assert answer["ways_out"] == []


def test_moisture_is_charted_as_the_test_less_the_book(ask):
    """The book has 3.5 % before the first test: 3.9 % is 0.4 points more. The next is compared with what the book made of the two."""
    first = {"kind": "measured", "at": "2027-03-01T13:00Z", "moisture_pct_wet": 3.9}
    heap = ask("heap", book=[MIXED, first], now="2027-03-02T12:00Z")["result"]["moisture_pct_wet"]
    second = {"kind": "measured", "at": "2027-03-02T12:00Z", "moisture_pct_wet": 3.0}
    answer = readings(ask, first, second)
    points = answer["charts"][0]["series"][0]["points"]
    before = ask("heap", book=[MIXED], now="2027-03-01T13:00Z")["result"]["moisture_pct_wet"]
    assert points[0][1] == pytest.approx(3.9 - before, abs=2e-3)
    assert points[1][1] == pytest.approx(3.0 - heap, abs=2e-3)
    assert answer["charts"][0]["y"] == {"label": "Test less the book", "unit": "points", "scale": "linear"}


def test_two_moisture_tests_a_minute_apart_are_compared_as_read(ask):
    """The second is not compared with a book that the first has moved: both less 3.5."""
    both = [
        {"kind": "measured", "at": "2027-03-01T13:00Z", "moisture_pct_wet": 3.0},
        {"kind": "measured", "at": "2027-03-01T13:01Z", "moisture_pct_wet": 4.4},
    ]
    answer = readings(ask, *both)
    assert answer["result"]["readings_count"] == {"moisture": 1}
    assert any("moisture test less the book, 3 % and 4.4 %" in way for way in answer["ways_out"])


def test_readings_out_of_order_are_charted_by_their_times(ask):
    late = {"kind": "measured", "at": "2027-04-01T00:00Z", "compactability_read_pct": 40, "moisture_pct_wet": 3.0}
    answer = readings(ask, *entries(USUAL, first=2), late)
    assert answer["charts"][0]["series"][0]["points"][0] == [1, 40]
    assert "not in the order of their times" in remarks_of(answer)
    assert answer["result"]["readings_count"] == {"compactability": 9}, "the moisture of that test is left out"


def test_scrap_by_cause(ask):
    """3 of 4 and 0 of 5: 75 % and 0 %."""
    casts = [
        {"kind": "poured", "at": "2027-04-01", "metal_kg": 1, "castings_made": 4, "castings_scrapped": 3, "scrap_cause": "too_wet"},
        {"kind": "poured", "at": "2027-04-02", "metal_kg": 1, "castings_made": 5, "castings_scrapped": 0},
        {"kind": "poured", "at": "2027-04-03", "metal_kg": 1, "castings_made": 2, "castings_scrapped": 1},
        {"kind": "poured", "at": "2027-04-04", "metal_kg": 1},
    ]  # fmt: skip
    answer = readings(ask, *casts)
    assert answer["charts"][0]["series"][0]["points"] == [[1, 75], [2, 0], [3, 50]]
    assert answer["result"]["scrap_causes"] == {"too_wet": 3, "unknown": 1}
    assert "in all 4, by main cause: too wet 3, no cause given 1." in remarks_of(answer)


def test_scrap_far_outside_leads_to_the_causes(ask):
    casts = [
        {"kind": "poured", "at": f"2027-04-{day:02d}", "metal_kg": 0.5, "castings_made": 20, "castings_scrapped": bad}
        for day, bad in enumerate([1, 2, 1, 2, 1, 2, 1, 2, 15], start=1)
    ]
    answer = readings(ask, *casts)
    assert answer["result"]["readings_outside"] == ["scrap"]
    assert "diagnose" in [link["job"] for link in answer["next"]]
    assert answer["result"]["readings_low"]["scrap"] == 0, "less than nothing cannot be scrapped"


@pytest.mark.parametrize(
    ("given", "word", "said"),
    [
        ({"castings_made": 2, "castings_scrapped": 3}, "castings_scrapped", "more than the 2 that were poured"),
        ({"castings_scrapped": 1}, "castings_made", "Enter how many were poured"),
        ({"castings_made": 2.5, "castings_scrapped": 1}, "castings_made", "isn't a whole number"),
        ({"castings_made": 2, "scrap_cause": "too_wet"}, "scrap_cause", "no casting was scrapped"),
    ],
)
def test_scrap_that_cannot_be_is_refused_when_it_is_entered(given, word, said):
    event = {"kind": "poured", "at": "2027-04-01", "metal_kg": 1, **given}
    book = {"format": "sandmix book", "version": 3, "name": "The hall", "events": []}
    for entry in (MIXED, event):
        answer = json.loads(call(json.dumps({"job": "record", "inputs": {"book": book, "event": entry}})))
        if answer["ok"]:
            book["events"].append(answer["event"])
    assert [problem["word"] for problem in answer["problems"]] == [word]
    assert said in answer["problems"][0]["message"]


def test_the_example_finds_the_tin_of_may(ask):
    answer = ask("readings", **JOBS["readings"].example)
    assert answer["result"]["readings_outside"] == ["compactability", "tin"]
    limits = {limit["label"] for limit in answer["charts"][0]["limits"]}
    assert limits == {"lower limit", "mean", "upper limit"}


def test_a_book_that_cannot_be_read_is_refused():
    answer = json.loads(call(json.dumps({"job": "readings", "inputs": {"book": "no book"}})))
    assert not answer["ok"]


def test_readings_of_another_tin_are_left_out(ask):
    """A rammer of 2 kg instead of 2.5 kg: what was read before says nothing of what is read now. The same rammer weighed again changes nothing."""
    first = {"kind": "calibrated", "at": "2027-03-20", "rammer_kg": 2.5, "rammer_fall_mm": 250, "tin_diameter_mm": 72}
    again, other = (
        {"kind": "calibrated", "at": "2027-04-05T00:00Z", "rammer_kg": rammer_kg} for rammer_kg in (2.51, 2.0)
    )
    counted = [readings(ask, first, *entries(USUAL), event)["result"]["readings_count"] for event in (again, other)]
    assert counted == [{"compactability": 8}, {"compactability": 4}]
    assert "4 readings of another tin or rammer are left out" in remarks_of(
        readings(ask, first, *entries(USUAL), other)
    )
