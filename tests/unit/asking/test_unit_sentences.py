"""Amounts inside sentences. Expected figures follow from the exact sizes of pound, ounce and inch, and from °F = 1.8 °C + 32, by hand."""

import pytest

from sandmix.asking.unit_sentences import in_wished_units, sentences_in

WISH = {"kg": "lb", "g": "oz", "mm": "in", "°C": "°F", "cm³": "in³", "kg/L": "lb/ft³"}


@pytest.mark.parametrize(
    ("sentence", "shown"),
    [
        ("Enough: 35 kg of the 45 kg.", "Enough: 77 lb of the 99 lb."),
        ("about 16 and 25 kg at waist height", "about 35 and 55 lb at waist height"),
        ("1 to 2 mm of taper in 100 mm", "0.039 to 0.079 in of taper in 3.9 in"),
        ("460 × 150 mm inside", "18.1 × 5.9 in inside"),
        ("Add 0.2 kg of clay", "Add 7.1 oz of clay"),
        ("poured at 720 ± 10 °C", "poured at 1328 ± 18 °F"),
        ("colder than −5 °C", "colder than 23 °F"),
        ("316 or at 638 °C", "601 or at 1180 °F"),
        ("from 0.05 to 5000 kg", "from 0.11 to 11023 lb"),
    ],
)
def test_an_amount_in_a_sentence_has_the_unit_that_was_wished_for(sentence, shown) -> None:
    assert in_wished_units(sentence, WISH) == shown
    assert in_wished_units(sentence, {}) == sentence


@pytest.mark.parametrize(
    "sentence",
    [
        "Density: 2370 kg/m³ ± 3 %.",
        "0.23 kg of sand per kg of casting loses its clay.",
        "1.00 cm³ of hydrogen per 100 g of metal",
        "The metal loses 20 °C on its way.",
        "“300 mm” is too small.",
        "If you mean g, write 45 g.",
        "Wait 10 min, and take 3 of 4 bags.",
        "12 mmol, 3 kgf and 20 m²",
    ],
)
def test_what_is_no_amount_of_that_unit_stays(sentence) -> None:
    assert in_wished_units(sentence, WISH) == sentence


def test_figures_formulas_and_inputs_of_an_answer_stay_and_its_sentences_do_not() -> None:
    answer = {
        "headline": "Take 45 kg.",
        "result": {"make_kg": 45.0},
        "working": ["make = 45 kg"],
        "next": [{"label": "Mix 45 kg", "inputs": {"heap_kg": "45 kg"}}],
        "shown": [
            {"word": "heat_loss_c", "label": "At 720 °C", "text": "20 °C", "range": "15 to 25 °C", "basis": "in 45 kg"}
        ],
    }
    said = sentences_in(answer, WISH)
    assert said["headline"] == "Take 99 lb."
    assert said["next"] == [{"label": "Mix 99 lb", "inputs": {"heap_kg": "45 kg"}}]
    assert {part: said[part] for part in ("result", "working")} == {
        part: answer[part] for part in ("result", "working")
    }
    assert said["shown"] == [answer["shown"][0] | {"label": "At 1328 °F", "basis": "in 99 lb"}]
