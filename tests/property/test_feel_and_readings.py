"""Books with any handfuls, tests and casts: the feel of a handful and the charts of readings always have an answer, and never a wrong dose."""

import math

import pytest
from effort import examples
from hypothesis import given
from hypothesis import strategies as some

FEELS = ["crumbles", "weak", "prints", "shiny", "leaves_water"]
AT = some.integers(0, 60).map(lambda day: f"2027-04-{1 + day % 28:02d}T{day % 24:02d}:00Z")
MOISTURE = some.floats(0.1, 15).map(lambda pct: round(pct, 1))
TESTED = some.fixed_dictionaries(
    {"kind": some.just("measured"), "at": AT, "moisture_pct_wet": MOISTURE},
    optional={
        "feel": some.sampled_from(FEELS),
        "compactability_read_pct": some.integers(0, 80),
        "tin_g": some.integers(1, 900),
    },
)
POURED = some.fixed_dictionaries(
    {
        "kind": some.just("poured"),
        "at": AT,
        "metal_kg": some.floats(0.1, 2),
        "castings_made": some.integers(3, 9),
        "castings_scrapped": some.integers(0, 3),
    }
)
MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4}
EVENTS = some.lists(some.one_of(TESTED, TESTED, TESTED, POURED), max_size=16)


def numbers(value):
    """All numbers in an answer."""
    if isinstance(value, dict):
        return [number for part in value.values() for number in numbers(part)]
    if isinstance(value, list):
        return [number for part in value for number in numbers(part)]
    return [value] if isinstance(value, (int, float)) and not isinstance(value, bool) else []


@examples(200)
@given(events=EVENTS, feel=some.sampled_from(FEELS), heap=some.one_of(some.none(), some.floats(1, 500)))
def test_a_handful_never_gets_a_dose_that_its_range_does_not_bear_out(ask, events, feel, heap):
    answer = ask("feel", feel=feel, book=[MIXED, *events], now="2027-05-10", heap_kg=heap)
    assert answer["ok"], answer
    result, (low, high) = answer["result"], answer["doubt"]["moisture_pct_wet"]
    assert 0 <= low <= result["moisture_pct_wet"] <= high <= 25
    assert all(math.isfinite(number) for number in numbers(answer["result"]) + numbers(answer["doubt"]))
    if result["feel_doses"] != "yes":
        assert not {"water_kg", "first_water_kg", "verdict"} & result.keys()
    elif result["verdict"] == "temper":
        assert high < 3.2 + 1e-9, "no end of the range says anything but temper"
        assert result["first_water_kg"] <= result["water_kg"] <= result["water_most_kg"]
        kg = 45 if heap is None else heap
        assert result["first_water_kg"] <= kg * 1.3 * (3.5 - high) / 96.5 + 1e-9


@examples(200)
@given(events=EVENTS)
def test_charts_have_finite_limits_about_their_mean(ask, events):
    answer = ask("readings", book=[MIXED, *events])
    assert answer["ok"], answer
    result = answer["result"]
    assert all(math.isfinite(number) for number in numbers(result) + numbers(answer["charts"]))
    for key, mean in result.get("readings_mean", {}).items():
        assert result["readings_low"][key] <= mean + 1e-9
        assert result["readings_high"][key] >= mean - 1e-9
        assert result["readings_count"][key] >= 8


@pytest.mark.parametrize("kind", ["natural", "used"])
@examples(80)
@given(events=EVENTS, feel=some.sampled_from(FEELS))
def test_sand_of_another_kind_is_never_dosed_by_a_word(ask, kind, events, feel):
    answer = ask("feel", feel=feel, book=[MIXED, *events], now="2027-05-10", sand_kind=kind)
    assert answer["result"]["feel_doses"] in ("no", "not_yet")
