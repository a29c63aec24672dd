"""Amounts as people write them."""

import pytest

from sandmix.language.amounts import naming_unit, read
from sandmix.language.units import Unreadable

READ = [
    ("2,5", "kg", 2.5),
    ("2.5", "kg", 2.5),
    (".5", "kg", 0.5),
    ("25kg", "kg", 25),
    ("25 KG.", "kg", 25),
    ("55 lb", "kg", 55 * 0.45359237),
    ("500 g", "kg", 0.5),
    ("3 lb 4 oz", "kg", 3.25 * 0.45359237),
    ("3-1/2 in", "mm", 88.9),
    ("3 1/2 in", "mm", 88.9),
    ("7 ½ in", "mm", 190.5),
    ("7½ in", "mm", 190.5),
    ("½", "kg", 0.5),
    ("1/4 lb", "kg", 0.45359237 / 4),
    ("1 ft 6 in", "mm", 457.2),
    ("1' 6\"", "mm", 457.2),
    ("35 000 g", "kg", 35),
    ("35\u202f000 g", "kg", 35),
    ("1,234.5", "kg", 1234.5),
    ("1.234,5", "kg", 1234.5),
    ("1,234,567", "kg", 1234567),
    ("0,500", "kg", 0.5),
    ("1e3", "kg", 1000),
    ("+5", "kg", 5),
    ("-5", "kg", -5),
    ("−5 g", "kg", -0.005),
    ("-0", "kg", 0),
    ("6,4 %", "%", 6.4),
    ("6.4 percent", "%", 6.4),
    ("٢٥", "kg", 25),
    ("２５ kg", "kg", 25),
    ("२.५", "kg", 2.5),
    ("600 cm³", "cm³", 600),
    ("600 cm³", "cm³", 600),
    ("0.6 L", "cm³", 600),
    ("10 in³", "cm³", 163.87064),
    ("2 US gal", "L", 7.570823568),
    ("1 imperial gallon", "L", 4.54609),
    ("97 lb/ft³", "kg/L", 97 * 0.01601846337),
    ("1600 kg/m³", "kg/L", 1.6),
    ("212 °F", "°C", 100),
    ("-40 F", "°C", -40),
    ("90 min", "h", 1.5),
    ("90 m", "h", 1.5),
    ("9", "", 9),
    ("9 parts", "", 9),
]


@pytest.mark.parametrize(("text", "unit", "expected"), READ)
def test_an_amount_is_read_as_a_person_means_it(text, unit, expected):
    assert read(text, unit).value == pytest.approx(expected, rel=1e-9)


def test_a_number_without_a_unit_is_in_the_chosen_unit():
    assert read("25", "kg", when_bare="lb").value == pytest.approx(25 * 0.45359237)
    assert read("25 kg", "kg", when_bare="lb").value == 25
    assert read("-2", "kg", when_bare="lb").value == pytest.approx(-2 * 0.45359237)


def test_the_typed_unit_is_returned():
    assert read("25", "kg").typed_unit is None
    assert read("3 lb 4 oz", "kg").typed_unit == "lb"


MARGINS = [
    ("6.4 ± 0.3 %", "%", None, 6.4, 0.3),
    ("6.4 % ± 0.3", "%", None, 6.4, 0.3),
    ("6.4 +/- 0.3", "%", None, 6.4, 0.3),
    ("6.4+-0.3", "%", None, 6.4, 0.3),
    ("25 kg ± 500 g", "kg", None, 25, 0.5),
    ("500 ± 5 g", "kg", None, 0.5, 0.005),
    ("10 lb ± 1", "kg", None, 4.5359237, 0.45359237),
    ("10 ± 1", "kg", "lb", 4.5359237, 0.45359237),
    ("212 ± 9 °F", "°C", None, 100, 5),
    ("100 °C ± 9 °F", "°C", None, 100, 5),
    ("100 ± 5 °C", "°C", None, 100, 5),
    ("212 °F ± 9", "°C", None, 100, 5),
    ("100 °C ± 5", "°F", None, 212, 9),
    ("100 ± 5", "°C", None, 100, 5),
]


@pytest.mark.parametrize(("text", "unit", "chip", "value", "half_width"), MARGINS)
def test_a_plus_minus_is_read_with_the_amount(text, unit, chip, value, half_width):
    reading = read(text, unit, when_bare=chip)
    assert reading.value == pytest.approx(value)
    assert reading.half_width == pytest.approx(half_width)


REFUSED = [
    ("", "kg", "This is empty."),
    (" \u00a0 ", "kg", "This is empty."),
    ("x" * 61, "kg", "61 characters"),
    ("7:1", "kg", "is a ratio"),
    ("1 in 9 by depth", "%", "is a ratio"),
    ("7 to 1", "", "is a ratio"),
    ("5 gal", "L", "US one (3.785 L) or the imperial one (4.546 L)"),
    ("2 gallons", "L", "Write US gal or imp gal."),
    ("5 oz", "L", "fluid ounce"),
    ("1 pint", "L", "pint"),
    ("2 quarts", "L", "quart"),
    ("2 tons", "kg", "1000 kg, 2000 lb or 2240 lb"),
    ("a cup", "kg", "no fixed size"),
    ("one bucket", "kg", "no fixed size"),
    ("a handful of sand, more or less the size of a fist", "kg", "no fixed size"),
    ("3 shovels", "kg", "no fixed size"),
    ("1,000", "kg", "can mean 1.000 or 1000"),
    ("1.2.3", "kg", "more than one decimal mark"),
    ("1,2,3", "kg", "more than one decimal mark"),
    ("1.23,4.5", "kg", "order that can't be read"),
    ("1,23.4", "kg", "order that can't be read"),
    ("1/0", "kg", "divides by zero"),
    ("3 lb 4", "kg", "second number without a unit"),
    ("4 oz 3 lb", "kg", "from a larger unit to a smaller one"),
    ("5 °C 3 °C", "°C", "from a larger unit to a smaller one"),
    ("5 kg ± 1 ± 2", "kg", "The ± belongs after a number"),
    ("± 3", "kg", "Write"),
    ("5 stone", "kg", "isn't a known unit"),
    ("8 furlongs/cm2", "kPa", "“furlongs/cm2” isn't a known unit"),
    ("8 dyn/cm2", "kg", "“dyn/cm2” isn't a known unit"),
    ("3 foo 4 oz", "kg", "“foo” isn't a known unit"),
    ("3 kg/m³", "kg", "“3 kg/m³” has a unit that doesn't fit here"),
    ("5 N/cm²", "kg", "“5 N/cm²” has a unit that doesn't fit here"),
    ("5 mm", "kg", "has a unit that doesn't fit here"),
    ("25 ± 5 %", "kg", "has a unit that doesn't fit here"),
    ("-", "kg", "isn't a number"),
    ("5 ±", "kg", "Write"),
    ("🔥", "kg", "isn't a number"),
    ("many", "", "isn't a number"),
    ("²", "kg", "isn't a number"),
    ("five hundred and twenty grams of it", "kg", "…"),
    ("nan", "kg", "isn't a number"),
]


@pytest.mark.parametrize(("text", "unit", "said"), REFUSED)
def test_an_unreadable_text_is_refused_with_the_reason(text, unit, said):
    with pytest.raises(Unreadable) as refused:
        read(text, unit)
    assert said in str(refused.value)
    assert refused.value.why
    assert refused.value.instead


def test_an_amount_too_large_for_a_number_is_read_as_infinite():
    assert read("1e400", "kg").value == float("inf")
    assert read("-1e400", "kg").value == float("-inf")


@pytest.mark.parametrize("text", ["2-3", "2 - 3 kg", "2–3 kg", "10 to 12 kg"])
def test_a_range_is_refused_and_one_number_asked_for(text):
    with pytest.raises(Unreadable) as refused:
        read(text, "kg")
    assert "range" in str(refused.value)


@pytest.mark.parametrize(
    ("text", "unit", "named"),
    [
        ("25", "kg", "25 kg"),
        ("5e2", "g", "5e2 g"),
        ("6.4 ± 0.3", "%", "6.4 ± 0.3 %"),
        ("3 lb 4 oz", "kg", "3 lb 4 oz"),
        ("5e2 g", "kg", "5e2 g"),
        ("0.02", "", "0.02"),
        ("a lot", "kg", "a lot"),
    ],
)
def test_a_unit_follows_only_a_text_that_names_none(text, unit, named):
    assert naming_unit(text, unit) == named


def test_a_unit_in_the_text_goes_before_the_unit_of_the_chip():
    assert read("3 lb 4 oz", "kg", when_bare="kg").value == pytest.approx(3.25 * 0.45359237)
    assert read("5e2", "kg", when_bare="g").value == pytest.approx(0.5)
