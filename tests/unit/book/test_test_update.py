"""Tests of the heap combined with the book, by hand: gain = book² / (book² + reading²)."""

import math

import pytest

from sandmix.book.event_effects import outcome_of
from sandmix.book.heap import HeapState
from sandmix.materials.delta import UNCERTAIN, Delta
from sandmix.materials.sand import PARTS


def heap(halves=None, **parts):
    """A heap of these masses, with these 95 % half-widths in kg."""
    return HeapState(
        total=Delta.of(
            dict.fromkeys(PARTS, 0.0) | parts,
            dict.fromkeys(UNCERTAIN, 0.0) | {part: (half / 1.96) ** 2 for part, half in (halves or {}).items()},
        )
    )


def after(state, **words):
    outcome = outcome_of("measured", words, state)
    return state.after(outcome), outcome


def test_mass_is_combined_by_the_weights_of_both():
    """30 ± 0.6 by the book, 29 ± 0.3 on the scale: gain 0.36/0.45 = 0.8, so 29.2; all parts alike; a fifth of the variance stays."""
    now, outcome = after(heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0), heap_kg="29 ± 0.3 kg")
    assert now.sand.wet_kg == pytest.approx(29.2)
    assert now.sand.water_kg == pytest.approx(29.2 / 30)
    assert now.half_width_kg("dry_kg") == pytest.approx(0.6 * math.sqrt(0.2))
    assert outcome.lines == ("measured 29 kg, the book had 30 kg: now 0.8 kg less",)


def test_the_weights_are_inverse_variances():
    """30 with weight 1/0.36 and 29 with weight 1/0.09."""
    now, _ = after(heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0), heap_kg="29 ± 0.3 kg")
    assert now.sand.wet_kg == pytest.approx((30 / 0.36 + 29 / 0.09) / (1 / 0.36 + 1 / 0.09))


def test_a_reading_far_from_the_book_is_reported():
    """Together they may be off by √(0.6² + 0.3²) = 0.67 kg at 95 %: 1.3 kg apart is within twice that, 1.4 is not."""
    for read, far in ((28.7, False), (28.6, True), (31.4, True)):
        _, outcome = after(heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0), heap_kg=f"{read} ± 0.3 kg")
        assert ("differ by far" in outcome.lines[0]) is far


def test_a_reading_very_far_from_the_book_makes_the_heap_less_certain():
    """Both together ± 0.67 kg, twice that 1.342: 13.42 kg apart is ten times beyond, so the ± left, 0.6 √0.2, grows tenfold."""
    both = math.hypot(0.6, 0.3)
    read = 30 - 20 * both
    now, _ = after(heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0), heap_kg=f"{read} ± 0.3 kg")
    assert now.sand.wet_kg == pytest.approx(30 - 0.8 * 20 * both)
    assert now.half_width_kg("dry_kg") == pytest.approx(10 * 0.6 * math.sqrt(0.2))


def test_a_reading_above_the_book_raises_the_heap():
    _, outcome = after(heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0), heap_kg="31 ± 0.3 kg")
    assert outcome.lines[0].endswith("0.8 kg more")


def test_a_moisture_changes_the_water_only():
    """30 kg at 4 %, water ± 0.1875 kg: ± 100 · 0.96 · 0.1875/30 = 0.6 points. Read 3 ± 0.3: gain 0.8, 3.2 %, 28.8 · 0.032/0.968 kg."""
    now, outcome = after(heap({"water_kg": 0.1875}, grain_kg=28.8, water_kg=1.2), moisture_pct_wet="3 ± 0.3 %")
    assert now.sand.moisture_pct_wet == pytest.approx(3.2)
    assert now.sand.water_kg == pytest.approx(0.952066, abs=1e-6)
    assert now.sand.dry_kg == pytest.approx(28.8)
    assert now.half_width_kg("water_kg") == pytest.approx(0.1875 * math.sqrt(0.2))
    assert outcome.lines[0].endswith("0.8 less")


def test_more_live_clay_means_less_grain():
    """20 kg dry with 8 ± 1 % live; read 6 ± 1: gain a half, 7 %, so 0.2 kg of clay were grain."""
    now, _ = after(heap({"live_clay_kg": 0.2}, grain_kg=18.4, live_clay_kg=1.6, water_kg=0.8), clay_pct_dry="6 ± 1 %")
    assert now.total.live_clay_kg == pytest.approx(1.4)
    assert now.total.grain_kg == pytest.approx(18.6)
    assert now.total.water_kg == 0.8


def test_dead_clay_stays_the_same_share_of_dead_fines():
    """20 kg dry, 0.6 dead clay and 0.2 other fines: 4 ± 1 %. Read 6 ± 1: gain a half, 5 %, 1 kg in all, three quarters dead clay."""
    state = heap({"other_fines_kg": 0.2}, grain_kg=19.2, dead_clay_kg=0.6, other_fines_kg=0.2)
    now, _ = after(state, dead_fines_pct_dry="6 ± 1 %")
    assert now.total.dead_clay_kg == pytest.approx(0.75)
    assert now.total.other_fines_kg == pytest.approx(0.25)
    assert now.total.grain_kg == pytest.approx(19.0)


def test_a_dried_sample_has_the_error_of_both_weighings_and_of_the_handful():
    """100 g dried to 97 on a 1 g scale: 3 ± √(0.8002² + 0.3²) = 0.8546 points. The book's 4 ± 0.8546: gain a half, 3.5 %."""
    half_kg = 0.8546 * 30 / 96
    state = heap({"water_kg": half_kg}, grain_kg=28.8, water_kg=1.2)
    now, _ = after(state, sample_wet_g=100, sample_dry_g=97, scale_step_g=1)
    assert now.sand.moisture_pct_wet == pytest.approx(3.5, abs=1e-3)


def test_an_exact_book_stays_and_an_exact_reading_is_taken():
    sure, now = heap(grain_kg=29.0, water_kg=1.0), heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0)
    assert after(sure, heap_kg="29 ± 0.3 kg")[0].sand.wet_kg == pytest.approx(30)
    assert after(now, heap_kg="29 ± 0 kg")[0].sand.wet_kg == pytest.approx(29)


def test_an_empty_book_takes_the_reading_and_its_error():
    """29 ± 0.3 kg at 4 ± 0.5 %, 8 ± 1 % live clay of 27.84 kg dry."""
    now, outcome = after(heap(), heap_kg="29 ± 0.3 kg", moisture_pct_wet="4 ± 0.5 %", clay_pct_dry="8 ± 1 %")
    assert now.sand.wet_kg == pytest.approx(29)
    assert now.sand.water_kg == pytest.approx(1.16)
    assert now.sand.live_clay_kg == pytest.approx(0.08 * 27.84)
    assert now.half_width_kg("dry_kg") == pytest.approx(0.3)
    assert now.half_width_kg("water_kg") == pytest.approx(0.005 * 29)
    assert now.half_width_kg("live_clay_kg") == pytest.approx(0.01 * 27.84)
    assert all(line.endswith("taken as measured") for line in outcome.lines)


def test_two_readings_are_more_certain_than_one():
    """± 0.3 twice: ± 0.3/√2, and the middle of both."""
    once, _ = after(heap(), heap_kg="29 ± 0.3 kg")
    twice, _ = after(once, heap_kg="29.4 ± 0.3 kg")
    assert twice.sand.wet_kg == pytest.approx(29.2)
    assert twice.half_width_kg("dry_kg") == pytest.approx(0.3 / math.sqrt(2))


def test_sand_weighed_into_a_book_with_water_only_is_grain():
    now, _ = after(heap(water_kg=2.0), heap_kg=30)
    assert (now.sand.grain_kg, now.sand.water_kg) == (pytest.approx(28), 2)


def test_a_moisture_without_sand_changes_nothing():
    now, _ = after(heap(water_kg=2.0), moisture_pct_wet=4)
    assert (now.sand.dry_kg, now.sand.water_kg) == (0, 2)


def test_live_clay_can_grow_no_further_than_the_grain():
    """8 of 10 kg dry is clay and dead clay already."""
    state = heap({"live_clay_kg": 9.0}, grain_kg=0.5, live_clay_kg=1.0, dead_clay_kg=8.5)
    now, _ = after(state, clay_pct_dry="60 ± 1 %")
    assert now.total.grain_kg == pytest.approx(0, abs=1e-9)
    assert now.total.live_clay_kg == pytest.approx(1.5)


def test_compactability_is_logged_and_changes_nothing():
    state = heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0)
    now, outcome = after(state, compactability_read_pct=45)
    assert now == state
    assert outcome.lines[0].startswith("logged")


@pytest.mark.parametrize("words", [{"gfn": 62}, {"permeability": 120}, {"strength_kpa": "90 kPa"}])
def test_other_readings_are_logged_and_change_nothing(words):
    state = heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0)
    now, outcome = after(state, **words)
    assert now == state
    assert outcome.lines[0].startswith("logged")


def test_a_wash_is_combined_with_live_clay_and_dead_fines_together():
    """20 kg dry with 1.4 live, 0.4 dead, 0.2 other: 10 %. Halves 0.16, 0.12, 0: together ± 0.2 kg, 1 point. Read 12 ± 1: gain a half, 11 %.

    The 0.2 kg found are shared by variance, 0.64 and 0.36: 0.128 live, 0.072 dead, out of the grain. Each variance goes down by a half of its share.
    """
    state = heap(
        {"live_clay_kg": 0.16, "dead_clay_kg": 0.12},
        grain_kg=18.0, live_clay_kg=1.4, dead_clay_kg=0.4, other_fines_kg=0.2, water_kg=1.0,
    )  # fmt: skip
    now, outcome = after(state, washed_pct_dry="12 ± 1 %")
    assert now.total.live_clay_kg == pytest.approx(1.528)
    assert now.total.dead_clay_kg == pytest.approx(0.472)
    assert now.total.other_fines_kg == pytest.approx(0.2)
    assert now.total.grain_kg == pytest.approx(17.8)
    assert now.total.water_kg == 1.0
    assert now.half_width_kg("live_clay_kg") == pytest.approx(0.16 * math.sqrt(1 - 0.5 * 0.64))
    assert now.half_width_kg("dead_clay_kg") == pytest.approx(0.12 * math.sqrt(1 - 0.5 * 0.36))
    assert outcome.lines[0].endswith("1 more")


def test_a_reading_uses_its_own_error():
    """7.1 ± 0.7 against 8 ± 0.7: half way; the same without a ± is by the word's own, ± 1 point: gain 0.49/1.49."""
    state = heap({"live_clay_kg": 0.14}, grain_kg=18.4, live_clay_kg=1.6)
    assert after(state, washed_pct_dry="7.1 ± 0.7 %")[0].sand.clay_pct_dry == pytest.approx(7.55)
    assert after(state, washed_pct_dry="7.1 %")[0].sand.clay_pct_dry == pytest.approx(8 - 0.9 * 0.49 / 1.49)


def test_a_low_wash_leaves_no_part_below_zero():
    """0.1 of dead clay with nearly all of the variance: all of it goes, and the rest is taken from the live clay. 1.1 kg to 0.5."""
    state = heap({"live_clay_kg": 0.02, "dead_clay_kg": 2.0}, grain_kg=18.9, live_clay_kg=1.0, dead_clay_kg=0.1)
    now, _ = after(state, washed_pct_dry="2.5 ± 0 %")
    assert now.total.dead_clay_kg == 0
    assert now.total.live_clay_kg == pytest.approx(0.5)
    assert now.total.grain_kg == pytest.approx(19.5)


def test_a_wash_less_the_known_part_is_the_unknown_part():
    """Live clay 8 ± 0.6 % of 20 kg and nothing of fines: 10 ± 0.8 less 8 is 2 ± 1 % of dead fines. And the other way round."""
    live = heap({"live_clay_kg": 0.12}, grain_kg=18.4, live_clay_kg=1.6)
    now, outcome = after(live, washed_pct_dry="10 ± 0.8 %")
    assert now.sand.dead_fines_pct_dry == pytest.approx(2)
    assert now.half_width_kg("dead_clay_kg", "other_fines_kg") == pytest.approx(0.2)
    assert "2 % dead fines, taken as measured" in outcome.lines[0]
    dead = heap({"dead_clay_kg": 0.12}, grain_kg=19.6, dead_clay_kg=0.4)
    assert after(dead, washed_pct_dry="10 ± 0.8 %")[0].sand.clay_pct_dry == pytest.approx(8)


def test_a_wash_below_the_live_clay_lowers_the_live_clay():
    """8 ± 1 against 6 ± 1: 7."""
    now, _ = after(heap({"live_clay_kg": 0.2}, grain_kg=18.4, live_clay_kg=1.6), washed_pct_dry="6 ± 1 %")
    assert now.sand.clay_pct_dry == pytest.approx(7)


def test_a_wash_of_a_heap_with_unknown_clay_changes_nothing():
    state = heap({"dry_kg": 0.6}, grain_kg=29.0, water_kg=1.0)
    now, outcome = after(state, washed_pct_dry=10)
    assert now == state
    assert outcome.lines[0].startswith("10 % washed out: only logged")


def test_a_wash_and_dead_fines_are_reported_as_two_tests():
    state = heap({"live_clay_kg": 0.2, "dead_clay_kg": 0.2}, grain_kg=18.0, live_clay_kg=1.6, dead_clay_kg=0.4)
    assert after(state, washed_pct_dry=10, dead_fines_pct_dry=2)[1].lines[-1].endswith("counted as two tests")


@pytest.mark.parametrize("read", [0.05, 5, 29, 31, 300])
def test_the_result_is_between_the_book_and_the_reading(read):
    now, _ = after(heap({"dry_kg": 0.6, "water_kg": 0.2}, grain_kg=29.0, water_kg=1.0), heap_kg=read)
    low, high = sorted((read, 30.0))
    assert low <= now.sand.wet_kg <= high


def test_a_weighing_makes_the_water_little_more_certain():
    """Variances 0.09 and 0.01 (halves over 1.96), together 0.10; a reading of as much has a gain of a half: 0.09 loses 0.0405, 0.01 loses 0.0005."""
    halves = {"dry_kg": 1.96 * 0.3, "water_kg": 1.96 * 0.1}
    now = heap(halves, grain_kg=29.0, water_kg=1.0)
    _, outcome = after(now, heap_kg=f"30 ± {1.96 * 0.1**0.5} kg")
    assert outcome.delta.variances["dry_kg"] == pytest.approx(-0.0405)
    assert outcome.delta.variances["water_kg"] == pytest.approx(-0.0005)
