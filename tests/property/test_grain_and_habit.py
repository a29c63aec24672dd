"""True for every grading, every blend and every habit."""

import itertools
import math

import pytest
from effort import examples
from hypothesis import given
from hypothesis import strategies as st

from sandmix.materials import fineness
from sandmix.recipes import forecast

NUMBERS = list(fineness.SIEVES)
GRADINGS = st.dictionaries(st.sampled_from(NUMBERS), st.floats(0, 1000), min_size=1).filter(
    lambda retained: sum(retained.values()) > 1e-3
)
SHARE = st.one_of(st.floats(0, 1), st.sampled_from([0.0, 1.0, 1e-12]))
HABITS = st.builds(forecast.Habit, burnt=SHARE, replaced=SHARE, kept=SHARE, make_up=st.booleans())
CLAY = st.floats(0, 60)
DEAD = st.floats(0, 40)
LOTS = st.fixed_dictionaries(
    {"kg": st.floats(0.01, 5000)},
    optional={
        "moisture_pct_wet": st.floats(0, 25),
        "clay_pct_dry": st.floats(0, 60),
        "dead_fines_pct_dry": st.floats(0, 40),
        "retained": GRADINGS,
    },
)
STOP_PCT = 6.0
"""Above this target there is no dose of water (the limit of aluminium, from memory)."""
WANTED = st.fixed_dictionaries(
    {},
    optional={
        "make_kg": st.floats(0.05, 5000),
        "target_clay_pct_dry": st.floats(0, 40),
        "target_moisture_pct_wet": st.floats(0.5, 10),
        "clay_activity_pct": st.floats(50, 100),
        "clay_moisture_pct_wet": st.floats(0, 30),
        "clay": st.sampled_from(["sodium_bentonite", "clay_granules"]),
    },
)


def numbers_in(value):
    if isinstance(value, dict):
        return [number for part in value.values() for number in numbers_in(part)]
    if isinstance(value, list):
        return [number for part in value for number in numbers_in(part)]
    return [value] if isinstance(value, (int, float)) else []


def assert_lawful(answer):
    assert answer["ok"], answer
    for number in numbers_in(answer["result"]):
        assert math.isfinite(number)
        assert number >= 0
    for word, (low, high) in answer["doubt"].items():
        value = answer["result"][word]
        assert 0 <= low <= value + 1e-9 * abs(value), word
        assert value <= high + 1e-9 * abs(value), word


@given(GRADINGS, st.floats(1e-3, 1000))
@examples()
def test_only_the_proportions_of_a_grading_count(retained, times):
    scaled = {number: held * times for number, held in retained.items()}
    assert fineness.gfn(scaled) == pytest.approx(fineness.gfn(retained), rel=1e-9)
    assert fineness.surface_cm2_g(scaled) == pytest.approx(fineness.surface_cm2_g(retained), rel=1e-9)


@given(GRADINGS)
@examples()
def test_the_number_is_between_the_multipliers_of_the_sieves_with_grain(retained):
    held = [fineness.SIEVES[number].multiplier for number, grams in retained.items() if grams > 0]
    assert min(held) * (1 - 1e-9) <= fineness.gfn(retained) <= max(held) * (1 + 1e-9)


@given(GRADINGS)
@examples()
def test_what_passes_falls_from_sieve_to_sieve(retained):
    passing = list(fineness.passing_pct(retained).values())
    assert all(0 <= passed <= 100 * (1 + 1e-9) for passed in passing)
    assert all(finer <= coarser + 1e-9 for coarser, finer in itertools.pairwise(passing))


@given(GRADINGS)
@examples()
def test_a_gap_is_never_a_screen(retained):
    screens, gaps = fineness.screens(retained), fineness.gaps(retained)
    assert not set(screens) & set(gaps)
    inside = [NUMBERS.index(number) for number in (*screens, *gaps)]
    assert sorted(inside) == list(range(min(inside, default=0), max(inside, default=-1) + 1))


@given(GRADINGS, GRADINGS, st.floats(0.01, 100), st.floats(0.01, 100))
@examples()
def test_the_number_of_a_blend_is_the_mean_of_its_lots_by_grain(one, other, one_kg, other_kg):
    blended = fineness.gfn(fineness.blended([(one, one_kg), (other, other_kg)]))
    mean = (fineness.gfn(one) * one_kg + fineness.gfn(other) * other_kg) / (one_kg + other_kg)
    assert blended == pytest.approx(mean, rel=1e-9)


@given(GRADINGS, st.floats(0, 1000))
@examples()
def test_fineness_is_finite_and_never_negative(ask, retained, washed):
    assert_lawful(ask("fineness", retained=retained, clay_washed_g=washed))


@given(LOTS, st.integers(1, 6))
@examples(150)
def test_a_blend_of_equal_lots_is_like_the_lot(ask, lot, count):
    one, several = (ask("blend", lots=[lot] * times)["result"] for times in (1, count))
    assert several.pop("make_kg") == pytest.approx(count * lot["kg"])
    assert one.pop("make_kg") == pytest.approx(lot["kg"])
    for word, value in one.items():
        assert several[word] == pytest.approx(value, rel=1e-9, abs=1e-9), word
    for word in ("moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry"):
        assert one[word] == pytest.approx(lot.get(word, 0), abs=1e-9)


@given(st.lists(LOTS, min_size=1, max_size=6), WANTED)
@examples(300)
def test_a_blend_is_finite_and_accounts_for_every_gram(ask, lots, wanted):
    answer = ask("blend", lots=lots, **wanted)
    assert_lawful(answer)
    result = answer["result"]
    used = result["lots_share_pct"] / 100 * sum(lot["kg"] for lot in lots)
    added = result.get("clay_kg", 0) + result.get("water_kg", 0) - result.get("water_to_lose_kg", 0)
    if wanted.get("target_moisture_pct_wet", 0) > STOP_PCT:
        assert "water_kg" not in result
        assert used + added <= result["make_kg"] * (1 + 1e-9)
    else:
        assert used + added == pytest.approx(result["make_kg"], rel=1e-9)
    if "make_kg" in wanted:
        assert result["make_kg"] == pytest.approx(wanted["make_kg"], rel=1e-9)


@given(HABITS, CLAY, DEAD, st.integers(1, 200))
@examples()
def test_the_closed_form_agrees_with_cast_by_cast(habit, clay, dead, count):
    walked = next(itertools.islice(forecast.casts(habit, clay, dead), count - 1, None))
    assert forecast.after(habit, clay, count, dead) == pytest.approx(walked, rel=1e-6, abs=1e-9)


@given(HABITS, CLAY, st.floats(0.1, 60), DEAD)
@examples()
def test_the_limit_is_reached_at_the_same_cast(habit, clay, limit, dead):
    found = forecast.casts_until(habit, clay, limit, dead)
    walked = [dead, *(killed for _, killed in itertools.islice(forecast.casts(habit, clay, dead), 300))]
    near = 1e-6 * max(1.0, limit)
    if found is None or found > 300:
        assert max(walked) < limit + near
    else:
        assert walked[found] >= limit - near
        assert max(walked[:found], default=0.0) < limit + near


@given(HABITS, CLAY, st.integers(1, 1000), DEAD, st.floats(0.1, 60), st.one_of(st.none(), st.floats(0.05, 5000)))
@examples(300)
def test_a_forecast_is_finite_and_never_negative(ask, habit, clay, count, dead, limit, heap):
    answer = ask(
        "forecast",
        clay_pct_dry=clay,
        clay_burnt_share=habit.burnt,
        new_sand_share=habit.replaced,
        burnt_kept_share=habit.kept,
        make_up="yes" if habit.make_up else "no",
        casts=count,
        dead_clay_pct_dry=dead,
        dead_clay_limit_pct_dry=limit,
        heap_kg=heap,
    )
    assert_lawful(answer)
    assert len(answer["result"]["clay_pct_dry"]) == len(answer["result"]["dead_clay_pct_dry"]) == count
