"""The exact messages of a handful that gives no dose, and of readings that cannot be right. Written by hand."""

import pytest

MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.5}


def test_a_word_that_is_none_of_the_five(messages):
    assert messages("feel", feel="dampish") == [
        "Feel of a handful: “dampish” isn't one of the choices. Choose crumbles, weak, prints, shiny or leaves_water."
    ]


def test_a_word_without_pairs_says_what_it_takes(ask):
    assert ask("feel", feel="weak")["ways_out"] == [
        (
            "The book has 0 own pairs of word and moisture test, with 0 different words. A word may dose from 8 pairs with 3 different words on: "
            "judge a handful before each moisture test, in dry and in wet sand, and enter both together."
        )
    ]


def test_a_word_that_contradicts_the_book_asks_for_another_handful(ask):
    dry = [MIXED, {"kind": "measured", "at": "2027-03-02", "moisture_pct_wet": "1.2 ± 0.1 %"}]
    said = (
        "Squeeze another handful from elsewhere in the heap. If the word stays the same, either the book lacks something, such as rain or added "
        "water, or the word is wrong. Only a test decides. Until then no dose is given, and the range covers both."
    )
    assert said in ask("feel", feel="leaves_water", book=dry, now="2027-03-02")["ways_out"]


def test_two_readings_of_the_same_sand_that_disagree(ask):
    minute = [
        {"kind": "measured", "at": "2027-05-01T10:00Z", "tin_g": 350},
        {"kind": "measured", "at": "2027-05-01T10:01Z", "tin_g": 390},
    ]
    assert ask("readings", book=[MIXED, *minute])["ways_out"] == [
        (
            "Two readings of the same sand, within ten minutes, differ by more than their errors: sand in the tin, 350 g and 390 g. At least one is "
            "wrong. Test a third time; until then they count as one point, their mean."
        )
    ]


def test_readings_out_of_order(ask):
    late = [
        {"kind": "measured", "at": "2027-05-02", "tin_g": 350},
        {"kind": "measured", "at": "2027-05-01", "tin_g": 352},
    ]
    assert (
        "Some entries are not in the order of their times. The charts follow the times; a moisture test that was written down after a later entry is "
        "left out, since what the book had at its time is not known."
    ) in ask("readings", book=[MIXED, *late])["remarks"]


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (1, "Sand in the tin: 1 reading, the last 350 g. Limits need 8: 7 more."),
        (7, "Sand in the tin: 7 readings, the last 356 g. Limits need 8: 1 more."),
    ],
)
def test_too_few_readings_say_how_many_it_takes(ask, count, said):
    tests = [{"kind": "measured", "at": f"2027-05-{1 + at:02d}", "tin_g": 350 + at} for at in range(count)]
    assert ask("readings", book=[MIXED, *tests])["remarks"][0] == said
