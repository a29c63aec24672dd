"""The exact messages of the job *diagnose*. Written by hand from the three parts of an error."""

import pytest

SAW, CHECK = "What you saw: ", "What a check showed: "
AGAIN = " are two outcomes of one check. Keep the one that you saw, or repeat the check."
NOTHING = SAW + "nothing is given. Pick what you saw, or enter a reading such as the moisture."

REFUSED = [
    ({}, [NOTHING]),
    ({"symptoms": []}, [NOTHING]),
    ({"metal": "tin_bronze", "nothing_else": "yes"}, [NOTHING]),
    ({"found": "vented, no_vents"},
     [CHECK + "“no vents or blocked vents” and “well vented”" + AGAIN]),
    ({"symptoms": "weak_squeeze", "found": "clean_squeeze"},
     [CHECK + "“it holds and breaks clean and the hand stays dry” and “it falls apart or breaks with crumbs”" + AGAIN]),
    ({"clay_pct_dry": 55, "dead_fines_pct_dry": 50},
     ["Dead fines: live clay and dead fines add up to 105 % of the dry sand. Together they can be at most 100 %. Check both."]),
    ({"symptoms": "steam", "compactability_usual_pct": 44},
     ["Your usual tin reading: your usual reading says nothing alone. Enter today's tin reading too, or leave this empty."]),
    ({"symptoms": "blows", "nothing_else": "perhaps"},
     ["Nothing else was wrong: “perhaps” isn't one of the choices. Choose yes or no."]),
    ({"strength_kpa": "9999 kPa"},
     ["Green strength: 9999 kPa is too much. Enter 0 to 2000 kPa. Check the number and its unit."]),
]  # fmt: skip


@pytest.mark.parametrize(("given", "expected"), REFUSED)
def test_impossible_inputs_are_refused(messages, given, expected):
    assert messages("diagnose", **given) == expected


def test_an_unknown_sign_lists_the_known_ones(messages):
    (message,) = messages("diagnose", symptoms="sad_face")
    assert message.startswith(
        SAW + "“sad_face” isn't one of the choices. Choose one or more of crumbling_edges, cope_drops"
    )


def test_all_problems_are_reported_at_once(messages):
    assert len(messages("diagnose", symptoms="sad_face", gfn=-1, metal="cheese")) == 3
