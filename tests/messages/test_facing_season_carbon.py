"""Word for word what is said to inputs of *facing*, *season* and *carbon* that can't be.

Written by hand from the three parts of an error, then compared with the library's.
"""

import pytest

CASTING = {"casting_volume_cm3": 250, "casting_area_cm2": 420, "flask_sand_kg": 24}
WHOLE = "Casts: 2.5 isn't a whole number. Enter a whole number of casts."
FACING = [
    ({"casts": 2.5}, WHOLE),
    ({"heap_kg": 10},
     "Backing heap: a heap of 10 kg doesn't fill a flask that holds 24 kg of sand. Enter the whole backing heap, or leave it empty."),
    ({"facing_clay_pct_dry": 20, "facing_from_backing_pct_dry": 90},
     ("Share of the facing taken from the backing: with 90 % of backing there is no room for the clay that brings the facing to 20 %. "
      "Enter at most 80 %.")),
    ({"clay_activity_pct": 8, "facing_clay_pct_dry": 7.5},
     "Live clay of the facing: a clay that is 8 % live cannot bring sand to 7.5 %. Enter at most 7.2 %."),
    ({"casting_area_cm2": 100},
     "Total surface of the casting: a casting of 250 cm³ has at least 192 cm², even if it is a ball. Check the volume, the surface and their units."),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), FACING)
def test_an_impossible_facing_is_refused(messages, given, said):
    assert said in messages("facing", **(CASTING | given))


HEAP = {"heap_kg": 45, "clay_pct_dry": 7, "clay_burnt_share": 0.02}
SEASON = [
    ({"casts": 2.5}, WHOLE),
    ({"dead_fines_pct_dry": 60, "clay_pct_dry": 50},
     "Dead fines now: live clay and dead fines add up to 110 % of the dry sand. Together they can be at most 100 %. Check both."),
    ({"lost_share": 0.2, "new_sand_share": 0.1},
     "Heap lost per cast in any case: more is lost (20 %) than you replace today (10 %). Check both."),
    ({"clay_activity_pct": 5},
     "Live clay that you keep: a clay that is 5 % live cannot bring sand to 7 %. Enter at most 4.5 %."),
    ({"clay_burnt_share": None},
     "Live clay burnt per cast: this is missing. Enter the share that a cast burns, or a book of the heap."),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), SEASON)
def test_an_impossible_season_is_refused(messages, given, said):
    assert messages("season", **(HEAP | given)) == [said]


LOSS = {"metal": "grey_iron", "carbon_gauge": "loss_on_ignition"}
BOTH = {"carbon_target_pct": 4, "carbon_now_pct": 3}
CARBON = [
    (LOSS | BOTH, "Temperature of the test: figures at different temperatures can't be compared. Enter the temperature of both tests."),
    (LOSS | {"carbon_target_pct": 4, "carbon_test_c": 950},
     "Level there now: this test has no usual figure for every sand. Enter what the test reads now."),
    (LOSS | BOTH | {"carbon_gauge": "volatiles", "carbon_test_c": 950},
     ("Temperature of the test: volatiles are counted here at 482 °C. At 950 °C the same sand gives another figure. Test at 452 to 512 °C, or count "
      "by loss on ignition.")),
    (LOSS | BOTH | {"carbon_gauge": "volatiles", "carbon_test_c": 482, "carbon_target_pct": 20},
     "Level you want: 20 % is more than half of what the additive itself has. Enter at most 12 %."),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), CARBON)
def test_an_impossible_carbon_is_refused(messages, given, said):
    assert messages("carbon", **given) == [said]
