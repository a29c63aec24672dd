"""Casts one after the other, by hand arithmetic from the definition of a cast."""

import itertools
import math

import pytest

from sandmix.recipes.forecast import (
    MOST_CASTS,
    Habit,
    after,
    casts,
    casts_until,
    clay_for_limit_pct_dry,
    make_up_pct,
    replaced_for_limit,
    steady,
)


def habit(burnt=0.1, replaced=0.2, kept=0.5, make_up=True):
    return Habit(burnt=burnt, replaced=replaced, kept=kept, make_up=make_up)


def first(count, *arguments):
    return list(itertools.islice(casts(*arguments), count))


def test_with_make_up_by_hand():
    """0.8 × 0.5 × 0.1 × 10 = 0.4; 0.8 × (0.4 + 0.5) = 0.72; 0.8 × (0.72 + 0.5) = 0.976."""
    assert [dead for _, dead in first(3, habit(), 10.0)] == pytest.approx([0.4, 0.72, 0.976])
    assert [live for live, _ in first(3, habit(), 10.0)] == [10, 10, 10]


def test_without_make_up_by_hand():
    """10 × 0.9 × 0.8 = 7.2, then 5.184. Dead: 0.4; 0.8 × (0.4 + 0.5 × 0.1 × 7.2) = 0.608."""
    live, dead = zip(*first(2, habit(make_up=False), 10.0), strict=True)
    assert live == pytest.approx([7.2, 5.184])
    assert dead == pytest.approx([0.4, 0.608])


def test_dead_clay_that_is_there_is_replaced_like_the_rest():
    assert first(1, habit(burnt=0.0), 10.0, 5.0) == [(10.0, 4.0)]


CLOSED = [
    habit(),
    habit(make_up=False),
    habit(replaced=0.0),
    habit(replaced=0.0, make_up=False),
    habit(replaced=1.0),
    habit(burnt=1.0, make_up=False),
    habit(burnt=0.0, make_up=False),
]


@pytest.mark.parametrize("kind", CLOSED)
@pytest.mark.parametrize("count", [1, 2, 17])
def test_the_closed_form_agrees_with_the_step_by_step_sum(kind, count):
    assert after(kind, 8.0, count, 1.5) == pytest.approx(first(count, kind, 8.0, 1.5)[-1], rel=1e-12)


def test_after_no_cast_nothing_changes():
    assert after(habit(), 8.0, 0, 1.5) == (8.0, 1.5)


def test_the_long_run():
    """0.8 × 0.5 × 0.1 × 10 / 0.2 = 2. Nothing replaced and clay made up: it grows. Without make-up: all gone, or all of it that stays."""
    assert steady(habit(), 10.0) == pytest.approx((10, 2))
    assert steady(habit(replaced=0.0), 10.0) == (10, None)
    assert steady(habit(burnt=0.0, replaced=0.0), 10.0, 1.0) == (10, 1)
    assert steady(habit(make_up=False), 10.0, 1.0) == (0, 0)
    assert steady(habit(replaced=0.0, make_up=False), 10.0, 1.0) == (0, 6)
    assert steady(habit(burnt=0.0, replaced=0.0, make_up=False), 10.0, 1.0) == (10, 1)


def test_dead_clay_that_would_fill_the_heap_has_no_long_run():
    """0.99 × 0.5 × 10 / 0.01 = 495 % of the sand."""
    assert steady(habit(burnt=0.5, replaced=0.01, kept=1.0), 10.0) == (10, None)


def test_a_tiny_share_replaced_counts_in_the_closed_form_too():
    """A thousand casts that burn 1 % of 8, with next to nothing replaced: 80."""
    assert after(habit(burnt=0.01, replaced=1e-15, kept=1.0), 8.0, 1000)[1] == pytest.approx(80, rel=1e-9)


@pytest.mark.parametrize("kind", [habit(), habit(make_up=False), habit(replaced=0.0, make_up=False)])
def test_the_long_run_agrees_with_the_step_by_step_sum(kind):
    assert after(kind, 10.0, 5000, 1.0) == pytest.approx(steady(kind, 10.0, 1.0), abs=1e-9)


def test_make_up_by_hand():
    """What burns of 10 is 1; of the 9 that stay a fifth leaves, 1.8: 2.8 to put back."""
    assert make_up_pct(habit(), 10.0) == pytest.approx(2.8)


def test_casts_until_the_limit():
    assert casts_until(habit(), 10.0, 0.4) == 1
    assert casts_until(habit(), 10.0, 0.41) == 2
    assert casts_until(habit(), 10.0, 0.9) == 3
    assert casts_until(habit(), 10.0, 2.1) is None
    assert casts_until(habit(), 10.0, 1.0, 1.0) == 0
    assert casts_until(habit(), 10.0, 3.0, 2.5) is None


def test_without_make_up_dead_clay_rises_then_falls_and_the_first_crossing_counts():
    kind = habit(burnt=0.05, replaced=0.02, kept=1.0, make_up=False)
    dead = [killed for _, killed in first(200, kind, 8.0)]
    highest = max(dead)
    assert 0 < dead.index(highest) < 199
    assert casts_until(kind, 8.0, highest) == dead.index(highest) + 1
    assert casts_until(kind, 8.0, 0.5 * highest) == 1 + next(
        at for at, value in enumerate(dead) if value >= 0.5 * highest
    )
    assert casts_until(kind, 8.0, highest * 1.001) is None


@pytest.mark.parametrize("burnt", [0.03, 0.1, 0.4])
@pytest.mark.parametrize("replaced", [0.01, 0.05, 0.3])
@pytest.mark.parametrize("there", [0.0, 0.5, 2.0])
def test_the_first_crossing_with_dead_clay_that_is_there_already(burnt, replaced, there):
    """Against the sum cast by cast: just below its highest the first cast that reaches it counts, just above it none."""
    kind = habit(burnt=burnt, replaced=replaced, kept=1.0, make_up=False)
    dead = [there, *(killed for _, killed in first(300, kind, 8.0, there))]
    highest = max(dead)
    for limit in (0.999999 * highest, (highest + there) / 2 if highest > there else highest):
        assert casts_until(kind, 8.0, limit, there) == next(at for at, value in enumerate(dead) if value >= limit)
    assert casts_until(kind, 8.0, 1.000001 * highest, there) is None


@pytest.mark.parametrize(
    ("kind", "clay", "limit", "found"),
    [
        (habit(burnt=1.0, replaced=0.5, kept=1.0, make_up=False), 8.0, 4.0, 1),
        (habit(burnt=1.0, replaced=0.5, kept=1.0, make_up=False), 8.0, 4.1, None),
        (habit(burnt=0.5, replaced=0.0, kept=1.0, make_up=False), 8.0, 7.0, 3),
        (habit(burnt=0.0, make_up=False), 8.0, 1.0, None),
        (habit(make_up=False), 0.0, 1.0, None),
        (habit(burnt=1e-300, replaced=1e-300, make_up=False), 8.0, 1.0, None),
        (habit(burnt=5e-324, replaced=5e-324, kept=5e-324, make_up=False), 8.0, 1.0, None),
    ],
)
def test_the_limit_for_extreme_habits(kind, clay, limit, found):
    """8 × (1 − 0.5^3) = 7."""
    assert casts_until(kind, clay, limit) == found


def test_a_tiny_share_kept_does_not_raise_dead_clay():
    assert casts_until(habit(burnt=0.5, replaced=0.5, kept=5e-324, make_up=False), 8.0, 2.0, 1.0) is None


def test_a_limit_after_more_than_a_million_casts_counts_as_never():
    assert casts_until(habit(burnt=1e-9, replaced=0.0, kept=1.0), 10.0, 1e-2 * 1.001) is None
    assert casts_until(habit(burnt=1e-9, replaced=0.0, kept=1.0), 10.0, 1e-2) == MOST_CASTS


def test_the_share_replaced_for_a_limit_meets_the_limit():
    """0.5 × 0.1 × 10 = 0.5; 0.5 / (2 + 0.5) = 0.2, which is the habit above."""
    assert replaced_for_limit(habit(), 10.0, 2.0) == pytest.approx(0.2)
    assert replaced_for_limit(habit(burnt=0.0), 10.0, 2.0) == 0


def test_the_clay_for_a_limit():
    assert clay_for_limit_pct_dry(habit(), 2.0) == pytest.approx(10)
    assert clay_for_limit_pct_dry(habit(kept=0.0), 2.0) == math.inf


MIXED = {"kind": "mixed", "at": "2026-05-01", "make_kg": 20, "clay_pct_dry": 7, "moisture_pct_wet": 3}
CAST = {"kind": "poured", "at": "2026-05-02", "metal_kg": 1, "clay_burnt_kg": "20 g", "sand_lost_kg": 0}


class TestFromABook:
    def test_the_heap_and_the_share_burnt_come_from_the_book(self, ask):
        """20 kg at 3 % is 19.4 dry with 1.358 live; 20 g burnt leave 1.338 of 19.4, 6.897 %, and are a share of 0.014728."""
        answer = ask("forecast", book=[MIXED, CAST], casts=1, new_sand_share=0, burnt_kept_share=1, make_up="no")
        assert answer["result"]["clay_pct_dry"] == pytest.approx([6.8969 * (1 - 0.014728)], rel=1e-4)
        assert answer["result"]["dead_clay_pct_dry"] == pytest.approx([0.10309 + 0.014728 * 6.8969], rel=1e-4)

    def test_a_given_figure_counts_before_the_book(self, ask):
        given = {"casts": 1, "new_sand_share": 0, "burnt_kept_share": 1, "make_up": "no"}
        answer = ask("forecast", book=[MIXED, CAST], clay_pct_dry=8, clay_burnt_share=0.1, dead_clay_pct_dry=0, **given)
        assert answer["result"]["clay_pct_dry"] == pytest.approx([7.2])

    @pytest.mark.parametrize(("book", "word"), [([], "book"), ([MIXED], "clay_burnt_share"), (None, "clay_pct_dry")])
    def test_a_missing_input_is_named(self, ask, book, word):
        problems = ask("forecast", book=book)["problems"]
        assert problems[0]["word"] == word
