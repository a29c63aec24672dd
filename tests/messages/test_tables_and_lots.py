"""Word for word what is said to tables, lists and shares that can't be.

Written by hand from the three parts of an error, then compared with the library's.
"""

import pytest

KEYS = "6, 12, 20, 30, 40, 50, 70, 100, 140, 200, 270 or pan"
LOOK = " Check the number and its unit."
SHARE = "Live clay burnt per cast: "
TABLE = "Retained on each sieve: "
LOTS = "Lots of sand: "

RETAINED = [
    ("fine", [TABLE + f"this isn't a table. Enter a number for each of {KEYS}."]),
    ({}, [TABLE + f"this isn't a table. Enter a number for each of {KEYS}."]),
    ([1, 2], [TABLE + f"this isn't a table. Enter a number for each of {KEYS}."]),
    ({"50": "some"},
     ["Retained on each sieve, No. 50: what it holds: “some” isn't a number. Allowed: 0 to 1000000. Write a number."]),
    ({"50": -1},
     ["Retained on each sieve, No. 50: what it holds: −1 is too little. Enter 0 to 1000000. Check the number."]),
    ({"50": 0, "pan": 0}, [TABLE + "all sieves are empty. Enter what each of them holds, in grams."]),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), RETAINED)
def test_a_wrong_table_is_refused(messages, given, said):
    assert messages("fineness", retained=given) == said


LOT = [
    ([],
     [LOTS + "the list holds 0 lots. Enter 1 to 6."]),
    ([{"kg": 1}] * 7,
     [LOTS + "the list holds 7 lots. Enter 1 to 6."]),
    ("sand",
     [LOTS + 'this isn\'t a list. Enter a list of lots, each as {"kg": …}.']),
    ([5],
     [LOTS + 'lot 1 isn\'t an object of words and values. Write it as {"kg": …}.']),
    ([{"clay_pct_dry": 5}],
     [LOTS + "lot 1: the mass is missing. Enter it."]),
    ([{"kg": 5, "colour": "red"}],
     [LOTS + "lot 1: “colour” isn't an input of a lot. The inputs are kg, moisture_pct_wet, clay_pct_dry, dead_fines_pct_dry and retained."]),
    ([{"kg": 5}, {"kg": 0}],
     ["Lots of sand, lot 2: mass: 0 kg is too little. Enter 0.01 to 5000 kg." + LOOK]),
    ([{"kg": 5, "clay_pct_dry": 60, "dead_fines_pct_dry": 50}],
     [LOTS + "lot 1: live clay and dead fines add up to 110 % of its dry sand. Check both."]),
    ([{"kg": 5, "retained": {"50": 0}}],
     [LOTS + "lot 1: all its sieves are empty. Enter what they hold, or leave the sieves out."]),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), LOT)
def test_a_wrong_lot_is_refused(messages, given, said):
    assert messages("blend", lots=given) == said


def test_a_clay_that_is_too_weak_for_the_target_is_refused(messages):
    assert messages("blend", lots=[{"kg": 5}], target_clay_pct_dry=50, clay_activity_pct=50) == [
        "Target live clay: a clay that is 50 % live cannot bring sand to 50 %. Enter a lower target, or use a better clay."
    ]


HABIT = {"clay_pct_dry": 8, "clay_burnt_share": 0.02}
FORECAST = [
    ({"clay_burnt_share": 2}, SHARE + "2 is too much. Enter 0 to 1. If you mean percent, write 2 %."),
    ({"clay_burnt_share": 200}, SHARE + "200 is too much. Enter 0 to 1. Check the number."),
    ({"clay_burnt_share": "two %"}, SHARE + "“two %” isn't a share. Write 0.02 or 2 %."),
    ({"clay_burnt_share": "200 %"}, SHARE + "2 is too much. Enter 0 to 1. Check the number."),
    ({"casts": 2.5}, "Casts: 2.5 isn't a whole number. Enter a whole number of casts."),
    ({"make_up": "maybe"}, "Clay added after each cast: “maybe” isn't one of the choices. Choose yes or no."),
    ({"clay_pct_dry": 60, "dead_clay_pct_dry": 50},
     "Dead clay now: live and dead clay add up to 110 % of the dry sand. Together they can be at most 100 %. Check both."),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), FORECAST)
def test_an_impossible_habit_is_refused(messages, given, said):
    assert messages("forecast", **(HABIT | given)) == [said]


def test_missing_inputs_are_asked_for(messages):
    assert [text.split(":")[0] for text in messages("forecast")] == ["Live clay now", "Live clay burnt per cast"]
    assert len(messages("fineness")) == len(messages("blend")) == 1
