"""Every sentence about patterns, flasks and boards that are not possible, or odd.

Written by hand from the three parts of an error, then compared with the library's.
"""

import pytest

BLOCK = {"pattern_length_mm": 150, "pattern_width_mm": 100, "pattern_height_mm": 40}
FLASK = {"flask_length_mm": 300, "flask_width_mm": 300, "drag_depth_mm": 100, "cope_depth_mm": 100}
SHORT = {"name": "short", "flask_length_mm": 220, "flask_width_mm": 170, "drag_depth_mm": 90, "cope_depth_mm": 70}
LONG = {"name": "long", "flask_length_mm": 460, "flask_width_mm": 150, "drag_depth_mm": 85, "cope_depth_mm": 80}
FLASKS = "Flasks on hand: "
BOARDS = "Boards on hand: "
LOOK = " Check the number and its unit."
ROW = "name, flask_length_mm, flask_width_mm, drag_depth_mm and cope_depth_mm"

REFUSED = [
    ({"pattern_length_mm": 0}, ["Pattern length: 0 mm is too little. Enter 1 to 3000 mm." + LOOK]),
    ({"pattern_height_mm": "4 kg"}, ["Pattern height: “4 kg” has a unit that doesn't fit here. Allowed: 1 to 3000 mm. Write mm."]),
    ({"patterns_count": 2.5}, ["Patterns in one flask: 2.5 is not a whole number of patterns. Enter a whole number."]),
    ({"patterns_count": 25}, ["Patterns in one flask: 25 is too much. Enter 1 to 24. Check the number."]),
    ({"parting_height_mm": 41},
     ["Parting line above the underside: 41 mm is above the top of the pattern, which is 40 mm high. Enter 0 to 40 mm."]),
    ({"pattern_volume_cm3": 700},
     ["Pattern volume: 700 cm³ is more than a box of 150 × 100 × 40 mm can hold, which is 600 cm³. Check the sizes and the volume."]),
    ({"pattern_shape": "cone"},
     ["Rough shape of the pattern: “cone” isn't one of the choices. Choose box, upright, lying or ball."]),
    ({"open_top": "half"}, ["Open-top mould: “half” isn't one of the choices. Choose yes or no."]),
    ({"clearance_rule": "my own"}, ["Sand around the pattern: “my own” isn't one of the choices. Choose trade or home."]),
    ({"flask_name": "blue"},
     ["Flask to check: no flask on hand is named “blue”. Enter one of these: one to make."]),
    ({"flask_name": "blue", "flasks": [FLASK, FLASK | {"name": "red"}]},
     ["Flask to check: no flask on hand is named “blue”. Enter one of these: flask 1, red, one to make."]),
    ({"flasks": "two"},
     [FLASKS + 'this isn\'t a list. Enter a list of flasks, each as {"flask_length_mm": …, "flask_width_mm": …, "drag_depth_mm": …}.']),
    ({"flasks": []}, [FLASKS + "the list holds 0 flasks. Enter 1 to 40."]),
    ({"flasks": [{"flask_length_mm": 300, "flask_width_mm": 200}]}, [FLASKS + "flask 1: the drag depth is missing. Enter it."]),
    ({"flasks": [FLASK | {"colour": "red"}]},
     [FLASKS + f"flask 1: “colour” isn't an input of a flask. The inputs are {ROW}."]),
    ({"flasks": [FLASK | {"cope_depth_mm": -1}]},
     ["Flasks on hand, flask 1: cope depth: −1 mm is too little. Enter 0 to 3000 mm." + LOOK]),
    ({"flasks": [FLASK | {"name": "a"}, FLASK | {"name": "a"}]},
     [FLASKS + "2 of them are named “a”. Give each a different name."]),
    ({"boards": [{"thickness_mm": 18, "width_mm": 100}]}, [BOARDS + "board 1: the length is missing. Enter it."]),
    ({"boards": [{"thickness_mm": 180, "width_mm": 100, "length_mm": 900}]},
     ["Boards on hand, board 1: thickness: 180 mm is too much. Enter 3 to 100 mm." + LOOK]),
    ({"boards": [{"thickness_mm": 18, "width_mm": 100, "length_mm": 900, "count": 1.5}]},
     [BOARDS + "1.5 of “board 1” is not a whole number of boards. Enter a whole number."]),
    ({"patterns_count": 1.5, "parting_height_mm": 90, "flask_name": "x"},
     ["Patterns in one flask: 1.5 is not a whole number of patterns. Enter a whole number.",
      "Parting line above the underside: 90 mm is above the top of the pattern, which is 40 mm high. Enter 0 to 40 mm.",
      "Flask to check: no flask on hand is named “x”. Enter one of these: one to make."]),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), REFUSED)
def test_impossible_inputs_are_refused_in_words(messages, given, said):
    assert messages("fit", **(BLOCK | given)) == said


def test_all_three_sizes_are_needed(messages):
    takes = "this is empty. Enter 1 to 3000 mm."
    assert messages("fit") == [f"Pattern {size}: {takes}" for size in ("length", "width", "height")]


ODD = [
    ({"pattern_height_mm": 500, "parting_height_mm": 200},
     "Pattern height: 500 mm is outside the usual 5 to 400 mm. It is used as entered."),
    ({}, "The pattern's volume is worked out from its sizes: 600 cm³. A hollow or thin pattern has less."),
    ({"open_top": True}, "An open-top mould has no cope and no weights, and the top of the casting stays rough."),
    ({"pattern_shape": "ball", "pattern_width_mm": 150, "pattern_height_mm": 144},
     "The pattern should be round, but its sizes differ. It is taken as 148 mm across, the mean of its sizes."),
    ({"flasks": [FLASK], "heap_kg": 20},
     "7.1 L of dry filler blocks would replace the missing sand. There is space for 9.2 L at least 50 mm from the cavity."),
    ({"flasks": [FLASK], "heap_kg": 28}, "The heap covers the 27.0 kg that are rammed in, but leaves nothing in reserve for spills."),
    ({"flasks": [FLASK], "heap_kg": 28},
     "The heap is enough for a smaller flask that you would have to make: 260 × 160 mm, drag 80, cope 40 inside needs 8.51 kg, spare included."),
    ({"flasks": [SHORT], "flask_name": "short"},
     "This flask leaves too little sand: 20 mm too little at the ends. One of 260 × 160 mm, drag 80, cope 40 would be large enough."),
    ({"flasks": [SHORT | {"flask_length_mm": 261}]}, "It clears by less than 2 mm. Measure the flask and the pattern again before you ram."),
    ({}, "Upright sides need draft: 1 to 2 mm of taper in 100 mm. Without it the sand tears when you draw the pattern."),
    ({"clearance_rule": "home", "metal": "tin_bronze"},
     "The home rule is for small castings, and this one weighs 5.2 kg. The trade rule leaves more sand."),
    ({"pattern_shape": "ball", "pattern_width_mm": 150, "pattern_height_mm": 150, "parting_height_mm": 0},
     ("With this parting the pattern can't be drawn: 180 cm² of it is undercut, as seen from above and below. Put the parting 75 mm above its "
     "underside.")),
    ({"pattern_length_mm": 60, "pattern_width_mm": 60, "pattern_height_mm": 300},
     ("With its width upright, parted on top, the pattern needs 13 % less sand than as given. The cope is then 40 mm, and the draw is no "
     "deeper: 60 mm.")),
    ({"flasks": [LONG], "flask_name": "long", "pattern_height_mm": 30},
     "The cope needs 2 bars across its width, at least 19 mm from the pattern and at most 61 mm deep above the pattern."),
    ({"flasks": [FLASK], "wall_thickness_mm": 9},
     ("In 9 mm plywood the long walls need 1 cleat or clamp across the flask; thicker wood needs fewer. This uses the highest push that could "
     "occur.")),
    ({"flasks": [FLASK | {"cope_depth_mm": 30}], "flask_name": "flask 1"},
     "A cope of less than 40 mm is shallow: metal can break out above the casting."),
    ({"boards": [{"thickness_mm": 18, "width_mm": 60, "length_mm": 2000}]},
     "The boards are not enough. These pieces can't be cut from them: drag side 296 × 80 mm and drag end 160 × 80 mm."),
    ({"boards": [{"thickness_mm": 15, "width_mm": 123, "length_mm": 1000}]}, "Boards used: 1. No plan needs fewer."),
    ({"boards": [{"thickness_mm": 15, "width_mm": 123, "length_mm": 1000}]},
     "The boards are 15 mm thick, and the walls are calculated as 18 mm."),
    ({"flasks": [FLASK | {"cope_depth_mm": 150}]},
     ("Both halves weigh 40 kg. That is above both guideline figures, about 16 and 25 kg at waist height and close to the body. Turn them over "
     "with two people, or ram the mould where it will be poured.")),
    ({"flasks": [FLASK | {"cope_depth_mm": 150}]},
     "The cope alone holds 20.9 kg of sand, and you lift it at arm's length: lift it with two people."),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), ODD)
def test_odd_inputs_are_remarked(ask, given, said):
    """Filler: (18 − 0.6) 1.55 × 1.25 − 20 = 13.71 kg / 1.9375 = 7.08 L; turned, with its sprue, 150 × 150: 18 − 2.5 × 2.5 × 1.4 = 9.25 L of space."""
    answer = ask("fit", **(BLOCK | given))
    assert answer["ok"]
    assert said in answer["remarks"], answer["remarks"]


def test_the_word_that_claims_there_is_no_danger_is_never_printed(ask):
    answers = [ask("fit", **(BLOCK | given)) for given, _ in ODD]
    told = [
        answer[part]
        for answer in answers
        for part in ("headline", "remarks", "cautions", "working", "drawings", "shown")
    ]
    assert "safe" not in str(told).lower()
