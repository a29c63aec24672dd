"""The job *feel*: a dose only where own tests bear the word out and its range decides; otherwise words, and a test."""

import json

import pytest

from sandmix.doors.facade import call
from sandmix.jobs import JOBS

EXAMPLE = JOBS["feel"].example
EVENTS = json.loads(EXAMPLE["book"])
NOW = EXAMPLE["now"]
DOSES = {"water_kg", "first_water_kg", "water_most_kg", "verdict"}


def remarks_of(answer):
    return " ".join(answer["remarks"])


def feel(ask, word, events=EVENTS, **given):
    return ask("feel", feel=word, book=events, now=NOW, **given)


def test_a_word_that_own_tests_bear_out_doses_within_its_range(ask):
    answer = feel(ask, "crumbles")
    result, (low, high) = answer["result"], answer["doubt"]["moisture_pct_wet"]
    assert result["feel_doses"] == "yes"
    assert (result["feel_pairs"], result["verdict"]) == (10, "temper")
    assert high < 3.2, "the whole range says temper for a target of 3.5"
    heap = answer["doubt"]["water_kg"]
    assert result["first_water_kg"] <= heap[0] + 1e-3, "never more than is missing at the wet end"
    assert low < result["moisture_pct_wet"] < high
    assert answer["lead"]["word"] == "first_water_kg"
    assert answer["todo"][0]["text"].startswith("First water")


def test_the_dose_by_hand(ask):
    """Of 40 kg: missing 40 (3.5 − M)/96.5 at the median, 40 (3.5 − high)/96.5 at the wet end; the first dose is 0.7 of the one, at most the other."""
    answer = feel(ask, "crumbles", heap_kg="40 ± 0 kg")
    middle, high = answer["result"]["moisture_pct_wet"], answer["doubt"]["moisture_pct_wet"][1]
    assert answer["result"]["water_kg"] == pytest.approx(40 * (3.5 - middle) / 96.5)
    assert answer["result"]["first_water_kg"] == pytest.approx(
        min(0.7 * 40 * (3.5 - middle) / 96.5, 40 * (3.5 - high) / 96.5)
    )


def test_the_uncertainty_is_that_of_the_word_and_an_oven_test_is_surer(ask):
    answer = feel(ask, "crumbles")
    assert answer["uncertainty"]["moisture_pct_wet"][0]["label"] == "Feel of a handful"
    assert answer["surer"]["moisture_pct_wet"]["text"].startswith("Dry 500 g")


def test_a_range_that_cannot_decide_says_test_it(ask):
    answer = feel(ask, "prints")
    assert answer["result"]["feel_doses"] == "wide"
    assert not DOSES & answer["result"].keys()
    assert answer["headline"].startswith("Test it:")
    assert answer["todo"][0]["text"].startswith("Dry a sample of this same sand")


def test_without_pairs_nothing_is_dosed_and_the_remark_says_what_it_takes(ask):
    answer = ask("feel", feel="crumbles", heap_kg=45)
    assert answer["result"]["feel_doses"] == "not_yet"
    assert not DOSES & answer["result"].keys()
    assert "0 own pairs" in remarks_of(answer)
    assert "from 8 pairs with 3 different words on" in remarks_of(answer)
    low, high = answer["doubt"]["moisture_pct_wet"]
    assert high - low > 2, "wide until earned"


def test_one_pair_is_called_a_pair(ask):
    said = remarks_of(feel(ask, "weak", EVENTS[:2]))
    assert "The book has 1 own pair of word and moisture test, with 1 different word." in said


def test_a_word_that_contradicts_the_book_gives_words_and_no_dose(ask):
    answer = feel(ask, "leaves_water")
    assert answer["result"]["feel_doses"] == "no"
    assert not DOSES & answer["result"].keys()
    assert "contradicts the book" in answer["headline"]
    low, high = answer["doubt"]["moisture_pct_wet"]
    assert low < 2.4 < 5.5 < high, "the range holds what both say"
    assert any("Squeeze another handful" in way for way in answer["ways_out"])


def test_words_that_contradict_every_test_never_dose(ask):
    """The same words in the opposite order of the moistures: wetter sand felt drier."""
    other = {"crumbles": "shiny", "weak": "prints", "prints": "crumbles", "shiny": "crumbles"}
    events = [event | ({"feel": other[event["feel"]]} if "feel" in event else {}) for event in EVENTS]
    for word in other:
        answer = feel(ask, word, events)
        assert answer["result"]["feel_doses"] in ("not_yet", "no")
        assert not DOSES & answer["result"].keys()
    assert "wetter sand did not feel wetter" in remarks_of(feel(ask, "crumbles", events))


def test_a_last_test_that_was_too_wet_is_not_lifted_by_a_word(ask):
    wet = [*EVENTS, {"kind": "measured", "at": "2027-04-16", "moisture_pct_wet": "7 %"}]
    answer = feel(ask, "prints", wet)
    assert answer["state"] == {"word": "stop", "tone": "stop"}
    assert answer["result"]["feel_doses"] == "no"
    assert "does not lift that stop" in answer["headline"]
    assert "pour" not in [link["job"] for link in answer["next"]]


@pytest.mark.parametrize("kind", ["natural", "used"])
def test_another_kind_of_sand_is_never_dosed_by_words(ask, kind):
    answer = feel(ask, "crumbles", sand_kind=kind)
    assert answer["result"]["feel_doses"] in ("not_yet", "no")
    assert "washed sand with bentonite" in remarks_of(answer)


def test_clay_that_changed_since_widens_the_range_and_is_said(ask):
    changed = [*EVENTS, {"kind": "measured", "at": "2027-04-16", "clay_pct_dry": {"value": 4.5, "doubt": 0.1}}]
    answer = feel(ask, "weak", changed)
    assert "points less live clay" in remarks_of(answer)
    before, after = (one["doubt"]["moisture_pct_wet"] for one in (feel(ask, "weak"), answer))
    assert after[1] - after[0] > before[1] - before[0]


def test_a_book_without_sand_counts_as_none(ask):
    answer = feel(ask, "weak", [])
    assert answer["result"]["feel_doses"] == "not_yet"
    assert answer["result"]["moisture_pct_wet"] == ask("feel", feel="weak")["result"]["moisture_pct_wet"]


def test_undone_and_corrected_pairs(ask):
    numbered = [event | {"id": f"n{at}"} for at, event in enumerate(EVENTS)]
    undone = [*numbered, {"kind": "undone", "id": "u", "of": "n1", "at": "2027-04-16"}]
    assert feel(ask, "weak", undone)["result"]["feel_pairs"] == 9
    unsure = {"kind": "corrected", "id": "c", "of": "n1", "at": "2027-04-16", "moisture_pct_wet": "3.5 ± 2 %"}
    assert feel(ask, "weak", [*numbered, unsure])["result"]["feel_pairs"] == 9, "a test of ± 2 points teaches nothing"


def test_a_feel_alone_is_no_test_of_the_heap(ask):
    felt = [*EVENTS[:2], {"kind": "measured", "at": "2027-03-30", "feel": "weak"}]
    heap = ask("heap", book=felt, now="2027-04-01")
    assert heap["result"]["last_test_age_days"] == pytest.approx(25.875)
    assert feel(ask, "weak", felt)["result"]["feel_pairs"] == 1


def test_the_next_step_records_a_pair_and_never_a_moisture_from_a_word(ask):
    """The link to the oven test carries the word; a moisture that came from a word is not recorded as a test."""
    by_feel, by_oven = feel(ask, "crumbles")["next"]
    assert by_oven["inputs"]["feel"] == "crumbles"
    dosed = ask("temper", **by_feel["inputs"])["records"][0]
    assert dosed["words"].keys() == {"feel", "water_added_kg"}
    assert "handful" in dosed["label"]
    tested = ask("temper", **by_oven["inputs"], sample_wet_g=500, sample_dry_g=489)["records"][0]["words"]
    assert tested["feel"] == "crumbles"
    assert tested["moisture_pct_wet"].startswith("2.2 ±")


@pytest.mark.parametrize("word", ["crumbles", "weak", "prints", "shiny", "leaves_water"])
@pytest.mark.parametrize("metal", ["aluminium", "tin_bronze"])
def test_every_word_of_every_book_has_an_answer(ask, word, metal):
    for many in range(len(EVENTS) + 1):
        answer = feel(ask, word, EVENTS[:many], metal=metal)
        assert answer["ok"]
        assert answer["next"]


def test_everything_that_is_wrong_is_said_at_once():
    answer = json.loads(call(json.dumps({"job": "feel", "inputs": {"feel": "dampish", "heap_kg": "lots"}})))
    assert {problem["word"] for problem in answer["problems"]} == {"feel", "heap_kg"}


@pytest.mark.parametrize(
    ("squeeze", "word"), [("falls", "crumbles"), ("crumbles", "weak"), ("clean", "prints"), ("sticky", "shiny")]
)
def test_the_squeeze_test_leads_to_the_nearest_word(ask, squeeze, word):
    (link,) = ask("bench", test="squeeze", squeeze=squeeze)["next"]
    assert (link["job"], link["inputs"]) == ("feel", {"feel": word})
    assert ask("feel", **link["inputs"])["ok"]
