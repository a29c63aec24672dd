"""Word for word what is said to patterns, flasks and boards that can't be.

Written by hand from the three parts of an error, then compared with the library's.
"""

import pytest

BLOCK = {"pattern_length_mm": 150, "pattern_width_mm": 100, "pattern_height_mm": 40}
FLASK = {"flask_length_mm": 300, "flask_width_mm": 300, "drag_depth_mm": 100, "cope_depth_mm": 100}
FLASKS = "Flasks on hand: "
BOARDS = "Boards on hand: "
LOOK = " Check the number and its unit."
ROW = "name, flask_length_mm, flask_width_mm, drag_depth_mm and cope_depth_mm"

REFUSED = [
    ({"pattern_length_mm": 0}, ["Pattern length: 0 mm is too little. Enter 1 to 3000 mm." + LOOK]),
    ({"pattern_height_mm": "4 kg"}, ["Pattern height: “4 kg” has a unit that doesn't fit here. Allowed: 1 to 3000 mm. Write mm."]),
    ({"patterns_count": 2.5}, ["Patterns in one flask: 2.5 is no whole number of patterns. Write one."]),
    ({"patterns_count": 25}, ["Patterns in one flask: 25 is too much. Enter 1 to 24. Check the number."]),
    ({"parting_height_mm": 41},
     ["Parting line above the underside: 41 mm is above the top of a pattern 40 mm high. Give 0 to 40 mm."]),
    ({"pattern_volume_cm3": 700},
     ["Pattern volume: 700 cm3 do not go into a box of 150 × 100 × 40 mm, which holds 600. Look at sizes and volume."]),
    ({"pattern_shape": "cone"},
     ["Rough shape of the pattern: “cone” isn't one of the choices. Choose box, upright, lying or ball."]),
    ({"open_top": "half"}, ["Open-top mould: “half” isn't one of the choices. Choose yes or no."]),
    ({"clearance_rule": "my own"}, ["Sand around the pattern: “my own” isn't one of the choices. Choose trade or home."]),
    ({"flask_name": "blue"},
     ["Flask to check: no flask on hand is called “blue”. Name one of these: one to make."]),
    ({"flask_name": "blue", "flasks": [FLASK, FLASK | {"name": "red"}]},
     ["Flask to check: no flask on hand is called “blue”. Name one of these: flask 1, red, one to make."]),
    ({"flasks": "two"},
     [FLASKS + 'this isn\'t a list. Enter a list of flasks, each as {"flask_length_mm": …, "flask_width_mm": …, "drag_depth_mm": …}.']),
    ({"flasks": []}, [FLASKS + "the list holds 0 flasks. Enter 1 to 40."]),
    ({"flasks": [{"flask_length_mm": 300, "flask_width_mm": 200}]}, [FLASKS + "flask 1: the drag depth is missing. Enter it."]),
    ({"flasks": [FLASK | {"colour": "red"}]},
     [FLASKS + f"flask 1: “colour” isn't an input of a flask. The inputs are {ROW}."]),
    ({"flasks": [FLASK | {"cope_depth_mm": -1}]},
     ["Flasks on hand, flask 1: cope depth: −1 mm is too little. Enter 0 to 3000 mm." + LOOK]),
    ({"flasks": [FLASK | {"name": "a"}, FLASK | {"name": "a"}]},
     [FLASKS + "2 of them are called “a”. Give each a name of its own."]),
    ({"boards": [{"thickness_mm": 18, "width_mm": 100}]}, [BOARDS + "board 1: the length is missing. Enter it."]),
    ({"boards": [{"thickness_mm": 180, "width_mm": 100, "length_mm": 900}]},
     ["Boards on hand, board 1: thickness: 180 mm is too much. Enter 3 to 100 mm." + LOOK]),
    ({"boards": [{"thickness_mm": 18, "width_mm": 100, "length_mm": 900, "count": 1.5}]},
     [BOARDS + "1.5 of “board 1” is no whole number of boards. Write one."]),
    ({"patterns_count": 1.5, "parting_height_mm": 90, "flask_name": "x"},
     ["Patterns in one flask: 1.5 is no whole number of patterns. Write one.",
      "Parting line above the underside: 90 mm is above the top of a pattern 40 mm high. Give 0 to 40 mm.",
      "Flask to check: no flask on hand is called “x”. Name one of these: one to make."]),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), REFUSED)
def test_what_can_not_be(messages, given, said):
    assert messages("fit", **(BLOCK | given)) == said


def test_all_three_sizes_are_needed(messages):
    takes = "this is empty. Enter 1 to 3000 mm."
    assert messages("fit") == [f"Pattern {size}: {takes}" for size in ("length", "width", "height")]


ODD = [
    ({"pattern_height_mm": 500, "parting_height_mm": 200},
     "Pattern height: 500 mm is outside the usual 5 to 400 mm. It is used as entered."),
    ({}, "The pattern's volume is taken from its sizes: 600 cm3. A hollow or thin one is less."),
    ({"open_top": True}, "An open top: no cope, no weights, and the upper face of the casting stays rough."),
    ({"pattern_shape": "ball", "pattern_width_mm": 150, "pattern_height_mm": 144},
     "What should be round is not: it is taken as 148 mm across, the mean of its sizes."),
    ({"flasks": [FLASK], "heap_kg": 20},
     "7.1 L of dry filler blocks would make up for the missing sand, of 9.2 L that have room at least 50 mm from the cavity."),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), ODD)
def test_lawful_but_odd_is_a_remark(ask, given, said):
    """Filler: (18 − 0.6) 1.55 × 1.25 − 20 = 13.71 kg / 1.9375 = 7.08 L; turned, with its sprue, 150 × 150: 18 − 2.5 × 2.5 × 1.4 = 9.25 L of room."""
    answer = ask("fit", **(BLOCK | given))
    assert answer["ok"]
    assert said in answer["remarks"], answer["remarks"]


def test_the_word_that_claims_there_is_no_danger_is_never_said(ask):
    answers = [ask("fit", **(BLOCK | given)) for given, _ in ODD]
    told = [
        answer[part]
        for answer in answers
        for part in ("headline", "remarks", "cautions", "working", "drawings", "shown")
    ]
    assert "safe" not in str(told).lower()
