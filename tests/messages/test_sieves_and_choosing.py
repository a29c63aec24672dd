"""The exact messages for impossible sieves, blends and bags.

Written by hand from the three parts of an error, then compared with the library's.
"""

import pytest

TABLE = "Retained on each sieve: "
HOW = "Name it by its number, 6, 12, 20, 30, 40, 50, 70, 100, 140, 200, 270 or pan, or by its opening with a unit, such as 0.8 mm."
LOTS = "Lots of sand: "
COARSE, FINE = {"kg": 5, "retained": {"50": 3}}, {"kg": 5, "retained": {"100": 3}}
SWAPPED = " Check whether the two are swapped."

FINENESS = [
    ({"retained": {"55": 3}}, [TABLE + f"“55” is not the number of a sieve. {HOW}"]),
    ({"retained": "50: 3; 55: 4"}, [TABLE + f"“55” is not the number of a sieve. {HOW}"]),
    ({"retained": {"tea strainer": 3}}, [TABLE + f"“tea strainer” does not name a sieve. {HOW}"]),
    ({"retained": {"0.3": 3}}, [TABLE + "“0.3” could be a number or an opening. Write its unit, such as 0.3 mm."]),
    ({"retained": {"40 mm": 3}},
     [TABLE + "“40 mm” is not an opening for sieving sand. Enter an opening of 0.02 to 25 mm."]),
    ({"retained": {"50": 3, "300 um": 2}}, [TABLE + "No. 50 is given twice. Enter the sum once."]),
    ({"retained": {"0.8 mm": 3, "800 um": 2, "pan": 1}},
     [TABLE + "0.8 mm is given twice. Enter the sum once."]),
    ({"retained": {"0.8 mm": -1}},
     ["Retained on each sieve, 0.8 mm: what it holds: −1 is too little. Enter 0 to 1000000. Check the number."]),
    ({"retained": {"50": 0, "pan": 0}}, [TABLE + "all sieves are empty. Enter what each of them holds, in grams."]),
    ({"retained": {"50": 3}, "clay_washed_g": 60, "sample_g": 50},
     ["Washed out before sieving: 60 g is the whole 50 g sample or more. Enter the dry weight of the sample before washing."]),
    ({"retained": {"50": 3}, "unnamed_sieves": "lost"},
     ["Sieves left out: “lost” isn't one of the choices. Choose empty or absent."]),
]  # fmt: skip


@pytest.mark.parametrize(("inputs", "expected"), FINENESS)
def test_impossible_sieves_are_refused(messages, inputs, expected):
    assert messages("fineness", **inputs) == expected


def test_the_allowed_sieves_are_listed(ask):
    (problem,) = ask("fineness", retained={"55": 3})["problems"]
    assert problem["given"] == "55"
    assert problem["allowed"] == (
        "6, 12, 20, 30, 40, 50, 70, 100, 140, 200, 270 or pan, or openings of 0.02 to 25 mm, each 0 to 1000000"
    )


MATCH = [
    ({"lots": [COARSE, {"kg": 5}], "target_gfn": 60},
     [LOTS + "lot 2: enter what its sieves hold. Sieve a sample of it."]),
    ({"lots": [COARSE, FINE | {"clay_pct_dry": 60, "dead_fines_pct_dry": 40}], "target_gfn": 60},
     [LOTS + "lot 2: it is all clay and fines and has no grain. Leave the lot out."]),
    ({"lots": [COARSE, {"kg": 5, "retained": {"50": 0}}], "target_gfn": 60},
     [LOTS + "lot 2: all its sieves are empty. Enter what they hold, or leave the sieves out."]),
    ({"lots": [COARSE, FINE | {"clay_pct_dry": 60, "dead_fines_pct_dry": 50}], "target_gfn": 60},
     [LOTS + "lot 2: live clay and dead fines add up to 110 % of its dry sand. Check both."]),
    ({"lots": [COARSE, FINE], "target_gfn": 60, "make_kg": 12},
     ["Sand to make of them: 12 kg is more than all lots together, 10 kg. Enter less, or leave it empty."]),
    ({"lots": [COARSE, FINE], "target_gfn": 400},
     ["Target fineness number: 400 is too much. Enter 3 to 300. Check the number."]),
]  # fmt: skip


@pytest.mark.parametrize(("inputs", "expected"), MATCH)
def test_impossible_blends_are_refused(messages, inputs, expected):
    assert messages("match", **inputs) == expected


def test_match_needs_lots_and_a_target(messages):
    assert [text.split(":")[0] for text in messages("match")] == ["Lots of sand", "Target fineness number"]


CHOOSE = [
    ({}, ["What you need it for: the label does not say what it is. Choose sand or clay."]),
    ({"bag_label": "cement", "stuff": "sand"},
     ["What you need it for: “cement, lime or plaster” is a clay. Enter clay, or choose another label."]),
    ({"bag_label": "play_sand", "stuff": "clay"},
     ["What you need it for: “play sand” is a sand. Enter sand, or choose another label."]),
    ({"bag_label": "granules", "ground_kg": 1, "passed_kg": 2},
     ["Mass that passed the sieve: 2 kg is more than the 1 kg it came from." + SWAPPED]),
    ({"bag_label": "granules", "bought_kg": 1, "ground_kg": 2, "passed_kg": 3},
     ["Mass that passed the sieve: 3 kg is more than the 2 kg it came from." + SWAPPED,
      "Mass ground or sieved: 2 kg is more than the 1 kg it came from." + SWAPPED]),
    ({"bag_label": "granules", "clay_vinegar": "a little"},
     ["Clay bubbles in vinegar: “a little” isn't one of the choices. Choose yes, no or not_tried."]),
    ({"bag_label": "granules", "swell_ml": 130},
     ["Swollen volume: 130 mL is too much. Enter 0 to 100 mL. Check the number and its unit."]),
]  # fmt: skip


@pytest.mark.parametrize(("inputs", "said"), CHOOSE)
def test_refused_inputs_of_choose(messages, inputs, said):
    assert messages("choose", **inputs) == said
