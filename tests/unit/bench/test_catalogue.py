"""The table of tests: every row is complete, uses words that exist, and says what its figure shows and what it does not."""

import math
import re

import pytest

from sandmix.asking.form import asks
from sandmix.bench.catalogue import TESTS
from sandmix.doors.describe import describe
from sandmix.jobs import JOBS
from sandmix.jobs.bench.form import ALWAYS, BenchForm
from sandmix.jobs.bench.formulas import _FIGURES
from sandmix.jobs.bench.working import _FORMULAS
from sandmix.language.words import EXACT
from sandmix.vocabulary import WORDS

DOOR = [
    "moisture",
    "wash",
    "methylene_blue",
    "permeability",
    "compactability",
    "water_sensitivity",
    "strength",
    "swell",
    "tin_density",
]


@pytest.fixture(params=TESTS.values(), ids=lambda row: row.key)
def row(request):
    return request.param


def test_the_tests_of_the_json_door_come_first_and_in_its_order():
    assert list(TESTS)[: len(DOOR)] == DOOR
    assert list(WORDS["test"].choices) == list(TESTS)


def test_a_row_uses_words_of_the_form_and_gives_a_word_of_the_answer(row):
    assert set(row.readings) <= asks(BenchForm).keys()
    assert row.figure in JOBS["bench"].answers
    assert row.key == "squeeze" or (row.key in _FIGURES and row.key in _FORMULAS)


def test_every_reading_of_the_form_belongs_to_a_test():
    assert {word for row in TESTS.values() for word in row.readings} | set(ALWAYS) == asks(BenchForm).keys()


def test_a_row_says_what_it_measures_what_it_shows_and_what_it_does_not(row):
    for text in (row.measures, row.says, row.says_not, row.improve):
        assert text[0].isupper()
        assert text.endswith(".")


def test_a_procedure_has_equipment_steps_and_an_error(row):
    for procedure in (row.home, row.lab):
        if procedure is not None:
            assert procedure.takes
            assert procedure.steps
            assert procedure.error
            assert all((step.wait_s is None) == (step.wait_label is None) for step in procedure.steps)
            assert all(step.wait_s > 0 for step in procedure.steps if step.wait_s is not None)


def test_a_laboratory_is_never_less_exact_than_home(row):
    if row.lab is not None:
        assert row.lab.scatter.half_width(10.0) <= row.home.scatter.half_width(10.0)


def test_ratings_rise_and_cover_every_figure(row):
    borders = [rating.below for rating in row.ratings]
    assert borders == sorted(set(borders))
    assert not borders or borders[-1] == math.inf


@pytest.mark.parametrize(
    ("test", "value", "tone"),
    [("moisture", 1.9, "care"), ("moisture", 2.0, "go"), ("moisture", 4.5, "care"), ("moisture", 6.0, "stop"),
     ("compactability", 34.9, "care"), ("compactability", 35, "go"), ("compactability", 50, "go"), ("compactability", 50.1, "care"),
     ("swell", 8, "care"), ("swell", 20, "care"), ("swell", 24, "go"), ("swell", 36, "go"), ("swell", 37, "care")],
)  # fmt: skip
def test_the_tone_of_a_figure(test, value, tone):
    assert TESTS[test].rating(value).tone == tone


def test_compactability_is_best_from_43_to_47():
    texts = {value: TESTS["compactability"].rating(value).text for value in (42.9, 43, 45, 47, 47.1)}
    assert texts[43] == texts[45] == texts[47] == "In the best range."
    assert texts[42.9] != texts[43] != texts[47.1]


def test_a_test_without_ratings_rates_nothing():
    assert TESTS["jar"].rating(20) is None


def test_the_description_has_the_tests_as_plain_data():
    described = describe()["tests"]
    assert [test["key"] for test in described] == list(TESTS)
    for test in described:
        assert set(test) == {"key", "label", "measures", "says", "says_not", "figure", "readings", "home", "lab"}
        assert set(test["home"]) == {"takes", "steps", "error"}
        assert all(set(step) == {"text", "wait_s", "wait_label"} for step in test["home"]["steps"])
    assert next(test for test in described if test["key"] == "squeeze")["lab"] is None


def test_no_test_claims_that_there_is_no_danger():
    assert "safe" not in str(describe()["tests"]).lower()


@pytest.mark.parametrize(
    "procedure", [way for row in TESTS.values() for way in (row.home, row.lab) if way], ids=lambda way: way.error[:20]
)
def test_the_scatter_that_counts_is_the_one_that_a_person_reads(procedure):
    """ "± 2 to 3" counts as 2.5, "± 8 %" as a share, "a fifth" as 0.2; without a figure in the text nothing counts."""
    told = re.match(r"± ([\d.]+)(?: to ([\d.]+))?( %)?|± a (fifth)", procedure.error)
    if told is None:
        assert procedure.scatter is EXACT
        return
    low, high, share, fifth = told.groups()
    middle = 0.2 if fifth else (float(low) + float(high or low)) / 2
    expected = (0, middle / 100) if share else (0, middle) if fifth else (middle, 0)
    assert (procedure.scatter.absolute, procedure.scatter.relative) == pytest.approx(expected)
