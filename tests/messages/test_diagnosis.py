"""Word for word what is said to a diagnosis that can't be made. Written by hand from the three parts of an error."""

import pytest

SAW, CHECK = "What you saw: ", "What a check showed: "
AGAIN = " are two outcomes of one check. Keep the one that you saw, or do it again."
COLD = "Pour temperature: 500 °C is below 660 °C, where aluminium, pure or scrap is all liquid. It is poured at 680 to 750 °C."
NOTHING = SAW + "there is nothing to go by. Pick what you saw, or give a reading such as the moisture."

REFUSED = [
    ({}, [NOTHING]),
    ({"symptoms": []}, [NOTHING]),
    ({"metal": "tin_bronze", "nothing_else": "yes"}, [NOTHING]),
    ({"found": "vented, no_vents"},
     [CHECK + "“no vents or blocked ones” and “vented well”" + AGAIN]),
    ({"symptoms": "weak_squeeze", "found": "clean_squeeze"},
     [CHECK + "“it holds and breaks clean and the hand stays dry” and “it falls apart or breaks with crumbs”" + AGAIN]),
    ({"clay_pct_dry": 55, "dead_fines_pct_dry": 50},
     ["Dead clay and other fines: live clay and dead fines come to 105 % of the dry sand. Together they are at most 100."]),
    ({"pour_temp_c": 500},
     [COLD + " Look at the metal and the unit."]),
    ({"symptoms": "blows", "nothing_else": "perhaps"},
     ["Nothing else was wrong: “perhaps” isn't one of the choices. Choose yes or no."]),
    ({"strength_kpa": "9999 kPa"},
     ["Green strength: 9999 kPa is too much. Enter 0 to 2000 kPa. Check the number and its unit."]),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), REFUSED)
def test_a_diagnosis_that_can_not_be_made(messages, given, said):
    assert messages("diagnose", **given) == said


def test_a_sign_that_is_none_names_those_there_are(messages):
    (said,) = messages("diagnose", symptoms="sad_face")
    assert said.startswith(
        SAW + "“sad_face” isn't one of the choices. Choose one or more of crumbling_edges, cope_drops"
    )


def test_all_that_is_wrong_is_said_at_once(messages):
    assert len(messages("diagnose", symptoms="sad_face", gfn=-1, metal="cheese")) == 3
