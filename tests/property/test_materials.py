"""What holds for a list of materials, whatever is on it."""

import pytest
from effort import examples
from hypothesis import assume, given
from hypothesis import strategies as st

SHARE = st.floats(0, 5)
PRICE = st.floats(0.01, 5)


def material(kind, **words):
    return st.fixed_dictionaries({"kind": st.just(kind), "price_per_kg": PRICE, "stock_kg": st.floats(0, 80)} | words)


LISTS = st.lists(
    st.one_of(
        material("sand", dead_fines_pct_dry=SHARE, moisture_pct_wet=SHARE),
        material("clay", clay_activity_pct=st.floats(40, 100), moisture_pct_wet=st.floats(0, 15)),
        material("mix", clay_pct_dry=st.floats(2, 12), dead_fines_pct_dry=SHARE, moisture_pct_wet=SHARE),
    ),
    min_size=2,
    max_size=5,
)
HEAPS = st.fixed_dictionaries(
    {
        "heap_kg": st.floats(5, 100),
        "moisture_pct_wet": st.floats(0, 8),
        "clay_pct_dry": st.floats(0, 10),
        "dead_fines_pct_dry": st.floats(0, 8),
        "dead_fines_limit_pct_dry": st.floats(2, 8),
        "target_clay_pct_dry": st.floats(3, 10),
        "target_kg": st.floats(5, 120),
    }
)
BASE = [
    {"kind": "sand", "name": "base sand", "price_per_kg": 0.3},
    {"kind": "clay", "name": "base clay", "price_per_kg": 3},
]


@given(heap=HEAPS, listed=LISTS, at=st.integers(0, 4), more=st.floats(0.1, 50))
@examples(300)
def test_more_stock_never_costs_more(call_bare, heap, listed, at, more):
    listed = [*BASE, *listed]
    row = 2 + at % (len(listed) - 2)
    fuller = [
        each | ({"stock_kg": each["stock_kg"] + more} if place == row else {}) for place, each in enumerate(listed)
    ]
    first, second = (call_bare("rebond", heap | {"materials": each}) for each in (listed, fuller))
    assume(first["ok"])
    assert second["ok"]
    assert second["result"]["cost"] <= first["result"]["cost"] * (1 + 1e-7) + 1e-7


@given(heap=HEAPS, listed=LISTS)
@examples(300)
def test_mass_is_conserved_and_mixing_new_is_never_cheaper(call_bare, heap, listed):
    """Mixing new is one of the plans if there is enough of all, so the plan never costs more."""
    plenty = [{word: value for word, value in row.items() if word != "stock_kg"} for row in listed]
    answer = call_bare("rebond", heap | {"materials": [*BASE, *plenty]})
    assume(answer["ok"])
    plan = answer["result"]
    added = sum(row["kg"] for row in plan["plan"])
    made = heap["heap_kg"] - plan["discard_kg"] + added + plan["water_kg"] - plan["water_to_lose_kg"]
    assert made == pytest.approx(heap["target_kg"], rel=1e-6)
    assert added == pytest.approx(sum(plan[f"{kind}_kg"] for kind in ("sand", "clay", "mix", "additive")))
    assert plan["cost"] <= plan.get("dump_cost", plan["cost"]) * (1 + 1e-7) + 1e-7
    assert plan["dead_fines_after_pct_dry"] <= heap["dead_fines_limit_pct_dry"] + 1e-6
    assert plan.get("dilute_kg", heap["target_kg"]) >= heap["target_kg"] * (1 - 1e-9)


@given(heap=HEAPS, listed=LISTS, factor=st.floats(0.1, 10))
@examples(200)
def test_the_cost_grows_with_the_batch(call_bare, heap, listed, factor):
    asked = heap | {"materials": [*BASE, *listed]}
    scaled = [row | ({"stock_kg": row["stock_kg"] * factor} if "stock_kg" in row else {}) for row in asked["materials"]]
    larger = asked | {"materials": scaled, "heap_kg": heap["heap_kg"] * factor, "target_kg": heap["target_kg"] * factor}
    one, other = call_bare("rebond", asked), call_bare("rebond", larger)
    assume(one["ok"])
    assert other["ok"]
    assert other["result"]["cost"] == pytest.approx(one["result"]["cost"] * factor, rel=1e-6, abs=1e-6)
