"""Books with any tin tests, water and tins: the dose by the tin always has an answer, is finite, and is never given where its range cannot decide."""

import json
import math

from effort import examples
from hypothesis import given
from hypothesis import strategies as some

from sandmix.materials.metals import METALS

MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 40, "clay_pct_dry": 8, "moisture_pct_wet": 3.4}
DAYS = some.sampled_from(["2027-03-02", "2027-03-02T15:00Z", "2027-03-20", "2027-04-11T08:00Z", "2027-09-01"])
PCT = some.floats(0, 80)
TESTS = some.fixed_dictionaries(
    {"kind": some.just("measured"), "at": DAYS, "compactability_read_pct": PCT},
    optional={"moisture_pct_wet": some.floats(0, 12), "water_added_kg": some.floats(0, 2)},
)
OTHERS = some.one_of(
    some.fixed_dictionaries({"kind": some.just("tempered"), "at": DAYS, "water_kg": some.floats(0, 2)}),
    some.fixed_dictionaries({"kind": some.just("poured"), "at": DAYS, "metal_kg": some.floats(0.1, 3)}),
    some.fixed_dictionaries(
        {"kind": some.just("calibrated"), "at": DAYS, "compactability_slope": some.floats(0.5, 200)},
        optional={"rammer_kg": some.floats(0.1, 10), "rammer_fall_mm": some.floats(50, 600)},
    ),
)
EVENTS = some.lists(some.one_of(TESTS, TESTS, OTHERS), max_size=9)
GIVEN = some.fixed_dictionaries(
    {"compactability_now_pct": PCT, "metal": some.sampled_from(["aluminium", "tin_bronze"])},
    optional={
        "compactability_again_pct": PCT,
        "heap_kg": some.floats(1, 300),
        "target_compactability_pct": some.floats(20, 70),
        "since_mulling_h": some.floats(0, 50),
        "compactability_slope": some.floats(0.5, 200),
    },
)
DOSES = ("water_kg", "first_water_kg", "water_most_kg", "water_to_lose_kg")


@given(events=EVENTS, asked=GIVEN)
@examples(150)
def test_a_dose_is_given_only_where_its_range_decides(ask, events, asked):
    answer = ask("tin", book=[MIXED, *events], now="2027-05-10", **asked)
    assert answer["ok"], answer
    result, text = answer["result"], json.dumps(answer)
    assert "NaN" not in text and "Infinity" not in text
    low, high = answer["doubt"]["moisture_step_pct_wet"]
    assert low <= result["moisture_step_pct_wet"] + 1e-9 and result["moisture_step_pct_wet"] <= high + 1e-9
    assert 0 <= result.get("prior_share_pct", 0) <= 100
    for word, value in result.items():
        assert not isinstance(value, float) or math.isfinite(value), word
    if any(word in result for word in DOSES):
        assert low > 0 or high < 0
        assert (high - low) / 2 <= 0.35 + 1e-6
        assert asked.get("since_mulling_h", 0) <= 24
    if "first_water_kg" in result:
        assert answer["state"]["tone"] != "stop"
        wet = result.get("moisture_pct_wet", 0.0)
        assert wet + result["moisture_step_pct_wet"] <= METALS[asked["metal"]].red_moisture_pct_wet + 1e-6
        assert result["first_water_kg"] <= result["water_most_kg"] + 1e-9
    if answer["state"]["tone"] == "stop":
        assert answer["todo"]
        assert "pour" not in [step["job"] for step in answer["next"]]
