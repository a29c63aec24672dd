"""The exact messages for impossible readings of a test, and the exact remarks about what an estimate leaves out.

Written by hand from the three parts of an error, then compared with the library's.
"""

import pytest

LOOK = " Check the number and its unit."
TESTS = (
    "moisture, wash, methylene_blue, permeability, compactability, water_sensitivity, strength, swell, tin_density, jar, squeeze, shatter, hardness, "
    "loss_on_ignition, volatiles, spray"
)
SANDS = {
    "test": "water_sensitivity",
    "moisture_first_pct_wet": 4,
    "moisture_second_pct_wet": 3,
    "compactability_first_pct": 40,
}

INSIDE = (
    "Volume of the tin: the test “Rammed density, in a tin” needs it, or inside diameter of the tin and inside height of the tin instead. "
    "Enter 1 to 10000 mL."
)

LOAD = (
    "Breaking load: the test “Green strength, by crushing” needs it, or breaking force or strength, as read instead. "
    "Enter 0 to 2000 kg."
)

BENCH = [
    ({}, [f"Test: this is empty. Enter {TESTS} or flask_density."]),
    ({"test": "smell"}, [f"Test: “smell” isn't one of the choices. Choose {TESTS} or flask_density."]),
    ({"test": "moisture", "sample_wet_g": 100},
     ["Sample after drying: the test “Moisture, by drying” needs it. Enter 0.1 to 20000 g."]),
    ({"test": "wash"},
     ["Sample: the test “Wash” needs it. Enter 0.01 to 20000 g.",
      "Washed out: the test “Wash” needs it, or mass left instead. Enter 0 to 20000 g."]),
    ({"test": "tin_density", "tin_diameter_mm": 100, "net_g": 600},
     ["Inside height of the tin: the test “Rammed density, in a tin” needs it, or volume of the tin instead. Enter 5 to 1000 mm."]),
    ({"test": "tin_density", "net_g": 600},
     [INSIDE]),
    ({"test": "strength"},
     [LOAD]),
    ({"test": "hardness", "hardness": 80},
     ["Scale of the gauge: the test “Mould hardness” needs it. Enter ball or cone."]),
    ({"test": "moisture", "sample_wet_g": 96, "sample_dry_g": 100},
     ["Sample after drying: 100 g is more than the sample of 96 g. Check whether the two are swapped."]),
    ({"test": "compactability", "height_before_mm": 66, "height_after_mm": 120},
     ["Height after three rams: sand cannot rise under the rammer, and 120 mm is more than 66 mm. Check whether the two are swapped."]),
    (SANDS | {"compactability_second_pct": 50},
     [("Compactability of the second test: the wetter sand has the lower compactability, which one sand cannot have. "
      "Check whether two figures are swapped.")]),
    (SANDS | {"compactability_second_pct": 40},
     ["Compactability of the second test: both tests have the same compactability, so they show nothing. Test wetter or drier sand."]),
    (SANDS | {"moisture_second_pct_wet": 4, "compactability_second_pct": 40},
     ["Moisture of the second test: both tests have the same moisture, so they show nothing. Test wetter or drier sand.",
      "Compactability of the second test: both tests have the same compactability, so they show nothing. Test wetter or drier sand."]),
    ({"test": "tin_density", "tin_ml": 100, "net_g": 1600},
     ["Sand in the tin: with these readings, rammed density would be 16 kg/L, which no sand has. Check each reading and its unit."]),
    ({"test": "permeability", "pressure_cm": 0.1, "time_s": 0.5},
     ["Time: with these readings, permeability would be 601530, which no sand has. Check each reading and its unit."]),
    ({"test": "permeability", "pressure_cm": 0, "time_s": 30},
     ["Pressure: 0 cm is too little. Enter 0.1 to 200 cm." + LOOK]),
    ({"test": "squeeze", "squeeze": "clean", "repeats": 1.5},
     ["Number of tests: 1.5 is not a whole number of tests. Enter 1, 2, 3 …"]),
    ({"test": "squeeze", "squeeze": "clean", "history": "good; bad"},
     ["Earlier figures: “good” isn't a number. Allowed: 0 to 100000. Write a number.",
      "Earlier figures: “bad” isn't a number. Allowed: 0 to 100000. Write a number."]),
]  # fmt: skip


@pytest.mark.parametrize(("asked", "expected"), BENCH)
def test_impossible_readings_are_refused(messages, asked, expected):
    assert messages("bench", **asked) == expected


CRUSHED = {"strength_kpa": "28 psi", "moisture_pct_wet": 3.2}
BEYOND_BOND = (
    "compactability of 65 % is outside the 30 to 60 % in which strength shows bond and mulling, so these are left out. Bring the sand to its working "
    "moisture and test again."
)
BEYOND_CLAY = "rom moisture and compactability it would have {} % clay. The published equilibrium holds for 7 to 11 %, so this estimate is left out."

TOO_LITTLE = (
    "Live clay by methylene blue: nothing given here shows live clay or mulling. Enter a methylene blue figure, or a wash with its dead "
    "fines, or moisture with compactability, or the figure of the book."
)
WASH_ALONE = (
    "Dead fines by the book: the wash took 12 %, and that includes dead clay. Alone it only shows that no more than that is live. Enter how "
    "much of it is dead, or a methylene blue figure."
)
AT_ODDS = (
    "The tests differ by more than their ± explains: methylene blue 5.0 ± 0.5 %, the book 10.0 ± 1.0 %. One of them is wrong, and the mean "
    "cannot show which. The ± is widened 8.8 times. Repeat the test you trust least."
)

ESTIMATE = [
    ({}, TOO_LITTLE),
    ({"washed_pct_dry": 12}, WASH_ALONE),
    ({"washed_pct_dry": 5, "dead_fines_pct_dry": 8},
     "Dead fines by the book: 8 % is more than the 5 % that the wash took, and it is a part of that. Check both."),
    ({"moisture_pct_wet": 2, "compactability_read_pct": 40},
     "Moisture of the tested sand: f" + BEYOND_CLAY.format("4.2") + " Enter another test as well, or check both figures."),
    ({"strength_kpa": "28 psi", "compactability_read_pct": 65}, "Green strength: a " + BEYOND_BOND),
]  # fmt: skip


@pytest.mark.parametrize(("asked", "expected"), ESTIMATE)
def test_an_estimate_without_enough_is_refused(messages, asked, expected):
    assert messages("estimate", **asked) == [expected]


LEFT_OUT = [
    (CRUSHED | {"compactability_read_pct": 65, "clay_blue_pct_dry": 8}, "A " + BEYOND_BOND),
    ({"clay_blue_pct_dry": 8, "moisture_pct_wet": 2, "compactability_read_pct": 40}, "F" + BEYOND_CLAY.format("4.2")),
    ({"clay_blue_pct_dry": 13, "compactability_read_pct": 40},
     "The moisture of the fully mulled sand is left out: the published equilibrium holds for 7 to 11 % clay."),
    ({"clay_blue_pct_dry": 5, "clay_book_pct_dry": 10}, AT_ODDS),
]  # fmt: skip


@pytest.mark.parametrize(("asked", "expected"), LEFT_OUT)
def test_what_an_estimate_leaves_out_is_remarked(ask, asked, expected):
    answer = ask("estimate", **asked)
    assert answer["ok"]
    assert expected in answer["remarks"]
