"""The exact messages of a tin test that cannot be, and of a dose that is not given. Written by hand from the three parts of an error."""

import pytest

REFUSED = [
    ({}, ["Compactability now: the tin test is missing. Enter both heights, or a compactability."]),
    ({"height_before_mm": 120},
     ["Height after three rams: one height is not enough. Enter the height before and after ramming."]),
    ({"height_before_mm": 100, "height_after_mm": 120},
     ["Height after three rams: sand cannot rise under the rammer, and 120 mm is more than 100 mm. Check whether the two are swapped."]),
    ({"height_before_mm": 120, "height_after_mm": 20},
     ["Height after three rams: sand does not sink from 120 mm to 20 mm. Measure both heights from the bottom of the tin."]),
    ({"compactability_now_pct": 90},
     ["Compactability now: 90 % is too much. Enter 0 to 80 %. Check the number and its unit."]),
    ({"compactability_now_pct": 40, "heap_kg": 1, "net_g": 1500},
     ["Sand in the tin: 1500 g in the tin is more than the 1 kg of the heap. Check both, and their units."]),
    ({"compactability_now_pct": 40, "step_sand_g": 1000, "step_water_g": 200, "compactability_wetter_pct": 60},
     ["Water of the step: 200 g of water in 1000 g of sand makes mud. A step is about 10 g to each kilogram. Check both."]),
    ({"compactability_now_pct": 40, "step_sand_g": 1000},
     ["Water of the step: a step needs its sand, its water and the compactability afterwards. Enter all three, or none."]),
]  # fmt: skip


@pytest.mark.parametrize(("given", "said"), REFUSED)
def test_a_tin_test_that_cannot_be(messages, given, said):
    assert messages("tin", **given) == said


def test_a_dose_that_is_not_given_says_why(ask):
    answer = ask("tin", compactability_now_pct=30, heap_kg=40, since_mulling_h=0.2)
    (said,) = answer["ways_out"]
    assert said.startswith("The moisture would have to change by 0.3 to 1.5 points (of the wet mass). ")
    assert said.endswith("That is wider than the ± 0.35 points of an oven test, so no dose is given.")


def test_old_sand_says_what_a_dose_would_do(ask):
    answer = ask("tin", compactability_now_pct=38, heap_kg=40, compactability_slope="20 ± 1", since_mulling_h="3 day")
    assert answer["ways_out"][-1] == (
        "The sand has stood for 72 hours since it was mulled. Its compactability falls while its moisture stays, so a dose by the tin would make it "
        "too wet. After 24 hours none is given (own rule)."
    )
