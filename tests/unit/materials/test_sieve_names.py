"""How people name sieves, and the word for what the sieves hold."""

import json

import pytest

from sandmix.doors.facade import call
from sandmix.language.errors import InputError
from sandmix.materials import sieve_names
from sandmix.vocabulary.sieve_words import RETAINED


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("50", "50"), ("No. 50", "50"), ("no 50", "50"), ("#50", "50"), ("No.#50", "50"), ("50 mesh", "50"), ("sieve 50", "50"),
        ("0.3 mm", "50"), ("0,3mm", "50"), ("300 um", "50"), ("300 µm", "50"), ("297 microns", "50"), ("Pan", "pan"),
        ("60", "0.25 mm"), ("0.8 mm", "0.8 mm"), ("1/16 in", "1.587 mm"), ("18", "1 mm"), ("4", "4.75 mm"), ("200", "200"),
    ],
)  # fmt: skip
def test_names_of_sieves(name, key):
    assert sieve_names.read(name) == key


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("55", "“55” is not the number of a sieve"),
        ("0.3", "Write its unit, such as 0.3 mm"),
        ("fine", "“fine” does not name a sieve"),
        ("um", "“um” does not name a sieve"),
        ("30 mm", "is not an opening for sieving sand. Enter an opening of 0.02 to 25 mm"),
        ("10 um", "is not an opening for sieving sand"),
        ("1" * 99, "does not name a sieve"),
        ("", "one sieve has no name. Name it by its number"),
        (" ", "one sieve has no name"),
    ],
)
def test_other_names_are_refused(ask, name, why):
    answer = ask("fineness", retained={name: 1})
    assert not answer["ok"]
    assert why in answer["problems"][0]["message"]


def test_a_text_may_separate_sieves_by_commas_or_semicolons(ask):
    answer = ask("blend", lots=[{"kg": 5, "retained": "0,8 mm: 3; No. 50: 5, 0.15 mm: 2, pan: 1"}])
    assert answer["ok"], answer
    texts = (
        ask("fineness", retained="0.8 mm: 3, 50: 5, 100: 2, pan: 1"),
        ask("fineness", retained={"pan": 1, "100": 2, "0.8 mm": 3, "300 um": 5}),
    )
    assert texts[0] == texts[1]
    assert list(texts[0]["result"]["passing"]) == ["0.8 mm", "50", "100"]


def test_an_opening_of_the_series_means_its_number(ask):
    by_number = ask("fineness", retained={"50": 2, "100": 1, "pan": 0})
    assert ask("fineness", retained={"0.3 mm": 2, "150 um": 1, "pan": 0}) == by_number


def test_the_word_is_described_as_a_table_with_the_series_as_its_keys():
    word = json.loads(call('{"job": "describe"}'))["words"]["retained"]
    assert word["kind"] == "table"
    assert list(word["keys"])[-1] == "pan"
    assert word["own"] == {"label": "sieve of my own", "key_label": "Opening", "unit": "mm", "bare": "No."}
    assert word["each_label"] == "What it holds"


@pytest.mark.parametrize(
    "given", ["50: 1; 50: 2; pan: 1", [["50", 1], ["pan", 1], ["50", 2]], '[["50", 1], ["50", 2]]']
)
def test_a_sieve_given_twice_is_refused(ask, given):
    messages = [problem["message"] for problem in ask("fineness", retained=given)["problems"]]
    assert messages == ["Retained on each sieve: No. 50 is given twice. Enter the sum once."]


def test_pairs_give_the_same_answer_as_a_table(ask):
    table = ask("fineness", retained={"0.8 mm": 3, "50": 5, "pan": 1})
    assert table["ok"]
    assert ask("fineness", retained=[["50", 5], ["0,8 mm", "3"], ["pan", 1]]) == table


@pytest.mark.parametrize("given", [[["50"]], [["50", 1, 2]], ["50"], [], "50", "", 5, None, True])
def test_other_values_are_not_a_table_of_sieves(given):
    with pytest.raises(InputError, match="this isn't a table"):
        RETAINED.read(given)


def test_an_opening_without_a_number_is_refused(ask):
    answer = ask("fineness", retained={"50": 1, "0.8 mm": ""})
    wrong = "0.8 mm: what it holds: this is empty. Allowed: 0 to 1000000. Write a number."
    assert answer["problems"][0]["message"] == f"Retained on each sieve, {wrong}"
    lots = ask("blend", lots=[{"kg": 5, "retained": {"50": 1, "0.8 mm": ""}}])
    assert lots["problems"][0]["message"] == f"Lots of sand, lot 1: retained on each sieve, {wrong}"


def test_a_text_of_more_than_forty_signs_names_no_sieve():
    """38 zeros before a 50 are 40 signs."""
    assert sieve_names.read("0" * 38 + "50") == "50"
    with pytest.raises(sieve_names.NoSieve, match="does not name a sieve"):
        sieve_names.read("0" * 39 + "50")
