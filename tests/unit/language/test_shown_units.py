"""The unit to show an amount in, and the wish of one question.

Expected figures follow from 1 lb = 0.45359237 kg, 1 in = 25.4 mm and °F = 1.8 °C + 32, by hand.
"""

import pytest

from sandmix.language import units
from sandmix.language.errors import InputError
from sandmix.language.shown_units import NO_WISH, SYSTEMS, UNIT_KINDS, read_wish, showing, wish_of, wished
from sandmix.vocabulary import WORDS


def test_the_first_choice_of_each_kind_is_the_librarys_own_unit() -> None:
    assert all(kind.choices[0].wish == NO_WISH for kind in UNIT_KINDS)


@pytest.mark.parametrize("kind", UNIT_KINDS, ids=lambda kind: kind.key)
def test_every_choice_names_units_that_measure_the_same_thing(kind) -> None:
    for choice in kind.choices:
        assert read_wish(choice.wish) == choice.wish
        assert all(to in units.same_dimension(own) for own, to in choice.wish.items())


def test_a_system_names_choices_that_exist() -> None:
    known = {kind.key: {choice.key for choice in kind.choices} for kind in UNIT_KINDS}
    for _, choices in SYSTEMS.values():
        assert all(key in known[kind] for kind, key in choices.items())
    assert wish_of("metric") == {}
    assert wish_of("inch")["°C"] == "°F"


def test_a_unit_that_stands_for_itself_is_no_wish() -> None:
    assert read_wish({"kg": "kilograms", "mm": "inch"}) == {"mm": "in"}


def test_a_wish_counts_only_while_its_question_is_answered() -> None:
    with showing({"kg": "lb"}):
        assert wished() == {"kg": "lb"}
        with showing(NO_WISH):
            assert wished() == {}
        assert wished() == {"kg": "lb"}
    assert wished() == {}


def test_a_wish_ends_where_its_question_is_refused() -> None:
    with pytest.raises(ValueError, match="refused"), showing({"kg": "lb"}):
        raise ValueError("refused")
    assert wished() == {}


@pytest.mark.parametrize(
    ("given", "messages"),
    [
        ("lb", ['Units to show: write the units to show as {"kg": "lb", "mm": "in"}.']),
        (
            {"kg": "mm", "foo": "kg"},
            [
                "Units to show: “mm” can't stand for kg. Use kg, g, t, lb or oz.",
                "Units to show: “foo” isn't a unit of sandmix. Name one such as kg.",
            ],
        ),
    ],
)
def test_a_wish_that_cant_be_read_is_refused_with_all_problems(given, messages) -> None:
    with pytest.raises(InputError) as refused:
        read_wish(given)
    assert [problem.message for problem in refused.value.problems] == messages


@pytest.mark.parametrize(
    ("word", "value", "half_width", "metric", "shown"),
    [
        ("heap_kg", 45.0, None, "45 kg", "99.21 lb"),
        ("heap_kg", 45.0, 1.0, "45.0 kg", "99 lb"),
        ("heap_kg", 0.3, None, "300 g", "10.6 oz"),
        ("flask_length_mm", 254.0, None, "254 mm", "10 in"),
        ("casting_volume_cm3", 100.0, 5.0, "100 cm³", "6.1 in³"),
        ("pour_temp_c", 700.0, None, "700 °C", "1292 °F"),
        ("moisture_pct_wet", 3.4, None, "3.4 %", "3.4 %"),
    ],
)
def test_a_figure_is_shown_in_the_unit_that_was_wished_for(word, value, half_width, metric, shown) -> None:
    wish = {"kg": "lb", "mm": "in", "cm³": "in³", "°C": "°F"}
    assert WORDS[word].show_to(value, half_width) == metric
    with showing(wish):
        assert WORDS[word].show_to(value, half_width) == shown


def test_both_ends_of_a_range_have_the_unit_of_the_figure_itself() -> None:
    with showing({"kg": "lb"}):
        assert WORDS["heap_kg"].show_range(0.40, 0.50, 0.45, 0.05) == "14.1 to 17.6 oz"
        assert WORDS["heap_kg"].show_range(40.0, 50.0, 45.0, 5.0) == "88 to 110 lb"


def test_a_difference_of_temperatures_stays_in_degrees_celsius() -> None:
    with showing({"°C": "°F"}):
        assert WORDS["heat_loss_c"].show_to(20.0, None) == "20 °C"
