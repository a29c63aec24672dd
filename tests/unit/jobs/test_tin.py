"""The job *tin*: when it doses, how much, and when it asks for another test. Amounts by hand; the rules are own."""

import json

import pytest

from sandmix.asking.form import fill
from sandmix.book.book import read
from sandmix.jobs import JOBS

SURE = {"heap_kg": "40 ± 0 kg", "compactability_slope": "20 ± 0", "since_mulling_h": 0.2}
MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 40, "clay_pct_dry": 8, "moisture_pct_wet": 3.4}
NOW = "2027-06-01T09:00Z"


def pair(day, moisture, compactability, **others):
    words = {"moisture_pct_wet": moisture, "compactability_read_pct": compactability, **others}
    return {"kind": "measured", "at": f"2027-04-{day:02}", **words}


PAIRS = [pair(2, 3.0, 35), pair(9, 3.5, 45), pair(16, 4.0, 55), pair(23, 3.2, 39)]


def remarks(answer):
    return " ".join(answer["remarks"])


def texts(answer):
    return [row["text"] for row in answer["todo"]]


def test_the_water_is_the_step_over_the_slope_on_the_heap(ask):
    """(45 − 37)/20 = 0.4 points; 40 × 0.4/96.5 = 0.16580 kg, of which 70 % first; reading ± 3: 0.25 to 0.55 points."""
    answer = ask("tin", compactability_now_pct=37, **SURE)
    result = answer["result"]
    assert result["moisture_step_pct_wet"] == pytest.approx(0.4)
    assert result["water_kg"] == pytest.approx(0.165803, abs=1e-6)
    assert result["first_water_kg"] == pytest.approx(0.7 * 0.165803, abs=1e-6)
    assert result["water_most_kg"] == pytest.approx(40 * 0.55 / 96.5, abs=1e-6)
    assert answer["doubt"]["water_kg"] == pytest.approx([40 * 0.25 / 96.5, 40 * 0.55 / 96.5])
    assert answer["state"]["word"] == "temper"
    assert answer["lead"]["word"] == "first_water_kg"
    assert [timer["name"] for timer in answer["timers"]] == ["mull", "rest"]


def test_two_heights_are_a_reading(ask):
    """(120 − 75)/120 = 37.5 %; ± 1 mm each: 100·75/120² = 0.521 and 0.833, with the test's own 2.5: 2.686."""
    answer = ask("tin", height_before_mm=120, height_after_mm=75, **SURE)
    assert answer["result"]["compactability_now_pct"] == 37.5
    low, high = answer["doubt"]["compactability_now_pct"]
    assert (high - low) / 2 == pytest.approx(2.686, abs=1e-3)
    named = {cause["input"] for cause in answer["uncertainty"]["moisture_step_pct_wet"]}
    assert named == {"height_before_mm", "height_after_mm", "deviation"}


def test_two_readings_give_their_mean_with_less_error(ask):
    answer = ask("tin", compactability_now_pct=36, compactability_again_pct=38, **SURE)
    assert answer["result"]["compactability_now_pct"] == 37
    low, high = answer["doubt"]["compactability_now_pct"]
    assert (high - low) / 2 == pytest.approx(3 / 2**0.5)


def test_two_readings_that_disagree_give_no_dose(ask):
    """20 points apart, their errors allow 4.24."""
    answer = ask("tin", compactability_now_pct=28, compactability_again_pct=48, **SURE)
    assert answer["state"] == {"word": "test it", "tone": "care"}
    assert not {"water_kg", "first_water_kg", "water_most_kg"} & answer["result"].keys()
    assert "20 points apart" in remarks(answer)
    assert texts(answer)[0].startswith("Fill and ram the tin twice more")


@pytest.mark.parametrize("reading", [42.1, 45, 47.9])
def test_within_its_error_of_the_target_nothing_is_added(ask, reading):
    answer = ask("tin", compactability_now_pct=reading, **SURE)
    assert answer["state"]["word"] == "go"
    assert "water_kg" not in answer["result"]
    assert answer["todo"] == []
    assert answer["next"][0]["job"] == "flask"


def test_wet_sand_gets_the_water_to_lose_and_the_weight_to_dry_to(ask):
    """(45 − 53)/20 = −0.4 points: 0.1658 kg to lose."""
    answer = ask("tin", compactability_now_pct=53, **SURE)
    assert answer["state"]["word"] == "dry"
    assert answer["result"]["water_to_lose_kg"] == pytest.approx(0.165803, abs=1e-6)
    assert answer["result"]["dried_kg"] == pytest.approx(40 - 0.165803, abs=1e-6)
    assert "water_kg" not in answer["result"]
    assert "first_water_kg" not in answer["result"]


def test_a_range_that_cannot_decide_says_test_it(ask):
    """From the general slope alone, ten points are 10/45 to 10/10 points of moisture and more with the reading: wider than ± 0.35."""
    answer = ask("tin", compactability_now_pct=35, heap_kg=40, since_mulling_h=0.2)
    assert answer["state"]["word"] == "test it"
    assert not {"water_kg", "first_water_kg", "water_most_kg", "water_to_lose_kg"} & answer["result"].keys()
    assert texts(answer) == ["Dry a sample, and temper the sand by that"]
    assert "0.2 to 1.0 points" in remarks(answer)
    assert "None of it is from your own tests yet" in remarks(answer)
    assert "With one step of 1 % water, or about 2 more pairs" in remarks(answer)
    assert answer["next"][0] == {
        "job": "temper",
        "label": "Test and temper by a dried sample",
        "inputs": {"heap_kg": "40 kg"},
        "foremost": False,
    }


def test_old_sand_is_mulled_before_it_is_dosed(ask):
    answer = ask("tin", compactability_now_pct=37, **(SURE | {"since_mulling_h": 30}))
    assert answer["state"]["word"] == "test it"
    assert "water_kg" not in answer["result"]
    assert "has stood for 30 hours" in remarks(answer)
    assert texts(answer) == ["Mull the sand for ten minutes, then fill and ram the tin again"]


def test_without_a_time_since_mulling_a_remark_says_what_it_does(ask):
    given = {key: value for key, value in SURE.items() if key != "since_mulling_h"}
    assert "Read the tin soon after mulling" in remarks(ask("tin", compactability_now_pct=37, **given))
    assert "Read the tin soon after mulling" not in remarks(ask("tin", compactability_now_pct=37, **SURE))


def test_without_a_heap_there_are_points_but_no_kilograms(ask):
    answer = ask("tin", compactability_now_pct=37, compactability_slope="20 ± 0", since_mulling_h=0.2)
    assert answer["result"]["moisture_step_pct_wet"] == pytest.approx(0.4)
    assert "water_kg" not in answer["result"]
    assert texts(answer)[0].startswith("Weigh the heap")
    assert "enter sand in the heap" in remarks(answer)


def test_the_book_teaches_the_slope_and_gives_the_heap(ask):
    """Pairs on 20 points per 1 %; the line has 45 % at 3.5 %, so 37 % is at 3.1 %."""
    answer = ask("tin", compactability_now_pct=37, since_mulling_h=0.2, book=[MIXED, *PAIRS], now=NOW)
    result = answer["result"]
    assert result["tin_pairs"] == 4
    assert result["compactability_slope"] == pytest.approx(20, abs=1)
    assert result["moisture_pct_wet"] == pytest.approx(3.1, abs=0.05)
    low, high = answer["doubt"]["moisture_pct_wet"]
    assert low < 3.1 < high
    assert 0.4 < high - low < 1.2
    assert result["water_kg"] == pytest.approx(40 * 8 / result["compactability_slope"] / 96.5, rel=0.02)
    assert result["prior_share_pct"] < 60
    (chart,) = answer["charts"]
    assert [line["shape"] for line in chart["series"]] == ["points", "line"]
    assert chart["series"][0]["points"] == [[3.0, 35], [3.2, 39], [3.5, 45], [4.0, 55]]
    assert len(chart["band"]) == 2


def test_two_pairs_give_a_slope_but_no_moisture(ask):
    answer = ask("tin", compactability_now_pct=37, book=[MIXED, *PAIRS[:2]], now=NOW)
    assert answer["result"]["tin_pairs"] == 2
    assert "moisture_pct_wet" not in answer["result"]


def test_a_dose_and_the_next_tin_test_are_a_step(ask):
    """40 kg with 200 g: 100 × 0.2 × 0.966/40.2 = 0.4806 points; 36 to 46 %: 20.8 points per 1 %."""
    first = {"kind": "measured", "at": "2027-04-02T09:00Z", "compactability_read_pct": 36, "water_added_kg": 0.2}
    second = {"kind": "measured", "at": "2027-04-02T11:00Z", "compactability_read_pct": 46}
    answer = ask("tin", compactability_now_pct=37, book=[MIXED, first, second], now=NOW)
    assert (answer["result"]["tin_pairs"], answer["result"]["tin_steps"]) == (0, 1)
    assert "1 own step" in remarks(answer)
    assert answer["result"]["prior_share_pct"] < 60
    poured = {"kind": "poured", "at": "2027-04-02T10:00Z", "metal_kg": 1}
    assert (
        ask("tin", compactability_now_pct=37, book=[MIXED, first, poured, second], now=NOW)["result"]["tin_steps"] == 0
    )


def test_a_step_on_a_sample_teaches_at_once_and_can_be_saved(ask):
    step = {"step_sand_g": 2000, "step_water_g": 20, "compactability_wetter_pct": 58}
    answer = ask("tin", compactability_now_pct=36, heap_kg=40, since_mulling_h=0.2, **step)
    assert answer["result"]["tin_steps"] == 1
    assert answer["result"]["prior_share_pct"] < 15
    assert answer["state"]["word"] == "temper"
    saved = next(record for record in answer["records"] if record["kind"] == "calibrated")
    assert saved["words"]["compactability_slope"].startswith("23.03 ± ")
    book = [MIXED, {"kind": "calibrated", "at": "2027-04-01", **saved["words"]}]
    again = ask("tin", compactability_now_pct=36, heap_kg=40, since_mulling_h=0.2, book=book, now=NOW, **step)
    assert again["result"]["tin_steps"] == 1, "the saved step is the same as the one that is typed"
    alone = ask("tin", compactability_now_pct=36, heap_kg=40, since_mulling_h=0.2, book=book, now=NOW)
    assert alone["result"]["compactability_slope"] == pytest.approx(answer["result"]["compactability_slope"], rel=0.03)


def test_a_pair_that_does_not_fit_is_left_out_and_named(ask):
    wrong = [*PAIRS, pair(25, 3.6, 47), pair(26, 3.4, 43), pair(27, 3.5, 12)]
    answer = ask("tin", compactability_now_pct=37, book=[MIXED, *wrong], now=NOW)
    assert "1 test does not fit" in remarks(answer)
    assert answer["result"]["tin_pairs"] == 6


def test_undone_and_future_tests_do_not_count(ask):
    ahead = {"kind": "measured", "at": "2027-08-01", "moisture_pct_wet": 3.3, "compactability_read_pct": 41}
    book = read([MIXED, *PAIRS, ahead]).to_dict()
    book["events"].append({"kind": "undone", "at": "2027-05-01", "of": book["events"][1]["id"]})
    answer = ask("tin", compactability_now_pct=37, book=book, now=NOW)
    assert answer["result"]["tin_pairs"] == 3
    assert "1 of the book's tin tests are in the future" in remarks(answer)


def test_entries_out_of_order_give_the_same_line(ask):
    straight = ask("tin", compactability_now_pct=37, book=[MIXED, *PAIRS], now=NOW)
    turned = ask("tin", compactability_now_pct=37, book=[MIXED, *reversed(PAIRS)], now=NOW)
    assert turned["result"]["compactability_slope"] == pytest.approx(straight["result"]["compactability_slope"])


TIN = {"rammer_kg": "2.5 kg", "rammer_fall_mm": "281 mm", "tin_diameter_mm": "75 mm"}


def own(day, **words):
    return {"kind": "calibrated", "at": f"2027-03-{day:02}", **words}


def test_the_own_tin_comes_from_the_book_and_the_latest_counts(ask):
    book = [MIXED, own(2, **TIN), own(3, rammer_fall_mm="270 mm")]
    answer = ask("tin", compactability_now_pct=37, book=book, now=NOW)
    assert answer["result"]["ram_energy_kj_m2"] == pytest.approx(4.683 * 270 / 281.26, rel=1e-3)
    assert answer["result"]["matching_fall_mm"] == pytest.approx(281, abs=0.5)
    assert not [record for record in answer["records"] if record["kind"] == "calibrated"]


def test_a_tin_that_is_typed_can_be_saved(ask):
    answer = ask("tin", compactability_now_pct=37, **SURE, **TIN)
    (saved,) = [record for record in answer["records"] if record["kind"] == "calibrated"]
    assert saved["words"] == {"rammer_kg": "2.5 kg", "rammer_fall_mm": "281 mm", "tin_diameter_mm": "75 mm"}


def test_tests_before_another_rammer_do_not_count(ask):
    """From 2.5 kg to 4 kg the energy is 1.6 times as much."""
    heavy = {"kind": "calibrated", "at": "2027-04-20", "rammer_kg": "4 kg"}
    answer = ask("tin", compactability_now_pct=37, book=[MIXED, own(2, **TIN), *PAIRS[:3], heavy, PAIRS[3]], now=NOW)
    assert answer["result"]["tin_pairs"] == 1
    near = {"kind": "calibrated", "at": "2027-04-20", "rammer_kg": "2.6 kg"}
    answer = ask("tin", compactability_now_pct=37, book=[MIXED, own(2, **TIN), *PAIRS[:3], near, PAIRS[3]], now=NOW)
    assert answer["result"]["tin_pairs"] == 4


def test_another_tin_than_that_of_the_book_does_not_use_its_tests(ask):
    book = [MIXED, own(2, **TIN), *PAIRS]
    answer = ask("tin", compactability_now_pct=37, book=book, now=NOW, **(TIN | {"rammer_kg": "5 kg"}))
    assert answer["result"]["tin_pairs"] == 0
    assert "not the one in the book" in remarks(answer)
    assert "would match them" in remarks(answer)


WET = [pair(2, 6.0, 40), pair(9, 6.4, 48), pair(16, 6.8, 56), pair(23, 6.2, 44)]


def test_a_moisture_above_the_stop_limit_stops(ask):
    """The line has 48 % at 6.4 %: above the 6 % of aluminium."""
    answer = ask("tin", compactability_now_pct=48, since_mulling_h=0.2, book=[MIXED, *WET], now=NOW)
    assert answer["state"] == {"word": "stop", "tone": "stop"}
    assert texts(answer)[0].startswith("Do not pour on this sand")
    assert any(caution.startswith("Steam") for caution in answer["cautions"])
    assert "pour" not in [step["job"] for step in answer["next"]]


def test_the_own_line_lifts_no_stop_of_the_book(ask):
    """40 kg at about 3.2 % and 3 kg of rain are about 10 %; four pairs read 37 % as 3.1 %, but very wet sand can read low."""
    rained = {"kind": "rained_on", "at": "2027-05-31", "water_kg": 3}
    for compactability in (37, 45):
        given = {"compactability_now_pct": compactability, "book": [MIXED, *PAIRS, rained], "now": NOW}
        assert ask("heap", book=given["book"], now=NOW)["state"]["word"] == "stop"
        answer = ask("tin", **given, since_mulling_h=0.2)
        assert answer["result"]["moisture_pct_wet"] < 4
        assert answer["state"] == {"word": "stop", "tone": "stop"}
        assert not {"water_kg", "first_water_kg", "water_most_kg"} & answer["result"].keys()
        assert not {"flask", "pour"} & {step["job"] for step in answer["next"]}


def test_rain_of_an_unknown_amount_gets_a_warning_where_the_own_line_counts(ask):
    """The range of the book then reaches above 6 %, and very wet sand can read low."""
    rained = {"kind": "rained_on", "at": "2027-05-31"}
    tested = {"kind": "measured", "at": "2027-05-31", "moisture_pct_wet": 3.3}
    given = {"compactability_now_pct": 44, "now": NOW, "since_mulling_h": 0.2}
    after_rain = ask("tin", **given, book=[MIXED, *PAIRS, rained])
    assert after_rain["state"]["word"] == "go"
    assert "By the book the sand may be too wet to pour on" in remarks(after_rain)
    assert "By the book" not in remarks(ask("tin", **given, book=[MIXED, *PAIRS, tested]))


def test_a_target_above_the_stop_limit_gets_no_water(ask):
    """The line is at 5.6 % now and at 6.25 % at the target of 45 %."""
    drier = [pair(2, 5.6, 32), pair(9, 6.0, 40), pair(16, 6.4, 48), pair(23, 5.8, 36), pair(25, 5.7, 34)]
    answer = ask("tin", compactability_now_pct=32, since_mulling_h=0.2, book=[MIXED, *drier[:1], *drier[1:]], now=NOW)
    assert answer["state"]["tone"] == "stop"
    assert not {"water_kg", "first_water_kg", "water_most_kg"} & answer["result"].keys()


def test_the_last_moisture_test_of_the_book_still_stops(ask):
    wet = {"kind": "measured", "at": "2027-05-31", "moisture_pct_wet": 6.5}
    answer = ask("tin", compactability_now_pct=37, since_mulling_h=0.2, book=[MIXED, *PAIRS, wet], now=NOW)
    assert answer["state"]["tone"] == "stop"
    assert "first_water_kg" not in answer["result"]


def test_without_any_moisture_a_remark_says_that_the_limit_was_not_checked(ask):
    assert "can't be compared with the stop limit" in remarks(ask("tin", compactability_now_pct=37, **SURE))
    with_book = ask("tin", compactability_now_pct=37, book=[MIXED, *PAIRS], now=NOW)
    assert "can't be compared with the stop limit" not in remarks(with_book)


def test_the_metal_of_the_book_counts_where_none_is_given(ask):
    """Tin bronze stops above 5.25 %, aluminium above 6 %."""
    cast = {"kind": "poured", "at": "2027-03-05", "metal": "tin_bronze", "metal_kg": 1}
    damp = [pair(day, 5.2 + off, 40 + 20 * off) for day, off in ((2, 0.0), (9, 0.4), (16, 0.8), (23, 0.2))]
    given = {"compactability_now_pct": 48, "book": [MIXED, cast, *damp], "now": NOW}
    assert ask("tin", **given)["state"]["tone"] == "stop"
    assert ask("tin", **given, metal="aluminium")["state"]["tone"] != "stop"


def test_the_record_of_a_dose_is_the_reading_and_the_first_dose(ask):
    answer = ask("tin", compactability_now_pct=37, **SURE)
    (record,) = answer["records"]
    assert record["kind"] == "measured"
    assert record["words"] == {"compactability_read_pct": "37 ± 3 %", "water_added_kg": "0.1161 kg"}


def test_sand_of_another_kind_has_no_limit_and_says_so(ask):
    answer = ask("tin", compactability_now_pct=37, sand_kind="natural", **SURE)
    assert answer["state"]["tone"] == "care"
    assert any("How wet this sand may be is not known" in caution for caution in answer["cautions"])


def test_every_answer_of_the_example_is_there(ask):
    answer = ask("tin", **JOBS["tin"].example)
    assert set(answer["result"]) >= {"first_water_kg", "moisture_pct_wet", "compactability_slope", "matching_fall_mm"}
    assert json.dumps(answer).count("NaN") == json.dumps(answer).count("Infinity") == 0


@pytest.mark.parametrize(
    ("given", "word", "says"),
    [
        ({}, "compactability_now_pct", "the tin test is missing"),
        ({"height_before_mm": 120}, "height_after_mm", "one height is not enough"),
        ({"height_before_mm": 100, "height_after_mm": 120}, "height_after_mm", "sand cannot rise"),
        ({"height_before_mm": 120, "height_after_mm": 10}, "height_after_mm", "from the bottom of the tin"),
        ({"compactability_now_pct": 40, "net_g": 3000, "heap_kg": 2}, "net_g", "more than the 2 kg of the heap"),
        (
            {"height_before_mm": 120, "height_after_mm": 66, "tin_diameter_mm": 75, "net_g": 1500},
            "net_g",
            "it would weigh 5.1 kg/L",
        ),
        ({"compactability_now_pct": 36, "step_water_g": 20}, "step_sand_g", "a step needs its sand"),
        (
            {"compactability_now_pct": 36, "step_sand_g": 100, "step_water_g": 20, "compactability_wetter_pct": 58},
            "step_water_g",
            "makes mud",
        ),
    ],
)
def test_bad_input_is_refused_in_words(ask, given, word, says):
    answer = ask("tin", **given)
    assert not answer["ok"]
    (problem,) = answer["problems"]
    assert problem["word"] == word
    assert says in problem["message"]


def test_a_step_that_went_the_wrong_way_has_no_slope_to_save(ask):
    step = {"step_sand_g": 2000, "step_water_g": 20, "compactability_wetter_pct": 30}
    answer = ask("tin", compactability_now_pct=36, **step)
    assert answer["ok"]
    assert [record["kind"] for record in answer["records"]] == ["measured"]


def test_the_heap_is_the_one_that_the_heap_book_has_today(ask):
    """Six tests, each 0.3 points lower than the one a week before: five weeks later the heap is lighter by what has probably dried off."""
    tests = [
        {"kind": "measured", "at": f"2027-{month:02}-{day:02}", "moisture_pct_wet": f"{3.4 - 0.3 * week:g} ± 0.1 %"}
        for week, (month, day) in enumerate([(3, 8), (3, 15), (3, 22), (3, 29), (4, 5), (4, 12)], start=1)
    ]
    asked = {"book": [MIXED, *tests], "now": "2027-05-17T09:00Z"}
    job = JOBS["tin"]
    form = job.resolve(fill(job.form, {"compactability_now_pct": 37, **asked})).form
    heap = ask("heap", **asked)["result"]
    assert form.heap_kg == pytest.approx(heap["heap_kg"])
    assert form.past.state.sand.moisture_pct_wet == pytest.approx(heap["moisture_pct_wet"])
