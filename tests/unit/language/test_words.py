"""The kinds of word: what they read, what they refuse, and how many figures they show."""

import math

import pytest

from sandmix import vocabulary
from sandmix.language.errors import InputError
from sandmix.language.wording import places, shown_given
from sandmix.language.words import Choice, Error, Quantity, Sentence, Word
from sandmix.vocabulary import WORDS

HEAP = WORDS["heap_kg"]
KG = Quantity(
    name="x_kg", label="Thing", unit="kg", low=0, high=5000, digits=2, units=("kg", "lb", "g"), usual=(2, 250)
)


def refused(word, given):
    with pytest.raises(InputError) as error:
        word.read(given)
    (problem,) = error.value.problems
    return problem


READ = [
    (25, 25.0),
    (25.5, 25.5),
    ("25 lb", 25 * 0.45359237),
    ({"value": 25}, 25.0),
    ({"value": "25", "unit": "lb"}, 25 * 0.45359237),
    ({"value": "25 kg", "unit": "lb"}, 25.0),
    ({"value": 500, "unit": "g"}, 0.5),
    ({"value": 25, "unit": "kg", "doubt": 1}, 25.0),
    ({"value": 25, "unit": None}, 25.0),
]


@pytest.mark.parametrize(("given", "value"), READ)
def test_an_amount_is_a_number_a_text_or_value_and_unit(given, value):
    assert KG.read(given).value == pytest.approx(value)


def test_a_plus_minus_is_in_the_unit_of_its_value():
    assert KG.read({"value": 500, "unit": "g", "doubt": 20}).half_width == pytest.approx(0.02)
    assert KG.read("500 ± 20 g").half_width == pytest.approx(0.02)
    assert KG.read({"value": "5 ± 1", "doubt": 2}).half_width == pytest.approx(1)
    assert KG.read(5).half_width is None


NO_AMOUNTS = [
    True,
    [1],
    {"value": True},
    {"value": {"value": 1}},
    {"value": [1]},
    {"value": 1, "units": "kg"},
    {},
    {"unit": "kg"},
]
NO_AMOUNTS += [{"value": 1, "unit": "mm"}, {"value": 1, "unit": 7}, {"value": 1, "unit": ["kg"]}]
NO_AMOUNTS += [{"value": 1, "doubt": doubt} for doubt in (-1, "1", True, float("inf"), float("nan"), [1])]
NO_AMOUNTS += [float("inf"), float("nan"), 10**400, "1e400", "-1e400", {"value": 10**400, "unit": "lb"}]


@pytest.mark.parametrize("given", NO_AMOUNTS, ids=repr)
def test_anything_but_an_amount_is_refused_in_words(given):
    problem = refused(KG, given)
    assert problem.word == "x_kg"
    assert problem.message.startswith("Thing: ")
    assert problem.message.endswith((".", "}"))


def test_a_plus_minus_too_large_for_a_number_is_refused():
    assert refused(KG, {"value": 1, "doubt": 10**400}).word == "x_kg"


def test_a_number_that_fits_a_smaller_unit_is_suggested_in_it():
    assert "write 35000 g." in refused(KG, 35000).message
    assert "write 8000 g." in refused(KG, "8000").message


def test_no_other_unit_is_suggested_if_one_was_typed():
    assert "Check the number and its unit." in refused(KG, "35000 kg").message
    assert "Check the number and its unit." in refused(KG, {"value": 35000, "unit": "kg"}).message
    assert "Check the number and its unit." in refused(KG, -1).message
    assert "Check the number and its unit." in refused(KG, 1e30).message


def test_an_unusual_value_is_remarked():
    assert KG.read(2).remark == KG.read(250).remark == ""
    assert KG.read(300).remark == "Thing: 300 kg is outside the usual 2 to 250 kg. It is used as entered."


CLAY = WORDS["clay"]


@pytest.mark.parametrize(
    "given", ["sodium_bentonite", "Sodium bentonite", " SODIUM BENTONITE ", "sodium bentonite powder"]
)
def test_a_choice_is_read_by_name_or_label(given):
    assert CLAY.read(given).value == "sodium_bentonite"


@pytest.mark.parametrize("given", ["cement", 7, None, ["sodium_bentonite"]])
def test_an_unknown_choice_is_refused_with_the_known_ones(given):
    assert "Choose sodium_bentonite, calcium_bentonite or clay_granules." in refused(CLAY, given).message


def test_a_choice_shows_its_label():
    assert CLAY.show("clay_granules") == CLAY.choices["clay_granules"]
    assert CLAY.show("other") == "other"
    assert Sentence(name="recipe", label="Recipe").show("7 %") == "7 %"


def test_an_error_adds_its_parts_as_squares_and_is_larger_where_assumed():
    error = Error(absolute=3, relative=0.4, assumed=9)
    assert error.half_width(10) == pytest.approx(5)
    assert error.half_width(10, assumed=True) == 9
    assert Error(absolute=3).half_width(10, assumed=True) == 3


PLACES = [
    (2, 0.087, 2),
    (2, 0.14, 2),
    (2, 0.2, 1),
    (2, 0.5, 1),
    (2, 3.0, 0),
    (2, 15, 0),
    (0, 42.0, -1),
    (2, 0.0, 2),
    (2, float("inf"), 2),
    (-1, 0.0, 0),
]


@pytest.mark.parametrize(("digits", "half_width", "expected"), PLACES)
def test_the_last_place_is_that_of_the_first_figure_of_the_plus_minus(digits, half_width, expected):
    """The place of the first figure of the ±, one finer where that figure is 1."""
    assert places(digits, half_width) == expected


SHOWN = [
    (0.443, 0.087, "440 g"),
    (0.443, None, "443 g"),
    (35.0, None, "35 kg"),
    (35.126, 0.2, "35.1 kg"),
    (154.3, 20, "150 kg"),
    (0.0, None, "0 kg"),
    (999.96, 0.2, "1000.0 kg"),
    (-0.5, 0.2, "−500 g"),
]


@pytest.mark.parametrize(("value", "half_width", "text"), SHOWN)
def test_no_more_figures_are_shown_than_the_plus_minus_allows(value, half_width, text):
    assert KG.show_to(value, half_width) == text


def test_a_band_is_shown_in_the_unit_of_its_value():
    assert KG.show_range(0.356, 0.534, 0.443, 0.09) == "360 to 530 g"
    assert KG.show_range(0.9, 1.3, 1.1, 0.2) == "0.9 to 1.3 kg"
    assert KG.show_range(0.0, 0.001, 0.0, 0.001) == "" == KG.show_range(7.0, 7.001, 7.0, 0.0)


def test_money_keeps_its_zeros():
    assert WORDS["cost"].show_to(30.5, None) == "30.50"
    assert WORDS["cost"].show(30.5) == "30.50"
    assert HEAP.show("?") == "?"


GIVEN = [
    ("x" * 50, "x" * 39 + "…"),
    (2.5, "2.5"),
    (True, "yes"),
    (False, "no"),
    (None, "nothing"),
    (10**5000, "a very large value"),
    (1e30, "1e+30"),
    (12345678.0, "1.23e+07"),
    (7, "7"),
]


@pytest.mark.parametrize(
    ("given", "shown"), GIVEN, ids=lambda value: repr(value)[:20] if not isinstance(value, int) else "int"
)
def test_a_given_value_is_shown_shortened(given, shown):
    assert shown_given(given) == shown


def test_half_a_character_is_replaced():
    """A lone surrogate can't be written as UTF-8."""
    shown_given("\ud800 kg").encode("utf-8")


def test_the_base_class_of_words_reads_nothing():
    with pytest.raises(NotImplementedError):
        Word(name="x", label="X").read(1)


def test_a_single_choice_is_named():
    assert "Choose one." in refused(Choice(name="x", label="X", choices={"one": "One"}), "two").message


def test_a_word_can_be_declared_only_once(monkeypatch):
    monkeypatch.setattr(vocabulary, "CHAPTERS", {"one": (KG,), "two": (KG,)})
    with pytest.raises(ValueError, match="x_kg is declared twice"):
        vocabulary._by_name()


CONTACT = Quantity(
    name="c_w_m2k",
    label="Contact",
    unit="W/m²K",
    low=10,
    high=1000,
    digits=0,
    names={"perfect": math.inf, "none": 12.0},
)


@pytest.mark.parametrize("given", ["perfect", " Perfect ", "PERFECT"])
def test_a_named_value_is_read_by_its_name_and_is_certain(given):
    taken = CONTACT.read(given)
    assert (taken.value, taken.half_width, taken.remark) == (math.inf, None, "")
    assert CONTACT.read("none").value == 12


def test_a_named_value_is_shown_by_its_name():
    assert CONTACT.show(math.inf) == CONTACT.show_to(math.inf, None) == "perfect"
    assert CONTACT.show_to(12.0, 3.0) == "none"
    assert CONTACT.show_to(108.0, None) == "108 W/m²K"


def test_the_allowed_values_include_the_names():
    assert CONTACT.allowed == "10 to 1000 W/m²K, or perfect, or none"
    assert refused(CONTACT, "infinite").message == (
        "Contact: “infinite” isn't a number. Allowed: 10 to 1000 W/m²K, or perfect, or none. Write a number and W/m²K."
    )


def test_a_named_value_may_come_with_a_separate_unit():
    assert CONTACT.read({"value": "perfect", "unit": "W/m²K"}).value == math.inf


SECONDS = Quantity(name="w_s", label="Wait", unit="s", low=0, high=1e9, digits=0)
MINUTES = Quantity(name="w_min", label="Wait", unit="min", low=0, high=1e7, digits=0)
WAITS = [
    (SECONDS, 0.0, None, "0 s"),
    (SECONDS, 299.0, None, "299 s"),
    (SECONDS, 300.0, None, "5 min"),
    (SECONDS, 450.0, None, "7.5 min"),
    (SECONDS, 450.0, 120.0, "8 min"),  # ± 2 min: no tenths, and halves to the even
    (SECONDS, 10800.0, None, "3 h"),
    (SECONDS, 172800.0, None, "2 days"),
    (MINUTES, 179.0, None, "179 min"),
    (MINUTES, 180.0, None, "3 h"),
    (MINUTES, 200.0, 3.0, "3.3 h"),  # never finer than a tenth
    (MINUTES, 270.0, None, "4.5 h"),
    (MINUTES, 270.0, 60.0, "4.5 h"),  # ± 1.0 h: a first figure of 1 leaves one place more
    (MINUTES, 1440.0, 600.0, "24 h"),  # ± 10 h
    (MINUTES, 1440.0, 1800.0, "20 h"),  # ± 30 h
    (MINUTES, 2880.0, None, "2 days"),
    (MINUTES, 5040.0, None, "3.5 days"),
]


@pytest.mark.parametrize(("word", "value", "half_width", "text"), WAITS)
def test_a_long_time_is_shown_in_minutes_hours_or_days(word, value, half_width, text):
    assert word.show_to(value, half_width) == text


def test_a_range_is_shown_in_the_unit_of_its_value():
    """240 min is 4 h; 150 to 360 min are 2.5 to 6 h, ± 2 h: no tenths; 2.5 to the even 2."""
    assert MINUTES.show_range(150.0, 360.0, 240.0, 120.0) == "2 to 6 h"
    assert SECONDS.show_range(400.0, 500.0, 450.0, 50.0) == "6.7 to 8.3 min"


def test_an_amount_with_its_unit_apart_takes_any_name_of_the_unit():
    """1 in³ = 16.387064 cm³."""
    for name in ("in³", "in3", "cu in"):
        assert WORDS["casting_volume_cm3"].read({"value": 10, "unit": name}).value == pytest.approx(163.87064)
